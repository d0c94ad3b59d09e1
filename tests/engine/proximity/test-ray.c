/* What a ray is said not to meet, and what it is said to cross, in quadruple precision and without
 * any allowance: scenes in which one of the things taken off is greater than all others together,
 * so that what is said would be wrong without it. */
#include "ray.h"

#include <float.h>

#include "bvh.h"
#include "quad.h"
#include "test-scale.h"
#include "test-shapes.h"

static const TrnVec3 zero = { 0, 0, 0 };

static TrnVec3
random_point (GRand *rand)
{
  const double x = g_rand_double_range (rand, -1, 1), y = g_rand_double_range (rand, -1, 1);
  return trn_vec3_make (x, y, g_rand_double_range (rand, -1, 1));
}

static TrnVec3
random_unit (GRand *rand)
{
  return trn_vec3_unit (random_point (rand));
}

/* What is rounded is rounded down otherwise. */
static double
rounded_up (Quad value)
{
  const double near = (double)value;
  return near < value ? nextafter (near, INFINITY) : near;
}

static TrnVec3
rounded (QuadVec p)
{
  return trn_vec3_make ((double)p.x, (double)p.y, (double)p.z);
}

/* Of all three lengths, in quadruple precision: as ray.c has it, 16 times 2⁻¹¹³. */
#define QUAD_LOST 0x1p-109

/* What the triangle adds along the ray; FALSE where quadruple precision cannot tell. */
static gboolean
find_crossing (const TrnRay *ray, const QuadVec corner[3], int *adds)
{
  const QuadVec d = quad_vec (ray->d);
  QuadVec c[3];
  gboolean is_sure = TRUE;
  int up = 0;
  for (guint k = 0; k < 3; k++)
    c[k] = quad_sub (corner[k], quad_vec (ray->from));
  for (guint k = 0; k < 3; k++)
    {
      const QuadVec a = c[(k + 1) % 3], b = c[(k + 2) % 3];
      const Quad volume = quad_product (d, quad_cross (a, b)),
                 lost = QUAD_LOST * quad_length (a) * quad_length (b) * ray->length;
      is_sure &= volume > lost || volume < -lost;
      up += volume > 0;
    }
  const Quad volume = quad_product (c[0], quad_cross (c[1], c[2])),
             lost = QUAD_LOST * quad_length (c[0]) * quad_length (c[1]) * quad_length (c[2]);
  is_sure &= volume > lost || volume < -lost;
  *adds = up == 3 && volume > 0 ? 1 : up == 0 && volume < 0 ? -1 : 0;
  return is_sure;
}

/* ---- planes ---- */

/* A triangle in single precision about a centre, with nothing left out. */
typedef struct
{
  TrnPoints8 block;
  TrnHull hull;
  TrnVec3 centre;
  QuadVec corner[3]; /* exactly, as placed */
} Leaf;

static void
leaf_make (Leaf *leaf, TrnVec3 centre, const TrnVec3 p[3])
{
  Quad most = 0;
  leaf->centre = centre;
  for (guint i = 0; i < 8; i++)
    {
      const TrnVec3 here = p[MIN (i, 2)];
      leaf->block.x[i] = (float)here.x;
      leaf->block.y[i] = (float)here.y;
      leaf->block.z[i] = (float)here.z;
      const QuadVec kept = { leaf->block.x[i], leaf->block.y[i], leaf->block.z[i] };
      most = MAX (most, quad_length (kept));
      leaf->corner[MIN (i, 2)] = quad_add (quad_vec (centre), kept);
    }
  leaf->hull = (TrnHull){ &leaf->block, 1, rounded_up (most) };
}

/* The ray from the point at which it comes nearest to @share of the way from the first corner to
 * the middle of the others, @far before it. */
static TrnRay
ray_to (const Leaf *leaf, TrnVec3 d, double share, double far)
{
  const QuadVec others = quad_times (quad_add (leaf->corner[1], leaf->corner[2]), 0.5);
  const QuadVec at = quad_along (leaf->corner[0], quad_sub (others, leaf->corner[0]), (Quad)share);
  return trn_ray_make (rounded (quad_along (at, quad_vec (d), -(Quad)far)), d);
}

