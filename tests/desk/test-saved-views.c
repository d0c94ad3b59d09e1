/* test-saved-views.c: the views that a plan keeps: read with patience, written with care.
 *
 * The plan is tests/plans/between-the-ends with keys of others and entries of several kinds added
 * under "x-views". */
#include "desk-fixture.h"

#include <fcntl.h>
#include <math.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "json-read.h"
#include "saved-views.h"

#define GOOD                                                                                       \
  "{\"x-by\": \"me\", \"name\": \"Down the well\", \"target\": [3, -4.5, 2], \"distance\": 30,"    \
  " \"heading\": 90, \"pitch\": -60, \"parallel\": true}"

typedef struct
{
  char *folder;
  GFile *file;
  TrnPlan *plan;
} Fixture;

/* The plan with @views, a list or another thing, as its last key; NULL: without. */
static void
read_plan (Fixture *fixture, const char *views)
{
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_autofree char *plain = test_plan_text ("between-the-ends");
  g_autofree char *head = g_strndup (plain, (gsize)(g_strrstr (plain, "}") - plain));
  g_autofree char *with
      = g_strdup_printf ("%s, \"x-other\": {\"b\": [1.50, 1e300, null, true], \"a\": -0.0},"
                         " \"x-views\": %s}\n",
                         head, views);
  g_clear_object (&fixture->file);
  fixture->file = test_write (fixture->folder, "plan.trunnion", views != NULL ? with : plain);
  g_clear_pointer (&fixture->plan, trn_plan_unref);
  fixture->plan = trn_plan_read (g_file_peek_path (fixture->file), NULL, diags);
  g_assert_nonnull (fixture->plan);
}

static void
set_up (Fixture *fixture, gconstpointer data)
{
  fixture->folder = test_folder_new ();
}

static void
tear_down (Fixture *fixture, gconstpointer data)
{
  g_clear_object (&fixture->file);
  g_clear_pointer (&fixture->plan, trn_plan_unref);
  test_folder_free (fixture->folder);
}

static guint
count_views (Fixture *fixture, const char *views)
{
  read_plan (fixture, views);
  g_autoptr (GPtrArray) read = desk_saved_views_read (fixture->plan);
  return read->len;
}

/* All that an entry says. */
static void
test_read_view (Fixture *fixture, gconstpointer data)
{
  read_plan (fixture, "[" GOOD "]");
  g_autoptr (GPtrArray) views = desk_saved_views_read (fixture->plan);
  g_assert_cmpuint (views->len, ==, 1);
  const DeskSavedView *view = views->pdata[0];
  RenderCamera camera = { .fov_rad = 0.7 };
  desk_saved_view_apply (view, &camera);
  g_assert_cmpstr (view->name, ==, "Down the well");
  g_assert_cmpfloat (camera.target.x, ==, 3);
  g_assert_cmpfloat (camera.target.y, ==, -4.5);
  g_assert_cmpfloat (camera.target.z, ==, 2);
  g_assert_cmpfloat (camera.distance_m, ==, 30);
  g_assert_cmpfloat_with_epsilon (camera.heading_rad, G_PI / 2, 1e-12);
  g_assert_cmpfloat_with_epsilon (camera.pitch_rad, -G_PI / 3, 1e-12);
  g_assert_true (camera.parallel);
  g_assert_cmpfloat (camera.fov_rad, ==, 0.7);
}

