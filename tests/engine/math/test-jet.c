/* Outward rounding and jets against quadruple precision: on single operations, where it shows that
 * the widening is needed, and on random expressions, whose derivatives come from Taylor series in
 * quadruple precision that are themselves checked by differences. */
#include "slope.h"

#include "quad.h"
#include "test-scale.h"

static gboolean
holds (TrnInterval i, Quad x)
{
  return i.lo <= x && x <= i.hi;
}

/* The same of a number that has rounding errors of its own, in quadruple precision. */
static gboolean
holds_nearly (TrnInterval i, Quad x)
{
  Quad play = 1e-27 * (1 + (x < 0 ? -x : x));
  return !trn_interval_is_value (i) || (i.lo <= x + play && x - play <= i.hi);
}

/* A number of any size from 2⁻⁶⁰ to 2⁶⁰, either sign. */
static double
random_number (GRand *rand)
{
  double x = ldexp (g_rand_double_range (rand, 1, 2), g_rand_int_range (rand, -60, 60));
  return g_rand_boolean (rand) ? x : -x;
}

static TrnInterval
random_interval (GRand *rand)
{
  double a = random_number (rand), b = random_number (rand);
  if (g_rand_int_range (rand, 0, 4) == 0)
    b = a;
  return (TrnInterval){ fmin (a, b), fmax (a, b) };
}

/* Either end, or some number between. */
static double
random_within (GRand *rand, TrnInterval i)
{
  switch (g_rand_int_range (rand, 0, 3))
    {
    case 0:
      return i.lo;
    case 1:
      return i.hi;
    default:
      return CLAMP (i.lo + g_rand_double (rand) * (i.hi - i.lo), i.lo, i.hi);
    }
}

static void
test_operations (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (71);
  for (guint i = 0; i < test_scaled (100000); i++)
    {
      TrnInterval a = random_interval (rand), b = random_interval (rand);
      double x = random_within (rand, a), y = random_within (rand, b);
      g_assert_true (holds (trn_interval_add (a, b), (Quad)x + y));
      g_assert_true (holds (trn_interval_sub (a, b), (Quad)x - y));
      g_assert_true (holds (trn_interval_neg (a), -(Quad)x));
      g_assert_true (holds (trn_interval_scale (a, y), (Quad)x * y));
      g_assert_true (holds (trn_interval_mul (a, b), (Quad)x * y));
      g_assert_true (holds (trn_interval_square (a), (Quad)x * x));
      g_assert_true (holds (trn_interval_hull (a, b), x));
      g_assert_true (holds (trn_interval_hull (a, b), y));
      if (a.lo > 0)
        g_assert_true (holds (trn_interval_sqrt (a), quad_sqrt (x)));
      if (b.lo > 0 || b.hi < 0)
        {
          g_assert_true (holds (trn_interval_inverse (b), 1 / (Quad)y));
          g_assert_true (holds (trn_interval_div (a, b), x / (Quad)y));
        }
    }
}

/* Rounded to nearest, about half of all results lie above the truth and half below: without the
 * widening neither end would hold. With it an interval of no width grows by few ulp a side. */
static void
test_widening_is_needed (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (72);
  guint above[5] = { 0 }, below[5] = { 0 }, n = 1000;
  for (guint i = 0; i < n; i++)
    {
      double x = fabs (random_number (rand)), y = x * g_rand_double_range (rand, 1, 2), s, c;
      Quad sine, cosine;
      TrnInterval a = trn_interval_point (x), b = trn_interval_point (y);
      double angle = g_rand_double_range (rand, -100, 100);
      quad_sin_cos (angle, &sine, &cosine);
      sincos (angle, &s, &c);
      const double rounded[5] = { x + y, x * y, sqrt (x), 1 / x, s };
      const Quad truth[5] = { (Quad)x + y, (Quad)x * y, quad_sqrt (x), 1 / (Quad)x, sine };
      const TrnInterval found[5]
          = { trn_interval_add (a, b), trn_interval_mul (a, b), trn_interval_sqrt (a),
              trn_interval_inverse (a), trn_interval_sin (trn_interval_point (angle)) };
      for (guint k = 0; k < 5; k++)
        {
          above[k] += rounded[k] > truth[k];
          below[k] += rounded[k] < truth[k];
          g_assert_true (holds (found[k], truth[k]));
          g_assert_cmpfloat (found[k].hi - found[k].lo, <=, 0x1p-49 * fabs (rounded[k]));
        }
    }
  for (guint k = 0; k < 5; k++)
    {
      g_assert_cmpuint (above[k], >, n / 10);
      g_assert_cmpuint (below[k], >, n / 10);
    }
}

