/* What is taken off clearances for lean, centre of gravity and wind: closed forms, and random lifts
 * whose load is hung from centres of gravity picked from its box. */
#include <math.h>

#include "allowance.h"
#include "distance.h"
#include "hanging.h"
#include "lift-check.h"
#include "moment.h"
#include "test-checks.h"
#include "test-scale.h"
#include "tolerances.h"
#include "wind-aside.h"
#include "wind-check.h"

#define NEAR 1e-9
#define HOIST "{'do': 'hoist', 'by': 2, 'seconds': 10}"

typedef struct
{
  const char *plan;       /* further keys of the plan, each ended by a comma */
  const char *structures; /* between the brackets */
  const char *unit;       /* keys of the component, each ended by a comma */
  const char *lift;       /* the same of the lift */
  const char *moves;
} Case;

static char *
case_text (const Case *c)
{
  return g_strdup_printf (
      "{'format': 'trunnion-plan', 'version': 1, 'keep_clear': 0.5, %s 'structures': [%s],"
      " 'components': [{'id': 'unit', %s 'at': {'position': [0, 0, 5]}}], 'programme': [{'lift':"
      " 'one', 'component': 'unit', %s 'moves': [%s]}]}",
      c->plan != NULL ? c->plan : "", c->structures, c->unit, c->lift, c->moves);
}

static TestRun
run_case (const Case *c)
{
  g_autofree char *text = case_text (c);
  return test_run (text);
}

static void
assert_sum (const TrnFinding *finding)
{
  double sum = 0;
  for (guint i = 0; finding->allowance_parts != NULL && i < finding->allowance_parts->len; i++)
    sum += g_array_index (finding->allowance_parts, TrnFindingItem, i).m;
  g_assert_cmpfloat_with_epsilon (sum, finding->allowance_m, 1e-12);
}

#define COLUMN(cog, more)                                                                          \
  "'solid': {'kind': 'box', 'size': [1, 1, 10]}, 'mass': 4000, 'cog': " cog ", " more
#define WALL                                                                                       \
  "{'id': 'wall', 'solid': {'kind': 'box', 'size': [1, 20, 40]}, 'at': {'position': [-1.7, 0, "    \
  "0]}, 'survey_tolerance': 0.01}"
#define DECK                                                                                       \
  "{'id': 'deck', 'solid': {'kind': 'box', 'size': [2, 2, 5]}, 'at': {'position': [1, 0, 0]}}"
#define TOP "'hook_point': [0, 0, 10],"

/* A column of 10 m by the middle of its top, its centre of gravity 5 m below that and 0.25 m to the
 * east: it leans by θ = atan 0.05 to the west. Its lower west edge is then 0.5 cos θ + 10 sin θ
 * from the hook line instead of 0.5 m, and the wall begins at 1.2 m: drawn it has 0.7 m and keeps
 * 0.5 m, hung free it does not. */
static void
test_lean_costs (void)
{
  const double theta = atan (0.05), reach = 0.5 * cos (theta) + 10 * sin (theta);
  Case c = { .structures = WALL, .unit = COLUMN ("[0.25, 0, 5]", ""), .lift = TOP, .moves = HOIST };
  TestRun drawn = run_case (&c);
  const TrnFinding *f = test_clearance (&drawn, 0, 0, "wall");
  g_assert_cmpint (f->verdict, ==, TRN_VERDICT_PASS);
  test_assert_certified (f, 0.7, 0);
  g_assert_cmpfloat (test_allowance_part (f, "survey"), ==, 0.01);
  assert_sum (f);
  test_run_clear (&drawn);
  c.lift = TOP "'hangs': 'free',";
  TestRun hung = run_case (&c);
  f = test_clearance (&hung, 0, 0, "wall");
  g_assert_cmpint (f->verdict, ==, TRN_VERDICT_FAIL);
  test_assert_certified (f, 1.2 - reach, 0);
  g_assert_cmpfloat (f->allowance_m, ==, 0.01);
  assert_sum (f);
  test_run_clear (&hung);
}

