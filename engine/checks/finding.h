/* finding.h: what a check found: one judgement about one thing, with all that is needed to follow
 * it. Codes and values; the sentences are made in app/words.
 *
 * Only the files of this folder say pass, fail, note or unknown. */
#pragma once

#include "diag.h"
#include "inside.h"
#include "interval.h"
#include "pose.h"

typedef enum
{
  TRN_CHECK_CLEARANCE,    /* the least distance over the move, for each (move, body, obstacle) */
  TRN_CHECK_SWING_RADIUS, /* for each (rotating move, obstacle) */
  TRN_CHECK_SEAT,         /* how the load rests where the plan says it does, for each (seat, end) */
  TRN_CHECK_START,        /* a lift begins where its component stands, for each lift */
  /* of plans with gear */
  TRN_CHECK_HEADROOM,   /* the hook can go as high as it has to, for each (move, gear) */
  TRN_CHECK_REACH,      /* the gear can go where the hook is, for each (move, gear, item) */
  TRN_CHECK_TAIL_SWING, /* circles about a crane, for each (crane, obstacle), and its barricade */
  TRN_CHECK_APPROACH,   /* distance from a live line, for each (move, body, line) */
  TRN_CHECK_RIGGING,    /* legs keep their length, for each (move, sling) */
  TRN_CHECK_STANDING,   /* what stands of the gear stands in nothing, for each (gear, obstacle) */
  TRN_CHECK_FOOTING,    /* and stands on something, for each gear */
  /* of forces */
  TRN_CHECK_HOOK_LOAD,   /* what hangs on a hook, for each (move, hoist) */
  TRN_CHECK_CAPACITY,    /* beside what its gear may lift, for each (move, hoist) */
  TRN_CHECK_LOAD_SHARE,  /* between main and tail, for each (move with a tail, item) */
  TRN_CHECK_SLINGS,      /* what each sling, shackle and beam bears, for each (move, item) */
  TRN_CHECK_GROUND,      /* what supports press on the ground with, for each (move, gear) */
  TRN_CHECK_WIND,        /* what the wind does, for each item */
  TRN_CHECK_RESTING,     /* the load stands by itself on its seats, for each (lift, end) */
  TRN_CHECK_ATTITUDE,    /* the load hangs as it is drawn, for each move by one hook */
  TRN_CHECK_HOIST_LINES, /* hoist ropes are near plumb, for each (move, hoist) */
  TRN_CHECK_SPEEDS,      /* how quick drives have to be, for each (hoist, drive) */
  TRN_CHECK_SWINGING,    /* how far starting and stopping take the load aside */
} TrnCheckKind;
#define TRN_N_CHECKS (TRN_CHECK_SWINGING + 1)

/* A set of checks: a bit for each. */
#define TRN_CHECK_BIT(check) (1u << (check))
/* Those that are done of every plan. */
#define TRN_CHECKS_ALWAYS                                                                          \
  (TRN_CHECK_BIT (TRN_CHECK_CLEARANCE) | TRN_CHECK_BIT (TRN_CHECK_SWING_RADIUS)                    \
   | TRN_CHECK_BIT (TRN_CHECK_SEAT) | TRN_CHECK_BIT (TRN_CHECK_START))
#define TRN_CHECKS_ALL (TRN_CHECK_BIT (TRN_N_CHECKS) - 1)

typedef enum
{
  TRN_VERDICT_PASS,
  TRN_VERDICT_NOTE, /* to be looked at; changes no overall verdict */
  TRN_VERDICT_UNKNOWN,
  TRN_VERDICT_FAIL,
} TrnVerdict;

typedef enum
{
  TRN_STATE_CLEAR,
  TRN_STATE_SHORT,
  TRN_STATE_CONTACT,
  TRN_STATE_SEATED,
  TRN_STATE_UNKNOWN,
  /* of seats */
  TRN_STATE_RESTING,
  TRN_STATE_BURIED,      /* still touching when raised by the fit */
  TRN_STATE_NOT_RESTING, /* clear even when lowered by the fit */
  TRN_STATE_NEVER_LEFT,
  TRN_STATE_NEVER_REACHED,
  /* of starts */
  TRN_STATE_IN_PLACE,
  TRN_STATE_ELSEWHERE,
  /* of headroom, reach, rigging and the barricade */
  TRN_STATE_WITHIN,       /* within the limit */
  TRN_STATE_OUTSIDE,      /* beyond it */
  TRN_STATE_OUT_OF_REACH, /* at some moment the gear has no place at all with the hook there */
  TRN_STATE_NOT_GIVEN,    /* the plan leaves it out, so that it is no part of any check */
  /* of forces */
  TRN_STATE_KNOWN,      /* a number that has no limit */
  TRN_STATE_CRITICAL,   /* within the limit, and critical by the rule that the plan chooses */
  TRN_STATE_SLACK,      /* it would have to push */
  TRN_STATE_OVER_TAIL,  /* the CoG is plumb over the tail point or beyond it */
  TRN_STATE_LIFTED,     /* a support has lifted off */
  TRN_STATE_TURNS_OVER, /* the CoG can be above what the load hangs from */
} TrnState;
#define TRN_N_STATES (TRN_STATE_TURNS_OVER + 1)

