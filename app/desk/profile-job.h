/* profile-job.h: distances over a whole lift, column after column, on a background thread. */
#pragma once

#include "moment-worker.h"
#include "session.h"

typedef struct _DeskProfileJob DeskProfileJob;

/* Begins with the lift @run. About 400 times, with the borders of moves among them, and a few of
 * each move however short. By @known (NULL: not checked yet) the parts of a gear are told apart. */
DeskProfileJob *desk_profile_job_start (DeskSite *site, guint run, DeskKnown *known);
/* Lets it end where it is, without waiting for it; what it has worked out stays. */
void desk_profile_job_stop (DeskProfileJob *job);
/* Gives it up where it still runs, without waiting for it. */
void desk_profile_job_free (DeskProfileJob *job);
/* How far it is; borrowed, as long as the job. Only what n_done says is worked out may be read. */
const DeskProfile *desk_profile_job_look (DeskProfileJob *job);
