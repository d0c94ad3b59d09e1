/* The proof of a sweep, checked by verify.c, which shares nothing with the search but the format of
 * a step: what it was found with may be as clever as it likes. */
#include "search.h"

#include "test-motions.h"
#include "test-scale.h"
#include "test-shapes.h"
#include "verify.h"

static const TrnVec3 up = { 0, 0, 1 };

typedef struct
{
  TestBody body, obstacle;
  TrnMotion motion;
  TrnSweepPair pair;
} Case;

static void
case_clear (Case *c)
{
  test_body_clear (&c->body);
  test_body_clear (&c->obstacle);
}

typedef enum
{
  KIND_LINE,
  KIND_TURNING,
  KIND_SLEW,
  KIND_SLEW_KEPT, /* its attitude */
  KIND_LEVEL_TAIL,
  N_KINDS
} Kind;

static TrnMotion
motion_make (GRand *rand, Kind kind, const TrnPose *start)
{
  TrnVec3 pivot = test_random_point (rand, 2);
  double angle = test_between (rand, 0.5, 3), heading = test_between (rand, -4, 4), off;
  TrnVec3 level = { cos (heading), sin (heading), 0 }, at = trn_pose_apply (start, pivot);
  TrnMotion motion;
  switch (kind)
    {
    case KIND_LINE:
      return trn_motion_make_carry (start, 9, pivot, test_random_point (rand, 8), up, 0);
    case KIND_TURNING:
      return trn_motion_make_carry (start, 9, pivot, test_random_point (rand, 5), level, angle);
    case KIND_SLEW:
    case KIND_SLEW_KEPT:
      g_assert_true (trn_motion_make_slew (start, 9, pivot, at.x + 9, at.y - 4, angle,
                                           kind == KIND_SLEW, test_between (rand, -5, 5),
                                           test_between (rand, -4, 4), &motion));
      return motion;
    case KIND_LEVEL_TAIL:
    default:
      {
        TrnVec3 side = trn_vec3_cross (up, level), along = { 0.6 * side.x, 0.6 * side.y, 0.8 };
        TrnVec3 tail = trn_vec3_sub (
            pivot, trn_rotation_apply_inverse (&start->turn, trn_vec3_scale (along, 5)));
        g_assert_true (
            trn_motion_make_head_plumb (start, 9, pivot, tail, level, angle, &motion, &off));
        return motion;
      }
    }
}

/* Two bumpy bodies of some hundred triangles, one of which moves past the other, 5 km from the
 * origin of the site. */
static void
case_make (Case *c, GRand *rand, Kind kind)
{
  TrnPose start = test_random_pose (rand, 6), at = test_random_pose (rand, 1);
  start.position.x += 5000;
  at.position.x += 5000;
  c->body = test_body_take (test_blob (rand, 14, 2));
  c->obstacle = test_body_take (test_blob (rand, 17, 2.5));
  c->motion = motion_make (rand, kind, &start);
  c->pair = (TrnSweepPair){
    { c->body.bvh, c->body.check }, &c->motion, { 0, 1 }, { c->obstacle.bvh, c->obstacle.check }, at
  };
}

static TrnSearchResult
run (const TrnSweepPair *pair, double width_m, guint jobs, GArray *proof)
{
  TrnSearchGoal goal = {
    .width_m = width_m, .far_m = INFINITY, .max_steps = G_MAXUINT64, .jobs = jobs, .proof = proof
  };
  return trn_search_run (pair, pair->span, &goal);
}

static GArray *
steps_new (void)
{
  return g_array_new (FALSE, FALSE, sizeof (TrnProofStep));
}

/* Every step holds and none is below what is reported; and what was proven could not be more. */
static void
check_steps (Verify *verify, const TrnSearchResult *result, const GArray *proof)
{
  gboolean all_wider = TRUE;
  for (guint i = 0; i < proof->len; i++)
    {
      const TrnProofStep *step = &g_array_index (proof, TrnProofStep, i);
      g_assert_cmpfloat (step->bound_m, >=, result->lower_m);
      g_assert_true (verify_step (verify, step, step->bound_m));
      double more = step->bound_m + (result->upper_m - result->lower_m);
      all_wider = all_wider && verify_step (verify, step, more);
    }
  g_assert_false (all_wider);
}

/* Turned round, a direction proves nothing; and every step is needed. */
static void
check_faults (Verify *verify, GRand *rand, const GArray *proof)
{
  for (guint i = 0; i < 12; i++)
    {
      guint index = (guint)g_rand_int_range (rand, 0, (gint32)proof->len);
      TrnProofStep step = g_array_index (proof, TrnProofStep, index);
      step.n = trn_vec3_scale (step.n, -1);
      g_assert_false (verify_step (verify, &step, step.bound_m));
      g_autoptr (GArray) less = g_array_copy ((GArray *)proof);
      g_array_remove_index (less, index);
      g_assert_false (verify_cover (verify, verify->pair->span, less));
    }
}

static void
check_proof (const Case *c, GRand *rand, double width_m, guint *n_steps)
{
  g_autoptr (GArray) proof = steps_new ();
  TrnSearchResult result = run (&c->pair, width_m, 1, proof);
  g_assert_true (result.complete);
  g_assert_cmpfloat (result.upper_m - result.lower_m, <=, width_m);
  Verify verify = verify_make (&c->pair);
  check_steps (&verify, &result, proof);
  g_assert_true (verify_cover (&verify, c->pair.span, proof));
  if (proof->len > 1)
    check_faults (&verify, rand, proof);
  *n_steps += proof->len;
  verify_clear (&verify);
}

