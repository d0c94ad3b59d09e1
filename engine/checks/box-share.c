/* The share after a turn is (c − t k + x)/(d − t h + x − y) (share-jet.c), x and y what the lines
 * of main and tail pass aside of their points. With e level along both points, c = r·e and k = r.z
 * for the way r from the main point to the CoG, which is that to the middle of the box and u₁ times
 * the first axis of the load, and so on, |uᵢ| at most half the box. So the numerator is
 *   n + u₁ n₁ + u₂ n₂ + u₃ n₃,    nᵢ = aᵢ·e − t aᵢ.z for the axis aᵢ,
 * and the denominator is the same for all of the box: as long as it is above 0, the greatest share
 * is where each uᵢ nᵢ is, and where nᵢ has one sign over the span that is one end of the box
 * throughout. Where it has both, uᵢ stays the interval; nᵢ is near 0 then.
 *
 * Over a span, a share whose derivative keeps its sign is within what it is at both ends. Up-ending
 * is mostly so: in the plane of turning it is a quotient of two affine functions of a tangent
 * (share.c). Else it is within its enclosure, and within that in the middle and the derivative
 * (mean value form). Ends are ends of the spans beside, so that most are known already.
 *
 * A load that turns about a plumb axis, or does not, keeps all level ways as long as they are and
 * all heights; so its share stays the same.
 *
 * Turns. Over all up to that of the plan, either way, extremes are at the ends (share-jet.c).
 *
 * Legs that spread in the plane of turning. While all of them pull, they and the load are one body
 * that turns about the hook, P above the point: as if held there. When the load has turned so far
 * that the hook would be plumb above a place outside of them, only the outermost leg pulls, and the
 * line is plumb over its point. So at a turn of tangent t a line passes aside of its point, seen
 * along the load, by between 0 and the lesser of t P and what its legs spread, b, and t z more for
 * one whose point is z higher. Where one is w lower the line may pass it the other way, by t w. The
 * share is a fraction of two affine functions of x, of y and of t, each with the others fixed; it
 * goes one way in each of them as long as the denominator keeps its sign. So over the whole box of
 * 0 to t, and of all x and all y of that t, which holds more than can be, the extremes are at its
 * corners. The denominator is affine in x and y at each t and affine in t, so it is above 0 in the
 * box where it is at its corners. */
#include "box-share.h"

#define ROUNDING_SHARE 1e-12 /* some dozen roundings of a double */

enum
{
  TAIL,
  COG,
  AXES,
  N_ARMS = AXES + 3,
};

/* ---- the ways that it may be turned ---- */

static TrnInterval
signed_within (double most, int way)
{
  TrnInterval within = { most * (1 - ROUNDING_SHARE), most * (1 + ROUNDING_SHARE) };
  return way > 0 ? within : trn_interval_neg (within);
}

/* From the farthest against the turn to the farthest with it. */
static TrnInterval
aside (const TrnSharePivot *pivot, double tangent)
{
  const double with_m
      = fmin (pivot->above_m * tangent, pivot->spread_m + tangent * pivot->spread_up_m);
  return trn_interval_scale ((TrnInterval){ -tangent * pivot->spread_down_m, with_m },
                             1 + ROUNDING_SHARE);
}

static void
add_form (TrnBoxShare *share, TrnInterval tangent, double main_m, double tail_m)
{
  g_assert (share->n_forms < TRN_SHARE_FORMS_MAX);
  share->forms[share->n_forms++] = (TrnShareForm){ tangent, { main_m, tail_m } };
}

static void
add_forms (TrnBoxShare *share, double turn_rad, const TrnSharePivot pivots[2])
{
  if (isnan (turn_rad))
    {
      add_form (share, trn_interval_point (0), 0, 0);
      return;
    }
  if (!(turn_rad < G_PI / 2))
    {
      add_form (share, trn_interval_none (), 0, 0);
      return;
    }
  double tangent = tan (turn_rad);
  const TrnInterval main_m = aside (&pivots[0], tangent), tail_m = aside (&pivots[1], tangent);
  for (int way = -1; way <= 1; way += 2)
    for (int i = 0; i < 8; i++)
      {
        gboolean is_turned = !(i & 1), main = (i & 2) != 0, tail = (i & 4) != 0;
        const double x_m = main ? main_m.hi : main_m.lo, y_m = tail ? tail_m.hi : tail_m.lo;
        gboolean is_new = (!main || main_m.hi > main_m.lo) && (!tail || tail_m.hi > tail_m.lo);
        if (is_new && (is_turned || x_m != 0 || y_m != 0))
          add_form (share, is_turned ? signed_within (tangent, way) : trn_interval_point (0),
                    way * x_m, way * y_m);
      }
}

