/* Gear: what is common to all kinds, gantries, and what carries the tail. A gear may set a
 * clearance from another that comes later, so those are read when all ids are known. */
#include "plan-read.h"

#include <math.h>

typedef void (*ReadGear) (TrnReader *reader, const TrnValue *value, TrnGear *gear);

static double
read_size (TrnReader *reader, const TrnValue *value, const char *key)
{
  return trn_read_number (reader, value, key, TRN_REQUIRED, &trn_range_gear_size);
}

static double
read_height (TrnReader *reader, const TrnValue *value, const char *key)
{
  return trn_read_number (reader, value, key, TRN_REQUIRED, &trn_range_gear_distance);
}

/* ---- mats ---- */

/* Who says what the mat bears is asked for, and is for readers of the plan. */
static void
read_mat_moments (TrnReader *reader, const TrnValue *mat, TrnGearFoot *foot)
{
  const gboolean is_given = trn_value_member (mat, "moment").node != NULL
                            || trn_value_member (mat, "moment_across").node != NULL
                            || trn_value_member (mat, "source").node != NULL;
  const TrnNeed need = is_given ? TRN_REQUIRED : TRN_OPTIONAL;
  foot->mat_moment_nm = trn_read_number (reader, mat, "moment", need, &trn_range_moment);
  foot->mat_moment_across_nm
      = trn_read_number (reader, mat, "moment_across", TRN_OPTIONAL, &trn_range_moment);
  g_free (trn_read_text (reader, mat, "source", need));
}

void
trn_read_mat (TrnReader *reader, const TrnValue *object, TrnGearFoot *foot)
{
  static const char *const keys[] = { "size", "mass", "moment", "moment_across", "source", NULL };
  TrnValue mat = trn_value_member (object, "mat");
  if (!trn_read_object (reader, &mat, keys))
    return;
  foot->has_mat = TRUE;
  foot->mat_size = trn_read_vec3 (reader, &mat, "size", TRN_REQUIRED, &trn_range_gear_size);
  foot->mat_mass_kg = trn_read_number (reader, &mat, "mass", TRN_OPTIONAL, &trn_range_mass);
  read_mat_moments (reader, &mat, foot);
  const TrnLevelSize least = trn_gear_foot_size (foot);
  const double least_m[2] = { least.x_m, least.y_m },
               size_m[2] = { foot->mat_size.x, foot->mat_size.y };
  TrnValue size = trn_value_member (&mat, "size");
  for (guint i = 0; i < 2; i++)
    if (size_m[i] < least_m[i])
      {
        TrnValue one = trn_value_element (&size, i);
        TrnDiag *diag = trn_read_fault (reader, &one, "plan/mat-under-pad");
        trn_diag_set_number (diag, "value", size_m[i], TRN_UNIT_M);
        trn_diag_set_number (diag, "limit", least_m[i], TRN_UNIT_M);
      }
}

/* ---- gantry ---- */

static void
read_leg (TrnReader *reader, const TrnValue *value, TrnGearFoot *leg)
{
  static const char *const keys[] = { "at", "size", "height", "pad", "mat", NULL };
  if (!trn_read_object (reader, value, keys))
    return;
  double at[2], size[2], pad[2];
  TrnValue at_value = trn_read_member (reader, value, "at", TRN_REQUIRED);
  TrnValue size_value = trn_read_member (reader, value, "size", TRN_REQUIRED);
  TrnValue pad_value = trn_value_member (value, "pad");
  trn_read_numbers (reader, &at_value, 2, &trn_range_gear_length, at);
  trn_read_numbers (reader, &size_value, 2, &trn_range_gear_size, size);
  trn_read_numbers (reader, &pad_value, 2, &trn_range_gear_size, pad);
  *leg = (TrnGearFoot){ .x_m = at[0],
                        .y_m = at[1],
                        .size_x_m = size[0],
                        .size_y_m = size[1],
                        .height_m = read_size (reader, value, "height"),
                        .pad_x_m = pad[0],
                        .pad_y_m = pad[1] };
  trn_read_mat (reader, value, leg);
}

