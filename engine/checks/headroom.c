/* Crane: the tip has to stay hook_to_tip above the hook, and no nearer than the block is high,
 * which goes from the hook up. Where the boom stands follows from the hook, so the height of the
 * tip above the hook is one quantity, whose least value over the move is certified. A hook that is
 * off by o takes its own height by o, and the tip by no more than the bound of trn_rig_tolerance
 * for the part of the boom that carries it: both are taken off.
 *
 * Gantry: the hook has to stay below the top of its window, and the block below what it hangs from:
 * the trolley, or the header where it does not fit between two of its beams. Off by o the hook is o
 * higher. The lower of the two counts, and what is needed is the height of the hook or of the top
 * of the block.
 *
 * What is shown are the heights above the site's z = 0 at the moment when least is left. */
#include "headroom.h"

#include "gear-tolerance.h"

#define ROUNDING_SHARE 1e-12 /* some dozen roundings of a double */

static double
tip_tolerance (const TrnLiftCheck *check, const TrnGear *gear, guint move, double off_m)
{
  TrnRigPart part = gear->has_jib ? TRN_PART_JIB : TRN_PART_BOOM;
  for (guint i = 0; check->rig != NULL && i < check->rig->n_bodies; i++)
    {
      const TrnRigBody *body = &check->rig->bodies[i];
      if (body->part == part && body->place != G_MAXUINT
          && check->rig->places[body->place].gear == gear)
        return trn_rig_tolerance (check->rig, i, move, off_m);
    }
  return NAN;
}

/* What has to be free between hook and tip. */
static double
above_hook (const TrnHoist *hoist, const TrnGear *gear)
{
  if (isnan (gear->hook_to_tip_m) || !hoist->has_block)
    return gear->hook_to_tip_m;
  return fmax (gear->hook_to_tip_m, hoist->block_height_m);
}

/* Whether the block, an octagon about its diameter, goes up between the two beams of the header. */
static gboolean
fits_between (const TrnHoist *hoist, const TrnGear *gear)
{
  double across_m = hoist->block_diameter_m / cos (G_PI / 8);
  return gear->header_spacing_m - gear->header_width_m > across_m;
}

/* What the block runs against when it is drawn up, above the base; infinite: nothing. */
static double
block_limit (const TrnHoist *hoist, const TrnGear *gear)
{
  double limit_m = gear->has_trolley ? gear->trolley_underside_m : INFINITY;
  if (gear->has_header && !fits_between (hoist, gear))
    limit_m = fmin (limit_m, gear->header_underside_m);
  return hoist->has_block ? limit_m : INFINITY;
}

/* Whether the block of a gantry runs against something before the hook is at the top of its
 * window. */
static gboolean
block_is_first (const TrnHoist *hoist, const TrnGear *gear)
{
  return gear->kind == TRN_GEAR_GANTRY
         && block_limit (hoist, gear) - hoist->block_height_m < gear->window_hook.hi;
}

static TrnHoistLimit
limit_of (const TrnLiftCheck *check, const TrnHoist *hoist, guint move)
{
  const TrnGear *gear = trn_hoist_gear (check, hoist);
  double off_m = trn_hook_tolerance (check, hoist, move);
  TrnHoistLimit limit = { .unit = TRN_UNIT_M };
  if (gear->kind == TRN_GEAR_CRANE)
    {
      double tip_m = off_m > 0 ? tip_tolerance (check, gear, move, off_m) : 0;
      limit.quantity = TRN_RIG_TIP_ABOVE_HOOK;
      limit.limits = (TrnInterval){ above_hook (hoist, gear), INFINITY };
      limit.allowance.lo = off_m + tip_m;
      limit.missing = "hook_to_tip";
      return limit;
    }
  limit.quantity = TRN_RIG_HOOK_LOCAL_HEIGHT;
  limit.limits = (TrnInterval){ -INFINITY, gear->window_hook.hi };
  if (block_is_first (hoist, gear))
    limit.limits.hi = block_limit (hoist, gear) - hoist->block_height_m;
  limit.allowance.hi = off_m;
  limit.missing = "window/hook";
  return limit;
}

