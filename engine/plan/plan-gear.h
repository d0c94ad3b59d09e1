/* plan-gear.h: lifting gear and rigging as a plan writes them, as plain structs.
 *
 * Gear is placed with a heading only. Its own frame: the origin on its base, Z up; X along the
 * header beams of a gantry, along the track of a tail trolley, along the pivot of a turning frame;
 * a crane's slew centre is its origin. Lengths in metres, angles in radians, masses in kilograms;
 * NAN stands for a number that is left out. */
#pragma once

#include "capacity.h"
#include "interval.h"
#include "pose.h"

typedef enum
{
  TRN_GEAR_GANTRY,        /* gantry or lift tower */
  TRN_GEAR_CRANE,         /* mobile crane */
  TRN_GEAR_TAIL_TROLLEY,  /* carries the tail on a level track */
  TRN_GEAR_TURNING_FRAME, /* carries the tail in a fixed pivot */
} TrnGearKind;

/* The word of the plan for it, static. */
const char *trn_gear_kind_name (TrnGearKind kind);

typedef struct
{
  double x_m, y_m;
} TrnLevelSize;

typedef struct
{
  double x_m, y_m;           /* centre of its base, gear frame */
  double size_x_m, size_y_m; /* of a leg: its section; of a support: NAN */
  double height_m;           /* of a leg, from the base of the gear */
  double pad_x_m, pad_y_m;   /* NAN where left out */
  gboolean has_mat;          /* its top is the base of the gear */
  TrnVec3 mat_size;
  double mat_mass_kg; /* NAN where left out, as the next */
  /* What bends it at most: along its longer side, of tracks along y and of all mats below one; and
   * across that. */
  double mat_moment_nm, mat_moment_across_nm;
} TrnGearFoot;

/* [x, y] of what presses on the ground, or on the mat: the pad, of a leg without one its section;
 * NAN where that is not known. */
TrnLevelSize trn_gear_foot_size (const TrnGearFoot *foot);
/* The same of what lies on the ground: the mat where there is one. */
TrnLevelSize trn_gear_foot_on_ground (const TrnGearFoot *foot);

/* A beam of a gantry that stands still. */
typedef struct
{
  TrnVec3 from, to; /* centre line, gear frame */
  double width_m, depth_m;
} TrnGearBeam;

typedef enum
{
  TRN_SUPPORT_OUTRIGGERS,
  TRN_SUPPORT_TRACKS,
} TrnSupportKindOfGear;

typedef struct
{
  char *id; /* owned */
  double m;
} TrnKeepClear;

typedef struct
{
  char *id, *name; /* owned; name falls back to id */
  char *pointer;
  TrnGearKind kind;
  gboolean placed;               /* FALSE: not on the site until a change adds it */
  TrnPlacement at;               /* pitch and roll 0 */
  double keep_clear_m;           /* what its parts keep from everything; NAN where left out */
  TrnKeepClear *keep_clear_from; /* for single obstacles */
  guint n_keep_clear_from;
  double rope_diameter_m; /* gantry, crane: of the whole bundle of parts; NAN where left out */

  /* gantry */
  TrnGearFoot *legs;
  guint n_legs;
  TrnGearBeam *runways; /* stand still: skid beams, tower bracing */
  guint n_runways;
  gboolean has_header; /* goes along Y with the hook; centred on X = 0 */
  double header_length_m, header_width_m, header_depth_m, header_underside_m;
  double header_spacing_m; /* between the centre lines of two header beams; 0: one beam */
  gboolean has_trolley;    /* goes with the hook */
  TrnVec3 trolley_size;
  double trolley_underside_m;
  TrnInterval window_x, window_y,
      window_hook; /* where the hook can go, gear frame; NAN: not said */

  /* crane */
  gboolean has_carrier;
  TrnVec3 carrier_size; /* stands still, along the heading of `at` */
  double carrier_x_m, carrier_y_m;
  double boom_foot_out_m, boom_foot_up_m; /* from the slew centre, along the boom; may be < 0 */
  double boom_length_m, boom_width_m, boom_depth_m;
  TrnInterval boom_angle_rad; /* from the level; NAN where left out */
  gboolean has_jib;           /* fixed to the boom */
  double jib_length_m, jib_offset_rad, jib_width_m, jib_depth_m;
  gboolean has_counterweight;
  double tail_radius_m, counterweight_bottom_m, counterweight_top_m, counterweight_width_m;
  double hook_to_tip_m; /* least height of the tip above the hook; NAN where left out */
  double barricade_m;   /* radius of the barricade line; NAN where left out */
  gboolean has_park;
  TrnVec3 park; /* where its hook hangs while no lift uses it, gear frame */
  double wind_limit_m_s;
  TrnSupportKindOfGear support_kind;
  TrnGearFoot *supports; /* pads below outriggers or tracks; none: left out */
  guint n_supports;

  /* rated capacity: crane by radius, ascending; others: one row, radius NAN */
  TrnCapacityRow *capacity;
  guint n_capacity;
  char *configuration, *capacity_source; /* NULL where left out */

  /* tail trolley: size, the tail point lies on the middle of its top; turning frame: of a cheek */
  TrnVec3 size;
  TrnInterval track_m; /* tail trolley: how far its middle goes along X; NAN: not said */
  double pivot_up_m, cheek_spacing_m; /* turning frame */

  /* what stands and slews; NAN where left out. Of a crane mass_kg is of what does not slew, without
   * boom and jib, whose masses are taken to be at their middles. */
  double mass_kg;
  double cog_x_m, cog_y_m; /* of mass_kg; 0 where left out */
  double slewing_mass_kg;  /* crane: without boom and jib */
  double slewing_out_m; /* its centre of gravity from the slew axis, along the boom; may be < 0 */
  double boom_mass_kg, jib_mass_kg;
  double allowed_pressure_pa; /* that the ground under its supports may bear */
  char *pressure_source;      /* owned; NULL where left out */
  char *stands_on;       /* what it stands on that no structure shows; owned; NULL where left out */
  double ground_level_m; /* of that; 0 where left out */
  double most_out_of_plumb_rad; /* gantry, crane: that its hoist rope may be; NAN where left out */
  char *out_of_plumb_source;    /* owned; NULL where left out */
} TrnGear;

