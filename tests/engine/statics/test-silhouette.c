/* The area of a body as seen along a level direction, against closed forms and against pictures
 * with their points counted one by one. */
#include "silhouette.h"

#include <string.h>

#include "test-scale.h"
#include "test-shapes.h"

#define RAD(deg) ((deg)*G_PI / 180)
#define WITHIN 0.01 /* a share of the area */

static const TrnRotation level = { { { 1, 0, 0 }, { 0, 1, 0 }, { 0, 0, 1 } } };

static void
assert_bound (double bound, double truth, double within)
{
  g_assert_cmpfloat (bound, >=, truth * (1 - 1e-9));
  g_assert_cmpfloat (bound, <=, truth * (1 + within));
}

/* ---- a picture, counted ---- */

#define PIXELS 1200

/* The direction of a heading, in the frame of a mesh that is turned. */
static TrnVec3
heading_in (const TrnRotation *turn, double heading_rad)
{
  const TrnVec3 along = { cos (heading_rad), sin (heading_rad), 0 };
  return trn_rotation_apply_inverse (turn, along);
}

/* All level directions about a mesh that is turned. */
static TrnSilhouetteBand
level_band (const TrnRotation *turn)
{
  return (TrnSilhouetteBand){ .up = trn_rotation_apply_inverse (turn, trn_vec3_make (0, 0, 1)),
                              .axis = trn_rotation_apply_inverse (turn, trn_vec3_make (1, 0, 0)) };
}

static double
area_seen (const TrnMesh *mesh, const TrnRotation *turn, double heading_rad, double slack_m)
{
  return trn_silhouette_m2 (mesh, heading_in (turn, heading_rad), slack_m);
}

static double
heading_of (const TrnSilhouette *worst, const TrnRotation *turn)
{
  const TrnVec3 seen = trn_rotation_apply (turn, worst->direction);
  return atan2 (seen.y, seen.x);
}

static TrnSilhouette
worst_level (const TrnMesh *mesh, const TrnRotation *turn)
{
  const TrnSilhouetteBand band = level_band (turn);
  g_autoptr (TrnMeshCheck) check = trn_mesh_check_new (mesh);
  return trn_silhouette_worst (mesh, check->closed, 0, &band, 1, 2);
}

/* Of a triangle's picture along the level line at @y: FALSE where it does not come that far. */
static gboolean
span_of (const double *const corners[3], double y, double *from, double *to)
{
  *from = INFINITY;
  *to = -INFINITY;
  for (int k = 0; k < 3; k++)
    {
      const double *a = corners[k], *b = corners[(k + 1) % 3];
      if ((a[1] - y) * (b[1] - y) > 0 || a[1] == b[1])
        continue;
      const double x = a[0] + (y - a[1]) / (b[1] - a[1]) * (b[0] - a[0]);
      *from = MIN (*from, x);
      *to = MAX (*to, x);
    }
  return *from <= *to;
}

/* Marks the points of the picture that lie in a triangle. */
static void
mark (char *seen, const double *const corners[3], const double lo[2], const double pixel[2])
{
  const double least = fmin (corners[0][1], fmin (corners[1][1], corners[2][1])),
               most = fmax (corners[0][1], fmax (corners[1][1], corners[2][1]));
  const int first = MAX (0, (int)((least - lo[1]) / pixel[1]) - 1),
            last = MIN (PIXELS - 1, (int)((most - lo[1]) / pixel[1]) + 1);
  double from, to;
  for (int row = first; row <= last; row++)
    {
      if (!span_of (corners, lo[1] + (row + 0.5) * pixel[1], &from, &to))
        continue;
      const int left = MAX (0, (int)ceil ((from - lo[0]) / pixel[0] - 0.5)),
                right = MIN (PIXELS - 1, (int)floor ((to - lo[0]) / pixel[0] - 0.5));
      if (left <= right)
        memset (seen + row * PIXELS + left, 1, right - left + 1);
    }
}

