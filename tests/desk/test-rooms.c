/* test-rooms.c: the rooms that follow the session, shown in a window of their own on the demo of
 * the lock gate: rows are activated, keys pressed through the same function that the keyboard
 * calls, and time, selection and words asserted.
 *
 * What the widgets say is compared with the session and with app/words, never with numbers copied
 * from a run. */
#include <gtk/gtk.h>
#include <math.h>
#include <string.h>

#include "desk-fixture.h"
#include "keep-loaded.h"
#include "desk-words.h"
#include "finding-card.h"
#include "nearest.h"
#include "number.h"
#include "room-layout.h"
#include "room-list.h"
#include "room-parts.h"
#include "sequence.h"
#include "strip-data.h"
#include "strip.h"
#include "transport.h"
#include "text-of.h"

typedef struct
{
  DeskSession *session;
  GtkWidget *window, *sequence, *nearest, *card, *strip, *transport;
} Rooms;

static void
rooms_make (Rooms *rooms)
{
  *rooms = (Rooms){ .session = desk_session_new (), .window = gtk_window_new () };
  rooms->sequence = desk_sequence_new (rooms->session);
  rooms->nearest = desk_nearest_new (rooms->session);
  rooms->card = desk_finding_card_new (rooms->session);
  rooms->strip = desk_strip_new (rooms->session);
  rooms->transport = desk_transport_new (rooms->session);
  GtkWidget *middle = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  gtk_widget_set_vexpand (rooms->strip, TRUE);
  gtk_box_append (GTK_BOX (middle), rooms->transport);
  gtk_box_append (GTK_BOX (middle), rooms->strip);
  GtkWidget *across = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);
  gtk_box_append (GTK_BOX (across), rooms->sequence);
  gtk_box_append (GTK_BOX (across), middle);
  gtk_box_append (GTK_BOX (across), rooms->nearest);
  gtk_box_append (GTK_BOX (across), rooms->card);
  gtk_window_set_default_size (GTK_WINDOW (rooms->window), 1300, 800);
  gtk_window_set_child (GTK_WINDOW (rooms->window), across);
  gtk_window_present (GTK_WINDOW (rooms->window));
  test_wait (gtk_widget_get_mapped (rooms->strip));
}

static gboolean
is_worked_out (const Rooms *rooms)
{
  return test_is_settled (rooms->session);
}

static void
rooms_open (Rooms *rooms, GFile *file)
{
  desk_document_open (desk_session_get_document (rooms->session), file, 0);
  test_wait (is_worked_out (rooms));
  test_idle (0.2);
}

static void
rooms_clear (Rooms *rooms)
{
  gtk_window_destroy (GTK_WINDOW (rooms->window));
  test_idle (0.05);
  g_object_unref (rooms->session);
}

/* The lock gate in one set of rooms for all tests of it, since its check takes a while; at its
 * beginning, with nothing looked at. */
static Rooms gate;

static Rooms *
gate_open (void)
{
  if (gate.session == NULL)
    {
      g_autoptr (GFile) file = test_demo ("lock-gate");
      rooms_make (&gate);
      rooms_open (&gate, file);
    }
  desk_session_set_playing (gate.session, FALSE);
  desk_session_set_finding (gate.session, NULL, FALSE);
  desk_session_set_selected (gate.session, NULL);
  desk_session_set_time (gate.session, 0);
  test_wait (desk_session_get_moment (gate.session)->time_s == 0);
  test_idle (0.1);
  return &gate;
}

/* The first widget below @root of that type. */
static GtkWidget *
find_type (GtkWidget *root, GType type)
{
  if (g_type_is_a (G_OBJECT_TYPE (root), type))
    return root;
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = find_type (child, type);
      if (found != NULL)
        return found;
    }
  return NULL;
}

/* A visible label below @root that has this text, or whose text begins so with @prefix. */
static GtkWidget *
find_label (GtkWidget *root, const char *text, gboolean prefix)
{
  const char *own = gtk_widget_get_mapped (root) ? test_text_of (root) : NULL;
  if (own != NULL && (prefix ? g_str_has_prefix (own, text) : strcmp (own, text) == 0))
    return root;
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = find_label (child, text, prefix);
      if (found != NULL)
        return found;
    }
  return NULL;
}

