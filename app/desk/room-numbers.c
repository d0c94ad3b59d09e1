/* room-numbers.c: a grid of labels; rows that are not wanted now are hidden. */
#include "room-numbers.h"

#include "number.h"
#include "room-parts.h"

#define N_COLUMNS 3
#define UNDER_PX 8
#define KEY "desk-numbers"

typedef struct
{
  GtkWidget *cells[N_COLUMNS];
} Row;

typedef struct
{
  GArray *rows; /* of Row */
  guint n;      /* that are set */
  gboolean is_right;
} Numbers;

static void
numbers_free (gpointer data)
{
  Numbers *numbers = data;
  g_array_unref (numbers->rows);
  g_free (numbers);
}

GtkWidget *
desk_numbers_new (gboolean is_right)
{
  Numbers *numbers = g_new0 (Numbers, 1);
  numbers->rows = g_array_new (FALSE, FALSE, sizeof (Row));
  numbers->is_right = is_right;
  GtkWidget *grid = gtk_grid_new ();
  gtk_grid_set_column_spacing (GTK_GRID (grid), 4);
  gtk_grid_set_row_spacing (GTK_GRID (grid), 1);
  g_object_set_data_full (G_OBJECT (grid), KEY, numbers, numbers_free);
  return grid;
}

void
desk_numbers_begin (GtkWidget *grid)
{
  Numbers *numbers = g_object_get_data (G_OBJECT (grid), KEY);
  numbers->n = 0;
}

static void
add_row (GtkWidget *grid, Numbers *numbers)
{
  Row row = { { desk_name_new (), desk_number_new (NULL), desk_number_new ("room-quiet") } };
  gtk_widget_add_css_class (row.cells[2], "room-small");
  for (int i = 1; i < N_COLUMNS; i++)
    {
      gtk_widget_set_valign (row.cells[i], GTK_ALIGN_START);
      desk_number_stay_plain (row.cells[i]);
    }
  desk_number_set_xalign (row.cells[2], numbers->is_right ? 1 : 0);
  gtk_widget_set_hexpand (row.cells[numbers->is_right ? 0 : 2], TRUE);
  for (int i = 0; i < N_COLUMNS; i++)
    gtk_grid_attach (GTK_GRID (grid), row.cells[i], i, (int)numbers->rows->len, 1, 1);
  g_array_append_val (numbers->rows, row);
}

char *
desk_numbers_said (const char *label, const char *value, const char *more)
{
  if (more != NULL && *value == '\0')
    return g_strdup_printf ("%s: %s", label, more);
  return more != NULL ? g_strdup_printf ("%s: %s, %s", label, value, more)
                      : g_strdup_printf ("%s: %s", label, value);
}

/* A name without numbers beside it has the room of those, too. */
static void
set_span (GtkWidget *grid, const Row *row, const char *value, const char *more)
{
  const int columns = *value != '\0' ? 1 : more != NULL ? 2 : N_COLUMNS;
  GtkLayoutManager *layout = gtk_widget_get_layout_manager (grid);
  GtkLayoutChild *name = gtk_layout_manager_get_layout_child (layout, row->cells[0]);
  gtk_grid_layout_child_set_column_span (GTK_GRID_LAYOUT_CHILD (name), columns);
  for (int i = 0; i < N_COLUMNS; i++)
    gtk_widget_set_visible (row->cells[i], i == 0 || i >= columns);
}

/* By the first of its numbers. */
static void
say (const Row *row, const char *value, const char *more, const char *said)
{
  const gboolean is_first = *value != '\0';
  gtk_accessible_update_property (GTK_ACCESSIBLE (row->cells[1]), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  said, -1);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row->cells[2]), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  is_first && more != NULL ? more : said, -1);
}

void
desk_numbers_add (GtkWidget *grid, const char *label, const char *value, const char *more,
                  const char *said)
{
  Numbers *numbers = g_object_get_data (G_OBJECT (grid), KEY);
  if (numbers->n == numbers->rows->len)
    add_row (grid, numbers);
  const Row *row = &g_array_index (numbers->rows, Row, numbers->n++);
  const char *const texts[N_COLUMNS] = { label, value, more != NULL ? more : "" };
  for (int i = 0; i < N_COLUMNS; i++)
    {
      if (i > 0)
        desk_number_set (row->cells[i], texts[i]);
      else
        desk_label_set (row->cells[i], texts[i]);
    }
  set_span (grid, row, value, more);
  gtk_widget_set_margin_start (row->cells[0], 0);
  gtk_widget_remove_css_class (row->cells[0], "room-quiet");
  /* A number that stands alone is the one that counts. */
  if (*value == '\0' && more != NULL)
    gtk_widget_remove_css_class (row->cells[2], "room-quiet");
  else
    gtk_widget_add_css_class (row->cells[2], "room-quiet");
  say (row, value, more, said);
}

void
desk_numbers_under (GtkWidget *grid)
{
  const Numbers *numbers = g_object_get_data (G_OBJECT (grid), KEY);
  GtkWidget *label = g_array_index (numbers->rows, Row, numbers->n - 1).cells[0];
  gtk_widget_set_margin_start (label, UNDER_PX);
  gtk_widget_add_css_class (label, "room-quiet");
}

void
desk_numbers_quiet (GtkWidget *grid)
{
  const Numbers *numbers = g_object_get_data (G_OBJECT (grid), KEY);
  gtk_widget_add_css_class (g_array_index (numbers->rows, Row, numbers->n - 1).cells[2],
                            "room-quiet");
}

void
desk_numbers_end (GtkWidget *grid)
{
  const Numbers *numbers = g_object_get_data (G_OBJECT (grid), KEY);
  for (guint k = numbers->n; k < numbers->rows->len; k++)
    for (int i = 0; i < N_COLUMNS; i++)
      gtk_widget_set_visible (g_array_index (numbers->rows, Row, k).cells[i], FALSE);
}
