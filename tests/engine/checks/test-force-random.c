/* Proven bounds against many moments: up-endings of random loads from random directions, with the
 * centre of gravity at the corners of its box and inside, judged by statics at single moments. None
 * has more than the finding says, and some moment has nearly as much. */
#include "motion.h"
#include "share.h"
#include "sling.h"
#include "test-force.h"
#include "test-scale.h"

#define CASES 12
#define MOST_CASES 100
#define SHARES_BY_LEAN 0.5 /* no more was met in some thousand cases */
#define MOMENTS 400

typedef struct
{
  double heading_deg, length, tail_up, cog_along, cog_up, box, tilt_deg, spread, above;
} Case;

static Case
random_case (void)
{
  return (Case){ .heading_deg = g_test_rand_double_range (-180, 180),
                 .length = g_test_rand_double_range (6, 15),
                 .tail_up = g_test_rand_double_range (-0.5, 1),
                 .cog_along = g_test_rand_double_range (2, 5),
                 .cog_up = g_test_rand_double_range (-0.3, 0.3),
                 .box = g_test_rand_double_range (0, 0.1),
                 .tilt_deg = g_test_rand_double_range (10, 70),
                 .spread = g_test_rand_double_range (0.3, 1),
                 .above = g_test_rand_double_range (0.7, 3) };
}

static TestRun
run_case (const Case *c)
{
  g_autofree char *text = g_strdup_printf (
      "{'format': 'trunnion-plan', 'version': 1, 'title': 'Random', 'keep_clear': 0.5, 'gear': [],"
      " 'structures': [%s], %s 'components': [{'id': 'unit', 'name': 'Unit', 'mass': 1000, 'cog':"
      " [%.17g, 0, %.17g], 'cog_box': [%.17g, %.17g, %.17g], 'solid': {'kind': 'box', 'size': [1, "
      "1,"
      " 1]}, 'at': {'position': [9, -4, 30], 'turn': [%.17g, 0, 0]}}], 'programme': [{'lift': "
      "'one',"
      " 'component': 'unit', 'hook_point': [0, 0, 0], 'rigging': {'main': {'hook_above': %.17g,"
      " 'block': {'diameter': 0.4, 'height': 0.5, 'mass': 100}, 'slings': [{'id': 'n', 'to': [0,"
      " %.17g, 0], 'diameter': 0.02, 'mass': 5, 'wll': 9000}, {'id': 's', 'to': [0, -%.17g, 0],"
      " 'diameter': 0.02, 'mass': 5, 'wll': 9000}]}, 'tail': {'point': [%.17g, 0, %.17g]}}, "
      "'moves': [{'do': 'tilt',"
      " 'by': %.17g, 'axis': %.17g, 'guide': 'head-plumb', 'head': [0, 0, 0], 'tail': [%.17g, 0,"
      " %.17g], 'seconds': 90}]}]}",
      FORCE_SLAB, FORCE_LOADS, c->cog_along, c->cog_up, c->box, c->box, c->box, c->heading_deg,
      c->above, c->spread, c->spread, c->length, c->tail_up, c->tilt_deg, c->heading_deg + 90,
      c->length, c->tail_up);
  return test_run (text);
}

typedef struct
{
  double tail, main, tension[2];
} Greatest;

/* Where a moment has the points and the corners of the box. */
typedef struct
{
  TrnPose pose;
  TrnVec3 main, tail, corners[8];
} Places;

static Places
places_at (const TestRun *run, const Case *c, double s)
{
  const TrnLiftRun *lift = &run->scene->programme->runs[0];
  Places p = { .pose = trn_motion_pose (&lift->motions[0], s) };
  p.main = trn_pose_apply (&p.pose, trn_vec3_make (0, 0, 0));
  p.tail = trn_pose_apply (&p.pose, trn_vec3_make (c->length, 0, c->tail_up));
  for (guint i = 0; i < 8; i++)
    p.corners[i] = trn_pose_apply (&p.pose, trn_vec3_make (c->cog_along + (i & 1 ? 1 : -1) * c->box,
                                                           (i & 2 ? 1 : -1) * c->box,
                                                           c->cog_up + (i & 4 ? 1 : -1) * c->box));
  return p;
}

static TrnVec3
level_along (const Places *p)
{
  TrnVec3 u = trn_vec3_sub (p->tail, p->main);
  u.z = 0;
  return trn_vec3_unit (u);
}

/* What the load leans by about the line from the hook, which legs square to that line hold it
 * about, to the tail point: the greatest tangent of all corners; below 0 where one is above that
 * line. */
