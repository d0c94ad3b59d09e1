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

static void
run (const char *const *argv)
{
  g_spawn_sync (NULL, (char **)(gpointer)argv, NULL,
                G_SPAWN_SEARCH_PATH | G_SPAWN_STDOUT_TO_DEV_NULL | G_SPAWN_STDERR_TO_DEV_NULL, NULL,
                NULL, NULL, NULL, NULL, NULL);
}

/* Under a locale with a decimal comma, made here by localedef since a machine need not have one,
 * the text is the same and reads back. */
static void
test_locale (void)
{
  static const char source[] = "LC_NUMERIC\ndecimal_point \",\"\nthousands_sep \".\"\n"
                               "grouping 3;3\nEND LC_NUMERIC\n";
  g_autofree char *folder = g_dir_make_tmp ("number-XXXXXX", NULL);
  g_assert_nonnull (folder);
  g_autofree char *file = g_build_filename (folder, "source", NULL);
  g_autofree char *made = g_build_filename (folder, "comma", NULL);
  g_autofree char *program = g_find_program_in_path ("localedef");
  g_assert_true (g_file_set_contents (file, source, -1, NULL));
  run ((const char *const[]){ "localedef", "-c", "--no-archive", "-i", file, made, NULL });
  g_setenv ("LOCPATH", folder, TRUE);
  gboolean comma = setlocale (LC_NUMERIC, "comma") != NULL;
  g_test_message ("decimal mark: %s", localeconv ()->decimal_point);
  /* Only a machine without the tool is excused. */
  g_assert_true (comma || program == NULL);
  g_assert_cmpstr (localeconv ()->decimal_point, ==, comma ? "," : ".");
  assert_text (1234.5, "1234.5");
  assert_text (-1e-7, "-1e-07");
  assert_text (1.0 / 3, "0.3333333333333333");
  setlocale (LC_NUMERIC, "C");
  g_unsetenv ("LOCPATH");
  run ((const char *const[]){ "rm", "-r", folder, NULL });
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
