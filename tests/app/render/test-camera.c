/* The camera: what must stay in its place on the screen does, for random cameras, points and
 * sizes; all in closed form, so within rounding of pixels and metres. */
#include "camera.h"
#include "test-scale.h"

static const RenderSize size = { 1280, 720 };

static TrnVec3
random_point (double far)
{
  return trn_vec3_make (g_test_rand_double_range (-far, far), g_test_rand_double_range (-far, far),
                        g_test_rand_double_range (-far, far));
}

static RenderCamera
random_camera (gboolean parallel)
{
  return (RenderCamera){ .target = random_point (100),
                         .distance_m = g_test_rand_double_range (5, 200),
                         .heading_rad = g_test_rand_double_range (-3.1, 3.1),
                         .pitch_rad = g_test_rand_double_range (-1.5, 1.5),
                         .fov_rad = g_test_rand_double_range (0.3, 1.2),
                         .parallel = parallel };
}

/* A point that the camera sees, at a depth from 1 m to twice the distance of the target. */
static TrnVec3
random_seen (const RenderCamera *camera)
{
  TrnVec3 origin, direction;
  render_camera_ray (camera, size, g_test_rand_double_range (0, size.width),
                     g_test_rand_double_range (0, size.height), &origin, &direction);
  return trn_vec3_add_scaled (origin, direction,
                              g_test_rand_double_range (1, 2 * camera->distance_m));
}

static void
assert_seen_at (const RenderCamera *camera, TrnVec3 point, double x, double y)
{
  double at_x, at_y, depth;
  g_assert_true (render_camera_project (camera, size, point, &at_x, &at_y, &depth));
  g_assert_cmpfloat (hypot (at_x - x, at_y - y), <, 1e-6);
}

/* The ray through the place of a point goes through the point, and depth is along the view. */
static void
test_project_and_ray (void)
{
  for (guint i = 0; i < test_scaled (500); i++)
    {
      RenderCamera camera = random_camera (i & 1);
      TrnVec3 point = random_seen (&camera), origin, direction, forward, right, up;
      double x, y, depth;
      g_assert_true (render_camera_project (&camera, size, point, &x, &y, &depth));
      render_camera_ray (&camera, size, x, y, &origin, &direction);
      g_assert_cmpfloat (fabs (trn_vec3_length (direction) - 1), <, 1e-12);
      TrnVec3 to_point = trn_vec3_sub (point, origin);
      g_assert_cmpfloat (trn_vec3_length (trn_vec3_cross (to_point, direction)), <, 1e-9);
      render_camera_axes (&camera, &forward, &right, &up);
      TrnVec3 from_eye = trn_vec3_sub (point, render_camera_eye (&camera));
      g_assert_cmpfloat (fabs (trn_vec3_dot (from_eye, forward) - depth), <, 1e-9);
    }
}

/* Behind the eye of a perspective view there is no place on the screen; a parallel view has no
 * behind. A point to the right is on the right, one above is above. */
static void
test_sides (void)
{
  RenderCamera camera = { .target = { 0, 0, 0 }, .distance_m = 10, .fov_rad = 0.6 };
  double x, y, depth;
  g_assert_false (render_camera_project (&camera, size, trn_vec3_make (-11, 0, 0), &x, &y, &depth));
  g_assert_true (render_camera_project (&camera, size, trn_vec3_make (0, -1, 1), &x, &y, &depth));
  g_assert_cmpfloat (x, >, size.width / 2);
  g_assert_cmpfloat (y, <, size.height / 2);
  g_assert_cmpfloat (fabs (depth - 10), <, 1e-12);
  camera.parallel = TRUE;
  g_assert_true (render_camera_project (&camera, size, trn_vec3_make (-11, 0, 0), &x, &y, &depth));
}

static void
test_orbit_keeps_pivot (void)
{
  for (guint i = 0; i < test_scaled (500); i++)
    {
      RenderCamera camera = random_camera (i & 1);
      TrnVec3 pivot = random_seen (&camera);
      double x, y, depth;
      render_camera_project (&camera, size, pivot, &x, &y, &depth);
      render_camera_orbit (&camera, pivot, g_test_rand_double_range (-3, 3),
                           g_test_rand_double_range (-2, 2));
      assert_seen_at (&camera, pivot, x, y);
      g_assert_cmpfloat (fabs (camera.pitch_rad), <=, G_PI / 2);
      g_assert_cmpfloat (fabs (camera.heading_rad), <=, G_PI + 1e-12);
    }
}

