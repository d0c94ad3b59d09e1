#include "oracle.h"

#include <string.h>

/* ---- JSON ---- */

static double
number (JsonObject *object, const char *key, double otherwise)
{
  return json_object_has_member (object, key) ? json_object_get_double_member (object, key)
                                              : otherwise;
}

static double
angle (JsonObject *object, const char *key)
{
  return number (object, key, 0) * G_PI / 180;
}

/* Two or three numbers; zero where the key is left out. */
static TrnVec3
vector (JsonObject *object, const char *key)
{
  if (!json_object_has_member (object, key))
    return trn_vec3_make (0, 0, 0);
  JsonArray *array = json_object_get_array_member (object, key);
  return trn_vec3_make (
      json_array_get_double_element (array, 0), json_array_get_double_element (array, 1),
      json_array_get_length (array) > 2 ? json_array_get_double_element (array, 2) : 0);
}

static const char *
text (JsonObject *object, const char *key)
{
  return json_object_has_member (object, key) ? json_object_get_string_member (object, key) : NULL;
}

/* A point of the load: by name or by coordinates; @otherwise where it is left out. */
static TrnVec3
load_point (JsonObject *component, JsonObject *object, const char *key, TrnVec3 otherwise)
{
  if (!json_object_has_member (object, key))
    return otherwise;
  if (JSON_NODE_HOLDS_ARRAY (json_object_get_member (object, key)))
    return vector (object, key);
  return vector (json_object_get_object_member (component, "points"), text (object, key));
}

JsonNode *
oracle_parse (const char *json)
{
  g_autoptr (GError) error = NULL;
  JsonNode *root = json_from_string (json, &error);
  g_assert_no_error (error);
  return root;
}

/* ---- rotations, written out ---- */

TrnRotation
oracle_turn_z (double a)
{
  return (TrnRotation){ { { cos (a), -sin (a), 0 }, { sin (a), cos (a), 0 }, { 0, 0, 1 } } };
}

static TrnRotation
turn_y (double a)
{
  return (TrnRotation){ { { cos (a), 0, sin (a) }, { 0, 1, 0 }, { -sin (a), 0, cos (a) } } };
}

static TrnRotation
turn_x (double a)
{
  return (TrnRotation){ { { 1, 0, 0 }, { 0, cos (a), -sin (a) }, { 0, sin (a), cos (a) } } };
}

static TrnRotation
times (TrnRotation a, TrnRotation b)
{
  TrnRotation c = { { { 0 } } };
  for (int row = 0; row < 3; row++)
    for (int column = 0; column < 3; column++)
      for (int k = 0; k < 3; k++)
        c.m[row][column] += a.m[row][k] * b.m[k][column];
  return c;
}

/* Turned so that the axis lies along X, turned about X, turned back. */
TrnRotation
oracle_turn_level (double heading_rad, double angle_rad)
{
  return times (times (oracle_turn_z (heading_rad), turn_x (angle_rad)),
                oracle_turn_z (-heading_rad));
}

static TrnVec3
turned (TrnRotation r, TrnVec3 v)
{
  return trn_vec3_make (r.m[0][0] * v.x + r.m[0][1] * v.y + r.m[0][2] * v.z,
                        r.m[1][0] * v.x + r.m[1][1] * v.y + r.m[1][2] * v.z,
                        r.m[2][0] * v.x + r.m[2][1] * v.y + r.m[2][2] * v.z);
}

static TrnVec3
site_point (const TrnPose *pose, TrnVec3 point)
{
  return trn_vec3_add (turned (pose->turn, point), pose->position);
}

/* The pose with that attitude in which @point of the load is at @place. */
static TrnPose
pose_with (TrnRotation turn, TrnVec3 point, TrnVec3 place)
{
  return (TrnPose){ turn, trn_vec3_sub (place, turned (turn, point)) };
}

TrnPose
oracle_placement (JsonObject *at)
{
  TrnVec3 turn = trn_vec3_scale (vector (at, "turn"), G_PI / 180);
  return (TrnPose){ times (times (oracle_turn_z (turn.x), turn_y (turn.y)), turn_x (turn.z)),
                    vector (at, "position") };
}

/* ---- moves ---- */

