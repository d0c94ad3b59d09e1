/* Mats as the check of a plan judges them, against the published formulas: Duerr, Effective bearing
 * length of crane mats, 2010: A = (P + Wm)/qa, L = A/B, Lc = (L − C)/2, q = P/(L B), M = q B Lc²/2.
 * 500 kN on a mat of 15 kN, 1.2 m wide, foot 0.9 m, ground 150 kPa: L = 2.861111 m, M = 84.014
 * kN m. Here that is each leg of a gantry with a load of 1250 kg times 1.2 plumb in its middle. */
#include <string.h>

#include "ground-check.h"
#include "ground.h"
#include "test-force.h"

#define LOAD_N 500e3
#define MAT_N 15e3
#define NEEDED_M (515.0 / 150 / 1.2)

/* A leg at @at with @below, "[x, y]" and what is below it. */
static void
add_leg (GString *text, const char *at, const char *below)
{
  g_string_append_printf (text, "%s{'at': %s, 'size': [0.5, 0.4], 'height': 20%s}",
                          text->len > 0 ? ", " : "", at, below);
}

/* @below: of each leg; @others: of all but the first. */
static char *
tower_text (const char *below, const char *others)
{
  g_autoptr (GString) legs = g_string_new (NULL);
  add_leg (legs, "[-4, -5]", below);
  add_leg (legs, "[4, -5]", others);
  add_leg (legs, "[-4, 5]", others);
  add_leg (legs, "[4, 5]", others);
  return g_strdup_printf (
      "{'id': 'tower', 'kind': 'gantry', 'at': {'position': [10, 0, 0.2]}, 'mass': %.17g, 'legs':"
      " [%s], 'trolley': {'size': [1, 1, 0.6], 'underside': 21}, 'capacity': {'mass': 2000},"
      " 'ground': {'allowed_pressure': 150000, 'source': 'soil test'}}",
      4 * LOAD_N / G - 1500, legs->str);
}

static TestRun
run_tower (const char *below, const char *others)
{
  g_autofree char *gear = tower_text (below, others);
  const TestGear t = { .gear = gear,
                       .structures = FORCE_SLAB,
                       .more = FORCE_LOADS,
                       .rigging = FORCE_RIGGING ("tower"),
                       .moves = "{'do': 'wait', 'seconds': 60}" };
  return test_gear_run (&t);
}

#define STRONG "1e6"

/* @moments: what it bears, along and across; NULL: the plan does not say. */
static char *
mat_text (const char *size, const char *moments, const char *pad)
{
  return g_strdup_printf (", 'mat': {'size': %s, 'mass': %.17g%s%s}%s", size, MAT_N / G,
                          moments != NULL ? ", 'source': 'maker', 'moment': " : "",
                          moments != NULL ? moments : "", pad);
}

#define ACROSS(along, across) along ", 'moment_across': " across

static const TrnFinding *
ground_of (const TestRun *run)
{
  return test_force (run, TRN_CHECK_GROUND, "tower", NULL);
}

static gboolean
has_number (const TrnFinding *f, const char *what)
{
  for (guint i = 0; f->numbers != NULL && i < f->numbers->len; i++)
    if (strcmp (g_array_index (f->numbers, TrnFindingNumber, i).what, what) == 0)
      return TRUE;
  return FALSE;
}

/* One that bears the published moment bears the published length, and one that bears a little less
 * does not; of a strong one all of it bears; along either axis. As wide as its foot it is not bent
 * across. */
