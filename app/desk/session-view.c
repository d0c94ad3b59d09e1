/* session-view.c: what is looked at, and what is drawn and how. */
#include "session-private.h"

#include <math.h>
#include <string.h>

#include "words.h"

const TrnFinding *
desk_session_get_finding (DeskSession *session)
{
  return session->finding;
}

gboolean
desk_session_has_finding (DeskSession *session, const TrnFinding *finding)
{
  const TrnFindings *findings = desk_check_get_findings (session->check);
  for (guint i = 0; findings != NULL && i < findings->n_lifts; i++)
    {
      GArray *list = findings->lifts[i].findings;
      const TrnFinding *first = (const TrnFinding *)(gpointer)list->data;
      if (finding >= first && finding < first + list->len)
        return TRUE;
    }
  return FALSE;
}

/* The moment at which it is closest; where it is of no single moment, where it begins. */
static double
time_of_finding (const TrnLiftRun *run, const TrnFinding *finding)
{
  gboolean has_moment = finding->check != TRN_CHECK_SWING_RADIUS && finding->check != TRN_CHECK_SEAT
                        && finding->check != TRN_CHECK_START;
  if (has_moment && isfinite (finding->time_s))
    {
      /* A border belongs to the later move, in which hooks and lean may be others. */
      const gboolean is_border = finding->move >= 0 && (guint)finding->move + 1 < run->lift->n_moves
                                 && finding->time_s >= run->begins_s[finding->move + 1];
      return is_border ? nextafter (run->begins_s[finding->move + 1], 0) : finding->time_s;
    }
  if (finding->move >= 0)
    return run->begins_s[finding->move];
  return finding->at_end ? run->begins_s[run->lift->n_moves] : 0;
}

/* A cut that takes @point away is taken back. */
static void
uncover (DeskSession *session, TrnVec3 point)
{
  RenderSection section = desk_session_get_section (session);
  if (!section.on || trn_vec3_dot (section.normal, point) <= section.offset_m)
    return;
  section.on = FALSE;
  desk_session_set_section (session, section);
}

/* Without one of the two closest points there would be nothing to be seen of them. */
static void
uncover_points (DeskSession *session, const TrnFinding *finding)
{
  if (!finding->has_points)
    return;
  uncover (session, finding->point_on_body);
  uncover (session, finding->point_on_obstacle);
}

void
desk_session_uncover_move (DeskSession *session, guint move)
{
  const TrnLiftRun *run = desk_session_get_lift_run (session);
  if (run == NULL || move >= run->lift->n_moves)
    return;
  TrnBox box = render_site_extent_of_move (session->site->display, session->run, move);
  TrnVec3 normal = desk_session_get_section (session).normal;
  uncover (session,
           trn_vec3_make (normal.x > 0 ? box.hi.x : box.lo.x, normal.y > 0 ? box.hi.y : box.lo.y,
                          normal.z > 0 ? box.hi.z : box.lo.z));
  const TrnFinding *worst = desk_session_worst (session, session->run, (int)move, NULL);
  if (worst != NULL)
    uncover_points (session, worst);
}

gboolean
desk_session_is_chosen (DeskSession *session)
{
  return session->is_chosen;
}

static void
tell_choice (DeskSession *session)
{
  session->is_chosen = TRUE;
  desk_session_tell (session, DESK_SESSION_SELECTION_CHANGED);
  session->is_chosen = FALSE;
}

static void
take_finding (DeskSession *session, const TrnFinding *finding)
{
  session->finding = finding;
  if (finding == NULL)
    return;
  g_free (session->selected);
  session->selected = g_strdup (finding->obstacle != NULL ? finding->obstacle
                                : finding->body != NULL   ? finding->body
                                                          : "load");
}

void
desk_session_offer_finding (DeskSession *session, const TrnFinding *finding)
{
  take_finding (session, finding);
  desk_session_tell (session, DESK_SESSION_SELECTION_CHANGED);
}

void
desk_session_set_finding (DeskSession *session, const TrnFinding *finding, gboolean go)
{
  take_finding (session, finding);
  gboolean went = finding != NULL && go && desk_check_get_site (session->check) == session->site;
  if (went)
    {
      const TrnProgramme *programme = session->site->scene->programme;
      desk_session_set_playing (session, FALSE);
      desk_session_go_to (session, finding->lift,
                          time_of_finding (&programme->runs[finding->lift], finding));
      uncover_points (session, finding);
    }
  tell_choice (session);
  if (went)
    desk_session_tell (session, DESK_SESSION_WENT_TO_FINDING);
}

