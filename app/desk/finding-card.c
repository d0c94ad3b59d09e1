/* finding-card.c: the finding looked at: its verdict in words, the certified bounds as a pair, what
 * is to be kept, what is taken off, and when; with a way to go there. */
#include "finding-card.h"

#include <math.h>

#include "desk-words.h"
#include "gauge-words.h"
#include "gear-words.h"
#include "load-words.h"
#include "number.h"
#include "room-parts.h"

/* The ends of a move clear so much more, or the least is as good as at one of them. */
#define MORE_AT_ENDS_M 0.001
/* Of the name of the body, so that two lines are left for what it comes close to. */
#define MOST_BODY_CHARS 32

#define DESK_TYPE_FINDING_CARD (desk_finding_card_get_type ())
G_DECLARE_FINAL_TYPE (DeskFindingCard, desk_finding_card, DESK, FINDING_CARD, GtkBox)

struct _DeskFindingCard
{
  GtkBox parent;
  DeskSession *session;
  GtkWidget *mark, *verdict, *lift, *between, *bounds, *allowance, *items, *source, *when, *stale;
  GtkWidget *card, *buttons, *none;
};

G_DEFINE_FINAL_TYPE (DeskFindingCard, desk_finding_card, GTK_TYPE_BOX)

/* The distance of a pair at a border of moves, which is among the times of the profile; NAN where
 * it is not worked out. */
static double
distance_at_border (const DeskProfile *profile, guint pair, double time_s)
{
  for (guint i = 0; i < profile->n_done; i++)
    if (profile->times_s[i] == time_s)
      return profile->distances_m[(gsize)i * profile->n_pairs + pair];
  return NAN;
}

/* The lesser clearance of the end positions of the move, where both are more than what it comes to
 * between them; else NAN. */
static double
clearance_of_ends (DeskSession *session, const TrnFinding *finding)
{
  const TrnLiftRun *run = desk_session_get_lift_run (session);
  if (run == NULL || finding->move < 0 || finding->lift != desk_session_get_run (session))
    return NAN;
  /* Of gear a pair is of all its parts: what its nearest one clears says nothing about another. */
  int pair = desk_session_pair_of (session, finding->body, finding->obstacle);
  const DeskProfile *profile = desk_session_get_profile (session);
  if (pair < 0 || !profile->pairs[pair].of_load)
    return NAN;
  double start_m = distance_at_border (profile, (guint)pair, run->begins_s[finding->move]);
  double end_m = distance_at_border (profile, (guint)pair, run->begins_s[finding->move + 1]);
  if (isnan (start_m) || isnan (end_m))
    return NAN;
  double ends_m = fmin (start_m, end_m);
  return ends_m > finding->upper_m + MORE_AT_ENDS_M ? ends_m : NAN;
}

static void
show_line (GtkWidget *label, const char *text)
{
  gtk_widget_set_visible (label, text != NULL);
  desk_label_set (label, text != NULL ? text : "");
}

static void
show_numbers (DeskFindingCard *card, const TrnFinding *finding)
{
  gboolean is_clearance
      = (finding->check == TRN_CHECK_CLEARANCE || finding->check == TRN_CHECK_APPROACH)
        && finding->state != TRN_STATE_SEATED && trn_words_has_bounds (finding);
  g_autofree char *bounds = is_clearance ? trn_words_bounds (finding) : NULL;
  g_autofree char *allowance = is_clearance ? trn_words_allowance (finding) : NULL;
  g_autofree char *when = isfinite (finding->time_s)
                              ? trn_words_when (finding, clearance_of_ends (card->session, finding))
                              : NULL;
  g_autofree char *sum = trn_words_value_items (finding);
  g_autofree char *items = sum != NULL ? g_steal_pointer (&sum) : trn_words_numbers (finding);
  g_autofree char *used = trn_words_utilisation (finding);
  g_autofree char *source = trn_words_source (finding);
  show_line (card->bounds, is_clearance ? bounds : used);
  show_line (card->allowance, allowance);
  show_line (card->items, items);
  show_line (card->source, source);
  show_line (card->when, when);
}

/* Of what it speaks: "Column to yard", "Boom of Crane north to column", or what is beside its
 * limit.
 * @max: characters of the first name, half as many as of the other; 0: all. */
