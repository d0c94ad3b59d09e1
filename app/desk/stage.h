/* stage.h: the view: the site in 3D, by OpenGL, with labels and marks over it. */
#pragma once

#include <gtk/gtk.h>

#include "session.h"

GtkWidget *desk_stage_new (DeskSession *session);
