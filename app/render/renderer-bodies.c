/* renderer-bodies.c: solid bodies with their edges, ghosts, the human figure, and the same bodies
 * as ids for picking.
 *
 * Faces are drawn from both sides, pushed back a little so that edges lie before them. Ghosts come
 * after everything solid, the farthest first; each first writes its depth only, so that what is
 * seen of it is its nearest surface and never its inside. */
#include "renderer-parts.h"

#define EDGE_PX 1.1
#define CUT_EDGE_PX 2.0
#define SELECTED_EDGE_PX 3.0
#define GHOST_ALPHA 0.25
#define GHOST_EDGE_ALPHA 0.5
#define SELECTED_TINT 0.35
#define SHINING_ALPHA 0.3

static RenderColour
mix_to_white (RenderColour colour, double share)
{
  return (RenderColour){ colour.r + share * (1 - colour.r), colour.g + share * (1 - colour.g),
                         colour.b + share * (1 - colour.b), colour.a };
}

static const RenderBody *
body_at (const RenderFrame *frame, guint i)
{
  return &g_array_index (frame->list->bodies, RenderBody, i);
}

static RenderColour
face_colour (const RenderFrame *frame, const RenderBody *body)
{
  RenderColour colour = frame->palette->faces[body->role];
  return body->selected ? mix_to_white (colour, SELECTED_TINT) : colour;
}

static const RenderProgram *
use_section_variant (const RenderFrame *frame, const RenderProgram programs[2])
{
  const RenderProgram *program = &programs[frame->list->section.on ? 1 : 0];
  render_frame_use (frame, program);
  return program;
}

static void
draw_faces (RenderRenderer *renderer, const RenderFrame *frame, const RenderProgram *program,
            const RenderBody *body)
{
  float matrix[16];
  render_local_from_mesh (frame, body, matrix);
  glUniformMatrix4fv (program->at[RENDER_U_LOCAL_FROM_MESH], 1, GL_FALSE, matrix);
  const RenderGlMesh *gl = render_gl_meshes_get (&renderer->meshes, body->mesh);
  glBindVertexArray (gl->faces);
  glDrawElements (GL_TRIANGLES, gl->n_indices, GL_UNSIGNED_INT, NULL);
}

static gboolean
is_drawn (const RenderFrame *frame, const RenderBody *body, RenderLook look)
{
  return body->look == look && render_body_is_seen (frame, body);
}

/* Where something that is drawn already stands before it: once for each pixel, by the stencil,
 * which is left at zero as the caps want it. */
static void
draw_shining_through (RenderRenderer *renderer, const RenderFrame *frame,
                      const RenderProgram *program, const RenderBody *body)
{
  RenderColour colour = face_colour (frame, body);
  colour.a = SHINING_ALPHA;
  render_set_colour (program, RENDER_U_COLOUR, colour);
  glEnable (GL_STENCIL_TEST);
  glStencilFunc (GL_EQUAL, 0, 0xff);
  glStencilOp (GL_KEEP, GL_KEEP, GL_INCR);
  glDepthFunc (GL_GREATER);
  glDepthMask (GL_FALSE);
  glEnable (GL_BLEND);
  draw_faces (renderer, frame, program, body);
  glDisable (GL_BLEND);
  glDepthMask (GL_TRUE);
  glDepthFunc (GL_LEQUAL);
  glDisable (GL_STENCIL_TEST);
  glClear (GL_STENCIL_BUFFER_BIT);
}

static void
draw_solid_faces (RenderRenderer *renderer, const RenderFrame *frame)
{
  const RenderDrawList *list = frame->list;
  const RenderProgram *program = use_section_variant (frame, renderer->body);
  glEnable (GL_POLYGON_OFFSET_FILL);
  for (guint i = 0; i < list->bodies->len; i++)
    {
      const RenderBody *body = body_at (frame, i);
      if (!is_drawn (frame, body, RENDER_LOOK_SOLID))
        continue;
      gboolean ground = body->role == RENDER_ROLE_GROUND;
      if (body->shines_through)
        draw_shining_through (renderer, frame, program, body);
      render_set_colour (program, RENDER_U_COLOUR, face_colour (frame, body));
      glUniform1f (program->at[RENDER_U_FORM], ground ? 0.6f : 1);
      glUniform1f (program->at[RENDER_U_GRID_PITCH],
                   ground && list->grid ? (float)list->grid_pitch_m : 0);
      draw_faces (renderer, frame, program, body);
    }
  glDisable (GL_POLYGON_OFFSET_FILL);
}

