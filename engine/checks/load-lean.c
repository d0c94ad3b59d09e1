/* Two hooks. The lines are plumb, so a load on two hooks is free to swing about the line l through
 * what it hangs from, and does so until its centre of gravity is in the plumb plane through l,
 * below it. In the plane square to l that is drawn with the CoG e beside that plane and v below l
 * it leans by atan (e/v). With the plumb plane's level direction u, l going D along u and h up, L =
 * hypot (D, h), and the CoG a along u, k up and e aside, v = (a h − k D)/L, k D negative as long as
 * the CoG is lower. With v <= 0 it turns over. At one moment e and v are affine in the CoG and e/v,
 * v > 0, is extreme at corners of its box.
 *
 * What it hangs from are its points, as a single leg or a hinge has it, or places above or below
 * them, which may be known between two heights only (lean-pivot.c). What these may be beside as
 * well comes on top of e, or of r. v is the least with all that, and with the hooks as far out of
 * level as the plan says (lean-line.c). Where that has no bound, shares and clearances out of level
 * are not known, and v is as drawn.
 *
 * Shares. Where the line goes up by β the lean takes the CoG from v below it to v/cos lean below
 * it, and so e tan (lean/2) sin β along u, nearer to what is lower. Up in the load goes by sin β
 * cos β (1 − cos lean), half of the last at most, along u as well, and what pitches with the load
 * about its hook, h above, is that times h off. Both, and what points are beside, as a share of D
 * are what the share of a hook changes by. Here the line is as steep as it may be: what holds the
 * load may as well be as far above its points as away_m, and hooks out of level; D is the least
 * then.
 *
 * A tail trolley and a turning frame hold the tail from below on a broad seat or between two
 * cheeks: there it does not lean, and the gear has to bear what would make it. That is told as a
 * note.
 *
 * The tail alone. The CoG comes plumb below the tail point; r aside and b below it leans by atan
 * (r/b). r² is smooth where r is not.
 *
 * What points are beside, a of main and tail across and c along, moves a load on two hooks until
 * they are plumb: by c and a of main, and turned about it by the sum of both a over D. The
 * tolerance of position has to cover that.
 *
 * What the drawn attitude is off by has to be covered as in attitude.c: by the tilt tolerance,
 * which takes points of the load aside by up to m = 2 R sin (τ/2), R the farthest from the hook
 * point, and by what the lean of a lift that hangs free takes off the clearances of such moves
 * already (allowance.c). A lean about another axis, from which all is within ρ, takes them aside by
 * 2 ρ sin (lean/2), so the greatest lean that is covered is 2 asin (m/(2 ρ)). A point of the load
 * that is nearest to the line of the points at t of the way from main to tail is no farther from l
 * than from that place and that from the place of l plumb above or below it, (1 − t) p + t q away
 * for p and q above the points: beyond both hooks more than either. No less counts than away_m. */
#include "load-lean.h"

#include "attitude.h"
#include "hoist.h"
#include "lean-line.h"
#include "sources.h"
#include "tolerances.h"

#define ROUGH_M 1e-3
/* What rounding leaves of points that are drawn plumb. */
#define FLUSH_M 1e-9
/* Sine and cosine of less are not told apart from 0 and 1. */
#define SAME_DIRECTION 1e-9
/* Less a cosine of the angle up to which legs count as along or square to a line (lean-pivot.c). */
#define SAME_WAY 5e-5

/* ---- what it hangs from ---- */

/* Level and square to the plumb plane through both points, to within @loose; 0 where that plane may
 * turn past the load in the move. */
