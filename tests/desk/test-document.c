/* test-document.c: a plan from its file to a site, on a thread of its own, without a display. */
#include "desk-fixture.h"

#include <string.h>
#include <unistd.h>

static void
open_and_wait (DeskDocument *document, GFile *file)
{
  desk_document_open (document, file, 0);
  g_assert_cmpint (desk_document_get_state (document), ==, DESK_DOCUMENT_LOADING);
  test_wait (test_document_is_done (document));
}

static const char *
first_code (DeskDocument *document)
{
  const TrnDiags *diags = desk_document_get_diags (document);
  g_assert_cmpuint (diags->items->len, >, 0);
  return ((const TrnDiag *)diags->items->pdata[0])->code;
}

static void
on_progress (DeskDocument *document, double fraction, double *last)
{
  /* It never goes back, or the bar would lie. */
  g_assert_cmpfloat (fraction, >=, *last);
  g_assert_cmpfloat (fraction, <=, 1);
  *last = fraction;
}

/* A demo with mesh files: read by the helper, shown by its title, told once when it begins and once
 * when it is there. */
static void
test_open (void)
{
  g_autoptr (DeskDocument) document = desk_document_new ();
  g_autoptr (GFile) file = test_demo ("lock-gate");
  guint n_changed;
  double last = 0;
  test_count_signal (document, "changed", &n_changed);
  g_signal_connect (document, "progress", G_CALLBACK (on_progress), &last);
  g_assert_cmpint (desk_document_get_state (document), ==, DESK_DOCUMENT_EMPTY);
  g_assert_cmpstr (desk_document_get_title (document), ==, "");
  open_and_wait (document, file);
  g_assert_cmpint (desk_document_get_state (document), ==, DESK_DOCUMENT_READY);
  g_assert_cmpuint (n_changed, ==, 2);
  DeskSite *site = desk_document_get_site (document);
  g_assert_nonnull (site);
  g_assert_cmpuint (site->scene->programme->n_runs, ==, 1);
  g_assert_true (site->display->scene == site->scene);
  g_assert_cmpuint (site->display->n_structure_bodies, >, 0);
  g_assert_cmpstr (desk_document_get_title (document), ==, site->plan->title);
  g_assert_true (g_file_equal (desk_document_get_file (document), file));
}

/* Counts what is drawn of one body; TRUE where all of it is. */
static gboolean
count_shown (const RenderMesh *shown, const TrnMesh *checked, guint *still, guint *moving)
{
  const RenderMesh *moved = shown->coarse != NULL ? shown->coarse : shown;
  *still += shown->n_triangles;
  *moving += moved->n_triangles;
  return moved->n_triangles == checked->n_triangles;
}

/* Display meshes are reduced where that is asked for: all bodies together have so many triangles
 * while one moves, and five times as many when the picture stands still. What has few keeps them.
 * What is checked is never reduced. Of 20 000 a demo with some 180 000 triangles in about 15
 * bodies, most of which are simple solids, has to give up most, and only of its largest. */
static void
test_fewer_triangles (void)
{
  const guint32 most = 20000;
  g_autoptr (DeskDocument) document = desk_document_new ();
  g_autoptr (GFile) file = test_demo ("pump-column");
  desk_document_open (document, file, most);
  test_wait (test_document_is_done (document));
  DeskSite *site = desk_document_get_site (document);
  g_assert_nonnull (site);
  guint still = 0, moving = 0, checked = 0, n_whole = 0, n = 0;
  for (guint i = 0; i < site->plan->n_structures; i++)
    for (guint k = 0; k < site->scene->structures[i].n_bodies; k++, n++)
      n_whole += count_shown (site->display->structures[n],
                              site->scene->structures[i].bodies[k].mesh, &still, &moving);
  for (guint i = 0; i < site->plan->n_components; i++, n++)
    {
      const TrnMesh *mesh = site->scene->components[i].bodies[0].mesh;
      n_whole += count_shown (site->display->components[i], mesh, &still, &moving);
      checked += mesh->n_triangles;
    }
  g_assert_cmpuint (moving, <=, most);
  g_assert_cmpuint (moving, >, most / 2);
  g_assert_cmpuint (still, >, 2 * moving);
  g_assert_cmpuint (still, <=, 5 * most);
  g_assert_cmpuint (checked, >, still);
  g_assert_cmpuint (n_whole, >, n / 2);
  g_assert_cmpuint (n_whole, <, n);
}

