/* limb-time.c: the corners of a limb over spans of time.
 *
 * Derivation of the rounding, u = 2⁻⁵³, D the greatest coordinate of a corner seen from the
 * obstacle's origin, site axes. The entries of the obstacle's turn are rounded to 12u, so that
 * three products with a coordinate are off by 3·12u D, the operations by 6u D and the difference by
 * u D: per coordinate less than 48u D, in length 84u D.
 *
 * Where the obstacle moves, trn_motion_rounding is how far off a point of it is that is placed on
 * the site. Going the other way, the pose's turn is applied transposed instead of inverted: its
 * entries are off by (12T + 78)u, so that turnᵀ turn is off by 6 times that, and a point by less
 * than (375T + 2430)u of its greatest coordinate, which is less than 6 times trn_motion_rounding;
 * with the point itself, less than 8 times. */
#include "limb-time.h"

#include "motion-jet.h"

#define U 0x1p-53

/* A span over which the corners have no enclosure is divided down to this share of a move; and no
 * more than so many are tried. */
#define LEAST_SPAN 1e-9
#define MOST_TRIED 4096

/* Of what a search keeps about time, in bytes. */
#define MOST_MEMORY 268435456u

typedef struct
{
  TrnVec3 lo, hi;
} Bounds;

static gboolean
is_finite (const Bounds *b)
{
  return trn_vec3_is_finite (b->lo) && trn_vec3_is_finite (b->hi);
}

static double
bounds_size (const Bounds *b)
{
  return fmax (trn_vec3_max_abs (b->lo), trn_vec3_max_abs (b->hi));
}

static Bounds
bounds_grow (Bounds b, double by)
{
  TrnVec3 d = { by, by, by };
  return (Bounds){ trn_vec3_sub (b.lo, d), trn_vec3_add (b.hi, d) };
}

/* What the length of a vector within @b is at most. */
static double
bounds_length (const Bounds *b)
{
  double x = fmax (fabs (b->lo.x), fabs (b->hi.x)), y = fmax (fabs (b->lo.y), fabs (b->hi.y));
  double z = fmax (fabs (b->lo.z), fabs (b->hi.z));
  return trn_vec3_length (trn_vec3_make (x, y, z)) * (1 + 8 * U);
}

static Bounds
value_bounds (const TrnJet3 *jet)
{
  return (Bounds){ { jet->x.v.lo, jet->y.v.lo, jet->z.v.lo },
                   { jet->x.v.hi, jet->y.v.hi, jet->z.v.hi } };
}

static Bounds
pace_bounds (const TrnJet3 *jet)
{
  return (Bounds){ { jet->x.d.lo, jet->y.d.lo, jet->z.d.lo },
                   { jet->x.d.hi, jet->y.d.hi, jet->z.d.hi } };
}

static Bounds
bend_bounds (const TrnJet3 *jet)
{
  return (Bounds){ { jet->x.dd.lo, jet->y.dd.lo, jet->z.dd.lo },
                   { jet->x.dd.hi, jet->y.dd.hi, jet->z.dd.hi } };
}

/* ---- at one moment ---- */

/* The middle of what encloses the place, and how far off it can be. */
static gboolean
place_make (const TrnJet3 *jet, TrnLimbPlace *place)
{
  Bounds b = value_bounds (jet);
  if (!is_finite (&b))
    return FALSE;
  place->at = trn_vec3_mix (b.lo, b.hi, 0.5);
  Bounds off = { trn_vec3_sub (b.lo, place->at), trn_vec3_sub (b.hi, place->at) };
  place->off_m = bounds_length (&off);
  return TRUE;
}

gboolean
trn_limb_site_places (const TrnLimb *limb, double s, TrnLimbPlace places[TRN_LIMB_CORNERS])
{
  TrnJet3 corners[TRN_LIMB_CORNERS];
  if (!limb->corners (limb->data, (TrnInterval){ s, s }, corners))
    return FALSE;
  for (guint i = 0; i < limb->n_corners; i++)
    if (!place_make (&corners[i], &places[i]))
      return FALSE;
  return TRUE;
}

