/* site-state.c: what is known of a finding, or of a distance, as one of the states that have a
 * colour. What is not known is never shown as clear. */
#include <math.h>

#include "site-view.h"
#include "tolerances.h"
#include "words.h"

RenderState
render_state_of_distance (double distance_m, double required_m, double allowance_m, double tight_m)
{
  if (isnan (distance_m) || isnan (required_m))
    return RENDER_STATE_NOT_CHECKED;
  if (distance_m <= TRN_CONTACT_M)
    return RENDER_STATE_TOUCHING;
  /* Without the allowance a shortfall is certain, and nothing else is. */
  if (distance_m < required_m + (isnan (allowance_m) ? 0 : allowance_m))
    return RENDER_STATE_SHORT;
  if (isnan (allowance_m))
    return RENDER_STATE_NOT_CHECKED;
  return distance_m <= required_m + allowance_m + tight_m ? RENDER_STATE_TIGHT : RENDER_STATE_CLEAR;
}

TrnNow
render_now_of_meeting (TrnMeeting meeting)
{
  return meeting == TRN_MEETING_INSIDE ? TRN_NOW_INSIDE
         : meeting == TRN_MEETING_CUTS ? TRN_NOW_CUTTING
                                       : TRN_NOW_TOUCHING;
}

/* Of a clearance that is met: how much of it is to spare. */
static RenderState
state_of_margin (double margin_m, double tight_m)
{
  if (isnan (margin_m))
    return RENDER_STATE_NOT_CHECKED;
  if (margin_m < 0)
    return RENDER_STATE_SHORT;
  return margin_m <= tight_m ? RENDER_STATE_TIGHT : RENDER_STATE_CLEAR;
}

static RenderState
state_of_swing (const TrnFinding *finding, double tight_m)
{
  /* Nothing of the obstacle lies in the way of the swing. */
  if (isnan (finding->sector_distance_m))
    return RENDER_STATE_CLEAR;
  double margin_m = finding->sector_distance_m - finding->radius_m - finding->required_m;
  /* A circle that comes near is to be looked at, and is no shortfall of the motion itself. */
  RenderState state = state_of_margin (margin_m, tight_m);
  return state == RENDER_STATE_SHORT ? RENDER_STATE_TIGHT : state;
}

RenderState
render_state_of_finding (const TrnFinding *finding, double tight_m)
{
  if (finding->verdict == TRN_VERDICT_UNKNOWN || finding->state == TRN_STATE_UNKNOWN
      || finding->state == TRN_STATE_NOT_GIVEN)
    return RENDER_STATE_NOT_CHECKED;
  if (finding->check == TRN_CHECK_SWING_RADIUS)
    return state_of_swing (finding, tight_m);
  if (trn_words_is_number_alone (finding))
    return RENDER_STATE_NONE;
  if (finding->verdict == TRN_VERDICT_NOTE)
    return RENDER_STATE_TIGHT;
  if (finding->check == TRN_CHECK_TAIL_SWING
      || (finding->check == TRN_CHECK_STANDING && finding->state == TRN_STATE_CLEAR))
    return finding->verdict == TRN_VERDICT_FAIL ? RENDER_STATE_SHORT : RENDER_STATE_CLEAR;
  switch (finding->state)
    {
    case TRN_STATE_CONTACT:
    case TRN_STATE_BURIED:
      return RENDER_STATE_TOUCHING;
    case TRN_STATE_SHORT:
    case TRN_STATE_NOT_RESTING:
    case TRN_STATE_NEVER_LEFT:
    case TRN_STATE_NEVER_REACHED:
    case TRN_STATE_ELSEWHERE:
    case TRN_STATE_OUTSIDE:
    case TRN_STATE_OUT_OF_REACH:
    case TRN_STATE_SLACK:
    case TRN_STATE_OVER_TAIL:
    case TRN_STATE_LIFTED:
    case TRN_STATE_TURNS_OVER:
      return RENDER_STATE_SHORT;
    case TRN_STATE_SEATED:
    case TRN_STATE_RESTING:
    case TRN_STATE_IN_PLACE:
    case TRN_STATE_WITHIN:
    case TRN_STATE_KNOWN:
      return finding->verdict == TRN_VERDICT_FAIL ? RENDER_STATE_SHORT : RENDER_STATE_CLEAR;
    case TRN_STATE_CRITICAL:
      return RENDER_STATE_TIGHT;
    case TRN_STATE_CLEAR:
      if (finding->verdict == TRN_VERDICT_FAIL)
        return RENDER_STATE_SHORT;
      return trn_words_is_tight (finding, tight_m)
                 ? RENDER_STATE_TIGHT
                 : state_of_margin (trn_finding_margin_m (finding), 0);
    case TRN_STATE_UNKNOWN:
    case TRN_STATE_NOT_GIVEN:
      break;
    }
  return RENDER_STATE_NOT_CHECKED;
}
