/* Branch and bound over directions; of two opposite ones one will do, since from behind the outline
 * is mirrored.
 *
 * Patches. The level directions while what is up, n, turns about a level axis a are
 *   d = sin β a + cos β h(λ),  h(λ) = (a × up) cos λ − up sin λ,
 * with λ the angle that n has turned by and β from −90° to 90°. A direction with another λ is at
 * the slant cos β |sin (λ − φ)| from level when n is at φ, so that a slant of up to σ adds asin
 * (sin σ/cos β) on either side, or all. A patch is a range of λ and one of β, of which the range of
 * λ is cut to what that allows. Patches of the greatest bounds are halved, some at a time, until no
 * bound is much more than what is seen along some direction of a band.
 *
 * Bounds. The first is a picture with all points grown (silhouette-picture.h), by the greatest
 * tangents of a patch as seen from its middle, which are at its corners or on the side through the
 * middle: they are monotonic in λ and in β. What it loses is in proportion to the size of the
 * patch.
 *
 * The others are convex functions F of vectors, in proportion to their length: what the convex hull
 * shows, the sum of what the hulls of slabs across the longest side show, and of a closed mesh half
 * the sum of what all triangles show, since a line that meets a closed mesh meets it twice at
 * least. With l half the range of λ, h(λ) = μ₁ h₁ + μ₂ h₂ of the
 * values at the ends, μ >= 0, M = μ₁ + μ₂ between 1 and 1/cos l; so
 *   d = Σ μ_k c_k − (M − 1) sin β a = Σ (μ_k/M) c_k + (1 − 1/M) cos β h,  c_k = cos β h_k + sin β
 * a. With ε the range of β, c_k is the sum of shares of corners that are together at most 1/cos
 * (ε/2); F is alike for opposite vectors, and F(h) <= H = √(F(up)² + F(a × up)²). So with the
 * greatest F of the corners, C = max F/cos (ε/2), both F(d) <= C/cos l + (1/cos l − 1) |sin β| F(a)
 * and  F(d) <= C + (1 − cos l) cos β H. They lose what goes with the square of the size, but the
 * hull has no gaps, and the sum counts what hides behind other parts.
 *
 * Slack. What a convex body shows grows by no more than s times how long its outline is and π s²
 * when all of it grows by s (Steiner's formula), and an outline within a disc is no longer than its
 * border; so of the sum each triangle. Times the length of the vector these are convex functions,
 * too. */
#include "silhouette.h"

#include "interval.h"
#include "parallel.h"
#include "silhouette-picture.h"

#define NEAR_ENOUGH 0.003
#define FIRST_RAD (G_PI / 4) /* a side of the first patches, at most */
#define MOST_TURN_RAD (G_PI / 2)
#define SEEN_ROWS 1024u
#define THICK_SHARE (1.0 / 4000)
#define COARSE_SHARE (1.0 / 400)
#define AT_ONCE 8u
#define MOST_LOOKS 2u
#define MANY_POINTS 20000u
/* In all, so many points are placed in pictures, within bounds. */
#define MOST_POINTS 8000000.0
#define LEAST_CUTS 40u
#define MOST_CUTS 400u
/* Where a convex function is less than so many times what is seen there is no need of a picture. */
#define AS_SEEN 1.005
/* Tangents: coarse facets do, and pictures are worth nothing. */
#define COARSE 0.04
#define MOST_GROWN 0.3

#define N_CONVEX 3

typedef struct
{
  double m2[N_CONVEX]; /* hull, slabs, sum */
} Convex;

typedef struct
{
  const TrnSilhouetteBand *band;
  TrnInterval whole, rise; /* λ and β */
  TrnInterval turn;        /* that the band has of the whole */
  Convex axis, square;     /* F(a) and H */
  Convex corners[4];       /* of the whole */
  double bound_m2;
} Patch;

/* Coarse facets are enough where much is grown. */
typedef struct
{
  const TrnFacets *coarse, *fine;
  gboolean is_closed;
  double slack_m;
  Convex more; /* that slack makes of each, along vectors of length 1 */
} Body;

/* What comes of halving one patch, or of a first look at it. */
typedef struct
{
  const Body *body;
  TrnPicture *coarse, *fine;
  Patch patch, halves[2];
  guint n_halves;
  double enough_m2;    /* no need to go below that */
  double most_seen_m2; /* so far */
  gboolean is_looked_at;
  double seen_m2;
  TrnVec3 direction;
} Cut;

