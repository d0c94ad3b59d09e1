/* Even shares. With the columns as the matrix A the factors are Aᵀ (A Aᵀ)⁺ target, the solution of
 * least squares and least norm (Moore and Penrose). A Aᵀ is 3 × 3 and symmetric: its eigenvectors
 * come from Jacobi's rotations, and directions in which the columns have no extent are left out.
 * Squaring A doubles the digits lost, so the remainder is solved for twice more.
 *
 * One way. The least ½ Σ f² with A f = target and f >= 0 has as its dual the least
 * E(p) = ½ Σ max(0, a_i·p)² − target·p over p in three dimensions, with f_i = max(0, a_i·p). E is
 * convex, its gradient continuous and linear between the planes a_i·p = 0. Newton's step from the
 * columns that act, shortened to the least along its line where it goes too far, ends after
 * finitely many steps (Sun 1997, on piecewise quadratic functions). Then the even shares of the
 * columns that act are the answer, to full precision. Where E has no least there is no way.
 *
 * Greatest. The factors that meet the target make a bounded polyhedron, over which one factor is
 * greatest at a vertex. At a vertex the columns that act are independent, three at most: every
 * choice of one, two and three is tried. */
#include "balance.h"

#include <string.h>

#define SINGULAR 1e-13
#define MET 1e-9

/* Eigenvalues of the symmetric @m on its diagonal and eigenvectors in the columns of @v. */
static void
diagonalise (double m[3][3], double v[3][3])
{
  static const int pairs[3][2] = { { 0, 1 }, { 0, 2 }, { 1, 2 } };
  for (int i = 0; i < 3; i++)
    for (int j = 0; j < 3; j++)
      v[i][j] = i == j;
  for (int sweep = 0; sweep < 12; sweep++)
    for (int k = 0; k < 3; k++)
      {
        const int p = pairs[k][0], q = pairs[k][1];
        if (m[p][q] == 0)
          continue;
        double theta = (m[q][q] - m[p][p]) / (2 * m[p][q]);
        double t = copysign (1, theta) / (fabs (theta) + sqrt (theta * theta + 1));
        if (!isfinite (theta))
          t = 0;
        double c = 1 / sqrt (t * t + 1), s = t * c;
        for (int i = 0; i < 3; i++)
          {
            double a = m[i][p], b = m[i][q];
            m[i][p] = c * a - s * b;
            m[i][q] = s * a + c * b;
            double e = v[i][p], f = v[i][q];
            v[i][p] = c * e - s * f;
            v[i][q] = s * e + c * f;
          }
        for (int i = 0; i < 3; i++)
          {
            double a = m[p][i], b = m[q][i];
            m[p][i] = c * a - s * b;
            m[q][i] = s * a + c * b;
          }
      }
}

/* A Aᵀ of the columns that act, taken apart. */
typedef struct
{
  double value[3], vector[3][3], greatest;
} Span;

static Span
span_make (const TrnVec3 *columns, guint n, const gboolean *acts)
{
  double m[3][3] = { { 0 } };
  for (guint k = 0; k < n; k++)
    {
      if (!acts[k])
        continue;
      const double a[3] = { columns[k].x, columns[k].y, columns[k].z };
      for (int i = 0; i < 3; i++)
        for (int j = 0; j < 3; j++)
          m[i][j] += a[i] * a[j];
    }
  Span span = { .greatest = 0 };
  diagonalise (m, span.vector);
  for (int i = 0; i < 3; i++)
    {
      span.value[i] = m[i][i];
      span.greatest = fmax (span.greatest, m[i][i]);
    }
  return span;
}

/* (A Aᵀ)⁺ b. With @beyond > 0 directions without extent count with that share of the greatest
 * eigenvalue instead of not at all. */
static TrnVec3
span_solve (const Span *span, TrnVec3 b, double beyond)
{
  TrnVec3 x = { 0, 0, 0 };
  for (int i = 0; i < 3; i++)
    {
      TrnVec3 e = { span->vector[0][i], span->vector[1][i], span->vector[2][i] };
      double value = span->value[i];
      if (value <= SINGULAR * span->greatest)
        value = beyond * (span->greatest > 0 ? span->greatest : 1);
      if (value > 0)
        x = trn_vec3_add_scaled (x, e, trn_vec3_dot (e, b) / value);
    }
  return x;
}

static TrnVec3
remainder_of (const TrnVec3 *columns, guint n, TrnVec3 target, const double *factors)
{
  for (guint i = 0; i < n; i++)
    target = trn_vec3_add_scaled (target, columns[i], -factors[i]);
  return target;
}

static double
even_of_acting (const TrnVec3 *columns, guint n, const gboolean *acts, TrnVec3 target,
                double *factors)
{
  Span span = span_make (columns, n, acts);
  memset (factors, 0, n * sizeof *factors);
  for (int pass = 0; pass < 3; pass++)
    {
      TrnVec3 p = span_solve (&span, remainder_of (columns, n, target, factors), 0);
      for (guint i = 0; i < n; i++)
        if (acts[i])
          factors[i] += trn_vec3_dot (columns[i], p);
    }
  return trn_vec3_length (remainder_of (columns, n, target, factors));
}

