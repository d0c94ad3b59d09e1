/* A load below a beam that turns with it, against the balance of forces and moments of each part
 * and against a search for the lowest attitude, which know nothing of the closed form. */
#include "parallel-hang.h"

#include <locale.h>
#include <math.h>

#include "beam-hang.h"
#include "test-scale.h"

#define NEAR 1e-9

typedef struct
{
  TrnHoist hoist;
  TrnSling slings[4];
  TrnRotation drawn;
  TrnVec3 hook_point, cog;
  TrnBox box;
  double above_m, mass_kg, drop_m;
} Rig;

static double
between (GRand *rand, double a, double b)
{
  return g_rand_double_range (rand, a, b);
}

static TrnRotation
random_turn (GRand *rand)
{
  const TrnPlacement placement = { .heading_rad = between (rand, -3, 3),
                                   .pitch_rad = between (rand, -1.5, 1.5),
                                   .roll_rad = between (rand, -3, 3) };
  return trn_pose_make (&placement).turn;
}

/* From the hook point in axes of the drawn site, turned about plumb, to the load. */
static TrnVec3
to_load (const Rig *rig, double heading_rad, TrnVec3 p)
{
  const TrnRotation turn = trn_rotation_make (trn_vec3_make (0, 0, 1), heading_rad);
  return trn_vec3_add (rig->hook_point,
                       trn_rotation_apply_inverse (&rig->drawn, trn_rotation_apply (&turn, p)));
}

static void
make_rig (GRand *rand, Rig *rig)
{
  const double length_m = between (rand, 1, 8), below_m = between (rand, 0.5, 5),
               heading_rad = between (rand, -3, 3), high_m = between (rand, -2, 1),
               depth_m = between (rand, 0.5, 6);
  *rig = (Rig){ .drawn = random_turn (rand),
                .hook_point
                = { between (rand, -3, 3), between (rand, -3, 3), between (rand, -3, 3) },
                .drop_m = between (rand, 0.5, 5),
                .mass_kg = between (rand, 1e3, 1e6) };
  rig->above_m = below_m + rig->drop_m + high_m;
  for (guint i = 0; i < 4; i++)
    {
      TrnSling *sling = &rig->slings[i];
      sling->mass_kg = rig->mass_kg * between (rand, 0, 0.01);
      sling->to_beam = i < 2;
      sling->to_beam_b = i == 1;
      sling->from = i < 2    ? TRN_SLING_FROM_HOOK
                    : i == 2 ? TRN_SLING_FROM_BEAM_A
                             : TRN_SLING_FROM_BEAM_B;
      if (i >= 2)
        sling->to = to_load (rig, heading_rad,
                             trn_vec3_make ((i == 2 ? -0.5 : 0.5) * length_m, 0, high_m));
    }
  rig->hoist = (TrnHoist){ .given = TRUE,
                           .has_beam = TRUE,
                           .beam = { .length_m = length_m,
                                     .below_hook_m = below_m,
                                     .mass_kg = rig->mass_kg * between (rand, 0, 0.1),
                                     .between = { rig->slings[2].to, rig->slings[3].to } },
                           .slings = rig->slings,
                           .n_slings = 4 };
  const double far_m = 0.4 * length_m * fmin (1, (below_m + depth_m) / below_m);
  rig->cog = to_load (rig, heading_rad,
                      trn_vec3_make (between (rand, -far_m, far_m) * 0.8,
                                     between (rand, -0.5, 0.5) * depth_m, high_m - depth_m));
  const double half_m = 0.05 * fmin (depth_m, length_m);
  const TrnVec3 half
      = { between (rand, 0, half_m), between (rand, 0, half_m), between (rand, 0, half_m) };
  rig->box = (TrnBox){ trn_vec3_sub (rig->cog, half), trn_vec3_add (rig->cog, half) };
}

static TrnParallelHang
hang_of (const Rig *rig)
{
  return trn_parallel_hang (&rig->hoist, rig->hook_point, rig->above_m, &rig->drawn, rig->mass_kg,
                            &rig->box);
}