static void
press_button (GtkWidget *root, const char *label)
{
  GtkWidget *text = find_label (root, label, FALSE);
  g_assert_nonnull (text);
  GtkWidget *button = gtk_widget_get_ancestor (text, GTK_TYPE_BUTTON);
  g_assert_true (gtk_widget_get_sensitive (button));
  g_signal_emit_by_name (button, "clicked");
  test_idle (0.05);
}

/* The list of a room: not that of a drop-down. */
static GtkWidget *
find_list (GtkWidget *root)
{
  if (GTK_IS_LIST_VIEW (root) && gtk_widget_has_css_class (root, "room-list"))
    return root;
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = find_list (child);
      if (found != NULL)
        return found;
    }
  return NULL;
}

static void
activate_row (GtkWidget *room, guint index)
{
  GtkWidget *list = find_list (room);
  g_assert_true (gtk_widget_activate_action (list, "list.activate-item", "u", index));
  test_idle (0.05);
}

/* A key as the strip gets it. */
static gboolean
press_key (GtkWidget *widget, guint key, GdkModifierType modifiers)
{
  g_autoptr (GListModel) controllers = gtk_widget_observe_controllers (widget);
  gboolean taken = FALSE;
  for (guint i = 0; i < g_list_model_get_n_items (controllers); i++)
    {
      g_autoptr (GObject) controller = g_list_model_get_item (controllers, i);
      if (GTK_IS_EVENT_CONTROLLER_KEY (controller))
        g_signal_emit_by_name (controller, "key-pressed", key, 0, modifiers, &taken);
    }
  return taken;
}

/* ---- without a plan ---- */

/* A text that wraps, of about 700 px in one line, in a room of 120 px: however wide one asks, the
 * room is as high as the text at its own width. One that scrolls is not asked at all. */
static void
test_layout (void)
{
  static const int widths[] = { -1, 120, 900 };
  GtkWidget *label = gtk_label_new ("What stands here is long enough to need several lines, since "
                                    "the room that it stands in has a set width");
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  g_object_ref_sink (label);
  int height, natural, asked;
  gtk_widget_measure (label, GTK_ORIENTATION_VERTICAL, 120, &height, NULL, NULL, NULL);
  GtkWidget *box = g_object_ref_sink (desk_room_box_new (label, 120, 0));
  g_assert_cmpint (gtk_widget_get_request_mode (box), ==, GTK_SIZE_REQUEST_CONSTANT_SIZE);
  for (guint i = 0; i < G_N_ELEMENTS (widths); i++)
    {
      gtk_widget_measure (box, GTK_ORIENTATION_VERTICAL, widths[i], &asked, NULL, NULL, NULL);
      g_assert_cmpint (asked, ==, height);
    }
  gtk_widget_measure (box, GTK_ORIENTATION_HORIZONTAL, -1, &asked, &natural, NULL, NULL);
  g_assert_cmpint (asked, ==, 120);
  g_assert_cmpint (natural, ==, 120);
  gtk_box_remove (GTK_BOX (box), label);
  GtkWidget *scrolls = g_object_ref_sink (desk_room_box_new (label, 0, 64));
  gtk_widget_measure (scrolls, GTK_ORIENTATION_VERTICAL, 120, &asked, &natural, NULL, NULL);
  g_assert_cmpint (asked, ==, 64);
  g_assert_cmpint (natural, ==, 64);
  g_object_unref (box);
  g_object_unref (scrolls);
  g_object_unref (label);
}

static void
test_empty (void)
{
  Rooms rooms;
  rooms_make (&rooms);
  const char *none = trn_words_desk (TRN_DESK_NO_PLAN);
  g_assert_nonnull (find_label (rooms.sequence, none, FALSE));
  g_assert_nonnull (find_label (rooms.nearest, none, FALSE));
  g_assert_null (desk_strip_data_new (rooms.session));
  GtkWidget *worst = find_label (rooms.transport, trn_words_desk (TRN_DESK_WORST), FALSE);
  g_assert_false (gtk_widget_is_sensitive (worst));
  g_assert_true (press_key (rooms.strip, GDK_KEY_Right, 0));
  g_assert_cmpfloat (desk_session_get_time (rooms.session), ==, 0);
  rooms_clear (&rooms);
}

