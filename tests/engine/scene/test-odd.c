/* Numbers of a plan that nothing real has are warned of, and those up to them are not. */
#include "scene.h"
#include "test-plan.h"

static TrnScene *
build (const char *text, TrnDiags *diags)
{
  TrnSceneOptions options = { .jobs = 2 };
  return trn_scene_build_take (test_programme (text), &options, diags);
}

/* Builds the plan @text, which there has to be one warning of, @code at @pointer, or none where
 * that is NULL; returns it, NULL; of @diags. */
static const TrnDiag *
warned_of (const char *text, const char *code, const char *pointer, TrnDiags *diags)
{
  g_autoptr (TrnScene) scene = build (text, diags);
  g_assert_nonnull (scene);
  g_assert_cmpuint (diags->items->len, ==, pointer != NULL);
  if (pointer == NULL)
    return NULL;
  const TrnDiag *diag = g_ptr_array_index (diags->items, 0);
  g_assert_cmpstr (diag->code, ==, code);
  g_assert_cmpstr (diag->pointer, ==, pointer);
  g_assert_cmpint (diag->severity, ==, TRN_SEVERITY_WARNING);
  return diag;
}

/* A cube of 2 m, its frame in the middle of its base: centres of gravity in it, on its top, and up
 * to 10 mm above that are none of its matter. Below the base by a slip of the sign, beside it, and
 * in millimetres each is told once, by the axis along which it is farthest out. */
static void
test_odd_cog (void)
{
  static const struct
  {
    const char *cog, *pointer, *axis;
    double distance_m;
  } cases[] = {
    { "[0, 0, 1]", NULL, NULL, 0 },
    { "[1, -1, 2]", NULL, NULL, 0 },
    { "[0, 0, 2.0099]", NULL, NULL, 0 },
    { "[0, 0, 2.0101]", "/components/0/cog/2", "z", 0.0101 },
    { "[0, 0, -1]", "/components/0/cog/2", "z", 1 },
    { "[0, -1.5, 1]", "/components/0/cog/1", "y", 0.5 },
    { "[250, 0, 900]", "/components/0/cog/2", "z", 898 },
    { "[250, 0, 200]", "/components/0/cog/0", "x", 249 },
  };
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *text = g_strdup_printf (
          "{'format': 'trunnion-plan', 'version': 1, 'keep_clear': 0.1, 'structures': [{'id': 'd',"
          " 'solid': {'kind': 'box', 'size': [1, 1, 1]}, 'at': {'position': [50, 0, 0]}}],"
          " 'components': [{'id': 'u', 'solid': {'kind': 'box', 'size': [2, 2, 2]}, 'cog': %s,"
          " 'at': {'position': [0, 0, 0]}}], 'programme': [{'lift': 'l', 'component': 'u',"
          " 'hook_point': [0, 0, 2], 'moves': [{'do': 'hoist', 'by': 1, 'seconds': 1}]}]}",
          cases[i].cog);
      g_autoptr (TrnDiags) diags = trn_diags_new ();
      const TrnDiag *diag = warned_of (text, "scene/odd-cog", cases[i].pointer, diags);
      if (diag == NULL)
        continue;
      g_assert_cmpstr (trn_diag_get (diag, "axis")->text, ==, cases[i].axis);
      g_assert_cmpfloat_with_epsilon (trn_diag_get (diag, "distance")->number, cases[i].distance_m,
                                      1e-9);
    }
}

/* A cube of 2 m with hook point and tail point up to 1 m above its top, or farther; a drum on the
 * ground that may press with 10 kPa to 20 MPa, or more or less; factors up to 2, and more; and a
 * drag of 0.3, and less. */
