/* strip-plot.h: the clearance strip: time across, clearance up, a line for each obstacle; from
 * plain data, by Cairo, on screen and on paper alike.
 *
 * Up it goes by log(1 + 40 d), which is nearly even near 0 and logarithmic above, so that 5 mm and
 * 20 m can both be read. Lines are samples; what is certified is drawn as bands over the moves.
 * Everything is in logical pixels of a strip of some size. */
#pragma once

#include <cairo.h>

#include "camera.h"
#include "draw-list.h"
#include "plates.h"

/* An obstacle. */
typedef struct
{
  const char *name;          /* fit to be shown */
  const char *required_text; /* "to be kept 0.5 m" */
  const double *distances_m; /* the first; the next is @stride further */
  const double *spares_m;    /* as those: over what is to be kept and is taken off; less than 0 is
                                hatched. NULL: distances less what is to be kept */
  guint stride;
  double required_m;
  RenderState state;  /* of its worst finding */
  gboolean matters;   /* drawn with its state and its name; else thin and grey */
  gboolean focus;     /* the one looked at: on top, its name bold */
  gboolean is_judged; /* its state is what was found of it */
} RenderStripLine;

/* What is certified of a line over a move. */
typedef struct
{
  guint line;
  double begin_s, end_s; /* the same: the mark alone, without a band */
  double lower_m, upper_m;
  double time_s; /* where it is closest; a mark stands there. NAN: none */
  RenderState state;
} RenderStripBound;

typedef struct
{
  double begin_s, end_s;
  const char *name; /* "3 tilt" */
  gboolean hold;    /* a hold point: a flag stands at its beginning */
} RenderStripMove;

/* The load rests on that obstacle. */
typedef struct
{
  guint line;
  double begin_s, end_s;
} RenderStripSeat;

/* Nothing is known there of any line. */
typedef struct
{
  double begin_s, end_s;
} RenderStripUnknown;

/* A quantity that is no clearance, in a band of its own below them, with a linear scale. */
typedef struct
{
  const char *title;   /* "Hook height" */
  const double *ticks; /* growing; the first is at the foot, the last at the top */
  const char *const *texts;
  guint n_ticks;    /* ≥ 2; 0: it has no line */
  const char *note; /* why; NULL: it has */
} RenderStripBand;

#define RENDER_STRIP_BANDS 10
/* What the clearances need, and what each band does. */
#define RENDER_STRIP_LEAST_PX 150
#define RENDER_STRIP_BAND_PX 54

/* A height, a radius, an angle or a force over time. */
typedef struct
{
  const char *name;     /* whose it is, fit to be shown */
  const double *values; /* the first; the next is @stride further; NAN where there is none */
  guint stride;
  guint band;
  guint pattern; /* which of the RENDER_GAUGE_PATTERNS ways to be broken */
} RenderStripGauge;

#define RENDER_GAUGE_PATTERNS 2

/* What bounds such lines, dotted; or the greatest that was found of one, dots between dashes. */
typedef struct
{
  guint band;
  double value;
  const char *text; /* fit to be shown */
  gboolean is_found;
} RenderStripLimit;

typedef struct
{
  double duration_s; /* > 0 */
  const double *times_s;
  guint n_times; /* that have distances */
  const RenderStripLine *lines;
  guint n_lines;
  const RenderStripBound *bounds;
  guint n_bounds;
  const RenderStripMove *moves;
  guint n_moves;
  const RenderStripSeat *seats;
  guint n_seats;
  const char *seated_text; /* "seated" */
  const RenderStripUnknown *unknown;
  guint n_unknown;
  const char *unknown_text; /* "Not known" */
  const double *ticks_m;    /* growing, from 0; the last is the top of the strip */
  const char *const *ticks;
  guint n_ticks; /* ≥ 2 */
  const RenderStripBand *bands;
  guint n_bands;                  /* up to RENDER_STRIP_BANDS */
  const RenderStripGauge *gauges; /* band by band */
  guint n_gauges;
  const RenderStripLimit *limits;
  guint n_limits;
  const char *unfinished; /* said while samples are still to come; NULL: they are all there */
  const char *font;       /* family; NULL: the usual one */
  RenderColour accent;    /* of the moment looked at */
  RenderColour paper;     /* what it is drawn on; not opaque: that of the style */
  gboolean dark;
} RenderStrip;

