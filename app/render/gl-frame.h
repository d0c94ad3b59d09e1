/* gl-frame.h: a framebuffer of our own, so that its formats, its samples and its stencil do not
 * depend on who shows the picture. */
#pragma once

#include <epoxy/gl.h>
#include <glib.h>

typedef struct
{
  GLuint framebuffer, colour, depth;
  int width, height;
  guint samples;
  GLenum format;
} RenderGlFrame;

/* Makes or remakes it where size, samples (as many as there can be) or format differ; binds it. */
void
render_gl_frame_bind (RenderGlFrame *frame, int width, int height, guint samples, GLenum format);
void render_gl_frame_clear (RenderGlFrame *frame);
