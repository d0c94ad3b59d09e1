/* The line of two hooks goes from P to Q, plumb above or below the main and the tail point by p and
 * q. Seen from the main point, along the level toward the tail point and up, the tail point is at
 * D, h and the CoG at a, k.
 *
 * Hooks out of level turn the load by some δ up to that of hook-force.c, either way: with C = cos δ
 * and S = sin δ these ways are D′ = D C − h S, h′ = h C + D S, a′ = a C − k S. What is square to
 * the plumb plane stays. P and Q stay plumb above the points. So the CoG is
 *   N/D′ plumb below the line,    N = a h − k D + p (D′ − a′) + q a′,
 * since a h − k D is the same turned, and v = N/hypot (D′, H) from it, H = h′ + q − p.
 *
 * N is affine in p and q and grows with both as long as the CoG is between the hooks; where it is
 * not a line would have to push (load-share.c). So N counts with the least of both, where that
 * turns with the load that times the cosine of δ, and H with the greatest and the least that q − p
 * may be: a steeper line is nearer. The one does not have to go with the other.
 *
 * P and Q may also be up to c along the level from there: by what points are drawn beside, and by
 * what turns with the load instead of staying plumb (box-share.c). Then they are no less than D″ =
 * D′ − 2 c apart, the CoG is by no more than c/D″ of that way nearer to one of them, which takes c
 * |H|/D″ off N/D′, and
 *   v >= (κ N − c |H|)/hypot (D″, H),
 * κ no more than D″/D′ is anywhere: D″/D′ where D′ is least over move and turns.
 *
 * C and S are within a box, which holds more than the arc. In both and in q − p the numerator is
 * concave, and the denominator convex. So as long as the numerator is above 0 the fraction is least
 * at corners of the box and ends of q − p; |H| counts as H at the greater end and as −H at the
 * lesser, one of which it is, with the greatest |H|. Where p, q and c are 0, v is the same for all
 * turns.
 *
 * e does not change in any of that, so that e/v is extreme where v is least. */
#include "lean-line.h"

#include "motion-jet.h"

#define WIDTH_TANGENT 1e-7
#define WIDTH_SQUARE 1e-9

/* Sine and cosine of a turn are within the box of these. */
#define TURN_ENDS 4

/* ---- two hooks ---- */

typedef struct
{
  TrnJet below, aside;
  TrnJet plumb, way, above, height, level, share, near;
} Swing;

/* Ways from the main to the tail point and to the CoG, along the level between both and up. */
typedef struct
{
  TrnJet level, rise, along, up;
} Ways;

static double
cosine_of (const TrnLeanQuestion *q)
{
  return q->is_turned && (q->end & 1) ? cos (q->turn_rad) : 1;
}

static double
sine_of (const TrnLeanQuestion *q)
{
  return !q->is_turned ? 0 : q->end & 2 ? sin (q->turn_rad) : -sin (q->turn_rad);
}

static TrnJet
near_jet (const TrnLeanQuestion *q, const Ways *ways)
{
  return trn_jet_sub (trn_jet_scale (ways->level, cosine_of (q)),
                      trn_jet_scale (ways->rise, sine_of (q)));
}

/* Up, where it turns with the load. */
static double
least_up (double up_m, double turn_rad)
{
  return up_m > 0 ? up_m * cos (turn_rad) : up_m;
}

/* v, at least. */
static TrnJet
below_jet (const TrnLeanQuestion *q, const Ways *ways)
{
  const double cosine = cosine_of (q), sine = sine_of (q);
  const TrnJet near
      = near_jet (q, ways),
      along = trn_jet_sub (trn_jet_scale (ways->along, cosine), trn_jet_scale (ways->up, sine)),
      of_points
      = trn_jet_sub (trn_jet_mul (ways->along, ways->rise), trn_jet_mul (ways->up, ways->level)),
      of_main = trn_jet_scale (trn_jet_sub (near, along), least_up (q->main_m.lo, q->turn_rad)),
      of_tail = trn_jet_scale (along, least_up (q->tail_m.lo, q->turn_rad));
  const double higher_m = q->is_high ? q->tail_m.hi - q->main_m.lo : q->tail_m.lo - q->main_m.hi;
  const TrnJet rise = trn_jet_shift (trn_jet_add (trn_jet_scale (ways->rise, cosine),
                                                  trn_jet_scale (ways->level, sine)),
                                     higher_m),
               moment = trn_jet_add (of_points, trn_jet_add (of_main, of_tail)),
               taken = trn_jet_scale (rise, q->is_high ? q->slide_m : -q->slide_m);
  return trn_jet_div (trn_jet_sub (trn_jet_scale (moment, q->kept), taken),
                      trn_jet_hypot (trn_jet_shift (near, -2 * q->slide_m), rise));
}

