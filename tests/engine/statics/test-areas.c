/* What a search for the greatest area is made of, each by itself, in quadruple precision and
 * without any allowance: bodies for which what is added for rounding is greater than all else that
 * makes an area larger than it is. */
#include "silhouette-convex.h"

#include "quad.h"
#include "test-scale.h"
#include "test-shapes.h"

static double
random_along (void)
{
  return g_test_rand_double_range (-1, 1);
}

static TrnVec3
random_point (void)
{
  const double x = random_along (), y = random_along ();
  return trn_vec3_make (x, y, random_along ());
}

static TrnSight
sight_along (TrnVec3 direction)
{
  TrnSight sight = { .along = trn_vec3_unit (direction) };
  sight.across = trn_vec3_square_to (sight.along);
  sight.up = trn_vec3_cross (sight.along, sight.across);
  return sight;
}

/* What all triangles show, as if none hid another: twice what a convex body does. */
static Quad
all_shown (const TrnMesh *mesh, TrnVec3 direction)
{
  const QuadVec d = quad_vec (direction);
  Quad sum = 0;
  for (guint32 i = 0; i < mesh->n_triangles; i++)
    {
      TrnVec3 c[3];
      trn_mesh_corners (mesh, i, c);
      const QuadVec a = quad_sub (quad_vec (c[1]), quad_vec (c[0])),
                    b = quad_sub (quad_vec (c[2]), quad_vec (c[0]));
      const Quad twice = quad_product (quad_cross (a, b), d);
      sum += 0.5 * (twice < 0 ? -twice : twice);
    }
  return sum / quad_length (d);
}

static TrnConvexAreas
areas_of (const TrnMesh *mesh, const TrnSight *sight, gboolean is_closed)
{
  g_autoptr (TrnNormals) normals = trn_normals_build (mesh);
  TrnSlabs *slabs = trn_slabs_build (mesh, trn_box_centre (&mesh->box), 1);
  TrnConvexRoom room;
  trn_convex_room_init (&room, normals, slabs);
  const TrnConvexAreas areas
      = trn_convex_areas (&room, sight, is_closed, (TrnConvexWants){ TRUE, TRUE });
  trn_convex_room_clear (&room);
  trn_slabs_free (slabs);
  return areas;
}

/* Boxes of any shape near the origin or far from it: none of their corners is left out, and the
 * hull is what they show, but for rounding. */
static void
test_hull (void)
{
  for (guint i = 0; i < test_scaled (300); i++)
    {
      const TrnVec3 lo = trn_vec3_scale (random_point (), i % 2 ? 1 : 100);
      const TrnVec3 size = { 0.1 + fabs (random_along ()), 0.1 + fabs (random_along ()),
                             0.1 + fabs (random_along ()) };
      g_autoptr (TrnMesh) mesh = test_box (lo, trn_vec3_add (lo, size));
      const TrnSight sight = sight_along (random_point ());
      const TrnConvexAreas areas = areas_of (mesh, &sight, TRUE);
      const Quad truth = 0.5 * all_shown (mesh, sight.along);
      g_assert_true (areas.hull_m2 >= truth);
      g_assert_true (areas.slabs_m2 - fabs (areas.shared_m2) >= truth);
      g_assert_true (areas.sum_m2 >= truth);
      g_assert_true (areas.hull_m2 <= truth * (1 + 1e-7));
    }
}

/* Very many equal triangles, of which single precision loses a little with each that is added: more
 * than a share of the area of all would be. */
static void
test_sum (void)
{
  for (guint i = 0; i < test_scaled (40); i++)
    {
      const double size = g_test_rand_double_range (1, 2);
      TrnMeshBuilder *builder = trn_mesh_builder_new ();
      trn_mesh_builder_vertex (builder, trn_vec3_make (0, 0, 0));
      trn_mesh_builder_vertex (builder, trn_vec3_make (2 * size, 0, 0));
      trn_mesh_builder_vertex (builder, trn_vec3_make (0, 1, 0));
      for (guint k = 0; k < 2048; k++)
        trn_mesh_builder_triangle (builder, 0, 1, 2);
      g_autoptr (TrnMesh) mesh = trn_mesh_builder_finish (builder);
      const TrnSight sight = sight_along (trn_vec3_make (0, 0, 1));
      g_assert_true (areas_of (mesh, &sight, FALSE).sum_m2 >= all_shown (mesh, sight.along));
    }
}

static TrnMesh *
single_triangle (TrnVec3 c[3])
{
  TrnMeshBuilder *builder = trn_mesh_builder_new ();
  for (guint k = 0; k < 3; k++)
    c[k] = random_point ();
  for (guint k = 0; k < 3; k++)
    trn_mesh_builder_vertex (builder, c[k]);
  trn_mesh_builder_triangle (builder, 0, 1, 2);
  return trn_mesh_builder_finish (builder);
}

/* A triangle seen all but edge on: what it shows is less than what is rounded, of the sum in single
 * precision and, where it is nothing to within rounding, of its picture. */
