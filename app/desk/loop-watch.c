/* loop-watch.c: the loop is held from the moment it stops waiting to the moment it waits again.
 * Both are seen from its poll function, which is wrapped. Of that time, what passes between the end
 * of layout and the end of a frame is drawing and is not counted. Nothing counts before the first
 * frame: until then nobody can be kept waiting by a window. */
#include "loop-watch.h"

#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <time.h>
#include <unistd.h>

/* Told at once: less than the 8 ms that are too long, so that one sees what comes near. */
#define HOLD_TOLD_US 5000
#define HOLD_TOO_LONG_US 8000
/* Who does not go on within this time has stopped dragging. */
#define MOVED_PAUSE_US 500000

/* Clocks: that of the wall; the time that the processor worked for this thread, and for the other
 * threads of this program; and the time that this thread was queued: ready to run while other
 * threads, of this program or of others, had the processors. What is left of the wall it was
 * asleep, waiting for an answer: of the display, or of a thread, as of those that draw; n_waits:
 * how often. */
typedef struct
{
  gint64 wall_us, work_us, others_us, queued_us, n_waits;
} Clocks;

/* What a hold is judged by. */
typedef enum
{
  WALL,      /* all of it */
  PROGRAM,   /* without what other programs took for certain */
  OWN,       /* without what other threads took */
  WORK_ONLY, /* and without waiting for answers */
  N_MEASURES
} Measure;

/* What a hold was spent on. */
typedef enum
{
  SOURCES, /* callbacks of the main loop: events, idle work, what threads hand over */
  BEFORE,  /* of a frame: before it, ... */
  UPDATE,  /* ticks, */
  LAYOUT,  /* style, measure and allocation of widgets; */
  PAINT,   /* drawing, not counted */
  N_PARTS
} Part;

/* A frame in which the time of the lift was another than in the one before. */
typedef struct
{
  gint64 wall_us, main_us, process_us; /* since the frame before */
  gint64 paint_us;
  gboolean has_layout;
} Moved;

static struct
{
  gboolean stalls, timing;
  gint64 start_us;
  Clocks at, spent[N_PARTS];
  Clocks longest[N_MEASURES];
  guint n_holds, n_too_long[N_MEASURES];
  guint n_frames, n_layouts;
  int schedule; /* the system's account of this thread; −1: there is none */
  Part part;
  gboolean has_frame, has_plan_frame, counts, has_layout;
  GPollFunc poll;
  GArray *moved;
  gint64 frame_wall_us, frame_main_us, frame_process_us;
  double lift_time_s;
} watch;

/* The second number of three; in nanoseconds. */
static gint64
read_queued_us (void)
{
  char text[96];
  gssize n = watch.schedule >= 0 ? pread (watch.schedule, text, sizeof text - 1, 0) : 0;
  text[MAX (n, 0)] = '\0';
  const char *second = strchr (text, ' ');
  return second != NULL ? strtoll (second, NULL, 10) / 1000 : 0;
}

static gint64
read_clock_us (clockid_t clock)
{
  struct timespec time = { 0, 0 };
  clock_gettime (clock, &time);
  return (gint64)time.tv_sec * G_USEC_PER_SEC + time.tv_nsec / 1000;
}

static Clocks
read_clocks (void)
{
  struct rusage usage = { .ru_nvcsw = 0 };
  getrusage (RUSAGE_THREAD, &usage);
  gint64 work_us = read_clock_us (CLOCK_THREAD_CPUTIME_ID);
  return (Clocks){ .wall_us = g_get_monotonic_time (),
                   .work_us = work_us,
                   .others_us = read_clock_us (CLOCK_PROCESS_CPUTIME_ID) - work_us,
                   .queued_us = read_queued_us (),
                   .n_waits = usage.ru_nvcsw };
}

static void
add_passed (Clocks *sum, const Clocks *from, const Clocks *to)
{
  sum->wall_us += to->wall_us - from->wall_us;
  sum->work_us += to->work_us - from->work_us;
  sum->others_us += to->others_us - from->others_us;
  sum->queued_us += to->queued_us - from->queued_us;
  sum->n_waits += to->n_waits - from->n_waits;
}

static gint64
asleep_us (const Clocks *hold)
{
  return MAX (hold->wall_us - hold->work_us - hold->queued_us, 0);
}

/* Of the time in the queue at most as much went to other threads of this program as they worked. */
static gint64
foreign_us (const Clocks *hold)
{
  return MAX (hold->queued_us - MAX (hold->others_us, 0), 0);
}