static char *
between_dup (const TrnPlan *plan, const TrnLiftRun *run, const TrnFinding *finding, guint max)
{
  char *value = trn_words_value_line (plan, finding);
  if (value != NULL)
    return value;
  gboolean of_load = finding->body == NULL || g_str_equal (finding->body, "load");
  g_autofree char *body = of_load ? trn_words_load_name (plan, run->lift->component)
                                  : trn_words_body_name (plan, finding->body);
  g_autofree char *first = trn_words_clean (body, max);
  if (finding->obstacle == NULL)
    return trn_words_with_subject (body, finding);
  g_autofree char *obstacle = max > 0 ? trn_words_body_name_cut (plan, finding->obstacle, 2 * max)
                                      : trn_words_body_name (plan, finding->obstacle);
  return trn_words_between (first, obstacle);
}

/* Of a long verdict only what it is, is bold. */
static void
emphasise (GtkWidget *label, const char *text)
{
  g_autoptr (PangoAttrList) attributes = pango_attr_list_new ();
  PangoAttribute *rest = pango_attr_weight_new (PANGO_WEIGHT_NORMAL);
  rest->start_index = (guint)desk_verdict_head (text);
  pango_attr_list_insert (attributes, rest);
  gtk_label_set_attributes (GTK_LABEL (label), attributes);
}

static void
show_finding (DeskFindingCard *card, const TrnFinding *finding)
{
  DeskSession *session = card->session;
  const TrnPlan *plan = desk_session_get_site (session)->plan;
  const TrnLiftRun *run = &desk_session_get_site (session)->scene->programme->runs[finding->lift];
  RenderState state = desk_finding_state (session, finding);
  const gboolean is_tight = state == RENDER_STATE_TIGHT && finding->check == TRN_CHECK_CLEARANCE;
  g_autofree char *verdict = is_tight ? trn_words_finding_title (finding, TRUE)
                                      : trn_words_finding_named (plan, finding);
  g_autofree char *between = between_dup (plan, run, finding, 0);
  /* What the load comes close to is what matters: a long name before it gives way. */
  g_autofree char *shown = between_dup (plan, run, finding, MOST_BODY_CHARS);
  gboolean is_stale = desk_session_is_stale (session);
  desk_mark_set (card->mark, state, desk_session_get_dark (session));
  if (desk_label_set (card->verdict, verdict))
    emphasise (card->verdict, verdict);
  desk_text_set_state (card->verdict, state);
  gboolean has_others = desk_session_get_site (session)->scene->programme->n_runs > 1;
  g_autofree char *lift = has_others ? trn_words_lift_title (run->lift, finding->lift) : NULL;
  show_line (card->lift, lift);
  desk_label_set (card->between, shown);
  desk_hint_set (card->between, between);
  show_numbers (card, finding);
  show_line (card->stale, is_stale ? trn_words_desk (TRN_DESK_STALE) : NULL);
  gtk_widget_set_sensitive (card->buttons, isfinite (finding->time_s));
}

static void
follow (DeskFindingCard *card)
{
  const TrnFinding *finding = desk_session_get_finding (card->session);
  gboolean is_open = desk_session_get_site (card->session) != NULL;
  gtk_widget_set_visible (card->card, finding != NULL);
  gtk_widget_set_visible (card->none, finding == NULL);
  desk_label_set (card->none, is_open ? trn_words_desk (TRN_DESK_NO_FINDING) : "");
  if (finding != NULL && is_open)
    show_finding (card, finding);
}

static void
follow_view (DeskFindingCard *card)
{
  desk_rooms_style (GTK_WIDGET (card), desk_session_get_dark (card->session));
  follow (card);
}

static void
on_go_there (DeskFindingCard *card)
{
  const TrnFinding *finding = desk_session_get_finding (card->session);
  if (finding == NULL)
    return;
  desk_session_set_playing (card->session, FALSE);
  desk_session_set_finding (card->session, finding, TRUE);
}

/* In the view, whichever room is open. */
static void
on_show_points (DeskFindingCard *card)
{
  desk_session_set_show (card->session, desk_session_get_show (card->session) | DESK_SHOW_NEAREST);
  on_go_there (card);
  gtk_widget_activate_action (GTK_WIDGET (card), "win.show-room", "s", "view");
}

static GtkWidget *
line_new (const char *style_class)
{
  GtkWidget *label = gtk_label_new (NULL);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  gtk_label_set_width_chars (GTK_LABEL (label), 16);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 30);
  gtk_widget_add_css_class (label, "room-number");
  if (style_class != NULL)
    gtk_widget_add_css_class (label, style_class);
  return label;
}

