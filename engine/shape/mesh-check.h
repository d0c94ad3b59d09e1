/* mesh-check.h: what kind of surface a mesh is: closed or not, in which pieces, with which faults.
 *
 * Corners at the same coordinates count as one, whether or not the file shares them, so that a
 * mesh of loose triangles can be closed. A piece is a set of triangles connected over shared
 * edges. A piece is closed when every edge is shared by exactly two of its triangles that run
 * along it in opposite directions. Degenerate triangles (zero area, as far as the rounding of their
 * coordinates tells) and exact duplicates are left out before that is decided; only where the mesh
 * closes with its needles (three different corners, no area) and not without them, those stay. */
#pragma once

#include "mesh.h"

typedef struct
{
  guint32 first_triangle; /* one triangle of the piece that is not degenerate */
  guint32 n_triangles;
  gboolean closed;
  gboolean balanced; /* along every edge as many triangles run one way as the other, membranes left
                        out: it parts inside from outside even where it is not closed */
  TrnBox box;
  double volume_m3;    /* signed, of a closed piece; 0 of an open one */
  gboolean inside_out; /* closed, of negative volume, and its box lies in no other piece's box: a
                          cavity is not meant */
} TrnMeshPiece;

typedef struct _TrnMeshCheck
{
  guint32 n_degenerate;      /* triangles of zero area */
  guint32 n_duplicate;       /* triangles with the same three corners as an earlier one */
  guint32 n_open_edges;      /* edges with a single triangle */
  guint32 n_crowded_edges;   /* edges with more than two */
  guint32 n_misturned_edges; /* edges whose two triangles run along it in the same direction */
  guint32 n_inside_out;      /* pieces that are */
  guint32 n_holes;           /* runs of open edges that hang together by their corners */
  double largest_hole_m;     /* greatest extent of one along an axis; 0 without any */
  guint32 n_pieces;
  TrnMeshPiece *pieces; /* owned */
  guint32 *piece_of;    /* owned; for each triangle its piece, or G_MAXUINT32 for one left out */
  gboolean *membrane;   /* owned; for each triangle: it and its duplicates, turned the other way,
                           cancel each other, as where two solids stand face to face */
  guint32 n_loose;
  guint32 *loose;  /* owned; of each run of triangles left out that no piece touches, one */
  gboolean closed; /* every piece is closed, and there is one */
} TrnMeshCheck;

/* O(n log n) at most. Never fails. */
TrnMeshCheck *trn_mesh_check_new (const TrnMesh *mesh);
void trn_mesh_check_free (TrnMeshCheck *check);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TrnMeshCheck, trn_mesh_check_free)

/* The room that @mesh takes: the volume of its pieces, what overlaps counted twice, where all are
 * closed and face outwards; else, and then @is_box is TRUE, that of the box round it. */
double trn_mesh_check_room_m3 (const TrnMeshCheck *check, const TrnMesh *mesh, gboolean *is_box);
