/* Weights. The hook pulls with the dynamic hook load, plumb at the hook; what stands weighs at its
 * centre of gravity; what slews weighs along the boom: the slewing part at its distance from the
 * axis, boom and jib at their middles. With e the direction of the boom, θ its angle and ω the
 * offset of the jib the middles are seen from above at (foot + L cos θ/2) e and
 * (foot + L cos θ + J cos (θ − ω)/2) e.
 *
 * Tolerances. A hook that may be off by t takes its load with it by t. The boom turns with it, by
 * asin (t/r) at most, r the radius, which takes a weight at the distance a from the axis aside by
 * no more than a (π/2) t/r; boom and jib, which luff as well, go with their tips as far as
 * gear-tolerance.c says of any of their points.
 *
 * Ropes out of plumb. A tip that stays while its hook is off pulls along the rope, by the weight on
 * the hook plumb and by as much times tan θ level. About the supports that is the weight where the
 * way of the rope meets the level of the base, H tan θ aside of the tip, H its height. Nothing that
 * the tip follows makes that more, since H is no less than the rope. The weights stay what they
 * are.
 *
 * Supports. What each bears is enclosed as ground-share.h has it. Where one would have to pull it
 * has lifted off: the finding fails.
 *
 * Wind. What it does to the load comes in by ropes out of plumb. Boom, tower and blocks stand in it
 * too, but no plan says with what area: that is not counted, and the finding says so.
 *
 * Empty. The same weights without what the hook carries stand before the load is taken and after
 * it is let go; no support may have to pull then.
 *
 * One pad under all of it, the load in its middle: with its own mass m at c beside that the
 * pressure at a corner is (P ± 6 m g (c_x/L_x + c_y/L_y))/(L_x L_y), as long as no corner would
 * have to pull. The cheeks of a turning frame, D apart, take 2 c_x/D instead of 6 c_x/L_x.
 *
 * Tracks are strips with linear pressure (trn_ground_tracks); the greatest grows with the load,
 * with its distance from the middle along the tracks and from the middle between them, so that it
 * is taken at the greatest of each.
 *
 * A mat (ground-mat.h) spreads the load of its support as far as it is strong, and its own weight
 * comes to it. It is not
 * fixed to the gear and keeps no support down. What the pad presses the mat with is no matter of
 * the ground. */
#include "ground-check.h"

#include "gear-tolerance.h"
#include "gravity.h"
#include "ground.h"
#include "ground-mat.h"
#include "ground-share.h"
#include "hoist.h"
#include "hoist-lines.h"
#include "tolerances.h"

#include <string.h>

#define WEIGHTS_MAX 8

typedef struct _TrnGroundForce
{
  const TrnLiftCheck *check;
  const TrnGear *gear;
  guint move;
  TrnHookForce forces[2]; /* of the hoists that it holds the load by */
  guint n_forces;
  double off_m[2], boom_off_m, jib_off_m; /* how far tolerances take hooks, boom and jib */
  double pull_m[2];                       /* and how far aside a rope out of plumb pulls */
  const TrnGearFoot *supports;
  guint n_supports;
  TrnGearFoot one_pad;                        /* its only support, of gear that has one */
  TrnGroundShare share;                       /* but for tracks and one pad */
  double greatest_n[TRN_GROUND_SUPPORTS_MAX]; /* reactions, once they are found */
  gboolean is_tracks;
  gboolean is_empty;  /* without the load, block and rigging */
  gboolean is_bare;   /* asked is what a track presses its mats with */
  gboolean is_strong; /* mats of which the plan does not say what they bear bear anything */
  gboolean for_pull;  /* asked is how much a support would have to pull, else the pressure or … */
  int support;        /* … the reaction of this one; −1: the greatest pressure */
  TrnSpanMemo *kept;  /* weights over spans, without the load and with it; NULL: none are kept */
} Question;

G_STATIC_ASSERT (sizeof (TrnGroundWeight) == 3 * sizeof (TrnInterval));

static const char *const support_names[TRN_GROUND_SUPPORTS_MAX]
    = { "support-1",  "support-2",  "support-3",  "support-4",  "support-5",  "support-6",
        "support-7",  "support-8",  "support-9",  "support-10", "support-11", "support-12",
        "support-13", "support-14", "support-15", "support-16", "support-17", "support-18",
        "support-19", "support-20", "support-21", "support-22", "support-23", "support-24",
        "support-25", "support-26", "support-27", "support-28", "support-29", "support-30",
        "support-31", "support-32" };

