/* box-share.h: the tail's share of a load on two hooks over a span of a move, enclosed for all
 * centres of gravity in the box at once, as drawn or with the hooks out of level. */
#pragma once

#include "motion-jet.h"
#include "span-memo.h"

/* One way that the load may be turned: as share-jet.h has it. */
typedef struct
{
  TrnInterval tangent; /* of the turn, which raises the tail above 0; no value: any turn */
  double aside_m[2];   /* how far main and tail line then pass from their points */
} TrnShareForm;

#define TRN_SHARE_FORMS_MAX 16

/* How what holds the load at one of its points takes part in its turns. */
typedef struct
{
  double above_m;                    /* it may turn about a place up to that far above; 0: none */
  double spread_m;                   /* of the legs, in the plane of turning, level */
  double spread_up_m, spread_down_m; /* and how far above and below that point theirs are */
} TrnSharePivot;

typedef struct
{
  const TrnMotion *motion; /* borrowed */
  gboolean tilts;          /* FALSE: the share is the same at each moment */
  TrnMotionArm arms[5];    /* from the main point: to the tail point, to the middle of the box, and
                              of length 1 along the axes of the load */
  double half_m[3];        /* of the box */
  double least;            /* that the tail may have; 0 until it is set */
  TrnShareForm forms[TRN_SHARE_FORMS_MAX];
  guint n_forms;
} TrnBoxShare;

/* @turn_rad: either way; NAN: as drawn. From a right angle on, anything. @pivots: of main and
 * tail. */
TrnBoxShare trn_box_share_make (const TrnMotion *motion, TrnVec3 main, TrnVec3 tail, TrnVec3 cog,
                                TrnVec3 cog_box, double turn_rad, const TrnSharePivot pivots[2]);

/* Within @share->least and 1: what would have to push carries nothing, and where one line may be
 * plumb over the other each may carry all. @memo keeps it as @what. */
TrnInterval
trn_box_share_tail (const TrnBoxShare *share, TrnInterval s, TrnSpanMemo *memo, guint what);
