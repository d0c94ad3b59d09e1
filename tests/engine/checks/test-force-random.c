/* Proven bounds against many moments: up-endings of random loads from random directions, with the
 * centre of gravity at the corners of its box and inside, judged by statics at single moments. None
 * has more than the finding says, and some moment has nearly as much. */
#include "motion.h"
#include "share.h"
#include "sling.h"
#include "test-force.h"
#include "test-scale.h"

#define CASES 6
#define MOMENTS 400

typedef struct
{
  double heading_deg, length, tail_up, cog_along, cog_up, box, tilt_deg, spread, above;
} Case;

static Case
random_case (void)
{
  return (Case){ .heading_deg = g_test_rand_double_range (-180, 180),
                 .length = g_test_rand_double_range (6, 15),
                 .tail_up = g_test_rand_double_range (-0.5, 1),
                 .cog_along = g_test_rand_double_range (2, 5),
                 .cog_up = g_test_rand_double_range (-0.3, 0.3),
                 .box = g_test_rand_double_range (0, 0.2),
                 .tilt_deg = g_test_rand_double_range (10, 70),
                 .spread = g_test_rand_double_range (0.3, 1),
                 .above = g_test_rand_double_range (0.7, 3) };
}

static TestRun
run_case (const Case *c)
{
  g_autofree char *text = g_strdup_printf (
      "{'format': 'trunnion-plan', 'version': 1, 'title': 'Random', 'keep_clear': 0.5, 'gear': [],"
      " 'structures': [%s], %s 'components': [{'id': 'unit', 'name': 'Unit', 'mass': 1000, 'cog':"
      " [%.17g, 0, %.17g], 'cog_box': [%.17g, %.17g, %.17g], 'solid': {'kind': 'box', 'size': [1, "
      "1,"
      " 1]}, 'at': {'position': [9, -4, 30], 'turn': [%.17g, 0, 0]}}], 'programme': [{'lift': "
      "'one',"
      " 'component': 'unit', 'hook_point': [0, 0, 0], 'rigging': {'main': {'hook_above': %.17g,"
      " 'block': {'diameter': 0.4, 'height': 0.5, 'mass': 100}, 'slings': [{'id': 'n', 'to': [0.2,"
      " %.17g, 0], 'diameter': 0.02, 'mass': 5, 'wll': 9000}, {'id': 's', 'to': [0.2, -%.17g, 0],"
      " 'diameter': 0.02, 'mass': 5, 'wll': 9000}, {'id': 'w', 'to': [-0.6, 0, 0], 'diameter': "
      "0.02,"
      " 'mass': 5, 'wll': 9000}]}, 'tail': {'point': [%.17g, 0, %.17g]}}, 'moves': [{'do': 'tilt',"
      " 'by': %.17g, 'axis': %.17g, 'guide': 'head-plumb', 'head': [0, 0, 0], 'tail': [%.17g, 0,"
      " %.17g], 'seconds': 90}]}]}",
      FORCE_SLAB, FORCE_LOADS, c->cog_along, c->cog_up, c->box, c->box, c->box, c->heading_deg,
      c->above, c->spread, c->spread, c->length, c->tail_up, c->tilt_deg, c->heading_deg + 90,
      c->length, c->tail_up);
  return test_run (text);
}

typedef struct
{
  double tail, main, tension[3], least_push;
} Greatest;

/* What statics has at one moment. */
static void
add_moment (const TestRun *run, const Case *c, double s, Greatest *greatest)
{
  const TrnLiftRun *lift = &run->scene->programme->runs[0];
  TrnPose pose = trn_motion_pose (&lift->motions[0], s);
  TrnVec3 main = trn_pose_apply (&pose, trn_vec3_make (0, 0, 0));
  TrnVec3 tail = trn_pose_apply (&pose, trn_vec3_make (c->length, 0, c->tail_up)), corners[8];
  for (guint i = 0; i < 8; i++)
    corners[i] = trn_pose_apply (&pose, trn_vec3_make (c->cog_along + (i & 1 ? 1 : -1) * c->box,
                                                       (i & 2 ? 1 : -1) * c->box,
                                                       c->cog_up + (i & 4 ? 1 : -1) * c->box));
  TrnShareRange range = trn_share_over (main, tail, corners);
  greatest->tail = fmax (greatest->tail, range.tail_greatest);
  greatest->main = fmax (greatest->main, range.main_greatest);
  TrnVec3 hook = trn_vec3_add (main, trn_vec3_make (0, 0, c->above));
  const TrnVec3 points[3] = { trn_pose_apply (&pose, trn_vec3_make (0.2, c->spread, 0)),
                              trn_pose_apply (&pose, trn_vec3_make (0.2, -c->spread, 0)),
                              trn_pose_apply (&pose, trn_vec3_make (-0.6, 0, 0)) };
  double weight = (fmin (1, range.main_greatest) * 1000 + 15) * 1.2 * G;
  TrnSlingForces forces = trn_sling_solve (hook, points, 3, hook, weight);
  for (guint i = 0; i < 3; i++)
    /* Two of three are counted on. */
    greatest->tension[i] = fmax (
        greatest->tension[i], fmax (forces.tension_n[i], weight / 2 / sin (forces.angle_rad[i])));
  for (guint i = 0; i < 3; i++)
    greatest->least_push = fmin (greatest->least_push, forces.tension_n[i]);
}

static void
assert_bound (double found, double met)
{
  test_assert_between (found, met, 1e-9 * met, 3e-3 * met);
}

static void
test_up_endings (void)
{
  static const char *const slings[] = { "n", "s", "w" };
  for (guint i = 0; i < test_scaled (CASES); i++)
    {
      Case c = random_case ();
      TestRun run = run_case (&c);
      Greatest met = { -INFINITY, -INFINITY, { -INFINITY, -INFINITY, -INFINITY }, INFINITY };
      for (guint k = 0; k <= MOMENTS; k++)
        add_moment (&run, &c, (double)k / MOMENTS, &met);
      const TrnFinding *tail = test_force (&run, TRN_CHECK_LOAD_SHARE, "load", "tail");
      const TrnFinding *main = test_force (&run, TRN_CHECK_LOAD_SHARE, "load", "main");
      assert_bound (tail->value, 1000 * met.tail);
      assert_bound (main->value, 1000 * met.main);
      for (guint k = 0; k < 3; k++)
        {
          const TrnFinding *f = test_force (&run, TRN_CHECK_SLINGS, slings[k], "tension");
          if (f->state == TRN_STATE_SLACK)
            {
              g_assert_cmpint (f->verdict, ==, TRN_VERDICT_FAIL);
              g_assert_cmpfloat (met.least_push, <, 1e-6);
            }
          else if (met.least_push > 0)
            assert_bound (f->value, met.tension[k]);
        }
      if (met.least_push < -1)
        {
          guint n_slack = 0;
          for (guint k = 0; k < 3; k++)
            n_slack += test_force (&run, TRN_CHECK_SLINGS, slings[k], "tension")->state
                       == TRN_STATE_SLACK;
          g_assert_cmpuint (n_slack, >, 0);
        }
      test_run_clear (&run);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/checks/force-random/up-endings", test_up_endings);
  return g_test_run ();
}
