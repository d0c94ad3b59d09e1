/* force-words.c: forces in words. What is borne is rounded up and what may be borne is rounded
 * down. */
#include "force-words.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#include "attitude.h"
#include "cause-words.h"
#include "cause.h"
#include "footing-words.h"
#include "ground-check.h"
#include "load-words.h"
#include "tolerances.h"

#define LONGEST_NAME 60
#define DIGITS 4
/* What binary fractions leave of a round number. */
#define DUST 1e-9

/* ---- numbers ---- */

/* To DIGITS digits, away from 0 or toward it as asked. */
static double
rounded (double value, gboolean up)
{
  if (value == 0 || !isfinite (value))
    return value;
  double step = pow (10, floor (log10 (fabs (value))) - (DIGITS - 1)), steps = value / step;
  double near = round (steps);
  if (fabs (steps - near) > DUST * fabs (near))
    near = up ? ceil (steps) : floor (steps);
  return near * step;
}

char *
trn_words_force (double value, TrnUnit unit, gboolean up)
{
  char digits[G_ASCII_DTOSTR_BUF_SIZE];
  gboolean is_kilo = unit == TRN_UNIT_N || unit == TRN_UNIT_NM || unit == TRN_UNIT_PA;
  if (!isfinite (value))
    return g_strdup ("–");
  if (unit == TRN_UNIT_KG)
    return trn_words_mass (rounded (value, up));
  if (unit == TRN_UNIT_M)
    return up ? trn_words_length_up (value) : trn_words_length_down (value);
  if (unit == TRN_UNIT_DEG)
    return trn_words_angle (value / 180 * G_PI);
  g_ascii_formatd (digits, sizeof digits, "%.4g", rounded (is_kilo ? value / 1000 : value, up));
  g_autofree char *number
      = digits[0] == '-' ? g_strconcat ("−", digits + 1, NULL) : g_strdup (digits);
  switch (unit)
    {
    case TRN_UNIT_N:
      return trn_words_quantity (g_strdup_printf (_ ("%s kN"), number));
    case TRN_UNIT_NM:
      return trn_words_quantity (g_strdup_printf (_ ("%s kN m"), number));
    case TRN_UNIT_PA:
      return trn_words_quantity (g_strdup_printf (_ ("%s kPa"), number));
    case TRN_UNIT_M_S:
      return trn_words_quantity (g_strdup_printf (_ ("%s m/s"), number));
    case TRN_UNIT_DEG_S:
      return trn_words_quantity (g_strdup_printf (_ ("%s°/s"), number));
    case TRN_UNIT_M2:
      return trn_words_quantity (g_strdup_printf (_ ("%s m²"), number));
    default:
      return g_strdup (number);
    }
}

/* "82.5 %", rounded up. */
char *
trn_words_share (double share)
{
  char number[G_ASCII_DTOSTR_BUF_SIZE];
  g_ascii_formatd (number, sizeof number, "%.1f", ceil (share * 1000 * (1 - DUST)) / 10);
  return trn_words_quantity (g_strdup_printf (_ ("%s %%"), number));
}

static gboolean
is_item (const TrnFinding *finding, const char *item)
{
  return finding->item != NULL && strcmp (finding->item, item) == 0;
}

/* "82.5 %: 12.3 t of 15 t" */
static char *
of_limit (const TrnFinding *finding)
{
  g_autofree char *share = trn_words_share (finding->utilisation);
  g_autofree char *value = trn_words_force (finding->value, finding->unit, TRUE);
  g_autofree char *limit = trn_words_force (finding->limit, finding->unit, FALSE);
  return g_strdup_printf (_ ("%s, %s of %s"), share, value, limit);
}

/* ---- what it is about ---- */

