/* loop-watch.c: the loop is held from the moment it stops waiting to the moment it waits again.
 * Both are seen from its poll function, which is wrapped. Of that time, what passes between the end
 * of layout and the end of a frame is drawing and is not counted. Nothing counts before the first
 * frame: until then nobody can be kept waiting by a window. */
#include "loop-watch.h"

#include <stdio.h>
#include <time.h>

/* Two clocks: that of the wall, and the time that the processor worked for this thread, which other
 * programs do not change. */
typedef struct
{
  gint64 wall_us, work_us;
} Clocks;

static struct
{
  gboolean stalls, timing;
  gint64 start_us;
  Clocks woken, drawing, drawn, longest;
  gboolean is_drawing, has_frame, has_plan_frame;
  GPollFunc poll;
} watch;

static Clocks
read_clocks (void)
{
  struct timespec work = { 0, 0 };
  clock_gettime (CLOCK_THREAD_CPUTIME_ID, &work);
  return (Clocks){ g_get_monotonic_time (),
                   (gint64)work.tv_sec * G_USEC_PER_SEC + work.tv_nsec / 1000 };
}

static gboolean
is_set (const char *name)
{
  return g_strcmp0 (g_getenv (name), "1") == 0;
}

static int
watched_poll (GPollFD *fds, guint n_fds, int timeout)
{
  if (watch.has_frame)
    {
      Clocks now = read_clocks ();
      gint64 wall_us = now.wall_us - watch.woken.wall_us - watch.drawn.wall_us;
      gint64 work_us = now.work_us - watch.woken.work_us - watch.drawn.work_us;
      watch.longest.wall_us = MAX (watch.longest.wall_us, wall_us);
      watch.longest.work_us = MAX (watch.longest.work_us, work_us);
    }
  int n = watch.poll (fds, n_fds, timeout);
  watch.drawn = (Clocks){ 0, 0 };
  watch.woken = read_clocks ();
  return n;
}

void
desk_loop_watch_start (void)
{
  watch.start_us = g_get_monotonic_time ();
  watch.stalls = is_set ("TRUNNION_DESK_STALLS");
  watch.timing = is_set ("TRUNNION_DESK_TIMING");
  if (!watch.stalls)
    return;
  watch.poll = g_main_context_get_poll_func (NULL);
  g_main_context_set_poll_func (NULL, watched_poll);
}

static void
print_time (const char *what, gint64 time_us)
{
  char ms[G_ASCII_DTOSTR_BUF_SIZE];
  g_ascii_formatd (ms, sizeof ms, "%.1f", (double)time_us / 1000);
  fprintf (stderr, "timing: %s %s ms\n", what, ms);
}

/* The last phase of a frame before drawing that there was. */
static void
on_before_drawing (void)
{
  watch.drawing = read_clocks ();
  watch.is_drawing = TRUE;
}

static void
on_drawn (GdkFrameClock *clock, DeskSession *session)
{
  Clocks now = read_clocks ();
  if (watch.is_drawing)
    {
      watch.drawn.wall_us += now.wall_us - watch.drawing.wall_us;
      watch.drawn.work_us += now.work_us - watch.drawing.work_us;
    }
  watch.is_drawing = FALSE;
  if (watch.timing && !watch.has_frame)
    print_time ("first frame", now.wall_us - watch.start_us);
  watch.has_frame = TRUE;
  if (watch.has_plan_frame || desk_session_get_site (session) == NULL)
    return;
  watch.has_plan_frame = TRUE;
  if (watch.timing)
    print_time ("first frame with a plan", now.wall_us - watch.start_us);
}

void
desk_loop_watch_frames (GdkFrameClock *clock, DeskSession *session)
{
  if (!watch.stalls && !watch.timing)
    return;
  static const char *const phases[] = { "before-paint", "update", "layout" };
  for (guint i = 0; i < G_N_ELEMENTS (phases); i++)
    g_signal_connect_after (clock, phases[i], G_CALLBACK (on_before_drawing), NULL);
  g_signal_connect_object (clock, "after-paint", G_CALLBACK (on_drawn), session, G_CONNECT_AFTER);
}

void
desk_loop_watch_print (void)
{
  if (!watch.stalls)
    return;
  print_time ("longest hold of the main loop", watch.longest.wall_us);
  print_time ("the most that the processor worked in one", watch.longest.work_us);
}
