/* presenter.c: the full screen and its keys.
 *
 * It plays by itself and not by the session's rate: each move takes as long as it does, and at most
 * LONGEST_PLAY_S. The move that is spoken of is kept here, since a moment on the border of two
 * moves belongs to both: after a move was played the words stay with it until the next one begins.
 * What is looked at is always the closest moment of that move, never that of the whole plan. */
#include "presenter.h"

#include <string.h>

#include "citizen-words.h"
#include "presenter-face.h"
#include "settings.h"
#include "stage.h"

#define LONGEST_PLAY_S 15
/* A frame that took longer does not let time leap. */
#define LONGEST_FRAME_S 0.5
#define POINTER_HIDES_MS 2000
#define KEYS_HIDE_MS 7000

struct _DeskPresenter
{
  GtkWindow parent;
  DeskSession *session;
  GtkWidget *stage, *face;
  guint run, move;
  double rate;
  gint64 last_us;
  guint tick_id, pointer_id, keys_id, resize_id, inhibit;
  GdkFrameClock *frames; /* that the keys wait for; owned, NULL: they do not */
  gulong frames_id;
  double pointer_x, pointer_y;
  int width, height;
};

G_DEFINE_FINAL_TYPE (DeskPresenter, desk_presenter, GTK_TYPE_WINDOW)

/* ---- playing ---- */

static void
stop (DeskPresenter *presenter)
{
  if (presenter->tick_id != 0)
    gtk_widget_remove_tick_callback (GTK_WIDGET (presenter), presenter->tick_id);
  presenter->tick_id = 0;
}

static gboolean
on_tick (GtkWidget *widget, GdkFrameClock *clock, gpointer data)
{
  DeskPresenter *presenter = DESK_PRESENTER (widget);
  const TrnLiftRun *run = desk_session_get_lift_run (presenter->session);
  gint64 now_us = gdk_frame_clock_get_frame_time (clock);
  double elapsed_s = (double)(now_us - presenter->last_us) / 1e6;
  presenter->last_us = now_us;
  if (run == NULL)
    {
      presenter->tick_id = 0;
      return G_SOURCE_REMOVE;
    }
  double end_s = run->begins_s[presenter->move + 1];
  double time_s = desk_session_get_time (presenter->session)
                  + CLAMP (elapsed_s, 0, LONGEST_FRAME_S) * presenter->rate;
  gboolean is_over = time_s >= end_s;
  if (is_over)
    presenter->tick_id = 0;
  desk_session_set_time (presenter->session, MIN (time_s, end_s));
  return is_over ? G_SOURCE_REMOVE : G_SOURCE_CONTINUE;
}

/* From where it is to the end of the move. */
static void
play (DeskPresenter *presenter)
{
  const TrnLiftRun *run = desk_session_get_lift_run (presenter->session);
  double lasts_s = run->begins_s[presenter->move + 1] - run->begins_s[presenter->move];
  presenter->rate = MAX (1, lasts_s / LONGEST_PLAY_S);
  presenter->last_us = g_get_monotonic_time ();
  if (presenter->tick_id == 0)
    presenter->tick_id = gtk_widget_add_tick_callback (GTK_WIDGET (presenter), on_tick, NULL, NULL);
}

static void
show_words (DeskPresenter *presenter)
{
  if (desk_session_get_lift_run (presenter->session) != NULL)
    desk_presenter_face_show (presenter->face, presenter->move);
}

/* Looks at what is closest in the move; at nothing where that is not known. */
static void
take_finding (DeskPresenter *presenter)
{
  const TrnFinding *closest
      = desk_session_worst (presenter->session, presenter->run, (int)presenter->move, NULL);
  if (closest != desk_session_get_finding (presenter->session))
    desk_session_offer_finding (presenter->session, closest);
}

/* To the beginning of a move of this lift. */
static void
go_to_move (DeskPresenter *presenter, guint move)
{
  stop (presenter);
  presenter->move = move;
  desk_session_set_time (presenter->session,
                         desk_session_get_lift_run (presenter->session)->begins_s[move]);
  take_finding (presenter);
  desk_session_uncover_move (presenter->session, move);
  desk_stage_look_at_move (presenter->stage, move);
  show_words (presenter);
}

