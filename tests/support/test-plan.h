/* test-plan.h: plans written in the test, with ' for " so that they can be read. */
#pragma once

#include <string.h>

#include "programme.h"

static inline void
test_print_diags (const TrnDiags *diags)
{
  for (guint i = 0; i < diags->items->len; i++)
    {
      const TrnDiag *diag = g_ptr_array_index (diags->items, i);
      g_test_message ("%s at %s line %u", diag->code, diag->pointer, diag->line);
    }
}

/* Reads @text as a plan; the test ends where it cannot be read. */
static inline TrnPlan *
test_plan (const char *text)
{
  g_autofree char *json = g_strdup (text);
  g_strdelimit (json, "'", '"');
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  TrnPlan *plan = trn_plan_parse (json, strlen (json), "test.trunnion", NULL, NULL, diags);
  test_print_diags (diags);
  g_assert_nonnull (plan);
  return plan;
}

/* Plays a plan that has no fault; warnings are passed over. */
static inline TrnProgramme *
test_programme (const char *text)
{
  g_autoptr (TrnPlan) plan = test_plan (text);
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  TrnProgramme *programme = trn_programme_play (plan, diags);
  test_print_diags (diags);
  g_assert_nonnull (programme);
  g_assert_false (trn_diags_have_errors (diags));
  return programme;
}

static inline void
test_assert_near (TrnVec3 found, double x, double y, double z, double within)
{
  double off = trn_vec3_distance (found, trn_vec3_make (x, y, z));
  if (off > within)
    g_test_message ("found %.9g %.9g %.9g, expected %.9g %.9g %.9g", found.x, found.y, found.z, x,
                    y, z);
  g_assert_cmpfloat (off, <=, within);
}
