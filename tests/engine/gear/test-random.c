/* Random cranes over random moves. Places against a plain computation by angles in double
 * precision; bends against differences in quadruple precision. */
#include "random-crane.h"

#include "quad-motion.h"
#include "test-scale.h"

/* Where the ends of each body are, by slew and boom angle. FALSE near or beyond the end of reach,
 * or near the slew axis, where this computation loses digits. */
typedef struct
{
  TrnVec3 hook, foot, knee, tip, beam[2], east, tail;
} Plain;

static TrnVec3
upper (TrnVec3 base, double slew, double out, double up)
{
  return trn_vec3_make (base.x + out * cos (slew), base.y + out * sin (slew), base.z + up);
}

static gboolean
plain_make (const TestRig *t, double s, Plain *p)
{
  const TrnGear *gear = &t->plan->gear[0];
  TrnVec3 base = gear->at.position;
  TrnPose pose = trn_motion_pose (&t->motions[1], s);
  p->hook = trn_vec3_add (pose.position, trn_vec3_make (0, 0, HOOK_ABOVE));
  double x = p->hook.x - base.x, y = p->hook.y - base.y, slew = atan2 (y, x);
  double l = gear->boom_length_m, j = gear->has_jib ? gear->jib_length_m : 0;
  double offset = gear->has_jib ? gear->jib_offset_rad : 0;
  double reach = sqrt (l * l + j * j + 2 * l * j * cos (offset));
  double u = hypot (x, y) - gear->boom_foot_out_m;
  if (hypot (x, y) < 0.5 || fabs (u) > 0.999 * reach)
    return FALSE;
  double angle = acos (u / reach) + atan2 (j * sin (offset), l + j * cos (offset));
  double out = gear->boom_foot_out_m, up = gear->boom_foot_up_m;
  p->foot = upper (base, slew, out, up);
  p->knee = upper (base, slew, out + l * cos (angle), up + l * sin (angle));
  p->tip = upper (base, slew, out + l * cos (angle) + j * cos (angle - offset),
                  up + l * sin (angle) + j * sin (angle - offset));
  p->east = trn_pose_apply (&pose, trn_vec3_make (2, 0, 0));
  p->tail = trn_pose_apply (&pose, trn_vec3_make (0, 0, -10));
  double heading = atan2 (-pose.turn.m[1][0], -pose.turn.m[0][0]);
  TrnVec3 middle = trn_vec3_sub (p->hook, trn_vec3_make (0, 0, 2));
  p->beam[0] = upper (middle, heading, -3.5, 0);
  p->beam[1] = upper (middle, heading, 3.5, 0);
  return hypot (pose.turn.m[1][0], pose.turn.m[0][0]) > 0.01;
}

static void
assert_at (const TrnJet3 *corner, TrnVec3 expected)
{
  double play = 1e-10;
  g_assert_true (corner->x.v.lo - play <= expected.x && expected.x <= corner->x.v.hi + play);
  g_assert_true (corner->y.v.lo - play <= expected.y && expected.y <= corner->y.v.hi + play);
  g_assert_true (corner->z.v.lo - play <= expected.z && expected.z <= corner->z.v.hi + play);
}

/* The ends of a body over @span hold where it is at @s, or it is not told over so wide a span. */
static gboolean
assert_ends (const TestRig *t, const char *id, TrnInterval span, TrnVec3 a, TrnVec3 b)
{
  TrnJet3 corners[TRN_LIMB_CORNERS];
  if (!test_rig_corners (t, id, 1, span, corners))
    return FALSE;
  assert_at (&corners[0], a);
  assert_at (&corners[1], b);
  return TRUE;
}

static TrnInterval
random_span (GRand *rand, double s)
{
  double width = g_rand_boolean (rand) ? 0 : ldexp (1, -(int)g_rand_int_range (rand, 1, 30));
  double share = g_rand_double (rand);
  return (TrnInterval){ fmax (0, s - width * share), fmin (1, s + width * (1 - share)) };
}

static void
test_places (void)
{
  guint told = 0, n = test_scaled (600), looked_at = 0;
  g_autoptr (GRand) rand = g_rand_new_with_seed (101);
  for (guint i = 0; i < n; i++)
    {
      TestRig t;
      random_crane (rand, &t);
      gboolean jib = t.plan->gear[0].has_jib;
      for (guint k = 0; k < 10; k++)
        {
          Plain p;
          double s = g_rand_double (rand);
          if (!plain_make (&t, s, &p))
            continue;
          TrnInterval moment = { s, s }, span = random_span (rand, s);
          looked_at++;
          g_assert_true (assert_ends (&t, "crane/boom", moment, p.foot, p.knee));
          g_assert_true (!jib || assert_ends (&t, "crane/jib", moment, p.knee, p.tip));
          g_assert_true (assert_ends (&t, "crane/rope", moment, p.hook, p.tip));
          g_assert_true (assert_ends (&t, "bar", moment, p.beam[0], p.beam[1]));
          g_assert_true (assert_ends (&t, "leg", moment, p.hook, p.tail));
          g_assert_true (assert_ends (&t, "drop", moment, p.beam[0], p.east));
          told += assert_ends (&t, "crane/boom", span, p.foot, p.knee);
          assert_ends (&t, "crane/rope", span, p.hook, p.tip);
          assert_ends (&t, "bar", span, p.beam[0], p.beam[1]);
          assert_ends (&t, "drop", span, p.beam[0], p.east);
        }
      test_rig_clear (&t);
    }
  g_assert_cmpuint (looked_at, >, n * 3);
  g_assert_cmpuint (told, >, looked_at * 3 / 4);
}

