/* Pictures of a small site, without a display, by surfaceless EGL: as they were, and the same by
 * other ways.
 *
 * Golden pictures lie in golden/. They are compared with a tolerance, since processors and versions
 * of the driver differ in a few pixels: the size must be the same, and at most one pixel in a
 * thousand may differ by more than 2/255 in any channel. To renew them after a change that is
 * meant, run this test with TRUNNION_RENEW_GOLDEN=1 in the environment, then look at each. */
#include "picture.h"
#include "renderer-site.h"

/* ---- golden pictures ---- */

static void
assert_golden (const char *name, cairo_surface_t *surface)
{
  g_autofree char *path = g_strdup_printf ("%s/tests/app/render/golden/%s.png",
                                           g_getenv ("TRUNNION_SOURCE_FOLDER"), name);
  if (g_strcmp0 (g_getenv ("TRUNNION_RENEW_GOLDEN"), "1") == 0)
    {
      g_assert_cmpint (cairo_surface_write_to_png (surface, path), ==, CAIRO_STATUS_SUCCESS);
      g_test_message ("written: %s", path);
    }
  cairo_surface_t *loaded = cairo_image_surface_create_from_png (path);
  g_assert_cmpint (cairo_surface_status (loaded), ==, CAIRO_STATUS_SUCCESS);
  /* A file without transparency is loaded as another format. */
  cairo_surface_t *golden
      = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, cairo_image_surface_get_width (loaded),
                                    cairo_image_surface_get_height (loaded));
  cairo_t *cr = cairo_create (golden);
  cairo_set_source_surface (cr, loaded, 0, 0);
  cairo_paint (cr);
  cairo_destroy (cr);
  cairo_surface_flush (golden);
  guint different = test_count_different (surface, golden, 2);
  if (different > WIDTH * HEIGHT / 1000)
    {
      g_autofree char *found = g_strdup_printf ("%s/found-%s.png", g_get_tmp_dir (), name);
      cairo_surface_write_to_png (surface, found);
      g_test_message ("%s: %u pixels differ from the golden picture; drawn now: %s", name,
                      different, found);
    }
  g_assert_cmpuint (different, <=, WIDTH * HEIGHT / 1000);
  cairo_surface_destroy (golden);
  cairo_surface_destroy (loaded);
  cairo_surface_destroy (surface);
}

static void
test_golden_site (void)
{
  g_autoptr (RenderDrawList) list = test_site_list (here);
  test_add_lines (list, here);
  RenderCamera camera = test_camera (list);
  assert_golden ("site", test_draw (list, &camera, 4));
}

static void
test_golden_dark (void)
{
  g_autoptr (RenderDrawList) list = test_site_list (here);
  test_add_lines (list, here);
  list->dark = TRUE;
  g_array_index (list->bodies, RenderBody, 3).selected = TRUE;
  RenderCamera camera = test_camera (list);
  assert_golden ("dark", test_draw (list, &camera, 0));
}

static void
test_golden_section (void)
{
  g_autoptr (RenderDrawList) list = test_site_list (here);
  list->section = (RenderSection){ TRUE, { 0, -1, 0 }, 0.5 };
  RenderCamera camera = test_camera (list);
  assert_golden ("section", test_draw (list, &camera, 0));
}

/* Parallel, from above, without ground: the grid is a plane of its own. */
static void
test_golden_plan (void)
{
  g_autoptr (RenderDrawList) list = test_site_list (here);
  g_array_remove_index (list->bodies, 0);
  RenderCamera camera = test_camera (list);
  camera.parallel = TRUE;
  render_camera_set_standard (&camera, RENDER_VIEW_PLAN);
  render_camera_fit (&camera, size, &list->extent);
  assert_golden ("plan", test_draw (list, &camera, 0));
}

/* Close to the figure for scale. */
static void
test_golden_figure (void)
{
  g_autoptr (RenderDrawList) list = test_site_list (here);
  RenderCamera camera = test_camera (list);
  TrnBox person = { trn_vec3_make (-5.6, -4.6, 0), trn_vec3_make (-4.4, -3.4, 1.75) };
  render_camera_set_standard (&camera, RENDER_VIEW_SOUTH);
  render_camera_fit (&camera, size, &person);
  assert_golden ("figure", test_draw (list, &camera, 0));
}

/* ---- the same picture by other ways ---- */

