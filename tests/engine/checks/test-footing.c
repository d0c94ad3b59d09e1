/* What gear stands on. The crane's pads are squares of 2 m about (±3, ±4), on the base of the
 * crane; the ground is a plate of 60 m whose top is z = 0. */
#include "footing-check.h"
#include "test-gear.h"

#define NEAR 1e-6
#define PADS                                                                                       \
  GEAR_TAIL ", 'supports': {'kind': 'outriggers', 'at': [[3, 4], [3, -4], [-3, 4], [-3, -4]], "    \
            "'pad': [2, 2]}"
#define STATED(more) PADS ", 'ground': {'stands_on': 'gravel, drawing 7'" more "}"
#define BOX(id, size, position)                                                                    \
  "{'id': '" id "', 'solid': {'kind': 'box', 'size': " size "}, 'at': {'position': " position "}}"
#define PLATE(more, size, openings)                                                                \
  "{'id': 'ground', 'solid': {'kind': 'ground', 'size': " size ", 'openings': [" openings          \
  "]}, 'at': {'position': [0, 0, 0]}" more "}"
#define GROUND PLATE ("", "[60, 60]", "")
#define HOLE(rect) PLATE ("", "[60, 60]", "{'rect': " rect "}")
#define POST BOX ("post", "[1, 1, 1]", "[50, 50, 0]")

static TestRun
run_deviating (const char *gear, const char *structures, double deviation_m)
{
  TestGear t = { .gear = gear,
                 .structures = structures,
                 .deviation_m = deviation_m,
                 .rigging = "{'main': {'gear': 'crane', 'hook_above': 1}}",
                 .at = "[10, 0, 1]",
                 .moves = "{'do': 'hoist', 'by': 1, 'seconds': 30}" };
  return test_gear_run (&t);
}

static TestRun
run_with (const char *gear, const char *structures)
{
  return run_deviating (gear, structures, 0);
}

static const TrnFinding *
footing (const TestRun *run, const char *gear)
{
  return test_finding_of (run, TRN_CHECK_FOOTING, 0, -1, gear, NULL, NULL);
}

static double
number (const TrnFinding *f, const char *what)
{
  for (guint i = 0; f->numbers != NULL && i < f->numbers->len; i++)
    if (strcmp (g_array_index (f->numbers, TrnFindingNumber, i).what, what) == 0)
      return g_array_index (f->numbers, TrnFindingNumber, i).value;
  return NAN;
}

static void
assert_passes (const char *gear, const char *structures, const char *source)
{
  TestRun run = run_with (gear, structures);
  const TrnFinding *f = footing (&run, "crane");
  TEST_PASSES (f, TRN_STATE_WITHIN);
  g_assert_cmpstr (f->source, ==, source);
  test_run_clear (&run);
}

static void
assert_unknown (const char *gear, const char *structures, const char *missing)
{
  TestRun run = run_with (gear, structures);
  TEST_UNKNOWN (footing (&run, "crane"), missing);
  g_assert_cmpint (run.findings->verdict, !=, TRN_VERDICT_PASS);
  test_run_clear (&run);
}

/* NAN: it has no such number. */
typedef struct
{
  double support, carried, along, across, gap, level;
} Numbers;

static void
assert_number (const TrnFinding *f, const char *what, double expected, double within)
{
  const double found = number (f, what);
  g_test_message ("%s: %.9g, expected %.9g", what, found, expected);
  g_assert_cmpint (isnan (found), ==, isnan (expected));
  if (!isnan (expected))
    g_assert_cmpfloat_with_epsilon (found, expected, within);
}

static void
assert_fails (const char *gear, const char *structures, const char *source, Numbers n)
{
  TestRun run = run_with (gear, structures);
  const TrnFinding *f = footing (&run, "crane");
  TEST_FAILS (f, TRN_STATE_OUTSIDE);
  g_assert_cmpint (run.findings->verdict, ==, TRN_VERDICT_FAIL);
  g_assert_cmpstr (f->source, ==, source);
  assert_number (f, TRN_FOOTING_SUPPORT, n.support, NEAR);
  assert_number (f, TRN_FOOTING_CARRIED, n.carried, NEAR);
  assert_number (f, TRN_FOOTING_ALONG, n.along, NEAR);
  assert_number (f, TRN_FOOTING_ACROSS, n.across, NEAR);
  assert_number (f, TRN_FOOTING_GAP, n.gap, NEAR);
  assert_number (f, TRN_FOOTING_LEVEL, n.level, NEAR);
  test_run_clear (&run);
}

