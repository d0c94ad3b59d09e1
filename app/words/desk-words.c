/* desk-words.c: what the rooms of the desk say. */
#include "desk-words.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#include "cause-words.h"
#include "gear-names.h"
#include "gear-words.h"
#include "tolerances.h"
#include "view-words.h"

#define LONGEST_NAME 120
#define FOOT_M 0.3048

static const char *const desk_texts[TRN_N_DESK_TEXTS] = {
  [TRN_DESK_SEQUENCE] = N_ ("Sequence"),
  [TRN_DESK_LIFT] = N_ ("Lift"),
  [TRN_DESK_FINDING] = N_ ("Finding"),
  [TRN_DESK_GO_THERE] = N_ ("Go there"),
  [TRN_DESK_SHOW_POINTS] = N_ ("Show points"),
  [TRN_DESK_WORST] = N_ ("Closest"),
  [TRN_DESK_WORST_HINT] = N_ ("Go to where this lift has the least margin"),
  [TRN_DESK_PLAY] = N_ ("Play"),
  [TRN_DESK_PAUSE] = N_ ("Pause"),
  [TRN_DESK_STEP_BACK] = N_ ("One step back"),
  [TRN_DESK_STEP_FORWARD] = N_ ("One step on"),
  [TRN_DESK_PREVIOUS_MOVE] = N_ ("To the move before"),
  [TRN_DESK_NEXT_MOVE] = N_ ("To the next move"),
  [TRN_DESK_LOOP] = N_ ("Repeat this move"),
  [TRN_DESK_RATE] = N_ ("How fast it plays"),
  [TRN_DESK_STRIP] = N_ ("Clearance over time"),
  [TRN_DESK_NOT_CHECKED] = N_ ("Not checked"),
  [TRN_DESK_NOT_KNOWN] = N_ ("Not known"),
  [TRN_DESK_MEETS] = N_ ("Meets the set clearance"),
  [TRN_DESK_CHECKING] = N_ ("The check is running: what is not there yet is not known."),
  [TRN_DESK_CANCELLED] = N_ ("The check was stopped: what was not computed is not known."),
  [TRN_DESK_STALE] = N_ ("The plan file has changed since: these margins are of the plan as "
                         "it was."),
  [TRN_DESK_MARGINS] = N_ ("Margins: certified least clearance, less what is taken off it, less "
                           "what is to be kept."),
  [TRN_DESK_NO_PLAN] = N_ ("No plan is open"),
  [TRN_DESK_NO_LIFT] = N_ ("The programme has no lift, so there is nothing to check; add one."),
  [TRN_DESK_NO_OBSTACLE] = N_ ("Nothing stands beside this lift"),
  [TRN_DESK_NO_FINDING] = N_ ("Choose a move or a structure to see how close it comes."),
  [TRN_DESK_MEASURING] = N_ ("Measuring …"),
  [TRN_DESK_SEATED] = N_ ("seated"),
  [TRN_DESK_PLANNING_AID] = N_ ("Planning aid. Local codes and a competent person decide."),
  [TRN_DESK_TOUCHING] = N_ ("Touching"),
};

const char *
trn_words_desk (TrnDeskText text)
{
  g_assert (text < TRN_N_DESK_TEXTS);
  return _ (desk_texts[text]);
}

const char *
trn_words_now_word (TrnNow now)
{
  switch (now)
    {
    case TRN_NOW_INSIDE:
      return _ ("Inside");
    case TRN_NOW_CUTTING:
      return _ ("Cuts in");
    case TRN_NOW_TOUCHING:
      return _ (desk_texts[TRN_DESK_TOUCHING]);
    case TRN_NOW_SHORT:
      return _ ("Short");
    case TRN_NOW_TIGHT:
      return _ ("Tight");
    case TRN_NOW_CLEAR:
      return _ ("Clear");
    }
  g_assert_not_reached ();
}

static char *
tight_text (double margin_m)
{
  g_autofree char *spare = trn_words_length_down (margin_m);
  return g_strdup_printf (_ ("Tight, %s to spare"), spare);
}

