/* The site is played item by item. Its state is three arrays, one entry for each of the plan's
 * structures, components and gear: does it stand, and where. A lift reads the state (what stands is
 * an obstacle), turns its moves into motions, each beginning where the one before ended, lets the
 * load lean where it hangs free (free-hang.h), and writes back where its component then stands; a
 * change writes the state only.
 *
 * A fault does not end the play: the item is left out and the next one is judged on what is known.
 * Faults are what leaves nothing to check: a motion or the height of a hook that has no value, and
 * a programme that contradicts itself about what stands where. How a load hangs is none: where that
 * is not known the motion stays as drawn and says so, and the checks tell it (unhung.c). */
#include "programme.h"

#include <math.h>
#include <string.h>

#include "free-hang.h"
#include "tolerances.h"

/* Beyond this the plan cannot be meant: a coordinate that far off leaves less than the contact
 * tolerance in double arithmetic once errors add up. */
#define FARTHEST_M 1e7

/* As in TrnStanding. */
typedef struct
{
  gboolean stands;
  TrnPose pose;
  TrnSlack slack;
  guint left_by;
  gboolean is_held, is_unknown;
} Place;

typedef struct
{
  TrnPlan *plan;
  TrnDiags *diags;
  Place *structures, *components, *gear;
} Site;

static Place
placed (const TrnPlacement *at)
{
  return (Place){ .stands = TRUE, .pose = trn_pose_make (at), .left_by = G_MAXUINT };
}

static TrnDiag *
fault (Site *site, const char *code, const char *pointer, const char *key)
{
  g_autofree char *place = g_strconcat (pointer, key, NULL);
  TrnDiag *diag = trn_diags_add (site->diags, TRN_SEVERITY_ERROR, code, place);
  trn_plan_locate (site->plan, diag);
  return diag;
}

/* The place of a structure, component or gear, or NULL where the plan has none of that name. @at
 * receives where the plan says that it stands, NULL where it does not. */
static Place *
find_place (Site *site, const char *id, const TrnPlacement **at)
{
  const TrnStructure *structure = trn_plan_find_structure (site->plan, id);
  if (structure != NULL)
    {
      *at = structure->placed ? &structure->at : NULL;
      return &site->structures[structure - site->plan->structures];
    }
  const TrnComponent *component = trn_plan_find_component (site->plan, id);
  if (component != NULL)
    {
      *at = component->placed ? &component->at : NULL;
      return &site->components[component - site->plan->components];
    }
  const TrnGear *gear = trn_plan_find_gear (site->plan, id);
  if (gear == NULL)
    return NULL;
  *at = gear->placed ? &gear->at : NULL;
  return &site->gear[gear - site->plan->gear];
}

/* ---- moves ---- */

static TrnVec3
level_axis (double heading_rad)
{
  return trn_vec3_make (cos (heading_rad), sin (heading_rad), 0);
}

static gboolean
make_slew (Site *site, const TrnLift *lift, const TrnMove *move, const TrnPose *start,
           TrnMotion *motion)
{
  if (trn_motion_make_slew (start, move->seconds, lift->hook.place, move->centre_x, move->centre_y,
                            move->turn_rad, move->load_turns, move->radius_by_m, move->hoist_by_m,
                            motion))
    return TRUE;
  TrnVec3 hook = trn_pose_apply (start, lift->hook.place);
  double radius_m = hypot (hook.x - move->centre_x, hook.y - move->centre_y);
  TrnDiag *diag = fault (site, "scene/slew-radius", move->pointer, "");
  trn_diag_set_number (diag, "radius", radius_m, TRN_UNIT_M);
  trn_diag_set_number (diag, "end-radius", radius_m + move->radius_by_m, TRN_UNIT_M);
  return FALSE;
}

static gboolean
make_head_plumb (Site *site, const TrnMove *move, const TrnPose *start, TrnMotion *motion)
{
  double off_rad = 0;
  if (trn_motion_make_head_plumb (start, move->seconds, move->head.place, move->tail.place,
                                  level_axis (move->axis_rad), move->turn_rad, motion, &off_rad))
    return TRUE;
  TrnDiag *diag = fault (site, "scene/axis-not-square", move->pointer, "/axis");
  trn_diag_set_number (diag, "off", off_rad * 180 / G_PI, TRN_UNIT_DEG);
  trn_diag_set_number (diag, "allowed", TRN_SQUARE_DEG, TRN_UNIT_DEG);
  return FALSE;
}

