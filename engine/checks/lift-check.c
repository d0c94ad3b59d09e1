/* The bound on what the lift's tolerances do, or what an earlier lift left its load off by.
 *
 * The load may be off by a shift of at most p, by a tilt of at most τ about some level axis through
 * the hook point, and by a heading error of at most η about the vertical through it. A turn by the
 * angle α about an axis takes a point at the distance d from that axis along a chord of
 * 2 d sin(α/2).
 *   tilt:    d is at most r, the greatest distance of a load point from the hook point;
 *   heading: d is at most ρ, the greatest distance of a load point from the vertical through the
 *            hook, plus 2 r sin(τ/2), by which the tilt may have moved it outwards.
 * All in all p + 2 r sin(τ/2) + 2 (ρ + 2 r sin(τ/2)) sin(η/2). Distances from a point and from a
 * line are convex, so r and ρ are attained at vertices.
 *
 * ρ over a move. w(φ) is the vector from the hook to a vertex, in site axes; it only turns, about
 * the move's axis u, so ρ² = |w|² − w_z² and the least |w_z| is wanted.
 *   u vertical: w_z does not change.
 *   u level:    w_z(φ) = w_z cos φ + (u × w)_z sin φ = C cos(φ − φ₀) by Rodrigues' formula with
 *               u_z = 0. Between two of its zeros |C cos| is concave, so without a zero in between
 *               the least is at an end of the move; with one it is 0. For less than half a turn
 *               there is a zero exactly when the ends differ in sign; from half a turn on there
 *               always is one. */
#include "lift-check.h"

#include "hook-force.h"
#include "sail-area.h"
#include "sweep-cache.h"
#include "swinging.h"
#include "tolerances.h"

#define ROUNDING_SHARE 1e-12 /* some thousand roundings of a double: there are some dozens */
#define ROUNDING_M 1e-12

void
trn_lift_check_init (TrnLiftCheck *check, const TrnScene *scene, guint index,
                     const TrnCheckOptions *options)
{
  const TrnLiftRun *run = &scene->programme->runs[index];
  *check = (TrnLiftCheck){ .scene = scene,
                           .options = options,
                           .certify_m = options->certify_m > 0 ? options->certify_m : TRN_CERTIFY_M,
                           .index = index,
                           .run = run,
                           .load = trn_scene_load (scene, run) };
  check->obstacles = trn_scene_obstacles (scene, run, &check->n_obstacles);
  check->rig = run->rig != NULL && run->rig->n_bodies > 0 ? run->rig : NULL;
  check->allowances = g_new0 (TrnAllowance, run->lift->n_moves);
  check->tolerance_m = g_new0 (double, run->lift->n_moves);
  check->left_m = g_new0 (double, check->n_obstacles);
  check->shown = trn_shown_new (options->cache);
  check->sail = trn_sail_new ();
  check->memos = g_new (TrnSpanMemo *, run->lift->n_moves);
  for (guint i = 0; i < run->lift->n_moves; i++)
    check->memos[i] = trn_span_memo_new ();
  const gsize n_bodies = check->rig != NULL ? (gsize)run->lift->n_moves * check->rig->n_bodies : 0;
  check->gear_off = g_new0 (TrnGearTolerance, n_bodies);
  check->rig_tolerance_m = g_new0 (double, n_bodies);
  trn_swinging_make (check);
}

void
trn_lift_check_clear (TrnLiftCheck *check)
{
  for (guint i = 0; check->memos != NULL && i < check->run->lift->n_moves; i++)
    trn_span_memo_free (check->memos[i]);
  g_clear_pointer (&check->shown, trn_shown_free);
  g_clear_pointer (&check->sail, trn_sail_free);
  g_clear_pointer (&check->memos, g_free);
  g_clear_pointer (&check->obstacles, g_free);
  g_clear_pointer (&check->allowances, g_free);
  g_clear_pointer (&check->swinging, g_free);
  g_clear_pointer (&check->tolerance_m, g_free);
  g_clear_pointer (&check->left_m, g_free);
  g_clear_pointer (&check->gear_off, g_free);
  g_clear_pointer (&check->rig_tolerance_m, g_free);
}

TrnSweepPair
trn_lift_check_pair (const TrnLiftCheck *check, guint move, guint obstacle, TrnInterval span)
{
  const TrnObstacle *other = &check->obstacles[obstacle];
  return (TrnSweepPair){ .body = { check->load->bvh, check->load->check },
                         .motion = &check->run->motions[move],
                         .span = span,
                         .obstacle = { other->body->bvh, other->body->check },
                         .site_from_obstacle = other->standing->site_from_standing };
}

TrnDistance
trn_lift_check_distance (const TrnLiftCheck *check, const TrnPose *site_from_load,
                         const TrnObstacle *obstacle, double limit_m)
{
  TrnSweepBody load = { check->load->bvh, check->load->check };
  TrnSweepBody other = { obstacle->body->bvh, obstacle->body->check };
  return trn_sweep_cached_distance (check->options->cache, &load, site_from_load, &other,
                                    &obstacle->standing->site_from_standing, limit_m);
}

TrnInside
trn_lift_check_inside (const TrnLiftCheck *check, const TrnPose *site_from_load,
                       const TrnObstacle *obstacle)
{
  TrnSweepBody load = { check->load->bvh, check->load->check };
  TrnSweepBody other = { obstacle->body->bvh, obstacle->body->check };
  return trn_sweep_cached_inside (check->options->cache, &load, site_from_load, &other,
                                  &obstacle->standing->site_from_standing);
}

