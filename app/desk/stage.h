/* stage.h: the view: the site in 3D, by OpenGL, with labels and marks over it.
 *
 * It follows the session and is drawn on demand only. Where there is no OpenGL it says so, and
 * nothing else is lost. Its keys work while it has the focus:
 *
 *   arrows                   turn
 *   Shift + arrows           pan
 *   Page Up, Page Down       nearer, farther (also Ctrl + and Ctrl −)
 *   Shift + Page Up, Down    move the section plane, with Ctrl too farther
 *   P, X                     another direction of it, the other side
 *   [ and ]                  select the previous, the next structure, or the load
 *   G, H, I, A               ghost, hide, isolate it; show all
 *   Menu, Shift + F10        the same as a menu
 * and while measuring: arrows move the cross (Ctrl: by a pixel, Alt: to the next corner that way),
 * Return takes a point, Delete removes the last measurement, Esc starts again, then leaves. Keys
 * for the actions below belong to the window. */
#pragma once

#include <gtk/gtk.h>

#include "camera.h"
#include "keys.h"
#include "session.h"

GtkWidget *desk_stage_new (DeskSession *session);

/* Adds to @map what the view can do. Without state: "view-plan" … "view-3d", "fit",
 * "zoom-in", "zoom-out", "turn" (string: "left", "right", "up", "down"), "pan" (the same), "still",
 * "stop-still", "save-view", "section-move" (string: "on", "back", "far-on",
 * "far-back"), "section-next", "section-over", "select-next", "select-previous", "ghost", "hide",
 * "isolate", "show-all", "clear-measures". With a boolean state: "parallel", "section", "measure".
 */
void desk_stage_add_actions (GtkWidget *stage, GActionMap *map);

/* Those keys, to be listed: "stage.…", and "measure.…" while measuring. */
const DeskKeys *desk_stage_get_keys (guint *n);

/* The view alone, without its buttons: for presenting. */
void desk_stage_set_bare (GtkWidget *stage, gboolean bare);
/* The buttons over the view, which may come up after it. */
GtkWidget *desk_stage_get_bar (GtkWidget *stage);

RenderCamera desk_stage_get_camera (GtkWidget *stage);
/* Looks from there at once. */
void desk_stage_set_camera (GtkWidget *stage, RenderCamera camera);

/* Goes to where the load is seen all through a move of this lift, and the closest points of that
 * move where its finding is the one looked at. */
void desk_stage_look_at_move (GtkWidget *stage, guint move);

/* What is measured is kept until another plan is opened. */
guint desk_stage_get_n_measures (GtkWidget *stage);
