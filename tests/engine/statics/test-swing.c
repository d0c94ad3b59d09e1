/* How far a load swings, past the true pendulum: a rigid body about a tip that goes its way while
 * the rope changes, integrated by the classical method of Runge and Kutta of fourth order. The
 * direction n of unit length from tip to load has (l² + k²) n'' = l F − 2 l l' n' and what keeps it
 * of that length, F what is square to n of gravity and of the acceleration of the tip, turned
 * round. Moves come one after the other, without a rest, so that what one leaves meets the next at
 * any moment; those that are as long as some half periods come often, as their starts and stops
 * add up. */
#include "swing.h"

#include <math.h>

#include "gravity.h"
#include "test-scale.h"
#include "vec3.h"

#define N_CASES 1500
#define MOST_MOVES 3
#define STEPS_A_PERIOD 240
/* Of the integration. */
#define NEAR 1e-5
#define SAMPLES 400

typedef enum
{
  STRAIGHT,
  SLEW,
  LUFF,
  COMBINED,
  ROUND,  /* a slew that goes far, up to speed little by little */
  SPIN,   /* the hook goes round near by, about as often as the load swings */
  RAISED, /* the tip goes straight up or down, while the load swings */
} Kind;
#define N_KINDS (RAISED + 1)

static const char *const names[N_KINDS]
    = { "straight", "slew", "luff", "combined", "round", "spin", "raised" };

typedef struct
{
  double seconds, ramp_s, angle_rad, radius_m, radius_by_m, hoist_m;
  double boom_m;  /* the tip is at its end; 0: it keeps its height but for … */
  double raise_m; /* … what it goes up evenly */
  double rope_m;  /* as it begins */
} Move;

/* ---- where the tip is ---- */

static double
height (const Move *m, double s)
{
  const double r = m->radius_m + s * m->radius_by_m;
  return m->boom_m > 0 ? sqrt (m->boom_m * m->boom_m - r * r) : s * m->raise_m;
}

static double
length (const Move *m, double s)
{
  return m->rope_m + height (m, s) - height (m, 0) - s * m->hoist_m;
}

/* The first two derivatives of the height by s: h h' = −r r', h h″ = −r'² − h'². */
static void
rise (const Move *m, double s, double *first, double *second)
{
  *first = m->raise_m;
  *second = 0;
  if (m->boom_m == 0)
    return;
  const double r = m->radius_m + s * m->radius_by_m, h = height (m, s);
  *first = -r * m->radius_by_m / h;
  *second = (-m->radius_by_m * m->radius_by_m - *first * *first) / h;
}

/* Of the tip, at the progress s with s' and s″ by time. */
static TrnVec3
acceleration (const Move *m, double s, double s1, double s2)
{
  const double r = m->radius_m + s * m->radius_by_m, a = m->angle_rad, k = m->radius_by_m;
  const double out = -a * a * r * s1 * s1 + k * s2, along = 2 * a * k * s1 * s1 + a * r * s2;
  double up, up2;
  rise (m, s, &up, &up2);
  return trn_vec3_make (out * cos (a * s) - along * sin (a * s),
                        out * sin (a * s) + along * cos (a * s), up2 * s1 * s1 + up * s2);
}

/* ---- the pendulum ---- */

typedef struct
{
  TrnVec3 n, w;
} State;

typedef struct
{
  const Move *move;  /* NULL: the tip stays */
  double s0, s1, s2; /* s = s0 + s1 t + s2 t²/2 */
  double rope_m, gyration_m;
} Phase;

static State
rate (const Phase *p, double t, const State *x)
{
  const double s = p->s0 + p->s1 * t + 0.5 * p->s2 * t * t, speed = p->s1 + p->s2 * t;
  double l = p->rope_m, l1 = 0, up, up2;
  TrnVec3 force = { 0, 0, -TRN_GRAVITY_M_S2 };
  if (p->move != NULL)
    {
      l = length (p->move, s);
      rise (p->move, s, &up, &up2);
      l1 = (up - p->move->hoist_m) * speed;
      force = trn_vec3_sub (force, acceleration (p->move, s, speed, p->s2));
    }
  const double inertia = l * l + p->gyration_m * p->gyration_m;
  const TrnVec3 square = trn_vec3_sub (force, trn_vec3_scale (x->n, trn_vec3_dot (force, x->n)));
  TrnVec3 w = trn_vec3_sub (trn_vec3_scale (square, l / inertia),
                            trn_vec3_scale (x->w, 2 * l * l1 / inertia));
  w = trn_vec3_sub (w, trn_vec3_scale (x->n, trn_vec3_length_squared (x->w)));
  return (State){ x->w, w };
}

