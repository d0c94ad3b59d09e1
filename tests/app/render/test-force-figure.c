/* test-force-figure.c: the outline of a load, and figures of forces and of rigging. */
#include "force-figure.h"

#include <math.h>

/* A square with points within it and a mesh's worth of points along one side: four corners. */
static void
test_hull (void)
{
  RenderPlanePoint points[2000], hull[RENDER_HULL_MOST];
  guint n = 0;
  points[n++] = (RenderPlanePoint){ 0, 0 };
  points[n++] = (RenderPlanePoint){ 2, 0 };
  points[n++] = (RenderPlanePoint){ 2, 2 };
  points[n++] = (RenderPlanePoint){ 0, 2 };
  while (n < G_N_ELEMENTS (points))
    {
      double t = 2.0 * n / G_N_ELEMENTS (points);
      points[n] = (RenderPlanePoint){ t, n % 2 == 0 ? 0 : 1 };
      n++;
    }
  g_assert_cmpuint (render_plane_hull (points, n, hull), ==, 4);
  double area = 0;
  for (guint i = 0; i < 4; i++)
    area += hull[i].x * hull[(i + 1) % 4].y - hull[(i + 1) % 4].x * hull[i].y;
  g_assert_cmpfloat_with_epsilon (area / 2, 4, 1e-9);
  /* Seen edge on a plate has no area, and one point is one point. */
  g_assert_cmpuint (render_plane_hull (points, 1, hull), <, 3);
  for (guint i = 0; i < 10; i++)
    points[i] = (RenderPlanePoint){ 1, i };
  g_assert_cmpuint (render_plane_hull (points, 10, hull), <, 3);
}

/* How much ink there is in a part of the picture: pixels that are not the white they began as. */
static guint
ink (cairo_surface_t *surface, int x0, int y0, int x1, int y1)
{
  guint n = 0;
  cairo_surface_flush (surface);
  const unsigned char *data = cairo_image_surface_get_data (surface);
  int stride = cairo_image_surface_get_stride (surface);
  for (int y = y0; y < y1; y++)
    for (int x = x0; x < x1; x++)
      {
        const unsigned char *p = data + y * stride + 4 * x;
        n += p[0] < 150 && p[1] < 150 && p[2] < 150;
      }
  return n;
}

static cairo_t *
paper_new (int width, int height)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, width, height);
  cairo_t *cr = cairo_create (surface);
  cairo_surface_destroy (surface);
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  return cr;
}

/* A force of twice the size has an arrow of twice the length: dark pixels in its column. The
 * outline is 10 m wide, its hooks act at its ends. */
static void
test_to_scale (void)
{
  static const RenderPlanePoint outline[] = { { 0, 0 }, { 10, 0 }, { 10, 1 }, { 0, 1 } };
  RenderForce forces[] = { { { 0, 1 }, 100, "" }, { { 10, 1 }, 200, "" } };
  RenderForceFigure figure
      = { .outline = outline, .n_outline = 4, .forces = forces, .n_forces = 2 };
  cairo_t *cr = paper_new (300, 200);
  render_force_figure_draw (cr, &figure, (RenderSize){ 300, 200 });
  cairo_surface_t *surface = cairo_get_target (cr);
  int heights[2] = { 0, 0 };
  for (int side = 0; side < 2; side++)
    for (int y = 0; y < 200; y++)
      heights[side] += ink (surface, side == 0 ? 0 : 280, y, side == 0 ? 20 : 300, y + 1) > 0;
  /* Both have the outline's edge and the mark of their point below. */
  g_assert_cmpint (heights[1] - heights[0], >, 25);
  g_assert_cmpint (heights[1], >, (int)(0.3 * 200));
  cairo_destroy (cr);
}

/* An arrow that a dot would hide is there alone, a head that is wider below than above. */
static void
test_short_arrow (void)
{
  static const RenderPlanePoint outline[] = { { 0, 0 }, { 10, 0 }, { 10, 1 }, { 0, 1 } };
  RenderForce forces[] = { { { 0, 4 }, 700, "" }, { { 10, 4 }, 60, "" } };
  RenderForceFigure figure
      = { .outline = outline, .n_outline = 4, .forces = forces, .n_forces = 2 };
  cairo_t *cr = paper_new (200, 200);
  render_force_figure_draw (cr, &figure, (RenderSize){ 200, 200 });
  guint first = 0, last = 0, n_rows = 0;
  for (int y = 0; y < 200; y++)
    {
      const guint n = ink (cairo_get_target (cr), 100, y, 200, y + 1);
      if (n == 0 && n_rows > 0)
        break;
      if (n == 0)
        continue;
      first = n_rows == 0 ? n : first;
      last = n;
      n_rows++;
    }
  g_assert_cmpuint (n_rows, >=, 3);
  g_assert_cmpuint (first + 2, <=, last);
  cairo_destroy (cr);
}

