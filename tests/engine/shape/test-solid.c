/* Solids as triangles against the same solids in closed form (true-solid.c), over random sizes and
 * deviations of 0.05 mm to 5 mm:
 * - every point of the true solid lies in the triangles (winding number by brute force), or exactly
 *   on one of them, for faces that are exact doubles;
 * - no point of the triangles is farther from the true solid than the deviation;
 * - every mesh is closed and faces outwards.
 * The ranges of sizes are what a site has; no source. */
#include "mass.h"
#include "mesh-check.h"
#include "true-solid.h"

#include <stdlib.h>

static guint
scaled (guint n)
{
  const char *scale = g_getenv ("TRUNNION_TEST_SCALE");
  return (guint)fmax (1, n * (scale != NULL ? g_ascii_strtod (scale, NULL) : 1));
}

/* Points on faces lie a few 1e-12 of the size within the triangles, and an edge can be a thousand
 * times longer than the body is wide: the winding number takes more than double precision. */
typedef struct
{
  long double x, y, z;
} Long;

static long double
long_dot (Long a, Long b)
{
  return a.x * b.x + a.y * b.y + a.z * b.z;
}

/* The solid angle of a triangle seen from @p (van Oosterom and Strackee 1983). */
static long double
solid_angle (const TrnVec3 corners[3], TrnVec3 p)
{
  Long v[3];
  long double length[3];
  for (int k = 0; k < 3; k++)
    {
      v[k] = (Long){ (long double)corners[k].x - p.x, (long double)corners[k].y - p.y,
                     (long double)corners[k].z - p.z };
      length[k] = sqrtl (long_dot (v[k], v[k]));
    }
  Long cross = { v[1].y * v[2].z - v[1].z * v[2].y, v[1].z * v[2].x - v[1].x * v[2].z,
                 v[1].x * v[2].y - v[1].y * v[2].x };
  long double below = length[0] * length[1] * length[2] + long_dot (v[0], v[1]) * length[2]
                      + long_dot (v[1], v[2]) * length[0] + long_dot (v[2], v[0]) * length[1];
  return 2 * atan2l (long_dot (v[0], cross), below);
}

/* Whether a point lies in a triangle, to within the rounding of one operation. */
static gboolean
is_on_triangle (TrnVec3 a, TrnVec3 b, TrnVec3 c, double size)
{
  TrnVec3 normal = trn_vec3_cross (trn_vec3_sub (b, a), trn_vec3_sub (c, a));
  double area = trn_vec3_length (normal);
  if (fabs (trn_vec3_dot (a, normal)) > 2.3e-16 * size * area)
    return FALSE;
  return trn_vec3_dot (trn_vec3_cross (a, b), normal) >= -1e-12 * size * size * area
         && trn_vec3_dot (trn_vec3_cross (b, c), normal) >= -1e-12 * size * size * area
         && trn_vec3_dot (trn_vec3_cross (c, a), normal) >= -1e-12 * size * size * area;
}

static gboolean
is_in_triangles (const TrnMesh *mesh, TrnVec3 p)
{
  long double sum = 0;
  for (guint32 i = 0; i < mesh->n_triangles; i++)
    {
      TrnVec3 c[3];
      trn_mesh_corners (mesh, i, c);
      sum += solid_angle (c, p);
      for (int k = 0; k < 3; k++)
        c[k] = trn_vec3_sub (c[k], p);
      if (is_on_triangle (c[0], c[1], c[2], trn_vec3_max_abs (p)))
        return TRUE;
    }
  return sum > 2 * (long double)G_PI;
}

static void
check_contains (const TrnSolid *solid, const TrnSolidPart *part)
{
  /* A budget of triangles, so that large meshes are asked less often. */
  guint n = (guint)fmin (60, 40000.0 / part->mesh->n_triangles) + 4;
  for (guint i = 0; i < n; i++)
    {
      TrnVec3 p = true_solid_sample (solid, part->id);
      if (!is_in_triangles (part->mesh, p))
        {
          g_test_message ("%s “%s”: (%.17g, %.17g, %.17g) lies outside",
                          trn_solid_kind_name (solid->kind), part->id, p.x, p.y, p.z);
          g_test_fail ();
        }
    }
}