void
render_draw_solids (RenderRenderer *renderer, const RenderFrame *frame)
{
  glEnable (GL_DEPTH_TEST);
  draw_solid_faces (renderer, frame);
  for (guint i = 0; i < frame->list->bodies->len; i++)
    if (is_drawn (frame, body_at (frame, i), RENDER_LOOK_SOLID))
      render_draw_cap (renderer, frame, body_at (frame, i), FALSE);
  for (guint i = 0; i < frame->list->bodies->len; i++)
    {
      const RenderBody *body = body_at (frame, i);
      if (!is_drawn (frame, body, RENDER_LOOK_SOLID))
        continue;
      render_draw_edges (renderer, frame, body,
                         body->selected ? frame->palette->selected
                                        : frame->palette->edges[body->role],
                         body->selected ? SELECTED_EDGE_PX : EDGE_PX,
                         body->selected ? SELECTED_EDGE_PX : CUT_EDGE_PX);
    }
}

/* ---- ghosts ---- */

typedef struct
{
  const RenderBody *body;
  double depth_m;
} Ghost;

static int
compare_ghosts (gconstpointer a, gconstpointer b)
{
  double p = ((const Ghost *)a)->depth_m, q = ((const Ghost *)b)->depth_m;
  return p > q ? -1 : p < q;
}

static GArray *
ghosts_by_depth (const RenderFrame *frame)
{
  GArray *ghosts = g_array_new (FALSE, FALSE, sizeof (Ghost));
  TrnVec3 forward, right, up;
  render_camera_axes (frame->camera, &forward, &right, &up);
  for (guint i = 0; i < frame->list->bodies->len; i++)
    {
      Ghost ghost = { body_at (frame, i), 0 };
      if (!is_drawn (frame, ghost.body, RENDER_LOOK_GHOST))
        continue;
      TrnVec3 centre = trn_pose_apply (&ghost.body->site_from_mesh, ghost.body->mesh->centre);
      ghost.depth_m = trn_vec3_dot (trn_vec3_sub (centre, frame->origin), forward);
      g_array_append_val (ghosts, ghost);
    }
  g_array_sort (ghosts, compare_ghosts);
  return ghosts;
}

void
render_draw_ghosts (RenderRenderer *renderer, const RenderFrame *frame)
{
  GArray *ghosts = ghosts_by_depth (frame);
  glEnable (GL_DEPTH_TEST);
  for (guint i = 0; i < ghosts->len; i++)
    {
      const RenderBody *body = g_array_index (ghosts, Ghost, i).body;
      const RenderProgram *program = use_section_variant (frame, renderer->body);
      RenderColour colour = face_colour (frame, body);
      colour.a = GHOST_ALPHA;
      render_set_colour (program, RENDER_U_COLOUR, colour);
      glEnable (GL_POLYGON_OFFSET_FILL);
      glColorMask (GL_FALSE, GL_FALSE, GL_FALSE, GL_FALSE);
      draw_faces (renderer, frame, program, body);
      glColorMask (GL_TRUE, GL_TRUE, GL_TRUE, GL_TRUE);
      glEnable (GL_BLEND);
      draw_faces (renderer, frame, program, body);
      glDisable (GL_BLEND);
      glDisable (GL_POLYGON_OFFSET_FILL);
      RenderColour edge = frame->palette->edges[body->role];
      edge.a = GHOST_EDGE_ALPHA;
      render_draw_edges (renderer, frame, body, edge, EDGE_PX, EDGE_PX);
    }
  g_array_unref (ghosts);
}

/* ---- the figure ---- */

void
render_draw_figure (RenderRenderer *renderer, const RenderFrame *frame)
{
  const RenderSection *section = &frame->list->section;
  TrnVec3 at = frame->list->human_at;
  /* A person cut in two helps nobody: whoever stands on the far side of the plane is left out. */
  if (!frame->list->human
      || (section->on && trn_vec3_dot (section->normal, at) > section->offset_m))
    return;
  RenderBody body = { .mesh = renderer->figure, .site_from_mesh = trn_pose_identity () };
  body.site_from_mesh.position = at;
  if (!render_body_is_seen (frame, &body))
    return;
  glEnable (GL_DEPTH_TEST);
  const RenderProgram *program = &renderer->body[0];
  render_frame_use (frame, program);
  render_set_colour (program, RENDER_U_COLOUR, frame->palette->human);
  draw_faces (renderer, frame, program, &body);
}

/* ---- picking ---- */

void
render_draw_ids (RenderRenderer *renderer, const RenderFrame *frame)
{
  glEnable (GL_DEPTH_TEST);
  const RenderProgram *program = use_section_variant (frame, renderer->pick);
  for (guint i = 0; i < frame->list->bodies->len; i++)
    {
      const RenderBody *body = body_at (frame, i);
      if (!is_drawn (frame, body, RENDER_LOOK_SOLID))
        continue;
      glUniform1ui (program->at[RENDER_U_ID], body->id);
      draw_faces (renderer, frame, program, body);
    }
  for (guint i = 0; i < frame->list->bodies->len; i++)
    if (is_drawn (frame, body_at (frame, i), RENDER_LOOK_SOLID))
      render_draw_cap (renderer, frame, body_at (frame, i), TRUE);
}
