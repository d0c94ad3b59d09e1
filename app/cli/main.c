/* main.c: `trunnion`: reads the command line and hands over to a command. */
#include <errno.h>
#include <stdio.h>
#include <string.h>

#include "cli.h"
#include "command-words.h"
#include "words.h"

void
cli_print_diags (TrnDiags *diags)
{
  /* Where both go to one file, a row begun is not broken by a message. */
  if (diags->items->len > 0)
    fflush (stdout);
  for (guint i = 0; i < diags->items->len; i++)
    {
      g_autofree char *line = trn_words_diag (diags->items->pdata[i]);
      fprintf (stderr, "%s\n", line);
    }
  g_ptr_array_set_size (diags->items, 0);
}

void
cli_note_interrupted (TrnDiags *diags)
{
  g_ptr_array_set_size (diags->items, 0);
  trn_diags_add (diags, TRN_SEVERITY_NOTE, "cli/interrupted", NULL);
}

CliStatus
cli_finish_output (CliStatus status)
{
  errno = 0;
  if (fflush (stdout) == 0 && !ferror (stdout))
    return status;
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  TrnDiag *diag = trn_diags_add (diags, TRN_SEVERITY_ERROR, "cli/cannot-print", NULL);
  /* An earlier write that failed has left its mark, and not its reason. */
  trn_diag_set_text (diag, "reason", g_strerror (errno != 0 ? errno : EIO));
  cli_print_diags (diags);
  return CLI_CANNOT_WRITE;
}

static CliStatus
run (int argc, char **argv)
{
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  CliOptions options;
  if (!cli_options_parse (argc, argv, &options, diags))
    {
      cli_print_diags (diags);
      return CLI_WRONG_USE;
    }
  if (options.version)
    {
      puts (TRN_PROGRAM);
      return cli_finish_output (CLI_PASSES);
    }
  if (options.help)
    {
      fputs (options.command != NULL ? trn_words_command_help (options.command) : trn_words_help (),
             stdout);
      return cli_finish_output (CLI_PASSES);
    }
  if (strcmp (options.command, "check") == 0)
    return cli_check (&options);
  if (strcmp (options.command, "compare") == 0)
    return cli_compare (&options);
  if (strcmp (options.command, "render") == 0)
    return cli_render (&options);
  if (strcmp (options.command, "inspect") == 0)
    return cli_inspect (&options);
  return strcmp (options.command, "open") == 0 ? cli_start_desk (&options)
                                               : cli_validate (&options);
}

int
main (int argc, char **argv)
{
  trn_words_init (g_getenv ("TRUNNION_LOCALE_FOLDER"));
  return argc > 0 ? (int)run (argc - 1, argv + 1) : (int)CLI_WRONG_USE;
}
