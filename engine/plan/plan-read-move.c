/* Moves, and the points of the load that they name. */
#include "plan-read.h"

#include <math.h>

/* Each move has its own keys. */
typedef void (*ReadMove) (TrnReader *reader, const TrnValue *value, const TrnComponent *load,
                          const TrnPoint *hook, TrnMove *move);

static void
find_point (TrnReader *reader, const TrnValue *value, const TrnComponent *load, TrnPoint *point)
{
  for (guint i = 0; i < load->n_points; i++)
    if (g_str_equal (load->points[i].name, point->name))
      {
        point->place = load->points[i].place;
        return;
      }
  g_autofree char *points = g_strconcat (load->pointer, "/points", NULL);
  if (g_hash_table_contains (reader->json->faulty, points))
    return;
  g_autofree const char **names = g_new0 (const char *, load->n_points + 1);
  for (guint i = 0; i < load->n_points; i++)
    names[i] = load->points[i].name;
  const char *nearest = trn_nearest (point->name, names, load->n_points);
  TrnDiag *diag = trn_read_fault_text (reader, value,
                                       nearest != NULL ? "plan/unknown-point" : "plan/no-points",
                                       "point", point->name);
  trn_diag_set_text (diag, "component", load->id);
  if (nearest != NULL)
    trn_json_set_quoted (diag, "nearest", nearest);
}

TrnPoint
trn_read_point_at (TrnReader *reader, const TrnValue *value, const TrnComponent *load)
{
  TrnPoint point = { NULL, { NAN, NAN, NAN } };
  double xyz[3];
  if (trn_value_is_text (value))
    {
      point.name = g_strdup (json_node_get_string (value->node));
      if (load != NULL)
        find_point (reader, value, load, &point);
    }
  else if (!trn_value_is_array (value))
    trn_read_fault (reader, value, "plan/not-point");
  else if (trn_read_numbers (reader, value, 3, &trn_range_length, xyz))
    point.place = trn_vec3_make (xyz[0], xyz[1], xyz[2]);
  return point;
}

TrnPoint
trn_read_point (TrnReader *reader, const TrnValue *object, const char *key, TrnNeed need,
                const TrnComponent *load)
{
  TrnValue value = trn_read_member (reader, object, key, need);
  if (value.node == NULL)
    return (TrnPoint){ NULL, { NAN, NAN, NAN } };
  return trn_read_point_at (reader, &value, load);
}

/* A point, or else the hook point. */
static TrnPoint
read_about (TrnReader *reader, const TrnValue *value, const TrnComponent *load,
            const TrnPoint *hook)
{
  if (trn_value_member (value, "about").node == NULL)
    return (TrnPoint){ g_strdup (hook->name), hook->place };
  return trn_read_point (reader, value, "about", TRN_OPTIONAL, load);
}

static double
read_angle (TrnReader *reader, const TrnValue *value, const char *key, TrnNeed need)
{
  return trn_radians (trn_or (trn_read_number (reader, value, key, need, &trn_range_angle), 0));
}

static void
read_level (TrnReader *reader, const TrnValue *value, const char *key, double xy[2])
{
  TrnValue pair = trn_read_member (reader, value, key, TRN_REQUIRED);
  trn_read_numbers (reader, &pair, 2, &trn_range_length, xy);
}

static void
read_hoist (TrnReader *reader, const TrnValue *value, const TrnComponent *load,
            const TrnPoint *hook, TrnMove *move)
{
  move->by.z = trn_read_number (reader, value, "by", TRN_REQUIRED, &trn_range_length);
}

static void
read_travel (TrnReader *reader, const TrnValue *value, const TrnComponent *load,
             const TrnPoint *hook, TrnMove *move)
{
  double by[2];
  read_level (reader, value, "by", by);
  move->by = trn_vec3_make (by[0], by[1], 0);
}

static void
read_carry (TrnReader *reader, const TrnValue *value, const TrnComponent *load,
            const TrnPoint *hook, TrnMove *move)
{
  move->by = trn_read_vec3 (reader, value, "by", TRN_REQUIRED, &trn_range_length);
  move->turn_rad = read_angle (reader, value, "turn", TRN_OPTIONAL);
  move->about = read_about (reader, value, load, hook);
}

static void
read_turn (TrnReader *reader, const TrnValue *value, const TrnComponent *load, const TrnPoint *hook,
           TrnMove *move)
{
  move->turn_rad = read_angle (reader, value, "by", TRN_REQUIRED);
  move->about = read_about (reader, value, load, hook);
}

static void
read_slew (TrnReader *reader, const TrnValue *value, const TrnComponent *load, const TrnPoint *hook,
           TrnMove *move)
{
  double centre[2];
  move->turn_rad = read_angle (reader, value, "by", TRN_REQUIRED);
  read_level (reader, value, "centre", centre);
  move->centre_x = centre[0];
  move->centre_y = centre[1];
  move->load_turns = trn_read_boolean (reader, value, "load_turns", TRUE);
  const double radius_by_m
      = trn_read_number (reader, value, "radius_by", TRN_OPTIONAL, &trn_range_length);
  const double hoist_by_m
      = trn_read_number (reader, value, "hoist_by", TRN_OPTIONAL, &trn_range_length);
  move->radius_by_m = trn_or (radius_by_m, 0);
  move->hoist_by_m = trn_or (hoist_by_m, 0);
}

