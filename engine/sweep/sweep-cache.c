/* A mesh stands in the key by its hash: its tree and its check follow from it. */
#include "sweep-cache.h"

/* ---- keys ---- */

typedef enum
{
  ASKED_MINIMUM,
  ASKED_CONTACTS,
  ASKED_FIRST_REACH,
  ASKED_DISTANCE,
  ASKED_INSIDE,
} Asked;

void
trn_sweep_key_add_vec3 (TrnCacheKey *key, TrnVec3 v)
{
  trn_cache_key_add_double (key, v.x);
  trn_cache_key_add_double (key, v.y);
  trn_cache_key_add_double (key, v.z);
}

void
trn_sweep_key_add_pose (TrnCacheKey *key, const TrnPose *pose)
{
  for (int i = 0; i < 3; i++)
    for (int k = 0; k < 3; k++)
      trn_cache_key_add_double (key, pose->turn.m[i][k]);
  trn_sweep_key_add_vec3 (key, pose->position);
}

void
trn_sweep_key_add_motion (TrnCacheKey *key, const TrnMotion *motion)
{
  trn_sweep_key_add_pose (key, &motion->start);
  trn_sweep_key_add_vec3 (key, motion->axis);
  trn_cache_key_add_double (key, motion->angle_rad);
  trn_sweep_key_add_vec3 (key, motion->pivot);
  trn_cache_key_add_number (key, motion->path);
  trn_sweep_key_add_vec3 (key, motion->from);
  trn_sweep_key_add_vec3 (key, motion->by);
  trn_cache_key_add_double (key, motion->centre_x);
  trn_cache_key_add_double (key, motion->centre_y);
  trn_cache_key_add_double (key, motion->radius_m);
  trn_cache_key_add_double (key, motion->radius_by_m);
  trn_cache_key_add_double (key, motion->phi0_rad);
  trn_cache_key_add_double (key, motion->phi_rad);
  trn_sweep_key_add_vec3 (key, motion->head_from_tail);
}

static TrnCacheKey *
key_new (Asked asked, const TrnSweepPair *pair)
{
  TrnCacheKey *key = trn_cache_key_new (TRN_CACHE_SWEEP);
  trn_cache_key_add_number (key, asked);
  trn_cache_key_add_text (key, pair->body.bvh->mesh->hash);
  trn_sweep_key_add_motion (key, pair->motion);
  trn_cache_key_add_double (key, pair->span.lo);
  trn_cache_key_add_double (key, pair->span.hi);
  trn_cache_key_add_text (key, pair->obstacle.bvh->mesh->hash);
  trn_sweep_key_add_pose (key, &pair->site_from_obstacle);
  return key;
}

/* ---- the least distance ---- */

/* Contact counts as complete however it was found: by a sweep that was cut short it might be found
 * elsewhere than by a whole one. */
static gboolean
is_whole (const TrnSweepResult *result, const TrnSweepOptions *options)
{
  return result->complete && !trn_progress_is_cancelled (options->progress)
         && (options->max_steps == 0 || result->steps < options->max_steps);
}

TrnSweepResult
trn_sweep_cached_minimum (TrnCache *cache, const TrnSweepPair *pair, const TrnSweepOptions *options)
{
  if (cache == NULL)
    return trn_sweep_minimum (pair, options);
  g_autoptr (GByteArray) key = key_new (ASKED_MINIMUM, pair);
  trn_cache_key_add_double (key, options->width_m);
  trn_cache_key_add_double (key, options->far_m);
  trn_cache_key_add_double (key, options->far_share);
  trn_cache_key_add_number (key, options->max_steps);
  TrnSweepResult *kept = trn_cache_get (cache, key);
  gboolean is_new = kept == NULL;
  if (is_new)
    {
      kept = g_atomic_rc_box_new0 (TrnSweepResult);
      *kept = trn_sweep_minimum (pair, options);
    }
  if (is_new && is_whole (kept, options))
    trn_cache_put (cache, key, kept, NULL, 0);
  TrnSweepResult result = *kept;
  g_atomic_rc_box_release (kept);
  return result;
}

/* ---- when they touch ---- */

typedef struct
{
  GArray *spans; /* of TrnInterval */
} Spans;

static void
spans_clear (gpointer data)
{
  g_array_unref (((Spans *)data)->spans);
}

