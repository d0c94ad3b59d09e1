/* The words of the results file. They are part of its format: never change one. */
#include "results.h"

const char *const *
trn_results_checks_done (void)
{
  static const char *const names[] = { "clearance", "swing-radius", "seat", "start", NULL };
  return names;
}

const char *const *
trn_results_not_checked (void)
{
  static const char *const names[]
      = { "headroom",   "reach",    "capacity", "hook-load", "load-share",        "slings",
          "tail-swing", "approach", "ground",   "wind",      "resting-stability", NULL };
  return names;
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
    }
  g_assert_not_reached ();
}
