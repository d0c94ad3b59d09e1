/* Pressures and leg reactions against published and derived figures. */
#include "ground.h"

#define NEAR(value, expected, within) g_assert_cmpfloat_with_epsilon (value, expected, within)

/* 1000 kN on 1.5 × 9 m, off the middle by 0, 1.0, 1.5 and 2.0 m; derived from linear pressure
 * without pull. The last is beyond the middle third and presses over 7.5 m. */
static void
test_strip (void)
{
  static const double expected[4][4] = { { 0, 74.07, 74.07, 9 },
                                         { 1.0, 123.46, 24.69, 9 },
                                         { 1.5, 148.15, 0, 9 },
                                         { 2.0, 177.78, 0, 7.5 } };
  for (int i = 0; i < 4; i++)
    for (int side = -1; side <= 1; side += 2)
      {
        TrnPressure p;
        g_assert_true (trn_ground_strip (1000e3, 1.5, 9, side * expected[i][0], &p));
        NEAR (p.greatest_pa, 1e3 * expected[i][1], 6);
        NEAR (p.least_pa, 1e3 * expected[i][2], 6);
        NEAR (p.contact_m, expected[i][3], 1e-12);
        /* The pressure under it makes the load and its moment. */
        double sum_n = 0.5 * (p.greatest_pa + p.least_pa) * p.contact_m * 1.5;
        NEAR (sum_n, 1000e3, 1e-6);
        double from_edge_m
            = p.contact_m / 3 * (p.greatest_pa + 2 * p.least_pa) / (p.greatest_pa + p.least_pa);
        NEAR (4.5 - from_edge_m, expected[i][0], 1e-9);
      }
  TrnPressure none;
  g_assert_false (trn_ground_strip (1000e3, 1.5, 9, 4.5, &none));
  g_assert_true (isnan (none.greatest_pa));
}

/* 30.5 t on 3.00 m²: 10.17 t/m². Four equal supports: 53.35 t on four mats of 1 m², 13.34 t/m²
 * each. Derived. */
static void
test_pads (void)
{
  double reaction[4];
  NEAR (trn_ground_pad_pa (30.5, 3.00), 10.17, 0.005);
  g_assert_true (trn_ground_leg_shares (0, 0, 6, 6, 53.35, reaction));
  for (int i = 0; i < 4; i++)
    NEAR (trn_ground_pad_pa (reaction[i], 1), 13.34, 0.005);
}

/* F = W (½ ± ex/Sx)(½ ± ey/Sy): sums to W; a leg lifts off when ex > Sx/2. Derived. */
static void
test_leg_shares (void)
{
  double reaction[4];
  g_assert_true (trn_ground_leg_shares (1, -0.5, 8, 5, 1000, reaction));
  NEAR (reaction[0], 1000 * (0.5 - 1.0 / 8) * (0.5 + 0.5 / 5), 1e-9);
  NEAR (reaction[1], 1000 * (0.5 + 1.0 / 8) * (0.5 + 0.5 / 5), 1e-9);
  NEAR (reaction[2], 1000 * (0.5 - 1.0 / 8) * (0.5 - 0.5 / 5), 1e-9);
  NEAR (reaction[3], 1000 * (0.5 + 1.0 / 8) * (0.5 - 0.5 / 5), 1e-9);
  NEAR (reaction[0] + reaction[1] + reaction[2] + reaction[3], 1000, 1e-9);
  g_assert_true (trn_ground_leg_shares (4, 0, 8, 5, 1000, reaction));
  NEAR (reaction[0], 0, 1e-9);
  g_assert_false (trn_ground_leg_shares (4.01, 0, 8, 5, 1000, reaction));
  /* Off one way only, four equal springs share alike. */
  const TrnLevelPoint legs[4] = { { -4, -2.5 }, { 4, -2.5 }, { -4, 2.5 }, { 4, 2.5 } };
  g_assert_true (trn_ground_leg_shares (1.5, 0, 8, 5, 1000, reaction));
  TrnReactions springs = trn_ground_reactions (legs, 4, (TrnLevelPoint){ 1.5, 0 }, 1000);
  for (int i = 0; i < 4; i++)
    NEAR (springs.reaction_n[i], reaction[i], 1e-9);
}

/* Duerr, Effective bearing length of crane mats, 2010: A = (P + Wm)/qa, L = A/B, Lc = (L − C)/2,
 * q = P/(L B), M = q B Lc²/2. 500 kN on a mat of 15 kN, 1.2 m wide, foot 0.9 m, ground 150 kPa. */
static void
test_mat (void)
{
  TrnMat mat = trn_ground_mat (500e3, 15e3, 150e3, 1.2, 0.9);
  NEAR (mat.area_m2, 515.0 / 150, 1e-12);
  NEAR (mat.bearing_length_m, 2.861111, 1e-6);
  NEAR (mat.cantilever_m, 0.980556, 1e-6);
  NEAR (mat.pressure_pa, 145.631e3, 1);
  NEAR (mat.moment_nm, 84.014e3, 20);
  NEAR (mat.moment_nm, 500e3 / 2.8611111 * 0.9805556 * 0.9805556 / 2, 1);
  /* A foot longer than what the load needs bends nothing. */
  g_assert_cmpfloat (trn_ground_mat (10e3, 1e3, 150e3, 1.2, 2).moment_nm, ==, 0);
}

/* Two tracks: each a strip. Loads by the lever between them; derived. */
static void
test_tracks (void)
{
  TrnPressure p[2];
  g_assert_true (trn_ground_tracks (2000e3, 1.0, 0, 6, 1.5, 9, p));
  for (int side = 0; side < 2; side++)
    {
      NEAR (p[side].greatest_pa, 123.46e3, 6);
      NEAR (p[side].least_pa, 24.69e3, 6);
    }
  g_assert_true (trn_ground_tracks (2000e3, 0, 1.5, 6, 1.5, 9, p));
  NEAR (p[0].greatest_pa, 500e3 / 13.5, 1e-6);
  NEAR (p[1].greatest_pa, 1500e3 / 13.5, 1e-6);
  g_assert_false (trn_ground_tracks (2000e3, 0, 3.1, 6, 1.5, 9, p));
  g_assert_false (trn_ground_tracks (2000e3, 4.6, 0, 6, 1.5, 9, p));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ground/strip", test_strip);
  g_test_add_func ("/ground/pads", test_pads);
  g_test_add_func ("/ground/leg-shares", test_leg_shares);
  g_test_add_func ("/ground/mat", test_mat);
  g_test_add_func ("/ground/tracks", test_tracks);
  return g_test_run ();
}
