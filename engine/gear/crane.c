#include "crane.h"

/* A, B and D of crane.h. */
typedef struct
{
  TrnInterval a, b, d;
} Shape;

static Shape
shape_make (const TrnGear *gear)
{
  TrnInterval length = trn_interval_point (gear->boom_length_m);
  if (!gear->has_jib)
    return (Shape){ length, { 0, 0 }, length };
  TrnInterval jib = trn_interval_point (gear->jib_length_m);
  TrnInterval offset = trn_interval_point (gear->jib_offset_rad);
  Shape shape = { trn_interval_add (length, trn_interval_mul (jib, trn_interval_cos (offset))),
                  trn_interval_mul (jib, trn_interval_sin (offset)),
                  { NAN, NAN } };
  shape.d = trn_interval_sqrt (trn_interval_clip (
      trn_interval_add (trn_interval_square (shape.a), trn_interval_square (shape.b)), 0,
      INFINITY));
  return shape;
}

void
trn_crane_stand (const TrnGear *gear, const TrnPose *site_from_gear, TrnJet hook_x, TrnJet hook_y,
                 TrnCrane *crane)
{
  *crane = (TrnCrane){
    .gear = gear, .base = site_from_gear->position, .hook_x = hook_x, .hook_y = hook_y
  };
  crane->radius
      = trn_jet_direction (trn_jet_shift (hook_x, -crane->base.x),
                           trn_jet_shift (hook_y, -crane->base.y), &crane->e_x, &crane->e_y);
  crane->u = trn_jet_shift (crane->radius, -gear->boom_foot_out_m);
  Shape shape = shape_make (gear);
  crane->z = trn_jet_sqrt (
      trn_jet_sub (trn_jet_within (trn_interval_square (shape.d)), trn_jet_square (crane->u)));
}

/* The point @out from the slew axis and @up above the boom foot. */
static TrnJet3
in_plane (const TrnCrane *crane, TrnJet out, TrnJet up)
{
  return (TrnJet3){
    trn_jet_shift (trn_jet_mul (out, crane->e_x), crane->base.x),
    trn_jet_shift (trn_jet_mul (out, crane->e_y), crane->base.y),
    trn_jet_shift (trn_jet_shift (up, crane->gear->boom_foot_up_m), crane->base.z),
  };
}

TrnJet3
trn_crane_foot (const TrnCrane *crane)
{
  return in_plane (crane, trn_jet_constant (crane->gear->boom_foot_out_m), trn_jet_constant (0));
}

TrnJet3
trn_crane_tip (const TrnCrane *crane)
{
  TrnJet up = trn_jet_shift (crane->z, crane->gear->boom_foot_up_m);
  return (TrnJet3){ crane->hook_x, crane->hook_y, trn_jet_shift (up, crane->base.z) };
}

/* L/D² */
static TrnInterval
knee_share (const TrnGear *gear, const Shape *shape)
{
  return trn_interval_div (trn_interval_point (gear->boom_length_m),
                           trn_interval_square (shape->d));
}

TrnJet3
trn_crane_knee (const TrnCrane *crane)
{
  const TrnGear *gear = crane->gear;
  if (!gear->has_jib)
    return trn_crane_tip (crane);
  Shape shape = shape_make (gear);
  TrnInterval share = knee_share (gear, &shape);
  TrnJet out = trn_jet_sub (trn_jet_scale_within (crane->u, shape.a),
                            trn_jet_scale_within (crane->z, shape.b));
  TrnJet up = trn_jet_add (trn_jet_scale_within (crane->z, shape.a),
                           trn_jet_scale_within (crane->u, shape.b));
  return in_plane (crane, trn_jet_shift (trn_jet_scale_within (out, share), gear->boom_foot_out_m),
                   trn_jet_scale_within (up, share));
}

/* atan2 (B, A): its own error, and A and B off by their widths, seen from D away. */
static TrnInterval
boom_rise (const Shape *shape)
{
  double rise = atan2 (trn_interval_middle (shape->b), trn_interval_middle (shape->a));
  TrnInterval widths = trn_interval_add (
      trn_interval_sub (trn_interval_point (shape->a.hi), trn_interval_point (shape->a.lo)),
      trn_interval_sub (trn_interval_point (shape->b.hi), trn_interval_point (shape->b.lo)));
  double off = trn_interval_div (widths, shape->d).hi;
  return trn_interval_add (trn_interval_widen (rise, rise, TRN_OUTWARD_FUNCTION),
                           (TrnInterval){ -off, off });
}

TrnJet
trn_crane_boom_angle (const TrnCrane *crane)
{
  Shape shape = shape_make (crane->gear);
  TrnJet angle = trn_jet_acos (trn_jet_scale_within (crane->u, trn_interval_inverse (shape.d)));
  if (!crane->gear->has_jib)
    return angle;
  return trn_jet_add (angle, trn_jet_within (boom_rise (&shape)));
}