/* ---- the lock gate ---- */

/* A row goes to the beginning of its move, marks it as current and looks at its worst finding. */
static void
test_sequence_rows (void)
{
  Rooms *rooms = gate_open ();
  const TrnLiftRun *run = desk_session_get_lift_run (rooms->session);
  for (guint move = run->lift->n_moves; move-- > 0;)
    {
      activate_row (rooms->sequence, move);
      g_assert_cmpfloat (desk_session_get_time (rooms->session), ==, run->begins_s[move]);
      const TrnFinding *finding = desk_session_get_finding (rooms->session);
      g_assert_true (finding == desk_session_worst (rooms->session, 0, (int)move, NULL));
      g_autofree char *sentence = trn_words_move (run->lift, move);
      GtkWidget *label;
      test_wait ((label = find_label (rooms->sequence, sentence, FALSE)) != NULL
                 && gtk_widget_has_css_class (gtk_widget_get_parent (label), "current"));
      g_autofree char *margin = trn_words_margin (finding);
      test_wait (find_label (rooms->sequence, margin, FALSE) != NULL);
    }
  /* In larger letters its margins have more room. */
  g_autofree char *margin = trn_words_margin (desk_session_get_finding (rooms->session));
  GtkWidget *label = find_label (rooms->sequence, margin, FALSE);
  GtkSettings *settings = gtk_settings_get_default ();
  int before_px, px;
  gtk_widget_get_size_request (label, &before_px, NULL);
  g_object_set (settings, "gtk-font-name", "Sans 24", NULL);
  test_wait ((gtk_widget_get_size_request (label, &px, NULL), px > before_px));
  gtk_settings_reset_property (settings, "gtk-font-name");
  test_wait ((gtk_widget_get_size_request (label, &px, NULL), px == before_px));
}

/* The tilt is the move that falls short: the card says by how much, that both ends are clear, and
 * goes there; the nearest obstacle then is the one it speaks of. */
static void
test_worst (void)
{
  Rooms *rooms = gate_open ();
  g_assert_nonnull (find_label (rooms->card, trn_words_desk (TRN_DESK_NO_FINDING), FALSE));
  press_button (rooms->transport, trn_words_desk (TRN_DESK_WORST));
  const TrnFinding *worst = desk_session_worst (rooms->session, 0, -1, NULL);
  g_assert_cmpint (worst->state, ==, TRN_STATE_SHORT);
  g_assert_cmpfloat (desk_session_get_time (rooms->session), ==, worst->time_s);
  g_autofree char *verdict = trn_words_finding (worst);
  g_autofree char *bounds = trn_words_bounds (worst);
  g_autofree char *plain_when = trn_words_when (worst, NAN);
  g_assert_nonnull (find_label (rooms->card, verdict, FALSE));
  g_assert_nonnull (find_label (rooms->card, bounds, FALSE));
  GtkWidget *when = find_label (rooms->card, plain_when, TRUE);
  g_assert_nonnull (when);
  g_assert_cmpuint (strlen (gtk_label_get_text (GTK_LABEL (when))), >, strlen (plain_when));

  test_wait (desk_session_get_moment (rooms->session)->time_s == worst->time_s);
  const TrnMoment *moment = desk_session_get_moment (rooms->session);
  guint least = 0;
  for (guint i = 1; i < moment->n_obstacles; i++)
    if (moment->distances[i].distance_m - moment->obstacles[i].standing->required_m
        < moment->distances[least].distance_m - moment->obstacles[least].standing->required_m)
      least = i;
  g_assert_cmpstr (moment->obstacles[least].body->id, ==, worst->obstacle);
  g_autofree char *at = trn_words_at (worst->time_s);
  /* One moment has one number: what is certified, as in the card. */
  g_assert_cmpfloat (worst->lower_m, <=, moment->distances[least].distance_m);
  g_autofree char *near = trn_words_length_down (worst->lower_m);
  g_assert_nonnull (find_label (rooms->nearest, at, FALSE));
  /* Its row may only be on its way. */
  test_wait (find_label (rooms->nearest, near, FALSE) != NULL);

  desk_session_set_time (rooms->session, 0);
  press_button (rooms->card, trn_words_desk (TRN_DESK_GO_THERE));
  g_assert_cmpfloat (desk_session_get_time (rooms->session), ==, worst->time_s);
  desk_session_set_show (rooms->session, 0);
  press_button (rooms->card, trn_words_desk (TRN_DESK_SHOW_POINTS));
  g_assert_true ((desk_session_get_show (rooms->session) & DESK_SHOW_NEAREST) != 0);
}

