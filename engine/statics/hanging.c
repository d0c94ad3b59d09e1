/* Derivation. Legs, hook and CoG meet in one plumb line: all legs pass through the hook, so the
 * weight must too. In the load's frame let h be the hook and c the CoG. For a given h the load
 * hangs lowest with h plumb over c, and then by |h − c|. Least potential energy is therefore the
 * *farthest* h from c among those that the legs allow, the common part of the balls about the lugs:
 * three unknowns instead of six.
 *
 * A farthest place has h − c = Σ λ_i (h − lug_i) with λ_i >= 0 for legs at full length and λ = 0
 * for slack ones (Karush, Kuhn and Tucker). This is the balance of forces at the hook: the tension
 * is T_i = W λ_i length_i / |h − c|. No more than three legs are needed (Carathéodory), so the
 * places to try are few and closed:
 *   one leg     on the line from c through the lug, beyond it;
 *   two legs    on the circle in which both spheres meet, in the plane of c and the lugs, away from
 *               c;
 *   three legs  the two points in which three spheres meet, made exact by Newton's method.
 * A place counts when the other legs reach it, no λ is negative, and it is a greatest distance.
 *
 * Stability. The second derivative of ½|h − c|² − Σ λ_i ½(|h − lug_i|² − length_i²) by h is
 * (1 − S) times unity, S = Σ λ_i. With S >= 1 the function is concave, greatest at h, and nowhere
 * that the legs allow below ½|h' − c|²: so h is the farthest of all. The places of one and of two
 * legs have S >= 1, being the far ones. At a place of three with S < 1 the legs leave h no way out
 * but inwards, and it is a greatest distance nearby, when h − c needs each taut leg: when there is
 * no leg that has λ = 0 in every sum that makes it. S is |h − c| over the distance from h to the
 * point of the plumb line at which the legs hold the load (the mean of the lugs weighted by λ): S <
 * 1 means that the CoG is above it.
 */
#include "hanging.h"

#include "balance.h"

/* A leg may be this much too long, as a share of the size of it all, and a λ this much below 0:
 * what is left of rounding after Newton's method. */
#define REACH 1e-9
#define NO_PUSH 1e-10
#define STABLE 1e-12

typedef struct
{
  const TrnHangLeg *legs;
  guint n_legs;
  TrnVec3 cog;
  TrnVec3 up; /* of the drawn attitude, in the load's frame */
  const TrnRotation *drawn;
  double size_m;
  TrnHang *best;
  gboolean is_found;
} Search;

/* The unit vector of @v, or of what of @instead is square to @square_to where @v has no length. */
static TrnVec3
unit_or (TrnVec3 v, double size, TrnVec3 instead, TrnVec3 square_to)
{
  if (trn_vec3_length (v) > 1e-14 * size)
    return trn_vec3_unit (v);
  for (int i = 0; i < 4; i++)
    {
      TrnVec3 w = trn_vec3_add_scaled (instead, square_to, -trn_vec3_dot (instead, square_to));
      if (trn_vec3_length (w) > 1e-6)
        return trn_vec3_unit (w);
      instead = trn_vec3_make (i == 0, i == 1, i == 2);
    }
  return trn_vec3_make (0, 0, 1);
}

/* @drawn with the least turn that brings @up, a unit vector of the load, to the plumb line. */
static TrnRotation
turn_up (const TrnRotation *drawn, TrnVec3 up, double *lean_rad)
{
  const TrnVec3 plumb = { 0, 0, 1 };
  TrnVec3 now = trn_rotation_apply (drawn, up);
  TrnVec3 axis = trn_vec3_cross (now, plumb);
  double sine = trn_vec3_length (axis);
  *lean_rad = atan2 (sine, now.z);
  if (sine > 0)
    axis = trn_vec3_scale (axis, 1 / sine);
  else
    axis = unit_or (axis, 1, trn_rotation_apply (drawn, trn_vec3_make (1, 0, 0)), plumb);
  TrnRotation turn = trn_rotation_make (axis, *lean_rad);
  return trn_rotation_multiply (&turn, drawn);
}

gboolean
trn_hang_from_point (TrnVec3 hook, TrnVec3 cog, const TrnRotation *drawn,
                     TrnRotation *site_from_load)
{
  TrnVec3 up = trn_vec3_sub (hook, cog);
  double lean_rad, size = fmax (trn_vec3_max_abs (hook), trn_vec3_max_abs (cog));
  if (trn_vec3_length (up) <= 1e-14 * size || !trn_vec3_is_finite (up))
    return FALSE;
  *site_from_load = turn_up (drawn, trn_vec3_unit (up), &lean_rad);
  return TRUE;
}

/* ---- places of the hook ---- */

static TrnVec3
place_of_one (const Search *search, guint i)
{
  const TrnHangLeg *leg = &search->legs[i];
  TrnVec3 away = trn_vec3_sub (leg->lug, search->cog);
  away = unit_or (away, search->size_m, search->up, trn_vec3_make (0, 0, 0));
  return trn_vec3_add_scaled (leg->lug, away, leg->length_m);
}

