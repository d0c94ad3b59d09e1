/* A check after an edit, with the cache of the one before: the same results, byte for byte, as a
 * check without one, and only what the edit concerns is worked out again. */
#include "results.h"

#include "parallel.h"
#include "test-checks.h"

/* Two lifts among a slab, a wall and a post, all far enough apart that no bound has to be refined:
 * one question a move and obstacle. Four things stand round the first load, the second among them,
 * and four round the second. */
static const char plan_text[]
    = "{'format': 'trunnion-plan', 'version': 1, 'keep_clear': 0.1, 'gear': [], 'structures': ["
      " {'id': 'slab', 'solid': {'kind': 'box', 'size': [20, 20, 1]},"
      "  'at': {'position': [0, 0, -1.7]}},"
      " {'id': 'wall', 'solid': {'kind': 'box', 'size': [20, 1, 9]},"
      "  'at': {'position': [0, 7, 0]}, 'keep_clear': 0.3},"
      " {'id': 'post', 'solid': {'kind': 'cylinder', 'diameter': 0.5, 'height': 9},"
      "  'at': {'position': [-6, 0, 0]}}],"
      " 'components': ["
      " {'id': 'box', 'mass': 1, 'at': {'position': [0, 0, 0]},"
      "  'solid': {'kind': 'box', 'size': [1, 2, 1]}},"
      " {'id': 'drum', 'mass': 1, 'at': {'position': [5, 0, 0]},"
      "  'solid': {'kind': 'cylinder', 'diameter': 2, 'height': 2}}],"
      " 'programme': ["
      " {'lift': 'one', 'component': 'box', 'hook_point': [0, 0, 1],"
      "  'tolerance': {'position': 0.01}, 'moves': ["
      "   {'do': 'hoist', 'by': 3, 'seconds': 60}, {'do': 'turn', 'by': 90, 'seconds': 90},"
      "   {'do': 'travel', 'by': [-2, 1], 'seconds': 30},"
      "   {'do': 'hoist', 'by': -1, 'seconds': 60}]},"
      " {'lift': 'two', 'component': 'drum', 'hook_point': [0, 0, 2], 'moves': ["
      "   {'do': 'hoist', 'by': 4, 'seconds': 60}, {'do': 'travel', 'by': [1, 1], 'seconds': 30},"
      "   {'do': 'hoist', 'by': -3.5, 'seconds': 60}]}]}";

#define N_FIRST 4  /* moves of the first lift */
#define N_SECOND 3 /* and of the second */
#define N_AROUND 4 /* obstacles of each */
#define N_ALL ((N_FIRST + N_SECOND) * N_AROUND)

/* @text with @before, which is in it once, as @after. */
static char *
replace (const char *text, const char *before, const char *after)
{
  g_auto (GStrv) parts = g_strsplit (text, before, -1);
  g_assert_cmpuint (g_strv_length (parts), ==, 2);
  return g_strjoinv (after, parts);
}

/* The results file of a check; @complete, where it is not NULL, receives whether it was not
 * cancelled. */
static char *
check (const char *text, TrnCache *cache, TrnProgress *progress, gboolean *complete)
{
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  TrnSceneOptions scene_options = { .jobs = 1, .cache = cache };
  g_autoptr (TrnScene) scene = trn_scene_build_take (test_programme (text), &scene_options, diags);
  g_assert_nonnull (scene);
  TrnCheckOptions options = { .jobs = 2, .cache = cache, .progress = progress };
  g_autoptr (TrnFindings) findings = trn_checks_run (scene, &options);
  gsize length;
  if (complete != NULL)
    *complete = findings->complete;
  return trn_results_to_json (scene, findings, "test", &length);
}

/* The same with the cache as without. */
static void
assert_same (const char *text, TrnCache *cache)
{
  g_autofree char *fresh = check (text, NULL, NULL, NULL);
  g_autofree char *again = check (text, cache, NULL, NULL);
  g_assert_cmpstr (again, ==, fresh);
}

typedef struct
{
  const char *name, *before, *after;
  guint sweeps; /* made again */
  guint shapes;
} Edit;

