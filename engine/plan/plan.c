/* The plan as a whole: read, written, and asked. */
#include "plan.h"

#include <math.h>
#include <string.h>

#include "json-text.h"
#include "plan-read.h"
#include "write-file.h"

#define FORMAT "trunnion-plan"
#define VERSION 1

/* FALSE where the document is no plan of this version: what else it holds has other rules then. */
static gboolean
check_format (TrnReader *reader, const TrnValue *document)
{
  g_autofree char *format = trn_read_text (reader, document, "format", TRN_REQUIRED);
  TrnValue format_value = trn_value_member (document, "format");
  if (format != NULL && !g_str_equal (format, FORMAT))
    {
      trn_read_fault_text (reader, &format_value, "plan/wrong-format", "format", format);
      return FALSE;
    }
  TrnValue version = trn_read_member (reader, document, "version", TRN_REQUIRED);
  if (version.node == NULL)
    return TRUE;
  const double number = trn_value_is_number (&version) ? json_node_get_double (version.node) : NAN;
  if (number == VERSION)
    return TRUE;
  const gboolean newer = number > VERSION && number == floor (number) && isfinite (number);
  TrnDiag *diag
      = trn_read_fault (reader, &version, newer ? "plan/newer-version" : "plan/wrong-version");
  if (newer)
    trn_diag_set_number (diag, "version", number, TRN_UNIT_COUNT);
  trn_diag_set_number (diag, "known", VERSION, TRN_UNIT_COUNT);
  return !newer;
}

static char *
read_text_or_empty (TrnReader *reader, const TrnValue *document, const char *key)
{
  char *text = trn_read_text (reader, document, key, TRN_OPTIONAL);
  return text != NULL ? text : g_strdup ("");
}

static void
read_document (TrnReader *reader)
{
  static const char *const keys[]
      = { "$schema",    "format", "version",  "title", "notes", "keep_clear", "structures",
          "components", "gear",   "approach", "loads", "wind",  "programme",  NULL };
  TrnPlan *plan = reader->plan;
  TrnValue document = { .node = reader->json->root };
  if (!trn_read_object (reader, &document, NULL) || !check_format (reader, &document))
    return;
  trn_read_object (reader, &document, keys);
  g_free (trn_read_text (reader, &document, "$schema", TRN_OPTIONAL)); /* for editors; kept */
  plan->title = read_text_or_empty (reader, &document, "title");
  plan->notes = read_text_or_empty (reader, &document, "notes");
  plan->keep_clear_m
      = trn_read_number (reader, &document, "keep_clear", TRN_OPTIONAL, &trn_range_distance);
  trn_read_structures (reader, &document);
  trn_read_components (reader, &document);
  trn_read_gear (reader, &document);
  trn_read_approach (reader, &document);
  trn_read_loads (reader, &document);
  trn_read_wind (reader, &document);
  trn_read_programme (reader, &document);
}

/* A plan that lifts nothing is no mistake while it is being written. */
static void
warn_of_nothing_lifted (TrnReader *reader)
{
  if (reader->plan->n_lifts > 0)
    return;
  TrnDiag *diag
      = trn_diags_add (reader->diags, TRN_SEVERITY_WARNING, "plan/nothing-lifted", "/programme");
  trn_diag_set_file (diag, reader->file, trn_json_line_find (reader->json->lines, "/programme"));
}

static int
compare_lines (gconstpointer a, gconstpointer b, gpointer data)
{
  const TrnDiag *first = *(TrnDiag *const *)a, *second = *(TrnDiag *const *)b;
  return first->line < second->line ? -1 : first->line > second->line;
}

/* What was added from @begin on, in the order of the file; on one line as it was found, since
 * g_qsort_with_data is stable. */
static void
sort_by_line (TrnDiags *diags, guint begin)
{
  if (begin < diags->items->len)
    g_qsort_with_data (diags->items->pdata + begin, (int)(diags->items->len - begin),
                       sizeof (gpointer), compare_lines, NULL);
}

