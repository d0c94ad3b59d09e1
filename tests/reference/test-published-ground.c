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

/* Of any load the shares of either way sum to W, and both have the same moments: what the beam has
 * beside springs is W ex ey/(Sx Sy) more or less. The rectangle is found however it is turned and
 * listed; one wider at one end by less than a tenth still is one, a kite is none. Derived. */
static void
test_rectangle (void)
{
  for (guint k = 0; k < 200; k++)
    {
      const double half_x = g_test_rand_double_range (1, 8),
                   half_y = g_test_rand_double_range (1, 8),
                   turn = g_test_rand_double_range (-4, 4),
                   off_x = g_test_rand_double_range (-1, 1),
                   off_y = g_test_rand_double_range (-1, 1), cosine = cos (turn), sine = sin (turn);
      const TrnLevelPoint at
          = { 3 + off_x * cosine - off_y * sine, -7 + off_x * sine + off_y * cosine };
      TrnLevelPoint legs[4];
      TrnVec3 ways[2], shares[4];
      double reaction[4], signs[4][2], beam = 0, springs = 0;
      const guint first = (guint)g_test_rand_int_range (0, 4), flip = k % 2 ? 3 : 1;
      for (guint i = 0; i < 4; i++)
        {
          const guint leg = (first + flip * i) % 4;
          const double x = leg & 1 ? half_x : -half_x, y = leg & 2 ? half_y : -half_y;
          legs[i] = (TrnLevelPoint){ 3 + x * cosine - y * sine, -7 + x * sine + y * cosine };
        }
      g_assert_true (trn_ground_rectangle (legs, ways, signs));
      g_assert_true (trn_ground_even_shares (legs, 4, shares));
      trn_ground_leg_shares (off_x, off_y, 2 * half_x, 2 * half_y, 1000, reaction);
      const double u = ways[0].x + ways[0].y * at.x_m + ways[0].z * at.y_m,
                   v = ways[1].x + ways[1].y * at.x_m + ways[1].z * at.y_m;
      for (guint i = 0; i < 4; i++)
        {
          const double like_beam = 1000 * (0.5 + signs[i][0] * u) * (0.5 + signs[i][1] * v),
                       like_spring
                       = 1000 * (shares[i].x + shares[i].y * at.x_m + shares[i].z * at.y_m);
          NEAR (like_beam, reaction[(first + flip * i) % 4], 1e-9);
          NEAR (like_beam - like_spring, 1000 * signs[i][0] * signs[i][1] * u * v, 1e-9);
          beam += like_beam;
          springs += like_spring;
        }
      NEAR (beam, 1000, 1e-9);
      NEAR (springs, 1000, 1e-9);
    }
  TrnVec3 ways[2];
  double signs[4][2];
  const TrnLevelPoint wide[4] = { { -3, -3 }, { 3, -3.2 }, { 3, 3.2 }, { -3, 3 } },
                      kite[4] = { { -3, 0 }, { 3, 0 }, { 2, -3 }, { 2, 3 } },
                      line[4] = { { 0, 0 }, { 1, 0 }, { 2, 0 }, { 3, 0 } },
                      none[4] = { { 0, 0 }, { 0, 0 }, { 0, 0 }, { 0, 0 } };
  g_assert_true (trn_ground_rectangle (wide, ways, signs));
  g_assert_false (trn_ground_rectangle (kite, ways, signs));
  g_assert_false (trn_ground_rectangle (line, ways, signs));
  g_assert_false (trn_ground_rectangle (none, ways, signs));
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
  g_test_add_func ("/ground/rectangle", test_rectangle);
  g_test_add_func ("/ground/mat", test_mat);
  g_test_add_func ("/ground/tracks", test_tracks);
  return g_test_run ();
}