/* Every fault is kept with its place, and there is no site. */
static void
test_faulty (void)
{
  g_autoptr (DeskDocument) document = desk_document_new ();
  char *folder = test_folder_new ();
  g_autoptr (GFile) file = test_write (folder, "bad.trunnion", "{\n  \"format\": \"x\"\n}\n");
  open_and_wait (document, file);
  g_assert_cmpint (desk_document_get_state (document), ==, DESK_DOCUMENT_FAULTY);
  g_assert_null (desk_document_get_site (document));
  g_assert_true (trn_diags_have_errors (desk_document_get_diags (document)));
  const TrnDiag *diag = desk_document_get_diags (document)->items->pdata[0];
  g_assert_cmpuint (diag->line, >, 0);
  g_assert_cmpstr (desk_document_get_title (document), ==, "bad.trunnion");
  test_folder_free (folder);
}

/* The mesh of a structure cannot be used: the plan is faulty, and what is left of the site can be
 * looked at. Put right, it is whole again. */
static void
test_left_out (void)
{
  g_autoptr (DeskDocument) document = desk_document_new ();
  char *folder = test_folder_new ();
  g_autoptr (GFile) file = test_gate_copy (folder, "gatehouse.obj");
  open_and_wait (document, file);
  g_assert_cmpint (desk_document_get_state (document), ==, DESK_DOCUMENT_FAULTY);
  DeskSite *site = desk_document_get_site (document);
  g_assert_nonnull (site);
  g_assert_false (desk_site_is_whole (site));
  g_assert_cmpuint (site->scene->n_left_out, ==, 1);
  g_assert_true (trn_diags_have_errors (desk_document_get_diags (document)));
  g_object_unref (test_gate_copy (folder, NULL));
  desk_document_reload (document);
  test_wait (test_document_is_done (document));
  g_assert_cmpint (desk_document_get_state (document), ==, DESK_DOCUMENT_READY);
  g_assert_true (desk_site_is_whole (desk_document_get_site (document)));
  test_folder_free (folder);
}

/* The mesh file of a structure is not there: likewise, and it is offered again when it comes. */
static void
test_file_missing (void)
{
  g_autoptr (DeskDocument) document = desk_document_new ();
  char *folder = test_folder_new ();
  g_autoptr (GFile) file = test_gate_copy (folder, NULL);
  g_autoptr (GFile) mesh = g_file_new_build_filename (folder, "gatehouse.obj", NULL);
  g_assert_true (g_file_delete (mesh, NULL, NULL));
  open_and_wait (document, file);
  g_assert_cmpint (desk_document_get_state (document), ==, DESK_DOCUMENT_FAULTY);
  g_assert_cmpstr (first_code (document), ==, "plan/mesh-missing");
  DeskSite *site = desk_document_get_site (document);
  g_assert_nonnull (site);
  g_assert_false (desk_site_is_whole (site));
  g_assert_cmpuint (site->scene->n_left_out, ==, 1);
  g_assert_cmpuint (trn_diags_count (desk_document_get_diags (document), TRN_SEVERITY_ERROR), ==,
                    1);
  g_object_unref (test_gate_copy (folder, NULL));
  test_wait (desk_document_is_changed_on_disk (document));
  desk_document_reload (document);
  test_wait (test_document_is_done (document));
  g_assert_cmpint (desk_document_get_state (document), ==, DESK_DOCUMENT_READY);
  test_folder_free (folder);
}

/* Without the load there is nothing to look at. */
static void
test_load_left_out (void)
{
  g_autoptr (DeskDocument) document = desk_document_new ();
  char *folder = test_folder_new ();
  g_autoptr (GFile) file = test_gate_copy (folder, "leaf.ply");
  open_and_wait (document, file);
  g_assert_cmpint (desk_document_get_state (document), ==, DESK_DOCUMENT_FAULTY);
  g_assert_null (desk_document_get_site (document));
  test_folder_free (folder);
}

/* A file that is not there, and one that is not on this computer. */
static void
test_not_there (void)
{
  g_autoptr (DeskDocument) document = desk_document_new ();
  char *folder = test_folder_new ();
  g_autoptr (GFile) missing = g_file_new_build_filename (folder, "none.trunnion", NULL);
  open_and_wait (document, missing);
  g_assert_cmpint (desk_document_get_state (document), ==, DESK_DOCUMENT_FAULTY);
  g_autoptr (GFile) far = g_file_new_for_uri ("nowhere://there/a.trunnion");
  open_and_wait (document, far);
  g_assert_cmpint (desk_document_get_state (document), ==, DESK_DOCUMENT_FAULTY);
  g_assert_cmpstr (first_code (document), ==, "desk/not-local");
  test_folder_free (folder);
}