static void
test_published (void)
{
  static const struct
  {
    const char *size, *moment, *pad;
    double length_m;
    gboolean passes;
  } cases[] = { { "[3.5, 1.2, 0.2]", "84020", ", 'pad': [0.9, 1.2]", NEEDED_M, TRUE },
                { "[1.2, 3.5, 0.2]", "84020", ", 'pad': [1.2, 0.9]", NEEDED_M, TRUE },
                { "[3.5, 1.2, 0.2]", "84000", ", 'pad': [0.9, 1.2]", NEEDED_M, FALSE },
                { "[3, 1.2, 0.2]", STRONG, ", 'pad': [0.9, 1.2]", 3, TRUE },
                { "[1.2, 3, 0.2]", STRONG, ", 'pad': [1.2, 0.9]", 3, TRUE },
                { "[2.86, 1.2, 0.2]", STRONG, ", 'pad': [0.9, 1.2]", 2.86, FALSE } };
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *below = mat_text (cases[i].size, cases[i].moment, cases[i].pad);
      TestRun run = run_tower (below, below);
      const TrnFinding *f = ground_of (&run);
      if (cases[i].passes)
        TEST_PASSES (f, TRN_STATE_WITHIN);
      else
        TEST_FAILS (f, TRN_STATE_OUTSIDE);
      test_assert_force (test_number (f, "support-1"), LOAD_N);
      const double length_m = test_number (f, TRN_GROUND_MAT_LENGTH);
      g_assert_cmpfloat_with_epsilon (length_m, cases[i].length_m, 2e-3);
      test_assert_force (f->value, (LOAD_N + MAT_N) / (1.2 * length_m));
      /* What is told of it is what bends it with the pressure that is told. */
      const TrnMat mat = trn_ground_mat (LOAD_N, MAT_N, f->value, 1.2, 0.9);
      g_assert_cmpfloat_with_epsilon (length_m, mat.bearing_length_m, 2e-3);
      g_assert_cmpfloat_with_epsilon (test_number (f, TRN_GROUND_MAT_MOMENT), mat.moment_nm, 200);
      g_assert_cmpfloat (test_number (f, TRN_GROUND_MAT_MOMENT), <=,
                         g_ascii_strtod (cases[i].moment, NULL) * (1 + 1e-9));
      g_assert_cmpfloat (test_number (f, TRN_GROUND_MAT_MOMENT_ACROSS), ==, 0);
      g_assert_cmpstr (f->source, ==, "soil test");
      /* Which of the two it lacks is told: strength, or size. */
      g_assert_cmpint (has_number (f, TRN_GROUND_MAT_LEAST_STRONG), ==, i == 2);
      test_run_clear (&run);
    }
}

/* What stands on it: a pad half as wide as the mat, which bears along already and is bent across by
 * P (B − C)/8, where it bears that; a leg without a pad, by its section of 0.5 m by 0.4 m. On the
 * ground itself that pad would press far too much, as does that of the one leg without a mat. */
static void
test_foot (void)
{
  g_autofree char *narrow
      = mat_text ("[3, 1.2, 0.2]", ACROSS (STRONG, "38000"), ", 'pad': [0.9, 0.6]");
  g_autofree char *weak
      = mat_text ("[3, 1.2, 0.2]", ACROSS (STRONG, "1000"), ", 'pad': [0.9, 0.6]");
  g_autofree char *bare = mat_text ("[3, 1.2, 0.2]", ACROSS (STRONG, STRONG), "");
  const char *pad = ", 'pad': [0.9, 0.6]";
  TestRun run = run_tower (narrow, narrow);
  const TrnFinding *f = ground_of (&run);
  TEST_PASSES (f, TRN_STATE_WITHIN);
  test_assert_force (test_number (f, TRN_GROUND_MAT_MOMENT_ACROSS), LOAD_N * 0.6 / 8);
  g_assert_cmpfloat (test_number (f, TRN_GROUND_MAT_WIDTH), ==, 1.2);
  test_run_clear (&run);

  run = run_tower (weak, weak);
  f = ground_of (&run);
  TEST_FAILS (f, TRN_STATE_OUTSIDE);
  const double width_m = test_number (f, TRN_GROUND_MAT_WIDTH);
  /* Below the pad, which is 0.9 m of its 3 m. */
  test_assert_between (LOAD_N / width_m * (width_m - 0.6) * (width_m - 0.6) / 8, 300, 1, 1);
  test_assert_force (f->value, (LOAD_N + MAT_N) / (3 * width_m));
  test_run_clear (&run);

  run = run_tower (bare, bare);
  f = ground_of (&run);
  TEST_PASSES (f, TRN_STATE_WITHIN);
  test_assert_force (test_number (f, TRN_GROUND_MAT_MOMENT), LOAD_N / 3 * 1.25 * 1.25 / 2);
  test_assert_force (test_number (f, TRN_GROUND_MAT_MOMENT_ACROSS), LOAD_N * 0.8 / 8);
  test_run_clear (&run);

  run = run_tower (pad, pad);
  TEST_FAILS (ground_of (&run), TRN_STATE_OUTSIDE);
  test_run_clear (&run);
  run = run_tower (pad, narrow);
  TEST_FAILS (ground_of (&run), TRN_STATE_OUTSIDE);
  test_assert_force (ground_of (&run)->value, LOAD_N / (0.9 * 0.6));
  test_run_clear (&run);
}

