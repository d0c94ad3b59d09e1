/* Loads that hang free: leaned motions by closed form, what keeps the drawn attitude, where it
 * is not known how they hang, and the bounds over the box of the centre of gravity against
 * attitudes picked at random from it. */
#include <math.h>

#include "hang-case.h"
#include "hanging.h"
#include "moment.h"
#include "test-scale.h"

#define NEAR 1e-9

/* The same as drawn. */
static TrnProgramme *
play_drawn (const Case *c)
{
  g_autofree char *text = case_text (c);
  g_auto (GStrv) parts = g_strsplit (text, "'hangs': 'free', ", -1);
  g_autofree char *drawn = g_strjoinv ("", parts);
  return test_programme (drawn);
}

static const TrnVec3 up = { 0, 0, 1 };

/* The hook 3 m above the centre of gravity and 0.5 m aside of it: it leans by atan (0.5/3), which
 * puts the centre √(0.5² + 3²) plumb below the hook, at every moment of every kind of move, with
 * the hook where the drawn lift has it. Between two moves nothing jumps. */
static void
test_lean (void)
{
  const Case c = { .at = "{'position': [1, 2, 3], 'turn': [25, 0, 0]}",
                   .cog = "[0.3, 0.4, 1]",
                   .hook = "[0, 0, 4]",
                   .moves = ALL };
  g_autoptr (TrnProgramme) drawn = play_drawn (&c), free_hang = play (&c);
  const TrnLiftRun *run = &free_hang->runs[0];
  const TrnVec3 hook = { 0, 0, 4 }, cog = { 0.3, 0.4, 1 };
  TrnPose before = run->motions[0].start;
  for (guint m = 0; m < run->lift->n_moves; m++)
    {
      g_assert_true (run->hangs[m].one_hook && run->hangs[m].leans);
      g_assert_cmpfloat_with_epsilon (run->hangs[m].lean_rad, atan2 (0.5, 3), NEAR);
      g_assert_cmpfloat (run->hangs[m].reach_rad, ==, 0);
      g_assert_cmpfloat (run->hangs[m].reach_m, ==, 0);
      for (double s = 0; s <= 1; s += 0.125)
        {
          TrnPose pose = trn_motion_pose (&run->motions[m], s);
          TrnPose as_drawn = trn_motion_pose (&drawn->runs[0].motions[m], s);
          TrnVec3 at = trn_pose_apply (&as_drawn, hook);
          test_assert_near (trn_pose_apply (&pose, hook), at.x, at.y, at.z, NEAR);
          test_assert_near (trn_pose_apply (&pose, cog), at.x, at.y, at.z - sqrt (9.25), NEAR);
          g_assert_cmpfloat_with_epsilon (trn_rotation_angle_between (&pose.turn, &as_drawn.turn),
                                          atan2 (0.5, 3), NEAR);
        }
      g_assert_cmpfloat (trn_vec3_distance (before.position, run->motions[m].start.position), <,
                         NEAR);
      before = trn_motion_pose (&run->motions[m], 1);
    }
  g_assert_cmpfloat (trn_vec3_distance (before.position, run->end.position), ==, 0);
}

/* The centre of gravity plumb below the hook: nothing leans, and all is as drawn. */
static void
test_plumb (void)
{
  const Case c = { .at = "{'position': [1, 2, 3], 'turn': [25, 0, 0]}",
                   .cog = "[0, 0, 1]",
                   .hook = "[0, 0, 4]",
                   .moves = ALL };
  g_autoptr (TrnProgramme) drawn = play_drawn (&c), free_hang = play (&c);
  for (guint m = 0; m < free_hang->runs[0].lift->n_moves; m++)
    for (double s = 0; s <= 1; s += 0.25)
      {
        TrnPose a = trn_motion_pose (&drawn->runs[0].motions[m], s);
        TrnPose b = trn_motion_pose (&free_hang->runs[0].motions[m], s);
        g_assert_cmpfloat (trn_vec3_distance (a.position, b.position), <, 1e-13);
        g_assert_cmpfloat (trn_rotation_angle_between (&a.turn, &b.turn), <, 1e-13);
      }
  g_assert_cmpfloat (free_hang->runs[0].hangs[0].lean_rad, <, 1e-13);
}

/* A lift as drawn tells which moves one hook holds, and nothing else. */
static void
test_drawn (void)
{
  const Case c = { .at = "{'position': [0, 0, 0]}",
                   .cog = "[0.5, 0, 0]",
                   .hook = "[0, 0, 4]",
                   .moves = HOIST "," TILT };
  g_autoptr (TrnProgramme) drawn = play_drawn (&c);
  const TrnMoveHang *hangs = drawn->runs[0].hangs;
  g_assert_true (hangs[0].one_hook && !hangs[1].one_hook);
  g_assert_true (!hangs[0].leans && hangs[0].off_rad == 0 && hangs[0].reach_rad == 0);
  g_assert_cmpfloat (drawn->runs[0].motions[0].start.turn.m[2][2], ==, 1);
}