static void
read_legs (TrnReader *reader, const TrnValue *value, TrnGear *gear)
{
  TrnValue legs = trn_read_member (reader, value, "legs", TRN_REQUIRED);
  gear->n_legs = trn_read_parts (reader, &legs, 1);
  gear->legs = g_new0 (TrnGearFoot, gear->n_legs);
  for (guint i = 0; i < gear->n_legs; i++)
    {
      TrnValue leg = trn_value_element (&legs, i);
      read_leg (reader, &leg, &gear->legs[i]);
    }
}

static void
read_runway (TrnReader *reader, const TrnValue *value, TrnGearBeam *runway)
{
  static const char *const keys[] = { "from", "to", "width", "depth", NULL };
  if (!trn_read_object (reader, value, keys))
    return;
  runway->from = trn_read_vec3 (reader, value, "from", TRN_REQUIRED, &trn_range_gear_length);
  runway->to = trn_read_vec3 (reader, value, "to", TRN_REQUIRED, &trn_range_gear_length);
  runway->width_m = read_size (reader, value, "width");
  runway->depth_m = read_size (reader, value, "depth");
  TrnValue to = trn_value_member (value, "to");
  if (trn_vec3_distance (runway->from, runway->to) < TRN_SOLID_LEAST_M)
    trn_read_fault (reader, &to, "shape/no-length");
}

static void
read_runways (TrnReader *reader, const TrnValue *value, TrnGear *gear)
{
  TrnValue runways = trn_value_member (value, "runways");
  gear->n_runways = trn_read_parts (reader, &runways, 0);
  gear->runways = g_new0 (TrnGearBeam, gear->n_runways);
  for (guint i = 0; i < gear->n_runways; i++)
    {
      TrnValue runway = trn_value_element (&runways, i);
      read_runway (reader, &runway, &gear->runways[i]);
    }
}

static void
read_header (TrnReader *reader, const TrnValue *value, TrnGear *gear)
{
  static const char *const keys[] = { "length", "width", "depth", "underside", "spacing", NULL };
  TrnValue header = trn_value_member (value, "header");
  if (!trn_read_object (reader, &header, keys))
    return;
  gear->has_header = TRUE;
  gear->header_length_m = read_size (reader, &header, "length");
  gear->header_width_m = read_size (reader, &header, "width");
  gear->header_depth_m = read_size (reader, &header, "depth");
  gear->header_underside_m = read_height (reader, &header, "underside");
  const double spacing_m
      = trn_read_number (reader, &header, "spacing", TRN_OPTIONAL, &trn_range_gear_size);
  gear->header_spacing_m = trn_or (spacing_m, 0);
}

static void
read_trolley (TrnReader *reader, const TrnValue *value, TrnGear *gear)
{
  static const char *const keys[] = { "size", "underside", NULL };
  TrnValue trolley = trn_value_member (value, "trolley");
  if (!trn_read_object (reader, &trolley, keys))
    return;
  gear->has_trolley = TRUE;
  gear->trolley_size = trn_read_vec3 (reader, &trolley, "size", TRN_REQUIRED, &trn_range_gear_size);
  gear->trolley_underside_m = read_height (reader, &trolley, "underside");
}

static void
read_window (TrnReader *reader, const TrnValue *value, TrnGear *gear)
{
  static const char *const keys[] = { "x", "y", "hook", NULL };
  TrnValue window = trn_value_member (value, "window");
  if (!trn_read_object (reader, &window, keys))
    return;
  gear->window_x = trn_read_range (reader, &window, "x", &trn_range_gear_length);
  gear->window_y = trn_read_range (reader, &window, "y", &trn_range_gear_length);
  gear->window_hook = trn_read_range (reader, &window, "hook", &trn_range_gear_length);
}

