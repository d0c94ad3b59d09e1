/* What a plan says about forces: dynamic factor, critical lifts, wind, and the masses of gear and
 * what the ground under it bears. */
#include "plan-read.h"

#include <math.h>

#define AIR_KG_M3 1.25 /* EN 1991-1-4 */
/* 0027/ND, Guidelines for marine lifting and lowering operations, Rev 11.2, 5.4: hooks on one base.
 */
#define RULE_TILT_DEG 3.0
#define RULE_HEIGHT_M 1.0
#define RULE_SOURCE "0027/ND Rev 11.2, 5.4"

/* One of the two keys says how: which one. −1 with a fault for none and for both. */
static int
read_choice (TrnReader *reader, const TrnValue *value, const char *first, const char *second)
{
  const gboolean has_first = trn_value_member (value, first).node != NULL;
  const gboolean has_second = trn_value_member (value, second).node != NULL;
  if (has_first != has_second)
    return has_first ? 0 : 1;
  TrnDiag *diag = trn_read_fault (reader, value, "plan/one-of-two");
  trn_diag_set_text (diag, "first", first);
  trn_diag_set_text (diag, "second", second);
  return -1;
}

static void
read_dynamic (TrnReader *reader, const TrnValue *loads, TrnDynamicRule *dynamic)
{
  static const char *const rules[] = { "0027-nd-11.2-onshore", NULL };
  static const char *const all[] = { "factor", "source", "rule", NULL };
  static const char *const rule_keys[] = { "rule", NULL };
  TrnValue value = trn_value_member (loads, "dynamic");
  dynamic->factor = NAN;
  if (!trn_read_object (reader, &value, NULL))
    return;
  const int choice = read_choice (reader, &value, "factor", "rule");
  trn_read_object (reader, &value, choice == 1 ? rule_keys : all);
  if (choice == 0)
    {
      dynamic->kind = TRN_DYNAMIC_FACTOR;
      dynamic->factor
          = trn_read_number (reader, &value, "factor", TRN_REQUIRED, &trn_range_mass_factor);
      dynamic->source = trn_read_text (reader, &value, "source", TRN_REQUIRED);
    }
  else if (choice == 1 && trn_read_word (reader, &value, "rule", TRN_REQUIRED, rules) == 0)
    dynamic->kind = TRN_DYNAMIC_0027_ND_ONSHORE;
}

static void
read_critical (TrnReader *reader, const TrnValue *loads, TrnCriticalChoice *critical)
{
  static const char *const rules[] = { "29-cfr-1926-751", "em-385-1-1", NULL };
  static const char *const all[] = { "share", "source", "rule", NULL };
  static const char *const rule_keys[] = { "rule", NULL };
  TrnValue value = trn_value_member (loads, "critical");
  critical->share = NAN;
  if (!trn_read_object (reader, &value, NULL))
    return;
  const int choice = read_choice (reader, &value, "share", "rule");
  trn_read_object (reader, &value, choice == 1 ? rule_keys : all);
  if (choice == 0)
    {
      critical->kind = TRN_CRITICAL_SHARE;
      critical->share = trn_read_number (reader, &value, "share", TRN_REQUIRED, &trn_range_share);
      critical->source = trn_read_text (reader, &value, "source", TRN_REQUIRED);
      return;
    }
  const int rule = choice == 1 ? trn_read_word (reader, &value, "rule", TRN_REQUIRED, rules) : -1;
  if (rule < 0)
    return;
  critical->kind = TRN_CRITICAL_RULE;
  critical->rule = g_strdup (rules[rule]);
}

static void
read_out_of_level (TrnReader *reader, const TrnValue *loads, TrnOutOfLevel *level)
{
  static const char *const rules[] = { "0027-nd-11.2", NULL };
  static const char *const all[] = { "height", "source", "rule", NULL };
  static const char *const rule_keys[] = { "rule", NULL };
  TrnValue value = trn_value_member (loads, "out_of_level");
  level->height_m = NAN;
  if (!trn_read_object (reader, &value, NULL))
    return;
  const int choice = read_choice (reader, &value, "height", "rule");
  trn_read_object (reader, &value, choice == 1 ? rule_keys : all);
  if (choice == 0)
    {
      level->height_m
          = trn_read_number (reader, &value, "height", TRN_REQUIRED, &trn_range_positive);
      level->source = trn_read_text (reader, &value, "source", TRN_REQUIRED);
      level->given = TRUE;
    }
  else if (choice == 1 && trn_read_word (reader, &value, "rule", TRN_REQUIRED, rules) == 0)
    *level = (TrnOutOfLevel){ TRUE, RULE_HEIGHT_M, trn_radians (RULE_TILT_DEG),
                              g_strdup (RULE_SOURCE) };
}

static void
read_ramp (TrnReader *reader, const TrnValue *loads, TrnRamp *ramp)
{
  static const char *const keys[] = { "seconds", "rest", "source", NULL };
  TrnValue value = trn_value_member (loads, "ramp");
  ramp->seconds = ramp->rest_s = NAN;
  if (!trn_read_object (reader, &value, keys))
    return;
  ramp->given = TRUE;
  ramp->seconds = trn_read_number (reader, &value, "seconds", TRN_REQUIRED, &trn_range_seconds);
  ramp->rest_s = trn_read_number (reader, &value, "rest", TRN_OPTIONAL, &trn_range_seconds);
  ramp->source = trn_read_text (reader, &value, "source", TRN_REQUIRED);
}

