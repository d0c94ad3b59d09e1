/* What a bound from both ends of a span loses to the bend of the paths between them: dense samples
 * of the exact motion, in quadruple precision and without any allowance, must never come lower. And
 * each term of it by itself, since most of them hide behind the greater ones. */
#include "bend.h"

#include "quad-motion.h"
#include "test-motions.h"
#include "test-scale.h"

#define SAMPLES 48

/* The least of f between the ends: samples, and then smaller and smaller steps from the best. */
static Quad
least_between (const QuadWave *f, double s0, double s1)
{
  Quad least = quad_wave_at (f, s0), at = s0, step = ((Quad)s1 - s0) / SAMPLES;
  for (guint i = 1; i <= SAMPLES; i++)
    {
      Quad s = s0 + i * step, value = quad_wave_at (f, s);
      if (value < least)
        {
          least = value;
          at = s;
        }
    }
  for (guint i = 0; i < 20; i++)
    {
      step /= 2;
      for (int side = -1; side <= 1; side += 2)
        {
          Quad s = at + side * step, value = s < s0 || s > s1 ? least : quad_wave_at (f, s);
          if (value < least)
            {
              least = value;
              at = s;
            }
        }
    }
  return least;
}

typedef struct
{
  TrnMotion motion;
  TrnPose site_from_frame;
  double rounding_m;
  TrnBending bending;
  TrnSpan span;
  TrnVec3 centre;
  double radius_m;
  TrnBend bend;
} Case;

static double
case_size (const Case *c)
{
  return 100 + trn_vec3_max_abs (c->motion.start.position)
         + trn_vec3_max_abs (c->site_from_frame.position);
}

/* The frame is that of an obstacle. The rounding is as in search.c, of all sizes together. */
static void
case_finish (Case *c, double s0, double s1)
{
  double reach = trn_motion_reach (&c->motion, c->centre) + c->radius_m;
  double size = trn_vec3_max_abs (c->centre) + c->radius_m;
  c->rounding_m = trn_motion_rounding (&c->motion, size) + 600 * (DBL_EPSILON / 2) * case_size (c);
  c->bending = trn_bending_make (&c->motion, &c->site_from_frame, reach, c->rounding_m);
  c->span = trn_span_make (&c->motion, &c->site_from_frame, s0, s1);
  c->bend = trn_bend_make (&c->bending, &c->motion, &c->span, c->centre, c->radius_m);
}

/* A direction for which much is lost, as often as any: square to where the centre goes, along its
 * acceleration, along the axis of turning or all but that. */
static TrnVec3
direction_make (const Case *c, GRand *rand)
{
  TrnVec3 any = trn_vec3_unit (test_random_point (rand, 1)), v = any;
  TrnVec3 goes = c->bend.goes;
  switch (g_rand_int_range (rand, 0, 6))
    {
    case 0:
      if (trn_vec3_length (goes) > 0)
        v = trn_vec3_cross (goes, any);
      break;
    case 1:
      v = trn_vec3_add_scaled (c->bend.acceleration, any, 1e-3);
      break;
    case 2:
      v = trn_vec3_add_scaled (c->bending.axis, any, 1e-3);
      break;
    case 3:
      v = trn_vec3_add_scaled (c->bending.axis, any, 1e-9);
      break;
    default:
      break;
    }
  return trn_vec3_length (v) > 0 ? trn_vec3_unit (v) : any;
}

/* How much less than the lower end f comes, and what is given for that. */
static void
case_check (const Case *c, TrnVec3 n, TrnVec3 x, double *share)
{
  QuadMotion exact = quad_motion_make (&c->motion);
  QuadWave f = quad_motion_wave (&exact, quad_turned (&c->site_from_frame.turn, quad_vec (n)), x);
  Quad f0 = quad_wave_at (&f, c->span.s0), f1 = quad_wave_at (&f, c->span.s1);
  Quad lost = MIN (f0, f1) - least_between (&f, c->span.s0, c->span.s1);
  double loss = trn_bend_loss (&c->bend, n);
  g_assert_true (loss >= 0 && lost <= loss);
  if (loss > 1e-6)
    *share = fmax (*share, (double)lost / loss);
}

