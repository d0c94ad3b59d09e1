/* Which known word a mistyped one is taken for: by edits, whatever the case, and by its beginning.
 */
#include "nearest.h"

static void
assert_nearest (const char *word, const char *expected)
{
  static const char *const words[] = { "depth", "diameter", "height", "z", "y", "inner_diameter" };
  g_assert_cmpstr (trn_nearest (word, words, G_N_ELEMENTS (words)), ==, expected);
}

/* One letter left out, two swapped, one replaced. */
static void
test_edits (void)
{
  assert_nearest ("heigt", "height");
  assert_nearest ("dpeth", "depth");
  assert_nearest ("diametre", "diameter");
}

/* "Z" differs from "z" and "y" by one letter each, unless case counts for nothing. */
static void
test_case (void)
{
  assert_nearest ("Z", "z");
  assert_nearest ("Y", "y");
  assert_nearest ("HEIGHT", "height");
}

/* "dia" is nearer to "depth" by edits (4) than to "diameter" (5), which it begins. Where it begins
 * several words the shortest is nearest. */
static void
test_begun (void)
{
  static const char *const shafts[] = { "round-shaft-open", "round-shaft", "rope" };
  assert_nearest ("dia", "diameter");
  assert_nearest ("Inner", "inner_diameter");
  g_assert_cmpstr (trn_nearest ("round", shafts, G_N_ELEMENTS (shafts)), ==, "round-shaft");
}

/* Nothing to choose from; an empty word begins everything, and so says nothing. */
static void
test_empty (void)
{
  g_assert_null (trn_nearest ("x", NULL, 0));
  assert_nearest ("", "y");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/base/nearest/edits", test_edits);
  g_test_add_func ("/base/nearest/case", test_case);
  g_test_add_func ("/base/nearest/begun", test_begun);
  g_test_add_func ("/base/nearest/empty", test_empty);
  return g_test_run ();
}