static gboolean
make_motion (Site *site, const TrnLift *lift, const TrnMove *move, const TrnPose *start,
             TrnMotion *motion)
{
  const TrnVec3 up = { 0, 0, 1 };
  switch (move->kind)
    {
    case TRN_MOVE_HOIST:
    case TRN_MOVE_TRAVEL:
      *motion = trn_motion_make_carry (start, move->seconds, lift->hook.place, move->by, up, 0);
      return TRUE;
    case TRN_MOVE_MOVE:
    case TRN_MOVE_TURN:
      *motion = trn_motion_make_carry (start, move->seconds, move->about.place, move->by, up,
                                       move->turn_rad);
      return TRUE;
    case TRN_MOVE_SLEW:
      return make_slew (site, lift, move, start, motion);
    case TRN_MOVE_TILT:
      if (move->head_plumb)
        return make_head_plumb (site, move, start, motion);
      *motion = trn_motion_make_carry (start, move->seconds, move->about.place, move->by,
                                       level_axis (move->axis_rad), move->turn_rad);
      return TRUE;
    case TRN_MOVE_WAIT:
      *motion = trn_motion_make_wait (start, move->seconds);
      return TRUE;
    }
  g_assert_not_reached ();
}

static gboolean
make_motions (Site *site, TrnLiftRun *run)
{
  const TrnLift *lift = run->lift;
  TrnPose pose = run->start;
  for (guint i = 0; i < lift->n_moves; i++)
    {
      const TrnMove *move = &lift->moves[i];
      if (!make_motion (site, lift, move, &pose, &run->motions[i]))
        return FALSE;
      pose = trn_motion_pose (&run->motions[i], 1);
      if (!trn_vec3_is_finite (pose.position) || trn_vec3_max_abs (pose.position) > FARTHEST_M)
        {
          TrnDiag *diag = fault (site, "scene/too-far", move->pointer, "");
          trn_diag_set_number (diag, "limit", FARTHEST_M, TRN_UNIT_M);
          return FALSE;
        }
      run->begins_s[i + 1] = run->begins_s[i] + move->seconds;
    }
  run->end = pose;
  return TRUE;
}

/* ---- lifts ---- */

static void
add_standing (Site *site, TrnLiftRun *run, TrnStanding standing)
{
  standing.required_m = trn_plan_required_m (site->plan, run->lift, standing.id);
  run->standing[run->n_standing++] = standing;
  if (!isnan (standing.required_m))
    return;
  TrnDiag *diag = fault (site, "scene/no-clearance", run->lift->pointer, "");
  trn_diag_set_text (diag, "lift", run->lift->id);
  trn_diag_set_text (diag, "obstacle", standing.id);
}

static void
list_standing (Site *site, TrnLiftRun *run)
{
  const TrnPlan *plan = site->plan;
  run->standing = g_new0 (TrnStanding, plan->n_structures + plan->n_components + plan->n_gear);
  for (guint i = 0; i < plan->n_structures; i++)
    if (site->structures[i].stands)
      add_standing (site, run,
                    (TrnStanding){ .id = plan->structures[i].id,
                                   .index = i,
                                   .site_from_standing = site->structures[i].pose,
                                   .survey_tolerance_m = plan->structures[i].survey_tolerance_m,
                                   .left_by = G_MAXUINT });
  for (guint i = 0; i < plan->n_components; i++)
    if (site->components[i].stands && i != run->lift->component)
      add_standing (site, run,
                    (TrnStanding){ .id = plan->components[i].id,
                                   .kind = TRN_STANDING_COMPONENT,
                                   .index = i,
                                   .site_from_standing = site->components[i].pose,
                                   .slack = site->components[i].slack,
                                   .left_by = site->components[i].left_by,
                                   .is_held = site->components[i].is_held,
                                   .is_place_unknown = site->components[i].is_unknown });
  for (guint i = 0; i < plan->n_gear; i++)
    if (site->gear[i].stands)
      add_standing (site, run,
                    (TrnStanding){ .id = plan->gear[i].id,
                                   .kind = TRN_STANDING_GEAR,
                                   .index = i,
                                   .site_from_standing = site->gear[i].pose,
                                   .left_by = G_MAXUINT });
}

