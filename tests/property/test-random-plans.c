/* Random whole plans, from their text to their findings, against an oracle that reads the text by
 * itself (oracle.h) and samples each move densely (plan-judge.h); and what must not change when a
 * plan is changed in certain ways. A plan is made from a seed of its own, which is told where
 * something does not hold. */
#include "parallel.h"
#include "support.h"
#include "plan-judge.h"
#include "plan-maker.h"
#include "plan-run.h"
#include "test-scale.h"

#include <string.h>

#define N_PLANS 300
#define FIRST_SEED 1000

typedef struct
{
  const char *folder;
  guint n_plans;
  gint n_narrow;
  Tally tally;
} All;

/* ---- against the oracle ---- */

static void
judge_one (guint index, gpointer data)
{
  All *all = data;
  g_autofree char *name = g_strdup_printf ("with seed %u", FIRST_SEED + index);
  g_autofree char *json = plan_maker_make (FIRST_SEED + index);
  PlanRun run = plan_run (json, name, all->folder);
  plan_judge (name, json, run.scene, run.findings, &all->tally);
  if (index % 3 == 0)
    plan_run_judge_threads (&run, name, 2);
  plan_run_clear (&run);
}

static void
test_oracle (gconstpointer data)
{
  All all = { .folder = data, .n_plans = test_scaled (N_PLANS) };
  g_test_message ("%u plans, the first with seed %u", all.n_plans, FIRST_SEED);
  trn_parallel_for (all.n_plans, 0, judge_one, &all);
  static const PlanTally kinds[] = {
    { "clear", TALLY_CLEAR, 3000 },
    { "short", TALLY_SHORT, 200 },
    { "contact", TALLY_CONTACT, 300 },
    { "inside", TALLY_INSIDE, 30 },
    { "inside unknown", TALLY_INSIDE_UNKNOWN, 3 },
    { "seated", TALLY_SEATED, 30 },
    { "partly seated", TALLY_SEATED_PART, 200 },
    { "seat touched again", TALLY_SEAT_CONTACT, 50 },
    { "deep in the seat", TALLY_SEAT_DEEP, 100 },
    { "resting", TALLY_RESTING, 200 },
    { "buried", TALLY_BURIED, 5 },
    { "not resting", TALLY_NOT_RESTING, 20 },
    { "never left", TALLY_NEVER_LEFT, 8 },
    { "never reached", TALLY_NEVER_REACHED, 3 },
    { "elsewhere", TALLY_ELSEWHERE, 10 },
    { "far", TALLY_FAR, 3000 },
    { "hoist", TALLY_HOIST, 300 },
    { "travel", TALLY_TRAVEL, 50 },
    { "move", TALLY_MOVE, 50 },
    { "turn", TALLY_TURN, 50 },
    { "slew", TALLY_SLEW, 50 },
    { "slew with the heading kept", TALLY_SLEW_HEADING_KEPT, 10 },
    { "slew with luffing", TALLY_SLEW_LUFF, 20 },
    { "tilt", TALLY_TILT_FIXED, 50 },
    { "tilt head-plumb", TALLY_TILT_HEAD_PLUMB, 50 },
    { "wait", TALLY_WAIT, 50 },
    { "lift passes", TALLY_LIFT_PASSES, 80 },
    { "lift fails", TALLY_LIFT_FAILS, 150 },
    { "later lift", TALLY_LATER_LIFT, 100 },
  };
  G_STATIC_ASSERT (G_N_ELEMENTS (kinds) == N_TALLIES);
  plan_tally_judge (all.tally.of, kinds, G_N_ELEMENTS (kinds), all.n_plans >= N_PLANS);
}

/* ---- plans changed ---- */

static const TrnFinding *
same_finding (const TrnLiftFindings *lift, const TrnFinding *wanted)
{
  for (guint i = 0; i < lift->findings->len; i++)
    {
      const TrnFinding *f = &g_array_index (lift->findings, TrnFinding, i);
      if (f->check == wanted->check && f->move == wanted->move && f->at_end == wanted->at_end
          && g_strcmp0 (f->obstacle, wanted->obstacle) == 0)
        return f;
    }
  g_error ("a finding about %s is gone", wanted->obstacle);
}

static void
compare_moved (const TrnFinding *a, const TrnFinding *b, const char *name, const char *json)
{
  const double off = 1e-7; /* rounding, and times found by the millisecond */
  double margin = a->lower_m - a->allowance_m - a->required_m;
  gboolean close = fabs (margin) < 2e-5; /* either may be right, by rounding */
  gboolean holds = close || a->verdict == b->verdict;
  if (a->check == TRN_CHECK_CLEARANCE && a->state != TRN_STATE_SEATED
      && b->state != TRN_STATE_SEATED)
    holds &= a->lower_m <= b->upper_m + off + (a->has_seated ? 2e-3 : 0)
             && b->lower_m <= a->upper_m + off + (a->has_seated ? 2e-3 : 0);
  if (!holds)
    g_error ("plan %s, lift %u, move %d, obstacle %s, check %d: [%.12g, %.12g] verdict %d, moved"
             " [%.12g, %.12g] verdict %d\n%s",
             name, a->lift, a->move, a->obstacle, (int)a->check, a->lower_m, a->upper_m,
             (int)a->verdict, b->lower_m, b->upper_m, (int)b->verdict, json);
}