static void
test_odd_numbers (void)
{
  static const struct
  {
    const char *hook_z, *tail_z, *pressure, *mass_factor, *dynamic, *drag;
    const char *code;
    guint n;
  } cases[] = {
    { "3", "3", "1e4", "2", "2", "0.3", "scene/point-off-load", 0 },
    { "3.01", "3", "2e7", "2", "2", "0.3", "scene/point-off-load", 1 },
    { "3.01", "-1.01", "2e7", "2", "2", "0.3", "scene/point-off-load", 2 },
    { "2", "2", "9999", "2", "2", "0.3", "scene/odd-pressure", 1 },
    { "2", "2", "2.1e7", "2", "2", "0.3", "scene/odd-pressure", 1 },
    { "2", "2", "2e7", "2.1", "2", "0.3", "scene/odd-factor", 1 },
    { "2", "2", "2e7", "2.1", "2.1", "0.3", "scene/odd-factor", 2 },
    { "2", "2", "2e7", "2", "2", "0.29", "scene/odd-drag", 1 },
  };
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *text = g_strdup_printf (
          "{'format': 'trunnion-plan', 'version': 1, 'keep_clear': 0.1, 'structures': [{'id': 'd',"
          " 'solid': {'kind': 'box', 'size': [1, 1, 1]}, 'at': {'position': [50, 0, 0]}}], 'gear':"
          " [{'id': 'g', 'kind': 'crane', 'at': {'position': [0, -9, 0]}, 'boom': {'foot': [0, 1],"
          " 'length': 20, 'section': [1, 1], 'angle': [0, 80]}, 'ground': {'allowed_pressure': %s,"
          " 'source': 's'}}], 'components': [{'id': 'u', 'solid': {'kind': 'box', 'size': [2, 2,"
          " 2]}, 'mass': 8000, 'mass_source': 's', 'mass_factor': %s, 'at': {'position': [0, 0, "
          "0]}}], 'loads':"
          " {'dynamic': {'factor': %s, 'source': 's'}}, 'wind': {'speed': 5, 'drag': %s},"
          " 'programme': [{'lift': 'l', 'component': 'u', 'hook_point': [0, 0, %s], 'rigging':"
          " {'main': {'gear': 'g', 'hook_above': 4}, 'tail': {'point': [1, 0, %s]}}, 'moves': "
          "[{'do':"
          " 'hoist', 'by': 1, 'seconds': 1}]}]}",
          cases[i].pressure, cases[i].mass_factor, cases[i].dynamic, cases[i].drag, cases[i].hook_z,
          cases[i].tail_z);
      g_autoptr (TrnDiags) diags = trn_diags_new ();
      g_autoptr (TrnScene) scene = build (text, diags);
      g_assert_nonnull (scene);
      g_assert_cmpuint (diags->items->len, ==, cases[i].n);
      for (guint k = 0; k < diags->items->len; k++)
        g_assert_cmpstr (((TrnDiag *)g_ptr_array_index (diags->items, k))->code, ==, cases[i].code);
    }
}

/* A crane that may lift 50 t at 10 m: no more at 14 m is as it should be, more is odd, and what is
 * less than that again is not. Its own mass and that of its boom are odd below 500 kg. */
static void
test_odd_gear (void)
{
  static const struct
  {
    const char *table, *mass, *boom;
    const char *code, *pointer;
  } cases[] = {
    { "[[10, 50000], [14, 50000]]", "500", "500", NULL, NULL },
    { "[[10, 50000], [14, 50001], [18, 2]]", "40000", "9000", "scene/odd-capacity",
      "/gear/0/capacity/table/1" },
    { "[[10, 50000], [14, 30000], [18, 40000]]", "40000", "9000", "scene/odd-capacity",
      "/gear/0/capacity/table/2" },
    { "[[10, 50000], [14, 30000]]", "499", "9000", "scene/odd-gear-mass", "/gear/0/mass" },
    { "[[10, 50000], [14, 30000]]", "40000", "9", "scene/odd-gear-mass", "/gear/0/boom/mass" },
  };
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *text = g_strdup_printf (
          "{'format': 'trunnion-plan', 'version': 1, 'keep_clear': 0.1, 'structures': [{'id': 'd',"
          " 'solid': {'kind': 'box', 'size': [1, 1, 1]}, 'at': {'position': [50, 0, 0]}}], 'gear':"
          " [{'id': 'g', 'kind': 'crane', 'at': {'position': [0, -9, 0]}, 'boom': {'foot': [0, 1],"
          " 'length': 20, 'section': [1, 1], 'angle': [0, 80], 'mass': %s}, 'capacity':"
          " {'configuration': 'c', 'table': %s}, 'mass': %s}], 'components': [{'id': 'u', 'solid':"
          " {'kind': 'box', 'size': [2, 2, 2]}, 'mass': 8000, 'mass_source': 's', 'at': "
          "{'position': [0, 0, 0]}}],"
          " 'programme': [{'lift': 'l', 'component': 'u', 'hook_point': [0, 0, 2], 'rigging':"
          " {'main': {'gear': 'g', 'hook_above': 4}}, 'moves': [{'do': 'hoist', 'by': 1,"
          " 'seconds': 1}]}]}",
          cases[i].boom, cases[i].table, cases[i].mass);
      g_autoptr (TrnDiags) diags = trn_diags_new ();
      warned_of (text, cases[i].code, cases[i].pointer, diags);
    }
}

/* What may bend a mat of 3 m by 1.2 m, 0.2 m thick, has a section of 0.008 m³ along it and of 0.02
 * m³ across, whichever way it lies; below a track the mats of 9 m by 5 m are bent along y, by one
 * of 0.06 m³. From 100 kPa to 1 GPa is as it should be; kilonewton metres are not. */
