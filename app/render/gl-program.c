/* gl-program.c: the sources have no #version line; it is put in front of them here, since the two
 * kinds of OpenGL want different ones and read the rest alike. */
#include "gl-program.h"

#include <gio/gio.h>

#include "render-shaders.h"

#define FOLDER "/trunnion/shaders/"

G_DEFINE_QUARK (render - gl - error - quark, render_gl_error)

static const char *const uniform_names[RENDER_N_UNIFORMS] = {
  [RENDER_U_LOCAL_FROM_MESH] = "u_local_from_mesh",
  [RENDER_U_VIEW] = "u_view",
  [RENDER_U_PROJECTION] = "u_projection",
  [RENDER_U_COLOUR] = "u_colour",
  [RENDER_U_COLOUR_TOP] = "u_colour_top",
  [RENDER_U_HATCH_COLOUR] = "u_hatch_colour",
  [RENDER_U_HATCH] = "u_hatch",
  [RENDER_U_KEY] = "u_key",
  [RENDER_U_EYE] = "u_eye",
  [RENDER_U_FORM] = "u_form",
  [RENDER_U_SECTION] = "u_section",
  [RENDER_U_SECTION_VIEW] = "u_section_view",
  [RENDER_U_SECTION_ON] = "u_section_on",
  [RENDER_U_GRID_COLOUR] = "u_grid_colour",
  [RENDER_U_GRID_PITCH] = "u_grid_pitch",
  [RENDER_U_GRID_SHIFT] = "u_grid_shift",
  [RENDER_U_GRADE_Z] = "u_grade_z",
  [RENDER_U_SCALE] = "u_scale",
  [RENDER_U_TILE] = "u_tile",
  [RENDER_U_WHOLE_HEIGHT] = "u_whole_height",
  [RENDER_U_CENTRE] = "u_centre",
  [RENDER_U_SIDE_A] = "u_side_a",
  [RENDER_U_SIDE_B] = "u_side_b",
  [RENDER_U_RADIUS] = "u_radius",
  [RENDER_U_ID] = "u_id",
  [RENDER_U_VIEWPORT] = "u_viewport",
  [RENDER_U_NEAR] = "u_near",
  [RENDER_U_BIAS] = "u_bias",
  [RENDER_U_PARALLEL] = "u_parallel",
  [RENDER_U_REACH] = "u_reach",
  [RENDER_U_SPACING] = "u_spacing",
  [RENDER_U_HALF_WIDTH] = "u_half_width",
  [RENDER_U_GAP] = "u_gap",
  [RENDER_U_N_DASHES] = "u_n_dashes",
  [RENDER_U_DASHES] = "u_dashes",
  [RENDER_U_PERIOD] = "u_period",
  [RENDER_U_SWELL] = "u_swell",
};

static void
append_source (GString *text, const char *name)
{
  g_autofree char *path = g_strconcat (FOLDER, name, NULL);
  g_autoptr (GBytes) bytes = g_resource_lookup_data (render_shaders_get_resource (), path, 0, NULL);
  g_assert (bytes != NULL);
  gsize length;
  const char *source = g_bytes_get_data (bytes, &length);
  g_string_append_len (text, source, length);
}

static gboolean
compile (RenderProgram *program, GLenum kind, const char *name, gboolean section, GError **error)
{
  g_autoptr (GString) text = g_string_new (
      epoxy_is_desktop_gl () ? "#version 330 core\n"
                             : "#version 300 es\nprecision highp float;\nprecision highp int;\n");
  if (section)
    g_string_append (text, "#define SECTION\n");
  if (kind == GL_FRAGMENT_SHADER)
    {
      append_source (text, "section.glsl");
      append_source (text, "grid-lines.glsl");
    }
  append_source (text, name);

  GLuint shader = glCreateShader (kind);
  const char *source = text->str;
  glShaderSource (shader, 1, &source, NULL);
  glCompileShader (shader);
  GLint compiled;
  glGetShaderiv (shader, GL_COMPILE_STATUS, &compiled);
  if (!compiled)
    {
      char log[2000] = "";
      glGetShaderInfoLog (shader, sizeof log, NULL, log);
      g_set_error (error, RENDER_GL_ERROR, RENDER_GL_ERROR_SHADER, "%s: %s", name, log);
    }
  /* The program keeps it. */
  glAttachShader (program->name, shader);
  glDeleteShader (shader);
  return compiled != 0;
}

static gboolean
compile_file (RenderProgram *program, GLenum kind, const char *name, gboolean section,
              GError **error)
{
  const char *ending = kind == GL_VERTEX_SHADER ? ".vert.glsl" : ".frag.glsl";
  g_autofree char *file = g_strconcat (name, ending, NULL);
  if (compile (program, kind, file, section, error))
    return TRUE;
  render_program_clear (program);
  return FALSE;
}

gboolean
render_program_compile_vertex (RenderProgram *program, const char *name, gboolean section,
                               GError **error)
{
  program->name = glCreateProgram ();
  return compile_file (program, GL_VERTEX_SHADER, name, section, error);
}

gboolean
render_program_compile_fragment (RenderProgram *program, const char *name, gboolean section,
                                 GError **error)
{
  return compile_file (program, GL_FRAGMENT_SHADER, name, section, error);
}

gboolean
render_program_link (RenderProgram *program, GError **error)
{
  glLinkProgram (program->name);
  GLint linked;
  glGetProgramiv (program->name, GL_LINK_STATUS, &linked);
  if (!linked)
    {
      char log[2000] = "";
      glGetProgramInfoLog (program->name, sizeof log, NULL, log);
      g_set_error (error, RENDER_GL_ERROR, RENDER_GL_ERROR_SHADER, "%s", log);
      render_program_clear (program);
      return FALSE;
    }
  for (int i = 0; i < RENDER_N_UNIFORMS; i++)
    program->at[i] = glGetUniformLocation (program->name, uniform_names[i]);
  return TRUE;
}

void
render_program_clear (RenderProgram *program)
{
  if (program->name != 0)
    glDeleteProgram (program->name);
  program->name = 0;
}
