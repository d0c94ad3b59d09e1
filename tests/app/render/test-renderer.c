/* What the renderer shows, what it picks, and what it leaves as it was; without a display, by
 * surfaceless EGL. */
#include "renderer-site.h"
#include "test-shapes.h"

/* ---- what a picture shows ---- */

/* A ghost lets three quarters of what is behind it through, and only its nearest surface shows: at
 * the middle of its side, exactly a quarter of the way from the picture without it to the one in
 * which it is solid. Were its inside seen, it would be 7/16. */
static void
test_ghost (void)
{
  RenderCamera camera = { .distance_m = 30, .fov_rad = 0.5, .heading_rad = 1.2 };
  cairo_surface_t *pictures[3];
  for (int i = 0; i < 3; i++)
    {
      g_autoptr (RenderDrawList) list = render_draw_list_new ();
      test_add_body (list, test_site.building, trn_vec3_make (-7, 8, -2), RENDER_ROLE_STRUCTURE,
                     RENDER_LOOK_SOLID, 0);
      if (i > 0)
        test_add_body (list, test_site.load, trn_vec3_make (0, 0, -3), RENDER_ROLE_LOAD,
                       i == 1 ? RENDER_LOOK_GHOST : RENDER_LOOK_SOLID, 0);
      pictures[i] = test_draw (list, &camera, 0);
    }
  for (int dx = -6; dx <= 6; dx += 3)
    for (int shift = 0; shift < 24; shift += 8)
      {
        int c[3];
        for (int i = 0; i < 3; i++)
          c[i] = test_pixel (pictures[i], WIDTH / 2 + dx, HEIGHT / 2) >> shift & 255;
        g_assert_cmpfloat (fabs (c[1] - (c[0] + 0.25 * (c[2] - c[0]))), <=, 2);
      }
  g_assert_cmpuint (test_count_different (pictures[0], pictures[2], 20), >, 1000);
  for (int i = 0; i < 3; i++)
    cairo_surface_destroy (pictures[i]);
}

/* A load that shines through the building before it: a share of 0.3 of the way from the picture
 * without it to its colour, and never so much as when nothing stands before it; without that mark
 * the building hides it wholly. The picture of the load alone is the same with it and without. */
static void
test_shining_through (void)
{
  RenderCamera camera = { .distance_m = 40, .fov_rad = 0.5, .heading_rad = 0 };
  cairo_surface_t *pictures[5];
  for (int i = 0; i < 5; i++)
    {
      g_autoptr (RenderDrawList) list = render_draw_list_new ();
      if (i < 3)
        test_add_body (list, test_site.building, trn_vec3_make (-12, 0, -2), RENDER_ROLE_STRUCTURE,
                       RENDER_LOOK_SOLID, 0);
      if (i > 0)
        test_add_body (list, test_site.load, trn_vec3_make (0, 0, -3), RENDER_ROLE_LOAD,
                       RENDER_LOOK_SOLID, 0);
      if (i == 2 || i == 4)
        g_array_index (list->bodies, RenderBody, list->bodies->len - 1).shines_through = TRUE;
      pictures[i] = test_draw (list, &camera, 0);
    }
  g_assert_cmpuint (test_count_different (pictures[0], pictures[1], 2), <,
                    test_count_different (pictures[0], pictures[2], 2));
  g_assert_cmpuint (test_count_different (pictures[1], pictures[2], 8), >, 200);
  g_assert_cmpuint (test_count_different (pictures[1], pictures[2], 90), ==, 0);
  g_assert_cmpuint (test_count_different (pictures[3], pictures[4], 0), ==, 0);
  for (int i = 0; i < 5; i++)
    cairo_surface_destroy (pictures[i]);
}

/* How many pixels within @reach of the place of a site point have nearly that colour. */
static guint
count_colour_near (cairo_surface_t *surface, const RenderCamera *camera, TrnVec3 point, int reach,
                   RenderColour colour, int within)
{
  double x, y, depth;
  g_assert_true (render_camera_project (camera, size, point, &x, &y, &depth));
  guint32 wanted = (guint32)lround (255 * colour.r) << 16 | (guint32)lround (255 * colour.g) << 8
                   | (guint32)lround (255 * colour.b);
  guint n = 0;
  for (int dy = -reach; dy <= reach; dy++)
    for (int dx = -reach; dx <= reach; dx++)
      n += test_channel_off (test_pixel (surface, (int)x + dx, (int)y + dy), wanted) <= within;
  return n;
}