/* ---- directions ---- */

static TrnVec3
up_at (const TrnSilhouetteBand *band, double turn)
{
  const TrnVec3 across = trn_vec3_cross (band->axis, band->up);
  return trn_vec3_add (trn_vec3_scale (band->up, cos (turn)), trn_vec3_scale (across, sin (turn)));
}

static TrnSight
sight_at (const TrnSilhouetteBand *band, double turn, double rise)
{
  const TrnVec3 up = up_at (band, turn), level = trn_vec3_cross (band->axis, up);
  return (TrnSight){
    .along
    = trn_vec3_add (trn_vec3_scale (band->axis, sin (rise)), trn_vec3_scale (level, cos (rise))),
    .across = up,
    .up
    = trn_vec3_add (trn_vec3_scale (band->axis, cos (rise)), trn_vec3_scale (level, -sin (rise))),
  };
}

/* All directions of the patch, from its middle. */
static TrnSight
sight_of (const Patch *patch)
{
  const double rise = trn_interval_middle (patch->rise), s = sin (rise), c = cos (rise);
  const double half = 0.5 * trn_interval_width (patch->turn);
  TrnSight sight = sight_at (patch->band, trn_interval_middle (patch->turn), rise);
  for (guint i = 0; i < 4; i++)
    {
      const double to = i & 1 ? patch->rise.hi : patch->rise.lo, turned = i & 2 ? half : 0;
      const double along = sin (to) * s + cos (to) * c * cos (turned);
      g_assert (along > 0.1);
      sight.across_by = fmax (sight.across_by, cos (to) * sin (turned) / along);
      sight.up_by = fmax (sight.up_by, fabs (sin (to) * c - cos (to) * s * cos (turned)) / along);
    }
  sight.across_by += 1e-9;
  sight.up_by += 1e-9;
  return sight;
}

/* The turns that the band has at those rises; what is up may have turned back. */
static TrnInterval
turns_at (const TrnSilhouetteBand *band, TrnInterval rise)
{
  const double lo = fmin (0, band->angle_rad), hi = fmax (0, band->angle_rad);
  const double steepest = fmax (fabs (rise.lo), fabs (rise.hi));
  const double sine = band->slant_rad < G_PI / 2 ? sin (band->slant_rad) : 1;
  const double beside = sine < cos (steepest) ? asin (sine / cos (steepest)) + 1e-9 : G_PI / 2;
  if (hi - lo + 2 * beside < G_PI)
    return (TrnInterval){ lo - beside, hi + beside };
  return (TrnInterval){ 0.5 * (lo + hi) - G_PI / 2, 0.5 * (lo + hi) + G_PI / 2 };
}

/* The direction in the middle of the patch, or one of its band next to it. */
static TrnSight
middle_in_band (const Patch *patch)
{
  const TrnSilhouetteBand *band = patch->band;
  const double rise = trn_interval_middle (patch->rise);
  const TrnInterval turns = turns_at (band, (TrnInterval){ rise, rise });
  const double turn = CLAMP (trn_interval_middle (patch->turn), turns.lo, turns.hi);
  return sight_at (band, turn, rise);
}

/* ---- bounds ---- */

static Convex
convex_along (const Cut *cut, const TrnSight *sight)
{
  const TrnConvexAreas areas = trn_picture_convex (cut->fine, sight, cut->body->is_closed);
  const Convex *more = &cut->body->more;
  return (Convex){ { areas.hull_m2 + more->m2[0], areas.slabs_m2 + more->m2[1],
                     areas.sum_m2 + more->m2[2] } };
}

static Convex
convex_at (const Cut *cut, const TrnSilhouetteBand *band, double turn, double rise)
{
  const TrnSight sight = sight_at (band, turn, rise);
  return convex_along (cut, &sight);
}

static double
greatest (const Patch *patch, guint which)
{
  double most = 0;
  for (guint i = 0; i < 4; i++)
    most = fmax (most, patch->corners[i].m2[which]);
  return most;
}

