/* test-move-words.c: each kind of move as a sentence. East is heading 0, north heading 90°. */
#include "words.h"

#define DEG (G_PI / 180)

static TrnPoint hook = { NULL, { 0, 0, 8 } };
static TrnPoint heel = { (char *)"heel", { 1, 0, 0 } };
static TrnPoint lug = { (char *)"head lug", { 1, 0, 9 } };

static void
assert_move (TrnMove move, const char *expected)
{
  TrnLift lift = { .hook = hook, .moves = &move, .n_moves = 1 };
  g_autofree char *text = trn_words_move (&lift, 0);
  g_assert_cmpstr (text, ==, expected);
}

static void
test_straight (void)
{
  assert_move ((TrnMove){ .kind = TRN_MOVE_HOIST, .by = { 0, 0, 3.2 } }, "Hoist 3.2 m");
  assert_move ((TrnMove){ .kind = TRN_MOVE_HOIST, .by = { 0, 0, -3.2 } }, "Lower 3.2 m");
  assert_move ((TrnMove){ .kind = TRN_MOVE_TRAVEL, .by = { 0, 12, 0 } },
               "Travel 12 m toward north");
  assert_move ((TrnMove){ .kind = TRN_MOVE_TRAVEL, .by = { -1, -1, 0 } },
               "Travel 1.414 m toward south-west");
  assert_move ((TrnMove){ .kind = TRN_MOVE_TRAVEL }, "Travel nowhere");
}

/* atan2(3, 4) is 36.87° from east toward north: bearing 53.13°. Just west of north the bearing
 * must not come out as 360.0°. */
static void
test_bearing (void)
{
  assert_move ((TrnMove){ .kind = TRN_MOVE_TRAVEL, .by = { 4, 3, 0 } },
               "Travel 5 m on bearing 053.1°");
  assert_move ((TrnMove){ .kind = TRN_MOVE_TRAVEL, .by = { -0.01, 10, 0 } },
               "Travel 10 m on bearing 359.9°");
  assert_move ((TrnMove){ .kind = TRN_MOVE_TRAVEL, .by = { -0.001, 10, 0 } },
               "Travel 10 m toward north");
}

static void
test_carry (void)
{
  assert_move ((TrnMove){ .kind = TRN_MOVE_MOVE, .by = { 5, 0, -2 }, .about = hook },
               "Carry 5 m toward east, down 2 m");
  assert_move (
      (TrnMove){ .kind = TRN_MOVE_MOVE, .by = { 0, 0, 1 }, .turn_rad = -90 * DEG, .about = heel },
      "Carry up 1 m, turning 90° clockwise about “heel”");
  assert_move ((TrnMove){ .kind = TRN_MOVE_MOVE, .turn_rad = 90 * DEG, .about = hook },
               "Turn 90° counter-clockwise about the hook point");
}

static void
test_turn (void)
{
  assert_move ((TrnMove){ .kind = TRN_MOVE_TURN, .turn_rad = 12.5 * DEG, .about = heel },
               "Turn 12.5° counter-clockwise about “heel”");
  assert_move (
      (TrnMove){ .kind = TRN_MOVE_TURN, .turn_rad = -90 * DEG, .about = { NULL, { 1, 2, 3 } } },
      "Turn 90° clockwise about (1, 2, 3) m");
}

static void
test_slew (void)
{
  assert_move ((TrnMove){ .kind = TRN_MOVE_SLEW,
                          .turn_rad = -120 * DEG,
                          .centre_x = 10,
                          .centre_y = -4,
                          .load_turns = TRUE },
               "Slew 120° clockwise round (10 m, −4 m)");
  assert_move (
      (TrnMove){
          .kind = TRN_MOVE_SLEW, .turn_rad = 30 * DEG, .radius_by_m = -2, .hoist_by_m = 1.5 },
      "Slew 30° counter-clockwise round (0 m, 0 m), in 2 m, up 1.5 m, the load keeps its "
      "heading");
}

/* With axis 0 and by +90, what pointed up points to −Y, which is south (the plan's contract); with
 * −90 it points north. About an axis that points north, +90 takes up to east. */
static void
test_tilt (void)
{
  assert_move ((TrnMove){ .kind = TRN_MOVE_TILT, .turn_rad = 90 * DEG, .about = heel },
               "Tilt 90° toward south about “heel”");
  assert_move (
      (TrnMove){ .kind = TRN_MOVE_TILT, .turn_rad = -90 * DEG, .about = heel, .by = { 0, 0, 2 } },
      "Tilt 90° toward north about “heel”, carried up 2 m");
  assert_move ((TrnMove){ .kind = TRN_MOVE_TILT,
                          .turn_rad = 85 * DEG,
                          .axis_rad = 90 * DEG,
                          .head_plumb = TRUE,
                          .head = lug,
                          .tail = heel },
               "Tilt 85° toward east on two hooks, head “head lug” plumb, tail “heel” level");
}

static void
test_wait (void)
{
  assert_move ((TrnMove){ .kind = TRN_MOVE_WAIT, .seconds = 90 }, "Wait 1 min 30 s");
  assert_move (
      (TrnMove){ .kind = TRN_MOVE_WAIT, .seconds = 0, .hold_point = (char *)"slings looked at" },
      "Hold: slings looked at");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/words/move/straight", test_straight);
  g_test_add_func ("/words/move/bearing", test_bearing);
  g_test_add_func ("/words/move/carry", test_carry);
  g_test_add_func ("/words/move/turn", test_turn);
  g_test_add_func ("/words/move/slew", test_slew);
  g_test_add_func ("/words/move/tilt", test_tilt);
  g_test_add_func ("/words/move/wait", test_wait);
  return g_test_run ();
}
