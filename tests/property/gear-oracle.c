#include "gear-oracle.h"

#include <string.h>

static double
number (JsonObject *object, const char *key, double otherwise)
{
  return json_object_has_member (object, key) ? json_object_get_double_member (object, key)
                                              : otherwise;
}

static TrnVec3
vector_of (JsonArray *array)
{
  return trn_vec3_make (
      json_array_get_double_element (array, 0), json_array_get_double_element (array, 1),
      json_array_get_length (array) > 2 ? json_array_get_double_element (array, 2) : 0);
}

static TrnVec3
vector (JsonObject *object, const char *key)
{
  return vector_of (json_object_get_array_member (object, key));
}

static JsonObject *
member (JsonObject *object, const char *key)
{
  return json_object_has_member (object, key) ? json_object_get_object_member (object, key) : NULL;
}

/* A point of the load, by name or by coordinates. */
static TrnVec3
point_of (const GearOracle *oracle, JsonNode *node)
{
  if (JSON_NODE_HOLDS_ARRAY (node))
    return vector_of (json_node_get_array (node));
  return vector (json_object_get_object_member (oracle->lift->component, "points"),
                 json_node_get_string (node));
}

static TrnVec3
site_of (const GearOracle *oracle, guint move, double s, TrnVec3 point)
{
  TrnPose pose = oracle_pose (oracle->lift, move, s);
  return trn_pose_apply (&pose, point);
}

/* ---- who is who ---- */

JsonObject *
gear_oracle_find (const GearOracle *oracle, const char *id)
{
  JsonArray *gear = json_object_get_array_member (oracle->plan, "gear");
  for (guint i = 0; i < json_array_get_length (gear); i++)
    {
      JsonObject *one = json_array_get_object_element (gear, i);
      if (strcmp (json_object_get_string_member (one, "id"), id) == 0)
        return one;
    }
  return NULL;
}

JsonObject *
gear_oracle_hoist_of (const GearOracle *oracle, const char *gear)
{
  JsonObject *rigging = json_object_get_object_member (oracle->lift->lift, "rigging");
  static const char *const keys[] = { "main", "tail" };
  for (guint i = 0; i < G_N_ELEMENTS (keys); i++)
    {
      JsonObject *hoist = member (rigging, keys[i]);
      if (hoist != NULL && strcmp (json_object_get_string_member (hoist, "gear"), gear) == 0)
        return hoist;
    }
  return NULL;
}

TrnVec3
gear_oracle_hook (const GearOracle *oracle, JsonObject *hoist, guint move, double s, TrnVec3 off)
{
  if (json_object_has_member (hoist, "moves"))
    {
      TrnVec3 moves = vector (hoist, "moves");
      if (move < moves.x)
        {
          move = (guint)moves.x;
          s = 0;
        }
      else if (move > moves.y)
        {
          move = (guint)moves.y;
          s = 1;
        }
    }
  TrnVec3 point = json_object_has_member (hoist, "point")
                      ? point_of (oracle, json_object_get_member (hoist, "point"))
                      : oracle->lift->hook;
  TrnVec3 hook = trn_vec3_add (site_of (oracle, move, s, point), off);
  hook.z += json_object_get_double_member (hoist, "hook_above");
  return hook;
}

/* ---- the gear's own frame ---- */

static TrnPose
place_of (JsonObject *gear)
{
  return oracle_placement (json_object_get_object_member (gear, "at"));
}

