/* options.c: the command line, read by hand: a table of options, every fault reported.
 *
 * Values that are more than a number or a text are read in option-values.c.
 *
 * "--name value" and "--name=value" mean the same; "--" ends the options. Numbers are read in the
 * C locale, whole or not at all. */
#include "options.h"

#include <math.h>
#include <string.h>

#include "nearest.h"
#include "option-values.h"

typedef enum
{
  OPTION_FLAG,
  OPTION_TEXT,
  OPTION_MM,
  OPTION_COUNT,
  OPTION_SCALE,
  OPTION_TIME,
  OPTION_SIZE,
  OPTION_VIEW,
  OPTION_SECTION,
} OptionKind;

typedef enum
{
  OF_CHECK = 1,
  OF_VALIDATE = 2,
  OF_RENDER = 4,
  OF_OPEN = 8,
  OF_INSPECT = 16,
  OF_COMPARE = 32,
  OF_ENGINE = OF_CHECK | OF_VALIDATE | OF_RENDER,
  OF_ALL = OF_ENGINE | OF_OPEN | OF_INSPECT | OF_COMPARE,
} Commands;

typedef struct
{
  const char *name;
  OptionKind kind;
  guint of; /* Commands */
  void *target;
} Option;

#define LEAST_MM 0.01
#define GREATEST_MM 1000
#define GREATEST_JOBS 1024
#define LEAST_SCALE 0.25
#define GREATEST_SCALE 16

static const struct
{
  const char *name;
  Commands command;
} commands[] = {
  { "check", OF_CHECK }, { "compare", OF_COMPARE }, { "inspect", OF_INSPECT },
  { "open", OF_OPEN },   { "render", OF_RENDER },   { "validate", OF_VALIDATE },
};

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
  /* Neither spaces nor hexadecimal digits, which strtod would take. */
  gboolean is_plain = text[strspn (text, "+-.0123456789eE")] == '\0';
  if (is_plain && end != text && *end == '\0' && *number >= least && *number <= greatest)
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

/* A value that is read in option-values.c: what is wrong is said with @code. */
static void
set_read (const Parser *parser, const Option *option, const char *text, gboolean read,
          const char *code)
{
  if (!read)
    trn_diag_set_text (add_error (parser, code, "option", option->name), "value", text);
}

static void
set_picture_value (const Parser *parser, const Option *option, const char *text)
{
  CliOptions *options = parser->options;
  switch (option->kind)
    {
    case OPTION_SCALE:
      read_number (parser, option->name, text, LEAST_SCALE, GREATEST_SCALE, &options->scale);
      return;
    case OPTION_TIME:
      options->has_time = TRUE;
      set_read (parser, option, text, cli_read_time (text, &options->time_s), "cli/bad-time");
      return;
    case OPTION_SIZE:
      set_read (parser, option, text, cli_read_size (text, &options->width, &options->height),
                "cli/bad-size");
      return;
    case OPTION_VIEW:
      options->view = text;
      set_read (parser, option, text, cli_is_view (text), "cli/bad-view");
      return;
    case OPTION_SECTION:
      set_read (parser, option, text, cli_read_section (text, &options->section),
                "cli/bad-section");
      return;
    default:
      g_assert_not_reached ();
    }
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
    case OPTION_SCALE:
    case OPTION_TIME:
    case OPTION_SIZE:
    case OPTION_VIEW:
    case OPTION_SECTION:
      set_picture_value (parser, option, text);
      return;
    }
  g_assert_not_reached ();
}

/* 0 for a word that is no command. */
static guint
find_command (const char *word)
{
  for (guint i = 0; i < G_N_ELEMENTS (commands); i++)
    if (strcmp (commands[i].name, word) == 0)
      return commands[i].command;
  return 0;
}

/* @word: NULL where there is none. */
static void
refuse_command (const Parser *parser, const char *word)
{
  g_autoptr (GString) all = g_string_new (NULL);
  for (guint i = 0; i < G_N_ELEMENTS (commands); i++)
    g_string_append_printf (all, "%s%s", i > 0 ? ", " : "", commands[i].name);
  TrnDiag *diag = word != NULL ? add_error (parser, "cli/unknown-command", "command", word)
                               : add_error (parser, "cli/no-command", NULL, NULL);
  trn_diag_set_text (diag, "commands", all->str);
}

static void
refuse_option (const Parser *parser, const Option *table, guint n, guint of, const char *name)
{
  g_autofree const char **names = g_new (const char *, n);
  guint n_names = 0;
  for (guint i = 0; i < n; i++)
    if ((table[i].of & of) == of)
      names[n_names++] = table[i].name;
  TrnDiag *diag = add_error (parser, "cli/unknown-option", "option", name);
  trn_diag_set_text (diag, "nearest", trn_nearest (name, names, n_names));
}

