/* renderer.c: the order in which a draw list is drawn, and picking.
 *
 * Background, solid bodies, the faces that a section leaves, edges, the figure, the grid, lines,
 * ghosts, and last the lines that go over everything. All goes into a framebuffer of our own, which
 * is then copied into the one that was bound. */
#include "renderer-parts.h"

#include <string.h>

#include "figure.h"
#include "gl-state.h"

/* Half the edge of the square of pixels in which something is picked. */
#define PICK_REACH 2
#define PICK_SIDE (2 * PICK_REACH + 1)
/* A ghost's triangles count so many times when it is chosen which bodies are to have fewer. */
#define GHOST_TIMES 4
/* In which a program is made. */
#define STEPS 3
/* No body has to go below so many. */
#define LEAST_BODY 60

gboolean
render_renderer_go_on (RenderRenderer *renderer, gboolean *is_done, GError **error)
{
  const struct
  {
    RenderProgram *program;
    const char *vertex, *fragment;
    gboolean section;
  } programs[] = {
    { &renderer->body[0], "body", "body", FALSE },
    { &renderer->body[1], "body", "body", TRUE },
    { &renderer->pick[0], "body", "pick", FALSE },
    { &renderer->pick[1], "body", "pick", TRUE },
    { &renderer->cap, "cap", "cap", FALSE },
    { &renderer->cap_pick, "cap", "pick", FALSE },
    { &renderer->line, "line", "line", FALSE },
    { &renderer->backdrop, "screen", "backdrop", FALSE },
    { &renderer->grid, "cap", "grid", TRUE },
  };
  guint next = renderer->n_steps / STEPS;
  if (next < G_N_ELEMENTS (programs))
    {
      RenderProgram *program = programs[next].program;
      gboolean section = programs[next].section;
      guint step = renderer->n_steps % STEPS;
      if (step == 0
              ? !render_program_compile_vertex (program, programs[next].vertex, section, error)
          : step == 1
              ? !render_program_compile_fragment (program, programs[next].fragment, section, error)
              : !render_program_link (program, error))
        return FALSE;
      renderer->n_steps++;
    }
  *is_done = renderer->n_steps == STEPS * G_N_ELEMENTS (programs);
  return TRUE;
}

static GLuint
make_stream_array (GLuint buffer, GLsizei n_floats)
{
  const GLint sizes[3] = { 3, 3, 2 };
  gsize offset = 0;
  GLuint array;
  glGenVertexArrays (1, &array);
  glBindVertexArray (array);
  glBindBuffer (GL_ARRAY_BUFFER, buffer);
  for (guint i = 0; offset < (gsize)n_floats; offset += (gsize)sizes[i++])
    {
      glEnableVertexAttribArray (i);
      glVertexAttribPointer (i, sizes[i], GL_FLOAT, GL_FALSE, n_floats * (GLsizei)sizeof (float),
                             GSIZE_TO_POINTER (offset * sizeof (float)));
      glVertexAttribDivisor (i, 1);
    }
  return array;
}

static gboolean
name_means_software (const char *name)
{
  static const char *const software[]
      = { "llvmpipe", "softpipe", "swrast", "SwiftShader", "Software" };
  for (guint i = 0; i < G_N_ELEMENTS (software); i++)
    if (name != NULL && strstr (name, software[i]) != NULL)
      return TRUE;
  return FALSE;
}

