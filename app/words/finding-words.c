/* finding-words.c: what a check found, in words, and what all findings come to.
 *
 * Spare is rounded down and what is missing is rounded up, so that no word promises more than was
 * proven. */
#include "words.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#include "cause-words.h"
#include "footing-words.h"
#include "load-words.h"
#include "force-words.h"
#include "gear-words.h"
#include "programme.h"
#include "results.h"
#include "short-words.h"

#define LONGEST_NAME 60
/* An angle that shows in two decimals of a degree. */
#define SHOWN_RAD 1e-4

/* What is not checked, as the results file names it and as a person would say it. */
static const struct
{
  const char *name, *words;
} check_words[] = {
  { "headroom", N_ ("headroom") },
  { "reach", N_ ("reach") },
  { "capacity", N_ ("capacity") },
  { "hook-load", N_ ("hook loads") },
  { "load-share", N_ ("how hooks share the load") },
  { "slings", N_ ("slings") },
  { "rigging", N_ ("whether slings keep their length") },
  { "tail-swing", N_ ("tail swing") },
  { "standing", N_ ("what the gear stands in") },
  { "footing", N_ ("what the gear stands on") },
  { "approach", N_ ("approach to live lines") },
  { "ground", N_ ("ground pressure") },
  { "wind", N_ ("wind") },
  { "resting-stability", N_ ("whether the load stands firmly where it is set") },
  { "attitude", N_ ("whether the load hangs as it is drawn") },
  { "hoist-lines", N_ ("how far hoist ropes are out of plumb") },
  { "speeds", N_ ("how quick the drives have to be") },
  { "swinging", N_ ("swinging") },
};

static const char *
check_text (const char *name)
{
  for (guint i = 0; i < G_N_ELEMENTS (check_words); i++)
    if (strcmp (check_words[i].name, name) == 0)
      return _ (check_words[i].words);
  return name;
}

const char *
trn_words_check (TrnCheckKind check)
{
  return check_text (trn_check_name (check));
}

gboolean
trn_words_is_number_alone (const TrnFinding *finding)
{
  return finding->verdict == TRN_VERDICT_NOTE && finding->state == TRN_STATE_KNOWN
         && (finding->check == TRN_CHECK_WIND || finding->check == TRN_CHECK_SPEEDS
             || finding->check == TRN_CHECK_SWINGING);
}

const char *
trn_words_finding_short (const TrnFinding *finding)
{
  if (finding->check == TRN_CHECK_FOOTING && finding->state != TRN_STATE_UNKNOWN)
    return finding->state == TRN_STATE_WITHIN ? _ ("carried") : _ ("NOT CARRIED");
  switch (finding->state)
    {
    case TRN_STATE_CLEAR:
      if (finding->verdict != TRN_VERDICT_PASS)
        return _ ("look");
      /* What counts is the way after the load has left its seat, or before it reaches it. */
      return finding->has_seated ? _ ("off seat") : _ ("meets");
    case TRN_STATE_SHORT:
      return finding->verdict == TRN_VERDICT_NOTE ? _ ("look") : _ ("SHORT");
    case TRN_STATE_CONTACT:
      return _ ("CONTACT");
    case TRN_STATE_SEATED:
      return _ ("seated");
    case TRN_STATE_UNKNOWN:
      return _ ("NOT KNOWN");
    case TRN_STATE_RESTING:
      return _ ("rests");
    case TRN_STATE_BURIED:
      return _ ("BURIED");
    case TRN_STATE_NOT_RESTING:
      return _ ("NOT RESTING");
    case TRN_STATE_NEVER_LEFT:
      return _ ("NEVER LEFT");
    case TRN_STATE_NEVER_REACHED:
      return _ ("NEVER REACHED");
    case TRN_STATE_IN_PLACE:
      return _ ("in place");
    case TRN_STATE_ELSEWHERE:
      return _ ("ELSEWHERE");
    case TRN_STATE_WITHIN:
      return _ ("within");
    case TRN_STATE_OUTSIDE:
      return _ ("BEYOND");
    case TRN_STATE_OUT_OF_REACH:
      return _ ("OUT OF REACH");
    case TRN_STATE_NOT_GIVEN:
      return _ ("left out");
    case TRN_STATE_KNOWN:
      return finding->verdict == TRN_VERDICT_NOTE && !trn_words_is_number_alone (finding)
                 ? _ ("look")
                 : _ ("known");
    case TRN_STATE_CRITICAL:
      return _ ("critical");
    case TRN_STATE_SLACK:
      return _ ("SLACK");
    case TRN_STATE_OVER_TAIL:
      return _ ("OVER THE TAIL");
    case TRN_STATE_TURNS_OVER:
      return _ ("TURNS OVER");
    case TRN_STATE_LIFTED:
      return _ ("LIFTS OFF");
    }
  g_assert_not_reached ();
}

