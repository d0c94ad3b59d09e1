/* What a plan leaves out: the checks that need it are not known, and say what it is. */
#include "test-force.h"

/* The cube of 2 m below a beam, on a crane with all that is asked of it. */
static const TestGear whole = {
  .gear = "{'id': 'crane', 'kind': 'crane', 'at': {'position': [0, 0, 0]}, 'mass': 30000,"
          " 'boom': {'foot': [0, 2], 'length': 17, 'section': [0.6, 0.8], 'angle': [30, 80],"
          " 'mass': 600}, 'jib': {'length': 3, 'section': [0.4, 0.5], 'offset': 10,"
          " 'mass': 101}, 'hook_to_tip': 3, 'capacity': {'configuration': 'made up', 'table':"
          " [[4, 9000], [16, 3000]]}, 'slewing': {'mass': 4000, 'out': -2}, 'supports':"
          " {'kind': 'outriggers', 'at': [[-5, -5], [5, -5], [-5, 5], [5, 5]], 'pad': [1, 1],"
          " 'mat': {'size': [2, 2, 0.2], 'mass': 77, 'moment': 40000, 'moment_across': 40001,"
          " 'source': 'made up'}}, 'ground': {'allowed_pressure': 45000, 'source': 'made "
          "up'}, 'wind_limit': 12,"
          " 'out_of_plumb': {'most_deg': 5, 'source': 'made up'}}",
  .structures = FORCE_SLAB,
  .more = "'loads': {'dynamic': {'factor': 1.2, 'source': 'test'}}, 'wind': {'speed': 1,"
          " 'drag': 1.2},",
  .unit = "'cog': [0, 0, 1],",
  .rigging
  = "{'main': {'gear': 'crane', 'hook_above': 3, 'block': {'diameter': 0.4,"
    " 'height': 0.5, 'mass': 200}, 'beam': {'id': 'bar', 'length': 2, 'width': 0.2,"
    " 'depth': 0.2, 'below_hook': 1, 'between': [[-1, 0, 2], [1, 0, 2]], 'mass':"
    " 110, 'wll': 9003}, 'slings': [{'id': 'up-a', 'to': 'beam-a', 'diameter': 0.02, 'mass': 1,"
    " 'wll': 9001}, {'id': 'up-b', 'to': 'beam-b', 'diameter': 0.02, 'mass': 2,"
    " 'wll': 9000}, {'id': 'a', 'from': 'beam-a', 'to': [-1, 0, 2], 'diameter': 0.02,"
    " 'mass': 3, 'wll': 9000, 'shackle': {'id': 'bow', 'mass': 0.5, 'wll': 9002}},"
    " {'id': 'b', 'from': 'beam-b', 'to': [1, 0, 2], 'diameter': 0.02, 'mass': 4,"
    " 'wll': 9000}]}}",
  .moves = "{'do': 'wait', 'seconds': 10}"
};