static const struct
{
  const char *item, *words;
} items[] = {
  { "tail", N_ ("tail") },
  { "main", N_ ("main hook") },
  { "tail-out-of-level", N_ ("tail, hooks out of level") },
  { "main-out-of-level", N_ ("main hook, hooks out of level") },
  { "tail-height", N_ ("tail height") },
  { "out-of-plane", N_ ("out of plane") },
  { "tail-alone", N_ ("tail alone") },
  { "tension", N_ ("tension") },
  { "angle", N_ ("angle") },
  { "shackle", N_ ("shackle") },
  { "compression", N_ ("compression") },
  { "moment", N_ ("bending moment") },
  { "beam-load", N_ ("load on the beam") },
  { "force", N_ ("force") },
  { "sway", N_ ("sway") },
  { "speed", N_ ("speed") },
  { "lean", N_ ("lean") },
  { "shift", N_ ("hook point aside") },
  { "line", N_ ("hoist rope") },
  { "boom", N_ ("boom") },
  { "slew", N_ ("slew") },
  { "travel", N_ ("travel") },
  { "start", N_ ("at the start") },
  { "empty", N_ ("without load") },
};

static const char *
check_text (TrnCheckKind check)
{
  switch (check)
    {
    case TRN_CHECK_HOOK_LOAD:
      return _ ("hook load");
    case TRN_CHECK_CAPACITY:
      return _ ("capacity");
    case TRN_CHECK_LOAD_SHARE:
      return _ ("load share");
    case TRN_CHECK_SLINGS:
      return _ ("sling");
    case TRN_CHECK_GROUND:
      return _ ("ground");
    case TRN_CHECK_WIND:
      return _ ("wind");
    case TRN_CHECK_RESTING:
      return _ ("resting");
    case TRN_CHECK_ATTITUDE:
      return _ ("attitude");
    case TRN_CHECK_HOIST_LINES:
      return _ ("hoist rope");
    case TRN_CHECK_SPEEDS:
      return _ ("speed");
    case TRN_CHECK_SWINGING:
      return _ ("swinging");
    default:
      return NULL;
    }
}

char *
trn_words_force_subject (const TrnFinding *finding)
{
  const char *check = check_text (finding->check);
  for (guint i = 0; check != NULL && i < G_N_ELEMENTS (items); i++)
    if (is_item (finding, items[i].item))
      return g_strdup_printf ("%s: %s", check, _ (items[i].words));
  return g_strdup (check);
}

/* ---- sentences ---- */

static char *
hook_load_text (const TrnFinding *finding)
{
  g_autofree char *value = trn_words_force (finding->value, finding->unit, TRUE);
  return g_strdup_printf (_ ("Hook load at rest: at most %s, hoist rope not counted"), value);
}

static char *
capacity_text (const TrnFinding *finding)
{
  if (finding->state == TRN_STATE_OUT_OF_REACH)
    return g_strdup (_ ("No rated capacity: the radius is beyond the ends of the table"));
  g_autofree char *used = of_limit (finding);
  if (finding->state == TRN_STATE_OUTSIDE)
    return g_strdup_printf (_ ("Beyond the rated capacity: %s"), used);
  if (finding->state == TRN_STATE_CRITICAL)
    {
      g_autofree char *rule = trn_words_clean (finding->rule, LONGEST_NAME);
      return g_strdup_printf (_ ("Within the rated capacity: %s; a critical lift by %s"), used,
                              rule);
    }
  if (finding->rule == NULL)
    return g_strdup_printf (
        _ ("Within the rated capacity: %s; whether it is a critical lift is not "
           "judged (critical of loads is left out)"),
        used);
  g_autofree char *rule = trn_words_clean (finding->rule, LONGEST_NAME);
  return g_strdup_printf (_ ("Within the rated capacity: %s; no critical lift by %s"), used, rule);
}

/* A load on two hooks, or on its tail alone, that swings until it hangs plumb. */
static char *
lean_text (const TrnFinding *finding)
{
  gboolean is_alone = is_item (finding, "tail-alone");
  g_autofree char *value = trn_words_force (finding->value, finding->unit, TRUE);
  if (finding->state == TRN_STATE_TURNS_OVER)
    return g_strdup (is_alone ? _ ("Turns over: its centre of gravity can be above the tail point, "
                                   "which alone holds it")
                              : _ ("Turns over: its centre of gravity can be above the line "
                                   "through what it hangs from"));
  if (finding->state == TRN_STATE_KNOWN)
    return g_strdup_printf (_ ("The centre of gravity lies up to %s beside the plumb plane through "
                               "both hooks: the tail gear keeps the load from leaning and has to "
                               "bear that"),
                            value);
  g_autofree char *found = trn_words_degrees_beside (finding->value, finding->limit);
  g_autofree char *limit = trn_words_degrees_beside (finding->limit, finding->value);
  if (finding->state == TRN_STATE_WITHIN)
    return g_strdup_printf (_ ("Leans by at most %s until its centre of gravity is plumb below "
                               "what it hangs from, and tolerances cover %s"),
                            found, limit);
  return g_strdup_printf (_ ("Leans by up to %s until its centre of gravity is plumb below what it "
                             "hangs from, where tolerances cover %s. Clearances hold for the drawn "
                             "attitude only"),
                          found, limit);
}

