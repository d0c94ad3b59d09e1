/* How a load hangs: closed forms, loads that are held in more than one way or in none, and the
 * bound of the lean over all places of the centre of gravity. */
#include "hanging.h"

#include "quad.h"
#include "test-scale.h"

#define RAD(deg) ((deg)*G_PI / 180)
#define NEAR(value, expected, within) g_assert_cmpfloat_with_epsilon (value, expected, within)

static const TrnRotation level = { { { 1, 0, 0 }, { 0, 1, 0 }, { 0, 0, 1 } } };

/* One hook at a point of the load, CoG 0.3 m aside and 4 m below: the load leans by atan (0.3/4),
 * towards −X up, and keeps its heading. */
static void
test_point (void)
{
  TrnRotation turn;
  g_assert_true (
      trn_hang_from_point (trn_vec3_make (1, 2, 5), trn_vec3_make (1.3, 2, 1), &level, &turn));
  TrnVec3 down = trn_rotation_apply (&turn, trn_vec3_make (0.3, 0, -4));
  NEAR (hypot (down.x, down.y), 0, 1e-12);
  g_assert_cmpfloat (down.z, <, 0);
  NEAR (trn_rotation_angle_between (&level, &turn), atan2 (0.3, 4), 1e-12);
  TrnVec3 across = trn_rotation_apply (&turn, trn_vec3_make (0, 1, 0));
  NEAR (across.y, 1, 1e-12);
  /* Upside down is a half turn, about some level axis. */
  g_assert_true (
      trn_hang_from_point (trn_vec3_make (0, 0, -1), trn_vec3_make (0, 0, 0), &level, &turn));
  NEAR (trn_rotation_angle_between (&level, &turn), G_PI, 1e-12);
  g_assert_false (
      trn_hang_from_point (trn_vec3_make (1, 1, 1), trn_vec3_make (1, 1, 1), &level, &turn));
}

/* The least turn: of all attitudes with the CoG plumb below, none is nearer to the drawn one. */
static void
test_least_turn (void)
{
  const TrnVec3 hook = { 0.4, -0.2, 3 }, cog = { 0.1, 0.3, -1 };
  TrnRotation drawn = trn_rotation_make (trn_vec3_unit (trn_vec3_make (1, 2, 3)), 0.7), turn;
  g_assert_true (trn_hang_from_point (hook, cog, &drawn, &turn));
  double least = trn_rotation_angle_between (&drawn, &turn);
  for (int deg = 1; deg < 360; deg++)
    {
      TrnRotation yaw = trn_rotation_make (trn_vec3_make (0, 0, 1), RAD (deg));
      TrnRotation other = trn_rotation_multiply (&yaw, &turn);
      g_assert_cmpfloat (trn_rotation_angle_between (&drawn, &other), >=, least - 1e-9);
    }
}

/* One leg: as from its lug; the leg's length does not matter. */
static void
test_one_leg (void)
{
  const TrnHangLeg leg = { { 1, 0, 0 }, 5 };
  TrnHang hang;
  g_assert_true (trn_hang_from_legs (&leg, 1, trn_vec3_make (0, 0, -2), &level, &hang));
  NEAR (hang.lean_rad, atan2 (1, 2), 1e-12);
  NEAR (hang.tension[0], 1, 1e-12);
  NEAR (hang.hook_above_cog_m, 5 + sqrt (5), 1e-12);
  NEAR (hang.cog_below_lugs_m, sqrt (5), 1e-12);
  g_assert_true (hang.is_lowest);
  g_assert_cmpuint (hang.n_taut, ==, 1);
}

/* Two legs of unequal length to lugs 6 m apart, CoG 3 m below their middle. The hook is at the top
 * of a triangle of sides 6, 5, 4; it leans by the angle of the line from there to the CoG. */
static void
test_two_legs (void)
{
  const TrnHangLeg legs[2] = { { { -3, 0, 0 }, 5 }, { { 3, 0, 0 }, 4 } };
  TrnHang hang;
  g_assert_true (trn_hang_from_legs (legs, 2, trn_vec3_make (0, 0, -3), &level, &hang));
  double x = (25 - 16) / 12.0, z = sqrt (25 - (x + 3) * (x + 3));
  NEAR (hang.hook.x, x, 1e-12);
  NEAR (hang.hook.y, 0, 1e-12);
  NEAR (hang.hook.z, z, 1e-12);
  NEAR (hang.lean_rad, atan2 (x, z + 3), 1e-12);
  /* Lami: each tension over the sine of the angle between the other two forces. */
  double a = atan2 (x + 3, z) + hang.lean_rad * -1, b = atan2 (3 - x, z) + hang.lean_rad;
  NEAR (hang.tension[0], sin (b) / sin (a + b), 1e-12);
  NEAR (hang.tension[1], sin (a) / sin (a + b), 1e-12);
}

