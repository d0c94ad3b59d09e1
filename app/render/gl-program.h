/* gl-program.h: shader programs from the compiled-in sources, for OpenGL 3.3 and OpenGL ES 3. */
#pragma once

#include <epoxy/gl.h>
#include <glib.h>

/* Every uniform of every program; setting one that a program does not have does nothing. */
typedef enum
{
  RENDER_U_LOCAL_FROM_MESH,
  RENDER_U_VIEW,
  RENDER_U_PROJECTION,
  RENDER_U_COLOUR,
  RENDER_U_COLOUR_TOP,
  RENDER_U_HATCH_COLOUR,
  RENDER_U_HATCH,
  RENDER_U_KEY,
  RENDER_U_EYE,
  RENDER_U_FORM,
  RENDER_U_SECTION,
  RENDER_U_SECTION_VIEW,
  RENDER_U_SECTION_ON,
  RENDER_U_GRID_COLOUR,
  RENDER_U_GRID_PITCH,
  RENDER_U_GRID_SHIFT,
  RENDER_U_GRADE_Z,
  RENDER_U_SCALE,
  RENDER_U_TILE,
  RENDER_U_WHOLE_HEIGHT,
  RENDER_U_CENTRE,
  RENDER_U_SIDE_A,
  RENDER_U_SIDE_B,
  RENDER_U_RADIUS,
  RENDER_U_ID,
  RENDER_U_VIEWPORT,
  RENDER_U_NEAR,
  RENDER_U_BIAS,
  RENDER_U_PARALLEL,
  RENDER_U_REACH,
  RENDER_U_SPACING,
  RENDER_U_HALF_WIDTH,
  RENDER_U_GAP,
  RENDER_U_N_DASHES,
  RENDER_U_DASHES,
  RENDER_U_PERIOD,
  RENDER_U_SWELL,
  RENDER_N_UNIFORMS,
} RenderUniform;

typedef struct
{
  GLuint name;
  GLint at[RENDER_N_UNIFORMS];
} RenderProgram;

/* In three steps, each of which takes its time: compiles "<name>.vert.glsl", of a program that is
 * empty yet; then "<name>.frag.glsl", behind the sources that every fragment shader may use;
 * SECTION is defined where @section. What fails leaves it empty. */
gboolean render_program_compile_vertex (RenderProgram *program, const char *name, gboolean section,
                                        GError **error);
gboolean render_program_compile_fragment (RenderProgram *program, const char *name,
                                          gboolean section, GError **error);
/* Links what was compiled. */
gboolean render_program_link (RenderProgram *program, GError **error);
void render_program_clear (RenderProgram *program);

#define RENDER_GL_ERROR (render_gl_error_quark ())
GQuark render_gl_error_quark (void);
typedef enum
{
  RENDER_GL_ERROR_VERSION,
  RENDER_GL_ERROR_SHADER,
} RenderGlError;
