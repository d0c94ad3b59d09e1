/* main.c: `trunnion-desk [PLAN …]`: opens the desk. */
#include "application.h"
#include "loop-watch.h"
#include "parallel.h"
#include "words.h"

int
main (int argc, char **argv)
{
  desk_loop_watch_start ();
  trn_parallel_stand_back ();
  trn_words_init (g_getenv ("TRUNNION_LOCALE_FOLDER"));
  trn_words_set_joined (TRUE);
  /* The toolkit would choose the locale once more, and with it a decimal comma. */
  gtk_disable_setlocale ();
  g_autoptr (DeskApplication) application = desk_application_new ();
  int status = g_application_run (G_APPLICATION (application), argc, argv);
  desk_loop_watch_print ();
  return status;
}
