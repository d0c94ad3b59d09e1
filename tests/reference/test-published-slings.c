/* Sling tensions, published factors, dynamic factors and thresholds. */
#include <math.h>

#include "capacity.h"
#include "gravity.h"
#include "hook-load.h"
#include "sling-rating.h"
#include "sling.h"

#define RAD(deg) ((deg)*G_PI / 180)

/* 1000 lb on two legs: 577, 707 and 1000 lb at 60°, 45° and 30° from the horizontal. Rigging
 * handbooks; ½ W/sin. */
static void
test_two_legs (void)
{
  static const double expected[3][2] = { { 60, 577 }, { 45, 707 }, { 30, 1000 } };
  for (int i = 0; i < 3; i++)
    {
      double angle = RAD (expected[i][0]);
      TrnVec3 hook = { 0, 0, 10 };
      const TrnVec3 points[2] = { { 2 * cos (angle), 0, 10 - 2 * sin (angle) },
                                  { -2 * cos (angle), 0, 10 - 2 * sin (angle) } };
      TrnSlingForces f = trn_sling_solve (hook, points, 2, trn_vec3_make (0, 0, 5), 1000);
      for (int k = 0; k < 2; k++)
        {
          g_assert_cmpfloat_with_epsilon (f.tension_n[k], expected[i][1], 0.5);
          g_assert_cmpfloat_with_epsilon (f.angle_rad[k], angle, 1e-12);
        }
      g_assert_cmpfloat (f.force_residual_n, <, 1e-9);
      g_assert_cmpfloat (f.moment_residual_nm, <, 1e-9);
    }
}

/* Two slings, one apex, picks on one level: T1 = W D2 S1/(H (D1 + D2)), the other alike. Derived.
 * Then on different levels: T1 = W D2 S1/(D2 H1 + D1 H2), from the balance in the plane. */
static void
test_one_apex (void)
{
  const double d1 = 1.5, d2 = 4, h1 = 3, w = 250e3;
  for (int k = 0; k < 2; k++)
    {
      const double h2 = k == 0 ? h1 : 4.25;
      const double s1 = hypot (d1, h1), s2 = hypot (d2, h2);
      const TrnVec3 hook = { 7, 8, 9 },
                    points[2] = { { 7 - d1, 8, 9 - h1 }, { 7 + d2, 8, 9 - h2 } };
      TrnSlingForces f = trn_sling_solve (hook, points, 2, trn_vec3_make (7, 8, 0), w);
      if (k == 0)
        {
          g_assert_cmpfloat_with_epsilon (f.tension_n[0], w * d2 * s1 / (h1 * (d1 + d2)), 1e-9 * w);
          g_assert_cmpfloat_with_epsilon (f.tension_n[1], w * d1 * s2 / (h1 * (d1 + d2)), 1e-9 * w);
        }
      g_assert_cmpfloat_with_epsilon (f.tension_n[0], w * d2 * s1 / (d2 * h1 + d1 * h2), 1e-9 * w);
      g_assert_cmpfloat_with_epsilon (f.tension_n[1], w * d1 * s2 / (d2 * h1 + d1 * h2), 1e-9 * w);
    }
}

/* 10000 lb with arms 8 and 2: 8000 near, 2000 far. Derived: the share of the near support. */
static void
test_unequal_split (void)
{
  const TrnVec3 points[2] = { { -2, 0, -1e7 }, { 8, 0, -1e7 } };
  TrnSlingForces f
      = trn_sling_solve (trn_vec3_make (0, 0, 0), points, 2, trn_vec3_make (0, 0, -2e7), 10000);
  g_assert_cmpfloat_with_epsilon (f.tension_n[0], 8000, 1e-6);
  g_assert_cmpfloat_with_epsilon (f.tension_n[1], 2000, 1e-6);
}

