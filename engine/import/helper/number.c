#include "number.h"

#include <math.h>

#define MAX_DIGITS 18
#define MAX_EXACT ((guint64)1 << 53)
#define MAX_POWER 22

static const double powers[MAX_POWER + 1]
    = { 1e0,  1e1,  1e2,  1e3,  1e4,  1e5,  1e6,  1e7,  1e8,  1e9,  1e10, 1e11,
        1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22 };

static const char *
skip_blanks (const char *p)
{
  while (*p == ' ' || *p == '\t' || *p == '\r' || *p == '\n')
    p++;
  return p;
}

static double
parse_slowly (const char *text, const char **end)
{
  char *stop;
  double value = g_ascii_strtod (text, &stop);
  *end = stop;
  return stop == text ? NAN : value;
}

double
trn_number_parse (const char *text, const char **end)
{
  const char *start = skip_blanks (text), *p = start;
  gboolean negative = *p == '-';
  if (*p == '-' || *p == '+')
    p++;
  guint64 digits = 0;
  int n = 0, power = 0, seen = 0;
  for (; g_ascii_isdigit (*p); p++, seen++)
    {
      digits = digits * 10 + (guint64)(*p - '0');
      n += digits > 0;
      if (n > MAX_DIGITS)
        return parse_slowly (start, end);
    }
  if (*p == '.')
    for (p++; g_ascii_isdigit (*p); p++, seen++)
      {
        digits = digits * 10 + (guint64)(*p - '0');
        n += digits > 0;
        power--;
        if (n > MAX_DIGITS)
          return parse_slowly (start, end);
      }
  if (seen == 0)
    return parse_slowly (start, end);
  if (*p == 'e' || *p == 'E')
    {
      const char *q = p + 1;
      gboolean down = *q == '-';
      int exponent = 0;
      if (*q == '-' || *q == '+')
        q++;
      const char *first = q;
      for (; g_ascii_isdigit (*q) && exponent < 10000; q++)
        exponent = exponent * 10 + (*q - '0');
      if (q > first)
        {
          power += down ? -exponent : exponent;
          p = q;
        }
    }
  if (digits > MAX_EXACT || power < -MAX_POWER || power > MAX_POWER || g_ascii_isdigit (*p))
    return parse_slowly (start, end);
  double value = power < 0 ? (double)digits / powers[-power] : (double)digits * powers[power];
  *end = p;
  return negative ? -value : value;
}

gint64
trn_whole_parse (const char *text, const char **end)
{
  const char *p = skip_blanks (text), *start = p;
  guint64 value = 0;
  for (; g_ascii_isdigit (*p) && value <= MAX_EXACT; p++)
    value = value * 10 + (guint64)(*p - '0');
  *end = p;
  return p == start || value > MAX_EXACT ? -1 : (gint64)value;
}
