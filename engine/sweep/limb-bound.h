/* limb-bound.h: proven lower bounds of the distance of a limb over a span of time from an item of a
 * mesh's tree (item.h), or from the origin, which stands for another limb (limb-time.h). */
#pragma once

#include "item.h"
#include "limb-time.h"

/* An item, for another limb always 0, over a span of time. */
typedef struct
{
  guint32 item, span;
  TrnVec3 n; /* the direction that served best so far, about a unit vector */
  double bound_m;
} TrnLimbPart;

/* The corners at one moment or two as a set of points for hull.h. */
typedef struct
{
  guint32 span; /* G_MAXUINT32: none */
  TrnVec3 centre;
  TrnHull hull;
  double off_m;
  TrnPoints8 blocks[2 * TRN_LIMB_MOST_PLACES / 8];
} TrnLimbCloud;

/* What all bounds have in common. */
typedef struct
{
  const TrnBvh *bvh; /* NULL: another limb */
  const TrnLimbTimes *times;
  double rounding_m;
  gboolean still;                        /* one moment stands for all */
  TrnLimbCloud ends, start, middle, end; /* of the spans asked for last */
} TrnLimbBounder;

/* Sets up all but the times, whose spans are known. */
void trn_limb_bounder_init (TrnLimbBounder *bounder, const TrnBvh *bvh, const TrnLimbTimes *times);

/* Whether a part is of one triangle, or of another limb. */
static inline gboolean
trn_limb_part_is_one (const TrnLimbBounder *bounder, const TrnLimbPart *part)
{
  return bounder->bvh == NULL || (part->item & TRN_ITEM_TRIANGLE) != 0;
}

/* Sets bound and direction of @part; looks for one that reaches @enough_m. */
void trn_limb_bound (TrnLimbBounder *bounder, TrnLimbPart *part, double enough_m);

/* The bound along its direction alone. */
double trn_limb_bound_along (const TrnLimbBounder *bounder, const TrnLimbPart *part);

/* The same at the middle of the span alone. */
void trn_limb_bound_middle (TrnLimbBounder *bounder, TrnLimbPart *part, double enough_m);

/* At one moment, for many items: where the corners are, then roughly the bound of one. */
void trn_limb_bound_prepare (TrnLimbBounder *bounder, const TrnLimbPlace *places);
void
trn_limb_bound_roughly (TrnLimbBounder *bounder, TrnLimbPart *part, const TrnLimbPlace *places);

/* No corner goes farther over the span. */
double trn_limb_goes (const TrnLimbBounder *bounder, guint32 span);
