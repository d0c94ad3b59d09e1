/* The reader and the writer of JSON by themselves: RFC 8259 for what is JSON, RFC 6901 for
 * pointers. What is refused is in test-bad-plans.c, but for what a table of texts cannot hold. */
#include <math.h>
#include <string.h>

#include "json-read.h"
#include "json-text.h"
#include "test-scale.h"

/* Reads @text from a buffer without an end mark, so that a step beyond it is found. */
static gboolean
read_exactly (const char *text, gsize length, TrnJson *json, TrnDiags *diags)
{
  g_autofree char *bytes = g_memdup2 (text, length);
  return trn_json_read (bytes, length, "text.json", json, diags);
}

static JsonNode *
read_good (const char *text)
{
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  TrnJson json;
  g_assert_true (read_exactly (text, strlen (text), &json, diags));
  g_assert_cmpuint (diags->items->len, ==, 0);
  JsonNode *root = json_node_ref (json.root);
  trn_json_clear (&json);
  return root;
}

static void
assert_refused (const char *text, gsize length, const char *code)
{
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  TrnJson json;
  g_assert_false (read_exactly (text, length, &json, diags));
  g_assert_null (json.root);
  trn_json_clear (&json);
  g_assert_cmpuint (diags->items->len, ==, 1);
  const TrnDiag *diag = g_ptr_array_index (diags->items, 0);
  g_assert_cmpstr (diag->code, ==, code);
}

static void
assert_text (const char *text, const char *expected)
{
  g_autoptr (JsonNode) root = read_good (text);
  gsize length;
  g_autofree char *written = trn_json_to_text (root, &length);
  g_assert_cmpstr (written, ==, expected);
  g_assert_cmpuint (length, ==, strlen (expected));
}

/* Each kind of value by itself, as RFC 8259 section 2 allows, with space round it. */
static void
test_values (void)
{
  assert_text (" null\r\n", "null\n");
  assert_text ("\ttrue", "true\n");
  assert_text ("false ", "false\n");
  assert_text ("\"\"", "\"\"\n");
  assert_text ("{ }", "{}\n");
  assert_text ("[ ]", "[]\n");
  assert_text ("-0", "0\n");
  assert_text ("-0.0", "0\n");
  assert_text ("1E+2", "100\n");
  assert_text ("1.50", "1.5\n");
  assert_text ("60000.0", "60000\n");
  assert_text ("1e-7", "1e-07\n");
}

/* 64-bit integers stay whole; one more than the greatest becomes the nearest double (2^63). */
static void
test_integers (void)
{
  assert_text ("9223372036854775807", "9223372036854775807\n");
  assert_text ("-9223372036854775808", "-9223372036854775808\n");
  g_autoptr (JsonNode) beyond = read_good ("9223372036854775808");
  g_assert_cmpfloat (json_node_get_double (beyond), ==, 0x1p63);
  g_autoptr (JsonNode) far_below = read_good ("-99999999999999999999");
  g_assert_cmpfloat (json_node_get_double (far_below), ==, -1e20);
}

static void
test_escapes (void)
{
  g_autoptr (JsonNode) root
      = read_good ("\"\\\"\\\\\\/\\b\\f\\n\\r\\t\\u0041\\u00e4\\uD83C\\uDFD7 ä\"");
  g_assert_cmpstr (json_node_get_string (root), ==, "\"\\/\b\f\n\r\tAä🏗 ä");
  assert_text ("\"\\u001f \\/ \\u007f\"", "\"\\u001f / \x7f\"\n");
  assert_text ("\"\\b\\f\\n\\r\\t\\\"\\\\\"", "\"\\b\\f\\n\\r\\t\\\"\\\\\"\n");
}

/* One value a line, but numbers together: a place, and a short array of spans. */
static void
test_layout (void)
{
  assert_text ("{\"b\":[1,2.5,-3],\"a\":{\"k\":null,\"e\":[]},\"s\":[[0,1],[2,3]],\"t\":[\"x\",1],"
               "\"l\":[[1],[2],[3],[4],[5]],\"o\":[{}]}",
               "{\n"
               "  \"b\": [1, 2.5, -3],\n"
               "  \"a\": {\n"
               "    \"k\": null,\n"
               "    \"e\": []\n"
               "  },\n"
               "  \"s\": [[0, 1], [2, 3]],\n"
               "  \"t\": [\n"
               "    \"x\",\n"
               "    1\n"
               "  ],\n"
               "  \"l\": [\n"
               "    [1],\n"
               "    [2],\n"
               "    [3],\n"
               "    [4],\n"
               "    [5]\n"
               "  ],\n"
               "  \"o\": [\n"
               "    {}\n"
               "  ]\n"
               "}\n");
}

/* Lines count line feeds, in any of the places where space may stand; "/" and "~" in a key are
 * escaped in its pointer. */
