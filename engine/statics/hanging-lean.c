/* From a point. The plumb line is along v = hook − c. The vectors within an angle below a right
 * angle of @up are a convex cone: when it holds v for the eight corners of the box it holds all of
 * them, so the greatest angle is that of a corner. Where a corner is at a right angle or beyond the
 * CoG can be above the hook, and no bound is given.
 *
 * One leg hangs as from the point of its lug.
 *
 * A hook that stays. The centres of gravity for which the hook is at h are those with h − c among
 * the sums of h − lug_i over taut legs with no factor below 0, a convex set. When the hook is at
 * the same point of the load for the corners it is there for all of the box, and all of them hang
 * as from that point.
 *
 * Otherwise the hook moves with c. Let h be its place for c, with S > 1 as in hanging.c, and h' the
 * place for c'. The function of hanging.c is concave with second derivative −(S − 1), at least
 * ½|h' − c|² at h' and greatest at h, so
 *   |h' − c|² <= |h − c|² − (S − 1)|h' − h|²,   and   |h − c'|² <= |h' − c'|²,
 * since h' is the farthest from c'. Their sum is (S − 1)|h' − h|² <= 2 (h − h')·(c' − c), hence
 *   |h' − h| <= 2 |c' − c| / (S − 1).
 * Over a box about c of half diagonal r the vector h' − c' thus lies within ρ = r (1 + 2/(S − 1))
 * of v = h − c, and its angle to @up is at most that of v plus asin (ρ/|v|). Boxes are halved along
 * their longest edge until that is near enough to the greatest angle seen, or until it has taken
 * long enough: the bound holds in any case. */
#include "hanging.h"

#define MOST_BOXES 40000u
/* Added to cover the rounding of angles that are 1 at most. */
#define ROUNDING_RAD 1e-12
/* Hooks this near to each other, as a share of their height above the CoG, are one. */
#define SAME 1e-9

static double
angle_between (TrnVec3 a, TrnVec3 b)
{
  return atan2 (trn_vec3_length (trn_vec3_cross (a, b)), trn_vec3_dot (a, b));
}

double
trn_hang_lean_bound_from_point (TrnVec3 hook, const TrnBox *cog, TrnVec3 up)
{
  double greatest = 0;
  for (guint i = 0; i < 8; i++)
    {
      TrnVec3 v = trn_vec3_sub (hook, trn_box_corner (cog, i));
      double angle = angle_between (v, up);
      if (!(angle < 0.5 * G_PI - ROUNDING_RAD) || !(trn_vec3_length (v) > 0))
        return G_PI;
      greatest = fmax (greatest, angle);
    }
  return greatest + ROUNDING_RAD;
}

typedef struct
{
  const TrnHangLeg *legs;
  guint n_legs;
  TrnVec3 up;
  TrnRotation attitude; /* in which @up is plumb */
  double width_rad;
  double attained_rad, bound_rad;
  guint n_boxes;
} Search;

static TrnRotation
attitude_of (TrnVec3 up)
{
  TrnRotation turn = trn_rotation_identity ();
  trn_hang_from_point (up, trn_vec3_make (0, 0, 0), &turn, &turn);
  return turn;
}

/* Whether the hook is the same point of the load for every CoG of the box. */
static gboolean
hook_is_fixed (const Search *search, const TrnBox *cog, TrnVec3 *hook)
{
  for (guint i = 0; i < 8; i++)
    {
      TrnHang corner;
      if (!trn_hang_from_legs (search->legs, search->n_legs, trn_box_corner (cog, i),
                               &search->attitude, &corner))
        return FALSE;
      if (i == 0)
        *hook = corner.hook;
      else if (trn_vec3_distance (corner.hook, *hook) > SAME * corner.hook_above_cog_m)
        return FALSE;
    }
  return TRUE;
}

static double
bound_over (Search *search, const TrnBox *cog)
{
  TrnHang hang;
  TrnVec3 c = trn_box_centre (cog);
  if (!trn_hang_from_legs (search->legs, search->n_legs, c, &search->attitude, &hang)
      || !hang.is_lowest)
    return G_PI;
  /* S − 1, from |h − c| = S (|h − c| − what the CoG is below the lugs) */
  double excess = hang.cog_below_lugs_m / (hang.hook_above_cog_m - hang.cog_below_lugs_m);
  double half_diagonal = 0.5 * trn_vec3_length (trn_box_size (cog));
  double off = half_diagonal * (1 + 2 / excess) / hang.hook_above_cog_m;
  double angle = angle_between (trn_vec3_sub (hang.hook, c), search->up);
  search->attained_rad = fmax (search->attained_rad, angle);
  if (half_diagonal == 0)
    return angle + ROUNDING_RAD;
  if (!(excess > 0) || !(off < 1))
    return G_PI;
  return fmin (G_PI, angle + asin (off) * (1 + 1e-9) + ROUNDING_RAD);
}

static void
halve (const TrnBox *box, TrnBox halves[2])
{
  TrnVec3 size = trn_box_size (box), middle = trn_box_centre (box);
  halves[0] = halves[1] = *box;
  if (size.x >= size.y && size.x >= size.z)
    halves[0].hi.x = halves[1].lo.x = middle.x;
  else if (size.y >= size.z)
    halves[0].hi.y = halves[1].lo.y = middle.y;
  else
    halves[0].hi.z = halves[1].lo.z = middle.z;
}

static void
search_box (Search *search, const TrnBox *cog, guint depth)
{
  search->n_boxes++;
  double bound = bound_over (search, cog);
  gboolean is_done = bound <= search->attained_rad + search->width_rad || depth == 0;
  if (is_done || search->n_boxes >= MOST_BOXES)
    {
      search->bound_rad = fmax (search->bound_rad, bound);
      return;
    }
  TrnBox halves[2];
  halve (cog, halves);
  search_box (search, &halves[0], depth - 1);
  search_box (search, &halves[1], depth - 1);
}

double
trn_hang_lean_bound_from_legs (const TrnHangLeg *legs, guint n_legs, const TrnBox *cog, TrnVec3 up,
                               double width_rad)
{
  Search search = { .legs = legs, .n_legs = n_legs, .up = up, .width_rad = width_rad };
  search.attitude = attitude_of (up);
  TrnVec3 hook;
  TrnHang hang;
  if (n_legs == 1)
    return trn_hang_lean_bound_from_point (legs[0].lug, cog, up);
  if (hook_is_fixed (&search, cog, &hook))
    return fmin (G_PI, trn_hang_lean_bound_from_point (hook, cog, up) + 4 * SAME);
  for (guint i = 0; i < 8; i++)
    {
      TrnVec3 c = trn_box_corner (cog, i);
      if (!trn_hang_from_legs (legs, n_legs, c, &search.attitude, &hang) || !hang.is_lowest)
        return G_PI;
      search.attained_rad
          = fmax (search.attained_rad, angle_between (trn_vec3_sub (hang.hook, c), up));
    }
  search_box (&search, cog, 60);
  return fmin (G_PI, search.bound_rad);
}
