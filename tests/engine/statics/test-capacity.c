/* Rated capacity at a radius and over a span of radii, and the hook load. */
#include <math.h>

#include "capacity.h"
#include "gravity.h"
#include "hook-load.h"

static const TrnCapacityRow rows[] = { { 6, 100e3 }, { 8, 70e3 },  { 10, 72e3 }, { 10, 73e3 },
                                       { 14, 30e3 }, { 14, 28e3 }, { 20, 15e3 } };

static double
at (double radius_m)
{
  return trn_capacity_at_kg (rows, G_N_ELEMENTS (rows), radius_m);
}

/* At a row its own value; between rows the smaller neighbour, also where the table rises; of two
 * rows at one radius the smaller; nothing beyond the ends. */
static void
test_at (void)
{
  g_assert_cmpfloat (at (6), ==, 100e3);
  g_assert_cmpfloat (at (6.001), ==, 70e3);
  g_assert_cmpfloat (at (8), ==, 70e3);
  g_assert_cmpfloat (at (9), ==, 70e3);
  g_assert_cmpfloat (at (10), ==, 72e3);
  g_assert_cmpfloat (at (14), ==, 28e3);
  g_assert_cmpfloat (at (15), ==, 15e3);
  g_assert_cmpfloat (at (20), ==, 15e3);
  g_assert_true (isnan (at (5.999)));
  g_assert_true (isnan (at (20.001)));
  g_assert_true (isnan (at (NAN)));
  g_assert_true (isnan (trn_capacity_at_kg (NULL, 0, 6)));
}

/* The least over a span is that of dense samples of it, and never above any. */
static void
test_over (void)
{
  for (double lo = 6; lo <= 20; lo += 0.5)
    for (double hi = lo; hi <= 20; hi += 0.5)
      {
        double least = INFINITY;
        for (int k = 0; k <= 400; k++)
          least = fmin (least, at (fmin (hi, lo + (hi - lo) * k / 400)));
        for (double r = lo; r <= hi; r += 0.5)
          least = fmin (least, at (r));
        g_assert_cmpfloat (
            trn_capacity_over_kg (rows, G_N_ELEMENTS (rows), (TrnInterval){ lo, hi }), ==, least);
      }
  g_assert_true (isnan (trn_capacity_over_kg (rows, G_N_ELEMENTS (rows), (TrnInterval){ 5, 10 })));
  g_assert_true (isnan (trn_capacity_over_kg (rows, G_N_ELEMENTS (rows), (TrnInterval){ 10, 21 })));
}

/* 40 t with 3 % on it, and 3.35 t of rigging; dynamic factor 1.1. What is not known is not 0. */
static void
test_hook_load (void)
{
  TrnHookLoad load = { .load_kg = 40e3,
                       .factor = 1.03,
                       .block_kg = 1200,
                       .beam_kg = 1500,
                       .slings_kg = 350,
                       .shackles_kg = 100,
                       .rope_kg = 200,
                       .dynamic = 1.1 };
  g_assert_cmpfloat_with_epsilon (trn_hook_load_static_kg (&load), 44550, 1e-9);
  g_assert_cmpfloat_with_epsilon (trn_hook_load_dynamic_n (&load), 44550 * 1.1 * TRN_GRAVITY_M_S2,
                                  1e-6);
  load.beam_kg = NAN;
  g_assert_true (isnan (trn_hook_load_static_kg (&load)));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/capacity/at", test_at);
  g_test_add_func ("/capacity/over", test_over);
  g_test_add_func ("/capacity/hook-load", test_hook_load);
  return g_test_run ();
}
