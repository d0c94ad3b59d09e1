/* A load that a lift left on its hooks is held on by the next as it was left, or what holds it is
 * not known; gear beside what was left; what is set down on what hangs. */
#include "test-gear.h"

/* ---- from one lift to the next ---- */

#define GANTRY(id)                                                                                 \
  "{'id': '" id "', 'kind': 'gantry', 'at': {'position': [0, 0, 0]}, 'legs': [{'at': [40, 40],"    \
  " 'size': [0.5, 0.5], 'height': 50}], 'trolley': {'size': [1, 1, 1], 'underside': 40}}"
#define SLING(to, more) "'slings': [{'id': 's', 'to': " to ", 'diameter': 0.02" more "}]"
#define MAIN_BY(gear, above, slings, more)                                                         \
  "'main': {'gear': '" gear "', 'hook_above': " above ", " slings more "}"
#define MAIN MAIN_BY ("one", "2", SLING ("[-1, 0, 4]", ""), "")
#define TAIL_BY(gear, point, above, more)                                                          \
  "'tail': {'gear': '" gear "', 'point': " point ", 'hook_above': " above more "}"
#define TAIL TAIL_BY ("two", "[1, 0, 4]", "2", "")
#define BEAM                                                                                       \
  "'main': {'gear': 'one', 'hook_above': 2, 'beam': {'id': 'bar', 'length': 1.6, 'width': 0.2,"    \
  " 'depth': 0.3, 'below_hook': 1, 'between': [[-0.8, 0, 4], [0.8, 0, 4]]}, 'slings': [{'id':"     \
  " 's', 'to': [-1, 0, 4], 'diameter': 0.02}]}"
#define GO(id, to)                                                                                 \
  "{'change': 'r', 'remove': '" id "'}, {'change': 'a', 'add': '" id "', 'at': {'position': " to   \
  "}},"

/* With all that rigging can say. */
#define S_1 "{'id': 's', 'to': [-1, 0, 4], 'diameter': 0.02, 'mass': 5, 'wll': 900" SHACKLE "}"
#define S_2 "{'id': 't', 'to': [-1, 1, 4], 'diameter': 0.03, 'mass': 9, 'wll': 800}"
#define S_AS_T "{'id': 's', 'to': [-1, 1, 4], 'diameter': 0.03, 'mass': 9, 'wll': 800}"
#define SHACKLE ", 'shackle': {'id': 'b', 'mass': 3, 'wll': 700, 'pin': [0, 1, 0]}"
#define WITH(above, slings, more) MAIN_BY ("one", above, "'slings': [" slings "]", more)
#define BLOCK(diameter, height, mass)                                                              \
  ", 'block': {'diameter': " diameter ", 'height': " height ", 'mass': " mass "}"
#define FULL WITH ("2", S_1 "," S_2, BLOCK ("0.4", "0.5", "700"))
#define FIRST_AS(sling) WITH ("2", sling "," S_2, BLOCK ("0.4", "0.5", "700"))
#define FIRST(diameter, mass, wll, shackle)                                                        \
  FIRST_AS ("{'id': 's', 'to': [-1, 0, 4], 'diameter': " diameter ", 'mass': " mass                \
            ", 'wll': " wll shackle "}")
#define SHACKLE_OF(mass, wll, pin)                                                                 \
  ", 'shackle': {'id': 'b', 'mass': " mass ", 'wll': " wll ", 'pin': " pin "}"
#define BAR(width, depth, mass, wll)                                                               \
  "'main': {'gear': 'one', 'hook_above': 2, 'beam': {'id': 'bar', 'length': 1.6, 'width': " width  \
  ", 'depth': " depth ", 'below_hook': 1, 'mass': " mass ", 'wll': " wll                           \
  ", 'between': [[-0.8, 0, 4], [0.8, 0, 4]]}, 'slings': [{'id': 's', 'to': [-1, 0, 4],"            \
  " 'diameter': 0.02}]}"
#define LONG(id, to, length)                                                                       \
  "{'id': '" id "', 'to': " to ", 'diameter': 0.02, 'length': " length "}"
#define BY_LENGTH(slings) "'main': {'gear': 'one', 'slings': [" slings "]}"
#define PLAIN(role, gear, point) "'" role "': {'gear': '" gear "', " point "'hook_above': 2}"
#define ROLES(gear_main, gear_tail, tail)                                                          \
  PLAIN ("main", gear_main, "") "," PLAIN ("tail", gear_tail, "'point': " tail ", ")