static void
list_gone (const Site *site, TrnLiftRun *run)
{
  run->gone = g_new0 (TrnGone, site->plan->n_components);
  for (guint i = 0; i < site->plan->n_components; i++)
    {
      const Place *place = &site->components[i];
      if (!place->stands && place->left_by != G_MAXUINT)
        run->gone[run->n_gone++] = (TrnGone){ i, place->left_by, place->is_held };
    }
}

static const TrnStanding *
find_standing (const TrnLiftRun *run, const char *id)
{
  for (guint i = 0; i < run->n_standing; i++)
    if (strcmp (run->standing[i].id, id) == 0)
      return &run->standing[i];
  return NULL;
}

static gboolean
is_on (const TrnSeat *seat, const char *id)
{
  const gsize length = strlen (id);
  return strncmp (seat->on, id, length) == 0
         && (seat->on[length] == '\0' || seat->on[length] == '/');
}

static void
check_seat (Site *site, const TrnLiftRun *run, const TrnSeat *seat)
{
  const char *slash = strchr (seat->on, '/');
  g_autofree char *id
      = slash != NULL ? g_strndup (seat->on, (gsize)(slash - seat->on)) : g_strdup (seat->on);
  const TrnStanding *standing = find_standing (run, id);
  if (standing != NULL)
    return;
  TrnDiag *diag = fault (site, "scene/seat-not-standing", seat->pointer, "/on");
  trn_diag_set_text (diag, "seat", seat->on);
  trn_diag_set_text (diag, "lift", run->lift->id);
}

static gboolean
differs (const TrnPose *a, const TrnPose *b)
{
  return trn_vec3_distance (a->position, b->position) > TRN_SAME_PLACE_M
         || trn_rotation_angle_between (&a->turn, &b->turn) > TRN_SAME_PLACE_RAD;
}

static void
check_gear_stands (Site *site, const TrnLiftRun *run, const TrnHoist *hoist)
{
  if (hoist->gear == G_MAXUINT || site->gear[hoist->gear].stands)
    return;
  TrnDiag *diag = fault (site, "scene/gear-not-standing", hoist->pointer, "/gear");
  trn_diag_set_text (diag, "gear", site->plan->gear[hoist->gear].id);
  trn_diag_set_text (diag, "lift", run->lift->id);
}

/* The height of the hook that is left out follows from the first sling from hook to point whose
 * length is given (see rig.h): it must reach farther than the point is off the plumb line. */
static void
check_sling_reaches (Site *site, const TrnLiftRun *run, const TrnHoist *hoist)
{
  if (!hoist->given || !isnan (hoist->hook_above_m))
    return;
  const TrnSling *sling = NULL;
  for (guint i = 0; i < hoist->n_slings && sling == NULL; i++)
    if (hoist->slings[i].from == TRN_SLING_FROM_HOOK && !hoist->slings[i].to_beam
        && !isnan (hoist->slings[i].length_m))
      sling = &hoist->slings[i];
  if (sling == NULL)
    return;
  const TrnPose pose = trn_motion_pose (&run->motions[hoist->first_move], 0);
  const TrnVec3 off
      = trn_vec3_sub (trn_pose_apply (&pose, sling->to), trn_pose_apply (&pose, hoist->point));
  const double level_m = hypot (off.x, off.y);
  if (sling->length_m > level_m)
    return;
  TrnDiag *diag = fault (site, "scene/sling-short", sling->pointer, "/length");
  trn_diag_set_text (diag, "sling", sling->id);
  trn_diag_set_number (diag, "length", sling->length_m, TRN_UNIT_M);
  trn_diag_set_number (diag, "off", level_m, TRN_UNIT_M);
}

static void
set_up_rig (Site *site, TrnLiftRun *run)
{
  const TrnPlan *plan = site->plan;
  TrnGearPlace *places = g_new0 (TrnGearPlace, plan->n_gear);
  guint n_places = 0;
  for (guint i = 0; i < plan->n_gear; i++)
    if (site->gear[i].stands)
      places[n_places++] = (TrnGearPlace){ &plan->gear[i], site->gear[i].pose };
  run->rig = trn_rig_new (plan, run->lift, run->motions, places, n_places);
}

