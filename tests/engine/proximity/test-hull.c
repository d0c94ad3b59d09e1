/* The direction search must never be trusted, so what is tested is that its certificate is true, in
 * quadruple precision and without any allowance, and that it is good: close to the distance of the
 * hulls. */
#include "hull.h"

#include <float.h>

#include "quad.h"
#include "test-scale.h"

#define MOST_POINTS 64

/* A set of points, its hull and how far it reaches. */
typedef struct
{
  TrnPoints8 blocks[MOST_POINTS / 8];
  TrnHull hull;
  guint n;
} Set;

static TrnVec3
random_point (GRand *rand)
{
  double x = g_rand_double_range (rand, -1, 1), y = g_rand_double_range (rand, -1, 1);
  return trn_vec3_make (x, y, g_rand_double_range (rand, -1, 1));
}

static TrnVec3
set_get (const Set *set, guint i)
{
  const TrnPoints8 *block = &set->blocks[i / 8];
  return trn_vec3_make (block->x[i % 8], block->y[i % 8], block->z[i % 8]);
}

static void
set_make (Set *set, const TrnVec3 *points, guint n)
{
  double most = 0;
  set->n = n;
  for (guint i = 0; i < (n + 7) / 8 * 8; i++)
    {
      TrnVec3 p = points[MIN (i, n - 1)];
      set->blocks[i / 8].x[i % 8] = (float)p.x;
      set->blocks[i / 8].y[i % 8] = (float)p.y;
      set->blocks[i / 8].z[i % 8] = (float)p.z;
      most = fmax (most, trn_vec3_length (set_get (set, i)));
    }
  set->hull = (TrnHull){ set->blocks, (n + 7) / 8, most * (1 + 4 * DBL_EPSILON) };
}

/* @size across; sometimes flat, long, or all but a point. */
static void
set_random (Set *set, GRand *rand, double size)
{
  TrnVec3 points[MOST_POINTS];
  guint n = (guint)g_rand_int_range (rand, 1, MOST_POINTS + 1);
  double y = g_rand_boolean (rand) ? size : 1e-7 * size,
         z = g_rand_boolean (rand) ? size : 1e-7 * size;
  for (guint i = 0; i < n; i++)
    {
      TrnVec3 p = random_point (rand);
      points[i] = trn_vec3_make (size * p.x, y * p.y, z * p.z);
    }
  set_make (set, points, n);
}

static TrnRotation
random_turn (GRand *rand)
{
  return trn_rotation_make (trn_vec3_unit (random_point (rand)), g_rand_double_range (rand, -4, 4));
}

static QuadVec
direction (TrnDirection n)
{
  return (QuadVec){ n.x, n.y, n.z };
}

static QuadVec
turned (const TrnRotation *r, TrnVec3 p)
{
  QuadVec rows[3], v = quad_vec (p);
  for (guint i = 0; i < 3; i++)
    rows[i] = (QuadVec){ r->m[i][0], r->m[i][1], r->m[i][2] };
  return (QuadVec){ quad_product (rows[0], v), quad_product (rows[1], v),
                    quad_product (rows[2], v) };
}

static Quad
lowest_of_a (const Set *a, const TrnHullPlaces *places, QuadVec n)
{
  Quad low = INFINITY;
  for (guint k = 0; k < places->n_poses; k++)
    for (guint i = 0; i < a->n; i++)
      {
        QuadVec x
            = quad_add (turned (places->turn[k], set_get (a, i)), quad_vec (places->centre[k]));
        low = MIN (low, quad_product (n, x));
      }
  return low;
}

static Quad
highest_of_b (const Set *b, QuadVec n)
{
  Quad high = -INFINITY;
  for (guint i = 0; i < b->n; i++)
    high = MAX (high, quad_product (n, quad_vec (set_get (b, i))));
  return high;
}

/* What hull.h says that the caller takes off for double precision. */
static double
left_to_caller (const Set *a, const TrnHullPlaces *places, const Set *b)
{
  double off = 0, radii = a->hull.radius_m + b->hull.radius_m;
  for (guint k = 0; k < places->n_poses; k++)
    off += 8 * (DBL_EPSILON / 2) * (trn_vec3_length (places->centre[k]) + radii);
  return off;
}

