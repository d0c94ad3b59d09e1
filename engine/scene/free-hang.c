/* The leaned motion. In a move by one hook the load goes by site transforms T(s): translations, and
 * turns about plumb lines. Put before them, the lean gives T(s)·(leaned start): T(s) takes the hook
 * the drawn way, and since a turn about a plumb line leaves plumb what is plumb, the load is in
 * equilibrium all the way. A motion is a start and a pivot that goes along a path; so the start is
 * exchanged, and the pivot for the point of the load that is then where the drawn pivot was.
 *
 * How far off. Let R be the drawn attitude at the start of a move, z up, and E(c) the attitude for
 * the centre of gravity c, which is reached from R by the least turn. q is the point of the load
 * that is at the hook in the drawn attitude, h(c) the one for c; by a single point both are the
 * hook point. A point p is at E(c)(p − h(c)) or, drawn, at R (p − q) from the hook. The difference
 * is (E(c) − R)(p − q) + E(c)(q − h(c)),  at most  2 |p − q| sin(λ/2) + |q − h(c)| where λ is the
 * angle of the turn from R to E(c), which hanging.h bounds over a box of c. Between two centres, c₀
 * where the plan has it, the difference is 2 |p − h(c₀)| sin(δ′/2) + |h(c) − h(c₀)| with δ′ the
 * angle of the turn from E(c₀) to E(c). Least turns from R form half of a sphere of unit
 * quaternions: the one that brings the direction at the angle θ from R⁻¹z, at the azimuth φ, to the
 * plumb line is at the polar angle θ/2 and at that azimuth. Twice the length there of a path on the
 * sphere of directions has the elements dθ and 2 sin(θ/2) dφ instead of dθ and sin θ dφ: at most
 * 1/cos(θ/2) as long. The shortest path between the two directions, of the length δ that hanging.h
 * bounds, stays in the cone about R⁻¹z that holds both (Λ, less than a right angle), so δ′ <= δ /
 * cos(Λ/2). |h(c) − h(c₀)|: 0 by a single point, and with three legs or more that stay taut. Else
 * let c be p along the plumb line of c₀ and d beside it. With the centre of gravity at c₀ moved by
 * p the hook is where it is for c₀, since all forces stay; S of hanging-lean.c is more than 1 there
 * as long as it stays below the lugs, and by no more than p its height below them is less. From
 * there to c the hook goes by at most 2 d/(S − 1) (hanging-lean.c): all taken at the greatest of
 * the box. The distance is told from the lift's hook point a, |p − x| <= |p − a| + |a − x|; the
 * second part joins what is told as a length.
 *
 * Below a beam. Where slings keep load and beam parallel: parallel-hang.h. Else what is taken for
 * the point that it leans about is no higher than what it does turn about, which is no higher than
 * the hook, H above that point (beam-hang.c); along the beam and across it that may be two. With c
 * off beside it and d below, the true up is between (0, 0, 1) and (c₁/d, c₂/d, 1): no farther from
 * E(c) than the lean α itself, and for all of the box at most α + δ/cos(α + δ), since to drop a
 * part makes small angles longer by that at most. What it turns about, h above the point, keeps its
 * place, and takes the point h sin λ' aside, tan λ' = c/(d + h): no more than c, nor than the chord
 * of H. Both join the reach.
 *
 * Moves that a tilt or a tail hook guides begin or end with what is left of the lean of a move
 * beside them, so they get the greater reach of both. */
#include "free-hang.h"

#include <string.h>

#include "beam-hang.h"
#include "hang-warnings.h"
#include "hanging.h"

#define LEAN_WIDTH_RAD 1e-4
#define PLAY_WIDTH_M 1e-3
#define SAME_PLACE_M 1e-9 /* rounding */
#define ROUNDING 1e-9     /* as a share of a length */
#define SAME_HOOK 1e-9    /* as a share of its height above the CoG (hanging-lean.c) */

typedef struct
{
  const TrnPlan *plan;
  const TrnLiftRun *run;
  TrnDiags *diags;
  TrnVec3 cog;
  TrnBox box;
  TrnHangLeg legs[TRN_HANG_LEGS_MAX];
  guint n_legs;         /* 0: from the hook point */
  struct _Known *known; /* of the move before; NULL: nothing is kept */
} Hang;