/* What is not well formed is passed over, and the good one among it is found with its place. */
static void
test_malformed (Fixture *fixture, gconstpointer data)
{
  static const char *const bad[] = {
    "1",
    "null",
    "\"view\"",
    "[]",
    "{}",
    "{\"name\": \"\", \"target\": [0, 0, 0], \"distance\": 1, \"heading\": 0, \"pitch\": 0}",
    "{\"name\": 4, \"target\": [0, 0, 0], \"distance\": 1, \"heading\": 0, \"pitch\": 0}",
    "{\"name\": \"a\", \"target\": [0, 0], \"distance\": 1, \"heading\": 0, \"pitch\": 0}",
    "{\"name\": \"a\", \"target\": [0, 0, \"0\"], \"distance\": 1, \"heading\": 0, \"pitch\": 0}",
    "{\"name\": \"a\", \"target\": [0, 0, 1e9], \"distance\": 1, \"heading\": 0, \"pitch\": 0}",
    "{\"name\": \"a\", \"target\": {}, \"distance\": 1, \"heading\": 0, \"pitch\": 0}",
    "{\"name\": \"a\", \"target\": [0, 0, 0], \"distance\": 0, \"heading\": 0, \"pitch\": 0}",
    "{\"name\": \"a\", \"target\": [0, 0, 0], \"distance\": -1, \"heading\": 0, \"pitch\": 0}",
    "{\"name\": \"a\", \"target\": [0, 0, 0], \"heading\": 0, \"pitch\": 0}",
    "{\"name\": \"a\", \"target\": [0, 0, 0], \"distance\": 1, \"heading\": 1e5, \"pitch\": 0}",
    "{\"name\": \"a\", \"target\": [0, 0, 0], \"distance\": 1, \"heading\": 0, \"pitch\": 91}",
    "{\"name\": \"a\", \"target\": [0, 0, 0], \"distance\": 1, \"heading\": 0, \"pitch\": true}",
    ("{\"name\": \"a\", \"target\": [0, 0, 0], \"distance\": 1, \"heading\": 0, \"pitch\": 0"
     ", \"parallel\": \"yes\"}"),
  };
  for (guint i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      g_autofree char *list = g_strdup_printf ("[%s, " GOOD ", %s]", bad[i], bad[i]);
      g_test_message ("%s", bad[i]);
      read_plan (fixture, list);
      g_autoptr (GPtrArray) views = desk_saved_views_read (fixture->plan);
      g_assert_cmpuint (views->len, ==, 1);
      g_assert_cmpuint (((DeskSavedView *)views->pdata[0])->entry, ==, 1);
    }
  g_assert_cmpuint (count_views (fixture, "{\"name\": \"a\"}"), ==, 0);
  g_assert_cmpuint (count_views (fixture, "7"), ==, 0);
  g_assert_cmpuint (count_views (fixture, NULL), ==, 0);
}

static DeskSavedView *
example (const char *name)
{
  RenderCamera camera = { .target = { 1.25, -2, 1 / 3.0 },
                          .distance_m = 12.3456789,
                          .heading_rad = 7 * G_PI / 2, /* −90° */
                          .pitch_rad = -G_PI / 2,
                          .fov_rad = 0.7 };
  return desk_saved_view_new (name, &camera);
}

static char *
changed (Fixture *fixture, DeskViewChange change, const DeskSavedView *view)
{
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  char *text = desk_saved_views_text (fixture->plan, change, view, NULL, diags);
  g_assert_nonnull (text);
  return text;
}

/* Added, renamed and removed again, the text is byte for byte what the plan is as text: nothing
 * else has moved, been lost or rounded. Added alone, it is that text and the entry. */
static void
test_round_trip (Fixture *fixture, gconstpointer data)
{
  static const char *const lists[] = { NULL, "[" GOOD "]", "[5, {\"name\": 1}, " GOOD ", null]" };
  for (guint i = 0; i < G_N_ELEMENTS (lists); i++)
    {
      read_plan (fixture, lists[i]);
      g_autofree char *before = trn_plan_to_text (fixture->plan, NULL);
      g_autoptr (DeskSavedView) view = example ("From the crane");
      g_autofree char *added = changed (fixture, DESK_VIEW_ADD, view);
      g_assert_cmpstr (added, !=, before);
      g_autofree char *again = trn_plan_to_text (fixture->plan, NULL);
      g_assert_cmpstr (before, ==, again); /* the plan itself is as it was */

      g_autoptr (TrnDiags) diags = trn_diags_new ();
      g_object_unref (test_write (fixture->folder, "plan.trunnion", added));
      trn_plan_unref (fixture->plan);
      fixture->plan = trn_plan_read (g_file_peek_path (fixture->file), NULL, diags);
      g_assert_nonnull (fixture->plan);
      g_autoptr (GPtrArray) views = desk_saved_views_read (fixture->plan);
      g_assert_cmpuint (views->len, ==, lists[i] == NULL ? 1 : 2);
      const DeskSavedView *last = views->pdata[views->len - 1];
      g_assert_cmpstr (last->name, ==, "From the crane");
      g_assert_cmpfloat_with_epsilon (last->target.z, 1 / 3.0, 1e-4);
      g_assert_cmpfloat_with_epsilon (last->distance_m, 12.3456789, 1e-4);
      g_assert_cmpfloat_with_epsilon (last->heading_rad, -G_PI / 2, 1e-12);
      g_assert_cmpfloat_with_epsilon (last->pitch_rad, -G_PI / 2, 1e-12);
      g_autofree char *removed = changed (fixture, DESK_VIEW_REMOVE, last);
      g_assert_cmpstr (removed, ==, before);
    }
}

