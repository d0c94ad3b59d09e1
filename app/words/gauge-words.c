/* gauge-words.c: what the desk says of lifting gear at a moment. */
#include "gauge-words.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#include "desk-words.h"

#include "force-words.h"
#include "load-words.h"

#define FOOT_M 0.3048
#define US_TON_KG 907.18474
#define LONGEST_NAME 60
#define NO_NUMBER "–"
#define NO_BREAK "\302\240"
#define ROUNDING 1e-6 /* of steps: what sums of the rig leave behind */

static const char *const gauges[TRN_N_GAUGES] = {
  [TRN_GAUGE_HOOK_HEIGHT] = N_ ("Hook height"),
  [TRN_GAUGE_RADIUS] = N_ ("Radius"),
  [TRN_GAUGE_BOOM_ANGLE] = N_ ("Boom angle"),
  [TRN_GAUGE_TIP_ABOVE_HOOK] = N_ ("Tip above hook"),
  [TRN_GAUGE_LOAD] = N_ ("Load on the hook, without rigging"),
  [TRN_GAUGE_TENSION] = N_ ("Greatest sling tension"),
  [TRN_GAUGE_CAPACITY] = N_ ("Capacity used"),
  [TRN_GAUGE_PRESSURE] = N_ ("Greatest ground pressure"),
  [TRN_GAUGE_SHARE] = N_ ("Share of the load"),
  [TRN_GAUGE_WIND] = N_ ("Load aside by wind"),
};

/* Of forces, above a line: it has neither tolerances nor wind in it, as the findings have. How far
 * the wind takes the load is a bound with all of it, from the findings. */
static const char *const drawn[TRN_N_GAUGES] = {
  [TRN_GAUGE_LOAD] = N_ ("Load on the hook, without rigging, as drawn, at rest"),
  [TRN_GAUGE_TENSION] = N_ ("Greatest sling tension, as drawn"),
  [TRN_GAUGE_CAPACITY] = N_ ("Capacity used, as drawn"),
  [TRN_GAUGE_PRESSURE] = N_ ("Greatest ground pressure, as drawn"),
  [TRN_GAUGE_SHARE] = N_ ("Share of the load, as drawn"),
  [TRN_GAUGE_WIND] = N_ ("Load aside by wind, at most"),
};

/* Of scales of forces. */
static const TrnUnit units_of[TRN_N_SCALES] = {
  [TRN_SCALE_MASSES] = TRN_UNIT_KG,
  [TRN_SCALE_FORCES] = TRN_UNIT_N,
  [TRN_SCALE_PRESSURES] = TRN_UNIT_PA,
};

static const char *const limits[TRN_N_GAUGE_LIMITS] = {
  [TRN_GAUGE_LEAST_RADIUS] = N_ ("beginning of the table %s"),
  [TRN_GAUGE_MOST_RADIUS] = N_ ("end of the table %s"),
  [TRN_GAUGE_LEAST_ANGLE] = N_ ("least boom angle %s"),
  [TRN_GAUGE_MOST_ANGLE] = N_ ("greatest boom angle %s"),
  [TRN_GAUGE_LOWEST_HOOK] = N_ ("lowest hook %s"),
  [TRN_GAUGE_HIGHEST_HOOK] = N_ ("highest hook %s"),
  [TRN_GAUGE_LEAST_TIP] = N_ ("hook to tip at least %s"),
  [TRN_GAUGE_MOST_TENSION] = N_ ("working load limit %s"),
  [TRN_GAUGE_MOST_CAPACITY] = N_ ("rated capacity, %s"),
  [TRN_GAUGE_MOST_PRESSURE] = N_ ("allowed pressure %s"),
  [TRN_GAUGE_LEAST_SHARE] = N_ ("slack below %s"),
};

static const char *const notes[TRN_N_GAUGE_NOTES] = {
  [TRN_GAUGE_NOTE_ONE_HOOK] = N_ ("One hook holds all of the load"),
  [TRN_GAUGE_NOTE_NO_MASS] = N_ ("The plan leaves out the mass of the load"),
  [TRN_GAUGE_NOTE_NO_COG] = N_ ("The plan leaves out the centre of gravity of the load"),
  [TRN_GAUGE_NOTE_NO_WIND] = N_ ("The plan names no wind"),
  [TRN_GAUGE_NOTE_NOT_HUNG]
  = N_ ("The wind takes the load nowhere: it never hangs from ropes alone"),
  [TRN_GAUGE_NOTE_NOT_CHECKED] = N_ ("Not checked"),
  [TRN_GAUGE_NOTE_NOT_KNOWN] = N_ ("Not known: the findings say why"),
};