static char *
height_text (const TrnFinding *finding)
{
  g_autofree char *height = trn_words_length_down (fabs (finding->value));
  if (!(finding->value < 0))
    return g_strdup_printf (_ ("The tail point stays %s above the centre of gravity"), height);
  return g_strdup_printf (
      finding->state == TRN_STATE_OVER_TAIL
          ? _ ("The tail point comes %s below the centre of gravity and carries all of the load: "
               "it turns over about the tail")
          : _ ("The tail point comes %s below the centre of gravity: it can come to carry all of "
               "the load"),
      height);
}

static char *
out_of_level_text (const TrnFinding *finding)
{
  gboolean is_tail = is_item (finding, "tail-out-of-level");
  if (finding->state == TRN_STATE_SLACK)
    return g_strdup (is_tail ? _ ("With the hooks out of level the tail goes slack")
                             : _ ("With the hooks out of level the main hook goes slack"));
  if (finding->state == TRN_STATE_OVER_TAIL)
    return g_strdup (_ ("With the hooks out of level the centre of gravity passes over the tail "
                        "point: the main hook goes slack"));
  g_autofree char *value = trn_words_force (finding->value, finding->unit, TRUE);
  g_autofree char *share = trn_words_share (finding->utilisation);
  return g_strdup_printf (
      is_tail ? _ ("With the hooks out of level the tail carries at most %s, %s of the load")
              : _ ("With the hooks out of level the main hook carries at most %s, %s of the load"),
      value, share);
}

static char *
share_bare_text (const TrnFinding *finding)
{
  gboolean is_tail = is_item (finding, "tail");
  if (is_item (finding, "tail-height"))
    return height_text (finding);
  if (is_item (finding, "out-of-plane") || is_item (finding, "tail-alone"))
    return lean_text (finding);
  if (!is_tail && !is_item (finding, "main"))
    return out_of_level_text (finding);
  if (finding->state == TRN_STATE_OVER_TAIL)
    return g_strdup (
        _ ("The centre of gravity passes over the tail point: the main hook goes slack"));
  if (finding->state == TRN_STATE_SLACK)
    return g_strdup (is_tail ? _ ("The tail goes slack: it would have to push")
                             : _ ("The main hook goes slack: it would have to push"));
  g_autofree char *value = trn_words_force (finding->value, finding->unit, TRUE);
  g_autofree char *share = trn_words_share (finding->utilisation);
  return g_strdup_printf (is_tail ? _ ("The tail carries at most %s, %s of the load")
                                  : _ ("The main hook carries at most %s, %s of the load"),
                          value, share);
}

static char *
share_text (const TrnFinding *finding)
{
  return trn_words_cause_from (finding, share_bare_text (finding));
}

static char *
hoist_lines_text (const TrnFinding *finding)
{
  g_autofree char *value = trn_words_force (finding->value, finding->unit, TRUE);
  g_autofree char *limit = trn_words_force (finding->limit, finding->unit, FALSE);
  return g_strdup_printf (finding->state == TRN_STATE_WITHIN
                              ? _ ("The hoist rope stays within %s of plumb, %s allowed")
                              : _ ("The hoist rope can be %s out of plumb, %s allowed"),
                          value, limit);
}

static char *
angle_text (const TrnFinding *finding)
{
  g_autofree char *value = trn_words_force (finding->value, finding->unit, FALSE);
  g_autofree char *limit = trn_words_force (finding->limit, finding->unit, TRUE);
  if (finding->state == TRN_STATE_WITHIN)
    return g_strdup_printf (_ ("At least %s from the level, %s wanted"), value, limit);
  return g_strdup_printf (_ ("Too flat: %s from the level, %s wanted"), value, limit);
}