/* The same from a seat: the motion is as drawn, and 2 r sin (θ/2) is taken off, r = √(0.5² + 0.5² +
 * 10²), besides what the tolerances take: 0.02 m of position, a tilt of 0.5° about the hook. */
static void
test_lean_at_seat (void)
{
  const double r = sqrt (100.5), lean = 2 * r * sin (atan (0.05) / 2);
  const double tilt = 0.5 * G_PI / 180, tolerance = 0.02 + 2 * r * sin (tilt / 2);
  const Case c = { .structures = WALL "," DECK,
                   .unit = COLUMN ("[0.25, 0, 5]", ""),
                   .lift = TOP "'hangs': 'free', 'tolerance': {'position': 0.02, 'tilt_deg': 0.5},"
                               "'seats': [{'on': 'deck', 'at': 'start'}],",
                   .moves = HOIST };
  TestRun run = run_case (&c);
  const TrnFinding *f = test_clearance (&run, 0, 0, "wall");
  test_assert_certified (f, 0.7, 0);
  test_assert_between (test_allowance_part (f, "position-tilt-heading"), tolerance, 0, NEAR);
  test_assert_between (test_allowance_part (f, "lean"), lean * (1 + 2 * sin (tilt / 2)), NEAR,
                       NEAR);
  g_assert_cmpfloat (test_allowance_part (f, "cog-box"), ==, 0);
  g_assert_cmpint (f->verdict, ==, TRN_VERDICT_FAIL);
  assert_sum (f);
  test_run_clear (&run);
}

/* A box of ±0.2 m east and west about a plumb centre of gravity: up to atan (0.2/5) either way. */
static void
test_cog_box (void)
{
  const double r = sqrt (100.5), box = 2 * r * sin (atan (0.04) / 2);
  Case c = { .structures = WALL,
             .unit = COLUMN ("[0, 0, 5]", "'cog_box': [0.2, 0, 0],"),
             .lift = TOP "'hangs': 'free',",
             .moves = HOIST };
  TestRun run = run_case (&c);
  const TrnFinding *f = test_clearance (&run, 0, 0, "wall");
  /* over the cosine of half the angle, for which way round the load turns */
  test_assert_between (test_allowance_part (f, "cog-box"), box, 0, 1e-3 * box);
  g_assert_cmpfloat (test_allowance_part (f, "lean"), ==, 0);
  g_assert_cmpint (f->verdict, ==, TRN_VERDICT_FAIL);
  assert_sum (f);
  test_run_clear (&run);
  /* With a box that goes round the hook nothing is known. */
  c.unit = COLUMN ("[0, 0, 5]", "'cog_box': [0.2, 0, 6],");
  run = run_case (&c);
  f = test_clearance (&run, 0, 0, "wall");
  g_assert_cmpint (f->verdict, ==, TRN_VERDICT_UNKNOWN);
  g_assert_cmpstr (f->missing, ==, "cog_box");
  test_run_clear (&run);
}

/* ---- wind ---- */

#define WIND "'wind': {'speed': 10, 'drag': 1.2},"
#define TOWER                                                                                      \
  "'gear': [{'id': 'tower', 'kind': 'gantry', 'at': {'position': [0, 0, 0]}, 'legs': [{'at': [8, " \
  "8], 'size': [0.5, 0.5], 'height': 30}], 'trolley': {'size': [1, 1, 1], 'underside': 25}}],"
#define CUBE "'solid': {'kind': 'box', 'size': [2, 2, 2]}, 'mass': 1000, 'cog': [0, 0, 1],"
#define CUBE_LIFT                                                                                  \
  "'hook_point': [0, 0, 2], 'rigging': {'main': {'gear': 'tower', 'hook_above': 1}},"
#define POST                                                                                       \
  "{'id': 'post', 'solid': {'kind': 'box', 'size': [1, 1, 1]}, 'at': {'position': [4, 0, 6]}}"

