/* test-strip-plot.c: the clearance strip and the bars: scale and places by closed form, what is
 * under the pointer, names that never cover each other, and pixels where it falls short. */
#include <math.h>
#include <string.h>

#include "bar-plot.h"
#include "plot-text.h"
#include "strip-plot.h"

#define MOST_LINES 8
#define N_TIMES 101

static const double ticks_m[] = { 0, 0.05, 0.2, 0.5, 1, 2, 5, 10, 20 };
static const char *const ticks[] = { "0", "0.05", "0.2", "0.5", "1", "2", "5", "10", "20 m" };

/* A strip of 100 s with columns of @n distances. */
typedef struct
{
  double times_s[N_TIMES];
  double distances_m[N_TIMES * MOST_LINES];
  RenderStripLine lines[MOST_LINES];
  RenderStripBound bounds[1];
  RenderStripMove moves[2];
  RenderStripSeat seats[1];
  RenderStrip strip;
} Case;

static void
case_make (Case *c, guint n)
{
  *c = (Case){ 0 };
  for (guint i = 0; i < N_TIMES; i++)
    c->times_s[i] = i;
  for (guint l = 0; l < n; l++)
    c->lines[l] = (RenderStripLine){ .name = "Workshop with its canopy",
                                     .required_text = "to be kept 0.5 m",
                                     .distances_m = c->distances_m + l,
                                     .stride = n,
                                     .required_m = 0.5,
                                     .state = RENDER_STATE_CLEAR,
                                     .matters = TRUE };
  c->moves[0] = (RenderStripMove){ 0, 40, "1 hoist", FALSE };
  c->moves[1] = (RenderStripMove){ 40, 100, "2 hold", TRUE };
  c->strip = (RenderStrip){ .duration_s = 100,
                            .times_s = c->times_s,
                            .n_times = N_TIMES,
                            .lines = c->lines,
                            .n_lines = n,
                            .moves = c->moves,
                            .n_moves = 2,
                            .seated_text = "seated",
                            .ticks_m = ticks_m,
                            .ticks = ticks,
                            .n_ticks = G_N_ELEMENTS (ticks),
                            .accent = { 0.2, 0.5, 0.9, 1 } };
}

static void
fill (Case *c, guint line, double distance_m)
{
  for (guint i = 0; i < N_TIMES; i++)
    c->distances_m[i * c->lines[0].stride + line] = distance_m;
}

/* log (1 + 40 d): 0 at 0, log 2 at 25 mm, log 801 at 20 m; 5 mm is a fortieth of the height of
 * 20 m, where a linear scale would give it a four-thousandth. */
static void
test_scale (void)
{
  g_assert_cmpfloat (render_strip_scale (0), ==, 0);
  g_assert_cmpfloat (render_strip_scale (-1), ==, 0);
  g_assert_cmpfloat_with_epsilon (render_strip_scale (0.025), log (2), 1e-15);
  g_assert_cmpfloat_with_epsilon (render_strip_scale (20), log (801), 1e-14);
  g_assert_cmpfloat (render_strip_scale (0.005) / render_strip_scale (20), >, 1.0 / 40);
}

/* Times and distances go to the strip and back; beyond its borders they are held. */
static void
test_layout (void)
{
  Case c;
  case_make (&c, 1);
  RenderStripLayout layout = render_strip_layout (&c.strip, (RenderSize){ 800, 200 });
  const RenderRect *plot = &layout.plot;
  g_assert_cmpfloat (render_strip_x (&layout, 0), ==, plot->x);
  g_assert_cmpfloat (render_strip_x (&layout, 100), ==, plot->x + plot->width);
  g_assert_cmpfloat (render_strip_y (&layout, 0), ==, plot->y + plot->height);
  g_assert_cmpfloat (render_strip_y (&layout, 20), ==, plot->y);
  g_assert_cmpfloat (render_strip_y (&layout, 500), ==, plot->y);
  g_assert_cmpfloat (render_strip_time (&layout, -50), ==, 0);
  g_assert_cmpfloat (render_strip_time (&layout, 5000), ==, 100);
  for (double d = 0.001; d < 20; d *= 1.7)
    g_assert_cmpfloat_with_epsilon (render_strip_distance (&layout, render_strip_y (&layout, d)), d,
                                    1e-9);
  for (double t = 0; t <= 100; t += 7)
    g_assert_cmpfloat_with_epsilon (render_strip_time (&layout, render_strip_x (&layout, t)), t,
                                    1e-9);
}