/* A force beside the outline is tied to it by a line of dashes, one at its edge is not. */
static void
test_tied (void)
{
  static const RenderPlanePoint outline[] = { { 0, 0 }, { 10, 0 }, { 10, 4 }, { 0, 4 } };
  guint between[2];
  for (guint is_beside = 0; is_beside < 2; is_beside++)
    {
      RenderForce forces[] = { { { is_beside ? 13 : 10, 2 }, 100, "" } };
      RenderForceFigure figure
          = { .outline = outline, .n_outline = 4, .forces = forces, .n_forces = 1 };
      cairo_t *cr = paper_new (300, 200);
      render_force_figure_draw (cr, &figure, (RenderSize){ 300, 200 });
      /* Between the edge, at 223 px or 285 px, and the border, but for the arrow at 285 px. */
      between[is_beside]
          = ink (cairo_get_target (cr), is_beside ? 230 : 291, 0, is_beside ? 279 : 300, 200);
      cairo_destroy (cr);
    }
  g_assert_cmpuint (between[0], ==, 0);
  g_assert_cmpuint (between[1], >, 5);
}

/* A beam as it hangs: its right end is lower, or higher, as its angle says. */
static void
test_tilted_beam (void)
{
  const RenderLeg legs[] = { { 50.6 * G_PI / 180, FALSE, -1, TRUE, "", "" },
                             { 69.4 * G_PI / 180, TRUE, -1, TRUE, "", "" } };
  int tops[2][2];
  for (guint tilts = 0; tilts < 2; tilts++)
    {
      const RenderHookSketch hook
          = { "", "", FALSE, legs, 2, "", tilts ? -10 * G_PI / 180 : 10 * G_PI / 180 };
      const RenderRiggingFigure figure = { .hooks = &hook, .n_hooks = 1 };
      cairo_t *cr = paper_new (400, 300);
      render_rigging_figure_draw (cr, &figure, (RenderSize){ 400, 300 });
      /* The lowest ink at each side of the middle is that end of the beam. */
      for (int side = 0; side < 2; side++)
        {
          int y = 299;
          while (y > 0
                 && ink (cairo_get_target (cr), side ? 210 : 0, y, side ? 400 : 190, y + 1) == 0)
            y--;
          tops[tilts][side] = y;
        }
      cairo_destroy (cr);
    }
  g_assert_cmpint (tops[0][0] - tops[0][1], >, 5);
  g_assert_cmpint (tops[1][1] - tops[1][0], >, 5);
}

/* A tail hook holds a part beside the outline, and names stand at both ends of the arrows: nothing
 * comes to the border of the picture, and the arrow beside the load is whole. The same upright. */
static void
test_fits (void)
{
  static const RenderPlanePoint lying[] = { { 0, 0 }, { 20, 0 }, { 20, 2 }, { 0, 2 } },
                                upright[] = { { 0, 0 }, { 2, 0 }, { 2, 20 }, { 0, 20 } };
  RenderForce of_lying[] = { { { 10, 1 }, -600e3, "Weight: 600 kN" },
                             { { 19, 1 }, 300e3, "Main hook: 300 kN" },
                             { { -4, 1 }, 300e3, "Tail hook: 300 kN" } },
              of_upright[] = { { { 1, 1 }, -600e3, "Weight: 600 kN" },
                               { { 1, 20 }, 600e3, "Main hook: 600 kN" } };
  for (int k = 0; k < 2; k++)
    {
      RenderForceFigure figure = { .outline = k == 0 ? lying : upright,
                                   .n_outline = 4,
                                   .forces = k == 0 ? of_lying : of_upright,
                                   .n_forces = k == 0 ? 3 : 2 };
      cairo_t *cr = paper_new (260, 150);
      render_force_figure_draw (cr, &figure, (RenderSize){ 260, 150 });
      cairo_surface_t *surface = cairo_get_target (cr);
      g_assert_cmpuint (ink (surface, 0, 0, 260, 3), ==, 0);
      g_assert_cmpuint (ink (surface, 0, 147, 260, 150), ==, 0);
      g_assert_cmpuint (ink (surface, 0, 0, 2, 150), ==, 0);
      g_assert_cmpuint (ink (surface, 258, 0, 260, 150), ==, 0);
      /* Half as long as that of the weight, which takes a good third of what is between names. */
      int rows = 0;
      for (int y = 0; k == 0 && y < 150; y++)
        rows += ink (surface, 14, y, 17, y + 1) > 0;
      g_assert_true (k == 1 || rows >= 18);
      cairo_destroy (cr);
    }
}

