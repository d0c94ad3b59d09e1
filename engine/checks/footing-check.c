/* A support is a rectangle in the frame of its gear: the pad of an outrigger or a track, of a leg
 * that or its section, in place of either the mat below it, a cheek of a turning frame, the carrier
 * of a crane without supports. All stand on the base of the gear, a mat by its thickness below it.
 * A tail trolley goes straight along its track, so that its run is a rectangle as well, from the
 * least to the greatest place of its hook in all moves in which it holds the load, certified, with
 * what tolerances take it along.
 *
 * What the structures of the plan show below it (underfoot.h):
 *   all of it carried          it stands, or, over the seam of structures that may each be off by
 *                              their survey, or over a step that is within what they may be off
 *                              by, it is not known;
 *   a part of it               it stands over an edge or a hole: it fails;
 *   none, a surface below it   it hangs in the air, or over a pit: it fails;
 *   none, one just above it    it is sunk in: it fails;
 *   none, in a hole            it fails;
 *   none, nor anything there   the plan does not show what it stands on: not known, unless it says
 *                              in words what that is (ground/stands_on), and how high
 * (ground/level); the gear has to stand at that level. What is said in words counts only where
 * nothing is shown below any support: what stands with a part of its supports on what is shown has
 * the rest of that to be shown as well.
 *
 * The base of a gear is one plane. A survey that is off makes what carries a support possible at
 * another height than drawn, but not at two at once: what carries all supports of a gear has to be
 * level with its highest, to within the play of packing on a base, or it is not known. How strong
 * or thick what carries is, and what is below that, is no part of this. */
#include "footing-check.h"

#include "gear-tolerance.h"
#include "ground-mat.h"
#include "hoist.h"
#include "tolerances.h"
#include "underfoot.h"

typedef struct
{
  TrnLevelPoint lo, hi;
  double below_m; /* the base of the gear */
} Rectangle;

static Rectangle
rectangle (double x_m, double y_m, double size_x_m, double size_y_m)
{
  return (Rectangle){ { x_m - 0.5 * size_x_m, y_m - 0.5 * size_y_m },
                      { x_m + 0.5 * size_x_m, y_m + 0.5 * size_y_m },
                      0 };
}

/* The gear, set down on that. */
static TrnPose
base_of (const TrnGearPlace *place, const Rectangle *of)
{
  TrnPose base = place->site_from_gear;
  base.position.z -= of->below_m;
  return base;
}

/* ---- supports ---- */

/* Adds them to @list; returns what is missing, static; NULL. */
static const char *
list_feet (const TrnGearFoot *feet, guint n, GArray *list)
{
  for (guint i = 0; i < n; i++)
    {
      const TrnGearFoot *foot = &feet[i];
      const TrnLevelSize size = trn_gear_foot_on_ground (foot);
      Rectangle of = rectangle (foot->x_m, foot->y_m, size.x_m, size.y_m);
      of.below_m = foot->has_mat ? foot->mat_size.z : 0;
      if (!isfinite (of.lo.x_m) || !isfinite (of.lo.y_m))
        return "pad";
      g_array_append_val (list, of);
    }
  return trn_ground_mats_are_apart (feet, n) ? NULL : "mat/apart";
}

static const char *
list_crane (const TrnGear *gear, GArray *list)
{
  if (gear->n_supports > 0)
    return list_feet (gear->supports, gear->n_supports, list);
  if (!gear->has_carrier)
    return "supports";
  const Rectangle of = rectangle (gear->carrier_x_m, gear->carrier_y_m, gear->carrier_size.x,
                                  gear->carrier_size.y);
  g_array_append_val (list, of);
  return NULL;
}

static const char *
list_frame (const TrnGear *gear, GArray *list)
{
  for (int i = 0; i < 2; i++)
    {
      const Rectangle of = rectangle ((i == 0 ? -0.5 : 0.5) * gear->cheek_spacing_m, 0,
                                      gear->size.x, gear->size.y);
      g_array_append_val (list, of);
    }
  return NULL;
}

/* Where the middle of a trolley goes; FALSE where that is not known. It keeps to the middle of its
 * track where the tail point is beside it, whose bearing moves (TRN_TRACK_PLAY_M): drawn below the
 * tail point, it is looked at in both places. */
