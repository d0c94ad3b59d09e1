#include "start.h"

TrnFinding
trn_start_judge (const TrnLiftCheck *check)
{
  TrnFinding finding = trn_lift_check_finding (check, TRN_CHECK_START, -1, NULL, NAN);
  gboolean elsewhere = check->run->starts_elsewhere;
  finding.state = elsewhere ? TRN_STATE_ELSEWHERE : TRN_STATE_IN_PLACE;
  finding.verdict = elsewhere ? TRN_VERDICT_FAIL : TRN_VERDICT_PASS;
  return finding;
}
