/* The answers of the sweep from a cache: the same as without, asked again for every number that
 * they depend on, and never kept when they were cut short. */
#include "sweep-cache.h"

#include <string.h>

#include "test-shapes.h"

/* A drum that goes by a box and turns: the closest is somewhere on the way. */
typedef struct
{
  TestBody load, obstacle;
  TrnMotion motion;
  TrnSweepPair pair;
  TrnSweepOptions options;
  TrnCache *cache;
} Fixture;

static void
set_up (Fixture *f, gconstpointer data)
{
  f->load = test_body_take (test_drum (40, 1, 0, 2));
  f->obstacle = test_body_take (test_box (trn_vec3_make (-1, 1.5, 0), trn_vec3_make (1, 3, 3)));
  TrnPose start = trn_pose_identity ();
  start.position = trn_vec3_make (-4, 0, 0);
  f->motion = trn_motion_make_carry (&start, 60, trn_vec3_make (0, 0, 0), trn_vec3_make (8, 0, 0.5),
                                     trn_vec3_make (0, 0, 1), 0.3);
  f->pair = (TrnSweepPair){ { f->load.bvh, f->load.check },
                            &f->motion,
                            { 0, 1 },
                            { f->obstacle.bvh, f->obstacle.check },
                            trn_pose_identity () };
  f->options = (TrnSweepOptions){ .width_m = 1e-3, .far_m = 5, .far_share = 0.05, .jobs = 1 };
  f->cache = trn_cache_new (1 << 20);
}

static void
tear_down (Fixture *f, gconstpointer data)
{
  trn_cache_unref (f->cache);
  test_body_clear (&f->load);
  test_body_clear (&f->obstacle);
}

static void
assert_counts (TrnCache *cache, TrnCacheKind kind, guint64 hits, guint64 misses, guint kept)
{
  TrnCacheCount count = trn_cache_count (cache, kind);
  g_assert_cmpuint (count.hits, ==, hits);
  g_assert_cmpuint (count.misses, ==, misses);
  g_assert_cmpuint (count.kept, ==, kept);
}

static void
assert_same_result (const TrnSweepResult *a, const TrnSweepResult *b)
{
  const double x[] = { a->lower_m,       a->upper_m,       a->s,
                       a->on_body.x,     a->on_body.y,     a->on_body.z,
                       a->on_obstacle.x, a->on_obstacle.y, a->on_obstacle.z };
  const double y[] = { b->lower_m,       b->upper_m,       b->s,
                       b->on_body.x,     b->on_body.y,     b->on_body.z,
                       b->on_obstacle.x, b->on_obstacle.y, b->on_obstacle.z };
  g_assert_cmpmem (x, sizeof x, y, sizeof y);
  g_assert_cmpint (a->inside, ==, b->inside);
  g_assert_cmpint (a->complete, ==, b->complete);
}

/* Twice asked, once worked out, three times the same, for each kind of question. */
static void
test_same (Fixture *f, gconstpointer data)
{
  TrnSweepResult plain = trn_sweep_minimum (&f->pair, &f->options);
  for (guint i = 0; i < 2; i++)
    {
      TrnSweepResult found = trn_sweep_cached_minimum (f->cache, &f->pair, &f->options);
      assert_same_result (&found, &plain);
    }
  assert_counts (f->cache, TRN_CACHE_SWEEP, 1, 1, 1);

  f->pair.site_from_obstacle.position.y = -1; /* in the way */
  g_autoptr (GArray) spans = g_array_new (FALSE, FALSE, sizeof (TrnInterval));
  g_assert_true (trn_sweep_contacts (&f->pair, 1e-3, NULL, spans));
  g_assert_cmpuint (spans->len, ==, 1);
  for (guint i = 0; i < 2; i++)
    {
      g_autoptr (GArray) found = g_array_new (FALSE, FALSE, sizeof (TrnInterval));
      g_assert_true (trn_sweep_cached_contacts (f->cache, &f->pair, 1e-3, NULL, found));
      g_assert_cmpmem (found->data, found->len * sizeof (TrnInterval), spans->data,
                       spans->len * sizeof (TrnInterval));
    }
  assert_counts (f->cache, TRN_CACHE_SWEEP, 2, 2, 2);

  for (guint i = 0; i < 4; i++)
    {
      double distance_m = i % 2 == 0 ? 0.8 : 90, s = NAN, expected_s = NAN; /* 90: never */
      gboolean found
          = trn_sweep_cached_first_reach (f->cache, &f->pair, distance_m, 1e-3, TRUE, NULL, &s);
      gboolean expected
          = trn_sweep_first_reach (&f->pair, distance_m, 1e-3, TRUE, NULL, &expected_s);
      g_assert_cmpint (expected, ==, i % 2 == 0);
      g_assert_cmpint (found, ==, expected);
      g_assert_cmpmem (&s, sizeof s, &expected_s, sizeof s);
    }
  assert_counts (f->cache, TRN_CACHE_SWEEP, 4, 4, 4);
}

