/* export.h: the findings for other programs: copied, or saved as CSV or as a results file. */
#pragma once

#include "window.h"

/* Adds "copy-findings", "export-csv" and "export-json" to the window. */
void desk_export_add_actions (DeskWindow *window);
/* They can be used when there are findings. */
void desk_export_update (DeskWindow *window);
