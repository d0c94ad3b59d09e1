/* offscreen.h: an OpenGL context without a display or a window, by surfaceless EGL, with a
 * framebuffer to draw into and to read back.
 *
 * It belongs to the thread that makes it: used and freed there, together with every OpenGL object
 * made in it. Contexts of other threads (the window's among them) may draw meanwhile. */
#pragma once

#include <cairo.h>
#include <glib.h>

typedef enum
{
  RENDER_OFFSCREEN_ANY,  /* OpenGL 3.3, else OpenGL ES 3 */
  RENDER_OFFSCREEN_GLES, /* OpenGL ES 3 only */
} RenderOffscreenKind;

typedef struct _RenderOffscreen RenderOffscreen;

/* Makes the context and makes it current on this thread. NULL with @error (of picture.h,
 * RENDER_PICTURE_ERROR_NO_OPENGL) where there is none. */
RenderOffscreen *render_offscreen_new (RenderOffscreenKind kind, GError **error);
/* Drops the context; whatever EGL context was current before is current again. */
void render_offscreen_free (RenderOffscreen *offscreen);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RenderOffscreen, render_offscreen_free)

/* The largest edge of a framebuffer that it can do. */
int render_offscreen_most_pixels (RenderOffscreen *offscreen);
/* Binds a framebuffer of that size, made where needed. FALSE where the driver cannot. */
gboolean render_offscreen_bind (RenderOffscreen *offscreen, int width, int height);
/* Copies what was drawn into @surface (ARGB32), its left top corner at (x, y). */
void render_offscreen_read (RenderOffscreen *offscreen, cairo_surface_t *surface, int x, int y);