static double
convex_bound (const Patch *patch, guint which)
{
  const double turn = cos (0.5 * trn_interval_width (patch->whole)),
               rise = cos (0.5 * trn_interval_width (patch->rise));
  const double steepest = fmax (fabs (patch->rise.lo), fabs (patch->rise.hi));
  const double flattest = patch->rise.lo * patch->rise.hi <= 0
                              ? 0
                              : fmin (fabs (patch->rise.lo), fabs (patch->rise.hi));
  const double most_m2 = greatest (patch, which) / rise;
  const double bound_m2
      = fmin (most_m2 / turn + (1 / turn - 1) * sin (steepest) * patch->axis.m2[which],
              most_m2 + (1 - turn) * cos (flattest) * patch->square.m2[which]);
  return (1 + 1e-9) * bound_m2;
}

static void
bound_convex (Patch *patch)
{
  for (guint i = 0; i < N_CONVEX; i++)
    patch->bound_m2 = fmin (patch->bound_m2, convex_bound (patch, i));
}

/* About what convex functions come to in the middle. */
static double
convex_middle (const Patch *patch)
{
  double least = INFINITY;
  for (guint i = 0; i < N_CONVEX; i++)
    least = fmin (least, 0.25
                             * (patch->corners[0].m2[i] + patch->corners[1].m2[i]
                                + patch->corners[2].m2[i] + patch->corners[3].m2[i]));
  return least;
}

/* What is grown by need not be seen finely. */
static guint
rows_for (const TrnSight *sight)
{
  const double by = fmax (sight->across_by, sight->up_by);
  return by > 0.05 ? 256 : SEEN_ROWS;
}

static void
bound (Cut *cut, Patch *patch)
{
  const TrnSight sight = sight_of (patch);
  bound_convex (patch);
  if (patch->bound_m2 <= cut->enough_m2 || convex_middle (patch) <= AS_SEEN * cut->most_seen_m2)
    return;
  const double by = fmax (sight.across_by, sight.up_by);
  const gboolean is_coarse = by > COARSE;
  if (by > MOST_GROWN)
    return;
  const double pictured_m2 = trn_picture_bound_m2 (is_coarse ? cut->coarse : cut->fine, &sight,
                                                   cut->body->slack_m, rows_for (&sight));
  patch->bound_m2 = fmin (patch->bound_m2, pictured_m2);
}

/* The first patch of each band; the others take them from there. */
static void
look_along (const Cut *cut, Patch *patch)
{
  const Convex up = convex_at (cut, patch->band, G_PI / 2, 0),
               across = convex_at (cut, patch->band, 0, 0);
  patch->axis = convex_at (cut, patch->band, 0, G_PI / 2);
  for (guint i = 0; i < N_CONVEX; i++)
    patch->square.m2[i] = hypot (up.m2[i], across.m2[i]);
}

static void
look_first (guint index, gpointer data)
{
  Cut *cut = (Cut *)data + index;
  Patch *patch = &cut->patch;
  const TrnSilhouetteBand *band = patch->band;
  for (guint i = 0; i < 4; i++)
    patch->corners[i] = convex_at (cut, band, i & 1 ? patch->whole.hi : patch->whole.lo,
                                   i & 2 ? patch->rise.hi : patch->rise.lo);
  bound_convex (patch);
}

/* The ends of the side that halves it: of those of the whole, first of the one half. */
static void
set_corners (const Cut *cut, gboolean across, Patch halves[2])
{
  for (guint i = 0; i < 2; i++)
    {
      const guint at = across ? 2 * i : i, next = across ? 2 * i + 1 : i + 2;
      const Patch *patch = &cut->patch;
      const double turn = across   ? halves[0].whole.hi
                          : i == 0 ? patch->whole.lo
                                   : patch->whole.hi,
                   rise = !across  ? halves[0].rise.hi
                          : i == 0 ? patch->rise.lo
                                   : patch->rise.hi;
      halves[0].corners[next] = halves[1].corners[at] = convex_at (cut, patch->band, turn, rise);
    }
}

/* What the patch shows in its middle, if that may be more than what was seen so far. */
static void
see (Cut *cut)
{
  const TrnSight sight = middle_in_band (&cut->patch);
  cut->seen_m2 = 0;
  cut->direction = sight.along;
  if (!cut->is_looked_at || convex_middle (&cut->patch) * AS_SEEN < cut->most_seen_m2)
    return;
  const Convex convex = convex_along (cut, &sight);
  cut->seen_m2 = trn_picture_bound_m2 (cut->fine, &sight, cut->body->slack_m, SEEN_ROWS);
  for (guint i = 0; i < N_CONVEX; i++)
    cut->seen_m2 = fmin (cut->seen_m2, convex.m2[i]);
}

