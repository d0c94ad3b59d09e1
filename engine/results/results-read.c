/* The tree of JSON values is walked once, with the JSON Pointer of where the walk is, so that every
 * fault has its place. What is wrong is reported and read as something harmless; whether anything
 * was wrong is looked at once, at the end. */
#include "results-read.h"

#include <string.h>

#include "json-read.h"
#include "nearest.h"
#include "results.h"

/* Far beyond any load or site, and near enough that sums of such numbers stay finite. */
#define MOST_NUMBER 1e15
/* What --certify takes. */
#define MOST_CERTIFIED_M 1.0
#define SHA256_DIGITS 64

typedef struct
{
  const TrnJson *json;
  GString *pointer; /* of what is read */
  TrnDiags *diags;
  TrnResults *results;
} Reader;

static TrnDiag *
add_fault (const Reader *reader, const char *code)
{
  const char *place = reader->pointer->str;
  TrnDiag *diag = trn_diags_add (reader->diags, TRN_SEVERITY_ERROR, code, place);
  trn_diag_set_file (diag, reader->results->file, trn_json_line_find (reader->json->lines, place));
  return diag;
}

/* Where the pointer is to go back to. */
static gsize
enter (const Reader *reader, const char *key)
{
  gsize length = reader->pointer->len;
  trn_json_pointer_append (reader->pointer, key);
  return length;
}

static gsize
enter_element (const Reader *reader, guint index)
{
  gsize length = reader->pointer->len;
  g_string_append_printf (reader->pointer, "/%u", index);
  return length;
}

static void
leave (const Reader *reader, gsize length)
{
  g_string_truncate (reader->pointer, length);
}

static TrnDiag *
add_fault_at (const Reader *reader, const char *key, const char *code)
{
  gsize length = enter (reader, key);
  TrnDiag *diag = add_fault (reader, code);
  leave (reader, length);
  return diag;
}

/* ---- values ---- */

typedef enum
{
  MAY_BE_LEFT_OUT,
  IS_NEEDED,
} Need;

/* The member called @key, borrowed; NULL where it is left out, with an error if it must not be. */
static JsonNode *
find_member (const Reader *reader, JsonObject *object, const char *key, Need need)
{
  JsonNode *node = json_object_get_member (object, key);
  if (node == NULL && need == IS_NEEDED)
    trn_diag_set_text (add_fault (reader, "results/missing-key"), "key", key);
  return node;
}

static JsonObject *
object_of (const Reader *reader, JsonNode *node)
{
  if (JSON_NODE_HOLDS_OBJECT (node))
    return json_node_get_object (node);
  add_fault (reader, "results/not-object");
  return NULL;
}

/* The array at the pointer, of at most @most elements; NULL with an error. */
static JsonArray *
array_of (const Reader *reader, JsonNode *node, guint most)
{
  if (!JSON_NODE_HOLDS_ARRAY (node))
    {
      add_fault (reader, "results/not-array");
      return NULL;
    }
  JsonArray *array = json_node_get_array (node);
  if (json_array_get_length (array) <= most)
    return array;
  trn_diag_set_number (add_fault (reader, "results/too-many"), "limit", most, TRN_UNIT_COUNT);
  return NULL;
}

static const char *
text_of (const Reader *reader, JsonNode *node)
{
  if (JSON_NODE_HOLDS_VALUE (node) && json_node_get_value_type (node) == G_TYPE_STRING)
    return g_string_chunk_insert_const (reader->results->texts, json_node_get_string (node));
  add_fault (reader, "results/not-text");
  return NULL;
}

/* Kept by the results; NULL where there is none. */
static const char *
read_text (const Reader *reader, JsonObject *object, const char *key, Need need)
{
  JsonNode *node = find_member (reader, object, key, need);
  if (node == NULL)
    return NULL;
  gsize length = enter (reader, key);
  const char *text = text_of (reader, node);
  leave (reader, length);
  return text;
}

/* An id or a word, by which findings are told apart: it has no line breaks and the like. */
static const char *
read_name (const Reader *reader, JsonObject *object, const char *key, Need need)
{
  const char *name = read_text (reader, object, key, need);
  for (const char *c = name; c != NULL && *c != '\0'; c++)
    if (g_ascii_iscntrl (*c))
      {
        add_fault_at (reader, key, "results/control");
        return NULL;
      }
  return name;
}