/* ---- weights ---- */

/* Where a hook is, seen from its gear; and of the first, of a crane, its radius and the angle of
 * the boom. */
typedef struct
{
  TrnInterval x, y, radius, boom_rad;
} Hook;

static gboolean
find_hook (const Question *q, const TrnHookForce *force, TrnInterval s, Hook *hook)
{
  static const TrnRigQuantity quantities[]
      = { TRN_RIG_HOOK_LOCAL_X, TRN_RIG_HOOK_LOCAL_Y, TRN_RIG_RADIUS, TRN_RIG_BOOM_ANGLE };
  const gboolean slews = q->gear->kind == TRN_GEAR_CRANE && force == &q->forces[0];
  TrnInterval values[4] = { { 0, 0 } };
  if (!trn_rig_ask_all (q->check->run->rig, force->hoist, q->move, quantities, slews ? 4 : 2, s,
                        values))
    return FALSE;
  *hook = (Hook){ values[0], values[1], values[2], values[3] };
  return TRUE;
}

static TrnInterval
widen (TrnInterval a, double by)
{
  return trn_interval_add (a, (TrnInterval){ -by, by });
}

static TrnGroundWeight
along (double kg, TrnInterval out, TrnInterval e_x, TrnInterval e_y, double off_m)
{
  return (TrnGroundWeight){ trn_interval_point (kg), widen (trn_interval_mul (out, e_x), off_m),
                            widen (trn_interval_mul (out, e_y), off_m) };
}

/* What slews with the boom; returns their number, G_MAXUINT where it is not known where. */
static guint
add_slewing (const Question *q, const Hook *hook, TrnGroundWeight *weights)
{
  const TrnGear *gear = q->gear;
  if (!(hook->radius.lo > q->off_m[0]))
    return G_MAXUINT;
  TrnInterval radius = hook->radius, angle = hook->boom_rad;
  TrnInterval inverse = trn_interval_inverse (radius);
  TrnInterval e_x = trn_interval_clip (trn_interval_mul (hook->x, inverse), -1, 1);
  TrnInterval e_y = trn_interval_clip (trn_interval_mul (hook->y, inverse), -1, 1);
  TrnInterval foot = trn_interval_point (gear->boom_foot_out_m);
  TrnInterval boom = trn_interval_scale (trn_interval_cos (angle), gear->boom_length_m);
  guint n = 0;
  const double turned = G_PI / 2 * q->off_m[0] / radius.lo;
  weights[n++] = along (gear->slewing_mass_kg, trn_interval_point (gear->slewing_out_m), e_x, e_y,
                        fabs (gear->slewing_out_m) * turned);
  weights[n++] = along (gear->boom_mass_kg, trn_interval_add (foot, trn_interval_scale (boom, 0.5)),
                        e_x, e_y, q->boom_off_m);
  if (!gear->has_jib)
    return n;
  TrnInterval jib = trn_interval_scale (
      trn_interval_cos (trn_interval_sub (angle, trn_interval_point (gear->jib_offset_rad))),
      gear->jib_length_m / 2);
  weights[n++] = along (gear->jib_mass_kg, trn_interval_add (trn_interval_add (foot, boom), jib),
                        e_x, e_y, q->jib_off_m);
  return n;
}

/* All of them over @s; returns their number, 0 where they are not known. */
static guint
find_weights (const Question *q, TrnInterval s, TrnGroundWeight weights[WEIGHTS_MAX])
{
  guint n = 0;
  Hook hooks[2];
  for (guint i = 0; i < q->n_forces; i++)
    {
      const TrnHookForce *force = &q->forces[i];
      TrnInterval kg;
      if (!trn_hook_force_dynamic (force, s, &kg) || !find_hook (q, force, s, &hooks[i]))
        return 0;
      if (q->is_empty)
        kg = trn_interval_point (0);
      weights[n++] = (TrnGroundWeight){ kg, hooks[i].x, hooks[i].y };
    }
  weights[n++] = (TrnGroundWeight){ trn_interval_point (q->gear->mass_kg),
                                    trn_interval_point (q->gear->cog_x_m),
                                    trn_interval_point (q->gear->cog_y_m) };
  if (q->gear->kind == TRN_GEAR_CRANE)
    {
      guint n_slewing = add_slewing (q, &hooks[0], &weights[n]);
      if (n_slewing == G_MAXUINT)
        return 0;
      n += n_slewing;
    }
  for (guint i = 0; i < q->n_forces; i++)
    {
      weights[i].x = widen (weights[i].x, fmax (q->off_m[i], q->pull_m[i]));
      weights[i].y = widen (weights[i].y, fmax (q->off_m[i], q->pull_m[i]));
    }
  return n;
}

