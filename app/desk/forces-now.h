/* forces-now.h: what hooks and slings bear at the moment looked at, as a figure and as text. Folds;
 * not seen where the lift has no hoist. */
#pragma once

#include <gtk/gtk.h>

#include "session.h"

GtkWidget *desk_forces_now_new (DeskSession *session);
