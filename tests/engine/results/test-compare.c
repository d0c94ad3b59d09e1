/* Results read back and held against others. The files are written here by hand, so that one thing
 * differs at a time; that what the program writes is read is tested with a lift of its own. */
#include "results-compare.h"

#include "json-read.h"
#include "results.h"
#include "test-checks.h"
#include "test-lift.h"

#define SHA "0123456789abcdef0123456789abcdef0123456789abcdef0123456789abcdef"
#define OTHER_SHA "1123456789abcdef0123456789abcdef0123456789abcdef0123456789abcdef"

/* The findings begin in line 6. */
#define FILE_OF(sha, meshes, checks, findings)                                                     \
  "{\"format\": \"trunnion-results\", \"version\": 1, \"program\": \"p\",\n"                       \
  " \"plan\": {\"title\": \"t\", \"file\": \"a.trunnion\", \"sha256\": \"" sha "\"},\n"            \
  " \"meshes\": [" meshes "], \"certified_to\": 0.001,\n"                                          \
  " \"checks_done\": [" checks "],\n"                                                              \
  " \"lifts\": [{\"lift\": \"up\", \"findings\": [\n" findings "]}]}"
#define RESULTS(findings) FILE_OF (SHA, "", "\"clearance\"", findings)

#define MESH "{\"file\": \"a.stl\", \"sha256\": \"" SHA "\"}"

/* A finding of a clearance; @rest begins with a comma, or is empty. */
#define CLEARANCE(obstacle, lower, required, verdict, state, rest)                                 \
  "{\"check\": \"clearance\", \"move\": 0, \"body\": \"load\", \"obstacle\": \"" obstacle          \
  "\", \"lower\": " lower ", \"required\": " required                                              \
  ", \"allowance\": 0, \"verdict\": \"" verdict "\", \"state\": \"" state "\"" rest "}"
#define MEETS CLEARANCE ("post", "0.8", "0.5", "pass", "clear", "")

/* Of a value beside its limit. */
#define FORCE(value, limit, margin, unit, verdict, state)                                          \
  "{\"check\": \"capacity\", \"move\": 1, \"body\": \"crane\", \"value\": " value                  \
  ", \"limit\": " limit ", \"margin\": " margin ", \"unit\": \"" unit                              \
  "\", \"verdict\": \"" verdict "\", \"state\": \"" state "\"}"

/* Of a boom angle from 30° to 82°. */
#define ANGLE(value, limit, margin, verdict, state)                                                \
  "{\"check\": \"reach\", \"move\": 1, \"body\": \"crane\", \"item\": \"boom-angle\", "            \
  "\"value\": " value ", \"limit\": " limit ", \"margin\": " margin                                \
  ", \"unit\": \"deg\", \"verdict\": \"" verdict "\", \"state\": \"" state "\"}"

static TrnResults *
parse (const char *text)
{
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  TrnResults *results = trn_results_parse (text, strlen (text), "r.json", diags);
  if (results == NULL)
    {
      const TrnDiag *diag = diags->items->pdata[0];
      g_error ("%s at %s of:\n%s", diag->code, diag->pointer, text);
    }
  g_assert_cmpuint (diags->items->len, ==, 0);
  return results;
}

/* ---- reading ---- */

