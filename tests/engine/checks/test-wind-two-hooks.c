/* Wind on a load on two hooks, one above the other or beside it, level or not: the certified way
 * against the pose of least energy in the plumb plane through both ropes, found by search. */
#include <math.h>

#include "allowance.h"
#include "test-checks.h"
#include "test-scale.h"

#define GRAVITY 9.80665
#define TIP_M 60
#define STEP_RAD 2e-4
#define GUSTS 60
#define LENGTHS 20

/* In the plane: along, and up. */
typedef struct
{
  double x, z;
} Point;

/* A bar of a length and a width of 1 m, turned by @pitch_rad from upright, its foot at [0, 20]; in
 * its own frame main, tail and centre of gravity. */
typedef struct
{
  double length_m, pitch_rad, mass_kg, speed_m_s, level_m;
  Point main, tail, cog;
  double beside_m; /* of the centre of gravity */
  double up_m[2];  /* hooks above main and tail, with legs to both sides of the plane: in the plane
                      rope and legs are one chain, which is no longer or shorter for that */
  double spread_m[2]; /* with legs in the plane instead, to points so far on both sides along the
                         level as drawn: hook and load are one body until a leg goes slack */
} Bar;

static Point
turned (Point p, double rad)
{
  return (Point){ p.x * cos (rad) + p.z * sin (rad), -p.x * sin (rad) + p.z * cos (rad) };
}

static Point
way (Point from, Point to)
{
  return (Point){ to.x - from.x, to.z - from.z };
}

static Point
drawn (const Bar *bar, Point p)
{
  const Point t = turned (p, bar->pitch_rad);
  return (Point){ t.x, t.z + 20 };
}

/* ---- the pose of least energy ---- */

typedef struct
{
  Point tips[2], pull; /* the weight and the wind as one force */
  double chain_m[2];
  double leg_m[2]; /* of legs in the plane, below which the chain is the rope; 0: none */
  Point side[2];   /* the way from the middle of their ends to one of these, as it is turned */
} Ropes;

static gboolean
is_within (const Ropes *ropes, Point p, Point second)
{
  const Point q = { p.x + second.x, p.z + second.z };
  const double a = hypot (p.x - ropes->tips[0].x, p.z - ropes->tips[0].z),
               b = hypot (q.x - ropes->tips[1].x, q.z - ropes->tips[1].z);
  return a <= ropes->chain_m[0] + 1e-9 && b <= ropes->chain_m[1] + 1e-9;
}

static void
try_place (const Ropes *ropes, Point p, Point second, Point *best, double *most)
{
  const double along = p.x * ropes->pull.x + p.z * ropes->pull.z;
  if (!is_within (ropes, p, second) || along <= *most)
    return;
  *most = along;
  *best = p;
}

/* Where the main point is pulled to with the tail point @second from it; how far along the pull;
 * −INFINITY: nowhere. */
static double
place (const Ropes *ropes, Point second, Point *best)
{
  const Point centres[2]
      = { ropes->tips[0], { ropes->tips[1].x - second.x, ropes->tips[1].z - second.z } };
  const double force = hypot (ropes->pull.x, ropes->pull.z);
  double most = -INFINITY;
  for (guint i = 0; i < 2; i++)
    try_place (ropes,
               (Point){ centres[i].x + ropes->chain_m[i] * ropes->pull.x / force,
                        centres[i].z + ropes->chain_m[i] * ropes->pull.z / force },
               second, best, &most);
  const Point d = way (centres[0], centres[1]);
  const double r = ropes->chain_m[0], s = ropes->chain_m[1], l = hypot (d.x, d.z);
  const double a = (l * l + r * r - s * s) / (2 * l), h2 = r * r - a * a;
  for (int side = -1; side <= 1 && l > 0 && h2 >= 0; side += 2)
    {
      const double h = side * sqrt (h2);
      const Point p
          = { centres[0].x + (a * d.x - h * d.z) / l, centres[0].z + (a * d.z + h * d.x) / l };
      try_place (ropes, p, second, best, &most);
    }
  return most;
}

/* ---- legs in the plane ---- */

