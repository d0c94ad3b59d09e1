/* What is found in a move is kept (lift-key.h), and a key that leaves something out would hand on
 * what holds no longer. So the demos, whose gear, rigging, forces and wind are those of a plan as a
 * person writes it, are changed in everything that they say, key by key: a number is another, a
 * word is another of the plan or of the schema, a key or an entry of a list is not there. Each such
 * plan that can be read and played gives with the cache of all checks before it the same results,
 * byte for byte, as without one. So do random plans with random gear, edited once after the other.
 *
 * Of the schema's keys every one is in a demo, or is put in by the table below. Mesh files are
 * boxes here: what the files are is no matter of the key, since the hash of a mesh is in it. With
 * TRUNNION_TEST_SCALE at 100 and more each key is changed; else some, told by their seed. */
#include <glib/gstdio.h>
#include <string.h>

#include "gear-maker.h"
#include "oracle.h"
#include "parallel.h"
#include "plan-maker.h"
#include "results.h"
#include "test-scale.h"

#define CHANGES 3 /* of each demo */
#define N_PLANS 6
#define FIRST_SEED 4000
#define EDITS 4
#define ANSWER_BYTES (64 << 20)
#define DEVIATION_M 0.06
#define CERTIFY_M 0.5

/* ---- checks ---- */

/* The results file; NULL when the plan cannot be read or built. */
static char *
check_with (const char *json, const char *folder, const TrnCheckOptions *options)
{
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_autoptr (TrnPlan) plan
      = trn_plan_parse (json, strlen (json), "edited.trunnion", folder, NULL, diags);
  TrnProgramme *programme = plan != NULL ? trn_programme_play (plan, diags) : NULL;
  if (programme == NULL)
    return NULL;
  TrnSceneOptions scene_options
      = { .solid_deviation_m = DEVIATION_M, .jobs = 1, .cache = options->cache };
  g_autoptr (TrnScene) scene = trn_scene_build_take (programme, &scene_options, diags);
  if (scene == NULL)
    return NULL;
  g_autoptr (TrnFindings) findings = trn_checks_run (scene, options);
  gsize length;
  return trn_results_to_json (scene, findings, "test", &length);
}

static char *
check (const char *json, const char *folder, TrnCache *cache)
{
  const TrnCheckOptions options = { .jobs = 2, .certify_m = CERTIFY_M, .cache = cache };
  return check_with (json, folder, &options);
}

/* FALSE where the plan is none. */
static gboolean
is_same (const char *json, const char *folder, TrnCache *cache, const char *what)
{
  g_autofree char *fresh = check (json, folder, NULL);
  g_autofree char *again = check (json, folder, cache);
  if (g_strcmp0 (fresh, again) != 0)
    g_error ("%s: the results differ with a cache\n%s", what, json);
  return fresh != NULL;
}

/* ---- places in a plan ---- */

typedef struct
{
  JsonNode *node;     /* the object or array that it is in */
  const char *member; /* NULL: an element of an array */
  guint element;
  char *path;
} Place;

static void
place_clear (gpointer data)
{
  g_free (((Place *)data)->path);
}

static JsonNode *
node_at (const Place *place)
{
  if (place->member != NULL)
    return json_object_get_member (json_node_get_object (place->node), place->member);
  return json_array_get_element (json_node_get_array (place->node), place->element);
}

static void list_places (JsonNode *node, const char *path, GArray *places);

static void
add_place (Place place, const char *path, GArray *places)
{
  place.path = place.member != NULL ? g_strdup_printf ("%s/%s", path, place.member)
                                    : g_strdup_printf ("%s/%u", path, place.element);
  g_array_append_val (places, place);
  list_places (node_at (&place), place.path, places);
}

static void
list_places (JsonNode *node, const char *path, GArray *places)
{
  if (JSON_NODE_HOLDS_ARRAY (node))
    for (guint i = 0; i < json_array_get_length (json_node_get_array (node)); i++)
      add_place ((Place){ .node = node, .element = i }, path, places);
  if (!JSON_NODE_HOLDS_OBJECT (node))
    return;
  JsonObjectIter iter;
  const char *member;
  json_object_iter_init_ordered (&iter, json_node_get_object (node));
  while (json_object_iter_next_ordered (&iter, &member, NULL))
    add_place ((Place){ .node = node, .member = member }, path, places);
}

static GArray *
places_of (JsonNode *root)
{
  GArray *places = g_array_new (FALSE, FALSE, sizeof (Place));
  g_array_set_clear_func (places, place_clear);
  list_places (root, "", places);
  return places;
}