/* How far a part that bears @most_nm spreads LOAD_N beyond @foot_m, no farther than @mat_m: by
 * halving, with what bends it. */
static double
spread_m (double foot_m, double mat_m, double most_nm)
{
  double low_m = foot_m, high_m = mat_m;
  for (guint i = 0; i < 100; i++)
    {
      const double middle_m = 0.5 * (low_m + high_m), beyond_m = 0.5 * (middle_m - foot_m);
      *(LOAD_N / middle_m * beyond_m * beyond_m / 2 <= most_nm ? &low_m : &high_m) = middle_m;
    }
  return low_m;
}

/* A part that bears has no more than its share of the strength of the mat: spread along by the
 * width that bears, and across by the length of the pad; or across by the length that bears, and
 * along by the width of the pad; and the better of them counts. Where it is spread one way already,
 * P (L - C)/8 bends it in its middle: a beam of the length L on even ground below a load that is
 * even over C (statics). */
static void
test_share (void)
{
  static const struct
  {
    double length_m, width_m, foot_length_m, foot_width_m, along_nm, across_nm;
  } cases[] = { { 4, 2, 0.5, 0.5, 60e3, 0 },       { 4, 2, 0.5, 0.5, 0, 60e3 },
                { 4, 2, 0.5, 0.5, 60e3, 1e6 },     { 6, 2.4, 1, 1, 200e3, 200e3 },
                { 6, 2.4, 0.5, 0.5, 30e3, 30e3 },  { 3, 1.2, 0.5, 1, 40e3, 10e3 },
                { 3, 1.2, 1, 0.5, 10e3, 60e3 },    { 3, 3, 0.4, 0.8, 50e3, 20e3 },
                { 3, 1.2, 0.9, 1.2, 84.02e3, 500 } };
  for (guint i = 0; i < 2 * G_N_ELEMENTS (cases); i++)
    {
      const double x = cases[i / 2].length_m, y = cases[i / 2].width_m,
                   c = cases[i / 2].foot_length_m, d = cases[i / 2].foot_width_m,
                   m = cases[i / 2].along_nm, n = cases[i / 2].across_nm;
      const gboolean is_turned = i % 2 == 1 && x > y;
      const double b_1 = spread_m (d, y, n * c / x), l_1 = fmin (x, c + 8 * m * b_1 / (y * LOAD_N)),
                   l_2 = spread_m (c, x, m * d / y), b_2 = fmin (y, d + 8 * n * l_2 / (x * LOAD_N)),
                   area_m2 = fmax (l_1 * b_1, l_2 * b_2);
      g_autofree char *size
          = g_strdup_printf ("[%.17g, %.17g, 0.2]", is_turned ? y : x, is_turned ? x : y);
      g_autofree char *moments
          = g_strdup_printf ("%.17g, 'moment_across': %.17g", fmax (m, 1e-9), fmax (n, 1e-9));
      g_autofree char *pad
          = g_strdup_printf (", 'pad': [%.17g, %.17g]", is_turned ? d : c, is_turned ? c : d);
      g_autofree char *below = mat_text (size, moments, pad);
      TestRun run = run_tower (below, below);
      const TrnFinding *f = ground_of (&run);
      test_assert_force (test_number (f, "support-1"), LOAD_N);
      g_assert_cmpfloat_with_epsilon (f->value * area_m2 / (LOAD_N + MAT_N), 1, 1e-4);
      const double length_m = test_number (f, TRN_GROUND_MAT_LENGTH),
                   width_m = test_number (f, TRN_GROUND_MAT_WIDTH);
      g_assert_cmpfloat_with_epsilon (length_m * width_m, area_m2, 1e-4 * area_m2);
      g_assert_cmpfloat (test_number (f, TRN_GROUND_MAT_MOMENT), <=, m * width_m / y + 1e-3);
      g_assert_cmpfloat (test_number (f, TRN_GROUND_MAT_MOMENT_ACROSS), <=,
                         n * length_m / x + 1e-3);
      test_run_clear (&run);
    }
}

