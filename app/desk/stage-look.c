/* stage-look.c: from where one looks at first, and at a finding.
 *
 * At first the way of the load is to be seen, not the building before it; at a finding its two
 * points. An oblique view is turned for that, by as little as it needs; a view from above or level
 * is one that somebody has chosen, so that it keeps its direction. What is hidden still shows
 * faintly: the load shines through. */
#include "sight.h"
#include "stage-private.h"

#define LEAST_OBLIQUE_RAD (G_PI / 18)
#define MOST_OBLIQUE_RAD (G_PI * 8 / 18)
/* How much steeper one looks into a shaft, in steps. */
#define STEEPER_RAD (G_PI / 9)
#define LEAST_SHARE_IN_VIEW 0.1

static gboolean
may_turn (const RenderCamera *camera)
{
  return -camera->pitch_rad > LEAST_OBLIQUE_RAD && -camera->pitch_rad < MOST_OBLIQUE_RAD;
}

static const RenderBody *
find_load (const RenderDrawList *list)
{
  for (guint i = 0; i < list->bodies->len; i++)
    if (g_array_index (list->bodies, RenderBody, i).role == RENDER_ROLE_LOAD)
      return &g_array_index (list->bodies, RenderBody, i);
  g_assert_not_reached ();
}

/* The middle of the load where each move begins, and where the last one ends. */
static GArray *
places_of_load (const TrnLiftRun *run, const RenderMesh *load)
{
  GArray *places = g_array_new (FALSE, FALSE, sizeof (TrnVec3));
  for (guint m = 0; m <= run->lift->n_moves; m++)
    {
      guint move;
      double progress;
      TrnPose pose = trn_lift_run_pose (run, run->begins_s[m], &move, &progress);
      TrnVec3 place = trn_pose_apply (&pose, load->centre);
      g_array_append_val (places, place);
    }
  return places;
}

void
desk_stage_look_first (DeskStage *stage)
{
  const RenderDrawList *list = desk_stage_list (stage);
  if (list == NULL || !may_turn (&stage->camera))
    return;
  const TrnLiftRun *run = desk_session_get_lift_run (stage->session);
  g_autoptr (GArray) places = places_of_load (run, find_load (list)->mesh);
  TrnBox extent = desk_stage_extent (stage);
  render_sight_turn_roughly (list, &stage->camera, (const TrnVec3 *)(const void *)places->data,
                             places->len);
  render_camera_fit (&stage->camera, desk_stage_size (stage), &extent);
}

/* Turned, and where that does not help, from higher up too: so one looks into a shaft. */
static void
turn_to_see (const RenderDrawList *list, RenderCamera *camera, const TrnVec3 *points, guint n)
{
  RenderCamera tried = *camera;
  guint least = G_MAXUINT;
  for (; may_turn (&tried) && least > 0; tried.pitch_rad -= STEEPER_RAD)
    {
      RenderCamera turned = tried;
      guint hidden = render_sight_turn (list, &turned, points, n);
      /* Hidden from everywhere: at least from above, and not from within the ground. */
      if (hidden < least || hidden == n)
        *camera = turned;
      least = MIN (hidden, least);
    }
}

void
desk_stage_look_at_finding (DeskStage *stage)
{
  const TrnFinding *finding = desk_session_get_finding (stage->session);
  if (finding == NULL || !finding->has_points)
    return;
  TrnVec3 a = finding->point_on_body, b = finding->point_on_obstacle;
  TrnVec3 points[] = { a, b, trn_vec3_mix (a, b, 0.5) };
  TrnBox near = render_site_extent_near (desk_session_get_site (stage->session)->display,
                                         finding->lift, points[2]);
  RenderCamera camera = desk_stage_get_camera (GTK_WIDGET (stage));
  /* The load is seen to its ends. */
  const RenderBody *load = find_load (desk_stage_list (stage));
  for (guint i = 0; i < 8; i++)
    trn_box_add_point (
        &near, trn_pose_apply (&load->site_from_mesh, trn_box_corner (&load->mesh->box, i)));
  /* Who listens to somebody else has not chosen a view in which the gap is a point. */
  if (stage->is_bare && !may_turn (&camera))
    render_camera_set_standard (&camera, RENDER_VIEW_SOLID);
  render_camera_fit (&camera, desk_stage_size (stage), &near);
  turn_to_see (desk_stage_list (stage), &camera, points, G_N_ELEMENTS (points));
  desk_stage_go (stage, camera);
  stage->is_close = TRUE;
}

