/* bench-sweep.c: how the certified sweep compares with sampling: the time of one certified answer
 * over all moves of a scene, against 1000 cold distance queries of FCL on the same motion. Sampling
 * proves nothing; it is the yardstick because it is what one would do without a proof.
 *
 *   bench-sweep [--runs N] [--fcl-limit SECONDS] [NAME …]
 *
 * Prints a line for each measurement: the median over the runs, in each of which FCL and the sweep
 * take turns, what is required, the goal, and whether they are reached. Times of one thread are
 * processor time. With names, only what is called so; --list prints them. */
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "bench.h"
#include "fcl-bridge.h"
#include "tolerances.h"

#define FCL_QUERIES 1000
/* Queries are made in this order, so that those of a part are spread over all of the motion. */
#define FCL_STRIDE 389

/* The second line of each case: from here on 5 % of the distance will do, as for a required
 * clearance of half of it. */
#define FAR_M 0.2

/* ---- what all share ---- */

static int
compare_doubles (const void *a, const void *b)
{
  double x = *(const double *)a, y = *(const double *)b;
  return (x > y) - (x < y);
}

double
bench_median (double *values, guint n)
{
  qsort (values, n, sizeof *values, compare_doubles);
  return n % 2 ? values[n / 2] : (values[n / 2 - 1] + values[n / 2]) / 2;
}

static double
clock_s (clockid_t clock)
{
  struct timespec time;
  clock_gettime (clock, &time);
  return (double)time.tv_sec + 1e-9 * (double)time.tv_nsec;
}

double
bench_worked_s (void)
{
  return clock_s (CLOCK_PROCESS_CPUTIME_ID);
}

double
bench_wall_s (void)
{
  return clock_s (CLOCK_MONOTONIC);
}

static const char *
reached_word (double value, BenchSense sense, double required, double goal)
{
  double by = sense == BENCH_AT_LEAST ? 1 : -1;
  if (by * (value - goal) >= 0)
    return "goal reached";
  return by * (value - required) >= 0 ? "reached" : "NOT REACHED";
}

void
bench_print (const char *name, const char *what, double value, const char *unit, BenchSense sense,
             double required, double goal)
{
  g_print ("%-18s %-44s %9.4g %-11s", name, what, value, unit);
  if (required > 0)
    g_print (" required %s %g, goal %g: %s", sense == BENCH_AT_LEAST ? ">=" : "<=", required, goal,
             reached_word (value, sense, required, goal));
  g_print ("\n");
}

void
bench_note (const char *format, ...)
{
  va_list arguments;
  va_start (arguments, format);
  g_autofree char *text = g_strdup_vprintf (format, arguments);
  va_end (arguments);
  g_print ("    %s\n", text);
}

const char *
bench_sizes (const BenchScene *scene)
{
  static char text[64];
  g_snprintf (text, sizeof text, "%u x %u", scene->load.mesh->n_triangles,
              scene->obstacle.mesh->n_triangles);
  return text;
}

double
bench_sweep_s (const BenchScene *scene, double far_m, TrnSweepResult results[BENCH_MOST_MOVES])
{
  TrnSweepOptions options
      = { .width_m = TRN_CERTIFY_M, .far_m = far_m, .far_share = TRN_FAR_SHARE, .jobs = 1 };
  double begin = bench_worked_s ();
  for (guint i = 0; i < scene->n_moves; i++)
    {
      TrnSweepPair pair = bench_scene_pair (scene, i);
      results[i] = trn_sweep_minimum (&pair, &options);
    }
  return bench_worked_s () - begin;
}

/* ---- FCL ---- */

typedef struct
{
  FclMesh *load, *obstacle;
  double least_m[BENCH_MOST_MOVES]; /* over all runs */
  guint made;                       /* of the queries, in the last run */
} Fcl;

static FclMesh *
fcl_mesh (const TrnMesh *mesh)
{
  G_STATIC_ASSERT (sizeof (TrnVec3) == 3 * sizeof (double)
                   && sizeof (TrnTriangle) == 3 * sizeof (unsigned));
  return fcl_bridge_mesh_new (&mesh->vertices[0].x, mesh->n_vertices, mesh->triangles[0].v,
                              mesh->n_triangles);
}

static FclPose
fcl_pose (const TrnPose *pose)
{
  FclPose out = { .position = { pose->position.x, pose->position.y, pose->position.z } };
  for (guint i = 0; i < 9; i++)
    out.turn[i] = pose->turn.m[i / 3][i % 3];
  return out;
}