/* One that bears next to nothing across is the strip below its pad, with its share. */
static void
test_strip (void)
{
  g_autofree char *wide = mat_text ("[4, 2, 0.2]", ACROSS ("60000", "1e-9"), ", 'pad': [0.5, 0.5]");
  g_autofree char *strip = mat_text ("[4, 0.5, 0.2]", "15000", ", 'pad': [0.5, 0.5]");
  TestRun of_wide = run_tower (wide, wide), of_strip = run_tower (strip, strip);
  g_assert_cmpfloat_with_epsilon (test_number (ground_of (&of_wide), TRN_GROUND_MAT_LENGTH),
                                  test_number (ground_of (&of_strip), TRN_GROUND_MAT_LENGTH), 1e-5);
  g_assert_cmpfloat_with_epsilon (test_number (ground_of (&of_wide), TRN_GROUND_MAT_WIDTH), 0.5,
                                  1e-5);
  TEST_FAILS (ground_of (&of_wide), TRN_STATE_OUTSIDE);
  TEST_FAILS (ground_of (&of_strip), TRN_STATE_OUTSIDE);
  test_run_clear (&of_wide);
  test_run_clear (&of_strip);
}

/* What is told of a moment is what the check says of all of the move, in which nothing moves. */
static void
assert_at_moment (const TestRun *run, const TrnFinding *f)
{
  const TrnCheckOptions options = { .jobs = 1 };
  TrnLiftCheck check;
  TrnInterval pressure_pa;
  trn_lift_check_init (&check, run->scene, 0, &options);
  TrnGroundForce *force = trn_ground_force_new (&check, 0, 0);
  const gboolean is_known
      = trn_ground_force_pressure (force, trn_interval_point (0.5), &pressure_pa);
  g_assert_true (is_known == (f->verdict != TRN_VERDICT_UNKNOWN));
  if (is_known)
    g_assert_cmpfloat_with_epsilon (pressure_pa.hi, f->value, 1e-6 * f->value);
  trn_ground_force_free (force);
  trn_lift_check_clear (&check);
}

/* One as thin as a sheet spreads nothing: nobody knows what it bears, or it bears next to nothing,
 * along or across. Where what stands on it is large enough, or all of it is too small, that is no
 * matter. */
