/* rows.c: see rows.h. Within each kind lengths come first, the least margin foremost; then what
 * fails without a number; then other values, by what share of their limit is left; then the order
 * of the findings. */
#include "rows.h"

#include <string.h>

#include "desk-words.h"
#include "load-words.h"

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

TrnRank
cli_row_rank (const TrnFinding *finding)
{
  return trn_words_rank (finding, NAN);
}

static int
compare_rows (gconstpointer a, gconstpointer b)
{
  const CliRow *row_a = a, *row_b = b;
  const int order = trn_words_compare_worst (row_a->finding, row_b->finding, NAN);
  if (order != 0)
    return order;
  return row_a->order < row_b->order ? -1 : 1;
}

/* What lies between the way of the load, or of a part of the gear, and the obstacle: for a swing
 * circle, what is left to it. */
static double
distance_m (const TrnFinding *finding)
{
  if (cli_row_is_clearance (finding))
    return finding->state == TRN_STATE_SEATED || trn_words_is_blank (finding) ? NAN
                                                                              : finding->lower_m;
  if (finding->check == TRN_CHECK_SWING_RADIUS || finding->check == TRN_CHECK_TAIL_SWING)
    return finding->sector_distance_m - finding->radius_m;
  return NAN;
}

double
cli_row_allowance_m (const TrnFinding *finding)
{
  /* Nothing is taken off what has no value. */
  gboolean has_allowance = cli_row_is_clearance (finding)
                           || (finding->unit == TRN_UNIT_M && trn_words_has_value (finding))
                           || finding->check == TRN_CHECK_TAIL_SWING;
  return has_allowance ? trn_words_allowance_m (finding) : NAN;
}

gboolean
cli_row_has_value (const TrnFinding *finding)
{
  return finding->check >= TRN_CHECK_HEADROOM && !cli_row_is_clearance (finding)
         && trn_words_has_value (finding);
}

