/* One row a code, sorted by folder, then as the folder says them. A sentence tells what is wrong
 * and what to do; the place (file, line, JSON Pointer) is put before it by words.c. A value in
 * {braces} that has a unit brings it along. */
#include "sentences.h"

#include <glib.h>
#include <string.h>

#define N_(text) text

static const struct
{
  const char *code, *template;
} sentences[] = {
  /* base */
  { "base/cannot-write", N_ ("“{file}” cannot be written ({reason}); choose another place or make "
                             "room, nothing there was changed.") },

  /* shape */

  /* import */

  /* plan */

  /* scene */

  /* results, and the command line */
};

const char *
trn_sentence_template (const char *code)
{
  for (guint i = 0; i < G_N_ELEMENTS (sentences); i++)
    if (strcmp (sentences[i].code, code) == 0)
      return sentences[i].template;
  return NULL;
}
