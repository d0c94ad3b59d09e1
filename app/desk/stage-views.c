/* stage-views.c: the views that the plan keeps: a list to go to them by, and dialogs to save,
 * rename and remove one.
 *
 * Each change is written to the plan's file at once and the plan is read again, so that what is
 * shown, what is checked and what is in the file are the same. Until then none other is begun. */
#include "stage-private.h"

#include <string.h>

#include "room-parts.h"
#include "saved-views.h"
#include "window-words.h"

#define LONGEST_NAME 60
#define MOST_HEIGHT 360

#define DESK_TYPE_STAGE_VIEWS (desk_stage_views_get_type ())
G_DECLARE_FINAL_TYPE (DeskStageViews, desk_stage_views, DESK, STAGE_VIEWS, AdwBin)

struct _DeskStageViews
{
  AdwBin parent;
  DeskSession *session;
  DeskStage *stage; /* weak: a dialog or a thread may hold the list when the view has gone */
  GPtrArray *views; /* of DeskSavedView, of the site that is shown */
  gboolean writing;
  GtkWidget *rows, *nothing, *save;
};

G_DEFINE_FINAL_TYPE (DeskStageViews, desk_stage_views, ADW_TYPE_BIN)

static DeskDocument *
get_document (DeskStageViews *list)
{
  return desk_session_get_document (list->session);
}

static gboolean
can_change (DeskStageViews *list)
{
  return !list->writing && list->stage != NULL && desk_session_get_site (list->session) != NULL
         && desk_document_get_state (get_document (list)) != DESK_DOCUMENT_LOADING;
}

static void
update_sensitive (DeskStageViews *list)
{
  gtk_widget_set_sensitive (list->rows, can_change (list));
  gtk_widget_set_sensitive (list->save, can_change (list));
}

/* ---- dialogs ---- */

static AdwMessageDialog *
dialog_new (DeskStageViews *list, const char *heading, const char *body)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (list->stage));
  GtkWidget *dialog
      = adw_message_dialog_new (GTK_IS_WINDOW (root) ? GTK_WINDOW (root) : NULL, heading, body);
  return ADW_MESSAGE_DIALOG (dialog);
}

static void
on_not_written (AdwMessageDialog *dialog, const char *response, DeskStageViews *list)
{
  if (strcmp (response, "read") == 0)
    desk_document_reload (get_document (list));
}

static void
tell_not_written (DeskStageViews *list, DeskViewsOutcome outcome, const TrnDiags *diags)
{
  gboolean is_changed = outcome == DESK_VIEWS_CHANGED_ON_DISK;
  g_autofree char *reason = is_changed ? g_strdup (trn_words_stage (TRN_STAGE_VIEWS_CHANGED))
                                       : trn_words_diag (g_ptr_array_index (diags->items, 0));
  AdwMessageDialog *dialog
      = dialog_new (list, trn_words_stage (TRN_STAGE_VIEWS_NOT_WRITTEN), reason);
  adw_message_dialog_add_response (dialog, "close", trn_words_stage (TRN_STAGE_CLOSE));
  if (is_changed)
    {
      adw_message_dialog_add_response (dialog, "read", trn_words_stage (TRN_STAGE_VIEWS_READ));
      adw_message_dialog_set_response_appearance (dialog, "read", ADW_RESPONSE_SUGGESTED);
      adw_message_dialog_set_default_response (dialog, "read");
      g_signal_connect_object (dialog, "response", G_CALLBACK (on_not_written), list, 0);
    }
  gtk_window_present (GTK_WINDOW (dialog));
}

static void
on_done (DeskViewsOutcome outcome, const TrnDiags *diags, gpointer data)
{
  DeskStageViews *list = data;
  list->writing = FALSE;
  if (list->stage == NULL)
    return;
  update_sensitive (list);
  if (outcome != DESK_VIEWS_WRITTEN)
    tell_not_written (list, outcome, diags);
}