double
trn_balance_even (const TrnVec3 *columns, guint n, TrnVec3 target, double *factors)
{
  gboolean acts[TRN_BALANCE_MAX];
  g_assert (n <= TRN_BALANCE_MAX);
  for (guint i = 0; i < n; i++)
    acts[i] = TRUE;
  return even_of_acting (columns, n, acts, target, factors);
}

/* dE/dt at p + t d */
static double
slope_at (const TrnVec3 *columns, guint n, TrnVec3 target, TrnVec3 p, TrnVec3 d, double t)
{
  TrnVec3 at = trn_vec3_add_scaled (p, d, t);
  double slope = -trn_vec3_dot (target, d);
  for (guint i = 0; i < n; i++)
    slope += fmax (0, trn_vec3_dot (columns[i], at)) * trn_vec3_dot (columns[i], d);
  return slope;
}

/* Where along d E is least: 1 where the whole step still goes down. */
static double
step_along (const TrnVec3 *columns, guint n, TrnVec3 target, TrnVec3 p, TrnVec3 d)
{
  if (slope_at (columns, n, target, p, d, 1) <= 0)
    return 1;
  double lo = 0, hi = 1;
  for (int i = 0; i < 60; i++)
    {
      double middle = 0.5 * (lo + hi);
      if (slope_at (columns, n, target, p, d, middle) <= 0)
        lo = middle;
      else
        hi = middle;
    }
  return hi;
}

/* Whether the columns that act at p meet the target evenly with no factor below 0. */
static gboolean
finish (const TrnVec3 *columns, guint n, const gboolean *acts, TrnVec3 target, double *factors)
{
  double size = trn_vec3_length (target);
  double largest = 0;
  if (even_of_acting (columns, n, acts, target, factors) > MET * size)
    return FALSE;
  for (guint i = 0; i < n; i++)
    largest = fmax (largest, fabs (factors[i]));
  for (guint i = 0; i < n; i++)
    {
      if (factors[i] < -1e-12 * largest)
        return FALSE;
      factors[i] = fmax (0, factors[i]);
    }
  return TRUE;
}

gboolean
trn_balance_one_way (const TrnVec3 *columns, guint n, TrnVec3 target, double *factors)
{
  gboolean acts[TRN_BALANCE_MAX];
  g_assert (n <= TRN_BALANCE_MAX);
  for (guint i = 0; i < n; i++)
    acts[i] = TRUE;
  if (finish (columns, n, acts, target, factors))
    return TRUE;
  Span span = span_make (columns, n, acts);
  TrnVec3 p = span_solve (&span, target, 0);
  for (int step = 0; step < 200; step++)
    {
      TrnVec3 down = target; /* minus the gradient of E */
      for (guint i = 0; i < n; i++)
        {
          double f = trn_vec3_dot (columns[i], p);
          acts[i] = f > 0;
          down = trn_vec3_add_scaled (down, columns[i], -fmax (0, f));
        }
      if (trn_vec3_length (down) <= 1e-6 * trn_vec3_length (target)
          && finish (columns, n, acts, target, factors))
        return TRUE;
      span = span_make (columns, n, acts);
      TrnVec3 d = span_solve (&span, down, 1e-6);
      p = trn_vec3_add_scaled (p, d, step_along (columns, n, target, p, d));
    }
  for (guint i = 0; i < n; i++)
    factors[i] = NAN;
  return FALSE;
}

/* Takes what the columns of @acts make of it into @greatest. */
static gboolean
try_vertex (const TrnVec3 *columns, guint n, const gboolean *acts, TrnVec3 target, double *greatest)
{
  double factors[TRN_BALANCE_MAX], size = trn_vec3_length (target);
  if (even_of_acting (columns, n, acts, target, factors) > MET * size)
    return FALSE;
  for (guint i = 0; i < n; i++)
    if (factors[i] * trn_vec3_length (columns[i]) < -MET * size)
      return FALSE;
  for (guint i = 0; i < n; i++)
    greatest[i] = fmax (greatest[i], factors[i]);
  return TRUE;
}

gboolean
trn_balance_greatest (const TrnVec3 *columns, guint n, TrnVec3 target, double *greatest)
{
  gboolean acts[TRN_BALANCE_MAX] = { FALSE }, is_found = FALSE;
  g_assert (n <= TRN_BALANCE_MAX);
  memset (greatest, 0, n * sizeof *greatest);
  for (guint i = 0; i < n; i++)
    for (guint j = i; j < n; j++)
      for (guint k = j; k < n; k++)
        {
          acts[i] = acts[j] = acts[k] = TRUE;
          is_found |= try_vertex (columns, n, acts, target, greatest);
          acts[i] = acts[j] = acts[k] = FALSE;
        }
  return is_found;
}