/* A product that is too small for a double is 0 when rounded, but the truth is not: only the least
 * step holds it. */
static void
test_least_step_is_needed (void)
{
  TrnInterval tiny = trn_interval_point (0x1p-600), p = trn_interval_mul (tiny, tiny);
  g_assert_cmpfloat (0x1p-600 * 0x1p-600, ==, 0);
  g_assert_cmpfloat (p.hi, >, 0);
  g_assert_cmpfloat (trn_interval_mul (tiny, trn_interval_neg (tiny)).lo, <, 0);
  g_assert_cmpfloat (trn_interval_square (tiny).hi, >, 0);
  /* ... and products of steps are normal numbers again. */
  g_assert_true (isnormal (trn_interval_mul (p, p).hi));
}

/* sin and cos over spans of all widths, near and on their crests: whatever is taken within is held,
 * and where a crest lies within, the end is 1 exactly. */
static void
test_waves (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (73);
  for (guint i = 0; i < test_scaled (4000); i++)
    {
      double from = g_rand_int_range (rand, -50, 50) * (G_PI / 4);
      from += ldexp (g_rand_double_range (rand, -1, 1), g_rand_int_range (rand, -52, 2));
      double width = ldexp (g_rand_double (rand), g_rand_int_range (rand, -52, 4));
      TrnInterval a = { from, from + width }, s = trn_interval_sin (a), c = trn_interval_cos (a);
      double x = random_within (rand, a);
      Quad sine, cosine, most_s = -2, most_c = -2, least_s = 2, least_c = 2;
      quad_sin_cos (x, &sine, &cosine);
      g_assert_true (holds (s, sine) && holds (c, cosine));
      for (guint k = 0; k <= 64; k++)
        {
          quad_sin_cos (a.lo + (Quad)(a.hi - a.lo) * k / 64, &sine, &cosine);
          most_s = MAX (most_s, sine);
          least_s = MIN (least_s, sine);
          most_c = MAX (most_c, cosine);
          least_c = MIN (least_c, cosine);
        }
      /* Of 64 steps the nearest is within width/128 of the extreme. */
      double play = width * width / 128 / 128 / 2 + 1e-15;
      g_assert_true (s.hi <= most_s + play && s.lo >= least_s - play);
      g_assert_true (c.hi <= most_c + play && c.lo >= least_c - play);
    }
  TrnInterval round = trn_interval_sin ((TrnInterval){ 1.5, 1.6 });
  g_assert_cmpfloat (round.hi, ==, 1);
  g_assert_cmpfloat (trn_interval_cos ((TrnInterval){ 3, 3.2 }).lo, ==, -1);
  g_assert_cmpfloat (trn_interval_cos ((TrnInterval){ 1e7, 1e7 }).lo, ==, -1);
  g_assert_cmpfloat (trn_interval_cos ((TrnInterval){ 1e7, 1e7 }).hi, ==, 1);
}

/* Both ends against the cosine, which falls: cos (lo) >= a and cos (hi) <= a. */
static void
test_acos (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (74);
  for (guint i = 0; i < test_scaled (20000); i++)
    {
      double a = g_rand_boolean (rand) ? g_rand_double_range (rand, -1, 1)
                                       : 1 - ldexp (1, g_rand_int_range (rand, -53, 0));
      TrnInterval found = trn_interval_acos (trn_interval_point (a));
      Quad sine, at_lo, at_hi;
      quad_sin_cos (found.lo, &sine, &at_lo);
      quad_sin_cos (found.hi, &sine, &at_hi);
      g_assert_true (at_lo >= a && at_hi <= a);
      g_assert_cmpfloat (found.hi - found.lo, <=, 0x1p-48);
    }
  TrnInterval all = trn_interval_acos ((TrnInterval){ -1, 1 });
  g_assert_cmpfloat (all.lo, ==, 0);
  g_assert_cmpfloat (all.hi, >=, G_PI);
}