/* Whether @finding is about @obstacle, or about a part of it. */
static gboolean
is_about (const TrnFinding *finding, const char *obstacle)
{
  if (obstacle == NULL)
    return TRUE;
  gsize length = strlen (obstacle);
  return finding->obstacle != NULL && strncmp (finding->obstacle, obstacle, length) == 0
         && (finding->obstacle[length] == '\0' || finding->obstacle[length] == '/');
}

gboolean
desk_finding_is_worse (DeskSession *session, const TrnFinding *finding, const TrnFinding *than)
{
  return than == NULL
         || trn_words_compare_worst (finding, than, desk_session_get_tight (session)) < 0;
}

/* Clearances count; of what else a move can be wrong in, as headroom, only what fails: how much of
 * it is left says nothing beside a clearance. */
static gboolean
does_count (const TrnFinding *finding, const char *obstacle)
{
  if (finding->check == TRN_CHECK_CLEARANCE)
    return finding->state != TRN_STATE_SEATED && is_about (finding, obstacle);
  gboolean is_of_gear_or_forces = finding->check >= TRN_CHECK_HEADROOM;
  return is_of_gear_or_forces && obstacle == NULL && finding->verdict == TRN_VERDICT_FAIL;
}

/* Why the load hangs in a way that is not known; NULL: nothing says it there. */
static const TrnFinding *
cause_of_lift (DeskSession *session, const TrnLiftFindings *lift, int move)
{
  const TrnFinding *cause = NULL;
  for (guint i = 0; i < lift->findings->len; i++)
    {
      const TrnFinding *finding = &g_array_index (lift->findings, TrnFinding, i);
      gboolean is_cause = finding->check == TRN_CHECK_ATTITUDE
                          && finding->verdict == TRN_VERDICT_UNKNOWN
                          && !trn_words_is_consequence (finding);
      if (is_cause && (move < 0 || finding->move == move)
          && desk_finding_is_worse (session, finding, cause))
        cause = finding;
    }
  return cause;
}

static const TrnFinding *
worst_of_lift (DeskSession *session, guint run, int move, const char *obstacle)
{
  const TrnLiftFindings *lift = desk_check_get_lift (session->check, run);
  const TrnFinding *worst = NULL;
  for (guint i = 0; lift != NULL && i < lift->findings->len; i++)
    {
      const TrnFinding *finding = &g_array_index (lift->findings, TrnFinding, i);
      if ((move >= 0 && finding->move != move) || !does_count (finding, obstacle))
        continue;
      if (desk_finding_is_worse (session, finding, worst))
        worst = finding;
    }
  /* Who asks for the worst is to learn what to do about it. */
  const TrnFinding *cause = worst != NULL && obstacle == NULL && trn_words_is_consequence (worst)
                                ? cause_of_lift (session, lift, move)
                                : NULL;
  return cause != NULL ? cause : worst;
}

const TrnFinding *
desk_session_worst (DeskSession *session, guint run, int move, const char *obstacle)
{
  if (run != DESK_ALL_LIFTS)
    return worst_of_lift (session, run, move, obstacle);
  const TrnFinding *worst = NULL;
  const TrnFindings *findings = desk_check_get_findings (session->check);
  for (guint i = 0; findings != NULL && i < findings->n_lifts; i++)
    {
      const TrnFinding *next = worst_of_lift (session, findings->lifts[i].lift, move, obstacle);
      if (next != NULL && desk_finding_is_worse (session, next, worst))
        worst = next;
    }
  return worst;
}

const char *
desk_session_get_selected (DeskSession *session)
{
  return session->selected;
}

void
desk_session_set_selected (DeskSession *session, const char *body)
{
  if (g_strcmp0 (body, session->selected) == 0)
    return;
  char *copy = g_strdup (body);
  g_free (session->selected);
  session->selected = copy;
  tell_choice (session);
}

/* ---- what is drawn ---- */

static guint
count_items (DeskSession *session)
{
  return session->site != NULL ? session->site->display->n_items : 0;
}

RenderVisibility
desk_session_get_visibility (DeskSession *session, guint item)
{
  return item < count_items (session) ? session->visibility[item] : RENDER_VISIBLE_SOLID;
}

