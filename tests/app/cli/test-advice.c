/* test-advice.c: what the program tells a person who writes a plan without help: where the load is
 * after each move, by how much it misses its place, what is wrong with a seat; and the width of the
 * table. The program is the one in TRUNNION_PROGRAM. */
#include <gio/gio.h>
#include <glib/gstdio.h>
#include <string.h>

/* A crate of 1 m goes up by 5 m off a slab whose top is level 0, beside a post, and down again. */
static char *
plan_text (const char *z, const char *more, const char *down)
{
  g_autofree char *text = g_strdup_printf (
      "{'format': 'trunnion-plan', 'version': 1, 'title': 'A crate', 'keep_clear': 0.3,\n"
      " 'structures': [{'id': 'slab', 'solid': {'kind': 'box', 'size': [10, 10, 1]},\n"
      "   'at': {'position': [0, 0, -1]}},\n"
      "  {'id': 'post', 'solid': {'kind': 'box', 'size': [1, 1, 9]},\n"
      "   'at': {'position': [9, 0, 0]}}],\n"
      " 'components': [{'id': 'crate', 'solid': {'kind': 'box', 'size': [1, 1, 1]},\n"
      "   'at': {'position': [0, 0, %s]}}],\n"
      " 'programme': [{'lift': 'up', 'component': 'crate', 'hook_point': [0, 0, 2],\n"
      "   'seats': [{'on': 'slab', 'at': 'both'}], %s\n"
      "   'moves': [{'do': 'hoist', 'by': 5, 'seconds': 60},\n"
      "     {'do': 'tilt', 'by': 90, 'axis': 90, 'seconds': 60},\n"
      "     {'do': 'tilt', 'by': -90, 'axis': 90, 'seconds': 60},\n"
      "     {'do': 'wait', 'seconds': 60, 'hold_point':\n"
      "       'all around has been looked at, at length'},\n"
      "     {'do': 'hoist', 'by': %s, 'seconds': 60}]}]}\n",
      z, more, down);
  g_strdelimit (text, "'", '"');
  return g_steal_pointer (&text);
}

/* What the program prints on both outputs; the exit status must be @status. */
static char *
run_plan (const char *text, const char *command, const char *option, const char *columns,
          int status)
{
  g_autofree char *folder = g_dir_make_tmp ("trunnion-test-XXXXXX", NULL);
  g_autofree char *plan = g_build_filename (folder, "a.trunnion", NULL);
  g_assert_true (g_file_set_contents (plan, text, -1, NULL));
  g_autoptr (GSubprocessLauncher) launcher = g_subprocess_launcher_new (
      G_SUBPROCESS_FLAGS_STDOUT_PIPE | G_SUBPROCESS_FLAGS_STDERR_MERGE);
  if (columns != NULL)
    g_subprocess_launcher_setenv (launcher, "COLUMNS", columns, TRUE);
  else
    g_subprocess_launcher_unsetenv (launcher, "COLUMNS");
  g_autoptr (GError) error = NULL;
  g_autoptr (GSubprocess) process = g_subprocess_launcher_spawn (
      launcher, &error, g_getenv ("TRUNNION_PROGRAM"), command, plan, option, NULL);
  g_assert_no_error (error);
  char *out = NULL;
  g_assert_true (g_subprocess_communicate_utf8 (process, NULL, NULL, &out, NULL, &error));
  g_test_message ("%s", out);
  g_assert_true (g_subprocess_get_if_exited (process));
  g_assert_cmpint (g_subprocess_get_exit_status (process), ==, status);
  g_assert_cmpint (g_remove (plan), ==, 0);
  g_assert_cmpint (g_rmdir (folder), ==, 0);
  return out;
}

static void
assert_has (const char *text, const char *part)
{
  if (strstr (text, part) == NULL)
    g_error ("no “%s” in:\n%s", part, text);
}

/* The numbers of a line, after its time. */
static void
assert_place (const char *out, const char *time, const char *numbers, const char *move)
{
  g_auto (GStrv) lines = g_strsplit (out, "\n", -1);
  g_autofree char *expected = g_strdup_printf ("%s %s %s", time, numbers, move);
  for (guint i = 0; lines[i] != NULL; i++)
    {
      g_auto (GStrv) words = g_strsplit_set (lines[i], " ", -1);
      g_autoptr (GString) line = g_string_new (NULL);
      for (guint k = 0; words[k] != NULL; k++)
        if (*words[k] != '\0')
          g_string_append_printf (line, "%s%s", line->len > 0 ? " " : "", words[k]);
      if (g_str_has_prefix (line->str, expected))
        return;
    }
  g_error ("no line “%s” in:\n%s", expected, out);
}

/* The hook is 2 m over the crate's origin: 7 m up after the hoist. Tilted about the hook by +90°
 * about +Y (heading 90), the crate's up points to +X: its origin is 2 m to −X of the hook, at a
 * pitch of 90°. Numbers have a plain minus sign. */
