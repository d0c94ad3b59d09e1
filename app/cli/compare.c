/* compare.c: `trunnion compare`: what changed between two results, worst first. */
#include <stdio.h>

#include "cli.h"
#include "command-words.h"
#include "compare-words.h"
#include "words.h"

#define WIDTH 100

static void
print_wrapped (const char *text)
{
  g_autofree char *lines = trn_words_wrap (text, WIDTH);
  puts (lines);
}

static void
print_head (const TrnComparison *comparison)
{
  g_autofree char *before = trn_words_compare_before (comparison);
  g_autofree char *after = trn_words_compare_after (comparison);
  g_autofree char *context = trn_words_compare_context (comparison);
  printf ("%s\n%s\n%s\n\n", before, after, context);
}

static void
print_differences (const TrnComparison *comparison, gboolean all)
{
  guint n = comparison->changes->len - (all ? 0 : comparison->counts[TRN_DIFFER_SAME]);
  for (guint i = 0; i < n; i++)
    {
      const TrnResultsDifference *difference
          = &g_array_index (comparison->changes, TrnResultsDifference, i);
      g_autofree char *line = trn_words_compare_line (difference);
      puts (line);
    }
  if (n > 0)
    puts ("");
}

CliStatus
cli_compare (const CliOptions *options)
{
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_autoptr (TrnResults) before = trn_results_read (options->plan, diags);
  g_autoptr (TrnResults) after = trn_results_read (options->after, diags);
  cli_print_diags (diags);
  if (before == NULL || after == NULL)
    return CLI_BAD_PLAN;
  g_autoptr (TrnComparison) comparison = trn_results_compare (before, after);
  g_autofree char *headline = trn_words_compare_headline (comparison);
  print_head (comparison);
  print_differences (comparison, options->all);
  print_wrapped (headline);
  puts ("");
  print_wrapped (trn_words_caution ());
  return cli_finish_output (trn_comparison_is_open (comparison) ? CLI_FAILS : CLI_PASSES);
}