static const char *const texts_of_gear[TRN_N_GEAR_TEXTS] = {
  [TRN_GEAR_NOW] = N_ ("Gear now"),
  [TRN_GEAR_STRIP_LINES] = N_ ("Lines"),
  [TRN_GEAR_STRIP_LINES_HINT]
  = N_ ("Further lines of the strip: heights, radii, angles, forces and wind"),
  [TRN_GEAR_HEADROOM_LEFT] = N_ ("Headroom left"),
  [TRN_GEAR_NO_TOLERANCES] = N_ ("as drawn"),
  [TRN_GEAR_SLEW] = N_ ("Boom points to"),
  [TRN_GEAR_ROPE] = N_ ("Rope"),
  [TRN_GEAR_NO_PLACE] = N_ ("The hook is out of reach here."),
  [TRN_GEAR_NO_HOOK] = N_ ("Its height is not known: hook_above is left out."),
  [TRN_GEAR_RIGGING] = N_ ("Rigging"),
  [TRN_GEAR_WAITS] = N_ ("It does not hold the load here."),
  [TRN_GEAR_HOLDS] = N_ ("It holds the load here."),
};

const char *
trn_words_gauge (TrnGauge gauge)
{
  g_assert (gauge < TRN_N_GAUGES);
  return _ (gauges[gauge]);
}

const char *
trn_words_gauge_drawn (TrnGauge gauge)
{
  g_assert (gauge < TRN_N_GAUGES);
  return _ (drawn[gauge] != NULL ? drawn[gauge] : gauges[gauge]);
}

const char *
trn_words_gauge_note (TrnGaugeNote note)
{
  g_assert (note < TRN_N_GAUGE_NOTES);
  return _ (notes[note]);
}

const char *
trn_words_gear (TrnGearText text)
{
  g_assert (text < TRN_N_GEAR_TEXTS);
  return _ (texts_of_gear[text]);
}

TrnGaugeScale
trn_gauge_scale (TrnGauge gauge)
{
  static const TrnGaugeScale scales[TRN_N_GAUGES] = {
    [TRN_GAUGE_HOOK_HEIGHT] = TRN_SCALE_LENGTHS, [TRN_GAUGE_RADIUS] = TRN_SCALE_LENGTHS,
    [TRN_GAUGE_BOOM_ANGLE] = TRN_SCALE_ANGLES,   [TRN_GAUGE_TIP_ABOVE_HOOK] = TRN_SCALE_LENGTHS,
    [TRN_GAUGE_LOAD] = TRN_SCALE_MASSES,         [TRN_GAUGE_TENSION] = TRN_SCALE_FORCES,
    [TRN_GAUGE_CAPACITY] = TRN_SCALE_SHARES,     [TRN_GAUGE_PRESSURE] = TRN_SCALE_PRESSURES,
    [TRN_GAUGE_SHARE] = TRN_SCALE_SHARES,        [TRN_GAUGE_WIND] = TRN_SCALE_LENGTHS,
  };
  g_assert (gauge < TRN_N_GAUGES);
  return scales[gauge];
}

/* The step in which lengths and angles are written here, with what bounds them; feet have whole
 * inches, for which there is room. */
static double
step_of (TrnGaugeScale scale)
{
  if (scale == TRN_SCALE_ANGLES)
    return G_PI / 180 / 100;
  return trn_words_get_units ().lengths == TRN_LENGTHS_FEET ? FOOT_M / 12 : 1e-3;
}

static double
steps_down (double value, double step)
{
  return floor (value / step + ROUNDING);
}

static double
steps_up (double value, double step)
{
  return ceil (value / step - ROUNDING);
}

/* Toward the limit that is nearer: what is beyond it never reads as if it were not, and what is
 * within it reads as within it, since that is written no wider than it is. */
static double
round_beside (double value, double step, double least, double most)
{
  if (isfinite (most) && (!isfinite (least) || most - value < value - least))
    {
      const double up = steps_up (value, step);
      return step * (value <= most + ROUNDING * step ? fmin (up, steps_down (most, step)) : up);
    }
  const double down = steps_down (value, step);
  return step * (value >= least - ROUNDING * step ? fmax (down, steps_up (least, step)) : down);
}

/* Without limits: a distance down, how far out up; what may be too much or too little is nearest.
 */
static double
round_alone (TrnGauge gauge, double value, double step)
{
  switch (gauge)
    {
    case TRN_GAUGE_RADIUS:
      return step * steps_up (value, step);
    case TRN_GAUGE_TIP_ABOVE_HOOK:
      return step * steps_down (value, step);
    default:
      return step * round (value / step);
    }
}

