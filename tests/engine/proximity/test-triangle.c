/* Triangle distances against brute force in quadruple precision (quad.c). */
#include "quad.h"
#include "test-scale.h"
#include "triangle.h"

#define UNIT_ROUNDING 0x1p-53
#define N_PAIRS 1500 /* of each kind */
/* The constant of the error bound in triangle.h. */
#define ERROR_UNITS 64

typedef void (*MakePair) (GRand *rand, TrnVec3 a[3], TrnVec3 b[3]);

typedef struct
{
  const char *name;
  MakePair make;
  gboolean meet; /* the two share a point by construction, to rounding */
} Kind;

static double
between (GRand *rand, double lo, double hi)
{
  return g_rand_double_range (rand, lo, hi);
}

static double
power_of_ten (GRand *rand, double lo, double hi)
{
  return pow (10, between (rand, lo, hi));
}

static TrnVec3
random_point (GRand *rand, double size)
{
  return trn_vec3_make (between (rand, -size, size), between (rand, -size, size),
                        between (rand, -size, size));
}

static void
random_triangle (GRand *rand, double size, TrnVec3 centre, TrnVec3 t[3])
{
  for (int i = 0; i < 3; i++)
    t[i] = trn_vec3_add (centre, random_point (rand, size));
}

static TrnVec3
point_of (const TrnVec3 t[3], double w1, double w2)
{
  TrnVec3 p = trn_vec3_scale (t[0], 1 - w1 - w2);
  return trn_vec3_add_scaled (trn_vec3_add_scaled (p, t[1], w1), t[2], w2);
}

static TrnVec3
inner_point (GRand *rand, const TrnVec3 t[3])
{
  double w1 = between (rand, 0.1, 0.8);
  return point_of (t, w1, between (rand, 0.1, 1) * (0.95 - w1));
}

/* Two triangles of the size of a metre within a few metres. */
static void
make_random (GRand *rand, TrnVec3 a[3], TrnVec3 b[3])
{
  random_triangle (rand, 1, trn_vec3_make (0, 0, 0), a);
  random_triangle (rand, 1, random_point (rand, 2), b);
}

static void
flatten (GRand *rand, TrnVec3 t[3])
{
  TrnVec3 on_edge = trn_vec3_mix (t[0], t[1], between (rand, -0.1, 1.1));
  t[2] = trn_vec3_add (on_edge, random_point (rand, power_of_ten (rand, -17, -2)));
}

/* Slivers: the third corner lies near the edge of the other two, by 1e-17 to 1e-2 of it. */
static void
make_slivers (GRand *rand, TrnVec3 a[3], TrnVec3 b[3])
{
  make_random (rand, a, b);
  flatten (rand, a);
  if (g_rand_boolean (rand))
    flatten (rand, b);
}

/* Slivers with an edge of the other triangle right through them: the distance is zero however
 * narrow they are. */
static void
make_pierced_slivers (GRand *rand, TrnVec3 a[3], TrnVec3 b[3])
{
  random_triangle (rand, 1, trn_vec3_make (0, 0, 0), a);
  flatten (rand, a);
  TrnVec3 through = inner_point (rand, a), d = random_point (rand, 1);
  b[0] = trn_vec3_add_scaled (through, d, between (rand, 0.1, 1));
  b[1] = trn_vec3_add_scaled (through, d, -between (rand, 0.1, 1));
  b[2] = random_point (rand, 2);
  if (g_rand_boolean (rand))
    flatten (rand, b);
}

/* Segments and points written as triangles. */
static void
make_degenerate (GRand *rand, TrnVec3 a[3], TrnVec3 b[3])
{
  make_random (rand, a, b);
  int kind = g_rand_int_range (rand, 0, 4);
  a[2] = kind == 0 ? a[1] : trn_vec3_mix (a[0], a[1], 0.5);
  if (kind == 2)
    a[1] = a[2] = a[0];
  if (kind == 3)
    b[2] = b[0];
  if (g_rand_boolean (rand))
    b[1] = b[2] = b[0];
}