/* Takes the places from the site to the obstacle's frame. */
static void
places_see (const TrnLimbPair *pair, double s, TrnLimbPlace *places)
{
  TrnPose pose
      = pair->motion != NULL ? trn_motion_pose (pair->motion, s) : pair->site_from_obstacle;
  double size = 0;
  for (guint i = 0; i < pair->limb->n_corners; i++)
    {
      TrnVec3 from = trn_vec3_sub (places[i].at, pose.position);
      places[i].at = trn_rotation_apply_inverse (&pose.turn, from);
      places[i].off_m += 84 * U * trn_vec3_max_abs (from);
      size = fmax (size, trn_vec3_max_abs (places[i].at));
    }
  double moved = pair->motion != NULL ? 8 * trn_motion_rounding (pair->motion, size) : 0;
  for (guint i = 0; i < pair->limb->n_corners; i++)
    places[i].off_m += moved;
}

gboolean
trn_limb_places (const TrnLimbPair *pair, double s, TrnLimbPlace places[TRN_LIMB_MOST_PLACES])
{
  if (pair->obstacle.bvh != NULL)
    {
      if (!trn_limb_site_places (pair->limb, s, places))
        return FALSE;
      places_see (pair, s, places);
      return TRUE;
    }
  TrnLimbPlace a[TRN_LIMB_CORNERS], b[TRN_LIMB_CORNERS];
  if (!trn_limb_site_places (pair->limb, s, a) || !trn_limb_site_places (pair->other, s, b))
    return FALSE;
  for (guint i = 0; i < pair->limb->n_corners; i++)
    for (guint j = 0; j < pair->other->n_corners; j++)
      {
        TrnVec3 d = trn_vec3_sub (a[i].at, b[j].at);
        *places++ = (TrnLimbPlace){ d, a[i].off_m + b[j].off_m + 2 * U * trn_vec3_max_abs (d) };
      }
  return TRUE;
}

/* ---- over a span ---- */

/* What is within @b, seen along the axes of a frame that is turned by @turn; turned back. */
static Bounds
bounds_see (const TrnRotation *turn, const Bounds *b)
{
  const double lo[3] = { b->lo.x, b->lo.y, b->lo.z }, hi[3] = { b->hi.x, b->hi.y, b->hi.z };
  double low[3], high[3];
  for (guint j = 0; j < 3; j++)
    {
      low[j] = high[j] = 0;
      for (guint k = 0; k < 3; k++)
        {
          double m = turn->m[k][j];
          low[j] += m >= 0 ? m * lo[k] : m * hi[k];
          high[j] += m >= 0 ? m * hi[k] : m * lo[k];
        }
    }
  Bounds seen = { { low[0], low[1], low[2] }, { high[0], high[1], high[2] } };
  return bounds_grow (seen, 48 * U * bounds_size (b));
}

static void
path_set (TrnLimbPath *path, const Bounds *where, const Bounds *bend, const Bounds *pace)
{
  *path = (TrnLimbPath){ { where->lo, where->hi }, { bend->lo, bend->hi }, { pace->lo, pace->hi } };
}

static void
path_see_standing (const TrnPose *pose, const TrnJet3 *corner, TrnLimbPath *path)
{
  Bounds where = value_bounds (corner), pace = pace_bounds (corner), bend = bend_bounds (corner);
  where = (Bounds){ trn_vec3_sub (where.lo, pose->position),
                    trn_vec3_sub (where.hi, pose->position) };
  where = bounds_see (&pose->turn, &where);
  bend = bounds_see (&pose->turn, &bend);
  pace = bounds_see (&pose->turn, &pace);
  path_set (path, &where, &bend, &pace);
}

/* motion-jet.h encloses what the members of the motion define. Of these the first turn is rounded
 * to 12u: a derivative is off by 3·12u √3 of its greatest coordinate, and the place by less than 8
 * times trn_motion_rounding, as above. */
