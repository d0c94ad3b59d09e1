/* A load on one hook turns until its centre of gravity is plumb below the hook, whatever the plan
 * draws. Where the lift says as drawn, everything else is certified for the drawn attitude and for
 * what the lift's tolerances make of it: a tilt about the hook point and a shift. So the drawn
 * attitude stands for the true one as long as the lean is no more than the tilt tolerance, and what
 * legs make of it, which turn the load about the hook above its hook point, is no more than the
 * position tolerance. Else clearances say nothing about the load as it hangs, and the finding
 * fails.
 *
 * The lean and the shift are the greatest wherever the centre of gravity is in its box, by a proven
 * bound (free-hang.c). Where there is none, what it leans by with the centre of gravity where the
 * plan has it may be too much all the same; else it is not known. A lean that counts as plumb takes
 * a hook point that is drawn d below the hook aside by 2 d sin (half of it): so much more of a
 * shift counts as none. Moves by one hook turn the load about plumb lines only, so that the lean is
 * the same all through one. A seat holds what rests on it.
 *
 * A load that hangs free is taken as it hangs, so that nothing is to be found. Where it would turn
 * over, or it is not known how it hangs, one finding of the lift says that, and what depends on it
 * is not known (unhung.h).
 *
 * A tilt is guided by something that the plan may leave out, such as a pin at its heel; of one that
 * nothing can guide it is not known how the load hangs. That is a tilt about the hook point itself
 * while the main hook alone holds the load, for a load hangs from there as its centre of gravity
 * will have it; and a tilt on two hooks in which no tail hoist holds it. Of a tilt about another
 * point nothing is known either where nothing that the plan names as touching the load (a seat, or
 * gear that is connected with it) and that could hold it stands near that point: beside a wall, in
 * mid-air or just above the ground: a heel in its pins is in something that stands on the ground.
 */
#include "attitude.h"

#include <string.h>

#include "approach.h"
#include "sources.h"
#include "tolerances.h"
#include "triangle.h"

static gboolean
holds_in (const TrnHoist *hoist, guint move)
{
  return hoist->given && move >= hoist->first_move && move <= hoist->last_move;
}

static gboolean
is_hook (const TrnPlan *plan, const TrnHoist *hoist)
{
  if (hoist->gear >= plan->n_gear)
    return TRUE;
  const TrnGearKind kind = plan->gear[hoist->gear].kind;
  return kind == TRN_GEAR_GANTRY || kind == TRN_GEAR_CRANE;
}

gboolean
trn_attitude_is_unheld (const TrnPlan *plan, const TrnLift *lift, guint move)
{
  const TrnMove *tilt = &lift->moves[move];
  const TrnRigging *rigging = &lift->rigging;
  if (tilt->kind != TRN_MOVE_TILT || tilt->turn_rad == 0 || !holds_in (&rigging->main, move)
      || !is_hook (plan, &rigging->main) || holds_in (&rigging->tail, move))
    return FALSE;
  return tilt->head_plumb
         || trn_vec3_distance (tilt->about.place, lift->hook.place) <= TRN_CONTACT_M;
}

static gboolean
is_near (const TrnMesh *mesh, TrnVec3 place)
{
  const TrnVec3 point[3] = { place, place, place };
  for (guint32 i = 0; i < mesh->n_triangles; i++)
    {
      const guint32 *v = mesh->triangles[i].v;
      const TrnVec3 corners[3]
          = { mesh->vertices[v[0]], mesh->vertices[v[1]], mesh->vertices[v[2]] };
      TrnVec3 on_point, on_mesh;
      if (trn_triangle_distance (point, corners, &on_point, &on_mesh) <= TRN_ATTITUDE_HELD_WITHIN_M)
        return TRUE;
    }
  return FALSE;
}

/* That the plan has it touch the load: as a seat, or, of gear, as connected with it. */
static gboolean
is_named (const TrnLiftCheck *check, const TrnBody *body)
{
  const TrnLift *lift = check->run->lift;
  if (check->run->rig != NULL && trn_rig_names_connected (check->run->rig, "load", body->id))
    return TRUE;
  for (guint i = 0; i < lift->n_seats; i++)
    if (trn_seat_means (&lift->seats[i], body))
      return TRUE;
  return FALSE;
}

