/* tail-swing.h: the check `tail-swing`: the circle that a crane's counterweight draws about the
 * slew axis, beside what stands near it, and beside the crane's barricade.
 *
 * Where the counterweight really goes is judged by the check clearance; this is what is marked out
 * on the ground, over the whole lift. */
#pragma once

#include "lift-check.h"
#include "swing-radius.h"

typedef struct
{
  const TrnGearPlace *place; /* of a crane with a counterweight */
  TrnSwing swing;            /* what the counterweight sweeps over the lift; radius: tail radius */
  const char *missing;       /* the input without which the sector is not known, static; NULL */
} TrnTailSwing;

/* @place: index among the places of the rig. FALSE: it is no crane with a counterweight. Wants
 * check->tolerance_m. */
gboolean trn_tail_swing_make (const TrnLiftCheck *check, guint place, TrnTailSwing *tail);

/* Whether @obstacle is to be judged: not the crane itself, nor what is connected with it. */
gboolean trn_tail_swing_means (const TrnLiftCheck *check, const TrnTailSwing *tail, guint obstacle);

/* The finding about one obstacle. */
TrnFinding
trn_tail_swing_judge (const TrnLiftCheck *check, const TrnTailSwing *tail, guint obstacle);
/* The finding about the barricade: outside the tail radius by what is to be kept. */
TrnFinding trn_barricade_judge (const TrnLiftCheck *check, const TrnTailSwing *tail);