static void
test_read (void)
{
  g_autoptr (TrnResults) results = parse (FILE_OF (
      SHA, "{\"file\": \"m.stl\", \"sha256\": \"" OTHER_SHA "\"}", "\"clearance\", \"seat\"",
      MEETS ",\n{\"check\": \"seat\", \"body\": \"load\", \"obstacle\": \"pad\", "
            "\"end\": \"end\", \"verdict\": \"pass\", \"state\": \"resting\", "
            "\"of-a-later-version\": [1]}"));
  g_assert_cmpstr (results->title, ==, "t");
  g_assert_cmpstr (results->plan_file, ==, "a.trunnion");
  g_assert_cmpstr (results->plan_sha256, ==, SHA);
  g_assert_cmpfloat (results->certified_to_m, ==, 0.001);
  g_assert_cmpuint (results->checks->len, ==, 2);
  g_assert_cmpuint (results->meshes->len, ==, 1);
  g_assert_cmpstr (g_array_index (results->meshes, TrnResultsMesh, 0).sha256, ==, OTHER_SHA);
  g_assert_cmpuint (results->findings->len, ==, 2);
  const TrnResultsFinding *first = results->findings->pdata[0];
  g_assert_cmpstr (first->lift, ==, "up");
  g_assert_cmpint (first->found.move, ==, 0);
  g_assert_cmpfloat (first->found.lower_m, ==, 0.8);
  g_assert_cmpfloat (trn_results_in_hand (&first->found), ==, 0.8 - 0.5);
  const TrnResultsFinding *second = results->findings->pdata[1];
  g_assert_cmpint (second->found.check, ==, TRN_CHECK_SEAT);
  g_assert_cmpint (second->found.move, ==, -1);
  g_assert_true (second->found.at_end);
}

static const struct
{
  const char *text, *code, *pointer;
  guint line;
} faults[] = {
  { "[]", "results/not-object", "", 1 },
  { "{}", "results/missing-key", "", 1 },
  { "{\n\"format\": \"trunnion-plan\"}", "results/format", "/format", 2 },
  { "{\"format\": \"trunnion-results\",\n\n\"version\": 2}", "results/version", "/version", 3 },
  { "{\"format\": \"trunnion-results\", \"version\": \"1\"}", "results/version", "/version", 1 },
  { "{\"format\": \"trunnion-results\"}", "results/missing-key", "", 1 },
  { "{\"format\": 1", "plan/json-cut", "", 1 },
  { FILE_OF ("12", "", "", ""), "results/not-sha256", "/plan/sha256", 2 },
  { FILE_OF (SHA, "7", "", ""), "results/not-object", "/meshes/0", 3 },
  { FILE_OF (SHA, "{\"file\": null, \"sha256\": \"" SHA "\"}", "", ""), "results/not-text",
    "/meshes/0/file", 3 },
  { FILE_OF (SHA, MESH ",\n" MESH, "", ""), "results/same-mesh", "/meshes/1", 4 },
  { FILE_OF (SHA, "", "1", ""), "results/not-text", "/checks_done/0", 4 },
  { RESULTS ("{\"check\": \"clearence\"}"), "results/unknown-word", "/lifts/0/findings/0/check",
    6 },
  { RESULTS (MEETS ",\n" MEETS), "results/same-finding", "/lifts/0/findings/1", 7 },
  { RESULTS (CLEARANCE ("post", "-1", "0.5", "pass", "clear", "")), "results/out-of-range",
    "/lifts/0/findings/0/lower", 6 },
  { RESULTS (CLEARANCE ("post", "1e400", "0.5", "pass", "clear", "")), "plan/json-number-range",
    "/lifts/0/findings/0/lower", 6 },
  { RESULTS (CLEARANCE ("post", "1e300", "0.5", "pass", "clear", "")), "results/out-of-range",
    "/lifts/0/findings/0/lower", 6 },
  { RESULTS (CLEARANCE ("post", "null", "0.5", "pass", "clear", "")), "results/not-number",
    "/lifts/0/findings/0/lower", 6 },
  { RESULTS (CLEARANCE ("post", "1", "0.5", "good", "clear", "")), "results/unknown-word",
    "/lifts/0/findings/0/verdict", 6 },
  { RESULTS (CLEARANCE ("post", "1", "0.5", "pass", "fine", "")), "results/unknown-word",
    "/lifts/0/findings/0/state", 6 },
  { RESULTS (CLEARANCE ("a\\nb", "1", "0.5", "pass", "clear", "")), "results/control",
    "/lifts/0/findings/0/obstacle", 6 },
  { RESULTS (CLEARANCE ("post", "1", "0.5", "pass", "clear", ", \"inside\": false")),
    "results/not-inside", "/lifts/0/findings/0/inside", 6 },
  { RESULTS ("{\"check\": \"start\", \"body\": \"load\", \"verdict\": \"pass\", \"state\": "
             "\"in-place\", \"move\": 0.5}"),
    "results/not-whole", "/lifts/0/findings/0/move", 6 },
  { RESULTS ("{\"check\": \"start\", \"body\": \"load\", \"verdict\": \"pass\", \"state\": "
             "\"in-place\", \"move\": -1}"),
    "results/out-of-range", "/lifts/0/findings/0/move", 6 },
  { RESULTS ("{\"check\": \"start\", \"verdict\": \"pass\", \"state\": \"in-place\"}"),
    "results/missing-key", "/lifts/0/findings/0", 6 },
  { RESULTS ("{\"check\": \"seat\", \"body\": \"load\", \"verdict\": \"pass\", \"state\": "
             "\"resting\", \"end\": \"middle\"}"),
    "results/unknown-word", "/lifts/0/findings/0/end", 6 },
  { RESULTS (FORCE ("1", "2", "1", "lb", "pass", "within")), "results/unknown-word",
    "/lifts/0/findings/0/unit", 6 },
};

