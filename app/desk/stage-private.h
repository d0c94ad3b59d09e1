/* stage-private.h: what the files of the view share. Not for others. */
#pragma once

#include <adwaita.h>

#include "probe.h"
#include "renderer.h"
#include "section.h"
#include "stage.h"
#include "stage-words.h"

#define DESK_TYPE_STAGE (desk_stage_get_type ())
G_DECLARE_FINAL_TYPE (DeskStage, desk_stage, DESK, STAGE, AdwBin)

/* Between two points, each of which may go with the load of one lift. */
typedef struct
{
  DeskAnchor from, to;
  guint run;
} DeskStageMeasure;

typedef struct _DeskCornerSearch DeskCornerSearch;

/* How the view goes on after a scroll: from where, and how fast at first. */
typedef struct
{
  RenderCamera from;
  TrnVec3 under; /* the point that was under the pointer */
  double x_px_s, y_px_s;
  gint64 begins_us;
} DeskStageDrift;

struct _DeskStage
{
  AdwBin parent;
  DeskSession *session;
  GSimpleActionGroup *actions;
  GtkStack *pages; /* "view", "no-lift" or "no-opengl" */
  gboolean has_no_opengl;
  gboolean is_bare; /* for presenting: no buttons, larger letters */
  GtkWidget *overlay, *area, *marks, *bar, *hint, *views;
  /* drawing */
  RenderRenderer *renderer; /* NULL without OpenGL, and while it was not begun */
  RenderDrawList *list;     /* NULL: to be made again */
  DeskProbe *probe;         /* the same */
  const char *told_view;    /* what the caption of the list says; static */
  gboolean told_parallel;
  gboolean moving;
  guint still_id, early_id, ready_id;
  /* a picture that is being written */
  struct _DeskStillJob *still_job; /* NULL: none */
  GtkWidget *still_panel, *still_bar, *still_note;
  guint still_note_id;
  /* camera */
  RenderCamera camera;
  gboolean has_camera; /* it has seen this site */
  gboolean is_close;   /* it looks at a part of the way, and nobody has turned it since */
  RenderCamera from, to;
  gint64 begins_us;
  guint tick_id;
  GFile *file; /* of the site that the camera has seen */
  /* pointer */
  double x, y;           /* where it is, or where keys have moved the cross */
  double told_x, told_y; /* where it was when it was told of last */
  TrnVec3 grabbed;
  double drag_x, drag_y; /* where it was last, while dragging */
  gboolean dragging, panning, dragged;
  gboolean scrolled_by_panning;
  DeskStageDrift drift;
  guint drift_id;
  /* two fingers: the point between them, where that was last, how far apart and turned */
  TrnVec3 pinched;
  double pinch_x, pinch_y, pinch, twist_rad;
  gboolean twisting;
  /* measuring */
  gboolean measuring, has_first;
  DeskAnchor first;
  guint first_run;
  DeskHit hover;
  GArray *measures; /* of DeskStageMeasure */
  DeskCornerSearch *corner_search;
  guint corner_id;
  /* section */
  DeskSectionPlane plane;
  gboolean has_plane;
};

/* ---- stage.c ---- */

RenderSize desk_stage_size (DeskStage *stage);
/* What is there, made when it is asked for; NULL without a site. */
const RenderDrawList *desk_stage_list (DeskStage *stage);
const DeskProbe *desk_stage_probe (DeskStage *stage);
/* Draws again; the list too when something else than the camera is another one. */
void desk_stage_redraw (DeskStage *stage, gboolean list_too);
/* The same, as one frame of many. */
void desk_stage_redraw_moving (DeskStage *stage, gboolean list_too);
TrnBox desk_stage_extent (DeskStage *stage);
/* Goes to @to in a short while, or at once where nothing is to be animated. */
void desk_stage_go (DeskStage *stage, RenderCamera to);
/* The site point under a screen point, never without one. */
TrnVec3 desk_stage_point_under (DeskStage *stage, double x, double y);
/* Says that a boolean action is in another state. */
void desk_stage_tell_state (DeskStage *stage, const char *action, gboolean state);

/* ---- the other files ---- */

void desk_stage_init_actions (DeskStage *stage);
void desk_stage_init_input (DeskStage *stage);
/* Scrolled by steps of a wheel, or by pixels of a touchpad, at the pointer. */
void desk_stage_scroll (DeskStage *stage, double dx, double dy, gboolean is_touchpad,
                        GdkModifierType state);
void desk_stage_stop_drift (DeskStage *stage);
/* The camera so long after the drift has begun; worked out from the time, never added up. */
RenderCamera desk_stage_drift_at (const DeskStageDrift *drift, RenderSize size, double elapsed_s);
GtkWidget *desk_stage_bar_new (DeskStage *stage);
GtkWidget *desk_stage_section_new (DeskStage *stage);
void desk_stage_toggle_section (DeskStage *stage);
/* Each shows the section, where there is something to be cut. */
void desk_stage_move_section (DeskStage *stage, double by_m); /* along its axis, within the site */
void desk_stage_turn_section_over (DeskStage *stage);
void desk_stage_next_section (DeskStage *stage); /* another direction */
/* The body at a screen point, by the id buffer: borrowed, or NULL. */
const char *desk_stage_pick (DeskStage *stage, double x, double y);
/* The structure body that is selected; FALSE where none is. */
gboolean desk_stage_selected_item (DeskStage *stage, guint *item);
/* Asks where to, and at what size. */
void desk_stage_save_still (DeskStage *stage);
/* Begins to write the view to the file @path, so many pixels large; FALSE without a site, and while
 * another is written.
 */
gboolean
desk_stage_write_still (DeskStage *stage, const char *path, int width, int height, gboolean clean);
/* FALSE where none is written. */
gboolean desk_stage_stop_still (DeskStage *stage);
/* The view goes: nothing is told any more. */
void desk_stage_abandon_still (DeskStage *stage);
GtkWidget *desk_stage_still_panel_new (DeskStage *stage);

/* ---- stage-look.c ---- */

/* Turns the camera so that the way of the load is seen as well as it can be. */
void desk_stage_look_first (DeskStage *stage);
/* Goes to where both points of the finding looked at are seen. */
void desk_stage_look_at_finding (DeskStage *stage);
/* The time is another one: where the load has left a close view that was gone to, and not chosen by
 * hand, all of its way is shown. */
void desk_stage_keep_load_in_view (DeskStage *stage);

/* ---- stage-measure.c ---- */

void desk_stage_set_measuring (DeskStage *stage, gboolean measuring);
void desk_stage_measure_hover (DeskStage *stage, double x, double y);
void desk_stage_measure_click (DeskStage *stage);
/* A key while measuring; FALSE where it means nothing. */
gboolean desk_stage_measure_key (DeskStage *stage, guint key, GdkModifierType state);
void desk_stage_stop_corner_search (DeskStage *stage);
void desk_stage_clear_measures (DeskStage *stage);
/* Adds lines and labels of what was measured. */
void desk_stage_measure_add (DeskStage *stage, RenderDrawList *list);
/* The cross and what it is on, over everything. */
void desk_stage_measure_draw (DeskStage *stage, cairo_t *cr);

/* ---- stage-views.c ---- */

/* The list of saved views, which belongs to @stage. */
GtkWidget *desk_stage_views_new (DeskStage *stage);
/* Asks for a name and saves the view in the plan. */
void desk_stage_save_view (DeskStage *stage);
