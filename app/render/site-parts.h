/* site-parts.h: what the files that make a view of a site share. Not for other files. */
#pragma once

#include "site-view.h"

typedef struct
{
  const RenderSite *site;
  const RenderSiteState *state;
  const TrnLiftRun *run;
  TrnPose site_from_load; /* now */
  guint move;             /* now */
  double progress;        /* in it */
  RenderDrawList *list;
} RenderSiteWork;

/* The mesh of something that stands, body by body. */
const RenderMesh *
render_site_mesh_of (const RenderSite *site, const TrnStanding *standing, guint body);
const RenderMesh *render_site_load (const RenderSite *site, const TrnLiftRun *run);
gboolean render_site_is_ground (const RenderSite *site, const TrnStanding *standing);
/* The box in the site of a mesh at a pose. */
TrnBox render_site_box (const RenderMesh *mesh, const TrnPose *pose);
/* The box of the load over the whole lift. */
TrnBox render_site_load_way (const RenderSite *site, const TrnLiftRun *run);

RenderVisibility render_site_visibility (const RenderSiteWork *work, int item);
gboolean render_site_is_selected (const RenderSiteWork *work, const char *id);
guint32 render_site_pick_id_of_rig (const RenderSite *site, guint run, guint body);

/* site-gear.c: the moving parts of gear at this moment, and circles about cranes. */
void render_site_add_gear (RenderSiteWork *work);
void render_site_add_crane_circles (RenderSiteWork *work);
/* Where the gear that holds the load goes all the way. */
void render_site_add_gear_way (const TrnLiftRun *run, guint n_steps, TrnBox *extent);

/* site-beside.c: what is drawn beside the bodies. */
void render_site_add_paths (RenderSiteWork *work);
void render_site_add_swing_circle (RenderSiteWork *work);
void render_site_add_finding (RenderSiteWork *work);
void render_site_add_nearest (RenderSiteWork *work);
/* site-human.c */
void render_site_add_human (RenderSiteWork *work);
