/* What a convex body shows along a direction d, as a function of vectors in proportion to their
 * length, is half the sum of |d · n| over its faces n: it never exceeds the sum of what is shown
 * along the parts of which d is the sum. So
 *   a level direction between two that are δ apart is the sum of shares of both that are together
 * at most 1/cos (δ/2), and shows no more than the greater over cos (δ/2); a direction slanting by α
 * is cos α times a level one and sin α times the vertical. The hull of the picture is the picture
 * of the hull.
 *
 * The area of the hull of a picture is that between the least concave line above and the greatest
 * convex line below its points, as in Andrew's monotone chain (1979). A mesh has very many points
 * and few are at corners. So they are laid in runs, one above the other, of which one pass over the
 * points finds how far each reaches at every heading; a run stands for its points as a box. Where
 * a corner of a box comes to lie on the line, the points of that run take its place, until only
 * points are on the line: it is the same as that of all points. Boxes are in single precision,
 * wider by more than that rounds. */
#include "outline.h"

#include <string.h>

#include "support.h"

#define HEADINGS 36 /* over half a turn: from behind a body shows as much */
#define LANES (HEADINGS / 4)
#define LAYERS 4096 /* by height, of which runs are made */
#define LEAST_RUN 64
/* Of the distance of the farthest point: more than single precision rounds. */
#define BOX_OUTWARDS 1e-6
/* Of its square: more than all other rounding makes of an area, that of the direction, too. */
#define OUTWARDS 1e-9
/* The direction that is up is rounded so that attitudes that differ by rounding alone are one. */
#define UP_STEP 0x1p-36

typedef struct
{
  guint first, count; /* of the points */
  gboolean is_sorted; /* by height */
  double lo, hi;
  TrnLanes least[LANES], most[LANES]; /* by heading, as far as there are any */
} Run;

typedef struct
{
  TrnVec3 *points; /* those of a run together */
  guint n;
  GArray *runs; /* of Run, upwards */
  guint n_headings;
  double margin_m;
} Body;

#define NO_RUN G_MAXUINT

typedef struct
{
  double z, u;
  guint run; /* whose box it is of; NO_RUN: a point */
} Dot;

/* ---- runs ---- */

/* Four headings at once, each lane as a single number would be. */
static void
run_measure (Run *run, const TrnVec3 *points, guint n_lanes, const TrnLanes *cosine,
             const TrnLanes *sine)
{
  const TrnLanes far = { INFINITY, INFINITY, INFINITY, INFINITY };
  run->lo = INFINITY;
  run->hi = -INFINITY;
  for (guint k = 0; k < n_lanes; k++)
    {
      run->least[k] = far;
      run->most[k] = -far;
    }
  for (guint i = 0; i < run->count; i++)
    {
      const TrnVec3 p = points[run->first + i];
      const float x = (float)p.x, y = (float)p.y;
      run->lo = MIN (run->lo, p.z);
      run->hi = MAX (run->hi, p.z);
      for (guint k = 0; k < n_lanes; k++)
        {
          const TrnLanes u = y * cosine[k] - x * sine[k];
          run->least[k] = trn_lanes_lesser (u, run->least[k]);
          run->most[k] = trn_lanes_greater (u, run->most[k]);
        }
    }
}

static guint
layer_of (double z, double lo, double scale)
{
  return (guint)CLAMP ((z - lo) * scale, 0, LAYERS - 1);
}

/* @points are in no order; they are not kept. */
static void
body_init (Body *body, const TrnVec3 *points, guint n, guint n_headings, double reach_m)
{
  double lo = INFINITY, hi = -INFINITY;
  for (guint i = 0; i < n; i++)
    {
      lo = MIN (lo, points[i].z);
      hi = MAX (hi, points[i].z);
    }
  const double scale = hi > lo ? LAYERS / (hi - lo) : 0;
  g_autofree guint *next = g_new0 (guint, LAYERS + 1);
  *body = (Body){ .points = g_new (TrnVec3, n),
                  .n = n,
                  .runs = g_array_new (FALSE, FALSE, sizeof (Run)),
                  .n_headings = n_headings,
                  .margin_m = BOX_OUTWARDS * reach_m };
  for (guint i = 0; i < n; i++)
    next[layer_of (points[i].z, lo, scale) + 1]++;
  for (guint i = 0; i < LAYERS; i++)
    next[i + 1] += next[i];
  Run run = { .first = 0 };
  for (guint i = 1; i <= LAYERS; i++)
    {
      run.count = next[i] - run.first;
      if (run.count < LEAST_RUN && (i < LAYERS || run.count == 0))
        continue;
      g_array_append_val (body->runs, run);
      run.first = next[i];
    }
  for (guint i = 0; i < n; i++)
    body->points[next[layer_of (points[i].z, lo, scale)]++] = points[i];
  TrnLanes cosine[LANES], sine[LANES];
  for (guint k = 0; k < HEADINGS; k++)
    {
      cosine[k / 4][k % 4] = (float)cos (k * G_PI / HEADINGS);
      sine[k / 4][k % 4] = (float)sin (k * G_PI / HEADINGS);
    }
  for (guint i = 0; i < body->runs->len; i++)
    run_measure (&g_array_index (body->runs, Run, i), body->points, (n_headings + 3) / 4, cosine,
                 sine);
}

