/* scene.h: the programme with its meshes: what the checks judge.
 *
 * Meshes are read, solids turned into triangles, trees built, each once however often it is used.
 * A component is one body, whatever parts its solid has; a structure is as many bodies as it has
 * parts, so that a seat can mean the floor of a shaft and not its walls. Of gear the parts that
 * stand still are bodies here; what moves with the load is in the rig of each lift. */
#pragma once

#include "cache.h"
#include "programme.h"
#include "sweep.h"

/* One rigid body: a component, or a part of a structure or of gear. */
typedef struct
{
  char *id;      /* "id" or "id/part"; owned */
  TrnMesh *mesh; /* owned, like the next two */
  TrnBvh *bvh;
  TrnMeshCheck *check;
  /* How far a point of it may be from where its mesh file means it, by single precision and by
   * polygons that are not flat; 0 for a solid, whose facets lie outside it. */
  double off_m;
} TrnBody;

typedef struct
{
  TrnBody *bodies;
  guint n_bodies;
  TrnImportReport *report; /* what was found in its mesh file; owned; NULL for a solid */
} TrnBodies;

typedef struct
{
  char *file; /* as the plan names it; owned */
  char sha256[65];
} TrnSceneFile;

/* Wall-clock time: until the last mesh file was read, and from then until all trees are there.
 * Those of meshes that come earlier are made while others are still read. */
typedef struct
{
  double import_s, build_s;
} TrnSceneTimes;

typedef struct
{
  TrnProgramme *programme; /* owned */
  TrnBodies *structures;   /* one for each of the plan's structures */
  TrnBodies *components;   /* one for each of the plan's components; one body each */
  TrnBodies *gear;         /* one for each of the plan's gear; a body for each part that stands */
  TrnSceneFile *files;     /* mesh files read, each once, in the order of the plan */
  guint n_files;
  guint n_left_out; /* structures whose mesh could not be used: to be looked at, never judged */
  double solid_deviation_m; /* how far facets of curved solids lie outside of these at most */
  TrnSceneTimes times;
} TrnScene;

typedef struct
{
  double solid_deviation_m; /* 0: TRN_SOLID_DEVIATION_M */
  guint jobs;
  const TrnImportLimits *import_limits; /* NULL: the default */
  TrnProgress *progress;                /* may be NULL */
  /* A structure whose mesh cannot be used is left out: it has no bodies, its errors stay in the
   * diagnostics, and no check of such a scene passes. */
  gboolean partial;
  /* Meshes and trees that an earlier scene had are taken from here; the scene is the same. May be
   * NULL. */
  TrnCache *cache;
} TrnSceneOptions;

/* Builds the scene of @programme and takes it, also on failure. NULL with errors in @diags, or when
 * cancelled. What is odd about a mesh that can be used (open, inside out, degenerate or duplicate
 * triangles, far bigger or smaller than a site) is a warning. */
TrnScene *
trn_scene_build_take (TrnProgramme *programme, const TrnSceneOptions *options, TrnDiags *diags);
void trn_scene_free (TrnScene *scene);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TrnScene, trn_scene_free)

/* The bodies of something that stands, borrowed. */
const TrnBodies *trn_scene_bodies_of (const TrnScene *scene, const TrnStanding *standing);
/* The load of a lift, borrowed. */
const TrnBody *trn_scene_load (const TrnScene *scene, const TrnLiftRun *run);
/* Whether @seat is on this body: the whole that it names, or a part of it. */
gboolean trn_seat_means (const TrnSeat *seat, const TrnBody *body);