static void
test_lines (void)
{
  static const char text[] = "\n{\"a/b\":\n [10,\n 20],\r\n \"m~n\": {\"\": 1}\n}";
  static const struct
  {
    const char *pointer;
    guint line;
  } expected[] = { { "", 2 },        { "/a~1b", 2 }, { "/a~1b/0", 3 },
                   { "/a~1b/1", 4 }, { "/m~0n", 5 }, { "/m~0n/", 5 } };
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  TrnJson json;
  g_assert_true (read_exactly (text, strlen (text), &json, diags));
  g_assert_cmpuint (g_hash_table_size (json.lines), ==, G_N_ELEMENTS (expected));
  for (guint i = 0; i < G_N_ELEMENTS (expected); i++)
    {
      gpointer line = g_hash_table_lookup (json.lines, expected[i].pointer);
      g_assert_cmpuint (GPOINTER_TO_UINT (line), ==, expected[i].line);
    }
  trn_json_clear (&json);
}

/* 64 levels are read; 65 and 100 000 (which overflow the stack of other readers) are refused. */
static void
test_depth (void)
{
  for (guint levels = TRN_JSON_MAX_DEPTH; levels <= TRN_JSON_MAX_DEPTH + 1; levels++)
    {
      g_autofree char *open = g_strnfill (levels, '['), *close = g_strnfill (levels, ']');
      g_autofree char *text = g_strconcat (open, close, NULL);
      if (levels <= TRN_JSON_MAX_DEPTH)
        json_node_unref (read_good (text));
      else
        assert_refused (text, strlen (text), "plan/json-depth");
    }
  g_autofree char *hostile = g_strnfill (100000, '[');
  assert_refused (hostile, 100000, "plan/json-depth");
}

/* Texts that are short but would take much memory: very many values, and a long key before many
 * values, whose pointers would each repeat it. */
static void
test_budget (void)
{
  g_autoptr (GString) values = g_string_new ("[0");
  for (guint i = 0; i < 1100000; i++)
    g_string_append (values, ",0");
  g_string_append_c (values, ']');
  assert_refused (values->str, values->len, "plan/json-too-much");

  g_autofree char *key = g_strnfill (1 << 20, 'k');
  g_autoptr (GString) keyed = g_string_new (NULL);
  g_string_append_printf (keyed, "{\"%s\": [0", key);
  for (guint i = 0; i < 500; i++)
    g_string_append (keyed, ",0");
  g_string_append (keyed, "]}");
  assert_refused (keyed->str, keyed->len, "plan/json-too-much");
}

static void
test_too_long (void)
{
  const gsize length = TRN_JSON_MAX_BYTES + 1;
  g_autofree char *spaces = g_strnfill (length, ' ');
  assert_refused (spaces, length, "plan/json-too-long");
}

/* A NUL is no space, no end, and no part of a string or word. */
static void
test_nul (void)
{
  assert_refused ("\0001", 2, "plan/json-control");
  assert_refused ("1\000", 2, "plan/json-control");
  assert_refused ("\"a\000b\"", 5, "plan/json-control");
  assert_refused ("\"\\\000\"", 4, "plan/json-escape");
  assert_refused ("[1\000,2]", 6, "plan/json-control");
  assert_refused ("tr\000ue", 5, "plan/json-word");
  assert_refused ("{\"a\000\":1}", 8, "plan/json-control");
}

/* Every beginning of a text is cut off somewhere: refused, and nothing beyond it is read. */
static void
test_beginnings (void)
{
  static const char text[] = "{\"a\": [1, -2.5e+3, \"\\u00e4\\ud83c\\udfd7\\n\", true, null, "
                             "{\"b\": {}}], \"c\": \"x\"}";
  for (gsize length = 0; length < sizeof text - 1; length++)
    {
      g_autoptr (TrnDiags) diags = trn_diags_new ();
      TrnJson json;
      g_assert_false (read_exactly (text, length, &json, diags));
      trn_json_clear (&json);
      g_assert_cmpuint (trn_diags_count (diags, TRN_SEVERITY_ERROR), >=, 1);
    }
  json_node_unref (read_good (text));
}

/* Doubles of any exponent read back the same from what is written. */
static void
test_round_trip (void)
{
  const guint n = test_scaled (5000);
  for (guint i = 0; i < n; i++)
    {
      union
      {
        guint32 words[2];
        double number;
      } bits = { { (guint32)g_test_rand_int (), (guint32)g_test_rand_int () } };
      if (!isfinite (bits.number))
        continue;
      g_autoptr (JsonNode) node = json_node_init_double (json_node_alloc (), bits.number);
      g_autofree char *text = trn_json_to_text (node, NULL);
      g_autoptr (JsonNode) back = read_good (text);
      g_assert_true (json_node_get_double (back) == bits.number);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/plan/json/values", test_values);
  g_test_add_func ("/plan/json/integers", test_integers);
  g_test_add_func ("/plan/json/escapes", test_escapes);
  g_test_add_func ("/plan/json/layout", test_layout);
  g_test_add_func ("/plan/json/lines", test_lines);
  g_test_add_func ("/plan/json/depth", test_depth);
  g_test_add_func ("/plan/json/budget", test_budget);
  g_test_add_func ("/plan/json/too-long", test_too_long);
  g_test_add_func ("/plan/json/nul", test_nul);
  g_test_add_func ("/plan/json/beginnings", test_beginnings);
  g_test_add_func ("/plan/json/round-trip", test_round_trip);
  return g_test_run ();
}
