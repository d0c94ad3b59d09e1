/* Footprint. Where a triangle of the load that faces down lies over one of the seat that faces up,
 * seen from above, and the two are no farther apart in height than the fit of the seat, the load
 * may bear on it: that much packing and shims make up for. That region is a convex polygon: the
 * load's triangle cut by the three sides of the seat's, and, both being planes, by two more half
 * spaces for the gap. The footprint is the convex hull of all corners of such polygons, and of the
 * point at which a tail trolley or a turning frame carries the tail to the end.
 *
 * Round undersides. Where the gap opens gradually, as beside the line in which a round vessel bears
 * on a level, it bears on that line alone, and its load rolls. Of each seat two regions are
 * compared: B, with gaps up to half the fit above the least, and A, with gaps up to all of it.
 * Below a plane underside both are the same. Where the gap grows as |x|^p from a point or line,
 * they reach a and b = a (1/2)^(1/p) from it, and SHRINK (a − b) >= b as long as b <= 7/8 a, p <=
 * 5: B less SHRINK times what A goes beyond it has nothing left on that side. For p = 2, a round,
 * that holds for triangles up to 0.15 of the fit off it: (1/2 + 0.15)/(1 − 0.15) <= (7/8)². B is
 * what counts, less that much at all its edges, of the seat where that is most. So a vessel on the
 * ground does not stand; on two saddles, which hold it on both sides, it does. Where nothing is
 * left of B, the load still bears on C, where the gap is the least: its centre of gravity is never
 * farther outside than from the hull of C, and not within that, as C of a round is a line.
 *
 * Out of level. A flat face drawn off its seat by an angle ε bears on an edge alone. With its
 * centre of gravity over the face, gravity turns it about that edge until it is flat: it is inside
 * of the edge by d cos θ − h sin θ with θ still to go, of which the least is at θ = ε or 0. So it
 * is judged turned by ε about where it bears, its centre of gravity there and as drawn, less the L
 * (1 − cos ε) that the face, L at most from there, comes nearer by. It stands where the tolerance
 * of tilt covers ε, or where L sin ε, which nothing of it comes down by more than, is within the
 * fit: packing makes that up. Beyond it would stand otherwise than drawn, which fails.
 *
 * The distance of a point from the edge of a convex region, negative outside, is a concave function
 * of the point, so that its least over the box of the centre of gravity is at a corner. A load that
 * balances on an edge, or on a line, does not stand.
 *
 * Coarse rounds. A mesh of few flats stands on one of them where the round it is drawn for would
 * roll. What is level where the load bears, with a face beside it that turns up by COARSE_DEG at
 * most and goes on for a good part of the level's own width, may be such a flat; where nothing
 * bears on that face, nor beyond, how the load stands is not known.
 *
 * Tipping. The load tips over an edge when it is turned by atan (m/h), m its centre of gravity
 * inside of that edge and h above the lowest of what bears. Less than TRN_TIP_LEAST_DEG is what an
 * uneven or a soft seat takes, and no standing.
 *
 * Slopes. Without friction a load stays where gravity is a sum of pushes along the normals of what
 * it bears on, none below 0: seen as level vectors (n_x, n_y)/n_z the origin is in their hull.
 * Friction of an angle φ holds it as far as tan φ from that. Beyond TRN_SLOPE_DEG it may slide,
 * which is not checked: not known. Asked of the faces of the seats and of those of the load, since
 * on an edge the face of the other is the one that counts.
 *
 * Start. What stands on seats before the lift is asked the same; it stands where it stands, so that
 * only what the survey may be off is taken off.
 *
 * Tolerances. Set down off its place by p, or by the heading η about the hook, with points and CoG
 * at most ρ from the plumb line of the hook, or on a seat that was measured off by t, the load has
 * less over the edges of what it stands on by at most p + t + 2 · 2 ρ sin(η/2). */
#include "resting-check.h"

#include "hoist.h"
#include "hook-force.h"
#include "polygon.h"
#include "resting.h"
#include "sources.h"
#include "tolerances.h"