/* The lowest point of the load: of the tree only nodes that may go below what was found. */
static double
underside (const TrnBvh *bvh, const TrnPose *pose)
{
  guint32 stack[(TRN_BVH_CHILDREN - 1) * TRN_BVH_MAX_DEPTH + TRN_BVH_CHILDREN];
  guint n = 0;
  double least_m = INFINITY;
  stack[n++] = 0;
  while (n > 0)
    {
      const TrnBvhNode *node = &bvh->nodes[stack[--n]];
      const TrnVec3 middle = trn_bvh_centre (node), centre = trn_pose_apply (pose, middle);
      const double rounding_m
          = ROUNDING_SHARE * (trn_vec3_max_abs (middle) + trn_vec3_max_abs (pose->position));
      if (centre.z - (double)node->radius_m - rounding_m > least_m)
        continue;
      for (guint i = 0; i < node->n_children; i++)
        stack[n++] = node->child + i;
      for (guint32 i = 0; node->n_children == 0 && i < node->count; i++)
        {
          TrnVec3 c[3];
          trn_mesh_corners (bvh->mesh, bvh->order[node->first + i], c);
          for (int k = 0; k < 3; k++)
            {
              const double here_m = trn_pose_apply (pose, c[k]).z;
              least_m = MIN (least_m, here_m);
            }
        }
    }
  return least_m;
}

static void
add_item (GArray *items, const char *what, double m)
{
  TrnFindingItem item = { what, m };
  g_array_append_val (items, item);
}

/* What comes on top of the hook's height. */
static void
set_above_hook (TrnFinding *finding, const TrnLiftCheck *check, const TrnHoist *hoist,
                double hook_m)
{
  const TrnGear *gear = trn_hoist_gear (check, hoist);
  double above_m = 0;
  if (gear->kind == TRN_GEAR_CRANE)
    {
      above_m = above_hook (hoist, gear);
      add_item (finding->items, above_m > gear->hook_to_tip_m ? "block" : "hook-to-tip", above_m);
    }
  else if (block_is_first (hoist, gear))
    {
      above_m = hoist->block_height_m;
      add_item (finding->items, "block", above_m);
    }
  finding->value = hook_m + above_m;
}

/* What the needed height is the sum of, at the moment found. */
static void
set_items (TrnFinding *finding, const TrnLiftCheck *check, const TrnHoist *hoist, guint move)
{
  const TrnGear *gear = trn_hoist_gear (check, hoist);
  const TrnLift *lift = check->run->lift;
  double s = finding->progress;
  TrnPose pose = trn_motion_pose (&check->run->motions[move], s);
  gboolean is_tail = hoist == &lift->rigging.tail, is_crane = gear->kind == TRN_GEAR_CRANE;
  double below_m = underside (check->load->bvh, &pose);
  double point_m = trn_pose_apply (&pose, is_tail ? hoist->point : lift->hook.place).z;
  double hook_m = trn_hoist_value (check, hoist, move, s, TRN_RIG_HOOK_HEIGHT, 0);
  finding->items = g_array_new (FALSE, FALSE, sizeof (TrnFindingItem));
  add_item (finding->items, "load-underside", below_m);
  add_item (finding->items, "load-to-hook-point", point_m - below_m);
  add_item (finding->items, "rigging", hook_m - point_m);
  set_above_hook (finding, check, hoist, hook_m);
  if (is_crane)
    finding->limit = trn_hoist_value (check, hoist, move, s, TRN_RIG_TIP_HEIGHT, 0);
  else
    finding->limit
        = trn_hoist_place (check, hoist)->site_from_gear.position.z
          + (block_is_first (hoist, gear) ? block_limit (hoist, gear) : gear->window_hook.hi);
}

TrnFinding
trn_headroom_judge (const TrnLiftCheck *check, const TrnHoist *hoist, guint move)
{
  const TrnGear *gear = trn_hoist_gear (check, hoist);
  TrnHoistLimit limit = limit_of (check, hoist, move);
  TrnFinding finding = trn_hoist_judge (check, TRN_CHECK_HEADROOM, hoist, move, gear->id, &limit);
  if (finding.state == TRN_STATE_OUT_OF_REACH)
    {
      /* How high the hook could go has no answer there; the check reach says why. */
      finding.verdict = TRN_VERDICT_UNKNOWN;
      finding.state = TRN_STATE_UNKNOWN;
      finding.missing = "reach";
    }
  if (isfinite (finding.margin))
    {
      set_items (&finding, check, hoist, move);
      /* What is needed is no more than what is there, whatever was judged of it. */
      finding.limit_is_least = FALSE;
    }
  if (finding.state == TRN_STATE_OUTSIDE)
    finding.state = TRN_STATE_SHORT;
  return finding;
}
