/* renderer-frame.c: what one picture needs before anything is drawn: matrices, light, the section
 * plane in the coordinates that shaders use. */
#include "renderer-parts.h"

#include <cglm/cglm.h>
#include <string.h>

#define NO_SECTION 1e30f

static TrnBox
depth_extent (const RenderDrawList *list, double grid_radius)
{
  TrnBox extent = list->extent;
  for (guint i = 0; i < list->lines->len; i++)
    {
      const RenderLine *line = &g_array_index (list->lines, RenderLine, i);
      for (guint k = 0; k < line->n_points; k++)
        trn_box_add_point (&extent, line->points[k]);
    }
  if (list->human)
    {
      trn_box_add_point (&extent, trn_vec3_add (list->human_at, trn_vec3_make (-1, -1, 0)));
      trn_box_add_point (&extent, trn_vec3_add (list->human_at, trn_vec3_make (1, 1, 2)));
    }
  if (list->grid && !trn_box_is_empty (&list->extent))
    {
      TrnVec3 centre = trn_box_centre (&list->extent);
      trn_box_add_point (&extent,
                         trn_vec3_make (centre.x - grid_radius, centre.y - grid_radius, 0));
      trn_box_add_point (&extent,
                         trn_vec3_make (centre.x + grid_radius, centre.y + grid_radius, 0));
    }
  return extent;
}

static void
set_light (RenderFrame *frame)
{
  TrnVec3 forward, right, up;
  render_camera_axes (frame->camera, &forward, &right, &up);
  TrnVec3 key = trn_vec3_scale (forward, -0.62);
  key = trn_vec3_add_scaled (key, up, 0.55);
  key = trn_vec3_unit (trn_vec3_add_scaled (key, right, -0.48));
  frame->key[0] = (float)key.x;
  frame->key[1] = (float)key.y;
  frame->key[2] = (float)key.z;
  TrnVec3 eye = frame->camera->parallel
                    ? trn_vec3_scale (forward, -1)
                    : trn_vec3_sub (render_camera_eye (frame->camera), frame->origin);
  frame->eye[0] = (float)eye.x;
  frame->eye[1] = (float)eye.y;
  frame->eye[2] = (float)eye.z;
  frame->eye[3] = frame->camera->parallel ? 0 : 1;
}

static void
set_section (RenderFrame *frame)
{
  const RenderSection *section = &frame->list->section;
  frame->section[0] = frame->section[1] = frame->section[2] = 0;
  frame->section[3] = NO_SECTION;
  if (!section->on)
    return;
  frame->section[0] = (float)section->normal.x;
  frame->section[1] = (float)section->normal.y;
  frame->section[2] = (float)section->normal.z;
  frame->section[3] = (float)(section->offset_m - trn_vec3_dot (section->normal, frame->origin));
  const float *v = frame->view;
  float moved = 0;
  for (int i = 0; i < 3; i++)
    {
      frame->section_view[i]
          = v[i] * frame->section[0] + v[4 + i] * frame->section[1] + v[8 + i] * frame->section[2];
      moved += frame->section_view[i] * v[12 + i];
    }
  frame->section_view[3] = frame->section[3] + moved;
}

void
render_frame_init (RenderFrame *frame, const RenderDrawList *list, const RenderCamera *camera,
                   RenderSize size)
{
  *frame = (RenderFrame){ .list = list,
                          .camera = camera,
                          .palette = render_palette_get (list->dark),
                          .size = size,
                          .origin = camera->target,
                          .scale = 1 };
  TrnBox extent = depth_extent (list, render_grid_radius (list));
  render_camera_matrices (camera, size, frame->origin, &extent, frame->view, frame->projection);
  const float *p = frame->projection;
  frame->near = camera->parallel ? (p[14] + 1) / p[10] : p[14] / (p[10] - 1);
  /* The share of the distance, or the metres, that one pixel is. */
  double pixel = 2 * tan (camera->fov_rad / 2) / size.height;
  frame->bias = (float)(camera->parallel ? pixel * camera->distance_m : pixel);
  set_light (frame);
  set_section (frame);
}

double
render_grid_radius (const RenderDrawList *list)
{
  if (trn_box_is_empty (&list->extent))
    return 0;
  TrnVec3 size = trn_box_size (&list->extent);
  return 0.8 * sqrt (size.x * size.x + size.y * size.y) + 2 * list->grid_pitch_m;
}

void
render_frame_narrow (RenderFrame *frame, double x, double y, double width, double height,
                     double whole_width, double whole_height)
{
  float sx = (float)(whole_width / width), sy = (float)(whole_height / height);
  float tx = (float)((whole_width - 2 * x - width) / width);
  float ty = (float)((whole_height - 2 * y - height) / height);
  for (int column = 0; column < 4; column++)
    {
      float *c = frame->projection + 4 * column;
      c[0] = sx * c[0] + tx * c[3];
      c[1] = sy * c[1] + ty * c[3];
    }
}

