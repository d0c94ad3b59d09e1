/* Nothing passes where a structure is left out because its mesh cannot be used.
 *
 * A box of 1 m stands on a slab, is lifted by 3 m beside a wall 4 m away, and turned; slab and wall
 * are mesh files. 0.5 m is required, so that with good files all of it passes. */
#include <glib/gstdio.h>

#include "test-checks.h"

/* A box from (@x, @y, @z) to (@X, @Y, @Z), closed, faces outward. */
static char *
box_obj (double x, double y, double z, double X, double Y, double Z)
{
  GString *obj = g_string_new ("o box\n");
  for (guint i = 0; i < 8; i++)
    g_string_append_printf (obj, "v %g %g %g\n", i & 1 ? X : x, i & 2 ? Y : y, i & 4 ? Z : z);
  g_string_append (obj, "f 1 3 4 2\nf 5 6 8 7\nf 1 2 6 5\nf 3 7 8 4\nf 1 5 7 3\nf 2 4 8 6\n");
  return g_string_free (obj, FALSE);
}

#define MESH(id, x)                                                                                \
  "{'id': '" id "', 'mesh': {'file': '" id ".obj', 'unit': 'm', 'up': 'z'},"                       \
  " 'at': {'position': [" x ", 0, 0]}},"

#define PLAN                                                                                       \
  "{'format': 'trunnion-plan', 'version': 1, 'keep_clear': 0.5, 'gear': [],"                       \
  " 'structures': [" MESH ("slab", "0")                                                            \
      MESH ("wall",                                                                                \
            "4") "{'id': 'post', 'solid': {'kind': 'box', 'size': [1, 1, 9]},"                     \
                 " 'at': {'position': [0, %s, 0]}}],"                                              \
                 " 'components': [{'id': 'load-a', 'mass': 1, 'at': {'position': [0, 0, 0]},"      \
                 " 'solid': {'kind': 'box', 'size': [1, 1, 1]}}],"                                 \
                 " 'programme': [{'lift': 'one', 'component': 'load-a', 'hook_point': [0, 0, 1],"  \
                 " 'seats': [{'on': 'slab', 'at': 'start'}],"                                      \
                 " 'moves': [{'do': 'hoist', 'by': 3, 'seconds': 9}, {'do': 'turn', 'by': 90, "    \
                 "'seconds': 9}]}]}"

typedef struct
{
  char *folder;
  TrnScene *scene;
  TrnFindings *findings;
  TrnDiags *diags;
} Fixture;

static char *
path_of (Fixture *fixture, const char *name)
{
  return g_build_filename (fixture->folder, name, NULL);
}

static void
write_file (Fixture *fixture, const char *name, const char *text)
{
  g_autofree char *path = path_of (fixture, name);
  g_assert_true (g_file_set_contents (path, text, -1, NULL));
}

static void
set_up (Fixture *fixture, gconstpointer data)
{
  fixture->folder = g_dir_make_tmp ("trunnion-partial-XXXXXX", NULL);
  fixture->diags = trn_diags_new ();
  g_autofree char *slab = box_obj (-9, -9, -1, 3, 9, 0), *wall = box_obj (0, -9, -1, 1, 9, 9);
  write_file (fixture, "slab.obj", slab);
  write_file (fixture, "wall.obj", wall);
}

static void
tear_down (Fixture *fixture, gconstpointer data)
{
  static const char *const names[] = { "slab.obj", "wall.obj", "p.trunnion" };
  trn_findings_free (fixture->findings);
  trn_scene_free (fixture->scene);
  trn_diags_free (fixture->diags);
  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autofree char *path = path_of (fixture, names[i]);
      g_remove (path);
    }
  g_assert_cmpint (g_rmdir (fixture->folder), ==, 0);
  g_free (fixture->folder);
}

