/* confine.h: what the helper may ask of the kernel, once it has begun to read. */
#pragma once

#include <glib.h>

/* From here on this process only reads, and writes to @answer_fd alone. Where the kernel has rules
 * for folders (Landlock), it opens no file but @below_fd, or those below where that is a folder; −1
 * stands for none at all.
 * Returns TRN_STREAM_CONFINED_…; without TRN_STREAM_CONFINED_CALLS, @why (static) tells the reason.
 * Needs PR_SET_NO_NEW_PRIVS, which trn_helper_limits_set sets. */
guint32 trn_confine (int answer_fd, int below_fd, const char **why);
