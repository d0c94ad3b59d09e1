/* Wind and sway against published figures. */
#include <math.h>

#include "gravity.h"
#include "sway.h"
#include "wind.h"

#define NEAR(value, expected, within) g_assert_cmpfloat_with_epsilon (value, expected, within)

/* 0.613 v²: 61.3, 120.1 and 245 N/m² at 10, 14 and 20 m/s, trade press. v²/1.6 is 2 % more. */
static void
test_pressure (void)
{
  NEAR (trn_wind_pressure_pa (10, TRN_AIR_613_KG_M3), 61.3, 0.05);
  NEAR (trn_wind_pressure_pa (14, TRN_AIR_613_KG_M3), 120.1, 0.06);
  NEAR (trn_wind_pressure_pa (20, TRN_AIR_613_KG_M3), 245, 0.5);
  NEAR (trn_wind_pressure_pa (20, TRN_AIR_EN_KG_M3), 20 * 20 / 1.6, 1e-9);
  NEAR (trn_wind_pressure_pa (7, TRN_AIR_EN_KG_M3) / trn_wind_pressure_pa (7, TRN_AIR_613_KG_M3),
        1.02, 0.001);
  NEAR (trn_wind_speed_m_s (trn_wind_pressure_pa (11.3, 1.25), 1.25), 11.3, 1e-12);
}

/* EN 1991-1-4, category III, vb 22 m/s, z 7.02 m, ρ 1.25: a published calculation, recomputed. */
static void
test_profile_22 (void)
{
  TrnWindProfile p = trn_wind_profile (TRN_TERRAIN_III, 22, 7.02, TRN_AIR_EN_KG_M3);
  NEAR (p.terrain_factor, 0.215389, 0.5e-6);
  NEAR (p.mean_m_s, 14.939, 0.5e-3);
  NEAR (p.turbulence, 0.31718, 0.5e-5);
  NEAR (p.peak_pa, 449, 0.5);
}

/* The same, vb 26 m/s, z 8 m: Steel Buildings in Europe, SSB03; the book rounds qp to 659. */
static void
test_profile_26 (void)
{
  TrnWindProfile p = trn_wind_profile (TRN_TERRAIN_III, 26, 8, TRN_AIR_EN_KG_M3);
  NEAR (trn_wind_pressure_pa (26, TRN_AIR_EN_KG_M3), 422.5, 1e-9);
  NEAR (p.roughness_factor, 0.7072, 0.5e-4);
  NEAR (p.peak_pa, 661.8, 0.05);
  NEAR (p.peak_pa, 659, 3);
}

/* Category I, vb 40.9 m/s, z0 0.01, z 5 m: a published calculation. */
static void
test_profile_40 (void)
{
  TrnWindProfile p = trn_wind_profile (TRN_TERRAIN_I, 40.9, 5, TRN_AIR_EN_KG_M3);
  NEAR (p.terrain_factor, 0.170, 0.5e-3);
  NEAR (p.roughness_factor, 1.055, 0.5e-3);
  NEAR (p.mean_m_s, 43.1, 0.06);
  NEAR (p.turbulence, 0.161, 0.5e-3);
}

/* z0/z_min: I 0.01/1 and III 0.3/5 m as read; II 0.05/2 and IV 1.0/10 m from memory. Below the
 * least height that height counts. kr of category II is 0.19 by its own formula. */
static void
test_terrains (void)
{
  static const double least_m[4] = { 1, 2, 5, 10 }, roughness_m[4] = { 0.01, 0.05, 0.3, 1.0 };
  for (int i = 0; i < 4; i++)
    {
      TrnWindProfile at = trn_wind_profile ((TrnTerrain)i, 25, least_m[i], 1.25);
      TrnWindProfile below = trn_wind_profile ((TrnTerrain)i, 25, 0.1, 1.25);
      TrnWindProfile above = trn_wind_profile ((TrnTerrain)i, 25, least_m[i] + 1, 1.25);
      g_assert_cmpfloat (below.peak_pa, ==, at.peak_pa);
      g_assert_cmpfloat (above.peak_pa, >, at.peak_pa);
      NEAR (at.turbulence, 1 / log (least_m[i] / roughness_m[i]), 1e-12);
    }
  NEAR (trn_wind_profile (TRN_TERRAIN_II, 25, 10, 1.25).terrain_factor, 0.19, 1e-12);
}