/* On the ground; on two slabs that meet below two of the pads, and of which the east one carries
 * more of the first; on a mat as large as a pad each; with a duct between the pads. */
static void
test_stands (void)
{
  assert_passes (GEAR_CRANE (PADS), GROUND, "ground");
  assert_passes (GEAR_CRANE (PADS),
                 BOX ("west", "[13, 60, 1]", "[-3.6, 0, -1]") "," BOX ("east", "[27.1, 60, 1]",
                                                                       "[16.45, 0, -1]"),
                 "east");
  assert_passes (
      GEAR_CRANE (PADS),
      BOX ("a", "[2, 2, 0.3]", "[3, 4, -0.3]") "," BOX (
          "b", "[2, 2, 0.3]",
          "[3, -4, -0.3]") "," BOX ("c", "[2, 2, 0.3]",
                                    "[-3, 4, -0.3]") "," BOX ("d", "[2, 2, 0.3]", "[-3, -4, -0.3]"),
      "a");
  assert_passes (GEAR_CRANE (PADS), HOLE ("[0, 0, 3.9, 50]"), "ground");
}

/* A pad over the edge of an opening, from x = 3.5 on: 0.5 m of its 2 m, 25 %. With a pit whose
 * floor is 3 m down the gap is said; without, there is none. Over one that is as large as the pad
 * and more it stands on nothing, in a hole, also where the plan states ground of its own. */
static void
test_hole (void)
{
  assert_fails (GEAR_CRANE (PADS), HOLE ("[5.5, 4, 4, 8]"), "ground",
                (Numbers){ 1, 0.75, 0.5, 2, NAN, NAN });
  assert_fails (GEAR_CRANE (PADS),
                HOLE ("[5.5, 4, 4, 8]") "," BOX ("pit", "[4, 8, 1]", "[5.5, 4, -4]"), "ground",
                (Numbers){ 1, 0.75, 0.5, 2, 3, NAN });
  assert_fails (GEAR_CRANE (PADS), HOLE ("[3, -4, 3, 3]"), "ground",
                (Numbers){ 2, 0, 2, 2, NAN, NAN });
  assert_fails (GEAR_CRANE (STATED ("")), HOLE ("[3, -4, 3, 3]"), "ground",
                (Numbers){ 2, 0, 2, 2, NAN, NAN });
  assert_fails (GEAR_CRANE (STATED ("")),
                HOLE ("[3, -4, 3, 3]") "," BOX ("pit", "[3, 3, 1]", "[3, -4, -4]"), "pit",
                (Numbers){ 2, 0, 2, 2, 3, NAN });
}

/* Half of a pad beyond the edge of a plate 7 m wide; a plate 5 m lower; a crane that hangs 3 m over
 * the ground, or stands 0.3 m in it: it is the plate that is moved. A roof is no ground. */
static void
test_height (void)
{
  assert_fails (GEAR_CRANE (PADS), PLATE ("", "[6, 60]", ""), "ground",
                (Numbers){ 1, 0.5, 1, 2, NAN, NAN });
  assert_fails (
      GEAR_CRANE (STATED ("")),
      BOX ("table", "[6, 60, 1]", "[0, 0, -1]") "," BOX ("street", "[60, 60, 1]", "[0, 0, -6]"),
      "table", (Numbers){ 1, 0.5, 1, 2, 5, NAN });
  assert_fails (GEAR_CRANE (STATED ("")), BOX ("street", "[60, 60, 1]", "[0, 0, -4]"), "street",
                (Numbers){ 1, 0, 2, 2, 3, NAN });
  assert_fails (GEAR_CRANE (STATED ("")), BOX ("street", "[60, 60, 1]", "[0, 0, -0.7]"), "street",
                (Numbers){ 1, 0, 2, 2, -0.3, NAN });
  assert_unknown (GEAR_CRANE (PADS), BOX ("roof", "[60, 60, 1]", "[0, 0, 40]"), "ground/stands_on");
}

