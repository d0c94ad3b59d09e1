/* key-words.c: what each key does. */
#include "key-words.h"

#include <glib/gi18n-lib.h>
#include <string.h>

static const char *const groups[TRN_N_KEY_GROUPS] = {
  [TRN_KEYS_VIEW] = N_ ("View"),
  [TRN_KEYS_TIME] = N_ ("Time"),
  [TRN_KEYS_STRIP] = N_ ("Lines of the strip"),
  [TRN_KEYS_TURNING] = N_ ("Turning the view, after a click into it"),
  [TRN_KEYS_SECTION] = N_ ("Moving the section, after a click into the view"),
  [TRN_KEYS_STRUCTURES] = N_ ("Structures, after a click into the view"),
  [TRN_KEYS_MEASURING] = N_ ("While measuring"),
  [TRN_KEYS_PLAN] = N_ ("Plan"),
  [TRN_KEYS_FINDINGS] = N_ ("Check and findings"),
  [TRN_KEYS_PRESENTING] = N_ ("While presenting"),
  [TRN_KEYS_PROGRAM] = N_ ("Program"),
};

static const struct
{
  const char *action;
  TrnKeyGroup group;
  const char *words;
} actions[] = {
  { "app.quit", TRN_KEYS_PROGRAM, N_ ("Quit") },
  { "app.new-window", TRN_KEYS_PROGRAM, N_ ("New window") },
  { "app.preferences", TRN_KEYS_PROGRAM, N_ ("Preferences") },
  { "win.show-help-overlay", TRN_KEYS_PROGRAM, N_ ("Keyboard shortcuts") },
  { "window.close", TRN_KEYS_PROGRAM, N_ ("Close the window") },
  { "win.open", TRN_KEYS_PLAN, N_ ("Open a plan") },
  { "win.reload", TRN_KEYS_PLAN, N_ ("Read the plan again") },
  { "win.show-files", TRN_KEYS_PLAN, N_ ("What was found in the mesh files") },
  { "win.close-plan", TRN_KEYS_PLAN, N_ ("Back to the start page") },
  { "win.next-lift", TRN_KEYS_PLAN, N_ ("Next lift") },
  { "win.previous-lift", TRN_KEYS_PLAN, N_ ("Lift before") },
  { "win.present", TRN_KEYS_PLAN, N_ ("Present") },
  { "win.still", TRN_KEYS_PLAN, N_ ("Save a picture of the view") },
  { "still.stop", TRN_KEYS_PLAN, N_ ("Stop saving the picture") },
  { "win.check", TRN_KEYS_FINDINGS, N_ ("Check again") },
  { "win.cancel-check", TRN_KEYS_FINDINGS, N_ ("Stop the check") },
  { "win.show-room::view", TRN_KEYS_FINDINGS, N_ ("Show the view") },
  { "win.show-room::findings", TRN_KEYS_FINDINGS, N_ ("Show the findings") },
  { "win.show-room::matrix", TRN_KEYS_FINDINGS, N_ ("Show the matrix") },
  { "win.show-sequence", TRN_KEYS_FINDINGS, N_ ("Show or hide the sequence") },
  { "win.show-nearest", TRN_KEYS_FINDINGS, N_ ("Show or hide what is nearest") },
  { "win.copy-findings", TRN_KEYS_FINDINGS, N_ ("Copy the findings") },
  { "win.export-csv", TRN_KEYS_FINDINGS, N_ ("Export the findings as CSV") },
  { "win.export-json", TRN_KEYS_FINDINGS, N_ ("Export the results as JSON") },
  { "win.play", TRN_KEYS_TIME, N_ ("Play or pause") },
  { "win.step-forward", TRN_KEYS_TIME, N_ ("One step on") },
  { "win.step-back", TRN_KEYS_TIME, N_ ("One step back") },
  { "win.next-move", TRN_KEYS_TIME, N_ ("To the next move") },
  { "win.previous-move", TRN_KEYS_TIME, N_ ("To the move before") },
  { "win.start-of-lift", TRN_KEYS_TIME, N_ ("To the start of the lift") },
  { "win.end-of-lift", TRN_KEYS_TIME, N_ ("To the end of the lift") },
  { "win.faster", TRN_KEYS_TIME, N_ ("Faster") },
  { "win.slower", TRN_KEYS_TIME, N_ ("Slower") },
  { "win.loop", TRN_KEYS_TIME, N_ ("Repeat this move") },
  { "win.closest", TRN_KEYS_TIME, N_ ("To the closest moment of the move") },
  { "win.worst", TRN_KEYS_TIME, N_ ("To the worst finding of all lifts") },
  { "win.strip-hook-height", TRN_KEYS_STRIP, N_ ("Hook heights in the strip, or not") },
  { "win.strip-radius", TRN_KEYS_STRIP, N_ ("Radii in the strip, or not") },
  { "win.strip-boom-angle", TRN_KEYS_STRIP, N_ ("Boom angles in the strip, or not") },
  { "win.strip-tip-above-hook", TRN_KEYS_STRIP, N_ ("Tips above hooks in the strip, or not") },
  { "win.strip-load-on-hook", TRN_KEYS_STRIP, N_ ("Loads on hooks in the strip, or not") },
  { "win.strip-tension", TRN_KEYS_STRIP, N_ ("Sling tensions in the strip, or not") },
  { "win.strip-capacity", TRN_KEYS_STRIP, N_ ("Capacity used in the strip, or not") },
  { "win.strip-pressure", TRN_KEYS_STRIP, N_ ("Ground pressures in the strip, or not") },
  { "win.strip-share", TRN_KEYS_STRIP, N_ ("Shares of the load in the strip, or not") },
  { "win.strip-wind", TRN_KEYS_STRIP, N_ ("Load aside by wind in the strip, or not") },
  { "win.fit", TRN_KEYS_VIEW, N_ ("Show all of the site") },
  { "win.view-plan", TRN_KEYS_VIEW, N_ ("From above") },
  { "win.view-north", TRN_KEYS_VIEW, N_ ("From the north") },
  { "win.view-east", TRN_KEYS_VIEW, N_ ("From the east") },
  { "win.view-south", TRN_KEYS_VIEW, N_ ("From the south") },
  { "win.view-west", TRN_KEYS_VIEW, N_ ("From the west") },
  { "win.view-3d", TRN_KEYS_VIEW, N_ ("View from a corner") },
  { "win.parallel", TRN_KEYS_VIEW, N_ ("Parallel or perspective") },
  { "win.section", TRN_KEYS_VIEW, N_ ("Section on or off") },
  { "win.measure", TRN_KEYS_VIEW, N_ ("Measure") },
  { "win.save-view", TRN_KEYS_VIEW, N_ ("Save this view in the plan") },
  { "win.clear-measures", TRN_KEYS_VIEW, N_ ("Remove all measurements") },
  { "stage.turn::left", TRN_KEYS_TURNING, N_ ("Turn left") },
  { "stage.turn::right", TRN_KEYS_TURNING, N_ ("Turn right") },
  { "stage.turn::up", TRN_KEYS_TURNING, N_ ("Turn up") },
  { "stage.turn::down", TRN_KEYS_TURNING, N_ ("Turn down") },
  { "stage.pan::left", TRN_KEYS_TURNING, N_ ("Move left") },
  { "stage.pan::right", TRN_KEYS_TURNING, N_ ("Move right") },
  { "stage.pan::up", TRN_KEYS_TURNING, N_ ("Move up") },
  { "stage.pan::down", TRN_KEYS_TURNING, N_ ("Move down") },
  { "stage.zoom-in", TRN_KEYS_TURNING, N_ ("Nearer") },
  { "stage.zoom-out", TRN_KEYS_TURNING, N_ ("Farther") },
  { "stage.section-move::on", TRN_KEYS_SECTION, N_ ("Up, north or east by 0.1 m") },
  { "stage.section-move::back", TRN_KEYS_SECTION, N_ ("Down, south or west by 0.1 m") },
  { "stage.section-move::far-on", TRN_KEYS_SECTION, N_ ("Up, north or east by 1 m") },
  { "stage.section-move::far-back", TRN_KEYS_SECTION, N_ ("Down, south or west by 1 m") },
  { "stage.section-next", TRN_KEYS_SECTION, N_ ("Another direction") },
  { "stage.section-over", TRN_KEYS_SECTION, N_ ("Cut away the other side") },
  { "stage.select-next", TRN_KEYS_STRUCTURES, N_ ("Select the next structure, or the load") },
  { "stage.select-previous", TRN_KEYS_STRUCTURES, N_ ("Select the one before") },
  { "stage.ghost", TRN_KEYS_STRUCTURES, N_ ("Ghost it, or make it solid") },
  { "stage.hide", TRN_KEYS_STRUCTURES, N_ ("Hide or show it") },
  { "stage.isolate", TRN_KEYS_STRUCTURES, N_ ("Ghost all others") },
  { "stage.show-all", TRN_KEYS_STRUCTURES, N_ ("Show all") },
  { "stage.menu", TRN_KEYS_STRUCTURES, N_ ("Menu of the structure") },
  { "measure.across", TRN_KEYS_MEASURING, N_ ("Move the cross left or right") },
  { "measure.upward", TRN_KEYS_MEASURING, N_ ("Move the cross up or down") },
  { "measure.across-little", TRN_KEYS_MEASURING, N_ ("The same by one pixel") },
  { "measure.upward-little", TRN_KEYS_MEASURING, N_ ("The same by one pixel") },
  { "measure.corner", TRN_KEYS_MEASURING, N_ ("To the next corner that way") },
  { "measure.take-point", TRN_KEYS_MEASURING, N_ ("Take the point") },
  { "measure.remove-last", TRN_KEYS_MEASURING, N_ ("Remove the last measurement") },
  { "measure.leave", TRN_KEYS_MEASURING, N_ ("Begin again, then leave") },
  { "present.next", TRN_KEYS_PRESENTING, N_ ("Play the next move") },
  { "present.previous", TRN_KEYS_PRESENTING, N_ ("Back to the move before") },
  { "present.play", TRN_KEYS_PRESENTING, N_ ("Play or pause the move") },
  { "present.closest", TRN_KEYS_PRESENTING, N_ ("Closest moment of the move") },
  { "present.worst", TRN_KEYS_PRESENTING, N_ ("Worst finding of the lift") },
  { "present.view-plan", TRN_KEYS_PRESENTING, N_ ("From above") },
  { "present.view-north", TRN_KEYS_PRESENTING, N_ ("From the north") },
  { "present.view-east", TRN_KEYS_PRESENTING, N_ ("From the east") },
  { "present.view-south", TRN_KEYS_PRESENTING, N_ ("From the south") },
  { "present.view-west", TRN_KEYS_PRESENTING, N_ ("From the west") },
  { "present.view-3d", TRN_KEYS_PRESENTING, N_ ("View from a corner") },
  { "present.fit", TRN_KEYS_PRESENTING, N_ ("Show all of the site") },
  { "present.leave", TRN_KEYS_PRESENTING, N_ ("Leave") },
};

const char *
trn_words_key_section (TrnKeySection section)
{
  switch (section)
    {
    case TRN_KEY_SECTION_VIEW:
      return _ ("View and time");
    case TRN_KEY_SECTION_IN_VIEW:
      return _ ("In the view");
    case TRN_KEY_SECTION_PLAN:
      return _ ("Plan and program");
    }
  g_assert_not_reached ();
}

const char *
trn_words_key_group (TrnKeyGroup group)
{
  g_assert (group < TRN_N_KEY_GROUPS);
  return _ (groups[group]);
}

const char *
trn_words_action (const char *action, TrnKeyGroup *group)
{
  for (guint i = 0; i < G_N_ELEMENTS (actions); i++)
    if (strcmp (actions[i].action, action) == 0)
      {
        if (group != NULL)
          *group = actions[i].group;
        return _ (actions[i].words);
      }
  return NULL;
}
