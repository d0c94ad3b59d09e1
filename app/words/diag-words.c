/* diag-words.c: a diagnostic as one line: its place, how grave it is, and its sentence with the
 * values filled in. */
#include "words.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#include "sentences.h"

/* A file may hold a text of any length where a word is expected. */
#define LONGEST_VALUE 200

const char *
trn_words_severity (TrnSeverity severity)
{
  switch (severity)
    {
    case TRN_SEVERITY_NOTE:
      return _ ("note");
    case TRN_SEVERITY_WARNING:
      return _ ("warning");
    case TRN_SEVERITY_ERROR:
      return _ ("error");
    }
  g_assert_not_reached ();
}

/* All the digits that count, but none of the noise of the last place. */
static char *
plain_text (double number)
{
  char text[G_ASCII_DTOSTR_BUF_SIZE];
  return g_strdup (g_ascii_formatd (text, sizeof text, "%.15g", number));
}

/* Three decimals, or three digits where those would show nothing. */
static char *
measure_text (double number)
{
  char text[G_ASCII_DTOSTR_BUF_SIZE];
  double size = fabs (number);
  if (size >= 1e9 || (size > 0 && size < 0.1))
    return g_strdup (g_ascii_formatd (text, sizeof text, "%.3g", number));
  return plain_text (round (number * 1000) / 1000);
}

static char *
bytes_text (double number)
{
  return g_format_size_full (number < 0 ? 0 : (guint64)fmin (number, 1e18),
                             G_FORMAT_SIZE_IEC_UNITS);
}

static char *
number_text (double number, TrnUnit unit)
{
  if (!isfinite (number))
    return g_strdup ("–");
  g_autofree char *measure = measure_text (number);
  switch (unit)
    {
    case TRN_UNIT_NONE:
    case TRN_UNIT_COUNT:
      return plain_text (number);
    case TRN_UNIT_M:
      return trn_words_quantity (g_strdup_printf (_ ("%s m"), measure));
    case TRN_UNIT_S:
      return trn_words_quantity (g_strdup_printf (_ ("%s s"), measure));
    case TRN_UNIT_DEG:
      return g_strdup_printf (_ ("%s°"), measure);
    case TRN_UNIT_KG:
      return trn_words_quantity (g_strdup_printf (_ ("%s kg"), measure));
    case TRN_UNIT_BYTES:
      return bytes_text (number);
    case TRN_UNIT_N:
      return trn_words_quantity (g_strdup_printf (_ ("%s N"), measure));
    case TRN_UNIT_NM:
      return trn_words_quantity (g_strdup_printf (_ ("%s N m"), measure));
    case TRN_UNIT_PA:
      return trn_words_quantity (g_strdup_printf (_ ("%s Pa"), measure));
    case TRN_UNIT_M_S:
      return trn_words_quantity (g_strdup_printf (_ ("%s m/s"), measure));
    case TRN_UNIT_DEG_S:
      return trn_words_quantity (g_strdup_printf (_ ("%s°/s"), measure));
    case TRN_UNIT_M2:
      return trn_words_quantity (g_strdup_printf (_ ("%s m²"), measure));
    }
  g_assert_not_reached ();
}

static char *
value_text (const TrnDiagValue *value)
{
  if (value->text != NULL)
    return trn_words_clean (value->text, LONGEST_VALUE);
  return number_text (value->number, value->unit);
}

/* A {name} that has no value stays as it is: visible, and no more than odd. */
static void
append_filled (GString *line, const char *template, const TrnDiag *diag)
{
  const char *p = template;
  while (*p != '\0')
    {
      const char *end = *p == '{' ? strchr (p, '}') : NULL;
      g_autofree char *name = end != NULL ? g_strndup (p + 1, (gsize)(end - p - 1)) : NULL;
      const TrnDiagValue *value = name != NULL ? trn_diag_get (diag, name) : NULL;
      if (value == NULL)
        {
          g_string_append_c (line, *p++);
          continue;
        }
      g_autofree char *text = value_text (value);
      g_string_append (line, text);
      p = end + 1;
    }
}

static void
append_place (GString *line, const TrnDiag *diag)
{
  if (diag->file != NULL)
    {
      g_autofree char *file = trn_words_clean (diag->file, 0);
      g_string_append (line, file);
      if (diag->line > 0)
        g_string_append_printf (line, ":%u", diag->line);
    }
  if (diag->pointer != NULL && diag->pointer[0] != '\0')
    {
      g_autofree char *pointer = trn_words_clean (diag->pointer, LONGEST_VALUE);
      g_string_append_printf (line, "%s%s", line->len > 0 ? ": " : "", pointer);
    }
  if (diag->subject != NULL)
    {
      g_autofree char *subject = trn_words_clean (diag->subject, 0);
      g_string_append_printf (line, "%s%s", line->len > 0 ? ": " : "", subject);
    }
}

/* A code without a sentence: all that is known, so that nothing is lost. */
static void
append_unknown (GString *line, const TrnDiag *diag)
{
  g_string_append_printf (line, _ ("%s (no sentence for this; please report it)"), diag->code);
  for (guint i = 0; i < diag->values->len; i++)
    {
      const TrnDiagValue *value = &g_array_index (diag->values, TrnDiagValue, i);
      g_autofree char *text = value_text (value);
      g_string_append_printf (line, " %s=%s", value->name, text);
    }
}

char *
trn_words_diag_place (const TrnDiag *diag)
{
  g_autoptr (GString) line = g_string_new (NULL);
  append_place (line, diag);
  return g_string_free (g_steal_pointer (&line), FALSE);
}

char *
trn_words_diag_sentence (const TrnDiag *diag)
{
  g_autoptr (GString) line = g_string_new (NULL);
  const char *template = trn_sentence_template (diag->code);
  if (template != NULL)
    append_filled (line, _ (template), diag);
  else
    append_unknown (line, diag);
  return g_string_free (g_steal_pointer (&line), FALSE);
}

char *
trn_words_diag (const TrnDiag *diag)
{
  g_autofree char *place = trn_words_diag_place (diag);
  g_autofree char *sentence = trn_words_diag_sentence (diag);
  return g_strdup_printf ("%s%s%s: %s", place, *place != '\0' ? ": " : "",
                          trn_words_severity (diag->severity), sentence);
}
