/* load-words.h: what the desk says of values beside their limits, and of forces at a moment.
 *
 * As in words.h: new strings are owned by the caller, names are made fit to be shown. */
#pragma once

#include "words.h"

/* Value and limit of a finding with their unit, for cells; "–" where there is none. The value is
 * rounded up and the limit down, or the other way where the value must not be less. */
char *trn_words_value_cell (const TrnFinding *finding);
char *trn_words_limit_cell (const TrnFinding *finding);
/* What is left of the limit, rounded down. */
char *trn_words_value_margin_cell (const TrnFinding *finding);

/* Whether it is a value, mostly beside a limit, and known. */
gboolean trn_words_has_value (const TrnFinding *finding);
/* The same and what is left, for columns of lengths: those without their unit, others with it. */
char *trn_words_value_column (const TrnFinding *finding);
char *trn_words_limit_column (const TrnFinding *finding);
char *trn_words_value_margin_column (const TrnFinding *finding);

/* "load 12.6 t, block 0.6 t": what a value is made of, or what belongs to it; NULL: nothing. */
char *trn_words_numbers (const TrnFinding *finding);
/* "82.5 % of the limit"; NULL where there is none. */
char *trn_words_utilisation (const TrnFinding *finding);
/* "From: 0027/ND Rev 11.2, Table 5-1"; NULL where no source is named. */
char *trn_words_source (const TrnFinding *finding);
/* The source alone, of a finding that has one, cut at @longest characters (0: never); and the rule
 * of one that has that. */
char *trn_words_source_name (const TrnFinding *finding, guint longest);
char *trn_words_rule_name (const TrnFinding *finding, guint longest);

/* "Hangs 0.8° off as drawn"; NULL where it does not. */
char *trn_words_hangs_off (double lean_rad);
/* Where that is not known; borrowed. */
const char *trn_words_hangs_unknown (void);

/* Fixed texts of the room that shows forces now, borrowed. */
typedef enum
{
  TRN_LOADS_NOW,
  TRN_LOADS_FORCES,
  TRN_LOADS_RIGGING,
  TRN_LOADS_WEIGHT,
  TRN_LOADS_MASS_FACTOR,
  TRN_LOADS_HOOK_LOAD,
  TRN_LOADS_GROUND,
  TRN_LOADS_CAPACITY,
  TRN_LOADS_TENSION, /* of a sling, as the next */
  TRN_LOADS_SHACKLE,
  TRN_LOADS_BEAM_LOAD, /* of a beam, as the next two */
  TRN_LOADS_COMPRESSION,
  TRN_LOADS_MOMENT,
  TRN_LOADS_NO_SLINGS,
  TRN_LOADS_NO_COG,
  TRN_LOADS_SLACK,      /* of a hook that would have to push */
  TRN_LOADS_BEARS_NONE, /* of a tail trolley that would have to pull */
  TRN_LOADS_KEEPS_DOWN, /* of a turning frame that does */
  TRN_LOADS_FOUND,      /* the greatest by the checks, which count more than the drawn moment */
  TRN_LOADS_FOUND_IN_PART,
  TRN_LOADS_FOUND_BARE, /* the same, below the row with rigging */
  TRN_LOADS_FOUND_BARE_IN_PART,
  TRN_LOADS_FOUND_THAT,   /* before a word instead of a number, as that a support lifts off */
  TRN_LOADS_AT_REST_HEAD, /* what the numbers are, in few words … */
  TRN_LOADS_DYNAMIC_HEAD,
  TRN_LOADS_AT_REST, /* … and in more */
  TRN_LOADS_DYNAMIC,
  TRN_N_LOADS_TEXTS,
} TrnLoadsText;

const char *trn_words_loads (TrnLoadsText text);
/* One of the heads, and where a figure is seen from, a heading; NAN: that is not said. Owned by the
 * caller. */
char *trn_words_loads_head (TrnLoadsText head, double seen_from_rad);
/* TRN_LOADS_FOUND, or in part, of a quantity that is named, as it is said. Owned by the caller. */
char *trn_words_loads_found_of (const char *quantity, gboolean is_all);
/* "118.7 kN": the weight of a mass. */
char *trn_words_weight (double mass_kg);
/* "62.3°" */
char *trn_words_leg_angle (double angle_rad);
/* "Beam spreader" */
char *trn_words_beam (const char *id);
/* "2.4° off level", "level"; "–" where it is not known. */
char *trn_words_beam_tilt (double tilt_rad);
/* "45.1 of 196.1 kN", of a limit that is a mass; "45.1 kN" where that is not set (NAN). */
char *trn_words_of_limit (double newton, double limit_kg);
/* "Main hook: 118.7 kN", for a figure and those who do not see it. */
char *trn_words_figure_line (const char *name, const char *value);
/* The name of a leg, and "62.3° 45.1 kN" of it; a tension that is NAN is left out. */
char *trn_words_leg_name (const char *id);
char *trn_words_leg (double angle_rad, double tension_n);
/* "SLACK", instead of a number; borrowed. The same as "62.3° SLACK". */
const char *trn_words_slack (void);
char *trn_words_leg_slack (double angle_rad);
