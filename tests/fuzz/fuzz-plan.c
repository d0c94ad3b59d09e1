/* Any bytes as a plan. There is a plan or at least one error, never both and never neither; a plan
 * that was read is written and read again to the same text; its programme can be played or says
 * why not. */
#include "fuzz.h"

#include <string.h>

#include "programme.h"

static void
check_again (const TrnPlan *plan)
{
  gsize length;
  g_autofree char *text = trn_plan_to_text (plan, &length);
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_autoptr (TrnPlan) again = trn_plan_parse (text, length, NULL, NULL, NULL, diags);
  g_assert_nonnull (again);
  g_autofree char *text_again = trn_plan_to_text (again, NULL);
  g_assert_cmpstr (text_again, ==, text);
}

int
LLVMFuzzerTestOneInput (const uint8_t *bytes, size_t length)
{
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_autoptr (TrnPlan) plan
      = trn_plan_parse ((const char *)bytes, length, "any.trunnion", NULL, NULL, diags);
  g_assert_cmpint (plan == NULL, ==, trn_diags_have_errors (diags));
  if (plan == NULL)
    return 0;
  check_again (plan);
  g_autoptr (TrnDiags) of_programme = trn_diags_new ();
  g_autoptr (TrnProgramme) programme = trn_programme_play (plan, of_programme);
  g_assert_cmpint (programme == NULL, ==, trn_diags_have_errors (of_programme));
  return 0;
}
