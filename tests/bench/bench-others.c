/* bench-others.c: the measurements that need no FCL: two threads, scrubbing, building trees, and
 * the demos. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include <gio/gio.h>

#include "bench.h"
#include "parallel.h"
#include "tolerances.h"

#define LARGE 200000

/* Wall time says little where others work, too. @got: the share of a processor that one busy thread
 * had; NAN: it was not measured. */
static void
note_busy (double got)
{
  double load = 0;
  getloadavg (&load, 1);
  if (got < 0.97)
    bench_note ("the machine was busy (load %.1f, one thread got %.2f of a processor)", load, got);
  else if (load > 1.3)
    bench_note ("the machine was busy (load %.1f)", load);
}

/* ---- two threads ---- */

typedef struct
{
  const BenchScene *scene;
  TrnSweepOptions options;
  guint order[BENCH_MOST_MOVES]; /* the longest way first, as checks have them */
} Moves;

static double
way_m (const BenchScene *scene, guint move)
{
  const TrnMotion *motion = &scene->motions[move];
  return trn_motion_speed (motion, trn_sweep_reach (scene->load.bvh, motion));
}

static int
compare_ways (gconstpointer a, gconstpointer b, gpointer scene)
{
  double p = way_m (scene, *(const guint *)a), q = way_m (scene, *(const guint *)b);
  return p > q ? -1 : p < q;
}

static void
sweep_move (guint index, gpointer data)
{
  const Moves *moves = data;
  TrnSweepPair pair = bench_scene_pair (moves->scene, moves->order[index]);
  trn_sweep_minimum (&pair, &moves->options);
}

/* Wall time of all moves, and in @busy how much of the processors' time went to it, 1 being what
 * one thread can get. */
static double
moves_wall_s (const BenchScene *scene, guint jobs, double *busy)
{
  Moves moves = {
    scene,
    { .width_m = TRN_CERTIFY_M, .far_m = INFINITY, .far_share = TRN_FAR_SHARE, .jobs = jobs },
    { 0 },
  };
  for (guint i = 0; i < scene->n_moves; i++)
    moves.order[i] = i;
  g_qsort_with_data (moves.order, (gint)scene->n_moves, sizeof moves.order[0], compare_ways,
                     (gpointer)scene);
  double begin = bench_wall_s (), worked = bench_worked_s ();
  trn_parallel_for (scene->n_moves, jobs, sweep_move, &moves);
  double took = bench_wall_s () - begin;
  *busy = (bench_worked_s () - worked) / took;
  return took;
}

static void
threads_of (const char *name, BenchSceneMake make, const BenchOptions *options, gboolean required)
{
  g_autoptr (BenchScene) scene = make (LARGE, LARGE);
  const guint least = 11, runs = required ? MAX (least, options->runs) : least;
  g_autofree double *ratio = g_new (double, runs), *one = g_new (double, runs);
  g_autofree double *two = g_new (double, runs), *share = g_new (double, runs);
  g_autofree double *share_two = g_new (double, runs);
  for (guint i = 0; i < runs; i++)
    {
      one[i] = moves_wall_s (scene, 1, &share[i]);
      two[i] = moves_wall_s (scene, 2, &share_two[i]);
      ratio[i] = one[i] / two[i];
    }
  g_autofree char *what = g_strdup_printf ("%s, two threads against one", bench_sizes (scene));
  bench_print (name, what, bench_median (ratio, runs), "x as fast", BENCH_AT_LEAST,
               required ? 1.7 : 0, 1.9);
  double one_s = bench_median (one, runs), two_s = bench_median (two, runs);
  bench_note ("%.3f ms and %.3f ms of wall time; two threads got %.2f processors", 1e3 * one_s,
              1e3 * two_s, bench_median (share_two, runs));
  /* On a busy machine the runs that nothing came between. */
  double least_one_s = INFINITY, least_two_s = INFINITY;
  for (guint i = 0; i < runs; i++)
    {
      least_one_s = fmin (least_one_s, one[i]);
      least_two_s = fmin (least_two_s, two[i]);
    }
  bench_note ("at best %.3f ms and %.3f ms: %.2f x as fast", 1e3 * least_one_s, 1e3 * least_two_s,
              least_one_s / least_two_s);
  note_busy (bench_median (share, runs));
}

void
bench_threads (const char *name, const BenchOptions *options)
{
  threads_of (name, bench_scene_column, options, TRUE);
  threads_of (name, bench_scene_half_turn, options, FALSE);
}

/* ---- scrubbing ---- */

#define SCRUB_POSES 2000

/* What the desk does at every picture: the distance of the moment, begun where it was before. */
void
bench_scrubbing (const char *name, const BenchOptions *options)
{
  g_autoptr (BenchScene) scene = bench_scene_column (LARGE, LARGE);
  TrnPose identity = trn_pose_identity ();
  double *took = g_new (double, SCRUB_POSES);
  g_autofree double *median = g_new (double, options->runs), *late = g_new (double, options->runs);
  g_autofree double *worst = g_new (double, options->runs);
  for (guint run = 0; run < options->runs; run++)
    {
      TrnDistanceHint hint = { 0 };
      for (guint i = 0; i < SCRUB_POSES; i++)
        {
          TrnPose pose = bench_scene_pose (scene, i, SCRUB_POSES);
          double begin = bench_worked_s ();
          TrnDistance d = trn_mesh_distance_within (scene->load.bvh, &pose, scene->obstacle.bvh,
                                                    &identity, INFINITY, TRN_CONTACT_M, &hint);
          took[i] = 1e3 * (bench_worked_s () - begin);
          hint = d.pair;
        }
      median[run] = bench_median (took, SCRUB_POSES);
      late[run] = took[SCRUB_POSES - 1 - SCRUB_POSES / 1000];
      worst[run] = took[SCRUB_POSES - 1];
    }
  g_free (took);
  g_autofree char *what = g_strdup_printf ("%s, one pose, warm: ", bench_sizes (scene));
  const char *of[3] = { "median", "99.9 %", "greatest" };
  double value[3] = { bench_median (median, options->runs), bench_median (late, options->runs),
                      bench_median (worst, options->runs) };
  double most[3] = { 0.1, 1, 0 };
  for (guint i = 0; i < 3; i++)
    {
      g_autofree char *text = g_strconcat (what, of[i], NULL);
      bench_print (name, text, value[i], "ms", BENCH_AT_MOST, most[i], most[i]);
    }
}