char *
trn_words_now (TrnNow now, double distance_m, double required_m)
{
  switch (now)
    {
    case TRN_NOW_INSIDE:
      {
        g_autofree char *depth = trn_words_length_up (distance_m);
        return g_strdup_printf (_ ("Inside, %s from the surface"), depth);
      }
    case TRN_NOW_CUTTING:
      return g_strdup (_ ("Cuts into it"));
    case TRN_NOW_TOUCHING:
      return g_strdup (_ (desk_texts[TRN_DESK_TOUCHING]));
    case TRN_NOW_SHORT:
      {
        g_autofree char *missing = trn_words_length_up (required_m - distance_m);
        return g_strdup_printf (_ ("Short by %s"), missing);
      }
    case TRN_NOW_TIGHT:
      return tight_text (distance_m - required_m);
    case TRN_NOW_CLEAR:
      {
        g_autofree char *distance = trn_words_length_down (distance_m);
        return g_strdup_printf (_ ("Clear, %s"), distance);
      }
    }
  g_assert_not_reached ();
}

char *
trn_words_finding_title (const TrnFinding *finding, gboolean tight)
{
  return tight ? tight_text (trn_words_margin_m (finding)) : trn_words_finding (finding);
}

const char *
trn_words_contact (TrnInside inside)
{
  return inside == TRN_INSIDE_YES ? trn_words_now_word (TRN_NOW_INSIDE) : _ ("In contact");
}

char *
trn_words_in_move (const char *word, int move)
{
  return move >= 0 ? g_strdup_printf (_ ("%s, move %d"), word, move + 1) : g_strdup (word);
}

char *
trn_words_drawing_lines (double done)
{
  return g_strdup_printf (_ ("Drawing lines … %.0f %%"), floor (CLAMP (done, 0, 1) * 100));
}

char *
trn_words_of_lift (const TrnFinding *finding)
{
  const char *state = trn_words_finding_short (finding);
  g_autofree char *cause
      = finding->verdict == TRN_VERDICT_UNKNOWN ? trn_words_cause_short (finding) : NULL;
  g_autofree char *known
      = cause != NULL ? g_strdup_printf (_ ("%s (%s)"), state, cause) : g_strdup (state);
  g_autofree char *word = trn_words_in_move (known, finding->move);
  return g_strdup_printf (_ ("of the lift: %s"), word);
}

void
trn_words_body_names (const TrnPlan *plan, const char *body, char **whole, char **part)
{
  const char *slash = strchr (body, '/');
  *whole = trn_words_gear_body (plan, body);
  *part = NULL;
  if (*whole != NULL)
    {
      *part = g_strdup ("");
      return;
    }
  g_autofree char *id = slash != NULL ? g_strndup (body, (gsize)(slash - body)) : g_strdup (body);
  const TrnStructure *structure = trn_plan_find_structure (plan, id);
  const TrnComponent *component = trn_plan_find_component (plan, id);
  const char *name = structure != NULL ? structure->name : component != NULL ? component->name : id;
  g_autofree char *rest = slash != NULL ? g_strdup_printf (", %s", slash + 1) : g_strdup ("");
  *whole = trn_words_clean (name, LONGEST_NAME);
  *part = trn_words_clean (rest, LONGEST_NAME);
}

char *
trn_words_body_name (const TrnPlan *plan, const char *body)
{
  g_autofree char *whole = NULL, *part = NULL;
  trn_words_body_names (plan, body, &whole, &part);
  return g_strconcat (whole, part, NULL);
}

/* At least so much of the whole is left before its part. */
#define LEAST_OF_WHOLE 12

char *
trn_words_body_name_cut (const TrnPlan *plan, const char *body, guint max)
{
  g_autofree char *whole = NULL, *part = NULL;
  trn_words_body_names (plan, body, &whole, &part);
  guint n_part = (guint)g_utf8_strlen (part, -1);
  guint room = max > n_part + LEAST_OF_WHOLE ? max - n_part : LEAST_OF_WHOLE;
  g_autofree char *cut = trn_words_clean (whole, room);
  return g_strconcat (cut, part, NULL);
}