/* The rope is plumb at every moment: both its ends have one and the same x and y, with all that
 * they do. */
static void
test_rope_is_plumb (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (102);
  guint n = test_scaled (200), told = 0;
  for (guint i = 0; i < n; i++)
    {
      TestRig t;
      random_crane (rand, &t);
      double s = g_rand_double (rand);
      TrnJet3 c[TRN_LIMB_CORNERS];
      if (test_rig_corners (&t, "crane/rope", 1, (TrnInterval){ s * 0.99, s * 0.99 + 0.01 }, c))
        {
          g_assert_cmpmem (&c[0].x, sizeof c[0].x, &c[1].x, sizeof c[1].x);
          g_assert_cmpmem (&c[0].y, sizeof c[0].y, &c[1].y, sizeof c[1].y);
          told++;
        }
      test_rig_clear (&t);
    }
  g_assert_cmpuint (told, >, n / 3);
}

/* Foot, knee, tip, an end of the beam, and the left side of the counterweight where its first
 * tangent meets it, in quadruple precision. FALSE as plain_make. */
#define QUADS 5

static gboolean
quad_make (const TestRig *t, Quad s, QuadVec p[QUADS])
{
  const TrnGear *gear = &t->plan->gear[0];
  QuadMotion motion = quad_motion_make (&t->motions[1]);
  QuadVec base = quad_vec (gear->at.position);
  QuadVec hook = quad_sub (quad_motion_place (&motion, s, (TrnVec3){ 0, 0, 0 }), base);
  Quad radius = quad_sqrt (hook.x * hook.x + hook.y * hook.y);
  Quad ex = hook.x / radius, ey = hook.y / radius, sine, cosine;
  quad_sin_cos (gear->has_jib ? gear->jib_offset_rad : 0, &sine, &cosine);
  Quad j = gear->has_jib ? gear->jib_length_m : 0, l = gear->boom_length_m;
  Quad a = l + j * cosine, b = j * sine, out = gear->boom_foot_out_m, up = gear->boom_foot_up_m;
  Quad u = radius - out, z = quad_sqrt (a * a + b * b - u * u), share = l / (a * a + b * b);
  Quad knee = out + share * (u * a - z * b);
  p[0] = quad_add (base, (QuadVec){ out * ex, out * ey, up });
  p[1] = quad_add (base, (QuadVec){ knee * ex, knee * ey, up + share * (z * a + u * b) });
  p[2] = quad_add (base, (QuadVec){ hook.x, hook.y, up + z });
  QuadVec east = quad_motion_place (&motion, s, (TrnVec3){ 2, 0, 0 });
  QuadVec west = quad_motion_place (&motion, s, (TrnVec3){ -2, 0, 0 });
  Quad x = west.x - east.x, y = west.y - east.y, level = quad_sqrt (x * x + y * y);
  p[3] = quad_add (quad_add (base, hook),
                   (QuadVec){ 3.5 * x / level, 3.5 * y / level, HOOK_ABOVE - 2 });
  /* Tail radius 6, width 4: the tangent at four fifths of the arc's end, 2 to the left, and a
   * little over. */
  quad_sin_cos (0.8 * asin (1 / 3.0), &sine, &cosine);
  Quad behind = (6 - 2 * sine) / cosine;
  p[4] = quad_add (base, (QuadVec){ -behind * ex - 2 * ey, -behind * ey + 2 * ex, 1 });
  return radius > 0.5 && z > 0.5 && level > 0.05;
}

static Quad
quad_part (QuadVec v, int axis)
{
  return axis == 0 ? v.x : axis == 1 ? v.y : v.z;
}

/* Differences over 10⁻⁶ are within 10⁻¹² of the fourth derivative, taken as f″ times a size. */
static void
assert_bends (const TrnJet3 *corner, const QuadVec p[3])
{
  const TrnJet *parts[3] = { &corner->x, &corner->y, &corner->z };
  for (int axis = 0; axis < 3; axis++)
    {
      Quad f0 = quad_part (p[0], axis), f1 = quad_part (p[1], axis), f2 = quad_part (p[2], axis);
      double d = (double)((f2 - f0) * 500000), dd = (double)((f2 - 2 * f1 + f0) * 1e12);
      double play = 1e-6 * (1 + fabs (d) + fabs (dd));
      g_assert_true (parts[axis]->v.lo - 1e-9 <= f1 && f1 <= parts[axis]->v.hi + 1e-9);
      g_assert_true (parts[axis]->d.lo - play <= d && d <= parts[axis]->d.hi + play);
      g_assert_true (parts[axis]->dd.lo - play <= dd && dd <= parts[axis]->dd.hi + play);
    }
}

