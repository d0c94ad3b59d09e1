#include "slew.h"

#include "frame.h"
#include "hang.h"

/* A span of 2⁻³⁰ over which the direction is not told passes too close by the axis. */
#define LEAST_SPAN 0x1p-30

typedef struct
{
  const TrnRig *rig;
  const TrnHoist *hoist;
  const TrnGearPlace *place;
  guint move;
} Walk;

/* The hook seen from the slew axis, in the gear's frame. */
static TrnJet3
seen (const Walk *walk, TrnInterval s)
{
  return trn_frame_from_site (&walk->place->site_from_gear,
                              trn_hang_hook (walk->rig, walk->hoist, walk->move, s));
}

/* The turn from direction @from to @to; none where it may be a quarter turn or more. */
static TrnInterval
turn_between (const TrnJet3 *from, const TrnJet3 *to)
{
  TrnInterval dot = trn_interval_add (trn_interval_mul (from->x.v, to->x.v),
                                      trn_interval_mul (from->y.v, to->y.v));
  TrnInterval cross = trn_interval_sub (trn_interval_mul (from->x.v, to->y.v),
                                        trn_interval_mul (from->y.v, to->x.v));
  if (!(dot.lo > 0))
    return trn_interval_none ();
  TrnInterval slope = trn_interval_div (cross, dot);
  return trn_interval_widen (atan (slope.lo), atan (slope.hi), TRN_OUTWARD_FUNCTION);
}

/* φ′ = (x y′ − y x′)/w and φ″ = (x y″ − y x″)/w − φ′ w′/w with w = x² + y². */
static void
slew_bend (const TrnJet3 *at, TrnJet *slew)
{
  TrnJet w = trn_jet_add (trn_jet_square (at->x), trn_jet_square (at->y));
  TrnInterval inverse = trn_interval_inverse (w.v);
  TrnInterval d
      = trn_interval_sub (trn_interval_mul (at->x.v, at->y.d), trn_interval_mul (at->y.v, at->x.d));
  TrnInterval dd = trn_interval_sub (trn_interval_mul (at->x.v, at->y.dd),
                                     trn_interval_mul (at->y.v, at->x.dd));
  slew->d = trn_interval_mul (d, inverse);
  slew->dd = trn_interval_mul (trn_interval_sub (dd, trn_interval_mul (slew->d, w.d)), inverse);
}

/* Goes from where *@from is at @s0, with the angle *@angle, to @s1; *@over, unless NULL, gets what
 * the angle is on the way. */
static gboolean
walk_to (const Walk *walk, double s0, double s1, TrnJet3 *from, TrnInterval *angle, TrnJet *over)
{
  gboolean first = TRUE;
  for (double h = s1 - s0; s0 < s1;)
    {
      double end = fmin (s0 + h, s1);
      TrnJet3 span = seen (walk, (TrnInterval){ s0, end });
      TrnInterval turn = turn_between (from, &span);
      if (!trn_interval_is_value (turn))
        {
          h /= 2;
          if (h < LEAST_SPAN)
            return FALSE;
          continue;
        }
      if (over != NULL)
        {
          TrnJet piece = { .v = trn_interval_add (*angle, turn) };
          slew_bend (&span, &piece);
          *over = first ? piece : trn_jet_hull (*over, piece);
          first = FALSE;
        }
      TrnJet3 to = seen (walk, trn_interval_point (end));
      *angle = trn_interval_add (*angle, turn_between (from, &to));
      *from = to;
      s0 = end;
      h *= 2;
    }
  return trn_interval_is_value (*angle);
}

gboolean
trn_slew_find (const TrnRig *rig, const TrnHoist *hoist, const TrnGearPlace *place, guint move,
               TrnInterval s, TrnJet *slew)
{
  Walk walk = { rig, hoist, place, move };
  TrnJet3 at = seen (&walk, trn_interval_point (0));
  /* The angle of the middle of the enclosure; the turn from there to it is small and enclosed. */
  TrnJet3 middle = { trn_jet_constant (trn_interval_middle (at.x.v)),
                     trn_jet_constant (trn_interval_middle (at.y.v)), trn_jet_constant (0) };
  double start = atan2 (middle.y.v.lo, middle.x.v.lo);
  TrnInterval angle = trn_interval_add (trn_interval_widen (start, start, TRN_OUTWARD_FUNCTION),
                                        turn_between (&middle, &at));
  if (!walk_to (&walk, 0, s.lo, &at, &angle, NULL))
    return FALSE;
  slew->v = angle;
  slew_bend (&at, slew);
  return s.hi == s.lo || walk_to (&walk, s.lo, s.hi, &at, &angle, slew);
}