/* The lift's motions are known. */
static void
play_rigging (Site *site, TrnLiftRun *run)
{
  const TrnRigging *rigging = &run->lift->rigging;
  const guint errors = trn_diags_count (site->diags, TRN_SEVERITY_ERROR);
  check_gear_stands (site, run, &rigging->main);
  check_gear_stands (site, run, &rigging->tail);
  check_sling_reaches (site, run, &rigging->main);
  check_sling_reaches (site, run, &rigging->tail);
  if (trn_diags_count (site->diags, TRN_SEVERITY_ERROR) > errors)
    return;
  set_up_rig (site, run);
  trn_free_hang_play (site->plan, run, site->diags);
}

gboolean
trn_programme_starts_on_seat (const TrnLift *lift)
{
  for (guint i = 0; i < lift->n_seats; i++)
    if (lift->seats[i].at_start)
      return TRUE;
  return FALSE;
}

gboolean
trn_programme_ends_on_seat (const TrnLift *lift)
{
  for (guint i = 0; i < lift->n_seats; i++)
    if (lift->seats[i].at_end)
      return TRUE;
  return FALSE;
}

/* Where all moves are waits on a seat it stays as it stood; without one it hangs as long. */
static gboolean
ends_on_hook (const TrnLift *lift)
{
  gboolean is_moved = FALSE;
  for (guint i = 0; i < lift->n_moves; i++)
    is_moved = is_moved || lift->moves[i].kind != TRN_MOVE_WAIT;
  return (is_moved || !trn_programme_starts_on_seat (lift)) && !trn_programme_ends_on_seat (lift);
}

static gboolean
tilts (const TrnLift *lift)
{
  for (guint i = 0; i < lift->n_moves; i++)
    if (lift->moves[i].kind == TRN_MOVE_TILT)
      return TRUE;
  return FALSE;
}

/* What was left may be off about one point; another, d away, goes along a chord of 2 d sin(angle/2)
 * for each of both turns. A lift that tilts the load takes both to other axes: all of it may come
 * to be tilt or heading. */
static TrnSlack
slack_of_lift (const TrnLift *lift, const TrnSlack *left)
{
  const double off_m = trn_vec3_distance (left->about, lift->hook.place);
  const double left_m
      = left->m + trn_chord_m (off_m, left->tilt_rad) + trn_chord_m (off_m, left->heading_rad);
  const double both_rad = left->tilt_rad + left->heading_rad;
  const double tilt_rad = tilts (lift) ? both_rad : left->tilt_rad,
               heading_rad = tilts (lift) ? both_rad : left->heading_rad;
  return (TrnSlack){ .m = fmax (lift->tolerance_m, left_m),
                     .tilt_rad = fmax (fabs (lift->tolerance_tilt_rad), tilt_rad),
                     .heading_rad = fmax (fabs (lift->tolerance_heading_rad), heading_rad),
                     .about = lift->hook.place };
}

/* Whether it sets its load down on what hangs, or stands nobody knows how. */
static gboolean
ends_on_hung (const TrnLiftRun *run)
{
  gboolean is_hung = FALSE;
  for (guint i = 0; i < run->lift->n_seats; i++)
    for (guint k = 0; run->lift->seats[i].at_end && k < run->n_standing; k++)
      is_hung = is_hung
                || ((run->standing[k].left_by != G_MAXUINT || run->standing[k].is_place_unknown)
                    && is_on (&run->lift->seats[i], run->standing[k].id));
  return is_hung;
}

/* With errors added the run is half-made, and still to be freed. */
static void
play_lift (Site *site, const TrnLift *lift, guint index, TrnLiftRun *run)
{
  Place *place = &site->components[lift->component];
  run->lift = lift;
  run->motions = g_new0 (TrnMotion, lift->n_moves);
  run->begins_s = g_new0 (double, lift->n_moves + 1);
  list_standing (site, run);
  list_gone (site, run);
  for (guint i = 0; i < lift->n_seats; i++)
    check_seat (site, run, &lift->seats[i]);
  if (!place->stands)
    {
      TrnDiag *diag = fault (site, "scene/load-not-on-site", lift->pointer, "/component");
      trn_diag_set_text (diag, "component", site->plan->components[lift->component].id);
      trn_diag_set_text (diag, "lift", lift->id);
      return;
    }
  run->stands = place->pose;
  run->start = lift->has_start ? trn_pose_make (&lift->start) : place->pose;
  run->starts_unknown = place->is_unknown;
  run->left = place->slack;
  run->left_by = place->left_by;
  run->slack = slack_of_lift (lift, &run->left);
  run->starts_elsewhere = differs (&run->start, &run->stands);
  if (!make_motions (site, run))
    return;
  play_rigging (site, run);
  place->pose = run->end;
  place->slack = run->slack;
  place->is_held = !trn_programme_ends_on_seat (lift) && (place->is_held || lift->rigging.given);
  if (trn_programme_ends_on_seat (lift))
    place->left_by = G_MAXUINT;
  else if (ends_on_hook (lift))
    place->left_by = index;
  place->is_unknown = run->ends_unknown
                      || (run->starts_unknown && !trn_programme_ends_on_seat (lift))
                      || ends_on_hung (run);
}