static gint64
measure (const Clocks *hold, Measure by)
{
  switch (by)
    {
    case WALL:
      return hold->wall_us;
    case PROGRAM:
      return hold->wall_us - foreign_us (hold);
    case OWN:
      return hold->wall_us - hold->queued_us;
    case WORK_ONLY:
      return hold->work_us;
    case N_MEASURES:
      break;
    }
  g_assert_not_reached ();
}

static gboolean
is_set (const char *name)
{
  return g_strcmp0 (g_getenv (name), "1") == 0;
}

/* What has passed goes to the part that ends here. */
static void
begin_part (Part part)
{
  Clocks now = read_clocks ();
  add_passed (&watch.spent[watch.part], &watch.at, &now);
  watch.at = now;
  watch.part = part;
}

static void
tell_clocks (const Clocks *hold)
{
  fprintf (
      stderr,
      "%d us of work, %d us on the wall: %d asleep in %d waits, %d queued, %d of them at least "
      "behind other programs",
      (int)hold->work_us, (int)hold->wall_us, (int)asleep_us (hold), (int)hold->n_waits,
      (int)hold->queued_us, (int)foreign_us (hold));
}

static void
tell_hold (const Clocks *hold)
{
  static const char *const names[] = { "sources", "before", "update", "layout" };
  fputs ("timing: held by ", stderr);
  tell_clocks (hold);
  fprintf (stderr, ", at %d ms: work of", (int)((watch.at.wall_us - watch.start_us) / 1000));
  for (guint i = 0; i < PAINT; i++)
    fprintf (stderr, " %s %d", names[i], (int)watch.spent[i].work_us);
  fputc ('\n', stderr);
}

static void
count_hold (void)
{
  static const Clocks none = { 0, 0, 0, 0, 0 };
  Clocks sum = none;
  for (guint i = 0; i < PAINT; i++)
    add_passed (&sum, &none, &watch.spent[i]);
  watch.n_holds++;
  for (guint by = 0; by < N_MEASURES; by++)
    {
      watch.n_too_long[by] += measure (&sum, by) > HOLD_TOO_LONG_US;
      if (measure (&sum, by) > measure (&watch.longest[by], by))
        watch.longest[by] = sum;
    }
  if (sum.work_us > HOLD_TOLD_US || sum.wall_us > HOLD_TOO_LONG_US)
    tell_hold (&sum);
}

static int
watched_poll (GPollFD *fds, guint n_fds, int timeout)
{
  begin_part (SOURCES);
  if (watch.counts)
    count_hold ();
  int n = watch.poll (fds, n_fds, timeout);
  memset (watch.spent, 0, sizeof watch.spent);
  watch.at = read_clocks ();
  return n;
}