/* The same, once for all supports, which are asked about over the same spans. */
static guint
list_weights (const Question *q, TrnInterval s, TrnGroundWeight weights[WEIGHTS_MAX])
{
  TrnInterval kept[1 + 3 * WEIGHTS_MAX] = { { 0, 0 } };
  const guint what = q->is_empty;
  if (q->kept != NULL && trn_span_memo_get (q->kept, what, s, kept, G_N_ELEMENTS (kept)))
    {
      memcpy (weights, &kept[1], WEIGHTS_MAX * sizeof *weights);
      return (guint)kept[0].lo;
    }
  const guint n = find_weights (q, s, weights);
  if (q->kept == NULL || n == 0)
    return n;
  kept[0] = trn_interval_point (n);
  memcpy (&kept[1], weights, n * sizeof *weights);
  trn_span_memo_put (q->kept, what, s, kept, G_N_ELEMENTS (kept));
  return n;
}

/* ---- reactions ---- */

/* Of a turning frame each cheek bears half, since the pivot holds the load at its middle: that
 * counts as one pad of both. */
static gboolean
is_one_pad (const TrnGear *gear)
{
  return gear->kind == TRN_GEAR_TAIL_TROLLEY || gear->kind == TRN_GEAR_TURNING_FRAME;
}

/* N */
static TrnInterval
reaction (const Question *q, const TrnGroundWeight *weights, guint n, guint support)
{
  TrnInterval sum = trn_interval_point (0);
  if (!is_one_pad (q->gear))
    return trn_interval_scale (trn_ground_share_kg (&q->share, weights, n, support, q->for_pull),
                               TRN_GRAVITY_M_S2);
  for (guint i = 0; i < n; i++)
    sum = trn_interval_add (sum, weights[i].kg);
  return trn_interval_scale (sum, TRN_GRAVITY_M_S2);
}

/* By how much the pressure at a corner of the one pad differs from the mean, times its area: N. */
static double
slant_of_pad (const TrnGear *gear)
{
  if (!is_one_pad (gear))
    return 0;
  double across
      = gear->kind == TRN_GEAR_TURNING_FRAME ? 2 / gear->cheek_spacing_m : 6 / gear->size.x;
  double off = fabs (gear->cog_x_m) * across + 6 * fabs (gear->cog_y_m) / gear->size.y;
  return off * gear->mass_kg * TRN_GRAVITY_M_S2;
}

static gboolean
pressure_of_tracks (const Question *q, const TrnGroundWeight *weights, guint n, TrnInterval *value)
{
  const TrnGearFoot *a = &q->supports[0], *b = &q->supports[1];
  TrnInterval all = trn_interval_point (0), x = all, y = all;
  for (guint i = 0; i < n; i++)
    {
      all = trn_interval_add (all, weights[i].kg);
      x = trn_interval_add (x, trn_interval_mul (weights[i].kg, weights[i].x));
      y = trn_interval_add (y, trn_interval_mul (weights[i].kg, weights[i].y));
    }
  x = trn_interval_sub (trn_interval_div (x, all), trn_interval_point (0.5 * (a->x_m + b->x_m)));
  y = trn_interval_sub (trn_interval_div (y, all), trn_interval_point (0.5 * (a->y_m + b->y_m)));
  /* One track ahead of the other: farther from the middle of either. */
  double apart_m = 0.5 * fabs (a->x_m - b->x_m);
  TrnPressure pressure[2];
  gboolean stands = trn_ground_tracks (all.hi * TRN_GRAVITY_M_S2, trn_interval_size (x) + apart_m,
                                       trn_interval_size (y), fabs (a->y_m - b->y_m), a->pad_y_m,
                                       a->pad_x_m, pressure);
  const double track_pa = fmax (pressure[0].greatest_pa, pressure[1].greatest_pa);
  const double greatest = a->has_mat && !q->is_bare
                              ? trn_ground_mat_bears_track (a, track_pa, q->is_strong).pressure_pa
                              : track_pa;
  *value = trn_interval_widen (greatest, greatest, 1e-12);
  return stands && trn_interval_is_value (*value);
}