static TrnPlan *
plan_new (const char *bytes, gsize length, const char *file)
{
  TrnPlan *plan = g_atomic_rc_box_new0 (TrnPlan);
  g_autofree char *sha256
      = g_compute_checksum_for_data (G_CHECKSUM_SHA256, (const guchar *)bytes, length);
  g_strlcpy (plan->sha256, sha256, sizeof plan->sha256);
  plan->file = g_strdup (file);
  plan->base_name = file != NULL ? g_path_get_basename (file) : g_strdup ("");
  return plan;
}

TrnPlan *
trn_plan_parse (const char *bytes, gsize length, const char *file, const char *folder,
                const TrnPlanOptions *options, TrnDiags *diags)
{
  const guint errors = trn_diags_count (diags, TRN_SEVERITY_ERROR);
  const guint begin = diags->items->len;
  TrnJson json;
  if (!trn_json_read (bytes, length, file, &json, diags))
    {
      trn_json_clear (&json);
      return NULL;
    }
  g_autoptr (TrnPlan) plan = plan_new (bytes, length, file);
  g_autoptr (TrnDiags) muted = trn_diags_new ();
  g_autoptr (GHashTable) bodies = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  g_autoptr (GHashTable) rigging = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  g_autoptr (GHashTable) steps = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  TrnReader reader = { .json = &json, .file = file, .folder = folder };
  reader.outside_files = options != NULL && options->outside_files;
  reader.diags = diags;
  reader.muted = muted;
  reader.bodies = bodies;
  reader.rigging = rigging;
  reader.steps = steps;
  reader.plan = plan;
  read_document (&reader);
  const gboolean may_miss = options != NULL && options->missing_files;
  const gboolean good
      = trn_diags_count (diags, TRN_SEVERITY_ERROR) == errors + (may_miss ? reader.n_missing : 0);
  if (good)
    {
      warn_of_nothing_lifted (&reader);
      plan->document = g_steal_pointer (&json.root);
      plan->lines = g_steal_pointer (&json.lines);
      json_node_seal (plan->document);
    }
  sort_by_line (diags, begin);
  trn_json_clear (&json);
  return good ? g_steal_pointer (&plan) : NULL;
}

TrnPlan *
trn_plan_read (const char *path, const TrnPlanOptions *options, TrnDiags *diags)
{
  g_autoptr (GByteArray) bytes = trn_json_load (path, diags);
  if (bytes == NULL)
    return NULL;
  g_autofree char *folder = g_path_get_dirname (path);
  return trn_plan_parse ((const char *)bytes->data, bytes->len, path, folder, options, diags);
}

char *
trn_plan_to_text (const TrnPlan *plan, gsize *length)
{
  return trn_json_to_text (plan->document, length);
}

gboolean
trn_plan_write (const TrnPlan *plan, const char *path, TrnDiags *diags)
{
  gsize length;
  g_autofree char *text = trn_plan_to_text (plan, &length);
  return trn_write_file (path, text, length, diags);
}

void
trn_plan_locate (const TrnPlan *plan, TrnDiag *diag)
{
  const char *pointer = diag->pointer != NULL ? diag->pointer : "";
  trn_diag_set_file (diag, plan->file, trn_json_line_find (plan->lines, pointer));
}

const TrnStructure *
trn_plan_find_structure (const TrnPlan *plan, const char *id)
{
  for (guint i = 0; i < plan->n_structures; i++)
    if (g_strcmp0 (plan->structures[i].id, id) == 0)
      return &plan->structures[i];
  return NULL;
}

const TrnComponent *
trn_plan_find_component (const TrnPlan *plan, const char *id)
{
  for (guint i = 0; i < plan->n_components; i++)
    if (g_strcmp0 (plan->components[i].id, id) == 0)
      return &plan->components[i];
  return NULL;
}

const TrnGear *
trn_plan_find_gear (const TrnPlan *plan, const char *id)
{
  for (guint i = 0; i < plan->n_gear; i++)
    if (g_strcmp0 (plan->gear[i].id, id) == 0)
      return &plan->gear[i];
  return NULL;
}