/* How many sweeps, derived for each from what it concerns. */
static const Edit edits[] = {
  { "nothing", "'gear': []", "'gear': []", 0, 0 },
  /* The last move of the first lift, from each obstacle, and in the second from where the box ends.
   */
  { "last move", "'by': -1,", "'by': -1.05,", N_AROUND + N_SECOND, 0 },
  /* That one and all after it begin elsewhere. */
  { "third move", "'by': [-2, 1]", "'by': [-2.05, 1]", 2 * N_AROUND + N_SECOND, 0 },
  /* The box has gone when the drum comes, so the first lift is as it was. */
  { "second lift", "'by': 4,", "'by': 4.05,", N_SECOND *N_AROUND, 0 },
  /* How long it takes is nothing to a distance. */
  { "seconds", "'by': 4, 'seconds': 60", "'by': 4, 'seconds': 61", 0, 0 },
  /* A structure is met by every move of both lifts. */
  { "structure moved", "[0, 7, 0]", "[0, 7.05, 0]", N_FIRST + N_SECOND, 0 },
  { "structure resized", "'diameter': 0.5", "'diameter': 0.55", N_FIRST + N_SECOND, 1 },
  { "load resized", "'size': [1, 2, 1]", "'size': [1, 2, 1.05]", N_FIRST *N_AROUND + N_SECOND, 1 },
  /* What is to be kept says from where on a bound may be wider. */
  { "keep_clear", "'keep_clear': 0.3", "'keep_clear': 0.35", N_FIRST + N_SECOND, 0 },
  /* What is taken off a bound afterwards. */
  { "tolerance", "{'position': 0.01}", "{'position': 0.02}", 0, 0 },
  { "survey", "'keep_clear': 0.3", "'keep_clear': 0.3, 'survey_tolerance': 0.02", 0, 0 },
};

static void
test_edit (gconstpointer data)
{
  const Edit *edit = data;
  g_autoptr (TrnCache) cache = trn_cache_new (1 << 20);
  assert_same (plan_text, cache);
  TrnCacheCount sweeps = trn_cache_count (cache, TRN_CACHE_SWEEP);
  TrnCacheCount shapes = trn_cache_count (cache, TRN_CACHE_SHAPE);
  g_assert_cmpuint (sweeps.hits, ==, 0);
  g_assert_cmpuint (sweeps.misses, ==, N_ALL);
  g_autofree char *edited = replace (plan_text, edit->before, edit->after);
  assert_same (edited, cache);
  TrnCacheCount sweeps_now = trn_cache_count (cache, TRN_CACHE_SWEEP);
  TrnCacheCount shapes_now = trn_cache_count (cache, TRN_CACHE_SHAPE);
  g_assert_cmpuint (sweeps_now.misses - sweeps.misses, ==, edit->sweeps);
  g_assert_cmpuint (sweeps_now.hits, ==, N_ALL - edit->sweeps);
  g_assert_cmpuint (shapes_now.misses - shapes.misses, ==, edit->shapes);
  /* Taken back, everything is there still. */
  assert_same (plan_text, cache);
  g_assert_cmpuint (trn_cache_count (cache, TRN_CACHE_SWEEP).misses, ==, sweeps_now.misses);
  g_assert_cmpuint (trn_cache_count (cache, TRN_CACHE_SHAPE).misses, ==, shapes_now.misses);
}

/* The swing of the turn, for all that stands round it, stays where the turn and they do. */
static void
test_swing (void)
{
  g_autoptr (TrnCache) cache = trn_cache_new (1 << 20);
  assert_same (plan_text, cache);
  guint64 before = trn_cache_count (cache, TRN_CACHE_SWING).misses;
  g_assert_cmpuint (before, ==, N_FIRST + N_SECOND + N_AROUND);
  g_autofree char *wall = replace (plan_text, "[0, 7, 0]", "[0, 7.05, 0]");
  assert_same (wall, cache);
  g_assert_cmpuint (trn_cache_count (cache, TRN_CACHE_SWING).misses - before, ==, 1);
}

