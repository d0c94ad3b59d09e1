/* Winding numbers, and one mesh inside another. Every body is a box, so that inside is evident. */
#include "inside.h"
#include "test-scale.h"
#include "test-shapes.h"

/* Adds a box from @lo to @hi, @turned inside out, without its last two triangles if @open. */
static void
add_box (TrnMeshBuilder *builder, TrnVec3 lo, TrnVec3 hi, gboolean turned, gboolean open)
{
  g_autoptr (TrnMesh) box = test_box (lo, hi);
  guint32 first = G_MAXUINT32;
  for (guint32 i = 0; i < box->n_vertices; i++)
    {
      guint32 index = trn_mesh_builder_vertex (builder, box->vertices[i]);
      first = MIN (first, index);
    }
  for (guint32 i = 0; i < box->n_triangles - (open ? 2 : 0); i++)
    {
      const guint32 *v = box->triangles[i].v;
      trn_mesh_builder_triangle (builder, first + v[0], first + v[turned ? 2 : 1],
                                 first + v[turned ? 1 : 2]);
    }
}

static TrnVec3
cube_corner (double k)
{
  return trn_vec3_make (k, k, k);
}

/* A cube of half side @k about the centre. */
static TestBody
cube (double k, gboolean open)
{
  TrnMeshBuilder *builder = trn_mesh_builder_new ();
  add_box (builder, cube_corner (-k), cube_corner (k), FALSE, open);
  return test_body_take (trn_mesh_builder_finish (builder));
}

/* A cube of half side @outer with a hollow of half side @inner. */
static TestBody
hollow_cube (double outer, double inner)
{
  TrnMeshBuilder *builder = trn_mesh_builder_new ();
  add_box (builder, cube_corner (-outer), cube_corner (outer), FALSE, FALSE);
  add_box (builder, cube_corner (-inner), cube_corner (inner), TRUE, FALSE);
  return test_body_take (trn_mesh_builder_finish (builder));
}

static TrnInside
inside_at (const TestBody *a, TrnVec3 at_a, const TestBody *b, TrnVec3 at_b)
{
  TrnPlacement place_a = { .position = at_a, .heading_rad = 0.3, .pitch_rad = 0.1 };
  TrnPlacement place_b = { .position = at_b, .roll_rad = -0.2 };
  TrnPose pose_a = trn_pose_make (&place_a), pose_b = trn_pose_make (&place_b);
  TrnInside result = trn_mesh_inside (a->bvh, a->check, &pose_a, b->bvh, b->check, &pose_b);
  g_assert_cmpint (trn_mesh_inside (b->bvh, b->check, &pose_b, a->bvh, a->check, &pose_a), ==,
                   result);
  return result;
}

static void
test_winding (void)
{
  TestBody body = hollow_cube (2, 1);
  g_assert_cmpint (trn_winding_number (body.bvh, body.check, cube_corner (0)), ==, 0);
  g_assert_cmpint (trn_winding_number (body.bvh, body.check, cube_corner (1.5)), ==, 1);
  g_assert_cmpint (trn_winding_number (body.bvh, body.check, cube_corner (1.999999)), ==, 1);
  g_assert_cmpint (trn_winding_number (body.bvh, body.check, cube_corner (2.000001)), ==, 0);
  g_assert_cmpint (trn_winding_number (body.bvh, body.check, trn_vec3_make (9, 0, 0)), ==, 0);
  /* 1 nm from a face, over its middle and over the diagonal of its triangles. */
  g_assert_cmpint (trn_winding_number (body.bvh, body.check, trn_vec3_make (2 - 1e-9, 0.3, 0.1)),
                   ==, 1);
  g_assert_cmpint (trn_winding_number (body.bvh, body.check, trn_vec3_make (2 - 1e-9, 0, 0)), ==,
                   1);
  test_body_clear (&body);

  /* Two bodies that overlap count twice where they do; a body that is turned inside out counts
   * the other way, and an open one not at all. */
  TrnMeshBuilder *builder = trn_mesh_builder_new ();
  add_box (builder, cube_corner (-2), cube_corner (2), FALSE, FALSE);
  add_box (builder, cube_corner (-1), cube_corner (3), FALSE, FALSE);
  add_box (builder, cube_corner (5), cube_corner (6), TRUE, FALSE);
  add_box (builder, cube_corner (8), cube_corner (9), FALSE, TRUE);
  body = test_body_take (trn_mesh_builder_finish (builder));
  g_assert_cmpint (trn_winding_number (body.bvh, body.check, cube_corner (0.5)), ==, 2);
  g_assert_cmpint (trn_winding_number (body.bvh, body.check, cube_corner (5.5)), ==, -1);
  g_assert_cmpint (trn_winding_number (body.bvh, body.check, cube_corner (8.5)), ==, 0);
  test_body_clear (&body);
}