static gboolean
place_of_two (const Search *search, guint i, guint j, TrnVec3 *hook)
{
  const TrnHangLeg *a = &search->legs[i], *b = &search->legs[j];
  TrnVec3 axis = trn_vec3_sub (b->lug, a->lug);
  double apart = trn_vec3_length (axis);
  if (apart <= 1e-12 * search->size_m)
    return FALSE;
  axis = trn_vec3_scale (axis, 1 / apart);
  /* From |h − a|² = a², |h − b|² = b²: the circle's place along the axis and its radius. */
  double along = 0.5 * (apart + (a->length_m - b->length_m) * (a->length_m + b->length_m) / apart);
  double radius2 = (a->length_m - along) * (a->length_m + along);
  if (radius2 < 0)
    return FALSE;
  TrnVec3 middle = trn_vec3_add_scaled (a->lug, axis, along);
  TrnVec3 away = trn_vec3_sub (middle, search->cog);
  away = trn_vec3_add_scaled (away, axis, -trn_vec3_dot (away, axis));
  away = unit_or (away, search->size_m, search->up, axis);
  *hook = trn_vec3_add_scaled (middle, away, sqrt (radius2));
  return TRUE;
}

/* One step of Newton's method for |h − lug_k| = length_k, k = 0, 1, 2. */
static TrnVec3
refine_three (const TrnHangLeg *const legs[3], TrnVec3 hook)
{
  TrnVec3 row[3];
  double error[3];
  for (int k = 0; k < 3; k++)
    {
      row[k] = trn_vec3_sub (hook, legs[k]->lug);
      double length = trn_vec3_length (row[k]);
      error[k] = 0.5 * (length - legs[k]->length_m) * (length + legs[k]->length_m);
    }
  double volume = trn_vec3_dot (row[0], trn_vec3_cross (row[1], row[2]));
  TrnVec3 step = trn_vec3_scale (trn_vec3_cross (row[1], row[2]), error[0]);
  step = trn_vec3_add_scaled (step, trn_vec3_cross (row[2], row[0]), error[1]);
  step = trn_vec3_add_scaled (step, trn_vec3_cross (row[0], row[1]), error[2]);
  TrnVec3 next = trn_vec3_add_scaled (hook, step, -1 / volume);
  return trn_vec3_is_finite (next) ? next : hook;
}

static gboolean
places_of_three (const Search *search, const TrnHangLeg *const legs[3], TrnVec3 hooks[2])
{
  TrnVec3 a = trn_vec3_sub (legs[1]->lug, legs[0]->lug),
          b = trn_vec3_sub (legs[2]->lug, legs[0]->lug);
  TrnVec3 normal = trn_vec3_cross (a, b);
  double aa = trn_vec3_dot (a, a), bb = trn_vec3_dot (b, b), ab = trn_vec3_dot (a, b);
  double nn = trn_vec3_dot (normal, normal);
  if (nn <= 1e-20 * aa * bb || nn == 0)
    return FALSE;
  /* From the differences of |h − lug_k|² = length_k²: h·a and h·b, h from the first lug. */
  double l0 = legs[0]->length_m;
  double ha = 0.5 * (aa + (l0 - legs[1]->length_m) * (l0 + legs[1]->length_m));
  double hb = 0.5 * (bb + (l0 - legs[2]->length_m) * (l0 + legs[2]->length_m));
  TrnVec3 foot = trn_vec3_scale (a, (ha * bb - hb * ab) / nn);
  foot = trn_vec3_add_scaled (foot, b, (hb * aa - ha * ab) / nn);
  double height2 = l0 * l0 - trn_vec3_dot (foot, foot);
  if (height2 < 0)
    return FALSE;
  double height = sqrt (height2 / nn);
  for (int side = 0; side < 2; side++)
    {
      hooks[side] = trn_vec3_add (legs[0]->lug, foot);
      hooks[side] = trn_vec3_add_scaled (hooks[side], normal, side == 0 ? height : -height);
      for (int pass = 0; pass < 3; pass++)
        hooks[side] = refine_three (legs, hooks[side]);
    }
  return TRUE;
}

/* ---- judging a place ---- */

static gboolean
is_reached (const Search *search, TrnVec3 hook)
{
  for (guint i = 0; i < search->n_legs; i++)
    if (!(trn_vec3_distance (hook, search->legs[i].lug)
          <= search->legs[i].length_m + REACH * search->size_m))
      return FALSE;
  return TRUE;
}

static gboolean
is_taut (const Search *search, guint leg, TrnVec3 hook)
{
  return trn_vec3_distance (hook, search->legs[leg].lug)
         >= search->legs[leg].length_m - REACH * search->size_m;
}

