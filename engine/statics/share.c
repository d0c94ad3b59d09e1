/* Derivation. Two plumb forces and the weight: moments about the main point along the level line d
 * from main to tail give T (tail − main)·d = W (cog − main)·d. Across d no plumb force at either
 * point has an arm: what the CoG is beside the plane of both lines cannot be balanced, the load
 * leans until it is in the plane. It is told, not hidden.
 *
 * Over a box: T is an affine function of the CoG, so its least and greatest are at corners.
 *
 * Over a tilt: in a plane, T/W = (p cos t + q sin t)/(r cos t + s sin t), a fraction of two affine
 * functions of tan t, which goes one way only as long as its denominator keeps its sign: the
 * greatest over a range of tilt is at an end.
 *
 * Up-ending with lugs off the axis: along and up of the lying load become, at tilt t with the head
 * rising, level distances along · cos t + height · sin t, of tail and of CoG alike. */
#include "share.h"

TrnShare
trn_share_make (TrnVec3 main, TrnVec3 tail, TrnVec3 cog)
{
  TrnShare share = { .tail = NAN, .main = NAN, .out_of_plane_m = NAN };
  TrnVec3 d = trn_vec3_sub (tail, main), c = trn_vec3_sub (cog, main);
  double level2 = d.x * d.x + d.y * d.y;
  double size = trn_vec3_max_abs (d);
  if (tail.z < cog.z)
    share.flags |= TRN_SHARE_TAIL_BELOW_COG;
  if (!(level2 > 1e-24 * size * size))
    {
      share.flags |= TRN_SHARE_IN_LINE;
      return share;
    }
  share.tail = (c.x * d.x + c.y * d.y) / level2;
  share.main = 1 - share.tail;
  share.out_of_plane_m = fabs (c.x * d.y - c.y * d.x) / sqrt (level2);
  if (share.tail < 0)
    share.flags |= TRN_SHARE_TAIL_SLACK;
  if (share.tail > 1)
    share.flags |= TRN_SHARE_MAIN_SLACK;
  if (share.tail >= 1 && tail.z < cog.z)
    share.flags |= TRN_SHARE_OVER_TAIL;
  return share;
}

TrnShareRange
trn_share_over (TrnVec3 main, TrnVec3 tail, const TrnVec3 cog_corners[8])
{
  TrnShareRange range = { INFINITY, -INFINITY, INFINITY, -INFINITY, 0, 0 };
  for (guint i = 0; i < 8; i++)
    {
      TrnShare share = trn_share_make (main, tail, cog_corners[i]);
      range.flags |= share.flags;
      range.tail_least = fmin (range.tail_least, share.tail);
      range.tail_greatest = fmax (range.tail_greatest, share.tail);
      range.main_least = fmin (range.main_least, share.main);
      range.main_greatest = fmax (range.main_greatest, share.main);
      range.out_of_plane_m = fmax (range.out_of_plane_m, share.out_of_plane_m);
    }
  if (range.flags & TRN_SHARE_IN_LINE)
    range = (TrnShareRange){ NAN, NAN, NAN, NAN, NAN, range.flags };
  return range;
}

double
trn_share_tail_of_upending (double tail_along_m, double tail_height_m, double cog_along_m,
                            double cog_height_m, double tilt_rad)
{
  double c = cos (tilt_rad), s = sin (tilt_rad);
  return (cog_along_m * c + cog_height_m * s) / (tail_along_m * c + tail_height_m * s);
}

void
trn_share_two_hooks (const TrnTwoHooks *hooks, double greatest[2])
{
  const double distance[2] = { hooks->distance1_m, hooks->distance2_m };
  const double height[2] = { hooks->height1_m, hooks->height2_m };
  const double length = distance[0] + distance[1];
  for (int i = 0; i < 2; i++)
    {
      const int other = 1 - i;
      greatest[i] = -INFINITY;
      for (int way = -1; way <= 1; way += 2)
        for (int up = -1; up <= 1; up += 2)
          {
            double c = cos (hooks->tilt_rad), s = way * sin (hooks->tilt_rad);
            double arm = (distance[other] + hooks->envelope_m) * c
                         + (height[other] + up * hooks->envelope_up_m) * s;
            greatest[i] = fmax (greatest[i], arm / (length * c + (height[other] - height[i]) * s));
          }
    }
}

void
trn_share_four_points (const double hook_share[2], double side1_m, double side2_m,
                       double envelope_m, double greatest[4])
{
  for (int hook = 0; hook < 2; hook++)
    {
      double width = side1_m + side2_m;
      greatest[2 * hook] = hook_share[hook] * (side2_m + envelope_m) / width;
      greatest[2 * hook + 1] = hook_share[hook] * (side1_m + envelope_m) / width;
    }
}
