/* limb-time.h: where the corners of a limb are over spans of time, in the frame of what it is held
 * against, each span worked out once.
 *
 * Against a mesh that is the mesh's frame, so that far site coordinates cost no digits. Against
 * another limb the corners are the differences a − b of the corners of both: their hull is as far
 * from the origin as the two hulls are from each other, at every moment. */
#pragma once

#include "limb-sweep.h"

/* The most corners: those of two limbs against each other. */
#define TRN_LIMB_MOST_PLACES (TRN_LIMB_CORNERS * TRN_LIMB_CORNERS)

/* A corner at one moment: within off_m of at. */
typedef struct
{
  TrnVec3 at;
  double off_m;
} TrnLimbPlace;

/* A corner over a span of time. */
typedef struct
{
  TrnBox where; /* it is in there at every moment; finite */
  TrnBox bend;  /* and its second derivative by s in there; a side may be infinite, or no number */
  TrnBox pace;  /* the first; likewise */
} TrnLimbPath;

typedef struct
{
  double s0, s1;
  const TrnLimbPlace *start, *middle, *end;
  const TrnLimbPath *paths;
  guint32 child; /* the first of its two halves; 0: not made yet */
} TrnLimbSpan;

typedef struct
{
  const TrnLimbPair *pair;
  guint n_corners;
  double radius_m;
  GArray *spans;     /* of TrnLimbSpan; the first n_roots cover all that has a place */
  GPtrArray *memory; /* of what they point to */
  guint n_roots, most_spans;
  gboolean missing; /* some moment has no place, or none that could be told */
} TrnLimbTimes;

/* Divides @span until the corners have an enclosure over each part, or have no place there. */
void trn_limb_times_init (TrnLimbTimes *times, const TrnLimbPair *pair, TrnInterval span);
void trn_limb_times_clear (TrnLimbTimes *times);

/* The corners at one moment; FALSE where they have no place. */
gboolean
trn_limb_places (const TrnLimbPair *pair, double s, TrnLimbPlace places[TRN_LIMB_MOST_PLACES]);

/* The corners of one limb on the site; FALSE where they have no place. */
gboolean
trn_limb_site_places (const TrnLimb *limb, double s, TrnLimbPlace places[TRN_LIMB_CORNERS]);

static inline const TrnLimbSpan *
trn_limb_span (const TrnLimbTimes *times, guint32 index)
{
  return &g_array_index (times->spans, TrnLimbSpan, index);
}

/* The first of the two halves of a span, made when first asked for; 0 where that cannot be: the
 * middle of a half has no place, and then missing is set, or there are too many spans. */
guint32 trn_limb_span_split (TrnLimbTimes *times, guint32 index);
