/* swinging.h: how far starting, stopping and slewing make the load swing, where the plan says how
 * long its drives take to come up to speed. */
#pragma once

#include "lift-check.h"
#include "on-rope.h"

/* Of one move. */
struct _TrnSwinging
{
  double chord;  /* 2 sin (φ/2), φ how far from plumb the line from tip to load comes; 0: the load
                    does not swing; NAN: there is no bound */
  double before; /* likewise as it begins, with what holds it until then */
  TrnOnRope held_before;
  double rope_m;       /* the tip above the hook, at most */
  double throw_out_m;  /* of a slew, what its even rate takes the load outwards; 0 of others */
  const char *missing; /* input of the plan for want of which chord is NAN, static; else NULL */
  const char *missing_before; /* likewise of before */
};

/* One a move, where the plan says. */
void trn_swinging_make (TrnLiftCheck *check);

/* φ in that move; NAN: there is no bound. */
double trn_swinging_rad (const TrnLiftCheck *check, guint move);

/* "swing": m, how far a point of the load goes aside, the most in all moves. A number to be looked
 * at. */
TrnFinding trn_swinging_judge (const TrnLiftCheck *check);
