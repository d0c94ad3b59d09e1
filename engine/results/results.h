/* results.h: findings as files. */
#pragma once

#include "checks.h"

/* The results file (JSON, see data/trunnion-results.schema.json). Same bytes for the same findings.
 * @program_version is the text of "program". Owned by the caller. */
char *trn_results_to_json (const TrnScene *scene, const TrnFindings *findings,
                           const char *program_version, gsize *length);

/* The findings as CSV (RFC 4180, header line, SI units in the header), one line a finding. */
char *trn_results_to_csv (const TrnScene *scene, const TrnFindings *findings, gsize *length);

/* The names of the checks that are done where @checks are (TRN_CHECK_BIT; those that always are
 * counted in), and of those that are not, in a fixed order, NULL-terminated: "clearance", …, and
 * "capacity", …. Returns their number. */
#define TRN_RESULTS_MOST_CHECKS 24
guint trn_results_checks_done (guint checks, const char *names[TRN_RESULTS_MOST_CHECKS + 1]);
guint trn_results_not_checked (guint checks, const char *names[TRN_RESULTS_MOST_CHECKS + 1]);

/* The word of the results file for each value. */
const char *trn_check_name (TrnCheckKind check);
const char *trn_verdict_name (TrnVerdict verdict);
const char *trn_state_name (TrnState state);
/* "m", "deg", "kg", "N" …; "1" for none. */
const char *trn_results_unit_name (TrnUnit unit);
