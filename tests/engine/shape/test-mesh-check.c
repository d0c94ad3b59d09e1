/* What kind of surface a mesh is. Bodies are boxes put together by hand, so that each fault is
 * known and counted. */
#include "mesh-check.h"

typedef struct
{
  GArray *vertices, *triangles;
} Draft;

static Draft
draft_make (void)
{
  return (Draft){ g_array_new (FALSE, FALSE, sizeof (TrnVec3)),
                  g_array_new (FALSE, FALSE, sizeof (TrnTriangle)) };
}

static void
add_triangle (Draft *draft, TrnVec3 a, TrnVec3 b, TrnVec3 c)
{
  guint32 first = draft->vertices->len;
  TrnTriangle triangle = { { first, first + 1, first + 2 } };
  g_array_append_val (draft->vertices, a);
  g_array_append_val (draft->vertices, b);
  g_array_append_val (draft->vertices, c);
  g_array_append_val (draft->triangles, triangle);
}

/* A box of loose triangles, so that closedness depends on the coordinates alone. Without its last
 * triangle if @open. */
static void
add_box (Draft *draft, TrnVec3 centre, double half, gboolean inside_out, gboolean open)
{
  static const int faces[6][4] = { { 0, 2, 3, 1 }, { 4, 5, 7, 6 }, { 0, 1, 5, 4 },
                                   { 2, 6, 7, 3 }, { 0, 4, 6, 2 }, { 1, 3, 7, 5 } };
  TrnVec3 arm = trn_vec3_make (half, half, half);
  TrnBox box = { trn_vec3_sub (centre, arm), trn_vec3_add (centre, arm) };
  for (int f = 0; f < 6; f++)
    {
      TrnVec3 c[4];
      for (int k = 0; k < 4; k++)
        c[k] = trn_box_corner (&box, (guint)faces[f][inside_out ? 3 - k : k]);
      add_triangle (draft, c[0], c[1], c[2]);
      if (f < 5 || !open)
        add_triangle (draft, c[0], c[2], c[3]);
    }
}

static TrnMeshCheck *
draft_check (Draft *draft)
{
  guint32 n_vertices = draft->vertices->len, n_triangles = draft->triangles->len;
  g_autoptr (TrnMesh) mesh = trn_mesh_new_take (
      (TrnVec3 *)(gpointer)g_array_free (draft->vertices, FALSE), n_vertices,
      (TrnTriangle *)(gpointer)g_array_free (draft->triangles, FALSE), n_triangles, NULL, 0);
  return trn_mesh_check_new (mesh);
}

static void
test_closed (void)
{
  Draft draft = draft_make ();
  add_box (&draft, trn_vec3_make (5000, 0, -3), 0.5, FALSE, FALSE);
  g_autoptr (TrnMeshCheck) check = draft_check (&draft);
  g_assert_true (check->closed);
  g_assert_cmpuint (check->n_pieces, ==, 1);
  g_assert_cmpuint (check->pieces[0].n_triangles, ==, 12);
  g_assert_cmpfloat (fabs (check->pieces[0].volume_m3 - 1), <, 1e-12);
  g_assert_cmpuint (check->n_open_edges + check->n_crowded_edges + check->n_misturned_edges, ==, 0);
  g_assert_cmpuint (check->n_degenerate + check->n_duplicate + check->n_inside_out, ==, 0);
}

/* One triangle is missing from the first of two boxes: three open edges, one closed piece. */
static void
test_open (void)
{
  Draft draft = draft_make ();
  add_box (&draft, trn_vec3_make (0, 0, 0), 0.5, FALSE, TRUE);
  add_box (&draft, trn_vec3_make (3, 0, 0), 0.5, FALSE, FALSE);
  g_autoptr (TrnMeshCheck) check = draft_check (&draft);
  g_assert_false (check->closed);
  g_assert_cmpuint (check->n_pieces, ==, 2);
  g_assert_cmpuint (check->n_open_edges, ==, 3);
  g_assert_false (check->pieces[0].closed);
  g_assert_cmpfloat (check->pieces[0].volume_m3, ==, 0);
  g_assert_true (check->pieces[1].closed);
  g_assert_cmpuint (check->pieces[1].first_triangle, ==, 11);
  g_assert_cmpuint (check->piece_of[10], ==, 0);
  g_assert_cmpuint (check->piece_of[11], ==, 1);
}

/* A negative zero is the same place as zero. */
static void
test_weld_zero (void)
{
  Draft draft = draft_make ();
  add_box (&draft, trn_vec3_make (0.5, 0.5, 0.5), 0.5, FALSE, FALSE);
  TrnVec3 *vertices = (TrnVec3 *)(gpointer)draft.vertices->data;
  for (guint i = 0; i < draft.vertices->len; i += 2)
    if (vertices[i].x == 0)
      vertices[i].x = -0.0;
  g_autoptr (TrnMeshCheck) check = draft_check (&draft);
  g_assert_true (check->closed);
}