static void
test_bends (void)
{
  static const struct
  {
    const char *id;
    guint corner;
    int place;
  } corners[] = { { "crane/boom", 0, 0 }, { "crane/boom", 1, 1 }, { "crane/rope", 1, 2 },
                  { "bar", 1, 3 },        { "drop", 0, 3 },       { "crane/counterweight", 3, 4 } };
  g_autoptr (GRand) rand = g_rand_new_with_seed (103);
  guint told = 0, n = test_scaled (200);
  for (guint i = 0; i < n; i++)
    {
      TestRig t;
      random_crane (rand, &t);
      double s = test_between (rand, 0.01, 0.99);
      TrnInterval span = random_span (rand, s);
      QuadVec p[3][QUADS];
      gboolean fine = TRUE;
      for (int k = 0; k < 3; k++)
        fine &= quad_make (&t, s + (k - 1) * (Quad)1e-6, p[k]);
      for (guint k = 0; k < G_N_ELEMENTS (corners) && fine; k++)
        {
          TrnJet3 found[TRN_LIMB_CORNERS];
          int place = corners[k].place;
          if (!test_rig_corners (&t, corners[k].id, 1, span, found))
            continue;
          QuadVec sides[3] = { p[0][place], p[1][place], p[2][place] };
          if (g_str_equal (corners[k].id, "drop"))
            for (int side = 0; side < 3; side++)
              {
                /* The other end of the beam. */
                QuadVec tip = p[side][2];
                sides[side].x = 2 * tip.x - sides[side].x;
                sides[side].y = 2 * tip.y - sides[side].y;
              }
          assert_bends (&found[corners[k].corner], sides);
          told++;
        }
      test_rig_clear (&t);
    }
  g_assert_cmpuint (told, >, n * 2);
}

/* Angles, heights and lengths: their values by the plain computation, and their derivatives by
 * differences of themselves over 10⁻⁴, which are within 10⁻⁸ of the next two derivatives. */
static void
assert_quantity (const TestRig *t, TrnRigQuantity quantity, double s, TrnInterval span,
                 double expected)
{
  const double h = 1e-4;
  TrnRigQuestion q = { t->rig, &t->plan->lifts[0].rigging.main, quantity, 1, 0 };
  TrnJet over;
  double before = test_rig_value (t, quantity, 1, s - h, 0);
  double here = test_rig_value (t, quantity, 1, s, 0);
  double after = test_rig_value (t, quantity, 1, s + h, 0);
  double turns = quantity == TRN_RIG_SLEW ? 2 * G_PI * round ((here - expected) / (2 * G_PI)) : 0;
  g_assert_cmpfloat_with_epsilon (here, expected + turns, 1e-9);
  if (!trn_rig_ask (&q, span, &over) || !trn_jet_is_smooth (&over) || isnan (before + after))
    return;
  double d = (after - before) / (2 * h), dd = (after - 2 * here + before) / (h * h);
  double play = 1e-4 * (1 + trn_interval_size (over.d) + trn_interval_size (over.dd));
  g_assert_true (over.v.lo - 1e-12 <= here && here <= over.v.hi + 1e-12);
  g_assert_true (over.d.lo - play <= d && d <= over.d.hi + play);
  g_assert_true (over.dd.lo - play <= dd && dd <= over.dd.hi + play);
}

static void
test_quantities (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (104);
  for (guint i = 0; i < test_scaled (300); i++)
    {
      TestRig t;
      Plain p;
      random_crane (rand, &t);
      const TrnGear *gear = &t.plan->gear[0];
      double s = test_between (rand, 0.01, 0.99);
      TrnInterval span = random_span (rand, s);
      if (plain_make (&t, s, &p) && p.tip.z - p.foot.z > 0.1 * gear->boom_length_m)
        {
          TrnVec3 out = trn_vec3_sub (p.knee, p.foot);
          double x = p.hook.x - gear->at.position.x, y = p.hook.y - gear->at.position.y;
          double ahead = (out.x * x + out.y * y) / hypot (x, y);
          assert_quantity (&t, TRN_RIG_RADIUS, s, span, hypot (x, y));
          assert_quantity (&t, TRN_RIG_BOOM_ANGLE, s, span, atan2 (out.z, ahead));
          assert_quantity (&t, TRN_RIG_TIP_HEIGHT, s, span, p.tip.z);
          assert_quantity (&t, TRN_RIG_TIP_ABOVE_HOOK, s, span, p.tip.z - p.hook.z);
          assert_quantity (&t, TRN_RIG_SLEW, s, span, atan2 (y, x) - gear->at.heading_rad);
          assert_quantity (&t, TRN_RIG_SLING_LENGTH, s, span, trn_vec3_distance (p.hook, p.tail));
        }
      test_rig_clear (&t);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/gear/random/places", test_places);
  g_test_add_func ("/gear/random/rope-is-plumb", test_rope_is_plumb);
  g_test_add_func ("/gear/random/bends", test_bends);
  g_test_add_func ("/gear/random/quantities", test_quantities);
  return g_test_run ();
}
