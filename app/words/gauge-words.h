/* gauge-words.h: what the desk says of lifting gear at a moment: heights, radii and angles, and
 * their scales.
 *
 * As in words.h: new strings are owned by the caller, names are made fit to be shown. */
#pragma once

#include "words.h"

/* What can be followed over a lift, for each hoist. */
typedef enum
{
  TRN_GAUGE_HOOK_HEIGHT, /* above z = 0 */
  TRN_GAUGE_RADIUS,
  TRN_GAUGE_BOOM_ANGLE,
  TRN_GAUGE_TIP_ABOVE_HOOK,
  TRN_N_GAUGES,
} TrnGauge;

/* "Hook height", borrowed. */
const char *trn_words_gauge (TrnGauge gauge);
gboolean trn_gauge_is_angle (TrnGauge gauge);
/* "12.35 m", "63.4°"; "–" where there is none. To the nearest centimetre or tenth of a degree. */
char *trn_words_gauge_value (TrnGauge gauge, double value);
/* "Hook height, Crawler crane north" */
char *trn_words_gauge_line (TrnGauge gauge, const char *gear);
/* "Hook height, Crawler crane north: 12.35 m", from such a line. */
char *trn_words_gauge_reading (TrnGauge gauge, const char *line, double value);

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
  TRN_N_GAUGE_LIMITS,
} TrnGaugeLimit;

/* "end of the table 18 m" */
char *trn_words_gauge_limit (TrnGaugeLimit limit, double value);

/* A linear scale that holds what goes from @least to @most: round steps in the units of the screen,
 * in metres or radians, growing; the first and the last are its ends. @texts receives owned
 * strings; the last has the unit. Returns how many there are, at least 2. */
#define TRN_MOST_GAUGE_TICKS 8
guint trn_words_gauge_ticks (gboolean angle, double least, double most,
                             double ticks[TRN_MOST_GAUGE_TICKS], char *texts[TRN_MOST_GAUGE_TICKS]);

/* Fixed texts of the room that shows the gear now, borrowed. */
typedef enum
{
  TRN_GEAR_NOW,
  TRN_GEAR_STRIP_LINES,
  TRN_GEAR_STRIP_LINES_HINT,
  TRN_GEAR_HEADROOM_LEFT,
  TRN_GEAR_SLEW,
  TRN_GEAR_ROPE,
  TRN_GEAR_NO_PLACE, /* the hook is beyond its reach */
  TRN_GEAR_NO_HOOK,  /* nothing says how far the hook is above its point */
  TRN_GEAR_RIGGING,  /* slings and beams of a hoist without gear */
  TRN_GEAR_WAITS,    /* the hoist does not hold the load in this move */
  TRN_N_GEAR_TEXTS,
} TrnGearText;

const char *trn_words_gear (TrnGearText text);
/* "Main hook: Crawler crane north"; without gear "Main hook". */
char *trn_words_hoist (gboolean is_tail, const char *gear);
/* "6 m to 18 m", "at least 6 m", "at most 18 m", of what is set; NULL where nothing is. */
char *trn_words_gauge_range (gboolean angle, double least, double most);

/* "tail swing, radius 4.2 m", rounded up; "barricade line, radius 6 m", rounded down. */
char *trn_words_tail_circle (double radius_m);
char *trn_words_barricade_circle (double radius_m);
