/* site-beside.c: what is drawn beside the bodies: paths of points, the swing circle of a move, the
 * ghosts of the load, and the closest points with their number.
 *
 * A path is sampled so finely that its chords stay within CHORD_M of it, by the bound on the
 * acceleration of a point that the motion gives; a straight move needs one chord. */
#include "desk-words.h"
#include "site-parts.h"
#include "tolerances.h"
#include "view-words.h"

#define CHORD_M 5e-3
#define MOST_CHORDS 256
#define CIRCLE_CHORDS 128
#define CIRCLE_PLACES 16 /* where its label may stand */
#define HOOK_PX 2.25
#define POINT_PX 1.25
#define CIRCLE_PX 1.5
#define GAP_PX 3.5
/* Poses nearer to each other than this look the same: no ghost is drawn over the load. */
#define SAME_PLACE_M 5e-3
#define SAME_PLACE_RAD 1e-3
/* Two gaps at moments nearer than this are one. */
#define SAME_TIME_S 0.05
/* An axis is taken as upright within this sine. */
#define UPRIGHT 1e-6

/* ---- paths ---- */

static void
add_path_of_move (const TrnMotion *motion, TrnVec3 point, GArray *path)
{
  double acceleration = trn_motion_acceleration (motion, trn_motion_reach (motion, point));
  guint chords = (guint)CLAMP (ceil (sqrt (acceleration / 8 / CHORD_M)), 1, MOST_CHORDS);
  for (guint k = 1; k <= chords; k++)
    {
      TrnPose pose = trn_motion_pose (motion, (double)k / chords);
      TrnVec3 place = trn_pose_apply (&pose, point);
      if (trn_vec3_distance (place, g_array_index (path, TrnVec3, path->len - 1)) > SAME_PLACE_M)
        g_array_append_val (path, place);
    }
}

static void
add_path (RenderSiteWork *work, TrnVec3 point, double width_px)
{
  g_autoptr (GArray) path = g_array_new (FALSE, FALSE, sizeof (TrnVec3));
  TrnVec3 start = trn_pose_apply (&work->run->start, point);
  g_array_append_val (path, start);
  for (guint m = 0; m < work->run->lift->n_moves; m++)
    add_path_of_move (&work->run->motions[m], point, path);
  if (path->len > 1)
    render_draw_list_add_line (work->list, (const TrnVec3 *)(const void *)path->data, path->len,
                               RENDER_LINE_CHAIN_DOTTED, width_px, RENDER_STATE_NONE, FALSE);
}

void
render_site_add_paths (RenderSiteWork *work)
{
  const TrnLift *lift = work->run->lift;
  const TrnComponent *load = &work->site->scene->programme->plan->components[lift->component];
  for (guint i = 0; i < load->n_points; i++)
    if (trn_vec3_distance (load->points[i].place, lift->hook.place) > SAME_PLACE_M)
      add_path (work, load->points[i].place, POINT_PX);
  add_path (work, lift->hook.place, HOOK_PX);
}

/* ---- the swing circle ---- */

/* The radius that the check found for @move; 0 where there is none. */
static double
swing_radius (const RenderSiteWork *work, guint move)
{
  const TrnLiftFindings *lift = trn_findings_get_lift (work->state->findings, work->state->run);
  for (guint k = 0; lift != NULL && k < lift->findings->len; k++)
    {
      const TrnFinding *finding = &g_array_index (lift->findings, TrnFinding, k);
      if (finding->check == TRN_CHECK_SWING_RADIUS && finding->move == (int)move
          && finding->radius_m > 0)
        return finding->radius_m;
    }
  return 0;
}

static gboolean
is_about_this_lift (const RenderSiteWork *work)
{
  const TrnFinding *finding = work->state->finding;
  return finding != NULL && finding->lift == work->state->run;
}

/* The circle of the move of now, else that of the move whose finding is looked at. */
static double
find_swing (const RenderSiteWork *work, guint *move)
{
  *move = work->move;
  double radius_m = swing_radius (work, *move);
  if (radius_m > 0 || !is_about_this_lift (work) || work->state->finding->move < 0)
    return radius_m;
  *move = (guint)work->state->finding->move;
  return swing_radius (work, *move);
}

