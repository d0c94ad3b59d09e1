/* matrix.c: for the site manager: structures down, moves across, the certified least clearance in
 * each cell with its mark; the structure with the least margin first. A cell goes there.
 *
 * The names are a list of their own at the left, so that they stay when the moves are scrolled
 * sideways: all rows are as high, and both lists are scrolled to the same height. */
#include "matrix.h"

#include "cell.h"
#include "desk-words.h"
#include "room-layout.h"
#include "room-parts.h"
#include "table-words.h"

/* ---- a row ---- */

#define DESK_TYPE_MATRIX_ROW (desk_matrix_row_get_type ())
G_DECLARE_FINAL_TYPE (DeskMatrixRow, desk_matrix_row, DESK, MATRIX_ROW, GObject)

struct _DeskMatrixRow
{
  GObject parent;
  char *name;       /* owned */
  char *shown;      /* the name, cut; owned */
  char *id;         /* owned */
  int worst;        /* the index of the worst finding of the row; −1: none */
  gboolean is_part; /* of gear, and moves */
  GArray *findings; /* for each move the index of its finding, or −1 */
};

G_DEFINE_FINAL_TYPE (DeskMatrixRow, desk_matrix_row, G_TYPE_OBJECT)

static void
desk_matrix_row_finalize (GObject *object)
{
  DeskMatrixRow *row = DESK_MATRIX_ROW (object);
  g_free (row->name);
  g_free (row->shown);
  g_free (row->id);
  g_array_unref (row->findings);
  G_OBJECT_CLASS (desk_matrix_row_parent_class)->finalize (object);
}

static void
desk_matrix_row_class_init (DeskMatrixRowClass *class)
{
  G_OBJECT_CLASS (class)->finalize = desk_matrix_row_finalize;
}

static void
desk_matrix_row_init (DeskMatrixRow *row)
{
  row->findings = g_array_new (FALSE, FALSE, sizeof (int));
  row->worst = -1;
}

/* ---- the matrix ---- */

#define ROWS_A_TURN 1

#define DESK_TYPE_MATRIX (desk_matrix_get_type ())
G_DECLARE_FINAL_TYPE (DeskMatrix, desk_matrix, DESK, MATRIX, GtkBox)

struct _DeskMatrix
{
  GtkBox parent;
  DeskSession *session;
  GListStore *rows; /* of DeskMatrixRow */
  GtkWidget *names, *view, *scroll, *lift, *told, *all, *pages;
  guint run;       /* the lift whose moves are the columns */
  guint scroll_id; /* of the tick that scrolls; goes with the widget */
  int worst;       /* the index of the worst finding; −1: none */
};

G_DEFINE_FINAL_TYPE (DeskMatrix, desk_matrix, GTK_TYPE_BOX)

#define NAME_PX 200

/* Room for "Not checked", and for "126′ 10 13/16″". */
static int
cell_px (void)
{
  return trn_words_get_units ().lengths == TRN_LENGTHS_FEET ? 144 : 118;
}

/* Of a name on two lines. */
static int
row_px (GtkWidget *widget)
{
  g_autoptr (PangoLayout) layout = gtk_widget_create_pango_layout (widget, "A\nA");
  int height;
  pango_layout_get_pixel_size (layout, NULL, &height);
  return height;
}

static const TrnFinding *
cell_finding (DeskMatrix *matrix, DeskMatrixRow *row, guint move)
{
  const TrnLiftFindings *lift = desk_check_get_lift (desk_session_get_check (matrix->session),
                                                     desk_session_get_run (matrix->session));
  if (lift == NULL || move >= row->findings->len)
    return NULL;
  int index = g_array_index (row->findings, int, move);
  return index < 0 || (guint)index >= lift->findings->len
             ? NULL
             : &g_array_index (lift->findings, TrnFinding, index);
}

static DeskMatrix *
matrix_of (GtkWidget *widget)
{
  return DESK_MATRIX (gtk_widget_get_ancestor (widget, DESK_TYPE_MATRIX));
}

static void
on_cell_clicked (GtkWidget *button, gpointer data)
{
  GtkListItem *item = data;
  guint move = GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (button), "move"));
  DeskMatrix *matrix = matrix_of (button);
  const TrnFinding *finding = cell_finding (matrix, gtk_list_item_get_item (item), move);
  if (finding == NULL)
    return;
  desk_session_set_finding (matrix->session, finding, TRUE);
  gtk_widget_activate_action (button, "win.show-room", "s", "view");
}

