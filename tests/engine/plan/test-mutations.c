/* Damaged plans: the full example with some bytes changed, left out, doubled, or cut off; and with
 * some values taken out, or replaced by others, so that the text stays JSON. Whatever comes of it,
 * there is a plan or at least one error, never both and never neither; an error names the file and
 * says each thing once; and a plan that is read can be written and read again. */
#include "plan.h"

#include <string.h>

#include "json-read.h"
#include "json-text.h"
#include "test-scale.h"

static gsize
pick (gsize n)
{
  return n == 0 ? 0 : (gsize)g_test_rand_int_range (0, (gint32)n);
}

/* Marks and words that make a text break in more telling ways than random bytes. */
static void
insert_token (GString *text)
{
  static const char *const tokens[] = {
    "{",      "}",        "[",       "]",   ",",     ":",    "\"",      "\\",
    "null",   "true",     "-1",      "0",   "1e999", "1e-9", "\\u0000", "\\ud800",
    "\"x-\"", "\"load\"", "\"a/b\"", "[0]", "{}",    "\xff", "NaN",     "99999999999999999999"
  };
  g_string_insert (text, (gssize)pick (text->len + 1), tokens[pick (G_N_ELEMENTS (tokens))]);
}

static void
mutate (GString *text)
{
  const gsize at = pick (text->len), wanted = pick (40);
  const gsize length = MIN (wanted, text->len - at);
  switch (g_test_rand_int_range (0, 7))
    {
    case 0:
      if (text->len > 0)
        text->str[at] = (char)(text->str[at] ^ (1 << pick (8)));
      break;
    case 1:
      if (text->len > 0)
        text->str[at] = (char)pick (256);
      break;
    case 2:
      g_string_erase (text, (gssize)at, (gssize)length);
      break;
    case 3:
      {
        g_autofree char *piece = g_strndup (text->str + at, length);
        g_string_insert (text, (gssize)pick (text->len + 1), piece);
        break;
      }
    case 4:
      g_string_truncate (text, at);
      break;
    default:
      insert_token (text);
    }
}

static void
check_errors (const TrnDiags *diags)
{
  g_autoptr (GHashTable) seen = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  for (guint i = 0; i < diags->items->len; i++)
    {
      const TrnDiag *diag = g_ptr_array_index (diags->items, i);
      const TrnDiagValue *key = trn_diag_get (diag, "key");
      g_assert_cmpstr (diag->file, ==, "damaged.trunnion");
      g_assert_true (g_utf8_validate (diag->pointer, -1, NULL));
      char *what = g_strjoin (" ", diag->code, diag->pointer, key != NULL ? key->text : "", NULL);
      /* A key may stand three times; a key and its value may both hold a character that no text
       * can. */
      const gboolean repeats = g_str_equal (diag->code, "plan/json-duplicate")
                               || g_str_equal (diag->code, "plan/json-zero")
                               || g_str_equal (diag->code, "plan/json-surrogate");
      g_assert_true (g_hash_table_add (seen, what) || repeats);
    }
}

static void
check_plan (const TrnPlan *plan)
{
  gsize length;
  g_autofree char *text = trn_plan_to_text (plan, &length);
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_autoptr (TrnPlan) again = trn_plan_parse (text, length, NULL, NULL, NULL, diags);
  g_assert_nonnull (again);
  g_autofree char *text_again = trn_plan_to_text (again, NULL);
  g_assert_cmpstr (text_again, ==, text);
}

/* TRUE when the text could be read. */
static gboolean
check_text (const char *text, gsize length)
{
  /* A copy of just this length, so that a step beyond it is found. */
  g_autofree char *bytes = g_memdup2 (text, length);
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_autoptr (TrnPlan) plan = trn_plan_parse (bytes, length, "damaged.trunnion", NULL, NULL, diags);
  g_assert_cmpint (plan == NULL, ==, trn_diags_have_errors (diags));
  check_errors (diags);
  if (plan != NULL)
    check_plan (plan);
  return plan != NULL;
}

static char *
read_example (gsize *length)
{
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "data", "full.trunnion", NULL);
  char *text = NULL;
  g_assert_true (g_file_get_contents (path, &text, length, NULL));
  return text;
}

