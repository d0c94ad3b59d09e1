/* test-sight.c: what is hidden by what, by plain geometry: a wall of 1 × 20 × 10 m whose near face
 * is at x = 4.5, and a camera that looks along the x axis or past it. */
#include "sight.h"

#include "test-shapes.h"

typedef struct
{
  RenderMesh *wall;
  RenderDrawList *list;
} Fixture;

static void
add_wall (Fixture *f, RenderLook look)
{
  RenderBody body = { .mesh = f->wall,
                      .site_from_mesh = trn_pose_identity (),
                      .role = RENDER_ROLE_STRUCTURE,
                      .look = look };
  body.site_from_mesh.position = trn_vec3_make (5, 0, 0);
  render_draw_list_add_body (f->list, &body);
}

static void
set_up (Fixture *f, gconstpointer data)
{
  g_autoptr (TrnMesh) mesh = test_box (trn_vec3_make (-0.5, -10, -5), trn_vec3_make (0.5, 10, 5));
  f->wall = render_mesh_build (mesh, 0);
  f->list = render_draw_list_new ();
}

static void
tear_down (Fixture *f, gconstpointer data)
{
  render_draw_list_free (f->list);
  render_mesh_unref (f->wall);
}

/* Looks toward −X from x = 30: the wall is between the eye and the origin. */
static RenderCamera
from_east (gboolean parallel)
{
  return (RenderCamera){
    .distance_m = 30, .heading_rad = G_PI, .pitch_rad = 0, .fov_rad = 0.6, .parallel = parallel
  };
}

static void
test_wall (Fixture *f, gconstpointer data)
{
  TrnVec3 behind = { 0, 0, 0 }, before = { 8, 0, 0 }, beside = { 0, 11, 0 }, above = { 0, 0, 6 };
  for (int parallel = 0; parallel <= 1; parallel++)
    {
      RenderCamera camera = from_east (parallel);
      g_array_set_size (f->list->bodies, 0);
      g_assert_true (render_sight_is_free (f->list, &camera, behind));
      add_wall (f, RENDER_LOOK_GHOST);
      g_assert_true (render_sight_is_free (f->list, &camera, behind));
      add_wall (f, RENDER_LOOK_SOLID);
      g_assert_false (render_sight_is_free (f->list, &camera, behind));
      g_assert_true (render_sight_is_free (f->list, &camera, before));
      /* On the face of the wall itself, seen from before it, and on the other, from behind. */
      g_assert_true (render_sight_is_free (f->list, &camera, (TrnVec3){ 5.5, 1, 1 }));
      g_assert_false (render_sight_is_free (f->list, &camera, (TrnVec3){ 4.5, 1, 1 }));
      /* A parallel view passes the wall by 1 m; from the eye the way bends toward its middle. */
      g_assert_cmpint (render_sight_is_free (f->list, &camera, beside), ==, parallel);
      g_assert_cmpint (render_sight_is_free (f->list, &camera, above), ==, parallel);
    }
}

/* Where the section takes the wall away, nothing hides the point; the point itself must be left. */
static void
test_section (Fixture *f, gconstpointer data)
{
  add_wall (f, RENDER_LOOK_SOLID);
  RenderCamera camera = from_east (TRUE);
  TrnVec3 behind = { 0, 0, 0 };
  f->list->section = (RenderSection){ TRUE, { 1, 0, 0 }, 3 };
  g_assert_true (render_sight_is_free (f->list, &camera, behind));
  f->list->section = (RenderSection){ TRUE, { 1, 0, 0 }, -1 };
  g_assert_false (render_sight_is_free (f->list, &camera, behind));
}

/* From the east both points are hidden; an eighth of a turn to one side or the other shows them,
 * and nothing is turned where they are seen already. */
static void
test_turn (Fixture *f, gconstpointer data)
{
  const TrnVec3 points[] = { { 0, 0, 0 }, { 0, 0, 1 } };
  RenderCamera camera = from_east (FALSE), before = camera;
  g_assert_cmpuint (render_sight_turn (f->list, &camera, points, 2), ==, 0);
  g_assert_cmpfloat (camera.heading_rad, ==, before.heading_rad);
  add_wall (f, RENDER_LOOK_SOLID);
  g_assert_cmpuint (render_sight_turn (f->list, &camera, points, 2), ==, 0);
  g_assert_true (render_sight_is_free (f->list, &camera, points[0]));
  g_assert_true (render_sight_is_free (f->list, &camera, points[1]));
  g_assert_cmpfloat (camera.pitch_rad, ==, before.pitch_rad);
  g_assert_cmpfloat (camera.distance_m, ==, before.distance_m);
  g_assert_cmpfloat (fabs (camera.heading_rad - before.heading_rad), <, 0.51 * G_PI);
}

/* A point inside the wall is hidden from everywhere, and the count says so. */
static void
test_hidden_everywhere (Fixture *f, gconstpointer data)
{
  const TrnVec3 points[] = { { 5, 0, 0 }, { 0, 0, 0 } };
  RenderCamera camera = from_east (FALSE);
  add_wall (f, RENDER_LOOK_SOLID);
  g_assert_cmpuint (render_sight_turn (f->list, &camera, points, 2), ==, 1);
}

/* An eye within the wall sees nothing: with 5 m to go it would be there, so that it turns. */
static void
test_eye_within (Fixture *f, gconstpointer data)
{
  const TrnVec3 point = { 0, 0, 0 };
  RenderCamera camera = from_east (FALSE);
  camera.distance_m = 5;
  add_wall (f, RENDER_LOOK_SOLID);
  render_sight_turn (f->list, &camera, &point, 1);
  g_assert_cmpfloat (render_camera_eye (&camera).x, <, 4.5);
}

/* By boxes: a wall before the points is looked round like any; ground is not, nor a wall whose box
 * holds the point, as the box of a shaft holds what stands in it. */
static void
test_turn_roughly (Fixture *f, gconstpointer data)
{
  const TrnVec3 points[] = { { 0, 0, 0 }, { 0, 0, 1 } }, within = { 5, 0, 0 };
  RenderCamera camera = from_east (FALSE), before = camera;
  add_wall (f, RENDER_LOOK_SOLID);
  g_assert_cmpuint (render_sight_turn_roughly (f->list, &camera, &within, 1), ==, 0);
  g_assert_cmpfloat (camera.heading_rad, ==, before.heading_rad);
  g_assert_cmpuint (render_sight_turn_roughly (f->list, &camera, points, 2), ==, 0);
  g_assert_true (render_sight_is_free (f->list, &camera, points[0]));
  g_assert_cmpfloat (camera.heading_rad, !=, before.heading_rad);
  g_array_index (f->list->bodies, RenderBody, 0).role = RENDER_ROLE_GROUND;
  camera = before;
  g_assert_cmpuint (render_sight_turn_roughly (f->list, &camera, points, 2), ==, 0);
  g_assert_cmpfloat (camera.heading_rad, ==, before.heading_rad);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add ("/render/sight/wall", Fixture, NULL, set_up, test_wall, tear_down);
  g_test_add ("/render/sight/section", Fixture, NULL, set_up, test_section, tear_down);
  g_test_add ("/render/sight/turn", Fixture, NULL, set_up, test_turn, tear_down);
  g_test_add ("/render/sight/turn-roughly", Fixture, NULL, set_up, test_turn_roughly, tear_down);
  g_test_add ("/render/sight/hidden-everywhere", Fixture, NULL, set_up, test_hidden_everywhere,
              tear_down);
  g_test_add ("/render/sight/eye-within", Fixture, NULL, set_up, test_eye_within, tear_down);
  return g_test_run ();
}
