/* rim.h: the convex hull of points of a plane that come one after another. Internal to this
 * folder. */
#pragma once

#include "plane.h"

typedef struct
{
  double off_m;         /* what is no farther outside is as good as inside */
  TrnPlanePoint *point; /* the corners, anticlockwise; owned */
  guint n, room;
} TrnRim;

void trn_rim_clear (TrnRim *rim);
/* Corners and off_m of @from into @rim, which is empty. */
void trn_rim_copy (TrnRim *rim, const TrnRim *from);
/* Whether the point is surely within off_m of the hull. */
gboolean trn_rim_holds (const TrnRim *rim, const TrnPlanePoint *point);
/* Takes the point in, unless the hull holds it: then FALSE. */
gboolean trn_rim_add (TrnRim *rim, const TrnPlanePoint *point);
