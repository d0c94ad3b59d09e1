/* Solids of a plan. Types and the range of each single number are checked here; what numbers must
 * be to each other is left to trn_solid_check, once each can be read. */
#include "plan-read.h"

#include <string.h>

/* A conductor whose diameter is left out, as the schema says. */
#define CONDUCTOR_DIAMETER_M 0.03

typedef void (*ReadSolid) (TrnReader *reader, const TrnValue *value, TrnSolid *solid);

static double
read_size (TrnReader *reader, const TrnValue *value, const char *key)
{
  return trn_read_number (reader, value, key, TRN_REQUIRED, &trn_range_positive);
}

/* An array that may not be empty; its length. */
static guint
read_list (TrnReader *reader, const TrnValue *list)
{
  if (!trn_read_array (reader, list))
    return 0;
  if (trn_value_length (list) == 0)
    trn_read_fault_text (reader, list, "plan/empty", "key", list->key);
  return trn_value_length (list);
}

static void
read_box (TrnReader *reader, const TrnValue *value, TrnSolid *solid)
{
  solid->size = trn_read_vec3 (reader, value, "size", TRN_REQUIRED, &trn_range_positive);
}

static void
read_cylinder (TrnReader *reader, const TrnValue *value, TrnSolid *solid)
{
  solid->diameter_m = read_size (reader, value, "diameter");
  solid->height_m = read_size (reader, value, "height");
}

static void
read_tube (TrnReader *reader, const TrnValue *value, TrnSolid *solid)
{
  solid->outer_diameter_m = read_size (reader, value, "outer_diameter");
  solid->inner_diameter_m = read_size (reader, value, "inner_diameter");
  solid->height_m = read_size (reader, value, "height");
}

static void
read_shaft (TrnReader *reader, const TrnValue *value, TrnSolid *solid)
{
  solid->depth_m = read_size (reader, value, "depth");
  solid->wall_m = read_size (reader, value, "wall");
  solid->floor_m = trn_read_number (reader, value, "floor", TRN_REQUIRED, &trn_range_distance);
}

static void
read_round_shaft (TrnReader *reader, const TrnValue *value, TrnSolid *solid)
{
  solid->inner_diameter_m = read_size (reader, value, "inner_diameter");
  read_shaft (reader, value, solid);
}

static void
read_level_size (TrnReader *reader, const TrnValue *value, TrnSolid *solid)
{
  double xy[2];
  TrnValue size = trn_read_member (reader, value, "size", TRN_REQUIRED);
  trn_read_numbers (reader, &size, 2, &trn_range_positive, xy);
  solid->size = trn_vec3_make (xy[0], xy[1], 0);
}

static void
read_rect_shaft (TrnReader *reader, const TrnValue *value, TrnSolid *solid)
{
  read_level_size (reader, value, solid);
  read_shaft (reader, value, solid);
}

static void
read_beam (TrnReader *reader, const TrnValue *value, TrnSolid *solid)
{
  solid->from = trn_read_vec3 (reader, value, "from", TRN_REQUIRED, &trn_range_length);
  solid->to = trn_read_vec3 (reader, value, "to", TRN_REQUIRED, &trn_range_length);
  solid->width_m = read_size (reader, value, "width");
  solid->depth_m = read_size (reader, value, "depth");
}

/* Centre and sizes, whose ranges differ. */
static void
read_opening_numbers (TrnReader *reader, const TrnValue *value, guint n_sizes, double *numbers)
{
  if (!trn_read_numbers (reader, value, 2 + n_sizes, &trn_range_length, numbers))
    return;
  for (guint i = 2; i < 2 + n_sizes; i++)
    if (numbers[i] <= 0)
      {
        TrnValue size = trn_value_element (value, i);
        TrnDiag *diag = trn_read_fault (reader, &size, "plan/not-above");
        trn_diag_set_number (diag, "value", numbers[i], TRN_UNIT_M);
        trn_diag_set_number (diag, "limit", 0, TRN_UNIT_M);
      }
}