static Quad
exact_gap (const Set *a, const TrnHullPlaces *places, const Set *b, TrnDirection n)
{
  QuadVec v = direction (n);
  return (lowest_of_a (a, places, v) - highest_of_b (b, v)) / quad_length (v);
}

static void
check_gap (const Set *a, const TrnHullPlaces *places, const Set *b, TrnHullGap gap)
{
  g_assert_true (gap.gap_m <= exact_gap (a, places, b, gap.n) + left_to_caller (a, places, b));
}

static TrnDirection
random_direction (GRand *rand)
{
  TrnVec3 n = trn_vec3_unit (random_point (rand));
  return (TrnDirection){ (float)n.x, (float)n.y, (float)n.z };
}

/* One set is all but a point now and then, so that the rounding of the other stands alone. */
static void
test_certificate (void)
{
  static const double sizes[] = { 1, 1e-9, 4e-5, 3000, 1e-41 };
  static const double aparts[] = { 0, 1e-7, 0.3, 3, 30 };
  g_autoptr (GRand) rand = g_rand_new_with_seed (21);
  guint apart = 0;
  for (guint run = 0; run < test_scaled (3000); run++)
    {
      double size = sizes[g_rand_int_range (rand, 0, 5)];
      Set a, b;
      set_random (&a, rand, size * (run % 4 == 1 ? 1e-9 : 1));
      set_random (&b, rand, size * (run % 4 == 2 ? 1e-9 : 1));
      TrnRotation turns[2] = { random_turn (rand), random_turn (rand) };
      TrnVec3 shift = trn_vec3_scale (random_point (rand), size * aparts[run % 5]);
      TrnHullPlaces places
          = { .n_poses = 1 + run % 2,
              .same_turn = g_rand_boolean (rand),
              .centre = { shift, trn_vec3_add_scaled (shift, random_point (rand), size) } };
      places.turn[0] = &turns[0];
      places.turn[1] = places.same_turn ? &turns[0] : &turns[1];
      guint steps = (guint)g_rand_int_range (rand, 1, 25);
      TrnHullGap gap = trn_hull_separate (&a.hull, &places, &b.hull, random_direction (rand),
                                          trn_vec3_length (shift), steps, NULL, NULL);
      check_gap (&a, &places, &b, gap);
      apart += gap.gap_m > 0;
    }
  g_assert_cmpuint (apart, >, test_scaled (3000) / 10);
}

/* The rounding of the direction seen from A comes on top of that of the product. A point and a turn
 * found by a search, for which products, sums and that direction are all rounded up by about as
 * much as there is: 3.08 · 2⁻²⁴ of the length, and 3.01 is that of the product alone. */
static void
test_turned_direction (void)
{
  TrnVec3 w = { 0x1.000df300000a4p-1, 0x1.0011ed0000046p-1, 0 };
  w.z = sqrt (1 - w.x * w.x - w.y * w.y);
  TrnVec3 p = { 0x1.001308p-1, 0x1.000ecp-1, 0x1.69f314p-1 }, zero = { 0, 0, 0 };
  TrnVec3 v = trn_vec3_unit (trn_vec3_cross (w, trn_vec3_make (1, 0, 0)));
  TrnVec3 u = trn_vec3_cross (w, v);
  TrnRotation turn = { { { w.x, w.y, w.z }, { v.x, v.y, v.z }, { u.x, u.y, u.z } } };
  TrnHullPlaces places = { .n_poses = 1, .turn = { &turn } };
  Set a, b;
  set_make (&a, &p, 1);
  set_make (&b, &zero, 1);
  TrnDirection x = { 1, 0, 0 };
  TrnHullGap gap = trn_hull_separate (&a.hull, &places, &b.hull, x, INFINITY, 1, NULL, NULL);
  check_gap (&a, &places, &b, gap);
  double without = gap.gap_m + 0x1p-24 * a.hull.radius_m;
  g_assert_true (without > exact_gap (&a, &places, &b, x) + left_to_caller (&a, &places, &b));
}

/* Least distance of two hulls by the method of Frank and Wolfe with exact line search: slow, plain,
 * and an upper bound at every step, so the two methods hold the truth between them. */
