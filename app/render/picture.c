/* picture.c: stills: tiles drawn by the renderer, put together, labels and marks over the whole.
 *
 * A tile is no larger than MOST_TILE, so that multisampling needs little memory however large the
 * picture is, and that stopping is soon heeded. Tiles begin at even pixels, since a driver works
 * out the slopes of the grid by blocks of two by two. */
#include "picture.h"

#include "offscreen.h"
#include "overlay.h"
#include "renderer.h"

#define MOST_TILE 1024
#define SAMPLES 4
/* What Cairo can hold. */
#define MOST_EDGE 32767

G_DEFINE_QUARK (render - picture - error - quark, render_picture_error)

static gboolean
tell (const RenderPictureOptions *options, double done, GError **error)
{
  if (options->progress == NULL || options->progress (done, options->progress_data))
    return TRUE;
  g_set_error_literal (error, RENDER_PICTURE_ERROR, RENDER_PICTURE_ERROR_STOPPED, "stopped");
  return FALSE;
}

static gboolean
draw_tiles (RenderOffscreen *offscreen, RenderRenderer *renderer, const RenderDrawList *list,
            const RenderCamera *camera, const RenderPictureOptions *options,
            cairo_surface_t *surface, GError **error)
{
  int most = MIN (MOST_TILE, render_offscreen_most_pixels (offscreen)) & ~1;
  double scale = options->scale > 0 ? options->scale : 1;
  int n_across = (options->width - 1) / most + 1, n_up = (options->height - 1) / most + 1;
  for (int y = 0; y < options->height; y += most)
    for (int x = 0; x < options->width; x += most)
      {
        int width = MIN (most, options->width - x), height = MIN (most, options->height - y);
        RenderTarget target = { .size = { width / scale, height / scale },
                                .scale = scale,
                                .samples = SAMPLES,
                                .tile_x = x,
                                .tile_y = y,
                                .whole_width = options->width,
                                .whole_height = options->height };
        if (!tell (options, (y / most * n_across + x / most) / (double)(n_across * n_up), error))
          return FALSE;
        if (!render_offscreen_bind (offscreen, width, height))
          {
            g_set_error_literal (error, RENDER_PICTURE_ERROR, RENDER_PICTURE_ERROR_FAILED,
                                 "no framebuffer of that size");
            return FALSE;
          }
        render_renderer_draw (renderer, list, camera, &target);
        render_offscreen_read (offscreen, surface, x, options->height - y - height);
      }
  return tell (options, 1, error);
}

static void
draw_overlay (cairo_surface_t *surface, const RenderDrawList *list, const RenderCamera *camera,
              const RenderPictureOptions *options)
{
  double scale = options->scale > 0 ? options->scale : 1;
  cairo_t *cr = cairo_create (surface);
  cairo_scale (cr, scale, scale);
  render_overlay_draw (cr, list, camera,
                       (RenderSize){ options->width / scale, options->height / scale }, 0);
  cairo_destroy (cr);
}

cairo_surface_t *
render_picture (const RenderDrawList *list, const RenderCamera *camera,
                const RenderPictureOptions *options, GError **error)
{
  if (options->width < 1 || options->height < 1 || options->width > MOST_EDGE
      || options->height > MOST_EDGE)
    {
      g_set_error (error, RENDER_PICTURE_ERROR, RENDER_PICTURE_ERROR_FAILED,
                   "%d × %d pixels are not between 1 and %d", options->width, options->height,
                   MOST_EDGE);
      return NULL;
    }
  cairo_surface_t *surface
      = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, options->width, options->height);
  if (cairo_surface_status (surface) != CAIRO_STATUS_SUCCESS)
    {
      g_set_error (error, RENDER_PICTURE_ERROR, RENDER_PICTURE_ERROR_FAILED, "%s",
                   cairo_status_to_string (cairo_surface_status (surface)));
      cairo_surface_destroy (surface);
      return NULL;
    }
  RenderOffscreen *offscreen = render_offscreen_new (RENDER_OFFSCREEN_ANY, error);
  RenderRenderer *renderer = NULL;
  gboolean drawn = FALSE;
  g_autoptr (GError) fault = NULL;
  if (offscreen != NULL)
    renderer = render_renderer_new (&fault);
  if (renderer != NULL)
    drawn = draw_tiles (offscreen, renderer, list, camera, options, surface, error);
  else if (fault != NULL)
    g_set_error_literal (error, RENDER_PICTURE_ERROR, RENDER_PICTURE_ERROR_FAILED, fault->message);
  render_renderer_free (renderer);
  render_offscreen_free (offscreen);
  if (!drawn)
    {
      cairo_surface_destroy (surface);
      return NULL;
    }
  if (!options->clean)
    draw_overlay (surface, list, camera, options);
  return surface;
}
