/* limb-sweep.c: the answers about a limb, made of searches (limb-search.c), as sweep.c makes them
 * about a mesh. */
#include "limb-sweep.h"

#include "convex.h"
#include "limb-search.h"
#include "limb-time.h"
#include "spans.h"
#include "tolerances.h"

/* A bound takes some tenths of a microsecond: a sweep that is not done after so many is cut short
 * with what was proven. */
#define DEFAULT_STEPS 50000000u

/* The proof that a span of time is free of contact is given up after this many bounds, and the span
 * split: it is then taken for contact only where it is as short as the resolution. */
#define FREE_STEPS 2000000u

/* More spans of time than this are not looked at one by one; the rest counts as contact. */
#define MOST_CELLS 2000000u

/* So many bounds, some seconds, are all that is spent on the spans of one contact. */
#define MOST_CONTACT_STEPS 10000000u

/* Where they touch at both ends and in the middle of this share of a move they are taken to touch
 * all along: between two moments of contact a gap that is shorter is of no use to anyone, and a
 * contact that lasts need not be followed at its resolution. Where it begins and ends is found as
 * finely as ever. */
#define ONE_CONTACT 0x1p-9

static TrnPose
obstacle_pose (const TrnLimbPair *pair, double s)
{
  if (pair->obstacle.bvh == NULL)
    return trn_pose_identity ();
  return pair->motion != NULL ? trn_motion_pose (pair->motion, s) : pair->site_from_obstacle;
}

/* Whether the limb lies inside the mesh at @s, where their surfaces do not meet; as it is one
 * piece, one corner tells. A mesh inside the limb is no matter of surfaces: the limb is solid. */
static TrnInside
inside_at (const TrnLimbPair *pair, double s)
{
  TrnLimbPlace places[TRN_LIMB_MOST_PLACES];
  if (pair->obstacle.bvh == NULL)
    return TRN_INSIDE_NO;
  if (!trn_limb_places (pair, s, places))
    return TRN_INSIDE_UNKNOWN;
  return trn_winding_number (pair->obstacle.bvh, pair->obstacle.check, places[0].at) != 0
             ? TRN_INSIDE_YES
             : TRN_INSIDE_NO;
}

/* ---- the points of a distance ---- */

static guint
points_of (const TrnLimb *limb, double s, TrnVec3 *points)
{
  TrnLimbPlace places[TRN_LIMB_CORNERS];
  if (!trn_limb_site_places (limb, s, places))
    return 0;
  for (guint i = 0; i < limb->n_corners; i++)
    points[i] = places[i].at;
  return limb->n_corners;
}

/* The points of two hulls grown by radii that are nearest each other, given those of the hulls; one
 * and the same where they meet. */
static void
grow (TrnVec3 *on_a, double radius_a, TrnVec3 *on_b, double radius_b)
{
  TrnVec3 across = trn_vec3_sub (*on_b, *on_a);
  double distance = trn_vec3_length (across), both = radius_a + radius_b;
  if (both <= 0)
    return;
  if (distance <= both)
    {
      *on_a = *on_b = trn_vec3_add_scaled (*on_a, across, radius_a / both);
      return;
    }
  *on_a = trn_vec3_add_scaled (*on_a, across, radius_a / distance);
  *on_b = trn_vec3_add_scaled (*on_b, across, -radius_b / distance);
}

/* Where the distance that was @found is attained, on the site. */
static void
find_points (const TrnLimbPair *pair, const TrnLimbFound *found, TrnVec3 *on_limb,
             TrnVec3 *on_obstacle)
{
  TrnVec3 a[TRN_LIMB_CORNERS], b[TRN_LIMB_CORNERS];
  guint n_a = points_of (pair->limb, found->s, a), n_b = 3;
  double radius = 0;
  if (pair->obstacle.bvh != NULL)
    {
      TrnPose pose = obstacle_pose (pair, found->s);
      trn_mesh_corners (pair->obstacle.bvh->mesh, found->triangle, b);
      for (guint i = 0; i < n_b; i++)
        b[i] = trn_pose_apply (&pose, b[i]);
    }
  else
    {
      n_b = points_of (pair->other, found->s, b);
      radius = pair->other->radius_m;
    }
  *on_limb = *on_obstacle = trn_vec3_make (0, 0, 0);
  if (n_a == 0 || n_b == 0)
    return;
  trn_convex_distance (a, n_a, b, n_b, on_limb, on_obstacle);
  grow (on_limb, pair->limb->radius_m, on_obstacle, radius);
}

/* ---- the least distance ---- */

static void
check_pair (const TrnLimbPair *pair)
{
  g_assert (0 <= pair->span.lo && pair->span.lo <= pair->span.hi && pair->span.hi <= 1);
  g_assert ((pair->obstacle.bvh == NULL) != (pair->other == NULL));
}

