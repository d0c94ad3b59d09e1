/* gear-words.c: gear in words: what is missing, and values beside their limits.
 *
 * What is needed is rounded up and what is there is rounded down. */
#include "gear-words.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#include "cause-words.h"
#include "force-words.h"
#include "load-words.h"

#define LONGEST_NAME 60

/* ---- what is missing ---- */

/* Whose the input is that is left out: %s is the gear, sling or beam. */
static const struct
{
  const char *missing, *words;
} owners[] = {
  { "mass", N_ ("mass of the component that is lifted") },
  { "cog", N_ ("cog, the centre of gravity of the component that is lifted") },
  { "gear/mass", N_ ("mass of gear %s") },
  { "slewing", N_ ("slewing of gear %s, the mass that slews and how far out it is") },
  { "boom/mass", N_ ("mass of the boom of %s") },
  { "jib/mass", N_ ("mass of the jib of %s") },
  { "pad", N_ ("pad of the supports of gear %s") },
  { "mat/mass", N_ ("mass of the mat of gear %s") },
  { "mat/moment", N_ ("moment of the mat of gear %s, which it bears along its longer side") },
  { "mat/moment_across", N_ ("moment_across of the mat of gear %s, which it bears across") },
  { "supports", N_ ("supports of gear %s, or they are too few") },
  { "ground/allowed_pressure", N_ ("allowed_pressure of the ground of gear %s") },
  { "out_of_plumb", N_ ("out_of_plumb of gear %s") },
  { "capacity", N_ ("capacity of gear %s") },
  { "counterweight", N_ ("counterweight of crane %s") },
  { "wind_limit", N_ ("wind_limit of gear %s") },
  { "loads/out_of_level", N_ ("out_of_level of its loads, how far hooks may be out of level") },
  { "wind",
    N_ ("wind, the speed up to which lifts go on and its drag, though gear has a wind_limit") },
  { "loads/dynamic", N_ ("dynamic of its loads, the dynamic factor or its rule") },
  { "block/mass", N_ ("mass of the hook block in the rigging of this lift") },
  { "beam/mass", N_ ("mass of the beam in the rigging of this lift") },
  { "slings", N_ ("slings in the rigging of this lift") },
  { "slings/mass", N_ ("mass of a sling in the rigging of this lift") },
  { "shackle/mass", N_ ("mass of a shackle in the rigging of this lift") },
  { "wll", N_ ("wll of sling %s") },
  { "beam/wll", N_ ("wll of beam %s") },
  { "shackle/wll", N_ ("wll of the shackle of sling %s") },
};

static char *
missing_name (const TrnFinding *finding)
{
  char *mass = trn_words_cause_mass (finding);
  if (mass != NULL)
    return mass;
  const char *body = finding->body != NULL ? finding->body : "load";
  g_autofree char *name = trn_words_clean (body, LONGEST_NAME);
  for (guint i = 0; i < G_N_ELEMENTS (owners); i++)
    if (strcmp (owners[i].missing, finding->missing) == 0)
      return strstr (owners[i].words, "%s") != NULL ? g_strdup_printf (_ (owners[i].words), name)
                                                    : g_strdup (_ (owners[i].words));
  return trn_words_clean (finding->missing, LONGEST_NAME);
}