/* While another plan is read, the first is not lost: giving up brings it back as it was. */
static void
test_cancel (void)
{
  g_autoptr (DeskDocument) document = desk_document_new ();
  g_autoptr (GFile) first = test_demo ("lock-gate"), second = test_demo ("pump-column");
  open_and_wait (document, first);
  DeskSite *site = desk_document_get_site (document);
  g_autofree char *title = g_strdup (desk_document_get_title (document));
  desk_document_open (document, second, 0);
  g_assert_null (desk_document_get_site (document));
  g_assert_true (g_file_equal (desk_document_get_file (document), second));
  desk_document_cancel (document);
  g_assert_cmpint (desk_document_get_state (document), ==, DESK_DOCUMENT_READY);
  g_assert_true (desk_document_get_site (document) == site);
  g_assert_true (g_file_equal (desk_document_get_file (document), first));
  g_assert_cmpstr (desk_document_get_title (document), ==, title);
  /* What was given up does not come in later. */
  test_idle (0.5);
  g_assert_true (desk_document_get_site (document) == site);
}

/* Of two that are asked for, the later one is shown. */
static void
test_later_wins (void)
{
  g_autoptr (DeskDocument) document = desk_document_new ();
  char *folder = test_folder_new ();
  g_autoptr (GFile) slow = test_demo ("pump-column");
  g_autoptr (GFile) quick = test_plan_copy (folder, "between-the-ends");
  desk_document_open (document, slow, 0);
  open_and_wait (document, quick);
  test_idle (0.5);
  g_assert_true (g_file_equal (desk_document_get_file (document), quick));
  g_assert_cmpstr (desk_document_get_title (document), ==, "A beam that is tallest on the way up");
  test_folder_free (folder);
}

/* Another program writes the plan: told once, and not any more when it was read again. Reading it
 * is no change. */
static void
test_changed_on_disk (void)
{
  g_autoptr (DeskDocument) document = desk_document_new ();
  char *folder = test_folder_new ();
  g_autoptr (GFile) file = test_plan_copy (folder, "between-the-ends");
  guint n_told;
  test_count_signal (document, "changed-on-disk", &n_told);
  open_and_wait (document, file);
  test_idle (0.6);
  g_assert_cmpuint (n_told, ==, 0);
  g_assert_false (desk_document_is_changed_on_disk (document));
  g_autofree char *text = test_plan_text ("between-the-ends");
  g_autofree char *other = test_replace (text, "tallest", "highest");
  g_object_unref (test_write (folder, "between-the-ends.trunnion", other));
  test_wait (n_told == 1);
  g_assert_true (desk_document_is_changed_on_disk (document));
  g_assert_nonnull (strstr (desk_document_get_title (document), "tallest"));
  desk_document_reload (document);
  test_wait (test_document_is_done (document));
  g_assert_false (desk_document_is_changed_on_disk (document));
  g_assert_nonnull (strstr (desk_document_get_title (document), "highest"));
  test_idle (0.6);
  g_assert_cmpuint (n_told, ==, 1);
  test_folder_free (folder);
}

/* A plan behind a link in another folder: what is written there is a change, and a link that leads
 * elsewhere is one, too. */
static void
test_link_changed_on_disk (void)
{
  g_autoptr (DeskDocument) document = desk_document_new ();
  char *folder = test_folder_new (), *links = test_folder_new ();
  g_autoptr (GFile) file = test_plan_copy (folder, "between-the-ends");
  g_autofree char *path = g_build_filename (links, "plan.trunnion", NULL);
  g_assert_cmpint (symlink (g_file_peek_path (file), path), ==, 0);
  g_autoptr (GFile) link = g_file_new_for_path (path);
  guint n_told;
  test_count_signal (document, "changed-on-disk", &n_told);
  open_and_wait (document, link);
  test_idle (0.6);
  g_assert_cmpuint (n_told, ==, 0);
  g_autofree char *text = test_plan_text ("between-the-ends");
  g_autofree char *other = test_replace (text, "tallest", "high");
  g_object_unref (test_write (folder, "between-the-ends.trunnion", other));
  test_wait (n_told == 1);
  desk_document_reload (document);
  test_wait (test_document_is_done (document));
  g_autoptr (GFile) elsewhere = test_write (folder, "other.trunnion", text);
  g_assert_cmpint (g_remove (path), ==, 0);
  g_assert_cmpint (symlink (g_file_peek_path (elsewhere), path), ==, 0);
  test_wait (n_told == 2);
  test_folder_free (links);
  test_folder_free (folder);
}

