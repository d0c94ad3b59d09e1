/* What is taken off clearances of the gear: for each reason, and for where along a boom that is.
 * Against poses within the tolerances, by plain numbers: a crane on the origin, its boom 20 m long
 * from a foot at [-1, 2], which counts as round, 0.5 m, the hook at [10, 0]. */
#include "test-gear.h"

#include "test-scale.h"

#define OFF_M 0.3
#define TOLERANCE "'tolerance': {'position': 0.3},"
#define CRANE                                                                                      \
  "{'id': 'crane', 'kind': 'crane', 'at': {'position': [0, 0, 0]}, 'boom': {'foot': [-1, 2],"      \
  " 'length': 20, 'section': [0.6, 0.8]}, 'hook_to_tip': 3, 'keep_clear': 0.54}"
#define RIGGING "{'main': {'gear': 'crane', 'hook_above': 1}}"
#define WAIT "{'do': 'wait', 'seconds': 60}"
#define BOX(id, size, position)                                                                    \
  "{'id': '" id "', 'solid': {'kind': 'box', 'size': " size "}, 'at': {'position': " position "}}"

typedef struct
{
  double lo[3], hi[3];
} Box;

static double
point_to_box (TrnVec3 p, const Box *box)
{
  const double at[3] = { p.x, p.y, p.z };
  double square = 0;
  for (guint i = 0; i < 3; i++)
    {
      const double off = fmax (0, fmax (box->lo[i] - at[i], at[i] - box->hi[i]));
      square += off * off;
    }
  return sqrt (square);
}

/* Of the boom from the box, the hook at x, y; no more than the truth by 1/2000 of its length. */
static double
boom_to_box (double x, double y, const Box *box)
{
  const double radius = hypot (x, y), u = radius + 1, z = sqrt (400 - u * u);
  double least = INFINITY;
  for (guint i = 0; i <= 2000; i++)
    {
      const double share = i / 2000.0, at = -1 + share * u;
      const TrnVec3 p = { at * x / radius, at * y / radius, 2 + share * z };
      least = fmin (least, point_to_box (p, box));
    }
  return least - 0.5;
}

/* The least over ways of a hook at [10, y] to be off. */
static double
least_off (double y, const Box *box)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (29);
  double least = INFINITY;
  for (guint i = 0; i < test_scaled (400); i++)
    {
      const double at = g_rand_double_range (rand, 0, 2 * G_PI), by = OFF_M * (1 - (i % 3) / 3.0);
      least = fmin (least, boom_to_box (10 + by * cos (at), y + by * sin (at), box));
    }
  return least;
}

static TestRun
run_past (const char *box)
{
  const TestGear t
      = { .gear = CRANE, .structures = box, .rigging = RIGGING, .lift = TOLERANCE, .moves = WAIT };
  return test_gear_run (&t);
}

static const TrnFinding *
boom (const TestRun *run)
{
  return test_finding_of (run, TRN_CHECK_CLEARANCE, 0, 0, "crane/boom", "box", NULL);
}

static void
assert_sum (const TrnFinding *f)
{
  double sum_m = 0;
  for (guint i = 0; f->allowance_parts != NULL && i < f->allowance_parts->len; i++)
    {
      const TrnFindingItem *part = &g_array_index (f->allowance_parts, TrnFindingItem, i);
      g_assert_cmpstr (part->what, !=, "gear");
      sum_m += part->m;
    }
  g_assert_cmpfloat_with_epsilon (sum_m, f->allowance_m, 1e-9);
}

/* 0.6 m beside the foot: the tip goes 0.37 m, which would leave too little of it, but the foot 0.03
 * m of slewing. */
static void
test_foot (void)
{
  const Box box = { { -3.1, 1.1, 0 }, { -0.9, 2.1, 4 } };
  TestRun run = run_past (BOX ("box", "[2.2, 1, 4]", "[-2, 1.6, 0]"));
  const TrnFinding *f = boom (&run);
  const double truth_m = least_off (0, &box);
  TEST_PASSES (f, TRN_STATE_CLEAR);
  test_assert_certified (f, 0.6, 1e-9);
  g_assert_cmpfloat (f->lower_m - f->allowance_m, <=, truth_m);
  /* Half as much again as it may come nearer, and 1/32 of what the tip goes, a part's length. */
  g_assert_cmpfloat (f->allowance_m, <=, 1.5 * (0.6 - truth_m) + 0.37 / 32 + 1e-3);
  assert_sum (f);
  test_run_clear (&run);
}

