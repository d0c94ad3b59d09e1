/* test-force-table.c: what the command line says of forces: the worst of each below the table
 * though all is met, values beside their limits in the table, what fails by most first, and whose
 * input is left out. The program is the one in TRUNNION_PROGRAM. */
#include "program.h"

#define SUPPORTS(pad)                                                                              \
  " 'supports': {'kind': 'outriggers', 'at': [[5, 5], [5, -5], [-5, 5], [-5, -5]], 'pad': [" pad   \
  ", " pad "]},"

/* The README's tank, its lid left out: of that nobody knows the volume. */
static const char tub[] = "v -2 -2 0\nv 2 -2 0\nv 2 2 0\nv -2 2 0\nv -2 -2 5\nv 2 -2 5\n"
                          "v 2 2 5\nv -2 2 5\nf 1 4 3 2\nf 1 2 6 5\nf 2 3 7 6\nf 3 4 8 7\n"
                          "f 4 1 5 8\n";

#define CLOSED "42000, 'solid': {'kind': 'cylinder', 'diameter': 4, 'height': 5}"
#define OPEN(mass) mass ", 'mesh': {'file': 'tub.obj', 'unit': 'm', 'up': 'z'}"

/* The plan @text, in which a " is a '. */
static char *
check_text (char *text, int status)
{
  char *folder = test_folder_new ();
  g_strdelimit (text, "'", '"');
  g_autofree char *plan = g_build_filename (folder, "a.trunnion", NULL);
  g_autofree char *mesh = g_build_filename (folder, "tub.obj", NULL);
  g_assert_true (g_file_set_contents (mesh, tub, -1, NULL));
  g_assert_true (g_file_set_contents (plan, text, -1, NULL));
  g_autoptr (GBytes) out = NULL;
  g_autofree char *err = NULL;
  int found = test_program_run (folder, "check a.trunnion", NULL, NULL, &out, &err);
  test_folder_free (folder);
  gsize length;
  const char *data = g_bytes_get_data (out, &length);
  char *said = g_strndup (data, length);
  g_test_message ("%s%s", said, err);
  g_assert_cmpint (found, ==, status);
  return said;
}

/* The README's tank and crane, without what stands beside its way: 42 t are hoisted out of the pit
 * and 14 m to the east. */
static char *
check_tank (const char *tank, const char *mass, const char *supports, const char *wll, int status)
{
  g_autofree char *text = g_strdup_printf (
      "{'format': 'trunnion-plan', 'version': 1, 'title': 'A tank', 'keep_clear': 0.3,\n"
      " 'loads': {'dynamic': {'rule': '0027-nd-11.2-onshore'},\n"
      "   'critical': {'rule': '29-cfr-1926-751'}},\n"
      " 'structures': [{'id': 'slab', 'at': {'position': [0, 0, -5]},\n"
      "   'solid': {'kind': 'box', 'size': [60, 60, 1]}},\n"
      "   {'id': 'yard', 'at': {'position': [0, -32, -0.5]},\n"
      "   'solid': {'kind': 'box', 'size': [60, 55, 0.5]}}],\n"
      " 'components': [{'id': 'tank', 'at': {'position': [0, 0, -4]}, 'mass': %s,\n"
      "   'cog': [0, 0, 2.4], 'cog_box': [0, 0, 0.2],\n"
      "   'points': {'lug': [0, 0, 5], 'west': [-1.5, 0, 5], 'east': [1.5, 0, 5]}}],\n"
      " 'gear': [{'id': 'crane', 'name': 'Mobile crane', 'kind': 'crane',\n"
      "   'at': {'position': [7, -14, 0], 'turn': [90, 0, 0]}, %s\n"
      "   'slewing': {'mass': 95000, 'out': -3.5}, %s\n"
      "   'ground': {'allowed_pressure': 250000, 'source': 'soil report'},\n"
      "   'boom': {'foot': [-1, 2], 'length': 30, 'section': [1, 1], 'angle': [30, 82],\n"
      "     'mass': 9000},\n"
      "   'counterweight': {'tail_radius': 4.5, 'bottom': 1.3, 'top': 3, 'width': 3},\n"
      "   'hook_to_tip': 2, 'barricade': 5.5,\n"
      "   'out_of_plumb': {'most_deg': 1, 'source': 'manual'}, 'capacity': {'configuration': "
      "'invented',\n"
      "     'table': [[10, 90000], [14, 70000], [18, 56000]]}}],\n"
      " 'programme': [{'lift': 'out', 'component': 'tank', 'hook_point': 'lug',\n"
      "   'seats': [{'on': 'slab', 'at': 'start'}],\n"
      "   'rigging': {'main': {'gear': 'crane', 'hook_above': 3,\n"
      "     'block': {'diameter': 0.6, 'height': 1.5, 'mass': 900},\n"
      "     'slings': [{'id': 'sling-west', 'to': 'west', 'diameter': 0.04, 'mass': 60%s},\n"
      "       {'id': 'sling-east', 'to': 'east', 'diameter': 0.04, 'mass': 60%s}]}},\n"
      "   'moves': [{'do': 'hoist', 'by': 5, 'seconds': 300},\n"
      "     {'do': 'travel', 'by': [14, 0], 'seconds': 300}]}]}\n",
      tank, mass, supports, wll, wll);
  return check_text (text, status);
}