typedef struct
{
  const char *name;
  const char *first, *between, *second; /* rigging of both lifts, changes in between */
  const char *hook;                     /* of the second; NULL: the same */
  gboolean is_held_on;
} Row;

/* What is said to differ. */
typedef struct
{
  const char *row, *key, *of, *was, *is; /* texts as JSON has them, of numbers to 7 digits */
} Differs;

static const Differs differs[] = {
  { "other-gear", "gear", NULL, "one", "two" },
  { "gear-moved", "at/position", "one", "0 0 0", "0.01 0 0" },
  { "hook-higher", "hook_above", "one", "2", "2.01" },
  { "other-hook-point", "point", "one", "-1 0 4", "-0.9 0 4" },
  { "other-sling-point", "to", "s", "-1 0 4", "-0.9 0 4" },
  { "other-sling", "length", "s", "nan", "2" },
  { "no-sling", "slings", "one", "1", "0" },
  { "beam-comes", "beam", "one", "0", "1" },
  { "none-named", "rigging", NULL, "", "" },
  { "main-let-go-between", "moves", "one", "", "" },
  { "main-lets-go", "moves", "one", "", "" },
  { "tail-moved", "at/position", "two", "0 0 0", "0 0.01 0" },
  { "tail-higher", "hook_above", "two", "2", "3" },
  { "no-block", "block", "one", "1", "0" },
  { "lighter-block", "block/mass", "one", "700", "50" },
  { "lighter-sling", "mass", "s", "5", "4" },
  { "one-sling-twice", "to", "u", "-1 1 4", "-1 0 4" },
  { "one-as-the-other", "to", "s", "-1 0 4", "-1 1 4" },
  { "no-shackle", "shackle", "s", "1", "0" },
  { "lighter-shackle", "shackle/mass", "s", "3", "2" },
  { "shackle-turned", "shackle/pin", "s", "0 1 0", "1 0 0" },
  { "wider-beam", "width", "bar", "0.2", "0.25" },
  { "stronger-beam", "wll", "bar", "5000", "6000" },
  { "hook-by-another", "to", "t", "-1 0.5 4", "-1 -1 4" },
  { "other-tail", "gear", NULL, "two", "three" },
};

static void
assert_value (const TrnFinding *f, const char *name, const double *values, const char *expected)
{
  g_autoptr (GString) text = g_string_new (name);
  for (guint i = 0; i < f->n_values; i++)
    g_string_append_printf (text, "%s%.7g", i > 0 ? " " : "", values[i]);
  g_assert_cmpstr (text->str, ==, expected);
}

static void
assert_differs (const char *row, const TrnFinding *f)
{
  g_assert_nonnull (f->key);
  for (guint i = 0; i < G_N_ELEMENTS (differs); i++)
    if (g_str_equal (differs[i].row, row))
      {
        g_assert_cmpstr (f->key, ==, differs[i].key);
        g_assert_cmpstr (f->key_of, ==, differs[i].of);
        assert_value (f, f->was, f->was_values, differs[i].was);
        assert_value (f, f->is, f->is_values, differs[i].is);
      }
}

