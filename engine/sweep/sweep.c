#include "sweep.h"

#include "search.h"
#include "spans.h"
#include "tolerances.h"

/* A bound takes about a microsecond: a sweep that is not done after this many, some minutes, is cut
 * short with what was proven. */
#define DEFAULT_STEPS 200000000u

/* The proof that a span of time is free of contact is given up after this many bounds, and the span
 * split: it is then taken for contact only where it is as short as the resolution. */
#define FREE_STEPS 2000000u

/* More spans of time than this are not looked at one by one; the rest counts as contact. */
#define MOST_CELLS 2000000u

double
trn_sweep_reach (const TrnBvh *body, const TrnMotion *motion)
{
  const TrnBvhNode *root = &body->nodes[0];
  return trn_motion_reach (motion, trn_bvh_centre (root)) + (double)root->radius_m;
}

/* A distance that is attained at @s, at most @tolerance_m above the least there. */
static TrnDistance
distance_at (const TrnSweepPair *pair, double s, double limit_m, double tolerance_m,
             const TrnDistanceHint *hint)
{
  TrnPose obstacle_from_body = trn_search_pose (pair, s);
  TrnPose identity = trn_pose_identity ();
  return trn_mesh_distance_within (pair->body.bvh, &obstacle_from_body, pair->obstacle.bvh,
                                   &identity, limit_m, tolerance_m, hint);
}

static TrnInside
inside_at (const TrnSweepPair *pair, double s)
{
  TrnPose obstacle_from_body = trn_search_pose (pair, s);
  TrnPose identity = trn_pose_identity ();
  return trn_mesh_inside (pair->body.bvh, pair->body.check, &obstacle_from_body, pair->obstacle.bvh,
                          pair->obstacle.check, &identity);
}

TrnSweepResult
trn_sweep_minimum (const TrnSweepPair *pair, const TrnSweepOptions *options)
{
  g_assert (options->width_m > 0);
  g_assert (0 <= pair->span.lo && pair->span.lo <= pair->span.hi && pair->span.hi <= 1);
  TrnSearchGoal goal = {
    .width_m = options->width_m,
    .far_m = options->far_m,
    .far_share = options->far_share,
    .max_steps = options->max_steps > 0 ? options->max_steps : DEFAULT_STEPS,
    .jobs = options->jobs,
    .progress = options->progress,
  };
  TrnSearchResult found = trn_search_run (pair, pair->span, &goal);
  if (found.lower_m <= 0 && found.upper_m > TRN_CONTACT_M && found.complete)
    {
      goal.width_m = fmin (goal.width_m, TRN_CONTACT_M); /* whether they touch is to be told */
      guint64 steps = found.steps;
      found = trn_search_run (pair, pair->span, &goal);
      found.steps += steps;
    }

  TrnSweepResult result = {
    .lower_m = CLAMP (found.lower_m, 0, found.upper_m),
    .upper_m = found.upper_m,
    .s = found.s,
    .on_body = trn_pose_apply (&pair->site_from_obstacle, found.on_body),
    .on_obstacle = trn_pose_apply (&pair->site_from_obstacle, found.on_obstacle),
    .inside = TRN_INSIDE_NO,
    .complete = found.complete,
    .steps = found.steps,
  };
  /* Where the surfaces never meet, one pose decides about the inside for all of the span; where
   * they may meet, the distance says so itself. */
  if (result.upper_m > TRN_CONTACT_M)
    result.inside = inside_at (pair, result.s);
  if (result.upper_m <= TRN_CONTACT_M || result.inside == TRN_INSIDE_YES)
    {
      result.lower_m = result.upper_m = 0;
      result.complete = TRUE;
    }
  return result;
}

/* ---- when they touch ---- */

typedef struct
{
  const TrnSweepPair *pair;
  double resolution_s, rounding_m;
  const TrnProgress *progress;
  TrnDistanceHint hint;
  gboolean has_hint;
  guint cells;
  gboolean complete;
  GArray *spans;
} Contacts;

static gboolean
touches_at (Contacts *contacts, double s)
{
  double limit = TRN_CONTACT_M + contacts->rounding_m;
  TrnDistance d
      = distance_at (contacts->pair, s, limit, limit, contacts->has_hint ? &contacts->hint : NULL);
  if (!(d.distance_m < limit))
    return FALSE;
  contacts->hint = d.pair;
  contacts->has_hint = TRUE;
  return TRUE;
}

static gboolean
proven_free (const Contacts *contacts, TrnInterval span)
{
  TrnSearchGoal goal = {
    .free_m = TRN_CONTACT_M + 2 * contacts->rounding_m,
    .least_s = contacts->resolution_s / 16,
    .max_steps = FREE_STEPS,
    .progress = contacts->progress,
  };
  TrnSearchResult found = trn_search_run (contacts->pair, span, &goal);
  return found.complete && found.lower_m >= goal.free_m;
}

