/* shown.h: the areas that the load shows, each worked out once in a lift, and not again where the
 * caller's cache has it from an earlier check. Used by all threads. */
#pragma once

#include "cache.h"
#include "outline.h"
#include "silhouette.h"

typedef struct _TrnShown TrnShown;

/* @cache may be NULL. */
TrnShown *trn_shown_new (TrnCache *cache);
void trn_shown_free (TrnShown *shown);

/* As trn_outline_make. */
TrnOutline trn_shown_outline (TrnShown *shown, const TrnMesh *mesh, TrnVec3 up);
/* As trn_silhouette_worst. */
TrnSilhouette
trn_shown_worst (TrnShown *shown, const TrnMesh *mesh, gboolean is_closed, double slack_m,
                 const TrnSilhouetteBand *bands, guint n_bands, guint jobs);
