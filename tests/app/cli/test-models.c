/* test-models.c: the test models of the import library, whole and damaged, through the program as
 * it is run: `trunnion inspect` of each, and `trunnion check` of a plan that names it.
 *
 * Whatever is in the file, the program ends by itself, in time, within its memory, with a status
 * that it knows; where it has no mesh it says why in one sentence, and a check passes nothing. The
 * program is the one in TRUNNION_PROGRAM. */
#include <stdio.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include "models.h"

#define ROUNDS 100 /* damaged versions; times TRUNNION_TEST_SCALE */
/* The reader's own limits are 30 s of processor time and 60 s by the clock; the rest is for a
 * check of what it read, on a machine that has much else to do. */
#define MOST_WAIT_S 240
#define POLL_US 2000

/* What the reader may take (import.h), which is also more than the program needs for what it got.
 */
#define MEMORY_BYTES ((guint64)2 << 30)

#if defined(__SANITIZE_ADDRESS__)
#define SANITIZED 1
#elif defined(__has_feature)
#if __has_feature(address_sanitizer)
#define SANITIZED 1
#endif
#endif

typedef struct
{
  int status;
  double time_s;
  guint64 peak_bytes; /* the greater of the program's and its reader's */
  char *err;
} Run;

static void
run_clear (Run *run)
{
  g_free (run->err);
}

/* The address space of the program and of all that it starts. The sanitizer reserves far more. */
static void
limit_memory (gpointer data)
{
#ifndef SANITIZED
  const struct rlimit limit = { 2 * MEMORY_BYTES, 2 * MEMORY_BYTES };
  setrlimit (RLIMIT_AS, &limit);
#endif
}

static FILE *
file_new (void)
{
  FILE *file = tmpfile ();
  g_assert_nonnull (file);
  return file;
}

static char *
read_text (FILE *file)
{
  g_autoptr (GString) text = g_string_new (NULL);
  char buffer[4096];
  rewind (file);
  for (size_t n = 0; (n = fread (buffer, 1, sizeof buffer, file)) > 0;)
    g_string_append_len (text, buffer, (gssize)n);
  fclose (file);
  return g_string_free (g_steal_pointer (&text), FALSE);
}

/* Runs the program with these two words; the test ends when it does not. Models stand elsewhere. */
static Run
run (const Fixture *fixture, const char *command, const char *name)
{
  const char *outside = strcmp (command, "check") == 0 ? "--outside-files" : NULL;
  const char *argv[] = { g_getenv ("TRUNNION_PROGRAM"), command, name, outside, NULL };
  g_autoptr (GError) error = NULL;
  FILE *out = file_new (), *err = file_new ();
  GPid pid;
  const gint64 begun_us = g_get_monotonic_time ();
  g_spawn_async_with_fds (fixture->folder, (char **)argv, NULL, G_SPAWN_DO_NOT_REAP_CHILD,
                          limit_memory, NULL, &pid, -1, fileno (out), fileno (err), &error);
  g_assert_no_error (error);
  Run run = { 0 };
  struct rusage usage;
  int status;
  pid_t ended;
  while ((ended = wait4 (pid, &status, WNOHANG, &usage)) == 0)
    {
      run.time_s = (double)(g_get_monotonic_time () - begun_us) / G_USEC_PER_SEC;
      if (run.time_s > MOST_WAIT_S)
        g_error ("%s %s does not end", command, name);
      g_usleep (POLL_US);
    }
  g_assert_cmpint (ended, ==, pid);
  fclose (out);
  run.err = read_text (err);
  run.time_s = (double)(g_get_monotonic_time () - begun_us) / G_USEC_PER_SEC;
  run.peak_bytes = (guint64)usage.ru_maxrss * 1024;
  run.status = WIFEXITED (status) ? WEXITSTATUS (status) : -WTERMSIG (status);
  return run;
}

/* What was seen in all runs together. */
typedef struct
{
  guint runs, read, refused, passed, failed;
  double slowest_s;
  guint64 peak_bytes;
} Sum;

static void
sum_print (const Sum *sum)
{
  g_test_message ("%u models: %u read, %u refused; %u checks pass, %u do not; at most %.1f s and "
                  "%.0f MB",
                  sum->runs, sum->read, sum->refused, sum->passed, sum->failed, sum->slowest_s,
                  (double)sum->peak_bytes / 1e6);
}

/* Sentences that stand for what must not happen, whatever is in a file: the reader ends without an
 * answer or with one that does not hold, waits for something, or is not there. */
static const char *const never[]
    = { "program trunnion-import", "answer does not hold", "took longer", "please report it" };