/* ---- changes ---- */

/* Words that a plan may have, none of which changes what a number means. */
static const char *const words[]
    = { "crane",      "gantry",     "load",         "hoist",        "travel", "turn",
        "wait",       "free",       "drawn",        "start",        "end",    "both",
        "fixed",      "head-plumb", "beam-a",       "beam-b",       "hook",   "tracks",
        "outriggers", "en-50110",   "vde-0105-100", "cfr-1926-1408" };

/* Puts @new_taken where @place is; NULL takes away what is there. */
static void
put (const Place *place, JsonNode *new_taken)
{
  if (place->member != NULL)
    {
      JsonObject *object = json_node_get_object (place->node);
      if (new_taken != NULL)
        json_object_set_member (object, place->member, new_taken);
      else
        json_object_remove_member (object, place->member);
      return;
    }
  JsonArray *array = json_node_get_array (place->node);
  json_array_remove_element (array, place->element);
  if (new_taken == NULL)
    return;
  /* There is no way to put one in between. */
  g_autoptr (GPtrArray) after = g_ptr_array_new ();
  while (json_array_get_length (array) > place->element)
    {
      g_ptr_array_add (after, json_array_dup_element (array, place->element));
      json_array_remove_element (array, place->element);
    }
  json_array_add_element (array, new_taken);
  for (guint i = 0; i < after->len; i++)
    json_array_add_element (array, after->pdata[i]);
}

/* Another value in the place of a scalar; NULL: it is none. */
static JsonNode *
other_value (JsonNode *node, guint kind)
{
  if (!JSON_NODE_HOLDS_VALUE (node))
    return NULL;
  JsonNode *other = json_node_copy (node);
  const GType type = json_node_get_value_type (node);
  if (type == G_TYPE_STRING && kind == 0)
    {
      g_autofree char *text = g_strconcat (json_node_get_string (node), "-x", NULL);
      json_node_set_string (other, text);
    }
  else if (type == G_TYPE_STRING)
    json_node_set_string (other, words[kind % G_N_ELEMENTS (words)]);
  else if (type == G_TYPE_BOOLEAN)
    json_node_set_boolean (other, !json_node_get_boolean (node));
  else
    {
      const double steps[] = { 0.05, -0.05, 1, -1 };
      json_node_set_double (other, json_node_get_double (node) + steps[kind % 4]);
    }
  return other;
}

/* Any of the plan; or, since a change of anything but moves lets nothing be found again, one of the
 * moves. */
static guint
random_place (GRand *rand, const GArray *places, gboolean of_moves)
{
  g_autoptr (GArray) all = g_array_new (FALSE, FALSE, sizeof (guint));
  for (guint i = 0; i < places->len; i++)
    {
      const char *path = g_array_index (places, Place, i).path;
      const char *moves = strstr (path, "/moves/");
      if (!of_moves || (moves != NULL && strstr (path, "/rigging/") == NULL))
        g_array_append_val (all, i);
    }
  return g_array_index (all, guint, g_rand_int_range (rand, 0, (gint32)all->len));
}

/* One place of the plan changed; NULL: it is a plan without another value there. */
static char *
change (const char *json, guint index, gboolean takes_away, guint kind, char **path)
{
  g_autoptr (JsonNode) root = oracle_parse (json);
  g_autoptr (GArray) places = places_of (root);
  const Place *place = &g_array_index (places, Place, index);
  JsonNode *other = takes_away ? NULL : other_value (node_at (place), kind);
  *path = g_strdup (place->path);
  if (!takes_away && other == NULL)
    return NULL;
  put (place, other);
  return json_to_string (root, FALSE);
}

/* ---- the demos ---- */

/* What no demo has, put into some object of one: the first that has @beside. */
static const struct
{
  const char *demo, *beside, *key, *value;
} additions[] = {
  { "column-tandem", "boom", "jib", "{\"length\": 6, \"offset\": 20, \"section\": [0.5, 0.5]}" },
  { "column-tandem", "boom", "park", "[3, 4, 2]" },
  { "column-tandem", "boom", "wind_limit", "9" },
  { "column-tandem", "boom", "keep_clear_from", "{\"load\": 0.3}" },
  { "column-tandem", "format", "wind",
    "{\"speed\": 5, \"drag\": 1.2, \"air_density\": 1.3, \"source\": \"made up\"}" },
  { "column-tandem", "boom", "ground",
    "{\"allowed_pressure\": 2e5, \"source\": \"made up\", \"stands_on\": \"gravel\", \"level\": "
    "0}" },
  { "column-tandem", "pad", "mat", "{\"size\": [6, 6, 0.2], \"mass\": 900}" },
  { "pump-column", "until_clear", "fit", "0.01" },
  { "pump-column", "speed", "air_density", "1.3" },
  { "pump-column", "format", "approach",
    "{\"rule\": \"own\", \"distance\": 2, \"source\": \"made up\"}" },
  { "pump-column", "dynamic", "dynamic", "{\"factor\": 1.2, \"source\": \"made up\"}" },
  { "lock-gate", "hook_point", "start", "{\"position\": [0, 0, -7.5], \"turn\": [90, 0, 0]}" },
};

