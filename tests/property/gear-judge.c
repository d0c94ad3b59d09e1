#include "gear-judge.h"

#include <string.h>

#include "tolerances.h"
#include "triangle.h"

#define SAMPLES 24
#define REFINE_TO 1e-6
#define ROUNDING_M 1e-8 /* of coordinates of some hundred metres, through a boom's angles */
/* Within this of where a boom ends to reach, either may be right. */
#define REACH_M 1e-6

/* What is on one side of a distance. */
typedef struct
{
  const TrnBvh *bvh; /* NULL: a moving part */
  gboolean is_load;
  TrnPose stands;
  const char *id;
} Side;

typedef struct
{
  const char *name, *json;
  const TrnScene *scene;
  const TrnLiftRun *run;
  GearOracle oracle;
  GearTally *tally;
  GRand *rand;
  TrnObstacle *obstacles;
  guint n_obstacles;
} Judge;

typedef struct
{
  const Judge *judge;
  const TrnFinding *finding;
  guint move;
  Side sides[2];
  TrnVec3 off;
} Case;

#define HOLDS(c, condition, ...)                                                                   \
  do                                                                                               \
    {                                                                                              \
      if (!(condition))                                                                            \
        fails (c, G_STRLOC, #condition, __VA_ARGS__);                                              \
    }                                                                                              \
  while (0)

G_GNUC_PRINTF (4, 5)
G_GNUC_NORETURN
static void
fails (const Case *c, const char *where, const char *condition, const char *format, ...)
{
  va_list args;
  va_start (args, format);
  g_autofree char *text = g_strdup_vprintf (format, args);
  va_end (args);
  const TrnFinding *f = c->finding;
  g_error ("%s: plan %s, lift %u, move %d, check %d, %s past %s %s: %s: %s\nlower %.12g upper %.12g"
           " required %g allowance %g value %.12g limit %.12g margin %.12g verdict %d state %d"
           " progress %.12g missing %s\n%s",
           where, c->judge->name, f->lift, f->move, (int)f->check, f->body,
           f->obstacle != NULL ? f->obstacle : "none", f->item != NULL ? f->item : "", condition,
           text, f->lower_m, f->upper_m, f->required_m, f->allowance_m, f->value, f->limit,
           f->margin, (int)f->verdict, (int)f->state, f->progress,
           f->missing != NULL ? f->missing : "none", c->judge->json);
}

static void
count (const Case *c, GearTallyKind kind)
{
  g_atomic_int_inc (&c->judge->tally->of[kind]);
}

/* ---- distances of shapes ---- */

static double
of_triangles (const Shape *shape, const TrnVec3 triangle[3], double limit)
{
  TrnVec3 on_a, on_b;
  for (guint i = 0; i < shape->n_triangles; i++)
    limit = fmin (limit, trn_triangle_distance (shape->triangles[i], triangle, &on_a, &on_b));
  return limit;
}

/* A sphere round all of a shape: about its first corner. */
typedef struct
{
  TrnVec3 centre;
  double radius_m;
} Sphere;

static Sphere
sphere_of (const Shape *shape)
{
  Sphere sphere = { shape->triangles[0][0], 0 };
  for (guint i = 0; i < shape->n_triangles; i++)
    for (guint k = 0; k < 3; k++)
      sphere.radius_m
          = fmax (sphere.radius_m, trn_vec3_distance (sphere.centre, shape->triangles[i][k]));
  return sphere;
}

/* The least distance from the triangles of a node where it is below @limit, else @limit. */
static double
of_node (const Shape *shape, const Sphere *sphere, const TrnBvh *bvh, const TrnPose *pose,
         guint32 index, double limit)
{
  const TrnBvhNode *node = &bvh->nodes[index];
  TrnVec3 centre = trn_pose_apply (pose, trn_bvh_centre (node));
  const TrnVec3 point[3] = { centre, centre, centre };
  double radius_m = (double)node->radius_m;
  if (trn_vec3_distance (centre, sphere->centre) - sphere->radius_m - radius_m >= limit
      || of_triangles (shape, point, INFINITY) - radius_m >= limit)
    return limit;
  for (guint i = 0; i < node->n_children; i++)
    limit = of_node (shape, sphere, bvh, pose, node->child + i, limit);
  for (guint32 i = 0; node->child == 0 && i < node->count; i++)
    {
      TrnVec3 corners[3];
      trn_mesh_corners (bvh->mesh, bvh->order[node->first + i], corners);
      for (guint k = 0; k < 3; k++)
        corners[k] = trn_pose_apply (pose, corners[k]);
      limit = of_triangles (shape, corners, limit);
    }
  return limit;
}

/* The distance at @s where it is below @limit, else @limit; NAN where one has no place. */
static double
distance_below (const Case *c, double s, double limit)
{
  const Judge *judge = c->judge;
  Shape shapes[2];
  guint n_shapes = 0;
  const Side *mesh = NULL;
  for (guint i = 0; i < 2; i++)
    if (c->sides[i].bvh != NULL)
      mesh = &c->sides[i];
    else if (!gear_oracle_body (&judge->oracle, c->sides[i].id, c->move, s, c->off,
                                &shapes[n_shapes++]))
      return NAN;
  double grown = shapes[0].radius_m + (mesh == NULL ? shapes[1].radius_m : 0);
  double apart = limit + grown;
  if (mesh != NULL)
    {
      Sphere sphere = sphere_of (&shapes[0]);
      TrnPose pose = mesh->is_load ? oracle_pose (judge->oracle.lift, c->move, s) : mesh->stands;
      apart = of_node (&shapes[0], &sphere, mesh->bvh, &pose, 0, apart);
    }
  else
    {
      for (guint i = 0; i < shapes[1].n_triangles; i++)
        apart = of_triangles (&shapes[0], shapes[1].triangles[i], apart);
    }
  return fmax (apart - grown, 0);
}

static double
distance (const Case *c, double s)
{
  return distance_below (c, s, INFINITY);
}

/* ---- clearances ---- */

/* The least that is found below a little more than the bound attained; what is far off needs no
 * great care. */
static double
least_distance (const Case *c, double *at)
{
  const TrnFinding *f = c->finding;
  gboolean is_far = f->lower_m > 2 * f->required_m + 0.5;
  guint n = is_far ? SAMPLES / 3 : SAMPLES;
  double least = isfinite (f->upper_m) ? f->upper_m * 1.05 + 0.02 : INFINITY;
  *at = f->progress >= 0 ? f->progress : 0;
  for (guint k = 0; k <= n; k++)
    {
      double s = (double)k / n, d = distance_below (c, s, least);
      HOLDS (c,
             c->finding->verdict == TRN_VERDICT_UNKNOWN || c->finding->verdict == TRN_VERDICT_FAIL
                 || !isnan (d),
             "no place at %g", s);
      if (d < least)
        {
          least = d;
          *at = s;
        }
    }
  for (double step = 0.5 / n; step > (is_far ? 100 : 1) * REFINE_TO; step /= 2)
    for (int side = -1; side <= 1; side += 2)
      {
        double s = CLAMP (*at + side * step, 0, 1), d = distance_below (c, s, least);
        if (d < least)
          {
            least = d;
            *at = s;
          }
      }
  return least;
}

/* The part of the move that nothing says is out of reach. */
static gboolean
has_place (const Case *c)
{
  for (guint k = 0; k <= 4 * SAMPLES; k++)
    if (isnan (distance (c, k / (4.0 * SAMPLES))))
      return FALSE;
  return TRUE;
}

/* Off by no more than the lift's tolerance no way of the hooks comes closer than the allowance
 * leaves. Turned loads are for the judge of the load. */
static void
judge_tolerance (Case *c)
{
  double most_m = c->judge->run->lift->tolerance_m;
  if (!(most_m > 0) || c->finding->verdict == TRN_VERDICT_UNKNOWN)
    return;
  for (guint k = 0; k < 4; k++)
    {
      TrnVec3 v = { g_rand_double_range (c->judge->rand, -1, 1),
                    g_rand_double_range (c->judge->rand, -1, 1),
                    g_rand_double_range (c->judge->rand, -1, 1) };
      double s = k == 0 && c->finding->progress >= 0 ? c->finding->progress
                                                     : g_rand_double (c->judge->rand);
      c->off = trn_vec3_scale (trn_vec3_unit (v), most_m);
      double d = distance (c, s);
      c->off = trn_vec3_make (0, 0, 0);
      HOLDS (c, isnan (d) || d >= c->finding->lower_m - c->finding->allowance_m - ROUNDING_M,
             "off by the tolerance %.12g at %g", d, s);
      count (c, GEAR_TALLY_TOLERANCE);
    }
}

/* The upper bound is attained at its time between its two points, so that the distance is no more.
 * Of a prism what lies within it may be farther. */
static void
judge_attained (const Case *c)
{
  const TrnFinding *f = c->finding;
  Shape shape;
  double d = distance (c, f->progress);
  gboolean exact = TRUE;
  for (guint i = 0; i < 2; i++)
    if (c->sides[i].bvh == NULL)
      exact &= gear_oracle_body (&c->judge->oracle, c->sides[i].id, c->move, f->progress,
                                 trn_vec3_make (0, 0, 0), &shape)
               && shape.exact;
  double apart = trn_vec3_distance (f->point_on_body, f->point_on_obstacle);
  if (f->inside == TRN_INSIDE_YES)
    return;
  HOLDS (c, f->has_points && apart <= fmax (f->upper_m, TRN_CONTACT_M) + ROUNDING_M,
         "points %.12g apart", apart);
  if (exact)
    HOLDS (c, d <= f->upper_m + TRN_CONTACT_M, "distance at its time %.12g", d);
}

static void
judge_parts (Case *c)
{
  const TrnFinding *f = c->finding;
  double sum = 0;
  for (guint i = 0; f->allowance_parts != NULL && i < f->allowance_parts->len; i++)
    sum += g_array_index (f->allowance_parts, TrnFindingItem, i).m;
  HOLDS (c, isnan (f->allowance_m) || fabs (sum - f->allowance_m) < ROUNDING_M,
         "parts of what is taken off are %.12g", sum);
}

static void
judge_distance (Case *c)
{
  const TrnFinding *f = c->finding;
  judge_parts (c);
  double at, least = least_distance (c, &at);
  HOLDS (c, f->state == TRN_STATE_UNKNOWN || least >= f->lower_m - ROUNDING_M,
         "sampled %.12g at %.12g", least, at);
  if (least == 0 && f->verdict != TRN_VERDICT_UNKNOWN)
    HOLDS (c, f->verdict == TRN_VERDICT_FAIL && f->lower_m == 0, "contact at %.12g", at);
  if (f->verdict == TRN_VERDICT_UNKNOWN)
    {
      HOLDS (c, f->missing != NULL || isnan (f->required_m) || !has_place (c), "%s",
             "unknown for no reason");
      /* Within reach as planned, but not with the tolerances, it has no allowance. */
      HOLDS (c, g_strcmp0 (f->missing, "reach") != 0 || isnan (f->allowance_m) || !has_place (c),
             "%s", "within reach");
      count (c, GEAR_TALLY_UNKNOWN);
      return;
    }
  gboolean passes = f->lower_m - f->allowance_m >= f->required_m && f->lower_m > 0;
  HOLDS (c, (f->verdict == TRN_VERDICT_PASS) == passes, "%s", "verdict against its own bounds");
  if (f->progress >= 0)
    judge_attained (c);
  judge_tolerance (c);
  count (c, f->state == TRN_STATE_CONTACT ? GEAR_TALLY_CONTACT
            : passes                      ? GEAR_TALLY_CLEAR
                                          : GEAR_TALLY_SHORT);
}

static void
count_part (const Case *c, const char *id)
{
  static const char *const parts[] = { "/boom", "/jib", "/counterweight", "/rope", "/block" };
  for (guint i = 0; i < G_N_ELEMENTS (parts); i++)
    if (g_str_has_suffix (id, parts[i]))
      count (c, (GearTallyKind)(GEAR_TALLY_BOOM + i));
  if (g_str_has_prefix (id, "sling-"))
    count (c, GEAR_TALLY_SLING);
  if (g_str_has_prefix (id, "beam-"))
    count (c, GEAR_TALLY_BEAM);
  if (strstr (id, "/header") != NULL)
    count (c, GEAR_TALLY_HEADER);
  if (g_str_has_suffix (id, "/trolley"))
    count (c, GEAR_TALLY_TROLLEY);
}

/* TRUE where it is a moving part, or the load. */
static Side
side_of (const Judge *judge, const char *id)
{
  Side side = { .id = id };
  if (strcmp (id, "load") == 0)
    {
      side.bvh = trn_scene_load (judge->scene, judge->run)->bvh;
      side.is_load = TRUE;
      return side;
    }
  for (guint i = 0; i < judge->n_obstacles; i++)
    if (strcmp (judge->obstacles[i].body->id, id) == 0)
      {
        side.bvh = judge->obstacles[i].body->bvh;
        side.stands = judge->obstacles[i].standing->site_from_standing;
      }
  return side;
}

static void
judge_pair (Case *c)
{
  const TrnFinding *f = c->finding;
  c->sides[0] = side_of (c->judge, f->body);
  c->sides[1] = side_of (c->judge, f->obstacle);
  if (c->sides[0].bvh != NULL && c->sides[1].bvh != NULL)
    return; /* no part of the gear moves: for the judge of the load */
  gboolean two = c->sides[0].bvh == NULL && c->sides[1].bvh == NULL;
  count (c, two                       ? GEAR_TALLY_TWO_PARTS
            : c->sides[0].bvh != NULL ? GEAR_TALLY_LOAD
                                      : GEAR_TALLY_STANDING);
  for (guint i = 0; i < 2; i++)
    if (c->sides[i].bvh == NULL)
      count_part (c, c->sides[i].id);
  judge_distance (c);
}

/* ---- limits ---- */

/* What the finding is about, from the hook at @s; NAN: the crane does not reach it. */
static double
value_at (const Case *c, JsonObject *gear, JsonObject *hoist, double s)
{
  const TrnFinding *f = c->finding;
  TrnVec3 hook = gear_oracle_hook (&c->judge->oracle, hoist, c->move, s, c->off);
  OracleCrane crane;
  gboolean reached = FALSE;
  if (strcmp (json_object_get_string_member (gear, "kind"), "crane") == 0)
    {
      reached = gear_oracle_crane (gear, hook, &crane);
      if (f->item != NULL && strcmp (f->item, "radius") == 0)
        return crane.radius_m;
      if (!reached)
        return NAN;
      return f->check == TRN_CHECK_HEADROOM ? crane.tip.z - hook.z : crane.boom_rad * 180 / G_PI;
    }
  TrnPose place = oracle_placement (json_object_get_object_member (gear, "at"));
  TrnVec3 local = trn_pose_apply_inverse (&place, hook);
  if (f->check == TRN_CHECK_HEADROOM || strcmp (f->item, "hook-low") == 0)
    return local.z;
  return strcmp (f->item, "hook-window-x") == 0 ? local.x : local.y;
}

static double
number_of (JsonObject *object, const char *key)
{
  return json_object_has_member (object, key) ? json_object_get_double_member (object, key) : 0;
}

/* The height of the block above the hook; 0: none. */
static double
block_height (JsonObject *hoist)
{
  return json_object_has_member (hoist, "block")
             ? number_of (json_object_get_object_member (hoist, "block"), "height")
             : 0;
}

/* How high the hook of a gantry can go: to the top of its window, or until the block, an octagon
 * about its diameter, meets the trolley, or a header between whose beams it does not go. */
static double
highest_hook (JsonObject *gear, JsonObject *hoist, double window_m)
{
  if (block_height (hoist) <= 0)
    return window_m;
  double limit_m = INFINITY;
  if (json_object_has_member (gear, "trolley"))
    limit_m = number_of (json_object_get_object_member (gear, "trolley"), "underside");
  if (json_object_has_member (gear, "header"))
    {
      JsonObject *header = json_object_get_object_member (gear, "header");
      JsonObject *block = json_object_get_object_member (hoist, "block");
      double free_m = number_of (header, "spacing") - number_of (header, "width");
      if (free_m <= number_of (block, "diameter") / cos (G_PI / 8))
        limit_m = fmin (limit_m, number_of (header, "underside"));
    }
  return fmin (window_m, limit_m - block_height (hoist));
}

/* The ends that the value has to keep between. */
static TrnInterval
limits_of (const Case *c, JsonObject *gear, JsonObject *hoist)
{
  const TrnFinding *f = c->finding;
  JsonArray *ends = NULL;
  if (strcmp (json_object_get_string_member (gear, "kind"), "crane") == 0)
    {
      if (f->check == TRN_CHECK_HEADROOM)
        return (TrnInterval){ fmax (number_of (gear, "hook_to_tip"), block_height (hoist)),
                              INFINITY };
      if (strcmp (f->item, "radius") == 0)
        {
          JsonArray *table = json_object_get_array_member (
              json_object_get_object_member (gear, "capacity"), "table");
          JsonArray *last = json_array_get_array_element (table, json_array_get_length (table) - 1);
          return (TrnInterval){ json_array_get_double_element (
                                    json_array_get_array_element (table, 0), 0),
                                json_array_get_double_element (last, 0) };
        }
      ends = json_object_get_array_member (json_object_get_object_member (gear, "boom"), "angle");
      return (TrnInterval){ json_array_get_double_element (ends, 0),
                            json_array_get_double_element (ends, 1) };
    }
  JsonObject *window = json_object_get_object_member (gear, "window");
  if (f->check == TRN_CHECK_HEADROOM || strcmp (f->item, "hook-low") == 0)
    {
      ends = json_object_get_array_member (window, "hook");
      return f->check == TRN_CHECK_HEADROOM
                 ? (TrnInterval){ -INFINITY,
                                  highest_hook (gear, hoist,
                                                json_array_get_double_element (ends, 1)) }
                 : (TrnInterval){ json_array_get_double_element (ends, 0), INFINITY };
    }
  ends = json_object_get_array_member (window, f->item + strlen ("hook-window-"));
  return (TrnInterval){ json_array_get_double_element (ends, 0),
                        json_array_get_double_element (ends, 1) };
}

static void
judge_limit (Case *c, JsonObject *gear, JsonObject *hoist)
{
  const TrnFinding *f = c->finding;
  if (f->state == TRN_STATE_OUT_OF_REACH)
    {
      gboolean reached = TRUE;
      for (guint k = 0; k <= 40 * SAMPLES; k++)
        reached &= !isnan (value_at (c, gear, hoist, k / (40.0 * SAMPLES)));
      HOLDS (c, !reached || isnan (value_at (c, gear, hoist, f->progress)), "%s", "within reach");
      count (c, GEAR_TALLY_OUT_OF_REACH);
      return;
    }
  TrnInterval limits = limits_of (c, gear, hoist);
  for (guint k = 0; k <= 4 * SAMPLES; k++)
    {
      double s = k / (4.0 * SAMPLES), most_m = c->judge->run->lift->tolerance_m;
      double v = value_at (c, gear, hoist, s);
      HOLDS (c, !isnan (v), "out of reach at %g", s);
      double margin = fmin (v - limits.lo, limits.hi - v);
      HOLDS (c, margin - f->allowance_m >= f->margin - ROUNDING_M, "margin %.12g at %g", margin, s);
      TrnVec3 off = { g_rand_double_range (c->judge->rand, -1, 1),
                      g_rand_double_range (c->judge->rand, -1, 1),
                      g_rand_double_range (c->judge->rand, -1, 1) };
      c->off = trn_vec3_scale (trn_vec3_unit (off), most_m);
      v = value_at (c, gear, hoist, s);
      c->off = trn_vec3_make (0, 0, 0);
      margin = fmin (v - limits.lo, limits.hi - v);
      HOLDS (c, isnan (v) || margin >= f->margin - ROUNDING_M,
             "margin off by tolerance %.12g at %g", margin, s);
    }
  double v = value_at (c, gear, hoist, f->progress);
  double margin = fmin (v - limits.lo, limits.hi - v) - f->allowance_m;
  /* A thousandth of a metre, or of a radian. */
  double width = f->unit == TRN_UNIT_DEG ? 1e-3 * 180 / G_PI : 1e-3;
  HOLDS (c, margin <= f->margin + width + ROUNDING_M, "margin %.12g at its time", margin);
  HOLDS (c, (f->verdict == TRN_VERDICT_PASS) == (f->margin >= 0), "%s", "verdict");
  count (c, f->verdict == TRN_VERDICT_PASS ? GEAR_TALLY_WITHIN : GEAR_TALLY_BEYOND);
}

/* Tilted tails hang from a point of the load, so tolerances turn them too: for them what is tried
 * above is a part only. */
static void
judge_hoist (Case *c)
{
  const TrnFinding *f = c->finding;
  JsonObject *gear = gear_oracle_find (&c->judge->oracle, f->body);
  JsonObject *hoist = gear_oracle_hoist_of (&c->judge->oracle, f->body);
  if (f->verdict != TRN_VERDICT_UNKNOWN)
    {
      HOLDS (c, gear != NULL && hoist != NULL, "%s", "no such gear");
      judge_limit (c, gear, hoist);
      return;
    }
  HOLDS (c, f->missing != NULL, "%s", "unknown for no reason");
  /* In a move in which no hoist holds the load there is none to speak of. */
  HOLDS (c, (gear != NULL && hoist != NULL) || g_str_has_prefix (f->missing, "rigging/main/"), "%s",
         "no such gear");
  count (c, GEAR_TALLY_UNKNOWN);
}

static void
judge_lift (Judge *judge, const TrnLiftFindings *lift)
{
  for (guint i = 0; i < lift->findings->len; i++)
    {
      const TrnFinding *f = &g_array_index (lift->findings, TrnFinding, i);
      Case c = { .judge = judge, .finding = f, .move = f->move >= 0 ? (guint)f->move : 0 };
      if (f->check == TRN_CHECK_CLEARANCE)
        judge_pair (&c);
      else if (f->check == TRN_CHECK_HEADROOM || f->check == TRN_CHECK_REACH)
        judge_hoist (&c);
    }
}

void
gear_judge (const char *name, const char *json, const TrnScene *scene, const TrnFindings *findings,
            guint32 seed, GearTally *tally)
{
  g_autoptr (Oracle) oracle = oracle_new (json);
  g_assert_cmpuint (findings->n_lifts, ==, oracle->lifts->len);
  GRand *rand = g_rand_new_with_seed (seed);
  for (guint i = 0; i < findings->n_lifts; i++)
    {
      const TrnLiftRun *run = &scene->programme->runs[i];
      Judge judge = { .name = name,
                      .json = json,
                      .scene = scene,
                      .run = run,
                      .oracle = { json_node_get_object (oracle->root),
                                  &g_array_index (oracle->lifts, OracleLift, i) },
                      .tally = tally,
                      .rand = rand };
      judge.obstacles = trn_scene_obstacles (scene, run, &judge.n_obstacles);
      judge_lift (&judge, &findings->lifts[i]);
      g_free (judge.obstacles);
    }
  g_rand_free (rand);
}
