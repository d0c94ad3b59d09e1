/* ground-share.h: which part of weights each support of a gear bears, enclosed. */
#pragma once

#include "ground.h"
#include "outward.h"

/* Along and across, in the frame of the gear. */
typedef struct
{
  TrnInterval kg, x, y;
} TrnGroundWeight;

typedef struct
{
  TrnVec3 springs[TRN_GROUND_SUPPORTS_MAX]; /* trn_ground_even_shares() */
  gboolean is_rectangle;                    /* of four, trn_ground_rectangle() */
  TrnVec3 ways[2];
  double signs[4][2];
} TrnGroundShare;

/* FALSE where the supports hold nothing beside the line that they are in. */
gboolean
trn_ground_share_make (TrnGroundShare *share, const TrnLevelPoint *supports, guint n_supports);

/* What a support bears, kg: the most, or @least, by which it lifts off. No value where that is not
 * known. */
TrnInterval trn_ground_share_kg (const TrnGroundShare *share, const TrnGroundWeight *weights,
                                 guint n_weights, guint support, gboolean least);