/* What is told of an input by itself: of a load that hangs free, of swinging, and of all else. */
static const struct
{
  const char *missing, *words;
} plain[] = {
  { TRN_MISSING_ATTITUDE,
    N_ ("Not known: it depends on how the load hangs, which fails or is not known: see "
        "“attitude” of this lift") },
  { TRN_MISSING_ATTITUDE_BEFORE,
    N_ ("Not known: an earlier lift leaves a component on the hook, and how it hangs there, "
        "or what has taken its place, fails or is not known: see that lift, or let it set "
        "its load down on a seat") },
  { TRN_MISSING_LEFT,
    N_ ("Not known: an earlier lift may have left it off by more than it is away from the "
        "gear; set the gear farther from it, or, once it is surveyed, remove it and add it "
        "there") },
  { TRN_MISSING_HUNG_SEAT,
    N_ ("Not known: an earlier lift leaves on its hook what this load is to rest on, which "
        "gives way; let that lift set it down on a seat") },
  { "hang/held",
    N_ ("Not known: the load hangs free with its centre of gravity where the hook is, or its "
        "legs hold it in no stable way; correct cog, the hook point or the lengths") },
  { "hang/short",
    N_ ("Not known: the load hangs free from legs that are too short to meet on one hook; "
        "make them longer, as the warning of the plan says") },
  { "hang/length",
    N_ ("Not known: the load hangs free from several legs, and one of them has no length; "
        "give it one") },
  { "hang/legs",
    N_ ("Not known: the load hangs free from more than four legs, and how they hold it is "
        "not determined; leave their lengths out, or let it hang as drawn") },
  { "swing",
    N_ ("Not known: started and stopped in so short a time (loads.ramp), the load could swing "
        "by more than 11°, with what the moves before leave; give the moves more time, or let "
        "it be brought to rest between them (a wait as long as loads.ramp.rest)") },
  { "swing/two-hooks",
    N_ ("Not known: how a load on two hooks swings is known only where both only hoist, and it "
        "was at rest before (a wait as long as loads.ramp.rest); for a tilt leave loads.ramp out, "
        "and let the tolerance of the lift cover what it swings by") },
  { "swing/guided",
    N_ ("Not known: the load may still be swinging where a trolley, a frame or something that "
        "the plan does not name takes it; let it be brought to rest before (a wait as long as "
        "loads.ramp.rest)") },
  { "swing/above",
    N_ ("Not known: how far the load nods below its hook while it swings has no bound, since "
        "its centre of gravity may be as high as what it hangs from, or points that it hangs "
        "by lie one above the other; correct cog, the hook point, hook_above, or the points of "
        "its slings or beam") },
  { "swing/beam",
    N_ ("Not known: how far a load swings below a beam is known only where slings hold both ends "
        "of the beam, or none does, and each end holds the load by points on its own side that are "
        "level with those of the other, to within 1 in 10; correct the slings of the beam, or its "
        "points") },
  { "reach", N_ ("Not known: at some moment the hook is out of reach") },
  { "tolerance", N_ ("Not known: what the tolerances of the lift do to it has no bound") },
  { "cog_box", N_ ("Not known: the centre of gravity can be anywhere in its box, and how far the "
                   "load leans then has no bound") },
  { "wind/far",
    N_ ("Not known: how far the wind of the plan takes the load has no bound: it could lean far or "
        "turn over, or, on two hooks, tolerances and hooks out of level could take its main and "
        "tail point plumb over each other; lift in less wind, and on two hooks hold them more "
        "level or let the tail go before") },
  { "wind/upright", N_ ("Not known: how far the wind takes a load has no bound where its main and "
                        "tail point come plumb over each other; let the tail go before") },
  { "out-of-level", N_ ("Not known: out of level as far as the plan says (loads.out_of_level), the "
                        "hooks can turn the load any way") },
  { "lean",
    N_ ("Not known: what the load leans by on its hooks is not known or has no bound, as "
        "where it turns over, its main and tail point come plumb over each other, or slings "
        "or a beam do not hold it firmly enough or are not plumb below their hook: see "
        "“load share” of this move") },
  { "lean/beam",
    N_ ("Not known: what a load on two hooks leans by is known only where two slings, or a beam, "
        "lie square to the line of both hooks or along it, three slings or more go all round the "
        "hook, and slings below a beam are plumb or go to both sides of its ends, the points of "
        "all of them plumb below their hook to within 20 mm, or below the end of a beam to within "
        "1/200 of its length and of the sling; correct the slings, the beam, or the points of the "
        "load") },
  { "lean/beside",
    N_ ("Not known: points of the load are drawn beside what holds them, and what that moves and "
        "turns it by until they are plumb is more than the position of the lift's tolerance; draw "
        "them plumb below it, or give the tolerance a position that covers that") },
  { "hang", N_ ("Not known: how the load would hang cannot be found, since the plan leaves "
                "out the length of some of its slings, or they hold it in no stable way") },
  { "tail", N_ ("Not known: on the main hook alone a load does not tilt, it hangs; let the "
                "tail hoist hold it in this move (rigging.tail and its moves), or tilt it "
                "about the point that something else holds") },
  { "tail/mid-air",
    N_ ("Not known: the plan names nothing that holds the load within 1 m of the point that it "
        "tilts about; name a tail hoist (rigging.tail), or as a seat of the lift (seats) what "
        "holds it there, such as a hinge or a cradle") },
  { "supports/three",
    N_ ("Not known: on one or two supports nothing stands; give it three at least "
        "(supports, or legs)") },
  { "mat/apart", N_ ("Not known: a mat lies where another support of it stands as well, and the "
                     "ground would bear both; give each support a mat of its own") },
  { "ground/stands_on",
    N_ ("Not known: the plan shows nothing below it that it stands on; give it the "
        "ground as a structure, or say in its ground what it stands on there "
        "(stands_on) and how high that is (level, 0 where left out)") },
  { "mass_source", N_ ("Not known: the load would be lighter than the air in its place. Masses are "
                       "in kilograms: correct it, or, where its mesh is no more than the room that "
                       "it takes, say who says what it weighs (mass_source)") },
  { "ground/rest", N_ ("Not known: a part of its supports stands on what the plan shows, and "
                       "nothing is shown below the others; give the plan all of the ground that it "
                       "stands on, as structures") },
  { "ground/seam", N_ ("Not known: a support stands on two structures or more, of which each may "
                       "be off by its survey, so that a gap may be between them; set it on one, or "
                       "make them one structure") },
  { "ground/step",
    N_ ("Not known: what it stands on differs in height by more than 10 mm, and only the "
        "survey of it could make that up; give the plan the packing below each support as "
        "structures, or set the gear on what is level") },
  { "friction", N_ ("Not known: it rests on a slope, and whether it slides is not checked; set "
                    "it on what is level, or what holds it on both sides") },
  { "round", N_ ("Not known: it stands on a flat that turns up little by little beside it, "
                 "as of a round drawn with few flats, which would roll; give it as a "
                 "cylinder or with a finer mesh, or set it on what holds it on both sides") },
  { "beam/slings", N_ ("Not known: no sling holds the beam; give it two from the hook, to beam-a "
                       "and to beam-b") },
  { "beam/lean",
    N_ ("Not known: what the beam leans by has no bound: slings of one end spread along it or lie "
        "to one side of it, an end could go slack, or it could lean on until slings come level; "
        "let each end hold the load plumb below it, its centre of gravity well below the points") },
  { "approach", N_ ("Not known: the plan chooses no rule for the distance from live lines "
                    "(approach)") },
  { "approach/distance",
    N_ ("Not known: the rule has no distance for this voltage; ask the owner of the "
        "line, and set a distance of your own with its source") },
  { "in-line", N_ ("Not known: the main and the tail point come plumb over each other, where "
                   "each may carry all; let the tail go before") },
  { "loads/dynamic/factor",
    N_ ("Not known: the rule has no dynamic factor for so small a load; give the "
        "plan a factor with its source instead of the rule (loads.dynamic)") },
  { "shackle/turned",
    N_ ("Not known: pulled straight the shackle holds it, pulled aside it may not, and nothing "
        "bounds what the load may be turned by: see what else of this lift is not known") },
  { "shackle/pin", N_ ("Not known: pulled straight the shackle holds it, pulled aside it may not; "
                       "the plan leaves out shackle/pin, how its pin lies") },
  { "park", N_ ("Not known: no hoist of the lift uses this crane, and the plan leaves out "
                "park, the place of its hook then") },
  { "gear", N_ ("Not known: the lift names no gear that holds the load (rigging)") },
};

