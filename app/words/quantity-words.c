/* quantity-words.c: numbers with their units.
 *
 * A clearance is a lower bound, so it is rounded down; what is needed is rounded up. Rounding is
 * done on whole millimetres or sixteenths of an inch, and the result compared with the number
 * itself, so that the product with 1000 cannot round over the edge. Away from 0 (what is needed or
 * missing) a number that is above such a step by no more than the dust of its representation
 * counts as that step; toward 0 (what is there) nothing is forgiven. */
#include "words.h"

#include <float.h>
#include <glib/gi18n-lib.h>
#include <string.h>

#define NO_NUMBER "–"
/* Beyond this a millimetre is no longer told apart by a double, and no site is as large. */
#define GREATEST_M 1e12
/* What sums of a few binary fractions leave behind: 0.5 − 0.35 is 0.15000000000000002. */
#define DUST (8 * DBL_EPSILON)
#define US_TON_KG 907.18474 /* 2000 lb of 0.45359237 kg, exact by definition */

static TrnWordsUnits units_now = { TRN_LENGTHS_METRES, TRN_MASSES_TONNES, TRN_HEADINGS_BEARINGS };

void
trn_words_set_units (TrnWordsUnits units)
{
  units_now = units;
}

TrnWordsUnits
trn_words_get_units (void)
{
  return units_now;
}

static gboolean joins_units = FALSE;

void
trn_words_set_joined (gboolean joined)
{
  joins_units = joined;
}

char *
trn_words_quantity (char *quantity)
{
  if (!joins_units || strchr (quantity, ' ') == NULL)
    return quantity;
  g_auto (GStrv) parts = g_strsplit (quantity, " ", -1);
  g_free (quantity);
  return g_strjoinv ("\302\240", parts);
}

/* The finest step in which lengths are written is num/den metres: both whole numbers, so that
 * steps·num/den is the double nearest to the text, for 1/1000 m and for 1/16 in = 127/80000 m. */
typedef struct
{
  double num, den;
} Step;

static Step
step_now (void)
{
  return units_now.lengths == TRN_LENGTHS_FEET ? (Step){ 127, 80000 } : (Step){ 1, 1000 };
}

/* Of a length of at least 0. */
static double
steps_toward_0 (double length_m)
{
  Step step = step_now ();
  double steps = floor (length_m * step.den / step.num);
  if (steps * step.num / step.den > length_m)
    steps -= 1;
  else if ((steps + 1) * step.num / step.den <= length_m)
    steps += 1;
  return steps;
}

static double
steps_from_0 (double length_m)
{
  Step step = step_now ();
  double steps = steps_toward_0 (length_m), shown_m = steps * step.num / step.den;
  return length_m - shown_m <= shown_m * DUST ? steps : steps + 1;
}

static double
steps_down (double length_m)
{
  return length_m < 0 ? -steps_from_0 (-length_m) : steps_toward_0 (length_m);
}

static double
steps_up (double length_m)
{
  return -steps_down (-length_m);
}