static const char *
read_sha256 (const Reader *reader, JsonObject *object)
{
  const char *text = read_text (reader, object, "sha256", IS_NEEDED);
  if (text != NULL
      && (strlen (text) != SHA256_DIGITS || strspn (text, "0123456789abcdef") != SHA256_DIGITS))
    add_fault_at (reader, "sha256", "results/not-sha256");
  return text;
}

static gboolean
is_number (JsonNode *node)
{
  if (node == NULL || !JSON_NODE_HOLDS_VALUE (node))
    return FALSE;
  GType type = json_node_get_value_type (node);
  return type == G_TYPE_INT64 || type == G_TYPE_DOUBLE;
}

/* From @least to @most; NAN where it is left out, or null and @or_null. */
static double
read_number_in (const Reader *reader, JsonObject *object, const char *key, gboolean or_null,
                double least, double most)
{
  JsonNode *node = find_member (reader, object, key, IS_NEEDED);
  if (node == NULL || (or_null && JSON_NODE_HOLDS_NULL (node)))
    return NAN;
  if (!is_number (node))
    {
      add_fault_at (reader, key, "results/not-number");
      return NAN;
    }
  double number = json_node_get_double (node);
  if (number >= least && number <= most)
    return number;
  TrnDiag *diag = add_fault_at (reader, key, "results/out-of-range");
  trn_diag_set_number (diag, "least", least, TRN_UNIT_NONE);
  trn_diag_set_number (diag, "most", most, TRN_UNIT_NONE);
  return NAN;
}

/* A number of any sign that there may be none of. */
static double
read_number (const Reader *reader, JsonObject *object, const char *key)
{
  return read_number_in (reader, object, key, TRUE, -MOST_NUMBER, MOST_NUMBER);
}

static double
read_length (const Reader *reader, JsonObject *object, const char *key)
{
  return read_number_in (reader, object, key, TRUE, 0, MOST_NUMBER);
}

/* ---- words ---- */

typedef enum
{
  WORD_CHECK,
  WORD_VERDICT,
  WORD_STATE,
  WORD_UNIT,
} WordKind;

static const TrnUnit units[] = { TRN_UNIT_M,  TRN_UNIT_DEG, TRN_UNIT_KG,    TRN_UNIT_N, TRN_UNIT_NM,
                                 TRN_UNIT_PA, TRN_UNIT_M_S, TRN_UNIT_DEG_S, TRN_UNIT_M2 };
static const guint n_words[]
    = { TRN_N_CHECKS, TRN_VERDICT_FAIL + 1, TRN_N_STATES, G_N_ELEMENTS (units) };

static const char *
word_of (WordKind kind, guint i)
{
  switch (kind)
    {
    case WORD_CHECK:
      return trn_check_name ((TrnCheckKind)i);
    case WORD_VERDICT:
      return trn_verdict_name ((TrnVerdict)i);
    case WORD_STATE:
      return trn_state_name ((TrnState)i);
    case WORD_UNIT:
      return trn_results_unit_name (units[i]);
    }
  g_assert_not_reached ();
}

/* Its index among the words of that kind; FALSE with an error. */
static gboolean
read_word (const Reader *reader, JsonObject *object, const char *key, WordKind kind, guint *index)
{
  const char *text = read_text (reader, object, key, IS_NEEDED);
  if (text == NULL)
    return FALSE;
  const char *words[TRN_N_STATES + TRN_N_CHECKS];
  for (*index = 0; *index < n_words[kind]; (*index)++)
    {
      words[*index] = word_of (kind, *index);
      if (strcmp (words[*index], text) == 0)
        return TRUE;
    }
  TrnDiag *diag = add_fault_at (reader, key, "results/unknown-word");
  trn_json_set_quoted (diag, "text", text);
  trn_diag_set_text (diag, "nearest", trn_nearest (text, words, n_words[kind]));
  return FALSE;
}

/* ---- findings ---- */

static int
read_move (const Reader *reader, JsonObject *object)
{
  if (!json_object_has_member (object, "move"))
    return -1;
  double move = read_number_in (reader, object, "move", FALSE, 0, G_MAXINT);
  if (isnan (move))
    return -1;
  if (move != floor (move))
    add_fault_at (reader, "move", "results/not-whole");
  return (int)move;
}