/* With seats at both ends the first move that is no wait, the last, and the waits around are as
 * drawn and told how far off the load hangs; what stands after the lift is as drawn. */
static void
test_seats (void)
{
  const Case c = { .at = "{'position': [0, 0, 0]}",
                   .cog = "[0.5, 0, 0]",
                   .hook = "[0, 0, 5]",
                   .more = "'seats': [{'on': 'deck', 'at': 'both'}],",
                   .moves = WAIT "," HOIST "," WAIT "," TRAVEL "," HOIST "," WAIT };
  g_autoptr (TrnProgramme) drawn = play_drawn (&c), free_hang = play (&c);
  const TrnLiftRun *run = &free_hang->runs[0];
  const gboolean leans[] = { FALSE, FALSE, TRUE, TRUE, FALSE, FALSE };
  const double lean_rad = atan2 (0.5, 5);
  for (guint m = 0; m < G_N_ELEMENTS (leans); m++)
    {
      const TrnMoveHang *hang = &run->hangs[m];
      TrnPose was = drawn->runs[0].motions[m].start;
      g_assert_true (hang->one_hook);
      g_assert_cmpint (hang->leans, ==, leans[m]);
      g_assert_cmpfloat_with_epsilon (hang->lean_rad, lean_rad, NEAR);
      g_assert_cmpfloat_with_epsilon (hang->off_rad, leans[m] ? 0 : lean_rad, NEAR);
      g_assert_cmpfloat_with_epsilon (
          trn_rotation_angle_between (&was.turn, &run->motions[m].start.turn),
          leans[m] ? lean_rad : 0, NEAR);
    }
  g_assert_cmpfloat (trn_vec3_distance (run->end.position, drawn->runs[0].end.position), ==, 0);
  g_assert_cmpfloat (run->end.turn.m[2][2], ==, 1);
  /* A moment at the border is one of the later move. */
  guint move;
  double progress;
  TrnPose at_border = trn_lift_run_pose (run, 2, &move, &progress);
  g_assert_cmpuint (move, ==, 2);
  g_assert_cmpfloat_with_epsilon (acos (at_border.turn.m[2][2]), lean_rad, NEAR);
}

/* Without a seat at its end the load stays as it hangs, and the next lift finds it so: it has no
 * further to lean. */
static void
test_next_lift (void)
{
  const Case c = { .at = "{'position': [0, 0, 0]}",
                   .cog = "[0.5, 0, 0]",
                   .hook = "[0, 0, 5]",
                   .moves = HOIST,
                   .after = ", {'lift': 'm', 'component': 'unit', 'hook_point': [0, 0, 5],"
                            " 'hangs': 'free', 'moves': [" TRAVEL "]}" };
  g_autoptr (TrnProgramme) programme = play (&c);
  const TrnLiftRun *first = &programme->runs[0], *second = &programme->runs[1];
  test_assert_near (trn_pose_apply (&first->end, trn_vec3_make (0.5, 0, 0)), 0, 0, 7 - sqrt (25.25),
                    NEAR);
  g_assert_false (second->starts_elsewhere);
  g_assert_cmpfloat (second->hangs[0].lean_rad, <, 1e-12);
  g_assert_cmpfloat (trn_vec3_distance (second->motions[0].start.position, first->end.position), <,
                     1e-12);
}

/* A tilt, and a move with a tail hook, are as drawn. The moves next to one that leans are told its
 * lean, the one between them nothing. */
static void
test_guided (void)
{
  const Case c = { .at = "{'position': [0, 0, 0]}",
                   .cog = "[0.5, 0, 0]",
                   .hook = "[0, 0, 5]",
                   .more = "'rigging': {'main': {}, 'tail': {'point': [0, 1, 0], 'hook_above': 3,"
                           " 'moves': [1, 2]}},",
                   .moves = HOIST "," HOIST "," TRAVEL "," TILT "," HOIST };
  g_autoptr (TrnProgramme) drawn = play_drawn (&c), free_hang = play (&c);
  const TrnLiftRun *run = &free_hang->runs[0];
  for (guint m = 1; m < 4; m++)
    {
      g_assert_false (run->hangs[m].one_hook || run->hangs[m].leans);
      TrnPose was = drawn->runs[0].motions[m].start;
      g_assert_cmpfloat (trn_vec3_distance (was.position, run->motions[m].start.position), ==, 0);
    }
  g_assert_cmpfloat_with_epsilon (run->hangs[1].off_rad, atan2 (0.5, 5), NEAR);
  g_assert_cmpfloat_with_epsilon (run->hangs[1].reach_rad, atan2 (0.5, 5), NEAR);
  g_assert_cmpfloat (run->hangs[2].off_rad, ==, 0);
  /* After the tilt by 10 degrees the load has farther to lean. */
  g_assert_cmpfloat (run->hangs[3].off_rad, ==, run->hangs[4].lean_rad);
  g_assert_cmpfloat (run->hangs[4].lean_rad, >, 5 * G_PI / 180);
  g_assert_true (run->hangs[4].leans);
}