RenderRenderer *
render_renderer_begin (GError **error)
{
  int least = epoxy_is_desktop_gl () ? 33 : 30;
  if (epoxy_gl_version () < least)
    {
      g_set_error (error, RENDER_GL_ERROR, RENDER_GL_ERROR_VERSION, "OpenGL %d.%d",
                   epoxy_gl_version () / 10, epoxy_gl_version () % 10);
      return NULL;
    }
  RenderRenderer *renderer = g_new0 (RenderRenderer, 1);
  render_gl_meshes_init (&renderer->meshes);
  renderer->segments = g_array_new (FALSE, FALSE, sizeof (float));
  renderer->figure = render_figure_build ();
  renderer->software = name_means_software ((const char *)glGetString (GL_RENDERER));
  RenderGlState state;
  render_gl_state_save (&state);
  glGenVertexArrays (1, &renderer->no_attributes);
  glGenBuffers (1, &renderer->stream);
  renderer->edge_stream = make_stream_array (renderer->stream, 6);
  renderer->line_stream = make_stream_array (renderer->stream, 8);
  render_gl_state_restore (&state);
  return renderer;
}

RenderRenderer *
render_renderer_new (GError **error)
{
  RenderRenderer *renderer = render_renderer_begin (error);
  for (gboolean is_done = renderer == NULL; !is_done;)
    if (!render_renderer_go_on (renderer, &is_done, error))
      {
        render_renderer_free (renderer);
        return NULL;
      }
  return renderer;
}

void
render_renderer_free (RenderRenderer *renderer)
{
  if (renderer == NULL)
    return;
  RenderProgram *programs[] = { &renderer->body[0], &renderer->body[1],  &renderer->pick[0],
                                &renderer->pick[1], &renderer->cap,      &renderer->cap_pick,
                                &renderer->line,    &renderer->backdrop, &renderer->grid };
  for (guint i = 0; i < G_N_ELEMENTS (programs); i++)
    render_program_clear (programs[i]);
  render_gl_meshes_clear (&renderer->meshes);
  render_gl_frame_clear (&renderer->frame);
  render_gl_frame_clear (&renderer->pick_frame);
  const GLuint arrays[] = { renderer->no_attributes, renderer->edge_stream, renderer->line_stream };
  glDeleteVertexArrays (G_N_ELEMENTS (arrays), arrays);
  glDeleteBuffers (1, &renderer->stream);
  g_array_unref (renderer->segments);
  render_mesh_unref (renderer->figure);
  g_free (renderer);
}

gboolean
render_renderer_is_software (const RenderRenderer *renderer)
{
  return renderer->software;
}

/* ---- drawing ---- */

static void
draw_backdrop (RenderRenderer *renderer, const RenderFrame *frame)
{
  render_frame_use (frame, &renderer->backdrop);
  render_set_colour (&renderer->backdrop, RENDER_U_COLOUR, frame->palette->background_bottom);
  render_set_colour (&renderer->backdrop, RENDER_U_COLOUR_TOP, frame->palette->background_top);
  glBindVertexArray (renderer->no_attributes);
  glDrawArrays (GL_TRIANGLES, 0, 3);
}

/* Where ground is modelled its own faces carry the grid: over a shaft there is nothing to walk on.
 */
static void
draw_grid (RenderRenderer *renderer, const RenderFrame *frame)
{
  const RenderDrawList *list = frame->list;
  if (!list->grid || !(list->grid_pitch_m > 0) || trn_box_is_empty (&list->extent))
    return;
  for (guint i = 0; i < list->bodies->len; i++)
    if (g_array_index (list->bodies, RenderBody, i).role == RENDER_ROLE_GROUND)
      return;
  const RenderProgram *program = &renderer->grid;
  double radius = render_grid_radius (list);
  TrnVec3 centre = trn_vec3_sub (trn_box_centre (&list->extent), frame->origin);
  render_frame_use (frame, program);
  glUniform1f (program->at[RENDER_U_GRID_PITCH], (float)list->grid_pitch_m);
  glUniform1f (program->at[RENDER_U_RADIUS], (float)radius);
  glUniform3f (program->at[RENDER_U_CENTRE], (float)centre.x, (float)centre.y,
               (float)-frame->origin.z);
  glUniform3f (program->at[RENDER_U_SIDE_A], (float)radius, 0, 0);
  glUniform3f (program->at[RENDER_U_SIDE_B], 0, (float)radius, 0);
  glEnable (GL_DEPTH_TEST);
  glEnable (GL_BLEND);
  glDepthMask (GL_FALSE);
  glBindVertexArray (renderer->no_attributes);
  glDrawArrays (GL_TRIANGLE_STRIP, 0, 4);
  glDepthMask (GL_TRUE);
  glDisable (GL_BLEND);
}

