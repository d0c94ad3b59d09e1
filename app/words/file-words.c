#include "file-words.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#include "formats.h"
#include "stream.h"

#define LONGEST_NAME 60
/* Names in one list. */
#define MOST_NAMES 12
/* A unit that went through single precision is the same. */
#define UNIT_SAME 1e-7
#define LEAST_LOSS_MM 1e-4

const char *
trn_words_file (TrnFileText text)
{
  static const char *const texts[TRN_N_FILE_TEXTS] = {
    [TRN_FILE_TITLE] = N_ ("Mesh files"),
    [TRN_FILE_LEAD] = N_ ("What was found in the mesh files of the plan, and what was put right. "
                          "Holes are never filled."),
    [TRN_FILE_NONE] = N_ ("The plan names no mesh file: all its shapes are simple solids."),
    [TRN_FILE_UNUSED] = N_ ("It could not be used; its structures are left out."),
    [TRN_FILE_NOTHING] = N_ ("nothing"),
    [TRN_FILE_TRIANGLES] = N_ ("Triangles"),
    [TRN_FILE_FACES] = N_ ("Faces"),
    [TRN_FILE_SURFACE] = N_ ("Surface"),
    [TRN_FILE_PUT_RIGHT] = N_ ("Put right"),
    [TRN_FILE_UNIT] = N_ ("Unit"),
    [TRN_FILE_UP] = N_ ("Upward axis"),
    [TRN_FILE_READER] = N_ ("Read with"),
    [TRN_FILE_UNIT_NONE] = N_ ("none declared: the plan has to give it"),
    [TRN_FILE_UP_NONE] = N_ ("none declared: the plan has to give it; sizes below as if Z is up"),
    [TRN_FILE_UP_Z] = N_ ("Z, declared by the file"),
    [TRN_FILE_UP_Y] = N_ ("Y, declared by the file; sizes below are turned to Z up"),
    [TRN_FILE_SIZE] = N_ ("Size X × Y × Z"),
    [TRN_FILE_LARGEST] = N_ ("Largest"),
    [TRN_FILE_LOSS] = N_ ("Off by up to"),
    [TRN_FILE_DECLARED] = N_ ("declared"),
    [TRN_FILE_REFUSED] = N_ ("refused: too imprecise"),
    [TRN_FILE_IN_METRES]
    = N_ ("In metres, for each unit it may be in: its size, its largest coordinate, and how far a\n"
          "coordinate of that size may be off in the single precision of mesh files."),
    [TRN_FILE_PART] = N_ ("Part"),
    [TRN_FILE_UNNAMED] = N_ ("(no name)"),
  };
  g_assert (text < TRN_N_FILE_TEXTS);
  return _ (texts[text]);
}

/* ---- numbers ---- */

char *
trn_words_file_number (double number)
{
  char text[G_ASCII_DTOSTR_BUF_SIZE];
  double size = fabs (number);
  const char *format = size != 0 && (size < 0.1 || size >= 1e6) ? "%.4g" : "%.3f";
  return g_strdup (g_ascii_formatd (text, sizeof text, format, number));
}

char *
trn_words_file_size (TrnVec3 size)
{
  g_autofree char *x = trn_words_file_number (size.x);
  g_autofree char *y = trn_words_file_number (size.y);
  g_autofree char *z = trn_words_file_number (size.z);
  return g_strdup_printf ("%s × %s × %s", x, y, z);
}

/* Rounded up: it is a bound. */
char *
trn_words_file_loss (double loss_m)
{
  char text[G_ASCII_DTOSTR_BUF_SIZE];
  double mm = loss_m * 1000;
  if (mm == 0)
    return g_strdup (_ ("0 mm"));
  if (mm < LEAST_LOSS_MM)
    return g_strdup (_ ("< 0.0001 mm"));
  double step = pow (10, floor (log10 (mm)) - 1);
  mm = ceil (mm / step - 1e-9) * step;
  g_ascii_formatd (text, sizeof text, "%.2g", mm);
  return g_strdup_printf (_ ("%s mm"), text);
}

char *
trn_words_file_unit (double metres)
{
  static const char *const names[] = { "m", "cm", "mm", "ft", "in" };
  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      double unit = trn_length_unit_metres (trn_length_unit_from_name (names[i]));
      if (fabs (metres - unit) <= UNIT_SAME * unit)
        return g_strdup (names[i]);
    }
  char text[G_ASCII_DTOSTR_BUF_SIZE];
  g_ascii_formatd (text, sizeof text, "%.6g", metres);
  return g_strdup_printf (_ ("%s m"), text);
}

