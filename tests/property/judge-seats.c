/* Seats: how long the load counts as seated, and how it rests. */
#include <string.h>

#include "judge-case.h"

#define SEATED_SAMPLES 100

/* The engine's time is at most 1 ms or 1 mm late, whichever is less, so a stay above the distance
 * that is shorter than that may have been passed over. */
#define LATE_M 2e-3

/* A distance at which the load is free of the seat however wide an outer bound of contact is: 1 ms
 * of a load that is fast, and some. */
#define PLAINLY_FREE_M 0.03

gboolean
seat_means (const char *on, const char *body)
{
  gsize length = strlen (on);
  return strncmp (on, body, length) == 0 && (body[length] == '\0' || body[length] == '/');
}

static void
judge_below (const Case *c, TrnInterval span, double until_m)
{
  for (guint k = 1; k < SEATED_SAMPLES; k++)
    {
      double s = span.lo + trn_interval_width (span) * k / SEATED_SAMPLES;
      double d = case_distance (c, s);
      HOLDS (c, d < until_m + LATE_M, "seated at s = %.9g with %.9g, left at %.9g", s, d, until_m);
    }
}

/* From the start: below the distance until it is left, and then at it. */
static gboolean
judge_from_start (const Case *cases, guint n_moves)
{
  for (guint move = 0; move < n_moves; move++)
    {
      const Case *c = &cases[move];
      TrnInterval span;
      if (!case_seated_part (c, &span) || span.lo > 0)
        {
          HOLDS (c, case_distance (c, 0) >= c->until_start_m - 1e-6, "left before its time: %g",
                 case_distance (c, 0));
          return TRUE;
        }
      judge_below (c, span, c->until_start_m);
      if (span.hi < 1)
        {
          HOLDS (c, case_distance (c, span.hi) >= c->until_start_m - 1e-6, "left at %.9g with %g",
                 span.hi, case_distance (c, span.hi));
          return TRUE;
        }
    }
  return case_distance (&cases[n_moves - 1], 1) >= cases->until_start_m;
}

/* From the end, backwards; a span that the one at the start of the same move hides is left out. */
static gboolean
judge_from_end (const Case *cases, guint n_moves)
{
  for (guint move = n_moves; move-- > 0;)
    {
      const Case *c = &cases[move];
      TrnInterval span;
      gboolean has = case_seated_part (c, &span);
      if (has && c->seat_at_start && span.lo <= 0 && span.hi < 1)
        return TRUE;
      if (!has || span.hi < 1)
        {
          HOLDS (c, case_distance (c, 1) >= c->until_end_m - 1e-6, "reached after its time: %g",
                 case_distance (c, 1));
          return TRUE;
        }
      judge_below (c, span, c->until_end_m);
      if (span.lo > 0)
        {
          HOLDS (c, case_distance (c, span.lo) >= c->until_end_m - 1e-6, "reached at %.9g with %g",
                 span.lo, case_distance (c, span.lo));
          return TRUE;
        }
    }
  return case_distance (&cases[0], 0) >= cases->until_end_m;
}

/* A contact after the load was plainly free of the seat, within the span at the start, is none that
 * the seat allows; at the end the same backwards. */
static void
judge_one_span (const Case *cases, guint n_moves, gboolean at_end)
{
  gboolean was_free = FALSE;
  for (guint i = 0; i < n_moves; i++)
    {
      const Case *c = &cases[at_end ? n_moves - 1 - i : i];
      TrnInterval span;
      if (!case_seated_part (c, &span) || (at_end ? span.hi < 1 : span.lo > 0))
        return;
      for (guint k = 0; k <= SEATED_SAMPLES; k++)
        {
          double share = (double)k / SEATED_SAMPLES;
          double s = span.lo + trn_interval_width (span) * (at_end ? 1 - share : share);
          double d = case_distance (c, s);
          was_free |= d > PLAINLY_FREE_M;
          if (!was_free || d > TOUCH_M)
            continue;
          case_count (c, TALLY_SEAT_CONTACT);
          HOLDS (c, c->finding->verdict == TRN_VERDICT_FAIL, "seat touched again at s = %.9g", s);
          HOLDS (c, case_lists_contact (c, s), "seat touched again at s = %.9g, not listed", s);
        }
    }
}

