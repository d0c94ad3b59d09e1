/* silhouette-patch.h: directions next to each other, as a range of two angles, and bounds on what a
 * body shows along them. Internal to this folder. */
#pragma once

#include "interval.h"
#include "silhouette.h"
#include "silhouette-convex.h"

enum
{
  TRN_CONVEX_HULL,
  TRN_CONVEX_SLABS,
  TRN_CONVEX_SUM,
  TRN_CONVEX_N,
};

typedef struct
{
  double m2[TRN_CONVEX_N];
  double shared_m2; /* linear: to be taken off slabs, with either sign */
} TrnConvex;

typedef struct
{
  const TrnSilhouetteBand *band;
  TrnInterval whole, rise; /* λ and β */
  TrnInterval turn;        /* that the band has of the whole */
  TrnConvex axis, square;  /* F(a) and H */
  TrnConvex corners[4];    /* of the whole */
  double bound_m2;
} TrnPatch;

/* A direction with what is across and up. */
TrnSight trn_patch_sight_at (const TrnSilhouetteBand *band, double turn, double rise);
/* All directions of the patch, from its middle. */
TrnSight trn_patch_sight (const TrnPatch *patch);
/* The direction in the middle of the patch, or one of its band next to it. */
TrnSight trn_patch_middle (const TrnPatch *patch);
/* The turns that the band has at those rises. */
TrnInterval trn_patch_turns (const TrnSilhouetteBand *band, TrnInterval rise);

/* Slabs less what they share, with the sign that this has in most of the patch. */
double trn_patch_corner_m2 (const TrnPatch *patch, guint corner, guint which);
/* The least of them all but one; TRN_CONVEX_N: of all. */
double trn_patch_least_m2 (const TrnPatch *patch, guint corner, guint but);
/* About what convex functions come to in the middle. */
double trn_patch_middle_m2 (const TrnPatch *patch);
/* Makes bound_m2 less where convex functions tell that. */
void trn_patch_bound_convex (TrnPatch *patch);

/* The axis of a band without a turn is any: square to that of the slabs. */
TrnSilhouetteBand trn_patch_band (const TrnSilhouetteBand *band, TrnVec3 axis);
/* All of a band, which stays where it is, without corners. */
void trn_patches_add_first (const TrnSilhouetteBand *band, TrnVec3 axis, GArray *patches);
