/* sequence.c: the moves of the lift in order, as sentences, each with its worst margin. */
#include "sequence.h"

#include <math.h>

#include "desk-words.h"
#include "room-layout.h"
#include "room-list.h"
#include "number.h"
#include "room-parts.h"

/* The columns of all rows are as wide, so that the ticks of the bars stand above each other. */
#define TIME_PX 74
#define BAR_PX 36
/* Of the name of a lift: in the button, and in the list that it opens. */
#define CHOSEN_CHARS 20
#define LISTED_CHARS 60

#define DESK_TYPE_SEQUENCE (desk_sequence_get_type ())
G_DECLARE_FINAL_TYPE (DeskSequence, desk_sequence, DESK, SEQUENCE, GtkBox)

struct _DeskSequence
{
  GtkBox parent;
  DeskSession *session;
  GtkWidget *total, *lifts, *note, *list, *foot;
  guint shown_run, shown_move;
  gboolean is_following;
  int margin_px; /* room for the longest word of a margin; 0: not measured yet */
  guint letters; /* in which it was measured */
};

G_DEFINE_FINAL_TYPE (DeskSequence, desk_sequence, GTK_TYPE_BOX)

typedef struct
{
  GtkWidget *number, *sentence, *time, *bar, *mark, *margin;
} Row;

/* ---- room for margins ---- */

/* Of each word alone, in bold: it stands in one line, whatever stands in the other. */
static int
widest_word_px (GtkWidget *label, const char *text)
{
  g_auto (GStrv) words = g_strsplit (text, " ", -1);
  int widest_px = 0;
  for (guint i = 0; words[i] != NULL; i++)
    widest_px = MAX (widest_px, desk_text_px (label, words[i], TRUE));
  return widest_px;
}

static guint
letters_of (DeskSequence *sequence)
{
  return pango_context_get_serial (gtk_widget_get_pango_context (GTK_WIDGET (sequence)));
}

/* Of all that may be said instead of a number, in the language of the desktop, so that the columns
 * of all rows are as wide. */
static int
margin_px_of (DeskSequence *sequence, GtkWidget *label)
{
  const guint letters = letters_of (sequence);
  if (sequence->margin_px > 0 && sequence->letters == letters)
    return sequence->margin_px;
  sequence->letters = letters;
  sequence->margin_px = DESK_NUMBER_PX;
  for (guint state = TRN_STATE_CLEAR; state <= TRN_STATE_TURNS_OVER; state++)
    for (guint i = 0; i < 2; i++)
      {
        const TrnFinding finding = { .check = i == 0 ? TRN_CHECK_HEADROOM : TRN_CHECK_FOOTING,
                                     .verdict = TRN_VERDICT_FAIL,
                                     .state = (TrnState)state };
        const int width_px = widest_word_px (label, trn_words_finding_short (&finding));
        sequence->margin_px = MAX (sequence->margin_px, width_px);
      }
  const char *const others[]
      = { trn_words_desk (TRN_DESK_NOT_CHECKED), trn_words_desk (TRN_DESK_SEATED),
          trn_words_contact (TRN_INSIDE_YES), trn_words_contact (TRN_INSIDE_NO) };
  for (guint i = 0; i < G_N_ELEMENTS (others); i++)
    sequence->margin_px = MAX (sequence->margin_px, widest_word_px (label, others[i]));
  return sequence->margin_px;
}

/* ---- a row ---- */