/* ---- building trees ---- */

static double
tree_bytes (const TrnBvh *bvh)
{
  double bytes = (double)bvh->n_nodes * sizeof *bvh->nodes;
  bytes += (double)bvh->n_blocks * sizeof *bvh->blocks;
  return bytes + (double)bvh->mesh->n_triangles * sizeof *bvh->order;
}

static void
build_one (const char *name, const TrnMesh *mesh, const char *of, guint runs)
{
  g_autofree double *one = g_new (double, runs), *two = g_new (double, runs);
  g_autofree double *share = g_new (double, runs);
  double bytes = 0;
  for (guint i = 0; i < runs; i++)
    {
      double begin = bench_wall_s (), worked = bench_worked_s ();
      TrnBvh *alone = trn_bvh_build (mesh, 1);
      one[i] = bench_worked_s () - worked;
      share[i] = one[i] / (bench_wall_s () - begin);
      trn_bvh_free (alone);
      begin = bench_wall_s ();
      g_autoptr (TrnBvh) shared = trn_bvh_build (mesh, 2);
      two[i] = bench_wall_s () - begin;
      bytes = tree_bytes (shared) / mesh->n_triangles;
    }
  const char *what[3] = { "two threads (wall)", "one thread", "a triangle" };
  double value[3] = { bench_median (two, runs), bench_median (one, runs), bytes };
  double most[3] = { 0.3, 0, 60 };
  for (guint i = 0; i < 3; i++)
    {
      g_autofree char *text = g_strdup_printf ("%u, %s, %s", mesh->n_triangles, of, what[i]);
      bench_print (name, text, value[i], i < 2 ? "s" : "bytes", BENCH_AT_MOST, most[i], most[i]);
    }
  note_busy (bench_median (share, runs));
}

void
bench_build (const char *name, const BenchOptions *options)
{
  g_autoptr (BenchScene) column = bench_scene_column (LARGE, LARGE);
  build_one (name, column->obstacle.mesh, "tower", options->runs);
  g_autoptr (BenchScene) lattice = bench_scene_lattice (LARGE, LARGE);
  build_one (name, lattice->obstacle.mesh, "lattice", options->runs);
  g_autoptr (BenchScene) blob = bench_scene_blob (LARGE, LARGE);
  build_one (name, blob->obstacle.mesh, "blob", options->runs);
}

/* ---- demos ---- */

/* From the line "timing: NAME 12.3 ms". */
static double
timing_ms (const char *text, const char *timing)
{
  g_autofree char *begin = g_strdup_printf ("timing: %s ", timing);
  const char *at = strstr (text, begin);
  return at == NULL ? NAN : g_ascii_strtod (at + strlen (begin), NULL);
}

/* Runs the program on @plan; FALSE when its times cannot be had. */
static gboolean
demo_times (const BenchOptions *options, const char *plan, double *build_s, double *sweep_s)
{
  const char *command[] = { options->trunnion, "check", plan, "--certify", "1", "--timings", NULL };
  g_autofree char *out = NULL, *err = NULL;
  g_autoptr (GError) error = NULL;
  if (!g_spawn_sync (NULL, (char **)command, NULL, G_SPAWN_DEFAULT, NULL, NULL, &out, &err, NULL,
                     &error))
    {
      bench_note ("%s", error->message);
      return FALSE;
    }
  *build_s = timing_ms (err, "build") / 1e3;
  *sweep_s = timing_ms (err, "sweep") / 1e3;
  if (isfinite (*build_s + *sweep_s))
    return TRUE;
  bench_note ("no times of %s: %s", plan, err);
  return FALSE;
}

static void
demo (const char *name, const char *plan, const char *folder, const BenchOptions *options)
{
  guint runs = options->runs;
  g_autofree double *build_s = g_new (double, runs), *sweep_s = g_new (double, runs);
  g_autofree double *all_s = g_new (double, runs);
  for (guint i = 0; i < runs; i++)
    {
      if (!demo_times (options, plan, &build_s[i], &sweep_s[i]))
        return;
      all_s[i] = build_s[i] + sweep_s[i];
    }
  g_autofree char *what = g_strdup_printf ("%s, 1 mm, after import (wall)", folder);
  bench_print (name, what, bench_median (all_s, runs), "s", BENCH_AT_MOST, 0.2, 0.2);
  bench_note ("trees %.3f s, checks %.3f s", bench_median (build_s, runs),
              bench_median (sweep_s, runs));
  note_busy (NAN);
}

void
bench_demos (const char *name, const BenchOptions *options)
{
  g_autoptr (GDir) dir = g_dir_open (options->demos, 0, NULL);
  const char *folder;
  while (dir != NULL && (folder = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *file = g_strconcat (folder, ".trunnion", NULL);
      g_autofree char *plan = g_build_filename (options->demos, folder, file, NULL);
      if (g_file_test (plan, G_FILE_TEST_EXISTS))
        demo (name, plan, folder, options);
    }
}
