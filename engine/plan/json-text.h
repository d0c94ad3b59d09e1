/* json-text.h: a tree of JsonNode as text, the same way for every file of the program. */
#pragma once

#include <json-glib/json-glib.h>

/* @root as text, ended by a line feed: two spaces of indentation, an array of numbers on one line,
 * likewise a short array of short arrays of numbers, keys in the order of the tree, numbers in the
 * shortest form that reads back the same. Every number must be finite. Owned by the caller. */
char *trn_json_to_text (JsonNode *root, gsize *length);
