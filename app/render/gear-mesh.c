/* gear-mesh.c: hulls by brute force: each plane through three corners that has all others on one
 * side is a face. With 16 corners at most that is some thousand products, and needs no care for
 * corners that coincide or lie in a line. */
#include "gear-mesh.h"

#include <math.h>

/* Corners nearer to the plane of a face than this share of the size of the body lie in it. */
#define FLAT_SHARE 1e-5
#define BAR_SIDES 12
/* Of its length: steeper, there is no level direction across a bar. */
#define UPRIGHT 1e-6

typedef struct
{
  const TrnVec3 *corners;
  guint n;
  double flat_m;
  TrnVec3 middle;
} Hull;

static Hull
hull_make (const TrnVec3 *corners, guint n)
{
  Hull hull = { .corners = corners, .n = n };
  TrnBox box = trn_box_empty ();
  for (guint i = 0; i < n; i++)
    trn_box_add_point (&box, corners[i]);
  hull.flat_m = FLAT_SHARE * trn_vec3_length (trn_box_size (&box));
  hull.middle = trn_box_centre (&box);
  return hull;
}

/* The corners in the plane of three of them, when all others lie on its far side, as bits; 0 when
 * they do not, or the three lie in a line. @normal points outwards. */
static guint32
face_through (const Hull *hull, guint i, guint j, guint k, TrnVec3 *normal)
{
  TrnVec3 a = hull->corners[i];
  TrnVec3 ab = trn_vec3_sub (hull->corners[j], a), ac = trn_vec3_sub (hull->corners[k], a);
  TrnVec3 across = trn_vec3_cross (ab, ac);
  double length = trn_vec3_length (across);
  if (length <= hull->flat_m * fmax (trn_vec3_length (ab), trn_vec3_length (ac)))
    return 0;
  *normal = trn_vec3_scale (across, 1 / length);
  guint32 in_plane = 0;
  gboolean above = FALSE, below = FALSE;
  for (guint m = 0; m < hull->n; m++)
    {
      double height = trn_vec3_dot (*normal, trn_vec3_sub (hull->corners[m], a));
      above |= height > hull->flat_m;
      below |= height < -hull->flat_m;
      if (fabs (height) <= hull->flat_m)
        in_plane |= 1u << m;
    }
  if (above == below)
    return 0;
  if (above)
    *normal = trn_vec3_scale (*normal, -1);
  return in_plane;
}

typedef struct
{
  guint corner;
  double angle;
} Around;

static int
compare_around (const void *a, const void *b)
{
  double p = ((const Around *)a)->angle, q = ((const Around *)b)->angle;
  return p < q ? -1 : p > q;
}

/* A face as a fan, counter-clockwise seen from outside. */
static void
add_face (const Hull *hull, guint32 in_plane, TrnVec3 normal, GArray *triangles)
{
  Around around[RENDER_HULL_CORNERS];
  guint n = 0;
  TrnVec3 centre = { 0, 0, 0 };
  for (guint m = 0; m < hull->n; m++)
    if (in_plane & 1u << m)
      {
        around[n++].corner = m;
        centre = trn_vec3_add (centre, hull->corners[m]);
      }
  centre = trn_vec3_scale (centre, 1.0 / n);
  TrnVec3 other = fabs (normal.z) < 0.7 ? (TrnVec3){ 0, 0, 1 } : (TrnVec3){ 1, 0, 0 };
  TrnVec3 x = trn_vec3_unit (trn_vec3_cross (other, normal)), y = trn_vec3_cross (normal, x);
  for (guint i = 0; i < n; i++)
    {
      TrnVec3 out = trn_vec3_sub (hull->corners[around[i].corner], centre);
      around[i].angle = atan2 (trn_vec3_dot (out, y), trn_vec3_dot (out, x));
    }
  qsort (around, n, sizeof *around, compare_around);
  for (guint i = 1; i + 1 < n; i++)
    {
      TrnTriangle triangle = { { around[0].corner, around[i].corner, around[i + 1].corner } };
      g_array_append_val (triangles, triangle);
    }
}

static TrnMesh *
mesh_take (TrnVec3 *vertices, guint n_vertices, GArray *triangles)
{
  guint n = triangles->len;
  return trn_mesh_new_take (vertices, n_vertices,
                            (TrnTriangle *)(gpointer)g_array_free (triangles, FALSE), n, NULL, 0);
}