static void
refuse_key (TrnReader *reader, const TrnValue *value, const char *key, const char *guide)
{
  TrnValue member = trn_value_member (value, key);
  if (member.node == NULL)
    return;
  TrnDiag *diag = trn_read_fault_text (reader, &member, "plan/guide-key", "key", key);
  trn_diag_set_text (diag, "guide", guide);
}

static void
read_head_plumb (TrnReader *reader, const TrnValue *value, const TrnComponent *load, TrnMove *move)
{
  refuse_key (reader, value, "about", "head-plumb");
  refuse_key (reader, value, "carry", "head-plumb");
  move->head = trn_read_point (reader, value, "head", TRN_REQUIRED, load);
  move->tail = trn_read_point (reader, value, "tail", TRN_REQUIRED, load);
  TrnVec3 tail_from_head = trn_vec3_sub (move->tail.place, move->head.place);
  TrnValue tail = trn_value_member (value, "tail");
  if (tail_from_head.x == 0 && tail_from_head.y == 0 && tail_from_head.z == 0)
    trn_read_fault (reader, &tail, "plan/head-is-tail");
}

static void
read_tilt (TrnReader *reader, const TrnValue *value, const TrnComponent *load, const TrnPoint *hook,
           TrnMove *move)
{
  static const char *const guides[] = { "fixed", "head-plumb", NULL };
  move->turn_rad = read_angle (reader, value, "by", TRN_REQUIRED);
  move->axis_rad = read_angle (reader, value, "axis", TRN_REQUIRED);
  const int guide = trn_read_word (reader, value, "guide", TRN_OPTIONAL, guides);
  if (guide < 0 && trn_value_member (value, "guide").node != NULL)
    return;
  move->head_plumb = guide == 1;
  if (move->head_plumb)
    {
      read_head_plumb (reader, value, load, move);
      return;
    }
  refuse_key (reader, value, "head", "fixed");
  refuse_key (reader, value, "tail", "fixed");
  move->about = read_about (reader, value, load, hook);
  TrnVec3 carry = trn_read_vec3 (reader, value, "carry", TRN_OPTIONAL, &trn_range_length);
  move->by = trn_vec3_make (trn_or (carry.x, 0), trn_or (carry.y, 0), trn_or (carry.z, 0));
}

static void
read_wait (TrnReader *reader, const TrnValue *value, const TrnComponent *load, const TrnPoint *hook,
           TrnMove *move)
{
  move->hold_point = trn_read_text (reader, value, "hold_point", TRN_OPTIONAL);
}

/* In the order of TrnMoveKind. */
static const struct
{
  const char *word;
  ReadMove read;
  const char *keys[10];
} kinds[] = {
  [TRN_MOVE_HOIST] = { "hoist", read_hoist, { "do", "seconds", "by", NULL } },
  [TRN_MOVE_TRAVEL] = { "travel", read_travel, { "do", "seconds", "by", NULL } },
  [TRN_MOVE_MOVE] = { "move", read_carry, { "do", "seconds", "by", "turn", "about", NULL } },
  [TRN_MOVE_TURN] = { "turn", read_turn, { "do", "seconds", "by", "about", NULL } },
  [TRN_MOVE_SLEW]
  = { "slew",
      read_slew,
      { "do", "seconds", "by", "centre", "load_turns", "radius_by", "hoist_by", NULL } },
  [TRN_MOVE_TILT]
  = { "tilt",
      read_tilt,
      { "do", "seconds", "by", "axis", "guide", "about", "carry", "head", "tail", NULL } },
  [TRN_MOVE_WAIT] = { "wait", read_wait, { "do", "seconds", "hold_point", NULL } },
};

const char *
trn_move_kind_name (TrnMoveKind kind)
{
  g_assert (kind < G_N_ELEMENTS (kinds));
  return kinds[kind].word;
}

/* Words for going up and down that are no moves: what is meant is said with the sign of "by". */
static gboolean
refuse_up_or_down (TrnReader *reader, const TrnValue *value)
{
  static const char *const up[] = { "lift", "raise", "up", NULL };
  static const char *const down[] = { "lower", "down", NULL };
  TrnValue kind = trn_value_member (value, "do");
  if (!trn_value_is_text (&kind))
    return FALSE;
  const char *text = json_node_get_string (kind.node);
  g_autofree char *word = g_ascii_strdown (text, -1);
  const gboolean is_down = g_strv_contains (down, word);
  if (!is_down && !g_strv_contains (up, word))
    return FALSE;
  trn_read_fault_text (reader, &kind, is_down ? "plan/hoist-down" : "plan/hoist-up", "word", text);
  return TRUE;
}

void
trn_read_move (TrnReader *reader, const TrnValue *value, const TrnComponent *load,
               const TrnPoint *hook, TrnMove *move)
{
  const char *words[G_N_ELEMENTS (kinds) + 1] = { NULL };
  for (guint i = 0; i < G_N_ELEMENTS (kinds); i++)
    words[i] = kinds[i].word;
  move->pointer = trn_value_pointer_dup (value);
  if (!trn_read_object (reader, value, NULL))
    return;
  const int kind = refuse_up_or_down (reader, value)
                       ? -1
                       : trn_read_word (reader, value, "do", TRN_REQUIRED, words);
  const gboolean wait = kind == TRN_MOVE_WAIT;
  move->seconds = trn_read_number (reader, value, "seconds", TRN_REQUIRED,
                                   wait ? &trn_range_wait : &trn_range_seconds);
  if (kind < 0)
    return;
  move->kind = (TrnMoveKind)kind;
  trn_read_object (reader, value, kinds[kind].keys);
  kinds[kind].read (reader, value, load, hook, move);
}
