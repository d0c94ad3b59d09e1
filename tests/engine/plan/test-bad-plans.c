/* Plans with one fault each (bad-plans.h): each must give exactly the one diagnostic named, at the
 * place named, and no plan. Called with --list it prints the texts that a JSON Schema can refuse,
 * too, for test-schema.py. */
#include "plan.h"

#include <locale.h>
#include <stdio.h>
#include <string.h>

#include "bad-plans.h"
#include "json-text.h"
#include "plan-base.h"

static void
explain (const TrnDiags *diags)
{
  for (guint i = 0; i < diags->items->len; i++)
    {
      const TrnDiag *diag = g_ptr_array_index (diags->items, i);
      g_test_message ("line %u: %s at “%s”", diag->line, diag->code, diag->pointer);
    }
}

static void
test_bad (gconstpointer data)
{
  const BadPlan *bad = data;
  g_autofree char *text = bad_plan_text (bad);
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  TrnPlan *plan = trn_plan_parse (text, strlen (text), "bad.trunnion", NULL, NULL, diags);
  explain (diags);
  g_assert_null (plan);
  g_assert_cmpuint (diags->items->len, ==, 1);
  const TrnDiag *diag = g_ptr_array_index (diags->items, 0);
  g_assert_cmpint (diag->severity, ==, TRN_SEVERITY_ERROR);
  g_assert_cmpstr (diag->code, ==, bad->code);
  g_assert_cmpstr (diag->pointer, ==, bad->pointer);
  g_assert_cmpstr (diag->file, ==, "bad.trunnion");
  g_assert_cmpuint (diag->line, >=, 1);
  if (bad->value_name == NULL)
    return;
  const TrnDiagValue *value = trn_diag_get (diag, bad->value_name);
  g_assert_nonnull (value);
  g_assert_cmpstr (value->text, ==, bad->value);
}

/* The plan that all others are made from is good, and says nothing. */
static void
test_base (void)
{
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_autoptr (TrnPlan) plan
      = trn_plan_parse (PLAN_BASE, strlen (PLAN_BASE), "base.trunnion", NULL, NULL, diags);
  explain (diags);
  g_assert_nonnull (plan);
  g_assert_cmpuint (diags->items->len, ==, 0);
}

/* Twelve faults, several of them in one object, two of which hide what stands below them; each is
 * told once, with its own line, in the order of the file. */
static void
test_many (void)
{
  static const char text[] = "{\"format\": \"trunnion-plan\", \"version\": 1,\n"
                             "\"structures\": [\n"
                             "{\"id\": \"A\", \"colour\": 1,\n"
                             "\"solid\": {\"kind\": \"box\",\n"
                             "\"size\": [1, -2,\n"
                             "\"3\"]}},\n"
                             "7],\n"
                             "\"components\": [{\"id\": \"pump\",\n"
                             "\"mass\": 1e999, \"mass\": 2,\n"
                             "\"solid\": {\"kind\": \"cube\", \"size\": 3}, \"at\": null}],\n"
                             "\"programme\": [{\"lift\": \"up\", \"component\": \"pump\",\n"
                             "\"hook_point\": \"lug\", \"moves\": []}],\n"
                             "\"keep_clear\": -1}";
  static const struct
  {
    guint line;
    const char *code, *pointer;
  } expected[] = {
    { 3, "plan/unknown-key", "/structures/0/colour" },
    { 3, "plan/bad-id", "/structures/0/id" },
    { 3, "plan/missing-key", "/structures/0" },
    { 5, "plan/not-above", "/structures/0/solid/size/1" },
    { 6, "plan/not-number", "/structures/0/solid/size/2" },
    { 7, "plan/not-object", "/structures/1" },
    { 9, "plan/json-number-range", "/components/0/mass" },
    { 9, "plan/json-duplicate", "/components/0/mass" },
    { 10, "plan/unknown-word", "/components/0/solid/kind" },
    { 12, "plan/no-points", "/programme/0/hook_point" },
    { 12, "plan/empty", "/programme/0/moves" },
    { 13, "plan/too-small", "/keep_clear" },
  };
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_assert_null (trn_plan_parse (text, strlen (text), "many.trunnion", NULL, NULL, diags));
  explain (diags);
  g_assert_cmpuint (diags->items->len, ==, G_N_ELEMENTS (expected));
  for (guint i = 0; i < G_N_ELEMENTS (expected); i++)
    {
      const TrnDiag *diag = g_ptr_array_index (diags->items, i);
      g_assert_cmpstr (diag->code, ==, expected[i].code);
      g_assert_cmpstr (diag->pointer, ==, expected[i].pointer);
      g_assert_cmpuint (diag->line, ==, expected[i].line);
    }
}