static TrnPose
slew_pose (TrnVec3 hook, JsonObject *move, const TrnPose *start, double s)
{
  TrnVec3 c = vector (move, "centre"), h0 = site_point (start, hook);
  double phi0 = atan2 (h0.y - c.y, h0.x - c.x), phi = angle (move, "by");
  double r0 = hypot (h0.x - c.x, h0.y - c.y);
  double r = r0 + s * number (move, "radius_by", 0);
  TrnVec3 h = trn_vec3_make (c.x + r * cos (phi0 + s * phi), c.y + r * sin (phi0 + s * phi),
                             h0.z + s * number (move, "hoist_by", 0));
  gboolean load_turns = !json_object_has_member (move, "load_turns")
                        || json_object_get_boolean_member (move, "load_turns");
  return pose_with (load_turns ? times (oracle_turn_z (s * phi), start->turn) : start->turn, hook,
                    h);
}

static TrnPose
tilt_pose (JsonObject *component, TrnVec3 hook, JsonObject *move, const TrnPose *start, double s)
{
  TrnRotation turn
      = times (oracle_turn_level (angle (move, "axis"), s * angle (move, "by")), start->turn);
  if (g_strcmp0 (text (move, "guide"), "head-plumb") != 0)
    {
      TrnVec3 about = load_point (component, move, "about", hook);
      TrnVec3 carry = trn_vec3_scale (vector (move, "carry"), s);
      return pose_with (turn, about, trn_vec3_add (site_point (start, about), carry));
    }
  TrnVec3 head = load_point (component, move, "head", hook);
  TrnVec3 tail = load_point (component, move, "tail", hook);
  TrnVec3 h0 = site_point (start, head), t0 = site_point (start, tail);
  double above = turned (turn, trn_vec3_sub (head, tail)).z;
  return pose_with (turn, head, trn_vec3_make (h0.x, h0.y, t0.z + above));
}

TrnPose
oracle_move_pose (JsonObject *component, TrnVec3 hook, JsonObject *move, const TrnPose *start,
                  double s)
{
  const char *kind = text (move, "do");
  TrnPose pose = *start;
  if (strcmp (kind, "slew") == 0)
    return slew_pose (hook, move, start, s);
  if (strcmp (kind, "tilt") == 0)
    return tilt_pose (component, hook, move, start, s);
  if (strcmp (kind, "hoist") == 0)
    pose.position.z += s * number (move, "by", 0);
  else if (strcmp (kind, "travel") == 0)
    pose.position = trn_vec3_add_scaled (pose.position, vector (move, "by"), s);
  else if (strcmp (kind, "wait") != 0)
    {
      gboolean is_turn = strcmp (kind, "turn") == 0;
      g_assert_true (is_turn || strcmp (kind, "move") == 0);
      double by = angle (move, is_turn ? "by" : "turn");
      TrnVec3 about = load_point (component, move, "about", hook);
      TrnVec3 carry = is_turn ? trn_vec3_make (0, 0, 0) : trn_vec3_scale (vector (move, "by"), s);
      pose = pose_with (times (oracle_turn_z (s * by), start->turn), about,
                        trn_vec3_add (site_point (start, about), carry));
    }
  return pose;
}

TrnPose
oracle_pose (const OracleLift *lift, guint move, double s)
{
  const OracleMove *m = &g_array_index (lift->moves, OracleMove, move);
  return oracle_move_pose (lift->component, lift->hook, m->move, &m->start, s);
}

/* ---- the site ---- */

/* One structure or component, through the whole programme. */
typedef struct
{
  JsonObject *object;
  gboolean is_component, stands;
  guint index;
  TrnPose pose;
  OracleSlack left;
  gboolean hangs, is_lost;
} Thing;

static void
list_things (GArray *things, JsonObject *plan, const char *key)
{
  JsonArray *array = json_object_get_array_member (plan, key);
  for (guint i = 0; i < json_array_get_length (array); i++)
    {
      Thing thing = { .object = json_array_get_object_element (array, i),
                      .is_component = strcmp (key, "components") == 0,
                      .index = i };
      thing.stands = !json_object_get_null_member (thing.object, "at");
      if (thing.stands)
        thing.pose = oracle_placement (json_object_get_object_member (thing.object, "at"));
      g_array_append_val (things, thing);
    }
}

static Thing *
find_thing (GArray *things, const char *id)
{
  for (guint i = 0; i < things->len; i++)
    if (strcmp (text (g_array_index (things, Thing, i).object, "id"), id) == 0)
      return &g_array_index (things, Thing, i);
  g_assert_not_reached ();
}

