#include "finding.h"

void
trn_finding_clear (TrnFinding *finding)
{
  g_clear_pointer (&finding->contacts, g_array_unref);
  g_clear_pointer (&finding->items, g_array_unref);
  g_clear_pointer (&finding->numbers, g_array_unref);
  g_clear_pointer (&finding->allowance_parts, g_array_unref);
}

void
trn_finding_add_number (TrnFinding *finding, const char *what, double value, TrnUnit unit)
{
  TrnFindingNumber number = { what, value, unit };
  if (finding->numbers == NULL)
    finding->numbers = g_array_new (FALSE, FALSE, sizeof number);
  g_array_append_val (finding->numbers, number);
}

void
trn_findings_free (TrnFindings *findings)
{
  if (findings == NULL)
    return;
  for (guint i = 0; i < findings->n_lifts; i++)
    {
      GArray *list = findings->lifts[i].findings;
      for (guint k = 0; k < list->len; k++)
        trn_finding_clear (&g_array_index (list, TrnFinding, k));
      g_array_unref (list);
      g_clear_pointer (&findings->lifts[i].left_out, g_array_unref);
    }
  g_free (findings->lifts);
  g_free (findings);
}

double
trn_finding_margin_m (const TrnFinding *finding)
{
  switch (finding->check)
    {
    case TRN_CHECK_CLEARANCE:
    case TRN_CHECK_APPROACH:
      if (finding->state == TRN_STATE_SEATED)
        return NAN;
      return finding->lower_m - (isnan (finding->allowance_m) ? 0 : finding->allowance_m)
             - finding->required_m;
    case TRN_CHECK_SWING_RADIUS:
      return finding->sector_distance_m - finding->radius_m - finding->required_m;
    case TRN_CHECK_TAIL_SWING:
      if (finding->item != NULL)
        return finding->margin;
      return finding->sector_distance_m - finding->radius_m - finding->allowance_m
             - finding->required_m;
    case TRN_CHECK_HEADROOM:
    case TRN_CHECK_REACH:
    case TRN_CHECK_RIGGING:
      return finding->unit == TRN_UNIT_M ? finding->margin : NAN;
    case TRN_CHECK_RESTING:
      return finding->margin;
    case TRN_CHECK_SEAT:
    case TRN_CHECK_START:
    case TRN_CHECK_STANDING:
    case TRN_CHECK_HOOK_LOAD:
    case TRN_CHECK_CAPACITY:
    case TRN_CHECK_LOAD_SHARE:
    case TRN_CHECK_SLINGS:
    case TRN_CHECK_GROUND:
    case TRN_CHECK_WIND:
    case TRN_CHECK_ATTITUDE:
    case TRN_CHECK_HOIST_LINES:
      return NAN;
    }
  g_assert_not_reached ();
}
