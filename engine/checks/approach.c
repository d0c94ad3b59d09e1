#include "approach.h"

#include <string.h>

#include "approach-rule.h"
#include "sweep-cache.h"
#include "tolerances.h"

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

const TrnSolid *
trn_approach_solid (const TrnLiftCheck *check, guint obstacle)
{
  const TrnPlan *plan = check->scene->programme->plan;
  const TrnObstacle *other = &check->obstacles[obstacle];
  const TrnStructure *structure = trn_plan_find_structure (plan, other->standing->id);
  if (structure == NULL || structure->shape.solid == NULL)
    return NULL;
  const char *part = other->body->id + strlen (structure->id);
  return part_of (structure->shape.solid, *part == '/' ? part + 1 : part);
}

gboolean
trn_approach_is_line (const TrnLiftCheck *check, guint obstacle, double *voltage_kv)
{
  const TrnSolid *solid = trn_approach_solid (check, obstacle);
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

/* One moment stands for all; the distance is off by far less than the contact tolerance. */
TrnFinding
trn_approach_judge_standing (const TrnLiftCheck *check, guint part, guint line)
{
  const TrnObstacle *a = &check->obstacles[part], *b = &check->obstacles[line];
  double voltage_kv = NAN;
  trn_approach_is_line (check, line, &voltage_kv);
  TrnApproach rule = trn_approach_find (&check->scene->programme->plan->approach, voltage_kv);
  TrnFinding finding
      = trn_lift_check_finding (check, TRN_CHECK_APPROACH, 0, b->body->id, rule.distance_m);
  finding.body = a->body->id;
  finding.source = rule.source;
  finding.missing = isnan (rule.distance_m) ? rule.missing : NULL;
  finding.allowance_m = trn_lift_check_stands_off (check, part)
                        + trn_lift_check_stands_off (check, line) + a->body->off_m + b->body->off_m;
  if (finding.missing != NULL || trn_progress_is_cancelled (check->options->progress))
    return finding;
  TrnSweepBody body = { a->body->bvh, a->body->check }, other = { b->body->bvh, b->body->check };
  const TrnPose *poses[] = { &a->standing->site_from_standing, &b->standing->site_from_standing };
  TrnCache *cache = check->options->cache;
  TrnDistance d = trn_sweep_cached_distance (cache, &body, poses[0], &other, poses[1], INFINITY);
  gboolean touches
      = d.distance_m <= TRN_CONTACT_M
        || trn_sweep_cached_inside (cache, &body, poses[0], &other, poses[1]) == TRN_INSIDE_YES;
  finding.lower_m = touches ? 0 : d.distance_m - TRN_CONTACT_M;
  finding.upper_m = touches ? 0 : d.distance_m;
  finding.progress = 0;
  finding.time_s = 0;
  finding.point_on_body = d.on_a;
  finding.point_on_obstacle = d.on_b;
  finding.has_points = TRUE;
  gboolean clear = !touches && finding.lower_m - finding.allowance_m >= finding.required_m;
  finding.verdict = clear ? TRN_VERDICT_PASS : TRN_VERDICT_FAIL;
  finding.state = clear ? TRN_STATE_CLEAR : touches ? TRN_STATE_CONTACT : TRN_STATE_SHORT;
  return finding;
}