static void
test_repeats (void)
{
  g_autoptr (RenderDrawList) list = test_site_list (here);
  test_add_lines (list, here);
  RenderCamera camera = test_camera (list);
  cairo_surface_t *once = test_draw (list, &camera, 4), *again = test_draw (list, &camera, 4);
  g_assert_cmpuint (test_count_different (once, again, 0), ==, 0);
  cairo_surface_destroy (once);
  cairo_surface_destroy (again);
}

/* A site 5 km away, in steps that the pitch of the heavier lines divides: the same picture, since
 * floats hold places about the camera's target only. */
static void
test_far_away (void)
{
  TrnVec3 there = { 5000, -3000, 0 };
  g_autoptr (RenderDrawList) list = test_site_list (here);
  g_autoptr (RenderDrawList) far_list = test_site_list (there);
  test_add_lines (list, here);
  test_add_lines (far_list, there);
  RenderCamera camera = test_camera (list), far_camera = camera;
  far_camera.target = trn_vec3_add (camera.target, there);
  cairo_surface_t *near = test_draw (list, &camera, 0), *far = test_draw (far_list, &far_camera, 0);
  g_assert_cmpuint (test_count_different (near, far, 2), <=, WIDTH * HEIGHT / 1000);
  cairo_surface_destroy (near);
  cairo_surface_destroy (far);
}

static void
draw_tile (const RenderDrawList *list, const RenderCamera *camera, cairo_surface_t *surface, int x,
           int y, int width, int height)
{
  RenderTarget target = { .size = { width, height },
                          .scale = 1,
                          .tile_x = x,
                          .tile_y = y,
                          .whole_width = WIDTH,
                          .whole_height = HEIGHT };
  g_assert_true (render_offscreen_bind (test_site.offscreen, width, height));
  render_renderer_draw (test_site.renderer, list, camera, &target);
  render_offscreen_read (test_site.offscreen, surface, x, HEIGHT - y - height);
}

/* Six tiles of three sizes, hatching and dashes included. */
static void
test_tiles (void)
{
  g_autoptr (RenderDrawList) list = test_site_list (here);
  test_add_lines (list, here);
  list->section = (RenderSection){ TRUE, { 0, -1, 0 }, 0.5 };
  RenderCamera camera = test_camera (list);
  cairo_surface_t *whole = test_draw (list, &camera, 0);
  cairo_surface_t *tiled = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, WIDTH, HEIGHT);
  for (int y = 0; y < HEIGHT; y += 128)
    for (int x = 0; x < WIDTH; x += 128)
      draw_tile (list, &camera, tiled, x, y, MIN (128, WIDTH - x), MIN (128, HEIGHT - y));
  g_assert_cmpuint (test_count_different (whole, tiled, 2), <=, WIDTH * HEIGHT / 1000);
  cairo_surface_destroy (whole);
  cairo_surface_destroy (tiled);
}

/* A picture wider than one tile of picture.c, against one of the renderer in one piece.
 */
static void
test_large_picture (void)
{
  g_autoptr (RenderDrawList) list = test_site_list (here);
  RenderCamera camera = test_camera (list);
  RenderPictureOptions options = { .width = 2500, .height = 60, .scale = 1, .clean = TRUE };
  g_autoptr (GError) error = NULL;
  cairo_surface_t *picture = render_picture (list, &camera, &options, &error);
  g_assert_no_error (error);
  RenderTarget target = { .size = { 2500, 60 }, .scale = 1, .samples = 4 };
  g_assert_true (render_offscreen_bind (test_site.offscreen, 2500, 60));
  render_renderer_draw (test_site.renderer, list, &camera, &target);
  cairo_surface_t *whole = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, 2500, 60);
  render_offscreen_read (test_site.offscreen, whole, 0, 0);
  g_assert_cmpuint (test_count_different (picture, whole, 2), <=, 2500 * 60 / 1000);
  cairo_surface_destroy (picture);
  cairo_surface_destroy (whole);
}

static void
test_picture_sizes (void)
{
  g_autoptr (RenderDrawList) list = test_site_list (here);
  RenderCamera camera = test_camera (list);
  const RenderPictureOptions wrong[]
      = { { .width = 0, .height = 10, .scale = 1, .clean = TRUE },
          { .width = 10, .height = -1, .scale = 1, .clean = TRUE },
          { .width = 40000, .height = 10, .scale = 1, .clean = TRUE } };
  for (guint i = 0; i < G_N_ELEMENTS (wrong); i++)
    {
      g_autoptr (GError) error = NULL;
      g_assert_null (render_picture (list, &camera, &wrong[i], &error));
      g_assert_error (error, RENDER_PICTURE_ERROR, RENDER_PICTURE_ERROR_FAILED);
    }
}