static const Row rows[] = {
  { "same", MAIN, "", MAIN, NULL, TRUE },
  { "same-two", MAIN "," TAIL, "", MAIN "," TAIL, NULL, TRUE },
  { "gear-put-back", MAIN, GO ("one", "[0, 0, 0]"), MAIN, NULL, TRUE },
  { "another-goes", MAIN, GO ("two", "[3, 0, 0]"), MAIN, NULL, TRUE },
  { "tail-comes", MAIN, "", MAIN "," TAIL, NULL, TRUE },
  { "tail-lets-go", MAIN "," TAIL, "", MAIN, NULL, TRUE },
  { "tail-let-go-before", MAIN "," TAIL_BY ("two", "[1, 0, 4]", "2", ", 'moves': [0, 0]"), "", MAIN,
    NULL, TRUE },
  { "other-gear", MAIN, "", MAIN_BY ("two", "2", SLING ("[-1, 0, 4]", ""), ""), NULL, FALSE },
  { "gear-moved", MAIN, GO ("one", "[0.01, 0, 0]"), MAIN, NULL, FALSE },
  { "hook-higher", MAIN, "", MAIN_BY ("one", "2.01", SLING ("[-1, 0, 4]", ""), ""), NULL, FALSE },
  { "other-hook-point", MAIN, "", MAIN, "[-0.9, 0, 4]", FALSE },
  { "other-sling-point", MAIN, "", MAIN_BY ("one", "2", SLING ("[-0.9, 0, 4]", ""), ""), NULL,
    FALSE },
  { "other-sling", MAIN, "", MAIN_BY ("one", "2", SLING ("[-1, 0, 4]", ", 'length': 2"), ""), NULL,
    FALSE },
  { "no-sling", MAIN, "", MAIN_BY ("one", "2", "'slings': []", ""), NULL, FALSE },
  { "beam-comes", MAIN, "", BEAM, NULL, FALSE },
  { "same-beam", BEAM, "", BEAM, NULL, TRUE },
  { "none-named", MAIN, "", "", NULL, FALSE },
  { "main-let-go-between", MAIN, "",
    MAIN_BY ("one", "2", SLING ("[-1, 0, 4]", ""), ", 'moves': [1, 1]") "," TAIL, NULL, FALSE },
  { "main-let-go-before",
    MAIN_BY ("one", "2", SLING ("[-1, 0, 4]", ""), ", 'moves': [0, 0]") "," TAIL, "", MAIN, NULL,
    FALSE },
  { "main-lets-go", MAIN "," TAIL, "", TAIL, NULL, FALSE },
  { "tail-holds-on", TAIL, "", TAIL, NULL, TRUE },
  { "tail-moved", MAIN "," TAIL, GO ("two", "[0, 0.01, 0]"), MAIN "," TAIL, NULL, FALSE },
  { "other-tail-point", MAIN "," TAIL, "", MAIN "," TAIL_BY ("two", "[0.9, 0, 4]", "2", ""), NULL,
    FALSE },
  { "tail-higher", MAIN "," TAIL, "", MAIN "," TAIL_BY ("two", "[1, 0, 4]", "3", ""), NULL, FALSE },
  { "full", FULL, "", FULL, NULL, TRUE },
  { "slings-in-other-order", FULL, "", WITH ("2", S_2 "," S_1, BLOCK ("0.4", "0.5", "700")), NULL,
    TRUE },
  { "one-sling-twice", FULL, "",
    WITH ("2",
          S_1 ","
              "{'id': 'u', 'to': [-1, 0, 4], 'diameter': 0.02, 'mass': 5, 'wll': 900"
              ", 'shackle': {'id': 'c', 'mass': 3, 'wll': 700, 'pin': [0, 1, 0]}}",
          BLOCK ("0.4", "0.5", "700")),
    NULL, FALSE },
  { "one-as-the-other", FULL, "", WITH ("2", S_AS_T "," S_2, BLOCK ("0.4", "0.5", "700")), NULL,
    FALSE },
  { "no-block", FULL, "", WITH ("2", S_1 "," S_2, ""), NULL, FALSE },
  { "lighter-block", FULL, "", WITH ("2", S_1 "," S_2, BLOCK ("0.4", "0.5", "50")), NULL, FALSE },
  { "wider-block", FULL, "", WITH ("2", S_1 "," S_2, BLOCK ("0.5", "0.5", "700")), NULL, FALSE },
  { "higher-block", FULL, "", WITH ("2", S_1 "," S_2, BLOCK ("0.4", "0.6", "700")), NULL, FALSE },
  { "lighter-sling", FULL, "", FIRST ("0.02", "4", "900", SHACKLE), NULL, FALSE },
  { "stronger-sling", FULL, "", FIRST ("0.02", "5", "901", SHACKLE), NULL, FALSE },
  { "no-shackle", FULL, "", FIRST ("0.02", "5", "900", ""), NULL, FALSE },
  { "lighter-shackle", FULL, "", FIRST ("0.02", "5", "900", SHACKLE_OF ("2", "700", "[0, 1, 0]")),
    NULL, FALSE },
  { "stronger-shackle", FULL, "", FIRST ("0.02", "5", "900", SHACKLE_OF ("3", "701", "[0, 1, 0]")),
    NULL, FALSE },
  { "shackle-turned", FULL, "", FIRST ("0.02", "5", "900", SHACKLE_OF ("3", "700", "[1, 0, 0]")),
    NULL, FALSE },
  { "full-beam", BAR ("0.2", "0.3", "90", "5000"), "", BAR ("0.2", "0.3", "90", "5000"), NULL,
    TRUE },
  { "wider-beam", BAR ("0.2", "0.3", "90", "5000"), "", BAR ("0.25", "0.3", "90", "5000"), NULL,
    FALSE },
  { "deeper-beam", BAR ("0.2", "0.3", "90", "5000"), "", BAR ("0.2", "0.35", "90", "5000"), NULL,
    FALSE },
  { "lighter-beam", BAR ("0.2", "0.3", "90", "5000"), "", BAR ("0.2", "0.3", "80", "5000"), NULL,
    FALSE },
  { "stronger-beam", BAR ("0.2", "0.3", "90", "5000"), "", BAR ("0.2", "0.3", "90", "6000"), NULL,
    FALSE },
  { "same-lengths", BY_LENGTH (LONG ("s", "[-1, 0.5, 4]", "2") "," LONG ("t", "[-1, -1, 4]", "3")),
    "", BY_LENGTH (LONG ("s", "[-1, 0.5, 4]", "2") "," LONG ("t", "[-1, -1, 4]", "3")), NULL,
    TRUE },
  { "hook-by-another",
    BY_LENGTH (LONG ("s", "[-1, 0.5, 4]", "2") "," LONG ("t", "[-1, -1, 4]", "3")), "",
    BY_LENGTH (LONG ("t", "[-1, -1, 4]", "3") "," LONG ("s", "[-1, 0.5, 4]", "2")), NULL, FALSE },
  { "roles-changed", ROLES ("one", "two", "[1, 0, 4]"), "", ROLES ("two", "one", "[-1, 0, 4]"),
    "[1, 0, 4]", TRUE },
  { "points-changed", ROLES ("one", "two", "[1, 0, 4]"), "", ROLES ("one", "two", "[-1, 0, 4]"),
    "[1, 0, 4]", FALSE },
  { "gear-changed", ROLES ("one", "two", "[1, 0, 4]"), "", ROLES ("two", "one", "[1, 0, 4]"), NULL,
    FALSE },
  { "other-tail", MAIN "," TAIL, "", MAIN "," TAIL_BY ("three", "[1, 0, 4]", "2", ""), NULL,
    FALSE },
};

