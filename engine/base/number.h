/* number.h: numbers as text for files, never for people: C locale, shortest form. */
#pragma once

#include <glib.h>

/* Large enough for any double in the form below, with its end mark. */
#define TRN_NUMBER_BUFFER 32

/* Writes @value, which must be finite, into @buffer in the shortest decimal form that reads back
 * as the same double, whole numbers below 2⁵³ with all their digits, and returns @buffer. A
 * negative zero is written as 0. */
const char *trn_number_format (double value, char buffer[TRN_NUMBER_BUFFER]);