/* Moving and turning the whole site changes no clearance and no verdict. */
static void
move_one (guint index, gpointer data)
{
  const All *all = data;
  g_autofree char *name = g_strdup_printf ("with seed %u", FIRST_SEED + index);
  g_autofree char *json = plan_maker_make (FIRST_SEED + index);
  g_autofree char *moved = plan_maker_move_site (json, index);
  PlanRun before = plan_run (json, name, all->folder);
  PlanRun after = plan_run (moved, name, all->folder);
  for (guint i = 0; i < before.findings->n_lifts; i++)
    {
      const GArray *findings = before.findings->lifts[i].findings;
      for (guint k = 0; k < findings->len; k++)
        {
          const TrnFinding *f = &g_array_index (findings, TrnFinding, k);
          if (f->check != TRN_CHECK_SWING_RADIUS)
            compare_moved (f, same_finding (&after.findings->lifts[i], f), name, json);
        }
    }
  plan_run_clear (&before);
  plan_run_clear (&after);
}

/* One obstacle more leaves every other finding as it was, and makes no verdict better. */
static void
add_one (guint index, gpointer data)
{
  const All *all = data;
  g_autofree char *name = g_strdup_printf ("with seed %u", FIRST_SEED + index);
  g_autofree char *json = plan_maker_make (FIRST_SEED + index);
  g_autofree char *more = plan_maker_add_obstacle (json, index);
  PlanRun before = plan_run (json, name, all->folder);
  PlanRun after = plan_run (more, name, all->folder);
  for (guint i = 0; i < before.findings->n_lifts; i++)
    {
      const GArray *findings = before.findings->lifts[i].findings;
      for (guint k = 0; k < findings->len; k++)
        {
          const TrnFinding *a = &g_array_index (findings, TrnFinding, k);
          const TrnFinding *b = same_finding (&after.findings->lifts[i], a);
          g_assert_cmpfloat (b->lower_m, ==, a->lower_m);
          g_assert_cmpint (b->verdict, ==, a->verdict);
          g_assert_cmpint (b->state, ==, a->state);
        }
      g_assert_cmpint (after.findings->lifts[i].verdict, >=, before.findings->lifts[i].verdict);
    }
  g_assert_cmpint (after.findings->verdict, >=, before.findings->verdict);
  plan_run_clear (&before);
  plan_run_clear (&after);
}

/* A finding of the first lift that is certified as narrowly as was asked for, from something that
 * is no seat; NULL: none. */
static const TrnFinding *
find_narrow (const PlanRun *run)
{
  const GArray *findings = run->findings->lifts[0].findings;
  const TrnLift *lift = run->scene->programme->runs[0].lift;
  for (guint i = 0; i < findings->len; i++)
    {
      const TrnFinding *f = &g_array_index (findings, TrnFinding, i);
      gboolean fits = f->check == TRN_CHECK_CLEARANCE && f->state != TRN_STATE_SEATED
                      && f->certified_to_m <= 1e-3 && f->upper_m - f->lower_m > 1e-4
                      && f->lower_m > f->allowance_m;
      g_auto (GStrv) parts = fits ? g_strsplit (f->obstacle, "/", 2) : NULL;
      for (guint k = 0; k < lift->n_seats; k++)
        fits = fits && !g_str_has_prefix (lift->seats[k].on, parts[0]);
      if (fits)
        return f;
    }
  return NULL;
}

/* What is to be kept lies between the two bounds, so that the first of them leave it open: the
 * engine has to look again, and more narrowly. */
static void
narrow_one (guint index, gpointer data)
{
  All *all = data;
  g_autofree char *name = g_strdup_printf ("with seed %u", FIRST_SEED + index);
  g_autofree char *json = plan_maker_make (FIRST_SEED + index);
  PlanRun run = plan_run (json, name, all->folder);
  const TrnFinding *f = find_narrow (&run);
  if (f != NULL)
    {
      g_auto (GStrv) parts = g_strsplit (f->obstacle, "/", 2);
      double required_m = 0.5 * (f->lower_m + f->upper_m) - f->allowance_m;
      g_autofree char *changed = plan_maker_set_required (json, 0, parts[0], required_m);
      PlanRun again = plan_run (changed, name, all->folder);
      plan_judge (name, changed, again.scene, again.findings, &all->tally);
      plan_run_clear (&again);
      g_atomic_int_inc (&all->n_narrow);
    }
  plan_run_clear (&run);
}

