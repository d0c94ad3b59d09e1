/* Gear stands on the ground, on mats or on a slab, and touches it. So each part is looked at as it
 * is when raised by the play that a load has on its seat: what it touches then, it does not stand
 * on but in. Whether anything is below it at all, and carries it, is no part of this.
 *
 * What an earlier lift left may be as far off as that left it, and the gear is planned against
 * where it is drawn: no farther than that from the gear it is not known. What only a survey may be
 * off is no matter here: the gear is set up beside what is there, before anything moves, and what
 * does not fit is seen then. */
#include "standing-check.h"

#include <string.h>

#include "sweep-cache.h"
#include "tolerances.h"

static gboolean
is_part (const TrnLiftCheck *check, guint place, guint obstacle)
{
  const TrnStanding *standing = check->obstacles[obstacle].standing;
  return standing->kind == TRN_STANDING_GEAR
         && strcmp (standing->id, check->run->rig->places[place].gear->id) == 0;
}

/* Nor is a part looked at that the plan calls connected with it. */
static gboolean
is_pair (const TrnLiftCheck *check, guint place, guint part, guint obstacle)
{
  return is_part (check, place, part)
         && !trn_rig_is_connected (check->run->rig, check->obstacles[part].body->id,
                                   check->obstacles[obstacle].body->id, 0);
}

gboolean
trn_standing_means (const TrnLiftCheck *check, guint place, guint obstacle)
{
  for (guint i = 0; i <= place; i++)
    if (is_part (check, i, obstacle))
      return FALSE;
  for (guint i = 0; i < check->n_obstacles; i++)
    if (is_pair (check, place, i, obstacle))
      return TRUE;
  return FALSE;
}

/* Of one part that is raised so far; 0 where it touches it or lies inside, NAN where that cannot be
 * told. */
static double
distance_of (const TrnLiftCheck *check, guint part, guint obstacle, double raised_m)
{
  const TrnObstacle *a = &check->obstacles[part], *b = &check->obstacles[obstacle];
  TrnSweepBody body = { a->body->bvh, a->body->check }, other = { b->body->bvh, b->body->check };
  TrnPose pose = a->standing->site_from_standing;
  const TrnPose *at = &b->standing->site_from_standing;
  TrnCache *cache = check->options->cache;
  pose.position.z += raised_m;
  TrnDistance d = trn_sweep_cached_distance (cache, &body, &pose, &other, at, INFINITY);
  if (d.distance_m <= TRN_CONTACT_M)
    return 0;
  TrnInside inside = trn_sweep_cached_inside (cache, &body, &pose, &other, at);
  if (inside == TRN_INSIDE_UNKNOWN)
    return NAN;
  return inside == TRN_INSIDE_YES ? 0 : d.distance_m - TRN_CONTACT_M;
}

/* Mats lie below `at`: how thick they are, where it is in what its gear stands in that `at` is that
 * of what is below them: raised by so much, and not by less, the gear stands in nothing of it. Else
 * NAN. */
static double
mats_below_m (const TrnLiftCheck *check, guint place, guint obstacle)
{
  const TrnGear *gear = check->run->rig->places[place].gear;
  double thick_m = NAN;
  for (guint i = 0; i < gear->n_supports; i++)
    if (gear->supports[i].has_mat)
      thick_m = fmax (thick_m, gear->supports[i].mat_size.z);
  for (guint i = 0; i < gear->n_legs; i++)
    if (gear->legs[i].has_mat)
      thick_m = fmax (thick_m, gear->legs[i].mat_size.z);
  gboolean is_just = FALSE;
  for (guint i = 0; i < check->n_obstacles && !isnan (thick_m); i++)
    {
      if (!is_pair (check, place, i, obstacle))
        continue;
      if (!(distance_of (check, i, obstacle, thick_m + TRN_SEAT_FIT_M) > 0))
        return NAN;
      is_just = is_just || distance_of (check, i, obstacle, thick_m - TRN_SEAT_FIT_M) == 0;
    }
  return is_just ? thick_m : NAN;
}

TrnFinding
trn_standing_judge (const TrnLiftCheck *check, guint place, guint obstacle)
{
  TrnFinding finding = trn_lift_check_finding (check, TRN_CHECK_STANDING, -1,
                                               check->obstacles[obstacle].body->id, NAN);
  double least_m = INFINITY;
  gboolean known = TRUE;
  finding.body = check->run->rig->places[place].gear->id;
  finding.raise_m = TRN_SEAT_FIT_M;
  for (guint i = 0; i < check->n_obstacles; i++)
    {
      if (trn_progress_is_cancelled (check->options->progress))
        return finding;
      if (!is_pair (check, place, i, obstacle))
        continue;
      double part_m = distance_of (check, i, obstacle, TRN_SEAT_FIT_M);
      if (part_m == 0)
        {
          finding.body = check->obstacles[i].body->id;
          finding.verdict = TRN_VERDICT_FAIL;
          finding.state = TRN_STATE_CONTACT;
          finding.distance_m = 0;
          finding.fit_m = mats_below_m (check, place, obstacle);
          return finding;
        }
      known &= !isnan (part_m);
      least_m = fmin (least_m, part_m);
    }
  const double left_m = check->left_m[obstacle];
  if (known && left_m != 0 && !(least_m > left_m))
    {
      finding.missing = isnan (left_m) ? TRN_MISSING_ATTITUDE_BEFORE : TRN_MISSING_LEFT;
      return finding;
    }
  if (!known)
    return finding;
  finding.verdict = TRN_VERDICT_PASS;
  finding.state = TRN_STATE_CLEAR;
  finding.distance_m = least_m;
  return finding;
}
