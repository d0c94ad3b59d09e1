/* test-matrix.c: the row of other checks in the matrix of findings, and where one is to look first.
 */
#include "tables-fixture.h"

#include "number.h"

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

/* The cell of the other checks in that move, which is scrolled to. */
static GtkWidget *
scroll_to (DeskGrid *grid, int move)
{
  desk_grid_reveal (grid, 0, move);
  test_wait (desk_grid_get_widget (grid, 0, move) != NULL);
  return desk_grid_get_widget (grid, 0, move);
}

static guint
count_met (DeskGrid *grid)
{
  guint n = 0;
  g_assert_cmpint (desk_grid_get_n_columns (grid), >, 1);
  for (int m = 0; m < desk_grid_get_n_columns (grid); m++)
    n += says_met (scroll_to (grid, m));
  return n;
}

static guint
count_hints (DeskGrid *grid, const char *text)
{
  guint n = 0;
  for (int m = 0; m < desk_grid_get_n_columns (grid); m++)
    n += strstr (desk_hint_get (scroll_to (grid, m)), text) != NULL;
  return n;
}

/* Nothing is known of wind at the gate, nor of how it swings: no move looks as if it
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
  g_assert_cmpuint (count_met (grid), ==, 0);
  g_assert_cmpuint (count_hints (grid, "swinging"), ==, desk_grid_get_n_columns (grid));
  ((TrnFindings *)desk_check_get_findings (check))->checks_done = TRN_CHECKS_ALL;
  desk_session_tell_view_changed (tables.session);
  test_wait (count_met (grid) > 0);
  /* The row is there before anything is known of it, too. */
  desk_check_start (check, desk_session_get_site (tables.session));
  desk_check_cancel (check);
  test_wait (desk_check_get_state (check) != DESK_CHECK_DONE);
  test_idle (0.3);
  g_assert_cmpuint (count_met (grid), ==, 0);
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

/* Another pair, which has no row, is worse: where one is to look first is the worst move of the
 * first row all the same, not the other's move in it. */
static void
test_matrix_first_row (void)
{
  Tables tables;
  tables_make (&tables);
  DeskGrid *grid = DESK_GRID (find_below (tables.matrix, DESK_TYPE_GRID));
  const TrnFinding *worst = desk_session_worst (tables.session, 0, -1, NULL);
  const GArray *list = desk_check_get_lift (desk_session_get_check (tables.session), 0)->findings;
  TrnFinding *other = NULL;
  for (guint i = 0; i < list->len && other == NULL; i++)
    {
      TrnFinding *f = &g_array_index (list, TrnFinding, i);
      if (f->check == TRN_CHECK_CLEARANCE && f->move != worst->move && f->state == TRN_STATE_CLEAR)
        other = f;
    }
  g_assert_nonnull (other);
  other->obstacle = "load";
  other->verdict = TRN_VERDICT_FAIL;
  other->state = TRN_STATE_SHORT;
  other->lower_m = other->upper_m = 0.001;
  desk_session_tell_view_changed (tables.session);
  test_idle (0.5);
  g_assert_true (gtk_widget_grab_focus (tables.matrix));
  assert_focus (grid, 1, worst->move);
  tables_clear (&tables);
}

