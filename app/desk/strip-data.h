/* strip-data.h: what the clearance strip draws, gathered from the session; no GTK. */
#pragma once

#include "session.h"
#include "strip-plot.h"

typedef struct
{
  RenderStrip strip; /* points into what is below */
  GArray *lines, *bounds, *moves, *seats, *unknown, *gauges, *limits;
  GPtrArray *texts;   /* owned strings */
  GArray *pairs;      /* of guint: which pair of the profile a line is of */
  double ticks_m[12]; /* TRN_MOST_TICKS */
  char *ticks[12];
  RenderStripBand bands[RENDER_STRIP_BANDS];
  double band_ticks[RENDER_STRIP_BANDS][TRN_MOST_GAUGE_TICKS];
  char *band_texts[RENDER_STRIP_BANDS][TRN_MOST_GAUGE_TICKS];
  guint n_bands;
  GArray *shown; /* of DeskGauge, one a gauge */
} DeskStripData;

/* NULL where there is nothing to draw: no plan, no time, or nothing that stands there. What it
 * borrows stays until the next "site-changed", "profile-changed" or change of lift. */
DeskStripData *desk_strip_data_new (DeskSession *session);
void desk_strip_data_free (DeskStripData *data);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (DeskStripData, desk_strip_data_free)

/* How many bands there may be below the clearances: one a quantity that is wanted and that the lift
 * has. */
guint desk_strip_count_bands (DeskSession *session);

/* The pair looked at: of the finding, else the load and what is selected; −1: none. */
int desk_strip_focus (DeskSession *session);
