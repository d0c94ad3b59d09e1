/* The outline of a box, straight by closed form and turned at random against the bound. */
#include "outline.h"

static void
test_box (void)
{
  /* 2 × 3 × 5 m: over a corner of the plan it shows its diagonal √13 times 5; from above 6 m². */
  const TrnVec3 corners[8] = { { 0, 0, 0 }, { 2, 0, 0 }, { 0, 3, 0 }, { 2, 3, 0 },
                               { 0, 0, 5 }, { 2, 0, 5 }, { 0, 3, 5 }, { 2, 3, 5 } };
  TrnMesh mesh = { .vertices = (TrnVec3 *)corners, .n_vertices = 8 };
  mesh.box = (TrnBox){ corners[0], corners[7] };
  const TrnRotation level = trn_rotation_identity ();
  const TrnOutline box = trn_outline_make (&mesh, &level);
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
      const TrnOutline turned = trn_outline_make (&mesh, &turn);
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
  const TrnOutline many = trn_outline_make (&mesh, &turn);
  mesh.n_vertices = 8;
  const TrnOutline few = trn_outline_make (&mesh, &turn);
  g_assert_cmpfloat_with_epsilon (many.level_m2, few.level_m2, 1e-9);
  g_assert_cmpfloat_with_epsilon (many.plan_m2, few.plan_m2, 1e-9);
  mesh.n_vertices = 1;
  g_assert_cmpfloat (trn_outline_make (&mesh, &turn).level_m2, ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/statics/outline/box", test_box);
  g_test_add_func ("/statics/outline/points-within", test_points_within);
  return g_test_run ();
}