static TrnVec3
across (const TrnLiftCheck *check, guint move, double loose)
{
  const TrnLift *lift = check->run->lift;
  const TrnMotion *motion = &check->run->motions[move];
  TrnVec3 d = trn_rotation_apply (&motion->start.turn,
                                  trn_vec3_sub (lift->rigging.tail.point, lift->hook.place));
  double level = hypot (d.x, d.y);
  if (!(level > SAME_DIRECTION * trn_vec3_length (d)))
    return trn_vec3_make (0, 0, 0);
  TrnVec3 n = trn_vec3_make (-d.y / level, d.x / level, 0), u = motion->axis;
  gboolean keeps = !trn_motion_tilts (motion) || fabs (u.x * n.x + u.y * n.y) > 1 - loose;
  return keeps ? n : trn_vec3_make (0, 0, 0);
}

static gboolean
is_held_from_below (const TrnLiftCheck *check)
{
  const TrnGear *gear = trn_hoist_gear (check, &check->run->lift->rigging.tail);
  return gear != NULL
         && (gear->kind == TRN_GEAR_TAIL_TROLLEY || gear->kind == TRN_GEAR_TURNING_FRAME);
}

/* ---- what is covered ---- */

/* From the line through both points, or from the tail point. */
static double
distance_from_axis (const TrnLift *lift, TrnVec3 p, gboolean is_line)
{
  TrnVec3 tail = lift->rigging.tail.point, way = trn_vec3_sub (p, tail);
  TrnVec3 line = trn_vec3_sub (lift->hook.place, tail);
  double length = trn_vec3_length (line);
  if (!is_line || length == 0)
    return trn_vec3_length (way);
  return trn_vec3_length (trn_vec3_cross (way, line)) / length;
}

/* What it hangs from, plumb above or below the point of that line that is nearest to @p, or beside
 * it. The line between both may go on beyond them. */
static double
held_beside (const TrnLeanQuestion *q, TrnVec3 p)
{
  const TrnLift *lift = q->carried->check->run->lift;
  const TrnVec3 line = trn_vec3_sub (lift->rigging.tail.point, lift->hook.place);
  const double square = trn_vec3_dot (line, line);
  if (!q->carried->main_holds || !(square > 0))
    return q->away_m;
  const double t = trn_vec3_dot (trn_vec3_sub (p, lift->hook.place), line) / square;
  const TrnInterval high_m
      = trn_interval_add (trn_interval_scale (q->main_m, 1 - t), trn_interval_scale (q->tail_m, t));
  const double beside_m = (fabs (1 - t) + fabs (t)) * (q->slide_m + q->across_m);
  return fmax (q->away_m, fmax (-high_m.lo, high_m.hi) + beside_m);
}

/* How far points of the load are from its hook point and from what it leans about. */
typedef struct
{
  double reach_m, off_m;
} Farthest;

static void
add_point (const TrnLeanQuestion *q, TrnVec3 p, Farthest *farthest)
{
  const TrnLift *lift = q->carried->check->run->lift;
  farthest->reach_m = fmax (farthest->reach_m, trn_vec3_distance (p, lift->hook.place));
  farthest->off_m = fmax (farthest->off_m, distance_from_axis (lift, p, q->carried->main_holds)
                                               + held_beside (q, p));
}

/* A lug may be no part of the mesh. */
static void
add_hoist (const TrnLeanQuestion *q, const TrnHoist *hoist, Farthest *farthest)
{
  if (!hoist->given)
    return;
  add_point (q, hoist->point, farthest);
  for (guint i = 0; i < 2 && hoist->has_beam; i++)
    add_point (q, hoist->beam.between[i], farthest);
  for (guint i = 0; i < hoist->n_slings; i++)
    if (!hoist->slings[i].to_beam)
      add_point (q, hoist->slings[i].to, farthest);
}

/* The farthest of all points that the load hangs by too, but for its reach: what the tilt takes
 * aside counts by the mesh alone. */