#define SHRINK 7
/* A round drawn with 10 flats turns by 36° from one to the next, and nothing is drawn with fewer.
 * Common practice, no source. */
#define COARSE_DEG 37
/* Level, and less than any flat beside one. Common practice, no source. */
#define LEVEL_DEG 1
/* How far a flat goes on beside one as wide as 2: half of what it would were all alike. */
#define COARSE_SHARE 0.5
/* A face that is no flatter is upright: what is above it, seen from above, is rounding. */
#define UPRIGHT 1e-6
/* What rounding leaves of a gap that is the same all over, and of an angle of 0. */
#define FLUSH_M 1e-9
#define FLUSH_RAD 1e-9
/* Farther off another face is nearer to the seat. */
#define OFF_DEG 45

typedef struct
{
  TrnVec3 p[3];
  TrnBox box;
} Face;

static TrnVec3
face_normal (const Face *face)
{
  return trn_vec3_cross (trn_vec3_sub (face->p[1], face->p[0]),
                         trn_vec3_sub (face->p[2], face->p[0]));
}

static TrnVec3 *
place_vertices (const TrnMesh *mesh, const TrnPose *pose)
{
  TrnVec3 *places = g_new (TrnVec3, mesh->n_vertices);
  for (guint32 i = 0; i < mesh->n_vertices; i++)
    places[i] = trn_pose_apply (pose, mesh->vertices[i]);
  return places;
}

static gboolean
comes_near (TrnInterval of_near, double a, double b, double c)
{
  return MIN (MIN (a, b), c) <= of_near.hi && MAX (MAX (a, b), c) >= of_near.lo;
}

/* Of the triangles that face up, or down, and come into @near; @places: of the vertices. */
static GArray *
list_faces (const TrnMesh *mesh, const TrnVec3 *places, gboolean up, const TrnBox *near)
{
  GArray *faces = g_array_new (FALSE, FALSE, sizeof (Face));
  const TrnInterval x = { near->lo.x, near->hi.x }, y = { near->lo.y, near->hi.y },
                    z = { near->lo.z, near->hi.z };
  for (guint32 i = 0; i < mesh->n_triangles; i++)
    {
      const guint32 *v = mesh->triangles[i].v;
      const TrnVec3 a = places[v[0]], b = places[v[1]], c = places[v[2]];
      if (!comes_near (z, a.z, b.z, c.z) || !comes_near (x, a.x, b.x, c.x)
          || !comes_near (y, a.y, b.y, c.y))
        continue;
      Face face = { .p = { a, b, c }, .box = trn_box_empty () };
      for (int k = 0; k < 3; k++)
        trn_box_add_point (&face.box, face.p[k]);
      const TrnVec3 normal = face_normal (&face);
      const double upright = UPRIGHT * trn_vec3_length (normal);
      if (up ? normal.z > upright : normal.z < -upright)
        g_array_append_val (faces, face);
    }
  return faces;
}

static int
compare_faces (gconstpointer a, gconstpointer b)
{
  double p = ((const Face *)a)->box.lo.x, q = ((const Face *)b)->box.lo.x;
  return p < q ? -1 : p > q;
}

/* What the load bears on. */
typedef struct
{
  GArray *points;    /* of TrnLevelPoint, corners of the footprint; owned, like the next three */
  GArray *touches;   /* of TrnLevelPoint: those of where gaps are the least */
  GArray *up, *down; /* of TrnLevelPoint: level parts of normals of length 1 upwards */
  double lowest_m;
  double less_m; /* how much of its edge does not count */
  double fit_m;  /* the least of all seats that it bears on */
  gboolean has_tail;
  /* What turns the face that is flattest on its seat until it is flat, about that point. */
  double off_rad;
  TrnVec3 axis, pivot;
  double pivot_gap_m;
} Footing;

static void
footing_clear (Footing *footing)
{
  g_array_unref (footing->points);
  g_array_unref (footing->touches);
  g_array_unref (footing->up);
  g_array_unref (footing->down);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Footing, footing_clear)

/* Where they may bear. */
typedef struct
{
  const Face *down, *up;
} Facing;

/* Adds the corners of where the gap is from −@fit_m to @gap_m; returns the least gap there.
 * @lowest_m: of the load there; may be NULL. */