/* As it is written into a plan, of which it has the words and units. */
static char *
plan_value (const TrnFinding *finding, const char *name, const double *values)
{
  static const char *const whether[] = { "block", "beam", "shackle" };
  if (finding->n_values == 0)
    return name != NULL ? trn_words_clean (name, LONGEST_NAME) : g_strdup (_ ("left out"));
  for (guint i = 0; i < G_N_ELEMENTS (whether); i++)
    if (strcmp (finding->key, whether[i]) == 0)
      return g_strdup (values[0] > 0 ? _ ("given") : _ ("left out"));
  if (isnan (values[0]))
    return g_strdup (_ ("left out"));
  const char *unit = finding->values_unit == TRN_UNIT_M    ? " m"
                     : finding->values_unit == TRN_UNIT_KG ? " kg"
                                                           : "";
  g_autoptr (GString) text = g_string_new (finding->n_values > 1 ? "[" : "");
  for (guint i = 0; i < finding->n_values; i++)
    {
      char number[G_ASCII_DTOSTR_BUF_SIZE];
      g_string_append_printf (text, "%s%s", i > 0 ? ", " : "",
                              g_ascii_formatd (number, sizeof number, "%.7g", values[i]));
    }
  g_string_append_printf (text, "%s%s", finding->n_values > 1 ? "]" : "", unit);
  return g_string_free (g_steal_pointer (&text), FALSE);
}

