/* Random plans, edited in one number after the other, as at a desk: with the cache of the checks
 * before, the results are the same, byte for byte, as without one. Any number of the plan may be
 * the one: a way, a place, a size, a clearance, a tolerance, a time. A plan and its edits are made
 * from a seed of their own, which is told where something does not hold. */
#include <string.h>

#include "oracle.h"
#include "parallel.h"
#include "plan-maker.h"
#include "results.h"
#include "test-scale.h"

#define N_PLANS 30
#define FIRST_SEED 1000
#define EDITS 4
#define MOST_TRIES 20
#define ANSWER_BYTES (1 << 20)

typedef struct
{
  const char *folder;
  guint n_plans;
  gint n_edits, n_hits, n_misses, n_refused; /* atomic */
} All;

/* The results file; NULL when the plan cannot be read or built. */
static char *
check (const char *json, const char *folder, guint jobs, TrnCache *cache)
{
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_autoptr (TrnPlan) plan
      = trn_plan_parse (json, strlen (json), "random.trunnion", folder, NULL, diags);
  TrnProgramme *programme = plan != NULL ? trn_programme_play (plan, diags) : NULL;
  if (programme == NULL)
    return NULL;
  TrnSceneOptions scene_options = { .solid_deviation_m = 0.06, .jobs = 1, .cache = cache };
  g_autoptr (TrnScene) scene = trn_scene_build_take (programme, &scene_options, diags);
  if (scene == NULL)
    return NULL;
  TrnCheckOptions options = { .jobs = jobs, .cache = cache };
  g_autoptr (TrnFindings) findings = trn_checks_run (scene, &options);
  gsize length;
  return trn_results_to_json (scene, findings, "test", &length);
}

/* ---- edits ---- */

static void
list_numbers (JsonNode *node, GPtrArray *numbers)
{
  if (JSON_NODE_HOLDS_ARRAY (node))
    {
      JsonArray *array = json_node_get_array (node);
      for (guint i = 0; i < json_array_get_length (array); i++)
        list_numbers (json_array_get_element (array, i), numbers);
    }
  else if (JSON_NODE_HOLDS_OBJECT (node))
    {
      JsonObjectIter iter;
      JsonNode *member;
      json_object_iter_init (&iter, json_node_get_object (node));
      while (json_object_iter_next (&iter, NULL, &member))
        list_numbers (member, numbers);
    }
  else if (json_node_get_value_type (node) == G_TYPE_DOUBLE
           || json_node_get_value_type (node) == G_TYPE_INT64)
    g_ptr_array_add (numbers, node);
}

/* One number of the plan is another; by 5 cm where it is a length. */
static char *
edit (const char *json, GRand *rand)
{
  g_autoptr (JsonNode) root = oracle_parse (json);
  g_autoptr (GPtrArray) numbers = g_ptr_array_new ();
  list_numbers (root, numbers);
  JsonNode *number = numbers->pdata[g_rand_int_range (rand, 0, (gint32)numbers->len)];
  double by = g_rand_boolean (rand) ? 0.05 : -0.05, value = json_node_get_double (number) + by;
  json_node_set_double (number, value);
  return json_to_string (root, FALSE);
}

static void
edit_one (guint index, gpointer data)
{
  All *all = data;
  guint32 seed = FIRST_SEED + index;
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  g_autoptr (TrnCache) cache = trn_cache_new (ANSWER_BYTES);
  char *json = plan_maker_make (seed);
  g_autofree char *first = check (json, all->folder, 1, cache);
  g_assert_nonnull (first);
  guint done = 0;
  for (guint try = 0; try < MOST_TRIES && done < EDITS; try++)
    {
      char *edited = edit (json, rand);
      g_autofree char *fresh = check (edited, all->folder, 1, NULL);
      g_autofree char *again = check (edited, all->folder, 1 + try % 2, cache);
      if (g_strcmp0 (fresh, again) != 0)
        g_error ("plan with seed %u, edit %u: the results differ with a cache\n%s", seed, try,
                 edited);
      if (fresh == NULL)
        {
          g_atomic_int_inc (&all->n_refused);
          g_free (edited);
          continue;
        }
      g_free (json);
      json = edited;
      done++;
    }
  g_free (json);
  TrnCacheCount count = trn_cache_count (cache, TRN_CACHE_SWEEP);
  g_atomic_int_add (&all->n_edits, (gint)done);
  g_atomic_int_add (&all->n_hits, (gint)count.hits);
  g_atomic_int_add (&all->n_misses, (gint)count.misses);
}

static void
test_edits (gconstpointer data)
{
  All all = { .folder = data, .n_plans = test_scaled (N_PLANS) };
  g_test_message ("%u plans, the first with seed %u", all.n_plans, FIRST_SEED);
  trn_parallel_for (all.n_plans, 0, edit_one, &all);
  g_test_message ("%d edits, %d more that the plan did not allow; %d sweeps made, %d found again",
                  all.n_edits, all.n_refused, all.n_misses, all.n_hits);
  if (all.n_plans < N_PLANS)
    return;
  g_assert_cmpint (all.n_edits, >=, 2 * N_PLANS);
  g_assert_cmpint (all.n_hits, >=, all.n_misses);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_autofree char *folder = plan_maker_write_meshes ();
  g_test_add_data_func ("/property/edits/same-with-cache", folder, test_edits);
  int status = g_test_run ();
  plan_maker_remove_meshes (folder);
  return status;
}
