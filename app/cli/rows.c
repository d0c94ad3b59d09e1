/* rows.c: see rows.h. Within each kind the least margin is first, and what has no margin last; then
 * the order of the findings. */
#include "rows.h"

#include <string.h>

#include "words.h"

static void
clear_row (gpointer data)
{
  CliRow *row = data;
  for (guint i = 0; i < TRN_N_COLUMNS; i++)
    g_free (row->cells[i]);
}

/* Whether it is a distance over time, less what tolerances take off. */
gboolean
cli_row_is_clearance (const TrnFinding *finding)
{
  return finding->check == TRN_CHECK_CLEARANCE || finding->check == TRN_CHECK_APPROACH;
}

CliRank
cli_row_rank (const TrnFinding *finding)
{
  switch (finding->verdict)
    {
    case TRN_VERDICT_FAIL:
      return CLI_RANK_FAIL;
    case TRN_VERDICT_UNKNOWN:
      return CLI_RANK_UNKNOWN;
    case TRN_VERDICT_NOTE:
    case TRN_VERDICT_PASS:
      if (!cli_row_is_clearance (finding) || finding->verdict != TRN_VERDICT_PASS)
        return CLI_RANK_REST;
      return finding->has_seated ? CLI_RANK_OFF_SEAT : CLI_RANK_CLEARANCE;
    }
  g_assert_not_reached ();
}

static int
compare_rows (gconstpointer a, gconstpointer b)
{
  const CliRow *row_a = a, *row_b = b;
  CliRank rank_a = cli_row_rank (row_a->finding), rank_b = cli_row_rank (row_b->finding);
  if (rank_a != rank_b)
    return rank_a < rank_b ? -1 : 1;
  double margin_a = isnan (row_a->margin_m) ? INFINITY : row_a->margin_m;
  double margin_b = isnan (row_b->margin_m) ? INFINITY : row_b->margin_m;
  if (margin_a != margin_b)
    return margin_a < margin_b ? -1 : 1;
  return row_a->order < row_b->order ? -1 : 1;
}

/* What lies between the way of the load, or of a part of the gear, and the obstacle: for a swing
 * circle, what is left to it. */
static double
distance_m (const TrnFinding *finding)
{
  switch (finding->check)
    {
    case TRN_CHECK_CLEARANCE:
    case TRN_CHECK_APPROACH:
      return finding->state == TRN_STATE_SEATED || trn_words_is_blank (finding) ? NAN
                                                                                : finding->lower_m;
    case TRN_CHECK_SWING_RADIUS:
    case TRN_CHECK_TAIL_SWING:
      return finding->sector_distance_m - finding->radius_m;
    case TRN_CHECK_HEADROOM:
    case TRN_CHECK_REACH:
    case TRN_CHECK_RIGGING:
    case TRN_CHECK_SEAT:
    case TRN_CHECK_START:
    case TRN_CHECK_STANDING:
    case TRN_CHECK_HOOK_LOAD:
    case TRN_CHECK_CAPACITY:
    case TRN_CHECK_LOAD_SHARE:
    case TRN_CHECK_SLINGS:
    case TRN_CHECK_GROUND:
    case TRN_CHECK_WIND:
    case TRN_CHECK_RESTING:
    case TRN_CHECK_ATTITUDE:
    case TRN_CHECK_HOIST_LINES:
      return NAN;
    }
  g_assert_not_reached ();
}

double
cli_row_allowance_m (const TrnFinding *finding)
{
  gboolean has_allowance = cli_row_is_clearance (finding) || finding->unit == TRN_UNIT_M
                           || finding->check == TRN_CHECK_TAIL_SWING;
  return has_allowance ? finding->allowance_m : NAN;
}