static void
read_end (const Reader *reader, JsonObject *object, TrnFinding *found)
{
  const char *end = read_text (reader, object, "end", IS_NEEDED);
  found->at_end = end != NULL && strcmp (end, "end") == 0;
  if (end == NULL || found->at_end || strcmp (end, "start") == 0)
    return;
  TrnDiag *diag = add_fault_at (reader, "end", "results/unknown-word");
  trn_json_set_quoted (diag, "text", end);
  trn_diag_set_text (diag, "nearest", "end");
}

/* true, "unknown", or left out. */
static void
read_inside (const Reader *reader, JsonObject *object, TrnFinding *found)
{
  JsonNode *node = json_object_get_member (object, "inside");
  if (node == NULL)
    return;
  GType type = JSON_NODE_HOLDS_VALUE (node) ? json_node_get_value_type (node) : G_TYPE_NONE;
  if (type == G_TYPE_BOOLEAN && json_node_get_boolean (node))
    found->inside = TRN_INSIDE_YES;
  else if (type == G_TYPE_STRING && strcmp (json_node_get_string (node), "unknown") == 0)
    found->inside = TRN_INSIDE_UNKNOWN;
  else
    add_fault_at (reader, "inside", "results/not-inside");
}

static void
read_clearance (const Reader *reader, JsonObject *object, TrnFinding *found)
{
  found->lower_m = read_number_in (reader, object, "lower", FALSE, 0, MOST_NUMBER);
  found->required_m = read_length (reader, object, "required");
  found->allowance_m = read_length (reader, object, "allowance");
  found->has_seated = json_object_has_member (object, "seated");
  read_inside (reader, object, found);
}

static void
read_swing (const Reader *reader, JsonObject *object, TrnFinding *found)
{
  found->radius_m = read_length (reader, object, "radius");
  found->sector_distance_m = read_length (reader, object, "sector_distance");
  found->required_m = read_length (reader, object, "required");
  if (found->check == TRN_CHECK_TAIL_SWING)
    found->allowance_m = read_length (reader, object, "allowance");
}

static void
read_value (const Reader *reader, JsonObject *object, TrnFinding *found)
{
  guint unit;
  found->value = read_number (reader, object, "value");
  found->limit = read_number (reader, object, "limit");
  found->margin = read_number (reader, object, "margin");
  if (json_object_has_member (object, "allowance"))
    found->allowance_m = read_length (reader, object, "allowance");
  if (read_word (reader, object, "unit", WORD_UNIT, &unit))
    found->unit = units[unit];
}

/* The numbers that its check has. */
static void
read_numbers (const Reader *reader, JsonObject *object, TrnFinding *found)
{
  switch (found->check)
    {
    case TRN_CHECK_CLEARANCE:
    case TRN_CHECK_APPROACH:
      read_clearance (reader, object, found);
      return;
    case TRN_CHECK_SWING_RADIUS:
      read_swing (reader, object, found);
      return;
    case TRN_CHECK_TAIL_SWING:
      (found->item != NULL ? read_value : read_swing) (reader, object, found);
      return;
    case TRN_CHECK_SEAT:
      read_end (reader, object, found);
      return;
    case TRN_CHECK_START:
    case TRN_CHECK_STANDING:
    case TRN_CHECK_FOOTING:
      return;
    case TRN_CHECK_HEADROOM:
    case TRN_CHECK_REACH:
    case TRN_CHECK_RIGGING:
    case TRN_CHECK_HOOK_LOAD:
    case TRN_CHECK_CAPACITY:
    case TRN_CHECK_LOAD_SHARE:
    case TRN_CHECK_SLINGS:
    case TRN_CHECK_GROUND:
    case TRN_CHECK_WIND:
    case TRN_CHECK_RESTING:
    case TRN_CHECK_ATTITUDE:
    case TRN_CHECK_HOIST_LINES:
    case TRN_CHECK_SPEEDS:
    case TRN_CHECK_SWINGING:
      read_value (reader, object, found);
      return;
    }
  g_assert_not_reached ();
}

/* What is about the same thing in two files has the same text. What the plan leaves out is told
 * apart by what that is. Names have no line breaks. */
static char *
identity_dup (const char *lift, const TrnFinding *found)
{
  /* Of all moves, in whichever it is greatest. */
  const int move = found->check == TRN_CHECK_WIND ? -1 : found->move;
  gboolean is_gap = found->state == TRN_STATE_NOT_GIVEN && found->missing != NULL;
  return g_strdup_printf ("%s\n%s\n%d\n%s\n%s\n%d\n%s\n%s", lift, trn_check_name (found->check),
                          move, found->body, found->obstacle != NULL ? found->obstacle : "",
                          found->at_end, found->item != NULL ? found->item : "",
                          is_gap ? found->missing : "");
}

