/* findings-table.c: all findings: sorted by a click on a heading (worst margin first at the start),
 * narrowed by a search and by kind. Choosing a row looks at the finding; activating it goes there.
 */
#include "findings-table.h"

#include "finding-row.h"
#include "room-layout.h"
#include "room-parts.h"
#include "table-words.h"

#define DESK_TYPE_FINDINGS_TABLE (desk_findings_table_get_type ())
G_DECLARE_FINAL_TYPE (DeskFindingsTable, desk_findings_table, DESK, FINDINGS_TABLE, GtkBox)

typedef enum
{
  KIND_ALL,
  KIND_OPEN,
  KIND_CLEARANCES,
  KIND_GEAR,
} Kind;

struct _DeskFindingsTable
{
  GtkBox parent;
  DeskSession *session;
  GListStore *rows; /* of DeskFindingRow */
  GtkFilter *filter;
  GtkSingleSelection *selection;
  GtkWidget *search, *kind, *view, *scroll, *pages, *empty, *progress;
  GtkColumnViewColumn *lift_column;
  GtkColumnViewColumn *number_columns[TRN_N_COLUMNS]; /* borrowed; NULL: others */
  TrnLengthUnits fitted; /* the units that the columns of numbers are wide enough for */
  gboolean is_fitted;
  guint n_top_frames;
  guint top_id; /* of the tick that scrolls; goes with the widget */
  gboolean filling;
  GPtrArray *made; /* of DeskFindingRow: those to be shown, as far as they are made */
  guint run, next; /* the finding that the next of them is of */
  guint make_id;
};

G_DEFINE_FINAL_TYPE (DeskFindingsTable, desk_findings_table, GTK_TYPE_BOX)

/* ---- columns ---- */

static const struct
{
  TrnColumn column;
  gboolean is_number;
  int width; /* px; 0: takes what is left */
} columns[] = {
  { TRN_COLUMN_VERDICT, FALSE, 132 }, { TRN_COLUMN_OBSTACLE, FALSE, 0 },
  { TRN_COLUMN_LIFT, FALSE, 150 },    { TRN_COLUMN_MOVE, FALSE, 0 },
  { TRN_COLUMN_CLEARANCE, TRUE, 84 }, { TRN_COLUMN_ALLOWANCE, TRUE, 84 },
  { TRN_COLUMN_KEEP, TRUE, 78 },      { TRN_COLUMN_MARGIN, TRUE, 92 },
  { TRN_COLUMN_TIME, TRUE, 84 },
};

static void
setup_text (GtkSignalListItemFactory *factory, GtkListItem *item, gpointer data)
{
  guint k = GPOINTER_TO_UINT (data);
  gboolean is_name = columns[k].column == TRN_COLUMN_OBSTACLE;
  GtkWidget *label
      = is_name ? desk_name_new () : desk_text_new (columns[k].is_number ? "room-number" : NULL);
  gtk_label_set_xalign (GTK_LABEL (label), columns[k].is_number ? 1 : 0);
  if (columns[k].column == TRN_COLUMN_LIFT || columns[k].column == TRN_COLUMN_MOVE)
    {
      gtk_label_set_wrap (GTK_LABEL (label), TRUE);
      gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
      gtk_label_set_lines (GTK_LABEL (label), 3);
    }
  if (columns[k].is_number)
    gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_NONE);
  gtk_list_item_set_child (item, label);
}

static void
setup_verdict (GtkSignalListItemFactory *factory, GtkListItem *item, gpointer data)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  gtk_box_append (GTK_BOX (box), desk_mark_new ());
  GtkWidget *word = desk_text_new (NULL);
  gtk_label_set_wrap (GTK_LABEL (word), TRUE);
  gtk_label_set_lines (GTK_LABEL (word), 2);
  gtk_widget_set_hexpand (word, TRUE);
  gtk_box_append (GTK_BOX (box), word);
  gtk_list_item_set_child (item, box);
}

static void
bind_text (GtkSignalListItemFactory *factory, GtkListItem *item, gpointer data)
{
  guint k = GPOINTER_TO_UINT (data);
  DeskFindingRow *row = gtk_list_item_get_item (item);
  GtkWidget *label = gtk_list_item_get_child (item);
  if (columns[k].column == TRN_COLUMN_OBSTACLE)
    desk_name_set (label, row->shown, row->cells[TRN_COLUMN_OBSTACLE], row->id);
  else
    desk_text_set (label, row->cells[columns[k].column]);
  desk_text_set_state (label,
                       columns[k].column == TRN_COLUMN_MARGIN ? row->state : RENDER_STATE_NONE);
}

