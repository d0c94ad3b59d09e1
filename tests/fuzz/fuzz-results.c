/* Any bytes as results, or, divided by a zero byte, as two of them.
 *
 * There are results or at least one error, never both and never neither. What was read differs from
 * itself in nothing; of two, each finding is counted once, what is gone the one way is new the
 * other way, and every difference can be said in words. */
#include "fuzz.h"

#include <string.h>

#include "compare-words.h"

static TrnResults *
parse (const char *bytes, size_t length)
{
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  TrnResults *results = trn_results_parse (bytes, length, "any.json", diags);
  g_assert_cmpint (results == NULL, ==, trn_diags_have_errors (diags));
  return results;
}

/* Frees it. */
static void
check_text (char *text)
{
  g_assert_true (g_utf8_validate (text, -1, NULL));
  g_assert_cmpuint (strlen (text), >, 0);
  g_free (text);
}

static void
check_words (const TrnComparison *comparison)
{
  check_text (trn_words_compare_before (comparison));
  check_text (trn_words_compare_after (comparison));
  check_text (trn_words_compare_context (comparison));
  check_text (trn_words_compare_headline (comparison));
  for (guint i = 0; i < comparison->changes->len; i++)
    check_text (
        trn_words_compare_line (&g_array_index (comparison->changes, TrnResultsDifference, i)));
}

static void
check_same (const TrnResults *results)
{
  g_autoptr (TrnComparison) comparison = trn_results_compare (results, results);
  g_assert_cmpuint (comparison->counts[TRN_DIFFER_SAME], ==, results->findings->len);
  g_assert_cmpuint (comparison->changes->len, ==, results->findings->len);
  g_assert_cmpuint (comparison->n_limits + comparison->meshes->len, ==, 0);
  g_assert_false (trn_comparison_is_open (comparison));
  check_words (comparison);
}

static void
check_two (const TrnResults *before, const TrnResults *after)
{
  g_autoptr (TrnComparison) there = trn_results_compare (before, after);
  g_autoptr (TrnComparison) back = trn_results_compare (after, before);
  const guint gone = there->counts[TRN_DIFFER_GONE], new = there->counts[TRN_DIFFER_NEW];
  g_assert_cmpuint (gone, ==, back->counts[TRN_DIFFER_NEW]);
  g_assert_cmpuint (new, ==, back->counts[TRN_DIFFER_GONE]);
  g_assert_cmpuint (there->counts[TRN_DIFFER_SAME], ==, back->counts[TRN_DIFFER_SAME]);
  g_assert_cmpuint (there->counts[TRN_DIFFER_BETTER], <=, back->counts[TRN_DIFFER_WORSE]);
  g_assert_cmpuint (there->changes->len, ==, after->findings->len + gone);
  check_words (there);
}

int
LLVMFuzzerTestOneInput (const uint8_t *bytes, size_t length)
{
  const uint8_t *zero = length > 0 ? memchr (bytes, 0, length) : NULL;
  const size_t first = zero != NULL ? (size_t)(zero - bytes) : length;
  g_autoptr (TrnResults) before = parse ((const char *)bytes, first);
  if (before != NULL)
    check_same (before);
  if (before == NULL || zero == NULL)
    return 0;
  g_autoptr (TrnResults) after = parse ((const char *)zero + 1, length - first - 1);
  if (after != NULL)
    check_two (before, after);
  return 0;
}