static Farthest
find_farthest (const TrnLeanQuestion *q)
{
  const TrnLiftCheck *check = q->carried->check;
  const TrnLift *lift = check->run->lift;
  const TrnMesh *mesh = check->load->mesh;
  Farthest farthest = { 0, 0 };
  for (guint32 i = 0; i < mesh->n_vertices; i++)
    add_point (q, mesh->vertices[i], &farthest);
  const double reach_m = farthest.reach_m;
  if (q->carried->main_holds)
    add_hoist (q, &lift->rigging.main, &farthest);
  add_hoist (q, &lift->rigging.tail, &farthest);
  farthest.reach_m = reach_m;
  return farthest;
}

static double
covered_rad (const TrnLeanQuestion *q)
{
  const TrnLiftCheck *check = q->carried->check;
  const Farthest farthest = find_farthest (q);
  const TrnAllowance *allowance = &check->allowances[q->carried->move];
  double leans_m = allowance->lean_m + allowance->cog_box_m;
  double covered_m = trn_chord_m (farthest.reach_m, fabs (check->run->lift->tolerance_tilt_rad));
  if (isfinite (leans_m))
    covered_m += leans_m;
  double rad = 2 * asin (fmin (1, covered_m / (2 * farthest.off_m)));
  return fmin (rad, atan (q->tangent));
}

/* ---- what is asked ---- */

/* Not known where one is not. */
static double
greater (double a, double b)
{
  return isnan (a + b) ? NAN : fmax (a, b);
}

/* What hooks out of level turn it by; where that has no bound they say so themselves. */
static double
turn_of (const TrnCarried *carried)
{
  return carried->out_of_level_rad < G_PI / 2 ? carried->out_of_level_rad : 0;
}

/* How far what turns with the load then goes aside from plumb above its point. */
static double
turned_aside_m (const TrnCarried *carried)
{
  double most_m = 0;
  for (guint i = 0; i < carried->share.n_forms; i++)
    for (guint k = 0; k < 2; k++)
      most_m = fmax (most_m, fabs (carried->share.forms[i].aside_m[k]));
  return most_m;
}

static double
kept_of (const TrnLeanQuestion *q)
{
  if (!(q->slide_m > 0))
    return 1;
  const TrnExtremes near = trn_lean_find (*q, TRN_LEAN_ASK_NEAR);
  if (!near.complete) /* as told of the line itself */
    return 1;
  return near.least.lo > 2 * q->slide_m ? 1 - 2 * q->slide_m / near.least.lo : NAN;
}

static TrnLeanQuestion
ask_two_hooks (const TrnCarried *carried)
{
  const TrnLift *lift = carried->check->run->lift;
  const TrnHoist *main = &lift->rigging.main, *tail = &lift->rigging.tail;
  const TrnLiftCheck *check = carried->check;
  const guint move = carried->move;
  const TrnVec3 n = across (check, move, SAME_WAY);
  const TrnLeanPivot of_main = trn_lean_pivot (check, move, main, lift->hook.place, n),
                     of_tail = trn_lean_pivot (check, move, tail, tail->point, n);
  const double slide_m = greater (of_main.along_m, of_tail.along_m) + turned_aside_m (carried);
  TrnLeanQuestion question = { .carried = carried,
                               .main_m = { of_main.up_m, of_main.high_m },
                               .tail_m = { of_tail.up_m, of_tail.high_m },
                               .away_m = greater (of_main.most_m, of_tail.most_m),
                               .across_m = greater (of_main.across_m, of_tail.across_m),
                               .along_m = greater (of_main.along_m, of_tail.along_m),
                               .both_m = of_main.across_m + of_tail.across_m,
                               .pitch_m = of_main.pitch_m + of_tail.pitch_m,
                               .tangent = fmin (of_main.tangent, of_tail.tangent),
                               .turn_rad = turn_of (carried),
                               .slide_m = slide_m > FLUSH_M ? slide_m : 0 };
  question.kept = kept_of (&question);
  return question;
}

