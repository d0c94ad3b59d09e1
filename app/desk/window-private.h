/* window-private.h: what the files of the window share. */
#pragma once

#include "window.h"

/* How wide the rooms at the sides are in the letters of most desktops; window.ui has it too. */
#define DESK_SIDE_PX 312

struct _DeskWindow
{
  AdwApplicationWindow parent;
  DeskSession *session;
  gboolean shows_remarks;
  guint tick_id, update_id, n_measured, sides_id;
  int side_px; /* how wide the rooms at the sides are; 0: as they are made */
  gint64 last_frame_us;

  AdwWindowTitle *window_title;
  AdwToastOverlay *toasts;
  GtkRevealer *changed_bar, *left_out_bar;
  GtkLabel *changed_label, *left_out_label, *headline_label, *loading_label, *caution_label;
  GtkDrawingArea *work_bar, *loading_bar;
  GtkStack *pages, *rooms;
  GtkWidget *plan_bar, *plan_buttons, *open_button, *stop_button;
  GtkButton *check_button, *remarks_button, *faults_button;
  GtkPaned *view_paned;
  AdwFlap *sequence_flap, *nearest_flap;
  GtkWidget *side_buttons, *sequence_side, *sequence_button, *nearest_button;
  AdwBin *headline_mark_place, *sequence_place, *stage_place, *transport_place, *strip_place,
      *findings_place, *matrix_place, *nearest_place, *gear_place, *forces_place, *finding_place,
      *nearest_side;
  GtkWidget *fault_page, *headline_mark;
};

/* window-sides.c: the rooms at the sides. */
void desk_window_sides_bind (GtkWidgetClass *widget_class);
void desk_window_sides_add_actions (DeskWindow *window);
/* Another page is shown: what is at the sides follows when the main loop comes to it. */
void desk_window_sides_changed (DeskWindow *window);
