#include "hang-warnings.h"

#include <math.h>

/* Beyond that a slip is likelier; common sense, no source. */
#define FAR_LEAN_RAD (20 * G_PI / 180)
#define ROUNDING 1e-9 /* as a share of a length */

/* How much longer one leg of two has to be for them to meet on one hook; not above 0: no longer. */
static double
short_by (const TrnSling *a, const TrnSling *b)
{
  if (!trn_is_leg (a) || !trn_is_leg (b))
    return -INFINITY;
  return trn_vec3_distance (a->to, b->to) * (1 - ROUNDING) - a->length_m - b->length_m;
}

gboolean
trn_short_legs_find (const TrnHoist *hoist, const TrnSling **shortest, const TrnSling **other)
{
  double most_m = 0;
  *shortest = *other = NULL;
  for (guint i = 0; i < hoist->n_slings; i++)
    for (guint k = 0; k < i; k++)
      {
        const TrnSling *a = &hoist->slings[k], *b = &hoist->slings[i];
        if (!(short_by (a, b) > most_m))
          continue;
        most_m = short_by (a, b);
        *shortest = a->length_m <= b->length_m ? a : b;
        *other = *shortest == a ? b : a;
      }
  return *shortest != NULL;
}

void
trn_short_legs_warn (const TrnPlan *plan, const TrnHoist *hoist, TrnDiags *diags)
{
  const TrnSling *sling, *other;
  if (!trn_short_legs_find (hoist, &sling, &other))
    return;
  g_autofree char *pointer = g_strconcat (sling->pointer, "/length", NULL);
  TrnDiag *diag = trn_diags_add (diags, TRN_SEVERITY_WARNING, "scene/hang-short", pointer);
  const double apart_m = trn_vec3_distance (sling->to, other->to);
  trn_plan_locate (plan, diag);
  trn_diag_set_text (diag, "sling", sling->id);
  trn_diag_set_text (diag, "other", other->id);
  trn_diag_set_number (diag, "together", sling->length_m + other->length_m, TRN_UNIT_M);
  trn_diag_set_number (diag, "distance", apart_m, TRN_UNIT_M);
  trn_diag_set_number (diag, "length", apart_m - other->length_m, TRN_UNIT_M);
}

void
trn_far_lean_warn (const TrnPlan *plan, const TrnLift *lift, double lean_rad, TrnDiags *diags)
{
  if (lean_rad <= FAR_LEAN_RAD)
    return;
  g_autofree char *pointer = g_strconcat (lift->pointer, "/hangs", NULL);
  TrnDiag *diag = trn_diags_add (diags, TRN_SEVERITY_WARNING, "scene/hang-far", pointer);
  trn_plan_locate (plan, diag);
  trn_diag_set_text (diag, "lift", lift->id);
  trn_diag_set_number (diag, "lean", trn_degrees (lean_rad), TRN_UNIT_DEG);
}
