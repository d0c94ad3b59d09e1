/* test-plates.c: labels of many random views cover neither each other nor what is kept out.
 *
 * TRUNNION_TEST_SCALE multiplies the number of views. */

#include "plates.h"
#include "test-scale.h"

#define VIEWS 200
#define MOST_PLATES 12

typedef struct
{
  RenderSize size;
  RenderPlate plates[MOST_PLATES];
  guint n;
  RenderKeepOut keep_out;
} View;

/* A view from 700 × 500 up to 2000 × 1400 with the line between two closest points in it, marks at
 * its ends, a load beside it, a caption, and up to twelve labels, of which every third is quiet. */
static View
make_view (guint most)
{
  View v = { .size = { g_test_rand_int_range (700, 2000), g_test_rand_int_range (500, 1400) },
             .n = (guint)g_test_rand_int_range (1, (gint32)most + 1),
             .keep_out = render_keep_out_make () };
  double w = v.size.width, h = v.size.height;
  double x0 = g_test_rand_double_range (0, w), y0 = g_test_rand_double_range (0, h);
  double x1 = CLAMP (x0 + g_test_rand_double_range (-200, 200), 0, w);
  double y1 = CLAMP (y0 + g_test_rand_double_range (-200, 200), 0, h);
  render_keep_out_add_segment (&v.keep_out, x0, y0, x1, y1);
  render_keep_out_add_rect (&v.keep_out, x0 - 6, y0 - 6, 12, 12);
  render_keep_out_add_rect (&v.keep_out, x1 - 6, y1 - 6, 12, 12);
  render_keep_out_add_rect (&v.keep_out, 14, h - 44, 300, 30);
  double load[5][2];
  for (guint i = 0; i < 5; i++)
    {
      load[i][0] = x0 + g_test_rand_double_range (-150, 150);
      load[i][1] = y0 + g_test_rand_double_range (-150, 150);
    }
  render_keep_out_set_hull (&v.keep_out, load, 5);
  for (guint i = 0; i < v.n; i++)
    v.plates[i] = (RenderPlate){ .x = i == 0 ? (x0 + x1) / 2 : g_test_rand_double_range (0, w),
                                 .y = i == 0 ? (y0 + y1) / 2 : g_test_rand_double_range (0, h),
                                 .width = g_test_rand_int_range (30, 260),
                                 .height = g_test_rand_int_range (16, 40),
                                 .quiet = i % 3 == 2 };
  return v;
}

static gboolean
holds (const RenderRect *rect, double x, double y)
{
  return x > rect->x && x < rect->x + rect->width && y > rect->y && y < rect->y + rect->height;
}

static void
assert_plate (const View *v, guint i)
{
  const RenderPlate *plate = &v->plates[i];
  const RenderRect *rect = &plate->rect;
  g_assert_cmpfloat (rect->width, ==, plate->width);
  g_assert_cmpfloat (rect->height, ==, plate->height);
  g_assert_cmpfloat (rect->x, >=, 0);
  g_assert_cmpfloat (rect->y, >=, 0);
  g_assert_cmpfloat (rect->x + rect->width, <=, v->size.width);
  g_assert_cmpfloat (rect->y + rect->height, <=, v->size.height);
  for (guint k = 0; k < v->keep_out.rects->len; k++)
    g_assert_false (render_rects_overlap (rect, &g_array_index (v->keep_out.rects, RenderRect, k)));
  /* The line is looked at point by point, apart from the code that places. */
  const RenderSegment *s = &g_array_index (v->keep_out.segments, RenderSegment, 0);
  for (guint k = 0; k <= 500; k++)
    g_assert_false (
        holds (rect, s->x0 + (s->x1 - s->x0) * k / 500, s->y0 + (s->y1 - s->y0) * k / 500));
  for (guint k = 0; k < v->n; k++)
    {
      if (!v->plates[k].quiet || k == i)
        g_assert_false (holds (rect, v->plates[k].x, v->plates[k].y));
      if (k != i && v->plates[k].placed)
        g_assert_false (render_rects_overlap (rect, &v->plates[k].rect));
    }
}

