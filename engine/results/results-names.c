/* The words of the results file. They are part of its format: never change one. */
#include "results.h"

/* Of what no version does yet, and of what only a plan with gear asks for. In the order of the
 * file. */
static const struct
{
  const char *name;
  gboolean is_done;
  TrnCheckKind check; /* where some version does it */
} all_checks[] = {
  { "clearance", TRUE, TRN_CHECK_CLEARANCE },
  { "swing-radius", TRUE, TRN_CHECK_SWING_RADIUS },
  { "seat", TRUE, TRN_CHECK_SEAT },
  { "start", TRUE, TRN_CHECK_START },
  { "headroom", TRUE, TRN_CHECK_HEADROOM },
  { "reach", TRUE, TRN_CHECK_REACH },
  { "capacity", TRUE, TRN_CHECK_CAPACITY },
  { "hook-load", TRUE, TRN_CHECK_HOOK_LOAD },
  { "load-share", TRUE, TRN_CHECK_LOAD_SHARE },
  { "slings", TRUE, TRN_CHECK_SLINGS },
  { "rigging", TRUE, TRN_CHECK_RIGGING },
  { "tail-swing", TRUE, TRN_CHECK_TAIL_SWING },
  { "standing", TRUE, TRN_CHECK_STANDING },
  { "footing", TRUE, TRN_CHECK_FOOTING },
  { "approach", TRUE, TRN_CHECK_APPROACH },
  { "ground", TRUE, TRN_CHECK_GROUND },
  { "wind", TRUE, TRN_CHECK_WIND },
  { "resting-stability", TRUE, TRN_CHECK_RESTING },
  { "attitude", TRUE, TRN_CHECK_ATTITUDE },
  { "hoist-lines", TRUE, TRN_CHECK_HOIST_LINES },
  { "speeds", TRUE, TRN_CHECK_SPEEDS },
  { "swinging", TRUE, TRN_CHECK_SWINGING },
};
G_STATIC_ASSERT (G_N_ELEMENTS (all_checks) <= TRN_RESULTS_MOST_CHECKS);

static guint
list_checks (guint done, gboolean wanted, const char *names[])
{
  guint n = 0;
  for (guint i = 0; i < G_N_ELEMENTS (all_checks); i++)
    if ((all_checks[i].is_done && (done & TRN_CHECK_BIT (all_checks[i].check)) != 0) == wanted)
      names[n++] = all_checks[i].name;
  names[n] = NULL;
  return n;
}

guint
trn_results_checks_done (guint checks, const char *names[TRN_RESULTS_MOST_CHECKS + 1])
{
  return list_checks (checks | TRN_CHECKS_ALWAYS, TRUE, names);
}

guint
trn_results_not_checked (guint checks, const char *names[TRN_RESULTS_MOST_CHECKS + 1])
{
  return list_checks (checks | TRN_CHECKS_ALWAYS, FALSE, names);
}

const char *
trn_check_name (TrnCheckKind check)
{
  switch (check)
    {
    case TRN_CHECK_CLEARANCE:
      return "clearance";
    case TRN_CHECK_SWING_RADIUS:
      return "swing-radius";
    case TRN_CHECK_SEAT:
      return "seat";
    case TRN_CHECK_START:
      return "start";
    case TRN_CHECK_HEADROOM:
      return "headroom";
    case TRN_CHECK_REACH:
      return "reach";
    case TRN_CHECK_TAIL_SWING:
      return "tail-swing";
    case TRN_CHECK_APPROACH:
      return "approach";
    case TRN_CHECK_RIGGING:
      return "rigging";
    case TRN_CHECK_STANDING:
      return "standing";
    case TRN_CHECK_FOOTING:
      return "footing";
    case TRN_CHECK_HOOK_LOAD:
      return "hook-load";
    case TRN_CHECK_CAPACITY:
      return "capacity";
    case TRN_CHECK_LOAD_SHARE:
      return "load-share";
    case TRN_CHECK_SLINGS:
      return "slings";
    case TRN_CHECK_GROUND:
      return "ground";
    case TRN_CHECK_WIND:
      return "wind";
    case TRN_CHECK_RESTING:
      return "resting-stability";
    case TRN_CHECK_ATTITUDE:
      return "attitude";
    case TRN_CHECK_HOIST_LINES:
      return "hoist-lines";
    case TRN_CHECK_SPEEDS:
      return "speeds";
    case TRN_CHECK_SWINGING:
      return "swinging";
    }
  g_assert_not_reached ();
}

const char *
trn_verdict_name (TrnVerdict verdict)
{
  switch (verdict)
    {
    case TRN_VERDICT_PASS:
      return "pass";
    case TRN_VERDICT_NOTE:
      return "note";
    case TRN_VERDICT_UNKNOWN:
      return "unknown";
    case TRN_VERDICT_FAIL:
      return "fail";
    }
  g_assert_not_reached ();
}

const char *
trn_state_name (TrnState state)
{
  switch (state)
    {
    case TRN_STATE_CLEAR:
      return "clear";
    case TRN_STATE_SHORT:
      return "short";
    case TRN_STATE_CONTACT:
      return "contact";
    case TRN_STATE_SEATED:
      return "seated";
    case TRN_STATE_UNKNOWN:
      return "unknown";
    case TRN_STATE_RESTING:
      return "resting";
    case TRN_STATE_BURIED:
      return "buried";
    case TRN_STATE_NOT_RESTING:
      return "not-resting";
    case TRN_STATE_NEVER_LEFT:
      return "never-left";
    case TRN_STATE_NEVER_REACHED:
      return "never-reached";
    case TRN_STATE_IN_PLACE:
      return "in-place";
    case TRN_STATE_ELSEWHERE:
      return "elsewhere";
    case TRN_STATE_WITHIN:
      return "within";
    case TRN_STATE_OUTSIDE:
      return "outside";
    case TRN_STATE_OUT_OF_REACH:
      return "out-of-reach";
    case TRN_STATE_NOT_GIVEN:
      return "not-given";
    case TRN_STATE_KNOWN:
      return "known";
    case TRN_STATE_CRITICAL:
      return "critical";
    case TRN_STATE_SLACK:
      return "slack";
    case TRN_STATE_OVER_TAIL:
      return "over-tail";
    case TRN_STATE_TURNS_OVER:
      return "turns-over";
    case TRN_STATE_LIFTED:
      return "lifted-off";
    }
  g_assert_not_reached ();
}

const char *
trn_results_unit_name (TrnUnit unit)
{
  switch (unit)
    {
    case TRN_UNIT_M:
      return "m";
    case TRN_UNIT_DEG:
      return "deg";
    case TRN_UNIT_KG:
      return "kg";
    case TRN_UNIT_N:
      return "N";
    case TRN_UNIT_NM:
      return "N m";
    case TRN_UNIT_PA:
      return "Pa";
    case TRN_UNIT_M_S:
      return "m/s";
    case TRN_UNIT_DEG_S:
      return "deg/s";
    case TRN_UNIT_M2:
      return "m2";
    case TRN_UNIT_NONE:
      return "1";
    case TRN_UNIT_S:
    case TRN_UNIT_COUNT:
    case TRN_UNIT_BYTES:
      break;
    }
  g_assert_not_reached ();
}
