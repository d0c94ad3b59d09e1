/* words.h: sentences for people: the only place of the program that translates.
 *
 * The engine gives codes, verdicts and numbers; here they become words. Every function that
 * returns a char * gives a new string, owned by the caller, in UTF-8, on one line, without control
 * characters whatever a file may have put into a name. Numbers have a decimal point in every
 * language, as in the plan and the results.
 *
 * No sentence says "safe": what the program knows is that a set clearance is met, falls short, or
 * is not known. */
#pragma once

#include "checks.h"
#include "words-units.h"

/* Chooses the language from the environment; call it once, before any other thread is started.
 * Translations are looked for in @locale_folder, or where they are installed when it is NULL. */
void trn_words_init (const char *locale_folder);

/* A text from a file or a command line, fit to be shown: control characters and what would turn
 * the direction of writing are replaced, and it is cut at @max characters (0: never). */
char *trn_words_clean (const char *text, guint max);

/* Quantities, in the units of words-units.h. "–" stands for a number that there is none of (not
 * finite). */

/* "0.62 m": to the nearest millimetre, without idle zeros; "2′ 0 7/16″" in feet and inches. */
char *trn_words_length (double length_m);
/* The same, never above the true value: for a clearance, which is a lower bound. */
char *trn_words_length_down (double length_m);
/* The same, never below the true value but by what its binary representation leaves behind (a few
 * parts in 10^16): for what is needed, missing or taken off. */
char *trn_words_length_up (double length_m);
/* "0.620": the same with all three decimals and no unit, for columns; in feet and inches with
 * their signs. */
char *trn_words_column_down (double length_m);
char *trn_words_column_up (double length_m);
/* "0.620 m": the same with its unit, where numbers stand below each other. */
char *trn_words_cell_down (double length_m);
char *trn_words_cell_up (double length_m);
/* "7.5 s", "12 min 05 s", "1 h 02 min 05 s" */
char *trn_words_time (double time_s);
/* "1:02:05", for columns */
char *trn_words_column_time (double time_s);
/* "90°" */
char *trn_words_angle (double angle_rad);
/* In degrees, with as many more digits as tell it from another that it is held against. */
char *trn_words_degrees_beside (double angle_deg, double other_deg);
/* The direction of a mathematical heading: bearing "034.5°", or heading "55.5°". */
char *trn_words_heading (double heading_rad);
/* "62.4 t", "68.784 US tons" */
char *trn_words_mass (double mass_kg);
/* "(12.345, 3.21, −5.6) m", to the nearest millimetre */
char *trn_words_point (TrnVec3 point);

/* Diagnostics. */

const char *trn_words_severity (TrnSeverity severity);
/* "plan.trunnion:12: /structures/0: error: …". A value that the code did not set stays visible as
 * {name}, and so does a code without a sentence. */
char *trn_words_diag (const TrnDiag *diag);
/* Its parts: "plan.trunnion:12: /structures/0", "" where no place is known; and the sentence. */
char *trn_words_diag_place (const TrnDiag *diag);
char *trn_words_diag_sentence (const TrnDiag *diag);

/* Moves. */

/* "Tilt 90° toward north about “heel”". @move is an index into the moves of @lift. */
char *trn_words_move (const TrnLift *lift, guint move);

/* Findings. */

/* "meets", "SHORT", "CONTACT": a word or two for a column. "off seat" is met as well: from where
 * the load has left its seat, or until it reaches it. */
const char *trn_words_finding_short (const TrnFinding *finding);
/* Whether it is a note that asks nothing: it says what is known, and is neither met nor to be
 * looked at. */
gboolean trn_words_is_number_alone (const TrnFinding *finding);
/* "Meets the set clearance, 0.62 m to spare" */
char *trn_words_finding (const TrnFinding *finding);
/* The same, with what gear stands on by its name in @plan, not by its id. */
char *trn_words_finding_named (const TrnPlan *plan, const TrnFinding *finding);
/* What a finding has in hand: the least certified clearance less the allowance less what is to be
 * kept; negative where it falls short; NAN where it is not a matter of distance. */
double trn_words_margin_m (const TrnFinding *finding);
/* Whether it is not known to such a degree that its distance and margin are no numbers to show. */
gboolean trn_words_is_blank (const TrnFinding *finding);
/* Whether a clearance is met with no more than @tight_m to spare, off a seat too: the one rule for
 * all that counts or marks such. */
gboolean trn_words_is_tight (const TrnFinding *finding, double tight_m);

/* What kinds of findings come before others, wherever the worst comes first. */
typedef enum
{
  TRN_RANK_FAIL,
  TRN_RANK_UNKNOWN,
  TRN_RANK_TIGHT,
  TRN_RANK_CLEARANCE,
  TRN_RANK_OFF_SEAT, /* met as well; how closely is what the plan's own until_clear leaves */
  TRN_RANK_REST,
} TrnRank;

/* @tight_m: NAN: nothing is tight. */
TrnRank trn_words_rank (const TrnFinding *finding, double tight_m);
/* Whether it is not known only because something else is not, of which another finding tells. */
gboolean trn_words_is_consequence (const TrnFinding *finding);
/* The one order of findings, for tables, the desk and pictures: by their rank, then causes before
 * what only follows from them, then by what they have in hand: distances by that, then all others
 * by what is left of their limit as a share of it.
 * Negative: @a is worse; 0: neither. */
int trn_words_compare_worst (const TrnFinding *a, const TrnFinding *b, double tight_m);

/* What all findings come to, in one sentence, and what was not checked. */
char *trn_words_headline (const TrnFindings *findings);

typedef enum
{
  TRN_HEADLINE_NONE,
  TRN_HEADLINE_RUNNING,
  TRN_HEADLINE_STOPPED, /* what is not there is not known */
  TRN_HEADLINE_DONE,
  TRN_HEADLINE_STALE, /* the plan was changed since */
} TrnHeadline;

/* The same for the head of a window, in a line: "1 finding does not meet what is set · 6 clearances
 * meet the set values, 2 of them tight · not checked: headroom, …". @findings: those of the lifts
 * that are done, of @n_lifts, or NULL; tight is a clearance with no more than @tight_m to spare. */
char *trn_words_headline_short (const TrnFindings *findings, TrnHeadline state, guint n_lifts,
                                double tight_m);

/* "hook loads": what it looks at, in a list of such; borrowed. */
const char *trn_words_check (TrnCheckKind check);
/* "Not checked: headroom, reach": all that is not where @checks are; NULL: nothing. */
char *trn_words_not_checked_of (guint checks);
/* "Checked only where the plan names what it takes: headroom, reach, …" */
char *trn_words_not_checked (void);
/* What holds for every result, however good it looks. */
const char *trn_words_caution (void);