/* Concentric cubes, cubes side by side with overlapping boxes, and both far apart; about the
 * origin and 5 km away; in metres and in tenths of millimetres. */
static void
test_cubes (void)
{
  const double sizes[] = { 1, 1e-4 };
  const TrnVec3 sites[] = { { 0, 0, 0 }, { 5000, -4000, 30 } };
  for (int i = 0; i < 2; i++)
    for (int k = 0; k < 2; k++)
      {
        double s = sizes[i];
        TrnVec3 o = sites[k];
        TestBody large = cube (3 * s, FALSE), small = cube (s, FALSE);
        g_assert_cmpint (inside_at (&small, o, &large, o), ==, TRN_INSIDE_YES);
        TrnVec3 near_corner = trn_vec3_add (o, cube_corner (4.3 * s));
        g_assert_cmpint (inside_at (&small, near_corner, &large, o), ==, TRN_INSIDE_NO);
        TrnVec3 far_off = trn_vec3_add (o, trn_vec3_make (900 * s, 0, 0));
        g_assert_cmpint (inside_at (&small, far_off, &large, o), ==, TRN_INSIDE_NO);
        test_body_clear (&large);
        test_body_clear (&small);
      }
}

/* In the hollow of a cube is outside; in its wall is inside, here the wall from 5 to 15. */
static void
test_cavity (void)
{
  TestBody wall = hollow_cube (15, 5), small = cube (1, FALSE);
  TrnVec3 o = { 0, 0, 0 };
  g_assert_cmpint (inside_at (&small, o, &wall, o), ==, TRN_INSIDE_NO);
  g_assert_cmpint (inside_at (&small, trn_vec3_make (10, 0, 0), &wall, o), ==, TRN_INSIDE_YES);
  test_body_clear (&wall);
  test_body_clear (&small);
}

/* A box and one that is turned inside out; or each of them twice, smaller the second time. */
static TestBody
two_boxes (const TrnBox *solid, const TrnBox *turned, guint times)
{
  TrnMeshBuilder *builder = trn_mesh_builder_new ();
  for (guint i = 0; i < times; i++)
    {
      double k = 1 - 0.02 * i;
      add_box (builder, trn_vec3_scale (solid->lo, k), trn_vec3_scale (solid->hi, k), FALSE, FALSE);
      add_box (builder, trn_vec3_scale (turned->lo, k), trn_vec3_scale (turned->hi, k), TRUE,
               FALSE);
    }
  return test_body_take (trn_mesh_builder_finish (builder));
}

/* Of a box and one that is inside out the windings cancel where both are. That is a hollow only
 * where the one inside out lies wholly within: not where it sticks out on either side, is the outer
 * one, or goes through two walls; nor where it is not plain which hollow is whose. */
static void
test_inside_out (void)
{
  TrnBox five = { { -5, -5, -5 }, { 5, 5, 5 } }, right = { { -2, -2, -2 }, { 9, 2, 2 } };
  TrnBox left = { { -9, -2, -2 }, { 2, 2, 2 } }, wide = { { -9, -9, -9 }, { 9, 9, 9 } };
  TrnBox across = { { -9, -2, -2 }, { 9, 2, 2 } }, within = { { -2, -2, -2 }, { 2, 2, 2 } };
  TestBody small = cube (1, FALSE);
  const struct
  {
    const TrnBox *solid, *turned;
    guint times;
    TrnInside inside;
  } cases[] = {
    { &five, &within, 1, TRN_INSIDE_NO },  { &five, &right, 1, TRN_INSIDE_YES },
    { &five, &left, 1, TRN_INSIDE_YES },   { &five, &wide, 1, TRN_INSIDE_YES },
    { &five, &across, 1, TRN_INSIDE_YES }, { &five, &within, 2, TRN_INSIDE_YES },
  };
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      TestBody pieces = two_boxes (cases[i].solid, cases[i].turned, cases[i].times);
      TrnVec3 o = { 0, 0, 0 };
      g_assert_cmpint (inside_at (&small, o, &pieces, o), ==, cases[i].inside);
      g_assert_cmpint (inside_at (&small, trn_vec3_make (30, 0, 0), &pieces, o), ==, TRN_INSIDE_NO);
      test_body_clear (&pieces);
    }
  test_body_clear (&small);
}

