/* On its seat: slack (programme.h) has a shift m, and turns τ and η about a point of which the
 * farthest vertex is r away: m + 2 r sin (τ/2) + 2 r sin (η/2).
 *
 * On its hook what the allowance (allowance.c) adds to tolerances is added to that: it holds over
 * the last move, and what hangs later hangs as at its end. */
#include "left.h"

#include <math.h>

#define ROUNDING_SHARE 1e-12 /* some thousand roundings of a double: there are some dozens */

gboolean
trn_left_means (const TrnLiftCheck *check, guint obstacle)
{
  const TrnStanding *standing = check->obstacles[obstacle].standing;
  return standing->slack.m > 0 || standing->slack.tilt_rad > 0 || standing->slack.heading_rad > 0
         || standing->left_by != G_MAXUINT;
}

static double
slack_m (const TrnObstacle *obstacle)
{
  const TrnSlack *slack = &obstacle->standing->slack;
  const TrnMesh *mesh = obstacle->body->mesh;
  double far2 = 0;
  for (guint32 i = 0; i < mesh->n_vertices; i++)
    {
      const TrnVec3 by = trn_vec3_sub (mesh->vertices[i], slack->about);
      far2 = fmax (far2, trn_vec3_length_squared (by));
    }
  const double far_m = sqrt (far2);
  const double turned_m
      = trn_chord_m (far_m, slack->tilt_rad) + trn_chord_m (far_m, slack->heading_rad);
  return (slack->m + turned_m) * (1 + ROUNDING_SHARE);
}

double
trn_left_hung (const TrnScene *scene, guint run, const TrnCheckOptions *options)
{
  TrnLiftCheck check;
  trn_lift_check_init (&check, scene, run, options);
  TrnAllowance allowance = trn_lift_check_allowance (&check, check.run->lift->n_moves - 1);
  trn_lift_check_clear (&check);
  allowance.tolerance_m = 0;
  return trn_allowance_sum (&allowance);
}

double
trn_left_off (const TrnLiftCheck *check, guint obstacle, const double *hung_m)
{
  const TrnStanding *standing = check->obstacles[obstacle].standing;
  if (!trn_left_means (check, obstacle))
    return 0;
  const double off_m = slack_m (&check->obstacles[obstacle]);
  if (standing->left_by == G_MAXUINT)
    return off_m;
  const TrnLift *lift = check->scene->programme->runs[standing->left_by].lift;
  if (lift->component != standing->index)
    return NAN;
  return (off_m + hung_m[standing->left_by]) * (1 + ROUNDING_SHARE);
}

gboolean
trn_left_is_held (const TrnLiftCheck *check, guint obstacle)
{
  const TrnStanding *standing = check->obstacles[obstacle].standing;
  return standing->left_by != G_MAXUINT
         && check->scene->programme->runs[standing->left_by].lift->rigging.given;
}
