/* loop-watch.c: the loop is held from the moment it stops waiting to the moment it waits again.
 * Both are seen from its poll function, which is wrapped. Of that time, what passes between the end
 * of layout and the end of a frame is drawing and is not counted. Nothing counts before the first
 * frame: until then nobody can be kept waiting by a window. */
#include "loop-watch.h"

#include <stdio.h>

static struct
{
  gboolean stalls, timing;
  gint64 start_us, woken_us, drawing_us, drawn_us;
  gint64 longest_us;
  gboolean has_frame, has_plan_frame;
  GPollFunc poll;
} watch;

static gboolean
is_set (const char *name)
{
  return g_strcmp0 (g_getenv (name), "1") == 0;
}

static int
watched_poll (GPollFD *fds, guint n_fds, int timeout)
{
  gint64 held_us = g_get_monotonic_time () - watch.woken_us - watch.drawn_us;
  if (watch.has_frame && watch.woken_us > 0)
    watch.longest_us = MAX (watch.longest_us, held_us);
  int n = watch.poll (fds, n_fds, timeout);
  watch.drawn_us = 0;
  watch.woken_us = g_get_monotonic_time ();
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
  watch.drawing_us = g_get_monotonic_time ();
}

static void
on_drawn (GdkFrameClock *clock, DeskSession *session)
{
  gint64 now_us = g_get_monotonic_time ();
  if (watch.drawing_us > 0)
    watch.drawn_us += now_us - watch.drawing_us;
  watch.drawing_us = 0;
  if (watch.timing && !watch.has_frame)
    print_time ("first frame", now_us - watch.start_us);
  watch.has_frame = TRUE;
  if (watch.has_plan_frame || desk_session_get_site (session) == NULL)
    return;
  watch.has_plan_frame = TRUE;
  if (watch.timing)
    print_time ("first frame with a plan", now_us - watch.start_us);
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
  if (watch.stalls)
    print_time ("longest hold of the main loop", watch.longest_us);
}