/* ---- one file ---- */

char *
trn_words_file_format (const char *path)
{
  g_autofree char *name = g_ascii_strup (trn_format_extension_get (path), -1);
  if (strcmp (name, "GLTF") == 0)
    strcpy (name, "glTF");
  if (!trn_format_is_experimental (trn_format_from_path (path)))
    return g_steal_pointer (&name);
  return g_strdup_printf (_ ("%s (experimental)"), name);
}

char *
trn_words_file_counts (const TrnImportReport *report)
{
  g_autofree char *triangles = g_strdup_printf (
      g_dngettext (GETTEXT_PACKAGE, "%u triangle", "%u triangles", report->n_triangles),
      report->n_triangles);
  if (report->n_parts <= 1)
    return g_steal_pointer (&triangles);
  return g_strdup_printf (
      g_dngettext (GETTEXT_PACKAGE, "%s in %u part", "%s in %u parts", report->n_parts), triangles,
      report->n_parts);
}

char *
trn_words_file_surface (const TrnImportReport *report, gboolean bare)
{
  if (report->closed)
    return g_strdup (_ ("closed"));
  if (report->n_holes == 0)
    return g_strdup (_ ("not closed: faces meet each other wrongly"));
  g_autofree char *largest = bare ? trn_words_file_number (report->largest_hole_m)
                                  : trn_words_length_up (report->largest_hole_m);
  return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "open: %u hole, %s across",
                                       "open: %u holes, the largest %s across", report->n_holes),
                          report->n_holes, largest);
}

static void
append_take (GString *list, char *item)
{
  g_string_append_printf (list, "%s%s", list->len > 0 ? ", " : "", item);
  g_free (item);
}

char *
trn_words_file_repairs (const TrnImportReport *report)
{
  const TrnMeshRepair *repair = &report->repair;
  g_autoptr (GString) list = g_string_new (NULL);
  if (report->joined > 0)
    append_take (
        list, g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u vertex joined with its equal",
                                            "%u vertices joined with their equals", report->joined),
                               report->joined));
  if (repair->duplicate > 0)
    append_take (list,
                 g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u duplicate triangle dropped",
                                               "%u duplicate triangles dropped", repair->duplicate),
                                  repair->duplicate));
  if (repair->degenerate > 0)
    append_take (list, g_strdup_printf (
                           g_dngettext (GETTEXT_PACKAGE, "%u triangle that is a line dropped",
                                        "%u triangles that are lines dropped", repair->degenerate),
                           repair->degenerate));
  if (repair->flipped_pieces > 0)
    append_take (list,
                 g_strdup_printf (
                     g_dngettext (GETTEXT_PACKAGE, "%u piece that was inside out turned",
                                  "%u pieces that were inside out turned", repair->flipped_pieces),
                     repair->flipped_pieces));
  return list->len > 0 ? g_string_free (g_steal_pointer (&list), FALSE) : NULL;
}

char *
trn_words_file_reader (const TrnImportReport *report)
{
  const gboolean calls = (report->confined & TRN_STREAM_CONFINED_CALLS) != 0;
  const gboolean folder = (report->confined & TRN_STREAM_CONFINED_FOLDER) != 0;
  if (calls && folder)
    return g_strdup (_ ("limits of memory and time, a filter of system calls, its folder alone"));
  if (calls)
    return g_strdup (_ ("limits of memory and time, a filter of system calls"));
  if (folder)
    return g_strdup (_ ("limits of memory and time, its folder alone"));
  return g_strdup (_ ("limits of memory and time alone"));
}

const char *
trn_words_file_counted (const TrnImportReport *report)
{
  return report->counted ? _ ("held against a count made in the file itself")
                         : _ ("not held against a count made in the file itself");
}

char *
trn_words_file_content (const TrnImportReport *report)
{
  g_autofree char *counts = trn_words_file_counts (report);
  g_autofree char *surface = trn_words_file_surface (report, FALSE);
  return g_strdup_printf (_ ("%s, %s"), counts, surface);
}