/* The same beside the tip, at (10, 0, 18.7): there it counts in full, and is too little. */
static void
test_tip (void)
{
  const Box box = { { 8.5, 1.1, 17 }, { 11.5, 2.1, 21 } };
  TestRun run = run_past (BOX ("box", "[3, 1, 4]", "[10, 1.6, 17]"));
  const TrnFinding *f = boom (&run);
  const double truth_m = least_off (0, &box);
  TEST_FAILS (f, TRN_STATE_SHORT);
  test_assert_certified (f, 0.6, 1e-9);
  g_assert_cmpfloat (f->lower_m - f->allowance_m, <=, truth_m);
  g_assert_cmpfloat (f->allowance_m, >=, OFF_M);
  g_assert_cmpfloat (f->allowance_m, <=, 1.5 * (0.6 - truth_m));
  assert_sum (f);
  test_run_clear (&run);
}

/* A wall beside all of the boom, the hook 0.02 m farther from it than the axis: the least distance
 * is at the foot, but it is the tip that comes too near. What is taken off is of that distance, and
 * leaves no more than the tip does. */
static void
test_least_elsewhere (void)
{
  const Box box = { { -3.1, 1.1, 0 }, { 11.5, 2.1, 21 } };
  const TestGear t = { .gear = CRANE,
                       .structures = BOX ("box", "[14.6, 1, 21]", "[4.2, 1.6, 0]"),
                       .at = "[10, -0.02, 0]",
                       .rigging = RIGGING,
                       .lift = TOLERANCE,
                       .moves = WAIT };
  TestRun run = test_gear_run (&t);
  const TrnFinding *f = boom (&run);
  const double truth_m = least_off (-0.02, &box);
  TEST_FAILS (f, TRN_STATE_SHORT);
  test_assert_certified (f, 1.1 - 0.02 / 10 - 0.5, 1e-6);
  g_assert_cmpfloat (f->lower_m - f->allowance_m, <=, truth_m);
  test_assert_between (f->allowance_m, OFF_M, 0.022, 0.08);
  assert_sum (f);
  test_run_clear (&run);
}

/* As test_foot, as loosely certified as may be: what is proven of the parts, which leave enough, is
 * then more than what was of the whole, and holds for that too. What is taken off is no less than
 * 0, and as its parts say. */
static void
test_loose (void)
{
  const Box box = { { -3.1, 1.1, 0 }, { -0.9, 2.1, 4 } };
  const TestGear t = { .gear = CRANE,
                       .structures = BOX ("box", "[2.2, 1, 4]", "[-2, 1.6, 0]"),
                       .rigging = RIGGING,
                       .lift = TOLERANCE,
                       .moves = WAIT,
                       .certify_m = 1000 };
  TestRun run = test_gear_run (&t);
  const TrnFinding *f = boom (&run);
  TEST_PASSES (f, TRN_STATE_CLEAR);
  g_assert_cmpfloat (f->lower_m, <=, f->upper_m);
  g_assert_cmpfloat (f->allowance_m, >, 0);
  g_assert_cmpfloat (f->lower_m - f->allowance_m, >=, 0.54);
  g_assert_cmpfloat (f->lower_m - f->allowance_m, <=, least_off (0, &box));
  assert_sum (f);
  test_run_clear (&run);
}

/* A leg 4 m out and 3 m down from its hook goes past a post: first its top, which shifts by 0.05 m,
 * is 0.65 m from that, at last its foot 1.08 m, which a turn of 10° takes 0.69 m nearer besides.
 * What its top leaves meets; what is told of later moments is no more than is true then either. */