TrnSweepResult
trn_limb_sweep_minimum (const TrnLimbPair *pair, const TrnSweepOptions *options)
{
  g_assert (options->width_m > 0);
  check_pair (pair);
  TrnLimbGoal goal = {
    .width_m = options->width_m,
    .far_m = options->far_m,
    .far_share = options->far_share,
    .max_steps = options->max_steps > 0 ? options->max_steps : DEFAULT_STEPS,
    .progress = options->progress,
  };
  TrnLimbFound found = trn_limb_search (pair, pair->span, &goal);
  if (found.lower_m <= 0 && found.upper_m > TRN_CONTACT_M && found.complete)
    {
      goal.width_m = fmin (goal.width_m, TRN_CONTACT_M); /* whether they touch is to be told */
      guint64 steps = found.steps;
      found = trn_limb_search (pair, pair->span, &goal);
      found.steps += steps;
    }

  TrnSweepResult result = {
    .lower_m = found.missing ? 0 : CLAMP (found.lower_m, 0, found.upper_m),
    .upper_m = found.upper_m,
    .s = isinf (found.upper_m) ? pair->span.lo : found.s,
    .inside = TRN_INSIDE_NO,
    .complete = found.complete,
    .steps = found.steps,
  };
  if (isinf (found.upper_m))
    return result;
  find_points (pair, &found, &result.on_body, &result.on_obstacle);
  /* Where the surfaces never meet, one moment decides about the inside for all of the span; where
   * they may meet, the distance says so itself. */
  if (result.upper_m > TRN_CONTACT_M)
    result.inside = inside_at (pair, result.s);
  if (result.upper_m <= TRN_CONTACT_M || result.inside == TRN_INSIDE_YES)
    {
      result.lower_m = result.upper_m = 0;
      result.complete = !found.missing;
    }
  return result;
}

double
trn_limb_distance (const TrnLimbPair *pair, double s, TrnVec3 *on_limb, TrnVec3 *on_obstacle)
{
  TrnLimbPair moment = *pair;
  moment.span = (TrnInterval){ s, s };
  TrnSweepOptions options = { .width_m = TRN_CONTACT_M, .far_m = INFINITY };
  TrnSweepResult result = trn_limb_sweep_minimum (&moment, &options);
  *on_limb = result.on_body;
  *on_obstacle = result.on_obstacle;
  return isinf (result.upper_m) ? NAN : result.upper_m;
}

/* ---- when they touch ---- */

typedef struct
{
  const TrnLimbPair *pair;
  double resolution_s;
  const TrnProgress *progress;
  gboolean has_hint;
  guint32 hint; /* the triangle that touched last */
  guint cells;
  guint64 steps;
  gboolean complete;
  GArray *spans;
} Contacts;

static TrnLimbFound
prove_free (Contacts *contacts, TrnInterval span)
{
  TrnLimbGoal goal = {
    .free_m = TRN_CONTACT_M,
    .least_s = contacts->resolution_s / 16,
    .has_hint = contacts->has_hint,
    .hint = contacts->hint,
    .max_steps = FREE_STEPS,
    .progress = contacts->progress,
  };
  TrnLimbFound found = trn_limb_search (contacts->pair, span, &goal);
  contacts->steps += found.steps;
  if (found.upper_m < 2 * TRN_CONTACT_M)
    {
      contacts->hint = found.triangle;
      contacts->has_hint = TRUE;
    }
  return found;
}

static gboolean
touches_at (Contacts *contacts, double s)
{
  TrnLimbFound found = prove_free (contacts, (TrnInterval){ s, s });
  return !found.free && !found.missing;
}

static gboolean
is_given_up (const Contacts *contacts)
{
  return trn_progress_is_cancelled (contacts->progress) || contacts->cells >= MOST_CELLS
         || contacts->steps >= MOST_CONTACT_STEPS;
}

/* @at_lo, @at_hi: whether they touch at the ends of the span. */
static void
find_contacts (Contacts *contacts, TrnInterval span, gboolean at_lo, gboolean at_hi)
{
  if (is_given_up (contacts))
    {
      contacts->complete = FALSE;
      trn_spans_add (contacts->spans, span);
      return;
    }
  contacts->cells++;
  double middle = trn_interval_middle (span), width = trn_interval_width (span);
  TrnLimbFound found = prove_free (contacts, (TrnInterval){ middle, middle });
  gboolean free = found.free, touch = !free && !found.missing;
  gboolean throughout = at_lo && touch && at_hi && width <= ONE_CONTACT;
  if (!throughout && (free || found.missing || contacts->pair->limb->radius_m > 0))
    found = prove_free (contacts, span);
  if (free && found.free)
    return;
  if (width <= contacts->resolution_s || throughout || found.nowhere || found.touches)
    {
      contacts->complete &= !found.missing;
      trn_spans_add (contacts->spans, span);
      return;
    }
  find_contacts (contacts, (TrnInterval){ span.lo, middle }, at_lo, touch);
  find_contacts (contacts, (TrnInterval){ middle, span.hi }, touch, at_hi);
}

static gboolean
is_inside (gconstpointer pair, double s)
{
  return inside_at (pair, s) == TRN_INSIDE_YES;
}

gboolean
trn_limb_sweep_contacts (const TrnLimbPair *pair, double resolution_s, const TrnProgress *progress,
                         GArray *spans)
{
  g_assert (resolution_s > 0);
  check_pair (pair);
  Contacts contacts = {
    .pair = pair,
    .resolution_s = resolution_s,
    .progress = progress,
    .complete = TRUE,
    .spans = g_array_new (FALSE, FALSE, sizeof (TrnInterval)),
  };
  TrnLimbFound whole = prove_free (&contacts, pair->span);
  if (whole.still)
    contacts.resolution_s = 1; /* one moment stands for all of it */
  if (!whole.free)
    find_contacts (&contacts, pair->span, touches_at (&contacts, pair->span.lo),
                   touches_at (&contacts, pair->span.hi));
  trn_spans_fill (contacts.spans, pair->span, is_inside, pair, spans);
  g_array_unref (contacts.spans);
  return contacts.complete;
}