static void
test_kind (gconstpointer data)
{
  Kind kind = GPOINTER_TO_UINT (data);
  g_autoptr (GRand) rand = g_rand_new_with_seed (61 + kind);
  guint n_steps = 0;
  for (guint found = 0; found < test_scaled (4);)
    {
      Case c;
      case_make (&c, rand, kind);
      TrnSearchResult rough = run (&c.pair, 0.1, 1, NULL);
      if (rough.lower_m > 0.1 && rough.upper_m < 2)
        {
          check_proof (&c, rand, 1e-3, &n_steps);
          found++;
        }
      case_clear (&c);
    }
  g_test_message ("%u steps", n_steps);
  if (test_scaled (4) >= 4)
    g_assert_cmpuint (n_steps, >, 30);
}

static void
assert_same (const TrnSearchResult *p, const GArray *p_steps, const TrnSearchResult *q,
             const GArray *q_steps)
{
  g_assert_true (p->lower_m == q->lower_m && p->upper_m == q->upper_m && p->s == q->s
                 && p->steps == q->steps);
  g_assert_cmpmem (&p->on_body, sizeof p->on_body, &q->on_body, sizeof q->on_body);
  g_assert_cmpmem (&p->on_obstacle, sizeof p->on_obstacle, &q->on_obstacle, sizeof q->on_obstacle);
  g_assert_cmpuint (p_steps->len, ==, q_steps->len);
  for (guint i = 0; i < p_steps->len; i++)
    {
      const TrnProofStep *x = &g_array_index (p_steps, TrnProofStep, i);
      const TrnProofStep *y = &g_array_index (q_steps, TrnProofStep, i);
      g_assert_true (x->a == y->a && x->b == y->b && x->span.lo == y->span.lo
                     && x->span.hi == y->span.hi && x->bound_m == y->bound_m);
      g_assert_cmpmem (&x->n, sizeof x->n, &y->n, sizeof y->n);
    }
}

/* A drum that turns while it goes down a shaft: everything is about as near at all times, the proof
 * is long, and the search shares it out. Part of its steps is looked at, all of them must cover.
 * The shares are the same for one thread, and for the scalar twin. */
static void
test_long (void)
{
  Case c = { .body = test_body_take (test_drum (64, 4.8, 0, 3)),
             .obstacle = test_body_take (test_tube (64, 5, 6, -30, 0)) };
  TrnPose start = trn_pose_identity ();
  c.motion = trn_motion_make_carry (&start, 9, start.position, trn_vec3_make (0, 0, -25), up, 3);
  c.pair = (TrnSweepPair){
    { c.body.bvh, c.body.check }, &c.motion, { 0, 1 }, { c.obstacle.bvh, c.obstacle.check }, start
  };
  g_autoptr (GArray) proof = steps_new ();
  TrnSearchResult result = run (&c.pair, 1e-3, 2, proof);
  g_assert_true (result.complete);
  g_assert_cmpuint (result.steps, >, 3000);
  g_autoptr (GArray) again = steps_new ();
  trn_support_choose (TRN_SUPPORT_SCALAR);
  TrnSearchResult one = run (&c.pair, 1e-3, 1, again);
  trn_support_choose (TRN_SUPPORT_BEST);
  assert_same (&result, proof, &one, again);
  Verify verify = verify_make (&c.pair);
  for (guint i = 0; i < proof->len; i += 1 + proof->len / test_scaled (3000))
    {
      const TrnProofStep *step = &g_array_index (proof, TrnProofStep, i);
      g_assert_cmpfloat (step->bound_m, >=, result.lower_m);
      g_assert_true (verify_step (&verify, step, step->bound_m));
    }
  g_assert_true (verify_cover (&verify, c.pair.span, proof));
  g_test_message ("%u steps", proof->len);
  verify_clear (&verify);
  case_clear (&c);
}

/* With any number of threads, with and without instructions beyond the scalar twin: the same steps
 * to the last bit. The tree is made anew for each, too. */
static void
test_same_bits (void)
{
  static const TrnSupportKind supports[] = { TRN_SUPPORT_BEST, TRN_SUPPORT_SCALAR };
  static const guint jobs[] = { 1, 2, 5 };
  for (guint32 seed = 0; seed < test_scaled (6); seed++)
    {
      TrnSearchResult first;
      g_autoptr (GArray) first_proof = NULL;
      for (guint k = 0; k < 6; k++)
        {
          g_autoptr (GRand) rand = g_rand_new_with_seed (81 + seed);
          Case c;
          trn_support_choose (supports[k % 2]);
          case_make (&c, rand, seed % N_KINDS);
          g_autoptr (GArray) proof = steps_new ();
          TrnSearchResult result = run (&c.pair, 1e-4, jobs[k / 2], proof);
          case_clear (&c);
          if (k > 0)
            assert_same (&first, first_proof, &result, proof);
          else
            {
              first = result;
              first_proof = g_steal_pointer (&proof);
            }
        }
    }
  trn_support_choose (TRN_SUPPORT_BEST);
}

int
main (int argc, char **argv)
{
  static const char *names[N_KINDS]
      = { "line", "turning", "slew", "slew-attitude-kept", "level-tail" };
  g_test_init (&argc, &argv, NULL);
  for (guint kind = 0; kind < N_KINDS; kind++)
    {
      g_autofree char *path = g_strconcat ("/proof/", names[kind], NULL);
      g_test_add_data_func (path, GUINT_TO_POINTER (kind), test_kind);
    }
  g_test_add_func ("/proof/long", test_long);
  g_test_add_func ("/proof/same-bits", test_same_bits);
  return g_test_run ();
}