/* The time of all queries, or of as many as the limit allows, scaled up. */
static double
fcl_seconds (Fcl *fcl, const BenchScene *scene, double limit_s)
{
  TrnPose identity = trn_pose_identity ();
  FclPose still = fcl_pose (&identity);
  double begin = bench_worked_s (), took = 0;
  for (fcl->made = 0; fcl->made < FCL_QUERIES && took < limit_s; fcl->made++)
    {
      guint i = fcl->made * FCL_STRIDE % FCL_QUERIES;
      guint move = MIN (i / (FCL_QUERIES / scene->n_moves), scene->n_moves - 1);
      TrnPose pose = bench_scene_pose (scene, i, FCL_QUERIES);
      FclPose placed = fcl_pose (&pose);
      double d = fcl_bridge_mesh_distance (fcl->load, &placed, fcl->obstacle, &still);
      fcl->least_m[move] = fmin (fcl->least_m[move], d);
      took = bench_worked_s () - begin;
    }
  return took * FCL_QUERIES / fcl->made;
}

/* ---- the ratio on one scene ---- */

typedef struct
{
  const char *name;
  BenchSceneMake make;
  guint n_load, n_obstacle;
  double required, goal; /* of the ratio */
} Case;

/* What is proven must hold for every sample. */
static void
note_moves (const Fcl *fcl, const BenchScene *scene, const TrnSweepResult *results)
{
  for (guint i = 0; i < scene->n_moves; i++)
    {
      const TrnSweepResult *r = &results[i];
      gboolean violated = fcl->least_m[i] < r->lower_m;
      bench_note (
          "move %u: [%.4f, %.4f] m at s = %.4f, FCL's least sample %.4f m, %" G_GUINT64_FORMAT
          " bounds%s%s",
          i, r->lower_m, r->upper_m, r->s, fcl->least_m[i], r->steps,
          r->complete ? "" : ", CUT SHORT", violated ? ", BOUND VIOLATED" : "");
    }
}

/* The ratio; 0 where the sweep was cut short, since it then gave no answer. */
static double
ratio_get (double fcl_s, double sweep_s, const BenchScene *scene, const TrnSweepResult *results)
{
  for (guint i = 0; i < scene->n_moves; i++)
    if (!results[i].complete)
      return 0;
  return fcl_s / sweep_s;
}

static void
bench_case (const Case *c, const BenchOptions *options)
{
  g_autoptr (BenchScene) scene = c->make (c->n_load, c->n_obstacle);
  Fcl fcl = { .load = fcl_mesh (scene->load.mesh), .obstacle = fcl_mesh (scene->obstacle.mesh) };
  for (guint i = 0; i < BENCH_MOST_MOVES; i++)
    fcl.least_m[i] = INFINITY;
  guint runs = options->runs;
  g_autofree double *sampled = g_new (double, runs), *all = g_new (double, runs);
  g_autofree double *near = g_new (double, runs), *ratio = g_new (double, runs);
  g_autofree double *ratio_near = g_new (double, runs);
  TrnSweepResult results[BENCH_MOST_MOVES], wide[BENCH_MOST_MOVES];
  for (guint i = 0; i < runs; i++)
    {
      sampled[i] = fcl_seconds (&fcl, scene, options->fcl_limit_s);
      all[i] = bench_sweep_s (scene, INFINITY, results);
      near[i] = bench_sweep_s (scene, FAR_M, wide);
      ratio[i] = ratio_get (sampled[i], all[i], scene, results);
      ratio_near[i] = ratio_get (sampled[i], near[i], scene, wide);
    }
  g_autofree char *what = g_strdup_printf ("%s, 1 mm everywhere", bench_sizes (scene));
  bench_print (c->name, what, bench_median (ratio, runs), "x FCL", BENCH_AT_LEAST, c->required,
               c->goal);
  g_autofree char *what_near
      = g_strdup_printf ("%s, 1 mm, from %g m on 5 %%", bench_sizes (scene), FAR_M);
  bench_print (c->name, what_near, bench_median (ratio_near, runs), "x FCL", BENCH_AT_LEAST,
               c->required, c->goal);
  bench_note ("sweep %.3f ms, with 5 %% %.3f ms, FCL %.0f ms%s", 1e3 * bench_median (all, runs),
              1e3 * bench_median (near, runs), 1e3 * bench_median (sampled, runs),
              fcl.made < FCL_QUERIES ? ", scaled up" : "");
  if (fcl.made < FCL_QUERIES)
    bench_note ("%u of %u queries were made", fcl.made, FCL_QUERIES);
  note_moves (&fcl, scene, results);
  fcl_bridge_mesh_free (fcl.load);
  fcl_bridge_mesh_free (fcl.obstacle);
}

