/* probe-snap.c: corners and edges near a point of a mesh.
 *
 * Only triangles near the point are looked at, found by the tree; their edges are known by the
 * coordinates of their ends, so that loose triangles fold as well. Every triangle at an edge near
 * the point is near the point too, so what is collected is complete there. On a cut face the edges
 * are where the plane goes through triangles. */
#include "probe-private.h"

#include <string.h>

#include "triangle.h"

/* Triangles are collected within so many times the reach of a snap: a surface that is seen at a
 * slant is farther away than it looks. */
#define COLLECT 4.0
#define FOLD_COS 0.8660254037844387 /* 30° */
#define SAME_PX 0.5
/* A point of the cut lies on the plane to rounding. */
#define ON_PLANE_M 1e-6
/* What covers a corner may be nearer by this share of the distance: rounding. */
#define COVERED_SHARE 1e-6

typedef struct
{
  TrnVec3 ends[2]; /* the lesser first */
} EdgeKey;

typedef struct
{
  EdgeKey key;
  TrnVec3 normal; /* of the first triangle */
  guint n_triangles;
  gboolean folds;
} Edge;

typedef struct
{
  const TrnMesh *mesh;
  TrnVec3 near; /* mesh frame */
  double reach_m;
  gboolean is_cut; /* the outline at a plane, and not edges of the mesh */
  TrnVec3 normal;  /* the plane, mesh frame */
  double offset_m;
  GHashTable *edges; /* of Edge, by its key */
} Collect;

static guint
hash_edge (gconstpointer data)
{
  const guint32 *words = data;
  guint hash = 5381;
  for (gsize i = 0; i < sizeof (EdgeKey) / sizeof *words; i++)
    hash = hash * 33 ^ words[i];
  return hash;
}

static gboolean
equal_edges (gconstpointer a, gconstpointer b)
{
  return memcmp (a, b, sizeof (EdgeKey)) == 0;
}

static int
compare_points (TrnVec3 a, TrnVec3 b)
{
  if (a.x != b.x)
    return a.x < b.x ? -1 : 1;
  if (a.y != b.y)
    return a.y < b.y ? -1 : 1;
  return a.z == b.z ? 0 : a.z < b.z ? -1 : 1;
}

/* −0 and 0 are the same place. */
static TrnVec3
without_minus_zero (TrnVec3 p)
{
  return trn_vec3_make (p.x + 0.0, p.y + 0.0, p.z + 0.0);
}

static void
add_edge (Collect *collect, TrnVec3 a, TrnVec3 b, TrnVec3 normal)
{
  EdgeKey key = { { without_minus_zero (a), without_minus_zero (b) } };
  if (compare_points (a, b) > 0)
    key = (EdgeKey){ { key.ends[1], key.ends[0] } };
  Edge *edge = g_hash_table_lookup (collect->edges, &key);
  if (edge == NULL)
    {
      edge = g_new0 (Edge, 1);
      edge->key = key;
      edge->normal = normal;
      g_hash_table_insert (collect->edges, &edge->key, edge);
    }
  else if (trn_vec3_dot (edge->normal, normal) < FOLD_COS)
    edge->folds = TRUE;
  edge->n_triangles++;
}

static gboolean
is_near (const Collect *collect, const TrnVec3 corners[3])
{
  TrnVec3 point[3] = { collect->near, collect->near, collect->near }, on_a, on_b;
  return trn_triangle_distance (corners, point, &on_a, &on_b) <= collect->reach_m;
}

/* Where the plane goes through the sides of a triangle. A corner on the plane counts as below it,
 * so that triangles side by side agree. */
static void
add_cut (Collect *collect, const TrnVec3 c[3])
{
  TrnVec3 ends[3];
  double above[3];
  guint n = 0;
  for (int i = 0; i < 3; i++)
    above[i] = trn_vec3_dot (collect->normal, c[i]) - collect->offset_m;
  for (int i = 0; i < 3; i++)
    {
      /* From below to above, so that both triangles at a side find the same point. */
      int from = i, to = (i + 1) % 3;
      if ((above[from] > 0) == (above[to] > 0))
        continue;
      if (above[from] > 0)
        from = to, to = i;
      double t = above[from] / (above[from] - above[to]);
      ends[n++] = trn_vec3_mix (c[from], c[to], t);
    }
  if (n == 2 && trn_vec3_distance (ends[0], ends[1]) > 0)
    add_edge (collect, ends[0], ends[1], collect->normal);
}

