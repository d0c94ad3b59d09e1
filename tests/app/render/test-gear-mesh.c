/* test-gear-mesh.c: shapes of gear from their corners: the right size, closed, faces outwards. */
#include <math.h>

#include "gear-mesh.h"
#include "mesh-check.h"
#include "pose.h"

static void
assert_body (const TrnMesh *mesh, double volume_m3)
{
  g_autoptr (TrnMeshCheck) check = trn_mesh_check_new (mesh);
  g_assert_true (check->closed);
  g_assert_cmpuint (check->n_pieces, ==, 1);
  g_assert_cmpfloat_with_epsilon (check->pieces[0].volume_m3, volume_m3, 1e-6 * volume_m3);
}

/* Eight corners of a box of 2 × 3 × 5 m, in no order, one of them named twice. */
static void
test_box (void)
{
  const TrnVec3 corners[] = { { 2, 3, 5 }, { 0, 0, 0 }, { 2, 0, 0 }, { 0, 3, 5 }, { 0, 3, 0 },
                              { 2, 0, 5 }, { 2, 3, 0 }, { 0, 0, 5 }, { 0, 0, 5 } };
  g_autoptr (TrnMesh) eight = render_hull_mesh (corners, 8);
  assert_body (eight, 30);
  g_assert_cmpuint (eight->n_triangles, ==, 12);
  g_autoptr (TrnMesh) nine = render_hull_mesh (corners, 9);
  assert_body (nine, 30);
}

/* A counterweight: a prism whose outer face is a polygon about an arc. Its base has the area
 * Σ (xᵢ yᵢ₊₁ − xᵢ₊₁ yᵢ) / 2. Turned and far from the origin, as on a site. */
static void
test_prism (void)
{
  const double base[7][2]
      = { { 0, -2 }, { 3, -2 }, { 3.8, -1.2 }, { 4, 0 }, { 3.8, 1.2 }, { 3, 2 }, { 0, 2 } };
  TrnRotation turn = trn_rotation_make ((TrnVec3){ 0, 0, 1 }, 0.7);
  TrnVec3 corners[14];
  double area_m2 = 0;
  for (guint i = 0; i < 7; i++)
    {
      const double *a = base[i], *b = base[(i + 1) % 7];
      area_m2 += (a[0] * b[1] - b[0] * a[1]) / 2;
      for (guint k = 0; k < 2; k++)
        corners[2 * i + k] = trn_vec3_add ((TrnVec3){ 4000, -2500, 12 },
                                           trn_rotation_apply (&turn, (TrnVec3){ a[0], a[1], k }));
    }
  g_autoptr (TrnMesh) mesh = render_hull_mesh (corners, 14);
  assert_body (mesh, area_m2);
  /* Two fans of five, and two for each of seven sides. */
  g_assert_cmpuint (mesh->n_triangles, ==, 24);
}

/* In a plane, in a line, or at one point there is no body. */
static void
test_flat (void)
{
  const TrnVec3 flat[] = { { 0, 0, 0 }, { 1, 0, 0 }, { 1, 1, 0 }, { 0, 1, 0 } };
  const TrnVec3 line[] = { { 0, 0, 0 }, { 1, 0, 0 }, { 2, 0, 0 }, { 2, 0, 0 } };
  g_assert_null (render_hull_mesh (flat, 4));
  g_assert_null (render_hull_mesh (line, 4));
  g_assert_null (render_hull_mesh (line, 1));
  g_assert_null (render_beam_mesh (line[0], line[0], 1, 1));
  g_assert_null (render_bar_mesh (line[0], line[1], 0));
}

/* A boom of 40 m at 60°, 2.4 m wide and 1.8 m deep: its width is level, and it is as long as said.
 * Upright its width lies along X. */
static void
test_beam (void)
{
  TrnVec3 foot = { 1, 2, 3 }, tip = { 1, 2 + 40 * cos (G_PI / 3), 3 + 40 * sin (G_PI / 3) };
  g_autoptr (TrnMesh) boom = render_beam_mesh (foot, tip, 2.4, 1.8);
  assert_body (boom, 40 * 2.4 * 1.8);
  g_assert_cmpfloat_with_epsilon (boom->box.hi.x - boom->box.lo.x, 2.4, 1e-9);
  g_assert_cmpfloat_with_epsilon (boom->box.hi.z, tip.z + 0.9 * cos (G_PI / 3), 1e-9);
  g_autoptr (TrnMesh) upright
      = render_beam_mesh (foot, (TrnVec3){ foot.x, foot.y, foot.z + 5 }, 2, 1);
  assert_body (upright, 10);
  g_assert_cmpfloat_with_epsilon (upright->box.hi.x - upright->box.lo.x, 2, 1e-9);
}

/* A bar of twelve sides about a circle of 0.1 m: the area of its section is 12 r² tan 15°. It goes
 * a radius beyond both ends; without length it is a short piece of itself. */
static void
test_bar (void)
{
  double r = 0.1, section_m2 = 12 * r * r * tan (G_PI / 12);
  g_autoptr (TrnMesh) bar = render_bar_mesh ((TrnVec3){ 0, 0, 10 }, (TrnVec3){ 0, 0, 4 }, r);
  assert_body (bar, section_m2 * (6 + 2 * r));
  g_assert_cmpfloat_with_epsilon (bar->box.hi.z, 10 + r, 1e-9);
  g_autoptr (TrnMesh) stump = render_bar_mesh ((TrnVec3){ 0, 0, 4 }, (TrnVec3){ 0, 0, 4 }, r);
  assert_body (stump, section_m2 * 2 * r);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/render/gear-mesh/box", test_box);
  g_test_add_func ("/render/gear-mesh/prism", test_prism);
  g_test_add_func ("/render/gear-mesh/flat", test_flat);
  g_test_add_func ("/render/gear-mesh/beam", test_beam);
  g_test_add_func ("/render/gear-mesh/bar", test_bar);
  return g_test_run ();
}
