/* The sling is straight from its point of the load to the hook or the beam, as thick as it is, and
 * all of it counts beyond TRN_OWN_LOAD_LEFT_OUT_M from the point, or beyond its middle where it is
 * shorter than twice that. What the load turns by about a level axis off its motion, λ, is the sum
 * of the tolerance of tilt, or of what it leans by with its tail where that is more (load-lean.h),
 * of its lean wherever its centre of gravity is in its box, of hooks out of level, and of what wind
 * and swinging turn it by (wind-aside.h, swinging.h): as seen from the load the sling turns about
 * its point by no more. Wind turns legs and load alike as far as it turns them about one hook; that
 * counts too. At the distance t from its point the sling goes 2 t sin (λ/2). So it is cut into
 * parts, each twice as long as the one before, and each is taken for as much thicker as that is at
 * its far end.
 *
 * Where the move does not tilt the load, hook and beam stay where they are as seen from it: one
 * moment stands for all.
 *
 * A hook block, a beam and a sling between hook and beam are swept whole, at every moment, since a
 * block keeps the heading of its gear. As seen from the load each hangs from points of it, and
 * goes no farther than if it turned about them by λ: no part of it is farther from any of them than
 * from the hook's own point, and from that to the farthest one, together. Where it swings a beam
 * may turn about the plumb line by more, its ends by b √(L a s/w) (swing.c), but those go no
 * farther than s λ, which is b √(L s (1 + 2 a/w)) at least. */
#include "own-load.h"

#include "hang.h"
#include "hoist.h"
#include "hook-force.h"
#include "limb-sweep.h"
#include "load-lean.h"
#include "swinging.h"
#include "tolerances.h"

/* Farther than this the least distance is found as a share of it. */
#define FAR_M 0.1
#define NO_SLING G_MAXUINT

typedef struct
{
  const TrnLiftCheck *check;
  const TrnHoist *hoist;
  guint index, move;
  double lean_rad, longest_m;
} Case;

/* From @from to @to of the way up, from 0 to 1. */
typedef struct
{
  const Case *c;
  double from, to;
} Part;

gboolean
trn_own_load_means (const TrnLiftCheck *check, const TrnHoist *hoist, guint index)
{
  const TrnSling *sling = &hoist->slings[index];
  return check->rig != NULL && !sling->to_beam
         && !trn_rig_names_connected (check->rig, sling->id, "load");
}

static TrnJet3
up_by (TrnJet3 foot, TrnJet3 way, double share)
{
  return trn_jet3_add (foot, (TrnJet3){ trn_jet_scale (way.x, share), trn_jet_scale (way.y, share),
                                        trn_jet_scale (way.z, share) });
}

static gboolean
corners_of (gconstpointer data, TrnInterval s, TrnJet3 corners[TRN_LIMB_CORNERS])
{
  const Part *part = data;
  const Case *c = part->c;
  TrnJet3 ends[2];
  trn_hang_sling (c->check->rig, c->hoist, c->index, c->move, s, ends);
  const TrnJet3 way = trn_hang_sling_way (c->check->rig, c->hoist, c->index, c->move, s);
  corners[0] = up_by (ends[1], way, part->from);
  corners[1] = up_by (ends[1], way, part->to);
  return trn_jet3_is_smooth (&corners[0]) && trn_jet3_is_smooth (&corners[1]);
}

/* How near @limb comes to the load, from the start of the move to its share @to. */
static TrnSweepResult
sweep_limb (const Case *c, const TrnLimb *limb, double to)
{
  const TrnLiftCheck *check = c->check;
  const TrnLimbPair pair = { .limb = limb,
                             .span = { 0, to },
                             .obstacle = { check->load->bvh, check->load->check },
                             .motion = &check->run->motions[c->move],
                             .site_from_obstacle = trn_pose_identity () };
  const TrnSweepOptions options = { .width_m = check->certify_m,
                                    .far_m = FAR_M,
                                    .far_share = TRN_FAR_SHARE,
                                    .max_steps = check->options->max_steps,
                                    .jobs = 1,
                                    .progress = check->options->progress };
  return trn_limb_sweep_minimum (&pair, &options);
}

/* How near a part comes to the load, as thick as the sling and @more_m all round. */
static TrnSweepResult
sweep_part (const Part *part, double more_m)
{
  const Case *c = part->c;
  const TrnLimb limb = { .n_corners = 2,
                         .radius_m = 0.5 * c->hoist->slings[c->index].diameter_m + more_m,
                         .corners = corners_of,
                         .data = part };
  return sweep_limb (c, &limb, trn_motion_tilts (&c->check->run->motions[c->move]) ? 1 : 0);
}