/* A load on a seat, a wall that it runs into: contacts, the seated span and the seat itself. */
static void
test_seats (void)
{
  g_autofree char *seat = replace (plan_text, "'position': [0, 0, -1.7]", "'position': [0, 0, -1]");
  g_autofree char *rests = replace (seat, "'tolerance': {'position': 0.01},",
                                    "'seats': [{'on': 'slab', 'at': 'start'}],");
  g_autofree char *runs = replace (rests, "[-2, 1]", "[-2, 8]");
  g_autofree char *buried = replace (rests, "-1]", "-0.95]");
  const char *const plans[] = { rests, runs, buried, runs, rests };
  g_autoptr (TrnCache) cache = trn_cache_new (1 << 20);
  guint64 misses[G_N_ELEMENTS (plans)];
  for (guint i = 0; i < G_N_ELEMENTS (plans); i++)
    {
      assert_same (plans[i], cache);
      misses[i] = trn_cache_count (cache, TRN_CACHE_SWEEP).misses
                  + trn_cache_count (cache, TRN_CACHE_POSE).misses;
    }
  g_assert_cmpuint (misses[1], >, misses[0]);
  g_assert_cmpuint (misses[4], ==, misses[2]);
}

/* ---- cancelled ---- */

typedef struct
{
  TrnProgress progress;
  gulong after_us;
} Canceller;

static gpointer
cancel_later (gpointer data)
{
  Canceller *canceller = data;
  g_usleep (canceller->after_us);
  trn_progress_cancel (&canceller->progress);
  return NULL;
}

/* What a check that is cancelled, at whatever moment, leaves behind is not half an answer. */
static void
test_cancelled (void)
{
  g_autofree char *contact = replace (plan_text, "[-2, 1]", "[-2, 8]");
  g_autofree char *fresh = check (contact, NULL, NULL, NULL);
  guint n_cancelled = 0;
  for (guint i = 0; i < 40; i++)
    {
      g_autoptr (TrnCache) cache = trn_cache_new (1 << 20);
      Canceller canceller = { .progress = { .cancelled = i == 0 }, .after_us = 200 * i };
      GThread *thread = g_thread_new ("cancel", cancel_later, &canceller);
      gboolean complete;
      g_free (check (contact, cache, &canceller.progress, &complete));
      n_cancelled += !complete;
      g_thread_join (thread);
      if (i == 0)
        g_assert_cmpuint (trn_cache_count (cache, TRN_CACHE_SWEEP).kept, ==, 0);
      g_autofree char *again = check (contact, cache, NULL, NULL);
      g_assert_cmpstr (again, ==, fresh);
    }
  g_test_message ("%u of 40 were cancelled", n_cancelled);
  g_assert_cmpuint (n_cancelled, >, 0);
}

/* ---- at once ---- */

static void
check_edit (guint index, gpointer cache)
{
  const Edit *edit = &edits[index % G_N_ELEMENTS (edits)];
  g_autofree char *edited = replace (plan_text, edit->before, edit->after);
  assert_same (edited, cache);
}

/* Several checks of several plans on one cache, as when a check is begun before the one before has
 * noticed that it was cancelled. */
static void
test_threads (void)
{
  g_autoptr (TrnCache) cache = trn_cache_new (1 << 20);
  trn_parallel_for (4 * G_N_ELEMENTS (edits), 3, check_edit, cache);
  g_assert_cmpuint (trn_cache_count (cache, TRN_CACHE_SWEEP).hits, >, 0);
}

/* Room for a few answers only: the same results. */
static void
test_little_room (void)
{
  g_autoptr (TrnCache) cache = trn_cache_new (5000);
  trn_parallel_for (G_N_ELEMENTS (edits), 1, check_edit, cache);
  g_assert_cmpuint (trn_cache_count (cache, TRN_CACHE_SWEEP).kept, <, 10);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (edits); i++)
    {
      g_autofree char *path = g_strconcat ("/recheck/edit/", edits[i].name, NULL);
      g_test_add_data_func (path, &edits[i], test_edit);
    }
  g_test_add_func ("/recheck/swing", test_swing);
  g_test_add_func ("/recheck/seats", test_seats);
  g_test_add_func ("/recheck/cancelled", test_cancelled);
  g_test_add_func ("/recheck/threads", test_threads);
  g_test_add_func ("/recheck/little-room", test_little_room);
  return g_test_run ();
}
