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
