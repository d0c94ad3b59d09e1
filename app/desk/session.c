/* session.c: the state of the desk. It follows the document, lets the check and the workers run,
 * and tells everyone.
 *
 * Nothing is worked out here: moments and profiles come from their threads, verdicts from the
 * check. The moment that is told may lag behind the time; both say which time they are of. */
#include "session-private.h"

#include <string.h>

#define PROFILE_LOOK_MS 60
#define RATE_AT_FIRST 20
#define TIGHT_AT_FIRST_M 0.1

static const char *const signal_names[DESK_SESSION_N_SIGNALS]
    = { "site-changed",    "time-changed",     "moment-changed",
        "profile-changed", "findings-changed", "selection-changed",
        "view-changed",    "playing-changed",  "went-to-finding" };
static guint signals[DESK_SESSION_N_SIGNALS];

G_DEFINE_FINAL_TYPE (DeskSession, desk_session, G_TYPE_OBJECT)

void
desk_session_tell (DeskSession *session, DeskSessionSignal signal)
{
  g_signal_emit (session, signals[signal], 0);
}

/* ---- distances ---- */

static void
forget_moment (DeskSession *session)
{
  g_clear_pointer (&session->moment, trn_moment_free);
  g_clear_pointer (&session->moment_known, desk_known_unref);
}

static void
on_moment_take (TrnMoment *moment, DeskKnown *known, DeskSite *site, gpointer data)
{
  DeskSession *session = data;
  if (site != session->site || moment->run != desk_session_get_lift_run (session))
    {
      trn_moment_free (moment);
      return;
    }
  forget_moment (session);
  session->moment = moment;
  /* What the check has let go of while it was worked out says nothing any more. */
  if (known != NULL && known == session->known)
    session->moment_known = desk_known_ref (known);
  desk_session_tell (session, DESK_SESSION_MOMENT_CHANGED);
}

/* What the check has found in the lift that is shown; NULL: it has not come to it, or is of another
 * site still. */
static DeskKnown *
look_at_known (DeskSession *session)
{
  if (session->known_run != session->run || desk_check_get_site (session->check) != session->site)
    g_clear_pointer (&session->known, desk_known_unref);
  session->known_run = session->run;
  if (session->known == NULL && desk_check_get_site (session->check) == session->site)
    session->known = desk_known_new (desk_check_get_findings (session->check), session->run);
  return session->known;
}

void
desk_session_ask_for_moment (DeskSession *session)
{
  DeskSite *site = desk_session_get_lift_run (session) != NULL ? session->site : NULL;
  desk_moment_worker_ask (session->moment_worker, site, session->run, session->time_s,
                          site != NULL ? look_at_known (session) : NULL);
}

static void
stop_profile (DeskSession *session)
{
  g_clear_handle_id (&session->profile_id, g_source_remove);
  desk_session_forget_pair_index (session);
  session->profile = NULL;
  g_clear_pointer (&session->profile_job, desk_profile_job_free);
  g_clear_pointer (&session->next_profile_job, desk_profile_job_free);
}

/* What is judged anew takes the place of what is shown when it has come as far: the lines do not
 * vanish and come again. */
static gboolean
take_next_profile (DeskSession *session)
{
  if (session->next_profile_job == NULL
      || desk_profile_job_look (session->next_profile_job)->n_done < session->profile->n_done)
    return FALSE;
  desk_session_forget_pair_index (session);
  desk_profile_job_free (session->profile_job);
  session->profile_job = g_steal_pointer (&session->next_profile_job);
  return TRUE;
}

static gboolean
on_profile_look (gpointer data)
{
  DeskSession *session = data;
  const guint before = session->profile->n_done;
  const gboolean is_other = take_next_profile (session);
  session->profile = desk_profile_job_look (session->profile_job);
  const gboolean is_done
      = session->profile->n_done == session->profile->n_times && session->next_profile_job == NULL;
  if (is_done)
    session->profile_id = 0;
  if (is_other || session->profile->n_done > before)
    desk_session_tell (session, DESK_SESSION_PROFILE_CHANGED);
  return is_done ? G_SOURCE_REMOVE : G_SOURCE_CONTINUE;
}

void
desk_session_start_profile (DeskSession *session)
{
  stop_profile (session);
  if (desk_session_get_lift_run (session) == NULL)
    return;
  session->profile_job
      = desk_profile_job_start (session->site, session->run, look_at_known (session));
  session->profile = desk_profile_job_look (session->profile_job);
  session->profile_id = g_timeout_add (PROFILE_LOOK_MS, on_profile_look, session);
}

