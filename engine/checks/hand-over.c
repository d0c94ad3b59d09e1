/* Gear, place, point and rigging are compared key by key, and the first that differs is told.
 * Slings may come in any order, and like one another: each stands for the one of its name first.
 * One that none of the others is like is told beside the one of its name, or else the next that is
 * left.
 */
#include "hand-over.h"

#include <math.h>
#include <string.h>

#include "tolerances.h"

static gboolean
holds_in (const TrnHoist *hoist, guint move)
{
  return hoist->given && hoist->first_move <= move && move <= hoist->last_move;
}

/* ---- keys ---- */

/* They return FALSE where both differ, and say so. */

static gboolean
is_same_number (TrnHandOver *differs, const char *key, const char *of, TrnUnit unit, double was,
                double is, double near)
{
  if ((isnan (was) && isnan (is)) || fabs (was - is) <= near)
    return TRUE;
  *differs = (TrnHandOver){
    .key = key, .of = of, .n_values = 1, .was = { was }, .is = { is }, .unit = unit
  };
  return FALSE;
}

static gboolean
is_same_m (TrnHandOver *differs, const char *key, const char *of, double was, double is)
{
  return is_same_number (differs, key, of, TRN_UNIT_M, was, is, TRN_SAME_PLACE_M);
}

/* Of what a plan says twice, or leaves out twice. */
static gboolean
is_same_kg (TrnHandOver *differs, const char *key, const char *of, double was, double is)
{
  return is_same_number (differs, key, of, TRN_UNIT_KG, was, is, 0);
}

static gboolean
is_same_count (TrnHandOver *differs, const char *key, const char *of, guint was, guint is)
{
  return is_same_number (differs, key, of, TRN_UNIT_NONE, was, is, 0);
}

static gboolean
are_near (TrnVec3 a, TrnVec3 b, double near)
{
  return (isnan (a.x) && isnan (b.x)) || trn_vec3_distance (a, b) <= near;
}

static gboolean
is_same_vec3 (TrnHandOver *differs, const char *key, const char *of, TrnUnit unit, TrnVec3 was,
              TrnVec3 is, double near)
{
  if (are_near (was, is, near))
    return TRUE;
  *differs = (TrnHandOver){ .key = key,
                            .of = of,
                            .n_values = 3,
                            .was = { was.x, was.y, was.z },
                            .is = { is.x, is.y, is.z },
                            .unit = unit };
  return FALSE;
}

static gboolean
is_same_place (TrnHandOver *differs, const char *key, const char *of, TrnVec3 was, TrnVec3 is)
{
  return is_same_vec3 (differs, key, of, TRN_UNIT_M, was, is, TRN_SAME_PLACE_M);
}

static gboolean
is_same_name (TrnHandOver *differs, const char *key, const char *was, const char *is)
{
  if (g_strcmp0 (was, is) == 0)
    return TRUE;
  *differs = (TrnHandOver){ .key = key, .was_name = was, .is_name = is };
  return FALSE;
}

/* ---- rigging ---- */

static gboolean
is_same_shackle (TrnHandOver *differs, const char *of, const TrnShackle *a, const TrnShackle *b)
{
  return is_same_count (differs, "shackle", of, a->id != NULL, b->id != NULL)
         && is_same_kg (differs, "shackle/mass", of, a->mass_kg, b->mass_kg)
         && is_same_kg (differs, "shackle/wll", of, a->wll_kg, b->wll_kg)
         && is_same_vec3 (differs, "shackle/pin", of, TRN_UNIT_NONE, a->pin, b->pin, 0);
}

static const char *
from_name (const TrnSling *sling)
{
  static const char *const names[] = { "hook", "beam-a", "beam-b" };
  return names[sling->from];
}

static const char *
to_name (const TrnSling *sling)
{
  return !sling->to_beam ? "load" : sling->to_beam_b ? "beam-b" : "beam-a";
}

static gboolean
is_same_sling (TrnHandOver *differs, const TrnSling *p, const TrnSling *q)
{
  const char *of = q->id;
  if (!is_same_name (differs, "from", from_name (p), from_name (q))
      || !is_same_name (differs, "to", to_name (p), to_name (q)))
    {
      differs->of = of;
      return FALSE;
    }
  return (p->to_beam || is_same_place (differs, "to", of, p->to, q->to))
         && is_same_m (differs, "length", of, p->length_m, q->length_m)
         && is_same_m (differs, "diameter", of, p->diameter_m, q->diameter_m)
         && is_same_kg (differs, "mass", of, p->mass_kg, q->mass_kg)
         && is_same_kg (differs, "wll", of, p->wll_kg, q->wll_kg)
         && is_same_shackle (differs, of, &p->shackle, &q->shackle);
}