void
render_site_add_swing_circle (RenderSiteWork *work)
{
  guint move;
  double radius_m = find_swing (work, &move);
  if (radius_m == 0)
    return;
  const TrnMotion *motion = &work->run->motions[move];
  TrnPose pose = move == work->move ? work->site_from_load : trn_motion_pose (motion, 0);
  gboolean is_arc = motion->path == TRN_PATH_ARC;
  TrnVec3 axis = is_arc ? (TrnVec3){ 0, 0, 1 } : motion->axis;
  TrnVec3 centre = is_arc ? (TrnVec3){ motion->centre_x, motion->centre_y, motion->from.z }
                          : trn_pose_apply (&pose, motion->pivot);
  /* About an upright axis it lies at the foot of the load, where one looks for what it could meet.
   */
  if (hypot (axis.x, axis.y) < UPRIGHT)
    centre.z = render_site_box (render_site_load (work->site, work->run), &pose).lo.z;
  TrnVec3 other = fabs (axis.z) < 0.7 ? (TrnVec3){ 0, 0, 1 } : (TrnVec3){ 1, 0, 0 };
  TrnVec3 x = trn_vec3_unit (trn_vec3_cross (axis, other)), y = trn_vec3_cross (axis, x);
  TrnVec3 circle[CIRCLE_CHORDS + 1], places[CIRCLE_PLACES];
  for (guint i = 0; i <= CIRCLE_CHORDS; i++)
    {
      double angle = 2 * G_PI * (i % CIRCLE_CHORDS) / CIRCLE_CHORDS;
      TrnVec3 out = trn_vec3_add_scaled (trn_vec3_scale (x, cos (angle)), y, sin (angle));
      circle[i] = trn_vec3_add_scaled (centre, out, radius_m);
    }
  render_draw_list_add_line (work->list, circle, G_N_ELEMENTS (circle), RENDER_LINE_DOTTED,
                             CIRCLE_PX, RENDER_STATE_NONE, FALSE);
  for (guint i = 0; i < CIRCLE_PLACES; i++)
    places[i] = circle[(2 * i + 1) * CIRCLE_CHORDS / (2 * CIRCLE_PLACES)];
  g_autofree char *text = trn_words_swing_circle (radius_m);
  render_draw_list_add_note_along (work->list, text, places, CIRCLE_PLACES);
}

/* ---- closest points ---- */

/* @then_s: the moment that it is of; NAN for now. */
static char *
gap_to (const RenderSiteWork *work, const char *body, const char *obstacle, double then_s)
{
  const TrnPlan *plan = work->site->scene->programme->plan;
  gboolean to_load = g_str_equal (obstacle, "load");
  g_autofree char *name = to_load ? trn_words_load_name (plan, work->run->lift->component)
                                  : trn_words_body_name_cut (plan, obstacle, TRN_PLATE_NAME_CHARS);
  if (g_str_equal (body, "load"))
    return isnan (then_s) ? trn_words_gap_to (name) : trn_words_gap_to_then (name, then_s);
  g_autofree char *from = trn_words_body_name_cut (plan, body, TRN_PLATE_NAME_CHARS);
  return trn_words_gap_between (from, name, then_s);
}

/* A distance amounts to that, in words; NULL where the distance itself says it. */
static char *
verdict_text (RenderState state, double distance_m, double needed_m, gboolean is_checked)
{
  switch (state)
    {
    case RENDER_STATE_TOUCHING:
      return distance_m == 0 ? NULL : trn_words_now (TRN_NOW_TOUCHING, distance_m, needed_m);
    case RENDER_STATE_SHORT:
      return trn_words_now (TRN_NOW_SHORT, distance_m, needed_m);
    case RENDER_STATE_TIGHT:
      return trn_words_now (TRN_NOW_TIGHT, distance_m, needed_m);
    case RENDER_STATE_CLEAR:
      return g_strdup (trn_words_desk (TRN_DESK_MEETS));
    case RENDER_STATE_NONE:
    case RENDER_STATE_NOT_CHECKED:
      break;
    }
  return g_strdup (trn_words_desk (is_checked ? TRN_DESK_NOT_KNOWN : TRN_DESK_NOT_CHECKED));
}

/* How far apart two are at a moment, and how they meet. */
typedef struct
{
  double distance_m, required_m, allowance_m;
  TrnMeeting meeting;
  double depth_m;
  double then_s; /* the moment that it is of; NAN for now */
  gboolean is_checked;
} Gap;

