#include "diag.h"

static void
value_clear (gpointer data)
{
  TrnDiagValue *value = data;
  g_free (value->text);
}

static void
diag_free (gpointer data)
{
  TrnDiag *diag = data;
  g_free (diag->file);
  g_free (diag->subject);
  g_free (diag->pointer);
  g_array_unref (diag->values);
  g_free (diag);
}

TrnDiags *
trn_diags_new (void)
{
  TrnDiags *diags = g_new0 (TrnDiags, 1);
  diags->items = g_ptr_array_new_with_free_func (diag_free);
  return diags;
}

void
trn_diags_free (TrnDiags *diags)
{
  if (diags == NULL)
    return;
  g_ptr_array_unref (diags->items);
  g_free (diags);
}

TrnDiag *
trn_diags_add (TrnDiags *diags, TrnSeverity severity, const char *code, const char *pointer)
{
  TrnDiag *diag = g_new0 (TrnDiag, 1);
  diag->severity = severity;
  diag->code = code;
  diag->pointer = g_strdup (pointer);
  diag->values = g_array_new (FALSE, TRUE, sizeof (TrnDiagValue));
  g_array_set_clear_func (diag->values, value_clear);
  g_ptr_array_add (diags->items, diag);
  return diag;
}

void
trn_diag_set_file (TrnDiag *diag, const char *file, guint line)
{
  g_free (diag->file);
  diag->file = g_strdup (file);
  diag->line = line;
}

void
trn_diag_set_origin (TrnDiag *diag, const char *pointer)
{
  g_free (diag->subject);
  diag->subject = g_steal_pointer (&diag->file);
  diag->line = 0;
  g_free (diag->pointer);
  diag->pointer = g_strdup (pointer);
}

void
trn_diag_set_text (TrnDiag *diag, const char *name, const char *text)
{
  TrnDiagValue value = { .name = name, .text = g_strdup (text != NULL ? text : "") };
  g_array_append_val (diag->values, value);
}

void
trn_diag_set_number (TrnDiag *diag, const char *name, double number, TrnUnit unit)
{
  TrnDiagValue value = { .name = name, .number = number, .unit = unit };
  g_array_append_val (diag->values, value);
}

const TrnDiagValue *
trn_diag_get (const TrnDiag *diag, const char *name)
{
  for (guint i = 0; i < diag->values->len; i++)
    {
      const TrnDiagValue *value = &g_array_index (diag->values, TrnDiagValue, i);
      if (g_str_equal (value->name, name))
        return value;
    }
  return NULL;
}

guint
trn_diags_count (const TrnDiags *diags, TrnSeverity at_least)
{
  guint count = 0;
  for (guint i = 0; i < diags->items->len; i++)
    {
      const TrnDiag *diag = g_ptr_array_index (diags->items, i);
      count += diag->severity >= at_least;
    }
  return count;
}

gboolean
trn_diags_have_errors (const TrnDiags *diags)
{
  return trn_diags_count (diags, TRN_SEVERITY_ERROR) > 0;
}