static GtkWidget *
build_row (gpointer data)
{
  Row *row = g_new0 (Row, 1);
  GtkWidget *grid = gtk_grid_new ();
  gtk_grid_set_column_spacing (GTK_GRID (grid), 8);
  gtk_grid_set_row_spacing (GTK_GRID (grid), 3);
  gtk_widget_add_css_class (grid, "room-row");
  row->number = gtk_label_new (NULL);
  gtk_widget_add_css_class (row->number, "room-number");
  gtk_label_set_width_chars (GTK_LABEL (row->number), 2);
  gtk_label_set_xalign (GTK_LABEL (row->number), 1);
  gtk_widget_set_valign (row->number, GTK_ALIGN_START);
  row->sentence = desk_text_new (NULL);
  gtk_label_set_wrap (GTK_LABEL (row->sentence), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (row->sentence), PANGO_WRAP_WORD_CHAR);
  gtk_label_set_lines (GTK_LABEL (row->sentence), 3);
  gtk_label_set_width_chars (GTK_LABEL (row->sentence), 16);
  gtk_label_set_max_width_chars (GTK_LABEL (row->sentence), 28);
  gtk_widget_set_hexpand (row->sentence, TRUE);
  row->time = desk_text_new ("room-quiet");
  gtk_widget_add_css_class (row->time, "room-number");
  gtk_label_set_ellipsize (GTK_LABEL (row->time), PANGO_ELLIPSIZE_NONE);
  gtk_widget_set_size_request (row->time, TIME_PX, -1);
  row->bar = desk_bar_new (RENDER_BAR_MARGIN);
  gtk_drawing_area_set_content_width (GTK_DRAWING_AREA (row->bar), BAR_PX);
  row->mark = desk_mark_new ();
  /* Words that are longer than a number take a second line: the row is no wider for them. */
  row->margin = desk_name_new ();
  gtk_widget_add_css_class (row->margin, "room-number");
  gtk_label_set_xalign (GTK_LABEL (row->margin), 1);
  gtk_label_set_justify (GTK_LABEL (row->margin), GTK_JUSTIFY_RIGHT);
  gtk_widget_set_size_request (row->margin, DESK_NUMBER_PX, -1);
  gtk_grid_attach (GTK_GRID (grid), row->number, 0, 0, 1, 1);
  gtk_grid_attach (GTK_GRID (grid), row->sentence, 1, 0, 4, 1);
  gtk_grid_attach (GTK_GRID (grid), row->time, 1, 1, 1, 1);
  gtk_grid_attach (GTK_GRID (grid), row->bar, 2, 1, 1, 1);
  gtk_grid_attach (GTK_GRID (grid), row->mark, 3, 1, 1, 1);
  gtk_grid_attach (GTK_GRID (grid), row->margin, 4, 1, 1, 1);
  g_object_set_data_full (G_OBJECT (grid), "row", row, g_free);
  return grid;
}

/* Not checked is a word and a mark; seated is neither good nor bad. */
static char *
margin_text (const TrnFinding *finding, RenderState state)
{
  if (finding == NULL)
    return g_strdup (trn_words_desk (TRN_DESK_NOT_CHECKED));
  if (state == RENDER_STATE_TOUCHING)
    return g_strdup (trn_words_contact (finding->inside));
  if (finding->state != TRN_STATE_SEATED && isnan (trn_words_margin_m (finding)))
    return g_strdup (trn_words_finding_short (finding));
  return trn_words_margin (finding);
}

static void
fill_row (GtkWidget *widget, guint index, gpointer data)
{
  DeskSequence *sequence = data;
  DeskSession *session = sequence->session;
  const TrnLiftRun *run = desk_session_get_lift_run (session);
  Row *row = g_object_get_data (G_OBJECT (widget), "row");
  if (run == NULL || index >= run->lift->n_moves)
    return;
  const TrnMove *move = &run->lift->moves[index];
  gboolean dark = desk_session_get_dark (session);
  gboolean current = desk_session_get_move (session, NULL) == index;
  const TrnFinding *worst
      = desk_session_worst (session, desk_session_get_run (session), (int)index, NULL);
  RenderState state = desk_finding_state (session, worst);
  g_autofree char *number = g_strdup_printf ("%u", index + 1);
  g_autofree char *sentence = trn_words_move (run->lift, index);
  g_autofree char *time = trn_words_duration (move->seconds);
  g_autofree char *margin = margin_text (worst, state);
  g_autofree char *told = trn_words_move_row (sentence, worst, state == RENDER_STATE_TIGHT);
  desk_label_set (row->number, number);
  desk_text_set (row->sentence, sentence);
  desk_label_set (row->time, time);
  gtk_widget_set_size_request (row->margin, margin_px_of (sequence, row->margin), -1);
  desk_label_set (row->margin, margin);
  desk_text_set_bold (row->sentence, current);
  desk_text_set_bold (row->margin, state == RENDER_STATE_SHORT || state == RENDER_STATE_TOUCHING);
  desk_text_set_state (row->margin, state == RENDER_STATE_CLEAR ? RENDER_STATE_NONE : state);
  gtk_widget_set_opacity (row->margin, desk_session_is_stale (session) ? 0.6 : 1);
  /* Nothing moves while it waits; the room of the bar stays. */
  gtk_widget_set_opacity (row->bar, move->kind == TRN_MOVE_WAIT ? 0 : 1);
  desk_bar_set (row->bar, worst != NULL ? desk_finding_distance_m (worst) : NAN,
                worst != NULL && !isnan (worst->required_m) ? worst->required_m : 0, state, dark);
  desk_mark_set (row->mark, state, dark);
  desk_room_row_tell (widget, told, current);
}

static void
on_row (guint index, gpointer data)
{
  DeskSequence *sequence = data;
  DeskSession *session = sequence->session;
  desk_session_set_playing (session, FALSE);
  const TrnFinding *worst
      = desk_session_worst (session, desk_session_get_run (session), (int)index, NULL);
  if (worst != NULL)
    desk_session_set_finding (session, worst, FALSE);
  desk_session_set_move (session, index);
}