static void
test_odd_mat (void)
{
#define MAT(size, along, across)                                                                   \
  "'mat': {'size': " size ", 'mass': 9, 'moment': " along ", 'moment_across': " across             \
  ", 'source': 's'}"
#define CRANE(kind, mat)                                                                           \
  "'crane', 'boom': {'foot': [0, 1], 'length': 20, 'section': [1, 1], 'angle': [0, 80]}, "         \
  "'supports': {'kind': '" kind "', 'at': [[0, 4], [0, -4]], 'pad': [1, 1], " mat "}"
#define LEGS(mat)                                                                                  \
  "'gantry', 'trolley': {'size': [1, 1, 1], 'underside': 9}, 'legs': [{'at': [0, 4], 'size': "     \
  "[0.5, 0.5], 'height': 9}, {'at': [0, -4], 'size': [0.5, 0.5], 'height': 9, " mat "}]"
  static const struct
  {
    const char *gear, *pointer;
    double stress_pa;
  } cases[] = {
    { CRANE ("outriggers", MAT ("[3, 1.2, 0.2]", "801", "2001")), NULL, 0 },
    { CRANE ("outriggers", MAT ("[3, 1.2, 0.2]", "7.99e6", "1.99e7")), NULL, 0 },
    { CRANE ("outriggers", MAT ("[3, 1.2, 0.2]", "90", "30000")), "/gear/0/supports/mat/moment",
      11250 },
    { CRANE ("outriggers", MAT ("[1.2, 3, 0.2]", "9e7", "30000")), "/gear/0/supports/mat/moment",
      1.125e10 },
    { CRANE ("outriggers", MAT ("[3, 1.2, 0.2]", "90000", "30")),
      "/gear/0/supports/mat/moment_across", 1500 },
    { CRANE ("tracks", MAT ("[9, 5, 0.2]", "6001", "6001")), NULL, 0 },
    { CRANE ("tracks", MAT ("[9, 5, 0.2]", "5999", "6001")), "/gear/0/supports/mat/moment",
      5999 / 0.06 },
    { LEGS (MAT ("[3, 1.2, 0.2]", "90", "30000")), "/gear/0/legs/1/mat/moment", 11250 },
  };
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *text = g_strdup_printf (
          "{'format': 'trunnion-plan', 'version': 1, 'keep_clear': 0.1, 'structures': [{'id': 'd',"
          " 'solid': {'kind': 'box', 'size': [1, 1, 1]}, 'at': {'position': [50, 0, 0]}}], 'gear':"
          " [{'id': 'g', 'at': {'position': [0, -9, 0]}, 'kind': %s}], 'components': [{'id': 'u',"
          " 'solid': {'kind': 'box', 'size': [2, 2, 2]}, 'mass': 8000, 'mass_source': 's', 'at':"
          " {'position': [0, 0, 0]}}], 'programme': [{'lift': 'l', 'component': 'u', 'hook_point':"
          " [0, 0, 2], 'rigging': {'main': {'gear': 'g', 'hook_above': 4}}, 'moves': [{'do':"
          " 'hoist', 'by': 1, 'seconds': 1}]}]}",
          cases[i].gear);
      g_autoptr (TrnDiags) diags = trn_diags_new ();
      const TrnDiag *diag = warned_of (text, "scene/odd-mat", cases[i].pointer, diags);
      if (diag == NULL)
        continue;
      g_assert_cmpfloat_with_epsilon (trn_diag_get (diag, "stress")->number, cases[i].stress_pa,
                                      1e-6 * cases[i].stress_pa);
    }
}

/* A box of 1 m stands at 6000 m from the load, and at 4000 m, where it is not yet far: distances
 * are from its nearest face, 5999.5 m, said in whole metres. */
static void
test_far_off (void)
{
  static const struct
  {
    const char *x;
    double distance_m;
  } cases[] = { { "6000", 6000 }, { "4000", 0 }, { "-6000.4", 6000 } };
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *text = g_strdup_printf (
          "{'format': 'trunnion-plan', 'version': 1, 'keep_clear': 0.1, 'structures': [{'id': 'd',"
          " 'solid': {'kind': 'box', 'size': [1, 1, 1]}, 'at': {'position': [%s, 0, 0]}}],"
          " 'components': [{'id': 'u', 'solid': {'kind': 'box', 'size': [2, 2, 2]},"
          " 'at': {'position': [0, 0, 0]}}], 'programme': [{'lift': 'l', 'component': 'u',"
          " 'hook_point': [0, 0, 2], 'moves': [{'do': 'hoist', 'by': 1, 'seconds': 1}]}]}",
          cases[i].x);
      g_autoptr (TrnDiags) diags = trn_diags_new ();
      g_autoptr (TrnScene) scene = build (text, diags);
      g_assert_nonnull (scene);
      guint n = 0;
      for (guint k = 0; k < diags->items->len; k++)
        {
          const TrnDiag *diag = g_ptr_array_index (diags->items, k);
          if (g_strcmp0 (diag->code, "scene/far-off") != 0)
            continue;
          n++;
          g_assert_cmpstr (diag->pointer, ==, "/structures/0/at");
          g_assert_cmpfloat (trn_diag_get (diag, "distance")->number, ==, cases[i].distance_m);
        }
      g_assert_cmpuint (n, ==, cases[i].distance_m > 0);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/odd/cog", test_odd_cog);
  g_test_add_func ("/odd/numbers", test_odd_numbers);
  g_test_add_func ("/odd/gear", test_odd_gear);
  g_test_add_func ("/odd/mat", test_odd_mat);
  g_test_add_func ("/odd/far-off", test_far_off);
  return g_test_run ();
}