/* A short arrow on top of a load: its name stands higher than it, and covers nothing of the load.
 */
static void
test_name_off_load (void)
{
  static const RenderPlanePoint outline[] = { { 0, 0 }, { 20, 0 }, { 20, 8 }, { 0, 8 } };
  cairo_t *pictures[2];
  for (guint k = 0; k < 2; k++)
    {
      RenderForce forces[] = { { { 10, 4 }, -600e3, "" },
                               { { 4, 8 }, 570e3, "" },
                               { { 12, 8 }, 30e3, k == 0 ? "" : "Haken am Fuß: 30 kN" } };
      RenderForceFigure figure
          = { .outline = outline, .n_outline = 4, .forces = forces, .n_forces = 3 };
      pictures[k] = paper_new (300, 200);
      render_force_figure_draw (pictures[k], &figure, (RenderSize){ 300, 200 });
    }
  cairo_surface_t *bare = cairo_get_target (pictures[0]), *named = cairo_get_target (pictures[1]);
  const int stride = cairo_image_surface_get_stride (bare);
  const guchar *a = cairo_image_surface_get_data (bare), *b = cairo_image_surface_get_data (named);
  guint n_other = 0;
  /* The load is what is not as white as paper, in the picture without the name. */
  for (int i = 0; i < 200 * stride; i++)
    n_other += a[i] < 240 && a[i] != b[i];
  g_assert_cmpuint (n_other, ==, 0);
  g_assert_cmpuint (ink (named, 0, 0, 300, 200), >, ink (bare, 0, 0, 300, 200) + 50);
  cairo_destroy (pictures[0]);
  cairo_destroy (pictures[1]);
}

/* How much of what is dark without names is lost under them; @more: how much ink they have. */
static guint
lost_under_names (const RenderPlanePoint outline[4], const RenderForce named[3], guint *more)
{
  cairo_t *pictures[2];
  for (guint with = 0; with < 2; with++)
    {
      RenderForce forces[3];
      for (guint i = 0; i < 3; i++)
        {
          forces[i] = named[i];
          if (!with)
            forces[i].text = "";
        }
      RenderForceFigure figure
          = { .outline = outline, .n_outline = 4, .forces = forces, .n_forces = 3 };
      pictures[with] = paper_new (290, 184);
      render_force_figure_draw (pictures[with], &figure, (RenderSize){ 290, 184 });
    }
  cairo_surface_t *bare = cairo_get_target (pictures[0]),
                  *named_too = cairo_get_target (pictures[1]);
  *more = ink (named_too, 0, 0, 290, 184) - ink (bare, 0, 0, 290, 184);
  const int stride = cairo_image_surface_get_stride (bare);
  const guchar *a = cairo_image_surface_get_data (bare),
               *b = cairo_image_surface_get_data (named_too);
  guint n_lost = 0;
  for (int i = 0; i < 184 * stride; i++)
    n_lost += a[i] < 90 && b[i] > 110;
  cairo_destroy (pictures[0]);
  cairo_destroy (pictures[1]);
  return n_lost;
}

/* The load hangs upright, so that all forces act in one line, or leans; its tail is held anywhere
 * beside it: no name stands on a mark of where a force acts, nor on an arrow. */