double
trn_words_margin_m (const TrnFinding *finding)
{
  return trn_words_is_blank (finding) ? NAN : trn_finding_margin_m (finding);
}

/* What is left of a limit, as a share of it: values of all units can be compared by it. */
static double
share_left (const TrnFinding *finding)
{
  if (!trn_words_has_value (finding) || isnan (finding->margin))
    return finding->verdict == TRN_VERDICT_FAIL ? -INFINITY : INFINITY;
  return finding->limit != 0 ? finding->margin / fabs (finding->limit) : finding->margin;
}

/* Of what is in contact as the table tells it, so that of several such moves the first comes first.
 */
static double
told_margin_m (const TrnFinding *finding)
{
  const double margin_m = trn_words_margin_m (finding);
  return finding->state == TRN_STATE_CONTACT ? floor (margin_m * 1000) / 1000 : margin_m;
}

static int
compare_left (const TrnFinding *a, const TrnFinding *b)
{
  const double margin_a = told_margin_m (a), margin_b = told_margin_m (b);
  if (isnan (margin_a) != isnan (margin_b))
    return isnan (margin_a) ? 1 : -1;
  const double left_a = isnan (margin_a) ? share_left (a) : margin_a;
  const double left_b = isnan (margin_b) ? share_left (b) : margin_b;
  return (left_a > left_b) - (left_a < left_b);
}

gboolean
trn_words_is_blank (const TrnFinding *finding)
{
  return finding->verdict == TRN_VERDICT_UNKNOWN
         && (finding->missing != NULL || !(finding->lower_m > 0));
}

gboolean
trn_words_is_tight (const TrnFinding *finding, double tight_m)
{
  double margin_m = trn_words_margin_m (finding);
  return finding->check == TRN_CHECK_CLEARANCE && finding->verdict == TRN_VERDICT_PASS
         && finding->state == TRN_STATE_CLEAR && margin_m >= 0 && margin_m <= tight_m;
}

TrnRank
trn_words_rank (const TrnFinding *finding, double tight_m)
{
  switch (finding->verdict)
    {
    case TRN_VERDICT_FAIL:
      return TRN_RANK_FAIL;
    case TRN_VERDICT_UNKNOWN:
      return TRN_RANK_UNKNOWN;
    case TRN_VERDICT_NOTE:
      return TRN_RANK_REST;
    case TRN_VERDICT_PASS:
      if (finding->check != TRN_CHECK_CLEARANCE && finding->check != TRN_CHECK_APPROACH)
        return TRN_RANK_REST;
      if (trn_words_is_tight (finding, tight_m))
        return TRN_RANK_TIGHT;
      return finding->has_seated ? TRN_RANK_OFF_SEAT : TRN_RANK_CLEARANCE;
    }
  g_assert_not_reached ();
}

gboolean
trn_words_is_consequence (const TrnFinding *finding)
{
  return finding->verdict == TRN_VERDICT_UNKNOWN && !trn_finding_is_holder (finding)
         && (trn_finding_is_unhung (finding) || g_strcmp0 (finding->missing, TRN_HANG_BESIDE) == 0
             || g_strcmp0 (finding->missing, "lean") == 0);
}

int
trn_words_compare_worst (const TrnFinding *a, const TrnFinding *b, double tight_m)
{
  const TrnRank rank_a = trn_words_rank (a, tight_m), rank_b = trn_words_rank (b, tight_m);
  if (rank_a != rank_b)
    return (rank_a > rank_b) - (rank_a < rank_b);
  const gboolean follows_a = trn_words_is_consequence (a), follows_b = trn_words_is_consequence (b);
  return follows_a != follows_b ? follows_a - follows_b : compare_left (a, b);
}

