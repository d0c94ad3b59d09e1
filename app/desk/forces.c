/* forces.c: questions to the checks of forces at one moment. */
#include "forces.h"

#include <math.h>

#include "beam-end.h"
#include "capacity-check.h"
#include "gravity.h"
#include "ground-check.h"
#include "hang.h"
#include "hoist.h"
#include "load-share.h"
#include "sling-up.h"

/* What a hook bears is told to within more than that. */
#define LEAST_PUSH_KG 1e-3
/* What rounding leaves of a leg that bears nothing, as a share of the most that it may bear. */
#define FLUSH 1e-9

typedef struct
{
  gboolean is_made;
  TrnHookForce force;
  TrnGroundForce *ground; /* NULL: no gear is named, or it stands nowhere */
} OfMove;

struct _DeskForces
{
  TrnCheckOptions options;
  TrnLiftCheck check;
  OfMove *moves; /* of the main hook, then of the tail */
};

DeskForces *
desk_forces_new (const TrnScene *scene, guint run)
{
  DeskForces *forces = g_new0 (DeskForces, 1);
  forces->options.as_drawn = TRUE;
  trn_lift_check_init (&forces->check, scene, run, &forces->options);
  forces->moves = g_new0 (OfMove, 2 * forces->check.run->lift->n_moves + 1);
  return forces;
}

void
desk_forces_free (DeskForces *forces)
{
  if (forces == NULL)
    return;
  for (guint i = 0; i < 2 * forces->check.run->lift->n_moves; i++)
    g_clear_pointer (&forces->moves[i].ground, trn_ground_force_free);
  g_free (forces->moves);
  trn_lift_check_clear (&forces->check);
  g_free (forces);
}

/* NULL where @hoist does not hold in that move. */
static OfMove *
find (DeskForces *forces, const TrnHoist *hoist, guint move)
{
  const TrnLift *lift = forces->check.run->lift;
  gboolean is_tail = hoist == &lift->rigging.tail;
  if (move < hoist->first_move || move > hoist->last_move || move >= lift->n_moves)
    return NULL;
  OfMove *of_move = &forces->moves[(is_tail ? lift->n_moves : 0) + move];
  if (of_move->is_made)
    return of_move;
  of_move->is_made = TRUE;
  of_move->force = trn_hook_force_make (&forces->check, hoist, move);
  if (trn_hoist_place (&forces->check, hoist) != NULL)
    of_move->ground = trn_ground_force_new (&forces->check, hoist->gear, move);
  return of_move;
}

/* Of a load on two hooks, below 0 where the hook would have to push. */
static double
share_kg (DeskForces *forces, const TrnHoist *hoist, guint move, double progress)
{
  const OfMove *of_move = find (forces, hoist, move);
  if (of_move == NULL)
    return NAN;
  const TrnCarried *carried = &of_move->force.carried;
  if (!carried->main_holds || !carried->tail_holds)
    return carried->mass_kg;
  if (!carried->has_cog)
    return NAN;
  return trn_load_share_at_kg (&forces->check, move, of_move->force.is_tail, progress);
}

/* The pivot of a turning frame keeps the tail down, too. */
static gboolean
tail_keeps_down (const OfMove *of_move)
{
  return of_move != NULL && trn_carried_is_pinned (&of_move->force.carried);
}

static gboolean
pushes (DeskForces *forces, const TrnHoist *hoist, guint move, double progress)
{
  return share_kg (forces, hoist, move, progress) < -LEAST_PUSH_KG;
}

/* A rope that would have to push is slack, and the other one has all of the load, no more. What
 * keeps its tail down pulls at the main hook besides. */
double
desk_forces_load_kg (DeskForces *forces, const TrnHoist *hoist, guint move, double progress)
{
  const double kg = share_kg (forces, hoist, move, progress);
  if (isnan (kg))
    return NAN;
  const OfMove *of_move = find (forces, hoist, move);
  const gboolean is_tail = of_move->force.is_tail, keeps_down = tail_keeps_down (of_move);
  const double all_kg = of_move->force.carried.mass_kg;
  return CLAMP (kg, is_tail && keeps_down ? -INFINITY : 0,
                !is_tail && keeps_down ? INFINITY : all_kg);
}

gboolean
desk_forces_is_slack (DeskForces *forces, const TrnHoist *hoist, guint move, double progress)
{
  return pushes (forces, hoist, move, progress)
         && !desk_forces_keeps_down (forces, hoist, move, progress);
}