static void
go_to_lift (DeskPresenter *presenter, guint run, gboolean to_last_move)
{
  stop (presenter);
  desk_session_set_run (presenter->session, run);
  presenter->run = desk_session_get_run (presenter->session);
  const TrnLiftRun *there = desk_session_get_lift_run (presenter->session);
  go_to_move (presenter, to_last_move ? there->lift->n_moves - 1 : 0);
}

/* ---- the keys, shown for a moment ---- */

/* The frames may have gone with the window, and taken their handlers along. */
static void
forget_frames (DeskPresenter *presenter)
{
  if (presenter->frames != NULL
      && g_signal_handler_is_connected (presenter->frames, presenter->frames_id))
    g_signal_handler_disconnect (presenter->frames, presenter->frames_id);
  g_clear_object (&presenter->frames);
}

void
desk_presenter_hide_keys (DeskPresenter *presenter)
{
  forget_frames (presenter);
  g_clear_handle_id (&presenter->keys_id, g_source_remove);
  desk_presenter_face_show_keys (presenter->face, FALSE);
}

static void
on_keys_seen (gpointer data)
{
  DeskPresenter *presenter = data;
  presenter->keys_id = 0;
  desk_presenter_hide_keys (presenter);
}

static void
on_painted (DeskPresenter *presenter)
{
  if (!gtk_revealer_get_child_revealed (desk_presenter_face_get_keys (presenter->face)))
    return;
  forget_frames (presenter);
  presenter->keys_id = g_timeout_add_once (KEYS_HIDE_MS, on_keys_seen, presenter);
}

/* Their time begins once they are seen: a large site may take long to draw at first, and without
 * animations they count as revealed before that. */
static void
show_keys (DeskPresenter *presenter)
{
  g_clear_handle_id (&presenter->keys_id, g_source_remove);
  desk_presenter_face_show_keys (presenter->face, TRUE);
  GdkFrameClock *frames = gtk_widget_get_frame_clock (GTK_WIDGET (presenter));
  if (frames == NULL || presenter->frames != NULL)
    return;
  presenter->frames = g_object_ref (frames);
  presenter->frames_id
      = g_signal_connect_swapped (frames, "after-paint", G_CALLBACK (on_painted), presenter);
  gtk_widget_queue_draw (GTK_WIDGET (presenter));
}

/* ---- what keys do ---- */

static void
do_next (DeskPresenter *presenter)
{
  const TrnLiftRun *run = desk_session_get_lift_run (presenter->session);
  double time_s = desk_session_get_time (presenter->session);
  gboolean has_begun = presenter->tick_id != 0 || time_s > run->begins_s[presenter->move];
  if (has_begun && presenter->move + 1 == run->lift->n_moves)
    {
      guint n_runs = desk_session_get_site (presenter->session)->scene->programme->n_runs;
      if (presenter->run + 1 < n_runs)
        go_to_lift (presenter, presenter->run + 1, FALSE);
      else
        {
          stop (presenter);
          desk_session_set_time (presenter->session, run->begins_s[presenter->move + 1]);
        }
      return;
    }
  go_to_move (presenter, presenter->move + (has_begun ? 1 : 0));
  play (presenter);
}

static void
do_previous (DeskPresenter *presenter)
{
  const TrnLiftRun *run = desk_session_get_lift_run (presenter->session);
  if (desk_session_get_time (presenter->session) > run->begins_s[presenter->move])
    go_to_move (presenter, presenter->move);
  else if (presenter->move > 0)
    go_to_move (presenter, presenter->move - 1);
  else if (presenter->run > 0)
    go_to_lift (presenter, presenter->run - 1, TRUE);
}

static void
do_play (DeskPresenter *presenter)
{
  if (presenter->tick_id != 0)
    {
      stop (presenter);
      return;
    }
  const TrnLiftRun *run = desk_session_get_lift_run (presenter->session);
  if (desk_session_get_time (presenter->session) >= run->begins_s[presenter->move + 1])
    go_to_move (presenter, presenter->move);
  play (presenter);
}