static TrnVec3
nearest_from_above (const Set *a, TrnVec3 shift, const Set *b)
{
  TrnVec3 v = trn_vec3_sub (trn_vec3_add (set_get (a, 0), shift), set_get (b, 0));
  for (guint step = 0; step < 20000; step++)
    {
      guint i = 0, j = 0;
      for (guint k = 1; k < a->n; k++)
        if (trn_vec3_dot (v, set_get (a, k)) < trn_vec3_dot (v, set_get (a, i)))
          i = k;
      for (guint k = 1; k < b->n; k++)
        if (trn_vec3_dot (v, set_get (b, k)) > trn_vec3_dot (v, set_get (b, j)))
          j = k;
      TrnVec3 w = trn_vec3_sub (trn_vec3_add (set_get (a, i), shift), set_get (b, j));
      TrnVec3 d = trn_vec3_sub (w, v);
      double dd = trn_vec3_length_squared (d), along = -trn_vec3_dot (v, d);
      if (!(dd > 0) || along <= 1e-12 * trn_vec3_length_squared (v))
        break;
      v = trn_vec3_add_scaled (v, d, CLAMP (along / dd, 0, 1));
    }
  return v;
}

/* Good: all but the distance of the hulls is found, and what is asked for when it is less. */
static void
test_good (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (22);
  TrnRotation identity = trn_rotation_identity ();
  guint apart = 0;
  for (guint run = 0; run < test_scaled (200); run++)
    {
      Set a, b;
      set_random (&a, rand, 1);
      set_random (&b, rand, 1);
      TrnHullPlaces places = { .n_poses = 1,
                               .turn = { &identity },
                               .centre = { trn_vec3_scale (random_point (rand), 4) } };
      double above = trn_vec3_length (nearest_from_above (&a, places.centre[0], &b));
      TrnHullGap best = trn_hull_separate (&a.hull, &places, &b.hull, random_direction (rand),
                                           above - 2e-3, 24, NULL, NULL);
      check_gap (&a, &places, &b, best);
      g_assert_cmpfloat (best.gap_m, <=, above + 1e-13);
      if (!(above > 0.05))
        continue;
      apart++;
      g_assert_cmpfloat (best.gap_m, >=, above - 2e-3);
      TrnHullGap enough = trn_hull_separate (&a.hull, &places, &b.hull, random_direction (rand),
                                             0.9 * above, 24, NULL, NULL);
      g_assert_cmpfloat (enough.gap_m, >=, 0.9 * above);
    }
  g_assert_cmpuint (apart, >, test_scaled (200) / 3);
}

/* What the certificate loses elsewhere: all of it but along x. */
static double
loss_but_along_x (TrnVec3 n, gconstpointer data)
{
  (*(guint *)data)++;
  g_assert_cmpfloat_with_epsilon (trn_vec3_length (n), 1, 1e-14);
  return n.x > 0.99 ? 0 : 100;
}

/* It stops at the first direction that is good enough, and does not go on where none can be; a
 * direction that loses nothing is preferred to one with a greater gap. */
static void
test_stops_early (void)
{
  const TrnVec3 pa[] = { { 5, 3, 0 }, { 6, 4, 0 } }, pb[] = { { 0, 0, 0 }, { 0, 1, 1 } };
  TrnRotation identity = trn_rotation_identity ();
  TrnHullPlaces places = { .n_poses = 1, .turn = { &identity } };
  TrnDirection x = { 1, 0, 0 };
  Set a, b;
  set_make (&a, pa, 2);
  set_make (&b, pb, 2);
  TrnHullGap gap = trn_hull_separate (&a.hull, &places, &b.hull, x, 4.5, 24, NULL, NULL);
  g_assert_cmpmem (&gap.n, sizeof gap.n, &x, sizeof x);
  g_assert_cmpfloat_with_epsilon (gap.gap_m, 5, 1e-5);
  g_assert_cmpfloat (gap.gap_m, <, 5);
  gap = trn_hull_separate (&a.hull, &places, &b.hull, x, 5.47, 24, NULL, NULL);
  g_assert_cmpfloat_with_epsilon (gap.gap_m, sqrt (30), 8e-3);
  gap = trn_hull_separate (&a.hull, &places, &b.hull, x, 100, 24, NULL, NULL);
  g_assert_cmpfloat (gap.gap_m, >=, 5 - 1e-5);
  guint asked = 0;
  gap = trn_hull_separate (&a.hull, &places, &b.hull, x, 5.47, 24, loss_but_along_x, &asked);
  g_assert_cmpmem (&gap.n, sizeof gap.n, &x, sizeof x);
  g_assert_cmpuint (asked, >, 1);
}