static TrnLeanQuestion
ask_alone (const TrnCarried *carried)
{
  const TrnHoist *tail = &carried->check->run->lift->rigging.tail;
  const TrnLeanPivot pivot
      = trn_lean_pivot_alone (carried->check, carried->move, tail, tail->point);
  return (TrnLeanQuestion){ .carried = carried,
                            .main_m = { pivot.up_m, pivot.high_m },
                            .tail_m = { pivot.up_m, pivot.high_m },
                            .away_m = pivot.most_m,
                            .across_m = pivot.across_m,
                            .along_m = pivot.along_m,
                            .tangent = pivot.tangent };
}

static TrnLeanQuestion
ask_of (const TrnCarried *carried)
{
  return carried->main_holds ? ask_two_hooks (carried) : ask_alone (carried);
}

/* Of the lean, from what is found of it. */
static double
tangent_of (const TrnLeanQuestion *q, const TrnExtremes *lean, const TrnExtremes *below)
{
  const double drawn = q->carried->main_holds ? fmax (lean->greatest.hi, -lean->least.lo)
                                              : sqrt (fmax (0, lean->greatest.hi));
  return drawn + q->across_m / below->least.lo;
}

/* ---- the finding ---- */

static void
set_time (TrnFinding *finding, const TrnCarried *carried, double s)
{
  finding->progress = s;
  finding->time_s = trn_lift_check_time (carried->check, carried->move, s);
}

static void
set_lean (TrnFinding *finding, const TrnLeanQuestion *q, double lean_rad, double s)
{
  finding->value = trn_degrees (lean_rad);
  finding->limit = trn_degrees (covered_rad (q));
  gboolean within = finding->value <= fmax (finding->limit, TRN_PLUMB_DEG);
  const TrnAllowance *allowance = &q->carried->check->allowances[q->carried->move];
  if (!within && isnan (allowance->lean_m + allowance->cog_box_m) && allowance->missing != NULL)
    {
      /* What covers it otherwise may be more. */
      finding->value = finding->limit = NAN;
      finding->missing = allowance->missing;
      return;
    }
  finding->margin = finding->limit - finding->value;
  if (within)
    finding->margin = fmax (0, finding->margin);
  finding->verdict = within ? TRN_VERDICT_PASS : TRN_VERDICT_FAIL;
  finding->state = within ? TRN_STATE_WITHIN : TRN_STATE_OUTSIDE;
  set_time (finding, q->carried, s);
}

static void
set_turns_over (TrnFinding *finding, const TrnLeanQuestion *q, const TrnExtremes *below)
{
  finding->verdict = TRN_VERDICT_FAIL;
  finding->state = TRN_STATE_TURNS_OVER;
  set_time (finding, q->carried, below->least_s);
  trn_finding_add_number (finding, "above-hooks", -below->least.lo, TRN_UNIT_M);
}

/* Where extremes are not complete though it was not cut short. */
static void
set_missing (TrnFinding *finding, const TrnLeanQuestion *q, const TrnExtremes *found)
{
  if (!isfinite (found->missing_s))
    return;
  set_time (finding, q->carried, found->missing_s);
  finding->missing = "in-line";
}

/* Where both points come plumb over each other in a tilt, but the plane that they are in stays: how
 * far beside it the CoG is does not change. */
static gboolean
find_beside_plane (const TrnCarried *carried, TrnExtremes *aside)
{
  const TrnLiftCheck *check = carried->check;
  const TrnMotion *motion = &check->run->motions[carried->move];
  const TrnVec3 n = across (check, carried->move, SAME_DIRECTION);
  if (trn_vec3_length (n) == 0)
    return FALSE;
  aside->least = aside->greatest = trn_interval_point (0);
  aside->least_s = aside->greatest_s = 0;
  for (guint i = 0; i < 8; i++)
    {
      const TrnVec3 way = trn_vec3_sub (carried->cog[i], check->run->lift->hook.place);
      const double m = trn_vec3_dot (trn_rotation_apply (&motion->start.turn, way), n);
      aside->least.lo = fmin (aside->least.lo, m - TRN_LEAN_WIDTH_M);
      aside->greatest.hi = fmax (aside->greatest.hi, m + TRN_LEAN_WIDTH_M);
    }
  return TRUE;
}