/* "mass of sling-west was 5 kg, and is 4 kg" */
static char *
differs_text (const TrnFinding *finding)
{
  g_autofree char *of
      = finding->key_of != NULL ? trn_words_clean (finding->key_of, LONGEST_NAME) : NULL;
  g_autofree char *key
      = of != NULL ? g_strdup_printf (_ ("%s of %s"), finding->key, of) : g_strdup (finding->key);
  if (finding->n_values == 0 && finding->was == NULL && finding->is == NULL)
    return g_strdup_printf (_ ("see %s"), key);
  g_autofree char *was = plan_value (finding, finding->was, finding->was_values);
  g_autofree char *is = plan_value (finding, finding->is, finding->is_values);
  return g_strdup_printf (_ ("%s was %s, and is %s"), key, was, is);
}

/* NULL: it is about something else. */
static char *
missing_holder (const TrnFinding *finding)
{
  if (strcmp (finding->missing, TRN_MISSING_HOLDER) != 0)
    return NULL;
  if (!trn_finding_is_holder (finding))
    return g_strdup (_ ("Not known: it depends on what holds a load that an earlier lift leaves on "
                        "its hook, which is not known: see “what holds the load”, or “what holds "
                        "it”, of this lift"));
  if (finding->key == NULL)
    return g_strdup (
        _ ("Not known: an earlier lift leaves it on its hook, and gear and slings that hold it "
           "there are not looked at in this lift; let that lift set it down on a seat"));
  g_autofree char *differs = differs_text (finding);
  return g_strdup_printf (
      _ ("Not known: an earlier lift leaves the load on its hook, and this one does not hold it on "
         "as it was left: %s. Hold it on by the same gear and rigging, alike in every key, or let "
         "that lift set it down on a seat"),
      differs);
}

char *
trn_words_missing (const TrnFinding *finding)
{
  const char *missing = finding->missing;
  char *holder = missing_holder (finding);
  if (holder != NULL)
    return holder;
  char *lean = trn_words_cause_lean (finding);
  if (lean != NULL)
    return lean;
  char *park = trn_words_cause_park (finding);
  if (park != NULL)
    return park;
  for (guint i = 0; i < G_N_ELEMENTS (plain); i++)
    if (strcmp (plain[i].missing, missing) == 0)
      return g_strdup (_ (plain[i].words));
  g_autofree char *name = trn_words_clean (missing, LONGEST_NAME);
  if (finding->state == TRN_STATE_NOT_GIVEN)
    return g_strdup_printf (_ ("Not looked at: the plan leaves out %s"), name);
  if (g_str_has_prefix (missing, "rigging/") && g_str_has_suffix (missing, "/gear"))
    return g_strdup_printf (_ ("Not known: the lift names no gear that holds the load (%s)"), name);
  if (g_str_has_suffix (missing, "/moves"))
    return g_strdup_printf (_ ("Not known: no hoist holds the load in this move (%s)"), name);
  g_autofree char *whose = missing_name (finding);
  return g_strdup_printf (_ ("Not known: the plan leaves out %s"), whose);
}

