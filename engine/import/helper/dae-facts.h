/* dae-facts.h: see file-facts.h. */
#pragma once

#include "file-facts.h"

/* Counts the triangles that the scene of a COLLADA file shows, reads its unit and axis into the
 * answer's header, and refuses what the import library leaves out or gets wrong without a word. */
void trn_dae_facts_read (const char *path, TrnFileFacts *facts, TrnAnswer *answer);
