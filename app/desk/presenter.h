/* presenter.h: presenting: the view alone, full screen, with the move in words, the clearance at
 * its closest, and keys only.
 *
 *   Right, Page Down, Space   plays the next move through, and stops at its end
 *   Left, Page Up             back to the beginning of the move, then to the one before
 *   P                         play or pause the move
 *   C, W                      closest moment of the move; worst finding of the lift
 *   1 … 6, F                  standard views; all of the site
 *   Esc                       leaves */
#pragma once

#include <adwaita.h>

#include "keys.h"
#include "session.h"

#define DESK_TYPE_PRESENTER (desk_presenter_get_type ())
G_DECLARE_FINAL_TYPE (DeskPresenter, desk_presenter, DESK, PRESENTER, GtkWindow)

/* Presents over @parent what it shows, seen as by @stage; the same again while it is there. */
DeskPresenter *desk_presenter_show (GtkWindow *parent, DeskSession *session, GtkWidget *stage);

/* The keys, to be listed. */
const DeskKeys *desk_presenter_get_keys (guint *n);
/* What a key does; FALSE where it means nothing. */
gboolean desk_presenter_key (DeskPresenter *presenter, guint key, GdkModifierType state);
/* The move in words on the screen: at its end it is still that one. */
guint desk_presenter_get_move (DeskPresenter *presenter);
gboolean desk_presenter_get_playing (DeskPresenter *presenter);
/* From where it looks, or where it is about to. */
RenderCamera desk_presenter_get_camera (DeskPresenter *presenter);
/* The keys are shown for a moment at first, and when a key means nothing; this ends it. */
void desk_presenter_hide_keys (DeskPresenter *presenter);
/* Whether they are there and their time runs. */
gboolean desk_presenter_counts_keys (DeskPresenter *presenter);
