/* maker.h: a triangle mesh that is put together from closed pieces, for the demos' mesh files.
 *
 * Every dm_… function below adds one closed piece, faces outwards, in a frame of its own. Pieces
 * may sink into each other, as a bolt sinks into its flange, but never share an edge: each stays
 * closed on its own. Lengths are metres, angles degrees, Z is up. */
#pragma once

#include <glib.h>

typedef struct
{
  double x, y, z;
} DmPoint;

/* Where a piece stands: its axes and its origin in the frame of the mesh. */
typedef struct
{
  DmPoint axis[3];
  DmPoint origin;
} DmFrame;

/* A point of an outline: radius and height of a turned piece, x and y of an extruded one. */
typedef struct
{
  double u, v;
} DmUV;

typedef struct
{
  const char *name; /* static */
  guint first_point, first_corner;
} DmPart;

typedef struct
{
  GArray *points;  /* DmPoint */
  GArray *corners; /* guint32, three a triangle */
  GArray *parts;   /* DmPart */
  double cell;     /* longest edge that long faces are cut into */
} DmMesh;

DmMesh *dm_mesh_new (double cell);
void dm_mesh_free (DmMesh *mesh);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (DmMesh, dm_mesh_free)
/* Begins a named part: an object of the file. */
void dm_mesh_part (DmMesh *mesh, const char *name);

DmFrame dm_frame_make (double x, double y, double z);
/* The frame moved along its own axes, or turned about one of them (0, 1, 2). */
DmFrame dm_shift (DmFrame frame, double x, double y, double z);
DmFrame dm_turn (DmFrame frame, int axis, double deg);
/* The frame turned about its z axis, then moved out along its new x axis. */
DmFrame dm_polar (DmFrame frame, double deg, double radius, double z);

/* A body of revolution about z. @outline runs counter-clockwise with the radius to the right and
 * the height up: a loop, or, with both ends on the axis (u = 0), an open line. */
void dm_revolve (DmMesh *mesh, DmFrame frame, const DmUV *outline, guint n, guint segments);
/* Upright cylinder and tube on the origin. */
void dm_cylinder (DmMesh *mesh, DmFrame frame, double radius, double height, guint segments);
void
dm_tube (DmMesh *mesh, DmFrame frame, double outer, double inner, double height, guint segments);
/* A box centred on x and y, standing on the origin. */
void dm_box (DmMesh *mesh, DmFrame frame, double x, double y, double z);
/* A convex outline, counter-clockwise, extruded from z = 0 to @height. */
void dm_prism (DmMesh *mesh, DmFrame frame, const DmUV *outline, guint n, double height);
/* The part of a tube between two angles, counter-clockwise from x. */
void dm_arc_plate (DmMesh *mesh, DmFrame frame, double outer, double inner, double from, double to,
                   guint steps, double height);
/* A rolled section along z: flanges parallel to x, @depth along y, @width along x. */
void dm_section (DmMesh *mesh, DmFrame frame, double width, double depth, double flange, double web,
                 double length);
/* A round bar along a line of corners that are rounded with @bend. */
void dm_pipe (DmMesh *mesh, DmFrame frame, const DmPoint *corners, guint n, double radius,
              double bend, guint segments);
/* A hexagon head with a chamfer, on the origin. */
void dm_hexagon (DmMesh *mesh, DmFrame frame, double across, double height);
/* A gusset in the xz plane of the frame: @reach along x, @height along z, @thick along y. */
void dm_gusset (DmMesh *mesh, DmFrame frame, double reach, double height, double thick);
/* @count bolts round z on a circle: head, shank down by @grip and nut below it. */
void dm_bolt_circle (DmMesh *mesh, DmFrame frame, guint count, double radius, double across,
                     double grip);
