/* moment-worker.h: the distances at the moment one looks at, worked out on a thread of their own.
 *
 * The latest time wins: while one is worked out, those asked for in between are left out. */
#pragma once

#include "document.h"

/* What the check found in a lift, for any thread; it never changes. */
typedef struct _DeskKnown DeskKnown;
/* NULL where the check has not come to that lift. Holds no reference of the site. */
DeskKnown *desk_known_new (const TrnFindings *findings, guint run);
DeskKnown *desk_known_ref (DeskKnown *known);
void desk_known_unref (DeskKnown *known); /* NULL: nothing */
G_DEFINE_AUTOPTR_CLEANUP_FUNC (DeskKnown, desk_known_unref)
/* Of TrnFinding, all of that lift; NULL where @known is. */
const GArray *desk_known_findings (const DeskKnown *known);
/* By what moments of that lift tell the parts of gear apart; NULL where @known is. Made when it is
 * first asked for, which takes its time: for threads. */
const RenderJudge *desk_known_lay_out (DeskKnown *known, const TrnMoment *moment);
/* The same, where a moment was told with it. */
const RenderJudge *desk_known_judge (const DeskKnown *known);

typedef struct _DeskMomentWorker DeskMomentWorker;

/* Takes @moment, which belongs to @site and was judged by @known (NULL: before the check), both
 * borrowed. Called from the main loop; may be of a lift or
 * a site that one does not look at any more. */
typedef void (*DeskMomentFunc) (TrnMoment *moment, DeskKnown *known, DeskSite *site, gpointer data);

DeskMomentWorker *desk_moment_worker_new (DeskMomentFunc func, gpointer data);
/* Waits for the moment that is worked out. */
void desk_moment_worker_free (DeskMomentWorker *worker);
/* Asks for the moment at @time_s; a NULL @site lets go of the one that was kept. By @known, which
 * belongs to that site and lift (NULL: not checked yet), the parts of a gear are told apart. */
void desk_moment_worker_ask (DeskMomentWorker *worker, DeskSite *site, guint run, double time_s,
                             DeskKnown *known);
