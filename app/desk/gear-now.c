/* gear-now.c: the numbers of the gear as a table, a column for each hoist, so that two cranes are
 * read side by side and both are in view. A few questions to the rig for the time that is set,
 * asked when it changes: each takes microseconds, so that no thread is needed and the numbers are
 * those of the picture. */
#include "gear-now.h"

#include <math.h>

#include "load-words.h"
#include "room-fold.h"
#include "number.h"
#include "room-parts.h"

/* That are about the gear itself. */
#define CHECKS                                                                                     \
  (TRN_CHECK_BIT (TRN_CHECK_HEADROOM) | TRN_CHECK_BIT (TRN_CHECK_REACH)                            \
   | TRN_CHECK_BIT (TRN_CHECK_TAIL_SWING) | TRN_CHECK_BIT (TRN_CHECK_STANDING)                     \
   | TRN_CHECK_BIT (TRN_CHECK_FOOTING))
/* Of what the rows are called, which takes a second line rather than room from the numbers. */
#define LABEL_CHARS 10
/* Of a hook and of its gear above their column. So many are always there: more would make the card
 * wider than its room. What is longer takes a further line, up to so many. */
#define NOTE_LINES 8
#define NAME_LINES 4
#define NAME_CHARS 13
#define LEAST_NAME_CHARS 11
#define LONGEST_NAME 60

#define DESK_TYPE_GEAR_NOW (desk_gear_now_get_type ())
G_DECLARE_FINAL_TYPE (DeskGearNow, desk_gear_now, DESK, GEAR_NOW, GtkBox)

typedef enum
{
  ROW_HOOK_HEIGHT,
  ROW_RADIUS,
  ROW_BOOM_ANGLE,
  ROW_HEADROOM,
  ROW_SLEW,
  ROW_ROPE,
  N_ROWS,
} RowKind;

/* A number of one hoist, and what it has to stay within: behind it, below it where there are two
 * hoists. */
typedef struct
{
  GtkWidget *box, *value, *range;
} Cell;

struct _DeskGearNow
{
  GtkBox parent;
  DeskSession *session;
  GtkWidget *expander, *title;
  struct
  {
    GtkWidget *label;
    Cell cells[DESK_MOST_HOISTS];
  } rows[N_ROWS];
  GtkWidget *names[DESK_MOST_HOISTS], *notes[DESK_MOST_HOISTS];
};

G_DEFINE_FINAL_TYPE (DeskGearNow, desk_gear_now, GTK_TYPE_BOX)

/* What a hoist has to say. */
typedef struct
{
  char *name, *hook, *gear, *note;       /* owned; no gear, no note: NULL */
  char *values[N_ROWS], *ranges[N_ROWS]; /* owned; NULL: none */
} Said;

static void
said_clear (Said *said)
{
  g_free (said->name);
  g_free (said->hook);
  g_free (said->gear);
  g_free (said->note);
  for (guint i = 0; i < N_ROWS; i++)
    {
      g_free (said->values[i]);
      g_free (said->ranges[i]);
    }
}

/* ---- what is said ---- */

static const char *
name_of_row (RowKind row)
{
  switch (row)
    {
    case ROW_HOOK_HEIGHT:
      return trn_words_gauge (TRN_GAUGE_HOOK_HEIGHT);
    case ROW_RADIUS:
      return trn_words_gauge (TRN_GAUGE_RADIUS);
    case ROW_BOOM_ANGLE:
      return trn_words_gauge (TRN_GAUGE_BOOM_ANGLE);
    case ROW_HEADROOM:
      return trn_words_gear (TRN_GEAR_HEADROOM_LEFT);
    case ROW_SLEW:
      return trn_words_gear (TRN_GEAR_SLEW);
    case ROW_ROPE:
      return trn_words_gear (TRN_GEAR_ROPE);
    case N_ROWS:
      break;
    }
  g_assert_not_reached ();
}

static RowKind
row_of_gauge (TrnGauge gauge)
{
  return gauge == TRN_GAUGE_HOOK_HEIGHT ? ROW_HOOK_HEIGHT
         : gauge == TRN_GAUGE_RADIUS    ? ROW_RADIUS
                                        : ROW_BOOM_ANGLE;
}

/* A distance that is to be left. */
static void
say_length (Said *said, RowKind row, double value_m)
{
  if (!isnan (value_m))
    said->values[row] = trn_words_gauge_value (TRN_GAUGE_TIP_ABOVE_HOOK, value_m);
}

