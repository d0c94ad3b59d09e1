/* places.h: where the load of each lift is before and after each move, as a table. */
#pragma once

#include "programme.h"

/* Prints a table for each lift on standard output: time, place of the hook point and of the
 * component's frame, and attitude, in the terms and units of a plan. Needs no meshes. */
void cli_places_print (const TrnProgramme *programme);
