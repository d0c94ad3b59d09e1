#include "finding.h"

void
trn_findings_free (TrnFindings *findings)
{
  if (findings == NULL)
    return;
  for (guint i = 0; i < findings->n_lifts; i++)
    {
      GArray *list = findings->lifts[i].findings;
      for (guint k = 0; k < list->len; k++)
        g_clear_pointer (&g_array_index (list, TrnFinding, k).contacts, g_array_unref);
      g_array_unref (list);
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
      if (finding->state == TRN_STATE_SEATED)
        return NAN;
      return finding->lower_m - (isnan (finding->allowance_m) ? 0 : finding->allowance_m)
             - finding->required_m;
    case TRN_CHECK_SWING_RADIUS:
      return finding->sector_distance_m - finding->radius_m - finding->required_m;
    case TRN_CHECK_SEAT:
    case TRN_CHECK_START:
      return NAN;
    }
  g_assert_not_reached ();
}
