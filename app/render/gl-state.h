/* gl-state.h: what the renderer changes of the context's state, put away and put back, since the
 * context belongs to whoever shows the picture. */
#pragma once

#include <epoxy/gl.h>

typedef struct
{
  GLint draw_framebuffer, read_framebuffer, renderbuffer, program, vertex_array, array_buffer;
  GLint viewport[4], scissor[4], blend[4], pack_alignment, depth_function;
  GLboolean enabled[6], colour_mask[4], depth_mask;
  GLfloat clear_colour[4];
} RenderGlState;

void render_gl_state_save (RenderGlState *state);
void render_gl_state_restore (const RenderGlState *state);
/* The state that all drawing starts from. */
void render_gl_state_reset (void);
