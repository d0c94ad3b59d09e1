/* fault-page.h: everything that was found when the plan was read, with its place: how grave by mark
 * and word. */
#pragma once

#include <adwaita.h>

#include "session.h"

#define DESK_TYPE_FAULT_PAGE (desk_fault_page_get_type ())
G_DECLARE_FINAL_TYPE (DeskFaultPage, desk_fault_page, DESK, FAULT_PAGE, AdwBin)

/* Works by the actions "win.reload", "win.open", "win.copy-faults",
 * "win.back-to-open" and "win.show-plan". */
GtkWidget *desk_fault_page_new (DeskSession *session);
/* All of it as text, a line each; owned by the caller. */
char *desk_fault_page_text_dup (DeskFaultPage *page);
