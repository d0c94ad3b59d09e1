/* vec3.h: points and vectors in double precision, by value. */
#pragma once

#include <glib.h>
#include <math.h>

typedef struct
{
  double x, y, z;
} TrnVec3;

static inline TrnVec3
trn_vec3_make (double x, double y, double z)
{
  return (TrnVec3){ x, y, z };
}

static inline TrnVec3
trn_vec3_add (TrnVec3 a, TrnVec3 b)
{
  return (TrnVec3){ a.x + b.x, a.y + b.y, a.z + b.z };
}

static inline TrnVec3
trn_vec3_sub (TrnVec3 a, TrnVec3 b)
{
  return (TrnVec3){ a.x - b.x, a.y - b.y, a.z - b.z };
}

static inline TrnVec3
trn_vec3_scale (TrnVec3 a, double k)
{
  return (TrnVec3){ a.x * k, a.y * k, a.z * k };
}

/* a + k b */
static inline TrnVec3
trn_vec3_add_scaled (TrnVec3 a, TrnVec3 b, double k)
{
  return (TrnVec3){ a.x + k * b.x, a.y + k * b.y, a.z + k * b.z };
}

/* (1 − t) a + t b, exact at both ends */
static inline TrnVec3
trn_vec3_mix (TrnVec3 a, TrnVec3 b, double t)
{
  return trn_vec3_add (trn_vec3_scale (a, 1 - t), trn_vec3_scale (b, t));
}

static inline double
trn_vec3_dot (TrnVec3 a, TrnVec3 b)
{
  return a.x * b.x + a.y * b.y + a.z * b.z;
}

static inline TrnVec3
trn_vec3_cross (TrnVec3 a, TrnVec3 b)
{
  return (TrnVec3){ a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x };
}

static inline double
trn_vec3_length_squared (TrnVec3 a)
{
  return trn_vec3_dot (a, a);
}

static inline double
trn_vec3_length (TrnVec3 a)
{
  return sqrt (trn_vec3_dot (a, a));
}

static inline double
trn_vec3_distance (TrnVec3 a, TrnVec3 b)
{
  return trn_vec3_length (trn_vec3_sub (a, b));
}

/* The unit vector along @a. @a must not be zero. */
static inline TrnVec3
trn_vec3_unit (TrnVec3 a)
{
  return trn_vec3_scale (a, 1 / trn_vec3_length (a));
}

static inline gboolean
trn_vec3_is_finite (TrnVec3 a)
{
  return isfinite (a.x) && isfinite (a.y) && isfinite (a.z);
}

/* The greatest absolute coordinate: the size that a rounding term needs. */
static inline double
trn_vec3_max_abs (TrnVec3 a)
{
  return fmax (fabs (a.x), fmax (fabs (a.y), fabs (a.z)));
}

/* A vector of length 1 square to @a, which is of length 1 too. */
static inline TrnVec3
trn_vec3_square_to (TrnVec3 a)
{
  const TrnVec3 other = fabs (a.x) < 0.6 ? trn_vec3_make (1, 0, 0) : trn_vec3_make (0, 1, 0);
  return trn_vec3_unit (trn_vec3_cross (other, a));
}

/* Along axis 0 (x), 1 (y) or 2 (z). */
static inline double
trn_vec3_along (TrnVec3 a, guint axis)
{
  return axis == 0 ? a.x : axis == 1 ? a.y : a.z;
}