static void
add_gap (RenderSiteWork *work, const char *body, const char *obstacle, TrnVec3 on_load,
         TrnVec3 on_obstacle, RenderState state, const Gap *of)
{
  double distance_m = of->distance_m, required_m = of->required_m, allowance_m = of->allowance_m;
  g_autofree char *gap
      = state == RENDER_STATE_TOUCHING && of->meeting != TRN_MEETING_NONE
            ? trn_words_gap_meeting (render_now_of_meeting (of->meeting), of->depth_m, required_m)
            : trn_words_gap (distance_m, required_m, allowance_m);
  g_autofree char *to = gap_to (work, body, obstacle, of->then_s);
  g_autofree char *verdict
      = work->state->tells_verdict ? verdict_text (
            state, distance_m, required_m + (isnan (allowance_m) ? 0 : allowance_m), of->is_checked)
                                   : NULL;
  g_autofree char *text = verdict != NULL ? g_strdup_printf ("%s\n%s\n%s", verdict, gap, to)
                                          : g_strdup_printf ("%s\n%s", gap, to);
  TrnVec3 ends[] = { on_load, on_obstacle };
  if (trn_vec3_distance (on_load, on_obstacle) > TRN_CONTACT_M)
    {
      render_draw_list_add_line (work->list, ends, 2,
                                 state == RENDER_STATE_TOUCHING ? RENDER_LINE_DOUBLE
                                                                : RENDER_LINE_SOLID,
                                 GAP_PX, state, TRUE);
      render_draw_list_add_mark (work->list, on_load, state);
    }
  render_draw_list_add_mark (work->list, on_obstacle, state);
  render_draw_list_add_label (work->list, text, trn_vec3_mix (on_load, on_obstacle, 0.5), state,
                              FALSE);
}

static gboolean
shows_points (const RenderSiteWork *work)
{
  return is_about_this_lift (work) && work->state->finding->has_points;
}

static RenderPairNow
pair_now (const RenderSiteWork *work, guint pair)
{
  const RenderSiteState *state = work->state;
  return render_pair_placed (state->judge, state->moment, pair, state->tight_m);
}

/* The pair that stands worst now and is somewhere, but for what is seated or may be; −1 when there
 * is none. Of gear by the worst of its parts that have a place: one that has none hides no gap. */
static int
find_nearest (const RenderSiteWork *work)
{
  int nearest = -1;
  RenderPairNow worst = { 0 };
  for (guint i = 0; i < work->state->moment->n_pairs; i++)
    {
      RenderPairNow now = pair_now (work, i);
      gboolean may_be_seated = now.state == RENDER_STATE_NOT_CHECKED && now.spare_m < 0;
      if (!now.is_there || now.is_seated || may_be_seated || isnan (now.spare_m)
          || (nearest >= 0 && render_pair_now_compare (&now, &worst) >= 0))
        continue;
      worst = now;
      nearest = (int)i;
    }
  return nearest;
}

static gboolean
looks_same (const RenderMesh *load, const TrnPose *a, const TrnPose *b)
{
  TrnVec3 centre = trn_box_centre (&load->box);
  return trn_vec3_distance (trn_pose_apply (a, centre), trn_pose_apply (b, centre)) < SAME_PLACE_M
         && trn_rotation_angle_between (&a->turn, &b->turn) < SAME_PLACE_RAD;
}

/* Whether the points of the finding looked at are those of now: its moment is now, or the load
 * stands the same way then, as while it waits. */
static gboolean
is_finding_now (const RenderSiteWork *work)
{
  const TrnFinding *finding = work->state->finding;
  if (!shows_points (work))
    return FALSE;
  if (fabs (finding->time_s - work->state->time_s) < SAME_TIME_S)
    return TRUE;
  guint move;
  double progress;
  TrnPose closest = trn_lift_run_pose (work->run, finding->time_s, &move, &progress);
  return looks_same (render_site_load (work->site, work->run), &closest, &work->site_from_load);
}

/* The finding's two bodies are the pair's, whichever is named first. */
static gboolean
is_of_finding (const TrnFinding *finding, const TrnMoment *moment, guint pair)
{
  const char *body = trn_moment_placed_body (moment, pair);
  const char *obstacle = trn_moment_obstacle (moment, pair);
  return (g_str_equal (finding->body, body) && g_str_equal (finding->obstacle, obstacle))
         || (g_str_equal (finding->body, obstacle) && g_str_equal (finding->obstacle, body));
}