/* The attitude in one move, and where the hook is in the load. */
typedef struct
{
  TrnRotation turn;
  TrnVec3 hook, drawn_hook;
  double lean_rad;
  gboolean is_stiff;   /* three legs or more are taut over the box of the centre of gravity, … */
  double hook_play_m;  /* … over which the hook goes so far; NAN: no bound */
  gboolean is_by_beam; /* the two are below a beam, not where the hook is, … */
  double hook_above_m; /* … which is this much above; 0 where no beam holds it */
  TrnBeamPlay play;
  TrnParallelHang parallel; /* is_there: slings keep load and beam parallel, … */
  TrnParallelRest rest;     /* … as this says */
} Attitude;

/* What was found of a move: moves that begin in the same attitude as drawn hang alike. */
typedef struct _Known
{
  gboolean is_there, hangs;
  TrnRotation drawn;
  Attitude attitude;
  TrnMoveHang from_drawn, from_leaned; /* where it does not turn over */
} Known;

/* ---- which moves ---- */

static gboolean
holds_in (const TrnHoist *hoist, guint move)
{
  return hoist->given && move >= hoist->first_move && move <= hoist->last_move;
}

static gboolean
hangs_on_hook (const TrnPlan *plan, const TrnHoist *hoist)
{
  if (!hoist->given || hoist->gear >= plan->n_gear)
    return TRUE;
  const TrnGearKind kind = plan->gear[hoist->gear].kind;
  return kind == TRN_GEAR_GANTRY || kind == TRN_GEAR_CRANE;
}

static gboolean
is_by_one_hook (const TrnPlan *plan, const TrnLift *lift, guint move)
{
  const TrnHoist *main_hoist = &lift->rigging.main;
  if (lift->moves[move].kind == TRN_MOVE_TILT || holds_in (&lift->rigging.tail, move))
    return FALSE;
  return (!main_hoist->given || holds_in (main_hoist, move)) && hangs_on_hook (plan, main_hoist);
}

/* Whether the load leaves a seat in that move, or reaches one: the first at that end that is no
 * wait, and the waits before or after it. */
static gboolean
touches_seat (const TrnLift *lift, guint move)
{
  gboolean at_start = FALSE, at_end = FALSE, moved_before = FALSE, moves_after = FALSE;
  for (guint i = 0; i < lift->n_seats; i++)
    {
      at_start = at_start || lift->seats[i].at_start;
      at_end = at_end || lift->seats[i].at_end;
    }
  for (guint i = 0; i < lift->n_moves; i++)
    if (lift->moves[i].kind != TRN_MOVE_WAIT)
      {
        moved_before = moved_before || i < move;
        moves_after = moves_after || i > move;
      }
  return (at_start && !moved_before) || (at_end && !moves_after);
}

/* ---- the attitude ---- */

/* Where no leg has a length, but the hook its height, legs are as long as they are drawn. */
static gboolean
are_as_drawn (const Hang *hang)
{
  const TrnHoist *hoist = &hang->run->lift->rigging.main;
  gboolean has_length = FALSE;
  for (guint i = 0; i < hoist->n_slings; i++)
    has_length
        = has_length || (trn_is_leg (&hoist->slings[i]) && isfinite (hoist->slings[i].length_m));
  return !has_length && trn_vec3_is_finite (hang->run->drawn_hook);
}

/* How many legs of known length go from the hook to points; @without gets one of unknown length. */
static guint
list_legs (Hang *hang, const TrnSling **without)
{
  const TrnHoist *hoist = &hang->run->lift->rigging.main;
  const gboolean as_drawn = are_as_drawn (hang);
  guint n = 0;
  for (guint i = 0; i < hoist->n_slings; i++)
    {
      const TrnSling *sling = &hoist->slings[i];
      if (!trn_is_leg (sling))
        continue;
      const double length_m
          = as_drawn ? trn_vec3_distance (hang->run->drawn_hook, sling->to) : sling->length_m;
      if (as_drawn && length_m == 0)
        continue;
      if (isnan (length_m))
        *without = sling;
      else if (n++ < TRN_HANG_LEGS_MAX)
        hang->legs[n - 1] = (TrnHangLeg){ sling->to, length_m };
    }
  return n;
}