/* One triangle turned over: its three edges are run along twice in the same direction. */
static void
test_misturned (void)
{
  Draft draft = draft_make ();
  add_box (&draft, trn_vec3_make (0, 0, 0), 0.5, FALSE, FALSE);
  TrnTriangle *triangle = &g_array_index (draft.triangles, TrnTriangle, 4);
  guint32 keep = triangle->v[0];
  triangle->v[0] = triangle->v[1];
  triangle->v[1] = keep;
  g_autoptr (TrnMeshCheck) check = draft_check (&draft);
  g_assert_false (check->closed);
  g_assert_cmpuint (check->n_misturned_edges, ==, 3);
  g_assert_cmpuint (check->n_open_edges, ==, 0);
}

/* A fin on an edge of a box: that edge has three triangles, the fin's other two have one. */
static void
test_crowded (void)
{
  Draft draft = draft_make ();
  add_box (&draft, trn_vec3_make (0.5, 0.5, 0.5), 0.5, FALSE, FALSE);
  add_triangle (&draft, trn_vec3_make (0, 0, 0), trn_vec3_make (1, 0, 0),
                trn_vec3_make (0, -1, -1));
  g_autoptr (TrnMeshCheck) check = draft_check (&draft);
  g_assert_false (check->closed);
  g_assert_cmpuint (check->n_crowded_edges, ==, 1);
  g_assert_cmpuint (check->n_open_edges, ==, 2);
  g_assert_cmpuint (check->n_pieces, ==, 1);
}

/* Duplicates (one as it is, one turned over) and a triangle with two equal corners change nothing
 * but the counts. */
static void
test_left_out (void)
{
  Draft draft = draft_make ();
  TrnVec3 at = { 7, 7, 7 };
  add_triangle (&draft, at, at, trn_vec3_make (1, 2, 3));
  add_box (&draft, trn_vec3_make (0, 0, 0), 0.5, FALSE, FALSE);
  TrnTriangle again = g_array_index (draft.triangles, TrnTriangle, 3);
  TrnTriangle turned = { { again.v[1], again.v[0], again.v[2] } };
  g_array_append_val (draft.triangles, again);
  g_array_append_val (draft.triangles, turned);
  g_autoptr (TrnMeshCheck) check = draft_check (&draft);
  g_assert_true (check->closed);
  g_assert_cmpuint (check->n_degenerate, ==, 1);
  g_assert_cmpuint (check->n_duplicate, ==, 2);
  g_assert_cmpuint (check->n_pieces, ==, 1);
  g_assert_cmpuint (check->piece_of[0], ==, G_MAXUINT32);
  g_assert_cmpuint (check->piece_of[13], ==, G_MAXUINT32);
  g_assert_cmpuint (check->pieces[0].first_triangle, ==, 1);
}

/* A face split at the middle of one of its edges, while the face across the edge is not split: the
 * box closes with the needle that fills the seam, and the needle stays. Without it, the seam is
 * three open edges. A needle that lies loose on a closed box is left out. */
static void
test_needles (void)
{
  for (int with = 0; with < 2; with++)
    {
      Draft draft = draft_make ();
      add_box (&draft, trn_vec3_make (0.5, 0.5, 0.5), 0.5, FALSE, FALSE);
      /* Triangle 0 is one half of the lower face. Its first edge is split. */
      TrnVec3 c[3];
      for (int k = 0; k < 3; k++)
        c[k] = g_array_index (draft.vertices, TrnVec3, k);
      TrnVec3 middle = trn_vec3_mix (c[0], c[1], 0.5);
      g_array_remove_index (draft.triangles, 0);
      add_triangle (&draft, c[0], middle, c[2]);
      add_triangle (&draft, middle, c[1], c[2]);
      if (with)
        add_triangle (&draft, c[0], c[1], middle);
      g_autoptr (TrnMeshCheck) check = draft_check (&draft);
      g_assert_cmpint (check->closed, ==, with);
      g_assert_cmpuint (check->n_degenerate, ==, with);
      g_assert_cmpuint (check->n_open_edges, ==, with ? 0 : 3);
    }
  Draft draft = draft_make ();
  add_box (&draft, trn_vec3_make (0.5, 0.5, 0.5), 0.5, FALSE, FALSE);
  add_triangle (&draft, trn_vec3_make (0, 0, 0), trn_vec3_make (0.5, 0, 0),
                trn_vec3_make (1, 0, 0));
  g_autoptr (TrnMeshCheck) check = draft_check (&draft);
  g_assert_true (check->closed);
  g_assert_cmpuint (check->n_degenerate, ==, 1);
  g_assert_cmpuint (check->piece_of[12], ==, G_MAXUINT32);
}

/* A box with a cavity, and next to it one that is inside out: the cavity is none. */
static void
test_inside_out (void)
{
  Draft draft = draft_make ();
  add_box (&draft, trn_vec3_make (0, 0, 0), 1, FALSE, FALSE);
  add_box (&draft, trn_vec3_make (0, 0, 0), 0.5, TRUE, FALSE);
  add_box (&draft, trn_vec3_make (5, 0, 0), 1, TRUE, FALSE);
  g_autoptr (TrnMeshCheck) check = draft_check (&draft);
  g_assert_true (check->closed);
  g_assert_cmpuint (check->n_inside_out, ==, 1);
  g_assert_cmpfloat (fabs (check->pieces[1].volume_m3 + 1), <, 1e-12);
  g_assert_cmpfloat (fabs (check->pieces[2].volume_m3 + 8), <, 1e-12);
}

