/* Random lifts of a box off a slab and past two blocks, with and without seats, judged and then
 * sampled. No sample may come closer than what is certified, no pass may hide a sample that is too
 * close or touches, every sampled touch outside the seated spans lies in a span of contact, and
 * within them belongs to one unbroken touch that begins or ends the lift.
 *
 * Sampling proves nothing; it is here to find a mistake. Boxes alone take part, so that the
 * triangles are the shapes. */
#include "test-checks.h"
#include "test-lift.h"
#include "test-scale.h"
#include "tolerances.h"

#define LIFTS 60
#define SAMPLES 48
/* A gap below this need not be told apart from touching: the resolution of contact spans. */
#define GAP_M 3e-3
#define ROUNDING_M 1e-9

static double
pick (GRand *rand, double lo, double hi)
{
  return g_rand_double_range (rand, lo, hi);
}

/* Moves that keep near the slab, now and then into it or onto it. */
static void
add_move (GRand *rand, GString *text)
{
  int heading = 45 * g_rand_int_range (rand, 0, 8);
  switch (g_rand_int_range (rand, 0, 7))
    {
    case 0:
      g_string_append_printf (text, "{'do': 'hoist', 'by': %.3f", pick (rand, -1, 3));
      break;
    case 1:
      g_string_append_printf (text, "{'do': 'travel', 'by': [%.3f, %.3f]", pick (rand, -4, 4),
                              pick (rand, -4, 4));
      break;
    case 2:
      g_string_append_printf (text, "{'do': 'move', 'by': [%.3f, %.3f, %.3f], 'turn': %.1f",
                              pick (rand, -3, 3), pick (rand, -3, 3), pick (rand, -1, 2),
                              pick (rand, -90, 90));
      break;
    case 3:
      g_string_append_printf (text, "{'do': 'turn', 'by': %.1f", pick (rand, -180, 180));
      break;
    case 4:
      g_string_append_printf (text,
                              "{'do': 'slew', 'by': %.1f, 'centre': [%.3f, 30], 'radius_by': %.3f,"
                              " 'load_turns': %s",
                              pick (rand, -20, 20), pick (rand, -9, 9), pick (rand, -2, 2),
                              g_rand_boolean (rand) ? "true" : "false");
      break;
    case 5:
      g_string_append_printf (text, "{'do': 'tilt', 'by': %.1f, 'axis': %d, 'carry': [0, 0, %.3f]",
                              pick (rand, -60, 60), heading, pick (rand, 0, 2));
      break;
    default:
      g_string_append (text, "{'do': 'wait'");
    }
  g_string_append_printf (text, ", 'seconds': %d},", g_rand_int_range (rand, 1, 20));
}

static char *
random_plan (GRand *rand)
{
  static const char *const seats[]
      = { "", "'seats': [{'on': 'slab', 'at': 'start'}],",
          "'seats': [{'on': 'slab', 'at': 'end'}],", "'seats': [{'on': 'slab', 'at': 'both'}]," };
  double rise = pick (rand, 0, 2);
  int across = g_rand_int_range (rand, -4, 4);
  g_autoptr (GString) moves = g_string_new ("");
  if (g_rand_boolean (rand))
    g_string_append_printf (moves, "{'do': 'hoist', 'by': %.3f, 'seconds': 5},", rise);
  guint n_moves = (guint)g_rand_int_range (rand, 1, 4);
  for (guint i = 0; i < n_moves; i++)
    add_move (rand, moves);
  g_string_append_printf (moves,
                          "{'do': 'travel', 'by': [%d, 0], 'seconds': 4},"
                          "{'do': 'hoist', 'by': %.3f, 'seconds': 5}",
                          across, -rise);
  g_autofree char *more = g_strdup_printf ("%s 'tolerance': {'position': 0.02, 'tilt_deg': 0.2},",
                                           seats[g_rand_int_range (rand, 0, 4)]);
  TestLift lift = { TEST_THREE (TEST_BOX ("slab", "[60, 60, 1]", "[0, 0, -1]"),
                                TEST_BOX ("block", "[1, 3, 3]", "[4, 1, 0]"),
                                TEST_BOX ("stump", "[1, 1, 0.4]", "[-3, 0, 0]")),
                    "{'kind': 'box', 'size': [2, 1, 1]}",
                    TEST_AT ("[0, 0, 0]"),
                    "[0, 0, 1]",
                    more,
                    moves->str,
                    0.25 };
  return test_lift_text (&lift);
}

/* ---- samples ---- */

typedef struct
{
  double time_s, s, distance_m;
  gboolean inside;
} Sample;