/* What is missing, or NULL. */
static const char *
find_legs (Hang *hang)
{
  const TrnSling *without = NULL, *sling, *other;
  const guint n = list_legs (hang, &without);
  if (n > 0 && without != NULL)
    return TRN_HANG_LENGTH;
  if (n > TRN_HANG_LEGS_MAX)
    return TRN_HANG_LEGS;
  if (trn_short_legs_find (&hang->run->lift->rigging.main, &sling, &other))
    return TRN_HANG_SHORT;
  hang->n_legs = n;
  return NULL;
}

/* Whether three legs or more stay taut, with the hook where it is in the load, over the box of the
 * centre of gravity. */
static gboolean
is_stiff (const Hang *hang, const TrnRotation *drawn, const TrnHang *nominal)
{
  gboolean stays = nominal->n_taut >= 3;
  for (guint i = 0; i < 8 && stays; i++)
    {
      TrnHang corner;
      stays = trn_hang_from_legs (hang->legs, hang->n_legs, trn_box_corner (&hang->box, i), drawn,
                                  &corner)
              && corner.n_taut >= 3
              && trn_vec3_distance (corner.hook, nominal->hook)
                     <= SAME_HOOK * corner.hook_above_cog_m;
    }
  return stays;
}

/* How far the hook goes in the load over the box of the centre of gravity: nowhere for a CoG that
 * is plumb above or below the other, so that only what is across counts (hanging-lean.c), which for
 * a small box is bound enough. */
static double
hook_play (const Hang *hang, const TrnRotation *drawn, const TrnHang *nominal)
{
  const TrnVec3 up = trn_rotation_apply_inverse (&nominal->site_from_load, trn_vec3_make (0, 0, 1));
  double along_m = 0, across_m = 0;
  for (guint i = 0; i < 8; i++)
    {
      const TrnVec3 by = trn_vec3_sub (trn_box_corner (&hang->box, i), hang->cog);
      const double along = trn_vec3_dot (by, up);
      along_m = fmax (along_m, fabs (along));
      across_m = fmax (across_m, trn_vec3_length (trn_vec3_add_scaled (by, up, -along)));
    }
  if (across_m == 0 && along_m == 0)
    return 0;
  if (is_stiff (hang, drawn, nominal))
    return 2 * SAME_HOOK * nominal->hook_above_cog_m;
  const double lugs_above_m = nominal->hook_above_cog_m - nominal->cog_below_lugs_m;
  const double excess = (nominal->cog_below_lugs_m - along_m) / lugs_above_m;
  const double by_centre_m
      = nominal->is_lowest && excess > 0 ? 2 * across_m / excess * (1 + ROUNDING) : INFINITY;
  if (by_centre_m <= PLAY_WIDTH_M)
    return by_centre_m;
  const double by_search_m = trn_hang_play_bound_from_legs (hang->legs, hang->n_legs, &hang->box,
                                                            up, nominal->hook, PLAY_WIDTH_M);
  const double play_m = fmin (by_centre_m, by_search_m); /* NAN: not known */
  return isfinite (play_m) ? play_m : NAN;
}

/* Below a beam the load leans about what beam-hang.c says, which comes plumb below the hook. */
static void
find_point (const Hang *hang, const TrnPose *drawn, double above_m, Attitude *attitude)
{
  const TrnLift *lift = hang->run->lift;
  TrnVec3 point;
  if (!trn_beam_hang_point (&lift->rigging.main, lift->hook.place, above_m, &drawn->turn, hang->cog,
                            &point))
    return;
  TrnVec3 by = trn_rotation_apply (&drawn->turn, trn_vec3_sub (point, lift->hook.place));
  attitude->hook_above_m = isfinite (above_m) ? above_m - by.z : INFINITY;
  if (trn_vec3_distance (point, lift->hook.place) <= SAME_PLACE_M)
    return;
  attitude->hook = point;
  attitude->is_by_beam = TRUE;
  by.x = by.y = 0;
  attitude->drawn_hook
      = trn_vec3_add (lift->hook.place, trn_rotation_apply_inverse (&drawn->turn, by));
}