/* How much of the load's outline on the screen lies in the view, as a share of the smaller of the
 * two: a close view need not hold all of the load. */
static double
share_in_view (DeskStage *stage, const RenderCamera *camera)
{
  RenderSize size = desk_stage_size (stage);
  const RenderBody *load = find_load (desk_stage_list (stage));
  double lo_x = INFINITY, lo_y = INFINITY, hi_x = -INFINITY, hi_y = -INFINITY;
  for (guint i = 0; i < 8; i++)
    {
      TrnVec3 corner = trn_pose_apply (&load->site_from_mesh, trn_box_corner (&load->mesh->box, i));
      double x, y, depth_m;
      if (!render_camera_project (camera, size, corner, &x, &y, &depth_m))
        continue;
      lo_x = fmin (lo_x, x);
      lo_y = fmin (lo_y, y);
      hi_x = fmax (hi_x, x);
      hi_y = fmax (hi_y, y);
    }
  double across = fmin (hi_x, size.width) - fmax (lo_x, 0);
  double up = fmin (hi_y, size.height) - fmax (lo_y, 0);
  double least = fmin ((hi_x - lo_x) * (hi_y - lo_y), size.width * size.height);
  return across > 0 && up > 0 ? across * up / least : 0;
}

void
desk_stage_keep_load_in_view (DeskStage *stage)
{
  if (!stage->is_close || desk_session_get_lift_run (stage->session) == NULL)
    return;
  RenderCamera camera = desk_stage_get_camera (GTK_WIDGET (stage));
  if (share_in_view (stage, &camera) >= LEAST_SHARE_IN_VIEW)
    return;
  TrnBox extent = desk_stage_extent (stage);
  render_camera_fit (&camera, desk_stage_size (stage), &extent);
  desk_stage_go (stage, camera);
}

/* Not steeper than at first, though one may have looked into a shaft just before. */
void
desk_stage_look_at_move (GtkWidget *widget, guint move)
{
  DeskStage *stage = DESK_STAGE (widget);
  DeskSession *session = stage->session;
  if (desk_session_get_lift_run (session) == NULL)
    return;
  guint run = desk_session_get_run (session);
  TrnBox extent = render_site_extent_of_move (desk_session_get_site (session)->display, run, move);
  RenderCamera camera = desk_stage_get_camera (widget);
  if (may_turn (&camera))
    {
      RenderCamera oblique = camera;
      render_camera_set_standard (&oblique, RENDER_VIEW_SOLID);
      camera.pitch_rad = oblique.pitch_rad;
    }
  const TrnFinding *finding = desk_session_get_finding (session);
  gboolean has_points = finding != NULL && finding->has_points && finding->lift == run
                        && finding->move == (int)move;
  if (has_points)
    {
      trn_box_add_point (&extent, finding->point_on_body);
      trn_box_add_point (&extent, finding->point_on_obstacle);
    }
  render_camera_fit (&camera, desk_stage_size (stage), &extent);
  if (has_points && may_turn (&camera))
    {
      TrnVec3 points[] = { finding->point_on_body, finding->point_on_obstacle };
      render_sight_turn (desk_stage_list (stage), &camera, points, G_N_ELEMENTS (points));
      render_camera_fit (&camera, desk_stage_size (stage), &extent);
    }
  desk_stage_go (stage, camera);
  stage->is_close = TRUE;
}
