/* triangle.h: the exact distance of two triangles, with the points where it is attained. */
#pragma once

#include "vec3.h"

/* The least distance of the triangles @a and @b (solid triangles, three corners each, any of them
 * may be degenerate to a segment or a point). @on_a and @on_b receive points of the triangles at
 * that distance; for triangles that meet, both are a common point (to rounding) and the result is
 * exactly 0. Independent of scale. Never NaN for finite input.
 *
 * Error: |result − true| <= 64 u M with M the greatest absolute coordinate difference between
 * corners and u = 2⁻⁵³; triangles less than 16 u M apart are taken to meet. The two points lie in
 * the triangles to the same measure, and the rounding of their own coordinates. */
double trn_triangle_distance (const TrnVec3 a[3], const TrnVec3 b[3], TrnVec3 *on_a, TrnVec3 *on_b);
