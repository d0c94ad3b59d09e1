/* gear-oracle.h: where the gear of a lift is at a moment, from the plan's JSON text alone, in plain
 * doubles: crane, gantry, ropes, slings and beams by the formulas of the plan file.
 *
 * It shares nothing with the engine's own kinematics, so that an error in either shows as a
 * difference. Bodies that the engine encloses in a prism are given by what lies within it. */
#pragma once

#include "oracle.h"

#define SHAPE_MOST 12

/* Triangles (some of them segments) on the site, grown by a radius all round. */
typedef struct
{
  TrnVec3 triangles[SHAPE_MOST][3];
  guint n_triangles;
  double radius_m;
  gboolean exact; /* FALSE: the engine's body may be somewhat larger */
} Shape;

typedef struct
{
  JsonObject *plan;
  const OracleLift *lift;
} GearOracle;

/* The gear's own description; NULL: there is none of that id. */
JsonObject *gear_oracle_find (const GearOracle *oracle, const char *id);
/* Main or tail hoist that uses that gear in this lift; NULL: none. */
JsonObject *gear_oracle_hoist_of (const GearOracle *oracle, const char *gear);

/* The hook of a hoist, off by @off; its gear stands where it was before and after its moves. */
TrnVec3
gear_oracle_hook (const GearOracle *oracle, JsonObject *hoist, guint move, double s, TrnVec3 off);

/* The crane with its hook at that place. FALSE: out of reach. */
typedef struct
{
  TrnVec3 foot, knee, tip; /* site */
  double radius_m, slew_rad, boom_rad;
} OracleCrane;
gboolean gear_oracle_crane (JsonObject *gear, TrnVec3 hook, OracleCrane *crane);

/* The moving body with that id, the hooks off by @off. FALSE: it has no place then, or is none of
 * the bodies that are known here. */
gboolean gear_oracle_body (const GearOracle *oracle, const char *id, guint move, double s,
                           TrnVec3 off, Shape *shape);