/* A shared corner; a corner on an edge; a corner in a face; edges that cross. */
static void
make_touching (GRand *rand, TrnVec3 a[3], TrnVec3 b[3])
{
  make_random (rand, a, b);
  switch (g_rand_int_range (rand, 0, 4))
    {
    case 0:
      b[1] = a[2];
      break;
    case 1:
      b[0] = trn_vec3_mix (a[0], a[1], between (rand, 0, 1));
      break;
    case 2:
      b[2] = inner_point (rand, a);
      break;
    default:
      b[0] = trn_vec3_mix (a[1], a[2], between (rand, 0, 1));
      b[1] = trn_vec3_add_scaled (b[0], trn_vec3_sub (b[2], b[0]), -between (rand, 0, 1));
    }
}

/* Both in one plane that is not along the axes, overlapping or beside each other. */
static void
make_coplanar (GRand *rand, TrnVec3 a[3], TrnVec3 b[3])
{
  TrnVec3 e = random_point (rand, 1), f = random_point (rand, 1), o = random_point (rand, 5);
  for (int i = 0; i < 3; i++)
    {
      a[i] = trn_vec3_add_scaled (trn_vec3_add_scaled (o, e, between (rand, -1, 1)), f,
                                  between (rand, -1, 1));
      b[i] = trn_vec3_add_scaled (trn_vec3_add_scaled (o, e, between (rand, -0.5, 2)), f,
                                  between (rand, -0.5, 2));
    }
}

/* Coplanar with the same inner point. */
static void
make_overlapping (GRand *rand, TrnVec3 a[3], TrnVec3 b[3])
{
  make_coplanar (rand, a, b);
  TrnVec3 shift = trn_vec3_sub (inner_point (rand, a), inner_point (rand, b));
  for (int i = 0; i < 3; i++)
    b[i] = trn_vec3_add (b[i], shift);
}

/* An edge of B goes through the inside of A, at any angle down to 1e-12. */
static void
make_penetrating (GRand *rand, TrnVec3 a[3], TrnVec3 b[3])
{
  make_random (rand, a, b);
  TrnVec3 through = inner_point (rand, a), flat = trn_vec3_sub (a[1], a[0]);
  TrnVec3 d = trn_vec3_add (flat, random_point (rand, power_of_ten (rand, -12, 0)));
  b[0] = trn_vec3_add_scaled (through, d, between (rand, 0, 1));
  b[1] = trn_vec3_add_scaled (through, d, -between (rand, 0, 1));
}

/* Triangles of 0.05 mm, 0.05 mm apart: a cut-off of any absolute size shows here. */
static void
make_tiny (GRand *rand, TrnVec3 a[3], TrnVec3 b[3])
{
  random_triangle (rand, 5e-5, trn_vec3_make (0, 0, 0), a);
  random_triangle (rand, 5e-5, random_point (rand, 1e-4), b);
}

/* Triangles of centimetres in coordinates of 5 km. */
static void
make_far_off (GRand *rand, TrnVec3 a[3], TrnVec3 b[3])
{
  TrnVec3 o = random_point (rand, 5000);
  random_triangle (rand, 0.02, o, a);
  random_triangle (rand, 0.02, trn_vec3_add (o, random_point (rand, 0.05)), b);
}

/* Sizes from 0.01 mm to 100 m in one pair. */
static void
make_mixed (GRand *rand, TrnVec3 a[3], TrnVec3 b[3])
{
  random_triangle (rand, power_of_ten (rand, -5, 2), trn_vec3_make (0, 0, 0), a);
  random_triangle (
      rand, power_of_ten (rand, -5, 2),
      trn_vec3_add (inner_point (rand, a), random_point (rand, power_of_ten (rand, -6, 2))), b);
}