/* Between the samples 2 m at 10 s and 3 m at 11 s a line is at 2.25 m a quarter of the way; where
 * nothing is worked out yet there is no value. */
static void
test_between_samples (void)
{
  Case c;
  case_make (&c, 2);
  c.distances_m[10 * 2 + 1] = 2;
  c.distances_m[11 * 2 + 1] = 3;
  g_assert_cmpfloat (render_strip_line_at (&c.strip, 1, 10.25), ==, 2.25);
  g_assert_cmpfloat (render_strip_line_at (&c.strip, 1, 10), ==, 2);
  c.strip.n_times = 11;
  g_assert_true (isnan (render_strip_line_at (&c.strip, 1, 10.25)));
  c.strip.n_times = 0;
  g_assert_true (isnan (render_strip_line_at (&c.strip, 1, 0)));
}

/* Lines at 1 m and 10 m: the pointer on one finds it, far from both none; a grey line gives way to
 * one that matters close beside it. */
static void
test_hit (void)
{
  Case c;
  case_make (&c, 3);
  fill (&c, 0, 1);
  fill (&c, 1, 10);
  fill (&c, 2, 10.2);
  c.lines[1].matters = FALSE;
  RenderStripLayout layout = render_strip_layout (&c.strip, (RenderSize){ 800, 200 });
  double x = render_strip_x (&layout, 50);
  g_assert_cmpint (render_strip_hit (&c.strip, &layout, x, render_strip_y (&layout, 1)), ==, 0);
  g_assert_cmpint (render_strip_hit (&c.strip, &layout, x, render_strip_y (&layout, 10)), ==, 2);
  g_assert_cmpint (render_strip_hit (&c.strip, &layout, x, render_strip_y (&layout, 0.1)), ==, -1);
}

/* Random lines, some of them nearly the same: no two labels that are placed overlap, each lies in
 * the plot, and the first always finds room. */
static void
test_labels (void)
{
  for (guint k = 0; k < 60; k++)
    {
      Case c;
      guint n = (guint)g_test_rand_int_range (1, MOST_LINES + 1);
      case_make (&c, n);
      for (guint l = 0; l < n; l++)
        {
          double a = g_test_rand_double_range (0, 12), b = g_test_rand_double_range (0, 6);
          double phase = g_test_rand_double_range (0, 6);
          for (guint i = 0; i < N_TIMES; i++)
            c.distances_m[i * n + l] = fabs (a + b * sin (phase + i * 0.06));
        }
      RenderStripLayout layout = render_strip_layout (&c.strip, (RenderSize){ 700, 190 });
      RenderStripLabel labels[2 * MOST_LINES];
      for (guint l = 0; l < 2 * n; l++)
        labels[l] = (RenderStripLabel){
          .line = l / 2, .required = l % 2 == 0, .width = 60 + 11 * (l % 5), .height = 14
        };
      render_strip_place (&c.strip, &layout, labels, 2 * n);
      g_assert_true (labels[0].placed);
      for (guint i = 0; i < 2 * n; i++)
        {
          if (!labels[i].placed)
            continue;
          g_assert_cmpfloat (labels[i].rect.x, >=, layout.plot.x);
          g_assert_cmpfloat (labels[i].rect.y, >=, layout.plot.y);
          g_assert_cmpfloat (labels[i].rect.x + labels[i].rect.width, <=,
                             layout.plot.x + layout.plot.width);
          g_assert_cmpfloat (labels[i].rect.y + labels[i].rect.height, <=,
                             layout.plot.y + layout.plot.height);
          for (guint j = 0; j < i; j++)
            g_assert_false (labels[j].placed
                            && render_rects_overlap (&labels[i].rect, &labels[j].rect));
        }
    }
}

/* The word of a seat has its place at the foot, just where what is to be kept would like to stand
 * below its line: that stands elsewhere. Without the word it stands there. */
