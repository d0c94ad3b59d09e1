/* test-checks.h: a plan judged, and its findings looked up. */
#pragma once

#include "checks.h"
#include "test-plan.h"

typedef struct
{
  TrnScene *scene;
  TrnFindings *findings;
} TestRun;

/* With facets that lie no more than @deviation_m outside of round solids; 0: as left out. */
static inline TestRun
test_run_deviating (const char *text, double deviation_m, const TrnCheckOptions *options)
{
  TestRun run = { NULL, NULL };
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  TrnSceneOptions scene_options = { .jobs = 2, .solid_deviation_m = deviation_m };
  run.scene = trn_scene_build_take (test_programme (text), &scene_options, diags);
  test_print_diags (diags);
  g_assert_nonnull (run.scene);
  run.findings = trn_checks_run (run.scene, options);
  return run;
}

static inline TestRun
test_run_with (const char *text, const TrnCheckOptions *options)
{
  return test_run_deviating (text, 0, options);
}

static inline TestRun
test_run (const char *text)
{
  TrnCheckOptions options = { .jobs = 2 };
  return test_run_with (text, &options);
}

static inline void
test_run_clear (TestRun *run)
{
  trn_findings_free (run->findings);
  trn_scene_free (run->scene);
}

/* The finding of that check about that move (−1: none) and obstacle (NULL: none) in the lift at
 * that place; there must be just one. */
static inline const TrnFinding *
test_finding (const TestRun *run, TrnCheckKind check, guint lift, int move, const char *obstacle)
{
  const TrnFinding *found = NULL;
  const GArray *list = run->findings->lifts[lift].findings;
  for (guint i = 0; i < list->len; i++)
    {
      const TrnFinding *finding = &g_array_index (list, TrnFinding, i);
      if (finding->check != check || finding->move != move
          || g_strcmp0 (finding->obstacle, obstacle) != 0)
        continue;
      g_assert_null (found);
      found = finding;
    }
  g_assert_nonnull (found);
  return found;
}

/* The same of that body and item (NULL: none). Of wind in whichever move it is greatest. */
static inline const TrnFinding *
test_finding_of (const TestRun *run, TrnCheckKind check, guint lift, int move, const char *body,
                 const char *obstacle, const char *item)
{
  const TrnFinding *found = NULL;
  const GArray *list = run->findings->lifts[lift].findings;
  for (guint i = 0; i < list->len; i++)
    {
      const TrnFinding *finding = &g_array_index (list, TrnFinding, i);
      if (finding->check != check || (finding->move != move && check != TRN_CHECK_WIND)
          || g_strcmp0 (finding->body, body) != 0 || g_strcmp0 (finding->item, item) != 0
          || g_strcmp0 (finding->obstacle, obstacle) != 0)
        continue;
      g_assert_null (found);
      found = finding;
    }
  if (found == NULL)
    g_test_message ("no finding of %s past %s, item %s, move %d", body, obstacle, item, move);
  g_assert_nonnull (found);
  return found;
}

static inline const TrnFinding *
test_clearance (const TestRun *run, guint lift, int move, const char *obstacle)
{
  return test_finding (run, TRN_CHECK_CLEARANCE, lift, move, obstacle);
}

/* That part of what is taken off, in metres; 0 where there is none. */
static inline double
test_allowance_part (const TrnFinding *finding, const char *what)
{
  const GArray *parts = finding->allowance_parts;
  for (guint i = 0; parts != NULL && i < parts->len; i++)
    if (g_str_equal (g_array_index (parts, TrnFindingItem, i).what, what))
      return g_array_index (parts, TrnFindingItem, i).m;
  return 0;
}

/* @found within [@expected − @below, @expected + @above]. */
static inline void
test_assert_between (double found, double expected, double below, double above)
{
  if (!(found >= expected - below && found <= expected + above))
    g_test_message ("found %.12g, expected %.12g (-%.3g, +%.3g)", found, expected, below, above);
  g_assert_cmpfloat (found, >=, expected - below);
  g_assert_cmpfloat (found, <=, expected + above);
}

/* The certified interval of @finding holds @true_m, give or take @play_m by which the triangles of
 * a solid may exceed it, and is as narrow as it says. */
static inline void
test_assert_certified (const TrnFinding *finding, double true_m, double play_m)
{
  if (!(finding->lower_m <= true_m && finding->upper_m >= true_m - play_m))
    g_test_message ("certified [%.12g, %.12g], true %.12g", finding->lower_m, finding->upper_m,
                    true_m);
  g_assert_cmpfloat (finding->lower_m, <=, true_m);
  g_assert_cmpfloat (finding->upper_m, >=, true_m - play_m);
  g_assert_cmpfloat (finding->upper_m - finding->lower_m, <=,
                     finding->certified_to_m * (1 + 1e-12));
}