static gboolean
find_run (const TrnLiftCheck *check, const TrnHoist *hoist, Rectangle *run)
{
  *run = (Rectangle){ { INFINITY, 0 }, { -INFINITY, 0 }, 0 };
  for (guint move = hoist->first_move; move <= hoist->last_move; move++)
    {
      const double off_m = trn_hook_tolerance (check, hoist, move);
      const TrnExtremes x
          = trn_hoist_extremes (check, hoist, move, TRN_RIG_HOOK_LOCAL_X, 0, check->certify_m);
      const TrnExtremes y
          = trn_hoist_extremes (check, hoist, move, TRN_RIG_HOOK_LOCAL_Y, 0, check->certify_m);
      if (!x.complete || !y.complete || !isfinite (off_m))
        return FALSE;
      run->lo.x_m = fmin (run->lo.x_m, x.least.lo - off_m);
      run->hi.x_m = fmax (run->hi.x_m, x.greatest.hi + off_m);
      run->lo.y_m = fmin (run->lo.y_m, y.least.lo);
      run->hi.y_m = fmax (run->hi.y_m, y.greatest.hi);
    }
  return TRUE;
}

static const char *
list_trolley (const TrnLiftCheck *check, const TrnGearPlace *place, GArray *list)
{
  const TrnGear *gear = place->gear;
  const TrnHoist *hoist = &check->run->lift->rigging.tail;
  if (!hoist->given || trn_hoist_place (check, hoist) != place)
    hoist = &check->run->lift->rigging.main;
  const double idle_m = trn_interval_middle (gear->track_m);
  Rectangle run = { { idle_m, 0 }, { idle_m, 0 }, 0 };
  if (hoist->given && trn_hoist_place (check, hoist) == place)
    {
      if (!find_run (check, hoist, &run))
        return "reach";
    }
  else if (!isfinite (idle_m))
    return "track";
  const Rectangle of = { { run.lo.x_m - 0.5 * gear->size.x, run.lo.y_m - 0.5 * gear->size.y },
                         { run.hi.x_m + 0.5 * gear->size.x, run.hi.y_m + 0.5 * gear->size.y },
                         0 };
  g_array_append_val (list, of);
  return NULL;
}

static const char *
list_supports (const TrnLiftCheck *check, const TrnGearPlace *place, GArray *list)
{
  const TrnGear *gear = place->gear;
  switch (gear->kind)
    {
    case TRN_GEAR_GANTRY:
      return list_feet (gear->legs, gear->n_legs, list);
    case TRN_GEAR_CRANE:
      return list_crane (gear, list);
    case TRN_GEAR_TURNING_FRAME:
      return list_frame (gear, list);
    case TRN_GEAR_TAIL_TROLLEY:
      return list_trolley (check, place, list);
    }
  g_assert_not_reached ();
}

/* ---- the verdict ---- */

/* How far it is above the level of the ground that the plan states in words. */
static double
above_stated_m (const TrnGearPlace *place, const Rectangle *of)
{
  return base_of (place, of).position.z - place->gear->ground_level_m;
}

static TrnVerdict
judge_one (const TrnGearPlace *place, const Rectangle *of, const TrnUnderfoot *found)
{
  if (found->carried == 1)
    return found->is_over_seam ? TRN_VERDICT_UNKNOWN : TRN_VERDICT_PASS;
  if (found->carried > 0 || isfinite (found->gap_m) || found->is_in_hole)
    return TRN_VERDICT_FAIL;
  if (place->gear->stands_on == NULL)
    return TRN_VERDICT_UNKNOWN;
  return fabs (above_stated_m (place, of)) <= TRN_SEAT_FIT_M ? TRN_VERDICT_PASS : TRN_VERDICT_FAIL;
}

/* Whether nothing of it is shown: what the plan says in words counts. */
static gboolean
is_not_shown (const TrnUnderfoot *found)
{
  return found->carried == 0 && isnan (found->gap_m) && !found->is_in_hole;
}

/* Whether @a stands worse than @b, of which one is worst so far. */
static gboolean
is_worse (TrnVerdict a_is, const TrnUnderfoot *a, TrnVerdict b_is, const TrnUnderfoot *b)
{
  if (a_is != b_is)
    return trn_verdict_fold (b_is, a_is) == a_is;
  return a->carried < b->carried;
}

/* ---- steps ---- */

/* Heights of all that carries supports; infinite: nothing does. */
typedef struct
{
  double top_m, bottom_m;
} Heights;

static void
add_heights (Heights *heights, const TrnUnderfoot *found)
{
  heights->top_m = fmax (heights->top_m, found->top_m);
  heights->bottom_m = fmin (heights->bottom_m, found->bottom_m);
}

/* Whether each support of a gear that stands is carried as well without what is lower than the
 * highest; what then is found of that at @index in @found. */