static const char *
who (gboolean given, gboolean declared, gboolean overruled)
{
  if (overruled)
    return _ ("given by the plan, against what the file declares");
  if (given && declared)
    return _ ("given by the plan, declared by the file as well");
  return given ? _ ("given by the plan") : _ ("declared by the file");
}

char *
trn_words_file_frame (const TrnMeshFile *source, const TrnImportReport *report)
{
  const gboolean unit_given = source->unit != TRN_LENGTH_UNDECLARED;
  const gboolean up_given = source->up != TRN_UP_UNDECLARED;
  g_autofree char *unit = trn_words_file_unit (report->metres_per_unit);
  const char *up = report->y_up ? _ ("Y up") : _ ("Z up");
  const char *of_unit = who (unit_given, report->unit_declared, report->unit_overruled);
  const char *of_up = who (up_given, report->up_declared, report->up_overruled);
  if (strcmp (of_unit, of_up) == 0)
    return g_strdup_printf (_ ("unit %s, %s (%s)"), unit, up, of_unit);
  return g_strdup_printf (_ ("unit %s (%s), %s (%s)"), unit, of_unit, up, of_up);
}

char *
trn_words_file_extent (const TrnImportReport *report)
{
  g_autofree char *x = trn_words_length (report->size_m.x);
  g_autofree char *y = trn_words_length (report->size_m.y);
  g_autofree char *z = trn_words_length (report->size_m.z);
  return g_strdup_printf (_ ("X × Y × Z: %s × %s × %s"), x, y, z);
}

/* “a”, “b” … */
static char *
quote_names (char **names)
{
  g_autoptr (GString) list = g_string_new (NULL);
  guint i = 0;
  for (; i < MOST_NAMES && names[i] != NULL; i++)
    {
      g_autofree char *name = trn_words_clean (names[i], LONGEST_NAME);
      g_string_append_printf (list, "%s“%s”", i > 0 ? ", " : "", name);
    }
  if (names[i] != NULL)
    g_string_append (list, ", …");
  return g_string_free (g_steal_pointer (&list), FALSE);
}

char *
trn_words_file_parts (const TrnMeshFile *source)
{
  if (source->parts == NULL)
    return NULL;
  g_autofree char *names = quote_names (source->parts);
  return g_strdup_printf (_ ("only %s of it"), names);
}

char *
trn_words_file_line (const TrnMeshFile *source, const TrnImportReport *report)
{
  g_autofree char *file = trn_words_clean (source->file, 0);
  g_autofree char *content = trn_words_file_content (report);
  g_autofree char *extent = trn_words_file_extent (report);
  g_autofree char *frame = trn_words_file_frame (source, report);
  g_autofree char *repairs = trn_words_file_repairs (report);
  g_autofree char *parts = trn_words_file_parts (source);
  g_autoptr (GString) line = g_string_new (NULL);
  g_string_append_printf (line, "%s: ", file);
  if (parts != NULL)
    g_string_append_printf (line, "%s; ", parts);
  g_string_append_printf (line, "%s; %s; %s", content, extent, frame);
  if (repairs != NULL)
    g_string_append_printf (line, "; %s", repairs);
  return g_string_free (g_steal_pointer (&line), FALSE);
}

char *
trn_words_file_users (const TrnSceneMesh *mesh)
{
  g_autoptr (GString) list = g_string_new (NULL);
  for (guint i = 0; i < mesh->users->len && i < MOST_NAMES; i++)
    {
      const char *name = g_array_index (mesh->users, TrnSceneMeshUser, i).name;
      append_take (list, trn_words_clean (name, LONGEST_NAME));
    }
  if (mesh->users->len > MOST_NAMES)
    g_string_append (list, ", …");
  return g_strdup_printf (_ ("Shape of %s"), list->str);
}

/* ---- the list of parts ---- */

char *
trn_words_file_parts_title (const TrnImportReport *report, guint32 n_parts)
{
  if (report->unit_declared)
    return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u part; its size in metres:",
                                         "%u parts; their sizes in metres:", n_parts),
                            n_parts);
  return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE,
                                       "%u part; its size in the unit of the file:",
                                       "%u parts; their sizes in the unit of the file:", n_parts),
                          n_parts);
}

char *
trn_words_file_more (guint32 n_parts)
{
  return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "… and %u more part (--all lists it)",
                                       "… and %u more parts (--all lists them)", n_parts),
                          n_parts);
}
