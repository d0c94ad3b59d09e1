/* matrix.c: for the site manager: structures down, moves across, the certified least clearance in
 * each cell with its mark; the structure with the least margin first. Above them the worst of all
 * other checks, so that a move that meets its clearances and falls short in a force does not look
 * as if it met all; nor does one of which something was not checked. A cell goes there. */
#include "matrix.h"

#include <math.h>

#include "cell.h"
#include "desk-words.h"
#include "gear-words.h"
#include "grid.h"
#include "matrix-rows.h"
#include "number.h"
#include "room-layout.h"
#include "room-parts.h"
#include "table-words.h"
#include "words.h"

/* ---- the matrix ---- */

#define DESK_TYPE_MATRIX (desk_matrix_get_type ())
G_DECLARE_FINAL_TYPE (DeskMatrix, desk_matrix, DESK, MATRIX, GtkBox)

struct _DeskMatrix
{
  GtkBox parent;
  DeskSession *session;
  DeskSite *site;  /* what the rows are of; owned */
  GPtrArray *rows; /* of DeskMatrixRow */
  GtkWidget *grid, *lift, *told, *all, *pages;
  guint run;           /* the lift whose moves are the columns */
  int worst;           /* the index of the worst clearance; −1: none */
  char *revealed;      /* the place that was shown first; NULL: none */
  gboolean is_checked; /* that lift */
  char *not_checked;   /* what was not, in words; NULL: all was, or nothing is checked yet */
  int row_px;          /* of a row's text; 0: not known */
  guint row_letters;   /* of the letters that it is of */
  guint letters_id;    /* fills it in other letters; 0: not due */
};

G_DEFINE_FINAL_TYPE (DeskMatrix, desk_matrix, GTK_TYPE_BOX)

#define NAME_PX 200
#define CELL_MARGIN_PX 8 /* above and below; in the style, too */
/* Of a cell beside its text: the mark with its gap, and the room that the style leaves. */
#define BESIDE_TEXT_PX 46

/* At least, in the letters of most desktops. */
#define LEAST_CELL_PX 118
/* As long as a length is in feet. */
#define LONG_FEET "126′ 10 13/16″"

static guint
letters_of (DeskMatrix *matrix)
{
  return pango_context_get_serial (gtk_widget_get_pango_context (GTK_WIDGET (matrix)));
}

/* Of a name on two lines; laid out once for all cells that are made. */
static int
row_px (DeskMatrix *matrix)
{
  GtkWidget *widget = GTK_WIDGET (matrix);
  const guint letters = letters_of (matrix);
  if (matrix->row_px > 0 && matrix->row_letters == letters)
    return matrix->row_px;
  g_autoptr (PangoLayout) layout = gtk_widget_create_pango_layout (widget, "A\nA");
  pango_layout_get_pixel_size (layout, NULL, &matrix->row_px);
  matrix->row_letters = letters;
  return matrix->row_px;
}

static const DeskMatrixRow *
row_at (const DeskMatrix *matrix, int row)
{
  return matrix->rows->pdata[row];
}

static const TrnFinding *
cell_finding (const DeskMatrix *matrix, int row, int move)
{
  const TrnLiftFindings *lift
      = desk_check_get_lift (desk_session_get_check (matrix->session), matrix->run);
  int index = row_at (matrix, row)->findings[move];
  return lift == NULL || index < 0 || (guint)index >= lift->findings->len
             ? NULL
             : &g_array_index (lift->findings, TrnFinding, index);
}

static void
on_cell_clicked (DeskMatrix *matrix, GtkWidget *button)
{
  int row, move;
  desk_grid_get_place (DESK_GRID (matrix->grid), button, &row, &move);
  const TrnFinding *finding = cell_finding (matrix, row, move);
  desk_session_set_playing (matrix->session, FALSE);
  if (finding != NULL)
    desk_session_set_finding (matrix->session, finding, TRUE);
  /* What has no moment of its own, or was not checked, is looked at where its move begins. */
  if (finding == NULL || !isfinite (finding->time_s))
    desk_session_set_move (matrix->session, (guint)move);
  gtk_widget_activate_action (button, "win.show-room", "s", "view");
}