static void
report (guint n_read, guint n)
{
  g_test_message ("%u of %u could still be read", n_read, n);
  g_assert_cmpuint (n_read, >, 0);
  g_assert_cmpuint (n_read, <, n);
}

static void
test_bytes (void)
{
  gsize length;
  g_autofree char *good = read_example (&length);
  guint n_read = 0;
  const guint n = test_scaled (5000);
  for (guint i = 0; i < n; i++)
    {
      g_autoptr (GString) text = g_string_new_len (good, (gssize)length);
      for (gsize k = 1 + pick (4); k > 0; k--)
        mutate (text);
      n_read += check_text (text->str, text->len);
    }
  report (n_read, n);
}

static JsonNode *
read_json (const char *text, gsize length)
{
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  TrnJson json;
  g_assert_true (trn_json_read (text, length, NULL, &json, diags));
  JsonNode *root = g_steal_pointer (&json.root);
  trn_json_clear (&json);
  return root;
}

static JsonNode *
random_value (void)
{
  static const char *const values[] = { "null",         "true",      "0",
                                        "-1",           "0.5",       "1e9",
                                        "1e-9",         "\"\"",      "\"load\"",
                                        "\"shaft\"",    "\"pump\"",  "\"shaft/floor\"",
                                        "\"end\"",      "\"group\"", "\"tilt\"",
                                        "[]",           "[1, 2]",    "[1, 2, 3]",
                                        "[1, 2, \"\"]", "{}",        "{\"id\": \"\"}",
                                        "\"a/b\"",      "\"../a\"",  "{\"kind\": \"group\"}",
                                        "\"tower\"",    "\"crane\"", "\"beam-b\"",
                                        "[2, 1]",       "[[1, 2]]",  "\"tower/boom\"" };
  const char *value = values[pick (G_N_ELEMENTS (values))];
  return read_json (value, strlen (value));
}

/* Takes out, renames or replaces a member or element somewhere below @node. */
static void
mutate_tree (JsonNode *node)
{
  if (JSON_NODE_HOLDS_ARRAY (node))
    {
      JsonArray *array = json_node_get_array (node);
      const guint n = json_array_get_length (array);
      JsonNode *child = n > 0 ? json_array_get_element (array, (guint)pick (n)) : NULL;
      if (child != NULL && !JSON_NODE_HOLDS_VALUE (child) && !JSON_NODE_HOLDS_NULL (child)
          && pick (5) > 0)
        mutate_tree (child);
      else if (n > 0 && pick (2) == 0)
        json_array_remove_element (array, (guint)pick (n));
      else
        json_array_add_element (array,
                                n > 0 && pick (2) == 0 ? json_node_copy (child) : random_value ());
      return;
    }
  JsonObject *object = json_node_get_object (node);
  g_autoptr (GList) keys = json_object_get_members (object);
  if (keys == NULL)
    return;
  const char *key = g_list_nth_data (keys, (guint)pick (g_list_length (keys)));
  const char *other = g_list_nth_data (keys, (guint)pick (g_list_length (keys)));
  JsonNode *child = json_object_get_member (object, key);
  if (!JSON_NODE_HOLDS_VALUE (child) && !JSON_NODE_HOLDS_NULL (child) && pick (5) > 0)
    mutate_tree (child);
  else if (pick (3) == 0)
    json_object_remove_member (object, key);
  else if (pick (3) == 0)
    json_object_set_member (object, other, json_node_copy (child));
  else if (pick (8) == 0)
    json_object_set_member (object, "x-y", json_node_copy (child));
  else
    json_object_set_member (object, key, random_value ());
}

static void
test_values (void)
{
  gsize length;
  g_autofree char *good = read_example (&length);
  guint n_read = 0;
  const guint n = test_scaled (1000);
  for (guint i = 0; i < n; i++)
    {
      g_autoptr (JsonNode) root = read_json (good, length);
      for (gsize k = 1 + pick (3); k > 0; k--)
        mutate_tree (root);
      gsize text_length;
      g_autofree char *text = trn_json_to_text (root, &text_length);
      n_read += check_text (text, text_length);
    }
  report (n_read, n);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/plan/mutations/bytes", test_bytes);
  g_test_add_func ("/plan/mutations/values", test_values);
  return g_test_run ();
}