static void
measure_residuals (const Search *search, TrnHang *hang)
{
  /* In the site's frame, from the attitude and the tensions alone. */
  TrnVec3 force = { 0, 0, -1 }, moment = { 0, 0, 0 };
  for (guint i = 0; i < search->n_legs; i++)
    {
      if (hang->tension[i] == 0)
        continue;
      TrnVec3 arm = trn_vec3_sub (search->legs[i].lug, search->cog);
      TrnVec3 pull = trn_vec3_unit (trn_vec3_sub (hang->hook, search->legs[i].lug));
      arm = trn_rotation_apply (&hang->site_from_load, arm);
      pull = trn_vec3_scale (trn_rotation_apply (&hang->site_from_load, pull), hang->tension[i]);
      force = trn_vec3_add (force, pull);
      moment = trn_vec3_add (moment, trn_vec3_cross (arm, pull));
    }
  hang->force_residual = trn_vec3_length (force);
  hang->moment_residual_m = trn_vec3_length (moment);
}

static void
count_taut (const Search *search, TrnHang *hang)
{
  hang->n_taut = 0;
  for (guint i = 0; i < search->n_legs; i++)
    hang->n_taut += is_taut (search, i, hang->hook);
  hang->is_shared_one_way = hang->n_taut < 4;
}

/* Whether each leg that is taut with the hook at @hook can have tension. */
static gboolean
is_firm (const Search *search, TrnVec3 hook, TrnVec3 up)
{
  TrnVec3 columns[TRN_HANG_LEGS_MAX];
  double greatest[TRN_HANG_LEGS_MAX];
  guint n = 0;
  for (guint i = 0; i < search->n_legs; i++)
    if (is_taut (search, i, hook))
      columns[n++] = trn_vec3_sub (hook, search->legs[i].lug);
  if (!trn_balance_greatest (columns, n, up, greatest))
    return FALSE;
  for (guint k = 0; k < n; k++)
    if (greatest[k] <= NO_PUSH)
      return FALSE;
  return TRUE;
}

/* Takes @hook, at which the legs @which are at full length, where it is a better answer. */
static void
try_place (Search *search, TrnVec3 hook, const guint *which, guint n)
{
  TrnVec3 columns[3], up = trn_vec3_sub (hook, search->cog);
  double factors[3], above = trn_vec3_length (up), sum = 0;
  if (!is_reached (search, hook) || above <= 1e-12 * search->size_m)
    return;
  for (guint k = 0; k < n; k++)
    columns[k] = trn_vec3_sub (hook, search->legs[which[k]].lug);
  if (trn_balance_even (columns, n, up, factors) > REACH * search->size_m)
    return;
  for (guint k = 0; k < n; k++)
    {
      if (factors[k] < -NO_PUSH)
        return;
      factors[k] = fmax (0, factors[k]);
      sum += factors[k];
    }
  if (sum < 1 - STABLE && !is_firm (search, hook, up))
    return;
  TrnHang hang = { .hook = hook, .hook_above_cog_m = above, .is_lowest = sum >= 1 - STABLE };
  hang.cog_below_lugs_m = above - above / sum;
  hang.site_from_load = turn_up (search->drawn, trn_vec3_scale (up, 1 / above), &hang.lean_rad);
  if (search->is_found && hang.lean_rad >= search->best->lean_rad)
    return;
  for (guint k = 0; k < n; k++)
    hang.tension[which[k]] = factors[k] * trn_vec3_length (columns[k]) / above;
  measure_residuals (search, &hang);
  count_taut (search, &hang);
  *search->best = hang;
  search->is_found = TRUE;
}

static void
try_three (Search *search, const guint which[3])
{
  TrnVec3 hooks[2];
  const TrnHangLeg *const legs[3]
      = { &search->legs[which[0]], &search->legs[which[1]], &search->legs[which[2]] };
  if (!places_of_three (search, legs, hooks))
    return;
  try_place (search, hooks[0], which, 3);
  try_place (search, hooks[1], which, 3);
}

gboolean
trn_hang_from_legs (const TrnHangLeg *legs, guint n_legs, TrnVec3 cog, const TrnRotation *drawn,
                    TrnHang *hang)
{
  g_assert (n_legs >= 1 && n_legs <= TRN_HANG_LEGS_MAX);
  Search search = { .legs = legs, .n_legs = n_legs, .cog = cog, .drawn = drawn, .best = hang };
  search.up = trn_rotation_apply_inverse (drawn, trn_vec3_make (0, 0, 1));
  for (guint i = 0; i < n_legs; i++)
    {
      double reach = legs[i].length_m + trn_vec3_distance (legs[i].lug, cog);
      if (!isfinite (reach) || !(legs[i].length_m > 0))
        return FALSE;
      search.size_m = fmax (search.size_m, reach);
    }
  for (guint i = 0; i < n_legs; i++)
    {
      try_place (&search, place_of_one (&search, i), &i, 1);
      for (guint j = i + 1; j < n_legs; j++)
        {
          TrnVec3 hook;
          if (place_of_two (&search, i, j, &hook))
            try_place (&search, hook, (const guint[]){ i, j }, 2);
          for (guint k = j + 1; k < n_legs; k++)
            try_three (&search, (const guint[]){ i, j, k });
        }
    }
  return search.is_found;
}