/* A part of a sum. */
typedef struct
{
  const char *what; /* static word of the results file */
  double m;
} TrnFindingItem;

/* A number beside a value. */
typedef struct
{
  const char *what; /* likewise */
  double value;
  TrnUnit unit;
} TrnFindingNumber;

/* Two bodies between which no clearance is asked for. */
typedef struct
{
  const char *a, *b; /* ids; borrowed from the scene */
} TrnBodyPair;

/* What @of of a cause names. */
typedef enum
{
  TRN_CAUSE_NONE,
  TRN_CAUSE_POINT, /* a point of the load */
  TRN_CAUSE_SLING,
  TRN_CAUSE_BEAM,
  TRN_CAUSE_GEAR,
} TrnCauseKind;

/* With what it lies that it fails, or that something is missing, where that can be told
 * (cause.h). */
typedef struct
{
  const char *why; /* which of several causes, static; NULL: none is told */
  TrnCauseKind kind;
  const char *of;       /* borrowed from the scene; NULL: nothing is named */
  guint n_more;         /* as many more like it */
  double found, limit;  /* NAN: none */
  TrnUnit unit;         /* of both */
  gboolean is_at_least; /* found has to be no less than its limit, else no more */
} TrnCause;

/* NAN stands for a number that there is none of (null in the results). */
typedef struct
{
  TrnCheckKind check;
  TrnVerdict verdict;
  TrnState state;
  guint lift; /* index of the run */
  int move;   /* index from 0; −1 where no single move is meant */
  /* "load", a moving part of the gear, or the gear itself; static or borrowed from the scene, like
   * the next */
  const char *body;
  const char
      *obstacle; /* "id" or "id/part", or a moving part of the gear; NULL where none is meant */
  double required_m;
  /* The input of the plan without which it is not known, static or borrowed; NULL: none is meant.
   */
  const char *missing;

  /* clearance, approach */
  double lower_m, upper_m, certified_to_m, allowance_m;
  /* What may be taken off any distance of the move, as if all went as far as what goes farthest:
   * allowance_m, or more where less than that is taken off lower_m (gear-along.h). */
  double everywhere_m;
  GArray *
      allowance_parts; /* of TrnFindingItem, what allowance_m is the sum of; NULL: it is 0; owned */
  double time_s, progress; /* from the start of the lift; s within the move */
  TrnVec3 point_on_body, point_on_obstacle;
  gboolean has_points;
  gboolean has_seated;
  TrnInterval seated_s; /* the part of the seated span that lies within this move */
  /* The whole of that span, which its ends are no part of; −∞ and ∞ where it begins or ends with
   * the lift. */
  TrnInterval seat_s;
  GArray *contacts; /* of TrnInterval, seconds from the start of the lift; NULL: none; owned */
  TrnInside inside;
  /* What until_clear of the seat has to be at least, where it being less is all that is wrong. */
  double seat_until_m;

  /* swing-radius: circles about the axis of the rotation */
  double radius_m, sector_distance_m, circle_distance_m;

  /* seat */
  gboolean at_end; /* which end of the lift */
  double fit_m; /* standing in something: how thick its mats are, raised by which it stands on it */
  double gap_m; /* not resting: how far above the seat; NAN where it is not above it */
  double raise_m; /* buried: raised by this it is clear of the seat; standing: raised by this it is
                     looked at */

  double distance_m; /* seat, not resting: from the seat; start: from where the component stands */

  /* start, elsewhere */
  TrnPlacement stands, starts;
  double turned_rad; /* the angle between the two */

  /* headroom, reach, rigging, the barricade: a value beside its limit at the moment when it has
   * least in hand; of an angle allowance_m is in degrees as well */
  const char *item; /* which of several limits, static; NULL where there is but one */
  TrnUnit unit;     /* of value, limit and margin */
  double value, limit;
  gboolean limit_is_least; /* the value has to be no less than it, else no more */
  double margin; /* certified over the whole move, the allowance taken off; negative: beyond it */
  GArray *items; /* headroom: of TrnFindingItem, what value is the sum of; else NULL; owned */

  /* of forces */
  double utilisation; /* value as a share of limit */
  GArray *numbers;    /* of TrnFindingNumber; NULL: none; owned */
  const char *source; /* of the distance, of the limit; borrowed; NULL: there is none */
  const char *rule;   /* capacity: by which it is critical or not; hook load: where the dynamic
                         factor beside it is from; likewise */

  /* rigging, of a load that is not held on as it was left: the key of the plan that differs,
   * static; whose it is, borrowed; was and is, where these are names, likewise; NULL: none. */
  const char *key, *key_of, *was, *is;
  /* Where they are numbers, NAN where left out: one, or three of a place or a direction. */
  guint n_values;
  TrnUnit values_unit;
  double was_values[3], is_values[3];

  TrnCause cause; /* no part of what a cache keeps: set once all is found */
} TrnFinding;

