/* force-view.h: what the room of forces shows of a moment: a figure of the load with its forces, a
 * sketch of the rigging, and all of it as rows of text; no GTK. */
#pragma once

#include "force-figure.h"
#include "forces.h"
#include "gauges.h"

typedef struct
{
  char *label, *value, *more; /* owned; more may be NULL */
  char *said;                 /* instead of a label that the row above explains; NULL: the label */
  gboolean is_under;          /* belongs to the row above */
  gboolean is_found;          /* by the checks, for all of the lift */
} DeskForceRow;

typedef struct
{
  RenderForceFigure forces;
  RenderRiggingFigure rigging;
  GArray *force_rows, *rigging_rows; /* of DeskForceRow */
  char *force_note, *rigging_note;   /* what is left out and so not known; NULL: nothing */
  char *force_head, *rigging_head;   /* what kind of numbers they are, and from where it is seen */
  /* owned by the view */
  RenderPlanePoint outline[RENDER_HULL_MOST];
  RenderForce arrows[1 + DESK_MOST_HOISTS];
  RenderHookSketch hooks[DESK_MOST_HOISTS];
  GArray *legs[DESK_MOST_HOISTS]; /* of RenderLeg */
  GPtrArray *texts;
} DeskForceView;

/* At @time_s of the lift @run of @scene; @forces: those of that lift; @found: what the checks find
 * over all of it, for each of its hooks; NULL: nothing yet. Figures are seen from the side that is
 * nearer to that from which the site is seen along @sight_rad, a heading; NAN: from south-east. */
DeskForceView *desk_force_view_new (const TrnScene *scene, guint run, DeskForces *forces,
                                    const DeskFoundOfHoist *found, double time_s, double sight_rad);
void desk_force_view_free (DeskForceView *view);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (DeskForceView, desk_force_view_free)