static TestRun
run_row (const Row *row)
{
  const char *hook = row->hook != NULL ? row->hook : "[-1, 0, 4]";
  g_autofree char *text = g_strdup_printf (
      "{'format': 'trunnion-plan', 'version': 1, 'keep_clear': 0.3, 'structures': [{'id': 'deck',"
      " 'solid': {'kind': 'box', 'size': [4, 4, 1]}, 'at': {'position': [0, 0, -1]}}], 'gear': "
      "[" GANTRY ("one") "," GANTRY ("two") "," GANTRY (
          "three") "], 'components': [{'id': 'unit',"
                   " 'solid': {'kind': 'box', 'size': [2, 2, 4]}, 'at': {'position': [0, 0, 0]}}], "
                   "'programme':"
                   " [{'lift': 'first', 'component': 'unit', 'hook_point': [-1, 0, 4], 'rigging': "
                   "{%s}, 'moves':"
                   " [{'do': 'hoist', 'by': 2, 'seconds': 10}, {'do': 'wait', 'seconds': 10}]}, %s "
                   "{'lift':"
                   " 'second', 'component': 'unit', 'hook_point': %s, 'rigging': {%s}, 'moves': "
                   "[{'do': 'hoist',"
                   " 'by': 1, 'seconds': 10}, {'do': 'wait', 'seconds': 10}]}]}",
      row->first, row->between, hook, row->second);
  return test_run (text);
}

static void
test_held_on (gconstpointer data)
{
  const Row *row = data;
  TestRun run = run_row (row);
  const GArray *list = run.findings->lifts[1].findings;
  guint n = 0;
  for (guint i = 0; i < list->len; i++)
    {
      const TrnFinding *f = &g_array_index (list, TrnFinding, i);
      if (f->check != TRN_CHECK_RIGGING || g_strcmp0 (f->missing, TRN_MISSING_HOLDER) != 0)
        continue;
      g_assert_cmpint (f->verdict, ==, TRN_VERDICT_UNKNOWN);
      /* Beside the load itself there is the block. */
      if (g_strcmp0 (f->body, "load") != 0)
        continue;
      n++;
      assert_differs (row->name, f);
    }
  g_assert_cmpuint (n, ==, row->is_held_on ? 0 : 1);
  if (!row->is_held_on)
    g_assert_cmpint (run.findings->lifts[1].verdict, !=, TRN_VERDICT_PASS);
  test_run_clear (&run);
}

