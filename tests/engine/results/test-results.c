/* The results as files: keys in the order of the contract, numbers there are none of as null, the
 * same bytes for any number of threads, and a CSV that says the same as the JSON. That the files
 * keep to the schema is tested with the plans of tests/plans. */
#include "results.h"

#include "test-checks.h"
#include "test-lift.h"

#define SEATED_LIFT                                                                                \
  {                                                                                                \
    TEST_THREE (TEST_BOX ("slab", "[40, 40, 1]", "[0, 0, -1]"),                                    \
                TEST_BOX ("wall", "[1, 40, 20]", "[8, 0, 0]"),                                     \
                TEST_POST ("post", "1", "12", "[0, 9, 0]")),                                       \
        "{'kind': 'cylinder', 'diameter': 2, 'height': 4}", TEST_AT ("[0, 0, 0]"), "[0, 0, 4]",    \
        "'seats': [{'on': 'slab', 'at': 'both'}], 'tolerance': {'position': 0.01},",               \
        "{'do': 'hoist', 'by': 3, 'seconds': 6}, {'do': 'wait', 'seconds': 0},"                    \
        "{'do': 'slew', 'by': 90, 'centre': [0, 10], 'seconds': 60},"                              \
        "{'do': 'turn', 'by': 45, 'seconds': 10}, {'do': 'hoist', 'by': -3, 'seconds': 6}",        \
        0.3                                                                                        \
  }

static TestRun
run_jobs (guint jobs)
{
  const TrnCheckOptions options = { .jobs = jobs };
  TestLift lift = SEATED_LIFT;
  g_autofree char *text = test_lift_text (&lift);
  return test_run_with (text, &options);
}

static char *
json_of (const TestRun *run)
{
  gsize length = 0;
  char *text = trn_results_to_json (run->scene, run->findings, "test 1", &length);
  g_assert_cmpuint (length, ==, strlen (text));
  return text;
}

/* The slab is a seat, the wall is run into while slewing, the post is passed: all kinds of numbers.
 */
static void
test_same_bytes (void)
{
  const guint jobs[] = { 1, 2, 5 };
  g_autofree char *first = NULL, *first_csv = NULL;
  for (guint i = 0; i < G_N_ELEMENTS (jobs); i++)
    {
      gsize length = 0;
      TestRun run = run_jobs (jobs[i]);
      g_autofree char *text = json_of (&run);
      g_autofree char *csv = trn_results_to_csv (run.scene, run.findings, &length);
      test_run_clear (&run);
      if (i == 0)
        {
          first = g_steal_pointer (&text);
          first_csv = g_steal_pointer (&csv);
          continue;
        }
      g_assert_cmpstr (text, ==, first);
      g_assert_cmpstr (csv, ==, first_csv);
    }
  g_assert_nonnull (strstr (first, "\"contact\""));
  g_assert_nonnull (strstr (first, "\"seated\""));
}

static JsonObject *
parse (const char *text, JsonParser *parser)
{
  g_assert_true (json_parser_load_from_data (parser, text, -1, NULL));
  return json_node_get_object (json_parser_get_root (parser));
}

static void
assert_keys (JsonObject *object, const char *expected)
{
  g_autoptr (GList) keys = json_object_get_members (object);
  g_autoptr (GString) found = g_string_new ("");
  for (GList *key = keys; key != NULL; key = key->next)
    g_string_append_printf (found, "%s%s", found->len > 0 ? " " : "", (const char *)key->data);
  g_assert_cmpstr (found->str, ==, expected);
}

#define CLEARANCE_WITH(parts)                                                                      \
  "check move body obstacle lower upper certified_to required allowance " parts "verdict state"    \
  " time progress point_on_body point_on_obstacle"
#define CLEARANCE CLEARANCE_WITH ("")
#define CLEARANCE_LESS CLEARANCE_WITH ("allowance_parts ")

