/* Values of the document: where they stand, and reading one of a given type and range. */
#include "plan-read.h"

#include <math.h>
#include <string.h>

#define LENGTH_MOST_M 1e8 /* northings of map grids reach 1e7 */
#define MASS_MOST_KG 1e9
#define SECONDS_MOST 1e7     /* four months */
#define ANGLE_MOST_DEG 3.6e5 /* a thousand turns */
#define MASS_FACTOR_MOST 100
#define VOLTAGE_MOST_KV 1e4
#define WIND_MOST_M_S 100 /* beyond any storm */
#define DRAG_MOST 10      /* no body has more than 3 or so */
#define AIR_MOST_KG_M3 10
#define PRESSURE_MOST_PA 1e9 /* rock is crushed */
#define MOMENT_MOST_NM 1e9

const TrnRange trn_range_length = { -LENGTH_MOST_M, LENGTH_MOST_M, FALSE, TRN_UNIT_M };
const TrnRange trn_range_distance = { 0, LENGTH_MOST_M, FALSE, TRN_UNIT_M };
const TrnRange trn_range_positive = { 0, LENGTH_MOST_M, TRUE, TRN_UNIT_M };
const TrnRange trn_range_mass = { 0, MASS_MOST_KG, TRUE, TRN_UNIT_KG };
const TrnRange trn_range_mass_factor = { 1, MASS_FACTOR_MOST, FALSE, TRN_UNIT_NONE };
const TrnRange trn_range_seconds = { 0, SECONDS_MOST, TRUE, TRN_UNIT_S };
const TrnRange trn_range_wait = { 0, SECONDS_MOST, FALSE, TRN_UNIT_S };
const TrnRange trn_range_angle = { -ANGLE_MOST_DEG, ANGLE_MOST_DEG, FALSE, TRN_UNIT_DEG };
const TrnRange trn_range_play = { 0, ANGLE_MOST_DEG, FALSE, TRN_UNIT_DEG };
const TrnRange trn_range_voltage = { 0, VOLTAGE_MOST_KV, TRUE, TRN_UNIT_NONE };
const TrnRange trn_range_gear_length
    = { -TRN_SOLID_GREATEST_M, TRN_SOLID_GREATEST_M, FALSE, TRN_UNIT_M };
const TrnRange trn_range_gear_distance = { 0, TRN_SOLID_GREATEST_M, FALSE, TRN_UNIT_M };
const TrnRange trn_range_gear_size = { TRN_SOLID_LEAST_M, TRN_SOLID_GREATEST_M, FALSE, TRN_UNIT_M };
const TrnRange trn_range_boom_angle = { -90, 90, FALSE, TRN_UNIT_DEG };
const TrnRange trn_range_jib_offset = { 0, 90, FALSE, TRN_UNIT_DEG };
const TrnRange trn_range_wind = { 0, WIND_MOST_M_S, TRUE, TRN_UNIT_NONE };
const TrnRange trn_range_out_of_plumb = { 0, 45, TRUE, TRN_UNIT_DEG };
const TrnRange trn_range_share = { 0, 1, TRUE, TRN_UNIT_NONE };
const TrnRange trn_range_drag = { 0, DRAG_MOST, TRUE, TRN_UNIT_NONE };
const TrnRange trn_range_density = { 0, AIR_MOST_KG_M3, TRUE, TRN_UNIT_NONE };
const TrnRange trn_range_pressure = { 0, PRESSURE_MOST_PA, TRUE, TRN_UNIT_NONE };
const TrnRange trn_range_moment = { 0, MOMENT_MOST_NM, TRUE, TRN_UNIT_NONE };

TrnValue
trn_value_member (const TrnValue *object, const char *key)
{
  TrnValue member = { .up = object, .key = key };
  if (trn_value_is_object (object))
    member.node = json_object_get_member (json_node_get_object (object->node), key);
  return member;
}

TrnValue
trn_value_element (const TrnValue *array, guint index)
{
  return (TrnValue){
    .up = array,
    .index = index,
    .node = json_array_get_element (json_node_get_array (array->node), index),
  };
}

