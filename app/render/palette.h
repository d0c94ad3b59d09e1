/* palette.h: the colours of bodies, background and grid: one table, light and dark. Those of states
 * are in draw-list.c. */
#pragma once

#include "draw-list.h"

typedef struct
{
  RenderColour background_top, background_bottom;
  RenderColour faces[RENDER_N_ROLES]; /* by role */
  RenderColour edges[RENDER_N_ROLES]; /* and hatching */
  RenderColour human, human_edge;
  RenderColour selected; /* outline */
  RenderColour grid;
} RenderPalette;

/* The table for that style, static. */
const RenderPalette *render_palette_get (gboolean dark);
