/* load-words.c: values, limits and forces as the desk shows them. */
#include "load-words.h"

#include <float.h>
#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#include "force-words.h"
#include "gravity.h"
#include "sources.h"

#define LONGEST_NAME 60
/* What an enclosure leaves of an angle, in tenths of a degree: the sine hardly falls near 90°. */
#define ANGLE_DUST 0.05
/* A lean that no one sees. */
#define LEAST_LEAN_RAD (0.05 * G_PI / 180)

typedef struct
{
  const char *word, *words; /* of the results file; what is shown */
} Word;

static const char *
find_word (const Word *words, guint n, const char *word)
{
  for (guint i = 0; word != NULL && i < n; i++)
    if (strcmp (words[i].word, word) == 0)
      return _ (words[i].words);
  return NULL;
}

/* ---- values ---- */

/* Whether the value has to be at least the limit, so that less of it is worse. */
static gboolean
is_floor (const TrnFinding *finding)
{
  return finding->limit < finding->value ? finding->margin >= 0 : finding->margin < 0;
}

/* Less of it is worse: as the check of gear says, whose tolerances part value and margin. */
static gboolean
is_least (const TrnFinding *finding)
{
  if (finding->check == TRN_CHECK_HEADROOM || finding->check == TRN_CHECK_REACH
      || finding->check == TRN_CHECK_TAIL_SWING)
    return finding->limit_is_least;
  if (finding->check == TRN_CHECK_RIGGING)
    return finding->item != NULL || finding->value < finding->limit;
  return is_floor (finding);
}

gboolean
trn_words_has_value (const TrnFinding *finding)
{
  return finding->unit != TRN_UNIT_NONE && isfinite (finding->value)
         && finding->verdict != TRN_VERDICT_UNKNOWN && finding->state != TRN_STATE_LIFTED
         && finding->state != TRN_STATE_SLACK && finding->state != TRN_STATE_OVER_TAIL
         && finding->state != TRN_STATE_TURNS_OVER;
}

/* NAN where it says nothing, as of a support that lifts off. */
static double
if_said (const TrnFinding *finding, double value)
{
  return trn_words_has_value (finding) ? value : NAN;
}

static char *
column_of (double value, TrnUnit unit, gboolean up)
{
  if (unit != TRN_UNIT_M)
    return trn_words_force (value, unit, up);
  return up ? trn_words_column_up (value) : trn_words_column_down (value);
}

/* What sums of decimal fractions leave behind: 2.26 + 0.001 is 2.2609999999999997. A limit that is
 * below what is meant by no more is that. */
#define LIMIT_DUST (8 * DBL_EPSILON)

typedef char *(*Write) (double value, TrnUnit unit, gboolean up);

/* Of an angle that fails both have as many digits as tell them apart. */
static gboolean
is_angle_beyond (const TrnFinding *finding)
{
  return finding->unit == TRN_UNIT_DEG && finding->verdict == TRN_VERDICT_FAIL;
}

static char *
limit_text (const TrnFinding *finding, Write write)
{
  double limit = if_said (finding, finding->limit);
  if (is_angle_beyond (finding))
    return trn_words_degrees_beside (limit, finding->value);
  gboolean up = is_least (finding);
  return write (up ? limit : limit + fabs (limit) * LIMIT_DUST, finding->unit, up);
}

/* Toward the limit, which is itself shown toward the value: so what fails never looks met. What is
 * met never looks as if it failed: where that would take it over the limit it is shown as the
 * limit is. */
static char *
value_text (const TrnFinding *finding, Write write)
{
  double value = if_said (finding, finding->value);
  gboolean up = !is_least (finding);
  if (is_angle_beyond (finding))
    return trn_words_degrees_beside (value, finding->limit);
  g_autofree char *toward = write (value, finding->unit, up);
  if (finding->verdict != TRN_VERDICT_PASS)
    return g_steal_pointer (&toward);
  g_autofree char *limit = limit_text (finding, write);
  g_autofree char *away = write (value, finding->unit, !up);
  return strcmp (away, limit) == 0 ? g_steal_pointer (&away) : g_steal_pointer (&toward);
}

