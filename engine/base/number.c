/* The C library has no shortest-form printer: the least of the precisions 1 to 17 whose text reads
 * back the same is taken. 17 digits always do (IEEE 754, 5.12.2). A whole number is written with
 * all its digits, 20 and not 2e+01, which is no longer and easier to read. */
#include "number.h"

#include <math.h>

/* Below this every whole number is a double. */
#define EXACT_WHOLE 9007199254740992.0

const char *
trn_number_format (double value, char buffer[TRN_NUMBER_BUFFER])
{
  g_assert (isfinite (value));
  if (fabs (value) < EXACT_WHOLE && value == floor (value))
    {
      g_snprintf (buffer, TRN_NUMBER_BUFFER, "%" G_GINT64_FORMAT, (gint64)value);
      return buffer;
    }
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
