/* cause-words.c: one sentence for each cause: what, where, how much, and what to do. What was found
 * is rounded away from its limit, so that both never look alike. */
#include "cause-words.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#include "cause.h"
#include "force-words.h"
#include "gear-words.h"
#include "ground-check.h"
#include "lean-pivot.h"

#define LONGEST_NAME 60

gboolean
trn_words_cause_is (const TrnFinding *finding, const char *why)
{
  return g_strcmp0 (finding->cause.why, why) == 0;
}

/* "point lug-a" */
static char *
who_text (const TrnCause *cause)
{
  g_autofree char *name = trn_words_clean (cause->of != NULL ? cause->of : "", LONGEST_NAME);
  switch (cause->kind)
    {
    case TRN_CAUSE_POINT:
      return g_strdup_printf (_ ("point %s"), name);
    case TRN_CAUSE_SLING:
      return g_strdup_printf (_ ("the point of sling %s"), name);
    case TRN_CAUSE_BEAM:
      return g_strdup_printf (_ ("beam %s"), name);
    case TRN_CAUSE_GEAR:
      return g_strdup_printf (_ ("the slings of %s"), name);
    case TRN_CAUSE_NONE:
      break;
    }
  return g_strdup (_ ("the slings that hold it"));
}

/* Those that are told with who, what was found and its limit, in this order. */
static const struct
{
  const char *why, *words;
} measured[] = {
  { TRN_LEAN_DOUBT_BESIDE,
    N_ ("Not known: %s lies %s beside the plumb line below its hook, at most %s counts. Draw it "
        "plumb below: move that point, hook_point, or the point of the tail") },
  { TRN_LEAN_DOUBT_LINE,
    N_ ("Not known: the line from %s to that of the other sling passes %s beside the plumb line "
        "below their hook, at most %s counts. Move both points, hook_point, or the point of the "
        "tail") },
  { TRN_LEAN_DOUBT_MIDDLE,
    N_ ("Not known: the middle of the points below %s lies %s beside the plumb line below its "
        "hook, at most %s counts. Move these points, hook_point, or the point of the tail") },
  { TRN_LEAN_DOUBT_BEAM_END,
    N_ ("Not known: %s lies %s beside the plumb line below its end of the beam, at most %s counts "
        "(1/200 of the beam and of the sling). Make the beam as long as its points are apart, put "
        "hook_point midway between them (in a tilt all on one line along its axis), or hang slings "
        "to both sides of each end") },
  { TRN_LEAN_DOUBT_ASKEW,
    N_ ("Not known: seen from above the line of %s is askew, %s off that of both hooks or off "
        "square to it, at most %s counts. Turn it along that line or square to it, by moving its "
        "points") },
  { TRN_LEAN_DOUBT_NARROW,
    N_ ("Not known: the points below %s go only %s aside from below its hook, at least %s counts "
        "(a tenth of below_hook). Take a longer beam, or a smaller below_hook") },
  { TRN_LEAN_DOUBT_ROUND,
    N_ ("Not known: %s go only %s aside from below their hook on one side, at least %s counts "
        "(1/50 of its height above their points). Put their points all round it, or all in one "
        "line") },
};

/* Those that are told with who alone. */
static const struct
{
  const char *why, *words;
} bare[] = {
  { TRN_LEAN_DOUBT_ONE_SIDE, N_ ("Not known: %s go to one side of their hook only, square to the "
                                 "line of both hooks. Put a point on either side") },
  { TRN_LEAN_DOUBT_LOW, N_ ("Not known: the hook is not above all points of %s. Raise it over its "
                            "points (hook_above)") },
  { TRN_LEAN_DOUBT_NO_END, N_ ("Not known: an end of %s holds no sling to the load. Give each of "
                               "its ends one (from and to of the slings)") },
  { TRN_LEAN_DOUBT_MIXED, N_ ("Not known: beside %s a sling goes from the hook straight to the "
                              "load. Hang all of the load from the beam") },
  { TRN_LEAN_DOUBT_PLANE,
    N_ ("Not known: the tilt turns the load out of the plane of both hooks, and what it leans by "
        "then is known of one sling alone, or of three all round. Change %s, or tilt it over an "
        "axis square to that plane") },
};

static char *
tolerance_text (const TrnCause *cause)
{
  g_autofree char *found = trn_words_length_up (cause->found);
  g_autofree char *limit = trn_words_length_down (cause->limit);
  return g_strdup_printf (
      _ ("Not known: points of the load are drawn beside what holds them, which moves and turns it "
         "by up to %s until they are plumb, and the tolerance of the lift covers %s. Draw them "
         "plumb below it, or give the tolerance a position that covers that"),
      found, limit);
}