static void
bind_verdict (GtkSignalListItemFactory *factory, GtkListItem *item, gpointer data)
{
  DeskFindingsTable *table = data;
  const DeskFindingRow *row = gtk_list_item_get_item (item);
  GtkWidget *box = gtk_list_item_get_child (item), *label = gtk_widget_get_last_child (box);
  desk_text_set (label, row->cells[TRN_COLUMN_VERDICT]);
  desk_text_set_state (label, row->state);
  desk_mark_set (gtk_widget_get_first_child (box), row->state,
                 desk_session_get_dark (table->session));
}

static int
compare_numbers (double p, double q)
{
  return isnan (p) || isnan (q) ? isnan (p) - isnan (q) : (p > q) - (p < q);
}

/* Numbers by size, those without one last; texts by their order; verdicts by the least margin
 * within each; ties as in the results. */
static int
compare_rows (gconstpointer a, gconstpointer b, gpointer data)
{
  guint k = GPOINTER_TO_UINT (data);
  const DeskFindingRow *x = a, *y = b;
  TrnColumn column = columns[k].column;
  int order = column == TRN_COLUMN_OBSTACLE
                  ? g_utf8_collate (x->cells[column], y->cells[column])
                  : compare_numbers (x->values[column], y->values[column]);
  if (order == 0 && column == TRN_COLUMN_VERDICT)
    order = compare_numbers (x->values[TRN_COLUMN_MARGIN], y->values[TRN_COLUMN_MARGIN]);
  return order != 0 ? order : (x->order > y->order) - (x->order < y->order);
}

static const char *
heading (TrnColumn column)
{
  if (column == TRN_COLUMN_CLEARANCE)
    return trn_words_table (TRN_TABLE_VALUE);
  if (column == TRN_COLUMN_KEEP)
    return trn_words_table (TRN_TABLE_LIMIT);
  return trn_words_column (column);
}

static void
add_column (DeskFindingsTable *table, guint k)
{
  GtkListItemFactory *factory = gtk_signal_list_item_factory_new ();
  gboolean is_verdict = columns[k].column == TRN_COLUMN_VERDICT;
  gpointer data = is_verdict ? (gpointer)table : GUINT_TO_POINTER (k);
  g_signal_connect (factory, "setup",
                    is_verdict ? G_CALLBACK (setup_verdict) : G_CALLBACK (setup_text), data);
  g_signal_connect (factory, "bind",
                    is_verdict ? G_CALLBACK (bind_verdict) : G_CALLBACK (bind_text), data);
  GtkColumnViewColumn *column = gtk_column_view_column_new (heading (columns[k].column), factory);
  g_autoptr (GtkSorter) sorter
      = GTK_SORTER (gtk_custom_sorter_new (compare_rows, GUINT_TO_POINTER (k), NULL));
  gtk_column_view_column_set_sorter (column, sorter);
  gtk_column_view_column_set_resizable (column, TRUE);
  if (columns[k].width > 0)
    gtk_column_view_column_set_fixed_width (column, columns[k].width);
  else
    gtk_column_view_column_set_expand (column, TRUE);
  gtk_column_view_append_column (GTK_COLUMN_VIEW (table->view), column);
  if (columns[k].is_number)
    table->number_columns[columns[k].column] = column;
  if (columns[k].column == TRN_COLUMN_LIFT)
    table->lift_column = g_object_ref (column);
  if (columns[k].column == TRN_COLUMN_VERDICT)
    gtk_column_view_sort_by_column (GTK_COLUMN_VIEW (table->view), column, GTK_SORT_ASCENDING);
  g_object_unref (column);
}

#define PROGRESS_PX 240
#define ROWS_A_TURN 1
#define MADE_A_TURN 200 /* without their widgets */
#define LIFT_PLACE 2    /* of the lift's column, in that table */

static void
align_headings (DeskFindingsTable *table)
{
  for (guint i = 0; i < TRN_N_COLUMNS; i++)
    if (table->number_columns[i] != NULL)
      desk_heading_set_number (table->number_columns[i]);
}