/* A mesh file belongs to the plan. */
static void
test_mesh_changed_on_disk (void)
{
  g_autoptr (DeskDocument) document = desk_document_new ();
  char *folder = test_folder_new ();
  static const char mesh[] = "v 0 0 0\nv 1 0 0\nv 0 1 0\nv 0 0 1\n"
                             "f 1 3 2\nf 1 2 4\nf 2 3 4\nf 1 4 3\n";
  g_object_unref (test_write (folder, "wedge.obj", mesh));
  g_autofree char *text = test_plan_text ("between-the-ends");
  g_autofree char *with_mesh
      = test_replace (text, "\"solid\": {\"kind\": \"box\", \"size\": [20, 2, 4]}",
                      "\"mesh\": {\"file\": \"wedge.obj\", \"unit\": \"m\", \"up\": \"z\"}");
  g_autoptr (GFile) file = test_write (folder, "wedge.trunnion", with_mesh);
  guint n_told;
  test_count_signal (document, "changed-on-disk", &n_told);
  open_and_wait (document, file);
  g_assert_cmpint (desk_document_get_state (document), ==, DESK_DOCUMENT_READY);
  g_autofree char *more = g_strconcat ("# larger\n", mesh, NULL);
  g_object_unref (test_write (folder, "wedge.obj", more));
  test_wait (n_told == 1);
  /* Taken away it is called so, until it is there again. */
  g_assert_null (desk_document_get_gone_file (document));
  g_autofree char *path = g_build_filename (folder, "wedge.obj", NULL);
  g_assert_cmpint (g_remove (path), ==, 0);
  test_wait (n_told == 2);
  g_assert_cmpstr (desk_document_get_gone_file (document), ==, path);
  g_object_unref (test_write (folder, "wedge.obj", more));
  test_wait (n_told == 3);
  g_assert_null (desk_document_get_gone_file (document));
  test_folder_free (folder);
}

/* Put right on disk, a faulty plan is told to have changed, and can be read again. */
static void
test_put_right (void)
{
  g_autoptr (DeskDocument) document = desk_document_new ();
  char *folder = test_folder_new ();
  g_autoptr (GFile) file = test_write (folder, "plan.trunnion", "{}");
  guint n_told;
  test_count_signal (document, "changed-on-disk", &n_told);
  open_and_wait (document, file);
  g_assert_cmpint (desk_document_get_state (document), ==, DESK_DOCUMENT_FAULTY);
  g_autofree char *text = test_plan_text ("between-the-ends");
  g_object_unref (test_write (folder, "plan.trunnion", text));
  test_wait (n_told == 1);
  desk_document_reload (document);
  test_wait (test_document_is_done (document));
  g_assert_cmpint (desk_document_get_state (document), ==, DESK_DOCUMENT_READY);
  g_assert_cmpuint (desk_document_get_diags (document)->items->len, ==, 0);
  test_folder_free (folder);
}

static void
test_close (void)
{
  g_autoptr (DeskDocument) document = desk_document_new ();
  char *folder = test_folder_new ();
  g_autoptr (GFile) file = test_plan_copy (folder, "between-the-ends");
  open_and_wait (document, file);
  /* Whoever holds the site keeps it. */
  g_autoptr (DeskSite) site = desk_site_ref (desk_document_get_site (document));
  desk_document_close (document);
  g_assert_cmpint (desk_document_get_state (document), ==, DESK_DOCUMENT_EMPTY);
  g_assert_null (desk_document_get_site (document));
  g_assert_null (desk_document_get_file (document));
  g_assert_cmpstr (desk_document_get_title (document), ==, "");
  g_assert_cmpuint (site->scene->programme->n_runs, ==, 1);
  test_folder_free (folder);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/document/open", test_open);
  g_test_add_func ("/document/fewer-triangles", test_fewer_triangles);
  g_test_add_func ("/document/faulty", test_faulty);
  g_test_add_func ("/document/left-out", test_left_out);
  g_test_add_func ("/document/file-missing", test_file_missing);
  g_test_add_func ("/document/load-left-out", test_load_left_out);
  g_test_add_func ("/document/not-there", test_not_there);
  g_test_add_func ("/document/cancel", test_cancel);
  g_test_add_func ("/document/later-wins", test_later_wins);
  g_test_add_func ("/document/changed-on-disk", test_changed_on_disk);
  g_test_add_func ("/document/link-changed-on-disk", test_link_changed_on_disk);
  g_test_add_func ("/document/mesh-changed-on-disk", test_mesh_changed_on_disk);
  g_test_add_func ("/document/put-right", test_put_right);
  g_test_add_func ("/document/close", test_close);
  return g_test_run ();
}