/* The plan with the post at y = @post_y, built in the way that leaves out, and checked. */
static void
run (Fixture *fixture, const char *post_y)
{
  g_autofree char *text = g_strdup_printf (PLAN, post_y);
  g_strdelimit (text, "'", '"');
  write_file (fixture, "p.trunnion", text);
  g_autofree char *path = path_of (fixture, "p.trunnion");
  g_autoptr (TrnPlan) plan = trn_plan_read (path, NULL, fixture->diags);
  test_print_diags (fixture->diags);
  g_assert_nonnull (plan);
  TrnProgramme *programme = trn_programme_play (plan, fixture->diags);
  g_assert_nonnull (programme);
  TrnSceneOptions options = { .jobs = 2, .partial = TRUE };
  fixture->scene = trn_scene_build_take (programme, &options, fixture->diags);
  g_assert_nonnull (fixture->scene);
  TrnCheckOptions check = { .jobs = 2 };
  fixture->findings = trn_checks_run (fixture->scene, &check);
}

/* How many findings have each verdict. */
static void
count_verdicts (const TrnFindings *findings, guint counts[TRN_VERDICT_FAIL + 1])
{
  g_assert_cmpuint (findings->n_lifts, ==, 1);
  const GArray *list = findings->lifts[0].findings;
  for (guint i = 0; i < list->len; i++)
    counts[g_array_index (list, TrnFinding, i).verdict]++;
}

/* With good files the same way of building leaves nothing out, and all passes. */
static void
test_whole (Fixture *fixture, gconstpointer data)
{
  guint counts[TRN_VERDICT_FAIL + 1] = { 0 };
  run (fixture, "6");
  g_assert_cmpuint (fixture->scene->n_left_out, ==, 0);
  g_assert_cmpuint (fixture->scene->n_files, ==, 2);
  count_verdicts (fixture->findings, counts);
  g_assert_cmpuint (counts[TRN_VERDICT_UNKNOWN] + counts[TRN_VERDICT_FAIL], ==, 0);
  g_assert_cmpuint (counts[TRN_VERDICT_PASS], >=, 8);
  g_assert_cmpint (fixture->findings->verdict, ==, TRN_VERDICT_PASS);
}

/* A wall whose face toward the load has one corner 0.2 m farther away: the diagonals (−0.2, 18, 10)
 * and (0, 18, −10) of it pass each other at 36, the determinant of its edges, over 360.0236, the
 * length of their cross product. As much is taken off what is clear of the wall, and of nothing
 * else; and a little for single precision, in which a coordinate of at most 9 errs by 2^−21. */
static void
test_warped_wall (Fixture *fixture, gconstpointer data)
{
  g_autofree char *flat = box_obj (0, -9, -1, 1, 9, 9);
  GString *wall = g_string_new (flat);
  g_string_replace (wall, "v 0 -9 -1\n", "v 0.2 -9 -1\n", 1);
  write_file (fixture, "wall.obj", wall->str);
  g_string_free (wall, TRUE);
  run (fixture, "6");
  const double warp_m = 36 / 360.0236, slack_m = 10 * 0x1p-21;
  guint at_wall = 0, elsewhere = 0;
  const GArray *list = fixture->findings->lifts[0].findings;
  for (guint i = 0; i < list->len; i++)
    {
      const TrnFinding *f = &g_array_index (list, TrnFinding, i);
      if (f->check != TRN_CHECK_CLEARANCE)
        continue;
      const gboolean is_wall = g_strcmp0 (f->obstacle, "wall") == 0;
      const double least_m = is_wall ? warp_m - 1e-6 : 0;
      g_assert_cmpfloat (f->allowance_m, >=, least_m);
      g_assert_cmpfloat (f->allowance_m, <=, (is_wall ? warp_m + 1e-6 : 0) + slack_m);
      /* The wall and the slab are files, the post is a solid. */
      if (strcmp (f->obstacle, "post") == 0)
        g_assert_cmpfloat (f->allowance_m, ==, 0);
      else
        {
          const TrnFindingItem *part = &g_array_index (f->allowance_parts, TrnFindingItem, 0);
          g_assert_cmpuint (f->allowance_parts->len, ==, 1);
          g_assert_cmpstr (part->what, ==, "mesh");
          g_assert_cmpfloat (part->m, ==, f->allowance_m);
          g_assert_cmpfloat (part->m, >, 0);
        }
      at_wall += is_wall;
      elsewhere += !is_wall;
    }
  g_assert_cmpuint (at_wall, ==, 2);
  g_assert_cmpuint (elsewhere, >=, 2);
}