static void
body_clear (Body *body)
{
  g_free (body->points);
  g_array_unref (body->runs);
}

/* ---- the line above ---- */

/* Leaves of @dots, which go upwards, the least concave line over them. */
static void
keep_outermost (GArray *dots)
{
  Dot *line = (Dot *)(void *)dots->data;
  guint used = 0;
  for (guint i = 0; i < dots->len; i++)
    {
      const Dot p = line[i];
      if (used > 0 && p.z == line[used - 1].z)
        {
          if (p.u <= line[used - 1].u)
            continue;
          used--;
        }
      while (used >= 2
             && (line[used - 1].z - line[used - 2].z) * (p.u - line[used - 2].u)
                    >= (line[used - 1].u - line[used - 2].u) * (p.z - line[used - 2].z))
        used--;
      line[used++] = p;
    }
  g_array_set_size (dots, used);
}

/* Merges two neighbours, each sorted by height, from @from to @to. */
static void
merge (const TrnVec3 *from, guint n_first, guint n, TrnVec3 *to)
{
  guint a = 0, b = n_first;
  for (guint i = 0; i < n; i++)
    to[i] = b == n || (a < n_first && from[a].z <= from[b].z) ? from[a++] : from[b++];
}

#define INSERTED 16

/* By height: much of the time of an outline goes into this, and qsort() takes three times as long.
 */
static void
sort_by_height (TrnVec3 *points, guint n)
{
  for (guint begin = 0; begin < n; begin += INSERTED)
    for (guint i = begin + 1; i < MIN (begin + INSERTED, n); i++)
      {
        const TrnVec3 p = points[i];
        guint k = i;
        for (; k > begin && points[k - 1].z > p.z; k--)
          points[k] = points[k - 1];
        points[k] = p;
      }
  if (n <= INSERTED)
    return;
  g_autofree TrnVec3 *other = g_new (TrnVec3, n);
  TrnVec3 *from = points, *to = other;
  for (guint width = INSERTED; width < n; width *= 2)
    {
      for (guint begin = 0; begin < n; begin += 2 * width)
        merge (from + begin, MIN (width, n - begin), MIN (2 * width, n - begin), to + begin);
      TrnVec3 *swapped = from;
      from = to;
      to = swapped;
    }
  if (from != points)
    memcpy (points, from, n * sizeof *points);
}

/* What @cosine and @sine make of the points of a run, as far as it is on their own line. */
static void
add_points (const Body *body, Run *run, double cosine, double sine, GArray *own, GArray *dots)
{
  TrnVec3 *points = body->points + run->first;
  if (!run->is_sorted && run->hi > run->lo)
    sort_by_height (points, run->count);
  run->is_sorted = TRUE;
  g_array_set_size (own, run->count);
  for (guint i = 0; i < run->count; i++)
    g_array_index (own, Dot, i)
        = (Dot){ points[i].z, points[i].y * cosine - points[i].x * sine, NO_RUN };
  keep_outermost (own);
  g_array_append_vals (dots, own->data, own->len);
}

/* The area between the line over all points, seen at a heading from before (@sign 1) or from behind
 * (−1), and the middle. */
