/* gear-now.c: a few questions to the rig for the time that is set, asked when it changes: each
 * takes microseconds, so that no thread is needed and the numbers are those of the picture. */
#include "gear-now.h"

#include <math.h>

#include "load-words.h"
#include "room-numbers.h"
#include "room-parts.h"

#define MOST_HEIGHT_PX 176

#define DESK_TYPE_GEAR_NOW (desk_gear_now_get_type ())
G_DECLARE_FINAL_TYPE (DeskGearNow, desk_gear_now, DESK, GEAR_NOW, GtkBox)

/* A hoist: its name, a note where numbers would be, and rows of a name, a number and its limits. */
typedef struct
{
  GtkWidget *box, *name, *note, *grid;
} Section;

struct _DeskGearNow
{
  GtkBox parent;
  DeskSession *session;
  GtkWidget *expander;
  Section sections[DESK_MOST_HOISTS];
};

G_DEFINE_FINAL_TYPE (DeskGearNow, desk_gear_now, GTK_TYPE_BOX)

/* ---- filling ---- */

static void
add_length (Section *section, const char *label, double value_m, double least, double most)
{
  if (isnan (value_m))
    return;
  g_autofree char *value = trn_words_gauge_value (TRN_GAUGE_HOOK_HEIGHT, value_m);
  g_autofree char *range = trn_words_gauge_range (FALSE, least, most);
  desk_numbers_add (section->grid, label, value, range);
}

static void
add_gauge (Section *section, const TrnLiftRun *run, const DeskGauge *gauge, guint move, double s)
{
  double number = desk_gauge_value (run, NULL, gauge, move, s), least = NAN, most = NAN;
  if (isnan (number))
    return;
  DeskGaugeLimit limits[2];
  guint n = desk_gauge_limits (run, gauge, limits);
  for (guint i = 0; i < n; i++)
    {
      gboolean is_least
          = limits[i].limit == TRN_GAUGE_LEAST_RADIUS || limits[i].limit == TRN_GAUGE_LEAST_ANGLE
            || limits[i].limit == TRN_GAUGE_LOWEST_HOOK || limits[i].limit == TRN_GAUGE_LEAST_TIP;
      *(is_least ? &least : &most) = limits[i].value;
    }
  g_autofree char *value = trn_words_gauge_value (gauge->gauge, number);
  g_autofree char *range
      = trn_words_gauge_range (trn_gauge_scale (gauge->gauge) == TRN_SCALE_ANGLES, least, most);
  desk_numbers_add (section->grid, trn_words_gauge (gauge->gauge), value, range);
}

/* Where the boom points to on the site. */
static void
add_slew (Section *section, const TrnLiftRun *run, const DeskHoist *hoist, guint move, double s)
{
  double slew_rad = desk_rig_value (run, hoist->hoist, TRN_RIG_SLEW, move, s);
  for (guint i = 0; run->rig != NULL && !isnan (slew_rad) && i < run->rig->n_places; i++)
    if (run->rig->places[i].gear == hoist->gear)
      {
        TrnVec3 ahead = trn_rotation_apply (&run->rig->places[i].site_from_gear.turn,
                                            (TrnVec3){ cos (slew_rad), sin (slew_rad), 0 });
        g_autofree char *heading = trn_words_heading (atan2 (ahead.y, ahead.x));
        desk_numbers_add (section->grid, trn_words_gear (TRN_GEAR_SLEW), heading, NULL);
      }
}

/* What there is between block and tip. */
static double
rope_m (const TrnLiftRun *run, const DeskHoist *hoist, guint move, double s)
{
  double above_m = desk_rig_value (run, hoist->hoist, TRN_RIG_TIP_ABOVE_HOOK, move, s);
  return above_m - (hoist->hoist->has_block ? hoist->hoist->block_height_m : 0);
}

static void
show_note (Section *section, const char *text)
{
  gtk_widget_set_visible (section->note, text != NULL);
  gtk_label_set_text (GTK_LABEL (section->note), text != NULL ? text : "");
}

/* What keeps numbers from being there, or makes them those of another moment; NULL: nothing. */
static const char *
note_of (const TrnLiftRun *run, const DeskHoist *hoist, guint move, double s)
{
  double height_m = desk_rig_value (run, hoist->hoist, TRN_RIG_HOOK_HEIGHT, move, s);
  gboolean is_crane = hoist->gear != NULL && hoist->gear->kind == TRN_GEAR_CRANE;
  if (isnan (height_m)
      && (run->rig == NULL
          || trn_rig_missing (run->rig, hoist->hoist, TRN_RIG_HOOK_HEIGHT) != NULL))
    return trn_words_gear (TRN_GEAR_NO_HOOK);
  if (isnan (height_m)
      || (is_crane && isnan (desk_rig_value (run, hoist->hoist, TRN_RIG_BOOM_ANGLE, move, s))))
    return trn_words_gear (TRN_GEAR_NO_PLACE);
  if (move < hoist->hoist->first_move || move > hoist->hoist->last_move)
    return trn_words_gear (TRN_GEAR_WAITS);
  return NULL;
}

/* What a load that hangs free does of itself; NULL: it is as drawn. */
static char *
hangs_text (const TrnLiftRun *run, const DeskHoist *hoist, guint move)
{
  gboolean leans = run->hangs != NULL && !hoist->is_tail && run->hangs[move].leans;
  return leans ? trn_words_hangs_off (run->hangs[move].lean_rad) : NULL;
}