TrnBoxShare
trn_box_share_make (const TrnMotion *motion, TrnVec3 main, TrnVec3 tail, TrnVec3 cog,
                    TrnVec3 cog_box, double turn_rad, const TrnSharePivot pivots[2])
{
  const TrnVec3 zero = { 0, 0, 0 };
  TrnBoxShare share = { .motion = motion,
                        .tilts = trn_motion_tilts (motion),
                        .half_m = { cog_box.x, cog_box.y, cog_box.z } };
  share.arms[TAIL] = trn_motion_arm_make (motion, main, tail);
  share.arms[COG] = trn_motion_arm_make (motion, main, cog);
  for (int i = 0; i < 3; i++)
    share.arms[AXES + i] = trn_motion_arm_make (
        motion, zero, trn_vec3_make (i == 0 ? 1 : 0, i == 1 ? 1 : 0, i == 2 ? 1 : 0));
  add_forms (&share, turn_rad, pivots);
  return share;
}

/* ---- quotients ---- */

/* Along the level line from main to tail, and up. */
typedef struct
{
  TrnSlope along, up;
} Way;

typedef struct
{
  Way ways[N_ARMS];
} Base;

static Base
base_make (const TrnBoxShare *share, TrnInterval s)
{
  Base base;
  TrnSlope3 sides[N_ARMS];
  TrnSlope x, y;
  trn_motion_arms_slope (share->motion, N_ARMS, share->arms, s, sides);
  base.ways[TAIL].along = trn_slope_direction (sides[TAIL].x, sides[TAIL].y, &x, &y);
  for (int i = 0; i < N_ARMS; i++)
    {
      if (i != TAIL)
        base.ways[i].along
            = trn_slope_add (trn_slope_mul (sides[i].x, x), trn_slope_mul (sides[i].y, y));
      base.ways[i].up = sides[i].z;
    }
  return base;
}

/* After the turn. */
static TrnSlope
turned (const Way *way, const TrnShareForm *form)
{
  return trn_slope_sub (way->along, trn_slope_scale_within (way->up, form->tangent));
}

static TrnSlope
shifted (TrnSlope a, double by)
{
  a.v = trn_interval_add (a.v, trn_interval_point (by));
  return a;
}

/* Where in the box the share is least or greatest, all over a span. */
typedef struct
{
  TrnInterval at[3];
} Corner;

/* A form over a span. */
typedef struct
{
  TrnSlope middle, axes[3]; /* parts of the numerator */
  TrnSlope inverse;         /* of the denominator; no value where that may not be above 0 */
} Turned;

static Turned
turned_make (const Base *base, const TrnShareForm *form, const double half_m[3])
{
  Turned t;
  TrnSlope denominator
      = shifted (shifted (turned (&base->ways[TAIL], form), form->aside_m[0]), -form->aside_m[1]);
  t.inverse = denominator.v.lo > 0 ? trn_slope_inverse (denominator) : trn_slope_none ();
  t.middle = shifted (turned (&base->ways[COG], form), form->aside_m[0]);
  for (int i = 0; i < 3; i++)
    if (half_m[i] != 0)
      t.axes[i] = turned (&base->ways[AXES + i], form);
  return t;
}

static Corner
corner_of (const Turned *t, const double half_m[3], gboolean is_greatest)
{
  Corner corner;
  for (int i = 0; i < 3; i++)
    {
      double half = fabs (half_m[i]);
      corner.at[i] = (TrnInterval){ -half, half };
      if (half == 0)
        continue;
      gboolean rises = t->axes[i].v.lo >= 0, falls = t->axes[i].v.hi <= 0;
      if (rises || falls)
        corner.at[i] = trn_interval_point (rises == is_greatest ? half : -half);
    }
  return corner;
}