static void
setup_cell (GtkSignalListItemFactory *factory, GtkListItem *item, gpointer data)
{
  DeskMatrix *matrix = DESK_MATRIX (g_object_get_data (G_OBJECT (factory), "matrix"));
  GtkWidget *button = desk_cell_new (row_px (matrix->view));
  gtk_widget_add_css_class (button, "flat");
  gtk_widget_add_css_class (button, "matrix-cell");
  g_object_set_data (G_OBJECT (button), "move", data);
  g_signal_connect (button, "clicked", G_CALLBACK (on_cell_clicked), item);
  gtk_list_item_set_child (item, button);
  gtk_list_item_set_activatable (item, FALSE);
  gtk_list_item_set_selectable (item, FALSE);
}

static char *
cell_text (const TrnFinding *finding)
{
  if (finding == NULL)
    return g_strdup ("–");
  if (finding->state == TRN_STATE_SEATED)
    return g_strdup (trn_words_desk (TRN_DESK_SEATED));
  if (finding->verdict == TRN_VERDICT_UNKNOWN)
    return g_strdup (trn_words_desk (TRN_DESK_NOT_CHECKED));
  return trn_words_cell_down (finding->lower_m);
}

static void
bind_cell (GtkSignalListItemFactory *factory, GtkListItem *item, gpointer data)
{
  guint move = GPOINTER_TO_UINT (data);
  GtkWidget *button = gtk_list_item_get_child (item);
  DeskMatrix *matrix = DESK_MATRIX (g_object_get_data (G_OBJECT (factory), "matrix"));
  DeskMatrixRow *row = gtk_list_item_get_item (item);
  const TrnFinding *finding = cell_finding (matrix, row, move);
  RenderState state = desk_finding_state (matrix->session, finding);
  g_autofree char *text = cell_text (finding);
  g_autofree char *says = finding != NULL ? trn_words_finding (finding)
                                          : g_strdup (trn_words_desk (TRN_DESK_NOT_CHECKED));
  g_autofree char *between
      = finding != NULL ? desk_between_dup (matrix->session, finding->body, finding->obstacle, 0)
                        : g_strdup (row->name);
  g_autofree char *whole = trn_words_table_cell (between, move, says);
  desk_cell_set (DESK_CELL (button), state, desk_session_get_dark (matrix->session), text);
  desk_hint_set (button, whole);
  gtk_widget_set_sensitive (button, finding != NULL);
  gboolean is_worst = finding != NULL && matrix->worst >= 0
                      && g_array_index (row->findings, int, move) == matrix->worst;
  if (is_worst)
    gtk_widget_add_css_class (button, "worst");
  else
    gtk_widget_remove_css_class (button, "worst");
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, whole,
                                  -1);
}

static void
setup_name (GtkSignalListItemFactory *factory, GtkListItem *item, gpointer data)
{
  GtkWidget *name = desk_name_new ();
  gtk_widget_set_size_request (name, -1, row_px (name));
  gtk_list_item_set_child (item, name);
  gtk_list_item_set_activatable (item, FALSE);
  gtk_list_item_set_selectable (item, FALSE);
}

static void
bind_name (GtkSignalListItemFactory *factory, GtkListItem *item, gpointer data)
{
  DeskMatrixRow *row = gtk_list_item_get_item (item);
  desk_name_set (gtk_list_item_get_child (item), row->shown, row->name, row->id);
}

/* The view has it. */
static GtkColumnViewColumn *
add_column (GtkWidget *view, const char *title, GtkListItemFactory *factory, int width)
{
  GtkColumnViewColumn *column = gtk_column_view_column_new (title, factory);
  gtk_column_view_column_set_fixed_width (column, width);
  gtk_column_view_append_column (GTK_COLUMN_VIEW (view), column);
  g_object_unref (column);
  // cppcheck-suppress deallocret ; the view has a reference
  return column;
}

