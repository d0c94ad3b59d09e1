/* session.h: what one looks at: which lift, which moment, which finding, what is visible and how.
 *
 * The one place that every room of the window (sequence, view, nearest now, strip) reads and
 * changes; each follows the signals, so that all show the same moment. Nothing here is saved in the
 * plan. The pose always comes from the time; it is never added up.
 *
 * Signals:
 *   "site-changed"      another plan, or none
 *   "time-changed"      lift or time
 *   "moment-changed"    the distances at that time are there (worked out on a thread of their own)
 *   "profile-changed"   more of the curves of the strip is there
 *   "findings-changed"  the check has gone on
 *   "selection-changed" finding or body looked at
 *   "view-changed"      visibility, section, what is drawn, dark style, units
 *   "playing-changed"   playing, rate, loop
 *   "went-to-finding"   the moment is now that of the finding, so that one may look there */
#pragma once

#include "check.h"
#include "document.h"
#include "gauges.h"

#define DESK_TYPE_SESSION (desk_session_get_type ())
G_DECLARE_FINAL_TYPE (DeskSession, desk_session, DESK, SESSION, GObject)

DeskSession *desk_session_new (void);
DeskDocument *desk_session_get_document (DeskSession *session); /* borrowed, like all below */
DeskCheck *desk_session_get_check (DeskSession *session);
/* The site that is shown; NULL while there is none. */
DeskSite *desk_session_get_site (DeskSession *session);
/* The check's findings belong to another state of the plan than the one that is shown. */
gboolean desk_session_is_stale (DeskSession *session);

/* ---- lift and time ---- */

guint desk_session_get_run (DeskSession *session);
void desk_session_set_run (DeskSession *session, guint run);
const TrnLiftRun *desk_session_get_lift_run (DeskSession *session); /* NULL without a site */
double desk_session_get_time (DeskSession *session);     /* s from the start of the lift */
double desk_session_get_duration (DeskSession *session); /* 0 without a site */
/* Clamped to the lift. */
void desk_session_set_time (DeskSession *session, double time_s);
/* The move at that time, and the progress in it. */
guint desk_session_get_move (DeskSession *session, double *progress);
/* To the beginning of the move before (or of this one, when it has begun), or of the next one. */
void desk_session_previous_move (DeskSession *session);
void desk_session_next_move (DeskSession *session);
void desk_session_set_move (DeskSession *session, guint move);
/* By one step: a hundredth of the move. */
void desk_session_step (DeskSession *session, int steps);

gboolean desk_session_get_playing (DeskSession *session);
void desk_session_set_playing (DeskSession *session, gboolean playing);
double desk_session_get_rate (DeskSession *session); /* times real time, 0.1 … 100 */
void desk_session_set_rate (DeskSession *session, double rate);
gboolean desk_session_get_loop (DeskSession *session); /* over the move it is in */
void desk_session_set_loop (DeskSession *session, gboolean loop);
/* Called for every frame while playing, with the time that has passed since the last. */
void desk_session_advance (DeskSession *session, double elapsed_s);

/* ---- distances ---- */

/* The moment last worked out (its time may lag behind the time while it is dragged); NULL while
 * there is none. Borrowed until the next "moment-changed". */
const TrnMoment *desk_session_get_moment (DeskSession *session);

/* Distances over the whole lift, to draw the strip by: samples, not bounds. */
typedef struct
{
  guint n_times, n_obstacles, n_pairs; /* as in TrnMoment */
  const TrnObstacle *obstacles;
  const TrnMomentPair *pairs;
  guint n_done;          /* columns worked out so far */
  const double *times_s; /* in order, moves' borders among them */
  /* [time * n_pairs + pair]; of gear that of the part that stands worst, where that has no place of
   * those that have one; NAN where none has one, or it is not known where they are, or they are
   * connected */
  const double *distances_m;
  const double *spares_m; /* over what is to be kept, as in RenderPairNow; NAN where those are */
  guint n_gauges;
  const DeskGauge *gauges; /* all that there are of the lift */
  const double *values;    /* [time * n_gauges + gauge]; NAN where there is none */
} DeskProfile;

const DeskProfile *desk_session_get_profile (DeskSession *session); /* NULL while there is none */

/* Which gauges the strip shows besides: bits 1 << TrnGauge. */
guint desk_session_get_gauges (DeskSession *session);
void desk_session_set_gauges (DeskSession *session, guint gauges);

/* ---- selection ---- */

