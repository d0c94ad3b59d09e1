/* gl-state.c: see gl-state.h. Stencil functions are not put back: they do nothing while the
 * stencil test is off, and whoever turns it on sets them. */
#include "gl-state.h"

#include <glib.h>

static const GLenum switches[6] = { GL_SCISSOR_TEST, GL_BLEND,     GL_DEPTH_TEST,
                                    GL_STENCIL_TEST, GL_CULL_FACE, GL_POLYGON_OFFSET_FILL };

static void
enable (GLenum what, GLboolean on)
{
  if (on)
    glEnable (what);
  else
    glDisable (what);
}

void
render_gl_state_save (RenderGlState *state)
{
  glGetIntegerv (GL_DRAW_FRAMEBUFFER_BINDING, &state->draw_framebuffer);
  glGetIntegerv (GL_READ_FRAMEBUFFER_BINDING, &state->read_framebuffer);
  glGetIntegerv (GL_RENDERBUFFER_BINDING, &state->renderbuffer);
  glGetIntegerv (GL_CURRENT_PROGRAM, &state->program);
  glGetIntegerv (GL_VERTEX_ARRAY_BINDING, &state->vertex_array);
  glGetIntegerv (GL_ARRAY_BUFFER_BINDING, &state->array_buffer);
  glGetIntegerv (GL_VIEWPORT, state->viewport);
  glGetIntegerv (GL_SCISSOR_BOX, state->scissor);
  glGetIntegerv (GL_BLEND_SRC_RGB, &state->blend[0]);
  glGetIntegerv (GL_BLEND_DST_RGB, &state->blend[1]);
  glGetIntegerv (GL_BLEND_SRC_ALPHA, &state->blend[2]);
  glGetIntegerv (GL_BLEND_DST_ALPHA, &state->blend[3]);
  glGetIntegerv (GL_PACK_ALIGNMENT, &state->pack_alignment);
  glGetIntegerv (GL_DEPTH_FUNC, &state->depth_function);
  for (guint i = 0; i < G_N_ELEMENTS (switches); i++)
    state->enabled[i] = glIsEnabled (switches[i]);
  glGetBooleanv (GL_COLOR_WRITEMASK, state->colour_mask);
  glGetBooleanv (GL_DEPTH_WRITEMASK, &state->depth_mask);
  glGetFloatv (GL_COLOR_CLEAR_VALUE, state->clear_colour);
}

void
render_gl_state_restore (const RenderGlState *state)
{
  glBindFramebuffer (GL_DRAW_FRAMEBUFFER, (GLuint)state->draw_framebuffer);
  glBindFramebuffer (GL_READ_FRAMEBUFFER, (GLuint)state->read_framebuffer);
  glBindRenderbuffer (GL_RENDERBUFFER, (GLuint)state->renderbuffer);
  glUseProgram ((GLuint)state->program);
  glBindVertexArray ((GLuint)state->vertex_array);
  glBindBuffer (GL_ARRAY_BUFFER, (GLuint)state->array_buffer);
  glViewport (state->viewport[0], state->viewport[1], state->viewport[2], state->viewport[3]);
  glScissor (state->scissor[0], state->scissor[1], state->scissor[2], state->scissor[3]);
  glBlendFuncSeparate ((GLenum)state->blend[0], (GLenum)state->blend[1], (GLenum)state->blend[2],
                       (GLenum)state->blend[3]);
  glPixelStorei (GL_PACK_ALIGNMENT, state->pack_alignment);
  glDepthFunc ((GLenum)state->depth_function);
  for (guint i = 0; i < G_N_ELEMENTS (switches); i++)
    enable (switches[i], state->enabled[i]);
  glColorMask (state->colour_mask[0], state->colour_mask[1], state->colour_mask[2],
               state->colour_mask[3]);
  glDepthMask (state->depth_mask);
  glClearColor (state->clear_colour[0], state->clear_colour[1], state->clear_colour[2],
                state->clear_colour[3]);
}

void
render_gl_state_reset (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (switches); i++)
    glDisable (switches[i]);
  glColorMask (GL_TRUE, GL_TRUE, GL_TRUE, GL_TRUE);
  glDepthMask (GL_TRUE);
  glDepthFunc (GL_LEQUAL);
  glStencilMask (0xff);
  glBlendFuncSeparate (GL_SRC_ALPHA, GL_ONE_MINUS_SRC_ALPHA, GL_ZERO, GL_ONE);
  glPixelStorei (GL_PACK_ALIGNMENT, 4);
  glPolygonOffset (1, 1);
}
