/* A helper that crashes, hangs, floods and lies: an error each time, in time, and no child left. */
#include "fixture.h"

#include <errno.h>
#include <glib/gstdio.h>
#include <signal.h>
#include <sys/prctl.h>
#include <sys/wait.h>

static const struct
{
  const char *mode, *code;
} faults[] = {
  { "crash", "import/crashed" },
  { "abort", "import/crashed" },
  { "crash-late", "import/crashed" },
  { "killed", "import/crashed" },
  { "killed-late", "import/crashed" },
  { "cpu", "import/cpu-time" },
  { "status", "import/helper-failed" },
  { "status-late", "import/helper-failed" },
  { "nothing", "import/bad-answer" },
  { "flood", "import/bad-answer" },
  { "flood-late", "import/bad-answer" },
  { "truncated", "import/bad-answer" },
  { "trailing", "import/bad-answer" },
  { "end", "import/bad-answer" },
  { "magic", "import/bad-answer" },
  { "version", "import/bad-answer" },
  { "triangles", "import/bad-answer" },
  { "vertices", "import/bad-answer" },
  { "memory", "import/bad-answer" },
  { "parts", "import/bad-answer" },
  { "no-parts", "import/bad-answer" },
  { "notes", "import/bad-answer" },
  { "bad-note", "import/bad-answer" },
  { "note-length", "import/bad-answer" },
  { "mesh-and-error", "import/bad-answer" },
  { "no-mesh", "import/bad-answer" },
  { "unit", "import/bad-answer" },
  { "loss", "import/bad-answer" },
  { "up", "import/bad-answer" },
  { "part-range", "import/bad-answer" },
  { "part-gap", "import/bad-answer" },
  { "part-empty", "import/bad-answer" },
  { "name-length", "import/bad-answer" },
  { "utf-8", "import/bad-answer" },
  { "control", "import/bad-answer" },
  { "nan", "import/bad-answer" },
  { "infinity", "import/bad-answer" },
  { "index", "import/bad-answer" },
  { "alone", "import/bad-answer" },
  { "confined-bit", "import/bad-answer" },
  { "unconfined-unsaid", "import/bad-answer" },
  { "unconfined-lie", "import/bad-answer" },
  { "counted", "import/bad-answer" },
  { "reserved", "import/bad-answer" },
  { "unit-negative", "import/bad-answer" },
  { "unit-tiny", "import/bad-answer" },
  { "unit-huge", "import/bad-answer" },
  { "loss-infinite", "import/bad-answer" },
  { "largest", "import/bad-answer" },
  { "far", "import/bad-answer" },
  { "beyond-precision", "import/bad-answer" },
  { "note-cut", "import/bad-answer" },
  { "note-nan", "import/bad-answer" },
  { "note-negative", "import/bad-answer" },
  { "note-huge", "import/bad-answer" },
  { "note-text", "import/bad-answer" },
  { "nul", "import/bad-answer" },
  { "bidi", "import/bad-answer" },
  { "index-max", "import/bad-answer" },
  { "names", "import/bad-answer" },
  { "imprecise", "import/precision" },
  { "referred-up", "import/reference-missing" },
  { "referred-root", "import/reference-missing" },
  { "referred-folder", "import/reference-missing" },
  { "referred-empty", "import/reference-missing" },
  { "referred-none", "import/reference-missing" },
  { "referred-changed", "import/reference-changed" },
  { "referred-bare", "import/bad-answer" },
  { "referred-letters", "import/bad-answer" },
  { "hang", "import/wall-time" },
  { "drip", "import/wall-time" },
  { "hang-late", "import/wall-time" },
  { "linger", "import/wall-time" },
};

/* What never ends by itself. */
static const char *const slow[] = { "hang", "hang-late", "linger", "linger-child", "drip", NULL };

static TrnMesh *
import_with (Fixture *fixture, const char *mode, TrnProgress *progress)
{
  if (g_strcmp0 (g_getenv ("FAKE_HELPER"), mode) != 0)
    g_setenv ("FAKE_HELPER", mode, TRUE);
  fixture_write (fixture, "any.obj", "v 0 0 0\n", -1);
  g_autofree char *path = fixture_path (fixture, "any.obj");
  TrnImportRequest request = { .path = path };
  TrnImportLimits limits = trn_import_limits_default ();
  limits.memory_bytes = (gsize)(g_str_equal (mode, "names") ? 64 : 1024) << 20;
  limits.wall_s = g_strv_contains (slow, mode) ? 1 : 30;
  if (progress != NULL)
    limits.wall_s = 30;
  trn_diags_free (fixture->diags);
  fixture->diags = trn_diags_new ();
  return trn_import_mesh (&request, &limits, progress, fixture->sha256, &fixture->report,
                          fixture->diags);
}

static void
assert_no_child (void)
{
  g_assert_cmpint (waitpid (-1, NULL, WNOHANG), ==, -1);
  g_assert_cmpint (errno, ==, ECHILD);
}

/* The fake is right when it is told nothing: so each fault below is due to what its mode changes.
 */