/* What has no value is none, and so is whatever is worked out from it. */
static void
test_none (void)
{
  TrnInterval none = trn_interval_none (), one = { 1, 1 }, across = { -1, 2 };
  const TrnInterval nones[] = {
    trn_interval_sqrt ((TrnInterval){ -1e-300, 1 }),
    trn_interval_inverse (across),
    trn_interval_inverse ((TrnInterval){ 0, 1 }),
    trn_interval_inverse ((TrnInterval){ -1, 0 }),
    trn_interval_div (one, across),
    trn_interval_acos ((TrnInterval){ 0, 1 + 1e-15 }),
    trn_interval_mul ((TrnInterval){ 1e200, 1e200 }, (TrnInterval){ 1e200, 1e200 }),
    trn_interval_add (none, one),
    trn_interval_sub (one, none),
    trn_interval_neg (none),
    trn_interval_scale (none, 0),
    trn_interval_mul (none, (TrnInterval){ 0, 0 }),
    trn_interval_mul ((TrnInterval){ 0, 0 }, none),
    trn_interval_square (none),
    trn_interval_sqrt (none),
    trn_interval_inverse (none),
    trn_interval_hull (none, one),
    trn_interval_hull (one, none),
    trn_interval_sin (none),
    trn_interval_cos (none),
    trn_interval_acos (none),
    trn_interval_clip (none, -1, 1),
  };
  for (guint i = 0; i < G_N_ELEMENTS (nones); i++)
    {
      g_assert_false (trn_interval_is_value (nones[i]));
      g_assert_true (isnan (nones[i].lo) && isnan (nones[i].hi));
    }
  g_assert_true (trn_interval_is_value (across));
  /* A root at 0 has a value but no slope. */
  TrnJet s = trn_jet_variable ((TrnInterval){ 0, 1 }), root = trn_jet_sqrt (s);
  g_assert_true (trn_jet_is_value (&root));
  g_assert_false (trn_jet_is_smooth (&root));
  TrnJet flat = trn_jet_acos (s);
  g_assert_true (trn_jet_is_value (&flat));
  g_assert_false (trn_jet_is_smooth (&flat));
  TrnJet nothing = trn_jet_none ();
  g_assert_false (trn_jet_is_value (&nothing));
}

/* f, f′ and f″/2 at one s. */
typedef struct
{
  Quad f, g, h;
} Taylor;

static Taylor
taylor_mul (Taylor a, Taylor b)
{
  return (Taylor){ a.f * b.f, a.f * b.g + a.g * b.f, a.f * b.h + a.g * b.g + a.h * b.f };
}

static Taylor
taylor_add (Taylor a, Taylor b, Quad k)
{
  return (Taylor){ a.f + k * b.f, a.g + k * b.g, a.h + k * b.h };
}

/* From r² = a, coefficient by coefficient. */
static Taylor
taylor_sqrt (Taylor a)
{
  Quad r = quad_sqrt (a.f), g = a.g / (2 * r);
  return (Taylor){ r, g, (a.h - g * g) / (2 * r) };
}

/* From i·a = 1. */
static Taylor
taylor_inverse (Taylor a)
{
  Quad i = 1 / a.f, g = -i * a.g / a.f;
  return (Taylor){ i, g, -(i * a.h + g * a.g) / a.f };
}

/* φ(a + g t + h t²) for a function with those derivatives. */
static Taylor
taylor_of (Taylor a, Quad f, Quad d, Quad dd)
{
  return (Taylor){ f, d * a.g, d * a.h + dd * a.g * a.g / 2 };
}

static Taylor
taylor_acos (Taylor a)
{
  Quad t = acos ((double)a.f), sine, cosine;
  for (int i = 0; i < 3; i++)
    {
      quad_sin_cos (t, &sine, &cosine);
      t += (cosine - a.f) / sine;
    }
  quad_sin_cos (t, &sine, &cosine);
  return taylor_of (a, t, -1 / sine, -cosine / (sine * sine * sine));
}