static void
make_columns (DeskMatrix *matrix, const TrnLift *lift)
{
  GListModel *columns = gtk_column_view_get_columns (GTK_COLUMN_VIEW (matrix->view));
  while (g_list_model_get_n_items (columns) > 0)
    {
      g_autoptr (GtkColumnViewColumn) column = g_list_model_get_item (columns, 0);
      gtk_column_view_remove_column (GTK_COLUMN_VIEW (matrix->view), column);
    }
  for (guint move = 0; move < lift->n_moves; move++)
    {
      GtkListItemFactory *cells = gtk_signal_list_item_factory_new ();
      g_object_set_data (G_OBJECT (cells), "matrix", matrix);
      g_signal_connect (cells, "setup", G_CALLBACK (setup_cell), GUINT_TO_POINTER (move));
      g_signal_connect (cells, "bind", G_CALLBACK (bind_cell), GUINT_TO_POINTER (move));
      g_autofree char *title = trn_words_move_short (lift, move);
      desk_heading_set_number (add_column (matrix->view, title, cells, cell_px ()));
    }
}

/* ---- the worst cell ---- */

/* Whether the finding with index @i is worse than the one with index @than, which may be −1. */
static gboolean
is_worse (DeskMatrix *matrix, const TrnLiftFindings *lift, guint i, int than)
{
  return than < 0
         || desk_finding_is_worse (matrix->session, &g_array_index (lift->findings, TrnFinding, i),
                                   &g_array_index (lift->findings, TrnFinding, than));
}

/* Of what has a margin in this lift, the worst finding, by its index; −1 where none. */
static int
find_worst (DeskMatrix *matrix, const TrnLiftFindings *lift)
{
  int worst = -1;
  for (guint i = 0; lift != NULL && i < lift->findings->len; i++)
    {
      const TrnFinding *finding = &g_array_index (lift->findings, TrnFinding, i);
      if (finding->check == TRN_CHECK_CLEARANCE && finding->state != TRN_STATE_SEATED
          && !isnan (trn_words_margin_m (finding)) && is_worse (matrix, lift, i, worst))
        worst = (int)i;
    }
  return worst;
}

/* Its row is the first; its column may lie off the window. How far that is, is known only after the
 * columns have been given their places. */
static gboolean
on_scroll_due (GtkWidget *widget, GdkFrameClock *clock, gpointer data)
{
  DeskMatrix *matrix = DESK_MATRIX (widget);
  const TrnLiftFindings *lift
      = desk_check_get_lift (desk_session_get_check (matrix->session), matrix->run);
  int move = lift != NULL && matrix->worst >= 0 && (guint)matrix->worst < lift->findings->len
                 ? g_array_index (lift->findings, TrnFinding, matrix->worst).move
                 : -1;
  double left_px = (double)move * cell_px (), right_px = left_px + cell_px ();
  GtkAdjustment *across
      = gtk_scrolled_window_get_hadjustment (GTK_SCROLLED_WINDOW (matrix->scroll));
  if (move >= 0 && gtk_adjustment_get_upper (across) < right_px)
    return G_SOURCE_CONTINUE;
  if (move >= 0)
    gtk_adjustment_clamp_page (across, left_px, right_px);
  matrix->scroll_id = 0;
  return G_SOURCE_REMOVE;
}

/* ---- rows ---- */

static DeskMatrixRow *
make_row (const TrnLiftRun *run, const char *body, const TrnPlan *plan, gboolean is_part)
{
  DeskMatrixRow *row = g_object_new (DESK_TYPE_MATRIX_ROW, NULL);
  row->name = trn_words_body_name (plan, body);
  row->shown = trn_words_body_name_cut (plan, body, DESK_NAME_CHARS);
  row->id = g_strdup (body);
  row->is_part = is_part;
  g_array_set_size (row->findings, run->lift->n_moves);
  for (guint i = 0; i < row->findings->len; i++)
    g_array_index (row->findings, int, i) = -1;
  return row;
}

static void
take_finding (DeskMatrix *matrix, DeskMatrixRow *row, const TrnLiftFindings *lift, guint i)
{
  const TrnFinding *finding = &g_array_index (lift->findings, TrnFinding, i);
  int *cell = &g_array_index (row->findings, int, finding->move);
  if (is_worse (matrix, lift, i, *cell))
    *cell = (int)i;
  if (finding->state != TRN_STATE_SEATED && is_worse (matrix, lift, i, row->worst))
    row->worst = (int)i;
}

