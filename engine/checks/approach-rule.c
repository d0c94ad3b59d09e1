/* The tables. Each row holds for voltages up to its own, that one included.
 *
 * The American table is written in feet. Its distances are those feet in metres, or what is
 * commonly written for them, whichever is more. */
#include "approach-rule.h"

#define FOOT_M 0.3048

typedef struct
{
  double most_kv, distance_m;
} Row;

/* 29 CFR 1926.1408, Table A, minimum clearance distances: 10 ft (3.05 m) to 50 kV, 15 ft to 200,
 * 20 ft (6.10 m) to 350, 25 ft to 500, 35 ft (10.67 m) to 750, 45 ft (13.72 m) to 1000; above that
 * the distance is set by the owner of the line or a qualified engineer, and a voltage that is not
 * known is no row of it. */
static const Row cfr_1926_1408[] = { { 50, 3.05 },         { 200, 15 * FOOT_M }, { 350, 6.10 },
                                     { 500, 25 * FOOT_M }, { 750, 10.67 },       { 1000, 13.72 } };

/* EN 50110-1, Table A.1, guide values of D_V, the outer limit of the vicinity zone; between its
 * rows it may be interpolated. Below the first row that row's value holds. */
static const Row en_50110[] = { { 10, 1.150 },  { 20, 1.220 },  { 30, 1.320 },
                                { 110, 2.000 }, { 220, 3.000 }, { 380, 4.000 } };

/* DIN VDE 0105-100, Table 103, for work near lines with hoists: 1.0 m to 1 kV, 3.0 m to 110 kV,
 * 4.0 m to 220 kV, 5.0 m to 380 kV, and 5.0 m where the voltage is not known; to be kept with load
 * and line swinging. */
static const Row vde_0105_100[] = { { 1, 1.0 }, { 110, 3.0 }, { 220, 4.0 }, { 380, 5.0 } };
#define VDE_UNKNOWN_VOLTAGE_M 5.0

static double
step_of (const Row *rows, guint n_rows, double voltage_kv)
{
  for (guint i = 0; i < n_rows; i++)
    if (voltage_kv <= rows[i].most_kv)
      return rows[i].distance_m;
  return NAN;
}

static double
line_of (const Row *rows, guint n_rows, double voltage_kv)
{
  if (voltage_kv <= rows[0].most_kv)
    return rows[0].distance_m;
  for (guint i = 1; i < n_rows; i++)
    {
      const Row *a = &rows[i - 1], *b = &rows[i];
      if (voltage_kv == b->most_kv)
        return b->distance_m;
      if (voltage_kv < b->most_kv)
        return a->distance_m
               + (b->distance_m - a->distance_m) * (voltage_kv - a->most_kv)
                     / (b->most_kv - a->most_kv);
    }
  return NAN;
}

/* What is wanted where a table gives no distance: the voltage, or, beyond the table, a distance of
 * one's own. */
static TrnApproach
from_table (double distance_m, double voltage_kv, const char *source)
{
  const char *missing = isnan (voltage_kv) ? "voltage_kv" : "approach/distance";
  return (TrnApproach){ distance_m, isnan (distance_m) ? missing : NULL, source };
}

TrnApproach
trn_approach_find (const TrnApproachRule *rule, double voltage_kv)
{
  switch (rule->kind)
    {
    case TRN_APPROACH_NONE:
      return (TrnApproach){ NAN, "approach", NULL };
    case TRN_APPROACH_CFR_1926_1408:
      return from_table (step_of (cfr_1926_1408, G_N_ELEMENTS (cfr_1926_1408), voltage_kv),
                         voltage_kv, "29 CFR 1926.1408, Table A");
    case TRN_APPROACH_EN_50110:
      return from_table (line_of (en_50110, G_N_ELEMENTS (en_50110), voltage_kv), voltage_kv,
                         "EN 50110-1, Table A.1, D_V");
    case TRN_APPROACH_VDE_0105_100:
      return from_table (isnan (voltage_kv)
                             ? VDE_UNKNOWN_VOLTAGE_M
                             : step_of (vde_0105_100, G_N_ELEMENTS (vde_0105_100), voltage_kv),
                         voltage_kv, "DIN VDE 0105-100, Table 103");
    case TRN_APPROACH_OWN:
      return (TrnApproach){ rule->distance_m, NULL, rule->source };
    }
  g_assert_not_reached ();
}