static void
test_well (Fixture *fixture, gconstpointer data)
{
  g_autoptr (TrnMesh) mesh = import_with (fixture, "well", NULL);
  g_assert_nonnull (mesh);
  g_assert_cmpstr (mesh->parts[0].name, ==, "load");
  g_assert_cmpuint (fixture->diags->items->len, ==, 0);
  assert_no_child ();
}

static void
test_faults (Fixture *fixture, gconstpointer data)
{
  for (guint i = 0; i < G_N_ELEMENTS (faults); i++)
    {
      gint64 start = g_get_monotonic_time ();
      g_test_message ("%s", faults[i].mode);
      fixture_assert_error (fixture, import_with (fixture, faults[i].mode, NULL), faults[i].code);
      g_assert_cmpint (g_get_monotonic_time () - start, <, 20 * G_USEC_PER_SEC);
      assert_no_child ();
    }
}

/* The helper answers and ends, but a child of its keeps the pipe open: an error in time, and the
 * child is ended as well. As the one that adopts orphans, this program sees how it ended. */
static void
test_child_left (Fixture *fixture, gconstpointer data)
{
  int status;
  g_assert_cmpint (prctl (PR_SET_CHILD_SUBREAPER, 1, 0, 0, 0), ==, 0);
  fixture_assert_error (fixture, import_with (fixture, "linger-child", NULL), "import/wall-time");
  g_assert_cmpint (waitpid (-1, &status, 0), >, 0);
  g_assert_true (WIFSIGNALED (status) && WTERMSIG (status) == SIGKILL);
  g_assert_cmpint (prctl (PR_SET_CHILD_SUBREAPER, 0, 0, 0, 0), ==, 0);
  assert_no_child ();
}

/* What it says beside its answer is never read, and never in its way. */
static void
test_stderr (Fixture *fixture, gconstpointer data)
{
  g_autoptr (TrnMesh) mesh = import_with (fixture, "stderr", NULL);
  g_assert_nonnull (mesh);
  assert_no_child ();
}

/* Where whoever started the program had it ignore the end of children, the system reaps them. */
static void
test_reaped_elsewhere (Fixture *fixture, gconstpointer data)
{
  g_assert_true (signal (SIGCHLD, SIG_IGN) != SIG_ERR);
  g_autoptr (TrnMesh) mesh = import_with (fixture, "well", NULL);
  g_assert_nonnull (mesh);
  fixture_assert_error (fixture, import_with (fixture, "crash-late", NULL), "import/bad-answer");
  fixture_assert_error (fixture, import_with (fixture, "hang", NULL), "import/wall-time");
  g_assert_true (signal (SIGCHLD, SIG_DFL) != SIG_ERR);
  assert_no_child ();
}

static gpointer
cancel_soon (gpointer data)
{
  g_usleep (200000);
  trn_progress_cancel (data);
  return NULL;
}

/* Cancelled before it starts, and while the helper hangs. */
static void
test_cancel (Fixture *fixture, gconstpointer data)
{
  TrnProgress progress = { .cancelled = 1 };
  fixture_assert_error (fixture, import_with (fixture, "hang", &progress), "import/cancelled");
  progress.cancelled = 0;
  GThread *thread = g_thread_new ("cancel", cancel_soon, &progress);
  gint64 start = g_get_monotonic_time ();
  fixture_assert_error (fixture, import_with (fixture, "hang", &progress), "import/cancelled");
  g_assert_cmpint (g_get_monotonic_time () - start, <, 10 * G_USEC_PER_SEC);
  g_thread_join (thread);
  assert_no_child ();
}

/* A helper that is not there, and one that cannot be run. */
static void
test_no_helper (Fixture *fixture, gconstpointer data)
{
  g_autofree char *real = g_strdup (g_getenv ("TRUNNION_IMPORT_HELPER"));
  g_setenv ("TRUNNION_IMPORT_HELPER", "/nonexistent/helper", TRUE);
  fixture_assert_error (fixture, import_with (fixture, "well", NULL), "import/no-helper");
  fixture_write (fixture, "text", "#!/nonexistent/interpreter\n", -1);
  g_autofree char *text = fixture_path (fixture, "text");
  g_assert_cmpint (g_chmod (text, 0700), ==, 0);
  g_setenv ("TRUNNION_IMPORT_HELPER", text, TRUE);
  fixture_assert_error (fixture, import_with (fixture, "well", NULL), "import/cannot-start");
  g_setenv ("TRUNNION_IMPORT_HELPER", real, TRUE);
  assert_no_child ();
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(path, func) g_test_add (path, Fixture, NULL, fixture_set_up, func, fixture_tear_down)
  ADD ("/import/helper-faults/well", test_well);
  ADD ("/import/helper-faults/faults", test_faults);
  ADD ("/import/helper-faults/child-left", test_child_left);
  ADD ("/import/helper-faults/stderr", test_stderr);
  ADD ("/import/helper-faults/reaped-elsewhere", test_reaped_elsewhere);
  ADD ("/import/helper-faults/no-helper", test_no_helper);
  /* Last, as it starts a thread, after which the environment must rest. */
  ADD ("/import/helper-faults/cancel", test_cancel);
  return g_test_run ();
}