/* One row without a radius: it holds wherever the gear can go. */
static void
read_capacity (TrnReader *reader, const TrnValue *value, TrnGear *gear)
{
  static const char *const keys[] = { "mass", "source", NULL };
  TrnValue capacity = trn_value_member (value, "capacity");
  if (!trn_read_object (reader, &capacity, keys))
    return;
  gear->n_capacity = 1;
  gear->capacity = g_new0 (TrnCapacityRow, 1);
  gear->capacity->radius_m = NAN;
  gear->capacity->mass_kg
      = trn_read_number (reader, &capacity, "mass", TRN_REQUIRED, &trn_range_mass);
  gear->capacity_source = trn_read_text (reader, &capacity, "source", TRN_OPTIONAL);
}

static void
read_gantry (TrnReader *reader, const TrnValue *value, TrnGear *gear)
{
  read_legs (reader, value, gear);
  read_runways (reader, value, gear);
  read_header (reader, value, gear);
  read_trolley (reader, value, gear);
  read_window (reader, value, gear);
  gear->rope_diameter_m
      = trn_read_number (reader, value, "rope_diameter", TRN_OPTIONAL, &trn_range_gear_size);
  read_capacity (reader, value, gear);
}

/* ---- what carries the tail ---- */

static void
read_tail_trolley (TrnReader *reader, const TrnValue *value, TrnGear *gear)
{
  gear->size = trn_read_vec3 (reader, value, "size", TRN_REQUIRED, &trn_range_gear_size);
  gear->track_m = trn_read_range (reader, value, "track", &trn_range_gear_length);
  read_capacity (reader, value, gear);
}

static void
read_turning_frame (TrnReader *reader, const TrnValue *value, TrnGear *gear)
{
  gear->pivot_up_m = read_size (reader, value, "pivot");
  gear->size = trn_read_vec3 (reader, value, "size", TRN_REQUIRED, &trn_range_gear_size);
  gear->cheek_spacing_m = read_size (reader, value, "spacing");
  read_capacity (reader, value, gear);
  if (!(gear->cheek_spacing_m <= gear->size.x))
    return;
  TrnValue spacing = trn_value_member (value, "spacing");
  TrnDiag *diag = trn_read_fault (reader, &spacing, "plan/not-above");
  trn_diag_set_number (diag, "value", gear->cheek_spacing_m, TRN_UNIT_M);
  trn_diag_set_number (diag, "limit", gear->size.x, TRN_UNIT_M);
}

/* ---- all kinds ---- */

#define COMMON "id", "name", "kind", "at", "keep_clear", "keep_clear_from", "mass", "cog", "ground"

static const char *const gantry_keys[]
    = { COMMON,   "legs",          "runways",  "header",       "trolley",
        "window", "rope_diameter", "capacity", "out_of_plumb", NULL };
static const char *const tail_trolley_keys[] = { COMMON, "size", "track", "capacity", NULL };
static const char *const turning_frame_keys[]
    = { COMMON, "pivot", "size", "spacing", "capacity", NULL };

/* In the order of TrnGearKind. */
static const struct
{
  const char *word;
  ReadGear read;
  const char *const *keys;
} kinds[] = {
  [TRN_GEAR_GANTRY] = { "gantry", read_gantry, gantry_keys },
  [TRN_GEAR_CRANE] = { "crane", trn_read_crane, trn_crane_keys },
  [TRN_GEAR_TAIL_TROLLEY] = { "tail-trolley", read_tail_trolley, tail_trolley_keys },
  [TRN_GEAR_TURNING_FRAME] = { "turning-frame", read_turning_frame, turning_frame_keys },
};

const char *
trn_gear_kind_name (TrnGearKind kind)
{
  g_assert (kind < G_N_ELEMENTS (kinds));
  return kinds[kind].word;
}

/* Nothing said yet: what a plan may leave out is no number. */
static void
set_nothing (TrnGear *gear)
{
  const TrnInterval none = { NAN, NAN };
  gear->keep_clear_m = gear->rope_diameter_m = NAN;
  gear->window_x = gear->window_y = gear->window_hook = none;
  gear->boom_angle_rad = gear->track_m = none;
  gear->hook_to_tip_m = gear->barricade_m = gear->wind_limit_m_s = NAN;
  gear->mass_kg = gear->slewing_mass_kg = gear->slewing_out_m = NAN;
  gear->boom_mass_kg = gear->jib_mass_kg = gear->allowed_pressure_pa = NAN;
  gear->most_out_of_plumb_rad = NAN;
}