static char *
contact_alone_text (const TrnFinding *finding)
{
  if (finding->inside == TRN_INSIDE_YES)
    return g_strdup (_ ("In contact: one lies inside the other"));
  if (finding->contacts == NULL || finding->contacts->len == 0)
    return g_strdup (_ ("In contact"));
  g_autofree char *first = trn_words_time (g_array_index (finding->contacts, TrnInterval, 0).lo);
  return g_strdup_printf (_ ("In contact, first at %s"), first);
}

static char *
contact_text (const TrnFinding *finding)
{
  g_autofree char *contact = contact_alone_text (finding);
  const char *slash = finding->body != NULL ? strrchr (finding->body, '/') : NULL;
  if (slash == NULL || strcmp (slash, "/trolley") != 0 || finding->obstacle == NULL)
    return g_steal_pointer (&contact);
  g_autofree char *gear = g_strndup (finding->body, (gsize)(slash - finding->body));
  g_autofree char *id = trn_words_clean (gear, LONGEST_NAME);
  g_autofree char *obstacle = trn_words_clean (finding->obstacle, LONGEST_NAME);
  return g_strdup_printf (_ ("%s. If it is what the trolley runs on, and only then, write "
                             "\"connected\": [[\"%s\", \"%s\"]] into rigging of the lift: no "
                             "clearance is asked of the two then"),
                          contact, id, obstacle);
}

static char *
unknown_text (const TrnFinding *finding)
{
  if (!(finding->lower_m > 0))
    return g_strdup (_ ("Not known: no clearance could be proven"));
  g_autofree char *proven = trn_words_length_down (finding->lower_m);
  return g_strdup_printf (_ ("Not known: only a clearance of %s is proven"), proven);
}

/* As it is written into a plan: in metres, whatever is shown elsewhere. */
static char *
plan_metres (double length_m)
{
  char number[G_ASCII_DTOSTR_BUF_SIZE];
  return trn_words_quantity (
      g_strdup_printf ("%s m", g_ascii_formatd (number, sizeof number, "%.7g", length_m)));
}

static char *
short_text (const TrnFinding *finding, const char *missing)
{
  if (!(finding->seat_until_m > 0))
    {
      char *because = trn_words_short_because (finding, missing);
      because = because != NULL ? because : trn_words_cause_tail (finding, missing);
      return trn_words_cause_stands (
          finding, because != NULL ? because : g_strdup_printf (_ ("Short by %s"), missing));
    }
  g_autofree char *until = plan_metres (finding->seat_until_m);
  return g_strdup_printf (
      _ ("Short by %s, and only where the load leaves or reaches its seat: raise until_clear of "
         "this seat to at least %s (what is to be kept + all that is taken off + 0.01 m)"),
      missing, until);
}

static char *
clearance_text (const TrnFinding *finding)
{
  double margin_m = trn_words_margin_m (finding);
  g_autofree char *spare = trn_words_length_down (margin_m);
  g_autofree char *missing = trn_words_length_up (-margin_m);
  switch (finding->state)
    {
    case TRN_STATE_CONTACT:
      return trn_words_cause_stands (finding, contact_text (finding));
    case TRN_STATE_SEATED:
      return g_strdup (_ ("Seated: the load rests here"));
    case TRN_STATE_SHORT:
      return short_text (finding, missing);
    case TRN_STATE_CLEAR:
      if (finding->verdict == TRN_VERDICT_PASS && margin_m >= 0)
        return g_strdup_printf (_ ("Meets the set clearance, %s to spare"), spare);
      return unknown_text (finding);
    default:
      return unknown_text (finding);
    }
}

static char *
swing_text (const TrnFinding *finding)
{
  if (finding->state == TRN_STATE_UNKNOWN)
    return g_strdup (_ ("Not known: the swing circle could not be worked out"));
  if (isnan (finding->sector_distance_m))
    return g_strdup (_ ("Nothing of it lies in the way of the swing"));
  double margin_m = trn_words_margin_m (finding);
  g_autofree char *radius = trn_words_length_up (finding->radius_m);
  if (margin_m >= 0)
    {
      g_autofree char *spare = trn_words_length_down (margin_m);
      return g_strdup_printf (_ ("Outside the swing circle of %s, %s to spare"), radius, spare);
    }
  g_autofree char *missing = trn_words_length_up (-margin_m);
  return g_strdup_printf (_ ("The swing circle of %s comes %s closer than the set clearance"),
                          radius, missing);
}