static gboolean
is_aside (const TrnRay *ray, const Leaf *leaf, double slack_m)
{
  return trn_ray_is_aside (ray, trn_vec3_sub (leaf->centre, ray->from), &leaf->hull, slack_m);
}

/* Rays that come by just within the corner of a triangle that lies on one side of them. Returns how
 * many there were. */
static guint
graze (GRand *rand, double size, double far, guint runs)
{
  guint met = 0;
  for (guint run = 0; run < runs; run++)
    {
      const TrnVec3 d = random_unit (rand), w = trn_vec3_square_to (d), e = trn_vec3_cross (d, w);
      TrnVec3 p[3], centre = trn_vec3_scale (random_point (rand), size);
      p[0] = trn_vec3_scale (random_point (rand), 0.5 * size);
      for (guint i = 1; i < 3; i++)
        {
          const TrnVec3 by = random_point (rand);
          p[i] = trn_vec3_add_scaled (p[0], w, fabs (by.x) * size);
          p[i] = trn_vec3_add_scaled (p[i], e, (i == 1 ? 1 : -1) * fabs (by.y) * size);
          p[i] = trn_vec3_add_scaled (p[i], d, by.z * size);
        }
      centre = trn_vec3_make ((float)centre.x, (float)centre.y, (float)centre.z);
      Leaf leaf;
      int adds;
      leaf_make (&leaf, centre, p);
      const TrnRay ray
          = ray_to (&leaf, d, 1e-10, (far + 0.1) * size * g_rand_double_range (rand, 0.5, 1));
      if (!find_crossing (&ray, leaf.corner, &adds) || adds == 0)
        continue;
      met++;
      g_assert_false (is_aside (&ray, &leaf, 0));
    }
  return met;
}

/* The products of a direction and a point are rounded: what is nearest to the ray is thought to be
 * farther from it than it is. From a micrometre to where single precision ends. */
static void
test_product (void)
{
  static const double sizes[] = { 1, 1e-6, 3000, 1e20, 1e38 };
  g_autoptr (GRand) rand = g_rand_new_with_seed (301);
  for (guint i = 0; i < G_N_ELEMENTS (sizes); i++)
    g_assert_cmpuint (graze (rand, sizes[i], 0, test_scaled (4000)), >, test_scaled (4000) / 2);
}

/* Where single precision has no normal numbers products are rounded by more than their share. */
static void
test_tiny (void)
{
  static const double sizes[] = { 1e-39, 1e-41, 1e-43 };
  g_autoptr (GRand) rand = g_rand_new_with_seed (302);
  for (guint i = 0; i < G_N_ELEMENTS (sizes); i++)
    g_assert_cmpuint (graze (rand, sizes[i], 0, test_scaled (4000)), >, test_scaled (4000) / 4);
}

/* The direction is rounded, so that the plane leans: after a long way the ray is on the other side
 * of it. */
static void
test_leaning (void)
{
  static const double fars[] = { 30, 1000, 1e5 };
  g_autoptr (GRand) rand = g_rand_new_with_seed (303);
  for (guint i = 0; i < G_N_ELEMENTS (fars); i++)
    g_assert_cmpuint (graze (rand, 1, fars[i], test_scaled (4000)), >, test_scaled (4000) / 2);
}

/* What is far away, seen along a plane that does not lean: the ray goes with x = y, and x − y of
 * the centre is worked out from products that are rounded like numbers of the size of both. The
 * triangle is so small that nothing else is in the way. */
static void
test_away (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (304);
  const TrnVec3 d = { 1, 1, 0 };
  guint met = 0;
  for (guint run = 0; run < test_scaled (200); run++)
    {
      const double far = g_rand_double_range (rand, 1.5, 1.9);
      const double h = g_rand_int_range (rand, 1, 9) * DBL_EPSILON, out = h * 1.0625;
      const TrnVec3 p[3]
          = { { -out, out, 0 }, { 5 * h, -5 * h, 70 * h }, { 5 * h, -5 * h, -70 * h } };
      const TrnRay ray = trn_ray_make (trn_vec3_make (-far - 2 * h, -far, 0), d);
      Leaf leaf;
      int adds;
      leaf_make (&leaf, zero, p);
      if (!find_crossing (&ray, leaf.corner, &adds) || adds == 0)
        continue;
      met++;
      g_assert_false (is_aside (&ray, &leaf, 0));
    }
  g_assert_cmpuint (met, >, test_scaled (200) / 2);
}

