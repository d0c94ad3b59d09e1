/* The load and what it hangs from are one rigid body that turns about the tip, its centre of
 * gravity l from there in the direction of the unit vector n. In the frame of the tip, with f the
 * level acceleration of the tip and ζ the one up, gravity is g′ = (−f, −g − ζ). Let first l be
 * fixed, ζ = 0, G = |(f, g)| and e the direction of (−f, −g). Then
 *
 *   W = l n'²/2 + G (1 − e·n),  dW/dt = (df/dt)·(n − e) seen from above,
 *
 * and B = √(2 W/g) is no less than the chord |n − e|, since G >= g. As |dW/dt| <= |df/dt| |n − e|,
 *
 *   (1)  dB/dt <= |df/dt|/g,
 *
 * and a jump of f adds no more than its size by g to B. That is exact for any angle, in all
 * directions, whenever starts and stops come: twice an acceleration by g for each, once for its
 * start and once for its end. n is off plumb by B and |f|/g at most; f is 0 after the move, so what
 * (1) has yet to add is no less than |f|/g: B at the end bounds all of the move.
 *
 * Or f is a force: W = l n'²/2 + g (1 − cos φ), dW/dt = −f·n', so that
 *
 *   (2)  dB/dt <= |f|/√(g l),
 *
 * a speed by √(g l) for each start or stop. One may change from one to the other where f is 0, or
 * for |f|/g. For a body with the radius of gyration k about its centre of gravity, l + k²/l takes
 * the place of l in W, and both hold the more.
 *
 * A rope that changes: n'' gets −2 l' n'/l, so dW/dt gets −3/2 l' n'². Lengthening, B does not
 * grow; shortening, dB/dt <= 3/2 |l'|/l B. Of a body l l' (3 + k²/l²)/(l + k²/l) is no more than
 * 3 l'. ζ pulls with ζ sin φ: dB/dt <= |ζ|/√(g l) sin φ. With M = B and all that (1) or (2) has yet
 * to add, sin φ <= M, so both make M grow by e to the power of
 *
 *   3/2 ∫ |l'|/l where it shortens, and ∫ |ζ| dt/√(g l).
 *
 * The way is p(s(t)): s' goes up evenly to r in the ramp u = min (ramp, D/2), D the time of the
 * move, r = 1/(D − u), and down likewise; b = r/u. f = p″ s'² + p′ s″. By (1) a ramp makes 2 |p′| b
 * in jumps and ∫ |p‴ s'³ + 3 p″ s' s″| <= |p‴| r³ u/4 + 3/2 |p″| r²; between the ramps it is
 * |p‴| r³ (D − 2 u). By (2) a ramp makes |p′| r + |p″| r² u/3, and |p″| r² (D − 2 u) between. ∫ |ζ|
 * dt is no more than 2 r |z′| + r ∫ |z″| ds. */
#include "swing.h"

#include <math.h>

#include "gravity.h"

#define ROUNDING_SHARE 1e-12

double
trn_swing_rate (double seconds, double ramp_s)
{
  return 1 / (seconds - fmin (ramp_s, 0.5 * seconds));
}

double
trn_swing_chord (const TrnSwingMove *move, double before)
{
  const double g = TRN_GRAVITY_M_S2, by_speed = 1 / sqrt (g * move->least_m);
  const double ramp_s = fmin (move->ramp_s, 0.5 * move->seconds),
               even_s = fmax (0, move->seconds - 2 * ramp_s),
               rate = trn_swing_rate (move->seconds, move->ramp_s);
  const double out = move->level2_m * rate * rate, jerk = move->level3_m * rate * rate * rate;
  const double ramp_by_turn
      = (2 * move->level_m * rate / ramp_s + 0.25 * jerk * ramp_s + 1.5 * out) / g;
  const double ramp_by_force = (move->level_m * rate + out * ramp_s / 3) * by_speed;
  const double even_by_turn = jerk * even_s / g, even_by_force = out * even_s * by_speed;
  const double mixed = 2 * fmin (ramp_by_turn, ramp_by_force + out / g) + even_by_turn;
  const double most = before + fmin (mixed, 2 * ramp_by_force + even_by_force);
  const double grows = 1.5 * move->shortens + (2 * move->up_m + move->up2_m) * rate * by_speed;
  return most * exp (grows) * (1 + ROUNDING_SHARE);
}
