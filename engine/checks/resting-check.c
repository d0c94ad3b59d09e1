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
 * ground does not stand; on two saddles, which hold it on both sides, it does.
 *
 * The distance of a point from the edge of a convex region, negative outside, is a concave function
 * of the point, so that its least over the box of the centre of gravity is at a corner. A load that
 * balances on an edge, or on a line, does not stand.
 *
 * Tolerances. Set down off its place by p, or by the heading η about the hook, with points and CoG
 * at most ρ from the plumb line of the hook, or on a seat that was measured off by t, the load has
 * less over the edges of what it stands on by at most p + t + 2 · 2 ρ sin(η/2). */
#include "resting-check.h"

#include "hoist.h"
#include "hook-force.h"
#include "polygon.h"
#include "resting.h"
#include "tolerances.h"

#define SHRINK 7
/* What rounding leaves of a gap that is the same all over. */
#define FLUSH_M 1e-9

typedef struct
{
  TrnVec3 p[3];
  TrnBox box;
} Face;

/* Of the triangles that face up, or down, and come into @near. */
static GArray *
list_faces (const TrnMesh *mesh, const TrnPose *pose, gboolean up, const TrnBox *near)
{
  GArray *faces = g_array_new (FALSE, FALSE, sizeof (Face));
  for (guint32 i = 0; i < mesh->n_triangles; i++)
    {
      Face face = { .box = trn_box_empty () };
      for (int k = 0; k < 3; k++)
        {
          face.p[k] = trn_pose_apply (pose, mesh->vertices[mesh->triangles[i].v[k]]);
          trn_box_add_point (&face.box, face.p[k]);
        }
      TrnVec3 normal = trn_vec3_cross (trn_vec3_sub (face.p[1], face.p[0]),
                                       trn_vec3_sub (face.p[2], face.p[0]));
      gboolean is_near = face.box.lo.x <= near->hi.x && face.box.hi.x >= near->lo.x
                         && face.box.lo.y <= near->hi.y && face.box.hi.y >= near->lo.y
                         && face.box.lo.z <= near->hi.z && face.box.hi.z >= near->lo.z;
      if (is_near && (up ? normal.z > 0 : normal.z < 0))
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

/* Where they may bear. */
typedef struct
{
  const Face *down, *up;
} Facing;

/* Adds the corners of where the gap is from −@fit_m to @gap_m; returns the least gap there. */
static double
add_bearing (GArray *points, const Facing *facing, double fit_m, double gap_m)
{
  const Face *down = facing->down, *up = facing->up;
  double least_m = INFINITY;
  TrnPolygon polygon = { .corners = { down->p[0], down->p[1], down->p[2] }, .n_corners = 3 };
  TrnVec3 normal
      = trn_vec3_cross (trn_vec3_sub (up->p[1], up->p[0]), trn_vec3_sub (up->p[2], up->p[0]));
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
      g_array_append_val (points, point);
    }
  return least_m;
}

/* Adds what the load bears on of one seat; returns how much of its edge does not count. */
static double
add_seat (const GArray *facings, double fit_m, GArray *points)
{
  g_autoptr (GArray) bears = g_array_new (FALSE, FALSE, sizeof (TrnLevelPoint));
  g_autoptr (GArray) wider = g_array_new (FALSE, FALSE, sizeof (TrnLevelPoint));
  double least_m = INFINITY;
  for (guint i = 0; i < facings->len; i++)
    least_m
        = fmin (least_m, add_bearing (bears, &g_array_index (facings, Facing, i), fit_m, fit_m));
  g_array_set_size (bears, 0);
  for (guint i = 0; isfinite (least_m) && i < facings->len; i++)
    {
      const Facing *facing = &g_array_index (facings, Facing, i);
      add_bearing (bears, facing, fit_m, fmin (fit_m, least_m + fit_m / 2 + FLUSH_M));
      add_bearing (wider, facing, fit_m, least_m + fit_m + FLUSH_M);
    }
  if (bears->len == 0)
    return 0;
  g_array_append_vals (points, bears->data, bears->len);
  return SHRINK
         * trn_resting_beyond_m ((const TrnLevelPoint *)(void *)bears->data, bears->len,
                                 (const TrnLevelPoint *)(void *)wider->data, wider->len);
}

static double
add_obstacle (const TrnLiftCheck *check, const TrnObstacle *other, double fit_m, GArray *points)
{
  const TrnPose *end = &check->run->end;
  TrnBox near = trn_box_empty ();
  const TrnMesh *mesh = check->load->mesh;
  for (guint32 i = 0; i < mesh->n_vertices; i++)
    trn_box_add_point (&near, trn_pose_apply (end, mesh->vertices[i]));
  /* Gaps go up to twice the fit: all of it above the least, which is within it. */
  near.lo.z -= 2 * fit_m;
  near.hi.z += 2 * fit_m;
  g_autoptr (GArray) ups
      = list_faces (other->body->mesh, &other->standing->site_from_standing, TRUE, &near);
  near = trn_box_empty ();
  for (guint i = 0; i < ups->len; i++)
    {
      const Face *up = &g_array_index (ups, Face, i);
      trn_box_add_point (&near, up->box.lo);
      trn_box_add_point (&near, up->box.hi);
    }
  near.lo.z -= 2 * fit_m;
  near.hi.z += 2 * fit_m;
  g_autoptr (GArray) downs = list_faces (mesh, end, FALSE, &near);
  g_array_sort (downs, compare_faces);
  g_autoptr (GArray) facings = g_array_new (FALSE, FALSE, sizeof (Facing));
  for (guint i = 0; i < ups->len; i++)
    {
      const Face *up = &g_array_index (ups, Face, i);
      for (guint k = 0; k < downs->len; k++)
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
  return add_seat (facings, fit_m, points);
}

/* The point at which a trolley or a frame still carries the tail. */
static void
add_tail (const TrnLiftCheck *check, GArray *points)
{
  const TrnHoist *hoists[2];
  guint n = trn_hoists_holding (check, check->run->lift->n_moves - 1, hoists);
  for (guint i = 0; i < n; i++)
    {
      const TrnGear *gear = hoists[i] != NULL ? trn_hoist_gear (check, hoists[i]) : NULL;
      if (gear == NULL || gear->kind == TRN_GEAR_CRANE || gear->kind == TRN_GEAR_GANTRY
          || hoists[i] != &check->run->lift->rigging.tail)
        continue;
      TrnVec3 at = trn_pose_apply (&check->run->end, hoists[i]->point);
      TrnLevelPoint point = { at.x, at.y };
      g_array_append_val (points, point);
    }
}

/* What the load bears on at the end of the lift; owned by the caller. @less_m: how much of its edge
 * does not count. */
static GArray *
find_footprint (const TrnLiftCheck *check, double *less_m)
{
  *less_m = 0;
  const TrnLift *lift = check->run->lift;
  GArray *points = g_array_new (FALSE, FALSE, sizeof (TrnLevelPoint));
  for (guint i = 0; i < lift->n_seats; i++)
    for (guint k = 0; lift->seats[i].at_end && k < check->n_obstacles; k++)
      if (trn_seat_means (&lift->seats[i], check->obstacles[k].body))
        *less_m = fmax (*less_m,
                        add_obstacle (check, &check->obstacles[k], lift->seats[i].fit_m, points));
  if (points->len > 0)
    add_tail (check, points);
  return points;
}

static double
least_margin (const TrnLiftCheck *check, const TrnComponent *unit, const GArray *points)
{
  double least_m = INFINITY;
  TrnVec3 half = unit->cog_box;
  for (guint i = 0; i < 8; i++)
    {
      TrnVec3 by = trn_vec3_make (i & 1 ? half.x : -half.x, i & 2 ? half.y : -half.y,
                                  i & 4 ? half.z : -half.z);
      TrnVec3 cog = trn_pose_apply (&check->run->end, trn_vec3_add (unit->cog, by));
      TrnLevelPoint at = { cog.x, cog.y };
      least_m = fmin (least_m, trn_resting_margin_m ((const TrnLevelPoint *)(void *)points->data,
                                                     points->len, at));
    }
  return least_m;
}

/* What tolerances take off. */
static double
set_off (const TrnLiftCheck *check, const TrnComponent *unit, const GArray *points)
{
  const TrnLift *lift = check->run->lift;
  const TrnVec3 hook = trn_pose_apply (&check->run->end, lift->hook.place);
  const TrnVec3 cog = trn_pose_apply (&check->run->end, unit->cog);
  double far_m = hypot (cog.x - hook.x, cog.y - hook.y) + trn_vec3_length (unit->cog_box);
  double survey_m = 0;
  for (guint i = 0; i < points->len; i++)
    {
      const TrnLevelPoint *p = &g_array_index (points, TrnLevelPoint, i);
      far_m = fmax (far_m, hypot (p->x_m - hook.x, p->y_m - hook.y));
    }
  for (guint i = 0; i < lift->n_seats; i++)
    for (guint k = 0; lift->seats[i].at_end && k < check->n_obstacles; k++)
      if (trn_seat_means (&lift->seats[i], check->obstacles[k].body))
        survey_m = fmax (survey_m, check->obstacles[k].standing->survey_tolerance_m);
  return lift->tolerance_m + survey_m
         + 4 * far_m * sin (fmin (fabs (lift->tolerance_heading_rad), G_PI) / 2);
}

/* The only seat at the end; NULL where there are more. */
static const char *
only_seat (const TrnLift *lift)
{
  const char *only = NULL;
  guint n = 0;
  for (guint i = 0; i < lift->n_seats; i++)
    if (lift->seats[i].at_end)
      {
        only = lift->seats[i].on;
        n++;
      }
  return n == 1 ? only : NULL;
}

TrnFinding
trn_resting_judge (const TrnLiftCheck *check)
{
  const TrnLift *lift = check->run->lift;
  const TrnComponent *unit = &check->scene->programme->plan->components[lift->component];
  TrnFinding finding = trn_lift_check_finding (check, TRN_CHECK_RESTING, -1, only_seat (lift), NAN);
  finding.unit = TRN_UNIT_M;
  finding.limit = 0;
  if (trn_progress_is_cancelled (check->options->progress))
    return finding;
  finding.missing = isnan (unit->cog.x) ? "cog" : NULL;
  if (finding.missing != NULL)
    return finding;
  double less_m;
  g_autoptr (GArray) points = find_footprint (check, &less_m);
  finding.time_s = check->run->begins_s[lift->n_moves];
  if (points->len == 0)
    {
      finding.verdict = TRN_VERDICT_FAIL;
      finding.state = TRN_STATE_NOT_RESTING;
      return finding;
    }
  finding.value = least_margin (check, unit, points) - less_m;
  if (less_m > TRN_CONTACT_M)
    trn_finding_add_number (&finding, "round-off", less_m, TRN_UNIT_M);
  finding.allowance_m = set_off (check, unit, points);
  finding.margin = finding.value - finding.allowance_m;
  finding.verdict = finding.margin > 0 ? TRN_VERDICT_PASS : TRN_VERDICT_FAIL;
  finding.state = finding.margin > 0 ? TRN_STATE_WITHIN : TRN_STATE_OUTSIDE;
  return finding;
}