/* The points in the middle of PIXELS × PIXELS squares that lie in some triangle. */
static double
counted_area (const TrnMesh *mesh, const TrnRotation *turn, double heading_rad)
{
  g_autofree char *seen = g_malloc0 (PIXELS * PIXELS);
  g_autofree double *places = g_new (double, 2 * mesh->n_vertices);
  double lo[2] = { INFINITY, INFINITY }, hi[2] = { -INFINITY, -INFINITY }, pixel[2];
  for (guint32 i = 0; i < mesh->n_vertices; i++)
    {
      TrnVec3 p = trn_rotation_apply (turn, mesh->vertices[i]);
      places[2 * i] = p.y * cos (heading_rad) - p.x * sin (heading_rad);
      places[2 * i + 1] = p.z;
      for (int k = 0; k < 2; k++)
        {
          lo[k] = fmin (lo[k], places[2 * i + k]);
          hi[k] = fmax (hi[k], places[2 * i + k]);
        }
    }
  for (int k = 0; k < 2; k++)
    pixel[k] = (hi[k] - lo[k]) / PIXELS;
  for (guint32 i = 0; i < mesh->n_triangles; i++)
    {
      const guint32 *v = mesh->triangles[i].v;
      const double *const p[3] = { &places[2 * v[0]], &places[2 * v[1]], &places[2 * v[2]] };
      mark (seen, p, lo, pixel);
    }
  guint n = 0;
  for (int i = 0; i < PIXELS * PIXELS; i++)
    n += seen[i];
  return n * pixel[0] * pixel[1];
}

/* ---- bodies ---- */

/* A box 4 × 3 × 2 m: (4 |sin| + 3 |cos|) 2 m², most when seen along the diagonal of its plan: 10.
 */
static void
test_box_body (void)
{
  g_autoptr (TrnMesh) mesh = test_box (trn_vec3_make (100, 200, 50), trn_vec3_make (104, 203, 52));
  for (int deg = -30; deg < 200; deg += 10)
    assert_bound (area_seen (mesh, &level, RAD (deg), 0),
                  2 * (4 * fabs (sin (RAD (deg))) + 3 * fabs (cos (RAD (deg)))), 0.005);
  TrnSilhouette worst = worst_level (mesh, &level);
  assert_bound (worst.area_m2, 10, WITHIN);
  g_assert_cmpfloat (worst.seen_m2, <=, worst.area_m2);
  double true_seen = 2
                     * (4 * fabs (sin (heading_of (&worst, &level)))
                        + 3 * fabs (cos (heading_of (&worst, &level))));
  g_assert_cmpfloat (true_seen, >=, 0.99 * 10);
  /* All of it 5 cm farther out: 5.1 m by 2.1 m less what its round corners lack. */
  const TrnSilhouetteBand band = level_band (&level);
  assert_bound (trn_silhouette_worst (mesh, TRUE, 0.05, &band, 1, 2).area_m2,
                5.1 * 2.1 - (4 - G_PI) * 0.05 * 0.05, 2 * WITHIN);
}

/* A drum, 6 m across and 10 m high: 60 m² from every side, at once. */
static void
test_drum_body (void)
{
  g_autoptr (TrnMesh) mesh = test_drum (96, 3, 0, 10);
  assert_bound (worst_level (mesh, &level).area_m2, 60, WITHIN);
}

/* A beam 0.5 × 0.5 × 20 m, slanting by 10° to 80°, seen square to its plumb plane: 10 m². */
static void
test_slanting_beam (void)
{
  g_autoptr (TrnMesh) mesh
      = test_box (trn_vec3_make (-0.25, -0.25, -10), trn_vec3_make (0.25, 0.25, 10));
  for (int deg = 10; deg <= 80; deg += 10)
    {
      TrnRotation turn = trn_rotation_make (trn_vec3_make (0, 1, 0), RAD (deg));
      assert_bound (area_seen (mesh, &turn, RAD (90), 0), 10, WITHIN);
    }
}

/* A lying tube, 3 m across, wall 0.25 m, seen along its axis: the bore is a gap,
 * and so much of an outline costs a little more. */
static void
test_gap (void)
{
  g_autoptr (TrnMesh) mesh = test_tube (128, 1.25, 1.5, 0, 5);
  TrnRotation turn = trn_rotation_make (trn_vec3_make (0, 1, 0), RAD (90));
  double disc = 64 * sin (G_PI / 64);
  assert_bound (area_seen (mesh, &turn, 0, 0), disc * (1.5 * 1.5 - 1.25 * 1.25), 2 * WITHIN);
}

/* Half the sum of |n·d| A, which counts concave bodies too much, is an upper bound of the truth
 * too: ours is not above it by more than its own width, and well below it for a tube. */