typedef struct
{
  guint lift;
  TrnVerdict verdict;
  /* Of TrnFinding, in the fixed order: check, move, body, obstacle, item; owned. */
  GArray *findings;
  GArray *left_out; /* of TrnBodyPair: connected, so that no clearance is asked for; owned */
  gpointer
      *kept; /* one a finding: what owns its texts where it is from a cache; else NULL; owned */
} TrnLiftFindings;

typedef struct
{
  TrnLiftFindings *lifts; /* one for each lift that was checked */
  guint n_lifts;
  TrnVerdict verdict;
  guint checks_done; /* set of checks, beside TRN_CHECKS_ALWAYS; of the others nothing is known */
  gboolean complete; /* FALSE when cancelled; what was not computed is unknown then */
  double certify_m;
  double sweep_s; /* wall-clock time */
} TrnFindings;

/* What was found in the lift with that index; NULL where it was not checked. @findings may be
 * NULL. */
const TrnLiftFindings *trn_findings_get_lift (const TrnFindings *findings, guint lift);

/* A copy of what was found in one lift, which another thread may read while the scene is there;
 * verdict and completeness are those of all lifts. NULL where it was not checked. Owned by the
 * caller. */
TrnFindings *trn_findings_dup_lift (const TrnFindings *findings, guint lift);

/* Whether the load counts as seated at @time_s, a moment of the move of the clearance @finding, so
 * that nothing is to be kept. @list: of TrnFinding, all of that lift: where the load does not rest
 * on the seat as it should, or that is not known, it does not count as seated. */
gboolean trn_finding_is_seated (const GArray *list, const TrnFinding *finding, double time_s);
/* The same of its place alone, where what is to be taken off may not be known. */
gboolean trn_finding_is_on_seat (const GArray *list, const TrnFinding *finding, double time_s);

/* What a finding misses where its lift, or one before it, has a load of which the check `attitude`
 * does not tell how it hangs. */
#define TRN_MISSING_ATTITUDE "attitude"
#define TRN_MISSING_ATTITUDE_BEFORE "attitude/before"
/* What holds a load that an earlier lift left on its hook. */
#define TRN_MISSING_HOLDER "rigging/before"
#define TRN_MISSING_LEFT                                                                           \
  "left/near" /* it is no farther from gear than a lift may have left it off */
/* What a load is to rest on: an earlier lift left it on its hook. */
#define TRN_MISSING_HUNG_SEAT "seats/before"
gboolean trn_finding_is_unhung (const TrnFinding *finding);

/* fail > unknown > pass; a note changes nothing. */
static inline TrnVerdict
trn_verdict_fold (TrnVerdict so_far, TrnVerdict next)
{
  return next == TRN_VERDICT_NOTE || next < so_far ? so_far : next;
}

/* Adds a number beside the value; @what is static. */
void trn_finding_add_number (TrnFinding *finding, const char *what, double value, TrnUnit unit);

/* NAN where there is none. */
double trn_finding_number (const TrnFinding *finding, const char *what);

/* Whether it is about what holds a load that an earlier lift left on its hook, not about what that
 * makes unknown. */
gboolean trn_finding_is_holder (const TrnFinding *finding);

/* Frees what @finding owns. */
void trn_finding_clear (TrnFinding *finding);

/* A copy for a cache, with texts of its own and references to the lists of @finding, which nobody
 * may add to from then on; a block of g_atomic_rc_box_alloc. */
typedef struct
{
  TrnFinding finding;
  gsize bytes; /* beside the block */
  char texts[];
} TrnKeptFinding;
TrnKeptFinding *trn_kept_finding_new (const TrnFinding *finding);
void trn_kept_finding_clear (gpointer kept);
/* The finding, whose texts are borrowed from @kept. */
TrnFinding trn_kept_finding_dup (const TrnKeptFinding *kept);
void trn_findings_free (TrnFindings *findings);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TrnFindings, trn_findings_free)

/* What a finding has in hand: the least certified clearance less the allowance less what is to be
 * kept, or what is left to a limit that is a length; negative where it falls short; NAN where it is
 * not a matter of distance. */
double trn_finding_margin_m (const TrnFinding *finding);

/* What is to be taken off @distance_m, a distance at some moment of the clearance @finding, of
 * which @required_m is to be kept, so that no more is said to be left then than is proven; NAN: not
 * known. What it leaves is never less for a larger distance. */
double
trn_finding_allowance_now_m (const TrnFinding *finding, double required_m, double distance_m);
