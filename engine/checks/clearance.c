/* lower − allowance >= required passes, upper − allowance < required fails. Between the two the
 * sweep is asked again with a tenth of the width, down to the contact tolerance: what is open then
 * fails. A lower bound of 0 does not exclude contact, so it is refined in the same way even where
 * nothing is required.
 *
 * What is taken off is first what is for the end of a boom, rope or sling that goes farthest; where
 * that makes it short, what is for each part of it (gear-along.c). */
#include "clearance.h"

#include "gear-along.h"
#include "pair-sweep.h"
#include "sweep-cache.h"
#include "tolerances.h"

/* Bounds proven so far about the free part of a move. */
typedef struct
{
  const TrnLiftCheck *check;
  TrnPairSweep *pair;
  TrnSweepResult result;
} Work;

static gboolean
is_open (const Work *work, const TrnFinding *finding)
{
  double need_m = finding->required_m + finding->allowance_m;
  const TrnSweepResult *r = &work->result;
  if (r->upper_m <= TRN_CONTACT_M || r->inside == TRN_INSIDE_YES)
    return FALSE;
  return r->lower_m <= 0 || (r->lower_m < need_m && r->upper_m >= need_m);
}

/* Asks more narrowly while the verdict is open; what was proven before still holds. */
static void
refine (Work *work, const TrnFinding *finding)
{
  double width_m = work->check->certify_m;
  while (is_open (work, finding) && work->result.complete && width_m > TRN_CONTACT_M)
    {
      width_m = fmax (width_m / 10, TRN_CONTACT_M);
      TrnSweepResult next = trn_pair_sweep_minimum (work->pair, width_m, INFINITY);
      double lower_m = fmax (work->result.lower_m, next.lower_m);
      if (next.upper_m <= work->result.upper_m)
        work->result = next;
      work->result.lower_m = fmin (lower_m, work->result.upper_m);
      work->result.complete = next.complete;
    }
}

/* ---- the finding ---- */

static void
set_contacts (TrnFinding *finding, GArray *contacts)
{
  finding->state = TRN_STATE_CONTACT;
  finding->verdict = TRN_VERDICT_FAIL;
  finding->lower_m = finding->upper_m = 0;
  if (finding->contacts == NULL)
    finding->contacts = g_array_new (FALSE, FALSE, sizeof (TrnInterval));
  g_array_append_vals (finding->contacts, contacts->data, contacts->len);
}

static void
set_place (TrnFinding *finding, const Work *work, guint move)
{
  const TrnSweepResult *r = &work->result;
  if (!isfinite (r->upper_m))
    return;
  finding->upper_m = r->upper_m;
  finding->progress = r->s;
  finding->time_s = trn_lift_check_time (work->check, move, r->s);
  finding->point_on_body = r->on_body;
  finding->point_on_obstacle = r->on_obstacle;
  finding->has_points = trn_vec3_is_finite (r->on_body) && trn_vec3_is_finite (r->on_obstacle);
}

/* The nearest points at the beginning of a contact, where the sweep finds it there: what is shown
 * of a contact is how it comes about. */
static void
set_first_contact (TrnFinding *finding, Work *work, guint move)
{
  const TrnLiftCheck *check = work->check;
  const TrnMotion *motion = &check->run->motions[move];
  double first_s = g_array_index (finding->contacts, TrnInterval, 0).lo;
  if (!(motion->seconds > 0))
    return;
  double s = CLAMP ((first_s - check->run->begins_s[move]) / motion->seconds, 0, 1);
  TrnInterval begin = { s, fmin (1, s + 2 * trn_pair_sweep_resolution (work->pair)) };
  trn_pair_sweep_set_span (work->pair, begin);
  work->result = trn_pair_sweep_minimum (work->pair, TRN_CONTACT_M, INFINITY);
  if (work->result.upper_m > TRN_CONTACT_M)
    return;
  set_place (finding, work, move);
  finding->upper_m = 0;
  if (work->result.inside == TRN_INSIDE_YES)
    finding->inside = TRN_INSIDE_YES;
}

/* Contact in the free part: spans over all of it, or the moment found where none is given. */
static void
judge_contact (TrnFinding *finding, const Work *work, guint move)
{
  g_autoptr (GArray) spans = g_array_new (FALSE, FALSE, sizeof (TrnInterval));
  trn_pair_sweep_contacts (work->pair, spans);
  if (spans->len == 0)
    {
      TrnInterval moment = { work->result.s, work->result.s };
      g_array_append_val (spans, moment);
    }
  for (guint i = 0; i < spans->len; i++)
    {
      TrnInterval *span = &g_array_index (spans, TrnInterval, i);
      span->lo = trn_lift_check_time (work->check, move, span->lo);
      span->hi = trn_lift_check_time (work->check, move, span->hi);
    }
  set_contacts (finding, spans);
}

