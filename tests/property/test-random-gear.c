/* Random plans with cranes and gantries against an oracle of the gear (gear-oracle.h), by dense
 * sampling with refinement: no bound is violated; nothing depends on the number of threads, nor on
 * where the site lies and which way it points. */
#include "gear-judge.h"
#include "gear-maker.h"
#include "parallel.h"
#include "plan-maker.h"
#include "plan-run.h"
#include "test-scale.h"

/* 300 plans with a scale of 6. */
#define N_PLANS 50
#define FIRST_SEED 7000

typedef struct
{
  const char *folder;
  guint n_plans;
  GearTally tally;
} All;

static char *
make_plan (guint32 seed)
{
  g_autofree char *json = plan_maker_make (seed);
  return gear_maker_add (json, seed);
}

static void
judge_one (guint index, gpointer data)
{
  All *all = data;
  g_autofree char *name = g_strdup_printf ("with seed %u", FIRST_SEED + index);
  g_autofree char *json = make_plan (FIRST_SEED + index);
  PlanRun run = plan_run (json, name, all->folder);
  gear_judge (name, json, run.scene, run.findings, FIRST_SEED + index, &all->tally);
  if (index % 4 == 0)
    plan_run_judge_threads (&run, name, 3);
  plan_run_clear (&run);
}

static void
test_oracle (gconstpointer data)
{
  All all = { .folder = data, .n_plans = test_scaled (N_PLANS) };
  g_test_message ("%u plans, the first with seed %u", all.n_plans, FIRST_SEED);
  trn_parallel_for (all.n_plans, 0, judge_one, &all);
  static const PlanTally kinds[] = {
    { "clear", GEAR_TALLY_CLEAR, 1000 },
    { "short", GEAR_TALLY_SHORT, 50 },
    { "contact", GEAR_TALLY_CONTACT, 50 },
    { "unknown", GEAR_TALLY_UNKNOWN, 50 },
    { "load past a part", GEAR_TALLY_LOAD, 200 },
    { "part past what stands", GEAR_TALLY_STANDING, 1000 },
    { "two parts", GEAR_TALLY_TWO_PARTS, 500 },
    { "tolerances", GEAR_TALLY_TOLERANCE, 500 },
    { "boom", GEAR_TALLY_BOOM, 200 },
    { "jib", GEAR_TALLY_JIB, 100 },
    { "counterweight", GEAR_TALLY_COUNTERWEIGHT, 200 },
    { "rope", GEAR_TALLY_ROPE, 200 },
    { "block", GEAR_TALLY_BLOCK, 100 },
    { "sling", GEAR_TALLY_SLING, 200 },
    { "beam", GEAR_TALLY_BEAM, 30 },
    { "header", GEAR_TALLY_HEADER, 200 },
    { "trolley", GEAR_TALLY_TROLLEY, 200 },
    { "within", GEAR_TALLY_WITHIN, 100 },
    { "beyond", GEAR_TALLY_BEYOND, 30 },
    { "out of reach", GEAR_TALLY_OUT_OF_REACH, 3 },
  };
  G_STATIC_ASSERT (G_N_ELEMENTS (kinds) == GEAR_N_TALLIES);
  plan_tally_judge (all.tally.of, kinds, G_N_ELEMENTS (kinds), all.n_plans >= N_PLANS);
}

/* ---- the site moved ---- */

static double
margin_of (const TrnFinding *f)
{
  if (f->check == TRN_CHECK_CLEARANCE || f->check == TRN_CHECK_TAIL_SWING)
    return trn_finding_margin_m (f);
  return f->margin;
}

/* Bounds need not be the same, only right; verdicts are, but where they hang on rounding. */
static void
compare_moved (const TrnFinding *a, const TrnFinding *b, const char *name, const char *json)
{
  g_assert_cmpint (a->check, ==, b->check);
  g_assert_cmpint (a->move, ==, b->move);
  g_assert_cmpstr (a->body, ==, b->body);
  g_assert_cmpstr (a->obstacle, ==, b->obstacle);
  g_assert_cmpstr (a->item, ==, b->item);
  gboolean close = fabs (margin_of (a)) < 2e-5 || fabs (margin_of (b)) < 2e-5;
  gboolean holds = close || a->verdict == b->verdict;
  if (a->check == TRN_CHECK_CLEARANCE && !a->has_seated && a->verdict != TRN_VERDICT_UNKNOWN
      && b->verdict != TRN_VERDICT_UNKNOWN)
    holds &= a->lower_m <= b->upper_m + 1e-7 && b->lower_m <= a->upper_m + 1e-7;
  if (a->check == TRN_CHECK_TAIL_SWING && isfinite (a->sector_distance_m))
    holds &= close || fabs (a->sector_distance_m - b->sector_distance_m) < 1e-3;
  if (!holds)
    g_error ("plan %s, lift %u, move %d, %s past %s, check %d: [%.12g, %.12g] margin %.12g verdict"
             " %d, moved [%.12g, %.12g] margin %.12g verdict %d\n%s",
             name, a->lift, a->move, a->body, a->obstacle, (int)a->check, a->lower_m, a->upper_m,
             a->margin, (int)a->verdict, b->lower_m, b->upper_m, b->margin, (int)b->verdict, json);
}

static void
move_one (guint index, gpointer data)
{
  const All *all = data;
  g_autofree char *name = g_strdup_printf ("with seed %u", FIRST_SEED + index);
  g_autofree char *json = make_plan (FIRST_SEED + index);
  g_autofree char *moved = plan_maker_move_site (json, index);
  PlanRun before = plan_run (json, name, all->folder);
  PlanRun after = plan_run (moved, name, all->folder);
  for (guint i = 0; i < before.findings->n_lifts; i++)
    {
      const GArray *a = before.findings->lifts[i].findings, *b = after.findings->lifts[i].findings;
      g_assert_cmpuint (a->len, ==, b->len);
      for (guint k = 0; k < a->len; k++)
        compare_moved (&g_array_index (a, TrnFinding, k), &g_array_index (b, TrnFinding, k), name,
                       json);
    }
  plan_run_clear (&before);
  plan_run_clear (&after);
}

static void
test_site_moved (gconstpointer data)
{
  All all = { .folder = data, .n_plans = test_scaled (N_PLANS / 5) };
  trn_parallel_for (all.n_plans, 0, move_one, &all);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_autofree char *folder = plan_maker_write_meshes ();
  g_test_add_data_func ("/property/gear/oracle", folder, test_oracle);
  g_test_add_data_func ("/property/gear/site-moved", folder, test_site_moved);
  int status = g_test_run ();
  plan_maker_remove_meshes (folder);
  return status;
}