static void
test_labels_off_seats (void)
{
  Case c;
  case_make (&c, 1);
  fill (&c, 0, 0.2);
  c.lines[0].required_m = 0.02;
  RenderStripLayout layout = render_strip_layout (&c.strip, (RenderSize){ 700, 190 });
  double foot = layout.plot.y + layout.plot.height;
  for (guint fixed = 0; fixed < 2; fixed++)
    {
      RenderStripLabel labels[] = {
        { .required = TRUE,
          .is_fixed = fixed,
          .width = 40,
          .height = 14,
          .rect = { layout.plot.x + 4, foot - 40, 40, 40 } },
        { .required = TRUE, .width = 90, .height = 14 },
      };
      render_strip_place (&c.strip, &layout, labels + 1 - fixed, 1 + fixed);
      g_assert_true (labels[1].placed);
      g_assert_true (render_rects_overlap (&labels[0].rect, &labels[1].rect) != (gboolean)fixed);
      g_assert_cmpfloat (labels[0].rect.y, ==, foot - 40);
    }
}

/* A line that is looked at falls short in a dip below two others, whose long names would like to
 * stand just there: no name lies over the dip, nor over the line at all. */
static void
test_labels_keep_off (void)
{
  Case c;
  case_make (&c, 3);
  for (guint i = 0; i < N_TIMES; i++)
    {
      double near = exp (-pow (((double)i - 50) / 6, 2));
      c.distances_m[i * 3] = 4 - 3.8 * near;
      c.distances_m[i * 3 + 1] = 1.2 - 0.3 * near;
      c.distances_m[i * 3 + 2] = 1.6 - 0.3 * near;
    }
  c.lines[0].focus = TRUE;
  c.lines[0].state = RENDER_STATE_SHORT;
  RenderStripLayout layout = render_strip_layout (&c.strip, (RenderSize){ 560, 150 });
  RenderStripLabel labels[6];
  for (guint l = 0; l < 6; l++)
    labels[l]
        = (RenderStripLabel){ .line = l / 2, .required = l % 2 == 0, .width = 140, .height = 14 };
  render_strip_place (&c.strip, &layout, labels, 6);
  for (guint l = 0; l < 6; l++)
    for (guint i = 0; labels[l].placed && i < N_TIMES; i++)
      {
        double x = render_strip_x (&layout, c.times_s[i]);
        double y = render_strip_y (&layout, c.distances_m[i * 3]);
        const RenderRect *r = &labels[l].rect;
        g_assert_false (x > r->x && x < r->x + r->width && y > r->y && y < r->y + r->height);
      }
  g_assert_true (labels[1].placed);
}

/* Five lines that fall short lie 12 px above each other, where a name is 14 px high: beside the
 * three in the middle there is no room, and their names stand farther away, each with a leader that
 * ends on its own line. */
static void
test_leaders (void)
{
  Case c;
  case_make (&c, 5);
  RenderStripLayout layout = render_strip_layout (&c.strip, (RenderSize){ 560, 300 });
  RenderStripLabel labels[5];
  for (guint l = 0; l < 5; l++)
    {
      fill (&c, l, render_strip_distance (&layout, layout.plot.y + 100 + 12 * l));
      c.lines[l].required_m = 20;
      c.lines[l].state = RENDER_STATE_SHORT;
      labels[l] = (RenderStripLabel){ .line = l, .width = 140, .height = 14 };
    }
  render_strip_place (&c.strip, &layout, labels, 5);
  for (guint l = 0; l < 5; l++)
    {
      g_assert_true (labels[l].placed);
      g_assert_cmpint (labels[l].has_leader, ==, l > 0 && l < 4);
      for (guint k = 0; k < l; k++)
        g_assert_false (render_rects_overlap (&labels[l].rect, &labels[k].rect));
      if (!labels[l].has_leader)
        continue;
      g_assert_cmpfloat_with_epsilon (labels[l].on_y, layout.plot.y + 100 + 12 * l, 1e-6);
      g_assert_cmpfloat (labels[l].on_x, >=, labels[l].rect.x);
      g_assert_cmpfloat (labels[l].on_x, <=, labels[l].rect.x + labels[l].rect.width);
    }
}

/* ---- pixels ---- */

