/* Any bytes as the file in which GSettings keeps what a person chose, where it is a file of text;
 * read by the schema of this version, and by one that another version might have installed.
 *
 * What is read are choices that there are, and they can be kept and read again. */
#define G_SETTINGS_ENABLE_BACKEND
#include "fuzz.h"
#include "fuzz-log.h"

#include <gio/gsettingsbackend.h>
#include <glib/gstdio.h>
#include <string.h>

#include "choices.h"
#include "gauge-words.h"
#include "words.h"

static char *folder;

static void
remove_folder (void)
{
  g_autofree char *path = g_build_filename (folder, "keyfile", NULL);
  g_unlink (path);
  g_rmdir (folder);
  g_free (folder);
}

static GSettingsSchemaSource *
source_new (const char *schemas)
{
  g_autoptr (GError) error = NULL;
  GSettingsSchemaSource *source
      = g_settings_schema_source_new_from_directory (schemas, NULL, TRUE, &error);
  g_assert_no_error (error);
  return source;
}

static void
check_choices (const DeskChoices *choices)
{
  g_assert_cmpuint (choices->units.lengths, <=, TRN_LENGTHS_FEET);
  g_assert_cmpuint (choices->units.masses, <=, TRN_MASSES_US_TONS);
  g_assert_cmpuint (choices->units.headings, <=, TRN_HEADINGS_MATHEMATICAL);
  g_assert_cmpuint (choices->style, <=, DESK_STYLE_DARK);
  g_assert_true (choices->tight_m >= 0 && choices->tight_m <= DESK_MOST_TIGHT_M);
  g_assert_true (choices->animations == TRUE || choices->animations == FALSE);
  g_assert_cmpuint (choices->strip_lines, <, 1u << TRN_N_GAUGES);
}

static void
assert_same (const DeskChoices *a, const DeskChoices *b)
{
  g_assert_cmpint (a->units.lengths, ==, b->units.lengths);
  g_assert_cmpint (a->units.masses, ==, b->units.masses);
  g_assert_cmpint (a->units.headings, ==, b->units.headings);
  g_assert_cmpint (a->style, ==, b->style);
  g_assert_cmpfloat (a->tight_m, ==, b->tight_m);
  g_assert_cmpint (a->animations, ==, b->animations);
  g_assert_cmpuint (a->strip_lines, ==, b->strip_lines);
}

/* As this version keeps them, so they are read again. */
static void
check_kept (GSettingsSchemaSource *source, const DeskChoices *choices)
{
  g_autoptr (GSettingsBackend) backend = g_memory_settings_backend_new ();
  g_autoptr (GSettings) kept = desk_choices_open (source, backend);
  desk_choices_write (choices, kept);
  const DeskChoices again = desk_choices_read (kept);
  assert_same (choices, &again);
}

/* What is read of a file with these bytes. */
static DeskChoices
read_choices (GSettingsSchemaSource *source, const char *bytes, gsize length)
{
  g_autofree char *path = g_build_filename (folder, "keyfile", NULL);
  g_autoptr (GError) error = NULL;
  g_file_set_contents_full (path, bytes, (gssize)length, G_FILE_SET_CONTENTS_NONE, 0600, &error);
  g_assert_no_error (error);
  g_autoptr (GSettingsBackend) backend = g_keyfile_settings_backend_new (path, "/", NULL);
  g_autoptr (GSettings) kept = desk_choices_open (source, backend);
  g_assert_nonnull (kept);
  return desk_choices_read (kept);
}

/* So that it is known that the file is read: a choice that is not the first one. */
static void
check_that_it_is_read (GSettingsSchemaSource *source)
{
  static const char text[] = "[org/trunnion/Desk]\nmasses='us-tons'\n";
  const DeskChoices choices = read_choices (source, text, strlen (text));
  g_assert_cmpint (choices.units.masses, ==, TRN_MASSES_US_TONS);
}

int
LLVMFuzzerTestOneInput (const uint8_t *bytes, size_t length)
{
  static GSettingsSchemaSource *sources[2];
  /* GLib, of a word that is no UTF-8. */
  static const char *known[] = { "g_variant_new_string: assertion 'g_utf8_validate", NULL };
  if (folder == NULL)
    {
      fuzz_log_set_known (known);
      folder = g_dir_make_tmp ("trunnion-settings-XXXXXX", NULL);
      g_assert_nonnull (folder);
      atexit (remove_folder);
      sources[0] = source_new (OWN_SCHEMAS);
      sources[1] = source_new (OTHER_SCHEMAS);
      check_that_it_is_read (sources[0]);
      check_that_it_is_read (sources[1]);
    }
  for (int i = 0; i < 2; i++)
    {
      const DeskChoices choices = read_choices (sources[i], (const char *)bytes, length);
      check_choices (&choices);
      check_kept (sources[0], &choices);
    }
  return 0;
}
