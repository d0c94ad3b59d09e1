/* The moment of a lift, by closed form: a box is hoisted off a slab and carried along a wall. */
#include "moment.h"

#include "test-plan.h"

static const char plan_text[]
    = "{'format':'trunnion-plan','version':1,'keep_clear':0.2,"
      "'structures':[{'id':'slab','at':{'position':[0,0,-1]},"
      "'solid':{'kind':'box','size':[20,20,1]}},"
      "{'id':'hall','at':{'position':[6,0,0]},'solid':{'kind':'group','parts':["
      "{'id':'wall','at':{'position':[0,0,0]},'solid':{'kind':'box','size':[1,20,9]}}]}}],"
      "'components':[{'id':'crate','at':{'position':[0,0,0]},'points':{'eye':[0,0,2]},"
      "'solid':{'kind':'box','size':[2,2,2]}}],"
      "'programme':[{'lift':'up','component':'crate','hook_point':'eye','moves':["
      "{'do':'hoist','by':3,'seconds':30},{'do':'wait','seconds':0},"
      "{'do':'travel','by':[2,0],'seconds':10}],"
      "'seats':[{'on':'slab','at':'start'}]}]}";

/* The crate stands on the slab, then rises at 0.1 m/s, then goes toward the wall, whose face is
 * 4.5 m from the crate's at first, at 0.2 m/s. */
static void
test_distances (void)
{
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_autoptr (TrnScene) scene
      = trn_scene_build_take (test_programme (plan_text), &(TrnSceneOptions){ 0 }, diags);
  g_assert_nonnull (scene);
  g_autoptr (TrnMoment) moment = trn_moment_new (scene, 0);
  g_assert_cmpuint (moment->n_obstacles, ==, 2);
  g_assert_cmpstr (moment->obstacles[0].body->id, ==, "slab");
  g_assert_cmpstr (moment->obstacles[1].body->id, ==, "hall/wall");
  const struct
  {
    double time_s, slab_m, wall_m;
  } expected[] = { { 0, 0, 4.5 },  { 10, 1, 4.5 },      { 30, 3, 4.5 }, { 35, 3, 3.5 },
                   { 99, 3, 2.5 }, { 12.5, 1.25, 4.5 }, { -1, 0, 4.5 } };
  for (guint i = 0; i < G_N_ELEMENTS (expected); i++)
    {
      trn_moment_set_time (moment, expected[i].time_s);
      const TrnMomentDistance *d = moment->distances;
      g_assert_cmpfloat_with_epsilon (d[0].distance_m, expected[i].slab_m, 1.1e-5);
      g_assert_cmpfloat_with_epsilon (d[1].distance_m, expected[i].wall_m, 1.1e-5);
      g_assert_cmpfloat_with_epsilon (trn_vec3_distance (d[1].on_load, d[1].on_obstacle),
                                      d[1].distance_m, 1e-9);
    }
}

/* At the border of two moves the later one is named; a move without length is passed over. */
static void
test_pose (void)
{
  g_autoptr (TrnProgramme) programme = test_programme (plan_text);
  guint move;
  double progress;
  TrnPose pose = trn_lift_run_pose (&programme->runs[0], 15, &move, &progress);
  g_assert_cmpuint (move, ==, 0);
  g_assert_cmpfloat (progress, ==, 0.5);
  test_assert_near (pose.position, 0, 0, 1.5, 1e-12);
  trn_lift_run_pose (&programme->runs[0], 30, &move, &progress);
  g_assert_cmpuint (move, ==, 2);
  g_assert_cmpfloat (progress, ==, 0);
  pose = trn_lift_run_pose (&programme->runs[0], 40, &move, &progress);
  g_assert_cmpfloat (progress, ==, 1);
  test_assert_near (pose.position, 2, 0, 3, 1e-12);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/scene/moment/distances", test_distances);
  g_test_add_func ("/scene/moment/pose", test_pose);
  return g_test_run ();
}