static cairo_surface_t *
picture (const Case *c, int width, int height)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, width, height);
  cairo_t *cr = cairo_create (surface);
  RenderColour paper = render_paper_colour (c->strip.dark);
  cairo_set_source_rgb (cr, paper.r, paper.g, paper.b);
  cairo_paint (cr);
  render_strip_draw (cr, &c->strip, (RenderSize){ width, height });
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  return surface;
}

/* How many pixels of a rectangle are much more red than blue: the colour of what falls short. */
static guint
orange_pixels (cairo_surface_t *surface, double x0, double y0, double x1, double y1)
{
  const guchar *data = cairo_image_surface_get_data (surface);
  int stride = cairo_image_surface_get_stride (surface);
  guint n = 0;
  for (int y = (int)y0; y < (int)y1; y++)
    for (int x = (int)x0; x < (int)x1; x++)
      {
        const guchar *p
            = data + y * stride + x * 4; /* blue, green, red on a small-endian machine */
        n += p[2] > p[0] + 80;
      }
  return n;
}

/* 0.1 m from 30 s to 60 s where 0.5 m are to be kept: hatched there and nowhere else. When the load
 * rests there meanwhile, nothing is hatched. In dark style alike. */
static void
test_shortfall (void)
{
  for (guint dark = 0; dark < 2; dark++)
    {
      Case c;
      case_make (&c, 1);
      fill (&c, 0, 3);
      for (guint i = 30; i <= 60; i++)
        c.distances_m[i] = 0.1;
      c.strip.dark = (gboolean)dark;
      /* Its own line is not orange then. */
      c.lines[0].state = RENDER_STATE_NOT_CHECKED;
      c.lines[0].is_judged = TRUE;
      RenderStripLayout layout = render_strip_layout (&c.strip, (RenderSize){ 800, 220 });
      double top = render_strip_y (&layout, 0.45), foot = render_strip_y (&layout, 0.12);
      double x0 = render_strip_x (&layout, 32), x1 = render_strip_x (&layout, 58);
      g_autoptr (GArray) seen = g_array_new (FALSE, FALSE, sizeof (guint));
      for (guint seated = 0; seated < 2; seated++)
        {
          c.seats[0] = (RenderStripSeat){ 0, 29, 61 };
          c.strip.seats = c.seats;
          c.strip.n_seats = seated;
          cairo_surface_t *surface = picture (&c, 800, 220);
          guint inside = orange_pixels (surface, x0, top, x1, foot);
          guint beside
              = orange_pixels (surface, layout.plot.x, top, render_strip_x (&layout, 28), foot);
          g_assert_cmpuint (beside, ==, 0);
          g_array_append_val (seen, inside);
          cairo_surface_destroy (surface);
        }
      g_assert_cmpuint (g_array_index (seen, guint, 0), >, (guint)((x1 - x0) * (foot - top) / 8));
      g_assert_cmpuint (g_array_index (seen, guint, 1), ==, 0);
      /* What is known to be met, as where it is connected, is never hatched, nor what is not
       * checked yet. */
      c.strip.n_seats = 0;
      for (guint i = 0; i < 2; i++)
        {
          c.lines[0].state = i == 0 ? RENDER_STATE_CLEAR : RENDER_STATE_NOT_CHECKED;
          c.lines[0].is_judged = i == 0;
          cairo_surface_t *plain = picture (&c, 800, 220);
          g_assert_cmpuint (orange_pixels (plain, x0, top, x1, foot), ==, 0);
          cairo_surface_destroy (plain);
        }
    }
}

/* From 30 s to 60 s the gear has no place, so that nothing is known there; it is short from 20 s
 * until then, at 45 s alone, and at the end. Nothing is hatched where nothing is known, but what is
 * short is, as far as half the way to what is not known, and so is what stands alone. Where it is
 * not judged, nothing is hatched at all. */