static double
steps_nearest (double length_m)
{
  Step step = step_now ();
  return round (length_m * step.den / step.num);
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

/* "2′ 0 7/16″", "11 3/4″", "0″" */
static char *
feet_text (double sixteenths)
{
  gint64 rest = (gint64)fabs (sixteenths);
  gint64 feet = rest / 192, inches = rest / 16 % 12, parts = rest % 16, whole = 16;
  while (parts > 0 && parts % 2 == 0)
    {
      parts /= 2;
      whole /= 2;
    }
  g_autoptr (GString) text = g_string_new (sixteenths < 0 ? "−" : NULL);
  if (feet > 0)
    g_string_append_printf (text, "%" G_GINT64_FORMAT "′ ", feet);
  if (parts == 0 || inches > 0 || feet > 0)
    g_string_append_printf (text, "%" G_GINT64_FORMAT "%s", inches, parts > 0 ? " " : "");
  if (parts > 0)
    g_string_append_printf (text, "%" G_GINT64_FORMAT "/%" G_GINT64_FORMAT, parts, whole);
  g_string_append (text, "″");
  return trn_words_quantity (g_string_free (g_steal_pointer (&text), FALSE));
}

static char *
length_text (double steps)
{
  if (units_now.lengths == TRN_LENGTHS_FEET)
    return feet_text (steps);
  g_autofree char *number = number_text (steps / 1000, "%.3f", TRUE);
  return trn_words_quantity (g_strdup_printf (_ ("%s m"), number));
}

static char *
column_text (double steps)
{
  if (units_now.lengths == TRN_LENGTHS_FEET)
    return feet_text (steps);
  return number_text (steps / 1000, "%.3f", FALSE);
}

static gboolean
can_be_written (double length_m)
{
  return isfinite (length_m) && fabs (length_m) < GREATEST_M;
}

char *
trn_words_length (double length_m)
{
  return can_be_written (length_m) ? length_text (steps_nearest (length_m)) : g_strdup (NO_NUMBER);
}

char *
trn_words_length_down (double length_m)
{
  return can_be_written (length_m) ? length_text (steps_down (length_m)) : g_strdup (NO_NUMBER);
}

char *
trn_words_length_up (double length_m)
{
  return can_be_written (length_m) ? length_text (steps_up (length_m)) : g_strdup (NO_NUMBER);
}

char *
trn_words_column_down (double length_m)
{
  return can_be_written (length_m) ? column_text (steps_down (length_m)) : g_strdup (NO_NUMBER);
}

char *
trn_words_column_up (double length_m)
{
  return can_be_written (length_m) ? column_text (steps_up (length_m)) : g_strdup (NO_NUMBER);
}

/* "0.500 m" */
static char *
cell_text (double steps)
{
  g_autofree char *number = column_text (steps);
  return units_now.lengths == TRN_LENGTHS_FEET
             ? g_steal_pointer (&number)
             : trn_words_quantity (g_strdup_printf (_ ("%s m"), number));
}

char *
trn_words_cell_down (double length_m)
{
  return can_be_written (length_m) ? cell_text (steps_down (length_m)) : g_strdup (NO_NUMBER);
}

char *
trn_words_cell_up (double length_m)
{
  return can_be_written (length_m) ? cell_text (steps_up (length_m)) : g_strdup (NO_NUMBER);
}

char *
trn_words_mass (double mass_kg)
{
  if (!isfinite (mass_kg) || fabs (mass_kg) >= 1e12)
    return g_strdup (NO_NUMBER);
  gboolean us = units_now.masses == TRN_MASSES_US_TONS;
  g_autofree char *number = number_text (mass_kg / (us ? US_TON_KG : 1000), "%.3f", TRUE);
  return trn_words_quantity (g_strdup_printf (us ? _ ("%s US tons") : _ ("%s t"), number));
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
      return trn_words_quantity (g_strdup_printf (_ ("%s s"), number));
    }
  guint64 seconds = (guint64)round (time_s);
  guint hours = (guint)(seconds / 3600), minutes = (guint)(seconds / 60 % 60);
  guint rest = (guint)(seconds % 60);
  if (hours > 0)
    return trn_words_quantity (g_strdup_printf (_ ("%u h %02u min %02u s"), hours, minutes, rest));
  return trn_words_quantity (g_strdup_printf (_ ("%u min %02u s"), minutes, rest));
}

char *
trn_words_angle (double angle_rad)
{
  if (!isfinite (angle_rad))
    return g_strdup (NO_NUMBER);
  g_autofree char *number = number_text (angle_rad * 180 / G_PI, "%.2f", TRUE);
  return trn_words_quantity (g_strdup_printf (_ ("%s°"), number));
}

char *
trn_words_degrees_beside (double angle_deg, double other_deg)
{
  static const char *const formats[] = { "%.2f", "%.3f", "%.4f", "%.5f" };
  guint i = 0;
  for (; isfinite (other_deg) && i + 1 < G_N_ELEMENTS (formats); i++)
    {
      g_autofree char *number = number_text (angle_deg, formats[i], TRUE);
      g_autofree char *other = number_text (other_deg, formats[i], TRUE);
      if (strcmp (number, other) != 0)
        break;
    }
  if (!isfinite (angle_deg))
    return g_strdup (NO_NUMBER);
  g_autofree char *number = number_text (angle_deg, formats[i], TRUE);
  return trn_words_quantity (g_strdup_printf (_ ("%s°"), number));
}

char *
trn_words_heading (double heading_rad)
{
  if (!isfinite (heading_rad))
    return g_strdup (NO_NUMBER);
  gboolean bearing = units_now.headings == TRN_HEADINGS_BEARINGS;
  double deg = heading_rad * 180 / G_PI;
  double tenths = fmod (round ((bearing ? 90 - deg : deg) * 10), 3600);
  if (tenths < 0)
    tenths += 3600;
  guint whole = (guint)tenths / 10, part = (guint)tenths % 10;
  /* Bearings have three digits before the point. */
  return g_strdup_printf (bearing ? _ ("%03u.%u°") : _ ("%u.%u°"), whole, part);
}

char *
trn_words_point (TrnVec3 point)
{
  if (!trn_vec3_is_finite (point) || !can_be_written (trn_vec3_max_abs (point)))
    return g_strdup (NO_NUMBER);
  if (units_now.lengths == TRN_LENGTHS_FEET)
    {
      g_autofree char *x = feet_text (steps_nearest (point.x));
      g_autofree char *y = feet_text (steps_nearest (point.y));
      g_autofree char *z = feet_text (steps_nearest (point.z));
      return trn_words_quantity (g_strdup_printf ("(%s, %s, %s)", x, y, z));
    }
  g_autofree char *x = number_text (point.x, "%.3f", TRUE);
  g_autofree char *y = number_text (point.y, "%.3f", TRUE);
  g_autofree char *z = number_text (point.z, "%.3f", TRUE);
  return trn_words_quantity (g_strdup_printf (_ ("(%s, %s, %s) m"), x, y, z));
}