/* A cube of 2 m and 1 t on 17 m of rope and 1 m below its hook in 10 m/s with c_w 1.2: q = 62.5 Pa;
 * over a corner it shows 4√2 m², so F = 424.3 N, tan φ = F/W = 0.04327: the hook goes 17 sin φ
 * aside. All of it turns by φ about the tip, from which the lower corners are 20 m down and √2 m
 * aside. The bound is above that, by the greater area of a cube that leans and the couple that the
 * wind could make; of a cube it makes none. */
static void
test_wind (void)
{
  const double phi = atan (62.5 * 1.2 * 4 * sqrt (2) / 9806.65);
  const double least = 2 * hypot (20, sqrt (2)) * sin (phi / 2);
  const char *const lifts[] = { CUBE_LIFT, CUBE_LIFT "'hangs': 'free'," };
  for (guint i = 0; i < 2; i++)
    {
      const Case c = {
        .plan = WIND TOWER, .structures = POST, .unit = CUBE, .lift = lifts[i], .moves = HOIST
      };
      TestRun run = run_case (&c);
      const TrnFinding *f = test_finding_of (&run, TRN_CHECK_CLEARANCE, 0, 0, "load", "post", NULL);
      g_test_message ("%.4f m, at least %.4f m", test_allowance_part (f, "wind"), least);
      test_assert_between (test_allowance_part (f, "wind"), least, 0, 0.15 * least);
      assert_sum (f);
      /* The rope goes aside with the hook, its trolley stays. */
      f = test_finding_of (&run, TRN_CHECK_CLEARANCE, 0, 0, "tower/rope", "post", NULL);
      test_assert_between (test_allowance_part (f, "wind"), 17 * sin (phi), 0, 0.15 * least);
      f = test_finding_of (&run, TRN_CHECK_CLEARANCE, 0, 0, "tower/trolley", "post", NULL);
      g_assert_cmpfloat (f->allowance_m, ==, 0);
      test_run_clear (&run);
    }
}

static double
wind_on_cube (const char *lift)
{
  const Case c
      = { .plan = WIND TOWER, .structures = POST, .unit = CUBE, .lift = lift, .moves = HOIST };
  TestRun run = run_case (&c);
  const double wind_m = test_allowance_part (
      test_finding_of (&run, TRN_CHECK_CLEARANCE, 0, 0, "load", "post", NULL), "wind");
  test_run_clear (&run);
  return wind_m;
}

/* The same on 8 m of rope and 10 m of what holds it below the hook: all of it hangs along the
 * resultant, so that its lower corners, 20 m and more below the tip, go 40 sin (φ/2) aside. With a
 * lug that stands out of the cube by 15 m to either side its slings go aside as well. */
static void
test_wind_long_legs (void)
{
  const double phi = atan (62.5 * 1.2 * 4 * sqrt (2) / 9806.65), least = 40 * sin (phi / 2);
#define LONG(more)                                                                                 \
  "'hook_point': [0, 0, 2], 'rigging': {'main': {'gear': 'tower', 'hook_above': 10" more "}},"
#define LEGS(x)                                                                                    \
  ", 'slings': [{'id': 'l', 'to': [-" x ", 0, 2], 'diameter': 0.02}, {'id': 'r', 'to': [" x        \
  ", 0, 2], 'diameter': 0.02}]"
  static const char *const lifts[] = { LONG (""), LONG ("") "'hangs': 'free'," };
  for (guint i = 0; i < G_N_ELEMENTS (lifts); i++)
    {
      const double found = wind_on_cube (lifts[i]);
      g_test_message ("%.4f m, at least %.4f m", found, least);
      test_assert_between (found, least, 0, 0.15 * least);
    }
  g_assert_cmpfloat (wind_on_cube (LONG (LEGS ("1")) "'hangs': 'free',"), >=, least);
  /* 18 m below the tip and 15 m aside. */
  g_assert_cmpfloat (wind_on_cube (LONG (LEGS ("15"))), >=, 2 * hypot (18, 15) * sin (phi / 2));
}

/* A column of 10 m and 4 t by its top, its centre of gravity 1 m below that, in 4 m/s:
 * F = 12 Pa times 10√2 m²
 * at the middle, 5 m below the hook, leans it by ψ, F 5 cos ψ = W sin ψ, far more than φ. The rope
 * is 9 m. */
