/* test-diag-words.c: diagnostics as lines: the place, the gravity, the values. */
#include "words.h"

static char *
line_of (TrnDiags *diags)
{
  return trn_words_diag (diags->items->pdata[diags->items->len - 1]);
}

/* The one sentence of the base folder serves, since its values are texts. */
static void
test_place_and_values (void)
{
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  TrnDiag *diag = trn_diags_add (diags, TRN_SEVERITY_ERROR, "base/cannot-write", "/x/0");
  trn_diag_set_file (diag, "out.json", 12);
  trn_diag_set_text (diag, "file", "out.json");
  trn_diag_set_text (diag, "reason", "no room");
  g_autofree char *line = line_of (diags);
  g_assert_true (g_str_has_prefix (line, "out.json:12: /x/0: error: “out.json” cannot be written "
                                         "(no room)"));
  g_assert_null (strchr (line, '{'));
}

/* Without a line, without a pointer, without a file: no empty places. */
static void
test_less_place (void)
{
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  TrnDiag *diag = trn_diags_add (diags, TRN_SEVERITY_WARNING, "base/cannot-write", "");
  g_autofree char *bare = line_of (diags);
  g_assert_true (g_str_has_prefix (bare, "warning: "));
  trn_diag_set_file (diag, "a.trunnion", 0);
  g_autofree char *filed = line_of (diags);
  g_assert_true (g_str_has_prefix (filed, "a.trunnion: warning: "));
}

/* A mesh file, at the place of the plan that names it. */
static void
test_subject (void)
{
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  TrnDiag *diag = trn_diags_add (diags, TRN_SEVERITY_ERROR, "import/empty", NULL);
  trn_diag_set_file (diag, "lid.obj", 3);
  trn_diag_set_origin (diag, "/components/0/mesh");
  trn_diag_set_file (diag, "a.trunnion", 12);
  g_autofree char *line = line_of (diags);
  g_assert_true (
      g_str_has_prefix (line, "a.trunnion:12: /components/0/mesh: lid.obj: error: It is empty"));
}

/* A value that the code forgot stays visible. */
static void
test_missing_value (void)
{
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  TrnDiag *diag = trn_diags_add (diags, TRN_SEVERITY_NOTE, "base/cannot-write", NULL);
  trn_diag_set_text (diag, "file", "{reason}");
  g_autofree char *line = line_of (diags);
  g_assert_nonnull (strstr (line, "“{reason}” cannot be written ({reason})"));
}

/* An unknown code loses nothing of what was said; each unit comes with its number: three decimals,
 * or three digits where those would be zeros. */
static void
test_unknown_code_and_units (void)
{
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  TrnDiag *diag = trn_diags_add (diags, TRN_SEVERITY_ERROR, "nothing/of-the-kind", NULL);
  trn_diag_set_number (diag, "a", 12.34567, TRN_UNIT_M);
  trn_diag_set_number (diag, "b", 0.000123456, TRN_UNIT_M);
  trn_diag_set_number (diag, "c", 3, TRN_UNIT_COUNT);
  trn_diag_set_number (diag, "d", 90, TRN_UNIT_DEG);
  trn_diag_set_number (diag, "e", NAN, TRN_UNIT_KG);
  trn_diag_set_number (diag, "f", 2147483648.0, TRN_UNIT_BYTES);
  trn_diag_set_number (diag, "g", 0.1, TRN_UNIT_NONE);
  trn_diag_set_number (diag, "h", 60000, TRN_UNIT_KG);
  trn_diag_set_text (diag, "i", "x\033y");
  g_autofree char *line = line_of (diags);
  g_assert_true (g_str_has_prefix (line, "error: nothing/of-the-kind"));
  const char *parts[] = { " a=12.346 m",       " b=0.000123 m", " c=3",        " d=90°", " e=–",
                          " f=2.0\xc2\xa0GiB", " g=0.1",        " h=60000 kg", " i=x�y" };
  for (guint i = 0; i < G_N_ELEMENTS (parts); i++)
    if (strstr (line, parts[i]) == NULL)
      g_error ("no “%s” in “%s”", parts[i], line);
}

/* A megabyte where a name is expected becomes one line that can be read. */
static void
test_long_value (void)
{
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  TrnDiag *diag = trn_diags_add (diags, TRN_SEVERITY_ERROR, "base/cannot-write", NULL);
  g_autofree char *long_text = g_strnfill (1 << 20, 'a');
  trn_diag_set_text (diag, "file", long_text);
  g_autofree char *line = line_of (diags);
  g_assert_cmpuint (strlen (line), <, 1000);
  g_assert_nonnull (strstr (line, "a…"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/words/diag/place-and-values", test_place_and_values);
  g_test_add_func ("/words/diag/less-place", test_less_place);
  g_test_add_func ("/words/diag/missing-value", test_missing_value);
  g_test_add_func ("/words/diag/unknown-code-and-units", test_unknown_code_and_units);
  g_test_add_func ("/words/diag/long-value", test_long_value);
  g_test_add_func ("/words/diag/subject", test_subject);
  return g_test_run ();
}