static char *
not_resting_text (const TrnFinding *finding, const char *fit)
{
  /* More than what counts as resting, in what is read as well. */
  g_autofree char *gap = trn_words_length_up (finding->gap_m);
  g_autofree char *distance = trn_words_length (finding->distance_m);
  if (isfinite (finding->gap_m))
    return g_strdup_printf (
        _ ("Not resting: %s above its seat, and up to %s counts as resting (fit). Lower it by what "
           "lies between them, or correct the place of one of the two"),
        gap, fit);
  return g_strdup_printf (_ ("Not resting: %s from its seat, and not above it"), distance);
}

static char *
buried_text (const TrnFinding *finding, const char *fit)
{
  if (!(finding->raise_m > 0))
    return g_strdup_printf (_ ("Buried: raised by %s it still touches its seat"), fit);
  g_autofree char *raise = trn_words_length_up (finding->raise_m);
  return g_strdup_printf (
      _ ("Buried: raised by %s it still touches its seat; raised by %s it is clear of it"), fit,
      raise);
}

static char *
seat_text (const TrnFinding *finding)
{
  g_autofree char *fit = trn_words_length (finding->fit_m);
  switch (finding->state)
    {
    case TRN_STATE_RESTING:
      return g_strdup (_ ("Rests on its seat"));
    case TRN_STATE_BURIED:
      return buried_text (finding, fit);
    case TRN_STATE_NOT_RESTING:
      return not_resting_text (finding, fit);
    case TRN_STATE_NEVER_LEFT:
      return g_strdup (_ ("Never leaves its seat"));
    case TRN_STATE_NEVER_REACHED:
      return g_strdup (_ ("Never reaches its seat"));
    default:
      return g_strdup (_ ("Not known: how it rests could not be worked out"));
    }
}

static char *
elsewhere_text (const TrnFinding *finding)
{
  g_autofree char *starts = trn_words_point (finding->starts.position);
  g_autofree char *stands = trn_words_point (finding->stands.position);
  g_autofree char *apart = trn_words_length_up (finding->distance_m);
  g_autofree char *turned = trn_words_angle (finding->turned_rad);
  if (!(finding->turned_rad > SHOWN_RAD))
    return g_strdup_printf (_ ("Begins at %s, but its component stands at %s: %s from there"),
                            starts, stands, apart);
  return g_strdup_printf (
      _ ("Begins at %s, but its component stands at %s: %s from there, and turned by %s"), starts,
      stands, apart, turned);
}

static char *
start_text (const TrnFinding *finding)
{
  switch (finding->state)
    {
    case TRN_STATE_IN_PLACE:
      return g_strdup (_ ("Begins where its component stands"));
    case TRN_STATE_ELSEWHERE:
      return elsewhere_text (finding);
    default:
      return g_strdup (_ ("Not known: where it begins could not be worked out"));
    }
}

static char *
bare_text (const TrnFinding *finding)
{
  if (finding->missing != NULL
      && (finding->verdict == TRN_VERDICT_UNKNOWN || finding->state == TRN_STATE_NOT_GIVEN))
    return trn_words_missing (finding);
  switch (finding->check)
    {
    case TRN_CHECK_CLEARANCE:
      return clearance_text (finding);
    case TRN_CHECK_SWING_RADIUS:
      return swing_text (finding);
    case TRN_CHECK_SEAT:
      return seat_text (finding);
    case TRN_CHECK_START:
      return start_text (finding);
    case TRN_CHECK_APPROACH:
      {
        g_autofree char *clear = clearance_text (finding);
        return trn_words_approach (finding, clear);
      }
    case TRN_CHECK_HEADROOM:
    case TRN_CHECK_REACH:
    case TRN_CHECK_TAIL_SWING:
    case TRN_CHECK_RIGGING:
    case TRN_CHECK_STANDING:
      return trn_words_gear_finding (finding);
    case TRN_CHECK_FOOTING:
      return trn_words_footing (finding);
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
      return trn_words_force_finding (finding);
    }
  g_assert_not_reached ();
}

