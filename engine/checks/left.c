/* On its seat: slack (programme.h) has a shift m, and turns τ and η about a point of which the
 * farthest vertex is r away: m + 2 r sin (τ/2) + 2 r sin (η/2).
 *
 * On its hook what the allowance (allowance.c) adds to tolerances is added to that: it holds over
 * the last move, and what hangs later hangs as at its end. */
#include "left.h"

#include <math.h>
#include <string.h>

#include "hand-over.h"

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

static double
hung_m (const TrnScene *scene, guint run, const TrnCheckOptions *options)
{
  TrnLiftCheck check;
  trn_lift_check_init (&check, scene, run, options);
  TrnAllowance allowance = trn_lift_check_allowance (&check, check.run->lift->n_moves - 1);
  trn_lift_check_clear (&check);
  allowance.tolerance_m = 0;
  return trn_allowance_sum (&allowance);
}

double
trn_left_hung (const TrnScene *scene, guint run, const TrnCheckOptions *options)
{
  const TrnLiftRun *runs = scene->programme->runs;
  const guint component = runs[run].lift->component;
  double most_m = 0;
  for (; run != G_MAXUINT; run = runs[run].left_by)
    {
      const double m = runs[run].lift->component == component ? hung_m (scene, run, options) : NAN;
      most_m = isnan (m) || isnan (most_m) ? NAN : fmax (m, most_m);
    }
  return most_m;
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

/* The gear of that run, or of those that left its load to it. */
static gboolean
is_of_gear (const TrnProgramme *programme, guint run, const char *gear)
{
  for (; run != G_MAXUINT; run = programme->runs[run].left_by)
    {
      const TrnRigging *rigging = &programme->runs[run].lift->rigging;
      const TrnHoist *hoists[2] = { &rigging->main, &rigging->tail };
      for (guint i = 0; i < 2; i++)
        if (rigging->given && hoists[i]->given && hoists[i]->gear != G_MAXUINT
            && strcmp (programme->plan->gear[hoists[i]->gear].id, gear) == 0)
          return TRUE;
    }
  return FALSE;
}

gboolean
trn_left_holds (const TrnLiftCheck *check, const char *gear)
{
  const TrnProgramme *programme = check->scene->programme;
  for (guint i = 0; i < check->n_obstacles; i++)
    if (is_of_gear (programme, check->obstacles[i].standing->left_by, gear))
      return TRUE;
  for (guint i = 0; i < check->run->n_gone; i++)
    if (is_of_gear (programme, check->run->gone[i].left_by, gear))
      return TRUE;
  return trn_hand_over_find (check).key != NULL
         && is_of_gear (programme, check->run->left_by, gear);
}
