/* renderer-parts.h: what the files of the renderer share. */
#pragma once

#include "gl-frame.h"
#include "gl-mesh.h"
#include "gl-program.h"
#include "outline.h"
#include "palette.h"
#include "renderer.h"

/* Two of each where a section plane matters: without and with it. */
struct _RenderRenderer
{
  RenderProgram body[2], pick[2], cap, cap_pick, line, backdrop, grid;
  guint n_steps; /* done so far: of each program its two shaders, then linking */
  RenderGlMeshes meshes;
  RenderGlFrame frame, pick_frame;
  GLuint no_attributes; /* vertex array for programs that need none */
  GLuint stream;        /* buffer for segments of this frame, as edges or as lines: */
  GLuint edge_stream, line_stream;
  GArray *segments; /* of float: room to work in */
  RenderMesh *figure;
  gboolean software;
};

/* What is the same for all of one picture. Coordinates called local are those of the site about
 * @origin, which is the camera's target, so that floats hold them wherever the site is. */
typedef struct
{
  const RenderDrawList *list;
  const RenderCamera *camera;
  const RenderPalette *palette;
  RenderSize size; /* of the whole, logical */
  TrnVec3 origin;
  float view[16], projection[16]; /* the latter of the tile */
  float section[4], section_view[4];
  float eye[4], key[3];
  float near, bias;
  int width, height, tile_x, tile_y, whole_height; /* device pixels */
  double scale;
} RenderFrame;

/* The frame of the whole picture. */
void render_frame_init (RenderFrame *frame, const RenderDrawList *list, const RenderCamera *camera,
                        RenderSize size);
/* Narrows the projection to a window of the whole, in pixels from its left bottom corner, of which
 * the whole has @whole_width by @whole_height. */
void render_frame_narrow (RenderFrame *frame, double x, double y, double width, double height,
                          double whole_width, double whole_height);
/* How far the grid goes from the middle of the site where no ground is modelled. */
double render_grid_radius (const RenderDrawList *list);
/* Uses @program and sets what every program may need. */
void render_frame_use (const RenderFrame *frame, const RenderProgram *program);
void render_set_colour (const RenderProgram *program, RenderUniform uniform, RenderColour colour);
/* The matrix from the coordinates of a display mesh to local ones. */
void render_local_from_mesh (const RenderFrame *frame, const RenderBody *body, float matrix[16]);
gboolean render_body_is_seen (const RenderFrame *frame, const RenderBody *body);
/* Whether the section plane goes through it. */
gboolean render_body_is_cut (const RenderFrame *frame, const RenderBody *body);

/* renderer-bodies.c */
void render_draw_solids (RenderRenderer *renderer, const RenderFrame *frame);
void render_draw_ghosts (RenderRenderer *renderer, const RenderFrame *frame);
void render_draw_figure (RenderRenderer *renderer, const RenderFrame *frame);
/* Ids and places of what can be picked, into the bound framebuffer. */
void render_draw_ids (RenderRenderer *renderer, const RenderFrame *frame);

/* renderer-caps.c: the cut face of a closed body, in colour or as its id. */
void render_draw_cap (RenderRenderer *renderer, const RenderFrame *frame, const RenderBody *body,
                      gboolean for_picking);

/* renderer-lines.c */
void render_draw_edges (RenderRenderer *renderer, const RenderFrame *frame, const RenderBody *body,
                        RenderColour colour, double width_px, double cut_width_px);
void render_draw_lines (RenderRenderer *renderer, const RenderFrame *frame, gboolean on_top);
