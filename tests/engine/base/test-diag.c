/* Diagnostics are data: what is set comes back, copied, and errors are counted apart. */
#include "diag.h"

static void
test_values (void)
{
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  char text[] = "positon", pointer[] = "/structures/0/at", file[] = "site.trunnion";
  TrnDiag *diag = trn_diags_add (diags, TRN_SEVERITY_ERROR, "plan/unknown-key", pointer);
  trn_diag_set_text (diag, "key", text);
  trn_diag_set_text (diag, "nothing", NULL);
  trn_diag_set_number (diag, "length", 2.5, TRN_UNIT_M);
  trn_diag_set_file (diag, "first", 1);
  trn_diag_set_file (diag, file, 12);
  text[0] = pointer[0] = file[0] = '#';

  g_assert_true (g_ptr_array_index (diags->items, 0) == diag);
  g_assert_cmpstr (diag->code, ==, "plan/unknown-key");
  g_assert_cmpstr (diag->pointer, ==, "/structures/0/at");
  g_assert_cmpstr (diag->file, ==, "site.trunnion");
  g_assert_cmpuint (diag->line, ==, 12);
  g_assert_cmpstr (trn_diag_get (diag, "key")->text, ==, "positon");
  g_assert_cmpstr (trn_diag_get (diag, "nothing")->text, ==, "");
  const TrnDiagValue *length = trn_diag_get (diag, "length");
  g_assert_null (length->text);
  g_assert_cmpfloat (length->number, ==, 2.5);
  g_assert_cmpint (length->unit, ==, TRN_UNIT_M);
  g_assert_null (trn_diag_get (diag, "nearest"));
}

static void
test_counts (void)
{
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_assert_false (trn_diags_have_errors (diags));
  trn_diags_add (diags, TRN_SEVERITY_NOTE, "test/note", NULL);
  trn_diags_add (diags, TRN_SEVERITY_WARNING, "test/warning", NULL);
  g_assert_false (trn_diags_have_errors (diags));
  g_assert_cmpuint (trn_diags_count (diags, TRN_SEVERITY_NOTE), ==, 2);
  g_assert_cmpuint (trn_diags_count (diags, TRN_SEVERITY_WARNING), ==, 1);
  trn_diags_add (diags, TRN_SEVERITY_ERROR, "test/error", NULL);
  g_assert_true (trn_diags_have_errors (diags));
  const TrnDiag *last = g_ptr_array_index (diags->items, 2);
  g_assert_cmpstr (last->code, ==, "test/error");
  g_assert_null (last->pointer);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/base/diag/values", test_values);
  g_test_add_func ("/base/diag/counts", test_counts);
  return g_test_run ();
}