/* 4 mm above or below the ground is the play of packing, 6 mm is not; with 20 mm of survey both
 * are, but then the pads are looked at with 20 mm more on each side: on ground that ends 10 mm
 * beside them they do not stand. */
static void
test_tolerances (void)
{
#define STREET(z, more)                                                                            \
  "{'id': 'street', 'solid': {'kind': 'box', 'size': [60, 60, 1]}, 'at': {'position': [0, 0, " z   \
  "]}" more "}"
#define SURVEY ", 'survey_tolerance': 0.02"
  assert_passes (GEAR_CRANE (PADS), STREET ("-1.004", ""), "street");
  assert_passes (GEAR_CRANE (PADS), STREET ("-0.996", ""), "street");
  assert_fails (GEAR_CRANE (PADS), STREET ("-1.006", ""), "street",
                (Numbers){ 1, 0, 2, 2, 0.006, NAN });
  assert_fails (GEAR_CRANE (PADS), STREET ("-0.994", ""), "street",
                (Numbers){ 1, 0, 2, 2, -0.006, NAN });
  assert_passes (GEAR_CRANE (PADS), STREET ("-1.006", SURVEY), "street");
  assert_passes (GEAR_CRANE (PADS), PLATE ("", "[8.02, 60]", ""), "ground");
  assert_fails (GEAR_CRANE (PADS), PLATE (SURVEY, "[8.02, 60]", ""), "ground",
                (Numbers){ 1, 2.03 / 2.04, 0.01, 2.04, NAN, NAN });
}

/* Two slabs meet at x = 3.5, below two of the pads, each of which may be off by 20 mm: what is
 * between them then may be a gap. One that goes below all of the pads carries them alone. Where the
 * east one begins 10 mm beyond the pads it may be off by 0.3 m, and the pads are looked at with as
 * much on each side, so that both count. */
static void
test_seam (void)
{
#define SLAB(id, size, position, survey)                                                           \
  "{'id': '" id "', 'solid': {'kind': 'box', 'size': " size "}, 'at': {'position': " position      \
  "}, 'survey_tolerance': " survey "}"
  assert_unknown (GEAR_CRANE (PADS),
                  SLAB ("west", "[33.5, 60, 1]", "[-13.25, 0, -1]",
                        "0.02") "," SLAB ("east", "[26.5, 60, 1]", "[16.75, 0, -1]", "0.02"),
                  "ground/seam");
  assert_passes (GEAR_CRANE (PADS),
                 SLAB ("west", "[34.1, 60, 1]", "[-12.95, 0, -1]",
                       "0.02") "," SLAB ("east", "[26.5, 60, 1]", "[16.75, 0, -1]", "0.02"),
                 "west");
  assert_unknown (GEAR_CRANE (PADS),
                  SLAB ("west", "[34.01, 60, 1]", "[-12.995, 0, -1]",
                        "0.02") "," SLAB ("east", "[25.99, 60, 1]", "[17.005, 0, -1]", "0.3"),
                  "ground/seam");
}

/* A street 0.1 m lower than the crane, which its survey may be off by: it may be as high as the
 * crane, but not as high as a mat 0.1 m thick that is drawn on it. So a pad half on a mat, two pads
 * on mats and two beside them, and a street with a step of 0.1 m below two pads, and between pads,
 * are not known, neither is one that falls by 2 % as drawn; with a mat below each pad it stands. */