/* A random expression as a tape: each entry works on two entries before it. */
#define TAPE 12
typedef struct
{
  int what, a, b;
  double k;
} Entry;

enum
{
  ADD,
  SUB,
  NEG,
  SCALE,
  SHIFT,
  MUL,
  SQUARE,
  SQRT,
  INVERSE,
  DIV,
  SINE,
  COSINE,
  HYPOT,
  ACOS,
  ALONG,
  N_WHAT
};

static TrnJet
jet_entry (const Entry *e, TrnJet a, TrnJet b)
{
  TrnJet safe = trn_jet_shift (trn_jet_square (a), 0.5), other;
  switch (e->what)
    {
    case ADD:
      return trn_jet_add (a, b);
    case SUB:
      return trn_jet_sub (a, b);
    case NEG:
      return trn_jet_neg (a);
    case SCALE:
      return trn_jet_scale (a, e->k);
    case SHIFT:
      return trn_jet_shift (a, e->k);
    case MUL:
      return trn_jet_mul (a, b);
    case SQUARE:
      return trn_jet_square (a);
    case SQRT:
      return trn_jet_sqrt (safe);
    case INVERSE:
      return trn_jet_inverse (safe);
    case DIV:
      return trn_jet_div (b, safe);
    case SINE:
      trn_jet_sin_cos (a, &safe, &other);
      return safe;
    case COSINE:
      trn_jet_sin_cos (a, &other, &safe);
      return safe;
    case HYPOT:
      return trn_jet_hypot (a, safe);
    case ACOS:
      return trn_jet_acos (trn_jet_div (a, trn_jet_sqrt (safe)));
    default:
      {
        TrnJet x, y;
        trn_jet_direction (a, safe, &x, &y);
        return y;
      }
    }
}

static Taylor
taylor_entry (const Entry *e, Taylor a, Taylor b)
{
  Taylor square = taylor_mul (a, a), safe = square;
  safe.f += 0.5;
  Quad sine, cosine;
  Taylor length = taylor_sqrt (taylor_add (square, taylor_mul (safe, safe), 1));
  switch (e->what)
    {
    case ADD:
      return taylor_add (a, b, 1);
    case SUB:
      return taylor_add (a, b, -1);
    case NEG:
      return taylor_add ((Taylor){ 0 }, a, -1);
    case SCALE:
      return taylor_add ((Taylor){ 0 }, a, e->k);
    case SHIFT:
      return taylor_add (a, (Taylor){ e->k, 0, 0 }, 1);
    case MUL:
      return taylor_mul (a, b);
    case SQUARE:
      return square;
    case SQRT:
      return taylor_sqrt (safe);
    case INVERSE:
      return taylor_inverse (safe);
    case DIV:
      return taylor_mul (b, taylor_inverse (safe));
    case SINE:
      quad_sin_cos (a.f, &sine, &cosine);
      return taylor_of (a, sine, cosine, -sine);
    case COSINE:
      quad_sin_cos (a.f, &sine, &cosine);
      return taylor_of (a, cosine, -sine, -cosine);
    case HYPOT:
      return length;
    case ACOS:
      return taylor_acos (taylor_mul (a, taylor_inverse (taylor_sqrt (safe))));
    default:
      return taylor_mul (safe, taylor_inverse (length));
    }
}

static TrnJet
jet_tape (const Entry *tape, TrnInterval s)
{
  TrnJet values[TAPE] = { trn_jet_variable (s), trn_jet_constant (tape[1].k) };
  for (int i = 2; i < TAPE; i++)
    values[i] = jet_entry (&tape[i], values[tape[i].a], values[tape[i].b]);
  return values[TAPE - 1];
}

/* FALSE where numbers on the way are too large for sines of them in quadruple precision. */
static gboolean
taylor_tape (const Entry *tape, Quad s, Taylor values[TAPE])
{
  values[0] = (Taylor){ s, 1, 0 };
  values[1] = (Taylor){ tape[1].k, 0, 0 };
  for (int i = 2; i < TAPE; i++)
    {
      values[i] = taylor_entry (&tape[i], values[tape[i].a], values[tape[i].b]);
      if (!(fabs ((double)values[i].f) < 1000))
        return FALSE;
    }
  return TRUE;
}