/* The lift's own value for the obstacle, else the obstacle's, else the lift's, else the plan's. */
static double
required (JsonObject *plan, JsonObject *lift, JsonObject *obstacle)
{
  JsonNode *of_lift = json_object_get_member (lift, "keep_clear");
  if (of_lift != NULL && JSON_NODE_HOLDS_OBJECT (of_lift))
    {
      JsonObject *single = json_node_get_object (of_lift);
      if (json_object_has_member (single, text (obstacle, "id")))
        return number (single, text (obstacle, "id"), 0);
    }
  if (json_object_has_member (obstacle, "keep_clear"))
    return number (obstacle, "keep_clear", 0);
  if (of_lift != NULL && JSON_NODE_HOLDS_VALUE (of_lift))
    return json_node_get_double (of_lift);
  return number (plan, "keep_clear", NAN);
}

static void
list_standing (OracleLift *lift, JsonObject *plan, const GArray *things, const Thing *load)
{
  for (guint i = 0; i < things->len; i++)
    {
      const Thing *thing = &g_array_index (things, Thing, i);
      OracleStanding standing
          = { .id = text (thing->object, "id"),
              .is_component = thing->is_component,
              .index = thing->index,
              .pose = thing->pose,
              .required_m = required (plan, lift->lift, thing->object),
              .survey_m = thing->is_component ? 0 : number (thing->object, "survey_tolerance", 0),
              .left = thing->left,
              .hangs = thing->hangs,
              .is_lost = thing->is_lost };
      if (thing->stands && thing != load)
        g_array_append_val (lift->standing, standing);
    }
}

/* The lift's own tolerances, and what was left where that is more: of a turn about one point, seen
 * from another, a shift too; where the lift tilts its load a turn may come to be about any axis. */
static OracleSlack
slack_of (JsonObject *lift, TrnVec3 hook, OracleSlack left)
{
  OracleSlack own = { .about = hook };
  if (json_object_has_member (lift, "tolerance"))
    {
      JsonObject *tolerance = json_object_get_object_member (lift, "tolerance");
      own.m = number (tolerance, "position", 0);
      own.tilt_rad = number (tolerance, "tilt_deg", 0) * G_PI / 180;
      own.turn_rad = number (tolerance, "heading_deg", 0) * G_PI / 180;
    }
  const double arm = trn_vec3_distance (hook, left.about);
  const double aside = 2 * arm * (sin (left.tilt_rad / 2) + sin (left.turn_rad / 2));
  JsonArray *moves = json_object_get_array_member (lift, "moves");
  double tilt_rad = left.tilt_rad, turn_rad = left.turn_rad;
  for (guint i = 0; i < json_array_get_length (moves); i++)
    if (strcmp (text (json_array_get_object_element (moves, i), "do"), "tilt") == 0)
      tilt_rad = turn_rad = left.tilt_rad + left.turn_rad;
  own.m = fmax (own.m, left.m + aside);
  own.tilt_rad = fmax (own.tilt_rad, tilt_rad);
  own.turn_rad = fmax (own.turn_rad, turn_rad);
  return own;
}

static gboolean
has_seat (JsonObject *lift, const char *not_at)
{
  JsonArray *seats = json_object_has_member (lift, "seats")
                         ? json_object_get_array_member (lift, "seats")
                         : NULL;
  for (guint i = 0; seats != NULL && i < json_array_get_length (seats); i++)
    if (strcmp (text (json_array_get_object_element (seats, i), "at"), not_at) != 0)
      return TRUE;
  return FALSE;
}

/* Whether it is set down on what hangs, or is lost itself. */
static gboolean
ends_on_lost (JsonObject *item, const OracleLift *lift)
{
  JsonArray *seats = json_object_has_member (item, "seats")
                         ? json_object_get_array_member (item, "seats")
                         : NULL;
  for (guint i = 0; seats != NULL && i < json_array_get_length (seats); i++)
    {
      JsonObject *seat = json_array_get_object_element (seats, i);
      g_auto (GStrv) on = g_strsplit (text (seat, "on"), "/", 2);
      for (guint k = 0; k < lift->standing->len; k++)
        {
          const OracleStanding *standing = &g_array_index (lift->standing, OracleStanding, k);
          if (strcmp (text (seat, "at"), "start") != 0 && strcmp (on[0], standing->id) == 0
              && (standing->hangs || standing->is_lost))
            return TRUE;
        }
    }
  return FALSE;
}

/* What only waits on a seat goes on as it was. */
static gboolean
hangs_after (JsonObject *lift, gboolean before)
{
  JsonArray *moves = json_object_get_array_member (lift, "moves");
  gboolean is_lifted = !has_seat (lift, "end");
  for (guint i = 0; i < json_array_get_length (moves); i++)
    is_lifted |= strcmp (text (json_array_get_object_element (moves, i), "do"), "wait") != 0;
  return !has_seat (lift, "start") && (before || is_lifted);
}