/* Ways are those of the load at rest, in which up is @up. Slings pull along themselves. */
static void
assert_balanced (const Rig *rig, const TrnParallelRest *rest, TrnVec3 cog)
{
  const TrnVec3 up = trn_rotation_apply_inverse (
      &rest->drawn_from_now, trn_rotation_apply_inverse (&rig->drawn, trn_vec3_make (0, 0, 1)));
  const TrnVec3 *points = rig->hoist.beam.between;
  TrnVec3 legs[2], pulls[2];
  for (guint i = 0; i < 2; i++)
    {
      legs[i] = trn_vec3_sub (rest->beam[i], points[i]);
      g_assert_cmpfloat_with_epsilon (trn_vec3_length (legs[i]), rig->drop_m, NEAR);
    }
  /* What each bears, by the moment about the point of the other. */
  const TrnVec3 apart = trn_vec3_sub (points[1], points[0]);
  const TrnVec3 level = trn_vec3_add_scaled (apart, up, -trn_vec3_dot (apart, up));
  const double b
      = trn_vec3_dot (trn_vec3_sub (cog, points[0]), level) / trn_vec3_dot (apart, level);
  pulls[0] = trn_vec3_scale (legs[0], (1 - b) / rig->drop_m);
  pulls[1] = trn_vec3_scale (legs[1], b / rig->drop_m);
  g_assert_cmpfloat (fmin (b, 1 - b), >, 0);
  /* The load: all forces, and their moment about its centre of gravity. */
  const TrnVec3 force = trn_vec3_sub (trn_vec3_add (pulls[0], pulls[1]), up);
  const TrnVec3 moment = trn_vec3_add (trn_vec3_cross (trn_vec3_sub (points[0], cog), pulls[0]),
                                       trn_vec3_cross (trn_vec3_sub (points[1], cog), pulls[1]));
  g_assert_cmpfloat (trn_vec3_length (force), <, NEAR);
  g_assert_cmpfloat (trn_vec3_length (moment), <, 1e2 * NEAR);
  /* The beam with its upper slings: about the hook. */
  const TrnVec3 beam
      = trn_vec3_add (trn_vec3_cross (trn_vec3_sub (rest->beam[0], rest->hook), pulls[0]),
                      trn_vec3_cross (trn_vec3_sub (rest->beam[1], rest->hook), pulls[1]));
  g_assert_cmpfloat (trn_vec3_length (beam), <, 1e2 * NEAR);
  /* Its triangle is as drawn. */
  const double upper_m = hypot (rig->hoist.beam.below_hook_m, rig->hoist.beam.length_m / 2);
  for (guint i = 0; i < 2; i++)
    g_assert_cmpfloat_with_epsilon (trn_vec3_distance (rest->beam[i], rest->hook), upper_m, NEAR);
  g_assert_cmpfloat_with_epsilon (trn_vec3_distance (rest->beam[0], rest->beam[1]),
                                  rig->hoist.beam.length_m, NEAR);
}

/* Plain statics: forces and moments of load and beam close, and the slings keep their lengths. */
static void
test_balance (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (20261127);
  for (guint i = 0; i < test_scaled (1000); i++)
    {
      Rig rig;
      make_rig (rand, &rig);
      const TrnParallelHang hang = hang_of (&rig);
      g_assert_true (hang.is_there);
      const TrnParallelRest rest = trn_parallel_hang_rest (&hang, rig.cog);
      assert_balanced (&rig, &rest, rig.cog);
    }
}

/* Where a point of the load is from the hook, in axes of the drawn load, with the beam pitched and
 * the load rolled by any angles. */