static GtkWidget *
make_widget (DeskGridKind kind, gpointer data)
{
  DeskMatrix *matrix = data;
  GtkWidget *widget = kind == DESK_GRID_CELL   ? desk_cell_new (row_px (matrix))
                      : kind == DESK_GRID_NAME ? desk_name_new ()
                                               : desk_text_new ("matrix-heading");
  if (kind == DESK_GRID_NAME)
    gtk_widget_add_css_class (widget, "matrix-name");
  if (kind != DESK_GRID_CELL)
    return widget;
  gtk_widget_add_css_class (widget, "flat");
  gtk_widget_add_css_class (widget, "matrix-cell");
  g_signal_connect_swapped (widget, "clicked", G_CALLBACK (on_cell_clicked), matrix);
  return widget;
}

/* What a cell is about. */
typedef struct
{
  const TrnFinding *finding; /* NULL: none */
  RenderState state;
  gboolean is_other; /* of the other checks */
  gboolean is_open;  /* of those what was done is met, but not all was done */
} Cell;

static Cell
look_at_cell (DeskMatrix *matrix, int row, int move)
{
  Cell cell = { .finding = cell_finding (matrix, row, move) };
  cell.state = desk_finding_state (matrix->session, cell.finding);
  const gboolean is_met = cell.state == RENDER_STATE_CLEAR || cell.state == RENDER_STATE_NONE;
  const gboolean is_left_out = cell.finding == NULL || cell.finding->state == TRN_STATE_NOT_GIVEN;
  cell.is_other = row_at (matrix, row)->id == NULL;
  cell.is_open = cell.is_other && (is_left_out || (is_met && matrix->not_checked != NULL));
  if (cell.is_open)
    cell.state = RENDER_STATE_NOT_CHECKED;
  return cell;
}

static char *
cell_text (const DeskMatrix *matrix, const Cell *cell)
{
  const TrnFinding *finding = cell->finding;
  if (cell->is_open && matrix->is_checked)
    return g_strdup (trn_words_desk (TRN_DESK_NOT_CHECKED));
  if (finding == NULL)
    return g_strdup ("–");
  if (finding->check != TRN_CHECK_CLEARANCE)
    return g_strdup (trn_words_finding_short (finding));
  if (finding->state == TRN_STATE_SEATED)
    return g_strdup (trn_words_desk (TRN_DESK_SEATED));
  if (finding->verdict == TRN_VERDICT_UNKNOWN)
    return g_strdup (trn_words_desk (TRN_DESK_NOT_KNOWN));
  return trn_words_cell_down (finding->lower_m);
}

/* In whole: what was found, and of the other checks what was not done. */
static char *
cell_says (const DeskMatrix *matrix, const Cell *cell)
{
  g_autofree char *says
      = cell->finding != NULL         ? trn_words_finding_named (matrix->site->plan, cell->finding)
        : matrix->not_checked == NULL ? g_strdup (trn_words_desk (TRN_DESK_NOT_CHECKED))
                                      : NULL;
  if (!cell->is_other || matrix->not_checked == NULL)
    return g_steal_pointer (&says);
  return says != NULL ? g_strdup_printf ("%s\n%s", says, matrix->not_checked)
                      : g_strdup (matrix->not_checked);
}

/* Of a row, or of the pair that its finding is about. */
static char *
name_of_cell (DeskMatrix *matrix, const DeskMatrixRow *row, const TrnFinding *finding)
{
  const char *other = trn_words_table (TRN_TABLE_OTHER_CHECKS);
  if (row->id == NULL)
    return finding != NULL ? trn_words_with_subject (other, finding) : g_strdup (other);
  return finding != NULL ? desk_between_dup (matrix->session, finding->body, finding->obstacle, 0)
                         : trn_words_body_name (matrix->site->plan, row->id);
}

