/* table.c: at most 100 columns wide, or as wide as the terminal says: long names are cut with an
 * ellipsis, numbers never. All lines into a file or another program are cut nowhere.
 *
 * The order is: what fails, what is not known, clearances that are met, those that are met once the
 * load has left its seat, what is to be looked at and the other checks; within each the least
 * margin first, and what has no margin last; then the order of the findings. */
#include "table.h"

#include <stdio.h>
#include <string.h>
#include <unistd.h>

#include "command-words.h"
#include "words.h"

#define WIDTH 100
#define LEAST_WIDTH 80
#define GREATEST_WIDTH 1000
#define GAP 2
/* Lines shown of those that meet what is set. */
#define CLOSEST 10

typedef struct
{
  const TrnFinding *finding;
  const TrnLiftRun *run;
  double margin_m;
  guint order;
  char *cells[TRN_N_COLUMNS]; /* owned */
} Row;

static void
clear_row (gpointer data)
{
  Row *row = data;
  for (guint i = 0; i < TRN_N_COLUMNS; i++)
    g_free (row->cells[i]);
}

/* Whether it is a distance over time, less what tolerances take off. */
static gboolean
is_clearance (const TrnFinding *finding)
{
  return finding->check == TRN_CHECK_CLEARANCE || finding->check == TRN_CHECK_APPROACH;
}

typedef enum
{
  RANK_FAIL,
  RANK_UNKNOWN,
  RANK_CLEARANCE,
  RANK_OFF_SEAT, /* met as well; how closely is what the plan's own until_clear leaves */
  RANK_REST,
} Rank;

static Rank
rank (const TrnFinding *finding)
{
  switch (finding->verdict)
    {
    case TRN_VERDICT_FAIL:
      return RANK_FAIL;
    case TRN_VERDICT_UNKNOWN:
      return RANK_UNKNOWN;
    case TRN_VERDICT_NOTE:
    case TRN_VERDICT_PASS:
      if (!is_clearance (finding) || finding->verdict != TRN_VERDICT_PASS)
        return RANK_REST;
      return finding->has_seated ? RANK_OFF_SEAT : RANK_CLEARANCE;
    }
  g_assert_not_reached ();
}

static int
compare_rows (gconstpointer a, gconstpointer b)
{
  const Row *row_a = a, *row_b = b;
  Rank rank_a = rank (row_a->finding), rank_b = rank (row_b->finding);
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
      return finding->state == TRN_STATE_SEATED ? NAN : finding->lower_m;
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
      return NAN;
    }
  g_assert_not_reached ();
}

static double
allowance_m (const TrnFinding *finding)
{
  gboolean has_allowance = is_clearance (finding) || finding->unit == TRN_UNIT_M
                           || finding->check == TRN_CHECK_TAIL_SWING;
  return has_allowance ? finding->allowance_m : NAN;
}

static void
fill_row (const TrnPlan *plan, Row *row)
{
  const TrnFinding *f = row->finding;
  gboolean has_margin = !isnan (row->margin_m);
  row->cells[TRN_COLUMN_LIFT] = trn_words_clean (row->run->lift->id, 0);
  row->cells[TRN_COLUMN_MOVE] = trn_words_table_move (row->run, f);
  row->cells[TRN_COLUMN_OBSTACLE] = trn_words_table_obstacle (plan, f);
  row->cells[TRN_COLUMN_CLEARANCE] = trn_words_column_down (distance_m (f));
  row->cells[TRN_COLUMN_ALLOWANCE] = trn_words_column_up (allowance_m (f));
  row->cells[TRN_COLUMN_KEEP] = trn_words_column_up (has_margin ? f->required_m : NAN);
  row->cells[TRN_COLUMN_MARGIN] = trn_words_column_down (row->margin_m);
  gboolean has_time = is_clearance (f) || f->unit != TRN_UNIT_NONE;
  row->cells[TRN_COLUMN_TIME] = has_time ? trn_words_table_time (f) : trn_words_column_time (NAN);
  row->cells[TRN_COLUMN_VERDICT] = g_strdup (trn_words_finding_short (f));
}