static void
play_lift (Oracle *oracle, JsonObject *plan, GArray *things, JsonObject *item)
{
  Thing *load = find_thing (things, text (item, "component"));
  g_assert_true (load->stands && load->is_component);
  OracleLift lift = { .lift = item,
                      .component = load->object,
                      .component_index = load->index,
                      .stands = load->pose,
                      .start = load->pose,
                      .moves = g_array_new (FALSE, FALSE, sizeof (OracleMove)),
                      .standing = g_array_new (FALSE, FALSE, sizeof (OracleStanding)) };
  lift.hook = load_point (load->object, item, "hook_point", trn_vec3_make (NAN, NAN, NAN));
  if (json_object_has_member (item, "start"))
    lift.start = oracle_placement (json_object_get_object_member (item, "start"));
  list_standing (&lift, plan, things, load);
  lift.left = load->left;
  lift.is_lost = load->is_lost;
  lift.slack = slack_of (item, lift.hook, load->left);
  lift.end = lift.start;
  JsonArray *moves = json_object_get_array_member (item, "moves");
  for (guint i = 0; i < json_array_get_length (moves); i++)
    {
      OracleMove move = { .move = json_array_get_object_element (moves, i),
                          .start = lift.end,
                          .begins_s = lift.seconds };
      move.seconds = number (move.move, "seconds", NAN);
      g_array_append_val (lift.moves, move);
      lift.end = oracle_pose (&lift, i, 1);
      lift.seconds += move.seconds;
    }
  load->pose = lift.end;
  load->left = lift.slack;
  load->hangs = hangs_after (item, load->hangs);
  load->is_lost = ends_on_lost (item, &lift) || (load->is_lost && !has_seat (item, "start"));
  g_array_append_val (oracle->lifts, lift);
}

static void
play_change (GArray *things, JsonObject *item)
{
  if (json_object_has_member (item, "remove"))
    {
      find_thing (things, text (item, "remove"))->stands = FALSE;
      return;
    }
  if (json_object_has_member (item, "add"))
    {
      Thing *thing = find_thing (things, text (item, "add"));
      JsonObject *from = json_object_has_member (item, "at") ? item : thing->object;
      thing->stands = TRUE;
      thing->pose = oracle_placement (json_object_get_object_member (from, "at"));
      thing->is_lost = thing->hangs;
      if (!thing->hangs)
        thing->left = (OracleSlack){ 0 };
      return;
    }
  JsonObject *swap = json_object_get_object_member (item, "swap");
  Thing *goes = find_thing (things, text (swap, "component"));
  Thing *comes = find_thing (things, text (swap, "with"));
  comes->stands = TRUE;
  comes->pose = goes->pose;
  comes->left = goes->left;
  const gboolean hung = comes->hangs;
  comes->hangs = goes->hangs || hung;
  comes->is_lost = goes->is_lost || goes->hangs || hung;
  goes->hangs = goes->hangs && hung;
  goes->stands = goes->is_lost = FALSE;
}

Oracle *
oracle_new (const char *json)
{
  Oracle *oracle = g_new0 (Oracle, 1);
  oracle->root = oracle_parse (json);
  oracle->lifts = g_array_new (FALSE, FALSE, sizeof (OracleLift));
  JsonObject *plan = json_node_get_object (oracle->root);
  g_autoptr (GArray) things = g_array_new (FALSE, FALSE, sizeof (Thing));
  list_things (things, plan, "structures");
  list_things (things, plan, "components");
  JsonArray *programme = json_object_get_array_member (plan, "programme");
  for (guint i = 0; i < json_array_get_length (programme); i++)
    {
      JsonObject *item = json_array_get_object_element (programme, i);
      if (json_object_has_member (item, "lift"))
        play_lift (oracle, plan, things, item);
      else
        play_change (things, item);
    }
  return oracle;
}

void
oracle_free (Oracle *oracle)
{
  for (guint i = 0; i < oracle->lifts->len; i++)
    {
      g_array_unref (g_array_index (oracle->lifts, OracleLift, i).moves);
      g_array_unref (g_array_index (oracle->lifts, OracleLift, i).standing);
    }
  g_array_unref (oracle->lifts);
  json_node_unref (oracle->root);
  g_free (oracle);
}