static void
test_step (void)
{
#define LOW(more) SLAB ("low", "[60, 60, 1]", "[0, 0, -1.1]", "0.1") "," more
#define TURNED(pitch)                                                                              \
  "{'id': 'low', 'solid': {'kind': 'box', 'size': [60, 60, 1]}, 'at': {'position': [0, 0, -1],"    \
  " 'turn': [0, " pitch ", 0]}, 'survey_tolerance': 0.1}"
#define STEP(west, east)                                                                           \
  "{'id': 'low', 'solid': {'kind': 'group', 'parts': ["                                            \
  "{'id': 'a', 'solid': {'kind': 'box', 'size': [30, 60, 1]}, 'at': {'position': [" west           \
  ", 0, -1]}}, {'id': 'b', 'solid': {'kind': 'box', 'size': [30, 60, 1]}, 'at': {'position': "     \
  "[" east ", 0, -1.1]}}]}, 'at': {'position': [0, 0, 0]}, 'survey_tolerance': 0.1}"
  const char *const east
      = BOX ("m1", "[3, 3, 0.1]", "[3, 4, -0.1]") "," BOX ("m2", "[3, 3, 0.1]", "[3, -4, -0.1]");
  g_autofree char *two = g_strconcat (LOW (""), east, NULL);
  g_autofree char *four = g_strconcat (two,
                                       "," BOX ("m3", "[3, 3, 0.1]", "[-3, 4, -0.1]") "," BOX (
                                           "m4", "[3, 3, 0.1]", "[-3, -4, -0.1]"),
                                       NULL);
  assert_unknown (GEAR_CRANE (PADS), LOW (BOX ("mat", "[1, 2, 0.1]", "[2.5, 4, -0.1]")),
                  "ground/step");
  assert_unknown (GEAR_CRANE (PADS), two, "ground/step");
  assert_passes (GEAR_CRANE (PADS), four, "m1");
  assert_unknown (GEAR_CRANE (PADS), STEP ("-12", "18"), "ground/step");
  assert_unknown (GEAR_CRANE (PADS), STEP ("-15", "15"), "ground/step");
  assert_unknown (GEAR_CRANE (PADS), TURNED ("0.6"), "ground/step");
  assert_passes (GEAR_CRANE (PADS), TURNED ("0.03"), "low");
}

/* Mats of 3 m that are 0.3 m thick lie on what is that much lower, by all of them: of a quay that
 * ends 0.3 m beyond the pads, 0.2 m of each mat there hangs over. On the level of the crane they
 * are sunk in; a seam below a mat counts, one below the pads of another crane would not. Legs with
 * mats of their own may stand on different levels, each as high as its mat is thick. Mats that lie
 * over each other are not known, whether the plan names masses or not. */
static void
test_mats (void)
{
#define MATS                                                                                       \
  GEAR_TAIL ", 'supports': {'kind': 'outriggers', 'at': [[3, 4], [3, -4], [-3, 4], [-3, -4]], "    \
            "'pad': [2, 2], 'mat': {'size': [3, 3, 0.3], 'mass': 800}}"
#define DEEP(size) BOX ("deep", size, "[0, 0, -1.3]")
#define LEGS(thick)                                                                                \
  GEAR_CRANE (STATED (""))                                                                         \
  ", {'id': 'tower', 'kind': 'gantry', 'at': {'position': [14, 0, 0]},"                            \
  " 'legs': [{'at': [0, 9], 'size': [1, 1], 'height': 5, 'mat': {'size':"                          \
  " [3, 3, 0.3]}}, {'at': [0, -9], 'size': [1, 1], 'height': 5, 'mat':"                            \
  " {'size': [3, 3, " thick "]}}]}"
#define TERRACES                                                                                   \
  BOX ("low", "[4, 4, 1]", "[14, 9, -1.3]") "," BOX ("high", "[4, 4, 1]", "[14, -9, -1.1]")
#define WIDE                                                                                       \
  GEAR_TAIL ", 'supports': {'kind': 'outriggers', 'at': [[3, 4], [3, -4], [-3, 4], [-3, -4]], "    \
            "'pad': [2, 2], 'mat': {'size': [6.1, 3, 0.3]}}"
  assert_unknown (GEAR_CRANE (WIDE), DEEP ("[60, 60, 1]"), "mat/apart");
  assert_passes (GEAR_CRANE (MATS), DEEP ("[60, 60, 1]"), "deep");
  assert_passes (GEAR_CRANE (MATS), DEEP ("[9.01, 60, 1]"), "deep");
  assert_fails (GEAR_CRANE (PADS), DEEP ("[60, 60, 1]"), "deep", (Numbers){ 1, 0, 2, 2, 0.3, NAN });
  assert_fails (GEAR_CRANE (MATS), DEEP ("[8.6, 60, 1]"), "deep",
                (Numbers){ 1, 2.8 / 3, 0.2, 3, NAN, NAN });
  assert_fails (GEAR_CRANE (MATS), GROUND, "ground", (Numbers){ 1, 0, 3, 3, -0.3, NAN });
  assert_passes (GEAR_CRANE (MATS ", 'ground': {'stands_on': 'gravel', 'level': -0.3}"), POST,
                 "gravel");
  assert_fails (GEAR_CRANE (MATS ", 'ground': {'stands_on': 'gravel'}"), POST, "gravel",
                (Numbers){ 1, NAN, NAN, NAN, NAN, -0.3 });
  TestRun run = run_with (LEGS ("0.1"), TERRACES);
  TEST_PASSES (footing (&run, "tower"), TRN_STATE_WITHIN);
  test_run_clear (&run);
  run = run_with (LEGS ("0.15"), TERRACES);
  const TrnFinding *f = footing (&run, "tower");
  TEST_FAILS (f, TRN_STATE_OUTSIDE);
  g_assert_cmpstr (f->source, ==, "high");
  assert_number (f, TRN_FOOTING_SUPPORT, 2, NEAR);
  assert_number (f, TRN_FOOTING_GAP, -0.05, NEAR);
  test_run_clear (&run);
}