static void
test_below_half_sum (void)
{
  g_autoptr (TrnMesh) mesh = test_tube (64, 1, 2, 0, 3);
  TrnRotation turn = trn_rotation_make (trn_vec3_make (0, 1, 0), RAD (45));
  double sum = 0;
  for (guint32 i = 0; i < mesh->n_triangles; i++)
    {
      TrnVec3 c[3];
      trn_mesh_corners (mesh, i, c);
      TrnVec3 n = trn_vec3_cross (trn_vec3_sub (c[1], c[0]), trn_vec3_sub (c[2], c[0]));
      sum += 0.25 * fabs (trn_rotation_apply (&turn, n).x);
    }
  g_assert_cmpfloat (area_seen (mesh, &turn, 0, 0), <, 0.95 * sum);
}

static TrnMesh *
body_make (GRand *rand, guint kind)
{
  switch (kind % 4)
    {
    case 0:
      return test_blob (rand, 24, 5);
    case 1:
      return test_tube (48, g_rand_double_range (rand, 0.5, 1.5), 2, 0,
                        g_rand_double_range (rand, 1, 12));
    case 2:
      return test_box (trn_vec3_make (0, 0, 0), trn_vec3_make (g_rand_double_range (rand, 1, 9), 1,
                                                               g_rand_double_range (rand, 1, 9)));
    default:
      return test_drum (40, g_rand_double_range (rand, 0.5, 4), -1,
                        g_rand_double_range (rand, 0, 8));
    }
}

static TrnRotation
turn_make (GRand *rand)
{
  TrnRotation a = trn_rotation_make (trn_vec3_make (1, 0, 0), g_rand_double_range (rand, -2, 2));
  TrnRotation b = trn_rotation_make (trn_vec3_make (0, 1, 0), g_rand_double_range (rand, -2, 2));
  return trn_rotation_multiply (&a, &b);
}

/* Twenty bodies, turned at random: within 1 % of the count of a picture, and no heading of 5 shows
 * more than the worst. The count has an error of its own, less than two in a thousand. */
static void
test_pictures (void)
{
  guint32 seed = (guint32)g_test_rand_int ();
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  double greatest = 0, least = INFINITY, width = 0;
  for (guint i = 0; i < test_scaled (20); i++)
    {
      g_autoptr (TrnMesh) mesh = body_make (rand, i);
      TrnRotation turn = turn_make (rand);
      double heading = g_rand_double_range (rand, -4, 4);
      double ratio = area_seen (mesh, &turn, heading, 0) / counted_area (mesh, &turn, heading);
      g_assert_cmpfloat (ratio, <=, 1 + WITHIN);
      greatest = fmax (greatest, ratio);
      least = fmin (least, ratio);
      TrnSilhouette worst = worst_level (mesh, &turn);
      width = fmax (width, worst.area_m2 / worst.seen_m2);
      double seen = counted_area (mesh, &turn, heading_of (&worst, &turn));
      for (int k = 0; k < 5; k++)
        {
          double area = counted_area (mesh, &turn, G_PI * k / 5);
          g_assert_cmpfloat (area, <=, 1.002 * worst.area_m2);
          seen = fmax (seen, area);
        }
      g_assert_cmpfloat (worst.area_m2, <=, (1 + WITHIN) * seen);
    }
  g_test_message ("seed %u: bound over count %.4f to %.4f, worst over seen up to %.4f", seed, least,
                  greatest, width);
  g_assert_cmpfloat (least, >=, 0.998);
}

/* A shaft of radius 0.5 m with flanges of radius 1 m and a cup at its end, 12 m long, turned on a
 * lathe from its profile, and a box to one side; of more than 20,000 triangles, so that no pictures
 * of parts are taken where slabs across do. */