static GtkWidget *
add_line (GtkWidget *box, const char *style_class)
{
  GtkWidget *label = line_new (style_class);
  gtk_box_append (GTK_BOX (box), label);
  return label;
}

static void
add_buttons (DeskFindingCard *card)
{
  card->buttons = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  gtk_widget_set_margin_top (card->buttons, 8);
  GtkWidget *go = gtk_button_new_with_label (trn_words_desk (TRN_DESK_GO_THERE));
  gtk_widget_add_css_class (go, "suggested-action");
  g_signal_connect_swapped (go, "clicked", G_CALLBACK (on_go_there), card);
  GtkWidget *show = gtk_button_new_with_label (trn_words_desk (TRN_DESK_SHOW_POINTS));
  g_signal_connect_swapped (show, "clicked", G_CALLBACK (on_show_points), card);
  /* Of one width they may be wider than the room, whose height is then taken for less. */
  gtk_widget_set_hexpand (go, TRUE);
  gtk_widget_set_hexpand (show, TRUE);
  gtk_box_append (GTK_BOX (card->buttons), go);
  gtk_box_append (GTK_BOX (card->buttons), show);
  gtk_box_append (GTK_BOX (card->card), card->buttons);
}

static void
desk_finding_card_init (DeskFindingCard *card)
{
  gtk_orientable_set_orientation (GTK_ORIENTABLE (card), GTK_ORIENTATION_VERTICAL);
  GtkWidget *head = desk_text_new ("room-title");
  gtk_widget_add_css_class (head, "room-head");
  desk_label_set (head, trn_words_desk (TRN_DESK_FINDING));
  gtk_box_append (GTK_BOX (card), head);
  card->none = add_line (GTK_WIDGET (card), "room-quiet");
  gtk_widget_add_css_class (card->none, "room-foot");
  card->card = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);
  gtk_widget_add_css_class (card->card, "room-card");
  /* A box would ask the text how narrow it can be for its height, which it finds by laying itself
   * out a hundred times. */
  GtkWidget *title = gtk_grid_new ();
  gtk_grid_set_column_spacing (GTK_GRID (title), 8);
  card->mark = desk_mark_new ();
  gtk_widget_set_valign (card->mark, GTK_ALIGN_START);
  gtk_widget_set_margin_top (card->mark, 2);
  gtk_grid_attach (GTK_GRID (title), card->mark, 0, 0, 1, 1);
  gtk_box_append (GTK_BOX (card->card), title);
  card->verdict = line_new ("room-bold");
  gtk_grid_attach (GTK_GRID (title), card->verdict, 1, 0, 1, 1);
  gtk_widget_set_hexpand (card->verdict, TRUE);
  card->lift = add_line (card->card, "room-quiet");
  card->between = add_line (card->card, NULL);
  gtk_label_set_lines (GTK_LABEL (card->between), 3);
  gtk_label_set_ellipsize (GTK_LABEL (card->between), PANGO_ELLIPSIZE_END);
  card->bounds = add_line (card->card, NULL);
  card->allowance = add_line (card->card, "room-quiet");
  card->items = add_line (card->card, NULL);
  card->source = add_line (card->card, "room-quiet");
  card->when = add_line (card->card, "room-quiet");
  card->stale = add_line (card->card, "room-quiet");
  add_buttons (card);
  gtk_box_append (GTK_BOX (card), card->card);
}

static void
desk_finding_card_dispose (GObject *object)
{
  g_clear_object (&DESK_FINDING_CARD (object)->session);
  G_OBJECT_CLASS (desk_finding_card_parent_class)->dispose (object);
}

static void
desk_finding_card_class_init (DeskFindingCardClass *class)
{
  G_OBJECT_CLASS (class)->dispose = desk_finding_card_dispose;
}

GtkWidget *
desk_finding_card_new (DeskSession *session)
{
  static const char *const of_finding[]
      = { "site-changed", "findings-changed", "selection-changed", "profile-changed", NULL };
  static const char *const of_view[] = { "view-changed", NULL };
  DeskFindingCard *card = g_object_new (DESK_TYPE_FINDING_CARD, NULL);
  card->session = g_object_ref (session);
  desk_rooms_style (GTK_WIDGET (card), desk_session_get_dark (session));
  desk_follow (session, card, G_CALLBACK (follow), of_finding);
  desk_follow (session, card, G_CALLBACK (follow_view), of_view);
  follow (card);
  return GTK_WIDGET (card);
}
