/* What a load that hangs free is for the lifts after it: nobody knows where, leaned, or as drawn.
 */
#include <math.h>

#include "hang-case.h"

/* A tilt beside a move in which the load turns over: nothing says how it comes to be as drawn. What
 * is left on the hook is nobody knows where in the next lift, of it and past it; what is set down
 * on a seat is where it is drawn. */
static void
test_beside_unknown (void)
{
  Case c = { .at = "{'position': [0, 0, 0]}", .cog = "[0, 0, 5.5]", .hook = "[0, 0, 5]" };
  c.moves = HOIST "," TILT "," HOIST;
  c.after
      = ", {'lift': 'again', 'component': 'unit', 'hook_point': [0, 0, 9], 'moves': [" HOIST "]}";
  g_autoptr (TrnProgramme) programme = play (&c);
  static const char *const missing[]
      = { TRN_HANG_TURNS_OVER, TRN_HANG_BESIDE, TRN_HANG_TURNS_OVER };
  for (guint i = 0; i < 3; i++)
    g_assert_cmpstr (programme->runs[0].hangs[i].missing, ==, missing[i]);
  g_assert_true (programme->runs[1].starts_unknown);
  g_assert_null (programme->runs[1].hangs[0].missing);
  g_clear_pointer (&programme, trn_programme_free);
  c.more = "'seats': [{'on': 'deck', 'at': 'end'}],";
  programme = play (&c);
  g_assert_cmpstr (programme->runs[0].hangs[2].missing, ==, TRN_HANG_TURNS_OVER);
  g_assert_false (programme->runs[0].ends_unknown);
  g_assert_false (programme->runs[1].starts_unknown);
}

/* What is only lifted off its seat, in one move, is left on the hook; so is what is left after one
 * tilt, or two, of which the second begins as the first ends. */
static void
test_left_on_hook (void)
{
  static const struct
  {
    const char *moves, *seats;
    guint n;
  } cases[] = {
    { HOIST, "'seats': [{'on': 'deck', 'at': 'start'}],", 1 },
    { HOIST "," TILT, "", 2 },
    { HOIST "," TILT "," TILT, "", 3 },
  };
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      Case c = { .at = "{'position': [0, 0, 0]}", .cog = "[0, 0, 5.5]", .hook = "[0, 0, 5]" };
      c.moves = cases[i].moves;
      c.more = cases[i].seats;
      c.after = ", {'lift': 'again', 'component': 'unit', 'hook_point': [0, 0, 9], 'moves': [" HOIST
                "]}";
      g_autoptr (TrnProgramme) programme = play (&c);
      for (guint k = 0; k < cases[i].n; k++)
        g_assert_cmpstr (programme->runs[0].hangs[k].missing, ==,
                         k == 0 ? TRN_HANG_TURNS_OVER : TRN_HANG_BESIDE);
      g_assert_true (programme->runs[0].ends_unknown);
      g_assert_true (programme->runs[1].starts_unknown);
    }
}

/* Lifted off its seat in one move a load leans from then on: its centre of gravity, drawn 1 m
 * beside the hook and 3 m below, is plumb below where the next lift begins. */
static void
test_leans_when_left (void)
{
  Case c = { .at = "{'position': [0, 0, 0]}", .cog = "[1, 0, 2]", .hook = "[0, 0, 5]" };
  c.moves = HOIST;
  c.more = "'seats': [{'on': 'deck', 'at': 'start'}],";
  c.after
      = ", {'lift': 'again', 'component': 'unit', 'hook_point': [0, 0, 5], 'moves': [" HOIST "]}";
  g_autoptr (TrnProgramme) programme = play (&c);
  const TrnVec3 hook = trn_pose_apply (&programme->runs[1].stands, trn_vec3_make (0, 0, 5));
  const TrnVec3 cog = trn_pose_apply (&programme->runs[1].stands, trn_vec3_make (1, 0, 2));
  const TrnVec3 drawn = trn_pose_apply (&programme->runs[0].start, trn_vec3_make (0, 0, 5));
  g_assert_cmpfloat_with_epsilon (cog.x, hook.x, 1e-9);
  g_assert_cmpfloat_with_epsilon (cog.y, hook.y, 1e-9);
  g_assert_cmpfloat_with_epsilon (hook.z - cog.z, sqrt (10), 1e-9);
  g_assert_cmpfloat_with_epsilon (hook.x, drawn.x, 1e-9);
  g_assert_cmpfloat (hook.z, >, drawn.z);
  /* Where it never leaves its seat it stands as drawn. */
  c.moves = WAIT "," WAIT;
  g_clear_pointer (&programme, trn_programme_free);
  programme = play (&c);
  g_assert_cmpfloat_with_epsilon (
      trn_vec3_distance (trn_pose_apply (&programme->runs[1].stands, trn_vec3_make (1, 0, 2)),
                         trn_pose_apply (&programme->runs[0].start, trn_vec3_make (1, 0, 2))),
      0, 1e-9);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/scene/left-on-hook/beside-unknown", test_beside_unknown);
  g_test_add_func ("/scene/left-on-hook/left-on-hook", test_left_on_hook);
  g_test_add_func ("/scene/left-on-hook/leans-when-left", test_leans_when_left);
  return g_test_run ();
}