char *
trn_words_obstacle_name (const TrnPlan *plan, const TrnFinding *finding, guint max)
{
  const char *body = finding->body;
  gboolean is_load = body == NULL || strcmp (body, "load") == 0;
  g_autofree char *whose = is_load ? NULL : trn_words_body_name (plan, body);
  const char *other = finding->obstacle;
  g_autofree char *obstacle = other == NULL ? NULL
                              : max > 0     ? trn_words_body_name_cut (plan, other, max)
                                            : trn_words_body_name (plan, other);
  return trn_words_with_subject_of_both (whose, obstacle, finding);
}

char *
trn_words_load_name (const TrnPlan *plan, guint component)
{
  g_assert (component < plan->n_components);
  return trn_words_clean (plan->components[component].name, LONGEST_NAME);
}

char *
trn_words_duration (double time_s)
{
  double seconds = round (time_s);
  if (!isfinite (time_s) || fabs (time_s - seconds) > 1e-9 || !(seconds >= 60 && seconds < 1e9)
      || fmod (seconds, 60) != 0)
    return trn_words_time (time_s);
  guint hours = (guint)(seconds / 3600), minutes = (guint)(seconds / 60) % 60;
  if (hours == 0)
    return trn_words_quantity (g_strdup_printf (_ ("%u min"), minutes));
  return trn_words_quantity (minutes > 0 ? g_strdup_printf (_ ("%u h %u min"), hours, minutes)
                                         : g_strdup_printf (_ ("%u h"), hours));
}

char *
trn_words_of_total (double total_s)
{
  g_autofree char *total = trn_words_column_time (total_s);
  return g_strdup_printf (_ ("of %s"), total);
}

static char *
rate_text (double rate, const char *format)
{
  char number[G_ASCII_DTOSTR_BUF_SIZE];
  g_ascii_formatd (number, sizeof number, "%.4g", rate);
  g_autofree char *times = trn_words_quantity (g_strdup_printf (_ ("%s ×"), number));
  return format != NULL ? g_strdup_printf (format, times) : g_steal_pointer (&times);
}

char *
trn_words_rate (double rate)
{
  return rate_text (rate, _ ("%s real time"));
}

char *
trn_words_rate_short (double rate)
{
  return rate_text (rate, NULL);
}

char *
trn_words_at (double time_s)
{
  g_autofree char *time = trn_words_time (time_s);
  return g_strdup_printf (_ ("At %s"), time);
}

char *
trn_words_tilt (double tilt_rad)
{
  double tenths_deg = round (tilt_rad * 1800 / G_PI);
  g_autofree char *tilt = trn_words_angle (tenths_deg * G_PI / 1800);
  return g_strdup_printf (_ ("tilted %s since the start"), tilt);
}

char *
trn_words_hold (const char *hold_point)
{
  g_autofree char *hold = trn_words_clean (hold_point, LONGEST_NAME);
  return g_strdup_printf (_ ("Hold: %s"), hold);
}

char *
trn_words_to_be_kept (double required_m)
{
  g_autofree char *required = trn_words_length_up (required_m);
  return g_strdup_printf (_ ("to be kept %s"), required);
}

char *
trn_words_keep (double required_m)
{
  g_autofree char *required = trn_words_length_up (required_m);
  return g_strdup_printf (_ ("keep %s"), required);
}

static const char *
move_word (const TrnMove *move)
{
  switch (move->kind)
    {
    case TRN_MOVE_HOIST:
      return move->by.z < 0 ? _ ("lower") : _ ("hoist");
    case TRN_MOVE_TRAVEL:
      return _ ("travel");
    case TRN_MOVE_MOVE:
      return _ ("carry");
    case TRN_MOVE_TURN:
      return _ ("turn");
    case TRN_MOVE_SLEW:
      return _ ("slew");
    case TRN_MOVE_TILT:
      return _ ("tilt");
    case TRN_MOVE_WAIT:
      return move->hold_point != NULL ? _ ("hold") : _ ("wait");
    }
  g_assert_not_reached ();
}

