/* objects.h: what AMF and 3MF have in common: objects with an id, made of a mesh and of other
 * objects that are placed in them. */
#pragma once

#include "affine.h"
#include "build.h"

typedef struct
{
  char *id; /* of the object that is placed */
  TrnAffine map;
} TrnPlacing;

typedef struct
{
  char *id, *name;
  GArray *points;     /* of double[3] */
  GArray *triangles;  /* of guint32[3], indices of points */
  GArray *placings;   /* of TrnPlacing */
  gboolean is_placed; /* by another object */
  gboolean has_mesh;
  gboolean is_shown;
} TrnObject;

typedef struct
{
  GPtrArray *all;
  GHashTable *by_id;
} TrnObjects;

void trn_objects_init (TrnObjects *objects);
void trn_objects_clear (TrnObjects *objects);
/* Takes @id. NULL where the id is used already. */
TrnObject *trn_objects_add (TrnObjects *objects, char *id);
/* Takes @id. */
void trn_object_place (TrnObject *object, char *id, const TrnAffine *map);

/* Sets is_placed of every object. FALSE after an error: one is placed that does not exist. */
gboolean trn_objects_link (TrnObjects *objects, TrnAnswer *answer);
/* The indices of an object's triangles count from the first of its points, so it has one mesh.
 * An error where it has one already. */
void trn_object_start_mesh (TrnObject *object, TrnAnswer *answer);
/* The number of objects with faces that were not shown. */
guint trn_objects_count_hidden (const TrnObjects *objects);
/* Adds the faces of the object with this id, and of all that are placed in it. FALSE after an
 * error. */
gboolean trn_objects_show (const TrnObjects *objects, const char *id, const TrnAffine *map,
                           TrnBuild *build, TrnAnswer *answer);
