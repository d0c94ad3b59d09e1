#include "plan-judge.h"

#include <string.h>

#include "judge-case.h"
#include "tolerances.h"
#include "triangle.h"

#define ROUNDING_M 1e-9 /* of coordinates of some hundred metres, many times over */

void
case_fails (const Case *c, const char *where, const char *condition, const char *format, ...)
{
  va_list args;
  va_start (args, format);
  g_autofree char *text = g_strdup_vprintf (format, args);
  va_end (args);
  const TrnFinding *f = c->finding;
  g_autofree char *values
      = f == NULL ? g_strdup ("")
                  : g_strdup_printf ("lower %.12g upper %.12g certified to %g required %g allowance"
                                     " %g verdict %d state %d time %.12g progress %.12g",
                                     f->lower_m, f->upper_m, f->certified_to_m, f->required_m,
                                     f->allowance_m, (int)f->verdict, (int)f->state, f->time_s,
                                     f->progress);
  g_error ("%s: plan %s, lift %u, move %d, obstacle %s: %s: %s\n%s\n%s", where, c->at->name,
           c->at->lift_index, f != NULL ? f->move : (int)c->move,
           f != NULL && f->obstacle != NULL ? f->obstacle : "none", condition, text, values,
           c->at->json);
}

void
case_count (const Case *c, TallyKind kind)
{
  g_atomic_int_inc (&c->at->tally->of[kind]);
}

/* ---- one moment ---- */

double
case_surface (const Case *c, double s, double limit)
{
  TrnPose pose = oracle_pose (c->at->lift, c->move, s);
  return trn_mesh_distance (c->at->load->bvh, &pose, c->body->bvh, &c->standing->pose, limit, NULL)
      .distance_m;
}

TrnInside
case_inside (const Case *c, double s)
{
  TrnPose pose = oracle_pose (c->at->lift, c->move, s);
  return trn_mesh_inside (c->at->load->mesh, c->at->load->check, &pose, c->body->mesh,
                          c->body->check, &c->standing->pose);
}

double
case_distance (const Case *c, double s)
{
  double d = case_surface (c, s, INFINITY);
  return d > TOUCH_M && case_inside (c, s) == TRN_INSIDE_YES ? 0 : d;
}

static const OracleMove *
oracle_move (const Case *c)
{
  return &g_array_index (c->at->lift->moves, OracleMove, c->move);
}

double
case_time (const Case *c, double s)
{
  return oracle_move (c)->begins_s + s * oracle_move (c)->seconds;
}

double
case_progress (const Case *c, double time_s)
{
  double seconds = oracle_move (c)->seconds;
  double s = seconds > 0 ? (time_s - oracle_move (c)->begins_s) / seconds : 0;
  return s < 1e-9 ? 0 : s > 1 - 1e-9 ? 1 : s;
}

/* A move without duration is seated as a whole or not at all. */
gboolean
case_seated_part (const Case *c, TrnInterval *s)
{
  if (!c->finding->has_seated)
    return FALSE;
  *s = (TrnInterval){ case_progress (c, c->finding->seated_s.lo),
                      case_progress (c, c->finding->seated_s.hi) };
  if (oracle_move (c)->seconds == 0)
    *s = (TrnInterval){ 0, 1 };
  HOLDS (c, s->lo < s->hi && (s->lo == 0 || s->hi == 1), "seated from %g to %g", s->lo, s->hi);
  return TRUE;
}

gboolean
case_free_part (const Case *c, TrnInterval *s)
{
  TrnInterval seated;
  *s = (TrnInterval){ 0, 1 };
  if (!case_seated_part (c, &seated))
    return TRUE;
  if (seated.lo > 0)
    {
      s->hi = seated.lo;
      return TRUE;
    }
  s->lo = seated.hi;
  if (seated.hi >= 1)
    return FALSE;
  /* Seated again at the end of the same move, which the finding does not show. */
  for (guint k = SAMPLES; k > 0 && c->seat_at_end; k--)
    {
      s->hi = s->lo + (1 - s->lo) * k / SAMPLES;
      if (case_distance (c, s->hi) >= c->until_end_m)
        break;
    }
  return TRUE;
}

gboolean
case_lists_contact (const Case *c, double s)
{
  const GArray *contacts = c->finding->contacts;
  double time_s = case_time (c, s);
  for (guint i = 0; contacts != NULL && i < contacts->len; i++)
    {
      TrnInterval span = g_array_index (contacts, TrnInterval, i);
      if (span.lo - 1e-9 <= time_s && time_s <= span.hi + 1e-9)
        return TRUE;
    }
  return FALSE;
}

