#include "plan-judge.h"

#include <string.h>

#include "judge-case.h"

static void
count_move (const Case *c)
{
  JsonObject *move = case_move (c)->move;
  const char *kind = json_object_get_string_member (move, "do");
  static const char *const words[] = { "hoist", "travel", "move", "turn", "slew", "wait" };
  static const TallyKind kinds[]
      = { TALLY_HOIST, TALLY_TRAVEL, TALLY_MOVE, TALLY_TURN, TALLY_SLEW, TALLY_WAIT };
  for (guint i = 0; i < G_N_ELEMENTS (words); i++)
    if (strcmp (kind, words[i]) == 0)
      case_count (c, kinds[i]);
  if (strcmp (kind, "tilt") == 0)
    case_count (c,
                json_object_has_member (move, "head") ? TALLY_TILT_HEAD_PLUMB : TALLY_TILT_FIXED);
  if (json_object_has_member (move, "load_turns")
      && !json_object_get_boolean_member (move, "load_turns"))
    case_count (c, TALLY_SLEW_HEADING_KEPT);
  if (json_object_has_member (move, "radius_by"))
    case_count (c, TALLY_SLEW_LUFF);
}

static const TrnFinding *
find_clearance (const GArray *findings, int move, const char *obstacle)
{
  const TrnFinding *found = NULL;
  for (guint i = 0; i < findings->len; i++)
    {
      const TrnFinding *f = &g_array_index (findings, TrnFinding, i);
      if (f->check != TRN_CHECK_CLEARANCE || f->move != move || strcmp (f->obstacle, obstacle) != 0)
        continue;
      g_assert_null (found);
      found = f;
    }
  return found;
}

static void
set_seats (Case *c)
{
  JsonArray *seats = json_object_get_array_member (c->at->lift->lift, "seats");
  for (guint i = 0; i < json_array_get_length (seats); i++)
    {
      JsonObject *seat = json_array_get_object_element (seats, i);
      if (!seat_means (json_object_get_string_member (seat, "on"), c->body->id))
        continue;
      const char *end = json_object_get_string_member (seat, "at");
      double until_m = json_object_has_member (seat, "until_clear")
                           ? json_object_get_double_member (seat, "until_clear")
                           : c->standing->required_m + 10e-3;
      c->fit_m = json_object_has_member (seat, "fit") ? json_object_get_double_member (seat, "fit")
                                                      : 5e-3;
      if (strcmp (end, "end") != 0)
        {
          c->seat_at_start = TRUE;
          c->until_start_m = until_m;
        }
      if (strcmp (end, "start") != 0)
        {
          c->seat_at_end = TRUE;
          c->until_end_m = until_m;
        }
    }
}

/* What has taken the place of what hangs, or was set down on it, is nowhere known, and nothing may
 * rest on what hangs. */
static gboolean
is_beyond (const CaseSeat *seat, const TrnFinding *f)
{
  const char *missing
      = seat->standing->is_lost ? TRN_MISSING_ATTITUDE_BEFORE : TRN_MISSING_HUNG_SEAT;
  return (seat->standing->hangs || seat->standing->is_lost) && f->verdict == TRN_VERDICT_UNKNOWN
         && g_strcmp0 (f->missing, missing) == 0;
}

/* Nor is anything known of the load that is lost. */
static gboolean
is_of_lost (const JudgeLift *at, const TrnFinding *f)
{
  return at->lift->is_lost && f->verdict == TRN_VERDICT_UNKNOWN
         && g_strcmp0 (f->missing, TRN_MISSING_ATTITUDE_BEFORE) == 0;
}

static void
judge_body (const JudgeLift *at, const GArray *findings, CaseSeat *seat, gboolean first)
{
  guint n_moves = at->lift->moves->len;
  g_autofree Case *cases = g_new0 (Case, n_moves);
  CaseHint hint = { .known = FALSE };
  gboolean is_known = TRUE;
  for (guint i = 0; i < n_moves; i++)
    {
      Case *c = &cases[i];
      *c = (Case){
        .at = at, .move = i, .standing = seat->standing, .body = seat->body, .hint = &hint
      };
      c->finding = find_clearance (findings, (int)i, seat->body->id);
      HOLDS (c, c->finding != NULL, "no finding about %s", seat->body->id);
      set_seats (c);
      HOLDS (c, !seat->standing->is_lost || is_beyond (seat, c->finding), "%s", "it hangs");
      HOLDS (c, !seat->standing->hangs || !c->finding->has_seated, "%s", "seated on what hangs");
      if (first)
        count_move (c);
      HOLDS (c, !at->lift->is_lost || is_of_lost (at, c->finding), "%s", "it hung before");
      if (is_beyond (seat, c->finding) || is_of_lost (at, c->finding))
        {
          is_known = FALSE;
          continue;
        }
      judge_clearance (c);
      judge_allowance (c);
    }
  if (is_known)
    judge_seated_spans (cases, n_moves, seat);
}

static gboolean
is_elsewhere (const TrnPose *a, const TrnPose *b)
{
  double off = trn_vec3_distance (a->position, b->position);
  for (int i = 0; i < 3; i++)
    for (int k = 0; k < 3; k++)
      off = fmax (off, fabs (a->turn.m[i][k] - b->turn.m[i][k]));
  return off > 1e-6;
}