gboolean
trn_sweep_cached_contacts (TrnCache *cache, const TrnSweepPair *pair, double resolution_s,
                           const TrnProgress *progress, GArray *spans)
{
  g_assert (spans->len == 0);
  if (cache == NULL)
    return trn_sweep_contacts (pair, resolution_s, progress, spans);
  g_autoptr (GByteArray) key = key_new (ASKED_CONTACTS, pair);
  trn_cache_key_add_double (key, resolution_s);
  gboolean is_complete = TRUE;
  Spans *kept = trn_cache_get (cache, key);
  if (kept == NULL)
    {
      kept = g_atomic_rc_box_new0 (Spans);
      kept->spans = g_array_new (FALSE, FALSE, sizeof (TrnInterval));
      is_complete = trn_sweep_contacts (pair, resolution_s, progress, kept->spans);
      if (is_complete && !trn_progress_is_cancelled (progress))
        trn_cache_put (cache, key, kept, spans_clear, kept->spans->len * sizeof (TrnInterval));
    }
  g_array_append_vals (spans, kept->spans->data, kept->spans->len);
  g_atomic_rc_box_release_full (kept, spans_clear);
  return is_complete;
}

/* ---- when they are apart ---- */

typedef struct
{
  gboolean found;
  double s;
} Reach;

gboolean
trn_sweep_cached_first_reach (TrnCache *cache, const TrnSweepPair *pair, double distance_m,
                              double resolution_s, gboolean backwards, const TrnProgress *progress,
                              double *s)
{
  if (cache == NULL)
    return trn_sweep_first_reach (pair, distance_m, resolution_s, backwards, progress, s);
  g_autoptr (GByteArray) key = key_new (ASKED_FIRST_REACH, pair);
  trn_cache_key_add_double (key, distance_m);
  trn_cache_key_add_double (key, resolution_s);
  trn_cache_key_add_number (key, backwards ? 1 : 0);
  Reach *kept = trn_cache_get (cache, key);
  if (kept == NULL)
    {
      kept = g_atomic_rc_box_new0 (Reach);
      kept->found
          = trn_sweep_first_reach (pair, distance_m, resolution_s, backwards, progress, &kept->s);
      if (!trn_progress_is_cancelled (progress))
        trn_cache_put (cache, key, kept, NULL, 0);
    }
  gboolean found = kept->found;
  *s = kept->s;
  g_atomic_rc_box_release (kept);
  return found;
}

/* ---- at one pose ---- */

static TrnCacheKey *
pose_key_new (Asked asked, const TrnSweepBody *a, const TrnPose *site_from_a, const TrnSweepBody *b,
              const TrnPose *site_from_b)
{
  TrnCacheKey *key = trn_cache_key_new (TRN_CACHE_POSE);
  trn_cache_key_add_number (key, asked);
  trn_cache_key_add_text (key, a->bvh->mesh->hash);
  trn_sweep_key_add_pose (key, site_from_a);
  trn_cache_key_add_text (key, b->bvh->mesh->hash);
  trn_sweep_key_add_pose (key, site_from_b);
  return key;
}

TrnDistance
trn_sweep_cached_distance (TrnCache *cache, const TrnSweepBody *a, const TrnPose *site_from_a,
                           const TrnSweepBody *b, const TrnPose *site_from_b, double limit_m)
{
  if (cache == NULL)
    return trn_mesh_distance (a->bvh, site_from_a, b->bvh, site_from_b, limit_m, NULL);
  g_autoptr (GByteArray) key = pose_key_new (ASKED_DISTANCE, a, site_from_a, b, site_from_b);
  trn_cache_key_add_double (key, limit_m);
  TrnDistance *kept = trn_cache_get (cache, key);
  if (kept == NULL)
    {
      kept = g_atomic_rc_box_new0 (TrnDistance);
      *kept = trn_mesh_distance (a->bvh, site_from_a, b->bvh, site_from_b, limit_m, NULL);
      trn_cache_put (cache, key, kept, NULL, 0);
    }
  TrnDistance distance = *kept;
  g_atomic_rc_box_release (kept);
  return distance;
}

TrnInside
trn_sweep_cached_inside (TrnCache *cache, const TrnSweepBody *a, const TrnPose *site_from_a,
                         const TrnSweepBody *b, const TrnPose *site_from_b)
{
  if (cache == NULL)
    return trn_mesh_inside (a->bvh, a->check, site_from_a, b->bvh, b->check, site_from_b);
  g_autoptr (GByteArray) key = pose_key_new (ASKED_INSIDE, a, site_from_a, b, site_from_b);
  TrnInside *kept = trn_cache_get (cache, key);
  if (kept == NULL)
    {
      kept = g_atomic_rc_box_new0 (TrnInside);
      *kept = trn_mesh_inside (a->bvh, a->check, site_from_a, b->bvh, b->check, site_from_b);
      trn_cache_put (cache, key, kept, NULL, 0);
    }
  TrnInside inside = *kept;
  g_atomic_rc_box_release (kept);
  return inside;
}
