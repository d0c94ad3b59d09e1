/* renderer-lines.c: edges of bodies, and the lines of a draw list.
 *
 * A segment is an instance of a rectangle that the vertex shader places on the screen, so that
 * widths and dashes are in pixels and do not depend on what the driver makes of wide lines. So that
 * dashes run on from segment to segment, the length of a line on the screen is summed here, in
 * double. Lines write depth, so that a ghost behind them leaves them alone.
 *
 * Edges are fainter where a body has more of them than there is room for on the screen: from afar
 * they would cover a lattice, or a load full of bolts, and its form with it. */
#include "renderer-parts.h"

#define CASING_PX 1.5
#define MOST_DASHES 6
#define NEVER_FADES 1e30f
#define SELECTED_ROOM 3 /* times as much */

/* On, off … in logical pixels. Dots are as long as the line is wide: 0. */
typedef struct
{
  int n_dashes;
  double dashes[MOST_DASHES];
} Pattern;

static const Pattern patterns[] = {
  [RENDER_LINE_SOLID] = { 0, { 0 } },
  [RENDER_LINE_DASHED] = { 2, { 9, 5 } },
  [RENDER_LINE_DOTTED] = { 2, { 0, 5 } },
  [RENDER_LINE_CHAIN_DOTTED] = { 4, { 14, 5, 0, 5 } },
  [RENDER_LINE_TWO_DASH] = { 6, { 14, 4, 4, 4, 4, 4 } },
  [RENDER_LINE_DOUBLE] = { 0, { 0 } },
};

typedef struct
{
  RenderColour colour;
  double width_px;
  RenderLineStyle style;
  double swell_px;  /* casing */
  double lift_px;   /* towards the eye, in pixels of distance */
  gboolean cut;     /* by the section plane */
  double spacing_m; /* between lines of its kind, which fade where they come close; 0: never */
} Stroke;

static double
pattern_period (const Stroke *stroke)
{
  const Pattern *pattern = &patterns[stroke->style];
  double period = 0;
  for (int i = 0; i < pattern->n_dashes; i++)
    period += pattern->dashes[i] > 0 ? pattern->dashes[i] : stroke->width_px;
  return period;
}

/* Uses the line program for @stroke; the matrix is set by the caller. */
static const RenderProgram *
use_stroke (RenderRenderer *renderer, const RenderFrame *frame, const Stroke *stroke)
{
  const RenderProgram *program = &renderer->line;
  const Pattern *pattern = &patterns[stroke->style];
  gboolean twofold = stroke->style == RENDER_LINE_DOUBLE;
  double scale = frame->scale;
  double half_width = (twofold ? 1.5 : 0.5) * stroke->width_px * scale;
  render_frame_use (frame, program);
  render_set_colour (program, RENDER_U_COLOUR, stroke->colour);
  glUniform1f (program->at[RENDER_U_HALF_WIDTH], (float)half_width);
  glUniform1f (program->at[RENDER_U_GAP], twofold ? (float)(0.5 * stroke->width_px * scale) : 0);
  glUniform1f (program->at[RENDER_U_SWELL], (float)(stroke->swell_px * scale));
  glUniform1f (program->at[RENDER_U_REACH], (float)(half_width + stroke->swell_px * scale + 1));
  /* In logical pixels; at a distance of 1 m in a perspective view. */
  glUniform1f (program->at[RENDER_U_SPACING],
               stroke->spacing_m > 0 ? (float)(stroke->spacing_m / frame->bias) : NEVER_FADES);
  glUniform1f (program->at[RENDER_U_BIAS], (float)(stroke->lift_px * frame->bias));
  glUniform1f (program->at[RENDER_U_SECTION_ON], stroke->cut && frame->list->section.on ? 1 : 0);
  glUniform4fv (program->at[RENDER_U_SECTION_VIEW], 1, frame->section_view);
  float dashes[MOST_DASHES] = { 0 };
  for (int i = 0; i < pattern->n_dashes; i++)
    dashes[i] = (float)(scale * (pattern->dashes[i] > 0 ? pattern->dashes[i] : stroke->width_px));
  glUniform1i (program->at[RENDER_U_N_DASHES], pattern->n_dashes);
  glUniform1fv (program->at[RENDER_U_DASHES], MOST_DASHES, dashes);
  glUniform1f (program->at[RENDER_U_PERIOD], (float)(scale * pattern_period (stroke)));
  return program;
}

static void
stream (RenderRenderer *renderer, GLuint vertex_array)
{
  glBindVertexArray (vertex_array);
  glBindBuffer (GL_ARRAY_BUFFER, renderer->stream);
  glBufferData (GL_ARRAY_BUFFER, (GLsizeiptr)(renderer->segments->len * sizeof (float)),
                renderer->segments->data, GL_STREAM_DRAW);
}

