/* The ground: a plate with openings through it.
 *
 * The top face is a rectangle with convex holes. It is triangulated with no corner but those of the
 * rectangle and the openings, so that the faces meet along whole edges, by a sweep over the corners
 * from left to right (those at the same x from bottom to top), in O(n log n):
 *
 * - Between the lower and the upper edge of the plate and the openings that the sweep line crosses
 *   lie *regions*. Each is bounded by a lower and an upper chain of corners and is a polygon that
 * is monotone in x, which is triangulated as it grows, with a stack of the corners that still lack
 *   triangles (Garey, Johnson, Preparata and Tarjan 1978, "Triangulating a simple polygon").
 * - The leftmost corner of an opening splits its region. A line from the corner that the region met
 *   last divides it; nothing lies between the two, or the sweep would have met it.
 * - The rightmost corner of an opening joins two regions, which keep a polygon each until the next
 *   corner of the joint region comes. A line from the one to the other then ends the polygon on the
 *   side on which that corner lies, and the other goes on.
 *   (Lee and Preparata 1977, "Location of a point in a planar subdivision".)
 *
 * The bottom face takes the same triangles, turned over. */
#include "solid-shaper.h"

typedef enum
{
  LOWER,
  UPPER,
} Side;

/* A polygon that is being triangulated: all corners of the stack but the first lie on @side. */
typedef struct
{
  GArray *stack; /* of guint, indices of corners */
  Side side;
} Polygon;

typedef struct _Region Region;

/* The edge of the plate (the first loop), or an opening. Of the plate, `above` is the lowest region
 * and `below` the highest. */
typedef struct
{
  Region *below, *above;
  double middle_y_m;
} Loop;

struct _Region
{
  Polygon *lower;
  Polygon *upper; /* only after two regions were joined, else NULL */
  Loop *below, *above;
};

typedef enum
{
  CORNER_FIRST, /* leftmost of its loop */
  CORNER_BOTTOM,
  CORNER_TOP,
  CORNER_LAST, /* rightmost */
} CornerRole;

typedef struct
{
  double x, y;
  guint32 top, bottom; /* vertices */
  guint loop;
  CornerRole role;
} Corner;

typedef struct
{
  TrnShaper *shaper;
  GArray *corners; /* of Corner */
  Loop *loops;
} Sweep;

/* ---- polygons ---- */

static Polygon *
polygon_new (guint corner)
{
  Polygon *polygon = g_new0 (Polygon, 1);
  polygon->stack = g_array_new (FALSE, FALSE, sizeof (guint));
  g_array_append_val (polygon->stack, corner);
  return polygon;
}

static guint
polygon_last (const Polygon *polygon)
{
  return g_array_index (polygon->stack, guint, polygon->stack->len - 1);
}

/* Adds a triangle to both faces; @side is where the way from @a over @b to @c bulges to. */
static void
add_triangle (Sweep *sweep, guint a, guint b, guint c, Side side)
{
  const Corner *corners = (const Corner *)(gpointer)sweep->corners->data;
  const Corner *p = &corners[a], *q = &corners[side == LOWER ? b : c];
  const Corner *r = &corners[side == LOWER ? c : b];
  TrnMeshBuilder *builder = sweep->shaper->builder;
  trn_mesh_builder_triangle (builder, p->top, q->top, r->top);
  trn_mesh_builder_triangle (builder, p->bottom, r->bottom, q->bottom);
}

/* Joins the whole stack to a corner on the other side. */
static void
polygon_fan (Sweep *sweep, Polygon *polygon, guint corner)
{
  const guint *stack = (const guint *)(gpointer)polygon->stack->data;
  for (guint i = 0; i + 1 < polygon->stack->len; i++)
    add_triangle (sweep, stack[i], stack[i + 1], corner, polygon->side);
}

static gboolean
is_bulge (const Sweep *sweep, guint a, guint b, guint c, Side side)
{
  const Corner *corners = (const Corner *)(gpointer)sweep->corners->data;
  const Corner *p = &corners[a], *q = &corners[b], *r = &corners[c];
  double turn = (q->x - p->x) * (r->y - q->y) - (q->y - p->y) * (r->x - q->x);
  return side == LOWER ? turn > 0 : turn < 0;
}

