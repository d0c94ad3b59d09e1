/* triangle.c: the distance of two triangles.
 *
 * Used at the leaves of the trees, where nothing may be lost: the result is the ground of every
 * certified clearance.
 *
 * The distance is attained between two edges, between a corner and a face, or is zero where an
 * edge crosses a face: 9 + 6 + 6 candidates. Each candidate is the distance of two points that are
 * combinations of the corners with weights in 0 … 1, so that, whatever goes wrong with a sliver
 * or with edges that are all but parallel, it never lies below the truth by more than the rounding
 * of these points. Parameters come from cross products, not from differences of dot products, and
 * are mended by the residual they leave; where a solution falls outside its edge or face it is
 * clamped, and the candidate at the boundary, of a lower kind, is as good (the residual is convex).
 * The search ends at once when a pair of points is proven closest: when the planes across their
 * difference separate the triangles.
 *
 * No absolute tolerance occurs. Rounding, with u = 2⁻⁵³ and M the greatest absolute coordinate
 * difference of the corners: moving the origin to a corner costs 2 √3 u M < 4 u M, the two points
 * and their difference √3 (3 + 3 + 1) u M < 13 u M, the root 5 u M; a pair accepted as closest by
 * the planes is within (8 + 2 · 6) u M of it. A distance below 32 u M, M here from the first corner
 * and so at least half of the above, is given as 0. All in all less than 64 u M. The tests find at
 * most 5 u M where the result is not 0.
 *
 * Closest points of segments: after C. Ericson, Real-Time Collision Detection, 2005, sec. 5.1.9;
 * the early end: after Larsen, Gottschalk, Lin and Manocha 1999. */
#include "triangle.h"

#define UNIT_ROUNDING 0x1p-53

typedef struct
{
  TrnVec3 corner[3];
  TrnVec3 edge[3]; /* from corner i to corner i + 1 */
  double edge_square[3];
  /* The face: @e1 is the longest edge, @e2 leads from its start to the third corner. */
  TrnVec3 base, e1, e2, normal;
  double e1_square;
  double normal_square;
  double side_error; /* a computed (x − base) · normal beyond this has the right sign */
} Triangle;

typedef struct
{
  Triangle a, b;
  double size;   /* M */
  double square; /* of the least distance so far */
  TrnVec3 on_a, on_b;
} Search;

static inline double
clamp_unit (double t)
{
  return t > 0 ? (t < 1 ? t : 1) : 0;
}

static void
triangle_prepare (Triangle *t, double size)
{
  for (int i = 0; i < 3; i++)
    {
      t->edge[i] = trn_vec3_sub (t->corner[(i + 1) % 3], t->corner[i]);
      t->edge_square[i] = trn_vec3_length_squared (t->edge[i]);
    }
  int longest = t->edge_square[0] >= t->edge_square[1] ? 0 : 1;
  longest = t->edge_square[2] > t->edge_square[longest] ? 2 : longest;
  t->base = t->corner[longest];
  t->e1 = t->edge[longest];
  t->e1_square = t->edge_square[longest];
  t->e2 = trn_vec3_sub (t->corner[(longest + 2) % 3], t->base);
  t->normal = trn_vec3_cross (t->e1, t->e2);
  t->normal_square = trn_vec3_length_squared (t->normal);
  t->side_error = 32 * UNIT_ROUNDING * size
                  * sqrt (trn_vec3_length_squared (t->e1) * trn_vec3_length_squared (t->e2));
}

static inline TrnVec3
face_point (const Triangle *t, double w1, double w2)
{
  return trn_vec3_add_scaled (trn_vec3_add_scaled (t->base, t->e1, w1), t->e2, w2);
}

/* Adds to the weights what takes a point of the face by @r along it. The distance from the longest
 * edge comes first; the rest along that edge makes good what is lost on the way in a sliver. */
static inline void
face_weights_add (const Triangle *t, TrnVec3 r, double *w1, double *w2)
{
  double k2 = trn_vec3_dot (trn_vec3_cross (t->e1, r), t->normal) / t->normal_square;
  *w1 += trn_vec3_dot (trn_vec3_add_scaled (r, t->e2, -k2), t->e1) / t->e1_square;
  *w2 += k2;
}