char *
trn_words_cause_lean (const TrnFinding *finding)
{
  const TrnCause *cause = &finding->cause;
  if (cause->why == NULL)
    return NULL;
  if (trn_words_cause_is (finding, TRN_CAUSE_TOLERANCE))
    return tolerance_text (cause);
  g_autofree char *who = who_text (cause);
  for (guint i = 0; i < G_N_ELEMENTS (bare); i++)
    if (trn_words_cause_is (finding, bare[i].why))
      return g_strdup_printf (_ (bare[i].words), who);
  if (!isfinite (cause->found) || !isfinite (cause->limit))
    return NULL;
  const gboolean up = !cause->is_at_least;
  g_autofree char *found = trn_words_force (cause->found, cause->unit, up);
  g_autofree char *limit = trn_words_force (cause->limit, cause->unit, !up);
  for (guint i = 0; i < G_N_ELEMENTS (measured); i++)
    if (trn_words_cause_is (finding, measured[i].why))
      return g_strdup_printf (_ (measured[i].words), who, found, limit);
  return NULL;
}

/* What the load touches at an end of its lift, and may stand on. */
static const char *
stands_words (const TrnFinding *finding)
{
  if (trn_words_cause_is (finding, TRN_CAUSE_STANDS_AT_START))
    return _ ("%s. The load touches it, or all but touches it, as the lift begins: if it stands "
              "on that, and only then, name it in seats of the lift, \"at\": \"start\"");
  if (trn_words_cause_is (finding, TRN_CAUSE_STANDS_AT_END))
    return _ ("%s. The load touches it, or all but touches it, as the lift ends: if it is set "
              "down on that, and only then, name it in seats of the lift, \"at\": \"end\"");
  return NULL;
}

char *
trn_words_cause_stands (const TrnFinding *finding, char *says)
{
  const char *words = stands_words (finding);
  if (words == NULL)
    return says;
  g_autofree char *text = says;
  return g_strdup_printf (words, text);
}

char *
trn_words_cause_tail (const TrnFinding *finding, const char *missing)
{
  if (trn_words_cause_is (finding, TRN_CAUSE_TAIL_HOLDS))
    return g_strdup_printf (_ ("Short by %s: the tail hook hangs beside its load as far as the "
                               "point of the tail is from it. Take a longer lug"),
                            missing);
  if (trn_words_cause_is (finding, TRN_CAUSE_TAIL_LET_GO))
    return g_strdup_printf (_ ("Short by %s: the tail hook stays where it let go. Take a longer "
                               "lug, or split the lift there, so that the hook goes to its park"),
                            missing);
  return NULL;
}

/* %s is what it lies with. */
static const struct
{
  const char *missing, *words;
} masses[] = {
  { "block/mass", N_ ("mass of the hook block of gear %s") },
  { "slings", N_ ("slings of gear %s") },
  { "beam/mass", N_ ("mass of beam %s") },
  { "slings/mass", N_ ("mass of sling %s") },
  { "shackle/mass", N_ ("mass of the shackle of sling %s") },
  { "hook_above", N_ ("hook_above of the hook of gear %s, how far it is above its point") },
};

char *
trn_words_cause_mass (const TrnFinding *finding)
{
  const TrnCause *cause = &finding->cause;
  if ((!trn_words_cause_is (finding, TRN_CAUSE_NO_MASS)
       && !trn_words_cause_is (finding, TRN_CAUSE_LEFT_OUT))
      || cause->of == NULL)
    return NULL;
  g_autofree char *name = trn_words_clean (cause->of, LONGEST_NAME);
  for (guint i = 0; i < G_N_ELEMENTS (masses); i++)
    {
      if (strcmp (masses[i].missing, finding->missing) != 0)
        continue;
      g_autofree char *mass = g_strdup_printf (_ (masses[i].words), name);
      if (cause->n_more == 0)
        return g_steal_pointer (&mass);
      return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%s, and of %u more below that hook",
                                           "%s, and of %u more below that hook", cause->n_more),
                              mass, cause->n_more);
    }
  return NULL;
}

char *
trn_words_cause_park (const TrnFinding *finding)
{
  if (!trn_words_cause_is (finding, TRN_CAUSE_LEFT_OUT) || finding->cause.of == NULL
      || strcmp (finding->missing, "park") != 0)
    return NULL;
  g_autofree char *name = trn_words_clean (finding->cause.of, LONGEST_NAME);
  return g_strdup_printf (_ ("Not known: no hoist of the lift uses crane %s, and the plan leaves "
                             "out its park, the place of its hook then"),
                          name);
}