/* FALSE where it does not hang so. */
static gboolean
find_parallel (const Hang *hang, const TrnPose *drawn, double above_m, Attitude *attitude)
{
  const TrnLift *lift = hang->run->lift;
  const TrnVec3 up = trn_rotation_apply_inverse (&drawn->turn, trn_vec3_make (0, 0, above_m));
  attitude->parallel
      = trn_parallel_hang (&lift->rigging.main, lift->hook.place, above_m, &drawn->turn,
                           hang->plan->components[lift->component].mass_kg, &hang->box);
  if (!attitude->parallel.is_there)
    return FALSE;
  attitude->rest = trn_parallel_hang_rest (&attitude->parallel, hang->cog);
  attitude->turn = trn_rotation_multiply (&drawn->turn, &attitude->rest.drawn_from_now);
  attitude->hook = attitude->rest.hook;
  attitude->drawn_hook = trn_vec3_add (lift->hook.place, up);
  return TRUE;
}

static gboolean
find_attitude (const Hang *hang, const TrnPose *drawn, Attitude *attitude)
{
  const TrnLift *lift = hang->run->lift;
  *attitude = (Attitude){ .hook = lift->hook.place, .drawn_hook = lift->hook.place };
  const double above_m = trn_interval_middle (hang->run->rig->hook_above_m[0]);
  if (hang->n_legs == 0 && lift->rigging.main.has_beam)
    attitude->play
        = trn_beam_hang_play (&lift->rigging.main, lift->hook.place, above_m, &drawn->turn,
                              hang->plan->components[lift->component].mass_kg);
  if (hang->n_legs == 0 && !find_parallel (hang, drawn, above_m, attitude))
    {
      find_point (hang, drawn, above_m, attitude);
      if (!trn_hang_from_point (attitude->hook, hang->cog, &drawn->turn, &attitude->turn))
        return FALSE;
    }
  else if (hang->n_legs > 0)
    {
      TrnHang found;
      if (!trn_hang_from_legs (hang->legs, hang->n_legs, hang->cog, &drawn->turn, &found))
        return FALSE;
      const TrnVec3 up = trn_rotation_apply_inverse (&drawn->turn, trn_vec3_make (0, 0, above_m));
      attitude->turn = found.site_from_load;
      attitude->hook = found.hook;
      attitude->drawn_hook = trn_vec3_add (lift->hook.place, up);
      attitude->is_stiff = is_stiff (hang, &drawn->turn, &found);
      attitude->hook_play_m = hook_play (hang, &drawn->turn, &found);
    }
  attitude->lean_rad = trn_rotation_angle_between (&drawn->turn, &attitude->turn);
  return TRUE;
}

/* ---- how far off ---- */

/* Proven for all centres of gravity of the box; G_PI: no bound. */
static double
lean_bound (const Hang *hang, TrnVec3 hook, TrnVec3 up)
{
  if (hang->n_legs == 0)
    return trn_hang_lean_bound_from_point (hook, &hang->box, up);
  return trn_hang_lean_bound_from_legs (hang->legs, hang->n_legs, &hang->box, up, LEAN_WIDTH_RAD);
}

/* From the leaned attitude to any between those of the box and the drawn one. */
static double
below_beam (double further, double lean)
{
  return lean == 0 ? further : lean + further / cos (fmin (lean + further, 0.499 * G_PI));
}

static double
greater (double a, double b)
{
  return isnan (a) || isnan (b) ? NAN : fmax (a, b);
}

/* Likewise of a load that is kept parallel to its beam. */
static void
measure_parallel (const Hang *hang, const Attitude *attitude, TrnMoveHang *from_drawn,
                  TrnMoveHang *from_leaned)
{
  const TrnParallelHang *parallel = &attitude->parallel;
  const TrnParallelRest *rest = &attitude->rest;
  const TrnVec3 a = hang->run->lift->hook.place;
  *from_drawn = (TrnMoveHang){ .off_rad = attitude->lean_rad, .play = attitude->play };
  from_drawn->off_m = parallel->beside_m + trn_chord_m (parallel->below_m, rest->pitch_rad)
                      + trn_chord_m (trn_vec3_distance (a, parallel->middle), attitude->lean_rad);
  trn_parallel_hang_off (parallel, &hang->box, 0, 0, a, &from_drawn->reach_rad,
                         &from_drawn->reach_m);
  from_drawn->reach_rad = greater (from_drawn->reach_rad, from_drawn->off_rad);
  from_drawn->reach_m = greater (parallel->beside_m + from_drawn->reach_m, from_drawn->off_m);
  *from_leaned = (TrnMoveHang){ .leans = TRUE, .parallel = *parallel };
  trn_parallel_hang_off (parallel, &hang->box, rest->pitch_rad, rest->roll_rad, a,
                         &from_leaned->reach_rad, &from_leaned->reach_m);
  from_drawn->unbounded = from_leaned->unbounded = trn_beam_hang_unbounded (parallel->aside_m.hi);
}

