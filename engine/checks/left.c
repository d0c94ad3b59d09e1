/* On its seat: slack (programme.h) has a shift m, and turns τ and η about a point of which the
 * farthest vertex is r away: m + 2 r sin (τ/2) + 2 r sin (η/2).
 *
 * On its hook what the allowance (allowance.c) adds to tolerances is added to that: it holds over
 * the last move, and what hangs later hangs as at its end. */
#include "left.h"

#include <math.h>
#include <string.h>

#include "tolerances.h"

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
  return trn_left_is_handed_over (check) && is_of_gear (programme, check->run->left_by, gear);
}

static gboolean
holds_in (const TrnHoist *hoist, guint move)
{
  return hoist->given && hoist->first_move <= move && move <= hoist->last_move;
}

static gboolean
is_same_m (double a, double b)
{
  return (isnan (a) && isnan (b)) || fabs (a - b) <= TRN_SAME_PLACE_M;
}

static gboolean
is_same_place (TrnVec3 a, TrnVec3 b)
{
  return trn_vec3_distance (a, b) <= TRN_SAME_PLACE_M;
}

/* Of what a plan says twice, or leaves out twice. */
static gboolean
is_same_number (double a, double b)
{
  return (isnan (a) && isnan (b)) || a == b;
}

static gboolean
is_same_shackle (const TrnShackle *a, const TrnShackle *b)
{
  return (a->id != NULL) == (b->id != NULL) && is_same_number (a->mass_kg, b->mass_kg)
         && is_same_number (a->wll_kg, b->wll_kg) && is_same_number (a->pin.x, b->pin.x)
         && is_same_number (a->pin.y, b->pin.y) && is_same_number (a->pin.z, b->pin.z);
}

static gboolean
is_same_sling (const TrnSling *p, const TrnSling *q)
{
  return p->from == q->from && p->to_beam == q->to_beam && p->to_beam_b == q->to_beam_b
         && (p->to_beam || is_same_place (p->to, q->to)) && is_same_m (p->length_m, q->length_m)
         && is_same_m (p->diameter_m, q->diameter_m) && is_same_number (p->mass_kg, q->mass_kg)
         && is_same_number (p->wll_kg, q->wll_kg) && is_same_shackle (&p->shackle, &q->shackle);
}

/* In whatever order, but where the height of the hook follows from the first of them. */
static gboolean
are_same_slings (const TrnHoist *a, const TrnHoist *b)
{
  if (a->n_slings != b->n_slings)
    return FALSE;
  g_autofree gboolean *is_taken = g_new0 (gboolean, b->n_slings + 1);
  for (guint i = 0; i < a->n_slings; i++)
    {
      guint k = isnan (a->hook_above_m) ? i : 0;
      while (k < b->n_slings && (is_taken[k] || !is_same_sling (&a->slings[i], &b->slings[k])))
        k = isnan (a->hook_above_m) ? b->n_slings : k + 1;
      if (k == b->n_slings)
        return FALSE;
      is_taken[k] = TRUE;
    }
  return TRUE;
}

static gboolean
is_same_block (const TrnHoist *a, const TrnHoist *b)
{
  return a->has_block == b->has_block
         && (!a->has_block
             || (is_same_m (a->block_diameter_m, b->block_diameter_m)
                 && is_same_m (a->block_height_m, b->block_height_m)
                 && is_same_number (a->block_mass_kg, b->block_mass_kg)));
}

static gboolean
is_same_beam (const TrnHoist *a, const TrnHoist *b)
{
  const TrnLiftBeam *p = &a->beam, *q = &b->beam;
  return a->has_beam == b->has_beam
         && (!a->has_beam
             || (is_same_m (p->length_m, q->length_m) && is_same_m (p->width_m, q->width_m)
                 && is_same_m (p->depth_m, q->depth_m) && is_same_number (p->mass_kg, q->mass_kg)
                 && is_same_number (p->wll_kg, q->wll_kg)
                 && is_same_m (p->below_hook_m, q->below_hook_m)
                 && is_same_place (p->between[0], q->between[0])
                 && is_same_place (p->between[1], q->between[1])));
}

/* Where its gear stands in that run; NULL: nowhere, or it has none. */
static const TrnPose *
gear_at (const TrnLiftRun *run, const TrnPlan *plan, const TrnHoist *hoist)
{
  for (guint i = 0; hoist->gear < plan->n_gear && i < run->rig->n_places; i++)
    if (run->rig->places[i].gear == &plan->gear[hoist->gear])
      return &run->rig->places[i].site_from_gear;
  return NULL;
}

/* Whether a hoist of one run holds the load as one of another does: by the same gear, which stands
 * where it stood, at the same point, with the same rigging. */
static gboolean
is_same_hoist (const TrnPlan *plan, const TrnLiftRun *run_a, const TrnHoist *a,
               const TrnLiftRun *run_b, const TrnHoist *b)
{
  const TrnPose *at_a = gear_at (run_a, plan, a), *at_b = gear_at (run_b, plan, b);
  if (a->gear != b->gear || (at_a == NULL) != (at_b == NULL))
    return FALSE;
  if (at_a != NULL
      && (!is_same_place (at_a->position, at_b->position)
          || trn_rotation_angle_between (&at_a->turn, &at_b->turn) > TRN_SAME_PLACE_RAD))
    return FALSE;
  return is_same_place (a->point, b->point) && is_same_m (a->hook_above_m, b->hook_above_m)
         && is_same_block (a, b) && are_same_slings (a, b) && is_same_beam (a, b);
}

static gboolean
names_hoist (const TrnRigging *rigging)
{
  return rigging->given && (rigging->main.given || rigging->tail.given);
}

/* Whether what held the load at the end of the one run holds it at the beginning of the other, but
 * for a tail that lets go of what the main hoist holds on. */
static gboolean
is_held_on (const TrnPlan *plan, const TrnLiftRun *before, const TrnLiftRun *now)
{
  const guint last = before->lift->n_moves - 1;
  const TrnRigging *was = &before->lift->rigging, *is = &now->lift->rigging;
  const gboolean main_held = holds_in (&was->main, last), tail_held = holds_in (&was->tail, last);
  if (!main_held && !tail_held)
    return FALSE;
  /* Two that both hold on may have changed their names. */
  if (main_held && tail_held && holds_in (&is->main, 0) && holds_in (&is->tail, 0)
      && is_same_hoist (plan, before, &was->main, now, &is->tail)
      && is_same_hoist (plan, before, &was->tail, now, &is->main))
    return TRUE;
  if (main_held
      && !(holds_in (&is->main, 0) && is_same_hoist (plan, before, &was->main, now, &is->main)))
    return FALSE;
  if (!tail_held || (main_held && !holds_in (&is->tail, 0)))
    return TRUE;
  return holds_in (&is->tail, 0) && is_same_hoist (plan, before, &was->tail, now, &is->tail);
}

gboolean
trn_left_is_handed_over (const TrnLiftCheck *check)
{
  const TrnProgramme *programme = check->scene->programme;
  for (guint run = check->run->left_by; run != G_MAXUINT; run = programme->runs[run].left_by)
    {
      const TrnLiftRun *before = &programme->runs[run];
      if (names_hoist (&before->lift->rigging))
        return !names_hoist (&check->run->lift->rigging)
               || !is_held_on (programme->plan, before, check->run);
    }
  return FALSE;
}
