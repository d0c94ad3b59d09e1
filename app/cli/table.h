/* table.h: findings as a table for people, worst margin first. */
#pragma once

#include "checks.h"

/* Prints title, table, the closest places, what is to be looked at, the headline and the caution on
 * standard output. What fails always has its line in the table, and what is not known one for each
 * cause; of the rest the closest few clearances have, or all with @all. */
void cli_table_print (const TrnScene *scene, const TrnFindings *findings, gboolean all);