/* The first row of what is nearest is the worst, and a row looks at its obstacle. While the load
 * rests at the start the floor of the recess is seated, and last, not short. */
static void
test_nearest_rows (void)
{
  Rooms *rooms = gate_open ();
  GtkWidget *list = find_list (rooms->nearest);
  guint n
      = g_list_model_get_n_items (G_LIST_MODEL (gtk_list_view_get_model (GTK_LIST_VIEW (list))));
  desk_room_list_show (list, n - 1);
  test_wait (find_label (rooms->nearest, trn_words_desk (TRN_DESK_SEATED), FALSE) != NULL);
  activate_row (rooms->nearest, n - 1);
  g_assert_cmpstr (desk_session_get_selected (rooms->session), ==, "recess/floor");
  const TrnFinding *worst = desk_session_worst (rooms->session, 0, -1, NULL);
  desk_session_set_time (rooms->session, worst->time_s);
  test_wait (desk_session_get_moment (rooms->session)->time_s == worst->time_s);
  test_idle (0.1);
  activate_row (rooms->nearest, 0);
  g_assert_cmpstr (desk_session_get_selected (rooms->session), ==, worst->obstacle);
  g_assert_true (desk_session_get_finding (rooms->session) == worst);
}

/* Keys on the strip: ends, moves, single steps, ten steps; a key with Control is left alone. */
static void
test_strip_keys (void)
{
  Rooms *rooms = gate_open ();
  DeskSession *session = rooms->session;
  const TrnLiftRun *run = desk_session_get_lift_run (session);
  double step_s = (run->begins_s[1] - run->begins_s[0]) / 100;
  g_assert_true (press_key (rooms->strip, GDK_KEY_End, 0));
  g_assert_cmpfloat (desk_session_get_time (session), ==, desk_session_get_duration (session));
  g_assert_true (press_key (rooms->strip, GDK_KEY_Home, 0));
  g_assert_cmpfloat (desk_session_get_time (session), ==, 0);
  g_assert_true (press_key (rooms->strip, GDK_KEY_Right, 0));
  g_assert_cmpfloat_with_epsilon (desk_session_get_time (session), step_s, 1e-6);
  g_assert_true (press_key (rooms->strip, GDK_KEY_Right, GDK_SHIFT_MASK));
  g_assert_cmpfloat_with_epsilon (desk_session_get_time (session), 11 * step_s, 1e-6);
  g_assert_true (press_key (rooms->strip, GDK_KEY_Left, 0));
  g_assert_cmpfloat_with_epsilon (desk_session_get_time (session), 10 * step_s, 1e-6);
  g_assert_true (press_key (rooms->strip, GDK_KEY_Page_Down, 0));
  g_assert_cmpfloat (desk_session_get_time (session), ==, run->begins_s[1]);
  g_assert_true (press_key (rooms->strip, GDK_KEY_Page_Up, 0));
  g_assert_cmpfloat (desk_session_get_time (session), ==, 0);
  g_assert_false (press_key (rooms->strip, GDK_KEY_Right, GDK_CONTROL_MASK));
  g_assert_false (press_key (rooms->strip, GDK_KEY_a, 0));
  g_assert_cmpfloat (desk_session_get_time (session), ==, 0);
  gtk_test_accessible_assert_role (rooms->strip, GTK_ACCESSIBLE_ROLE_SLIDER);
}

/* What the strip draws: a line for each obstacle with the state of its worst finding, at most six
 * and the one looked at that matter, hold points, seated spans at both ends of the lift. */
