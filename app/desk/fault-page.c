/* fault-page.c: the file once, above; in a row what is wrong and where in it. The rows of the list
 * are made when they come into sight, so that a plan with thousands of faults opens as quickly as
 * one with one. */
#include "fault-page.h"

#include "remark-row.h"
#include "resources.h"
#include "room-parts.h"
#include "window-words.h"
#include "words.h"

/* Sentence and place. */
#define N_LINES 2

struct _DeskFaultPage
{
  AdwBin parent;
  DeskSession *session;
  GtkLabel *title, *path, *lead;
  GtkListView *list;
  GtkWidget *back_button, *before_button, *again_button;
};

G_DEFINE_FINAL_TYPE (DeskFaultPage, desk_fault_page, ADW_TYPE_BIN)

static const TrnDiags *
get_diags (DeskFaultPage *page)
{
  return desk_document_get_diags (desk_session_get_document (page->session));
}

/* ---- rows ---- */

static const char *
icon_of (TrnSeverity severity)
{
  switch (severity)
    {
    case TRN_SEVERITY_NOTE:
      return "dialog-information-symbolic";
    case TRN_SEVERITY_WARNING:
      return "dialog-warning-symbolic";
    case TRN_SEVERITY_ERROR:
      return "dialog-error-symbolic";
    }
  g_assert_not_reached ();
}

/* The file that stands above the list; owned by the caller, NULL where it is none on this machine.
 */
static char *
path_dup (DeskFaultPage *page)
{
  GFile *file = desk_document_get_file (desk_session_get_document (page->session));
  return file != NULL ? g_file_get_path (file) : NULL;
}

/* All of what a row says, with the file, so that it can be sent to somebody. */
static void
on_copy (GtkButton *button, GtkListItem *item)
{
  DeskFaultPage *page
      = DESK_FAULT_PAGE (gtk_widget_get_ancestor (GTK_WIDGET (button), DESK_TYPE_FAULT_PAGE));
  const TrnDiags *diags = get_diags (page);
  guint index = gtk_list_item_get_position (item);
  if (index >= diags->items->len)
    return;
  g_autofree char *line = trn_words_diag (diags->items->pdata[index]);
  gdk_clipboard_set_text (gtk_widget_get_clipboard (GTK_WIDGET (page)), line);
}

static GtkWidget *
copy_button_new (GtkListItem *item)
{
  GtkWidget *copy = gtk_button_new_from_icon_name ("edit-copy-symbolic");
  const char *text = trn_words_window (TRN_WINDOW_COPY_ROW);
  gtk_widget_add_css_class (copy, "flat");
  gtk_widget_set_valign (copy, GTK_ALIGN_START);
  gtk_widget_set_tooltip_text (copy, text);
  gtk_accessible_update_property (GTK_ACCESSIBLE (copy), GTK_ACCESSIBLE_PROPERTY_LABEL, text, -1);
  g_signal_connect (copy, "clicked", G_CALLBACK (on_copy), item);
  return copy;
}

static void
on_setup (GtkListItemFactory *factory, GtkListItem *item)
{
  static const char *const classes[N_LINES] = { NULL, "dim-label caption" };
  GtkWidget *row = desk_remark_row_new (classes, N_LINES);
  gtk_box_append (GTK_BOX (row), copy_button_new (item));
  gtk_list_item_set_child (item, row);
  gtk_list_item_set_activatable (item, FALSE);
}

static void
on_bind (GtkListItemFactory *factory, GtkListItem *item, DeskFaultPage *page)
{
  const TrnDiags *diags = get_diags (page);
  guint index = gtk_list_item_get_position (item);
  g_assert (index < diags->items->len);
  const TrnDiag *diag = diags->items->pdata[index];
  g_autofree char *text = trn_words_graded_diag (diag);
  g_autofree char *path = path_dup (page);
  g_autofree char *place = trn_words_fault_place (diag, path);
  const char *const texts[N_LINES] = { text, place };
  desk_remark_row_set (gtk_list_item_get_child (item), icon_of (diag->severity), texts);
}

/* ---- page ---- */

