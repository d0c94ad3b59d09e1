/* quantity-words.c: numbers with their units.
 *
 * A clearance is a lower bound, so it is rounded down; what is needed is rounded up. Rounding is
 * done on whole millimetres, and the result compared with the number itself, so that the product
 * with 1000 cannot round over the edge. */
#include "words.h"

#include <glib/gi18n-lib.h>

#define NO_NUMBER "–"
/* Beyond this a millimetre is no longer told apart by a double, and no site is as large. */
#define GREATEST_M 1e12

static double
millimetres_down (double length_m)
{
  double mm = floor (length_m * 1000);
  if (mm / 1000 > length_m)
    mm -= 1;
  else if ((mm + 1) / 1000 <= length_m)
    mm += 1;
  return mm;
}

static double
millimetres_up (double length_m)
{
  return -millimetres_down (-length_m);
}

/* With a true minus sign, and without one for 0. */
static char *
number_text (double value, const char *format, gboolean drop_zeros)
{
  char digits[G_ASCII_DTOSTR_BUF_SIZE + 16];
  g_ascii_formatd (digits, sizeof digits, format, fabs (value));
  if (drop_zeros && strchr (digits, '.') != NULL && strchr (digits, 'e') == NULL)
    {
      char *end = digits + strlen (digits);
      while (end[-1] == '0')
        end--;
      if (end[-1] == '.')
        end--;
      *end = '\0';
    }
  gboolean zero = strspn (digits, "0.") == strlen (digits);
  return g_strconcat (value < 0 && !zero ? "−" : "", digits, NULL);
}

static char *
metres_text (double mm)
{
  g_autofree char *number = number_text (mm / 1000, "%.3f", TRUE);
  return g_strdup_printf (_ ("%s m"), number);
}

static gboolean
can_be_written (double length_m)
{
  return isfinite (length_m) && fabs (length_m) < GREATEST_M;
}

char *
trn_words_length (double length_m)
{
  return can_be_written (length_m) ? metres_text (round (length_m * 1000)) : g_strdup (NO_NUMBER);
}

char *
trn_words_length_down (double length_m)
{
  return can_be_written (length_m) ? metres_text (millimetres_down (length_m))
                                   : g_strdup (NO_NUMBER);
}

char *
trn_words_length_up (double length_m)
{
  return can_be_written (length_m) ? metres_text (millimetres_up (length_m)) : g_strdup (NO_NUMBER);
}

char *
trn_words_column_down (double length_m)
{
  return can_be_written (length_m) ? number_text (millimetres_down (length_m) / 1000, "%.3f", FALSE)
                                   : g_strdup (NO_NUMBER);
}

char *
trn_words_column_up (double length_m)
{
  return can_be_written (length_m) ? number_text (millimetres_up (length_m) / 1000, "%.3f", FALSE)
                                   : g_strdup (NO_NUMBER);
}

static gboolean
is_a_time (double time_s)
{
  return isfinite (time_s) && time_s >= 0 && time_s < 1e9;
}

char *
trn_words_column_time (double time_s)
{
  if (!is_a_time (time_s))
    return g_strdup (NO_NUMBER);
  guint64 seconds = (guint64)round (time_s);
  return g_strdup_printf ("%u:%02u:%02u", (guint)(seconds / 3600), (guint)(seconds / 60 % 60),
                          (guint)(seconds % 60));
}

char *
trn_words_time (double time_s)
{
  if (!is_a_time (time_s))
    return g_strdup (NO_NUMBER);
  if (round (time_s * 10) < 600)
    {
      g_autofree char *number = number_text (time_s, "%.1f", TRUE);
      return g_strdup_printf (_ ("%s s"), number);
    }
  guint64 seconds = (guint64)round (time_s);
  guint hours = (guint)(seconds / 3600), minutes = (guint)(seconds / 60 % 60);
  guint rest = (guint)(seconds % 60);
  if (hours > 0)
    return g_strdup_printf (_ ("%u h %02u min %02u s"), hours, minutes, rest);
  return g_strdup_printf (_ ("%u min %02u s"), minutes, rest);
}

char *
trn_words_angle (double angle_rad)
{
  if (!isfinite (angle_rad))
    return g_strdup (NO_NUMBER);
  g_autofree char *number = number_text (angle_rad * 180 / G_PI, "%.2f", TRUE);
  return g_strdup_printf (_ ("%s°"), number);
}

char *
trn_words_point (TrnVec3 point)
{
  if (!trn_vec3_is_finite (point) || !can_be_written (trn_vec3_max_abs (point)))
    return g_strdup (NO_NUMBER);
  g_autofree char *x = number_text (point.x, "%.3f", TRUE);
  g_autofree char *y = number_text (point.y, "%.3f", TRUE);
  g_autofree char *z = number_text (point.z, "%.3f", TRUE);
  return g_strdup_printf (_ ("(%s, %s, %s) m"), x, y, z);
}