/* The keys go through the row of other checks, also where nothing was found in a move. */
static void
test_matrix_keys (void)
{
  Tables tables;
  tables_make (&tables);
  DeskGrid *grid = DESK_GRID (find_below (tables.matrix, DESK_TYPE_GRID));
  GArray *list = desk_check_get_lift (desk_session_get_check (tables.session), 0)->findings;
  for (guint i = list->len; i-- > 0;)
    {
      const TrnFinding *finding = &g_array_index (list, TrnFinding, i);
      if (finding->check != TRN_CHECK_CLEARANCE && (finding->move == 1 || finding->move < 0))
        ((TrnFinding *)finding)->move = 0;
    }
  desk_session_tell_view_changed (tables.session);
  test_idle (0.5);
  GtkWidget *cell = scroll_to (grid, 1);
  g_assert_cmpstr (desk_cell_get_text (DESK_CELL (cell)), ==, "Not checked");
  g_assert_true (gtk_widget_is_sensitive (cell));
  g_assert_true (gtk_widget_grab_focus (cell));
  assert_focus (grid, 0, 1);
  /* There is nothing to show of it but the move, and there it goes. */
  const TrnLiftRun *run = desk_session_get_lift_run (tables.session);
  const TrnFinding *before = desk_session_get_finding (tables.session);
  g_assert_cmpfloat (desk_session_get_time (tables.session), !=, run->begins_s[1]);
  desk_session_set_playing (tables.session, TRUE);
  g_signal_emit_by_name (cell, "clicked");
  g_assert_cmpfloat (desk_session_get_time (tables.session), ==, run->begins_s[1]);
  g_assert_false (desk_session_get_playing (tables.session));
  g_assert_true (desk_session_get_finding (tables.session) == before);
  tables_clear (&tables);
}

/* Whether all cells in view have room for what they say, beside a mark. */
static gboolean
have_room (DeskGrid *grid)
{
  const int n_rows = desk_grid_get_n_rows (grid), n_moves = desk_grid_get_n_columns (grid);
  guint n = 0;
  for (int i = 0; i < n_rows * n_moves; i++)
    {
      GtkWidget *cell = desk_grid_get_widget (grid, i / n_moves, i % n_moves);
      if (cell == NULL)
        continue;
      n++;
      const gboolean is_worst = gtk_widget_has_css_class (cell, "worst");
      const char *text = desk_cell_get_text (DESK_CELL (cell));
      if (gtk_widget_get_width (cell) < desk_text_px (cell, text, is_worst) + 16)
        return FALSE;
    }
  return n > 0;
}

/* Lets a frame go through, after which all has the place that it asked for before. */
static void
let_draw (GtkWidget *widget)
{
  GdkFrameClock *frames = gtk_widget_get_frame_clock (widget);
  const gint64 before = gdk_frame_clock_get_frame_counter (frames);
  gtk_widget_queue_draw (widget);
  test_wait (gdk_frame_clock_get_frame_counter (frames) > before);
}

/* In larger letters columns are wider and rows higher, and as they were when these are gone. */
static void
test_matrix_letters (void)
{
  Tables tables;
  tables_make (&tables);
  DeskGrid *grid = DESK_GRID (find_below (tables.matrix, DESK_TYPE_GRID));
  GtkSettings *settings = gtk_settings_get_default ();
  scroll_to (grid, 0);
  let_draw (tables.window);
  const int before_px = gtk_widget_get_width (scroll_to (grid, 0));
  const int before_high_px = gtk_widget_get_height (scroll_to (grid, 0));
  g_assert_true (have_room (grid));
  g_object_set (settings, "gtk-font-name", "Sans 24", NULL);
  test_wait (gtk_widget_get_width (scroll_to (grid, 0)) > before_px && have_room (grid)
             && gtk_widget_get_height (scroll_to (grid, 0)) > before_high_px);
  gtk_settings_reset_property (settings, "gtk-font-name");
  test_wait (gtk_widget_get_width (scroll_to (grid, 0)) == before_px
             && gtk_widget_get_height (scroll_to (grid, 0)) == before_high_px);
  tables_clear (&tables);
}

/* A number alone does not stand for what was met in a move. */
static void
test_matrix_number_alone (void)
{
  Tables tables;
  tables_make (&tables);
  DeskGrid *grid = DESK_GRID (find_below (tables.matrix, DESK_TYPE_GRID));
  DeskCheck *check = desk_session_get_check (tables.session);
  GArray *list = desk_check_get_lift (check, 0)->findings;
  guint n_speeds = 0;
  for (guint i = 0; i < list->len; i++)
    {
      TrnFinding *finding = &g_array_index (list, TrnFinding, i);
      if (finding->check == TRN_CHECK_CLEARANCE)
        continue;
      n_speeds += finding->check == TRN_CHECK_SPEEDS;
      if (finding->check != TRN_CHECK_SPEEDS)
        {
          finding->check = TRN_CHECK_HEADROOM;
          finding->verdict = TRN_VERDICT_PASS;
          finding->state = TRN_STATE_WITHIN;
          finding->move = -1;
        }
    }
  g_assert_cmpuint (n_speeds, >, 0);
  ((TrnFindings *)desk_check_get_findings (check))->checks_done = TRN_CHECKS_ALL;
  desk_session_tell_view_changed (tables.session);
  test_idle (0.5);
  for (int m = 0; m < desk_grid_get_n_columns (grid); m++)
    g_assert_cmpstr (desk_cell_get_text (DESK_CELL (scroll_to (grid, m))), ==, "within");
  tables_clear (&tables);
}