guint
trn_value_length (const TrnValue *array)
{
  return trn_value_is_array (array) ? json_array_get_length (json_node_get_array (array->node)) : 0;
}

gboolean
trn_value_is_null (const TrnValue *value)
{
  return value->node != NULL && JSON_NODE_HOLDS_NULL (value->node);
}

gboolean
trn_value_is_text (const TrnValue *value)
{
  return value->node != NULL && JSON_NODE_HOLDS_VALUE (value->node)
         && json_node_get_value_type (value->node) == G_TYPE_STRING;
}

gboolean
trn_value_is_number (const TrnValue *value)
{
  if (value->node == NULL || !JSON_NODE_HOLDS_VALUE (value->node))
    return FALSE;
  const GType type = json_node_get_value_type (value->node);
  return type == G_TYPE_INT64 || type == G_TYPE_DOUBLE;
}

gboolean
trn_value_is_array (const TrnValue *value)
{
  return value->node != NULL && JSON_NODE_HOLDS_ARRAY (value->node);
}

gboolean
trn_value_is_object (const TrnValue *value)
{
  return value->node != NULL && JSON_NODE_HOLDS_OBJECT (value->node);
}

static void
append_pointer (const TrnValue *value, GString *pointer)
{
  if (value->up == NULL)
    return;
  append_pointer (value->up, pointer);
  if (value->key != NULL)
    trn_json_pointer_append (pointer, value->key);
  else
    g_string_append_printf (pointer, "/%u", value->index);
}

char *
trn_value_pointer_dup (const TrnValue *value)
{
  GString *pointer = g_string_new (NULL);
  append_pointer (value, pointer);
  return g_string_free (pointer, FALSE);
}

static TrnDiag *
add_fault (TrnReader *reader, const char *pointer, const char *code)
{
  TrnDiag *diag = trn_diags_add (reader->diags, TRN_SEVERITY_ERROR, code, pointer);
  trn_diag_set_file (diag, reader->file, trn_json_line_find (reader->json->lines, pointer));
  return diag;
}

TrnDiag *
trn_read_fault_at (TrnReader *reader, const char *pointer, const char *code)
{
  if (!g_hash_table_add (reader->json->faulty, g_strdup (pointer)))
    return trn_diags_add (reader->muted, TRN_SEVERITY_ERROR, code, pointer);
  return add_fault (reader, pointer, code);
}

TrnDiag *
trn_read_fault (TrnReader *reader, const TrnValue *value, const char *code)
{
  g_autofree char *pointer = trn_value_pointer_dup (value);
  return trn_read_fault_at (reader, pointer, code);
}

TrnDiag *
trn_read_fault_text (TrnReader *reader, const TrnValue *value, const char *code, const char *name,
                     const char *text)
{
  TrnDiag *diag = trn_read_fault (reader, value, code);
  trn_json_set_quoted (diag, name, text);
  return diag;
}

/* A key that is not there has no line of its own: its object stands for it. */
static void
fault_missing (TrnReader *reader, const TrnValue *object, const TrnValue *member)
{
  g_autofree char *absent = trn_value_pointer_dup (member);
  if (!g_hash_table_add (reader->json->faulty, g_steal_pointer (&absent)))
    return;
  g_autofree char *pointer = trn_value_pointer_dup (object);
  TrnDiag *diag = add_fault (reader, pointer, "plan/missing-key");
  trn_diag_set_text (diag, "key", member->key);
}

TrnValue
trn_read_member (TrnReader *reader, const TrnValue *object, const char *key, TrnNeed need)
{
  TrnValue member = trn_value_member (object, key);
  if (member.node == NULL && need == TRN_REQUIRED)
    fault_missing (reader, object, &member);
  return member;
}

static void
check_key (TrnReader *reader, const TrnValue *object, const char *key, const char *const *keys)
{
  if (g_str_has_prefix (key, "x-") || g_strv_contains (keys, key))
    return;
  TrnValue member = trn_value_member (object, key);
  TrnDiag *diag = trn_read_fault_text (reader, &member, "plan/unknown-key", "key", key);
  trn_diag_set_text (diag, "nearest", trn_nearest (key, keys, g_strv_length ((char **)keys)));
}