static const CaseSeat *
find_seat (const CaseSeat *seats, guint n_seats, const TrnFinding *f)
{
  for (guint i = 0; i < n_seats; i++)
    if (g_strcmp0 (seats[i].body->id, f->obstacle) == 0)
      return &seats[i];
  return NULL;
}

/* What is no clearance; and the fold of all. */
static TrnVerdict
judge_others (const JudgeLift *at, const GArray *findings, const CaseSeat *seats, guint n_seats)
{
  gboolean fails = FALSE, unknown = FALSE;
  for (guint i = 0; i < findings->len; i++)
    {
      const TrnFinding *f = &g_array_index (findings, TrnFinding, i);
      Case c = { .at = at, .finding = f };
      fails |= f->verdict == TRN_VERDICT_FAIL;
      unknown |= f->verdict == TRN_VERDICT_UNKNOWN;
      const CaseSeat *on = find_seat (seats, n_seats, f);
      if (f->check == TRN_CHECK_SEAT && on != NULL
          && (on->standing->hangs || on->standing->is_lost))
        HOLDS (&c, is_beyond (on, f) || is_of_lost (at, f), "%s", "rests on what hangs");
      if ((on != NULL && is_beyond (on, f)) || is_of_lost (at, f))
        continue;
      HOLDS (&c, f->verdict != TRN_VERDICT_UNKNOWN, "%s", "nothing here is beyond the sweep");
      if (f->check == TRN_CHECK_SWING_RADIUS)
        HOLDS (&c, f->verdict == TRN_VERDICT_PASS || f->verdict == TRN_VERDICT_NOTE, "%s", "swing");
      if (f->check == TRN_CHECK_SEAT)
        judge_seat (at, f, seats, n_seats);
      if (f->check != TRN_CHECK_START)
        continue;
      gboolean elsewhere = is_elsewhere (&at->lift->start, &at->lift->stands);
      HOLDS (&c, (f->state == TRN_STATE_ELSEWHERE) == elsewhere, "elsewhere: %d", elsewhere);
      HOLDS (&c, (f->verdict == TRN_VERDICT_FAIL) == elsewhere, "elsewhere: %d", elsewhere);
      if (elsewhere)
        case_count (&c, TALLY_ELSEWHERE);
    }
  return fails ? TRN_VERDICT_FAIL : unknown ? TRN_VERDICT_UNKNOWN : TRN_VERDICT_PASS;
}

static void
judge_lift (const JudgeLift *at, const TrnLiftFindings *found)
{
  const TrnScene *scene = at->scene;
  g_autoptr (GArray) seats = g_array_new (FALSE, FALSE, sizeof (CaseSeat));
  for (guint i = 0; i < at->lift->standing->len; i++)
    {
      const OracleStanding *standing = &g_array_index (at->lift->standing, OracleStanding, i);
      const TrnBodies *bodies = standing->is_component ? &scene->components[standing->index]
                                                       : &scene->structures[standing->index];
      for (guint k = 0; k < bodies->n_bodies; k++)
        {
          CaseSeat seat = { standing, &bodies->bodies[k], FALSE, FALSE };
          judge_body (at, found->findings, &seat, seats->len == 0);
          g_array_append_val (seats, seat);
        }
    }
  guint n_clearances = 0;
  for (guint i = 0; i < found->findings->len; i++)
    n_clearances += g_array_index (found->findings, TrnFinding, i).check == TRN_CHECK_CLEARANCE;
  Case c = { .at = at };
  HOLDS (&c, n_clearances == seats->len * at->lift->moves->len, "%u findings", n_clearances);
  TrnVerdict verdict
      = judge_others (at, found->findings, (const CaseSeat *)(gpointer)seats->data, seats->len);
  HOLDS (&c, found->verdict == verdict, "lift: verdict %d", (int)found->verdict);
  if (verdict != TRN_VERDICT_UNKNOWN)
    case_count (&c, verdict == TRN_VERDICT_PASS ? TALLY_LIFT_PASSES : TALLY_LIFT_FAILS);
  if (at->lift_index > 0)
    case_count (&c, TALLY_LATER_LIFT);
}

void
plan_judge (const char *name, const char *json, const TrnScene *scene, const TrnFindings *findings,
            Tally *tally)
{
  g_autoptr (Oracle) oracle = oracle_new (json);
  g_assert_cmpuint (findings->n_lifts, ==, oracle->lifts->len);
  gboolean fails = FALSE, unknown = FALSE;
  for (guint i = 0; i < oracle->lifts->len; i++)
    {
      const OracleLift *lift = &g_array_index (oracle->lifts, OracleLift, i);
      JudgeLift at = {
        name, json, scene, tally, i, lift, &scene->components[lift->component_index].bodies[0]
      };
      g_assert_cmpuint (findings->lifts[i].lift, ==, i);
      judge_lift (&at, &findings->lifts[i]);
      fails |= findings->lifts[i].verdict == TRN_VERDICT_FAIL;
      unknown |= findings->lifts[i].verdict == TRN_VERDICT_UNKNOWN;
    }
  g_assert_cmpint (findings->verdict, ==,
                   fails     ? TRN_VERDICT_FAIL
                   : unknown ? TRN_VERDICT_UNKNOWN
                             : TRN_VERDICT_PASS);
}
