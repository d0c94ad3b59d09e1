/* actions.h: what the window can be told to do by menu, button and key. */
#pragma once

#include "keys.h"
#include "window.h"

/* Adds the window's own actions. Rooms add theirs. */
void desk_actions_add (DeskWindow *window);
/* The actions that can be used follow what is open. */
void desk_actions_update (DeskWindow *window);
/* Keys for the actions of every window. */
void desk_actions_set_keys (GtkApplication *application);
/* Keys without a modifier, which a text entry gets first. */
void desk_actions_add_plain_keys (GtkWidget *window);
/* All of them, to be listed: with a modifier or a function key, or @plain. */
const DeskKeys *desk_actions_get_keys (gboolean plain, guint *n);