static void
judge_two_hooks (TrnFinding *finding, const TrnLeanQuestion *q)
{
  TrnExtremes aside = trn_lean_find (*q, TRN_LEAN_ASK_ASIDE);
  if (!aside.complete && is_held_from_below (q->carried->check)
      && find_beside_plane (q->carried, &aside))
    aside.complete = TRUE;
  if (!aside.complete)
    {
      set_missing (finding, q, &aside);
      return;
    }
  gboolean is_left = aside.greatest.hi >= -aside.least.lo;
  double aside_m = fmax (aside.greatest.hi, -aside.least.lo);
  if (is_held_from_below (q->carried->check))
    {
      finding->unit = TRN_UNIT_M;
      finding->value = aside_m;
      finding->verdict = aside_m > TRN_LEAN_WIDTH_M ? TRN_VERDICT_NOTE : TRN_VERDICT_PASS;
      finding->state = TRN_STATE_KNOWN;
      set_time (finding, q->carried, is_left ? aside.greatest_s : aside.least_s);
      return;
    }
  TrnExtremes below = trn_lean_find (*q, TRN_LEAN_ASK_BELOW), lean = below;
  if (below.complete && below.least.lo > 0)
    lean = trn_lean_find (*q, TRN_LEAN_ASK_LEAN);
  if (!lean.complete)
    set_missing (finding, q, &lean);
  else if (!(below.least.lo > 0))
    set_turns_over (finding, q, &below);
  else
    {
      is_left = lean.greatest.hi >= -lean.least.lo;
      set_lean (finding, q, atan (tangent_of (q, &lean, &below)),
                is_left ? lean.greatest_s : lean.least_s);
    }
  if (lean.complete)
    trn_finding_add_number (finding, "beside", aside_m, TRN_UNIT_M);
}

static void
judge_alone (TrnFinding *finding, const TrnLeanQuestion *q)
{
  TrnExtremes below = trn_lean_find (*q, TRN_LEAN_ASK_BELOW), lean = below;
  if (below.complete && below.least.lo > 0)
    lean = trn_lean_find (*q, TRN_LEAN_ASK_SQUARE);
  if (!lean.complete)
    set_missing (finding, q, &lean);
  else if (!(below.least.lo > 0))
    set_turns_over (finding, q, &below);
  else
    set_lean (finding, q, atan (tangent_of (q, &lean, &below)), lean.greatest_s);
}

/* To within ROUGH_M. */
static TrnInterval
range_over (TrnLeanQuestion question, TrnLeanAsk what, TrnInterval span)
{
  const TrnExtremes found = trn_lean_find_over (question, what, span, ROUGH_M);
  return found.complete ? (TrnInterval){ found.least.lo, found.greatest.hi } : trn_interval_none ();
}

TrnHungBetween
trn_load_lean_between (const TrnLiftCheck *check, guint move, TrnInterval span)
{
  TrnCarried carried = trn_carried_make (check, move);
  g_assert (carried.main_holds && carried.tail_holds && carried.has_cog);
  TrnLeanQuestion question = ask_two_hooks (&carried);
  TrnHungBetween hung
      = { .plumb_m = range_over (question, TRN_LEAN_ASK_PLUMB, span).lo,
          .height_m = trn_interval_size (range_over (question, TRN_LEAN_ASK_HEIGHT, span)),
          .tail = range_over (question, TRN_LEAN_ASK_SHARE, span),
          .up_m = question.away_m,
          .tangent = question.tangent };
  for (guint i = 0; i < 2; i++)
    {
      question.from_tail = i == 1;
      hung.way_m[i] = range_over (question, TRN_LEAN_ASK_WAY, span).lo;
      hung.above_m[i] = range_over (question, TRN_LEAN_ASK_ABOVE, span).lo;
    }
  question.main_m = question.tail_m = trn_interval_point (0);
  const double points_m = trn_interval_size (range_over (question, TRN_LEAN_ASK_HEIGHT, span));
  if (isnan (points_m) || (hung.up_m > 0 && points_m > hung.height_m))
    hung.height_m = points_m;
  return hung;
}