/* All kinds of paths. The points are the centre itself, and points as far from it as there are. */
static void
test_never_lower (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (51);
  double share = 0;
  for (guint run = 0; run < test_scaled (6000); run++)
    {
      Case c = { .motion = test_random_motion (rand, run % 3 ? 20 : 5000),
                 .site_from_frame = test_random_pose (rand, run % 3 ? 20 : 5000),
                 .centre = test_random_point (rand, 10),
                 .radius_m = run % 2 ? 0 : test_between (rand, 0, 4) };
      if (run % 5 == 0)
        c.centre = c.motion.pivot;
      double length = pow (10, test_between (rand, -6, 0)), s0 = test_between (rand, 0, 1 - length);
      case_finish (&c, s0, fmin (s0 + length, 1));
      TrnVec3 n = direction_make (&c, rand);
      TrnVec3 out = trn_vec3_unit (test_random_point (rand, 1));
      if (run % 4 == 0) /* along the direction seen from the body, where turning bends most */
        {
          TrnVec3 m = trn_rotation_apply_inverse (&c.span.middle.turn, n);
          out = run % 8 ? m : trn_vec3_scale (m, -1);
        }
      case_check (&c, n, trn_vec3_add_scaled (c.centre, out, c.radius_m * (1 - 1e-15)), &share);
    }
  g_test_message ("greatest loss %.4f of what is given", share);
  g_assert_cmpfloat (share, >, 0.9); /* not idle */
}

/* Points that turn about an axis nearby while the centre goes far: seen along n they may not go at
 * all, and then lose the whole bend. */
static void
test_play (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (52);
  TrnVec3 up = { 0, 0, 1 }, zero = { 0, 0, 0 };
  double share = 0;
  for (guint run = 0; run < test_scaled (1000); run++)
    {
      TrnPose start = trn_pose_identity ();
      double angle = test_between (rand, 0.1, 3), radius = test_between (rand, 0.1, 10);
      Case c = { .motion = trn_motion_make_carry (&start, 1, zero, zero, up, angle),
                 .site_from_frame = start,
                 .radius_m = radius };
      double a = -angle / 2 + test_between (rand, -1, 1);
      TrnVec3 n = { -1, 0, 0 };
      /* a point that comes lowest in the middle, and a centre beside it that goes by */
      TrnVec3 x = { 10 * cos (-angle / 2), 10 * sin (-angle / 2), 0 };
      TrnVec3 out = { -sin (a), cos (a), 0 };
      c.centre = trn_vec3_add_scaled (x, out, radius * (1 - 1e-14));
      case_finish (&c, 0, 1);
      case_check (&c, n, x, &share);
    }
  g_assert_cmpfloat (share, >, 0.5);
}

/* Far from the origin, and over spans so short that the bend is of the size of the rounding of
 * where the ends are: how far the centre goes is then not to be relied on to the last. */
static void
test_play_rounding (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (53);
  double share = 0;
  for (guint run = 0; run < test_scaled (3000); run++)
    {
      TrnPose start = test_random_pose (rand, 5000);
      TrnVec3 axis = trn_vec3_unit (test_random_point (rand, 1)), zero = { 0, 0, 0 };
      Case c = { .motion = trn_motion_make_carry (&start, 1, zero, zero, axis, 1),
                 .site_from_frame = test_random_pose (rand, 5000),
                 .centre = test_random_point (rand, 10) };
      double s0 = test_between (rand, 0, 0.9), length = pow (10, test_between (rand, -6.5, -4.5));
      case_finish (&c, s0, s0 + length);
      /* mostly along the acceleration, and going about as far as the bend is deep */
      double bends = trn_vec3_length (c.bend.acceleration), goes = trn_vec3_length (c.bend.goes);
      TrnVec3 n = trn_vec3_unit (c.bend.acceleration);
      double tilt = bends * length * length / 2 / goes * test_between (rand, -1, 1);
      n = trn_vec3_unit (trn_vec3_add_scaled (n, trn_vec3_unit (c.bend.goes), tilt));
      case_check (&c, n, c.centre, &share);
    }
}

/* A parabola f″ = U over a span of length h whose ends differ by D: the least is known, and every
 * term may make up U, or be taken off D, by itself. */
static void
test_each_term (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (54);
  TrnVec3 n = { 1, 0, 0 };
  for (guint run = 0; run < test_scaled (2000); run++)
    {
      double part[4] = { 0 }, h = test_between (rand, 0, 1), sum = 0;
      guint only = run % 5;
      for (guint i = 0; i < 4; i++)
        {
          part[i] = only == 4 || only == i ? test_between (rand, 0, 5) : 0;
          sum += part[i];
        }
      double d = sum * h * h * test_between (rand, 0, 0.7), play = test_between (rand, 0, 1);
      TrnBending bending = { .axis = { 0, 0, 1 }, .rounding = part[3] };
      TrnBend bend = { .bending = &bending,
                       .length = h,
                       .acceleration = { part[0], 7, -7 },
                       .goes = { run % 2 ? d + play : -d - play, 9, 9 },
                       .turning_spread = part[1],
                       .path_spread = part[2],
                       .play_m = play };
      Quad least = 0, u = sum;
      for (guint i = 0; i <= 1000; i++)
        {
          Quad s = (Quad)h * i / 1000, f = u / 2 * s * (s - h) + d * s / h;
          least = MIN (least, f);
        }
      double loss = trn_bend_loss (&bend, n);
      g_assert_cmpfloat (loss, >=, (double)-least - 1e-13);
      g_assert_cmpfloat (loss, <=, (double)-least + 1e-5 * sum + 1e-13);
    }
}

