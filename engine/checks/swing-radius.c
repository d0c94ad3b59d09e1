/* Which axis. A turn, a move and a tilt turn the load about a line through a point of the load: the
 * axis of the motion. A slew turns it about the vertical through the slew's centre, also where the
 * load keeps its heading. Where the axis itself is carried along (a move, a tilt with a carry, a
 * two-hook up-ending, in which the head comes down its own vertical), the radius is measured from
 * the axis where it is at that moment, and obstacles from the strip that the axis passes over, a
 * segment in the plane square to it. A point that is farther from the strip than the radius is then
 * never met, wherever the axis is.
 *
 * Radius. Distance from a line is convex, so it is attained at a vertex.
 *   About an axis of the load's own it does not change over the move.
 *   Slew, load turning: in the frame that turns with it a point lies at r(s) e + w with e and w
 *   constant and r linear in s: convex, greatest at an end of the move.
 *   Slew, load keeping its heading: a point goes along centre + r(s)(cos, sin)(φ₀ + sφ) + w, whose
 *   second derivative is bounded by trn_motion_acceleration. Over a piece of the move it stays
 *   within trn_motion_sag of its chord, and distance along a chord is greatest at its ends: the
 *   greatest over the ends of n pieces, plus the sag, is an upper bound, n large enough that the
 *   sag is at most MOST_SAG_M. Only corners of the hull of all w can be the farthest.
 *
 * Extent along the axis. The turn does not change a point's place along the axis, and the carry
 * changes it evenly, so the extent is that of both ends of the move together.
 *
 * Sector. Each triangle of the load, seen along the axis, spans an angle about it, or contains it;
 * the sector is the complement of the widest gap that they leave, widened by the turn. In a slew
 * that changes its radius the triangle is taken together with itself at the other radius, as seen
 * in the turning frame. Where the load keeps its heading the sector is that of a circle about the
 * hook that holds the load.
 *
 * Obstacles. Nodes of the obstacle's tree whose sphere is farther than what was found are left out,
 * or beyond the extent of the load. A triangle is cut to the extent of the load, seen along the
 * axis, and its distance from the strip is exact. For the sector it is also cut by wedges of at
 * most a quarter turn, each by two half planes; where the axis is carried, each half plane is moved
 * back to hold the wedge at every place of the axis. That may take in a little more than the
 * sector: never less. */
#include "swing-radius.h"

#include <stdlib.h>

#include "polygon.h"
#include "swing-cache.h"

#define MOST_SAG_M 0.5e-3
#define MOST_PIECES 100000u
/* What lies flush with the end of the extent counts as within: rounding must not decide. */
#define FLUSH_M 1e-9
#define FULL_TURN (2 * G_PI)

/* ---- the axis ---- */

static TrnVec3
along (const TrnSwing *swing, TrnVec3 site_point)
{
  TrnVec3 p = trn_vec3_sub (site_point, swing->origin);
  return trn_vec3_make (trn_vec3_dot (p, swing->x), trn_vec3_dot (p, swing->y),
                        trn_vec3_dot (p, swing->z));
}

static void
set_axis (TrnSwing *swing, TrnVec3 origin, TrnVec3 axis)
{
  TrnVec3 other = fabs (axis.z) > 0.5 ? trn_vec3_make (1, 0, 0) : trn_vec3_make (0, 0, 1);
  swing->origin = origin;
  swing->z = axis;
  swing->y = trn_vec3_unit (trn_vec3_cross (axis, other));
  swing->x = trn_vec3_cross (swing->y, axis);
}

/* Vertices of the load in coordinates about the axis, at the start of the move. */
static TrnVec3 *
load_about_axis (const TrnLiftCheck *check, const TrnMotion *motion, const TrnSwing *swing)
{
  const TrnMesh *mesh = check->load->mesh;
  TrnVec3 *points = g_new (TrnVec3, mesh->n_vertices);
  for (guint32 i = 0; i < mesh->n_vertices; i++)
    points[i] = along (swing, trn_pose_apply (&motion->start, mesh->vertices[i]));
  return points;
}