static void
fill_section (DeskGearNow *room, guint index, const DeskHoist *hoist)
{
  Section *section = &room->sections[index];
  const TrnLiftRun *run = desk_session_get_lift_run (room->session);
  double s;
  guint move = desk_session_get_move (room->session, &s);
  g_autofree char *name
      = trn_words_hoist (hoist->is_tail, hoist->gear != NULL ? hoist->gear->name : NULL);
  desk_text_set (section->name, name);
  g_autofree char *hangs = hangs_text (run, hoist, move);
  const char *note = note_of (run, hoist, move, s);
  show_note (section, note != NULL ? note : hangs);
  desk_numbers_begin (section->grid);
  DeskGauge gauges[DESK_MOST_GAUGES];
  guint n = desk_gauges_of (desk_session_get_site (room->session)->plan, run, gauges);
  for (guint i = 0; i < n; i++)
    if (gauges[i].hoist.hoist == hoist->hoist && gauges[i].gauge != TRN_GAUGE_TIP_ABOVE_HOOK
        && !desk_gauge_is_force (gauges[i].gauge))
      add_gauge (section, run, &gauges[i], move, s);
  add_length (section, trn_words_gear (TRN_GEAR_HEADROOM_LEFT),
              desk_headroom_left_m (run, hoist, move, s), NAN, NAN);
  add_slew (section, run, hoist, move, s);
  add_length (section, trn_words_gear (TRN_GEAR_ROPE), rope_m (run, hoist, move, s), NAN, NAN);
  desk_numbers_end (section->grid);
}

static void
follow (DeskGearNow *room)
{
  const TrnLiftRun *run = desk_session_get_lift_run (room->session);
  DeskHoist hoists[DESK_MOST_HOISTS];
  guint n
      = run != NULL ? desk_hoists_of (desk_session_get_site (room->session)->plan, run, hoists) : 0;
  gtk_widget_set_visible (GTK_WIDGET (room), n > 0);
  for (guint i = 0; i < DESK_MOST_HOISTS; i++)
    {
      gtk_widget_set_visible (room->sections[i].box, i < n);
      if (i < n && gtk_expander_get_expanded (GTK_EXPANDER (room->expander)))
        fill_section (room, i, &hoists[i]);
    }
}

static void
follow_view (DeskGearNow *room)
{
  desk_rooms_style (GTK_WIDGET (room), desk_session_get_dark (room->session));
  follow (room);
}

/* ---- building ---- */

static void
build_section (Section *section)
{
  section->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  section->name = desk_text_new ("room-bold");
  section->note = gtk_label_new (NULL);
  gtk_label_set_xalign (GTK_LABEL (section->note), 0);
  gtk_label_set_wrap (GTK_LABEL (section->note), TRUE);
  gtk_widget_add_css_class (section->note, "room-quiet");
  section->grid = desk_numbers_new (FALSE);
  gtk_box_append (GTK_BOX (section->box), section->name);
  gtk_box_append (GTK_BOX (section->box), section->note);
  gtk_box_append (GTK_BOX (section->box), section->grid);
}

static void
desk_gear_now_init (DeskGearNow *room)
{
  GtkWidget *list = gtk_box_new (GTK_ORIENTATION_VERTICAL, 10);
  gtk_widget_add_css_class (list, "room-card");
  for (guint i = 0; i < DESK_MOST_HOISTS; i++)
    {
      build_section (&room->sections[i]);
      gtk_box_append (GTK_BOX (list), room->sections[i].box);
    }
  GtkWidget *scrolled = gtk_scrolled_window_new ();
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scrolled), GTK_POLICY_NEVER,
                                  GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_propagate_natural_height (GTK_SCROLLED_WINDOW (scrolled), TRUE);
  gtk_scrolled_window_set_max_content_height (GTK_SCROLLED_WINDOW (scrolled), MOST_HEIGHT_PX);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scrolled), list);
  room->expander = gtk_expander_new (NULL);
  GtkWidget *title = desk_text_new ("room-title");
  gtk_label_set_text (GTK_LABEL (title), trn_words_gear (TRN_GEAR_NOW));
  gtk_expander_set_label_widget (GTK_EXPANDER (room->expander), title);
  gtk_expander_set_expanded (GTK_EXPANDER (room->expander), TRUE);
  gtk_expander_set_child (GTK_EXPANDER (room->expander), scrolled);
  gtk_accessible_update_property (GTK_ACCESSIBLE (room->expander), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  trn_words_gear (TRN_GEAR_NOW), -1);
  gtk_widget_add_css_class (room->expander, "gear-now");
  gtk_widget_set_hexpand (room->expander, TRUE);
  g_signal_connect_swapped (room->expander, "notify::expanded", G_CALLBACK (follow), room);
  gtk_box_append (GTK_BOX (room), room->expander);
}

static void
desk_gear_now_dispose (GObject *object)
{
  g_clear_object (&DESK_GEAR_NOW (object)->session);
  G_OBJECT_CLASS (desk_gear_now_parent_class)->dispose (object);
}

static void
desk_gear_now_class_init (DeskGearNowClass *class)
{
  G_OBJECT_CLASS (class)->dispose = desk_gear_now_dispose;
}

GtkWidget *
desk_gear_now_new (DeskSession *session)
{
  static const char *const of_time[] = { "site-changed", "time-changed", NULL };
  static const char *const of_view[] = { "view-changed", NULL };
  DeskGearNow *room = g_object_new (DESK_TYPE_GEAR_NOW, NULL);
  room->session = g_object_ref (session);
  desk_rooms_style (GTK_WIDGET (room), desk_session_get_dark (session));
  desk_follow (session, room, G_CALLBACK (follow), of_time);
  desk_follow (session, room, G_CALLBACK (follow_view), of_view);
  follow (room);
  return GTK_WIDGET (room);
}
