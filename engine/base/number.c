/* The C library has no shortest-form printer: the least of the precisions 1 to 17 whose text reads
 * back the same is taken. 17 digits always do (IEEE 754, 5.12.2). */
#include "number.h"

#include <math.h>

const char *
trn_number_format (double value, char buffer[TRN_NUMBER_BUFFER])
{
  g_assert (isfinite (value));
  if (value == 0)
    value = 0.0; /* drops the sign of a negative zero */
  for (int digits = 1; digits <= 17; digits++)
    {
      char format[8];
      g_snprintf (format, sizeof format, "%%.%dg", digits);
      g_ascii_formatd (buffer, TRN_NUMBER_BUFFER, format, value);
      if (g_ascii_strtod (buffer, NULL) == value)
        break;
    }
  return buffer;
}