/* ---- the clearance over the free part ---- */

/* Goes downhill from @s; the least distance found. */
static double
refine (const Case *c, TrnInterval part, double s, double d)
{
  for (double step = trn_interval_width (part) / SAMPLES; step > 1e-9; step /= 2)
    for (int side = -1; side <= 1; side += 2)
      {
        double next = CLAMP (s + side * step, part.lo, part.hi);
        double there = case_surface (c, next, d);
        if (there < d)
          {
            d = there;
            s = next;
          }
      }
  return d;
}

/* A sampled contact is in the list of contacts. */
static void
judge_touch (const Case *c, double s)
{
  HOLDS (c, c->finding->state == TRN_STATE_CONTACT && c->finding->verdict == TRN_VERDICT_FAIL,
         "contact at s = %.12g", s);
  HOLDS (c, case_lists_contact (c, s), "contact at s = %.12g, time %.12g, is not listed", s,
         case_time (c, s));
}

static void
judge_samples (const Case *c, TrnInterval part)
{
  const TrnFinding *f = c->finding;
  gboolean contact = f->state == TRN_STATE_CONTACT;
  double limit = contact ? 1e-9 : f->upper_m + fmax (0.02, 0.05 * f->upper_m);
  double least = limit, at = part.lo;
  /* What is far off needs no great care. */
  guint n = f->lower_m > 2 * f->required_m + 0.5 ? SAMPLES / 5 : SAMPLES;
  gboolean still
      = strcmp (json_object_get_string_member (oracle_move (c)->move, "do"), "wait") == 0;
  for (guint k = 0; k <= (still ? 0 : n); k++)
    {
      double s = part.lo + trn_interval_width (part) * k / n, d = case_surface (c, s, limit);
      if (d <= TOUCH_M || (k % 20 == 0 && case_inside (c, s) == TRN_INSIDE_YES))
        judge_touch (c, s);
      if (d < least)
        {
          least = d;
          at = s;
        }
    }
  if (contact)
    return;
  double s = CLAMP (f->progress, part.lo, part.hi);
  least = fmin (refine (c, part, at, least), refine (c, part, s, case_surface (c, s, INFINITY)));
  HOLDS (c, least >= f->lower_m - ROUNDING_M, "sampled %.12g below the bound", least);
}

static double
point_from_mesh (TrnVec3 site, const TrnMesh *mesh, const TrnPose *pose)
{
  TrnVec3 p = trn_pose_apply_inverse (pose, site), on_a, on_b;
  const TrnVec3 point[3] = { p, p, p };
  double least = INFINITY;
  for (guint32 i = 0; i < mesh->n_triangles; i++)
    {
      TrnVec3 corners[3];
      trn_mesh_corners (mesh, i, corners);
      least = fmin (least, trn_triangle_distance (point, corners, &on_a, &on_b));
    }
  return least;
}

/* The upper bound is attained at its time, between its two points. */
static void
judge_place (const Case *c)
{
  const TrnFinding *f = c->finding;
  TrnPose pose = oracle_pose (c->at->lift, c->move, f->progress);
  HOLDS (c, f->progress >= 0 && f->progress <= 1, "%s", "progress");
  HOLDS (c, fabs (f->time_s - case_time (c, f->progress)) < 1e-9, "%s", "time");
  HOLDS (c, f->has_points, "%s", "no points");
  double apart = trn_vec3_distance (f->point_on_body, f->point_on_obstacle);
  double of_load = point_from_mesh (f->point_on_body, c->at->load->mesh, &pose);
  double of_body = point_from_mesh (f->point_on_obstacle, c->body->mesh, &c->standing->pose);
  HOLDS (c, of_load < 1e-6 && of_body < 1e-6, "points %g and %g off the surfaces", of_load,
         of_body);
  double d = case_surface (c, f->progress, INFINITY);
  if (f->state != TRN_STATE_CONTACT)
    {
      HOLDS (c, fabs (apart - f->upper_m) < ROUNDING_M, "points %.12g apart", apart);
      HOLDS (c, d <= f->upper_m + ROUNDING_M, "distance at that time %.12g", d);
    }
  else if (f->inside != TRN_INSIDE_YES)
    {
      HOLDS (c, apart <= TRN_CONTACT_M + ROUNDING_M, "contact, points %.12g apart", apart);
      HOLDS (c, d <= TRN_CONTACT_M + ROUNDING_M, "contact, distance %.12g", d);
    }
}