/* Boxes in place of files, no two alike. */
static void
replace_meshes (JsonNode *node, guint *n)
{
  if (JSON_NODE_HOLDS_ARRAY (node))
    for (guint i = 0; i < json_array_get_length (json_node_get_array (node)); i++)
      replace_meshes (json_array_get_element (json_node_get_array (node), i), n);
  if (!JSON_NODE_HOLDS_OBJECT (node))
    return;
  JsonObject *object = json_node_get_object (node);
  if (json_object_has_member (object, "mesh"))
    {
      g_autofree char *solid = g_strdup_printf ("{\"kind\": \"box\", \"size\": [%g, 1, %g]}",
                                                0.5 + 0.1 * *n, 1.5 + 0.2 * *n);
      json_object_remove_member (object, "mesh");
      json_object_set_member (object, "solid", oracle_parse (solid));
      ++*n;
    }
  g_autoptr (GList) members = json_object_get_values (object);
  for (GList *at = members; at != NULL; at = at->next)
    replace_meshes (at->data, n);
}

static char *
demo_text (const char *name)
{
  g_autofree char *file = g_strconcat (name, ".trunnion", NULL);
  g_autofree char *path = g_build_filename (TEST_DEMOS, name, file, NULL);
  g_autofree char *text = NULL;
  g_assert_true (g_file_get_contents (path, &text, NULL, NULL));
  g_autoptr (JsonNode) root = oracle_parse (text);
  guint n = 0;
  replace_meshes (root, &n);
  return json_to_string (root, FALSE);
}

/* Number @index of the table, put in. */
static char *
add_key (const char *json, guint index)
{
  g_autoptr (JsonNode) root = oracle_parse (json);
  g_autoptr (GArray) places = places_of (root);
  for (guint i = 0; i < places->len; i++)
    {
      const Place *place = &g_array_index (places, Place, i);
      if (g_strcmp0 (place->member, additions[index].beside) != 0)
        continue;
      JsonObject *object = json_node_get_object (place->node);
      json_object_set_member (object, additions[index].key, oracle_parse (additions[index].value));
      return json_to_string (root, FALSE);
    }
  g_error ("no demo has “%s”", additions[index].beside);
}

/* The least share of changes that leave a plan, so that the test asks something. */
#define LEAST_SHARE 0.3

/* The numbers that say how far moves go. */
static GArray *
ways_of (const GArray *places)
{
  GArray *ways = g_array_new (FALSE, FALSE, sizeof (guint));
  for (guint i = 0; i < places->len; i++)
    {
      const Place *place = &g_array_index (places, Place, i);
      if (strstr (place->path, "/moves/") != NULL && strstr (place->path, "/by") != NULL
          && JSON_NODE_HOLDS_VALUE (node_at (place)))
        g_array_append_val (ways, i);
    }
  return ways;
}

/* How far each move goes, one after the other: what waits for a hoist that is yet to pick up, or
 * stays where one let go, is moved by moves before and after its own. Every other one of them, or
 * fewer where random tests are made smaller, from one that is drawn; what leaves no plan counts as
 * none. */
static void
change_ways (const char *text, const GArray *places, TrnCache *cache, GRand *rand)
{
  const guint every = 100 / MIN (test_scaled (50), 100);
  g_autoptr (GArray) ways = ways_of (places);
  const guint first = (guint)g_rand_int_range (rand, 0, (gint32)ways->len);
  guint n = 0, step = 1;
  for (guint i = 0; i < ways->len; i += step)
    {
      const guint way = g_array_index (ways, guint, (first + i) % ways->len);
      g_autofree char *path = NULL;
      g_autofree char *changed = change (text, way, FALSE, 0, &path);
      const gboolean is_plan = is_same (changed, NULL, cache, path);
      n += is_plan;
      step = is_plan ? every : 1;
    }
  g_test_message ("%u of %u ways changed, one of %u from number %u", n, ways->len, every, first);
  g_assert_cmpuint (n, >, 0);
}

