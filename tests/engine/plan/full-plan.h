/* full-plan.h: the plan that holds every kind of everything (data/full.trunnion), read. */
#pragma once

#include "plan.h"

static inline TrnPlan *
test_read_full (void)
{
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "data", "full.trunnion", NULL);
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  TrnPlan *plan = trn_plan_read (path, NULL, diags);
  g_assert_nonnull (plan);
  g_assert_cmpuint (diags->items->len, ==, 0);
  return plan;
}

static inline void
assert_vec (TrnVec3 v, double x, double y, double z)
{
  g_assert_cmpfloat (v.x, ==, x);
  g_assert_cmpfloat (v.y, ==, y);
  g_assert_cmpfloat (v.z, ==, z);
}