static void
go_to_finding (DeskPresenter *presenter, const TrnFinding *finding)
{
  if (finding == NULL)
    return;
  stop (presenter);
  if (finding->move >= 0)
    presenter->move = (guint)finding->move;
  desk_session_set_finding (presenter->session, finding, TRUE);
  show_words (presenter);
}

static void
do_closest (DeskPresenter *presenter)
{
  go_to_finding (presenter, desk_session_worst (presenter->session, presenter->run,
                                                (int)presenter->move, NULL));
}

static void
do_worst (DeskPresenter *presenter)
{
  go_to_finding (presenter, desk_session_worst (presenter->session, presenter->run, -1, NULL));
}

static void
do_leave (DeskPresenter *presenter)
{
  gtk_window_close (GTK_WINDOW (presenter));
}

static const DeskKeys keys[] = {
  { "present.next", { "Right", "Page_Down", "space" } },
  { "present.previous", { "Left", "Page_Up" } },
  { "present.play", { "p" } },
  { "present.closest", { "c" } },
  { "present.worst", { "w" } },
  { "present.view-plan", { "1" } },
  { "present.view-north", { "2" } },
  { "present.view-east", { "3" } },
  { "present.view-south", { "4" } },
  { "present.view-west", { "5" } },
  { "present.view-3d", { "6" } },
  { "present.fit", { "f" } },
  { "present.leave", { "Escape", "F5" } },
};

static const struct
{
  const char *action;
  void (*run) (DeskPresenter *presenter);
} actions[] = {
  { "present.next", do_next },   { "present.previous", do_previous },
  { "present.play", do_play },   { "present.closest", do_closest },
  { "present.worst", do_worst }, { "present.leave", do_leave },
};

const DeskKeys *
desk_presenter_get_keys (guint *n)
{
  *n = G_N_ELEMENTS (keys);
  return keys;
}

/* What is not an action of its own is one of the view. */
static void
run_action (DeskPresenter *presenter, const char *action)
{
  for (guint i = 0; i < G_N_ELEMENTS (actions); i++)
    if (g_str_equal (actions[i].action, action))
      {
        actions[i].run (presenter);
        return;
      }
  g_autofree char *of_stage = g_strconcat ("stage", strchr (action, '.'), NULL);
  gtk_widget_activate_action (presenter->stage, of_stage, NULL);
}

gboolean
desk_presenter_key (DeskPresenter *presenter, guint key, GdkModifierType state)
{
  if ((state & (GDK_CONTROL_MASK | GDK_ALT_MASK)) != 0
      || desk_session_get_lift_run (presenter->session) == NULL)
    return FALSE;
  for (guint i = 0; i < G_N_ELEMENTS (keys); i++)
    for (guint k = 0; keys[i].accels[k] != NULL; k++)
      if (gdk_keyval_from_name (keys[i].accels[k]) == gdk_keyval_to_lower (key))
        {
          run_action (presenter, keys[i].action);
          return TRUE;
        }
  /* Somebody looks for a key. */
  show_keys (presenter);
  return FALSE;
}

static gboolean
on_key (GtkEventControllerKey *controller, guint key, guint code, GdkModifierType state,
        DeskPresenter *presenter)
{
  return desk_presenter_key (presenter, key, state);
}

/* ---- the pointer ---- */

static void
on_pointer_rests (gpointer data)
{
  DeskPresenter *presenter = data;
  presenter->pointer_id = 0;
  gtk_widget_set_cursor_from_name (GTK_WIDGET (presenter), "none");
}

static void
wait_for_pointer (DeskPresenter *presenter)
{
  g_clear_handle_id (&presenter->pointer_id, g_source_remove);
  presenter->pointer_id = g_timeout_add_once (POINTER_HIDES_MS, on_pointer_rests, presenter);
}

/* Also told when the pointer stays and what is below it changes. */
static void
on_motion (GtkEventControllerMotion *controller, double x, double y, DeskPresenter *presenter)
{
  if (x == presenter->pointer_x && y == presenter->pointer_y)
    return;
  presenter->pointer_x = x;
  presenter->pointer_y = y;
  gtk_widget_set_cursor (GTK_WIDGET (presenter), NULL);
  wait_for_pointer (presenter);
}

/* ---- following the session ---- */