static void
write_change (DeskStageViews *list, DeskViewChange change, const DeskSavedView *view)
{
  if (!can_change (list))
    return;
  list->writing = TRUE;
  update_sensitive (list);
  desk_saved_views_change (get_document (list), desk_session_get_site (list->session), change, view,
                           on_done, g_object_ref (list), g_object_unref);
}

/* What a dialog is about; the site, so that it changes no other than the one it was asked for. */
typedef struct
{
  DeskStageViews *list;
  DeskSite *site;
  DeskViewChange change;
  DeskSavedView *view;
  GtkEditable *entry; /* NULL where no name is asked for */
} Question;

static void
question_free (Question *question)
{
  desk_site_unref (question->site);
  desk_saved_view_free (question->view);
  g_object_unref (question->list);
  g_free (question);
}

static char *
name_typed (GtkEditable *entry)
{
  return g_strstrip (g_strdup (gtk_editable_get_text (entry)));
}

static void
on_answer (AdwMessageDialog *dialog, const char *response, Question *question)
{
  DeskStageViews *list = question->list;
  if (strcmp (response, "do") != 0 || question->site != desk_session_get_site (list->session))
    return;
  if (question->entry != NULL)
    {
      g_free (question->view->name);
      question->view->name = name_typed (question->entry);
    }
  if (*question->view->name != '\0')
    write_change (list, question->change, question->view);
}

static void
on_name_changed (GtkEditable *entry, AdwMessageDialog *dialog)
{
  g_autofree char *name = name_typed (entry);
  adw_message_dialog_set_response_enabled (dialog, "do", *name != '\0');
}

static void
add_entry (AdwMessageDialog *dialog, Question *question)
{
  GtkWidget *entry = gtk_entry_new ();
  gtk_entry_set_max_length (GTK_ENTRY (entry), LONGEST_NAME);
  gtk_entry_set_activates_default (GTK_ENTRY (entry), TRUE);
  gtk_editable_set_text (GTK_EDITABLE (entry), question->view->name);
  gtk_accessible_update_property (GTK_ACCESSIBLE (entry), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  trn_words_stage (TRN_STAGE_VIEW_CALLED), -1);
  g_signal_connect (entry, "changed", G_CALLBACK (on_name_changed), dialog);
  adw_message_dialog_set_extra_child (dialog, entry);
  question->entry = GTK_EDITABLE (entry);
  gtk_window_set_focus (GTK_WINDOW (dialog), entry);
}

/* Takes @view. */
static void
ask (DeskStageViews *list, DeskViewChange change, DeskSavedView *view, const char *heading,
     TrnStageText body, TrnStageText answer)
{
  Question *question = g_new0 (Question, 1);
  question->list = g_object_ref (list);
  question->site = desk_site_ref (desk_session_get_site (list->session));
  question->change = change;
  question->view = view;
  AdwMessageDialog *dialog = dialog_new (list, heading, trn_words_stage (body));
  gboolean removes = change == DESK_VIEW_REMOVE;
  adw_message_dialog_add_response (dialog, "cancel", trn_words_window (TRN_WINDOW_CANCEL));
  adw_message_dialog_add_response (dialog, "do", trn_words_stage (answer));
  adw_message_dialog_set_response_appearance (
      dialog, "do", removes ? ADW_RESPONSE_DESTRUCTIVE : ADW_RESPONSE_SUGGESTED);
  adw_message_dialog_set_default_response (dialog, removes ? "cancel" : "do");
  adw_message_dialog_set_close_response (dialog, "cancel");
  if (!removes)
    add_entry (dialog, question);
  g_signal_connect_data (dialog, "response", G_CALLBACK (on_answer), question,
                         (GClosureNotify)(GCallback)question_free, 0);
  gtk_window_present (GTK_WINDOW (dialog));
}