/* ---- changes ---- */

static void
change_fault (Site *site, const TrnChange *change, const char *code, const char *key,
              const char *what)
{
  TrnDiag *diag = fault (site, code, change->pointer, key);
  trn_diag_set_text (diag, "change", change->id);
  trn_diag_set_text (diag, "what", what);
}

static void
play_add (Site *site, const TrnChange *change, Place *place, const TrnPlacement *own)
{
  const TrnPlacement *at = change->has_at ? &change->at : own;
  if (place->stands)
    change_fault (site, change, "scene/already-on-site", "/add", change->what);
  else if (at == NULL)
    change_fault (site, change, "scene/add-without-place", "", change->what);
  else if (place->left_by != G_MAXUINT)
    {
      /* It hung when it was removed, and no lift has set it down: what holds it stays, and how it
       * hangs there nobody says. */
      place->stands = place->is_unknown = TRUE;
      place->pose = trn_pose_make (at);
    }
  else
    *place = placed (at);
}

static void
play_swap (Site *site, const TrnChange *change, Place *goes)
{
  const TrnPlacement *own = NULL;
  Place *comes = find_place (site, change->with, &own);
  g_assert (comes != NULL); /* the plan's reader has looked it up */
  if (!goes->stands)
    change_fault (site, change, "scene/not-on-site", "/swap/component", change->what);
  if (comes->stands)
    change_fault (site, change, "scene/already-on-site", "/swap/with", change->with);
  if (!goes->stands || comes->stands)
    return;
  /* What takes the place of what hangs hangs there nobody knows how, held as that was. So does what
   * hung when it was removed; what held that holds it on, or, where both hung, what goes. */
  const Place was = *comes;
  *comes = *goes;
  *goes = (Place){ .left_by = G_MAXUINT };
  comes->is_unknown = comes->is_unknown || comes->left_by != G_MAXUINT || was.left_by != G_MAXUINT;
  if (was.left_by == G_MAXUINT)
    return;
  Place *held = comes->left_by == G_MAXUINT ? comes : goes;
  held->left_by = was.left_by;
  held->is_held = held->is_held || was.is_held;
}

static void
play_change (Site *site, const TrnChange *change)
{
  const TrnPlacement *own = NULL;
  Place *place = find_place (site, change->what, &own);
  g_assert (place != NULL); /* the plan's reader has looked it up */
  switch (change->kind)
    {
    case TRN_CHANGE_ADD:
      play_add (site, change, place, own);
      return;
    case TRN_CHANGE_REMOVE:
      if (!place->stands)
        change_fault (site, change, "scene/not-on-site", "/remove", change->what);
      place->stands = FALSE;
      return;
    case TRN_CHANGE_SWAP:
      play_swap (site, change, place);
      return;
    }
}

/* ---- what is odd ---- */

static TrnDiag *
warn (Site *site, const char *code, const char *pointer)
{
  TrnDiag *diag = trn_diags_add (site->diags, TRN_SEVERITY_WARNING, code, pointer);
  trn_plan_locate (site->plan, diag);
  return diag;
}

/* The voltage of a live line in @solid, or in a part of it; NAN where there is none. */
static double
find_voltage_kv (const TrnSolid *solid)
{
  if (solid->kind == TRN_SOLID_OVERHEAD_LINE)
    return solid->voltage_kv;
  double voltage_kv = NAN;
  for (guint i = 0; i < solid->n_parts; i++)
    voltage_kv = fmax (voltage_kv, find_voltage_kv (solid->parts[i].solid));
  return voltage_kv;
}

static gboolean
has_own_clearance (const TrnLift *lift, const char *id)
{
  for (guint i = 0; i < lift->n_keep_clear_of; i++)
    if (strcmp (lift->keep_clear_of[i].id, id) == 0)
      return TRUE;
  return FALSE;
}

/* A live line for which only a clearance for everything holds, in some lift, and no rule of the
 * plan: said once. */