/* From the drawn attitude, and from the leaned one. */
static void
measure (const Hang *hang, const TrnPose *drawn, const Attitude *attitude, TrnMoveHang *from_drawn,
         TrnMoveHang *from_leaned)
{
  if (attitude->parallel.is_there)
    {
      measure_parallel (hang, attitude, from_drawn, from_leaned);
      return;
    }
  const TrnVec3 a = hang->run->lift->hook.place, up = { 0, 0, 1 },
                drawn_up = trn_rotation_apply_inverse (&drawn->turn, up);
  const double lean = attitude->lean_rad;
  TrnBeamPlay found = attitude->play, *play = &found;
  play->wider_m = trn_beam_hang_wider (play, &hang->run->lift->rigging.main.beam, &hang->box,
                                       attitude->hook, drawn_up);
  Hang wide = *hang;
  wide.box = trn_box_grow (hang->box, play->wider_m);
  const double widest = lean_bound (&wide, attitude->hook, drawn_up);
  const double further
      = lean_bound (&wide, attitude->hook, trn_rotation_apply_inverse (&attitude->turn, up));
  const gboolean is_known = widest < G_PI / 2 && further < G_PI / 2 && isfinite (play->wider_m);
  const gboolean is_exact = is_known && trn_vec3_length (trn_box_size (&wide.box)) == 0;
  const double less_rad = attitude->hook_above_m == 0 ? 0 : lean;
  const double aside_m = play->sinks_m + play->skew_m
                         + trn_beam_hang_aside (&wide.box, attitude->hook, attitude->hook_above_m,
                                                &drawn->turn, fmax (widest, lean));
  const double shift_m = trn_vec3_distance (attitude->drawn_hook, attitude->hook);
  const double drawn_m = trn_vec3_distance (attitude->drawn_hook, a);
  *from_drawn = (TrnMoveHang){ .off_rad = lean, .play = *play };
  from_drawn->off_m = aside_m + shift_m + trn_chord_m (drawn_m, lean);
  from_drawn->reach_rad = is_known ? (is_exact ? lean : fmax (widest, lean)) + play->skew_rad : NAN;
  from_drawn->reach_m = aside_m + shift_m + (is_exact ? 0 : attitude->hook_play_m)
                        + trn_chord_m (drawn_m, from_drawn->reach_rad);
  *from_leaned = (TrnMoveHang){
    .leans = TRUE, .below_beam_rad = less_rad, .below_beam_m = aside_m, .play = *play
  };
  from_leaned->reach_rad
      = !is_known ? NAN
                  : play->skew_rad
                        + (is_exact ? less_rad / cos (lean / 2)
                                    : below_beam (further, less_rad) / cos (widest / 2));
  from_drawn->unbounded = from_leaned->unbounded = trn_beam_hang_unbounded (play->wider_m);
  from_leaned->reach_m
      = (is_exact ? 0 : attitude->hook_play_m) + aside_m
        + trn_chord_m (trn_vec3_distance (attitude->hook, a), from_leaned->reach_rad);
}

static const Known *
find_hang (const Hang *hang, const TrnPose *drawn)
{
  Known *known = hang->known;
  if (known->is_there && memcmp (&known->drawn, &drawn->turn, sizeof known->drawn) == 0)
    return known;
  *known = (Known){ .is_there = TRUE, .drawn = drawn->turn };
  known->hangs = find_attitude (hang, drawn, &known->attitude);
  if (known->hangs)
    measure (hang, drawn, &known->attitude, &known->from_drawn, &known->from_leaned);
  return known;
}

/* The site's place of the hook stays, and so does the way of the pivot. */
static void
lean_motion (TrnMotion *motion, const Attitude *attitude)
{
  const TrnVec3 hook = trn_pose_apply (&motion->start, attitude->drawn_hook);
  motion->start.turn = attitude->turn;
  motion->start.position
      = trn_vec3_sub (hook, trn_rotation_apply (&attitude->turn, attitude->hook));
  motion->pivot = trn_pose_apply_inverse (&motion->start, motion->from);
}

