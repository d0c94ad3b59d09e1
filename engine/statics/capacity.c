/* Over a span of radii the least is that of the rows within it and of the rows next to its ends,
 * since between rows the smaller neighbour counts. */
#include "capacity.h"

#include <math.h>

double
trn_capacity_over_kg (const TrnCapacityRow *rows, guint n_rows, TrnInterval radius_m)
{
  if (n_rows == 0 || !(radius_m.lo >= rows[0].radius_m)
      || !(radius_m.hi <= rows[n_rows - 1].radius_m))
    return NAN;
  double least = INFINITY;
  for (guint i = 0; i < n_rows; i++)
    {
      gboolean is_below = i + 1 < n_rows && rows[i + 1].radius_m <= radius_m.lo;
      gboolean is_above = i > 0 && rows[i - 1].radius_m >= radius_m.hi;
      if ((!is_below || rows[i].radius_m == radius_m.lo)
          && (!is_above || rows[i].radius_m == radius_m.hi))
        least = fmin (least, rows[i].mass_kg);
    }
  return least;
}

double
trn_capacity_at_kg (const TrnCapacityRow *rows, guint n_rows, double radius_m)
{
  return trn_capacity_over_kg (rows, n_rows, (TrnInterval){ radius_m, radius_m });
}

static const TrnCriticalRule rules[] = {
  /* 29 CFR 1926.751 */
  { "29-cfr-1926-751", 0.75, TRUE },
  /* USACE EM 385-1-1, its lift plan form */
  { "em-385-1-1", 0.75, TRUE },
};

guint
trn_critical_n_rules (void)
{
  return G_N_ELEMENTS (rules);
}

const TrnCriticalRule *
trn_critical_rule_get (guint rule)
{
  g_assert (rule < G_N_ELEMENTS (rules));
  return &rules[rule];
}

gboolean
trn_critical_is (const TrnCriticalRule *rule, double utilisation, guint n_cranes)
{
  return utilisation > rule->utilisation || (rule->several_count && n_cranes > 1);
}
