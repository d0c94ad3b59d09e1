#include "motion.h"

#include "tolerances.h"

static const TrnVec3 up = { 0, 0, 1 };

TrnMotion
trn_motion_make_carry (const TrnPose *start, double seconds, TrnVec3 pivot, TrnVec3 by,
                       TrnVec3 axis, double angle_rad)
{
  return (TrnMotion){
    .seconds = seconds,
    .start = *start,
    .axis = axis,
    .angle_rad = angle_rad,
    .pivot = pivot,
    .path = TRN_PATH_LINE,
    .from = trn_pose_apply (start, pivot),
    .by = by,
  };
}

TrnMotion
trn_motion_make_wait (const TrnPose *start, double seconds)
{
  TrnVec3 zero = { 0, 0, 0 };
  return trn_motion_make_carry (start, seconds, zero, zero, up, 0);
}

gboolean
trn_motion_make_slew (const TrnPose *start, double seconds, TrnVec3 hook, double centre_x,
                      double centre_y, double phi_rad, gboolean turns, double radius_by_m,
                      double hoist_by_m, TrnMotion *motion)
{
  *motion = trn_motion_make_carry (start, seconds, hook, trn_vec3_make (0, 0, hoist_by_m), up,
                                   turns ? phi_rad : 0);
  double dx = motion->from.x - centre_x, dy = motion->from.y - centre_y;
  motion->path = TRN_PATH_ARC;
  motion->centre_x = centre_x;
  motion->centre_y = centre_y;
  motion->radius_m = hypot (dx, dy);
  motion->radius_by_m = radius_by_m;
  motion->phi0_rad = atan2 (dy, dx);
  motion->phi_rad = phi_rad;
  return motion->radius_m > 0 && motion->radius_m + radius_by_m > 0;
}

gboolean
trn_motion_make_head_plumb (const TrnPose *start, double seconds, TrnVec3 head, TrnVec3 tail,
                            TrnVec3 axis, double angle_rad, TrnMotion *motion,
                            double *off_square_rad)
{
  TrnVec3 zero = { 0, 0, 0 };
  *motion = trn_motion_make_carry (start, seconds, head, zero, axis, angle_rad);
  motion->path = TRN_PATH_LEVEL_TAIL;
  motion->head_from_tail = trn_rotation_apply (&start->turn, trn_vec3_sub (head, tail));
  double length = trn_vec3_length (motion->head_from_tail);
  if (!(length > 0))
    {
      *off_square_rad = G_PI / 2;
      return FALSE;
    }
  double along = trn_vec3_dot (motion->head_from_tail, axis) / length;
  *off_square_rad = asin (CLAMP (fabs (along), 0, 1));
  return *off_square_rad <= TRN_SQUARE_DEG * G_PI / 180;
}

static TrnVec3
path_at (const TrnMotion *motion, const TrnRotation *turned, double s)
{
  switch (motion->path)
    {
    case TRN_PATH_ARC:
      {
        double radius = motion->radius_m + s * motion->radius_by_m;
        double phi = motion->phi0_rad + s * motion->phi_rad;
        return trn_vec3_make (motion->centre_x + radius * cos (phi),
                              motion->centre_y + radius * sin (phi),
                              motion->from.z + s * motion->by.z);
      }
    case TRN_PATH_LEVEL_TAIL:
      {
        double tail_z = motion->from.z - motion->head_from_tail.z;
        double rise = trn_rotation_apply (turned, motion->head_from_tail).z;
        return trn_vec3_make (motion->from.x, motion->from.y, tail_z + rise);
      }
    case TRN_PATH_LINE:
    default:
      return trn_vec3_add_scaled (motion->from, motion->by, s);
    }
}

TrnPose
trn_motion_pose (const TrnMotion *motion, double s)
{
  if (s == 0)
    return motion->start;
  TrnRotation turned = trn_rotation_make (motion->axis, s * motion->angle_rad);
  TrnPose pose = { .turn = trn_rotation_multiply (&turned, &motion->start.turn) };
  pose.position
      = trn_vec3_sub (path_at (motion, &turned, s), trn_rotation_apply (&pose.turn, motion->pivot));
  return pose;
}

/* The part of @v square to the unit vector @axis. */
static double
square_part (TrnVec3 v, TrnVec3 axis)
{
  return trn_vec3_length (trn_vec3_cross (v, axis));
}

double
trn_motion_reach (const TrnMotion *motion, TrnVec3 point)
{
  if (motion->angle_rad == 0)
    return 0;
  TrnVec3 r = trn_rotation_apply (&motion->start.turn, trn_vec3_sub (point, motion->pivot));
  return square_part (r, motion->axis);
}

static double
greatest_radius (const TrnMotion *motion)
{
  return motion->radius_m + fmax (motion->radius_by_m, 0);
}

/* |path″|. Arc: r e_r has the second derivative −r φ² e_r + 2 r′ φ e_t, two vectors at right
 * angles, r greatest at an end. Level tail: the height of a vector that turns evenly, whose second
 * derivative is no longer than angle² times its part square to the axis. */