#define LEG(id, to, length) "{'id': '" id "', 'to': " to ", 'diameter': 0.02, 'length': " length "}"

/* Two legs of 5 and √34 m to lugs 3 m to either side of the middle: the hook is where both reach,
 * h = (x, 0, z) with (x + 3)² + z² = 25, (x − 3)² + z² = 34: x = −0.75, z = √19.9375. The centre of
 * gravity at (0, 0, −2) is plumb below it, so the load leans by atan (0.75/(z + 2)). The drawn hook
 * is 4 m over the middle and stays on its way; the rig has it there, and the legs at their
 * lengths. */
static void
test_legs (void)
{
  const double z = sqrt (19.9375);
  const Case c
      = { .at = "{'position': [0, 0, 1]}",
          .cog = "[0, 0, -2]",
          .hook = "[0, 0, 0]",
          .more = "'rigging': {'main': {'hook_above': 4, 'slings': [" LEG (
              "west", "[-3, 0, 0]", "5") ", " LEG ("east", "[3, 0, 0]", "5.830951894845301") "]}},",
          .moves = TRAVEL "," TURN_ASIDE };
  g_autoptr (TrnProgramme) drawn = play_drawn (&c), free_hang = play (&c);
  const TrnLiftRun *run = &free_hang->runs[0];
  g_assert_cmpfloat_with_epsilon (run->hangs[0].lean_rad, atan2 (0.75, z + 2), NEAR);
  for (guint m = 0; m < 2; m++)
    for (double s = 0; s <= 1; s += 0.25)
      {
        TrnPose pose = trn_motion_pose (&run->motions[m], s);
        TrnPose as_drawn = trn_motion_pose (&drawn->runs[0].motions[m], s);
        TrnVec3 at = trn_pose_apply (&as_drawn, trn_vec3_make (0, 0, 4));
        test_assert_near (trn_pose_apply (&pose, trn_vec3_make (-0.75, 0, z)), at.x, at.y, at.z,
                          NEAR);
        test_assert_near (trn_pose_apply (&pose, trn_vec3_make (0, 0, -2)), at.x, at.y,
                          at.z - hypot (0.75, z + 2), NEAR);
        const TrnRigQuantity asked[]
            = { TRN_RIG_HOOK_X, TRN_RIG_HOOK_Y, TRN_RIG_HOOK_HEIGHT, TRN_RIG_SLING_LENGTH };
        const double expected[] = { at.x, at.y, at.z, 5 };
        for (guint i = 0; i < G_N_ELEMENTS (asked); i++)
          {
            TrnRigQuestion q = { run->rig, &run->lift->rigging.main, asked[i], m, 0 };
            TrnJet value;
            g_assert_true (trn_rig_ask (&q, trn_interval_point (s), &value));
            g_assert_cmpfloat_with_epsilon (trn_interval_middle (value.v), expected[i], NEAR);
          }
      }
}

/* Legs without lengths below a hook of known height are as long as drawn: the hook is 4 m over the
 * middle and 6 m over the centre of gravity, 0.3 m off, so that the load leans by atan (0.3/6)
 * about it and not by atan (0.3/2) about its point. A hook of unknown height leaves the point. */
static void
test_legs_as_drawn (void)
{
#define BARE_LEGS                                                                                  \
  "'slings': [{'id': 'a', 'to': [-3, 0, 0], 'diameter': 0.02}, {'id': 'b', 'to': [2, 2, 0],"       \
  " 'diameter': 0.02}, {'id': 'c', 'to': [2, -2, 0], 'diameter': 0.02}]"
  Case c = { .at = "{'position': [0, 0, 1], 'turn': [30, 0, 0]}",
             .cog = "[0.3, 0, -2]",
             .hook = "[0, 0, 0]",
             .more = "'rigging': {'main': {'hook_above': 4, " BARE_LEGS "}},",
             .moves = TRAVEL "," TURN_ASIDE };
  g_autoptr (TrnProgramme) known = play (&c);
  for (guint m = 0; m < 2; m++)
    g_assert_cmpfloat_with_epsilon (known->runs[0].hangs[m].lean_rad, atan2 (0.3, 6), NEAR);
  c.more = "'rigging': {'main': {" BARE_LEGS "}},";
  g_autoptr (TrnProgramme) unknown = play (&c);
  g_assert_cmpfloat_with_epsilon (unknown->runs[0].hangs[0].lean_rad, atan2 (0.3, 2), NEAR);
}