double
trn_load_lean_most_rad (const TrnLiftCheck *check, guint move)
{
  TrnCarried carried = trn_carried_make (check, move);
  if (!carried.tail_holds || !trn_attitude_hangs (check->run->lift, move)
      || (carried.main_holds && is_held_from_below (check)))
    return 0;
  if (!carried.has_cog)
    return NAN;
  const TrnLeanQuestion question = ask_of (&carried);
  const TrnExtremes below = trn_lean_find (question, TRN_LEAN_ASK_BELOW);
  if (!below.complete || !(below.least.lo > 0))
    return NAN;
  const TrnExtremes lean
      = trn_lean_find (question, carried.main_holds ? TRN_LEAN_ASK_LEAN : TRN_LEAN_ASK_SQUARE);
  if (!lean.complete)
    return NAN;
  const double tangent = tangent_of (&question, &lean, &below);
  /* Beyond that what holds it is another. */
  return tangent > question.tangent ? NAN : atan (tangent);
}

double
trn_load_lean_takes_m (const TrnLiftCheck *check, guint move)
{
  const double lean_rad = trn_load_lean_most_rad (check, move);
  if (!(lean_rad > 0))
    return lean_rad;
  const TrnCarried carried = trn_carried_make (check, move);
  g_assert (carried.main_holds && carried.tail_holds);
  const TrnLeanQuestion question = ask_two_hooks (&carried);
  return trn_chord_m (find_farthest (&question).off_m, lean_rad);
}

/* The main hook alone is asked where a trolley or a frame keeps the load from leaning. */
static double
beside_m (const TrnLeanQuestion *q, gboolean is_cradled)
{
  const TrnLiftCheck *check = q->carried->check;
  const TrnLift *lift = check->run->lift;
  const guint move = q->carried->move;
  return is_cradled ? trn_lean_pivot_beside (check, move, &lift->rigging.main, lift->hook.place,
                                             across (check, move, SAME_WAY), NULL)
                    : q->along_m;
}

/* What is beside moves the load until it is plumb, at most. */
static double
moved_m (const TrnLeanQuestion *q, gboolean is_cradled)
{
  const double off_m = beside_m (q, is_cradled), across_m = is_cradled ? off_m : q->both_m;
  if (!q->carried->main_holds || fmax (off_m, across_m) <= FLUSH_M)
    return off_m;
  const TrnExtremes level = trn_lean_find (*q, TRN_LEAN_ASK_LEVEL);
  const double turned = across_m / level.least.lo;
  return level.complete && level.least.lo > 0
             ? off_m + across_m + turned * find_farthest (q).reach_m
             : INFINITY;
}

/* From one hook to the other, level, at least; no value: not known. Where that is nothing out of
 * level the shares out of level are not known, and those as drawn count. */
static double
nearest_m (const TrnLeanQuestion *q)
{
  const TrnExtremes near = trn_lean_find (*q, TRN_LEAN_ASK_NEAR);
  const TrnExtremes level
      = near.complete && near.least.lo > 0 ? near : trn_lean_find (*q, TRN_LEAN_ASK_LEVEL);
  return level.complete && level.least.lo > 0 ? level.least.lo : NAN;
}

