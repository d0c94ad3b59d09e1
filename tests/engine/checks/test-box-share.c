/* The tail's share over the box of the centre of gravity and over spans, against the closed form at
 * single places of the box, moments and turns: nothing is outside, and over short spans the range
 * is hardly wider than what is in it. */
#include "box-share.h"

#include "share.h"
#include "test-motions.h"
#include "test-scale.h"

typedef struct
{
  TrnMotion motion;
  TrnVec3 main, tail, cog, box;
  double turn_rad;
  TrnSharePivot pivots[2];
} Case;

/* Points 6 to 14 m apart, the CoG between them; the load tilts about an axis that is mostly square
 * to them, turns, slews, or stays. */
static Case
random_case (GRand *rand)
{
  Case c = { .motion = test_random_motion (rand, 30) };
  c.main = test_random_point (rand, 1);
  c.tail = trn_vec3_add (c.main,
                         trn_vec3_make (test_between (rand, 6, 14), test_between (rand, -0.2, 0.2),
                                        test_between (rand, -2, 2)));
  c.cog = trn_vec3_add (trn_vec3_mix (c.main, c.tail, test_between (rand, 0.2, 0.8)),
                        test_random_point (rand, 1));
  for (int i = 0; i < 3; i++)
    (&c.box.x)[i] = g_rand_boolean (rand) ? test_between (rand, 0, 0.3) : 0;
  if (g_rand_int_range (rand, 0, 3) > 0)
    {
      TrnPlacement at = { .position = { 1, 2, 3 }, .heading_rad = test_between (rand, -4, 4) };
      TrnPose start = trn_pose_make (&at);
      double off = g_rand_boolean (rand) ? 0 : test_between (rand, -1, 1);
      TrnVec3 axis = { -sin (at.heading_rad + off), cos (at.heading_rad + off), 0 };
      c.motion = trn_motion_make_carry (&start, 60, c.main, test_random_point (rand, 9), axis,
                                        test_between (rand, -1.3, 1.3));
    }
  c.turn_rad = g_rand_int_range (rand, 0, 3) == 0 ? NAN : test_between (rand, 0.01, 0.08);
  for (int i = 0; i < 2 && g_rand_boolean (rand); i++)
    c.pivots[i] = (TrnSharePivot){ g_rand_boolean (rand) ? NAN : test_between (rand, 0, 5),
                                   test_between (rand, 0, 2), test_between (rand, 0, 0.3),
                                   g_rand_boolean (rand) ? 0 : test_between (rand, 0, 0.3) };
  return c;
}

static TrnBoxShare
make (const Case *c)
{
  return trn_box_share_make (&c->motion, c->main, c->tail, c->cog, c->box, c->turn_rad, c->pivots);
}

/* By plain vectors: the load at @s, turned by @turn about the level axis square to its points, its
 * lines passing @aside_m of them; NAN where the points come plumb over each other or past. */
static double
share_of (const Case *c, double s, TrnVec3 cog, double turn, const double aside_m[2])
{
  TrnPose pose = trn_motion_pose (&c->motion, s);
  TrnVec3 d = trn_rotation_apply (&pose.turn, trn_vec3_sub (c->tail, c->main)),
          r = trn_rotation_apply (&pose.turn, trn_vec3_sub (cog, c->main));
  double level = hypot (d.x, d.y);
  TrnRotation up = trn_rotation_make (trn_vec3_make (d.y / level, -d.x / level, 0), turn);
  TrnVec3 e = { d.x / level, d.y / level, 0 };
  double arm = trn_vec3_dot (trn_rotation_apply (&up, d), e) + aside_m[0] - aside_m[1];
  if (!(arm > 1e-9))
    return NAN;
  return CLAMP ((trn_vec3_dot (trn_rotation_apply (&up, r), e) + aside_m[0]) / arm, 0, 1);
}

/* What the line may be aside of its point at that turn. A turn moves points along by t less the
 * more it is: cos of the turn, which the closed form has and tangents have not. */
static double
random_aside (GRand *rand, const TrnSharePivot *pivot, double turn)
{
  if (turn == 0)
    return 0;
  double most = fmin (pivot->above_m * fabs (sin (turn)),
                      pivot->spread_m * cos (turn) + pivot->spread_up_m * fabs (sin (turn)));
  double least = -pivot->spread_down_m * fabs (sin (turn));
  double share = g_rand_boolean (rand) ? g_rand_int_range (rand, 0, 2) : g_rand_double (rand);
  double with_turn = least + share * (most - least);
  return turn < 0 ? -with_turn : with_turn;
}

static double
random_share (GRand *rand, const Case *c, TrnInterval span)
{
  double s = CLAMP (span.lo + g_rand_double (rand) * (span.hi - span.lo), span.lo, span.hi);
  double turn = 0;
  TrnVec3 cog = c->cog;
  for (int i = 0; i < 3; i++)
    (&cog.x)[i] += (&c->box.x)[i] * (g_rand_boolean (rand) ? 1 : -1)
                   * (g_rand_boolean (rand) ? 1 : g_rand_double (rand));
  if (!isnan (c->turn_rad))
    turn = c->turn_rad * (g_rand_boolean (rand) ? 1 : -1)
           * (g_rand_boolean (rand) ? 1 : g_rand_double (rand));
  const double aside_m[2]
      = { random_aside (rand, &c->pivots[0], turn), random_aside (rand, &c->pivots[1], turn) };
  return share_of (c, s, cog, turn, aside_m);
}

