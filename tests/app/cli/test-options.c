/* test-options.c: the command line as it is read: every option, and every way to be wrong. */
#include "options.h"

/* Splits at spaces; "~" stands for an empty argument. */
static gboolean
parse (const char *line, CliOptions *options, TrnDiags *diags)
{
  /* The options point into it; a few bytes for the whole run. */
  static GPtrArray *kept;
  if (kept == NULL)
    kept = g_ptr_array_new_with_free_func ((GDestroyNotify)g_strfreev);
  char **arguments = g_strsplit (line, " ", -1);
  if (*line == '\0')
    arguments[0] = NULL;
  g_ptr_array_add (kept, arguments);
  for (guint i = 0; arguments[i] != NULL; i++)
    if (g_str_equal (arguments[i], "~"))
      arguments[i][0] = '\0';
  return cli_options_parse ((int)g_strv_length (arguments), arguments, options, diags);
}

static void
test_check (void)
{
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  CliOptions options;
  g_assert_true (parse ("check a.trunnion --json out.json --csv=out.csv --certify 0.5 --jobs 3 "
                        "--lift up --timings --outside-files --deviation=2 --all",
                        &options, diags));
  g_assert_cmpstr (options.command, ==, "check");
  g_assert_cmpstr (options.plan, ==, "a.trunnion");
  g_assert_cmpstr (options.json, ==, "out.json");
  g_assert_cmpstr (options.csv, ==, "out.csv");
  g_assert_cmpstr (options.lift, ==, "up");
  g_assert_cmpfloat (options.certify_m, ==, 0.0005);
  g_assert_cmpfloat (options.deviation_m, ==, 0.002);
  g_assert_cmpuint (options.jobs, ==, 3);
  g_assert_true (options.timings && options.outside_files && options.all);
}

static void
test_compare (void)
{
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  CliOptions options;
  g_assert_true (parse ("compare old.json new.json --all", &options, diags));
  g_assert_cmpstr (options.plan, ==, "old.json");
  g_assert_cmpstr (options.after, ==, "new.json");
  g_assert_true (options.all);
}

static void
test_render (void)
{
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  CliOptions options;
  g_assert_true (parse ("render a.trunnion -o a.png --time 0:46:21.5 --lift up --view south "
                        "--size 800x600 --scale 2 --section y=-2.5 --dark --clean --jobs 1",
                        &options, diags));
  g_assert_cmpstr (options.output, ==, "a.png");
  g_assert_cmpstr (options.lift, ==, "up");
  g_assert_cmpstr (options.view, ==, "south");
  g_assert_cmpfloat (options.time_s, ==, 2781.5);
  g_assert_cmpuint (options.width, ==, 800);
  g_assert_cmpuint (options.height, ==, 600);
  g_assert_cmpfloat (options.scale, ==, 2);
  g_assert_true (options.section.on && options.section.axis == 1);
  g_assert_cmpfloat (options.section.offset_m, ==, -2.5);
  g_assert_true (options.has_time && options.dark && options.clean && !options.closest);
  g_assert_true (parse ("render a --output=- --closest", &options, diags));
  g_assert_cmpstr (options.output, ==, "-");
  g_assert_true (options.closest && !options.has_time && !options.section.on);
  g_assert_null (options.view);
}

/* Seconds and clock times of the same moments. */
static void
test_times (void)
{
  const struct
  {
    const char *text;
    double time_s;
  } cases[]
      = { { "0", 0 },        { "90", 90 },        { "90.25", 90.25 },      { "1:30", 90 },
          { "0:01:30", 90 }, { "1:00:00", 3600 }, { "100:00:00", 360000 }, { "0:00:00.5", 0.5 },
          { "61:00", 3660 } };
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (TrnDiags) diags = trn_diags_new ();
      CliOptions options;
      g_autofree char *line = g_strdup_printf ("render a -o b --time %s", cases[i].text);
      g_assert_true (parse (line, &options, diags));
      g_assert_cmpfloat (options.time_s, ==, cases[i].time_s);
    }
}

/* "-" is a place to write, "--" lets a plan's name begin with a dash, options may come first. */
static void
test_order (void)
{
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  CliOptions options;
  g_assert_true (parse ("check --json - -- -odd.trunnion", &options, diags));
  g_assert_cmpstr (options.json, ==, "-");
  g_assert_cmpstr (options.plan, ==, "-odd.trunnion");
  g_assert_true (parse ("open a", &options, diags));
  g_assert_cmpstr (options.command, ==, "open");
  g_assert_cmpstr (options.plan, ==, "a");
  g_assert_true (parse ("validate --outside-files --places a", &options, diags));
  g_assert_true (options.outside_files && options.places && !options.all);
  g_assert_null (options.json);
}

/* Help needs no plan. */
static void
test_help (void)
{
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  CliOptions options;
  g_assert_true (parse ("--help", &options, diags) && options.help);
  g_assert_true (parse ("-h", &options, diags) && options.help);
  g_assert_true (parse ("check --help", &options, diags) && options.help);
  g_assert_true (parse ("--version", &options, diags) && options.version);
}

/* An option that is mistyped: one message, which names the nearest that the command has, also where
 * a value follows it. */
static void
test_nearest (void)
{
  const struct
  {
    const char *line, *nearest;
  } cases[] = { { "check a.trunnion --jsn out.json", "--json" },
                { "check --jsn out.json a.trunnion", "--json" },
                { "check a.trunnion --cert 2", "--certify" },
                { "validate a.trunnion --place", "--places" },
                { "--versoin", "--version" },
                { "--hlp out.json check a.trunnion", "--help" } };
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (TrnDiags) diags = trn_diags_new ();
      CliOptions options;
      g_assert_false (parse (cases[i].line, &options, diags));
      g_assert_cmpuint (diags->items->len, ==, 1);
      const TrnDiag *diag = diags->items->pdata[0];
      g_assert_cmpstr (diag->code, ==, "cli/unknown-option");
      g_assert_cmpstr (trn_diag_get (diag, "nearest")->text, ==, cases[i].nearest);
    }
}