static void
collect_triangle (Collect *collect, guint32 triangle)
{
  TrnVec3 c[3];
  trn_mesh_corners (collect->mesh, triangle, c);
  TrnVec3 normal = trn_vec3_cross (trn_vec3_sub (c[1], c[0]), trn_vec3_sub (c[2], c[0]));
  if (trn_vec3_length_squared (normal) == 0 || !is_near (collect, c))
    return;
  if (collect->is_cut)
    {
      add_cut (collect, c);
      return;
    }
  normal = trn_vec3_unit (normal);
  for (int i = 0; i < 3; i++)
    add_edge (collect, c[i], c[(i + 1) % 3], normal);
}

static void
collect_edges (Collect *collect, const TrnBvh *bvh)
{
  g_autofree guint32 *stack = g_new (guint32, TRN_BVH_CHILDREN * bvh->depth);
  guint n = 0;
  stack[n++] = 0;
  while (n > 0)
    {
      const TrnBvhNode *node = &bvh->nodes[stack[--n]];
      if (trn_vec3_distance (trn_bvh_centre (node), collect->near)
          > (double)node->radius_m + collect->reach_m)
        continue;
      if (node->child != 0)
        {
          for (guint i = 0; i < node->n_children; i++)
            stack[n++] = node->child + i;
          continue;
        }
      for (guint32 i = 0; i < node->count; i++)
        collect_triangle (collect, bvh->order[node->first + i]);
    }
}

static gboolean
is_seen_as_edge (const Edge *edge)
{
  return edge->folds || edge->n_triangles != 2;
}

/* ---- which one ---- */

typedef struct
{
  const DeskProbe *probe;
  const RenderCamera *camera;
  RenderSize size;
  double x, y, most_px;
  const TrnPose *site_from_mesh;
  GHashTable *edges;
  DeskHit *hit;
} Snap;

static gboolean
is_visible (const Snap *snap, TrnVec3 point)
{
  const RenderSection *section = &snap->probe->section;
  if (section->on && trn_vec3_dot (section->normal, point) > section->offset_m + ON_PLANE_M)
    return FALSE;
  double x, y, depth_m;
  TrnVec3 origin, direction;
  if (!render_camera_project (snap->camera, snap->size, point, &x, &y, &depth_m))
    return FALSE;
  render_camera_ray (snap->camera, snap->size, x, y, &origin, &direction);
  if (snap->camera->parallel)
    origin = trn_vec3_add_scaled (origin, direction, -DESK_PROBE_BACK_M);
  double distance_m = trn_vec3_dot (trn_vec3_sub (point, origin), direction);
  DeskHit hit = desk_probe_ray (snap->probe, origin, direction);
  return hit.on == DESK_ON_NOTHING || hit.along_m >= distance_m * (1 - COVERED_SHARE);
}

typedef struct
{
  double px, depth_m;
} Best;

/* Moves the hit to a point of the mesh where that is nearer to the pointer than @best; of two that
 * are seen at the same place, to the one in front. */
static void
offer (const Snap *snap, DeskOn on, TrnVec3 point, Best *best)
{
  double x, y, depth_m;
  if (!render_camera_project (snap->camera, snap->size, point, &x, &y, &depth_m))
    return;
  double px = hypot (x - snap->x, y - snap->y);
  gboolean is_same = fabs (px - best->px) < SAME_PX && depth_m < best->depth_m;
  if (px >= snap->most_px || !(is_same || px <= best->px - SAME_PX) || !is_visible (snap, point))
    return;
  *best = (Best){ px, depth_m };
  snap->hit->on = on;
  snap->hit->point = point;
}

/* An end is a corner unless two edges go straight on there. */
static gboolean
is_corner (const Snap *snap, TrnVec3 end)
{
  GHashTableIter iter;
  gpointer value;
  TrnVec3 first = { 0, 0, 0 };
  guint n = 0;
  gboolean straight = FALSE;
  g_hash_table_iter_init (&iter, snap->edges);
  while (g_hash_table_iter_next (&iter, NULL, &value))
    {
      const Edge *edge = value;
      if (!is_seen_as_edge (edge))
        continue;
      gboolean is_first = compare_points (edge->key.ends[0], end) == 0;
      if (!is_first && compare_points (edge->key.ends[1], end) != 0)
        continue;
      TrnVec3 other = edge->key.ends[is_first ? 1 : 0];
      TrnVec3 along = trn_vec3_unit (trn_vec3_sub (other, end));
      if (n++ == 0)
        first = along;
      else
        straight = trn_vec3_dot (first, along) < -FOLD_COS;
    }
  return n != 2 || !straight;
}