static TrnVec3
place_of (const TrnParallelHang *hang, double pitch_rad, double roll_rad, TrnVec3 p)
{
  const TrnRotation roll = trn_rotation_make (hang->along, roll_rad),
                    pitch = trn_rotation_make (trn_vec3_cross (hang->up, hang->along), pitch_rad);
  TrnVec3 way
      = trn_rotation_apply (&pitch, trn_rotation_apply (&roll, trn_vec3_sub (p, hang->middle)));
  way = trn_vec3_add_scaled (way, hang->up, -hang->drop_m);
  return trn_vec3_add (way, trn_rotation_apply (&pitch, trn_vec3_scale (hang->up, -hang->below_m)));
}

/* What the rigging weighs, as shares of the load: all of it as if at the middle of the beam, and so
 * much more of it at the end b than at the other. */
typedef struct
{
  double all, unlike;
} Weighs;

/* Of load and rigging. */
static double
height_of (const TrnParallelHang *hang, const Weighs *weighs, double pitch_rad, double roll_rad,
           TrnVec3 cog)
{
  return trn_vec3_dot (place_of (hang, pitch_rad, roll_rad, cog), hang->up)
         - weighs->all * hang->below_m * cos (pitch_rad)
         - weighs->unlike * hang->beam_m / 2 * sin (pitch_rad);
}

/* The lowest by ever smaller steps. */
static void
search_lowest (const TrnParallelHang *hang, const Weighs *weighs, TrnVec3 cog, double *pitch,
               double *roll)
{
  *pitch = *roll = 0;
  for (double step = 0.2; step > 1e-9;)
    {
      const double here = height_of (hang, weighs, *pitch, *roll, cog);
      double best = here, at[2] = { *pitch, *roll };
      for (guint i = 0; i < 8; i++)
        {
          const double a = *pitch + step * cos (i * G_PI / 4),
                       b = *roll + step * sin (i * G_PI / 4);
          const double there = height_of (hang, weighs, a, b, cog);
          if (there < best)
            {
              best = there;
              at[0] = a;
              at[1] = b;
            }
        }
      if (best < here)
        {
          *pitch = at[0];
          *roll = at[1];
        }
      else
        step *= 0.7;
    }
}

/* Slings below the beam hang at its ends; of those above some part does, the same of both.
 */
static Weighs
weigh (GRand *rand, const Rig *rig)
{
  Weighs weighs = { .all = rig->hoist.beam.mass_kg / rig->mass_kg };
  const double part = between (rand, 0, 1);
  for (guint i = 0; i < 4; i++)
    {
      const double share = rig->slings[i].mass_kg / rig->mass_kg * (i < 2 ? part : 1);
      weighs.all += share;
      weighs.unlike += i % 2 == 1 ? share : -share;
    }
  return weighs;
}

/* The lowest is at rest. */
static void
test_lowest (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (7);
  for (guint i = 0; i < test_scaled (200); i++)
    {
      Rig rig;
      make_rig (rand, &rig);
      const TrnParallelHang hang = hang_of (&rig);
      const TrnParallelRest rest = trn_parallel_hang_rest (&hang, rig.cog);
      double pitch, roll;
      const Weighs nothing = { 0, 0 };
      search_lowest (&hang, &nothing, rig.cog, &pitch, &roll);
      g_assert_cmpfloat_with_epsilon (rest.pitch_rad, pitch, 1e-6);
      g_assert_cmpfloat_with_epsilon (rest.roll_rad, roll, 1e-6);
    }
}

/* Wherever the centre of gravity is in its box, and with slings that weigh what they like at either
 * end, no point of the load is farther from where it is at rest than what is told, and the load
 * pulls no farther beside the middle of the beam. */
