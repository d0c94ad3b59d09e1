/* shortcuts.h: the window that lists every key, made from the tables that listen to them. */
#pragma once

#include <gtk/gtk.h>

/* Over @parent. */
GtkWidget *desk_shortcuts_show (GtkWindow *parent);
