/* stage-words.c: what the 3D view says. */
#include "stage-words.h"

#include <glib/gi18n-lib.h>

/* What is less than half a millimetre is shown as nothing. */
#define LEAST_M 0.0005

#define LONGEST_NAME 60

static const char *const texts[TRN_N_STAGE_TEXTS] = {
  [TRN_STAGE_VIEW_NAME] = N_ ("3D view of the site"),
  [TRN_STAGE_VIEWS] = N_ ("Views"),
  [TRN_STAGE_PLAN] = N_ ("Plan"),
  [TRN_STAGE_NORTH] = N_ ("North"),
  [TRN_STAGE_EAST] = N_ ("East"),
  [TRN_STAGE_SOUTH] = N_ ("South"),
  [TRN_STAGE_WEST] = N_ ("West"),
  [TRN_STAGE_SOLID] = N_ ("3D"),
  [TRN_STAGE_FIT] = N_ ("Fit"),
  [TRN_STAGE_FIT_HINT] = N_ ("Show the whole lift"),
  [TRN_STAGE_PARALLEL] = N_ ("Parallel"),
  [TRN_STAGE_SECTION] = N_ ("Section"),
  [TRN_STAGE_SECTION_HINT] = N_ ("Cut the site open along a plane"),
  [TRN_STAGE_SECTION_ON] = N_ ("Cut open"),
  [TRN_STAGE_SECTION_PLANE] = N_ ("Plane"),
  [TRN_STAGE_SECTION_LEVEL] = N_ ("Level"),
  [TRN_STAGE_SECTION_EAST_WEST] = N_ ("Upright, east to west"),
  [TRN_STAGE_SECTION_NORTH_SOUTH] = N_ ("Upright, north to south"),
  [TRN_STAGE_SECTION_HEADING] = N_ ("Upright, by heading"),
  [TRN_STAGE_SECTION_AT_LEVEL] = N_ ("At z"),
  [TRN_STAGE_SECTION_AT_X] = N_ ("At x"),
  [TRN_STAGE_SECTION_AT_Y] = N_ ("At y"),
  [TRN_STAGE_SECTION_AT_HEADING] = N_ ("From the origin"),
  [TRN_STAGE_SECTION_BEARING] = N_ ("Runs toward"),
  [TRN_STAGE_SECTION_FLIP] = N_ ("Cut away the other side"),
  [TRN_STAGE_MEASURE] = N_ ("Measure"),
  [TRN_STAGE_MEASURE_HINT] = N_ ("Measure between two points"),
  [TRN_STAGE_MEASURE_FIRST] = N_ ("Choose the first point. Esc ends measuring."),
  [TRN_STAGE_MEASURE_SECOND] = N_ ("Choose the second point. Esc starts again."),
  [TRN_STAGE_MEASURE_CLEAR] = N_ ("Remove all measurements"),
  [TRN_STAGE_STRUCTURES] = N_ ("Structures"),
  [TRN_STAGE_STRUCTURES_HINT] = N_ ("Choose which structures and gear are shown"),
  [TRN_STAGE_NO_STRUCTURES] = N_ ("This plan has no structures."),
  [TRN_STAGE_GHOST] = N_ ("Ghost"),
  [TRN_STAGE_HIDE] = N_ ("Hide"),
  [TRN_STAGE_ISOLATE] = N_ ("Isolate"),
  [TRN_STAGE_SHOW_ALL] = N_ ("Show all"),
  [TRN_STAGE_NO_LIFT] = N_ ("No lift to show"),
  [TRN_STAGE_NO_LIFT_MORE]
  = N_ ("The programme of this plan is empty. Write a lift with its moves under “programme”, save "
        "the plan, and read it again."),
  [TRN_STAGE_NO_OPENGL] = N_ ("No 3D view"),
  [TRN_STAGE_NO_OPENGL_MORE] = N_ (
      "This computer offers no OpenGL 3.3, which the view needs. The sequence, the distances, the "
      "strip and the check work all the same."),
  [TRN_STAGE_STILL] = N_ ("Save a picture"),
  [TRN_STAGE_STILL_SAVE] = N_ ("Save"),
  [TRN_STAGE_STILL_SIZE] = N_ ("Size"),
  [TRN_STAGE_STILL_WIDTH] = N_ ("Width in pixels"),
  [TRN_STAGE_STILL_HEIGHT] = N_ ("Height in pixels"),
  [TRN_STAGE_STILL_SAVE_AS] = N_ ("Save as …"),
  [TRN_STAGE_STILL_SAVED] = N_ ("The picture is saved."),
  [TRN_STAGE_STILL_STOPPED] = N_ ("Stopped. No picture was saved."),
  [TRN_STAGE_STILL_CLEAN] = N_ ("Without labels and marks"),
  [TRN_STAGE_STILL_FAILED] = N_ ("The picture could not be saved"),
  [TRN_STAGE_STILL_NO_OPENGL] = N_ ("This computer offers no OpenGL to draw it by."),
  [TRN_STAGE_STILL_NOT_DRAWN] = N_ ("It could not be drawn at that size: choose a smaller one."),
  [TRN_STAGE_STILL_DRAWING] = N_ ("Drawing the picture"),
  [TRN_STAGE_STILL_WRITING] = N_ ("Writing the picture"),
  [TRN_STAGE_STILL_STOP] = N_ ("Stop"),
  [TRN_STAGE_STILL_STOP_HINT] = N_ ("Stop: no picture is saved (Esc)"),
  [TRN_STAGE_CLOSE] = N_ ("Close"),
  [TRN_STAGE_SAVED_VIEWS] = N_ ("Saved views"),
  [TRN_STAGE_SAVED_VIEWS_HINT] = N_ ("Views that the plan keeps"),
  [TRN_STAGE_NO_SAVED_VIEWS] = N_ ("This plan keeps no views yet."),
  [TRN_STAGE_SAVE_VIEW] = N_ ("Save this view …"),
  [TRN_STAGE_SAVE_VIEW_TITLE] = N_ ("Save this view"),
  [TRN_STAGE_SAVE_VIEW_MORE] = N_ ("The plan file keeps it under this name. The plan is written, "
                                   "read and checked again; its text is laid out anew, a value "
                                   "a line."),
  [TRN_STAGE_VIEW_CALLED] = N_ ("Name of the view"),
  [TRN_STAGE_RENAME_VIEW] = N_ ("Rename"),
  [TRN_STAGE_REMOVE_VIEW] = N_ ("Remove"),
  [TRN_STAGE_REMOVE_VIEW_MORE] = N_ ("The plan file loses this view. The plan is written, read and "
                                     "checked again."),
  [TRN_STAGE_VIEWS_NOT_WRITTEN] = N_ ("The plan was not written"),
  [TRN_STAGE_VIEWS_CHANGED]
  = N_ ("It was changed on disk since it was read, and that is left as it "
        "is. Read the plan again, then do this once more."),
  [TRN_STAGE_VIEWS_READ] = N_ ("Read it again"),
  [TRN_STAGE_UNIT_METRES] = N_ ("m"),
  [TRN_STAGE_UNIT_FEET] = N_ ("ft"),
};

