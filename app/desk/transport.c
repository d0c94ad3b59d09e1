/* transport.c: the bar above the strip: play, steps, moves, time, rate, and where it is closest. */
#include "transport.h"

#include <math.h>

#include "desk-words.h"
#include "gauge-words.h"
#include "number.h"
#include "room-parts.h"

static const double rates[] = { 0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100 };

#define DESK_TYPE_TRANSPORT (desk_transport_get_type ())
G_DECLARE_FINAL_TYPE (DeskTransport, desk_transport, DESK, TRANSPORT, GtkBox)

struct _DeskTransport
{
  GtkBox parent;
  DeskSession *session;
  GtkWidget *play, *loop, *rate, *lines, *worst, *time, *total;
  GtkWidget *steps[4]; /* insensitive without a lift */
  gboolean is_following;
};

G_DEFINE_FINAL_TYPE (DeskTransport, desk_transport, GTK_TYPE_BOX)

static void
name_button (GtkWidget *button, TrnDeskText text)
{
  desk_hint_set (button, trn_words_desk (text));
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  trn_words_desk (text), -1);
}

static void
on_play (DeskTransport *bar)
{
  desk_session_set_playing (bar->session, !desk_session_get_playing (bar->session));
}

static void
on_step_back (DeskTransport *bar)
{
  desk_session_step (bar->session, -1);
}

static void
on_step_forward (DeskTransport *bar)
{
  desk_session_step (bar->session, 1);
}

static void
on_previous (DeskTransport *bar)
{
  desk_session_previous_move (bar->session);
}

static void
on_next (DeskTransport *bar)
{
  desk_session_next_move (bar->session);
}

static const TrnFinding *
find_worst (DeskTransport *bar)
{
  return desk_session_worst (bar->session, desk_session_get_run (bar->session), -1, NULL);
}

static void
on_worst (DeskTransport *bar)
{
  const TrnFinding *worst = find_worst (bar);
  if (worst == NULL)
    return;
  desk_session_set_playing (bar->session, FALSE);
  desk_session_set_finding (bar->session, worst, TRUE);
}

static void
on_loop (DeskTransport *bar)
{
  if (!bar->is_following)
    desk_session_set_loop (bar->session,
                           gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (bar->loop)));
}

static void
on_rate (DeskTransport *bar)
{
  guint selected = gtk_drop_down_get_selected (GTK_DROP_DOWN (bar->rate));
  if (!bar->is_following && selected < G_N_ELEMENTS (rates))
    desk_session_set_rate (bar->session, rates[selected]);
}

/* ---- following the session ---- */

static void
follow_time (DeskTransport *bar)
{
  g_autofree char *time = trn_words_column_time (desk_session_get_time (bar->session));
  g_autofree char *total = trn_words_of_total (desk_session_get_duration (bar->session));
  desk_number_set (bar->time, time);
  desk_label_set (bar->total, total);
}

static guint
nearest_rate (double rate)
{
  guint best = 0;
  for (guint i = 1; i < G_N_ELEMENTS (rates); i++)
    if (fabs (log (rates[i] / rate)) < fabs (log (rates[best] / rate)))
      best = i;
  return best;
}

static void
follow_playing (DeskTransport *bar)
{
  gboolean playing = desk_session_get_playing (bar->session);
  bar->is_following = TRUE;
  gtk_button_set_icon_name (GTK_BUTTON (bar->play), playing ? "media-playback-pause-symbolic"
                                                            : "media-playback-start-symbolic");
  name_button (bar->play, playing ? TRN_DESK_PAUSE : TRN_DESK_PLAY);
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (bar->loop),
                                desk_session_get_loop (bar->session));
  gtk_drop_down_set_selected (GTK_DROP_DOWN (bar->rate),
                              nearest_rate (desk_session_get_rate (bar->session)));
  bar->is_following = FALSE;
}

static void
follow_site (DeskTransport *bar)
{
  gboolean is_open = desk_session_get_lift_run (bar->session) != NULL;
  gtk_widget_set_sensitive (bar->play, is_open);
  gtk_widget_set_sensitive (bar->worst, find_worst (bar) != NULL);
  for (guint i = 0; i < G_N_ELEMENTS (bar->steps); i++)
    gtk_widget_set_sensitive (bar->steps[i], is_open);
  follow_time (bar);
}