/* EN 13414-1:2003, Table 4. */
static void
test_bridle_factors (void)
{
  g_assert_cmpfloat (trn_sling_bridle_factor (1, RAD (20)), ==, 1.0);
  for (guint legs = 2; legs <= 4; legs++)
    {
      double lower = legs == 2 ? 1.4 : 2.1, upper = legs == 2 ? 1.0 : 1.5;
      g_assert_cmpfloat (trn_sling_bridle_factor (legs, 0), ==, lower);
      g_assert_cmpfloat (trn_sling_bridle_factor (legs, RAD (45)), ==, lower);
      g_assert_cmpfloat (trn_sling_bridle_factor (legs, RAD (45.1)), ==, upper);
      g_assert_cmpfloat (trn_sling_bridle_factor (legs, RAD (60)), ==, upper);
      g_assert_true (isnan (trn_sling_bridle_factor (legs, RAD (60.1))));
      g_assert_true (isnan (trn_sling_bridle_factor (legs, NAN)));
    }
  g_assert_true (isnan (trn_sling_bridle_factor (5, 0)));
  g_assert_cmpfloat (TRN_SLING_ENDLESS_CHOKED, ==, 1.6);
  /* Not above plain statics of the legs that count: two of four, two of two. */
  for (double deg = 0; deg <= 60; deg += 0.5)
    g_assert_cmpfloat (trn_sling_bridle_factor (2, RAD (deg)), <=, 2 * cos (RAD (deg)) + 0.0143);
}

/* Four like legs: two alone must be able to hold all (US Navy rigging manual), unless equalised,
 * when each has a quarter. */
static void
test_two_leg_rule (void)
{
  const TrnVec3 hook = { 0, 0, 4 }, cog = { 0, 0, -2 };
  const TrnVec3 points[4] = { { 3, 2, 0 }, { -3, 2, 0 }, { -3, -2, 0 }, { 3, -2, 0 } };
  const double length = sqrt (3 * 3 + 2 * 2 + 4 * 4), w = 1000;
  double worst[4];
  TrnSlingForces even = trn_sling_solve (hook, points, 4, cog, w);
  g_assert_true (trn_sling_worst (hook, points, 4, w, worst));
  for (int i = 0; i < 4; i++)
    {
      g_assert_cmpfloat_with_epsilon (even.tension_n[i], w / 4 * length / 4, 1e-9 * w);
      g_assert_cmpfloat_with_epsilon (worst[i], w / 2 * length / 4, 1e-9 * w);
    }
}

/* 0027/ND Rev 11.2, 5.6.12: 1.25 on each diagonal in turn where four matched slings are
 * indeterminate, 1.0 where the arrangement is determinate. */
static void
test_skew (void)
{
  g_assert_cmpfloat (trn_sling_skew_factor (4, FALSE), ==, 1.25);
  g_assert_cmpfloat (trn_sling_skew_factor (4, TRUE), ==, 1.0);
  for (guint legs = 1; legs <= 3; legs++)
    g_assert_cmpfloat (trn_sling_skew_factor (legs, FALSE), ==, 1.0);
}

/* Makers' common table: 100 % at 0°, 70 % at 45°, 50 % at 90°, not allowed beyond. Between the
 * rows the lower one: common practice, no source. */
static void
test_shackles (void)
{
  static const double expected[][2]
      = { { 0, 1 },    { 0.1, 0.7 }, { 44, 0.7 }, { 45, 0.7 },  { 46, 0.5 },
          { 90, 0.5 }, { 90.1, 0 },  { 135, 0 },  { -45, 0.7 }, { -91, 0 } };
  for (guint i = 0; i < G_N_ELEMENTS (expected); i++)
    g_assert_cmpfloat (trn_shackle_side_factor (RAD (expected[i][0])), ==, expected[i][1]);
  g_assert_cmpfloat (trn_shackle_side_factor (NAN), ==, 0);
}