static void
test_moments (void)
{
  const double turn = G_PI / 18, last_m = 1.1 - 0.02,
               truth_m = last_m - 4 * sin (turn) - 0.05 * (1 - 1e-9);
  const TestGear t
      = { .gear = GEAR_CRANE (""),
          .structures = "{'id': 'post', 'solid': {'kind': 'box', 'size': [0.2, 0.2, 4]}, 'at':"
                        " {'position': [10, 0.77, 0]}, 'keep_clear': 0.1}",
          .solid = "{'kind': 'box', 'size': [8, 1, 1]}",
          .hook = "[0, 0, 1]",
          .rigging = "{'main': {'gear': 'crane', 'hook_above': 3, 'slings': [{'id': 'leg', 'to':"
                     " [4, 0, 1], 'diameter': 0.04}]}}",
          .lift = "'tolerance': {'position': 0.05, 'heading_deg': 10},",
          .moves = "{'do': 'travel', 'by': [-4, -0.43], 'seconds': 60}" };
  TestRun run = test_gear_run (&t);
  const TrnFinding *f = test_finding_of (&run, TRN_CHECK_CLEARANCE, 0, 0, "leg", "post", NULL);
  TEST_PASSES (f, TRN_STATE_CLEAR);
  g_assert_cmpfloat (last_m - f->allowance_m, >, truth_m + 0.1);
  g_assert_cmpfloat (last_m - trn_finding_allowance_now_m (f, 0.1, last_m), <=, truth_m);
  g_assert_cmpfloat (trn_finding_allowance_now_m (f, 0.1, f->lower_m), ==, f->allowance_m);
  double before_m = 0.1;
  for (double now_m = f->lower_m; now_m < 3; now_m += 0.01)
    {
      const double off_m = trn_finding_allowance_now_m (f, 0.1, now_m);
      g_assert_cmpfloat (now_m, >=, 0.1 + off_m);
      g_assert_cmpfloat (now_m - off_m, >=, before_m - 1e-12);
      before_m = now_m - off_m;
    }
  g_assert_cmpfloat_with_epsilon (before_m, 3 - f->everywhere_m, 0.011);
  test_run_clear (&run);
}

/* ---- two cranes ---- */

#define TANDEM                                                                                     \
  "{'id': 'one', 'kind': 'crane', 'at': {'position': [0, -10, 0]}, 'boom': {'foot': [-1, 2],"      \
  " 'length': 30, 'section': [1, 1]}, 'hook_to_tip': 3},"                                          \
  "{'id': 'two', 'kind': 'crane', 'at': {'position': [-10, 10, 0]}, 'boom': {'foot': [-1, 2],"     \
  " 'length': 30, 'section': [1, 1]}, 'hook_to_tip': 3}"

/* A beam of 12 m, level on the hooks of two cranes that may be 0.2 m out of level, off by 0.05 m
 * and 0.5°. The tip of the tail crane stays where it is drawn when its hook is out of level: it is
 * charged what tolerances alone take its point, times what luffing makes of that, and no more than
 * half as much again as poses say; its rope has the level below and not above. */
static void
test_tail_tip (void)
{
  const TestGear t = { .gear = TANDEM,
                       .structures = BOX ("post", "[1, 1, 1]", "[50, 50, 0]"),
                       .more = "'loads': {'out_of_level': {'height': 0.2, 'source': 'method'}},",
                       .solid = "{'kind': 'box', 'size': [12, 1, 1]}",
                       .at = "[0, 0, 5]",
                       .hook = "[6, 0, 1]",
                       .unit = "'cog': [0, 0, 0.5],",
                       .rigging = "{'main': {'gear': 'one', 'hook_above': 2},"
                                  " 'tail': {'gear': 'two', 'point': [-6, 0, 1], 'hook_above': 2}}",
                       .lift = "'tolerance': {'position': 0.05, 'tilt_deg': 0.5},",
                       .moves = WAIT };
  TestRun run = test_gear_run (&t);
  const TrnFinding *tip
      = test_finding_of (&run, TRN_CHECK_CLEARANCE, 0, 0, "two/boom", "post", NULL),
      *rope = test_finding_of (&run, TRN_CHECK_CLEARANCE, 0, 0, "two/rope", "post", NULL),
      *load = test_finding_of (&run, TRN_CHECK_CLEARANCE, 0, 0, "load", "post", NULL);
  g_assert_cmpfloat (test_allowance_part (load, "out-of-level"), >, 0);
  g_assert_cmpfloat (test_allowance_part (tip, "out-of-level"), ==, 0);
  g_assert_cmpfloat (test_allowance_part (rope, "out-of-level"), >, 0);
  assert_sum (tip);
  assert_sum (rope);
  /* The tail point goes 0.05 m and 12 m · 0.5° of tilt, of which the tip does the level part. */
  const double off_m = 0.05 + 12 * 0.5 * G_PI / 180, radius = hypot (4, 10), u = radius + 1,
               z = sqrt (900 - u * u);
  double most_m = 0;
  for (guint i = 0; i < 360; i++)
    {
      const double at = i * G_PI / 180, x = 4 + off_m * cos (at), y = -10 + off_m * sin (at),
                   v = hypot (x, y) + 1;
      most_m = fmax (most_m, hypot (off_m, sqrt (900 - v * v) - z));
    }
  g_assert_cmpfloat (tip->allowance_m, >=, most_m);
  g_assert_cmpfloat (tip->allowance_m, <=, 1.5 * most_m);
  test_run_clear (&run);
}