/* The load cut along its axis, looked at square to the cut: within it there are pixels of the face
 * and of the hatching, in about the share of their widths (8 px apart, 1.1 wide), and behind the
 * cut face nothing else. */
static void
test_section_cap (void)
{
  g_autoptr (RenderDrawList) list = render_draw_list_new ();
  test_add_body (list, test_site.load, here, RENDER_ROLE_LOAD, RENDER_LOOK_SOLID, ID_LOAD);
  list->section = (RenderSection){ TRUE, { 0, -1, 0 }, 0 };
  RenderCamera camera = test_camera (list);
  render_camera_set_standard (&camera, RENDER_VIEW_SOUTH);
  cairo_surface_t *surface = test_draw (list, &camera, 0);
  const RenderPalette *palette = render_palette_get (FALSE);
  TrnVec3 middle = { 0, 0, 3 };
  RenderColour face = palette->faces[RENDER_ROLE_LOAD];
  RenderColour hatch = palette->edges[RENDER_ROLE_LOAD];
  guint n_face = count_colour_near (surface, &camera, middle, 16, face, 16);
  guint n_hatch = count_colour_near (surface, &camera, middle, 16, hatch, 90);
  g_assert_cmpuint (n_face, >, 33 * 33 * 60 / 100);
  g_assert_cmpuint (n_hatch, >, 33 * 33 * 6 / 100);
  cairo_surface_destroy (surface);

  /* Uncut there is no hatching; nor on the far side of the plane anything at all. */
  list->section.on = FALSE;
  surface = test_draw (list, &camera, 0);
  g_assert_cmpuint (count_colour_near (surface, &camera, middle, 16, hatch, 90), ==, 0);
  cairo_surface_destroy (surface);
}

/* The shaft cut through its middle: hatched in its wall, not in its opening. */
static void
test_section_shaft (void)
{
  g_autoptr (RenderDrawList) list = render_draw_list_new ();
  test_add_body (list, test_site.shaft, here, RENDER_ROLE_STRUCTURE, RENDER_LOOK_SOLID, ID_SHAFT);
  list->section = (RenderSection){ TRUE, { 0, -1, 0 }, 0 };
  RenderCamera camera = test_camera (list);
  render_camera_set_standard (&camera, RENDER_VIEW_SOUTH);
  TrnVec3 wall = { 2.8, 0, -4 }, opening = { 0, 0, -4 }, point;
  double x, y, depth;
  render_camera_project (&camera, size, wall, &x, &y, &depth);
  g_assert_cmpuint (render_renderer_pick (test_site.renderer, list, &camera, size, x, y, &point),
                    ==, ID_SHAFT);
  g_assert_cmpfloat (trn_vec3_distance (point, wall), <, 1e-3);
  render_camera_project (&camera, size, opening, &x, &y, &depth);
  g_assert_cmpuint (render_renderer_pick (test_site.renderer, list, &camera, size, x, y, &point),
                    ==, ID_SHAFT);
  /* There one sees the far wall from inside, 2.6 m behind the cut. */
  g_assert_cmpfloat (fabs (point.y - 2.6), <, 0.02);
  cairo_surface_t *surface = test_draw (list, &camera, 0);
  RenderColour hatch = render_palette_get (FALSE)->edges[RENDER_ROLE_STRUCTURE];
  g_assert_cmpuint (count_colour_near (surface, &camera, wall, 4, hatch, 60), >, 3);
  g_assert_cmpuint (count_colour_near (surface, &camera, opening, 20, hatch, 60), ==, 0);
  cairo_surface_destroy (surface);
}

/* An open mesh has no inside to hatch: a sheet across the plane stays a sheet. */
static void
test_section_open (void)
{
  g_autoptr (RenderDrawList) list = render_draw_list_new ();
  test_add_body (list, test_site.sheet, here, RENDER_ROLE_STRUCTURE, RENDER_LOOK_SOLID, ID_SHAFT);
  list->section = (RenderSection){ TRUE, { 0, 0, 1 }, 1 };
  RenderCamera camera = { .distance_m = 20, .fov_rad = 0.6, .heading_rad = 1.5 };
  TrnVec3 point;
  double x, y, depth;
  render_camera_project (&camera, size, trn_vec3_make (1, 0, -1), &x, &y, &depth);
  g_assert_cmpuint (render_renderer_pick (test_site.renderer, list, &camera, size, x, y, &point),
                    ==, ID_SHAFT);
  render_camera_project (&camera, size, trn_vec3_make (1, 0, 3), &x, &y, &depth);
  g_assert_cmpuint (render_renderer_pick (test_site.renderer, list, &camera, size, x, y, &point),
                    ==, 0);
}