static void
set_extent (const TrnLiftCheck *check, TrnSwing *swing, const TrnVec3 *points, double goes_m)
{
  const TrnMesh *mesh = check->load->mesh;
  swing->lo_m = INFINITY;
  swing->hi_m = -INFINITY;
  for (guint32 i = 0; i < mesh->n_triangles; i++)
    for (int k = 0; k < 3; k++)
      {
        double z = points[mesh->triangles[i].v[k]].z;
        swing->lo_m = MIN (swing->lo_m, z);
        swing->hi_m = MAX (swing->hi_m, z);
      }
  swing->lo_m = swing->lo_m + MIN (goes_m, 0) - FLUSH_M;
  swing->hi_m = swing->hi_m + MAX (goes_m, 0) + FLUSH_M;
}

/* ---- the sector ---- */

typedef struct
{
  double from_rad, width_rad;
} Arc;

/* The angles of points about the axis, and whether one lies on it. */
typedef struct
{
  double *rad;
  gboolean *on_axis;
} Angles;

static Angles
angles_make (const TrnVec3 *points, guint32 count, TrnVec3 shift)
{
  Angles angles = { g_new (double, count), g_new (gboolean, count) };
  for (guint32 i = 0; i < count; i++)
    {
      TrnVec3 p = trn_vec3_add (points[i], shift);
      angles.rad[i] = atan2 (p.y, p.x);
      angles.on_axis[i] = p.x == 0 && p.y == 0;
    }
  return angles;
}

static void
angles_clear (Angles *angles)
{
  g_free (angles->rad);
  g_free (angles->on_axis);
}

/* The angle that the hull of the corners of a triangle spans about the axis, in one place or in
 * several; FALSE when it holds the axis. The hull holds it exactly when no open half plane holds
 * all points: when going round, every gap between neighbours is at most half a turn. */
static gboolean
arc_of_triangle (const TrnTriangle *triangle, const Angles *places, guint n_places, Arc *arc)
{
  double lo = 0, hi = 0, first = places[0].rad[triangle->v[0]];
  for (guint i = 0; i < n_places; i++)
    for (guint k = 0; k < 3; k++)
      {
        guint32 vertex = triangle->v[k];
        if (places[i].on_axis[vertex])
          return FALSE;
        double turn = places[i].rad[vertex] - first; /* within a turn */
        turn -= turn > G_PI ? FULL_TURN : turn < -G_PI ? -FULL_TURN : 0;
        lo = MIN (lo, turn);
        hi = MAX (hi, turn);
      }
  *arc = (Arc){ first + lo, hi - lo };
  return hi - lo < G_PI;
}

static int
compare_arcs (gconstpointer a, gconstpointer b)
{
  const Arc *x = a, *y = b;
  return x->from_rad < y->from_rad ? -1 : x->from_rad > y->from_rad;
}

/* The complement of the widest gap between @arcs, sorted by their beginning within one turn. */
static Arc
join_arcs (Arc *arcs, guint count)
{
  double reach = arcs[0].from_rad + arcs[0].width_rad, gap = 0, after = arcs[0].from_rad;
  for (guint i = 1; i < count; i++)
    {
      if (arcs[i].from_rad - reach > gap)
        {
          gap = arcs[i].from_rad - reach;
          after = arcs[i].from_rad;
        }
      reach = fmax (reach, arcs[i].from_rad + arcs[i].width_rad);
    }
  if (arcs[0].from_rad + FULL_TURN - reach >= gap)
    {
      gap = arcs[0].from_rad + FULL_TURN - reach;
      after = arcs[0].from_rad;
    }
  return (Arc){ after, FULL_TURN - gap };
}

/* Writes the arc of each triangle; FALSE when one holds the axis. */
static gboolean
list_arcs (const TrnMesh *mesh, const Angles *places, guint n_places, Arc *arcs)
{
  for (guint32 i = 0; i < mesh->n_triangles; i++)
    {
      if (!arc_of_triangle (&mesh->triangles[i], places, n_places, &arcs[i]))
        return FALSE;
      arcs[i].from_rad = arcs[i].from_rad - FULL_TURN * floor (arcs[i].from_rad / FULL_TURN);
    }
  return TRUE;
}

/* Sets the sector of the load at the start of the move, each point taken together with itself
 * shifted by @shift; full when the load holds the axis. */