char *
trn_words_value_cell (const TrnFinding *finding)
{
  return value_text (finding, trn_words_force);
}

char *
trn_words_limit_cell (const TrnFinding *finding)
{
  return limit_text (finding, trn_words_force);
}

char *
trn_words_value_margin_cell (const TrnFinding *finding)
{
  return trn_words_force (if_said (finding, finding->margin), finding->unit, FALSE);
}

char *
trn_words_value_column (const TrnFinding *finding)
{
  return value_text (finding, column_of);
}

char *
trn_words_limit_column (const TrnFinding *finding)
{
  return limit_text (finding, column_of);
}

char *
trn_words_value_margin_column (const TrnFinding *finding)
{
  return column_of (if_said (finding, finding->margin), finding->unit, FALSE);
}

static const Word numbers[] = {
  { "load", N_ ("load") },
  { "mass-factor", N_ ("in it the mass factor") },
  { "block", N_ ("block") },
  { "beam", N_ ("beam") },
  { "slings", N_ ("slings") },
  { "shackles", N_ ("shackles") },
  { "dynamic-factor", N_ ("dynamic factor") },
  { "dynamic-load", N_ ("which counts up to a hook load of") },
  { "side-factor", N_ ("side load factor") },
  { "aside", N_ ("pulled aside by") },
  { "round-off", N_ ("not counted of its edge, as it is round or out of level,") },
  { "out-of-level", N_ ("drawn out of level by") },
  { "radius", N_ ("at the radius") },
  { "radius-most", N_ ("with tolerances up to") },
  { "turned", N_ ("turned by") },
  { "least", N_ ("at least") },
  { "least-turned", N_ ("which it is when turned by") },
  { "pressure", N_ ("wind pressure") },
  { "lifted-support", N_ ("number of the support that lifts off") },
  { "lifted-x", N_ ("in the frame of its gear at x") },
  { "lifted-y", N_ ("and y") },
  { "pull", N_ ("its pull") },
  { "mat-length", N_ ("length of a mat that bears") },
  { "mat-width", N_ ("width of a mat that bears") },
  { "mat-moment", N_ ("bends a mat along by") },
  { "mat-moment-across", N_ ("bends a mat across by") },
  { "mat-moment-limit", N_ ("which it bears up to") },
  { "sail-area", N_ ("sail area") },
  { "lean", N_ ("lean") },
  { "shift", N_ ("hook point aside by") },
  { "but-for-cog-box", N_ ("without cog_box") },
  { "out-of-level", N_ ("hooks out of level by") },
  { "height-difference", N_ ("tail point above the main one") },
  { "by-degree", N_ ("for each degree") },
  { "least-main", N_ ("least on the main hook") },
  { "beside", N_ ("centre of gravity beside the plumb plane by") },
  { "above-hooks", N_ ("centre of gravity above what it hangs from by") },
  { "rope", N_ ("rope of at least") },
  { "tolerances", N_ ("taken aside by tolerances") },
  { "level-aside", N_ ("by hooks out of level") },
  { "wind-aside", N_ ("by wind") },
  { "swing-aside", N_ ("by swinging") },
  { "swing-angle", N_ ("out of plumb by") },
  { "throw-out", N_ ("steady throw-out of a slew") },
  { "dragged", N_ ("dragged by the tail gear") },
  { "load-underside", N_ ("underside of the load") },
  { "load-to-hook-point", N_ ("load up to its hook point") },
  { "rigging", N_ ("rigging") },
  { "hook-to-tip", N_ ("hook to tip") },
  { "left-out", N_ ("left out next to its point") },
  { "along", N_ ("nearest at, from its point,") },
};

