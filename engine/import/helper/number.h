/* number.h: decimal numbers as text, correctly rounded.
 *
 * Up to 19 digits are gathered in an integer. Where it and the power of ten are both exact in
 * double precision, one multiplication or division rounds once (W. D. Clinger, How to read
 * floating point numbers accurately, 1990); the C library does the rest. */
#pragma once

#include <glib.h>

/* The number that begins at @text after blanks, or NaN where there is none; @end is set behind it.
 * Reads no further than a NUL byte or a character that cannot belong to a number. */
double trn_number_parse (const char *text, const char **end);

/* The same for a whole number of at least 0; −1 where there is none or it exceeds 2^53. */
gint64 trn_whole_parse (const char *text, const char **end);