static double
add_bearing (GArray *points, const Facing *facing, double fit_m, double gap_m, double *lowest_m)
{
  const Face *down = facing->down, *up = facing->up;
  double least_m = INFINITY;
  TrnPolygon polygon = { .corners = { down->p[0], down->p[1], down->p[2] }, .n_corners = 3 };
  TrnVec3 normal = face_normal (up);
  for (int k = 0; k < 3 && polygon.n_corners > 0; k++)
    {
      /* Counter-clockwise from above: the inside is to the left of each side. */
      TrnVec3 a = up->p[k], b = up->p[(k + 1) % 3];
      TrnVec3 left = trn_vec3_make (a.y - b.y, b.x - a.x, 0);
      trn_polygon_cut (&polygon, left, trn_vec3_dot (left, a));
    }
  TrnVec3 height = trn_vec3_scale (normal, 1 / normal.z);
  double level = trn_vec3_dot (height, up->p[0]);
  trn_polygon_cut (&polygon, height, level - fit_m);
  trn_polygon_cut (&polygon, trn_vec3_scale (height, -1), -(level + gap_m));
  for (guint i = 0; i < polygon.n_corners; i++)
    {
      TrnLevelPoint point = { polygon.corners[i].x, polygon.corners[i].y };
      least_m = fmin (least_m, trn_vec3_dot (height, polygon.corners[i]) - level);
      if (lowest_m != NULL)
        *lowest_m = fmin (*lowest_m, polygon.corners[i].z);
      g_array_append_val (points, point);
    }
  return least_m;
}

static void
add_normal (GArray *normals, const Face *face)
{
  const TrnVec3 normal = face_normal (face);
  const TrnLevelPoint level = { normal.x / normal.z, normal.y / normal.z };
  g_array_append_val (normals, level);
}

/* How far @facing is from flat. */
static void
tell_off (const Facing *facing, Footing *footing)
{
  const TrnVec3 up = trn_vec3_unit (face_normal (facing->up)),
                down = trn_vec3_scale (trn_vec3_unit (face_normal (facing->down)), -1),
                across = trn_vec3_cross (down, up);
  const double sine = trn_vec3_length (across), off_rad = atan2 (sine, trn_vec3_dot (down, up));
  if (!(off_rad < footing->off_rad))
    return;
  footing->off_rad = off_rad;
  footing->axis = sine > 0 ? trn_vec3_scale (across, 1 / sine) : trn_vec3_make (1, 0, 0);
}

/* Adds where the load bears with the least gap of a seat, @least_m. */
static void
add_touches (const GArray *facings, double fit_m, double least_m, Footing *footing)
{
  for (guint i = 0; i < facings->len; i++)
    {
      const Facing *facing = &g_array_index (facings, Facing, i);
      const guint before = footing->touches->len;
      double lowest_m = INFINITY;
      add_bearing (footing->touches, facing, fit_m, least_m + FLUSH_M, &lowest_m);
      if (footing->touches->len == before || !(least_m < footing->pivot_gap_m))
        continue;
      const TrnLevelPoint at = g_array_index (footing->touches, TrnLevelPoint, before);
      footing->pivot = trn_vec3_make (at.x_m, at.y_m, lowest_m);
      footing->pivot_gap_m = least_m;
    }
}