/* A new name is all that changes, also where the entry has keys of others. */
static void
test_rename (Fixture *fixture, gconstpointer data)
{
  read_plan (fixture, "[5, " GOOD "]");
  g_autofree char *before = trn_plan_to_text (fixture->plan, NULL);
  g_autoptr (GPtrArray) views = desk_saved_views_read (fixture->plan);
  g_autoptr (DeskSavedView) view = desk_saved_view_copy (views->pdata[0]);
  g_free (view->name);
  view->name = g_strdup ("Well “A”, \"north\"\\");
  g_autofree char *expected
      = test_replace (before, "\"Down the well\"", "\"Well “A”, \\\"north\\\"\\\\\"");
  g_autofree char *text = changed (fixture, DESK_VIEW_RENAME, view);
  g_assert_cmpstr (text, ==, expected);
}

/* The key holds something of somebody else: it is not overwritten. */
static void
test_no_list (Fixture *fixture, gconstpointer data)
{
  read_plan (fixture, "{\"mine\": 1}");
  g_autofree char *before = test_read (g_file_peek_path (fixture->file));
  g_autoptr (DeskSavedView) view = example ("A");
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_assert_cmpint (desk_saved_views_write (fixture->plan, DESK_VIEW_ADD, view, diags), ==,
                   DESK_VIEWS_FAILED);
  g_assert_cmpstr (((TrnDiag *)diags->items->pdata[0])->code, ==, "desk/views-no-list");
  g_autofree char *after = test_read (g_file_peek_path (fixture->file));
  g_assert_cmpstr (after, ==, before);
}

/* Half a million words, each sixty levels deep, take 3 bytes each as they were written and some 125
 * on a line of their own: more than a plan may have. It is not written, for it could not be read.
 */
static void
test_too_long (Fixture *fixture, gconstpointer data)
{
  const guint depth = 58, n_words = 580000;
  g_autoptr (GString) list = g_string_new ("[");
  for (guint i = 0; i < depth; i++)
    g_string_append (list, "{\"\":");
  g_string_append (list, "[\"\"");
  for (guint i = 1; i < n_words; i++)
    g_string_append (list, ",\"\"");
  g_autofree char *close = g_strnfill (depth, '}');
  g_string_append_printf (list, "]%s]", close);
  read_plan (fixture, list->str);
  g_autoptr (DeskSavedView) view = example ("A");
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_autofree char *before = test_read (g_file_peek_path (fixture->file));
  g_assert_cmpint (desk_saved_views_write (fixture->plan, DESK_VIEW_ADD, view, diags), ==,
                   DESK_VIEWS_FAILED);
  g_assert_cmpstr (((TrnDiag *)diags->items->pdata[0])->code, ==, "desk/plan-too-long");
  g_autofree char *after = test_read (g_file_peek_path (fixture->file));
  g_assert_cmpstr (after, ==, before);
}

/* Who may read the file stays, and a link stays a link. */
static void
test_written (Fixture *fixture, gconstpointer data)
{
  read_plan (fixture, "[" GOOD "]");
  const char *path = g_file_peek_path (fixture->file);
  g_autofree char *link = g_build_filename (fixture->folder, "link.trunnion", NULL);
  g_assert_cmpint (g_chmod (path, 0640), ==, 0);
  g_assert_cmpint (symlink ("plan.trunnion", link), ==, 0);
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_autoptr (TrnPlan) plan = trn_plan_read (link, NULL, diags);
  g_autoptr (DeskSavedView) view = example ("A");
  g_autofree char *expected = changed (fixture, DESK_VIEW_ADD, view);
  g_assert_cmpint (desk_saved_views_write (plan, DESK_VIEW_ADD, view, diags), ==,
                   DESK_VIEWS_WRITTEN);
  g_assert_cmpuint (diags->items->len, ==, 0);
  g_autofree char *after = test_read (path);
  g_assert_cmpstr (after, ==, expected);
  GStatBuf info;
  g_assert_cmpint (g_stat (path, &info), ==, 0);
  g_assert_cmpuint (info.st_mode & 0777, ==, 0640);
  g_assert_true (g_file_test (link, G_FILE_TEST_IS_SYMLINK));
}