static double
path_acceleration (const TrnMotion *motion)
{
  double phi = fabs (motion->phi_rad), angle = fabs (motion->angle_rad);
  switch (motion->path)
    {
    case TRN_PATH_ARC:
      return hypot (greatest_radius (motion) * phi * phi, 2 * motion->radius_by_m * phi);
    case TRN_PATH_LEVEL_TAIL:
      return angle * angle * square_part (motion->head_from_tail, motion->axis);
    case TRN_PATH_LINE:
    default:
      return 0;
    }
}

/* Arc: the derivatives named at path_acceleration(), at that place. Level tail: the height of
 * R(s) v, v square to the axis of R but for a part along it that is level, so that its second
 * derivative is −angle² times itself. */
TrnVec3
trn_motion_path_acceleration (const TrnMotion *motion, double s)
{
  switch (motion->path)
    {
    case TRN_PATH_ARC:
      {
        double radius = motion->radius_m + s * motion->radius_by_m, turn = motion->phi_rad;
        double phi = motion->phi0_rad + s * turn, c = cos (phi), sn = sin (phi);
        double inward = radius * turn * turn, across = 2 * motion->radius_by_m * turn;
        return trn_vec3_make (-inward * c - across * sn, -inward * sn + across * c, 0);
      }
    case TRN_PATH_LEVEL_TAIL:
      {
        TrnRotation turned = trn_rotation_make (motion->axis, s * motion->angle_rad);
        double rise = trn_rotation_apply (&turned, motion->head_from_tail).z;
        return trn_vec3_make (0, 0, -motion->angle_rad * motion->angle_rad * rise);
      }
    case TRN_PATH_LINE:
    default:
      return trn_vec3_make (0, 0, 0);
    }
}

/* Arc: (−r φ² e_r + 2 r′ φ e_t)′ = −3 r′ φ² e_r − r φ³ e_t. Level tail: as its acceleration. */
double
trn_motion_path_jerk (const TrnMotion *motion)
{
  double phi = fabs (motion->phi_rad);
  if (motion->path == TRN_PATH_ARC)
    return hypot (3 * motion->radius_by_m * phi * phi, greatest_radius (motion) * phi * phi * phi);
  return fabs (motion->angle_rad) * path_acceleration (motion);
}

static double
path_speed (const TrnMotion *motion)
{
  switch (motion->path)
    {
    case TRN_PATH_ARC:
      return hypot (hypot (greatest_radius (motion) * motion->phi_rad, motion->radius_by_m),
                    motion->by.z);
    case TRN_PATH_LEVEL_TAIL:
      return fabs (motion->angle_rad) * square_part (motion->head_from_tail, motion->axis);
    case TRN_PATH_LINE:
    default:
      return trn_vec3_length (motion->by);
    }
}

double
trn_motion_acceleration (const TrnMotion *motion, double reach_m)
{
  return motion->angle_rad * motion->angle_rad * reach_m + path_acceleration (motion);
}

double
trn_motion_speed (const TrnMotion *motion, double reach_m)
{
  return fabs (motion->angle_rad) * reach_m + path_speed (motion);
}

/* Derivation, with u = 2⁻⁵³ the unit roundoff, per coordinate, first order in u, each count rounded
 * up. T = |angle| + |φ0| + |φ| bounds every angle whose sine is taken.
 *   cosine and sine of a rounded product: argument error 2uT, function error 2u: (2T + 2)u.
 *   an entry of Rot(axis, ·), (1 − c) x y ± s z: (2T + 2) + (2T + 2) from c and s, 8 for the axis
 *     (whose parts are rounded sines) and the operations: (4T + 12)u.
 *   an entry of turn(s), three products with entries of start.turn (rounded to 12u as well):
 *     3 (4T + 12) + 3·12 + 6: (12T + 78)u.
 *   turn·x and turn·pivot: 3 (12T + 78) + 6 = (36T + 240)u times the greatest coordinate.
 *   path(s): at most (2T + 8)u times its size, which is at most Q below. On an arc φ0 and the first
 *     radius come from a difference of site coordinates, off by 2u of them: seen from the centre by
 *     that over the radius, and at a radius that has grown by as much more as it has grown, so that
 *     Q is taken times the growth.
 *   the sums: 4u of the result.
 * The length of an error vector is at most √3 < 1.8 times its greatest coordinate, so
 *   1.8 (36T + 250) u (X + P + Q) <= (65T + 450) u (X + P + Q). */
double
trn_motion_rounding (const TrnMotion *motion, double size_m)
{
  double angles = fabs (motion->angle_rad) + fabs (motion->phi0_rad) + fabs (motion->phi_rad);
  double path = trn_vec3_max_abs (motion->from) + trn_vec3_max_abs (motion->by)
                + fabs (motion->centre_x) + fabs (motion->centre_y) + 2 * greatest_radius (motion)
                + 2 * trn_vec3_length (motion->head_from_tail)
                + trn_vec3_max_abs (motion->start.position);
  if (motion->path == TRN_PATH_ARC)
    path *= fmax (1, (motion->radius_m + motion->radius_by_m) / motion->radius_m);
  double size = size_m + trn_vec3_max_abs (motion->pivot) + path;
  return (65 * angles + 450) * (DBL_EPSILON / 2) * size;
}
