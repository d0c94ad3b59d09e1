/* programme.h: the programme played through without meshes: for each lift, where everything stands
 * when it begins, and the motion of every move.
 *
 * Also the part of a plan's validation that needs the state of the site: a component that is lifted
 * must stand there, what is added must not, every obstacle needs a clearance to be kept, a slew
 * needs a radius, a two-hook up-ending a plane, a hook its gear on the site. */
#pragma once

#include "beam-hang.h"
#include "motion.h"
#include "parallel-hang.h"
#include "plan.h"
#include "rig.h"

typedef enum
{
  TRN_STANDING_STRUCTURE,
  TRN_STANDING_COMPONENT,
  TRN_STANDING_GEAR,
} TrnStandingKind;

/* How far a component may be from where it is drawn: a shift of at most m, a tilt about a level
 * axis and a turn of heading, both through a point of its own frame. */
typedef struct
{
  double m, tilt_rad, heading_rad;
  TrnVec3 about;
} TrnSlack;

/* A structure, component or gear that stands on the site during a lift (not the load itself). */
typedef struct
{
  const char *id; /* the plan's */
  TrnStandingKind kind;
  guint index; /* into the plan's structures, components or gear */
  TrnPose site_from_standing;
  double required_m; /* clearance that the load keeps from it in this lift */
  double survey_tolerance_m;
  TrnSlack slack; /* of a component: what the lifts that moved it left; else 0 */
  /* The run that left it on its hook, or what it took the place of; G_MAXUINT: none did. How far
   * it hangs from where it is drawn is more than the slack then (checks/left.h). */
  guint left_by;
  gboolean is_held; /* of what hangs: by gear or slings that the plan names in some lift of it */
  gboolean is_place_unknown; /* how it hangs, or hung when it was left there, is not known */
} TrnStanding;

/* Why how a load that hangs free hangs is not known, beside "cog". */
#define TRN_HANG_TURNS_OVER "hang/turns-over" /* its CoG is above what it hangs from */
#define TRN_HANG_HELD "hang/held"             /* its CoG is at its hook, or no legs hold it */
#define TRN_HANG_LENGTH "hang/length"         /* one of several legs has no length */
#define TRN_HANG_LEGS "hang/legs"             /* they are more than TRN_HANG_LEGS_MAX */
#define TRN_HANG_BESIDE "hang/beside"         /* guided, beside such a move, or after */

/* How the load hangs in one move (free-hang.h). With off and reach a point of the load at the
 * distance r from the lift's hook point is at most 2 r sin(rad/2) + m from where the motion has it.
 */
typedef struct
{
  gboolean one_hook; /* the main hook alone holds the load, and no tilt guides it */
  gboolean leans;    /* the motion starts with the load leaned from the drawn attitude */
  gboolean is_stiff; /* by one hook: legs keep load and hook one body, wherever the CoG is */
  double lean_rad;   /* by that much, or would but for a seat; 0 in lifts as drawn */
  TrnVec3 pivot;     /* load frame: what the load turns about while it hangs, plumb over its centre
                        of gravity when that leans */
  double off_rad, off_m; /* with the centre of gravity where the plan says; 0 where it leans */
  /* Below a beam: how much less the load may lean, and how far what it turns about may be aside
   * then; 0 where slings keep load and beam parallel, and elsewhere. */
  double below_beam_rad, below_beam_m;
  TrnBeamPlay play;          /* likewise */
  double reach_rad, reach_m; /* wherever it is in its box: proven, not below off; NAN: not known, */
  const char *unbounded;     /* for want of that input, static */
  /* Of a lift as drawn, by one hook: by how much the load would lean from the drawn attitude if it
   * hung free, with its centre of gravity where the plan says, and at most how far that would take
   * its hook point aside; the greatest of both wherever it is in its box, proven, not below; and
   * how far from the hook point what it turns about is drawn. NAN: not known. */
  double drawn_lean_rad, drawn_shift_m, drawn_reach_rad, drawn_reach_m, drawn_hook_m;
  /* Static: why it is not known how a load that hangs free does, so that the motion is as drawn,
   * which it is not; NULL: it is known. Where it turns over lean_rad is by how much. */
  const char *missing;
  TrnParallelHang parallel; /* where it leans below a beam */
} TrnMoveHang;

/* What was removed while it hung, and has not been added or swapped in again: nobody says that what
 * holds it has let it go. */
typedef struct
{
  guint component; /* into the plan's components */
  guint left_by;   /* as in TrnStanding */
  gboolean is_held;
} TrnGone;

typedef struct
{
  const TrnLift *lift; /* the plan's */
  TrnPose stands;      /* where its component stands */
  TrnPose start;       /* where the lift begins: the same, or the plan's "start" */
  gboolean starts_elsewhere;
  gboolean starts_unknown; /* an earlier lift that left it there cannot tell how it hung */
  guint left_by;           /* the run that left its load on its hook; G_MAXUINT: none did */
  TrnSlack left;           /* of its load as it begins: what earlier lifts left */
  TrnSlack slack;          /* and in all its moves: its tolerances, or that where it is more; about
                              the lift's hook point */
  TrnPose end;
  gboolean ends_unknown; /* likewise for the next */
  /* One a move; owned. Each begins where the one before ended, except that the attitude jumps where
   * a lean comes or goes (free-hang.h). */
  TrnMotion *motions;
  TrnMoveHang *hangs;    /* one a move; owned; NULL without a rig */
  TrnVec3 drawn_hook;    /* load frame: where the main hook is as drawn when it takes the load; not
                            finite where that is not known */
  double *begins_s;      /* n_moves + 1: when each move begins; the last is the end; owned */
  TrnStanding *standing; /* in the order of the plan: structures, components, gear; owned */
  guint n_standing;
  TrnGone *gone; /* in the order of the plan; owned */
  guint n_gone;
  TrnRig *rig; /* with a place for all gear that stands, also what this lift does not use; owned */
} TrnLiftRun;

typedef struct
{
  TrnPlan *plan; /* reference held */
  TrnLiftRun *runs;
  guint n_runs;
} TrnProgramme;

/* What is odd but can be played is a warning: a lift round which nothing stands, a live line
 * without a clearance of its own. NULL with errors in @diags ("scene/…", with pointer, file and
 * line) where it cannot be played; all faults are reported, as far as those found before allow. */
TrnProgramme *trn_programme_play (TrnPlan *plan, TrnDiags *diags);
void trn_programme_free (TrnProgramme *programme);
/* Whether its load stands on a seat when it begins. */
gboolean trn_programme_starts_on_seat (const TrnLift *lift);
/* Whether it sets its load down on a seat. */
gboolean trn_programme_ends_on_seat (const TrnLift *lift);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TrnProgramme, trn_programme_free)