static State
plus (const State *x, const State *d, double k)
{
  return (State){ trn_vec3_add (x->n, trn_vec3_scale (d->n, k)),
                  trn_vec3_add (x->w, trn_vec3_scale (d->w, k)) };
}

static void
step (const Phase *p, double t, double dt, State *x)
{
  const State a = rate (p, t, x);
  State at = plus (x, &a, 0.5 * dt);
  const State b = rate (p, t + 0.5 * dt, &at);
  at = plus (x, &b, 0.5 * dt);
  const State c = rate (p, t + 0.5 * dt, &at);
  at = plus (x, &c, dt);
  const State d = rate (p, t + dt, &at);
  *x = plus (x, &a, dt / 6);
  *x = plus (x, &b, dt / 3);
  *x = plus (x, &c, dt / 3);
  *x = plus (x, &d, dt / 6);
  x->n = trn_vec3_unit (x->n);
  x->w = trn_vec3_sub (x->w, trn_vec3_scale (x->n, trn_vec3_dot (x->n, x->w)));
}

static double
period (double rope_m)
{
  return 2 * G_PI * sqrt (rope_m / TRN_GRAVITY_M_S2);
}

/* The greatest chord from plumb in it. */
static double
run_phase (const Phase *p, double seconds, double shortest_m, State *x)
{
  const TrnVec3 plumb = { 0, 0, -1 };
  const guint n = 1 + (guint)(seconds * STEPS_A_PERIOD / period (shortest_m));
  double most = 0;
  for (guint i = 0; i < n && seconds > 0; i++)
    {
      step (p, i * seconds / n, seconds / n, x);
      most = fmax (most, trn_vec3_distance (x->n, plumb));
    }
  return most;
}

static double
run_move (const Move *m, double shortest_m, double gyration_m, State *x)
{
  const double u = fmin (m->ramp_s, m->seconds / 2), r = 1 / (m->seconds - u);
  const Phase start = { m, 0, 0, r / u, 0, gyration_m },
              even = { m, r * u / 2, r, 0, 0, gyration_m },
              stop = { m, 1 - r * u / 2, r, -r / u, 0, gyration_m };
  /* Each move begins on its own way. */
  double most = run_phase (&start, u, shortest_m, x);
  most = fmax (most, run_phase (&even, m->seconds - 2 * u, shortest_m, x));
  return fmax (most, run_phase (&stop, u, shortest_m, x));
}

/* ---- the bound ---- */

/* Its way, looked at closely. */
static TrnSwingMove
swing_of (const Move *m, double *shortest_m)
{
  const double a = fabs (m->angle_rad), k = m->radius_by_m, r = fmax (m->radius_m, m->radius_m + k);
  TrnSwingMove swing = { .seconds = m->seconds,
                         .ramp_s = m->ramp_s,
                         .level_m = hypot (a * r, k),
                         .level2_m = a * hypot (a * r, 2 * k),
                         .level3_m = a * a * hypot (a * r, 3 * k),
                         .least_m = m->rope_m };
  for (guint i = 0; i <= SAMPLES; i++)
    {
      const double s = (double)i / SAMPLES, l = length (m, s);
      double up, up2;
      rise (m, s, &up, &up2);
      swing.least_m = fmin (swing.least_m, l);
      swing.up_m = fmax (swing.up_m, fabs (up));
      swing.up2_m += (1 + NEAR) * fabs (up2) / SAMPLES;
      if (i < SAMPLES)
        swing.shortens += fmax (0, log (l / length (m, s + 1.0 / SAMPLES)));
    }
  *shortest_m = swing.least_m;
  return swing;
}

/* ---- random cases ---- */

static double
pick (double lo, double hi)
{
  return g_test_rand_double_range (lo, hi);
}

static double
pick_seconds (double rope_m, double most)
{
  const double half_s = period (rope_m) / 2;
  return g_test_rand_bit () ? half_s * g_test_rand_int_range (1, 9) : pick (1, most);
}