static Sample
sample (const TestRun *run, guint move, guint obstacle, double s)
{
  const TrnLiftRun *lift = &run->scene->programme->runs[0];
  const TrnBody *load = trn_scene_load (run->scene, lift);
  const TrnStanding *standing = &lift->standing[obstacle];
  const TrnBody *other = &trn_scene_bodies_of (run->scene, standing)->bodies[0];
  TrnPose pose = trn_motion_pose (&lift->motions[move], s);
  TrnDistance distance = trn_mesh_distance (load->bvh, &pose, other->bvh,
                                            &standing->site_from_standing, INFINITY, NULL);
  Sample found
      = { lift->begins_s[move] + s * lift->motions[move].seconds, s, distance.distance_m, FALSE };
  found.inside = distance.distance_m > 0
                 && trn_mesh_inside (load->bvh, load->check, &pose, other->bvh, other->check,
                                     &standing->site_from_standing)
                        == TRN_INSIDE_YES;
  return found;
}

static gboolean
is_seated (const TrnFinding *f, const Sample *at)
{
  return f->has_seated && at->time_s >= f->seated_s.lo - 1e-9
         && at->time_s <= f->seated_s.hi + 1e-9;
}

static gboolean
in_contacts (const TrnFinding *f, const Sample *at)
{
  for (guint i = 0; f->contacts != NULL && i < f->contacts->len; i++)
    {
      TrnInterval span = g_array_index (f->contacts, TrnInterval, i);
      if (at->time_s >= span.lo - 1e-9 && at->time_s <= span.hi + 1e-9)
        return TRUE;
    }
  return FALSE;
}

/* Outside the seated spans. */
static void
check_free (const TrnFinding *f, const Sample *at)
{
  gboolean touches = at->distance_m <= 0 || at->inside;
  g_assert_cmpfloat (at->distance_m, >=, f->lower_m - ROUNDING_M);
  if (touches)
    {
      g_assert_cmpint (f->state, ==, TRN_STATE_CONTACT);
      g_assert_true (in_contacts (f, at));
    }
  if (f->verdict == TRN_VERDICT_PASS)
    g_assert_cmpfloat (at->distance_m, >=, f->required_m + f->allowance_m - ROUNDING_M);
}

/* Whether all samples from @i to the first, or to the last, touch or nearly do. */
static gboolean
is_unbroken (const GArray *samples, guint i)
{
  gboolean from_start = TRUE, to_end = TRUE;
  for (guint k = 0; k < samples->len; k++)
    {
      gboolean gap = g_array_index (samples, Sample, k).distance_m > GAP_M;
      from_start &= !(gap && k <= i);
      to_end &= !(gap && k >= i);
    }
  return from_start || to_end;
}

static void
check_obstacle (const TestRun *run, guint obstacle, guint *n_touching, guint *n_passed)
{
  const TrnLiftRun *lift = &run->scene->programme->runs[0];
  const char *id = lift->standing[obstacle].id;
  g_autoptr (GArray) samples = g_array_new (FALSE, FALSE, sizeof (Sample));
  for (guint move = 0; move < lift->lift->n_moves; move++)
    for (guint i = 0; i <= SAMPLES; i++)
      {
        Sample at = sample (run, move, obstacle, (double)i / SAMPLES);
        g_array_append_val (samples, at);
      }
  for (guint i = 0; i < samples->len; i++)
    {
      const Sample *at = &g_array_index (samples, Sample, i);
      const TrnFinding *f = test_clearance (run, 0, (int)(i / (SAMPLES + 1)), id);
      g_assert_cmpint (f->verdict, !=, TRN_VERDICT_UNKNOWN);
      *n_touching += at->distance_m <= 0;
      *n_passed += at->s == 0 && f->state == TRN_STATE_CLEAR;
      if (!is_seated (f, at))
        check_free (f, at);
      else if ((at->distance_m <= 0 || at->inside) && !in_contacts (f, at))
        g_assert_true (is_unbroken (samples, i));
    }
}

static void
test_random (void)
{
  guint32 seed = g_test_rand_int ();
  GRand *rand = g_rand_new_with_seed (seed);
  guint n_touching = 0, n_passed = 0;
  g_test_message ("seed %u", seed);
  for (guint i = 0; i < test_scaled (LIFTS); i++)
    {
      g_autofree char *text = random_plan (rand);
      TestRun run = test_run (text);
      for (guint k = 0; k < 3; k++)
        check_obstacle (&run, k, &n_touching, &n_passed);
      test_run_clear (&run);
    }
  /* The lifts are such that both happen. */
  g_test_message ("%u samples touch, %u moves past an obstacle are clear", n_touching, n_passed);
  g_assert_cmpuint (n_touching, >, 0);
  g_assert_cmpuint (n_passed, >, 0);
  g_rand_free (rand);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/checks/random", test_random);
  return g_test_run ();
}
