/* sources.h: what a finding names as its source where the plan names none. Words of the results
 * file; app/words has them in other languages. */
#pragma once

/* A rating or a tolerance that the plan gives without saying where it has it from. */
#define TRN_SOURCE_PLAN "the plan"
/* A limit of the program's own. */
#define TRN_SOURCE_PRACTICE "common practice, no source"
/* Numbers that have no limit: what they follow from. */
#define TRN_SOURCE_MOMENTS "statics: equilibrium of moments about main and tail point"
#define TRN_SOURCE_FORCES "statics: equilibrium of forces at the ends of the beam"
#define TRN_SOURCE_BENDING "statics: greatest bending moment along the beam"
#define TRN_SOURCE_MASSES "sum of the masses in the plan"
#define TRN_SOURCE_MOVES "moves of the plan and their seconds"
/* A limit of wind made less for a load that shows more to the wind. */
#define TRN_SOURCE_SAIL_AREA                                                                       \
  "wind_limit of the plan for 1.2 m² of sail area times drag a tonne, less for more: common "     \
  "practice of EN 13000"