/* What is said to differ is of a row, or nothing asks for it. */
static void
test_told (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (differs); i++)
    {
      guint n = 0;
      for (guint k = 0; k < G_N_ELEMENTS (rows); k++)
        n += g_str_equal (rows[k].name, differs[i].row) && !rows[k].is_held_on;
      g_assert_cmpuint (n, ==, 1);
    }
}

/* ---- beside it, on it, in its place ---- */

/* A box 2 m wide and 4 m high is hoisted from @x = 0, carried 10 m to the east and, where @down,
 * set down on a deck there; a cube is set on it, or goes by, after @between. */
typedef struct
{
  const char *gear, *lift, *between, *cube;
  gboolean is_down;
} Site;

static TestRun
run_site (const Site *site)
{
  g_autofree char *text = g_strdup_printf (
      "{'format': 'trunnion-plan', 'version': 1, 'keep_clear': 0.1, 'structures': [{'id': 'deck',"
      " 'solid': {'kind': 'box', 'size': [4, 4, 1]}, 'at': {'position': [10, 0, -1]}}], 'gear':"
      " [%s], 'components': [{'id': 'unit', 'solid': {'kind': 'box', 'size': [2, 2, 4]}, 'cog': [0,"
      " 0, 2], 'at': {'position': [0, 0, 0]}}, {'id': 'other', 'solid': {'kind': 'box', 'size': [2,"
      " 2, 4]}, 'cog': [0, 0, 2], 'at': null}, {'id': 'cube', 'solid': {'kind': 'box', 'size': [1,"
      " 1, 1]}, 'cog': [0, 0, 0.5], 'at': {'position': [10, -9, %s]}}, {'id': 'ball', 'solid':"
      " {'kind': 'box', 'size': [0.5, 0.5, 0.5]}, 'at': {'position': [12, -9, 8]}}], 'programme':"
      " [{'lift': 'first', 'component': 'unit', 'hook_point': [0, 0, 5], %s %s 'moves': [{'do':"
      " 'hoist', 'by': 2, 'seconds': 10}, {'do': 'travel', 'by': [10, 0], 'seconds': 10}%s]}, %s %s"
      " {'lift': 'last', 'component': 'ball', 'hook_point': [0, 0, 1], 'moves': [{'do': 'travel',"
      " 'by': [0, 18], 'seconds': 20}]}]}",
      site->gear != NULL ? site->gear : "", site->is_down ? "5" : "7", site->lift,
      site->is_down ? "'seats': [{'on': 'deck', 'at': 'end'}]," : "",
      site->is_down ? ", {'do': 'hoist', 'by': -2, 'seconds': 10}" : "",
      site->between != NULL ? site->between : "", site->cube != NULL ? site->cube : "");
  return test_run (text);
}

#define FRAME(x)                                                                                   \
  "{'id': 'frame', 'kind': 'gantry', 'at': null, 'legs': [{'at': [" x ", 0], 'size': [0.5, 0.5],"  \
  " 'height': 20}]}"
#define ADD_FRAME "{'change': 'f', 'add': 'frame', 'at': {'position': [0, 0, 0]}},"

/* Off by 50 mm and no more; a leg 60 mm from it stands, one 40 mm from it may not. Hung free, what
 * hangs with its centre of gravity anywhere in its box may be farther off. */
static void
test_beside (void)
{
  static const char tolerance[] = "'tolerance': {'position': 0.05},";
  for (guint i = 0; i < 3; i++)
    {
      const Site site = { .gear = i == 0 ? FRAME ("11.31") : FRAME ("11.29"),
                          .lift = i == 2 ? "" : tolerance,
                          .between = ADD_FRAME,
                          .is_down = TRUE };
      TestRun run = run_site (&site);
      const TrnFinding *f
          = test_finding_of (&run, TRN_CHECK_STANDING, 1, -1, "frame", "unit", NULL);
      g_assert_cmpint (f->verdict, ==, i == 1 ? TRN_VERDICT_UNKNOWN : TRN_VERDICT_PASS);
      g_assert_cmpstr (f->missing, ==, i == 1 ? TRN_MISSING_LEFT : NULL);
      test_run_clear (&run);
    }
}