/* ---- values beside limits ---- */

static char *
quantity (const TrnFinding *finding, double value, gboolean up)
{
  if (finding->unit == TRN_UNIT_DEG)
    return trn_words_angle (value / 180 * G_PI);
  return up ? trn_words_length_up (value) : trn_words_length_down (value);
}

static char *
headroom_text (const TrnFinding *finding)
{
  g_autofree char *need = trn_words_length_up (finding->value);
  g_autofree char *have = trn_words_length_down (finding->limit);
  if (finding->state == TRN_STATE_WITHIN)
    {
      g_autofree char *spare = trn_words_length_down (finding->margin);
      return g_strdup_printf (
          _ ("Headroom: %s of height needed, %s there, %s to spare after tolerances"), need, have,
          spare);
    }
  g_autofree char *lacks = trn_words_length_up (-finding->margin);
  if (finding->allowance_m > 0)
    {
      g_autofree char *allowance = trn_words_length_up (finding->allowance_m);
      return g_strdup_printf (
          _ ("Headroom short by %s: %s of height needed, %s there, and tolerances take off %s"),
          lacks, need, have, allowance);
    }
  return g_strdup_printf (_ ("Headroom short by %s: %s of height needed, %s there"), lacks, need,
                          have);
}

/* At the head of a sentence, and after a name. */
static const struct
{
  const char *item, *words, *subject;
} items[] = {
  { "radius", N_ ("Radius"), N_ ("radius") },
  { "boom-angle", N_ ("Boom angle"), N_ ("boom angle") },
  { "hook-window-x", N_ ("Hook along the header"), N_ ("hook along the header") },
  { "hook-window-y", N_ ("Hook along the runway"), N_ ("hook along the runway") },
  { "hook-low", N_ ("Lowest hook"), N_ ("lowest hook") },
  { "track", N_ ("Place on the track"), N_ ("place on the track") },
  { "track-side", N_ ("Place beside the track"), N_ ("place beside the track") },
  { "level", N_ ("Height of the tail"), N_ ("height of the tail") },
  { "pivot", N_ ("Distance of the tail from its pivot"), N_ ("distance from the pivot") },
  { "barricade", N_ ("Barricade"), N_ ("barricade") },
  { "tail-radius", N_ ("Tail swing"), N_ ("tail swing") },
};

static const char *
item_text (const char *item)
{
  for (guint i = 0; item != NULL && i < G_N_ELEMENTS (items); i++)
    if (strcmp (items[i].item, item) == 0)
      return _ (items[i].words);
  return item != NULL ? item : _ ("Reach");
}

static const char *
item_subject (const char *item)
{
  for (guint i = 0; item != NULL && i < G_N_ELEMENTS (items); i++)
    if (strcmp (items[i].item, item) == 0)
      return _ (items[i].subject);
  return item != NULL ? item : _ ("reach");
}

static const char *
subject_of (const TrnFinding *finding)
{
  switch (finding->check)
    {
    case TRN_CHECK_SWING_RADIUS:
      return _ ("swing");
    case TRN_CHECK_SEAT:
      return _ ("seat");
    case TRN_CHECK_HEADROOM:
      return _ ("headroom");
    case TRN_CHECK_REACH:
      return item_subject (finding->item);
    case TRN_CHECK_TAIL_SWING:
      return finding->item != NULL ? item_subject (finding->item) : _ ("tail swing");
    case TRN_CHECK_APPROACH:
      return _ ("approach");
    case TRN_CHECK_RIGGING:
      if (g_strcmp0 (finding->item, "holder") == 0)
        return _ ("what holds it");
      return finding->item != NULL ? _ ("own load") : _ ("length");
    case TRN_CHECK_STANDING:
      return _ ("stands");
    case TRN_CHECK_FOOTING:
      return _ ("stands on");
    /* Said by trn_words_force_subject. */
    case TRN_CHECK_HOOK_LOAD:
    case TRN_CHECK_CAPACITY:
    case TRN_CHECK_LOAD_SHARE:
    case TRN_CHECK_SLINGS:
    case TRN_CHECK_GROUND:
    case TRN_CHECK_WIND:
    case TRN_CHECK_RESTING:
    case TRN_CHECK_ATTITUDE:
    case TRN_CHECK_HOIST_LINES:
    case TRN_CHECK_SPEEDS:
    case TRN_CHECK_SWINGING:
    case TRN_CHECK_CLEARANCE:
    case TRN_CHECK_START:
      return NULL;
    }
  return NULL;
}

