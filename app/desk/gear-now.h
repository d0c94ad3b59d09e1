/* gear-now.h: the gear of the lift at the moment looked at: heights, radii, angles and what is left
 * of them, for each hoist. Folds; not seen where the lift has no hoist. */
#pragma once

#include <gtk/gtk.h>

#include "session.h"

GtkWidget *desk_gear_now_new (DeskSession *session);