/* The acceleration of the centre along n in the middle of the span, and the rounding stated for
 * it; also where a load slewed about its own place stands still, and all of it cancels, and where a
 * point is far from the pivot and yet near the axis. */
static void
test_acceleration_rounding (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (55);
  double worst = 0;
  for (guint run = 0; run < test_scaled (4000); run++)
    {
      Case c = { .motion = test_random_motion (rand, run % 2 ? 5 : 5000),
                 .site_from_frame = test_random_pose (rand, 100),
                 .centre = test_random_point (rand, 10) };
      if (c.motion.path == TRN_PATH_ARC && run % 3 == 0)
        {
          TrnVec3 about = { c.motion.centre_x, c.motion.centre_y, c.motion.from.z };
          c.centre = trn_pose_apply_inverse (&c.motion.start, about);
        }
      if (run % 4 == 1)
        {
          TrnVec3 axis = trn_rotation_apply_inverse (&c.motion.start.turn, c.motion.axis);
          c.centre = trn_vec3_add_scaled (c.motion.pivot, axis, 300);
        }
      double s0 = test_between (rand, 0, 0.9);
      case_finish (&c, s0, s0 + 0.1);
      TrnVec3 n = trn_vec3_unit (test_random_point (rand, 1));
      QuadMotion exact = quad_motion_make (&c.motion);
      QuadWave f = quad_motion_wave (&exact, quad_turned (&c.site_from_frame.turn, quad_vec (n)),
                                     c.centre);
      Quad middle = c.span.s0 + 0.5 * (c.span.s1 - c.span.s0);
      Quad off = quad_wave_bend (&f, middle) - trn_vec3_dot (n, c.bend.acceleration);
      g_assert_cmpfloat (fabs ((double)off), <=, c.bending.rounding);
      if (c.bending.rounding > 0)
        worst = fmax (worst, fabs ((double)off) / c.bending.rounding);
    }
  g_assert_cmpfloat (worst, >, 1e-2);
}

/* 1 − dot² loses all its digits where two vectors are nearly parallel. */
static void
test_square_share (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (56);
  for (guint run = 0; run < test_scaled (20000); run++)
    {
      TrnVec3 a = trn_vec3_unit (test_random_point (rand, 1));
      double tilt = pow (10, test_between (rand, -12, 0));
      TrnVec3 b = trn_vec3_unit (trn_vec3_add_scaled (run % 2 ? a : trn_vec3_scale (a, -1),
                                                      test_random_point (rand, 1), tilt));
      double share = trn_square_share (trn_vec3_dot (a, b));
      Quad exact = quad_length (quad_cross (quad_vec (a), quad_vec (b)));
      g_assert_true (share >= exact);
      g_assert_cmpfloat (share, <=, (double)exact + 1e-7);
    }
}

/* Spans: halving them gives the same as making them. Straight and even paths lose nothing. */
static void
test_spans (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (57);
  for (guint run = 0; run < test_scaled (300); run++)
    {
      Case c = { .motion = test_random_motion (rand, 50),
                 .site_from_frame = test_random_pose (rand, 50) };
      case_finish (&c, 0.25, 0.75);
      TrnSpan halves[2], lower, upper;
      trn_span_halve (&c.span, &c.motion, &c.site_from_frame, halves);
      lower = trn_span_make (&c.motion, &c.site_from_frame, 0.25, 0.5);
      upper = trn_span_make (&c.motion, &c.site_from_frame, 0.5, 0.75);
      g_assert_cmpmem (&halves[0], sizeof lower, &lower, sizeof lower);
      g_assert_cmpmem (&halves[1], sizeof upper, &upper, sizeof upper);

      TrnVec3 by = test_random_point (rand, 20);
      c.motion = trn_motion_make_carry (&c.motion.start, 1, c.centre, by, c.motion.axis, 0);
      case_finish (&c, 0, 1);
      g_assert_cmpfloat (trn_bend_loss (&c.bend, direction_make (&c, rand)), ==, 0);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/bend/never-lower", test_never_lower);
  g_test_add_func ("/bend/play", test_play);
  g_test_add_func ("/bend/play-rounding", test_play_rounding);
  g_test_add_func ("/bend/each-term", test_each_term);
  g_test_add_func ("/bend/acceleration-rounding", test_acceleration_rounding);
  g_test_add_func ("/bend/square-share", test_square_share);
  g_test_add_func ("/bend/spans", test_spans);
  return g_test_run ();
}