/* A beam 2 m below the hook with its points 2 m over the centre of gravity: what is 0.3 m off along
 * it makes the load lean by atan (0.3/4), and beam and slings with it; off across the beam by atan
 * (0.3/2). What the rigging weighs is not known: its weight may keep the beam level, and then the
 * load. */
static void
test_beam (void)
{
#define HUNG_BEAM                                                                                  \
  "'rigging': {'main': {'hook_above': 3, 'beam': {'id': 'bar', 'length': 2, 'width': 0.2, 'depth'" \
  ": 0.2, 'below_hook': 2, 'between': [[-1, 0, 0], [1, 0, 0]]}, 'slings': [{'id': 'ua', 'to':"     \
  " 'beam-a', 'diameter': 0.02}, {'id': 'ub', 'to': 'beam-b', 'diameter': 0.02}, {'id': 'a',"      \
  " 'from': 'beam-a', 'to': [-1, 0, 0], 'diameter': 0.02}, {'id': 'b', 'from': 'beam-b', 'to':"    \
  " [1, 0, 0], 'diameter': 0.02}]}},"
  Case c = { .at = "{'position': [0, 0, 1], 'turn': [30, 0, 0]}",
             .cog = "[0.3, 0, -2]",
             .hook = "[0, 0, 0]",
             .more = HUNG_BEAM,
             .moves = TRAVEL "," TRAVEL };
  g_autoptr (TrnProgramme) along = play (&c);
  const TrnLiftRun *run = &along->runs[0];
  const double lean_rad = atan2 (0.3, 4);
  g_assert_cmpfloat_with_epsilon (run->hangs[1].lean_rad, lean_rad, NEAR);
  g_assert_cmpfloat_with_epsilon (run->hangs[1].reach_rad, lean_rad, NEAR);
  const TrnPose *start = &run->motions[0].start;
  const TrnVec3 hook = trn_pose_apply (start, run->rig->hung[0].hook),
                a = trn_pose_apply (start, run->rig->hung[0].beam[0]),
                middle = trn_vec3_mix (a, trn_pose_apply (start, run->rig->hung[0].beam[1]), 0.5);
  test_assert_near (hook, 0, 0, 4, NEAR);
  g_assert_cmpfloat_with_epsilon (trn_vec3_distance (hook, middle), 2, NEAR);
  g_assert_cmpfloat_with_epsilon (a.z - middle.z, sin (lean_rad), NEAR);
  c.cog_box = "[0.2, 0.1, 0.1]";
  g_autoptr (TrnProgramme) boxed = play (&c);
  /* Level, and rolled by 0.1 m either way at 1.9 m below the points. */
  const double rolls_rad = atan2 (0.1, 1.9);
  g_assert_cmpfloat_with_epsilon (boxed->runs[0].hangs[1].reach_rad,
                                  2 * acos (cos (lean_rad / 2) * cos (rolls_rad / 2)), NEAR);
  c.cog = "[0, 0.3, -2]";
  c.cog_box = NULL;
  g_autoptr (TrnProgramme) across = play (&c);
  g_assert_cmpfloat_with_epsilon (across->runs[0].hangs[1].lean_rad, atan2 (0.3, 2), NEAR);
  g_assert_cmpfloat (across->runs[0].hangs[1].reach_rad, <, NEAR);
}

#define SPREAD_BEAM                                                                                \
  "'rigging': {'main': {'hook_above': 3, 'beam': {'id': 'bar', 'length': 2, 'width': 0.2, 'depth'" \
  ": 0.2, 'below_hook': 2, 'between': [[-1, 0, 0], [1, 0, 0]]}, 'slings': [{'id': 'ua', 'to':"     \
  " 'beam-a', 'diameter': 0.02}, {'id': 'ub', 'to': 'beam-b', 'diameter': 0.02}, {'id': 'a',"      \
  " 'from': 'beam-a', 'to': [-1, -0.5, 0], 'diameter': 0.02}, {'id': 'a2', 'from': 'beam-a',"      \
  " 'to': [-1, 0.5, 0], 'diameter': 0.02}, {'id': 'b', 'from': 'beam-b', 'to': [1, -0.5, 0],"      \
  " 'diameter': 0.02}, {'id': 'b2', 'from': 'beam-b', 'to': [1, 0.5, 0], 'diameter': 0.02}]}},"