/* Whether @gear has a body "id/part", which follows from its kind and from what is given of it.
 * Standing: "leg-1" …, "runway-1" …, "pad-1" …, "mat-1" … (with the number of its leg or support),
 * "carrier", "cheek-1", "cheek-2". Moving: "header-1",
 * "header-2", "trolley" (also of a tail trolley, which is that alone), "boom", "jib",
 * "counterweight", and, with a hook, "rope" and "block". */
gboolean trn_gear_has_part (const TrnGear *gear, const char *part);

typedef struct
{
  char *id; /* owned; NULL where left out */
  double mass_kg, wll_kg;
  /* Along its pin, square to the plate of its lug, of length 1: load frame; at an end of a beam x
   * along it from a to b, y level across, z up. NAN where left out. */
  TrnVec3 pin;
} TrnShackle;

typedef enum
{
  TRN_SLING_FROM_HOOK,
  TRN_SLING_FROM_BEAM_A, /* the end of the beam next to its first point */
  TRN_SLING_FROM_BEAM_B,
} TrnSlingFrom;

/* One leg. */
typedef struct
{
  char *id;
  char *pointer;
  TrnSlingFrom from;
  gboolean to_beam; /* from the hook to that end of the beam, instead of to a point of the load */
  gboolean to_beam_b;
  char *to_name; /* of the point; NULL where it is given by coordinates, or goes to the beam */
  TrnVec3 to;    /* load frame */
  double diameter_m, length_m, mass_kg, wll_kg;
  TrnShackle shackle; /* id NULL and all NAN where left out */
} TrnSling;

/* A spreader or lifting beam: drawn level, its middle plumb below the hook. */
typedef struct
{
  char *id;
  char *pointer;
  double length_m, width_m, depth_m, below_hook_m; /* hook to the middle of the beam */
  double mass_kg, wll_kg;
  TrnVec3 between[2]; /* points of the load over which its ends lie, seen from above */
} TrnLiftBeam;

/* What holds the load at one point: a gear, and the rigging between. */
typedef struct
{
  char *pointer;
  gboolean given;
  guint gear; /* index; G_MAXUINT where left out */
  char *point_name;
  TrnVec3 point;               /* of the load; the main hook's is the lift's hook point */
  guint first_move, last_move; /* it holds the load in these; before and after it stands */
  double hook_above_m; /* hook above the point; NAN: follows from a sling of known length, or 0
                          for a tail trolley and a turning frame */
  gboolean has_block;
  double block_diameter_m, block_height_m, block_mass_kg; /* from the hook upwards */
  gboolean has_beam;
  TrnLiftBeam beam;
  TrnSling *slings;
  guint n_slings;
} TrnHoist;

/* A pair of bodies of which one is fixed to the other, so that no clearance is asked for. */
typedef struct
{
  char *a, *b; /* ids of bodies, or of all bodies that begin so: "crane" or "crane/boom"; owned */
} TrnConnected;

typedef struct
{
  gboolean given;
  TrnHoist main, tail;
  TrnConnected *connected;
  guint n_connected;
} TrnRigging;

typedef enum
{
  TRN_APPROACH_NONE, /* no rule chosen */
  TRN_APPROACH_CFR_1926_1408,
  TRN_APPROACH_EN_50110,
  TRN_APPROACH_VDE_0105_100,
  TRN_APPROACH_OWN,
} TrnApproachKind;

/* Which distance is kept from overhead lines. */
typedef struct
{
  TrnApproachKind kind;
  double distance_m; /* own */
  char *source;      /* own; owned */
} TrnApproachRule;