static TrnMesh *
column_make (void)
{
  static const double profile[][2]
      = { { 0, 0 },   { 0.9, 0 },   { 0.9, 0.8 }, { 0.5, 1.6 }, { 0.5, 5 },
          { 1, 5 },   { 1, 5.2 },   { 0.5, 5.2 }, { 0.5, 9 },   { 1, 9 },
          { 1, 9.3 }, { 0.7, 9.3 }, { 0.7, 12 },  { 0, 12 } };
  const guint n = 900, rings = G_N_ELEMENTS (profile);
  TrnMeshBuilder *builder = trn_mesh_builder_new ();
  for (guint k = 0; k < rings; k++)
    for (guint i = 0; i < n; i++)
      trn_mesh_builder_vertex (builder, trn_vec3_make (profile[k][0] * cos (2 * G_PI * i / n),
                                                       profile[k][0] * sin (2 * G_PI * i / n),
                                                       profile[k][1]));
  for (guint k = 0; k + 1 < rings; k++)
    for (guint i = 0; i < n; i++)
      {
        const guint a = k * n + i, b = k * n + (i + 1) % n;
        trn_mesh_builder_triangle (builder, a, b, b + n);
        trn_mesh_builder_triangle (builder, a, b + n, a + n);
      }
  g_autoptr (TrnMesh) box
      = test_box (trn_vec3_make (0.6, -0.3, 10), trn_vec3_make (1.6, 0.3, 10.6));
  const guint from = n * rings;
  for (guint32 i = 0; i < box->n_vertices; i++)
    trn_mesh_builder_vertex (builder, box->vertices[i]);
  for (guint32 i = 0; i < box->n_triangles; i++)
    trn_mesh_builder_triangle (builder, from + box->triangles[i].v[0],
                               from + box->triangles[i].v[1], from + box->triangles[i].v[2]);
  return trn_mesh_builder_finish (builder);
}

/* In attitudes at random, so that it is seen across, along and aslant: no heading of 8 shows more
 * than the worst, as counted, and that is not much more than the most that is counted. What slabs
 * share, taken off twice, comes to less than is counted. */
static void
test_column (void)
{
  guint32 seed = (guint32)g_test_rand_int ();
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  g_autoptr (TrnMesh) mesh = column_make ();
  double widest = 0, least = INFINITY;
  for (guint i = 0; i < test_scaled (8); i++)
    {
      const TrnRotation turn = turn_make (rand);
      const TrnSilhouette worst = worst_level (mesh, &turn);
      double seen = counted_area (mesh, &turn, heading_of (&worst, &turn));
      for (int k = 0; k < 8; k++)
        seen = fmax (seen, counted_area (mesh, &turn, G_PI * k / 8));
      g_assert_cmpfloat (seen, <=, 1.002 * worst.area_m2);
      widest = fmax (widest, worst.area_m2 / seen);
      least = fmin (least, worst.area_m2 / seen);
    }
  g_test_message ("seed %u: worst over count %.4f to %.4f", seed, least, widest);
  g_assert_cmpfloat (widest, <=, 1.12);
}

/* With slack the bound holds for the body turned a little otherwise; and turning the site changes
 * nothing. */
static void
test_slack (void)
{
  guint32 seed = (guint32)g_test_rand_int ();
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  g_test_message ("seed %u", seed);
  for (guint i = 0; i < 8; i++)
    {
      g_autoptr (TrnMesh) mesh = body_make (rand, i);
      TrnRotation turn = turn_make (rand), yaw, lean;
      TrnVec3 size = trn_box_size (&mesh->box);
      double bound = area_seen (mesh, &turn, 0.3, RAD (1) * 0.5 * trn_vec3_length (size));
      for (int k = 0; k < 6; k++)
        {
          TrnVec3 axis = { cos (k), sin (k), 0 };
          lean = trn_rotation_make (axis, RAD (1));
          TrnRotation other = trn_rotation_multiply (&lean, &turn);
          g_assert_cmpfloat (counted_area (mesh, &other, 0.3), <=, 1.002 * bound);
        }
      yaw = trn_rotation_make (trn_vec3_make (0, 0, 1), 1.1);
      TrnRotation yawed = trn_rotation_multiply (&yaw, &turn);
      double plain = area_seen (mesh, &turn, 0.3, 0);
      g_assert_cmpfloat_with_epsilon (area_seen (mesh, &yawed, 1.4, 0), plain, 0.005 * plain);
    }
}