/* A TrnEnclosure. */
static gboolean
ask (gconstpointer data, TrnInterval s, TrnInterval *value)
{
  const Question *q = data;
  TrnGroundWeight weights[WEIGHTS_MAX];
  guint n = list_weights (q, s, weights);
  if (n == 0)
    return FALSE;
  if (q->is_tracks)
    return pressure_of_tracks (q, weights, n, value);
  *value = (TrnInterval){ -INFINITY, -INFINITY };
  for (guint i = 0; i < q->n_supports; i++)
    {
      if (q->support >= 0 && q->support != (int)i)
        continue;
      TrnInterval one = reaction (q, weights, n, i);
      TrnInterval corner = trn_interval_add (q->for_pull ? trn_interval_neg (one) : one,
                                             trn_interval_point (slant_of_pad (q->gear)));
      if (q->for_pull)
        one = corner;
      else if (q->support < 0)
        one = trn_ground_mat_pressure (&q->supports[i], corner, q->is_strong);
      if (isnan (one.hi))
        return FALSE;
      value->lo = fmax (value->lo, one.lo);
      value->hi = fmax (value->hi, one.hi);
    }
  return trn_interval_is_value (*value);
}

/* ---- the finding ---- */

static void
set_up (Question *q, const TrnLiftCheck *check, guint gear, guint move)
{
  const TrnHoist *hoists[2];
  guint n = trn_hoists_holding (check, move, hoists);
  *q = (Question){
    .check = check, .gear = &check->scene->programme->plan->gear[gear], .move = move, .support = -1
  };
  for (guint i = 0; i < n; i++)
    if (hoists[i] != NULL && hoists[i]->gear == gear)
      q->forces[q->n_forces++] = trn_hook_force_make (check, hoists[i], move);
  g_assert (q->n_forces > 0);
  guint n_cheeks = q->gear->kind == TRN_GEAR_TURNING_FRAME ? 2 : 1;
  q->one_pad = (TrnGearFoot){ .pad_x_m = n_cheeks * q->gear->size.x, .pad_y_m = q->gear->size.y };
  q->supports = q->gear->kind == TRN_GEAR_CRANE    ? q->gear->supports
                : q->gear->kind == TRN_GEAR_GANTRY ? q->gear->legs
                                                   : &q->one_pad;
  q->n_supports = q->gear->kind == TRN_GEAR_CRANE    ? q->gear->n_supports
                  : q->gear->kind == TRN_GEAR_GANTRY ? q->gear->n_legs
                                                     : 1;
  q->is_tracks = q->gear->kind == TRN_GEAR_CRANE && q->gear->support_kind == TRN_SUPPORT_TRACKS;
}

/* FALSE where there is no bound. */
static gboolean
set_off (Question *q)
{
  const TrnLiftCheck *check = q->check;
  const TrnRig *rig = check->rig;
  for (guint i = 0; i < q->n_forces; i++)
    {
      q->off_m[i] = trn_hook_tolerance (check, q->forces[i].hoist, q->move);
      q->pull_m[i] = trn_hoist_lines_pull_aside (check, q->forces[i].hoist, q->move);
    }
  for (guint i = 0; rig != NULL && i < rig->n_bodies; i++)
    {
      const TrnRigBody *body = &rig->bodies[i];
      if (body->place == G_MAXUINT || rig->places[body->place].gear != q->gear)
        continue;
      const double off_m = check->rig_tolerance_m[q->move * rig->n_bodies + i];
      if (body->part == TRN_PART_BOOM)
        q->boom_off_m = off_m;
      if (body->part == TRN_PART_JIB)
        q->jib_off_m = off_m;
    }
  return isfinite (q->off_m[0] + q->off_m[1] + q->boom_off_m + q->jib_off_m + q->pull_m[0]
                   + q->pull_m[1]);
}

