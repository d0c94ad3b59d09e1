/* solid.h: exact parametric solids, and the triangles that stand for them.
 *
 * A solid stands on its local origin, centre of its base there, going up, unless said otherwise.
 * The triangles *contain* the true solid and exceed it by at most the deviation asked for: outer
 * faces are circumscribed, inner faces and openings inscribed. A clearance computed on them is
 * then never larger than the true one, rounding included. Each part's mesh is closed, faces
 * outwards. That of a ground whose openings line up to within rounding can have needles among its
 * triangles.
 *
 * A shaft. The depth is measured from the rim to the top of the floor. The wall goes from the rim
 * down to the top of the floor and stands on it; the floor is a full plate below, out to the outer
 * face of the wall. So a load that stands on the floor and one that comes too near the wall concern
 * two parts that only meet, and the shaft leaves no gap between them. Floor 0 is an open shaft
 * without a part `floor`. */
#pragma once

#include "mesh.h"
#include "pose.h"

typedef enum
{
  TRN_SOLID_BOX,           /* size x, y, z */
  TRN_SOLID_CYLINDER,      /* diameter, height */
  TRN_SOLID_TUBE,          /* outer and inner diameter, height */
  TRN_SOLID_ROUND_SHAFT,   /* rim at z = 0, going down; parts `wall` and `floor` */
  TRN_SOLID_RECT_SHAFT,    /* the same, rectangular */
  TRN_SOLID_BEAM,          /* from, to: centre line; width level, depth square to it */
  TRN_SOLID_GROUND,        /* top at z = 0, TRN_GROUND_THICKNESS_M thick, with openings */
  TRN_SOLID_OVERHEAD_LINE, /* conductors: parabolas, sag below the middle of the chord */
  TRN_SOLID_GROUP, /* parts, each a solid that is placed; groups within groups are allowed */
} TrnSolidKind;

#define TRN_GROUND_THICKNESS_M 0.5

/* A beam counts as vertical, so that its width lies along +X, when the level part of its length is
 * no more than this share of it: below that, where "level" points is rounding. */
#define TRN_BEAM_VERTICAL 1e-9

/* What trn_solid_check lets pass. Sizes and coordinates are at most the greatest, since a site is
 * smaller and the bounds on rounding count on it; sizes, walls and the gaps between openings are at
 * least the least. The counts, with TRN_SOLID_MOST_TRIANGLES at the finest deviation, bound the
 * memory that a plan can ask for. */
#define TRN_SOLID_GREATEST_M 100e3
#define TRN_SOLID_LEAST_M 1e-6
#define TRN_SOLID_MOST_ITEMS 1000 /* openings, conductors, or parts of one group */
#define TRN_SOLID_MOST_LEVELS 4   /* groups within groups */
#define TRN_SOLID_MOST_TRIANGLES 50e6

/* The finest deviation that trn_solid_build accepts. */
#define TRN_SOLID_LEAST_DEVIATION_M 10e-6

typedef enum
{
  TRN_OPENING_CIRCLE,
  TRN_OPENING_RECT,
} TrnOpeningKind;

typedef struct
{
  TrnOpeningKind kind;
  double x_m, y_m;          /* centre */
  double diameter_m;        /* circle */
  double width_m, height_m; /* rect: along x, along y */
} TrnOpening;

typedef struct
{
  TrnVec3 from, to;
  double sag_m;
} TrnConductor;

typedef struct _TrnSolid TrnSolid;

typedef struct
{
  char *id;        /* owned */
  TrnSolid *solid; /* owned */
  TrnPlacement at;
} TrnSolidGroupPart;

struct _TrnSolid
{
  TrnSolidKind kind;
  TrnVec3 size;                              /* box; rect-shaft: x and y of the inside */
  double diameter_m;                         /* cylinder; overhead-line: of a conductor */
  double outer_diameter_m, inner_diameter_m; /* tube; round-shaft: inner */
  double height_m;                           /* cylinder, tube */
  double depth_m, wall_m, floor_m;           /* shafts; beam: depth; floor 0: open below */
  TrnVec3 from, to;                          /* beam */
  double width_m;                            /* beam; ground: size.x and size.y are used */
  double voltage_kv;                         /* overhead-line; NAN where unknown */
  TrnOpening *openings;                      /* ground; owned */
  guint n_openings;
  TrnConductor *conductors; /* overhead-line; owned */
  guint n_conductors;
  TrnSolidGroupPart *parts; /* group; owned */
  guint n_parts;
};

/* A solid of @kind with every number 0 and voltage NAN. */
TrnSolid *trn_solid_new (TrnSolidKind kind);
void trn_solid_free (TrnSolid *solid);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TrnSolid, trn_solid_free)

/* The word that a plan uses for the kind, such as "round-shaft". */
const char *trn_solid_kind_name (TrnSolidKind kind);

/* Why a solid cannot be built, for whoever reads a plan. The code is static and begins with
 * "shape/"; @path names the key that is at fault, as a JSON Pointer relative to the solid, such as
 * "/inner_diameter" or "/parts/2/solid/size/0". */
typedef void (*TrnSolidFault) (const char *code, const char *path, gpointer data);

/* Checks every number of @solid (sizes > 0, inner < outer, openings inside the ground's edge and
 * apart from each other, beams and conductors of some length, sag >= 0 and not so great that the
 * conductor folds, part ids well formed and unique, everything within the limits above) and calls
 * @fault, which may be NULL, for each fault found. TRUE when there is none. */
gboolean trn_solid_check (const TrnSolid *solid, TrnSolidFault fault, gpointer data);

typedef struct
{
  char *id;      /* owned; "" for a solid of one piece, "wall", or "part/wall" inside a group */
  TrnMesh *mesh; /* owned; in the frame of the solid */
} TrnSolidPart;

/* Turns a solid that passes trn_solid_check into the triangles of its parts, in a fixed order; at
 * least one. @deviation_m is the most by which they may exceed the true solid, and at least
 * TRN_SOLID_LEAST_DEVIATION_M (asserted). Returns an array of TrnSolidPart*, owned, with a free
 * function set. */
GPtrArray *trn_solid_build (const TrnSolid *solid, double deviation_m);
