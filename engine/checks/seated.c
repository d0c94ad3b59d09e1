/* The seated span at the start is walked move by move until the sweep certifies the distance at
 * which the load counts as lifted; at the end the same backwards. Over the seated spans the sweep
 * gives outer bounds of all contact. Spans that meet at the border of two moves are one chain. The
 * chain that begins with the lift is the load resting on its start seat, the one that ends it the
 * load resting on its end seat, as long as it is clear of the seat when raised by the fit, as it
 * has to be in its resting place; every other is a contact like any other. Since the bounds are
 * outer ones, such a span counts only when its own minimum shows the contact. */
#include "seated.h"

#include <string.h>

#include "sweep-cache.h"
#include "tolerances.h"

#define LEAST_RESOLUTION 1e-9
#define FREE_SHARE 1e-9 /* a free part shorter than this share of a move is rounding */

/* ---- resolution ---- */

static double
by_time (const TrnLiftCheck *check, guint move)
{
  return TRN_SPAN_S / check->run->motions[move].seconds;
}

static double
by_travel (const TrnLiftCheck *check, guint move)
{
  const TrnMotion *motion = &check->run->motions[move];
  return TRN_SPAN_M / trn_motion_speed (motion, trn_lift_check_reach (check, move));
}

double
trn_seated_resolution (const TrnLiftCheck *check, guint move)
{
  double s = fmin (by_time (check, move), by_travel (check, move));
  return CLAMP (s, LEAST_RESOLUTION, 1.0);
}

double
trn_contact_resolution (const TrnLiftCheck *check, guint move)
{
  double s = fmax (by_time (check, move), by_travel (check, move));
  return CLAMP (s, LEAST_RESOLUTION, 1.0);
}

/* Which contacts a seat allows depends on where they are, not on how fast a plan says that the
 * move is: in a move of a millisecond everything would be one span. */
static double
seat_contact_resolution (const TrnLiftCheck *check, guint move)
{
  return CLAMP (by_travel (check, move), LEAST_RESOLUTION, 1.0);
}

/* ---- spans ---- */

static const TrnInterval whole = { 0, 1 };

static guint
count_bodies (const TrnLiftCheck *check, const TrnSeat *seat)
{
  guint count = 0;
  for (guint i = 0; i < check->n_obstacles; i++)
    count += trn_seat_means (seat, check->obstacles[i].body) ? 1 : 0;
  return count;
}

/* Whether the load rests on this body there, give or take the fit. */
static gboolean
rests_on (const TrnLiftCheck *check, const TrnSeat *seat, const TrnObstacle *other, gboolean at_end)
{
  const TrnPose *pose = at_end ? &check->run->end : &check->run->start;
  TrnDistance distance = trn_lift_check_distance (check, pose, other, 2 * seat->fit_m);
  return distance.distance_m <= seat->fit_m
         || trn_lift_check_inside (check, pose, other) == TRN_INSIDE_YES;
}

/* The seat that @obstacle is at that end; NULL where it is none. Of a seat of several bodies only
 * those count on which the load rests: a plan that names a whole shaft does not mean that its walls
 * may be approached. Where two seats mean it, the one that names it more narrowly counts. */
static const TrnSeat *
find_seat (const TrnLiftCheck *check, guint obstacle, gboolean at_end)
{
  const TrnObstacle *other = &check->obstacles[obstacle];
  const TrnLift *lift = check->run->lift;
  const TrnSeat *found = NULL;
  for (guint i = 0; i < lift->n_seats; i++)
    {
      const TrnSeat *seat = &lift->seats[i];
      if (!(at_end ? seat->at_end : seat->at_start) || !trn_seat_means (seat, other->body)
          || (found != NULL && strlen (seat->on) <= strlen (found->on)))
        continue;
      if (count_bodies (check, seat) == 1 || rests_on (check, seat, other, at_end))
        found = seat;
    }
  return found;
}

/* The distance at which the load counts as lifted from @obstacle. */
static double
until_clear (const TrnLiftCheck *check, guint obstacle, const TrnSeat *seat)
{
  if (!isnan (seat->until_clear_m))
    return seat->until_clear_m;
  return check->obstacles[obstacle].standing->required_m + TRN_SEAT_CLEAR_MARGIN_M;
}