gboolean
desk_forces_keeps_down (DeskForces *forces, const TrnHoist *hoist, guint move, double progress)
{
  return hoist == &forces->check.run->lift->rigging.tail
         && tail_keeps_down (find (forces, hoist, move)) && pushes (forces, hoist, move, progress);
}

double
desk_forces_share (DeskForces *forces, const TrnHoist *hoist, guint move, double progress)
{
  const OfMove *of_move = find (forces, hoist, move);
  return of_move != NULL
             ? desk_forces_load_kg (forces, hoist, move, progress) / of_move->force.carried.mass_kg
             : NAN;
}

double
desk_forces_hook_kg (DeskForces *forces, const TrnHoist *hoist, guint move, double progress)
{
  const OfMove *of_move = find (forces, hoist, move);
  if (of_move == NULL || of_move->force.missing != NULL)
    return NAN;
  TrnHookLoad rigging = of_move->force.rigging;
  rigging.load_kg = 0;
  return desk_forces_load_kg (forces, hoist, move, progress) + trn_hook_load_static_kg (&rigging);
}

/* Nothing pulls at what is slack. */
static double
if_slack (DeskForces *forces, const TrnHoist *hoist, guint move, double progress, double value)
{
  return value < 0 && desk_forces_is_slack (forces, hoist, move, progress) ? 0 : value;
}

/* The upper end of what @quantity can be; NAN. */
static double
ask_sling (DeskForces *forces, const TrnHoist *hoist, guint sling, guint move, double progress,
           TrnSlingQuantity quantity)
{
  const OfMove *of_move = find (forces, hoist, move);
  gboolean with_forces = quantity != TRN_SLING_FLATNESS;
  if (of_move == NULL || trn_sling_force_missing (&of_move->force, with_forces) != NULL)
    return NAN;
  TrnSlingQuestion question = { &of_move->force, quantity, sling };
  TrnInterval value;
  return trn_sling_force_ask (&question, trn_interval_point (progress), &value) ? value.hi : NAN;
}

/* What the end of the beam that holds a sling bears, of the one that the checks take, which is the
 * one with more: 1 where it is that, or where they tell no more. What the rigging of an end weighs
 * more than that of the other counts at both. */
static double
share_of_end (const TrnHookForce *force, const TrnSling *sling, TrnInterval s)
{
  const TrnParallelHang *hang = &force->carried.check->run->hangs[force->carried.move].parallel;
  const gboolean b = sling->to_beam ? sling->to_beam_b : sling->from == TRN_SLING_FROM_BEAM_B;
  const TrnHookLoad *rigging = &force->rigging;
  TrnInterval below, end, factor;
  if ((sling->from == TRN_SLING_FROM_HOOK && !sling->to_beam) || !trn_sling_hangs (force)
      || !hang->is_there)
    return 1;
  const double slings_kg = rigging->slings_kg + rigging->shackles_kg;
  if (!trn_hook_force_below_n (force, s, slings_kg, &below) || !trn_beam_end_n (force, s, &end)
      || !trn_hook_force_factor (force, s, &factor))
    return 1;
  const TrnBox cog = { force->carried.cog[0], force->carried.cog[7] };
  const double most = trn_parallel_hang_beside (hang, &cog),
               less = most - trn_parallel_hang_toward (hang, &cog, b);
  const double beam_n = sling->to_beam ? factor.hi * rigging->beam_kg * TRN_GRAVITY_M_S2 : 0,
               more_n = sling->to_beam ? factor.hi * slings_kg * TRN_GRAVITY_M_S2 : 0;
  const double share = 1 - less * (below.hi + beam_n) / (end.hi + (0.5 + most) * beam_n + more_n);
  return less > 0 && share >= 0 ? share : 1;
}

/* Of one leg. */
static double
bears_n (DeskForces *forces, const TrnHoist *hoist, guint sling, guint move, double progress,
         TrnSlingQuantity quantity)
{
  const OfMove *of_move = find (forces, hoist, move);
  const double newton = if_slack (forces, hoist, move, progress,
                                  ask_sling (forces, hoist, sling, move, progress, quantity));
  return isnan (newton) ? NAN
                        : newton
                              * share_of_end (&of_move->force, &hoist->slings[sling],
                                              trn_interval_point (progress));
}

double
desk_forces_tension_n (DeskForces *forces, const TrnHoist *hoist, guint sling, guint move,
                       double progress)
{
  return bears_n (forces, hoist, sling, move, progress, TRN_SLING_TENSION);
}