/* Four quarter turns about any pivot end where they began. */
static void
test_four_quarter_turns (void)
{
  for (guint i = 0; i < test_scaled (200); i++)
    {
      RenderCamera camera = random_camera (i & 1), before = camera;
      camera.target = before.target = random_point (1);
      TrnVec3 pivot = random_point (10);
      for (int turn = 0; turn < 4; turn++)
        render_camera_orbit (&camera, pivot, G_PI / 2, 0);
      g_assert_cmpfloat (fabs (remainder (camera.heading_rad - before.heading_rad, 2 * G_PI)), <,
                         1e-12);
      g_assert_cmpfloat (camera.pitch_rad, ==, before.pitch_rad);
      g_assert_cmpfloat (trn_vec3_distance (camera.target, before.target), <, 1e-12);
      g_assert_cmpfloat (camera.distance_m, ==, before.distance_m);
    }
}

static void
test_pan_moves_grabbed (void)
{
  for (guint i = 0; i < test_scaled (500); i++)
    {
      RenderCamera camera = random_camera (i & 1);
      TrnVec3 grabbed = random_seen (&camera);
      double x, y, depth;
      render_camera_project (&camera, size, grabbed, &x, &y, &depth);
      double to_x = g_test_rand_double_range (0, size.width);
      double to_y = g_test_rand_double_range (0, size.height);
      render_camera_pan (&camera, size, grabbed, x, y, to_x, to_y);
      assert_seen_at (&camera, grabbed, to_x, to_y);
    }
}

static void
test_zoom_keeps_point (void)
{
  for (guint i = 0; i < test_scaled (500); i++)
    {
      RenderCamera camera = random_camera (i & 1), before = camera;
      TrnVec3 under = random_seen (&camera);
      double x, y, depth, factor = g_test_rand_double_range (0.2, 3);
      render_camera_project (&camera, size, under, &x, &y, &depth);
      double metre = render_camera_metres_per_pixel (&camera, size, under);
      render_camera_zoom (&camera, size, under, factor);
      assert_seen_at (&camera, under, x, y);
      g_assert_cmpfloat (fabs (camera.distance_m / before.distance_m - factor), <, 1e-12);
      g_assert_cmpfloat (
          fabs (render_camera_metres_per_pixel (&camera, size, under) / metre - factor), <, 1e-9);
    }
}

/* However often one comes nearer, the distance stays above 0, and one can go back. */
static void
test_zoom_ends (void)
{
  RenderCamera camera = random_camera (FALSE);
  for (int i = 0; i < 200; i++)
    render_camera_zoom (&camera, size, camera.target, 0.5);
  g_assert_cmpfloat (camera.distance_m, >, 0);
  for (int i = 0; i < 400; i++)
    render_camera_zoom (&camera, size, camera.target, 2);
  g_assert_true (isfinite (camera.distance_m));
}

/* A pixel is what it says: two points so far apart are one pixel apart. */
static void
test_metres_per_pixel (void)
{
  for (guint i = 0; i < test_scaled (200); i++)
    {
      RenderCamera camera = random_camera (i & 1);
      TrnVec3 point = random_seen (&camera), forward, right, up;
      double x, y, depth, beside_x, beside_y;
      double metre = render_camera_metres_per_pixel (&camera, size, point);
      render_camera_axes (&camera, &forward, &right, &up);
      render_camera_project (&camera, size, point, &x, &y, &depth);
      render_camera_project (&camera, size, trn_vec3_add_scaled (point, right, metre), &beside_x,
                             &beside_y, &depth);
      g_assert_cmpfloat (fabs (beside_x - x - 1), <, 1e-6);
      g_assert_cmpfloat (fabs (beside_y - y), <, 1e-6);
    }
}

/* All corners of a box are within the view after a fit, whatever the view's shape; it is a close
 * fit: some corner comes within a tenth of the view's size of its border; and as much room is left
 * on one side as on the other. */