/* An end of a span of contact within a move is near to the contact. */
static void
judge_contacts (const Case *c)
{
  const TrnFinding *f = c->finding;
  HOLDS (c, f->contacts != NULL && f->contacts->len > 0, "%s", "no list of contacts");
  HOLDS (c, f->lower_m == 0 && f->upper_m == 0, "%s", "contact without 0");
  double before = -INFINITY;
  TrnInterval part;
  gboolean has_part = case_free_part (c, &part);
  for (guint i = 0; i < f->contacts->len; i++)
    {
      TrnInterval span = g_array_index (f->contacts, TrnInterval, i);
      HOLDS (c, span.lo <= span.hi && span.lo >= before, "contacts out of order at %g", span.lo);
      before = span.hi;
      const double ends[2] = { case_progress (c, span.lo), case_progress (c, span.hi) };
      for (int k = 0; k < 2 && has_part; k++)
        {
          if (ends[k] <= part.lo + 1e-6 || ends[k] >= part.hi - 1e-6)
            continue;
          TrnPose here = oracle_pose (c->at->lift, c->move, ends[k]);
          TrnPose next = oracle_pose (c->at->lift, c->move, ends[k] + 1e-6);
          double speed = 0;
          for (guint corner = 0; corner < 8; corner++)
            {
              TrnVec3 p = trn_box_corner (&c->at->load->mesh->box, corner);
              double way = trn_vec3_distance (trn_pose_apply (&here, p), trn_pose_apply (&next, p));
              speed = fmax (speed, way / (1e-6 * oracle_move (c)->seconds));
            }
          double d = case_surface (c, ends[k], INFINITY);
          HOLDS (c, d <= fmax (TRN_SPAN_M, speed * TRN_SPAN_S) * 2 + TRN_CONTACT_M,
                 "contact ends at s = %.12g, %.9g away, at %g m/s", ends[k], d, speed);
        }
    }
}

/* The contract's rule. */
static void
judge_verdict (const Case *c)
{
  const TrnFinding *f = c->finding;
  double lower = f->lower_m - f->allowance_m, upper = f->upper_m - f->allowance_m;
  double certify = TRN_CERTIFY_M;
  HOLDS (c, f->lower_m >= 0 && f->lower_m <= f->upper_m, "%s", "bounds");
  HOLDS (c, f->upper_m - f->lower_m <= f->certified_to_m * (1 + 1e-12), "%s", "too wide");
  if (f->lower_m < 2 * f->required_m)
    HOLDS (c, f->certified_to_m <= certify, "%s", "certified to too little");
  HOLDS (c, f->certified_to_m <= fmax (certify, 0.05 * f->lower_m) * (1 + 1e-12), "%s",
         "certified to too little");
  if (f->certified_to_m > certify)
    case_count (c, TALLY_FAR);
  if (lower >= f->required_m)
    HOLDS (c, f->verdict == TRN_VERDICT_PASS && f->state == TRN_STATE_CLEAR, "%s", "meets");
  else
    HOLDS (c, f->verdict == TRN_VERDICT_FAIL && f->state == TRN_STATE_SHORT, "%s", "short");
  if (lower < f->required_m && upper >= f->required_m)
    HOLDS (c, f->upper_m - f->lower_m <= TRN_CONTACT_M * (1 + 1e-9), "%s", "open, yet a verdict");
  case_count (c, f->state == TRN_STATE_CLEAR ? TALLY_CLEAR : TALLY_SHORT);
}

static void
judge_clearance (const Case *c)
{
  const TrnFinding *f = c->finding;
  HOLDS (c, f->required_m == c->standing->required_m, "required %.17g", c->standing->required_m);
  TrnInterval part;
  gboolean has_part = case_free_part (c, &part);
  if (has_part)
    judge_samples (c, part);
  if (f->inside == TRN_INSIDE_YES)
    {
      HOLDS (c, f->state == TRN_STATE_CONTACT, "%s", "inside, yet no contact");
      case_count (c, TALLY_INSIDE);
    }
  if (f->inside == TRN_INSIDE_UNKNOWN)
    {
      HOLDS (c, !c->body->check->closed && !c->at->load->check->closed, "%s", "one is closed");
      case_count (c, TALLY_INSIDE_UNKNOWN);
    }
  if (f->state == TRN_STATE_CONTACT)
    {
      HOLDS (c, f->verdict == TRN_VERDICT_FAIL, "%s", "contact passes");
      judge_contacts (c);
      judge_place (c);
      case_count (c, TALLY_CONTACT);
    }
  else if (has_part)
    {
      judge_verdict (c);
      judge_place (c);
    }
  else
    HOLDS (c, f->state == TRN_STATE_SEATED && f->verdict == TRN_VERDICT_PASS, "%s", "all seated");
  if (f->has_seated)
    case_count (c, has_part ? TALLY_SEATED_PART : TALLY_SEATED);
}