/* Beside what hangs where another took its place nobody knows anything. */
static void
test_beside_other (void)
{
  const Site site
      = { .gear = FRAME ("14"),
          .lift = "",
          .between = "{'change': 'x', 'swap': {'component': 'unit', 'with': 'other'}}," ADD_FRAME };
  TestRun run = run_site (&site);
  TEST_UNKNOWN (test_finding_of (&run, TRN_CHECK_STANDING, 1, -1, "frame", "other", NULL),
                TRN_MISSING_ATTITUDE_BEFORE);
  test_run_clear (&run);
}

#define CUBE_ON(what)                                                                              \
  "{'lift': 'cube', 'component': 'cube', 'hook_point': [0, 0, 1], 'seats': [{'on': '" what         \
  "', 'at': 'end', 'until_clear': 0.3}], 'moves': [{'do': 'travel', 'by': [0, 9], 'seconds': 9},"  \
  " {'do': 'hoist', 'by': -1, 'seconds': 9}]},"

/* What is set down on what hangs stands nobody knows how, for the next lift as well; on what was
 * set down it stands. */
static void
test_on_hung (void)
{
  for (guint i = 0; i < 2; i++)
    {
      const Site site = { .lift = "", .cube = CUBE_ON ("unit"), .is_down = i == 1 };
      TestRun run = run_site (&site);
      const TrnFinding *f = test_finding_of (&run, TRN_CHECK_CLEARANCE, 2, 0, "load", "cube", NULL);
      if (i == 0)
        TEST_UNKNOWN (f, TRN_MISSING_ATTITUDE_BEFORE);
      else
        g_assert_cmpint (f->verdict, ==, TRN_VERDICT_PASS);
      test_run_clear (&run);
    }
}

#define REMOVE "{'change': 'x', 'remove': 'unit'},"
#define RIG                                                                                        \
  "'rigging': {'main': {'hook_above': 1, 'slings': [{'id': 's', 'to': [0, 0, 4], 'diameter':"      \
  " 0.02}]}},"

static guint
count_held (const TestRun *run, guint lift, const char *body)
{
  const GArray *list = run->findings->lifts[lift].findings;
  guint n = 0;
  for (guint i = 0; i < list->len; i++)
    {
      const TrnFinding *f = &g_array_index (list, TrnFinding, i);
      n += f->check == TRN_CHECK_RIGGING && f->verdict == TRN_VERDICT_UNKNOWN
           && g_strcmp0 (f->body, body) == 0 && g_strcmp0 (f->missing, TRN_MISSING_HOLDER) == 0;
    }
  return n;
}

/* What hung when it was removed comes in the place of what stands, or hangs, itself: where it is
 * nobody knows, and what held it holds it on; where it was set down before, it stands there. */
static void
test_swapped_in (void)
{
  for (guint i = 0; i < 2; i++)
    {
      const gboolean is_down = i == 1;
      const Site site
          = { .lift = RIG,
              .between = REMOVE "{'change': 'a', 'add': 'other', 'at': {'position': [10, 0, 0]}},"
                                "{'change': 'y', 'swap': {'component': 'other', 'with': 'unit'}},",
              .is_down = is_down };
      TestRun run = run_site (&site);
      const TrnFinding *f = test_finding_of (&run, TRN_CHECK_CLEARANCE, 1, 0, "load", "unit", NULL);
      if (is_down)
        g_assert_cmpint (f->verdict, ==, TRN_VERDICT_PASS);
      else
        TEST_UNKNOWN (f, TRN_MISSING_ATTITUDE_BEFORE);
      g_assert_cmpuint (count_held (&run, 1, "unit"), ==, is_down ? 0 : 1);
      test_run_clear (&run);
    }
}

/* What is removed while it hangs does not free what holds it, nor does what took its place there.
 */
static void
test_removed_held (void)
{
  static const struct
  {
    const char *lift, *between;
    gboolean is_down;
    guint of_unit, of_other;
  } cases[] = {
    { RIG, REMOVE, FALSE, 1, 0 },
    { RIG, REMOVE, TRUE, 0, 0 },
    { "", REMOVE, FALSE, 0, 0 },
    { RIG,
      "{'change': 'x', 'swap': {'component': 'unit', 'with': 'other'}}, {'change': 'y', 'remove':"
      " 'other'},",
      FALSE, 0, 1 },
    { RIG,
      "{'change': 'x', 'swap': {'component': 'unit', 'with': 'other'}}, {'change': 'y', 'remove':"
      " 'other'}, {'change': 'z', 'add': 'unit', 'at': {'position': [10, 30, 0]}},",
      FALSE, 0, 1 },
  };
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      const Site site
          = { .lift = cases[i].lift, .between = cases[i].between, .is_down = cases[i].is_down };
      TestRun run = run_site (&site);
      g_assert_cmpuint (count_held (&run, 1, "unit"), ==, cases[i].of_unit);
      g_assert_cmpuint (count_held (&run, 1, "other"), ==, cases[i].of_other);
      test_run_clear (&run);
    }
}

