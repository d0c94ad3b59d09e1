/* start.h: the check `start`: a lift begins where its component stands. What brings the component
 * from there to another start is a motion that nobody judged. */
#pragma once

#include "lift-check.h"

TrnFinding trn_start_judge (const TrnLiftCheck *check);