static void
assert_all_unknown (Fixture *fixture, guint n_left_out)
{
  guint counts[TRN_VERDICT_FAIL + 1] = { 0 };
  g_assert_cmpuint (fixture->scene->n_left_out, ==, n_left_out);
  g_assert_true (trn_diags_have_errors (fixture->diags));
  count_verdicts (fixture->findings, counts);
  g_assert_cmpuint (counts[TRN_VERDICT_UNKNOWN], ==, fixture->findings->lifts[0].findings->len);
  g_assert_cmpuint (counts[TRN_VERDICT_UNKNOWN], >, 0);
  g_assert_cmpint (fixture->findings->lifts[0].verdict, ==, TRN_VERDICT_UNKNOWN);
  g_assert_cmpint (fixture->findings->verdict, ==, TRN_VERDICT_UNKNOWN);
  const GArray *list = fixture->findings->lifts[0].findings;
  for (guint i = 0; i < list->len; i++)
    g_assert_cmpint (g_array_index (list, TrnFinding, i).state, ==, TRN_STATE_UNKNOWN);
}

/* Without the wall: what keeps clear of all the rest, rests well and begins where it stands is
 * unknown all the same. */
static void
test_wall (Fixture *fixture, gconstpointer data)
{
  write_file (fixture, "wall.obj", "no mesh\n");
  run (fixture, "6");
  assert_all_unknown (fixture, 1);
  g_assert_cmpuint (fixture->scene->structures[1].n_bodies, ==, 0);
  g_assert_cmpuint (fixture->scene->n_files, ==, 1);
}

/* Without the slab, on which the load is seated: that it rests on nothing is no finding. */
static void
test_seat (Fixture *fixture, gconstpointer data)
{
  write_file (fixture, "slab.obj", "no mesh\n");
  run (fixture, "6");
  assert_all_unknown (fixture, 1);
}

/* Without both. */
static void
test_both (Fixture *fixture, gconstpointer data)
{
  write_file (fixture, "slab.obj", "no mesh\n");
  write_file (fixture, "wall.obj", "");
  run (fixture, "6");
  assert_all_unknown (fixture, 2);
}

/* A lift alone is judged in the same way. */
static void
test_one_lift (Fixture *fixture, gconstpointer data)
{
  write_file (fixture, "wall.obj", "no mesh\n");
  run (fixture, "6");
  TrnCheckOptions one = { .jobs = 1, .lift = "one" };
  trn_findings_free (fixture->findings);
  fixture->findings = trn_checks_run (fixture->scene, &one);
  assert_all_unknown (fixture, 1);
}

/* What fails without the wall fails with it, too: the post, from 0.3 m on, stands in the load. */
static void
test_fails (Fixture *fixture, gconstpointer data)
{
  guint counts[TRN_VERDICT_FAIL + 1] = { 0 };
  write_file (fixture, "wall.obj", "no mesh\n");
  run (fixture, "0.8");
  count_verdicts (fixture->findings, counts);
  g_assert_cmpuint (counts[TRN_VERDICT_PASS] + counts[TRN_VERDICT_NOTE], ==, 0);
  g_assert_cmpuint (counts[TRN_VERDICT_FAIL], >, 0);
  g_assert_cmpint (fixture->findings->verdict, ==, TRN_VERDICT_FAIL);
}

#define ADD(name, function)                                                                        \
  g_test_add ("/checks/partial/" name, Fixture, NULL, set_up, function, tear_down)

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  ADD ("whole", test_whole);
  ADD ("warped-wall", test_warped_wall);
  ADD ("wall", test_wall);
  ADD ("seat", test_seat);
  ADD ("both", test_both);
  ADD ("one-lift", test_one_lift);
  ADD ("fails", test_fails);
  return g_test_run ();
}
