/* maker-parts.h: the state of a plan while it is made, and its pieces: chance, solids, what stands.
 * Used by plan-maker.c alone. */
#pragma once

#include "oracle.h"

#define MOST_PIECES 4

/* A component while the programme is made. */
typedef struct
{
  JsonObject *object;
  char *text;              /* the component up to its place */
  char *at;                /* its place; NULL: not on the site at first */
  double radius_m, high_m; /* about its own axis; above its base */
  gboolean flat;           /* stands on a flat base at z = 0 */
  gboolean open;           /* its mesh is not closed */
  gboolean on_site;
  TrnPose pose;
  char *rests_on; /* what is under it; NULL: nothing */
} Piece;

/* A moment at which obstacles can be aimed. */
typedef struct
{
  TrnVec3 centre;
  double radius_m, high_m;
  gboolean open; /* the load's mesh is not closed */
} Aim;

typedef struct
{
  GRand *rand;
  GString *structures, *programme;
  GPtrArray *ids;   /* of structures that stand all the time */
  GPtrArray *nodes; /* JSON kept alive */
  Piece pieces[MOST_PIECES];
  guint n_pieces, n_names;
  GArray *aims; /* of Aim */
  double yard_z;
} Maker;

/* Chance. Numbers have three decimals, so that their text is the number. */
double maker_between (Maker *m, double lo, double hi);
gboolean maker_chance (Maker *m, double share);
guint maker_one_of (Maker *m, guint n);

char *maker_new_id (Maker *m, const char *word);
/* The object that a text with ' for " holds; it lives as long as the maker. */
JsonObject *maker_parse (Maker *m, const char *text);

/* Mesh files by number: the first are small; an open one, one that is closed round a hollow, and an
 * open one of that size. */
#define N_SMALL_MESHES 4
#define MESH_OPEN 2
#define MESH_HOLLOW 4
#define MESH_SHELL 5

/* The text of a solid or a mesh with its key. */
char *maker_mesh_text (guint i);
/* What stands on a flat base at its origin, no higher than @size and no wider. */
char *maker_standing_solid (Maker *m, double size, double *radius, double *high);
/* Anything at all. */
char *maker_any_solid (Maker *m, double size, double *radius);

char *maker_at_text (TrnVec3 p, double heading, double pitch, double roll);
void maker_add_structure (Maker *m, const char *id, const char *solid, const char *at);
/* Puts something under a flat base at @place; its id, "id/part" where it is a part. */
char *maker_put_under (Maker *m, const Piece *piece, TrnVec3 place);
