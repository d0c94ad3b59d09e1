#include "start.h"

TrnFinding
trn_start_judge (const TrnLiftCheck *check)
{
  TrnFinding finding = trn_lift_check_finding (check, TRN_CHECK_START, -1, NULL, NAN);
  const TrnLiftRun *run = check->run;
  finding.state = run->starts_elsewhere ? TRN_STATE_ELSEWHERE : TRN_STATE_IN_PLACE;
  finding.verdict = run->starts_elsewhere ? TRN_VERDICT_FAIL : TRN_VERDICT_PASS;
  if (!run->starts_elsewhere)
    return finding;
  finding.stands = trn_placement_of (&run->stands);
  finding.starts = trn_placement_of (&run->start);
  finding.distance_m = trn_vec3_distance (run->stands.position, run->start.position);
  finding.turned_rad = trn_rotation_angle_between (&run->stands.turn, &run->start.turn);
  return finding;
}