void
desk_session_set_visibility (DeskSession *session, guint item, RenderVisibility visibility)
{
  if (item >= count_items (session) || session->visibility[item] == visibility)
    return;
  session->visibility[item] = visibility;
  session->isolated = -1;
  desk_session_tell (session, DESK_SESSION_VIEW_CHANGED);
}

void
desk_session_isolate (DeskSession *session, guint item)
{
  guint n = count_items (session);
  if (item >= n)
    return;
  gboolean again = session->isolated == (int)item;
  for (guint i = 0; i < n; i++)
    session->visibility[i] = again || i == item ? RENDER_VISIBLE_SOLID : RENDER_VISIBLE_GHOST;
  session->isolated = again ? -1 : (int)item;
  desk_session_tell (session, DESK_SESSION_VIEW_CHANGED);
}

void
desk_session_show_all (DeskSession *session)
{
  for (guint i = 0; i < count_items (session); i++)
    session->visibility[i] = RENDER_VISIBLE_SOLID;
  session->isolated = -1;
  desk_session_tell (session, DESK_SESSION_VIEW_CHANGED);
}

DeskShow
desk_session_get_show (DeskSession *session)
{
  return session->show;
}

void
desk_session_set_show (DeskSession *session, DeskShow show)
{
  if (show == session->show)
    return;
  session->show = show;
  desk_session_tell (session, DESK_SESSION_VIEW_CHANGED);
}

RenderSection
desk_session_get_section (DeskSession *session)
{
  return session->section;
}

void
desk_session_set_section (DeskSession *session, RenderSection section)
{
  session->section = section;
  desk_session_tell (session, DESK_SESSION_VIEW_CHANGED);
}

gboolean
desk_session_get_dark (DeskSession *session)
{
  return session->dark;
}

double
desk_session_get_sight (DeskSession *session)
{
  return session->sight_rad;
}

void
desk_session_set_sight (DeskSession *session, double heading_rad)
{
  session->sight_rad = heading_rad;
}

void
desk_session_set_dark (DeskSession *session, gboolean dark)
{
  if (dark == session->dark)
    return;
  session->dark = dark;
  desk_session_tell (session, DESK_SESSION_VIEW_CHANGED);
}

double
desk_session_get_tight (DeskSession *session)
{
  return session->tight_m;
}

void
desk_session_set_tight (DeskSession *session, double tight_m)
{
  if (!(tight_m >= 0) || tight_m == session->tight_m)
    return;
  session->tight_m = tight_m;
  desk_session_forget_pair_index (session);
  desk_session_tell (session, DESK_SESSION_VIEW_CHANGED);
}

guint
desk_session_get_gauges (DeskSession *session)
{
  return session->gauges;
}

void
desk_session_set_gauges (DeskSession *session, guint gauges)
{
  if (gauges == session->gauges)
    return;
  session->gauges = gauges;
  desk_session_tell (session, DESK_SESSION_VIEW_CHANGED);
}

void
desk_session_tell_view_changed (DeskSession *session)
{
  desk_session_tell (session, DESK_SESSION_VIEW_CHANGED);
}

RenderSiteState
desk_session_view_state (DeskSession *session)
{
  DeskShow show = session->show;
  gboolean is_checked
      = session->site != NULL && desk_check_get_site (session->check) == session->site;
  return (RenderSiteState){
    .run = session->run,
    .time_s = session->time_s,
    .moment = session->moment,
    .judge = desk_known_judge (session->moment_known),
    .findings = is_checked ? desk_check_get_findings (session->check) : NULL,
    .finding = is_checked ? session->finding : NULL,
    .selected = session->selected,
    .visibility = session->visibility,
    .tight_m = session->tight_m,
    .paths = (show & DESK_SHOW_PATHS) != 0,
    .ghosts = (show & DESK_SHOW_GHOSTS) != 0,
    .swing_circles = (show & DESK_SHOW_SWING_CIRCLES) != 0,
    .nearest = (show & DESK_SHOW_NEAREST) != 0,
    .grid = (show & DESK_SHOW_GRID) != 0,
    .compass = (show & DESK_SHOW_COMPASS) != 0,
    .human = (show & DESK_SHOW_HUMAN) != 0,
    .dark = session->dark,
    .load_shines_through = TRUE,
    .section = session->section,
  };
}