/* As long as lengths become, with all their digits: what may be anywhere on a site, and what is to
 * be kept. 516′ 10 13/16″ and 16′ 10 13/16″. */
#define LONG_M (-157.5514375)
#define SHORT_M 5.1514375
#define CELL_PADDING_PX 22

/* A number is never cut; what one made wider stays so until other units are chosen. */
static void
fit_numbers (DeskFindingsTable *table)
{
  TrnLengthUnits units = trn_words_get_units ().lengths;
  if (table->is_fitted && units == table->fitted)
    return;
  table->is_fitted = TRUE;
  table->fitted = units;
  for (guint k = 0; k < G_N_ELEMENTS (columns); k++)
    {
      if (!columns[k].is_number || columns[k].column == TRN_COLUMN_TIME)
        continue;
      gboolean is_far
          = columns[k].column == TRN_COLUMN_CLEARANCE || columns[k].column == TRN_COLUMN_MARGIN;
      g_autofree char *longest = trn_words_cell_down (is_far ? LONG_M : SHORT_M);
      g_autoptr (PangoLayout) layout = gtk_widget_create_pango_layout (table->view, longest);
      int width;
      pango_layout_get_pixel_size (layout, &width, NULL);
      gtk_column_view_column_set_fixed_width (table->number_columns[columns[k].column],
                                              MAX (width + CELL_PADDING_PX, columns[k].width));
    }
}

/* ---- the order ---- */

#define LEAST_TOP_FRAMES 2

/* Where the list is scrolled to it can only say once its rows have their places: it is asked again
 * in the next frame. Rows that are still to come may come before the first. */
static gboolean
on_top_due (GtkWidget *widget, GdkFrameClock *clock, gpointer data)
{
  DeskFindingsTable *table = DESK_FINDINGS_TABLE (widget);
  GtkAdjustment *down = gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (table->scroll));
  guint n_wanted = table->made != NULL ? table->made->len : 0;
  gboolean is_whole = g_list_model_get_n_items (G_LIST_MODEL (table->rows)) >= n_wanted;
  table->n_top_frames = is_whole ? table->n_top_frames + 1 : 0;
  if (table->n_top_frames > LEAST_TOP_FRAMES && gtk_adjustment_get_value (down) <= 0)
    {
      table->top_id = 0;
      return G_SOURCE_REMOVE;
    }
  gtk_adjustment_set_value (down, 0);
  return G_SOURCE_CONTINUE;
}

/* In another order the first rows are what is looked for; the list would stay where the row is that
 * stood at its top. */
static void
on_order_changed (DeskFindingsTable *table)
{
  table->n_top_frames = 0;
  if (table->top_id == 0 && table->scroll != NULL)
    table->top_id = gtk_widget_add_tick_callback (GTK_WIDGET (table), on_top_due, NULL, NULL);
}

/* ---- which rows ---- */

static gboolean
contains (const char *cell, const char *folded)
{
  g_autofree char *text = g_utf8_casefold (cell, -1);
  return strstr (text, folded) != NULL;
}

static gboolean
is_shown (gpointer item, gpointer data)
{
  DeskFindingsTable *table = data;
  DeskFindingRow *row = item;
  Kind kind = gtk_drop_down_get_selected (GTK_DROP_DOWN (table->kind));
  if (kind == KIND_OPEN && row->verdict != TRN_VERDICT_FAIL && row->verdict != TRN_VERDICT_UNKNOWN)
    return FALSE;
  if (kind == KIND_CLEARANCES && !row->is_clearance)
    return FALSE;
  if (kind == KIND_GEAR && !row->is_of_gear)
    return FALSE;
  g_autofree char *folded
      = g_utf8_casefold (gtk_editable_get_text (GTK_EDITABLE (table->search)), -1);
  return *folded == '\0' || contains (row->cells[TRN_COLUMN_OBSTACLE], folded)
         || (row->id != NULL && contains (row->id, folded))
         || contains (row->cells[TRN_COLUMN_MOVE], folded)
         || contains (row->cells[TRN_COLUMN_LIFT], folded)
         || contains (row->cells[TRN_COLUMN_VERDICT], folded);
}