static gboolean
is_taken (DeskStageViews *list, const char *name)
{
  for (guint i = 0; i < list->views->len; i++)
    if (strcmp (((DeskSavedView *)g_ptr_array_index (list->views, i))->name, name) == 0)
      return TRUE;
  return FALSE;
}

void
desk_stage_save_view (DeskStage *stage)
{
  DeskStageViews *list = DESK_STAGE_VIEWS (stage->views);
  if (!can_change (list))
    return;
  guint number = 1;
  g_autofree char *name = trn_words_view_number (number);
  while (is_taken (list, name))
    {
      g_free (name);
      name = trn_words_view_number (++number);
    }
  RenderCamera camera = desk_stage_get_camera (GTK_WIDGET (stage));
  ask (list, DESK_VIEW_ADD, desk_saved_view_new (name, &camera),
       trn_words_stage (TRN_STAGE_SAVE_VIEW_TITLE), TRN_STAGE_SAVE_VIEW_MORE, TRN_STAGE_STILL_SAVE);
}

/* ---- rows ---- */

static DeskSavedView *
view_of (DeskStageViews *list, GtkWidget *button)
{
  guint index = GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (button), "view"));
  g_assert (index < list->views->len);
  return g_ptr_array_index (list->views, index);
}

static void
close_popover (DeskStageViews *list)
{
  GtkWidget *popover = gtk_widget_get_ancestor (GTK_WIDGET (list), GTK_TYPE_POPOVER);
  if (popover != NULL)
    gtk_popover_popdown (GTK_POPOVER (popover));
}

static void
on_go (GtkWidget *button, DeskStageViews *list)
{
  RenderCamera camera = desk_stage_get_camera (GTK_WIDGET (list->stage));
  desk_saved_view_apply (view_of (list, button), &camera);
  desk_stage_tell_state (list->stage, "parallel", camera.parallel);
  desk_stage_go (list->stage, camera);
  close_popover (list);
  gtk_widget_grab_focus (GTK_WIDGET (list->stage));
}

static void
on_rename (GtkWidget *button, DeskStageViews *list)
{
  DeskSavedView *view = desk_saved_view_copy (view_of (list, button));
  g_autofree char *heading = trn_words_rename_view (view->name);
  close_popover (list);
  ask (list, DESK_VIEW_RENAME, view, heading, TRN_STAGE_SAVE_VIEW_MORE, TRN_STAGE_RENAME_VIEW);
}

static void
on_remove (GtkWidget *button, DeskStageViews *list)
{
  DeskSavedView *view = desk_saved_view_copy (view_of (list, button));
  g_autofree char *heading = trn_words_remove_view (view->name);
  close_popover (list);
  ask (list, DESK_VIEW_REMOVE, view, heading, TRN_STAGE_REMOVE_VIEW_MORE, TRN_STAGE_REMOVE_VIEW);
}

static void
on_save (GtkWidget *button, DeskStageViews *list)
{
  close_popover (list);
  desk_stage_save_view (list->stage);
}

static GtkWidget *
add_icon (GtkWidget *row, const char *icon, TrnStageText text, const char *name)
{
  GtkWidget *button = gtk_button_new_from_icon_name (icon);
  g_autofree char *said = g_strdup_printf ("%s: %s", trn_words_stage (text), name);
  gtk_widget_set_tooltip_text (button, trn_words_stage (text));
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, said, -1);
  gtk_widget_add_css_class (button, "flat");
  gtk_box_append (GTK_BOX (row), button);
  return button;
}

static void
connect_row (DeskStageViews *list, GtkWidget *button, guint index, GCallback clicked)
{
  g_object_set_data (G_OBJECT (button), "view", GUINT_TO_POINTER (index));
  g_signal_connect (button, "clicked", clicked, list);
}