static char *
slings_text (const TrnFinding *finding)
{
  if (is_item (finding, "angle"))
    return angle_text (finding);
  if (finding->state == TRN_STATE_SLACK)
    return g_strdup (_ ("Goes slack: it would have to push"));
  if (finding->state == TRN_STATE_KNOWN)
    {
      g_autofree char *value = trn_words_force (finding->value, finding->unit, TRUE);
      return g_strdup_printf (is_item (finding, "moment")
                                  ? _ ("Bending moment of the beam: at most %s")
                                  : _ ("Compression of the beam: at most %s"),
                              value);
    }
  g_autofree char *used = of_limit (finding);
  gboolean within = finding->state == TRN_STATE_WITHIN;
  if (is_item (finding, "shackle"))
    return g_strdup_printf (within ? _ ("Shackle within its working load limit: %s")
                                   : _ ("Shackle beyond its working load limit: %s"),
                            used);
  return g_strdup_printf (within ? _ ("Within its working load limit: %s")
                                 : _ ("Beyond its working load limit: %s"),
                          used);
}

char *
trn_words_share_when (const TrnFinding *finding)
{
  const double least_deg = trn_finding_number (finding, "least-turned");
  if (finding->check != TRN_CHECK_LOAD_SHARE || isnan (least_deg))
    return NULL;
  g_autofree char *least_at = trn_words_force (least_deg, TRN_UNIT_DEG, TRUE);
  if (!trn_words_has_value (finding))
    return g_strdup_printf (_ ("worst when turned by %s in this move"), least_at);
  g_autofree char *at
      = trn_words_force (trn_finding_number (finding, "turned"), TRN_UNIT_DEG, TRUE);
  g_autofree char *least
      = trn_words_force (fmax (0, trn_finding_number (finding, "least")), finding->unit, FALSE);
  return g_strdup_printf (
      _ ("the most when turned by %s in this move, the least, %s, when turned by %s"), at, least,
      least_at);
}

/* On mats: what of them bears, and what bends them then; below a track without a width. */
static char *
mats_text (const TrnFinding *finding)
{
  const gboolean within = finding->state == TRN_STATE_WITHIN;
  const double width_m = trn_finding_number (finding, TRN_GROUND_MAT_WIDTH);
  g_autofree char *used = of_limit (finding);
  g_autofree char *length
      = trn_words_length_down (trn_finding_number (finding, TRN_GROUND_MAT_LENGTH));
  g_autofree char *along
      = trn_words_force (trn_finding_number (finding, TRN_GROUND_MAT_MOMENT), TRN_UNIT_NM, TRUE);
  if (isnan (width_m))
    return g_strdup_printf (
        within ? _ ("Ground pressure within what is allowed: %s; mats bear over a length of %s, "
                    "which bends those of one track by up to %s; shear of the mats is not checked, "
                    "wind on the gear is not counted")
               : _ ("Ground pressure beyond what is allowed: %s; mats bear over a length of %s, "
                    "which bends those of one track by up to %s; shear of the mats is not checked, "
                    "wind on the gear is not counted"),
        used, length, along);
  g_autofree char *width = trn_words_length_down (width_m);
  g_autofree char *across = trn_words_force (
      trn_finding_number (finding, TRN_GROUND_MAT_MOMENT_ACROSS), TRN_UNIT_NM, TRUE);
  return g_strdup_printf (
      within ? _ ("Ground pressure within what is allowed: %s; a mat bears over a length of %s and "
                  "a width of %s, which bends this part of it by up to %s along and %s across; "
                  "shear of the mat is not checked, wind on the gear is not counted")
             : _ ("Ground pressure beyond what is allowed: %s; a mat bears over a length of %s and "
                  "a width of %s, which bends this part of it by up to %s along and %s across; "
                  "shear of the mat is not checked, wind on the gear is not counted"),
      used, length, width, along, across);
}

