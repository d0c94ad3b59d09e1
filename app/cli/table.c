/* table.c: at most 100 columns wide, or as wide as the terminal says: long names are cut with an
 * ellipsis, numbers never; of two names both keep what can be read. All lines into a file or
 * another program are cut nowhere. */
#include "table.h"

#include <stdio.h>
#include <string.h>
#include <unistd.h>

#include "command-words.h"
#include "paragraphs.h"
#include "rows.h"
#include "table-words.h"
#include "words.h"

#define WIDTH 100
#define LEAST_WIDTH 80
#define GREATEST_WIDTH 1000
#define GAP 2
#define BETWEEN " – "
/* Two names share a width from this on. */
#define LEAST_NAMES 16
/* Lines shown of those that meet what is set. */
#define CLOSEST 10

/* Without @all: everything that fails, what is not known once for each cause, and the closest few
 * clearances. */
static guint
count_shown (const GArray *rows, gboolean all)
{
  if (all)
    return rows->len;
  guint n = 0, closest = 0;
  for (; n < rows->len; n++)
    {
      TrnRank r = cli_row_rank (g_array_index (rows, CliRow, n).finding);
      if (r == TRN_RANK_REST || (r >= TRN_RANK_CLEARANCE && closest++ == CLOSEST))
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
      const TrnFinding *f = g_array_index (rows, CliRow, r).finding;
      n += f->verdict == TRN_VERDICT_PASS;
      *n_clearances += f->verdict == TRN_VERDICT_PASS && cli_row_is_clearance (f);
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

/* What two bodies are called: a name that is short leaves its room to the other. */
static char *
cut_names (const char *text, guint width)
{
  const char *dash = strstr (text, BETWEEN);
  if (dash == NULL || width_of (text) <= width || width < LEAST_NAMES)
    return cut_to (text, width);
  g_autofree char *first = g_strndup (text, (gsize)(dash - text));
  const char *second = dash + strlen (BETWEEN);
  guint room = width - width_of (BETWEEN);
  guint for_second = MIN (width_of (second), MAX (room / 2, room - MIN (room, width_of (first))));
  g_autofree char *a = cut_to (first, room - for_second);
  g_autofree char *b = cut_to (second, for_second);
  return g_strconcat (a, BETWEEN, b, NULL);
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

/* Over values beside their limits, where there are any, two columns are called after those. */
static const char *
heading_of (TrnColumn column, gboolean has_values)
{
  if (has_values && column == TRN_COLUMN_CLEARANCE)
    return trn_words_table (TRN_TABLE_VALUE);
  if (has_values && column == TRN_COLUMN_KEEP)
    return trn_words_table (TRN_TABLE_LIMIT);
  return trn_words_column (column);
}

/* A width of 0 leaves a column out: that of tolerances where none takes anything off, that of lifts
 * where there is one. */
static void
choose_widths (const GArray *rows, guint n_shown, guint most, gboolean has_values,
               guint widths[TRN_N_COLUMNS])
{
  gboolean has_allowance = FALSE, has_lifts = FALSE;
  for (guint i = 0; i < TRN_N_COLUMNS; i++)
    widths[i] = width_of (heading_of ((TrnColumn)i, has_values));
  for (guint r = 0; r < n_shown; r++)
    {
      const CliRow *row = &g_array_index (rows, CliRow, r);
      has_lifts |= row->run != g_array_index (rows, CliRow, 0).run;
      has_allowance |= cli_row_allowance_m (row->finding) > 0;
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
  shrink (widths, TRN_COLUMN_OBSTACLE, 40, &excess);
  shrink (widths, TRN_COLUMN_MOVE, 16, &excess);
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
      g_autofree char *cell = cut_names (cells[i], widths[i]);
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

/* The least margin of what is met may be of a kind that comes later, as of what only leaves its
 * seat, or of a value beside its limit: then it is told. */
static void
print_least (const GArray *rows, guint n_shown, const TrnPlan *plan)
{
  const CliRow *least = NULL;
  guint at = 0;
  for (guint r = 0; r < rows->len; r++)
    {
      const CliRow *row = &g_array_index (rows, CliRow, r);
      if (row->finding->verdict != TRN_VERDICT_PASS || isnan (row->margin_m)
          || (least != NULL && !(row->margin_m < least->margin_m)))
        continue;
      least = row;
      at = r;
    }
  if (least == NULL || at < n_shown)
    return;
  g_autofree char *says = trn_words_table_least (plan, least->run, least->finding);
  g_autofree char *lines = trn_words_wrap (says, WIDTH);
  puts (lines);
}

static void
print_rows (const GArray *rows, guint n_shown, guint most, gboolean all)
{
  guint widths[TRN_N_COLUMNS];
  gboolean has_values = FALSE;
  for (guint r = 0; r < n_shown; r++)
    has_values |= cli_row_has_value (g_array_index (rows, CliRow, r).finding);
  choose_widths (rows, n_shown, most, has_values, widths);
  const char *headings[TRN_N_COLUMNS];
  for (guint i = 0; i < TRN_N_COLUMNS; i++)
    headings[i] = heading_of ((TrnColumn)i, has_values);
  print_line (headings, widths);
  guint n_repeated = 0;
  for (guint r = 0; r < n_shown; r++)
    {
      const CliRow *row = &g_array_index (rows, CliRow, r);
      if (all || !row->is_repeated)
        print_line ((const char *const *)row->cells, widths);
      else
        n_repeated++;
    }
  if (n_repeated > 0)
    {
      g_autofree char *repeated = trn_words_table_repeated (n_repeated);
      puts (repeated);
    }
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

void
cli_table_print (const TrnScene *scene, const TrnFindings *findings, gboolean all)
{
  g_autoptr (GArray) rows = cli_rows_new (scene, findings);
  g_autofree char *title = trn_words_table_title (scene->programme->plan, findings);
  printf ("%s\n\n", title);
  if (rows->len > 0)
    {
      const guint n_shown = count_shown (rows, all);
      print_rows (rows, n_shown, width_of_output (all), all);
      print_least (rows, n_shown, scene->programme->plan);
    }
  cli_paragraphs_print (rows, scene, findings);
  g_autofree char *headline = trn_words_headline (findings);
  print_wrapped (headline);
  print_wrapped (trn_words_caution ());
}