static void
clear_frame (void)
{
  glClearDepthf (1);
  glClearStencil (0);
  glClear (GL_DEPTH_BUFFER_BIT | GL_STENCIL_BUFFER_BIT);
}

static void
init_target_frame (RenderFrame *frame, const RenderDrawList *list, const RenderCamera *camera,
                   const RenderTarget *target)
{
  double scale = target->scale > 0 ? target->scale : 1;
  int width = MAX (1, (int)lround (target->size.width * scale));
  int height = MAX (1, (int)lround (target->size.height * scale));
  gboolean tiled = target->whole_width > 0 && target->whole_height > 0;
  int whole_width = tiled ? target->whole_width : width;
  int whole_height = tiled ? target->whole_height : height;
  render_frame_init (frame, list, camera,
                     (RenderSize){ whole_width / scale, whole_height / scale });
  frame->scale = scale;
  frame->width = width;
  frame->height = height;
  frame->whole_height = whole_height;
  if (!tiled)
    return;
  frame->tile_x = target->tile_x;
  frame->tile_y = target->tile_y;
  render_frame_narrow (frame, target->tile_x, target->tile_y, width, height, whole_width,
                       whole_height);
}

/* Triangles that drawing a body once takes, with @mesh for its own. */
static guint64
cost_of (const RenderBody *body, const RenderMesh *mesh)
{
  guint passes = body->look == RENDER_LOOK_GHOST || body->shines_through ? 2 : 1;
  return (guint64)passes * mesh->n_triangles;
}

/* The finest mesh of @body that costs no more than @most, else its coarsest. A ghost is seen
 * through and gives up first. */
static const RenderMesh *
mesh_under (const RenderBody *body, guint64 most)
{
  guint64 times = body->look == RENDER_LOOK_GHOST ? GHOST_TIMES : 1;
  const RenderMesh *mesh = body->mesh;
  while (mesh->coarse != NULL && times * cost_of (body, mesh) > most)
    mesh = mesh->coarse;
  return mesh;
}

/* Gives @bodies the meshes of those of the list under @most; returns what the seen ones cost. */
static guint64
take_meshes_under (const GArray *own, const gboolean *seen, guint64 most, GArray *bodies)
{
  guint64 sum = 0;
  for (guint i = 0; i < own->len; i++)
    {
      RenderBody *body = &g_array_index (bodies, RenderBody, i);
      body->mesh = mesh_under (&g_array_index (own, RenderBody, i), most);
      sum += seen[i] ? cost_of (body, body->mesh) : 0;
    }
  return sum;
}

/* The bodies with meshes that make no more than @total triangles in the view, if they can: what has
 * few keeps them, only the largest give up. */
static GArray *
bodies_within (const RenderFrame *frame, guint64 total)
{
  const GArray *own = frame->list->bodies;
  GArray *bodies = g_array_sized_new (FALSE, FALSE, sizeof (RenderBody), own->len);
  if (own->len == 0)
    return bodies;
  g_array_append_vals (bodies, own->data, own->len);
  g_autofree gboolean *seen = g_new (gboolean, own->len);
  guint64 most = 0;
  for (guint i = 0; i < own->len; i++)
    {
      const RenderBody *body = &g_array_index (own, RenderBody, i);
      seen[i] = render_body_is_seen (frame, body);
      most = MAX (most, GHOST_TIMES * cost_of (body, body->mesh));
    }
  while (take_meshes_under (own, seen, most, bodies) > total && most > LEAST_BODY)
    most -= most / 8;
  return bodies;
}

