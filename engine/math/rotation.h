/* rotation.h: rotations as 3 × 3 matrices, column vectors, right-handed, angles in radians. */
#pragma once

#include "vec3.h"

/* m[row][column] */
typedef struct
{
  double m[3][3];
} TrnRotation;

static inline TrnRotation
trn_rotation_identity (void)
{
  return (TrnRotation){ { { 1, 0, 0 }, { 0, 1, 0 }, { 0, 0, 1 } } };
}

static inline TrnVec3
trn_rotation_apply (const TrnRotation *r, TrnVec3 v)
{
  return (TrnVec3){ r->m[0][0] * v.x + r->m[0][1] * v.y + r->m[0][2] * v.z,
                    r->m[1][0] * v.x + r->m[1][1] * v.y + r->m[1][2] * v.z,
                    r->m[2][0] * v.x + r->m[2][1] * v.y + r->m[2][2] * v.z };
}

/* Rᵀ v, the inverse rotation. */
static inline TrnVec3
trn_rotation_apply_inverse (const TrnRotation *r, TrnVec3 v)
{
  return (TrnVec3){ r->m[0][0] * v.x + r->m[1][0] * v.y + r->m[2][0] * v.z,
                    r->m[0][1] * v.x + r->m[1][1] * v.y + r->m[2][1] * v.z,
                    r->m[0][2] * v.x + r->m[1][2] * v.y + r->m[2][2] * v.z };
}

/* a b: first b, then a. */
static inline TrnRotation
trn_rotation_multiply (const TrnRotation *a, const TrnRotation *b)
{
  TrnRotation c;
  for (int i = 0; i < 3; i++)
    for (int j = 0; j < 3; j++)
      c.m[i][j] = a->m[i][0] * b->m[0][j] + a->m[i][1] * b->m[1][j] + a->m[i][2] * b->m[2][j];
  return c;
}

/* The rotation by @angle about the unit vector @axis, counter-clockwise seen against it
 * (Rodrigues' formula). */
static inline TrnRotation
trn_rotation_make (TrnVec3 axis, double angle_rad)
{
  double c = cos (angle_rad), s = sin (angle_rad), k = 1 - c;
  double x = axis.x, y = axis.y, z = axis.z;
  return (TrnRotation){ { { c + k * x * x, k * x * y - s * z, k * x * z + s * y },
                          { k * y * x + s * z, c + k * y * y, k * y * z - s * x },
                          { k * z * x - s * y, k * z * y + s * x, c + k * z * z } } };
}

/* The angle of the rotation between @a and @b, 0 … π: atan2 of the sine and cosine of Rᵀ_a R_b. */
static inline double
trn_rotation_angle_between (const TrnRotation *a, const TrnRotation *b)
{
  double d[3][3];
  for (int i = 0; i < 3; i++)
    for (int j = 0; j < 3; j++)
      d[i][j] = a->m[0][i] * b->m[0][j] + a->m[1][i] * b->m[1][j] + a->m[2][i] * b->m[2][j];
  TrnVec3 twice_sine = { d[2][1] - d[1][2], d[0][2] - d[2][0], d[1][0] - d[0][1] };
  return atan2 (trn_vec3_length (twice_sine), d[0][0] + d[1][1] + d[2][2] - 1);
}