static GArray *
make_rows (const TrnScene *scene, const TrnFindings *findings)
{
  GArray *rows = g_array_new (FALSE, TRUE, sizeof (Row));
  g_array_set_clear_func (rows, clear_row);
  for (guint i = 0; i < findings->n_lifts; i++)
    {
      const TrnLiftFindings *lift = &findings->lifts[i];
      for (guint j = 0; j < lift->findings->len; j++)
        {
          const TrnFinding *finding = &g_array_index (lift->findings, TrnFinding, j);
          Row row = { .finding = finding,
                      .run = &scene->programme->runs[lift->lift],
                      .margin_m = trn_words_margin_m (finding),
                      .order = rows->len };
          fill_row (scene->programme->plan, &row);
          g_array_append_val (rows, row);
        }
    }
  g_array_sort (rows, compare_rows);
  return rows;
}

/* Without @all: everything that fails or is not known, and the closest few clearances. */
static guint
count_shown (const GArray *rows, gboolean all)
{
  if (all)
    return rows->len;
  guint n = 0, closest = 0;
  for (; n < rows->len; n++)
    {
      Rank r = rank (g_array_index (rows, Row, n).finding);
      if (r == RANK_REST || (r >= RANK_CLEARANCE && closest++ == CLOSEST))
        break;
    }
  return n;
}

static guint
count_passes (const GArray *rows, guint from, guint *n_clearances)
{
  guint n = 0;
  *n_clearances = 0;
  for (guint r = from; r < rows->len; r++)
    {
      const TrnFinding *f = g_array_index (rows, Row, r).finding;
      n += f->verdict == TRN_VERDICT_PASS;
      *n_clearances += f->verdict == TRN_VERDICT_PASS && is_clearance (f);
    }
  return n;
}

/* Columns that a terminal uses for @text. */
static guint
width_of (const char *text)
{
  guint width = 0;
  for (const char *p = text; *p != '\0'; p = g_utf8_next_char (p))
    {
      gunichar c = g_utf8_get_char (p);
      width += g_unichar_iszerowidth (c) ? 0 : g_unichar_iswide (c) ? 2 : 1;
    }
  return width;
}

static char *
cut_to (const char *text, guint width)
{
  if (width_of (text) <= width)
    return g_strdup (text);
  g_autoptr (GString) cut = g_string_new (NULL);
  for (const char *p = text; *p != '\0'; p = g_utf8_next_char (p))
    {
      gsize before = cut->len;
      g_string_append_unichar (cut, g_utf8_get_char (p));
      if (width_of (cut->str) < width)
        continue;
      g_string_truncate (cut, before);
      break;
    }
  g_string_append (cut, "…");
  return g_string_free (g_steal_pointer (&cut), FALSE);
}

static gboolean
is_number_column (guint column)
{
  return column >= TRN_COLUMN_CLEARANCE && column <= TRN_COLUMN_TIME;
}

static void
shrink (guint widths[TRN_N_COLUMNS], guint column, guint least, guint *excess)
{
  if (widths[column] <= least)
    return;
  guint by = MIN (*excess, widths[column] - least);
  widths[column] -= by;
  *excess -= by;
}

/* Of the whole table; 0: as wide as it is. */
static guint
width_of_output (gboolean all)
{
  if (all && !isatty (STDOUT_FILENO))
    return 0;
  const char *columns = g_getenv ("COLUMNS");
  guint64 width;
  if (columns == NULL || !g_ascii_string_to_unsigned (columns, 10, 1, G_MAXINT, &width, NULL))
    return WIDTH;
  return (guint)CLAMP (width, LEAST_WIDTH, GREATEST_WIDTH);
}

/* A width of 0 leaves a column out: that of tolerances where none takes anything off, that of lifts
 * where there is one. */
static void
choose_widths (const GArray *rows, guint n_shown, guint most, guint widths[TRN_N_COLUMNS])
{
  gboolean has_allowance = FALSE, has_lifts = FALSE;
  for (guint i = 0; i < TRN_N_COLUMNS; i++)
    widths[i] = width_of (trn_words_column ((TrnColumn)i));
  for (guint r = 0; r < n_shown; r++)
    {
      const Row *row = &g_array_index (rows, Row, r);
      has_lifts |= row->run != g_array_index (rows, Row, 0).run;
      has_allowance |= allowance_m (row->finding) > 0;
      for (guint i = 0; i < TRN_N_COLUMNS; i++)
        widths[i] = MAX (widths[i], width_of (row->cells[i]));
    }
  if (!has_allowance)
    widths[TRN_COLUMN_ALLOWANCE] = 0;
  if (!has_lifts)
    widths[TRN_COLUMN_LIFT] = 0;
  guint total = 0;
  for (guint i = 0; i < TRN_N_COLUMNS; i++)
    total += widths[i] > 0 ? widths[i] + GAP : 0;
  guint excess = most > 0 && total > most + GAP ? total - most - GAP : 0;
  shrink (widths, TRN_COLUMN_MOVE, 24, &excess);
  shrink (widths, TRN_COLUMN_OBSTACLE, 20, &excess);
  shrink (widths, TRN_COLUMN_LIFT, 10, &excess);
  shrink (widths, TRN_COLUMN_MOVE, 12, &excess);
  shrink (widths, TRN_COLUMN_OBSTACLE, 10, &excess);
}

