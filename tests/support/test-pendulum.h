/* test-pendulum.h: the motion of what hangs, integrated by the classical method of Runge and Kutta
 * of fourth order; a pendulum below a tip, in all directions. */
#pragma once

#include <string.h>

#include "vec3.h"

#define TEST_MOST_STATES 6

/* @d gets the rates of the state @x at the time @t. */
typedef void (*TestRates) (gconstpointer data, double t, const double *x, double *d);

/* Takes the state @x of @n numbers from @t on by @dt. */
static inline void
test_runge_kutta (TestRates rates, gconstpointer data, double t, double dt, guint n, double *x)
{
  static const double parts[4] = { 0, 0.5, 0.5, 1 }, weights[4] = { 1, 2, 2, 1 };
  double at[TEST_MOST_STATES], d[TEST_MOST_STATES] = { 0 }, sum[TEST_MOST_STATES] = { 0 };
  g_assert (n <= TEST_MOST_STATES);
  for (guint k = 0; k < 4; k++)
    {
      for (guint i = 0; i < n; i++)
        at[i] = x[i] + parts[k] * dt * d[i];
      rates (data, t + parts[k] * dt, at, d);
      for (guint i = 0; i < n; i++)
        sum[i] += weights[k] * d[i];
    }
  for (guint i = 0; i < n; i++)
    x[i] += dt / 6 * sum[i];
}

/* The direction from tip to load, of unit length, and its rate. */
typedef struct
{
  TrnVec3 n, w;
} TestPendulum;
G_STATIC_ASSERT (sizeof (TestPendulum) == TEST_MOST_STATES * sizeof (double));

/* Its rates where @force pulls, by mass, and @drag of w is lost: n'' is what is square to n of
 * @share of the force, and what keeps n of that length. */
static inline void
test_pendulum_rates (const double *x, TrnVec3 force, double share, double drag, double *d)
{
  TestPendulum p, rates;
  memcpy (&p, x, sizeof p);
  const TrnVec3 square = trn_vec3_sub (force, trn_vec3_scale (p.n, trn_vec3_dot (force, p.n)));
  const TrnVec3 w = trn_vec3_sub (trn_vec3_scale (square, share), trn_vec3_scale (p.w, drag));
  rates.n = p.w;
  rates.w = trn_vec3_sub (w, trn_vec3_scale (p.n, trn_vec3_length_squared (p.w)));
  memcpy (d, &rates, sizeof rates);
}

static inline void
test_pendulum_step (TestRates rates, gconstpointer data, double t, double dt, TestPendulum *p)
{
  double x[TEST_MOST_STATES];
  memcpy (x, p, sizeof x);
  test_runge_kutta (rates, data, t, dt, TEST_MOST_STATES, x);
  memcpy (p, x, sizeof x);
  p->n = trn_vec3_unit (p->n);
  p->w = trn_vec3_sub (p->w, trn_vec3_scale (p->n, trn_vec3_dot (p->n, p->w)));
}