static char *
ground_text (const TrnFinding *finding)
{
  if (finding->state == TRN_STATE_LIFTED && is_item (finding, "empty"))
    return g_strdup (_ ("Without its load it would tip over backwards: a support lifts off before "
                        "it takes the load or after it lets go, with the boom as it is then"));
  if (finding->state == TRN_STATE_LIFTED)
    return trn_words_cause_lifted (finding);
  if (isfinite (trn_finding_number (finding, TRN_GROUND_MAT_LENGTH)))
    return mats_text (finding);
  g_autofree char *used = of_limit (finding);
  if (finding->state == TRN_STATE_WITHIN)
    return g_strdup_printf (
        _ ("Ground pressure within what is allowed: %s; wind on the gear is not counted"), used);
  return g_strdup_printf (
      _ ("Ground pressure beyond what is allowed: %s; wind on the gear is not counted"), used);
}

static char *
wind_text (const TrnFinding *finding)
{
  g_autofree char *value = trn_words_force (finding->value, finding->unit, TRUE);
  if (is_item (finding, "force"))
    return g_strdup_printf (_ ("Wind force on the load: at most %s"), value);
  if (is_item (finding, "sway"))
    return g_strdup_printf (_ ("The wind takes the load aside by at most %s"), value);
  g_autofree char *limit = trn_words_force (finding->limit, finding->unit, FALSE);
  if (finding->state == TRN_STATE_WITHIN)
    return g_strdup_printf (_ ("Wind of %s, the crane allows %s for this load"), value, limit);
  return g_strdup_printf (_ ("Too much wind: %s, the crane allows %s for this load"), value, limit);
}

/* By the minute, as those who drive them say it. */
static char *
speed_text (const TrnFinding *finding)
{
  g_autofree char *second = trn_words_force (finding->value, finding->unit, TRUE);
  if (finding->unit == TRN_UNIT_DEG_S)
    {
      g_autofree char *turns = trn_words_force (finding->value * 60 / 360, TRN_UNIT_NONE, TRUE);
      if (is_item (finding, "slew"))
        return g_strdup_printf (_ ("Slews at %s at most, %s turns a minute"), second, turns);
      return g_strdup_printf (_ ("The boom goes up or down at %s at most"), second);
    }
  g_autofree char *minute = trn_words_force (finding->value * 60, TRN_UNIT_M, TRUE);
  if (is_item (finding, "line"))
    return g_strdup_printf (_ ("Hoist rope paid in or out at %s at most, %s a minute"), second,
                            minute);
  return g_strdup_printf (_ ("Travels at %s at most, %s a minute"), second, minute);
}

static char *
swinging_text (const TrnFinding *finding)
{
  g_autofree char *value = trn_words_force (finding->value, finding->unit, TRUE);
  return g_strdup_printf (_ ("Starting, stopping and slewing take the load aside by at most %s"),
                          value);
}

/* Somewhere in the box alone it leans too much, and its slings take its hook point too far. */
static char *
lean_and_shift_text (const char *lean, const char *tilt, double shift_m)
{
  g_autofree char *shift = trn_words_length_up (shift_m);
  return g_strdup_printf (
      _ ("Would not hang as drawn: its centre of gravity may lie anywhere in its box (cog_box), so "
         "that it leans by up to %s, where the tolerance of tilt is %s, and its slings take its "
         "hook point aside by up to %s. Clearances hold for the drawn attitude only: give the lift "
         "a tolerance with a tilt_deg of at least %s and a position of at least %s, a smaller "
         "cog_box, or \"hangs\": \"free\""),
      lean, tilt, shift, lean, shift);
}