void
desk_loop_watch_start (void)
{
  watch.start_us = g_get_monotonic_time ();
  watch.stalls = is_set ("TRUNNION_DESK_STALLS");
  watch.timing = is_set ("TRUNNION_DESK_TIMING");
  watch.moved = g_array_new (FALSE, FALSE, sizeof (Moved));
  watch.schedule = watch.stalls ? open ("/proc/thread-self/schedstat", O_RDONLY | O_CLOEXEC) : -1;
  if (!watch.stalls)
    return;
  watch.at = read_clocks ();
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

/* A phase has ended. What follows is drawing, unless a further phase ends: those that have nothing
 * to do are left out of a frame. */
static void
on_phase (GdkFrameClock *clock, gpointer part)
{
  watch.part = GPOINTER_TO_UINT (part);
  begin_part (PAINT);
}

/* Only where a widget asked for it: its text, its size or its style is another. */
static void
on_layout (GdkFrameClock *clock)
{
  watch.has_layout = TRUE;
}

static void
on_frame (GdkFrameClock *clock)
{
  watch.has_layout = FALSE;
  if (!watch.stalls)
    memset (watch.spent, 0, sizeof watch.spent);
  begin_part (BEFORE);
}

/* Frames that follow each other at once, as while one drags or plays. */
static void
count_moved (DeskSession *session)
{
  gint64 wall_us = watch.at.wall_us, main_us = watch.at.work_us,
         process_us = main_us + watch.at.others_us;
  double time_s = desk_session_get_time (session);
  Moved moved
      = { wall_us - watch.frame_wall_us, main_us - watch.frame_main_us,
          process_us - watch.frame_process_us, watch.spent[PAINT].work_us, watch.has_layout };
  if (time_s != watch.lift_time_s && moved.wall_us < MOVED_PAUSE_US)
    g_array_append_val (watch.moved, moved);
  watch.lift_time_s = time_s;
  watch.frame_wall_us = wall_us;
  watch.frame_main_us = main_us;
  watch.frame_process_us = process_us;
}

static void
on_drawn (GdkFrameClock *clock, DeskSession *session)
{
  begin_part (SOURCES);
  if (watch.timing && !watch.has_frame)
    print_time ("first frame", watch.at.wall_us - watch.start_us);
  watch.has_frame = watch.counts = TRUE;
  watch.n_frames++;
  watch.n_layouts += watch.has_layout;
  if (watch.timing && watch.has_plan_frame)
    count_moved (session);
  if (watch.has_plan_frame || desk_session_get_site (session) == NULL)
    return;
  watch.has_plan_frame = TRUE;
  if (watch.timing)
    print_time ("first frame with a plan", watch.at.wall_us - watch.start_us);
}

/* A window that goes keeps nobody waiting either. */
static void
on_gone (GtkWidget *window)
{
  watch.counts = FALSE;
}

void
desk_loop_watch_frames (GtkWidget *window, DeskSession *session)
{
  if (!watch.stalls && !watch.timing)
    return;
  GdkFrameClock *clock = gtk_widget_get_frame_clock (window);
  g_signal_connect (window, "unrealize", G_CALLBACK (on_gone), NULL);
  static const char *const phases[] = { "before-paint", "update", "layout" };
  static const Part parts[] = { BEFORE, UPDATE, LAYOUT };
  g_signal_connect (clock, "before-paint", G_CALLBACK (on_frame), NULL);
  g_signal_connect (clock, "layout", G_CALLBACK (on_layout), NULL);
  for (guint i = 0; i < G_N_ELEMENTS (phases); i++)
    g_signal_connect_after (clock, phases[i], G_CALLBACK (on_phase), GUINT_TO_POINTER (parts[i]));
  g_signal_connect_object (clock, "after-paint", G_CALLBACK (on_drawn), session, G_CONNECT_AFTER);
}

static int
compare_times (gconstpointer a, gconstpointer b)
{
  gint64 p = *(const gint64 *)a, q = *(const gint64 *)b;
  return p < q ? -1 : p > q;
}

static gint64
median (gsize offset)
{
  g_autoptr (GArray) times = g_array_new (FALSE, FALSE, sizeof (gint64));
  for (guint i = 0; i < watch.moved->len; i++)
    g_array_append_vals (times, watch.moved->data + i * sizeof (Moved) + offset, 1);
  g_array_sort (times, compare_times);
  return g_array_index (times, gint64, times->len / 2);
}

static void
print_moved (void)
{
  if (watch.moved->len == 0)
    return;
  gint64 sum_us = 0;
  guint n_layouts = 0;
  for (guint i = 0; i < watch.moved->len; i++)
    {
      sum_us += g_array_index (watch.moved, Moved, i).wall_us;
      n_layouts += g_array_index (watch.moved, Moved, i).has_layout;
    }
  fprintf (stderr, "timing: %u frames while time moved, %.1f a second, %u with a layout\n",
           watch.moved->len, watch.moved->len * 1e6 / (double)sum_us, n_layouts);
  print_time ("median from frame to frame", median (offsetof (Moved, wall_us)));
  print_time ("median work of the main thread for a frame", median (offsetof (Moved, main_us)));
  print_time ("of it drawing", median (offsetof (Moved, paint_us)));
  print_time ("median work of all threads for a frame", median (offsetof (Moved, process_us)));
}

void
desk_loop_watch_print (void)
{
  if (watch.timing)
    print_moved ();
  if (!watch.stalls)
    return;
  static const char *const names[N_MEASURES]
      = { "on the wall", "without what other programs took for certain",
          "without what other threads took", "of work alone" };
  fprintf (stderr, "timing: %u frames in all, %u with a layout\n", watch.n_frames, watch.n_layouts);
  for (guint by = 0; by < N_MEASURES; by++)
    {
      fprintf (stderr,
               "timing: of %u holds of the main loop %u were longer than 8 ms %s; the longest: ",
               watch.n_holds, watch.n_too_long[by], names[by]);
      tell_clocks (&watch.longest[by]);
      fputc ('\n', stderr);
    }
}
