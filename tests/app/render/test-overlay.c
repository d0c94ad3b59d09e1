/* test-overlay.c: what is drawn over a view, looked at in pixels: where there is ink, where there
 * is none, and that the marks of the states differ in shape and not in colour alone. */
#include "overlay.h"

#include <string.h>

#define SIZE 64

typedef struct
{
  cairo_surface_t *surface;
  cairo_t *cr;
  int width, height;
} Canvas;

static Canvas
canvas_make (int width, int height)
{
  Canvas canvas = { .width = width, .height = height };
  canvas.surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, width, height);
  canvas.cr = cairo_create (canvas.surface);
  return canvas;
}

static void
canvas_clear (Canvas *canvas)
{
  cairo_destroy (canvas->cr);
  cairo_surface_destroy (canvas->surface);
}

static guint32
pixel (const Canvas *canvas, int x, int y)
{
  cairo_surface_flush (canvas->surface);
  guint32 value;
  memcpy (&value,
          cairo_image_surface_get_data (canvas->surface)
              + y * cairo_image_surface_get_stride (canvas->surface) + 4 * x,
          sizeof value);
  return value;
}

/* Pixels of a rectangle on which something was drawn. */
static guint
count_ink (const Canvas *canvas, int x0, int y0, int x1, int y1)
{
  guint n = 0;
  for (int y = y0; y < y1; y++)
    for (int x = x0; x < x1; x++)
      n += pixel (canvas, x, y) >> 24 > 0;
  return n;
}

/* The mark alone, without its colour: whether a pixel is nearer to the colour of the state than to
 * that of the casing. */
static void
mark_shape (RenderState state, gboolean dark, gboolean shape[SIZE * SIZE])
{
  Canvas canvas = canvas_make (SIZE, SIZE);
  render_mark_draw (canvas.cr, state, SIZE / 2, SIZE / 2, 24, dark);
  RenderColour colour = render_state_colour (state, dark);
  for (int i = 0; i < SIZE * SIZE; i++)
    {
      guint32 p = pixel (&canvas, i % SIZE, i / SIZE);
      double off = fabs ((p >> 16 & 255) / 255.0 - colour.r)
                   + fabs ((p >> 8 & 255) / 255.0 - colour.g) + fabs ((p & 255) / 255.0 - colour.b);
      shape[i] = p >> 24 == 255 && off < 0.1;
    }
  canvas_clear (&canvas);
}

/* Any two marks differ on at least a sixth of what they cover together: in grey they are still told
 * apart. Each stays within a quarter more than its radius. */
static void
test_marks (void)
{
  static gboolean shapes[RENDER_STATE_NOT_CHECKED + 1][SIZE * SIZE];
  for (int dark = 0; dark <= 1; dark++)
    {
      for (RenderState s = RENDER_STATE_NONE; s <= RENDER_STATE_NOT_CHECKED; s++)
        mark_shape (s, dark, shapes[s]);
      for (RenderState a = RENDER_STATE_NONE; a <= RENDER_STATE_NOT_CHECKED; a++)
        for (RenderState b = a + 1; b <= RENDER_STATE_NOT_CHECKED; b++)
          {
            guint differ = 0, covered = 0;
            for (int i = 0; i < SIZE * SIZE; i++)
              {
                differ += shapes[a][i] != shapes[b][i];
                covered += shapes[a][i] || shapes[b][i];
              }
            g_assert_cmpuint (covered, >, 100);
            g_assert_cmpuint (6 * differ, >=, covered);
          }
    }
  Canvas canvas = canvas_make (SIZE, SIZE);
  render_mark_draw (canvas.cr, RENDER_STATE_SHORT, SIZE / 2, SIZE / 2, 20, FALSE);
  g_assert_cmpuint (count_ink (&canvas, 0, 0, SIZE, SIZE / 2 - 25), ==, 0);
  g_assert_cmpuint (count_ink (&canvas, 0, SIZE / 2 + 25, SIZE, SIZE), ==, 0);
  canvas_clear (&canvas);
}

/* The share of a square of 40 pixels that is strongly inked. A pattern is between nothing and all,
 * and denser the worse the state. */
static double
fill_share (RenderState state, gboolean *outside)
{
  Canvas canvas = canvas_make (SIZE, SIZE);
  cairo_rectangle (canvas.cr, 12, 12, 40, 40);
  render_state_fill (canvas.cr, state, FALSE);
  g_assert_false (cairo_has_current_point (canvas.cr));
  guint strong = 0;
  for (int y = 12; y < 52; y++)
    for (int x = 12; x < 52; x++)
      strong += pixel (&canvas, x, y) >> 24 > 128;
  *outside = count_ink (&canvas, 0, 0, SIZE, 12) + count_ink (&canvas, 0, 0, 12, SIZE) > 0;
  canvas_clear (&canvas);
  return strong / 1600.0;
}

static void
test_fills (void)
{
  gboolean outside[6];
  double share[6];
  for (RenderState s = RENDER_STATE_NONE; s <= RENDER_STATE_NOT_CHECKED; s++)
    {
      share[s] = fill_share (s, &outside[s]);
      g_assert_false (outside[s]);
    }
  g_assert_cmpfloat (share[RENDER_STATE_NONE], ==, 0);
  g_assert_cmpfloat (share[RENDER_STATE_CLEAR], ==, 1);
  g_assert_cmpfloat (share[RENDER_STATE_TIGHT], ==, 1);
  g_assert_cmpfloat (share[RENDER_STATE_NOT_CHECKED], >, 0);
  g_assert_cmpfloat (share[RENDER_STATE_SHORT], >, 2 * share[RENDER_STATE_NOT_CHECKED]);
  g_assert_cmpfloat (share[RENDER_STATE_TOUCHING], >, share[RENDER_STATE_SHORT]);
  g_assert_cmpfloat (share[RENDER_STATE_TOUCHING], <, 0.9);
}

