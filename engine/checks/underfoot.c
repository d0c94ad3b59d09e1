/* A structure carries where its surface looks up and is as high as the base of the gear, to within
 * the play of packing (TRN_SEAT_FIT_M), the survey tolerance of the structure and what its mesh
 * file may be off by. Each triangle is cut at these two heights; what is left of it, seen from
 * above, is taken off the rectangle (cover.h). Level a structure may be off by as much: so the
 * rectangle is made larger by that, until no structure that carries some of it may be off by more.
 * Two that carry it together may move apart, so that then one of them has to carry all of it.
 * Facets of a round solid lie outside of it, by the deviation that the scene was made with: by that
 * the rectangle is made larger as well.
 *
 * A survey that is off lifts or lowers a structure as a whole, and does not make what is low in it
 * as high as the rest, nor the street as high as a mat that lies on it. So the heights of what
 * carries are told, and who asks leaves out what is too low beside the highest (footing-check.c).
 *
 * Of a surface that is not closed nobody knows which side looks up, so that both count: a pad at
 * the height of an underside would be in what is above it, which the check `standing` finds where
 * the plan does not say that the two are connected.
 *
 * Where nothing is below a rectangle it may lie beside all that the plan shows, or in a hole
 * through it, as an opening of the ground without a floor. In a hole a surface about as high is
 * seen in every direction. It is looked for in N_DIRECTIONS of them; a hole that is open to a side
 * may count as one, but none whose rim is all of it within SUNK_MOST_M of the base is missed. */
#include "underfoot.h"

#include "cover.h"

#define N_DIRECTIONS 32
/* A surface up to this much higher than the base is ground that the gear is sunk in, and not a
 * roof. Common practice, no source: a man walks below a roof. */
#define SUNK_MOST_M 2.0
/* Beside the box of a pad and beside a sphere, for rounding. */
#define BESIDE_M 1e-6
/* A triangle cut by two heights and by the four sides of a rectangle. */
#define MOST_CORNERS 12
/* Single precision of the spheres of a tree, some hundred times. */
#define ROUNDING_SHARE 1e-5

typedef struct
{
  guint n;
  TrnVec3 p[MOST_CORNERS];
} Polygon;

typedef struct
{
  const TrnLiftCheck *check;
  const TrnPose *site_from_gear;
  const TrnStanding *only; /* NULL: all structures */
  TrnLevelPoint lo, hi;
  GArray *level;          /* of TrnCoverPiece */
  guint n_level;          /* structures that carry some of it */
  double floor_m;         /* what is lower does not carry */
  double grown_m, seam_m; /* of those: what they may be off by, with and without their facets */
  double top_m, bottom_m; /* of what carries; infinite: nothing does */
  double most_m2;         /* of what one structure carries, to tell which … */
  const char *on;         /* … carries most */
} Search;

/* One body of a structure, seen from the gear. */
typedef struct
{
  const TrnObstacle *of;
  TrnPose gear_from_body;
  double off_m, band_m;
  double beside_m; /* what an edge may be off by */
} Ground;

/* What @do_this does with a triangle that looks up. */
typedef void (*TriangleFunc) (const Ground *ground, const TrnVec3 corners[3], gpointer data);

static gboolean
is_ground (const TrnObstacle *obstacle, const TrnPlan *plan)
{
  const TrnStanding *standing = obstacle->standing;
  if (standing->kind != TRN_STANDING_STRUCTURE)
    return FALSE;
  const TrnSolid *solid = plan->structures[standing->index].shape.solid;
  return solid == NULL || solid->kind != TRN_SOLID_OVERHEAD_LINE;
}

/* Whether facets of it lie outside of what it is. */
static gboolean
is_round (const TrnSolid *solid)
{
  for (guint i = 0; i < solid->n_openings; i++)
    if (solid->openings[i].kind == TRN_OPENING_CIRCLE)
      return TRUE;
  for (guint i = 0; i < solid->n_parts; i++)
    if (is_round (solid->parts[i].solid))
      return TRUE;
  return solid->kind == TRN_SOLID_CYLINDER || solid->kind == TRN_SOLID_TUBE
         || solid->kind == TRN_SOLID_ROUND_SHAFT;
}

