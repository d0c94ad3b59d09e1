/* strip-lines.h: the choice of further lines of the strip, as actions of a window and as a setting.
 */
#pragma once

#include <gio/gio.h>

#include "session.h"

/* One for each gauge, by the names of desk_gauge_action; each writes the setting. */
void desk_strip_lines_add_actions (GActionMap *map);
/* The setting is another one: the actions and the session follow. */
void desk_strip_lines_follow (GActionMap *map, DeskSession *session);