/* Whether there is anything to list. */
static gboolean
is_checked (DeskFindingsTable *table)
{
  const TrnFindings *findings = desk_check_get_findings (desk_session_get_check (table->session));
  for (guint i = 0; findings != NULL && i < findings->n_lifts; i++)
    if (findings->lifts[i].findings->len > 0)
      return TRUE;
  return FALSE;
}

static void
update_page (DeskFindingsTable *table)
{
  if (table->pages == NULL)
    return;
  gboolean none = g_list_model_get_n_items (G_LIST_MODEL (table->rows)) == 0;
  gboolean shown = g_list_model_get_n_items (G_LIST_MODEL (table->selection)) > 0;
  DeskCheck *check = desk_session_get_check (table->session);
  double done = desk_check_get_fraction (check);
  gboolean is_awaited
      = none && !is_checked (table) && desk_check_get_state (check) == DESK_CHECK_RUNNING;
  g_autofree char *checking = is_awaited ? trn_words_checking (done) : NULL;
  gtk_label_set_label (GTK_LABEL (table->empty),
                       checking != NULL             ? checking
                       : none && is_checked (table) ? trn_words_table (TRN_TABLE_FILLING)
                       : none                       ? trn_words_table (TRN_TABLE_EMPTY)
                                                    : trn_words_table (TRN_TABLE_NOTHING_FOUND));
  gtk_progress_bar_set_fraction (GTK_PROGRESS_BAR (table->progress), done);
  gtk_widget_set_visible (table->progress, is_awaited);
  gtk_stack_set_visible_child_name (GTK_STACK (table->pages), shown ? "table" : "empty");
}

static void
on_filter_changed (DeskFindingsTable *table)
{
  gtk_filter_changed (table->filter, GTK_FILTER_CHANGE_DIFFERENT);
  update_page (table);
}

/* A column that is not visible would keep its width (GTK 4.8): it is taken out. */
static void
show_lifts (DeskFindingsTable *table, gboolean show)
{
  GtkColumnView *view = GTK_COLUMN_VIEW (table->view);
  gboolean shown = gtk_column_view_column_get_column_view (table->lift_column) != NULL;
  if (show && !shown)
    gtk_column_view_insert_column (view, LIFT_PLACE, table->lift_column);
  else if (!show && shown)
    gtk_column_view_remove_column (view, table->lift_column);
}

static int
compare_by (gconstpointer a, gconstpointer b, gpointer sorter)
{
  return gtk_sorter_compare (sorter, *(gpointer const *)a, *(gpointer const *)b);
}

static void
show_rows (DeskFindingsTable *table)
{
  DeskSite *site = desk_check_get_site (desk_session_get_check (table->session));
  table->filling = TRUE;
  /* Those that are seen first come first. */
  GtkSorter *sorter = gtk_column_view_get_sorter (GTK_COLUMN_VIEW (table->view));
  g_ptr_array_sort_with_data (table->made, compare_by, sorter);
  desk_rows_feed (table->rows, table->made, ROWS_A_TURN, table->view);
  gtk_single_selection_set_selected (table->selection, GTK_INVALID_LIST_POSITION);
  table->filling = FALSE;
  show_lifts (table, site != NULL && site->scene->programme->n_runs > 1);
  fit_numbers (table);
  align_headings (table);
  update_page (table);
}

/* The next rows, from the finding after the last on. */
static gboolean
on_make (gpointer data)
{
  DeskFindingsTable *table = data;
  DeskCheck *check = desk_session_get_check (table->session);
  DeskSite *site = desk_check_get_site (check);
  guint n_runs = site != NULL ? site->scene->programme->n_runs : 0;
  for (guint n = 0; table->run < n_runs; table->run++, table->next = 0)
    {
      const TrnLiftFindings *lift = desk_check_get_lift (check, table->run);
      for (; lift != NULL && table->next < lift->findings->len; table->next++, n++)
        {
          if (n == MADE_A_TURN)
            return G_SOURCE_CONTINUE;
          g_ptr_array_add (table->made, desk_finding_row_new (table->session, table->run,
                                                              table->next, table->made->len));
        }
    }
  table->make_id = 0;
  show_rows (table);
  return G_SOURCE_REMOVE;
}

