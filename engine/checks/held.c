/* The load rests on a tail trolley, or a block hangs close above it, when the hoist lets go: both
 * are nearer than what is to be kept, and have to be. So, as with a seat, the moves are walked from
 * there until the distance is reached at which the load is clear, and all that follows is judged in
 * full: it may not come back.
 *
 * Gear stands outside the moves of its hoist. So from a moment at which d is missing to that
 * distance, it is not reached before the load has gone d, at its greatest speed: such steps pass
 * over no moment at which it is, but for the resolution. */
#include "held.h"

#include "pair-sweep.h"
#include "sweep-cache.h"
#include "tolerances.h"

typedef struct
{
  const TrnLiftCheck *check;
  const TrnPair *pair;
  double required_m;
} Held;

static double
until_clear (const Held *held, guint move)
{
  return held->required_m + trn_pair_allowance (held->check, held->pair, move)
         + TRN_SEAT_CLEAR_MARGIN_M;
}

/* Of a part of the gear; FALSE where it has no place, too. */
static gboolean
limb_is_clear (const Held *held, guint move, gboolean backwards, double *s)
{
  const TrnLiftCheck *check = held->check;
  double until_m = until_clear (held, move), gone_s = 0;
  double speed = trn_motion_speed (&check->run->motions[move], trn_lift_check_reach (check, move));
  double least_s = trn_contact_resolution (check, move);
  TrnPairSweep sweep;
  trn_pair_sweep_init (&sweep, check, held->pair, move);
  while (!trn_progress_is_cancelled (check->options->progress))
    {
      TrnVec3 on_limb, on_load;
      *s = backwards ? 1 - gone_s : gone_s;
      double distance_m = trn_limb_distance (&sweep.limb, *s, &on_limb, &on_load);
      if (distance_m >= until_m)
        return TRUE;
      if (isnan (distance_m) || isnan (until_m) || !(speed > 0) || gone_s >= 1)
        return FALSE;
      gone_s = fmin (gone_s + fmax ((until_m - distance_m) / speed, least_s), 1);
    }
  return FALSE;
}

static gboolean
is_clear (const Held *held, guint move, gboolean backwards, double *s)
{
  const TrnLiftCheck *check = held->check;
  const TrnInterval whole = { 0, 1 };
  if (!held->pair->other_stands)
    return limb_is_clear (held, move, backwards, s);
  TrnSweepPair pair = trn_lift_check_pair (check, move, held->pair->other, whole);
  return trn_sweep_cached_first_reach (check->options->cache, &pair, until_clear (held, move),
                                       trn_seated_resolution (check, move), backwards,
                                       check->options->progress, s);
}

TrnSeated
trn_held_find (const TrnLiftCheck *check, const TrnPair *pair, guint move)
{
  TrnSeated seated = { .known = TRUE };
  const TrnHoist *holder = pair->holder;
  const Held held = { check, pair, trn_pair_required (check, pair) };
  double s;
  if (holder == NULL || isnan (held.required_m))
    return seated;
  if (move > holder->last_move)
    for (guint i = holder->last_move + 1; i < check->run->lift->n_moves && !seated.left; i++)
      if (is_clear (&held, i, FALSE, &s))
        seated = (TrnSeated){ .known = TRUE,
                              .at_start = TRUE,
                              .left = TRUE,
                              .left_move = i,
                              .left_s = s,
                              .all_s = { check->run->begins_s[holder->last_move + 1], INFINITY } };
  if (move < holder->first_move)
    for (guint i = holder->first_move; i-- > 0 && !seated.reached;)
      if (is_clear (&held, i, TRUE, &s))
        seated = (TrnSeated){ .known = TRUE,
                              .at_end = TRUE,
                              .reached = TRUE,
                              .reached_move = i,
                              .reached_s = s,
                              .all_s = { -INFINITY, check->run->begins_s[holder->first_move] } };
  return seated;
}