/* What the plan names, but not the gear that the load hangs from, nor what is plainly ground. */
static gboolean
may_hold (const TrnLiftCheck *check, guint obstacle)
{
  const TrnStanding *standing = check->obstacles[obstacle].standing;
  if (!is_named (check, check->obstacles[obstacle].body))
    return FALSE;
  if (standing->kind == TRN_STANDING_GEAR)
    return standing->index != check->run->lift->rigging.main.gear;
  const TrnSolid *solid = trn_approach_solid (check, obstacle);
  return solid == NULL || solid->kind != TRN_SOLID_GROUND;
}

gboolean
trn_attitude_is_held_there (const TrnLiftCheck *check, guint move)
{
  const TrnMotion *motion = &check->run->motions[move];
  const TrnVec3 place = trn_pose_apply (&motion->start, motion->pivot);
  for (guint i = 0; i < check->n_obstacles; i++)
    {
      const TrnObstacle *obstacle = &check->obstacles[i];
      if (may_hold (check, i)
          && is_near (obstacle->body->mesh,
                      trn_pose_apply_inverse (&obstacle->standing->site_from_standing, place)))
        return TRUE;
    }
  return FALSE;
}

/* Whether that is the first move by one hook in which it is not known how a load that hangs free
 * does. */
static gboolean
is_first_unhung (const TrnLiftRun *run, guint move)
{
  guint first = 0;
  while (first < move && !(run->hangs[first].one_hook && run->hangs[first].missing != NULL))
    first++;
  return first == move && run->hangs[move].one_hook && run->hangs[move].missing != NULL;
}

gboolean
trn_attitude_means (const TrnPlan *plan, const TrnLiftRun *run, guint move)
{
  if (trn_attitude_is_unheld (plan, run->lift, move))
    return TRUE;
  if (run->lift->hangs_free && run->hangs != NULL)
    return is_first_unhung (run, move);
  return !run->lift->hangs_free && run->hangs != NULL && run->hangs[move].one_hook
         && trn_attitude_hangs (run->lift, move);
}

gboolean
trn_attitude_hangs (const TrnLift *lift, guint move)
{
  gboolean starts_seated = FALSE, ends_seated = FALSE, moved = FALSE, moves_on = FALSE;
  for (guint i = 0; i < lift->n_seats; i++)
    {
      starts_seated = starts_seated || lift->seats[i].at_start;
      ends_seated = ends_seated || lift->seats[i].at_end;
    }
  for (guint i = 0; i < lift->n_moves; i++)
    if (lift->moves[i].kind != TRN_MOVE_WAIT)
      {
        moved = moved || i <= move;
        moves_on = moves_on || i >= move;
      }
  return (moved || !starts_seated) && (moves_on || !ends_seated);
}

/* Before all other moves the load may rest on a seat, to the end of the first. */
static double
when_hanging (const TrnLift *lift, guint move)
{
  for (guint i = 0; i < move; i++)
    if (lift->moves[i].kind != TRN_MOVE_WAIT)
      return 0;
  for (guint i = 0; i < lift->n_seats; i++)
    if (lift->seats[i].at_start)
      return 1;
  return 0;
}