static inline TrnVec3
face_point_clamped (const Triangle *t, double w1, double w2)
{
  w1 = clamp_unit (w1);
  w2 = clamp_unit (w2);
  return face_point (t, w1, w2 < 1 - w1 ? w2 : 1 - w1);
}

/* Whether the pair of points at hand is proven closest: B lies beyond the plane through on_b across
 * the difference, A before the one through on_a. */
static gboolean
search_is_proven (const Search *s)
{
  TrnVec3 v = trn_vec3_sub (s->on_b, s->on_a);
  double slack = 8 * UNIT_ROUNDING * s->size * trn_vec3_max_abs (v);
  for (int i = 0; i < 3; i++)
    if (!(trn_vec3_dot (v, trn_vec3_sub (s->b.corner[i], s->on_b)) >= -0.5 * slack)
        || !(trn_vec3_dot (v, trn_vec3_sub (s->a.corner[i], s->on_a)) <= 0.5 * slack))
      return FALSE;
  return TRUE;
}

static double
contact_square (const Search *s)
{
  double least = 32 * UNIT_ROUNDING * s->size;
  return least * least;
}

/* Takes the pair if it is the closest so far; TRUE when the search is over. */
static gboolean
search_offer (Search *s, TrnVec3 on_a, TrnVec3 on_b)
{
  double square = trn_vec3_length_squared (trn_vec3_sub (on_b, on_a));
  if (!(square < s->square))
    return FALSE;
  s->square = square;
  s->on_a = on_a;
  s->on_b = on_b;
  return square < contact_square (s) || search_is_proven (s);
}

static gboolean
search_edges (Search *search, int i, int k)
{
  const Triangle *a = &search->a, *b = &search->b;
  TrnVec3 p = a->corner[i], p_end = a->corner[(i + 1) % 3], d = a->edge[i];
  TrnVec3 q = b->corner[k], q_end = b->corner[(k + 1) % 3], e = b->edge[k];
  double dd = a->edge_square[i], ee = b->edge_square[k];

  TrnVec3 across = trn_vec3_cross (d, e);
  double square = trn_vec3_length_squared (across);
  double s = 0, t = 0;
  if (square > 0)
    s = clamp_unit (trn_vec3_dot (trn_vec3_cross (trn_vec3_sub (q, p), e), across) / square);
  TrnVec3 x = trn_vec3_mix (p, p_end, s);
  if (ee > 0)
    t = clamp_unit (trn_vec3_dot (trn_vec3_sub (x, q), e) / ee);
  TrnVec3 y = trn_vec3_mix (q, q_end, t);
  if (dd > 0)
    x = trn_vec3_mix (p, p_end, clamp_unit (trn_vec3_dot (trn_vec3_sub (y, p), d) / dd));
  return search_offer (search, x, y);
}

/* The corner @p of one triangle against the face of the other. */
static gboolean
search_corner (Search *search, TrnVec3 p, const Triangle *face)
{
  double w1 = 0, w2 = 0;
  if (!(face->normal_square > 0))
    return FALSE;
  face_weights_add (face, trn_vec3_sub (p, face->base), &w1, &w2);
  TrnVec3 foot = face_point_clamped (face, w1, w2);
  if (face == &search->b)
    return search_offer (search, p, foot);
  return search_offer (search, foot, p);
}

/* The edge from @p to @q of one triangle through the face of the other: the three equations for
 * the parameter on the edge and the weights in the face, solved again for the residual until that
 * is a rounding error; each step gains a factor of the order of u over the sine of the least angle.
 */
static gboolean
search_crossing (Search *search, TrnVec3 p, TrnVec3 q, const Triangle *face)
{
  TrnVec3 d = trn_vec3_sub (q, p);
  double slope = trn_vec3_dot (d, face->normal);
  if (slope == 0 || !(face->normal_square > 0))
    return FALSE;
  double s = 0, w1 = 0, w2 = 0;
  for (int step = 0; step < 12; step++)
    {
      TrnVec3 r = trn_vec3_sub (trn_vec3_mix (p, q, s), face_point (face, w1, w2));
      if (trn_vec3_max_abs (r) <= 2 * UNIT_ROUNDING * search->size)
        break;
      double ds = -trn_vec3_dot (r, face->normal) / slope;
      s += ds;
      face_weights_add (face, trn_vec3_add_scaled (r, d, ds), &w1, &w2);
    }
  TrnVec3 on_edge = trn_vec3_mix (p, q, clamp_unit (s));
  TrnVec3 on_face = face_point_clamped (face, w1, w2);
  if (face == &search->b)
    return search_offer (search, on_edge, on_face);
  return search_offer (search, on_face, on_edge);
}

