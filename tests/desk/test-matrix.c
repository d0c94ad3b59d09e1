/* test-matrix.c: the row of other checks in the matrix of findings, and where one is to look first.
 */
#include "tables-fixture.h"

/* Whether a cell of the other checks says that all is well there. */
static gboolean
says_met (GtkWidget *cell)
{
  static const char *const met[] = { "meets", "within", "rests", "in place", "known", "carried" };
  const char *text = cell != NULL ? desk_cell_get_text (DESK_CELL (cell)) : "";
  for (guint i = 0; i < G_N_ELEMENTS (met); i++)
    if (strcmp (text, met[i]) == 0)
      return TRUE;
  return FALSE;
}

static guint
count_met (DeskGrid *grid)
{
  guint n = 0;
  for (int m = 0; m < desk_grid_get_n_columns (grid); m++)
    n += says_met (desk_grid_get_widget (grid, 0, m));
  return n;
}

/* The gate has no mass, so that its slings are not checked, among others: no move looks as if it
 * met all other checks, and each says what is not known of it. When all are done, they do. */
static void
test_matrix_not_checked (void)
{
  Tables tables;
  tables_make (&tables);
  DeskGrid *grid = DESK_GRID (find_below (tables.matrix, DESK_TYPE_GRID));
  DeskCheck *check = desk_session_get_check (tables.session);
  test_wait (desk_grid_get_n_rows (grid) == count_listed (&tables));
  test_idle (0.5);
  GtkScrolledWindow *scroll = GTK_SCROLLED_WINDOW (gtk_widget_get_parent (GTK_WIDGET (grid)));
  gtk_adjustment_set_value (gtk_scrolled_window_get_hadjustment (scroll), 0);
  test_wait (count_other (grid, "Not checked") > 0);
  g_assert_cmpuint (count_met (grid), ==, 0);
  guint n_named = 0;
  for (int m = 0; m < desk_grid_get_n_columns (grid); m++)
    {
      GtkWidget *cell = desk_grid_get_widget (grid, 0, m);
      if (cell != NULL && strcmp (desk_cell_get_text (DESK_CELL (cell)), "Not checked") == 0)
        n_named += strstr (desk_hint_get (cell), "slings") != NULL;
    }
  g_assert_cmpuint (n_named, ==, count_other (grid, "Not checked"));
  ((TrnFindings *)desk_check_get_findings (check))->checks_done = TRN_CHECKS_ALL;
  desk_session_tell_view_changed (tables.session);
  test_wait (count_met (grid) > 0);
  /* The row is there before anything is known of it, too. */
  desk_check_start (check, desk_session_get_site (tables.session));
  desk_check_cancel (check);
  test_wait (count_met (grid) == 0);
  g_assert_nonnull (find_saying (GTK_WIDGET (grid), trn_words_table (TRN_TABLE_OTHER_CHECKS)));
  test_wait (count_other (grid, "–") > 0);
  tables_clear (&tables);
}

/* The keys begin where one is to look: where all clearances are met, at the other check that is
 * not. */
static void
test_matrix_first (void)
{
  Tables tables;
  tables_make (&tables);
  DeskGrid *grid = DESK_GRID (find_below (tables.matrix, DESK_TYPE_GRID));
  const GArray *list = desk_check_get_lift (desk_session_get_check (tables.session), 0)->findings;
  for (guint i = 0; i < list->len; i++)
    {
      TrnFinding *finding = &g_array_index (list, TrnFinding, i);
      if (finding->verdict != TRN_VERDICT_FAIL)
        continue;
      finding->verdict = TRN_VERDICT_PASS;
      finding->state = TRN_STATE_CLEAR;
    }
  break_one (&tables, 4, TRN_CHECK_HEADROOM);
  desk_session_tell_view_changed (tables.session);
  test_wait (count_other (grid, "BEYOND") == 1);
  g_assert_true (gtk_widget_grab_focus (tables.matrix));
  assert_focus (grid, 0, 4);
  tables_clear (&tables);
}

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  g_test_add_func ("/desk/matrix/not-checked", test_matrix_not_checked);
  g_test_add_func ("/desk/matrix/first", test_matrix_first);
  return g_test_run ();
}
