/* gear-names.h: what parts of the gear and of the rigging are called. As in words.h. */
#pragma once

#include "words.h"

/* "Boom of Main crane", "Leg 1 of Tower", "Sling s1"; NULL: @body is neither a gear of @plan, nor a
 * part of one, nor rigging of one of its lifts. */
char *trn_words_gear_body (const TrnPlan *plan, const char *body);
