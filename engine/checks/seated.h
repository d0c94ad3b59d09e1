/* seated.h: how long a load counts as seated on one body of its seat, and whether it touched that
 * body other than in one unbroken span that begins, or ends, with the lift, and within the fit. */
#pragma once

#include "lift-check.h"

/* A contact that a seat does not allow. */
typedef struct
{
  guint move;
  TrnInterval s;
} TrnSeatContact;

typedef struct
{
  gboolean at_start, at_end; /* this body is a seat of the lift's start, of its end */
  gboolean left, reached;    /* it is left, it is reached, at all */
  guint left_move, reached_move;
  double left_s, reached_s;
  TrnInterval all_s; /* when the one span begins and the other ends; −∞, ∞: with the lift */
  gboolean known;    /* FALSE: cut short, contacts may be missing */
  GArray *contacts;  /* of TrnSeatContact, in order; NULL: none; owned */
} TrnSeated;

/* Works it out for one obstacle; all FALSE for one that is no seat. */
TrnSeated trn_seated_find (const TrnLiftCheck *check, guint obstacle);
void trn_seated_clear (TrnSeated *seated);

/* The part of a move in which the full requirement holds. FALSE when there is none. */
gboolean trn_seated_free_part (const TrnSeated *seated, guint move, TrnInterval *s);
/* The part of a move in which the load counts as seated; where there is one at both ends of the
 * move, the first. FALSE when there is none. */
gboolean trn_seated_part (const TrnSeated *seated, guint move, TrnInterval *s);
/* The whole span that this part is of, from the start of the lift; −∞ and ∞ where it begins or ends
 * with the lift. */
TrnInterval trn_seated_whole (const TrnLiftCheck *check, const TrnSeated *seated, guint move);

/* The resolution in s at which spans of a move are worked out so that both the time and the travel
 * of any point of the load stay within TRN_SPAN_S and TRN_SPAN_M. */
double trn_seated_resolution (const TrnLiftCheck *check, guint move);
/* The same so that one of the two does: what the contract asks of contact spans. */
double trn_contact_resolution (const TrnLiftCheck *check, guint move);