static void
print_line (const char *const cells[TRN_N_COLUMNS], const guint widths[TRN_N_COLUMNS])
{
  g_autoptr (GString) line = g_string_new (NULL);
  for (guint i = 0; i < TRN_N_COLUMNS; i++)
    {
      if (widths[i] == 0)
        continue;
      g_autofree char *cell = cut_to (cells[i], widths[i]);
      int space = (int)(widths[i] - width_of (cell));
      if (is_number_column (i))
        g_string_append_printf (line, "%*s%s", space, "", cell);
      else
        g_string_append_printf (line, "%s%*s", cell, space, "");
      g_string_append_printf (line, "%*s", GAP, "");
    }
  g_strchomp (line->str);
  puts (line->str);
}

static void
print_rows (const GArray *rows, guint n_shown, guint most)
{
  guint widths[TRN_N_COLUMNS];
  choose_widths (rows, n_shown, most, widths);
  const char *headings[TRN_N_COLUMNS];
  for (guint i = 0; i < TRN_N_COLUMNS; i++)
    headings[i] = trn_words_column ((TrnColumn)i);
  print_line (headings, widths);
  for (guint r = 0; r < n_shown; r++)
    print_line ((const char *const *)g_array_index (rows, Row, r).cells, widths);
  guint n_clearances, n_more = count_passes (rows, n_shown, &n_clearances);
  if (n_more > 0)
    {
      g_autofree char *more = trn_words_table_more (n_more, n_clearances);
      puts (more);
    }
}

static void
print_wrapped (const char *text)
{
  g_autofree char *lines = trn_words_wrap (text, WIDTH);
  printf ("\n%s\n", lines);
}

/* What is to be looked at in one move, on one line. */
static void
print_notes_of (const TrnLiftFindings *lift, const TrnLiftRun *run, guint move)
{
  g_autoptr (GString) list = g_string_new (NULL);
  for (guint i = 0; i < lift->findings->len; i++)
    {
      const TrnFinding *f = &g_array_index (lift->findings, TrnFinding, i);
      if (f->verdict != TRN_VERDICT_NOTE || f->check != TRN_CHECK_SWING_RADIUS
          || f->move != (int)move)
        continue;
      g_autofree char *obstacle = trn_words_clean (f->obstacle, 0);
      g_string_append_printf (list, "%s%s", list->len > 0 ? ", " : "", obstacle);
    }
  if (list->len == 0)
    return;
  g_autofree char *note = trn_words_table_notes (run, move, list->str);
  print_wrapped (note);
}

/* The same of the tail swing of each crane. */
static void
print_tail_notes (const TrnLiftFindings *lift, const TrnScene *scene)
{
  const TrnPlan *plan = scene->programme->plan;
  for (guint k = 0; k < plan->n_gear; k++)
    {
      g_autoptr (GString) list = g_string_new (NULL);
      for (guint i = 0; i < lift->findings->len; i++)
        {
          const TrnFinding *f = &g_array_index (lift->findings, TrnFinding, i);
          if (f->verdict != TRN_VERDICT_NOTE || f->check != TRN_CHECK_TAIL_SWING
              || strcmp (f->body, plan->gear[k].id) != 0)
            continue;
          g_autofree char *obstacle = trn_words_clean (f->obstacle, 0);
          g_string_append_printf (list, "%s%s", list->len > 0 ? ", " : "", obstacle);
        }
      if (list->len == 0)
        continue;
      g_autofree char *crane = trn_words_clean (plan->gear[k].name, 0);
      g_autofree char *note
          = trn_words_table_tail_notes (crane, &scene->programme->runs[lift->lift], list->str);
      print_wrapped (note);
    }
}

