/* rig.h: the gear of one lift in motion: where hooks, booms, ropes, slings and beams are at every
 * moment, from where the load is.
 *
 * The hook hangs plumb above its point of the load. A crane slews, luffs and pays out rope so that
 * its tip is plumb above the hook; a gantry's header and trolley follow it; a tail trolley follows
 * the tail point. Everything is worked out with jets (jet.h), once, for places, bounds and extremes
 * alike. */
#pragma once

#include "limb.h"
#include "motion.h"
#include "plan.h"

/* Where a gear stands in a lift. */
typedef struct
{
  const TrnGear *gear; /* the plan's */
  TrnPose site_from_gear;
} TrnGearPlace;

typedef enum
{
  TRN_PART_BOOM,
  TRN_PART_JIB,
  TRN_PART_COUNTERWEIGHT,
  TRN_PART_HEADER, /* of the gantry; index 0 and 1 */
  TRN_PART_TROLLEY,
  TRN_PART_TAIL_TROLLEY,
  TRN_PART_ROPE,
  TRN_PART_BLOCK,
  TRN_PART_SLING, /* index of the hoist's sling */
  TRN_PART_BEAM,
} TrnRigPart;

typedef struct _TrnRig TrnRig;

/* One moving body. */
typedef struct
{
  char *id; /* "gear/boom"; a sling's and a beam's own id; "main-hook/block", "tail-hook/block" of a
               hoist without gear; owned */
  TrnRigPart part;
  guint index;
  guint place; /* of its gear among the places; G_MAXUINT: rigging of a hoist without gear */
  const TrnHoist *hoist;       /* that it belongs to; NULL: no hoist of the lift uses its gear */
  guint first_move, last_move; /* slings and beams are there in these only; others in all moves */
  guint n_corners;
  double radius_m;
} TrnRigBody;

/* Places in the frame of a load that hangs free and leans: of the hook, instead of hook_above over
 * its point, and of both ends of a beam that leans with it. NAN: hook_above tells, and the beam is
 * level. */
typedef struct
{
  TrnVec3 hook, beam[2];
} TrnRigHung;

struct _TrnRig
{
  const TrnPlan *plan; /* borrowed */
  const TrnLift *lift;
  const TrnMotion *motions; /* of the lift; borrowed */
  guint n_moves;
  TrnGearPlace *places; /* owned */
  guint n_places;
  TrnRigBody *bodies; /* in the order: places as in the plan, each with its parts; then the rigging
                         of the main hook, then of the tail; owned */
  guint n_bodies;
  TrnInterval hook_above_m[2]; /* of the main and the tail hook above their points; NAN: unknown */
  TrnRigHung *hung; /* of the main hook, one a move; NULL: as hook_above says in all. Owned. */
};

/* @lift is one of @plan, and @motions are those of its moves; all are borrowed and must outlive it.
 * Takes @places: the gear that stands on the site during the lift. */
TrnRig *trn_rig_new (const TrnPlan *plan, const TrnLift *lift, const TrnMotion *motions,
                     TrnGearPlace *places_taken, guint n_places);
void trn_rig_take_hung (TrnRig *rig, TrnRigHung *hung_taken);
void trn_rig_free (TrnRig *rig);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TrnRig, trn_rig_free)

/* The body over one move as the sweep wants it. @store receives what the limb borrows. */
typedef struct
{
  const TrnRig *rig;
  guint body, move;
} TrnRigLimb;
TrnLimb trn_rig_limb (const TrnRig *rig, guint body, guint move, TrnRigLimb *store);

/* A proven bound on how far a hook that is off by at most @off_m in any direction takes any point
 * of a body other than a sling or a beam during that move; NAN where there is none, as beyond
 * reach. */
double trn_rig_tolerance (const TrnRig *rig, guint body, guint move, double off_m);

/* The same of both corners of a body that has two, in the order of its limb; of any other body the
 * same bound twice. A point between is a fixed mixture of both corners, and so is what it goes. */
void
trn_rig_tolerance_ends (const TrnRig *rig, guint body, guint move, double off_m, double ends_m[2]);

/* What can be asked about a hoist over a move. Heights are above the site's z = 0. */
typedef enum
{
  TRN_RIG_HOOK_X, /* site */
  TRN_RIG_HOOK_Y,
  TRN_RIG_HOOK_HEIGHT,
  TRN_RIG_HOOK_LOCAL_X, /* frame of the gear */
  TRN_RIG_HOOK_LOCAL_Y,
  TRN_RIG_HOOK_LOCAL_HEIGHT, /* above the base of the gear */
  TRN_RIG_RADIUS,            /* crane: hook from the slew axis */
  TRN_RIG_BOOM_ANGLE,        /* crane: from the level, rad */
  TRN_RIG_TIP_HEIGHT,        /* crane: of the tip; gantry: of the trolley's underside */
  TRN_RIG_TIP_ABOVE_HOOK,
  TRN_RIG_SLEW,         /* crane: direction of the boom from the gear's heading, rad, without jumps
                           within a move */
  TRN_RIG_SLING_LENGTH, /* of a leg, between its ends; index: the sling's */
  TRN_RIG_POINT_OFF,    /* turning frame: of the point from the pivot */
} TrnRigQuantity;

typedef struct
{
  const TrnRig *rig;
  const TrnHoist *hoist;
  TrnRigQuantity quantity;
  guint move, index;
} TrnRigQuestion;

/* A TrnQuantity (extreme.h): @question is a TrnRigQuestion. FALSE where there is no such value: the
 * kind of gear has none, an input is left out, or the hook is beyond reach. What follows from where
 * the hook is seen from above needs no height of the hook. */
gboolean trn_rig_ask (gconstpointer question, TrnInterval s, TrnJet *value);

/* The values of @n quantities over @s, for which the hook is placed once; none of a sling. FALSE
 * where one of them has none. */
gboolean
trn_rig_ask_all (const TrnRig *rig, const TrnHoist *hoist, guint move,
                 const TrnRigQuantity *quantities, guint n, TrnInterval s, TrnInterval *values);

/* The name of the input of the plan that @hoist lacks for that quantity, static, such as
 * "hook_above"; NULL when nothing is left out. */
const char *trn_rig_missing (const TrnRig *rig, const TrnHoist *hoist, TrnRigQuantity quantity);

/* The parts of a gear that stand still, as a solid in its frame: a group with parts "leg-1",
 * "runway-1", "pad-1", "carrier", "cheek-1" …; NULL when it has none. Owned by the caller. */
TrnSolid *trn_gear_solid_new (const TrnGear *gear);

/* Whether the clearance between two bodies is left out in that move because one is fixed to the
 * other: parts of one gear among themselves, but for the block and rope of a hoist past what stands
 * of it; a rope and the block of one hoist, and what hangs below it; in the moves of its hoist,
 * slings, beams and block against the load, and the tail trolley or turning frame that holds it;
 * and what the plan names. Ids are those of bodies ("crane/boom", "load"). */
gboolean trn_rig_is_connected (const TrnRig *rig, const char *a, const char *b, guint move);

/* Whether the plan names both as connected. */
gboolean trn_rig_names_connected (const TrnRig *rig, const char *a, const char *b);

/* The hoist that fixes one of the two, which is the load, to the other in its moves; NULL: none. */
const TrnHoist *trn_rig_holder (const TrnRig *rig, const char *a, const char *b);