/* The counterweight seen from above, in the frame of the boom: what is behind the slew axis, within
 * the tail radius R of it and half its width w from the middle. Its arc spans ±α about straight
 * behind, sin α = w/R. The outline is cut out by TANGENTS of that arc, at 2δ from each other and δ
 * from its ends, δ = α/TANGENTS, by both sides and by the line through the axis. Neighbouring
 * tangents meet at R/cos δ; the outermost meet the sides where (R − w sin t)/cos t is, t = α − δ.
 * No corner is farther from the axis than R/cos δ: with w = 3R/5 that is 0.8 % over, with w = R
 * 5.1 %. R and w are taken a little over, for rounding. */
#define TANGENTS 5
#define OUTLINE (TANGENTS + 3)

static void
counterweight_outline (const TrnGear *gear, double behind_m[OUTLINE], double left_m[OUTLINE])
{
  const double over = 1 + 1e-12;
  double radius = gear->tail_radius_m * over;
  double half = fmin (gear->counterweight_width_m / 2 * over, radius);
  double alpha = asin (half / radius), delta = alpha / TANGENTS, last = alpha - delta;
  behind_m[0] = behind_m[1] = 0;
  left_m[0] = -half;
  left_m[1] = half;
  behind_m[2] = behind_m[3] = (radius - half * sin (last)) / cos (last) * over;
  left_m[2] = -half;
  left_m[3] = half;
  for (int i = 0; i + 1 < TANGENTS; i++)
    {
      double at = -alpha + 2 * (i + 1) * delta, out = radius / cos (delta);
      behind_m[4 + i] = out * cos (at);
      left_m[4 + i] = out * sin (at);
    }
}

G_STATIC_ASSERT (2 * OUTLINE == TRN_LIMB_CORNERS);

void
trn_crane_counterweight (const TrnCrane *crane, TrnJet3 corners[TRN_LIMB_CORNERS])
{
  const TrnGear *gear = crane->gear;
  double behind[OUTLINE], left[OUTLINE];
  counterweight_outline (gear, behind, left);
  TrnInterval base = trn_interval_point (crane->base.z);
  TrnInterval bottom = trn_interval_add (base, trn_interval_point (gear->counterweight_bottom_m));
  TrnInterval top = trn_interval_add (base, trn_interval_point (gear->counterweight_top_m));
  for (int i = 0; i < OUTLINE; i++)
    {
      TrnJet x = trn_jet_sub (trn_jet_scale (crane->e_x, -behind[i]),
                              trn_jet_scale (crane->e_y, left[i]));
      TrnJet y = trn_jet_add (trn_jet_scale (crane->e_y, -behind[i]),
                              trn_jet_scale (crane->e_x, left[i]));
      corners[i] = (TrnJet3){ trn_jet_shift (x, crane->base.x), trn_jet_shift (y, crane->base.y),
                              trn_jet_within (bottom) };
      corners[OUTLINE + i] = corners[i];
      corners[OUTLINE + i].z = trn_jet_within (top);
    }
}

/* Let the hook go from where it is straight to where it is instead, seen from above: by p at most,
 * so that its radius stays within [r − p, r + p]. A step of it is h_r along e and h_t across,
 * h_r² + h_t² = 1. The boom then slews by h_t/radius and luffs by −h_r/z, since z θ′ = −u′. So a
 * point of the upper works that is ρ out from the slew axis, and on a radius of length l about the
 * boom foot, goes
 *   √((ρ h_t/radius)² + (l h_r/z)²) <= max (ρ/radius, l/z).
 * Foot: l = 0, ρ = |foot_out|. Counterweight: l = 0, ρ of its farthest corner. Knee: l = L, ρ as
 * it can be with u and z in their ranges. Tip: ρ = radius and l = D >= z: D/z. All of that at the
 * least radius and the least z on the way. */
TrnCraneTolerance
trn_crane_tolerance (const TrnGear *gear, TrnInterval radius, double off_m)
{
  TrnInterval off = { -off_m, off_m }, r = trn_interval_add (radius, off);
  TrnInterval out = trn_interval_point (gear->boom_foot_out_m), u = trn_interval_sub (r, out);
  Shape shape = shape_make (gear);
  TrnInterval z = trn_interval_sqrt (
      trn_interval_sub (trn_interval_square (shape.d), trn_interval_square (u)));
  if (!(r.lo > 0 && z.lo > 0))
    return (TrnCraneTolerance){ NAN, NAN, NAN, NAN };
  const double over = off_m * (1 + 1e-12);
  double luff = shape.d.hi / z.lo, behind[OUTLINE], left[OUTLINE], reach = 0;
  counterweight_outline (gear, behind, left);
  for (int i = 0; i < OUTLINE; i++)
    reach = fmax (reach, hypot (behind[i], left[i]));
  TrnCraneTolerance tolerance = {
    .foot_m = over * fabs (gear->boom_foot_out_m) / r.lo,
    .knee_m = over * luff,
    .tip_m = over * luff,
    .counterweight_m = gear->has_counterweight ? over * reach / r.lo : NAN,
  };
  if (!gear->has_jib)
    return tolerance;
  TrnInterval level
      = trn_interval_sub (trn_interval_mul (u, shape.a), trn_interval_mul (z, shape.b));
  TrnInterval rho = trn_interval_add (out, trn_interval_mul (level, knee_share (gear, &shape)));
  tolerance.knee_m = over * fmax (trn_interval_size (rho) / r.lo, gear->boom_length_m / z.lo);
  return tolerance;
}
