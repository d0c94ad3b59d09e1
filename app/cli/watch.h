/* watch.h: progress on a terminal, and Ctrl-C, while the engine works. */
#pragma once

#include "command-words.h"
#include "progress.h"

typedef struct _CliWatch CliWatch;

/* From now on Ctrl-C cancels the watch's progress (a second one ends the program at once), and on
 * a terminal one line of standard error shows how far the work is. One watch at a time. */
CliWatch *cli_watch_start (void);
/* Borrowed; hand it to the engine. */
TrnProgress *cli_watch_progress (CliWatch *watch);
/* Another stage begins: the count starts anew. */
void cli_watch_stage (CliWatch *watch, TrnStage stage);
/* How much of the stage is done. */
void cli_watch_tell (CliWatch *watch, guint done, guint total);
/* Takes the line away, frees the watch, and tells whether it was cancelled. From then on Ctrl-C is
 * ignored: only writing is left, which is short and should not leave a temporary file. */
gboolean cli_watch_stop (CliWatch *watch);