static void
add_item (TrnFinding *finding, const char *what, double m)
{
  const TrnFindingItem item = { what, m };
  if (finding->items == NULL)
    finding->items = g_array_new (FALSE, FALSE, sizeof (TrnFindingItem));
  g_array_append_val (finding->items, item);
}

/* How far from the point of the load the place is at which they are nearest. */
static double
along_m (const Case *c, const TrnSweepResult *result)
{
  const TrnVec3 foot = c->hoist->slings[c->index].to;
  const TrnPose pose = trn_motion_pose (&c->check->run->motions[c->move], result->s);
  return trn_vec3_distance (trn_pose_apply (&pose, foot), result->on_body);
}

static gboolean
touches (const TrnSweepResult *result)
{
  return result->upper_m <= TRN_CONTACT_M || result->inside == TRN_INSIDE_YES
         || (result->complete && result->lower_m <= 0);
}

typedef enum
{
  PART_CLEAR,
  PART_OPEN, /* cut short */
  PART_TOUCHES,
} PartState;

/* Keeps what the part leaves where that is less than what was found so far. */
static PartState
judge_part (const Part *part, TrnFinding *finding, double *found_along_m)
{
  const Case *c = part->c;
  const double more_m
      = c->check->load->off_m + 2 * part->to * c->longest_m * sin (0.5 * c->lean_rad);
  TrnSweepResult result = sweep_part (part, more_m);
  const gboolean fails = touches (&result);
  if (!fails && !result.complete)
    return PART_OPEN;
  if (!fails && result.lower_m >= finding->margin)
    return PART_CLEAR;
  finding->value = result.lower_m + more_m;
  if (fails)
    {
      /* By itself, without what tolerances do. */
      const TrnSweepResult alone = more_m > 0 ? sweep_part (part, 0) : result;
      if (!touches (&alone) && !alone.complete)
        return PART_OPEN;
      finding->value = touches (&alone) ? 0 : alone.lower_m;
      result = isfinite (alone.upper_m) ? alone : result;
    }
  finding->margin = fails ? fmin (0, finding->value - more_m) : result.lower_m;
  finding->allowance_m = more_m;
  finding->progress = result.s;
  finding->time_s = trn_lift_check_time (c->check, c->move, result.s);
  *found_along_m = along_m (c, &result);
  return fails ? PART_TOUCHES : PART_CLEAR;
}

static void
judge_parts (const Case *c, TrnFinding *finding)
{
  const double first_m = fmin (TRN_OWN_LOAD_LEFT_OUT_M, 0.5 * c->longest_m);
  double found_along_m = NAN;
  PartState worst = PART_CLEAR;
  finding->margin = INFINITY;
  for (double from_m = first_m; from_m < c->longest_m && worst != PART_TOUCHES; from_m *= 2)
    {
      const Part part = { c, from_m / c->longest_m, fmin (1, 2 * from_m / c->longest_m) };
      const PartState state = judge_part (&part, finding, &found_along_m);
      worst = MAX (worst, state);
    }
  if (worst == PART_OPEN)
    {
      finding->margin = finding->value = finding->allowance_m = finding->progress = NAN;
      finding->time_s = NAN;
      return;
    }
  add_item (finding, "left-out", first_m);
  add_item (finding, "along", found_along_m);
  finding->verdict = worst == PART_CLEAR ? TRN_VERDICT_PASS : TRN_VERDICT_FAIL;
  finding->state = worst == PART_CLEAR ? TRN_STATE_WITHIN : TRN_STATE_OUTSIDE;
}

/* The input without which it is not known how the sling goes, or how far it turns. */
static const char *
find_case (Case *c)
{
  const TrnCarried carried = trn_carried_make (c->check, c->move);
  const char *missing = trn_rig_missing (
      c->check->rig, c->hoist, c->index == NO_SLING ? TRN_RIG_HOOK_HEIGHT : TRN_RIG_SLING_LENGTH);
  if (missing != NULL)
    return missing;
  const double hung_rad = trn_load_lean_most_rad (c->check, c->move);
  if (isnan (hung_rad))
    return carried.has_cog ? "lean" : "cog";
  c->lean_rad = trn_lift_check_leans (c->check, c->move, hung_rad);
  const char *unbounded = c->check->run->hangs[c->move].unbounded;
  if (isnan (c->lean_rad))
    return unbounded != NULL ? unbounded : "cog_box";
  const TrnAllowance *allowance = &c->check->allowances[c->move];
  if (isnan (allowance->wind_rad))
    return allowance->missing != NULL ? allowance->missing : "wind/far";
  c->lean_rad += allowance->wind_rad + trn_swinging_against_rad (c->check, c->move);
  if (isnan (c->lean_rad))
    return allowance->missing;
  if (!(c->lean_rad < G_PI / 2))
    return "tolerance";
  if (c->index == NO_SLING)
    return NULL;
  const TrnExtremes length = trn_hoist_extremes (c->check, c->hoist, c->move, TRN_RIG_SLING_LENGTH,
                                                 c->index, c->check->certify_m);
  c->longest_m = length.greatest.hi;
  return length.complete && c->longest_m > 0 ? NULL : "reach";
}