/* The same at one pose. */
static void
test_pose (Fixture *f, gconstpointer data)
{
  TrnPose stands = trn_pose_identity ();
  TrnDistance plain
      = trn_mesh_distance (f->load.bvh, &f->motion.start, f->obstacle.bvh, &stands, INFINITY, NULL);
  for (guint i = 0; i < 2; i++)
    {
      TrnDistance found = trn_sweep_cached_distance (f->cache, &f->pair.body, &f->motion.start,
                                                     &f->pair.obstacle, &stands, INFINITY);
      g_assert_cmpmem (&found.distance_m, sizeof (double), &plain.distance_m, sizeof (double));
      g_assert_cmpint (trn_sweep_cached_inside (f->cache, &f->pair.body, &f->motion.start,
                                                &f->pair.obstacle, &stands),
                       ==, TRN_INSIDE_NO);
    }
  assert_counts (f->cache, TRN_CACHE_POSE, 2, 2, 2);
  g_assert_true (isinf (trn_sweep_cached_distance (f->cache, &f->pair.body, &f->motion.start,
                                                   &f->pair.obstacle, &stands, 0.5)
                            .distance_m));
  TrnPose moved = stands;
  moved.position.x = -4;
  moved.position.y = -2;
  trn_sweep_cached_distance (f->cache, &f->pair.body, &f->motion.start, &f->pair.obstacle, &moved,
                             INFINITY);
  assert_counts (f->cache, TRN_CACHE_POSE, 2, 4, 4);
}

/* Every number of a motion but its seconds stands in the key: each word of the struct is changed
 * in turn. A number that is added to TrnMotion and not to the key is found here. */
static void
test_motion_key (Fixture *f, gconstpointer data)
{
  g_autoptr (GByteArray) before = trn_cache_key_new (TRN_CACHE_SWEEP);
  trn_sweep_key_add_motion (before, &f->motion);
  guint n_same = 0;
  g_assert_cmpuint (sizeof (TrnMotion) % sizeof (double), ==, 0);
  for (gsize at = 0; at < sizeof (TrnMotion); at += sizeof (double))
    {
      TrnMotion other = f->motion;
      guint8 *bytes = (guint8 *)&other;
      bytes[at] ^= 1; /* the first byte is of the number also where four of padding follow */
      g_autoptr (GByteArray) key = trn_cache_key_new (TRN_CACHE_SWEEP);
      trn_sweep_key_add_motion (key, &other);
      if (memcmp (key->data, before->data, before->len) == 0)
        {
          g_assert_cmpuint (at, ==, offsetof (TrnMotion, seconds));
          n_same++;
        }
    }
  g_assert_cmpuint (n_same, ==, 1);
}

/* The same for a pose. */
static void
test_pose_key (Fixture *f, gconstpointer data)
{
  g_autoptr (GByteArray) before = trn_cache_key_new (TRN_CACHE_SWEEP);
  trn_sweep_key_add_pose (before, &f->motion.start);
  for (gsize at = 0; at < sizeof (TrnPose); at += sizeof (double))
    {
      TrnPose other = f->motion.start;
      ((guint8 *)&other)[at] ^= 1;
      g_autoptr (GByteArray) key = trn_cache_key_new (TRN_CACHE_SWEEP);
      trn_sweep_key_add_pose (key, &other);
      g_assert_cmpint (memcmp (key->data, before->data, before->len), !=, 0);
    }
}

/* The questions: another mesh, place, span or option is another one; threads, progress and seconds
 * are not. A member more of either struct has to find its place in the key, or here. */