static void
test_strip_data (void)
{
  Rooms *rooms = gate_open ();
  const TrnFinding *worst = desk_session_worst (rooms->session, 0, -1, NULL);
  desk_session_set_finding (rooms->session, worst, FALSE);
  g_autoptr (DeskStripData) data = desk_strip_data_new (rooms->session);
  const RenderStrip *strip = &data->strip;
  const TrnLiftRun *run = desk_session_get_lift_run (rooms->session);
  /* Beyond thirty they are left out, but for seats. */
  guint n_pairs = desk_session_get_profile (rooms->session)->n_pairs;
  g_assert_cmpuint (strip->n_lines, >=, MIN (n_pairs, 30));
  g_assert_cmpuint (strip->n_lines, <=, MIN (n_pairs, 34));
  g_assert_cmpuint (strip->n_moves, ==, run->lift->n_moves);
  guint n_matter = 0, n_focus = 0, n_hold = 0;
  for (guint i = 0; i < strip->n_lines; i++)
    {
      n_matter += strip->lines[i].matters;
      n_focus += strip->lines[i].focus;
      if ((int)g_array_index (data->pairs, guint, i)
          != desk_session_pair_of (rooms->session, worst->body, worst->obstacle))
        continue;
      g_assert_true (strip->lines[i].focus);
      g_assert_cmpint (strip->lines[i].state, ==, RENDER_STATE_SHORT);
      /* The samples come as close as what is certified, and no closer. */
      double sampled_m = render_strip_line_at (strip, i, worst->time_s);
      g_assert_cmpfloat (sampled_m, >, worst->lower_m - 1e-5);
      g_assert_cmpfloat (sampled_m, <, worst->required_m);
    }
  for (guint i = 0; i < strip->n_moves; i++)
    n_hold += strip->moves[i].hold;
  g_assert_cmpuint (n_focus, ==, 1);
  g_assert_cmpuint (n_matter, ==, 6);
  g_assert_cmpuint (n_hold, ==, 3);
  gboolean starts_seated = FALSE, ends_seated = FALSE;
  for (guint i = 0; i < strip->n_seats; i++)
    {
      starts_seated |= strip->seats[i].begin_s == 0;
      ends_seated |= strip->seats[i].end_s == strip->duration_s;
    }
  g_assert_true (starts_seated && ends_seated);
}

/* Buttons of the transport do as they say, and follow what others do. */
static void
test_transport (void)
{
  Rooms *rooms = gate_open ();
  DeskSession *session = rooms->session;
  const TrnLiftRun *run = desk_session_get_lift_run (session);
  desk_session_set_time (session, run->begins_s[4]);
  test_idle (0.05);
  g_autofree char *time = trn_words_column_time (run->begins_s[4]);
  g_assert_nonnull (find_label (rooms->transport, time, FALSE));
  GtkWidget *previous = gtk_widget_get_first_child (rooms->transport);
  GtkWidget *back = gtk_widget_get_next_sibling (previous);
  GtkWidget *play = gtk_widget_get_next_sibling (back);
  g_signal_emit_by_name (previous, "clicked");
  g_assert_cmpfloat (desk_session_get_time (session), ==, run->begins_s[3]);
  g_signal_emit_by_name (play, "clicked");
  g_assert_true (desk_session_get_playing (session));
  g_assert_cmpstr (desk_hint_get (play), ==, trn_words_desk (TRN_DESK_PAUSE));
  desk_session_set_playing (session, FALSE);
  g_assert_cmpstr (desk_hint_get (play), ==, trn_words_desk (TRN_DESK_PLAY));
  GtkWidget *loop = find_type (rooms->transport, GTK_TYPE_TOGGLE_BUTTON);
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (loop), TRUE);
  g_assert_true (desk_session_get_loop (session));
  GtkWidget *rate = find_type (rooms->transport, GTK_TYPE_DROP_DOWN);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (rate), 0);
  g_assert_cmpfloat (desk_session_get_rate (session), ==, 0.1);
  desk_session_set_rate (session, 100);
  g_assert_cmpuint (gtk_drop_down_get_selected (GTK_DROP_DOWN (rate)), ==, 9);
}

/* Two boxes and a lift of each: the drop-down and the session follow each other. When the file
 * changes, the sequence and the finding say that what they show is of the plan before. */