/* Sling safety sheets: not below 30° to the horizontal. */
static void
test_least_angle (void)
{
  g_assert_false (trn_sling_is_flat (RAD (60)));
  g_assert_false (trn_sling_is_flat (RAD (30)));
  g_assert_true (trn_sling_is_flat (RAD (29.9)));
  g_assert_true (trn_sling_is_flat (RAD (-40)));
  g_assert_true (trn_sling_is_flat (NAN));
}

/* 0027/ND Rev 11.2, Table 5-1, onshore: 3–100 t 1.10, to 1000 t 1.05, above 1.03. */
static void
test_dynamic_factors (void)
{
  static const double expected[][2]
      = { { 3e3, 1.10 },    { 50e3, 1.10 },     { 100e3, 1.10 }, { 100.1e3, 1.05 },
          { 1000e3, 1.05 }, { 1000.1e3, 1.03 }, { 5000e3, 1.03 } };
  for (guint i = 0; i < G_N_ELEMENTS (expected); i++)
    g_assert_cmpfloat (trn_dynamic_factor_onshore (expected[i][0]), ==, expected[i][1]);
  g_assert_true (isnan (trn_dynamic_factor_onshore (2.9e3)));
  g_assert_true (isnan (trn_dynamic_factor_onshore (NAN)));
  g_assert_nonnull (strstr (TRN_DYNAMIC_FACTOR_SOURCE, "Rev 11.2"));
  /* A row ends with its own factor: 110 t at 100 t, 1050 t at 1000 t. */
  double at_kg = NAN;
  g_assert_cmpfloat_with_epsilon (trn_dynamic_row_end_onshore (99e3, 102e3, 0, &at_kg), 110e3,
                                  1e-9 * 110e3);
  g_assert_cmpfloat (at_kg, ==, 100e3);
  g_assert_cmpfloat_with_epsilon (trn_dynamic_row_end_onshore (100e3, 2000e3, 900, &at_kg),
                                  999.1e3 * 1.05, 1e-3);
  g_assert_cmpfloat (at_kg, ==, 1000e3);
  g_assert_true (isinf (trn_dynamic_row_end_onshore (90e3, 100e3, 0, NULL)));
  g_assert_true (isinf (trn_dynamic_row_end_onshore (100.1e3, 1000e3, 0, NULL)));
}

/* Over 75 % of the rated capacity, or more than one crane: 29 CFR 1926.751; USACE EM 385-1-1. */
static void
test_critical (void)
{
  g_assert_cmpuint (trn_critical_n_rules (), ==, 2);
  for (guint i = 0; i < trn_critical_n_rules (); i++)
    {
      const TrnCriticalRule *rule = trn_critical_rule_get (i);
      g_assert_false (trn_critical_is (rule, 0.75, 1));
      g_assert_true (trn_critical_is (rule, 0.7501, 1));
      g_assert_true (trn_critical_is (rule, 0.10, 2));
    }
}

/* 8000 lb are 3628.74 kg and 35.586 kN: the international pound, 0.45359237 kg, and the standard
 * acceleration. */
static void
test_units (void)
{
  double mass_kg = 8000 * 0.45359237;
  g_assert_cmpfloat_with_epsilon (mass_kg, 3628.74, 0.005);
  g_assert_cmpfloat_with_epsilon (mass_kg * TRN_GRAVITY_M_S2, 35586, 0.5);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/slings/two-legs", test_two_legs);
  g_test_add_func ("/slings/one-apex", test_one_apex);
  g_test_add_func ("/slings/unequal-split", test_unequal_split);
  g_test_add_func ("/slings/bridle-factors", test_bridle_factors);
  g_test_add_func ("/slings/two-leg-rule", test_two_leg_rule);
  g_test_add_func ("/slings/skew", test_skew);
  g_test_add_func ("/slings/shackles", test_shackles);
  g_test_add_func ("/slings/least-angle", test_least_angle);
  g_test_add_func ("/slings/dynamic-factors", test_dynamic_factors);
  g_test_add_func ("/slings/critical", test_critical);
  g_test_add_func ("/slings/units", test_units);
  return g_test_run ();
}
