/* What is carried is rounded down, what is not carried is rounded up. */
#include "footing-words.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#include "desk-words.h"
#include "footing-check.h"
#include "force-words.h"
#include "resting-check.h"
#include "tolerances.h"
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

char *
trn_words_resting (const TrnFinding *finding)
{
  g_autofree char *tips
      = trn_words_force (trn_finding_number (finding, "tips-at"), TRN_UNIT_DEG, FALSE);
  g_autofree char *least = trn_words_force (TRN_TIP_LEAST_DEG, TRN_UNIT_DEG, TRUE);
  const double inside_m = finding->margin + finding->limit;
  if (finding->state == TRN_STATE_NOT_RESTING)
    return g_strdup (g_strcmp0 (finding->item, "start") == 0
                         ? _ ("Rests on nothing at the start of the lift")
                         : _ ("Rests on nothing at the end of the lift"));
  if (finding->state == TRN_STATE_WITHIN)
    {
      g_autofree char *spare = trn_words_length_down (inside_m);
      return g_strdup_printf (
          _ ("Stands by itself: its centre of gravity is %s within what it rests on, it tips over "
             "when turned by %s"),
          spare, tips);
    }
  if (inside_m > 0)
    return g_strdup_printf (
        _ ("Stands on too little: it tips over when turned by %s, and %s is the least that counts"),
        tips, least);
  const double off_deg = trn_finding_number (finding, TRN_RESTING_OFF);
  if (isfinite (off_deg))
    {
      g_autofree char *off = trn_words_force (off_deg, TRN_UNIT_DEG, TRUE);
      return g_strdup_printf (
          _ ("Bears on an edge alone, as drawn: the face that it would rest on is out of level "
             "with "
             "its seat by %s, which neither the tolerance of tilt (tilt_deg) nor the play of the "
             "seat (fit) covers"),
          off);
    }
  g_autofree char *lacks = trn_words_length_up (-inside_m);
  return g_strdup_printf (
      _ ("Would tip over: its centre of gravity can be %s outside what it rests on"), lacks);
}

const char *
trn_words_resting_advice (const TrnFinding *finding)
{
  if (finding->state == TRN_STATE_NOT_RESTING)
    return _ ("Name what it stands on in seats, or correct the last move");
  if (isfinite (trn_finding_number (finding, TRN_RESTING_OFF)))
    return _ (
        "Correct its turn, so that this face is flat on its seat, or give the lift a tolerance "
        "that covers it");
  return _ ("Set it on what is wider, or so that its centre of gravity is over the middle of that, "
            "or hold it by more seats or by the hook until it is fastened");
}
