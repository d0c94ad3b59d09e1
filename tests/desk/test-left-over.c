/* test-left-over.c: the files of a person that others write, as far as no display is needed: the
 * list of files last opened, and the schema of the settings.
 *
 * What the desk shows of them is in test-left.c; any bytes are in tests/fuzz. */
#define G_SETTINGS_ENABLE_BACKEND
#include "desk-fixture.h"

#include <gio/gsettingsbackend.h>
#include <glib/gstdio.h>
#include <string.h>
#include <sys/stat.h>

#include "choices.h"
#include "recent.h"

typedef struct
{
  char *folder, *list;
} Fixture;

static void
set_up (Fixture *fixture, gconstpointer data)
{
  fixture->folder = test_folder_new ();
  fixture->list = g_build_filename (fixture->folder, "recently-used.xbel", NULL);
}

static void
tear_down (Fixture *fixture, gconstpointer data)
{
  g_free (fixture->list);
  test_folder_free (fixture->folder);
}

/* ---- plans last opened ---- */

#define HEAD                                                                                       \
  "<?xml version=\"1.0\" encoding=\"UTF-8\"?><xbel version=\"1.0\""                                \
  " xmlns:bookmark=\"http://www.freedesktop.org/standards/desktop-bookmarks\""                     \
  " xmlns:mime=\"http://www.freedesktop.org/standards/shared-mime-info\">"

static void
append_entry (GString *text, const char *uri, guint minute, const char *title)
{
  g_string_append_printf (text,
                          "<bookmark href=\"%s\" added=\"2026-01-02T03:%02u:00Z\""
                          " modified=\"2026-01-02T03:%02u:00Z\" visited=\"2026-01-02T03:%02u:00Z\">"
                          "<title>%s</title></bookmark>",
                          uri, minute, minute, minute, title);
}

/* A plan of that name in the folder, and its place in the list. */
static void
append_plan (Fixture *fixture, GString *text, const char *name, guint minute)
{
  g_autofree char *uri = g_strdup_printf ("file://%s/%s", fixture->folder, name);
  g_object_unref (test_write (fixture->folder, name, "{}"));
  append_entry (text, uri, minute, "");
}

static GPtrArray *
read_list (Fixture *fixture, const GString *text, guint most)
{
  g_assert_true (g_file_set_contents (fixture->list, text->str, (gssize)text->len, NULL));
  return desk_recent_read (fixture->list, most);
}

static const char *
name_of (const GPtrArray *plans, guint i)
{
  return ((const DeskRecent *)plans->pdata[i])->name;
}

/* The last one first, whatever the order of the list; only plans that are there, in local files;
 * one without a title has the name of its file. */
static void
test_order (Fixture *fixture, gconstpointer data)
{
  g_autoptr (GString) text = g_string_new (HEAD);
  append_plan (fixture, text, "first.trunnion", 1);
  append_plan (fixture, text, "third.trunnion", 3);
  append_entry (text, "file:///nonexistent/gone.trunnion", 9, "gone");
  append_entry (text, "file://elsewhere/away.trunnion", 9, "away");
  append_entry (text, "https://example.invalid/net.trunnion", 9, "net");
  append_plan (fixture, text, "other.txt", 9);
  append_plan (fixture, text, "second.trunnion", 2);
  g_string_append (text, "</xbel>");
  g_autoptr (GPtrArray) plans = read_list (fixture, text, 9);
  static const char *const names[] = { "third.trunnion", "second.trunnion", "first.trunnion" };
  g_assert_cmpuint (plans->len, ==, G_N_ELEMENTS (names));
  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    g_assert_cmpstr (name_of (plans, i), ==, names[i]);
  g_assert_true (g_str_has_prefix (((const DeskRecent *)plans->pdata[0])->place, "/"));
  g_autoptr (GPtrArray) two = desk_recent_read (fixture->list, 2);
  g_assert_cmpuint (two->len, ==, 2);
  g_assert_cmpstr (name_of (two, 1), ==, "second.trunnion");
}

/* A list that is one byte too long is not read, and nobody is to write it; of one that is as long
 * as may be, all is read: here blanks fill it up. */
static void
test_length (Fixture *fixture, gconstpointer data)
{
  for (gsize more = 0; more < 2; more++)
    {
      g_autoptr (GString) text = g_string_new (HEAD);
      append_plan (fixture, text, "long.trunnion", 1);
      g_autofree char *blanks
          = g_strnfill (DESK_RECENT_MOST_BYTES + more - text->len - strlen ("</xbel>"), ' ');
      g_string_append (text, blanks);
      g_string_append (text, "</xbel>");
      const gint64 start_us = g_get_monotonic_time ();
      g_autoptr (GPtrArray) plans = read_list (fixture, text, 9);
      g_test_message ("%" G_GINT64_FORMAT " us", g_get_monotonic_time () - start_us);
      g_assert_cmpuint (plans->len, ==, more == 0);
      g_assert_cmpint (desk_recent_is_fit (fixture->list), ==, more == 0);
    }
}

