/* start-page.h: what the window shows while no plan is open: open one, one of the last, or a demo.
 */
#pragma once

#include <adwaita.h>

#define DESK_TYPE_START_PAGE (desk_start_page_get_type ())
G_DECLARE_FINAL_TYPE (DeskStartPage, desk_start_page, DESK, START_PAGE, AdwBin)

/* Works by the actions "win.open", "win.open-uri" and "win.open-demo" of the window it is in. */
GtkWidget *desk_start_page_new (void);