gboolean
gear_oracle_crane (JsonObject *gear, TrnVec3 hook, OracleCrane *crane)
{
  TrnPose place = place_of (gear);
  TrnVec3 local = trn_pose_apply_inverse (&place, hook);
  JsonObject *boom = json_object_get_object_member (gear, "boom"), *jib = member (gear, "jib");
  TrnVec3 foot = vector (boom, "foot");
  double length = json_object_get_double_member (boom, "length");
  double jib_m = jib != NULL ? json_object_get_double_member (jib, "length") : 0;
  double down = jib != NULL ? json_object_get_double_member (jib, "offset") * G_PI / 180 : 0;
  double along = length + jib_m * cos (down), across = jib_m * sin (down);
  double to_tip = sqrt (along * along + across * across);
  crane->radius_m = sqrt (local.x * local.x + local.y * local.y);
  crane->slew_rad = atan2 (local.y, local.x);
  double level = crane->radius_m - foot.x;
  if (fabs (level) >= to_tip)
    return FALSE;
  double theta = acos (level / to_tip);
  crane->boom_rad = theta + atan2 (across, along);
  const double out[] = { foot.x, foot.x + length * cos (crane->boom_rad), crane->radius_m };
  const double up[]
      = { foot.y, foot.y + length * sin (crane->boom_rad), foot.y + to_tip * sin (theta) };
  TrnVec3 *points[] = { &crane->foot, &crane->knee, &crane->tip };
  for (guint i = 0; i < 3; i++)
    *points[i] = trn_pose_apply (&place, trn_vec3_make (out[i] * cos (crane->slew_rad),
                                                        out[i] * sin (crane->slew_rad), up[i]));
  return TRUE;
}

/* ---- shapes ---- */

static void
set_segment (Shape *shape, TrnVec3 a, TrnVec3 b, double radius_m)
{
  shape->n_triangles = 1;
  shape->triangles[0][0] = a;
  shape->triangles[0][1] = shape->triangles[0][2] = b;
  shape->radius_m = radius_m;
  shape->exact = TRUE;
}

/* A box in a frame turned by @turn about the vertical. */
static void
set_box (Shape *shape, const TrnPose *frame, TrnVec3 lo, TrnVec3 hi, gboolean exact)
{
  static const guint8 faces[SHAPE_MOST][3]
      = { { 0, 1, 3 }, { 0, 3, 2 }, { 4, 5, 7 }, { 4, 7, 6 }, { 0, 1, 5 }, { 0, 5, 4 },
          { 2, 3, 7 }, { 2, 7, 6 }, { 0, 2, 6 }, { 0, 6, 4 }, { 1, 3, 7 }, { 1, 7, 5 } };
  for (guint i = 0; i < SHAPE_MOST; i++)
    for (guint k = 0; k < 3; k++)
      {
        guint c = faces[i][k];
        shape->triangles[i][k] = trn_pose_apply (
            frame, trn_vec3_make (c & 1 ? hi.x : lo.x, c & 2 ? hi.y : lo.y, c & 4 ? hi.z : lo.z));
      }
  shape->n_triangles = SHAPE_MOST;
  shape->radius_m = 0;
  shape->exact = exact;
}

static double
section_radius (JsonObject *object)
{
  TrnVec3 section = vector (object, "section");
  return sqrt (section.x * section.x + section.y * section.y) / 2;
}

static double
block_height (JsonObject *hoist)
{
  JsonObject *block = hoist != NULL ? member (hoist, "block") : NULL;
  return block != NULL ? json_object_get_double_member (block, "height") : 0;
}

static TrnVec3
above (TrnVec3 point, double by_m)
{
  return trn_vec3_make (point.x, point.y, point.z + by_m);
}

/* The square column within the round block. */
static void
set_block (JsonObject *hoist, TrnVec3 hook, Shape *shape)
{
  JsonObject *block = json_object_get_object_member (hoist, "block");
  double half = json_object_get_double_member (block, "diameter") / 2 / sqrt (2);
  TrnPose frame = { trn_rotation_identity (), hook };
  set_box (shape, &frame, trn_vec3_make (-half, -half, 0),
           trn_vec3_make (half, half, block_height (hoist)), FALSE);
}