static void
test_wind_couple (void)
{
  const double share = 12 * 10 * sqrt (2) / (4000 * 9.80665);
  const double least = 9 * sin (atan (share)) + 2 * sqrt (100.5) * sin (atan (5 * share) / 2);
  const char *const lift = "'hook_point': [0, 0, 10], 'rigging': {'main': {'gear': 'tower',"
                           " 'hook_above': 1}},";
  g_autofree char *hung = g_strconcat (lift, "'hangs': 'free',", NULL);
  const char *const lifts[] = { lift, hung };
  for (guint i = 0; i < 2; i++)
    {
      const Case c = { .plan = "'wind': {'speed': 4, 'drag': 1.2}," TOWER,
                       .structures = POST,
                       .unit = COLUMN ("[0, 0, 9]", ""),
                       .lift = lifts[i],
                       .moves = "{'do': 'wait', 'seconds': 1}" };
      TestRun run = run_case (&c);
      const TrnFinding *f = test_finding_of (&run, TRN_CHECK_CLEARANCE, 0, 0, "load", "post", NULL);
      g_test_message ("%.4f m, at least %.4f m", test_allowance_part (f, "wind"), least);
      test_assert_between (test_allowance_part (f, "wind"), least, 0, least);
      test_run_clear (&run);
    }
}

static void
assert_wind_unknown (const char *plan, const char *unit, const char *lift, const char *missing)
{
  const Case c = { .plan = plan, .structures = POST, .unit = unit, .lift = lift, .moves = HOIST };
  TestRun run = run_case (&c);
  const TrnFinding *f = test_finding_of (&run, TRN_CHECK_CLEARANCE, 0, 0, "load", "post", NULL);
  g_assert_cmpint (f->verdict, ==, TRN_VERDICT_UNKNOWN);
  g_assert_cmpstr (f->missing, ==, missing);
  g_assert_true (isnan (f->allowance_m));
  test_run_clear (&run);
}

/* What the wind does is not known without a mass, a centre of gravity, or the length of the rope;
 * nor where it turns the load over: 100 m/s on a box of a kilogram. A tilt is not left to the
 * wind. */
static void
test_wind_unknown (void)
{
  assert_wind_unknown (WIND TOWER, "'solid': {'kind': 'box', 'size': [2, 2, 2]}, 'cog': [0, 0, 1],",
                       CUBE_LIFT, "mass");
  assert_wind_unknown (WIND TOWER, "'solid': {'kind': 'box', 'size': [2, 2, 2]}, 'mass': 1000,",
                       CUBE_LIFT, "cog");
  assert_wind_unknown (WIND "'gear': [],", CUBE, "'hook_point': [0, 0, 2],", "gear");
  assert_wind_unknown (WIND TOWER, CUBE,
                       "'hook_point': [0, 0, 2], 'rigging': {'main': {'gear': 'tower'}},",
                       "hook_above");
  assert_wind_unknown ("'wind': {'speed': 100, 'drag': 2}," TOWER,
                       "'solid': {'kind': 'box', 'size': [2, 2, 2]}, 'mass': 1, 'cog': [0, 0, 1],",
                       CUBE_LIFT, "wind/far");
  const Case c = { .plan = WIND "'gear': [],",
                   .structures = POST,
                   .unit = CUBE,
                   .lift = "'hook_point': [0, 0, 2],",
                   .moves = "{'do': 'tilt', 'by': 5, 'axis': 0, 'seconds': 1}" };
  TestRun run = run_case (&c);
  g_assert_cmpfloat (test_clearance (&run, 0, 0, "post")->allowance_m, ==, 0);
  test_run_clear (&run);
}