/* Two slings that spread at each end of a beam 1 m over the points: across it the load turns about
 * the beam, 3 m over its centre of gravity, and not about its points, as it is taken to. All points
 * of it are where that takes them, but for what is told, */
static void
test_spread_beam (void)
{
  const Case c = { .at = "{'position': [0, 0, 1], 'turn': [30, 0, 0]}",
                   .cog = "[0, 0.3, -2]",
                   .hook = "[0, 0, 0]",
                   .more = SPREAD_BEAM,
                   .moves = TRAVEL };
  g_autoptr (TrnProgramme) spread = play (&c);
  const TrnMoveHang *hang = &spread->runs[0].hangs[0];
  const TrnPose *start = &spread->runs[0].motions[0].start;
  const TrnPlacement placement = { .position = { 0, 0, 1 }, .heading_rad = G_PI / 6 };
  const TrnPose drawn = trn_pose_make (&placement);
  const TrnVec3 beam = { 0, 0, 2 }, along = { cos (G_PI / 6), sin (G_PI / 6), 0 };
  const TrnRotation roll = trn_rotation_make (along, -atan (0.3 / 3));
  const TrnVec3 cog = trn_vec3_add (
      beam, trn_rotation_apply (
                &roll, trn_vec3_sub (trn_pose_apply (&drawn, trn_vec3_make (0, 0.3, -2)), beam)));
  g_assert_cmpfloat (hypot (cog.x, cog.y), <, NEAR);
  g_assert_cmpfloat_with_epsilon (hang->lean_rad, atan (0.3 / 2), NEAR);
  for (guint i = 0; i < 27; i++)
    {
      const TrnVec3 p = { (double)(i % 3) - 1, (double)(i / 3 % 3) - 1, -(double)(i / 9) };
      const TrnVec3 is = trn_vec3_add (
          beam, trn_rotation_apply (&roll, trn_vec3_sub (trn_pose_apply (&drawn, p), beam)));
      const double told_m = hang->reach_m + trn_chord_m (trn_vec3_length (p), hang->reach_rad);
      g_assert_cmpfloat (trn_vec3_distance (is, trn_pose_apply (start, p)), <=, told_m);
    }
}

#define LOW_BEAM                                                                                   \
  "'rigging': {'main': {'hook_above': 3, 'beam': {'id': 'bar', 'length': 2, 'width': 0.2, 'depth'" \
  ": 0.2, 'below_hook': 2, 'between': [[-1, 0, 0], [1, 0, 0]]}, 'slings': [{'id': 'ua', 'to':"     \
  " 'beam-a', 'diameter': 0.02}, {'id': 'ub', 'to': 'beam-b', 'diameter': 0.02}, {'id': 'a',"      \
  " 'from': 'beam-a', 'to': [-1, 0, -1], 'diameter': 0.02}, {'id': 'b', 'from': 'beam-b', 'to':"   \
  " [1, 0, -1], 'diameter': 0.02}]}},"

/* The points of the beam 1 m below the hook point: 0.3 m off across and 1 m below them it leans by
 * atan (0.3), about a point in the line through them, which stays plumb below the hook, 4 m. */
static void
test_low_beam (void)
{
  Case c = { .at = "{'position': [0, 0, 1], 'turn': [30, 0, 0]}",
             .cog = "[0, 0.3, -2]",
             .hook = "[0, 0, 0]",
             .more = LOW_BEAM,
             .moves = TRAVEL };
  g_autoptr (TrnProgramme) low = play (&c);
  const TrnLiftRun *run = &low->runs[0];
  g_assert_cmpfloat_with_epsilon (run->hangs[0].lean_rad, atan2 (0.3, 1), NEAR);
  const TrnPose *start = &run->motions[0].start;
  test_assert_near (trn_pose_apply (start, trn_vec3_make (0, 0, -1)), 0, 0, 0, NEAR);
  test_assert_near (trn_pose_apply (start, run->rig->hung[0].hook), 0, 0, 4, NEAR);
}

/* ---- faults ---- */

/* Played without a word, the one move is as drawn and says why it
 * is not known how the load hangs in it. */