/* Nothing is known then of how far off the load is. */
static void
leave_unknown (TrnMoveHang *move, const char *missing)
{
  move->missing = missing;
  move->reach_rad = move->reach_m = NAN;
}

/* @from_drawn gets what a move beside it is told. */
static void
hang_move (Hang *hang, TrnLiftRun *run, guint move, TrnMoveHang *from_drawn, TrnRigHung *hung)
{
  TrnMotion *motion = &run->motions[move];
  const Known *known = find_hang (hang, &motion->start);
  const Attitude *attitude = &known->attitude;
  if (!known->hangs || attitude->lean_rad > G_PI / 2)
    {
      leave_unknown (&run->hangs[move], known->hangs ? TRN_HANG_TURNS_OVER : TRN_HANG_HELD);
      run->hangs[move].lean_rad = known->hangs ? attitude->lean_rad : 0;
      return;
    }
  *from_drawn = known->from_drawn;
  const gboolean leans = !touches_seat (run->lift, move);
  run->hangs[move] = leans ? known->from_leaned : *from_drawn;
  run->hangs[move].one_hook = TRUE;
  run->hangs[move].is_stiff = attitude->is_stiff;
  run->hangs[move].lean_rad = attitude->lean_rad;
  run->hangs[move].pivot = attitude->hook;
  if (!leans)
    {
      /* What a seat holds as drawn at first leans in the end. Where all moves are waits it never
       * leaves its seat. */
      TrnMotion leaned = *motion;
      lean_motion (&leaned, attitude);
      if (move + 1 == run->lift->n_moves && run->lift->moves[move].kind != TRN_MOVE_WAIT
          && !trn_programme_ends_on_seat (run->lift))
        run->end = trn_motion_pose (&leaned, 1);
      return;
    }
  lean_motion (motion, attitude);
  if (hang->n_legs > 0)
    hung->hook = attitude->hook;
  else if (attitude->parallel.is_there)
    *hung = (TrnRigHung){ attitude->hook, { attitude->rest.beam[0], attitude->rest.beam[1] } };
  else if (attitude->is_by_beam)
    hung->hook = trn_vec3_add (
        attitude->hook,
        trn_rotation_apply_inverse (&attitude->turn, trn_vec3_make (0, 0, attitude->hook_above_m)));
}

/* A guided move between others. */
static void
take_over (TrnMoveHang *guided, const TrnMoveHang *beside)
{
  if (beside->missing != NULL)
    guided->missing = TRN_HANG_BESIDE;
  if (guided->unbounded == NULL)
    guided->unbounded = beside->unbounded;
  guided->off_rad = fmax (guided->off_rad, beside->off_rad);
  guided->off_m = fmax (guided->off_m, beside->off_m);
  guided->reach_rad = greater (guided->reach_rad, beside->reach_rad);
  guided->reach_m = greater (guided->reach_m, beside->reach_m);
}

static double
greatest_lean (const TrnLiftRun *run)
{
  double lean_rad = 0;
  for (guint i = 0; i < run->lift->n_moves; i++)
    if (run->hangs[i].missing == NULL)
      lean_rad = fmax (lean_rad, run->hangs[i].lean_rad);
  return lean_rad;
}

/* Whether nobody knows how the load is left: on the hook, after a move in which that is missing. */
static gboolean
ends_unknown (const TrnLiftRun *run)
{
  gboolean is_missing = FALSE;
  for (guint i = 0; i < run->lift->n_moves; i++)
    is_missing = is_missing || run->hangs[i].missing != NULL;
  return is_missing && !trn_programme_ends_on_seat (run->lift);
}