/* Looks toward +Y on the plane y = 0, 20 m high, so that 1 m is 30 pixels of 600. */
static RenderCamera
make_camera (void)
{
  RenderCamera camera = { .distance_m = 100, .heading_rad = G_PI / 2, .parallel = TRUE };
  camera.fov_rad = 2 * atan (10.0 / 100);
  return camera;
}

/* The gap is a line of 6 m across the middle of the view; its plate is drawn, and not on it; the
 * caption is at the lower left, the compass at the lower right, nothing elsewhere. */
static void
test_view (void)
{
  for (int dark = 0; dark <= 1; dark++)
    {
      g_autoptr (RenderDrawList) list = render_draw_list_new ();
      TrnVec3 ends[] = { { -3, 0, 0 }, { 3, 0, 0 } };
      list->dark = dark;
      list->compass = TRUE;
      list->caption = g_strdup ("From the south · grid 5 m");
      render_draw_list_add_line (list, ends, 2, RENDER_LINE_SOLID, 3, RENDER_STATE_SHORT, TRUE);
      render_draw_list_add_mark (list, ends[0], RENDER_STATE_SHORT);
      render_draw_list_add_mark (list, ends[1], RENDER_STATE_SHORT);
      render_draw_list_add_label (list, "0.32 m, keep 0.5 m", (TrnVec3){ 0, 0, 0 },
                                  RENDER_STATE_SHORT, FALSE);
      Canvas canvas = canvas_make (800, 600);
      RenderCamera camera = make_camera ();
      render_overlay_draw (canvas.cr, list, &camera, (RenderSize){ 800, 600 }, 0);
      /* The marks, at 310 and 490; on the line between them nothing but the leader's end. */
      g_assert_cmpuint (count_ink (&canvas, 300, 290, 320, 310), >, 40);
      g_assert_cmpuint (count_ink (&canvas, 480, 290, 500, 310), >, 40);
      g_assert_cmpuint (count_ink (&canvas, 320, 299, 395, 301), ==, 0);
      g_assert_cmpuint (count_ink (&canvas, 405, 299, 480, 301), ==, 0);
      /* The plate covers at least 100 × 20 pixels near the middle. */
      g_assert_cmpuint (count_ink (&canvas, 200, 150, 600, 450), >, 2000);
      g_assert_cmpuint (count_ink (&canvas, 0, 550, 300, 600), >, 2000);
      g_assert_cmpuint (count_ink (&canvas, 700, 490, 800, 600), >, 1000);
      g_assert_cmpuint (count_ink (&canvas, 0, 0, 800, 140), ==, 0);
      canvas_clear (&canvas);
    }
}

/* A caption longer than the view is cut, not run off its edge or under the compass. */
static void
test_long_caption (void)
{
  g_autoptr (RenderDrawList) list = render_draw_list_new ();
  list->compass = TRUE;
  list->caption = g_strnfill (400, 'W');
  Canvas canvas = canvas_make (500, 400);
  RenderCamera camera = make_camera ();
  render_overlay_draw (canvas.cr, list, &camera, (RenderSize){ 500, 400 }, 0);
  g_assert_cmpuint (count_ink (&canvas, 0, 350, 14, 400), ==, 0);
  g_assert_cmpuint (count_ink (&canvas, 395, 392, 500, 400), ==, 0);
  g_assert_cmpuint (count_ink (&canvas, 100, 360, 300, 386), >, 4000);
  canvas_clear (&canvas);
}

/* A plate would stand above its point, 25 pixels below the top; what covers the top pushes it down.
 */
static void
test_covered (void)
{
  for (int covered = 0; covered <= 1; covered++)
    {
      g_autoptr (RenderDrawList) list = render_draw_list_new ();
      render_draw_list_add_label (list, "0.32 m, keep 0.5 m", (TrnVec3){ 0, 0, 7.2 },
                                  RENDER_STATE_SHORT, FALSE);
      Canvas canvas = canvas_make (800, 600);
      RenderCamera camera = make_camera ();
      render_overlay_draw (canvas.cr, list, &camera, (RenderSize){ 800, 600 }, covered * 80);
      guint ink = count_ink (&canvas, 0, 0, 800, 80);
      if (covered)
        g_assert_cmpuint (ink, ==, 0);
      else
        g_assert_cmpuint (ink, >, 1000);
      canvas_clear (&canvas);
    }
}

/* What is not in the view has no label; and an empty list draws nothing. */
static void
test_nothing (void)
{
  g_autoptr (RenderDrawList) list = render_draw_list_new ();
  render_draw_list_add_label (list, "far", (TrnVec3){ 500, 0, 0 }, RENDER_STATE_CLEAR, FALSE);
  render_draw_list_add_mark (list, (TrnVec3){ 0, 0, 500 }, RENDER_STATE_CLEAR);
  Canvas canvas = canvas_make (400, 300);
  RenderCamera camera = make_camera ();
  render_overlay_draw (canvas.cr, list, &camera, (RenderSize){ 400, 300 }, 0);
  g_assert_cmpuint (count_ink (&canvas, 0, 0, 400, 300), ==, 0);
  canvas_clear (&canvas);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/render/overlay/marks", test_marks);
  g_test_add_func ("/render/overlay/fills", test_fills);
  g_test_add_func ("/render/overlay/view", test_view);
  g_test_add_func ("/render/overlay/long-caption", test_long_caption);
  g_test_add_func ("/render/overlay/covered", test_covered);
  g_test_add_func ("/render/overlay/nothing", test_nothing);
  return g_test_run ();
}
