/* approach-rule.h: the distance that a rule asks to be kept from an overhead line.
 *
 * The rules are those that a plan can choose; local rules prevail, and whoever shows a distance
 * says so. A rule that has no value for a line gives none: nothing is guessed. */
#pragma once

#include "plan-gear.h"

typedef struct
{
  double distance_m;   /* NAN: the rule gives none */
  const char *missing; /* the input of the plan that is wanted then, static; else NULL */
  const char *source;  /* static, or borrowed from the rule; NULL where there is no rule */
} TrnApproach;

/* @voltage_kv: nominal, between phases; NAN where it is not known. */
TrnApproach trn_approach_find (const TrnApproachRule *rule, double voltage_kv);