/* ---- edges ---- */

static void
append_outline (RenderRenderer *renderer, const RenderFrame *frame, const RenderBody *body)
{
  const TrnPose *pose = &body->site_from_mesh;
  TrnVec3 forward, right, up;
  render_camera_axes (frame->camera, &forward, &right, &up);
  TrnVec3 eye
      = frame->camera->parallel
            ? trn_rotation_apply_inverse (&pose->turn, trn_vec3_scale (forward, -1))
            : trn_vec3_sub (trn_pose_apply_inverse (pose, render_camera_eye (frame->camera)),
                            body->mesh->centre);
  const float at[3] = { (float)eye.x, (float)eye.y, (float)eye.z };
  render_outline_append (body->mesh, at, frame->camera->parallel, renderer->segments);
}

static void
append_cut (RenderRenderer *renderer, const RenderFrame *frame, const RenderBody *body)
{
  const RenderSection *section = &frame->list->section;
  const TrnPose *pose = &body->site_from_mesh;
  TrnVec3 normal = trn_rotation_apply_inverse (&pose->turn, section->normal);
  TrnVec3 centre = trn_pose_apply (pose, body->mesh->centre);
  double offset = section->offset_m - trn_vec3_dot (section->normal, centre);
  const float n[3] = { (float)normal.x, (float)normal.y, (float)normal.z };
  render_cut_append (body->mesh, n, (float)offset, renderer->segments);
}

void
render_draw_edges (RenderRenderer *renderer, const RenderFrame *frame, const RenderBody *body,
                   RenderColour colour, double width_px, double cut_width_px)
{
  Stroke stroke = { colour, width_px, RENDER_LINE_SOLID, 0, 1, TRUE, body->mesh->edge_spacing_m };
  /* What is selected is to be found from afar too; the load, whose colour nothing else has, always
   * is, and would only turn black. */
  if (body->selected && body->role != RENDER_ROLE_LOAD)
    stroke.spacing_m *= SELECTED_ROOM;
  const RenderProgram *program = use_stroke (renderer, frame, &stroke);
  float matrix[16];
  render_local_from_mesh (frame, body, matrix);
  glUniformMatrix4fv (program->at[RENDER_U_LOCAL_FROM_MESH], 1, GL_FALSE, matrix);
  const RenderGlMesh *gl = render_gl_meshes_get (&renderer->meshes, body->mesh);
  glEnable (GL_BLEND);
  glDepthMask (GL_FALSE);
  glVertexAttrib2f (2, 0, 0);
  glBindVertexArray (gl->edges);
  glDrawArraysInstanced (GL_TRIANGLE_STRIP, 0, 4, gl->n_segments);

  g_array_set_size (renderer->segments, 0);
  append_outline (renderer, frame, body);
  stream (renderer, renderer->edge_stream);
  glDrawArraysInstanced (GL_TRIANGLE_STRIP, 0, 4, (GLsizei)(renderer->segments->len / 6));

  if (render_body_is_cut (frame, body))
    {
      Stroke cut = { colour, cut_width_px, RENDER_LINE_SOLID, 0, 1, FALSE, 0 };
      program = use_stroke (renderer, frame, &cut);
      glUniformMatrix4fv (program->at[RENDER_U_LOCAL_FROM_MESH], 1, GL_FALSE, matrix);
      g_array_set_size (renderer->segments, 0);
      append_cut (renderer, frame, body);
      stream (renderer, renderer->edge_stream);
      glDrawArraysInstanced (GL_TRIANGLE_STRIP, 0, 4, (GLsizei)(renderer->segments->len / 6));
    }
  glDepthMask (GL_TRUE);
  glDisable (GL_BLEND);
}

/* ---- lines of the list ---- */

typedef struct
{
  const RenderFrame *frame;
  TrnVec3 forward, right, up;
  double per_metre; /* pixels a metre, at a depth of 1 m in a perspective view */
} Screen;

/* Depth before the eye, and the place on the screen of a point that is before the near plane. */
static double
depth_of (const Screen *screen, TrnVec3 point)
{
  TrnVec3 from_target = trn_vec3_sub (point, screen->frame->camera->target);
  return screen->frame->camera->distance_m + trn_vec3_dot (from_target, screen->forward);
}