/* A line, and the code that it must be refused with. */
static void
test_wrong (void)
{
  const struct
  {
    const char *line, *code;
  } cases[] = {
    { "", "cli/no-command" },
    { "look a", "cli/unknown-command" },
    { "check", "cli/no-plan" },
    { "check ~", "cli/too-many" },
    { "check a b", "cli/too-many" },
    { "check a --fast", "cli/unknown-option" },
    { "check a -x", "cli/unknown-option" },
    { "--json x check a", "cli/unknown-option" },
    { "validate a --json x", "cli/unknown-option" },
    { "check a --json", "cli/missing-value" },
    { "check a --json=", "cli/missing-value" },
    { "check a --lift ~", "cli/missing-value" },
    { "check a --timings=yes", "cli/unwanted-value" },
    { "check a --certify 0", "cli/bad-number" },
    { "check a --certify -1", "cli/bad-number" },
    { "check a --certify nan", "cli/bad-number" },
    { "check a --certify inf", "cli/bad-number" },
    { "check a --certify 1,5", "cli/bad-number" },
    { "check a --certify 1mm", "cli/bad-number" },
    { "check a --certify 1e9", "cli/bad-number" },
    { "check a --certify 0x10", "cli/bad-number" },
    { "check a --deviation 0", "cli/bad-number" },
    { "check a --jobs many", "cli/bad-number" },
    { "check a --jobs -1", "cli/bad-number" },
    { "check a --jobs 100000000000", "cli/bad-number" },
    { "check a --jobs 1.5", "cli/not-whole" },
    { "check a -o b", "cli/unknown-option" },
    { "check a --closest", "cli/unknown-option" },
    { "-o b render a", "cli/unknown-option" },
    { "open a --outside-files", "cli/unknown-option" },
    { "open", "cli/no-plan" },
    { "open a b", "cli/too-many" },
    { "compare", "cli/no-results" },
    { "compare a", "cli/no-results" },
    { "compare a b c", "cli/too-many" },
    { "compare a b --json c", "cli/unknown-option" },
    { "render a", "cli/no-output" },
    { "render a -o", "cli/missing-value" },
    { "render -o b", "cli/no-plan" },
    { "render a -o b --json c", "cli/unknown-option" },
    { "render a -o b --certify 1", "cli/unknown-option" },
    { "render a -o b --closest --time 1", "cli/time-and-closest" },
    { "render a -o b --time -1", "cli/bad-time" },
    { "render a -o b --time 1e3", "cli/bad-time" },
    { "render a -o b --time 1:2", "cli/bad-time" },
    { "render a -o b --time 1:60", "cli/bad-time" },
    { "render a -o b --time 1:1:60", "cli/bad-time" },
    { "render a -o b --time 1:00:00:00", "cli/bad-time" },
    { "render a -o b --time 1.5:00", "cli/bad-time" },
    { "render a -o b --time 1:00.5:00", "cli/bad-time" },
    { "render a -o b --time :30", "cli/bad-time" },
    { "render a -o b --time 9999999999", "cli/bad-time" },
    { "render a -o b --size 800", "cli/bad-size" },
    { "render a -o b --size 800x", "cli/bad-size" },
    { "render a -o b --size 8x8", "cli/bad-size" },
    { "render a -o b --size 800x20001", "cli/bad-size" },
    { "render a -o b --size -800x600", "cli/bad-size" },
    { "render a -o b --size 800x600x2", "cli/bad-size" },
    { "render a -o b --view top", "cli/bad-view" },
    { "render a -o b --view PLAN", "cli/bad-view" },
    { "render a -o b --section 1.2", "cli/bad-section" },
    { "render a -o b --section w=1", "cli/bad-section" },
    { "render a -o b --section z=", "cli/bad-section" },
    { "render a -o b --section z=nan", "cli/bad-section" },
    { "render a -o b --section z=1m", "cli/bad-section" },
    { "render a -o b --section z=1e9", "cli/bad-section" },
    { "render a -o b --section z=0x10", "cli/bad-section" },
    { "render a -o b --scale 0", "cli/bad-number" },
    { "render a -o b --scale 17", "cli/bad-number" },
    { "render a -o b --dark=1", "cli/unwanted-value" },
  };
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (TrnDiags) diags = trn_diags_new ();
      CliOptions options;
      g_test_message ("%s", cases[i].line);
      g_assert_false (parse (cases[i].line, &options, diags));
      g_assert_cmpuint (diags->items->len, >, 0);
      g_assert_cmpstr (((TrnDiag *)diags->items->pdata[0])->code, ==, cases[i].code);
    }
}

/* Every fault is told at once. */
static void
test_all_faults (void)
{
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  CliOptions options;
  g_assert_false (parse ("check a --fast --certify x --jobs y", &options, diags));
  g_assert_cmpuint (diags->items->len, ==, 3);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/cli/options/check", test_check);
  g_test_add_func ("/cli/options/compare", test_compare);
  g_test_add_func ("/cli/options/render", test_render);
  g_test_add_func ("/cli/options/times", test_times);
  g_test_add_func ("/cli/options/order", test_order);
  g_test_add_func ("/cli/options/help", test_help);
  g_test_add_func ("/cli/options/wrong", test_wrong);
  g_test_add_func ("/cli/options/all-faults", test_all_faults);
  g_test_add_func ("/cli/options/nearest", test_nearest);
  return g_test_run ();
}