/* The lean is one that all the load is drawn without. */
static char *
attitude_text (const TrnFinding *finding)
{
  gboolean is_shift = is_item (finding, "shift");
  g_autofree char *value = trn_words_force (finding->value, finding->unit, TRUE);
  g_autofree char *limit = trn_words_force (finding->limit, finding->unit, FALSE);
  if (finding->state == TRN_STATE_OUTSIDE && !is_shift && finding->value > 90)
    return g_strdup_printf (
        _ ("Would turn over, by %s: its centre of gravity is, or in its box can be, above what it "
           "hangs by. Hold it by points above its centre of gravity"),
        value);
  if (finding->state == TRN_STATE_WITHIN)
    return g_strdup_printf (_ ("Hangs as drawn: free it would lean by up to %s, which the "
                               "tolerance of tilt covers"),
                            value);
  const gboolean is_of_box = isfinite (trn_finding_number (finding, TRN_ATTITUDE_BUT_FOR_BOX));
  if (is_of_box && isfinite (trn_finding_number (finding, "shift")))
    return lean_and_shift_text (value, limit, trn_finding_number (finding, "shift"));
  if (is_of_box)
    return g_strdup_printf (
        is_shift
            ? _ ("Would not hang as drawn: its centre of gravity may lie anywhere in its box "
                 "(cog_box), so that its slings take its hook point aside by up to %s, where the "
                 "tolerance of position is %s. Clearances hold for the drawn attitude only: give "
                 "the lift a position of its tolerance of at least %s, a smaller cog_box, or "
                 "\"hangs\": \"free\"")
            : _ ("Would not hang as drawn: its centre of gravity may lie anywhere in its box "
                 "(cog_box), so that it leans by up to %s, where the tolerance of tilt is %s. "
                 "Clearances hold for the drawn attitude only: give the lift a tilt_deg of its "
                 "tolerance of at least %s, a smaller cog_box, or \"hangs\": \"free\""),
        value, limit, value);
  return g_strdup_printf (
      is_shift
          ? _ ("Would not hang as drawn: its slings turn it about the hook, which takes its "
               "hook point aside by up to %s, where the tolerance of position is %s. "
               "Clearances hold for the drawn attitude only: write \"hangs\": \"free\" into "
               "the lift, or put the hook point plumb above the centre of gravity")
          : _ (
              "Would not hang as drawn: with its centre of gravity plumb below the hook it "
              "leans by up to %s, where the tolerance of tilt is %s. Clearances hold for the drawn "
              "attitude only: write \"hangs\": \"free\" into the lift, or put the hook point "
              "plumb above the centre of gravity"),
      value, limit);
}

char *
trn_words_force_bare (const TrnFinding *finding)
{
  if (finding->state == TRN_STATE_UNKNOWN || finding->verdict == TRN_VERDICT_UNKNOWN)
    return g_strdup (_ ("Not known: it could not be worked out"));
  switch (finding->check)
    {
    case TRN_CHECK_HOOK_LOAD:
      return hook_load_text (finding);
    case TRN_CHECK_CAPACITY:
      return capacity_text (finding);
    case TRN_CHECK_LOAD_SHARE:
      return share_text (finding);
    case TRN_CHECK_SLINGS:
      return slings_text (finding);
    case TRN_CHECK_GROUND:
      return ground_text (finding);
    case TRN_CHECK_WIND:
      return wind_text (finding);
    case TRN_CHECK_RESTING:
      return trn_words_resting (finding);
    case TRN_CHECK_ATTITUDE:
      return attitude_text (finding);
    case TRN_CHECK_HOIST_LINES:
      return hoist_lines_text (finding);
    case TRN_CHECK_SPEEDS:
      return speed_text (finding);
    case TRN_CHECK_SWINGING:
      return swinging_text (finding);
    default:
      g_assert_not_reached ();
    }
}

/* ---- what to do ---- */

static const char *
sling_advice (const TrnFinding *finding)
{
  if (is_item (finding, "angle"))
    return _ ("Raise the hook over its points (hook_above) with longer slings, or put a beam "
              "between");
  if (finding->state == TRN_STATE_SLACK)
    return _ ("Move the points of the slings, or the hook, so that the centre of gravity lies "
              "between them");
  if (is_item (finding, "shackle"))
    return _ ("Take a larger shackle, or one that is pulled less aside");
  if (is_item (finding, "beam-load"))
    return _ ("Take a stronger beam, or hang the load from both of its ends alike");
  if (trn_words_cause_is (finding, TRN_CAUSE_PLUMB))
    return _ ("Take a stronger sling: it is nearly plumb, so that a higher hook does not help");
  return _ ("Take stronger slings, or steeper ones (hook_above)");
}