static const Case cases[] = {
  { "column-small", bench_scene_column, 20000, 5000, 800, 4000 },
  { "column-large", bench_scene_column, 200000, 200000, 400, 3500 },
  { "concentric", bench_scene_concentric, 200000, 200000, 25, 100 },
  { "half-turn", bench_scene_half_turn, 200000, 200000, 25, 100 },
  { "lattice", bench_scene_lattice, 200000, 200000, 100, 300 },
  { "pipework", bench_scene_pipework, 200000, 200000, 100, 300 },
  { "blob", bench_scene_blob, 200000, 200000, 100, 300 },
};

/* ---- growth ---- */

static void
bench_growth (const char *name, const BenchOptions *options)
{
  g_autoptr (BenchScene) small = bench_scene_column (200000, 200000);
  g_autoptr (BenchScene) large = bench_scene_column (2000000, 2000000);
  guint runs = options->runs;
  g_autofree double *before = g_new (double, runs), *after = g_new (double, runs);
  g_autofree double *growth = g_new (double, runs);
  TrnSweepResult results[BENCH_MOST_MOVES];
  for (guint i = 0; i < runs; i++)
    {
      before[i] = bench_sweep_s (small, INFINITY, results);
      after[i] = bench_sweep_s (large, INFINITY, results);
      growth[i] = after[i] / before[i];
    }
  g_autofree char *what = g_strdup_printf ("%s, ten times the triangles", bench_sizes (large));
  bench_print (name, what, bench_median (growth, runs), "x the time", BENCH_AT_MOST, 0, 0);
  bench_note ("%.3f ms, before %.3f ms", 1e3 * bench_median (after, runs),
              1e3 * bench_median (before, runs));
}

static const struct
{
  const char *name;
  void (*run) (const char *name, const BenchOptions *options);
} others[] = {
  { "growth", bench_growth }, { "threads", bench_threads }, { "scrubbing", bench_scrubbing },
  { "build", bench_build },   { "demos", bench_demos },
};

/* ---- which ---- */

static gboolean
is_asked (char **names, const char *name)
{
  return names == NULL || g_strv_contains ((const char *const *)names, name);
}

static void
list_names (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    g_print ("%s\n", cases[i].name);
  for (guint i = 0; i < G_N_ELEMENTS (others); i++)
    g_print ("%s\n", others[i].name);
}

static void
run_all (char **names, const BenchOptions *options)
{
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    if (is_asked (names, cases[i].name))
      bench_case (&cases[i], options);
  for (guint i = 0; i < G_N_ELEMENTS (others); i++)
    if (is_asked (names, others[i].name))
      others[i].run (others[i].name, options);
}

int
main (int argc, char **argv)
{
  int runs = 3;
  gboolean list = FALSE;
  g_auto (GStrv) names = NULL;
  BenchOptions options = { .fcl_limit_s = 20, .trunnion = BENCH_TRUNNION, .demos = BENCH_DEMOS };
  const GOptionEntry entries[] = {
    { "runs", 0, 0, G_OPTION_ARG_INT, &runs, "how often each is measured", "N" },
    { "fcl-limit", 0, 0, G_OPTION_ARG_DOUBLE, &options.fcl_limit_s,
      "cut FCL short after this, in each run", "SECONDS" },
    { "list", 0, 0, G_OPTION_ARG_NONE, &list, "print what can be measured", NULL },
    { G_OPTION_REMAINING, 0, 0, G_OPTION_ARG_STRING_ARRAY, &names, NULL, "NAME" },
    { 0 },
  };
  g_autoptr (GOptionContext) context = g_option_context_new (NULL);
  g_option_context_add_main_entries (context, entries, NULL);
  g_autoptr (GError) error = NULL;
  if (!g_option_context_parse (context, &argc, &argv, &error))
    {
      g_printerr ("%s\n", error->message);
      return 2;
    }
  options.runs = (guint)MAX (1, runs);
  if (list)
    list_names ();
  else
    run_all (names, &options);
  return 0;
}