/* Each works on one of the three before it and on any one. */
static void
tape_random (GRand *rand, Entry *tape)
{
  tape[0] = (Entry){ 0 };
  tape[1] = (Entry){ .k = g_rand_double_range (rand, -2, 2) };
  for (int i = 2; i < TAPE; i++)
    {
      int back = g_rand_int_range (rand, 1, 4);
      tape[i] = (Entry){ g_rand_int_range (rand, 0, N_WHAT), i - MIN (back, i),
                         g_rand_int_range (rand, 0, i), g_rand_double_range (rand, -2, 2) };
    }
}

/* The Taylor series is right: second differences over 10⁻⁷ are within 10⁻⁶ of it where no number on
 * the way is large, whose higher derivatives would be so too. */
static void
assert_differences (const Entry *tape, Quad s, const Taylor *at)
{
  const Quad step = 1e-7;
  Taylor before[TAPE], after[TAPE];
  for (int i = 0; i < TAPE; i++)
    if (fabs ((double)at[i].f) + fabs ((double)at[i].g) + fabs ((double)at[i].h) > 20)
      return;
  const int last = TAPE - 1;
  g_assert_true (taylor_tape (tape, s - step, before) && taylor_tape (tape, s + step, after));
  Quad f0 = before[last].f, f1 = after[last].f;
  Quad g = (f1 - f0) / (2 * step), h = (f1 - 2 * at[last].f + f0) / (2 * step * step);
  g_assert_cmpfloat (fabs ((double)(g - at[last].g)), <, 1e-6);
  g_assert_cmpfloat (fabs ((double)(h - at[last].h)), <, 1e-6);
}

static void
test_expressions (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (75);
  guint smooth = 0, n = test_scaled (20000);
  for (guint i = 0; i < n; i++)
    {
      Entry tape[TAPE];
      Taylor values[TAPE];
      tape_random (rand, tape);
      double from = g_rand_double (rand), to = from;
      if (i % 4 > 0)
        to += ldexp (1, -(int)g_rand_int_range (rand, 3, 50));
      TrnJet jet = jet_tape (tape, (TrnInterval){ from, to });
      double s = random_within (rand, (TrnInterval){ from, to });
      if (!taylor_tape (tape, s, values))
        continue;
      const Taylor *at = &values[TAPE - 1];
      g_assert_true (holds_nearly (jet.v, at->f));
      g_assert_true (holds_nearly (jet.d, at->g));
      g_assert_true (holds_nearly (jet.dd, 2 * at->h));
      smooth += trn_jet_is_smooth (&jet);
      if (i % 16 == 0)
        assert_differences (tape, s, values);
    }
  g_assert_cmpuint (smooth, >, n * 8 / 10);
}

/* Vectors: sum, difference, product, length and the direction of a level one, on lines whose
 * derivatives are known: p = (3s, 4s, 0) + (0, 0, 12) is 13 long at s = 1 and grows by
 * (9 + 16) s/13 = 25/13 there; its second derivative is 25/13 − 25²/13³. */
static void
test_vectors (void)
{
  TrnJet s = trn_jet_variable ((TrnInterval){ 1, 1 });
  TrnJet3 p = { trn_jet_scale (s, 3), trn_jet_scale (s, 4), trn_jet_constant (12) };
  TrnJet length = trn_jet3_length (p), x, y, level = trn_jet_direction (p.x, p.y, &x, &y);
  Quad bend = (Quad)25 / 13 - (Quad)625 / (13 * 13 * 13);
  g_assert_true (holds (length.v, 13) && holds (length.d, (Quad)25 / 13));
  g_assert_true (holds (length.dd, bend));
  g_assert_true (holds (level.v, 5) && holds (level.d, 5) && holds (level.dd, 0));
  g_assert_true (holds (x.v, (Quad)3 / 5) && holds (x.d, 0) && holds (x.dd, 0));
  g_assert_true (holds (y.v, (Quad)4 / 5) && holds (y.d, 0));
  TrnJet product = trn_jet3_dot (p, trn_jet3_scale (p, s));
  /* (25s² + 144) s: 169, 219, 150 at 1. */
  g_assert_true (holds (product.v, 169) && holds (product.d, 219) && holds (product.dd, 150));
  TrnJet3 twice = trn_jet3_add (p, p), back = trn_jet3_sub (twice, p);
  g_assert_true (holds (twice.x.d, 6) && holds (back.y.v, 4) && holds (back.z.v, 12));
  TrnJet3 moved
      = trn_jet3_shift (trn_jet3_constant (trn_vec3_make (1, 2, 3)), trn_vec3_make (-1, -2, -3));
  TrnJet none = trn_jet3_length (moved);
  g_assert_true (holds (none.v, 0) && trn_jet3_is_smooth (&moved) && !trn_jet_is_smooth (&none));
  TrnJet both = trn_jet_hull (trn_jet_constant (-3), trn_jet_constant (8));
  g_assert_true (both.v.lo == -3 && both.v.hi == 8);
}