static void
set_values (TrnFinding *finding, const TrnLift *lift, const TrnMoveHang *hang)
{
  const gboolean is_bounded = isfinite (hang->drawn_reach_rad) && isfinite (hang->drawn_reach_m);
  const double lean_deg = trn_degrees (is_bounded ? hang->drawn_reach_rad : hang->drawn_lean_rad);
  const double shift_m = is_bounded ? hang->drawn_reach_m : hang->drawn_shift_m;
  const double tilt_deg = trn_degrees (fabs (lift->tolerance_tilt_rad));
  const double plumb_m = 2 * hang->drawn_hook_m * sin (TRN_PLUMB_DEG / 2 * G_PI / 180);
  const gboolean is_plumb = lean_deg <= fmax (tilt_deg, TRN_PLUMB_DEG);
  const gboolean is_near = shift_m <= lift->tolerance_m + plumb_m + TRN_CONTACT_M;
  const gboolean is_within = is_plumb && is_near;
  finding->value = lean_deg;
  finding->limit = tilt_deg;
  if (is_plumb && !is_near)
    {
      finding->item = "shift";
      finding->unit = TRN_UNIT_M;
      finding->value = shift_m;
      finding->limit = lift->tolerance_m;
      trn_finding_add_number (finding, "lean", lean_deg, TRN_UNIT_DEG);
    }
  else if (!is_plumb && !is_near && isfinite (shift_m))
    /* Who makes room for the lean alone would only be told the next time. */
    trn_finding_add_number (finding, "shift", shift_m, TRN_UNIT_M);
  finding->margin = finding->limit - finding->value;
  if (!is_within && is_bounded
      && trn_degrees (hang->drawn_lean_rad) <= fmax (tilt_deg, TRN_PLUMB_DEG)
      && hang->drawn_shift_m <= lift->tolerance_m + plumb_m + TRN_CONTACT_M)
    trn_finding_add_number (finding, TRN_ATTITUDE_BUT_FOR_BOX,
                            finding->unit == TRN_UNIT_M ? hang->drawn_shift_m
                                                        : trn_degrees (hang->drawn_lean_rad),
                            finding->unit);
  if (is_plumb && isnan (shift_m))
    finding->missing = "hang";
  else if (is_within && !is_bounded)
    finding->missing = hang->unbounded != NULL ? hang->unbounded : "cog_box";
  if (finding->missing != NULL)
    return;
  if (is_within)
    finding->margin = fmax (0, finding->margin);
  finding->verdict = is_within ? TRN_VERDICT_PASS : TRN_VERDICT_FAIL;
  finding->state = is_within ? TRN_STATE_WITHIN : TRN_STATE_OUTSIDE;
}

/* A load that hangs free and turns over, or of which it is not known how it hangs. */
static void
judge_free (TrnFinding *finding, const TrnLiftCheck *check, const TrnMoveHang *hang)
{
  if (strcmp (hang->missing, TRN_HANG_TURNS_OVER) != 0)
    {
      finding->missing = hang->missing;
      return;
    }
  finding->progress = when_hanging (check->run->lift, (guint)finding->move);
  finding->time_s = trn_lift_check_time (check, (guint)finding->move, finding->progress);
  finding->value = trn_degrees (hang->lean_rad);
  finding->limit = trn_degrees (fabs (check->run->lift->tolerance_tilt_rad));
  finding->margin = finding->limit - finding->value;
  finding->verdict = TRN_VERDICT_FAIL;
  finding->state = TRN_STATE_OUTSIDE;
}

TrnFinding
trn_attitude_judge (const TrnLiftCheck *check, guint move)
{
  const TrnLift *lift = check->run->lift;
  const TrnMoveHang *hang = &check->run->hangs[move];
  const TrnComponent *unit = &check->scene->programme->plan->components[lift->component];
  TrnFinding finding = trn_lift_check_finding (check, TRN_CHECK_ATTITUDE, (int)move, NULL, NAN);
  finding.item = "lean";
  finding.unit = TRN_UNIT_DEG;
  finding.source = TRN_SOURCE_PLAN;
  if (trn_progress_is_cancelled (check->options->progress))
    return finding;
  if (trn_attitude_is_unheld (check->scene->programme->plan, lift, move))
    finding.missing = "tail";
  else if (lift->hangs_free)
    {
      judge_free (&finding, check, hang);
      return finding;
    }
  else if (isnan (unit->cog.x))
    finding.missing = "cog";
  else if (isnan (hang->drawn_lean_rad))
    finding.missing = "hang";
  if (finding.missing != NULL)
    return finding;
  finding.progress = when_hanging (lift, move);
  finding.time_s = trn_lift_check_time (check, move, finding.progress);
  set_values (&finding, lift, hang);
  return finding;
}