static void
free_finding (gpointer data)
{
  TrnResultsFinding *finding = data;
  trn_finding_clear (&finding->found);
  g_free (finding->identity);
  g_free (finding);
}

static void
add_finding (const Reader *reader, const char *lift, const TrnFinding *found)
{
  TrnResults *results = reader->results;
  TrnResultsFinding *finding = g_new0 (TrnResultsFinding, 1);
  finding->lift = lift;
  finding->found = *found;
  finding->identity = identity_dup (lift, found);
  g_ptr_array_add (results->findings, finding);
  if (!g_hash_table_insert (results->by_identity, finding->identity, finding))
    add_fault (reader, "results/same-finding");
}

static void
read_finding (const Reader *reader, JsonNode *node, const char *lift)
{
  TrnFinding found = { .lower_m = NAN,
                       .required_m = NAN,
                       .allowance_m = NAN,
                       .radius_m = NAN,
                       .sector_distance_m = NAN,
                       .value = NAN,
                       .limit = NAN,
                       .margin = NAN };
  guint check, verdict, state;
  JsonObject *object = object_of (reader, node);
  if (object == NULL || !read_word (reader, object, "check", WORD_CHECK, &check))
    return;
  gboolean judged = read_word (reader, object, "verdict", WORD_VERDICT, &verdict);
  if (!read_word (reader, object, "state", WORD_STATE, &state) || !judged)
    return;
  found.check = (TrnCheckKind)check;
  found.verdict = (TrnVerdict)verdict;
  found.state = (TrnState)state;
  found.move = read_move (reader, object);
  found.body = read_name (reader, object, "body", IS_NEEDED);
  found.obstacle = read_name (reader, object, "obstacle", MAY_BE_LEFT_OUT);
  found.item = read_name (reader, object, "item", MAY_BE_LEFT_OUT);
  found.missing = read_name (reader, object, "missing", MAY_BE_LEFT_OUT);
  read_numbers (reader, object, &found);
  if (found.body != NULL && lift != NULL)
    add_finding (reader, lift, &found);
}

static void
read_lift (const Reader *reader, JsonNode *node)
{
  JsonObject *object = object_of (reader, node);
  if (object == NULL)
    return;
  const char *lift = read_name (reader, object, "lift", IS_NEEDED);
  JsonNode *list = find_member (reader, object, "findings", IS_NEEDED);
  if (list == NULL)
    return;
  gsize length = enter (reader, "findings");
  guint most = TRN_RESULTS_MOST_FINDINGS - reader->results->findings->len;
  JsonArray *array = array_of (reader, list, most);
  for (guint i = 0; array != NULL && i < json_array_get_length (array); i++)
    {
      gsize of_element = enter_element (reader, i);
      read_finding (reader, json_array_get_element (array, i), lift);
      leave (reader, of_element);
    }
  leave (reader, length);
}

/* ---- the file ---- */

static gboolean
has_mesh (const TrnResults *results, const char *file)
{
  for (guint i = 0; i < results->meshes->len; i++)
    if (strcmp (g_array_index (results->meshes, TrnResultsMesh, i).file, file) == 0)
      return TRUE;
  return FALSE;
}

static void
read_mesh (const Reader *reader, JsonNode *node)
{
  JsonObject *object = object_of (reader, node);
  if (object == NULL)
    return;
  TrnResultsMesh mesh = { .file = read_text (reader, object, "file", IS_NEEDED),
                          .sha256 = read_sha256 (reader, object) };
  if (mesh.file == NULL || mesh.sha256 == NULL)
    return;
  if (has_mesh (reader->results, mesh.file))
    add_fault (reader, "results/same-mesh");
  else
    g_array_append_val (reader->results->meshes, mesh);
}

static void
read_check (const Reader *reader, JsonNode *node)
{
  const char *check = text_of (reader, node);
  if (check != NULL)
    g_ptr_array_add (reader->results->checks, (char *)check);
}

/* Gives each element of the array @key to @read. */
static void
read_list (const Reader *reader, JsonObject *object, const char *key, guint most,
           void (*read) (const Reader *, JsonNode *))
{
  JsonNode *node = find_member (reader, object, key, IS_NEEDED);
  if (node == NULL)
    return;
  gsize length = enter (reader, key);
  JsonArray *array = array_of (reader, node, most);
  for (guint i = 0; array != NULL && i < json_array_get_length (array); i++)
    {
      gsize of_element = enter_element (reader, i);
      read (reader, json_array_get_element (array, i));
      leave (reader, of_element);
    }
  leave (reader, length);
}