/* Each has one fault, with its place. */
static void
test_faults (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (faults); i++)
    {
      g_autoptr (TrnDiags) diags = trn_diags_new ();
      g_autoptr (TrnResults) results
          = trn_results_parse (faults[i].text, strlen (faults[i].text), "r.json", diags);
      g_test_message ("%s", faults[i].text);
      g_assert_null (results);
      g_assert_cmpuint (diags->items->len, >=, 1);
      const TrnDiag *diag = diags->items->pdata[0];
      g_assert_cmpstr (diag->code, ==, faults[i].code);
      if (!g_str_has_prefix (diag->code, "plan/json-cut"))
        g_assert_cmpstr (diag->pointer, ==, faults[i].pointer);
      g_assert_cmpuint (diag->line, ==, faults[i].line);
      g_assert_cmpstr (diag->file, ==, "r.json");
    }
}

/* A length beyond the limit is refused before a byte is looked at. */
static void
test_limits (void)
{
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_assert_null (trn_results_parse ("", TRN_JSON_MAX_BYTES + 1, "r.json", diags));
  g_assert_cmpstr (((TrnDiag *)diags->items->pdata[0])->code, ==, "results/too-long");
  g_autoptr (GString) text = g_string_new ("{\"format\": \"trunnion-results\", \"version\": 1, "
                                           "\"program\": \"p\", \"lifts\": [");
  for (guint i = 0; i <= TRN_RESULTS_MOST_FILES; i++)
    g_string_append (text, i > 0 ? ", 0" : "0");
  g_string_append (text, "]}");
  g_autoptr (TrnDiags) of_many = trn_diags_new ();
  g_assert_null (trn_results_parse (text->str, text->len, "r.json", of_many));
  const TrnDiag *last = of_many->items->pdata[of_many->items->len - 1];
  g_assert_cmpstr (last->code, ==, "results/too-many");
  g_assert_cmpstr (last->pointer, ==, "/lifts");
}

static void
test_no_file (void)
{
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_assert_null (trn_results_read ("/nowhere/at/all.json", diags));
  g_assert_cmpuint (diags->items->len, ==, 1);
  g_assert_cmpstr (((TrnDiag *)diags->items->pdata[0])->code, ==, "plan/cannot-read");
}

/* ---- one difference ---- */