static void
test_no_place (void)
{
  static const struct
  {
    double from_s, to_s;
    gboolean is_hatched;
  } parts[] = { { 1, 19, FALSE },     { 21, 29, TRUE },  { 29.1, 29.4, TRUE }, { 31, 44.2, FALSE },
                { 44.6, 45.4, TRUE }, { 46, 59, FALSE }, { 62, 88.5, FALSE },  { 91, 99, TRUE } };
  Case c;
  case_make (&c, 1);
  fill (&c, 0, 3);
  for (guint i = 20; i < 30; i++)
    c.distances_m[i] = 0.1;
  for (guint i = 30; i <= 60; i++)
    c.distances_m[i] = i == 45 ? 0.1 : NAN;
  for (guint i = 90; i <= 100; i++)
    c.distances_m[i] = 0.1;
  const RenderSize size = { 1600, 220 };
  RenderStripLayout layout = render_strip_layout (&c.strip, size);
  const double top = render_strip_y (&layout, 0.45), foot = render_strip_y (&layout, 0.12);
  for (guint judged = 0; judged < 2; judged++)
    {
      /* Its own line is not orange then. */
      c.lines[0].state = RENDER_STATE_NOT_CHECKED;
      c.lines[0].is_judged = (gboolean)judged;
      cairo_surface_t *surface = picture (&c, (int)size.width, (int)size.height);
      for (guint i = 0; i < G_N_ELEMENTS (parts); i++)
        {
          const guint n = orange_pixels (surface, render_strip_x (&layout, parts[i].from_s), top,
                                         render_strip_x (&layout, parts[i].to_s), foot);
          g_assert_true ((n > 0) == (judged && parts[i].is_hatched));
        }
      cairo_surface_destroy (surface);
    }
}

/* Half-way to samples that have no distance there is one still, farther none; and a name keeps to
 * where its line is. */
static void
test_beside_no_place (void)
{
  Case c;
  case_make (&c, 1);
  fill (&c, 0, NAN);
  c.distances_m[45] = 0.1;
  for (guint i = 60; i <= 100; i++)
    c.distances_m[i] = i == 80 ? 0.2 : 3;
  g_assert_cmpfloat (render_strip_line_at (&c.strip, 0, 45), ==, 0.1);
  g_assert_cmpfloat (render_strip_line_at (&c.strip, 0, 44.6), ==, 0.1);
  g_assert_true (isnan (render_strip_line_at (&c.strip, 0, 44.4)));
  g_assert_true (isnan (render_strip_line_at (&c.strip, 0, 45.6)));
  g_assert_cmpfloat (render_strip_line_at (&c.strip, 0, 60), ==, 3);
  g_assert_true (isnan (render_strip_line_at (&c.strip, 0, 59.4)));
  c.distances_m[45] = NAN;
  const RenderStripLayout layout = render_strip_layout (&c.strip, (RenderSize){ 800, 220 });
  RenderStripLabel label = { .width = 60, .height = 14 };
  render_strip_place (&c.strip, &layout, &label, 1);
  g_assert_true (label.placed);
  g_assert_cmpfloat (label.rect.x + 30, >, render_strip_x (&layout, 68));
}

/* How many pixels in the middle of the plot, between those times, are as dark as letters. */
static guint
dark_pixels (cairo_surface_t *surface, const RenderStripLayout *layout, double from_s, double to_s)
{
  const guchar *data = cairo_image_surface_get_data (surface);
  const int stride = cairo_image_surface_get_stride (surface);
  const int middle = (int)(layout->plot.y + layout->plot.height / 2);
  guint n = 0;
  for (int y = middle - 8; y < middle + 8; y++)
    for (int x = (int)render_strip_x (layout, from_s) + 2; x < (int)render_strip_x (layout, to_s);
         x++)
      n += data[y * stride + 4 * x] < 130;
  return n;
}

/* Three lines of which nothing is known: what is drawn of that is no darker than of one, so that
 * the word can be read, which stands where nothing is known of any. */
