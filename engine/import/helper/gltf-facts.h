/* gltf-facts.h: the same for glTF and GLB: see file-facts.h.
 *
 * The import library reads glTF 2.0 without its geometry extensions, and says nothing when a file
 * needs one: it would return other positions, or fewer parts. Such files are refused here. */
#pragma once

#include "file-facts.h"

void
trn_gltf_facts_read (const char *path, TrnFormat format, TrnFileFacts *facts, TrnAnswer *answer);