/* ---- geometry ---- */

typedef struct
{
  RenderRect plot; /* of the clearances */
  double duration_s, top_m;
  double band_px; /* the height of a band with its heading */
  double foot;    /* of the last band, else of the plot */
} RenderStripLayout;

/* log(1 + 40 d); below 0 like 0. */
double render_strip_scale (double distance_m);
RenderStripLayout render_strip_layout (const RenderStrip *strip, RenderSize size);
double render_strip_x (const RenderStripLayout *layout, double time_s);
/* Clamped to the strip. */
double render_strip_time (const RenderStripLayout *layout, double x);
double render_strip_y (const RenderStripLayout *layout, double distance_m);
double render_strip_distance (const RenderStripLayout *layout, double y);
/* The distance of a line at a time, between the samples; NAN where it is not worked out. Beside a
 * sample that has none it is that of the other half-way to it, as it is drawn. */
double render_strip_line_at (const RenderStrip *strip, guint line, double time_s);
/* What is taken off it there by tolerances; 0 where that is not known. */
double render_strip_allowance_at (const RenderStrip *strip, guint line, double time_s);
/* The line nearest to a point of the strip, those that matter first; −1 where none is near. */
int
render_strip_hit (const RenderStrip *strip, const RenderStripLayout *layout, double x, double y);

/* The name of a line, or of what is to be kept from it. */
typedef struct
{
  guint line;
  gboolean required;
  double width, height; /* in */
  gboolean is_fixed;    /* in: it stands at rect already, and the others keep off it */
  gboolean placed;      /* out; FALSE: there was no room */
  RenderRect rect;      /* out */
  gboolean has_leader;  /* out: a line from it to the point below on its line */
  double on_x, on_y;    /* out */
} RenderStripLabel;

/* Places labels one after the other, close to what they name; never over each other, the line
 * looked at, or where a line falls short; where it can be, over no other line. A name for which
 * there is no room so close has a leader. Labels are of lines that matter. */
void render_strip_place (const RenderStrip *strip, const RenderStripLayout *layout,
                         RenderStripLabel *labels, guint n_labels);

/* Where the lines of a band are, below its heading. */
RenderRect render_strip_band_rect (const RenderStripLayout *layout, guint band);
/* Where a value is in its band; held at the ends of its scale. */
double render_strip_band_y (const RenderStripLayout *layout, const RenderStrip *strip, guint band,
                            double value);
/* The value of a gauge at a time, between the samples; NAN where it has none. */
double render_strip_gauge_at (const RenderStrip *strip, guint gauge, double time_s);

/* ---- drawing ---- */

/* strip-gauge.c: the bands, and what their lines say at a time, one text a gauge. For
 * render_strip_draw and render_strip_draw_hover. */
void
render_strip_draw_bands (cairo_t *cr, const RenderStrip *strip, const RenderStripLayout *layout);
void render_strip_draw_band_readings (cairo_t *cr, const RenderStrip *strip,
                                      const RenderStripLayout *layout, double time_s,
                                      const char *const *readings);

/* All that does not depend on the moment. */
void render_strip_draw (cairo_t *cr, const RenderStrip *strip, RenderSize size);
/* The moment looked at, over it. */
void
render_strip_draw_moment (cairo_t *cr, const RenderStrip *strip, RenderSize size, double time_s);
/* What is under the pointer: a hair at a time, a dot on a line (−1: none), and @text on a plate; in
 * the bands @readings, one a gauge. */
void render_strip_draw_hover (cairo_t *cr, const RenderStrip *strip, RenderSize size, double time_s,
                              int line, const char *text, const char *const *readings);