static void
judge_profile_anew (DeskSession *session)
{
  if (session->profile_job == NULL)
    return;
  g_clear_pointer (&session->next_profile_job, desk_profile_job_free);
  desk_profile_job_stop (session->profile_job);
  session->next_profile_job
      = desk_profile_job_start (session->site, session->run, look_at_known (session));
  if (session->profile_id == 0)
    session->profile_id = g_timeout_add (PROFILE_LOOK_MS, on_profile_look, session);
}

/* The check has begun anew, or has come to the lift that is shown: with what it found another part
 * of a gear may be the one that stands worst. Until that is worked out, the moment is what it was
 * worked out as, but for findings that are gone. */
static void
judge_anew (DeskSession *session)
{
  const gboolean was_known = session->known != NULL;
  const gboolean is_known = desk_check_get_lift (session->check, session->run) != NULL;
  if (was_known == is_known)
    return;
  g_clear_pointer (&session->known, desk_known_unref);
  if (!is_known)
    g_clear_pointer (&session->moment_known, desk_known_unref);
  desk_session_ask_for_moment (session);
  judge_profile_anew (session);
}

const TrnMoment *
desk_session_get_moment (DeskSession *session)
{
  return session->moment;
}

const DeskProfile *
desk_session_get_profile (DeskSession *session)
{
  return session->profile;
}

/* ---- document and check ---- */

DeskDocument *
desk_session_get_document (DeskSession *session)
{
  return session->document;
}

DeskCheck *
desk_session_get_check (DeskSession *session)
{
  return session->check;
}

DeskSite *
desk_session_get_site (DeskSession *session)
{
  return session->site;
}

gboolean
desk_session_is_stale (DeskSession *session)
{
  if (desk_check_get_findings (session->check) == NULL)
    return FALSE;
  return desk_check_get_site (session->check) != session->site
         || desk_document_is_changed_on_disk (session->document);
}

/* The lift called as the one looked at; the first where there is none. */
static guint
find_run (const DeskSite *site, const char *lift_id)
{
  const TrnProgramme *programme = site->scene->programme;
  for (guint i = 0; i < programme->n_runs; i++)
    if (strcmp (programme->runs[i].lift->id, lift_id) == 0)
      return i;
  return 0;
}

struct _DeskLookedAt
{
  char *file, *lift_id, *selected; /* owned */
  /* the finding, when there was one; a lift that is NULL: none */
  char *finding_lift_id, *finding_body, *finding_obstacle, *finding_item; /* owned */
  TrnCheckKind finding_check;
  int finding_move;
  double time_s;
  RenderSection section;
  GHashTable *by_id; /* the visibility of bodies by their ids, owned */
};

static void
looked_at_free (DeskLookedAt *at)
{
  g_free (at->file);
  g_free (at->lift_id);
  g_free (at->selected);
  g_free (at->finding_lift_id);
  g_free (at->finding_body);
  g_free (at->finding_obstacle);
  g_free (at->finding_item);
  g_hash_table_unref (at->by_id);
  g_free (at);
}

static void
note_finding (DeskLookedAt *at, const DeskSite *site, const TrnFinding *finding)
{
  at->finding_lift_id = g_strdup (site->scene->programme->runs[finding->lift].lift->id);
  at->finding_body = g_strdup (finding->body);
  at->finding_obstacle = g_strdup (finding->obstacle);
  at->finding_item = g_strdup (finding->item);
  at->finding_check = finding->check;
  at->finding_move = finding->move;
}

/* What was not found again yet is looked for still. */
static void
hand_finding_on (DeskLookedAt *at, const DeskLookedAt *before)
{
  at->finding_lift_id = g_strdup (before->finding_lift_id);
  at->finding_body = g_strdup (before->finding_body);
  at->finding_obstacle = g_strdup (before->finding_obstacle);
  at->finding_item = g_strdup (before->finding_item);
  at->finding_check = before->finding_check;
  at->finding_move = before->finding_move;
}

static DeskLookedAt *
looked_at_new (DeskSession *session, const DeskSite *site, const RenderVisibility *visibility)
{
  DeskLookedAt *at = g_new0 (DeskLookedAt, 1);
  const TrnProgramme *programme = site->scene->programme;
  at->file = g_strdup (site->plan->file);
  if (session->run < programme->n_runs)
    at->lift_id = g_strdup (programme->runs[session->run].lift->id);
  at->selected = g_strdup (session->selected);
  at->time_s = session->time_s;
  at->section = session->section;
  if (session->finding != NULL)
    note_finding (at, site, session->finding);
  else if (session->is_finding_sought)
    hand_finding_on (at, session->looked_at);
  at->by_id = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  for (guint i = 0; i < site->display->n_items; i++)
    g_hash_table_insert (at->by_id, g_strdup (render_site_item_id (site->display, i)),
                         GINT_TO_POINTER (visibility[i]));
  return at;
}