/* Adds what the load bears on of one seat. */
static void
add_seat (const GArray *facings, double fit_m, Footing *footing)
{
  g_autoptr (GArray) bears = g_array_new (FALSE, FALSE, sizeof (TrnLevelPoint));
  g_autoptr (GArray) wider = g_array_new (FALSE, FALSE, sizeof (TrnLevelPoint));
  double least_m = INFINITY;
  for (guint i = 0; i < facings->len; i++)
    least_m = fmin (least_m,
                    add_bearing (bears, &g_array_index (facings, Facing, i), fit_m, fit_m, NULL));
  g_array_set_size (bears, 0);
  for (guint i = 0; isfinite (least_m) && i < facings->len; i++)
    {
      const Facing *facing = &g_array_index (facings, Facing, i);
      const guint before = bears->len;
      add_bearing (bears, facing, fit_m, fmin (fit_m, least_m + fit_m / 2 + FLUSH_M),
                   &footing->lowest_m);
      if (bears->len > before)
        {
          add_normal (footing->up, facing->up);
          add_normal (footing->down, facing->down);
          tell_off (facing, footing);
        }
      add_bearing (wider, facing, fit_m, least_m + fit_m + FLUSH_M, NULL);
    }
  if (bears->len == 0)
    return;
  g_array_append_vals (footing->points, bears->data, bears->len);
  add_touches (facings, fit_m, least_m, footing);
  footing->fit_m = fmin (footing->fit_m, fit_m);
  const double beyond_m
      = trn_resting_beyond_m ((const TrnLevelPoint *)(void *)bears->data, bears->len,
                              (const TrnLevelPoint *)(void *)wider->data, wider->len);
  footing->less_m = fmax (footing->less_m, SHRINK * beyond_m);
}

/* How far any of the faces up to each goes, which are in the order of where they begin. */
static double *
list_ends (const GArray *faces)
{
  double *ends = g_new (double, faces->len), end = -INFINITY;
  for (guint i = 0; i < faces->len; i++)
    {
      end = fmax (end, g_array_index (faces, Face, i).box.hi.x);
      ends[i] = end;
    }
  return ends;
}

/* The first that may come as far as @x; all before it do not. */
static guint
first_beyond (const double *ends, guint n, double x)
{
  guint first = 0;
  while (n > 0)
    {
      const guint half = n / 2;
      if (ends[first + half] < x)
        {
          first += half + 1;
          n -= half + 1;
        }
      else
        n = half;
    }
  return first;
}

/* Of Facing; @downs are in the order of where they begin. */
static GArray *
list_facings (const GArray *ups, const GArray *downs, double fit_m)
{
  GArray *facings = g_array_new (FALSE, FALSE, sizeof (Facing));
  g_autofree double *ends = list_ends (downs);
  for (guint i = 0; i < ups->len; i++)
    {
      const Face *up = &g_array_index (ups, Face, i);
      for (guint k = first_beyond (ends, downs->len, up->box.lo.x); k < downs->len; k++)
        {
          const Face *down = &g_array_index (downs, Face, k);
          if (down->box.lo.x > up->box.hi.x)
            break;
          if (down->box.hi.x >= up->box.lo.x && down->box.lo.y <= up->box.hi.y
              && down->box.hi.y >= up->box.lo.y && down->box.lo.z <= up->box.hi.z + 2 * fit_m
              && down->box.hi.z >= up->box.lo.z - fit_m)
            {
              const Facing facing = { down, up };
              g_array_append_val (facings, facing);
            }
        }
    }
  return facings;
}

/* @places: of the vertices of the load. */
static void
add_obstacle (const TrnMesh *mesh, const TrnVec3 *places, const TrnObstacle *other, double fit_m,
              Footing *footing)
{
  TrnBox near = trn_box_empty ();
  g_autofree TrnVec3 *others
      = place_vertices (other->body->mesh, &other->standing->site_from_standing);
  for (guint32 i = 0; i < mesh->n_vertices; i++)
    trn_box_add_point (&near, places[i]);
  /* Gaps go up to twice the fit: all of it above the least, which is within it. */
  near.lo.z -= 2 * fit_m;
  near.hi.z += 2 * fit_m;
  g_autoptr (GArray) ups = list_faces (other->body->mesh, others, TRUE, &near);
  near = trn_box_empty ();
  for (guint i = 0; i < ups->len; i++)
    {
      const Face *up = &g_array_index (ups, Face, i);
      trn_box_add_point (&near, up->box.lo);
      trn_box_add_point (&near, up->box.hi);
    }
  near.lo.z -= 2 * fit_m;
  near.hi.z += 2 * fit_m;
  g_autoptr (GArray) downs = list_faces (mesh, places, FALSE, &near);
  g_array_sort (downs, compare_faces);
  g_autoptr (GArray) facings = list_facings (ups, downs, fit_m);
  add_seat (facings, fit_m, footing);
}

