/* short-words.c: the greatest part of what is taken off, where without it, or without all that is
 * taken off, the clearance would be met, and what to do about it. Surveys speak for themselves. */
#include "short-words.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#include "words.h"

static const struct
{
  const char *what, *words; /* %s: what is short, %s: what is taken off for it */
} parts[] = {
  { "swing",
    N_ ("Short by %s: starting, stopping and slewing take %s off. Move it more slowly (seconds of "
        "the moves), start and stop more slowly (loads.ramp), let it come to rest between moves "
        "(wait), or give it more room") },
  { "wind",
    N_ ("Short by %s: the wind takes %s off. Lift in less wind (speed of wind in the plan), "
        "or give it more room") },
  { "lean",
    N_ ("Short by %s: the lean of the load takes %s off. Put the hook point plumb above its "
        "centre of gravity, or give it more room") },
  { "cog-box",
    N_ ("Short by %s: that its centre of gravity may lie anywhere in its box (cog_box) takes %s "
        "off. Have that weighed for a smaller box, or give it more room") },
  { "out-of-level",
    N_ ("Short by %s: hooks out of level take %s off. As far as the plan lets them (out_of_level) "
        "they turn the load, the more the nearer its two points are to being plumb over each "
        "other, and until it hangs from one hook where a rope goes slack. Keep the hooks closer to "
        "level, or put the tail point farther aside") },
  { "position-tilt-heading",
    N_ ("Short by %s: tolerances of position, tilt and heading take %s off. Make them smaller, and "
        "steer the load to that by tag lines, or give it more room") },
  { "earlier-lift",
    N_ ("Short by %s: what an earlier lift set down may lie elsewhere than drawn, which takes %s "
        "off. Give that lift smaller tolerances, or give it more room") },
};

static const char *
words_of (const char *what)
{
  for (guint i = 0; i < G_N_ELEMENTS (parts); i++)
    if (strcmp (parts[i].what, what) == 0)
      return _ (parts[i].words);
  return NULL;
}

/* Of hooks out of level half of all is enough: what they do is not seen in the plan. */
static gboolean
is_to_blame (const TrnFinding *finding, const TrnFindingItem *part)
{
  return part->m >= -trn_words_margin_m (finding)
         || (strcmp (part->what, "out-of-level") == 0 && part->m >= 0.5 * finding->allowance_m);
}

/* The greatest that has words; @alone: of those that are enough. */
static const TrnFindingItem *
greatest_part (const TrnFinding *finding, gboolean alone)
{
  const TrnFindingItem *most = NULL;
  for (guint i = 0; finding->allowance_parts != NULL && i < finding->allowance_parts->len; i++)
    {
      const TrnFindingItem *part = &g_array_index (finding->allowance_parts, TrnFindingItem, i);
      if (words_of (part->what) != NULL && (!alone || is_to_blame (finding, part))
          && (most == NULL || part->m > most->m))
        most = part;
    }
  return most;
}

static gboolean
is_of_gear (const TrnFinding *finding)
{
  return finding->check == TRN_CHECK_CLEARANCE && finding->body != NULL
         && strcmp (finding->body, "load") != 0;
}

char *
trn_words_short_because (const TrnFinding *finding, const char *missing)
{
  const TrnFindingItem *most = greatest_part (finding, TRUE);
  if (most == NULL && finding->lower_m >= finding->required_m)
    most = greatest_part (finding, FALSE);
  if (most == NULL)
    return !is_of_gear (finding)
               ? NULL
               : g_strdup_printf (_ ("Short by %s: put the gear, or what it passes, at least that "
                                     "much farther away"),
                                  missing);
  g_autofree char *off = trn_words_length_up (most->m);
  return g_strdup_printf (words_of (most->what), missing, off);
}
