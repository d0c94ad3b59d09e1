/* How far a mat spreads what stands on it is a matter of its strength: by Duerr, Effective bearing
 * length of crane mats, 2010, it bears over its width B and a length L, beyond what stands on it, C
 * long, by (L − C)/2 at both ends, and the ground there bends it by P/L ((L − C)/2)²/2. So with
 * what it bears at most, M, and k = 4 M/P, it is L² − 2 (C + k) L + C² = 0, and
 *
 *   L = C + k + √(k (k + 2 C)),
 *
 * no more than the mat is long, its longer side: L = f(M). Across the same holds with what it bears
 * across, N, and D and B for what stands on it and what bears.
 *
 * The part that bears has a share of the strength of all of the mat, X by Y: where a strip B wide
 * is bent along, M B/Y bends it at most; one L long is bent across by N L/X. So what stands on it
 * is spread in one of two ways, each in balance: first across, by the strip of the length C below
 * it, B = f(N C/X), then along by all of that width, L = g(M B/Y); or first along, L = f(M D/Y),
 * then across, B = g(N L/X). What is spread first is no longer stiff where nothing stands on it: it
 * bends in the middle, by P (L − C)/8, so that g = C + 2 k, no more than f; of a mat that bears no
 * farther than what stands on it the first way, f is that of Duerr in the other order. The mat
 * finds no worse than the better of them, which has the larger area: what can bear in some way
 * bears (the lower bound of plasticity). Both grow with M and N, and shrink as P grows, so the
 * ground bears (P + W_m)/(L B), which grows with P. What a plan does not say of its strength counts
 * as none: then it bears no farther than what stands on it, in its middle, which is taken to press
 * evenly, as a pad is.
 *
 * Below a track lie mats side by side, across it, of which the plan gives all as one: [length of
 * the row, length of a mat]. Mats of the width b below the track, w wide, that presses with p at
 * most bear p w b, and have b/x of the mass and of the strength of the row, x long: so k = 4 M/(p w
 * x), and the ground bears p w/L + W/(x L). How wide the mats are is no matter, nor that those
 * beyond the ends of the track may help. */
#include "ground-mat.h"

#include "gravity.h"
#include "outward.h"

/* By so much mats may lie over each other, for rounding. */
#define OVERLAP_M 1e-6

#define ROUNDING_SHARE 1e-12 /* of a dozen operations on numbers above 0 */

static double
weight_n (const TrnGearFoot *foot)
{
  return foot->mat_mass_kg * TRN_GRAVITY_M_S2;
}

static gboolean
are_over_each_other (const TrnGearFoot *a, const TrnGearFoot *b)
{
  const TrnLevelSize of_a = trn_gear_foot_on_ground (a), of_b = trn_gear_foot_on_ground (b);
  return fabs (a->x_m - b->x_m) < 0.5 * (of_a.x_m + of_b.x_m) - OVERLAP_M
         && fabs (a->y_m - b->y_m) < 0.5 * (of_a.y_m + of_b.y_m) - OVERLAP_M;
}

gboolean
trn_ground_mats_are_apart (const TrnGearFoot *feet, guint n_feet)
{
  for (guint i = 0; i < n_feet; i++)
    for (guint k = 0; k < n_feet; k++)
      if (i != k && feet[i].has_mat && are_over_each_other (&feet[i], &feet[k]))
        return FALSE;
  return TRUE;
}

const char *
trn_ground_mats_missing (const TrnGearFoot *feet, guint n_feet)
{
  for (guint i = 0; i < n_feet; i++)
    {
      /* Without a mat a leg needs its pad. */
      const TrnLevelSize size = trn_gear_foot_size (&feet[i]);
      if (isnan (feet[i].has_mat ? size.x_m : feet[i].pad_x_m)
          || isnan (feet[i].has_mat ? size.y_m : feet[i].pad_y_m))
        return "pad";
    }
  for (guint i = 0; i < n_feet; i++)
    if (feet[i].has_mat && isnan (feet[i].mat_mass_kg))
      return "mat/mass";
  return trn_ground_mats_are_apart (feet, n_feet) ? NULL : "mat/apart";
}

/* ---- how far it bears ---- */

/* What it bears at most, or that the plan does not say. */
static double
strength_nm (double given_nm, gboolean is_strong)
{
  return !isnan (given_nm) ? given_nm : is_strong ? INFINITY : 0;
}

static double
bearing_m (double load_n, double foot_m, double mat_m, double most_nm)
{
  if (!(load_n > 0) || isinf (most_nm))
    return mat_m;
  const double k_m = 4 * most_nm / load_n;
  return fmin (mat_m, foot_m + k_m + sqrt (k_m * (k_m + 2 * foot_m)));
}

/* Of what bears already the other way. */
static double
bearing_then_m (double load_n, double foot_m, double mat_m, double most_nm)
{
  return load_n > 0 ? fmin (mat_m, foot_m + 8 * most_nm / load_n) : mat_m;
}