static void
set_sector (const TrnLiftCheck *check, TrnSwing *swing, const TrnVec3 *points, TrnVec3 shift)
{
  const TrnMesh *mesh = check->load->mesh;
  guint n_places = shift.x != 0 || shift.y != 0 ? 2 : 1;
  Angles places[2];
  for (guint i = 0; i < n_places; i++)
    places[i] = angles_make (points, mesh->n_vertices, trn_vec3_scale (shift, i));
  g_autofree Arc *arcs = g_new (Arc, mesh->n_triangles);
  if (list_arcs (mesh, places, n_places, arcs))
    {
      qsort (arcs, mesh->n_triangles, sizeof (Arc), compare_arcs);
      Arc all = join_arcs (arcs, mesh->n_triangles);
      swing->from_rad = all.from_rad;
      swing->width_rad = all.width_rad;
    }
  else
    swing->full = TRUE;
  for (guint i = 0; i < n_places; i++)
    angles_clear (&places[i]);
}

static void
widen_sector (TrnSwing *swing, double angle_rad)
{
  swing->from_rad += fmin (angle_rad, 0);
  swing->width_rad += fabs (angle_rad);
  swing->full |= !(swing->width_rad < FULL_TURN);
}

/* ---- the load ---- */

static double
greatest_distance (const TrnLiftCheck *check, const TrnVec3 *points, TrnVec3 shift)
{
  const TrnMesh *mesh = check->load->mesh;
  double greatest = 0;
  for (guint32 i = 0; i < mesh->n_triangles; i++)
    for (int k = 0; k < 3; k++)
      {
        TrnVec3 p = trn_vec3_add (points[mesh->triangles[i].v[k]], shift);
        double squared = p.x * p.x + p.y * p.y;
        greatest = MAX (greatest, squared);
      }
  return sqrt (greatest);
}

/* A two-hook up-ending takes the head up and down its own vertical: by A cos φ + B sin φ − A, whose
 * extremes are at the ends of the move, or where the angle passes that of the vector (A, B) or its
 * opposite. */
static void
set_strip_of_head (const TrnMotion *motion, TrnSwing *swing)
{
  TrnVec3 w = motion->head_from_tail;
  double across = trn_vec3_cross (motion->axis, w).z;
  double lo = fmin (motion->angle_rad, 0), hi = fmax (motion->angle_rad, 0);
  double top_rad = atan2 (across, w.z);
  double ends[] = { 0, motion->angle_rad }, least = INFINITY, most = -INFINITY;
  for (guint i = 0; i < G_N_ELEMENTS (ends); i++)
    {
      double height = w.z * cos (ends[i]) + across * sin (ends[i]) - w.z;
      least = fmin (least, height);
      most = fmax (most, height);
    }
  if (top_rad + FULL_TURN * ceil ((lo - top_rad) / FULL_TURN) <= hi)
    most = hypot (w.z, across) - w.z;
  if (top_rad + G_PI + FULL_TURN * ceil ((lo - top_rad - G_PI) / FULL_TURN) <= hi)
    least = -hypot (w.z, across) - w.z;
  TrnVec3 up = { swing->x.z, swing->y.z, 0 };
  swing->strip[0] = trn_vec3_scale (up, least);
  swing->strip[1] = trn_vec3_scale (up, most);
}

static void
swing_about_own_axis (const TrnLiftCheck *check, const TrnMotion *motion, TrnSwing *swing)
{
  set_axis (swing, motion->from, motion->axis);
  TrnPose end = trn_motion_pose (motion, 1);
  TrnVec3 goes = along (swing, trn_pose_apply (&end, motion->pivot));
  g_autofree TrnVec3 *points = load_about_axis (check, motion, swing);
  swing->strip[1] = trn_vec3_make (goes.x, goes.y, 0);
  if (motion->path == TRN_PATH_LEVEL_TAIL)
    set_strip_of_head (motion, swing);
  swing->radius_m = greatest_distance (check, points, (TrnVec3){ 0, 0, 0 });
  set_extent (check, swing, points, goes.z);
  set_sector (check, swing, points, (TrnVec3){ 0, 0, 0 });
  widen_sector (swing, motion->angle_rad);
}

