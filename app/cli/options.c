/* options.c: the command line, read by hand: a table of options, every fault reported.
 *
 * "--name value" and "--name=value" mean the same; "--" ends the options. Numbers are read in the
 * C locale, whole or not at all. */
#include "options.h"

#include <math.h>
#include <string.h>

typedef enum
{
  OPTION_FLAG,
  OPTION_TEXT,
  OPTION_MM,
  OPTION_COUNT,
} OptionKind;

typedef struct
{
  const char *name;
  OptionKind kind;
  gboolean of_check, of_validate;
  void *target;
} Option;

#define LEAST_MM 0.01
#define GREATEST_MM 1000
#define GREATEST_JOBS 1024

typedef struct
{
  TrnDiags *diags;
  CliOptions *options;
} Parser;

static TrnDiag *
add_error (const Parser *parser, const char *code, const char *name, const char *text)
{
  TrnDiag *diag = trn_diags_add (parser->diags, TRN_SEVERITY_ERROR, code, NULL);
  if (name != NULL)
    trn_diag_set_text (diag, name, text);
  return diag;
}

/* FALSE with an error unless all of @text is a number of that range. */
static gboolean
read_number (const Parser *parser, const char *option, const char *text, double least,
             double greatest, double *number)
{
  char *end;
  *number = g_ascii_strtod (text, &end);
  if (end != text && *end == '\0' && *number >= least && *number <= greatest)
    return TRUE;
  TrnDiag *diag = add_error (parser, "cli/bad-number", "option", option);
  trn_diag_set_text (diag, "value", text);
  trn_diag_set_number (diag, "least", least, TRN_UNIT_NONE);
  trn_diag_set_number (diag, "greatest", greatest, TRN_UNIT_NONE);
  return FALSE;
}

static void
read_count (const Parser *parser, const char *option, const char *text, guint *count)
{
  double number;
  if (!read_number (parser, option, text, 0, GREATEST_JOBS, &number))
    return;
  if (number == floor (number))
    *count = (guint)number;
  else
    trn_diag_set_text (add_error (parser, "cli/not-whole", "option", option), "value", text);
}

static void
set_value (const Parser *parser, const Option *option, const char *text)
{
  double mm;
  switch (option->kind)
    {
    case OPTION_FLAG:
      *(gboolean *)option->target = TRUE;
      return;
    case OPTION_TEXT:
      *(const char **)option->target = text;
      return;
    case OPTION_MM:
      if (read_number (parser, option->name, text, LEAST_MM, GREATEST_MM, &mm))
        *(double *)option->target = mm / 1000;
      return;
    case OPTION_COUNT:
      read_count (parser, option->name, text, option->target);
      return;
    }
  g_assert_not_reached ();
}

/* The option called so that the command has; NULL with an error. */
static const Option *
find_option (const Parser *parser, const Option *table, guint n, const char *name)
{
  const char *command = parser->options->command;
  gboolean is_validate = g_strcmp0 (command, "validate") == 0;
  for (guint i = 0; i < n; i++)
    if (strcmp (table[i].name, name) == 0
        && (is_validate ? table[i].of_validate : table[i].of_check)
        && (command != NULL || table[i].target == &parser->options->help
            || table[i].target == &parser->options->version))
      return &table[i];
  add_error (parser, "cli/unknown-option", "option", name);
  return NULL;
}

/* Reads one option at argv[i], and its value; returns the number of arguments used. */
static int
parse_option (const Parser *parser, const Option *table, guint n, char **argv)
{
  const char *equals = strchr (argv[0], '=');
  g_autofree char *name = equals != NULL ? g_strndup (argv[0], (gsize)(equals - argv[0])) : NULL;
  const Option *option = find_option (parser, table, n, name != NULL ? name : argv[0]);
  if (option == NULL)
    return 1;
  if (option->kind == OPTION_FLAG)
    {
      if (equals != NULL)
        add_error (parser, "cli/unwanted-value", "option", option->name);
      set_value (parser, option, NULL);
      return 1;
    }
  const char *value = equals != NULL ? equals + 1 : argv[1];
  if (value == NULL || *value == '\0')
    add_error (parser, "cli/missing-value", "option", option->name);
  else
    set_value (parser, option, value);
  return equals != NULL || argv[1] == NULL ? 1 : 2;
}

static void
parse_operand (const Parser *parser, const char *text)
{
  CliOptions *options = parser->options;
  if (options->command == NULL)
    {
      options->command = text;
      if (strcmp (text, "check") != 0 && strcmp (text, "validate") != 0)
        add_error (parser, "cli/unknown-command", "command", text);
    }
  else if (options->plan == NULL && *text != '\0')
    options->plan = text;
  else
    add_error (parser, "cli/too-many", "text", text);
}

gboolean
cli_options_parse (int argc, char **argv, CliOptions *options, TrnDiags *diags)
{
  *options = (CliOptions){ 0 };
  const Option table[] = {
    { "-h", OPTION_FLAG, TRUE, TRUE, &options->help },
    { "--help", OPTION_FLAG, TRUE, TRUE, &options->help },
    { "--version", OPTION_FLAG, TRUE, TRUE, &options->version },
    { "--json", OPTION_TEXT, TRUE, FALSE, &options->json },
    { "--csv", OPTION_TEXT, TRUE, FALSE, &options->csv },
    { "--lift", OPTION_TEXT, TRUE, FALSE, &options->lift },
    { "--all", OPTION_FLAG, TRUE, FALSE, &options->all },
    { "--certify", OPTION_MM, TRUE, FALSE, &options->certify_m },
    { "--deviation", OPTION_MM, TRUE, FALSE, &options->deviation_m },
    { "--jobs", OPTION_COUNT, TRUE, FALSE, &options->jobs },
    { "--timings", OPTION_FLAG, TRUE, FALSE, &options->timings },
    { "--outside-files", OPTION_FLAG, TRUE, TRUE, &options->outside_files },
  };
  Parser parser = { diags, options };
  gboolean only_operands = FALSE;
  for (int i = 0; i < argc;)
    {
      if (!only_operands && strcmp (argv[i], "--") == 0)
        {
          only_operands = TRUE;
          i++;
        }
      else if (!only_operands && argv[i][0] == '-' && argv[i][1] != '\0')
        i += parse_option (&parser, table, G_N_ELEMENTS (table), argv + i);
      else
        parse_operand (&parser, argv[i++]);
    }
  if (trn_diags_have_errors (diags))
    return FALSE;
  if (options->help || options->version)
    return TRUE;
  if (options->command == NULL)
    add_error (&parser, "cli/no-command", NULL, NULL);
  else if (options->plan == NULL)
    add_error (&parser, "cli/no-plan", NULL, NULL);
  return !trn_diags_have_errors (diags);
}
