/* picture.h: stills without a display: surfaceless EGL, then labels and marks over it by Cairo. */
#pragma once

#include <cairo.h>

#include "camera.h"
#include "draw-list.h"

typedef struct
{
  int width, height; /* device pixels; any size, drawn in tiles when larger than the driver can */
  double scale;      /* of text and lines */
  gboolean clean;    /* no labels, marks, caption or compass */
} RenderPictureOptions;

/* Draws @list into a new image surface, owned by the caller. Makes its own context without a
 * display and drops it again; NULL with @error (RENDER_PICTURE_ERROR_NO_OPENGL where there is no
 * OpenGL). */
cairo_surface_t *render_picture (const RenderDrawList *list, const RenderCamera *camera,
                                 const RenderPictureOptions *options, GError **error);

#define RENDER_PICTURE_ERROR (render_picture_error_quark ())
GQuark render_picture_error_quark (void);
typedef enum
{
  RENDER_PICTURE_ERROR_NO_OPENGL,
  RENDER_PICTURE_ERROR_FAILED,
} RenderPictureError;
