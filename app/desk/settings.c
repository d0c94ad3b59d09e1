/* settings.c: the choices in memory, read from and written to GSettings where that can be. */
#include "settings.h"

#include <string.h>

struct _DeskSettings
{
  GObject parent;
  GSettings *kept; /* NULL without the schema */
  gulong kept_handler;
  DeskChoices now;
  guint n_forced;
  gboolean are_animations_off; /* in the toolkit, by this */
};

G_DEFINE_FINAL_TYPE (DeskSettings, desk_settings, G_TYPE_OBJECT)

static guint signal_changed;

/* The toolkit styles every widget anew whenever it is told, the same as well: only of a change. */
static void
apply_animations (DeskSettings *settings)
{
  GtkSettings *toolkit = gtk_settings_get_default ();
  if (toolkit == NULL || settings->are_animations_off == !settings->now.animations)
    return;
  settings->are_animations_off = !settings->now.animations;
  /* The desktop may have turned them off for all programs: that holds. */
  if (settings->are_animations_off)
    g_object_set (toolkit, "gtk-enable-animations", FALSE, NULL);
  else
    gtk_settings_reset_property (toolkit, "gtk-enable-animations");
}

static void
apply (DeskSettings *settings)
{
  static const AdwColorScheme schemes[] = { [DESK_STYLE_SYSTEM] = ADW_COLOR_SCHEME_DEFAULT,
                                            [DESK_STYLE_LIGHT] = ADW_COLOR_SCHEME_FORCE_LIGHT,
                                            [DESK_STYLE_DARK] = ADW_COLOR_SCHEME_FORCE_DARK };
  trn_words_set_units (settings->now.units);
  adw_style_manager_set_color_scheme (adw_style_manager_get_default (),
                                      settings->n_forced > 0 ? ADW_COLOR_SCHEME_FORCE_DARK
                                                             : schemes[settings->now.style]);
  apply_animations (settings);
}

static void
tell (DeskSettings *settings)
{
  apply (settings);
  g_signal_emit (settings, signal_changed, 0);
}

/* Changed by another copy of the program, or by hand. */
static void
on_kept_changed (GSettings *kept, const char *key, DeskSettings *settings)
{
  settings->now = desk_choices_read (kept);
  tell (settings);
}

static void
keep (DeskSettings *settings)
{
  GSettings *kept = settings->kept;
  if (kept != NULL)
    {
      g_signal_handler_block (kept, settings->kept_handler);
      desk_choices_write (&settings->now, kept);
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
  return settings->now.units;
}

void
desk_settings_set_units (DeskSettings *settings, TrnWordsUnits units)
{
  set (settings, &settings->now.units, &units, sizeof units);
}

double
desk_settings_get_tight (DeskSettings *settings)
{
  return settings->now.tight_m;
}

void
desk_settings_set_tight (DeskSettings *settings, double tight_m)
{
  if (tight_m >= 0 && tight_m <= DESK_MOST_TIGHT_M)
    set (settings, &settings->now.tight_m, &tight_m, sizeof tight_m);
}

DeskStyle
desk_settings_get_style (DeskSettings *settings)
{
  return settings->now.style;
}

void
desk_settings_set_style (DeskSettings *settings, DeskStyle style)
{
  set (settings, &settings->now.style, &style, sizeof style);
}

gboolean
desk_settings_get_animations (DeskSettings *settings)
{
  return settings->now.animations;
}

void
desk_settings_set_animations (DeskSettings *settings, gboolean animations)
{
  set (settings, &settings->now.animations, &animations, sizeof animations);
}

guint
desk_settings_get_strip_lines (DeskSettings *settings)
{
  return settings->now.strip_lines;
}

void
desk_settings_set_strip_lines (DeskSettings *settings, guint lines)
{
  set (settings, &settings->now.strip_lines, &lines, sizeof lines);
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

static void
desk_settings_init (DeskSettings *settings)
{
  settings->now = desk_choices_default ();
  settings->kept = desk_choices_open (g_settings_schema_source_get_default (), NULL);
  if (settings->kept != NULL)
    {
      settings->now = desk_choices_read (settings->kept);
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
