/* paragraphs.h: what stands below the table of findings. */
#pragma once

#include "rows.h"

/* Prints what fails or is not known, the closest place of each lift, how much its gear has in hand,
 * what is to be looked at, and that other lifts were not checked. */
void cli_paragraphs_print (const GArray *rows, const TrnScene *scene, const TrnFindings *findings);
