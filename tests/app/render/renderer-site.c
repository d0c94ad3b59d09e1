/* renderer-site.c: see renderer-site.h. */
#include "renderer-site.h"

#include <string.h>

#include "keep-loaded.h"
#include "test-shapes.h"

TestSite test_site;
const RenderSize size = { WIDTH, HEIGHT };
const TrnVec3 here = { 0, 0, 0 };

/* ---- the site ---- */

/* Ground 20 m square, 0.5 m thick, with a square opening of 6 m: four slabs side by side would show
 * seams, so it is a frame of one piece. */
static TrnMesh *
ground_with_opening (void)
{
  TrnMeshBuilder *builder = trn_mesh_builder_new ();
  const double half[4] = { 10, 10, 3, 3 }, level[4] = { -0.5, 0, 0, -0.5 };
  for (guint corner = 0; corner < 4; corner++)
    for (guint ring = 0; ring < 4; ring++)
      trn_mesh_builder_vertex (builder,
                               trn_vec3_make (corner == 0 || corner == 3 ? -half[ring] : half[ring],
                                              corner < 2 ? -half[ring] : half[ring], level[ring]));
  for (guint corner = 0; corner < 4; corner++)
    for (guint ring = 0; ring < 4; ring++)
      {
        guint next = (corner + 1) % 4, other = (ring + 1) % 4;
        guint a = 4 * corner + ring, b = 4 * next + ring;
        guint c = 4 * next + other, d = 4 * corner + other;
        trn_mesh_builder_triangle (builder, a, b, c);
        trn_mesh_builder_triangle (builder, a, c, d);
      }
  return trn_mesh_builder_finish (builder);
}

static RenderMesh *
display_mesh_take (TrnMesh *mesh)
{
  RenderMesh *display = render_mesh_build (mesh, 0);
  trn_mesh_unref (mesh);
  return display;
}

static void
make_meshes (void)
{
  test_site.load = display_mesh_take (test_drum (48, 1.5, 0, 6));
  test_site.shaft = display_mesh_take (test_tube (48, 2.6, 3, -8, 0));
  test_site.building
      = display_mesh_take (test_box (trn_vec3_make (5, -2, 0), trn_vec3_make (9, 4, 5)));
  test_site.ground = display_mesh_take (ground_with_opening ());
  TrnMeshBuilder *builder = trn_mesh_builder_new ();
  for (int i = 0; i < 4; i++)
    trn_mesh_builder_vertex (builder, trn_vec3_make (i & 1 ? 4 : -4, 0, i & 2 ? 4 : -4));
  trn_mesh_builder_triangle (builder, 0, 1, 3);
  trn_mesh_builder_triangle (builder, 0, 3, 2);
  test_site.sheet = display_mesh_take (trn_mesh_builder_finish (builder));
}

void
test_add_body (RenderDrawList *list, const RenderMesh *mesh, TrnVec3 at, RenderRole role,
               RenderLook look, guint32 id)
{
  RenderBody body = {
    .mesh = mesh, .site_from_mesh = trn_pose_identity (), .role = role, .look = look, .id = id
  };
  body.site_from_mesh.position = at;
  render_draw_list_add_body (list, &body);
}

void
test_add_lines (RenderDrawList *list, TrnVec3 at)
{
  for (int style = RENDER_LINE_SOLID; style <= RENDER_LINE_DOUBLE; style++)
    {
      TrnVec3 points[24];
      for (int i = 0; i < 24; i++)
        points[i]
            = trn_vec3_add (at, trn_vec3_make (-9 + 0.4 * i, -6, 4 + 0.8 * style + sin (0.25 * i)));
      render_draw_list_add_line (list, points, 24, style, 1.5, RENDER_STATE_NONE, FALSE);
    }
  for (int state = RENDER_STATE_TOUCHING; state <= RENDER_STATE_NOT_CHECKED; state++)
    {
      TrnVec3 points[2] = { trn_vec3_add (at, trn_vec3_make (0, 0, 1 + state)),
                            trn_vec3_add (at, trn_vec3_make (5, 1, 0.5 * state)) };
      render_draw_list_add_line (list, points, 2, RENDER_LINE_SOLID, 2, state, state & 1);
    }
}