static void
test_question_key (Fixture *f, gconstpointer data)
{
  g_assert_cmpuint (sizeof (TrnSweepOptions), ==, 6 * sizeof (double));
  g_assert_cmpuint (sizeof (TrnSweepPair), ==, sizeof (TrnPose) + 7 * sizeof (double));
  guint64 asked = 1;
  trn_sweep_cached_minimum (f->cache, &f->pair, &f->options);
  double *numbers[] = { &f->options.width_m,
                        &f->options.far_m,
                        &f->options.far_share,
                        &f->pair.span.lo,
                        &f->pair.span.hi,
                        &f->motion.by.y,
                        &f->pair.site_from_obstacle.position.x };
  for (guint i = 0; i < G_N_ELEMENTS (numbers); i++)
    {
      *numbers[i] += numbers[i] == &f->pair.span.hi ? -0.01 : 0.01;
      trn_sweep_cached_minimum (f->cache, &f->pair, &f->options);
      asked++;
    }
  f->options.max_steps = 1000000;
  trn_sweep_cached_minimum (f->cache, &f->pair, &f->options);
  TestBody other = test_body_take (test_drum (41, 1, 0, 2));
  TrnSweepPair pair = f->pair;
  pair.body = (TrnSweepBody){ other.bvh, other.check };
  trn_sweep_cached_minimum (f->cache, &pair, &f->options);
  pair = f->pair;
  pair.obstacle = (TrnSweepBody){ other.bvh, other.check };
  trn_sweep_cached_minimum (f->cache, &pair, &f->options);
  test_body_clear (&other);
  asked += 3;
  assert_counts (f->cache, TRN_CACHE_SWEEP, 0, asked, (guint)asked);

  TrnProgress progress = { 0 };
  f->options.jobs = 2;
  f->options.progress = &progress;
  f->motion.seconds = 1;
  trn_sweep_cached_minimum (f->cache, &f->pair, &f->options);
  assert_counts (f->cache, TRN_CACHE_SWEEP, 1, asked, (guint)asked);
}

/* The same for the other questions: each of these is one of its own. */
static void
test_other_questions (Fixture *f, gconstpointer data)
{
  static const struct
  {
    double distance_m, resolution_s;
    gboolean backwards;
  } reaches[]
      = { { 0.7, 1e-3, FALSE }, { 0.8, 1e-3, FALSE }, { 0.7, 1e-2, FALSE }, { 0.7, 1e-3, TRUE } };
  for (guint i = 0; i < G_N_ELEMENTS (reaches); i++)
    {
      double s;
      trn_sweep_cached_first_reach (f->cache, &f->pair, reaches[i].distance_m,
                                    reaches[i].resolution_s, reaches[i].backwards, NULL, &s);
    }
  for (guint i = 0; i < 2; i++)
    {
      g_autoptr (GArray) spans = g_array_new (FALSE, FALSE, sizeof (TrnInterval));
      trn_sweep_cached_contacts (f->cache, &f->pair, i == 0 ? 1e-3 : 1e-2, NULL, spans);
    }
  assert_counts (f->cache, TRN_CACHE_SWEEP, 0, 6, 6);
}

/* Cut short by its steps, or cancelled: not kept, whatever was found. */
static void
test_cut_short (Fixture *f, gconstpointer data)
{
  f->options.max_steps = 3;
  f->options.width_m = 1e-6;
  for (guint i = 0; i < 2; i++)
    g_assert_false (trn_sweep_cached_minimum (f->cache, &f->pair, &f->options).complete);
  TrnProgress progress = { .cancelled = 1 };
  f->options.progress = &progress;
  f->options.max_steps = 0;
  f->pair.site_from_obstacle.position.y = -1; /* in the way */
  for (guint i = 0; i < 2; i++)
    {
      g_autoptr (GArray) spans = g_array_new (FALSE, FALSE, sizeof (TrnInterval));
      double s;
      trn_sweep_cached_minimum (f->cache, &f->pair, &f->options);
      g_assert_false (trn_sweep_cached_contacts (f->cache, &f->pair, 1e-3, &progress, spans));
      trn_sweep_cached_first_reach (f->cache, &f->pair, 1, 1e-3, FALSE, &progress, &s);
    }
  assert_counts (f->cache, TRN_CACHE_SWEEP, 0, 8, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  static const struct
  {
    const char *path;
    void (*func) (Fixture *, gconstpointer);
  } tests[] = {
    { "/sweep-cache/same", test_same },
    { "/sweep-cache/pose", test_pose },
    { "/sweep-cache/motion-key", test_motion_key },
    { "/sweep-cache/pose-key", test_pose_key },
    { "/sweep-cache/question-key", test_question_key },
    { "/sweep-cache/other-questions", test_other_questions },
    { "/sweep-cache/cut-short", test_cut_short },
  };
  for (guint i = 0; i < G_N_ELEMENTS (tests); i++)
    g_test_add (tests[i].path, Fixture, NULL, set_up, tests[i].func, tear_down);
  return g_test_run ();
}