static void
test_names_off_marks (void)
{
  static const RenderPlanePoint upright[] = { { 0, 0 }, { 2, 0 }, { 2, 9 }, { 0, 9 } },
                                leaning[] = { { 0, 1 }, { 1, 0 }, { 10, 9 }, { 9, 10 } };
  guint more;
  for (double y = -3; y < 8; y += 0.2)
    for (double x = -0.5; x < 4; x += 1.3)
      {
        const RenderForce forces[] = { { { 1, 4.5 }, -643e3, "Weight: 642.6 kN" },
                                       { { 1, 9 }, 620e3, "Main hook: 620 kN" },
                                       { { x, y }, 23e3, "Tail support: 23 kN" } };
        g_assert_cmpuint (lost_under_names (upright, forces, &more), ==, 0);
        g_assert_cmpuint (more, >, 300);
      }
  const RenderForce forces[] = { { { 5, 5 }, -643e3, "Weight: 642.6 kN" },
                                 { { 9.5, 9.5 }, 345e3, "Main hook: 345 kN" },
                                 { { 0, 1 }, 298e3, "Tail support: 298 kN" } };
  g_assert_cmpuint (lost_under_names (leaning, forces, &more), ==, 0);
  g_assert_cmpuint (more, >, 300);
}

/* Legs at 45° end as far beside the hook as below it; a steep one does not. */
static void
test_angles (void)
{
  RenderLeg legs[]
      = { { G_PI / 4, FALSE, -1, FALSE, "", "" }, { G_PI / 2, TRUE, -1, FALSE, "", "" } };
  RenderHookSketch hook = { .hook = "", .has_block = TRUE, .legs = legs, .n_legs = 2 };
  RenderRiggingFigure figure = { .hooks = &hook, .n_hooks = 1 };
  cairo_t *cr = paper_new (400, 150);
  render_rigging_figure_draw (cr, &figure, (RenderSize){ 400, 150 });
  cairo_surface_t *surface = cairo_get_target (cr);
  /* On its way down, 76 px below the top: 34 px to the left of the middle. */
  g_assert_cmpuint (ink (surface, 158, 74, 174, 78), >, 0);
  g_assert_cmpuint (ink (surface, 210, 40, 400, 150), ==, 0);
  g_assert_cmpuint (ink (surface, 197, 100, 203, 110), >, 0);
  cairo_destroy (cr);
}

/* The name of a hook stands above it and covers none of it, in a picture that is not wide. */
static void
test_hook_name (void)
{
  guint of_hook[2], of_name[2];
  for (int k = 0; k < 2; k++)
    {
      RenderLeg leg = { G_PI / 2, TRUE, -1, FALSE, "", "" };
      RenderHookSketch hook = {
        .hook = k == 0 ? "" : "Tail hook of crane", .has_block = TRUE, .legs = &leg, .n_legs = 1
      };
      RenderRiggingFigure figure = { .hooks = &hook, .n_hooks = 1 };
      cairo_t *cr = paper_new (130, 180);
      render_rigging_figure_draw (cr, &figure, (RenderSize){ 130, 180 });
      of_name[k] = ink (cairo_get_target (cr), 0, 0, 130, 16);
      of_hook[k] = ink (cairo_get_target (cr), 0, 16, 130, 180);
      cairo_destroy (cr);
    }
  g_assert_cmpuint (of_name[1], >, of_name[0] + 50);
  g_assert_cmpuint (of_hook[1], ==, of_hook[0]);
}

/* How much ink the texts of legs add to a sketch of @n_legs with a beam, in as little room as
 * beside another hook. */
static guint
ink_of_names (const char *name, const char *text, gboolean has_beam, guint n_legs)
{
  guint n[2];
  for (guint with = 0; with < 2; with++)
    {
      RenderLeg legs[4];
      for (guint i = 0; i < n_legs; i++)
        legs[i] = (RenderLeg){ 0.88, i % 2 == 1, -1, has_beam, with ? name : "", with ? text : "" };
      RenderHookSketch hook = {
        .hook = "", .beam = has_beam ? "" : NULL, .has_block = TRUE, .legs = legs, .n_legs = n_legs
      };
      RenderRiggingFigure figure = { .hooks = &hook, .n_hooks = 1 };
      cairo_t *cr = paper_new (133, 184);
      render_rigging_figure_draw (cr, &figure, (RenderSize){ 133, 184 });
      n[with] = ink (cairo_get_target (cr), 0, 0, 133, 184);
      cairo_destroy (cr);
    }
  return n[1] - n[0];
}

/* Names of two legs and of four cover neither each other nor their legs: all of their ink
 * is there. A name that is much too long is cut, and the numbers behind it are not. */