/* The box from the slew axis to where its outer corners lie on the tail radius. */
static void
set_counterweight (JsonObject *gear, double slew_rad, Shape *shape)
{
  JsonObject *weight = json_object_get_object_member (gear, "counterweight");
  double radius = json_object_get_double_member (weight, "tail_radius");
  double half = json_object_get_double_member (weight, "width") / 2;
  double out = sqrt (fmax (radius * radius - half * half, 0));
  TrnPose place = place_of (gear);
  TrnRotation turn = oracle_turn_z (slew_rad);
  TrnPose frame = { trn_rotation_multiply (&place.turn, &turn), place.position };
  set_box (shape, &frame,
           trn_vec3_make (-out, -half, json_object_get_double_member (weight, "bottom")),
           trn_vec3_make (0, half, json_object_get_double_member (weight, "top")), FALSE);
}

static gboolean
crane_body (JsonObject *gear, JsonObject *hoist, const char *part, TrnVec3 hook, Shape *shape)
{
  OracleCrane crane;
  if (strcmp (part, "block") == 0)
    {
      set_block (hoist, hook, shape);
      return TRUE;
    }
  if (!gear_oracle_crane (gear, hook, &crane))
    return FALSE;
  if (strcmp (part, "boom") == 0)
    set_segment (shape, crane.foot, crane.knee, section_radius (member (gear, "boom")));
  else if (strcmp (part, "jib") == 0)
    set_segment (shape, crane.knee, crane.tip, section_radius (member (gear, "jib")));
  else if (strcmp (part, "rope") == 0)
    set_segment (shape, above (hook, block_height (hoist)), crane.tip,
                 number (gear, "rope_diameter", 0.03) / 2);
  else if (strcmp (part, "counterweight") == 0)
    set_counterweight (gear, crane.slew_rad, shape);
  else
    return FALSE;
  return TRUE;
}

static gboolean
gantry_body (JsonObject *gear, JsonObject *hoist, const char *part, TrnVec3 hook, Shape *shape)
{
  TrnPose place = place_of (gear);
  TrnVec3 local = trn_pose_apply_inverse (&place, hook);
  JsonObject *trolley = member (gear, "trolley"), *header = member (gear, "header");
  double under = json_object_get_double_member (trolley, "underside");
  if (strcmp (part, "block") == 0)
    set_block (hoist, hook, shape);
  else if (strcmp (part, "rope") == 0)
    set_segment (shape, above (hook, block_height (hoist)),
                 trn_vec3_make (hook.x, hook.y, place.position.z + under),
                 number (gear, "rope_diameter", 0.03) / 2);
  else if (strcmp (part, "trolley") == 0)
    {
      TrnVec3 half = trn_vec3_scale (vector (trolley, "size"), 0.5);
      set_box (shape, &place, trn_vec3_make (local.x - half.x, local.y - half.y, under),
               trn_vec3_make (local.x + half.x, local.y + half.y, under + 2 * half.z), TRUE);
    }
  else if (g_str_has_prefix (part, "header"))
    {
      double half = json_object_get_double_member (header, "length") / 2;
      double wide = json_object_get_double_member (header, "width") / 2;
      double low = json_object_get_double_member (header, "underside");
      double high = low + json_object_get_double_member (header, "depth");
      double y = local.y;
      if (json_object_has_member (header, "spacing"))
        y += (g_str_has_suffix (part, "1") ? -0.5 : 0.5) * number (header, "spacing", 0);
      set_box (shape, &place, trn_vec3_make (-half, y - wide, low),
               trn_vec3_make (half, y + wide, high), TRUE);
    }
  else
    return FALSE;
  return TRUE;
}

/* ---- rigging ---- */

static void
beam_ends (const GearOracle *oracle, JsonObject *hoist, guint move, double s, TrnVec3 hook,
           TrnVec3 ends[2])
{
  JsonObject *beam = json_object_get_object_member (hoist, "beam");
  JsonArray *over = json_object_get_array_member (beam, "between");
  TrnVec3 a = site_of (oracle, move, s, point_of (oracle, json_array_get_element (over, 0)));
  TrnVec3 b = site_of (oracle, move, s, point_of (oracle, json_array_get_element (over, 1)));
  double dx = b.x - a.x, dy = b.y - a.y, apart = sqrt (dx * dx + dy * dy);
  double half = json_object_get_double_member (beam, "length") / 2;
  TrnVec3 middle = above (hook, -json_object_get_double_member (beam, "below_hook"));
  TrnVec3 along = { dx / apart * half, dy / apart * half, 0 };
  ends[0] = trn_vec3_sub (middle, along);
  ends[1] = trn_vec3_add (middle, along);
}