static void
test_not_known (void)
{
  Case c;
  case_make (&c, 3);
  for (guint l = 0; l < 3; l++)
    {
      fill (&c, l, NAN);
      c.lines[l].required_m = 15;
    }
  RenderStripBound bounds[3];
  for (guint l = 0; l < 3; l++)
    bounds[l] = (RenderStripBound){ l, 0, 100, 0, INFINITY, NAN, RENDER_STATE_NOT_CHECKED };
  const RenderStripUnknown unknown = { 40, 100 };
  c.strip.bounds = bounds;
  c.strip.unknown_text = "Not known";
  const RenderStripLayout layout = render_strip_layout (&c.strip, (RenderSize){ 800, 220 });
  guchar shades[2];
  for (guint i = 0; i < 2; i++)
    {
      c.strip.n_bounds = i == 0 ? 1 : 3;
      c.strip.unknown = &unknown;
      c.strip.n_unknown = i;
      cairo_surface_t *surface = picture (&c, 800, 220);
      const int x = (int)render_strip_x (&layout, 20), y = (int)render_strip_y (&layout, 0.3);
      shades[i] = cairo_image_surface_get_data (
          surface)[y * cairo_image_surface_get_stride (surface) + 4 * x];
      g_assert_cmpuint (dark_pixels (surface, &layout, 0, 40), ==, 0);
      if (i == 0)
        g_assert_cmpuint (dark_pixels (surface, &layout, 40, 100), ==, 0);
      else
        g_assert_cmpuint (dark_pixels (surface, &layout, 40, 100), >, 30);
      cairo_surface_destroy (surface);
    }
  g_assert_cmpuint (shades[0], ==, shades[1]);
  g_assert_cmpuint (shades[0], >, 200);
  g_assert_cmpuint (shades[0], <, 250);
}

/* A line that goes through a label ends at its background, and no letter is struck through: the
 * first and the last column of it have none of the black that was there. */
static void
test_background (void)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, 200, 40);
  cairo_t *cr = cairo_create (surface);
  cairo_paint (cr);
  RenderColour ink = render_ink_colour (FALSE), paper = render_paper_colour (FALSE);
  g_autoptr (PangoLayout) text = render_plot_text (cr, "to be kept", NULL, 11, FALSE);
  double width, height;
  render_plot_text_size (text, &width, &height);
  render_plot_text_draw (cr, text, 20, 10, ink, &paper);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  const guchar *data = cairo_image_surface_get_data (surface);
  int stride = cairo_image_surface_get_stride (surface);
  const int columns[] = { 19, 20 + (int)width };
  for (guint i = 0; i < G_N_ELEMENTS (columns); i++)
    for (int y = 10; y < 10 + (int)height; y++)
      g_assert_cmpint (data[y * stride + 4 * columns[i]], >, 180);
  cairo_surface_destroy (surface);
}

/* A name that is too long is cut before its part, by which names are told apart: what is cut
 * changes nothing; its beginning does, and so does the part. */
static void
test_long_names (void)
{
  const char *const names[]
      = { "Discharge pipe with an opening for the nozzle of the pump, north",
          "Discharge pipe with an intakes for the nozzle of the pump, north",
          "Discharge main with an opening for the nozzle of the pump, north",
          "Discharge pipe with an opening for the nozzle of the pump, south" };
  cairo_surface_t *pictures[G_N_ELEMENTS (names)];
  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      Case c;
      case_make (&c, 1);
      fill (&c, 0, 3);
      c.lines[0].name = names[i];
      pictures[i] = picture (&c, 500, 220);
    }
  gsize bytes = (gsize)cairo_image_surface_get_stride (pictures[0]) * 220;
  const guchar *north = cairo_image_surface_get_data (pictures[0]);
  g_assert_cmpint (memcmp (north, cairo_image_surface_get_data (pictures[1]), bytes), ==, 0);
  g_assert_cmpint (memcmp (north, cairo_image_surface_get_data (pictures[2]), bytes), !=, 0);
  g_assert_cmpint (memcmp (north, cairo_image_surface_get_data (pictures[3]), bytes), !=, 0);
  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    cairo_surface_destroy (pictures[i]);
}

/* A band that is certified to nothing narrower than [0.2, 5] m is drawn as high as that. */
static void
test_band (void)
{
  Case c;
  case_make (&c, 1);
  fill (&c, 0, 10);
  RenderStripLayout layout = render_strip_layout (&c.strip, (RenderSize){ 800, 220 });
  cairo_surface_t *without = picture (&c, 800, 220);
  c.bounds[0] = (RenderStripBound){ 0, 40, 100, 0.2, 5, NAN, RENDER_STATE_CLEAR };
  c.strip.bounds = c.bounds;
  c.strip.n_bounds = 1;
  cairo_surface_t *with = picture (&c, 800, 220);
  int stride = cairo_image_surface_get_stride (with);
  const double inside_m[] = { 0.3, 0.8, 1.5, 4 }, outside_m[] = { 0.1, 7 };
  const guchar *a = cairo_image_surface_get_data (without),
               *b = cairo_image_surface_get_data (with);
  int x = (int)render_strip_x (&layout, 72);
  for (guint i = 0; i < G_N_ELEMENTS (inside_m); i++)
    {
      int at = (int)render_strip_y (&layout, inside_m[i]) * stride + x * 4;
      g_assert_cmpint (a[at], !=, b[at]);
    }
  for (guint i = 0; i < G_N_ELEMENTS (outside_m); i++)
    {
      int at = (int)render_strip_y (&layout, outside_m[i]) * stride + x * 4;
      g_assert_cmpint (a[at], ==, b[at]);
    }
  cairo_surface_destroy (with);
  cairo_surface_destroy (without);
}

