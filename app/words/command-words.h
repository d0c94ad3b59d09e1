/* command-words.h: the words of the command line: its help, the headings and lines of its table. */
#pragma once

#include "checks.h"

/* The help of the program, and of one command ("check", "compare" …); NULL for another.
 */
const char *trn_words_help (void);
const char *trn_words_command_help (const char *command);

typedef enum
{
  TRN_COLUMN_LIFT,
  TRN_COLUMN_MOVE,
  TRN_COLUMN_OBSTACLE,
  TRN_COLUMN_CLEARANCE,
  TRN_COLUMN_ALLOWANCE,
  TRN_COLUMN_KEEP,
  TRN_COLUMN_MARGIN,
  TRN_COLUMN_TIME,
  TRN_COLUMN_VERDICT,
  TRN_N_COLUMNS,
} TrnColumn;

/* A short heading; lengths are in metres. */
const char *trn_words_column (TrnColumn column);

/* What stands above the table: what was checked, and to which width. */
char *trn_words_table_title (const TrnPlan *plan, const TrnFindings *findings);
/* "3. Tilt 90° …"; of a finding that is about no single move, what it is about. */
char *trn_words_table_move (const TrnLiftRun *run, const TrnFinding *finding);
/* When it is closest, or when the contact begins. */
char *trn_words_table_time (const TrnFinding *finding);
/* "12 more lines …, 8 of them clearances" */
char *trn_words_table_more (guint n_lines, guint n_clearances);
/* The least margin of what is met, of a finding that has one in metres. */
char *trn_words_table_least (const TrnPlan *plan, const TrnLiftRun *run, const TrnFinding *finding);
/* That the swing circle of a move comes closer to these obstacles than the exact motion does;
 * @obstacles is a list, already fit to be shown. */
char *trn_words_table_notes (const TrnLiftRun *run, guint move, const char *obstacles);
/* The same of the tail swing of @crane and its barricade. */
char *trn_words_table_tail_notes (const char *crane, const TrnLiftRun *run, const char *obstacles);
/* How far the tail point comes below the centre of gravity in that move, a note of the load share,
 * and what is left on the main hook. */
char *
trn_words_table_share_note (const TrnPlan *plan, const TrnLiftRun *run, const TrnFinding *finding);
/* What the plan leaves out of @whose gear, and so was not looked at; @what is a list, fit to be
 * shown. */
char *trn_words_table_not_given (const char *whose, const TrnLiftRun *run, const char *what);
/* That of @n_lifts in the plan this one alone was checked. */
char *trn_words_lift_alone (const TrnLift *lift, guint n_lifts);
/* Where, when and between which points, as lines; of a finding with points. */
char *trn_words_where (const TrnPlan *plan, const TrnLiftRun *run, const TrnFinding *finding);

/* A finding that fails or is not known, in a paragraph: what it is about, and its sentence; it
 * stands for @n_more of the same. */
char *trn_words_fault (const TrnPlan *plan, const TrnLiftRun *run, const TrnFinding *finding,
                       guint n_more);
/* The same of a cause: what it is, and the @n_names things and @n_clearances clearances beside them
 * that are not known for it, in @n_lines lines. */
char *
trn_words_fault_cause (const TrnPlan *plan, const TrnLiftRun *run, const TrnFinding *finding,
                       const char *const *names, guint n_names, guint n_clearances, guint n_lines);
/* "… and 3 more lines that are not known for a cause that is named above" */
char *trn_words_table_repeated (guint n_lines);
/* "3 more causes …": paragraphs that are left out. */
char *trn_words_table_faults_left (guint n_left);

/* What @gear has in hand in that lift, as lines: the least headroom with what the height is made up
 * of, and each limit of its reach, with the moment. NULL: nothing of it is known. */
char *trn_words_table_hoist (const TrnGear *gear, const TrnLiftRun *run, const GArray *findings);

/* What hooks, gear, slings and the ground bear in that lift, what the wind does and how the load
 * rests: of each the worst of all moves with its moment, and what of it is not known. NULL: nothing
 * of it was looked at. */
char *trn_words_table_forces (const TrnPlan *plan, const TrnLiftRun *run, const GArray *findings);

/* What the findings of that lift are judged by: of each check its sources and rules, each once.
 * NULL: none of them names any. */
char *trn_words_table_sources (const TrnLiftRun *run, const GArray *findings);

/* A sentence over lines, the second and further ones indented by two. */
char *trn_words_indent (const char *sentence);

typedef enum
{
  TRN_PLACES_TIME,
  TRN_PLACES_HOOK_X,
  TRN_PLACES_HOOK_Y,
  TRN_PLACES_HOOK_Z,
  TRN_PLACES_X,
  TRN_PLACES_Y,
  TRN_PLACES_Z,
  TRN_PLACES_HEADING,
  TRN_PLACES_PITCH,
  TRN_PLACES_ROLL,
  TRN_PLACES_MOVE,
} TrnPlacesColumn;

/* A short heading of the table of places, in metres and degrees. */
const char *trn_words_places_column (TrnPlacesColumn column);
/* What stands above it: the lift, its component, and what the columns are. */
char *trn_words_places_title (const TrnLift *lift, const TrnComponent *component);
/* What stands for the move in its first line. */
const char *trn_words_places_start (void);

/* One line for a plan that can be checked. */
char *trn_words_valid (const TrnPlan *plan, guint n_warnings);

typedef enum
{
  TRN_STAGE_READING,
  TRN_STAGE_CHECKING,
  TRN_STAGE_DRAWING,
  TRN_STAGE_WRITING,
} TrnStage;

/* "Checking: 12 of 40" */
char *trn_words_progress (TrnStage stage, guint done, guint total);

/* @text in lines of at most @width characters, broken at spaces; owned. */
char *trn_words_wrap (const char *text, guint width);