char *
trn_words_subject (const TrnFinding *finding)
{
  char *subject = trn_words_force_subject (finding);
  return subject != NULL ? subject : g_strdup (subject_of (finding));
}

char *
trn_words_with_subject (const char *name, const TrnFinding *finding)
{
  g_autofree char *subject = trn_words_subject (finding);
  return subject != NULL ? g_strdup_printf ("%s (%s)", name, subject) : g_strdup (name);
}

char *
trn_words_with_subject_of_both (const char *body, const char *obstacle, const TrnFinding *finding)
{
  g_autofree char *force = trn_words_force_subject (finding);
  if (body == NULL && force != NULL)
    return g_steal_pointer (&force);
  if (body == NULL && obstacle == NULL && trn_finding_is_holder (finding))
    return g_strdup (_ ("what holds the load"));
  if (obstacle == NULL || force != NULL)
    return body != NULL ? trn_words_with_subject (body, finding) : g_strdup (TRN_WORDS_NO_NAME);
  g_autofree char *both = body != NULL ? g_strdup_printf ("%s – %s", body, obstacle) : NULL;
  return trn_words_with_subject (both != NULL ? both : obstacle, finding);
}

/* What tolerances take off is named where it decides. */
static char *
beyond_text (const TrnFinding *finding, const char *item)
{
  gboolean is_least = finding->limit_is_least;
  gboolean is_table = finding->item != NULL && strcmp (finding->item, "radius") == 0;
  g_autofree char *value = quantity (finding, finding->value, !is_least);
  g_autofree char *limit = quantity (finding, finding->limit, is_least);
  gboolean alone = is_least ? finding->value < finding->limit : finding->value > finding->limit;
  g_autofree char *allowance
      = finding->allowance_m > 0 ? quantity (finding, finding->allowance_m, TRUE) : NULL;
  if (allowance != NULL && !alone)
    return is_least
               ? g_strdup_printf (
                   _ ("%s too close to its least, %s: %s, and tolerances take off %s"), item, limit,
                   value, allowance)
               : g_strdup_printf (_ ("%s too close to its greatest, %s: %s, and tolerances add %s"),
                                  item, limit, value, allowance);
  if (is_table)
    return is_least
               ? g_strdup_printf (_ ("%s less than the least of the table: %s, least %s"), item,
                                  value, limit)
               : g_strdup_printf (_ ("%s more than the greatest of the table: %s, greatest %s"),
                                  item, value, limit);
  return is_least
             ? g_strdup_printf (_ ("%s below its least: %s, least %s"), item, value, limit)
             : g_strdup_printf (_ ("%s above its greatest: %s, greatest %s"), item, value, limit);
}

static char *
reach_text (const TrnFinding *finding)
{
  const char *item = item_text (finding->item);
  if (finding->state == TRN_STATE_OUT_OF_REACH)
    return g_strdup_printf (_ ("%s: out of reach, the gear cannot go where its hook has to be"),
                            item);
  if (finding->state != TRN_STATE_WITHIN)
    return beyond_text (finding, item);
  /* Shown nearer to its limit than it is. */
  g_autofree char *value = trn_words_value_cell (finding);
  g_autofree char *limit = trn_words_limit_cell (finding);
  g_autofree char *spare = quantity (finding, finding->margin, FALSE);
  return g_strdup_printf (finding->limit_is_least
                              ? _ ("%s within its limits: %s, least %s, %s to spare")
                              : _ ("%s within its limits: %s, greatest %s, %s to spare"),
                          item, value, limit, spare);
}