void
render_set_colour (const RenderProgram *program, RenderUniform uniform, RenderColour colour)
{
  glUniform4f (program->at[uniform], (float)colour.r, (float)colour.g, (float)colour.b,
               (float)colour.a);
}

void
render_frame_use (const RenderFrame *frame, const RenderProgram *program)
{
  const GLint *at = program->at;
  const RenderDrawList *list = frame->list;
  glUseProgram (program->name);
  glUniformMatrix4fv (at[RENDER_U_VIEW], 1, GL_FALSE, frame->view);
  glUniformMatrix4fv (at[RENDER_U_PROJECTION], 1, GL_FALSE, frame->projection);
  glUniform4fv (at[RENDER_U_SECTION], 1, frame->section);
  glUniform4fv (at[RENDER_U_EYE], 1, frame->eye);
  glUniform3fv (at[RENDER_U_KEY], 1, frame->key);
  glUniform1f (at[RENDER_U_FORM], 1);
  glUniform1f (at[RENDER_U_SCALE], (float)frame->scale);
  glUniform2f (at[RENDER_U_TILE], (float)frame->tile_x, (float)frame->tile_y);
  glUniform2f (at[RENDER_U_VIEWPORT], (float)frame->width, (float)frame->height);
  glUniform1f (at[RENDER_U_NEAR], frame->near);
  glUniform1f (at[RENDER_U_PARALLEL], frame->camera->parallel ? 1 : 0);
  glUniform1f (at[RENDER_U_WHOLE_HEIGHT], (float)frame->whole_height);
  glUniform1f (at[RENDER_U_GRADE_Z], (float)-frame->origin.z);
  glUniform1f (at[RENDER_U_GRID_PITCH], 0);
  double period = 5 * list->grid_pitch_m;
  if (list->grid && period > 0)
    glUniform2f (at[RENDER_U_GRID_SHIFT], (float)remainder (frame->origin.x, period),
                 (float)remainder (frame->origin.y, period));
  render_set_colour (program, RENDER_U_GRID_COLOUR, frame->palette->grid);
}

/* ---- bodies ---- */

void
render_local_from_mesh (const RenderFrame *frame, const RenderBody *body, float matrix[16])
{
  const TrnPose *pose = &body->site_from_mesh;
  TrnVec3 centre = trn_vec3_sub (trn_pose_apply (pose, body->mesh->centre), frame->origin);
  const double column[3] = { centre.x, centre.y, centre.z };
  for (int row = 0; row < 3; row++)
    {
      for (int i = 0; i < 3; i++)
        matrix[4 * i + row] = (float)pose->turn.m[row][i];
      matrix[12 + row] = (float)column[row];
      matrix[4 * row + 3] = 0;
    }
  matrix[15] = 1;
}

gboolean
render_body_is_seen (const RenderFrame *frame, const RenderBody *body)
{
  CGLM_ALIGN_MAT mat4 view, projection, clip;
  memcpy (view, frame->view, sizeof view);
  memcpy (projection, frame->projection, sizeof projection);
  glm_mat4_mul (projection, view, clip);
  int outside[4] = { 0 };
  for (guint i = 0; i < 8; i++)
    {
      TrnVec3 corner = trn_pose_apply (&body->site_from_mesh, trn_box_corner (&body->mesh->box, i));
      TrnVec3 local = trn_vec3_sub (corner, frame->origin);
      CGLM_ALIGN (16) vec4 p = { (float)local.x, (float)local.y, (float)local.z, 1 };
      glm_mat4_mulv (clip, p, p);
      outside[0] += p[0] > p[3];
      outside[1] += p[0] < -p[3];
      outside[2] += p[1] > p[3];
      outside[3] += p[1] < -p[3];
    }
  for (int i = 0; i < 4; i++)
    if (outside[i] == 8)
      return FALSE;
  return body->mesh->n_triangles > 0;
}

gboolean
render_body_is_cut (const RenderFrame *frame, const RenderBody *body)
{
  const RenderSection *section = &frame->list->section;
  gboolean kept = FALSE, cut = FALSE;
  for (guint i = 0; i < 8 && section->on; i++)
    {
      TrnVec3 corner = trn_pose_apply (&body->site_from_mesh, trn_box_corner (&body->mesh->box, i));
      gboolean above = trn_vec3_dot (section->normal, corner) > section->offset_m;
      cut |= above;
      kept |= !above;
    }
  return kept && cut;
}
