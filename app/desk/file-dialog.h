/* file-dialog.h: asks for a plan, and takes one that is dropped. */
#pragma once

#include "window.h"

/* Lets the user choose a plan, which is then opened in @window. */
void desk_file_dialog_open_plan (DeskWindow *window);
/* A file that is dropped onto @window is opened in it. */
void desk_file_drop_add (DeskWindow *window);