/* Nothing is seen of nothing, and a sheet seen edge on has next to no area. */
static void
test_thin (void)
{
  g_autoptr (TrnMesh) none = trn_mesh_builder_finish (trn_mesh_builder_new ());
  g_assert_cmpfloat (worst_level (none, &level).area_m2, ==, 0);
  TrnMeshBuilder *builder = trn_mesh_builder_new ();
  for (int i = 0; i < 3; i++)
    trn_mesh_builder_vertex (builder, trn_vec3_make (i == 1 ? 4 : 0, 0, i == 2 ? 3 : 0));
  trn_mesh_builder_triangle (builder, 0, 1, 2);
  g_autoptr (TrnMesh) sheet = trn_mesh_builder_finish (builder);
  g_assert_cmpfloat (area_seen (sheet, &level, 0, 0), <, 1e-4);
  assert_bound (worst_level (sheet, &level).area_m2, 6, WITHIN);
}

/* ---- many directions ---- */

static TrnSilhouette
worst_in (const TrnMesh *mesh, const TrnSilhouetteBand *band, guint jobs)
{
  g_autoptr (TrnMeshCheck) check = trn_mesh_check_new (mesh);
  return trn_silhouette_worst (mesh, check->closed, 0, band, 1, jobs);
}

static const TrnSilhouetteBand any_way
    = { .up = { 0, 0, 1 }, .axis = { 1, 0, 0 }, .slant_rad = G_PI / 2 };
static const TrnSilhouetteBand upended
    = { .up = { 0, 0, 1 }, .axis = { 1, 0, 0 }, .angle_rad = G_PI / 2 };

/* Of a box a × b × c the greatest area over all directions is √((ab)² + (bc)² + (ca)²), Cauchy and
 * Schwarz. Of a drum of radius r and height h it is 2 r h cos α + π r² sin α at the slant α, at
 * most √((2 r h)² + (π r²)²), which an upending by 90° comes by. Of a plate it is its face. */
static void
test_closed_forms (void)
{
  g_autoptr (TrnMesh) box = test_box (trn_vec3_make (0, 0, 0), trn_vec3_make (4, 3, 2));
  g_autoptr (TrnMesh) drum = test_drum (96, 3, 0, 10);
  g_autoptr (TrnMesh) plate = test_box (trn_vec3_make (0, 0, 0), trn_vec3_make (4, 1e-3, 3));
  assert_bound (worst_in (box, &any_way, 2).area_m2, sqrt (12 * 12 + 6 * 6 + 8 * 8), WITHIN);
  const double foot = 48 * 9 * sin (2 * G_PI / 96);
  assert_bound (worst_in (drum, &upended, 2).area_m2, hypot (60, foot) * cos (G_PI / 96), WITHIN);
  assert_bound (worst_in (drum, &any_way, 2).area_m2, hypot (60, foot) * cos (G_PI / 96), WITHIN);
  assert_bound (worst_in (plate, &any_way, 2).area_m2, 12, WITHIN);
}

static void
add_box (TrnMeshBuilder *builder, TrnVec3 lo, TrnVec3 hi)
{
  g_autoptr (TrnMesh) box = test_box (lo, hi);
  guint first = 0;
  for (guint i = 0; i < box->n_vertices; i++)
    {
      const guint vertex = trn_mesh_builder_vertex (builder, box->vertices[i]);
      first = i == 0 ? vertex : first;
    }
  for (guint i = 0; i < box->n_triangles; i++)
    {
      const guint32 *v = box->triangles[i].v;
      trn_mesh_builder_triangle (builder, first + v[0], first + v[1], first + v[2]);
    }
}

/* Twenty upright bars 0.1 × 0.1 × 10 m in a row, 0.5 m apart: seen at 45° none hides another, and
 * each shows 0.1 √2 × 10 m². The hull shows more than three times as much. */
static void
test_lattice (void)
{
  TrnMeshBuilder *builder = trn_mesh_builder_new ();
  for (int i = 0; i < 20; i++)
    add_box (builder, trn_vec3_make (0.5 * i, 0, 0), trn_vec3_make (0.5 * i + 0.1, 0.1, 10));
  g_autoptr (TrnMesh) mesh = trn_mesh_builder_finish (builder);
  assert_bound (worst_level (mesh, &level).area_m2, 20 * sqrt (2), WITHIN);
  assert_bound (worst_in (mesh, &any_way, 2).area_m2, 20 * sqrt (1 + 1 + 1e-4), 0.02);
}

/* A body that turns about a level axis by up to some angle, and leans by up to another besides,
 * counted in pictures at random moments: the bound is below none of them by more than the count is
 * off, and along the direction that it names as much is seen as it says. Bumpy and hollow bodies
 * show about the same from very many directions, so that the cuts run out before the bound is near.
 */
