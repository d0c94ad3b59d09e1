#include "choices.h"

#include "gauge-words.h"

#include <string.h>

#define SCHEMA "org.trunnion.Desk"
#define DEFAULT_TIGHT_M 0.1 /* as in the schema */

DeskChoices
desk_choices_default (void)
{
  return (DeskChoices){ .tight_m = DEFAULT_TIGHT_M, .animations = TRUE };
}

/* Whether the schema has the key, of that type; @range NULL: whatever its bounds. */
static gboolean
has_key (GSettingsSchema *schema, const char *name, const char *type, const char *range)
{
  if (!g_settings_schema_has_key (schema, name))
    return FALSE;
  g_autoptr (GSettingsSchemaKey) key = g_settings_schema_get_key (schema, name);
  g_autoptr (GVariant) bounds = g_settings_schema_key_get_range (key);
  const char *kind;
  g_variant_get_child (bounds, 0, "&s", &kind);
  return (range == NULL || strcmp (kind, range) == 0)
         && g_variant_type_equal (g_settings_schema_key_get_value_type (key),
                                  G_VARIANT_TYPE (type));
}

static gboolean
fits (GSettingsSchema *schema)
{
  static const struct
  {
    const char *name, *type, *range;
  } keys[] = {
    { "lengths", "s", "enum" },    { "masses", "s", "enum" }, { "headings", "s", "enum" },
    { "tight-margin", "d", NULL }, { "style", "s", "enum" },  { "strip-lines", "as", "flags" },
    { "animations", "b", NULL },
  };
  for (guint i = 0; i < G_N_ELEMENTS (keys); i++)
    if (!has_key (schema, keys[i].name, keys[i].type, keys[i].range))
      return FALSE;
  return g_settings_schema_get_path (schema) != NULL;
}

GSettings *
desk_choices_open (GSettingsSchemaSource *source, GSettingsBackend *backend)
{
  g_autoptr (GSettingsSchema) schema
      = source != NULL ? g_settings_schema_source_lookup (source, SCHEMA, TRUE) : NULL;
  return schema != NULL && fits (schema) ? g_settings_new_full (schema, backend, NULL) : NULL;
}

/* One of the values from 0 to @last; 0, the first choice of each, where it is none of them. */
static guint
enum_get (GSettings *kept, const char *key, guint last)
{
  const gint value = g_settings_get_enum (kept, key);
  return value >= 0 && (guint)value <= last ? (guint)value : 0;
}

DeskChoices
desk_choices_read (GSettings *kept)
{
  DeskChoices choices = desk_choices_default ();
  choices.units.lengths = (TrnLengthUnits)enum_get (kept, "lengths", TRN_LENGTHS_FEET);
  choices.units.masses = (TrnMassUnits)enum_get (kept, "masses", TRN_MASSES_US_TONS);
  choices.units.headings = (TrnHeadingUnits)enum_get (kept, "headings", TRN_HEADINGS_MATHEMATICAL);
  choices.style = (DeskStyle)enum_get (kept, "style", DESK_STYLE_DARK);
  /* The schema's bounds let pass what is no number. */
  const double tight_m = g_settings_get_double (kept, "tight-margin");
  if (tight_m >= 0 && tight_m <= DESK_MOST_TIGHT_M)
    choices.tight_m = tight_m;
  choices.animations = g_settings_get_boolean (kept, "animations");
  choices.strip_lines = g_settings_get_flags (kept, "strip-lines") & ((1u << TRN_N_GAUGES) - 1);
  return choices;
}

void
desk_choices_write (const DeskChoices *choices, GSettings *kept)
{
  g_settings_set_enum (kept, "lengths", (int)choices->units.lengths);
  g_settings_set_enum (kept, "masses", (int)choices->units.masses);
  g_settings_set_enum (kept, "headings", (int)choices->units.headings);
  g_settings_set_double (kept, "tight-margin", choices->tight_m);
  g_settings_set_enum (kept, "style", (int)choices->style);
  g_settings_set_boolean (kept, "animations", choices->animations);
  g_settings_set_flags (kept, "strip-lines", choices->strip_lines);
}