typedef struct
{
  GArray *told; /* of double */
  guint stop_at;
} Told;

static gboolean
on_told (double done, gpointer data)
{
  Told *told = data;
  g_array_append_val (told->told, done);
  return told->told->len < told->stop_at;
}

/* Three tiles across tell of 0, 1/3, 2/3 and 1; stopped at the second there is no picture. */
static void
test_progress (void)
{
  g_autoptr (RenderDrawList) list = test_site_list (here);
  RenderCamera camera = test_camera (list);
  g_autoptr (GArray) values = g_array_new (FALSE, FALSE, sizeof (double));
  Told told = { values, G_MAXUINT };
  RenderPictureOptions options = { .width = 2500,
                                   .height = 60,
                                   .scale = 1,
                                   .clean = TRUE,
                                   .progress = on_told,
                                   .progress_data = &told };
  cairo_surface_t *picture = render_picture (list, &camera, &options, NULL);
  g_assert_nonnull (picture);
  cairo_surface_destroy (picture);
  g_assert_cmpuint (values->len, ==, 4);
  for (guint i = 0; i < 4; i++)
    g_assert_cmpfloat_with_epsilon (g_array_index (values, double, i), i / 3.0, 1e-12);
  g_array_set_size (values, 0);
  told.stop_at = 2;
  g_autoptr (GError) error = NULL;
  g_assert_null (render_picture (list, &camera, &options, &error));
  g_assert_error (error, RENDER_PICTURE_ERROR, RENDER_PICTURE_ERROR_STOPPED);
  g_assert_cmpuint (values->len, ==, 2);
}

typedef struct
{
  RenderDrawList *list;
  RenderCamera camera;
  RenderPictureOptions options;
} Order;

static gpointer
draw_on_thread (gpointer data)
{
  const Order *order = data;
  return render_picture (order->list, &order->camera, &order->options, NULL);
}

/* Two threads draw pictures with labels, each in a context of its own, while this thread draws in
 * its own as well; no pixel of either differs from the picture drawn here alone. */
static void
test_threads (void)
{
  g_autoptr (RenderDrawList) list = test_site_list (here);
  render_draw_list_add_label (list, "0.32 m", trn_vec3_make (0, 0, 8), RENDER_STATE_SHORT, FALSE);
  Order order = { list, test_camera (list), { .width = 1500, .height = 700, .scale = 1.5 } };
  cairo_surface_t *alone = draw_on_thread (&order);
  GThread *threads[2];
  for (guint i = 0; i < 2; i++)
    threads[i] = g_thread_new ("picture", draw_on_thread, &order);
  RenderTarget target = { .size = { 200, 150 }, .scale = 1, .samples = 4 };
  for (guint i = 0; i < 20; i++)
    {
      g_assert_true (render_offscreen_bind (test_site.offscreen, 200, 150));
      render_renderer_draw (test_site.renderer, list, &order.camera, &target);
    }
  for (guint i = 0; i < 2; i++)
    {
      cairo_surface_t *picture = g_thread_join (threads[i]);
      g_assert_nonnull (picture);
      g_assert_cmpuint (test_count_different (alone, picture, 0), ==, 0);
      cairo_surface_destroy (picture);
    }
  cairo_surface_destroy (alone);
}

/* Labels and marks go over the picture, unless it is to be clean; twice the scale at twice the size
 * shows the same. */
static void
test_picture_overlay (void)
{
  g_autoptr (RenderDrawList) list = test_site_list (here);
  render_draw_list_add_label (list, "0.32 m", trn_vec3_make (0, 0, 8), RENDER_STATE_SHORT, FALSE);
  RenderCamera camera = test_camera (list);
  RenderPictureOptions options = { .width = WIDTH, .height = HEIGHT, .scale = 1, .clean = TRUE };
  cairo_surface_t *clean = render_picture (list, &camera, &options, NULL);
  options.clean = FALSE;
  cairo_surface_t *labelled = render_picture (list, &camera, &options, NULL);
  g_assert_cmpuint (test_count_different (clean, labelled, 2), >, 100);
  options.scale = 2;
  options.width *= 2;
  options.height *= 2;
  cairo_surface_t *large = render_picture (list, &camera, &options, NULL);
  g_assert_cmpint (cairo_image_surface_get_width (large), ==, 2 * WIDTH);
  guint far_off = 0;
  for (int y = 0; y < HEIGHT; y++)
    for (int x = 0; x < WIDTH; x++)
      far_off
          += test_channel_off (test_pixel (labelled, x, y), test_pixel (large, 2 * x, 2 * y)) > 60;
  g_assert_cmpuint (far_off, <, WIDTH * HEIGHT / 20);
  cairo_surface_destroy (clean);
  cairo_surface_destroy (labelled);
  cairo_surface_destroy (large);
}

