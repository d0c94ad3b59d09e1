/* bench-recheck.c: what a check costs after one move was edited by 5 cm, against a check without a
 * cache: of each demo, the move in the middle of the lift in the middle that goes some way.
 *
 *   bench-recheck [FOLDER OF DEMOS]
 *
 * Each run begins with an empty cache, reads and checks the plan as it is, which is not measured,
 * then the edited one, with the cache and without. Printed are the medians of the ratios; the two
 * results are compared byte for byte. */
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include <json-glib/json-glib.h>

#include "results.h"

#define RUNS 5
#define EDIT_M 0.05
#define ANSWER_BYTES ((gsize)64 << 20)

typedef struct
{
  /* Of this process's processors: files are read in others. Trees are made while the next files are
   * read, so that no wall time is that of trees alone. */
  double trees_s, checks_s;
  double wall_s; /* all in all, mesh files read */
  char *results;
} Took;

static double
clock_s (clockid_t id)
{
  struct timespec now;
  clock_gettime (id, &now);
  return (double)now.tv_sec + 1e-9 * (double)now.tv_nsec;
}

static Took
check (const char *text, const char *folder, TrnCache *cache)
{
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_autoptr (TrnPlan) plan
      = trn_plan_parse (text, strlen (text), "demo.trunnion", folder, NULL, diags);
  TrnProgramme *programme = plan != NULL ? trn_programme_play (plan, diags) : NULL;
  if (programme == NULL)
    g_error ("a demo in %s cannot be read", folder);
  double worked_s = clock_s (CLOCK_PROCESS_CPUTIME_ID), wall_s = clock_s (CLOCK_MONOTONIC);
  TrnSceneOptions scene_options = { .cache = cache };
  g_autoptr (TrnScene) scene = trn_scene_build_take (programme, &scene_options, diags);
  if (scene == NULL)
    g_error ("no scene of a demo in %s", folder);
  TrnCheckOptions options = { .cache = cache };
  const double built_s = clock_s (CLOCK_PROCESS_CPUTIME_ID);
  g_autoptr (TrnFindings) findings = trn_checks_run (scene, &options);
  gsize length;
  return (Took){ .trees_s = built_s - worked_s,
                 .checks_s = clock_s (CLOCK_PROCESS_CPUTIME_ID) - built_s,
                 .wall_s = clock_s (CLOCK_MONOTONIC) - wall_s,
                 .results = trn_results_to_json (scene, findings, "bench", &length) };
}

/* ---- the edit ---- */

/* TRUE when @move goes some way and is now a little longer. */
static gboolean
edit_move (JsonObject *move)
{
  static const char *const go[] = { "hoist", "travel", "move", NULL };
  if (!json_object_has_member (move, "by")
      || !g_strv_contains (go, json_object_get_string_member (move, "do")))
    return FALSE;
  JsonNode *by = json_object_get_member (move, "by");
  if (!JSON_NODE_HOLDS_ARRAY (by))
    {
      json_object_set_double_member (move, "by", json_node_get_double (by) + EDIT_M);
      return TRUE;
    }
  JsonArray *old = json_node_get_array (by), *longer = json_array_new ();
  for (guint i = 0; i < json_array_get_length (old); i++)
    json_array_add_double_element (longer,
                                   json_array_get_double_element (old, i) + (i == 0 ? EDIT_M : 0));
  json_object_set_array_member (move, "by", longer);
  return TRUE;
}

static char *
edit (const char *text, char **what)
{
  g_autoptr (JsonNode) root = json_from_string (text, NULL);
  JsonArray *programme = json_object_get_array_member (json_node_get_object (root), "programme");
  g_autoptr (GPtrArray) lifts = g_ptr_array_new ();
  for (guint i = 0; i < json_array_get_length (programme); i++)
    {
      JsonObject *entry = json_array_get_object_element (programme, i);
      if (json_object_has_member (entry, "lift"))
        g_ptr_array_add (lifts, entry);
    }
  JsonObject *lift = lifts->pdata[lifts->len / 2];
  JsonArray *moves = json_object_get_array_member (lift, "moves");
  guint n = json_array_get_length (moves);
  for (guint i = 0; i < n; i++)
    {
      guint away = (i + 1) / 2;
      guint index = (n / 2 + (i % 2 == 0 ? n - away : away)) % n;
      if (!edit_move (json_array_get_object_element (moves, index)))
        continue;
      *what = g_strdup_printf ("move %u of %u of lift %u of %u", index + 1, n, lifts->len / 2 + 1,
                               lifts->len);
      return json_to_string (root, FALSE);
    }
  g_error ("no move of a demo goes any way");
}

/* ---- the runs ---- */

static int
compare (gconstpointer a, gconstpointer b)
{
  const double *x = a, *y = b;
  return *x < *y ? -1 : *x > *y;
}

static double
median (double *values)
{
  qsort (values, RUNS, sizeof values[0], compare);
  return values[RUNS / 2];
}

static void
demo (const char *folder, const char *name)
{
  g_autofree char *file = g_strconcat (name, ".trunnion", NULL);
  g_autofree char *path = g_build_filename (folder, file, NULL);
  g_autofree char *text = NULL, *what = NULL;
  if (!g_file_get_contents (path, &text, NULL, NULL))
    return;
  g_autofree char *edited = edit (text, &what);
  double worked[RUNS], all[RUNS], again_s[2][RUNS], full_s[2][RUNS];
  TrnCacheCount sweeps = { 0, 0, 0 };
  guint64 asked = 0, missed = 0;
  for (guint i = 0; i < RUNS; i++)
    {
      g_autoptr (TrnCache) cache = trn_cache_new (ANSWER_BYTES);
      Took before = check (text, folder, cache);
      sweeps = trn_cache_count (cache, TRN_CACHE_SWEEP);
      Took again = check (edited, folder, cache), full = check (edited, folder, NULL);
      TrnCacheCount now = trn_cache_count (cache, TRN_CACHE_SWEEP);
      asked = now.hits + now.misses - sweeps.hits - sweeps.misses;
      missed = now.misses - sweeps.misses;
      if (strcmp (again.results, full.results) != 0)
        g_error ("%s: the results differ", name);
      worked[i] = (again.trees_s + again.checks_s) / (full.trees_s + full.checks_s);
      again_s[0][i] = again.trees_s;
      again_s[1][i] = again.checks_s;
      full_s[0][i] = full.trees_s;
      full_s[1][i] = full.checks_s;
      all[i] = again.wall_s / full.wall_s;
      g_free (before.results);
      g_free (again.results);
      g_free (full.results);
    }
  g_print ("%-16s %s, 5 cm more, against a full check, at most 1/3:\n", name, what);
  g_print ("    %.3f of the processors' time, %.3f of the time with mesh files read\n",
           median (worked), median (all));
  g_print ("    of the processors' time for meshes and trees %.1f ms instead of %.1f ms, for "
           "checks %.1f ms"
           " instead of %.1f ms; %" G_GUINT64_FORMAT " of %" G_GUINT64_FORMAT " sweeps were made\n",
           1e3 * median (again_s[0]), 1e3 * median (full_s[0]), 1e3 * median (again_s[1]),
           1e3 * median (full_s[1]), missed, asked);
}

int
main (int argc, char **argv)
{
  const char *demos = argc > 1 ? argv[1] : BENCH_DEMOS, *name;
  g_autoptr (GDir) dir = g_dir_open (demos, 0, NULL);
  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *folder = g_build_filename (demos, name, NULL);
      demo (folder, name);
    }
  return 0;
}
