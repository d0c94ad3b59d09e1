/* offscreen.c: see offscreen.h. Mesa's surfaceless platform draws on a machine without a graphics
 * card and without a display, and gives the same pixels as a window does.
 *
 * EGL's current context and chosen API are of each thread; its display is one for the process and
 * may be shared by threads (EGL 1.5, 3.7.3). libepoxy looks an entry point up when it is first
 * called and finds the same one on each thread. */
#include "offscreen.h"

#include <epoxy/egl.h>

#include "gl-frame.h"
#include "picture.h"

struct _RenderOffscreen
{
  EGLDisplay display;
  EGLContext context;
  EGLDisplay earlier_display;
  EGLContext earlier_context;
  EGLSurface earlier_draw, earlier_read;
  RenderGlFrame frame;
};

static gboolean
fail (GError **error, const char *what)
{
  g_set_error (error, RENDER_PICTURE_ERROR, RENDER_PICTURE_ERROR_NO_OPENGL, "%s", what);
  return FALSE;
}

static EGLContext
make_context (EGLDisplay display, gboolean gles)
{
  static const EGLint core[] = { EGL_CONTEXT_MAJOR_VERSION,
                                 3,
                                 EGL_CONTEXT_MINOR_VERSION,
                                 3,
                                 EGL_CONTEXT_OPENGL_PROFILE_MASK,
                                 EGL_CONTEXT_OPENGL_CORE_PROFILE_BIT,
                                 EGL_NONE };
  static const EGLint es[]
      = { EGL_CONTEXT_MAJOR_VERSION, 3, EGL_CONTEXT_MINOR_VERSION, 0, EGL_NONE };
  if (!eglBindAPI (gles ? EGL_OPENGL_ES_API : EGL_OPENGL_API))
    return EGL_NO_CONTEXT;
  return eglCreateContext (display, EGL_NO_CONFIG_KHR, EGL_NO_CONTEXT, gles ? es : core);
}

static gboolean
open_context (RenderOffscreen *offscreen, RenderOffscreenKind kind, GError **error)
{
  if (!epoxy_has_egl ()
      || !epoxy_has_egl_extension (EGL_NO_DISPLAY, "EGL_MESA_platform_surfaceless"))
    return fail (error, "no surfaceless EGL");
  offscreen->display
      = eglGetPlatformDisplayEXT (EGL_PLATFORM_SURFACELESS_MESA, EGL_DEFAULT_DISPLAY, NULL);
  if (offscreen->display == EGL_NO_DISPLAY || !eglInitialize (offscreen->display, NULL, NULL))
    return fail (error, "EGL does not start");
  if (kind == RENDER_OFFSCREEN_ANY)
    offscreen->context = make_context (offscreen->display, FALSE);
  if (offscreen->context == EGL_NO_CONTEXT)
    offscreen->context = make_context (offscreen->display, TRUE);
  if (offscreen->context == EGL_NO_CONTEXT
      || !eglMakeCurrent (offscreen->display, EGL_NO_SURFACE, EGL_NO_SURFACE, offscreen->context))
    return fail (error, "EGL makes no context");
  return TRUE;
}

RenderOffscreen *
render_offscreen_new (RenderOffscreenKind kind, GError **error)
{
  RenderOffscreen *offscreen = g_new0 (RenderOffscreen, 1);
  if (epoxy_has_egl ())
    {
      offscreen->earlier_display = eglGetCurrentDisplay ();
      offscreen->earlier_context = eglGetCurrentContext ();
      offscreen->earlier_draw = eglGetCurrentSurface (EGL_DRAW);
      offscreen->earlier_read = eglGetCurrentSurface (EGL_READ);
    }
  if (!open_context (offscreen, kind, error))
    g_clear_pointer (&offscreen, render_offscreen_free);
  return offscreen;
}

/* The display is not terminated: it is one for the whole process, and others may use it. */
void
render_offscreen_free (RenderOffscreen *offscreen)
{
  if (offscreen == NULL)
    return;
  if (offscreen->context != EGL_NO_CONTEXT)
    {
      render_gl_frame_clear (&offscreen->frame);
      eglMakeCurrent (offscreen->display, EGL_NO_SURFACE, EGL_NO_SURFACE, EGL_NO_CONTEXT);
      eglDestroyContext (offscreen->display, offscreen->context);
    }
  if (offscreen->earlier_context != EGL_NO_CONTEXT)
    eglMakeCurrent (offscreen->earlier_display, offscreen->earlier_draw, offscreen->earlier_read,
                    offscreen->earlier_context);
  else if (offscreen->display != EGL_NO_DISPLAY)
    eglReleaseThread (); /* a thread of a pool lives on */
  g_free (offscreen);
}

int
render_offscreen_most_pixels (RenderOffscreen *offscreen)
{
  GLint buffer, viewport[2];
  glGetIntegerv (GL_MAX_RENDERBUFFER_SIZE, &buffer);
  glGetIntegerv (GL_MAX_VIEWPORT_DIMS, viewport);
  return MIN (buffer, MIN (viewport[0], viewport[1]));
}

gboolean
render_offscreen_bind (RenderOffscreen *offscreen, int width, int height)
{
  render_gl_frame_bind (&offscreen->frame, width, height, 0, GL_RGBA8);
  return glCheckFramebufferStatus (GL_FRAMEBUFFER) == GL_FRAMEBUFFER_COMPLETE;
}

void
render_offscreen_read (RenderOffscreen *offscreen, cairo_surface_t *surface, int x, int y)
{
  int width = offscreen->frame.width, height = offscreen->frame.height;
  guint8 *pixels = g_malloc (4 * (gsize)width * (gsize)height);
  glBindFramebuffer (GL_FRAMEBUFFER, offscreen->frame.framebuffer);
  glPixelStorei (GL_PACK_ALIGNMENT, 4);
  glReadPixels (0, 0, width, height, GL_RGBA, GL_UNSIGNED_BYTE, pixels);
  cairo_surface_flush (surface);
  guint8 *data = cairo_image_surface_get_data (surface);
  gsize stride = (gsize)cairo_image_surface_get_stride (surface);
  int most_x = MIN (width, cairo_image_surface_get_width (surface) - x);
  int most_y = MIN (height, cairo_image_surface_get_height (surface) - y);
  for (int row = 0; row < most_y; row++)
    {
      /* OpenGL's first row is the lowest. */
      const guint8 *from = pixels + 4 * (gsize)width * (gsize)(height - 1 - row);
      guint32 *to = (guint32 *)(gpointer)(data + stride * (gsize)(y + row)) + x;
      for (int i = 0; i < most_x; i++, from += 4)
        to[i] = 0xff000000u | (guint32)from[0] << 16 | (guint32)from[1] << 8 | from[2];
    }
  cairo_surface_mark_dirty (surface);
  g_free (pixels);
}