static void
test_bounds (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (11);
  guint near = 0, one_sided = 0, n = test_scaled (200);
  for (guint i = 0; i < n; i++)
    {
      Rig rig;
      make_rig (rand, &rig);
      const TrnParallelHang hang = hang_of (&rig);
      const TrnParallelRest rest = trn_parallel_hang_rest (&hang, rig.cog);
      const double beside = trn_parallel_hang_beside (&hang, &rig.box),
                   toward[] = { trn_parallel_hang_toward (&hang, &rig.box, FALSE),
                                trn_parallel_hang_toward (&hang, &rig.box, TRUE) };
      g_assert_cmpfloat (fmax (toward[0], toward[1]), <=, beside + 1e-12);
      double rad, m, most_share = 0;
      trn_parallel_hang_off (&hang, &rig.box, rest.pitch_rad, rest.roll_rad, rig.hook_point, &rad,
                             &m);
      for (guint k = 0; k < 10; k++)
        {
          const TrnVec3 cog = k < 8 ? trn_box_corner (&rig.box, k)
                                    : trn_vec3_mix (rig.box.lo, rig.box.hi, between (rand, 0, 1));
          const Weighs weighs = weigh (rand, &rig);
          double pitch, roll;
          search_lowest (&hang, &weighs, cog, &pitch, &roll);
          const TrnVec3 p = trn_vec3_add (
              rig.hook_point,
              trn_vec3_make (between (rand, -9, 9), between (rand, -9, 9), between (rand, -9, 9)));
          const double off_m
              = trn_vec3_distance (place_of (&hang, pitch, roll, p),
                                   place_of (&hang, rest.pitch_rad, rest.roll_rad, p)),
              told_m = m + trn_chord_m (trn_vec3_distance (p, rig.hook_point), rad);
          g_assert_cmpfloat (off_m, <=, told_m + 1e-6);
          const TrnVec3 c = trn_vec3_sub (cog, hang.middle),
                        across = trn_vec3_cross (hang.up, hang.along);
          const double beside_m
              = trn_vec3_dot (c, hang.along)
                - hypot (trn_vec3_dot (c, hang.up), trn_vec3_dot (c, across)) * tan (pitch);
          g_assert_cmpfloat (fabs (beside_m) / hang.beam_m, <=, beside + 1e-6);
          g_assert_cmpfloat (beside_m / hang.beam_m, <=, toward[1] + 1e-6);
          g_assert_cmpfloat (-beside_m / hang.beam_m, <=, toward[0] + 1e-6);
          one_sided += toward[0] < 0 || toward[1] < 0;
          most_share = fmax (most_share, off_m / told_m);
        }
      near += most_share > 0.2;
    }
  g_assert_cmpuint (near, >=, n / 2);
  g_assert_cmpuint (one_sided, >, n / 10);
}

/* A point 1 % of the drop aside, another sling, a sling from the hook, a beam that nothing holds, a
 * centre of gravity above the points or beyond an end: it hangs otherwise. */
static void
test_otherwise (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (3);
  Rig rig;
  make_rig (rand, &rig);
  const Rig good = rig;
  const TrnVec3 up = trn_rotation_apply_inverse (&rig.drawn, trn_vec3_make (0, 0, 1));
  rig.hoist.slings = rig.slings;
  g_assert_true (hang_of (&rig).is_there);
  rig.slings[2].to = trn_vec3_add_scaled (rig.slings[2].to, up, 0.01 * rig.drop_m);
  g_assert_false (hang_of (&rig).is_there);
  rig = good;
  rig.hoist.slings = rig.slings;
  rig.slings[1].to_beam_b = FALSE;
  g_assert_false (hang_of (&rig).is_there);
  rig.slings[1].to_beam = FALSE;
  g_assert_false (hang_of (&rig).is_there);
  rig.slings[1].from = TRN_SLING_FROM_BEAM_A;
  g_assert_false (hang_of (&rig).is_there);
  rig = good;
  rig.hoist.slings = rig.slings;
  rig.hoist.beam.below_hook_m = 0;
  g_assert_false (hang_of (&rig).is_there);
  rig = good;
  rig.hoist.slings = rig.slings;
  rig.box.lo = rig.box.hi = trn_vec3_add_scaled (rig.slings[3].to, up, 0.1);
  g_assert_false (hang_of (&rig).is_there);
  const TrnVec3 out = trn_vec3_sub (rig.slings[3].to, rig.slings[2].to);
  rig.box.lo = rig.box.hi
      = trn_vec3_add_scaled (trn_vec3_add_scaled (rig.slings[3].to, out, 20), up, -0.1);
  g_assert_false (hang_of (&rig).is_there);
}