/* A round table has to reach the far corners of the pads, √(4² + 5²) = 6.403 m off. One of 6.39 m
 * radius whose facets may lie 50 mm outside of it has them below the pads, and does not carry
 * these; one of 6.6 m does. */
static void
test_facets (void)
{
#define TABLE(diameter)                                                                            \
  "{'id': 'table', 'solid': {'kind': 'cylinder', 'diameter': " diameter                            \
  ", 'height': 1}, 'at': {'position': [0, 0, -1]}}"
  static const struct
  {
    const char *diameter;
    double deviation_m;
    TrnVerdict expected;
  } cases[] = { { TABLE ("12.78"), 0, TRN_VERDICT_FAIL },
                { TABLE ("12.78"), 0.05, TRN_VERDICT_FAIL },
                { TABLE ("13.2"), 0, TRN_VERDICT_PASS },
                { TABLE ("13.2"), 0.05, TRN_VERDICT_PASS } };
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      TestRun run = run_deviating (GEAR_CRANE (PADS), cases[i].diameter, cases[i].deviation_m);
      g_assert_cmpint (footing (&run, "crane")->verdict, ==, cases[i].expected);
      test_run_clear (&run);
    }
}

/* A pad wholly over a hole between four slabs, one of which lies 10 mm lower: what is stated in
 * words does not fill it. */
static void
test_low_rim (void)
{
  assert_fails (GEAR_CRANE (STATED ("")),
                BOX ("north", "[4, 4, 1]", "[3, 8, -1]") "," BOX (
                    "south", "[4, 4, 1]",
                    "[3, 0, -1]") "," BOX ("west", "[4, 4, 1]", "[-1, 4, -1]") "," BOX ("east",
                                                                                        "[4, 4, 1]",
                                                                                        "[7, 4, "
                                                                                        "-1.01]"),
                "north", (Numbers){ 1, 0, 2, 2, NAN, NAN });
}

/* Beside all that the plan shows what it states counts, at the level that it states. Who leaves out
 * its supports has its carrier, of 8 m by 3 m, looked at; who leaves that out as well, nothing. */
static void
test_stated (void)
{
  assert_unknown (GEAR_CRANE (PADS), POST, "ground/stands_on");
  assert_passes (GEAR_CRANE (STATED ("")), POST, "gravel, drawing 7");
  assert_passes (GEAR_CRANE (STATED (", 'level': 0.004")), POST, "gravel, drawing 7");
  assert_fails (GEAR_CRANE (STATED (", 'level': -3")), POST, "gravel, drawing 7",
                (Numbers){ 1, NAN, NAN, NAN, NAN, 3 });
  assert_passes (GEAR_CRANE (STATED ("")), PLATE ("", "[3, 60]", ""), "gravel, drawing 7");
  /* Two pads on a plate and two beside it, as over a basin of which nothing is shown. */
  assert_unknown (GEAR_CRANE (STATED ("")), BOX ("quay", "[3, 60, 1]", "[3, 0, -1]"),
                  "ground/rest");
  assert_unknown (GEAR_CRANE (PADS), BOX ("quay", "[3, 60, 1]", "[3, 0, -1]"), "ground/rest");
  assert_unknown (GEAR_CRANE (GEAR_TAIL), GROUND, "supports");
  assert_passes (GEAR_CRANE (GEAR_TAIL ", 'carrier': {'size': [8, 3, 1.2]}"), GROUND, "ground");
  assert_fails (GEAR_CRANE (GEAR_TAIL ", 'carrier': {'size': [8, 3, 1.2]}"), HOLE ("[0, 0, 2, 5]"),
                "ground", (Numbers){ NAN, 0.75, 2, 3, NAN, NAN });
  assert_unknown (GEAR_CRANE (GEAR_TAIL ", 'supports': {'kind': 'outriggers', 'at': [[3, 4], [3,"
                                        " -4], [-3, 4], [-3, -4]]}"),
                  GROUND, "pad");
}