/* Somebody else wrote the file, or took it away: it is left as it is. */
static void
test_changed_meanwhile (Fixture *fixture, gconstpointer data)
{
  read_plan (fixture, "[]");
  const char *path = g_file_peek_path (fixture->file);
  g_autoptr (DeskSavedView) view = example ("A");
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_autofree char *text = test_read (path), *other = g_strconcat (text, " ", NULL);
  g_object_unref (test_write (fixture->folder, "plan.trunnion", other));
  g_assert_cmpint (desk_saved_views_write (fixture->plan, DESK_VIEW_ADD, view, diags), ==,
                   DESK_VIEWS_CHANGED_ON_DISK);
  g_autofree char *after = test_read (path);
  g_assert_cmpstr (after, ==, other);
  g_remove (path);
  g_assert_cmpint (desk_saved_views_write (fixture->plan, DESK_VIEW_ADD, view, diags), ==,
                   DESK_VIEWS_CHANGED_ON_DISK);
  g_assert_false (g_file_test (path, G_FILE_TEST_EXISTS));
}

/* In the plan's place is a pipe that nobody writes into, a folder, a file longer than any plan (of
 * holes), or what is no plan any more: nobody is held up, and it is left as it is. */
static void
test_other_thing (Fixture *fixture, gconstpointer data)
{
  read_plan (fixture, "[]");
  const char *path = g_file_peek_path (fixture->file);
  g_autoptr (DeskSavedView) view = example ("A");
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  for (int thing = 0; thing < 4; thing++)
    {
      GStatBuf before, after;
      g_assert_cmpint (g_remove (path), ==, 0);
      if (thing == 0)
        g_assert_cmpint (mkfifo (path, 0600), ==, 0);
      else if (thing == 1)
        g_assert_cmpint (g_mkdir (path, 0700), ==, 0);
      else
        g_assert_true (g_file_set_contents (path, "{\"format\": \xff", -1, NULL));
      if (thing == 2)
        g_assert_cmpint (truncate (path, (off_t)TRN_JSON_MAX_BYTES + 1), ==, 0);
      g_assert_cmpint (g_lstat (path, &before), ==, 0);
      g_assert_cmpint (desk_saved_views_write (fixture->plan, DESK_VIEW_ADD, view, diags), ==,
                       DESK_VIEWS_CHANGED_ON_DISK);
      g_assert_cmpint (g_lstat (path, &after), ==, 0);
      g_assert_cmpuint (before.st_ino, ==, after.st_ino);
      g_assert_cmpint (before.st_size, ==, after.st_size);
    }
  g_assert_cmpuint (diags->items->len, ==, 0);
}

/* No new file can be made beside the plan: in a folder that may only be read, and, since that does
 * not hold for root, with a name so long that the name of the new file would be too long. */
static void
test_cannot_write (Fixture *fixture, gconstpointer data)
{
  read_plan (fixture, "[]");
  g_autofree char *long_name = g_strnfill (255, 'p');
  g_autofree char *text = test_read (g_file_peek_path (fixture->file));
  g_autofree char *path = g_build_filename (fixture->folder, long_name, NULL);
  int fd = g_open (path, O_CREAT | O_WRONLY, 0644);
  g_assert_cmpint (fd, >=, 0);
  g_assert_cmpint (write (fd, text, strlen (text)), ==, (gssize)strlen (text));
  close (fd);
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_autoptr (TrnPlan) plan = trn_plan_read (path, NULL, diags);
  g_assert_nonnull (plan);
  g_autoptr (DeskSavedView) view = example ("A");
  g_assert_cmpint (desk_saved_views_write (plan, DESK_VIEW_ADD, view, diags), ==,
                   DESK_VIEWS_FAILED);
  g_assert_cmpstr (((TrnDiag *)diags->items->pdata[0])->code, ==, "base/cannot-write");
  g_autofree char *after = test_read (path);
  g_assert_cmpstr (after, ==, text);
  g_assert_cmpint (g_chmod (fixture->folder, 0555), ==, 0);
  g_autoptr (TrnDiags) more = trn_diags_new ();
  DeskViewsOutcome outcome = desk_saved_views_write (fixture->plan, DESK_VIEW_ADD, view, more);
  g_assert_cmpint (g_chmod (fixture->folder, 0755), ==, 0);
  g_assert_cmpint (outcome, ==, geteuid () == 0 ? DESK_VIEWS_WRITTEN : DESK_VIEWS_FAILED);
}

/* A plan that was made read-only is left alone, though a new file could be put in its place. */
static void
test_read_only (Fixture *fixture, gconstpointer data)
{
  read_plan (fixture, "[]");
  const char *path = g_file_peek_path (fixture->file);
  g_autofree char *before = test_read (path);
  g_autoptr (DeskSavedView) view = example ("A");
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_assert_cmpint (g_chmod (path, 0444), ==, 0);
  g_assert_cmpint (desk_saved_views_write (fixture->plan, DESK_VIEW_ADD, view, diags), ==,
                   DESK_VIEWS_FAILED);
  g_assert_cmpstr (((TrnDiag *)diags->items->pdata[0])->code, ==, "base/cannot-write");
  g_autofree char *after = test_read (path);
  g_assert_cmpstr (after, ==, before);
}