/* The site with its middle at @at. */
RenderDrawList *
test_site_list (TrnVec3 at)
{
  RenderDrawList *list = render_draw_list_new ();
  test_add_body (list, test_site.ground, at, RENDER_ROLE_GROUND, RENDER_LOOK_SOLID, ID_GROUND);
  test_add_body (list, test_site.shaft, at, RENDER_ROLE_STRUCTURE, RENDER_LOOK_SOLID, ID_SHAFT);
  test_add_body (list, test_site.building, at, RENDER_ROLE_STRUCTURE, RENDER_LOOK_SOLID,
                 ID_BUILDING);
  test_add_body (list, test_site.load, trn_vec3_add (at, trn_vec3_make (0, 0, 1)), RENDER_ROLE_LOAD,
                 RENDER_LOOK_SOLID, ID_LOAD);
  test_add_body (list, test_site.load, trn_vec3_add (at, trn_vec3_make (-7, 5, 0)),
                 RENDER_ROLE_LOAD, RENDER_LOOK_GHOST, 0);
  list->grid = TRUE;
  list->grid_pitch_m = 1;
  list->human = TRUE;
  list->human_at = trn_vec3_add (at, trn_vec3_make (-5, -4, 0));
  return list;
}

RenderCamera
test_camera (const RenderDrawList *list)
{
  return render_camera_make (&list->extent, size);
}

/* ---- pictures ---- */

cairo_surface_t *
test_draw (const RenderDrawList *list, const RenderCamera *camera, guint samples)
{
  RenderTarget target = { .size = size, .scale = 1, .samples = samples };
  g_assert_true (render_offscreen_bind (test_site.offscreen, WIDTH, HEIGHT));
  render_renderer_draw (test_site.renderer, list, camera, &target);
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, WIDTH, HEIGHT);
  render_offscreen_read (test_site.offscreen, surface, 0, 0);
  return surface;
}

guint32
test_pixel (cairo_surface_t *surface, int x, int y)
{
  const guint8 *data = cairo_image_surface_get_data (surface);
  guint32 value;
  memcpy (&value, data + y * cairo_image_surface_get_stride (surface) + 4 * x, sizeof value);
  return value & 0xffffff;
}

int
test_channel_off (guint32 a, guint32 b)
{
  int most = 0;
  for (int shift = 0; shift < 24; shift += 8)
    most = MAX (most, ABS ((int)(a >> shift & 255) - (int)(b >> shift & 255)));
  return most;
}

/* Pixels that differ by more than @most in a channel; all where the sizes differ. */
guint
test_count_different (cairo_surface_t *a, cairo_surface_t *b, int most)
{
  int width = cairo_image_surface_get_width (a), height = cairo_image_surface_get_height (a);
  if (cairo_image_surface_get_width (b) != width || cairo_image_surface_get_height (b) != height)
    return G_MAXUINT;
  guint n = 0;
  for (int y = 0; y < height; y++)
    for (int x = 0; x < width; x++)
      n += test_channel_off (test_pixel (a, x, y), test_pixel (b, x, y)) > most;
  return n;
}

int
test_site_run (void)
{
  make_meshes ();
  g_autoptr (GError) error = NULL;
  if (!g_test_subprocess ())
    {
      test_site.offscreen = render_offscreen_new (RENDER_OFFSCREEN_ANY, &error);
      g_assert_no_error (error);
      test_site.renderer = render_renderer_new (&error);
      g_assert_no_error (error);
    }
  int status = g_test_run ();
  render_renderer_free (test_site.renderer);
  render_offscreen_free (test_site.offscreen);
  render_mesh_unref (test_site.load);
  render_mesh_unref (test_site.shaft);
  render_mesh_unref (test_site.building);
  render_mesh_unref (test_site.ground);
  render_mesh_unref (test_site.sheet);
  return status;
}