/* OpenGL ES draws what OpenGL draws. */
static void
test_gles (void)
{
  g_autoptr (RenderDrawList) list = test_site_list (here);
  test_add_lines (list, here);
  list->section = (RenderSection){ TRUE, { 0, -1, 0 }, 0.5 };
  RenderCamera camera = test_camera (list);
  cairo_surface_t *core = test_draw (list, &camera, 0);
  RenderOffscreen *core_offscreen = test_site.offscreen;
  RenderRenderer *core_renderer = test_site.renderer;
  g_autoptr (GError) error = NULL;
  test_site.offscreen = render_offscreen_new (RENDER_OFFSCREEN_GLES, &error);
  g_assert_no_error (error);
  g_assert_false (epoxy_is_desktop_gl ());
  test_site.renderer = render_renderer_new (&error);
  g_assert_no_error (error);
  cairo_surface_t *es = test_draw (list, &camera, 0);
  TrnVec3 point;
  guint32 picked = render_renderer_pick (test_site.renderer, list, &camera, size, WIDTH / 2,
                                         HEIGHT / 2, &point);
  g_assert_cmpint (glGetError (), ==, GL_NO_ERROR);
  render_renderer_free (test_site.renderer);
  render_offscreen_free (test_site.offscreen);
  test_site.offscreen = core_offscreen;
  test_site.renderer = core_renderer;
  /* The first context is current again. */
  g_assert_true (epoxy_is_desktop_gl ());
  g_assert_cmpuint (test_count_different (core, es, 2), <=, WIDTH * HEIGHT / 1000);
  g_assert_cmpuint (picked, ==,
                    render_renderer_pick (test_site.renderer, list, &camera, size, WIDTH / 2,
                                          HEIGHT / 2, &point));
  cairo_surface_destroy (core);
  cairo_surface_destroy (es);
}

/* Where EGL finds no driver there is an error and no picture. */
static void
test_no_opengl (void)
{
  if (g_test_subprocess ())
    {
      g_setenv ("__EGL_VENDOR_LIBRARY_DIRS", "/nonexistent", TRUE);
      g_autoptr (RenderDrawList) list = test_site_list (here);
      RenderCamera camera = test_camera (list);
      RenderPictureOptions options = { .width = 10, .height = 10, .scale = 1 };
      g_autoptr (GError) error = NULL;
      g_assert_null (render_picture (list, &camera, &options, &error));
      g_assert_error (error, RENDER_PICTURE_ERROR, RENDER_PICTURE_ERROR_NO_OPENGL);
      return;
    }
  g_test_trap_subprocess (NULL, 0, G_TEST_SUBPROCESS_INHERIT_STDERR);
  g_test_trap_assert_passed ();
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/pictures/golden/site", test_golden_site);
  g_test_add_func ("/pictures/golden/dark", test_golden_dark);
  g_test_add_func ("/pictures/golden/section", test_golden_section);
  g_test_add_func ("/pictures/golden/plan", test_golden_plan);
  g_test_add_func ("/pictures/golden/figure", test_golden_figure);
  g_test_add_func ("/pictures/repeats", test_repeats);
  g_test_add_func ("/pictures/far-away", test_far_away);
  g_test_add_func ("/pictures/tiles", test_tiles);
  g_test_add_func ("/pictures/large-picture", test_large_picture);
  g_test_add_func ("/pictures/picture-sizes", test_picture_sizes);
  g_test_add_func ("/pictures/progress", test_progress);
  g_test_add_func ("/pictures/threads", test_threads);
  g_test_add_func ("/pictures/picture-overlay", test_picture_overlay);
  g_test_add_func ("/pictures/gles", test_gles);
  g_test_add_func ("/pictures/no-opengl", test_no_opengl);
  return test_site_run ();
}
