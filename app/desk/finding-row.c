#include "finding-row.h"

#include "desk-words.h"
#include "gauge-words.h"
#include "force-words.h"
#include "load-words.h"
#include "room-parts.h"

G_DEFINE_FINAL_TYPE (DeskFindingRow, desk_finding_row, G_TYPE_OBJECT)

static void
desk_finding_row_finalize (GObject *object)
{
  DeskFindingRow *row = DESK_FINDING_ROW (object);
  for (guint i = 0; i < TRN_N_COLUMNS; i++)
    g_free (row->cells[i]);
  g_free (row->id);
  g_free (row->shown);
  G_OBJECT_CLASS (desk_finding_row_parent_class)->finalize (object);
}

static void
desk_finding_row_class_init (DeskFindingRowClass *class)
{
  G_OBJECT_CLASS (class)->finalize = desk_finding_row_finalize;
}

static void
desk_finding_row_init (DeskFindingRow *row)
{
  for (guint i = 0; i < TRN_N_COLUMNS; i++)
    row->values[i] = NAN;
}

static const TrnFinding *
find (DeskSession *session, guint run, guint index)
{
  const TrnLiftFindings *lift = desk_check_get_lift (desk_session_get_check (session), run);
  if (lift == NULL || index >= lift->findings->len)
    return NULL;
  return &g_array_index (lift->findings, TrnFinding, index);
}

/* The kinds of findings in the order of desk_finding_is_worse. */
static double
rank (const TrnFinding *finding, RenderState state)
{
  return trn_words_rank (finding, state == RENDER_STATE_TIGHT ? INFINITY : NAN);
}

/* A value beside its limit, and none where it says nothing, as of a support that lifts off. Only
 * lengths are compared by size: a column of other units has no order. */
static void
set_value (DeskFindingRow *row, const TrnFinding *finding)
{
  gboolean has_value = trn_words_has_value (finding);
  gboolean is_length = has_value && finding->unit == TRN_UNIT_M;
  row->values[TRN_COLUMN_CLEARANCE] = is_length ? finding->value : NAN;
  row->values[TRN_COLUMN_KEEP] = is_length ? finding->limit : NAN;
  row->values[TRN_COLUMN_TIME] = finding->time_s;
  row->cells[TRN_COLUMN_CLEARANCE] = trn_words_value_cell (finding);
  row->cells[TRN_COLUMN_KEEP] = trn_words_limit_cell (finding);
  row->cells[TRN_COLUMN_MARGIN] = trn_words_value_margin_cell (finding);
  row->cells[TRN_COLUMN_ALLOWANCE] = trn_words_cell_up (NAN);
  row->cells[TRN_COLUMN_TIME] = trn_words_column_time (finding->time_s);
}

static void
set_numbers (DeskFindingRow *row, const TrnFinding *finding)
{
  double *values = row->values;
  values[TRN_COLUMN_LIFT] = row->run;
  values[TRN_COLUMN_MOVE] = finding->move;
  values[TRN_COLUMN_KEEP] = finding->required_m;
  values[TRN_COLUMN_MARGIN] = trn_words_margin_m (finding);
  values[TRN_COLUMN_VERDICT] = rank (finding, row->state);
  if (finding->check >= TRN_CHECK_HOOK_LOAD)
    {
      set_value (row, finding);
      return;
    }
  if (row->is_clearance)
    {
      values[TRN_COLUMN_CLEARANCE] = trn_words_is_blank (finding) ? NAN : finding->lower_m;
      values[TRN_COLUMN_ALLOWANCE] = trn_words_allowance_m (finding);
    }
  if (finding->check == TRN_CHECK_TAIL_SWING && finding->item == NULL)
    {
      values[TRN_COLUMN_CLEARANCE] = finding->sector_distance_m - finding->radius_m;
      values[TRN_COLUMN_ALLOWANCE] = trn_words_allowance_m (finding);
    }
  if (finding->has_points || (finding->check >= TRN_CHECK_HEADROOM && isfinite (finding->time_s)))
    values[TRN_COLUMN_TIME] = finding->time_s;
  row->cells[TRN_COLUMN_CLEARANCE] = trn_words_cell_down (values[TRN_COLUMN_CLEARANCE]);
  row->cells[TRN_COLUMN_ALLOWANCE] = trn_words_cell_up (values[TRN_COLUMN_ALLOWANCE]);
  row->cells[TRN_COLUMN_KEEP] = trn_words_cell_up (values[TRN_COLUMN_KEEP]);
  row->cells[TRN_COLUMN_MARGIN] = trn_words_cell_down (values[TRN_COLUMN_MARGIN]);
  row->cells[TRN_COLUMN_TIME] = trn_words_column_time (values[TRN_COLUMN_TIME]);
}

DeskFindingRow *
desk_finding_row_new (DeskSession *session, guint run, guint index, guint order)
{
  const TrnFinding *finding = find (session, run, index);
  DeskSite *site = desk_check_get_site (desk_session_get_check (session));
  g_assert (finding != NULL && site != NULL);
  const TrnLiftRun *lift = &site->scene->programme->runs[run];
  DeskFindingRow *row = g_object_new (DESK_TYPE_FINDING_ROW, NULL);
  row->run = run;
  row->index = index;
  row->order = order;
  row->verdict = finding->verdict;
  row->is_clearance = finding->check == TRN_CHECK_CLEARANCE || finding->check == TRN_CHECK_APPROACH;
  row->state = desk_finding_state (session, finding);
  set_numbers (row, finding);
  row->cells[TRN_COLUMN_LIFT] = trn_words_clean (lift->lift->name, 60);
  row->cells[TRN_COLUMN_MOVE] = trn_words_table_move (lift, finding);
  row->is_of_gear = finding->check >= TRN_CHECK_HEADROOM
                    || (finding->body != NULL && !g_str_equal (finding->body, "load"));
  /* What is no distance is told with its value and its limit. */
  row->cells[TRN_COLUMN_OBSTACLE] = trn_words_value_line (site->plan, finding);
  gboolean is_value = row->cells[TRN_COLUMN_OBSTACLE] != NULL;
  if (!is_value)
    row->cells[TRN_COLUMN_OBSTACLE] = trn_words_obstacle_name (site->plan, finding, 0);
  row->id = g_strdup (finding->obstacle != NULL ? finding->obstacle
                      : is_value                ? finding->body
                                                : NULL);
  row->shown = is_value ? trn_words_clean (row->cells[TRN_COLUMN_OBSTACLE], 2 * DESK_NAME_CHARS)
                        : trn_words_obstacle_name (site->plan, finding, DESK_NAME_CHARS);
  row->cells[TRN_COLUMN_VERDICT] = g_strdup (trn_words_finding_short (finding));
  return row;
}

const TrnFinding *
desk_finding_row_get (DeskFindingRow *row, DeskSession *session)
{
  return find (session, row->run, row->index);
}
