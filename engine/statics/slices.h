/* slices.h: the area that a body shows along every level direction, worked out at once. */
#pragma once

#include "silhouette.h"

typedef struct _TrnSlices TrnSlices;

/* Of @mesh turned by @turn, each of its points up to @slack_m from where that puts it. */
TrnSlices *trn_slices_build (const TrnMesh *mesh, const TrnRotation *turn, double slack_m);
void trn_slices_free (TrnSlices *slices);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TrnSlices, trn_slices_free)

/* No heading within TRN_SLICES_SECTOR's @from and @to, parts of one sector from 0 to 1, shows more:
 * proven. The heading of a part t is π (sector + t)/TRN_SLICES_SECTORS − π/2. */
#define TRN_SLICES_SECTORS 32
double trn_slices_area_m2 (const TrnSlices *slices, guint sector, double from, double to);