/* The keys of each kind of finding, in order. Per move and obstacle: move 0 slab (seated at first),
 * wall, post; 1 …; 2 …; 3 …; 4; then the swings of moves 2 and 3, two seats, the start. */
static void
test_keys (void)
{
  TestRun run = run_jobs (2);
  g_autofree char *text = json_of (&run);
  g_autoptr (JsonParser) parser = json_parser_new ();
  JsonObject *root = parse (text, parser);
  assert_keys (root, "format version program plan meshes certified_to checks_done not_checked"
                     " verdict lifts");
  assert_keys (json_object_get_object_member (root, "plan"), "title file sha256");
  JsonArray *lifts = json_object_get_array_member (root, "lifts");
  g_assert_cmpuint (json_array_get_length (lifts), ==, 1);
  JsonObject *lift = json_array_get_object_element (lifts, 0);
  assert_keys (lift, "lift verdict seconds findings");
  g_assert_cmpfloat (json_object_get_double_member (lift, "seconds"), ==, 82);

  JsonArray *findings = json_object_get_array_member (lift, "findings");
  g_assert_cmpuint (json_array_get_length (findings), ==, 5 * 3 + 2 * 3 + 2 + 1);
  assert_keys (json_array_get_object_element (findings, 0), CLEARANCE_LESS " seated");
  assert_keys (json_array_get_object_element (findings, 1), CLEARANCE_LESS);
  JsonObject *hit = json_array_get_object_element (findings, 2 * 3 + 1);
  g_assert_cmpstr (json_object_get_string_member (hit, "obstacle"), ==, "wall");
  assert_keys (hit, CLEARANCE_LESS " first_contact contacts");
  assert_keys (json_array_get_object_element (findings, 15),
               "check move body obstacle radius sector_distance circle_distance required verdict"
               " state");
  assert_keys (json_array_get_object_element (findings, 21),
               "check body obstacle end fit verdict state");
  assert_keys (json_array_get_object_element (findings, 23), "check body verdict state");
  /* The slab lies below the extent of the load while it turns. */
  JsonObject *swing = json_array_get_object_element (findings, 15);
  g_assert_true (json_object_get_null_member (swing, "sector_distance"));
  test_run_clear (&run);
}

/* Contact and inside give the keys that are there only then; a seated move has no upper bound. */
static void
test_contact_keys (void)
{
  TestLift lift = { TEST_TWO (TEST_BOX ("block", "[10, 10, 10]", "[0, 0, 0]"),
                              TEST_BOX ("slab", "[40, 40, 1]", "[0, 0, 2]")),
                    "{'kind': 'box', 'size': [1, 1, 1]}",
                    TEST_AT ("[0, 0, 3]"),
                    "[0, 0, 1]",
                    "'seats': [{'on': 'slab', 'at': 'start'}],",
                    "{'do': 'wait', 'seconds': 1}",
                    0.1 };
  g_autofree char *plan = test_lift_text (&lift);
  TestRun run = test_run (plan);
  g_autofree char *text = json_of (&run);
  g_autoptr (JsonParser) parser = json_parser_new ();
  JsonArray *lifts = json_object_get_array_member (parse (text, parser), "lifts");
  JsonArray *findings
      = json_object_get_array_member (json_array_get_object_element (lifts, 0), "findings");
  JsonObject *inside = json_array_get_object_element (findings, 0);
  assert_keys (inside, CLEARANCE " first_contact contacts inside cause");
  g_assert_true (json_object_get_boolean_member (inside, "inside"));
  JsonObject *seated = json_array_get_object_element (findings, 1);
  assert_keys (seated, CLEARANCE " seated");
  g_assert_true (json_object_get_null_member (seated, "upper"));
  g_assert_true (json_object_get_null_member (seated, "point_on_body"));
  test_run_clear (&run);
}