static double
dot (Point a, Point b)
{
  return a.x * b.x + a.z * b.z;
}

static Point
farther (Point from, double by, Point to)
{
  return (Point){ from.x + by * to.x, from.z + by * to.z };
}

/* Where a hook is, seen from the middle of the ends of its legs, farthest the way @d of length 1;
 * both legs are of the same length, and their ends @side to both sides. */
static Point
farthest_hook (double leg_m, Point side, Point d)
{
  const Point ends[2] = { side, { -side.x, -side.z } };
  for (guint i = 0; i < 2; i++)
    {
      const Point by_one = farther (ends[i], leg_m, d), from_other = way (ends[1 - i], by_one);
      if (hypot (from_other.x, from_other.z) <= leg_m)
        return by_one;
    }
  const double half_m = hypot (side.x, side.z), up_m = sqrt (leg_m * leg_m - half_m * half_m);
  const Point up = { -side.z / half_m * up_m, side.x / half_m * up_m };
  return dot (up, d) >= 0 ? up : (Point){ -up.x, -up.z };
}

/* The point below one rope where it is farthest the way of @v; how far. */
static double
farthest_point (const Ropes *ropes, guint i, Point v, Point *at)
{
  const double force = hypot (v.x, v.z);
  const Point d = force > 0 ? (Point){ v.x / force, v.z / force } : (Point){ 0, -1 };
  *at = farther (ropes->tips[i], ropes->chain_m[i], d);
  if (ropes->leg_m[i] > 0)
    {
      const Point hook = farthest_hook (ropes->leg_m[i], ropes->side[i], (Point){ -d.x, -d.z });
      *at = way (hook, *at);
    }
  return dot (*at, v);
}

/* The pull shared between both, so much of it by the main one: by duality the least of this over
 * all shares is how far both together let the main point go the way of the pull. */
static double
shared (const Ropes *ropes, Point second, Point main_share, Point *at)
{
  const Point rest = way (main_share, ropes->pull);
  Point of_tail;
  const double tail = farthest_point (ropes, 1, rest, &of_tail) - dot (second, rest),
               main = farthest_point (ropes, 0, main_share, at);
  if (hypot (rest.x, rest.z) > hypot (main_share.x, main_share.z)) /* a slack rope tells nothing */
    *at = way (second, of_tail);
  return main + tail;
}

#define SHARES 32
#define GOLDEN 0.61803398874989484

typedef double (*LineFunc) (const Ropes *ropes, Point second, Point at_zero, double by, Point *at);

/* Of a convex function along a line, from −@most to @most. */
static double
least_along (LineFunc func, const Ropes *ropes, Point second, Point at_zero, double most, Point *at)
{
  double lo = -most, hi = most;
  for (guint i = 0; i < SHARES; i++)
    {
      const double a = hi - GOLDEN * (hi - lo), b = lo + GOLDEN * (hi - lo);
      if (func (ropes, second, at_zero, a, at) <= func (ropes, second, at_zero, b, at))
        hi = b;
      else
        lo = a;
    }
  return func (ropes, second, at_zero, (lo + hi) / 2, at);
}

static double
along_x (const Ropes *ropes, Point second, Point at_zero, double by, Point *at)
{
  return shared (ropes, second, (Point){ at_zero.x + by, at_zero.z }, at);
}

static double
along_z (const Ropes *ropes, Point second, Point at_zero, double by, Point *at)
{
  const double force = hypot (ropes->pull.x, ropes->pull.z);
  return least_along (along_x, ropes, second, (Point){ at_zero.x, at_zero.z + by }, force, at);
}

/* As place. */
static double
place_by_legs (const Ropes *ropes, Point second, Point *best)
{
  const double force = hypot (ropes->pull.x, ropes->pull.z);
  return least_along (along_z, ropes, second, (Point){ 0, 0 }, 1.5 * force, best);
}

/* ---- at rest ---- */

/* Turned by @rad more; what pulls acts at the centre of gravity but for the wind, which acts at the
 * middle of the bar. */