static void
find_contacts (Contacts *contacts, TrnInterval span)
{
  if (trn_progress_is_cancelled (contacts->progress) || contacts->cells >= MOST_CELLS)
    {
      contacts->complete = FALSE;
      trn_spans_add (contacts->spans, span);
      return;
    }
  contacts->cells++;
  double middle = trn_interval_middle (span);
  if (!touches_at (contacts, middle) && proven_free (contacts, span))
    return;
  if (trn_interval_width (span) <= contacts->resolution_s)
    {
      trn_spans_add (contacts->spans, span);
      return;
    }
  find_contacts (contacts, (TrnInterval){ span.lo, middle });
  find_contacts (contacts, (TrnInterval){ middle, span.hi });
}

static gboolean
is_inside (gconstpointer pair, double s)
{
  return inside_at (pair, s) == TRN_INSIDE_YES;
}

gboolean
trn_sweep_contacts (const TrnSweepPair *pair, double resolution_s, const TrnProgress *progress,
                    GArray *spans)
{
  g_assert (resolution_s > 0);
  Contacts contacts = {
    .pair = pair,
    .resolution_s = resolution_s,
    .rounding_m = trn_search_rounding (pair),
    .progress = progress,
    .complete = TRUE,
    .spans = g_array_new (FALSE, FALSE, sizeof (TrnInterval)),
  };
  if (trn_motion_speed (pair->motion, 1) == 0)
    contacts.resolution_s = 1; /* one pose stands for all of it */
  find_contacts (&contacts, pair->span);
  trn_spans_fill (contacts.spans, pair->span, is_inside, pair, spans);
  g_array_unref (contacts.spans);
  return contacts.complete;
}

/* ---- when they are apart ---- */

typedef struct
{
  const TrnSweepPair *pair;
  double distance_m, resolution_s, rounding_m;
  gboolean backwards;
  const TrnProgress *progress;
  TrnDistanceHint hint;
  gboolean has_hint;
} Reach;

/* Some place where the two are nearer than the distance asked for; FALSE where there is none. Any
 * will do, and the one found last time is tried first and mostly serves: the nearest is not worth
 * finding where thousands of triangles are about as near. */
static gboolean
find_near (Reach *reach, double s, TrnDistance *found)
{
  double limit_m = reach->distance_m + reach->rounding_m;
  *found = distance_at (reach->pair, s, limit_m, limit_m, reach->has_hint ? &reach->hint : NULL);
  if (isinf (found->distance_m))
    return FALSE;
  reach->hint = found->pair;
  reach->has_hint = TRUE;
  return TRUE;
}

static gboolean
is_apart (Reach *reach, double s)
{
  TrnDistance near;
  return !find_near (reach, s, &near) && !is_inside (reach->pair, s);
}

/* One within the other stays there for as long as their surfaces, found at least the distance asked
 * for apart at the middle of the span, cannot meet. */
static gboolean
stays_inside (const Reach *reach, TrnInterval span)
{
  const TrnMotion *motion = reach->pair->motion;
  double all = trn_sweep_reach (reach->pair->body.bvh, motion);
  double goes = trn_motion_displacement (motion, all, span.lo, span.hi);
  return goes + reach->rounding_m < reach->distance_m
         && inside_at (reach->pair, trn_interval_middle (span)) == TRN_INSIDE_YES;
}

/* The two cannot come apart within the span when even a point of the body that is near at its
 * middle stays near: that one goes no farther than its own displacement. */
static gboolean
stays_near (Reach *reach, TrnInterval span)
{
  TrnDistance near;
  if (!find_near (reach, trn_interval_middle (span), &near))
    return stays_inside (reach, span);
  TrnPose obstacle_from_body = trn_search_pose (reach->pair, trn_interval_middle (span));
  TrnVec3 on_body = trn_pose_apply_inverse (&obstacle_from_body, near.on_a);
  double own = trn_motion_reach (reach->pair->motion, on_body);
  double goes = trn_motion_displacement (reach->pair->motion, own, span.lo, span.hi);
  return near.distance_m + goes + reach->rounding_m < reach->distance_m;
}

static gboolean
find_reach (Reach *reach, TrnInterval span, double *s)
{
  if (trn_progress_is_cancelled (reach->progress) || stays_near (reach, span))
    return FALSE;
  double middle = trn_interval_middle (span);
  if (trn_interval_width (span) <= reach->resolution_s)
    {
      *s = reach->backwards ? span.lo : span.hi;
      return is_apart (reach, *s);
    }
  TrnInterval halves[2] = { { span.lo, middle }, { middle, span.hi } };
  return find_reach (reach, halves[reach->backwards], s)
         || find_reach (reach, halves[!reach->backwards], s);
}

gboolean
trn_sweep_first_reach (const TrnSweepPair *pair, double distance_m, double resolution_s,
                       gboolean backwards, const TrnProgress *progress, double *s)
{
  g_assert (resolution_s > 0);
  Reach reach = { .pair = pair,
                  .distance_m = distance_m,
                  .resolution_s = resolution_s,
                  .rounding_m = trn_search_rounding (pair),
                  .backwards = backwards,
                  .progress = progress };
  *s = backwards ? pair->span.hi : pair->span.lo;
  if (is_apart (&reach, *s))
    return TRUE;
  if (trn_motion_speed (pair->motion, 1) == 0)
    return FALSE;
  return find_reach (&reach, pair->span, s);
}