static void
test_lifts_and_stale (void)
{
  static const char text[]
      = "{'format': 'trunnion-plan', 'version': 1, 'title': 'Two', 'keep_clear': 0.5,"
        " 'structures': [{'id': 'wall', 'name': 'Wall', 'solid': {'kind': 'box', 'size': [1, 9, "
        "3]},"
        " 'at': {'position': [5, 0, 0]}}], 'components': ["
        "{'id': 'a', 'name': 'A', 'mass': 1, 'solid': {'kind': 'box', 'size': [1, 1, 1]},"
        " 'at': {'position': [0, 0, 0]}},"
        "{'id': 'b', 'name': 'B', 'mass': 1, 'solid': {'kind': 'box', 'size': [1, 1, 1]},"
        " 'at': {'position': [-5, 0, 0]}}], 'programme': ["
        "{'lift': 'one', 'component': 'a', 'hook_point': [0, 0, 1],"
        " 'moves': [{'do': 'hoist', 'by': 2, 'seconds': 60}]},"
        "{'lift': 'two', 'component': 'b', 'hook_point': [0, 0, 1],"
        " 'moves': [{'do': 'hoist', 'by': 3, 'seconds': 60}]}]}";
  char *folder = test_folder_new ();
  g_autofree char *json = g_strdelimit (g_strdup (text), "'", '"');
  g_autoptr (GFile) file = test_write (folder, "two.trunnion", json);
  Rooms rooms;
  rooms_make (&rooms);
  rooms_open (&rooms, file);
  GtkWidget *lifts = find_type (rooms.sequence, GTK_TYPE_DROP_DOWN);
  g_assert_true (gtk_widget_get_visible (lifts));
  g_assert_nonnull (find_label (rooms.sequence, "Hoist 2 m", FALSE));
  gtk_drop_down_set_selected (GTK_DROP_DOWN (lifts), 1);
  g_assert_cmpuint (desk_session_get_run (rooms.session), ==, 1);
  test_idle (0.1);
  g_assert_nonnull (find_label (rooms.sequence, "Hoist 3 m", FALSE));
  desk_session_set_run (rooms.session, 0);
  g_assert_cmpuint (gtk_drop_down_get_selected (GTK_DROP_DOWN (lifts)), ==, 0);
  test_idle (0.1);
  g_assert_nonnull (find_label (rooms.sequence, "Hoist 2 m", FALSE));

  /* What is looked at is of the lift that is shown, and the card says which that is. */
  test_wait (desk_check_get_state (desk_session_get_check (rooms.session)) == DESK_CHECK_DONE);
  desk_session_set_finding (rooms.session, desk_session_worst (rooms.session, 0, -1, NULL), FALSE);
  for (guint run = 2; run-- > 0;)
    {
      desk_session_set_run (rooms.session, run);
      const TrnFinding *finding = desk_session_get_finding (rooms.session);
      g_assert_nonnull (finding);
      g_assert_cmpuint (finding->lift, ==, run);
      const TrnLiftRun *shown = desk_session_get_lift_run (rooms.session);
      g_autofree char *title = trn_words_lift_title (shown->lift, run);
      g_assert_nonnull (find_label (rooms.card, title, FALSE));
    }

  const char *stale = trn_words_desk (TRN_DESK_STALE);
  g_assert_null (find_label (rooms.sequence, stale, FALSE));
  activate_row (rooms.sequence, 0);
  g_autofree char *other = g_strconcat (json, "\n", NULL);
  g_object_unref (test_write (folder, "two.trunnion", other));
  test_wait (desk_session_is_stale (rooms.session));
  test_idle (0.1);
  g_assert_nonnull (find_label (rooms.sequence, stale, FALSE));
  g_assert_nonnull (find_label (rooms.card, stale, FALSE));
  rooms_clear (&rooms);
  test_folder_free (folder);
}