/* Edges of the two are parallel to within 1e-17 to 1e-3, at distances down to 1e-12. */
static void
make_near_parallel (GRand *rand, TrnVec3 a[3], TrnVec3 b[3])
{
  make_random (rand, a, b);
  TrnVec3 d = trn_vec3_sub (a[1], a[0]);
  b[0] = trn_vec3_add_scaled (a[0], d, between (rand, -1, 1));
  b[0] = trn_vec3_add (b[0], random_point (rand, power_of_ten (rand, -12, 0)));
  d = trn_vec3_add (d, random_point (rand, power_of_ten (rand, -17, -3)));
  b[1] = trn_vec3_add_scaled (b[0], d, between (rand, 0.1, 2));
  if (g_rand_boolean (rand))
    b[2] = trn_vec3_add (trn_vec3_add (b[0], random_point (rand, power_of_ten (rand, -12, 0))), d);
}

/* Corners on a lattice of few points: everything coincides with everything. */
static void
make_lattice (GRand *rand, TrnVec3 a[3], TrnVec3 b[3])
{
  for (int i = 0; i < 6; i++)
    {
      TrnVec3 p = { g_rand_int_range (rand, -2, 3), g_rand_int_range (rand, -2, 3),
                    g_rand_int_range (rand, -1, 2) };
      *(i < 3 ? &a[i] : &b[i - 3]) = p;
    }
}

/* Any kind of pair in any unit of length that a double holds. */
static void
make_any_scale (GRand *rand, TrnVec3 a[3], TrnVec3 b[3])
{
  MakePair kinds[] = { make_random, make_slivers, make_near_parallel, make_lattice };
  kinds[g_rand_int_range (rand, 0, G_N_ELEMENTS (kinds))](rand, a, b);
  int exponent = g_rand_int_range (rand, -900, 900);
  for (int i = 0; i < 3; i++)
    {
      a[i] = trn_vec3_make (scalbn (a[i].x, exponent), scalbn (a[i].y, exponent),
                            scalbn (a[i].z, exponent));
      b[i] = trn_vec3_make (scalbn (b[i].x, exponent), scalbn (b[i].y, exponent),
                            scalbn (b[i].z, exponent));
    }
}

static double
greatest_difference (const TrnVec3 a[3], const TrnVec3 b[3])
{
  double most = 0;
  for (int i = 0; i < 6; i++)
    for (int k = 0; k < i; k++)
      most = fmax (
          most, trn_vec3_max_abs (trn_vec3_sub (i < 3 ? a[i] : b[i - 3], k < 3 ? a[k] : b[k - 3])));
  return most;
}

static double
greatest_coordinate (const TrnVec3 a[3], const TrnVec3 b[3])
{
  double most = 0;
  for (int i = 0; i < 3; i++)
    most = fmax (most, fmax (trn_vec3_max_abs (a[i]), trn_vec3_max_abs (b[i])));
  return most;
}

/* Checks one pair; returns the error in units of u M, without the rule that makes nearly nothing
 * zero. */
static double
check_pair (const TrnVec3 a[3], const TrnVec3 b[3], gboolean meet)
{
  TrnVec3 on_a, on_b;
  double distance = trn_triangle_distance (a, b, &on_a, &on_b);
  double size = greatest_difference (a, b), bound = ERROR_UNITS * UNIT_ROUNDING * size;
  double point_bound = bound + 4 * UNIT_ROUNDING * greatest_coordinate (a, b);
  __float128 truth = quad_triangle_distance (a, b);
  double error = fabs ((double)(distance - truth));
  g_assert_cmpfloat (error, <=, bound);
  g_assert_cmpfloat ((double)quad_point_distance (on_a, a), <=, point_bound);
  g_assert_cmpfloat ((double)quad_point_distance (on_b, b), <=, point_bound);
  g_assert_cmpfloat (fabs ((double)(quad_distance (on_a, on_b) - distance)), <=, point_bound);
  if (truth == 0)
    g_assert_true (distance == 0);
  if (meet && truth < 8 * UNIT_ROUNDING * size)
    g_assert_true (distance == 0);
  return size > 0 && distance > 0 ? error / (UNIT_ROUNDING * size) : 0;
}

static void
test_kind (gconstpointer data)
{
  const Kind *kind = data;
  guint32 seed = (guint32)g_test_rand_int ();
  GRand *rand = g_rand_new_with_seed (seed);
  guint n = test_scaled (N_PAIRS);
  double worst = 0;
  for (guint i = 0; i < n; i++)
    {
      TrnVec3 a[3], b[3];
      kind->make (rand, a, b);
      worst = fmax (worst, check_pair (a, b, kind->meet));
      worst = fmax (worst, check_pair (b, a, kind->meet));
    }
  g_test_message ("seed %u, greatest error %.2f u M", seed, worst);
  g_rand_free (rand);
}

