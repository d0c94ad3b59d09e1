/* A kernel that refuses filters of system calls, as old ones and some containers do: the import
 * goes on within its limits, and says so. The kernel is played by a filter that is put over a child
 * of this program, and so over the helpers that it starts. */
#include "fixture.h"

#include <errno.h>
#include <seccomp.h>
#include <string.h>
#include <sys/prctl.h>
#include <sys/wait.h>
#include <unistd.h>

/* Both ways to set a filter; with @folders, rules for folders as well. */
static void
refuse_filters (gboolean folders)
{
  scmp_filter_ctx filter = seccomp_init (SCMP_ACT_ALLOW);
  g_assert_nonnull (filter);
  g_assert_cmpint (seccomp_rule_add (filter, SCMP_ACT_ERRNO (ENOSYS), SCMP_SYS (seccomp), 0), ==,
                   0);
  const struct scmp_arg_cmp set_filter = { 0, SCMP_CMP_MASKED_EQ, G_MAXUINT32, PR_SET_SECCOMP };
  g_assert_cmpint (
      seccomp_rule_add_array (filter, SCMP_ACT_ERRNO (EINVAL), SCMP_SYS (prctl), 1, &set_filter),
      ==, 0);
  if (folders)
    g_assert_cmpint (
        seccomp_rule_add (filter, SCMP_ACT_ERRNO (ENOSYS), SCMP_SYS (landlock_create_ruleset), 0),
        ==, 0);
  g_assert_cmpint (seccomp_load (filter), ==, 0);
  seccomp_release (filter);
}

/* A box is read, one warning tells why it was read unconfined, and an error still comes alone. */
static void
assert_goes_on (Fixture *fixture)
{
  g_autoptr (GByteArray) stl = fixture_stl_box (trn_vec3_make (1, 2, 3));
  fixture_write (fixture, "box.stl", stl->data, stl->len);
  g_autoptr (TrnMesh) mesh = fixture_import (fixture, "box.stl", TRN_LENGTH_M, TRN_UP_Z);
  g_assert_nonnull (mesh);
  fixture_assert_box (mesh, trn_vec3_make (0, 0, 0), trn_vec3_make (1, 2, 3), 0);
  const TrnDiag *diag = fixture_find (fixture, "import/unconfined");
  g_assert_nonnull (diag);
  g_assert_cmpint (diag->severity, ==, TRN_SEVERITY_WARNING);
  g_assert_cmpuint (strlen (trn_diag_get (diag, "reason")->text), >, 0);
  g_assert_cmpuint (fixture->diags->items->len, ==, 1);

  fixture_write (fixture, "none.obj", "v 0 0 0\nv 1 0 0\nv 1 1 0\n", -1);
  fixture_assert_error (fixture, fixture_import (fixture, "none.obj", TRN_LENGTH_M, TRN_UP_Z),
                        "import/points-only");
  g_assert_nonnull (fixture_find (fixture, "import/unconfined"));
}

/* In a child each, as a filter that refuses filters cannot be followed by another. */
static void
run_refused (Fixture *fixture, gboolean folders)
{
  int status;
  pid_t pid = fork ();
  g_assert_cmpint (pid, >=, 0);
  if (pid == 0)
    {
      refuse_filters (folders);
      assert_goes_on (fixture);
      _exit (0);
    }
  g_assert_cmpint (waitpid (pid, &status, 0), ==, pid);
  g_assert_cmpint (status, ==, 0);
}

static void
test_no_filter (Fixture *fixture, gconstpointer data)
{
  run_refused (fixture, FALSE);
}

/* Nor rules for folders. */
static void
test_nothing (Fixture *fixture, gconstpointer data)
{
  run_refused (fixture, TRUE);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(path, func) g_test_add (path, Fixture, NULL, fixture_set_up, func, fixture_tear_down)
  ADD ("/import/unconfined/no-filter", test_no_filter);
  ADD ("/import/unconfined/nothing", test_nothing);
  return g_test_run ();
}