static void
test_demo (gconstpointer data)
{
  const char *name = data;
  const guint32 seed = g_random_int ();
  g_test_message ("seed %u", seed);
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  g_autoptr (TrnCache) cache = trn_cache_new (ANSWER_BYTES);
  g_autofree char *text = demo_text (name);
  g_autoptr (JsonNode) root = oracle_parse (text);
  g_autoptr (GArray) places = places_of (root);
  g_assert_true (is_same (text, NULL, cache, name));
  change_ways (text, places, cache, rand);
  guint n_read = 0, n = MIN (test_scaled (CHANGES), 2 * places->len);
  const gboolean all = n == 2 * places->len;
  g_test_message ("%u of %u changes", n, 2 * places->len);
  for (guint i = 0; i < n; i++)
    {
      const guint at = all ? i : 2 * random_place (rand, places, i % 4 != 0) + (i % 8 == 1);
      g_autofree char *path = NULL;
      g_autofree char *changed
          = change (text, at / 2, at % 2 == 1, (guint)g_rand_int_range (rand, 0, 60), &path);
      n_read += changed != NULL && is_same (changed, NULL, cache, path);
    }
  for (guint i = 0; i < G_N_ELEMENTS (additions); i++)
    if (strcmp (additions[i].demo, name) == 0)
      {
        g_autofree char *added = add_key (text, i);
        g_assert_true (is_same (added, NULL, cache, additions[i].key));
      }
  TrnCacheCount count = trn_cache_count (cache, TRN_CACHE_FINDING);
  g_test_message ("%u plans, %" G_GUINT64_FORMAT " findings found again, %" G_GUINT64_FORMAT
                  " made",
                  n_read, count.hits, count.misses);
  if (n >= 100)
    {
      g_assert_cmpuint (n_read, >=, LEAST_SHARE * n);
      g_assert_cmpuint (count.hits, >, 0);
    }
}

/* ---- random plans ---- */

typedef struct
{
  const char *folder;
  gint n_edits, n_hits; /* atomic */
} All;

static void
add_forces (JsonNode *root)
{
  JsonObject *plan = json_node_get_object (root);
  JsonArray *components = json_object_get_array_member (plan, "components");
  for (guint i = 0; i < json_array_get_length (components); i++)
    {
      JsonObject *component = json_array_get_object_element (components, i);
      json_object_set_double_member (component, "mass", 4000 + 500 * i);
      json_object_set_member (component, "cog", oracle_parse ("[0.05, 0.02, 0.3]"));
      json_object_set_member (component, "cog_box", oracle_parse ("[0.02, 0.02, 0.1]"));
    }
  json_object_set_member (plan, "wind",
                          oracle_parse ("{\"speed\": 8, \"drag\": 1.3, \"source\": \"made up\"}"));
}

/* How long drives take to come up to speed. */
static void
add_ramp (JsonNode *root, gboolean has_rest)
{
  JsonObject *plan = json_node_get_object (root);
  if (!json_object_has_member (plan, "loads"))
    json_object_set_object_member (plan, "loads", json_object_new ());
  json_object_set_member (json_object_get_object_member (plan, "loads"), "ramp",
                          oracle_parse (has_rest ? "{\"seconds\": 12, \"rest\": 30, \"source\": "
                                                   "\"made up\"}"
                                                 : "{\"seconds\": 12, \"source\": \"made up\"}"));
}

static char *
random_plan (guint32 seed)
{
  g_autofree char *bare = plan_maker_make (seed);
  g_autofree char *geared = gear_maker_add (bare, seed);
  g_autoptr (JsonNode) root = oracle_parse (geared);
  add_forces (root);
  if (seed % 2 == 0)
    add_ramp (root, seed % 4 == 0);
  return json_to_string (root, FALSE);
}