static void
show_cell (DeskMatrix *matrix, GtkWidget *button, int row, int move)
{
  const Cell cell = look_at_cell (matrix, row, move);
  const TrnFinding *finding = cell.finding;
  g_autofree char *text = cell_text (matrix, &cell);
  g_autofree char *says = cell_says (matrix, &cell);
  g_autofree char *name = name_of_cell (matrix, row_at (matrix, row), finding);
  g_autofree char *whole
      = trn_words_table_cell (name, finding != NULL && finding->move < 0 ? -1 : move, says);
  gtk_widget_set_size_request (button, -1, row_px (matrix));
  desk_cell_set (DESK_CELL (button), cell.state, desk_session_get_dark (matrix->session), text);
  desk_hint_set (button, whole);
  gtk_widget_set_sensitive (button, finding != NULL || cell.is_other);
  gboolean is_worst = finding != NULL && matrix->worst >= 0
                      && row_at (matrix, row)->findings[move] == matrix->worst;
  if (is_worst)
    gtk_widget_add_css_class (button, "worst");
  else
    gtk_widget_remove_css_class (button, "worst");
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, whole,
                                  -1);
}

static void
show_name (DeskMatrix *matrix, GtkWidget *label, int row)
{
  const char *id = row_at (matrix, row)->id;
  if (id == NULL)
    {
      const char *other = trn_words_table (TRN_TABLE_OTHER_CHECKS);
      desk_name_set (label, other, other, NULL);
      return;
    }
  g_autofree char *name = trn_words_body_name (matrix->site->plan, id);
  g_autofree char *shown = trn_words_body_name_cut (matrix->site->plan, id, DESK_NAME_CHARS);
  desk_name_set (label, shown, name, id);
}

/* Numbers stand at the right, and so does what is above them. */
static void
show_heading (DeskMatrix *matrix, GtkWidget *label, int move)
{
  const TrnLiftRun *run
      = matrix->site != NULL ? &matrix->site->scene->programme->runs[matrix->run] : NULL;
  g_autofree char *title = move < 0 || run == NULL
                               ? g_strdup (trn_words_table (TRN_TABLE_STRUCTURE))
                               : trn_words_move_short (run->lift, (guint)move);
  gtk_label_set_xalign (GTK_LABEL (label), move < 0 ? 0 : 1);
  desk_text_set (label, title);
}

static void
show_widget (DeskGridKind kind, GtkWidget *widget, int row, int column, gpointer data)
{
  if (kind == DESK_GRID_CELL)
    show_cell (data, widget, row, column);
  else if (kind == DESK_GRID_NAME)
    show_name (data, widget, row);
  else
    show_heading (data, widget, column);
}

/* Of the other checks each cell says what was not done. */
static gboolean
is_stop (int row, int column, gpointer data)
{
  return row_at (data, row)->id == NULL || cell_finding (data, row, column) != NULL;
}

/* ---- the table ---- */

/* In bold, as the least margin stands. */
static int
room_for (DeskMatrix *matrix, const char *text)
{
  return desk_text_px (matrix->grid, text, TRUE) + BESIDE_TEXT_PX;
}