static void
test_leg_names (void)
{
  const guint one = ink_of_names ("top-a", "50.1°", FALSE, 1),
              numbers = ink_of_names ("", "50.1°", FALSE, 1);
  g_assert_cmpuint (numbers, >, 20);
  g_assert_cmpuint (one, >, numbers + 20);
  g_assert_cmpuint (ink_of_names ("top-a", "50.1°", TRUE, 2), >=, (guint)(1.9 * one));
  g_assert_cmpuint (ink_of_names ("top-a", "50.1°", FALSE, 4), >=, (guint)(3.6 * one));
  /* Two pairs along each other have less room, and what they do have is theirs alone. */
  g_assert_cmpint ((int)ink_of_names ("top-a", "50.1°", TRUE, 4), >=, (int)(2 * one));
  const guint cut = ink_of_names ("a-sling-with-a-name-of-sixty-characters-that-has-no-room-here1",
                                  "50.1°", FALSE, 1);
  g_assert_cmpuint (cut, >, numbers + 20);
}

/* An angle that is not known is drawn dashed, so that nothing is read off it. */
static void
test_no_angle (void)
{
  guint n[2];
  for (guint k = 0; k < 2; k++)
    {
      RenderLeg leg = { k == 0 ? 80 * G_PI / 180 : NAN, TRUE, -1, FALSE, "", "" };
      RenderHookSketch hook = { .hook = "", .legs = &leg, .n_legs = 1 };
      RenderRiggingFigure figure = { .hooks = &hook, .n_hooks = 1 };
      cairo_t *cr = paper_new (133, 184);
      render_rigging_figure_draw (cr, &figure, (RenderSize){ 133, 184 });
      n[k] = ink (cairo_get_target (cr), 0, 50, 133, 160);
      cairo_destroy (cr);
    }
  g_assert_cmpuint (n[1], >, n[0] / 4);
  g_assert_cmpuint (n[1], <, 3 * n[0] / 4);
}

/* More legs than fit, a beam, angles that are not known: it is drawn, and nothing goes beyond: not
 * over the border of the picture, nor into that of the hook beside it. */
static void
test_crowded (void)
{
  RenderLeg legs[12];
  for (guint i = 0; i < G_N_ELEMENTS (legs); i++)
    legs[i] = (RenderLeg){
      i % 3 == 0 ? NAN : 0.3 + 0.1 * i, i % 2 == 0,      (int)(i % 3) - 1, i % 3 == 0 && i < 4,
      "sling with a long name",         "12.3° 123.4 kN"
    };
  RenderHookSketch hooks[2];
  for (guint i = 0; i < 2; i++)
    hooks[i] = (RenderHookSketch){ "Main hook", "Beam spreader", TRUE, legs, 12, "spreader", 0 };
  RenderRiggingFigure figure = { .hooks = hooks, .n_hooks = 2, .dark = FALSE };
  cairo_t *cr = paper_new (120, 80);
  render_rigging_figure_draw (cr, &figure, (RenderSize){ 120, 80 });
  g_assert_cmpint (cairo_status (cr), ==, CAIRO_STATUS_SUCCESS);
  cairo_surface_t *surface = cairo_get_target (cr);
  g_assert_cmpuint (ink (surface, 0, 0, 120, 80), >, 0);
  g_assert_cmpuint (ink (surface, 0, 0, 1, 80), ==, 0);
  g_assert_cmpuint (ink (surface, 59, 0, 61, 80), ==, 0);
  g_assert_cmpuint (ink (surface, 119, 0, 120, 80), ==, 0);
  g_assert_cmpuint (ink (surface, 0, 79, 120, 80), ==, 0);
  cairo_destroy (cr);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/render/force-figure/hull", test_hull);
  g_test_add_func ("/render/force-figure/to-scale", test_to_scale);
  g_test_add_func ("/render/force-figure/short-arrow", test_short_arrow);
  g_test_add_func ("/render/force-figure/fits", test_fits);
  g_test_add_func ("/render/force-figure/name-off-load", test_name_off_load);
  g_test_add_func ("/render/force-figure/names-off-marks", test_names_off_marks);
  g_test_add_func ("/render/force-figure/angles", test_angles);
  g_test_add_func ("/render/force-figure/leg-names", test_leg_names);
  g_test_add_func ("/render/force-figure/no-angle", test_no_angle);
  g_test_add_func ("/render/force-figure/hook-name", test_hook_name);
  g_test_add_func ("/render/force-figure/crowded", test_crowded);
  g_test_add_func ("/render/force-figure/tied", test_tied);
  g_test_add_func ("/render/force-figure/tilted-beam", test_tilted_beam);
  return g_test_run ();
}
