/* room-list.c: rows filled by index. */
#include "room-list.h"

typedef struct
{
  DeskRowBuild build;
  DeskRowFill fill;
  DeskRowActivate activate;
  gpointer data;
  GListStore *items; /* one object a row, that says nothing */
  GPtrArray *bound;  /* of GtkListItem, borrowed: the rows that are seen */
} Rows;

static void
rows_free (gpointer data)
{
  Rows *rows = data;
  g_object_unref (rows->items);
  g_ptr_array_unref (rows->bound);
  g_free (rows);
}

static void
on_setup (Rows *rows, GtkListItem *item)
{
  gtk_list_item_set_child (item, rows->build (rows->data));
}

static void
fill_item (Rows *rows, GtkListItem *item)
{
  guint position = gtk_list_item_get_position (item);
  if (position < g_list_model_get_n_items (G_LIST_MODEL (rows->items)))
    rows->fill (gtk_list_item_get_child (item), position, rows->data);
}

static void
on_bind (Rows *rows, GtkListItem *item)
{
  g_ptr_array_add (rows->bound, item);
  fill_item (rows, item);
}

static void
on_unbind (Rows *rows, GtkListItem *item)
{
  g_ptr_array_remove_fast (rows->bound, item);
}

static void
on_activate (Rows *rows, guint position)
{
  rows->activate (position, rows->data);
}

GtkWidget *
desk_room_list_new (DeskRowBuild build, DeskRowFill fill, DeskRowActivate activate, gpointer data)
{
  Rows *rows = g_new0 (Rows, 1);
  *rows
      = (Rows){ build, fill, activate, data, g_list_store_new (G_TYPE_OBJECT), g_ptr_array_new () };
  GtkListItemFactory *factory = gtk_signal_list_item_factory_new ();
  /* The rows outlive the factory: the list holds both, and lets go of the factory first. */
  g_object_set_data_full (G_OBJECT (factory), "rows", rows, rows_free);
  g_signal_connect_swapped (factory, "setup", G_CALLBACK (on_setup), rows);
  g_signal_connect_swapped (factory, "bind", G_CALLBACK (on_bind), rows);
  g_signal_connect_swapped (factory, "unbind", G_CALLBACK (on_unbind), rows);
  GtkNoSelection *model = gtk_no_selection_new (G_LIST_MODEL (g_object_ref (rows->items)));
  GtkWidget *list = gtk_list_view_new (GTK_SELECTION_MODEL (model), factory);
  gtk_list_view_set_single_click_activate (GTK_LIST_VIEW (list), TRUE);
  gtk_widget_add_css_class (list, "room-list");
  g_object_set_data (G_OBJECT (list), "rows", rows);
  g_signal_connect_swapped (list, "activate", G_CALLBACK (on_activate), rows);
  return list;
}

static Rows *
rows_of (GtkWidget *list)
{
  return g_object_get_data (G_OBJECT (list), "rows");
}

void
desk_room_list_set_count (GtkWidget *list, guint n)
{
  Rows *rows = rows_of (list);
  guint before = g_list_model_get_n_items (G_LIST_MODEL (rows->items));
  if (n < before)
    g_list_store_splice (rows->items, n, before - n, NULL, 0);
  else if (n > before)
    {
      g_autoptr (GPtrArray) more = g_ptr_array_new_with_free_func (g_object_unref);
      for (guint i = before; i < n; i++)
        g_ptr_array_add (more, g_object_new (G_TYPE_OBJECT, NULL));
      g_list_store_splice (rows->items, before, 0, more->pdata, more->len);
    }
  desk_room_list_refill (list);
}

void
desk_room_list_refill (GtkWidget *list)
{
  Rows *rows = rows_of (list);
  for (guint i = 0; i < rows->bound->len; i++)
    fill_item (rows, rows->bound->pdata[i]);
}

void
desk_room_list_show (GtkWidget *list, guint index)
{
  if (index < g_list_model_get_n_items (G_LIST_MODEL (rows_of (list)->items)))
    gtk_widget_activate_action (list, "list.scroll-to-item", "u", index);
}

void
desk_room_row_tell (GtkWidget *row, const char *text, gboolean current)
{
  GtkWidget *item = gtk_widget_get_parent (row);
  if (current)
    gtk_widget_add_css_class (row, "current");
  else
    gtk_widget_remove_css_class (row, "current");
  gtk_widget_set_tooltip_text (row, text);
  if (item == NULL)
    return;
  gtk_accessible_update_property (GTK_ACCESSIBLE (item), GTK_ACCESSIBLE_PROPERTY_LABEL, text, -1);
  gtk_accessible_update_state (GTK_ACCESSIBLE (item), GTK_ACCESSIBLE_STATE_SELECTED, current, -1);
}
