/* renderer.h: draws a draw list with OpenGL 3.3 core (or GLES 3), into whatever framebuffer is
 * bound. Every call needs the same context to be current, on the same thread. */
#pragma once

#include "camera.h"
#include "draw-list.h"

typedef struct _RenderRenderer RenderRenderer;

/* Compiles the shaders. NULL with @error where the context cannot do it. */
RenderRenderer *render_renderer_new (GError **error);
/* The same a piece at a time, where nothing may be held for as long as all shaders take: before it
 * draws or picks, go on until @is_done. FALSE with @error where the context cannot do it. */
RenderRenderer *render_renderer_begin (GError **error);
gboolean render_renderer_go_on (RenderRenderer *renderer, gboolean *is_done, GError **error);
void render_renderer_free (RenderRenderer *renderer); /* context current */

/* Whether the context is drawn by the processor (llvmpipe and the like). */
gboolean render_renderer_is_software (const RenderRenderer *renderer);

typedef struct
{
  RenderSize size;        /* logical pixels; of the tile where there is one */
  double scale;           /* device pixels a logical pixel */
  guint64 most_triangles; /* more in the view: bodies with fewer, where they have them; 0: all */
  guint samples;          /* multisampling in a framebuffer of its own; 0 or 1: none */
  /* A tile of a larger picture: device pixels of its left bottom corner and the size of the whole;
   * whole width 0: no tiling. */
  int tile_x, tile_y, whole_width, whole_height;
} RenderTarget;

/* Draws bodies, lines, grid and human figure into the framebuffer that is bound. Meshes are
 * uploaded when first seen and dropped when no list has named them for a while. */
void render_renderer_draw (RenderRenderer *renderer, const RenderDrawList *list,
                           const RenderCamera *camera, const RenderTarget *target);

/* The body at a screen point, by an id buffer, and the site point of its surface there. 0: none. */
guint32 render_renderer_pick (RenderRenderer *renderer, const RenderDrawList *list,
                              const RenderCamera *camera, RenderSize size, double x, double y,
                              TrnVec3 *point);