static double
facets_m (const TrnScene *scene, const TrnStanding *standing)
{
  const TrnSolid *solid = scene->programme->plan->structures[standing->index].shape.solid;
  return solid != NULL && is_round (solid) ? scene->solid_deviation_m : 0;
}

/* FALSE where nothing stands on it. */
static gboolean
ground_make (const Search *search, guint obstacle, Ground *ground)
{
  const TrnObstacle *of = &search->check->obstacles[obstacle];
  if ((search->only != NULL && of->standing != search->only)
      || !is_ground (of, search->check->scene->programme->plan))
    return FALSE;
  *ground = (Ground){ .of = of,
                      .gear_from_body = trn_pose_relative (search->site_from_gear,
                                                           &of->standing->site_from_standing),
                      .off_m = of->standing->survey_tolerance_m + of->body->off_m };
  ground->band_m = TRN_SEAT_FIT_M + ground->off_m;
  ground->beside_m = ground->off_m + facets_m (search->check->scene, of->standing);
  return TRUE;
}

/* ---- triangles ---- */

/* The corners counter-clockwise seen from above; FALSE where it does not look up. */
static gboolean
looks_up (const Ground *ground, guint32 triangle, TrnVec3 corners[3])
{
  const TrnMeshCheck *check = ground->of->body->check;
  const guint32 piece = check->piece_of[triangle];
  if (piece == G_MAXUINT32)
    return FALSE;
  trn_mesh_corners (ground->of->body->mesh, triangle, corners);
  for (int i = 0; i < 3; i++)
    corners[i] = trn_pose_apply (&ground->gear_from_body, corners[i]);
  const TrnVec3 a = trn_vec3_sub (corners[1], corners[0]),
                b = trn_vec3_sub (corners[2], corners[0]);
  const double up = a.x * b.y - a.y * b.x;
  const double outwards = check->pieces[piece].inside_out ? -up : up;
  if (up == 0 || (check->pieces[piece].closed && outwards < 0))
    return FALSE;
  if (up < 0)
    {
      const TrnVec3 swap = corners[1];
      corners[1] = corners[2];
      corners[2] = swap;
    }
  return TRUE;
}

static gboolean
is_near (const Search *search, TrnVec3 centre, double radius_m)
{
  return centre.x + radius_m >= search->lo.x_m && centre.x - radius_m <= search->hi.x_m
         && centre.y + radius_m >= search->lo.y_m && centre.y - radius_m <= search->hi.y_m;
}

static gboolean
is_over (const Search *search, const TrnVec3 p[3])
{
  return fmax (p[0].x, fmax (p[1].x, p[2].x)) >= search->lo.x_m
         && fmin (p[0].x, fmin (p[1].x, p[2].x)) <= search->hi.x_m
         && fmax (p[0].y, fmax (p[1].y, p[2].y)) >= search->lo.y_m
         && fmin (p[0].y, fmin (p[1].y, p[2].y)) <= search->hi.y_m;
}

/* Of one body, all that may be above or below the rectangle. */
static void
for_triangles (const Search *search, const Ground *ground, guint32 node, TriangleFunc do_this,
               gpointer data)
{
  const TrnBvh *bvh = ground->of->body->bvh;
  const TrnBvhNode *at = &bvh->nodes[node];
  const TrnVec3 centre = trn_pose_apply (&ground->gear_from_body, trn_bvh_centre (at));
  if (!is_near (search, centre, at->radius_m * (1 + ROUNDING_SHARE) + BESIDE_M))
    return;
  for (guint i = 0; i < at->n_children; i++)
    for_triangles (search, ground, at->child + i, do_this, data);
  if (at->n_children > 0)
    return;
  for (guint32 i = at->first; i < at->first + at->count; i++)
    {
      TrnVec3 corners[3];
      if (looks_up (ground, bvh->order[i], corners) && is_over (search, corners))
        do_this (ground, corners, data);
    }
}

/* ---- cuts ---- */

static double
along_axis (TrnVec3 p, int axis)
{
  return axis == 0 ? p.x : axis == 1 ? p.y : p.z;
}