static double
screen_length (const Screen *screen, TrnVec3 a, TrnVec3 b)
{
  const RenderCamera *camera = screen->frame->camera;
  TrnVec3 p = trn_vec3_sub (a, camera->target), q = trn_vec3_sub (b, camera->target);
  double at_p = screen->per_metre, at_q = screen->per_metre;
  if (!camera->parallel)
    {
      at_p /= depth_of (screen, a);
      at_q /= depth_of (screen, b);
    }
  return hypot (at_q * trn_vec3_dot (q, screen->right) - at_p * trn_vec3_dot (p, screen->right),
                at_q * trn_vec3_dot (q, screen->up) - at_p * trn_vec3_dot (p, screen->up));
}

/* Cuts the segment at the near plane; FALSE where nothing remains. */
static gboolean
cut_near (const Screen *screen, TrnVec3 *a, TrnVec3 *b)
{
  double near = screen->frame->near;
  double at_a = depth_of (screen, *a) - near, at_b = depth_of (screen, *b) - near;
  if (at_a <= 0 && at_b <= 0)
    return FALSE;
  if (at_a < 0)
    *a = trn_vec3_mix (*a, *b, at_a / (at_a - at_b));
  else if (at_b < 0)
    *b = trn_vec3_mix (*b, *a, at_b / (at_b - at_a));
  return TRUE;
}

static void
append_line (GArray *segments, const Screen *screen, const RenderLine *line, double period)
{
  double along = 0;
  for (guint i = 0; i + 1 < line->n_points; i++)
    {
      TrnVec3 a = line->points[i], b = line->points[i + 1];
      if (!cut_near (screen, &a, &b))
        continue;
      double length = screen_length (screen, a, b);
      TrnVec3 p = trn_vec3_sub (a, screen->frame->origin);
      TrnVec3 q = trn_vec3_sub (b, screen->frame->origin);
      const float segment[8] = { (float)p.x, (float)p.y, (float)p.z,   (float)q.x,
                                 (float)q.y, (float)q.z, (float)along, (float)(along + length) };
      g_array_append_vals (segments, segment, 8);
      /* Kept small: a float must hold it to a fraction of a pixel. */
      along += length;
      if (period > 0)
        along = fmod (along, period);
    }
}

static void
draw_line (RenderRenderer *renderer, const RenderFrame *frame, const Screen *screen,
           const RenderLine *line)
{
  static const float identity[16] = { 1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1 };
  gboolean dark = frame->list->dark;
  Stroke core
      = { .colour = line->state == RENDER_STATE_NONE ? render_ink_colour (dark)
                                                     : render_state_colour (line->state, dark),
          .width_px = line->width_px,
          .style = line->style,
          .lift_px = 3 };
  g_array_set_size (renderer->segments, 0);
  append_line (renderer->segments, screen, line, frame->scale * pattern_period (&core));
  stream (renderer, renderer->line_stream);
  GLsizei n = (GLsizei)(renderer->segments->len / 8);
  if (line->on_top || line->state != RENDER_STATE_NONE)
    {
      Stroke casing = core;
      casing.colour = render_state_casing_colour (line->state, dark);
      casing.swell_px = CASING_PX;
      casing.lift_px = 2;
      const RenderProgram *program = use_stroke (renderer, frame, &casing);
      glUniformMatrix4fv (program->at[RENDER_U_LOCAL_FROM_MESH], 1, GL_FALSE, identity);
      glDepthMask (GL_FALSE);
      glDrawArraysInstanced (GL_TRIANGLE_STRIP, 0, 4, n);
      glDepthMask (GL_TRUE);
    }
  const RenderProgram *program = use_stroke (renderer, frame, &core);
  glUniformMatrix4fv (program->at[RENDER_U_LOCAL_FROM_MESH], 1, GL_FALSE, identity);
  glDrawArraysInstanced (GL_TRIANGLE_STRIP, 0, 4, n);
}

void
render_draw_lines (RenderRenderer *renderer, const RenderFrame *frame, gboolean on_top)
{
  Screen screen = { .frame = frame };
  render_camera_axes (frame->camera, &screen.forward, &screen.right, &screen.up);
  double half_height = tan (frame->camera->fov_rad / 2)
                       * (frame->camera->parallel ? frame->camera->distance_m : 1);
  screen.per_metre = frame->scale * frame->size.height / 2 / half_height;
  glEnable (GL_BLEND);
  if (on_top)
    glDisable (GL_DEPTH_TEST);
  else
    glEnable (GL_DEPTH_TEST);
  for (guint i = 0; i < frame->list->lines->len; i++)
    {
      const RenderLine *line = &g_array_index (frame->list->lines, RenderLine, i);
      if (!line->on_top == !on_top && line->n_points > 1)
        draw_line (renderer, frame, &screen, line);
    }
  glDisable (GL_BLEND);
}