gboolean
trn_own_load_means_body (const TrnLiftCheck *check, const TrnHoist *hoist, guint body)
{
  const TrnRigBody *b = &check->rig->bodies[body];
  if (b->hoist != hoist || trn_rig_names_connected (check->rig, b->id, "load"))
    return FALSE;
  return b->part == TRN_PART_BLOCK || b->part == TRN_PART_BEAM
         || (b->part == TRN_PART_SLING && hoist->slings[b->index].to_beam);
}

/* No part of what is between load and rope is farther from a point that it hangs from. */
static double
farthest_m (const Case *c)
{
  const TrnRig *rig = c->check->rig;
  const TrnHoist *hoist = c->hoist;
  const TrnLiftBeam *beam = &hoist->beam;
  double hook_m = trn_hang_hook_above (rig, hoist).hi, points_m = 0;
  const TrnRigHung *hung = trn_hang_hung (rig, hoist, c->move);
  if (hung != NULL)
    hook_m = fmax (hook_m, trn_vec3_distance (hung->hook, hoist->point));
  for (guint i = 0; i < hoist->n_slings; i++)
    if (!hoist->slings[i].to_beam)
      points_m = fmax (points_m, trn_vec3_distance (hoist->slings[i].to, hoist->point));
  const double block_m = hoist->has_block ? hoist->block_height_m + hoist->block_diameter_m : 0;
  const double beam_m
      = hoist->has_beam ? beam->below_hook_m + 0.5 * beam->length_m + beam->width_m + beam->depth_m
                        : 0;
  return hook_m + points_m + fmax (block_m, beam_m);
}

static void
judge_body (const Case *c, guint body, TrnFinding *finding)
{
  const TrnLiftCheck *check = c->check;
  const double more_m = check->load->off_m + 2 * farthest_m (c) * sin (0.5 * c->lean_rad);
  TrnRigLimb store;
  TrnLimb limb = trn_rig_limb (check->rig, body, c->move, &store);
  limb.radius_m += more_m;
  TrnSweepResult result = sweep_limb (c, &limb, 1);
  const gboolean fails = touches (&result);
  if (!fails && !result.complete)
    return;
  double value_m = result.lower_m + more_m;
  if (fails)
    {
      limb.radius_m -= more_m;
      const TrnSweepResult alone = more_m > 0 ? sweep_limb (c, &limb, 1) : result;
      if (!touches (&alone) && !alone.complete)
        return;
      value_m = touches (&alone) ? 0 : alone.lower_m;
      result = isfinite (alone.upper_m) ? alone : result;
    }
  finding->value = value_m;
  finding->margin = fails ? fmin (0, finding->value - more_m) : result.lower_m;
  finding->allowance_m = more_m;
  finding->progress = result.s;
  finding->time_s = trn_lift_check_time (check, c->move, result.s);
  finding->verdict = fails ? TRN_VERDICT_FAIL : TRN_VERDICT_PASS;
  finding->state = fails ? TRN_STATE_OUTSIDE : TRN_STATE_WITHIN;
}

static TrnFinding
finding_make (const Case *c, const char *id)
{
  TrnFinding finding
      = trn_lift_check_finding (c->check, TRN_CHECK_RIGGING, (int)c->move, NULL, NAN);
  finding.body = id;
  finding.item = TRN_OWN_LOAD_ITEM;
  finding.unit = TRN_UNIT_M;
  finding.limit = 0;
  finding.limit_is_least = TRUE;
  finding.allowance_m = NAN;
  return finding;
}

TrnFinding
trn_own_load_judge (const TrnLiftCheck *check, const TrnHoist *hoist, guint move, guint index)
{
  Case c = { .check = check, .hoist = hoist, .index = index, .move = move };
  TrnFinding finding = finding_make (&c, hoist->slings[index].id);
  if (trn_progress_is_cancelled (check->options->progress))
    return finding;
  finding.missing = find_case (&c);
  if (finding.missing == NULL)
    judge_parts (&c, &finding);
  return finding;
}

TrnFinding
trn_own_load_judge_body (const TrnLiftCheck *check, const TrnHoist *hoist, guint move, guint body)
{
  Case c = { .check = check, .hoist = hoist, .index = NO_SLING, .move = move };
  TrnFinding finding = finding_make (&c, check->rig->bodies[body].id);
  if (trn_progress_is_cancelled (check->options->progress))
    return finding;
  finding.missing = find_case (&c);
  if (finding.missing == NULL)
    judge_body (&c, body, &finding);
  return finding;
}