/* What is the least is rounded down. At which angle something is is told even if that is 0. */
static void
append_number (GString *line, const char *what, double value, TrnUnit unit)
{
  static const char support[] = "support-";
  const gboolean is_angle = g_str_has_suffix (what, "turned");
  if (value == 0 && !is_angle)
    return;
  const gboolean is_least = g_str_has_prefix (what, "least") && !is_angle;
  g_autofree char *number = trn_words_force (value, unit, !is_least);
  const char *known = find_word (numbers, G_N_ELEMENTS (numbers), what);
  g_autofree char *name = g_str_has_prefix (what, support)
                              ? g_strdup_printf (_ ("support %s"), what + strlen (support))
                              : g_strdup (known != NULL ? known : what);
  g_string_append_printf (line, _ ("%s%s %s"), line->len > 0 ? ", " : "", name, number);
}

/* Of what goes slack the moment that governs is that of the least: once is enough. */
static gboolean
is_told (const TrnFinding *finding, const TrnFindingNumber *number)
{
  return strcmp (number->what, "least-turned") == 0
         && number->value == trn_finding_number (finding, "turned");
}

char *
trn_words_numbers (const TrnFinding *finding)
{
  g_autoptr (GString) line = g_string_new (NULL);
  for (guint i = 0; finding->items != NULL && i < finding->items->len; i++)
    {
      const TrnFindingItem *item = &g_array_index (finding->items, TrnFindingItem, i);
      append_number (line, item->what, item->m, TRN_UNIT_M);
    }
  for (guint i = 0; finding->numbers != NULL && i < finding->numbers->len; i++)
    {
      const TrnFindingNumber *number = &g_array_index (finding->numbers, TrnFindingNumber, i);
      if (is_told (finding, number))
        continue;
      append_number (line, number->what, number->value, number->unit);
    }
  return line->len > 0 ? g_string_free (g_steal_pointer (&line), FALSE) : NULL;
}

char *
trn_words_utilisation (const TrnFinding *finding)
{
  if (!isfinite (finding->utilisation) || !isfinite (finding->limit))
    return NULL;
  g_autofree char *share = trn_words_share (finding->utilisation);
  return g_strdup_printf (_ ("%s of the limit"), share);
}

/* Those that no plan names. */
static const struct
{
  const char *source, *words;
} own_sources[] = {
  { TRN_SOURCE_PLAN, N_ ("the plan") },
  { TRN_SOURCE_PRACTICE, N_ ("common practice, no source") },
  { TRN_SOURCE_MOMENTS, N_ ("statics: equilibrium of moments about main and tail point") },
  { TRN_SOURCE_FORCES, N_ ("statics: equilibrium of forces at the ends of the beam") },
  { TRN_SOURCE_BENDING, N_ ("statics: greatest bending moment along the beam") },
  { TRN_SOURCE_MASSES, N_ ("sum of the masses in the plan") },
  { TRN_SOURCE_MOVES, N_ ("moves of the plan and their seconds") },
  { TRN_SOURCE_SAIL_AREA, N_ ("wind_limit of the plan for 1.2 m² of sail area times drag a tonne, "
                              "less for more: common practice of EN 13000") },
};

/* Rules that a plan chooses by a name of the format. */
static const struct
{
  const char *rule, *words;
} own_rules[] = {
  { "29-cfr-1926-751", "29 CFR 1926.751" },
  { "em-385-1-1", "USACE EM 385-1-1" },
};

char *
trn_words_source_name (const TrnFinding *finding, guint longest)
{
  for (guint i = 0; i < G_N_ELEMENTS (own_sources); i++)
    if (strcmp (finding->source, own_sources[i].source) == 0)
      return g_strdup (_ (own_sources[i].words));
  g_autofree char *source = trn_words_clean (finding->source, longest);
  return finding->check == TRN_CHECK_HOOK_LOAD
             ? g_strdup_printf (_ ("mass of the load: %s"), source)
             : g_steal_pointer (&source);
}

char *
trn_words_rule_name (const TrnFinding *finding, guint longest)
{
  g_autofree char *rule = trn_words_clean (finding->rule, longest);
  for (guint i = 0; i < G_N_ELEMENTS (own_rules); i++)
    if (strcmp (rule, own_rules[i].rule) == 0)
      return g_strdup_printf (_ ("critical lifts: %s"), own_rules[i].words);
  return g_strdup_printf (finding->check == TRN_CHECK_HOOK_LOAD ? _ ("dynamic factor: %s")
                                                                : _ ("critical lifts: %s"),
                          rule);
}