/* A point a fifth of the drop across the beam from below its end: the load sinks by what the sling
 * is longer than the drop, and may turn about plumb. A second sling to the other side keeps the end
 * where it is. What a sling weighs more than the other counts by half the beam; left out at one end
 * only it may be anything. */
static void
test_play (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (5);
  for (guint i = 0; i < test_scaled (50); i++)
    {
      Rig rig;
      make_rig (rand, &rig);
      const double length_m = rig.hoist.beam.length_m, by_m = rig.drop_m / 5;
      const TrnVec3 up = trn_rotation_apply_inverse (&rig.drawn, trn_vec3_make (0, 0, 1)),
                    along = trn_vec3_unit (trn_vec3_sub (rig.slings[3].to, rig.slings[2].to)),
                    across = trn_vec3_cross (up, along), below = rig.slings[3].to;
      rig.hoist.slings = rig.slings;
      for (guint k = 0; k < 4; k++)
        rig.slings[k].mass_kg = 10;
      /* As heavy at both ends, and to one side. */
      const TrnVec3 other = rig.slings[2].to;
      rig.slings[2].to = trn_vec3_add_scaled (other, across, by_m);
      rig.slings[3].to = trn_vec3_add_scaled (below, across, by_m);
      const TrnBeamPlay side
          = trn_beam_hang_play (&rig.hoist, rig.hook_point, rig.above_m, &rig.drawn, rig.mass_kg);
      g_assert_cmpfloat_with_epsilon (side.wider_m, 20 * by_m / rig.mass_kg, NEAR);
      const TrnBeamPlay unweighed
          = trn_beam_hang_play (&rig.hoist, rig.hook_point, rig.above_m, &rig.drawn, NAN);
      g_assert_true (isinf (unweighed.wider_m));
      rig.slings[2].to = other;
      rig.slings[3].mass_kg = 30;
      const TrnBeamPlay one
          = trn_beam_hang_play (&rig.hoist, rig.hook_point, rig.above_m, &rig.drawn, rig.mass_kg);
      g_assert_cmpfloat_with_epsilon (one.sinks_m, hypot (rig.drop_m, by_m) - rig.drop_m, 1e-8);
      g_assert_cmpfloat_with_epsilon (one.skew_m, by_m, NEAR);
      g_assert_cmpfloat_with_epsilon (one.skew_rad, 2 * by_m / length_m, NEAR);
      g_assert_cmpfloat_with_epsilon (one.wider_m, (20 * length_m / 2 + 30 * by_m) / rig.mass_kg,
                                      NEAR);
      g_assert_cmpfloat_with_epsilon (one.apart_m, hypot (length_m, by_m), NEAR);
      g_assert_cmpfloat_with_epsilon (one.long_m[1], hypot (rig.drop_m, by_m), 1e-8);
      rig.slings[1] = rig.slings[3];
      rig.slings[1].to = trn_vec3_add_scaled (below, across, -by_m);
      rig.slings[1].mass_kg = NAN;
      const TrnBeamPlay two
          = trn_beam_hang_play (&rig.hoist, rig.hook_point, rig.above_m, &rig.drawn, rig.mass_kg);
      g_assert_cmpfloat (fmax (two.sinks_m, two.skew_m), <, 1e-8);
      g_assert_true (isinf (two.wider_m));
    }
}

int
main (int argc, char **argv)
{
  setlocale (LC_ALL, "C.UTF-8");
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/scene/parallel-hang/balance", test_balance);
  g_test_add_func ("/scene/parallel-hang/lowest", test_lowest);
  g_test_add_func ("/scene/parallel-hang/bounds", test_bounds);
  g_test_add_func ("/scene/parallel-hang/otherwise", test_otherwise);
  g_test_add_func ("/scene/parallel-hang/play", test_play);
  return g_test_run ();
}