/* Borne is rounded up; what would have to push never reads as if it did not. */
static char *
share_text (double share)
{
  if (!(share < -ROUNDING))
    return trn_words_share (fmax (share, 0));
  g_autofree char *pushes = trn_words_share (-share);
  return g_strconcat ("−", pushes, NULL);
}

char *
trn_words_gauge_value_beside (TrnGauge gauge, double value, double least, double most)
{
  const TrnGaugeScale scale = trn_gauge_scale (gauge);
  if (!isfinite (value))
    return g_strdup (NO_NUMBER);
  if (scale == TRN_SCALE_SHARES)
    return share_text (value);
  /* As the findings and what clearances lose by it. */
  if (gauge == TRN_GAUGE_WIND)
    return trn_words_length_up (value);
  if (scale != TRN_SCALE_ANGLES && scale != TRN_SCALE_LENGTHS)
    return trn_words_force (value, units_of[scale], TRUE);
  const double step = step_of (scale);
  const double shown = isfinite (least) || isfinite (most) ? round_beside (value, step, least, most)
                                                           : round_alone (gauge, value, step);
  return scale == TRN_SCALE_ANGLES ? trn_words_angle (shown) : trn_words_length (shown);
}

char *
trn_words_gauge_value (TrnGauge gauge, double value)
{
  return trn_words_gauge_value_beside (gauge, value, NAN, NAN);
}

char *
trn_words_gauge_as_drawn (const char *number)
{
  return g_strdup_printf (_ ("%s as drawn"), number);
}

char *
trn_words_gauge_at_most (const char *number)
{
  return g_strdup_printf (_ ("at most %s"), number);
}

char *
trn_words_gauge_found (TrnGauge gauge, double greatest, gboolean is_all)
{
  g_autofree char *number = trn_words_gauge_value (gauge, greatest);
  return g_strdup_printf (is_all ? _ ("found: up to %s") : _ ("found in part: up to %s"), number);
}

char *
trn_words_gauge_reading (const char *name, const char *number)
{
  return g_strdup_printf (_ ("%s: %s"), name, number);
}

static char *
limit_text (TrnGaugeLimit limit, double value)
{
  switch (limit)
    {
    case TRN_GAUGE_LEAST_ANGLE:
    case TRN_GAUGE_MOST_ANGLE:
      return trn_words_angle (value);
    case TRN_GAUGE_MOST_TENSION:
      return trn_words_force (value, TRN_UNIT_N, FALSE);
    case TRN_GAUGE_MOST_PRESSURE:
      return trn_words_force (value, TRN_UNIT_PA, FALSE);
    case TRN_GAUGE_MOST_CAPACITY:
    case TRN_GAUGE_LEAST_SHARE:
      return trn_words_share (value);
    default:
      return trn_words_length (value);
    }
}

char *
trn_words_gauge_limit (TrnGaugeLimit limit, double value)
{
  g_assert (limit < TRN_N_GAUGE_LIMITS);
  g_autofree char *number = limit_text (limit, value);
  return g_strdup_printf (_ (limits[limit]), number);
}

/* In the steps of the value beside it: it becomes no wider by that. */
static void
round_range (double step, double *least, double *most)
{
  const double low = step * steps_up (*least, step), high = step * steps_down (*most, step);
  if (low > high)
    return;
  *least = low;
  *most = high;
}

/* What follows the last space, which has no digit: a unit; NULL: it has none of its own. */
static const char *
unit_of (const char *text)
{
  const char *space = strrchr (text, ' '), *joined = g_strrstr (text, NO_BREAK);
  const char *unit = joined != NULL ? joined : space;
  return unit != NULL && strpbrk (unit, "0123456789") == NULL ? unit : NULL;
}

/* "6 to 18 m": the unit once, where it is the same and stands apart. */
static char *
range_text (const char *low, const char *high)
{
  const char *of_low = unit_of (low), *of_high = unit_of (high);
  const gboolean is_once = of_low != NULL && g_strcmp0 (of_low, of_high) == 0;
  g_autofree char *number = is_once ? g_strndup (low, (gsize)(of_low - low)) : g_strdup (low);
  return g_strdup_printf (C_ ("from the least to the most", "%s to %s"), number, high);
}

char *
trn_words_gauge_range (gboolean angle, double least, double most)
{
  round_range (step_of (angle ? TRN_SCALE_ANGLES : TRN_SCALE_LENGTHS), &least, &most);
  g_autofree char *low = angle ? trn_words_angle (least) : trn_words_length (least);
  g_autofree char *high = angle ? trn_words_angle (most) : trn_words_length (most);
  if (isfinite (least) && isfinite (most))
    return range_text (low, high);
  if (isfinite (least))
    return g_strdup_printf (_ ("at least %s"), low);
  return isfinite (most) ? g_strdup_printf (_ ("at most %s"), high) : NULL;
}

