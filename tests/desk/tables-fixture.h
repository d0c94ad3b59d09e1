/* tables-fixture.h: the table and the matrix of findings beside each other on the demo of the lock
 * gate, and what is looked for in them. Included once in a program. */
#pragma once

#include <gtk/gtk.h>
#include <string.h>

#include "cell.h"
#include "desk-fixture.h"
#include "findings-table.h"
#include "gear-words.h"
#include "grid.h"
#include "keep-loaded.h"
#include "matrix.h"
#include "room-parts.h"
#include "table-words.h"
#include "words.h"

typedef struct
{
  DeskSession *session;
  GtkWidget *window, *table, *matrix;
} Tables;

static inline gboolean
is_checked (const Tables *tables)
{
  return desk_check_get_state (desk_session_get_check (tables->session)) == DESK_CHECK_DONE
         && desk_session_get_site (tables->session) != NULL;
}

static inline void
tables_make_of (Tables *tables, const char *demo)
{
  tables->session = desk_session_new ();
  tables->window = gtk_window_new ();
  tables->table = desk_findings_table_new (tables->session);
  tables->matrix = desk_matrix_new (tables->session);
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);
  gtk_widget_set_hexpand (tables->table, TRUE);
  gtk_widget_set_hexpand (tables->matrix, TRUE);
  gtk_box_append (GTK_BOX (box), tables->table);
  gtk_box_append (GTK_BOX (box), tables->matrix);
  gtk_window_set_default_size (GTK_WINDOW (tables->window), 1300, 700);
  gtk_window_set_child (GTK_WINDOW (tables->window), box);
  gtk_window_present (GTK_WINDOW (tables->window));
  g_autoptr (GFile) file = test_demo (demo);
  desk_document_open (desk_session_get_document (tables->session), file, 0);
  test_wait (is_checked (tables));
  test_idle (0.2);
}

static inline void
tables_make (Tables *tables)
{
  tables_make_of (tables, "lock-gate");
}

static inline void
tables_clear (Tables *tables)
{
  gtk_window_destroy (GTK_WINDOW (tables->window));
  g_object_unref (tables->session);
  test_idle (0.1);
}

/* The first widget of that type below @widget. */
static inline GtkWidget *
find_below (GtkWidget *widget, GType type)
{
  if (G_TYPE_CHECK_INSTANCE_TYPE (widget, type))
    return widget;
  GtkWidget *found = NULL;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL && found == NULL;
       child = gtk_widget_get_next_sibling (child))
    found = find_below (child, type);
  return found;
}

static inline GtkWidget *
find_saying (GtkWidget *widget, const char *text)
{
  if (GTK_IS_LABEL (widget) && strcmp (gtk_label_get_text (GTK_LABEL (widget)), text) == 0)
    return widget;
  GtkWidget *found = NULL;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL && found == NULL;
       child = gtk_widget_get_next_sibling (child))
    found = find_saying (child, text);
  return found;
}

static inline gboolean
is_looked_at_against (const TrnLiftFindings *lift, const char *part)
{
  for (guint i = 0; i < lift->findings->len; i++)
    {
      const TrnFinding *finding = &g_array_index (lift->findings, TrnFinding, i);
      if (finding->check == TRN_CHECK_CLEARANCE && finding->state != TRN_STATE_SEATED
          && g_strcmp0 (finding->obstacle, part) == 0)
        return TRUE;
    }
  return FALSE;
}

/* Of the other checks, of what stands, and of the moving parts of the gear that something is looked
 * at against. */
static inline int
count_listed (const Tables *tables)
{
  const TrnLiftRun *run = desk_session_get_lift_run (tables->session);
  const TrnLiftFindings *lift = desk_check_get_lift (desk_session_get_check (tables->session), 0);
  guint n;
  g_free (trn_scene_obstacles (desk_session_get_site (tables->session)->scene, run, &n));
  for (guint i = 0; i < run->rig->n_bodies; i++)
    n += is_looked_at_against (lift, run->rig->bodies[i].id);
  return (int)n + 1;
}

static inline void
assert_focus (DeskGrid *grid, int row, int column)
{
  GtkWidget *cell = gtk_widget_get_focus_child (GTK_WIDGET (grid));
  int at_row, at_column;
  g_assert_nonnull (cell);
  desk_grid_get_place (grid, cell, &at_row, &at_column);
  g_assert_cmpint (at_row, ==, row);
  g_assert_cmpint (at_column, ==, column);
  g_assert_true (gtk_widget_get_root (cell) != NULL
                 && gtk_root_get_focus (gtk_widget_get_root (cell)) == cell);
}

/* What the check found, but one thing that is no clearance does not hold. */
static inline const TrnFinding *
break_one (Tables *tables, int move, TrnCheckKind check)
{
  const TrnLiftFindings *lift = desk_check_get_lift (desk_session_get_check (tables->session), 0);
  for (guint i = 0; i < lift->findings->len; i++)
    {
      TrnFinding *finding = &g_array_index (lift->findings, TrnFinding, i);
      if (finding->check != check || (move >= 0 && finding->move != move))
        continue;
      finding->state = TRN_STATE_OUTSIDE;
      finding->verdict = TRN_VERDICT_FAIL;
      return finding;
    }
  g_assert_not_reached ();
}

static inline guint
count_other (DeskGrid *grid, const char *text)
{
  guint n = 0;
  for (int m = 0; m < desk_grid_get_n_columns (grid); m++)
    {
      GtkWidget *cell = desk_grid_get_widget (grid, 0, m);
      n += cell != NULL && strcmp (desk_cell_get_text (DESK_CELL (cell)), text) == 0;
    }
  return n;
}
