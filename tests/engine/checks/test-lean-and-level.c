/* A plate on two hooks that leans and is out of level at the same time: what is taken off its
 * clearances against the pose of least energy, found by search in space. */
#include <math.h>

#include "pose.h"
#include "test-checks.h"
#include "test-scale.h"

#define TIP_M 60
#define STEP_RAD 0.01
#define LEAST_STEP_RAD 1e-7
#define SEARCH_M 1e-4 /* what the search may be off by */

/* A box of a length, a width and a height, its foot in the middle at [0, 0, 5]; main and tail point
 * on the plane y = 0. */
typedef struct
{
  TrnVec3 size, main, tail, cog;
  double level_m, tilt_deg;
} Plate;

/* ---- the pose of least energy ---- */

/* The tips from where the main point is drawn, and how long the ropes are. */
typedef struct
{
  TrnVec3 tips[2];
  double rope_m[2];
} Ropes;

static void
try_place (const Ropes *ropes, TrnVec3 tail, TrnVec3 p, TrnVec3 *best)
{
  const double main_m = trn_vec3_distance (p, ropes->tips[0]),
               tail_m = trn_vec3_distance (trn_vec3_add (p, tail), ropes->tips[1]);
  if (main_m <= ropes->rope_m[0] + 1e-9 && tail_m <= ropes->rope_m[1] + 1e-9 && p.z < best->z)
    *best = p;
}

/* The lowest place of the main point with the tail point @tail from it: the lowest that two balls
 * have in common. */
static TrnVec3
lowest (const Ropes *ropes, TrnVec3 tail)
{
  const TrnVec3 centres[2] = { ropes->tips[0], trn_vec3_sub (ropes->tips[1], tail) };
  TrnVec3 best = { 0, 0, INFINITY };
  for (guint i = 0; i < 2; i++)
    try_place (ropes, tail, trn_vec3_sub (centres[i], trn_vec3_make (0, 0, ropes->rope_m[i])),
               &best);
  const TrnVec3 d = trn_vec3_sub (centres[1], centres[0]);
  const double r = ropes->rope_m[0], s = ropes->rope_m[1], l = trn_vec3_length (d);
  const double a = (l * l + r * r - s * s) / (2 * l), h2 = r * r - a * a;
  if (!(l > 0) || !(h2 >= 0))
    return best;
  const TrnVec3 n = trn_vec3_scale (d, 1 / l),
                down = trn_vec3_sub (trn_vec3_scale (n, n.z), trn_vec3_make (0, 0, 1));
  const double length = trn_vec3_length (down), h = length > 0 ? sqrt (h2) / length : 0;
  try_place (ropes, tail,
             trn_vec3_add (centres[0], trn_vec3_add_scaled (trn_vec3_scale (n, a), down, h)),
             &best);
  return best;
}

static double
height_of_cog (const Plate *plate, const Ropes *ropes, const TrnRotation *turn)
{
  const TrnVec3 tail = trn_vec3_sub (plate->tail, plate->main),
                cog = trn_vec3_sub (plate->cog, plate->main);
  return lowest (ropes, trn_rotation_apply (turn, tail)).z + trn_rotation_apply (turn, cog).z;
}

/* About the line between both points, then in the plumb plane through it, then about the plumb
 * line: with both ropes taut the energy has an edge, which the first and the last go along. */
static TrnRotation
turned (const Plate *plate, const double angles[3])
{
  const TrnVec3 line = trn_vec3_unit (trn_vec3_sub (plate->tail, plate->main)),
                across = { 0, 1, 0 }, up = { 0, 0, 1 };
  const TrnRotation lean = trn_rotation_make (line, angles[0]),
                    pitch = trn_rotation_make (across, angles[1]),
                    yaw = trn_rotation_make (up, angles[2]),
                    both = trn_rotation_multiply (&pitch, &lean);
  return trn_rotation_multiply (&yaw, &both);
}

/* From as drawn downhill. */
static TrnRotation
settle (const Plate *plate, const Ropes *ropes)
{
  double angles[3] = { 0, 0, 0 }, here = INFINITY;
  for (double step = STEP_RAD; step > LEAST_STEP_RAD;)
    {
      gboolean is_lower = FALSE;
      for (guint i = 0; i < 6; i++)
        {
          const double kept = angles[i / 2];
          angles[i / 2] += i % 2 == 0 ? step : -step;
          const TrnRotation turn = turned (plate, angles);
          const double height = height_of_cog (plate, ropes, &turn);
          is_lower = is_lower || height < here;
          if (height < here)
            here = height;
          else
            angles[i / 2] = kept;
        }
      if (!is_lower)
        step /= 2;
    }
  return turned (plate, angles);
}

/* How far a tail rope that is @longer_m longer than drawn, and where the centre of gravity is, take
 * a corner at most. */