/* Nothing is known of the gear that holds it where it lifts another. */
static void
test_gear_of_removed (void)
{
  for (guint i = 0; i < 2; i++)
    {
      g_autofree char *text = g_strdup_printf (
          "{'format': 'trunnion-plan', 'version': 1, 'keep_clear': 0.1, 'structures': [{'id':"
          " 'deck', 'solid': {'kind': 'box', 'size': [4, 4, 1]}, 'at': {'position': [0, 0, -1]}}],"
          " 'gear': [" GANTRY (
              "one") "], 'components': [{'id': 'unit', 'solid': {'kind': 'box',"
                     " 'size': [2, 2, 4]}, 'at': {'position': [0, 0, 0]}}, {'id': 'cube', 'solid': "
                     "{'kind':"
                     " 'box', 'size': [1, 1, 1]}, 'at': {'position': [9, 0, 0]}}], 'programme': "
                     "[{'lift':"
                     " 'first', 'component': 'unit', 'hook_point': [-1, 0, 4], 'rigging': {" MAIN
                     "},"
                     " 'moves': [{'do': 'hoist', 'by': 2, 'seconds': 9}%s]%s}, {'change': 'x', "
                     "'remove':"
                     " 'unit'}, {'lift': 'last', 'component': 'cube', 'hook_point': [0, 0, 1], "
                     "'rigging':"
                     " {'main': {'gear': 'one', 'hook_above': 2}}, 'moves': [{'do': 'hoist', 'by': "
                     "1,"
                     " 'seconds': 9}]}]}",
          i == 1 ? ", {'do': 'hoist', 'by': -2, 'seconds': 9}" : "",
          i == 1 ? ", 'seats': [{'on': 'deck', 'at': 'end'}]" : "");
      TestRun run = test_run (text);
      const GArray *list = run.findings->lifts[1].findings;
      guint n = 0;
      for (guint k = 0; k < list->len; k++)
        {
          const TrnFinding *f = &g_array_index (list, TrnFinding, k);
          n += f->check != TRN_CHECK_RIGGING && f->verdict == TRN_VERDICT_UNKNOWN
               && g_strcmp0 (f->missing, TRN_MISSING_HOLDER) == 0;
        }
      g_assert_true ((n > 0) == (i == 0));
      test_run_clear (&run);
    }
}

#define AGAIN(what, keys)                                                                          \
  "{'lift': 'again', 'component': '" what "', 'hook_point': [0, 0, 5], " keys                      \
  " 'moves': [{'do': 'hoist', 'by': 1, 'seconds': 5}, {'do': 'hoist', 'by': %s, 'seconds': 5}]},"

/* A lift of what took the place of what hung, or was removed and added while it hung, is not known;
 * where it was set down before, it is. */
static void
test_changed (void)
{
  static const char *const changes[]
      = { "{'change': 'x', 'swap': {'component': 'unit', 'with': 'other'}},",
          "{'change': 'x', 'remove': 'unit'}, {'change': 'y', 'add': 'unit', 'at': {'position':"
          " [10, 0, 2]}}," };
  for (guint i = 0; i < 4; i++)
    {
      const gboolean is_down = i >= 2;
      const char *of_unit = is_down ? "{'change': 'x', 'remove': 'unit'}, {'change': 'y', 'add':"
                                      " 'unit', 'at': {'position': [10, 0, 0]}},"
                                    : changes[1];
      g_autofree char *again
          = g_strdup_printf (i % 2 == 0 ? AGAIN ("other", "") : AGAIN ("unit", ""), "1");
      const Site site = {
        .lift = "", .between = i % 2 == 0 ? changes[0] : of_unit, .cube = again, .is_down = is_down
      };
      TestRun run = run_site (&site);
      const TrnFinding *f = test_finding_of (&run, TRN_CHECK_CLEARANCE, 1, 1, "load", "deck", NULL);
      if (is_down)
        g_assert_cmpint (f->verdict, ==, TRN_VERDICT_PASS);
      else
        TEST_UNKNOWN (f, TRN_MISSING_ATTITUDE_BEFORE);
      test_run_clear (&run);
    }
}

