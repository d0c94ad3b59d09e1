/* presenter-face.h: the words under the view while presenting, in letters for a hall. */
#pragma once

#include <gtk/gtk.h>

#include "session.h"

GtkWidget *desk_presenter_face_new (DeskSession *session);
/* Says what is to be said of @move of the session's lift, at the session's time. */
void desk_presenter_face_show (GtkWidget *face, guint move);
/* The keys, at the foot of the face: they cover nothing of the view. */
void desk_presenter_face_show_keys (GtkWidget *face, gboolean show);
/* What shows them; borrowed. */
GtkRevealer *desk_presenter_face_get_keys (GtkWidget *face);
/* Letters follow the size of the window. */
void desk_presenter_face_set_size (GtkWidget *face, int width, int height);
/* The texts as one reads them: caption, then state; borrowed. */
const char *desk_presenter_face_get_caption (GtkWidget *face);
const char *desk_presenter_face_get_state (GtkWidget *face);