static char *
check (const char *mass, const char *supports, const char *wll, int status)
{
  return check_tank (CLOSED, mass, supports, wll, status);
}

/* Where a line is broken does not matter. */
static void
assert_has (const char *text, const char *part)
{
  g_auto (GStrv) lines = g_strsplit (text, "\n  ", -1);
  g_autofree char *joined = g_strjoinv (" ", lines);
  if (strstr (joined, part) == NULL)
    g_error ("no “%s” in:\n%s", part, text);
}

/* 42 + 0.9 + 0.12 = 43.02 t, by the rule's 1.1 for up to 100 t: 47.322 t. The corners of the square
 * of 14 m are 15.653 m from the crane, where the table has 56 t: 84.6 %, beyond the rule's 75 %. */
static void
test_borne (void)
{
  g_autofree char *out = check ("'mass': 40000,", SUPPORTS ("2.2"), ", 'wll': 32000", 0);
  assert_has (out, "What is borne in “out”, the worst of each:");
  assert_has (out, "Hook load at rest: at most 43.02 t");
  assert_has (out, "Within the rated capacity: 84.6 %, 47.33 t of 56 t; a critical lift by "
                   "29-cfr-1926-751");
  assert_has (out, "(at the radius 15.653 m)");
  assert_has (out, "(sling: tension): Within its working load limit: ");
  assert_has (out, "Mobile crane (ground): Ground pressure within what is allowed: ");
  assert_has (out, "Of all lines that are met in metres the least margin is 0.009 m: 1. Hoist 5 m, "
                   "slab, in “out” (off\nseat).");
  assert_has (out, "whether parts of the load can shift, or whether its lift points");
  assert_has (out, "Sources of what “out” is judged by:");
  assert_has (out, "hook loads: sum of the masses in the plan; dynamic factor: 0027/ND Rev 11.2, "
                   "Table 5-1.");
  assert_has (out, "capacity: the plan; critical lifts: 29 CFR 1926.751.");
  assert_has (out, "ground pressure: soil report.");
}

/* Slings that may bear half of what they do, and pads of a quarter of the side: 1/16 of the area.
 * Pressure is beyond its limit by far more, so that it comes first; both show value and limit. */
static void
test_values (void)
{
  g_autofree char *out = check ("'mass': 40000,", SUPPORTS ("0.55"), ", 'wll': 16000", 1);
  const char *heading = strstr (out, "Value");
  g_assert_nonnull (heading);
  g_assert_nonnull (strstr (heading, "Limit"));
  const char *ground = strstr (heading, "Mobile crane (ground)");
  const char *sling = strstr (heading, "(sling: tension)");
  g_assert_nonnull (ground);
  g_assert_nonnull (sling);
  g_assert_true (ground < sling);
  g_autofree char *line = g_strndup (ground, strcspn (ground, "\n"));
  assert_has (line, "250 kPa");
  assert_has (line, "BEYOND");
  assert_has (out, "Take larger pads");
  assert_has (out, "Take stronger slings");
  assert_has (out, "; FAILS.");
}

/* Without the mass of the crane its ground pressure is not known, and it is named whose it is. */
static void
test_unknown (void)
{
  g_autofree char *out = check ("", SUPPORTS ("2.2"), ", 'wll': 32000", 1);
  assert_has (out, "Mobile crane (ground): Not known: the plan leaves out mass of gear crane");
  g_autofree char *wll = check ("'mass': 40000,", SUPPORTS ("2.2"), "", 1);
  assert_has (wll, "(sling: tension): Not known: the plan leaves out wll of sling sling-");
}