/* Room for the longest word of the other checks, too: it neither runs into its mark nor out. */
static int
column_px (DeskMatrix *matrix)
{
  static const TrnDeskText words[] = { TRN_DESK_NOT_CHECKED, TRN_DESK_NOT_KNOWN, TRN_DESK_SEATED };
  int most = LEAST_CELL_PX;
  if (trn_words_get_units ().lengths == TRN_LENGTHS_FEET)
    most = MAX (most, room_for (matrix, LONG_FEET));
  for (guint i = 0; i < G_N_ELEMENTS (words); i++)
    most = MAX (most, room_for (matrix, trn_words_desk (words[i])));
  const guint n_moves
      = matrix->site != NULL ? matrix->site->scene->programme->runs[matrix->run].lift->n_moves : 0;
  for (guint m = 0; m < n_moves; m++)
    {
      const Cell cell = look_at_cell (matrix, 0, (int)m);
      g_autofree char *text = cell_text (matrix, &cell);
      most = MAX (most, room_for (matrix, text));
    }
  return most;
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

static gboolean
fails (const DeskMatrix *matrix, int row, int move)
{
  const TrnFinding *finding = cell_finding (matrix, row, move);
  return finding != NULL && finding->verdict == TRN_VERDICT_FAIL;
}

/* Shows it, unless it was shown already: who has gone elsewhere since stays there. */
static void
reveal (DeskMatrix *matrix, int row, int move)
{
  const char *file = matrix->site->plan->file;
  const char *id = row_at (matrix, row)->id;
  char *place = g_strdup_printf ("%u %d %s\n%s", matrix->run, move, id != NULL ? id : "",
                                 file != NULL ? file : "");
  if (g_strcmp0 (place, matrix->revealed) != 0)
    desk_grid_reveal (DESK_GRID (matrix->grid), row, move);
  g_free (matrix->revealed);
  matrix->revealed = place;
}

/* Where one is to look first, which may lie off the window: the clearance with the least margin,
 * whose row is the first of a structure; unless only another check fails. */
static void
reveal_first (DeskMatrix *matrix, const TrnLiftFindings *lift)
{
  const int first = matrix->rows->len > 1 ? row_at (matrix, 1)->worst : -1;
  const int move = first >= 0 ? g_array_index (lift->findings, TrnFinding, first).move : 0;
  const int n_moves = (int)matrix->site->scene->programme->runs[matrix->run].lift->n_moves;
  int other = 0;
  while (other < n_moves && !fails (matrix, 0, other))
    other++;
  if (other < n_moves && (first < 0 || !fails (matrix, 1, move)))
    reveal (matrix, 0, other);
  else
    reveal (matrix, first >= 0 ? 1 : 0, move);
}

static void
fill (GtkWidget *widget)
{
  DeskMatrix *matrix = DESK_MATRIX (widget);
  DeskSite *site = desk_session_get_site (matrix->session);
  const TrnLiftRun *run = desk_session_get_lift_run (matrix->session);
  matrix->run = desk_session_get_run (matrix->session);
  matrix->worst = -1;
  g_clear_pointer (&matrix->rows, g_ptr_array_unref);
  g_clear_pointer (&matrix->site, desk_site_unref);
  g_clear_pointer (&matrix->not_checked, g_free);
  matrix->is_checked = FALSE;
  const TrnLiftFindings *lift = NULL;
  if (site != NULL && run != NULL)
    {
      lift = desk_session_is_stale (matrix->session)
                 ? NULL
                 : desk_check_get_lift (desk_session_get_check (matrix->session), matrix->run);
      const TrnFindings *all = desk_check_get_findings (desk_session_get_check (matrix->session));
      matrix->is_checked = lift != NULL;
      matrix->not_checked = lift != NULL ? trn_words_not_checked_of (all->checks_done) : NULL;
      matrix->site = desk_site_ref (site);
      guint n_all;
      matrix->rows = desk_matrix_rows_new (
          matrix->session, site->scene, run, lift,
          gtk_check_button_get_active (GTK_CHECK_BUTTON (matrix->all)), &n_all);
      matrix->worst = desk_matrix_find_worst (matrix->session, lift);
      tell_rows (matrix, lift, matrix->rows->len, n_all);
      g_autofree char *title = trn_words_lift_title (run->lift, matrix->run);
      desk_text_set (matrix->lift, title);
    }
  else
    matrix->rows = g_ptr_array_new ();
  gtk_widget_set_visible (matrix->lift, site != NULL && site->scene->programme->n_runs > 1);
  DeskGridSize size = { .n_rows = (int)matrix->rows->len,
                        .n_columns = run != NULL ? (int)run->lift->n_moves : 0,
                        .name_px = NAME_PX,
                        .heading_px = row_px (matrix) / 2 + 2 * CELL_MARGIN_PX,
                        .row_px = row_px (matrix) + 2 * CELL_MARGIN_PX,
                        .column_px = column_px (matrix) };
  desk_grid_set (DESK_GRID (matrix->grid), &size);
  gtk_stack_set_visible_child_name (GTK_STACK (matrix->pages),
                                    matrix->rows->len > 0 ? "table" : "empty");
  if (lift != NULL)
    reveal_first (matrix, lift);
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

static void
on_other_letters (gpointer data)
{
  DeskMatrix *matrix = data;
  matrix->letters_id = 0;
  on_changed (matrix);
}

/* In other letters rows and columns need other room: once all that is in it has them. */
static void
desk_matrix_css_changed (GtkWidget *widget, GtkCssStyleChange *change)
{
  DeskMatrix *matrix = DESK_MATRIX (widget);
  GTK_WIDGET_CLASS (desk_matrix_parent_class)->css_changed (widget, change);
  if (matrix->row_px > 0 && matrix->row_letters != letters_of (matrix) && matrix->letters_id == 0)
    matrix->letters_id = g_idle_add_once (on_other_letters, matrix);
}

/* ---- making ---- */

static void
desk_matrix_dispose (GObject *object)
{
  g_clear_handle_id (&DESK_MATRIX (object)->letters_id, g_source_remove);
  G_OBJECT_CLASS (desk_matrix_parent_class)->dispose (object);
}

static void
desk_matrix_finalize (GObject *object)
{
  DeskMatrix *matrix = DESK_MATRIX (object);
  g_clear_pointer (&matrix->rows, g_ptr_array_unref);
  g_clear_pointer (&matrix->site, desk_site_unref);
  g_clear_pointer (&matrix->not_checked, g_free);
  g_clear_pointer (&matrix->revealed, g_free);
  g_clear_object (&matrix->session);
  G_OBJECT_CLASS (desk_matrix_parent_class)->finalize (object);
}

/* Where the keys go when it comes up: to the cell to look at first. */
static gboolean
desk_matrix_grab_focus (GtkWidget *widget)
{
  return gtk_widget_grab_focus (DESK_MATRIX (widget)->grid);
}

static void
desk_matrix_class_init (DeskMatrixClass *class)
{
  GTK_WIDGET_CLASS (class)->css_changed = desk_matrix_css_changed;
  GTK_WIDGET_CLASS (class)->grab_focus = desk_matrix_grab_focus;
  G_OBJECT_CLASS (class)->dispose = desk_matrix_dispose;
  G_OBJECT_CLASS (class)->finalize = desk_matrix_finalize;
}

static void
desk_matrix_init (DeskMatrix *matrix)
{
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
table_new (DeskMatrix *matrix)
{
  static const DeskGridCells cells = { make_widget, show_widget, is_stop };
  matrix->grid = desk_grid_new (&cells, matrix);
  gtk_accessible_update_property (GTK_ACCESSIBLE (matrix->grid), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  trn_words_table (TRN_TABLE_MATRIX), -1);
  GtkWidget *scroll = gtk_scrolled_window_new ();
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroll), matrix->grid);
  gtk_widget_add_css_class (scroll, "matrix-cells");
  return scroll;
}

/* What the cells are, which rows there are, and all of them on demand. Below each other: beside
 * each other a box asks a text that wraps for its height at many widths before it gives it one. */
static GtkWidget *
head_new (DeskMatrix *matrix)
{
  GtkWidget *head = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  gtk_widget_add_css_class (head, "room-head");
  GtkWidget *hint = quiet_label_new (trn_words_table (TRN_TABLE_MATRIX_HINT));
  gtk_label_set_xalign (GTK_LABEL (hint), 0);
  gtk_box_append (GTK_BOX (head), hint);
  matrix->told = quiet_label_new (NULL);
  gtk_label_set_xalign (GTK_LABEL (matrix->told), 0);
  matrix->all = gtk_check_button_new_with_label (trn_words_table (TRN_TABLE_SHOW_ALL));
  gtk_widget_set_tooltip_text (matrix->all, trn_words_table (TRN_TABLE_SHOW_ALL_HINT));
  gtk_widget_set_halign (matrix->all, GTK_ALIGN_START);
  gtk_widget_set_visible (matrix->all, FALSE);
  g_signal_connect_object (matrix->all, "toggled", G_CALLBACK (on_changed), matrix,
                           G_CONNECT_SWAPPED);
  gtk_box_append (GTK_BOX (head), matrix->told);
  gtk_box_append (GTK_BOX (head), matrix->all);
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
