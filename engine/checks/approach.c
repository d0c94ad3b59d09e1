#include "approach.h"

#include <string.h>

#include "approach-rule.h"

/* The part of a group that has the path @id, as in "poles/line"; NULL: there is none. */
static const TrnSolid *
part_of (const TrnSolid *solid, const char *id)
{
  while (*id != '\0')
    {
      const TrnSolid *next = NULL;
      gsize length = strcspn (id, "/");
      for (guint i = 0; solid->kind == TRN_SOLID_GROUP && i < solid->n_parts; i++)
        if (strlen (solid->parts[i].id) == length && strncmp (solid->parts[i].id, id, length) == 0)
          next = solid->parts[i].solid;
      if (next == NULL)
        return NULL;
      solid = next;
      id += length + (id[length] == '/');
    }
  return solid;
}

gboolean
trn_approach_is_line (const TrnLiftCheck *check, guint obstacle, double *voltage_kv)
{
  const TrnPlan *plan = check->scene->programme->plan;
  const TrnObstacle *other = &check->obstacles[obstacle];
  const TrnStructure *structure = trn_plan_find_structure (plan, other->standing->id);
  if (structure == NULL || structure->shape.solid == NULL)
    return FALSE;
  const char *part = other->body->id + strlen (structure->id);
  const TrnSolid *solid = part_of (structure->shape.solid, *part == '/' ? part + 1 : part);
  if (solid == NULL || solid->kind != TRN_SOLID_OVERHEAD_LINE)
    return FALSE;
  *voltage_kv = solid->voltage_kv;
  return TRUE;
}

TrnFinding
trn_approach_judge (const TrnLiftCheck *check, guint move, const TrnPair *pair)
{
  double voltage_kv = NAN;
  trn_approach_is_line (check, pair->other, &voltage_kv);
  TrnApproach rule = trn_approach_find (&check->scene->programme->plan->approach, voltage_kv);
  TrnClearanceQuestion question = { .check = TRN_CHECK_APPROACH,
                                    .move = move,
                                    .pair = *pair,
                                    .required_m = rule.distance_m,
                                    .missing = rule.missing,
                                    .source = rule.source };
  return trn_clearance_judge (check, &question);
}
