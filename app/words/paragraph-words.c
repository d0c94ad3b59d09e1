/* paragraph-words.c: what the command line says below its table: faults, what gear has in hand,
 * what is borne, and by what it is judged. */
#include <glib/gi18n-lib.h>
#include <string.h>

#include "command-words.h"
#include "desk-words.h"
#include "force-words.h"
#include "gear-words.h"
#include "gauge-words.h"
#include "load-words.h"
#include "words.h"

#define LONGEST_NAME 60
#define PARAGRAPH_WIDTH 98
/* Of what is not known for one cause; the table has the others. */
#define MOST_NAMES 16

char *
trn_words_indent (const char *sentence)
{
  g_autofree char *lines = trn_words_wrap (sentence, PARAGRAPH_WIDTH);
  g_auto (GStrv) parts = g_strsplit (lines, "\n", -1);
  return g_strjoinv ("\n  ", parts);
}

/* Where, when and what. */
static char *
heading_text (const TrnPlan *plan, const TrnLiftRun *run, const TrnFinding *finding, guint n_more)
{
  g_autofree char *lift = trn_words_clean (run->lift->name, LONGEST_NAME);
  g_autofree char *move = trn_words_table_move (run, finding);
  g_autofree char *obstacle = trn_words_obstacle_name (plan, finding, 0);
  /* Of the load alone it may name nothing. */
  g_autofree char *where = strcmp (obstacle, TRN_WORDS_NO_NAME) == 0
                               ? g_strdup (move)
                               : g_strdup_printf ("%s, %s", move, obstacle);
  if (n_more == 0)
    return g_strdup_printf (_ ("%s, in “%s”:"), where, lift);
  return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%s, in “%s”, and %u more line like it:",
                                       "%s, in “%s”, and %u more lines like it:", n_more),
                          where, lift, n_more);
}

char *
trn_words_fault (const TrnPlan *plan, const TrnLiftRun *run, const TrnFinding *finding,
                 guint n_more)
{
  g_autofree char *heading = heading_text (plan, run, finding, n_more);
  g_autofree char *bare = trn_words_finding_named (plan, finding);
  g_autofree char *sentence = trn_words_indent (bare);
  return g_strdup_printf ("%s\n  %s.\n", heading, sentence);
}

char *
trn_words_fault_cause (const TrnPlan *plan, const TrnLiftRun *run, const TrnFinding *finding,
                       const char *const *names, guint n_names, guint n_clearances, guint n_lines)
{
  g_autofree char *lift = trn_words_clean (run->lift->name, LONGEST_NAME);
  g_autofree char *bare = trn_words_finding_named (plan, finding);
  g_autofree char *sentence = trn_words_indent (bare);
  g_autoptr (GString) list = g_string_new (NULL);
  const guint n_told = n_names <= MOST_NAMES ? n_names : MOST_NAMES - 1;
  for (guint i = 0; i < n_told; i++)
    g_string_append_printf (list, "%s%s", i > 0 ? ", " : "", names[i]);
  if (n_told < n_names)
    g_string_append_printf (list, _ (" and %u more"), n_names - n_told);
  if (n_clearances > 0)
    g_string_append_printf (
        list,
        g_dngettext (GETTEXT_PACKAGE, ", and %u clearance", ", and %u clearances", n_clearances),
        n_clearances);
  g_autofree char *whole
      = g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u line is not known for that: %s",
                                      "%u lines are not known for that: %s", n_lines),
                         n_lines, list->str);
  g_autofree char *lines = trn_words_indent (whole);
  g_autofree char *heading = g_strdup_printf (_ ("A cause in “%s”:"), lift);
  return g_strdup_printf ("%s\n  %s.\n  %s.\n", heading, sentence, lines);
}

char *
trn_words_table_repeated (guint n_lines)
{
  return g_strdup_printf (
      g_dngettext (GETTEXT_PACKAGE,
                   "… and %u more line that is not known for a cause named here (--all shows it).",
                   "… and %u more lines that are not known for a cause named here (--all shows "
                   "them).",
                   n_lines),
      n_lines);
}

char *
trn_words_table_faults_left (guint n_left)
{
  return g_strdup_printf (
      g_dngettext (GETTEXT_PACKAGE, "… and %u more that fails or is not known, as in the table.",
                   "… and %u more that fail or are not known, as in the table.", n_left),
      n_left);
}

static gboolean
is_quantity (const TrnFinding *finding, const TrnGear *gear)
{
  return (finding->check == TRN_CHECK_HEADROOM || finding->check == TRN_CHECK_REACH)
         && finding->verdict != TRN_VERDICT_UNKNOWN && isfinite (finding->value)
         && finding->body != NULL && strcmp (finding->body, gear->id) == 0;
}