static void
halve (guint index, gpointer data)
{
  Cut *cut = (Cut *)data + index;
  see (cut);
  const Patch *patch = &cut->patch;
  const double rise = trn_interval_middle (patch->rise), turn = trn_interval_middle (patch->whole);
  const gboolean across
      = trn_interval_width (patch->turn) * cos (rise) > trn_interval_width (patch->rise);
  Patch halves[2] = { *patch, *patch };
  *(across ? &halves[0].whole.hi : &halves[0].rise.hi) = across ? turn : rise;
  *(across ? &halves[1].whole.lo : &halves[1].rise.lo) = across ? turn : rise;
  set_corners (cut, across, halves);
  cut->n_halves = 0;
  for (guint i = 0; i < 2; i++)
    {
      Patch *half = &halves[i];
      const TrnInterval turns = turns_at (half->band, half->rise);
      half->turn
          = (TrnInterval){ fmax (half->whole.lo, turns.lo), fmin (half->whole.hi, turns.hi) };
      if (half->turn.lo > half->turn.hi)
        continue;
      bound (cut, half);
      cut->halves[cut->n_halves++] = *half;
    }
}

/* ---- the search ---- */

static void
add_first_patches (const TrnSilhouetteBand *band, GArray *patches)
{
  const guint rows = (guint)ceil (G_PI / FIRST_RAD);
  for (guint i = 0; i < rows; i++)
    {
      const TrnInterval rise = { -G_PI / 2 + i * G_PI / rows, -G_PI / 2 + (i + 1) * G_PI / rows };
      const TrnInterval turns = turns_at (band, rise);
      const double width = trn_interval_width (turns),
                   steepest = fmin (fabs (rise.lo), fabs (rise.hi));
      const guint n = (guint)fmax (
          1, ceil (fmax (width * cos (steepest) / FIRST_RAD, width / MOST_TURN_RAD)));
      for (guint k = 0; k < n; k++)
        {
          const Patch patch
              = { .band = band,
                  .whole = { turns.lo + width * k / n, turns.lo + width * (k + 1) / n },
                  .rise = rise,
                  .bound_m2 = INFINITY };
          g_array_append_val (patches, patch);
          g_array_index (patches, Patch, patches->len - 1).turn = patch.whole;
        }
    }
}

static int
compare_bounds (gconstpointer a, gconstpointer b)
{
  const Patch *p = a, *q = b;
  return p->bound_m2 > q->bound_m2 ? -1 : p->bound_m2 < q->bound_m2;
}

static void
look_at_first (GArray *patches, Cut *cuts, guint jobs)
{
  for (guint i = 0; i < patches->len; i++)
    {
      Patch *patch = &g_array_index (patches, Patch, i), *before = i > 0 ? patch - 1 : NULL;
      if (before == NULL || before->band != patch->band)
        {
          look_along (&cuts[0], patch);
          continue;
        }
      patch->axis = before->axis;
      patch->square = before->square;
    }
  for (guint from = 0; from < patches->len; from += AT_ONCE)
    {
      const guint n = MIN (AT_ONCE, patches->len - from);
      for (guint i = 0; i < n; i++)
        cuts[i].patch = g_array_index (patches, Patch, from + i);
      trn_parallel_for (n, jobs, look_first, cuts);
      for (guint i = 0; i < n; i++)
        g_array_index (patches, Patch, from + i) = cuts[i].patch;
    }
}

/* Takes the greatest off @patches, which are cut into their parts; returns their number. */
static guint
take_greatest (GArray *patches, double seen_m2, Cut *cuts)
{
  const double enough_m2 = seen_m2 * (1 + NEAR_ENOUGH);
  guint n = 0;
  g_array_sort (patches, compare_bounds);
  while (n < AT_ONCE && n < patches->len && g_array_index (patches, Patch, n).bound_m2 > enough_m2)
    {
      cuts[n].patch = g_array_index (patches, Patch, n);
      cuts[n].enough_m2 = enough_m2;
      cuts[n].most_seen_m2 = seen_m2;
      /* With many points looking takes as long as the rest: then only at the most promising. */
      cuts[n].is_looked_at = n < MOST_LOOKS || cuts[n].body->fine->n_points < MANY_POINTS;
      n++;
    }
  g_array_remove_range (patches, 0, n);
  return n;
}