/* What one looked at stays, as far as the plan still has it. */
static void
carry_over (DeskSession *session, const DeskLookedAt *at)
{
  DeskSite *site = session->site;
  session->run = at->lift_id != NULL ? find_run (site, at->lift_id) : 0;
  const TrnLiftRun *run = desk_session_get_lift_run (session);
  gboolean is_same = run != NULL && g_strcmp0 (run->lift->id, at->lift_id) == 0;
  session->time_s = is_same ? MIN (at->time_s, desk_session_get_duration (session)) : 0;
  session->section = at->section;
  g_free (session->selected);
  session->selected = g_strdup (at->selected);
  for (guint i = 0; i < site->display->n_items; i++)
    session->visibility[i] = (RenderVisibility)GPOINTER_TO_INT (
        g_hash_table_lookup (at->by_id, render_site_item_id (site->display, i)));
}

/* The finding of the check that ended that is the one looked at before; NULL where there is none
 * any more. */
static const TrnFinding *
find_again (DeskSession *session, const DeskLookedAt *at)
{
  const TrnFindings *findings = desk_check_get_findings (session->check);
  for (guint l = 0; findings != NULL && l < findings->n_lifts; l++)
    {
      const TrnLiftFindings *lift = &findings->lifts[l];
      const char *id = session->site->scene->programme->runs[lift->lift].lift->id;
      for (guint i = 0; g_strcmp0 (id, at->finding_lift_id) == 0 && i < lift->findings->len; i++)
        {
          const TrnFinding *finding = &g_array_index (lift->findings, TrnFinding, i);
          /* Wind is of all moves, in whichever it is greatest. */
          const gboolean is_there
              = finding->move == at->finding_move || finding->check == TRN_CHECK_WIND;
          if (finding->check == at->finding_check && is_there
              && g_strcmp0 (finding->item, at->finding_item) == 0
              && g_strcmp0 (finding->body, at->finding_body) == 0
              && g_strcmp0 (finding->obstacle, at->finding_obstacle) == 0)
            return finding;
        }
    }
  return NULL;
}

/* After a plan was read again: the same finding, else the worst of the lift that is shown. */
static gboolean
take_up_finding (DeskSession *session)
{
  if (!session->is_finding_sought || desk_check_get_state (session->check) != DESK_CHECK_DONE)
    return FALSE;
  session->is_finding_sought = FALSE;
  if (session->finding != NULL)
    return FALSE;
  session->finding = find_again (session, session->looked_at);
  if (session->finding == NULL)
    desk_session_look_at_worst (session);
  return session->finding != NULL;
}

static void
forget_what_was_looked_at (DeskSession *session)
{
  session->run = 0;
  session->time_s = 0;
  session->section = (RenderSection){ .normal = { 0, 0, 1 } };
  g_clear_pointer (&session->selected, g_free);
}

static void
set_site (DeskSession *session, DeskSite *site)
{
  g_autoptr (DeskSite) before = session->site;
  g_autofree RenderVisibility *visibility = session->visibility;
  if (before != NULL)
    {
      DeskLookedAt *at = looked_at_new (session, before, visibility);
      g_clear_pointer (&session->looked_at, looked_at_free);
      session->looked_at = at;
    }
  session->site = site != NULL ? desk_site_ref (site) : NULL;
  session->visibility = g_new0 (RenderVisibility, (site != NULL ? site->display->n_items : 0) + 1);
  session->isolated = -1;
  session->sight_rad = NAN;
  session->playing = FALSE;
  session->finding = NULL;
  forget_moment (session);
  g_clear_pointer (&session->known, desk_known_unref);
  const DeskLookedAt *at = session->looked_at;
  session->is_finding_sought
      = site != NULL && at != NULL && g_strcmp0 (at->file, site->plan->file) == 0;
  if (session->is_finding_sought)
    carry_over (session, at);
  else
    forget_what_was_looked_at (session);
  /* Closed, it begins anew. */
  if (desk_document_get_state (session->document) == DESK_DOCUMENT_EMPTY)
    g_clear_pointer (&session->looked_at, looked_at_free);
  desk_session_start_profile (session);
  desk_session_ask_for_moment (session);
  /* Told below, when all of the session is of the new site. */
  gboolean is_whole = desk_site_is_whole (site);
  session->told_state = is_whole ? DESK_CHECK_RUNNING : DESK_CHECK_NONE;
  session->told_lifts = 0;
  if (is_whole)
    desk_check_start (session->check, site);
  else
    desk_check_clear (session->check);
  desk_session_forget_pair_index (session);
  /* Everything is another one; only nobody has gone anywhere. */
  for (guint i = 0; i < DESK_SESSION_WENT_TO_FINDING; i++)
    desk_session_tell (session, i);
}

