/* chooser.h: the desktop's own file dialog, over a window and no longer than that. */
#pragma once

#include <gtk/gtk.h>

#include "session.h"

/* @file is borrowed. */
typedef void (*DeskChosen) (GFile *file, gpointer data);

/* Offers the name of the plan's file with @ending in place of its own. */
void
desk_chooser_set_name (GtkFileChooserNative *dialog, const char *base_name, const char *ending);

/* Shows @dialog, which is taken, in the folder of the plan that is open. @chosen is called when a
 * file was chosen, @free_data (or NULL) when the dialog goes: when it is answered, or with its
 * window. */
void desk_chooser_show_take (GtkFileChooserNative *dialog, DeskSession *session, DeskChosen chosen,
                             gpointer data, GDestroyNotify free_data);