const char *
trn_words_stage (TrnStageText text)
{
  g_assert (text < TRN_N_STAGE_TEXTS);
  return _ (texts[text]);
}

char *
trn_words_measure (double straight_m, double level_m, double vertical_m)
{
  char *straight = trn_words_length (straight_m);
  if (level_m < LEAST_M || vertical_m < LEAST_M)
    return straight;
  g_autofree char *first = straight;
  g_autofree char *level = trn_words_length (level_m);
  g_autofree char *vertical = trn_words_length (vertical_m);
  return g_strdup_printf (_ ("%s (%s level, %s vertical)"), first, level, vertical);
}

char *
trn_words_view_number (guint number)
{
  return g_strdup_printf (_ ("View %u"), number);
}

char *
trn_words_rename_view (const char *name)
{
  g_autofree char *clean = trn_words_clean (name, LONGEST_NAME);
  return g_strdup_printf (_ ("Rename “%s”"), clean);
}

char *
trn_words_remove_view (const char *name)
{
  g_autofree char *clean = trn_words_clean (name, LONGEST_NAME);
  return g_strdup_printf (_ ("Remove “%s”?"), clean);
}

const char *
trn_words_on (TrnOn on)
{
  switch (on)
    {
    case TRN_ON_NOTHING:
      return NULL;
    case TRN_ON_CUT:
      return _ ("On a cut face");
    case TRN_ON_FACE:
      return _ ("On a face");
    case TRN_ON_EDGE:
      return _ ("On an edge");
    case TRN_ON_CORNER:
      return _ ("On a corner");
    }
  g_assert_not_reached ();
}

char *
trn_words_picture_size (guint width, guint height)
{
  return g_strdup_printf (_ ("The view has %u × %u pixels."), width, height);
}

char *
trn_words_shown (const char *name, gboolean shown, gboolean ghost)
{
  if (!shown)
    return g_strdup_printf (_ ("%s: hidden"), name);
  return g_strdup_printf (ghost ? _ ("%s: ghosted") : _ ("%s: shown"), name);
}
