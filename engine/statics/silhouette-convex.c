/* Slabs: what they show together is no more than what each shows, less what each shows of what the
 * one before it shows as well. That is all that the flat piece shows that the two share, at least:
 * its area times the cosine to the axis. Taken with the sign that the cosine has in the middle of
 * some directions it is linear; where the sign is another, less is taken off than could be. */
#include "silhouette-convex.h"

#include "outermost.h"

/* More than all roundings, as a share of the size. */
#define OUTWARDS 1e-9
/* Of sums of single precision: of the sum, and of the area of all triangles. */
#define SUM_OUTWARDS 2e-4
#define AREA_OUTWARDS 1e-6
#define SUM_RUN 1024
#define MANY 24u /* points */

TrnNormals *
trn_normals_build (const TrnMesh *mesh)
{
  TrnNormals *normals = g_new0 (TrnNormals, 1);
  normals->n = mesh->n_triangles;
  for (int k = 0; k < 3; k++)
    normals->along[k] = g_new (float, mesh->n_triangles);
  for (guint32 i = 0; i < mesh->n_triangles; i++)
    {
      TrnVec3 c[3];
      trn_mesh_corners (mesh, i, c);
      const TrnVec3 area = trn_vec3_scale (
          trn_vec3_cross (trn_vec3_sub (c[1], c[0]), trn_vec3_sub (c[2], c[0])), 0.5);
      normals->area_m2 += trn_vec3_length (area);
      normals->along[0][i] = (float)area.x;
      normals->along[1][i] = (float)area.y;
      normals->along[2][i] = (float)area.z;
    }
  return normals;
}

void
trn_normals_free (TrnNormals *normals)
{
  for (int k = 0; k < 3; k++)
    g_free (normals->along[k]);
  g_free (normals);
}

void
trn_convex_room_init (TrnConvexRoom *room, const TrnNormals *normals, const TrnSlabs *slabs)
{
  const gsize n = (gsize)slabs->first[slabs->n] + slabs->n;
  *room = (TrnConvexRoom){ .normals = normals, .slabs = slabs };
  room->x = g_new (double, n);
  room->y = g_new (double, n);
  room->places = g_new (TrnPlanePoint, 2 * n);
  room->corners = g_new (TrnPlanePoint, 2 * n);
}

void
trn_convex_room_clear (TrnConvexRoom *room)
{
  g_free (room->x);
  g_free (room->y);
  g_free (room->places);
  g_free (room->corners);
}

static double
sum_of (const TrnNormals *normals, TrnVec3 direction)
{
  const float x = (float)direction.x, y = (float)direction.y, z = (float)direction.z;
  double sum = 0;
  for (guint from = 0; from < normals->n; from += SUM_RUN)
    {
      const guint n = MIN (SUM_RUN, normals->n - from);
      const float *a = normals->along[0] + from, *b = normals->along[1] + from,
                  *c = normals->along[2] + from;
      float lanes[4] = { 0, 0, 0, 0 };
      for (guint i = 0; i + 3 < n; i += 4)
        for (guint k = 0; k < 4; k++)
          lanes[k] += fabsf (a[i + k] * x + b[i + k] * y + c[i + k] * z);
      for (guint i = n & ~3u; i < n; i++)
        lanes[0] += fabsf (a[i] * x + b[i] * y + c[i] * z);
      sum += (double)lanes[0] + lanes[1] + lanes[2] + lanes[3];
    }
  return sum * (1 + SUM_OUTWARDS) + AREA_OUTWARDS * normals->area_m2;
}

/* With the axis upwards: rims are far across, which is quickly sorted. */
static TrnSight
laid_along (const TrnSight *sight, TrnVec3 axis)
{
  const double x = trn_vec3_dot (sight->across, axis), y = trn_vec3_dot (sight->up, axis),
               length = hypot (x, y);
  if (!(length > 1e-6))
    return *sight;
  const double c = y / length, s = x / length;
  TrnSight laid = *sight;
  laid.up = trn_vec3_add (trn_vec3_scale (sight->across, s), trn_vec3_scale (sight->up, c));
  laid.across = trn_vec3_add (trn_vec3_scale (sight->across, c), trn_vec3_scale (sight->up, -s));
  return laid;
}

/* Of the slab, those that may be corners of its hull, into room->places; their number. */
static guint
find_places (TrnConvexRoom *room, guint slab, const TrnSight *laid)
{
  const TrnSlabs *slabs = room->slabs;
  const guint first = slabs->first[slab], n = slabs->first[slab + 1] - first;
  const double *const along[3]
      = { slabs->along[0] + first, slabs->along[1] + first, slabs->along[2] + first };
  double *x = room->x, *y = room->y;
  trn_outermost_place (along, n, laid->across, laid->up, x, y);
  if (n >= MANY)
    return trn_outermost_keep (x, y, n, room->places);
  for (guint i = 0; i < n; i++)
    room->places[i] = (TrnPlanePoint){ x[i], y[i], i };
  return n;
}

/* The hull of all is that of the hulls of slabs. What is rounded of what slabs share is in what is
 * added to them for rounding. */
TrnConvexAreas
trn_convex_areas (TrnConvexRoom *room, const TrnSight *sight, gboolean is_closed,
                  TrnConvexWants wants)
{
  const TrnSlabs *slabs = room->slabs;
  const double rounding_m2 = OUTWARDS * slabs->reach_m * slabs->reach_m;
  TrnConvexAreas areas = { .shared_m2 = slabs->shared_m2 * trn_vec3_dot (sight->along, slabs->axis),
                           .hull_m2 = INFINITY,
                           .sum_m2 = INFINITY };
  const TrnSight laid = laid_along (sight, slabs->axis);
  guint n_corners = 0;
  if (wants.sum)
    areas.sum_m2 = (is_closed ? 0.5 : 1) * sum_of (room->normals, sight->along);
  for (guint k = 0; k < slabs->n; k++)
    {
      const guint n = find_places (room, k, &laid);
      TrnPlanePoint *chain = room->corners + n_corners;
      const guint used = trn_plane_hull (room->places, n, chain);
      areas.slabs_m2 += trn_plane_area (chain, used) + rounding_m2;
      n_corners += used;
    }
  if (!wants.hull)
    return areas;
  const guint used = trn_plane_hull (room->corners, n_corners, room->places);
  areas.hull_m2 = trn_plane_area (room->places, used) + rounding_m2;
  return areas;
}