static void
path_see_moving (const TrnMotion *motion, const TrnJetPose *pose, const TrnJet3 *corner,
                 TrnLimbPath *path)
{
  TrnJet3 seen = trn_jet_pose_apply_inverse (pose, corner);
  Bounds where = value_bounds (&seen), pace = pace_bounds (&seen), bend = bend_bounds (&seen);
  where = bounds_grow (where, 8 * trn_motion_rounding (motion, bounds_size (&where)));
  bend = bounds_grow (bend, 64 * U * bounds_size (&bend));
  pace = bounds_grow (pace, 64 * U * bounds_size (&pace));
  path_set (path, &where, &bend, &pace);
}

static Bounds
bounds_difference (const Bounds *a, const Bounds *b)
{
  Bounds d = { trn_vec3_sub (a->lo, b->hi), trn_vec3_sub (a->hi, b->lo) };
  return bounds_grow (d, 2 * U * bounds_size (&d));
}

static void
path_between (const TrnJet3 *a, const TrnJet3 *b, TrnLimbPath *path)
{
  Bounds where[2] = { value_bounds (a), value_bounds (b) };
  Bounds pace[2] = { pace_bounds (a), pace_bounds (b) };
  Bounds bend[2] = { bend_bounds (a), bend_bounds (b) };
  Bounds where_d = bounds_difference (&where[0], &where[1]);
  Bounds pace_d = bounds_difference (&pace[0], &pace[1]);
  Bounds bend_d = bounds_difference (&bend[0], &bend[1]);
  path_set (path, &where_d, &bend_d, &pace_d);
}

/* FALSE where there is no enclosure over all of @span. */
static gboolean
paths_make (const TrnLimbPair *pair, TrnInterval span, TrnLimbPath *paths)
{
  TrnJet3 a[TRN_LIMB_CORNERS], b[TRN_LIMB_CORNERS];
  guint n = pair->limb->n_corners;
  if (!pair->limb->corners (pair->limb->data, span, a))
    return FALSE;
  if (pair->obstacle.bvh != NULL && pair->motion != NULL)
    {
      TrnJetPose pose;
      trn_motion_pose_jet (pair->motion, span, &pose);
      for (guint i = 0; i < n; i++)
        path_see_moving (pair->motion, &pose, &a[i], &paths[i]);
    }
  else if (pair->obstacle.bvh != NULL)
    for (guint i = 0; i < n; i++)
      path_see_standing (&pair->site_from_obstacle, &a[i], &paths[i]);
  else
    {
      if (!pair->other->corners (pair->other->data, span, b))
        return FALSE;
      for (guint i = 0; i < n; i++)
        for (guint j = 0; j < pair->other->n_corners; j++)
          path_between (&a[i], &b[j], &paths[i * pair->other->n_corners + j]);
      n *= pair->other->n_corners;
    }
  for (guint i = 0; i < n; i++)
    if (!trn_vec3_is_finite (paths[i].where.lo) || !trn_vec3_is_finite (paths[i].where.hi))
      return FALSE;
  return TRUE;
}

/* ---- the tree ---- */

/* Kept as long as @times; NULL where there is no place. */
static const TrnLimbPlace *
keep_places (TrnLimbTimes *times, double s)
{
  TrnLimbPlace places[TRN_LIMB_MOST_PLACES];
  if (!trn_limb_places (times->pair, s, places))
    return NULL;
  TrnLimbPlace *kept = g_memdup2 (places, times->n_corners * sizeof *kept);
  g_ptr_array_add (times->memory, kept);
  return kept;
}

static const TrnLimbPath *
keep_paths (TrnLimbTimes *times, TrnInterval span)
{
  TrnLimbPath *paths = g_new (TrnLimbPath, times->n_corners);
  if (!paths_make (times->pair, span, paths))
    {
      g_free (paths);
      return NULL;
    }
  g_ptr_array_add (times->memory, paths);
  return paths;
}

