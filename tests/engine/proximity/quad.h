/* quad.h: triangle distances in quadruple precision, for tests: brute force, another way than
 * engine/proximity/triangle.c goes, some 18 digits more. */
#pragma once

#include "vec3.h"

/* The least distance of two solid triangles, exactly 0 where an edge crosses a face. */
__float128 quad_triangle_distance (const TrnVec3 a[3], const TrnVec3 b[3]);
/* The least distance of a point from a solid triangle. */
__float128 quad_point_distance (TrnVec3 p, const TrnVec3 a[3]);
__float128 quad_distance (TrnVec3 p, TrnVec3 q);
/* The signed extent of @p along @n. */
__float128 quad_dot (TrnVec3 n, TrnVec3 p);
__float128 quad_sqrt (__float128 x);