static void
walk_from_start (const TrnLiftCheck *check, guint obstacle, double until_m, TrnSeated *seated)
{
  seated->at_start = TRUE;
  for (guint move = 0; move < check->run->lift->n_moves && !seated->left; move++)
    {
      TrnSweepPair pair = trn_lift_check_pair (check, move, obstacle, whole);
      seated->left_move = move;
      seated->left = trn_sweep_cached_first_reach (check->options->cache, &pair, until_m,
                                                   trn_seated_resolution (check, move), FALSE,
                                                   check->options->progress, &seated->left_s);
    }
}

static void
walk_from_end (const TrnLiftCheck *check, guint obstacle, double until_m, TrnSeated *seated)
{
  seated->at_end = TRUE;
  for (guint move = check->run->lift->n_moves; move-- > 0 && !seated->reached;)
    {
      TrnSweepPair pair = trn_lift_check_pair (check, move, obstacle, whole);
      seated->reached_move = move;
      seated->reached = trn_sweep_cached_first_reach (check->options->cache, &pair, until_m,
                                                      trn_seated_resolution (check, move), TRUE,
                                                      check->options->progress, &seated->reached_s);
    }
}

gboolean
trn_seated_free_part (const TrnSeated *seated, guint move, TrnInterval *s)
{
  *s = whole;
  if (seated->at_start && (!seated->left || move < seated->left_move))
    return FALSE;
  if (seated->at_end && (!seated->reached || move > seated->reached_move))
    return FALSE;
  if (seated->at_start && move == seated->left_move)
    s->lo = seated->left_s;
  if (seated->at_end && move == seated->reached_move)
    s->hi = seated->reached_s;
  /* A move that only touches the free part at one moment belongs to the seat. */
  return trn_interval_width (*s) > FREE_SHARE;
}

gboolean
trn_seated_part (const TrnSeated *seated, guint move, TrnInterval *s)
{
  TrnInterval open;
  if (!trn_seated_free_part (seated, move, &open))
    *s = whole;
  else if (open.lo > 0)
    *s = (TrnInterval){ 0, open.lo };
  else
    *s = (TrnInterval){ open.hi, 1 };
  return s->lo < s->hi;
}

TrnInterval
trn_seated_whole (const TrnLiftCheck *check, const TrnSeated *seated, guint move)
{
  TrnInterval first = { seated->all_s.lo, seated->at_start ? INFINITY : -INFINITY };
  TrnInterval last = { seated->at_end ? -INFINITY : INFINITY, seated->all_s.hi };
  if (seated->left)
    first.hi = trn_lift_check_time (check, seated->left_move, seated->left_s);
  if (seated->reached)
    last.lo = trn_lift_check_time (check, seated->reached_move, seated->reached_s);
  if (first.hi >= last.lo)
    return (TrnInterval){ first.lo, last.hi };
  return check->run->begins_s[move] < first.hi ? first : last;
}

/* ---- contact ---- */

/* Adds what the sweep finds over one seated part. */
static void
add_contacts (const TrnLiftCheck *check, guint obstacle, guint move, TrnInterval part,
              TrnSeated *seated, GArray *all)
{
  if (!(part.lo < part.hi))
    return;
  g_autoptr (GArray) spans = g_array_new (FALSE, FALSE, sizeof (TrnInterval));
  TrnSweepPair pair = trn_lift_check_pair (check, move, obstacle, part);
  if (!trn_sweep_cached_contacts (check->options->cache, &pair,
                                  seat_contact_resolution (check, move), check->options->progress,
                                  spans))
    seated->known = FALSE;
  for (guint i = 0; i < spans->len; i++)
    {
      TrnSeatContact contact = { move, g_array_index (spans, TrnInterval, i) };
      g_array_append_val (all, contact);
    }
}

static gboolean
follows (const TrnSeatContact *before, const TrnSeatContact *after)
{
  return after->move == before->move + 1 && before->s.hi >= 1 && after->s.lo <= 0;
}

/* Whether the span holds a contact at all, being an outer bound; with the seat @lower_m lower. */
static gboolean
is_contact (const TrnLiftCheck *check, guint obstacle, const TrnSeatContact *contact,
            double lower_m, TrnSeated *seated)
{
  TrnSweepPair pair = trn_lift_check_pair (check, contact->move, obstacle, contact->s);
  pair.site_from_obstacle.position.z -= lower_m;
  TrnSweepOptions options = { .width_m = TRN_CONTACT_M,
                              .far_m = INFINITY,
                              .max_steps = check->options->max_steps,
                              .jobs = check->options->jobs,
                              .progress = check->options->progress };
  TrnSweepResult result = trn_sweep_cached_minimum (check->options->cache, &pair, &options);
  if (!result.complete)
    seated->known = FALSE;
  return result.lower_m <= 0;
}