char *
trn_words_finding (const TrnFinding *finding)
{
  g_autofree char *bare = bare_text (finding);
  gboolean is_distance
      = finding->check == TRN_CHECK_CLEARANCE || finding->check == TRN_CHECK_APPROACH;
  if (!is_distance || finding->inside != TRN_INSIDE_UNKNOWN)
    return g_steal_pointer (&bare);
  return g_strdup_printf (_ ("%s; whether one lies inside the other is not known, since neither "
                             "surface is closed"),
                          bare);
}

static void
count_verdicts (const TrnFindings *findings, guint *n_fail, guint *n_unknown)
{
  *n_fail = *n_unknown = 0;
  for (guint i = 0; i < findings->n_lifts; i++)
    for (guint j = 0; j < findings->lifts[i].findings->len; j++)
      {
        const TrnFinding *f = &g_array_index (findings->lifts[i].findings, TrnFinding, j);
        *n_fail += f->verdict == TRN_VERDICT_FAIL;
        *n_unknown += f->verdict == TRN_VERDICT_UNKNOWN;
      }
}

static char *
verdict_text (const TrnFindings *findings)
{
  guint n_fail, n_unknown;
  count_verdicts (findings, &n_fail, &n_unknown);
  switch (findings->verdict)
    {
    case TRN_VERDICT_PASS:
    case TRN_VERDICT_NOTE:
      return g_strdup (_ ("Clearances meet the set values."));
    case TRN_VERDICT_FAIL:
      return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u finding does not meet what is set.",
                                           "%u findings do not meet what is set.", n_fail),
                              n_fail);
    case TRN_VERDICT_UNKNOWN:
      if (findings->n_lifts == 0)
        return g_strdup (_ ("The plan has no lift, so nothing was checked."));
      return g_strdup_printf (
          g_dngettext (GETTEXT_PACKAGE, "%u finding is not known, and so the plan does not pass.",
                       "%u findings are not known, and so the plan does not pass.", n_unknown),
          n_unknown);
    }
  g_assert_not_reached ();
}

/* Of what is not checked where @checks are: the first @most. @n receives how many there are. */
static char *
not_checked_text (guint checks, guint most, guint *n)
{
  const char *names[TRN_RESULTS_MOST_CHECKS + 1];
  g_autoptr (GString) list = g_string_new (NULL);
  *n = trn_results_not_checked (checks, names);
  for (guint i = 0; i < MIN (*n, most); i++)
    g_string_append_printf (list, "%s%s", i > 0 ? ", " : "", check_text (names[i]));
  return g_string_free (g_steal_pointer (&list), FALSE);
}

/* " Checked: …." beside what is checked of every plan; "" where that is all. */
static char *
checked_text (const TrnFindings *findings)
{
  g_autoptr (GString) list = g_string_new (NULL);
  for (guint check = 0; check < TRN_N_CHECKS && findings->n_lifts > 0; check++)
    if ((findings->checks_done & ~TRN_CHECKS_ALWAYS & TRN_CHECK_BIT (check)) != 0)
      g_string_append_printf (list, ", %s", trn_words_check ((TrnCheckKind)check));
  return list->len > 0 ? g_strdup_printf (_ (" Checked: clearances%s."), list->str) : g_strdup ("");
}

char *
trn_words_headline (const TrnFindings *findings)
{
  guint n;
  g_autofree char *verdict = verdict_text (findings);
  g_autofree char *not_checked = not_checked_text (findings->checks_done, G_MAXUINT, &n);
  g_autofree char *checked = checked_text (findings);
  if (n == 0)
    return g_strconcat (verdict, checked, NULL);
  return g_strdup_printf (_ ("%s%s Not checked: %s."), verdict, checked, not_checked);
}

/* ---- the headline of a window ---- */

/* What is named of what was not checked, before the rest is only counted. */
#define NAMED_NOT_CHECKED 4

G_GNUC_PRINTF (2, 3)
static void
append_part (GString *line, const char *format, ...)
{
  va_list arguments;
  va_start (arguments, format);
  if (line->len > 0)
    g_string_append (line, " · ");
  g_string_append_vprintf (line, format, arguments);
  va_end (arguments);
}

