#include "remark-row.h"

GtkWidget *
desk_line_new (const char *classes)
{
  GtkWidget *label = gtk_label_new (NULL);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  g_auto (GStrv) list = g_strsplit (classes != NULL ? classes : "", " ", -1);
  for (guint i = 0; list[i] != NULL; i++)
    gtk_widget_add_css_class (label, list[i]);
  return label;
}

GtkWidget *
desk_remark_row_new (const char *const *classes, guint n)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  gtk_widget_add_css_class (row, "desk-fault");
  GtkWidget *icon = gtk_image_new ();
  gtk_widget_set_valign (icon, GTK_ALIGN_START);
  gtk_box_append (GTK_BOX (row), icon);
  GtkWidget *lines = gtk_box_new (GTK_ORIENTATION_VERTICAL, 3);
  gtk_widget_set_hexpand (lines, TRUE);
  for (guint i = 0; i < n; i++)
    gtk_box_append (GTK_BOX (lines), desk_line_new (classes[i]));
  gtk_box_append (GTK_BOX (row), lines);
  return row;
}

void
desk_remark_row_set (GtkWidget *row, const char *icon, const char *const *texts)
{
  GtkWidget *image = gtk_widget_get_first_child (row);
  gtk_image_set_from_icon_name (GTK_IMAGE (image), icon);
  for (GtkWidget *label = gtk_widget_get_first_child (gtk_widget_get_next_sibling (image));
       label != NULL; label = gtk_widget_get_next_sibling (label), texts++)
    {
      gtk_label_set_label (GTK_LABEL (label), *texts);
      gtk_widget_set_visible (label, **texts != '\0');
    }
}

void
desk_remark_list_set (GtkListView *list, guint n)
{
  g_autoptr (GtkStringList) rows = gtk_string_list_new (NULL);
  for (guint i = 0; i < n; i++)
    gtk_string_list_append (rows, "");
  g_autoptr (GtkNoSelection) selection = gtk_no_selection_new (G_LIST_MODEL (g_object_ref (rows)));
  gtk_list_view_set_model (list, GTK_SELECTION_MODEL (selection));
}