static double
farthest (const TrnSolid *solid, const TrnSolidPart *part)
{
  const TrnMesh *mesh = part->mesh;
  double most = 0;
  guint n = MIN (mesh->n_triangles, 400);
  for (guint i = 0; i < n; i++)
    {
      guint32 triangle = mesh->n_triangles <= 400
                             ? i
                             : (guint32)g_test_rand_int_range (0, (gint32)mesh->n_triangles);
      TrnVec3 c[3];
      trn_mesh_corners (mesh, triangle, c);
      double u = g_test_rand_double (), v = g_test_rand_double ();
      TrnVec3 p = trn_vec3_mix (trn_vec3_mix (c[0], c[1], u), c[2], v);
      most = fmax (most, true_solid_distance (solid, part->id, p));
      most = fmax (most, true_solid_distance (solid, part->id, c[i % 3]));
    }
  return most;
}

static void
check_solid (const TrnSolid *solid, double deviation_m)
{
  g_autoptr (GPtrArray) parts = trn_solid_build (solid, deviation_m);
  g_assert_cmpuint (parts->len, >=, 1);
  for (guint i = 0; i < parts->len; i++)
    {
      const TrnSolidPart *part = g_ptr_array_index (parts, i);
      g_autoptr (TrnMeshCheck) check = trn_mesh_check_new (part->mesh);
      g_assert_true (check->closed);
      g_assert_cmpuint (check->n_duplicate, ==, 0);
      /* Openings that line up to within rounding leave needles between them. */
      if (solid->kind != TRN_SOLID_GROUND && solid->kind != TRN_SOLID_GROUP)
        g_assert_cmpuint (check->n_degenerate, ==, 0);
      g_assert_cmpuint (check->n_inside_out, ==, 0);
      for (guint32 k = 0; k < check->n_pieces; k++)
        g_assert_cmpfloat (check->pieces[k].volume_m3, >, 0);
      check_contains (solid, part);
      g_assert_cmpfloat (farthest (solid, part), <=, deviation_m);
    }
}

static void
test_kind (gconstpointer data)
{
  TrnSolidKind kind = (TrnSolidKind)GPOINTER_TO_INT (data);
  guint n = scaled (kind == TRN_SOLID_OVERHEAD_LINE || kind == TRN_SOLID_GROUP ? 30 : 60);
  for (guint i = 0; i < n; i++)
    {
      g_autoptr (TrnSolid) solid = true_solid_random (kind);
      check_solid (solid, exp (g_test_rand_double_range (log (0.05e-3), log (5e-3))));
    }
}

/* ---- exact values ---- */

static const TrnSolidPart *
part_of (GPtrArray *parts, guint index, const char *id)
{
  g_assert_cmpuint (index, <, parts->len);
  const TrnSolidPart *part = g_ptr_array_index (parts, index);
  g_assert_cmpstr (part->id, ==, id);
  return part;
}

static void
assert_box (const TrnMesh *mesh, TrnVec3 lo, TrnVec3 hi, double within)
{
  g_assert_cmpfloat (trn_vec3_max_abs (trn_vec3_sub (mesh->box.lo, lo)), <=, within);
  g_assert_cmpfloat (trn_vec3_max_abs (trn_vec3_sub (mesh->box.hi, hi)), <=, within);
}

/* A box has no rounding at all: its corners are the doubles that were asked for. */
static void
test_box_exact (void)
{
  g_autoptr (TrnSolid) solid = trn_solid_new (TRN_SOLID_BOX);
  solid->size = trn_vec3_make (2.2, 3.4, 0.7);
  g_autoptr (GPtrArray) parts = trn_solid_build (solid, 1e-3);
  const TrnSolidPart *part = part_of (parts, 0, "");
  assert_box (part->mesh, trn_vec3_make (-1.1, -1.7, 0), trn_vec3_make (1.1, 1.7, 0.7), 0);
  g_assert_cmpuint (part->mesh->n_triangles, ==, 12);
}

/* Inside 12 m across, 30 m deep, wall 0.8 m, floor 1.5 m. The wall ends where the floor begins; the
 * floor reaches under the wall. Volumes of the true parts: π (6.8² − 6²) 30 and π 6.8² 1.5. The
 * triangles may have more, by the deviation on each face at most. */
