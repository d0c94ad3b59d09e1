/* test-compare.c: `trunnion compare` as it is run: a crate goes up beside a post, and is then
 * rebuilt wider. Before, the faces are 1.5 m apart all the way; after, 0.75 m.
 * What is certified is a hair less, and is rounded down to the millimetre. */
#include "program.h"

#define PLAN(size, keep)                                                                           \
  "{\"format\": \"trunnion-plan\", \"version\": 1, \"title\": \"A crate past a post\",\n"          \
  " \"keep_clear\": " keep ",\n"                                                                   \
  " \"structures\": [{\"id\": \"post\", \"solid\": {\"kind\": \"box\", \"size\": [1, 1, 10]},\n"   \
  "   \"at\": {\"position\": [3, 0, 0]}}],\n"                                                      \
  " \"components\": [{\"id\": \"crate\", \"solid\": {\"kind\": \"box\", \"size\": " size "},\n"    \
  "   \"mass\": 1000, \"at\": {\"position\": [0, 0, 0]}}],\n"                                      \
  " \"programme\": [{\"lift\": \"up\", \"component\": \"crate\", \"hook_point\": [0, 0, 2],\n"     \
  "   \"moves\": [{\"do\": \"hoist\", \"by\": 3, \"seconds\": 60}]}]}\n"
#define AS_BUILT "[2, 2, 2]"
#define REBUILT "[3.5, 2, 2]"

typedef struct
{
  char *folder;
  char *out, *err;
  int status;
} Fixture;

static void
run_line (Fixture *f, const char *line)
{
  g_autoptr (GBytes) out = NULL;
  f->status = test_program_run (f->folder, line, NULL, NULL, &out, &f->err);
  gsize length = g_bytes_get_size (out);
  g_free (f->out);
  f->out = g_strndup (length > 0 ? g_bytes_get_data (out, NULL) : "", length);
}

static void
write_file (const Fixture *f, const char *name, const char *text)
{
  g_autofree char *path = g_build_filename (f->folder, name, NULL);
  g_assert_true (g_file_set_contents (path, text, -1, NULL));
}

/* Checks @plan and keeps its results as @name. */
static void
check_plan (Fixture *f, const char *plan, const char *name)
{
  write_file (f, "a.trunnion", plan);
  g_autofree char *line = g_strdup_printf ("check a.trunnion --json %s", name);
  run_line (f, line);
  g_assert_cmpint (f->status, <=, 1);
}

static void
set_up (Fixture *f, gconstpointer data)
{
  f->folder = test_folder_new ();
  check_plan (f, PLAN (AS_BUILT, "0.5"), "old.json");
}

static void
tear_down (Fixture *f, gconstpointer data)
{
  test_folder_free (f->folder);
  g_free (f->out);
  g_free (f->err);
}

static void
assert_has (const char *text, const char *part)
{
  if (strstr (text, part) == NULL)
    g_error ("no “%s” in:\n%s", part, text);
}

static void
test_same (Fixture *f, gconstpointer data)
{
  run_line (f, "compare old.json old.json");
  g_assert_cmpint (f->status, ==, 0);
  g_assert_cmpstr (f->err, ==, "");
  assert_has (f->out, "Before: old.json, of “A crate past a post” (a.trunnion), by trunnion ");
  assert_has (f->out, "Plan and mesh files are the same.\n");
  assert_has (f->out,
              "Nothing became worse. Findings: 0 worse, 0 gone, 0 changed, 0 new, 0 better,");
  g_assert_null (strstr (f->out, "unchanged ·"));
  run_line (f, "compare --all old.json old.json");
  g_assert_cmpint (f->status, ==, 0);
  assert_has (f->out, "unchanged · up, move 1: load – post: meets\n"
                      "    certified clearance 1.499 m, to be kept 0.5 m, in hand 0.999 m\n");
}

