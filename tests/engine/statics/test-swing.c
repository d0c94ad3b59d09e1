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
#include "test-pendulum.h"
#include "test-scale.h"

#define N_CASES 1500
#define MOST_MOVES 3
#define STEPS_A_PERIOD 240
/* Of the integration. */
#define NEAR 1e-5
#define SAMPLES 400
#define RISES 40
#define CHAIN_STEPS 100

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

/* A level force, by the weight. */
static double wind = 0;

/* Where it hangs at rest. */
static TrnVec3
still (void)
{
  return trn_vec3_unit (trn_vec3_make (wind, 0, -1));
}

typedef struct
{
  const Move *move;  /* NULL: the tip stays */
  double s0, s1, s2; /* s = s0 + s1 t + s2 t²/2 */
  double rope_m, gyration_m;
} Phase;

static void
rates_of (gconstpointer data, double t, const double *x, double *d)
{
  const Phase *p = data;
  const double s = p->s0 + p->s1 * t + 0.5 * p->s2 * t * t, speed = p->s1 + p->s2 * t;
  double l = p->rope_m, l1 = 0, up, up2;
  TrnVec3 force = { wind * TRN_GRAVITY_M_S2, 0, -TRN_GRAVITY_M_S2 };
  if (p->move != NULL)
    {
      l = length (p->move, s);
      rise (p->move, s, &up, &up2);
      l1 = (up - p->move->hoist_m) * speed;
      force = trn_vec3_sub (force, acceleration (p->move, s, speed, p->s2));
    }
  const double inertia = l * l + p->gyration_m * p->gyration_m;
  test_pendulum_rates (x, force, l / inertia, 2 * l * l1 / inertia, d);
}

static double
period (double rope_m)
{
  return 2 * G_PI * sqrt (rope_m / TRN_GRAVITY_M_S2);
}

/* The greatest chord from there in it. */
static double
run_phase (const Phase *p, double seconds, double shortest_m, TestPendulum *x)
{
  const guint n = 1 + (guint)(seconds * STEPS_A_PERIOD / period (shortest_m));
  double most = 0;
  for (guint i = 0; i < n && seconds > 0; i++)
    {
      test_pendulum_step (rates_of, p, i * seconds / n, seconds / n, x);
      most = fmax (most, trn_vec3_distance (x->n, still ()));
    }
  return most;
}