static void
say_gauge (Said *said, RowKind row, const TrnLiftRun *run, const DeskGauge *gauge, guint move,
           double s)
{
  double number = desk_gauge_value (run, NULL, gauge, move, s), least, most;
  if (isnan (number))
    return;
  desk_gauge_bounds (run, gauge, &least, &most);
  said->values[row] = desk_gauge_text (run, gauge, number);
  said->ranges[row]
      = trn_words_gauge_range (trn_gauge_scale (gauge->gauge) == TRN_SCALE_ANGLES, least, most);
}

/* Where the boom points to on the site. */
static void
say_slew (Said *said, const TrnLiftRun *run, const DeskHoist *hoist, guint move, double s)
{
  double slew_rad = desk_rig_value (run, hoist->hoist, TRN_RIG_SLEW, move, s);
  for (guint i = 0; run->rig != NULL && !isnan (slew_rad) && i < run->rig->n_places; i++)
    if (run->rig->places[i].gear == hoist->gear && said->values[ROW_SLEW] == NULL)
      {
        TrnVec3 ahead = trn_rotation_apply (&run->rig->places[i].site_from_gear.turn,
                                            (TrnVec3){ cos (slew_rad), sin (slew_rad), 0 });
        said->values[ROW_SLEW] = trn_words_heading (atan2 (ahead.y, ahead.x));
      }
}

/* What there is between block and tip. */
static double
rope_m (const TrnLiftRun *run, const DeskHoist *hoist, guint move, double s)
{
  double above_m = desk_rig_value (run, hoist->hoist, TRN_RIG_TIP_ABOVE_HOOK, move, s);
  return above_m - (hoist->hoist->has_block ? hoist->hoist->block_height_m : 0);
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
  if (run->hangs != NULL && !hoist->is_tail && run->hangs[move].missing != NULL)
    return g_strdup (trn_words_hangs_unknown ());
  gboolean leans = run->hangs != NULL && !hoist->is_tail && run->hangs[move].leans;
  return leans ? trn_words_hangs_off (run->hangs[move].lean_rad) : NULL;
}

static void
say (DeskGearNow *room, const DeskHoist *hoist, Said *said)
{
  const TrnLiftRun *run = desk_session_get_lift_run (room->session);
  double s;
  guint move = desk_session_get_move (room->session, &s);
  *said = (Said){ .name = trn_words_hoist (desk_hoist_role (hoist),
                                           hoist->gear != NULL ? hoist->gear->name : NULL) };
  said->hook = trn_words_hoist (desk_hoist_role (hoist), NULL);
  said->gear = hoist->gear != NULL ? trn_words_clean (hoist->gear->name, LONGEST_NAME) : NULL;
  const char *note = note_of (run, hoist, move, s);
  said->note = note != NULL ? g_strdup (note) : hangs_text (run, hoist, move);
  DeskGauge gauges[DESK_MOST_GAUGES];
  guint n = desk_gauges_of (desk_session_get_site (room->session)->plan, run, gauges);
  for (guint i = 0; i < n; i++)
    if (gauges[i].hoist.hoist == hoist->hoist && gauges[i].gauge <= TRN_GAUGE_BOOM_ANGLE)
      say_gauge (said, row_of_gauge (gauges[i].gauge), run, &gauges[i], move, s);
  say_length (said, ROW_HEADROOM, desk_headroom_left_m (run, hoist, move, s));
  if (said->values[ROW_HEADROOM] != NULL)
    said->ranges[ROW_HEADROOM] = g_strdup (trn_words_gear (TRN_GEAR_NO_TOLERANCES));
  say_slew (said, run, hoist, move, s);
  say_length (said, ROW_ROPE, rope_m (run, hoist, move, s));
}

static gboolean
says_anything (const Said *said)
{
  gboolean says = said->note != NULL;
  for (guint row = 0; row < N_ROWS; row++)
    says |= said->values[row] != NULL;
  return says;
}

/* ---- showing it ---- */