static JsonObject *
finding_at (const char *text, JsonParser *parser, guint from_end)
{
  JsonArray *lifts = json_object_get_array_member (parse (text, parser), "lifts");
  JsonArray *findings
      = json_object_get_array_member (json_array_get_object_element (lifts, 0), "findings");
  return json_array_get_object_element (findings, json_array_get_length (findings) - from_end);
}

/* What misses its place says by how much: a box 0.25 m above its seat in a lift that begins 2 m
 * off, then one 0.25 m deep in it. The seat's finding is the last but one, the start's the last. */
static void
test_off_keys (void)
{
  static const struct
  {
    const char *z, *keys;
  } cases[] = { { "0.25", "check body obstacle end fit verdict state gap distance" },
                { "-0.25", "check body obstacle end fit verdict state raise" } };
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *more
          = g_strdup_printf ("'seats': [{'on': 'slab', 'at': 'start'}],"
                             " 'start': {'position': [2, 0, %s], 'turn': [90, 0, 0]},",
                             cases[i].z);
      g_autofree char *at = g_strdup_printf ("{'position': [0, 0, %s]}", cases[i].z);
      TestLift lift = { TEST_BOX ("slab", "[40, 40, 1]", "[0, 0, -1]"),
                        "{'kind': 'box', 'size': [1, 1, 1]}",
                        at,
                        "[0, 0, 1]",
                        more,
                        "{'do': 'hoist', 'by': 3, 'seconds': 1}",
                        0.1 };
      g_autofree char *plan = test_lift_text (&lift);
      TestRun run = test_run (plan);
      g_autofree char *text = json_of (&run);
      g_autoptr (JsonParser) parser = json_parser_new ();
      assert_keys (finding_at (text, parser, 2), cases[i].keys);
      JsonObject *start = finding_at (text, parser, 1);
      assert_keys (start, "check body verdict state stands starts distance turned_deg");
      g_assert_cmpfloat (json_object_get_double_member (start, "distance"), ==, 2);
      g_assert_cmpfloat (json_object_get_double_member (start, "turned_deg"), ==, 90);
      JsonObject *starts = json_object_get_object_member (start, "starts");
      JsonArray *turn = json_object_get_array_member (starts, "turn");
      g_assert_cmpfloat (json_array_get_double_element (turn, 0), ==, 90);
      test_run_clear (&run);
    }
}

/* Tolerances that the default until_clear does not cover: what it has to be stands in both files.
 */
static void
test_seat_until_key (void)
{
  TestLift lift = { TEST_BOX ("slab", "[40, 40, 1]", "[0, 0, -1]"),
                    "{'kind': 'box', 'size': [1, 1, 1]}",
                    TEST_AT ("[0, 0, 0]"),
                    "[0, 0, 1]",
                    "'seats': [{'on': 'slab', 'at': 'start'}], 'tolerance': {'position': 0.05},",
                    "{'do': 'hoist', 'by': 3, 'seconds': 1}",
                    0.1 };
  g_autofree char *plan = test_lift_text (&lift);
  TestRun run = test_run (plan);
  g_autofree char *text = json_of (&run);
  g_autoptr (JsonParser) parser = json_parser_new ();
  JsonObject *finding = finding_at (text, parser, 3);
  assert_keys (finding, CLEARANCE_LESS " seated seat_until_clear");
  g_assert_cmpfloat (json_object_get_double_member (finding, "seat_until_clear"), >=, 0.16);
  test_run_clear (&run);
}

/* Rows of fields; the file has no quotes (asserted), so that commas and CR LF alone divide it. */
static GPtrArray *
read_csv (const char *text)
{
  GPtrArray *rows = g_ptr_array_new_with_free_func ((GDestroyNotify)g_strfreev);
  g_assert_true (g_str_has_suffix (text, "\r\n"));
  g_auto (GStrv) lines = g_strsplit (text, "\r\n", -1);
  for (char **line = lines; **line != '\0'; line++)
    {
      g_assert_null (strpbrk (*line, "\r\n"));
      g_ptr_array_add (rows, g_strsplit (*line, ",", -1));
    }
  return rows;
}