static void
slew_turning (const TrnLiftCheck *check, const TrnMotion *motion, TrnSwing *swing,
              const TrnVec3 *points)
{
  TrnVec3 outwards = trn_vec3_make (motion->radius_by_m * cos (motion->phi0_rad),
                                    motion->radius_by_m * sin (motion->phi0_rad), 0);
  swing->radius_m = fmax (greatest_distance (check, points, (TrnVec3){ 0, 0, 0 }),
                          greatest_distance (check, points, outwards));
  set_sector (check, swing, points, outwards);
}

static int
compare_points (gconstpointer a, gconstpointer b)
{
  const TrnVec3 *p = a, *q = b;
  if (p->x != q->x)
    return p->x < q->x ? -1 : 1;
  return p->y < q->y ? -1 : p->y > q->y;
}

/* Keeps the corners of the convex hull of @points in x and y at its beginning, and returns their
 * number (Andrew's monotone chain). */
static guint
keep_hull (TrnVec3 *points, guint count)
{
  if (count < 3)
    return count;
  qsort (points, count, sizeof points[0], compare_points);
  g_autofree TrnVec3 *hull = g_new (TrnVec3, 2 * (gsize)count);
  guint n = 0, kept = 1;
  for (guint i = 0; i < 2 * count - 1; i++)
    {
      TrnVec3 p = points[i < count ? i : 2 * count - 2 - i];
      kept = i == count ? n : kept;
      while (n > kept
             && (hull[n - 1].x - hull[n - 2].x) * (p.y - hull[n - 2].y)
                        - (hull[n - 1].y - hull[n - 2].y) * (p.x - hull[n - 2].x)
                    <= 0)
        n--;
      hull[n++] = p;
    }
  n--; /* the last is the first again */
  for (guint i = 0; i < n; i++)
    points[i] = hull[i];
  return n;
}

/* Moves the points that triangles use to the beginning, and returns their number. */
static guint
keep_used (const TrnMesh *mesh, TrnVec3 *points)
{
  g_autofree gboolean *used = g_new0 (gboolean, mesh->n_vertices);
  for (guint32 i = 0; i < mesh->n_triangles; i++)
    for (int k = 0; k < 3; k++)
      used[mesh->triangles[i].v[k]] = TRUE;
  guint n = 0;
  for (guint32 i = 0; i < mesh->n_vertices; i++)
    if (used[i])
      points[n++] = points[i];
  return n;
}

static void
slew_keeping_heading (const TrnLiftCheck *check, const TrnMotion *motion, TrnSwing *swing,
                      TrnVec3 *points)
{
  TrnVec3 hook
      = { motion->radius_m * cos (motion->phi0_rad), motion->radius_m * sin (motion->phi0_rad), 0 };
  double reach = greatest_distance (check, points, trn_vec3_scale (hook, -1));
  guint n_hull = keep_hull (points, keep_used (check->load->mesh, points));
  double acceleration = trn_motion_acceleration (motion, 0);
  double wanted = ceil (sqrt (acceleration / 8 / MOST_SAG_M));
  guint pieces = (guint)CLAMP (wanted, 1, MOST_PIECES);
  double greatest = 0;
  for (guint i = 0; i <= pieces; i++)
    {
      double s = (double)i / pieces, phi = motion->phi0_rad + s * motion->phi_rad;
      double r = motion->radius_m + s * motion->radius_by_m;
      double x = r * cos (phi) - hook.x, y = r * sin (phi) - hook.y;
      for (guint k = 0; k < n_hull; k++)
        {
          double distance = hypot (points[k].x + x, points[k].y + y);
          greatest = MAX (greatest, distance);
        }
    }
  swing->radius_m = greatest + trn_motion_sag (acceleration, 0, 1.0 / pieces);
  double nearest = fmin (motion->radius_m, motion->radius_m + motion->radius_by_m);
  swing->full = reach >= nearest;
  double half_rad = swing->full ? G_PI : asin (reach / nearest);
  swing->from_rad = motion->phi0_rad - half_rad;
  swing->width_rad = 2 * half_rad;
}