static double
item_m (const TrnFinding *finding, const char *what)
{
  for (guint i = 0; finding->items != NULL && i < finding->items->len; i++)
    if (strcmp (g_array_index (finding->items, TrnFindingItem, i).what, what) == 0)
      return g_array_index (finding->items, TrnFindingItem, i).m;
  return NAN;
}

/* A hook block, a beam, or a sling between the two. */
static char *
own_load_body_text (const TrnFinding *finding)
{
  if (finding->state == TRN_STATE_WITHIN)
    {
      g_autofree char *spare = trn_words_length_down (finding->margin);
      return g_strdup_printf (_ ("Keeps off its own load: %s to spare"), spare);
    }
  if (!(finding->value > 0))
    return g_strdup (_ ("Meets its own load. Raise the hook over its points (hook_above), or the "
                        "beam (below_hook)"));
  g_autofree char *value = trn_words_length_down (finding->value);
  g_autofree char *allowance = trn_words_length_up (finding->allowance_m);
  return g_strdup_printf (
      _ ("Comes within %s of its own load, and tolerances take off %s. Raise the "
         "hook over its points (hook_above), or the beam (below_hook)"),
      value, allowance);
}

/* A sling beside the load that it holds. */
static char *
own_load_text (const TrnFinding *finding)
{
  if (finding->items == NULL)
    return own_load_body_text (finding);
  g_autofree char *along = trn_words_length (item_m (finding, "along"));
  if (finding->state == TRN_STATE_WITHIN)
    {
      g_autofree char *left_out = trn_words_length (item_m (finding, "left-out"));
      g_autofree char *spare = trn_words_length_down (finding->margin);
      return g_strdup_printf (
          _ ("Keeps off its own load beyond the %s next to its point: %s to spare"), left_out,
          spare);
    }
  if (!(finding->value > 0))
    return g_strdup_printf (
        _ ("Meets its own load %s from its point. Raise the hook over its points (hook_above), "
           "put a beam between or move the point; where it is meant to lie against the load, name "
           "both in connected"),
        along);
  g_autofree char *value = trn_words_length_down (finding->value);
  g_autofree char *allowance = trn_words_length_up (finding->allowance_m);
  return g_strdup_printf (
      _ ("Comes within %s of its own load %s from its point, and tolerances take off %s. Raise the "
         "hook over its points (hook_above), put a beam between or move the point"),
      value, along, allowance);
}

static char *
rigging_text (const TrnFinding *finding)
{
  if (finding->item != NULL)
    return own_load_text (finding);
  g_autofree char *value = trn_words_length (finding->value);
  g_autofree char *limit = trn_words_length (finding->limit);
  if (finding->state == TRN_STATE_WITHIN)
    return g_strdup_printf (_ ("Keeps its length of %s"), limit);
  g_autofree char *cause = trn_words_cause_length (finding);
  const gboolean is_short = finding->value > finding->limit;
  if (cause != NULL)
    return g_strdup_printf (
        is_short ? _ ("Too short: %s would be needed in this move, and it is %s. %s")
                 : _ ("Slack: only %s lies between its ends in this move, and it is %s. %s"),
        value, limit, cause);
  if (is_short)
    return g_strdup_printf (_ ("Too short: %s would be needed in this move, and it is %s. Give it "
                               "that length, or lower the hook over its points (hook_above)"),
                            value, limit);
  return g_strdup_printf (
      _ ("Slack: only %s lies between its ends in this move, and it is %s. Give "
         "it that length, or raise the hook over its points (hook_above)"),
      value, limit);
}

