/* test-gear-table.c: what the command line says of gear: how much it has in hand though all is met,
 * causes told once, and both names of two bodies. The program is the one in TRUNNION_PROGRAM. */
#include "program.h"

/* What the program says of a plan in which ' stands for ". */
static char *
check_plan (char *text, const char *option, int status)
{
  char *folder = test_folder_new ();
  g_strdelimit (text, "'", '"');
  g_autofree char *plan = g_build_filename (folder, "a.trunnion", NULL);
  g_assert_true (g_file_set_contents (plan, text, -1, NULL));
  g_autofree char *line = g_strdup_printf ("check a.trunnion%s", option);
  g_autoptr (GBytes) out = NULL;
  g_autofree char *err = NULL;
  g_assert_cmpint (test_program_run (folder, line, NULL, NULL, &out, &err), ==, status);
  test_folder_free (folder);
  gsize length;
  const char *data = g_bytes_get_data (out, &length);
  char *said = g_strndup (data, length);
  g_test_message ("%s", said);
  return said;
}

/* A crate of 1 m goes up by 5 m, 10 m east of a crane whose boom of 30 m has its foot over the slew
 * axis, 2 m up. Beside it stands a shed of that name. */
static char *
check (const char *hoist, const char *option, int status)
{
  g_autofree char *text = g_strdup_printf (
      "{'format': 'trunnion-plan', 'version': 1, 'title': 'A crate', 'keep_clear': 0.3,\n"
      " 'structures': [{'id': 'slab', 'solid': {'kind': 'box', 'size': [60, 60, 1]},\n"
      "   'at': {'position': [0, 0, -1]}},\n"
      "  {'id': 'transformer-shed-north', 'solid': {'kind': 'box', 'size': [1, 1, 3]},\n"
      "   'at': {'position': [-5.1, 0, 0]}}],\n"
      " 'components': [{'id': 'crate', 'solid': {'kind': 'box', 'size': [1, 1, 1]},\n"
      "   'at': {'position': [10, 0, 0]}}],\n"
      " 'gear': [{'id': 'crane', 'name': 'Crawler crane on the southern mat', 'kind': 'crane',\n"
      "   'at': {'position': [0, 0, 0]}, 'hook_to_tip': 2, 'barricade': 6,\n"
      "   'boom': {'foot': [0, 2], 'length': 30, 'section': [1, 1], 'angle': [20, 82]},\n"
      "   'counterweight': {'tail_radius': 4.5, 'bottom': 1.3, 'top': 2.5, 'width': 3},\n"
      "   'capacity': {'configuration': 'invented', 'table': [[8, 9000], [14, 5000]]}}],\n"
      " 'programme': [{'lift': 'up', 'component': 'crate', 'hook_point': [0, 0, 2],\n"
      "   'seats': [{'on': 'slab', 'at': 'start'}],\n"
      "   'rigging': {'main': {'gear': 'crane', %s 'block': {'diameter': 0.6, 'height': 1.5}}},\n"
      "   'moves': [{'do': 'hoist', 'by': 2, 'seconds': 60},\n"
      "     {'do': 'hoist', 'by': 3, 'seconds': 60}]}]}\n",
      hoist);
  return check_plan (text, option, status);
}

static void
assert_has (const char *text, const char *part)
{
  if (strstr (text, part) == NULL)
    g_error ("no “%s” in:\n%s", part, text);
}

static guint
count (const char *text, const char *part)
{
  guint n = 0;
  for (const char *p = strstr (text, part); p != NULL; p = strstr (p + 1, part))
    n++;
  return n;
}

/* Hoisted by 5 m the hook is at 5 + 2 + 3 = 10 m, and the tip has to be at 12 m: the sum and its
 * parts. The radius is 10 m all the time. */
static void
test_in_hand (void)
{
  g_autofree char *out = check ("'hook_above': 3,", "", 1);
  assert_has (out, "Least in hand of Crawler crane on the southern mat in “up”:\n  Headroom: 12 m");
  assert_has (out, "rigging up to the hook 3 m");
  assert_has (out, "  Radius within its limits: ");
  assert_has (out, "  Boom angle within its limits: ");
  assert_has (out, "Checked: clearances, headroom, reach, tail swing");
}

/* The counterweight comes within 0.1 m of the shed: what it hits can be read in the table, and its
 * two moves have one paragraph. */
static void
test_names (void)
{
  g_autofree char *out = check ("'hook_above': 3,", "", 1);
  g_auto (GStrv) lines = g_strsplit (out, "\n", -1);
  guint n = 0;
  for (guint i = 0; lines[i] != NULL; i++)
    if (g_str_has_suffix (lines[i], "SHORT") && strstr (lines[i], "Counterw") != NULL)
      {
        assert_has (lines[i], "… – transformer-sh");
        n++;
      }
  g_assert_cmpuint (n, ==, 2);
}