static void
fill (GtkWidget *widget)
{
  DeskFindingsTable *table = DESK_FINDINGS_TABLE (widget);
  g_clear_pointer (&table->made, g_ptr_array_unref);
  table->made = g_ptr_array_new_with_free_func (g_object_unref);
  table->run = table->next = 0;
  g_clear_handle_id (&table->make_id, g_source_remove);
  if (on_make (table))
    {
      table->make_id = g_timeout_add (DESK_TURN_MS, on_make, table);
      update_page (table);
    }
}

/* ---- what is chosen ---- */

static void
look_at (DeskFindingsTable *table, guint position, gboolean go)
{
  g_autoptr (DeskFindingRow) row
      = g_list_model_get_item (G_LIST_MODEL (table->selection), position);
  const TrnFinding *finding = row != NULL ? desk_finding_row_get (row, table->session) : NULL;
  if (finding != NULL)
    desk_session_set_finding (table->session, finding, go);
}

static void
on_selected (DeskFindingsTable *table)
{
  if (!table->filling)
    look_at (table, gtk_single_selection_get_selected (table->selection), FALSE);
}

static void
on_activated (DeskFindingsTable *table, guint position)
{
  look_at (table, position, TRUE);
  gtk_widget_activate_action (GTK_WIDGET (table), "win.show-room", "s", "view");
}

/* ---- making ---- */

