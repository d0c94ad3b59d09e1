/* Each of two bodies is cut into parts. A part of a body with two ends goes no farther than the
 * farther one of its own two ends (gear-tolerance.c), so with d the least distance of two parts
 * over the span and a what is taken off for both, what is left between them is d − a at least,
 * wherever tolerances and all else have them. The least of that over all pairs of parts, m, is left
 * of the whole, whose own least distance is no less than the least d, l: of l, l − m is taken off.
 * That is no less than a of the parts with the least d, nor more than a of those with the least d −
 * a, so that it is 0 only where nothing is taken off.
 *
 * Where m is less than what is to be kept, what is taken off is also no less than for any pair of
 * parts that leaves too little, since the same is taken off distances at other moments, to show
 * where it is short: at a moment at which a pair leaves too little, the whole, which is no farther,
 * then does as well.
 *
 * The pair of parts with the least left is halved, that body of it whose ends differ most, until it
 * leaves what is to be kept, or is as small as LEAST_PART, or as many as MOST_CUTS were: as a
 * branch and bound. A pair that leaves enough stays whole: what is shown of it is then more than
 * need be.
 */
#include "gear-along.h"

#include <math.h>

#include "pair-sweep.h"
#include "tolerances.h"

#define LEAST_PART (1.0 / 32)
#define MOST_CUTS 16

typedef struct
{
  TrnInterval shares[2];         /* along both bodies */
  double lower_m, off_m, left_m; /* their difference */
} Part;

typedef struct
{
  const TrnLiftCheck *check;
  const TrnPair *pair;
  guint move;
  TrnInterval span;
  double required_m;
  Part parts[MOST_CUTS + 1];
  guint n_parts;
} Along;

/* What is taken off at that end of both. */
static double
off_at (const Along *along, double a, double b)
{
  const double shares[2] = { a, b };
  return trn_pair_allowance_at (along->check, along->pair, along->move, shares);
}

/* Where it is most: it is linear along each, so at an end of each. */
static void
most_off (const Along *along, const Part *part, double shares[2])
{
  const TrnInterval *a = &part->shares[0], *b = &part->shares[1];
  shares[0] = off_at (along, a->hi, b->lo) > off_at (along, a->lo, b->lo) ? a->hi : a->lo;
  shares[1] = off_at (along, a->lo, b->hi) > off_at (along, a->lo, b->lo) ? b->hi : b->lo;
}

static gboolean
is_open (const TrnSweepResult *result, double need_m)
{
  return result->complete && result->lower_m < need_m && result->upper_m >= need_m;
}

/* What is proven of the part that it was cut from holds. FALSE: no distance is proven. */
static gboolean
measure (const Along *along, Part *part)
{
  double shares[2];
  most_off (along, part, shares);
  part->off_m = off_at (along, shares[0], shares[1]);
  const double need_m = part->off_m + along->required_m;
  TrnPairSweep sweep;
  trn_pair_sweep_init (&sweep, along->check, along->pair, along->move);
  trn_pair_sweep_set_span (&sweep, along->span);
  trn_pair_sweep_cut (&sweep, part->shares);
  double width_m = along->check->certify_m;
  TrnSweepResult result
      = trn_pair_sweep_minimum (&sweep, width_m, fmax (2 * need_m, width_m / TRN_FAR_SHARE));
  double lower_m = fmax (part->lower_m, result.lower_m);
  while (is_open (&result, need_m) && width_m > TRN_CONTACT_M)
    {
      width_m = fmax (width_m / 10, TRN_CONTACT_M);
      result = trn_pair_sweep_minimum (&sweep, width_m, INFINITY);
      lower_m = fmax (lower_m, result.lower_m);
    }
  part->lower_m = lower_m;
  part->left_m = lower_m - part->off_m;
  return result.complete && isfinite (part->left_m);
}

static Part *
least_left (Along *along)
{
  Part *least = &along->parts[0];
  for (guint i = 1; i < along->n_parts; i++)
    if (along->parts[i].left_m < least->left_m)
      least = &along->parts[i];
  return least;
}

/* Of the two the one along which what is taken off differs more; FALSE: none that can be cut. */
static gboolean
choose_cut (const Along *along, const Part *part, guint *body)
{
  const TrnInterval *a = &part->shares[0], *b = &part->shares[1];
  const double at_m = off_at (along, a->lo, b->lo),
               differs_m[2] = { fabs (off_at (along, a->hi, b->lo) - at_m),
                                fabs (off_at (along, a->lo, b->hi) - at_m) };
  *body = differs_m[1] > differs_m[0] ? 1 : 0;
  return differs_m[*body] > TRN_CONTACT_M && trn_interval_width (part->shares[*body]) > LEAST_PART;
}

/* FALSE: cut short. */
static gboolean
cut (Along *along)
{
  while (along->n_parts <= MOST_CUTS)
    {
      Part *part = least_left (along), *other = &along->parts[along->n_parts];
      guint body;
      if (part->left_m >= along->required_m || !choose_cut (along, part, &body))
        return TRUE;
      *other = *part;
      part->shares[body].hi = other->shares[body].lo = trn_interval_middle (part->shares[body]);
      along->n_parts++;
      if (!measure (along, part) || !measure (along, other))
        return FALSE;
    }
  return TRUE;
}

/* What counts of the least distance, and where. */
static TrnGearAlong
sum_up (Along *along)
{
  const Part *least = least_left (along);
  double lower_m = INFINITY;
  for (guint i = 0; i < along->n_parts; i++)
    lower_m = fmin (lower_m, along->parts[i].lower_m);
  TrnGearAlong found = { .lower_m = lower_m, .allowance_m = lower_m - least->left_m };
  most_off (along, least, found.shares);
  for (guint i = 0; i < along->n_parts; i++)
    if (along->parts[i].left_m < along->required_m && along->parts[i].off_m > found.allowance_m)
      {
        found.allowance_m = along->parts[i].off_m;
        most_off (along, &along->parts[i], found.shares);
      }
  /* What is left is no less than what is to be kept; nor is it by the rounding of this difference.
   */
  while (least->left_m >= along->required_m && found.allowance_m > 0
         && (lower_m - found.allowance_m < along->required_m
             || lower_m < along->required_m + found.allowance_m))
    found.allowance_m = nextafter (found.allowance_m, -INFINITY);
  return found;
}

gboolean
trn_gear_along_find (const TrnLiftCheck *check, const TrnPair *pair, guint move, TrnInterval span,
                     double required_m, double lower_m, double allowance_m, TrnGearAlong *found)
{
  const gboolean differs[2]
      = { trn_pair_ends_differ (check, pair->body, move),
          !pair->other_stands && trn_pair_ends_differ (check, pair->other, move) };
  if (!differs[0] && !differs[1])
    return FALSE;
  Along along = {
    .check = check, .pair = pair, .move = move, .span = span, .required_m = required_m, .n_parts = 1
  };
  along.parts[0] = (Part){ { { 0, 1 }, { 0, 1 } }, lower_m, allowance_m, lower_m - allowance_m };
  if (!cut (&along) || along.n_parts == 1)
    return FALSE;
  *found = sum_up (&along);
  return found->allowance_m < allowance_m;
}