/* ---- a beam below the hook ---- */

/* Its ends, 1.4 m either way along the level line between two points of the load, 2 m below the
 * hook; the load turned by tilt and heading about the hook point and shifted. */
static void
beam_ends (TrnVec3 shift, const TrnRotation *turn, TrnVec3 ends[2])
{
  const TrnVec3 w = trn_rotation_apply (turn, trn_vec3_make (2.4, 0, 0));
  const double level = hypot (w.x, w.y);
  for (guint i = 0; i < 2; i++)
    {
      const double along = (i == 0 ? -1.4 : 1.4) / level;
      ends[i] = trn_vec3_make (shift.x + along * w.x, shift.y + along * w.y, shift.z);
    }
}

/* A column 11 m long below a beam of 2.8 m over points 2.4 m apart: 1° of tilt takes its foot
 * 0.19 m, but the beam only turns as the load does. Never more than is charged, which is no more
 * than twice what poses show. */
static void
test_beam (void)
{
  const double tilt = G_PI / 180, heading = 2 * G_PI / 180, shift_m = 0.05;
  const TestGear t
      = { .gear = CRANE,
          .structures = BOX ("post", "[1, 1, 1]", "[50, 50, 0]"),
          .solid = "{'kind': 'box', 'size': [3, 1, 11]}",
          .hook = "[0, 0, 11]",
          .rigging = "{'main': {'gear': 'crane', 'hook_above': 3, 'beam': {'id': 'bar', 'length':"
                     " 2.8, 'width': 0.2, 'depth': 0.2, 'below_hook': 1, 'between': [[-1.2, 0, 11],"
                     " [1.2, 0, 11]]}, 'slings': [{'id': 'up', 'to': 'beam-a', 'diameter': 0.02}, "
                     "{'id': 'down', 'diameter': 0.02,"
                     " 'from': 'beam-a', 'to': [-1.2, 0, 11]}]}}",
          .lift = "'tolerance': {'position': 0.05, 'tilt_deg': 1, 'heading_deg': 2},",
          .moves = WAIT };
  TestRun run = test_gear_run (&t);
  const TrnFinding *bar = test_finding_of (&run, TRN_CHECK_CLEARANCE, 0, 0, "bar", "post", NULL),
                   *load = test_finding_of (&run, TRN_CHECK_CLEARANCE, 0, 0, "load", "post", NULL);
  g_autoptr (GRand) rand = g_rand_new_with_seed (7);
  const TrnRotation still = trn_rotation_identity ();
  TrnVec3 drawn[2], off[2];
  beam_ends (trn_vec3_make (0, 0, 0), &still, drawn);
  double most_m = 0;
  for (guint i = 0; i < test_scaled (2000); i++)
    {
      const double at = g_rand_double_range (rand, 0, 2 * G_PI),
                   by = g_rand_double_range (rand, -1, 1), up = g_rand_double_range (rand, -1, 1);
      const TrnRotation tilted
          = trn_rotation_make (trn_vec3_make (cos (at), sin (at), 0), tilt * by),
          headed = trn_rotation_make (trn_vec3_make (0, 0, 1), heading * (i % 2 ? 1 : -1)),
          turn = trn_rotation_multiply (&headed, &tilted);
      const TrnVec3 shift = { shift_m * sqrt (1 - up * up) * cos (3 * at),
                              shift_m * sqrt (1 - up * up) * sin (3 * at), shift_m * up };
      beam_ends (shift, &turn, off);
      for (guint k = 0; k < 2; k++)
        most_m = fmax (most_m, trn_vec3_distance (off[k], drawn[k]));
    }
  g_assert_cmpfloat (bar->allowance_m, >=, most_m);
  g_assert_cmpfloat (bar->allowance_m, <=, 3 * most_m);
  /* By what takes points of the load alone it was this much. */
  g_assert_cmpfloat (bar->allowance_m, <, shift_m + 2 * load->allowance_m * 2.8 / 2.4);
  assert_sum (bar);
  test_run_clear (&run);
}