double
trn_lift_check_stands_off (const TrnLiftCheck *check, guint obstacle)
{
  return check->obstacles[obstacle].standing->survey_tolerance_m + check->left_m[obstacle];
}

double
trn_lift_check_time (const TrnLiftCheck *check, guint move, double s)
{
  const double *begins = check->run->begins_s;
  return begins[move] + s * check->run->motions[move].seconds;
}

double
trn_lift_check_reach (const TrnLiftCheck *check, guint move)
{
  return trn_sweep_reach (check->load->bvh, &check->run->motions[move]);
}

TrnFinding
trn_lift_check_finding (const TrnLiftCheck *check, TrnCheckKind kind, int move,
                        const char *obstacle, double required_m)
{
  return (TrnFinding){ .check = kind,
                       .verdict = TRN_VERDICT_UNKNOWN,
                       .state = TRN_STATE_UNKNOWN,
                       .lift = check->index,
                       .move = move,
                       .body = "load",
                       .obstacle = obstacle,
                       .required_m = required_m,
                       .upper_m = NAN,
                       .certified_to_m = check->certify_m,
                       .time_s = NAN,
                       .progress = NAN,
                       .inside = TRN_INSIDE_NO,
                       .seat_until_m = NAN,
                       .gap_m = NAN,
                       .raise_m = NAN,
                       .distance_m = NAN,
                       .turned_rad = NAN,
                       .radius_m = NAN,
                       .sector_distance_m = NAN,
                       .circle_distance_m = NAN,
                       .unit = TRN_UNIT_NONE,
                       .value = NAN,
                       .limit = NAN,
                       .margin = NAN,
                       .utilisation = NAN };
}

/* The least |w_z| over the move for a vector that is @w at its start. */
static double
least_height (const TrnMotion *motion, TrnVec3 w)
{
  TrnVec3 u = motion->axis;
  if (!trn_motion_tilts (motion))
    return fabs (w.z);
  if (u.z != 0 || fabs (motion->angle_rad) >= G_PI)
    return 0;
  double across = u.x * w.y - u.y * w.x;
  double end = w.z * cos (motion->angle_rad) + across * sin (motion->angle_rad);
  return w.z * end <= 0 ? 0 : fmin (fabs (w.z), fabs (end));
}

/* The greatest distances so far of points from the hook point and from the vertical through it. */
typedef struct
{
  double r2, rho2;
} Farthest;

static void
add_point (const TrnMotion *motion, TrnVec3 hook, TrnVec3 point, Farthest *farthest)
{
  TrnVec3 w = trn_rotation_apply (&motion->start.turn, trn_vec3_sub (point, hook));
  double height = least_height (motion, w), length2 = trn_vec3_length_squared (w);
  const double rho2 = length2 - height * height;
  farthest->r2 = MAX (farthest->r2, length2);
  farthest->rho2 = MAX (farthest->rho2, rho2);
}

/* A lug may be no part of the mesh. */
static void
add_hoist (const TrnMotion *motion, const TrnLift *lift, const TrnHoist *hoist, Farthest *farthest)
{
  if (!lift->rigging.given || !hoist->given)
    return;
  add_point (motion, lift->hook.place, hoist->point, farthest);
  for (guint i = 0; i < 2 && hoist->has_beam; i++)
    add_point (motion, lift->hook.place, hoist->beam.between[i], farthest);
  for (guint i = 0; i < hoist->n_slings; i++)
    if (!hoist->slings[i].to_beam)
      add_point (motion, lift->hook.place, hoist->slings[i].to, farthest);
}

double
trn_lift_check_tolerance (const TrnLiftCheck *check, guint move)
{
  const TrnLift *lift = check->run->lift;
  const TrnSlack *slack = &check->run->slack;
  if (slack->tilt_rad == 0 && slack->heading_rad == 0)
    return slack->m;
  const TrnMotion *motion = &check->run->motions[move];
  const TrnMesh *mesh = check->load->mesh;
  Farthest farthest = { 0, 0 };
  for (guint32 i = 0; i < mesh->n_vertices; i++)
    add_point (motion, lift->hook.place, mesh->vertices[i], &farthest);
  add_hoist (motion, lift, &lift->rigging.main, &farthest);
  add_hoist (motion, lift, &lift->rigging.tail, &farthest);
  double r = sqrt (farthest.r2), rho = sqrt (farthest.rho2);
  double tilt = trn_chord_m (r, slack->tilt_rad);
  double heading = trn_chord_m (rho + tilt, slack->heading_rad);
  double bound = slack->m + tilt + heading;
  return bound + ROUNDING_SHARE * (bound + r) + ROUNDING_M;
}

double
trn_lift_check_leans (const TrnLiftCheck *check, guint move, double hung_rad)
{
  if (isnan (hung_rad))
    return NAN;
  const double level_rad = trn_carried_make (check, move).out_of_level_rad;
  return fmax (check->run->slack.tilt_rad, hung_rad) + (isnan (level_rad) ? 0 : level_rad)
         + check->run->hangs[move].reach_rad;
}

const char *
trn_lift_check_off_missing (const TrnLiftCheck *check, guint move)
{
  const char *missing = check->allowances[move].missing;
  return missing != NULL ? missing : "tolerance";
}
