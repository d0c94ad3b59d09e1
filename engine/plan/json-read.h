/* json-read.h: a text as a tree of JsonNode, by the letter of RFC 8259, with the line of every
 * value.
 *
 *   TrnJson json;
 *   if (trn_json_read (bytes, length, "well.trunnion", &json, diags))
 *     …json.root…
 *   trn_json_clear (&json); */
#pragma once

#include <json-glib/json-glib.h>

#include "diag.h"

#define TRN_JSON_MAX_BYTES ((gsize)64 << 20)
#define TRN_JSON_MAX_DEPTH 64u
/* Memory that the tree of one text may take, roughly. */
#define TRN_JSON_MAX_TREE_BYTES ((gsize)256 << 20)

typedef struct
{
  JsonNode *root;    /* owned; NULL when the text is no JSON */
  GHashTable *lines; /* JSON Pointer → line (GUINT_TO_POINTER); for a member, the line of its key */
  GHashTable *faulty; /* set of JSON Pointers for which a fault was reported already */
} TrnJson;

/* Reads @length bytes. Every fault is added to @diags as an error (codes "plan/json-…") with @file,
 * line and JSON Pointer. A fault of grammar ends the reading: FALSE, and no tree. A duplicate key,
 * a number beyond the range of double, half a surrogate pair and a \u0000 do not: the tree then
 * holds the first value, an infinity, or U+FFFD in their place, and `faulty` names them. To be
 * cleared in either case. */
gboolean
trn_json_read (const char *bytes, gsize length, const char *file, TrnJson *json, TrnDiags *diags);
void trn_json_clear (TrnJson *json);

/* All bytes of a file, or, where it is longer than may be read, more than those. NULL with an error
 * (plan/cannot-read, or plan/no-file where it is no plain file; a pipe is not waited for). */
GByteArray *trn_json_load (const char *path, TrnDiags *diags);

/* The line in @lines of what stands at @pointer, or else of what it is in; 0 where unknown. */
guint trn_json_line_find (GHashTable *lines, const char *pointer);

/* Appends "/" and @key as RFC 6901 writes it. */
void trn_json_pointer_append (GString *pointer, const char *key);

/* Sets a value from text that somebody wrote, cut to a length that fits a message. */
void trn_json_set_quoted (TrnDiag *diag, const char *name, const char *text);
