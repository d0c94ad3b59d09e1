/* Patches. The level directions while what is up, n, turns about a level axis a are
 *   d = sin β a + cos β h(λ),  h(λ) = (a × up) cos λ − up sin λ,
 * with λ the angle that n has turned by and β from −90° to 90°. A direction with another λ is at
 * the slant cos β |sin (λ − φ)| from level when n is at φ, so that a slant of up to σ adds asin
 * (sin σ/cos β) on either side, or all. A patch is a range of λ and one of β, of which the range of
 * λ is cut to what that allows.
 *
 * Bounds. The first is a picture with all points grown (silhouette-picture.h), by the greatest
 * tangents of a patch as seen from its middle, which are at its corners or on the side through the
 * middle: they are monotonic in λ and in β. What it loses is in proportion to the size of the
 * patch.
 *
 * The others are convex functions F of vectors, in proportion to their length: what the convex hull
 * shows, the sum of what the hulls of slabs across the longest side show less what neighbours share
 * (silhouette-convex.c), and of a closed mesh half the sum of what all triangles show, since a line
 * that meets a closed mesh meets it twice at least. With l half the range of λ, h(λ) = μ₁ h₁ + μ₂
 * h₂ of the values at the ends, μ >= 0, M = μ₁ + μ₂ between 1 and 1/cos l; so d = Σ μ_k c_k − (M −
 * 1) sin β a = Σ (μ_k/M) c_k + (1 − 1/M) cos β h,  c_k = cos β h_k + sin β a. With ε the range of
 * β, c_k is the sum of shares of corners that are together at most 1/cos (ε/2); F is alike for
 * opposite vectors, and F(h) <= H = √(F(up)² + F(a × up)²). So with the greatest F of the corners,
 * C = max F/cos (ε/2), both F(d) <= C/cos l + (1/cos l − 1) |sin β| F(a) and  F(d) <= C + (1 − cos
 * l) cos β H. They lose what goes with the square of the size, but the hull has no gaps, and the
 * sum counts what hides behind other parts.
 *
 * Slack. What a convex body shows grows by no more than s times how long its outline is and π s²
 * when all of it grows by s (Steiner's formula), and an outline within a disc is no longer than its
 * border; so of the sum each triangle. Half of that sum still holds: a closed mesh whose points are
 * off is closed, so that a line that meets it meets it twice at least, and each of its triangles
 * shows no more than the grown one. Times the length of the vector these are convex functions, too.
 */
#include "silhouette-patch.h"

#define FIRST_RAD (G_PI / 4) /* a side of the first patches, at most */
#define MOST_TURN_RAD (G_PI / 2)
#define SAME_TURN 1e-6

/* ---- directions ---- */

static TrnVec3
up_at (const TrnSilhouetteBand *band, double turn)
{
  const TrnVec3 across = trn_vec3_cross (band->axis, band->up);
  return trn_vec3_add (trn_vec3_scale (band->up, cos (turn)), trn_vec3_scale (across, sin (turn)));
}