static double
found_way (const Plate *plate, double longer_m)
{
  const TrnVec3 between = trn_vec3_sub (plate->tail, plate->main);
  const double main_m = TIP_M - plate->main.z, tail_m = TIP_M - plate->tail.z;
  const Ropes ropes = { .tips = { { 0, 0, main_m }, { between.x, between.y, between.z + tail_m } },
                        .rope_m = { main_m, tail_m + longer_m } };
  const TrnRotation turn = settle (plate, &ropes);
  const TrnVec3 main = lowest (&ropes, trn_rotation_apply (&turn, between));
  double most_m = 0;
  for (guint i = 0; i < 8; i++)
    {
      const TrnVec3 corner = { (i & 1 ? 0.5 : -0.5) * plate->size.x,
                               (i & 2 ? 0.5 : -0.5) * plate->size.y, i & 4 ? plate->size.z : 0 };
      const TrnVec3 arm = trn_vec3_sub (corner, plate->main),
                    at = trn_vec3_add (main, trn_rotation_apply (&turn, arm));
      most_m = fmax (most_m, trn_vec3_distance (at, arm));
    }
  return most_m;
}

/* ---- what is taken off ---- */

/* All of it; NAN where the lean is more than what covers it. */
static double
allowance_m (const Plate *plate)
{
  g_autofree char *text = g_strdup_printf (
      "{'format': 'trunnion-plan', 'version': 1, 'keep_clear': 0.5, 'loads': {'out_of_level': "
      "{'height': %.9g, 'source': 'method'}}, 'structures': [{'id': 'post', 'solid': {'kind': "
      "'box', 'size': [1, 1, 1]}, 'at': {'position': [90, 0, 0]}}], 'components': [{'id': 'unit', "
      "'solid': {'kind': 'box', 'size': [%.9g, %.9g, %.9g]}, 'cog': [%.9g, %.9g, %.9g], 'at': "
      "{'position': [0, 0, 5]}}], 'programme': [{'lift': 'one', 'component': 'unit', 'hook_point': "
      "[%.9g, 0, %.9g], 'tolerance': {'tilt_deg': %.9g}, 'rigging': {'main': {'hook_above': 1}, "
      "'tail': {'point': [%.9g, 0, %.9g], 'hook_above': 1}}, 'moves': [{'do': 'wait', 'seconds': "
      "1}]}]}",
      plate->level_m, plate->size.x, plate->size.y, plate->size.z, plate->cog.x, plate->cog.y,
      plate->cog.z, plate->main.x, plate->main.z, plate->tilt_deg, plate->tail.x, plate->tail.z);
  TestRun run = test_run (text);
  const TrnFinding *lean
      = test_finding_of (&run, TRN_CHECK_LOAD_SHARE, 0, 0, "load", NULL, "out-of-plane");
  const TrnFinding *f = test_finding_of (&run, TRN_CHECK_CLEARANCE, 0, 0, "load", "post", NULL);
  double all_m = lean->verdict == TRN_VERDICT_PASS && f->missing == NULL ? 0 : NAN;
  for (guint i = 0; f->allowance_parts != NULL && i < f->allowance_parts->len; i++)
    all_m += g_array_index (f->allowance_parts, TrnFindingItem, i).m;
  test_run_clear (&run);
  return all_m;
}

static double
pick (double lo, double hi)
{
  return g_test_rand_double_range (lo, hi);
}

/* The tilt is so much that it covers the lean alone, or up to twice that. */
static Plate
pick_plate (void)
{
  const double length = pick (6, 15), width = pick (2, 8), height = pick (0.1, 2);
  Plate plate = { .size = { length, width, height },
                  .main = { pick (-0.5, -0.2) * length, 0, pick (0, 2) + height },
                  .tail = { pick (0.2, 0.5) * length, 0, pick (0, 2) + height },
                  .level_m = pick (0.01, 0.4) };
  const double low_m = pick (0.5, 2), lean = pick (0.01, 0.1), share = pick (0.2, 0.8);
  plate.cog = (TrnVec3){ plate.main.x + share * (plate.tail.x - plate.main.x), low_m * lean,
                         plate.main.z + share * (plate.tail.z - plate.main.z) - low_m };
  const double off_m = hypot (width / 2, fmax (plate.main.z, plate.tail.z)),
               reach_m = hypot (hypot (length / 2 - plate.main.x, width / 2), plate.main.z);
  plate.tilt_deg = lean * off_m / reach_m * pick (1, 2) * 180 / G_PI;
  return plate;
}

/* No corner goes farther than what is taken off, with the tail hook lower or higher than drawn. */
static void
test_random (void)
{
  const guint n = test_scaled (60);
  guint known = 0;
  double loosest = 0;
  for (guint i = 0; i < n; i++)
    {
      const Plate plate = pick_plate ();
      const double taken_m = allowance_m (&plate);
      if (isnan (taken_m))
        continue;
      known++;
      double found_m = 0;
      for (int side = -1; side <= 1; side += 2)
        found_m = fmax (found_m, found_way (&plate, side * plate.level_m));
      g_test_message ("box %.3f %.3f %.3f main %.3f %.3f tail %.3f %.3f CoG %.3f %.4f %.3f level "
                      "%.3f tilt %.2f: %.4f m, taken off %.4f m",
                      plate.size.x, plate.size.y, plate.size.z, plate.main.x, plate.main.z,
                      plate.tail.x, plate.tail.z, plate.cog.x, plate.cog.y, plate.cog.z,
                      plate.level_m, plate.tilt_deg, found_m, taken_m);
      g_assert_cmpfloat (found_m, <=, taken_m + SEARCH_M);
      loosest = fmax (loosest, taken_m / found_m);
    }
  g_test_message ("%u of %u known, at most %.1f times", known, n, loosest);
  g_assert_cmpuint (known, >, n / 3);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/checks/lean-and-level/random", test_random);
  return g_test_run ();
}
