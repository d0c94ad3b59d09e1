/* forces.c: questions to the checks of forces at one moment. */
#include "forces.h"

#include <math.h>

#include "capacity-check.h"
#include "ground-check.h"
#include "hoist.h"
#include "load-share.h"
#include "sling-force.h"

/* What a hook bears is told to within more than that. */
#define LEAST_PUSH_KG 1e-3

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

double
desk_forces_tension_n (DeskForces *forces, const TrnHoist *hoist, guint sling, guint move,
                       double progress)
{
  return if_slack (forces, hoist, move, progress,
                   ask_sling (forces, hoist, sling, move, progress, TRN_SLING_TENSION));
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
  return isnan (flatness) ? NAN : asin (CLAMP (-flatness, -1, 1));
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
