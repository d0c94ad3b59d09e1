/* Reactions. A rigid body on springs of one stiffness settles by a plane a + b x + c y, and every
 * spring presses by what it is pushed down: the reactions Σ R = W, Σ R x = W x, Σ R y = W y with
 * the least sum of squares, which is balance.h with columns (1, x, y). A support that the plane
 * leaves presses with 0 (complementarity). Coordinates are taken from the load and as shares of the
 * spread, so that a site far from its origin loses nothing.
 *
 * Strip. A linear pressure with resultant P at e from the middle: P/(B L) (1 ± 6 e/L) while e is
 * within L/6, the middle third. Beyond, what would be pull is not there: a triangle whose centroid
 * is under P, of length 3 (L/2 − e), greatest 2 P/(B · 3 (L/2 − e)).
 *
 * Mat. With foot C and mat width B: A = (P + W_m)/q_a, L = A/B, the mat sticks out by (L − C)/2 and
 * is bent there by q = P/(L B): M = q B ((L − C)/2)²/2. */
#include "ground.h"

#include "balance.h"

/* What may be left of a load of 1, or of its moment as a share of the spread. */
#define BALANCED 1e-9

G_STATIC_ASSERT (TRN_GROUND_SUPPORTS_MAX <= TRN_BALANCE_MAX);

/* Columns about the load, as shares of the greatest coordinate, which is returned. */
static double
fill_columns (const TrnLevelPoint *supports, guint n, TrnLevelPoint load_at, TrnVec3 *columns)
{
  double size = 0;
  g_assert (n >= 1 && n <= TRN_GROUND_SUPPORTS_MAX);
  for (guint i = 0; i < n; i++)
    {
      columns[i] = trn_vec3_make (1, supports[i].x_m - load_at.x_m, supports[i].y_m - load_at.y_m);
      size = fmax (size, fmax (fabs (columns[i].y), fabs (columns[i].z)));
    }
  if (size == 0)
    return 1;
  for (guint i = 0; i < n; i++)
    columns[i] = trn_vec3_make (1, columns[i].y / size, columns[i].z / size);
  return size;
}

TrnReactions
trn_ground_reactions (const TrnLevelPoint *supports, guint n_supports, TrnLevelPoint load_at,
                      double load_n)
{
  TrnReactions result = { .stands = FALSE };
  TrnVec3 columns[TRN_GROUND_SUPPORTS_MAX];
  fill_columns (supports, n_supports, load_at, columns);
  result.stands
      = trn_balance_one_way (columns, n_supports, trn_vec3_make (load_n, 0, 0), result.reaction_n);
  for (guint i = 0; i < n_supports && result.stands; i++)
    result.n_lifted += result.reaction_n[i] == 0;
  return result;
}

gboolean
trn_ground_even_shares (const TrnLevelPoint *supports, guint n_supports, TrnVec3 *shares)
{
  /* About the first support, so that nothing is lost far from the origin. */
  const TrnLevelPoint origin = supports[0];
  const TrnVec3 units[3] = { { 1, 0, 0 }, { 0, 1, 0 }, { 0, 0, 1 } };
  TrnVec3 columns[TRN_GROUND_SUPPORTS_MAX];
  double factors[3][TRN_GROUND_SUPPORTS_MAX];
  double size = fill_columns (supports, n_supports, origin, columns);
  gboolean stands = TRUE;
  for (int k = 0; k < 3; k++)
    stands = trn_balance_even (columns, n_supports, units[k], factors[k]) <= BALANCED && stands;
  for (guint i = 0; i < n_supports; i++)
    {
      TrnVec3 share = { factors[0][i], factors[1][i] / size, factors[2][i] / size };
      share.x -= share.y * origin.x_m + share.z * origin.y_m;
      shares[i] = share;
    }
  return stands;
}

gboolean
trn_ground_worst_reactions (const TrnLevelPoint *supports, guint n_supports, TrnLevelPoint load_at,
                            double load_n, double *reaction_n)
{
  TrnVec3 columns[TRN_GROUND_SUPPORTS_MAX];
  fill_columns (supports, n_supports, load_at, columns);
  return trn_balance_greatest (columns, n_supports, trn_vec3_make (load_n, 0, 0), reaction_n);
}

gboolean
trn_ground_leg_shares (double off_x_m, double off_y_m, double spread_x_m, double spread_y_m,
                       double load_n, double reaction_n[4])
{
  gboolean stands = TRUE;
  for (int i = 0; i < 4; i++)
    {
      double x = 0.5 + (i & 1 ? 1 : -1) * off_x_m / spread_x_m;
      double y = 0.5 + (i & 2 ? 1 : -1) * off_y_m / spread_y_m;
      reaction_n[i] = load_n * x * y;
      stands = stands && x >= 0 && y >= 0;
    }
  return stands;
}