/* The point at which a trolley or a frame carries the tail then. */
static void
add_tail (const TrnLiftCheck *check, const TrnPose *pose, gboolean at_end, GArray *points)
{
  const TrnHoist *hoists[2];
  guint n = trn_hoists_holding (check, at_end ? check->run->lift->n_moves - 1 : 0, hoists);
  for (guint i = 0; i < n; i++)
    {
      const TrnGear *gear = hoists[i] != NULL ? trn_hoist_gear (check, hoists[i]) : NULL;
      if (gear == NULL || gear->kind == TRN_GEAR_CRANE || gear->kind == TRN_GEAR_GANTRY
          || hoists[i] != &check->run->lift->rigging.tail)
        continue;
      TrnVec3 at = trn_pose_apply (pose, hoists[i]->point);
      TrnLevelPoint point = { at.x, at.y };
      g_array_append_val (points, point);
    }
}

static gboolean
is_at (const TrnSeat *seat, gboolean at_end)
{
  return at_end ? seat->at_end : seat->at_start;
}

/* Of points of which only the hull is asked for, mostly again and again. */
static void
keep_corners (GArray *points)
{
  guint n = trn_resting_corners ((TrnLevelPoint *)(void *)points->data, points->len);
  g_array_set_size (points, n);
}

/* Looking @deeper_m deeper into seats than they fit. To be cleared by the caller. */
static Footing
find_footing (const TrnLiftCheck *check, const TrnPose *pose, gboolean at_end, double deeper_m)
{
  const TrnLift *lift = check->run->lift;
  Footing footing = { .points = g_array_new (FALSE, FALSE, sizeof (TrnLevelPoint)),
                      .touches = g_array_new (FALSE, FALSE, sizeof (TrnLevelPoint)),
                      .up = g_array_new (FALSE, FALSE, sizeof (TrnLevelPoint)),
                      .down = g_array_new (FALSE, FALSE, sizeof (TrnLevelPoint)),
                      .lowest_m = INFINITY,
                      .fit_m = INFINITY,
                      .off_rad = INFINITY,
                      .pivot_gap_m = INFINITY };
  const TrnMesh *mesh = check->load->mesh;
  g_autofree TrnVec3 *places = place_vertices (mesh, pose);
  for (guint i = 0; i < lift->n_seats; i++)
    for (guint k = 0; is_at (&lift->seats[i], at_end) && k < check->n_obstacles; k++)
      if (trn_seat_means (&lift->seats[i], check->obstacles[k].body))
        add_obstacle (mesh, places, &check->obstacles[k], lift->seats[i].fit_m + deeper_m,
                      &footing);
  if (footing.points->len > 0)
    {
      const guint before = footing.points->len;
      add_tail (check, pose, at_end, footing.points);
      footing.has_tail = footing.points->len > before;
      add_tail (check, pose, at_end, footing.touches);
    }
  keep_corners (footing.points);
  keep_corners (footing.touches);
  return footing;
}

static double
margin_at (const GArray *points, double x_m, double y_m)
{
  return trn_resting_margin_m ((const TrnLevelPoint *)(void *)points->data, points->len,
                               (TrnLevelPoint){ x_m, y_m });
}

/* @highest_m: of the centre of gravity, anywhere in its box. */
static double
least_margin (const TrnPose *pose, const TrnComponent *unit, const GArray *points,
              double *highest_m)
{
  double least_m = INFINITY;
  TrnVec3 half = unit->cog_box;
  *highest_m = -INFINITY;
  for (guint i = 0; i < 8; i++)
    {
      TrnVec3 by = trn_vec3_make (i & 1 ? half.x : -half.x, i & 2 ? half.y : -half.y,
                                  i & 4 ? half.z : -half.z);
      TrnVec3 cog = trn_pose_apply (pose, trn_vec3_add (unit->cog, by));
      *highest_m = fmax (*highest_m, cog.z);
      least_m = fmin (least_m, margin_at (points, cog.x, cog.y));
    }
  return least_m;
}