void
trn_read_check_upright (TrnReader *reader, const TrnValue *object, const TrnPlacement *at)
{
  TrnValue value = trn_value_member (object, "at");
  TrnValue turn = trn_value_member (&value, "turn");
  if (at->pitch_rad != 0 || at->roll_rad != 0)
    trn_read_fault (reader, &turn, "plan/gear-tilted");
}

static void
read_one (TrnReader *reader, const TrnValue *value, TrnGear *gear)
{
  const char *words[G_N_ELEMENTS (kinds) + 1] = { NULL };
  for (guint i = 0; i < G_N_ELEMENTS (kinds); i++)
    words[i] = kinds[i].word;
  set_nothing (gear);
  gear->pointer = trn_value_pointer_dup (value);
  if (!trn_read_object (reader, value, NULL))
    {
      reader->ids_lost = TRUE;
      return;
    }
  gear->id = trn_read_id (reader, value, "id", reader->bodies);
  gear->name = trn_read_name (reader, value, gear->id);
  gear->placed = trn_read_at (reader, value, &gear->at);
  trn_read_check_upright (reader, value, &gear->at);
  gear->keep_clear_m
      = trn_read_number (reader, value, "keep_clear", TRN_OPTIONAL, &trn_range_distance);
  const int kind = trn_read_word (reader, value, "kind", TRN_REQUIRED, words);
  if (kind < 0)
    return;
  gear->kind = (TrnGearKind)kind;
  trn_read_object (reader, value, kinds[kind].keys);
  kinds[kind].read (reader, value, gear);
  trn_read_gear_loads (reader, value, gear);
}

/* Every key is an id here, as in a lift's keep_clear. */
static void
read_keep_clear_from (TrnReader *reader, const TrnValue *gear_value, TrnGear *gear)
{
  TrnValue value = trn_value_member (gear_value, "keep_clear_from");
  if (!trn_read_object (reader, &value, NULL))
    return;
  JsonObject *object = json_node_get_object (value.node);
  if (!trn_read_few (reader, &value, json_object_get_size (object)))
    return;
  gear->keep_clear_from = g_new0 (TrnKeepClear, json_object_get_size (object));
  JsonObjectIter iter;
  const char *id;
  json_object_iter_init_ordered (&iter, object);
  while (json_object_iter_next_ordered (&iter, &id, NULL))
    {
      TrnKeepClear *keep = &gear->keep_clear_from[gear->n_keep_clear_from++];
      TrnValue member = trn_value_member (&value, id);
      if (g_strcmp0 (gear->id, id) == 0)
        trn_read_fault_text (reader, &member, "plan/gear-clear-of-itself", "id", id);
      else if (!g_str_equal (id, "load"))
        trn_read_is_known (reader, &member, id);
      keep->id = g_strdup (id);
      keep->m = trn_read_number (reader, &value, id, TRN_REQUIRED, &trn_range_distance);
    }
}

void
trn_read_gear (TrnReader *reader, const TrnValue *document)
{
  TrnValue list = trn_value_member (document, "gear");
  if (list.node == NULL)
    return;
  if (!trn_read_array (reader, &list))
    {
      reader->ids_lost = TRUE;
      return;
    }
  TrnPlan *plan = reader->plan;
  plan->n_gear = trn_value_length (&list);
  plan->gear = g_new0 (TrnGear, plan->n_gear);
  for (guint i = 0; i < plan->n_gear; i++)
    {
      TrnValue value = trn_value_element (&list, i);
      read_one (reader, &value, &plan->gear[i]);
    }
  for (guint i = 0; i < plan->n_gear; i++)
    {
      TrnValue value = trn_value_element (&list, i);
      read_keep_clear_from (reader, &value, &plan->gear[i]);
    }
}