/* The runs of pixels of ink along one row. */
static guint
count_runs (cairo_surface_t *surface, int y)
{
  guint n = 0;
  gboolean on = FALSE;
  guint32 paper = test_pixel (surface, 0, y);
  for (int x = 0; x < WIDTH; x++)
    {
      gboolean ink = test_channel_off (test_pixel (surface, x, y), paper) > 90;
      n += ink && !on;
      on = ink;
    }
  return n;
}

/* A dashed line right across the view: a dash every 14 px, and as many whether the line is of one
 * segment or of 60, since the pattern runs on. */
static void
test_dashes (void)
{
  RenderCamera camera
      = { .distance_m = 20, .fov_rad = 0.6, .heading_rad = G_PI / 2, .parallel = TRUE };
  guint runs[2];
  for (int k = 0; k < 2; k++)
    {
      g_autoptr (RenderDrawList) list = render_draw_list_new ();
      guint n = k == 0 ? 2 : 61;
      g_autofree TrnVec3 *points = g_new (TrnVec3, n);
      double metre = render_camera_metres_per_pixel (&camera, size, here);
      for (guint i = 0; i < n; i++)
        points[i] = trn_vec3_make (metre * (WIDTH - 20) * (i / (double)(n - 1) - 0.5), 0, 0);
      render_draw_list_add_line (list, points, n, RENDER_LINE_DASHED, 3, RENDER_STATE_NONE, FALSE);
      cairo_surface_t *surface = test_draw (list, &camera, 0);
      runs[k] = count_runs (surface, HEIGHT / 2);
      cairo_surface_destroy (surface);
    }
  g_assert_cmpuint (runs[0], ==, (WIDTH - 20) / 14 + 1);
  g_assert_cmpuint (runs[1], ==, runs[0]);
}

/* A line behind a body is hidden, one that is on top is not. */
static void
test_on_top (void)
{
  guint seen[2];
  for (int on_top = 0; on_top < 2; on_top++)
    {
      g_autoptr (RenderDrawList) list = render_draw_list_new ();
      test_add_body (list, test_site.load, trn_vec3_make (0, 0, -3), RENDER_ROLE_LOAD,
                     RENDER_LOOK_SOLID, 0);
      const TrnVec3 points[2] = { { -1, 4, 0 }, { 1, 4, 0 } };
      render_draw_list_add_line (list, points, 2, RENDER_LINE_SOLID, 3, RENDER_STATE_CLEAR,
                                 on_top == 1);
      RenderCamera camera = { .distance_m = 20, .fov_rad = 0.6, .heading_rad = G_PI / 2 };
      cairo_surface_t *surface = test_draw (list, &camera, 0);
      seen[on_top] = count_colour_near (surface, &camera, here, 6,
                                        render_state_colour (RENDER_STATE_CLEAR, FALSE), 10);
      cairo_surface_destroy (surface);
    }
  g_assert_cmpuint (seen[0], ==, 0);
  g_assert_cmpuint (seen[1], >, 10);
}

/* ---- picking ---- */

static void
assert_pick (const RenderDrawList *list, const RenderCamera *camera, TrnVec3 at, guint32 id)
{
  double x, y, depth;
  g_assert_true (render_camera_project (camera, size, at, &x, &y, &depth));
  TrnVec3 point;
  g_assert_cmpuint (render_renderer_pick (test_site.renderer, list, camera, size, x, y, &point), ==,
                    id);
  g_assert_cmpfloat (trn_vec3_distance (point, at), <, 1e-3);
}

/* Points of the site that one sees from the south-east and above, perspective and parallel; also
 * 5 km away, to a millimetre. */
static void
test_pick_points (void)
{
  const TrnVec3 sites[2] = { { 0, 0, 0 }, { 5000, -3000, 0 } };
  for (guint i = 0; i < 4; i++)
    {
      TrnVec3 at = sites[i & 1];
      g_autoptr (RenderDrawList) list = test_site_list (at);
      RenderCamera camera = test_camera (list);
      camera.parallel = i >= 2;
      assert_pick (list, &camera, trn_vec3_add (at, trn_vec3_make (0.2, 0.3, 7)), ID_LOAD);
      assert_pick (list, &camera, trn_vec3_add (at, trn_vec3_make (7, 1, 5)), ID_BUILDING);
      assert_pick (list, &camera, trn_vec3_add (at, trn_vec3_make (7, -2, 2.5)), ID_BUILDING);
      assert_pick (list, &camera, trn_vec3_add (at, trn_vec3_make (-8, -8, 0)), ID_GROUND);
      /* Through the ghost one picks the ground behind it. */
      assert_pick (list, &camera, trn_vec3_add (at, trn_vec3_make (-7, 5, 0)), ID_GROUND);
    }
}