static const struct
{
  const char *what, *before, *after; /* a finding each */
  TrnDifference kind;
  gboolean limit_changed;
} cases[] = {
  { "the same", MEETS, MEETS, TRN_DIFFER_SAME, FALSE },
  { "1 mm less, which is what it was certified to", MEETS,
    CLEARANCE ("post", "0.7991", "0.5", "pass", "clear", ""), TRN_DIFFER_SAME, FALSE },
  { "2 mm less", MEETS, CLEARANCE ("post", "0.798", "0.5", "pass", "clear", ""), TRN_DIFFER_WORSE,
    FALSE },
  { "2 mm more", MEETS, CLEARANCE ("post", "0.802", "0.5", "pass", "clear", ""), TRN_DIFFER_BETTER,
    FALSE },
  { "falls short", MEETS, CLEARANCE ("post", "0.4", "0.5", "fail", "short", ""), TRN_DIFFER_WORSE,
    FALSE },
  { "mended", CLEARANCE ("post", "0.4", "0.5", "fail", "short", ""), MEETS, TRN_DIFFER_BETTER,
    FALSE },
  { "no longer known, with the same bound", MEETS,
    CLEARANCE ("post", "0.8", "0.5", "unknown", "unknown", ""), TRN_DIFFER_WORSE, FALSE },
  { "from short to not known", CLEARANCE ("post", "0.4", "0.5", "fail", "short", ""),
    CLEARANCE ("post", "0.4", "0.5", "unknown", "unknown", ""), TRN_DIFFER_WORSE, FALSE },
  { "known now", CLEARANCE ("post", "0", "0.5", "unknown", "unknown", ""), MEETS, TRN_DIFFER_BETTER,
    FALSE },
  { "met only because less is asked for, and closer than before",
    CLEARANCE ("post", "0.45", "0.5", "fail", "short", ""),
    CLEARANCE ("post", "0.44", "0.4", "pass", "clear", ""), TRN_DIFFER_WORSE, TRUE },
  { "met because less is asked for, as far as before",
    CLEARANCE ("post", "0.45", "0.5", "fail", "short", ""),
    CLEARANCE ("post", "0.45", "0.4", "pass", "clear", ""), TRN_DIFFER_BETTER, TRUE },
  { "more is asked for", MEETS, CLEARANCE ("post", "0.8", "0.6", "pass", "clear", ""),
    TRN_DIFFER_WORSE, TRUE },
  { "one may lie inside the other now", MEETS,
    CLEARANCE ("post", "0.8", "0.5", "pass", "clear", ", \"inside\": \"unknown\""),
    TRN_DIFFER_OTHER, FALSE },
  { "not known for want of another input",
    CLEARANCE ("post", "0", "0.5", "unknown", "unknown", ", \"missing\": \"wind\""),
    CLEARANCE ("post", "0", "0.5", "unknown", "unknown", ", \"missing\": \"park\""),
    TRN_DIFFER_OTHER, FALSE },
  { "heavier", FORCE ("90", "100", "10", "kg", "pass", "within"),
    FORCE ("91", "100", "9", "kg", "pass", "within"), TRN_DIFFER_WORSE, FALSE },
  { "lighter", FORCE ("90", "100", "10", "kg", "pass", "within"),
    FORCE ("89", "100", "11", "kg", "pass", "within"), TRN_DIFFER_BETTER, FALSE },
  { "a greater limit, and a greater load", FORCE ("90", "100", "10", "kg", "pass", "within"),
    FORCE ("95", "120", "25", "kg", "pass", "within"), TRN_DIFFER_WORSE, TRUE },
  { "a lower limit of what has to be at least that, and less of it",
    FORCE ("60", "45", "15", "deg", "pass", "within"),
    FORCE ("55", "30", "25", "deg", "pass", "within"), TRN_DIFFER_WORSE, TRUE },
  { "from the least of a range to its greatest, with more in hand",
    ANGLE ("31", "30", "1", "pass", "within"), ANGLE ("75", "82", "7", "pass", "within"),
    TRN_DIFFER_OTHER, FALSE },
  { "from the greatest of a range to its least, with less in hand",
    ANGLE ("75", "82", "7", "pass", "within"), ANGLE ("32", "30", "2", "pass", "within"),
    TRN_DIFFER_WORSE, FALSE },
  { "from below the least of a range to its greatest", ANGLE ("29", "30", "-1", "fail", "outside"),
    ANGLE ("75", "82", "7", "pass", "within"), TRN_DIFFER_BETTER, FALSE },
  { "at the end of a range, which was wider", ANGLE ("30", "30", "0", "pass", "within"),
    ANGLE ("20", "15", "5", "pass", "within"), TRN_DIFFER_WORSE, TRUE },
  { "the last digits", FORCE ("90", "100", "10", "kg", "pass", "within"),
    FORCE ("90.00001", "100", "9.99999", "kg", "pass", "within"), TRN_DIFFER_SAME, FALSE },
  { "heavier, without a limit", FORCE ("90", "null", "null", "kg", "note", "known"),
    FORCE ("91", "null", "null", "kg", "note", "known"), TRN_DIFFER_OTHER, FALSE },
  { "the limit is gone", FORCE ("90", "100", "10", "kg", "pass", "within"),
    FORCE ("90", "null", "null", "kg", "note", "known"), TRN_DIFFER_WORSE, TRUE },
  { "another unit", FORCE ("90", "100", "10", "kg", "pass", "within"),
    FORCE ("90", "100", "10", "N", "pass", "within"), TRN_DIFFER_OTHER, FALSE },
};