char *
trn_words_source (const TrnFinding *finding)
{
  if (finding->source == NULL)
    return NULL;
  g_autofree char *source = trn_words_source_name (finding, LONGEST_NAME);
  if (finding->check != TRN_CHECK_HOOK_LOAD || finding->rule == NULL)
    return g_strdup_printf (_ ("From: %s"), source);
  g_autofree char *rule = trn_words_rule_name (finding, LONGEST_NAME);
  return g_strdup_printf (_ ("From: %s; %s"), source, rule);
}

char *
trn_words_hangs_off (double lean_rad)
{
  if (!(lean_rad >= LEAST_LEAN_RAD))
    return NULL;
  g_autofree char *angle = trn_words_angle (round (lean_rad * 1800 / G_PI) * G_PI / 1800);
  return g_strdup_printf (_ ("Hangs %s off the drawn attitude"), angle);
}

const char *
trn_words_hangs_unknown (void)
{
  return _ ("How the load hangs fails or is not known: it is shown as drawn");
}

/* ---- forces now ---- */

static const char *const loads[TRN_N_LOADS_TEXTS] = {
  [TRN_LOADS_NOW] = N_ ("Forces now"),
  [TRN_LOADS_FORCES] = N_ ("Forces"),
  [TRN_LOADS_RIGGING] = N_ ("Rigging"),
  [TRN_LOADS_WEIGHT] = N_ ("Weight"),
  [TRN_LOADS_MASS_FACTOR] = N_ ("mass factor"),
  [TRN_LOADS_HOOK_LOAD] = N_ ("with rigging"),
  [TRN_LOADS_GROUND] = N_ ("Ground"),
  [TRN_LOADS_CAPACITY] = N_ ("Capacity used"),
  [TRN_LOADS_TENSION] = N_ ("tension"),
  [TRN_LOADS_BEAM_LOAD] = N_ ("load"),
  [TRN_LOADS_SHACKLE] = N_ ("shackle"),
  [TRN_LOADS_COMPRESSION] = N_ ("compression"),
  [TRN_LOADS_MOMENT] = N_ ("bending moment"),
  [TRN_LOADS_NO_SLINGS] = N_ ("The plan names no slings here."),
  [TRN_LOADS_NO_COG] = N_ ("Not known: the plan leaves out cog, so the weight has no place."),
  [TRN_LOADS_SLACK] = N_ ("slack: it would have to push"),
  [TRN_LOADS_BEARS_NONE] = N_ ("bears nothing: it would have to pull"),
  [TRN_LOADS_KEEPS_DOWN] = N_ ("keeps the tail down"),
  [TRN_LOADS_FOUND] = N_ ("found, up to"),
  [TRN_LOADS_FOUND_IN_PART] = N_ ("found in part, up to"),
  [TRN_LOADS_FOUND_BARE] = N_ ("load found, up to"),
  [TRN_LOADS_FOUND_BARE_IN_PART] = N_ ("load found in part, up to"),
  [TRN_LOADS_FOUND_THAT] = N_ ("found"),
  [TRN_LOADS_AT_REST_HEAD] = N_ ("At rest"),
  [TRN_LOADS_DYNAMIC_HEAD] = N_ ("At most, dynamic"),
  [TRN_LOADS_AT_REST] = N_ ("As it hangs now, forces rounded to the nearest, percent and pressure "
                            "up; “with rigging” adds block, beam, slings and shackles. Capacity "
                            "used and ground count the dynamic "
                            "factor, hooks out of level and the centre of gravity anywhere in its "
                            "box. “Found, up to” is the most over all of the lift, with its "
                            "tolerances."),
  [TRN_LOADS_DYNAMIC]
  = N_ ("Angles as it hangs now, rounded down. Forces count the dynamic factor, the rigging "
        "below, hooks out of level and the centre of gravity anywhere in its "
        "box; what a beam carries is twice the end with more. “Found, up to” "
        "is the most over all of the lift, with its tolerances, and its share "
        "of the limit."),
};