static void
test_edge_on (void)
{
  for (guint i = 0; i < test_scaled (200); i++)
    {
      TrnVec3 c[3];
      g_autoptr (TrnMesh) mesh = single_triangle (c);
      const TrnVec3 within = trn_vec3_mix (trn_vec3_sub (c[1], c[0]), trn_vec3_sub (c[2], c[0]),
                                           g_test_rand_double_range (0, 1));
      const TrnSight sight = sight_along (within),
                     aslant
                     = sight_along (trn_vec3_add_scaled (sight.along, random_point (), 1e-8));
      g_assert_true (areas_of (mesh, &aslant, FALSE).sum_m2 >= all_shown (mesh, aslant.along));
      g_autoptr (TrnFacets) facets = trn_facets_of_triangles (mesh, FALSE);
      g_autoptr (TrnPicture) picture = trn_picture_new (facets);
      g_assert_true (trn_picture_bound_m2 (picture, &sight, 0, 1024)
                     >= all_shown (mesh, sight.along));
    }
}

/* A drum of flat facets that are coarse: many of its triangles lie beyond them, by up to what is
 * said. */
static void
test_thick (void)
{
  for (guint i = 0; i < test_scaled (10); i++)
    {
      g_autoptr (TrnMesh) mesh = test_drum (300, 1, -0.5, 0.5);
      g_autoptr (TrnFacets) facets = trn_facets_build (mesh, 0.05);
      g_autoptr (TrnPicture) picture = trn_picture_new (facets);
      g_assert_cmpuint (facets->n_facets, <, mesh->n_triangles / 2);
      const TrnSight sight = sight_along (random_point ());
      g_assert_true (trn_picture_bound_m2 (picture, &sight, 0, 1024)
                     >= 0.5 * all_shown (mesh, sight.along));
    }
}

/* A closed body that is flat but for rounding, seen along its plane: all of its sides are edge on,
 * and any may seem to face this way. With points that are off by as much as the slack it shows a
 * strip about as long as it is. */
static void
test_flat_body (void)
{
  static const guint sides[4][3] = { { 0, 2, 1 }, { 0, 1, 3 }, { 1, 2, 3 }, { 2, 0, 3 } };
  const double slack_m = 0.01;
  for (guint i = 0; i < test_scaled (400); i++)
    {
      const TrnVec3 along = random_point (), aside = random_point ();
      TrnMeshBuilder *builder = trn_mesh_builder_new ();
      TrnVec3 corner[4];
      double lo = INFINITY, hi = -INFINITY;
      const TrnSight sight = sight_along (along);
      for (guint k = 0; k < 4; k++)
        {
          corner[k] = trn_vec3_scale (along, random_along ());
          corner[k] = trn_vec3_add_scaled (corner[k], aside, random_along ());
          trn_mesh_builder_vertex (builder, corner[k]);
          const TrnVec3 square = trn_vec3_unit (
              trn_vec3_add_scaled (aside, sight.along, -trn_vec3_dot (aside, sight.along)));
          lo = fmin (lo, trn_vec3_dot (corner[k], square));
          hi = fmax (hi, trn_vec3_dot (corner[k], square));
        }
      for (guint k = 0; k < 4; k++)
        trn_mesh_builder_triangle (builder, sides[k][0], sides[k][1], sides[k][2]);
      g_autoptr (TrnMesh) mesh = trn_mesh_builder_finish (builder);
      g_autoptr (TrnFacets) facets = trn_facets_of_triangles (mesh, TRUE);
      g_autoptr (TrnPicture) picture = trn_picture_new (facets);
      g_assert_cmpfloat (trn_picture_bound_m2 (picture, &sight, slack_m, 1024), >=,
                         2 * slack_m * (hi - lo));
    }
}

/* Of a closed body only what faces away is drawn, of an open one all: a sheet shows the same from
 * both sides, and a box what it shows, by little more. */
static void
test_one_sided (void)
{
  for (guint i = 0; i < test_scaled (20); i++)
    {
      TrnVec3 c[3];
      g_autoptr (TrnMesh) sheet = single_triangle (c);
      g_autoptr (TrnMesh) box = test_box (trn_vec3_make (1, 2, 3), trn_vec3_make (2, 4, 6));
      const TrnVec3 direction = random_point ();
      for (int sign = -1; sign <= 1; sign += 2)
        {
          const TrnSight sight = sight_along (trn_vec3_scale (direction, sign));
          g_autoptr (TrnFacets) open = trn_facets_of_triangles (sheet, FALSE),
                                closed = trn_facets_of_triangles (box, TRUE);
          g_autoptr (TrnPicture) of_sheet = trn_picture_new (open),
                                 of_box = trn_picture_new (closed);
          const double truth = (double)(0.5 * all_shown (box, sight.along)),
                       pictured = trn_picture_bound_m2 (of_box, &sight, 0, 1024);
          g_assert_true (trn_picture_bound_m2 (of_sheet, &sight, 0, 1024)
                         >= all_shown (sheet, sight.along));
          g_assert_cmpfloat (pictured, >=, truth);
          g_assert_cmpfloat (pictured, <=, truth * 1.01);
        }
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/areas/hull", test_hull);
  g_test_add_func ("/areas/sum", test_sum);
  g_test_add_func ("/areas/edge-on", test_edge_on);
  g_test_add_func ("/areas/thick", test_thick);
  g_test_add_func ("/areas/flat-body", test_flat_body);
  g_test_add_func ("/areas/one-sided", test_one_sided);
  return g_test_run ();
}
