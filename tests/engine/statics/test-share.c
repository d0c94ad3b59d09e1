/* The tail's share: what is told in words, the box of the CoG, and its extremes over an up-ending,
 * certified from jets. */
#include "share.h"

#include "extreme.h"
#include "share-jet.h"
#include "test-scale.h"

#define RAD(deg) ((deg)*G_PI / 180)
#define NEAR(value, expected, within) g_assert_cmpfloat_with_epsilon (value, expected, within)

/* Main at 10 m, tail at 0, CoG at 4 m from the tail and below both. */
static void
test_flags (void)
{
  const TrnVec3 main = { 10, 0, 5 }, tail = { 0, 0, 5 };
  TrnShare share = trn_share_make (main, tail, trn_vec3_make (4, 0, 3));
  NEAR (share.tail, 0.6, 1e-12);
  NEAR (share.main, 0.4, 1e-12);
  g_assert_cmpuint (share.flags, ==, 0);

  /* Beyond the main point the tail has nothing to hold. */
  share = trn_share_make (main, tail, trn_vec3_make (11, 0, 3));
  NEAR (share.tail, -0.1, 1e-12);
  g_assert_cmpuint (share.flags, ==, TRN_SHARE_TAIL_SLACK);

  /* Beyond the tail point, below it: the main is slack. */
  share = trn_share_make (main, tail, trn_vec3_make (-1, 0, 3));
  NEAR (share.tail, 1.1, 1e-12);
  g_assert_cmpuint (share.flags, ==, TRN_SHARE_MAIN_SLACK);

  /* The same above it: it goes over. */
  share = trn_share_make (main, tail, trn_vec3_make (-1, 0, 6));
  g_assert_cmpuint (share.flags, ==,
                    TRN_SHARE_MAIN_SLACK | TRN_SHARE_TAIL_BELOW_COG | TRN_SHARE_OVER_TAIL);
  share = trn_share_make (main, tail, trn_vec3_make (4, 0, 6));
  g_assert_cmpuint (share.flags, ==, TRN_SHARE_TAIL_BELOW_COG);

  share = trn_share_make (main, trn_vec3_make (10, 0, 0), trn_vec3_make (10, 0, 2));
  g_assert_cmpuint (share.flags, ==, TRN_SHARE_IN_LINE | TRN_SHARE_TAIL_BELOW_COG);
  g_assert_true (isnan (share.tail) && isnan (share.main));

  /* Beside the plane of both lines by 0.7 m. */
  share = trn_share_make (main, tail, trn_vec3_make (4, -0.7, 3));
  NEAR (share.tail, 0.6, 1e-12);
  NEAR (share.out_of_plane_m, 0.7, 1e-12);
}

/* A tail support below the CoG comes to carry all before upright: the handbook's caution (Moss). A
 * column 10 m long, main at its top, tail 1 m off the axis at its foot, CoG in the middle: plumb
 * over the tail at atan (5/1) from lying. */
static void
test_tail_below (void)
{
  double before = trn_share_tail_of_upending (10, -1, 5, 0, RAD (70));
  g_assert_cmpfloat (before, <, 1);
  NEAR (trn_share_tail_of_upending (10, -1, 5, 0, atan2 (5, 1)), 1, 1e-12);
  g_assert_cmpfloat (trn_share_tail_of_upending (10, -1, 5, 0, RAD (80)), >, 1);
}

/* No CoG within a box gives a share outside that of its corners. */
static void
test_box (void)
{
  guint32 seed = (guint32)g_test_rand_int ();
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  g_test_message ("seed %u", seed);
  for (guint i = 0; i < test_scaled (200); i++)
    {
      TrnVec3 main = { 0, 0, g_rand_double_range (rand, 0, 9) },
              tail = { g_rand_double_range (rand, 3, 20), g_rand_double_range (rand, -5, 5), 2 };
      TrnVec3 middle = { g_rand_double_range (rand, 0, 12), 0, -1 }, corners[8];
      double h[3] = { g_rand_double (rand), g_rand_double (rand), g_rand_double (rand) };
      for (int k = 0; k < 8; k++)
        corners[k]
            = trn_vec3_make (middle.x + (k & 1 ? h[0] : -h[0]), middle.y + (k & 2 ? h[1] : -h[1]),
                             middle.z + (k & 4 ? h[2] : -h[2]));
      TrnShareRange range = trn_share_over (main, tail, corners);
      NEAR (range.tail_least + range.main_greatest, 1, 1e-12);
      NEAR (range.tail_greatest + range.main_least, 1, 1e-12);
      for (int k = 0; k < 30; k++)
        {
          TrnVec3 cog = middle;
          cog.x += h[0] * g_rand_double_range (rand, -1, 1);
          cog.y += h[1] * g_rand_double_range (rand, -1, 1);
          cog.z += h[2] * g_rand_double_range (rand, -1, 1);
          TrnShare share = trn_share_make (main, tail, cog);
          g_assert_cmpfloat (share.tail, >=, range.tail_least - 1e-12);
          g_assert_cmpfloat (share.tail, <=, range.tail_greatest + 1e-12);
          g_assert_cmpfloat (share.out_of_plane_m, <=, range.out_of_plane_m + 1e-12);
        }
    }
  const TrnVec3 same[8] = { { 0, 0, 0 } };
  g_assert_true (isnan (
      trn_share_over (trn_vec3_make (1, 1, 1), trn_vec3_make (1, 1, 5), same).tail_greatest));
}

