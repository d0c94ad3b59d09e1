/* test-limbs.h: limbs for tests, whose corners go along closed forms; enclosures by Taylor's
 * formula about the middle of a span, so that they rest on no interval arithmetic of the engine. */
#pragma once

#include "limb.h"
#include "vec3.h"

/* p0 + p1 s + p2 s² + u cos (φ0 + w s) + v sin (φ0 + w s) */
typedef struct
{
  TrnVec3 p0, p1, p2, u, v;
  double phi0, w;
} TestPath;

typedef struct
{
  TestPath paths[TRN_LIMB_CORNERS];
  guint n;
  TrnInterval gap;  /* no place at these moments, where lo <= hi */
  double widest;    /* no enclosure over spans that are longer, where > 0 */
  double narrowest; /* or shorter, but for moments */
  gboolean no_bend; /* tells no second derivative of the first corner */
  double loose_m;   /* places are enclosed so much too loosely, and not about their middle */
} TestPaths;

static inline TestPath
test_path_at (double x, double y, double z)
{
  return (TestPath){ .p0 = { x, y, z } };
}

static inline TestPath
test_path_straight (TrnVec3 from, TrnVec3 to)
{
  return (TestPath){ .p0 = from, .p1 = trn_vec3_sub (to, from) };
}

/* Round the vertical through @centre, from @phi0 by @w, at @radius and the height of @centre. */
static inline TestPath
test_path_slew (TrnVec3 centre, double radius, double phi0, double w)
{
  return (
      TestPath){ .p0 = centre, .u = { radius, 0, 0 }, .v = { 0, radius, 0 }, .phi0 = phi0, .w = w };
}

/* In the plane y = centre.y, up from +X. */
static inline TestPath
test_path_luff (TrnVec3 centre, double radius, double phi0, double w)
{
  return (
      TestPath){ .p0 = centre, .u = { radius, 0, 0 }, .v = { 0, 0, radius }, .phi0 = phi0, .w = w };
}

static inline TrnVec3
test_path_place (const TestPath *path, double s)
{
  double phi = path->phi0 + path->w * s;
  TrnVec3 p = trn_vec3_add_scaled (trn_vec3_add_scaled (path->p0, path->p1, s), path->p2, s * s);
  return trn_vec3_add_scaled (trn_vec3_add_scaled (p, path->u, cos (phi)), path->v, sin (phi));
}

static inline TrnInterval
test_about (double middle, double by)
{
  double off = by + 0x1p-48 * (fabs (middle) + by);
  return (TrnInterval){ middle - off, middle + off };
}

/* One coordinate over the span of half length @h about @s. */
static inline TrnJet
test_path_jet (double p0, double p1, double p2, double u, double v, double phi0, double w, double s,
               double h)
{
  double c = cos (phi0 + w * s), sn = sin (phi0 + w * s), jerk = fabs (w * w * w) * hypot (u, v);
  double at = p0 + p1 * s + p2 * s * s + u * c + v * sn;
  double d = p1 + 2 * p2 * s + w * (v * c - u * sn), dd = 2 * p2 - w * w * (u * c + v * sn);
  double size = fabs (p0) + fabs (p1) + fabs (p2) + fabs (u) + fabs (v);
  double bend = fabs (dd) + jerk * h;
  TrnJet jet = { test_about (at, (fabs (d) + bend * h) * h), test_about (d, bend * h),
                 test_about (dd, jerk * h) };
  jet.v.lo -= 0x1p-49 * size;
  jet.v.hi += 0x1p-49 * size;
  return jet;
}

/* Grows by @loose to one side, to the other or to both: as @s falls out. */
static inline TrnInterval
test_loosen (TrnInterval v, double loose, double s)
{
  double share = fmod (fabs (v.lo) * 1e3 + s * 1e7, 1);
  return (TrnInterval){ v.lo - 2 * share * loose, v.hi + 2 * (1 - share) * loose };
}

static inline gboolean
test_paths_corners (gconstpointer data, TrnInterval s, TrnJet3 corners[TRN_LIMB_CORNERS])
{
  const TestPaths *paths = data;
  if (paths->gap.lo <= s.hi && s.lo <= paths->gap.hi)
    return FALSE;
  double length = s.hi - s.lo;
  if ((paths->widest > 0 && length > paths->widest) || (length > 0 && length < paths->narrowest))
    return FALSE;
  double m = 0.5 * (s.lo + s.hi), h = 0.5 * (s.hi - s.lo) * (1 + 0x1p-50) + 0x1p-52 * (s.hi > s.lo);
  for (guint i = 0; i < paths->n; i++)
    {
      const TestPath *p = &paths->paths[i];
      corners[i] = (TrnJet3){
        test_path_jet (p->p0.x, p->p1.x, p->p2.x, p->u.x, p->v.x, p->phi0, p->w, m, h),
        test_path_jet (p->p0.y, p->p1.y, p->p2.y, p->u.y, p->v.y, p->phi0, p->w, m, h),
        test_path_jet (p->p0.z, p->p1.z, p->p2.z, p->u.z, p->v.z, p->phi0, p->w, m, h)
      };
      corners[i].x.v = test_loosen (corners[i].x.v, paths->loose_m, s.lo);
      corners[i].y.v = test_loosen (corners[i].y.v, paths->loose_m, s.lo);
      corners[i].z.v = test_loosen (corners[i].z.v, paths->loose_m, s.lo);
      if (paths->no_bend && i == 0)
        corners[i].x.dd = corners[i].y.dd = corners[i].z.dd = (TrnInterval){ NAN, NAN };
    }
  return TRUE;
}

/* @paths is borrowed. */
static inline TrnLimb
test_limb (const TestPaths *paths, double radius_m)
{
  return (TrnLimb){ paths->n, radius_m, test_paths_corners, paths };
}

/* Nothing is missing. */
static inline TestPaths
test_paths_make (void)
{
  return (TestPaths){ .gap = { 2, -1 } };
}

/* Two corners. */
static inline TestPaths
test_paths_two (TestPath a, TestPath b)
{
  return (TestPaths){ .paths = { a, b }, .n = 2, .gap = { 2, -1 } };
}
