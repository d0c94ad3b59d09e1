/* probe.h: what lies under a point of the screen, on the engine's own meshes in double precision:
 * points to turn about, to come nearer to, and to measure between. No GTK, no OpenGL.
 *
 * Points snap to corners and edges: borders of a mesh, and folds of more than 30°. The diagonals of
 * flat faces are no edges, and an edge that goes straight on has no corner. */
#pragma once

#include "camera.h"
#include "site-view.h"

typedef struct
{
  const TrnBody *body; /* borrowed */
  TrnPose site_from_body;
  gboolean is_load;
} DeskProbeBody;

/* What is there to be hit: the load at its pose, and what stands and is shown solid. */
typedef struct
{
  DeskProbeBody *bodies;
  guint n_bodies;
  RenderSection section;
} DeskProbe;

/* For a moment of a lift. @visibility as in RenderSiteState. */
DeskProbe *desk_probe_new (const RenderSite *site, guint run, double time_s,
                           const RenderVisibility *visibility, RenderSection section);
void desk_probe_free (DeskProbe *probe);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (DeskProbe, desk_probe_free)

typedef enum
{
  DESK_ON_NOTHING,
  DESK_ON_CUT, /* the hatched face of a section */
  DESK_ON_FACE,
  DESK_ON_EDGE,
  DESK_ON_CORNER,
} DeskOn;

typedef struct
{
  DeskOn on;
  guint body; /* index into the probe's */
  guint32 triangle;
  TrnVec3 point; /* site */
  double along_m;
} DeskHit;

/* The first thing that a ray meets, what the section cuts away left out. @direction is a unit
 * vector. The point is good to the rounding of the coordinates; a ray that runs along an edge may
 * pass between its two triangles. */
DeskHit desk_probe_ray (const DeskProbe *probe, TrnVec3 origin, TrnVec3 direction);

/* The same for a screen point. With @snap_px > 0 the point moves to a visible corner, else to a
 * visible edge, of the mesh that was hit, at most so many pixels away; on a cut face to the outline
 * of the cut and its corners. */
DeskHit desk_probe_screen (const DeskProbe *probe, const RenderCamera *camera, RenderSize size,
                           double x, double y, double snap_px);

/* ---- measuring ---- */

/* A point that stays where it is on the site, or goes with the load. */
typedef struct
{
  gboolean on_load;
  TrnVec3 point; /* in the load's frame when it goes with it, else site */
} DeskAnchor;

DeskAnchor desk_anchor_make (const DeskProbe *probe, const DeskHit *hit);
TrnVec3 desk_anchor_point (const DeskAnchor *anchor, const TrnPose *site_from_load);

typedef struct
{
  double straight_m, level_m, vertical_m; /* straight² = level² + vertical² */
} DeskMeasure;

DeskMeasure desk_measure_make (TrnVec3 a, TrnVec3 b);
