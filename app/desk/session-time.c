/* session-time.c: which lift and which moment of it: moves, steps, playing. */
#include "session-private.h"

#include <math.h>

#define STEPS_OF_MOVE 100
#define LEAST_RATE 0.1
#define GREATEST_RATE 100
/* A move that has run for less than this, in time that one waits, has only just begun. */
#define JUST_BEGUN_S 1.0
/* A part of a step that is rounding. */
#define STEP_ROUNDING 1e-6

const TrnLiftRun *
desk_session_get_lift_run (DeskSession *session)
{
  if (session->site == NULL || session->run >= session->site->scene->programme->n_runs)
    return NULL;
  return &session->site->scene->programme->runs[session->run];
}

guint
desk_session_get_run (DeskSession *session)
{
  return session->run;
}

double
desk_session_get_time (DeskSession *session)
{
  return session->time_s;
}

double
desk_session_get_duration (DeskSession *session)
{
  const TrnLiftRun *run = desk_session_get_lift_run (session);
  return run != NULL ? run->begins_s[run->lift->n_moves] : 0;
}

/* Of the lift that is shown now; the finding of another one would seem to speak of it. */
void
desk_session_look_at_worst (DeskSession *session)
{
  session->finding = desk_session_worst (session, session->run, -1, NULL);
  g_free (session->selected);
  const char *body = session->finding != NULL ? session->finding->obstacle : NULL;
  session->selected = g_strdup (body != NULL || session->finding == NULL ? body : "load");
}

void
desk_session_go_to (DeskSession *session, guint run, double time_s)
{
  gboolean is_other_lift = run != session->run;
  session->run = run;
  double clamped_s = CLAMP (time_s, 0, desk_session_get_duration (session));
  if (!is_other_lift && clamped_s == session->time_s)
    return;
  session->time_s = clamped_s;
  gboolean is_finding_left = session->finding != NULL && session->finding->lift != run;
  if (is_finding_left)
    desk_session_look_at_worst (session);
  if (is_other_lift)
    {
      g_clear_pointer (&session->moment, trn_moment_free);
      g_clear_pointer (&session->moment_known, desk_known_unref);
      desk_session_start_profile (session);
    }
  desk_session_ask_for_moment (session);
  desk_session_tell (session, DESK_SESSION_TIME_CHANGED);
  if (is_other_lift)
    {
      desk_session_tell (session, DESK_SESSION_MOMENT_CHANGED);
      desk_session_tell (session, DESK_SESSION_PROFILE_CHANGED);
    }
  if (is_finding_left)
    desk_session_tell (session, DESK_SESSION_SELECTION_CHANGED);
}

void
desk_session_set_run (DeskSession *session, guint run)
{
  if (session->site == NULL || run >= session->site->scene->programme->n_runs
      || run == session->run)
    return;
  desk_session_go_to (session, run, 0);
}

void
desk_session_set_time (DeskSession *session, double time_s)
{
  if (isfinite (time_s))
    desk_session_go_to (session, session->run, time_s);
}

guint
desk_session_get_move (DeskSession *session, double *progress)
{
  guint move = 0;
  double s = 0;
  const TrnLiftRun *run = desk_session_get_lift_run (session);
  if (run != NULL)
    trn_lift_run_pose (run, session->time_s, &move, &s);
  if (progress != NULL)
    *progress = s;
  return move;
}

void
desk_session_set_move (DeskSession *session, guint move)
{
  const TrnLiftRun *run = desk_session_get_lift_run (session);
  if (run != NULL && move < run->lift->n_moves)
    desk_session_set_time (session, run->begins_s[move]);
}

void
desk_session_next_move (DeskSession *session)
{
  const TrnLiftRun *run = desk_session_get_lift_run (session);
  if (run != NULL)
    desk_session_set_time (session, run->begins_s[desk_session_get_move (session, NULL) + 1]);
}

