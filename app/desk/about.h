/* about.h: the window about the program: licence, what is checked and what is not, cautions. */
#pragma once

#include <gtk/gtk.h>

/* Over @parent, which may be NULL. */
GtkWidget *desk_about_show (GtkWindow *parent);