static void
fill_row (const TrnPlan *plan, CliRow *row)
{
  const TrnFinding *f = row->finding;
  gboolean has_margin = !isnan (row->margin_m);
  row->cells[TRN_COLUMN_LIFT] = trn_words_clean (row->run->lift->id, 0);
  row->cells[TRN_COLUMN_MOVE] = trn_words_table_move (row->run, f);
  row->cells[TRN_COLUMN_OBSTACLE] = trn_words_table_obstacle (plan, f);
  row->cells[TRN_COLUMN_CLEARANCE] = trn_words_column_down (distance_m (f));
  row->cells[TRN_COLUMN_ALLOWANCE] = trn_words_column_up (cli_row_allowance_m (f));
  row->cells[TRN_COLUMN_KEEP] = trn_words_column_up (has_margin ? f->required_m : NAN);
  row->cells[TRN_COLUMN_MARGIN] = trn_words_column_down (row->margin_m);
  gboolean has_time = cli_row_is_clearance (f) || f->unit != TRN_UNIT_NONE;
  row->cells[TRN_COLUMN_TIME] = has_time ? trn_words_table_time (f) : trn_words_column_time (NAN);
  row->cells[TRN_COLUMN_VERDICT] = g_strdup (trn_words_finding_short (f));
}

/* Nothing could be proven of it. */
static gboolean
is_blank_clearance (const TrnFinding *finding)
{
  return finding->check == TRN_CHECK_CLEARANCE && trn_words_is_blank (finding);
}

/* Whether both are about one part of the gear, whatever is in its way, or about the same two. */
static gboolean
has_same_part (const TrnFinding *a, const TrnFinding *b)
{
  return g_strcmp0 (a->body, b->body) == 0
         && ((a->body != NULL && strchr (a->body, '/') != NULL)
             || g_strcmp0 (a->obstacle, b->obstacle) == 0);
}

/* How much of @body names the gear whose part it is. */
static gsize
gear_length (const char *body)
{
  return body != NULL ? strcspn (body, "/") : 0;
}

static gboolean
is_of_one_gear (const char *a, const char *b)
{
  gsize length = gear_length (a);
  return length == gear_length (b) && (length == 0 || strncmp (a, b, length) == 0);
}

/* What the load comes near to, where that is part of a gear, is the gear of the other finding. */
static gboolean
is_load_near (const TrnFinding *one, const TrnFinding *other)
{
  return g_strcmp0 (one->body, "load") == 0 && one->obstacle != NULL && other->body != NULL
         && is_of_one_gear (one->obstacle, other->body);
}

gboolean
cli_row_same_cause (const CliRow *a, const CliRow *b)
{
  const TrnFinding *one = a->finding, *other = b->finding;
  if (a->run != b->run || g_strcmp0 (one->missing, other->missing) != 0
      || one->verdict != TRN_VERDICT_UNKNOWN || other->verdict != TRN_VERDICT_UNKNOWN)
    return FALSE;
  if (one->missing == NULL)
    return is_blank_clearance (one) && is_blank_clearance (other) && has_same_part (one, other);
  return is_of_one_gear (one->body, other->body) || is_load_near (one, other)
         || is_load_near (other, one);
}

static void
mark_repeated (GArray *rows)
{
  for (guint r = 0; r < rows->len; r++)
    {
      CliRow *row = &g_array_index (rows, CliRow, r);
      for (guint i = 0; i < r && !row->is_repeated; i++)
        row->is_repeated = cli_row_same_cause (&g_array_index (rows, CliRow, i), row);
    }
}

GArray *
cli_rows_new (const TrnScene *scene, const TrnFindings *findings)
{
  GArray *rows = g_array_new (FALSE, TRUE, sizeof (CliRow));
  g_array_set_clear_func (rows, clear_row);
  for (guint i = 0; i < findings->n_lifts; i++)
    {
      const TrnLiftFindings *lift = &findings->lifts[i];
      for (guint j = 0; j < lift->findings->len; j++)
        {
          const TrnFinding *finding = &g_array_index (lift->findings, TrnFinding, j);
          CliRow row = { .finding = finding,
                         .run = &scene->programme->runs[lift->lift],
                         .margin_m = trn_words_margin_m (finding),
                         .order = rows->len };
          fill_row (scene->programme->plan, &row);
          g_array_append_val (rows, row);
        }
    }
  g_array_sort (rows, compare_rows);
  mark_repeated (rows);
  return rows;
}
