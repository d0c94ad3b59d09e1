/* files-window.c: a list, in the order of the plan, beside the window of the plan: it stays open
 * while one looks at the bodies. The rows are made when they come into sight. */
#include "files-window.h"

#include <adwaita.h>

#include "file-words.h"
#include "remark-row.h"
#include "room-parts.h"
#include "window-words.h"

/* Name, users, facts and remarks. */
#define N_LINES 4

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

static void
on_setup (GtkListItemFactory *factory, GtkListItem *item)
{
  static const char *const classes[N_LINES] = { "heading", "dim-label", NULL, NULL };
  gtk_list_item_set_child (item, desk_remark_row_new (classes, N_LINES));
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
  const char *const texts[N_LINES] = { name, users, facts, remarks };
  desk_remark_row_set (gtk_list_item_get_child (item), icon_of (worst), texts);
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
  desk_remark_list_set (GTK_LIST_VIEW (window->list), window->meshes->len);
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
  GtkWidget *scrolled = desk_scrolled_new (window->list, 0);
  gtk_scrolled_window_set_has_frame (GTK_SCROLLED_WINDOW (scrolled), TRUE);
  gtk_widget_set_vexpand (scrolled, TRUE);
  GtkWidget *page = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  gtk_widget_set_margin_top (page, 12);
  gtk_widget_set_margin_bottom (page, 18);
  gtk_widget_set_margin_start (page, 18);
  gtk_widget_set_margin_end (page, 18);
  window->lead = desk_line_new ("dim-label");
  gtk_box_append (GTK_BOX (page), window->lead);
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