/* Slopes of level vectors that change evenly, x = a + b s and y alike, over spans of all widths:
 * sum, difference, product, inverse, and direction against their derivatives in closed form. Where
 * a span is wide enough to hold a zero there is no inverse and no direction. */
static void
test_slopes (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (79);
  guint n_directions = 0;
  for (guint i = 0; i < test_scaled (20000); i++)
    {
      double n[4], from = g_rand_double_range (rand, -1, 1);
      for (int k = 0; k < 4; k++)
        n[k] = g_rand_double_range (rand, -10, 10);
      TrnInterval span = { from, from + ldexp (1, -g_rand_int_range (rand, 0, 40)) };
      Quad at = random_within (rand, span);
      TrnJet s = trn_jet_variable (span);
      TrnJet jet[2] = { trn_jet_add (trn_jet_constant (n[0]), trn_jet_scale (s, n[1])),
                        trn_jet_add (trn_jet_constant (n[2]), trn_jet_scale (s, n[3])) };
      TrnSlope x = trn_slope_of_jet (&jet[0]), y = trn_slope_of_jet (&jet[1]), ex, ey;
      Quad p = n[0] + n[1] * at, q = n[2] + n[3] * at, dp = n[1], dq = n[3];
      g_assert_true (holds_nearly (trn_slope_add (x, y).d, dp + dq));
      g_assert_true (holds_nearly (trn_slope_sub (x, y).v, p - q));
      g_assert_true (holds_nearly (trn_slope_scale_within (x, (TrnInterval){ -1, 2 }).d, 2 * dp));
      g_assert_true (holds_nearly (trn_slope_mul (x, y).v, p * q));
      g_assert_true (holds_nearly (trn_slope_mul (x, y).d, dp * q + p * dq));
      g_assert_true (holds_nearly (trn_slope_inverse (x).d, -dp / (p * p)));
      Quad length = quad_sqrt (p * p + q * q), turn = (p * dq - q * dp) / (length * length);
      TrnSlope level = trn_slope_direction (x, y, &ex, &ey);
      g_assert_true (holds_nearly (level.v, length));
      g_assert_true (holds_nearly (level.d, (p * dp + q * dq) / length));
      g_assert_true (holds_nearly (ex.v, p / length) && holds_nearly (ey.v, q / length));
      g_assert_true (holds_nearly (ex.d, -turn * q / length));
      g_assert_true (holds_nearly (ey.d, turn * p / length));
      n_directions += trn_interval_is_value (ex.d) && trn_interval_is_value (ey.d);
    }
  g_assert_cmpuint (n_directions, >, test_scaled (20000) * 8 / 10);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/math/jet/operations", test_operations);
  g_test_add_func ("/math/jet/widening-is-needed", test_widening_is_needed);
  g_test_add_func ("/math/jet/least-step-is-needed", test_least_step_is_needed);
  g_test_add_func ("/math/jet/waves", test_waves);
  g_test_add_func ("/math/jet/acos", test_acos);
  g_test_add_func ("/math/jet/none", test_none);
  g_test_add_func ("/math/jet/expressions", test_expressions);
  g_test_add_func ("/math/jet/vectors", test_vectors);
  g_test_add_func ("/math/jet/slopes", test_slopes);
  return g_test_run ();
}