gboolean
trn_read_object (TrnReader *reader, const TrnValue *value, const char *const *keys)
{
  if (value->node == NULL)
    return FALSE;
  if (!trn_value_is_object (value))
    {
      trn_read_fault (reader, value, "plan/not-object");
      return FALSE;
    }
  if (keys == NULL)
    return TRUE;
  JsonObjectIter iter;
  const char *key;
  json_object_iter_init_ordered (&iter, json_node_get_object (value->node));
  while (json_object_iter_next_ordered (&iter, &key, NULL))
    check_key (reader, value, key, keys);
  return TRUE;
}

static gboolean
is_few (TrnReader *reader, const TrnValue *value, guint n, guint most)
{
  if (n <= most)
    return TRUE;
  TrnDiag *diag = trn_read_fault (reader, value, "plan/too-many");
  trn_diag_set_number (diag, "count", n, TRN_UNIT_COUNT);
  trn_diag_set_number (diag, "limit", most, TRN_UNIT_COUNT);
  return FALSE;
}

gboolean
trn_read_few (TrnReader *reader, const TrnValue *value, guint n)
{
  return is_few (reader, value, n, TRN_PLAN_MOST_ITEMS);
}

gboolean
trn_read_array (TrnReader *reader, const TrnValue *value)
{
  if (value->node == NULL)
    return FALSE;
  if (trn_value_is_array (value))
    return trn_read_few (reader, value, trn_value_length (value));
  trn_read_fault (reader, value, "plan/not-array");
  return FALSE;
}

guint
trn_read_parts (TrnReader *reader, const TrnValue *value, guint least)
{
  const guint n = trn_value_length (value);
  if (!trn_read_array (reader, value) || !is_few (reader, value, n, TRN_PLAN_MOST_PARTS))
    return 0;
  if (n < least)
    trn_read_fault_text (reader, value, "plan/empty", "key", value->key);
  return n;
}

/* Whether it is a text such as "-0,5". */
static gboolean
has_decimal_comma (const TrnValue *value)
{
  static const char digits[] = "0123456789";
  if (!trn_value_is_text (value))
    return FALSE;
  const char *text = json_node_get_string (value->node);
  text += *text == '-' || *text == '+';
  const gsize whole = strspn (text, digits);
  if (whole == 0 || text[whole] != ',')
    return FALSE;
  const gsize part = strspn (text + whole + 1, digits);
  return part > 0 && text[whole + 1 + part] == '\0';
}

double
trn_read_number_at (TrnReader *reader, const TrnValue *value, const TrnRange *range)
{
  if (!trn_value_is_number (value))
    {
      trn_read_fault (reader, value,
                      has_decimal_comma (value) ? "plan/decimal-comma" : "plan/not-number");
      return NAN;
    }
  const double number = json_node_get_value_type (value->node) == G_TYPE_INT64
                            ? (double)json_node_get_int (value->node)
                            : json_node_get_double (value->node);
  if (number >= range->least && number <= range->most
      && !(range->above_least && number <= range->least))
    return number;
  const gboolean above = number > range->most;
  TrnDiag *diag = trn_read_fault (reader, value,
                                  above                ? "plan/too-large"
                                  : range->above_least ? "plan/not-above"
                                                       : "plan/too-small");
  trn_diag_set_number (diag, "value", number, range->unit);
  trn_diag_set_number (diag, "limit", above ? range->most : range->least, range->unit);
  return NAN;
}

double
trn_read_number (TrnReader *reader, const TrnValue *object, const char *key, TrnNeed need,
                 const TrnRange *range)
{
  TrnValue value = trn_read_member (reader, object, key, need);
  return value.node != NULL ? trn_read_number_at (reader, &value, range) : NAN;
}

char *
trn_read_text (TrnReader *reader, const TrnValue *object, const char *key, TrnNeed need)
{
  TrnValue value = trn_read_member (reader, object, key, need);
  if (value.node == NULL)
    return NULL;
  if (trn_value_is_text (&value))
    return g_strdup (json_node_get_string (value.node));
  trn_read_fault (reader, &value, "plan/not-text");
  return NULL;
}

