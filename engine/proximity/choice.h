/* choice.h: a few of many points, near whose hull all of them lie: those that a node of the tree
 * keeps (bvh.c). */
#pragma once

#include "hull.h"

/* The most candidates, and points chosen among them. */
#define TRN_CHOICE_MOST_CANDIDATES 1024
#define TRN_CHOICE_MOST_POINTS 128

#define TRN_CHOICE_NO_VERTEX G_MAXUINT32

/* Candidates, and those chosen so far. */
typedef struct
{
  guint n;
  guint32 vertex[TRN_CHOICE_MOST_CANDIDATES];
  TrnVec3 place[TRN_CHOICE_MOST_CANDIDATES]; /* from the centre of the node */
  gboolean taken[TRN_CHOICE_MOST_CANDIDATES];
  guint n_slots;                                 /* a power of two */
  guint16 slots[2 * TRN_CHOICE_MOST_CANDIDATES]; /* by place: the number of a candidate, from 1; 0:
                                                    none */
  guint n_chosen;
  guint32
      chosen[TRN_CHOICE_MOST_POINTS]; /* of the last block, TRN_CHOICE_NO_VERTEX beyond n_chosen */
  TrnPoints8 blocks[TRN_CHOICE_MOST_POINTS / 8];
} TrnChoice;

/* Makes the choice ready for at most @most candidates. */
void trn_choice_start (TrnChoice *choice, guint most);

/* Adds a candidate, unless there is one at the same place. */
void trn_choice_add (TrnChoice *choice, guint32 vertex, TrnVec3 place);

/* Chooses among the candidates, none of which is farther than @radius_m from the centre. Each is a
 * chosen one, or within the distance that is returned of the hull of @choice->blocks. */
double trn_choice_make (TrnChoice *choice, double radius_m);
