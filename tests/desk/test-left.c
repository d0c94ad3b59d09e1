/* test-left.c: what earlier sessions, other programs or anyone else left in the files of a person:
 * settings and plans last opened.
 *
 * Both files are read by GLib and GTK, which drop what their formats do not have. What the desk
 * makes of the rest is tried here: choices that are out of bounds are those of a new start, and
 * what a list shows steers no terminal and hides nothing. */
#include "window-fixture.h"

#include "settings.h"
#include "start-page.h"
#include "words.h"

/* The last one holds, so that it is known that the file was read. */
#define SETTINGS                                                                                   \
  "[org/trunnion/Desk]\nlengths='furlongs'\nheadings=7\ntight-margin=nan\nstyle='\\u202edark'\n"   \
  "strip-lines=['luck', 'radius']\nanimations='perhaps'\nmasses='us-tons'\n"

#define ENTRY(uri, title)                                                                          \
  "<bookmark href=\"" uri "\" added=\"2026-01-02T03:04:05Z\" modified=\"2026-01-02T03:04:05Z\""    \
  " visited=\"2026-01-02T03:04:05Z\"><title>" title "</title><info><metadata"                      \
  " owner=\"http://freedesktop.org\"><mime:mime-type type=\"text/plain\"/><bookmark:applications>" \
  "<bookmark:application name=\"x\" exec=\"&apos;x %u&apos;\""                                     \
  " modified=\"2026-01-02T03:04:05Z\" count=\"99999999999\"/></bookmark:applications>"             \
  "</metadata></info></bookmark>"
#define HEAD                                                                                       \
  "<?xml version=\"1.0\" encoding=\"UTF-8\"?><xbel version=\"1.0\""                                \
  " xmlns:bookmark=\"http://www.freedesktop.org/standards/desktop-bookmarks\""                     \
  " xmlns:mime=\"http://www.freedesktop.org/standards/shared-mime-info\">"

/* Four plans with odd names, three that are not to be had, and a file of another kind. */
static void
write_recent (const char *home)
{
  static const char *const names[]
      = { "long.trunnion", "a\u202eb.trunnion", "c\nd.trunnion", "<b>e.trunnion", "f.txt" };
  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    g_object_unref (test_write (home, names[i], "{}"));
  g_autofree char *long_title = g_strnfill (100000, 'x');
  g_autofree char *text = g_strconcat (
      HEAD, ENTRY ("file://HOME/a%E2%80%AEb.trunnion", "a&#x202e;b"),
      ENTRY ("file://HOME/c%0Ad.trunnion", "c&#10;d"),
      ENTRY ("file://HOME/%3Cb%3Ee.trunnion", "&lt;b&gt;"), ENTRY ("file://HOME/f.txt", "f"),
      ENTRY ("file://HOME/none.trunnion", "none"), ENTRY ("file:///dev/null/x.trunnion", "null"),
      ENTRY ("http://example.invalid/g.trunnion", "g"), ENTRY ("file://HOME/long.trunnion", "LONG"),
      "</xbel>", NULL);
  GString *longer = g_string_new (text);
  g_string_replace (longer, "LONG", long_title, 1);
  g_string_replace (longer, "HOME", home, 0);
  g_object_unref (test_write (home, "recently-used.xbel", longer->str));
  g_string_free (longer, TRUE);
}

static void
write_settings (const char *home)
{
  g_autofree char *folder = g_build_filename (home, "glib-2.0", "settings", NULL);
  g_assert_cmpint (g_mkdir_with_parents (folder, 0700), ==, 0);
  g_object_unref (test_write (folder, "keyfile", SETTINGS));
}

static void
test_settings (Fixture *fixture, gconstpointer name)
{
  DeskSettings *settings = desk_settings_get ();
  TrnWordsUnits units = desk_settings_get_units (settings);
  g_assert_true (desk_settings_are_kept (settings));
  g_assert_cmpint (units.masses, ==, TRN_MASSES_US_TONS);
  g_assert_cmpint (units.lengths, ==, TRN_LENGTHS_METRES);
  g_assert_cmpint (units.headings, ==, 0);
  g_assert_cmpfloat (desk_settings_get_tight (settings), ==, 0.1);
  g_assert_cmpint (desk_settings_get_style (settings), ==, DESK_STYLE_SYSTEM);
  g_assert_cmpuint (desk_settings_get_strip_lines (settings), ==, 0);
  g_assert_true (desk_settings_get_animations (settings));
}

static void
add_row (GtkWidget *widget, gpointer rows)
{
  if (ADW_IS_ACTION_ROW (widget))
    g_ptr_array_add (rows, widget);
}

static void
assert_clean (const char *text)
{
  g_assert_true (g_utf8_validate (text, -1, NULL));
  g_assert_cmpint (g_utf8_strlen (text, -1), <=, 210);
  for (const char *p = text; *p != '\0'; p = g_utf8_next_char (p))
    {
      gunichar c = g_utf8_get_char (p);
      g_assert_false (g_unichar_iscntrl (c) || (c >= 0x202a && c <= 0x202e));
    }
}

static void
test_recent (Fixture *fixture, gconstpointer name)
{
  g_autoptr (GPtrArray) rows = g_ptr_array_new ();
  test_walk (GTK_WIDGET (fixture->window), add_row, rows);
  guint plans = 0;
  for (guint i = 0; i < rows->len; i++)
    {
      GtkWidget *row = rows->pdata[i];
      if (g_strcmp0 (gtk_actionable_get_action_name (GTK_ACTIONABLE (row)), "win.open-uri") != 0)
        continue;
      const char *title = adw_preferences_row_get_title (ADW_PREFERENCES_ROW (row));
      g_test_message ("%s (%s)", title, adw_action_row_get_subtitle (ADW_ACTION_ROW (row)));
      assert_clean (title);
      assert_clean (adw_action_row_get_subtitle (ADW_ACTION_ROW (row)));
      g_assert_false (adw_preferences_row_get_use_markup (ADW_PREFERENCES_ROW (row)));
      plans++;
    }
  g_assert_cmpuint (plans, ==, 4);
}

int
main (int argc, char **argv)
{
  char *home = test_folder_new ();
  write_settings (home);
  write_recent (home);
  g_setenv ("XDG_CONFIG_HOME", home, TRUE);
  g_setenv ("GSETTINGS_BACKEND", "keyfile", TRUE);
  test_window_init (&argc, &argv, home);
  trn_words_init (NULL);
#define ADD(path, function)                                                                        \
  g_test_add ("/desk/left/" path, Fixture, NULL, set_up, function, tear_down)
  ADD ("settings", test_settings);
  ADD ("recent", test_recent);
  return test_window_run (home);
}