/* A beam 1 m long, 2a, high above a load that hangs from it by points half as far apart, 2w, on
 * slings 20 m long: swinging, it turns by more than the load does. By what swinging takes the hook
 * aside, b √(L l₁), its ends go b √(L (l₁ + l₂ + a²/h + a s/w)) (swing.c). */
static void
test_swinging_beam (void)
{
  const TestGear t
      = { .gear = "{'id': 'crane', 'kind': 'crane', 'at': {'position': [0, -14, 0]}, 'boom': "
                  "{'foot': [-1, 2], 'length': 31, 'section': [1, 1]}, 'hook_to_tip': 1}",
          .structures = BOX ("post", "[1, 1, 1]", "[50, 50, 0]"),
          .more = "'loads': {'ramp': {'seconds': 10, 'source': 'made up'}},",
          .solid = "{'kind': 'box', 'size': [1, 0.3, 2]}",
          .at = "[-4, 0, 0]",
          .unit = "'cog': [0, 0, 0.1],",
          .rigging
          = "{'main': {'gear': 'crane', 'hook_above': 21.2, 'block': {'diameter': 0.4, 'height':"
            " 0.6, 'mass': 1}, 'beam': {'id': 'bar', 'length': 1, 'width': 0.1, 'depth': 0.1,"
            " 'below_hook': 1, 'between': [[-0.5, 0, 2], [0.5, 0, 2]], 'mass': 1}, 'slings': ["
            "{'id': 'up-a', 'to': 'beam-a', 'diameter': 0.02, 'mass': 0.1}, {'id': 'up-b', 'to':"
            " 'beam-b', 'diameter': 0.02, 'mass': 0.1}, {'id': 'a', 'from': 'beam-a', 'to': [-0.25,"
            " 0, 2], 'diameter': 0.02, 'mass': 0.1}, {'id': 'b', 'from': 'beam-b', 'to': [0.25, 0,"
            " 2], 'diameter': 0.02, 'mass': 0.1}]}}",
          .lift = "'hangs': 'free', 'tolerance': {'position': 0.02, 'tilt_deg': 0.1,"
                  " 'heading_deg': 0.1},",
          .moves = "{'do': 'travel', 'by': [3, 0], 'seconds': 300}" };
  TestRun run = test_gear_run (&t);
  const TrnFinding *bar = test_finding_of (&run, TRN_CHECK_CLEARANCE, 0, 0, "bar", "post", NULL),
                   *block
                   = test_finding_of (&run, TRN_CHECK_CLEARANCE, 0, 0, "crane/block", "post", NULL);
  const double u = hypot (1, 14) + 1, rope_m = 2 + sqrt (31 * 31 - u * u) - 23.2 + 0.02,
               by = test_allowance_part (block, "swing") / sqrt (rope_m),
               end_m = by * sqrt (rope_m + 1 + 0.5 * 0.5 / 1.9 + 20 * 0.5 / 0.25);
  g_assert_cmpfloat (by, >, 0);
  test_assert_between (test_allowance_part (bar, "swing"), end_m, 0, 3 * end_m);
  assert_sum (bar);
  test_run_clear (&run);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/checks/gear-along/foot", test_foot);
  g_test_add_func ("/checks/gear-along/tip", test_tip);
  g_test_add_func ("/checks/gear-along/least-elsewhere", test_least_elsewhere);
  g_test_add_func ("/checks/gear-along/loose", test_loose);
  g_test_add_func ("/checks/gear-along/moments", test_moments);
  g_test_add_func ("/checks/gear-along/tail-tip", test_tail_tip);
  g_test_add_func ("/checks/gear-along/beam", test_beam);
  g_test_add_func ("/checks/gear-along/swinging-beam", test_swinging_beam);
  return g_test_run ();
}