static void
read_plan (const Reader *reader, JsonObject *object)
{
  JsonNode *node = find_member (reader, object, "plan", IS_NEEDED);
  if (node == NULL)
    return;
  gsize length = enter (reader, "plan");
  JsonObject *plan = object_of (reader, node);
  if (plan != NULL)
    {
      reader->results->title = read_text (reader, plan, "title", IS_NEEDED);
      reader->results->plan_file = read_text (reader, plan, "file", IS_NEEDED);
      reader->results->plan_sha256 = read_sha256 (reader, plan);
    }
  leave (reader, length);
}

/* Whether it is a results file of a version that is known. */
static gboolean
check_format (const Reader *reader, JsonObject *object)
{
  const char *format = read_text (reader, object, "format", IS_NEEDED);
  if (format == NULL)
    return FALSE;
  if (strcmp (format, "trunnion-results") != 0)
    {
      trn_json_set_quoted (add_fault_at (reader, "format", "results/format"), "text", format);
      return FALSE;
    }
  JsonNode *version = find_member (reader, object, "version", IS_NEEDED);
  if (version != NULL && is_number (version) && json_node_get_double (version) == 1)
    return TRUE;
  if (version != NULL)
    add_fault_at (reader, "version", "results/version");
  return FALSE;
}

static void
read_document (const Reader *reader)
{
  JsonObject *object = object_of (reader, reader->json->root);
  if (object == NULL || !check_format (reader, object))
    return;
  reader->results->program = read_text (reader, object, "program", IS_NEEDED);
  read_plan (reader, object);
  read_list (reader, object, "meshes", TRN_RESULTS_MOST_FILES, read_mesh);
  reader->results->certified_to_m
      = read_number_in (reader, object, "certified_to", FALSE, 0, MOST_CERTIFIED_M);
  read_list (reader, object, "checks_done", TRN_RESULTS_MOST_FILES, read_check);
  read_list (reader, object, "lifts", TRN_RESULTS_MOST_FILES, read_lift);
}

static TrnResults *
results_new (const char *file)
{
  TrnResults *results = g_new0 (TrnResults, 1);
  results->file = g_strdup (file);
  results->meshes = g_array_new (FALSE, FALSE, sizeof (TrnResultsMesh));
  results->checks = g_ptr_array_new ();
  results->findings = g_ptr_array_new_with_free_func (free_finding);
  results->by_identity = g_hash_table_new (g_str_hash, g_str_equal);
  results->texts = g_string_chunk_new (4096);
  return results;
}

void
trn_results_free (TrnResults *results)
{
  if (results == NULL)
    return;
  g_hash_table_unref (results->by_identity);
  g_ptr_array_unref (results->findings);
  g_ptr_array_unref (results->checks);
  g_array_unref (results->meshes);
  g_string_chunk_free (results->texts);
  g_free (results->file);
  g_free (results);
}

TrnResults *
trn_results_parse (const char *bytes, gsize length, const char *file, TrnDiags *diags)
{
  const guint errors = trn_diags_count (diags, TRN_SEVERITY_ERROR);
  if (length > TRN_JSON_MAX_BYTES)
    {
      TrnDiag *diag = trn_diags_add (diags, TRN_SEVERITY_ERROR, "results/too-long", NULL);
      trn_diag_set_file (diag, file, 0);
      trn_diag_set_number (diag, "limit", TRN_JSON_MAX_BYTES, TRN_UNIT_BYTES);
      return NULL;
    }
  TrnJson json;
  g_autoptr (TrnResults) results = results_new (file);
  g_autoptr (GString) pointer = g_string_new (NULL);
  const Reader reader = { &json, pointer, diags, results };
  if (trn_json_read (bytes, length, file, &json, diags))
    read_document (&reader);
  trn_json_clear (&json);
  return trn_diags_count (diags, TRN_SEVERITY_ERROR) == errors ? g_steal_pointer (&results) : NULL;
}

TrnResults *
trn_results_read (const char *path, TrnDiags *diags)
{
  g_autoptr (GByteArray) bytes = trn_json_load (path, diags);
  return bytes != NULL ? trn_results_parse ((const char *)bytes->data, bytes->len, path, diags)
                       : NULL;
}
