/* What is carried is rounded down, what is not carried is rounded up. */
#include "footing-words.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#include "desk-words.h"
#include "footing-check.h"
#include "words.h"

#define LONGEST_NAME 60
#define LONGEST_TEXT 200
/* What binary fractions leave of a round number. */
#define DUST 1e-9

/* "82.5 %", rounded down. */
static char *
share_text (double share)
{
  char number[G_ASCII_DTOSTR_BUF_SIZE];
  g_ascii_formatd (number, sizeof number, "%.1f", floor (share * 1000 * (1 + DUST)) / 10);
  return trn_words_quantity (g_strdup_printf (_ ("%s %%"), number));
}

static char *
edge_text (const TrnFinding *finding, const char *on)
{
  const double gap_m = trn_finding_number (finding, TRN_FOOTING_GAP);
  g_autofree char *along = trn_words_length_up (trn_finding_number (finding, TRN_FOOTING_ALONG));
  g_autofree char *across = trn_words_length_up (trn_finding_number (finding, TRN_FOOTING_ACROSS));
  g_autofree char *share = share_text (trn_finding_number (finding, TRN_FOOTING_CARRIED));
  g_autofree char *gap = trn_words_length (fabs (gap_m));
  if (gap_m > 0)
    return g_strdup_printf (
        _ ("stands over an edge or a hole of %s. Nothing carries it on %s × %s; what is below that "
           "is %s lower; at least %s of it is carried"),
        on, along, across, gap, share);
  if (gap_m < 0)
    return g_strdup_printf (
        _ ("stands over an edge of %s. Nothing carries it on %s × %s; what is there is %s higher; "
           "at least %s of it is carried"),
        on, along, across, gap, share);
  return g_strdup_printf (_ ("stands over an edge or a hole of %s. Nothing carries it on %s × %s, "
                             "nor is anything shown "
                             "below that; at least %s of it is carried"),
                          on, along, across, share);
}

static char *
fault_text (const TrnFinding *finding)
{
  g_autofree char *on
      = trn_words_clean (finding->source != NULL ? finding->source : "–", LONGEST_NAME);
  const double level_m = trn_finding_number (finding, TRN_FOOTING_LEVEL);
  const double gap_m = trn_finding_number (finding, TRN_FOOTING_GAP);
  g_autofree char *level = trn_words_length (fabs (level_m));
  g_autofree char *gap = trn_words_length (fabs (gap_m));
  if (level_m > 0)
    return g_strdup_printf (_ ("stands %s above the level that the plan states for what is not "
                               "shown below it (ground, level)"),
                            level);
  if (level_m < 0)
    return g_strdup_printf (_ ("stands %s below the level that the plan states for what is not "
                               "shown below it (ground, level)"),
                            level);
  if (trn_finding_number (finding, TRN_FOOTING_CARRIED) > 0)
    return edge_text (finding, on);
  if (gap_m > 0)
    return g_strdup_printf (_ ("stands on nothing: what is below it, %s, is %s lower"), on, gap);
  if (gap_m < 0)
    return g_strdup_printf (_ ("stands %s below the surface of %s"), gap, on);
  return g_strdup_printf (_ ("stands on nothing, in a hole of %s"), on);
}

char *
trn_words_footing (const TrnFinding *finding)
{
  if (finding->verdict == TRN_VERDICT_UNKNOWN)
    return g_strdup (_ ("Not known: what it stands on could not be worked out"));
  g_autofree char *on
      = trn_words_clean (finding->source != NULL ? finding->source : "–", LONGEST_TEXT);
  if (finding->verdict == TRN_VERDICT_PASS
      && isnan (trn_finding_number (finding, TRN_FOOTING_CARRIED)))
    return g_strdup_printf (_ ("Stands on what the plan does not show, but states: %s"), on);
  if (finding->verdict == TRN_VERDICT_PASS)
    return g_strdup_printf (_ ("Stands with all of it on what the plan shows, %s"), on);
  const double support = trn_finding_number (finding, TRN_FOOTING_SUPPORT);
  g_autofree char *fault = fault_text (finding);
  g_autofree char *who = isnan (support) ? g_strdup (_ ("The gear"))
                                         : g_strdup_printf (_ ("Support %d"), (int)support);
  return g_strdup_printf (_ ("%s %s. Set the gear elsewhere or at another height, or give the plan "
                             "the structure that carries it there"),
                          who, fault);
}

char *
trn_words_finding_named (const TrnPlan *plan, const TrnFinding *finding)
{
  /* What the plan only states is no id. */
  if (finding->check != TRN_CHECK_FOOTING || finding->source == NULL
      || isnan (trn_finding_number (finding, TRN_FOOTING_CARRIED)))
    return trn_words_finding (finding);
  g_autofree char *on = trn_words_body_name (plan, finding->source);
  TrnFinding named = *finding;
  named.source = on;
  return trn_words_finding (&named);
}