void
render_site_add_nearest (RenderSiteWork *work)
{
  const TrnMoment *moment = work->state->moment;
  int nearest = moment != NULL ? find_nearest (work) : -1;
  if (nearest < 0
      || (is_finding_now (work) && is_of_finding (work->state->finding, moment, (guint)nearest)))
    return;
  const TrnMomentDistance *d = &moment->placed[nearest];
  RenderPairNow now = pair_now (work, (guint)nearest);
  Gap gap = { .distance_m = now.distance_m,
              .required_m = moment->pairs[nearest].required_m,
              .allowance_m = now.allowance_m,
              .meeting = d->meeting,
              .depth_m = d->depth_m,
              .then_s = NAN,
              .is_checked = render_judge_is_checked (work->state->judge) };
  add_gap (work, trn_moment_placed_body (moment, (guint)nearest),
           trn_moment_obstacle (moment, (guint)nearest), d->on_body, d->on_obstacle, now.state,
           &gap);
}

/* ---- ghosts ---- */

/* Where a note about a body stands, so that it is seen to speak of it. */
static TrnVec3
highest_point (const RenderMesh *mesh, const TrnPose *pose)
{
  /* In the mesh's frame, upward is this: */
  TrnVec3 up = trn_rotation_apply_inverse (&pose->turn, (TrnVec3){ 0, 0, 1 });
  const float *highest = mesh->positions;
  double most = -INFINITY;
  for (guint32 i = 0; i < mesh->n_vertices; i++)
    {
      const float *p = mesh->positions + 3 * (gsize)i;
      double height = p[0] * up.x + p[1] * up.y + p[2] * up.z;
      if (height > most)
        {
          most = height;
          highest = p;
        }
    }
  TrnVec3 point = trn_vec3_make (highest[0], highest[1], highest[2]);
  return trn_pose_apply (pose, trn_vec3_add (mesh->centre, point));
}

static void
add_ghost (RenderSiteWork *work, const TrnPose *pose, TrnGhost kind)
{
  const RenderMesh *load = render_site_load (work->site, work->run);
  if (looks_same (load, pose, &work->site_from_load))
    return;
  RenderBody body = {
    .mesh = load, .site_from_mesh = *pose, .role = RENDER_ROLE_LOAD, .look = RENDER_LOOK_GHOST
  };
  render_draw_list_add_body (work->list, &body);
  render_draw_list_add_label (work->list, trn_words_ghost (kind), highest_point (load, pose),
                              RENDER_STATE_NONE, TRUE);
}

/* How two meet at the moment of the finding: as the distances of now say it, where it is now. */
static Gap
gap_of_finding (const RenderSiteWork *work)
{
  const TrnFinding *finding = work->state->finding;
  const TrnMoment *moment = work->state->moment;
  gboolean is_now = is_finding_now (work);
  double apart_m = trn_vec3_distance (finding->point_on_body, finding->point_on_obstacle);
  gboolean is_inside = finding->inside == TRN_INSIDE_YES && apart_m > TRN_CONTACT_M;
  Gap gap = { .distance_m = finding->state == TRN_STATE_CONTACT ? 0 : finding->lower_m,
              .required_m = finding->required_m,
              .allowance_m = finding->allowance_m,
              .meeting = is_inside ? TRN_MEETING_INSIDE : TRN_MEETING_NONE,
              .depth_m = is_inside ? apart_m : 0,
              .then_s = is_now ? NAN : finding->time_s,
              .is_checked = TRUE };
  gboolean has_now = is_now && moment != NULL && moment->time_s == work->state->time_s;
  for (guint i = 0; has_now && i < moment->n_pairs; i++)
    if (moment->placed[i].meeting != TRN_MEETING_NONE && is_of_finding (finding, moment, i))
      {
        gap.meeting = moment->placed[i].meeting;
        gap.depth_m = moment->placed[i].depth_m;
      }
  return gap;
}

void
render_site_add_finding (RenderSiteWork *work)
{
  const TrnFinding *finding = work->state->finding;
  if (work->state->ghosts)
    {
      add_ghost (work, &work->run->start, TRN_GHOST_START);
      add_ghost (work, &work->run->end, TRN_GHOST_END);
    }
  if (!shows_points (work))
    return;
  guint move;
  double progress;
  TrnPose closest = trn_lift_run_pose (work->run, finding->time_s, &move, &progress);
  if (work->state->ghosts)
    add_ghost (work, &closest, TRN_GHOST_CLOSEST);
  Gap gap = gap_of_finding (work);
  add_gap (work, finding->body, finding->obstacle, finding->point_on_body,
           finding->point_on_obstacle, render_state_of_finding (finding, work->state->tight_m),
           &gap);
}