static const char *
ground_advice (const TrnFinding *finding)
{
  if (trn_words_cause_is (finding, TRN_CAUSE_LEG))
    return _ ("That is of all weights, as on ground that settles evenly and, of four in a "
              "rectangle, as a beam shares along and across; the worse counts. Set the legs "
              "farther apart, or keep the hook nearer to their middle (moves, or the place of the "
              "gear)");
  if (isfinite (trn_finding_number (finding, TRN_GROUND_LIFTED)))
    return _ ("That is of all weights, as on ground that settles evenly and, of four in a "
              "rectangle, as a beam shares along and across; the worse counts. Set the supports "
              "farther apart, bring the load nearer to their middle, or change the counterweight");
  if (finding->state == TRN_STATE_LIFTED)
    return _ (
        "Set the supports farther apart, bring the load nearer to their middle, or change the "
        "counterweight");
  if (isfinite (trn_finding_number (finding, TRN_GROUND_MAT_LEAST_STRONG)))
    return _ ("Take stronger mats (moment and moment_across of the mat, in N m) or larger pads, "
              "shorten the radius, or set the gear on firmer ground");
  return _ ("Take larger pads or mats, shorten the radius, or set the gear on firmer ground");
}

static const char *
share_advice (const TrnFinding *finding)
{
  if (finding->state == TRN_STATE_TURNS_OVER)
    return _ ("Hang it by points above its centre of gravity, or let a tail trolley or a turning "
              "frame carry the tail");
  if (finding->state == TRN_STATE_OUTSIDE)
    return _ ("Hang it by points in one plumb plane with its centre of gravity, or give the lift a "
              "tilt_deg of its tolerance that covers the lean");
  return trn_words_cause_slack_advice (finding);
}

static const struct
{
  const char *number, *words;
} aside[] = {
  { "tolerances", N_ ("Keep the load nearer to its way (tolerance of the lift)") },
  { "level-aside", N_ ("Keep the hooks closer to level (loads.out_of_level)") },
  { "wind-aside", N_ ("Lift in less wind (speed of wind in the plan)") },
  { "swing-aside", N_ ("Move it more slowly (seconds of the moves), start and stop more slowly "
                       "(loads.ramp), or let it be brought to rest between moves (a wait as long "
                       "as loads.ramp.rest)") },
  { "dragged", N_ ("Move the load as its tail gear can go, or set that gear so") },
};

/* Against the part that takes the hoist rope aside most. */
static const char *
hoist_lines_advice (const TrnFinding *finding)
{
  guint most = 0;
  double most_m = -INFINITY;
  for (guint i = 0; i < G_N_ELEMENTS (aside); i++)
    {
      const double aside_m = trn_finding_number (finding, aside[i].number);
      if (!(aside_m > most_m))
        continue;
      most = i;
      most_m = aside_m;
    }
  return _ (aside[most].words);
}

/* NULL: it says so itself. */
static const char *
advice (const TrnFinding *finding)
{
  switch (finding->check)
    {
    case TRN_CHECK_CAPACITY:
      return finding->state == TRN_STATE_OUT_OF_REACH
                 ? _ ("Change the place of the gear or the moves; never extend a table by a guess")
             : isnan (trn_finding_number (finding, "radius"))
                 ? _ ("Take larger gear, or let it carry less")
                 : _ ("Shorten the radius, take larger gear, or hang less below its hook");
    case TRN_CHECK_LOAD_SHARE:
      return share_advice (finding);
    case TRN_CHECK_SLINGS:
      return sling_advice (finding);
    case TRN_CHECK_GROUND:
      return ground_advice (finding);
    case TRN_CHECK_HOIST_LINES:
      return hoist_lines_advice (finding);
    case TRN_CHECK_WIND:
      return _ ("Lift in less wind only (speed of wind in the plan), or take gear with a higher "
                "wind_limit");
    case TRN_CHECK_RESTING:
      return trn_words_resting_advice (finding);
    default:
      return NULL;
    }
}

char *
trn_words_force_finding (const TrnFinding *finding)
{
  char *bare = trn_words_force_bare (finding);
  const char *do_this = finding->verdict == TRN_VERDICT_FAIL ? advice (finding) : NULL;
  if (do_this == NULL)
    return bare;
  g_autofree char *said = bare;
  return g_strdup_printf ("%s. %s", said, do_this);
}