/* With the middle c and half sides a and b the supports are at c ± a ± b + (±)(±) d, of which d is
 * 0 in a parallelogram and a·b as well in a rectangle. The place of a load is c + 2 u a + 2 v b, so
 * that with × across u = (p − c) × b/(2 a × b) and v = a × (p − c)/(2 a × b). Opposite the first
 * support is the one for which d is least. */
gboolean
trn_ground_rectangle (const TrnLevelPoint supports[4], TrnVec3 ways[2], double signs[4][2])
{
  double least_m = INFINITY;
  TrnVec3 p[4], a = { 0, 0, 0 }, b = { 0, 0, 0 }, c = { 0, 0, 0 };
  for (guint i = 0; i < 4; i++)
    p[i] = trn_vec3_make (supports[i].x_m, supports[i].y_m, 0);
  for (guint opposite = 1; opposite < 4; opposite++)
    {
      const guint next = opposite % 3 + 1, last = next % 3 + 1;
      const double d_m = trn_vec3_length (trn_vec3_sub (trn_vec3_add (p[0], p[opposite]),
                                                        trn_vec3_add (p[next], p[last])))
                         / 4;
      if (!(d_m < least_m))
        continue;
      least_m = d_m;
      a = trn_vec3_scale (
          trn_vec3_sub (trn_vec3_add (p[next], p[opposite]), trn_vec3_add (p[0], p[last])), 0.25);
      b = trn_vec3_scale (
          trn_vec3_sub (trn_vec3_add (p[last], p[opposite]), trn_vec3_add (p[0], p[next])), 0.25);
      for (guint i = 0; i < 4; i++)
        {
          signs[i][0] = i == next || i == opposite ? 1 : -1;
          signs[i][1] = i == last || i == opposite ? 1 : -1;
        }
    }
  const double a_m = trn_vec3_length (a), b_m = trn_vec3_length (b),
               area_m2 = 2 * (a.x * b.y - a.y * b.x);
  if (!(least_m <= TRN_GROUND_SKEW_SHARE * fmin (a_m, b_m))
      || !(fabs (trn_vec3_dot (a, b)) <= TRN_GROUND_SKEW_SHARE * a_m * b_m) || area_m2 == 0)
    return FALSE;
  for (guint i = 0; i < 4; i++)
    c = trn_vec3_add_scaled (c, p[i], 0.25);
  ways[0] = trn_vec3_make (-(c.x * b.y - c.y * b.x) / area_m2, b.y / area_m2, -b.x / area_m2);
  ways[1] = trn_vec3_make (-(a.x * c.y - a.y * c.x) / area_m2, -a.y / area_m2, a.x / area_m2);
  return TRUE;
}

gboolean
trn_ground_strip (double load_n, double width_m, double length_m, double off_m,
                  TrnPressure *pressure)
{
  double off = fabs (off_m), mean_pa = load_n / (width_m * length_m);
  *pressure = (TrnPressure){ NAN, NAN, NAN };
  if (!(off < length_m / 2))
    return FALSE;
  if (off <= length_m / 6)
    {
      double slope = 6 * off / length_m;
      *pressure = (TrnPressure){ mean_pa * (1 + slope), mean_pa * (1 - slope), length_m };
      return TRUE;
    }
  double contact_m = 3 * (length_m / 2 - off);
  *pressure = (TrnPressure){ 2 * load_n / (width_m * contact_m), 0, contact_m };
  return TRUE;
}

double
trn_ground_pad_pa (double load_n, double area_m2)
{
  return load_n / area_m2;
}

gboolean
trn_ground_tracks (double load_n, double off_x_m, double off_y_m, double gauge_m, double width_m,
                   double length_m, TrnPressure pressure[2])
{
  double share = off_y_m / gauge_m;
  gboolean stands = fabs (share) <= 0.5;
  for (int side = 0; side < 2; side++)
    {
      double track_n = load_n * (0.5 + (side == 1 ? share : -share));
      stands &= trn_ground_strip (track_n, width_m, length_m, off_x_m, &pressure[side]);
    }
  return stands;
}

TrnMat
trn_ground_mat (double load_n, double mat_weight_n, double allowed_pa, double mat_width_m,
                double foot_length_m)
{
  TrnMat mat = { .area_m2 = (load_n + mat_weight_n) / allowed_pa };
  mat.bearing_length_m = mat.area_m2 / mat_width_m;
  mat.cantilever_m = fmax (0, (mat.bearing_length_m - foot_length_m) / 2);
  mat.pressure_pa = load_n / mat.area_m2;
  mat.moment_nm = mat.pressure_pa * mat_width_m * mat.cantilever_m * mat.cantilever_m / 2;
  return mat;
}