/* Without hook_above rope and block have no place, and without masses nothing is known of forces:
 * the table has one line for each check and what it misses, and all of them with --all; none shows
 * a distance. Below it a cause stands once, with what is not known for it, by name. */
static void
test_causes (void)
{
  g_autofree char *out = check ("", "", 1);
  g_autofree char *all = check ("", " --all", 1);
  g_assert_cmpuint (count (out, "NOT KNOWN"), ==, 10);
  g_assert_cmpuint (count (all, "NOT KNOWN"), >, 20);
  g_assert_cmpuint (count (out, "(hook load), "), ==, 1);
  g_assert_cmpuint (count (out, " lines are not known for that: "), ==, 3);
  assert_has (out, "more lines that are not known for a cause named here");
  g_assert_null (strstr (all, "for a cause named here"));
  /* Once below the table, and once of the rope, among what is borne. */
  g_assert_cmpuint (count (out, "Not known: the plan leaves out hook_above"), ==, 2);
  g_auto (GStrv) lines = g_strsplit (all, "\n", -1);
  for (guint i = 0; lines[i] != NULL; i++)
    if (g_str_has_suffix (lines[i], "NOT KNOWN"))
      g_assert_null (strstr (lines[i], "−"));
}

#define RIG(mass)                                                                                  \
  "'hook_point': [0, 0, 1], 'rigging': {'main': {'gear': 'tower', 'hook_above': 2, 'block': "      \
  "{'diameter': 0.4, 'height': 0.5, 'mass': 50}, 'slings': [{'id': 's-west', 'to': [-0.4, 0, 1], " \
  "'diameter': "                                                                                   \
  "0.02, 'mass': " mass "}, {'id': 's-east', 'to': [0.4, 0, 1], 'diameter': 0.02, 'mass': 5}]}},"

/* A load that swings is held on by another sling: that is told once, by the key with both values,
 * not of each sling and each part of the gear that is not known for it, in a row that says what it
 * is about and has no number. */
static void
test_holder (void)
{
  g_autofree char *text = g_strdup (
      "{'format': 'trunnion-plan', 'version': 1, 'keep_clear': 0.3, 'loads': {'ramp': {'seconds': "
      "10, 'source': 'made up'}}, 'structures': [{'id': 'slab', 'solid': {'kind': 'box', 'size': "
      "[60, 60, 1]}, 'at': {'position': [0, 0, -1]}}], 'components': [{'id': 'crate', 'mass': 2000,"
      " 'cog': [0, 0, 0.5], 'solid': {'kind': 'box', 'size': [1, 1, 1]}, 'at': {'position': [0, 0, "
      "0]}}], 'gear': [{'id': 'tower', 'kind': 'gantry', 'at': {'position': [0, 0, 0]}, 'legs': "
      "[{'at': [8, 8], 'size': [0.5, 0.5], 'height': 30}], 'trolley': {'size': [1, 1, 1], "
      "'underside': 25}, 'window': {'x': [-9, 9], 'y': [-9, 9], 'hook': [0, 20]}, 'out_of_plumb': "
      "{'most_deg': 5, 'source': 'made up'}}], 'programme': [{'lift': 'one', 'component': "
      "'crate', " RIG (
          "5") " 'seats': [{'on': 'slab', 'at': 'start'}], 'moves': [{'do': 'hoist', 'by': 2, "
               "'seconds': 60}, {'do': 'travel', 'by': [2, 0], 'seconds': 60}]}, {'lift': 'two', "
               "'component': 'crate', " RIG (
                   "4") " 'moves': [{'do': 'hoist', 'by': 1, 'seconds': 60}]}]}");
  g_autofree char *out = check_plan (text, "", 1);
  assert_has (out, "The whole lift    what holds the load              –      –      –       –   "
                   "     –  NOT KNOWN");
  assert_has (out, "A cause in “two”:\n  Not known: an earlier lift leaves the load on its hook");
  assert_has (out, "lines are not known for that: what holds the load, tower (headroom), ");
  g_auto (GStrv) parts = g_strsplit (out, "\n  ", -1);
  g_autofree char *whole = g_strjoinv (" ", parts);
  g_assert_cmpuint (count (whole, "mass of s-west was 5 kg, and is 4 kg"), ==, 1);
  g_auto (GStrv) lines = g_strsplit (out, "\n", -1);
  for (guint i = 0; lines[i] != NULL; i++)
    if (g_str_has_prefix (lines[i], "two ") && strstr (lines[i], "s-") != NULL)
      g_assert_null (strstr (lines[i], "slab"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/cli/gear/in-hand", test_in_hand);
  g_test_add_func ("/cli/gear/names", test_names);
  g_test_add_func ("/cli/gear/causes", test_causes);
  g_test_add_func ("/cli/gear/holder", test_holder);
  return g_test_run ();
}