/* Beside everything there is nothing; two pixels beside an edge it is still caught. */
static void
test_pick_beside (void)
{
  g_autoptr (RenderDrawList) list = render_draw_list_new ();
  test_add_body (list, test_site.building, here, RENDER_ROLE_STRUCTURE, RENDER_LOOK_SOLID,
                 ID_BUILDING);
  RenderCamera camera = test_camera (list);
  camera.parallel = TRUE;
  render_camera_set_standard (&camera, RENDER_VIEW_SOUTH);
  TrnVec3 edge = { 9, -2, 2 }, point;
  double x, y, depth;
  render_camera_project (&camera, size, edge, &x, &y, &depth);
  g_assert_cmpuint (
      render_renderer_pick (test_site.renderer, list, &camera, size, x + 1.5, y, &point), ==,
      ID_BUILDING);
  g_assert_cmpfloat (trn_vec3_distance (point, edge), <,
                     1.5 * render_camera_metres_per_pixel (&camera, size, edge));
  g_assert_cmpuint (
      render_renderer_pick (test_site.renderer, list, &camera, size, x + 6, y, &point), ==, 0);
}

/* ---- what surrounds it ---- */

/* The context is its owner's: after drawing and picking it is as before. */
static void
test_state_is_kept (void)
{
  g_autoptr (RenderDrawList) list = test_site_list (here);
  RenderCamera camera = test_camera (list);
  g_assert_true (render_offscreen_bind (test_site.offscreen, WIDTH, HEIGHT));
  GLint framebuffer, after, viewport[4];
  glGetIntegerv (GL_DRAW_FRAMEBUFFER_BINDING, &framebuffer);
  glViewport (1, 2, 30, 40);
  glEnable (GL_SCISSOR_TEST);
  glScissor (0, 0, WIDTH, HEIGHT);
  glEnable (GL_BLEND);
  glBlendFunc (GL_ONE, GL_ONE_MINUS_SRC_ALPHA);
  glDisable (GL_DEPTH_TEST);
  RenderTarget target = { .size = size, .scale = 1 };
  TrnVec3 point;
  render_renderer_draw (test_site.renderer, list, &camera, &target);
  render_renderer_pick (test_site.renderer, list, &camera, size, 100, 100, &point);
  glGetIntegerv (GL_DRAW_FRAMEBUFFER_BINDING, &after);
  g_assert_cmpint (after, ==, framebuffer);
  glGetIntegerv (GL_VIEWPORT, viewport);
  g_assert_true (viewport[0] == 1 && viewport[1] == 2 && viewport[2] == 30 && viewport[3] == 40);
  g_assert_true (glIsEnabled (GL_SCISSOR_TEST) && glIsEnabled (GL_BLEND));
  g_assert_false (glIsEnabled (GL_DEPTH_TEST) || glIsEnabled (GL_STENCIL_TEST));
  glGetIntegerv (GL_BLEND_SRC_RGB, &after);
  g_assert_cmpint (after, ==, GL_ONE);
  glGetIntegerv (GL_CURRENT_PROGRAM, &after);
  g_assert_cmpint (after, ==, 0);
  g_assert_cmpint (glGetError (), ==, GL_NO_ERROR);
  glDisable (GL_SCISSOR_TEST);
  glDisable (GL_BLEND);
}

/* Meshes that no list names any more leave the card's memory after a while; those named stay. */
static void
test_meshes_are_dropped (void)
{
  g_autoptr (RenderDrawList) list = test_site_list (here), nothing = render_draw_list_new ();
  RenderCamera camera = test_camera (list);
  RenderTarget target = { .size = { 8, 8 }, .scale = 1 };
  g_assert_true (render_offscreen_bind (test_site.offscreen, 8, 8));
  render_renderer_draw (test_site.renderer, list, &camera, &target);
  g_assert_cmpuint (g_hash_table_size (test_site.renderer->meshes.meshes), >=, 4);
  for (int frame = 0; frame < 300; frame++)
    render_renderer_draw (test_site.renderer, nothing, &camera, &target);
  g_assert_cmpuint (g_hash_table_size (test_site.renderer->meshes.meshes), ==, 0);
}

