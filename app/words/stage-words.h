/* stage-words.h: what the 3D view says: its buttons, menus, hints and the labels of what was
 * measured. As in words.h: new strings are owned by the caller. */
#pragma once

#include "words.h"

/* Fixed texts, borrowed. */
typedef enum
{
  TRN_STAGE_VIEW_NAME, /* of the view, for a screen reader */
  TRN_STAGE_VIEWS,     /* of the row of standard views */
  TRN_STAGE_PLAN,
  TRN_STAGE_NORTH,
  TRN_STAGE_EAST,
  TRN_STAGE_SOUTH,
  TRN_STAGE_WEST,
  TRN_STAGE_SOLID,
  TRN_STAGE_FIT,
  TRN_STAGE_FIT_HINT,
  TRN_STAGE_PARALLEL,
  TRN_STAGE_SECTION,
  TRN_STAGE_SECTION_HINT,
  TRN_STAGE_SECTION_ON,
  TRN_STAGE_SECTION_PLANE,
  TRN_STAGE_SECTION_LEVEL,
  TRN_STAGE_SECTION_EAST_WEST,
  TRN_STAGE_SECTION_NORTH_SOUTH,
  TRN_STAGE_SECTION_HEADING,
  TRN_STAGE_SECTION_AT_LEVEL,
  TRN_STAGE_SECTION_AT_X,
  TRN_STAGE_SECTION_AT_Y,
  TRN_STAGE_SECTION_AT_HEADING,
  TRN_STAGE_SECTION_BEARING, /* of the plane, as the chosen headings call it */
  TRN_STAGE_SECTION_FLIP,
  TRN_STAGE_MEASURE,
  TRN_STAGE_MEASURE_HINT,
  TRN_STAGE_MEASURE_FIRST,
  TRN_STAGE_MEASURE_SECOND,
  TRN_STAGE_MEASURE_CLEAR,
  TRN_STAGE_STRUCTURES,
  TRN_STAGE_STRUCTURES_HINT,
  TRN_STAGE_NO_STRUCTURES,
  TRN_STAGE_GHOST,
  TRN_STAGE_HIDE,
  TRN_STAGE_ISOLATE,
  TRN_STAGE_SHOW_ALL,
  TRN_STAGE_NO_LIFT,
  TRN_STAGE_NO_LIFT_MORE,
  TRN_STAGE_NO_OPENGL,
  TRN_STAGE_NO_OPENGL_MORE,
  TRN_STAGE_STILL,
  TRN_STAGE_STILL_SAVE,
  TRN_STAGE_STILL_SIZE,
  TRN_STAGE_STILL_WIDTH,
  TRN_STAGE_STILL_HEIGHT,
  TRN_STAGE_STILL_SAVE_AS,
  TRN_STAGE_STILL_CLEAN,
  TRN_STAGE_STILL_SAVED,
  TRN_STAGE_STILL_STOPPED,
  TRN_STAGE_STILL_FAILED,
  TRN_STAGE_STILL_NO_OPENGL,
  TRN_STAGE_STILL_NOT_DRAWN,
  TRN_STAGE_STILL_DRAWING,
  TRN_STAGE_STILL_WRITING,
  TRN_STAGE_STILL_STOP,
  TRN_STAGE_STILL_STOP_HINT,
  TRN_STAGE_CLOSE,
  TRN_STAGE_SAVED_VIEWS,
  TRN_STAGE_SAVED_VIEWS_HINT,
  TRN_STAGE_NO_SAVED_VIEWS,
  TRN_STAGE_SAVE_VIEW,
  TRN_STAGE_SAVE_VIEW_TITLE,
  TRN_STAGE_SAVE_VIEW_MORE,
  TRN_STAGE_VIEW_CALLED, /* of the entry, for a screen reader */
  TRN_STAGE_RENAME_VIEW,
  TRN_STAGE_REMOVE_VIEW,
  TRN_STAGE_REMOVE_VIEW_MORE,
  TRN_STAGE_VIEWS_NOT_WRITTEN,
  TRN_STAGE_VIEWS_CHANGED,
  TRN_STAGE_VIEWS_READ,
  TRN_STAGE_UNIT_METRES,
  TRN_STAGE_UNIT_FEET,
  TRN_N_STAGE_TEXTS,
} TrnStageText;

const char *trn_words_stage (TrnStageText text);

/* "View 3": proposed for a view that is saved */
char *trn_words_view_number (guint number);
/* "Rename “Down the shaft”", "Remove “Down the shaft”?" */
char *trn_words_rename_view (const char *name);
char *trn_words_remove_view (const char *name);

/* "3.2 m (2 m level, 2.498 m vertical)"; only "3.2 m" where it is level or vertical as a whole. */
char *trn_words_measure (double straight_m, double level_m, double vertical_m);
/* "On a corner", "On an edge" …; NULL where there is nothing. */
typedef enum
{
  TRN_ON_NOTHING,
  TRN_ON_CUT,
  TRN_ON_FACE,
  TRN_ON_EDGE,
  TRN_ON_CORNER,
} TrnOn;
const char *trn_words_on (TrnOn on);
/* "2 ×, 2560 × 1440 pixels" */
char *trn_words_picture_size (guint width, guint height);
/* "Workshop, canopy: ghosted" */
char *trn_words_shown (const char *name, gboolean shown, gboolean ghost);