void
render_renderer_draw (RenderRenderer *renderer, const RenderDrawList *list,
                      const RenderCamera *camera, const RenderTarget *target)
{
  RenderFrame frame;
  init_target_frame (&frame, list, camera, target);
  RenderDrawList drawn = *list;
  g_autoptr (GArray) bodies = target->most_triangles > 0
                                  ? bodies_within (&frame, target->most_triangles)
                                  : g_array_ref (list->bodies);
  drawn.bodies = bodies;
  frame.list = &drawn;
  RenderGlState state;
  render_gl_state_save (&state);
  render_gl_state_reset ();
  render_gl_frame_bind (&renderer->frame, frame.width, frame.height, target->samples, GL_RGBA8);
  glViewport (0, 0, frame.width, frame.height);
  clear_frame ();
  draw_backdrop (renderer, &frame);
  render_draw_solids (renderer, &frame);
  render_draw_figure (renderer, &frame);
  draw_grid (renderer, &frame);
  render_draw_lines (renderer, &frame, FALSE);
  render_draw_ghosts (renderer, &frame);
  render_draw_lines (renderer, &frame, TRUE);
  glBindFramebuffer (GL_READ_FRAMEBUFFER, renderer->frame.framebuffer);
  glBindFramebuffer (GL_DRAW_FRAMEBUFFER, (GLuint)state.draw_framebuffer);
  glBlitFramebuffer (0, 0, frame.width, frame.height, 0, 0, frame.width, frame.height,
                     GL_COLOR_BUFFER_BIT, GL_NEAREST);
  render_gl_state_restore (&state);
  render_gl_meshes_tidy (&renderer->meshes);
}

/* ---- picking ---- */

/* The pixel with an id that is nearest to the middle one; NULL: none. */
static const guint32 *
nearest_place (const guint32 *places)
{
  const guint32 *nearest = NULL;
  int least = G_MAXINT;
  for (int y = -PICK_REACH; y <= PICK_REACH; y++)
    for (int x = -PICK_REACH; x <= PICK_REACH; x++)
      {
        const guint32 *place = places + 4 * ((y + PICK_REACH) * PICK_SIDE + x + PICK_REACH);
        if (place[3] == 0 || x * x + y * y >= least)
          continue;
        least = x * x + y * y;
        nearest = place;
      }
  return nearest;
}

guint32
render_renderer_pick (RenderRenderer *renderer, const RenderDrawList *list,
                      const RenderCamera *camera, RenderSize size, double x, double y,
                      TrnVec3 *point)
{
  RenderFrame frame;
  render_frame_init (&frame, list, camera, size);
  frame.width = frame.height = PICK_SIDE;
  /* A window whose middle pixel has its centre exactly at the point. */
  render_frame_narrow (&frame, x - 0.5 * PICK_SIDE, size.height - y - 0.5 * PICK_SIDE, PICK_SIDE,
                       PICK_SIDE, size.width, size.height);
  RenderGlState state;
  render_gl_state_save (&state);
  render_gl_state_reset ();
  render_gl_frame_bind (&renderer->pick_frame, PICK_SIDE, PICK_SIDE, 0, GL_RGBA32UI);
  glViewport (0, 0, PICK_SIDE, PICK_SIDE);
  clear_frame ();
  const GLuint nothing[4] = { 0, 0, 0, 0 };
  glClearBufferuiv (GL_COLOR, 0, nothing);
  render_draw_ids (renderer, &frame);
  guint32 places[4 * PICK_SIDE * PICK_SIDE] = { 0 };
  glReadPixels (0, 0, PICK_SIDE, PICK_SIDE, GL_RGBA_INTEGER, GL_UNSIGNED_INT, places);
  render_gl_state_restore (&state);

  const guint32 *place = nearest_place (places);
  if (place == NULL)
    return 0;
  float local[3];
  memcpy (local, place, sizeof local);
  *point = trn_vec3_add (frame.origin, trn_vec3_make (local[0], local[1], local[2]));
  return place[3];
}