static void
swing_about_centre (const TrnLiftCheck *check, const TrnMotion *motion, TrnSwing *swing)
{
  swing->origin = trn_vec3_make (motion->centre_x, motion->centre_y, motion->from.z);
  swing->x = trn_vec3_make (1, 0, 0);
  swing->y = trn_vec3_make (0, 1, 0);
  swing->z = trn_vec3_make (0, 0, 1);
  g_autofree TrnVec3 *points = load_about_axis (check, motion, swing);
  set_extent (check, swing, points, motion->by.z);
  if (motion->angle_rad != 0)
    slew_turning (check, motion, swing, points);
  else
    slew_keeping_heading (check, motion, swing, points);
  widen_sector (swing, motion->phi_rad);
}

TrnSwing
trn_swing_make (const TrnLiftCheck *check, guint move)
{
  const TrnMotion *motion = &check->run->motions[move];
  TrnSwing swing = { .rotates = TRUE };
  if (motion->path == TRN_PATH_ARC && motion->phi_rad != 0)
    swing_about_centre (check, motion, &swing);
  else if (motion->path != TRN_PATH_ARC && motion->angle_rad != 0)
    swing_about_own_axis (check, motion, &swing);
  else
    swing.rotates = FALSE;
  return swing;
}

/* ---- obstacles ---- */

typedef struct
{
  const TrnSwing *swing;
  TrnVec3 a, b; /* the strip: where the axis is at both ends of the move, in x and y */
  guint n_wedges;
  double circle_m, sector_m;
} Measure;

/* A half plane through the axis, to the left of @direction_rad, moved back over the strip. */
static void
cut_by_ray (TrnPolygon *polygon, const Measure *measure, double direction_rad, double side)
{
  TrnVec3 normal = { -side * sin (direction_rad), side * cos (direction_rad), 0 };
  double offset = fmin (trn_vec3_dot (normal, measure->a), trn_vec3_dot (normal, measure->b));
  trn_polygon_cut (polygon, normal, offset - FLUSH_M);
}

static void
measure_sector (Measure *measure, const TrnPolygon *polygon)
{
  const TrnSwing *swing = measure->swing;
  double step = swing->width_rad / measure->n_wedges;
  for (guint i = 0; i < measure->n_wedges; i++)
    {
      TrnPolygon part = *polygon;
      cut_by_ray (&part, measure, swing->from_rad + i * step, 1);
      cut_by_ray (&part, measure, swing->from_rad + (i + 1) * step, -1);
      measure->sector_m
          = fmin (measure->sector_m, trn_polygon_distance (&part, measure->a, measure->b));
    }
}

/* A lower bound of the distance of the triangle from the strip, by their boxes. */
static double
box_distance (const Measure *measure, const TrnPolygon *triangle)
{
  const TrnVec3 *c = triangle->corners, a = measure->a, b = measure->b;
  double dx = fmax (fmin (fmin (c[0].x, c[1].x), c[2].x) - fmax (a.x, b.x),
                    fmin (a.x, b.x) - fmax (fmax (c[0].x, c[1].x), c[2].x));
  double dy = fmax (fmin (fmin (c[0].y, c[1].y), c[2].y) - fmax (a.y, b.y),
                    fmin (a.y, b.y) - fmax (fmax (c[0].y, c[1].y), c[2].y));
  return hypot (fmax (dx, 0), fmax (dy, 0));
}

static void
measure_triangle (Measure *measure, TrnPolygon *triangle)
{
  if (box_distance (measure, triangle) >= fmax (measure->circle_m, measure->sector_m))
    return;
  trn_polygon_cut (triangle, (TrnVec3){ 0, 0, 1 }, measure->swing->lo_m);
  trn_polygon_cut (triangle, (TrnVec3){ 0, 0, -1 }, -measure->swing->hi_m);
  double distance = trn_polygon_distance (triangle, measure->a, measure->b);
  measure->circle_m = fmin (measure->circle_m, distance);
  if (measure->swing->full)
    measure->sector_m = measure->circle_m;
  else if (distance < measure->sector_m)
    measure_sector (measure, triangle);
}

/* A place on the obstacle, in coordinates about the axis. */
static TrnVec3
place_of (const Measure *measure, const TrnObstacle *obstacle, TrnVec3 p)
{
  return along (measure->swing, trn_pose_apply (&obstacle->standing->site_from_standing, p));
}

/* A lower bound of the distance of what is left of a node's triangles from the strip, by its
 * sphere; infinite when the sphere is beyond the extent of the load. */
