/* The nearest word has the least number of letters put in, left out, replaced, or swapped with
 * their neighbour (optimal string alignment, by dynamic programming over three rows). A word that
 * is only begun needs many letters put in and is meant all the same, so it goes first. Words are
 * short; a long one is compared by its beginning only. */
#include "nearest.h"

#include <string.h>

#define COMPARED 64

static guint
min3 (guint a, guint b, guint c)
{
  return MIN (MIN (a, b), c);
}

static gboolean
is_same (char a, char b)
{
  return g_ascii_tolower (a) == g_ascii_tolower (b);
}

static guint
edits (const char *a, const char *b)
{
  guint rows[3][COMPARED + 1];
  const guint n = (guint)MIN (strlen (a), COMPARED), m = (guint)MIN (strlen (b), COMPARED);
  for (guint j = 0; j <= m; j++)
    rows[0][j] = j;
  for (guint i = 1; i <= n; i++)
    {
      guint *row = rows[i % 3], *above = rows[(i + 2) % 3], *two_above = rows[(i + 1) % 3];
      row[0] = i;
      for (guint j = 1; j <= m; j++)
        {
          row[j]
              = min3 (above[j] + 1, row[j - 1] + 1, above[j - 1] + !is_same (a[i - 1], b[j - 1]));
          if (i > 1 && j > 1 && is_same (a[i - 1], b[j - 2]) && is_same (a[i - 2], b[j - 1]))
            row[j] = MIN (row[j], two_above[j - 2] + 1);
        }
    }
  return rows[n % 3][m];
}

static gboolean
begins (const char *word, const char *with)
{
  return *with != '\0' && g_ascii_strncasecmp (word, with, strlen (with)) == 0;
}

const char *
trn_nearest (const char *word, const char *const *words, guint n_words)
{
  const char *nearest = NULL;
  guint least = G_MAXUINT;
  gboolean is_begun = FALSE;
  for (guint i = 0; i < n_words; i++)
    is_begun = is_begun || begins (words[i], word);
  for (guint i = 0; i < n_words; i++)
    {
      if (is_begun && !begins (words[i], word))
        continue;
      const guint distance = edits (word, words[i]);
      if (distance < least || (distance == least && strcmp (words[i], nearest) < 0))
        {
          least = distance;
          nearest = words[i];
        }
    }
  return nearest;
}

const char *
trn_nearest_key (const char *word, GHashTable *table)
{
  guint n_keys;
  g_autofree const char **keys = (const char **)g_hash_table_get_keys_as_array (table, &n_keys);
  return trn_nearest (word, keys, n_keys);
}
