/* shortcuts.c: the list of keys.
 *
 * GTK 4.8 fills its window of shortcuts only from a description, so one is written. */
#include "shortcuts.h"

#include <string.h>

#include "actions.h"
#include "citizen-words.h"
#include "key-words.h"
#include "presenter.h"
#include "stage.h"

/* The second plus and minus of a keyboard look like the first. */
static char *
accels_dup (const DeskKeys *keys)
{
  g_autoptr (GString) text = g_string_new (NULL);
  for (guint i = 0; keys->accels[i] != NULL; i++)
    if (strstr (keys->accels[i], "KP_") == NULL)
      g_string_append_printf (text, "%s%s", text->len > 0 ? " " : "", keys->accels[i]);
  return g_string_free (g_steal_pointer (&text), FALSE);
}

/* An action without words is listed by its own name, never left out. */
static void
append_key (GString *groups[TRN_N_KEY_GROUPS], const DeskKeys *keys)
{
  TrnKeyGroup group = TRN_KEYS_PROGRAM;
  const char *words = trn_words_action (keys->action, &group);
  g_autofree char *accels = accels_dup (keys);
  g_autofree char *row = g_markup_printf_escaped (
      "<child><object class='GtkShortcutsShortcut'><property name='accelerator'>%s</property>"
      "<property name='title'>%s</property></object></child>",
      accels, words != NULL ? words : keys->action);
  g_string_append (groups[group], row);
}

/* The toolkit shuffles the groups of a section until they fill its pages: what belongs together has
 * a section of its own, and what one looks for first is the first. */
static const TrnKeySection section_of[TRN_N_KEY_GROUPS] = {
  [TRN_KEYS_VIEW] = TRN_KEY_SECTION_VIEW,         [TRN_KEYS_TIME] = TRN_KEY_SECTION_VIEW,
  [TRN_KEYS_STRIP] = TRN_KEY_SECTION_VIEW,        [TRN_KEYS_TURNING] = TRN_KEY_SECTION_IN_VIEW,
  [TRN_KEYS_SECTION] = TRN_KEY_SECTION_IN_VIEW,   [TRN_KEYS_STRUCTURES] = TRN_KEY_SECTION_IN_VIEW,
  [TRN_KEYS_MEASURING] = TRN_KEY_SECTION_IN_VIEW, [TRN_KEYS_PLAN] = TRN_KEY_SECTION_PLAN,
  [TRN_KEYS_FINDINGS] = TRN_KEY_SECTION_PLAN,     [TRN_KEYS_PRESENTING] = TRN_KEY_SECTION_PLAN,
  [TRN_KEYS_PROGRAM] = TRN_KEY_SECTION_PLAN,
};

static char *
section_start (TrnKeySection section)
{
  return g_markup_printf_escaped (
      "<child><object class='GtkShortcutsSection'><property name='section-name'>%u</property>"
      "<property name='title'>%s</property><property name='max-height'>16</property>",
      section, trn_words_key_section (section));
}

static char *
describe (void)
{
  GString *groups[TRN_N_KEY_GROUPS];
  for (guint i = 0; i < TRN_N_KEY_GROUPS; i++)
    groups[i] = g_string_new (NULL);
  guint n[4];
  const DeskKeys *tables[]
      = { desk_actions_get_keys (TRUE, &n[0]), desk_actions_get_keys (FALSE, &n[1]),
          desk_stage_get_keys (&n[2]), desk_presenter_get_keys (&n[3]) };
  for (guint t = 0; t < G_N_ELEMENTS (tables); t++)
    for (guint i = 0; i < n[t]; i++)
      append_key (groups, &tables[t][i]);
  g_autoptr (GString) text
      = g_string_new ("<interface><object class='GtkShortcutsWindow' id='window'>");
  for (guint i = 0; i < TRN_N_KEY_GROUPS; i++)
    {
      if (i == 0 || section_of[i] != section_of[i - 1])
        {
          g_autofree char *start = section_start (section_of[i]);
          g_string_append_printf (text, "%s%s", i > 0 ? "</object></child>" : "", start);
        }
      g_autofree char *head = g_markup_printf_escaped (
          "<child><object class='GtkShortcutsGroup'><property name='title'>%s</property>",
          trn_words_key_group (i));
      g_string_append_printf (text, "%s%s</object></child>", head, groups[i]->str);
      g_string_free (groups[i], TRUE);
    }
  g_string_append (text, "</object></child></object></interface>");
  return g_string_free (g_steal_pointer (&text), FALSE);
}

GtkWidget *
desk_shortcuts_show (GtkWindow *parent)
{
  g_autofree char *text = describe ();
  g_autoptr (GtkBuilder) builder = gtk_builder_new_from_string (text, -1);
  GtkWidget *window = GTK_WIDGET (gtk_builder_get_object (builder, "window"));
  g_object_set (window, "section-name", "0", NULL);
  gtk_window_set_title (GTK_WINDOW (window), trn_words_citizen (TRN_CITIZEN_SHORTCUTS));
  gtk_window_set_transient_for (GTK_WINDOW (window), parent);
  gtk_window_set_modal (GTK_WINDOW (window), TRUE);
  gtk_window_set_destroy_with_parent (GTK_WINDOW (window), TRUE);
  gtk_window_present (GTK_WINDOW (window));
  return window;
}
