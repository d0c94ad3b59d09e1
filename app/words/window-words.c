/* window-words.c: what the window round the rooms says. */
#include "window-words.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#define LONGEST_TITLE 90
#define LONGEST_POINTER 200
#define BETWEEN " · "

static const char *const window_texts[TRN_N_WINDOW_TEXTS] = {
  [TRN_WINDOW_OPEN_PLAN] = N_ ("Open a plan"),
  [TRN_WINDOW_OPEN] = N_ ("_Open"),
  [TRN_WINDOW_CANCEL] = N_ ("_Cancel"),
  [TRN_WINDOW_PLANS] = N_ ("Plans (*.trunnion)"),
  [TRN_WINDOW_ALL_FILES] = N_ ("All files"),
  [TRN_WINDOW_CHANGED_ON_DISK] = N_ ("This plan, or a mesh file of it, was changed on disk since "
                                     "it was read."),
  [TRN_WINDOW_COPIED] = N_ ("Copied"),
  [TRN_WINDOW_CHECK] = N_ ("Check"),
  [TRN_WINDOW_STOP_CHECK] = N_ ("Stop check"),
  [TRN_WINDOW_FAULTS] = N_ ("Show the _faults"),
  [TRN_WINDOW_COPY_ROW] = N_ ("Copy this line"),
};

static const struct
{
  const char *name, *title, *text;
} demos[] = {
  { "lock-gate", N_ ("Gate leaf, laid flat"),
    N_ ("Both ends of every move clear. In between, one does not.") },
  { "pump-column", N_ ("Pump column, up-ended"),
    N_ ("Hook and tail trolley turn it upright; then it goes down a well.") },
  { "column-tandem", N_ ("Column, up-ended by two cranes"),
    N_ ("The load clears all. A counterweight does not.") },
  { "valve-assembly", N_ ("Valve, taken apart"),
    N_ ("Four lifts: what one sets down, the next must pass.") },
};

const char *
trn_words_window (TrnWindowText text)
{
  g_assert (text < TRN_N_WINDOW_TEXTS);
  return _ (window_texts[text]);
}

const char *
trn_words_demo_title (const char *name)
{
  for (guint i = 0; i < G_N_ELEMENTS (demos); i++)
    if (strcmp (demos[i].name, name) == 0)
      return _ (demos[i].title);
  return name;
}

const char *
trn_words_demo_text (const char *name)
{
  for (guint i = 0; i < G_N_ELEMENTS (demos); i++)
    if (strcmp (demos[i].name, name) == 0)
      return _ (demos[i].text);
  return "";
}

char *
trn_words_graded_diag (const TrnDiag *diag)
{
  g_autofree char *sentence = trn_words_diag_sentence (diag);
  switch (diag->severity)
    {
    case TRN_SEVERITY_NOTE:
      return g_strdup_printf (_ ("Note: %s"), sentence);
    case TRN_SEVERITY_WARNING:
      return g_strdup_printf (_ ("Warning: %s"), sentence);
    case TRN_SEVERITY_ERROR:
      return g_strdup_printf (_ ("Error: %s"), sentence);
    }
  g_assert_not_reached ();
}

char *
trn_words_fault_title (const char *title, const TrnDiags *diags, gboolean is_faulty)
{
  g_autofree char *clean = trn_words_clean (title, LONGEST_TITLE);
  guint n = trn_diags_count (diags, is_faulty ? TRN_SEVERITY_ERROR : TRN_SEVERITY_NOTE);
  if (is_faulty)
    return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "“%s” cannot be shown: %u error",
                                         "“%s” cannot be shown: %u errors", n),
                            clean, n);
  g_autofree char *remarks = trn_words_remarks (n);
  return g_strdup_printf (_ ("%s on “%s”"), remarks, clean);
}

static void
append_part (GString *line, const char *part)
{
  if (line->len > 0)
    g_string_append (line, BETWEEN);
  g_string_append (line, part);
}

/* @path without the folder of @file where it lies there. */
static const char *
within_folder (const char *path, const char *file)
{
  g_autofree char *folder = g_path_get_dirname (file);
  gsize length = strlen (folder);
  gboolean is_there = strncmp (path, folder, length) == 0 && path[length] == G_DIR_SEPARATOR;
  return is_there ? path + length + 1 : path;
}

char *
trn_words_fault_place (const TrnDiag *diag, const char *file)
{
  g_autoptr (GString) line = g_string_new (NULL);
  const char *names[] = { diag->file, diag->subject };
  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    if (names[i] != NULL && g_strcmp0 (names[i], file) != 0)
      {
        g_autofree char *clean
            = trn_words_clean (file != NULL ? within_folder (names[i], file) : names[i], 0);
        append_part (line, clean);
      }
  if (diag->line > 0)
    {
      g_autofree char *number = g_strdup_printf (_ ("line %u"), diag->line);
      append_part (line, number);
    }
  if (diag->pointer != NULL && *diag->pointer != '\0')
    {
      g_autofree char *pointer = trn_words_clean (diag->pointer, LONGEST_POINTER);
      append_part (line, pointer);
    }
  return g_string_free (g_steal_pointer (&line), FALSE);
}

char *
trn_words_back_to (const char *title)
{
  g_autofree char *clean = trn_words_clean (title, LONGEST_TITLE);
  return g_strdup_printf (_ ("Back to “%s”, which was open before"), clean);
}

char *
trn_words_gone (const char *path)
{
  g_autofree char *shown = g_filename_display_basename (path);
  g_autofree char *clean = trn_words_clean (shown, LONGEST_TITLE);
  return g_strdup_printf (_ ("The file “%s” is not there any more: what is shown is the plan as it "
                             "was read."),
                          clean);
}

const char *
trn_words_fault_lead (gboolean is_faulty)
{
  return is_faulty ? _ ("Put right what is listed here, save the plan, and read it again.")
                   : _ ("The plan can be shown and checked; look at these all the same.");
}

char *
trn_words_partial_title (const char *title, guint n_left_out)
{
  g_autofree char *clean = trn_words_clean (title, LONGEST_TITLE);
  return g_strdup_printf (
      g_dngettext (GETTEXT_PACKAGE, "“%s” cannot be checked: %u structure is left out",
                   "“%s” cannot be checked: %u structures are left out", n_left_out),
      clean, n_left_out);
}

char *
trn_words_left_out (guint n_left_out)
{
  return g_strdup_printf (
      g_dngettext (GETTEXT_PACKAGE,
                   "%u structure of this plan is left out, since its mesh cannot be used. "
                   "Nothing was checked.",
                   "%u structures of this plan are left out, since their meshes cannot be used. "
                   "Nothing was checked.",
                   n_left_out),
      n_left_out);
}

char *
trn_words_left_out_short (guint n_left_out)
{
  return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u structure left out, nothing checked",
                                       "%u structures left out, nothing checked", n_left_out),
                          n_left_out);
}

char *
trn_words_remarks (guint n)
{
  return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u remark", "%u remarks", n), n);
}

char *
trn_words_reading_plan (const char *title)
{
  g_autofree char *clean = trn_words_clean (title, LONGEST_TITLE);
  return g_strdup_printf (_ ("Reading “%s” …"), clean);
}