/* Whether it is the one of its kind with the least in hand. */
static gboolean
is_least (const GArray *findings, guint index, const TrnGear *gear)
{
  const TrnFinding *f = &g_array_index (findings, TrnFinding, index);
  for (guint i = 0; i < findings->len; i++)
    {
      const TrnFinding *other = &g_array_index (findings, TrnFinding, i);
      if (!is_quantity (other, gear) || other->check != f->check
          || g_strcmp0 (other->item, f->item) != 0)
        continue;
      if (other->margin < f->margin || (other->margin == f->margin && i < index))
        return FALSE;
    }
  return TRUE;
}

static void
append_quantity (GString *text, const TrnFinding *finding)
{
  g_autofree char *says = trn_words_finding (finding);
  g_autofree char *time = trn_words_table_time (finding);
  g_autoptr (GString) line = g_string_new (NULL);
  g_string_append_printf (line, _ ("%s, move %d at %s"), says, finding->move + 1, time);
  g_autofree char *items = trn_words_value_items (finding);
  if (items != NULL)
    {
      g_autofree char *sum = g_strdelimit (g_strdup (items), "\n", ' ');
      g_string_append_printf (line, " (%s)", sum);
    }
  g_autofree char *indented = trn_words_indent (line->str);
  g_string_append_printf (text, "  %s.\n", indented);
}

char *
trn_words_table_hoist (const TrnGear *gear, const TrnLiftRun *run, const GArray *findings)
{
  g_autoptr (GString) text = g_string_new (NULL);
  for (guint i = 0; i < findings->len; i++)
    {
      const TrnFinding *f = &g_array_index (findings, TrnFinding, i);
      if (f->move >= 0 && is_quantity (f, gear) && is_least (findings, i, gear))
        append_quantity (text, f);
    }
  if (text->len == 0)
    return NULL;
  g_autofree char *name = trn_words_clean (gear->name, LONGEST_NAME);
  g_autofree char *lift = trn_words_clean (run->lift->name, LONGEST_NAME);
  g_autofree char *heading = g_strdup_printf (_ ("Least in hand of %s in “%s”:\n"), name, lift);
  g_string_prepend (text, heading);
  return g_string_free (g_steal_pointer (&text), FALSE);
}

/* ---- what is borne ---- */

/* How high the tail point is, or how quick a drive, bears nothing. */
static gboolean
is_force (const TrnFinding *finding)
{
  return finding->check >= TRN_CHECK_HOOK_LOAD && finding->check != TRN_CHECK_SPEEDS
         && g_strcmp0 (finding->item, "tail-height") != 0;
}

/* Whether both are told by one line: all slings are, each gear by itself. */
static gboolean
is_one_line (const TrnFinding *a, const TrnFinding *b)
{
  return a->check == b->check && g_strcmp0 (a->item, b->item) == 0
         && (a->check == TRN_CHECK_SLINGS || g_strcmp0 (a->body, b->body) == 0);
}

/* How bad it is among those of its line: what fails without a number, then the least left of a
 * limit, then the greatest value; what is not known is none. */
static double
badness (const TrnFinding *finding)
{
  if (finding->verdict == TRN_VERDICT_UNKNOWN)
    return -INFINITY;
  if (!trn_words_has_value (finding))
    return INFINITY;
  if (!isfinite (finding->margin))
    return finding->value;
  return finding->limit != 0 ? -finding->margin / fabs (finding->limit) : -finding->margin;
}

static char *
force_line (const TrnPlan *plan, const TrnFinding *finding, guint n_unknown)
{
  g_autofree char *name = trn_words_obstacle_name (plan, finding, 0);
  gboolean is_known = finding->verdict != TRN_VERDICT_UNKNOWN;
  g_autofree char *says = is_known ? trn_words_force_bare (finding) : trn_words_finding (finding);
  g_autoptr (GString) line = g_string_new (NULL);
  g_string_append_printf (line, _ ("%s: %s"), name, says);
  /* Of the wind a whole move has one bound. */
  if (is_known && finding->check == TRN_CHECK_WIND && g_strcmp0 (finding->item, "sway") == 0)
    {
      if (finding->move >= 0)
        g_string_append_printf (line, _ (", in move %d"), finding->move + 1);
    }
  else if (is_known && finding->move >= 0)
    {
      g_autofree char *time = trn_words_table_time (finding);
      g_string_append_printf (line, _ (", move %d at %s"), finding->move + 1, time);
    }
  else if (is_known && finding->check == TRN_CHECK_WIND && isfinite (finding->time_s))
    {
      g_autofree char *time = trn_words_table_time (finding);
      g_string_append_printf (line, _ (", with most of the load to the wind at %s"), time);
    }
  const gboolean has_numbers
      = finding->check == TRN_CHECK_HOOK_LOAD || finding->check == TRN_CHECK_CAPACITY;
  g_autofree char *numbers
      = has_numbers ? trn_words_numbers (finding) : trn_words_share_when (finding);
  if (is_known && numbers != NULL)
    g_string_append_printf (line, " (%s)", numbers);
  if (finding->verdict == TRN_VERDICT_FAIL)
    g_string_append (line, _ ("; FAILS"));
  if (is_known && n_unknown > 0)
    g_string_append_printf (line,
                            g_dngettext (GETTEXT_PACKAGE, "; NOT KNOWN in %u more line",
                                         "; NOT KNOWN in %u more lines", n_unknown),
                            n_unknown);
  return trn_words_indent (line->str);
}

