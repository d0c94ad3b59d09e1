/* bench-shapes.h: meshes to measure with, of about as many triangles as asked for. Lengths in
 * metres, the axis of what is long is z, from 0 upwards. All but the blob are closed. */
#pragma once

#include "mesh.h"

/* The outline of a column or shaft, seen from its axis. */
typedef struct
{
  double radius_m;
  double half_x_m, half_y_m; /* > 0: a box instead of the circle */
  guint ribs;                /* rings, evenly spaced */
  double rib_m;              /* how far they stand out; < 0: inwards */
  double wave_m;             /* keeps the faces from being equal */
} BenchOutline;

TrnMesh *bench_column_make (guint n, double height_m, const BenchOutline *outline);
/* A wall about @outline, which is its inner face. */
TrnMesh *bench_shaft_make (guint n, double height_m, const BenchOutline *outline, double wall_m);
/* Four round legs on a square, with level and slanting bars in every panel. */
TrnMesh *bench_lattice_make (guint n, double width_m, double length_m, double panel_m, double leg_m,
                             double bar_m);
/* Pipes side by side with bends, tees and flanges, some 6 m long. */
TrnMesh *bench_pipework_make (guint n);
/* Three portals of box beams, 12 m high, with beams between them. */
TrnMesh *bench_frame_make (guint n);
/* As scanned: a bumpy ball with noise on every vertex, open at both poles. */
TrnMesh *bench_blob_make (guint n, double radius_m, guint32 seed);