static void
test_cases (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_test_message ("%s", cases[i].what);
      g_autofree char *old_text = g_strdup_printf (RESULTS ("%s"), cases[i].before);
      g_autofree char *new_text = g_strdup_printf (RESULTS ("%s"), cases[i].after);
      g_autoptr (TrnResults) before = parse (old_text);
      g_autoptr (TrnResults) after = parse (new_text);
      g_autoptr (TrnComparison) c = trn_results_compare (before, after);
      g_assert_cmpuint (c->changes->len, ==, 1);
      const TrnResultsDifference *only = &g_array_index (c->changes, TrnResultsDifference, 0);
      g_assert_cmpint (only->kind, ==, cases[i].kind);
      g_assert_cmpint (only->limit_changed, ==, cases[i].limit_changed);
      gboolean open = cases[i].kind == TRN_DIFFER_WORSE || cases[i].kind == TRN_DIFFER_OTHER;
      g_assert_cmpint (trn_comparison_is_open (c), ==, open);
    }
}

/* ---- two files ---- */

/* The post is gone, a fence that is short and a kerb that is met are new, the wall fell short and
 * the roof got farther away: what is short now is first, the shortest before the others, then what
 * is gone, then the new, then the better. */
static void
test_order (void)
{
  g_autoptr (TrnResults) before = parse (
      RESULTS (MEETS "," CLEARANCE ("wall", "0.8", "0.5", "pass", "clear",
                                    "") "," CLEARANCE ("roof", "0.8", "0.5", "pass", "clear", "")));
  g_autoptr (TrnResults) after
      = parse (RESULTS (CLEARANCE ("roof", "0.9", "0.5", "pass", "clear", "") "," CLEARANCE (
          "kerb", "0.9", "0.5", "pass", "clear",
          "") "," CLEARANCE ("wall", "0.4", "0.5", "fail", "short",
                             "") "," CLEARANCE ("fence", "0.3", "0.5", "fail", "short", "")));
  g_autoptr (TrnComparison) c = trn_results_compare (before, after);
  static const char *const obstacles[] = { "fence", "wall", "post", "kerb", "roof" };
  static const gboolean open[] = { TRUE, TRUE, TRUE, FALSE, FALSE };
  g_assert_cmpuint (c->changes->len, ==, G_N_ELEMENTS (obstacles));
  for (guint i = 0; i < c->changes->len; i++)
    {
      const TrnResultsDifference *d = &g_array_index (c->changes, TrnResultsDifference, i);
      const TrnFinding *finding = d->after != NULL ? d->after : d->before;
      g_assert_cmpstr (finding->obstacle, ==, obstacles[i]);
      g_assert_cmpint (d->is_open, ==, open[i]);
    }
  g_assert_cmpuint (c->n_open, ==, 3);
  g_assert_cmpuint (c->n_fail, ==, 2);
  g_assert_cmpuint (c->counts[TRN_DIFFER_NEW], ==, 2);
}