/* The tick is in one place whatever is to be kept; left of it even, right of it growing with the
 * margin, and never off the bar. */
static void
test_bar (void)
{
  const double required_m[] = { 0.02, 0.5, 3 };
  for (guint i = 0; i < G_N_ELEMENTS (required_m); i++)
    {
      double r = required_m[i];
      g_assert_cmpfloat_with_epsilon (render_bar_place (r, r), RENDER_BAR_TICK, 1e-12);
      g_assert_cmpfloat_with_epsilon (render_bar_place (r / 2, r), RENDER_BAR_TICK / 2, 1e-12);
      g_assert_cmpfloat (render_bar_place (0, r), ==, 0);
      g_assert_cmpfloat (render_bar_place (-1, r), ==, 0);
      g_assert_cmpfloat_with_epsilon (render_bar_place (r + 20, r), 1, 1e-12);
      g_assert_cmpfloat (render_bar_place (r + 1e6, r), ==, 1);
      /* The same margin is the same place for all. */
      g_assert_cmpfloat_with_epsilon (render_bar_place (r + 0.3, r), render_bar_place (0.3, 0),
                                      1e-12);
    }
  g_assert_cmpfloat (render_bar_place (0, 0), ==, RENDER_BAR_TICK);
  g_assert_cmpfloat (render_bar_place (-0.01, 0), ==, 0);
}

/* Quantities have bands below the clearances, each with a linear scale of its own, as wide as the
 * plot of the clearances, which keeps all its width; bands do not overlap and end inside the strip.
 * A value is where it belongs, and where there is none the line is broken: its pixels are where it
 * goes, and none are where it is broken. */
static void
test_bands (void)
{
  static const double metres[] = { 0, 10, 20 }, degrees[] = { 0, 90 };
  static const char *const texts[] = { "0", "10", "20 m" }, *const of_degrees[] = { "0°", "90°" };
  static const RenderStripBand bands[]
      = { { "Radius", metres, texts, 3, NULL }, { "Boom angle", degrees, of_degrees, 2, NULL } };
  double values[N_TIMES];
  for (guint i = 0; i < N_TIMES; i++)
    values[i] = i < 50 ? 15 : NAN;
  RenderStripGauge gauge = { "Crane", values, 1, 0, 0 };
  Case c;
  case_make (&c, 1);
  fill (&c, 0, 0.01);
  RenderSize size = { 800, RENDER_STRIP_LEAST_PX + 2 * RENDER_STRIP_BAND_PX };
  double plain = render_strip_layout (&c.strip, size).plot.width;
  c.strip.bands = bands;
  c.strip.n_bands = 2;
  RenderStripLayout layout = render_strip_layout (&c.strip, size);
  RenderRect first = render_strip_band_rect (&layout, 0);
  RenderRect second = render_strip_band_rect (&layout, 1);
  g_assert_cmpfloat (layout.plot.width, ==, plain);
  g_assert_cmpfloat (first.width, ==, plain);
  g_assert_cmpfloat (first.y, >, layout.plot.y + layout.plot.height);
  g_assert_cmpfloat (second.y, >, first.y + first.height);
  g_assert_cmpfloat (second.y + second.height, ==, layout.foot);
  g_assert_cmpfloat (layout.foot, <, size.height);
  g_assert_cmpfloat (first.height, >, 25);
  g_assert_cmpfloat (render_strip_band_y (&layout, &c.strip, 0, 0), ==, first.y + first.height);
  g_assert_cmpfloat (render_strip_band_y (&layout, &c.strip, 0, 20), ==, first.y);
  g_assert_cmpfloat (render_strip_band_y (&layout, &c.strip, 0, 99), ==, first.y);
  g_assert_cmpfloat (render_strip_band_y (&layout, &c.strip, 1, 45), ==,
                     second.y + second.height / 2);
  c.strip.gauges = &gauge;
  c.strip.n_gauges = 1;
  g_assert_cmpfloat (render_strip_gauge_at (&c.strip, 0, 20.5), ==, 15);
  g_assert_true (isnan (render_strip_gauge_at (&c.strip, 0, 70)));
  cairo_surface_t *surface
      = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, 800, (int)size.height);
  cairo_t *cr = cairo_create (surface);
  render_strip_draw_bands (cr, &c.strip, &layout);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  const guint8 *pixels = cairo_image_surface_get_data (surface);
  int stride = cairo_image_surface_get_stride (surface);
  int row = (int)render_strip_band_y (&layout, &c.strip, 0, 15);
  guint drawn[2] = { 0, 0 };
  for (guint t = 2; t < 98; t++)
    for (int dy = -1; dy <= 1; dy++)
      drawn[t < 50 ? 0 : 1]
          += pixels[(row + dy) * stride + 4 * (int)render_strip_x (&layout, t) + 3] > 0;
  g_assert_cmpuint (drawn[0], >, 30);
  g_assert_cmpuint (drawn[1], ==, 0);
  cairo_surface_destroy (surface);
}

