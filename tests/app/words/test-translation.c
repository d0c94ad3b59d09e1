/* test-translation.c: each translation listed in po/LINGUAS: complete, with the same values in
 * every sentence, and shown when its language is chosen. The catalogues are those of the build, in
 * TRUNNION_LOCALE_FOLDER. */
#include <locale.h>
#include <stdlib.h>
#include <string.h>

#include "words.h"

static const char *
folder_of (const char *variable)
{
  const char *folder = g_getenv (variable);
  g_assert_nonnull (folder);
  return folder;
}

static GStrv
read_languages (void)
{
  g_autofree char *path
      = g_build_filename (folder_of ("TRUNNION_SOURCE_FOLDER"), "po/LINGUAS", NULL);
  g_autofree char *text = NULL;
  g_assert_true (g_file_get_contents (path, &text, NULL, NULL));
  return g_strsplit (g_strstrip (text), "\n", -1);
}

/* Replaces what is between the quotation marks of a .po file by the text itself. */
static char *
unescape (const char *quoted)
{
  g_autoptr (GRegex) joints = g_regex_new ("\"\\s*\"", 0, 0, NULL);
  g_autofree char *joined = g_regex_replace_literal (joints, quoted, -1, 0, "", 0, NULL);
  return g_strcompress (joined);
}

static int
compare_texts (gconstpointer a, gconstpointer b)
{
  return strcmp (*(const char *const *)a, *(const char *const *)b);
}

/* The {names} and %-places of a text, sorted, as one text. */
static char *
places_of (const char *text)
{
  g_autoptr (GRegex) regex = g_regex_new ("\\{[a-z_-]+\\}|%[0-9.]*[a-z%]", 0, 0, NULL);
  g_autoptr (GPtrArray) places = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GMatchInfo) match = NULL;
  g_regex_match (regex, text, 0, &match);
  for (; g_match_info_matches (match); g_match_info_next (match, NULL))
    g_ptr_array_add (places, g_match_info_fetch (match, 0));
  g_ptr_array_sort (places, compare_texts);
  g_ptr_array_add (places, NULL);
  return g_strjoinv (" ", (char **)places->pdata);
}

static void
check_message (const char *source, const char *translated)
{
  g_autofree char *wanted = places_of (source);
  g_autofree char *given = places_of (translated);
  if (*translated != '\0' && strcmp (wanted, given) == 0)
    return;
  g_test_message ("“%s” is translated as “%s”", source, translated);
  g_test_fail ();
}

/* Every message of the file; the first is its header. */
static void
check_file (const char *language)
{
  g_autofree char *name = g_strconcat (language, ".po", NULL);
  g_autofree char *path = g_build_filename (folder_of ("TRUNNION_SOURCE_FOLDER"), "po", name, NULL);
  g_autofree char *text = NULL;
  g_assert_true (g_file_get_contents (path, &text, NULL, NULL));
  g_assert_null (strstr (text, "#, fuzzy"));
  g_autoptr (GRegex) regex
      = g_regex_new ("^msgid \"(.*?)\"$\\s*(?:^msgid_plural \"(?:.*?)\"$\\s*)?^msgstr(?:\\[0\\])? "
                     "\"(.*?)\"$(?=\\n(?:\\n|#|msgstr|\\z)|\\z)",
                     G_REGEX_MULTILINE | G_REGEX_DOTALL, 0, NULL);
  g_autoptr (GMatchInfo) match = NULL;
  guint n = 0;
  g_regex_match (regex, text, 0, &match);
  for (; g_match_info_matches (match); g_match_info_next (match, NULL))
    {
      g_autofree char *source_quoted = g_match_info_fetch (match, 1);
      g_autofree char *translated_quoted = g_match_info_fetch (match, 2);
      g_autofree char *source = unescape (source_quoted);
      g_autofree char *translated = unescape (translated_quoted);
      if (n++ > 0)
        check_message (source, translated);
    }
  g_assert_cmpuint (n, >, 200);
}

static void
test_places (void)
{
  g_auto (GStrv) languages = read_languages ();
  g_assert_cmpuint (g_strv_length (languages), >, 0);
  for (guint i = 0; languages[i] != NULL; i++)
    check_file (languages[i]);
}

/* In German the sentence of a diagnostic is German, its place and its values are as they were, and
 * a number keeps its decimal point. */
static void
test_german (void)
{
  g_setenv ("LANGUAGE", "de", TRUE);
  trn_words_init (folder_of ("TRUNNION_LOCALE_FOLDER"));
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  TrnDiag *diag = trn_diags_add (diags, TRN_SEVERITY_ERROR, "base/cannot-write", "/x/0");
  trn_diag_set_text (diag, "file", "out.json");
  trn_diag_set_text (diag, "reason", "no room");
  g_autofree char *line = trn_words_diag (diag);
  g_assert_true (
      g_str_has_prefix (line, "/x/0: Fehler: „out.json“ kann nicht geschrieben werden (no room);"));
  g_autofree char *length = trn_words_length_down (0.62);
  g_assert_cmpstr (length, ==, "0.62 m");
  TrnFinding finding = { .check = TRN_CHECK_CLEARANCE,
                         .verdict = TRN_VERDICT_FAIL,
                         .state = TRN_STATE_SHORT,
                         .lower_m = 0.3202,
                         .required_m = 0.5 };
  g_autofree char *text = trn_words_finding (&finding);
  g_assert_cmpstr (text, ==, "Es fehlen 0.18 m");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/words/translation/places", test_places);
  g_test_add_func ("/words/translation/german", test_german);
  return g_test_run ();
}
