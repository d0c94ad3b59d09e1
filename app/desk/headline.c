#include "headline.h"

RenderState
desk_headline_mark (DeskSession *session, TrnHeadline state)
{
  const TrnFinding *worst = desk_session_worst (session, DESK_ALL_LIFTS, -1, NULL);
  const TrnFindings *findings = desk_check_get_findings (desk_session_get_check (session));
  gboolean fails = findings != NULL && findings->verdict == TRN_VERDICT_FAIL;
  if (worst != NULL && worst->verdict == TRN_VERDICT_FAIL)
    return render_state_of_finding (worst, desk_session_get_tight (session));
  if (fails)
    return RENDER_STATE_SHORT;
  if (state != TRN_HEADLINE_DONE || findings == NULL || findings->verdict == TRN_VERDICT_UNKNOWN
      || worst == NULL)
    return RENDER_STATE_NOT_CHECKED;
  return render_state_of_finding (worst, desk_session_get_tight (session));
}

TrnHeadline
desk_headline_state (DeskSession *session)
{
  if (desk_session_is_stale (session))
    return TRN_HEADLINE_STALE;
  switch (desk_check_get_state (desk_session_get_check (session)))
    {
    case DESK_CHECK_NONE:
      return TRN_HEADLINE_NONE;
    case DESK_CHECK_RUNNING:
      return TRN_HEADLINE_RUNNING;
    case DESK_CHECK_CANCELLED:
      return TRN_HEADLINE_STOPPED;
    case DESK_CHECK_DONE:
      return TRN_HEADLINE_DONE;
    }
  g_assert_not_reached ();
}