/* What tolerances take off: those of the lift, or at its start what earlier lifts left. */
static double
set_off (const TrnLiftCheck *check, const TrnPose *pose, gboolean at_end, const TrnComponent *unit,
         const GArray *points)
{
  const TrnLift *lift = check->run->lift;
  const TrnSlack *slack = at_end ? &check->run->slack : &check->run->left;
  const TrnVec3 hook = trn_pose_apply (pose, slack->about);
  const TrnVec3 cog = trn_pose_apply (pose, unit->cog);
  double far_m = hypot (cog.x - hook.x, cog.y - hook.y) + trn_vec3_length (unit->cog_box);
  double survey_m = 0;
  for (guint i = 0; i < points->len; i++)
    {
      const TrnLevelPoint *p = &g_array_index (points, TrnLevelPoint, i);
      far_m = fmax (far_m, hypot (p->x_m - hook.x, p->y_m - hook.y));
    }
  for (guint i = 0; i < lift->n_seats; i++)
    for (guint k = 0; is_at (&lift->seats[i], at_end) && k < check->n_obstacles; k++)
      if (trn_seat_means (&lift->seats[i], check->obstacles[k].body))
        survey_m = fmax (survey_m,
                         trn_lift_check_stands_off (check, k) + check->obstacles[k].body->off_m);
  return slack->m + survey_m + check->load->off_m + 2 * trn_chord_m (far_m, slack->heading_rad);
}

/* The only seat at that end; NULL where there are more. */
static const char *
only_seat (const TrnLift *lift, gboolean at_end)
{
  const char *only = NULL;
  guint n = 0;
  for (guint i = 0; i < lift->n_seats; i++)
    if (is_at (&lift->seats[i], at_end) && n++ == 0)
      only = lift->seats[i].on;
  return n == 1 ? only : NULL;
}

/* ---- what is not known ---- */

static double
slope_of (const GArray *normals)
{
  return atan (fmax (0, -margin_at (normals, 0, 0))) * 180 / G_PI;
}

static double
turned_up_deg (const Face *face)
{
  const TrnVec3 normal = face_normal (face);
  return atan2 (hypot (normal.x, normal.y), -normal.z) * 180 / G_PI;
}

/* Whether @face turns up from an edge of the level @flats, and nothing bears on it or beyond,
 * beside the centre of gravity. */
static gboolean
goes_on_round (const Face *face, const GArray *flats, TrnVec3 cog, const Footing *footing)
{
  const double width_m = margin_at (flats, cog.x, cog.y);
  TrnVec3 edge[3], far = { 0, 0, 0 };
  guint n = 0;
  for (int k = 0; k < 3; k++)
    if (fabs (face->p[k].z - footing->lowest_m) <= TRN_CONTACT_M
        && fabs (margin_at (flats, face->p[k].x, face->p[k].y)) <= TRN_SEAT_FIT_M)
      edge[n++] = face->p[k];
    else
      far = face->p[k];
  if (n != 2 || !(width_m > 0))
    return FALSE;
  TrnVec3 along = trn_vec3_sub (edge[1], edge[0]), out = trn_vec3_sub (far, edge[0]);
  along.z = out.z = 0;
  if (!(trn_vec3_length (along) > 0))
    return FALSE;
  along = trn_vec3_unit (along);
  out = trn_vec3_add_scaled (out, along, -trn_vec3_dot (out, along));
  if (trn_vec3_length (out) < COARSE_SHARE * width_m)
    return FALSE;
  const double to_cog = trn_vec3_dot (trn_vec3_sub (cog, edge[0]), along);
  const TrnVec3 at = trn_vec3_add_scaled (edge[0], along, to_cog);
  return margin_at (footing->points, at.x + out.x / 10, at.y + out.y / 10) < 0;
}

