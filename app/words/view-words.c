/* view-words.c: the words in a picture of a lift. */
#include "view-words.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#define BETWEEN " · "
#define FOOT_M 0.3048
#define LEAST_ALLOWANCE_M 1e-6 /* less is rounding, and would be shown as 0.001 m */

static const struct
{
  const char *name, *words;
} views[] = {
  { "plan", N_ ("Plan view") },     { "north", N_ ("From the north") },
  { "east", N_ ("From the east") }, { "south", N_ ("From the south") },
  { "west", N_ ("From the west") }, { "3d", N_ ("Oblique view") },
};

char *
trn_words_gap (double distance_m, double required_m, double allowance_m)
{
  g_autofree char *distance = trn_words_length_down (distance_m);
  g_autofree char *required = trn_words_length_up (required_m);
  if (distance_m == 0)
    return trn_words_gap_meeting (TRN_NOW_TOUCHING, 0, required_m);
  if (!(allowance_m > LEAST_ALLOWANCE_M))
    return g_strdup_printf (_ ("%s, keep %s"), distance, required);
  g_autofree char *allowance = trn_words_length_up (allowance_m);
  return g_strdup_printf (_ ("%s, %s taken off, keep %s"), distance, allowance, required);
}

char *
trn_words_gap_meeting (TrnNow now, double depth_m, double required_m)
{
  g_autofree char *meeting = trn_words_now (now, depth_m, required_m);
  g_autofree char *required = trn_words_length_up (required_m);
  return g_strdup_printf (_ ("%s, keep %s"), meeting, required);
}

char *
trn_words_gap_to (const char *name)
{
  g_autofree char *clean = trn_words_clean (name, TRN_PLATE_NAME_CHARS);
  return g_strdup_printf (_ ("to %s"), clean);
}

char *
trn_words_gap_to_then (const char *name, double time_s)
{
  g_autofree char *clean = trn_words_clean (name, TRN_PLATE_NAME_CHARS);
  g_autofree char *time = trn_words_time (time_s);
  return g_strdup_printf (_ ("to %s, at %s"), clean, time);
}

char *
trn_words_gap_between (const char *from, const char *to, double then_s)
{
  g_autofree char *a = trn_words_clean (from, TRN_PLATE_NAME_CHARS);
  g_autofree char *b = trn_words_clean (to, TRN_PLATE_NAME_CHARS);
  if (isnan (then_s))
    return g_strdup_printf (_ ("%s to %s"), a, b);
  g_autofree char *time = trn_words_time (then_s);
  return g_strdup_printf (_ ("%s to %s, at %s"), a, b, time);
}

char *
trn_words_swing_circle (double radius_m)
{
  g_autofree char *radius = trn_words_length_up (radius_m);
  return g_strdup_printf (_ ("swing circle, radius %s"), radius);
}

const char *
trn_words_ghost (TrnGhost ghost)
{
  switch (ghost)
    {
    case TRN_GHOST_START:
      return _ ("Start");
    case TRN_GHOST_END:
      return _ ("End");
    case TRN_GHOST_CLOSEST:
      return _ ("Closest");
    }
  g_assert_not_reached ();
}

static gboolean
are_feet (void)
{
  return trn_words_get_units ().lengths == TRN_LENGTHS_FEET;
}

double
trn_words_grid_pitch_m (double length_m)
{
  double unit_m = are_feet () ? FOOT_M : 1, length = length_m / unit_m;
  /* Less than a foot is no round number of anything. */
  if (are_feet () && length < 1)
    return unit_m;
  double power = pow (10, floor (log10 (length))), share = length / power;
  return power * (share >= 5 ? 5 : share >= 2 ? 2 : 1) * unit_m;
}

char *
trn_words_grid (double pitch_m)
{
  g_autofree char *pitch = are_feet () ? g_strdup_printf ("%.0f′", round (pitch_m / FOOT_M))
                                       : trn_words_length (pitch_m);
  return g_strdup_printf (_ ("grid %s"), pitch);
}

char *
trn_words_section (TrnVec3 normal, double offset_m)
{
  double along[] = { normal.x, normal.y, normal.z };
  for (guint i = 0; i < G_N_ELEMENTS (along); i++)
    if (fabs (along[i]) == 1)
      {
        g_autofree char *place = trn_words_length (offset_m * along[i]);
        return g_strdup_printf (_ ("cut at %c = %s"), "xyz"[i], place);
      }
  return g_strdup (_ ("cut by a plane"));
}

const char *
trn_words_view (const char *view)
{
  for (guint i = 0; i < G_N_ELEMENTS (views); i++)
    if (strcmp (views[i].name, view) == 0)
      return _ (views[i].words);
  return NULL;
}

const char *
trn_words_projection (gboolean parallel)
{
  return parallel ? _ ("parallel") : _ ("perspective");
}

char *
trn_words_caption (double time_s, const char *view, gboolean parallel)
{
  g_autofree char *time = trn_words_column_time (time_s);
  return trn_words_join (time, trn_words_view (view), trn_words_projection (parallel));
}

char *
trn_words_join (const char *a, const char *b, const char *c)
{
  const char *parts[] = { a, b, c };
  g_autoptr (GString) line = g_string_new (NULL);
  for (guint i = 0; i < G_N_ELEMENTS (parts); i++)
    if (parts[i] != NULL)
      g_string_append_printf (line, "%s%s", line->len > 0 ? BETWEEN : "", parts[i]);
  return g_string_free (g_steal_pointer (&line), FALSE);
}