static TrnSlope
share_at (const Turned *t, const Corner *corner)
{
  TrnSlope numerator = t->middle;
  for (int i = 0; i < 3; i++)
    if (corner->at[i].hi != 0 || corner->at[i].lo != 0)
      numerator = trn_slope_add (numerator, trn_slope_scale_within (t->axes[i], corner->at[i]));
  return trn_slope_mul (numerator, t->inverse);
}

/* ---- ranges ---- */

typedef struct
{
  TrnSlope share;
  Corner corner;
} Extreme;

static guint
find_extremes (const TrnBoxShare *share, TrnInterval s, Extreme extremes[2 * TRN_SHARE_FORMS_MAX])
{
  Base base = base_make (share, s);
  for (guint i = 0; i < share->n_forms; i++)
    {
      Turned t = turned_make (&base, &share->forms[i], share->half_m);
      for (guint k = 0; k < 2; k++)
        {
          Extreme *extreme = &extremes[2 * i + k];
          extreme->corner = corner_of (&t, share->half_m, k == 1);
          extreme->share = share_at (&t, &extreme->corner);
        }
    }
  return 2 * share->n_forms;
}

static void
include (const TrnBoxShare *share, TrnInterval *range, TrnInterval of_one)
{
  if (!trn_interval_is_value (of_one))
    of_one = (TrnInterval){ share->least, 1 };
  range->lo = fmin (range->lo, of_one.lo);
  range->hi = fmax (range->hi, of_one.hi);
}

static TrnInterval
within (const TrnBoxShare *share, TrnInterval range)
{
  return (TrnInterval){ CLAMP (range.lo, share->least, 1), CLAMP (range.hi, share->least, 1) };
}

static gboolean
is_monotonic (const TrnSlope *share)
{
  return trn_slope_is_value (share) && (share->d.lo >= 0 || share->d.hi <= 0);
}

/* By the mean value form, each extreme at the corner where it is over the span. */
static TrnInterval
by_middle (const TrnBoxShare *share, TrnInterval s, const Extreme *extremes)
{
  TrnInterval range = { INFINITY, -INFINITY };
  TrnInterval middle = trn_interval_point (trn_interval_middle (s));
  TrnInterval step = trn_interval_sub (s, middle);
  Base base = base_make (share, middle);
  for (guint i = 0; i < 2 * share->n_forms; i++)
    {
      const Extreme *over = &extremes[i];
      Turned t = turned_make (&base, &share->forms[i / 2], share->half_m);
      TrnInterval mean = trn_interval_add (share_at (&t, &over->corner).v,
                                           trn_interval_mul (over->share.d, step));
      gboolean is_value = trn_slope_is_value (&over->share) && trn_interval_is_value (mean);
      include (share, &range,
               is_value ? trn_interval_clip (over->share.v, mean.lo, mean.hi) : over->share.v);
    }
  return within (share, range);
}

static TrnInterval
range_at (const TrnBoxShare *share, TrnInterval s, TrnSpanMemo *memo, guint what)
{
  Extreme extremes[2 * TRN_SHARE_FORMS_MAX];
  TrnInterval range = { INFINITY, -INFINITY };
  guint n = find_extremes (share, s, extremes);
  gboolean are_monotonic = TRUE;
  for (guint i = 0; i < n; i++)
    {
      include (share, &range, extremes[i].share.v);
      are_monotonic = are_monotonic && is_monotonic (&extremes[i].share);
    }
  if (s.lo == s.hi)
    return within (share, range);
  if (!are_monotonic)
    return by_middle (share, s, extremes);
  return trn_interval_hull (trn_box_share_tail (share, trn_interval_point (s.lo), memo, what),
                            trn_box_share_tail (share, trn_interval_point (s.hi), memo, what));
}

TrnInterval
trn_box_share_tail (const TrnBoxShare *share, TrnInterval s, TrnSpanMemo *memo, guint what)
{
  TrnInterval tail;
  if (!share->tilts)
    s = trn_interval_point (0);
  if (trn_span_memo_get (memo, what, s, &tail, 1))
    return tail;
  tail = range_at (share, s, memo, what);
  trn_span_memo_put (memo, what, s, &tail, 1);
  return tail;
}
