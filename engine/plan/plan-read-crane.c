/* Mobile cranes: carrier, boom, jib, counterweight, rated capacity and supports. */
#include "plan-read.h"

#include <math.h>

const char *const trn_crane_keys[] = { "id",
                                       "name",
                                       "kind",
                                       "at",
                                       "keep_clear",
                                       "keep_clear_from",
                                       "mass",
                                       "cog",
                                       "ground",
                                       "carrier",
                                       "boom",
                                       "jib",
                                       "counterweight",
                                       "slewing",
                                       "rope_diameter",
                                       "out_of_plumb",
                                       "hook_to_tip",
                                       "capacity",
                                       "wind_limit",
                                       "supports",
                                       "barricade",
                                       "park",
                                       NULL };

static double
read_size (TrnReader *reader, const TrnValue *value, const char *key)
{
  return trn_read_number (reader, value, key, TRN_REQUIRED, &trn_range_gear_size);
}

static void
read_pair (TrnReader *reader, const TrnValue *value, const char *key, const TrnRange *range,
           double *first, double *second)
{
  double pair[2];
  TrnValue member = trn_read_member (reader, value, key, TRN_REQUIRED);
  trn_read_numbers (reader, &member, 2, range, pair);
  *first = pair[0];
  *second = pair[1];
}

static void
read_carrier (TrnReader *reader, const TrnValue *value, TrnGear *gear)
{
  static const char *const keys[] = { "size", "centre", NULL };
  TrnValue carrier = trn_value_member (value, "carrier");
  if (!trn_read_object (reader, &carrier, keys))
    return;
  gear->has_carrier = TRUE;
  gear->carrier_size = trn_read_vec3 (reader, &carrier, "size", TRN_REQUIRED, &trn_range_gear_size);
  if (trn_value_member (&carrier, "centre").node != NULL)
    read_pair (reader, &carrier, "centre", &trn_range_gear_length, &gear->carrier_x_m,
               &gear->carrier_y_m);
}

static void
read_boom (TrnReader *reader, const TrnValue *value, TrnGear *gear)
{
  static const char *const keys[] = { "foot", "length", "section", "angle", "mass", NULL };
  TrnValue boom = trn_read_member (reader, value, "boom", TRN_REQUIRED);
  if (!trn_read_object (reader, &boom, keys))
    return;
  read_pair (reader, &boom, "foot", &trn_range_gear_length, &gear->boom_foot_out_m,
             &gear->boom_foot_up_m);
  gear->boom_length_m = read_size (reader, &boom, "length");
  read_pair (reader, &boom, "section", &trn_range_gear_size, &gear->boom_width_m,
             &gear->boom_depth_m);
  const TrnInterval deg = trn_read_range (reader, &boom, "angle", &trn_range_boom_angle);
  gear->boom_angle_rad = (TrnInterval){ trn_radians (deg.lo), trn_radians (deg.hi) };
  gear->boom_mass_kg = trn_read_number (reader, &boom, "mass", TRN_OPTIONAL, &trn_range_mass);
}

static void
read_jib (TrnReader *reader, const TrnValue *value, TrnGear *gear)
{
  static const char *const keys[] = { "length", "offset", "section", "mass", NULL };
  TrnValue jib = trn_value_member (value, "jib");
  if (!trn_read_object (reader, &jib, keys))
    return;
  gear->has_jib = TRUE;
  gear->jib_length_m = read_size (reader, &jib, "length");
  gear->jib_offset_rad
      = trn_radians (trn_read_number (reader, &jib, "offset", TRN_REQUIRED, &trn_range_jib_offset));
  read_pair (reader, &jib, "section", &trn_range_gear_size, &gear->jib_width_m, &gear->jib_depth_m);
  gear->jib_mass_kg = trn_read_number (reader, &jib, "mass", TRN_OPTIONAL, &trn_range_mass);
}

static void
read_counterweight (TrnReader *reader, const TrnValue *value, TrnGear *gear)
{
  static const char *const keys[] = { "tail_radius", "bottom", "top", "width", NULL };
  TrnValue weight = trn_value_member (value, "counterweight");
  if (!trn_read_object (reader, &weight, keys))
    return;
  gear->has_counterweight = TRUE;
  gear->tail_radius_m = read_size (reader, &weight, "tail_radius");
  gear->counterweight_width_m = read_size (reader, &weight, "width");
  gear->counterweight_bottom_m
      = trn_read_number (reader, &weight, "bottom", TRN_REQUIRED, &trn_range_gear_length);
  gear->counterweight_top_m
      = trn_read_number (reader, &weight, "top", TRN_REQUIRED, &trn_range_gear_length);
  if (gear->counterweight_top_m <= gear->counterweight_bottom_m)
    {
      TrnValue top = trn_value_member (&weight, "top");
      TrnDiag *diag = trn_read_fault (reader, &top, "plan/not-above");
      trn_diag_set_number (diag, "value", gear->counterweight_top_m, TRN_UNIT_M);
      trn_diag_set_number (diag, "limit", gear->counterweight_bottom_m, TRN_UNIT_M);
    }
  if (gear->counterweight_width_m > 2 * gear->tail_radius_m)
    {
      TrnValue width = trn_value_member (&weight, "width");
      TrnDiag *diag = trn_read_fault (reader, &width, "plan/too-large");
      trn_diag_set_number (diag, "value", gear->counterweight_width_m, TRN_UNIT_M);
      trn_diag_set_number (diag, "limit", 2 * gear->tail_radius_m, TRN_UNIT_M);
    }
}

