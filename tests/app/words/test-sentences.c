/* test-sentences.c: the codes in the sources and the sentences belong together, both ways; and the
 * list of files to translate is complete.
 *
 * The sources themselves are read, below the folder in TRUNNION_SOURCE_FOLDER. A code is a string
 * "folder/some-words" whose folder is one of the engine's, or "cli" or "desk". */
#include <gio/gio.h>
#include <string.h>

#include "sentences.h"

#define CODE                                                                                       \
  "\"((?:base|shape|import|proximity|motion|sweep|plan|scene|checks|results|cli|desk)/"            \
  "[a-z0-9]+(?:-[a-z0-9]+)*)\""

static const char *source_folder;

static void
add_sources (const char *folder, const char *suffix, GPtrArray *paths)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  g_assert_nonnull (dir);
  const char *name;
  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);
      if (g_file_test (path, G_FILE_TEST_IS_DIR))
        add_sources (path, suffix, paths);
      else if (g_str_has_suffix (name, suffix))
        g_ptr_array_add (paths, g_steal_pointer (&path));
    }
}

static GPtrArray *
find_sources (const char *below)
{
  GPtrArray *paths = g_ptr_array_new_with_free_func (g_free);
  g_autofree char *folder = g_build_filename (source_folder, below, NULL);
  add_sources (folder, ".c", paths);
  add_sources (folder, ".cpp", paths);
  return paths;
}

static char *
read_all (const char *below)
{
  g_autoptr (GPtrArray) paths = find_sources (below);
  g_autoptr (GString) all = g_string_new (NULL);
  for (guint i = 0; i < paths->len; i++)
    {
      g_autofree char *text = NULL;
      g_assert_true (g_file_get_contents (paths->pdata[i], &text, NULL, NULL));
      g_string_append (all, text);
    }
  return g_string_free (g_steal_pointer (&all), FALSE);
}

/* The set of what the first group of @pattern matches in @text. */
static GHashTable *
find_all (const char *text, const char *pattern)
{
  GHashTable *found = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autoptr (GRegex) regex = g_regex_new (pattern, 0, 0, NULL);
  g_assert_nonnull (regex);
  g_autoptr (GMatchInfo) match = NULL;
  g_regex_match (regex, text, 0, &match);
  for (; g_match_info_matches (match); g_match_info_next (match, NULL))
    g_hash_table_add (found, g_match_info_fetch (match, 1));
  return found;
}

static GHashTable *
find_codes_used (void)
{
  g_autofree char *engine = read_all ("engine");
  g_autofree char *cli = read_all ("app/cli");
  g_autofree char *desk = read_all ("app/desk");
  g_autofree char *all = g_strconcat (engine, cli, desk, NULL);
  return find_all (all, CODE);
}

static GHashTable *
find_codes_with_sentence (void)
{
  g_autofree char *path = g_build_filename (source_folder, "app/words/sentences.c", NULL);
  g_autofree char *text = NULL;
  g_assert_true (g_file_get_contents (path, &text, NULL, NULL));
  return find_all (text, CODE);
}

static void
test_codes_have_sentences (void)
{
  g_autoptr (GHashTable) used = find_codes_used ();
  g_assert_cmpuint (g_hash_table_size (used), >, 0);
  GHashTableIter iter;
  gpointer code;
  for (g_hash_table_iter_init (&iter, used); g_hash_table_iter_next (&iter, &code, NULL);)
    if (trn_sentence_template (code) == NULL)
      {
        g_test_message ("no sentence for %s", (char *)code);
        g_test_fail ();
      }
  g_assert_null (trn_sentence_template ("plan/there-is-no-such-code"));
}

static void
test_sentences_are_used (void)
{
  g_autoptr (GHashTable) used = find_codes_used ();
  g_autoptr (GHashTable) have = find_codes_with_sentence ();
  GHashTableIter iter;
  gpointer code;
  for (g_hash_table_iter_init (&iter, have); g_hash_table_iter_next (&iter, &code, NULL);)
    if (!g_hash_table_contains (used, code))
      {
        g_test_message ("nothing says %s", (char *)code);
        g_test_fail ();
      }
}