/* Adds the parts of a span, the places at whose ends are known as far as there are such. What has
 * no place at either end nor in the middle is not divided: it is missing as a whole. */
static void
cover (TrnLimbTimes *times, TrnInterval span, const TrnLimbPlace *start, const TrnLimbPlace *end,
       guint *tried)
{
  double s = trn_interval_middle (span);
  gboolean still = span.lo == span.hi;
  const TrnLimbPlace *middle = still ? start : keep_places (times, s);
  ++*tried;
  if (start == NULL || middle == NULL || end == NULL)
    times->missing = TRUE;
  else
    {
      const TrnLimbPath *paths = keep_paths (times, span);
      if (paths != NULL)
        {
          TrnLimbSpan root = { span.lo, span.hi, start, middle, end, paths, 0 };
          g_array_append_val (times->spans, root);
          return;
        }
    }
  if (start == NULL && middle == NULL && end == NULL)
    return;
  if (trn_interval_width (span) <= LEAST_SPAN || *tried >= MOST_TRIED)
    {
      times->missing = TRUE;
      return;
    }
  cover (times, (TrnInterval){ span.lo, s }, start, middle, tried);
  cover (times, (TrnInterval){ s, span.hi }, middle, end, tried);
}

void
trn_limb_times_init (TrnLimbTimes *times, const TrnLimbPair *pair, TrnInterval span)
{
  guint n = pair->limb->n_corners;
  double radius = pair->limb->radius_m;
  g_assert (1 <= n && n <= TRN_LIMB_CORNERS);
  if (pair->obstacle.bvh == NULL)
    {
      g_assert (1 <= pair->other->n_corners && pair->other->n_corners <= TRN_LIMB_CORNERS);
      n *= pair->other->n_corners;
      radius += pair->other->radius_m;
    }
  *times = (TrnLimbTimes){
    .pair = pair,
    .n_corners = n,
    .radius_m = radius,
    .spans = g_array_new (FALSE, FALSE, sizeof (TrnLimbSpan)),
    .memory = g_ptr_array_new_with_free_func (g_free),
    .most_spans = MOST_MEMORY / (n * (sizeof (TrnLimbPlace) + sizeof (TrnLimbPath))),
  };
  guint tried = 0;
  const TrnLimbPlace *start = keep_places (times, span.lo);
  const TrnLimbPlace *end = span.lo == span.hi ? start : keep_places (times, span.hi);
  cover (times, span, start, end, &tried);
  times->n_roots = times->spans->len;
}

void
trn_limb_times_clear (TrnLimbTimes *times)
{
  g_array_unref (times->spans);
  g_ptr_array_unref (times->memory);
}

guint32
trn_limb_span_split (TrnLimbTimes *times, guint32 index)
{
  TrnLimbSpan whole = *trn_limb_span (times, index);
  if (whole.child != 0)
    return whole.child;
  if (times->spans->len >= times->most_spans)
    return 0;
  double s = whole.s0 + 0.5 * (whole.s1 - whole.s0);
  TrnLimbSpan halves[2] = { { .s0 = whole.s0, .s1 = s, .start = whole.start, .end = whole.middle },
                            { .s0 = s, .s1 = whole.s1, .start = whole.middle, .end = whole.end } };
  for (guint i = 0; i < 2; i++)
    {
      TrnInterval span = { halves[i].s0, halves[i].s1 };
      halves[i].middle = keep_places (times, trn_interval_middle (span));
      if (halves[i].middle == NULL)
        {
          times->missing = TRUE;
          return 0;
        }
      halves[i].paths = keep_paths (times, span);
      if (halves[i].paths == NULL)
        halves[i].paths = whole.paths; /* what holds for the whole holds for its half */
    }
  guint32 child = times->spans->len;
  g_array_append_vals (times->spans, halves, 2);
  g_array_index (times->spans, TrnLimbSpan, index).child = child;
  return child;
}
