/* finding-card.h: the finding looked at, in words. */
#pragma once

#include <gtk/gtk.h>

#include "session.h"

GtkWidget *desk_finding_card_new (DeskSession *session);
