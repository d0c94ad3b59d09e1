/* The outline of a box, straight by closed form and turned at random against the bound. */
#include "outline.h"

#include <stdlib.h>

#include "quad.h"
#include "test-scale.h"
#include "test-shapes.h"

static TrnVec3
up_of (const TrnRotation *turn)
{
  return trn_vec3_make (turn->m[2][0], turn->m[2][1], turn->m[2][2]);
}

static void
test_box_outline (void)
{
  /* 2 × 3 × 5 m: over a corner of the plan it shows its diagonal √13 times 5; from above 6 m². */
  const TrnVec3 corners[8] = { { 0, 0, 0 }, { 2, 0, 0 }, { 0, 3, 0 }, { 2, 3, 0 },
                               { 0, 0, 5 }, { 2, 0, 5 }, { 0, 3, 5 }, { 2, 3, 5 } };
  TrnMesh mesh = { .vertices = (TrnVec3 *)corners, .n_vertices = 8 };
  mesh.box = (TrnBox){ corners[0], corners[7] };
  const TrnOutline box = trn_outline_make (&mesh, trn_vec3_make (0, 0, 1));
  g_assert_cmpfloat (box.level_m2, >=, 5 * sqrt (13));
  g_assert_cmpfloat (box.level_m2, <=, 5 * sqrt (13) * 1.001);
  g_assert_cmpfloat_with_epsilon (box.plan_m2, 6, 1e-7);
  /* Whatever way it slants, no more is seen than the bound: turned by up to 40° over random axes.
   */
  for (guint i = 0; i < 50; i++)
    {
      const double slant = g_test_rand_double_range (0, 0.7);
      const double heading = g_test_rand_double_range (0, 2 * G_PI);
      const TrnRotation turn
          = trn_rotation_make (trn_vec3_make (cos (heading), sin (heading), 0), slant);
      const TrnOutline turned = trn_outline_make (&mesh, up_of (&turn));
      g_assert_cmpfloat (turned.level_m2 / 1.001, <=, trn_outline_slanted_m2 (&box, slant));
    }
}

/* A thousand points in a ball of 1 m, and eight at the corners of the box round it: those within
 * change nothing; a single point shows nothing. */
static void
test_points_within (void)
{
  TrnVec3 points[1008];
  for (guint i = 0; i < 1008; i++)
    {
      const double x = g_test_rand_double_range (-0.5, 0.5);
      points[i] = i < 8 ? trn_vec3_make (i & 1 ? 1 : -1, i & 2 ? 1 : -1, i & 4 ? 1 : -1)
                        : trn_vec3_make (x, g_test_rand_double_range (-0.5, 0.5), -x);
    }
  TrnMesh mesh = { .vertices = points, .n_vertices = 1008 };
  const TrnRotation turn = trn_rotation_make (trn_vec3_unit (trn_vec3_make (1, 2, 3)), 0.3);
  const TrnOutline many = trn_outline_make (&mesh, up_of (&turn));
  mesh.n_vertices = 8;
  const TrnOutline few = trn_outline_make (&mesh, up_of (&turn));
  g_assert_cmpfloat_with_epsilon (many.level_m2, few.level_m2, 1e-9);
  g_assert_cmpfloat_with_epsilon (many.plan_m2, few.plan_m2, 1e-9);
  mesh.n_vertices = 1;
  g_assert_cmpfloat (trn_outline_make (&mesh, up_of (&turn)).level_m2, ==, 0);
}

/* ---- each thing added, by itself ---- */

/* An upright plate, square to a direction midway between two headings of the bound: from there it
 * shows just what they come to over the cosine of half of what is between them, and only what is
 * added for rounding keeps the bound above that. */
static void
test_between_headings (void)
{
  for (guint i = 0; i < test_scaled (400); i++)
    {
      const double half = g_test_rand_double_range (0.5, 5), high = g_test_rand_double_range (1, 9),
                   heading = (i % 36 + 0.5) * G_PI / 36;
      const double x = half * cos (heading), y = half * sin (heading);
      TrnVec3 corners[4] = { { -x, -y, 0 }, { x, y, 0 }, { -x, -y, high }, { x, y, high } };
      const TrnMesh mesh = { .vertices = corners, .n_vertices = 4 };
      const TrnOutline plate = trn_outline_make (&mesh, trn_vec3_make (0, 0, 1));
      g_assert_true (plate.level_m2 >= 2 * high * quad_length (quad_vec (corners[1])));
      g_assert_cmpfloat (plate.level_m2, <=, 2 * high * half * (1 + 1e-7));
    }
}

/* Seen from above, three runs of points: the ends of the outer ones are in line, and those of the
 * one between stand out by less than half of what single precision rounds. A box as far out as that
 * says would be in line as well, and its points never looked at. */
static void
test_box_of_a_run (void)
{
  enum
  {
    RUN = 100
  };
  TrnVec3 points[3 * RUN];
  for (guint i = 0; i < test_scaled (20); i++)
    {
      const double out = 1 + g_test_rand_double_range (0.5, 0.99) * 0x1p-24;
      for (guint k = 0; k < 3 * RUN; k++)
        {
          const double far = k / RUN == 1 ? out : 1;
          points[k] = trn_vec3_make (k % RUN == 0   ? -far
                                     : k % RUN == 1 ? far
                                                    : g_test_rand_double_range (-0.9, 0.9),
                                     (int)(k / RUN) - 1, 0);
        }
      const TrnMesh mesh = { .vertices = points, .n_vertices = 3 * RUN };
      /* Two halves, each as wide on the average as the end and the middle. */
      g_assert_true (trn_outline_make (&mesh, trn_vec3_make (0, 0, 1)).plan_m2
                     >= 2 * ((Quad)1 + out));
    }
}