/* What bends it over a bearing length or width. */
static double
bent_nm (double load_n, double foot_m, double bears_m)
{
  const double beyond_m = bears_m - foot_m;
  return fmax (load_n, 0) * beyond_m * beyond_m / (8 * bears_m);
}

static double
bent_then_nm (double load_n, double foot_m, double bears_m)
{
  return 0.125 * fmax (load_n, 0) * (bears_m - foot_m);
}

/* One way across a mat: how far that and what stands on it go, and what may bend all of it. */
typedef struct
{
  double mat_m, foot_m, most_nm;
} Way;

/* Of one below a support: along its longer side, and across. */
typedef struct
{
  Way along, across;
} Mat;

static Mat
mat_of (const TrnGearFoot *foot, gboolean is_strong)
{
  const TrnLevelSize stands = trn_gear_foot_size (foot);
  const double along_nm = strength_nm (foot->mat_moment_nm, is_strong),
               across_nm = strength_nm (foot->mat_moment_across_nm, is_strong);
  const Way x = { foot->mat_size.x, stands.x_m, 0 }, y = { foot->mat_size.y, stands.y_m, 0 };
  Mat mat = foot->mat_size.x >= foot->mat_size.y ? (Mat){ x, y } : (Mat){ y, x };
  mat.along.most_nm = along_nm;
  mat.across.most_nm = across_nm;
  return mat;
}

const char *
trn_ground_mats_unsaid (const TrnGearFoot *feet, guint n_feet, gboolean is_tracks)
{
  const char *unsaid = NULL;
  for (guint i = 0; i < n_feet; i++)
    {
      if (!feet[i].has_mat)
        continue;
      const Mat mat = mat_of (&feet[i], FALSE);
      const double beyond_m
          = is_tracks ? feet[i].mat_size.y - feet[i].pad_y_m : mat.along.mat_m - mat.along.foot_m;
      if (isnan (feet[i].mat_moment_nm) && beyond_m > 0)
        return "mat/moment";
      if (isnan (feet[i].mat_moment_across_nm) && !is_tracks
          && mat.across.mat_m > mat.across.foot_m)
        unsaid = "mat/moment_across";
    }
  return unsaid;
}

/* How far it bears, and what bends it then, spread @first by the strip below what stands on it, and
 * by all of that the other way @then. */
typedef struct
{
  double first_m, then_m, first_nm, then_nm;
} Spread;

static Spread
spread (const Way *first, const Way *then, double load_n)
{
  const double first_m = bearing_m (load_n, first->foot_m, first->mat_m,
                                    first->most_nm * then->foot_m / then->mat_m),
               then_m = bearing_then_m (load_n, then->foot_m, then->mat_m,
                                        then->most_nm * first_m / first->mat_m);
  return (Spread){ first_m, then_m, bent_nm (load_n, first->foot_m, first_m),
                   bent_then_nm (load_n, then->foot_m, then_m) };
}

TrnMatBears
trn_ground_mat_bears (const TrnGearFoot *foot, double load_n, gboolean is_strong)
{
  const Mat mat = mat_of (foot, is_strong);
  const Spread a = spread (&mat.across, &mat.along, load_n),
               b = spread (&mat.along, &mat.across, load_n);
  TrnMatBears bears = a.first_m * a.then_m > b.first_m * b.then_m
                          ? (TrnMatBears){ .length_m = a.then_m,
                                           .width_m = a.first_m,
                                           .moment_nm = a.then_nm,
                                           .moment_across_nm = a.first_nm }
                          : (TrnMatBears){ .length_m = b.first_m,
                                           .width_m = b.then_m,
                                           .moment_nm = b.first_nm,
                                           .moment_across_nm = b.then_nm };
  bears.pressure_pa = (load_n + weight_n (foot)) / (bears.length_m * bears.width_m);
  return bears;
}

TrnMatBears
trn_ground_mat_bears_track (const TrnGearFoot *track, double track_pa, gboolean is_strong)
{
  const double row_m = track->mat_size.x, foot_m = track->pad_y_m;
  const double load_n = track_pa * foot_m * row_m; /* with that all along the row */
  const double length_m = bearing_m (load_n, foot_m, track->mat_size.y,
                                     strength_nm (track->mat_moment_nm, is_strong));
  return (TrnMatBears){ .length_m = length_m,
                        .width_m = row_m,
                        .pressure_pa = (load_n + weight_n (track)) / (length_m * row_m),
                        .moment_nm = bent_nm (load_n, foot_m, length_m) };
}

TrnInterval
trn_ground_mat_pressure (const TrnGearFoot *foot, TrnInterval load_n, gboolean is_strong)
{
  if (!foot->has_mat)
    return trn_interval_scale (load_n, 1 / (foot->pad_x_m * foot->pad_y_m));
  return trn_interval_widen (trn_ground_mat_bears (foot, load_n.lo, is_strong).pressure_pa,
                             trn_ground_mat_bears (foot, load_n.hi, is_strong).pressure_pa,
                             ROUNDING_SHARE);
}