static void
follow_lines (DeskTransport *bar)
{
  const DeskProfile *profile = desk_session_get_profile (bar->session);
  gtk_widget_set_visible (bar->lines, profile != NULL && profile->n_gauges > 0);
}

/* ---- building ---- */

static GtkWidget *
add_button (DeskTransport *bar, const char *icon, TrnDeskText text, GCallback callback)
{
  GtkWidget *button = gtk_button_new_from_icon_name (icon);
  gtk_widget_add_css_class (button, "flat");
  name_button (button, text);
  g_signal_connect_swapped (button, "clicked", callback, bar);
  gtk_box_append (GTK_BOX (bar), button);
  return button;
}

static void
add_times (DeskTransport *bar)
{
  bar->time = desk_number_new ("room-title");
  gtk_widget_set_margin_start (bar->time, 2);
  gtk_box_append (GTK_BOX (bar), bar->time);
  bar->total = gtk_label_new (NULL);
  gtk_widget_add_css_class (bar->total, "room-quiet");
  gtk_widget_add_css_class (bar->total, "room-number");
  gtk_widget_set_margin_start (bar->total, 4);
  gtk_label_set_xalign (GTK_LABEL (bar->total), 0);
  gtk_widget_set_hexpand (bar->total, TRUE);
  gtk_box_append (GTK_BOX (bar), bar->total);
}

static void
set_up_rate (GtkListItemFactory *factory, GtkListItem *item)
{
  GtkWidget *label = gtk_label_new (NULL);
  gtk_widget_add_css_class (label, "room-number");
  gtk_list_item_set_child (item, label);
}

/* The button has little room. */
static void
bind_chosen_rate (GtkListItemFactory *factory, GtkListItem *item)
{
  guint rate = gtk_list_item_get_position (item);
  g_autofree char *text
      = rate < G_N_ELEMENTS (rates) ? trn_words_rate_short (rates[rate]) : g_strdup ("");
  desk_label_set (gtk_list_item_get_child (item), text);
}

static void
bind_rate (GtkListItemFactory *factory, GtkListItem *item)
{
  desk_label_set (gtk_list_item_get_child (item),
                  gtk_string_object_get_string (gtk_list_item_get_item (item)));
}

static GtkListItemFactory *
rate_factory_new (GCallback bind)
{
  GtkListItemFactory *factory = gtk_signal_list_item_factory_new ();
  g_signal_connect (factory, "setup", G_CALLBACK (set_up_rate), NULL);
  g_signal_connect (factory, "bind", bind, NULL);
  return factory;
}

static void
add_rate (DeskTransport *bar)
{
  g_autoptr (GtkStringList) words = gtk_string_list_new (NULL);
  for (guint i = 0; i < G_N_ELEMENTS (rates); i++)
    gtk_string_list_take (words, trn_words_rate (rates[i]));
  bar->rate = gtk_drop_down_new (G_LIST_MODEL (g_steal_pointer (&words)), NULL);
  g_autoptr (GtkListItemFactory) chosen = rate_factory_new (G_CALLBACK (bind_chosen_rate));
  g_autoptr (GtkListItemFactory) listed = rate_factory_new (G_CALLBACK (bind_rate));
  gtk_drop_down_set_factory (GTK_DROP_DOWN (bar->rate), chosen);
  gtk_drop_down_set_list_factory (GTK_DROP_DOWN (bar->rate), listed);
  gtk_widget_add_css_class (bar->rate, "flat");
  name_button (bar->rate, TRN_DESK_RATE);
  g_signal_connect_swapped (bar->rate, "notify::selected", G_CALLBACK (on_rate), bar);
  gtk_box_append (GTK_BOX (bar), bar->rate);
}

/* Which gauges the strip shows; the actions are those of the window. */
static void
add_lines (DeskTransport *bar)
{
  g_autoptr (GMenu) menu = g_menu_new ();
  for (guint i = 0; i < TRN_N_GAUGES; i++)
    {
      g_autofree char *action = g_strconcat ("win.", desk_gauge_action ((TrnGauge)i), NULL);
      g_menu_append (menu, trn_words_gauge ((TrnGauge)i), action);
    }
  bar->lines = gtk_menu_button_new ();
  gtk_menu_button_set_label (GTK_MENU_BUTTON (bar->lines), trn_words_gear (TRN_GEAR_STRIP_LINES));
  gtk_menu_button_set_menu_model (GTK_MENU_BUTTON (bar->lines), G_MENU_MODEL (menu));
  gtk_widget_add_css_class (bar->lines, "flat");
  gtk_widget_set_tooltip_text (bar->lines, trn_words_gear (TRN_GEAR_STRIP_LINES_HINT));
  gtk_widget_set_visible (bar->lines, FALSE);
  gtk_box_append (GTK_BOX (bar), bar->lines);
}