/* 3 m, 1 m to be kept: short by what is taken off from 30 s to 60 s alone, where it is hatched up
 * to both together, 4.5 m; what is taken off is read there. */
static void
test_shortfall_by_allowance (void)
{
  Case c;
  double spares_m[N_TIMES];
  case_make (&c, 1);
  fill (&c, 0, 3);
  for (guint i = 0; i < N_TIMES; i++)
    spares_m[i] = i >= 30 && i <= 60 ? -1.5 : 2;
  c.lines[0].spares_m = spares_m;
  c.lines[0].required_m = 1;
  c.lines[0].state = RENDER_STATE_NOT_CHECKED;
  c.lines[0].is_judged = TRUE;
  g_assert_cmpfloat (render_strip_allowance_at (&c.strip, 0, 45), ==, 3.5);
  g_assert_cmpfloat (render_strip_allowance_at (&c.strip, 0, 10), ==, 0);
  RenderStripLayout layout = render_strip_layout (&c.strip, (RenderSize){ 800, 420 });
  const double top = render_strip_y (&layout, 4.4), foot = render_strip_y (&layout, 3.1);
  const double x0 = render_strip_x (&layout, 32), x1 = render_strip_x (&layout, 58);
  cairo_surface_t *surface = picture (&c, 800, 420);
  g_assert_cmpuint (orange_pixels (surface, x0, top, x1, foot), >,
                    (guint)((x1 - x0) * (foot - top) / 8));
  g_assert_cmpuint (orange_pixels (surface, layout.plot.x, top, render_strip_x (&layout, 28), foot),
                    ==, 0);
  cairo_surface_destroy (surface);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/render/strip/scale", test_scale);
  g_test_add_func ("/render/strip/layout", test_layout);
  g_test_add_func ("/render/strip/between-samples", test_between_samples);
  g_test_add_func ("/render/strip/hit", test_hit);
  g_test_add_func ("/render/strip/labels", test_labels);
  g_test_add_func ("/render/strip/labels-off-seats", test_labels_off_seats);
  g_test_add_func ("/render/strip/labels-keep-off", test_labels_keep_off);
  g_test_add_func ("/render/strip/leaders", test_leaders);
  g_test_add_func ("/render/strip/shortfall", test_shortfall);
  g_test_add_func ("/render/strip/shortfall-by-allowance", test_shortfall_by_allowance);
  g_test_add_func ("/render/strip/no-place", test_no_place);
  g_test_add_func ("/render/strip/beside-no-place", test_beside_no_place);
  g_test_add_func ("/render/strip/not-known", test_not_known);
  g_test_add_func ("/render/strip/background", test_background);
  g_test_add_func ("/render/strip/long-names", test_long_names);
  g_test_add_func ("/render/strip/band", test_band);
  g_test_add_func ("/render/bar/place", test_bar);
  g_test_add_func ("/render/strip/bands", test_bands);
  return g_test_run ();
}