static void
fill_row (const TrnPlan *plan, CliRow *row)
{
  const TrnFinding *f = row->finding;
  gboolean has_margin = !isnan (row->margin_m);
  row->cells[TRN_COLUMN_LIFT] = trn_words_clean (row->run->lift->id, 0);
  row->cells[TRN_COLUMN_MOVE] = trn_words_table_move (row->run, f);
  row->cells[TRN_COLUMN_OBSTACLE] = trn_words_obstacle_name (plan, f, 0);
  gboolean has_value = cli_row_has_value (f);
  row->cells[TRN_COLUMN_CLEARANCE]
      = has_value ? trn_words_value_column (f) : trn_words_column_down (distance_m (f));
  row->cells[TRN_COLUMN_ALLOWANCE] = trn_words_column_up (cli_row_allowance_m (f));
  row->cells[TRN_COLUMN_KEEP] = has_value ? trn_words_limit_column (f)
                                          : trn_words_column_up (has_margin ? f->required_m : NAN);
  row->cells[TRN_COLUMN_MARGIN]
      = has_value ? trn_words_value_margin_column (f) : trn_words_column_down (row->margin_m);
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

/* Of a lift: what is missing, and of which gear, which is how @body begins. */
static char *
missing_dup (const TrnFinding *finding, const char *body)
{
  return g_strdup_printf ("%u\n%s\n%.*s", finding->lift, finding->missing, (int)strcspn (body, "/"),
                          body);
}

/* What a lift misses as a whole, or with what it lies, whatever gear or sling that makes unknown:
 * itself, or all that begins so. */
static gboolean
is_of_lift (const TrnFinding *finding)
{
  static const char *const of_lift[]
      = { "mass",         "mass_source", "cog",          "cog_box", "tolerance",
          "out-of-level", "lean",        "lean/",        "hang",    "hang/",
          "attitude",     "attitude/",   "swing",        "swing/",  "wind",
          "wind/",        "loads/",      "in-line",      "slings",  "slings/mass",
          "block/mass",   "beam/mass",   "shackle/mass", "park",    "hook_above" };
  for (guint i = 0; i < G_N_ELEMENTS (of_lift); i++)
    if (strcmp (finding->missing, of_lift[i]) == 0
        || (g_str_has_suffix (of_lift[i], "/") && g_str_has_prefix (finding->missing, of_lift[i])))
      return TRUE;
  return FALSE;
}

/* The cause for which it is not known, as a text; NULL: it is known, or for no cause that others
 * may have. Where something is missing it is that, of the gear that the body is a part of; else it
 * is about one part of the gear, whatever is in its way, or about the same two. */
static char *
cause_dup (const TrnFinding *finding)
{
  const char *body = finding->body != NULL ? finding->body : "";
  if (finding->verdict != TRN_VERDICT_UNKNOWN)
    return NULL;
  /* What holds a load is told once, of whatever gear it is the cause. */
  if (g_strcmp0 (finding->missing, TRN_MISSING_HOLDER) == 0 && !trn_finding_is_holder (finding))
    return missing_dup (finding, "");
  if (finding->missing != NULL && is_of_lift (finding))
    return g_strdup_printf ("%u\n%s\n\n%s\n%s", finding->lift, finding->missing,
                            finding->cause.why != NULL ? finding->cause.why : "",
                            finding->cause.of != NULL ? finding->cause.of : "");
  if (finding->missing != NULL)
    return missing_dup (finding, body);
  if (!is_blank_clearance (finding))
    return NULL;
  const gboolean is_part = strchr (body, '/') != NULL;
  const char *obstacle = is_part || finding->obstacle == NULL ? "" : finding->obstacle;
  return g_strdup_printf ("%u\n\n%s\n%s", finding->lift, body, obstacle);
}

/* Of the load near something: the cause that this has, if it is part of a gear; of what holds a
 * load: that of all that depends on it. NULL: none. */
static char *
near_cause_dup (const TrnFinding *finding)
{
  if (trn_finding_is_holder (finding))
    return missing_dup (finding, "");
  const gboolean is_near = finding->verdict == TRN_VERDICT_UNKNOWN && finding->missing != NULL
                           && g_strcmp0 (finding->body, "load") == 0 && finding->obstacle != NULL;
  return is_near ? missing_dup (finding, finding->obstacle) : NULL;
}

/* The number of a cause, which is taken; 0 for NULL. */
static guint
number_take (GHashTable *causes, char *cause)
{
  if (cause == NULL)
    return 0;
  guint number = GPOINTER_TO_UINT (g_hash_table_lookup (causes, cause));
  if (number != 0)
    {
      g_free (cause);
      return number;
    }
  number = g_hash_table_size (causes) + 1;
  g_hash_table_insert (causes, cause, GUINT_TO_POINTER (number));
  return number;
}

static void
number_causes (GArray *rows)
{
  g_autoptr (GHashTable) causes = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autoptr (GHashTable) told = g_hash_table_new (NULL, NULL);
  for (guint r = 0; r < rows->len; r++)
    {
      CliRow *row = &g_array_index (rows, CliRow, r);
      const guint check = row->finding->check;
      row->cause = number_take (causes, cause_dup (row->finding));
      row->near_cause = number_take (causes, near_cause_dup (row->finding));
      if (row->cause != 0)
        row->is_repeated
            = !g_hash_table_add (told, GUINT_TO_POINTER (row->cause * TRN_N_CHECKS + check));
      if (row->near_cause != 0 && !trn_finding_is_holder (row->finding))
        row->is_repeated
            |= !g_hash_table_add (told, GUINT_TO_POINTER (row->near_cause * TRN_N_CHECKS + check));
    }
}

gboolean
cli_row_same_cause (const CliRow *a, const CliRow *b)
{
  return a->cause != 0 && b->cause != 0
         && (a->cause == b->cause || a->cause == b->near_cause || a->near_cause == b->cause);
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
  number_causes (rows);
  return rows;
}
