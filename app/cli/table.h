/* table.h: findings as a table for people, worst margin first. */
#pragma once

#include "checks.h"

/* Prints title, table, the closest places, the headline and the caution on standard output. What
 * fails, is not known or is to be looked at is always shown; of the rest the closest few, or all
 * with @all. */
void cli_table_print (const TrnScene *scene, const TrnFindings *findings, gboolean all);
