/* option-values.c: moments, sizes and planes as they are typed. Numbers are in the C locale. */
#include "option-values.h"

#include <math.h>
#include <string.h>

/* Longer than any programme, and exact in whole milliseconds. */
#define GREATEST_TIME_S 1e9
#define GREATEST_OFFSET_M 1e6

/* A number from 0 that is all of @text: digits, and a point with digits after them. */
static gboolean
read_plain (const char *text, double *number)
{
  if (!g_ascii_isdigit (*text) || strspn (text, "0123456789.") != strlen (text))
    return FALSE;
  char *end;
  *number = g_ascii_strtod (text, &end);
  return *end == '\0' && *number < GREATEST_TIME_S;
}

/* Two digits and no more, below 60; decimals only where allowed. */
static gboolean
read_sixtieth (const char *text, gboolean decimals, double *number)
{
  gsize digits = strspn (text, "0123456789");
  if (digits != 2 || (text[2] != '\0' && !decimals))
    return FALSE;
  return read_plain (text, number) && *number < 60;
}

gboolean
cli_read_time (const char *text, double *time_s)
{
  g_auto (GStrv) parts = g_strsplit (text, ":", -1);
  guint n = g_strv_length (parts);
  double first, minutes = 0, seconds = 0;
  if (n == 1)
    return read_plain (text, time_s);
  if (n < 2 || n > 3 || strchr (parts[0], '.') != NULL || !read_plain (parts[0], &first))
    return FALSE;
  if (n == 3 && !read_sixtieth (parts[1], FALSE, &minutes))
    return FALSE;
  if (!read_sixtieth (parts[n - 1], TRUE, &seconds))
    return FALSE;
  *time_s = n == 3 ? first * 3600 + minutes * 60 + seconds : first * 60 + seconds;
  return *time_s < GREATEST_TIME_S;
}

static gboolean
read_pixels (const char *text, gsize length, guint *pixels)
{
  g_autofree char *digits = g_strndup (text, length);
  guint64 value;
  if (!g_ascii_string_to_unsigned (digits, 10, CLI_LEAST_PIXELS, CLI_MOST_PIXELS, &value, NULL))
    return FALSE;
  *pixels = (guint)value;
  return TRUE;
}

gboolean
cli_read_size (const char *text, guint *width, guint *height)
{
  const char *by = strchr (text, 'x');
  return by != NULL && read_pixels (text, (gsize)(by - text), width)
         && read_pixels (by + 1, strlen (by + 1), height);
}

gboolean
cli_read_section (const char *text, CliSection *section)
{
  if (text[0] < 'x' || text[0] > 'z' || text[1] != '=')
    return FALSE;
  const char *number = text + 2;
  if (*number == '+' || number[strspn (number, "+-.0123456789eE")] != '\0')
    return FALSE;
  char *end;
  double offset_m = g_ascii_strtod (number, &end);
  if (end == number || *end != '\0' || !(fabs (offset_m) <= GREATEST_OFFSET_M))
    return FALSE;
  *section = (CliSection){ TRUE, (guint)(text[0] - 'x'), offset_m };
  return TRUE;
}

gboolean
cli_is_view (const char *text)
{
  static const char *const names[] = { "plan", "north", "east", "south", "west", "3d", NULL };
  return g_strv_contains (names, text);
}