/* What of it is where @sign · coordinate <= @most. */
static Polygon
cut (const Polygon *polygon, int axis, double sign, double most)
{
  Polygon part = { 0 };
  for (guint i = 0; i < polygon->n; i++)
    {
      const TrnVec3 p = polygon->p[i], q = polygon->p[i + 1 < polygon->n ? i + 1 : 0];
      const double of_p = sign * along_axis (p, axis) - most;
      const double of_q = sign * along_axis (q, axis) - most;
      if (of_p <= 0 && part.n < MOST_CORNERS)
        part.p[part.n++] = p;
      if (((of_p < 0 && of_q > 0) || (of_p > 0 && of_q < 0)) && part.n < MOST_CORNERS)
        part.p[part.n++] = trn_vec3_mix (p, q, of_p / (of_p - of_q));
    }
  return part;
}

static Polygon
polygon_make (const TrnVec3 corners[3])
{
  return (Polygon){ 3, { corners[0], corners[1], corners[2] } };
}

static TrnCoverPiece
seen_from_above (const Polygon *polygon)
{
  TrnLevelPoint points[MOST_CORNERS];
  for (guint i = 0; i < polygon->n; i++)
    points[i] = (TrnLevelPoint){ polygon->p[i].x, polygon->p[i].y };
  return trn_cover_piece_make (points, polygon->n);
}

/* ---- at the level ---- */

typedef struct
{
  Search *search;
  double area_m2; /* of this structure */
  gboolean is_any;
} OfOne;

static void
add_level (const Ground *ground, const TrnVec3 corners[3], gpointer data)
{
  OfOne *one = data;
  Search *search = one->search;
  Polygon polygon = polygon_make (corners);
  polygon = cut (&polygon, 2, 1, ground->band_m);
  polygon = cut (&polygon, 2, -1, fmin (ground->band_m, -search->floor_m));
  if (polygon.n < 3)
    return;
  const TrnCoverPiece piece = seen_from_above (&polygon);
  for (int axis = 0; axis < 2; axis++)
    {
      polygon = cut (&polygon, axis, 1, axis == 0 ? search->hi.x_m : search->hi.y_m);
      polygon = cut (&polygon, axis, -1, -(axis == 0 ? search->lo.x_m : search->lo.y_m));
    }
  if (polygon.n < 3)
    return;
  double twice_m2 = 0;
  for (guint i = 2; i < polygon.n; i++)
    {
      const TrnVec3 a = trn_vec3_sub (polygon.p[i - 1], polygon.p[0]);
      const TrnVec3 b = trn_vec3_sub (polygon.p[i], polygon.p[0]);
      twice_m2 += a.x * b.y - a.y * b.x;
    }
  for (guint i = 0; i < polygon.n; i++)
    {
      search->top_m = fmax (search->top_m, polygon.p[i].z);
      search->bottom_m = fmin (search->bottom_m, polygon.p[i].z);
    }
  one->area_m2 += twice_m2 / 2;
  one->is_any = TRUE;
  g_array_append_val (search->level, piece);
}

static void
find_level (Search *search)
{
  double of_structure_m2 = 0;
  const TrnStanding *last = NULL;
  for (guint i = 0; i < search->check->n_obstacles; i++)
    {
      Ground ground;
      if (!ground_make (search, i, &ground))
        continue;
      OfOne one = { .search = search };
      for_triangles (search, &ground, 0, add_level, &one);
      if (!one.is_any)
        continue;
      search->grown_m = fmax (search->grown_m, ground.beside_m);
      search->seam_m = fmax (search->seam_m, ground.off_m);
      const TrnStanding *standing = ground.of->standing;
      g_assert (standing != NULL);
      search->n_level += standing != last;
      of_structure_m2 = standing == last ? of_structure_m2 + one.area_m2 : one.area_m2;
      last = standing;
      if (of_structure_m2 <= search->most_m2)
        continue;
      search->most_m2 = of_structure_m2;
      search->on = standing->id;
    }
}

/* ---- below, above and all round ---- */

typedef struct
{
  const Search *search;
  double gap_m;
  const char *on;
} Nearest;