/* Where something is missing it is so in all moves. */
static void
hang_moves (Hang *hang, TrnLiftRun *run, const char *missing)
{
  const guint n = run->lift->n_moves;
  g_autofree TrnMoveHang *from_drawn = g_new0 (TrnMoveHang, n);
  const TrnVec3 nowhere = { NAN, NAN, NAN };
  TrnRigHung *hung = g_new0 (TrnRigHung, n);
  for (guint i = 0; i < n; i++)
    {
      hung[i] = (TrnRigHung){ nowhere, { nowhere, nowhere } };
      if (run->hangs[i].one_hook && missing != NULL)
        leave_unknown (&run->hangs[i], missing);
      else if (run->hangs[i].one_hook)
        hang_move (hang, run, i, &from_drawn[i], &hung[i]);
      if (run->hangs[i].missing != NULL)
        leave_unknown (&from_drawn[i], run->hangs[i].missing);
    }
  trn_rig_take_hung (run->rig, hung);
  for (guint i = 0; i < n; i++)
    {
      if (run->hangs[i].one_hook)
        continue;
      if (i > 0)
        take_over (&run->hangs[i], &from_drawn[i - 1]);
      if (i + 1 < n)
        take_over (&run->hangs[i], &from_drawn[i + 1]);
      /* It begins where the one before ended. */
      if (i > 0 && run->hangs[i - 1].missing != NULL)
        leave_unknown (&run->hangs[i], TRN_HANG_BESIDE);
    }
  if (run->hangs[n - 1].leans)
    run->end = trn_motion_pose (&run->motions[n - 1], 1);
  run->ends_unknown = ends_unknown (run);
  trn_far_lean_warn (hang->plan, run->lift, greatest_lean (run), hang->diags);
}

static TrnVec3
find_drawn_hook (const TrnLiftRun *run)
{
  const TrnHoist *hoist = &run->lift->rigging.main;
  const double above_m = trn_interval_middle (run->rig->hook_above_m[0]);
  if (!hoist->given)
    return trn_vec3_make (NAN, NAN, NAN);
  const TrnRotation *turn = &run->motions[hoist->first_move].start.turn;
  const TrnVec3 up = trn_rotation_apply_inverse (turn, trn_vec3_make (0, 0, above_m));
  return trn_vec3_add (run->lift->hook.place, up);
}

static TrnBox
box_of (const TrnComponent *load, double wider_m)
{
  const TrnVec3 half = trn_vec3_add (load->cog_box, trn_vec3_make (wider_m, wider_m, wider_m));
  return (TrnBox){ trn_vec3_sub (load->cog, half), trn_vec3_add (load->cog, half) };
}

/* By how much it turns over where its centre of gravity may be no lower than what it leans about,
 * in the box that the plan gives it; else 0. */
static double
topples (const Hang *hang, const TrnLiftRun *run, guint move, const Attitude *attitude)
{
  const TrnRotation *drawn = &run->motions[move].start.turn;
  double lean_rad = 0;
  for (guint i = 0; i < 8 && hang->n_legs == 0; i++)
    {
      const TrnVec3 by = trn_vec3_sub (trn_box_corner (&hang->box, i), attitude->hook);
      const TrnVec3 site = trn_rotation_apply (drawn, by);
      if (site.z >= 0)
        lean_rad = fmax (lean_rad, atan2 (hypot (site.x, site.y), -site.z));
    }
  return lean_rad;
}

/* How a load that is taken to hang as drawn would hang in a move. */
static void
compare_move (const Hang *hang, TrnLiftRun *run, guint index, TrnMoveHang *move)
{
  const Known *known = find_hang (hang, &run->motions[index].start);
  if (!known->hangs)
    return;
  const TrnMoveHang *from_drawn = &known->from_drawn;
  const double turned_over_rad = topples (hang, run, index, &known->attitude);
  move->is_stiff = known->attitude.is_stiff;
  move->drawn_lean_rad = fmax (from_drawn->off_rad, turned_over_rad);
  move->drawn_shift_m = from_drawn->off_m;
  move->drawn_reach_rad = turned_over_rad > 0 ? move->drawn_lean_rad : from_drawn->reach_rad;
  move->drawn_reach_m = from_drawn->reach_m;
  move->unbounded = from_drawn->unbounded;
  move->play = from_drawn->play;
  move->drawn_hook_m = trn_vec3_distance (known->attitude.drawn_hook, run->lift->hook.place);
}

static void
compare_drawn (Hang *hang, TrnLiftRun *run)
{
  const TrnSling *without = NULL;
  const guint n = list_legs (hang, &without);
  const gboolean is_known
      = trn_vec3_is_finite (hang->cog) && (n == 0 || without == NULL) && n <= TRN_HANG_LEGS_MAX;
  hang->n_legs = is_known ? n : 0;
  hang->box = box_of (&hang->plan->components[run->lift->component], 0);
  for (guint i = 0; i < run->lift->n_moves; i++)
    {
      TrnMoveHang *move = &run->hangs[i];
      if (!move->one_hook)
        continue;
      move->drawn_lean_rad = move->drawn_shift_m = move->drawn_reach_rad = NAN;
      move->drawn_reach_m = move->drawn_hook_m = NAN;
      if (is_known)
        compare_move (hang, run, i, move);
    }
}