static void
read_opening (TrnReader *reader, const TrnValue *value, TrnOpening *opening)
{
  static const char *const keys[] = { "circle", "rect", NULL };
  if (!trn_read_object (reader, value, keys))
    return;
  TrnValue circle = trn_value_member (value, "circle");
  TrnValue rect = trn_value_member (value, "rect");
  if ((circle.node != NULL) == (rect.node != NULL))
    {
      trn_read_fault (reader, value, "plan/circle-or-rect");
      return;
    }
  double numbers[4] = { 0, 0, 0, 0 };
  opening->kind = circle.node != NULL ? TRN_OPENING_CIRCLE : TRN_OPENING_RECT;
  if (circle.node != NULL)
    read_opening_numbers (reader, &circle, 1, numbers);
  else
    read_opening_numbers (reader, &rect, 2, numbers);
  opening->x_m = numbers[0];
  opening->y_m = numbers[1];
  opening->diameter_m = opening->width_m = numbers[2];
  opening->height_m = numbers[3];
}

static void
read_ground (TrnReader *reader, const TrnValue *value, TrnSolid *solid)
{
  read_level_size (reader, value, solid);
  TrnValue openings = trn_value_member (value, "openings");
  if (!trn_read_array (reader, &openings))
    return;
  solid->n_openings = trn_value_length (&openings);
  solid->openings = g_new0 (TrnOpening, solid->n_openings);
  for (guint i = 0; i < solid->n_openings; i++)
    {
      TrnValue opening = trn_value_element (&openings, i);
      read_opening (reader, &opening, &solid->openings[i]);
    }
}

static void
read_overhead_line (TrnReader *reader, const TrnValue *value, TrnSolid *solid)
{
  static const char *const keys[] = { "from", "to", "sag", NULL };
  const double diameter_m
      = trn_read_number (reader, value, "diameter", TRN_OPTIONAL, &trn_range_positive);
  solid->diameter_m = trn_or (diameter_m, CONDUCTOR_DIAMETER_M);
  solid->voltage_kv
      = trn_read_number (reader, value, "voltage_kv", TRN_OPTIONAL, &trn_range_voltage);
  TrnValue conductors = trn_read_member (reader, value, "conductors", TRN_REQUIRED);
  solid->n_conductors = read_list (reader, &conductors);
  solid->conductors = g_new0 (TrnConductor, solid->n_conductors);
  for (guint i = 0; i < solid->n_conductors; i++)
    {
      TrnConductor *conductor = &solid->conductors[i];
      TrnValue item = trn_value_element (&conductors, i);
      if (!trn_read_object (reader, &item, keys))
        continue;
      conductor->from = trn_read_vec3 (reader, &item, "from", TRN_REQUIRED, &trn_range_length);
      conductor->to = trn_read_vec3 (reader, &item, "to", TRN_REQUIRED, &trn_range_length);
      conductor->sag_m = trn_read_number (reader, &item, "sag", TRN_REQUIRED, &trn_range_distance);
    }
}

static void
read_part (TrnReader *reader, const TrnValue *value, GHashTable *seen, TrnSolidGroupPart *part)
{
  static const char *const keys[] = { "id", "solid", "at", NULL };
  if (!trn_read_object (reader, value, keys))
    return;
  part->id = trn_read_id (reader, value, "id", seen);
  TrnValue solid = trn_read_member (reader, value, "solid", TRN_REQUIRED);
  part->solid = trn_read_solid (reader, &solid);
  TrnValue at = trn_read_member (reader, value, "at", TRN_REQUIRED);
  part->at = trn_read_placement (reader, &at);
}

static void
read_group (TrnReader *reader, const TrnValue *value, TrnSolid *solid)
{
  g_autoptr (GHashTable) seen = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  TrnValue parts = trn_read_member (reader, value, "parts", TRN_REQUIRED);
  solid->n_parts = read_list (reader, &parts);
  solid->parts = g_new0 (TrnSolidGroupPart, solid->n_parts);
  for (guint i = 0; i < solid->n_parts; i++)
    {
      TrnValue part = trn_value_element (&parts, i);
      read_part (reader, &part, seen, &solid->parts[i]);
    }
}