static const char *
field (const GPtrArray *rows, guint row, const char *name)
{
  char **names = g_ptr_array_index (rows, 0), **fields = g_ptr_array_index (rows, row);
  for (guint i = 0; names[i] != NULL; i++)
    if (strcmp (names[i], name) == 0)
      return fields[i];
  g_assert_not_reached ();
}

static void
assert_number (const char *text, double number)
{
  if (isnan (number))
    g_assert_cmpstr (text, ==, "");
  else
    g_assert_cmpfloat (g_ascii_strtod (text, NULL), ==, number);
}

static void
test_csv (void)
{
  TestRun run = run_jobs (2);
  gsize length = 0;
  g_autofree char *text = trn_results_to_csv (run.scene, run.findings, &length);
  g_assert_cmpuint (length, ==, strlen (text));
  g_autoptr (GPtrArray) rows = read_csv (text);
  const GArray *findings = run.findings->lifts[0].findings;
  g_assert_cmpuint (rows->len, ==, findings->len + 1);
  guint n_fields = g_strv_length (g_ptr_array_index (rows, 0));
  for (guint i = 0; i < findings->len; i++)
    {
      const TrnFinding *f = &g_array_index (findings, TrnFinding, i);
      g_assert_cmpuint (g_strv_length (g_ptr_array_index (rows, i + 1)), ==, n_fields);
      g_assert_cmpstr (field (rows, i + 1, "lift"), ==, "one");
      static const char *const kinds[] = { "hoist", "wait", "slew", "turn", "hoist" };
      assert_number (field (rows, i + 1, "move_index_from_0"), f->move >= 0 ? f->move : NAN);
      g_assert_cmpstr (field (rows, i + 1, "move_kind"), ==, f->move >= 0 ? kinds[f->move] : "");
      assert_number (field (rows, i + 1, "seat_until_clear_m"), f->seat_until_m);
      assert_number (field (rows, i + 1, "distance_m"), f->distance_m);
      g_assert_cmpstr (field (rows, i + 1, "check"), ==, trn_check_name (f->check));
      g_assert_cmpstr (field (rows, i + 1, "verdict"), ==, trn_verdict_name (f->verdict));
      g_assert_cmpstr (field (rows, i + 1, "state"), ==, trn_state_name (f->state));
      g_assert_cmpstr (field (rows, i + 1, "obstacle"), ==, f->obstacle != NULL ? f->obstacle : "");
      g_auto (GStrv) parts = g_strsplit (f->obstacle != NULL ? f->obstacle : "", "/", 2);
      const TrnStructure *structure
          = f->obstacle != NULL ? trn_plan_find_structure (run.scene->programme->plan, parts[0])
                                : NULL;
      const char *obstacle_name = structure != NULL ? structure->name : "";
      g_autofree char *quoted = g_strdup_printf ("\"%s\"", obstacle_name);
      g_assert_cmpstr (field (rows, i + 1, "obstacle_name"), ==, quoted);
      static const char *const moves[]
          = { "\"1 hoist\"", "\"2 wait\"", "\"3 slew\"", "\"4 turn\"", "\"5 hoist\"" };
      g_assert_true (g_str_has_prefix (field (rows, i + 1, "move_name"), "\""));
      if (f->move >= 0 && f->move != 1)
        g_assert_cmpstr (field (rows, i + 1, "move_name"), ==, moves[f->move]);
      gboolean has_margin = f->check == TRN_CHECK_CLEARANCE && f->state != TRN_STATE_SEATED;
      if (has_margin)
        assert_number (field (rows, i + 1, "margin_m"),
                       f->lower_m - f->allowance_m - f->required_m);
      assert_number (field (rows, i + 1, "upper_m"),
                     f->check == TRN_CHECK_CLEARANCE ? f->upper_m : NAN);
      assert_number (field (rows, i + 1, "time_s"), f->time_s);
      assert_number (field (rows, i + 1, "radius_m"), f->radius_m);
      assert_number (field (rows, i + 1, "obstacle_z_m"),
                     f->has_points ? f->point_on_obstacle.z : NAN);
      assert_number (field (rows, i + 1, "seated_to_s"), f->has_seated ? f->seated_s.hi : NAN);
      assert_number (field (rows, i + 1, "fit_m"), f->check == TRN_CHECK_SEAT ? f->fit_m : NAN);
    }
  test_run_clear (&run);
}