/* A box of edge 2 m without half a face, and beside it one of edge 1 m without two halves of faces
 * that do not touch: three triangular holes, of 2 m and of 1 m. */
static void
test_holes (void)
{
  Draft draft = draft_make ();
  add_box (&draft, trn_vec3_make (0, 0, 0), 1, FALSE, TRUE);
  add_box (&draft, trn_vec3_make (5, 0, 0), 0.5, FALSE, TRUE);
  /* The last box has 11 triangles; its first, below, does not touch the hole of its last face. */
  g_array_remove_index (draft.triangles, 11);
  g_autoptr (TrnMeshCheck) check = draft_check (&draft);
  g_assert_false (check->closed);
  g_assert_cmpuint (check->n_open_edges, ==, 9);
  g_assert_cmpuint (check->n_holes, ==, 3);
  g_assert_cmpfloat (check->largest_hole_m, ==, 2);
}

static void
test_nothing (void)
{
  Draft draft = draft_make ();
  g_autoptr (TrnMeshCheck) check = draft_check (&draft);
  g_assert_false (check->closed);
  g_assert_cmpuint (check->n_pieces, ==, 0);
}

/* Many boxes, of loose triangles, every third one inside out: each is a piece of its own. The time
 * is printed; a million triangles shall take about a second in a release build. */
static void
test_many (void)
{
  const char *scale = g_getenv ("TRUNNION_TEST_SCALE");
  int n = (int)(3000 * (scale != NULL ? g_ascii_strtod (scale, NULL) : 1)) + 3;
  Draft draft = draft_make ();
  for (int i = 0; i < n; i++)
    add_box (&draft, trn_vec3_make (2 * (i % 100), 2 * (i / 100 % 100), 2 * (i / 10000)), 0.5,
             i % 3 == 0, FALSE);
  gint64 start = g_get_monotonic_time ();
  g_autoptr (TrnMeshCheck) check = draft_check (&draft);
  g_test_message ("%d triangles: %.3f s with the hash", 12 * n,
                  (double)(g_get_monotonic_time () - start) * 1e-6);
  g_assert_true (check->closed);
  g_assert_cmpuint (check->n_pieces, ==, n);
  g_assert_cmpuint (check->n_inside_out, ==, (n + 2) / 3);
}

static double
room (Draft *draft, gboolean is_box)
{
  guint32 n_vertices = draft->vertices->len, n_triangles = draft->triangles->len;
  g_autoptr (TrnMesh) mesh = trn_mesh_new_take (
      (TrnVec3 *)(gpointer)g_array_free (draft->vertices, FALSE), n_vertices,
      (TrnTriangle *)(gpointer)g_array_free (draft->triangles, FALSE), n_triangles, NULL, 0);
  g_autoptr (TrnMeshCheck) check = trn_mesh_check_new (mesh);
  gboolean found;
  const double room_m3 = trn_mesh_check_room_m3 (check, mesh, &found);
  g_assert_cmpint (found, ==, is_box);
  return room_m3;
}

/* Boxes of 2 m apart by 4 m: 8 m³ each, where both are closed and face outwards. With a triangle
 * left out, or one inside out, the box round both: 6 m by 2 m by 2 m. Nothing takes no room. */
static void
test_room (void)
{
  static const struct
  {
    gboolean inside_out, open;
    double room_m3;
  } cases[] = { { FALSE, FALSE, 16 }, { FALSE, TRUE, 24 }, { TRUE, FALSE, 24 } };
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      Draft draft = draft_make ();
      add_box (&draft, trn_vec3_make (0, 0, 0), 1, FALSE, FALSE);
      add_box (&draft, trn_vec3_make (4, 0, 0), 1, cases[i].inside_out, cases[i].open);
      g_assert_cmpfloat_with_epsilon (room (&draft, cases[i].room_m3 == 24), cases[i].room_m3,
                                      1e-9);
    }
  Draft nothing = draft_make ();
  g_assert_cmpfloat (room (&nothing, TRUE), ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/shape/mesh-check/closed", test_closed);
  g_test_add_func ("/shape/mesh-check/open", test_open);
  g_test_add_func ("/shape/mesh-check/weld-zero", test_weld_zero);
  g_test_add_func ("/shape/mesh-check/misturned", test_misturned);
  g_test_add_func ("/shape/mesh-check/crowded", test_crowded);
  g_test_add_func ("/shape/mesh-check/left-out", test_left_out);
  g_test_add_func ("/shape/mesh-check/needles", test_needles);
  g_test_add_func ("/shape/mesh-check/inside-out", test_inside_out);
  g_test_add_func ("/shape/mesh-check/holes", test_holes);
  g_test_add_func ("/shape/mesh-check/nothing", test_nothing);
  g_test_add_func ("/shape/mesh-check/room", test_room);
  g_test_add_func ("/shape/mesh-check/many", test_many);
  return g_test_run ();
}