const char *
trn_words_loads (TrnLoadsText text)
{
  g_assert (text < TRN_N_LOADS_TEXTS);
  return _ (loads[text]);
}

static const char *const sides[] = {
  N_ ("east"), N_ ("north-east"), N_ ("north"), N_ ("north-west"),
  N_ ("west"), N_ ("south-west"), N_ ("south"), N_ ("south-east"),
};

char *
trn_words_loads_head (TrnLoadsText head, double seen_from_rad)
{
  const int n = G_N_ELEMENTS (sides);
  if (!isfinite (seen_from_rad))
    return g_strdup (trn_words_loads (head));
  const int side = ((int)lround (seen_from_rad / (2 * G_PI) * n) % n + n) % n;
  return g_strdup_printf (_ ("%s; seen from %s"), trn_words_loads (head), _ (sides[side]));
}

char *
trn_words_loads_found_of (const char *quantity, gboolean is_all)
{
  return g_strdup_printf (is_all ? _ ("%s, found, up to") : _ ("%s, found in part, up to"),
                          quantity);
}

char *
trn_words_weight (double mass_kg)
{
  return trn_words_force (mass_kg * TRN_GRAVITY_M_S2, TRN_UNIT_N, TRUE);
}

char *
trn_words_leg_angle (double angle_rad)
{
  return isfinite (angle_rad)
             ? trn_words_angle (floor (angle_rad * 1800 / G_PI + ANGLE_DUST) * G_PI / 1800)
             : g_strdup ("–");
}

char *
trn_words_beam (const char *id)
{
  g_autofree char *name = trn_words_clean (id, LONGEST_NAME);
  return g_strdup_printf (_ ("Beam %s"), name);
}

char *
trn_words_beam_tilt (double tilt_rad)
{
  if (!isfinite (tilt_rad))
    return g_strdup ("–");
  if (fabs (tilt_rad) < LEAST_LEAN_RAD)
    return g_strdup (_ ("level"));
  g_autofree char *angle = trn_words_angle (round (fabs (tilt_rad) * 1800 / G_PI) * G_PI / 1800);
  return g_strdup_printf (_ ("%s off level"), angle);
}

/* The unit that both have is told once: there is little room. */
char *
trn_words_of_limit (double newton, double limit_kg)
{
  g_autofree char *value = trn_words_force (newton, TRN_UNIT_N, TRUE);
  if (!isfinite (limit_kg))
    return g_steal_pointer (&value);
  g_autofree char *limit = trn_words_force (limit_kg * TRN_GRAVITY_M_S2, TRN_UNIT_N, FALSE);
  const gsize n_digits = strspn (limit, "0123456789.");
  if (g_str_has_suffix (value, limit + n_digits))
    value[strlen (value) - strlen (limit + n_digits)] = '\0';
  return g_strdup_printf (_ ("%s of %s"), value, limit);
}

char *
trn_words_figure_line (const char *name, const char *value)
{
  return g_strdup_printf (_ ("%s: %s"), name, value);
}

char *
trn_words_leg_name (const char *id)
{
  return trn_words_clean (id, LONGEST_NAME);
}

char *
trn_words_leg (double angle_rad, double tension_n)
{
  g_autofree char *angle = trn_words_leg_angle (angle_rad);
  if (!isfinite (tension_n))
    return g_steal_pointer (&angle);
  g_autofree char *tension = trn_words_force (tension_n, TRN_UNIT_N, TRUE);
  return g_strdup_printf ("%s %s", angle, tension);
}

const char *
trn_words_slack (void)
{
  const TrnFinding finding = { .verdict = TRN_VERDICT_FAIL, .state = TRN_STATE_SLACK };
  return trn_words_finding_short (&finding);
}

char *
trn_words_leg_slack (double angle_rad)
{
  g_autofree char *angle = trn_words_leg_angle (angle_rad);
  return g_strdup_printf ("%s %s", angle, trn_words_slack ());
}