#define TOWERS                                                                                     \
  "'gear': [{'id': 'west', 'kind': 'gantry', 'at': {'position': [0, 0, 0]}, 'legs': [{'at': [8, "  \
  "8], 'size': [0.5, 0.5], 'height': 30}], 'trolley': {'size': [1, 1, 1], 'underside': 25}}, "     \
  "{'id': 'east', 'kind': 'gantry', 'at': {'position': [0, 0, 0]}, 'legs': [{'at': [8, -8], "      \
  "'size': [0.5, 0.5], 'height': 30}], 'trolley': {'size': [1, 1, 1], 'underside': 25}}, {'id': "  \
  "'cart', 'kind': 'tail-trolley', 'at': {'position': [0, 0, 4]}, 'size': [1, 1, 1], 'track': "    \
  "[-9, 9]}],"
#define BAR(cog)                                                                                   \
  "'solid': {'kind': 'box', 'size': [8, 1, 1]}, 'mass': 4000, 'cog': [0, 0, " cog "],"
#define BAR_LIFT(tail, more)                                                                       \
  "'hook_point': [-3, 0, 1], 'rigging': {'main': {'gear': 'west', 'hook_above': 1"                 \
  "}, 'tail': {'gear': '" tail "', 'point': [3, 0, 1]" more "}},"

static double
wind_on_bar (const char *cog, const char *lift, const char *moves, int move, const char *missing)
{
  g_autofree char *unit = g_strdup_printf (BAR ("%s"), cog);
  const Case c
      = { .plan = WIND TOWERS, .structures = POST, .unit = unit, .lift = lift, .moves = moves };
  TestRun run = run_case (&c);
  const TrnFinding *f = test_finding_of (&run, TRN_CHECK_CLEARANCE, 0, move, "load", "post", NULL);
  const double wind_m = test_allowance_part (f, "wind");
  g_assert_cmpstr (f->missing, ==, missing);
  g_assert_true (missing == NULL || f->verdict == TRN_VERDICT_UNKNOWN);
  test_run_clear (&run);
  return wind_m;
}

/* A bar of 8 m by 1 m and 4 t on two hooks, 18 m of rope and 1 m of legs each, its centre of
 * gravity 0.5 m below the points: broadside it shows 8 m² and more, so that F = 75 Pa times that.
 * Ropes and legs go aside by F/W times 19 m, and the bar hangs along the resultant as well: its
 * underside goes F/W times 1 m more. As much for the tail alone, which has to hold it at its middle
 * then: 17.5 m of rope, 1 m of legs, and 1.5 m below the point. With the centre of gravity above
 * the points it would turn over; a tail on a trolley is guided. */
static void
test_wind_two_hooks (void)
{
  static const char wait[] = "{'do': 'wait', 'seconds': 1}";
  const double least = 75 * 8 / (4000 * 9.80665) * 20 * (1 - 1e-3);
  double found = wind_on_bar ("0.5", BAR_LIFT ("east", ", 'hook_above': 1"), wait, 0, NULL);
  g_test_message ("%.4f m, at least %.4f m", found, least);
  test_assert_between (found, least, 0, 1.5 * least);
  wind_on_bar ("1.5", BAR_LIFT ("east", ", 'hook_above': 1"), wait, 0, "lean");
  g_assert_cmpfloat (wind_on_bar ("0.5", BAR_LIFT ("cart", ""), wait, 0, NULL), ==, 0);
}

static void
test_wind_tail_alone (void)
{
  static const char lift[]
      = "'hook_point': [-3, 0, 1], 'rigging': {'main': {'gear': 'west', 'hook_above': 1, 'moves': "
        "[0, 0]}, 'tail': {'gear': 'east', 'point': [0, 0, 1.5], 'hook_above': 1}},";
  static const char waits[] = "{'do': 'wait', 'seconds': 1}, {'do': 'wait', 'seconds': 1}";
  const double least = 75 * 8 / (4000 * 9.80665) * 20 * (1 - 1e-3);
  double found = wind_on_bar ("0.5", lift, waits, 1, NULL);
  g_test_message ("%.4f m, at least %.4f m", found, least);
  test_assert_between (found, least, 0, 1.5 * least);
  wind_on_bar ("1.6", lift, waits, 1, "wind/far");
}