static void
add_row (DeskStageViews *list, guint index)
{
  const DeskSavedView *view = g_ptr_array_index (list->views, index);
  g_autofree char *name = trn_words_clean (view->name, LONGEST_NAME);
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 2);
  GtkWidget *label = gtk_label_new (name);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 32);
  GtkWidget *go = gtk_button_new ();
  gtk_button_set_child (GTK_BUTTON (go), label);
  gtk_widget_add_css_class (go, "flat");
  gtk_widget_set_hexpand (go, TRUE);
  gtk_widget_set_tooltip_text (go, name);
  gtk_box_append (GTK_BOX (row), go);
  connect_row (list, go, index, G_CALLBACK (on_go));
  connect_row (list, add_icon (row, "document-edit-symbolic", TRN_STAGE_RENAME_VIEW, name), index,
               G_CALLBACK (on_rename));
  connect_row (list, add_icon (row, "user-trash-symbolic", TRN_STAGE_REMOVE_VIEW, name), index,
               G_CALLBACK (on_remove));
  gtk_box_append (GTK_BOX (list->rows), row);
}

static void
on_site_changed (DeskStageViews *list)
{
  DeskSite *site = desk_session_get_site (list->session);
  GtkWidget *child;
  while ((child = gtk_widget_get_first_child (list->rows)) != NULL)
    gtk_box_remove (GTK_BOX (list->rows), child);
  g_ptr_array_unref (list->views);
  list->views = site != NULL
                    ? desk_saved_views_read (site->plan)
                    : g_ptr_array_new_with_free_func ((GDestroyNotify)desk_saved_view_free);
  for (guint i = 0; i < list->views->len; i++)
    add_row (list, i);
  gtk_widget_set_visible (list->nothing, list->views->len == 0);
  update_sensitive (list);
}

/* ---- the list ---- */

static void
desk_stage_views_init (DeskStageViews *list)
{
  list->views = g_ptr_array_new_with_free_func ((GDestroyNotify)desk_saved_view_free);
  list->rows = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  list->nothing = gtk_label_new (trn_words_stage (TRN_STAGE_NO_SAVED_VIEWS));
  GtkWidget *both = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  gtk_box_append (GTK_BOX (both), list->nothing);
  gtk_box_append (GTK_BOX (both), list->rows);
  GtkWidget *scrolled = desk_scrolled_new (both, MOST_HEIGHT);
  gtk_scrolled_window_set_propagate_natural_width (GTK_SCROLLED_WINDOW (scrolled), TRUE);
  list->save = gtk_button_new_with_label (trn_words_stage (TRN_STAGE_SAVE_VIEW));
  g_signal_connect (list->save, "clicked", G_CALLBACK (on_save), list);
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  gtk_box_append (GTK_BOX (box), scrolled);
  gtk_box_append (GTK_BOX (box), list->save);
  adw_bin_set_child (ADW_BIN (list), box);
}

static void
desk_stage_views_finalize (GObject *object)
{
  DeskStageViews *list = DESK_STAGE_VIEWS (object);
  g_clear_weak_pointer (&list->stage);
  g_ptr_array_unref (list->views);
  g_object_unref (list->session);
  G_OBJECT_CLASS (desk_stage_views_parent_class)->finalize (object);
}

static void
desk_stage_views_class_init (DeskStageViewsClass *class)
{
  G_OBJECT_CLASS (class)->finalize = desk_stage_views_finalize;
}

GtkWidget *
desk_stage_views_new (DeskStage *stage)
{
  DeskStageViews *list = g_object_new (DESK_TYPE_STAGE_VIEWS, NULL);
  list->session = g_object_ref (stage->session);
  g_set_weak_pointer (&list->stage, stage);
  stage->views = GTK_WIDGET (list);
  g_signal_connect_object (stage->session, "site-changed", G_CALLBACK (on_site_changed), list,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (get_document (list), "changed", G_CALLBACK (update_sensitive), list,
                           G_CONNECT_SWAPPED);
  on_site_changed (list);
  return GTK_WIDGET (list);
}