/* Feet and inches are on screen as soon as they are chosen, and metres again; dark as well. */
static void
test_units_and_style (void)
{
  Rooms *rooms = gate_open ();
  TrnWordsUnits usual = trn_words_get_units ();
  TrnWordsUnits feet = usual;
  feet.lengths = TRN_LENGTHS_FEET;
  trn_words_set_units (feet);
  desk_session_set_dark (rooms->session, TRUE);
  desk_session_tell_view_changed (rooms->session);
  test_idle (0.1);
  /* 10.6 m are 417.323 in: 34′ 9 5/16″ to the nearest sixteenth. */
  g_assert_nonnull (find_label (rooms->sequence, "Hoist 34′ 9 5/16″", FALSE));
  trn_words_set_units (usual);
  desk_session_set_dark (rooms->session, FALSE);
  desk_session_tell_view_changed (rooms->session);
  test_idle (0.1);
  g_assert_nonnull (find_label (rooms->sequence, "Hoist 10.6 m", FALSE));
}

/* A check that was stopped says so, and what it did not come to is not checked. */
static void
test_not_checked (void)
{
  Rooms rooms;
  rooms_make (&rooms);
  DeskCheck *check = desk_session_get_check (rooms.session);
  g_signal_connect_swapped (rooms.session, "site-changed", G_CALLBACK (desk_check_cancel), check);
  g_autoptr (GFile) file = test_demo ("lock-gate");
  desk_document_open (desk_session_get_document (rooms.session), file, 0);
  test_wait (desk_session_get_site (rooms.session) != NULL);
  test_idle (0.2);
  g_assert_cmpint (desk_check_get_state (check), ==, DESK_CHECK_CANCELLED);
  g_assert_nonnull (find_label (rooms.sequence, trn_words_desk (TRN_DESK_CANCELLED), FALSE));
  g_assert_nonnull (find_label (rooms.sequence, trn_words_desk (TRN_DESK_NOT_CHECKED), FALSE));
  GtkWidget *worst = find_label (rooms.transport, trn_words_desk (TRN_DESK_WORST), FALSE);
  g_assert_false (gtk_widget_is_sensitive (worst));
  rooms_clear (&rooms);
}

/* ---- rows filled anew ---- */

#define MANY_ROWS 120

typedef struct
{
  GtkWidget *list;
  guint moment, n_frames, n_old, n_shown;
} Moments;

static GtkWidget *
build_moment (gpointer data)
{
  GtkWidget *label = gtk_label_new (NULL);
  gtk_widget_set_size_request (label, -1, 18);
  return label;
}

static void
fill_moment (GtkWidget *label, guint index, gpointer data)
{
  Moments *moments = data;
  g_autofree char *text = g_strdup_printf ("%u", moments->moment);
  gtk_label_set_text (GTK_LABEL (label), text);
}

static void
count_rows (Moments *moments)
{
  g_autofree char *now = g_strdup_printf ("%u", moments->moment);
  for (GtkWidget *row = gtk_widget_get_first_child (moments->list); row != NULL;
       row = gtk_widget_get_next_sibling (row))
    {
      GtkWidget *label = gtk_widget_get_first_child (row);
      if (label == NULL || gtk_widget_get_opacity (label) == 0)
        continue;
      moments->n_shown++;
      if (strcmp (gtk_label_get_text (GTK_LABEL (label)), now) != 0)
        moments->n_old++;
    }
}

static void
on_frame (Moments *moments)
{
  moments->n_frames++;
  count_rows (moments);
}

/* 120 rows of which each says a moment. In no frame after another moment was told does one show
 * the moment before, in view or below it; in the end all say the new one. */
static void
test_one_moment (void)
{
  Moments moments = { .moment = 0 };
  GtkWidget *window = gtk_window_new (), *scrolled = gtk_scrolled_window_new ();
  moments.list = desk_room_list_new (build_moment, fill_moment, NULL, &moments);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scrolled), moments.list);
  gtk_window_set_child (GTK_WINDOW (window), scrolled);
  gtk_window_set_default_size (GTK_WINDOW (window), 300, 700);
  gtk_window_present (GTK_WINDOW (window));
  desk_room_list_set_count (moments.list, MANY_ROWS);
  test_wait ((moments.n_shown = 0, count_rows (&moments), moments.n_shown == MANY_ROWS));
  test_idle (0.1);
  GdkFrameClock *clock = gtk_widget_get_frame_clock (window);
  gulong handler
      = g_signal_connect_swapped (clock, "before-paint", G_CALLBACK (on_frame), &moments);
  for (guint k = 0; k < 5; k++)
    {
      moments.moment++;
      moments.n_frames = 0;
      desk_room_list_refill (moments.list);
      /* A frame comes only when there is something to draw: on a busy machine all may be in one. */
      test_wait ((gtk_widget_queue_draw (moments.list), moments.n_frames > 1));
      g_assert_cmpuint (moments.n_old, ==, 0);
    }
  g_signal_handler_disconnect (clock, handler);
  test_wait ((moments.n_shown = 0, count_rows (&moments), moments.n_shown == MANY_ROWS));
  g_assert_cmpuint (moments.n_old, ==, 0);
  gtk_window_destroy (GTK_WINDOW (window));
  test_idle (0.05);
}