#define PLATE_LIFT                                                                                 \
  "'hook_point': [-3, 0, 0.2], 'rigging': {'main': {'gear': 'west', 'hook_above': 1, 'moves': [0"  \
  ", 0]}, 'tail': {'gear': 'east', 'point': [0, 0, 1], 'hook_above': 1}},"
#define WAITS "{'do': 'wait', 'seconds': 1}, {'do': 'wait', 'seconds': 1}"

static Case
plate_case (const char *unit)
{
  return (Case){ .plan = "'wind': {'speed': 4, 'drag': 1.2}," TOWERS,
                 .structures = POST,
                 .unit = unit,
                 .lift = PLATE_LIFT,
                 .moves = WAITS };
}

/* A plate of 8 by 8 m, 0.2 m thick, 40 t, on its tail alone, drawn level. With its centre of
 * gravity 0.09 m beside the tail point and 0.9 m below it leans by atan 0.1, and shows no longer
 * its edge alone but 64 sin λ + 1.6 cos λ m². Rope and leg of 18 m and 1 m go aside by F/W times
 * their length at least, at 12 Pa. */
static void
test_wind_leaning_on_tail (void)
{
  const Case c = plate_case ("'solid': {'kind': 'box', 'size': [8, 8, 0.2]}, 'mass': 40000, 'cog': "
                             "[0.09, 0, 0.1],");
  const double lean = atan (0.1), area = 64 * sin (lean) + 1.6 * cos (lean),
               least = 12 * area / (40000 * 9.80665) * 19;
  TestRun run = run_case (&c);
  const TrnFinding *f = test_finding_of (&run, TRN_CHECK_CLEARANCE, 0, 1, "load", "post", NULL);
  g_test_message ("%.4f m, at least %.4f m", test_allowance_part (f, "wind"), least);
  g_assert_cmpfloat (test_allowance_part (f, "wind"), >=, least);
  test_run_clear (&run);
}

/* What a mesh may be off by, o, makes the area greater and the arm of the couple longer, by one
 * hook and by two. The wind on the half of the bar above its centre of gravity has a moment of 8 ·
 * 0.5 o more where its edge is o farther up, and turns the bar by that over W h more, h the 0.5 m
 * of its centre of gravity below its points, or the 2 m below the tail point alone. */
static void
test_wind_on_mesh_that_is_off (void)
{
  static const char *const lifts[] = {
    BAR_LIFT ("east", ", 'hook_above': 1"),
    "'hook_point': [-3, 0, 1], 'rigging': {'main': {'gear': 'west', 'hook_above': 1, 'moves': "
    "[0, 0]}, 'tail': {'gear': 'east', 'point': [0, 0, 2.5], 'hook_above': 1}},"
  };
  const double off_m = 0.05, height_m[] = { 0.5, 2 };
  for (guint i = 0; i < G_N_ELEMENTS (lifts); i++)
    {
      const Case c = { .plan = "'wind': {'speed': 4, 'drag': 1.2}," TOWERS,
                       .structures = POST,
                       .unit = BAR ("0.5"),
                       .lift = lifts[i],
                       .moves = WAITS };
      TestRun run = run_case (&c);
      TrnCheckOptions options = { .jobs = 1 };
      TrnLiftCheck check;
      trn_lift_check_init (&check, run.scene, 0, &options);
      const double area = trn_wind_any_way_area (&check);
      const TrnWindAside exact = trn_wind_aside_find (&check, i, 0, 0);
      run.scene->components[0].bodies[0].off_m = off_m;
      const TrnWindAside off = trn_wind_aside_find (&check, i, 0, 0);
      /* An outline that grows has grown by its own length times that, which is 16 m at least. */
      g_assert_cmpfloat (trn_wind_any_way_area (&check), >=, area + 16 * off_m);
      const double more_m2 = trn_wind_more_area (&check) + 8 * 0.5 * off_m / height_m[i];
      g_test_message ("%.6f, off %.6f", exact.turned_rad, off.turned_rad);
      g_assert_cmpfloat (off.turned_rad, >=,
                         exact.turned_rad + 12 * more_m2 / (4000 * 9.80665) * (1 - 1e-3));
      trn_lift_check_clear (&check);
      test_run_clear (&run);
    }
}