static const TrnMoveHang *
assert_unhung (const Case *c, const char *without, const char *missing, TrnProgramme **programme)
{
  g_autofree char *text = case_text (c);
  if (without != NULL)
    {
      g_auto (GStrv) parts = g_strsplit (text, without, -1);
      g_free (text);
      text = g_strjoinv ("", parts);
    }
  g_clear_pointer (programme, trn_programme_free);
  g_autoptr (TrnPlan) plan = test_plan (text);
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  *programme = trn_programme_play (plan, diags);
  test_print_diags (diags);
  g_assert_nonnull (*programme);
  g_assert_cmpuint (diags->items->len, ==, 0);
  const TrnLiftRun *run = &(*programme)->runs[0];
  g_assert_cmpstr (run->hangs[0].missing, ==, missing);
  g_assert_false (run->hangs[0].leans);
  g_assert_true (isnan (run->hangs[0].reach_rad) && isnan (run->hangs[0].reach_m));
  g_assert_true (run->ends_unknown);
  g_assert_cmpfloat (trn_rotation_angle_between (&run->motions[0].start.turn, &run->start.turn), ==,
                     0);
  return &run->hangs[0];
}

static void
test_far (void)
{
  Case c = { .at = "{'position': [0, 0, 0]}", .hook = "[0, 0, 5]", .moves = HOIST };
  c.cog = "[4, 0, 0]"; /* 39 degrees */
  g_autofree char *text = case_text (&c);
  g_autoptr (TrnPlan) plan = test_plan (text);
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_autoptr (TrnProgramme) programme = trn_programme_play (plan, diags);
  g_assert_nonnull (programme);
  g_assert_cmpuint (diags->items->len, ==, 1);
  const TrnDiag *diag = g_ptr_array_index (diags->items, 0);
  g_assert_cmpstr (diag->code, ==, "scene/hang-far");
  g_assert_cmpstr (diag->pointer, ==, "/programme/0/hangs");
}

/* With the centre of gravity above the hook point, above the points below a beam, or above the
 * points of legs, which then hold it upside down. */
static void
test_turns_over (void)
{
  g_autoptr (TrnProgramme) programme = NULL;
  Case c = { .at = "{'position': [0, 0, 0]}", .cog = "[0, 0, 5.5]", .hook = "[0, 0, 5]" };
  c.moves = HOIST;
  const TrnMoveHang *hang = assert_unhung (&c, NULL, TRN_HANG_TURNS_OVER, &programme);
  g_assert_cmpfloat_with_epsilon (hang->lean_rad, G_PI, NEAR);
  c.cog = "[3, 0, 9]"; /* 3 m aside and 4 m above */
  hang = assert_unhung (&c, NULL, TRN_HANG_TURNS_OVER, &programme);
  g_assert_cmpfloat_with_epsilon (hang->lean_rad, G_PI - atan (3.0 / 4), NEAR);
  c.hook = "[0, 0, 0]";
  c.cog = "[0, 0, -0.5]";
  c.more = LOW_BEAM;
  assert_unhung (&c, NULL, TRN_HANG_TURNS_OVER, &programme);
  c.cog = "[0, 0, 6]";
  c.hook = "[0, 0, 5]";
  c.more = "'rigging': {'main': {'hook_above': 4, 'slings': [" LEG (
      "a", "[1, 0, 5]", "4.1231056") "," LEG ("b", "[-1, 0, 5]", "4.1231056") "]}},";
  hang = assert_unhung (&c, NULL, TRN_HANG_TURNS_OVER, &programme);
  g_assert_cmpfloat_with_epsilon (hang->lean_rad, G_PI, 1e-6);
}

static void
test_not_known (void)
{
  g_autoptr (TrnProgramme) programme = NULL;
  Case c = { .at = "{'position': [0, 0, 0]}", .cog = "[0, 0, 0]", .hook = "[0, 0, 5]" };
  c.moves = HOIST;
  assert_unhung (&c, "'cog': [0, 0, 0],", "cog", &programme);
  c.hook = "[0, 0, 0]";
  assert_unhung (&c, NULL, TRN_HANG_HELD, &programme);
  c.hook = "[0, 0, 5]";
  c.more = "'rigging': {'main': {'hook_above': 4, 'slings': [" LEG (
      "a", "[1, 0, 5]", "4.1") ", {'id': 'b', 'to': [-1, 0, 5], 'diameter': 0.02}]}},";
  assert_unhung (&c, NULL, TRN_HANG_LENGTH, &programme);
  c.more
      = "'rigging': {'main': {'hook_above': 4, 'slings': [" LEG ("a", "[1, 0, 5]", "4.1") "," LEG (
          "b", "[-1, 0, 5]", "4.1") "," LEG ("c", "[0, 1, 5]",
                                             "4.1") "," LEG ("d", "[0, -1, 5]",
                                                             "4.1") "," LEG ("e", "[0, 0, 5]",
                                                                             "4.1") "]}},";
  assert_unhung (&c, NULL, TRN_HANG_LEGS, &programme);
}