/* ---- certified over a motion ---- */

/* A load that turns about its head by @turn_rad from lying, in a plumb plane at @yaw_rad. */
typedef struct
{
  double tail_along_m, tail_height_m, cog_along_m, cog_height_m;
  double turn_rad, yaw_rad;
  gboolean use_direction;
} Upending;

static TrnJet3
place_of (const Upending *u, TrnInterval s, double along_m, double height_m)
{
  TrnJet sine, cosine, angle = trn_jet_scale (trn_jet_variable (s), u->turn_rad);
  trn_jet_sin_cos (angle, &sine, &cosine);
  TrnJet level = trn_jet_add (trn_jet_scale (cosine, along_m), trn_jet_scale (sine, height_m));
  TrnJet up = trn_jet_sub (trn_jet_scale (cosine, height_m), trn_jet_scale (sine, along_m));
  return (TrnJet3){ trn_jet_scale (level, cos (u->yaw_rad)),
                    trn_jet_scale (level, sin (u->yaw_rad)), trn_jet_shift (up, 30) };
}

static gboolean
share_of (gconstpointer data, TrnInterval s, TrnJet *value)
{
  const Upending *u = data;
  TrnJet3 main = trn_jet3_constant (trn_vec3_make (0, 0, 30));
  TrnJet3 tail = place_of (u, s, u->tail_along_m, u->tail_height_m);
  TrnJet3 cog = place_of (u, s, u->cog_along_m, u->cog_height_m);
  *value = u->use_direction ? trn_share_tail_along_jet (
               &main, &tail, &cog, trn_vec3_make (cos (u->yaw_rad), sin (u->yaw_rad), 0))
                            : trn_share_tail_jet (&main, &tail, &cog);
  return trn_jet_is_value (value);
}

/* The least and greatest share over 0 … 80° against 20 000 samples of the closed form: within the
 * certified bounds, and these no wider than asked for. */
static void
test_extremes (void)
{
  const Upending cases[] = { { 15.525, 1.086, 7.6833, 0, RAD (80), 0.3, FALSE },
                             { 15.525, 1.086, 7.6833, 0, RAD (90), 0.3, TRUE },
                             { 15.525, -1.086, 7.6833, 0, RAD (80), 2, TRUE },
                             { 12, 1, 6, 1.4, RAD (85), -1, FALSE },
                             { 12, 1, 6, -0.4, RAD (85), -1, TRUE } };
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      const Upending *u = &cases[i];
      TrnExtremes found = trn_extremes_find (share_of, u, (TrnInterval){ 0, 1 }, 1e-6);
      g_assert_true (found.complete);
      double least = INFINITY, greatest = -INFINITY;
      for (int k = 0; k <= 20000; k++)
        {
          double share
              = trn_share_tail_of_upending (u->tail_along_m, u->tail_height_m, u->cog_along_m,
                                            u->cog_height_m, u->turn_rad * k / 20000);
          least = fmin (least, share);
          greatest = fmax (greatest, share);
        }
      g_assert_cmpfloat (found.greatest.hi, >=, greatest - 1e-13);
      g_assert_cmpfloat (found.least.lo, <=, least + 1e-13);
      NEAR (found.greatest.hi, greatest, 3e-6);
      NEAR (found.least.lo, least, 3e-6);
    }
}

/* Where the tail comes plumb under the main the share has no value: the extremes are not complete,
 * and say where. The tail point below the axis: 85.999°. */
static void
test_no_value (void)
{
  const Upending u = { 15.525, -1.086, 7.6833, 0, RAD (90), 0, TRUE };
  TrnExtremes found = trn_extremes_find (share_of, &u, (TrnInterval){ 0, 1 }, 1e-3);
  g_assert_false (found.complete);
  TrnJet value;
  g_assert_false (share_of (&u, (TrnInterval){ 85.9 / 90, 86.1 / 90 }, &value));
}

/* The tail point above the CoG, as heights of both. */
static void
test_above (void)
{
  TrnJet3 tail = trn_jet3_constant (trn_vec3_make (1, 2, 7)),
          cog = trn_jet3_constant (trn_vec3_make (4, 5, 4.5));
  TrnJet above = trn_share_tail_above_cog_jet (&tail, &cog);
  g_assert_cmpfloat (above.v.lo, <=, 2.5);
  g_assert_cmpfloat (above.v.hi, >=, 2.5);
  NEAR (above.v.lo, above.v.hi, 1e-12);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/share/flags", test_flags);
  g_test_add_func ("/share/tail-below", test_tail_below);
  g_test_add_func ("/share/box", test_box);
  g_test_add_func ("/share/extremes", test_extremes);
  g_test_add_func ("/share/no-value", test_no_value);
  g_test_add_func ("/share/above", test_above);
  return g_test_run ();
}