/* Two legs and the CoG above the line of the lugs: the load turns over, there is no other way. */
static void
test_turns_over (void)
{
  const TrnHangLeg legs[2] = { { { -3, 0, 0 }, 5 }, { { 3, 0, 0 }, 5 } };
  TrnHang hang;
  g_assert_true (trn_hang_from_legs (legs, 2, trn_vec3_make (0, 0, 0.5), &level, &hang));
  NEAR (hang.lean_rad, G_PI, 1e-9);
  NEAR (hang.cog_below_lugs_m, 0.5, 1e-12);
}

/* Three legs at 120° hold a load with its CoG above the lugs upright, but only just: it would hang
 * lower the other way up. It is said. */
static void
test_top_heavy (void)
{
  TrnHangLeg legs[3];
  for (int i = 0; i < 3; i++)
    legs[i] = (TrnHangLeg){ { 2 * cos (RAD (120 * i)), 2 * sin (RAD (120 * i)), 0 }, 5 };
  TrnHang hang;
  g_assert_true (trn_hang_from_legs (legs, 3, trn_vec3_make (0, 0, 0.5), &level, &hang));
  NEAR (hang.lean_rad, 0, 1e-9);
  NEAR (hang.cog_below_lugs_m, -0.5, 1e-9);
  g_assert_false (hang.is_lowest);
  g_assert_cmpuint (hang.n_taut, ==, 3);
  for (int i = 0; i < 3; i++)
    NEAR (hang.tension[i], 5 / sqrt (21) / 3, 1e-9);
  /* Over the line between two lugs it is not held at all: it hangs the other way up. */
  TrnVec3 over = trn_vec3_mix (legs[0].lug, legs[1].lug, 0.5);
  over = trn_vec3_add_scaled (over, trn_vec3_sub (hang.hook, over), 0.1);
  g_assert_true (trn_hang_from_legs (legs, 3, over, &level, &hang));
  g_assert_cmpfloat (hang.lean_rad, >, RAD (90));
  /* Four legs on a square hold it as three do. */
  TrnHangLeg four[4];
  for (int i = 0; i < 4; i++)
    four[i] = (TrnHangLeg){ { 2 * cos (RAD (90 * i)), 2 * sin (RAD (90 * i)), 0 }, 5 };
  g_assert_true (trn_hang_from_legs (four, 4, trn_vec3_make (0, 0, 0.5), &level, &hang));
  NEAR (hang.lean_rad, 0, 1e-9);
  NEAR (hang.cog_below_lugs_m, -0.5, 1e-9);
  /* With the CoG below them it is the lowest. */
  g_assert_true (trn_hang_from_legs (legs, 3, trn_vec3_make (0, 0, -0.5), &level, &hang));
  g_assert_true (hang.is_lowest);
}

/* Four legs on a square, one 5 cm too long: it is slack or one of the others is; two to three carry
 * all, and what is told as slack is within reach. Four like legs: all taut, shared in one way of
 * many. */
static void
test_four_legs (void)
{
  TrnHangLeg legs[4];
  for (int i = 0; i < 4; i++)
    legs[i] = (TrnHangLeg){ { 2 * cos (RAD (90 * i)), 2 * sin (RAD (90 * i)), 0 }, 5 };
  TrnHang hang;
  g_assert_true (trn_hang_from_legs (legs, 4, trn_vec3_make (0, 0, -2), &level, &hang));
  NEAR (hang.lean_rad, 0, 1e-9);
  g_assert_cmpuint (hang.n_taut, ==, 4);
  g_assert_false (hang.is_shared_one_way);
  legs[0].length_m += 0.05;
  g_assert_true (trn_hang_from_legs (legs, 4, trn_vec3_make (0, 0, -2), &level, &hang));
  g_assert_true (hang.is_shared_one_way);
  g_assert_true (hang.tension[0] == 0 || hang.tension[2] == 0);
  g_assert_cmpfloat (hang.force_residual, <, 1e-12);
}