static gboolean
search_crossings (Search *search, const Triangle *edges, const Triangle *face)
{
  double side[3];
  for (int i = 0; i < 3; i++)
    side[i] = trn_vec3_dot (trn_vec3_sub (edges->corner[i], face->base), face->normal);
  for (int i = 0; i < 3; i++)
    {
      int k = (i + 1) % 3;
      gboolean apart = (side[i] > face->side_error && side[k] > face->side_error)
                       || (side[i] < -face->side_error && side[k] < -face->side_error);
      if (!apart && search_crossing (search, edges->corner[i], edges->corner[k], face))
        return TRUE;
    }
  return FALSE;
}

static void
search_run (Search *s)
{
  for (int i = 0; i < 3; i++)
    for (int k = 0; k < 3; k++)
      if (search_edges (s, i, k))
        return;
  for (int i = 0; i < 3; i++)
    if (search_corner (s, s->a.corner[i], &s->b) || search_corner (s, s->b.corner[i], &s->a))
      return;
  if (!search_crossings (s, &s->a, &s->b))
    search_crossings (s, &s->b, &s->a);
}

static double
distance_of_translated (const TrnVec3 a[3], const TrnVec3 b[3], double size, TrnVec3 *on_a,
                        TrnVec3 *on_b)
{
  Search s = { .size = size, .square = INFINITY };
  for (int i = 0; i < 3; i++)
    {
      s.a.corner[i] = a[i];
      s.b.corner[i] = b[i];
    }
  triangle_prepare (&s.a, size);
  triangle_prepare (&s.b, size);
  search_run (&s);
  if (s.square < contact_square (&s))
    {
      s.square = 0;
      s.on_b = s.on_a;
    }
  *on_a = s.on_a;
  *on_b = s.on_b;
  return sqrt (s.square);
}

static TrnVec3
times_power (TrnVec3 v, int exponent)
{
  return trn_vec3_make (scalbn (v.x, exponent), scalbn (v.y, exponent), scalbn (v.z, exponent));
}

/* The same with every coordinate taken times 2 to the power of @exponent, which is exact but where
 * a coordinate is negligible beside the greatest. */
static double
distance_rescaled (const TrnVec3 a[3], const TrnVec3 b[3], int exponent, TrnVec3 *on_a,
                   TrnVec3 *on_b)
{
  TrnVec3 scaled_a[3], scaled_b[3];
  for (int i = 0; i < 3; i++)
    {
      scaled_a[i] = times_power (a[i], exponent);
      scaled_b[i] = times_power (b[i], exponent);
    }
  double distance = trn_triangle_distance (scaled_a, scaled_b, on_a, on_b);
  *on_a = times_power (*on_a, -exponent);
  *on_b = times_power (*on_b, -exponent);
  return scalbn (distance, -exponent);
}

double
trn_triangle_distance (const TrnVec3 a[3], const TrnVec3 b[3], TrnVec3 *on_a, TrnVec3 *on_b)
{
  TrnVec3 origin = a[0], moved_a[3], moved_b[3];
  double size = 0;
  for (int i = 0; i < 3; i++)
    {
      moved_a[i] = trn_vec3_sub (a[i], origin);
      moved_b[i] = trn_vec3_sub (b[i], origin);
      size = fmax (size, fmax (trn_vec3_max_abs (moved_a[i]), trn_vec3_max_abs (moved_b[i])));
    }
  *on_a = *on_b = origin;
  if (size == 0)
    return 0;

  /* Fourth powers of lengths must neither overflow nor vanish. */
  double distance;
  if (size > 0x1p+900)
    return distance_rescaled (a, b, -800, on_a, on_b);
  if (size > 0x1p+100 || size < 0x1p-100)
    distance = distance_rescaled (moved_a, moved_b, -ilogb (size), on_a, on_b);
  else
    distance = distance_of_translated (moved_a, moved_b, size, on_a, on_b);
  *on_a = trn_vec3_add (*on_a, origin);
  *on_b = trn_vec3_add (*on_b, origin);
  return distance;
}