static double
node_distance (const Measure *measure, const TrnObstacle *obstacle, const TrnBvhNode *node)
{
  TrnVec3 c = place_of (measure, obstacle, trn_bvh_centre (node));
  double radius_m = (double)node->radius_m + FLUSH_M; /* and the rounding of the places */
  if (c.z + radius_m < measure->swing->lo_m || c.z - radius_m > measure->swing->hi_m)
    return INFINITY;
  c.z = 0;
  TrnVec3 strip = trn_vec3_sub (measure->b, measure->a), from_a = trn_vec3_sub (c, measure->a);
  strip.z = from_a.z = 0;
  double squared = trn_vec3_length_squared (strip);
  double t = squared > 0 ? CLAMP (trn_vec3_dot (from_a, strip) / squared, 0, 1) : 0;
  return trn_vec3_length (trn_vec3_add_scaled (from_a, strip, -t)) - radius_m;
}

static void
measure_leaf (Measure *measure, const TrnObstacle *obstacle, const TrnBvhNode *node)
{
  const TrnBvh *bvh = obstacle->body->bvh;
  for (guint32 i = 0; i < node->count; i++)
    {
      TrnVec3 c[3];
      trn_mesh_corners (bvh->mesh, bvh->order[node->first + i], c);
      TrnPolygon triangle = { .n_corners = 3 };
      for (int k = 0; k < 3; k++)
        triangle.corners[k] = place_of (measure, obstacle, c[k]);
      measure_triangle (measure, &triangle);
    }
}

/* Measures the triangles below a node that is @distance_m away, the nearest children first. */
static void
measure_node (Measure *measure, const TrnObstacle *obstacle, guint32 index, double distance_m)
{
  const TrnBvhNode *nodes = obstacle->body->bvh->nodes, *node = &nodes[index];
  if (distance_m >= fmax (measure->circle_m, measure->sector_m))
    return;
  if (node->child == 0)
    {
      measure_leaf (measure, obstacle, node);
      return;
    }
  guint32 order[TRN_BVH_CHILDREN];
  double distances[TRN_BVH_CHILDREN];
  for (guint i = 0; i < node->n_children; i++)
    {
      double d = node_distance (measure, obstacle, &nodes[node->child + i]);
      guint k = i;
      for (; k > 0 && distances[k - 1] > d; k--)
        {
          distances[k] = distances[k - 1];
          order[k] = order[k - 1];
        }
      distances[k] = d;
      order[k] = node->child + i;
    }
  for (guint i = 0; i < node->n_children; i++)
    measure_node (measure, obstacle, order[i], distances[i]);
}

TrnSwingReach
trn_swing_reach (const TrnObstacle *obstacle, const TrnSwing *swing)
{
  Measure measure = { .swing = swing,
                      .a = swing->strip[0],
                      .b = swing->strip[1],
                      .n_wedges = (guint)ceil (swing->width_rad / (G_PI / 2)),
                      .circle_m = INFINITY,
                      .sector_m = INFINITY };
  measure.n_wedges = MAX (measure.n_wedges, 1);
  measure_node (&measure, obstacle, 0, -INFINITY);
  return (TrnSwingReach){ measure.circle_m, measure.sector_m };
}

TrnFinding
trn_swing_judge (const TrnLiftCheck *check, guint move, guint obstacle, const TrnSwing *swing)
{
  const TrnObstacle *other = &check->obstacles[obstacle];
  TrnFinding finding = trn_lift_check_finding (check, TRN_CHECK_SWING_RADIUS, (int)move,
                                               other->body->id, other->standing->required_m);
  if (trn_progress_is_cancelled (check->options->progress))
    return finding;
  TrnSwingReach reach = trn_swing_cached_reach (check, move, obstacle, swing);
  finding.radius_m = swing->radius_m;
  finding.circle_distance_m = isfinite (reach.circle_m) ? reach.circle_m : NAN;
  finding.sector_distance_m = isfinite (reach.sector_m) ? reach.sector_m : NAN;
  gboolean is_short = reach.sector_m - swing->radius_m < finding.required_m;
  finding.verdict = is_short ? TRN_VERDICT_NOTE : TRN_VERDICT_PASS;
  finding.state = is_short ? TRN_STATE_SHORT : TRN_STATE_CLEAR;
  return finding;
}