static void
edit_one (guint index, gpointer data)
{
  All *all = data;
  const guint32 seed = FIRST_SEED + index;
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  g_autoptr (TrnCache) cache = trn_cache_new (ANSWER_BYTES);
  g_autofree char *name = g_strdup_printf ("plan with seed %u", seed);
  char *json = random_plan (seed);
  if (!is_same (json, all->folder, cache, name))
    g_error ("%s cannot be read", name);
  guint done = 0;
  for (guint try = 0; try < 5 * EDITS && done < EDITS; try++)
    {
      g_autoptr (JsonNode) root = oracle_parse (json);
      g_autoptr (GArray) places = places_of (root);
      g_autofree char *path = NULL;
      char *edited = change (json, random_place (rand, places, try % 3 != 0),
                             g_rand_int_range (rand, 0, 8) == 0,
                             (guint)g_rand_int_range (rand, 0, 60), &path);
      g_autofree char *what = g_strconcat (name, ", ", path, NULL);
      if (edited == NULL || !is_same (edited, all->folder, cache, what))
        {
          g_free (edited);
          continue;
        }
      g_free (json);
      json = edited;
      done++;
    }
  g_free (json);
  g_atomic_int_add (&all->n_edits, (gint)done);
  g_atomic_int_add (&all->n_hits, (gint)trn_cache_count (cache, TRN_CACHE_FINDING).hits);
}

static void
test_random (gconstpointer data)
{
  All all = { .folder = data };
  const guint n = test_scaled (N_PLANS);
  g_test_message ("%u plans, the first with seed %u", n, FIRST_SEED);
  trn_parallel_for (n, 0, edit_one, &all);
  g_test_message ("%d edits, %d findings found again", all.n_edits, all.n_hits);
  if (n < N_PLANS)
    return;
  g_assert_cmpint (all.n_edits, >=, (gint)n);
  g_assert_cmpint (all.n_hits, >, 0);
}

/* ---- what is not in the plan ---- */

/* The width to certify to, the most steps of a sweep, and the bytes of a mesh file; one coordinate
 * changes, and what the file is off by does not. */
static void
test_outside (void)
{
  static const char cube[] = "v 0 0 0\nv 8 0 0\nv 0 %s 0\nv 0 0 4\n"
                             "f 1 3 2\nf 1 2 4\nf 2 3 4\nf 3 1 4\n";
  static const struct
  {
    const char *width;
    double certify_m;
    guint64 max_steps;
  } ways[] = { { "5", CERTIFY_M, 0 },
               { "5", CERTIFY_M / 10, 0 },
               { "5", CERTIFY_M, 3 },
               { "7", CERTIFY_M, 0 },
               { "5", CERTIFY_M, 0 } };
  g_autofree char *folder = g_dir_make_tmp ("trunnion-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "cube.obj", NULL);
  g_autofree char *bare = demo_text ("lock-gate");
  g_autoptr (JsonNode) root = oracle_parse (bare);
  JsonArray *list = json_object_get_array_member (json_node_get_object (root), "components");
  JsonObject *load = json_array_get_object_element (list, 0);
  json_object_remove_member (load, "solid");
  json_object_set_member (
      load, "mesh", oracle_parse ("{\"file\": \"cube.obj\", \"unit\": \"m\", \"up\": \"z\"}"));
  g_autofree char *text = json_to_string (root, FALSE);
  g_autoptr (TrnCache) cache = trn_cache_new (ANSWER_BYTES);
  for (guint i = 0; i < G_N_ELEMENTS (ways); i++)
    {
      g_autofree char *bytes = g_strdup_printf (cube, ways[i].width);
      g_assert_true (g_file_set_contents (path, bytes, -1, NULL));
      TrnCheckOptions options
          = { .jobs = 2, .certify_m = ways[i].certify_m, .max_steps = ways[i].max_steps };
      g_autofree char *fresh = check_with (text, folder, &options);
      options.cache = cache;
      g_autofree char *again = check_with (text, folder, &options);
      g_assert_nonnull (fresh);
      g_assert_cmpstr (again, ==, fresh);
    }
  g_assert_cmpuint (trn_cache_count (cache, TRN_CACHE_FINDING).hits, >, 0);
  g_assert_cmpint (g_remove (path), ==, 0);
  g_assert_cmpint (g_rmdir (folder), ==, 0);
}

int
main (int argc, char **argv)
{
  static const char *const demos[]
      = { "column-tandem", "lock-gate", "pump-column", "valve-assembly" };
  g_test_init (&argc, &argv, NULL);
  g_autofree char *folder = plan_maker_write_meshes ();
  for (guint i = 0; i < G_N_ELEMENTS (demos); i++)
    {
      g_autofree char *path = g_strconcat ("/property/gear-edits/", demos[i], NULL);
      g_test_add_data_func (path, demos[i], test_demo);
    }
  g_test_add_func ("/property/gear-edits/outside", test_outside);
  g_test_add_data_func ("/property/gear-edits/random", folder, test_random);
  int status = g_test_run ();
  plan_maker_remove_meshes (folder);
  return status;
}