/* Points that are all the same, on a line or in a plane. */
static void
test_flat (void)
{
  const TrnVec3 point[] = { { 2, 0, 0 }, { 2, 0, 0 }, { 2, 0, 0 } };
  const TrnVec3 line[] = { { 0, -1, 0 }, { 0, 0, 0 }, { 0, 1, 0 }, { 0, 2, 0 } };
  const TrnVec3 plane[] = { { 0, -1, -1 }, { 0, 3, -1 }, { 0, 0, 3 }, { 0, 0, 0 } };
  TrnRotation identity = trn_rotation_identity ();
  TrnHullPlaces places = { .n_poses = 1, .turn = { &identity } };
  TrnDirection first = { 0.6f, 0.6f, 0.6f };
  Set p, l, f;
  set_make (&p, point, 3);
  set_make (&l, line, 4);
  set_make (&f, plane, 4);
  double of_line
      = trn_hull_separate (&p.hull, &places, &l.hull, first, 2 - 2e-6, 24, NULL, NULL).gap_m;
  double of_plane
      = trn_hull_separate (&p.hull, &places, &f.hull, first, 2 - 2e-6, 24, NULL, NULL).gap_m;
  g_assert_cmpfloat_with_epsilon (of_line, 2, 5e-6);
  g_assert_cmpfloat_with_epsilon (of_plane, 2, 5e-6);
  g_assert_cmpfloat (of_line, <, 2);
  g_assert_cmpfloat (of_plane, <, 2);
  g_assert_cmpfloat (trn_hull_separate (&f.hull, &places, &l.hull, first, 1, 24, NULL, NULL).gap_m,
                     <=, 0);
}

/* Any points of a hull of @n points will do to begin at. */
static TrnHullWay
way_random (GRand *rand, guint n)
{
  TrnHullWay way = { .n = (guint)g_rand_int_range (rand, 0, TRN_HULL_WAY_POINTS + 1) };
  for (guint i = 0; i < TRN_HULL_WAY_POINTS; i++)
    way.points[i] = (guint32)g_rand_int_range (rand, 0, (gint32)n);
  return way;
}

/* The distance of a point from a hull is attained, so never less than the truth; what separates the
 * two by quadruple precision is never more than it. It is also little more than the least. */
static void
test_point_distance (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (23);
  TrnRotation identity = trn_rotation_identity ();
  for (guint run = 0; run < test_scaled (400); run++)
    {
      Set a, b;
      set_random (&a, rand, 1);
      TrnVec3 p = trn_vec3_scale (random_point (rand), run % 2 ? 3 : 1);
      TrnVec3 as_single = { (float)p.x, (float)p.y, (float)p.z }, zero = { 0, 0, 0 };
      set_make (&b, &zero, 1);
      TrnHullPlaces places
          = { .n_poses = 1, .turn = { &identity }, .centre = { trn_vec3_scale (as_single, -1) } };
      TrnVec3 v = nearest_from_above (&a, places.centre[0], &b);
      double above = trn_vec3_length (v);
      TrnHullWay way = { .n = 0 };
      double found = trn_hull_point_distance (&a.hull, as_single, 0, INFINITY, &way);
      TrnDirection n = { (float)(v.x / above), (float)(v.y / above), (float)(v.z / above) };
      g_assert_true (above == 0 || found >= exact_gap (&a, &places, &b, n));
      g_assert_cmpfloat (found, <=, above * (1 + 1e-3) + 2e-3);
      double again = trn_hull_point_distance (&a.hull, as_single, 0, INFINITY, &way);
      g_assert_true (again >= found * (1 - 1e-6) - 1e-12 && again <= found * (1 + 1e-3) + 2e-3);
      way = way_random (rand, 8 * a.hull.n_blocks);
      again = trn_hull_point_distance (&a.hull, as_single, 0, INFINITY, &way);
      g_assert_true (again >= found * (1 - 1e-3) - 2e-3 && again <= found * (1 + 1e-3) + 2e-3);
      g_assert_true (above == 0 || again >= exact_gap (&a, &places, &b, n));
      way = (TrnHullWay){ .n = 0 };
      double enough = above + 0.1,
             early = trn_hull_point_distance (&a.hull, as_single, enough, INFINITY, &way);
      g_assert_true (early >= found * (1 - 1e-6) && early <= enough);
    }
}

