/* inspect.c: `trunnion inspect`: what is in a mesh file, without a plan.
 *
 * The file is read as a check reads it, but that nothing which a plan would have to give is asked
 * for: a unit that it does not declare is left open, and every unit has its row. */
#include <stdio.h>
#include <string.h>

#include "cli.h"
#include "file-words.h"
#include "tolerances.h"
#include "watch.h"

/* Parts listed without --all. */
#define MOST_PARTS 20
#define COUNT_WIDTH 11
#define UNIT_SAME 1e-7
#define LABEL_WIDTH 13

static void
append_padded (GString *line, const char *text, glong width, gboolean right)
{
  int gap = (int)MAX (0, width - g_utf8_strlen (text, -1));
  if (right)
    g_string_append_printf (line, "%*s%s", gap, "", text);
  else
    g_string_append_printf (line, "%s%*s", text, gap, "");
}

/* ---- what it is ---- */

static void
print_fact (const char *label, const char *text)
{
  g_autoptr (GString) line = g_string_new ("  ");
  append_padded (line, label, LABEL_WIDTH, FALSE);
  g_string_append_printf (line, "  %s", text);
  puts (line->str);
}

static void
print_facts (const char *path, const char *sha256, const TrnImportReport *report)
{
  g_autofree char *name = trn_words_clean (path, 0);
  g_autofree char *format = trn_words_file_format (path);
  g_autofree char *counts = trn_words_file_counts (report);
  g_autofree char *surface = trn_words_file_surface (report, !report->unit_declared);
  g_autofree char *repairs = trn_words_file_repairs (report);
  g_autofree char *unit = trn_words_file_unit (report->metres_per_unit);
  g_autofree char *reader = trn_words_file_reader (report);
  printf ("%s: %s\n", name, format);
  print_fact ("SHA-256", sha256);
  print_fact (trn_words_file (TRN_FILE_TRIANGLES), counts);
  print_fact (trn_words_file (TRN_FILE_FACES), trn_words_file_counted (report));
  print_fact (trn_words_file (TRN_FILE_SURFACE), surface);
  print_fact (trn_words_file (TRN_FILE_PUT_RIGHT),
              repairs != NULL ? repairs : trn_words_file (TRN_FILE_NOTHING));
  print_fact (trn_words_file (TRN_FILE_UNIT),
              report->unit_declared ? unit : trn_words_file (TRN_FILE_UNIT_NONE));
  print_fact (trn_words_file (TRN_FILE_UP), trn_words_file (!report->up_declared ? TRN_FILE_UP_NONE
                                                            : report->y_up       ? TRN_FILE_UP_Y
                                                                                 : TRN_FILE_UP_Z));
  print_fact (trn_words_file (TRN_FILE_READER), reader);
}

/* ---- each unit ---- */

typedef enum
{
  UNIT_NAME,
  UNIT_SIZE,
  UNIT_LARGEST,
  UNIT_LOSS,
  UNIT_REMARK,
  N_UNIT_COLUMNS,
} UnitColumn;

typedef struct
{
  char *cells[N_UNIT_COLUMNS];
} UnitRow;

static UnitRow
make_row (const TrnMesh *mesh, const TrnImportReport *report, double metres)
{
  double scale = metres / report->metres_per_unit;
  gboolean is_declared = report->unit_declared && fabs (scale - 1) <= UNIT_SAME;
  gboolean is_refused = report->loss_m * scale > TRN_IMPORT_LOSS_M;
  const char *refused = is_refused ? trn_words_file (TRN_FILE_REFUSED) : "";
  const char *declared = is_declared ? trn_words_file (TRN_FILE_DECLARED) : "";
  return (UnitRow){ {
      [UNIT_NAME] = trn_words_file_unit (metres),
      [UNIT_SIZE] = trn_words_file_size (trn_vec3_scale (trn_box_size (&mesh->box), scale)),
      [UNIT_LARGEST] = trn_words_file_number (report->largest_m * scale),
      [UNIT_LOSS] = trn_words_file_loss (report->loss_m * scale),
      [UNIT_REMARK] = g_strconcat (declared, is_declared && is_refused ? ", " : "", refused, NULL),
  } };
}

static void
print_rows (const UnitRow *rows, guint n)
{
  glong widths[N_UNIT_COLUMNS] = { 0 };
  for (guint i = 0; i < n; i++)
    for (guint c = 0; c < N_UNIT_COLUMNS; c++)
      widths[c] = MAX (widths[c], g_utf8_strlen (rows[i].cells[c], -1));
  for (guint i = 0; i < n; i++)
    {
      g_autoptr (GString) line = g_string_new (NULL);
      for (guint c = 0; c < N_UNIT_COLUMNS; c++)
        {
          g_string_append (line, "  ");
          append_padded (line, rows[i].cells[c], widths[c], c != UNIT_NAME && c != UNIT_REMARK);
        }
      puts (g_strchomp (line->str));
    }
}