gboolean
trn_read_boolean (TrnReader *reader, const TrnValue *object, const char *key, gboolean otherwise)
{
  TrnValue value = trn_value_member (object, key);
  if (value.node == NULL)
    return otherwise;
  if (JSON_NODE_HOLDS_VALUE (value.node) && json_node_get_value_type (value.node) == G_TYPE_BOOLEAN)
    return json_node_get_boolean (value.node);
  trn_read_fault (reader, &value, "plan/not-boolean");
  return otherwise;
}

/* What is written for a word that is known by another; @words is what is known. */
static const char *
find_meant (const char *text, const char *const *words)
{
  static const char *const meant[][2] = {
    { "metre", "m" },        { "metres", "m" },       { "meter", "m" },
    { "meters", "m" },       { "millimetre", "mm" },  { "millimetres", "mm" },
    { "millimeter", "mm" },  { "millimeters", "mm" }, { "centimetre", "cm" },
    { "centimetres", "cm" }, { "centimeter", "cm" },  { "centimeters", "cm" },
    { "inch", "in" },        { "inches", "in" },      { "foot", "ft" },
    { "feet", "ft" },        { "rotate", "turn" },    { "swing", "slew" },
    { "hold", "wait" },      { "pause", "wait" },
  };
  for (guint i = 0; i < G_N_ELEMENTS (meant); i++)
    if (g_ascii_strcasecmp (text, meant[i][0]) == 0 && g_strv_contains (words, meant[i][1]))
      return meant[i][1];
  return trn_nearest (text, words, g_strv_length ((char **)words));
}

int
trn_read_word (TrnReader *reader, const TrnValue *object, const char *key, TrnNeed need,
               const char *const *words)
{
  g_autofree char *text = trn_read_text (reader, object, key, need);
  if (text == NULL)
    return -1;
  for (int i = 0; words[i] != NULL; i++)
    if (g_str_equal (words[i], text))
      return i;
  TrnValue value = trn_value_member (object, key);
  TrnDiag *diag = trn_read_fault_text (reader, &value, "plan/unknown-word", "word", text);
  g_autofree char *known = g_strjoinv (", ", (char **)words);
  trn_diag_set_text (diag, "key", key);
  trn_diag_set_text (diag, "nearest", find_meant (text, words));
  trn_diag_set_text (diag, "known", known);
  return -1;
}

/* How the numbers of an array are written, by its key. */
static const char *
form_of (const char *key, guint n)
{
  static const struct
  {
    const char *key;
    guint n;
    const char *form;
  } forms[] = {
    { "by", 2, "[dx, dy]" },
    { "by", 3, "[dx, dy, dz]" },
    { "carry", 3, "[dx, dy, dz]" },
    { "turn", 3, "[heading, pitch, roll]" },
    { "circle", 3, "[x, y, diameter]" },
    { "rect", 4, "[x, y, size x, size y]" },
    { "cog_box", 3, "[±x, ±y, ±z]" },
    { "angle", 2, "[least, greatest]" },
    { "track", 2, "[lowest, highest]" },
    { "hook", 2, "[lowest, highest]" },
    { "foot", 2, "[out, up]" },
    { "section", 2, "[width, depth]" },
  };
  for (guint i = 0; i < G_N_ELEMENTS (forms); i++)
    if (g_strcmp0 (key, forms[i].key) == 0 && n == forms[i].n)
      return forms[i].form;
  return n == 2 ? "[x, y]" : "[x, y, z]";
}