/* A layout of the window is a wait for the display (number.h). Back and forth in the middle of the
 * tilt, after one turn of it in which texts take the room that they need, numbers change and no
 * layout is asked for; a text that needs more room than any before is given it. */
static void
test_no_layout (void)
{
  Rooms *rooms = gate_open ();
  const TrnLiftRun *run = desk_session_get_lift_run (rooms->session);
  double middle_s = 0.5 * (run->begins_s[1] + run->begins_s[2]);
  GdkFrameClock *clock = gtk_widget_get_frame_clock (rooms->window);
  guint n_layouts = 0;
  char *before = NULL;
  for (guint i = 0; i < 10; i++)
    {
      double time_s = middle_s + 2.0 * (i % 5);
      if (i == 5)
        test_count_signal (clock, "layout", &n_layouts);
      desk_session_set_time (rooms->session, time_s);
      test_wait (desk_session_get_moment (rooms->session)->time_s == time_s);
      test_idle (i == 4 ? 1 : 0.05);
      g_autofree char *title = trn_words_at (time_s);
      g_assert_nonnull (find_label (rooms->nearest, title, FALSE));
      g_assert_cmpstr (title, !=, before);
      g_free (before);
      before = g_steal_pointer (&title);
    }
  g_free (before);
  g_signal_handlers_disconnect_by_data (clock, &n_layouts);
  g_assert_cmpuint (n_layouts, ==, 0);
  GtkWidget *number = desk_number_new (NULL);
  desk_number_set (number, "0.5 m");
  int least_px, more_px;
  gtk_widget_measure (number, GTK_ORIENTATION_HORIZONTAL, -1, &least_px, NULL, NULL, NULL);
  desk_number_set (number, "12 345.678 m");
  gtk_widget_measure (number, GTK_ORIENTATION_HORIZONTAL, -1, &more_px, NULL, NULL, NULL);
  g_assert_cmpint (more_px, >, least_px);
  desk_number_set (number, "0 m");
  gtk_widget_measure (number, GTK_ORIENTATION_HORIZONTAL, -1, &least_px, NULL, NULL, NULL);
  g_assert_cmpint (more_px, ==, least_px);
  g_object_ref_sink (number);
  g_object_unref (number);
}

int
main (int argc, char *argv[])
{
  gtk_test_init (&argc, &argv, NULL);
  g_test_add_func ("/desk/rooms/layout", test_layout);
  g_test_add_func ("/desk/rooms/no-layout", test_no_layout);
  g_test_add_func ("/desk/rooms/one-moment", test_one_moment);
  g_test_add_func ("/desk/rooms/empty", test_empty);
  g_test_add_func ("/desk/rooms/sequence-rows", test_sequence_rows);
  g_test_add_func ("/desk/rooms/worst", test_worst);
  g_test_add_func ("/desk/rooms/nearest-rows", test_nearest_rows);
  g_test_add_func ("/desk/rooms/strip-keys", test_strip_keys);
  g_test_add_func ("/desk/rooms/strip-data", test_strip_data);
  g_test_add_func ("/desk/rooms/transport", test_transport);
  g_test_add_func ("/desk/rooms/lifts-and-stale", test_lifts_and_stale);
  g_test_add_func ("/desk/rooms/units-and-style", test_units_and_style);
  g_test_add_func ("/desk/rooms/not-checked", test_not_checked);
  int result = g_test_run ();
  if (gate.session != NULL)
    rooms_clear (&gate);
  return result;
}
