/* grid.h: a table of many cells that are all as large, with the names of its rows at the left and
 * the headings of its columns above, which stay when the cells are scrolled. */
#pragma once

#include <gtk/gtk.h>

#define DESK_TYPE_GRID (desk_grid_get_type ())
G_DECLARE_FINAL_TYPE (DeskGrid, desk_grid, DESK, GRID, GtkWidget)

typedef enum
{
  DESK_GRID_CELL,
  DESK_GRID_NAME,
  DESK_GRID_HEADING, /* and what stands above the names, as the heading of column −1 */
  DESK_GRID_N_KINDS,
} DeskGridKind;

/* What is in it. */
typedef struct
{
  GtkWidget *(*make) (DeskGridKind kind, gpointer data);
  /* The widget, which was another's, is that of this place. A name has column −1, a heading row −1.
   */
  void (*show) (DeskGridKind kind, GtkWidget *widget, int row, int column, gpointer data);
  /* Whether the keys stop there. */
  gboolean (*is_stop) (int row, int column, gpointer data);
} DeskGridCells;

typedef struct
{
  int n_rows, n_columns;
  int name_px, heading_px, row_px, column_px;
} DeskGridSize;

/* @cells and @data are borrowed and outlive it. */
GtkWidget *desk_grid_new (const DeskGridCells *cells, gpointer data);
/* All of it is another. */
void desk_grid_set (DeskGrid *grid, const DeskGridSize *size);
int desk_grid_get_n_rows (DeskGrid *grid);
int desk_grid_get_n_columns (DeskGrid *grid);
/* Of a cell that is shown. */
void desk_grid_get_place (DeskGrid *grid, GtkWidget *cell, int *row, int *column);
/* What is shown there now; NULL: not in view, or still to come. Borrowed. */
GtkWidget *desk_grid_get_widget (DeskGrid *grid, int row, int column);
/* Scrolls there, and the keys begin there unless they are in the grid already. */
void desk_grid_reveal (DeskGrid *grid, int row, int column);