TrnMesh *
render_hull_mesh (const TrnVec3 *corners, guint n_corners)
{
  g_assert (n_corners <= RENDER_HULL_CORNERS);
  Hull hull = hull_make (corners, n_corners);
  GArray *triangles = g_array_new (FALSE, FALSE, sizeof (TrnTriangle));
  g_autoptr (GArray) faces = g_array_new (FALSE, FALSE, sizeof (guint32));
  for (guint i = 0; i < n_corners; i++)
    for (guint j = i + 1; j < n_corners; j++)
      for (guint k = j + 1; k < n_corners; k++)
        {
          TrnVec3 normal = { 0, 0, 0 };
          guint32 face = face_through (&hull, i, j, k, &normal);
          gboolean is_new = face != 0;
          for (guint f = 0; f < faces->len; f++)
            is_new &= g_array_index (faces, guint32, f) != face;
          if (!is_new)
            continue;
          g_array_append_val (faces, face);
          add_face (&hull, face, normal, triangles);
        }
  if (triangles->len == 0)
    {
      g_array_unref (triangles);
      return NULL;
    }
  return mesh_take (g_memdup2 (corners, n_corners * sizeof *corners), n_corners, triangles);
}

/* Two directions square to a bar, the first level. FALSE where it has no length. */
static gboolean
across (TrnVec3 from, TrnVec3 to, TrnVec3 *along, TrnVec3 *level, TrnVec3 *upward)
{
  TrnVec3 way = trn_vec3_sub (to, from);
  double length_m = trn_vec3_length (way);
  if (!(length_m > 0))
    return FALSE;
  *along = trn_vec3_scale (way, 1 / length_m);
  *level = hypot (along->x, along->y) > UPRIGHT
               ? trn_vec3_unit ((TrnVec3){ -along->y, along->x, 0 })
               : (TrnVec3){ 1, 0, 0 };
  *upward = trn_vec3_cross (*along, *level);
  return TRUE;
}

TrnMesh *
render_beam_mesh (TrnVec3 from, TrnVec3 to, double width_m, double depth_m)
{
  TrnVec3 along, level, upward, corners[8];
  if (!across (from, to, &along, &level, &upward))
    return NULL;
  for (guint i = 0; i < 8; i++)
    {
      TrnVec3 end = i & 4 ? to : from;
      end = trn_vec3_add_scaled (end, level, (i & 1 ? 0.5 : -0.5) * width_m);
      corners[i] = trn_vec3_add_scaled (end, upward, (i & 2 ? 0.5 : -0.5) * depth_m);
    }
  return render_hull_mesh (corners, 8);
}

TrnMesh *
render_bar_mesh (TrnVec3 from, TrnVec3 to, double radius_m)
{
  TrnVec3 along, level, upward;
  if (!(radius_m > 0))
    return NULL;
  if (!across (from, to, &along, &level, &upward))
    {
      along = (TrnVec3){ 0, 0, 1 };
      level = (TrnVec3){ 1, 0, 0 };
      upward = (TrnVec3){ 0, 1, 0 };
    }
  TrnVec3 ends[2]
      = { trn_vec3_add_scaled (from, along, -radius_m), trn_vec3_add_scaled (to, along, radius_m) };
  double out_m = radius_m / cos (G_PI / BAR_SIDES);
  TrnVec3 *vertices = g_new (TrnVec3, 2 * BAR_SIDES);
  for (guint i = 0; i < BAR_SIDES; i++)
    {
      double angle = 2 * G_PI * i / BAR_SIDES;
      TrnVec3 out = trn_vec3_scale (level, out_m * cos (angle));
      out = trn_vec3_add_scaled (out, upward, out_m * sin (angle));
      vertices[i] = trn_vec3_add (ends[0], out);
      vertices[BAR_SIDES + i] = trn_vec3_add (ends[1], out);
    }
  GArray *triangles = g_array_new (FALSE, FALSE, sizeof (TrnTriangle));
  for (guint i = 0; i < BAR_SIDES; i++)
    {
      guint next = (i + 1) % BAR_SIDES;
      TrnTriangle sides[2]
          = { { { i, next, BAR_SIDES + next } }, { { i, BAR_SIDES + next, BAR_SIDES + i } } };
      g_array_append_vals (triangles, sides, 2);
      TrnTriangle caps[2]
          = { { { 0, next, i } }, { { BAR_SIDES, BAR_SIDES + i, BAR_SIDES + next } } };
      if (i > 0 && next > 0)
        g_array_append_vals (triangles, caps, 2);
    }
  return mesh_take (vertices, 2 * BAR_SIDES, triangles);
}