static void
judge_bounds (TrnFinding *finding, const Work *work)
{
  const TrnSweepResult *r = &work->result;
  double far_m = 2 * finding->required_m;
  if (r->complete && finding->lower_m >= far_m)
    finding->certified_to_m = fmax (finding->certified_to_m, TRN_FAR_SHARE * finding->lower_m);
  if (r->upper_m - finding->allowance_m < finding->required_m)
    {
      finding->verdict = TRN_VERDICT_FAIL;
      finding->state = TRN_STATE_SHORT;
    }
  else if (!r->complete)
    return; /* cut short: no pass, whatever was proven */
  else if (finding->lower_m - finding->allowance_m >= finding->required_m && finding->lower_m > 0)
    {
      finding->verdict = TRN_VERDICT_PASS;
      finding->state = TRN_STATE_CLEAR;
    }
  else
    {
      finding->verdict = TRN_VERDICT_FAIL;
      finding->state = TRN_STATE_SHORT;
    }
}

static void
judge_free_part (TrnFinding *finding, Work *work, guint move)
{
  /* The share may only widen what it exceeds, so it begins where it does. */
  double far_m = fmax (2 * finding->required_m, finding->certified_to_m / TRN_FAR_SHARE);
  work->result = trn_pair_sweep_minimum (work->pair, work->check->certify_m, far_m);
  refine (work, finding);
  const TrnSweepResult *r = &work->result;
  finding->inside = r->inside;
  finding->lower_m = r->lower_m;
  set_place (finding, work, move);
  gboolean excluded = r->lower_m > 0 || !r->complete;
  if (r->upper_m <= TRN_CONTACT_M || r->inside == TRN_INSIDE_YES || !excluded)
    judge_contact (finding, work, move);
  else
    judge_bounds (finding, work);
}

/* What goes less than its farthest end is charged less, where all of that makes it short. */
static void
judge_along (TrnFinding *finding, const Work *work, const TrnPair *pair, guint move)
{
  TrnGearAlong along;
  if (finding->state != TRN_STATE_SHORT || !work->pair->is_limb || !work->result.complete
      || !trn_gear_along_find (work->check, pair, move, trn_pair_sweep_get_span (work->pair),
                               finding->required_m, finding->lower_m, finding->allowance_m, &along))
    return;
  finding->lower_m = fmin (along.lower_m, finding->upper_m);
  finding->allowance_m = along.allowance_m;
  g_clear_pointer (&finding->allowance_parts, g_array_unref);
  finding->allowance_parts
      = trn_pair_allowance_parts_at (work->check, pair, move, along.shares, along.allowance_m);
  judge_bounds (finding, work);
}

/* ---- seats ---- */

/* Where the load is seated until it is farther than what is to be kept, but not by the tolerances,
 * a plan fails at the border of the seated span, whatever the lift does. With another until_clear
 * the border is where that distance is reached: if all that is left then meets what is set, the
 * value is all that is wrong. */
static void
advise_seat (TrnFinding *finding, const Work *work, guint move, const TrnSeated *seated)
{
  const TrnCheckOptions *options = work->check->options;
  const TrnSweepPair *pair = &work->pair->load;
  double need_m = finding->required_m + finding->allowance_m;
  if (finding->state != TRN_STATE_SHORT || finding->lower_m < finding->required_m)
    return;
  double until_m = ceil ((need_m + TRN_SEAT_CLEAR_MARGIN_M) * 1000) / 1000;
  double resolution_s = trn_seated_resolution (work->check, move);
  TrnInterval rest = pair->span;
  if (seated->at_start && seated->left_move == move
      && !trn_sweep_cached_first_reach (options->cache, pair, until_m, resolution_s, FALSE,
                                        options->progress, &rest.lo))
    return;
  if (seated->at_end && seated->reached_move == move
      && !trn_sweep_cached_first_reach (options->cache, pair, until_m, resolution_s, TRUE,
                                        options->progress, &rest.hi))
    return;
  if (rest.lo > rest.hi)
    return;
  TrnPairSweep later = *work->pair;
  trn_pair_sweep_set_span (&later, rest);
  TrnSweepResult result = trn_pair_sweep_minimum (&later, work->check->certify_m, INFINITY);
  if (result.complete && result.lower_m >= need_m)
    finding->seat_until_m = until_m;
}