static void
search (GArray *patches, Cut *cuts, guint most, guint jobs, TrnSilhouette *worst)
{
  for (guint done = 0; done < most;)
    {
      const guint n = take_greatest (patches, worst->seen_m2, cuts);
      if (n == 0)
        break;
      done += n;
      trn_parallel_for (n, jobs, halve, cuts);
      for (guint i = 0; i < n; i++)
        {
          g_array_append_vals (patches, cuts[i].halves, cuts[i].n_halves);
          if (cuts[i].seen_m2 <= worst->seen_m2)
            continue;
          worst->seen_m2 = cuts[i].seen_m2;
          worst->direction = cuts[i].direction;
        }
    }
  worst->area_m2 = 0;
  for (guint i = 0; i < patches->len; i++)
    worst->area_m2 = fmax (worst->area_m2, g_array_index (patches, Patch, i).bound_m2);
  worst->seen_m2 = fmin (worst->seen_m2, worst->area_m2);
}

static Convex
more_of_slack (const TrnMesh *mesh, double reach_m, gboolean is_closed, double slack_m)
{
  const double border_m2 = G_PI * slack_m * slack_m,
               disc_m2 = 2 * G_PI * reach_m * slack_m + border_m2;
  double round_m = 0;
  for (guint32 i = 0; i < mesh->n_triangles; i++)
    {
      TrnVec3 c[3];
      trn_mesh_corners (mesh, i, c);
      round_m += trn_vec3_distance (c[0], c[1]) + trn_vec3_distance (c[1], c[2])
                 + trn_vec3_distance (c[2], c[0]);
    }
  return (
      Convex){ { disc_m2, TRN_FACETS_SLABS * disc_m2,
                 (is_closed ? 0.5 : 1) * (round_m * slack_m + mesh->n_triangles * border_m2) } };
}

TrnSilhouette
trn_silhouette_worst (const TrnMesh *mesh, gboolean is_closed, double slack_m,
                      const TrnSilhouetteBand *bands, guint n_bands, guint jobs)
{
  g_assert (n_bands > 0 && slack_m >= 0);
  TrnSilhouette worst = { 0, 0, bands[0].axis };
  if (mesh->n_triangles == 0)
    return worst;
  g_autoptr (TrnFacets) fine = trn_facets_build (mesh, THICK_SHARE);
  g_autoptr (TrnFacets) coarse = trn_facets_build (mesh, COARSE_SHARE);
  trn_facets_add_whole (fine, mesh);
  const Body body = { coarse, fine, is_closed, slack_m,
                      more_of_slack (mesh, fine->reach_m, is_closed, slack_m) };
  g_autoptr (GArray) patches = g_array_new (FALSE, FALSE, sizeof (Patch));
  Cut cuts[AT_ONCE];
  for (guint i = 0; i < AT_ONCE; i++)
    cuts[i] = (Cut){ .body = &body,
                     .coarse = trn_picture_new (coarse),
                     .fine = trn_picture_new (fine) };
  for (guint i = 0; i < n_bands; i++)
    add_first_patches (&bands[i], patches);
  look_at_first (patches, cuts, jobs);
  const double most = MOST_POINTS / (fine->n_points + 3.0 * fine->slab_first[TRN_FACETS_SLABS]);
  search (patches, cuts, (guint)CLAMP (most, LEAST_CUTS, MOST_CUTS), jobs, &worst);
  for (guint i = 0; i < AT_ONCE; i++)
    {
      trn_picture_free (cuts[i].coarse);
      trn_picture_free (cuts[i].fine);
    }
  return worst;
}

double
trn_silhouette_m2 (const TrnMesh *mesh, TrnVec3 direction, double slack_m)
{
  g_autoptr (TrnFacets) facets = trn_facets_build (mesh, THICK_SHARE);
  g_autoptr (TrnPicture) picture = trn_picture_new (facets);
  const TrnVec3 across = trn_vec3_square_to (direction);
  const TrnSight sight
      = { .along = direction, .across = across, .up = trn_vec3_cross (direction, across) };
  return trn_picture_bound_m2 (picture, &sight, slack_m, TRN_PICTURE_MOST);
}