void
desk_session_previous_move (DeskSession *session)
{
  const TrnLiftRun *run = desk_session_get_lift_run (session);
  if (run == NULL)
    return;
  guint move = desk_session_get_move (session, NULL);
  double just_begun_s = session->playing ? JUST_BEGUN_S * session->rate : 0;
  if (session->time_s <= run->begins_s[move] + just_begun_s && move > 0)
    move--;
  desk_session_set_move (session, move);
}

/* From the whole step that @progress is at or past, one step on or back; across a border into the
 * next move that takes time. */
static double
step_once (const TrnLiftRun *run, double time_s, gboolean forward)
{
  guint move;
  double progress;
  trn_lift_run_pose (run, time_s, &move, &progress);
  if (!forward && progress <= 0)
    {
      while (move > 0 && run->begins_s[move] >= time_s)
        move--;
      if (run->begins_s[move] >= time_s)
        return time_s;
      progress = 1;
    }
  double steps = progress * STEPS_OF_MOVE;
  double next = forward ? floor (steps + STEP_ROUNDING) + 1 : ceil (steps - STEP_ROUNDING) - 1;
  if (next >= STEPS_OF_MOVE)
    return run->begins_s[move + 1];
  return run->begins_s[move]
         + (run->begins_s[move + 1] - run->begins_s[move]) * MAX (next, 0) / STEPS_OF_MOVE;
}

void
desk_session_step (DeskSession *session, int steps)
{
  const TrnLiftRun *run = desk_session_get_lift_run (session);
  if (run == NULL)
    return;
  double time_s = session->time_s;
  for (int i = 0; i < ABS (steps); i++)
    time_s = step_once (run, time_s, steps > 0);
  desk_session_set_playing (session, FALSE);
  desk_session_set_time (session, time_s);
}

gboolean
desk_session_get_playing (DeskSession *session)
{
  return session->playing;
}

void
desk_session_set_playing (DeskSession *session, gboolean playing)
{
  playing = playing && desk_session_get_lift_run (session) != NULL;
  if (playing == session->playing)
    return;
  session->playing = playing;
  /* At the end there is nothing left to play: it begins again. */
  if (playing && session->time_s >= desk_session_get_duration (session))
    desk_session_set_move (session, session->loop ? desk_session_get_move (session, NULL) : 0);
  desk_session_tell (session, DESK_SESSION_PLAYING_CHANGED);
}

double
desk_session_get_rate (DeskSession *session)
{
  return session->rate;
}

void
desk_session_set_rate (DeskSession *session, double rate)
{
  rate = CLAMP (rate, LEAST_RATE, GREATEST_RATE);
  if (rate == session->rate)
    return;
  session->rate = rate;
  desk_session_tell (session, DESK_SESSION_PLAYING_CHANGED);
}

gboolean
desk_session_get_loop (DeskSession *session)
{
  return session->loop;
}

void
desk_session_set_loop (DeskSession *session, gboolean loop)
{
  if (loop == session->loop)
    return;
  session->loop = loop;
  desk_session_tell (session, DESK_SESSION_PLAYING_CHANGED);
}

void
desk_session_advance (DeskSession *session, double elapsed_s)
{
  const TrnLiftRun *run = desk_session_get_lift_run (session);
  if (!session->playing || run == NULL || !(elapsed_s > 0))
    return;
  double time_s = session->time_s + elapsed_s * session->rate;
  guint move = desk_session_get_move (session, NULL);
  double from_s = run->begins_s[move], to_s = run->begins_s[move + 1];
  if (session->loop && time_s >= to_s)
    time_s = to_s > from_s ? from_s + fmod (time_s - from_s, to_s - from_s) : from_s;
  gboolean at_end = time_s >= desk_session_get_duration (session);
  desk_session_set_time (session, time_s);
  if (at_end && !session->loop)
    desk_session_set_playing (session, FALSE);
}
