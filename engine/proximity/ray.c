#include "ray.h"

#include <float.h>

/* So many planes are tried. */
#define MOST_PLANES 3
/* The square of a shorter way may not be a normal number, nor what is divided by its length of
 * length 1. */
#define LEAST_WAY_M 1e-100

/* ---- planes ---- */

static TrnSupport
lowest_of (const TrnHull *hull, TrnDirection n)
{
#if defined __x86_64__
  if (trn_support_is_simd ())
    return trn_support_lowest_avx2 (hull->blocks, hull->n_blocks, n);
#endif
  return trn_support_lowest_scalar (hull->blocks, hull->n_blocks, n);
}

/* The point of the way from a to b that is nearest to the origin. */
static TrnVec3
nearest_between (TrnVec3 a, TrnVec3 b)
{
  const TrnVec3 by = trn_vec3_sub (b, a);
  const double square = trn_vec3_length_squared (by);
  const double t = square > 0 ? -trn_vec3_dot (a, by) / square : 0;
  return trn_vec3_add_scaled (a, by, CLAMP (t, 0, 1));
}

/* Which planes are tried does not matter for the proof. Let n be a direction in single precision,
 * |n| <= 1 + 2v, v = 2⁻²⁴, and x a point that the hull stands for, from the centre. n·x is no less
 * than n·p of the hull's lowest point p less |n| times the slack, and that is no less than the
 * value of the support less what support.h says, for the radius. What the ray has in the ball is no
 * farther from the ray's point than the ball reaches, so along n no farther than that times
 * n·d/|d|, or 0 where that is negative: what n is rounded by and, where the centre is all but on
 * the ray, what the way to it is. Where the first is more than the second, no x is on the ray.
 *
 * What is rounded in double: where the centre is and n times that, some u = 2⁻⁵³ of how far away it
 * is; n·d/|d|, some u of 1, times how far the ball reaches; sums, u of the radius. In 1e-9 of away
 * there is room for the share of away in all of them, and for that of the radius in what is on top
 * of 3v in TRN_SUPPORT_ERROR.
 *
 * How far the ball reaches is away and the radius. No test can tell that the radius is counted:
 * where n·x is as small as that asks for, products, sums and n are rounded by no more than 2.95v of
 * the radius together, the most that a search came to with each of them as large as it can be. */
gboolean
trn_ray_is_aside (const TrnRay *ray, TrnVec3 to, const TrnHull *hull, double slack_m)
{
  const double away = fabs (to.x) + fabs (to.y) + fabs (to.z);
  const double lost
      = 1.00001 * (slack_m + TRN_SUPPORT_ERROR * hull->radius_m) + TRN_SUPPORT_LEAST + 1e-9 * away;
  TrnVec3 way = trn_ray_aside (ray, to);
  for (guint i = 0; i < MOST_PLANES; i++)
    {
      const double length = trn_vec3_length (way);
      if (!(length > LEAST_WAY_M))
        return FALSE;
      const TrnDirection n
          = { (float)(way.x / length), (float)(way.y / length), (float)(way.z / length) };
      const TrnVec3 across = { n.x, n.y, n.z };
      const TrnSupport low = lowest_of (hull, n);
      const double along = fmax (0, trn_vec3_dot (across, ray->d) / ray->length);
      if (trn_vec3_dot (across, to) + (double)low.value > lost + along * (away + hull->radius_m))
        return TRUE;
      const TrnPoints8 *block = &hull->blocks[low.index / 8];
      const guint k = low.index % 8;
      const TrnVec3 point = { block->x[k], block->y[k], block->z[k] };
      way = nearest_between (way, trn_ray_aside (ray, trn_vec3_add (to, point)));
    }
  return FALSE;
}

/* ---- triangles ---- */

/* −1, 1, or 0 where @value is within @error of 0. */
static int
sure_sign (double value, double error)
{
  return value > error ? 1 : value < -error ? -1 : 0;
}

/* Whether the signs below differ, told without a root: no length is more than the sum of absolute
 * coordinates. Most triangles near a ray do. */
static gboolean
surely_passes_by (const TrnVec3 c[3], TrnVec3 d)
{
  double size = 0;
  for (int k = 0; k < 3; k++)
    size = fmax (size, fabs (c[k].x) + fabs (c[k].y) + fabs (c[k].z));
  const double error
      = 16 * (DBL_EPSILON / 2) * (fabs (d.x) + fabs (d.y) + fabs (d.z)) * size * size;
  const int first = sure_sign (trn_vec3_dot (d, trn_vec3_cross (c[1], c[2])), error);
  const int second = sure_sign (trn_vec3_dot (d, trn_vec3_cross (c[2], c[0])), error);
  if (first * second < 0)
    return TRUE;
  const int third = sure_sign (trn_vec3_dot (d, trn_vec3_cross (c[0], c[1])), error);
  return third * first < 0 || third * second < 0;
}

/* The ray's line passes through the triangle where the three volumes of d and an edge have the same
 * sign, on the side of d where the volume of the corners has it as well. With u = 2⁻⁵³ each corner
 * is off by u of its length, a cross product by at most 8u of the product of the lengths, and a
 * product with a third vector by at most 4u more: 16u of all three lengths holds for both, and for
 * the rounding of those. */
gboolean
trn_ray_crossing (const TrnRay *ray, const TrnVec3 c[3], int *adds)
{
  *adds = 0;
  if (surely_passes_by (c, ray->d))
    return TRUE;
  double length[3];
  const double share = 16 * (DBL_EPSILON / 2);
  for (int k = 0; k < 3; k++)
    length[k] = trn_vec3_length (c[k]);
  int signs[3];
  gboolean any_up = FALSE, any_down = FALSE, any_open = FALSE;
  for (int k = 0; k < 3; k++)
    {
      int p = (k + 1) % 3, q = (k + 2) % 3;
      double volume = trn_vec3_dot (ray->d, trn_vec3_cross (c[p], c[q]));
      signs[k] = sure_sign (volume, share * ray->length * length[p] * length[q]);
      any_up |= signs[k] > 0;
      any_down |= signs[k] < 0;
      any_open |= signs[k] == 0;
    }
  if (any_up && any_down)
    return TRUE;
  double volume = trn_vec3_dot (c[0], trn_vec3_cross (c[1], c[2]));
  int side = sure_sign (volume, share * length[0] * length[1] * length[2]);
  if (any_open || side == 0)
    return FALSE;
  if (side == signs[0])
    *adds = side;
  return TRUE;
}
