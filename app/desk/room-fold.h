/* room-fold.h: a room under a title that folds. Beside the title stands what fails in the lift, of
 * what the room is about: nobody has to unfold it to learn that. */
#pragma once

#include <gtk/gtk.h>

#include "session.h"

/* An expander with @child. What it stands in scrolls to it when it is unfolded. */
GtkWidget *desk_fold_new (const char *title, GtkWidget *child);
gboolean desk_fold_is_open (GtkWidget *fold);
/* From now on it says what fails, or is not known, of those @checks in the lift that is shown. */
void desk_fold_follow (GtkWidget *fold, DeskSession *session, guint checks);
