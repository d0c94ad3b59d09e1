/* polygon.h: a convex polygon in space, cut by half spaces, and its distance in the x–y plane.
 *
 * For the swing-radius check: a triangle in coordinates about an axis (x and y square to it, z
 * along it) is cut to the slab and the sector that count, then measured as seen along the axis. */
#pragma once

#include "vec3.h"

/* A triangle cut by n half spaces has at most 3 + n corners; slab and sector make four. */
#define TRN_POLYGON_MAX 8

typedef struct
{
  TrnVec3 corners[TRN_POLYGON_MAX];
  guint n_corners; /* 0: nothing is left */
} TrnPolygon;

/* What of @polygon has normal · point >= offset (Sutherland and Hodgman 1974). */
void trn_polygon_cut (TrnPolygon *polygon, TrnVec3 normal, double offset);

/* The least distance in x and y of the segment from @a to @b (which may be one point; z is not
 * looked at) from @polygon, 0 where they meet; INFINITY when nothing is left of it. */
double trn_polygon_distance (const TrnPolygon *polygon, TrnVec3 a, TrnVec3 b);