static Swing
swing_jets (const TrnLeanQuestion *q, TrnInterval s)
{
  const TrnLiftRun *run = q->carried->check->run;
  const TrnMotion *motion = &run->motions[q->carried->move];
  TrnVec3 points[3]
      = { run->lift->hook.place, run->lift->rigging.tail.point, q->carried->cog[q->corner] };
  TrnJet3 places[3];
  TrnJet x, y;
  trn_motion_points_jet (motion, 3, points, s, places);
  TrnJet3 main = places[0], tail = places[1], cog = places[2];
  const TrnJet rise = trn_jet_sub (tail.z, main.z), up = trn_jet_sub (cog.z, main.z);
  main.z = trn_jet_shift (main.z, q->main_m.lo);
  tail.z = trn_jet_shift (tail.z, q->tail_m.lo);
  TrnJet3 d = trn_jet3_sub (tail, main), c = trn_jet3_sub (cog, main);
  TrnJet level = trn_jet_direction (d.x, d.y, &x, &y);
  TrnJet along = trn_jet_add (trn_jet_mul (c.x, x), trn_jet_mul (c.y, y));
  TrnJet moment = trn_jet_sub (trn_jet_mul (along, d.z), trn_jet_mul (c.z, level));
  const Ways ways = { level, rise, along, up };
  const gboolean is_of_line = q->ask == TRN_LEAN_ASK_BELOW || q->ask == TRN_LEAN_ASK_LEAN;
  return (Swing){ .below = is_of_line ? below_jet (q, &ways) : trn_jet_none (),
                  .near = near_jet (q, &ways),
                  .aside = trn_jet_sub (trn_jet_mul (c.y, x), trn_jet_mul (c.x, y)),
                  .plumb = trn_jet_div (moment, level),
                  .way = q->from_tail ? trn_jet_sub (level, along) : along,
                  .above = trn_jet_sub (q->from_tail ? tail.z : main.z, cog.z),
                  .height = d.z,
                  .level = level,
                  .share = trn_jet_div (along, level) };
}

/* ---- the tail alone ---- */

static TrnJet
alone_jet (const TrnLeanQuestion *q, TrnInterval s)
{
  const TrnLiftRun *run = q->carried->check->run;
  const TrnMotion *motion = &run->motions[q->carried->move];
  TrnVec3 points[2] = { run->lift->rigging.tail.point, q->carried->cog[q->corner] };
  TrnJet3 places[2];
  trn_motion_points_jet (motion, 2, points, s, places);
  places[0].z = trn_jet_shift (places[0].z, q->tail_m.lo);
  TrnJet3 c = trn_jet3_sub (places[0], places[1]);
  if (q->ask == TRN_LEAN_ASK_BELOW)
    return c.z;
  TrnJet square = trn_jet_add (trn_jet_square (c.x), trn_jet_square (c.y));
  return trn_jet_div (square, trn_jet_square (c.z));
}

/* ---- extremes ---- */

static TrnJet
answer (const Swing *swing, TrnLeanAsk ask)
{
  switch (ask)
    {
    case TRN_LEAN_ASK_BELOW:
      return swing->below;
    case TRN_LEAN_ASK_ASIDE:
      return swing->aside;
    case TRN_LEAN_ASK_LEAN:
      return trn_jet_div (swing->aside, swing->below);
    case TRN_LEAN_ASK_PLUMB:
      return swing->plumb;
    case TRN_LEAN_ASK_WAY:
      return swing->way;
    case TRN_LEAN_ASK_ABOVE:
      return swing->above;
    case TRN_LEAN_ASK_HEIGHT:
      return swing->height;
    case TRN_LEAN_ASK_LEVEL:
      return swing->level;
    case TRN_LEAN_ASK_SHARE:
      return swing->share;
    case TRN_LEAN_ASK_NEAR:
      return swing->near;
    case TRN_LEAN_ASK_SQUARE:
      break;
    }
  g_assert_not_reached ();
}

