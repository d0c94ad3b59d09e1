/* files-window.c: a list, in the order of the plan, beside the window of the plan: it stays open
 * while one looks at the bodies. The rows are made when they come into sight. */
#include "files-window.h"

#include <adwaita.h>

#include "file-words.h"
#include "window-words.h"

#define DESK_TYPE_FILES_WINDOW (desk_files_window_get_type ())
G_DECLARE_FINAL_TYPE (DeskFilesWindow, desk_files_window, DESK, FILES_WINDOW, AdwWindow)

struct _DeskFilesWindow
{
  AdwWindow parent;
  DeskSession *session;
  DeskSite *site;    /* what the rows are about */
  GPtrArray *meshes; /* of TrnSceneMesh, of that site */
  GtkWidget *lead, *list;
};

G_DEFINE_FINAL_TYPE (DeskFilesWindow, desk_files_window, ADW_TYPE_WINDOW)

/* ---- rows ---- */

static GtkWidget *
add_label (GtkWidget *box, const char *style)
{
  GtkWidget *label = gtk_label_new (NULL);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  if (style != NULL)
    gtk_widget_add_css_class (label, style);
  gtk_box_append (GTK_BOX (box), label);
  return label;
}

static void
on_setup (GtkListItemFactory *factory, GtkListItem *item)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  gtk_widget_add_css_class (row, "desk-fault");
  GtkWidget *icon = gtk_image_new ();
  gtk_widget_set_valign (icon, GTK_ALIGN_START);
  gtk_box_append (GTK_BOX (row), icon);
  GtkWidget *lines = gtk_box_new (GTK_ORIENTATION_VERTICAL, 3);
  gtk_widget_set_hexpand (lines, TRUE);
  add_label (lines, "heading");
  add_label (lines, "dim-label");
  add_label (lines, NULL);
  add_label (lines, NULL);
  gtk_box_append (GTK_BOX (row), lines);
  gtk_list_item_set_child (item, row);
  gtk_list_item_set_activatable (item, FALSE);
}

static void
append_line (GString *text, char *line)
{
  if (line != NULL)
    g_string_append_printf (text, "%s%s", text->len > 0 ? "\n" : "", line);
  g_free (line);
}

/* What is in it, a line each. */
static char *
facts_dup (const TrnSceneMesh *mesh)
{
  if (mesh->report == NULL)
    return g_strdup (trn_words_file (TRN_FILE_UNUSED));
  g_autoptr (GString) text = g_string_new (NULL);
  append_line (text, trn_words_file_parts (mesh->source));
  append_line (text, trn_words_file_content (mesh->report));
  append_line (text, trn_words_file_extent (mesh->report));
  append_line (text, trn_words_file_frame (mesh->source, mesh->report));
  append_line (text, trn_words_file_repairs (mesh->report));
  return g_string_free (g_steal_pointer (&text), FALSE);
}

/* What was said of it when it was read, a line each; @worst: how grave. */
static char *
remarks_dup (DeskFilesWindow *window, const TrnSceneMesh *mesh, TrnSeverity *worst)
{
  const TrnDiags *diags = desk_document_get_diags (desk_session_get_document (window->session));
  g_autoptr (GString) text = g_string_new (NULL);
  *worst = TRN_SEVERITY_NOTE;
  for (guint i = 0; i < diags->items->len; i++)
    {
      const TrnDiag *diag = diags->items->pdata[i];
      if (!trn_scene_mesh_is_meant (mesh, diag))
        continue;
      *worst = MAX (*worst, diag->severity);
      append_line (text, trn_words_graded_diag (diag));
    }
  return g_string_free (g_steal_pointer (&text), FALSE);
}

static const char *
icon_of (TrnSeverity severity)
{
  return severity == TRN_SEVERITY_ERROR     ? "dialog-error-symbolic"
         : severity == TRN_SEVERITY_WARNING ? "dialog-warning-symbolic"
                                            : "text-x-generic-symbolic";
}

static void
set_label (GtkWidget *label, const char *text)
{
  gtk_label_set_label (GTK_LABEL (label), text);
  gtk_widget_set_visible (label, *text != '\0');
}

static void
on_bind (GtkListItemFactory *factory, GtkListItem *item, DeskFilesWindow *window)
{
  guint index = gtk_list_item_get_position (item);
  g_assert (index < window->meshes->len);
  const TrnSceneMesh *mesh = window->meshes->pdata[index];
  TrnSeverity worst;
  g_autofree char *name = trn_words_clean (mesh->source->file, 0);
  g_autofree char *users = trn_words_file_users (mesh);
  g_autofree char *facts = facts_dup (mesh);
  g_autofree char *remarks = remarks_dup (window, mesh, &worst);
  GtkWidget *icon = gtk_widget_get_first_child (gtk_list_item_get_child (item));
  GtkWidget *label = gtk_widget_get_first_child (gtk_widget_get_next_sibling (icon));
  gtk_image_set_from_icon_name (GTK_IMAGE (icon), icon_of (worst));
  const char *texts[] = { name, users, facts, remarks };
  for (guint i = 0; i < G_N_ELEMENTS (texts); i++, label = gtk_widget_get_next_sibling (label))
    set_label (label, texts[i]);
  g_autofree char *all = g_strjoin ("\n", name, users, facts, remarks, NULL);
  GtkWidget *parent = gtk_widget_get_parent (gtk_list_item_get_child (item));
  if (parent != NULL)
    gtk_accessible_update_property (GTK_ACCESSIBLE (parent), GTK_ACCESSIBLE_PROPERTY_LABEL, all,
                                    -1);
}

