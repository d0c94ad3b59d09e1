/* What must not matter: where the site is and which way it looks, and how heavy things are in
 * whatever unit. And supports together carry the weight, at every angle. */
#include "ground.h"
#include "hanging.h"
#include "share.h"
#include "sling.h"
#include "sway.h"
#include "test-scale.h"
#include "wind.h"

#define NEAR(value, expected, within) g_assert_cmpfloat_with_epsilon (value, expected, within)

static TrnVec3
random_point (GRand *rand, double size)
{
  return trn_vec3_make (g_rand_double_range (rand, -size, size),
                        g_rand_double_range (rand, -size, size),
                        g_rand_double_range (rand, -size, size));
}

static TrnPose
random_site (GRand *rand)
{
  TrnPlacement placement
      = { .position = random_point (rand, 2000), .heading_rad = g_rand_double_range (rand, -3, 3) };
  return trn_pose_make (&placement);
}

static GRand *
seeded (void)
{
  guint32 seed = (guint32)g_test_rand_int ();
  g_test_message ("seed %u", seed);
  return g_rand_new_with_seed (seed);
}

/* Shares and tensions from points that were moved and yawed together, 2 km away. */
static void
test_moved_forces (void)
{
  g_autoptr (GRand) rand = seeded ();
  for (guint i = 0; i < test_scaled (300); i++)
    {
      TrnPose site = random_site (rand);
      TrnVec3 p[4], q[4], hook = { 0.3, -0.2, 14 }, cog = random_point (rand, 3);
      for (int k = 0; k < 4; k++)
        {
          p[k] = random_point (rand, 8);
          p[k].x += k == 0 ? 12 : 0;
          q[k] = trn_pose_apply (&site, p[k]);
        }
      TrnVec3 moved_cog = trn_pose_apply (&site, cog), moved_hook = trn_pose_apply (&site, hook);
      TrnShare a = trn_share_make (p[0], p[1], cog), b = trn_share_make (q[0], q[1], moved_cog);
      g_assert_cmpuint (a.flags, ==, b.flags);
      NEAR (b.tail, a.tail, 1e-9 * fmax (1, fabs (a.tail)));
      NEAR (b.out_of_plane_m, a.out_of_plane_m, 1e-9);
      const guint n = 1 + i % 4;
      TrnSlingForces c = trn_sling_solve (hook, p, n, cog, 1),
                     d = trn_sling_solve (moved_hook, q, n, moved_cog, 1),
                     twice = trn_sling_solve (hook, p, n, cog, 2);
      double most = 1;
      for (guint k = 0; k < n; k++)
        most = fmax (most, fabs (c.tension_n[k]));
      for (guint k = 0; k < n; k++)
        {
          NEAR (d.tension_n[k], c.tension_n[k], 1e-8 * most * most);
          NEAR (twice.tension_n[k], 2 * c.tension_n[k], 1e-12 * most);
        }
      NEAR (twice.moment_residual_nm, 2 * c.moment_residual_nm, 1e-12);
    }
}

/* A drawn attitude that is yawed hangs yawed, with the same lean and tensions. */
static void
test_yawed_hang (void)
{
  g_autoptr (GRand) rand = seeded ();
  for (guint i = 0; i < test_scaled (300); i++)
    {
      const guint n = 1 + i % 4;
      TrnHangLeg legs[4];
      TrnVec3 cog = random_point (rand, 1), far = random_point (rand, 2000);
      cog.z -= 3;
      for (guint k = 0; k < n; k++)
        legs[k] = (TrnHangLeg){ random_point (rand, 2), g_rand_double_range (rand, 6, 7) };
      TrnRotation yaw = trn_rotation_make (trn_vec3_make (0, 0, 1), g_rand_double (rand) * 6);
      TrnRotation drawn = trn_rotation_make (trn_vec3_make (1, 0, 0), 0.1);
      TrnRotation yawed = trn_rotation_multiply (&yaw, &drawn);
      TrnHang a, b;
      g_assert_true (trn_hang_from_legs (legs, n, cog, &drawn, &a));
      g_assert_true (trn_hang_from_legs (legs, n, cog, &yawed, &b));
      TrnRotation expected = trn_rotation_multiply (&yaw, &a.site_from_load);
      NEAR (trn_rotation_angle_between (&expected, &b.site_from_load), 0, 1e-9);
      NEAR (a.lean_rad, b.lean_rad, 1e-9);
      for (guint k = 0; k < n; k++)
        NEAR (a.tension[k], b.tension[k], 1e-9);
      /* Nor does the place of the load's own origin. */
      for (guint k = 0; k < n; k++)
        legs[k].lug = trn_vec3_add (legs[k].lug, far);
      g_assert_true (trn_hang_from_legs (legs, n, trn_vec3_add (cog, far), &drawn, &b));
      NEAR (trn_rotation_angle_between (&a.site_from_load, &b.site_from_load), 0, 1e-7);
    }
}

/* Reactions: moved and yawed, doubled, and summed. As long as none lifts off they are the affine
 * shares. */