static Move
pick_move (Kind kind, double rope_m)
{
  Move m = { .radius_m = pick (8, 30), .rope_m = rope_m };
  m.ramp_s = pick_seconds (rope_m, 20);
  m.seconds = m.ramp_s + pick_seconds (rope_m, 60);
  /* Twice the acceleration by g for each start and stop, so that most are within some degrees. */
  const double way_m = 0.02 * TRN_GRAVITY_M_S2 * pick (0.05, 1) * m.ramp_s * m.seconds;
  if (kind == STRAIGHT || kind == COMBINED)
    m.radius_by_m = CLAMP (g_test_rand_bit () ? way_m : -way_m, 5 - m.radius_m, 40);
  if (kind == SLEW || kind == COMBINED)
    m.angle_rad = fmin (way_m / m.radius_m, 3) * (g_test_rand_bit () ? 1 : -1);
  if (kind == LUFF)
    {
      m.radius_by_m = CLAMP (g_test_rand_bit () ? way_m : -way_m, 5 - m.radius_m, 36 - m.radius_m);
      m.boom_m = 40;
    }
  if (kind == ROUND)
    {
      m.ramp_s = pick (10, 60);
      m.seconds = 2 * m.ramp_s + pick (0, 60);
      m.angle_rad = fmin (6, (m.seconds - m.ramp_s)
                                 * sqrt (TRN_GRAVITY_M_S2 * pick (0.01, 0.08) / m.radius_m));
    }
  if (kind == SPIN)
    {
      m.ramp_s = pick_seconds (rope_m, 5);
      m.seconds = 2 * m.ramp_s + (g_test_rand_bit () ? pick (0, 1) : pick (1, 30));
      m.angle_rad = pick (0.7, 1.3) * 2 * G_PI / period (rope_m) * (m.seconds - m.ramp_s);
      m.radius_m = pick (0.0005, 0.02) * rope_m;
    }
  if (kind == RAISED)
    m.raise_m = pick (-0.05, 0.05) * TRN_GRAVITY_M_S2 * m.ramp_s * (m.seconds - m.ramp_s);
  if (kind == RAISED)
    m.hoist_m = m.raise_m;
  else if (kind == COMBINED || (kind != SPIN && g_test_rand_bit ()))
    m.hoist_m = pick (-1, 0.6) * rope_m;
  return m;
}

/* The greatest share of its bound that a case attains. */
static double
run_case (Kind kind, double rope_m)
{
  State x = { { 0, 0, -1 }, { 0, 0, 0 } };
  const double gyration_m = g_test_rand_bit () ? pick (0, 0.5) * rope_m : 0;
  const guint n = 1 + (guint)g_test_rand_int_range (0, MOST_MOVES);
  double bound = 0, share = 0, least_m = rope_m;
  for (guint i = 0; i < n; i++)
    {
      const Move m = pick_move (kind == RAISED && i == 0 ? STRAIGHT : kind, rope_m);
      double shortest_m;
      TrnSwingMove swing = swing_of (&m, &shortest_m);
      if (!(shortest_m > 3))
        return share;
      bound = trn_swing_chord (&swing, bound);
      if (!(bound < 0.19))
        return share;
      const double most = run_move (&m, shortest_m, gyration_m, &x);
      g_assert_cmpfloat (most, <=, bound + NEAR);
      rope_m = length (&m, 1);
      least_m = rope_m;
      share = fmax (share, most / bound);
    }
  const Phase after = { .rope_m = least_m, .gyration_m = gyration_m };
  const double most = run_phase (&after, 2 * period (least_m), least_m, &x);
  g_assert_cmpfloat (most, <=, bound + NEAR);
  return fmax (share, most / bound);
}

static void
test_pendulum (void)
{
  const guint n = test_scaled (N_CASES);
  for (Kind kind = STRAIGHT; kind < N_KINDS; kind++)
    {
      double tightest = 0, sum = 0;
      for (guint i = 0; i < n; i++)
        {
          const double share = run_case (kind, pick (5, 60));
          tightest = fmax (tightest, share);
          sum += share;
        }
      g_test_message ("%s: %.3f of the bound at most, %.3f on average", names[kind], tightest,
                      sum / n);
      g_assert_cmpfloat (tightest, <=, 1 + NEAR);
      if (n == N_CASES)
        g_assert_cmpfloat (tightest, >, 0.25);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/statics/swing/pendulum", test_pendulum);
  return g_test_run ();
}