/* Of the load and all that is of gear the one that is worst against what the row is of. */
static void
set_findings (DeskMatrix *matrix, GHashTable *rows, const TrnLiftFindings *lift)
{
  for (guint i = 0; i < lift->findings->len; i++)
    {
      const TrnFinding *finding = &g_array_index (lift->findings, TrnFinding, i);
      DeskMatrixRow *row = finding->check == TRN_CHECK_CLEARANCE && finding->obstacle != NULL
                               ? g_hash_table_lookup (rows, finding->obstacle)
                               : NULL;
      if (row != NULL)
        take_finding (matrix, row, lift, i);
    }
}

/* A moving part that nothing is looked at against has what it is itself looked at against. */
static void
set_findings_of_parts (DeskMatrix *matrix, GHashTable *rows, const TrnLiftFindings *lift)
{
  g_autoptr (GHashTable) idle = g_hash_table_new (g_str_hash, g_str_equal);
  GHashTableIter iter;
  gpointer id, row;
  g_hash_table_iter_init (&iter, rows);
  while (g_hash_table_iter_next (&iter, &id, &row))
    if (DESK_MATRIX_ROW (row)->is_part && DESK_MATRIX_ROW (row)->worst < 0)
      g_hash_table_insert (idle, id, row);
  for (guint i = 0; i < lift->findings->len; i++)
    {
      const TrnFinding *finding = &g_array_index (lift->findings, TrnFinding, i);
      row = finding->check == TRN_CHECK_CLEARANCE && finding->body != NULL
                ? g_hash_table_lookup (idle, finding->body)
                : NULL;
      if (row != NULL)
        take_finding (matrix, row, lift, i);
    }
}

/* Before the check, and unless all are wanted, moving parts that nothing is looked at against are
 * left out. */
static void
drop_idle_parts (GPtrArray *rows)
{
  for (guint i = rows->len; i-- > 0;)
    {
      const DeskMatrixRow *row = rows->pdata[i];
      if (row->is_part && row->worst < 0)
        g_ptr_array_remove_index (rows, i);
    }
}

typedef struct
{
  DeskMatrix *matrix;
  const TrnLiftFindings *lift;
} Order;

/* Worst first; what has no finding comes last. */
static int
compare_rows (gconstpointer a, gconstpointer b, gpointer data)
{
  const Order *order = data;
  int x = (*(DeskMatrixRow *const *)a)->worst, y = (*(DeskMatrixRow *const *)b)->worst;
  if (x == y || x < 0 || y < 0)
    return (x < 0) - (y < 0);
  if (is_worse (order->matrix, order->lift, (guint)x, y))
    return -1;
  return is_worse (order->matrix, order->lift, (guint)y, x) ? 1 : 0;
}

/* How many rows there are, and why not more; NULL @lift: what is not there yet. */
static void
tell_rows (DeskMatrix *matrix, const TrnLiftFindings *lift, guint n_listed, guint n_all)
{
  const char *note = desk_check_note (matrix->session);
  g_autofree char *told = lift != NULL ? trn_words_matrix_rows (n_listed, n_all)
                                       : g_strdup (note != NULL ? note : "");
  gtk_label_set_text (GTK_LABEL (matrix->told), told);
  gtk_widget_set_visible (matrix->told, *told != '\0');
  gboolean is_all = gtk_check_button_get_active (GTK_CHECK_BUTTON (matrix->all));
  gtk_widget_set_visible (matrix->all, lift != NULL && (n_listed < n_all || is_all));
}

