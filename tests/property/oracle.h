/* oracle.h: a plan played a second time, from its JSON text alone: where everything stands in each
 * lift, and where the load is at each moment.
 *
 * Written from the contract of the plan file, formula by formula. It shares nothing with the
 * engine's own reader, programme and motion but the structs for vectors and poses, so that an error
 * in either shows as a difference. Plans must be free of faults. */
#pragma once

#include <json-glib/json-glib.h>

#include "pose.h"

/* How far a component may be off: shifted by m, tilted and turned about a point of its frame. */
typedef struct
{
  double m, tilt_rad, turn_rad;
  TrnVec3 about;
} OracleSlack;

/* What stands on the site during a lift. */
typedef struct
{
  const char *id;
  gboolean is_component;
  guint index; /* into the plan's structures or components */
  TrnPose pose;
  double required_m, survey_m;
  OracleSlack left; /* by the lifts that moved it */
  gboolean hangs;   /* the last of these did not set it down */
  gboolean is_lost; /* nobody knows how it hangs, or stands on what hangs */
} OracleStanding;

typedef struct
{
  JsonObject *move;
  TrnPose start;
  double begins_s, seconds; /* from the start of the lift */
} OracleMove;

typedef struct
{
  JsonObject *lift, *component;
  guint component_index;
  TrnVec3 hook;
  TrnPose stands, start, end;
  gboolean is_lost;  /* of its load nobody knows how it hangs */
  OracleSlack left;  /* its load as it begins */
  OracleSlack slack; /* its load in all its moves */
  double seconds;
  GArray *moves;    /* of OracleMove */
  GArray *standing; /* of OracleStanding */
} OracleLift;

typedef struct
{
  JsonNode *root;
  GArray *lifts; /* of OracleLift */
} Oracle;

Oracle *oracle_new (const char *json);
void oracle_free (Oracle *oracle);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (Oracle, oracle_free)

/* The root of a JSON text, owned. */
JsonNode *oracle_parse (const char *json);

/* A placement as a plan writes it. */
TrnPose oracle_placement (JsonObject *at);
/* Where the load is at @s of a move that it begins at @start. */
TrnPose oracle_move_pose (JsonObject *component, TrnVec3 hook, JsonObject *move,
                          const TrnPose *start, double s);
TrnPose oracle_pose (const OracleLift *lift, guint move, double s);

/* The rotation about the vertical, counter-clockwise from above. */
TrnRotation oracle_turn_z (double angle_rad);
/* The rotation about the level axis of that heading. */
TrnRotation oracle_turn_level (double heading_rad, double angle_rad);