/* ---- following the session ---- */

static void
follow_findings (DeskSequence *sequence)
{
  const char *note = desk_check_note (sequence->session);
  gtk_widget_set_visible (sequence->note, note != NULL);
  desk_label_set (sequence->note, note != NULL ? note : "");
  desk_room_list_refill (sequence->list);
}

static void
follow_lift (DeskSequence *sequence)
{
  DeskSession *session = sequence->session;
  const TrnLiftRun *run = desk_session_get_lift_run (session);
  gboolean is_open = desk_session_get_site (session) != NULL;
  g_autofree char *total
      = run != NULL ? trn_words_duration (desk_session_get_duration (session)) : g_strdup ("");
  sequence->shown_run = desk_session_get_run (session);
  sequence->shown_move = desk_session_get_move (session, NULL);
  desk_label_set (sequence->total, total);
  desk_label_set (sequence->foot, trn_words_desk (run != NULL ? TRN_DESK_MARGINS
                                                  : is_open   ? TRN_DESK_NO_LIFT
                                                              : TRN_DESK_NO_PLAN));
  sequence->is_following = TRUE;
  if (run != NULL)
    gtk_drop_down_set_selected (GTK_DROP_DOWN (sequence->lifts), sequence->shown_run);
  sequence->is_following = FALSE;
  desk_room_list_set_count (sequence->list, run != NULL ? run->lift->n_moves : 0);
  desk_room_list_show (sequence->list, sequence->shown_move);
}

static void
follow_time (DeskSequence *sequence)
{
  guint move = desk_session_get_move (sequence->session, NULL);
  if (desk_session_get_run (sequence->session) != sequence->shown_run)
    {
      follow_lift (sequence);
      return;
    }
  if (move == sequence->shown_move)
    return;
  sequence->shown_move = move;
  desk_room_list_refill (sequence->list);
  desk_room_list_show (sequence->list, move);
}

static void
follow_site (DeskSequence *sequence)
{
  DeskSite *site = desk_session_get_site (sequence->session);
  g_autoptr (GtkStringList) names = gtk_string_list_new (NULL);
  guint n = site != NULL ? site->scene->programme->n_runs : 0;
  for (guint i = 0; i < n; i++)
    gtk_string_list_take (names, trn_words_lift_title (site->scene->programme->runs[i].lift, i));
  sequence->is_following = TRUE;
  gtk_drop_down_set_model (GTK_DROP_DOWN (sequence->lifts), G_LIST_MODEL (names));
  sequence->is_following = FALSE;
  gtk_widget_set_visible (sequence->lifts, n > 1);
  follow_lift (sequence);
  follow_findings (sequence);
}

static void
on_lift_chosen (DeskSequence *sequence)
{
  guint run = gtk_drop_down_get_selected (GTK_DROP_DOWN (sequence->lifts));
  if (!sequence->is_following && run != GTK_INVALID_LIST_POSITION)
    desk_session_set_run (sequence->session, run);
}

static void
follow_view (DeskSequence *sequence)
{
  desk_rooms_style (GTK_WIDGET (sequence), desk_session_get_dark (sequence->session));
  follow_lift (sequence);
}

/* ---- building ---- */

static void
set_up_lift (GtkListItemFactory *factory, GtkListItem *item, gpointer most_chars)
{
  GtkWidget *label = desk_text_new (NULL);
  gtk_label_set_max_width_chars (GTK_LABEL (label), GPOINTER_TO_INT (most_chars));
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  gtk_label_set_lines (GTK_LABEL (label), 2);
  gtk_list_item_set_child (item, label);
}

static void
bind_lift (GtkListItemFactory *factory, GtkListItem *item, gpointer data)
{
  desk_text_set (gtk_list_item_get_child (item),
                 gtk_string_object_get_string (gtk_list_item_get_item (item)));
}

static GtkListItemFactory *
lift_factory_new (int most_chars)
{
  GtkListItemFactory *factory = gtk_signal_list_item_factory_new ();
  g_signal_connect (factory, "setup", G_CALLBACK (set_up_lift), GINT_TO_POINTER (most_chars));
  g_signal_connect (factory, "bind", G_CALLBACK (bind_lift), NULL);
  return factory;
}

