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
 * Over a box about c of half diagonal r the hook is thus within 2 r/(S − 1) of h, and the vector
 * h' − c' within ρ = r (1 + 2/(S − 1)) of v = h − c, so that its angle to @up is at most that of v
 * plus asin (ρ/|v|). The box of the greatest bound is halved along its longest edge until that is
 * near enough to the greatest value seen, or until it has taken long enough: the bound holds in any
 * case. */
#include "hanging.h"

#include <math.h>

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
  TrnVec3 *hook;        /* NULL: the angle is asked, else how far from there the hook may be */
} Search;

/* The value at its centre, and a bound over all of it. */
typedef struct
{
  TrnBox box;
  double attained, bound;
} Piece;

static TrnRotation
attitude_of (TrnVec3 up)
{
  TrnRotation turn = trn_rotation_identity ();
  trn_hang_from_point (up, trn_vec3_make (0, 0, 0), &turn, &turn);
  return turn;
}

static Search
search_make (const TrnHangLeg *legs, guint n_legs, TrnVec3 up)
{
  return (Search){ .legs = legs, .n_legs = n_legs, .up = up, .attitude = attitude_of (up) };
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

/* FALSE where nothing is known of that CoG. @moves_m: how far the hook may go in the load for a CoG
 * that is so far from it; infinite where there is no bound. */
static gboolean
value_at (const Search *search, TrnVec3 c, double off_m, double *value, double *moves_m,
          double *above_m)
{
  TrnHang hang;
  if (!trn_hang_from_legs (search->legs, search->n_legs, c, &search->attitude, &hang)
      || !hang.is_lowest)
    return FALSE;
  /* S − 1, from |h − c| = S (|h − c| − what the CoG is below the lugs) */
  const double excess = hang.cog_below_lugs_m / (hang.hook_above_cog_m - hang.cog_below_lugs_m);
  *moves_m = excess > 0 ? 2 * off_m / excess : INFINITY;
  *above_m = hang.hook_above_cog_m;
  *value = search->hook != NULL ? trn_vec3_distance (hang.hook, *search->hook)
                                : angle_between (trn_vec3_sub (hang.hook, c), search->up);
  return TRUE;
}

/* FALSE where there is no bound, however small the box is. No test can tell that something is added
 * to what comes of moves_m: the hook goes about half as far. */
static gboolean
piece_make (const Search *search, const TrnBox *box, Piece *piece)
{
  const double half_diagonal_m = 0.5 * trn_vec3_length (trn_box_size (box));
  double moves_m, above_m;
  *piece = (Piece){ .box = *box };
  if (!value_at (search, trn_box_centre (box), half_diagonal_m, &piece->attained, &moves_m,
                 &above_m))
    return FALSE;
  if (search->hook != NULL)
    {
      piece->bound = (piece->attained + moves_m) * (1 + 1e-9) + SAME * above_m;
      return TRUE;
    }
  const double off = (half_diagonal_m + moves_m) / above_m;
  piece->bound
      = off < 1 ? fmin (G_PI, piece->attained + asin (off) * (1 + 1e-9) + ROUNDING_RAD) : INFINITY;
  return TRUE;
}

static int
piece_compare (gconstpointer a, gconstpointer b, gpointer data)
{
  const Piece *x = a, *y = b;
  return x->bound < y->bound ? -1 : x->bound > y->bound;
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

static gboolean
add_piece (const Search *search, const TrnBox *box, GSequence *pieces, double *attained)
{
  Piece *piece = g_new (Piece, 1);
  const gboolean is_known = piece_make (search, box, piece);
  *attained = fmax (*attained, piece->attained);
  g_sequence_insert_sorted (pieces, piece, piece_compare, NULL);
  return is_known;
}

/* Over the box, at most @width above the greatest, which is @attained or more; infinite: there is
 * none. */
static double
search_box (const Search *search, const TrnBox *cog, double attained, double width)
{
  g_autoptr (GSequence) pieces = g_sequence_new (g_free);
  gboolean is_known = add_piece (search, cog, pieces, &attained);
  for (guint n = 1; is_known; n += 2)
    {
      GSequenceIter *worst = g_sequence_iter_prev (g_sequence_get_end_iter (pieces));
      const Piece piece = *(const Piece *)g_sequence_get (worst);
      if (piece.bound <= attained + width || n >= MOST_BOXES)
        return piece.bound;
      TrnBox halves[2];
      halve (&piece.box, halves);
      g_sequence_remove (worst);
      for (guint i = 0; i < 2 && is_known; i++)
        is_known = add_piece (search, &halves[i], pieces, &attained);
    }
  return INFINITY;
}

/* Of the corners, where the greatest is nearly always; FALSE where nothing is known of one. */
static gboolean
greatest_of_corners (const Search *search, const TrnBox *cog, double *greatest)
{
  *greatest = 0;
  for (guint i = 0; i < 8; i++)
    {
      double value, moves_m, above_m;
      if (!value_at (search, trn_box_corner (cog, i), 0, &value, &moves_m, &above_m))
        return FALSE;
      *greatest = fmax (*greatest, value);
    }
  return TRUE;
}

double
trn_hang_lean_bound_from_legs (const TrnHangLeg *legs, guint n_legs, const TrnBox *cog, TrnVec3 up,
                               double width_rad)
{
  const Search search = search_make (legs, n_legs, up);
  TrnVec3 hook;
  double attained;
  if (n_legs == 1)
    return trn_hang_lean_bound_from_point (legs[0].lug, cog, up);
  if (hook_is_fixed (&search, cog, &hook))
    return fmin (G_PI, trn_hang_lean_bound_from_point (hook, cog, up) + 4 * SAME);
  if (!greatest_of_corners (&search, cog, &attained))
    return G_PI;
  return fmin (G_PI, search_box (&search, cog, attained, width_rad));
}

double
trn_hang_play_bound_from_legs (const TrnHangLeg *legs, guint n_legs, const TrnBox *cog, TrnVec3 up,
                               TrnVec3 hook, double width_m)
{
  Search search = search_make (legs, n_legs, up);
  double attained;
  search.hook = &hook;
  if (!greatest_of_corners (&search, cog, &attained))
    return NAN;
  const double bound_m = search_box (&search, cog, attained, width_m);
  return isfinite (bound_m) ? bound_m : NAN;
}