static void
test_reactions (void)
{
  g_autoptr (GRand) rand = seeded ();
  guint n_even = 0;
  for (guint i = 0; i < test_scaled (300); i++)
    {
      const guint n = 3 + i % 5;
      TrnPose site = random_site (rand);
      TrnLevelPoint s[8], t[8], at = { g_rand_double (rand), g_rand_double (rand) };
      TrnVec3 shares[8], moved = trn_pose_apply (&site, trn_vec3_make (at.x_m, at.y_m, 0));
      for (guint k = 0; k < n; k++)
        {
          double a = 2 * G_PI * k / n, r = g_rand_double_range (rand, 1.5, 6);
          s[k] = (TrnLevelPoint){ r * cos (a), r * sin (a) };
          TrnVec3 p = trn_pose_apply (&site, trn_vec3_make (s[k].x_m, s[k].y_m, 0));
          t[k] = (TrnLevelPoint){ p.x, p.y };
        }
      TrnReactions a = trn_ground_reactions (s, n, at, 1),
                   b = trn_ground_reactions (t, n, (TrnLevelPoint){ moved.x, moved.y }, 1),
                   twice = trn_ground_reactions (s, n, at, 2);
      g_assert_cmpint (a.stands, ==, b.stands);
      if (!a.stands)
        continue;
      double sum = 0;
      trn_ground_even_shares (s, n, shares);
      for (guint k = 0; k < n; k++)
        {
          NEAR (b.reaction_n[k], a.reaction_n[k], 1e-9);
          NEAR (twice.reaction_n[k], 2 * a.reaction_n[k], 1e-12);
          sum += a.reaction_n[k];
          if (a.n_lifted == 0)
            NEAR (shares[k].x + shares[k].y * at.x_m + shares[k].z * at.y_m, a.reaction_n[k], 1e-9);
        }
      n_even += a.n_lifted == 0;
      NEAR (sum, 1, 1e-9);
    }
  g_assert_cmpuint (n_even, >=, 20);
}

/* ---- supports carry the weight ---- */

/* A load held at two points, beside its axis or not, with its CoG anywhere; it is turned about a
 * level axis, while each hook stays plumb above its point. */
typedef struct
{
  TrnVec3 main, tail, cog, axis;
} Upending;

static Upending
random_upending (GRand *rand)
{
  const double heading_rad = g_rand_double_range (rand, -G_PI, G_PI);
  return (Upending){ random_point (rand, 15),
                     random_point (rand, 15),
                     random_point (rand, 15),
                     { cos (heading_rad), sin (heading_rad), 0 } };
}

/* FALSE where one point is plumb over the other, to a centimetre: shares have no bound there. */
static gboolean
turn_by (const Upending *load, double deg, Upending *turned)
{
  TrnRotation turn = trn_rotation_make (load->axis, deg * G_PI / 180);
  *turned
      = (Upending){ trn_rotation_apply (&turn, load->main), trn_rotation_apply (&turn, load->tail),
                    trn_rotation_apply (&turn, load->cog), load->axis };
  return hypot (turned->tail.x - turned->main.x, turned->tail.y - turned->main.y) > 0.01;
}

/* Main and tail carry the weight, and its moment about them, at every angle of a whole turn. */
static void
test_sums (void)
{
  g_autoptr (GRand) rand = seeded ();
  guint n_angles = 0, n_slack = 0;
  for (guint i = 0; i < test_scaled (300); i++)
    {
      const Upending load = random_upending (rand);
      for (double deg = 0; deg < 360; deg += 1)
        {
          Upending at;
          if (!turn_by (&load, deg, &at))
            continue;
          const TrnShare share = trn_share_make (at.main, at.tail, at.cog);
          const double dx = at.tail.x - at.main.x, dy = at.tail.y - at.main.y;
          const double size = fmax (1, fabs (share.tail)), d = hypot (dx, dy);
          NEAR (share.main + share.tail, 1, 1e-9);
          /* Along the line between them, about the main point. */
          NEAR (share.tail * d, ((at.cog.x - at.main.x) * dx + (at.cog.y - at.main.y) * dy) / d,
                1e-9 * size);
          n_angles++;
          n_slack += (share.flags & (TRN_SHARE_TAIL_SLACK | TRN_SHARE_MAIN_SLACK)) != 0;
        }
    }
  g_test_message ("%u angles, one hook slack at %u", n_angles, n_slack);
  g_assert_cmpuint (n_angles, >=, test_scaled (300) * 300);
  g_assert_cmpuint (n_slack, >=, 1);
  g_assert_cmpuint (n_slack, <, n_angles);
}

/* Gear that stands on three to six supports round where it holds the load, and weighs something. */
typedef struct
{
  TrnLevelPoint supports[6], off;
  guint n;
  double own;
} Stand;

static Stand
random_stand (GRand *rand)
{
  Stand stand = { .n = (guint)g_rand_int_range (rand, 3, 7),
                  .off = { g_rand_double_range (rand, -1, 1), g_rand_double_range (rand, -1, 1) },
                  .own = g_rand_double_range (rand, 0, 2) };
  for (guint k = 0; k < stand.n; k++)
    {
      const double a = 2 * G_PI * k / stand.n, r = g_rand_double_range (rand, 4, 8);
      stand.supports[k] = (TrnLevelPoint){ r * cos (a), r * sin (a) };
    }
  return stand;
}

