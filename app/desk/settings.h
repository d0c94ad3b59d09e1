/* settings.h: what a person chooses once: units, what counts as tight, looks.
 *
 * Kept by GSettings where a schema that fits the program is installed, else only as long as the
 * program runs. Whatever is changed holds at once: units and looks are applied here, and "changed"
 * tells the windows. Main thread only. */
#pragma once

#include <adwaita.h>

#include "choices.h"

#define DESK_TYPE_SETTINGS (desk_settings_get_type ())
G_DECLARE_FINAL_TYPE (DeskSettings, desk_settings, DESK, SETTINGS, GObject)

/* The one of the program; made at the first call, after GTK was initialised. Borrowed. */
DeskSettings *desk_settings_get (void);
/* Whether they outlast the program. */
gboolean desk_settings_are_kept (DeskSettings *settings);

TrnWordsUnits desk_settings_get_units (DeskSettings *settings);
void desk_settings_set_units (DeskSettings *settings, TrnWordsUnits units);
/* Margin up to which a clearance is shown as tight, m: 0 to DESK_MOST_TIGHT_M. */
double desk_settings_get_tight (DeskSettings *settings);
void desk_settings_set_tight (DeskSettings *settings, double tight_m);
DeskStyle desk_settings_get_style (DeskSettings *settings);
void desk_settings_set_style (DeskSettings *settings, DeskStyle style);
/* The gauges that the strip shows besides the clearances: bits 1 << TrnGauge; as in the schema. */
guint desk_settings_get_strip_lines (DeskSettings *settings);
void desk_settings_set_strip_lines (DeskSettings *settings, guint lines);
gboolean desk_settings_get_animations (DeskSettings *settings);
void desk_settings_set_animations (DeskSettings *settings, gboolean animations);

/* Dark whatever was chosen, as often as it was asked for less than it was given back. */
void desk_settings_force_dark (DeskSettings *settings, gboolean dark);
