/* affine.h: maps of points, as the rows of a matrix and a shift; file_from_local. */
#pragma once

#include <glib.h>
#include <math.h>

typedef struct
{
  double a[3][3], t[3];
} TrnAffine;

#define TRN_AFFINE_IDENTITY                                                                        \
  {                                                                                                \
    { { 1, 0, 0 }, { 0, 1, 0 }, { 0, 0, 1 } },                                                     \
    {                                                                                              \
      0, 0, 0                                                                                      \
    }                                                                                              \
  }

static inline void
trn_affine_apply (const TrnAffine *map, const double p[3], double out[3])
{
  for (int i = 0; i < 3; i++)
    out[i] = map->a[i][0] * p[0] + map->a[i][1] * p[1] + map->a[i][2] * p[2] + map->t[i];
}

/* outer ∘ inner */
static inline TrnAffine
trn_affine_compose (const TrnAffine *outer, const TrnAffine *inner)
{
  TrnAffine map;
  for (int i = 0; i < 3; i++)
    for (int j = 0; j < 3; j++)
      map.a[i][j] = outer->a[i][0] * inner->a[0][j] + outer->a[i][1] * inner->a[1][j]
                    + outer->a[i][2] * inner->a[2][j];
  trn_affine_apply (outer, inner->t, map.t);
  return map;
}

static inline double
trn_affine_determinant (const TrnAffine *map)
{
  const double (*a)[3] = map->a;
  return a[0][0] * (a[1][1] * a[2][2] - a[1][2] * a[2][1])
         - a[0][1] * (a[1][0] * a[2][2] - a[1][2] * a[2][0])
         + a[0][2] * (a[1][0] * a[2][1] - a[1][1] * a[2][0]);
}

static inline gboolean
trn_affine_is_finite (const TrnAffine *map)
{
  double sum = 0;
  for (int i = 0; i < 3; i++)
    sum += fabs (map->t[i]) + fabs (map->a[i][0]) + fabs (map->a[i][1]) + fabs (map->a[i][2]);
  return isfinite (sum);
}

/* A turn about axis 0, 1 or 2, counter-clockwise seen against it. Whole quarter turns are exact. */
static inline TrnAffine
trn_affine_turn (int axis, double degrees)
{
  TrnAffine map = TRN_AFFINE_IDENTITY;
  double quarters = degrees / 90, c, s;
  if (quarters == floor (quarters) && fabs (quarters) < 1e9)
    {
      static const double cosines[] = { 1, 0, -1, 0 };
      int k = (int)((((gint64)quarters % 4) + 4) % 4);
      c = cosines[k];
      s = cosines[(k + 3) % 4];
    }
  else
    {
      c = cos (degrees * (G_PI / 180));
      s = sin (degrees * (G_PI / 180));
    }
  int i = (axis + 1) % 3, j = (axis + 2) % 3;
  map.a[i][i] = map.a[j][j] = c;
  map.a[i][j] = -s;
  map.a[j][i] = s;
  return map;
}
