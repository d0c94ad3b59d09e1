/* compare-words.c: what changed between two results, in words.
 *
 * A clearance is rounded down and what is asked for up, before and after alike; so is whatever has
 * its limit below it, and the other way round what has it above. */
#include "compare-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#include "force-words.h"
#include "gear-words.h"
#include "words.h"

#define LONGEST_NAME 60

/* ---- what was compared ---- */

static char *
results_text (const char *format, const TrnResults *results)
{
  g_autofree char *file = trn_words_clean (results->file, 0);
  g_autofree char *title = trn_words_clean (results->title, LONGEST_NAME);
  g_autofree char *plan = trn_words_clean (results->plan_file, LONGEST_NAME);
  g_autofree char *program = trn_words_clean (results->program, LONGEST_NAME);
  return g_strdup_printf (format, file, title, plan, program);
}

char *
trn_words_compare_before (const TrnComparison *comparison)
{
  return results_text (_ ("Before: %s, of “%s” (%s), by %s"), comparison->before);
}

char *
trn_words_compare_after (const TrnComparison *comparison)
{
  return results_text (_ ("After: %s, of “%s” (%s), by %s"), comparison->after);
}

G_GNUC_PRINTF (2, 3)
static void
append_line (GString *lines, const char *format, ...)
{
  va_list values;
  va_start (values, format);
  if (lines->len > 0)
    g_string_append_c (lines, '\n');
  g_string_append_vprintf (lines, format, values);
  va_end (values);
}

static void
append_mesh (GString *lines, const TrnMeshChange *change)
{
  const TrnResultsMesh *mesh = change->after != NULL ? change->after : change->before;
  g_autofree char *file = trn_words_clean (mesh->file, 0);
  if (change->before == NULL)
    append_line (lines, _ ("The mesh file “%s” was not read before."), file);
  else if (change->after == NULL)
    append_line (lines, _ ("The mesh file “%s” is no longer read."), file);
  else
    append_line (lines, _ ("The mesh file “%s” is another one."), file);
}

static void
append_checks (GString *lines, const GPtrArray *checks)
{
  g_autoptr (GString) list = g_string_new (NULL);
  for (guint i = 0; i < checks->len; i++)
    {
      g_autofree char *check = trn_words_clean (checks->pdata[i], LONGEST_NAME);
      g_string_append_printf (list, "%s%s", i > 0 ? ", " : "", check);
    }
  if (checks->len > 0)
    append_line (lines, _ ("No longer checked: %s."), list->str);
}

char *
trn_words_compare_context (const TrnComparison *comparison)
{
  g_autoptr (GString) lines = g_string_new (NULL);
  if (comparison->plan_changed)
    append_line (lines, _ ("The plan file is another one."));
  for (guint i = 0; i < comparison->meshes->len; i++)
    append_mesh (lines, &g_array_index (comparison->meshes, TrnMeshChange, i));
  if (lines->len == 0)
    append_line (lines, _ ("Plan and mesh files are the same."));
  append_checks (lines, comparison->checks_gone);
  if (comparison->n_limits > 0)
    append_line (lines,
                 g_dngettext (GETTEXT_PACKAGE, "What is asked for was changed in %u finding.",
                              "What is asked for was changed in %u findings.",
                              comparison->n_limits),
                 comparison->n_limits);
  return g_string_free (g_steal_pointer (&lines), FALSE);
}

/* ---- one difference ---- */

static const char *
kind_text (TrnDifference kind)
{
  switch (kind)
    {
    case TRN_DIFFER_WORSE:
      return _ ("worse");
    case TRN_DIFFER_GONE:
      return _ ("gone");
    case TRN_DIFFER_OTHER:
      return _ ("changed");
    case TRN_DIFFER_NEW:
      return _ ("new");
    case TRN_DIFFER_BETTER:
      return _ ("better");
    case TRN_DIFFER_SAME:
      return _ ("unchanged");
    }
  g_assert_not_reached ();
}

static char *
body_text (const char *body)
{
  return strcmp (body, "load") == 0 ? g_strdup (_ ("load")) : trn_words_clean (body, LONGEST_NAME);
}

/* "load – shaft/wall (seat)" */
static char *
subject_text (const TrnFinding *finding)
{
  g_autofree char *body = body_text (finding->body);
  g_autofree char *obstacle = finding->obstacle != NULL ? body_text (finding->obstacle) : NULL;
  return trn_words_with_subject_of_both (body, obstacle, finding);
}

static char *
place_text (const char *lift, const TrnFinding *finding)
{
  g_autofree char *id = trn_words_clean (lift, LONGEST_NAME);
  g_autofree char *subject = subject_text (finding);
  if (finding->move < 0)
    return g_strdup_printf ("%s: %s", id, subject);
  return g_strdup_printf (_ ("%s, move %u: %s"), id, (guint)finding->move + 1, subject);
}

/* Toward the worse: the number, its limit, and what is in hand. */
static gboolean
is_rounded_up (const TrnFinding *finding, double (*number_of) (const TrnFinding *))
{
  if (trn_results_is_floor (finding))
    return number_of == trn_results_limit;
  return number_of == trn_results_measure;
}