char *
trn_words_hoist (TrnHoistRole role, const char *gear)
{
  const char *hook = role == TRN_HOIST_MAIN   ? _ ("Main hook")
                     : role == TRN_HOIST_TAIL ? _ ("Tail hook")
                                              : _ ("Tail support");
  if (gear == NULL)
    return g_strdup (hook);
  g_autofree char *name = trn_words_clean (gear, LONGEST_NAME);
  return g_strdup_printf (_ ("%s: %s"), hook, name);
}

char *
trn_words_gear_note (const char *name, const char *note)
{
  return g_strdup_printf (_ ("%s – %s"), name, note);
}

/* The least of 1, 2, 5, 10 … that is at least @step. */
static double
round_up (double step)
{
  double power = pow (10, floor (log10 (step))), share = step / power;
  return power * (share <= 1 ? 1 : share <= 2 ? 2 : share <= 5 ? 5 : 10);
}

/* The unit of the screen in that of the scale. */
static double
unit_of_scale (TrnGaugeScale scale)
{
  switch (scale)
    {
    case TRN_SCALE_LENGTHS:
      return trn_words_get_units ().lengths == TRN_LENGTHS_FEET ? FOOT_M : 1;
    case TRN_SCALE_ANGLES:
      return G_PI / 180;
    case TRN_SCALE_MASSES:
      return trn_words_get_units ().masses == TRN_MASSES_US_TONS ? US_TON_KG : 1000;
    case TRN_SCALE_FORCES:
    case TRN_SCALE_PRESSURES:
      return 1000;
    case TRN_SCALE_SHARES:
      return 0.01;
    case TRN_N_SCALES:
      break;
    }
  g_assert_not_reached ();
}

static char *
tick_text (TrnGaugeScale scale, const char *number, gboolean is_last)
{
  if (scale == TRN_SCALE_ANGLES)
    return trn_words_quantity (g_strdup_printf (_ ("%s°"), number));
  if (scale == TRN_SCALE_LENGTHS && trn_words_get_units ().lengths == TRN_LENGTHS_FEET)
    return g_strdup_printf ("%s′", number);
  if (!is_last)
    return g_strdup (number);
  switch (scale)
    {
    case TRN_SCALE_LENGTHS:
      return trn_words_quantity (g_strdup_printf (_ ("%s m"), number));
    case TRN_SCALE_FORCES:
      return trn_words_quantity (g_strdup_printf (_ ("%s kN"), number));
    case TRN_SCALE_PRESSURES:
      return trn_words_quantity (g_strdup_printf (_ ("%s kPa"), number));
    case TRN_SCALE_SHARES:
      return trn_words_quantity (g_strdup_printf (_ ("%s %%"), number));
    default:
      return trn_words_get_units ().masses == TRN_MASSES_US_TONS
                 ? trn_words_quantity (g_strdup_printf (_ ("%s US t"), number))
                 : trn_words_quantity (g_strdup_printf (_ ("%s t"), number));
    }
}

guint
trn_words_gauge_ticks (TrnGaugeScale scale, double least, double most,
                       double ticks[TRN_MOST_GAUGE_TICKS], char *texts[TRN_MOST_GAUGE_TICKS])
{
  double unit = unit_of_scale (scale);
  double lo = least / unit, hi = most / unit;
  /* Two of the ticks go beyond both ends. */
  double step = round_up (fmax ((hi - lo) / (TRN_MOST_GAUGE_TICKS - 3), 0.01));
  double first = floor (lo / step) * step;
  guint n = 0;
  while (n < 2 || (n < TRN_MOST_GAUGE_TICKS && first + (n - 1) * step < hi - 1e-9 * step))
    n++;
  for (guint i = 0; i < n; i++)
    {
      double value = first + i * step;
      char digits[G_ASCII_DTOSTR_BUF_SIZE];
      g_ascii_formatd (digits, sizeof digits, "%.6g", fabs (value));
      g_autofree char *number = g_strconcat (value < -1e-9 * step ? "−" : "", digits, NULL);
      ticks[i] = value * unit;
      texts[i] = tick_text (scale, number, i + 1 == n);
    }
  return n;
}

char *
trn_words_tail_circle (double radius_m)
{
  g_autofree char *radius = trn_words_length_up (radius_m);
  return g_strdup_printf (_ ("tail swing, radius %s"), radius);
}