/* ---- a picture's hull ---- */

typedef struct
{
  double u, v;
} Dot;

static int
compare (gconstpointer a, gconstpointer b)
{
  const Dot *p = a, *q = b;
  return p->u != q->u ? (p->u > q->u) - (p->u < q->u) : (p->v > q->v) - (p->v < q->v);
}

/* Twice the area between the line over the dots, which are in order, and 0. */
static double
area_below (const Dot *dots, guint n, double sign)
{
  g_autofree Dot *line = g_new (Dot, n);
  guint used = 0;
  double twice = 0;
  for (guint i = 0; i < n; i++)
    {
      const Dot p = { dots[i].u, sign * dots[i].v };
      while (used >= 2
             && (line[used - 1].u - line[used - 2].u) * (p.v - line[used - 2].v)
                    >= (line[used - 1].v - line[used - 2].v) * (p.u - line[used - 2].u))
        used--;
      line[used++] = p;
    }
  for (guint i = 1; i < used; i++)
    twice += (line[i].u - line[i - 1].u) * (line[i].v + line[i - 1].v);
  return twice;
}

/* Of the hull, by Andrew's chain over all dots. */
static double
hull_area (Dot *dots, guint n)
{
  qsort (dots, n, sizeof *dots, compare);
  return 0.5 * (area_below (dots, n, 1) + area_below (dots, n, -1));
}

static double
pictured_area (const TrnMesh *mesh, const TrnRotation *turn, double heading_rad,
               gboolean from_above)
{
  const double c = cos (heading_rad), s = sin (heading_rad);
  const TrnVec3 middle = trn_box_centre (&mesh->box);
  g_autofree Dot *dots = g_new (Dot, mesh->n_vertices);
  for (guint i = 0; i < mesh->n_vertices; i++)
    {
      const TrnVec3 p = trn_rotation_apply (turn, trn_vec3_sub (mesh->vertices[i], middle));
      dots[i] = from_above ? (Dot){ p.x, p.y } : (Dot){ p.y * c - p.x * s, p.z };
    }
  return hull_area (dots, mesh->n_vertices);
}

static TrnMesh *
body_make (GRand *rand, guint kind)
{
  switch (kind % 3)
    {
    case 0:
      return test_blob (rand, 48, g_rand_double_range (rand, 0.1, 40));
    case 1:
      return test_tube (1000, 0.3, g_rand_double_range (rand, 0.4, 5), 0,
                        g_rand_double_range (rand, 0.01, 12));
    default:
      return test_drum (700, g_rand_double_range (rand, 0.5, 4), -1, 8);
    }
}

/* Bodies of thousands of points, upright and turned at random: no heading of 40 shows more, the
 * most that one shows is within a part in two hundred, as 40 headings may miss the worst, and from
 * above it is the area of the hull. Turned about the plumb line or upside down it is the same. */
static void
test_random (void)
{
  const guint32 seed = (guint32)g_test_rand_int ();
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  g_test_message ("seed %u", seed);
  for (guint i = 0; i < test_scaled (12); i++)
    {
      g_autoptr (TrnMesh) mesh = body_make (rand, i);
      const TrnVec3 axis = trn_vec3_make (g_rand_double (rand) - 0.5, g_rand_double (rand) - 0.5,
                                          g_rand_double (rand) + 0.01);
      const TrnRotation turn
          = trn_rotation_make (trn_vec3_unit (axis), i < 3 ? 0 : g_rand_double_range (rand, -3, 3));
      const TrnVec3 up = up_of (&turn);
      const TrnOutline outline = trn_outline_make (mesh, up);
      double most = 0;
      for (guint k = 0; k < 40; k++)
        {
          const double area = pictured_area (mesh, &turn, k * G_PI / 40, FALSE);
          g_assert_cmpfloat (area, <=, outline.level_m2);
          most = fmax (most, area);
        }
      g_assert_cmpfloat (outline.level_m2, <=, 1.005 * most);
      const double plan = pictured_area (mesh, &turn, 0, TRUE);
      g_assert_cmpfloat (outline.plan_m2, >=, plan);
      g_assert_cmpfloat_with_epsilon (outline.plan_m2, plan,
                                      1e-8 * trn_vec3_length_squared (trn_box_size (&mesh->box)));
      const TrnOutline below = trn_outline_make (mesh, trn_vec3_scale (up, -1));
      g_assert_cmpfloat (below.level_m2, ==, outline.level_m2);
      g_assert_cmpfloat (below.plan_m2, ==, outline.plan_m2);
    }
}

/* What is next to no turn is none, and so is the other way up; what is one is taken for one. */
static void
test_up (void)
{
  const TrnVec3 up = trn_outline_up (trn_vec3_make (1e-13, -1e-13, 1));
  const TrnVec3 down = trn_outline_up (trn_vec3_make (0, 1e-14, -1));
  const TrnVec3 leant = trn_outline_up (trn_vec3_make (1e-9, 0, 1));
  g_assert_cmpfloat (up.x, ==, 0);
  g_assert_cmpfloat (up.y, ==, 0);
  g_assert_cmpfloat (up.z, ==, 1);
  g_assert_cmpmem (&up, sizeof up, &down, sizeof down);
  g_assert_cmpfloat_with_epsilon (leant.x, 1e-9, 1e-11);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/statics/outline/box", test_box_outline);
  g_test_add_func ("/statics/outline/points-within", test_points_within);
  g_test_add_func ("/statics/outline/random", test_random);
  g_test_add_func ("/statics/outline/up", test_up);
  g_test_add_func ("/statics/outline/between-headings", test_between_headings);
  g_test_add_func ("/statics/outline/box-of-a-run", test_box_of_a_run);
  return g_test_run ();
}
