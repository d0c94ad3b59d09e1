/* Certified extremes of functions whose extremes are known by hand, and of random waves against
 * dense samples. */
#include "extreme.h"

#include "test-motions.h"
#include "test-scale.h"

static const TrnInterval whole = { 0, 1 };

static void
assert_extreme (TrnInterval found, double truth, double width)
{
  g_assert_cmpfloat (found.lo, <=, truth);
  g_assert_cmpfloat (found.hi, >=, truth);
  g_assert_cmpfloat (found.hi - found.lo, <=, width * (1 + 1e-9));
}

/* k0 + k1 s + k2 s² */
static gboolean
parabola (gconstpointer data, TrnInterval s, TrnJet *value)
{
  const double *k = data;
  TrnJet t = trn_jet_variable (s);
  *value = trn_jet_shift (
      trn_jet_add (trn_jet_scale (t, k[1]), trn_jet_scale (trn_jet_square (t), k[2])), k[0]);
  return TRUE;
}

/* (s − 0.3)² + 5: 5 within, 5.49 at the end; turned over the other way round. */
static void
test_interior (void)
{
  const double up[3] = { 5.09, -0.6, 1 }, down[3] = { -5.09, 0.6, -1 };
  TrnExtremes e = trn_extremes_find (parabola, up, whole, 1e-9);
  g_assert_true (e.complete && isnan (e.missing_s));
  assert_extreme (e.least, 5, 1e-9);
  assert_extreme (e.greatest, 5.49, 1e-9);
  g_assert_cmpfloat (fabs (e.least_s - 0.3), <, 1e-4);
  g_assert_cmpfloat (e.greatest_s, ==, 1);
  e = trn_extremes_find (parabola, down, whole, 1e-9);
  assert_extreme (e.greatest, -5, 1e-9);
  assert_extreme (e.least, -5.49, 1e-9);
  g_assert_cmpfloat (e.least_s, ==, 1);
}

/* A straight line has its extremes at the ends, exactly, whatever width is asked for. */
static void
test_ends (void)
{
  const double line[3] = { 2, -8, 0 };
  TrnExtremes e = trn_extremes_find (parabola, line, (TrnInterval){ 0.25, 0.75 }, 1e-3);
  g_assert_true (e.complete);
  assert_extreme (e.least, -4, 1e-14);
  assert_extreme (e.greatest, 0, 1e-14);
  g_assert_true (e.least_s == 0.75 && e.greatest_s == 0.25);
}

static void
test_constant (void)
{
  const double k[3] = { 7, 0, 0 };
  TrnExtremes e = trn_extremes_find (parabola, k, whole, 1e-6);
  g_assert_true (e.complete);
  assert_extreme (e.least, 7, 1e-14);
  assert_extreme (e.greatest, 7, 1e-14);
  /* One moment only. */
  const double up[3] = { 5.09, -0.6, 1 };
  e = trn_extremes_find (parabola, up, trn_interval_point (0.5), 1e-6);
  g_assert_true (e.complete && e.least_s == 0.5 && e.greatest_s == 0.5);
  assert_extreme (e.least, 5.04, 1e-14);
  assert_extreme (e.greatest, 5.04, 1e-14);
}

/* |s − *data|, by its square: it has no derivative at 0. */
static gboolean
distance (gconstpointer data, TrnInterval s, TrnJet *value)
{
  const double *from = data;
  TrnJet zero = trn_jet_constant (0);
  *value = trn_jet_hypot (trn_jet_shift (trn_jet_variable (s), -*from), zero);
  return TRUE;
}

static void
test_no_derivative (void)
{
  const double from = 0.4;
  TrnExtremes e = trn_extremes_find (distance, &from, whole, 1e-6);
  g_assert_true (e.complete);
  assert_extreme (e.least, 0, 1e-6);
  assert_extreme (e.greatest, 0.6, 1e-6);
}

/* √(*data − s) */
static gboolean
root (gconstpointer data, TrnInterval s, TrnJet *value)
{
  const double *end = data;
  *value = trn_jet_sqrt (trn_jet_shift (trn_jet_neg (trn_jet_variable (s)), *end));
  return trn_jet_is_value (value);
}

/* No value beyond s = 0.7: nothing is proven about the extremes, and it is told where. */
static void
test_missing (void)
{
  double end = 0.7;
  TrnExtremes e = trn_extremes_find (root, &end, whole, 1e-6);
  g_assert_false (e.complete);
  g_assert_cmpfloat (e.missing_s, >, 0.7);
  g_assert_cmpfloat (e.missing_s, <=, 0.75);
  g_assert_true (isinf (e.least.lo) && isinf (e.greatest.hi));
  g_assert_cmpfloat (e.greatest.lo, <=, sqrt (0.7));
  /* It ends just after the last moment, with a slope of some 10⁴. */
  end = 1 + 1e-9;
  e = trn_extremes_find (root, &end, whole, 1e-4);
  g_assert_true (e.complete);
  assert_extreme (e.greatest, sqrt (end), 1e-4);
  end = -1;
  e = trn_extremes_find (root, &end, whole, 1e-6);
  g_assert_true (!e.complete && e.missing_s == 0 && isnan (e.least_s) && isinf (e.least.hi));
}

/* No value from 0.5 to 0.5 + 10⁻⁶, between all first steps: only spans that hold it say so. */
static gboolean
gap (gconstpointer data, TrnInterval s, TrnJet *value)
{
  *value = trn_jet_variable (s);
  return s.hi < 0.51 || s.lo > 0.510001;
}