static void
test_thin (void)
{
  static const struct
  {
    const char *size, *moments, *pad, *missing;
    TrnVerdict verdict;
  } cases[] = {
    { "[3, 3, 0.001]", NULL, ", 'pad': [1, 1]", "mat/moment", TRN_VERDICT_UNKNOWN },
    { "[3, 3, 0.001]", STRONG, ", 'pad': [1, 1]", "mat/moment_across", TRN_VERDICT_UNKNOWN },
    { "[3, 3, 0.001]", ACROSS ("1", STRONG), ", 'pad': [1, 0.4]", NULL, TRN_VERDICT_FAIL },
    { "[3, 3, 0.001]", ACROSS (STRONG, "1"), ", 'pad': [1, 0.4]", NULL, TRN_VERDICT_FAIL },
    { "[3, 3, 0.001]", ACROSS ("1", "1"), ", 'pad': [1, 1]", NULL, TRN_VERDICT_FAIL },
    { "[3, 3, 0.2]", NULL, ", 'pad': [2, 1.8]", NULL, TRN_VERDICT_PASS },
    { "[1, 1, 0.2]", NULL, ", 'pad': [0.9, 0.6]", NULL, TRN_VERDICT_FAIL },
  };
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *below = mat_text (cases[i].size, cases[i].moments, cases[i].pad);
      TestRun run = run_tower (below, below);
      const TrnFinding *f = ground_of (&run);
      g_assert_cmpint (f->verdict, ==, cases[i].verdict);
      g_assert_cmpstr (f->missing, ==, cases[i].missing);
      assert_at_moment (&run, f);
      test_run_clear (&run);
    }
}

/* One that weighs nothing worth naming, as large as the pad, changes nothing. */
static void
test_as_pad (void)
{
  const char *mat = ", 'pad': [2, 1.8], 'mat': {'size': [2, 1.8, 0.1], 'mass': 1e-9}";
  TestRun with = run_tower (mat, mat);
  TestRun without = run_tower (", 'pad': [2, 1.8]", ", 'pad': [2, 1.8]");
  test_assert_between (ground_of (&with)->value, ground_of (&without)->value, 1e-6, 1e-3);
  g_assert_cmpint (ground_of (&with)->verdict, ==, ground_of (&without)->verdict);
  g_assert_cmpfloat (test_number (ground_of (&with), TRN_GROUND_MAT_MOMENT_ACROSS), ==, 0);
  test_run_clear (&with);
  test_run_clear (&without);
}

/* Without its mass, and where it lies below another support as well; beside it, it may touch. */
static void
test_missing (void)
{
  const char *light = ", 'mat': {'size': [3, 1.2, 0.2]}";
  g_autofree char *wide = mat_text ("[15.1, 1.2, 0.2]", NULL, "");
  g_autofree char *touching = mat_text ("[8, 1.2, 0.2]", ACROSS (STRONG, STRONG), "");
  TestRun run = run_tower (light, light);
  TEST_UNKNOWN (ground_of (&run), "mat/mass");
  test_run_clear (&run);
  run = run_tower (wide, ", 'pad': [1, 1]");
  TEST_UNKNOWN (ground_of (&run), "mat/apart");
  test_run_clear (&run);
  run = run_tower (touching, touching);
  TEST_PASSES (ground_of (&run), TRN_STATE_WITHIN);
  test_run_clear (&run);
  run = run_tower (light, "");
  TEST_UNKNOWN (ground_of (&run), "pad");
  test_run_clear (&run);
}

/* Tracks of 8 m by 1 m that bear 11 050 kg each, 18 000/22 100 m ahead of their middle, press with
 * p = P/8 (1 + 6 e/8) at most. Mats of 4 m across them, of 9000 kg below each over 9 m, spread that
 * to p/4, and weigh 250 kg a square metre, as long as 9 m of them bear 9 p (4 − 1)²/(8 · 4); less
 * strong ones bear over less of their length. A row 6.1 m wide would lie below the other track as
 * well. */
