/* picture.h: stills without a display: surfaceless EGL, then labels and marks over it by Cairo.
 *
 * May run on any thread: the context, and all that is made in it, lives and ends on that thread. */
#pragma once

#include <cairo.h>

#include "camera.h"
#include "draw-list.h"

typedef struct
{
  int width, height; /* device pixels; any size, drawn in tiles when larger than the driver can */
  double scale;      /* of text and lines */
  gboolean clean;    /* no labels, marks, caption or compass */
  /* Told how much is drawn (0 … 1) before each tile and at the end; FALSE stops. May be NULL. */
  gboolean (*progress) (double done, gpointer data);
  gpointer progress_data;
} RenderPictureOptions;

/* Draws @list into a new image surface, owned by the caller. Makes its own context without a
 * display and drops it again; NULL with @error (RENDER_PICTURE_ERROR_NO_OPENGL where there is no
 * OpenGL, RENDER_PICTURE_ERROR_STOPPED where it was told to stop). */
cairo_surface_t *render_picture (const RenderDrawList *list, const RenderCamera *camera,
                                 const RenderPictureOptions *options, GError **error);

#define RENDER_PICTURE_ERROR (render_picture_error_quark ())
GQuark render_picture_error_quark (void);
typedef enum
{
  RENDER_PICTURE_ERROR_NO_OPENGL,
  RENDER_PICTURE_ERROR_FAILED,
  RENDER_PICTURE_ERROR_STOPPED,
} RenderPictureError;