#define BUMPY 1.2

static void
test_tilts (void)
{
  guint32 seed = (guint32)g_test_rand_int ();
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  double width = 0;
  for (guint i = 0; i < test_scaled (12); i++)
    {
      g_autoptr (TrnMesh) mesh = body_make (rand, i);
      const TrnRotation start = turn_make (rand);
      const double heading = g_rand_double_range (rand, -4, 4);
      const TrnVec3 axis = { cos (heading), sin (heading), 0 };
      const double angle = g_rand_double_range (rand, -2, 2),
                   slant = i % 3 == 0 ? 0 : g_rand_double_range (rand, 0, 0.2);
      const TrnSilhouetteBand band
          = { .up = trn_rotation_apply_inverse (&start, trn_vec3_make (0, 0, 1)),
              .axis = trn_rotation_apply_inverse (&start, axis),
              .angle_rad = -angle,
              .slant_rad = slant };
      const TrnSilhouette worst = worst_in (mesh, &band, 2);
      width = fmax (width, worst.area_m2 / worst.seen_m2);
      for (guint k = 0; k < 12; k++)
        {
          const double leans_to = g_rand_double_range (rand, -4, 4);
          const TrnRotation turned
              = trn_rotation_make (axis, angle * g_rand_double_range (rand, 0, 1));
          const TrnRotation leant
              = trn_rotation_make (trn_vec3_make (cos (leans_to), sin (leans_to), 0),
                                   slant * g_rand_double_range (rand, 0, 1));
          const TrnRotation off = trn_rotation_multiply (&leant, &turned);
          const TrnRotation turn = trn_rotation_multiply (&off, &start);
          g_assert_cmpfloat (counted_area (mesh, &turn, g_rand_double_range (rand, -4, 4)), <=,
                             1.002 * worst.area_m2);
        }
      const TrnVec3 d = worst.direction;
      const TrnRotation yaw
          = trn_rotation_make (trn_vec3_make (0, 0, 1), -atan2 (d.y, d.x)),
          pitch = trn_rotation_make (trn_vec3_make (0, 1, 0), atan2 (d.z, hypot (d.x, d.y)));
      const TrnRotation along = trn_rotation_multiply (&pitch, &yaw);
      g_assert_cmpfloat (counted_area (mesh, &along, 0), >=, worst.seen_m2 / 1.01);
      g_assert_cmpfloat (worst.area_m2, <=, BUMPY * worst.seen_m2);
    }
  g_test_message ("seed %u: worst over seen up to %.4f", seed, width);
}

/* The number of threads changes nothing, bit for bit; nor does a band within another add to it. */
static void
test_threads (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (7);
  g_autoptr (TrnMesh) mesh = test_blob (rand, 16, 3);
  const TrnSilhouette one = worst_in (mesh, &upended, 1), two = worst_in (mesh, &upended, 2);
  g_assert_cmpmem (&one, sizeof one, &two, sizeof two);
  TrnSilhouetteBand bands[2] = { upended, upended };
  bands[1].angle_rad = 0.3;
  const TrnSilhouette both = trn_silhouette_worst (mesh, TRUE, 0, bands, 2, 2);
  g_assert_cmpfloat_with_epsilon (both.area_m2, one.area_m2, 0.01 * one.area_m2);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/silhouette/box", test_box_body);
  g_test_add_func ("/silhouette/drum", test_drum_body);
  g_test_add_func ("/silhouette/slanting-beam", test_slanting_beam);
  g_test_add_func ("/silhouette/gap", test_gap);
  g_test_add_func ("/silhouette/below-half-sum", test_below_half_sum);
  g_test_add_func ("/silhouette/pictures", test_pictures);
  g_test_add_func ("/silhouette/column", test_column);
  g_test_add_func ("/silhouette/slack", test_slack);
  g_test_add_func ("/silhouette/thin", test_thin);
  g_test_add_func ("/silhouette/closed-forms", test_closed_forms);
  g_test_add_func ("/silhouette/lattice", test_lattice);
  g_test_add_func ("/silhouette/tilts", test_tilts);
  g_test_add_func ("/silhouette/threads", test_threads);
  return g_test_run ();
}
