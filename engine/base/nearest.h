/* nearest.h: which of some known words is meant by one that is mistyped. */
#pragma once

#include <glib.h>

/* The one of @words that is nearest to @word: one that it begins, else the nearest by edits; upper
 * and lower case are alike. NULL when there are none. */
const char *trn_nearest (const char *word, const char *const *words, guint n_words);
const char *trn_nearest_key (const char *word, GHashTable *table);