static void
append_counts (GString *line, const TrnFindings *findings, double tight_m)
{
  guint n_fail, n_unknown, n_meet = 0, n_tight = 0, n_within = 0, n_critical = 0;
  count_verdicts (findings, &n_fail, &n_unknown);
  for (guint i = 0; i < findings->n_lifts; i++)
    for (guint j = 0; j < findings->lifts[i].findings->len; j++)
      {
        const TrnFinding *f = &g_array_index (findings->lifts[i].findings, TrnFinding, j);
        gboolean meets = (f->check == TRN_CHECK_CLEARANCE || f->check == TRN_CHECK_APPROACH)
                         && f->verdict == TRN_VERDICT_PASS;
        n_meet += meets;
        n_tight += trn_words_is_tight (f, tight_m);
        n_within += f->state == TRN_STATE_WITHIN || f->state == TRN_STATE_CRITICAL;
        n_critical += f->state == TRN_STATE_CRITICAL;
      }
  if (n_fail > 0)
    append_part (line,
                 g_dngettext (GETTEXT_PACKAGE, "%u finding does not meet what is set",
                              "%u findings do not meet what is set", n_fail),
                 n_fail);
  if (n_unknown > 0)
    append_part (line,
                 g_dngettext (GETTEXT_PACKAGE, "%u is not known", "%u are not known", n_unknown),
                 n_unknown);
  if (n_meet > 0)
    append_part (line,
                 g_dngettext (GETTEXT_PACKAGE, "%u clearance meets the set value",
                              "%u clearances meet the set values", n_meet),
                 n_meet);
  if (n_tight > 0)
    g_string_append_printf (line, _ (", %u of them tight"), n_tight);
  if (n_within > 0)
    append_part (line,
                 g_dngettext (GETTEXT_PACKAGE, "%u other value is within its limit",
                              "%u other values are within their limits", n_within),
                 n_within);
  if (n_critical > 0)
    g_string_append_printf (line, _ (", %u of them critical"), n_critical);
}

static void
append_not_checked (GString *line, guint checks)
{
  guint n;
  g_autofree char *list = not_checked_text (checks, NAMED_NOT_CHECKED, &n);
  if (n > NAMED_NOT_CHECKED)
    append_part (line, _ ("not checked: %s and %u more"), list, n - NAMED_NOT_CHECKED);
  else if (n > 0)
    append_part (line, _ ("not checked: %s"), list);
}

char *
trn_words_not_checked_of (guint checks)
{
  guint n;
  g_autofree char *list = not_checked_text (checks, G_MAXUINT, &n);
  return n > 0 ? g_strdup_printf (_ ("Not checked: %s"), list) : NULL;
}

char *
trn_words_not_checked (void)
{
  guint n;
  g_autofree char *list = not_checked_text (TRN_CHECKS_ALWAYS, G_MAXUINT, &n);
  return g_strdup_printf (_ ("Checked only where the plan names what it takes: %s."), list);
}

char *
trn_words_headline_short (const TrnFindings *findings, TrnHeadline state, guint n_lifts,
                          double tight_m)
{
  g_autoptr (GString) line = g_string_new (NULL);
  guint n_done = findings != NULL ? findings->n_lifts : 0;
  switch (state)
    {
    case TRN_HEADLINE_NONE:
      return g_strdup (_ ("Not checked"));
    case TRN_HEADLINE_RUNNING:
      append_part (line, _ ("Checking, %u of %u lifts done"), n_done, n_lifts);
      break;
    case TRN_HEADLINE_STOPPED:
      append_part (line, _ ("Check stopped, %u of %u lifts done"), n_done, n_lifts);
      break;
    case TRN_HEADLINE_STALE:
      append_part (line, "%s", _ ("The plan was changed since"));
      break;
    case TRN_HEADLINE_DONE:
      break;
    }
  if (findings != NULL)
    append_counts (line, findings, tight_m);
  append_not_checked (line, findings != NULL ? findings->checks_done : TRN_CHECKS_ALWAYS);
  return g_string_free (g_steal_pointer (&line), FALSE);
}

const char *
trn_words_caution (void)
{
  return _ (
      "Distances are those of the shapes as given, rigid and moved exactly as planned, within "
      "the tolerances that the plan names; nobody has compared them with the site. "
      "Emergency stops, swinging and wind other than the plan names, bending, the stretch of "
      "ropes, and gear that the plan does not name are not part of this; nor is whether parts of "
      "the load can shift, or whether its lift points suit the lift. The plan, local codes and the "
      "decision to lift stay with a competent, licensed person.");
}
