/* How long the sweep of a limb takes: processor time a call, and bounds worked out. Run on request
 * (`ninja tests/bench/bench-limb`), nothing is asserted. */
#include <time.h>

#include "limb-sweep.h"

#include "test-limbs.h"
#include "test-shapes.h"

static double
processor_s (void)
{
  struct timespec t;
  clock_gettime (CLOCK_PROCESS_CPUTIME_ID, &t);
  return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

/* 1 mm, but 5 % from 1 m on. */
static void
measure (const char *what, const TrnLimbPair *pair)
{
  TrnSweepOptions options = { .width_m = 1e-3, .far_m = 1, .far_share = 0.05 };
  TrnSweepResult r = trn_limb_sweep_minimum (pair, &options);
  double start = processor_s (), spent = 0;
  guint calls = 0;
  for (; spent < 0.2; calls++)
    {
      r = trn_limb_sweep_minimum (pair, &options);
      spent = processor_s () - start;
    }
  g_print ("%-34s %9.1f us %7u bounds  %.4f .. %.4f m\n", what, spent / calls * 1e6, (guint)r.steps,
           r.lower_m, r.upper_m);
}

/* The spans of contact, to 1e-4 of the move. */
static void
measure_contacts (const char *what, const TrnLimbPair *pair)
{
  g_autoptr (GArray) spans = g_array_new (FALSE, FALSE, sizeof (TrnInterval));
  double start = processor_s ();
  trn_limb_sweep_contacts (pair, 1e-4, NULL, spans);
  g_print ("%-34s %9.1f us %7u spans\n", what, (processor_s () - start) * 1e6, spans->len);
}

static TestPaths
rope_round (double radius, double from, double by)
{
  return test_paths_two (test_path_slew ((TrnVec3){ 0, 0, 1 }, radius, from, by),
                         test_path_slew ((TrnVec3){ 0, 0, 30 }, radius, from, by));
}

static TestPaths
prism_round (double in, double out, double half, double lo, double hi, double by)
{
  TestPaths paths = test_paths_make ();
  for (guint i = 0; i < 8; i++)
    {
      double r = i & 1 ? in : out, y = i & 2 ? half : -half;
      paths.paths[paths.n++]
          = test_path_slew ((TrnVec3){ 0, 0, i & 4 ? lo : hi }, hypot (r, y), atan2 (y, r), by);
    }
  return paths;
}

int
main (void)
{
  /* a round thing of 200 000 triangles, 4 m across and 20 m high, about the origin */
  TestBody drum = test_body_take (test_drum (50000, 2, 0, 20));
  TrnLimbPair pair = { .span = { 0, 1 },
                       .obstacle = { drum.bvh, drum.check },
                       .site_from_obstacle = trn_pose_identity () };

  TestPaths far = rope_round (40, 0, 1.5);
  TrnLimb rope = test_limb (&far, 0.03);
  pair.limb = &rope;
  measure ("rope, far off, slews 86 deg", &pair);
  far = test_paths_two (test_path_straight (trn_vec3_make (20, -5, 1), trn_vec3_make (20, 5, 1)),
                        test_path_straight (trn_vec3_make (20, -5, 30), trn_vec3_make (20, 5, 30)));
  measure ("rope, far off, straight", &pair);
  TestPaths near = test_paths_two (
      test_path_straight (trn_vec3_make (2.5, -5, 1), trn_vec3_make (2.5, 5, 1)),
      test_path_straight (trn_vec3_make (2.5, -5, 30), trn_vec3_make (2.5, 5, 30)));
  rope = test_limb (&near, 0.03);
  measure ("rope, past at 0.5 m, straight", &pair);
  near = rope_round (2.5, 0, 1.5);
  measure ("rope, round it at 0.5 m, 86 deg", &pair);
  TestPaths luff = test_paths_two (test_path_at (-10, 2.6, 2),
                                   test_path_luff ((TrnVec3){ -10, 2.6, 2 }, 40, 0.2, 1));
  TrnLimb boom = test_limb (&luff, 0.4);
  pair.limb = &boom;
  measure ("boom, luffs past at 0.2 m", &pair);
  TestPaths prism = prism_round (3, 5, 1.5, 1, 2, 3);
  for (guint i = 0; i < prism.n; i++)
    prism.paths[i].p0.x += 7.3;
  TrnLimb weight = test_limb (&prism, 0);
  pair.limb = &weight;
  measure ("counterweight, past at 0.1 m", &pair);

  TestPaths through = test_paths_two (
      test_path_straight (trn_vec3_make (0.2, -5, 1), trn_vec3_make (0.1, 5, 1)),
      test_path_straight (trn_vec3_make (0.2, -5, 30), trn_vec3_make (0.1, 5, 30)));
  rope = test_limb (&through, 0.03);
  pair.limb = &rope;
  measure_contacts ("rope, straight through", &pair);
  TestPaths prism_in = prism_round (1, 5, 1.5, 1, 2, 3);
  weight = test_limb (&prism_in, 0);
  pair.limb = &weight;
  measure_contacts ("counterweight, in it all the time", &pair);

  TestPaths fixed = test_paths_two (test_path_at (2.5, 0.1, 1), test_path_at (2.5, 0.1, 30));
  rope = test_limb (&fixed, 0.03);
  pair.limb = &rope;
  TrnPose start = trn_pose_identity ();
  TrnMotion motion = trn_motion_make_carry (&start, 10, (TrnVec3){ 0, 0, 0 }, (TrnVec3){ 0, 0, 15 },
                                            (TrnVec3){ 0, 0, 1 }, 1.5);
  pair.motion = &motion;
  measure ("rope, load up and turns, 0.5 m", &pair);
  fixed = test_paths_two (test_path_at (30, 0.1, 1), test_path_at (30, 0.1, 30));
  measure ("rope, load up and turns, 28 m", &pair);
  TestPaths beam = test_paths_make ();
  for (guint i = 0; i < 8; i++)
    beam.paths[beam.n++] = test_path_at (i & 1 ? 3 : 2.3, i & 2 ? 5 : -5, i & 4 ? 12 : 13);
  TrnLimb header = test_limb (&beam, 0);
  pair.limb = &header;
  measure ("beam, load up and turns, 0.3 m", &pair);

  TestPaths one = rope_round (10, 0, 1.5), two = rope_round (10.6, 0, 1.5);
  TrnLimb a = test_limb (&one, 0.03), b = test_limb (&two, 0.03);
  pair = (TrnLimbPair){ .limb = &a, .span = { 0, 1 }, .other = &b };
  measure ("rope beside rope, 0.6 m, slew", &pair);
  two = rope_round (40, 0, 1.5);
  measure ("rope beside rope, 30 m, slew", &pair);
  TestPaths p = prism_round (3, 5, 1.5, 1, 2, 3);
  TrnLimb w = test_limb (&p, 0);
  pair.limb = &w;
  pair.other = &header;
  for (guint i = 0; i < 8; i++)
    beam.paths[i].p0 = trn_vec3_make (i & 1 ? 8 : 5.3, i & 2 ? 5 : -5, i & 4 ? 2 : 3);
  measure ("prism past prism, 0.1 m, slew", &pair);
  test_body_clear (&drum);
  return 0;
}
