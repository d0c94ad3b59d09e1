/* table-words.c: what the desk's table and matrix of findings say. */
#include "table-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>

static const char *const texts[TRN_N_TABLE_TEXTS] = {
  [TRN_TABLE_SEARCH] = N_ ("Find a structure or a move"),
  [TRN_TABLE_ALL] = N_ ("All findings"),
  [TRN_TABLE_OPEN_ONES] = N_ ("Short or not known"),
  [TRN_TABLE_CLEARANCES] = N_ ("Clearances only"),
  [TRN_TABLE_GEAR] = N_ ("Gear only"),
  [TRN_TABLE_SHOWN] = N_ ("What is shown"),
  [TRN_TABLE_EMPTY] = N_ ("Nothing has been checked yet."),
  [TRN_TABLE_FILLING] = N_ ("The findings are being listed …"),
  [TRN_TABLE_NOTHING_FOUND] = N_ ("No finding is of that kind."),
  [TRN_TABLE_COPY] = N_ ("Copy"),
  [TRN_TABLE_COPIED] = N_ ("Copied, as CSV"),
  [TRN_TABLE_EXPORT_CSV] = N_ ("Save as CSV"),
  [TRN_TABLE_EXPORT_JSON] = N_ ("Save as JSON"),
  [TRN_TABLE_FINDINGS] = N_ ("Findings"),
  [TRN_TABLE_MATRIX] = N_ ("Structures against moves"),
  [TRN_TABLE_MATRIX_HINT]
  = N_ ("Certified clearance of each move from each structure where its margin is least, "
        "rounded down. Framed: the least margin of the lift. Other checks: the worst of all that "
        "are no clearances, of the move or the whole lift. Choose a cell to go there."),
  [TRN_TABLE_SHOW_ALL] = N_ ("Show all rows"),
  [TRN_TABLE_SHOW_ALL_HINT]
  = N_ ("Also every moving part of the gear, with the least of all that it comes near to"),
  [TRN_TABLE_STRUCTURE] = N_ ("Structure"),
  [TRN_TABLE_OTHER_CHECKS] = N_ ("Other checks"),
  [TRN_TABLE_VALUE] = N_ ("Value"),
  [TRN_TABLE_LIMIT] = N_ ("Limit"),
};

const char *
trn_words_table (TrnTableText text)
{
  g_assert (text < TRN_N_TABLE_TEXTS);
  return _ (texts[text]);
}

char *
trn_words_matrix_rows (guint n_listed, guint n_all)
{
  if (n_listed >= n_all)
    return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u row, nothing left out.",
                                         "%u rows, nothing left out.", n_all),
                            n_all);
  return g_strdup_printf (
      g_dngettext (GETTEXT_PACKAGE,
                   "%u of %u rows. Hidden: %u part of the gear that moves; its clearances stand in "
                   "the rows of what it comes near to. “%s” shows it.",
                   "%u of %u rows. Hidden: %u parts of the gear that move; their clearances stand "
                   "in the rows of what they come near to. “%s” shows them.",
                   n_all - n_listed),
      n_listed, n_all, n_all - n_listed, _ (texts[TRN_TABLE_SHOW_ALL]));
}

char *
trn_words_checking (double done)
{
  return g_strdup_printf (_ ("Checking … %.0f %%"), floor (CLAMP (done, 0, 1) * 100));
}

char *
trn_words_table_cell (const char *obstacle, int move, const char *says)
{
  if (move < 0)
    return g_strdup_printf (_ ("%s, whole lift: %s"), obstacle, says);
  return g_strdup_printf (_ ("%s, move %u: %s"), obstacle, (guint)move + 1, says);
}

char *
trn_words_table_written (const char *path)
{
  g_autofree char *shown = g_filename_display_name (path);
  g_autofree char *clean = trn_words_clean (shown, 0);
  return g_strdup_printf (_ ("Written: %s"), clean);
}
