/* gauge-words.h: what the desk says of lifting gear at a moment: heights, radii, angles and forces,
 * and their scales.
 *
 * As in words.h: new strings are owned by the caller, names are made fit to be shown. */
#pragma once

#include "words.h"

/* What can be followed over a lift, for each hoist; chosen by bit, so that new ones go to the end.
 */
typedef enum
{
  TRN_GAUGE_HOOK_HEIGHT, /* above z = 0 */
  TRN_GAUGE_RADIUS,
  TRN_GAUGE_BOOM_ANGLE,
  TRN_GAUGE_TIP_ABOVE_HOOK,
  TRN_GAUGE_LOAD,     /* kg: the hook's part of the load */
  TRN_GAUGE_TENSION,  /* N: the greatest of its slings */
  TRN_GAUGE_CAPACITY, /* share of it that is used */
  TRN_GAUGE_PRESSURE, /* Pa: the greatest below a support */
  TRN_GAUGE_SHARE,    /* of the load: what part of it the hook bears */
  TRN_GAUGE_WIND,     /* how far the wind of the plan takes the load aside, at most; of the load */
  TRN_N_GAUGES,
} TrnGauge;

/* What is measured alike has one scale. */
typedef enum
{
  TRN_SCALE_LENGTHS,
  TRN_SCALE_ANGLES,
  TRN_SCALE_MASSES,
  TRN_SCALE_FORCES,
  TRN_SCALE_SHARES,
  TRN_SCALE_PRESSURES,
  TRN_N_SCALES,
} TrnGaugeScale;

TrnGaugeScale trn_gauge_scale (TrnGauge gauge);

/* "Hook height", borrowed. */
const char *trn_words_gauge (TrnGauge gauge);
/* "12.346 m", "63.41°"; "–" where there is none. In millimetres, whole inches or hundredths of a
 * degree, as what bounds it is written; a distance is rounded down, and a radius and what is borne
 * up. */
char *trn_words_gauge_value (TrnGauge gauge, double value);
/* Of a force, above its line: "Greatest ground pressure, as drawn"; static. */
const char *trn_words_gauge_drawn (TrnGauge gauge);
/* "195 kPa as drawn": of a force at a moment, beside what the checks find for the whole of a lift.
 */
char *trn_words_gauge_as_drawn (const char *number);
/* "at most 0.031 m": of what is a bound already. */
char *trn_words_gauge_at_most (const char *number);
/* "found: up to 244.5 kPa": what the checks prove that it never exceeds; not @is_all: of some moves
 * that is not known. */
char *trn_words_gauge_found (TrnGauge gauge, double greatest, gboolean is_all);
/* Beside what it has to stay within (NAN: no such limit) it is rounded toward the nearer one: it
 * reads as beyond it where it is, and only there. */
char *trn_words_gauge_value_beside (TrnGauge gauge, double value, double least, double most);
/* "Crawler crane north: 12.346 m", from a name that is fit to be shown. */
char *trn_words_gauge_reading (const char *name, const char *number);

/* Why a line that was chosen is not there, in its place; borrowed. */
typedef enum
{
  TRN_GAUGE_NOTE_ONE_HOOK, /* of shares, as the next two */
  TRN_GAUGE_NOTE_NO_MASS,
  TRN_GAUGE_NOTE_NO_COG,
  TRN_GAUGE_NOTE_NO_WIND,  /* the plan has none */
  TRN_GAUGE_NOTE_NOT_HUNG, /* no wind takes it aside */
  TRN_GAUGE_NOTE_NOT_CHECKED,
  TRN_GAUGE_NOTE_NOT_KNOWN,
  TRN_N_GAUGE_NOTES,
} TrnGaugeNote;

const char *trn_words_gauge_note (TrnGaugeNote note);

/* What bounds a gauge. */
typedef enum
{
  TRN_GAUGE_LEAST_RADIUS,
  TRN_GAUGE_MOST_RADIUS,
  TRN_GAUGE_LEAST_ANGLE,
  TRN_GAUGE_MOST_ANGLE,
  TRN_GAUGE_LOWEST_HOOK,
  TRN_GAUGE_HIGHEST_HOOK,
  TRN_GAUGE_LEAST_TIP,
  TRN_GAUGE_MOST_TENSION,
  TRN_GAUGE_MOST_CAPACITY,
  TRN_GAUGE_MOST_PRESSURE,
  TRN_GAUGE_LEAST_SHARE,
  TRN_N_GAUGE_LIMITS,
} TrnGaugeLimit;

/* "end of the table 18 m" */
char *trn_words_gauge_limit (TrnGaugeLimit limit, double value);

/* A linear scale that holds what goes from @least to @most: round steps in the units of the screen,
 * in SI units, growing; the first and the last are its ends. @texts receives owned
 * strings; the last has the unit. Returns how many there are, at least 2. */
#define TRN_MOST_GAUGE_TICKS 8
guint trn_words_gauge_ticks (TrnGaugeScale scale, double least, double most,
                             double ticks[TRN_MOST_GAUGE_TICKS], char *texts[TRN_MOST_GAUGE_TICKS]);

/* "Crane north: headroom 14.2 m, limit 18 m": what a finding that is no distance looks at; without
 * numbers where there are none. NULL for a finding that is a distance. */
char *trn_words_value_line (const TrnPlan *plan, const TrnFinding *finding);
/* "Underside of the load 3 m\n+ up to the hook point 2 m …": what a needed height is the sum of;
 * NULL where it is of nothing. */
char *trn_words_value_items (const TrnFinding *finding);

/* Fixed texts of the room that shows the gear now, borrowed. */
typedef enum
{
  TRN_GEAR_NOW,
  TRN_GEAR_STRIP_LINES,
  TRN_GEAR_STRIP_LINES_HINT,
  TRN_GEAR_HEADROOM_LEFT,
  TRN_GEAR_NO_TOLERANCES, /* of headroom: as drawn, nothing is taken off */
  TRN_GEAR_SLEW,
  TRN_GEAR_ROPE,
  TRN_GEAR_NO_PLACE, /* the hook is beyond its reach */
  TRN_GEAR_NO_HOOK,  /* nothing says how far the hook is above its point */
  TRN_GEAR_RIGGING,  /* slings and beams of a hoist without gear */
  TRN_GEAR_WAITS,    /* the hoist does not hold the load in this move */
  TRN_GEAR_HOLDS,    /* gear without a hook does */
  TRN_N_GEAR_TEXTS,
} TrnGearText;

const char *trn_words_gear (TrnGearText text);
/* "Main hook – It does not hold the load here.", of a name and a note. */
char *trn_words_gear_note (const char *name, const char *note);
typedef enum
{
  TRN_HOIST_MAIN,
  TRN_HOIST_TAIL,
  TRN_HOIST_TAIL_SUPPORT, /* gear without a hook that holds the tail */
} TrnHoistRole;

/* "Main hook: Crawler crane north"; without gear "Main hook". */
char *trn_words_hoist (TrnHoistRole role, const char *gear);
/* "6 m to 18 m", "at least 6 m", "at most 18 m", of what is set; NULL where nothing is. */
char *trn_words_gauge_range (gboolean angle, double least, double most);

/* "tail swing, radius 4.2 m", rounded up; "barricade line, radius 6 m", rounded down. */
char *trn_words_tail_circle (double radius_m);
char *trn_words_barricade_circle (double radius_m);
