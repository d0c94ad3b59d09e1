/* Numbers as text: they read back the same, are as short as can be, and know no locale. */
#include "number.h"

#include <float.h>
#include <locale.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

static void
assert_text (double value, const char *expected)
{
  char buffer[TRN_NUMBER_BUFFER];
  g_assert_true (trn_number_format (value, buffer) == buffer);
  g_assert_cmpstr (buffer, ==, expected);
}

/* Values that people write come back as they were written. */
static void
test_known (void)
{
  assert_text (0, "0");
  assert_text (-0.0, "0");
  assert_text (1, "1");
  assert_text (-0.1, "-0.1");
  assert_text (0.1 + 0.2, "0.30000000000000004");
  assert_text (12.25, "12.25");
  assert_text (1.0 / 3, "0.3333333333333333");
  assert_text (5e-324, "5e-324");
  assert_text (DBL_MAX, "1.7976931348623157e+308");
}

/* Random bit patterns (all magnitudes, subnormals too) and random lengths of a site: the text reads
 * back as the same bits, and one digit less would not. */
static void
test_round_trip (void)
{
  const char *scale = g_getenv ("TRUNNION_TEST_SCALE");
  int n = (int)(100000 * (scale != NULL ? g_ascii_strtod (scale, NULL) : 1));
  for (int i = 0; i < n; i++)
    {
      double value = g_test_rand_double_range (-1e4, 1e4);
      if (i % 2 == 0)
        {
          guint64 bits = (guint64)(guint32)g_test_rand_int () << 32 | (guint32)g_test_rand_int ();
          memcpy (&value, &bits, sizeof value);
        }
      if (i % 4 == 1)
        value = round (value * 1e3) / 1e3;
      if (!isfinite (value))
        continue;
      char buffer[TRN_NUMBER_BUFFER], shorter[64];
      trn_number_format (value, buffer);
      g_assert_cmpint (g_ascii_strtod (buffer, NULL) == value, ==, TRUE);
      g_assert_null (strchr (buffer, ','));

      int digits = 0;
      for (const char *c = buffer; *c != '\0' && *c != 'e'; c++)
        digits += g_ascii_isdigit (*c) && (digits > 0 || *c != '0');
      /* Zeros before the decimal point need not be significant: only fractions are compared. */
      if (digits < 2 || strchr (buffer, '.') == NULL)
        continue;
      char format[8];
      g_snprintf (format, sizeof format, "%%.%dg", digits - 1);
      g_ascii_formatd (shorter, sizeof shorter, format, value);
      g_assert_cmpint (g_ascii_strtod (shorter, NULL) != value, ==, TRUE);
    }
}

/* Under a locale with a decimal comma, if the machine has one, the text is the same. */
static void
test_locale (void)
{
  const char *names[] = { "de_DE.UTF-8", "de_DE.utf8", "fr_FR.UTF-8", "fr_FR.utf8", "nl_NL.UTF-8" };
  const char *set = NULL;
  for (guint i = 0; i < G_N_ELEMENTS (names) && set == NULL; i++)
    set = setlocale (LC_NUMERIC, names[i]);
  g_test_message ("locale: %s", set != NULL ? set : "none with a comma on this machine");
  assert_text (1234.5, "1234.5");
  assert_text (-1e-7, "-1e-07");
  setlocale (LC_NUMERIC, "C");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/base/number/known", test_known);
  g_test_add_func ("/base/number/round-trip", test_round_trip);
  g_test_add_func ("/base/number/locale", test_locale);
  return g_test_run ();
}