/* Whether the load stands on a flat of what may be drawn for a round. */
static gboolean
may_be_round (const TrnLiftCheck *check, const TrnPose *pose, const TrnComponent *unit,
              const Footing *footing)
{
  g_autoptr (GArray) flats = g_array_new (FALSE, FALSE, sizeof (TrnLevelPoint));
  TrnBox near = { { -INFINITY, -INFINITY, -INFINITY },
                  { INFINITY, INFINITY, footing->lowest_m + TRN_CONTACT_M } };
  g_autofree TrnVec3 *places = place_vertices (check->load->mesh, pose);
  g_autoptr (GArray) downs = list_faces (check->load->mesh, places, FALSE, &near);
  for (guint i = 0; i < downs->len; i++)
    {
      const Face *face = &g_array_index (downs, Face, i);
      const gboolean is_low = face->box.lo.z >= footing->lowest_m - TRN_CONTACT_M;
      for (int k = 0; k < 3 && is_low && turned_up_deg (face) <= LEVEL_DEG; k++)
        {
          const TrnLevelPoint point = { face->p[k].x, face->p[k].y };
          g_array_append_val (flats, point);
        }
    }
  if (flats->len == 0)
    return FALSE;
  keep_corners (flats);
  const TrnVec3 cog = trn_pose_apply (pose, unit->cog);
  for (guint i = 0; i < downs->len; i++)
    {
      const Face *face = &g_array_index (downs, Face, i);
      const double up_deg = turned_up_deg (face);
      if (up_deg > LEVEL_DEG && up_deg <= COARSE_DEG && goes_on_round (face, flats, cog, footing))
        return TRUE;
    }
  return FALSE;
}

static void
judge_footing (TrnFinding *finding, const TrnLiftCheck *check, const TrnPose *pose,
               const TrnComponent *unit, const Footing *footing)
{
  double highest_m, ignored_m;
  const double all_m = least_margin (pose, unit, footing->points, &highest_m),
               touches_m = least_margin (pose, unit, footing->touches, &ignored_m);
  finding->value = fmax (all_m - footing->less_m, fmin (touches_m, 0));
  if (all_m - finding->value > TRN_CONTACT_M)
    trn_finding_add_number (finding, "round-off", all_m - finding->value, TRN_UNIT_M);
  finding->allowance_m = set_off (check, pose, finding->at_end, unit, footing->points);
  const double inside_m = finding->value - finding->allowance_m,
               high_m = fmax (0, highest_m - footing->lowest_m),
               tips_deg = trn_degrees (atan2 (inside_m, high_m));
  finding->limit = high_m * tan (TRN_TIP_LEAST_DEG * G_PI / 180);
  finding->margin = inside_m - finding->limit;
  const double slope_deg = fmax (slope_of (footing->up), slope_of (footing->down));
  const gboolean stands = inside_m > 0 && finding->margin >= 0;
  finding->verdict = stands ? TRN_VERDICT_PASS : TRN_VERDICT_FAIL;
  finding->state = stands ? TRN_STATE_WITHIN : TRN_STATE_OUTSIDE;
  if (inside_m > 0)
    trn_finding_add_number (finding, "tips-at", tips_deg, TRN_UNIT_DEG);
  if (slope_deg > TRN_SLOPE_DEG)
    trn_finding_add_number (finding, "slope", slope_deg, TRN_UNIT_DEG);
  if (!stands)
    return;
  if (slope_deg > TRN_SLOPE_DEG)
    finding->missing = "friction";
  else if (may_be_round (check, pose, unit, footing))
    finding->missing = "round";
  if (finding->missing == NULL)
    return;
  finding->verdict = TRN_VERDICT_UNKNOWN;
  finding->state = TRN_STATE_UNKNOWN;
}

/* ---- out of level ---- */

/* Of corners of what it bears on from the axis of @drawn, at most. */
static double
reach_of (const Footing *drawn, const GArray *points)
{
  const double x = drawn->axis.x, y = drawn->axis.y;
  double reach_m = 0;
  for (guint i = 0; i < points->len; i++)
    {
      const TrnLevelPoint *p = &g_array_index (points, TrnLevelPoint, i);
      reach_m
          = fmax (reach_m, fabs ((p->x_m - drawn->pivot.x) * y - (p->y_m - drawn->pivot.y) * x));
    }
  /* They lie in a face that is no steeper than what may slide, or are judged not known. */
  return reach_m / hypot (x, y) / cos (TRN_SLOPE_DEG * G_PI / 180);
}