/* A check that is no longer done is to be looked at, whatever the findings are. */
static void
test_what_was_checked (void)
{
  g_autoptr (TrnResults) before
      = parse (FILE_OF (SHA,
                        "{\"file\": \"a.stl\", \"sha256\": \"" SHA "\"}, {\"file\": \"b.stl\", "
                        "\"sha256\": \"" SHA "\"}",
                        "\"clearance\", \"wind\"", MEETS));
  g_autoptr (TrnResults) after
      = parse (FILE_OF (OTHER_SHA,
                        "{\"file\": \"a.stl\", \"sha256\": \"" OTHER_SHA
                        "\"}, {\"file\": \"c.stl\", \"sha256\": \"" SHA "\"}",
                        "\"clearance\"", MEETS));
  g_autoptr (TrnComparison) c = trn_results_compare (before, after);
  g_assert_true (c->plan_changed);
  g_assert_cmpuint (c->meshes->len, ==, 3);
  const TrnMeshChange *meshes = (const TrnMeshChange *)c->meshes->data;
  g_assert_true (meshes[0].before != NULL && meshes[0].after != NULL);
  g_assert_true (meshes[1].before != NULL && meshes[1].after == NULL);
  g_assert_true (meshes[2].before == NULL && meshes[2].after != NULL);
  g_assert_cmpuint (c->checks_gone->len, ==, 1);
  g_assert_cmpstr (c->checks_gone->pdata[0], ==, "wind");
  g_assert_cmpuint (c->n_open, ==, 0);
  g_assert_true (trn_comparison_is_open (c));
}

/* What the program writes is read, every finding of it, and differs from itself in nothing. */
static void
test_own (void)
{
  TestLift lift = { TEST_THREE (TEST_BOX ("slab", "[40, 40, 1]", "[0, 0, -1]"),
                                TEST_BOX ("wall", "[1, 40, 20]", "[8, 0, 0]"),
                                TEST_POST ("post", "1", "12", "[0, 9, 0]")),
                    "{'kind': 'cylinder', 'diameter': 2, 'height': 4}",
                    TEST_AT ("[0, 0, 0]"),
                    "[0, 0, 4]",
                    "'seats': [{'on': 'slab', 'at': 'both'}], 'tolerance': {'position': 0.01},",
                    "{'do': 'hoist', 'by': 3, 'seconds': 6},"
                    "{'do': 'slew', 'by': 90, 'centre': [0, 10], 'seconds': 60},"
                    "{'do': 'hoist', 'by': -3, 'seconds': 6}",
                    0.3 };
  g_autofree char *plan = test_lift_text (&lift);
  const TrnCheckOptions options = { 0 };
  TestRun run = test_run_with (plan, &options);
  g_autofree char *text = trn_results_to_json (run.scene, run.findings, "p", NULL);
  g_autoptr (TrnResults) results = parse (text);
  g_assert_cmpuint (results->findings->len, ==, run.findings->lifts[0].findings->len);
  for (guint i = 0; i < results->findings->len; i++)
    {
      const TrnResultsFinding *read = results->findings->pdata[i];
      const TrnFinding *found = &g_array_index (run.findings->lifts[0].findings, TrnFinding, i);
      g_assert_cmpint (read->found.check, ==, found->check);
      g_assert_cmpint (read->found.verdict, ==, found->verdict);
      g_assert_cmpint (read->found.state, ==, found->state);
      double read_m = trn_finding_margin_m (&read->found), margin_m = trn_finding_margin_m (found);
      g_assert_true (read_m == margin_m || (isnan (read_m) && isnan (margin_m)));
    }
  test_run_clear (&run);
  g_autoptr (TrnComparison) c = trn_results_compare (results, results);
  g_assert_cmpuint (c->counts[TRN_DIFFER_SAME], ==, results->findings->len);
  g_assert_false (trn_comparison_is_open (c));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/results/read/all", test_read);
  g_test_add_func ("/results/read/faults", test_faults);
  g_test_add_func ("/results/read/limits", test_limits);
  g_test_add_func ("/results/read/no-file", test_no_file);
  g_test_add_func ("/results/read/own", test_own);
  g_test_add_func ("/results/compare/cases", test_cases);
  g_test_add_func ("/results/compare/order", test_order);
  g_test_add_func ("/results/compare/what-was-checked", test_what_was_checked);
  return g_test_run ();
}