static void
check_run (const Run *run, Sum *sum, const char *what)
{
  gboolean known = run->status == 0 || run->status == 3 || run->status == 1;
  if (!known || run->peak_bytes >= MEMORY_BYTES)
    g_error ("%s: status %d, %" G_GUINT64_FORMAT " bytes\n%s", what, run->status, run->peak_bytes,
             run->err);
  g_assert_true (g_utf8_validate (run->err, -1, NULL));
  guint errors = 0;
  g_auto (GStrv) lines = g_strsplit (run->err, "\n", -1);
  for (char **line = lines; *line != NULL && **line != '\0'; line++)
    {
      errors += strstr (*line, ": error: ") != NULL;
      g_assert_true (strstr (*line, ": error: ") != NULL || strstr (*line, ": warning: ") != NULL);
    }
  if ((run->status == 3) != (errors > 0))
    g_error ("%s: status %d\n%s", what, run->status, run->err);
  for (guint i = 0; i < G_N_ELEMENTS (never); i++)
    if (strstr (run->err, never[i]) != NULL)
      g_error ("%s: %s", what, run->err);
  sum->slowest_s = MAX (sum->slowest_s, run->time_s);
  sum->peak_bytes = MAX (sum->peak_bytes, run->peak_bytes);
}

/* A box of a metre that is hoisted beside the mesh, whose numbers are taken as millimetres. */
static void
write_plan (const Fixture *fixture, const char *file)
{
  g_autofree char *plan = g_strdup_printf (
      "{\"format\": \"trunnion-plan\", \"version\": 1, \"keep_clear\": 0.1, \"structures\": [\n"
      "{\"id\": \"model\", \"at\": {\"position\": [0, 0, 0]},\n"
      "\"mesh\": {\"file\": \"%s\", \"unit\": \"mm\", \"up\": \"z\"}}],\n"
      "\"components\": [{\"id\": \"unit\", \"solid\": {\"kind\": \"box\", \"size\": [1, 1, 1]},\n"
      "\"mass\": 1000, \"at\": {\"position\": [2, 0, 0]}}], \"programme\": [{\"lift\": \"up\",\n"
      "\"component\": \"unit\", \"hook_point\": [0, 0, 2],\n"
      "\"moves\": [{\"do\": \"hoist\", \"by\": 1, \"seconds\": 9}]}]}\n",
      file);
  fixture_write (fixture, "plan.trunnion", plan, -1);
}

/* Both commands, with @name in the folder. To look at a file asks less of it than a check does. */
static void
try_file (const Fixture *fixture, const char *name, const char *what, Sum *sum)
{
  write_plan (fixture, name);
  Run inspected = run (fixture, "inspect", name), checked = run (fixture, "check", "plan.trunnion");
  check_run (&inspected, sum, what);
  check_run (&checked, sum, what);
  g_assert_cmpint (inspected.status, !=, 1);
  if (inspected.status == 3 && checked.status != 3)
    g_error ("%s: it is checked, and cannot be read:\n%s%s", what, inspected.err, checked.err);
  sum->runs++;
  sum->read += inspected.status == 0;
  sum->refused += inspected.status == 3;
  sum->passed += checked.status == 0;
  sum->failed += checked.status != 0;
  run_clear (&inspected);
  run_clear (&checked);
}

/* A model stands beside what it refers to, so its folder is shown in this one by a link. */
static void
test_whole (Fixture *fixture, gconstpointer data)
{
  g_autoptr (GPtrArray) models = models_new ();
  g_autofree char *link = fixture_path (fixture, "models");
  Sum sum = { 0 };
  g_assert_cmpint (symlink (MODELS, link), ==, 0);
  for (guint i = 0; i < models->len; i++)
    {
      const Model *model = g_ptr_array_index (models, i);
      g_autofree char *name = g_build_filename ("models", model->path, NULL);
      try_file (fixture, name, model->path, &sum);
    }
  sum_print (&sum);
  g_assert_cmpuint (sum.read, >, models->len / 2);
  g_assert_cmpuint (sum.refused, >, 0);
  g_assert_cmpuint (sum.passed, >, 0);
}

static void
test_damaged (Fixture *fixture, gconstpointer data)
{
  g_autoptr (GPtrArray) models = models_new ();
  const char *scale = g_getenv ("TRUNNION_TEST_SCALE");
  guint rounds = (guint)(ROUNDS * (scale != NULL ? g_ascii_strtod (scale, NULL) : 1));
  Sum sum = { 0 };
  while (sum.runs < rounds)
    {
      const Model *model = models_draw (models);
      g_autofree char *name = models_write_damaged (fixture, model);
      g_autofree char *what = g_strdup_printf ("%s, damaged, number %u", model->path, sum.runs);
      if (name != NULL)
        try_file (fixture, name, what, &sum);
    }
  sum_print (&sum);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_assert_nonnull (g_getenv ("TRUNNION_PROGRAM"));
#define ADD(path, func) g_test_add (path, Fixture, NULL, fixture_set_up, func, fixture_tear_down)
  ADD ("/cli/models/whole", test_whole);
  ADD ("/cli/models/damaged", test_damaged);
#undef ADD
  return g_test_run ();
}