/* Of @pose, after the face that is flattest on its seat has come down on it. */
static TrnPose
settled_pose (const TrnPose *pose, const Footing *drawn)
{
  const TrnRotation turn = trn_rotation_make (drawn->axis, drawn->off_rad);
  const TrnVec3 from = trn_vec3_sub (pose->position, drawn->pivot);
  return (TrnPose){ trn_rotation_multiply (&turn, &pose->turn),
                    trn_vec3_add (drawn->pivot, trn_rotation_apply (&turn, from)) };
}

/* In place of @finding, by which it falls as drawn. @drawn: what it bears on then. */
static void
judge_level (TrnFinding *finding, const TrnLiftCheck *check, const TrnPose *pose,
             const TrnComponent *unit, const Footing *drawn, TrnFinding level)
{
  const double off_rad = drawn->off_rad;
  if (!(off_rad > FLUSH_RAD && trn_degrees (off_rad) <= OFF_DEG) || drawn->has_tail)
    return;
  const TrnPose flat = settled_pose (pose, drawn);
  const TrnVec3 size = trn_box_size (&check->load->mesh->box);
  g_auto (Footing) footing = find_footing (check, &flat, level.at_end, 0);
  g_auto (Footing) deep
      = find_footing (check, &flat, level.at_end, trn_chord_m (trn_vec3_length (size), off_rad));
  /* Coming down, what is lower than the face would be held up before it is flat. */
  if (footing.points->len == 0 || deep.pivot_gap_m < footing.pivot_gap_m - FLUSH_M)
    return;
  const double reach_m = reach_of (drawn, footing.points);
  double ignored_m;
  footing.less_m += fmax (0, least_margin (&flat, unit, footing.points, &ignored_m)
                                 - least_margin (pose, unit, footing.points, &ignored_m))
                    + reach_m * (1 - cos (off_rad));
  judge_footing (&level, check, &flat, unit, &footing);
  const gboolean stays_down
      = level.verdict == TRN_VERDICT_FAIL || g_strcmp0 (level.missing, "round") == 0;
  const gboolean is_covered = off_rad <= check->run->slack.tilt_rad + FLUSH_RAD
                              || reach_m * sin (off_rad) <= footing.fit_m + FLUSH_M;
  TrnFinding other = stays_down || !is_covered ? level : *finding;
  if (!stays_down && is_covered)
    *finding = level;
  g_clear_pointer (&other.numbers, g_array_unref);
  if (!stays_down)
    trn_finding_add_number (finding, TRN_RESTING_OFF, trn_degrees (off_rad), TRN_UNIT_DEG);
}

TrnFinding
trn_resting_judge (const TrnLiftCheck *check, gboolean at_end)
{
  const TrnLift *lift = check->run->lift;
  const TrnComponent *unit = &check->scene->programme->plan->components[lift->component];
  TrnFinding finding
      = trn_lift_check_finding (check, TRN_CHECK_RESTING, -1, only_seat (lift, at_end), NAN);
  finding.item = at_end ? NULL : "start";
  finding.at_end = at_end;
  finding.unit = TRN_UNIT_M;
  finding.limit = 0;
  finding.source = TRN_SOURCE_PRACTICE;
  if (trn_progress_is_cancelled (check->options->progress))
    return finding;
  finding.missing = isnan (unit->cog.x) ? "cog" : NULL;
  if (finding.missing != NULL)
    return finding;
  const TrnPose pose = at_end ? check->run->end : trn_motion_pose (&check->run->motions[0], 0);
  g_auto (Footing) footing = find_footing (check, &pose, at_end, 0);
  finding.time_s = at_end ? check->run->begins_s[lift->n_moves] : 0;
  if (footing.points->len == 0)
    {
      finding.verdict = TRN_VERDICT_FAIL;
      finding.state = TRN_STATE_NOT_RESTING;
      return finding;
    }
  const TrnFinding bare = finding;
  judge_footing (&finding, check, &pose, unit, &footing);
  if (finding.verdict == TRN_VERDICT_FAIL)
    judge_level (&finding, check, &pose, unit, &footing, bare);
  return finding;
}