static void
on_document_changed (DeskSession *session)
{
  /* While another plan is read, what was open stays. */
  if (desk_document_get_state (session->document) == DESK_DOCUMENT_LOADING)
    return;
  DeskSite *site = desk_document_get_site (session->document);
  if (site != session->site)
    set_site (session, site);
}

static void
on_changed_on_disk (DeskSession *session)
{
  desk_session_tell (session, DESK_SESSION_FINDINGS_CHANGED);
}

static void
on_check_changed (DeskSession *session)
{
  const TrnFindings *findings = desk_check_get_findings (session->check);
  DeskCheckState state = desk_check_get_state (session->check);
  guint n_lifts = findings != NULL ? findings->n_lifts : 0;
  if (state == session->told_state && n_lifts == session->told_lifts)
    return;
  session->told_state = state;
  session->told_lifts = n_lifts;
  desk_session_forget_pair_index (session);
  judge_anew (session);
  gboolean is_gone
      = session->finding != NULL && !desk_session_has_finding (session, session->finding);
  if (is_gone)
    session->finding = NULL;
  gboolean is_taken_up = take_up_finding (session);
  desk_session_tell (session, DESK_SESSION_FINDINGS_CHANGED);
  if (is_gone || is_taken_up)
    desk_session_tell (session, DESK_SESSION_SELECTION_CHANGED);
}

/* ---- object ---- */

static void
desk_session_dispose (GObject *object)
{
  DeskSession *session = DESK_SESSION (object);
  stop_profile (session);
  g_clear_pointer (&session->moment_worker, desk_moment_worker_free);
  forget_moment (session);
  g_clear_pointer (&session->known, desk_known_unref);
  if (session->document != NULL)
    g_signal_handlers_disconnect_by_data (session->document, session);
  if (session->check != NULL)
    g_signal_handlers_disconnect_by_data (session->check, session);
  g_clear_object (&session->check);
  g_clear_object (&session->document);
  session->finding = NULL;
  g_clear_pointer (&session->site, desk_site_unref);
  G_OBJECT_CLASS (desk_session_parent_class)->dispose (object);
}

static void
desk_session_finalize (GObject *object)
{
  DeskSession *session = DESK_SESSION (object);
  g_clear_pointer (&session->looked_at, looked_at_free);
  g_free (session->selected);
  g_free (session->visibility);
  G_OBJECT_CLASS (desk_session_parent_class)->finalize (object);
}

static void
desk_session_class_init (DeskSessionClass *class)
{
  GObjectClass *object_class = G_OBJECT_CLASS (class);
  object_class->dispose = desk_session_dispose;
  object_class->finalize = desk_session_finalize;
  for (guint i = 0; i < DESK_SESSION_N_SIGNALS; i++)
    signals[i] = g_signal_new (signal_names[i], G_TYPE_FROM_CLASS (class), G_SIGNAL_RUN_LAST, 0,
                               NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
desk_session_init (DeskSession *session)
{
  session->document = desk_document_new ();
  session->check = desk_check_new ();
  session->moment_worker = desk_moment_worker_new (on_moment_take, session);
  session->visibility = g_new0 (RenderVisibility, 1);
  session->isolated = -1;
  session->rate = RATE_AT_FIRST;
  session->tight_m = TIGHT_AT_FIRST_M;
  session->section.normal = trn_vec3_make (0, 0, 1);
  session->show = DESK_SHOW_PATHS | DESK_SHOW_GHOSTS | DESK_SHOW_SWING_CIRCLES | DESK_SHOW_NEAREST
                  | DESK_SHOW_GRID | DESK_SHOW_COMPASS | DESK_SHOW_HUMAN;
  g_signal_connect_swapped (session->document, "changed", G_CALLBACK (on_document_changed),
                            session);
  g_signal_connect_swapped (session->document, "changed-on-disk", G_CALLBACK (on_changed_on_disk),
                            session);
  g_signal_connect_swapped (session->check, "changed", G_CALLBACK (on_check_changed), session);
}

DeskSession *
desk_session_new (void)
{
  return g_object_new (DESK_TYPE_SESSION, NULL);
}
