/* A seat may mean several bodies, as a whole shaft means its wall and its floor: raised, the load
 * must be clear of all of them; lowered, it must touch one. */
#include "seat.h"

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
      const TrnPose *stands = &other->standing->site_from_standing;
      TrnDistance distance
          = trn_mesh_distance (check->load->bvh, pose, other->body->bvh, stands, INFINITY, NULL);
      if (distance.distance_m <= 0)
        {
          contact.touches = TRUE;
          continue;
        }
      TrnInside inside = trn_mesh_inside (check->load->mesh, check->load->check, pose,
                                          other->body->mesh, other->body->check, stands);
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

TrnFinding
trn_seat_judge (const TrnLiftCheck *check, guint index, gboolean at_end, const TrnSeated *seated)
{
  const TrnSeat *seat = &check->run->lift->seats[index];
  TrnFinding finding = trn_lift_check_finding (check, TRN_CHECK_SEAT, -1, seat->on, NAN);
  finding.at_end = at_end;
  finding.fit_m = seat->fit_m;
  if (trn_progress_is_cancelled (check->options->progress))
    return finding;

  TrnPose raised = at_end ? check->run->end : check->run->start, lowered = raised;
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
    finding.state = TRN_STATE_BURIED;
  else if (!low.touches)
    finding.state = TRN_STATE_NOT_RESTING;
  else
    {
      finding.state = TRN_STATE_RESTING;
      finding.verdict = TRN_VERDICT_PASS;
    }
  return finding;
}