static void
test_random (void)
{
  guint placed = 0, all = 0;
  for (guint i = 0; i < test_scaled (VIEWS); i++)
    {
      View v = make_view (MOST_PLATES);
      render_plates_place (v.plates, v.n, &v.keep_out, v.size);
      for (guint k = 0; k < v.n; k++)
        {
          all += !v.plates[k].quiet;
          placed += !v.plates[k].quiet && v.plates[k].placed;
          if (v.plates[k].placed)
            assert_plate (&v, k);
        }
      render_keep_out_clear (&v.keep_out);
    }
  /* Views of that size have room for all of them. */
  g_assert_cmpuint (placed, ==, all);
}

/* In the middle of a view with nothing but a line of closest points through it, at any angle, the
 * number at the gap is as near as it needs to be to clear line and point: 62 pixels are enough for
 * the widest plate. */
static void
test_first_is_near (void)
{
  for (guint i = 0; i < test_scaled (VIEWS); i++)
    {
      RenderKeepOut keep_out = render_keep_out_make ();
      double angle = g_test_rand_double_range (0, 2 * G_PI);
      double dx = 200 * cos (angle), dy = 200 * sin (angle);
      render_keep_out_add_segment (&keep_out, 600 - dx, 400 - dy, 600 + dx, 400 + dy);
      RenderPlate plate = { .x = 600,
                            .y = 400,
                            .width = g_test_rand_int_range (30, 260),
                            .height = g_test_rand_int_range (16, 40) };
      render_plates_place (&plate, 1, &keep_out, (RenderSize){ 1200, 800 });
      g_assert_true (plate.placed);
      double x, y;
      render_plate_leader_end (&plate, &x, &y);
      g_assert_cmpfloat (hypot (x - plate.x, y - plate.y), <=, 62);
      render_keep_out_clear (&keep_out);
    }
}

/* Where there is room beside the load, the plate stands there: the load is a square of 160 pixels
 * to the right of the point. */
static void
test_beside_the_load (void)
{
  RenderKeepOut keep_out = render_keep_out_make ();
  double load[][2] = { { 400, 220 }, { 560, 220 }, { 560, 380 }, { 400, 380 } };
  render_keep_out_set_hull (&keep_out, load, 4);
  RenderPlate plate = { .x = 398, .y = 300, .width = 140, .height = 28 };
  render_plates_place (&plate, 1, &keep_out, (RenderSize){ 800, 600 });
  g_assert_true (plate.placed);
  RenderRect box = { 400, 220, 160, 160 };
  g_assert_false (render_rects_overlap (&plate.rect, &box));
  render_keep_out_clear (&keep_out);
}

/* No room at all: not placed, rather than over something. The view is smaller than the plate; and
 * in the second case all of it is kept out. */
static void
test_no_room (void)
{
  RenderKeepOut keep_out = render_keep_out_make ();
  RenderPlate plate = { .x = 50, .y = 50, .width = 140, .height = 28 };
  render_plates_place (&plate, 1, &keep_out, (RenderSize){ 100, 100 });
  g_assert_false (plate.placed);
  render_keep_out_add_rect (&keep_out, 0, 0, 800, 600);
  render_plates_place (&plate, 1, &keep_out, (RenderSize){ 800, 600 });
  g_assert_false (plate.placed);
  render_keep_out_clear (&keep_out);
}

/* The same view gives the same places. */
static void
test_repeatable (void)
{
  View v = make_view (MOST_PLATES), again = v;
  render_plates_place (v.plates, v.n, &v.keep_out, v.size);
  render_plates_place (again.plates, again.n, &again.keep_out, again.size);
  for (guint i = 0; i < v.n; i++)
    {
      g_assert_cmpint (v.plates[i].placed, ==, again.plates[i].placed);
      g_assert_cmpfloat (v.plates[i].rect.x, ==, again.plates[i].rect.x);
      g_assert_cmpfloat (v.plates[i].rect.y, ==, again.plates[i].rect.y);
    }
  render_keep_out_clear (&v.keep_out);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/render/plates/random", test_random);
  g_test_add_func ("/render/plates/first-is-near", test_first_is_near);
  g_test_add_func ("/render/plates/beside-the-load", test_beside_the_load);
  g_test_add_func ("/render/plates/no-room", test_no_room);
  g_test_add_func ("/render/plates/repeatable", test_repeatable);
  return g_test_run ();
}