/* For want of what there is none. */
static const char *
off_missing (const Question *q)
{
  const TrnRig *rig = q->check->rig;
  const char *missing = NULL;
  for (guint i = 0; missing == NULL && i < q->n_forces; i++)
    missing = isnan (q->off_m[i])
                  ? trn_lift_check_off_missing (q->check, q->move)
                  : trn_hoist_lines_pull_missing (q->check, q->forces[i].hoist, q->move);
  for (guint i = 0; missing == NULL && rig != NULL && i < rig->n_bodies; i++)
    if (rig->bodies[i].place != G_MAXUINT && rig->places[rig->bodies[i].place].gear == q->gear)
      missing = trn_gear_tolerance_missing (q->check, i, q->move);
  return missing != NULL ? missing : trn_lift_check_off_missing (q->check, q->move);
}

/* What of the masses is left out. */
static const char *
mass_missing (const Question *q)
{
  const TrnGear *gear = q->gear;
  for (guint i = 0; i < q->n_forces; i++)
    if (q->forces[i].missing_dynamic != NULL)
      return q->forces[i].missing_dynamic;
  if (isnan (gear->mass_kg))
    return "gear/mass";
  if (gear->kind != TRN_GEAR_CRANE)
    return NULL;
  if (isnan (gear->slewing_mass_kg) || isnan (gear->slewing_out_m))
    return "slewing";
  if (isnan (gear->boom_mass_kg))
    return "boom/mass";
  return gear->has_jib && isnan (gear->jib_mass_kg) ? "jib/mass" : NULL;
}

static const char *
supports_name (const Question *q)
{
  return q->gear->kind == TRN_GEAR_GANTRY ? "legs" : "supports";
}

static const char *
support_missing (const Question *q)
{
  guint least = is_one_pad (q->gear) ? 1 : q->is_tracks ? 2 : 3;
  if (q->n_supports < least || (q->is_tracks && q->n_supports != 2)
      || q->n_supports > TRN_GROUND_SUPPORTS_MAX)
    return !q->is_tracks && q->n_supports > 0 && q->n_supports < least ? "supports/three"
                                                                       : supports_name (q);
  return NULL;
}

/* FALSE where the supports hold nothing beside the line that they are in. */
static gboolean
set_shares (Question *q)
{
  TrnLevelPoint points[TRN_GROUND_SUPPORTS_MAX];
  if (q->is_tracks || is_one_pad (q->gear))
    return TRUE;
  for (guint i = 0; i < q->n_supports; i++)
    points[i] = (TrnLevelPoint){ q->supports[i].x_m, q->supports[i].y_m };
  return trn_ground_share_make (&q->share, points, q->n_supports);
}

static TrnWorst
find (const Question *q)
{
  return trn_worst_find (ask, q, (TrnInterval){ 0, 1 }, TRN_FORCE_SHARE);
}

/* Names the support that would have to pull most. */
static gboolean
add_pull (TrnFinding *finding, Question *q)
{
  double greatest_n = -INFINITY;
  guint most = 0;
  q->for_pull = TRUE;
  for (guint i = 0; i < q->n_supports; i++)
    {
      q->support = (int)i;
      TrnWorst worst = find (q);
      if (!worst.complete)
        return FALSE;
      if (worst.bound > greatest_n)
        {
          greatest_n = worst.bound;
          most = i;
        }
    }
  q->for_pull = FALSE;
  q->support = -1;
  trn_finding_add_number (finding, TRN_GROUND_LIFTED, most + 1, TRN_UNIT_NONE);
  trn_finding_add_number (finding, TRN_GROUND_PULL, greatest_n, TRN_UNIT_N);
  trn_finding_add_number (finding, TRN_GROUND_LIFTED_X, q->supports[most].x_m, TRN_UNIT_M);
  trn_finding_add_number (finding, TRN_GROUND_LIFTED_Y, q->supports[most].y_m, TRN_UNIT_M);
  return TRUE;
}

/* What each support bears, and whether one lifts off; FALSE where it is not known. */
static gboolean
set_reactions (TrnFinding *finding, Question *q)
{
  for (guint i = 0; i < q->n_supports && !q->is_tracks; i++)
    {
      q->support = (int)i;
      TrnWorst worst = find (q);
      if (!worst.complete)
        return FALSE;
      trn_finding_add_number (finding, support_names[i], worst.bound, TRN_UNIT_N);
      q->greatest_n[i] = worst.bound;
    }
  q->support = -1;
  if (q->is_tracks)
    return TRUE;
  q->for_pull = TRUE;
  TrnWorst pull = find (q);
  q->for_pull = FALSE;
  if (!pull.complete)
    return FALSE;
  if (pull.bound > 0)
    {
      finding->verdict = TRN_VERDICT_FAIL;
      finding->state = TRN_STATE_LIFTED;
      finding->progress = pull.met_s;
      return q->n_supports < 2 || add_pull (finding, q);
    }
  return TRUE;
}