static void
print_units (const TrnMesh *mesh, const TrnImportReport *report)
{
  static const TrnLengthUnit units[]
      = { TRN_LENGTH_M, TRN_LENGTH_CM, TRN_LENGTH_MM, TRN_LENGTH_FT, TRN_LENGTH_IN };
  UnitRow rows[G_N_ELEMENTS (units) + 2];
  guint n = 0;
  rows[n++] = (UnitRow){ { g_strdup (trn_words_file (TRN_FILE_UNIT)),
                           g_strdup (trn_words_file (TRN_FILE_SIZE)),
                           g_strdup (trn_words_file (TRN_FILE_LARGEST)),
                           g_strdup (trn_words_file (TRN_FILE_LOSS)), g_strdup ("") } };
  gboolean is_common = FALSE;
  for (guint i = 0; i < G_N_ELEMENTS (units); i++)
    {
      double metres = trn_length_unit_metres (units[i]);
      is_common = is_common || fabs (report->metres_per_unit - metres) <= UNIT_SAME * metres;
      rows[n++] = make_row (mesh, report, metres);
    }
  if (!is_common)
    rows[n++] = make_row (mesh, report, report->metres_per_unit);
  puts ("");
  puts (trn_words_file (TRN_FILE_IN_METRES));
  print_rows (rows, n);
  for (guint i = 0; i < n; i++)
    for (guint c = 0; c < N_UNIT_COLUMNS; c++)
      g_free (rows[i].cells[c]);
}

/* ---- parts ---- */

static TrnVec3
size_of_part (const TrnMesh *mesh, const TrnMeshPart *part)
{
  TrnBox box = trn_box_empty ();
  for (guint32 i = part->first; i < part->first + part->count; i++)
    {
      TrnVec3 corners[3];
      trn_mesh_corners (mesh, i, corners);
      for (int k = 0; k < 3; k++)
        trn_box_add_point (&box, corners[k]);
    }
  return trn_box_is_empty (&box) ? trn_vec3_make (0, 0, 0) : trn_box_size (&box);
}

/* The name comes last, since it is of any length and stands in a plan as it stands here. */
static void
print_part (const char *triangles, const char *size, glong size_width, const char *name)
{
  g_autoptr (GString) line = g_string_new (NULL);
  append_padded (line, triangles, COUNT_WIDTH, TRUE);
  g_string_append (line, "  ");
  append_padded (line, size, size_width, TRUE);
  g_string_append_printf (line, "  %s", name);
  puts (line->str);
}

static void
print_parts (const TrnMesh *mesh, const TrnImportReport *report, gboolean all)
{
  guint32 n = all ? mesh->n_parts : MIN (mesh->n_parts, MOST_PARTS);
  g_autofree char *title = trn_words_file_parts_title (report, mesh->n_parts);
  g_autoptr (GPtrArray) sizes = g_ptr_array_new_with_free_func (g_free);
  glong width = g_utf8_strlen (trn_words_file (TRN_FILE_SIZE), -1);
  for (guint32 i = 0; i < n; i++)
    {
      char *size = trn_words_file_size (size_of_part (mesh, &mesh->parts[i]));
      width = MAX (width, g_utf8_strlen (size, -1));
      g_ptr_array_add (sizes, size);
    }
  printf ("\n%s\n", title);
  print_part (trn_words_file (TRN_FILE_TRIANGLES), trn_words_file (TRN_FILE_SIZE), width,
              trn_words_file (TRN_FILE_PART));
  for (guint32 i = 0; i < n; i++)
    {
      g_autofree char *name = trn_words_clean (mesh->parts[i].name, 0);
      g_autofree char *count = g_strdup_printf ("%u", mesh->parts[i].count);
      print_part (count, sizes->pdata[i], width,
                  *name != '\0' ? name : trn_words_file (TRN_FILE_UNNAMED));
    }
  if (n == mesh->n_parts)
    return;
  g_autofree char *more = trn_words_file_more (mesh->n_parts - n);
  printf ("  %s\n", more);
}

CliStatus
cli_inspect (const CliOptions *options)
{
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  TrnImportRequest request = { .path = options->plan, .look_only = TRUE };
  TrnImportReport report;
  char sha256[65];
  CliWatch *watch = cli_watch_start ();
  g_autoptr (TrnMesh) mesh
      = trn_import_mesh (&request, NULL, cli_watch_progress (watch), sha256, &report, diags);
  gboolean interrupted = cli_watch_stop (watch);
  if (interrupted)
    cli_note_interrupted (diags);
  cli_print_diags (diags);
  if (interrupted)
    return CLI_INTERRUPTED;
  if (mesh == NULL)
    return CLI_BAD_PLAN;
  print_facts (options->plan, sha256, &report);
  print_units (mesh, &report);
  print_parts (mesh, &report, options->all);
  return cli_finish_output (CLI_PASSES);
}