/* ((z/10)^0.14 + 0.4) v: crane manual practice, figures derived. */
static void
test_gust (void)
{
  static const double expected[4][2]
      = { { 10, 1.400 }, { 20, 1.502 }, { 30, 1.566 }, { 50, 1.653 } };
  for (int i = 0; i < 4; i++)
    NEAR (trn_wind_gust_m_s (1, expected[i][0]), expected[i][1], 0.5e-3);
}

/* 2 t, 9 m², c_w 1: 0.516 of the limit. EN 13000 practice: up to 1.2 m² for each tonne. */
static void
test_sail_area (void)
{
  NEAR (trn_wind_permissible_m_s (1, TRN_WIND_REFERENCE_M2_KG, 2000, 9, 1), 0.516, 0.5e-3);
  /* A small sail does not raise the limit. */
  g_assert_cmpfloat (trn_wind_permissible_m_s (9, TRN_WIND_REFERENCE_M2_KG, 2000, 0.1, 1), ==, 9);
  g_assert_cmpfloat (trn_wind_permissible_m_s (9, TRN_WIND_REFERENCE_M2_KG, 2000, 0, 1), ==, 9);
}

/* A vessel on the hook, 133.65 m², 96.8 t, c_w 1.2, reference 1.0 m²/t at c_w 1.2, limit 11.3 m/s,
 * q = v²/1.6: a heavy-lift wind calculation; last value derived. */
static void
test_vessel (void)
{
  double v = trn_wind_permissible_m_s (11.3, 1.0e-3 * 1.2, 96.8e3, 133.65, 1.2);
  double q = trn_wind_pressure_pa (v, TRN_AIR_EN_KG_M3);
  NEAR (v, 9.617, 0.5e-3);
  NEAR (q, 57.80, 0.005);
  NEAR (trn_wind_force_n (q, 1.2, 133.65), 9270.29, 0.005);
}

/* tan φ = F/W; the offset to first order is not below the true one. */
static void
test_sway (void)
{
  double f = 9270.29, w = 96.8e3 * TRN_GRAVITY_M_S2;
  NEAR (tan (trn_sway_angle_rad (f, w)), f / w, 1e-15);
  NEAR (trn_sway_offset_m (f, w, 30), 30 * f / w, 1e-12);
  for (double k = 0; k < 2; k += 0.1)
    g_assert_cmpfloat (trn_sway_offset_m (k, 1, 5), >=, 5 * sin (trn_sway_angle_rad (k, 1)));
}

/* Radius 30 m, 0.5 turns a minute, rope 30 m: a = 0.0822 m/s², tan φ = 0.00839, first-order offset
 * 0.25 m; derived. With the load's own way out it is a little more, and in balance. */
static void
test_throw_out (void)
{
  double w = 2 * G_PI * 0.5 / 60;
  TrnThrowOut out = trn_sway_throw_out (30, w, 30);
  NEAR (out.acceleration_m_s2, 0.0822, 0.5e-4);
  NEAR (tan (out.angle_rad), 0.00839, 0.5e-5);
  NEAR (out.offset_m, 0.25, 0.005);
  g_assert_cmpfloat (out.true_offset_m, >, out.offset_m);
  NEAR (out.true_offset_m, out.offset_m, 0.01 * out.offset_m);
  NEAR (TRN_GRAVITY_M_S2 * tan (out.true_angle_rad), w * w * (30 + out.true_offset_m), 1e-12);
}

/* 30 m, g 9.80665 m/s²: 10.990 s; derived. */
static void
test_period (void)
{
  NEAR (trn_sway_period_s (30), 10.990, 0.5e-3);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/wind/pressure", test_pressure);
  g_test_add_func ("/wind/profile-22", test_profile_22);
  g_test_add_func ("/wind/profile-26", test_profile_26);
  g_test_add_func ("/wind/profile-40", test_profile_40);
  g_test_add_func ("/wind/terrains", test_terrains);
  g_test_add_func ("/wind/gust", test_gust);
  g_test_add_func ("/wind/sail-area", test_sail_area);
  g_test_add_func ("/wind/vessel", test_vessel);
  g_test_add_func ("/wind/sway", test_sway);
  g_test_add_func ("/wind/throw-out", test_throw_out);
  g_test_add_func ("/wind/period", test_period);
  return g_test_run ();
}
