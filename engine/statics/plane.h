/* plane.h: points of a plane, and their convex hull. */
#pragma once

#include <glib.h>
#include <math.h>

/* @index is the caller's: which point it was. */
typedef struct
{
  double x, y;
  guint index;
} TrnPlanePoint;

/* Twice the area of a, b, c: positive anticlockwise. */
static inline double
trn_plane_turn (const TrnPlanePoint *a, const TrnPlanePoint *b, const TrnPlanePoint *c)
{
  return (b->x - a->x) * (c->y - a->y) - (b->y - a->y) * (c->x - a->x);
}

/* The distance of @p from the segment from @a to @b. */
double
trn_plane_off_segment (const TrnPlanePoint *a, const TrnPlanePoint *b, const TrnPlanePoint *p);

/* The corners of the convex hull of @points, which it sorts, anticlockwise into @hull, which has
 * room for 2 @n; returns their number: 1 where all are in one place, 2 where they are in line, 0
 * without any. By Andrew's monotone chain (1979). */
guint trn_plane_hull (TrnPlanePoint *points, guint n, TrnPlanePoint *hull);

/* Within @n corners, anticlockwise. */
double trn_plane_area (const TrnPlanePoint *corners, guint n);