/* Before it takes the load and when it has let go a crane stands with its boom as it does now, and
 * may tip over backwards. What is on the hook then is left out, as it helps. FALSE where it is not
 * known. */
static gboolean
set_empty (TrnFinding *finding, Question *q)
{
  if (q->gear->kind != TRN_GEAR_CRANE || finding->state == TRN_STATE_LIFTED)
    return TRUE;
  q->is_empty = TRUE;
  q->for_pull = !q->is_tracks;
  TrnWorst worst = find (q);
  q->is_empty = q->for_pull = FALSE;
  if (!worst.complete && !q->is_tracks)
    return FALSE;
  if (worst.complete && (q->is_tracks || worst.bound <= 0))
    return TRUE;
  finding->verdict = TRN_VERDICT_FAIL;
  finding->state = TRN_STATE_LIFTED;
  finding->item = "empty";
  finding->progress = worst.complete ? worst.met_s : worst.missing_s;
  return TRUE;
}

/* Where the ground bears too much, what the plan lets the mat bear, if that keeps it from bearing
 * over all of its length or width; below a track over its length. */
static void
add_mat_limit (TrnFinding *finding, const Question *q, const TrnGearFoot *foot,
               const TrnMatBears *is)
{
  const double x_m = foot->mat_size.x, y_m = foot->mat_size.y;
  const double length_m = q->is_tracks ? y_m : fmax (x_m, y_m);
  const gboolean is_along = is->length_m < length_m - TRN_CONTACT_M && !isnan (foot->mat_moment_nm);
  const gboolean is_across = !q->is_tracks && is->width_m < fmin (x_m, y_m) - TRN_CONTACT_M
                             && !isnan (foot->mat_moment_across_nm);
  if (finding->margin < 0 && (is_along || is_across))
    trn_finding_add_number (finding, TRN_GROUND_MAT_LEAST_STRONG,
                            is_along ? foot->mat_moment_nm : foot->mat_moment_across_nm,
                            TRN_UNIT_NM);
}

/* What bears of the mat that presses most, with the pressure found. */
static void
add_mats (TrnFinding *finding, Question *q)
{
  TrnMatBears most = { .pressure_pa = -INFINITY };
  const TrnGearFoot *foot = &q->supports[0];
  if (q->is_tracks && q->supports[0].has_mat)
    {
      q->is_bare = TRUE;
      const TrnWorst bare = find (q);
      q->is_bare = FALSE;
      if (bare.complete)
        most = trn_ground_mat_bears_track (&q->supports[0], bare.bound, q->is_strong);
    }
  for (guint i = 0; i < q->n_supports && !q->is_tracks; i++)
    {
      if (!q->supports[i].has_mat)
        continue;
      const TrnMatBears is = trn_ground_mat_bears (&q->supports[i], q->greatest_n[i], q->is_strong);
      if (!(is.pressure_pa > most.pressure_pa))
        continue;
      most = is;
      foot = &q->supports[i];
    }
  if (!isfinite (most.pressure_pa))
    return;
  trn_finding_add_number (finding, TRN_GROUND_MAT_LENGTH, most.length_m, TRN_UNIT_M);
  if (!q->is_tracks)
    trn_finding_add_number (finding, TRN_GROUND_MAT_WIDTH, most.width_m, TRN_UNIT_M);
  trn_finding_add_number (finding, TRN_GROUND_MAT_MOMENT, most.moment_nm, TRN_UNIT_NM);
  trn_finding_add_number (finding, TRN_GROUND_MAT_MOMENT_ACROSS, most.moment_across_nm,
                          TRN_UNIT_NM);
  add_mat_limit (finding, q, foot, &most);
}

/* Returns what is missing, static; NULL. A plan that does not say what its mats bear may pass where
 * they are not asked for anything, and fail where no strength of theirs would do. */