static double
energy (const Bar *bar, const Ropes *ropes, double rad, Point *main)
{
  const double all = bar->pitch_rad + rad;
  const Point middle = { 0, bar->length_m / 2 };
  const Point second = turned (way (bar->main, bar->tail), all),
              cog = turned (way (bar->main, bar->cog), all),
              wind = turned (way (bar->main, middle), all);
  Ropes turned_ropes = *ropes;
  for (guint i = 0; i < 2; i++)
    turned_ropes.side[i] = turned ((Point){ bar->spread_m[i], 0 }, rad);
  const gboolean has_legs = ropes->leg_m[0] > 0 || ropes->leg_m[1] > 0;
  const double along
      = has_legs ? place_by_legs (&turned_ropes, second, main) : place (ropes, second, main);
  return -along - cog.z * ropes->pull.z - wind.x * ropes->pull.x;
}

/* From @rad downhill. */
static double
settle (const Bar *bar, const Ropes *ropes, double rad)
{
  Point main;
  double step = STEP_RAD, here = energy (bar, ropes, rad, &main);
  const double least = ropes->leg_m[0] > 0 || ropes->leg_m[1] > 0 ? 1e-6 : 1e-8;
  while (step > least)
    {
      const double up = energy (bar, ropes, rad + step, &main),
                   down = energy (bar, ropes, rad - step, &main);
      if (fmin (up, down) >= here)
        step /= 2;
      else
        {
          rad += up < down ? step : -step;
          here = fmin (up, down);
        }
    }
  return rad;
}

/* How far a tail rope that is longer by @longer_m, and then the wind, both little by little, take a
 * corner or a point at most. */
static double
found_way (const Bar *bar, double force_n, double longer_m)
{
  const Point main = drawn (bar, bar->main), tail = drawn (bar, bar->tail);
  Ropes ropes = { .tips = { { main.x, TIP_M }, { tail.x, TIP_M } },
                  .chain_m = { TIP_M - main.z, TIP_M - tail.z } };
  for (guint i = 0; i < 2; i++)
    if (bar->spread_m[i] > 0)
      {
        ropes.chain_m[i] -= bar->up_m[i];
        ropes.leg_m[i] = hypot (bar->up_m[i], bar->spread_m[i]);
      }
  const double tail_m = ropes.chain_m[1];
  double rad = 0, most_m = 0;
  Point place_of_main = main;
  for (guint i = 1; longer_m != 0 && i <= LENGTHS; i++)
    {
      ropes.pull = (Point){ 0, -bar->mass_kg * GRAVITY };
      ropes.chain_m[1] = tail_m + longer_m * i / LENGTHS;
      rad = settle (bar, &ropes, rad);
    }
  for (guint i = 0; i <= GUSTS; i++)
    {
      ropes.pull = (Point){ force_n * i / GUSTS, -bar->mass_kg * GRAVITY };
      rad = settle (bar, &ropes, rad);
    }
  energy (bar, &ropes, rad, &place_of_main);
  const Point side[2] = { turned ((Point){ bar->spread_m[0], 0 }, -bar->pitch_rad),
                          turned ((Point){ bar->spread_m[1], 0 }, -bar->pitch_rad) };
  const Point points[] = { { -0.5, 0 },
                           { 0.5, 0 },
                           { -0.5, bar->length_m },
                           { 0.5, bar->length_m },
                           farther (bar->main, 1, side[0]),
                           farther (bar->main, -1, side[0]),
                           farther (bar->tail, 1, side[1]),
                           farther (bar->tail, -1, side[1]) };
  for (guint i = 0; i < G_N_ELEMENTS (points); i++)
    {
      const Point from = drawn (bar, points[i]),
                  arm = turned (way (bar->main, points[i]), bar->pitch_rad + rad);
      const Point off = { place_of_main.x + arm.x - from.x, place_of_main.z + arm.z - from.z };
      most_m = fmax (most_m, hypot (off.x, off.z));
    }
  return most_m;
}

/* ---- the certified way ---- */

#define GANTRY(id)                                                                                 \
  "{'id': '" id "', 'kind': 'gantry', 'at': {'position': [0, 0, 0]}, 'legs': [{'at': [80, 80], "   \
  "'size': [0.5, 0.5], 'height': 70}], 'trolley': {'size': [1, 1, 1], 'underside': 60}}"

