/* renderer-site.h: what the tests of the renderer share: a context without a display, a small site,
 * and pictures of it that can be compared. */
#pragma once

#include "offscreen.h"
#include "renderer-parts.h"

#define WIDTH 320
#define HEIGHT 200

enum
{
  ID_LOAD = 1,
  ID_SHAFT,
  ID_BUILDING,
  ID_GROUND,
};

typedef struct
{
  RenderOffscreen *offscreen; /* current */
  RenderRenderer *renderer;
  RenderMesh *load, *shaft, *building, *ground, *sheet;
} TestSite;

/* Made by test_site_run; a test may change the context for a while. */
extern TestSite test_site;
extern const RenderSize size; /* WIDTH by HEIGHT */
extern const TrnVec3 here;    /* 0, 0, 0 */

/* Runs the tests that were added, with meshes and context made before and freed after. A test that
 * runs as a process of its own has no context. */
int test_site_run (void);

void test_add_body (RenderDrawList *list, const RenderMesh *mesh, TrnVec3 at, RenderRole role,
                    RenderLook look, guint32 id);
/* Lines of every style and of every state. */
void test_add_lines (RenderDrawList *list, TrnVec3 at);
/* The site with its middle at @at: ground, shaft, building, load, a ghost, a grid of 1 m and the
 * figure; without lines. */
RenderDrawList *test_site_list (TrnVec3 at);
RenderCamera test_camera (const RenderDrawList *list);

/* A picture of WIDTH by HEIGHT pixels, owned by the caller. */
cairo_surface_t *test_draw (const RenderDrawList *list, const RenderCamera *camera, guint samples);
/* 0xRRGGBB */
guint32 test_pixel (cairo_surface_t *surface, int x, int y);
/* The greatest difference in a channel. */
int test_channel_off (guint32 a, guint32 b);
/* Pixels that differ by more than @most in a channel; G_MAXUINT where the sizes differ. */
guint test_count_different (cairo_surface_t *a, cairo_surface_t *b, int most);