static void
test_gap (void)
{
  TrnExtremes e = trn_extremes_find (gap, NULL, whole, 1e-3);
  g_assert_false (e.complete);
  g_assert_cmpfloat (fabs (e.missing_s - 0.51), <=, 2e-6);
}

/* Known only to ±1: no search can tell it to 10⁻³. It ends, unsure. */
static gboolean
vague (gconstpointer data, TrnInterval s, TrnJet *value)
{
  guint *calls = (guint *)data;
  *value = trn_jet_scale (trn_jet_variable (s), 3);
  value->v = (TrnInterval){ value->v.lo - 1, value->v.hi + 1 };
  value->d = value->dd = (TrnInterval){ -10, 10 };
  ++*calls;
  return TRUE;
}

static void
test_ends_somehow (void)
{
  guint calls = 0;
  TrnExtremes e = trn_extremes_find (vague, &calls, whole, 1e-3);
  g_assert_false (e.complete);
  g_assert_true (isnan (e.missing_s));
  g_assert_cmpuint (calls, <, 100000);
  g_assert_cmpfloat (e.least.lo, <=, 0);
  g_assert_cmpfloat (e.least.lo, >=, -1.2);
  g_assert_cmpfloat (e.greatest.hi, >=, 3);
}

/* a sin (w s + p) + b s, random. */
static gboolean
wave (gconstpointer data, TrnInterval s, TrnJet *value)
{
  const double *k = data;
  TrnJet t = trn_jet_variable (s), sine, cosine;
  trn_jet_sin_cos (trn_jet_shift (trn_jet_scale (t, k[1]), k[2]), &sine, &cosine);
  *value = trn_jet_add (trn_jet_scale (sine, k[0]), trn_jet_scale (t, k[3]));
  return TRUE;
}

static void
test_random (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (91);
  for (guint i = 0; i < test_scaled (200); i++)
    {
      double k[4] = { test_between (rand, -20, 20), test_between (rand, -30, 30),
                      test_between (rand, -4, 4), test_between (rand, -50, 50) };
      double width = pow (10, test_between (rand, -7, -1)), least = INFINITY, greatest = -INFINITY;
      TrnExtremes e = trn_extremes_find (wave, k, whole, width);
      g_assert_true (e.complete);
      for (guint j = 0; j <= 2000; j++)
        {
          double f = k[0] * sin (k[1] * j / 2000 + k[2]) + k[3] * j / 2000;
          least = fmin (least, f);
          greatest = fmax (greatest, f);
        }
      /* Between samples it goes no farther than f″ h²/8. */
      double play = 20 * 30 * 30 / (8.0 * 2000 * 2000) + 1e-12;
      g_assert_true (e.least.lo <= least + 1e-12 && e.least.lo >= least - play - width);
      g_assert_true (e.greatest.hi >= greatest - 1e-12);
      g_assert_true (e.greatest.hi <= greatest + play + width);
      g_assert_true (e.least.hi - e.least.lo <= width + 1e-12);
      g_assert_true (e.greatest.hi - e.greatest.lo <= width + 1e-12);
      double at = k[0] * sin (k[1] * e.least_s + k[2]) + k[3] * e.least_s;
      g_assert_cmpfloat (fabs (at - e.least.hi), <=, 1e-12);
    }
}

/* Of several waves one after another: the least and the greatest of all of them, where the one that
 * has it has it, and no wider than asked for. */
static void
test_beyond (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (92);
  for (guint i = 0; i < test_scaled (100); i++)
    {
      double k[5][4], width = pow (10, test_between (rand, -6, -2));
      double least = INFINITY, greatest = -INFINITY;
      TrnExtremes all;
      for (guint q = 0; q < 5; q++)
        {
          for (guint j = 0; j < 4; j++)
            k[q][j] = test_between (rand, -5, 5);
          TrnExtremes one = trn_extremes_find (wave, k[q], whole, width);
          all = q == 0 ? one : trn_extremes_find_beyond (wave, k[q], whole, width, &all);
          g_assert_true (all.complete);
          least = fmin (least, one.least.hi);
          greatest = fmax (greatest, one.greatest.lo);
        }
      g_assert_cmpfloat (all.least.lo, <=, least);
      g_assert_cmpfloat (all.least.hi, <=, least + width);
      g_assert_cmpfloat (all.greatest.hi, >=, greatest);
      g_assert_cmpfloat (all.greatest.lo, >=, greatest - width);
      g_assert_cmpfloat (trn_interval_width (all.least), <=, width + 1e-12);
      g_assert_cmpfloat (trn_interval_width (all.greatest), <=, width + 1e-12);
      gboolean attained = FALSE;
      for (guint q = 0; q < 5; q++)
        attained = attained
                   || fabs (k[q][0] * sin (k[q][1] * all.least_s + k[q][2]) + k[q][3] * all.least_s
                            - all.least.hi)
                          <= 1e-12;
      g_assert_true (attained);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/motion/extreme/interior", test_interior);
  g_test_add_func ("/motion/extreme/ends", test_ends);
  g_test_add_func ("/motion/extreme/constant", test_constant);
  g_test_add_func ("/motion/extreme/no-derivative", test_no_derivative);
  g_test_add_func ("/motion/extreme/missing", test_missing);
  g_test_add_func ("/motion/extreme/gap", test_gap);
  g_test_add_func ("/motion/extreme/ends-somehow", test_ends_somehow);
  g_test_add_func ("/motion/extreme/random", test_random);
  g_test_add_func ("/motion/extreme/beyond", test_beyond);
  return g_test_run ();
}
