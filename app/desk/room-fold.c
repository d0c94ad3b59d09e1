/* room-fold.c: the worst of some findings of a lift, as a mark and its word beside a title. */
#include "room-fold.h"

#include "desk-words.h"
#include "room-parts.h"

#define KEY "desk-fold"

typedef struct
{
  DeskSession *session; /* owned */
  guint checks;         /* set of checks */
  const char *title;    /* static */
  GtkWidget *mark, *word;
} Fold;

static void
fold_free (gpointer data)
{
  Fold *fold = data;
  g_clear_object (&fold->session);
  g_free (fold);
}

/* NULL: all that was checked of it meets what is set. */
static const TrnFinding *
find_worst (const Fold *fold)
{
  const TrnLiftFindings *lift = desk_check_get_lift (desk_session_get_check (fold->session),
                                                     desk_session_get_run (fold->session));
  const TrnFinding *worst = NULL;
  for (guint i = 0; lift != NULL && i < lift->findings->len; i++)
    {
      const TrnFinding *finding = &g_array_index (lift->findings, TrnFinding, i);
      gboolean is_open
          = finding->verdict == TRN_VERDICT_FAIL || finding->verdict == TRN_VERDICT_UNKNOWN;
      if ((fold->checks & TRN_CHECK_BIT (finding->check)) != 0 && is_open
          && desk_finding_is_worse (fold->session, finding, worst))
        worst = finding;
    }
  return worst;
}

static void
follow (GtkWidget *widget)
{
  const Fold *fold = g_object_get_data (G_OBJECT (widget), KEY);
  const TrnFinding *worst = find_worst (fold);
  RenderState state = worst != NULL ? desk_finding_state (fold->session, worst) : RENDER_STATE_NONE;
  g_autofree char *word = worst != NULL ? trn_words_of_lift (worst) : g_strdup ("");
  gtk_widget_set_visible (fold->mark, worst != NULL);
  gtk_widget_set_visible (fold->word, worst != NULL);
  desk_mark_set (fold->mark, state, desk_session_get_dark (fold->session));
  desk_text_set (fold->word, word);
  desk_text_set_state (fold->word, state);
  gtk_widget_set_opacity (fold->word, desk_session_is_stale (fold->session) ? 0.6 : 1);
  g_autofree char *said
      = worst != NULL ? g_strdup_printf ("%s: %s", fold->title, word) : g_strdup (fold->title);
  gtk_accessible_update_property (GTK_ACCESSIBLE (widget), GTK_ACCESSIBLE_PROPERTY_LABEL, said, -1);
}

/* The time changes often and the lift seldom. */
static void
follow_run (GtkWidget *widget)
{
  const Fold *fold = g_object_get_data (G_OBJECT (widget), KEY);
  guint run = desk_session_get_run (fold->session);
  if (GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (widget), "run")) == run)
    return;
  g_object_set_data (G_OBJECT (widget), "run", GUINT_TO_POINTER (run));
  follow (widget);
}

void
desk_fold_follow (GtkWidget *widget, DeskSession *session, guint checks)
{
  static const char *const of_findings[]
      = { "site-changed", "findings-changed", "view-changed", NULL };
  static const char *const of_time[] = { "time-changed", NULL };
  Fold *fold = g_object_get_data (G_OBJECT (widget), KEY);
  fold->session = g_object_ref (session);
  fold->checks = checks;
  desk_follow (session, widget, G_CALLBACK (follow), of_findings);
  desk_follow (session, widget, G_CALLBACK (follow_run), of_time);
  follow (widget);
}

gboolean
desk_fold_is_open (GtkWidget *fold)
{
  return gtk_expander_get_expanded (GTK_EXPANDER (fold));
}

static GtkWidget *
head_new (Fold *fold)
{
  GtkWidget *head = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  GtkWidget *title = desk_text_new ("room-title");
  gtk_label_set_text (GTK_LABEL (title), fold->title);
  gtk_label_set_ellipsize (GTK_LABEL (title), PANGO_ELLIPSIZE_NONE);
  fold->mark = desk_mark_new ();
  gtk_widget_set_margin_start (fold->mark, 6);
  /* It takes more lines before it is cut: it may name the move as well. */
  fold->word = desk_name_new ();
  gtk_label_set_lines (GTK_LABEL (fold->word), 3);
  gtk_widget_add_css_class (fold->word, "room-small");
  gtk_widget_add_css_class (fold->word, "room-bold");
  gtk_widget_set_margin_end (fold->word, 10);
  gtk_box_append (GTK_BOX (head), title);
  gtk_box_append (GTK_BOX (head), fold->mark);
  gtk_box_append (GTK_BOX (head), fold->word);
  gtk_widget_set_visible (fold->mark, FALSE);
  gtk_widget_set_visible (fold->word, FALSE);
  return head;
}

/* What somebody has unfolded is to be seen, from its title on: where it has been given its place,
 * which is a frame after it was asked for. */
static gboolean
on_frame (GtkWidget *expander, GdkFrameClock *clock, gpointer data)
{
  GtkWidget *scrolled = gtk_widget_get_ancestor (expander, GTK_TYPE_SCROLLED_WINDOW);
  graphene_rect_t at;
  guint *n_frames = data;
  if (++*n_frames < 2)
    return G_SOURCE_CONTINUE;
  if (scrolled == NULL || !desk_fold_is_open (expander)
      || !gtk_widget_compute_bounds (expander, scrolled, &at))
    return G_SOURCE_REMOVE;
  GtkAdjustment *view = gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (scrolled));
  double beyond = at.origin.y + at.size.height - gtk_widget_get_height (scrolled);
  double by = at.origin.y < 0 ? at.origin.y : CLAMP (beyond, 0, at.origin.y);
  gtk_adjustment_set_value (view, gtk_adjustment_get_value (view) + by);
  return G_SOURCE_REMOVE;
}

/* Not what is open from the start: nobody has asked for it, and what is above it is to be seen. */
static void
on_activated (GtkWidget *expander)
{
  if (desk_fold_is_open (expander))
    gtk_widget_add_tick_callback (expander, on_frame, g_new0 (guint, 1), g_free);
}

GtkWidget *
desk_fold_new (const char *title, GtkWidget *child)
{
  Fold *fold = g_new0 (Fold, 1);
  fold->title = title;
  GtkWidget *expander = gtk_expander_new (NULL);
  gtk_expander_set_label_widget (GTK_EXPANDER (expander), head_new (fold));
  gtk_expander_set_child (GTK_EXPANDER (expander), child);
  gtk_accessible_update_property (GTK_ACCESSIBLE (expander), GTK_ACCESSIBLE_PROPERTY_LABEL, title,
                                  -1);
  gtk_widget_add_css_class (expander, "gear-now");
  gtk_widget_set_hexpand (expander, TRUE);
  g_object_set_data_full (G_OBJECT (expander), KEY, fold, fold_free);
  g_signal_connect_after (expander, "activate", G_CALLBACK (on_activated), NULL);
  return expander;
}