static void
look_below (const Ground *ground, const TrnVec3 corners[3], gpointer data)
{
  Nearest *nearest = data;
  const Search *search = nearest->search;
  Polygon polygon = polygon_make (corners);
  polygon = cut (&polygon, 0, 1, search->hi.x_m);
  polygon = cut (&polygon, 0, -1, -search->lo.x_m);
  polygon = cut (&polygon, 1, 1, search->hi.y_m);
  polygon = cut (&polygon, 1, -1, -search->lo.y_m);
  for (guint i = 0; i < polygon.n; i++)
    {
      const double gap_m = -polygon.p[i].z;
      const gboolean counts = fabs (gap_m) > ground->band_m && gap_m >= -SUNK_MOST_M;
      if (!counts || (isfinite (nearest->gap_m) && fabs (gap_m) >= fabs (nearest->gap_m)))
        continue;
      nearest->gap_m = gap_m;
      nearest->on = ground->of->standing->id;
    }
}

typedef struct
{
  TrnLevelPoint middle;
  guint32 seen; /* a bit for each direction */
  const char *on;
} Round;

/* The directions in which an edge of a triangle about the level is seen. */
static void
look_round (const Ground *ground, const TrnVec3 corners[3], gpointer data)
{
  Round *round = data;
  for (guint i = 0; i < N_DIRECTIONS; i++)
    {
      const double angle = 2 * G_PI * (i + 0.5) / N_DIRECTIONS, x = cos (angle), y = sin (angle);
      for (int k = 0; k < 3; k++)
        {
          const TrnVec3 p = corners[k], q = corners[(k + 1) % 3];
          const double px = p.x - round->middle.x_m, py = p.y - round->middle.y_m;
          const double qx = q.x - round->middle.x_m, qy = q.y - round->middle.y_m;
          const double p_left = x * py - y * px, q_left = x * qy - y * qx;
          const double p_ahead = x * px + y * py, q_ahead = x * qx + y * qy;
          if ((p_left >= 0) != (q_left >= 0)
              && p_ahead + (q_ahead - p_ahead) * p_left / (p_left - q_left) > 0)
            round->seen |= 1u << i;
        }
    }
  if (round->on == NULL)
    round->on = ground->of->standing->id;
}

static gboolean
is_about_level (const Ground *ground, const TrnVec3 corners[3])
{
  Polygon polygon = polygon_make (corners);
  polygon = cut (&polygon, 2, 1, SUNK_MOST_M + ground->off_m);
  polygon = cut (&polygon, 2, -1, SUNK_MOST_M + ground->off_m);
  return polygon.n >= 3;
}

static gboolean
find_hole (const Search *search, const char **on)
{
  Round round = { .middle = { 0.5 * (search->lo.x_m + search->hi.x_m),
                              0.5 * (search->lo.y_m + search->hi.y_m) } };
  for (guint i = 0; i < search->check->n_obstacles; i++)
    {
      Ground ground;
      if (!ground_make (search, i, &ground))
        continue;
      for (guint32 k = 0; k < ground.of->body->mesh->n_triangles && round.seen != G_MAXUINT32; k++)
        {
          TrnVec3 corners[3];
          if (looks_up (&ground, k, corners) && is_about_level (&ground, corners))
            look_round (&ground, corners, &round);
        }
    }
  *on = round.on;
  return round.seen == G_MAXUINT32;
}

/* ---- all of it ---- */

static void
set_not_carried (Search *search, const GArray *left, TrnUnderfoot *found)
{
  TrnLevelPoint lo = { INFINITY, INFINITY }, hi = { -INFINITY, -INFINITY };
  for (guint i = 0; i < left->len; i++)
    {
      const TrnCoverPiece *piece = &g_array_index (left, TrnCoverPiece, i);
      lo = (TrnLevelPoint){ fmin (lo.x_m, piece->lo.x_m), fmin (lo.y_m, piece->lo.y_m) };
      hi = (TrnLevelPoint){ fmax (hi.x_m, piece->hi.x_m), fmax (hi.y_m, piece->hi.y_m) };
    }
  if (left->len > 0)
    {
      search->lo = lo;
      search->hi = hi;
    }
  found->along_m = search->hi.x_m - search->lo.x_m;
  found->across_m = search->hi.y_m - search->lo.y_m;
  Nearest nearest = { .search = search, .gap_m = NAN };
  for (guint i = 0; i < search->check->n_obstacles; i++)
    {
      Ground ground;
      if (ground_make (search, i, &ground))
        for_triangles (search, &ground, 0, look_below, &nearest);
    }
  found->gap_m = nearest.gap_m;
  if (search->on == NULL)
    found->on = nearest.on;
  if (found->carried == 0 && isnan (found->gap_m))
    found->is_in_hole = find_hole (search, &found->on);
}