void
trn_free_hang_play (const TrnPlan *plan, TrnLiftRun *run, TrnDiags *diags)
{
  const TrnLift *lift = run->lift;
  const TrnComponent *load = &plan->components[lift->component];
  Known known = { .is_there = FALSE };
  Hang hang = { .plan = plan, .run = run, .diags = diags, .cog = load->cog, .known = &known };
  run->hangs = g_new0 (TrnMoveHang, lift->n_moves);
  for (guint i = 0; i < lift->n_moves; i++)
    {
      run->hangs[i].one_hook = is_by_one_hook (plan, lift, i);
      run->hangs[i].pivot = lift->hook.place;
    }
  run->drawn_hook = find_drawn_hook (run);
  trn_short_legs_warn (plan, &lift->rigging.main, diags);
  if (!lift->hangs_free)
    {
      compare_drawn (&hang, run);
      return;
    }
  hang.box = box_of (load, 0);
  hang_moves (&hang, run, trn_vec3_is_finite (load->cog) ? find_legs (&hang) : "cog");
}

/* In a move that leans the drawn attitude is known by the angle alone, which is enough. */
static void
reach_from_leaned (const Hang *hang, guint move, double wider_m, double *reach_rad, double *reach_m)
{
  const TrnMoveHang *nominal = &hang->run->hangs[move];
  if (nominal->parallel.is_there)
    {
      const TrnParallelRest rest = trn_parallel_hang_rest (&nominal->parallel, hang->cog);
      trn_parallel_hang_off (&nominal->parallel, &hang->box, rest.pitch_rad, rest.roll_rad,
                             hang->run->lift->hook.place, reach_rad, reach_m);
      return;
    }
  const TrnRotation *turn = &hang->run->motions[move].start.turn;
  double play_m = 0;
  TrnHang found;
  if (hang->n_legs > 0)
    play_m = trn_hang_from_legs (hang->legs, hang->n_legs, hang->cog, turn, &found)
                 ? hook_play (hang, turn, &found)
                 : NAN;
  Hang wide = *hang;
  wide.box = trn_box_grow (hang->box, nominal->play.wider_m);
  const double further = lean_bound (&wide, nominal->pivot,
                                     trn_rotation_apply_inverse (turn, trn_vec3_make (0, 0, 1)));
  const double widest = nominal->lean_rad + further;
  const double off_m = trn_vec3_distance (nominal->pivot, hang->run->lift->hook.place);
  *reach_rad = widest < G_PI / 2
                   ? nominal->play.skew_rad
                         + below_beam (further, nominal->below_beam_rad) / cos (widest / 2)
                   : NAN;
  const double aside_m = nominal->below_beam_m > 0 ? nominal->below_beam_m + G_SQRT2 * wider_m : 0;
  *reach_m = play_m + aside_m + trn_chord_m (off_m, *reach_rad);
}

void
trn_free_hang_reach (const TrnPlan *plan, const TrnLiftRun *run, guint move, double wider_m,
                     double *reach_rad, double *reach_m)
{
  const TrnComponent *load = &plan->components[run->lift->component];
  const TrnPose *start = &run->motions[move].start;
  const TrnSling *without = NULL;
  TrnMoveHang from_drawn = { .reach_rad = NAN, .reach_m = NAN }, from_leaned;
  Attitude attitude;
  Hang hang = { .plan = plan, .run = run, .cog = load->cog, .box = box_of (load, wider_m) };
  hang.n_legs = list_legs (&hang, &without);
  g_assert (run->lift->hangs_free && run->hangs[move].one_hook);
  g_assert (hang.n_legs <= TRN_HANG_LEGS_MAX && (hang.n_legs == 0 || without == NULL));
  if (run->hangs[move].leans)
    {
      reach_from_leaned (&hang, move, wider_m, reach_rad, reach_m);
      return;
    }
  if (find_attitude (&hang, start, &attitude))
    measure (&hang, start, &attitude, &from_drawn, &from_leaned);
  *reach_rad = from_drawn.reach_rad;
  *reach_m = from_drawn.reach_m;
}
