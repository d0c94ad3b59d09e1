/* strip-data.h: what the clearance strip draws, gathered from the session; no GTK. */
#pragma once

#include "session.h"
#include "strip-plot.h"

typedef struct
{
  RenderStrip strip; /* points into what is below */
  GArray *lines, *bounds, *moves, *seats;
  GPtrArray *texts;   /* owned strings */
  GPtrArray *bodies;  /* ids of obstacles, one a line; borrowed from the scene */
  double ticks_m[12]; /* TRN_MOST_TICKS */
  char *ticks[12];
} DeskStripData;

/* NULL where there is nothing to draw: no plan, no time, or nothing that stands there. What it
 * borrows stays until the next "site-changed", "profile-changed" or change of lift. */
DeskStripData *desk_strip_data_new (DeskSession *session);
void desk_strip_data_free (DeskStripData *data);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (DeskStripData, desk_strip_data_free)

/* The body of the obstacle looked at: of the finding, else the one selected; NULL: none. */
const char *desk_strip_focus (DeskSession *session);