/* One of two pieces inside is enough, even where the other is far outside. */
static void
test_one_piece_of_two (void)
{
  TrnMeshBuilder *builder = trn_mesh_builder_new ();
  add_box (builder, cube_corner (50), cube_corner (51), FALSE, FALSE);
  add_box (builder, cube_corner (-0.5), cube_corner (0.5), FALSE, FALSE);
  TestBody two = test_body_take (trn_mesh_builder_finish (builder)), large = cube (3, FALSE);
  TrnVec3 o = { 0, 0, 0 };
  g_assert_cmpint (inside_at (&two, o, &large, o), ==, TRN_INSIDE_YES);
  test_body_clear (&two);
  test_body_clear (&large);
}

/* An open box in a closed one is inside; a closed one in an open one is not, as far as that can be
 * told, since the closed one cannot contain the open one; two open ones tell nothing unless they
 * are far apart. */
static void
test_open (void)
{
  TestBody open_small = cube (1, TRUE), open_large = cube (3, TRUE);
  TestBody small = cube (1, FALSE), large = cube (3, FALSE);
  TrnVec3 o = { 0, 0, 0 };
  g_assert_cmpint (inside_at (&open_small, o, &large, o), ==, TRN_INSIDE_YES);
  g_assert_cmpint (inside_at (&small, o, &open_large, o), ==, TRN_INSIDE_NO);
  g_assert_cmpint (inside_at (&open_small, o, &open_large, o), ==, TRN_INSIDE_UNKNOWN);
  g_assert_cmpint (inside_at (&open_small, trn_vec3_make (99, 0, 0), &open_large, o), ==,
                   TRN_INSIDE_NO);
  test_body_clear (&open_small);
  test_body_clear (&open_large);
  test_body_clear (&small);
  test_body_clear (&large);
}

/* Solids that touch share edges, and a face with its corners where they are stacked, so that the
 * mesh of both is not closed: a cube inside one of them is inside all the same, one beside them is
 * not. */
static void
test_solids_that_touch (void)
{
  static const TrnVec3 seconds[][2] = {
    { { -3, -3, 3 }, { 3, 3, 9 } }, /* on top, face to face */
    { { 3, -3, 3 }, { 9, 3, 9 } },  /* along one edge */
  };
  TestBody small = cube (1, FALSE);
  TrnVec3 o = { 0, 0, 0 };
  for (guint i = 0; i < G_N_ELEMENTS (seconds); i++)
    {
      TrnMeshBuilder *builder = trn_mesh_builder_new ();
      add_box (builder, cube_corner (-3), cube_corner (3), FALSE, FALSE);
      add_box (builder, seconds[i][0], seconds[i][1], FALSE, FALSE);
      TestBody both = test_body_take (trn_mesh_builder_finish (builder));
      g_assert_false (both.check->closed);
      g_assert_cmpint (inside_at (&small, o, &both, o), ==, TRN_INSIDE_YES);
      g_assert_cmpint (inside_at (&small, trn_vec3_make (-1, 6, 1), &both, o), ==, TRN_INSIDE_NO);
      test_body_clear (&both);
    }
  test_body_clear (&small);
}

/* A wire of degenerate triangles belongs to no piece; inside a cube it is inside, alone or beside a
 * cube that is far outside. */
static void
test_wire (void)
{
  TestBody large = cube (3, FALSE);
  TrnVec3 o = { 0, 0, 0 };
  for (int with_cube = 0; with_cube < 2; with_cube++)
    {
      TrnMeshBuilder *builder = trn_mesh_builder_new ();
      if (with_cube)
        add_box (builder, cube_corner (50), cube_corner (51), FALSE, FALSE);
      guint32 a = trn_mesh_builder_vertex (builder, cube_corner (-0.5));
      guint32 b = trn_mesh_builder_vertex (builder, cube_corner (0.5));
      trn_mesh_builder_triangle (builder, a, b, b);
      TestBody wire = test_body_take (trn_mesh_builder_finish (builder));
      g_assert_cmpint (inside_at (&wire, o, &large, o), ==, TRN_INSIDE_YES);
      g_assert_cmpint (inside_at (&wire, cube_corner (9), &large, o), ==, TRN_INSIDE_NO);
      test_body_clear (&wire);
    }
  test_body_clear (&large);
}

