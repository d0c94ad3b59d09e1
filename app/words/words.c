/* words.c: the language of the messages, and texts from outside made fit to be shown. */
#include "words.h"

#include <glib/gi18n-lib.h>
#include <locale.h>

void
trn_words_init (const char *locale_folder)
{
  setlocale (LC_ALL, "");
  setlocale (LC_NUMERIC, "C");
  bindtextdomain (GETTEXT_PACKAGE, locale_folder != NULL ? locale_folder : TRN_LOCALE_FOLDER);
  bind_textdomain_codeset (GETTEXT_PACKAGE, "UTF-8");
}

/* A control character could move the cursor of a terminal; a bidirectional one could make a line
 * read as another. */
static gboolean
may_be_shown (gunichar c)
{
  switch (g_unichar_type (c))
    {
    case G_UNICODE_CONTROL:
    case G_UNICODE_FORMAT:
    case G_UNICODE_LINE_SEPARATOR:
    case G_UNICODE_PARAGRAPH_SEPARATOR:
    case G_UNICODE_SURROGATE:
      return FALSE;
    default:
      return TRUE;
    }
}

char *
trn_words_clean (const char *text, guint max)
{
  g_autofree char *valid = g_utf8_make_valid (text, -1);
  g_autoptr (GString) clean = g_string_new (NULL);
  guint n = 0;
  for (const char *p = valid; *p != '\0'; p = g_utf8_next_char (p), n++)
    {
      gunichar c = g_utf8_get_char (p);
      if (max > 0 && n + 1 == max && *g_utf8_next_char (p) != '\0')
        {
          g_string_append (clean, "…");
          break;
        }
      g_string_append_unichar (clean, may_be_shown (c) ? c : 0xfffd);
    }
  return g_string_free (g_steal_pointer (&clean), FALSE);
}
