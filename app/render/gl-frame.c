/* gl-frame.c: see gl-frame.h. */
#include "gl-frame.h"

static GLuint
make_buffer (guint samples, GLenum format, int width, int height)
{
  GLuint buffer;
  glGenRenderbuffers (1, &buffer);
  glBindRenderbuffer (GL_RENDERBUFFER, buffer);
  if (samples > 1)
    glRenderbufferStorageMultisample (GL_RENDERBUFFER, (GLsizei)samples, format, width, height);
  else
    glRenderbufferStorage (GL_RENDERBUFFER, format, width, height);
  return buffer;
}

void
render_gl_frame_bind (RenderGlFrame *frame, int width, int height, guint samples, GLenum format)
{
  GLint most;
  glGetIntegerv (GL_MAX_SAMPLES, &most);
  samples = MIN (samples, (guint)MAX (most, 0));
  if (samples <= 1)
    samples = 0;
  if (frame->framebuffer != 0 && frame->width == width && frame->height == height
      && frame->samples == samples && frame->format == format)
    {
      glBindFramebuffer (GL_FRAMEBUFFER, frame->framebuffer);
      return;
    }
  render_gl_frame_clear (frame);
  frame->width = width;
  frame->height = height;
  frame->samples = samples;
  frame->format = format;
  frame->colour = make_buffer (samples, format, width, height);
  frame->depth = make_buffer (samples, GL_DEPTH24_STENCIL8, width, height);
  glGenFramebuffers (1, &frame->framebuffer);
  glBindFramebuffer (GL_FRAMEBUFFER, frame->framebuffer);
  glFramebufferRenderbuffer (GL_FRAMEBUFFER, GL_COLOR_ATTACHMENT0, GL_RENDERBUFFER, frame->colour);
  glFramebufferRenderbuffer (GL_FRAMEBUFFER, GL_DEPTH_STENCIL_ATTACHMENT, GL_RENDERBUFFER,
                             frame->depth);
}

void
render_gl_frame_clear (RenderGlFrame *frame)
{
  if (frame->framebuffer != 0)
    {
      glDeleteFramebuffers (1, &frame->framebuffer);
      glDeleteRenderbuffers (1, &frame->colour);
      glDeleteRenderbuffers (1, &frame->depth);
    }
  *frame = (RenderGlFrame){ 0 };
}