static double
lean_at (const Places *p, double above)
{
  const TrnVec3 u = level_along (p);
  double tangent = 0;
  for (guint i = 0; i < 8; i++)
    {
      const TrnVec3 from_tail = trn_vec3_sub (p->corners[i], p->tail),
                    way
                    = trn_vec3_sub (trn_vec3_add (p->main, trn_vec3_make (0, 0, above)), p->tail),
                    unit = trn_vec3_unit (way);
      const TrnVec3 beside = trn_vec3_add_scaled (from_tail, unit, -trn_vec3_dot (from_tail, unit));
      const double aside = beside.x * -u.y + beside.y * u.x,
                   below
                   = -(beside.z * hypot (unit.x, unit.y)
                       - unit.z * (beside.x * unit.x + beside.y * unit.y) / hypot (unit.x, unit.y));
      if (!(below > 0))
        return -1;
      tangent = fmax (tangent, fabs (aside) / below);
    }
  return tangent;
}

/* What statics has at one moment, of a load that leans by @lean_rad either way. */
static void
add_moment (const Places *p, const Case *c, double lean_rad, Greatest *greatest)
{
  const TrnVec3 main = p->main;
  TrnShareRange range = trn_share_over (main, p->tail, p->corners);
  greatest->tail = fmax (greatest->tail, range.tail_greatest);
  greatest->main = fmax (greatest->main, range.main_greatest);
  TrnVec3 hook = trn_vec3_add (main, trn_vec3_make (0, 0, c->above));
  const TrnRotation lean = trn_rotation_make (level_along (p), lean_rad);
  TrnVec3 points[2] = { trn_pose_apply (&p->pose, trn_vec3_make (0, c->spread, 0)),
                        trn_pose_apply (&p->pose, trn_vec3_make (0, -c->spread, 0)) };
  for (guint i = 0; i < 2; i++)
    points[i] = trn_vec3_add (hook, trn_rotation_apply (&lean, trn_vec3_sub (points[i], hook)));
  double weight = (fmin (1, range.main_greatest) * 1000 + 10) * 1.2 * G;
  TrnSlingForces forces = trn_sling_solve (hook, points, 2, hook, weight);
  for (guint i = 0; i < 2; i++)
    greatest->tension[i] = fmax (greatest->tension[i], forces.tension_n[i]);
}

/* @more: what the enclosure may have besides, as a share. */
static void
assert_bound (double found, double met, double more)
{
  test_assert_between (found, met, 1e-9 * met, (3e-3 + more) * met);
}

/* The greatest over all moments; NAN where it turns over at one, or leans by more than legs hold.
 */
static double
most_lean (const TestRun *run, const Case *c)
{
  double most = 0;
  for (guint k = 0; k <= MOMENTS; k++)
    {
      const Places p = places_at (run, c, (double)k / MOMENTS);
      const double tangent = lean_at (&p, c->above);
      if (tangent < 0)
        return NAN;
      most = fmax (most, tangent);
    }
  return most <= 0.1 ? atan (most) : NAN;
}

static void
test_up_endings (void)
{
  static const char *const slings[] = { "n", "s" };
  guint n_known = 0;
  for (guint i = 0; i < test_scaled (CASES) || (n_known == 0 && i < MOST_CASES); i++)
    {
      Case c = random_case ();
      TestRun run = run_case (&c);
      Greatest met = { -INFINITY, -INFINITY, { -INFINITY, -INFINITY } };
      const double lean_rad = most_lean (&run, &c);
      for (guint k = 0; k <= MOMENTS; k++)
        {
          const Places p = places_at (&run, &c, (double)k / MOMENTS);
          for (guint either = 0; either < 2; either++)
            add_moment (&p, &c, isnan (lean_rad) ? 0 : either ? lean_rad : -lean_rad, &met);
        }
      const TrnFinding *tail = test_force (&run, TRN_CHECK_LOAD_SHARE, "load", "tail");
      const TrnFinding *main = test_force (&run, TRN_CHECK_LOAD_SHARE, "load", "main");
      /* What the lean makes of shares is bounded by the greatest slope, way and lean of the move.
       */
      const double shares = isnan (lean_rad) ? 0 : SHARES_BY_LEAN * lean_rad;
      assert_bound (tail->value, 1000 * met.tail, shares);
      assert_bound (main->value, 1000 * met.main, shares);
      for (guint k = 0; k < 2; k++)
        {
          const TrnFinding *f = test_force (&run, TRN_CHECK_SLINGS, slings[k], "tension");
          if (isnan (lean_rad))
            TEST_UNKNOWN (f, "lean");
          else
            /* Ends of the enclosure that do not go together add less than half of what the lean
             * makes of a leg, which is twice the lean by how steep the leg is, or that by half
             * more. */
            assert_bound (f->value, met.tension[k],
                          1.5 * lean_rad * hypot (c.above, 1) / fmin (c.spread, 1) + shares);
          n_known += !isnan (lean_rad);
        }
      test_run_clear (&run);
    }
  g_assert_cmpuint (n_known, >, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/checks/force-random/up-endings", test_up_endings);
  return g_test_run ();
}
