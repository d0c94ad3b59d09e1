/* underfoot.h: what the plan's structures have below a level rectangle that gear stands on. */
#pragma once

#include "ground.h"
#include "lift-check.h"
#include "tolerances.h"

typedef struct
{
  double carried;           /* no less than this share of it is carried; 1: all */
  double along_m, across_m; /* the box of what is not, along the axes of the gear; else 0 */
  double gap_m; /* how far the nearest surface is below what is not carried, above where negative;
                   NAN: there is none */
  gboolean is_in_hole; /* nothing carries any of it, nor is below, and what is as high is all round
                          it */
  gboolean is_over_seam;  /* all of it is carried, but by structures that may each be off, so that
                             there may be a gap between them */
  double grown_m;         /* what it was made larger by on each side, for survey and mesh files, and
                             for the facets of round solids */
  double top_m, bottom_m; /* heights of the highest and the lowest of what carries it, over the
                             base; NAN: nothing carries it */
  const char *on; /* id of the structure that carries most of it, or is below, above or all round;
                     borrowed; NULL: none */
} TrnUnderfoot;

/* Of the rectangle from @lo to @hi in the frame of a gear at @site_from_gear, on its base. What is
 * lower than @floor_m over the base carries nothing; −INFINITY: all that may be as high as the base
 * does. */
TrnUnderfoot trn_underfoot_find (const TrnLiftCheck *check, const TrnPose *site_from_gear,
                                 TrnLevelPoint lo, TrnLevelPoint hi, double floor_m);

/* As high as each other: as what is all within the play of packing of one base. */
#define TRN_UNDERFOOT_LEVEL_M (2 * (TRN_SEAT_FIT_M + TRN_UNDERFOOT_SEAM_M))
/* What a mesh file may be off by at most, but for polygons that are not flat: a pad goes over such
 * a gap between two structures. Common practice, no source. */
#define TRN_UNDERFOOT_SEAM_M 1e-4
