/* Load shares against published figures. */
#include "share.h"

#define RAD(deg) ((deg)*G_PI / 180)

/* A vessel on two trunnions, from lying to upright; load on each of the two
 * trunnions, which are the main points. A vessel design
 * calculation to EN 13445, section on lifting a vertical vessel; formula in Moss, Pressure Vessel
 * Design Manual, lifting loads. Weight 50857.5 daN, L1 = 15.525 m, L2 = 7.6833 m, L4 = 1.086 m. */
static const double table_w_dan = 50857.5, table_l1_m = 15.525, table_l2_m = 7.6833,
                    table_l4_m = 1.086;
static const double table_dan[10]
    = { 12844.1, 12997.5, 13156.6, 13332.7, 13541.9, 13812.5, 14204.1, 14872.9, 16418.6, 25428.8 };

/* The printed load is half of P = W − T; met to 0.1 daN: the printed
 * L2 has four decimals, half of its last makes 0.08 daN. */
static void
test_table (void)
{
  for (int i = 0; i < 10; i++)
    {
      double share
          = trn_share_tail_of_upending (table_l1_m, table_l4_m, table_l2_m, 0, RAD (10.0 * i));
      g_assert_cmpfloat_with_epsilon (table_w_dan / 2 * (1 - share), table_dan[i], 0.1);
    }
}

/* The same from points in space, in a vertical plane that is turned away from the axes: head at
 * the main hook, tail point 1.086 m above the axis while lying. At 90° the CoG is plumb under the
 * main point, so that the trunnions carry all. */
static void
test_table_from_points (void)
{
  const double yaw = RAD (37), at[3] = { 120, -45, 12 };
  for (int i = 0; i < 10; i++)
    {
      double c = cos (RAD (10.0 * i)), s = sin (RAD (10.0 * i));
      double tail_level = table_l1_m * c + table_l4_m * s,
             tail_up = -table_l1_m * s + table_l4_m * c;
      double cog_level = table_l2_m * c, cog_up = -table_l2_m * s;
      TrnVec3 main = { at[0], at[1], at[2] };
      TrnVec3 tail
          = { at[0] + cos (yaw) * tail_level, at[1] + sin (yaw) * tail_level, at[2] + tail_up };
      TrnVec3 cog
          = { at[0] + cos (yaw) * cog_level, at[1] + sin (yaw) * cog_level, at[2] + cog_up };
      TrnShare share = trn_share_make (main, tail, cog);
      g_assert_cmpfloat_with_epsilon (table_w_dan / 2 * share.main, table_dan[i], 0.1);
      g_assert_cmpfloat_with_epsilon (share.tail + share.main, 1, 1e-12);
      g_assert_cmpfloat (share.out_of_plane_m, <, 1e-9);
    }
}

/* The tail point below the axis by the same amount: the denominator vanishes at 85.999°, derived
 * from the same source; before that the tail carries more and more, its line and the main's meet.
 */
static void
test_tail_below_axis (void)
{
  double angle = RAD (85.999);
  double before
      = trn_share_tail_of_upending (table_l1_m, -table_l4_m, table_l2_m, 0, angle - RAD (0.001));
  double after
      = trn_share_tail_of_upending (table_l1_m, -table_l4_m, table_l2_m, 0, angle + RAD (0.001));
  g_assert_cmpfloat (before, >, 500);
  g_assert_cmpfloat (after, <, -500);
}

/* The CoG off the axis by h, on the side that is up while the load lies: T = W (L2 cos t + h sin
 * t)/(L1 cos t + L4 sin t). Derived from the same source; worked out by hand. */
static void
test_cog_off_axis (void)
{
  static const struct
  {
    double height_m, deg, share;
  } expected[] = { { 0.3, 0, 0.494899 },
                   { 0.3, 60, 0.471269 },
                   { 0.3, 90, 0.276243 },
                   { -0.3, 30, 0.464964 },
                   { 1.086, 90, 1 } };
  for (guint i = 0; i < G_N_ELEMENTS (expected); i++)
    g_assert_cmpfloat_with_epsilon (trn_share_tail_of_upending (table_l1_m, table_l4_m, table_l2_m,
                                                                expected[i].height_m,
                                                                RAD (expected[i].deg)),
                                    expected[i].share, 0.5e-6);
}

/* L4 = 0: the share does not change until upright. There it jumps: one point is plumb over the
 * other, and no share is told. Plain statics. */