/* A row [radius, mass], whose radius is greater than that of the row before. */
static void
read_row (TrnReader *reader, const TrnValue *value, const TrnCapacityRow *before,
          TrnCapacityRow *row)
{
  *row = (TrnCapacityRow){ NAN, NAN };
  if (trn_value_length (value) != 2)
    {
      trn_read_fault (reader, value, "plan/capacity-row");
      return;
    }
  TrnValue radius = trn_value_element (value, 0), mass = trn_value_element (value, 1);
  row->radius_m = trn_read_number_at (reader, &radius, &trn_range_gear_size);
  row->mass_kg = trn_read_number_at (reader, &mass, &trn_range_mass);
  if (before == NULL || !(row->radius_m <= before->radius_m))
    return;
  TrnDiag *diag = trn_read_fault (reader, &radius, "plan/capacity-order");
  trn_diag_set_number (diag, "radius", row->radius_m, TRN_UNIT_M);
  trn_diag_set_number (diag, "before", before->radius_m, TRN_UNIT_M);
}

static void
read_capacity (TrnReader *reader, const TrnValue *value, TrnGear *gear)
{
  static const char *const keys[] = { "configuration", "source", "table", NULL };
  TrnValue capacity = trn_value_member (value, "capacity");
  if (!trn_read_object (reader, &capacity, keys))
    return;
  gear->configuration = trn_read_text (reader, &capacity, "configuration", TRN_REQUIRED);
  gear->capacity_source = trn_read_text (reader, &capacity, "source", TRN_OPTIONAL);
  TrnValue table = trn_read_member (reader, &capacity, "table", TRN_REQUIRED);
  if (!trn_read_array (reader, &table))
    return;
  gear->n_capacity = trn_value_length (&table);
  gear->capacity = g_new0 (TrnCapacityRow, gear->n_capacity);
  if (gear->n_capacity == 0)
    trn_read_fault_text (reader, &table, "plan/empty", "key", "table");
  for (guint i = 0; i < gear->n_capacity; i++)
    {
      TrnValue row = trn_value_element (&table, i);
      read_row (reader, &row, i > 0 ? &gear->capacity[i - 1] : NULL, &gear->capacity[i]);
    }
}

static void
read_supports (TrnReader *reader, const TrnValue *value, TrnGear *gear)
{
  static const char *const keys[] = { "kind", "at", "pad", "mat", NULL };
  static const char *const kinds[] = { "outriggers", "tracks", NULL };
  TrnValue supports = trn_value_member (value, "supports");
  if (!trn_read_object (reader, &supports, keys))
    return;
  const int kind = trn_read_word (reader, &supports, "kind", TRN_REQUIRED, kinds);
  gear->support_kind = kind == 1 ? TRN_SUPPORT_TRACKS : TRN_SUPPORT_OUTRIGGERS;
  double pad[2];
  TrnValue pad_value = trn_value_member (&supports, "pad");
  trn_read_numbers (reader, &pad_value, 2, &trn_range_gear_size, pad);
  TrnGearFoot like
      = { .size_x_m = NAN, .size_y_m = NAN, .height_m = NAN, .pad_x_m = pad[0], .pad_y_m = pad[1] };
  trn_read_mat (reader, &supports, &like);
  TrnValue at = trn_read_member (reader, &supports, "at", TRN_REQUIRED);
  gear->n_supports = trn_read_parts (reader, &at, 1);
  gear->supports = g_new0 (TrnGearFoot, gear->n_supports);
  for (guint i = 0; i < gear->n_supports; i++)
    {
      double xy[2];
      TrnValue place = trn_value_element (&at, i);
      trn_read_numbers (reader, &place, 2, &trn_range_gear_length, xy);
      gear->supports[i] = like;
      gear->supports[i].x_m = xy[0];
      gear->supports[i].y_m = xy[1];
    }
}

void
trn_read_crane (TrnReader *reader, const TrnValue *value, TrnGear *gear)
{
  read_carrier (reader, value, gear);
  read_boom (reader, value, gear);
  read_jib (reader, value, gear);
  read_counterweight (reader, value, gear);
  trn_read_slewing (reader, value, gear);
  gear->rope_diameter_m
      = trn_read_number (reader, value, "rope_diameter", TRN_OPTIONAL, &trn_range_gear_size);
  gear->hook_to_tip_m
      = trn_read_number (reader, value, "hook_to_tip", TRN_OPTIONAL, &trn_range_gear_distance);
  read_capacity (reader, value, gear);
  gear->wind_limit_m_s
      = trn_read_number (reader, value, "wind_limit", TRN_OPTIONAL, &trn_range_wind);
  read_supports (reader, value, gear);
  gear->barricade_m
      = trn_read_number (reader, value, "barricade", TRN_OPTIONAL, &trn_range_gear_size);
  gear->has_park = trn_value_member (value, "park").node != NULL;
  gear->park = trn_read_vec3 (reader, value, "park", TRN_OPTIONAL, &trn_range_gear_length);
}