static void
test_places (void)
{
  g_autofree char *text = plan_text ("0", "", "-5");
  g_autofree char *out = run_plan (text, "validate", "--places", NULL, 0);
  assert_place (out, "0:00:00", "0.000 0.000 2.000 0.000 0.000 0.000 0.00 0.00 0.00", "Start");
  assert_place (out, "0:01:00", "0.000 0.000 7.000 0.000 0.000 5.000 0.00 0.00 0.00", "1. Hoist");
  assert_place (out, "0:02:00", "0.000 0.000 7.000 -2.000 0.000 7.000 0.00 90.00 0.00",
                "2. Tilt 90° toward east");
  assert_place (out, "0:05:00", "0.000 0.000 2.000 0.000 0.000 0.000 0.00 0.00 0.00", "5. Lower");
  assert_has (out, "no fault found");
}

/* Set down 0.1 m too high in a lift that begins 0.05 m over where the crate stands: each is told by
 * itself, and the paragraph of what is closest, which meets its value, comes after them. */
static void
test_faults (void)
{
  g_autofree char *text = plan_text ("-0.05", "\"start\": {\"position\": [0, 0, 0]},", "-4.9");
  g_autofree char *out = run_plan (text, "check", "--all", NULL, 1);
  assert_has (out, "At the end, slab (seat), in “up”:\n  Not resting: 0.1 m above its seat");
  assert_has (out,
              "Where it begins, in “up”:\n  Begins at (0, 0, 0) m, but its component stands at "
              "(0, 0, −0.05) m: 0.05");
  const char *closest = strstr (out, "Closest in “up”");
  g_assert_nonnull (closest);
  g_assert_true (closest > strstr (out, "Where it begins, in “up”"));
  assert_has (closest, "Meets the set clearance");
}

/* A tolerance of 0.05 m: both ends name the until_clear that it takes, in the plan's own word. */
static void
test_until_clear (void)
{
  g_autofree char *text = plan_text ("0", "\"tolerance\": {\"position\": 0.05},", "-5");
  g_autofree char *out = run_plan (text, "check", "--all", NULL, 1);
  const char *first = strstr (out, "until_clear of this");
  g_assert_nonnull (first);
  g_assert_nonnull (strstr (first + 1, "until_clear of this"));
  assert_has (out, "at least 0.36 m (what is to be kept + all that is taken off + 0.01 m)");
}

/* The paragraph of what is closest says what its clearance was made less by, between what came of
 * that and when: a tolerance of 0.05 m, whether that is met or, from 8.3 m on of 8 m between crate
 * and post, short; and nothing where there is none. */
static void
test_taken_off (void)
{
  static const char *const tolerances[] = { "0.05", "7.8" }, *const taken[] = { "0.05", "7.8" };
  for (guint i = 0; i < G_N_ELEMENTS (tolerances); i++)
    {
      g_autofree char *more = g_strdup_printf ("\"tolerance\": {\"position\": %s},", tolerances[i]);
      g_autofree char *text = plan_text ("0", more, "-5");
      g_autofree char *out = run_plan (text, "check", "--all", NULL, 1);
      g_autofree char *line
          = g_strdup_printf (".\n  %s m taken off for tolerances\n  when: ", taken[i]);
      const char *closest = strstr (out, "Closest in “up”");
      g_assert_nonnull (closest);
      assert_has (closest, line);
    }
  g_autofree char *text = plan_text ("0", "", "-5");
  g_autofree char *out = run_plan (text, "check", "--all", NULL, 0);
  g_assert_null (strstr (out, "taken off"));
}

/* Lowered by 7 m from 5 m in 60 s, into its seat, which it may be 5 mm deep in: that is passed at
 * 240 s + 60 s · 5.005 / 7 = 282.9 s. The table and the paragraph show when the contact begins. */
static void
test_contact_time (void)
{
  g_autofree char *text = plan_text ("0", "", "-7");
  g_autofree char *out = run_plan (text, "check", "--all", NULL, 1);
  assert_has (out, "0:04:43  CONTACT");
  assert_has (out,
              "first at 4 min 43 s.\n  when: 4 min 43 s from the start of the lift, 71 % into");
}

/* The README's two ways of up-ending, each put into a plan: a tank of 4 m by 12 m that lies along
 * +X, 5 m up. Both end with it upright, its own frame along the site's. The heel, 2 m below the
 * middle of the base, stays at x = 0 and z = 3, so that the base's middle goes to x = −2, z = 3. On
 * two hooks the top stays at x = 12, and the foot at its level of 5 m. */