/* ---- the allowance ---- */

static double
tolerance (const JudgeLift *at, const char *key)
{
  JsonObject *lift = at->lift->lift;
  if (!json_object_has_member (lift, "tolerance"))
    return 0;
  return json_object_get_double_member (json_object_get_object_member (lift, "tolerance"), key);
}

/* The way that a tilt and a heading error, in either order, take @w, a vector from the hook. */
static double
way_of (TrnVec3 w, double heading, double tilt, double turn)
{
  TrnRotation a = oracle_turn_level (heading, tilt), b = oracle_turn_z (turn);
  TrnRotation ab = trn_rotation_multiply (&a, &b), ba = trn_rotation_multiply (&b, &a);
  return fmax (trn_vec3_distance (trn_rotation_apply (&ab, w), w),
               trn_vec3_distance (trn_rotation_apply (&ba, w), w));
}

/* What tolerances were seen to do is allowed for, and not much more than could be. */
static void
judge_allowance (const Case *c)
{
  const JudgeLift *at = c->at;
  double p = tolerance (at, "position"), tilt = tolerance (at, "tilt_deg") * G_PI / 180;
  double turn = tolerance (at, "heading_deg") * G_PI / 180, seen = 0, r = 0;
  for (guint k = 0; k <= 4; k++)
    {
      TrnPose pose = oracle_pose (at->lift, c->move, 0.25 * k);
      for (guint32 i = 0; i < at->load->mesh->n_vertices; i++)
        {
          TrnVec3 from_hook = trn_vec3_sub (at->load->mesh->vertices[i], at->lift->hook);
          TrnVec3 w = trn_rotation_apply (&pose.turn, from_hook);
          r = fmax (r, trn_vec3_length (w));
          for (guint heading = 0; heading < 8 && tilt + turn > 0; heading++)
            seen = fmax (seen, way_of (w, 2 * G_PI * heading / 8, tilt, turn));
        }
    }
  double by_tilt = 2 * r * sin (tilt / 2), most = p + by_tilt + 2 * (r + by_tilt) * sin (turn / 2);
  double allowed = c->finding->allowance_m - c->standing->survey_m;
  HOLDS (c, allowed >= p + seen - 1e-12, "tolerances seen to do %.12g", p + seen);
  HOLDS (c, allowed <= most + 1e-9, "tolerances can do no more than %.12g", most);
}

/* ---- one lift ---- */

static void
count_move (const Case *c)
{
  JsonObject *move = oracle_move (c)->move;
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

static void
judge_body (const JudgeLift *at, const GArray *findings, CaseSeat *seat, gboolean first)
{
  guint n_moves = at->lift->moves->len;
  g_autofree Case *cases = g_new0 (Case, n_moves);
  for (guint i = 0; i < n_moves; i++)
    {
      Case *c = &cases[i];
      *c = (Case){ .at = at, .move = i, .standing = seat->standing, .body = seat->body };
      c->finding = find_clearance (findings, (int)i, seat->body->id);
      HOLDS (c, c->finding != NULL, "no finding about %s", seat->body->id);
      set_seats (c);
      judge_clearance (c);
      judge_allowance (c);
      if (first)
        count_move (c);
    }
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
  gboolean fails = FALSE;
  for (guint i = 0; i < oracle->lifts->len; i++)
    {
      const OracleLift *lift = &g_array_index (oracle->lifts, OracleLift, i);
      JudgeLift at = {
        name, json, scene, tally, i, lift, &scene->components[lift->component_index].bodies[0]
      };
      g_assert_cmpuint (findings->lifts[i].lift, ==, i);
      judge_lift (&at, &findings->lifts[i]);
      fails |= findings->lifts[i].verdict == TRN_VERDICT_FAIL;
    }
  g_assert_cmpint (findings->verdict, ==, fails ? TRN_VERDICT_FAIL : TRN_VERDICT_PASS);
}