static guint
count_others (const Tables *tables, int move, gboolean are_alone)
{
  const GArray *list = desk_check_get_lift (desk_session_get_check (tables->session), 0)->findings;
  guint n = 0;
  for (guint i = 0; i < list->len; i++)
    {
      const TrnFinding *finding = &g_array_index (list, TrnFinding, i);
      n += finding->check != TRN_CHECK_CLEARANCE && (finding->move == move || finding->move < 0)
           && trn_words_is_number_alone (finding) == are_alone;
    }
  return n;
}

/* Where wind, speeds and swinging are told of a move, each of its cells says what else was found,
 * as long as anything was. */
static void
test_matrix_wind (void)
{
  Tables tables;
  tables_make_of (&tables, "pump-column");
  DeskGrid *grid = DESK_GRID (find_below (tables.matrix, DESK_TYPE_GRID));
  DeskCheck *check = desk_session_get_check (tables.session);
  ((TrnFindings *)desk_check_get_findings (check))->checks_done = TRN_CHECKS_ALL;
  desk_session_tell_view_changed (tables.session);
  test_idle (0.5);
  guint n_alone = 0, n_both = 0;
  for (int m = 0; m < desk_grid_get_n_columns (grid); m++)
    {
      const char *text = desk_cell_get_text (DESK_CELL (scroll_to (grid, m)));
      const guint n_of_numbers = count_others (&tables, m, TRUE);
      const guint n_of_rest = count_others (&tables, m, FALSE);
      n_alone += n_of_numbers;
      n_both += n_of_numbers > 0 && n_of_rest > 0;
      if (n_of_rest > 0)
        g_assert_cmpstr (text, !=, "known");
    }
  g_assert_cmpuint (n_alone, >, 0);
  /* Else nothing was asked above. */
  g_assert_cmpuint (n_both, >, 0);
  tables_clear (&tables);
}

static guint
count_wrapped_beside (GtkWidget *widget)
{
  guint n = 0;
  GtkLayoutManager *layout = gtk_widget_get_layout_manager (widget);
  const gboolean is_row
      = GTK_IS_BOX_LAYOUT (layout)
        && gtk_orientable_get_orientation (GTK_ORIENTABLE (layout)) == GTK_ORIENTATION_HORIZONTAL;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    n += (is_row && GTK_IS_LABEL (child) && gtk_label_get_wrap (GTK_LABEL (child)))
         + count_wrapped_beside (child);
  return n;
}

/* A text that wraps beside something else is asked for its height at so many widths that the window
 * stands still. */
static void
test_matrix_head (void)
{
  Tables tables;
  tables_make (&tables);
  g_assert_cmpuint (count_wrapped_beside (tables.matrix), ==, 0);
  tables_clear (&tables);
}

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  g_test_add_func ("/desk/matrix/not-checked", test_matrix_not_checked);
  g_test_add_func ("/desk/matrix/first", test_matrix_first);
  g_test_add_func ("/desk/matrix/first-row", test_matrix_first_row);
  g_test_add_func ("/desk/matrix/keys", test_matrix_keys);
  g_test_add_func ("/desk/matrix/letters", test_matrix_letters);
  g_test_add_func ("/desk/matrix/number-alone", test_matrix_number_alone);
  g_test_add_func ("/desk/matrix/wind", test_matrix_wind);
  g_test_add_func ("/desk/matrix/head", test_matrix_head);
  return g_test_run ();
}