char *
desk_fault_page_text_dup (DeskFaultPage *page)
{
  const TrnDiags *diags = get_diags (page);
  g_autoptr (GString) text = g_string_new (NULL);
  for (guint i = 0; i < diags->items->len; i++)
    {
      g_autofree char *line = trn_words_diag (diags->items->pdata[i]);
      g_string_append_printf (text, "%s\n", line);
    }
  return g_string_free (g_steal_pointer (&text), FALSE);
}

static void
update (DeskFaultPage *page)
{
  DeskDocument *document = desk_session_get_document (page->session);
  gboolean is_faulty = desk_document_get_state (document) == DESK_DOCUMENT_FAULTY;
  DeskSite *site = desk_document_get_site (document);
  guint n_left_out = site != NULL ? site->scene->n_left_out : 0;
  g_autofree char *title
      = n_left_out > 0 ? trn_words_partial_title (desk_document_get_title (document), n_left_out)
                       : trn_words_fault_title (desk_document_get_title (document),
                                                get_diags (page), is_faulty);
  gtk_label_set_label (page->title, title);
  gtk_label_set_label (page->lead, trn_words_fault_lead (is_faulty));
  g_autofree char *path = path_dup (page);
  g_autofree char *shown = path != NULL ? g_filename_display_name (path) : NULL;
  gtk_label_set_label (page->path, shown != NULL ? shown : "");
  gtk_widget_set_visible (GTK_WIDGET (page->path), shown != NULL);
  const char *before = desk_document_get_back_title (document);
  g_autofree char *back = before != NULL ? trn_words_back_to (before) : NULL;
  desk_hint_set (page->before_button, back != NULL ? back : "");
  gtk_widget_set_visible (page->before_button, before != NULL);
  gtk_widget_set_visible (page->back_button, !is_faulty || site != NULL);
  desk_remark_list_set (page->list, get_diags (page)->items->len);
}

static void
set_session (DeskFaultPage *page, DeskSession *session)
{
  page->session = g_object_ref (session);
  g_signal_connect_object (desk_session_get_document (session), "changed", G_CALLBACK (update),
                           page, G_CONNECT_SWAPPED);
  update (page);
}

static gboolean
desk_fault_page_grab_focus (GtkWidget *widget)
{
  return gtk_widget_grab_focus (DESK_FAULT_PAGE (widget)->again_button);
}

static void
desk_fault_page_dispose (GObject *object)
{
  DeskFaultPage *page = DESK_FAULT_PAGE (object);
  gtk_widget_dispose_template (GTK_WIDGET (page), DESK_TYPE_FAULT_PAGE);
  g_clear_object (&page->session);
  G_OBJECT_CLASS (desk_fault_page_parent_class)->dispose (object);
}

static void
desk_fault_page_class_init (DeskFaultPageClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);
  G_OBJECT_CLASS (class)->dispose = desk_fault_page_dispose;
  widget_class->grab_focus = desk_fault_page_grab_focus;
  gtk_widget_class_set_template_from_resource (widget_class, DESK_RESOURCES "/fault-page.ui");
  gtk_widget_class_bind_template_child (widget_class, DeskFaultPage, title);
  gtk_widget_class_bind_template_child (widget_class, DeskFaultPage, path);
  gtk_widget_class_bind_template_child (widget_class, DeskFaultPage, lead);
  gtk_widget_class_bind_template_child (widget_class, DeskFaultPage, list);
  gtk_widget_class_bind_template_child (widget_class, DeskFaultPage, back_button);
  gtk_widget_class_bind_template_child (widget_class, DeskFaultPage, before_button);
  gtk_widget_class_bind_template_child (widget_class, DeskFaultPage, again_button);
}

static void
desk_fault_page_init (DeskFaultPage *page)
{
  gtk_widget_init_template (GTK_WIDGET (page));
  g_autoptr (GtkListItemFactory) factory = gtk_signal_list_item_factory_new ();
  g_signal_connect (factory, "setup", G_CALLBACK (on_setup), NULL);
  g_signal_connect_object (factory, "bind", G_CALLBACK (on_bind), page, 0);
  gtk_list_view_set_factory (page->list, factory);
}

GtkWidget *
desk_fault_page_new (DeskSession *session)
{
  DeskFaultPage *page = g_object_new (DESK_TYPE_FAULT_PAGE, NULL);
  set_session (page, session);
  return GTK_WIDGET (page);
}