static void
test_round_shaft_parts (void)
{
  g_autoptr (TrnSolid) solid = trn_solid_new (TRN_SOLID_ROUND_SHAFT);
  solid->inner_diameter_m = 12;
  solid->depth_m = 30;
  solid->wall_m = 0.8;
  solid->floor_m = 1.5;
  g_autoptr (GPtrArray) parts = trn_solid_build (solid, 0.5e-3);
  g_assert_cmpuint (parts->len, ==, 2);
  const TrnMesh *wall = part_of (parts, 0, "wall")->mesh,
                *floor = part_of (parts, 1, "floor")->mesh;
  assert_box (wall, trn_vec3_make (-6.8, -6.8, -30), trn_vec3_make (6.8, 6.8, 0), 0.5e-3);
  assert_box (floor, trn_vec3_make (-6.8, -6.8, -31.5), trn_vec3_make (6.8, 6.8, -30), 0.5e-3);
  g_assert_cmpfloat (wall->box.lo.z, ==, -30);
  g_assert_cmpfloat (floor->box.hi.z, ==, -30);
  double wall_true = G_PI * (6.8 * 6.8 - 36) * 30, floor_true = G_PI * 6.8 * 6.8 * 1.5;
  double wall_more = trn_mesh_mass_properties (wall).volume_m3 - wall_true;
  double floor_more = trn_mesh_mass_properties (floor).volume_m3 - floor_true;
  g_assert_cmpfloat (wall_more, >, 0);
  g_assert_cmpfloat (wall_more, <, 0.5e-3 * 2 * G_PI * (6.8 + 6) * 30);
  g_assert_cmpfloat (floor_more, >, 0);
  g_assert_cmpfloat (floor_more, <, 0.5e-3 * 2 * G_PI * 6.8 * 1.5);

  solid->floor_m = 0;
  g_autoptr (GPtrArray) open = trn_solid_build (solid, 0.5e-3);
  g_assert_cmpuint (open->len, ==, 1);
  part_of (open, 0, "wall");
}

/* A vertical beam 2 m high, 0.6 m wide, 0.2 m deep: the width lies along X, whichever end is up,
 * and also when it is out of plumb by less than counts. A beam along X has its width along Y. */
static void
test_beam_axes (void)
{
  g_autoptr (TrnSolid) solid = trn_solid_new (TRN_SOLID_BEAM);
  solid->width_m = 0.6;
  solid->depth_m = 0.2;
  for (int i = 0; i < 3; i++)
    {
      solid->from = trn_vec3_make (0, 0, i == 1 ? 2 : 0);
      solid->to = trn_vec3_make (0, i == 2 ? 1e-10 : 0, i == 1 ? 0 : 2);
      g_autoptr (GPtrArray) parts = trn_solid_build (solid, 1e-3);
      assert_box (part_of (parts, 0, "")->mesh, trn_vec3_make (-0.3, -0.1, 0),
                  trn_vec3_make (0.3, 0.1, 2), 1e-9);
    }
  solid->from = trn_vec3_make (1, 0, 0);
  solid->to = trn_vec3_make (4, 0, 0);
  g_autoptr (GPtrArray) parts = trn_solid_build (solid, 1e-3);
  assert_box (part_of (parts, 0, "")->mesh, trn_vec3_make (1, -0.3, -0.1),
              trn_vec3_make (4, 0.3, 0.1), 1e-9);
}

/* A conductor of 30 mm over 200 m with 8 m of sag from 25 m: lowest at 25 − 8 − 0.015 m. */
static void
test_sag (void)
{
  g_autoptr (TrnSolid) solid = trn_solid_new (TRN_SOLID_OVERHEAD_LINE);
  solid->diameter_m = 0.03;
  solid->n_conductors = 1;
  solid->conductors = g_new0 (TrnConductor, 1);
  solid->conductors[0] = (TrnConductor){ { -100, 5, 25 }, { 100, 5, 25 }, 8 };
  g_autoptr (GPtrArray) parts = trn_solid_build (solid, 0.5e-3);
  const TrnMesh *mesh = part_of (parts, 0, "")->mesh;
  g_assert_cmpfloat (mesh->box.lo.z, <=, 16.985);
  g_assert_cmpfloat (mesh->box.lo.z, >=, 16.985 - 0.5e-3);
}