static GPtrArray *
make_rows (DeskMatrix *matrix, DeskSite *site, const TrnLiftRun *run, const TrnLiftFindings *lift)
{
  GPtrArray *rows = g_ptr_array_new_with_free_func (g_object_unref);
  guint n;
  g_autofree TrnObstacle *obstacles = trn_scene_obstacles (site->scene, run, &n);
  for (guint i = 0; i < n; i++)
    g_ptr_array_add (rows, make_row (run, obstacles[i].body->id, site->plan, FALSE));
  for (guint i = 0; run->rig != NULL && i < run->rig->n_bodies; i++)
    g_ptr_array_add (rows, make_row (run, run->rig->bodies[i].id, site->plan, TRUE));
  guint n_all = rows->len;
  g_autoptr (GHashTable) by_id = g_hash_table_new (g_str_hash, g_str_equal);
  for (guint i = 0; i < n_all; i++)
    g_hash_table_insert (by_id, ((DeskMatrixRow *)rows->pdata[i])->id, rows->pdata[i]);
  if (lift != NULL)
    set_findings (matrix, by_id, lift);
  gboolean is_all = gtk_check_button_get_active (GTK_CHECK_BUTTON (matrix->all));
  if (lift != NULL && is_all)
    set_findings_of_parts (matrix, by_id, lift);
  else
    drop_idle_parts (rows);
  Order order = { matrix, lift };
  g_ptr_array_sort_with_data (rows, compare_rows, &order);
  tell_rows (matrix, lift, rows->len, n_all);
  return rows;
}

static void
fill (GtkWidget *widget)
{
  DeskMatrix *matrix = DESK_MATRIX (widget);
  DeskSite *site = desk_session_get_site (matrix->session);
  const TrnLiftRun *run = desk_session_get_lift_run (matrix->session);
  matrix->run = desk_session_get_run (matrix->session);
  matrix->worst = -1;
  g_autoptr (GPtrArray) rows = NULL;
  if (site != NULL && run != NULL)
    {
      const TrnLiftFindings *lift
          = desk_session_is_stale (matrix->session)
                ? NULL
                : desk_check_get_lift (desk_session_get_check (matrix->session), matrix->run);
      rows = make_rows (matrix, site, run, lift);
      matrix->worst = find_worst (matrix, lift);
      make_columns (matrix, run->lift);
      g_autofree char *title = trn_words_lift_title (run->lift, matrix->run);
      desk_text_set (matrix->lift, title);
    }
  else
    rows = g_ptr_array_new_with_free_func (g_object_unref);
  gtk_widget_set_visible (matrix->lift, site != NULL && site->scene->programme->n_runs > 1);
  desk_rows_feed (matrix->rows, rows, ROWS_A_TURN);
  gtk_stack_set_visible_child_name (GTK_STACK (matrix->pages), rows->len > 0 ? "table" : "empty");
  if (matrix->worst >= 0 && matrix->scroll_id == 0)
    matrix->scroll_id = gtk_widget_add_tick_callback (widget, on_scroll_due, NULL, NULL);
}

static void
on_changed (DeskMatrix *matrix)
{
  desk_fill_when_seen (GTK_WIDGET (matrix), fill);
}

/* Another lift, not every moment. */
static void
on_time_changed (DeskMatrix *matrix)
{
  if (desk_session_get_run (matrix->session) != matrix->run)
    on_changed (matrix);
}

/* ---- making ---- */

static void
desk_matrix_finalize (GObject *object)
{
  DeskMatrix *matrix = DESK_MATRIX (object);
  g_clear_object (&matrix->rows);
  g_clear_object (&matrix->session);
  G_OBJECT_CLASS (desk_matrix_parent_class)->finalize (object);
}

static void
desk_matrix_class_init (DeskMatrixClass *class)
{
  G_OBJECT_CLASS (class)->finalize = desk_matrix_finalize;
}

static void
desk_matrix_init (DeskMatrix *matrix)
{
  matrix->rows = g_list_store_new (DESK_TYPE_MATRIX_ROW);
  matrix->worst = -1;
}

static GtkWidget *
quiet_label_new (const char *text)
{
  GtkWidget *label = gtk_label_new (text);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_widget_add_css_class (label, "dim-label");
  return label;
}

static GtkWidget *
view_new (DeskMatrix *matrix)
{
  GtkSelectionModel *model
      = GTK_SELECTION_MODEL (gtk_no_selection_new (g_object_ref (G_LIST_MODEL (matrix->rows))));
  return gtk_column_view_new (model);
}