char *
trn_words_barricade_circle (double radius_m)
{
  g_autofree char *radius = trn_words_length_down (radius_m);
  return g_strdup_printf (_ ("barricade line, radius %s"), radius);
}

/* ---- findings that are a value beside a limit ---- */

static const struct
{
  TrnCheckKind check;
  const char *item; /* NULL: any */
  const char *words;
} looked_at[] = {
  { TRN_CHECK_HEADROOM, NULL, N_ ("headroom") },
  { TRN_CHECK_REACH, "radius", N_ ("radius") },
  { TRN_CHECK_REACH, "boom-angle", N_ ("boom angle") },
  { TRN_CHECK_REACH, "hook-window-x", N_ ("hook along the header") },
  { TRN_CHECK_REACH, "hook-window-y", N_ ("hook along the runway") },
  { TRN_CHECK_REACH, "hook-low", N_ ("lowest hook") },
  { TRN_CHECK_REACH, "track", N_ ("place on the track") },
  { TRN_CHECK_REACH, "track-side", N_ ("place beside the track") },
  { TRN_CHECK_REACH, "level", N_ ("height of the tail") },
  { TRN_CHECK_REACH, "pivot", N_ ("distance from the pivot") },
  { TRN_CHECK_REACH, NULL, N_ ("reach") },
  { TRN_CHECK_TAIL_SWING, "barricade", N_ ("barricade") },
  { TRN_CHECK_RIGGING, "own-load", N_ ("distance from its own load") },
  { TRN_CHECK_RIGGING, "holder", N_ ("what holds the load") },
  { TRN_CHECK_RIGGING, NULL, N_ ("length") },
};

static const char *
look_up (const TrnFinding *finding)
{
  for (guint i = 0; i < G_N_ELEMENTS (looked_at); i++)
    if (looked_at[i].check == finding->check
        && (looked_at[i].item == NULL || g_strcmp0 (looked_at[i].item, finding->item) == 0))
      return _ (looked_at[i].words);
  return NULL;
}

static char *
number_of (const TrnFinding *finding, double value)
{
  return finding->unit == TRN_UNIT_DEG ? trn_words_angle (value / 180 * G_PI)
                                       : trn_words_length (value);
}

char *
trn_words_value_line (const TrnPlan *plan, const TrnFinding *finding)
{
  const char *what = look_up (finding);
  if (what == NULL || finding->body == NULL)
    return NULL;
  g_autofree char *name = strcmp (finding->body, "load") == 0
                              ? g_strdup (_ ("Main hook"))
                              : trn_words_body_name (plan, finding->body);
  if (!isfinite (finding->value) || !isfinite (finding->limit))
    return g_strdup_printf (_ ("%s: %s"), name, what);
  gboolean is_known = trn_words_has_value (finding);
  g_autofree char *value
      = is_known ? trn_words_value_cell (finding) : number_of (finding, finding->value);
  g_autofree char *limit
      = is_known ? trn_words_limit_cell (finding) : number_of (finding, finding->limit);
  if (finding->check == TRN_CHECK_HEADROOM)
    return g_strdup_printf (_ ("%s: headroom, height needed %s, there %s"), name, value, limit);
  if (finding->check != TRN_CHECK_REACH)
    return g_strdup_printf (_ ("%s: %s %s, limit %s"), name, what, value, limit);
  return g_strdup_printf (finding->limit_is_least ? _ ("%s: %s %s, least %s")
                                                  : _ ("%s: %s %s, greatest %s"),
                          name, what, value, limit);
}

static const struct
{
  const char *what, *words;
} summands[] = {
  { "load-underside", N_ ("Underside of the load %s") },
  { "load-to-hook-point", N_ ("up to the hook point %s") },
  { "rigging", N_ ("rigging up to the hook %s") },
  { "hook-to-tip", N_ ("hook to tip %s") },
};

char *
trn_words_value_items (const TrnFinding *finding)
{
  if (finding->items == NULL || finding->items->len == 0)
    return NULL;
  g_autoptr (GString) text = g_string_new (NULL);
  for (guint i = 0; i < finding->items->len; i++)
    {
      const TrnFindingItem *item = &g_array_index (finding->items, TrnFindingItem, i);
      g_autofree char *length = trn_words_length (item->m);
      g_autofree char *said = NULL;
      for (guint k = 0; k < G_N_ELEMENTS (summands) && said == NULL; k++)
        if (strcmp (summands[k].what, item->what) == 0)
          said = g_strdup_printf (_ (summands[k].words), length);
      g_string_append_printf (text, "%s%s", i > 0 ? "\n+ " : "", said != NULL ? said : length);
    }
  return g_string_free (g_steal_pointer (&text), FALSE);
}