static double
run_move (const Move *m, double shortest_m, double gyration_m, TestPendulum *x)
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
                         .hook_m = fabs (m->hoist_m),
                         .least_m = m->rope_m };
  for (guint i = 0; i <= SAMPLES; i++)
    {
      const double s = (double)i / SAMPLES, l = length (m, s);
      double up, up2;
      rise (m, s, &up, &up2);
      swing.least_m = fmin (swing.least_m, l);
      swing.up_m = fmax (swing.up_m, fabs (up));
      swing.rope_m = fmax (swing.rope_m, fabs (up - m->hoist_m));
      swing.up2_m += (1 + NEAR) * fabs (up2) / SAMPLES;
      if (i < SAMPLES)
        swing.shortens += fmax (0, log (l / length (m, s + 1.0 / SAMPLES)));
    }
  swing.rope_shortens = trn_swing_most_force (swing.least_m) * swing.shortens;
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
  TestPendulum x = { still (), { 0, 0, 0 } };
  const double gyration_m = g_test_rand_bit () ? pick (0, 0.5) * rope_m : 0;
  const guint n = 1 + (guint)g_test_rand_int_range (0, MOST_MOVES);
  double chord = 0, growth = 1, bound = 0, share = 0, least_m = rope_m;
  for (guint i = 0; i < n; i++)
    {
      const Move m = pick_move (kind == RAISED && i == 0 ? STRAIGHT : kind, rope_m);
      double shortest_m;
      TrnSwingMove swing = swing_of (&m, &shortest_m);
      if (!(shortest_m > 3))
        return share;
      chord = trn_swing_chord (&swing, chord);
      growth *= trn_swing_growth (&swing);
      bound = chord + (growth - 1) * wind;
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

/* In a wind that stays, it swings about where that has it; on a tip that rises or falls by more
 * than it would without. */
static void
test_wind (void)
{
  const guint n = test_scaled (N_CASES);
  static const Kind kinds[] = { STRAIGHT, LUFF, RAISED, COMBINED };
  for (guint k = 0; k < G_N_ELEMENTS (kinds); k++)
    {
      double tightest = 0;
      for (guint i = 0; i < n; i++)
        {
          wind = pick (0, 0.19);
          tightest = fmax (tightest, run_case (kinds[k], pick (5, 60)));
        }
      g_test_message ("%s in wind: %.3f of the bound at most", names[kinds[k]], tightest);
    }
  /* A tip that goes mostly up or down, by the worst of some times. */
  double without = 0;
  for (guint i = 0; i < RISES; i++)
    {
      const double half_s = period (15) / 2;
      const Move m = { .seconds = half_s * (0.5 + 0.1 * (i % 20)),
                       .ramp_s = half_s / 4,
                       .radius_m = 20,
                       .radius_by_m = 0.05,
                       .raise_m = i < RISES / 2 ? 1.6 : -1.6,
                       .hoist_m = i < RISES / 2 ? 1.6 : -1.6,
                       .rope_m = 15 };
      wind = 0.19;
      double shortest_m;
      const TrnSwingMove swing = swing_of (&m, &shortest_m);
      const double chord = trn_swing_chord (&swing, 0);
      TestPendulum x = { still (), { 0, 0, 0 } };
      double most = run_move (&m, shortest_m, 0, &x);
      const Phase after = { .rope_m = 15 };
      most = fmax (most, run_phase (&after, 2 * half_s, 15, &x));
      g_assert_cmpfloat (most, <=, chord + (trn_swing_growth (&swing) - 1) * wind + NEAR);
      without = fmax (without, most / chord);
    }
  wind = 0;
  g_test_message ("%.3f of what there would be without wind", without);
  g_assert_cmpfloat (without, >, 1);
}

/* ---- it nods ---- */

/* In a plane: a link from the tip to the hook, a rigid body that turns about that. */
typedef struct
{
  double link_m, nods_m, gyration_m;
  double block; /* at the hook, as a share of the mass of the body */
  /* From the start of a phase on, by time: the tip's level acceleration; the rate of the link and
   * of that; how fast the tip gains height. */
  double tip, link1, link2, tip_up;
} Chain;

static double
chain_link (const Chain *c, double t)
{
  return c->link_m + c->link1 * t + 0.5 * c->link2 * t * t;
}

/* Of Lagrange's equations, by mass. */
static void
chain_rates (gconstpointer data, double t, const double *x, double *d)
{
  const Chain *c = data;
  const double l = chain_link (c, t), l1 = c->link1 + c->link2 * t, h = c->nods_m,
               g = TRN_GRAVITY_M_S2 + c->tip_up, a = x[0], b = x[1], mixed = l * h * cos (a - b),
               turns = l * h * sin (a - b), all = 1 + c->block;
  const double m[2] = { all * l * l, h * h + c->gyration_m * c->gyration_m };
  const double q[2]
      = { -turns * x[3] * x[3] - all * l * (g * sin (a) + c->tip * cos (a) + 2 * l1 * x[2]),
          turns * x[2] * x[2]
              - h
                    * (g * sin (b) + c->tip * cos (b) + 2 * l1 * x[2] * cos (a - b)
                       + c->link2 * sin (a - b)) };
  const double det = m[0] * m[1] - mixed * mixed;
  d[0] = x[2];
  d[1] = x[3];
  d[2] = (q[0] * m[1] - q[1] * mixed) / det;
  d[3] = (q[1] * m[0] - q[0] * mixed) / det;
}

/* What the rope bears, by the weight of all that hangs: along it, of what gravity and the tip leave
 * of what hook and body are accelerated by. */
static double
chain_force (const Chain *c, double t, const double *x)
{
  double d[4];
  chain_rates (c, t, x, d);
  const double l = chain_link (c, t), g = TRN_GRAVITY_M_S2 + c->tip_up, a = x[0], b = x[1],
               hook = l * x[2] * x[2] - c->link2 + g * cos (a) - c->tip * sin (a),
               body = c->nods_m * (x[3] * x[3] * cos (a - b) + d[3] * sin (a - b));
  return ((1 + c->block) * hook + body) / ((1 + c->block) * (g - c->link2));
}

/* What they attain. */
typedef struct
{
  double hook_m, far_m, chord, force;
} Nods;

/* @seconds at an even acceleration; @x: both angles and their rates; a point @far_m from the hook.
 */
static void
chain_run (Chain *c, double tip, double link2, double tip_up, double seconds, double far_m,
           double *x, Nods *most)
{
  c->tip = tip;
  c->link2 = link2;
  c->tip_up = tip_up;
  const double shortest_m = fmin (c->link_m, chain_link (c, seconds)),
               quick_s = 2 * G_PI
                         * sqrt (fmin (shortest_m, c->gyration_m * c->gyration_m / c->nods_m)
                                 / TRN_GRAVITY_M_S2);
  const guint n = 1 + (guint)(seconds * CHAIN_STEPS / quick_s);
  for (guint i = 0; i < n && seconds > 0; i++)
    {
      test_runge_kutta (chain_rates, c, i * seconds / n, seconds / n, 4, x);
      const double t = (i + 1) * seconds / n, l = chain_link (c, t), a = 2 * sin (x[0] / 2),
                   b = 2 * sin (x[1] / 2);
      most->hook_m = fmax (most->hook_m, fabs (l * a));
      most->chord = fmax (most->chord, fabs (b));
      /* Of those all round the one that goes farthest. */
      most->far_m = fmax (most->far_m, fabs (l * a) + fabs (far_m * b));
      most->force = fmax (most->force, chain_force (c, t, x));
    }
  c->link_m = chain_link (c, fmax (0, seconds));
  c->link1 += c->link2 * fmax (0, seconds);
}

/* The tip goes @way_m along the level and @up_m up, the hook @hoist_m. */
static void
chain_move (Chain *c, const TrnSwingMove *m, double way_m, double up_m, double hoist_m,
            double far_m, double *x, Nods *most)
{
  const double u = fmin (m->ramp_s, m->seconds / 2), even_s = m->seconds - 2 * u,
               b = 1 / (u * (m->seconds - u)), link_m = up_m - hoist_m;
  chain_run (c, b * way_m, b * link_m, b * up_m, u, far_m, x, most);
  chain_run (c, 0, 0, 0, even_s, far_m, x, most);
  chain_run (c, -b * way_m, -b * link_m, -b * up_m, u, far_m, x, most);
  c->link1 = 0; /* but for rounding */
}

static void
test_nods (void)
{
  const guint n = test_scaled (N_CASES);
  Nods tightest = { 0, 0, 0, 0 };
  double as_one = 0, without_block = 0;
  for (guint i = 0; i < n; i++)
    {
      Chain c = { .link_m = pick (2, 40), .nods_m = pick (0.5, 10) };
      if (i % 2 == 1)
        c.block = pick (0, 2);
      c.gyration_m = c.nods_m * pick (0.2, 1.5);
      const double whole_m = c.link_m + c.nods_m, far_m = c.nods_m * pick (1, 3);
      double x[4] = { 0, 0, 0, 0 };
      Nods most = { 0, 0, 0, 0 };
      double chord = 0;
      const guint n_moves = 1 + (guint)g_test_rand_int_range (0, MOST_MOVES);
      for (guint k = 0; k < n_moves; k++)
        {
          TrnSwingMove m = { .ramp_s = pick_seconds (whole_m, 10), .least_m = whole_m };
          m.seconds = m.ramp_s + pick_seconds (whole_m, 20);
          const double way_m = pick (-0.1, 0.1) * fmin (m.ramp_s, m.seconds / 2) * m.seconds;
          m.level_m = fabs (way_m);
          chord = trn_swing_chord (&m, chord);
          chain_move (&c, &m, way_m, 0, 0, far_m, x, &most);
        }
      chain_run (&c, 0, 0, 0, 2 * period (whole_m), far_m, x, &most);
      if (c.block == 0)
        as_one = fmax (as_one, most.far_m / (chord * (c.link_m + far_m)));
      else
        without_block = fmax (without_block, most.chord / (chord * sqrt (whole_m / c.nods_m)));
      chord *= sqrt (1 + c.block);
      const double hook_m = trn_swing_aside (chord, whole_m, c.link_m, 0, 1),
                   load_m = trn_swing_aside (chord, whole_m, c.link_m, far_m, c.nods_m),
                   turned = chord * sqrt (whole_m / c.nods_m);
      g_assert_cmpfloat (most.hook_m, <=, hook_m * (1 + NEAR) + NEAR);
      g_assert_cmpfloat (most.far_m, <=, load_m * (1 + NEAR) + NEAR);
      g_assert_cmpfloat (most.chord, <=, turned * (1 + NEAR) + NEAR);
      tightest.hook_m = fmax (tightest.hook_m, most.hook_m / hook_m);
      tightest.far_m = fmax (tightest.far_m, most.far_m / load_m);
      tightest.chord = fmax (tightest.chord, most.chord / turned);
    }
  g_test_message ("of the bound at most: hook %.3f, load %.3f, turn %.3f; as one body %.3f, "
                  "without the mass of the block %.3f",
                  tightest.hook_m, tightest.far_m, tightest.chord, as_one, without_block);
  if (n == N_CASES)
    {
      g_assert_cmpfloat (tightest.far_m, >, 0.5);
      /* One body would not do, nor would it without the block. */
      g_assert_cmpfloat (as_one, >, 1);
      g_assert_cmpfloat (without_block, >, 1);
    }
}

/* Of a chain as long as that whose link @m changes by @link_m, with the tip @up_m up. */
static void
set_change (const Chain *c, double up_m, double hoist_m, TrnSwingMove *m)
{
  const double from_m = c->link_m, to_m = from_m + up_m - hoist_m;
  m->up_m = fabs (up_m);
  m->hook_m = fabs (hoist_m);
  m->rope_m = fabs (to_m - from_m);
  m->least_m = fmin (from_m, to_m) + c->nods_m;
  if (to_m < from_m)
    {
      m->shortens = log ((from_m + c->nods_m) / (to_m + c->nods_m));
      m->rope_shortens = trn_swing_most_force (to_m) * log (from_m / to_m);
    }
}

/* Of what the bound allows; NAN where the rope bears more than it may, or the load turns too far.
 */
static double
run_on_rope (Chain *c, guint n_moves, double far_m, const TrnSwingMove *moves, const double *ways_m,
             const double *ups_m, const double *hoists_m, double *force)
{
  double x[4] = { 0, 0, 0, 0 }, chord = 0, link_m = c->link_m;
  Nods most = { 0, 0, 0, 0 };
  for (guint k = 0; k < n_moves; k++)
    {
      TrnSwingMove m = moves[k];
      m.level_m = fabs (ways_m[k]);
      set_change (c, ups_m[k], hoists_m[k], &m);
      link_m = fmax (link_m, c->link_m + ups_m[k] - hoists_m[k]);
      chord = trn_swing_chord (&m, chord);
      chain_move (c, &m, ways_m[k], ups_m[k], hoists_m[k], far_m, x, &most);
    }
  chain_run (c, 0, 0, 0, 2 * period (c->link_m + c->nods_m), far_m, x, &most);
  const double whole_m = link_m + c->nods_m;
  chord *= sqrt (1 + c->block);
  const double turned = chord * sqrt (whole_m / c->nods_m),
               hook_m = trn_swing_aside (chord, whole_m, link_m, 0, 1),
               load_m = trn_swing_aside (chord, whole_m, link_m, far_m, c->nods_m);
  if (!(turned < 0.19))
    return NAN;
  *force = fmax (*force, most.force);
  return fmax (most.hook_m / hook_m, fmax (most.far_m / load_m, most.chord / turned));
}

/* Travels and hoists, while the tip goes up or down. */
static void
test_nods_on_rope (void)
{
  const guint n = 2 * test_scaled (N_CASES);
  double tightest = 0, force = 0;
  guint n_judged = 0;
  for (guint i = 0; i < n; i++)
    {
      Chain c = { .link_m = pick (3, 40), .nods_m = pick (0.5, 30) };
      c.block = i % 2 == 1 ? pick (0, 2) : 0;
      c.gyration_m = c.nods_m * pick (0.2, 1.5);
      TrnSwingMove moves[MOST_MOVES + 1];
      double ways_m[MOST_MOVES + 1], ups_m[MOST_MOVES + 1], hoists_m[MOST_MOVES + 1],
          link_m = c.link_m;
      const guint n_moves = 1 + (guint)g_test_rand_int_range (0, MOST_MOVES);
      for (guint k = 0; k < n_moves; k++)
        {
          moves[k] = (TrnSwingMove){ .ramp_s = pick_seconds (link_m + c.nods_m, 10) };
          moves[k].seconds = moves[k].ramp_s + pick_seconds (link_m + c.nods_m, 20);
          const double u = fmin (moves[k].ramp_s, moves[k].seconds / 2),
                       most_m = u * (moves[k].seconds - u);
          ways_m[k] = k == 0 || i % 3 == 0 ? pick (-0.02, 0.02) * most_m : 0;
          ups_m[k] = i % 4 == 0 ? CLAMP (pick (-1, 1) * link_m, -most_m, most_m) : 0;
          hoists_m[k] = CLAMP (pick (-0.3, 0.97) * link_m, -2 * most_m, 2 * most_m);
          hoists_m[k] = fmin (hoists_m[k], ups_m[k] + 0.97 * link_m);
          link_m += ups_m[k] - hoists_m[k];
        }
      const double share = run_on_rope (&c, n_moves, c.nods_m * pick (1, 3), moves, ways_m, ups_m,
                                        hoists_m, &force);
      if (isnan (share))
        continue;
      n_judged++;
      tightest = fmax (tightest, share);
      g_assert_cmpfloat (share, <=, 1 + NEAR);
    }
  g_assert_cmpuint (2 * n_judged, >, n);
  g_test_message ("%u of %u judged; of the bound at most %.3f; ropes bear up to %.3f", n_judged, n,
                  tightest, force);
}

/* ---- it nods about a line that slopes ---- */

/* By the axis @u through the origin. */
static TrnVec3
turned (TrnVec3 v, TrnVec3 u, double angle)
{
  const TrnVec3 along = trn_vec3_scale (u, trn_vec3_dot (u, v));
  const TrnVec3 across = trn_vec3_sub (v, along);
  return trn_vec3_add (along, trn_vec3_add (trn_vec3_scale (across, cos (angle)),
                                            trn_vec3_scale (trn_vec3_cross (u, v), sin (angle))));
}

/* Held in any attitude that has so much of its weight lifted: link, a triangle of legs that tilts,
 * and a load that turns about the line through two points of these. */
static void
test_slope (void)
{
  const guint n = 200 * test_scaled (N_CASES);
  double tightest = 0, without = 0;
  for (guint i = 0; i < n; i++)
    {
      const double link_m = pick (1, 20), arm_m = pick (1, 6), h_m = pick (0.5, 5),
                   slope = pick (0, 1), whole_m = link_m + arm_m + h_m, far_m = pick (2, 12);
      const double swing = pick (0, 0.05), tilt = pick (-0.05, 0.05), nod = pick (-0.1, 0.1);
      /* The level way of the line is along x. */
      const double way = pick (-1, 1), to = pick (0, 2 * G_PI);
      const TrnVec3 line = { cos (slope), 0, sin (slope) }, tilts = { cos (way), sin (way), 0 };
      /* A point square to that line, where the load often goes farthest, or any. */
      TrnVec3 point = { -sin (slope) * cos (to), sin (to), cos (slope) * cos (to) };
      if (i % 2 == 0)
        point = trn_vec3_unit (trn_vec3_make (pick (-1, 1), pick (-1, 1), pick (-1, 1)));
      point = trn_vec3_scale (point, far_m);
      const TrnVec3 joint = turned (trn_vec3_make (0, 0, -arm_m), tilts, tilt);
      const TrnVec3 cog = turned (turned (trn_vec3_make (0, 0, -h_m), line, nod), tilts, tilt);
      const double lifted_m = link_m * (1 - cos (swing)) + arm_m + joint.z + h_m + cog.z;
      const double chord = sqrt (2 * lifted_m / whole_m);
      const TrnVec3 goes
          = trn_vec3_sub (trn_vec3_add (joint, turned (turned (point, line, nod), tilts, tilt)),
                          trn_vec3_add (trn_vec3_make (0, 0, -arm_m), point));
      const double aside_m = 2 * link_m * sin (swing / 2) + trn_vec3_length (goes);
      const TrnInterval arm = { arm_m, arm_m };
      const double nods_m = h_m * cos (slope) * cos (slope),
                   chain_m = link_m + trn_swing_arm_m (arm, far_m * tan (slope)),
                   bound_m = trn_swing_aside (chord, whole_m, chain_m, far_m, nods_m);
      g_assert_cmpfloat (aside_m, <=, bound_m * (1 + NEAR));
      tightest = fmax (tightest, aside_m / bound_m);
      without = fmax (without,
                      aside_m / trn_swing_aside (chord, whole_m, link_m + arm_m, far_m, nods_m));
    }
  g_test_message ("of the bound at most %.3f; were legs plumb %.3f", tightest, without);
  if (n >= 200 * N_CASES)
    g_assert_cmpfloat (without, >, 1.05);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/statics/swing/pendulum", test_pendulum);
  g_test_add_func ("/statics/swing/wind", test_wind);
  g_test_add_func ("/statics/swing/nods", test_nods);
  g_test_add_func ("/statics/swing/nods-on-rope", test_nods_on_rope);
  g_test_add_func ("/statics/swing/slope", test_slope);
  return g_test_run ();
}
