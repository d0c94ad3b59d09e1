/* Of the true mesh with its gaps (silhouette.h), over all level directions of the site in every
 * attitude of every move. Turning about the plumb line shows nothing new, since all headings count.
 * What is up in the load's frame turns the other way about the axis of the move; where that is not
 * quite level, it is taken for the level one next to it. A turn about another axis, Δ away, takes a
 * direction no more than |sin φ| Δ + 2 (1 − cos φ) Δ <= 4.2 Δ elsewhere (Rodrigues' formula).
 *
 * Off the motion the load may lean by the sum of what tilts it: the tolerance of tilt, or what it
 * leans by with its tail where that is more (load-lean.h), the lean wherever its centre of gravity
 * is in its box, hooks out of level, and the wind. A body that leans
 * by λ shows along a level direction what it shows upright along one that slants by no more than λ.
 * Of the wind it is known how far it takes points aside, w at most. Two points of the load, D apart
 * across the axis of a turn by λ, go 2 D sin (λ/2) aside of each other, so sin (λ/2) <= w/D. Of
 * three points that are farthest from each other at least two are the least height of their
 * triangle or more apart across any axis. What has no bound makes all directions count. More than
 * any way that it is seen (wind-check.c) it shows in no case. */
#include "sail-area.h"

#include "hook-force.h"
#include "load-lean.h"
#include "swinging.h"
#include "wind-check.h"

/* Tilts are taken to slant as much as the other moves do, up to the one and in steps of the other,
 * so that the attitudes that they begin and end with need no look of their own. */
#define MOST_SHARED_RAD (5 * G_PI / 180)
#define SLANT_STEP_RAD (0.5 * G_PI / 180)
#define SAME_DIRECTION 1e-9
/* With up and axis SAME_DIRECTION off each, what is at φ from up goes |cos φ| + 2 |sin φ| <= √5
 * times that, so bands that are taken for one differ by less than 5 times. */
#define ONE_BAND_RAD (5 * SAME_DIRECTION)
#define MORE_RAD 1e-7 /* more than that, for rounding */
/* Slants are rounded up to it, so that rounding changes nothing of how the area is searched for. */
#define SLANT_GRID_RAD 1e-6

struct _TrnSail
{
  GMutex mutex;
  gboolean is_known;
  double area_m2;
  guint move;
  double s;
};

/* The least height of a triangle of points that are far apart. */
static double
width_across (const TrnMesh *mesh)
{
  const guint axis = trn_box_longest (&mesh->box);
  TrnVec3 p[3];
  p[0] = p[1] = p[2] = mesh->vertices[mesh->triangles[0].v[0]];
  for (guint32 i = 0; i < 3 * mesh->n_triangles; i++)
    {
      const TrnVec3 at = mesh->vertices[mesh->triangles[i / 3].v[i % 3]];
      p[0] = trn_vec3_along (at, axis) < trn_vec3_along (p[0], axis) ? at : p[0];
      p[1] = trn_vec3_along (at, axis) > trn_vec3_along (p[1], axis) ? at : p[1];
    }
  double most_m2 = 0;
  for (guint32 i = 0; i < 3 * mesh->n_triangles; i++)
    {
      const TrnVec3 at = mesh->vertices[mesh->triangles[i / 3].v[i % 3]];
      const double twice_m2
          = trn_vec3_length (trn_vec3_cross (trn_vec3_sub (p[1], p[0]), trn_vec3_sub (at, p[0])));
      if (twice_m2 <= most_m2)
        continue;
      most_m2 = twice_m2;
      p[2] = at;
    }
  if (most_m2 == 0)
    return 0;
  const double longest
      = fmax (trn_vec3_distance (p[0], p[1]),
              fmax (trn_vec3_distance (p[1], p[2]), trn_vec3_distance (p[2], p[0])));
  return most_m2 / longest * (1 - SAME_DIRECTION);
}

/* NAN: no bound. */
static double
lean_of (const TrnLiftCheck *check, guint move, double across_m)
{
  const TrnAllowance *a = &check->allowances[move];
  /* By one hook what the rope does shifts the whole load. */
  const double wind_m
      = check->run->hangs[move].one_hook ? fmax (0, a->wind_m - a->hook_wind_m) : a->wind_m;
  const double lean_rad = trn_lift_check_leans (check, move, trn_load_lean_most_rad (check, move))
                          + trn_swinging_rad (check, move);
  if (isnan (lean_rad) || isnan (trn_allowance_sum (a)) || wind_m > across_m)
    return NAN;
  return wind_m > 0 ? lean_rad + 2 * asin (wind_m / across_m) : lean_rad;
}

