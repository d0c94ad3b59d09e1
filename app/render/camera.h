/* camera.h: where one looks from: an orbit camera with Z up, in double precision.
 *
 * Screen points are in logical pixels from the top left corner of the view. Nothing here knows
 * OpenGL; the renderer takes the matrices as floats relative to an origin near the work. */
#pragma once

#include "box.h"
#include "vec3.h"

typedef struct
{
  TrnVec3 target;     /* the site point in the middle of the view, which orbiting keeps there */
  double distance_m;  /* from the eye to the target, > 0 */
  double heading_rad; /* of the direction of view, counter-clockwise from +X seen from above */
  double pitch_rad;   /* of the direction of view: −π/2 straight down, 0 level, at most π/2 */
  double fov_rad;     /* vertical field of view; also sets the height of a parallel view */
  gboolean parallel;
} RenderCamera;

typedef enum
{
  RENDER_VIEW_PLAN,  /* from above, north up */
  RENDER_VIEW_NORTH, /* from the north, looking south; the others alike */
  RENDER_VIEW_EAST,
  RENDER_VIEW_SOUTH,
  RENDER_VIEW_WEST,
  RENDER_VIEW_SOLID, /* oblique, from the south-east and above */
} RenderStandardView;

typedef struct
{
  double width, height; /* logical pixels, > 0 */
} RenderSize;

/* A perspective camera that sees @extent from the south-east. */
RenderCamera render_camera_make (const TrnBox *extent, RenderSize size);

TrnVec3 render_camera_eye (const RenderCamera *camera);
/* Unit vectors of the view: forward into it, right, and up. */
void render_camera_axes (const RenderCamera *camera, TrnVec3 *forward, TrnVec3 *right, TrnVec3 *up);

/* The screen place of a site point, with its depth along the view in metres; FALSE behind the eye
 * of a perspective view. */
gboolean render_camera_project (const RenderCamera *camera, RenderSize size, TrnVec3 point,
                                double *x, double *y, double *depth_m);
/* The ray under a screen point: origin and unit direction. */
void render_camera_ray (const RenderCamera *camera, RenderSize size, double x, double y,
                        TrnVec3 *origin, TrnVec3 *direction);
/* How many metres one pixel is at a site point. */
double render_camera_metres_per_pixel (const RenderCamera *camera, RenderSize size, TrnVec3 point);

/* Turns the view about @pivot, whose screen place stays, by screen angles; Z stays up, the pitch is
 * kept within ±π/2. */
void render_camera_orbit (RenderCamera *camera, TrnVec3 pivot, double heading_by_rad,
                          double pitch_by_rad);
/* Moves the view so that the site point @grabbed, seen at (x0, y0), is seen at (x1, y1). */
void render_camera_pan (RenderCamera *camera, RenderSize size, TrnVec3 grabbed, double x0,
                        double y0, double x1, double y1);
/* Comes nearer (factor < 1) or goes farther, keeping @under at its screen place. */
void render_camera_zoom (RenderCamera *camera, RenderSize size, TrnVec3 under, double factor);
/* Shows all of @extent without changing the direction of view. */
void render_camera_fit (RenderCamera *camera, RenderSize size, const TrnBox *extent);
void render_camera_set_standard (RenderCamera *camera, RenderStandardView view);
/* "plan", "north", "east", "south", "west", "3d"; FALSE for another word. */
gboolean render_standard_view_from_name (const char *name, RenderStandardView *view);
const char *render_standard_view_name (RenderStandardView view);

/* Column-major matrices for OpenGL: points relative to @origin to clip space, with a depth range
 * that holds @extent. */
void render_camera_matrices (const RenderCamera *camera, RenderSize size, TrnVec3 origin,
                             const TrnBox *extent, float view[16], float projection[16]);