/* Two legs from a hook to both sides of the plane, or in it. */
static char *
legs_dup (const Bar *bar, guint i)
{
  const char id = i == 0 ? 'm' : 't';
  const double up_m = bar->up_m[i];
  const Point to = i == 0 ? bar->main : bar->tail,
              side = turned ((Point){ bar->spread_m[i], 0 }, -bar->pitch_rad);
  if (up_m == 0)
    return g_strdup ("'hook_above': 0");
  if (bar->spread_m[i] > 0)
    return g_strdup_printf (
        "'hook_above': %.9g, 'slings': [{'id': '%ca', 'to': [%.9g, 0, %.9g], 'diameter': 0.02}, "
        "{'id': '%cb', 'to': [%.9g, 0, %.9g], 'diameter': 0.02}]",
        up_m, id, to.x + side.x, to.z + side.z, id, to.x - side.x, to.z - side.z);
  return g_strdup_printf ("'hook_above': %.9g, 'slings': [{'id': '%ca', 'to': [%.9g, 1, %.9g], "
                          "'diameter': 0.02}, {'id': '%cb', 'to': [%.9g, -1, %.9g], 'diameter': "
                          "0.02}]",
                          up_m, id, to.x, to.z, id, to.x, to.z);
}

#define WAIT "{'do': 'wait', 'seconds': 1}"
#define LITTLE_TILT "{'do': 'tilt', 'by': -0.5, 'axis': 90, 'seconds': 1}"

/* What wind and hooks out of level take; NAN where it is not known, for want of @missing. */
static double
certified_or_missing (const Bar *bar, const char *move, char **missing)
{
  g_autofree char *level = bar->level_m == 0
                               ? g_strdup ("")
                               : g_strdup_printf ("'loads': {'out_of_level': {'height': %.9g, "
                                                  "'source': 'method'}},",
                                                  bar->level_m);
  g_autofree char *main_legs = legs_dup (bar, 0), *tail_legs = legs_dup (bar, 1);
  g_autofree char *text = g_strdup_printf (
      "{'format': 'trunnion-plan', 'version': 1, 'keep_clear': 0.5, 'wind': {'speed': %.9g, 'drag':"
      " 1}, %s 'gear': [" GANTRY ("one") ", " GANTRY (
          "other") "], 'structures': [{'id': 'post', 'solid': {'kind': 'box', 'size': [1, 1, 1]}, "
                   "'at': {'position': [90, 0, 0]}}], 'components': [{'id': 'unit', 'solid': "
                   "{'kind': 'box', 'size': [1, 1, %.9g]}, 'mass': %.9g, 'cog': [%.9g, %.9g, "
                   "%.9g], "
                   "'at': {'position': [0, 0, 20], 'turn': [0, %.9g, 0]}}], 'programme': [{'lift': "
                   "'one', 'component': 'unit', 'hook_point': [%.9g, 0, %.9g], 'rigging': {'main': "
                   "{'gear': 'one', %s}, 'tail': {'gear': 'other', 'point': [%.9g, 0, "
                   "%.9g], %s}}, 'moves': [%s]}]}",
      bar->speed_m_s, level, bar->length_m, bar->mass_kg, bar->cog.x, bar->beside_m, bar->cog.z,
      bar->pitch_rad * 180 / G_PI, bar->main.x, bar->main.z, main_legs, bar->tail.x, bar->tail.z,
      tail_legs, move);
  TestRun run = test_run (text);
  const TrnFinding *f = test_finding_of (&run, TRN_CHECK_CLEARANCE, 0, 0, "load", "post", NULL);
  double all_m = f->missing != NULL ? NAN : 0;
  *missing = g_strdup (f->missing);
  for (guint i = 0; f->allowance_parts != NULL && i < f->allowance_parts->len; i++)
    {
      const TrnFindingItem *part = &g_array_index (f->allowance_parts, TrnFindingItem, i);
      if (g_str_equal (part->what, "wind") || g_str_equal (part->what, "out-of-level"))
        all_m += part->m;
    }
  test_run_clear (&run);
  return all_m;
}

