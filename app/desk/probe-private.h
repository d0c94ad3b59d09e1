/* probe-private.h: what the files of the probe share. Not for others. */
#pragma once

#include "probe.h"

/* How far behind the eye of a parallel view one still looks. */
#define DESK_PROBE_BACK_M 2e3

/* Moves @hit, which is on a face or a cut face, to a corner or an edge near the screen point. */
void desk_probe_snap (const DeskProbe *probe, const RenderCamera *camera, RenderSize size, double x,
                      double y, double snap_px, DeskHit *hit);
