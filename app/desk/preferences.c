/* preferences.c: each row sets one of settings.h at once; there is nothing to confirm. */
#include "preferences.h"

#include "citizen-words.h"
#include "settings.h"

#define INCH_M 0.0254

static GtkWidget *
group_new (AdwPreferencesPage *page, TrnCitizenText title)
{
  GtkWidget *group = adw_preferences_group_new ();
  adw_preferences_group_set_title (ADW_PREFERENCES_GROUP (group), trn_words_citizen (title));
  adw_preferences_page_add (page, ADW_PREFERENCES_GROUP (group));
  return group;
}

/* A row of choices, the first of which is @first and the last @last. */
static GtkWidget *
choice_new (GtkWidget *group, TrnCitizenText title, TrnCitizenText first, TrnCitizenText last,
            guint selected, GCallback changed)
{
  g_autoptr (GtkStringList) names = gtk_string_list_new (NULL);
  for (guint i = first; i <= last; i++)
    gtk_string_list_append (names, trn_words_citizen (i));
  GtkWidget *row = adw_combo_row_new ();
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), trn_words_citizen (title));
  adw_combo_row_set_model (ADW_COMBO_ROW (row), G_LIST_MODEL (names));
  adw_combo_row_set_selected (ADW_COMBO_ROW (row), selected);
  g_signal_connect (row, "notify::selected", changed, NULL);
  adw_preferences_group_add (ADW_PREFERENCES_GROUP (group), row);
  return row;
}

static void
on_lengths (AdwComboRow *row)
{
  TrnWordsUnits units = desk_settings_get_units (desk_settings_get ());
  units.lengths = (TrnLengthUnits)adw_combo_row_get_selected (row);
  desk_settings_set_units (desk_settings_get (), units);
}

static void
on_masses (AdwComboRow *row)
{
  TrnWordsUnits units = desk_settings_get_units (desk_settings_get ());
  units.masses = (TrnMassUnits)adw_combo_row_get_selected (row);
  desk_settings_set_units (desk_settings_get (), units);
}

static void
on_headings (AdwComboRow *row)
{
  TrnWordsUnits units = desk_settings_get_units (desk_settings_get ());
  units.headings = (TrnHeadingUnits)adw_combo_row_get_selected (row);
  desk_settings_set_units (desk_settings_get (), units);
}

static void
on_style (AdwComboRow *row)
{
  desk_settings_set_style (desk_settings_get (), (DeskStyle)adw_combo_row_get_selected (row));
}

static void
on_animations (GtkSwitch *toggle)
{
  desk_settings_set_animations (desk_settings_get (), gtk_switch_get_active (toggle));
}

/* ---- the tight margin, in the units of the screen ---- */

static gboolean
is_in_feet (void)
{
  return desk_settings_get_units (desk_settings_get ()).lengths == TRN_LENGTHS_FEET;
}

static void
on_tight (GtkSpinButton *spin)
{
  double value = gtk_spin_button_get_value (spin);
  desk_settings_set_tight (desk_settings_get (),
                           MIN (is_in_feet () ? value * INCH_M : value, DESK_MOST_TIGHT_M));
}

/* Shows the margin that is set; showing it in other units does not set it. */
static void
show_tight (GtkWidget *row)
{
  GtkSpinButton *spin = g_object_get_data (G_OBJECT (row), "spin");
  gboolean in_feet = is_in_feet ();
  double tight_m = desk_settings_get_tight (desk_settings_get ());
  adw_preferences_row_set_title (
      ADW_PREFERENCES_ROW (row),
      trn_words_citizen (in_feet ? TRN_CITIZEN_TIGHT_INCHES : TRN_CITIZEN_TIGHT_METRES));
  gulong handler = GPOINTER_TO_SIZE (g_object_get_data (G_OBJECT (row), "handler"));
  g_signal_handler_block (spin, handler);
  gtk_spin_button_set_digits (spin, in_feet ? 1 : 2);
  gtk_spin_button_set_increments (spin, in_feet ? 0.5 : 0.01, in_feet ? 2 : 0.1);
  /* All that can be kept, or another margin than the one that holds would be shown. */
  gtk_spin_button_set_range (spin, 0, in_feet ? DESK_MOST_TIGHT_M / INCH_M : DESK_MOST_TIGHT_M);
  gtk_spin_button_set_value (spin, in_feet ? tight_m / INCH_M : tight_m);
  g_signal_handler_unblock (spin, handler);
}