static void
show_cell (const Cell *cell, const Said *said, RowKind row, gboolean is_one)
{
  const char *label = name_of_row (row), *value = said->values[row];
  const char *range = said->ranges[row];
  gtk_orientable_set_orientation (GTK_ORIENTABLE (cell->box),
                                  is_one ? GTK_ORIENTATION_HORIZONTAL : GTK_ORIENTATION_VERTICAL);
  desk_number_set (cell->value, value != NULL ? value : "–");
  desk_label_set (cell->range, range != NULL ? range : "");
  gtk_label_set_xalign (GTK_LABEL (cell->range), is_one ? 0 : 1);
  gtk_label_set_justify (GTK_LABEL (cell->range), is_one ? GTK_JUSTIFY_LEFT : GTK_JUSTIFY_RIGHT);
  /* Beside its number it keeps to its row: a label of two lines takes both, wrapped or not. */
  gtk_label_set_wrap (GTK_LABEL (cell->range), !is_one);
  gtk_label_set_lines (GTK_LABEL (cell->range), is_one ? 1 : 2);
  gtk_widget_set_visible (cell->range, range != NULL);
  gtk_widget_set_margin_start (cell->range, is_one ? 8 : 0);
  g_autofree char *told
      = g_strdup_printf ("%s, %s: %s%s%s", said->name, label, value != NULL ? value : "–",
                         range != NULL ? ", " : "", range != NULL ? range : "");
  gtk_accessible_update_property (GTK_ACCESSIBLE (cell->value), GTK_ACCESSIBLE_PROPERTY_LABEL, told,
                                  -1);
}

static void
show_row (DeskGearNow *room, RowKind row, const Said *said, guint n)
{
  gboolean is_there = FALSE;
  for (guint i = 0; i < n; i++)
    is_there |= said[i].values[row] != NULL;
  gtk_widget_set_visible (room->rows[row].label, is_there);
  /* A label that may wrap asks for the height of its narrowest form. */
  gtk_label_set_wrap (GTK_LABEL (room->rows[row].label), n > 1);
  for (guint i = 0; i < DESK_MOST_HOISTS; i++)
    {
      gtk_widget_set_visible (room->rows[row].cells[i].box, is_there && i < n);
      if (is_there && i < n)
        show_cell (&room->rows[row].cells[i], &said[i], row, n == 1);
    }
}

/* One hoist has its name above all, two have theirs above their columns. */
static void
show_names (DeskGearNow *room, const Said *said, guint n, const char *aside)
{
  gtk_widget_set_visible (room->title, n == 1);
  if (n == 1)
    desk_text_set (room->title, said[0].name);
  for (guint i = 0; i < DESK_MOST_HOISTS; i++)
    {
      gboolean has_note = i < n && said[i].note != NULL;
      gtk_widget_set_visible (room->names[i], n > 1 && i < n);
      gtk_widget_set_visible (room->notes[i], has_note);
      g_autofree char *name = i < n && said[i].gear != NULL
                                  ? g_strconcat (said[i].hook, "\n", said[i].gear, NULL)
                              : i < n ? g_strdup (said[i].hook)
                                      : g_strdup ("");
      desk_label_set (room->names[i], name);
      if (i < n)
        desk_hint_set (room->names[i], said[i].name);
      g_autofree char *note = !has_note ? NULL
                              : n == 1  ? g_strdup (said[i].note)
                                        : trn_words_gear_note (said[i].hook, said[i].note);
      desk_label_set (room->notes[i], note != NULL ? note : "");
    }
  if (aside == NULL || n == DESK_MOST_HOISTS)
    return;
  gtk_widget_set_visible (room->notes[n], TRUE);
  desk_label_set (room->notes[n], aside);
}

/* Of gear that has no numbers, as a trolley, while it holds the load. */
static char *
aside_of (DeskGearNow *room, const DeskHoist *hoist)
{
  double s;
  const guint move = desk_session_get_move (room->session, &s);
  if (move < hoist->hoist->first_move || move > hoist->hoist->last_move)
    return NULL;
  g_autofree char *name = trn_words_hoist (desk_hoist_role (hoist), hoist->gear->name);
  return trn_words_gear_note (name, trn_words_gear (TRN_GEAR_HOLDS));
}

static void
follow (DeskGearNow *room)
{
  const TrnLiftRun *run = desk_session_get_lift_run (room->session);
  DeskHoist hoists[DESK_MOST_HOISTS];
  guint n
      = run != NULL ? desk_hoists_of (desk_session_get_site (room->session)->plan, run, hoists) : 0;
  gtk_widget_set_visible (GTK_WIDGET (room), n > 0);
  if (n == 0 || !desk_fold_is_open (room->expander))
    return;
  Said said[DESK_MOST_HOISTS] = { { .name = NULL } };
  g_autofree char *aside = NULL;
  guint n_said = 0;
  for (guint i = 0; i < n; i++)
    {
      /* No column of dashes. The first keeps its place, so that there is one. */
      if (i > 0 && !desk_hoist_has_hook (&hoists[i]))
        {
          g_free (aside);
          aside = aside_of (room, &hoists[i]);
          continue;
        }
      say (room, &hoists[i], &said[n_said]);
      if (i == 0 || says_anything (&said[n_said]))
        n_said++;
      else
        said_clear (&said[n_said]);
    }
  show_names (room, said, n_said, aside);
  for (guint row = 0; row < N_ROWS; row++)
    show_row (room, (RowKind)row, said, n_said);
  for (guint i = 0; i < n_said; i++)
    said_clear (&said[i]);
}

