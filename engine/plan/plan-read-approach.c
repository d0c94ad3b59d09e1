/* Which distance is kept from overhead lines. */
#include "plan-read.h"

#include <math.h>

void
trn_read_approach (TrnReader *reader, const TrnValue *document)
{
  static const char *const rules[]
      = { "29-cfr-1926-1408-table-a", "en-50110-1", "din-vde-0105-100", "own", NULL };
  static const TrnApproachKind kinds[] = { TRN_APPROACH_CFR_1926_1408, TRN_APPROACH_EN_50110,
                                           TRN_APPROACH_VDE_0105_100, TRN_APPROACH_OWN };
  static const char *const keys[] = { "rule", NULL };
  static const char *const own_keys[] = { "rule", "distance", "source", NULL };
  TrnApproachRule *approach = &reader->plan->approach;
  TrnValue value = trn_value_member (document, "approach");
  approach->distance_m = NAN;
  if (!trn_read_object (reader, &value, NULL))
    return;
  const int rule = trn_read_word (reader, &value, "rule", TRN_REQUIRED, rules);
  if (rule < 0)
    return;
  approach->kind = kinds[rule];
  const gboolean own = approach->kind == TRN_APPROACH_OWN;
  trn_read_object (reader, &value, own ? own_keys : keys);
  if (!own)
    return;
  approach->distance_m
      = trn_read_number (reader, &value, "distance", TRN_REQUIRED, &trn_range_positive);
  approach->source = trn_read_text (reader, &value, "source", TRN_REQUIRED);
}
