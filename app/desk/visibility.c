/* visibility.c: the structures and the gear as a list in which each is shown, ghosted or hidden.
 *
 * A row has a check button, whether it is shown, and a toggle, whether it is a ghost. The list is
 * made when it is seen, a few rows in a turn of the main loop, and again with another site only;
 * otherwise its buttons follow the session. */
#include "visibility.h"

#include <adwaita.h>
#include <string.h>

#include "desk-words.h"
#include "file-words.h"
#include "room-parts.h"
#include "stage-words.h"

/* Rows made in one turn. */
#define ROWS_A_TURN 6

#define DESK_TYPE_VISIBILITY (desk_visibility_get_type ())
G_DECLARE_FINAL_TYPE (DeskVisibility, desk_visibility, DESK, VISIBILITY, AdwBin)

typedef struct
{
  DeskVisibility *list;
  guint item;
  GtkWidget *shown, *ghost;
} Row;

struct _DeskVisibility
{
  AdwBin parent;
  DeskSession *session;
  DeskSite *site;    /* of the rows; compared only */
  GPtrArray *meshes; /* of TrnSceneMesh, of that site; NULL without one */
  GtkWidget *rows_box, *nothing;
  GPtrArray *rows; /* of Row */
  gboolean following;
  guint grow_id;
};

G_DEFINE_FINAL_TYPE (DeskVisibility, desk_visibility, ADW_TYPE_BIN)

static void
on_toggled (GtkWidget *button, Row *row)
{
  DeskVisibility *list = row->list;
  if (list->following)
    return;
  gboolean shown = gtk_check_button_get_active (GTK_CHECK_BUTTON (row->shown));
  gboolean ghost = gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (row->ghost));
  /* Who makes a ghost of what is hidden wants to see it. */
  if (button == row->ghost)
    shown = TRUE;
  desk_session_set_visibility (list->session, row->item,
                               !shown  ? RENDER_VISIBLE_HIDDEN
                               : ghost ? RENDER_VISIBLE_GHOST
                                       : RENDER_VISIBLE_SOLID);
}

static GtkWidget *
make_row (DeskVisibility *list, Row *row, const char *name, const char *hint)
{
  row->shown = gtk_check_button_new_with_label (name);
  gtk_widget_set_hexpand (row->shown, TRUE);
  GtkWidget *label = gtk_widget_get_last_child (row->shown);
  if (GTK_IS_LABEL (label))
    {
      gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
      gtk_label_set_max_width_chars (GTK_LABEL (label), 32);
    }
  desk_hint_set (row->shown, hint);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row->shown), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                  hint, -1);
  row->ghost = gtk_toggle_button_new_with_label (trn_words_stage (TRN_STAGE_GHOST));
  g_signal_connect (row->shown, "toggled", G_CALLBACK (on_toggled), row);
  g_signal_connect (row->ghost, "toggled", G_CALLBACK (on_toggled), row);
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  gtk_box_append (GTK_BOX (box), row->shown);
  gtk_box_append (GTK_BOX (box), row->ghost);
  return box;
}

static char *
name_of (DeskVisibility *list, guint item)
{
  const RenderSite *site = list->site->display;
  const char *id = render_site_item_id (site, item);
  return trn_words_body_name (list->site->plan, id);
}

/* The name, and of one that comes from a mesh file what was found in it. */
static char *
hint_of (DeskVisibility *list, guint item, const char *name)
{
  const char *id = render_site_item_id (list->site->display, item);
  for (guint i = 0; i < list->meshes->len; i++)
    {
      const TrnSceneMesh *mesh = list->meshes->pdata[i];
      for (guint k = 0; mesh->report != NULL && k < mesh->users->len; k++)
        if (strcmp (g_array_index (mesh->users, TrnSceneMeshUser, k).id, id) == 0)
          {
            g_autofree char *line = trn_words_file_line (mesh->source, mesh->report);
            return g_strdup_printf ("%s\n%s", name, line);
          }
    }
  return g_strdup (name);
}

static guint
count_bodies (DeskVisibility *list)
{
  return list->site != NULL ? list->site->display->n_items : 0;
}

static void
follow_row (DeskVisibility *list, Row *row)
{
  RenderVisibility visibility = desk_session_get_visibility (list->session, row->item);
  gboolean shown = visibility != RENDER_VISIBLE_HIDDEN;
  gboolean ghost = visibility == RENDER_VISIBLE_GHOST;
  list->following = TRUE;
  gtk_check_button_set_active (GTK_CHECK_BUTTON (row->shown), shown);
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (row->ghost), ghost);
  list->following = FALSE;
  g_autofree char *name = name_of (list, row->item);
  g_autofree char *said = trn_words_shown (name, shown, ghost);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row->ghost), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                  said, -1);
}