void
trn_read_loads (TrnReader *reader, const TrnValue *document)
{
  static const char *const keys[] = { "dynamic", "critical", "out_of_level", "ramp", NULL };
  TrnLoads *loads = &reader->plan->loads;
  TrnValue value = trn_value_member (document, "loads");
  loads->dynamic.factor = loads->critical.share = loads->out_of_level.height_m = NAN;
  loads->ramp.seconds = loads->ramp.rest_s = NAN;
  if (!trn_read_object (reader, &value, keys))
    return;
  read_dynamic (reader, &value, &loads->dynamic);
  read_critical (reader, &value, &loads->critical);
  read_out_of_level (reader, &value, &loads->out_of_level);
  read_ramp (reader, &value, &loads->ramp);
}

void
trn_read_wind (TrnReader *reader, const TrnValue *document)
{
  static const char *const keys[] = { "speed", "drag", "air_density", "source", NULL };
  TrnWind *wind = &reader->plan->wind;
  TrnValue value = trn_value_member (document, "wind");
  wind->speed_m_s = wind->drag = wind->air_kg_m3 = NAN;
  if (!trn_read_object (reader, &value, keys))
    return;
  wind->given = TRUE;
  wind->speed_m_s = trn_read_number (reader, &value, "speed", TRN_REQUIRED, &trn_range_wind);
  wind->drag = trn_read_number (reader, &value, "drag", TRN_REQUIRED, &trn_range_drag);
  const double air
      = trn_read_number (reader, &value, "air_density", TRN_OPTIONAL, &trn_range_density);
  wind->air_kg_m3 = trn_or (air, AIR_KG_M3);
  wind->source = trn_read_text (reader, &value, "source", TRN_OPTIONAL);
}

void
trn_loads_clear (TrnPlan *plan)
{
  g_free (plan->loads.dynamic.source);
  g_free (plan->loads.critical.rule);
  g_free (plan->loads.critical.source);
  g_free (plan->loads.out_of_level.source);
  g_free (plan->loads.ramp.source);
  g_free (plan->wind.source);
}

/* ---- gear ---- */

static void
read_out_of_plumb (TrnReader *reader, const TrnValue *value, TrnGear *gear)
{
  static const char *const keys[] = { "most_deg", "source", NULL };
  TrnValue plumb = trn_value_member (value, "out_of_plumb");
  if (!trn_read_object (reader, &plumb, keys))
    return;
  gear->most_out_of_plumb_rad = trn_radians (
      trn_read_number (reader, &plumb, "most_deg", TRN_REQUIRED, &trn_range_out_of_plumb));
  gear->out_of_plumb_source = trn_read_text (reader, &plumb, "source", TRN_REQUIRED);
}

void
trn_read_gear_loads (TrnReader *reader, const TrnValue *value, TrnGear *gear)
{
  static const char *const ground_keys[]
      = { "allowed_pressure", "source", "stands_on", "level", NULL };
  gear->mass_kg = trn_read_number (reader, value, "mass", TRN_OPTIONAL, &trn_range_mass);
  double cog[2];
  TrnValue cog_value = trn_value_member (value, "cog");
  trn_read_numbers (reader, &cog_value, 2, &trn_range_gear_length, cog);
  gear->cog_x_m = trn_or (cog[0], 0);
  gear->cog_y_m = trn_or (cog[1], 0);
  read_out_of_plumb (reader, value, gear);
  TrnValue ground = trn_value_member (value, "ground");
  gear->allowed_pressure_pa = NAN;
  if (!trn_read_object (reader, &ground, ground_keys))
    return;
  const TrnNeed has_level
      = trn_value_member (&ground, "level").node != NULL ? TRN_REQUIRED : TRN_OPTIONAL;
  gear->stands_on = trn_read_text (reader, &ground, "stands_on", has_level);
  const double level_m
      = trn_read_number (reader, &ground, "level", TRN_OPTIONAL, &trn_range_length);
  gear->ground_level_m = trn_or (level_m, 0);
  if (trn_value_member (&ground, "stands_on").node != NULL
      && trn_value_member (&ground, "allowed_pressure").node == NULL
      && trn_value_member (&ground, "source").node == NULL)
    return;
  gear->allowed_pressure_pa
      = trn_read_number (reader, &ground, "allowed_pressure", TRN_REQUIRED, &trn_range_pressure);
  gear->pressure_source = trn_read_text (reader, &ground, "source", TRN_REQUIRED);
}

void
trn_read_slewing (TrnReader *reader, const TrnValue *crane, TrnGear *gear)
{
  static const char *const keys[] = { "mass", "out", NULL };
  TrnValue value = trn_value_member (crane, "slewing");
  gear->slewing_mass_kg = gear->slewing_out_m = NAN;
  if (!trn_read_object (reader, &value, keys))
    return;
  gear->slewing_mass_kg = trn_read_number (reader, &value, "mass", TRN_REQUIRED, &trn_range_mass);
  gear->slewing_out_m
      = trn_read_number (reader, &value, "out", TRN_REQUIRED, &trn_range_gear_length);
}