static gboolean
is_within (const Snap *snap, TrnVec3 site_point)
{
  double x, y, depth_m;
  return render_camera_project (snap->camera, snap->size, site_point, &x, &y, &depth_m)
         && hypot (x - snap->x, y - snap->y) < snap->most_px;
}

static void
try_corners (const Snap *snap)
{
  GHashTableIter iter;
  gpointer value;
  Best best = { INFINITY, INFINITY };
  g_hash_table_iter_init (&iter, snap->edges);
  while (g_hash_table_iter_next (&iter, NULL, &value))
    {
      const Edge *edge = value;
      for (int i = 0; i < 2 && is_seen_as_edge (edge); i++)
        {
          TrnVec3 point = trn_pose_apply (snap->site_from_mesh, edge->key.ends[i]);
          if (is_within (snap, point) && is_corner (snap, edge->key.ends[i]))
            offer (snap, DESK_ON_CORNER, point, &best);
        }
    }
}

/* The point of the segment that is nearest to the ray. */
static TrnVec3
nearest_on_segment (TrnVec3 a, TrnVec3 b, TrnVec3 origin, TrnVec3 direction)
{
  TrnVec3 along = trn_vec3_sub (b, a), from = trn_vec3_sub (a, origin);
  double length_squared = trn_vec3_length_squared (along);
  double slant = trn_vec3_dot (along, direction);
  double between = length_squared - slant * slant;
  if (between <= 1e-12 * length_squared)
    return a;
  double t = (slant * trn_vec3_dot (from, direction) - trn_vec3_dot (from, along)) / between;
  return trn_vec3_mix (a, b, CLAMP (t, 0, 1));
}

static void
try_edges (const Snap *snap)
{
  GHashTableIter iter;
  gpointer value;
  TrnVec3 origin, direction;
  render_camera_ray (snap->camera, snap->size, snap->x, snap->y, &origin, &direction);
  Best best = { INFINITY, INFINITY };
  g_hash_table_iter_init (&iter, snap->edges);
  while (g_hash_table_iter_next (&iter, NULL, &value))
    {
      const Edge *edge = value;
      if (!is_seen_as_edge (edge))
        continue;
      TrnVec3 a = trn_pose_apply (snap->site_from_mesh, edge->key.ends[0]);
      TrnVec3 b = trn_pose_apply (snap->site_from_mesh, edge->key.ends[1]);
      offer (snap, DESK_ON_EDGE, nearest_on_segment (a, b, origin, direction), &best);
    }
}

void
desk_probe_snap (const DeskProbe *probe, const RenderCamera *camera, RenderSize size, double x,
                 double y, double snap_px, DeskHit *hit)
{
  const DeskProbeBody *body = &probe->bodies[hit->body];
  double metre = render_camera_metres_per_pixel (camera, size, hit->point);
  g_autoptr (GHashTable) edges = g_hash_table_new_full (hash_edge, equal_edges, NULL, g_free);
  Collect collect = { .mesh = body->body->mesh,
                      .near = trn_pose_apply_inverse (&body->site_from_body, hit->point),
                      .reach_m = COLLECT * snap_px * metre,
                      .is_cut = hit->on == DESK_ON_CUT,
                      .edges = edges };
  if (collect.is_cut)
    {
      const RenderSection *section = &probe->section;
      const TrnPose *pose = &body->site_from_body;
      collect.normal = trn_rotation_apply_inverse (&pose->turn, section->normal);
      collect.offset_m = section->offset_m - trn_vec3_dot (section->normal, pose->position);
    }
  collect_edges (&collect, body->body->bvh);
  Snap snap = { .probe = probe,
                .camera = camera,
                .size = size,
                .x = x,
                .y = y,
                .most_px = snap_px,
                .site_from_mesh = &body->site_from_body,
                .edges = edges,
                .hit = hit };
  try_corners (&snap);
  if (hit->on != DESK_ON_CORNER)
    try_edges (&snap);
}