static double
certified_way (const Bar *bar, const char *move)
{
  g_autofree char *missing = NULL;
  return certified_or_missing (bar, move, &missing);
}

/* The force on what the bar shows seen along the plane, at the pressure of air of 1.25 kg/m³. */
static double
force_on (const Bar *bar)
{
  const double shown_m2 = bar->length_m * fabs (cos (bar->pitch_rad)) + fabs (sin (bar->pitch_rad));
  return 0.5 * 1.25 * bar->speed_m_s * bar->speed_m_s * shown_m2;
}

static double
pick (double lo, double hi)
{
  return g_test_rand_double_range (lo, hi);
}

static Bar
pick_bar (void)
{
  const double length = pick (5, 15), share = pick (0.1, 0.9);
  Bar bar = { .length_m = length,
              .pitch_rad = pick (0, G_PI / 2),
              .mass_kg = pick (5e3, 40e3),
              .speed_m_s = pick (1, 12),
              .level_m = g_test_rand_bit () ? pick (0.001, 0.03) : 0,
              .main = { pick (-0.5, 0.5), length },
              .tail = { -pick (0.5, 3), pick (0, 1) } };
  /* Below the line between both by up to 3 m. */
  const Point line = way (bar.main, bar.tail);
  const double low_m = pick (0.1, 3), l = hypot (line.x, line.z);
  bar.cog = (Point){ bar.main.x + share * line.x - low_m * line.z / l,
                     bar.main.z + share * line.z + low_m * line.x / l };
  return bar;
}

/* Where there are no legs both ways of finding how far the ropes let it go are the same. */
static void
test_shares (void)
{
  for (guint i = 0; i < 40; i++)
    {
      const Ropes ropes = { .tips = { { 0, TIP_M }, { pick (-8, 8), TIP_M } },
                            .chain_m = { pick (20, 40), pick (20, 40) },
                            .pull = { pick (-0.2, 0.2), -1 } };
      const Point second = { ropes.tips[1].x + pick (-0.5, 0.5),
                             ropes.chain_m[0] - ropes.chain_m[1] + pick (-0.05, 0.05) };
      Point at, of_shares;
      const double most = place (&ropes, second, &at);
      /* What is searched is level about its least only as far as the search within it is exact. */
      g_assert_cmpfloat_with_epsilon (place_by_legs (&ropes, second, &of_shares), most, 1e-4);
      g_assert_cmpfloat (hypot (at.x - of_shares.x, at.z - of_shares.z), <, 1e-3);
    }
}

typedef enum
{
  NO_LEGS,
  LEGS_ASIDE,
  LEGS_IN_PLANE,
} Legs;

/* Both ways of the wind, the tail hook lower or higher or as drawn, from upright to lying; some of
 * them in a tilt that begins there. */
static void
try_random (guint of, Legs legs)
{
  const guint n = MAX (test_scaled (of), 8); /* of which more than one can be known */
  guint known = 0;
  double loosest = 0;
  for (guint i = 0; i < n; i++)
    {
      Bar bar = pick_bar ();
      for (guint k = 0; k < 2 && legs != NO_LEGS; k++)
        bar.up_m[k] = g_test_rand_bit () || k == i % 2 ? pick (0.5, 3) : 0;
      for (guint k = 0; k < 2 && legs == LEGS_IN_PLANE; k++)
        bar.spread_m[k] = bar.up_m[k] > 0 ? pick (0.2, 1.5) : 0;
      const Point way_to_tail = turned (way (bar.main, bar.tail), bar.pitch_rad),
                  way_to_cog = turned (way (bar.main, bar.cog), bar.pitch_rad);
      const double share = way_to_cog.x / way_to_tail.x;
      /* Else a rope is slack without wind. */
      if (!(share > 0 && share < 1))
        continue;
      const double certified_m = certified_way (&bar, i % 3 == 0 ? LITTLE_TILT : WAIT);
      if (isnan (certified_m))
        continue;
      known++;
      for (int side = -1; side <= 1; side += 2)
        {
          const double longer_m = i % 2 == 0 ? bar.level_m : -bar.level_m,
                       found_m = found_way (&bar, side * force_on (&bar), longer_m);
          g_test_message ("pitch %.2f share %.3f wind %.1f level %.4f: %.4f m, certified %.4f m",
                          bar.pitch_rad, share, bar.speed_m_s, longer_m, found_m, certified_m);
          g_assert_cmpfloat (found_m, <=, certified_m + (legs == LEGS_IN_PLANE ? 1e-4 : 1e-6));
          loosest = fmax (loosest, certified_m / fmax (found_m, 1e-3));
        }
    }
  g_test_message ("%u of %u known, at most %.1f times", known, n, loosest);
  g_assert_cmpuint (known, >, n / 8);
}