char *
trn_words_cause_length (const TrnFinding *finding)
{
  const TrnCause *cause = &finding->cause;
  if (trn_words_cause_is (finding, TRN_CAUSE_LENGTH))
    {
      g_autofree char *length = trn_words_length (cause->found);
      return g_strdup_printf (_ ("Give it %s, which fits all moves (length)"), length);
    }
  if (!trn_words_cause_is (finding, TRN_CAUSE_TILT_AXIS))
    return NULL;
  g_autofree char *who = who_text (cause);
  g_autofree char *found = trn_words_length_up (cause->found);
  return g_strdup_printf (
      _ ("No one length fits the whole tilt: seen along its axis, %s lies %s beside the point that "
         "is below the hook (hook_point, or the point of the tail). Put both on one line along "
         "that axis"),
      who, found);
}

char *
trn_words_cause_from (const TrnFinding *finding, char *says)
{
  g_autofree char *text = says;
  if (trn_words_cause_is (finding, TRN_CAUSE_FROM_START))
    return g_strdup_printf (_ ("%s, from the start of this move on"), text);
  if (!trn_words_cause_is (finding, TRN_CAUSE_FROM)
      && !trn_words_cause_is (finding, TRN_CAUSE_FROM_UPENDING))
    return g_steal_pointer (&text);
  g_autofree char *angle = trn_words_force (finding->cause.found, TRN_UNIT_DEG, FALSE);
  return g_strdup_printf (_ ("%s, from %s of this tilt on"), text, angle);
}

const char *
trn_words_cause_slack_advice (const TrnFinding *finding)
{
  if (trn_words_cause_is (finding, TRN_CAUSE_FROM_START))
    return _ ("Move the head or the point of the tail so that the centre of gravity lies between "
              "both");
  if (trn_words_cause_is (finding, TRN_CAUSE_FROM_UPENDING))
    return _ ("Move the head or the point of the tail so that the centre of gravity stays between "
              "both");
  return _ ("Move the head or the point of the tail so that the centre of gravity stays between "
            "both, or end the move before");
}

char *
trn_words_cause_lifted (const TrnFinding *finding)
{
  double support = trn_finding_number (finding, TRN_GROUND_LIFTED);
  if (!isfinite (support))
    return g_strdup (_ ("A support lifts off: it would have to pull"));
  g_autofree char *pull
      = trn_words_force (trn_finding_number (finding, TRN_GROUND_PULL), TRN_UNIT_N, TRUE);
  g_autofree char *x = trn_words_length (trn_finding_number (finding, TRN_GROUND_LIFTED_X));
  g_autofree char *y = trn_words_length (trn_finding_number (finding, TRN_GROUND_LIFTED_Y));
  return g_strdup_printf (trn_words_cause_is (finding, TRN_CAUSE_LEG)
                              ? _ ("Leg %d (x %s, y %s in the frame of its gear) lifts off: it "
                                   "would have to pull by up to %s")
                              : _ ("Support %d (x %s, y %s in the frame of its gear) lifts off: it "
                                   "would have to pull by up to %s"),
                          (int)support, x, y, pull);
}

/* ---- in a word or two ---- */

static const struct
{
  const char *prefix, *words;
} shorts[] = {
  { "lean", N_ ("lean") },
  { "hang", N_ ("how it hangs") },
  { "attitude", N_ ("how it hangs") },
  { "wind", N_ ("wind") },
  { "swing", N_ ("swinging") },
  { "cog", N_ ("centre of gravity") },
  { "out-of-level", N_ ("hooks out of level") },
  { "loads/out_of_level", N_ ("hooks out of level") },
  { "rigging/before", N_ ("what holds it") },
  { "seats/before", N_ ("its seat") },
  { "left", N_ ("left by an earlier lift") },
  { "tail", N_ ("tail") },
  { "tolerance", N_ ("tolerances") },
  { "gear", N_ ("gear") },
  { "rigging", N_ ("gear") },
  { "mass", N_ ("mass") },
  { "slings", N_ ("slings") },
  { "block/mass", N_ ("mass of the block") },
};

char *
trn_words_cause_short (const TrnFinding *finding)
{
  for (guint i = 0; finding->missing != NULL && i < G_N_ELEMENTS (shorts); i++)
    if (g_str_has_prefix (finding->missing, shorts[i].prefix))
      return g_strdup (_ (shorts[i].words));
  return trn_words_subject (finding);
}
