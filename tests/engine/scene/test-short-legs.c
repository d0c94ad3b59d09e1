/* Legs of known length that are too short to meet on one hook: which is named, and how long it
 * would have to be. */
#include "free-hang.h"
#include "test-plan.h"

#define LEG(id, to, length) "{'id': '" id "', 'to': " to ", 'diameter': 0.02, 'length': " length "}"

static TrnProgramme *
play (const char *hangs, const char *slings, TrnDiags *diags)
{
  g_autofree char *text = g_strdup_printf (
      "{'format': 'trunnion-plan', 'version': 1, 'keep_clear': 0.1, 'structures': [{'id': 'deck',"
      " 'solid': {'kind': 'box', 'size': [1, 1, 1]}, 'at': {'position': [50, 0, 0]}}], 'gear': [],"
      " 'components': [{'id': 'unit', 'solid': {'kind': 'box', 'size': [2, 2, 2]}, 'mass': 1000,"
      " 'cog': [0, 0, 0], 'at': {'position': [0, 0, 0]}}], 'programme': [{'lift': 'l',"
      " 'component': 'unit', 'hook_point': [0, 0, 5], %s 'rigging': {'main': {'hook_above': 0.4,"
      " 'slings': [%s]}}, 'moves': [{'do': 'hoist', 'by': 2, 'seconds': 1}]}]}",
      hangs, slings);
  g_autoptr (TrnPlan) plan = test_plan (text);
  TrnProgramme *programme = trn_programme_play (plan, diags);
  test_print_diags (diags);
  g_assert_nonnull (programme);
  return programme;
}

/* Legs of 2 m and 1.5 m to points 6 m apart reach no common hook: the shorter would have to be more
 * than 4 m long. Of four legs of 2 m the two farthest apart are named, 8 m: 6 m. Legs of 6.1 m in
 * all reach one. Of a lift as drawn it is said, too, though its legs tell nothing of how it hangs.
 */
static void
test_short (void)
{
  static const struct
  {
    const char *hangs, *slings, *pointer, *missing;
    double length_m;
  } cases[] = {
    { "'hangs': 'free',", LEG ("a", "[3, 0, 5]", "2") "," LEG ("b", "[-3, 0, 5]", "1.5"),
      "/programme/0/rigging/main/slings/1/length", TRN_HANG_SHORT, 4 },
    { "", LEG ("a", "[3, 0, 5]", "2") "," LEG ("b", "[-3, 0, 5]", "1.5"),
      "/programme/0/rigging/main/slings/1/length", NULL, 4 },
    { "'hangs': 'free',",
      LEG ("a", "[1, 0, 5]", "2") "," LEG ("b", "[-1, 0, 5]", "2") "," LEG (
          "c", "[0, 4, 5]", "2") "," LEG ("d", "[0, -4, 5]", "2"),
      "/programme/0/rigging/main/slings/2/length", TRN_HANG_SHORT, 6 },
    { "'hangs': 'free',", LEG ("a", "[3, 0, 5]", "3.1") "," LEG ("b", "[-3, 0, 5]", "3"), NULL,
      NULL, 0 },
  };
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (TrnDiags) diags = trn_diags_new ();
      g_autoptr (TrnProgramme) programme = play (cases[i].hangs, cases[i].slings, diags);
      g_assert_cmpstr (programme->runs[0].hangs[0].missing, ==, cases[i].missing);
      const TrnDiag *found = NULL;
      for (guint k = 0; k < diags->items->len; k++)
        {
          const TrnDiag *diag = g_ptr_array_index (diags->items, k);
          if (strcmp (diag->code, "scene/hang-short") == 0)
            found = diag;
        }
      g_assert_cmpint (found != NULL, ==, cases[i].pointer != NULL);
      if (found == NULL)
        continue;
      g_assert_cmpstr (found->pointer, ==, cases[i].pointer);
      g_assert_cmpint (found->severity, ==, TRN_SEVERITY_WARNING);
      g_assert_cmpfloat_with_epsilon (trn_diag_get (found, "length")->number, cases[i].length_m,
                                      1e-9);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/scene/short-legs/short", test_short);
  return g_test_run ();
}