/* In the order of TrnSolidKind. */
static const struct
{
  ReadSolid read;
  const char *keys[7];
} kinds[] = {
  [TRN_SOLID_BOX] = { read_box, { "kind", "size", NULL } },
  [TRN_SOLID_CYLINDER] = { read_cylinder, { "kind", "diameter", "height", NULL } },
  [TRN_SOLID_TUBE] = { read_tube, { "kind", "outer_diameter", "inner_diameter", "height", NULL } },
  [TRN_SOLID_ROUND_SHAFT]
  = { read_round_shaft, { "kind", "inner_diameter", "depth", "wall", "floor", NULL } },
  [TRN_SOLID_RECT_SHAFT] = { read_rect_shaft, { "kind", "size", "depth", "wall", "floor", NULL } },
  [TRN_SOLID_BEAM] = { read_beam, { "kind", "from", "to", "width", "depth", NULL } },
  [TRN_SOLID_GROUND] = { read_ground, { "kind", "size", "openings", NULL } },
  [TRN_SOLID_OVERHEAD_LINE]
  = { read_overhead_line, { "kind", "conductors", "diameter", "voltage_kv", NULL } },
  [TRN_SOLID_GROUP] = { read_group, { "kind", "parts", NULL } },
};

typedef struct
{
  TrnReader *reader;
  const TrnValue *value;
} Check;

/* What cannot be read is not a number to trn_solid_check, and was reported already: at the same
 * place, or above. */
static void
add_shape_fault (const char *code, const char *path, gpointer data)
{
  Check *check = data;
  g_autofree char *solid = trn_value_pointer_dup (check->value);
  g_autofree char *pointer = g_strconcat (solid, path, NULL);
  g_autofree char *above = g_strdup (pointer);
  for (char *slash; strlen (above) > strlen (solid); *slash = '\0')
    {
      if (g_hash_table_contains (check->reader->json->faulty, above))
        return;
      slash = strrchr (above, '/');
    }
  trn_read_fault_at (check->reader, pointer, code);
}

/* Whether every part has a solid, down to the last. */
static gboolean
is_whole (const TrnSolid *solid)
{
  for (guint i = 0; i < solid->n_parts; i++)
    if (solid->parts[i].solid == NULL || !is_whole (solid->parts[i].solid))
      return FALSE;
  return TRUE;
}

TrnSolid *
trn_read_solid (TrnReader *reader, const TrnValue *value)
{
  const char *words[G_N_ELEMENTS (kinds) + 1] = { NULL };
  for (guint i = 0; i < G_N_ELEMENTS (kinds); i++)
    words[i] = trn_solid_kind_name ((TrnSolidKind)i);
  if (!trn_read_object (reader, value, NULL))
    return NULL;
  const int kind = trn_read_word (reader, value, "kind", TRN_REQUIRED, words);
  if (kind < 0)
    return NULL;
  TrnSolid *solid = trn_solid_new ((TrnSolidKind)kind);
  trn_read_object (reader, value, kinds[kind].keys);
  reader->groups += kind == TRN_SOLID_GROUP;
  kinds[kind].read (reader, value, solid);
  reader->groups -= kind == TRN_SOLID_GROUP;
  /* Single solids at once, a group with all that is in it when the outermost is read. */
  Check check = { reader, value };
  if (kind != TRN_SOLID_GROUP || (reader->groups == 0 && is_whole (solid)))
    trn_solid_check (solid, add_shape_fault, &check);
  return solid;
}

static void
collect_parts (const TrnSolid *solid, const char *prefix, GPtrArray *ids)
{
  const gboolean shaft
      = solid->kind == TRN_SOLID_ROUND_SHAFT || solid->kind == TRN_SOLID_RECT_SHAFT;
  if (shaft)
    g_ptr_array_add (ids, g_strconcat (prefix, "wall", NULL));
  if (shaft && solid->floor_m != 0)
    g_ptr_array_add (ids, g_strconcat (prefix, "floor", NULL));
  for (guint i = 0; i < solid->n_parts; i++)
    {
      const TrnSolidGroupPart *part = &solid->parts[i];
      if (part->id == NULL)
        continue;
      g_ptr_array_add (ids, g_strconcat (prefix, part->id, NULL));
      g_autofree char *deeper = g_strconcat (prefix, part->id, "/", NULL);
      if (part->solid != NULL)
        collect_parts (part->solid, deeper, ids);
    }
}

gboolean
trn_solid_has_part (const TrnSolid *solid, const char *id, char **nearest)
{
  g_autoptr (GPtrArray) ids = g_ptr_array_new_with_free_func (g_free);
  collect_parts (solid, "", ids);
  *nearest = g_strdup (trn_nearest (id, (const char *const *)ids->pdata, ids->len));
  return g_strcmp0 (*nearest, id) == 0;
}