gboolean
trn_read_numbers (TrnReader *reader, const TrnValue *value, guint n, const TrnRange *range,
                  double *numbers)
{
  for (guint i = 0; i < n; i++)
    numbers[i] = NAN;
  if (value->node == NULL)
    return FALSE;
  if (trn_value_length (value) != n)
    {
      TrnDiag *diag = trn_read_fault_text (
          reader, value, range->unit == TRN_UNIT_DEG ? "plan/not-angles" : "plan/not-numbers",
          "form", form_of (value->key, n));
      trn_diag_set_number (diag, "count", n, TRN_UNIT_COUNT);
      return FALSE;
    }
  gboolean good = TRUE;
  for (guint i = 0; i < n; i++)
    {
      TrnValue element = trn_value_element (value, i);
      numbers[i] = trn_read_number_at (reader, &element, range);
      good = good && !isnan (numbers[i]);
    }
  return good;
}

TrnVec3
trn_read_vec3 (TrnReader *reader, const TrnValue *object, const char *key, TrnNeed need,
               const TrnRange *range)
{
  double xyz[3];
  TrnValue value = trn_read_member (reader, object, key, need);
  trn_read_numbers (reader, &value, 3, range, xyz);
  return trn_vec3_make (xyz[0], xyz[1], xyz[2]);
}

TrnPlacement
trn_read_placement (TrnReader *reader, const TrnValue *value)
{
  static const char *const keys[] = { "position", "turn", NULL };
  TrnPlacement placement = { { 0, 0, 0 }, 0, 0, 0 };
  if (!trn_read_object (reader, value, keys))
    return placement;
  placement.position = trn_read_vec3 (reader, value, "position", TRN_REQUIRED, &trn_range_length);
  double turn[3];
  TrnValue turn_value = trn_value_member (value, "turn");
  if (trn_read_numbers (reader, &turn_value, 3, &trn_range_angle, turn))
    {
      placement.heading_rad = trn_radians (turn[0]);
      placement.pitch_rad = trn_radians (turn[1]);
      placement.roll_rad = trn_radians (turn[2]);
    }
  return placement;
}

gboolean
trn_read_at (TrnReader *reader, const TrnValue *value, TrnPlacement *at)
{
  TrnValue place = trn_read_member (reader, value, "at", TRN_REQUIRED);
  if (place.node == NULL || trn_value_is_null (&place))
    return FALSE;
  *at = trn_read_placement (reader, &place);
  return TRUE;
}

char *
trn_read_name (TrnReader *reader, const TrnValue *value, const char *id)
{
  char *name = trn_read_text (reader, value, "name", TRN_OPTIONAL);
  return name != NULL ? name : g_strdup (id);
}

TrnInterval
trn_read_range (TrnReader *reader, const TrnValue *object, const char *key, const TrnRange *range)
{
  double ends[2];
  TrnValue value = trn_value_member (object, key);
  if (trn_read_numbers (reader, &value, 2, range, ends) && !(ends[0] < ends[1]))
    {
      TrnDiag *diag = trn_read_fault (reader, &value, "plan/range-order");
      trn_diag_set_number (diag, "first", ends[0], range->unit);
      trn_diag_set_number (diag, "second", ends[1], range->unit);
    }
  return (TrnInterval){ ends[0], ends[1] };
}

static gboolean
is_id (const char *text)
{
  return g_ascii_isalnum (text[0])
         && strspn (text, "abcdefghijklmnopqrstuvwxyz0123456789-") == strlen (text);
}

char *
trn_read_id (TrnReader *reader, const TrnValue *object, const char *key, GHashTable *seen)
{
  char *id = trn_read_text (reader, object, key, TRN_REQUIRED);
  if (id == NULL)
    {
      reader->ids_lost = reader->ids_lost || seen == reader->bodies;
      return NULL;
    }
  TrnValue value = trn_value_member (object, key);
  if (!is_id (id))
    trn_read_fault_text (reader, &value, "plan/bad-id", "id", id);
  else if (g_str_equal (id, "load"))
    trn_read_fault (reader, &value, "plan/reserved-id");
  const char *first = g_hash_table_lookup (seen, id);
  if (first != NULL)
    {
      TrnDiag *diag = trn_read_fault_text (reader, &value, "plan/duplicate-id", "id", id);
      trn_diag_set_text (diag, "first", first);
      return id;
    }
  g_hash_table_insert (seen, g_strdup (id), trn_value_pointer_dup (&value));
  return id;
}
