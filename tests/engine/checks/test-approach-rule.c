/* Distances from overhead lines at each limit of the tables, just below it and just above it. */
#include "approach-rule.h"

/* Far above rounding, far below what a voltage is known to. */
#define BESIDE_KV 1e-6

static TrnApproach
approach (TrnApproachKind kind, double voltage_kv)
{
  TrnApproachRule rule = { .kind = kind };
  return trn_approach_find (&rule, voltage_kv);
}

static void
assert_distance (TrnApproachKind kind, double voltage_kv, double distance_m)
{
  TrnApproach found = approach (kind, voltage_kv);
  g_assert_cmpfloat_with_epsilon (found.distance_m, distance_m, 1e-8);
  g_assert_null (found.missing);
}

static void
assert_none (TrnApproachKind kind, double voltage_kv, const char *missing)
{
  TrnApproach found = approach (kind, voltage_kv);
  g_assert_true (isnan (found.distance_m));
  g_assert_cmpstr (found.missing, ==, missing);
  g_assert_nonnull (found.source);
}

/* 29 CFR 1926.1408, Table A: to 50 kV 10 ft, to 200 15 ft, to 350 20 ft, to 500 25 ft, to 750
 * 35 ft, to 1000 45 ft; a value after "to" belongs to its row. No distance is ever less than the
 * feet that the table says. */
static void
test_cfr (void)
{
  static const struct
  {
    double kv, at_m, above_m, feet;
  } limits[] = {
    { 50, 3.05, 4.572, 10 },  { 200, 4.572, 6.10, 15 },  { 350, 6.10, 7.62, 20 },
    { 500, 7.62, 10.67, 25 }, { 750, 10.67, 13.72, 35 },
  };
  for (guint i = 0; i < G_N_ELEMENTS (limits); i++)
    {
      assert_distance (TRN_APPROACH_CFR_1926_1408, limits[i].kv - BESIDE_KV, limits[i].at_m);
      assert_distance (TRN_APPROACH_CFR_1926_1408, limits[i].kv, limits[i].at_m);
      assert_distance (TRN_APPROACH_CFR_1926_1408, limits[i].kv + BESIDE_KV, limits[i].above_m);
      g_assert_cmpfloat (approach (TRN_APPROACH_CFR_1926_1408, limits[i].kv).distance_m, >=,
                         limits[i].feet * 0.3048);
    }
  assert_distance (TRN_APPROACH_CFR_1926_1408, 0, 3.05);
  assert_distance (TRN_APPROACH_CFR_1926_1408, 1000 - BESIDE_KV, 13.72);
  assert_distance (TRN_APPROACH_CFR_1926_1408, 1000, 13.72);
  assert_none (TRN_APPROACH_CFR_1926_1408, 1000 + BESIDE_KV, "approach/distance");
  assert_none (TRN_APPROACH_CFR_1926_1408, NAN, "voltage_kv");
}

/* EN 50110-1, Table A.1, D_V in mm: 10 kV 1150, 20 1220, 30 1320, 110 2000, 220 3000, 380 4000;
 * interpolated between: 15 kV lies in the middle of 1150 and 1220, 165 kV of 2000 and 3000. Beside
 * a row the slope to the next one gives how far off it is. */
static void
test_en (void)
{
  static const struct
  {
    double kv, m;
  } rows[] = { { 10, 1.150 },  { 20, 1.220 },  { 30, 1.320 },
               { 110, 2.000 }, { 220, 3.000 }, { 380, 4.000 } };
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      double below = approach (TRN_APPROACH_EN_50110, rows[i].kv - BESIDE_KV).distance_m;
      assert_distance (TRN_APPROACH_EN_50110, rows[i].kv, rows[i].m);
      g_assert_cmpfloat (below, <=, rows[i].m);
      g_assert_cmpfloat (below, >=, rows[i].m - BESIDE_KV * 0.01);
      if (i + 1 == G_N_ELEMENTS (rows))
        continue;
      double above = approach (TRN_APPROACH_EN_50110, rows[i].kv + BESIDE_KV).distance_m;
      g_assert_cmpfloat (above, >, rows[i].m);
      g_assert_cmpfloat (above, <=, rows[i].m + BESIDE_KV * 0.011);
    }
  assert_distance (TRN_APPROACH_EN_50110, 0.4, 1.150);
  assert_distance (TRN_APPROACH_EN_50110, 15, 1.185);
  assert_distance (TRN_APPROACH_EN_50110, 165, 2.5);
  assert_none (TRN_APPROACH_EN_50110, 380 + BESIDE_KV, "approach/distance");
  assert_none (TRN_APPROACH_EN_50110, NAN, "voltage_kv");
}

/* DIN VDE 0105-100, Table 103: to 1 kV 1.0 m, to 110 kV 3.0 m, to 220 kV 4.0 m, to 380 kV 5.0 m;
 * voltage not known 5.0 m. */
static void
test_vde (void)
{
  static const struct
  {
    double kv, at_m, above_m;
  } limits[] = { { 1, 1, 3 }, { 110, 3, 4 }, { 220, 4, 5 } };
  for (guint i = 0; i < G_N_ELEMENTS (limits); i++)
    {
      assert_distance (TRN_APPROACH_VDE_0105_100, limits[i].kv - BESIDE_KV, limits[i].at_m);
      assert_distance (TRN_APPROACH_VDE_0105_100, limits[i].kv, limits[i].at_m);
      assert_distance (TRN_APPROACH_VDE_0105_100, limits[i].kv + BESIDE_KV, limits[i].above_m);
    }
  assert_distance (TRN_APPROACH_VDE_0105_100, 380 - BESIDE_KV, 5);
  assert_distance (TRN_APPROACH_VDE_0105_100, 380, 5);
  assert_distance (TRN_APPROACH_VDE_0105_100, NAN, 5);
  assert_none (TRN_APPROACH_VDE_0105_100, 380 + BESIDE_KV, "approach/distance");
}

/* A number of one's own holds for every line, with its source; without a rule there is none. */
static void
test_own_and_none (void)
{
  char source[] = "letter of the owner";
  TrnApproachRule own = { TRN_APPROACH_OWN, 7.5, source };
  TrnApproach found = trn_approach_find (&own, NAN);
  g_assert_cmpfloat (found.distance_m, ==, 7.5);
  g_assert_cmpstr (found.source, ==, "letter of the owner");
  g_assert_null (found.missing);
  found = approach (TRN_APPROACH_NONE, 110);
  g_assert_true (isnan (found.distance_m));
  g_assert_cmpstr (found.missing, ==, "approach");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/checks/approach-rule/29-cfr-1926-1408", test_cfr);
  g_test_add_func ("/checks/approach-rule/en-50110-1", test_en);
  g_test_add_func ("/checks/approach-rule/din-vde-0105-100", test_vde);
  g_test_add_func ("/checks/approach-rule/own-and-none", test_own_and_none);
  return g_test_run ();
}