/* An address longer than that of any path is dropped before it is looked for. */
static void
test_long_address (Fixture *fixture, gconstpointer data)
{
  for (gsize more = 0; more < 2; more++)
    {
      g_autoptr (GString) text = g_string_new (HEAD);
      g_autofree char *letters
          = g_strnfill (16384 + more - strlen ("file:///") - strlen (".trunnion"), 'a');
      g_autofree char *uri = g_strconcat ("file:///", letters, ".trunnion", NULL);
      append_entry (text, uri, 1, "");
      g_string_append (text, "</xbel>");
      g_autoptr (GPtrArray) plans = desk_recent_parse (text->str, text->len);
      g_assert_cmpuint (plans->len, ==, more == 0);
    }
}

/* Of many that are gone only so many are looked for: a disk may be far away. */
static void
test_many_gone (Fixture *fixture, gconstpointer data)
{
  for (guint gone = 99; gone <= 100; gone++)
    {
      g_autoptr (GString) text = g_string_new (HEAD);
      for (guint i = 0; i < gone; i++)
        {
          g_autofree char *uri = g_strdup_printf ("file:///nonexistent/%u.trunnion", i);
          append_entry (text, uri, 9, "gone");
        }
      append_plan (fixture, text, "old.trunnion", 1);
      g_string_append (text, "</xbel>");
      g_autoptr (GPtrArray) plans = read_list (fixture, text, 9);
      g_assert_cmpuint (plans->len, ==, gone == 99);
    }
}

/* What is no plain file is not read, and does not hold anybody up. */
static void
test_no_file (Fixture *fixture, gconstpointer data)
{
  g_autoptr (GPtrArray) none = desk_recent_read (fixture->list, 9);
  g_assert_cmpuint (none->len, ==, 0);
  g_assert_true (desk_recent_is_fit (fixture->list));
  g_assert_cmpint (mkfifo (fixture->list, 0600), ==, 0);
  g_autoptr (GPtrArray) pipe = desk_recent_read (fixture->list, 9);
  g_assert_cmpuint (pipe->len, ==, 0);
  g_assert_false (desk_recent_is_fit (fixture->list));
  g_assert_cmpint (g_unlink (fixture->list), ==, 0);
  g_autoptr (GPtrArray) folder = desk_recent_read (fixture->folder, 9);
  g_assert_cmpuint (folder->len, ==, 0);
  g_assert_false (desk_recent_is_fit (fixture->folder));
  g_autoptr (GString) text = g_string_new ("no list");
  g_autoptr (GPtrArray) words = read_list (fixture, text, 9);
  g_assert_cmpuint (words->len, ==, 0);
}

/* ---- schemas of other versions ---- */

/* Whether settings with this schema are used. */
static gboolean
opens (Fixture *fixture, const char *schema)
{
  g_object_unref (test_write (fixture->folder, "org.trunnion.Desk.gschema.xml", schema));
  const char *argv[] = { "glib-compile-schemas", "--strict", fixture->folder, NULL };
  int status = -1;
  g_autoptr (GError) error = NULL;
  g_spawn_sync (NULL, (char **)argv, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, NULL, NULL, &status,
                &error);
  g_assert_no_error (error);
  g_assert_cmpint (status, ==, 0);
  g_autoptr (GSettingsSchemaSource) source
      = g_settings_schema_source_new_from_directory (fixture->folder, NULL, TRUE, &error);
  g_assert_no_error (error);
  g_autoptr (GSettingsBackend) backend = g_memory_settings_backend_new ();
  g_autoptr (GSettings) kept = desk_choices_open (source, backend);
  if (kept != NULL)
    {
      const DeskChoices choices = desk_choices_read (kept);
      g_assert_cmpfloat (choices.tight_m, ==, 0.1);
    }
  return kept != NULL;
}

/* The schema of this version is used; one without a key, with a key of another type, or without a
 * place of its own is not: GLib ends a program that asks it for what it has not. */
static void
test_schemas (Fixture *fixture, gconstpointer data)
{
  static const char *const changes[][2] = {
    { "name=\"lengths\"", "name=\"widths\"" },
    { "name=\"animations\" type=\"b\">\n      <default>true",
      "name=\"animations\" type=\"i\">\n      <default>1" },
    { "name=\"style\" enum=\"org.trunnion.Desk.Style\">\n      <default>'system'",
      "name=\"style\" type=\"s\">\n      <default>'system'" },
    { " path=\"/org/trunnion/Desk/\"", "" },
  };
  g_autofree char *path = g_build_filename (g_getenv ("TRUNNION_SOURCE_FOLDER"), "app", "data",
                                            "org.trunnion.Desk.gschema.xml", NULL);
  g_autofree char *own = NULL;
  g_assert_true (g_file_get_contents (path, &own, NULL, NULL));
  g_assert_true (opens (fixture, own));
  for (guint i = 0; i < G_N_ELEMENTS (changes); i++)
    {
      g_autoptr (GString) other = g_string_new (own);
      g_assert_cmpuint (g_string_replace (other, changes[i][0], changes[i][1], 0), ==, 1);
      g_test_message ("%s", changes[i][1]);
      g_assert_false (opens (fixture, other->str));
    }
  g_assert_null (desk_choices_open (NULL, NULL));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(path, function)                                                                        \
  g_test_add ("/desk/left-over/" path, Fixture, NULL, set_up, function, tear_down)
  ADD ("order", test_order);
  ADD ("length", test_length);
  ADD ("long-address", test_long_address);
  ADD ("many-gone", test_many_gone);
  ADD ("no-file", test_no_file);
  ADD ("schemas", test_schemas);
  return g_test_run ();
}