/* The direction is longer than 1, so that what the slack takes off along it is more than the slack:
 * that and the rounding of the product, for a direction and a point found by a search, come to more
 * than what is taken off for the product alone. All that is left of the triangle is the one point,
 * on the other side of the centre. */
static void
test_long_direction (void)
{
  TrnVec3 w = { 0x1.000df300000a4p-1, 0x1.0011ed0000046p-1, 0 };
  w.z = sqrt (1 - w.x * w.x - w.y * w.y);
  const TrnVec3 p = { 0x1.001308p-1, 0x1.000ecp-1, 0x1.69f314p-1 }, only[3] = { p, p, p };
  const TrnVec3 d = trn_vec3_square_to (w), e = trn_vec3_cross (d, w);
  Leaf leaf;
  leaf_make (&leaf, zero, only);
  const TrnRay ray = trn_ray_make (trn_vec3_add_scaled (trn_vec3_scale (w, -1), d, -1e-3), d);
  /* The ray goes by at −w: from there on towards the centre there is the triangle. */
  const double out = 1 + 1e-12;
  const TrnVec3 corner[3]
      = { trn_vec3_scale (w, -out), trn_vec3_add_scaled (trn_vec3_scale (w, -0.5), e, 0.1),
          trn_vec3_add_scaled (trn_vec3_scale (w, -0.5), e, -0.1) };
  const QuadVec exact[3] = { quad_vec (corner[0]), quad_vec (corner[1]), quad_vec (corner[2]) };
  int adds;
  g_assert_true (find_crossing (&ray, exact, &adds) && adds != 0);
  leaf.hull.radius_m = fmax (leaf.hull.radius_m, rounded_up (quad_length (exact[0])));
  g_assert_false (is_aside (&ray, &leaf, rounded_up (quad_distance (corner[0], p))));
}

/* The centre all but on the ray: the square of how far it is off is no normal number, and what is
 * divided by its root is longer than 1. */
static void
test_short_way (void)
{
  const TrnVec3 p = { 1, 0, 0 }, only[3] = { p, p, p }, d = { 0, 0, 1 };
  const TrnVec3 corner[3] = { { -0.05, 0, 0.1 }, { 0.5, 0.2, 0 }, { 0.5, -0.2, 0 } };
  const QuadVec exact[3] = { quad_vec (corner[0]), quad_vec (corner[1]), quad_vec (corner[2]) };
  for (int k = -165; k <= -150; k++)
    for (guint i = 10; i < 100; i++)
      {
        const TrnRay ray = trn_ray_make (trn_vec3_make (-(double)i * pow (10, k), 0, -0.3), d);
        Leaf leaf;
        int adds;
        leaf_make (&leaf, zero, only);
        g_assert_true (find_crossing (&ray, exact, &adds) && adds != 0);
        g_assert_false (is_aside (&ray, &leaf, rounded_up (quad_distance (corner[0], p))));
      }
}

/* Rays that graze a convex body at the corners of a tree's nodes, of whose points most are left
 * out.
 * @outwards: from the corner; @axis: 0 where the body is round all ways. */
static guint
graze_nodes (GRand *rand, const TrnBvh *bvh, double axis)
{
  guint met = 0;
  for (guint32 i = 0; i < bvh->n_nodes; i++)
    for (guint run = 0; run < test_scaled (4) && bvh->nodes[i].count > 32; run++)
      {
        const TrnBvhNode *node = &bvh->nodes[i];
        const guint32 which = node->first + (guint32)g_rand_int_range (rand, 0, (int)node->count);
        const int first = g_rand_int_range (rand, 0, 3);
        TrnVec3 c[3];
        trn_mesh_corners (bvh->mesh, bvh->order[which], c);
        Leaf leaf;
        for (int k = 0; k < 3; k++)
          leaf.corner[k] = quad_vec (c[(first + k) % 3]);
        TrnVec3 out = c[first];
        out.z *= 1 - axis;
        const TrnVec3 unit = trn_vec3_unit (out), e = trn_vec3_square_to (unit),
                      f = trn_vec3_cross (unit, e);
        const double turn = g_rand_double_range (rand, -G_PI, G_PI);
        const TrnVec3 d = trn_vec3_add_scaled (trn_vec3_scale (e, cos (turn)), f, sin (turn));
        const TrnRay ray = ray_to (&leaf, d, 1e-6, g_rand_double_range (rand, 0, 1));
        const TrnHull hull = trn_bvh_hull (bvh, node);
        const TrnVec3 to = trn_vec3_sub (trn_bvh_centre (node), ray.from);
        int adds;
        if (!find_crossing (&ray, leaf.corner, &adds) || adds == 0)
          continue;
        met++;
        g_assert_true (trn_ray_meets_ball (&ray, to, hull.radius_m));
        g_assert_false (trn_ray_is_aside (&ray, to, &hull, (double)node->slack_m));
      }
  return met;
}