static void
test_fit (void)
{
  for (guint i = 0; i < test_scaled (500); i++)
    {
      RenderCamera camera = random_camera (i & 1);
      RenderSize view
          = { g_test_rand_double_range (200, 2000), g_test_rand_double_range (200, 2000) };
      TrnBox box = trn_box_empty ();
      trn_box_add_point (&box, random_point (50));
      trn_box_add_point (&box, random_point (50));
      double heading = camera.heading_rad, pitch = camera.pitch_rad;
      double left = INFINITY, right = INFINITY, top = INFINITY, bottom = INFINITY;
      render_camera_fit (&camera, view, &box);
      g_assert_true (camera.heading_rad == heading && camera.pitch_rad == pitch);
      for (guint k = 0; k < 8; k++)
        {
          double x, y, depth;
          g_assert_true (
              render_camera_project (&camera, view, trn_box_corner (&box, k), &x, &y, &depth));
          g_assert_true (x >= 0 && x <= view.width && y >= 0 && y <= view.height);
          left = fmin (left, x);
          right = fmin (right, view.width - x);
          top = fmin (top, y);
          bottom = fmin (bottom, view.height - y);
        }
      g_assert_cmpfloat (fmin (left / view.width, top / view.height), <, 0.1);
      g_assert_cmpfloat (fabs (left - right), <, 1e-3);
      g_assert_cmpfloat (fabs (top - bottom), <, 1e-3);
    }
}

/* A box without size, and none, leave a camera that can be used. */
static void
test_fit_of_nothing (void)
{
  TrnBox none = trn_box_empty (), point = none;
  trn_box_add_point (&point, trn_vec3_make (3, 4, 5));
  RenderCamera camera = render_camera_make (&none, size);
  g_assert_true (trn_vec3_is_finite (camera.target) && camera.distance_m > 0);
  camera = render_camera_make (&point, size);
  double x, y, depth;
  g_assert_true (render_camera_project (&camera, size, trn_vec3_make (3, 4, 5), &x, &y, &depth));
  g_assert_cmpfloat (hypot (x - size.width / 2, y - size.height / 2), <, 0.1 * size.height);
}

/* East is +X and north +Y: seen from the south, east is on the right; from the north, on the left;
 * in plan, north is up. Every name leads back to its view. */
static void
test_standard_views (void)
{
  const struct
  {
    RenderStandardView view;
    TrnVec3 forward, right, up;
  } views[] = {
    { RENDER_VIEW_PLAN, { 0, 0, -1 }, { 1, 0, 0 }, { 0, 1, 0 } },
    { RENDER_VIEW_NORTH, { 0, -1, 0 }, { -1, 0, 0 }, { 0, 0, 1 } },
    { RENDER_VIEW_EAST, { -1, 0, 0 }, { 0, 1, 0 }, { 0, 0, 1 } },
    { RENDER_VIEW_SOUTH, { 0, 1, 0 }, { 1, 0, 0 }, { 0, 0, 1 } },
    { RENDER_VIEW_WEST, { 1, 0, 0 }, { 0, -1, 0 }, { 0, 0, 1 } },
  };
  RenderCamera camera = random_camera (FALSE);
  TrnVec3 forward, right, up;
  for (guint i = 0; i < G_N_ELEMENTS (views); i++)
    {
      render_camera_set_standard (&camera, views[i].view);
      render_camera_axes (&camera, &forward, &right, &up);
      g_assert_cmpfloat (trn_vec3_distance (forward, views[i].forward), <, 1e-12);
      g_assert_cmpfloat (trn_vec3_distance (right, views[i].right), <, 1e-12);
      g_assert_cmpfloat (trn_vec3_distance (up, views[i].up), <, 1e-12);
    }
  render_camera_set_standard (&camera, RENDER_VIEW_SOLID);
  render_camera_axes (&camera, &forward, &right, &up);
  g_assert_true (forward.x < 0 && forward.y > 0 && forward.z < 0);
  for (RenderStandardView view = RENDER_VIEW_PLAN; view <= RENDER_VIEW_SOLID; view++)
    {
      RenderStandardView found;
      g_assert_true (render_standard_view_from_name (render_standard_view_name (view), &found));
      g_assert_cmpint (found, ==, view);
    }
  RenderStandardView found;
  g_assert_false (render_standard_view_from_name ("above", &found));
}