/* ---- with the session ---- */

typedef struct
{
  guint n_done;
  DeskViewsOutcome outcome;
} Told;

static void
on_done (DeskViewsOutcome outcome, const TrnDiags *diags, gpointer data)
{
  Told *told = data;
  told->outcome = outcome;
  told->n_done++;
}

static gboolean
is_checked (DeskSession *session)
{
  return desk_check_get_state (desk_session_get_check (session)) == DESK_CHECK_DONE;
}

/* Saved from the desk: the plan is read again, so that its identity is that of the file and it is
 * checked as it stands there; lift, time and what is hidden stay, and nobody is told that another
 * program wrote it. */
static void
test_session (Fixture *fixture, gconstpointer data)
{
  g_autoptr (DeskSession) session = desk_session_new ();
  DeskDocument *document = desk_session_get_document (session);
  read_plan (fixture, "[" GOOD "]");
  desk_document_open (document, fixture->file, 0);
  test_wait (is_checked (session));
  desk_session_set_time (session, 12);
  desk_session_set_visibility (session, 0, RENDER_VISIBLE_HIDDEN);
  g_autoptr (DeskSite) site = desk_site_ref (desk_session_get_site (session));
  g_autoptr (DeskSavedView) view = example ("From the crane");
  Told told = { 0 };
  guint n_changed;
  test_count_signal (document, "changed-on-disk", &n_changed);
  desk_saved_views_change (document, site, DESK_VIEW_ADD, view, on_done, &told, NULL);
  test_wait (told.n_done == 1 && desk_session_get_site (session) != site && is_checked (session));
  g_assert_cmpint (told.outcome, ==, DESK_VIEWS_WRITTEN);
  DeskSite *now = desk_session_get_site (session);
  g_autoptr (GPtrArray) views = desk_saved_views_read (now->plan);
  g_assert_cmpuint (views->len, ==, 2);
  g_autofree char *text = test_read (g_file_peek_path (fixture->file));
  g_autofree char *sha256 = g_compute_checksum_for_string (G_CHECKSUM_SHA256, text, -1);
  g_assert_cmpstr (now->plan->sha256, ==, sha256);
  g_assert_true (desk_check_get_site (desk_session_get_check (session)) == now);
  g_assert_cmpfloat (desk_session_get_time (session), ==, 12);
  g_assert_cmpint (desk_session_get_visibility (session, 0), ==, RENDER_VISIBLE_HIDDEN);
  test_idle (0.6);
  g_assert_cmpuint (n_changed, ==, 0);
  g_assert_false (desk_session_is_stale (session));
}

/* The document was closed while the thread wrote: it stays closed. */
static void
test_closed_meanwhile (Fixture *fixture, gconstpointer data)
{
  g_autoptr (DeskDocument) document = desk_document_new ();
  read_plan (fixture, "[]");
  desk_document_open (document, fixture->file, 0);
  test_wait (test_document_is_done (document));
  g_autoptr (DeskSavedView) view = example ("A");
  Told told = { 0 };
  desk_saved_views_change (document, desk_document_get_site (document), DESK_VIEW_ADD, view,
                           on_done, &told, NULL);
  desk_document_close (document);
  test_wait (told.n_done == 1);
  g_assert_cmpint (told.outcome, ==, DESK_VIEWS_WRITTEN);
  g_assert_cmpint (desk_document_get_state (document), ==, DESK_DOCUMENT_EMPTY);
}

int
main (int argc, char **argv)
{
  static const struct
  {
    const char *path;
    void (*test) (Fixture *, gconstpointer);
  } tests[] = {
    { "/saved-views/read", test_read_view },
    { "/saved-views/malformed", test_malformed },
    { "/saved-views/round-trip", test_round_trip },
    { "/saved-views/rename", test_rename },
    { "/saved-views/no-list", test_no_list },
    { "/saved-views/too-long", test_too_long },
    { "/saved-views/written", test_written },
    { "/saved-views/changed-meanwhile", test_changed_meanwhile },
    { "/saved-views/other-thing", test_other_thing },
    { "/saved-views/cannot-write", test_cannot_write },
    { "/saved-views/read-only", test_read_only },
    { "/saved-views/session", test_session },
    { "/saved-views/closed-meanwhile", test_closed_meanwhile },
  };
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (tests); i++)
    g_test_add (tests[i].path, Fixture, NULL, set_up, tests[i].test, tear_down);
  return g_test_run ();
}