/* What carries is what looks up: at the underside of a slab 5 m thick nothing does, and its top is
 * a roof. That the pads are in it is found by the check standing. */
static void
test_underside (void)
{
  TestRun run = run_with (GEAR_CRANE (PADS), BOX ("slab", "[60, 60, 5]", "[0, 0, 0]"));
  TEST_UNKNOWN (footing (&run, "crane"), "ground/stands_on");
  test_run_clear (&run);
}

/* Beams 8 m long that are up-ended: the tail point, 0.8 m up, goes from x = 6 to 10 on a trolley of
 * 1 m by 1 m. On its way, and not at its ends, it passes over a hole of 0.4 m. */
static void
test_trolley (void)
{
  TestGear t
      = { .solid = "{'kind': 'box', 'size': [8, 0.4, 0.4]}",
          .at = "[10, 0, 0.6]",
          .hook = "[4, 0, 0.2]",
          .rigging = "{'main': {'gear': 'tower', 'hook_above': 1}, 'tail': {'gear': 'tailer',"
                     " 'point': [-4, 0, 0.2]}, 'connected': [['tailer', 'ground']]}",
          .moves = "{'do': 'tilt', 'by': -60, 'axis': 90, 'guide': 'head-plumb', 'head':"
                   " [4, 0, 0.2], 'tail': [-4, 0, 0.2], 'seconds': 60}",
          .gear
          = "{'id': 'tower', 'kind': 'gantry', 'at': {'position': [14, 0, 0]}, 'legs': [{'at':"
            " [-3, -6], 'size': [0.5, 0.5], 'height': 20}, {'at': [-3, 6], 'size': [0.5, 0.5],"
            " 'height': 20, 'pad': [1, 1]}], 'header': {'length': 14, 'width': 0.5, 'depth': 1,"
            " 'underside': 20}, 'trolley': {'size': [1, 1, 0.6], 'underside': 21}}, {'id':"
            " 'tailer', 'kind': 'tail-trolley', 'at': {'position': [5, 0, 0]}, 'size': [1, 1,"
            " 0.8], 'track': [0, 6]}" };
  t.structures = GROUND;
  TestRun run = test_gear_run (&t);
  TEST_PASSES (footing (&run, "tailer"), TRN_STATE_WITHIN);
  TEST_PASSES (footing (&run, "tower"), TRN_STATE_WITHIN);
  test_run_clear (&run);
  t.structures = HOLE ("[8, 0, 0.4, 0.4]");
  run = test_gear_run (&t);
  const TrnFinding *f = footing (&run, "tailer");
  TEST_FAILS (f, TRN_STATE_OUTSIDE);
  assert_number (f, TRN_FOOTING_CARRIED, 1 - 0.16 / 5, 1e-3);
  assert_number (f, TRN_FOOTING_ALONG, 0.4, NEAR);
  assert_number (f, TRN_FOOTING_ACROSS, 0.4, NEAR);
  TEST_PASSES (footing (&run, "tower"), TRN_STATE_WITHIN);
  test_run_clear (&run);
  /* The tail point 40 mm north of the track, and a slot below the south edge of the trolley. */
  t.at = "[10, 0.04, 0.6]";
  t.structures = HOLE ("[8, -0.48, 3, 0.02]");
  run = test_gear_run (&t);
  TEST_FAILS (footing (&run, "tailer"), TRN_STATE_OUTSIDE);
  test_run_clear (&run);
  t.at = "[10, 0, 0.6]";
  /* Below the leg without a pad, of 0.5 m about (11, −6): beyond x = 11.1. */
  t.structures = HOLE ("[12.1, -6, 2, 2]");
  run = test_gear_run (&t);
  TEST_PASSES (footing (&run, "tailer"), TRN_STATE_WITHIN);
  f = footing (&run, "tower");
  TEST_FAILS (f, TRN_STATE_OUTSIDE);
  assert_number (f, TRN_FOOTING_SUPPORT, 1, NEAR);
  assert_number (f, TRN_FOOTING_CARRIED, 0.7, NEAR);
  test_run_clear (&run);
}