/* What was made with one slack is not taken for another. */
static void
test_shown_by_slack (void)
{
  const Case c = plate_case ("'solid': {'kind': 'box', 'size': [8, 8, 0.2]}, 'mass': 40000, 'cog': "
                             "[0, 0, 0.1],");
  TestRun run = run_case (&c);
  const TrnMesh *mesh = run.scene->components[0].bodies[0].mesh;
  const TrnSilhouetteBand band = { { 0, 0, 1 }, { 1, 0, 0 }, 0, 0 };
  TrnShown *shown = trn_shown_new (NULL);
  const double exact = trn_shown_worst (shown, mesh, TRUE, 0, &band, 1, 1).area_m2,
               grown = trn_shown_worst (shown, mesh, TRUE, 0.1, &band, 1, 1).area_m2;
  /* 0.1 m all round: of the edge of 8 m and more by 0.2 m 16 · 0.1 m² more at least. */
  g_assert_cmpfloat (grown, >=, exact + 1.6);
  g_assert_cmpfloat (trn_shown_worst (shown, mesh, TRUE, 0, &band, 1, 1).area_m2, ==, exact);
  trn_shown_free (shown);
  test_run_clear (&run);
}

/* ---- at random ---- */

static double
pick (double lo, double hi)
{
  return g_test_rand_double_range (lo, hi);
}

/* The load of the move at @s, hung from a centre of gravity of its box; in moves as drawn anywhere
 * between that and the drawn attitude, in tilts off by any turn that the lean beside them can
 * leave. */
static gboolean
pick_pose (const TrnLiftRun *run, const TrnLiftRun *drawn, const TrnComponent *unit, guint move,
           double s, TrnPose *pose)
{
  const TrnMoveHang *hang = &run->hangs[move];
  const TrnVec3 a = run->lift->hook.place, box = unit->cog_box;
  *pose = trn_motion_pose (&drawn->motions[move], s);
  const TrnVec3 hook = trn_pose_apply (pose, a);
  const TrnVec3 axis = trn_vec3_unit (trn_vec3_make (pick (-1, 1), pick (-1, 1), pick (0.01, 1)));
  TrnRotation turn = trn_rotation_make (axis, pick (0, hang->reach_rad));
  turn = trn_rotation_multiply (&turn, &pose->turn);
  if (hang->one_hook)
    {
      TrnVec3 c
          = trn_vec3_add (unit->cog, trn_vec3_make (pick (-1, 1) * box.x, pick (-1, 1) * box.y,
                                                    pick (-1, 1) * box.z));
      if (!hang->leans)
        c = trn_vec3_mix (
            c, trn_vec3_add (a, trn_rotation_apply_inverse (&pose->turn, trn_vec3_make (0, 0, -5))),
            pick (0, 1));
      if (!trn_hang_from_point (a, c, &pose->turn, &turn))
        return FALSE;
    }
  pose->turn = turn;
  pose->position = trn_vec3_sub (hook, trn_rotation_apply (&turn, a));
  return TRUE;
}

static void
check_poses (const TestRun *run, const TrnProgramme *drawn)
{
  const TrnLiftRun *lift = &run->scene->programme->runs[0];
  const TrnComponent *unit = &run->scene->programme->plan->components[0];
  const TrnBody *load = trn_scene_load (run->scene, lift);
  guint n;
  g_autofree TrnObstacle *obstacles = trn_scene_obstacles (run->scene, lift, &n);
  for (guint k = 0; k < 40; k++)
    for (guint m = 0; m < lift->lift->n_moves; m++)
      {
        TrnPose pose;
        if (!pick_pose (lift, &drawn->runs[0], unit, m, pick (0, 1), &pose))
          continue;
        for (guint i = 0; i < n; i++)
          {
            const TrnFinding *f = test_clearance (run, 0, (int)m, obstacles[i].body->id);
            TrnDistanceHint hint = { 0 };
            const TrnDistance d = trn_mesh_distance_within (
                load->bvh, &pose, obstacles[i].body->bvh,
                &obstacles[i].standing->site_from_standing, INFINITY, TRN_CONTACT_M, &hint);
            /* within the seated span nothing is said */
            if (!f->has_seated && !isnan (f->allowance_m))
              g_assert_cmpfloat (d.distance_m, >=, f->lower_m - f->allowance_m - TRN_CONTACT_M);
          }
      }
}

