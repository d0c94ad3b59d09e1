/* plates.h: where the labels of a view stand: plain geometry in logical pixels, no drawing.
 *
 * Used by overlay.c; apart from it so that the rules can be tested on many random views. */
#pragma once

#include "camera.h"

typedef struct
{
  double x, y, width, height;
} RenderRect;

typedef struct
{
  double x0, y0, x1, y1;
} RenderSegment;

typedef struct
{
  double x, y;          /* what it speaks of */
  double width, height; /* of the plate */
  gboolean quiet;       /* only close to its point, or not at all */
  gboolean placed;      /* FALSE: there was no room */
  RenderRect rect;      /* where */
} RenderPlate;

typedef struct
{
  GArray *rects;    /* of RenderRect: never covered */
  GArray *segments; /* of RenderSegment: never covered */
  GArray *outline;  /* of RenderSegment: the sides of a convex outline, covered only where there is
                       no other room; may be empty */
} RenderKeepOut;

RenderKeepOut render_keep_out_make (void);
void render_keep_out_clear (RenderKeepOut *keep_out);
void
render_keep_out_add_rect (RenderKeepOut *keep_out, double x, double y, double width, double height);
void
render_keep_out_add_segment (RenderKeepOut *keep_out, double x0, double y0, double x1, double y1);
/* Sets the outline to the convex hull of @n points. */
void render_keep_out_set_hull (RenderKeepOut *keep_out, double (*points)[2], guint n);

/* Places one after the other, each where it covers nothing that is kept out, no plate before it and
 * no point that any of them speaks of, within @size. */
void render_plates_place (RenderPlate *plates, guint n_plates, const RenderKeepOut *keep_out,
                          RenderSize size);

/* The point of the edge of a plate where its leader ends. */
void render_plate_leader_end (const RenderPlate *plate, double *x, double *y);

gboolean render_rects_overlap (const RenderRect *a, const RenderRect *b);