static char *
barricade_text (const TrnFinding *finding)
{
  g_autofree char *need = trn_words_length_up (finding->value);
  g_autofree char *have = trn_words_length_down (finding->limit);
  if (finding->state == TRN_STATE_WITHIN)
    return g_strdup_printf (_ ("Barricade at %s keeps clear of the tail swing: %s needed"), have,
                            need);
  return g_strdup_printf (_ ("Barricade at %s is too close to the tail swing: %s needed"), have,
                          need);
}

static char *
tail_swing_text (const TrnFinding *finding)
{
  if (finding->item != NULL)
    return barricade_text (finding);
  if (finding->verdict == TRN_VERDICT_UNKNOWN)
    return g_strdup (_ ("Not known: the tail swing could not be worked out"));
  g_autofree char *radius = trn_words_length_up (finding->radius_m);
  double margin_m = trn_words_margin_m (finding);
  if (finding->verdict == TRN_VERDICT_FAIL)
    {
      double inside_m = finding->radius_m - finding->sector_distance_m;
      g_autofree char *inside = trn_words_length_up (inside_m);
      g_autofree char *lacks = trn_words_length_up (-margin_m);
      if (inside_m > 0)
        return g_strdup_printf (_ ("The tail swing of %s reaches %s into it while it slews"),
                                radius, inside);
      return g_strdup_printf (
          _ ("The tail swing of %s comes %s closer than the set clearance while it slews"), radius,
          lacks);
    }
  if (finding->verdict == TRN_VERDICT_NOTE)
    return g_strdup_printf (
        _ ("Outside the part of the tail swing of %s that is slewed, but within "
           "its circle or the barricade"),
        radius);
  if (isnan (finding->circle_distance_m))
    return g_strdup (_ ("Nothing of it lies at the height of the tail swing"));
  g_autofree char *spare = trn_words_length_down (finding->circle_distance_m - finding->radius_m
                                                  - finding->allowance_m - finding->required_m);
  return g_strdup_printf (_ ("Outside the tail swing of %s, %s to spare all round"), radius, spare);
}

static char *
standing_text (const TrnFinding *finding)
{
  if (finding->state == TRN_STATE_CLEAR)
    return g_strdup (_ ("Stands in nothing of it"));
  if (finding->state == TRN_STATE_CONTACT && finding->fit_m > 0)
    {
      g_autofree char *thick = trn_words_length_up (finding->fit_m);
      return g_strdup_printf (
          _ ("Stands in it: its mats lie below “at”, so raise “at” of the gear by "
             "their thickness, %s"),
          thick);
    }
  if (finding->state == TRN_STATE_CONTACT)
    return g_strdup (_ ("Stands in it: move the gear, or name both in connected where it may"));
  return g_strdup (_ ("Not known: whether it stands in it could not be worked out"));
}

char *
trn_words_gear_finding (const TrnFinding *finding)
{
  if (finding->check == TRN_CHECK_STANDING)
    return standing_text (finding);
  gboolean is_circle = finding->check == TRN_CHECK_TAIL_SWING && finding->item == NULL;
  if (!is_circle && finding->state != TRN_STATE_WITHIN && finding->state != TRN_STATE_OUTSIDE
      && finding->state != TRN_STATE_SHORT && finding->state != TRN_STATE_OUT_OF_REACH)
    return g_strdup (_ ("Not known: it could not be worked out"));
  switch (finding->check)
    {
    case TRN_CHECK_HEADROOM:
      return headroom_text (finding);
    case TRN_CHECK_REACH:
      return reach_text (finding);
    case TRN_CHECK_TAIL_SWING:
      return tail_swing_text (finding);
    case TRN_CHECK_RIGGING:
      return rigging_text (finding);
    default:
      g_assert_not_reached ();
    }
}

char *
trn_words_approach (const TrnFinding *finding, const char *clearance)
{
  if (finding->missing != NULL || finding->source == NULL)
    return g_strdup (clearance);
  g_autofree char *distance = trn_words_length_up (finding->required_m);
  g_autofree char *source = trn_words_clean (finding->source, LONGEST_NAME);
  return g_strdup_printf (_ ("%s; %s from a live line by %s, local rules prevail"), clearance,
                          distance, source);
}