/* Legs that cannot meet, and lugs and lengths that are no numbers. */
static void
test_none (void)
{
  TrnHangLeg legs[2] = { { { -3, 0, 0 }, 2 }, { { 3, 0, 0 }, 2 } };
  TrnHang hang;
  const TrnVec3 cog = { 0, 0, -1 };
  g_assert_false (trn_hang_from_legs (legs, 2, cog, &level, &hang));
  legs[0].length_m = NAN;
  g_assert_false (trn_hang_from_legs (legs, 2, cog, &level, &hang));
  legs[0].length_m = 0;
  g_assert_false (trn_hang_from_legs (legs, 2, cog, &level, &hang));
  legs[0].length_m = INFINITY;
  g_assert_false (trn_hang_from_legs (legs, 2, cog, &level, &hang));
}

/* ---- bounds over a box ---- */

static TrnVec3
random_in (GRand *rand, const TrnBox *box)
{
  TrnVec3 s = trn_box_size (box);
  return trn_vec3_make (box->lo.x + s.x * g_rand_double (rand),
                        box->lo.y + s.y * g_rand_double (rand),
                        box->lo.z + s.z * g_rand_double (rand));
}

static double
lean_at (const TrnHangLeg *legs, guint n, TrnVec3 cog, TrnVec3 up)
{
  TrnHang hang;
  TrnRotation attitude = level;
  g_assert_true (trn_hang_from_point (up, trn_vec3_make (0, 0, 0), &attitude, &attitude));
  g_assert_true (trn_hang_from_legs (legs, n, cog, &attitude, &hang));
  TrnVec3 v = trn_vec3_sub (hang.hook, cog);
  return atan2 (trn_vec3_length (trn_vec3_cross (v, up)), trn_vec3_dot (v, up));
}

/* From a point the bound is that of a corner. Level with the hook there is none. */
static void
test_bound_from_point (void)
{
  TrnBox box = { { -0.2, -0.1, -3 }, { 0.2, 0.1, -2 } };
  const TrnVec3 hook = { 0, 0, 0 }, up = { 0, 0, 1 };
  NEAR (trn_hang_lean_bound_from_point (hook, &box, up), atan2 (hypot (0.2, 0.1), 2), 1e-9);
  box.hi.z = 0;
  NEAR (trn_hang_lean_bound_from_point (hook, &box, up), G_PI, 1e-15);
}

/* Two to four legs with random lengths, and boxes of up to 0.4 m: no CoG in the box leans more than
 * the bound (corners and random places within), and the bound is near to what is found. */
static void
test_bound_from_legs (void)
{
  guint32 seed = (guint32)g_test_rand_int ();
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  g_test_message ("seed %u", seed);
  guint n_bounded = 0, n_tight = 0;
  for (guint i = 0; i < test_scaled (60); i++)
    {
      const guint n = 2 + i % 3;
      TrnHangLeg legs[4];
      TrnBox box = { { -0.2, -0.15, -3 }, { 0.2, 0.15, -2.8 } };
      TrnHang hang;
      for (guint k = 0; k < n; k++)
        {
          double a = RAD (360.0 * k / n) + g_rand_double_range (rand, -0.2, 0.2);
          legs[k].lug = trn_vec3_make (3 * cos (a), 2 * sin (a), g_rand_double_range (rand, 0, 1));
          legs[k].length_m = hypot (3.5, 5) + (i % 2 == 0 ? g_rand_double_range (rand, 0, 0.5) : 0);
        }
      g_assert_true (trn_hang_from_legs (legs, n, trn_box_centre (&box), &level, &hang));
      TrnVec3 up = trn_rotation_apply_inverse (&hang.site_from_load, trn_vec3_make (0, 0, 1));
      double bound = trn_hang_lean_bound_from_legs (legs, n, &box, up, RAD (0.05)), seen = 0;
      for (guint k = 0; k < 8; k++)
        seen = fmax (seen, lean_at (legs, n, trn_box_corner (&box, k), up));
      for (guint k = 0; k < 300; k++)
        seen = fmax (seen, lean_at (legs, n, random_in (rand, &box), up));
      g_assert_cmpfloat (seen, <=, bound);
      n_bounded += bound < G_PI;
      n_tight += bound <= seen + RAD (0.2);
    }
  g_test_message ("%u bounded, %u within 0.2°", n_bounded, n_tight);
  g_assert_cmpuint (n_bounded, >=, test_scaled (60) * 9 / 10);
  g_assert_cmpuint (n_tight, >=, test_scaled (60) * 9 / 10);
}