static GtkWidget *
head_new (DeskFindingsTable *table)
{
  const char *kinds[]
      = { trn_words_table (TRN_TABLE_ALL), trn_words_table (TRN_TABLE_OPEN_ONES),
          trn_words_table (TRN_TABLE_CLEARANCES), trn_words_table (TRN_TABLE_GEAR), NULL };
  table->search = gtk_search_entry_new ();
  g_object_set (table->search, "placeholder-text", trn_words_table (TRN_TABLE_SEARCH), NULL);
  gtk_widget_set_hexpand (table->search, TRUE);
  table->kind = gtk_drop_down_new_from_strings (kinds);
  gtk_accessible_update_property (GTK_ACCESSIBLE (table->kind), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  trn_words_table (TRN_TABLE_SHOWN), -1);
  GtkWidget *head = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  gtk_widget_add_css_class (head, "toolbar");
  gtk_box_append (GTK_BOX (head), table->search);
  gtk_box_append (GTK_BOX (head), table->kind);
  static const struct
  {
    TrnTableText text;
    const char *action;
  } buttons[] = { { TRN_TABLE_COPY, "win.copy-findings" },
                  { TRN_TABLE_EXPORT_CSV, "win.export-csv" },
                  { TRN_TABLE_EXPORT_JSON, "win.export-json" } };
  for (guint i = 0; i < G_N_ELEMENTS (buttons); i++)
    {
      GtkWidget *button = gtk_button_new_with_label (trn_words_table (buttons[i].text));
      gtk_actionable_set_action_name (GTK_ACTIONABLE (button), buttons[i].action);
      gtk_box_append (GTK_BOX (head), button);
    }
  g_signal_connect_object (table->search, "search-changed", G_CALLBACK (on_filter_changed), table,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (table->kind, "notify::selected", G_CALLBACK (on_filter_changed), table,
                           G_CONNECT_SWAPPED);
  return head;
}

static void
make_view (DeskFindingsTable *table)
{
  table->view = gtk_column_view_new (NULL);
  gtk_widget_add_css_class (table->view, "data-table");
  table->filter = GTK_FILTER (gtk_custom_filter_new (is_shown, table, NULL));
  GtkSorter *sorter = gtk_column_view_get_sorter (GTK_COLUMN_VIEW (table->view));
  GtkFilterListModel *filtered = gtk_filter_list_model_new (
      g_object_ref (G_LIST_MODEL (table->rows)), g_object_ref (table->filter));
  GtkSortListModel *sorted
      = gtk_sort_list_model_new (G_LIST_MODEL (filtered), g_object_ref (sorter));
  table->selection = gtk_single_selection_new (G_LIST_MODEL (sorted));
  gtk_single_selection_set_autoselect (table->selection, FALSE);
  gtk_single_selection_set_can_unselect (table->selection, TRUE);
  gtk_column_view_set_model (GTK_COLUMN_VIEW (table->view), GTK_SELECTION_MODEL (table->selection));
  for (guint k = 0; k < G_N_ELEMENTS (columns); k++)
    add_column (table, k);
  gtk_accessible_update_property (GTK_ACCESSIBLE (table->view), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  trn_words_table (TRN_TABLE_FINDINGS), -1);
  g_signal_connect_object (table->selection, "notify::selected", G_CALLBACK (on_selected), table,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (table->selection, "items-changed", G_CALLBACK (update_page), table,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (sorter, "changed", G_CALLBACK (on_order_changed), table,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (table->view, "activate", G_CALLBACK (on_activated), table,
                           G_CONNECT_SWAPPED);
}

/* Columns go one by one then, and each tells that the order is another. */
static void
desk_findings_table_dispose (GObject *object)
{
  DESK_FINDINGS_TABLE (object)->pages = NULL;
  DESK_FINDINGS_TABLE (object)->scroll = NULL;
  G_OBJECT_CLASS (desk_findings_table_parent_class)->dispose (object);
}

static void
desk_findings_table_finalize (GObject *object)
{
  DeskFindingsTable *table = DESK_FINDINGS_TABLE (object);
  g_clear_handle_id (&table->make_id, g_source_remove);
  g_clear_pointer (&table->made, g_ptr_array_unref);
  g_clear_object (&table->selection);
  g_clear_object (&table->lift_column);
  g_clear_object (&table->filter);
  g_clear_object (&table->rows);
  g_clear_object (&table->session);
  G_OBJECT_CLASS (desk_findings_table_parent_class)->finalize (object);
}

static void
desk_findings_table_class_init (DeskFindingsTableClass *class)
{
  G_OBJECT_CLASS (class)->dispose = desk_findings_table_dispose;
  G_OBJECT_CLASS (class)->finalize = desk_findings_table_finalize;
}

static void
desk_findings_table_init (DeskFindingsTable *table)
{
  table->rows = g_list_store_new (DESK_TYPE_FINDING_ROW);
}

static void
on_changed (DeskFindingsTable *table)
{
  desk_fill_when_seen (GTK_WIDGET (table), fill);
}

/* While nobody can see it nothing is told. */
static void
on_progress (DeskFindingsTable *table)
{
  if (gtk_widget_get_mapped (GTK_WIDGET (table)))
    update_page (table);
}

static GtkWidget *
empty_new (DeskFindingsTable *table)
{
  GtkWidget *page = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  gtk_widget_set_halign (page, GTK_ALIGN_CENTER);
  gtk_widget_set_valign (page, GTK_ALIGN_CENTER);
  table->empty = gtk_label_new (NULL);
  gtk_widget_add_css_class (table->empty, "dim-label");
  gtk_label_set_wrap (GTK_LABEL (table->empty), TRUE);
  table->progress = gtk_progress_bar_new ();
  gtk_widget_set_size_request (table->progress, PROGRESS_PX, -1);
  gtk_box_append (GTK_BOX (page), table->empty);
  gtk_box_append (GTK_BOX (page), table->progress);
  return page;
}

GtkWidget *
desk_findings_table_new (DeskSession *session)
{
  DeskFindingsTable *table
      = g_object_new (DESK_TYPE_FINDINGS_TABLE, "orientation", GTK_ORIENTATION_VERTICAL, NULL);
  table->session = g_object_ref (session);
  gtk_box_append (GTK_BOX (table), head_new (table));
  make_view (table);
  GtkWidget *scroll = table->scroll = gtk_scrolled_window_new ();
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroll), table->view);
  table->pages = gtk_stack_new ();
  gtk_stack_add_named (GTK_STACK (table->pages), desk_room_box_new (scroll, 0, DESK_LEAST_ROWS_PX),
                       "table");
  gtk_stack_add_named (GTK_STACK (table->pages), empty_new (table), "empty");
  gtk_widget_set_vexpand (table->pages, TRUE);
  gtk_box_append (GTK_BOX (table), table->pages);
  static const char *const signals[] = { "findings-changed", "site-changed", "view-changed", NULL };
  desk_follow (session, table, G_CALLBACK (on_changed), signals);
  g_signal_connect_object (desk_session_get_check (session), "changed", G_CALLBACK (on_progress),
                           table, G_CONNECT_SWAPPED);
  fill (GTK_WIDGET (table));
  return GTK_WIDGET (table);
}