static void
polygon_add (Sweep *sweep, Polygon *polygon, guint corner, Side side)
{
  GArray *stack = polygon->stack;
  if (stack->len > 1 && side != polygon->side)
    {
      polygon_fan (sweep, polygon, corner);
      g_array_remove_range (stack, 0, stack->len - 1);
    }
  while (stack->len > 1)
    {
      guint before = g_array_index (stack, guint, stack->len - 2), last = polygon_last (polygon);
      if (!is_bulge (sweep, before, last, corner, side))
        break;
      add_triangle (sweep, before, last, corner, side);
      g_array_set_size (stack, stack->len - 1);
    }
  g_array_append_val (stack, corner);
  polygon->side = side;
}

/* Ends a polygon at its last corner, and frees it. */
static void
polygon_end (Sweep *sweep, Polygon *polygon, guint corner)
{
  polygon_fan (sweep, polygon, corner);
  g_array_unref (polygon->stack);
  g_free (polygon);
}

/* ---- regions ---- */

/* Puts a region between the two loops that bound it. */
static Region *
region_new (Polygon *lower, Polygon *upper, Loop *below, Loop *above)
{
  Region *region = g_new0 (Region, 1);
  *region = (Region){ lower, upper, below, above };
  below->above = region;
  above->below = region;
  return region;
}

static void
region_add (Sweep *sweep, Region *region, guint corner, Side side)
{
  if (region->upper != NULL && side == LOWER)
    {
      polygon_end (sweep, region->lower, corner);
      region->lower = region->upper;
    }
  else if (region->upper != NULL)
    polygon_end (sweep, region->upper, corner);
  region->upper = NULL;
  polygon_add (sweep, region->lower, corner, side);
}

/* The region in which the first corner of an opening lies. An opening is as high above as below its
 * middle at every x, so that the middle tells on which side of it a corner outside it lies. */
static Region *
region_at (const Sweep *sweep, double y)
{
  Region *region = sweep->loops[0].above;
  while (region->above != &sweep->loops[0] && y > region->above->middle_y_m)
    region = region->above->above;
  return region;
}

static void
region_split (Sweep *sweep, Region *region, guint corner, Loop *loop)
{
  Polygon *lower = region->lower, *upper = region->upper;
  if (upper == NULL)
    {
      Polygon *fresh = polygon_new (polygon_last (lower));
      if (lower->side == LOWER)
        {
          upper = lower;
          lower = fresh;
        }
      else
        upper = fresh;
    }
  polygon_add (sweep, lower, corner, UPPER);
  polygon_add (sweep, upper, corner, LOWER);
  Loop *below = region->below, *above = region->above;
  g_free (region);
  region_new (lower, NULL, below, loop);
  region_new (upper, NULL, loop, above);
}

static void
region_join (Sweep *sweep, guint corner, Loop *loop)
{
  Region *below = loop->below, *above = loop->above;
  region_add (sweep, below, corner, UPPER);
  region_add (sweep, above, corner, LOWER);
  region_new (below->lower, above->lower, below->below, above->above);
  g_free (below);
  g_free (above);
}

/* ---- the sweep ---- */

static void
sweep_corner (Sweep *sweep, guint index)
{
  const Corner *corner = &g_array_index (sweep->corners, Corner, index);
  Loop *plate = &sweep->loops[0], *loop = &sweep->loops[corner->loop];
  gboolean of_plate = loop == plate;
  /* The plate's lower edge bounds the region above it; that of an opening, the one below it. */
  Side side = (corner->role == CORNER_BOTTOM) == of_plate ? LOWER : UPPER;
  switch (corner->role)
    {
    case CORNER_FIRST:
      if (of_plate)
        region_new (polygon_new (index), NULL, plate, plate);
      else
        region_split (sweep, region_at (sweep, corner->y), index, loop);
      return;
    case CORNER_BOTTOM:
    case CORNER_TOP:
      region_add (sweep, side == LOWER ? loop->above : loop->below, index, side);
      return;
    case CORNER_LAST:
      if (!of_plate)
        {
          region_join (sweep, index, loop);
          return;
        }
      polygon_end (sweep, plate->above->lower, index);
      if (plate->above->upper != NULL)
        polygon_end (sweep, plate->above->upper, index);
      g_free (plate->above);
      return;
    }
}

static int
corner_compare (gconstpointer a, gconstpointer b)
{
  const Corner *p = a, *q = b;
  if (p->x != q->x)
    return p->x < q->x ? -1 : 1;
  return p->y < q->y ? -1 : p->y > q->y;
}