/* Lifts from a seat, past two boxes, with a tilt in between: no pose in which the load can hang is
 * nearer than the certified clearance less the allowance. */
static void
test_random (void)
{
  const guint n = test_scaled (25);
  for (guint i = 0; i < n; i++)
    {
      g_autofree char *unit = g_strdup_printf (
          "'solid': {'kind': 'box', 'size': [%.2f, %.2f, %.2f]}, 'mass': 4000, 'cog': [%.2f, %.2f, "
          "%.2f], 'cog_box': [%.2f, %.2f, %.2f],",
          pick (0.5, 3), pick (0.5, 3), pick (2, 8), pick (-0.4, 0.4), pick (-0.4, 0.4),
          pick (1, 4), pick (0, 0.3), pick (0, 0.3), pick (0, 0.5));
      g_autofree char *lift = g_strdup_printf (
          "'hook_point': [%.2f, %.2f, %.2f], 'hangs': 'free', 'seats': [{'on': 'deck', 'at': "
          "'start'}],",
          pick (-0.3, 0.3), pick (-0.3, 0.3), pick (8, 11));
      g_autofree char *structures = g_strdup_printf (
          DECK ", {'id': 'left', 'solid': {'kind': 'box', 'size': [2, 3, 4]}, 'at': {'position': "
               "[%.2f, %.2f, %.2f]}}, {'id': 'right', 'solid': {'kind': 'box', 'size': [1, 1, 9]}, "
               "'at': {'position': [%.2f, %.2f, 0]}}",
          pick (-7, -3), pick (-4, 4), pick (0, 8), pick (3, 6), pick (-4, 4));
      g_autofree char *moves = g_strdup_printf (
          HOIST ", {'do': 'travel', 'by': [%.2f, %.2f], 'seconds': 9}, {'do': 'turn', 'by': %.1f, "
                "'seconds': 9}, {'do': 'tilt', 'by': %.2f, 'axis': %.1f, 'seconds': 9}, " HOIST,
          pick (-2, 2), pick (-2, 2), pick (-90, 90), pick (-6, 6), pick (0, 360));
      const Case c = { NULL, structures, unit, lift, moves };
      g_autofree char *text = case_text (&c);
      g_auto (GStrv) parts = g_strsplit (text, "'hangs': 'free', ", -1);
      g_autofree char *as_drawn = g_strjoinv ("", parts);
      TestRun run = test_run (text);
      g_autoptr (TrnProgramme) drawn = test_programme (as_drawn);
      check_poses (&run, drawn);
      test_run_clear (&run);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/checks/allowance/lean-costs", test_lean_costs);
  g_test_add_func ("/checks/allowance/lean-at-seat", test_lean_at_seat);
  g_test_add_func ("/checks/allowance/cog-box", test_cog_box);
  g_test_add_func ("/checks/allowance/wind", test_wind);
  g_test_add_func ("/checks/allowance/wind-long-legs", test_wind_long_legs);
  g_test_add_func ("/checks/allowance/wind-couple", test_wind_couple);
  g_test_add_func ("/checks/allowance/wind-two-hooks", test_wind_two_hooks);
  g_test_add_func ("/checks/allowance/wind-tail-alone", test_wind_tail_alone);
  g_test_add_func ("/checks/allowance/wind-leaning-on-tail", test_wind_leaning_on_tail);
  g_test_add_func ("/checks/allowance/wind-mesh-off", test_wind_on_mesh_that_is_off);
  g_test_add_func ("/checks/allowance/shown-by-slack", test_shown_by_slack);
  g_test_add_func ("/checks/allowance/wind-unknown", test_wind_unknown);
  g_test_add_func ("/checks/allowance/random", test_random);
  return g_test_run ();
}
