/* capacity.h: what a crane may lift at a radius, and when a lift counts as critical. */
#pragma once

#include "interval.h"

typedef struct
{
  double radius_m, mass_kg;
} TrnCapacityRow;

/* The rated capacity at a radius, from a table in ascending radii. Between two rows the smaller of
 * both counts: a straight line between them is above a curve that sags. NAN beyond the ends of the
 * table, which is never stretched. */
double trn_capacity_at_kg (const TrnCapacityRow *rows, guint n_rows, double radius_m);

/* The least over all radii from @radius_m.lo to hi, exact for that rule. */
double trn_capacity_over_kg (const TrnCapacityRow *rows, guint n_rows, TrnInterval radius_m);

/* ---- critical lifts ---- */

typedef struct
{
  const char *name;       /* of the rule, as a results file has it */
  double utilisation;     /* critical above this share of the rated capacity */
  gboolean several_count; /* critical with more than one crane */
} TrnCriticalRule;

/* The rules known: 0 … trn_critical_n_rules () − 1. */
guint trn_critical_n_rules (void);
const TrnCriticalRule *trn_critical_rule_get (guint rule);

gboolean trn_critical_is (const TrnCriticalRule *rule, double utilisation, guint n_cranes);