static void
assert_too_many (const char *text, const char *pointer)
{
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_assert_null (trn_plan_parse (text, strlen (text), NULL, NULL, NULL, diags));
  explain (diags);
  g_assert_cmpuint (diags->items->len, ==, 1);
  const TrnDiag *diag = g_ptr_array_index (diags->items, 0);
  g_assert_cmpstr (diag->code, ==, "plan/too-many");
  g_assert_cmpstr (diag->pointer, ==, pointer);
}

/* 1001 structures, which are not looked at one by one then, and 1001 named points. What refers to
 * them may be right, and is not blamed. */
static void
test_too_many (void)
{
  g_autoptr (GString) zeros = g_string_new ("0"), points = g_string_new ("\"p\": [0, 0, 0]");
  for (guint i = 0; i < 1000; i++)
    {
      g_string_append (zeros, ",0");
      g_string_append_printf (points, ", \"p%u\": [0, 0, 0]", i);
    }
  g_autofree char *structures
      = g_strconcat ("\"structures\": [", zeros->str, "], \"x-s\": [", NULL);
  g_autofree char *named = g_strconcat ("\"points\": {", points->str, "}, \"x-p\": {", NULL);
  const BadPlan many_structures = { .from = "\"structures\": [", .to = structures };
  const BadPlan many_points = { .from = "\"points\": {", .to = named };
  g_autofree char *first = bad_plan_text (&many_structures), *second = bad_plan_text (&many_points);
  assert_too_many (first, "/structures");
  assert_too_many (second, "/components/0/points");
}

/* An error that the list held before does not count against a plan. */
static void
test_earlier_error (void)
{
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  trn_diags_add (diags, TRN_SEVERITY_ERROR, "plan/cannot-read", NULL);
  g_autoptr (TrnPlan) plan
      = trn_plan_parse (PLAN_BASE, strlen (PLAN_BASE), NULL, NULL, NULL, diags);
  g_assert_nonnull (plan);
}

static void
list_plans (JsonArray *array, const BadPlan *plans, guint n)
{
  for (guint i = 0; i < n; i++)
    {
      if (!plans[i].schema_sees)
        continue;
      g_autofree char *text = bad_plan_text (&plans[i]);
      JsonObject *item = json_object_new ();
      json_object_set_string_member (item, "name", plans[i].name);
      json_object_set_string_member (item, "text", text);
      json_array_add_object_element (array, item);
    }
}

/* The faulty texts that a schema can refuse, as an array of {"name", "text"}. */
static int
list (void)
{
  g_autoptr (JsonNode) root = json_node_new (JSON_NODE_ARRAY);
  json_node_take_array (root, json_array_new ());
  list_plans (json_node_get_array (root), bad_plans, n_bad_plans);
  list_plans (json_node_get_array (root), bad_gear, n_bad_gear);
  list_plans (json_node_get_array (root), bad_loads, n_bad_loads);
  g_autofree char *text = trn_json_to_text (root, NULL);
  fputs (text, stdout);
  return 0;
}

static void
add_tests (const BadPlan *plans, guint n)
{
  for (guint i = 0; i < n; i++)
    {
      g_autofree char *path = g_strdup_printf ("/plan/bad/%s", plans[i].name);
      g_test_add_data_func (path, &plans[i], test_bad);
    }
}

int
main (int argc, char **argv)
{
  if (argc == 2 && g_str_equal (argv[1], "--list"))
    return list ();
  setlocale (LC_ALL, "");
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/plan/bad/base", test_base);
  g_test_add_func ("/plan/bad/many", test_many);
  g_test_add_func ("/plan/bad/too-many", test_too_many);
  g_test_add_func ("/plan/bad/earlier-error", test_earlier_error);
  add_tests (bad_plans, n_bad_plans);
  add_tests (bad_gear, n_bad_gear);
  add_tests (bad_loads, n_bad_loads);
  return g_test_run ();
}
