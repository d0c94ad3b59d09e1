/* test-rig.h: the gear of one lift, from a plan written in the test and moves made by hand. */
#pragma once

#include "rig.h"
#include "test-plan.h"

#define TEST_MOVES 3

typedef struct
{
  TrnPlan *plan;
  TrnMotion motions[TEST_MOVES];
  TrnRig *rig;
} TestRig;

/* The motions of @test are set. Lists with the brackets left out; the load's hook point is its
 * origin, its points are east, west (4 m apart along X), tail (0, 0, −10). Every gear stands. */
static inline void
test_rig_build (TestRig *test, const char *gear, const char *rigging)
{
  g_autofree char *text = g_strdup_printf (
      "{'format': 'trunnion-plan', 'version': 1, 'title': 'Test', 'keep_clear': 1,"
      " 'structures': [], 'gear': [%s], 'components': [{'id': 'unit', 'name': 'Unit',"
      " 'mass': 1000, 'solid': {'kind': 'box', 'size': [2, 2, 2]}, 'at': {'position': [0, 0, 0]},"
      " 'points': {'east': [2, 0, 0], 'west': [-2, 0, 0], 'tail': [0, 0, -10]}}],"
      " 'programme': [{'lift': 'one', 'component': 'unit', 'hook_point': [0, 0, 0],"
      " 'rigging': {%s}, 'moves': [{'do': 'wait', 'seconds': 1}, {'do': 'wait', 'seconds': 1},"
      " {'do': 'wait', 'seconds': 1}]}]}",
      gear, rigging);
  test->plan = test_plan (text);
  TrnGearPlace *places = g_new0 (TrnGearPlace, test->plan->n_gear);
  for (guint i = 0; i < test->plan->n_gear; i++)
    places[i] = (TrnGearPlace){ &test->plan->gear[i], trn_pose_make (&test->plan->gear[i].at) };
  test->rig
      = trn_rig_new (test->plan, &test->plan->lifts[0], test->motions, places, test->plan->n_gear);
}

static inline void
test_rig_clear (TestRig *test)
{
  trn_rig_free (test->rig);
  trn_plan_unref (test->plan);
}

/* Every move is a wait with the origin of the load at (@x, @y, @z). */
static inline void
test_rig_wait (TestRig *test, double x, double y, double z)
{
  TrnPose start = trn_pose_identity ();
  start.position = trn_vec3_make (x, y, z);
  for (guint i = 0; i < TEST_MOVES; i++)
    test->motions[i] = trn_motion_make_wait (&start, 1);
}

static inline guint
test_rig_body (const TestRig *test, const char *id)
{
  for (guint i = 0; i < test->rig->n_bodies; i++)
    if (g_str_equal (test->rig->bodies[i].id, id))
      return i;
  g_error ("there is no body %s", id);
}

/* FALSE where the body has no place. */
static inline gboolean
test_rig_corners (const TestRig *test, const char *id, guint move, TrnInterval s,
                  TrnJet3 corners[TRN_LIMB_CORNERS])
{
  TrnRigLimb store;
  TrnLimb limb = trn_rig_limb (test->rig, test_rig_body (test, id), move, &store);
  return limb.corners (limb.data, s, corners);
}

static inline TrnVec3
test_rig_middle (const TrnJet3 *a)
{
  return trn_vec3_make (trn_interval_middle (a->x.v), trn_interval_middle (a->y.v),
                        trn_interval_middle (a->z.v));
}

/* A corner at one moment. */
static inline TrnVec3
test_rig_corner (const TestRig *test, const char *id, guint corner, guint move, double s)
{
  TrnJet3 corners[TRN_LIMB_CORNERS];
  g_assert_true (test_rig_corners (test, id, move, trn_interval_point (s), corners));
  return test_rig_middle (&corners[corner]);
}

/* What is asked about the main hook at one moment; NAN where it has no value. */
static inline double
test_rig_value (const TestRig *test, TrnRigQuantity quantity, guint move, double s, guint index)
{
  TrnRigQuestion q = { test->rig, &test->plan->lifts[0].rigging.main, quantity, move, index };
  TrnJet value;
  return trn_rig_ask (&q, trn_interval_point (s), &value) ? trn_interval_middle (value.v) : NAN;
}