/* ---- window ---- */

static void
follow (DeskFilesWindow *window)
{
  DeskSite *site = desk_session_get_site (window->session);
  if (site == NULL)
    {
      gtk_window_destroy (GTK_WINDOW (window));
      return;
    }
  gtk_list_view_set_model (GTK_LIST_VIEW (window->list), NULL);
  g_clear_pointer (&window->meshes, g_ptr_array_unref);
  g_clear_pointer (&window->site, desk_site_unref);
  window->site = desk_site_ref (site);
  window->meshes = trn_scene_meshes_list (site->scene);
  gboolean has_files = window->meshes->len > 0;
  gtk_label_set_label (GTK_LABEL (window->lead),
                       trn_words_file (has_files ? TRN_FILE_LEAD : TRN_FILE_NONE));
  gtk_widget_set_visible (gtk_widget_get_parent (window->list), has_files);
  g_autoptr (GtkStringList) rows = gtk_string_list_new (NULL);
  for (guint i = 0; i < window->meshes->len; i++)
    gtk_string_list_append (rows, "");
  g_autoptr (GtkNoSelection) selection = gtk_no_selection_new (G_LIST_MODEL (g_object_ref (rows)));
  gtk_list_view_set_model (GTK_LIST_VIEW (window->list), GTK_SELECTION_MODEL (selection));
}

static void
desk_files_window_dispose (GObject *object)
{
  DeskFilesWindow *window = DESK_FILES_WINDOW (object);
  g_clear_pointer (&window->meshes, g_ptr_array_unref);
  g_clear_pointer (&window->site, desk_site_unref);
  g_clear_object (&window->session);
  G_OBJECT_CLASS (desk_files_window_parent_class)->dispose (object);
}

static void
desk_files_window_class_init (DeskFilesWindowClass *class)
{
  G_OBJECT_CLASS (class)->dispose = desk_files_window_dispose;
  gtk_widget_class_add_binding_action (GTK_WIDGET_CLASS (class), GDK_KEY_Escape, 0, "window.close",
                                       NULL);
}

static GtkWidget *
list_new (DeskFilesWindow *window)
{
  GtkListItemFactory *factory = gtk_signal_list_item_factory_new ();
  g_signal_connect (factory, "setup", G_CALLBACK (on_setup), NULL);
  g_signal_connect_object (factory, "bind", G_CALLBACK (on_bind), window, 0);
  GtkWidget *list = gtk_list_view_new (NULL, factory);
  gtk_list_view_set_show_separators (GTK_LIST_VIEW (list), TRUE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (list), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  trn_words_file (TRN_FILE_TITLE), -1);
  return list;
}

static void
desk_files_window_init (DeskFilesWindow *window)
{
  window->list = list_new (window);
  GtkWidget *scrolled = gtk_scrolled_window_new ();
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scrolled), GTK_POLICY_NEVER,
                                  GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_has_frame (GTK_SCROLLED_WINDOW (scrolled), TRUE);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scrolled), window->list);
  gtk_widget_set_vexpand (scrolled, TRUE);
  GtkWidget *page = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  gtk_widget_set_margin_top (page, 12);
  gtk_widget_set_margin_bottom (page, 18);
  gtk_widget_set_margin_start (page, 18);
  gtk_widget_set_margin_end (page, 18);
  window->lead = add_label (page, "dim-label");
  gtk_box_append (GTK_BOX (page), scrolled);
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  gtk_box_append (GTK_BOX (box), adw_header_bar_new ());
  gtk_box_append (GTK_BOX (box), page);
  adw_window_set_content (ADW_WINDOW (window), box);
  gtk_window_set_title (GTK_WINDOW (window), trn_words_file (TRN_FILE_TITLE));
  gtk_window_set_default_size (GTK_WINDOW (window), 640, 560);
}

GtkWidget *
desk_files_window_show (GtkWindow *parent, DeskSession *session)
{
  g_autoptr (GList) windows = gtk_window_list_toplevels ();
  for (GList *l = windows; l != NULL; l = l->next)
    if (DESK_IS_FILES_WINDOW (l->data) && gtk_window_get_transient_for (l->data) == parent)
      {
        gtk_window_present (l->data);
        return l->data;
      }
  DeskFilesWindow *window = g_object_new (DESK_TYPE_FILES_WINDOW, NULL);
  window->session = g_object_ref (session);
  g_signal_connect_object (session, "site-changed", G_CALLBACK (follow), window, G_CONNECT_SWAPPED);
  gtk_window_set_transient_for (GTK_WINDOW (window), parent);
  gtk_window_set_destroy_with_parent (GTK_WINDOW (window), TRUE);
  follow (window);
  gtk_window_present (GTK_WINDOW (window));
  return GTK_WIDGET (window);
}