/* The option called so that the command has; NULL with an error. */
static const Option *
find_option (const Parser *parser, const Option *table, guint n, const char *name)
{
  const char *command = parser->options->command;
  /* Before the command only what every command has. */
  guint of = command != NULL ? find_command (command) : OF_ALL;
  for (guint i = 0; i < n; i++)
    if (strcmp (table[i].name, name) == 0 && (table[i].of & of) == of)
      return &table[i];
  refuse_option (parser, table, n, of, name);
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

static gboolean
is_compare (const CliOptions *options)
{
  return options->command != NULL && strcmp (options->command, "compare") == 0;
}

static void
parse_operand (const Parser *parser, const char *text)
{
  CliOptions *options = parser->options;
  if (options->command == NULL)
    {
      options->command = text;
      if (find_command (text) == 0)
        refuse_command (parser, text);
    }
  else if (options->plan == NULL && *text != '\0')
    options->plan = text;
  else if (is_compare (options) && options->after == NULL && *text != '\0')
    options->after = text;
  else
    add_error (parser, "cli/too-many", "text", text);
}

/* What only makes sense together. */
static void
look_at_render (const Parser *parser)
{
  if (parser->options->output == NULL)
    add_error (parser, "cli/no-output", NULL, NULL);
  if (parser->options->has_time && parser->options->closest)
    add_error (parser, "cli/time-and-closest", NULL, NULL);
}

/* What follows an option that is not known may be its value: then it is no fault of its own. */
static void
drop_faults_of_values (TrnDiags *diags)
{
  gboolean has_unknown = FALSE;
  for (guint i = 0; i < diags->items->len; i++)
    {
      const TrnDiag *diag = diags->items->pdata[i];
      has_unknown = has_unknown || strcmp (diag->code, "cli/unknown-option") == 0;
    }
  for (guint i = diags->items->len; has_unknown && i-- > 0;)
    {
      const TrnDiag *diag = diags->items->pdata[i];
      if (strcmp (diag->code, "cli/too-many") == 0
          || strcmp (diag->code, "cli/unknown-command") == 0)
        g_ptr_array_remove_index (diags->items, i);
    }
}

gboolean
cli_options_parse (int argc, char **argv, CliOptions *options, TrnDiags *diags)
{
  *options = (CliOptions){ 0 };
  const Option table[] = {
    { "-h", OPTION_FLAG, OF_ALL, &options->help },
    { "--help", OPTION_FLAG, OF_ALL, &options->help },
    { "--version", OPTION_FLAG, OF_ALL, &options->version },
    { "--json", OPTION_TEXT, OF_CHECK, &options->json },
    { "--csv", OPTION_TEXT, OF_CHECK, &options->csv },
    { "--lift", OPTION_TEXT, OF_CHECK | OF_RENDER, &options->lift },
    { "--all", OPTION_FLAG, OF_CHECK | OF_INSPECT | OF_COMPARE, &options->all },
    { "--certify", OPTION_MM, OF_CHECK, &options->certify_m },
    { "--deviation", OPTION_MM, OF_CHECK | OF_RENDER, &options->deviation_m },
    { "--jobs", OPTION_COUNT, OF_ENGINE, &options->jobs },
    { "--timings", OPTION_FLAG, OF_CHECK, &options->timings },
    { "--places", OPTION_FLAG, OF_VALIDATE, &options->places },
    { "--outside-files", OPTION_FLAG, OF_ENGINE, &options->outside_files },
    { "-o", OPTION_TEXT, OF_RENDER, &options->output },
    { "--output", OPTION_TEXT, OF_RENDER, &options->output },
    { "--time", OPTION_TIME, OF_RENDER, options },
    { "--closest", OPTION_FLAG, OF_RENDER, &options->closest },
    { "--view", OPTION_VIEW, OF_RENDER, options },
    { "--size", OPTION_SIZE, OF_RENDER, options },
    { "--scale", OPTION_SCALE, OF_RENDER, options },
    { "--section", OPTION_SECTION, OF_RENDER, options },
    { "--dark", OPTION_FLAG, OF_RENDER, &options->dark },
    { "--clean", OPTION_FLAG, OF_RENDER, &options->clean },
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
  drop_faults_of_values (diags);
  if (trn_diags_have_errors (diags))
    return FALSE;
  if (options->help || options->version)
    return TRUE;
  if (options->command == NULL)
    refuse_command (&parser, NULL);
  else if (is_compare (options) && options->after == NULL)
    add_error (&parser, "cli/no-results", NULL, NULL);
  else if (options->plan == NULL)
    add_error (&parser,
               strcmp (options->command, "inspect") == 0 ? "cli/no-mesh-file" : "cli/no-plan", NULL,
               NULL);
  else if (strcmp (options->command, "render") == 0)
    look_at_render (&parser);
  return !trn_diags_have_errors (diags);
}