static void
follow_view (DeskGearNow *room)
{
  desk_rooms_style (GTK_WIDGET (room), desk_session_get_dark (room->session));
  follow (room);
}

/* ---- building ---- */

static GtkWidget *
wrapped_new (const char *style_class, int most_lines)
{
  GtkWidget *label = desk_text_new (style_class);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  gtk_label_set_lines (GTK_LABEL (label), most_lines);
  return label;
}

static Cell
cell_new (void)
{
  Cell cell = { gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0), desk_number_new (NULL),
                wrapped_new ("room-quiet", 2) };
  gtk_widget_add_css_class (cell.range, "room-number");
  gtk_widget_set_hexpand (cell.range, TRUE);
  gtk_box_append (GTK_BOX (cell.box), cell.value);
  gtk_box_append (GTK_BOX (cell.box), cell.range);
  return cell;
}

static GtkWidget *
build_table (DeskGearNow *room)
{
  GtkWidget *grid = gtk_grid_new ();
  g_autoptr (GtkSizeGroup) values = gtk_size_group_new (GTK_SIZE_GROUP_HORIZONTAL);
  gtk_grid_set_column_spacing (GTK_GRID (grid), 4);
  gtk_grid_set_row_spacing (GTK_GRID (grid), 1);
  for (guint i = 0; i < DESK_MOST_HOISTS; i++)
    {
      room->names[i] = wrapped_new ("room-bold", NAME_LINES);
      gtk_widget_add_css_class (room->names[i], "room-small");
      gtk_label_set_xalign (GTK_LABEL (room->names[i]), 1);
      gtk_label_set_yalign (GTK_LABEL (room->names[i]), 1);
      gtk_label_set_justify (GTK_LABEL (room->names[i]), GTK_JUSTIFY_RIGHT);
      gtk_label_set_width_chars (GTK_LABEL (room->names[i]), LEAST_NAME_CHARS);
      gtk_label_set_max_width_chars (GTK_LABEL (room->names[i]), NAME_CHARS);
      gtk_grid_attach (GTK_GRID (grid), room->names[i], (int)i + 1, 0, 1, 1);
    }
  for (guint row = 0; row < N_ROWS; row++)
    {
      room->rows[row].label = wrapped_new (NULL, 2);
      gtk_widget_set_valign (room->rows[row].label, GTK_ALIGN_START);
      gtk_label_set_width_chars (GTK_LABEL (room->rows[row].label), LABEL_CHARS);
      desk_label_set (room->rows[row].label, name_of_row ((RowKind)row));
      gtk_grid_attach (GTK_GRID (grid), room->rows[row].label, 0, (int)row + 1, 1, 1);
      for (guint i = 0; i < DESK_MOST_HOISTS; i++)
        {
          Cell cell = room->rows[row].cells[i] = cell_new ();
          gtk_widget_set_hexpand (cell.box, TRUE);
          if (i == 0)
            gtk_size_group_add_widget (values, cell.value);
          gtk_grid_attach (GTK_GRID (grid), cell.box, (int)i + 1, (int)row + 1, 1, 1);
        }
    }
  return grid;
}

static void
desk_gear_now_init (DeskGearNow *room)
{
  GtkWidget *list = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);
  gtk_widget_add_css_class (list, "room-card");
  room->title = desk_text_new ("room-bold");
  gtk_box_append (GTK_BOX (list), room->title);
  for (guint i = 0; i < DESK_MOST_HOISTS; i++)
    room->notes[i] = wrapped_new ("room-quiet", NOTE_LINES);
  gtk_box_append (GTK_BOX (list), build_table (room));
  for (guint i = 0; i < DESK_MOST_HOISTS; i++)
    gtk_box_append (GTK_BOX (list), room->notes[i]);
  room->expander = desk_fold_new (trn_words_gear (TRN_GEAR_NOW), list);
  gtk_expander_set_expanded (GTK_EXPANDER (room->expander), TRUE);
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
  desk_fold_follow (room->expander, session, CHECKS);
  desk_follow (session, room, G_CALLBACK (follow), of_time);
  desk_follow (session, room, G_CALLBACK (follow_view), of_view);
  follow (room);
  return GTK_WIDGET (room);
}