/* Of a triangle, where quadruple precision knows the distance: of points all but in it, and of
 * triangles that are slivers. */
static void
test_point_of_triangle (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (24);
  for (guint run = 0; run < test_scaled (6000); run++)
    {
      double size = pow (10, g_rand_double_range (rand, -6, 0));
      double width = size * pow (10, g_rand_double_range (rand, -9, 0));
      TrnVec3 base = random_point (rand), c[3];
      for (guint i = 0; i < 3; i++)
        c[i] = trn_vec3_add_scaled (base, random_point (rand), size);
      if (run % 3 != 0)
        c[2] = trn_vec3_add_scaled (trn_vec3_mix (c[0], c[1], g_rand_double_range (rand, -1, 2)),
                                    random_point (rand), width);
      Set set;
      set_make (&set, c, 3);
      for (guint i = 0; i < 3; i++)
        c[i] = set_get (&set, i);
      double s = g_rand_double (rand), t = g_rand_double (rand) * (1 - s);
      TrnVec3 p = trn_vec3_add (trn_vec3_scale (c[0], 1 - s - t),
                                trn_vec3_add (trn_vec3_scale (c[1], s), trn_vec3_scale (c[2], t)));
      static const double off[] = { 0, 1e-15, 1e-9, 1, 1e3 };
      p = trn_vec3_add_scaled (p, random_point (rand), size * off[run % 5]);
      TrnHullWay way = run % 2 ? (TrnHullWay){ .n = 0 } : way_random (rand, 3);
      double found = trn_hull_point_distance (&set.hull, p, 0, INFINITY, &way);
      Quad exact = quad_point_distance (p, c);
      g_assert_true (found >= exact);
    }
}

/* Points exactly in one plane, and a point in it but for rounding: every tetrahedron is flat, and
 * on which side of its faces anything lies is mere noise. The hull is the union of the triangles.
 */
static void
test_point_of_flat (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (25);
  for (guint run = 0; run < test_scaled (2000); run++)
    {
      TrnVec3 c[6];
      guint n = (guint)g_rand_int_range (rand, 4, 7);
      for (guint i = 0; i < n; i++)
        {
          double x = g_rand_int_range (rand, -9, 10), y = g_rand_int_range (rand, -9, 10);
          c[i] = trn_vec3_make (x, y, -x - y);
        }
      Set set;
      set_make (&set, c, n);
      TrnVec3 p = trn_vec3_scale (random_point (rand), 12);
      p.z = -p.x - p.y;
      Quad exact = INFINITY;
      for (guint i = 0; i < n; i++)
        for (guint k = 0; k < i; k++)
          for (guint j = 0; j < k; j++)
            {
              const TrnVec3 corners[3] = { c[i], c[k], c[j] };
              Quad d = quad_point_distance (p, corners);
              exact = MIN (exact, d);
            }
      TrnHullWay way = run % 2 ? (TrnHullWay){ .n = 0 } : way_random (rand, n);
      g_assert_true (trn_hull_point_distance (&set.hull, p, 0, INFINITY, &way) >= exact);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/hull/certificate", test_certificate);
  g_test_add_func ("/hull/turned-direction", test_turned_direction);
  g_test_add_func ("/hull/good", test_good);
  g_test_add_func ("/hull/early", test_stops_early);
  g_test_add_func ("/hull/flat", test_flat);
  g_test_add_func ("/hull/point-distance", test_point_distance);
  g_test_add_func ("/hull/point-of-triangle", test_point_of_triangle);
  g_test_add_func ("/hull/point-of-flat", test_point_of_flat);
  return g_test_run ();
}
