/* Derivation of the bend.
 *
 * A point is path(s) + r(s), and r″ = −angle² r⊥ with r⊥ the part of r square to the axis. Seen
 * along n, that of a point differs from that of the centre by at most angle² |n⊥| radius, and over
 * half the span that of the centre itself changes by at most half the span times
 * angle³ |n⊥| reach + |path‴|. A point goes as far as the centre but for (R₁ − R₀)(x − centre), no
 * longer than angle · span · radius.
 *
 * Let f(s) = n·point(s) over a span of length h, f″ <= U. Then f lies no lower than its chord less
 * U/2 (s − s0)(s1 − s). With D = |f(s1) − f(s0)| the least of that is, for U > 0,
 *   min (f(s0), f(s1)) − U h²/8 (1 − 2D/(U h²))²  where 2D < U h², else min (f(s0), f(s1)). */
#include "bend.h"

TrnSpan
trn_span_make (const TrnMotion *motion, const TrnPose *site_from_frame, double s0, double s1)
{
  double middle = s0 + 0.5 * (s1 - s0);
  TrnPose at[3] = { trn_motion_pose (motion, s0), trn_motion_pose (motion, middle),
                    trn_motion_pose (motion, s1) };
  TrnVec3 acceleration = trn_motion_path_acceleration (motion, middle);
  return (TrnSpan){
    .s0 = s0,
    .s1 = s1,
    .pose0 = trn_pose_relative (site_from_frame, &at[0]),
    .middle = trn_pose_relative (site_from_frame, &at[1]),
    .pose1 = trn_pose_relative (site_from_frame, &at[2]),
    .path_acceleration = trn_rotation_apply_inverse (&site_from_frame->turn, acceleration),
  };
}

static TrnSpan
half_make (const TrnMotion *motion, const TrnPose *site_from_frame, double s0, const TrnPose *pose0,
           double s1, const TrnPose *pose1)
{
  double s = s0 + 0.5 * (s1 - s0);
  TrnPose middle = trn_motion_pose (motion, s);
  TrnVec3 acceleration = trn_motion_path_acceleration (motion, s);
  return (TrnSpan){
    .s0 = s0,
    .s1 = s1,
    .pose0 = *pose0,
    .middle = trn_pose_relative (site_from_frame, &middle),
    .pose1 = *pose1,
    .path_acceleration = trn_rotation_apply_inverse (&site_from_frame->turn, acceleration),
  };
}

void
trn_span_halve (const TrnSpan *span, const TrnMotion *motion, const TrnPose *site_from_frame,
                TrnSpan halves[2])
{
  double middle = span->s0 + 0.5 * (span->s1 - span->s0);
  halves[0] = half_make (motion, site_from_frame, span->s0, &span->pose0, middle, &span->middle);
  halves[1] = half_make (motion, site_from_frame, middle, &span->middle, span->s1, &span->pose1);
}

/* Rounding: an acceleration seen along n is added up from the path's and the turning's, each with
 * fewer than 32 operations on sizes that are no more than all of them together; and the turning's
 * is angle² times a place from the pivot, which is off by no more than any placed point, however
 * far from the pivot and near the axis it is. */
TrnBending
trn_bending_make (const TrnMotion *motion, const TrnPose *site_from_frame, double reach_m,
                  double rounding_m)
{
  double jerk = trn_motion_path_jerk (motion);
  return (TrnBending){
    .axis = trn_rotation_apply_inverse (&site_from_frame->turn, motion->axis),
    .angle = fabs (motion->angle_rad),
    .path_jerk = jerk,
    .rounding = 64 * (DBL_EPSILON / 2) * (trn_motion_acceleration (motion, reach_m) + jerk)
                + motion->angle_rad * motion->angle_rad * rounding_m,
    .rounding_m = rounding_m,
    .none = motion->angle_rad == 0 && motion->path == TRN_PATH_LINE,
  };
}

TrnBend
trn_bend_make (const TrnBending *bending, const TrnMotion *motion, const TrnSpan *span,
               TrnVec3 centre, double radius_m)
{
  double angle = bending->angle;
  double reach = trn_motion_reach (motion, centre) * (1 + 16 * DBL_EPSILON);
  double length = span->s1 - span->s0;
  TrnVec3 r = trn_rotation_apply (&span->middle.turn, trn_vec3_sub (centre, motion->pivot));
  TrnVec3 square = trn_vec3_add_scaled (r, bending->axis, -trn_vec3_dot (r, bending->axis));
  return (TrnBend){
    .bending = bending,
    .length = length,
    .acceleration = trn_vec3_add_scaled (span->path_acceleration, square, -angle * angle),
    .goes
    = trn_vec3_sub (trn_pose_apply (&span->pose1, centre), trn_pose_apply (&span->pose0, centre)),
    .turning_spread = angle * angle * (radius_m + 0.5 * length * angle * reach),
    .path_spread = 0.5 * length * bending->path_jerk,
    .play_m = angle * length * radius_m + 2 * bending->rounding_m,
  };
}

double
trn_bend_loss (const TrnBend *bend, TrnVec3 n)
{
  if (bend->bending->none)
    return 0;
  double share = trn_square_share (trn_vec3_dot (n, bend->bending->axis));
  double most = trn_vec3_dot (n, bend->acceleration) + bend->path_spread
                + bend->turning_spread * share + bend->bending->rounding;
  double sag = trn_motion_sag (most, 0, bend->length);
  if (sag <= 0) /* what is no number stays none, and proves nothing */
    return 0;
  double goes = fabs (trn_vec3_dot (n, bend->goes)) - bend->play_m;
  if (goes <= 0)
    return sag;
  double left = 1 - goes / (4 * sag);
  return left <= 0 ? 0 : sag * left * left;
}