static TrnSilhouetteBand
band_of (const TrnLiftCheck *check, guint move, double across_m)
{
  const TrnMotion *motion = &check->run->motions[move];
  const TrnVec3 plumb = { 0, 0, 1 };
  const TrnVec3 up = trn_vec3_unit (trn_rotation_apply_inverse (&motion->start.turn, plumb));
  TrnSilhouetteBand band = { .up = up, .axis = trn_vec3_square_to (up) };
  double lean_rad = lean_of (check, move, across_m);
  if (trn_motion_tilts (motion))
    {
      const TrnVec3 axis
          = trn_vec3_unit (trn_rotation_apply_inverse (&motion->start.turn, motion->axis));
      const TrnVec3 level = trn_vec3_add_scaled (axis, up, -trn_vec3_dot (axis, up));
      band.axis = trn_vec3_unit (level);
      band.angle_rad = -motion->angle_rad;
      lean_rad += asin (fmin (1, 2.1 * trn_vec3_distance (axis, band.axis))) * 2;
    }
  band.slant_rad = lean_rad < G_PI / 2 ? ceil (fmax (0, lean_rad) / SLANT_GRID_RAD) * SLANT_GRID_RAD
                                             + SAME_DIRECTION
                                       : G_PI / 2;
  return band;
}

/* How far @up is from the ups of @band or their opposites, which have the same level directions; at
 * most, in radians. */
static double
off_band (const TrnSilhouetteBand *band, TrnVec3 up)
{
  const TrnVec3 across = trn_vec3_cross (band->axis, band->up);
  const double lo = fmin (0, band->angle_rad), hi = fmax (0, band->angle_rad);
  const double aside = asin (fmin (1, fabs (trn_vec3_dot (up, band->axis))));
  const double turned = atan2 (trn_vec3_dot (up, across), trn_vec3_dot (up, band->up));
  double least = INFINITY;
  for (int half_turns = -3; half_turns <= 3; half_turns++)
    {
      const double at = turned + half_turns * G_PI;
      least = fmin (least, fmax (0, fmax (lo - at, at - hi)));
    }
  return aside + least;
}

/* Whether the directions of @band are all of @other as well: of a tilt only where both are one. */
static gboolean
is_within (const TrnSilhouetteBand *band, const TrnSilhouetteBand *other)
{
  if (other->slant_rad >= G_PI / 2)
    return TRUE;
  if (band->angle_rad != 0)
    return band->angle_rad == other->angle_rad && band->slant_rad <= other->slant_rad
           && trn_vec3_distance (band->up, other->up) <= SAME_DIRECTION
           && trn_vec3_distance (band->axis, other->axis) <= SAME_DIRECTION;
  return band->angle_rad == 0
         && band->slant_rad + off_band (other, band->up) <= other->slant_rad + SAME_DIRECTION;
}

static void
share_slants (GArray *bands)
{
  double most_rad = 0;
  for (guint i = 0; i < bands->len; i++)
    {
      const double slant_rad = g_array_index (bands, TrnSilhouetteBand, i).slant_rad;
      most_rad = slant_rad <= MOST_SHARED_RAD ? fmax (most_rad, slant_rad) : most_rad;
    }
  most_rad = ceil (most_rad / SLANT_STEP_RAD) * SLANT_STEP_RAD;
  for (guint i = 0; i < bands->len; i++)
    {
      TrnSilhouetteBand *band = &g_array_index (bands, TrnSilhouetteBand, i);
      if (band->angle_rad != 0)
        band->slant_rad = fmax (band->slant_rad, most_rad);
    }
}

/* Unless it is within one that is kept; those that are within it go. Whatever goes, one is kept
 * that it is within, to as many times ONE_BAND_RAD as there are moves. */
static void
add_band (GArray *bands, const TrnSilhouetteBand *band)
{
  for (guint i = 0; i < bands->len; i++)
    if (is_within (band, &g_array_index (bands, TrnSilhouetteBand, i)))
      return;
  for (guint i = bands->len; i-- > 0;)
    if (is_within (&g_array_index (bands, TrnSilhouetteBand, i), band))
      g_array_remove_index (bands, i);
  g_array_append_vals (bands, band, 1);
}

