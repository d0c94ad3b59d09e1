/* plan.h: the plan that a user wrote, as plain structs, with the JSON document it came from.
 *
 * A plan is immutable once read: an edit makes a new one. Lengths are in metres, masses in
 * kilograms, angles in radians (the file has degrees). */
#pragma once

#include <json-glib/json-glib.h>

#include "diag.h"
#include "import.h"
#include "plan-gear.h"
#include "plan-loads.h"
#include "pose.h"
#include "solid.h"

/* NAN stands for a number that the plan leaves out. */

typedef struct
{
  char *file; /* as written, relative to the plan's folder; owned */
  /* Resolved, absolute; owned; NULL for a plan that was not read from a file, and where the file is
   * missing. */
  char *path;
  gboolean is_missing; /* not there, or not to be had; only where the options allow that */
  TrnLengthUnit unit;
  TrnUpAxis up;
  char **parts; /* names of the objects of the file that are meant; owned; NULL: all */
} TrnMeshFile;

/* The shape of a structure or a component: one of the two. */
typedef struct
{
  TrnSolid *solid;   /* owned, or NULL */
  TrnMeshFile *mesh; /* owned, or NULL */
} TrnShape;

typedef struct
{
  char *id, *name; /* owned; name falls back to id */
  char *pointer;   /* JSON Pointer of the object */
  TrnShape shape;
  gboolean placed; /* FALSE: not on the site until a change adds it */
  TrnPlacement at;
  double keep_clear_m;
  double survey_tolerance_m; /* 0 where left out */
} TrnStructure;

typedef struct
{
  char *name; /* owned */
  TrnVec3 place;
} TrnNamedPoint;

typedef struct
{
  char *id, *name;
  char *pointer;
  TrnShape shape;
  double mass_kg;
  char *mass_source;  /* NULL where left out */
  double mass_factor; /* 1 where left out */
  TrnVec3 cog;        /* NAN where left out */
  TrnVec3 cog_box;    /* 0 where left out */
  TrnNamedPoint *points;
  guint n_points;
  gboolean placed;
  TrnPlacement at;
  double keep_clear_m;
} TrnComponent;

/* A point of the load: in the load's frame, with the name by which the plan calls it, if any. */
typedef struct
{
  char *name; /* owned, or NULL */
  TrnVec3 place;
} TrnPoint;

typedef enum
{
  TRN_MOVE_HOIST,
  TRN_MOVE_TRAVEL,
  TRN_MOVE_MOVE,
  TRN_MOVE_TURN,
  TRN_MOVE_SLEW,
  TRN_MOVE_TILT,
  TRN_MOVE_WAIT,
} TrnMoveKind;

/* The word of the plan for it, static. */
const char *trn_move_kind_name (TrnMoveKind kind);

typedef struct
{
  TrnMoveKind kind;
  char *pointer;
  double seconds;
  TrnVec3 by;          /* hoist: z; travel: x, y; move; tilt: carry */
  double turn_rad;     /* move, turn, slew, tilt */
  double axis_rad;     /* tilt: heading of the axis */
  gboolean head_plumb; /* tilt */
  TrnPoint about;      /* move, turn, tilt with a fixed guide: the hook point where left out */
  TrnPoint head, tail; /* tilt with guide head-plumb */
  double centre_x, centre_y, radius_by_m, hoist_by_m; /* slew */
  gboolean load_turns;                                /* slew */
  char *hold_point;                                   /* wait; NULL where left out */
} TrnMove;

typedef struct
{
  char *on; /* "id" or "id/part"; owned */
  char *pointer;
  gboolean at_start, at_end;
  double until_clear_m; /* NAN where left out */
  double fit_m;         /* TRN_SEAT_FIT_M where left out */
} TrnSeat;

typedef struct
{
  char *id, *name;
  char *pointer;
  guint component; /* index */
  TrnPoint hook;
  TrnMove *moves;
  guint n_moves;
  TrnSeat *seats;
  guint n_seats;
  gboolean has_start;
  TrnPlacement start;
  double keep_clear_m;         /* for all obstacles; NAN where left out */
  TrnKeepClear *keep_clear_of; /* for single ones */
  guint n_keep_clear_of;
  double tolerance_m, tolerance_tilt_rad, tolerance_heading_rad; /* 0 where left out */
  TrnRigging rigging;
  gboolean hangs_free; /* its attitude follows from the centre of gravity where nothing guides it
                          (programme.h); else it is as drawn */
} TrnLift;