/* What hung when it was removed is held where it is added: by what nobody looks at. */
static void
test_added_held (void)
{
  static const char rig[] = "'rigging': {'main': {'hook_above': 1, 'slings': [{'id': 's', 'to': [0,"
                            " 0, 4], 'diameter': 0.02}]}},";
  for (guint i = 0; i < 2; i++)
    {
      const Site site = { .lift = rig,
                          .between = "{'change': 'x', 'remove': 'unit'}, {'change': 'y', 'add':"
                                     " 'unit', 'at': {'position': [10, 0, 0]}},",
                          .is_down = i == 1 };
      TestRun run = run_site (&site);
      const GArray *list = run.findings->lifts[1].findings;
      guint n = 0;
      for (guint k = 0; k < list->len; k++)
        {
          const TrnFinding *f = &g_array_index (list, TrnFinding, k);
          n += f->check == TRN_CHECK_RIGGING && g_strcmp0 (f->body, "unit") == 0
               && g_strcmp0 (f->missing, TRN_MISSING_HOLDER) == 0;
        }
      g_assert_cmpuint (n, ==, i == 0 ? 1 : 0);
      test_run_clear (&run);
    }
}

/* A load that stands on no seat hangs when its first lift begins: what holds it then has to be
 * named, as it need not be where it stands. */
static void
test_begins_in_air (void)
{
  static const char *const seats[] = { "", "'seats': [{'on': 'deck', 'at': 'start'}],",
                                       "'seats': [{'on': 'deck', 'at': 'end'}]," };
  for (guint i = 0; i < G_N_ELEMENTS (seats); i++)
    {
      g_autofree char *text = g_strdup_printf (
          "{'format': 'trunnion-plan', 'version': 1, 'keep_clear': 0.1, 'structures': [{'id':"
          " 'deck', 'solid': {'kind': 'box', 'size': [4, 4, 1]}, 'at': {'position': [0, 0, -1]}}],"
          " 'gear': [" GANTRY ("one") "], 'components': [{'id': 'unit', 'solid': {'kind': 'box',"
                                      " 'size': [2, 2, 4]}, 'at': {'position': [0, 0, %s]}}], "
                                      "'programme': [{'lift': 'only',"
                                      " 'component': 'unit', 'hook_point': [0, 0, 4], %s "
                                      "'rigging': {'main': {'gear': 'one',"
                                      " 'hook_above': 2, 'moves': [1, 1]}}, 'moves': [{'do': "
                                      "'wait', 'seconds': 5}, {'do':"
                                      " 'hoist', 'by': %s, 'seconds': 5}]}]}",
          i == 1 ? "0" : "3", seats[i], i == 2 ? "-3" : "1");
      TestRun run = test_run (text);
      const GArray *list = run.findings->lifts[0].findings;
      guint n = 0;
      for (guint k = 0; k < list->len; k++)
        {
          const TrnFinding *f = &g_array_index (list, TrnFinding, k);
          n += f->check == TRN_CHECK_RIGGING && f->verdict == TRN_VERDICT_UNKNOWN
               && g_strcmp0 (f->missing, "rigging/main/moves") == 0;
        }
      g_assert_cmpuint (n, ==, i == 1 ? 0 : 1);
      test_run_clear (&run);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *name = g_strdup_printf ("/checks/held-on/%s", rows[i].name);
      g_test_add_data_func (name, &rows[i], test_held_on);
    }
  g_test_add_func ("/checks/held-on/told", test_told);
  g_test_add_func ("/checks/held-on/beside", test_beside);
  g_test_add_func ("/checks/held-on/beside-other", test_beside_other);
  g_test_add_func ("/checks/held-on/on-hung", test_on_hung);
  g_test_add_func ("/checks/held-on/changed", test_changed);
  g_test_add_func ("/checks/held-on/added-held", test_added_held);
  g_test_add_func ("/checks/held-on/swapped-in", test_swapped_in);
  g_test_add_func ("/checks/held-on/removed-held", test_removed_held);
  g_test_add_func ("/checks/held-on/gear-of-removed", test_gear_of_removed);
  g_test_add_func ("/checks/held-on/begins-in-air", test_begins_in_air);
  return g_test_run ();
}