/* What is left of the rectangle from @lo to @hi, made larger as said above; its area in @left_m2.
 */
static GArray *
find_left (Search *search, TrnLevelPoint lo, TrnLevelPoint hi, double *left_m2)
{
  double by_m;
  do
    {
      by_m = search->grown_m;
      search->lo = (TrnLevelPoint){ lo.x_m - by_m, lo.y_m - by_m };
      search->hi = (TrnLevelPoint){ hi.x_m + by_m, hi.y_m + by_m };
      search->most_m2 = 0;
      search->n_level = 0;
      search->top_m = -INFINITY;
      search->bottom_m = INFINITY;
      g_array_set_size (search->level, 0);
      find_level (search);
    }
  while (search->grown_m > by_m);
  GArray *left
      = trn_cover_left (search->lo, search->hi, (const TrnCoverPiece *)(void *)search->level->data,
                        search->level->len, left_m2);
  for (guint i = 0; i < left->len; i++)
    *left_m2 += trn_cover_area_m2 (&g_array_index (left, TrnCoverPiece, i));
  return left;
}

static double
area_m2 (const Search *search)
{
  return (search->hi.x_m - search->lo.x_m) * (search->hi.y_m - search->lo.y_m);
}

static double
least_m2 (const Search *search)
{
  return fmin (TRN_UNCARRIED_M2, TRN_UNCARRIED_SHARE * area_m2 (search));
}

/* Whether one structure carries all of it, which @search then is of. */
static gboolean
find_one (Search *search, TrnLevelPoint lo, TrnLevelPoint hi)
{
  const TrnStanding *last = NULL;
  for (guint i = 0; i < search->check->n_obstacles; i++)
    {
      const TrnStanding *only = search->check->obstacles[i].standing;
      if (only == last)
        continue;
      last = only;
      Search one = { .check = search->check,
                     .site_from_gear = search->site_from_gear,
                     .only = only,
                     .level = search->level,
                     .floor_m = search->floor_m };
      double left_m2;
      g_array_unref (find_left (&one, lo, hi, &left_m2));
      if (left_m2 > least_m2 (&one))
        continue;
      *search = one;
      return TRUE;
    }
  return FALSE;
}

TrnUnderfoot
trn_underfoot_find (const TrnLiftCheck *check, const TrnPose *site_from_gear, TrnLevelPoint lo,
                    TrnLevelPoint hi, double floor_m)
{
  g_autoptr (GArray) level = g_array_new (FALSE, FALSE, sizeof (TrnCoverPiece));
  Search search
      = { .check = check, .site_from_gear = site_from_gear, .level = level, .floor_m = floor_m };
  double left_m2;
  g_autoptr (GArray) left = find_left (&search, lo, hi, &left_m2);
  TrnUnderfoot found = { .carried = 1,
                         .gap_m = NAN,
                         .top_m = isfinite (search.top_m) ? search.top_m : NAN,
                         .bottom_m = isfinite (search.bottom_m) ? search.bottom_m : NAN };
  if (left_m2 <= least_m2 (&search))
    {
      found.is_over_seam = search.n_level > 1 && search.seam_m > TRN_UNDERFOOT_SEAM_M
                           && !find_one (&search, lo, hi);
      found.grown_m = search.grown_m;
      found.on = search.on;
      return found;
    }
  found.grown_m = search.grown_m;
  const double all_m2 = area_m2 (&search);
  found.carried = all_m2 - left_m2 > least_m2 (&search) ? 1 - left_m2 / all_m2 : 0;
  found.on = found.carried > 0 ? search.on : NULL;
  search.on = found.on;
  set_not_carried (&search, left, &found);
  return found;
}
