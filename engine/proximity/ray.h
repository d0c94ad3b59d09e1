/* ray.h: what a ray surely does not meet, and which triangles it surely crosses: what the winding
 * number of inside.c rests on. Internal to this folder.
 *
 * Where something is, is told from the ray's point: what was placed in double less that point, each
 * coordinate rounded. The ray itself is that point and every one along d from it, d as it is, about
 * a unit vector. */
#pragma once

#include "hull.h"

typedef struct
{
  TrnVec3 from, d;
  double length, per_length2; /* of d */
} TrnRay;

static inline TrnRay
trn_ray_make (TrnVec3 from, TrnVec3 d)
{
  const double length2 = trn_vec3_length_squared (d);
  return (TrnRay){ from, d, sqrt (length2), 1 / length2 };
}

/* Square to the ray. */
static inline TrnVec3
trn_ray_aside (const TrnRay *ray, TrnVec3 from_it)
{
  return trn_vec3_add_scaled (from_it, ray->d, -trn_vec3_dot (from_it, ray->d) * ray->per_length2);
}

/* Whether the ray may meet the ball of that radius about @to. What is rounded is some u = 2⁻⁵³ of
 * how far that is. */
static inline gboolean
trn_ray_meets_ball (const TrnRay *ray, TrnVec3 to, double radius_m)
{
  const TrnVec3 off = trn_vec3_dot (to, ray->d) > 0 ? trn_ray_aside (ray, to) : to;
  const double reach = radius_m + 1e-9 * (fabs (to.x) + fabs (to.y) + fabs (to.z));
  return !(trn_vec3_length_squared (off) > reach * reach);
}

/* Whether some plane along the ray has all on one side that is within @slack_m of the hull, whose
 * centre is at @to, and in the ball of its radius about that: long thin triangles lie far from many
 * a ray that meets their ball. FALSE where no such plane was found. */
gboolean trn_ray_is_aside (const TrnRay *ray, TrnVec3 to, const TrnHull *hull, double slack_m);

/* What a triangle adds to the winding number along the ray: 1 where it leaves, −1 where it enters
 * there, 0 where it passes by; FALSE where that cannot be told. @c: the corners from the ray's
 * point. */
gboolean trn_ray_crossing (const TrnRay *ray, const TrnVec3 c[3], int *adds);