static TrnVec3
sling_end (const char *name, TrnVec3 hook, const TrnVec3 ends[2])
{
  if (strcmp (name, "beam-a") == 0)
    return ends[0];
  return strcmp (name, "beam-b") == 0 ? ends[1] : hook;
}

static gboolean
rigging_body (const GearOracle *oracle, const char *id, guint move, double s, TrnVec3 off,
              Shape *shape)
{
  JsonObject *hoist = json_object_get_object_member (
      json_object_get_object_member (oracle->lift->lift, "rigging"), "main");
  TrnVec3 hook = gear_oracle_hook (oracle, hoist, move, s, off), ends[2] = { hook, hook };
  JsonObject *beam = member (hoist, "beam");
  if (beam != NULL)
    beam_ends (oracle, hoist, move, s, hook, ends);
  if (beam != NULL && strcmp (json_object_get_string_member (beam, "id"), id) == 0)
    {
      double w = json_object_get_double_member (beam, "width");
      double d = json_object_get_double_member (beam, "depth");
      set_segment (shape, ends[0], ends[1], sqrt (w * w + d * d) / 2);
      return TRUE;
    }
  JsonArray *slings = json_object_has_member (hoist, "slings")
                          ? json_object_get_array_member (hoist, "slings")
                          : NULL;
  for (guint i = 0; slings != NULL && i < json_array_get_length (slings); i++)
    {
      JsonObject *sling = json_array_get_object_element (slings, i);
      if (strcmp (json_object_get_string_member (sling, "id"), id) != 0)
        continue;
      const char *from = json_object_has_member (sling, "from")
                             ? json_object_get_string_member (sling, "from")
                             : "hook";
      JsonNode *to = json_object_get_member (sling, "to");
      TrnVec3 end = JSON_NODE_HOLDS_ARRAY (to)
                        ? trn_vec3_add (site_of (oracle, move, s, point_of (oracle, to)), off)
                        : sling_end (json_node_get_string (to), hook, ends);
      set_segment (shape, sling_end (from, hook, ends), end,
                   json_object_get_double_member (sling, "diameter") / 2);
      return TRUE;
    }
  return FALSE;
}

gboolean
gear_oracle_body (const GearOracle *oracle, const char *id, guint move, double s, TrnVec3 off,
                  Shape *shape)
{
  const char *slash = strchr (id, '/');
  if (slash == NULL)
    return rigging_body (oracle, id, move, s, off, shape);
  g_autofree char *whose = g_strndup (id, (gsize)(slash - id));
  JsonObject *gear = gear_oracle_find (oracle, whose);
  JsonObject *hoist = gear_oracle_hoist_of (oracle, whose);
  if (gear == NULL)
    return FALSE;
  TrnPose place = place_of (gear);
  TrnVec3 hook;
  if (hoist != NULL)
    hook = gear_oracle_hook (oracle, hoist, move, s, off);
  else if (json_object_has_member (gear, "park"))
    hook = trn_pose_apply (&place, vector (gear, "park"));
  else if (json_object_has_member (gear, "window"))
    {
      JsonObject *window = json_object_get_object_member (gear, "window");
      TrnVec3 x = vector (window, "x"), y = vector (window, "y");
      hook = trn_pose_apply (&place, trn_vec3_make ((x.x + x.y) / 2, (y.x + y.y) / 2, 0));
    }
  else
    return FALSE;
  if (strcmp (json_object_get_string_member (gear, "kind"), "crane") == 0)
    return crane_body (gear, hoist, slash + 1, hook, shape);
  return gantry_body (gear, hoist, slash + 1, hook, shape);
}