/* ---- the box ---- */

static double
pick (double lo, double hi)
{
  return g_test_rand_double_range (lo, hi);
}

static TrnVec3
pick_vec (double most)
{
  return trn_vec3_make (pick (-most, most), pick (-most, most), pick (-most, most));
}

/* The place, seen from the hook, of point @p of a load with its centre of gravity at @cog. */
static gboolean
hung_place (const TrnHoist *hoist, TrnVec3 a, TrnVec3 cog, const TrnRotation *drawn, TrnVec3 p,
            TrnVec3 *place)
{
  TrnHangLeg legs[TRN_HANG_LEGS_MAX];
  TrnRotation turn;
  TrnVec3 hook = a;
  if (hoist->n_slings == 0)
    {
      if (!trn_hang_from_point (a, cog, drawn, &turn))
        return FALSE;
    }
  else
    {
      TrnHang hang;
      for (guint i = 0; i < hoist->n_slings; i++)
        legs[i] = (TrnHangLeg){ hoist->slings[i].to, hoist->slings[i].length_m };
      if (!trn_hang_from_legs (legs, hoist->n_slings, cog, drawn, &hang))
        return FALSE;
      turn = hang.site_from_load;
      hook = hang.hook;
    }
  *place = trn_rotation_apply (&turn, trn_vec3_sub (p, hook));
  return TRUE;
}

/* Random loads on a point or on 2 to 4 legs, with boxes up to a third of a metre: whatever centre
 * is picked from the box, no point is farther from where the motion has it than told; a move at a
 * seat (the first) and one that leans (the second). The greatest share of the bound that is seen
 * shows that it is not idle. */
static double
check_random_box (void)
{
  const guint n_legs = (guint)g_test_rand_int_range (0, 4) + 1; /* 1: a point */
  g_autoptr (GString) rigging = g_string_new ("'seats': [{'on': 'deck', 'at': 'start'}],");
  if (n_legs > 1)
    g_string_append (rigging, "'rigging': {'main': {'hook_above': 5, 'slings': [");
  for (guint i = 0; i < n_legs && n_legs > 1; i++)
    {
      double x = (i & 1 ? 1 : -1) * pick (0.8, 2), y = (i & 2 ? 1 : -1) * pick (0.8, 2);
      g_string_append_printf (
          rigging, "%s{'id': 's%u', 'to': [%.3f, %.3f, %.3f], 'diameter': 0.02, 'length': %.3f}",
          i > 0 ? "," : "", i, x, n_legs == 2 ? pick (-0.2, 0.2) : y, pick (-0.2, 0.2),
          pick (4.9, 5.3));
    }
  if (n_legs > 1)
    g_string_append (rigging, "]}},");
  g_autofree char *cog
      = g_strdup_printf ("[%.3f, %.3f, %.3f]", pick (-0.4, 0.4), pick (-0.4, 0.4), pick (-4, -2));
  g_autofree char *box
      = g_strdup_printf ("[%.3f, %.3f, %.3f]", pick (0, 0.3), pick (0, 0.3), pick (0, 0.3));
  g_autofree char *at = g_strdup_printf ("{'position': [1, 2, 3], 'turn': [%.2f, %.2f, %.2f]}",
                                         pick (-180, 180), pick (-8, 8), pick (-8, 8));
  const Case c = { at, cog, box, "[0, 0, 0]", rigging->str, HOIST "," MOVE, NULL };
  g_autoptr (TrnProgramme) programme = play (&c);
  const TrnLiftRun *run = &programme->runs[0];
  const TrnComponent *unit = &programme->plan->components[0];
  const TrnPose drawn = run->motions[0].start;
  const double above_m = n_legs > 1 ? 5 : 0;
  double most = 0;
  for (guint k = 0; k < 60; k++)
    {
      TrnVec3 cog_off = pick_vec (1), p = pick_vec (6), place;
      if (k < 8)
        cog_off = trn_vec3_make (k & 1 ? 1 : -1, k & 2 ? 1 : -1, k & 4 ? 1 : -1);
      TrnVec3 centre = trn_vec3_add (unit->cog, trn_vec3_make (cog_off.x * unit->cog_box.x,
                                                               cog_off.y * unit->cog_box.y,
                                                               cog_off.z * unit->cog_box.z));
      const TrnHoist *hoist = &run->lift->rigging.main;
      if (!hung_place (hoist, trn_vec3_make (0, 0, 0), centre, &drawn.turn, p, &place))
        continue;
      for (guint m = 0; m < 2; m++)
        {
          const TrnMoveHang *hang = &run->hangs[m];
          TrnPose pose = run->motions[m].start;
          TrnVec3 hook = { 1, 2, 3 + above_m + (m > 0 ? 2 : 0) };
          double off = trn_vec3_distance (trn_vec3_sub (trn_pose_apply (&pose, p), hook), place);
          double bound = 2 * trn_vec3_length (p) * sin (hang->reach_rad / 2) + hang->reach_m;
          g_assert_false (off > bound + 1e-9);
          most = isnan (bound) ? most : fmax (most, off / bound);
        }
    }
  return most;
}