/* What the supports of a stand bear together, and their moment about the site's origin, with
 * @share of a load of weight 1 at @off from its middle, which is at @place. FALSE where it tips. */
static gboolean
stand_bears (const Stand *stand, TrnVec3 place, double share, TrnVec3 *sum)
{
  const double all = share + stand->own;
  const TrnLevelPoint at
      = { stand->off.x_m * share / all, stand->off.y_m * share / all }; /* own in the middle */
  const TrnReactions r = trn_ground_reactions (stand->supports, stand->n, at, all);
  if (!r.stands)
    return FALSE;
  for (guint k = 0; k < stand->n; k++)
    {
      g_assert_cmpfloat (r.reaction_n[k], >=, 0);
      const TrnVec3 one = { place.x - stand->off.x_m + stand->supports[k].x_m,
                            place.y - stand->off.y_m + stand->supports[k].y_m, 1 };
      *sum = trn_vec3_add_scaled (*sum, one, r.reaction_n[k]);
    }
  return TRUE;
}

/* Legs of a gantry, outriggers of a crane or wheels of a trolley, whichever stands below main and
 * tail: over a tilt all of them together bear the load and what stands on them, and no more, and
 * the moment of the load along the line between the two. */
static void
test_supports (void)
{
  g_autoptr (GRand) rand = seeded ();
  guint n_angles = 0;
  for (guint i = 0; i < test_scaled (300); i++)
    {
      const Upending load = random_upending (rand);
      const Stand main = random_stand (rand), tail = random_stand (rand);
      for (double deg = 0; deg <= 90; deg += 1)
        {
          Upending at;
          if (!turn_by (&load, deg, &at))
            continue;
          const TrnShare share = trn_share_make (at.main, at.tail, at.cog);
          TrnVec3 sum = { 0, 0, 0 };
          if (share.main < 0 || share.tail < 0 || !stand_bears (&main, at.main, share.main, &sum)
              || !stand_bears (&tail, at.tail, share.tail, &sum))
            continue;
          n_angles++;
          NEAR (sum.z, 1 + main.own + tail.own, 1e-9);
          const double dx = at.tail.x - at.main.x, dy = at.tail.y - at.main.y, d = hypot (dx, dy);
          const TrnVec3 own
              = { main.own * (at.main.x - main.off.x_m) + tail.own * (at.tail.x - tail.off.x_m),
                  main.own * (at.main.y - main.off.y_m) + tail.own * (at.tail.y - tail.off.y_m),
                  0 };
          NEAR (((sum.x - own.x - at.cog.x) * dx + (sum.y - own.y - at.cog.y) * dy) / d, 0, 1e-8);
        }
    }
  g_test_message ("%u angles with both taut", n_angles);
  g_assert_cmpuint (n_angles, >=, test_scaled (300) * 10);
}

/* Double mass, double wind that it takes: the same sway. */
static void
test_sway (void)
{
  double f = trn_wind_force_n (trn_wind_pressure_pa (9, TRN_AIR_EN_KG_M3), 1.2, 40);
  NEAR (trn_sway_offset_m (2 * f, 2e5, 30), trn_sway_offset_m (f, 1e5, 30), 1e-12);
  NEAR (trn_wind_permissible_m_s (9, 1.2e-3, 2000, 80, 1),
        trn_wind_permissible_m_s (9, 1.2e-3, 1000, 40, 1), 1e-12);
}

/* Compression of a spreader 6 m long 4 m under the hook with 100 kN at each end: 75 kN. A lifting
 * beam hung in its middle with the same and 12 kN of its own: 100 · 3 + 12/6 · 3²/2 = 309 kN m. */
static void
test_beams (void)
{
  const TrnVec3 hook = { 0, 0, 4 }, ends[2] = { { -3, 0, 0 }, { 3, 0, 0 } };
  TrnSlingForces f = trn_sling_solve (hook, ends, 2, trn_vec3_make (0, 0, -1), 200e3);
  TrnVec3 force[2];
  for (int k = 0; k < 2; k++)
    force[k] = trn_vec3_scale (trn_vec3_unit (trn_vec3_sub (hook, ends[k])), f.tension_n[k]);
  NEAR (trn_beam_compression_n (ends[0], ends[1], force[0], force[1]), 75e3, 1e-6);
  NEAR (trn_beam_moment_nm (3, 3, 100e3, 100e3, 12e3), 309e3, 1e-6);
  NEAR (trn_beam_moment_nm (2, 4, 100e3, 50e3, 12e3), 50e3 * 4 + 2e3 * 8, 1e-6);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/site/moved-forces", test_moved_forces);
  g_test_add_func ("/site/yawed-hang", test_yawed_hang);
  g_test_add_func ("/site/reactions", test_reactions);
  g_test_add_func ("/site/sums", test_sums);
  g_test_add_func ("/site/supports", test_supports);
  g_test_add_func ("/site/sway", test_sway);
  g_test_add_func ("/site/beams", test_beams);
  return g_test_run ();
}