TrnSight
trn_patch_sight_at (const TrnSilhouetteBand *band, double turn, double rise)
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
TrnSight
trn_patch_sight (const TrnPatch *patch)
{
  const double rise = trn_interval_middle (patch->rise), s = sin (rise), c = cos (rise);
  const double half = 0.5 * trn_interval_width (patch->turn);
  TrnSight sight = trn_patch_sight_at (patch->band, trn_interval_middle (patch->turn), rise);
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
TrnInterval
trn_patch_turns (const TrnSilhouetteBand *band, TrnInterval rise)
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
TrnSight
trn_patch_middle (const TrnPatch *patch)
{
  const TrnSilhouetteBand *band = patch->band;
  const double rise = trn_interval_middle (patch->rise);
  const TrnInterval turns = trn_patch_turns (band, (TrnInterval){ rise, rise });
  const double turn = CLAMP (trn_interval_middle (patch->turn), turns.lo, turns.hi);
  return trn_patch_sight_at (band, turn, rise);
}

/* ---- convex functions ---- */

/* Slabs less what they share, with the sign that this has in most of the patch. */
double
trn_patch_corner_m2 (const TrnPatch *patch, guint corner, guint which)
{
  const TrnConvex *at = patch->corners;
  const double sum_m2 = at[0].shared_m2 + at[1].shared_m2 + at[2].shared_m2 + at[3].shared_m2;
  const double shared_m2 = sum_m2 < 0 ? -at[corner].shared_m2 : at[corner].shared_m2;
  return at[corner].m2[which] - (which == TRN_CONVEX_SLABS ? shared_m2 : 0);
}

static double
greatest (const TrnPatch *patch, guint which)
{
  double most = 0;
  for (guint i = 0; i < 4; i++)
    most = fmax (most, trn_patch_corner_m2 (patch, i, which));
  return most;
}

static double
convex_bound (const TrnPatch *patch, guint which)
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

void
trn_patch_bound_convex (TrnPatch *patch)
{
  for (guint i = 0; i < TRN_CONVEX_N; i++)
    patch->bound_m2 = fmin (patch->bound_m2, convex_bound (patch, i));
}

/* About what convex functions come to in the middle. */
double
trn_patch_middle_m2 (const TrnPatch *patch)
{
  double least = INFINITY;
  for (guint i = 0; i < TRN_CONVEX_N; i++)
    least = fmin (least,
                  0.25
                      * (trn_patch_corner_m2 (patch, 0, i) + trn_patch_corner_m2 (patch, 1, i)
                         + trn_patch_corner_m2 (patch, 2, i) + trn_patch_corner_m2 (patch, 3, i)));
  return least;
}

double
trn_patch_least_m2 (const TrnPatch *patch, guint corner, guint but)
{
  double least_m2 = INFINITY;
  for (guint i = 0; i < TRN_CONVEX_N; i++)
    least_m2 = i != but ? fmin (least_m2, trn_patch_corner_m2 (patch, corner, i)) : least_m2;
  return least_m2;
}

/* ---- the first ones ---- */

/* Where level directions are square to the axis of the slabs: there what slabs share changes its
 * sign. From −π/2 to π/2, and again after half a turn. */
static double
square_turn (const TrnSilhouetteBand *band, TrnVec3 axis)
{
  const TrnVec3 across = trn_vec3_cross (band->axis, band->up);
  const double x = trn_vec3_dot (band->up, axis), y = trn_vec3_dot (across, axis);
  return x != 0 ? atan (y / x) : G_PI / 2;
}

/* The axis of a band without a turn is any: square to that of the slabs. */
TrnSilhouetteBand
trn_patch_band (const TrnSilhouetteBand *band, TrnVec3 axis)
{
  TrnSilhouetteBand turned = *band;
  const TrnVec3 square = trn_vec3_cross (band->up, axis);
  if (band->angle_rad == 0 && trn_vec3_length (square) > 0.01)
    turned.axis = trn_vec3_unit (square);
  return turned;
}

static void
add_patches (const TrnSilhouetteBand *band, TrnInterval turns, TrnInterval rise, GArray *patches)
{
  const double width = trn_interval_width (turns), steepest = fmin (fabs (rise.lo), fabs (rise.hi));
  const guint n
      = (guint)fmax (1, ceil (fmax (width * cos (steepest) / FIRST_RAD, width / MOST_TURN_RAD)));
  for (guint k = 0; k < n; k++)
    {
      TrnPatch patch = { .band = band, .rise = rise, .bound_m2 = INFINITY };
      patch.whole.lo = turns.lo + width * k / n;
      patch.whole.hi = k + 1 < n ? turns.lo + width * (k + 1) / n : turns.hi;
      patch.turn = patch.whole;
      g_array_append_val (patches, patch);
    }
}

void
trn_patches_add_first (const TrnSilhouetteBand *band, TrnVec3 axis, GArray *patches)
{
  const guint rows = (guint)ceil (G_PI / FIRST_RAD);
  for (guint i = 0; i < rows; i++)
    {
      const TrnInterval rise = { -G_PI / 2 + i * G_PI / rows, -G_PI / 2 + (i + 1) * G_PI / rows };
      const TrnInterval turns = trn_patch_turns (band, rise);
      double from = turns.lo, cut = square_turn (band, axis);
      for (cut += G_PI * ceil ((from - cut) / G_PI); cut < turns.hi; cut += G_PI)
        {
          if (cut - from < SAME_TURN)
            continue;
          add_patches (band, (TrnInterval){ from, cut }, rise, patches);
          from = cut;
        }
      add_patches (band, (TrnInterval){ from, turns.hi }, rise, patches);
    }
}