/* Names of lifts may be long: they take a second line. */
static GtkWidget *
build_lifts (DeskSequence *sequence)
{
  GtkWidget *lifts = gtk_drop_down_new (NULL, NULL);
  g_autoptr (GtkListItemFactory) chosen = lift_factory_new (CHOSEN_CHARS);
  g_autoptr (GtkListItemFactory) listed = lift_factory_new (LISTED_CHARS);
  gtk_drop_down_set_factory (GTK_DROP_DOWN (lifts), chosen);
  gtk_drop_down_set_list_factory (GTK_DROP_DOWN (lifts), listed);
  gtk_widget_set_margin_start (lifts, 10);
  gtk_widget_set_margin_end (lifts, 10);
  gtk_widget_set_margin_bottom (lifts, 6);
  gtk_accessible_update_property (GTK_ACCESSIBLE (lifts), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  trn_words_desk (TRN_DESK_LIFT), -1);
  g_signal_connect_swapped (lifts, "notify::selected", G_CALLBACK (on_lift_chosen), sequence);
  return lifts;
}

static GtkWidget *
build_head (DeskSequence *sequence)
{
  GtkWidget *head = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  gtk_widget_add_css_class (head, "room-head");
  GtkWidget *title = desk_text_new ("room-title");
  desk_label_set (title, trn_words_desk (TRN_DESK_SEQUENCE));
  gtk_widget_set_hexpand (title, TRUE);
  sequence->total = desk_text_new ("room-quiet");
  gtk_widget_add_css_class (sequence->total, "room-number");
  gtk_box_append (GTK_BOX (head), title);
  gtk_box_append (GTK_BOX (head), sequence->total);
  return head;
}

static void
desk_sequence_init (DeskSequence *sequence)
{
  GtkBox *box = GTK_BOX (sequence);
  gtk_orientable_set_orientation (GTK_ORIENTABLE (sequence), GTK_ORIENTATION_VERTICAL);
  gtk_box_append (box, build_head (sequence));
  sequence->lifts = build_lifts (sequence);
  gtk_box_append (box, sequence->lifts);
  sequence->note = gtk_label_new (NULL);
  gtk_label_set_wrap (GTK_LABEL (sequence->note), TRUE);
  gtk_label_set_xalign (GTK_LABEL (sequence->note), 0);
  gtk_widget_add_css_class (sequence->note, "room-note");
  gtk_box_append (box, sequence->note);
  sequence->list = desk_room_list_new (build_row, fill_row, on_row, sequence);
  gtk_accessible_update_property (GTK_ACCESSIBLE (sequence->list), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  trn_words_desk (TRN_DESK_SEQUENCE), -1);
  GtkWidget *rows
      = desk_room_box_new (desk_scrolled_new (sequence->list, 0), 0, DESK_LEAST_ROWS_PX);
  gtk_widget_set_vexpand (rows, TRUE);
  gtk_box_append (box, rows);
  sequence->foot = gtk_label_new (NULL);
  gtk_label_set_wrap (GTK_LABEL (sequence->foot), TRUE);
  gtk_label_set_xalign (GTK_LABEL (sequence->foot), 0);
  gtk_widget_add_css_class (sequence->foot, "room-quiet");
  gtk_widget_add_css_class (sequence->foot, "room-foot");
  gtk_widget_add_css_class (sequence->foot, "room-edge");
  gtk_box_append (box, sequence->foot);
}

static void
desk_sequence_dispose (GObject *object)
{
  desk_unfollow (&DESK_SEQUENCE (object)->session, object);
  G_OBJECT_CLASS (desk_sequence_parent_class)->dispose (object);
}

/* In other letters the words need other room. */
static void
desk_sequence_css_changed (GtkWidget *widget, GtkCssStyleChange *change)
{
  DeskSequence *sequence = DESK_SEQUENCE (widget);
  GTK_WIDGET_CLASS (desk_sequence_parent_class)->css_changed (widget, change);
  if (sequence->margin_px > 0 && sequence->letters != letters_of (sequence))
    desk_room_list_refill (sequence->list);
}

static void
desk_sequence_class_init (DeskSequenceClass *class)
{
  GTK_WIDGET_CLASS (class)->css_changed = desk_sequence_css_changed;
  G_OBJECT_CLASS (class)->dispose = desk_sequence_dispose;
}

GtkWidget *
desk_sequence_new (DeskSession *session)
{
  static const char *const of_site[] = { "site-changed", NULL };
  static const char *const of_time[] = { "time-changed", NULL };
  static const char *const of_findings[] = { "findings-changed", NULL };
  static const char *const of_view[] = { "view-changed", NULL };
  DeskSequence *sequence = g_object_new (DESK_TYPE_SEQUENCE, NULL);
  sequence->session = g_object_ref (session);
  desk_rooms_style (GTK_WIDGET (sequence), desk_session_get_dark (session));
  desk_follow (session, sequence, G_CALLBACK (follow_site), of_site);
  desk_follow (session, sequence, G_CALLBACK (follow_time), of_time);
  desk_follow (session, sequence, G_CALLBACK (follow_findings), of_findings);
  desk_follow (session, sequence, G_CALLBACK (follow_view), of_view);
  follow_site (sequence);
  return GTK_WIDGET (sequence);
}