/* Whether the load touches the body when raised by @dz. */
static gboolean
touches (const JudgeLift *at, const TrnBody *body, const OracleStanding *standing, TrnPose pose,
         double dz)
{
  pose.position.z += dz;
  const TrnBody *load = at->load;
  TrnDistance d = trn_mesh_distance (load->bvh, &pose, body->bvh, &standing->pose, 1e-6, NULL);
  return d.distance_m <= TOUCH_M
         || trn_mesh_inside (load->bvh, load->check, &pose, body->bvh, body->check, &standing->pose)
                == TRN_INSIDE_YES;
}

/* A load that is deeper in its seat than the fit, so that it touches it raised by that, too, does
 * not rest on it. */
static void
judge_depth (const Case *c)
{
  TrnInterval span;
  if (!case_seated_part (c, &span))
    return;
  for (guint k = 0; k <= SEATED_SAMPLES; k++)
    {
      double s = span.lo + trn_interval_width (span) * k / SEATED_SAMPLES;
      TrnPose pose = oracle_pose (c->at->lift, c->move, s);
      if (!touches (c->at, c->body, c->standing, pose, 0)
          || !touches (c->at, c->body, c->standing, pose, c->fit_m))
        continue;
      case_count (c, TALLY_SEAT_DEEP);
      HOLDS (c, c->finding->verdict == TRN_VERDICT_FAIL, "deep in the seat at s = %.9g", s);
      HOLDS (c, case_lists_contact (c, s), "deep in the seat at s = %.9g, not listed", s);
    }
}

void
judge_seated_spans (const Case *cases, guint n_moves, CaseSeat *seat)
{
  const Case *c = &cases[0];
  TrnInterval span;
  if (!c->seat_at_start && !c->seat_at_end)
    for (guint i = 0; i < n_moves; i++)
      HOLDS (&cases[i], !case_seated_part (&cases[i], &span), "%s", "seated on no seat");
  for (guint i = 0; i < n_moves; i++)
    judge_depth (&cases[i]);
  seat->left = c->seat_at_start && judge_from_start (cases, n_moves);
  seat->reached = c->seat_at_end && judge_from_end (cases, n_moves);
  if (c->seat_at_start && (!c->seat_at_end || seat->left))
    judge_one_span (cases, n_moves, FALSE);
  if (c->seat_at_end && (!c->seat_at_start || seat->reached))
    judge_one_span (cases, n_moves, TRUE);
}

/* ---- how it rests ---- */

static JsonObject *
find_seat (const JudgeLift *at, const char *on)
{
  JsonArray *seats = json_object_get_array_member (at->lift->lift, "seats");
  for (guint i = 0; i < json_array_get_length (seats); i++)
    {
      JsonObject *seat = json_array_get_object_element (seats, i);
      if (strcmp (json_object_get_string_member (seat, "on"), on) == 0)
        return seat;
    }
  g_assert_not_reached ();
}

void
judge_seat (const JudgeLift *at, const TrnFinding *finding, const CaseSeat *seats, guint n_seats)
{
  JsonObject *plan = find_seat (at, finding->obstacle);
  double fit
      = json_object_has_member (plan, "fit") ? json_object_get_double_member (plan, "fit") : 5e-3;
  const TrnPose *pose = finding->at_end ? &at->lift->end : &at->lift->start;
  gboolean high = FALSE, low = FALSE, always_free = TRUE;
  for (guint i = 0; i < n_seats; i++)
    {
      if (!seat_means (finding->obstacle, seats[i].body->id))
        continue;
      high |= touches (at, seats[i].body, seats[i].standing, *pose, fit);
      low |= touches (at, seats[i].body, seats[i].standing, *pose, -fit);
      always_free &= finding->at_end ? seats[i].reached : seats[i].left;
    }
  TrnState state = TRN_STATE_RESTING;
  TallyKind kind = TALLY_RESTING;
  if (!always_free && finding->at_end)
    state = TRN_STATE_NEVER_REACHED, kind = TALLY_NEVER_REACHED;
  else if (!always_free)
    state = TRN_STATE_NEVER_LEFT, kind = TALLY_NEVER_LEFT;
  else if (high)
    state = TRN_STATE_BURIED, kind = TALLY_BURIED;
  else if (!low)
    state = TRN_STATE_NOT_RESTING, kind = TALLY_NOT_RESTING;
  Case c = { .at = at, .finding = finding };
  HOLDS (&c, finding->state == state, "seat at the %s: state %d, not %d",
         finding->at_end ? "end" : "start", (int)finding->state, (int)state);
  HOLDS (&c, finding->verdict == (state == TRN_STATE_RESTING ? TRN_VERDICT_PASS : TRN_VERDICT_FAIL),
         "seat: verdict %d", (int)finding->verdict);
  case_count (&c, kind);
}
