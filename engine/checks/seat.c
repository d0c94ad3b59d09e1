/* A seat may mean several bodies, as a whole shaft means its wall and its floor: raised, the load
 * must be clear of all of them; lowered, it must touch one. */
#include "seat.h"

#include "tolerances.h"

#define MOST_STEPS 200
#define MOST_RAISED_M 1000

typedef struct
{
  gboolean touches; /* some body */
  gboolean unknown; /* whether it is inside one could not be told */
} Contact;

static Contact
contact_at (const TrnLiftCheck *check, const TrnSeat *seat, const TrnPose *pose)
{
  Contact contact = { FALSE, FALSE };
  for (guint i = 0; i < check->n_obstacles; i++)
    {
      const TrnObstacle *other = &check->obstacles[i];
      if (!trn_seat_means (seat, other->body))
        continue;
      /* How far apart they are is not asked: where a load is raised from a flat seat, thousands of
       * triangles are about as near. */
      TrnDistance distance = trn_lift_check_distance (check, pose, other, TRN_CONTACT_M);
      if (distance.distance_m <= 0)
        {
          contact.touches = TRUE;
          continue;
        }
      TrnInside inside = trn_lift_check_inside (check, pose, other);
      contact.touches |= inside == TRN_INSIDE_YES;
      contact.unknown |= inside == TRN_INSIDE_UNKNOWN;
    }
  return contact;
}

/* Whether some body of the seat on which the load rests is never left, or never reached. */
static gboolean
is_never_free (const TrnLiftCheck *check, const TrnSeat *seat, gboolean at_end,
               const TrnSeated *seated)
{
  for (guint i = 0; i < check->n_obstacles; i++)
    if (trn_seat_means (seat, check->obstacles[i].body)
        && (at_end ? seated[i].at_end && !seated[i].reached
                   : seated[i].at_start && !seated[i].left))
      return TRUE;
  return FALSE;
}

/* ---- how far off it is: for a person to correct the plan by ---- */

/* The least distance from any body of the seat. @is_above: whether some of it may still be met by
 * going down, by the spheres round all of each. */
static double
distance_at (const TrnLiftCheck *check, const TrnSeat *seat, const TrnPose *pose,
             gboolean *is_above)
{
  const TrnBvhNode *load = &check->load->bvh->nodes[0];
  double top_m = trn_pose_apply (pose, trn_bvh_centre (load)).z + (double)load->radius_m,
         least_m = INFINITY;
  *is_above = FALSE;
  for (guint i = 0; i < check->n_obstacles; i++)
    {
      const TrnObstacle *other = &check->obstacles[i];
      if (!trn_seat_means (seat, other->body))
        continue;
      const TrnPose *stands = &other->standing->site_from_standing;
      const TrnBvhNode *node = &other->body->bvh->nodes[0];
      *is_above
          |= top_m > trn_pose_apply (stands, trn_bvh_centre (node)).z - (double)node->radius_m;
      TrnDistance distance = trn_lift_check_distance (check, pose, other, least_m);
      least_m = fmin (least_m, distance.distance_m);
    }
  return least_m;
}

/* How far the load has to be lowered to touch the seat; NAN where it goes by it. It may always go
 * down by its distance without touching. */
static double
find_gap (const TrnLiftCheck *check, const TrnSeat *seat, const TrnPose *pose)
{
  TrnPose lowered = *pose;
  gboolean is_above = TRUE;
  for (guint step = 0; step < MOST_STEPS && is_above; step++)
    {
      double distance_m = distance_at (check, seat, &lowered, &is_above);
      if (distance_m <= TRN_CONTACT_M)
        return pose->position.z - lowered.position.z;
      lowered.position.z -= distance_m;
    }
  return NAN;
}

/* A height by which the load has to be raised to be clear of the seat, to the millimetre where it
 * stays clear above that; NAN where none was found. */
static double
find_raise (const TrnLiftCheck *check, const TrnSeat *seat, const TrnPose *pose)
{
  double low_m = seat->fit_m, high_m = NAN;
  double try_m = fmax (2 * low_m, TRN_CERTIFY_M);
  while (try_m < MOST_RAISED_M && (isnan (high_m) || high_m - low_m > TRN_CERTIFY_M))
    {
      TrnPose raised = *pose;
      raised.position.z += try_m;
      Contact contact = contact_at (check, seat, &raised);
      if (contact.touches || contact.unknown)
        low_m = try_m;
      else
        high_m = try_m;
      try_m = isnan (high_m) ? 2 * try_m : (low_m + high_m) / 2;
    }
  return high_m;
}

/* FALSE where the seat is on a structure that the scene leaves out. */
static gboolean
is_there (const TrnLiftCheck *check, const TrnSeat *seat)
{
  for (guint i = 0; i < check->n_obstacles; i++)
    if (trn_seat_means (seat, check->obstacles[i].body))
      return TRUE;
  return FALSE;
}

TrnFinding
trn_seat_judge (const TrnLiftCheck *check, guint index, gboolean at_end, const TrnSeated *seated)
{
  const TrnSeat *seat = &check->run->lift->seats[index];
  TrnFinding finding = trn_lift_check_finding (check, TRN_CHECK_SEAT, -1, seat->on, NAN);
  finding.at_end = at_end;
  finding.fit_m = seat->fit_m;
  if (trn_progress_is_cancelled (check->options->progress) || !is_there (check, seat))
    return finding;

  const TrnPose *pose = at_end ? &check->run->end : &check->run->start;
  TrnPose raised = *pose, lowered = *pose;
  raised.position.z += seat->fit_m;
  lowered.position.z -= seat->fit_m;
  Contact high = contact_at (check, seat, &raised);
  Contact low = contact_at (check, seat, &lowered);
  if (high.unknown)
    finding.inside = TRN_INSIDE_UNKNOWN;
  finding.verdict = TRN_VERDICT_FAIL;
  if (is_never_free (check, seat, at_end, seated))
    finding.state = at_end ? TRN_STATE_NEVER_REACHED : TRN_STATE_NEVER_LEFT;
  else if (high.touches)
    {
      finding.state = TRN_STATE_BURIED;
      finding.raise_m = find_raise (check, seat, pose);
    }
  else if (!low.touches)
    {
      gboolean is_above;
      finding.state = TRN_STATE_NOT_RESTING;
      finding.distance_m = distance_at (check, seat, pose, &is_above);
      finding.gap_m = find_gap (check, seat, pose);
    }
  else
    {
      finding.state = TRN_STATE_RESTING;
      finding.verdict = TRN_VERDICT_PASS;
    }
  return finding;
}