static void
on_time (DeskPresenter *presenter)
{
  const TrnLiftRun *run = desk_session_get_lift_run (presenter->session);
  if (run == NULL)
    return;
  guint now = desk_session_get_run (presenter->session);
  double time_s = desk_session_get_time (presenter->session);
  if (now != presenter->run || presenter->move >= run->lift->n_moves
      || time_s < run->begins_s[presenter->move] || time_s > run->begins_s[presenter->move + 1])
    {
      stop (presenter);
      presenter->run = now;
      presenter->move = desk_session_get_move (presenter->session, NULL);
      take_finding (presenter);
    }
  show_words (presenter);
}

/* Another plan, or the same read again: begins where the session is. */
static void
on_site (DeskPresenter *presenter)
{
  stop (presenter);
  /* Nobody is shown a site from which something is missing. */
  if (desk_session_get_lift_run (presenter->session) == NULL
      || !desk_site_is_whole (desk_session_get_site (presenter->session)))
    {
      gtk_window_close (GTK_WINDOW (presenter));
      return;
    }
  presenter->run = desk_session_get_run (presenter->session);
  presenter->move = desk_session_get_move (presenter->session, NULL);
  take_finding (presenter);
  show_words (presenter);
}

static void
on_findings (DeskPresenter *presenter)
{
  if (desk_session_get_lift_run (presenter->session) == NULL)
    return;
  take_finding (presenter);
  show_words (presenter);
}