static gboolean
begins_lift (const TrnLiftCheck *check, const TrnSeatContact *contact)
{
  return contact->move == 0 && contact->s.lo <= trn_seated_resolution (check, 0);
}

static gboolean
ends_lift (const TrnLiftCheck *check, const TrnSeatContact *contact)
{
  guint last = check->run->lift->n_moves - 1;
  return contact->move == last && contact->s.hi >= 1 - trn_seated_resolution (check, last);
}

static void
forbid (TrnSeated *seated, TrnSeatContact contact)
{
  if (seated->contacts == NULL)
    seated->contacts = g_array_new (FALSE, FALSE, sizeof (TrnSeatContact));
  g_array_append_val (seated->contacts, contact);
}

/* A load that rests on its seat, or is dragged along it, is nowhere deeper in it than the fit. One
 * that goes through it, or runs against another face of it, touches it as without a break, too. */
static void
forbid_deep (const TrnLiftCheck *check, guint obstacle, const TrnSeatContact *contact, double fit_m,
             TrnSeated *seated)
{
  g_autoptr (GArray) spans = g_array_new (FALSE, FALSE, sizeof (TrnInterval));
  TrnSweepPair pair = trn_lift_check_pair (check, contact->move, obstacle, contact->s);
  pair.site_from_obstacle.position.z -= fit_m;
  if (!trn_sweep_cached_contacts (check->options->cache, &pair,
                                  seat_contact_resolution (check, contact->move),
                                  check->options->progress, spans))
    seated->known = FALSE;
  for (guint i = 0; i < spans->len; i++)
    {
      TrnSeatContact deep = { contact->move, g_array_index (spans, TrnInterval, i) };
      if (is_contact (check, obstacle, &deep, fit_m, seated))
        forbid (seated, deep);
    }
}

static void
judge_contacts (const TrnLiftCheck *check, guint obstacle, const GArray *all,
                const TrnSeat *const seats[2], TrnSeated *seated)
{
  for (guint first = 0, next; first < all->len; first = next)
    {
      const TrnSeatContact *chain = &g_array_index (all, TrnSeatContact, first);
      guint length = 1;
      while (first + length < all->len && follows (&chain[length - 1], &chain[length]))
        length++;
      next = first + length;
      const TrnSeat *seat = NULL;
      if (seats[0] != NULL && begins_lift (check, &chain[0]))
        seat = seats[0];
      else if (seats[1] != NULL && ends_lift (check, &chain[length - 1]))
        seat = seats[1];
      for (guint i = 0; i < length; i++)
        {
          if (seat != NULL)
            forbid_deep (check, obstacle, &chain[i], seat->fit_m, seated);
          else if (is_contact (check, obstacle, &chain[i], 0, seated))
            forbid (seated, chain[i]);
        }
    }
}

TrnSeated
trn_seated_find (const TrnLiftCheck *check, guint obstacle)
{
  TrnSeated seated = { .known = TRUE, .all_s = { -INFINITY, INFINITY } };
  const TrnSeat *seats[2]
      = { find_seat (check, obstacle, FALSE), find_seat (check, obstacle, TRUE) };
  if (seats[0] == NULL && seats[1] == NULL)
    return seated;
  if (seats[0] != NULL)
    walk_from_start (check, obstacle, until_clear (check, obstacle, seats[0]), &seated);
  if (seats[1] != NULL)
    walk_from_end (check, obstacle, until_clear (check, obstacle, seats[1]), &seated);
  if (trn_progress_is_cancelled (check->options->progress)) /* a walk may have ended early */
    seated.known = FALSE;

  g_autoptr (GArray) all = g_array_new (FALSE, FALSE, sizeof (TrnSeatContact));
  for (guint move = 0; move < check->run->lift->n_moves; move++)
    {
      TrnInterval open;
      if (!trn_seated_free_part (&seated, move, &open))
        open = (TrnInterval){ 1, 1 };
      add_contacts (check, obstacle, move, (TrnInterval){ 0, open.lo }, &seated, all);
      add_contacts (check, obstacle, move, (TrnInterval){ open.hi, 1 }, &seated, all);
    }
  judge_contacts (check, obstacle, all, seats, &seated);
  return seated;
}

void
trn_seated_clear (TrnSeated *seated)
{
  g_clear_pointer (&seated->contacts, g_array_unref);
}