char *
trn_words_move_short (const TrnLift *lift, guint move)
{
  g_assert (move < lift->n_moves);
  return g_strdup_printf ("%u %s", move + 1, move_word (&lift->moves[move]));
}

char *
trn_words_lift_title (const TrnLift *lift, guint run)
{
  g_autofree char *name = trn_words_clean (lift->name, LONGEST_NAME);
  return g_strdup_printf (_ ("Lift %u: %s"), run + 1, name);
}

char *
trn_words_margin (const TrnFinding *finding)
{
  if (finding->state == TRN_STATE_SEATED)
    return g_strdup (_ (desk_texts[TRN_DESK_SEATED]));
  return trn_words_cell_down (trn_words_margin_m (finding));
}

char *
trn_words_reading (double time_s, const char *obstacle, double distance_m, double required_m,
                   double allowance_m)
{
  g_autofree char *time = trn_words_column_time (time_s);
  g_autofree char *gap = trn_words_gap (distance_m, required_m, allowance_m);
  return g_strdup_printf (_ ("%s: %s about %s"), time, obstacle, gap);
}

gboolean
trn_words_has_bounds (const TrnFinding *finding)
{
  if (!trn_words_is_blank (finding))
    return !isnan (finding->lower_m);
  return finding->missing == NULL && isfinite (finding->upper_m);
}

char *
trn_words_bounds (const TrnFinding *finding)
{
  g_autofree char *lower = trn_words_length_down (finding->lower_m);
  g_autofree char *upper = trn_words_length_up (finding->upper_m);
  g_autofree char *keep = trn_words_keep (finding->required_m);
  return g_strdup_printf (_ ("least %s … %s, %s"), lower, upper, keep);
}

char *
trn_words_bounds_less (const TrnFinding *finding)
{
  if (!(trn_words_allowance_m (finding) > 0))
    return trn_words_bounds (finding);
  g_autofree char *lower = trn_words_length_down (finding->lower_m);
  g_autofree char *upper = trn_words_length_up (finding->upper_m);
  g_autofree char *allowance = trn_words_length_up (finding->allowance_m);
  g_autofree char *keep = trn_words_keep (finding->required_m);
  return g_strdup_printf (_ ("least %s … %s, %s taken off, %s"), lower, upper, allowance, keep);
}

/* One part of what is taken off. */
static char *
allowance_part (const TrnFindingItem *part)
{
  g_autofree char *length = trn_words_length_up (part->m);
  if (strcmp (part->what, "survey") == 0)
    return g_strdup_printf (_ ("%s survey"), length);
  if (strcmp (part->what, "earlier-lift") == 0)
    return g_strdup_printf (_ ("%s left by an earlier lift"), length);
  if (strcmp (part->what, "lean") == 0)
    return g_strdup_printf (_ ("%s lean of the load"), length);
  if (strcmp (part->what, "cog-box") == 0)
    return g_strdup_printf (_ ("%s centre of gravity"), length);
  if (strcmp (part->what, "out-of-level") == 0)
    return g_strdup_printf (_ ("%s hooks out of level"), length);
  if (strcmp (part->what, "wind") == 0)
    return g_strdup_printf (_ ("%s wind"), length);
  if (strcmp (part->what, "swing") == 0)
    return g_strdup_printf (_ ("%s starting, stopping and slewing"), length);
  if (strcmp (part->what, "mesh") == 0)
    return g_strdup_printf (_ ("%s mesh files"), length);
  return g_strdup_printf (_ ("%s tolerances"), length);
}

/* Part by part where it is more than tolerances; else NULL. */
static char *
allowance_parts (const TrnFinding *finding)
{
  const GArray *parts = finding->allowance_parts;
  gboolean is_more = FALSE;
  GString *text = g_string_new (NULL);
  for (guint i = 0; parts != NULL && i < parts->len; i++)
    {
      const TrnFindingItem *part = &g_array_index (parts, TrnFindingItem, i);
      g_autofree char *words = allowance_part (part);
      g_string_append_printf (text, "%s%s", i > 0 ? ", " : "", words);
      is_more = is_more || strcmp (part->what, "earlier-lift") == 0
                || strcmp (part->what, "lean") == 0 || strcmp (part->what, "cog-box") == 0
                || strcmp (part->what, "out-of-level") == 0 || strcmp (part->what, "wind") == 0
                || strcmp (part->what, "swing") == 0
                || (strcmp (part->what, "mesh") == 0 && part->m > TRN_CONTACT_M);
    }
  return g_string_free (text, !is_more);
}