/* ---- long thin triangles ---- */

#define TUBE_SIDES 96u
#define TUBE_LONG_M 40.0
#define TUBE_OUTER_M 1.5
#define TUBE_INNER_M 1.2

/* A corner of the tube: @at, 0 to 3, goes once round its section. */
static TrnVec3
tube_corner (guint side, guint at)
{
  const double radius = at == 1 || at == 2 ? TUBE_INNER_M : TUBE_OUTER_M;
  const double rad = 2 * G_PI * (side % TUBE_SIDES) / TUBE_SIDES;
  return trn_vec3_make (radius * cos (rad), radius * sin (rad),
                        at < 2 ? 0.5 * TUBE_LONG_M : -0.5 * TUBE_LONG_M);
}

static TestBody
tube (const TrnPose *pose)
{
  TrnMeshBuilder *builder = trn_mesh_builder_new ();
  for (guint i = 0; i < 4 * TUBE_SIDES; i++)
    trn_mesh_builder_vertex (builder, trn_pose_apply (pose, tube_corner (i / 4, i % 4)));
  for (guint side = 0; side < TUBE_SIDES; side++)
    for (guint at = 0; at < 4; at++)
      {
        const guint32 next = 4 * ((side + 1) % TUBE_SIDES), here = 4 * side, to = (at + 1) % 4;
        trn_mesh_builder_triangle (builder, here + at, next + at, next + to);
        trn_mesh_builder_triangle (builder, here + at, next + to, here + to);
      }
  return test_body_take (trn_mesh_builder_finish (builder));
}

/* How far within the regular polygon of that radius a point is: between two corners the side is
 * its radius times the cosine of half the angle away. */
static double
within_polygon (TrnVec3 p, double radius)
{
  const double share = 2 * G_PI / TUBE_SIDES;
  const double rad = atan2 (p.y, p.x), off = rad - share * (floor (rad / share) + 0.5);
  return radius * cos (share / 2) - hypot (p.x, p.y) * cos (off);
}

/* A long tube that stands slanting: rays pass within the balls of most of its strips. What is in
 * its wall, in its bore and outside follows from its section. */
static void
test_thin (void)
{
  const TrnPlacement placement
      = { .position = { 3, -2, 1 }, .heading_rad = 0.7, .pitch_rad = 0.4, .roll_rad = -0.3 };
  const TrnPose pose = trn_pose_make (&placement);
  TestBody body = tube (&pose);
  guint n_in = 0, n_out = 0;
  for (guint i = 0; i < 300 + test_scaled (3000); i++)
    {
      const TrnVec3 p = { g_test_rand_double_range (-2, 2), g_test_rand_double_range (-2, 2),
                          g_test_rand_double_range (-22, 22) };
      const double outer = within_polygon (p, TUBE_OUTER_M),
                   inner = within_polygon (p, TUBE_INNER_M), end = 0.5 * TUBE_LONG_M - fabs (p.z);
      if (fmin (fabs (outer), fmin (fabs (inner), fabs (end))) < 1e-9)
        continue;
      const gboolean is_in = outer > 0 && inner < 0 && end > 0;
      *(is_in ? &n_in : &n_out) += 1;
      for (TrnSupportKind kind = TRN_SUPPORT_BEST; kind <= TRN_SUPPORT_SCALAR; kind++)
        {
          trn_support_choose (kind);
          g_assert_cmpint (trn_winding_number (body.bvh, body.check, trn_pose_apply (&pose, p)), ==,
                           is_in);
        }
    }
  trn_support_choose (TRN_SUPPORT_BEST);
  g_assert_cmpuint (n_in, >, 0);
  g_assert_cmpuint (n_out, >, 0);
  test_body_clear (&body);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/inside/winding", test_winding);
  g_test_add_func ("/inside/cubes", test_cubes);
  g_test_add_func ("/inside/cavity", test_cavity);
  g_test_add_func ("/inside/inside-out", test_inside_out);
  g_test_add_func ("/inside/one-piece-of-two", test_one_piece_of_two);
  g_test_add_func ("/inside/open", test_open);
  g_test_add_func ("/inside/solids-that-touch", test_solids_that_touch);
  g_test_add_func ("/inside/wire", test_wire);
  g_test_add_func ("/inside/thin", test_thin);
  return g_test_run ();
}