static double
area_beside (const Body *body, guint heading, int sign)
{
  const double cosine = sign * cos (heading * G_PI / HEADINGS),
               sine = sign * sin (heading * G_PI / HEADINGS);
  g_autoptr (GArray) dots = g_array_new (FALSE, FALSE, sizeof (Dot));
  g_autoptr (GArray) line = g_array_new (FALSE, FALSE, sizeof (Dot));
  g_autoptr (GArray) own = g_array_new (FALSE, FALSE, sizeof (Dot));
  g_autofree gboolean *on_line = g_new0 (gboolean, body->runs->len);
  g_array_set_size (dots, 2 * body->runs->len);
  for (guint i = 0; i < body->runs->len; i++)
    {
      const Run *run = &g_array_index (body->runs, Run, i);
      const double u = (double)(sign > 0 ? run->most[heading / 4][heading % 4]
                                         : -run->least[heading / 4][heading % 4])
                       + body->margin_m;
      g_array_index (dots, Dot, 2 * i) = (Dot){ run->lo, u, i };
      g_array_index (dots, Dot, 2 * i + 1) = (Dot){ run->hi, u, i };
    }
  for (;;)
    {
      gboolean all_points = TRUE;
      g_array_set_size (line, 0);
      g_array_append_vals (line, dots->data, dots->len);
      keep_outermost (line);
      for (guint i = 0; i < line->len; i++)
        {
          const guint run = g_array_index (line, Dot, i).run;
          all_points = all_points && run == NO_RUN;
          if (run != NO_RUN)
            on_line[run] = TRUE;
        }
      if (all_points)
        break;
      g_array_set_size (line, 0);
      guint from = 0; /* of those that stay, which go over together */
      for (guint i = 0; i < dots->len; i++)
        {
          const guint run = g_array_index (dots, Dot, i).run;
          if (run == NO_RUN || !on_line[run])
            continue;
          g_array_append_vals (line, &g_array_index (dots, Dot, from), i - from);
          add_points (body, &g_array_index (body->runs, Run, run), cosine, sine, own, line);
          from = ++i + 1; /* a run has two */
        }
      g_array_append_vals (line, &g_array_index (dots, Dot, from), dots->len - from);
      GArray *swapped = dots;
      dots = line;
      line = swapped;
    }
  keep_outermost (dots);
  double twice = 0;
  for (guint i = 1; i < dots->len; i++)
    {
      const Dot *a = &g_array_index (dots, Dot, i - 1), *b = &g_array_index (dots, Dot, i);
      twice += (a->u + b->u) * (b->z - a->z);
    }
  return 0.5 * twice;
}

/* The greatest area that the hull shows at a heading. */
static double
greatest_area (const TrnVec3 *points, guint n, guint n_headings, double reach_m)
{
  Body body;
  double greatest = 0;
  body_init (&body, points, n, n_headings, reach_m);
  for (guint k = 0; k < n_headings; k++)
    greatest = fmax (greatest, area_beside (&body, k, 1) + area_beside (&body, k, -1));
  body_clear (&body);
  return greatest;
}

/* ---- both ---- */

/* Its opposite shows the same. */
TrnVec3
trn_outline_up (TrnVec3 up)
{
  const double size = fmax (fabs (up.x), fmax (fabs (up.y), fabs (up.z)));
  const double sign = fabs (up.x) > 0.5 * size ? up.x : fabs (up.y) > 0.5 * size ? up.y : up.z;
  const double step = copysign (UP_STEP, sign);
  /* Added to zero, a zero is positive. */
  return trn_vec3_make (round (up.x / step) * UP_STEP + 0.0, round (up.y / step) * UP_STEP + 0.0,
                        round (up.z / step) * UP_STEP + 0.0);
}

/* Its rows: two level directions, and the third. */
static TrnRotation
rotation_of (TrnVec3 up)
{
  const TrnVec3 z = trn_vec3_unit (up);
  const TrnVec3 x = trn_vec3_square_to (z), y = trn_vec3_cross (z, x);
  return (TrnRotation){ { { x.x, x.y, x.z }, { y.x, y.y, y.z }, { z.x, z.y, z.z } } };
}

TrnOutline
trn_outline_make (const TrnMesh *mesh, TrnVec3 up)
{
  const guint n = mesh->n_vertices;
  TrnOutline outline = { 0, 0 };
  if (n == 0)
    return outline;
  TrnBox box = trn_box_empty ();
  for (guint i = 0; i < n; i++)
    trn_box_add_point (&box, mesh->vertices[i]);
  const TrnVec3 middle = trn_box_centre (&box);
  const TrnRotation turn = rotation_of (trn_outline_up (up));
  g_autofree TrnVec3 *points = g_new (TrnVec3, n);
  double reach2 = 0;
  for (guint i = 0; i < n; i++)
    {
      points[i] = trn_rotation_apply (&turn, trn_vec3_sub (mesh->vertices[i], middle));
      const double here = trn_vec3_length_squared (points[i]);
      reach2 = MAX (reach2, here);
    }
  const double reach_m = sqrt (reach2);
  outline.level_m2 = (greatest_area (points, n, HEADINGS, reach_m) + OUTWARDS * reach2)
                     / cos (0.5 * G_PI / HEADINGS);
  for (guint i = 0; i < n; i++)
    points[i] = trn_vec3_make (points[i].z, points[i].y, points[i].x);
  outline.plan_m2 = greatest_area (points, n, 1, reach_m) + OUTWARDS * reach2;
  return outline;
}
