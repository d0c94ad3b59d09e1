/* Which clearance is to be kept from what. */
#include "plan-read.h"

#include <math.h>

/* The one that is set for @id, or NAN. */
static double
find_m (const TrnKeepClear *list, guint n, const char *id)
{
  for (guint i = 0; i < n; i++)
    if (g_str_equal (list[i].id, id))
      return list[i].m;
  return NAN;
}

static double
gear_from_m (const TrnGear *gear, const char *id)
{
  return find_m (gear->keep_clear_from, gear->n_keep_clear_from, id);
}

/* From the load, which a gear may name as that or by the component that it is. */
static double
gear_from_load_m (const TrnPlan *plan, const TrnLift *lift, const TrnGear *gear)
{
  double m = gear_from_m (gear, "load");
  if (lift->component < plan->n_components)
    m = fmax (m, gear_from_m (gear, plan->components[lift->component].id));
  return m;
}

/* What is said of that obstacle alone, or NAN. */
static double
obstacle_m (const TrnPlan *plan, const TrnLift *lift, const char *obstacle_id)
{
  const double for_it_m = find_m (lift->keep_clear_of, lift->n_keep_clear_of, obstacle_id);
  if (!isnan (for_it_m))
    return for_it_m;
  const TrnStructure *structure = trn_plan_find_structure (plan, obstacle_id);
  if (structure != NULL)
    return structure->keep_clear_m;
  const TrnComponent *component = trn_plan_find_component (plan, obstacle_id);
  if (component != NULL)
    return component->keep_clear_m;
  const TrnGear *gear = trn_plan_find_gear (plan, obstacle_id);
  return gear != NULL ? trn_or (gear_from_load_m (plan, lift, gear), gear->keep_clear_m) : NAN;
}

double
trn_plan_required_m (const TrnPlan *plan, const TrnLift *lift, const char *obstacle_id)
{
  const double own_m = obstacle_m (plan, lift, obstacle_id);
  return trn_or (own_m, trn_or (lift->keep_clear_m, plan->keep_clear_m));
}

/* Between two pieces of gear either may say something: the greater counts. */
static double
between_gear_m (const TrnPlan *plan, const TrnLift *lift, const TrnGear *a, const TrnGear *b)
{
  const double single_m = fmax (gear_from_m (a, b->id), gear_from_m (b, a->id));
  const double own_m = fmax (a->keep_clear_m, b->keep_clear_m);
  return trn_or (single_m, trn_or (own_m, trn_or (lift->keep_clear_m, plan->keep_clear_m)));
}

double
trn_plan_gear_required_m (const TrnPlan *plan, const TrnLift *lift, const TrnGear *gear,
                          const char *obstacle_id)
{
  if (g_str_equal (obstacle_id, "load"))
    return trn_plan_required_m (plan, lift, gear->id);
  const TrnGear *other = trn_plan_find_gear (plan, obstacle_id);
  if (other != NULL)
    return between_gear_m (plan, lift, gear, other);
  const double single_m = gear_from_m (gear, obstacle_id);
  /* A live line may ask for more than a gear that is to keep 0.3 m from everything. */
  const double own_m = fmax (gear->keep_clear_m, obstacle_m (plan, lift, obstacle_id));
  return trn_or (single_m, trn_or (own_m, trn_or (lift->keep_clear_m, plan->keep_clear_m)));
}