/* The line that begins with the first finding of its kind; NULL where an earlier one did. */
static char *
force_line_from (const TrnPlan *plan, const GArray *findings, guint index)
{
  const TrnFinding *first = &g_array_index (findings, TrnFinding, index), *worst = first;
  guint n_unknown = 0;
  for (guint i = 0; i < findings->len; i++)
    {
      const TrnFinding *f = &g_array_index (findings, TrnFinding, i);
      if (!is_one_line (first, f))
        continue;
      if (i < index)
        return NULL;
      n_unknown += f->verdict == TRN_VERDICT_UNKNOWN;
      if (badness (f) > badness (worst))
        worst = f;
    }
  return force_line (plan, worst, n_unknown);
}

char *
trn_words_table_forces (const TrnPlan *plan, const TrnLiftRun *run, const GArray *findings)
{
  g_autoptr (GString) text = g_string_new (NULL);
  gboolean is_alone = TRUE; /* how it hangs, which is looked at without any mass */
  for (guint i = 0; i < findings->len; i++)
    {
      const TrnFinding *f = &g_array_index (findings, TrnFinding, i);
      if (!is_force (f))
        continue;
      is_alone &= f->check == TRN_CHECK_ATTITUDE;
      g_autofree char *line = force_line_from (plan, findings, i);
      if (line != NULL)
        g_string_append_printf (text, "  %s.\n", line);
    }
  if (is_alone)
    return NULL;
  g_autofree char *lift = trn_words_clean (run->lift->name, LONGEST_NAME);
  g_autofree char *heading
      = g_strdup_printf (_ ("What is borne in “%s”, the worst of each:\n"), lift);
  g_string_prepend (text, heading);
  return g_string_free (g_steal_pointer (&text), FALSE);
}

/* ---- by what it is judged ---- */

/* Takes @name. */
static void
append_once (GString *line, GHashTable *names, char *name)
{
  if (!g_hash_table_add (names, name))
    return;
  g_string_append_printf (line, "%s%s", line->len > 0 ? "; " : "", name);
}

/* What gear stands on is a structure, no source; what is not known was not judged. */
static gboolean
is_judged_by (const TrnFinding *finding, TrnCheckKind check)
{
  return finding->check == check && check != TRN_CHECK_FOOTING
         && finding->verdict != TRN_VERDICT_UNKNOWN;
}

/* Of one check, as a list, rules last; "" where it names none. */
static char *
sources_of (TrnCheckKind check, const GArray *findings)
{
  g_autoptr (GString) line = g_string_new (NULL);
  g_autoptr (GHashTable) names = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  for (guint i = 0; i < findings->len; i++)
    {
      const TrnFinding *f = &g_array_index (findings, TrnFinding, i);
      if (is_judged_by (f, check) && f->source != NULL)
        append_once (line, names, trn_words_source_name (f, 0));
    }
  for (guint i = 0; i < findings->len; i++)
    {
      const TrnFinding *f = &g_array_index (findings, TrnFinding, i);
      if (is_judged_by (f, check) && f->rule != NULL)
        append_once (line, names, trn_words_rule_name (f, 0));
    }
  return g_string_free (g_steal_pointer (&line), FALSE);
}

char *
trn_words_table_sources (const TrnLiftRun *run, const GArray *findings)
{
  g_autoptr (GString) text = g_string_new (NULL);
  for (guint check = 0; check < TRN_N_CHECKS; check++)
    {
      g_autofree char *sources = sources_of ((TrnCheckKind)check, findings);
      if (*sources == '\0')
        continue;
      g_autofree char *line
          = g_strdup_printf (_ ("%s: %s"), trn_words_check ((TrnCheckKind)check), sources);
      g_autofree char *indented = trn_words_indent (line);
      g_string_append_printf (text, "  %s.\n", indented);
    }
  if (text->len == 0)
    return NULL;
  g_autofree char *lift = trn_words_clean (run->lift->name, LONGEST_NAME);
  g_autofree char *heading = g_strdup_printf (_ ("Sources of what “%s” is judged by:\n"), lift);
  g_string_prepend (text, heading);
  return g_string_free (g_steal_pointer (&text), FALSE);
}