static void
follow (DeskPresenter *presenter)
{
  DeskSession *session = presenter->session;
  g_signal_connect_object (session, "site-changed", G_CALLBACK (on_site), presenter,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (session, "time-changed", G_CALLBACK (on_time), presenter,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (session, "findings-changed", G_CALLBACK (on_findings), presenter,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (session, "view-changed", G_CALLBACK (show_words), presenter,
                           G_CONNECT_SWAPPED);
}

/* ---- the window ---- */

static gboolean
on_resized (gpointer data)
{
  DeskPresenter *presenter = data;
  presenter->resize_id = 0;
  desk_presenter_face_set_size (presenter->face, presenter->width, presenter->height);
  return G_SOURCE_REMOVE;
}

static void
desk_presenter_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  DeskPresenter *presenter = DESK_PRESENTER (widget);
  GTK_WIDGET_CLASS (desk_presenter_parent_class)->size_allocate (widget, width, height, baseline);
  if (width == presenter->width && height == presenter->height)
    return;
  presenter->width = width;
  presenter->height = height;
  /* Letters must not change while places are given out, and not wait until all is drawn. */
  if (presenter->resize_id == 0)
    presenter->resize_id = g_idle_add_full (G_PRIORITY_DEFAULT, on_resized, presenter, NULL);
}

static void
desk_presenter_dispose (GObject *object)
{
  DeskPresenter *presenter = DESK_PRESENTER (object);
  stop (presenter);
  forget_frames (presenter);
  g_clear_handle_id (&presenter->pointer_id, g_source_remove);
  g_clear_handle_id (&presenter->keys_id, g_source_remove);
  g_clear_handle_id (&presenter->resize_id, g_source_remove);
  GtkApplication *application = gtk_window_get_application (GTK_WINDOW (presenter));
  if (presenter->inhibit != 0 && application != NULL)
    gtk_application_uninhibit (application, presenter->inhibit);
  presenter->inhibit = 0;
  if (presenter->session != NULL)
    {
      g_signal_handlers_disconnect_by_data (presenter->session, presenter);
      desk_settings_force_dark (desk_settings_get (), FALSE);
    }
  g_clear_object (&presenter->session);
  G_OBJECT_CLASS (desk_presenter_parent_class)->dispose (object);
}

static void
desk_presenter_class_init (DeskPresenterClass *class)
{
  G_OBJECT_CLASS (class)->dispose = desk_presenter_dispose;
  GTK_WIDGET_CLASS (class)->size_allocate = desk_presenter_size_allocate;
}

static void
desk_presenter_init (DeskPresenter *presenter)
{
  GtkEventController *key = gtk_event_controller_key_new ();
  gtk_event_controller_set_propagation_phase (key, GTK_PHASE_CAPTURE);
  g_signal_connect (key, "key-pressed", G_CALLBACK (on_key), presenter);
  gtk_widget_add_controller (GTK_WIDGET (presenter), key);
  GtkEventController *motion = gtk_event_controller_motion_new ();
  g_signal_connect (motion, "motion", G_CALLBACK (on_motion), presenter);
  gtk_widget_add_controller (GTK_WIDGET (presenter), motion);
}

static void
build (DeskPresenter *presenter, GtkWidget *like)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  presenter->stage = desk_stage_new (presenter->session);
  desk_stage_set_bare (presenter->stage, TRUE);
  desk_stage_set_camera (presenter->stage, desk_stage_get_camera (like));
  gtk_widget_set_can_target (presenter->stage, FALSE);
  gtk_widget_set_can_focus (presenter->stage, FALSE);
  presenter->face = desk_presenter_face_new (presenter->session);
  gtk_box_append (GTK_BOX (box), presenter->stage);
  gtk_box_append (GTK_BOX (box), presenter->face);
  gtk_window_set_child (GTK_WINDOW (presenter), box);
}

/* Where nobody manages windows, nobody makes them as large as the screen either. */
static void
fill_screen (GtkWindow *window, GtkWindow *parent)
{
  GdkSurface *surface = gtk_native_get_surface (GTK_NATIVE (parent));
  GdkDisplay *display = gtk_widget_get_display (GTK_WIDGET (parent));
  GdkMonitor *monitor
      = surface != NULL ? gdk_display_get_monitor_at_surface (display, surface) : NULL;
  GdkRectangle screen = { 0, 0, 1280, 720 };
  if (monitor != NULL)
    gdk_monitor_get_geometry (monitor, &screen);
  gtk_window_set_default_size (window, screen.width, screen.height);
  /* The letters are right before anything is drawn. */
  desk_presenter_face_set_size (DESK_PRESENTER (window)->face, screen.width, screen.height);
  gtk_window_fullscreen (window);
}

static DeskPresenter *
find (GtkWindow *parent)
{
  g_autoptr (GList) windows = gtk_window_list_toplevels ();
  for (GList *i = windows; i != NULL; i = i->next)
    if (DESK_IS_PRESENTER (i->data) && gtk_window_get_transient_for (i->data) == parent)
      return i->data;
  return NULL;
}

DeskPresenter *
desk_presenter_show (GtkWindow *parent, DeskSession *session, GtkWidget *stage)
{
  g_return_val_if_fail (desk_session_get_lift_run (session) != NULL, NULL);
  DeskPresenter *presenter = find (parent);
  if (presenter != NULL)
    {
      gtk_window_present (GTK_WINDOW (presenter));
      return presenter;
    }
  presenter = g_object_new (DESK_TYPE_PRESENTER, "decorated", FALSE, "title",
                            trn_words_citizen (TRN_CITIZEN_PRESENTING), "transient-for", parent,
                            "destroy-with-parent", TRUE, NULL);
  presenter->session = g_object_ref (session);
  desk_session_set_playing (session, FALSE);
  desk_settings_force_dark (desk_settings_get (), TRUE);
  build (presenter, stage);
  follow (presenter);
  on_site (presenter);
  GtkApplication *application = gtk_window_get_application (parent);
  if (application != NULL)
    {
      gtk_window_set_application (GTK_WINDOW (presenter), application);
      presenter->inhibit = gtk_application_inhibit (application, GTK_WINDOW (presenter),
                                                    GTK_APPLICATION_INHIBIT_IDLE,
                                                    trn_words_citizen (TRN_CITIZEN_PRESENTING));
    }
  fill_screen (GTK_WINDOW (presenter), parent);
  gtk_window_present (GTK_WINDOW (presenter));
  wait_for_pointer (presenter);
  show_keys (presenter);
  return presenter;
}

gboolean
desk_presenter_counts_keys (DeskPresenter *presenter)
{
  return presenter->keys_id != 0;
}

guint
desk_presenter_get_move (DeskPresenter *presenter)
{
  return presenter->move;
}

gboolean
desk_presenter_get_playing (DeskPresenter *presenter)
{
  return presenter->tick_id != 0;
}

RenderCamera
desk_presenter_get_camera (DeskPresenter *presenter)
{
  return desk_stage_get_camera (presenter->stage);
}