static void
test_random_box (void)
{
  const guint n = test_scaled (60);
  double sum = 0;
  for (guint i = 0; i < n; i++)
    sum += check_random_box ();
  g_test_message ("the farthest is %.2f of the bound on the average", sum / n);
  g_assert_cmpfloat (sum / n, >, 0.4);
}

/* A box that reaches beside the hook has no bound: nothing is told. */
static void
test_box_too_large (void)
{
  const Case c = { .at = "{'position': [0, 0, 0]}",
                   .cog = "[0, 0, 0]",
                   .cog_box = "[0.1, 0.1, 2]",
                   .hook = "[0, 0, 1]",
                   .moves = HOIST };
  g_autoptr (TrnProgramme) programme = play (&c);
  g_assert_true (isnan (programme->runs[0].hangs[0].reach_rad));
}

/* The same lift on a site that is turned by 77 degrees: the same leans and bounds, the same poses,
 * turned. */
static void
test_yaw (void)
{
  const double yaw = 77 * G_PI / 180;
  g_autofree char *travel
      = g_strdup_printf ("{'do': 'travel', 'by': [%.17g, %.17g], 'seconds': 1}",
                         3 * cos (yaw) + 4 * sin (yaw), 3 * sin (yaw) - 4 * cos (yaw));
  g_autofree char *moves = g_strconcat (HOIST, ",", travel, ",", WAIT, NULL);
  const Case a = { .at = "{'position': [0, 0, 3], 'turn': [25, 4, -3]}",
                   .cog = "[0.3, 0.4, 1]",
                   .cog_box = "[0.1, 0.2, 0.3]",
                   .hook = "[0, 0, 4]",
                   .moves = HOIST "," TRAVEL "," WAIT };
  Case b = a;
  b.at = "{'position': [0, 0, 3], 'turn': [102, 4, -3]}";
  b.moves = moves;
  g_autoptr (TrnProgramme) first = play (&a), second = play (&b);
  const TrnRotation turn = trn_rotation_make (up, yaw);
  for (guint m = 0; m < 3; m++)
    {
      const TrnMoveHang *p = &first->runs[0].hangs[m], *q = &second->runs[0].hangs[m];
      g_assert_cmpfloat_with_epsilon (p->lean_rad, q->lean_rad, 1e-12);
      g_assert_cmpfloat_with_epsilon (p->reach_rad, q->reach_rad, 1e-12);
      TrnPose one = trn_motion_pose (&first->runs[0].motions[m], 0.5);
      TrnPose two = trn_motion_pose (&second->runs[0].motions[m], 0.5);
      TrnVec3 place = trn_rotation_apply (&turn, trn_pose_apply (&one, trn_vec3_make (1, 2, 3)));
      test_assert_near (trn_pose_apply (&two, trn_vec3_make (1, 2, 3)), place.x, place.y, place.z,
                        NEAR);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/scene/free-hang/lean", test_lean);
  g_test_add_func ("/scene/free-hang/plumb", test_plumb);
  g_test_add_func ("/scene/free-hang/drawn", test_drawn);
  g_test_add_func ("/scene/free-hang/seats", test_seats);
  g_test_add_func ("/scene/free-hang/next-lift", test_next_lift);
  g_test_add_func ("/scene/free-hang/guided", test_guided);
  g_test_add_func ("/scene/free-hang/legs", test_legs);
  g_test_add_func ("/scene/free-hang/legs-as-drawn", test_legs_as_drawn);
  g_test_add_func ("/scene/free-hang/beam", test_beam);
  g_test_add_func ("/scene/free-hang/low-beam", test_low_beam);
  g_test_add_func ("/scene/free-hang/spread-beam", test_spread_beam);
  g_test_add_func ("/scene/free-hang/far", test_far);
  g_test_add_func ("/scene/free-hang/turns-over", test_turns_over);
  g_test_add_func ("/scene/free-hang/not-known", test_not_known);
  g_test_add_func ("/scene/free-hang/random-box", test_random_box);
  g_test_add_func ("/scene/free-hang/box-too-large", test_box_too_large);
  g_test_add_func ("/scene/free-hang/yaw", test_yaw);
  return g_test_run ();
}