/* "0.62 m → 0.48 m", or once where both read the same. */
static char *
pair_text (const TrnResultsDifference *difference, double (*number_of) (const TrnFinding *))
{
  const TrnFinding *both[] = { difference->before, difference->after };
  char *texts[] = { NULL, NULL };
  for (guint i = 0; i < 2; i++)
    if (both[i] == NULL)
      texts[i] = g_strdup ("–");
    else
      {
        gboolean is_distance = trn_results_is_distance (both[i]);
        texts[i] = trn_words_force (number_of (both[i]), is_distance ? TRN_UNIT_M : both[i]->unit,
                                    is_rounded_up (both[i], number_of));
      }
  gboolean same = strcmp (texts[0], texts[1]) == 0;
  char *pair = same ? g_strdup (texts[0]) : g_strdup_printf ("%s → %s", texts[0], texts[1]);
  g_free (texts[0]);
  g_free (texts[1]);
  return pair;
}

/* Which end of a range is near, as the check says it. */
typedef enum
{
  NO_END,
  LEAST,
  GREATEST,
} End;

static End
end_of (const TrnFinding *finding)
{
  const double above = finding->value - finding->limit;
  if (finding->check != TRN_CHECK_REACH || !(above < 0 || above > 0) || isnan (finding->margin))
    return NO_END;
  return trn_results_is_floor (finding) ? LEAST : GREATEST;
}

static const char *
value_format (const TrnResultsDifference *difference)
{
  const TrnFinding *before = difference->before, *after = difference->after;
  const TrnFinding *finding = after != NULL ? after : before;
  if (!trn_results_is_distance (finding))
    {
      const End end = end_of (finding);
      const gboolean is_same = before == NULL || after == NULL || end_of (before) == end;
      return is_same && end == LEAST      ? _ ("value %s, least %s, in hand %s")
             : is_same && end == GREATEST ? _ ("value %s, greatest %s, in hand %s")
                                          : _ ("value %s, limit %s, in hand %s");
    }
  if (finding->check == TRN_CHECK_CLEARANCE || finding->check == TRN_CHECK_APPROACH)
    return _ ("certified clearance %s, to be kept %s, in hand %s");
  return _ ("outside the swing circle by %s, to be kept %s, in hand %s");
}

static gboolean
has_number (const TrnFinding *finding)
{
  return finding != NULL
         && (!isnan (trn_results_measure (finding)) || !isnan (trn_results_limit (finding)));
}

static void
append_numbers (GString *lines, const TrnResultsDifference *difference)
{
  if (!has_number (difference->before) && !has_number (difference->after))
    return;
  g_autofree char *value = pair_text (difference, trn_results_measure);
  g_autofree char *limit = pair_text (difference, trn_results_limit);
  g_autofree char *in_hand = pair_text (difference, trn_results_in_hand);
  append_line (lines, "    ");
  g_string_append_printf (lines, value_format (difference), value, limit, in_hand);
  if (difference->limit_changed)
    g_string_append (lines, _ (" (what is asked for was changed)"));
}

static void
append_remarks (GString *lines, const TrnResultsDifference *difference)
{
  const TrnFinding *before = difference->before, *after = difference->after;
  if (after == NULL)
    return;
  if (after->missing != NULL
      && (after->verdict == TRN_VERDICT_UNKNOWN || after->state == TRN_STATE_NOT_GIVEN))
    {
      g_autofree char *missing = trn_words_missing (after);
      append_line (lines, "    %s", missing);
    }
  if (after->inside == TRN_INSIDE_UNKNOWN && (before == NULL || before->inside != after->inside))
    append_line (lines, "    %s",
                 _ ("Whether one lies inside the other is not known, since neither surface is "
                    "closed"));
}

char *
trn_words_compare_line (const TrnResultsDifference *difference)
{
  const TrnFinding *before = difference->before, *after = difference->after;
  g_autoptr (GString) lines = g_string_new (NULL);
  g_autofree char *place = place_text (difference->lift, after != NULL ? after : before);
  const char *was = before != NULL ? trn_words_finding_short (before) : "–";
  const char *is = after != NULL ? trn_words_finding_short (after) : "–";
  append_line (lines, "%s · %s: %s", kind_text (difference->kind), place, was);
  if (strcmp (was, is) != 0)
    g_string_append_printf (lines, " → %s", is);
  append_numbers (lines, difference);
  append_remarks (lines, difference);
  return g_string_free (g_steal_pointer (&lines), FALSE);
}

/* ---- all of them ---- */

static char *
open_text (const TrnComparison *comparison)
{
  if (comparison->n_open > 0)
    return g_strdup_printf (
        g_dngettext (GETTEXT_PACKAGE, "%u finding became worse or is to be looked at.",
                     "%u findings became worse or are to be looked at.", comparison->n_open),
        comparison->n_open);
  if (comparison->checks_gone->len > 0)
    return g_strdup (_ ("Something is no longer checked."));
  return g_strdup (_ ("Nothing became worse."));
}

static char *
later_text (const TrnComparison *comparison)
{
  if (comparison->after->findings->len == 0)
    return g_strdup (_ ("The later results hold no finding."));
  if (comparison->n_fail == 0 && comparison->n_unknown == 0)
    return g_strdup (
        _ ("The later results: clearances meet the set values; trunnion check lists what was not "
           "checked."));
  return g_strdup_printf (_ ("The later results: %u not met, %u not known."), comparison->n_fail,
                          comparison->n_unknown);
}

char *
trn_words_compare_headline (const TrnComparison *comparison)
{
  const guint *n = comparison->counts;
  g_autofree char *open = open_text (comparison);
  g_autofree char *later = later_text (comparison);
  g_autoptr (GString) counts = g_string_new (NULL);
  for (guint kind = 0; kind < TRN_N_DIFFERENCES; kind++)
    g_string_append_printf (counts, "%s%u %s", kind > 0 ? ", " : "", n[kind],
                            kind_text ((TrnDifference)kind));
  return g_strdup_printf ("%s %s: %s. %s", open, _ ("Findings"), counts->str, later);
}