/* The cheeks of a frame, 0.2 m by 0.6 m about x = 10 ± 1.2; below the east one is a hole. */
static void
test_frame (void)
{
  TestGear t = { .at = "[10, 0, 0.5]",
                 .rigging = "{'main': {'gear': 'crane', 'hook_above': 1}}",
                 .moves = "{'do': 'hoist', 'by': 1, 'seconds': 30}",
                 .gear = GEAR_CRANE (PADS) ", {'id': 'frame', 'kind': 'turning-frame', 'at':"
                                           " {'position': [10, 0, 0]}, 'pivot': 0.5, 'size': [0.2,"
                                           " 0.6, 1], 'spacing': 2.4}" };
  t.structures = GROUND;
  TestRun run = test_gear_run (&t);
  TEST_PASSES (footing (&run, "frame"), TRN_STATE_WITHIN);
  test_run_clear (&run);
  t.structures = HOLE ("[11.2, 0.2, 1, 0.2]");
  run = test_gear_run (&t);
  const TrnFinding *f = footing (&run, "frame");
  TEST_FAILS (f, TRN_STATE_OUTSIDE);
  assert_number (f, TRN_FOOTING_SUPPORT, 2, NEAR);
  assert_number (f, TRN_FOOTING_ACROSS, 0.2, NEAR);
  test_run_clear (&run);
}

/* A cover over a hole is taken away between two lifts: the crane stands in the first only. */
static void
test_cover (void)
{
#define LIFT(id, by)                                                                               \
  "{'lift': '" id "', 'component': 'unit', 'hook_point': [0, 0, 2], 'rigging': {'main': {'gear':"  \
  " 'crane', 'hook_above': 1}}, 'moves': [{'do': 'hoist', 'by': " by ", 'seconds': 30}]}"
  TestRun run = test_run (
      "{'format': 'trunnion-plan', 'version': 1, 'title': 'Test', 'keep_clear': 0.5,"
      " 'gear': [" GEAR_CRANE (PADS) "], 'structures': [" HOLE ("[3, -4, 3, 3]") "," BOX (
          "cover", "[4, 4, 0.4]",
          "[3, -4, -0.4]") "], 'components': [{'id': 'unit', 'mass': 1000,"
                           " 'solid': {'kind': 'box', 'size': [2, 2, 2]}, 'at': {'position': [10, "
                           "0, 1]}}], 'programme':"
                           " [" LIFT ("up", "1") ", {'change': 'open', 'remove': 'cover'}, " LIFT (
                               "down", "-1") "]}");
  const TrnFinding *f = test_finding_of (&run, TRN_CHECK_FOOTING, 0, -1, "crane", NULL, NULL);
  TEST_PASSES (f, TRN_STATE_WITHIN);
  f = test_finding_of (&run, TRN_CHECK_FOOTING, 1, -1, "crane", NULL, NULL);
  TEST_FAILS (f, TRN_STATE_OUTSIDE);
  assert_number (f, TRN_FOOTING_SUPPORT, 2, NEAR);
  test_run_clear (&run);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/checks/footing/stands", test_stands);
  g_test_add_func ("/checks/footing/hole", test_hole);
  g_test_add_func ("/checks/footing/height", test_height);
  g_test_add_func ("/checks/footing/tolerances", test_tolerances);
  g_test_add_func ("/checks/footing/seam", test_seam);
  g_test_add_func ("/checks/footing/step", test_step);
  g_test_add_func ("/checks/footing/mats", test_mats);
  g_test_add_func ("/checks/footing/facets", test_facets);
  g_test_add_func ("/checks/footing/low-rim", test_low_rim);
  g_test_add_func ("/checks/footing/stated", test_stated);
  g_test_add_func ("/checks/footing/underside", test_underside);
  g_test_add_func ("/checks/footing/trolley", test_trolley);
  g_test_add_func ("/checks/footing/frame", test_frame);
  g_test_add_func ("/checks/footing/cover", test_cover);
  return g_test_run ();
}