double
trn_load_lean_shares (const TrnLiftCheck *check, guint move)
{
  const TrnCarried carried = trn_carried_make (check, move);
  if (!carried.main_holds || !carried.tail_holds)
    return 0;
  const TrnLeanQuestion question = ask_two_hooks (&carried);
  const double leans_rad = trn_load_lean_most_rad (check, move),
               off_m = beside_m (&question, is_held_from_below (check));
  if (leans_rad == 0 && off_m <= FLUSH_M)
    return 0;
  const double level_m = nearest_m (&question);
  if (isnan (level_m) || leans_rad == 0)
    return off_m / level_m;
  const TrnExtremes aside = trn_lean_find (question, TRN_LEAN_ASK_ASIDE),
                    height = trn_lean_find (question, TRN_LEAN_ASK_HEIGHT);
  if (!aside.complete || !height.complete)
    return NAN;
  const TrnLift *lift = check->run->lift;
  const double apart_m = trn_vec3_distance (lift->hook.place, lift->rigging.tail.point),
               aside_m = fmax (aside.greatest.hi, -aside.least.lo) + question.across_m,
               height_m = fmax (height.greatest.hi, -height.least.lo) + question.away_m
                          + apart_m * sin (question.turn_rad),
               slope = height_m / hypot (height_m, level_m),
               pitched_m = question.pitch_m * (1 - cos (leans_rad)) / 2;
  return (aside_m * tan (leans_rad / 2) * slope + pitched_m + off_m) / level_m;
}

double
trn_load_lean_moved_m (const TrnLiftCheck *check, guint move)
{
  const TrnCarried carried = trn_carried_make (check, move);
  const TrnLeanQuestion question = ask_of (&carried);
  return moved_m (&question, carried.main_holds && is_held_from_below (check));
}

TrnLeanDoubt
trn_load_lean_doubt (const TrnLiftCheck *check, guint move, const TrnHoist **hoist)
{
  const TrnLift *lift = check->run->lift;
  const TrnHoist *main = &lift->rigging.main, *tail = &lift->rigging.tail;
  const TrnCarried carried = trn_carried_make (check, move);
  const TrnVec3 n = across (check, move, SAME_WAY);
  TrnLeanDoubt doubt = { .why = NULL };
  *hoist = main;
  if (carried.main_holds && is_held_from_below (check))
    {
      trn_lean_pivot_beside (check, move, main, lift->hook.place, n, &doubt);
      return doubt;
    }
  if (carried.main_holds)
    doubt = trn_lean_pivot (check, move, main, lift->hook.place, n).doubt;
  if (doubt.why != NULL)
    return doubt;
  *hoist = tail;
  return carried.main_holds ? trn_lean_pivot (check, move, tail, tail->point, n).doubt
                            : trn_lean_pivot_alone (check, move, tail, tail->point).doubt;
}

TrnFinding
trn_load_lean_judge (const TrnLiftCheck *check, guint move)
{
  const TrnLift *lift = check->run->lift;
  TrnFinding finding = trn_lift_check_finding (check, TRN_CHECK_LOAD_SHARE, (int)move, NULL, NAN);
  TrnCarried carried = trn_carried_make (check, move);
  g_assert (carried.tail_holds);
  finding.body = trn_hoist_body (check, &lift->rigging.tail);
  finding.item = carried.main_holds ? "out-of-plane" : "tail-alone";
  finding.unit = TRN_UNIT_DEG;
  finding.source = TRN_SOURCE_PLAN;
  if (trn_progress_is_cancelled (check->options->progress))
    return finding;
  finding.missing = carried.has_cog ? NULL : "cog";
  if (finding.missing != NULL)
    return finding;
  const TrnLeanQuestion question = ask_of (&carried);
  const gboolean is_cradled = carried.main_holds && is_held_from_below (check);
  const gboolean is_known = !isnan (beside_m (&question, is_cradled));
  if (!is_known)
    finding.missing = "lean/beam";
  else if ((!is_cradled && isnan (question.kept))
           || !(moved_m (&question, is_cradled) <= check->run->slack.m + FLUSH_M))
    finding.missing = "lean/beside";
  else if (carried.main_holds)
    judge_two_hooks (&finding, &question);
  else
    judge_alone (&finding, &question);
  return finding;
}
