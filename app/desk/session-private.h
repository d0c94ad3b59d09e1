/* session-private.h: what the files of the session share. Not for others. */
#pragma once

#include "moment-worker.h"
#include "profile-job.h"
#include "session.h"

/* What one looked at in a plan that cannot be shown any more, until it is put right. */
typedef struct _DeskLookedAt DeskLookedAt;
/* Which pair a finding is of, and the worst of each, worked out when it is first asked for. */
typedef struct _DeskPairIndex DeskPairIndex;

struct _DeskSession
{
  GObject parent;
  DeskDocument *document;
  DeskCheck *check;
  DeskSite *site;
  /* lift and time */
  guint run;
  double time_s, rate;
  gboolean playing, loop;
  /* distances */
  DeskMomentWorker *moment_worker;
  TrnMoment *moment;
  DeskKnown *moment_known; /* what that was judged by; NULL: before the check */
  DeskKnown *known; /* of the lift with index known_run, when it was last asked for; NULL: none */
  guint known_run;
  DeskProfileJob *profile_job;
  DeskProfileJob *next_profile_job; /* the same lift by what is known now; NULL: none */
  const DeskProfile *profile;       /* the job's, as it was told last */
  guint profile_id;
  DeskPairIndex *pair_index; /* NULL: to be made */
  /* what the check had to say when it was last told */
  DeskCheckState told_state;
  guint told_lifts;
  /* selection */
  const TrnFinding *finding;
  char *selected;
  gboolean is_chosen; /* while that is told: by somebody */
  /* what is drawn */
  RenderVisibility *visibility; /* of the site's items */
  int isolated;                 /* −1: none */
  DeskShow show;
  RenderSection section;
  guint gauges; /* bits 1 << TrnGauge */
  gboolean dark;
  double sight_rad; /* NAN: nothing was seen yet */
  double tight_m;
  DeskLookedAt *looked_at; /* NULL: of no plan */
  /* The plan was read again, and the finding looked at is to be found in the check that runs. */
  gboolean is_finding_sought;
};

typedef enum
{
  DESK_SESSION_SITE_CHANGED,
  DESK_SESSION_TIME_CHANGED,
  DESK_SESSION_MOMENT_CHANGED,
  DESK_SESSION_PROFILE_CHANGED,
  DESK_SESSION_FINDINGS_CHANGED,
  DESK_SESSION_SELECTION_CHANGED,
  DESK_SESSION_VIEW_CHANGED,
  DESK_SESSION_PLAYING_CHANGED,
  DESK_SESSION_WENT_TO_FINDING,
  DESK_SESSION_N_SIGNALS,
} DeskSessionSignal;

void desk_session_tell (DeskSession *session, DeskSessionSignal signal);

/* Distances of the lift and time that are set now. */
void desk_session_ask_for_moment (DeskSession *session);
void desk_session_start_profile (DeskSession *session);
/* Findings or pairs are other ones. */
void desk_session_forget_pair_index (DeskSession *session);
/* Changes lift and time, and lets everything follow. */
void desk_session_go_to (DeskSession *session, guint run, double time_s);
/* Looks at the worst of the lift that is shown. Tells nobody. */
void desk_session_look_at_worst (DeskSession *session);
/* Whether @finding is still one of the check's. */
gboolean desk_session_has_finding (DeskSession *session, const TrnFinding *finding);