/* The folder whose sources set the values of a code. Faults of solids are passed on by the plan. */
static char *
read_sources_of (const char *code)
{
  g_autofree char *folder = g_strndup (code, (gsize)(strchr (code, '/') - code));
  if (strcmp (folder, "cli") == 0 || strcmp (folder, "desk") == 0)
    {
      g_autofree char *below = g_build_filename ("app", folder, NULL);
      return read_all (below);
    }
  g_autofree char *below = g_build_filename ("engine", folder, NULL);
  g_autofree char *own = read_all (below);
  if (strcmp (folder, "shape") != 0)
    return g_steal_pointer (&own);
  g_autofree char *plan = read_all ("engine/plan");
  return g_strconcat (own, plan, NULL);
}

/* Each {name} of a sentence must be the name of a value that the sources of that folder set, or the
 * reader sees the braces. */
static void
test_values_are_set (void)
{
  g_autoptr (GHashTable) have = find_codes_with_sentence ();
  GHashTableIter iter, names;
  gpointer code, name;
  for (g_hash_table_iter_init (&iter, have); g_hash_table_iter_next (&iter, &code, NULL);)
    {
      g_autofree char *sources = read_sources_of (code);
      g_autoptr (GHashTable) braces
          = find_all (trn_sentence_template (code), "\\{([a-z0-9_-]+)\\}");
      for (g_hash_table_iter_init (&names, braces); g_hash_table_iter_next (&names, &name, NULL);)
        {
          g_autofree char *literal = g_strdup_printf ("\"%s\"", (char *)name);
          if (strstr (sources, literal) != NULL)
            continue;
          g_test_message ("%s: nothing sets {%s}", (char *)code, (char *)name);
          g_test_fail ();
        }
    }
}

/* Nothing that the program says may call a lift safe. */
static void
test_no_promise (void)
{
  g_autofree char *words = read_all ("app/words");
  g_autofree char *cli = read_all ("app/cli");
  g_autofree char *both = g_strconcat (words, cli, NULL);
  g_autoptr (GRegex) strings
      = g_regex_new ("_ \\(\"[^;]*\\bsafe(ly)?\\b", G_REGEX_CASELESS, 0, NULL);
  g_assert_false (g_regex_match (strings, both, 0, NULL));
  g_assert_true (g_regex_match (strings, "N_ (\"This lift is safe.\")", 0, NULL));
}

static gboolean
is_listed (const char *list, const char *path)
{
  g_auto (GStrv) lines = g_strsplit (list, "\n", -1);
  return g_strv_contains ((const char *const *)lines, path);
}

/* What is not listed in po/POTFILES is never translated; only app/ may have sentences at all. */
static void
test_files_to_translate (void)
{
  g_autofree char *list_path = g_build_filename (source_folder, "po/POTFILES", NULL);
  g_autofree char *list = NULL;
  g_assert_true (g_file_get_contents (list_path, &list, NULL, NULL));
  g_autoptr (GPtrArray) paths = find_sources ("app");
  for (guint i = 0; i < paths->len; i++)
    {
      g_autofree char *text = NULL;
      g_assert_true (g_file_get_contents (paths->pdata[i], &text, NULL, NULL));
      g_autoptr (GHashTable) marks = find_all (text, "\\b(N?_|g_dngettext) \\(");
      const char *path = (const char *)paths->pdata[i] + strlen (source_folder) + 1;
      if ((g_hash_table_size (marks) > 0) == is_listed (list, path))
        continue;
      g_test_message ("po/POTFILES and %s do not agree", path);
      g_test_fail ();
    }
  g_autofree char *engine = read_all ("engine");
  g_autoptr (GHashTable) marks = find_all (engine, "\\b(N?_|gettext) \\(\"");
  g_assert_cmpuint (g_hash_table_size (marks), ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  source_folder = g_getenv ("TRUNNION_SOURCE_FOLDER");
  g_assert_nonnull (source_folder);
  g_test_add_func ("/words/sentences/codes-have-sentences", test_codes_have_sentences);
  g_test_add_func ("/words/sentences/sentences-are-used", test_sentences_are_used);
  g_test_add_func ("/words/sentences/values-are-set", test_values_are_set);
  g_test_add_func ("/words/sentences/no-promise", test_no_promise);
  g_test_add_func ("/words/sentences/files-to-translate", test_files_to_translate);
  return g_test_run ();
}