/* At the left of the cells, moved up and down with them. */
static GtkWidget *
names_new (DeskMatrix *matrix)
{
  matrix->names = view_new (matrix);
  gtk_widget_set_can_focus (matrix->names, FALSE);
  GtkListItemFactory *names = gtk_signal_list_item_factory_new ();
  g_signal_connect (names, "setup", G_CALLBACK (setup_name), NULL);
  g_signal_connect (names, "bind", G_CALLBACK (bind_name), NULL);
  add_column (matrix->names, trn_words_table (TRN_TABLE_STRUCTURE), names, NAME_PX);
  gtk_accessible_update_property (GTK_ACCESSIBLE (matrix->names), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  trn_words_table (TRN_TABLE_STRUCTURE), -1);
  GtkWidget *scroll = gtk_scrolled_window_new ();
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroll), GTK_POLICY_NEVER,
                                  GTK_POLICY_EXTERNAL);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroll), matrix->names);
  g_object_bind_property (
      gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (matrix->scroll)), "value",
      gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (scroll)), "value",
      G_BINDING_BIDIRECTIONAL);
  return scroll;
}

static GtkWidget *
table_new (DeskMatrix *matrix)
{
  matrix->view = view_new (matrix);
  gtk_accessible_update_property (GTK_ACCESSIBLE (matrix->view), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  trn_words_table (TRN_TABLE_MATRIX), -1);
  GtkWidget *scroll = matrix->scroll = gtk_scrolled_window_new ();
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroll), matrix->view);
  gtk_widget_add_css_class (scroll, "matrix-cells");
  gtk_widget_set_hexpand (scroll, TRUE);
  GtkWidget *table = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);
  gtk_box_append (GTK_BOX (table), names_new (matrix));
  gtk_box_append (GTK_BOX (table), gtk_separator_new (GTK_ORIENTATION_VERTICAL));
  gtk_box_append (GTK_BOX (table), scroll);
  return table;
}

/* What the cells are, which rows there are, and all of them on demand. */
static GtkWidget *
head_new (DeskMatrix *matrix)
{
  GtkWidget *head = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  gtk_widget_add_css_class (head, "room-head");
  GtkWidget *hint = quiet_label_new (trn_words_table (TRN_TABLE_MATRIX_HINT));
  gtk_label_set_xalign (GTK_LABEL (hint), 0);
  gtk_box_append (GTK_BOX (head), hint);
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  matrix->told = quiet_label_new (NULL);
  gtk_label_set_xalign (GTK_LABEL (matrix->told), 0);
  matrix->all = gtk_check_button_new_with_label (trn_words_table (TRN_TABLE_SHOW_ALL));
  gtk_widget_set_tooltip_text (matrix->all, trn_words_table (TRN_TABLE_SHOW_ALL_HINT));
  gtk_widget_set_visible (matrix->all, FALSE);
  g_signal_connect_object (matrix->all, "toggled", G_CALLBACK (on_changed), matrix,
                           G_CONNECT_SWAPPED);
  gtk_box_append (GTK_BOX (line), matrix->told);
  gtk_box_append (GTK_BOX (line), matrix->all);
  gtk_box_append (GTK_BOX (head), line);
  return head;
}

GtkWidget *
desk_matrix_new (DeskSession *session)
{
  DeskMatrix *matrix
      = g_object_new (DESK_TYPE_MATRIX, "orientation", GTK_ORIENTATION_VERTICAL, NULL);
  matrix->session = g_object_ref (session);
  matrix->lift = desk_text_new ("room-title");
  gtk_widget_add_css_class (matrix->lift, "matrix-lift");
  gtk_box_append (GTK_BOX (matrix), matrix->lift);
  gtk_box_append (GTK_BOX (matrix), head_new (matrix));
  matrix->pages = gtk_stack_new ();
  gtk_stack_add_named (GTK_STACK (matrix->pages),
                       desk_room_box_new (table_new (matrix), 0, DESK_LEAST_ROWS_PX), "table");
  gtk_stack_add_named (GTK_STACK (matrix->pages),
                       quiet_label_new (trn_words_table (TRN_TABLE_EMPTY)), "empty");
  gtk_widget_set_vexpand (matrix->pages, TRUE);
  gtk_box_append (GTK_BOX (matrix), matrix->pages);
  static const char *const signals[] = { "findings-changed", "site-changed", "view-changed", NULL };
  desk_follow (session, matrix, G_CALLBACK (on_changed), signals);
  g_signal_connect_object (session, "time-changed", G_CALLBACK (on_time_changed), matrix,
                           G_CONNECT_SWAPPED);
  fill (GTK_WIDGET (matrix));
  return GTK_WIDGET (matrix);
}