typedef enum
{
  TRN_CHANGE_ADD,
  TRN_CHANGE_REMOVE,
  TRN_CHANGE_SWAP,
} TrnChangeKind;

typedef struct
{
  TrnChangeKind kind;
  char *id, *name;
  char *pointer;
  char *what; /* add, remove: id of a structure, component or gear; swap: the component that goes */
  char *with; /* swap: the component that comes */
  gboolean has_at;
  TrnPlacement at;
} TrnChange;

typedef struct
{
  gboolean is_lift;
  guint index; /* into lifts or changes */
} TrnProgrammeItem;

typedef struct
{
  char *file;          /* path as given; NULL for a plan that was not read from a file */
  char *base_name;     /* of the file; "" without one */
  char sha256[65];     /* of the bytes read */
  char *title, *notes; /* "" where left out */
  double keep_clear_m;
  TrnStructure *structures;
  guint n_structures;
  TrnComponent *components;
  guint n_components;
  TrnGear *gear;
  guint n_gear;
  TrnApproachRule approach;
  TrnLoads loads;
  TrnWind wind;
  TrnLift *lifts;
  guint n_lifts;
  TrnChange *changes;
  guint n_changes;
  TrnProgrammeItem *programme;
  guint n_programme;
  JsonNode *document; /* all of it, in the order of the file, x- keys included */
  GHashTable *lines;  /* JSON Pointer → line in the file (GUINT_TO_POINTER) */
} TrnPlan;

typedef struct
{
  gboolean outside_files; /* allow mesh files outside the plan's folder */
  /* A plan of which mesh files alone are missing is given all the same, to be looked at; these
   * errors stay in the diagnostics. */
  gboolean missing_files;
} TrnPlanOptions;

/* Reads and checks a plan. Every fault is added to @diags (codes "plan/…" and "shape/…", with file,
 * line and JSON Pointer; in the order of the file), not only the first; any error gives NULL.
 * Whether mesh files exist and lie where they may is part of the check; they are not opened.
 * @options may be NULL. */
TrnPlan *trn_plan_read (const char *path, const TrnPlanOptions *options, TrnDiags *diags);

/* The same from bytes. Relative file names are resolved against @folder; with a NULL @folder they
 * are not resolved. @file is only named in diagnostics. */
TrnPlan *trn_plan_parse (const char *bytes, gsize length, const char *file, const char *folder,
                         const TrnPlanOptions *options, TrnDiags *diags);
TrnPlan *trn_plan_ref (TrnPlan *plan);
void trn_plan_unref (TrnPlan *plan);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TrnPlan, trn_plan_unref)

/* The plan as text: every value, the order of keys and x- keys kept, numbers in the shortest form
 * that reads back the same, two spaces of indentation, short arrays of numbers on one line. */
char *trn_plan_to_text (const TrnPlan *plan, gsize *length);

/* Writes it whole or not at all (write-file.h). */
gboolean trn_plan_write (const TrnPlan *plan, const char *path, TrnDiags *diags);

/* Whether @path leads to the file of this plan, which has one, or to one of its meshes. */
gboolean trn_plan_reads (const TrnPlan *plan, const char *path);

/* Adds file and line to a diagnostic whose pointer is one of this plan. */
void trn_plan_locate (const TrnPlan *plan, TrnDiag *diag);

const TrnStructure *trn_plan_find_structure (const TrnPlan *plan, const char *id);
const TrnComponent *trn_plan_find_component (const TrnPlan *plan, const char *id);
const TrnGear *trn_plan_find_gear (const TrnPlan *plan, const char *id);

/* The clearance that the load keeps from @obstacle_id (a structure, component or gear, without a
 * part) in @lift: the lift's value for it, else the obstacle's own (of gear: for the load, else for
 * all), else the lift's, else the plan's; NAN: none. */
double trn_plan_required_m (const TrnPlan *plan, const TrnLift *lift, const char *obstacle_id);

/* The same from the view of a part of @gear: the gear's value for the obstacle, else the greater of
 * the gear's own and of what the lift or the obstacle itself sets for it, else what the lift or the
 * plan sets for all. Of two pieces of gear each may set a value; the greater counts.
 * @obstacle_id may be "load": as trn_plan_required_m for the gear. */
double trn_plan_gear_required_m (const TrnPlan *plan, const TrnLift *lift, const TrnGear *gear,
                                 const char *obstacle_id);