static void
test_readme_moves (void)
{
  g_autofree char *path = g_build_filename (g_getenv ("TRUNNION_SOURCE_FOLDER"), "README.md", NULL);
  g_autofree char *readme = NULL;
  g_assert_true (g_file_get_contents (path, &readme, NULL, NULL));
  static const char *const ends[]
      = { "-2.000 0.000 3.000 0.00 0.00 0.00", "12.000 0.000 5.000 0.00 0.00 0.00" };
  const char *from = readme;
  for (guint i = 0; i < G_N_ELEMENTS (ends); i++)
    {
      const char *begin = strstr (from, "\n{\"do\": \"tilt\"");
      g_assert_nonnull (begin);
      from = strchr (begin + 1, '\n');
      g_autofree char *move = g_strndup (begin + 1, (gsize)(from - begin - 1));
      g_autofree char *text = g_strdup_printf (
          "{\"format\": \"trunnion-plan\", \"version\": 1, \"structures\": [], \"components\": ["
          "{\"id\": \"tank\", \"solid\": {\"kind\": \"cylinder\", \"diameter\": 4, \"height\": 12},"
          " \"at\": {\"position\": [0, 0, 5], \"turn\": [0, 90, 0]},"
          " \"points\": {\"heel\": [2, 0, 0], \"top\": [0, 0, 12], \"foot\": [0, 0, 0]}}],"
          " \"programme\": [{\"lift\": \"up\", \"component\": \"tank\", \"hook_point\": \"foot\","
          " \"moves\": [%s]}]}",
          move);
      g_autofree char *out = run_plan (text, "validate", "--places", NULL, 0);
      g_autofree char *hook = g_strndup (ends[i], strlen (ends[i]) - strlen (" 0.00 0.00 0.00"));
      g_autofree char *both = g_strdup_printf ("%s %s", hook, ends[i]);
      assert_place (out, "0:15:00", both, "1. Tilt 90° toward west");
    }
}

/* The seat's lines come after all others of the load's way, though their margins are the least. */
static void
test_off_seat_last (void)
{
  g_autofree char *text = plan_text ("0", "", "-5");
  g_autofree char *out = run_plan (text, "check", "--all", NULL, 0);
  const char *off_seat = strstr (out, "off seat");
  g_assert_nonnull (off_seat);
  g_auto (GStrv) before = g_strsplit (out, "off seat", 2);
  assert_has (before[0], "post");
  g_auto (GStrv) lines = g_strsplit (off_seat, "\n", -1);
  for (guint i = 0; *lines[i] != '\0'; i++)
    g_assert_true (strstr (lines[i], "meets") == NULL || strstr (lines[i], "(swing)") != NULL);
}

static glong
longest_line (const char *out)
{
  glong longest = 0;
  g_auto (GStrv) lines = g_strsplit (out, "\n", -1);
  for (guint i = 0; lines[i] != NULL; i++)
    if (strstr (lines[i], "4. Hold") != NULL)
      longest = MAX (longest, g_utf8_strlen (lines[i], -1));
  return longest;
}

/* The wait's name is long. All lines through a pipe are whole; otherwise the table is as wide as
 * the terminal says, 80 at least, and 100 where it says nothing. */
static void
test_width (void)
{
  g_autofree char *text = plan_text ("0", "", "-5");
  g_autofree char *all = run_plan (text, "check", "--all", NULL, 0);
  assert_has (all, "Hold: all around has been looked at, at length  ");
  const struct
  {
    const char *columns;
    glong least, most;
  } cases[] = { { NULL, 95, 100 }, { "90", 85, 90 }, { "20", 75, 80 }, { "wide", 95, 100 } };
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *out = run_plan (text, "check", "--timings", cases[i].columns, 0);
      g_assert_cmpint (longest_line (out), <=, cases[i].most);
      g_assert_cmpint (longest_line (out), >=, cases[i].least);
    }
}

/* A tenth of the 0.3 m that are to be kept is 30 mm. */
static void
test_deviation (void)
{
  g_autofree char *text = plan_text ("0", "", "-5");
  g_autofree char *large = run_plan (text, "check", "--deviation=31", NULL, 0);
  assert_has (large, "note: With --deviation curved solids may be taken thicker by 0.031 m");
  g_autofree char *small = run_plan (text, "check", "--deviation=29", NULL, 0);
  g_assert_null (strstr (small, "--deviation"));
}

/* Nothing is lifted: not "0 findings". */
static void
test_no_lift (void)
{
  g_autofree char *out = run_plan ("{\"format\": \"trunnion-plan\", \"version\": 1,"
                                   " \"structures\": [], \"components\": [], \"programme\": []}",
                                   "check", "--all", NULL, 1);
  assert_has (out, "The plan has no lift, so nothing was checked.");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_assert_nonnull (g_getenv ("TRUNNION_PROGRAM"));
  g_test_add_func ("/cli/advice/places", test_places);
  g_test_add_func ("/cli/advice/readme-moves", test_readme_moves);
  g_test_add_func ("/cli/advice/faults", test_faults);
  g_test_add_func ("/cli/advice/until-clear", test_until_clear);
  g_test_add_func ("/cli/advice/taken-off", test_taken_off);
  g_test_add_func ("/cli/advice/contact-time", test_contact_time);
  g_test_add_func ("/cli/advice/off-seat-last", test_off_seat_last);
  g_test_add_func ("/cli/advice/width", test_width);
  g_test_add_func ("/cli/advice/deviation", test_deviation);
  g_test_add_func ("/cli/advice/no-lift", test_no_lift);
  return g_test_run ();
}