/* Which of @b that is not taken is called as @sling; the first of these where none is. */
static guint
find_beside (const TrnSling *sling, const TrnHoist *b, const gboolean *is_taken)
{
  guint first = b->n_slings;
  for (guint k = 0; k < b->n_slings; k++)
    {
      if (is_taken[k])
        continue;
      if (g_strcmp0 (sling->id, b->slings[k].id) == 0)
        return k;
      first = MIN (first, k);
    }
  return first;
}

/* Takes for each of @a that is not placed one of @b that is like it, of its name where @by_name. */
static void
take_same (const TrnHoist *a, const TrnHoist *b, gboolean by_name, gboolean *is_placed,
           gboolean *is_taken)
{
  TrnHandOver of_one;
  for (guint i = 0; i < a->n_slings; i++)
    for (guint k = 0; k < b->n_slings && !is_placed[i]; k++)
      if (!is_taken[k] && (!by_name || g_strcmp0 (a->slings[i].id, b->slings[k].id) == 0)
          && is_same_sling (&of_one, &a->slings[i], &b->slings[k]))
        is_placed[i] = is_taken[k] = TRUE;
}

static gboolean
are_same_in_order (TrnHandOver *differs, const TrnHoist *a, const TrnHoist *b)
{
  for (guint i = 0; i < a->n_slings; i++)
    if (!is_same_sling (differs, &a->slings[i], &b->slings[i]))
      return FALSE;
  return TRUE;
}

/* In whatever order, but where the height of the hook follows from the first of them. */
static gboolean
are_same_slings (TrnHandOver *differs, const TrnHoist *a, const TrnHoist *b)
{
  if (!is_same_count (differs, "slings", NULL, a->n_slings, b->n_slings))
    return FALSE;
  if (isnan (a->hook_above_m))
    return are_same_in_order (differs, a, b);
  g_autofree gboolean *is_placed = g_new0 (gboolean, a->n_slings + 1);
  g_autofree gboolean *is_taken = g_new0 (gboolean, b->n_slings + 1);
  take_same (a, b, TRUE, is_placed, is_taken);
  take_same (a, b, FALSE, is_placed, is_taken);
  for (guint i = 0; i < a->n_slings; i++)
    if (!is_placed[i])
      return is_same_sling (differs, &a->slings[i],
                            &b->slings[find_beside (&a->slings[i], b, is_taken)]);
  return TRUE;
}

static gboolean
is_same_block (TrnHandOver *differs, const TrnHoist *a, const TrnHoist *b)
{
  return is_same_count (differs, "block", NULL, a->has_block, b->has_block)
         && (!a->has_block
             || (is_same_m (differs, "block/diameter", NULL, a->block_diameter_m,
                            b->block_diameter_m)
                 && is_same_m (differs, "block/height", NULL, a->block_height_m, b->block_height_m)
                 && is_same_kg (differs, "block/mass", NULL, a->block_mass_kg, b->block_mass_kg)));
}

static gboolean
is_same_beam (TrnHandOver *differs, const TrnHoist *a, const TrnHoist *b)
{
  const TrnLiftBeam *p = &a->beam, *q = &b->beam;
  const char *of = q->id;
  return is_same_count (differs, "beam", NULL, a->has_beam, b->has_beam)
         && (!a->has_beam
             || (is_same_m (differs, "length", of, p->length_m, q->length_m)
                 && is_same_m (differs, "width", of, p->width_m, q->width_m)
                 && is_same_m (differs, "depth", of, p->depth_m, q->depth_m)
                 && is_same_kg (differs, "mass", of, p->mass_kg, q->mass_kg)
                 && is_same_kg (differs, "wll", of, p->wll_kg, q->wll_kg)
                 && is_same_m (differs, "below_hook", of, p->below_hook_m, q->below_hook_m)
                 && is_same_place (differs, "between", of, p->between[0], q->between[0])
                 && is_same_place (differs, "between", of, p->between[1], q->between[1])));
}

/* ---- hoists ---- */