static void
test_random (void)
{
  try_random (150, NO_LEGS);
}

/* The same with hooks above their points. */
static void
test_random_legs (void)
{
  try_random (50, LEGS_ASIDE);
}

/* The same with legs that spread along the plane: they turn with the load, not with the rope. */
static void
test_random_legs_in_plane (void)
{
  try_random (8, LEGS_IN_PLANE);
}

/* What the wind takes, and hooks out of level that do so alone. */
static double
wind_alone (const Bar *bar)
{
  Bar calm = *bar;
  calm.speed_m_s = 0.001;
  return certified_way (bar, WAIT) - certified_way (&calm, WAIT);
}

/* Upright, the tail 1.5 m beside the plumb line of the head and 9.5 m below it: hooks 0.04 m out of
 * level turn the bar by ω, 0.04/1.5 and more, and the points come 9.5 ω farther apart along the
 * level, 17 % and more. The centre of gravity is then as much less far plumb below the line between
 * them, so that the wind across makes the bar lean by as much more, and most of what it takes is
 * that lean. The couple is counted greater too, by a fifth, as the bar is off: by both together it
 * is more than a quarter more, and by the couple alone less. */
static void
test_out_of_level (void)
{
  const Bar level = { .length_m = 10,
                      .pitch_rad = 0,
                      .mass_kg = 20e3,
                      .speed_m_s = 2,
                      .main = { 0, 10 },
                      .tail = { -1.5, 0.5 },
                      .cog = { -0.75, 4.8 } };
  Bar off = level;
  off.level_m = 0.04;
  const double wind_m = wind_alone (&level), off_m = wind_alone (&off);
  g_test_message ("%.4f m, out of level %.4f m", wind_m, off_m);
  g_assert_cmpfloat (off_m, >, 1.25 * wind_m);
}

/* Legs that go 1 m aside below hooks 5 m up hold the bar until it is 5.71° out of plumb, however it
 * comes there: its centre of gravity 0.65 m beside and 7 m below the hooks leaves less than half a
 * degree to the wind, which turns it by more. */
static void
test_leans (void)
{
  Bar bar = { .length_m = 10,
              .mass_kg = 20e3,
              .speed_m_s = 16,
              .main = { 0.4, 10 },
              .tail = { -3, 10 },
              .cog = { -1.3, 8 },
              .up_m = { 5, 5 } };
  g_assert_true (isfinite (certified_way (&bar, WAIT)));
  bar.beside_m = 0.65;
  g_assert_true (isnan (certified_way (&bar, WAIT)));
  bar.speed_m_s = 0.1;
  g_assert_true (isfinite (certified_way (&bar, WAIT)));
  /* Beyond that it is the lean that is not known. */
  bar.beside_m = 0.8;
  g_autofree char *missing = NULL;
  g_assert_true (isnan (certified_or_missing (&bar, WAIT, &missing)));
  g_assert_cmpstr (missing, ==, "lean");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/checks/wind-two-hooks/shares", test_shares);
  g_test_add_func ("/checks/wind-two-hooks/random", test_random);
  g_test_add_func ("/checks/wind-two-hooks/random-legs", test_random_legs);
  g_test_add_func ("/checks/wind-two-hooks/random-legs-in-plane", test_random_legs_in_plane);
  g_test_add_func ("/checks/wind-two-hooks/out-of-level", test_out_of_level);
  g_test_add_func ("/checks/wind-two-hooks/leans", test_leans);
  return g_test_run ();
}