static void
add_worst (DeskTransport *bar)
{
  bar->worst = gtk_button_new_with_label (trn_words_desk (TRN_DESK_WORST));
  gtk_widget_set_tooltip_text (bar->worst, trn_words_desk (TRN_DESK_WORST_HINT));
  gtk_widget_set_margin_start (bar->worst, 2);
  g_signal_connect_swapped (bar->worst, "clicked", G_CALLBACK (on_worst), bar);
  gtk_box_append (GTK_BOX (bar), bar->worst);
}

static void
desk_transport_init (DeskTransport *bar)
{
  gtk_orientable_set_orientation (GTK_ORIENTABLE (bar), GTK_ORIENTATION_HORIZONTAL);
  gtk_box_set_spacing (GTK_BOX (bar), 1);
  gtk_widget_add_css_class (GTK_WIDGET (bar), "strip-room");
  gtk_widget_add_css_class (GTK_WIDGET (bar), "transport");
  bar->steps[0] = add_button (bar, "media-skip-backward-symbolic", TRN_DESK_PREVIOUS_MOVE,
                              G_CALLBACK (on_previous));
  bar->steps[1] = add_button (bar, "media-seek-backward-symbolic", TRN_DESK_STEP_BACK,
                              G_CALLBACK (on_step_back));
  bar->play
      = add_button (bar, "media-playback-start-symbolic", TRN_DESK_PLAY, G_CALLBACK (on_play));
  gtk_widget_remove_css_class (bar->play, "flat");
  bar->steps[2] = add_button (bar, "media-seek-forward-symbolic", TRN_DESK_STEP_FORWARD,
                              G_CALLBACK (on_step_forward));
  bar->steps[3]
      = add_button (bar, "media-skip-forward-symbolic", TRN_DESK_NEXT_MOVE, G_CALLBACK (on_next));
  add_times (bar);
  bar->loop = gtk_toggle_button_new ();
  gtk_button_set_icon_name (GTK_BUTTON (bar->loop), "media-playlist-repeat-symbolic");
  gtk_widget_add_css_class (bar->loop, "flat");
  name_button (bar->loop, TRN_DESK_LOOP);
  g_signal_connect_swapped (bar->loop, "toggled", G_CALLBACK (on_loop), bar);
  gtk_box_append (GTK_BOX (bar), bar->loop);
  add_rate (bar);
  add_lines (bar);
  add_worst (bar);
}

static void
desk_transport_dispose (GObject *object)
{
  g_clear_object (&DESK_TRANSPORT (object)->session);
  G_OBJECT_CLASS (desk_transport_parent_class)->dispose (object);
}

static void
desk_transport_class_init (DeskTransportClass *class)
{
  G_OBJECT_CLASS (class)->dispose = desk_transport_dispose;
  gtk_widget_class_set_accessible_role (GTK_WIDGET_CLASS (class), GTK_ACCESSIBLE_ROLE_TOOLBAR);
}

GtkWidget *
desk_transport_new (DeskSession *session)
{
  static const char *const of_site[] = { "site-changed", "findings-changed", NULL };
  static const char *const of_lines[] = { "site-changed", "profile-changed", "time-changed", NULL };
  static const char *const of_time[] = { "time-changed", NULL };
  static const char *const of_playing[] = { "playing-changed", NULL };
  DeskTransport *bar = g_object_new (DESK_TYPE_TRANSPORT, NULL);
  bar->session = g_object_ref (session);
  desk_rooms_style (GTK_WIDGET (bar), desk_session_get_dark (session));
  desk_follow (session, bar, G_CALLBACK (follow_site), of_site);
  desk_follow (session, bar, G_CALLBACK (follow_lines), of_lines);
  desk_follow (session, bar, G_CALLBACK (follow_time), of_time);
  desk_follow (session, bar, G_CALLBACK (follow_playing), of_playing);
  follow_site (bar);
  follow_lines (bar);
  follow_playing (bar);
  return GTK_WIDGET (bar);
}