static gboolean
is_level (const TrnLiftCheck *check, const TrnGearPlace *at, const GArray *supports,
          const Heights *heights, guint index, TrnUnderfoot *found)
{
  const double floor_m = heights->top_m - TRN_UNDERFOOT_LEVEL_M;
  if (!(heights->bottom_m < floor_m))
    return TRUE;
  for (guint i = 0; i < supports->len; i++)
    {
      const Rectangle *of = &g_array_index (supports, Rectangle, i);
      const TrnPose base = base_of (at, of);
      const TrnUnderfoot is = trn_underfoot_find (check, &base, of->lo, of->hi, floor_m);
      if (is.carried < 1 || is.is_over_seam)
        return FALSE;
      if (i == index)
        *found = is;
    }
  return TRUE;
}

/* ---- the finding ---- */

static const char *
missing_of (const TrnUnderfoot *worst, gboolean is_mixed, gboolean is_over_step)
{
  return is_mixed              ? "ground/rest"
         : is_over_step        ? "ground/step"
         : worst->is_over_seam ? "ground/seam"
                               : "ground/stands_on";
}

static void
add_numbers (TrnFinding *finding, const TrnGearPlace *place, const GArray *supports,
             const TrnUnderfoot *found, guint index)
{
  const Rectangle *of = &g_array_index (supports, Rectangle, index);
  if (supports->len > 1 && finding->verdict != TRN_VERDICT_PASS)
    trn_finding_add_number (finding, TRN_FOOTING_SUPPORT, index + 1, TRN_UNIT_NONE);
  if (is_not_shown (found))
    {
      finding->source = place->gear->stands_on;
      if (finding->verdict == TRN_VERDICT_FAIL)
        trn_finding_add_number (finding, TRN_FOOTING_LEVEL, above_stated_m (place, of), TRN_UNIT_M);
      return;
    }
  finding->source = found->on;
  trn_finding_add_number (finding, TRN_FOOTING_CARRIED, found->carried, TRN_UNIT_NONE);
  if (finding->verdict == TRN_VERDICT_PASS)
    return;
  trn_finding_add_number (finding, TRN_FOOTING_ALONG, found->along_m, TRN_UNIT_M);
  trn_finding_add_number (finding, TRN_FOOTING_ACROSS, found->across_m, TRN_UNIT_M);
  if (isfinite (found->gap_m))
    trn_finding_add_number (finding, TRN_FOOTING_GAP, found->gap_m, TRN_UNIT_M);
}

TrnFinding
trn_footing_judge (const TrnLiftCheck *check, guint place)
{
  TrnFinding finding = trn_lift_check_finding (check, TRN_CHECK_FOOTING, -1, NULL, NAN);
  const TrnGearPlace *at = &check->run->rig->places[place];
  finding.body = at->gear->id;
  g_autoptr (GArray) supports = g_array_new (FALSE, FALSE, sizeof (Rectangle));
  finding.missing = list_supports (check, at, supports);
  if (finding.missing != NULL || supports->len == 0)
    return finding;
  TrnUnderfoot worst = { 0 };
  TrnVerdict verdict = TRN_VERDICT_PASS;
  Heights heights = { -INFINITY, INFINITY };
  guint index = 0;
  gboolean is_any_shown = FALSE, is_any_not = FALSE;
  for (guint i = 0; i < supports->len; i++)
    {
      if (trn_progress_is_cancelled (check->options->progress))
        return finding;
      const Rectangle *of = &g_array_index (supports, Rectangle, i);
      const TrnPose base = base_of (at, of);
      const TrnUnderfoot found = trn_underfoot_find (check, &base, of->lo, of->hi, -INFINITY);
      const TrnVerdict is = judge_one (at, of, &found);
      add_heights (&heights, &found);
      is_any_not |= is_not_shown (&found);
      is_any_shown |= !is_not_shown (&found);
      if (i > 0 && !is_worse (is, &found, verdict, &worst))
        continue;
      worst = found;
      verdict = is;
      index = i;
    }
  const gboolean is_mixed = is_any_shown && is_any_not;
  if (is_mixed)
    verdict = trn_verdict_fold (verdict, TRN_VERDICT_UNKNOWN);
  const gboolean is_over_step
      = verdict == TRN_VERDICT_PASS && !is_level (check, at, supports, &heights, index, &worst);
  if (is_over_step)
    verdict = TRN_VERDICT_UNKNOWN;
  finding.verdict = verdict;
  finding.state = verdict == TRN_VERDICT_PASS   ? TRN_STATE_WITHIN
                  : verdict == TRN_VERDICT_FAIL ? TRN_STATE_OUTSIDE
                                                : TRN_STATE_UNKNOWN;
  if (verdict == TRN_VERDICT_UNKNOWN)
    {
      finding.missing = missing_of (&worst, is_mixed, is_over_step);
      return finding;
    }
  add_numbers (&finding, at, supports, &worst, index);
  return finding;
}