static void
test_narrow (gconstpointer data)
{
  All all = { .folder = data, .n_plans = test_scaled (N_PLANS / 4) };
  trn_parallel_for (all.n_plans, 0, narrow_one, &all);
  g_test_message ("%d plans with a clearance to be kept between two bounds", all.n_narrow);
  if (all.n_plans >= N_PLANS / 4)
    g_assert_cmpint (all.n_narrow, >=, 10);
}

static void
test_site_moved (gconstpointer data)
{
  All all = { .folder = data, .n_plans = test_scaled (N_PLANS / 4) };
  trn_parallel_for (all.n_plans, 0, move_one, &all);
}

static void
test_obstacle_added (gconstpointer data)
{
  All all = { .folder = data, .n_plans = test_scaled (N_PLANS / 4) };
  trn_parallel_for (all.n_plans, 0, add_one, &all);
}

/* The least over all parts of what stands, since a load is one body and a structure one a part. */
static TrnFinding
least_clearance (const PlanRun *run)
{
  const GArray *findings = run->findings->lifts[0].findings;
  TrnFinding least = { .upper_m = INFINITY, .lower_m = INFINITY };
  for (guint i = 0; i < findings->len; i++)
    {
      const TrnFinding *f = &g_array_index (findings, TrnFinding, i);
      if (f->check != TRN_CHECK_CLEARANCE)
        continue;
      least.lower_m = fmin (least.lower_m, f->lower_m);
      least.upper_m = fmin (least.upper_m, f->upper_m);
    }
  return least;
}

/* Which of two that stand still is the load makes no difference. */
static void
swap_one (guint index, gpointer data)
{
  const All *all = data;
  g_autofree char *name = g_strdup_printf ("of two with seed %u", index);
  g_autofree char *json = plan_maker_make_wait (index, FALSE);
  g_autofree char *swapped = plan_maker_make_wait (index, TRUE);
  PlanRun one = plan_run (json, name, all->folder);
  PlanRun other = plan_run (swapped, name, all->folder);
  TrnFinding a = least_clearance (&one), b = least_clearance (&other);
  gboolean close = fabs (a.lower_m - one.scene->programme->runs[0].standing[0].required_m) < 2e-5;
  if (!(a.lower_m <= b.upper_m + 1e-9 && b.lower_m <= a.upper_m + 1e-9)
      || (!close && one.findings->verdict != other.findings->verdict))
    g_error ("plan %s: [%.12g, %.12g] verdict %d, swapped [%.12g, %.12g] verdict %d\n%s", name,
             a.lower_m, a.upper_m, (int)one.findings->verdict, b.lower_m, b.upper_m,
             (int)other.findings->verdict, json);
  plan_run_clear (&one);
  plan_run_clear (&other);
}

static void
test_swapped (gconstpointer data)
{
  All all = { .folder = data, .n_plans = test_scaled (N_PLANS) };
  trn_parallel_for (all.n_plans, 0, swap_one, &all);
}

/* ---- the scalar twin ---- */

typedef struct
{
  const char *folder;
  char **results; /* of each plan; NULL until it was run */
} Twins;

static void
run_twin (guint index, gpointer data)
{
  Twins *twins = data;
  g_autofree char *name = g_strdup_printf ("with seed %u", FIRST_SEED + index);
  g_autofree char *json = plan_maker_make (FIRST_SEED + index);
  PlanRun run = plan_run (json, name, twins->folder);
  gsize length;
  g_autofree char *results = plan_run_to_json (&run, &length);
  if (twins->results[index] == NULL)
    twins->results[index] = g_steal_pointer (&results);
  else if (strcmp (twins->results[index], results) != 0)
    g_error ("plan %s: results differ with the scalar twin", name);
  plan_run_clear (&run);
}

/* Without instructions beyond the scalar twin's, where there are any, the same bytes: what the
 * oracle says of the one holds for the other. */
static void
test_scalar_twin (gconstpointer data)
{
  guint n_plans = test_scaled (N_PLANS);
  Twins twins = { .folder = data, .results = g_new0 (char *, n_plans + 1) };
  trn_parallel_for (n_plans, 0, run_twin, &twins);
  trn_support_choose (TRN_SUPPORT_SCALAR);
  g_assert_false (trn_support_is_simd ());
  trn_parallel_for (n_plans, 0, run_twin, &twins);
  trn_support_choose (TRN_SUPPORT_BEST);
  g_strfreev (twins.results);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_autofree char *folder = plan_maker_write_meshes ();
  g_test_add_data_func ("/property/plans/oracle", folder, test_oracle);
  g_test_add_data_func ("/property/plans/scalar-twin", folder, test_scalar_twin);
  g_test_add_data_func ("/property/plans/between-bounds", folder, test_narrow);
  g_test_add_data_func ("/property/plans/site-moved", folder, test_site_moved);
  g_test_add_data_func ("/property/plans/obstacle-added", folder, test_obstacle_added);
  g_test_add_data_func ("/property/plans/roles-swapped", folder, test_swapped);
  int status = g_test_run ();
  plan_maker_remove_meshes (folder);
  return status;
}