/* One a move. */
static GArray *
list_bands (const TrnLiftCheck *check)
{
  const double across_m = width_across (check->load->mesh);
  GArray *all = g_array_new (FALSE, FALSE, sizeof (TrnSilhouetteBand));
  for (guint i = 0; i < check->run->lift->n_moves; i++)
    {
      const TrnSilhouetteBand band = band_of (check, i, across_m);
      g_array_append_val (all, band);
    }
  share_slants (all);
  return all;
}

/* Without those that are within others. */
static GArray *
keep_widest (const GArray *all)
{
  GArray *bands = g_array_new (FALSE, FALSE, sizeof (TrnSilhouetteBand));
  for (guint i = 0; i < all->len; i++)
    add_band (bands, &g_array_index (all, TrnSilhouetteBand, i));
  for (guint i = 0; i < bands->len; i++)
    g_array_index (bands, TrnSilhouetteBand, i).slant_rad += MORE_RAD + all->len * ONE_BAND_RAD;
  return bands;
}

/* Whether a line that meets the mesh meets it twice. */
static gboolean
is_closed (const TrnMeshCheck *check)
{
  for (guint i = 0; i < check->n_pieces; i++)
    if (!check->pieces[i].closed && !check->pieces[i].balanced)
      return FALSE;
  return TRUE;
}

/* How far @direction slants beyond what @band has, where that is least, at @s of its turn. */
static double
slants_beyond (const TrnSilhouetteBand *band, TrnVec3 direction, double *s)
{
  const double up = trn_vec3_dot (direction, band->up);
  const double across = trn_vec3_dot (direction, trn_vec3_cross (band->axis, band->up));
  *s = 0;
  double least = fabs (up);
  for (int half_turns = -3; band->angle_rad != 0 && half_turns <= 3; half_turns++)
    {
      /* Square to what is up, or at an end of the turn. */
      const double at = (atan2 (-up, across) + half_turns * G_PI) / band->angle_rad;
      const double here = CLAMP (at, 0, 1), angle_rad = here * band->angle_rad;
      const double slants = fabs (up * cos (angle_rad) + across * sin (angle_rad));
      if (slants >= least - SAME_DIRECTION)
        continue;
      least = slants;
      *s = here;
    }
  return asin (fmin (1, least)) - band->slant_rad;
}

/* The first move that can show the load along @direction, and when; which of several is no matter
 * to MORE_RAD. */
static void
set_moment (TrnSail *sail, const GArray *all, TrnVec3 direction)
{
  double least = INFINITY;
  for (guint i = 0; i < all->len; i++)
    {
      double s;
      const double beyond = fmax (
          MORE_RAD, slants_beyond (&g_array_index (all, TrnSilhouetteBand, i), direction, &s));
      if (!(beyond < least))
        continue;
      least = beyond;
      sail->move = i;
      sail->s = s;
    }
}

static double
find (const TrnLiftCheck *check, TrnSail *sail)
{
  g_autoptr (GArray) all = list_bands (check);
  g_autoptr (GArray) bands = keep_widest (all);
  if (bands->len == 0)
    return 0;
  const TrnSilhouette worst = trn_shown_worst (
      check->shown, check->load->mesh, is_closed (check->load->check), check->load->off_m,
      (const TrnSilhouetteBand *)(const void *)bands->data, bands->len, check->options->jobs);
  set_moment (sail, all, worst.direction);
  return fmin (worst.area_m2, trn_wind_any_way_area (check));
}

TrnSail *
trn_sail_new (void)
{
  TrnSail *sail = g_new0 (TrnSail, 1);
  g_mutex_init (&sail->mutex);
  return sail;
}

void
trn_sail_free (TrnSail *sail)
{
  g_mutex_clear (&sail->mutex);
  g_free (sail);
}

/* Who waits does so within an index of a loop; threads that help meanwhile are within loops of the
 * one that works it out, so none of them waits for this. */
double
trn_sail_area_m2 (const TrnLiftCheck *check)
{
  TrnSail *sail = check->sail;
  g_mutex_lock (&sail->mutex);
  if (!sail->is_known)
    sail->area_m2 = find (check, sail);
  sail->is_known = TRUE;
  const double area_m2 = sail->area_m2;
  g_mutex_unlock (&sail->mutex);
  return area_m2;
}

guint
trn_sail_move (const TrnLiftCheck *check, double *s)
{
  trn_sail_area_m2 (check);
  *s = check->sail->s;
  return check->sail->move;
}