/* Two slings to lugs 5 m apart, the hook 5 m above and the centre of gravity 1.25 m below them: in
 * the plane of the slings hook and load are one body, which leans by atan (x/(6.25 − z)); across
 * that it turns about the lugs, by atan (y/(1.25 − z)). A larger box has no smaller bound. In the
 * load the hook goes along its circle about the lugs, by as much as the lean across. */
static void
test_two_slings (void)
{
  const double length = hypot (2.5, 5);
  const TrnHangLeg legs[2] = { { { -2.5, 0, 0 }, length }, { { 2.5, 0, 0 }, length } };
  static const TrnVec3 halves[]
      = { { 0.1, 0.005, 0 },  { 0.1, 0.005, 0.02 }, { 0.1, 0.01, 0.02 }, { 0.1, 0.02, 0.02 },
          { 0.1, 0.02, 0.1 }, { 0.3, 0.02, 0.1 },   { 0.3, 0.2, 0.1 } };
  const TrnVec3 up = { 0, 0, 1 }, cog = { 0, 0, -1.25 }, hook = { 0, 0, 5 };
  double before = 0;
  for (guint i = 0; i < G_N_ELEMENTS (halves); i++)
    {
      const TrnVec3 half = halves[i];
      const TrnBox box = { trn_vec3_sub (cog, half), trn_vec3_add (cog, half) };
      const double across = atan (half.y / (1.25 - half.z)),
                   along = atan (half.x / (5 + hypot (half.y, 1.25 - half.z))),
                   lean = acos (cos (along) * cos (across));
      const double bound = trn_hang_lean_bound_from_legs (legs, 2, &box, up, 1e-4),
                   play = trn_hang_play_bound_from_legs (legs, 2, &box, up, hook, 1e-3);
      g_test_message ("lean %.4f°, bound %.4f°, play %.4f m", lean * 180 / G_PI, bound * 180 / G_PI,
                      play);
      g_assert_cmpfloat (bound, >=, lean - 1e-9);
      g_assert_cmpfloat (bound, <=, lean + RAD (0.1));
      g_assert_cmpfloat (bound, >=, before);
      before = bound - 1e-4;
      const double circle = 2 * 5 * sin (across / 2);
      g_assert_cmpfloat (play, >=, circle - 1e-9);
      g_assert_cmpfloat (play, <=, circle + 0.06);
    }
}

/* The hook goes nowhere in the load that the bound does not allow. */
static void
test_random_play (void)
{
  guint n_tight = 0;
  for (guint i = 0; i < test_scaled (12); i++)
    {
      TrnHangLeg legs[3];
      const guint n = 2 + i % 2;
      const TrnBox box = { { -0.2, -0.15, -3 }, { 0.2, 0.15, -2.8 } };
      TrnHang nominal, hang;
      for (guint k = 0; k < n; k++)
        {
          const double a = RAD (360.0 * k / n) + g_test_rand_double_range (-0.2, 0.2);
          legs[k].lug = trn_vec3_make (3 * cos (a), 2 * sin (a), g_test_rand_double_range (0, 1));
          legs[k].length_m = hypot (3.5, 5) + g_test_rand_double_range (0, 0.5);
        }
      g_assert_true (trn_hang_from_legs (legs, n, trn_box_centre (&box), &level, &nominal));
      const TrnVec3 up
          = trn_rotation_apply_inverse (&nominal.site_from_load, trn_vec3_make (0, 0, 1));
      const double bound = trn_hang_play_bound_from_legs (legs, n, &box, up, nominal.hook, 1e-3);
      double seen = 0;
      for (guint k = 0; k < 300; k++)
        {
          const TrnVec3 c = trn_vec3_make (g_test_rand_double_range (box.lo.x, box.hi.x),
                                           g_test_rand_double_range (box.lo.y, box.hi.y),
                                           g_test_rand_double_range (box.lo.z, box.hi.z));
          g_assert_true (
              trn_hang_from_legs (legs, n, k < 8 ? trn_box_corner (&box, k) : c, &level, &hang));
          seen = fmax (seen, trn_vec3_distance (hang.hook, nominal.hook));
        }
      g_assert_false (seen > bound);
      n_tight += bound <= seen + 0.05;
    }
  g_test_message ("%u within 0.05 m", n_tight);
  g_assert_cmpuint (n_tight, >=, test_scaled (12) * 3 / 4);
}

/* Whether an angle up to a right angle is no less than that of @v to @up, in quadruple precision.
 */
