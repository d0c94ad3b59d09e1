/* settings.c: the choices in memory, read from and written to GSettings where that can be. */
#include "settings.h"

#include <string.h>

#define SCHEMA "org.trunnion.Desk"
#define DEFAULT_TIGHT_M 0.1 /* as in the schema */

struct _DeskSettings
{
  GObject parent;
  GSettings *kept; /* NULL without the schema */
  gulong kept_handler;
  TrnWordsUnits units;
  double tight_m;
  DeskStyle style;
  gboolean animations;
  guint strip_lines;
  guint n_forced;
};

G_DEFINE_FINAL_TYPE (DeskSettings, desk_settings, G_TYPE_OBJECT)

static guint signal_changed;

static void
apply (DeskSettings *settings)
{
  static const AdwColorScheme schemes[] = { [DESK_STYLE_SYSTEM] = ADW_COLOR_SCHEME_DEFAULT,
                                            [DESK_STYLE_LIGHT] = ADW_COLOR_SCHEME_FORCE_LIGHT,
                                            [DESK_STYLE_DARK] = ADW_COLOR_SCHEME_FORCE_DARK };
  trn_words_set_units (settings->units);
  adw_style_manager_set_color_scheme (adw_style_manager_get_default (),
                                      settings->n_forced > 0 ? ADW_COLOR_SCHEME_FORCE_DARK
                                                             : schemes[settings->style]);
  /* The desktop may have turned them off for all programs: that holds. */
  GtkSettings *toolkit = gtk_settings_get_default ();
  if (toolkit != NULL && settings->animations)
    gtk_settings_reset_property (toolkit, "gtk-enable-animations");
  else if (toolkit != NULL)
    g_object_set (toolkit, "gtk-enable-animations", FALSE, NULL);
}

static void
tell (DeskSettings *settings)
{
  apply (settings);
  g_signal_emit (settings, signal_changed, 0);
}

static void
read_kept (DeskSettings *settings)
{
  GSettings *kept = settings->kept;
  settings->units
      = (TrnWordsUnits){ .lengths = (TrnLengthUnits)g_settings_get_enum (kept, "lengths"),
                         .masses = (TrnMassUnits)g_settings_get_enum (kept, "masses"),
                         .headings = (TrnHeadingUnits)g_settings_get_enum (kept, "headings") };
  /* The schema's bounds let pass what is no number. */
  double tight_m = g_settings_get_double (kept, "tight-margin");
  settings->tight_m = tight_m >= 0 && tight_m <= DESK_MOST_TIGHT_M ? tight_m : DEFAULT_TIGHT_M;
  settings->style = (DeskStyle)g_settings_get_enum (kept, "style");
  settings->animations = g_settings_get_boolean (kept, "animations");
  settings->strip_lines = g_settings_get_flags (kept, "strip-lines");
}

/* Changed by another copy of the program, or by hand. */
static void
on_kept_changed (GSettings *kept, const char *key, DeskSettings *settings)
{
  read_kept (settings);
  tell (settings);
}

static void
keep (DeskSettings *settings)
{
  GSettings *kept = settings->kept;
  if (kept != NULL)
    {
      g_signal_handler_block (kept, settings->kept_handler);
      g_settings_set_enum (kept, "lengths", (int)settings->units.lengths);
      g_settings_set_enum (kept, "masses", (int)settings->units.masses);
      g_settings_set_enum (kept, "headings", (int)settings->units.headings);
      g_settings_set_double (kept, "tight-margin", settings->tight_m);
      g_settings_set_enum (kept, "style", (int)settings->style);
      g_settings_set_boolean (kept, "animations", settings->animations);
      g_settings_set_flags (kept, "strip-lines", settings->strip_lines);
      g_signal_handler_unblock (kept, settings->kept_handler);
    }
  tell (settings);
}

/* Of one of the choices: keeps and tells it if it is another. */
static void
set (DeskSettings *settings, gpointer choice, gconstpointer value, gsize size)
{
  if (memcmp (choice, value, size) == 0)
    return;
  memcpy (choice, value, size);
  keep (settings);
}

gboolean
desk_settings_are_kept (DeskSettings *settings)
{
  return settings->kept != NULL;
}

TrnWordsUnits
desk_settings_get_units (DeskSettings *settings)
{
  return settings->units;
}

void
desk_settings_set_units (DeskSettings *settings, TrnWordsUnits units)
{
  set (settings, &settings->units, &units, sizeof units);
}

double
desk_settings_get_tight (DeskSettings *settings)
{
  return settings->tight_m;
}

void
desk_settings_set_tight (DeskSettings *settings, double tight_m)
{
  if (tight_m >= 0 && tight_m <= DESK_MOST_TIGHT_M)
    set (settings, &settings->tight_m, &tight_m, sizeof tight_m);
}

DeskStyle
desk_settings_get_style (DeskSettings *settings)
{
  return settings->style;
}

void
desk_settings_set_style (DeskSettings *settings, DeskStyle style)
{
  set (settings, &settings->style, &style, sizeof style);
}

gboolean
desk_settings_get_animations (DeskSettings *settings)
{
  return settings->animations;
}

void
desk_settings_set_animations (DeskSettings *settings, gboolean animations)
{
  set (settings, &settings->animations, &animations, sizeof animations);
}

guint
desk_settings_get_strip_lines (DeskSettings *settings)
{
  return settings->strip_lines;
}

void
desk_settings_set_strip_lines (DeskSettings *settings, guint lines)
{
  set (settings, &settings->strip_lines, &lines, sizeof lines);
}

void
desk_settings_force_dark (DeskSettings *settings, gboolean dark)
{
  g_assert (dark || settings->n_forced > 0);
  settings->n_forced += dark ? 1 : -1u;
  apply (settings);
}

static void
desk_settings_finalize (GObject *object)
{
  g_clear_object (&DESK_SETTINGS (object)->kept);
  G_OBJECT_CLASS (desk_settings_parent_class)->finalize (object);
}

static void
desk_settings_class_init (DeskSettingsClass *class)
{
  G_OBJECT_CLASS (class)->finalize = desk_settings_finalize;
  signal_changed = g_signal_new ("changed", G_TYPE_FROM_CLASS (class), G_SIGNAL_RUN_LAST, 0, NULL,
                                 NULL, NULL, G_TYPE_NONE, 0);
}

/* A schema that is not there would end the program, so it is looked for first. */
static void
desk_settings_init (DeskSettings *settings)
{
  settings->tight_m = DEFAULT_TIGHT_M;
  settings->animations = TRUE;
  GSettingsSchemaSource *source = g_settings_schema_source_get_default ();
  g_autoptr (GSettingsSchema) schema
      = source != NULL ? g_settings_schema_source_lookup (source, SCHEMA, TRUE) : NULL;
  if (schema != NULL)
    {
      settings->kept = g_settings_new_full (schema, NULL, NULL);
      read_kept (settings);
      settings->kept_handler
          = g_signal_connect (settings->kept, "changed", G_CALLBACK (on_kept_changed), settings);
    }
  apply (settings);
}

DeskSettings *
desk_settings_get (void)
{
  static DeskSettings *settings;
  if (settings == NULL)
    settings = g_object_new (DESK_TYPE_SETTINGS, NULL);
  return settings;
}
