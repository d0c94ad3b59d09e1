/* recent.h: the plans last opened, from the desktop's list of files last opened.
 *
 * The list is a file that any program writes (the Desktop Bookmark Specification). GLib takes it
 * apart; how much of it is read, and what of it is taken, is limited here. It needs no display. */
#pragma once

#include <gio/gio.h>

/* GTK keeps a thousand files, of some 600 bytes each. */
#define DESK_RECENT_MOST_BYTES ((gsize)8 << 20)

typedef struct
{
  char *uri;          /* of a plan in a local file */
  char *name, *place; /* that may be shown */
  gint64 time_s;      /* when it was opened */
} DeskRecent;

/* Where the desktop keeps the list. */
char *desk_recent_path_dup (void);

/* Whether the list can be read, or is not there yet: no more than may be read, and a plain file. */
gboolean desk_recent_is_fit (const char *path);

/* The plans in the text of a list, of DeskRecent, the last one first. Empty where it is none. */
GPtrArray *desk_recent_parse (const char *bytes, gsize length);

/* Those of the list at @path that are still there, at most @most. */
GPtrArray *desk_recent_read (const char *path, guint most);