static gboolean
is_as_much (double angle_rad, QuadVec v, TrnVec3 up)
{
  Quad sine, cosine;
  quad_sin_cos (angle_rad, &sine, &cosine);
  const QuadVec n = quad_vec (up);
  return quad_product (v, n) * sine >= quad_length (quad_cross (v, n)) * cosine;
}

/* One place of the centre of gravity: the bound of the lean is the lean itself, and only what is
 * added for rounding keeps it above that. Where the hook is on
 * two like legs is known: the bound of how far that is from where it was worked out is above 0. */
static void
test_one_place (void)
{
  const TrnVec3 up = { 0, 0, 1 };
  for (guint i = 0; i < test_scaled (300); i++)
    {
      const TrnVec3 cog = trn_vec3_make (g_test_rand_double_range (-0.5, 0.5), 0,
                                         g_test_rand_double_range (-3, -1));
      const TrnBox box = { cog, cog };
      const TrnVec3 hook = trn_vec3_make (g_test_rand_double_range (-0.5, 0.5), 0.3, 4);
      const QuadVec v = quad_sub (quad_vec (hook), quad_vec (cog));
      g_assert_true (is_as_much (trn_hang_lean_bound_from_point (hook, &box, up), v, up));
      const double length = g_test_rand_double_range (3, 9);
      const TrnHangLeg legs[2] = { { { -2.5, 0, 0 }, length }, { { 2.5, 0, 0 }, length } };
      const TrnBox below = { { 0, 0, cog.z }, { 0, 0, cog.z } };
      const Quad truly = quad_sqrt ((Quad)length * length - 6.25);
      TrnHang hang;
      g_assert_true (trn_hang_from_legs (legs, 2, below.lo, &level, &hang));
      const QuadVec off = quad_sub (quad_vec (hang.hook), (QuadVec){ 0, 0, truly });
      g_assert_true (trn_hang_play_bound_from_legs (legs, 2, &below, up, hang.hook, 1e-6)
                     >= quad_length (off));
    }
}

/* A box so small that the hook is taken for one that stays: it goes by less than a billionth of how
 * high it is, and so the load leans by more than from any one of its places. As in two slings, by
 * y/1.25 across, and from the hook of the other side by y/6.25. */
static void
test_hook_that_all_but_stays (void)
{
  const double length = hypot (2.5, 5);
  const TrnHangLeg legs[2] = { { { -2.5, 0, 0 }, length }, { { 2.5, 0, 0 }, length } };
  const TrnVec3 up = { 0, 0, 1 };
  for (double y = 1e-10; y < 2e-9; y += 1e-10)
    {
      const TrnBox box = { { 0, 0, -1.25 }, { 0, y, -1.25 } };
      g_assert_cmpfloat (trn_hang_lean_bound_from_legs (legs, 2, &box, up, 1e-4), >=, y / 1.25);
    }
}

/* A load that may be top-heavy somewhere in the box, on two legs, has no bound. */
static void
test_no_bound (void)
{
  const TrnHangLeg legs[2] = { { { -3, 0, 0 }, 5 }, { { 3, 0, 0 }, 5 } };
  TrnBox box = { { -0.1, -0.1, -0.2 }, { 0.1, 0.1, 0.1 } };
  NEAR (trn_hang_lean_bound_from_legs (legs, 2, &box, trn_vec3_make (0, 0, 1), RAD (0.05)), G_PI,
        1e-12);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/hang/point", test_point);
  g_test_add_func ("/hang/least-turn", test_least_turn);
  g_test_add_func ("/hang/one-leg", test_one_leg);
  g_test_add_func ("/hang/two-legs", test_two_legs);
  g_test_add_func ("/hang/turns-over", test_turns_over);
  g_test_add_func ("/hang/top-heavy", test_top_heavy);
  g_test_add_func ("/hang/four-legs", test_four_legs);
  g_test_add_func ("/hang/none", test_none);
  g_test_add_func ("/hang/bound-from-point", test_bound_from_point);
  g_test_add_func ("/hang/bound-from-legs", test_bound_from_legs);
  g_test_add_func ("/hang/no-bound", test_no_bound);
  g_test_add_func ("/hang/two-slings", test_two_slings);
  g_test_add_func ("/hang/random-play", test_random_play);
  g_test_add_func ("/hang/one-place", test_one_place);
  g_test_add_func ("/hang/all-but-stays", test_hook_that_all_but_stays);
  return g_test_run ();
}
