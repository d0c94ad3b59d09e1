/* application.h: `trunnion-desk [PLAN …]`: a window for each plan. */
#pragma once

#include <adwaita.h>

#define DESK_TYPE_APPLICATION (desk_application_get_type ())
G_DECLARE_FINAL_TYPE (DeskApplication, desk_application, DESK, APPLICATION, AdwApplication)

DeskApplication *desk_application_new (void);