gboolean
desk_forces_leg_is_slack (DeskForces *forces, const TrnHoist *hoist, guint sling, guint move,
                          double progress)
{
  const double push_n = ask_sling (forces, hoist, sling, move, progress, TRN_SLING_PUSH),
               most_n = ask_sling (forces, hoist, sling, move, progress, TRN_SLING_TENSION);
  return push_n > FLUSH * fabs (most_n) && !desk_forces_is_slack (forces, hoist, move, progress);
}

double
desk_forces_shackle_n (DeskForces *forces, const TrnHoist *hoist, guint sling, guint move,
                       double progress)
{
  const OfMove *of_move = find (forces, hoist, move);
  if (of_move == NULL || !trn_slings_has (hoist, TRN_SLINGS_SHACKLE, sling))
    return NAN;
  const gboolean has_pin = isfinite (hoist->slings[sling].shackle.pin.x)
                           && trn_sling_force_knows_turn (&of_move->force);
  if (!has_pin)
    return desk_forces_tension_n (forces, hoist, sling, move, progress);
  return bears_n (forces, hoist, sling, move, progress, TRN_SLING_SHACKLE);
}

double
desk_forces_beam (DeskForces *forces, const TrnHoist *hoist, TrnSlingsItem item, guint move,
                  double progress)
{
  const OfMove *of_move = find (forces, hoist, move);
  TrnInterval value;
  if (of_move == NULL || !trn_slings_has (hoist, item, 0)
      || trn_sling_force_missing (&of_move->force, TRUE) != NULL
      || !trn_slings_beam_ask (&of_move->force, item, trn_interval_point (progress), &value))
    return NAN;
  return if_slack (forces, hoist, move, progress, value.hi);
}

double
desk_forces_greatest_tension_n (DeskForces *forces, const TrnHoist *hoist, guint move,
                                double progress)
{
  double greatest_n = NAN;
  for (guint i = 0; i < hoist->n_slings; i++)
    {
      double tension_n = desk_forces_tension_n (forces, hoist, i, move, progress);
      if (isnan (tension_n))
        return NAN;
      greatest_n = fmax (greatest_n, tension_n);
    }
  return greatest_n;
}

double
desk_forces_leg_angle_rad (DeskForces *forces, const TrnHoist *hoist, guint sling, guint move,
                           double progress)
{
  double flatness = ask_sling (forces, hoist, sling, move, progress, TRN_SLING_FLATNESS);
  if (isnan (flatness))
    return NAN;
  /* With a beam that is as flat as any of both ends may come to be; this is how it hangs. */
  const TrnJet3 up = trn_hang_sling_way (forces->check.run->rig, hoist, sling, move,
                                         trn_interval_point (progress));
  const double hangs_rad
      = atan2 (trn_interval_middle (up.z.v),
               hypot (trn_interval_middle (up.x.v), trn_interval_middle (up.y.v)));
  /* Near 90° what hardly changes the sine is half a degree, which no sling hangs off plumb by. */
  const gboolean is_same = fabs (sin (hangs_rad) + flatness) <= TRN_FORCE_SHARE;
  return hoist->has_beam || is_same ? hangs_rad : asin (CLAMP (-flatness, -1, 1));
}

double
desk_forces_utilisation (DeskForces *forces, const TrnHoist *hoist, guint move, double progress)
{
  const OfMove *of_move = find (forces, hoist, move);
  TrnInterval value;
  if (of_move == NULL || hoist->gear == G_MAXUINT)
    return NAN;
  if (!trn_capacity_utilisation (&of_move->force, trn_interval_point (progress), &value))
    return NAN;
  return if_slack (forces, hoist, move, progress, value.hi);
}

double
desk_forces_pressure_pa (DeskForces *forces, const TrnHoist *hoist, guint move, double progress)
{
  const OfMove *of_move = find (forces, hoist, move);
  TrnInterval value;
  if (of_move == NULL || of_move->ground == NULL)
    return NAN;
  return trn_ground_force_pressure (of_move->ground, trn_interval_point (progress), &value)
             ? value.hi
             : NAN;
}

const char *
desk_forces_hook_missing (DeskForces *forces, const TrnHoist *hoist, guint move)
{
  const OfMove *of_move = find (forces, hoist, move);
  if (of_move == NULL)
    return NULL;
  const TrnCarried *carried = &of_move->force.carried;
  if (isnan (carried->mass_kg))
    return "mass";
  return carried->main_holds && carried->tail_holds && !carried->has_cog ? "cog" : NULL;
}

const char *
desk_forces_tension_missing (DeskForces *forces, const TrnHoist *hoist, guint move)
{
  const OfMove *of_move = find (forces, hoist, move);
  return of_move != NULL ? trn_sling_force_missing (&of_move->force, TRUE) : NULL;
}