static void
test_on_axis (void)
{
  for (double deg = 0; deg < 90; deg += 7.5)
    g_assert_cmpfloat_with_epsilon (
        trn_share_tail_of_upending (table_l1_m, 0, table_l2_m, 0, RAD (deg)),
        table_l2_m / table_l1_m, 1e-12);
  g_assert_cmpfloat_with_epsilon (
      trn_share_tail_of_upending (table_l1_m, 0, table_l2_m, 0, RAD (89.999)),
      table_l2_m / table_l1_m, 1e-9);
  const TrnVec3 main = { 3, 4, 20 }, tail = { 3, 4, 20 - table_l1_m },
                cog = { 3, 4, 20 - table_l2_m };
  TrnShare share = trn_share_make (main, tail, cog);
  g_assert_cmpuint (share.flags & TRN_SHARE_IN_LINE, ==, TRN_SHARE_IN_LINE);
  g_assert_true (isnan (share.tail) && isnan (share.main));
}

/* Two hooks, tilt 3° and CoG envelope: 0027/ND Rev 11.2, App. B.1.2, inputs and formula; figures
 * derived. L 25 m, c 12, d 13, a 10, b 14, x 0.9, z 0.8. */
static void
test_two_hooks (void)
{
  double greatest[2];
  TrnTwoHooks hooks = { .distance1_m = 12,
                        .distance2_m = 13,
                        .height1_m = 10,
                        .height2_m = 14,
                        .envelope_m = 0.9,
                        .envelope_up_m = 0.8,
                        .tilt_rad = RAD (3) };
  trn_share_two_hooks (&hooks, greatest);
  g_assert_cmpfloat_with_epsilon (greatest[0], 0.58214, 0.5e-5);
  g_assert_cmpfloat_with_epsilon (greatest[1], 0.54319, 0.5e-5);

  /* The general formula from points over the corners of the same box and both ends of the tilt. */
  double worst[2] = { 0, 0 };
  for (int way = -1; way <= 1; way += 2)
    {
      double c = cos (RAD (3)), s = way * sin (RAD (3));
      TrnVec3 points[10] = { { -12, 0, 10 }, { 13, 0, 14 } };
      for (int i = 0; i < 8; i++)
        points[2 + i] = trn_vec3_make (i & 1 ? 0.9 : -0.9, 0, i & 2 ? 0.8 : -0.8);
      for (int i = 0; i < 10; i++)
        points[i] = trn_vec3_make (points[i].x * c - points[i].z * s, 0,
                                   points[i].x * s + points[i].z * c);
      TrnShareRange range = trn_share_over (points[0], points[1], &points[2]);
      worst[0] = fmax (worst[0], range.main_greatest);
      worst[1] = fmax (worst[1], range.tail_greatest);
    }
  g_assert_cmpfloat_with_epsilon (worst[0], greatest[0], 1e-12);
  g_assert_cmpfloat_with_epsilon (worst[1], greatest[1], 1e-12);

  hooks.envelope_m = hooks.envelope_up_m = hooks.tilt_rad = 0;
  trn_share_two_hooks (&hooks, greatest);
  g_assert_cmpfloat_with_epsilon (greatest[0], 0.52, 1e-12);
  g_assert_cmpfloat_with_epsilon (greatest[1], 0.48, 1e-12);
}

/* Four lift points: the same source, B 20, e 11, f 9, y 0.6. */
static void
test_four_points (void)
{
  static const double expected[4] = { 0.27943, 0.33764, 0.26073, 0.31505 };
  double greatest[2], four[4];
  TrnTwoHooks hooks = { 12, 13, 10, 14, 0.9, 0.8, RAD (3) };
  trn_share_two_hooks (&hooks, greatest);
  trn_share_four_points (greatest, 11, 9, 0.6, four);
  for (int i = 0; i < 4; i++)
    g_assert_cmpfloat_with_epsilon (four[i], expected[i], 0.6e-5);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/share/table", test_table);
  g_test_add_func ("/share/table-from-points", test_table_from_points);
  g_test_add_func ("/share/tail-below-axis", test_tail_below_axis);
  g_test_add_func ("/share/cog-off-axis", test_cog_off_axis);
  g_test_add_func ("/share/on-axis", test_on_axis);
  g_test_add_func ("/share/two-hooks", test_two_hooks);
  g_test_add_func ("/share/four-points", test_four_points);
  return g_test_run ();
}
