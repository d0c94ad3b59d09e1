/* findings-table.h: all findings as a table that can be sorted and filtered. */
#pragma once

#include <gtk/gtk.h>

#include "session.h"

GtkWidget *desk_findings_table_new (DeskSession *session);