/* A ball of many triangles, of which a corner is met that a tree left out; and a drum, of which all
 * of the sides are long and thin. */
static void
test_slack (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (305);
  TrnMeshBuilder *builder = trn_mesh_builder_new ();
  const guint bands = 90;
  for (guint i = 0; i <= bands; i++)
    for (guint j = 0; j < bands; j++)
      {
        const double a = G_PI * i / bands, b = 2 * G_PI * j / bands;
        trn_mesh_builder_vertex (builder,
                                 trn_vec3_make (sin (a) * cos (b), sin (a) * sin (b), cos (a)));
      }
  for (guint i = 0; i < bands; i++)
    for (guint j = 0; j < bands; j++)
      {
        const guint k = (j + 1) % bands, p = i * bands, q = p + bands;
        trn_mesh_builder_triangle (builder, p + j, q + j, q + k);
        trn_mesh_builder_triangle (builder, p + j, q + k, p + k);
      }
  g_autoptr (TrnMesh) ball = trn_mesh_builder_finish (builder);
  g_autoptr (TrnMesh) drum = test_drum (3000, 1, -20, 20);
  g_autoptr (TrnBvh) round = trn_bvh_build (ball, 1), thin = trn_bvh_build (drum, 1);
  g_assert_cmpuint (graze_nodes (rand, round, 0), >, test_scaled (4) * 20);
  g_assert_cmpuint (graze_nodes (rand, thin, 1), >, test_scaled (4) * 20);
}

/* Of long thin triangles whose ball the ray meets nearly all are told to be aside; else the planes
 * would be there for nothing. */
static void
test_finds (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (306);
  guint balls = 0, aside = 0;
  for (guint run = 0; run < test_scaled (4000); run++)
    {
      const TrnVec3 along = random_unit (rand);
      TrnVec3 p[3] = { along, trn_vec3_scale (along, -1), random_point (rand) };
      p[2] = trn_vec3_add_scaled (along, p[2], 0.01);
      Leaf leaf;
      int adds;
      leaf_make (&leaf, zero, p);
      const TrnRay ray = trn_ray_make (trn_vec3_scale (random_point (rand), 2), random_unit (rand));
      if (!trn_ray_meets_ball (&ray, trn_vec3_scale (ray.from, -1), leaf.hull.radius_m)
          || !find_crossing (&ray, leaf.corner, &adds) || adds != 0)
        continue;
      balls++;
      aside += is_aside (&ray, &leaf, 0);
    }
  g_assert_cmpuint (balls, >, test_scaled (4000) / 10);
  g_assert_cmpuint (aside, >, balls * 9 / 10);
}

/* ---- balls ---- */

/* Balls that touch the ray, or its point where they are behind it, as exactly as their radius can
 * say: mostly small against how far away they are. */
