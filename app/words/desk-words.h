/* desk-words.h: what the rooms of the desk say: sequence, nearest now, finding, strip, transport.
 *
 * As in words.h: new strings are owned by the caller, names are made fit to be shown, clearances
 * are rounded down and what is needed or missing is rounded up. */
#pragma once

#include "words.h"

/* Fixed texts, borrowed. */
typedef enum
{
  TRN_DESK_SEQUENCE,
  TRN_DESK_LIFT,
  TRN_DESK_FINDING,
  TRN_DESK_GO_THERE,
  TRN_DESK_SHOW_POINTS,
  TRN_DESK_WORST,
  TRN_DESK_WORST_HINT,
  TRN_DESK_PLAY,
  TRN_DESK_PAUSE,
  TRN_DESK_STEP_BACK,
  TRN_DESK_STEP_FORWARD,
  TRN_DESK_PREVIOUS_MOVE,
  TRN_DESK_NEXT_MOVE,
  TRN_DESK_LOOP,
  TRN_DESK_RATE,
  TRN_DESK_STRIP,
  TRN_DESK_NOT_CHECKED,
  TRN_DESK_NOT_KNOWN, /* a check ran, and could not know */
  TRN_DESK_MEETS,     /* of a moment */
  TRN_DESK_CHECKING,
  TRN_DESK_CANCELLED,
  TRN_DESK_STALE,
  TRN_DESK_MARGINS,     /* what the numbers of the sequence are */
  TRN_DESK_NO_PLAN,     /* sequence, strip and nearest now without a plan */
  TRN_DESK_NO_LIFT,     /* the same with a plan whose programme has none */
  TRN_DESK_NO_OBSTACLE, /* nothing stands beside the lift */
  TRN_DESK_NO_FINDING,  /* none is looked at */
  TRN_DESK_MEASURING,   /* the distances are being worked out */
  TRN_DESK_SEATED,
  TRN_DESK_PLANNING_AID,
  TRN_DESK_TOUCHING,
  TRN_N_DESK_TEXTS,
} TrnDeskText;

const char *trn_words_desk (TrnDeskText text);

/* What a distance at one moment amounts to. */
typedef enum
{
  TRN_NOW_INSIDE,
  TRN_NOW_CUTTING,
  TRN_NOW_TOUCHING,
  TRN_NOW_SHORT,
  TRN_NOW_TIGHT,
  TRN_NOW_CLEAR,
} TrnNow;

/* "Inside", "Cuts in", "Touching", "Short", "Tight", "Clear"; borrowed. */
const char *trn_words_now_word (TrnNow now);
/* "Touching", "Short by 0.42 m", "Tight, 0.05 m to spare", "Clear, 3.1 m"; with the distance of the
 * surfaces "Inside, 0.42 m from the surface"; "Cuts into it" */
char *trn_words_now (TrnNow now, double distance_m, double required_m);
/* The same of a finding: "Tight, 0.05 m to spare" where it is, else trn_words_finding. */
char *trn_words_finding_title (const TrnFinding *finding, gboolean tight);
/* "In contact", which is touching or more, or "Inside": of a finding; borrowed. */
const char *trn_words_contact (TrnInside inside);
/* "BEYOND, move 3": a word for a finding, and the move that it is of; below 0: of none. */
char *trn_words_in_move (const char *word, int move);

/* The name of a body: "Workshop, canopy" for "workshop/canopy", the component for "load" with its
 * index. A body that the plan does not have is called by its id. */
char *trn_words_body_name (const TrnPlan *plan, const char *body);
/* The same in two: "Workshop" and ", canopy", or "" for a body that is no part. */
void trn_words_body_names (const TrnPlan *plan, const char *body, char **whole, char **part);
/* The same in no more than @max characters, if it can be: the whole gives way at its end, so that
 * two parts of it are told apart. */
char *trn_words_body_name_cut (const TrnPlan *plan, const char *body, guint max);
/* The same of what a finding is about: "Workshop, canopy (seat)"; "–" where it is about none.
 * @max as above, or 0 for all of it. */
char *trn_words_obstacle_name (const TrnPlan *plan, const TrnFinding *finding, guint max);
char *trn_words_load_name (const TrnPlan *plan, guint component);

/* "45 min", "2 h 10 min", "7.5 s": a time without idle seconds. */
char *trn_words_duration (double time_s);
/* "1:27:10" of: "of 2:10:00" */
char *trn_words_of_total (double total_s);
/* "20 × real time", "20 ×" */
char *trn_words_rate (double rate);
char *trn_words_rate_short (double rate);
/* "At 1 h 27 min 10 s" */
char *trn_words_at (double time_s);
/* "tilted 63.4° since the start": a load that is up-ended stands upright after 90°. */
char *trn_words_tilt (double tilt_rad);
/* "Hold: check stands" */
char *trn_words_hold (const char *hold_point);
/* "to be kept 0.5 m", "keep 0.5 m" */
char *trn_words_to_be_kept (double required_m);
char *trn_words_keep (double required_m);
/* "3 tilt" */
char *trn_words_move_short (const TrnLift *lift, guint move);
/* "Lift 2: North leaf …" */
char *trn_words_lift_title (const TrnLift *lift, guint run);
/* "Seated" or the margin rounded down: what a row of the sequence shows. */
char *trn_words_margin (const TrnFinding *finding);

/* "1:27:10: Pump house about 0.318 m, keep 0.5 m": between the moments that a strip has, a line is
 * straight. @obstacle is fit to be shown. */
char *trn_words_reading (double time_s, const char *obstacle, double distance_m, double required_m,
                         double allowance_m);

/* Whether anything is known of how close it comes. */
gboolean trn_words_has_bounds (const TrnFinding *finding);
/* "least 0.318 m … 0.319 m, keep 0.5 m" */
char *trn_words_bounds (const TrnFinding *finding);
/* The same with what is taken off before what is to be kept. */
char *trn_words_bounds_less (const TrnFinding *finding);
/* "Drawing lines … 40 %", rounded down. */
char *trn_words_drawing_lines (double done);
/* "of the lift: SHORT, move 7", beside the title of what is shown now. */
char *trn_words_of_lift (const TrnFinding *finding);
/* "0.034 m taken off for tolerances"; NULL where nothing is. */
char *trn_words_allowance (const TrnFinding *finding);
/* What a column has of it: 0 where it is but the rounding of numbers in a mesh file. */
double trn_words_allowance_m (const TrnFinding *finding);
/* "at 1 h 27 min 10 s, 63 % into move 3", or "at the start of move 3", "at the end of move 3"; with
 * @ends_m (the lesser clearance of the two end positions of the move, NAN where the least is at an
 * end) it goes on with a sentence that says so. */
char *trn_words_when (const TrnFinding *finding, double ends_m);
/* "Load to pump house": of what the finding speaks. */
char *trn_words_between (const char *load, const char *obstacle);

/* What a screen reader says of a row. */
char *trn_words_move_row (const char *move, const TrnFinding *finding, gboolean tight);

/* The ticks of a scale of distances from 0 to 20 m (0 to 60 feet), round in the units of the
 * screen. @texts receives owned strings. Returns how many there are. */
#define TRN_MOST_TICKS 12
guint trn_words_distance_ticks (double ticks_m[TRN_MOST_TICKS], char *texts[TRN_MOST_TICKS]);