/* The matrices say what project () says, with points relative to an origin far from zero, and the
 * depth range holds the extent. */
static void
test_matrices (void)
{
  for (guint i = 0; i < test_scaled (200); i++)
    {
      RenderCamera camera = random_camera (i & 1);
      TrnVec3 far = { 5000, -3000, 0 };
      camera.target = trn_vec3_add (camera.target, far);
      TrnVec3 point = random_seen (&camera);
      TrnBox extent = trn_box_empty ();
      trn_box_add_point (&extent, point);
      trn_box_add_point (&extent, camera.target);
      float view[16], projection[16], in_view[4], clip[4];
      render_camera_matrices (&camera, size, camera.target, &extent, view, projection);
      TrnVec3 local = trn_vec3_sub (point, camera.target);
      const float p[4] = { (float)local.x, (float)local.y, (float)local.z, 1 };
      for (int row = 0; row < 4; row++)
        in_view[row] = view[row] * p[0] + view[4 + row] * p[1] + view[8 + row] * p[2]
                       + view[12 + row] * p[3];
      for (int row = 0; row < 4; row++)
        clip[row] = projection[row] * in_view[0] + projection[4 + row] * in_view[1]
                    + projection[8 + row] * in_view[2] + projection[12 + row] * in_view[3];
      double x, y, depth;
      render_camera_project (&camera, size, point, &x, &y, &depth);
      /* Floats hold a place of 400 m to 3e-5 m; a pixel is 1e-3 m or more, at 1 m. */
      g_assert_cmpfloat (fabs ((clip[0] / clip[3] + 1) / 2 * size.width - x), <, 0.2);
      g_assert_cmpfloat (fabs ((1 - clip[1] / clip[3]) / 2 * size.height - y), <, 0.2);
      g_assert_cmpfloat (fabsf (clip[2] / clip[3]), <=, 1);
    }
}

/* A structure by mistake 5000 km off: what one looks at, 30 m away, is within the depth of the view
 * all the same, before, at and behind the target. */
static void
test_far_structure (void)
{
  for (int parallel = 0; parallel < 2; parallel++)
    {
      RenderCamera camera = random_camera (parallel);
      camera.distance_m = 30;
      TrnBox extent = trn_box_empty ();
      trn_box_add_point (&extent, camera.target);
      trn_box_add_point (&extent, trn_vec3_add (camera.target, (TrnVec3){ 5e6, 2e6, 0 }));
      trn_box_add_point (&extent, trn_vec3_add (camera.target, (TrnVec3){ -5e6, -2e6, 0 }));
      float view[16], projection[16];
      render_camera_matrices (&camera, size, camera.target, &extent, view, projection);
      for (double depth_m = 10; depth_m <= 100; depth_m += 10)
        {
          double z = -depth_m, w = projection[11] * z + projection[15];
          g_assert_cmpfloat (fabs ((projection[10] * z + projection[14]) / w), <, 1);
        }
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/camera/project-and-ray", test_project_and_ray);
  g_test_add_func ("/camera/sides", test_sides);
  g_test_add_func ("/camera/orbit-keeps-pivot", test_orbit_keeps_pivot);
  g_test_add_func ("/camera/four-quarter-turns", test_four_quarter_turns);
  g_test_add_func ("/camera/pan-moves-grabbed", test_pan_moves_grabbed);
  g_test_add_func ("/camera/zoom-keeps-point", test_zoom_keeps_point);
  g_test_add_func ("/camera/zoom-ends", test_zoom_ends);
  g_test_add_func ("/camera/metres-per-pixel", test_metres_per_pixel);
  g_test_add_func ("/camera/fit", test_fit);
  g_test_add_func ("/camera/fit-of-nothing", test_fit_of_nothing);
  g_test_add_func ("/camera/standard-views", test_standard_views);
  g_test_add_func ("/camera/matrices", test_matrices);
  g_test_add_func ("/camera/far-structure", test_far_structure);
  return g_test_run ();
}