/* @cut is in the plan once. Several checks may need it: one row each. */
static const struct
{
  const char *cut;
  TrnCheckKind check;
  int move;
  const char *body, *item, *missing;
} rows[] = {
  { ", 'mass': 200", TRN_CHECK_HOOK_LOAD, 0, "crane", NULL, "block/mass" },
  { ", 'mass': 200", TRN_CHECK_CAPACITY, 0, "crane", NULL, "block/mass" },
  { ", 'mass': 200", TRN_CHECK_GROUND, 0, "crane", NULL, "block/mass" },
  { ", 'mass': 200", TRN_CHECK_SLINGS, 0, "up-a", "tension", "block/mass" },
  { ", 'mass': 110", TRN_CHECK_HOOK_LOAD, 0, "crane", NULL, "beam/mass" },
  { ", 'mass': 110", TRN_CHECK_SLINGS, 0, "bar", "moment", "beam/mass" },
  { ", 'wll': 9003", TRN_CHECK_SLINGS, 0, "bar", "beam-load", "beam/wll" },
  { ", 'mass': 4, ", TRN_CHECK_HOOK_LOAD, 0, "crane", NULL, "slings/mass" },
  { ", 'mass': 4, ", TRN_CHECK_SLINGS, 0, "a", "tension", "slings/mass" },
  { "'mass': 0.5, ", TRN_CHECK_HOOK_LOAD, 0, "crane", NULL, "shackle/mass" },
  { "'mass': 0.5, ", TRN_CHECK_SLINGS, 0, "a", "shackle", "shackle/mass" },
  { "'cog': [0, 0, 1],", TRN_CHECK_GROUND, 0, "crane", NULL, "cog" },
  { ", 'wll': 9001", TRN_CHECK_SLINGS, 0, "up-a", "tension", "wll" },
  { ", 'wll': 9002", TRN_CHECK_SLINGS, 0, "a", "shackle", "shackle/wll" },
  { "'dynamic': {'factor': 1.2, 'source': 'test'}", TRN_CHECK_CAPACITY, 0, "crane", NULL,
    "loads/dynamic" },
  { "'dynamic': {'factor': 1.2, 'source': 'test'}", TRN_CHECK_GROUND, 0, "crane", NULL,
    "loads/dynamic" },
  { "'dynamic': {'factor': 1.2, 'source': 'test'}", TRN_CHECK_SLINGS, 0, "bar", "compression",
    "loads/dynamic" },
  { ", 'capacity': {'configuration': 'made up', 'table': [[4, 9000], [16, 3000]]}",
    TRN_CHECK_CAPACITY, 0, "crane", NULL, "capacity" },
  { ", 'mass': 30000", TRN_CHECK_GROUND, 0, "crane", NULL, "gear/mass" },
  { ", 'mass': 600", TRN_CHECK_GROUND, 0, "crane", NULL, "boom/mass" },
  { ", 'mass': 101", TRN_CHECK_GROUND, 0, "crane", NULL, "jib/mass" },
  { ", 'slewing': {'mass': 4000, 'out': -2}", TRN_CHECK_GROUND, 0, "crane", NULL, "slewing" },
  { ", 'supports': {'kind': 'outriggers', 'at': [[-5, -5], [5, -5], [-5, 5], [5, 5]], 'pad': [1,"
    " 1], 'mat': {'size': [2, 2, 0.2], 'mass': 77, 'moment': 40000, 'moment_across': 40001,"
    " 'source': 'made up'}}",
    TRN_CHECK_GROUND, 0, "crane", NULL, "supports" },
  { ", 'pad': [1, 1]", TRN_CHECK_GROUND, 0, "crane", NULL, "pad" },
  { ", 'mass': 77", TRN_CHECK_GROUND, 0, "crane", NULL, "mat/mass" },
  { ", 'moment': 40000, 'moment_across': 40001, 'source': 'made up'", TRN_CHECK_GROUND, 0, "crane",
    NULL, "mat/moment" },
  { ", 'moment_across': 40001", TRN_CHECK_GROUND, 0, "crane", NULL, "mat/moment_across" },
  { ", 'ground': {'allowed_pressure': 45000, 'source': 'made up'}", TRN_CHECK_GROUND, 0, "crane",
    NULL, "ground/allowed_pressure" },
  { ", 'wind_limit': 12", TRN_CHECK_WIND, -1, "crane", "speed", "wind_limit" },
  { ", 'wind': {'speed': 1, 'drag': 1.2}", TRN_CHECK_WIND, -1, "crane", "speed", "wind" },
  { ", 'wind': {'speed': 1, 'drag': 1.2}", TRN_CHECK_WIND, -1, "load", "force", "wind" },
  { ", 'wind': {'speed': 1, 'drag': 1.2}", TRN_CHECK_WIND, -1, "load", "sway", "wind" },
  { ", 'out_of_plumb': {'most_deg': 5, 'source': 'made up'}", TRN_CHECK_HOIST_LINES, 0, "crane",
    NULL, "out_of_plumb" },
  { "'cog': [0, 0, 1],", TRN_CHECK_SLINGS, 0, "a", "tension", "cog" },
  { "'cog': [0, 0, 1],", TRN_CHECK_WIND, -1, "load", "sway", "cog" },
};

static gboolean
cut_out (const char **text, const char *what, char **kept)
{
  g_auto (GStrv) parts = g_strsplit (*text, what, -1);
  if (g_strv_length (parts) == 1)
    return FALSE;
  g_assert_cmpuint (g_strv_length (parts), ==, 2);
  /* What stands between two other keys leaves one comma. */
  const char *between = g_str_has_prefix (what, ", ") && g_str_has_suffix (what, ", ") ? ", " : "";
  *kept = g_strjoinv (between, parts);
  *text = *kept;
  return TRUE;
}

static void
test_left_out (gconstpointer data)
{
  const guint row = GPOINTER_TO_UINT (data);
  TestGear t = whole;
  const char **const texts[] = { &t.gear, &t.more, &t.unit, &t.rigging };
  g_autofree char *kept = NULL;
  guint n_cut = 0;
  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    n_cut += cut_out (texts[i], rows[row].cut, &kept);
  g_assert_cmpuint (n_cut, ==, 1);
  TestRun run = test_gear_run (&t);
  const TrnFinding *f = test_finding_of (&run, rows[row].check, 0, rows[row].move, rows[row].body,
                                         NULL, rows[row].item);
  TEST_UNKNOWN (f, rows[row].missing);
  test_run_clear (&run);
}

/* With all of it, none of these is unknown, and each that is about forces names a source and, where
 * it has a value that is not 0, a moment. */
static void
test_whole (void)
{
  TestRun run = test_gear_run (&whole);
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const TrnFinding *f = test_finding_of (&run, rows[i].check, 0, rows[i].move, rows[i].body,
                                             NULL, rows[i].item);
      g_assert_cmpstr (f->missing, ==, NULL);
      g_assert_cmpint (f->verdict, !=, TRN_VERDICT_UNKNOWN);
    }
  const GArray *all = run.findings->lifts[0].findings;
  for (guint i = 0; i < all->len; i++)
    {
      const TrnFinding *f = &g_array_index (all, TrnFinding, i);
      if (f->check < TRN_CHECK_HOOK_LOAD || f->check == TRN_CHECK_SWINGING)
        continue;
      g_test_message ("%u, item %s, %s", f->check, f->item, f->source);
      g_assert_nonnull (f->source);
      if (f->value != 0)
        g_assert_true (isfinite (f->time_s));
    }
  test_run_clear (&run);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/checks/missing/nothing", test_whole);
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *name = g_strdup_printf ("/checks/missing/%u-%s", i, rows[i].missing);
      g_test_add_data_func (name, GUINT_TO_POINTER (i), test_left_out);
    }
  return g_test_run ();
}