static void
test_rebuilt (Fixture *f, gconstpointer data)
{
  check_plan (f, PLAN (REBUILT, "0.5"), "new.json");
  run_line (f, "compare old.json new.json");
  g_assert_cmpint (f->status, ==, 1);
  assert_has (f->out, "The plan file is another one.\n");
  assert_has (f->out,
              "worse · up, move 1: load – post: meets\n"
              "    certified clearance 1.499 m → 0.749 m, to be kept 0.5 m, in hand 0.999 m → "
              "0.249 m\n");
  assert_has (f->out, "1 finding became worse or is to be looked at.");
  run_line (f, "compare new.json old.json");
  g_assert_cmpint (f->status, ==, 0);
  assert_has (f->out, "better · up, move 1: load – post: meets\n");
}

/* Less is asked for, so that it is met, as it was not before. */
static void
test_limit (Fixture *f, gconstpointer data)
{
  check_plan (f, PLAN (AS_BUILT, "1.6"), "old.json");
  check_plan (f, PLAN (REBUILT, "0.5"), "new.json");
  run_line (f, "compare old.json new.json");
  g_assert_cmpint (f->status, ==, 1);
  assert_has (f->out, "What is asked for was changed in 1 finding.\n");
  assert_has (f->out,
              "worse · up, move 1: load – post: SHORT → meets\n"
              "    certified clearance 1.499 m → 0.749 m, to be kept 1.6 m → 0.5 m, in hand "
              "−0.101 m → 0.249 m (what is asked for was changed)\n");
}

static void
test_gone (Fixture *f, gconstpointer data)
{
  write_file (f, "empty.json",
              "{\"format\": \"trunnion-results\", \"version\": 1, \"program\": \"p\",\n"
              " \"plan\": {\"title\": \"\", \"file\": \"a\", \"sha256\":\n"
              "  \"0000000000000000000000000000000000000000000000000000000000000000\"},\n"
              " \"meshes\": [], \"certified_to\": 0.001, \"checks_done\": [], \"lifts\": []}");
  run_line (f, "compare old.json empty.json");
  g_assert_cmpint (f->status, ==, 1);
  assert_has (f->out, "No longer checked: clearance, ");
  assert_has (f->out, "gone · up, move 1: load – post: meets → –\n");
  assert_has (f->out, "The later results hold no finding.");
  run_line (f, "compare empty.json old.json");
  g_assert_cmpint (f->status, ==, 0);
  assert_has (f->out, "new · up, move 1: load – post: – → meets\n");
}

static void
test_faults (Fixture *f, gconstpointer data)
{
  write_file (f, "bad.json", "{\"format\": \"trunnion-results\",\n \"version\": 3}");
  run_line (f, "compare old.json bad.json");
  g_assert_cmpint (f->status, ==, 3);
  g_assert_cmpstr (f->out, ==, "");
  assert_has (f->err, "bad.json:2: /version: error: ");
  run_line (f, "compare nowhere.json a.trunnion");
  g_assert_cmpint (f->status, ==, 3);
  assert_has (f->err, "“nowhere.json” cannot be read");
  assert_has (f->err, "a.trunnion:1: /format: error: The format is “trunnion-plan”");
  run_line (f, "compare old.json");
  g_assert_cmpint (f->status, ==, 2);
  assert_has (f->err, "Two results are needed");
  run_line (f, "compare old.json old.json old.json");
  g_assert_cmpint (f->status, ==, 2);
  run_line (f, "compare --json x old.json old.json");
  g_assert_cmpint (f->status, ==, 2);
  run_line (f, "compare --help");
  g_assert_cmpint (f->status, ==, 0);
  assert_has (f->out, "Usage: trunnion compare OLD.json NEW.json");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add ("/cli/compare/same", Fixture, NULL, set_up, test_same, tear_down);
  g_test_add ("/cli/compare/rebuilt", Fixture, NULL, set_up, test_rebuilt, tear_down);
  g_test_add ("/cli/compare/limit", Fixture, NULL, set_up, test_limit, tear_down);
  g_test_add ("/cli/compare/gone", Fixture, NULL, set_up, test_gone, tear_down);
  g_test_add ("/cli/compare/faults", Fixture, NULL, set_up, test_faults, tear_down);
  return g_test_run ();
}
