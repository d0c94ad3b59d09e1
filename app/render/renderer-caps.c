/* renderer-caps.c: the faces that a section plane leaves on what it cuts.
 *
 * For one body at a time the stencil counts, for each pixel, the faces behind the plane that turn
 * their back to the viewer, less those that face him. On a closed mesh that count is how deep
 * inside the mesh the line of sight is where it crosses the plane, so a square in the plane drawn
 * where it is not 0 is the cut face, whatever the mesh's shape. Drawing the square also sets the
 * stencil back. An open mesh has no inside and gets no cap. */
#include "renderer-parts.h"

#define FLAT_LIGHT 0.97

static void
count_faces (RenderRenderer *renderer, const RenderFrame *frame, const RenderBody *body,
             const RenderProgram *program)
{
  render_frame_use (frame, program);
  float matrix[16];
  render_local_from_mesh (frame, body, matrix);
  glUniformMatrix4fv (program->at[RENDER_U_LOCAL_FROM_MESH], 1, GL_FALSE, matrix);
  const RenderGlMesh *gl = render_gl_meshes_get (&renderer->meshes, body->mesh);
  glColorMask (GL_FALSE, GL_FALSE, GL_FALSE, GL_FALSE);
  glDepthMask (GL_FALSE);
  glDepthFunc (GL_ALWAYS);
  glStencilFunc (GL_ALWAYS, 0, 0xff);
  glStencilOpSeparate (GL_FRONT, GL_KEEP, GL_KEEP, GL_DECR_WRAP);
  glStencilOpSeparate (GL_BACK, GL_KEEP, GL_KEEP, GL_INCR_WRAP);
  glBindVertexArray (gl->faces);
  glDrawElements (GL_TRIANGLES, gl->n_indices, GL_UNSIGNED_INT, NULL);
  glColorMask (GL_TRUE, GL_TRUE, GL_TRUE, GL_TRUE);
  glDepthMask (GL_TRUE);
  glDepthFunc (GL_LEQUAL);
}

static void
set_vec3 (const RenderProgram *program, RenderUniform uniform, TrnVec3 v)
{
  glUniform3f (program->at[uniform], (float)v.x, (float)v.y, (float)v.z);
}

static void
set_square (const RenderFrame *frame, const RenderProgram *program, const RenderBody *body)
{
  const RenderSection *section = &frame->list->section;
  TrnVec3 n = section->normal;
  TrnVec3 centre = trn_pose_apply (&body->site_from_mesh, body->mesh->centre);
  centre = trn_vec3_add_scaled (centre, n, section->offset_m - trn_vec3_dot (n, centre));
  double reach = 0.51 * trn_vec3_length (trn_box_size (&body->mesh->box));
  TrnVec3 other = fabs (n.z) < 0.9 ? trn_vec3_make (0, 0, 1) : trn_vec3_make (1, 0, 0);
  TrnVec3 side = trn_vec3_unit (trn_vec3_cross (n, other));
  set_vec3 (program, RENDER_U_CENTRE, trn_vec3_sub (centre, frame->origin));
  set_vec3 (program, RENDER_U_SIDE_A, trn_vec3_scale (side, reach));
  set_vec3 (program, RENDER_U_SIDE_B, trn_vec3_scale (trn_vec3_cross (n, side), reach));
}

void
render_draw_cap (RenderRenderer *renderer, const RenderFrame *frame, const RenderBody *body,
                 gboolean for_picking)
{
  if (!body->mesh->closed || !render_body_is_cut (frame, body))
    return;
  glEnable (GL_STENCIL_TEST);
  count_faces (renderer, frame, body, for_picking ? &renderer->pick[1] : &renderer->body[1]);

  const RenderProgram *program = for_picking ? &renderer->cap_pick : &renderer->cap;
  render_frame_use (frame, program);
  set_square (frame, program, body);
  RenderColour colour = frame->palette->faces[body->role];
  colour.r *= FLAT_LIGHT;
  colour.g *= FLAT_LIGHT;
  colour.b *= FLAT_LIGHT;
  RenderColour hatch = frame->palette->edges[body->role];
  hatch.a = 0.75;
  render_set_colour (program, RENDER_U_COLOUR, colour);
  render_set_colour (program, RENDER_U_HATCH_COLOUR, hatch);
  /* The load is hatched the other way, as on a drawing parts that meet are. */
  glUniform2f (program->at[RENDER_U_HATCH], 1, body->role == RENDER_ROLE_LOAD ? 1 : -1);
  glUniform1ui (program->at[RENDER_U_ID], body->id);
  glStencilFunc (GL_NOTEQUAL, 0, 0xff);
  glStencilOp (GL_ZERO, GL_ZERO, GL_ZERO);
  glBindVertexArray (renderer->no_attributes);
  glDrawArrays (GL_TRIANGLE_STRIP, 0, 4);
  glDisable (GL_STENCIL_TEST);
}