static void
add_tight (GtkWidget *group)
{
  GtkWidget *row = adw_action_row_new ();
  GtkWidget *spin = gtk_spin_button_new_with_range (0, 1, 0.01);
  gtk_widget_set_valign (spin, GTK_ALIGN_CENTER);
  gulong handler = g_signal_connect (spin, "value-changed", G_CALLBACK (on_tight), NULL);
  adw_action_row_set_subtitle (ADW_ACTION_ROW (row), trn_words_citizen (TRN_CITIZEN_TIGHT_HINT));
  adw_action_row_add_suffix (ADW_ACTION_ROW (row), spin);
  adw_action_row_set_activatable_widget (ADW_ACTION_ROW (row), spin);
  g_object_set_data (G_OBJECT (row), "spin", spin);
  g_object_set_data (G_OBJECT (row), "handler", GSIZE_TO_POINTER (handler));
  g_signal_connect_object (desk_settings_get (), "changed", G_CALLBACK (show_tight), row,
                           G_CONNECT_SWAPPED);
  show_tight (row);
  adw_preferences_group_add (ADW_PREFERENCES_GROUP (group), row);
}

static void
add_animations (GtkWidget *group)
{
  GtkWidget *row = adw_action_row_new (), *toggle = gtk_switch_new ();
  gtk_widget_set_valign (toggle, GTK_ALIGN_CENTER);
  gtk_switch_set_active (GTK_SWITCH (toggle), desk_settings_get_animations (desk_settings_get ()));
  g_signal_connect (toggle, "notify::active", G_CALLBACK (on_animations), NULL);
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row),
                                 trn_words_citizen (TRN_CITIZEN_ANIMATIONS));
  adw_action_row_set_subtitle (ADW_ACTION_ROW (row),
                               trn_words_citizen (TRN_CITIZEN_ANIMATIONS_HINT));
  adw_action_row_add_suffix (ADW_ACTION_ROW (row), toggle);
  adw_action_row_set_activatable_widget (ADW_ACTION_ROW (row), toggle);
  adw_preferences_group_add (ADW_PREFERENCES_GROUP (group), row);
}

/* ---- the window ---- */

static void
add_units (AdwPreferencesPage *page)
{
  TrnWordsUnits units = desk_settings_get_units (desk_settings_get ());
  GtkWidget *group = group_new (page, TRN_CITIZEN_UNITS);
  adw_preferences_group_set_description (ADW_PREFERENCES_GROUP (group),
                                         trn_words_citizen (TRN_CITIZEN_UNITS_HINT));
  choice_new (group, TRN_CITIZEN_LENGTHS, TRN_CITIZEN_METRES, TRN_CITIZEN_FEET, units.lengths,
              G_CALLBACK (on_lengths));
  choice_new (group, TRN_CITIZEN_MASSES, TRN_CITIZEN_TONNES, TRN_CITIZEN_US_TONS, units.masses,
              G_CALLBACK (on_masses));
  choice_new (group, TRN_CITIZEN_HEADINGS, TRN_CITIZEN_BEARINGS, TRN_CITIZEN_MATHEMATICAL,
              units.headings, G_CALLBACK (on_headings));
}

GtkWidget *
desk_preferences_show (GtkWindow *parent)
{
  GtkWidget *window = adw_preferences_window_new ();
  GtkWidget *page = adw_preferences_page_new ();
  gtk_window_set_title (GTK_WINDOW (window), trn_words_citizen (TRN_CITIZEN_PREFERENCES));
  adw_preferences_window_set_search_enabled (ADW_PREFERENCES_WINDOW (window), FALSE);
  gtk_window_set_transient_for (GTK_WINDOW (window), parent);
  gtk_window_set_modal (GTK_WINDOW (window), parent != NULL);
  gtk_window_set_destroy_with_parent (GTK_WINDOW (window), TRUE);
  gtk_window_set_default_size (GTK_WINDOW (window), 640, 660);
  add_units (ADW_PREFERENCES_PAGE (page));
  add_tight (group_new (ADW_PREFERENCES_PAGE (page), TRN_CITIZEN_MARGINS));
  GtkWidget *looks = group_new (ADW_PREFERENCES_PAGE (page), TRN_CITIZEN_LOOKS);
  choice_new (looks, TRN_CITIZEN_STYLE, TRN_CITIZEN_STYLE_SYSTEM, TRN_CITIZEN_STYLE_DARK,
              desk_settings_get_style (desk_settings_get ()), G_CALLBACK (on_style));
  add_animations (looks);
  adw_preferences_window_add (ADW_PREFERENCES_WINDOW (window), ADW_PREFERENCES_PAGE (page));
  gtk_window_present (GTK_WINDOW (window));
  return window;
}