static char *
tracks_text (const char *size, const char *moment)
{
  return g_strdup_printf (
      "{'id': 'crane', 'kind': 'crane', 'at': {'position': [0, 0, 0]}, 'boom': {'foot': [0, 2],"
      " 'length': 20, 'section': [0.6, 0.8], 'angle': [30, 80], 'mass': 600}, 'mass': 10000,"
      " 'slewing': {'mass': 10000, 'out': 0}, 'supports': {'kind': 'tracks', 'at': [[0, -3], [0,"
      " 3]], 'pad': [8, 1], 'mat': {'size': %s, 'mass': 9000%s%s}}, 'ground': {'allowed_pressure':"
      " 9000, 'source': 'test'}}",
      size, moment != NULL ? ", 'source': 'maker', 'moment': " : "", moment != NULL ? moment : "");
}

static TestRun
run_tracks (const char *size, const char *moment)
{
  g_autofree char *gear = tracks_text (size, moment);
  const TestGear t = { .gear = gear,
                       .structures = FORCE_SLAB,
                       .more = FORCE_LOADS,
                       .rigging = FORCE_RIGGING ("crane"),
                       .moves = "{'do': 'wait', 'seconds': 60}" };
  return test_gear_run (&t);
}

static void
test_tracks (void)
{
  const double e = 18000 / 22100.0, track_pa = 11050 * G / 8 * (1 + 6 * e / 8);
  TestRun run = run_tracks ("[9, 4, 0.3]", STRONG);
  const TrnFinding *f = test_force (&run, TRN_CHECK_GROUND, "crane", NULL);
  TEST_PASSES (f, TRN_STATE_WITHIN);
  test_assert_force (f->value, track_pa / 4 + 250 * G);
  g_assert_cmpfloat (test_number (f, TRN_GROUND_MAT_LENGTH), ==, 4);
  test_assert_force (test_number (f, TRN_GROUND_MAT_MOMENT), 9 * track_pa * 9 / 32);
  g_assert_cmpfloat (test_number (f, TRN_GROUND_MAT_MOMENT_ACROSS), ==, 0);
  test_run_clear (&run);
  for (guint i = 0; i < 2; i++)
    {
      const double length_m = i == 0 ? 3.6 : 3.5,
                   moment_nm = 9 * track_pa * (length_m - 1) * (length_m - 1) / (8 * length_m);
      g_autofree char *moment = g_strdup_printf ("%.17g", moment_nm);
      run = run_tracks ("[9, 4, 0.3]", moment);
      f = test_force (&run, TRN_CHECK_GROUND, "crane", NULL);
      g_assert_cmpint (f->verdict, ==, i == 0 ? TRN_VERDICT_PASS : TRN_VERDICT_FAIL);
      g_assert_cmpfloat_with_epsilon (test_number (f, TRN_GROUND_MAT_LENGTH), length_m, 5e-3);
      test_assert_between (f->value, (track_pa + 1000 * G) / length_m, 1e-9 * track_pa, 10);
      test_run_clear (&run);
    }
  run = run_tracks ("[9, 3, 0.3]", STRONG);
  TEST_FAILS (test_force (&run, TRN_CHECK_GROUND, "crane", NULL), TRN_STATE_OUTSIDE);
  test_run_clear (&run);
  run = run_tracks ("[9, 4, 0.3]", NULL);
  TEST_UNKNOWN (test_force (&run, TRN_CHECK_GROUND, "crane", NULL), "mat/moment");
  test_run_clear (&run);
  run = run_tracks ("[9, 6.1, 0.3]", STRONG);
  TEST_UNKNOWN (test_force (&run, TRN_CHECK_GROUND, "crane", NULL), "mat/apart");
  test_run_clear (&run);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/mats/published", test_published);
  g_test_add_func ("/mats/foot", test_foot);
  g_test_add_func ("/mats/share", test_share);
  g_test_add_func ("/mats/strip", test_strip);
  g_test_add_func ("/mats/thin", test_thin);
  g_test_add_func ("/mats/as-pad", test_as_pad);
  g_test_add_func ("/mats/missing", test_missing);
  g_test_add_func ("/mats/tracks", test_tracks);
  return g_test_run ();
}