/* Contacts with the seat that it does not allow, in this move. */
static void
add_seat_contacts (TrnFinding *finding, Work *work, guint move, const TrnSeated *seated)
{
  g_autoptr (GArray) spans = g_array_new (FALSE, FALSE, sizeof (TrnInterval));
  TrnInterval first = { 0, 0 };
  for (guint i = 0; seated->contacts != NULL && i < seated->contacts->len; i++)
    {
      const TrnSeatContact *contact = &g_array_index (seated->contacts, TrnSeatContact, i);
      if (contact->move != move)
        continue;
      TrnInterval span = { trn_lift_check_time (work->check, move, contact->s.lo),
                           trn_lift_check_time (work->check, move, contact->s.hi) };
      first = spans->len == 0 ? contact->s : first;
      g_array_append_val (spans, span);
    }
  if (spans->len == 0)
    return;
  if (finding->state != TRN_STATE_CONTACT)
    {
      trn_pair_sweep_set_span (work->pair, first);
      work->result = trn_pair_sweep_minimum (work->pair, TRN_CONTACT_M, INFINITY);
      set_place (finding, work, move);
      finding->inside = work->result.inside;
    }
  set_contacts (finding, spans);
}

static int
compare_spans (gconstpointer a, gconstpointer b)
{
  const TrnInterval *x = a, *y = b;
  return x->lo < y->lo ? -1 : x->lo > y->lo;
}

/* Without a number for what is to be kept or taken off there is nothing to judge by. */
static const char *
missing_number (const TrnFinding *finding, const TrnLiftCheck *check,
                const TrnClearanceQuestion *question)
{
  if (isnan (finding->required_m))
    return question->missing != NULL ? question->missing : "keep_clear";
  const char *missing = trn_pair_missing (check, &question->pair, question->move);
  if (missing == NULL)
    missing = trn_pair_off_missing (check, &question->pair, question->move);
  return missing != NULL ? missing : "tolerance";
}

static void
judge (TrnFinding *finding, const TrnLiftCheck *check, const TrnClearanceQuestion *question)
{
  static const TrnSeated none = { .known = TRUE };
  const TrnSeated *seated = question->seated != NULL ? question->seated : &none;
  guint move = question->move;
  TrnInterval part;
  TrnPairSweep pair;
  trn_pair_sweep_init (&pair, check, &question->pair, move);
  Work work = { .check = check, .pair = &pair };
  if (trn_seated_free_part (seated, move, &part))
    {
      trn_pair_sweep_set_span (&pair, part);
      judge_free_part (finding, &work, move);
      judge_along (finding, &work, &question->pair, move);
      if (finding->has_seated && question->pair.holder == NULL)
        advise_seat (finding, &work, move, seated);
    }
  else
    {
      finding->state = TRN_STATE_SEATED;
      finding->verdict = TRN_VERDICT_PASS;
    }
  add_seat_contacts (finding, &work, move, seated);
  if (finding->contacts != NULL)
    {
      g_array_sort (finding->contacts, compare_spans);
      set_first_contact (finding, &work, move);
    }
  if (!seated->known && finding->has_seated && finding->verdict == TRN_VERDICT_PASS)
    {
      finding->verdict = TRN_VERDICT_UNKNOWN;
      finding->state = TRN_STATE_UNKNOWN;
    }
  if (pair.is_limb && finding->verdict == TRN_VERDICT_UNKNOWN)
    finding->missing = trn_pair_missing (check, &question->pair, move);
}

TrnFinding
trn_clearance_judge (const TrnLiftCheck *check, const TrnClearanceQuestion *question)
{
  const TrnPair *pair = &question->pair;
  guint move = question->move;
  TrnFinding finding = trn_lift_check_finding (
      check, question->check, (int)move, trn_pair_other_id (check, pair), question->required_m);
  finding.body = trn_body_id (check, pair->body);
  finding.source = question->source;
  finding.allowance_m = finding.everywhere_m = trn_pair_allowance (check, pair, move);
  finding.allowance_parts = trn_pair_allowance_parts (check, pair, move);
  TrnInterval part;
  finding.has_seated = question->seated != NULL && trn_seated_part (question->seated, move, &part);
  if (finding.has_seated)
    {
      finding.seated_s = (TrnInterval){ trn_lift_check_time (check, move, part.lo),
                                        trn_lift_check_time (check, move, part.hi) };
      finding.seat_s = trn_seated_whole (check, question->seated, move);
    }
  if (trn_progress_is_cancelled (check->options->progress))
    return finding;
  if (isnan (finding.required_m) || isnan (finding.allowance_m))
    finding.missing = missing_number (&finding, check, question);
  else
    judge (&finding, check, question);
  return finding;
}