/* Openings whose corners lie on common lines, in rows and columns and staggered: the sweep meets
 * many corners at the same x, and joins regions that wait. Square openings of 1 m in a plate of 12
 * m by 12 m leave 0.5 m · (144 − n) of volume. */
static void
test_ground_rows (void)
{
  for (int stagger = 0; stagger < 3; stagger++)
    {
      g_autoptr (TrnSolid) solid = trn_solid_new (TRN_SOLID_GROUND);
      solid->size = trn_vec3_make (12, 12, 0);
      solid->openings = g_new0 (TrnOpening, 25);
      for (int i = 0; i < 25; i++)
        solid->openings[solid->n_openings++]
            = (TrnOpening){ .kind = TRN_OPENING_RECT,
                            .x_m = 2 * (i % 5) - 4 + 0.5 * stagger * (i / 5 % 2),
                            .y_m = 2 * (i / 5) - 4,
                            .width_m = 1,
                            .height_m = 1 };
      check_solid (solid, 1e-3);
      g_autoptr (GPtrArray) parts = trn_solid_build (solid, 1e-3);
      TrnMassProperties mass = trn_mesh_mass_properties (part_of (parts, 0, "")->mesh);
      g_assert_cmpfloat (fabs (mass.volume_m3 - 0.5 * (144 - 25)), <, 1e-9);
      g_assert_cmpfloat (fabs (mass.area_m2 - 2 * (144 - 25) - 0.5 * (48 + 100)), <, 1e-9);
    }
}

/* The volume of a ground is its thickness times the signed area of one face. Where triangles of a
 * face overlapped or were turned over, the sum of their areas would be greater. */
static void
test_ground_overlap (void)
{
  guint n = scaled (40);
  for (guint i = 0; i < n; i++)
    {
      g_autoptr (TrnSolid) solid = true_solid_random (TRN_SOLID_GROUND);
      g_autoptr (GPtrArray) parts = trn_solid_build (solid, 2e-3);
      const TrnMesh *mesh = part_of (parts, 0, "")->mesh;
      double area = 0, face = trn_mesh_mass_properties (mesh).volume_m3 / TRN_GROUND_THICKNESS_M;
      for (guint32 k = 0; k < mesh->n_triangles; k++)
        {
          TrnVec3 c[3];
          trn_mesh_corners (mesh, k, c);
          if (c[0].z == 0 && c[1].z == 0 && c[2].z == 0)
            area += 0.5
                    * trn_vec3_length (
                        trn_vec3_cross (trn_vec3_sub (c[1], c[0]), trn_vec3_sub (c[2], c[0])));
        }
      g_assert_cmpfloat (fabs (area - face), <=, 1e-11 * face);
    }
}

/* The same solid makes the same mesh, known by its hash; another deviation makes another. */
static void
test_repeatable (void)
{
  g_autoptr (TrnSolid) solid = true_solid_random (TRN_SOLID_GROUP);
  g_autoptr (GPtrArray) a = trn_solid_build (solid, 1e-3), b = trn_solid_build (solid, 1e-3);
  g_assert_cmpuint (a->len, ==, b->len);
  for (guint i = 0; i < a->len; i++)
    {
      const TrnSolidPart *p = g_ptr_array_index (a, i), *q = g_ptr_array_index (b, i);
      g_assert_cmpstr (p->id, ==, q->id);
      g_assert_cmpstr (p->mesh->hash, ==, q->mesh->hash);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (int kind = TRN_SOLID_BOX; kind <= TRN_SOLID_GROUP; kind++)
    {
      g_autofree char *path
          = g_strconcat ("/shape/solid/random/", trn_solid_kind_name ((TrnSolidKind)kind), NULL);
      g_test_add_data_func (path, GINT_TO_POINTER (kind), test_kind);
    }
  g_test_add_func ("/shape/solid/box-exact", test_box_exact);
  g_test_add_func ("/shape/solid/round-shaft-parts", test_round_shaft_parts);
  g_test_add_func ("/shape/solid/beam-axes", test_beam_axes);
  g_test_add_func ("/shape/solid/sag", test_sag);
  g_test_add_func ("/shape/solid/ground-rows", test_ground_rows);
  g_test_add_func ("/shape/solid/ground-overlap", test_ground_overlap);
  g_test_add_func ("/shape/solid/repeatable", test_repeatable);
  return g_test_run ();
}