static TrnInterval
random_span (GRand *rand, guint most_halvings)
{
  double width = ldexp (1, -(int)g_rand_int_range (rand, 0, most_halvings)),
         from = g_rand_double (rand) * (1 - width);
  return g_rand_int_range (rand, 0, 4) == 0 ? trn_interval_point (from)
                                            : (TrnInterval){ from, from + width };
}

static void
test_holds (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (91);
  guint n_between = 0;
  for (guint i = 0; i < test_scaled (3000); i++)
    {
      Case c = random_case (rand);
      TrnBoxShare share = make (&c);
      TrnSpanMemo *memo = trn_span_memo_new ();
      for (guint k = 0; k < 6; k++)
        {
          TrnInterval span = random_span (rand, 20);
          TrnInterval range = trn_box_share_tail (&share, span, memo, 0);
          g_assert_true (0 <= range.lo && range.lo <= range.hi && range.hi <= 1);
          n_between += range.lo > 0 && range.hi < 1;
          for (guint j = 0; j < 10; j++)
            {
              double truth = random_share (rand, &c, span);
              /* What share_of rounds, of points some 10 m apart; nearly plumb it is NAN or at an
               * end. */
              g_assert_false (truth < range.lo - 1e-9);
              g_assert_false (truth > range.hi + 1e-9);
            }
        }
      trn_span_memo_free (memo);
    }
  g_assert_cmpuint (n_between, >, test_scaled (3000));
}

/* At a moment the range ends at a corner of the box and a full turn, and over a span it is no wider
 * than all moments of it are, but for a share of its length that falls with it. */
static void
test_is_narrow (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (92);
  const double none[2] = { 0, 0 };
  for (guint i = 0; i < test_scaled (300); i++)
    {
      Case c = random_case (rand);
      c.pivots[0] = c.pivots[1] = (TrnSharePivot){ .above_m = 0 };
      TrnBoxShare share = make (&c);
      TrnSpanMemo *memo = trn_span_memo_new ();
      double from = g_rand_double (rand) * 0.9, width = 1e-3;
      TrnInterval met = { INFINITY, -INFINITY };
      for (guint k = 0; k <= 20; k++)
        for (guint j = 0; j < 16; j++)
          {
            TrnVec3 cog = trn_vec3_add (c.cog, trn_vec3_make (j & 1 ? c.box.x : -c.box.x,
                                                              j & 2 ? c.box.y : -c.box.y,
                                                              j & 4 ? c.box.z : -c.box.z));
            double turn = isnan (c.turn_rad) ? 0 : j & 8 ? c.turn_rad : -c.turn_rad;
            double at = share_of (&c, from + width * k / 20, cog, turn, none);
            met = isnan (at) ? (TrnInterval){ 0, 1 }
                             : (TrnInterval){ fmin (met.lo, at), fmax (met.hi, at) };
          }
      TrnInterval range = trn_box_share_tail (&share, (TrnInterval){ from, from + width }, memo, 0);
      /* The share changes by at most some 10 over a move that keeps off plumb, and bends by some
       * 100 or, where it is steep, more; there it is near 0 or 1 or goes one way. */
      g_assert_cmpfloat (met.lo - range.lo, <=, 1e-3);
      g_assert_cmpfloat (range.hi - met.hi, <=, 1e-3);
      trn_span_memo_free (memo);
    }
}

/* Up-ended by 80° about its head, tail and CoG on an axis and on one side of it: a fraction that
 * goes one way (share.c), so that over the whole move the range is that of both ends to rounding.
 */
static void
test_goes_one_way (void)
{
  Case c = { .main = { 0, 0, 0 }, .tail = { 10, 0, 1 }, .cog = { 5, 0, 0 }, .turn_rad = NAN };
  const TrnPose start = trn_pose_identity ();
  c.motion = trn_motion_make_carry (&start, 60, c.main, trn_vec3_make (0, 0, 9),
                                    trn_vec3_make (0, 1, 0), G_PI * 80 / 180);
  TrnBoxShare share = make (&c);
  TrnSpanMemo *memo = trn_span_memo_new ();
  TrnInterval range = trn_box_share_tail (&share, (TrnInterval){ 0.5, 0.51 }, memo, 0);
  double at[2] = { trn_share_tail_of_upending (10, 1, 5, 0, G_PI * 40 / 180),
                   trn_share_tail_of_upending (10, 1, 5, 0, G_PI * 40.8 / 180) };
  g_assert_cmpfloat (at[1], <, at[0]);
  g_assert_cmpfloat (fabs (range.lo - at[1]), <, 1e-13);
  g_assert_cmpfloat (fabs (range.hi - at[0]), <, 1e-13);
  trn_span_memo_free (memo);
}

/* Turned by a right angle or more, anything may be. */
static void
test_any (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (93);
  Case c = random_case (rand);
  c.turn_rad = G_PI / 2;
  TrnBoxShare share = make (&c);
  TrnSpanMemo *memo = trn_span_memo_new ();
  TrnInterval range = trn_box_share_tail (&share, (TrnInterval){ 0, 0.1 }, memo, 0);
  g_assert_cmpfloat (range.lo, ==, 0);
  g_assert_cmpfloat (range.hi, ==, 1);
  trn_span_memo_free (memo);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/checks/box-share/holds", test_holds);
  g_test_add_func ("/checks/box-share/is-narrow", test_is_narrow);
  g_test_add_func ("/checks/box-share/goes-one-way", test_goes_one_way);
  g_test_add_func ("/checks/box-share/any", test_any);
  return g_test_run ();
}