static void
warn_of_line (Site *site, const TrnProgramme *programme, const TrnStructure *structure)
{
  double voltage_kv
      = structure->shape.solid != NULL ? find_voltage_kv (structure->shape.solid) : NAN;
  if (isnan (voltage_kv) || !isnan (structure->keep_clear_m)
      || site->plan->approach.kind != TRN_APPROACH_NONE)
    return;
  for (guint i = 0; i < programme->n_runs; i++)
    {
      const TrnLiftRun *run = &programme->runs[i];
      const TrnStanding *standing = find_standing (run, structure->id);
      if (standing == NULL || has_own_clearance (run->lift, structure->id))
        continue;
      TrnDiag *diag = warn (site, "scene/live-line", structure->pointer);
      trn_diag_set_text (diag, "line", structure->id);
      trn_diag_set_text (diag, "lift", run->lift->id);
      trn_diag_set_number (diag, "voltage", voltage_kv, TRN_UNIT_NONE);
      trn_diag_set_number (diag, "required", standing->required_m, TRN_UNIT_M);
      return;
    }
}

static void
warn_of_odd (Site *site, const TrnProgramme *programme)
{
  for (guint i = 0; i < site->plan->n_structures; i++)
    warn_of_line (site, programme, &site->plan->structures[i]);
  for (guint i = 0; i < programme->n_runs; i++)
    if (programme->runs[i].n_standing == 0)
      {
        const TrnLift *lift = programme->runs[i].lift;
        trn_diag_set_text (warn (site, "scene/nothing-stands", lift->pointer), "lift", lift->id);
      }
}

/* ---- the programme ---- */

static void
set_up_site (Site *site)
{
  const TrnPlan *plan = site->plan;
  site->structures = g_new0 (Place, plan->n_structures);
  site->components = g_new0 (Place, plan->n_components);
  site->gear = g_new0 (Place, plan->n_gear);
  for (guint i = 0; i < plan->n_components; i++)
    site->components[i].left_by = G_MAXUINT;
  for (guint i = 0; i < plan->n_structures; i++)
    site->structures[i].left_by = G_MAXUINT;
  for (guint i = 0; i < plan->n_gear; i++)
    site->gear[i].left_by = G_MAXUINT;
  for (guint i = 0; i < plan->n_structures; i++)
    if (plan->structures[i].placed)
      site->structures[i] = placed (&plan->structures[i].at);
  for (guint i = 0; i < plan->n_components; i++)
    if (plan->components[i].placed)
      site->components[i] = placed (&plan->components[i].at);
  for (guint i = 0; i < plan->n_gear; i++)
    if (plan->gear[i].placed)
      site->gear[i] = placed (&plan->gear[i].at);
}

TrnProgramme *
trn_programme_play (TrnPlan *plan, TrnDiags *diags)
{
  g_autoptr (TrnProgramme) programme = g_new0 (TrnProgramme, 1);
  programme->plan = trn_plan_ref (plan);
  programme->runs = g_new0 (TrnLiftRun, plan->n_lifts);
  guint errors_before = trn_diags_count (diags, TRN_SEVERITY_ERROR);
  Site site = { .plan = plan, .diags = diags };
  set_up_site (&site);
  for (guint i = 0; i < plan->n_programme; i++)
    {
      const TrnProgrammeItem *item = &plan->programme[i];
      if (item->is_lift)
        {
          const guint run = programme->n_runs++;
          play_lift (&site, &plan->lifts[item->index], run, &programme->runs[run]);
        }
      else
        play_change (&site, &plan->changes[item->index]);
    }
  g_free (site.structures);
  g_free (site.components);
  g_free (site.gear);
  if (trn_diags_count (diags, TRN_SEVERITY_ERROR) > errors_before)
    return NULL;
  warn_of_odd (&site, programme);
  return g_steal_pointer (&programme);
}

void
trn_programme_free (TrnProgramme *programme)
{
  if (programme == NULL)
    return;
  for (guint i = 0; i < programme->n_runs; i++)
    {
      g_free (programme->runs[i].motions);
      g_free (programme->runs[i].hangs);
      g_free (programme->runs[i].begins_s);
      g_free (programme->runs[i].standing);
      g_free (programme->runs[i].gone);
      trn_rig_free (programme->runs[i].rig);
    }
  g_free (programme->runs);
  trn_plan_unref (programme->plan);
  g_free (programme);
}