static const char *
set_pressure (TrnFinding *finding, Question *q)
{
  TrnWorst worst = find (q);
  finding->limit = q->gear->allowed_pressure_pa;
  if (!worst.complete)
    {
      /* Beyond the end of a track. */
      finding->verdict = q->is_tracks ? TRN_VERDICT_FAIL : TRN_VERDICT_UNKNOWN;
      finding->state = q->is_tracks ? TRN_STATE_LIFTED : TRN_STATE_UNKNOWN;
      finding->item = NULL;
      finding->progress = worst.missing_s;
      return NULL;
    }
  const char *unsaid = trn_ground_mats_unsaid (q->supports, q->n_supports, q->is_tracks);
  if (unsaid != NULL && worst.bound > finding->limit && finding->state != TRN_STATE_LIFTED)
    {
      q->is_strong = TRUE;
      worst = find (q);
      if (!worst.complete || worst.bound <= finding->limit)
        return unsaid;
    }
  finding->value = worst.bound;
  finding->margin = finding->limit - worst.bound;
  finding->utilisation = worst.bound / finding->limit;
  if (finding->state == TRN_STATE_LIFTED)
    return NULL;
  finding->progress = worst.met_s;
  if (isnan (finding->limit))
    return "ground/allowed_pressure";
  add_mats (finding, q);
  finding->verdict = finding->margin >= 0 ? TRN_VERDICT_PASS : TRN_VERDICT_FAIL;
  finding->state = finding->margin >= 0 ? TRN_STATE_WITHIN : TRN_STATE_OUTSIDE;
  return NULL;
}

static void
judge (TrnFinding *finding, Question *q)
{
  if (!set_reactions (finding, q) || !set_empty (finding, q))
    {
      finding->missing = "reach";
      return;
    }
  const char *missing = trn_ground_mats_missing (q->supports, q->n_supports);
  if (missing == NULL)
    missing = set_pressure (finding, q);
  finding->time_s = trn_lift_check_time (q->check, q->move, finding->progress);
  if (finding->state == TRN_STATE_UNKNOWN)
    finding->missing = missing;
}

TrnFinding
trn_ground_judge (const TrnLiftCheck *check, guint gear, guint move)
{
  TrnFinding finding = trn_lift_check_finding (check, TRN_CHECK_GROUND, (int)move, NULL, NAN);
  Question q;
  finding.body = check->scene->programme->plan->gear[gear].id;
  finding.unit = TRN_UNIT_PA;
  if (trn_progress_is_cancelled (check->options->progress))
    return finding;
  set_up (&q, check, gear, move);
  finding.source = q.gear->pressure_source;
  finding.missing = trn_hoist_place (check, q.forces[0].hoist) == NULL ? "at" : mass_missing (&q);
  if (finding.missing == NULL)
    finding.missing = support_missing (&q);
  if (finding.missing == NULL && !set_shares (&q))
    finding.missing = supports_name (&q);
  if (finding.missing != NULL)
    return finding;
  if (!set_off (&q))
    {
      finding.missing = off_missing (&q);
      return finding;
    }
  q.kept = trn_span_memo_new ();
  judge (&finding, &q);
  trn_span_memo_free (q.kept);
  return finding;
}

/* ---- at a moment ---- */

TrnGroundForce *
trn_ground_force_new (const TrnLiftCheck *check, guint gear, guint move)
{
  Question *q = g_new0 (Question, 1);
  set_up (q, check, gear, move);
  if (trn_ground_force_missing (q) == NULL)
    set_shares (q);
  return q;
}

void
trn_ground_force_free (TrnGroundForce *force)
{
  g_free (force);
}

const char *
trn_ground_force_missing (const TrnGroundForce *force)
{
  const char *missing = trn_hoist_place (force->check, force->forces[0].hoist) == NULL
                            ? "at"
                            : mass_missing (force);
  if (missing == NULL)
    missing = support_missing (force);
  if (missing == NULL)
    missing = trn_ground_mats_missing (force->supports, force->n_supports);
  return missing;
}

gboolean
trn_ground_force_pressure (const TrnGroundForce *force, TrnInterval s, TrnInterval *pressure_pa)
{
  if (trn_ground_force_missing (force) != NULL || !ask (force, s, pressure_pa))
    return FALSE;
  const double limit_pa = force->gear->allowed_pressure_pa;
  if (!(pressure_pa->hi > limit_pa)
      || trn_ground_mats_unsaid (force->supports, force->n_supports, force->is_tracks) == NULL)
    return TRUE;
  /* As in set_pressure(). */
  Question strong = *force;
  strong.is_strong = TRUE;
  return ask (&strong, s, pressure_pa) && pressure_pa->hi > limit_pa;
}
