/* strip-lines.c: the choice of further lines of the strip. */
#include "strip-lines.h"

#include "settings.h"

static void
on_change (GSimpleAction *action, GVariant *state, gpointer data)
{
  guint bit = 1u << GPOINTER_TO_UINT (data);
  guint lines = desk_settings_get_strip_lines (desk_settings_get ());
  gboolean wanted = g_variant_get_boolean (state);
  desk_settings_set_strip_lines (desk_settings_get (), wanted ? lines | bit : lines & ~bit);
}

void
desk_strip_lines_add_actions (GActionMap *map)
{
  for (guint i = 0; i < TRN_N_GAUGES; i++)
    {
      g_autoptr (GSimpleAction) action = g_simple_action_new_stateful (
          desk_gauge_action ((TrnGauge)i), NULL, g_variant_new_boolean (FALSE));
      g_signal_connect (action, "change-state", G_CALLBACK (on_change), GUINT_TO_POINTER (i));
      g_action_map_add_action (map, G_ACTION (action));
    }
}

void
desk_strip_lines_follow (GActionMap *map, DeskSession *session)
{
  guint lines = desk_settings_get_strip_lines (desk_settings_get ());
  for (guint i = 0; i < TRN_N_GAUGES; i++)
    g_simple_action_set_state (
        G_SIMPLE_ACTION (g_action_map_lookup_action (map, desk_gauge_action ((TrnGauge)i))),
        g_variant_new_boolean ((lines & 1u << i) != 0));
  desk_session_set_gauges (session, lines);
}
