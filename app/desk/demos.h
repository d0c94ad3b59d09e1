/* demos.h: the plans that come with the program. */
#pragma once

#include <gio/gio.h>

/* Names of the demos in the order in which they are shown, NULL-terminated: folder and file are
 * called so. */
const char *const *desk_demos_names (void);
/* The plan of a demo; NULL where it is not installed or the name is unknown. Owned by the caller.
 */
GFile *desk_demos_find (const char *name);
