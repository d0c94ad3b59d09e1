/* quad.h: quadruple precision for tests, some 18 digits more than double: vectors, angles, and
 * triangle distances by brute force, another way than engine/proximity/triangle.c goes. */
#pragma once

#include "vec3.h"

typedef __float128 Quad;

typedef struct
{
  Quad x, y, z;
} QuadVec;

static inline QuadVec
quad_vec (TrnVec3 a)
{
  return (QuadVec){ a.x, a.y, a.z };
}

static inline QuadVec
quad_add (QuadVec a, QuadVec b)
{
  return (QuadVec){ a.x + b.x, a.y + b.y, a.z + b.z };
}

static inline QuadVec
quad_sub (QuadVec a, QuadVec b)
{
  return (QuadVec){ a.x - b.x, a.y - b.y, a.z - b.z };
}

static inline QuadVec
quad_times (QuadVec a, Quad k)
{
  return (QuadVec){ k * a.x, k * a.y, k * a.z };
}

static inline QuadVec
quad_along (QuadVec a, QuadVec d, Quad t)
{
  return quad_add (a, quad_times (d, t));
}

static inline Quad
quad_product (QuadVec a, QuadVec b)
{
  return a.x * b.x + a.y * b.y + a.z * b.z;
}

static inline QuadVec
quad_cross (QuadVec a, QuadVec b)
{
  return (QuadVec){ a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x };
}

Quad quad_sqrt (Quad x);
void quad_sin_cos (Quad x, Quad *sine, Quad *cosine);

static inline Quad
quad_length (QuadVec a)
{
  return quad_sqrt (quad_product (a, a));
}

/* The least distance of two solid triangles, exactly 0 where an edge crosses a face. */
Quad quad_triangle_distance (const TrnVec3 a[3], const TrnVec3 b[3]);
/* The same, of corners that were placed in quadruple precision. */
Quad quad_placed_distance (const QuadVec a[3], const QuadVec b[3]);
/* The least distance of a point from a solid triangle. */
Quad quad_point_distance (TrnVec3 p, const TrnVec3 a[3]);
Quad quad_distance (TrnVec3 p, TrnVec3 q);
/* The signed extent of @p along @n. */
Quad quad_dot (TrnVec3 n, TrnVec3 p);
