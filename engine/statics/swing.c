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
 * Wind, a level force F by the weight W: with it at rest the load hangs atan (F/W) off plumb, and B
 * is from there. Then sin φ <= M + F/W, so that M + F/W is what grows so by ζ. In a chain of moves
 * the wind so adds (Γ − 1) F/W, Γ all their growths by both, from the first on in which the tip
 * rises or falls.
 *
 * Nods. The load turns about the hook, the hook about the tip: a chain of links, which as they hang
 * plumb are l₁, l₂ … high, with the centre of gravity at the end of the last and L = Σ l. α are
 * their angles from plumb, c = 2 sin (α/2), v is the speed of the centre of gravity; what it turns
 * with about that only adds to W, which by mass is
 *
 *   W = v²/2 + g Σ l (1 − cos α), so that Σ l c² <= 2 W/g.
 *
 * By force dW/dt <= |f| v, so that S = √(2 W) has dS/dt <= |f|. Seen with f, W has g′ for gravity,
 * and dW/dt <= |df/dt| Σ l |n − e| <= |df/dt| √(L Σ l |n − e|²): dS/dt <= |df/dt| √(L/g). So S <=
 * √(g L) b, b what (1) and (2) make of one body of the length L, and Σ l c² <= L b². A point d from
 * the last joint, the links above that K together, goes aside by Σ l c above it + d c of the last
 * one, h high; that is no more, as Cauchy has it, than
 *
 *   b √(L (K + d²/h)),
 *
 * the hook no more than b √(L l₁), and the last link turns by b √(L/h). Links that turn as one are
 * among these.
 *
 * A rope that changes, of a chain. Let the frame go up and down as the hook would if it hung plumb,
 * at w, and W be as seen from there, with g + w' for gravity. The hook goes l₁' (1 − cos α₁) along
 * the rope there, so that the rope, which pulls with T, adds −T l₁' (1 − cos α₁) to dW/dt: no more
 * than N |l₁'|/l₁ W where it shortens, nothing where it lengthens, N >= T by what all that hangs
 * weighs in g + w', which is assumed (swing.h). What w' rises by adds (g + w')'/(g + w') W. So S
 * grows by e to the power of
 *
 *   N/2 ∫ |l₁'|/l₁ where it shortens, and 1/4 ∫ |dw'|/(g (1 − q)), q >= |w'|/g,
 *
 * since w' comes back to 0. b is S by √(g L): it grows by √ of what L shrinks by, too, and Σ l c²
 * by 1/(1 − q) while w' lasts. About e, which f slants, the frame is that of the tip and l₁' e: (1)
 * turns that by |df|/g, which adds |l₁'| |df|/g to S, and is 1 + q as much itself; ζ, which is
 * along e but for |ζ| |f|/g, adds no more than it does to one body. Likewise about where wind has
 * it.
 *
 * Masses above the load, μ of it together, only add to W, as they rise with the links. By force
 * dW/dt <= |f| (v + Σ μ v), which is no more than |f| √(1 + μ) √(2 W); seen with f likewise, since
 * none is lower than the load. So b is √(1 + μ) as much.
 *
 * The last link may turn about a line at the slope β, as a load does about two points that legs
 * hold it by; the one above it, a high, is c' off plumb. Then the load turns about that line by no
 * more than what tilts it, c of the last link beside c', asks for: all in all by the size of the
 * vector of the tilt t, |t| = c, and of tan β (t − c') about the plumb line, t and c' being what
 * there is of both about the level way of that line. That is no more than c/cos β + c' tan β: a
 * point goes aside by (a + d tan β) c' + d/cos β c beside the other links. h cos² β takes the place
 * of h in the bound, and (a + d tan β)²/a that of a in K. That is for small angles, as they are
 * here; that the hook turns about the rope is left out.
 *
 * Between hook and load may be a beam, 2a long, hung by its middle or by two slings as long as each
 * other, and the load from its ends by two more, with their points 2w apart, level, each on its own
 * side. With u and v the unit vectors along load and beam, m the way from middle to middle, s long
 * and along e as it hangs at rest, and k the length of a sling, 2 |m|² + 2 |w u − a v|² <= 2 k², so
 * that |m|² <= s² − w a |u − v|², slack or not. The middle of the load so comes up by
 *
 *   s − m·e >= (|m − s e|² + w a |u − v|²)/2s:
 *
 * the middles are links of the chain, with c = |m − s e|/s, and the beam is one of its own, with c₅
 * = |u − v| and w a/s for its length. An end of the beam is turned beside its middle by c of the
 * load and c₅; it goes, as Cauchy has it, b √(L (l₁ + l₂ + a²/h + a s/w)) at most: as far as the
 * load does, or a/w times as far where the beam is longer than its points are apart. That both turn
 * about the plumb line together is left out, as above. Of four slings, two at each end, those of an
 * end count as one to a point between theirs.
 *
 * As seen from the load, what is above it turns by c' + c, and c' tan β about the plumb line; the
 * ends of a beam by a/s c₅ more: by b √(L (((1 + tan β)² + a/w)/s + 1/h)) at most, s high.
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
#define SHORT_ROPE_M 3
#define MOST_FORCE 1.1
#define MOST_FORCE_OF_SHORT 2

double
trn_swing_rate (double seconds, double ramp_s)
{
  return 1 / (seconds - fmin (ramp_s, 0.5 * seconds));
}

typedef struct
{
  double ramp_s, even_s, rate;
} Times;

static Times
times_of (const TrnSwingMove *move)
{
  const double ramp_s = fmin (move->ramp_s, 0.5 * move->seconds);
  return (Times){ ramp_s, fmax (0, move->seconds - 2 * ramp_s),
                  trn_swing_rate (move->seconds, move->ramp_s) };
}

/* ∫ of what the acceleration changes by along a path with the derivatives @d, @d2 and @d3 by s:
 * over a ramp, and between the ramps. */
static double
ramp_changes (const Times *t, double d, double d2, double d3)
{
  const double out = d2 * t->rate * t->rate, jerk = d3 * t->rate * t->rate * t->rate;
  return 2 * d * t->rate / t->ramp_s + 0.25 * jerk * t->ramp_s + 1.5 * out;
}

static double
even_changes (const Times *t, double d3)
{
  return d3 * t->rate * t->rate * t->rate * t->even_s;
}

/* The greatest acceleration of the hook up or down, as a share of g. */
static double
hook_share (const TrnSwingMove *move, const Times *t)
{
  return (move->hook_m * t->rate / t->ramp_s + move->hook2_m * t->rate * t->rate)
         / TRN_GRAVITY_M_S2;
}

double
trn_swing_most_force (double rope_m)
{
  return rope_m < SHORT_ROPE_M ? MOST_FORCE_OF_SHORT : MOST_FORCE;
}

/* What the tip does counts for the chain as for one body: it needs that about e alone. */
double
trn_swing_growth (const TrnSwingMove *move)
{
  const double g = TRN_GRAVITY_M_S2, by_speed = 1 / sqrt (g * move->least_m);
  const Times t = times_of (move);
  const double q = hook_share (move, &t);
  if (!(q < 1))
    return INFINITY;
  const double as_one = 1.5 * move->shortens,
               as_chain = 0.5 * (move->shortens + move->rope_shortens),
               by_tip = (2 * move->up_m + move->up2_m) * t.rate * by_speed,
               by_hook = (2 * ramp_changes (&t, move->hook_m, move->hook2_m, move->hook3_m)
                          + even_changes (&t, move->hook3_m))
                         / (4 * g * (1 - q));
  return exp (fmax (as_one, as_chain) + by_tip + by_hook) / sqrt (1 - q) * (1 + ROUNDING_SHARE);
}

double
trn_swing_chord (const TrnSwingMove *move, double before)
{
  const double g = TRN_GRAVITY_M_S2, by_speed = 1 / sqrt (g * move->least_m);
  const Times t = times_of (move);
  const double out = move->level2_m * t.rate * t.rate, q = fmin (1, hook_share (move, &t)),
               by_turn = ((1 + q) / sqrt (1 - q) + move->rope_m * t.rate * by_speed) / g;
  const double ramp_by_turn
      = by_turn * ramp_changes (&t, move->level_m, move->level2_m, move->level3_m);
  const double ramp_by_force = (move->level_m * t.rate + out * t.ramp_s / 3) * by_speed;
  const double even_by_turn = by_turn * even_changes (&t, move->level3_m),
               even_by_force = out * t.even_s * by_speed;
  const double mixed = 2 * fmin (ramp_by_turn, ramp_by_force + by_turn * out) + even_by_turn;
  const double most = before + fmin (mixed, 2 * ramp_by_force + even_by_force);
  return most * trn_swing_growth (move) * (1 + ROUNDING_SHARE);
}

double
trn_swing_aside (double chord, double whole_m, double chain_m, double far_m, double nods_m)
{
  return chord * sqrt (whole_m * (chain_m + far_m * far_m / nods_m)) * (1 + ROUNDING_SHARE);
}

double
trn_swing_arm_m (TrnInterval arm_m, double sloped_m)
{
  return sloped_m > 0 ? arm_m.hi + 2 * sloped_m + sloped_m * sloped_m / arm_m.lo : arm_m.hi;
}