/* The tests run with the processor drawing; the renderer says so. */
static void
test_software (void)
{
  g_assert_true (render_renderer_is_software (test_site.renderer));
}

/* How much darker the middle of a fence looks than one of its plain faces would: the mean of green
 * over a window of the picture. */
static double
mean_green (cairo_surface_t *surface, int half_width, int half_height)
{
  double sum = 0;
  for (int y = -half_height; y < half_height; y++)
    for (int x = -half_width; x < half_width; x++)
      sum += test_pixel (surface, WIDTH / 2 + x, HEIGHT / 2 + y) >> 8 & 0xff;
  return sum / (4.0 * half_width * half_height);
}

static guint
darkest_green (cairo_surface_t *surface)
{
  guint darkest = 255;
  for (int y = 0; y < HEIGHT; y++)
    for (int x = 0; x < WIDTH; x++)
      darkest = MIN (darkest, test_pixel (surface, x, y) >> 8 & 0xff);
  return darkest;
}

/* Forty bars, 0.1 m square, side by side. Near, each has its full edges; so far away that a bar is
 * a pixel wide, their edges must not cover what is between them: the fence is as light as a wall
 * of one piece, which has edges only round it, to a quarter: without fading it is half as light. So
 * it is in parallel too. */
static void
test_edges_fade (void)
{
  TrnMesh *one = test_box (trn_vec3_make (-0.05, -0.05, -2), trn_vec3_make (0.05, 0.05, 2));
  TrnMesh *whole = test_box (trn_vec3_make (-2, -0.05, -2), trn_vec3_make (2, 0.05, 2));
  g_autoptr (RenderMesh) bar = render_mesh_build (one, 0), wall = render_mesh_build (whole, 0);
  trn_mesh_unref (one);
  trn_mesh_unref (whole);
  g_autoptr (RenderDrawList) bars = render_draw_list_new ();
  g_autoptr (RenderDrawList) piece = render_draw_list_new ();
  for (int i = 0; i < 40; i++)
    test_add_body (bars, bar, trn_vec3_make (-1.95 + 0.1 * i, 0, 0), RENDER_ROLE_STRUCTURE,
                   RENDER_LOOK_SOLID, 1);
  test_add_body (piece, wall, here, RENDER_ROLE_STRUCTURE, RENDER_LOOK_SOLID, 1);
  RenderCamera camera = render_camera_make (&piece->extent, size);
  render_camera_set_standard (&camera, RENDER_VIEW_NORTH);
  for (guint parallel = 0; parallel < 2; parallel++)
    {
      camera.parallel = parallel;
      double pixels_a_metre = HEIGHT / 2.0 / tan (camera.fov_rad / 2);
      camera.distance_m = pixels_a_metre / 10;
      cairo_surface_t *far = test_draw (bars, &camera, 4), *plain = test_draw (piece, &camera, 4);
      g_assert_cmpfloat (mean_green (far, 15, 15), >, 0.75 * mean_green (plain, 15, 15));
      camera.distance_m = pixels_a_metre / 1000;
      cairo_surface_t *near = test_draw (bars, &camera, 4);
      guint edge = (guint)(255 * render_palette_get (FALSE)->edges[RENDER_ROLE_STRUCTURE].g);
      g_assert_cmpuint (darkest_green (near), <, edge + 30);
      cairo_surface_destroy (far);
      cairo_surface_destroy (plain);
      cairo_surface_destroy (near);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/renderer/ghost", test_ghost);
  g_test_add_func ("/renderer/shining-through", test_shining_through);
  g_test_add_func ("/renderer/section/cap", test_section_cap);
  g_test_add_func ("/renderer/section/shaft", test_section_shaft);
  g_test_add_func ("/renderer/section/open", test_section_open);
  g_test_add_func ("/renderer/dashes", test_dashes);
  g_test_add_func ("/renderer/on-top", test_on_top);
  g_test_add_func ("/renderer/pick/points", test_pick_points);
  g_test_add_func ("/renderer/pick/beside", test_pick_beside);
  g_test_add_func ("/renderer/state-is-kept", test_state_is_kept);
  g_test_add_func ("/renderer/meshes-are-dropped", test_meshes_are_dropped);
  g_test_add_func ("/renderer/edges-fade", test_edges_fade);
  g_test_add_func ("/renderer/software", test_software);
  return test_site_run ();
}
