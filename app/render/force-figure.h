/* force-figure.h: forces on a load as arrows to scale, and what hangs on a hook as a sketch; by
 * Cairo. What a reader has to know stands beside the figure in words.
 *
 * Points are in metres in the plane of the figure, y upwards. */
#pragma once

#include <cairo.h>

#include "camera.h"
#include "draw-list.h"

typedef struct
{
  double x, y;
} RenderPlanePoint;

/* The outline of points: their convex hull, counter-clockwise, to within 1/256 of their width;
 * @hull receives up to RENDER_HULL_MOST points. Returns how many. */
#define RENDER_HULL_MOST 520
guint render_plane_hull (const RenderPlanePoint *points, guint n_points,
                         RenderPlanePoint hull[RENDER_HULL_MOST]);

typedef struct
{
  RenderPlanePoint at; /* where it acts */
  double newton;       /* upwards; negative: down */
  const char *text;    /* fit to be shown */
} RenderForce;

typedef struct
{
  const RenderPlanePoint *outline;
  guint n_outline; /* ≥ 3 */
  const RenderForce *forces;
  guint n_forces;
  const char *font; /* family; NULL: the usual one */
  gboolean dark;
} RenderForceFigure;

void render_force_figure_draw (cairo_t *cr, const RenderForceFigure *figure, RenderSize size);

/* One leg: not to scale in its length, but true in its angle. */
typedef struct
{
  double angle_rad;    /* from the level, downwards; NAN: not known, drawn steep and dashed */
  gboolean goes_right; /* to which side of its upper end */
  int from;            /* −1: the hook; 0, 1: the left or the right end of the beam */
  gboolean to_beam;    /* an upper leg; to the end on its side */
  const char *name;    /* fit to be shown; cut where there is no room */
  const char *text;    /* "62° 45.1 kN"; never cut */
} RenderLeg;

typedef struct
{
  const char *hook, *beam; /* names, fit to be shown; beam may be NULL: there is none */
  gboolean has_block;
  const RenderLeg *legs;
  guint n_legs;
  const char *beam_id;  /* what stands for it where there is little room */
  double beam_tilt_rad; /* of its right end above its left one; NAN: not known, drawn level */
} RenderHookSketch;

typedef struct
{
  const RenderHookSketch *hooks; /* beside each other */
  guint n_hooks;
  const char *font;
  gboolean dark;
} RenderRiggingFigure;

void render_rigging_figure_draw (cairo_t *cr, const RenderRiggingFigure *figure, RenderSize size);