/* A name that a spreadsheet would carry out as a formula is made a text; numbers, negative ones
 * too, stay numbers. The wall is run into, so that its margin is negative. */
static void
test_csv_formula (void)
{
  static const char *const names[] = { "=1+2", "+1", "-1", "@sum" };
  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      TestLift lift = SEATED_LIFT;
      g_autofree char *text = test_lift_text (&lift);
      g_auto (GStrv) parts = g_strsplit (text, "'name': 'wall'", -1);
      g_assert_cmpuint (g_strv_length (parts), ==, 2);
      g_autofree char *named = g_strdup_printf ("%s'name': '%s'%s", parts[0], names[i], parts[1]);
      TestRun run = test_run (named);
      gsize length = 0;
      g_autofree char *csv = trn_results_to_csv (run.scene, run.findings, &length);
      g_autoptr (GPtrArray) rows = read_csv (csv);
      g_autofree char *quoted = g_strdup_printf ("\"'%s\"", names[i]);
      gboolean has_negative = FALSE;
      for (guint r = 1; r < rows->len; r++)
        {
          if (strcmp (field (rows, r, "obstacle"), "wall") == 0)
            g_assert_cmpstr (field (rows, r, "obstacle_name"), ==, quoted);
          has_negative |= field (rows, r, "margin_m")[0] == '-';
        }
      g_assert_true (has_negative);
      test_run_clear (&run);
    }
}

/* The words of the format, each once and for good. */
static void
test_names (void)
{
  const char *done[TRN_RESULTS_MOST_CHECKS + 1], *not_checked[TRN_RESULTS_MOST_CHECKS + 1];
  guint sums[2];
  for (guint i = 0; i < 2; i++)
    {
      guint checks = i == 0 ? TRN_CHECKS_ALWAYS : TRN_CHECKS_ALL;
      guint n_done = trn_results_checks_done (checks, done);
      guint n_not = trn_results_not_checked (checks, not_checked);
      sums[i] = n_done + n_not;
      g_assert_cmpstr (done[0], ==, "clearance");
      g_autoptr (GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);
      for (guint k = 0; k < n_done; k++)
        g_assert_true (g_hash_table_add (seen, (gpointer)done[k]));
      for (guint k = 0; k < n_not; k++)
        g_assert_true (g_hash_table_add (seen, (gpointer)not_checked[k]));
      for (int check = 0; check < TRN_N_CHECKS; check++)
        g_assert_cmpint (g_strv_contains (done, trn_check_name (check)), ==,
                         (checks & TRN_CHECK_BIT (check)) != 0);
    }
  g_assert_cmpuint (sums[0], ==, sums[1]);
  g_autoptr (GHashTable) states = g_hash_table_new (g_str_hash, g_str_equal);
  for (int state = 0; state < TRN_N_STATES; state++)
    g_assert_true (g_hash_table_add (states, (gpointer)trn_state_name (state)));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/results/same-bytes", test_same_bytes);
  g_test_add_func ("/results/csv-formula", test_csv_formula);
  g_test_add_func ("/results/keys", test_keys);
  g_test_add_func ("/results/contact-keys", test_contact_keys);
  g_test_add_func ("/results/off-keys", test_off_keys);
  g_test_add_func ("/results/seat-until-key", test_seat_until_key);
  g_test_add_func ("/results/csv", test_csv);
  g_test_add_func ("/results/names", test_names);
  return g_test_run ();
}