/* Two triangles face to face at z = 0 and z = h, and a corner over a face: distances by hand. */
static void
test_by_hand (void)
{
  TrnVec3 a[3] = { { 0, 0, 0 }, { 2, 0, 0 }, { 0, 2, 0 } };
  TrnVec3 b[3] = { { 0, 0, 0.25 }, { 2, 0, 0.25 }, { 0, 2, 0.25 } };
  TrnVec3 c[3] = { { 0.5, 0.5, 3 }, { 1, 1, 4 }, { 0.5, 1, 5 } };
  TrnVec3 d[3] = { { 5, 4, 0 }, { 6, 4, 0 }, { 5, 5, 0 } };
  TrnVec3 on_a, on_b;
  g_assert_cmpfloat (trn_triangle_distance (a, b, &on_a, &on_b), ==, 0.25);
  g_assert_cmpfloat (trn_triangle_distance (a, c, &on_a, &on_b), ==, 3);
  g_assert_cmpfloat (on_a.x, ==, 0.5);
  g_assert_cmpfloat (on_a.y, ==, 0.5);
  g_assert_cmpfloat (on_b.z, ==, 3);
  /* From (5, 4) square to the edge x + y = 2: |5 + 4 − 2| / √2 = 4.949…; its foot is (1.5, 0.5). */
  g_assert_cmpfloat_with_epsilon (trn_triangle_distance (a, d, &on_a, &on_b), 7 / sqrt (2), 1e-14);
  g_assert_cmpfloat_with_epsilon (on_a.x, 1.5, 1e-14);
}

/* The greatest doubles: differences overflow, yet nothing is NaN, and parallel faces at ±1e308
 * stand 2e308 apart, which is infinity, while those at 1e308 and 1.5e308 are 5e307 apart. */
static void
test_greatest (void)
{
  TrnVec3 a[3] = { { 1e308, 0, 0 }, { 1e308, 1, 0 }, { 1e308, 0, 1 } };
  TrnVec3 b[3] = { { 1.5e308, 0, 0 }, { 1.5e308, 1, 0 }, { 1.5e308, 0, 1 } };
  TrnVec3 c[3] = { { -1e308, 0, 0 }, { -1e308, 1, 0 }, { -1e308, 0, 1 } };
  TrnVec3 on_a, on_b;
  g_assert_cmpfloat_with_epsilon (trn_triangle_distance (a, b, &on_a, &on_b), 5e307, 1e293);
  g_assert_true (isinf (trn_triangle_distance (a, c, &on_a, &on_b)));
  g_assert_true (trn_vec3_is_finite (on_a) && trn_vec3_is_finite (on_b));
}

static const Kind kinds[] = {
  { "random", make_random, FALSE },
  { "slivers", make_slivers, FALSE },
  { "degenerate", make_degenerate, FALSE },
  { "coplanar", make_coplanar, FALSE },
  { "tiny", make_tiny, FALSE },
  { "far-off", make_far_off, FALSE },
  { "mixed", make_mixed, FALSE },
  { "near-parallel", make_near_parallel, FALSE },
  { "lattice", make_lattice, FALSE },
  { "any-scale", make_any_scale, FALSE },
  { "touching", make_touching, TRUE },
  { "overlapping", make_overlapping, TRUE },
  { "penetrating", make_penetrating, TRUE },
  { "pierced-slivers", make_pierced_slivers, TRUE },
};

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/triangle/by-hand", test_by_hand);
  g_test_add_func ("/triangle/greatest", test_greatest);
  for (gsize i = 0; i < G_N_ELEMENTS (kinds); i++)
    {
      g_autofree char *path = g_strdup_printf ("/triangle/%s", kinds[i].name);
      g_test_add_data_func (path, &kinds[i], test_kind);
    }
  return g_test_run ();
}
