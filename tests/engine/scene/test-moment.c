/* The moment of a lift, by closed form: a box is hoisted off a slab and carried along a wall. */
#include "moment.h"

#include <math.h>

#include "test-crane.h"
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
      g_assert_cmpfloat_with_epsilon (trn_vec3_distance (d[1].on_body, d[1].on_obstacle),
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

/* The crane and the post: at first the boom is nearest to it, near its tip, by 4.5 m less half the
 * diagonal of its section. After the slew the boom is far off and its back, the counterweight, no
 * nearer: what is nearest is the foot of the boom, of which only a bound is said here. To the crate
 * it is the end of the rope, 2 m above, with its radius of 30 mm; the sling is connected. */
static void
test_gear (void)
{
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_autoptr (TrnScene) scene
      = trn_scene_build_take (test_programme (test_crane_plan), &(TrnSceneOptions){ 0 }, diags);
  g_assert_nonnull (scene);
  g_autoptr (TrnMoment) moment = trn_moment_new (scene, 0);
  g_assert_cmpuint (moment->n_obstacles, ==, 1);
  g_assert_cmpuint (moment->n_pairs, ==, 3);
  const TrnMomentPair *pairs = moment->pairs;
  g_assert_true (pairs[0].of_load && !pairs[1].of_load && !pairs[2].of_load);
  g_assert_cmpuint (pairs[1].obstacle, ==, 0);
  g_assert_cmpuint (pairs[2].obstacle, ==, 1);
  g_assert_cmpfloat (pairs[1].required_m, ==, 0.5);
  g_assert_cmpstr (trn_moment_body (moment, 0), ==, "load");
  g_assert_cmpstr (trn_moment_obstacle (moment, 0), ==, "post");
  g_assert_cmpstr (trn_moment_body (moment, 1), ==, "crane/boom");
  g_assert_cmpstr (trn_moment_obstacle (moment, 1), ==, "post");
  g_assert_cmpstr (trn_moment_body (moment, 2), ==, "crane/rope");
  g_assert_cmpstr (trn_moment_obstacle (moment, 2), ==, "load");
  const TrnMomentDistance *d = moment->distances;
  g_assert_cmpfloat_with_epsilon (d[0].distance_m, 3.5, 1.1e-5);
  g_assert_cmpfloat_with_epsilon (d[1].distance_m, 4.5 - sqrt (0.5), 1.1e-5);
  g_assert_cmpfloat_with_epsilon (d[2].distance_m, 2 - 0.03, 1.1e-5);
  g_assert_cmpfloat_with_epsilon (trn_vec3_distance (d[1].on_body, d[1].on_obstacle),
                                  d[1].distance_m, 1e-6);
  trn_moment_set_time (moment, 1000);
  g_assert_cmpfloat (d[1].distance_m, >, 9);
}

/* The crate, 2 m wide, is carried into a wall 8 m thick from x = 3 on: with its middle
 * at x = 3 it cuts into it, at x = 7 it is within, 3 m from the nearest side, and its underside at
 * 3 m as well. At the start it stands on the slab and no more than touches it, at the end it is
 * half a metre in it. */
static void
test_meetings (void)
{
  static const char text[]
      = "{'format':'trunnion-plan','version':1,'keep_clear':0.2,"
        "'structures':[{'id':'slab','at':{'position':[0,0,-1]},"
        "'solid':{'kind':'box','size':[4,4,1]}},"
        "{'id':'wall','at':{'position':[7,0,0]},'solid':{'kind':'box','size':[8,20,9]}}],"
        "'components':[{'id':'crate','at':{'position':[0,0,0]},'points':{'eye':[0,0,2]},"
        "'solid':{'kind':'box','size':[2,2,2]}}],"
        "'programme':[{'lift':'in','component':'crate','hook_point':'eye','moves':["
        "{'do':'hoist','by':3,'seconds':30},{'do':'travel','by':[7,0],'seconds':35},"
        "{'do':'travel','by':[-7,0],'seconds':35},{'do':'hoist','by':-3.5,'seconds':35}]}]}";
  const struct
  {
    double time_s;
    TrnMeeting slab, wall;
    double depth_m;
  } expected[] = { { 0, TRN_MEETING_TOUCHES, TRN_MEETING_NONE, 0 },
                   { 30, TRN_MEETING_NONE, TRN_MEETING_NONE, 0 },
                   { 45, TRN_MEETING_NONE, TRN_MEETING_CUTS, 0 },
                   { 65, TRN_MEETING_NONE, TRN_MEETING_INSIDE, 3 },
                   { 135, TRN_MEETING_CUTS, TRN_MEETING_NONE, 0 } };
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_autoptr (TrnScene) scene
      = trn_scene_build_take (test_programme (text), &(TrnSceneOptions){ 0 }, diags);
  g_assert_nonnull (scene);
  g_autoptr (TrnMoment) moment = trn_moment_new (scene, 0);
  for (guint i = 0; i < G_N_ELEMENTS (expected); i++)
    {
      trn_moment_set_time (moment, expected[i].time_s);
      const TrnMomentDistance *d = moment->distances;
      g_assert_cmpint (d[0].meeting, ==, expected[i].slab);
      g_assert_cmpint (d[1].meeting, ==, expected[i].wall);
      g_assert_cmpfloat_with_epsilon (d[1].depth_m, expected[i].depth_m, 1.1e-5);
      g_assert_true ((d[1].distance_m == 0) == (d[1].meeting != TRN_MEETING_NONE));
    }
}

/* The boom, as a rod of 0.7071 m round its axis, and the post, 1 m wide, beside its middle: 5 mm
 * deep it no more than touches, 0.2 m deep it cuts in; in a block of 40 m it is wholly inside, as
 * all of the crane is, at least 9 m from its sides. */
static void
test_meetings_of_gear (void)
{
  const struct
  {
    const char *at, *size;
    TrnMeeting meeting;
    double least_depth_m;
  } cases[] = { { "[6,1.2021,0]", "[1,1,30]", TRN_MEETING_TOUCHES, 0 },
                { "[6,1,0]", "[1,1,30]", TRN_MEETING_CUTS, 0 },
                { "[6,0,-10]", "[40,40,40]", TRN_MEETING_INSIDE, 9 } };
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GString) text = g_string_new (test_crane_plan);
      g_assert_cmpuint (g_string_replace (text, "[12,5,0]", cases[i].at, 0), ==, 1);
      g_assert_cmpuint (g_string_replace (text, "[1,1,30]", cases[i].size, 0), ==, 1);
      g_autoptr (TrnDiags) diags = trn_diags_new ();
      g_autoptr (TrnScene) scene
          = trn_scene_build_take (test_programme (text->str), &(TrnSceneOptions){ 0 }, diags);
      g_assert_nonnull (scene);
      g_autoptr (TrnMoment) moment = trn_moment_new (scene, 0);
      const TrnMomentDistance *d = &moment->distances[1];
      g_assert_cmpfloat (d->distance_m, ==, 0);
      g_assert_cmpint (d->meeting, ==, cases[i].meeting);
      g_assert_cmpfloat (d->depth_m, >=, cases[i].least_depth_m);
      g_assert_true ((d->depth_m > 0) == (d->meeting == TRN_MEETING_INSIDE));
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/scene/moment/distances", test_distances);
  g_test_add_func ("/scene/moment/pose", test_pose);
  g_test_add_func ("/scene/moment/gear", test_gear);
  g_test_add_func ("/scene/moment/meetings", test_meetings);
  g_test_add_func ("/scene/moment/meetings-of-gear", test_meetings_of_gear);
  return g_test_run ();
}