static const char *
gear_name (const TrnPlan *plan, const TrnHoist *hoist)
{
  return hoist->gear < plan->n_gear ? plan->gear[hoist->gear].id : NULL;
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

static gboolean
stands_the_same (TrnHandOver *differs, const char *of, const TrnPose *a, const TrnPose *b)
{
  const TrnVec3 nowhere = { NAN, NAN, NAN };
  if (!is_same_place (differs, "at/position", of, a != NULL ? a->position : nowhere,
                      b != NULL ? b->position : nowhere))
    return FALSE;
  if (a == NULL || trn_rotation_angle_between (&a->turn, &b->turn) <= TRN_SAME_PLACE_RAD)
    return TRUE;
  *differs = (TrnHandOver){ .key = "at/turn", .of = of };
  return FALSE;
}

/* Whether a hoist of one run holds the load as one of another does. */
static gboolean
is_same_hoist (TrnHandOver *differs, const TrnPlan *plan, const TrnLiftRun *run_a,
               const TrnHoist *a, const TrnLiftRun *run_b, const TrnHoist *b)
{
  const char *of = gear_name (plan, b);
  const gboolean is_same
      = is_same_name (differs, "gear", gear_name (plan, a), of)
        && stands_the_same (differs, of, gear_at (run_a, plan, a), gear_at (run_b, plan, b))
        && is_same_place (differs, "point", NULL, a->point, b->point)
        && is_same_m (differs, "hook_above", NULL, a->hook_above_m, b->hook_above_m)
        && is_same_block (differs, a, b) && are_same_slings (differs, a, b)
        && is_same_beam (differs, a, b);
  if (!is_same && differs->of == NULL && differs->was_name == NULL && differs->is_name == NULL)
    differs->of = of;
  return is_same;
}

static gboolean
names_hoist (const TrnRigging *rigging)
{
  return rigging->given && (rigging->main.given || rigging->tail.given);
}

/* A hoist that held the load at the end of the one run, and that of the same role in the other. */
static gboolean
is_role_held_on (TrnHandOver *differs, const TrnPlan *plan, const TrnLiftRun *before,
                 const TrnHoist *was, const TrnLiftRun *now, const TrnHoist *is)
{
  if (holds_in (is, 0))
    return is_same_hoist (differs, plan, before, was, now, is);
  *differs = (TrnHandOver){ .key = "moves", .of = gear_name (plan, was) };
  return FALSE;
}

/* Whether what held the load at the end of the one run holds it at the beginning of the other, but
 * for a tail that lets go of what the main hoist holds on. */
static gboolean
is_held_on (TrnHandOver *differs, const TrnPlan *plan, const TrnLiftRun *before,
            const TrnLiftRun *now)
{
  const guint last = before->lift->n_moves - 1;
  const TrnRigging *was = &before->lift->rigging, *is = &now->lift->rigging;
  const gboolean main_held = holds_in (&was->main, last), tail_held = holds_in (&was->tail, last);
  differs->key = "moves";
  if (!main_held && !tail_held)
    return FALSE;
  /* Two that both hold on may have changed their names. */
  if (main_held && tail_held && holds_in (&is->main, 0) && holds_in (&is->tail, 0)
      && is_same_hoist (differs, plan, before, &was->main, now, &is->tail)
      && is_same_hoist (differs, plan, before, &was->tail, now, &is->main))
    return TRUE;
  if (main_held && !is_role_held_on (differs, plan, before, &was->main, now, &is->main))
    return FALSE;
  if (!tail_held || (main_held && !holds_in (&is->tail, 0)))
    return TRUE;
  return is_role_held_on (differs, plan, before, &was->tail, now, &is->tail);
}

TrnHandOver
trn_hand_over_find (const TrnLiftCheck *check)
{
  const TrnProgramme *programme = check->scene->programme;
  for (guint run = check->run->left_by; run != G_MAXUINT; run = programme->runs[run].left_by)
    {
      const TrnLiftRun *before = &programme->runs[run];
      TrnHandOver differs = { .key = NULL };
      if (!names_hoist (&before->lift->rigging))
        continue;
      if (!names_hoist (&check->run->lift->rigging))
        differs.key = "rigging";
      else if (is_held_on (&differs, programme->plan, before, check->run))
        differs.key = NULL;
      return differs;
    }
  return (TrnHandOver){ .key = NULL };
}