static gboolean
ask (gconstpointer data, TrnInterval s, TrnJet *value)
{
  const TrnLeanQuestion *q = data;
  if (q->carried->main_holds)
    {
      const Swing swing = swing_jets (q, s);
      *value = answer (&swing, q->ask);
    }
  else
    *value = alone_jet (q, s);
  return trn_jet_is_value (value);
}

static gboolean
is_same_place (const TrnLeanQuestion *q, guint corner)
{
  return trn_vec3_distance (q->carried->cog[q->corner], q->carried->cog[corner]) == 0;
}

static gboolean
is_repeated (const TrnLeanQuestion *q)
{
  for (guint corner = 0; corner < q->corner; corner++)
    if (is_same_place (q, corner))
      return TRUE;
  return FALSE;
}

/* Whether what it hangs from may be at more than one height, or beside. */
static gboolean
is_loose (const TrnLeanQuestion *q)
{
  return q->slide_m > 0 || q->main_m.hi > q->main_m.lo || q->tail_m.hi > q->tail_m.lo;
}

/* A line through the points themselves turns with the load. */
static gboolean
is_of_points (const TrnLeanQuestion *q)
{
  return !is_loose (q) && q->main_m.lo == 0 && q->tail_m.lo == 0;
}

TrnExtremes
trn_lean_find_over (TrnLeanQuestion question, TrnLeanAsk what, TrnInterval span, double width)
{
  const gboolean is_of_line
      = question.carried->main_holds && (what == TRN_LEAN_ASK_BELOW || what == TRN_LEAN_ASK_LEAN);
  const gboolean turns = (is_of_line && !is_of_points (&question)) || what == TRN_LEAN_ASK_NEAR;
  const guint n_ends = turns && question.turn_rad > 0 ? TURN_ENDS : 1,
              n_heights = is_of_line && is_loose (&question) ? 2 : 1;
  TrnExtremes all = { .complete = FALSE };
  question.ask = what;
  question.is_turned = n_ends > 1;
  for (guint i = 0; i < 8 * n_ends * n_heights; i++)
    {
      question.corner = i % 8;
      question.end = i / 8 % n_ends;
      question.is_high = i / 8 / n_ends == 1;
      if (i == 0)
        all = trn_extremes_find (ask, &question, span, width);
      else if (!is_repeated (&question))
        all = trn_extremes_find_beyond (ask, &question, span, width, &all);
      if (!all.complete)
        break;
    }
  return all;
}

static double
width_of (TrnLeanAsk what)
{
  return what == TRN_LEAN_ASK_LEAN     ? WIDTH_TANGENT
         : what == TRN_LEAN_ASK_SQUARE ? WIDTH_SQUARE
                                       : TRN_LEAN_WIDTH_M;
}

TrnExtremes
trn_lean_find (TrnLeanQuestion question, TrnLeanAsk what)
{
  const TrnInterval move = { 0, 1 };
  TrnSpanMemo *memo = question.carried->check->memos[question.carried->move];
  TrnInterval kept[4];
  if (trn_span_memo_get (memo, TRN_MEMO_LEAN + what, move, kept, 4))
    return (TrnExtremes){ kept[0], kept[1], kept[2].lo, kept[2].hi, kept[3].lo != 0, kept[3].hi };
  const TrnExtremes found = trn_lean_find_over (question, what, move, width_of (what));
  kept[0] = found.least;
  kept[1] = found.greatest;
  kept[2] = (TrnInterval){ found.least_s, found.greatest_s };
  kept[3] = (TrnInterval){ found.complete ? 1 : 0, found.missing_s };
  trn_span_memo_put (memo, TRN_MEMO_LEAN + what, move, kept, 4);
  return found;
}