double
trn_words_allowance_m (const TrnFinding *finding)
{
  return finding->allowance_m <= TRN_CONTACT_M ? 0 : finding->allowance_m;
}

char *
trn_words_allowance (const TrnFinding *finding)
{
  if (!(trn_words_allowance_m (finding) > 0))
    return NULL;
  g_autofree char *allowance = trn_words_length_up (finding->allowance_m);
  g_autofree char *parts = allowance_parts (finding);
  if (parts != NULL)
    return g_strdup_printf (_ ("%s taken off: %s"), allowance, parts);
  return g_strdup_printf (_ ("%s taken off for tolerances"), allowance);
}

/* "at 46 min, 61 % into move 7", and where it is one of its ends, which. */
static char *
moment_text (const TrnFinding *finding)
{
  g_autofree char *time = trn_words_time (finding->time_s);
  if (finding->move < 0)
    return g_strdup_printf (_ ("at %s"), time);
  if (finding->progress <= 0)
    return g_strdup_printf (_ ("at %s, at the start of move %d"), time, finding->move + 1);
  if (finding->progress >= 1)
    return g_strdup_printf (_ ("at %s, at the end of move %d"), time, finding->move + 1);
  g_autofree char *share
      = trn_words_quantity (g_strdup_printf (_ ("%.0f %%"), finding->progress * 100));
  return g_strdup_printf (_ ("at %s, %s into move %d"), time, share, finding->move + 1);
}

char *
trn_words_when (const TrnFinding *finding, double ends_m)
{
  g_autofree char *at = moment_text (finding);
  if (!isfinite (ends_m))
    return g_steal_pointer (&at);
  g_autofree char *ends = trn_words_length_down (ends_m);
  return g_strdup_printf (_ ("%s. Closest on the way: at the start and at the end of this move at "
                             "least %s is clear."),
                          at, ends);
}

char *
trn_words_between (const char *load, const char *obstacle)
{
  return g_strdup_printf (_ ("%s to %s"), load, obstacle);
}

char *
trn_words_move_row (const char *move, const TrnFinding *finding, gboolean tight)
{
  g_autofree char *state = finding != NULL ? trn_words_finding_title (finding, tight)
                                           : g_strdup (_ (desk_texts[TRN_DESK_NOT_CHECKED]));
  return g_strdup_printf ("%s. %s", move, state);
}

guint
trn_words_distance_ticks (double ticks_m[TRN_MOST_TICKS], char *texts[TRN_MOST_TICKS])
{
  static const double metres[] = { 0, 0.05, 0.2, 0.5, 1, 2, 5, 10, 20 };
  static const double feet[] = { 0, 2.0 / 12, 0.5, 1, 2, 5, 10, 20, 60 };
  gboolean in_feet = trn_words_get_units ().lengths == TRN_LENGTHS_FEET;
  guint n = in_feet ? G_N_ELEMENTS (feet) : G_N_ELEMENTS (metres);
  for (guint i = 0; i < n; i++)
    {
      ticks_m[i] = in_feet ? feet[i] * FOOT_M : metres[i];
      char number[G_ASCII_DTOSTR_BUF_SIZE];
      if (in_feet && feet[i] > 0 && feet[i] < 1)
        texts[i] = g_strdup_printf ("%.0f″", feet[i] * 12);
      else if (in_feet)
        texts[i] = g_strdup_printf ("%.0f′", feet[i]);
      else
        {
          g_ascii_formatd (number, sizeof number, "%.4g", metres[i]);
          texts[i] = i + 1 == n ? trn_words_quantity (g_strdup_printf (_ ("%s m"), number))
                                : g_strdup (number);
        }
    }
  return n;
}