static gboolean
on_grow (gpointer data)
{
  DeskVisibility *list = data;
  for (guint k = 0; k < ROWS_A_TURN && list->rows->len < count_bodies (list); k++)
    {
      Row *row = g_new0 (Row, 1);
      row->list = list;
      row->item = list->rows->len;
      g_ptr_array_add (list->rows, row);
      g_autofree char *name = name_of (list, row->item);
      g_autofree char *hint = hint_of (list, row->item, name);
      gtk_box_append (GTK_BOX (list->rows_box), make_row (list, row, name, hint));
      follow_row (list, row);
    }
  if (list->rows->len < count_bodies (list))
    return G_SOURCE_CONTINUE;
  list->grow_id = 0;
  return G_SOURCE_REMOVE;
}

static void
forget_rows (DeskVisibility *list)
{
  GtkWidget *child;
  g_clear_handle_id (&list->grow_id, g_source_remove);
  while ((child = gtk_widget_get_first_child (list->rows_box)) != NULL)
    gtk_box_remove (GTK_BOX (list->rows_box), child);
  g_ptr_array_set_size (list->rows, 0);
}

static void
fill (GtkWidget *widget)
{
  DeskVisibility *list = DESK_VISIBILITY (widget);
  for (guint i = 0; i < list->rows->len; i++)
    follow_row (list, g_ptr_array_index (list->rows, i));
  if (list->grow_id == 0 && on_grow (list))
    list->grow_id = g_timeout_add (DESK_TURN_MS, on_grow, list);
}

static void
follow (DeskVisibility *list)
{
  DeskSite *site = desk_session_get_site (list->session);
  if (site != list->site)
    {
      forget_rows (list);
      list->site = site;
      g_clear_pointer (&list->meshes, g_ptr_array_unref);
      if (site != NULL)
        list->meshes = trn_scene_meshes_list (site->scene);
      gtk_widget_set_visible (list->nothing, count_bodies (list) == 0);
    }
  desk_fill_when_seen (GTK_WIDGET (list), fill);
}

static void
on_changed (DeskSession *session, DeskVisibility *list)
{
  follow (list);
}

static void
on_show_all (GtkButton *button, DeskVisibility *list)
{
  desk_session_show_all (list->session);
}

static void
desk_visibility_init (DeskVisibility *list)
{
  list->rows = g_ptr_array_new_with_free_func (g_free);
  list->rows_box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  list->nothing = gtk_label_new (trn_words_stage (TRN_STAGE_NO_STRUCTURES));
  GtkWidget *both = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  gtk_box_append (GTK_BOX (both), list->nothing);
  gtk_box_append (GTK_BOX (both), list->rows_box);
  GtkWidget *scrolled = desk_scrolled_new (both, 420);
  gtk_scrolled_window_set_propagate_natural_width (GTK_SCROLLED_WINDOW (scrolled), TRUE);
  GtkWidget *all = gtk_button_new_with_label (trn_words_stage (TRN_STAGE_SHOW_ALL));
  g_signal_connect (all, "clicked", G_CALLBACK (on_show_all), list);
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  gtk_box_append (GTK_BOX (box), scrolled);
  gtk_box_append (GTK_BOX (box), all);
  adw_bin_set_child (ADW_BIN (list), box);
}

static void
desk_visibility_finalize (GObject *object)
{
  DeskVisibility *list = DESK_VISIBILITY (object);
  g_clear_handle_id (&list->grow_id, g_source_remove);
  g_ptr_array_unref (list->rows);
  g_clear_pointer (&list->meshes, g_ptr_array_unref);
  g_object_unref (list->session);
  G_OBJECT_CLASS (desk_visibility_parent_class)->finalize (object);
}

static void
desk_visibility_class_init (DeskVisibilityClass *class)
{
  G_OBJECT_CLASS (class)->finalize = desk_visibility_finalize;
}

GtkWidget *
desk_visibility_new (DeskSession *session)
{
  DeskVisibility *list = g_object_new (DESK_TYPE_VISIBILITY, NULL);
  list->session = g_object_ref (session);
  g_signal_connect_object (session, "site-changed", G_CALLBACK (on_changed), list, 0);
  g_signal_connect_object (session, "view-changed", G_CALLBACK (on_changed), list, 0);
  follow (list);
  return GTK_WIDGET (list);
}