/* The finding looked at; NULL: none. It belongs to the check's findings. */
const TrnFinding *desk_session_get_finding (DeskSession *session);
/* Looks at @finding (NULL: at none): its lift, its closest moment when @go, its body selected. */
void desk_session_set_finding (DeskSession *session, const TrnFinding *finding, gboolean go);
/* The same at no other moment, where nobody has chosen it. */
void desk_session_offer_finding (DeskSession *session, const TrnFinding *finding);
#define DESK_ALL_LIFTS G_MAXUINT
/* The worst finding of a lift (DESK_ALL_LIFTS: of all), of a move of it (−1: all moves), to an
 * obstacle (NULL: all): one that fails, else one that is not known, else that with the least
 * margin. Clearances, without those of a load on its seat, and with all obstacles what else fails,
 * as headroom, and why clearances are not known; NULL where there is none.
 */
const TrnFinding *
desk_session_worst (DeskSession *session, guint run, int move, const char *obstacle);
/* A fault is worse than what is not known, that is worse than what is tight, and that than any
 * other margin; of each, off a seat comes last. @than may be NULL. The one order of all rooms: what
 * one of them calls tight no other hides behind a larger margin. */
gboolean
desk_finding_is_worse (DeskSession *session, const TrnFinding *finding, const TrnFinding *than);
/* The pair of the lift that is shown of which such a finding is, by the ids of its two bodies; −1:
 * none, as of two parts of gear, or while there is no profile. */
int desk_session_pair_of (DeskSession *session, const char *body, const char *obstacle);
/* The worst finding of a pair of the lift that is shown; as above. */
const TrnFinding *desk_session_worst_of_pair (DeskSession *session, guint pair);
/* The worst finding of these two bodies in the lift that is shown, whichever is named first. */
const TrnFinding *
desk_session_worst_of_bodies (DeskSession *session, const char *body, const char *obstacle);
/* Whether a finding is about these two bodies, whichever is named first. */
gboolean desk_finding_is_of (const TrnFinding *finding, const char *body, const char *obstacle);
/* What a pair is called: the obstacle, or "Crane A to pipe rack"; owned by the caller. */
char *desk_session_pair_name (DeskSession *session, guint pair);
/* The pair of what is selected: of the finding looked at where it is about that, else of the load
 * and it; −1: none. */
int desk_session_get_selected_pair (DeskSession *session);
/* Selects what stands there of a pair, or the gear where that is the load. */
void desk_session_select_pair (DeskSession *session, guint pair);
/* While "selection-changed" is told: somebody has chosen it, and did not only lose it, by a check
 * that begins anew or by another lift or plan. */
gboolean desk_session_is_chosen (DeskSession *session);
/* A body: "load", or "id/part" of what stands; NULL: none. */
const char *desk_session_get_selected (DeskSession *session);
void desk_session_set_selected (DeskSession *session, const char *body);

/* ---- what is drawn ---- */

/* Of items as counted in RenderSite. */
RenderVisibility desk_session_get_visibility (DeskSession *session, guint item);
void desk_session_set_visibility (DeskSession *session, guint item, RenderVisibility visibility);
/* Ghosts everything but that item; again: everything solid. */
void desk_session_isolate (DeskSession *session, guint item);
void desk_session_show_all (DeskSession *session);

typedef enum
{
  DESK_SHOW_PATHS = 1 << 0,
  DESK_SHOW_GHOSTS = 1 << 1,
  DESK_SHOW_SWING_CIRCLES = 1 << 2,
  DESK_SHOW_NEAREST = 1 << 3,
  DESK_SHOW_GRID = 1 << 4,
  DESK_SHOW_COMPASS = 1 << 5,
  DESK_SHOW_HUMAN = 1 << 6,
} DeskShow;

DeskShow desk_session_get_show (DeskSession *session);
void desk_session_set_show (DeskSession *session, DeskShow show);
RenderSection desk_session_get_section (DeskSession *session);
void desk_session_set_section (DeskSession *session, RenderSection section);
/* Switches the section off where it takes something away of the load on that move, or of where it
 * comes closest on it. */
void desk_session_uncover_move (DeskSession *session, guint move);
gboolean desk_session_get_dark (DeskSession *session);
void desk_session_set_dark (DeskSession *session, gboolean dark);
/* Heading of the direction that the site was last seen along, counter-clockwise from +X; NAN: it
 * was not seen yet. Told without a signal: it changes with every frame of a camera that moves. */
double desk_session_get_sight (DeskSession *session);
void desk_session_set_sight (DeskSession *session, double heading_rad);
double desk_session_get_tight (DeskSession *session); /* margin up to which it is tight, m */

void desk_session_set_tight (DeskSession *session, double tight_m);
/* Tells "view-changed" for something that is kept elsewhere, such as the units. */
void desk_session_tell_view_changed (DeskSession *session);

/* The state of the view, for render_site_view; what it points to is borrowed from the session. */
RenderSiteState desk_session_view_state (DeskSession *session);