static void
test_ball (void)
{
  static const double sizes[] = { 1e-12, 1e-7, 1e-3, 1, 10 };
  g_autoptr (GRand) rand = g_rand_new_with_seed (307);
  for (guint run = 0; run < test_scaled (20000); run++)
    {
      const TrnVec3 d = random_unit (rand);
      const double size = sizes[run % G_N_ELEMENTS (sizes)],
                   far = g_rand_double_range (rand, -0.2, 1);
      TrnVec3 centre = random_point (rand), from;
      centre = trn_vec3_make ((float)centre.x, (float)centre.y, (float)centre.z);
      from = trn_vec3_add_scaled (trn_vec3_add_scaled (centre, d, -far), random_point (rand), size);
      const TrnRay ray = trn_ray_make (from, d);
      QuadVec off = quad_sub (quad_vec (centre), quad_vec (from));
      const Quad along = quad_product (off, quad_vec (d));
      if (along > 0)
        off = quad_along (off, quad_vec (d), -along / quad_product (quad_vec (d), quad_vec (d)));
      const TrnVec3 to = trn_vec3_sub (centre, from);
      const double radius_m = rounded_up (quad_length (off));
      g_assert_true (trn_ray_meets_ball (&ray, to, radius_m));
      g_assert_true (radius_m < 1e-6 || !trn_ray_meets_ball (&ray, to, 0.99 * radius_m));
    }
}

/* ---- triangles ---- */

/* What is told of it is so; returns whether anything is. */
static gboolean
check_crossing (const TrnRay *ray, const TrnVec3 corner[3], guint *met)
{
  const QuadVec exact[3] = { quad_vec (corner[0]), quad_vec (corner[1]), quad_vec (corner[2]) };
  TrnVec3 c[3];
  int adds, truly;
  for (guint k = 0; k < 3; k++)
    c[k] = trn_vec3_sub (corner[k], ray->from);
  const gboolean is_told = trn_ray_crossing (ray, c, &adds);
  if (find_crossing (ray, exact, &truly) && is_told)
    g_assert_cmpint (adds, ==, truly);
  *met += is_told && adds != 0;
  return is_told;
}

/* The point of the triangle with these shares of the others, and 1 less those of the first. */
static TrnVec3
point_of (const TrnVec3 corner[3], double second, double third)
{
  TrnVec3 at = trn_vec3_scale (corner[0], 1 - second - third);
  at = trn_vec3_add_scaled (at, corner[1], second);
  return trn_vec3_add_scaled (at, corner[2], third);
}

typedef enum
{
  WITHIN,   /* the ray comes by within the triangle, or not far outside */
  AT_EDGE,  /* all but at an edge */
  IN_PLANE, /* it begins all but in the triangle */
  N_KINDS,
} Kind;

static void
check_kind (GRand *rand, Kind kind, double aside, guint *told, guint *met)
{
  const TrnVec3 place = trn_vec3_scale (random_point (rand), aside);
  const double second = g_rand_double_range (rand, kind == WITHIN ? -0.5 : 0.05, 0.5),
               third = kind == AT_EDGE ? 0 : g_rand_double_range (rand, 0.05, 0.45);
  TrnVec3 corner[3];
  for (guint k = 0; k < 3; k++)
    corner[k] = trn_vec3_add (place, random_point (rand));
  const TrnVec3 d = random_unit (rand), at = point_of (corner, second, third);
  const double far = kind == IN_PLANE ? 0 : g_rand_double_range (rand, -0.3, 2);
  const TrnRay ray = trn_ray_make (trn_vec3_add_scaled (at, d, -far), d);
  *told += check_crossing (&ray, corner, met);
}

/* Of plain ones all is told; of what is within rounding nothing wrong is. */
static void
test_crossing (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (308);
  guint told[N_KINDS] = { 0 }, met[N_KINDS] = { 0 };
  const guint runs = test_scaled (20000);
  for (guint run = 0; run < runs; run++)
    for (Kind kind = WITHIN; kind < N_KINDS; kind++)
      check_kind (rand, kind, run % 2 ? 0 : 1, &told[kind], &met[kind]);
  g_assert_cmpuint (told[WITHIN], >, runs - runs / 100);
  g_assert_cmpuint (met[WITHIN], >, runs / 4);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ray/product", test_product);
  g_test_add_func ("/ray/tiny", test_tiny);
  g_test_add_func ("/ray/leaning", test_leaning);
  g_test_add_func ("/ray/away", test_away);
  g_test_add_func ("/ray/long-direction", test_long_direction);
  g_test_add_func ("/ray/short-way", test_short_way);
  g_test_add_func ("/ray/slack", test_slack);
  g_test_add_func ("/ray/finds", test_finds);
  g_test_add_func ("/ray/ball", test_ball);
  g_test_add_func ("/ray/crossing", test_crossing);
  return g_test_run ();
}
