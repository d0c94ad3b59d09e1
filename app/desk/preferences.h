/* preferences.h: the window in which units, margins and looks are chosen. */
#pragma once

#include <gtk/gtk.h>

/* Over @parent, which may be NULL. */
GtkWidget *desk_preferences_show (GtkWindow *parent);