/* Says of each of the @n corners of a loop, counter-clockwise from @corners, where it stands. */
static void
set_roles (Corner *corners, guint n)
{
  guint first = 0, last = 0;
  for (guint i = 1; i < n; i++)
    {
      if (corner_compare (&corners[i], &corners[first]) < 0)
        first = i;
      if (corner_compare (&corners[i], &corners[last]) > 0)
        last = i;
    }
  CornerRole role = CORNER_BOTTOM;
  for (guint k = 0; k < n; k++)
    {
      guint i = (first + k) % n;
      corners[i].role = role;
      if (i == last)
        {
          corners[i].role = CORNER_LAST;
          role = CORNER_TOP;
        }
    }
  corners[first].role = CORNER_FIRST;
}

/* Adds a loop of @n points (x and y of @points), counter-clockwise, with its walls. */
static void
add_loop (Sweep *sweep, guint loop, double middle_y_m, const TrnVec3 *points, guint n)
{
  TrnShaper *shaper = sweep->shaper;
  double z_m[2] = { -TRN_GROUND_THICKNESS_M - shaper->pad_m, shaper->pad_m };
  guint32 ring[2] = { 0, 0 };
  for (int up = 0; up < 2; up++)
    for (guint i = 0; i < n; i++)
      {
        guint32 vertex
            = trn_shaper_vertex (shaper, trn_vec3_make (points[i].x, points[i].y, z_m[up]));
        if (i == 0)
          ring[up] = vertex;
      }
  trn_shaper_band (shaper, ring[loop != 0], ring[loop == 0], n);
  for (guint i = 0; i < n; i++)
    {
      Corner corner = { points[i].x, points[i].y, ring[1] + i, ring[0] + i, loop, CORNER_BOTTOM };
      g_array_append_val (sweep->corners, corner);
    }
  set_roles (&g_array_index (sweep->corners, Corner, sweep->corners->len - n), n);
  sweep->loops[loop].middle_y_m = middle_y_m;
}

static void
add_rectangle (Sweep *sweep, guint loop, double x, double y, double half_x, double half_y)
{
  const TrnVec3 points[4] = { { x - half_x, y - half_y, 0 },
                              { x + half_x, y - half_y, 0 },
                              { x + half_x, y + half_y, 0 },
                              { x - half_x, y + half_y, 0 } };
  add_loop (sweep, loop, y, points, 4);
}

static void
add_opening (Sweep *sweep, guint loop, const TrnOpening *opening)
{
  const TrnShaper *shaper = sweep->shaper;
  double at = fmax (fabs (opening->x_m), fabs (opening->y_m));
  double size = fmax (opening->diameter_m, fmax (opening->width_m, opening->height_m));
  double pad = shaper->pad_m + TRN_SOLID_ROUNDING * (at + size);
  if (opening->kind == TRN_OPENING_RECT)
    {
      add_rectangle (sweep, loop, opening->x_m, opening->y_m, 0.5 * opening->width_m - pad,
                     0.5 * opening->height_m - pad);
      return;
    }
  double radius = 0.5 * opening->diameter_m;
  guint n = trn_shaper_facets (radius, TRN_SOLID_FACET_SHARE * shaper->deviation_m);
  g_autofree TrnVec3 *points = g_new (TrnVec3, n);
  for (guint i = 0; i < n; i++)
    {
      double angle = 2 * G_PI * i / n;
      points[i] = trn_vec3_make (opening->x_m + (radius - pad) * cos (angle),
                                 opening->y_m + (radius - pad) * sin (angle), 0);
    }
  add_loop (sweep, loop, opening->y_m, points, n);
}

void
trn_shaper_ground (TrnShaper *shaper, const TrnSolid *solid)
{
  g_autoptr (GArray) corners = g_array_new (FALSE, FALSE, sizeof (Corner));
  g_autofree Loop *loops = g_new0 (Loop, solid->n_openings + 1);
  Sweep sweep = { shaper, corners, loops };
  trn_shaper_begin (shaper);
  add_rectangle (&sweep, 0, 0, 0, 0.5 * solid->size.x + shaper->pad_m,
                 0.5 * solid->size.y + shaper->pad_m);
  for (guint i = 0; i < solid->n_openings; i++)
    add_opening (&sweep, i + 1, &solid->openings[i]);
  g_array_sort (corners, corner_compare);
  for (guint i = 0; i < corners->len; i++)
    sweep_corner (&sweep, i);
  trn_shaper_end (shaper, "");
}