/* What the plan leaves out of each gear, or of rigging without gear. */
static void
print_not_given (const TrnLiftFindings *lift, const TrnScene *scene)
{
  const TrnPlan *plan = scene->programme->plan;
  const TrnLiftRun *run = &scene->programme->runs[lift->lift];
  for (guint k = 0; k <= plan->n_gear; k++)
    {
      const char *id = k < plan->n_gear ? plan->gear[k].id : "load";
      g_autoptr (GString) list = g_string_new (NULL);
      for (guint i = 0; i < lift->findings->len; i++)
        {
          const TrnFinding *f = &g_array_index (lift->findings, TrnFinding, i);
          if (f->state == TRN_STATE_NOT_GIVEN && strcmp (f->body, id) == 0)
            g_string_append_printf (list, "%s%s", list->len > 0 ? ", " : "", f->missing);
        }
      if (list->len == 0)
        continue;
      g_autofree char *whose = trn_words_clean (k < plan->n_gear ? plan->gear[k].name : id, 0);
      g_autofree char *note = trn_words_table_not_given (whose, run, list->str);
      print_wrapped (note);
    }
}

static void
print_notes (const TrnScene *scene, const TrnFindings *findings)
{
  for (guint i = 0; i < findings->n_lifts; i++)
    {
      const TrnLiftRun *run = &scene->programme->runs[findings->lifts[i].lift];
      for (guint move = 0; move < run->lift->n_moves; move++)
        print_notes_of (&findings->lifts[i], run, move);
      print_tail_notes (&findings->lifts[i], scene);
      print_not_given (&findings->lifts[i], scene);
    }
}

/* Whether this row says where a lift comes closest. Near a seat the margin is what the plan itself
 * leaves: there the place is only of interest where something is wrong. */
static gboolean
tells_place (const Row *row, const TrnLiftRun *run)
{
  const TrnFinding *f = row->finding;
  return row->run == run && f->check == TRN_CHECK_CLEARANCE && f->has_points
         && !isnan (row->margin_m) && !(f->has_seated && f->verdict == TRN_VERDICT_PASS);
}

/* The first such row of a lift: the rows are sorted, so it is the worst. NULL: there is none. */
static const Row *
find_closest (const GArray *rows, const TrnLiftRun *run)
{
  for (guint r = 0; r < rows->len; r++)
    if (tells_place (&g_array_index (rows, Row, r), run))
      return &g_array_index (rows, Row, r);
  return NULL;
}

static void
print_closest (const GArray *rows, const TrnScene *scene)
{
  for (guint i = 0; i < scene->programme->n_runs; i++)
    {
      const Row *row = find_closest (rows, &scene->programme->runs[i]);
      if (row == NULL)
        continue;
      g_autofree char *where = trn_words_where (scene->programme->plan, row->run, row->finding);
      printf ("\n%s", where);
    }
}

/* What fails and is no matter of where the load is closest, and what says how to put it right. */
static void
print_faults (const GArray *rows, const TrnPlan *plan)
{
  for (guint r = 0; r < rows->len; r++)
    {
      const Row *row = &g_array_index (rows, Row, r);
      const TrnFinding *f = row->finding;
      Rank its_rank = rank (f);
      if (its_rank != RANK_FAIL && its_rank != RANK_UNKNOWN)
        break;
      if (f->check == TRN_CHECK_CLEARANCE
          && (!isfinite (f->seat_until_m) || row == find_closest (rows, row->run)))
        continue;
      g_autofree char *fault = trn_words_fault (plan, row->run, f);
      printf ("\n%s", fault);
    }
}

/* A verdict on one lift must not read like one on the plan. */
static void
print_lift_alone (const TrnProgramme *programme, const TrnFindings *findings)
{
  if (findings->n_lifts != 1 || programme->n_runs == 1)
    return;
  const TrnLift *lift = programme->runs[findings->lifts[0].lift].lift;
  g_autofree char *alone = trn_words_lift_alone (lift, programme->n_runs);
  print_wrapped (alone);
}

void
cli_table_print (const TrnScene *scene, const TrnFindings *findings, gboolean all)
{
  g_autoptr (GArray) rows = make_rows (scene, findings);
  g_autofree char *title = trn_words_table_title (scene->programme->plan, findings);
  printf ("%s\n\n", title);
  if (rows->len > 0)
    print_rows (rows, count_shown (rows, all), width_of_output (all));
  print_faults (rows, scene->programme->plan);
  print_closest (rows, scene);
  print_notes (scene, findings);
  print_lift_alone (scene->programme, findings);
  g_autofree char *headline = trn_words_headline (findings);
  print_wrapped (headline);
  print_wrapped (trn_words_caution ());
}