/* Open, its box is 4 m by 4 m by 5 m: 42 kg, as 42 t are in a plan in tonnes, are less than the
 * air in it (96 kg), until somebody is named who says so; for so small a
 * load the rule has no factor then. 42 t are no question. */
static void
test_open (void)
{
  g_autofree char *tonnes
      = check_tank (OPEN ("42"), "'mass': 40000,", SUPPORTS ("2.2"), ", 'wll': 32000", 1);
  assert_has (tonnes, "(hook load): Not known: the load would be lighter than the air in its");
  g_autofree char *said = check_tank (OPEN ("42, 'mass_source': 'weighed'"), "'mass': 40000,",
                                      SUPPORTS ("2.2"), ", 'wll': 32000", 1);
  assert_has (said, "Hook load at rest: at most 1.062 t");
  g_autofree char *tank
      = check_tank (OPEN ("42000"), "'mass': 40000,", SUPPORTS ("2.2"), ", 'wll': 32000", 0);
  assert_has (tank, "Hook load at rest: at most 43.02 t");
}

/* Two hooks hold 10 t at both ends alike, the tail 0.6 m below the centre of gravity, and
 * tilted by 10° 0.6 cos 10° + 2 sin 10° m: of these moves the worst alone is told, with what is
 * left on the main hook. */
static void
test_tail_below (void)
{
  g_autofree char *text = g_strdup (
      "{'format': 'trunnion-plan', 'version': 1, 'title': 'A bar', 'keep_clear': 0.3,\n"
      " 'structures': [{'id': 'slab', 'at': {'position': [0, 0, -9]},\n"
      "   'solid': {'kind': 'box', 'size': [60, 60, 1]}}],\n"
      " 'components': [{'id': 'bar', 'at': {'position': [0, 0, 0]}, 'mass': 10000,\n"
      "   'cog': [0, 0, 1], 'points': {'head': [2, 0, 2], 'foot': [-2, 0, 0.4]},\n"
      "   'solid': {'kind': 'box', 'size': [6, 1, 2]}}],\n"
      " 'programme': [{'lift': 'up', 'component': 'bar', 'hook_point': 'head',\n"
      "   'rigging': {'main': {'hook_above': 3}, 'tail': {'point': 'foot', 'hook_above': 3}},\n"
      "   'moves': [{'do': 'hoist', 'by': 5, 'seconds': 300},\n"
      "     {'do': 'tilt', 'by': -10, 'axis': 90, 'guide': 'head-plumb', 'head': 'head',\n"
      "      'tail': 'foot', 'seconds': 60}]}]}\n");
  g_autofree char *out = check_text (text, 1);
  const char *note = strstr (out, "Look at: in move 2 of up at 0:06:00, ");
  g_assert_nonnull (note);
  g_autofree char *line = g_strdelimit (g_strdup (note), "\n", ' ');
  assert_has (line,
              "tail height: The tail point comes 0.938 m below the centre of gravity: it can "
              "come to carry all of the load; in this move the main hook keeps at least 5 t.");
  g_assert_null (strstr (out, "Look at: in move 1 of up"));
}

/* A crane with a limit of wind in a plan without wind: the wind is not known, by name. */
static void
test_wind_left_out (void)
{
  g_autofree char *out
      = check ("'mass': 40000, 'wind_limit': 9,", SUPPORTS ("2.2"), ", 'wll': 32000", 1);
  assert_has (out, "Mobile crane (wind: speed): Not known: the plan leaves out wind");
  g_assert_null (strstr (out, "Not checked: wind"));
  g_autofree char *without = check ("'mass': 40000,", SUPPORTS ("2.2"), ", 'wll': 32000", 0);
  assert_has (without, "Not checked: wind");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/cli/force/borne", test_borne);
  g_test_add_func ("/cli/force/values", test_values);
  g_test_add_func ("/cli/force/unknown", test_unknown);
  g_test_add_func ("/cli/force/open", test_open);
  g_test_add_func ("/cli/force/tail-below", test_tail_below);
  g_test_add_func ("/cli/force/wind-left-out", test_wind_left_out);
  return g_test_run ();
}
