/* Up is u (sling-up.c).
 *
 * r_i goes from the point of leg i to where the legs meet, S_i = |r_i|, W is what they carry, u is
 * up. Σ T_i r_i/S_i = W u. Since no leg pushes, T_i (r_i·u)/S_i <= W whatever the others do, which
 * bounds each leg of any arrangement: T_i <= W S_i/(r_i·u).
 *   2 legs: along e, the part of r_1 − r_2 square to u, D_1 = r_1·e, D_2 = −r_2·e, H_i = r_i·u:
 *           T_1 = W D_2 S_1/(D_2 H_1 + D_1 H_2), and the same for the other.
 *   3 legs: by Cramer T_1 = W S_1 [u r_2 r_3]/[r_1 r_2 r_3]. That holds only as long as their
 *           lengths fit: rigging practice (US Navy rigging manual) counts on two of three or four
 *           legs unless they are equalised, so that a leg is taken to bear half as well, with W/2
 *           S_1/(r_1·u), where that is more. Whether one would have to push is asked of the three.
 *   4 legs: what each bears depends on their lengths. The greatest is at a corner of the set of all
 *           ways, where one of the four bears nothing: the greatest over those three-leg ways in
 *           which none pushes. For four like legs that is the two-leg rule.
 *
 * An upper leg goes to the beam at the angle that its triangle has, which is stiff: with what the
 * end bears square to the beam, at most all of it, leaned or not. It goes to the level at less by
 * what the beam leans by.
 *
 * Shackle. Its bow swings about its pin, so that the pull is straight as long as it is square to
 * the pin; what it is aside by is the angle between the leg and the plane square to the pin, with
 * the sine |r·n|/|r|, n along the pin. That is never more than a right angle. A load that is off by
 * its tolerance of tilt, by hooks out of level, by wind, by a lean or by where its centre of
 * gravity is in its box turns the pin by no more than all of it. Three legs or more that stay taut
 * turn with the load about the hook, and its lean turns no pin on them, and a beam with its slings
 * turns no pin on it. What is pulled straight as
 * drawn counts as straight with what tolerance of tilt, hooks out of level and wind may make of it,
 * up to TRN_SLING_STRAIGHT_DEG in all. A lean that follows from the plan, as its centre of gravity
 * has it wherever it is in its box, is no such tolerance: with any the pull is aside, however
 * straight it is drawn.
 *
 * Compression of the beam: what the upper leg of an end pulls inwards, V cot α, and what the lower
 * legs do, T cos β, at most; of one that leans without upper legs, V sin θ more. */
#include "sling-force.h"

#include <string.h>

#include "attitude.h"
#include "beam-end.h"
#include "gravity.h"
#include "hang.h"
#include "sling-rating.h"
#include "sling-up.h"
#include "swinging.h"

/* The sine up to which the way between two points counts as square to a beam: common practice, no
 * source. */
#define SQUARE_SHARE 0.01
#define LEGS_MAX 4

/* By its value over @s and by the mean value form (box-share.c). */
static TrnInterval
tight (TrnJet over, TrnJet at_middle, TrnInterval s)
{
  if (s.lo == s.hi || !trn_interval_is_value (over.d))
    return over.v;
  TrnInterval middle = trn_interval_point (trn_interval_middle (s));
  TrnInterval mean
      = trn_interval_add (at_middle.v, trn_interval_mul (over.d, trn_interval_sub (s, middle)));
  return trn_interval_is_value (mean) ? trn_interval_clip (over.v, mean.lo, mean.hi) : over.v;
}

/* From the lower end of a sling to its upper one. */
static TrnBox3
along_sling (const TrnHookForce *force, guint index, TrnInterval s)
{
  const TrnCarried *carried = &force->carried;
  const TrnRig *rig = carried->check->run->rig;
  TrnJet3 r = trn_hang_sling_way (rig, force->hoist, index, carried->move, s);
  if (s.lo == s.hi)
    return trn_box_of (r);
  TrnJet3 middle = trn_hang_sling_way (rig, force->hoist, index, carried->move,
                                       trn_interval_point (trn_interval_middle (s)));
  return (TrnBox3){ tight (r.x, middle.x, s), tight (r.y, middle.y, s), tight (r.z, middle.z, s) };
}

/* The same and its length, once for all that is asked about the sling. */
static void
leg_make (const TrnHookForce *force, guint index, TrnInterval s, TrnBox3 *r, TrnInterval *length)
{
  TrnSpanMemo *memo = force->carried.check->memos[force->carried.move];
  guint what = TRN_MEMO_SLING (force->is_tail, index);
  TrnInterval values[4];
  if (!trn_span_memo_get (memo, what, s, values, 4))
    {
      TrnBox3 along = along_sling (force, index, s);
      memcpy (values, (TrnInterval[]){ along.x, along.y, along.z, trn_box_length (along) },
              sizeof values);
      trn_span_memo_put (memo, what, s, values, 4);
    }
  *r = (TrnBox3){ values[0], values[1], values[2] };
  *length = values[3];
}

/* ---- which way a pin lies ---- */

/* Of a way in axes along a beam, level across it and square to both, in those of the site. A beam
 * that leans keeps its slope while it moves. */
static TrnJet3
in_beam (const TrnJet3 ends[2], double length_m, TrnVec3 way)
{
  const TrnJet3 e = trn_jet3_sub (ends[1], ends[0]);
  const double z = trn_interval_middle (e.z.v) / length_m, level = sqrt (fmax (0, 1 - z * z)),
               along = (way.x - z * way.z / level) / length_m, across = way.y / level / length_m;
  return (TrnJet3){ trn_jet_sub (trn_jet_scale (e.x, along), trn_jet_scale (e.y, across)),
                    trn_jet_add (trn_jet_scale (e.y, along), trn_jet_scale (e.x, across)),
                    trn_jet_constant (z * way.x + level * way.z) };
}

/* Along the pin of the leg's shackle, of length 1. */
static TrnBox3
along_pin (const TrnHookForce *force, guint index, TrnInterval s)
{
  const TrnCarried *carried = &force->carried;
  const TrnRig *rig = carried->check->run->rig;
  const TrnSling *sling = &force->hoist->slings[index];
  const TrnVec3 pin = sling->shackle.pin;
  const TrnInterval spans[2] = { s, trn_interval_point (trn_interval_middle (s)) };
  TrnJet3 n[2];
  for (guint i = 0; i < 2; i++)
    if (sling->to_beam)
      {
        TrnJet3 ends[2];
        trn_hang_beam (rig, force->hoist, carried->move, spans[i], ends);
        n[i] = in_beam (ends, force->hoist->beam.length_m, pin);
      }
    else
      n[i] = trn_jet3_sub (trn_hang_point (rig, force->hoist, carried->move, spans[i],
                                           trn_vec3_add (sling->to, pin)),
                           trn_hang_point (rig, force->hoist, carried->move, spans[i], sling->to));
  return (TrnBox3){ tight (n[0].x, n[1].x, s), tight (n[0].y, n[1].y, s),
                    tight (n[0].z, n[1].z, s) };
}

/* By how much the load may be turned from where its motion has it: a pin that is on it turns with
 * it, while its leg may keep its way. A right angle or NAN where there is no bound. */
typedef struct
{
  double known_rad; /* of that by its centre of gravity, as the plan has it */
  double all_rad;
} TurnedOff;

/* What it leans by as drawn, with its tail or by one hook, and hooks out of level add up, and may
 * be more than the tolerance of tilt; wind and swinging come on top. */
static TurnedOff
turned_off (const TrnHookForce *force, gboolean on_beam, double off_rad)
{
  const TrnCarried *carried = &force->carried;
  const TrnLift *lift = carried->check->run->lift;
  const TrnMoveHang *hang = &carried->check->run->hangs[carried->move];
  const double level_rad = isnan (carried->out_of_level_rad) ? 0 : carried->out_of_level_rad,
               reach_rad = hang->is_stiff || on_beam ? 0 : hang->reach_rad;
  double lean_rad = force->leans_rad;
  if (hang->one_hook && !hang->is_stiff && !on_beam && !lift->hangs_free
      && trn_attitude_hangs (lift, carried->move))
    lean_rad += hang->drawn_reach_rad;
  const double known_rad = lean_rad + reach_rad + off_rad,
               wind_rad = carried->check->allowances[carried->move].wind_rad,
               all_rad = fmax (carried->check->run->slack.tilt_rad, lean_rad + level_rad)
                         + reach_rad + wind_rad + off_rad
                         + trn_swinging_against_rad (carried->check, carried->move);
  return (TurnedOff){ known_rad, !isnan (known_rad) && all_rad < G_PI / 2 ? all_rad : G_PI / 2 };
}

static gboolean
counts_as_straight (const TurnedOff *off)
{
  return off->known_rad <= TRN_SLING_LEAST_ASIDE
         && off->all_rad <= TRN_SLING_STRAIGHT_DEG * G_PI / 180;
}

static gboolean
aside (const TrnHookForce *force, guint index, TrnInterval s, TrnInterval *sine)
{
  const TrnSling *sling = &force->hoist->slings[index];
  TrnBox3 r, n;
  TrnInterval length;
  TrnBeamSling below = { .off_rad = 0 };
  if (trn_beam_sling_make (force, sling, s, &below))
    {
      r = below.way;
      n = trn_beam_sling_turn (&below, sling->shackle.pin);
      length = trn_box_length (r);
    }
  else
    {
      n = along_pin (force, index, s);
      leg_make (force, index, s, &r, &length);
    }
  TrnInterval along = trn_interval_mul (trn_box_dot (r, n), trn_interval_inverse (length));
  double most = fmin (1, trn_interval_size (along)),
         least = fmin (1, along.lo > 0 ? along.lo : fmax (0, -along.hi));
  const TurnedOff off = turned_off (force, sling->to_beam, below.off_rad);
  if (most > TRN_SLING_LEAST_ASIDE || !counts_as_straight (&off))
    {
      most = sin (fmin (G_PI / 2, asin (most) + off.all_rad));
      least = sin (fmax (0, asin (least) - off.all_rad));
    }
  *sine = (TrnInterval){ fmax (TRN_SLING_LEAST_ASIDE, least), fmax (TRN_SLING_LEAST_ASIDE, most) };
  return trn_interval_is_value (along);
}

TrnInterval
trn_sling_force_span (const TrnLiftCheck *check, guint move)
{
  return trn_motion_tilts (&check->run->motions[move]) ? (TrnInterval){ 0, 1 }
                                                       : (TrnInterval){ 0, 0 };
}

/* ---- bridles ---- */

/* Legs that meet in one point. */
typedef struct
{
  TrnBox3 r[LEGS_MAX];
  TrnInterval length[LEGS_MAX];
  guint n, self; /* self: the leg that is asked about; beyond LEGS_MAX legs n is only counted */
  gboolean is_propped; /* what holds them can push them apart, so that one may bear all */
  TrnBox3 up;
  TrnInterval weight_n;
} Bridle;

static TrnInterval
sine_of (const Bridle *bridle, guint leg)
{
  TrnInterval sine = trn_interval_mul (trn_box_dot (bridle->r[leg], bridle->up),
                                       trn_interval_inverse (bridle->length[leg]));
  return trn_interval_clip (sine, -1, 1);
}

static TrnInterval
two_legs (const Bridle *bridle)
{
  const TrnBox3 *r = bridle->r, *up = &bridle->up;
  guint i = bridle->self, k = 1 - i;
  TrnBox3 apart = trn_box_sub (r[i], r[k]);
  TrnBox3 e = trn_box_sub (apart, trn_box_scale (*up, trn_box_dot (apart, *up)));
  TrnInterval d_i = trn_box_dot (r[i], e), d_k = trn_interval_neg (trn_box_dot (r[k], e));
  if (d_k.lo > 0) /* each once, which encloses it more tightly */
    return trn_interval_div (
        trn_interval_mul (bridle->weight_n, bridle->length[i]),
        trn_interval_add (trn_box_dot (r[i], *up),
                          trn_interval_mul (trn_box_dot (r[k], *up), trn_interval_div (d_i, d_k))));
  TrnInterval below = trn_interval_add (trn_interval_mul (d_k, trn_box_dot (r[i], *up)),
                                        trn_interval_mul (d_i, trn_box_dot (r[k], *up)));
  return trn_interval_mul (trn_interval_mul (bridle->weight_n, bridle->length[i]),
                           trn_interval_div (d_k, below));
}

/* Of leg @i with @j and @k. */
static TrnInterval
three_legs (const Bridle *bridle, guint i, guint j, guint k)
{
  const TrnBox3 *r = bridle->r;
  TrnInterval share = trn_interval_div (trn_box_triple (bridle->up, r[j], r[k]),
                                        trn_box_triple (r[i], r[j], r[k]));
  return trn_interval_mul (trn_interval_mul (bridle->weight_n, bridle->length[i]), share);
}

/* The greatest over all ways in which one leg bears nothing; −INFINITY where none holds the load.
 * FALSE where one of them cannot be told. */
static gboolean
four_legs (const Bridle *bridle, double *greatest)
{
  guint i = bridle->self;
  *greatest = -INFINITY;
  for (guint out = 0; out < 4; out++)
    {
      guint others[2], n = 0;
      for (guint k = 0; k < 4; k++)
        if (k != out && k != i)
          others[n < 2 ? n++ : 1] = k;
      if (out == i)
        continue;
      guint j = others[0], k = others[1];
      TrnInterval t[3] = { three_legs (bridle, i, j, k), three_legs (bridle, j, i, k),
                           three_legs (bridle, k, i, j) };
      if (!trn_interval_is_value (t[0]) || !trn_interval_is_value (t[1])
          || !trn_interval_is_value (t[2]))
        return FALSE;
      double least = -1e-9 * bridle->weight_n.hi;
      if (t[0].hi >= least && t[1].hi >= least && t[2].hi >= least)
        *greatest = fmax (*greatest, t[0].hi);
    }
  return TRUE;
}

/* Whether all legs pull to the side to which the leg self does, which nothing balances: as drawn,
 * so that a lean of either hand does not hide it. */
static gboolean
all_pull_aside (const Bridle *bridle)
{
  const TrnBox3 *self = &bridle->r[bridle->self];
  const TrnBox3 up = { trn_interval_point (trn_interval_middle (bridle->up.x)),
                       trn_interval_point (trn_interval_middle (bridle->up.y)),
                       trn_interval_point (trn_interval_middle (bridle->up.z)) };
  TrnBox3 aside = trn_box_sub (*self, trn_box_scale (up, trn_box_dot (*self, up)));
  for (guint i = 0; i < bridle->n && bridle->n <= LEGS_MAX; i++)
    if (!(trn_box_dot (bridle->r[i], aside).lo > 1e-9))
      return FALSE;
  return bridle->n <= LEGS_MAX;
}

/* Of the leg self. FALSE where it does not go down. */
static gboolean
bridle_tension (const Bridle *bridle, TrnInterval *tension)
{
  TrnInterval sine = sine_of (bridle, bridle->self);
  if (!(sine.lo > 0))
    return FALSE;
  TrnInterval alone = trn_interval_div (bridle->weight_n, sine), found = { 0, alone.hi };
  double four;
  if (bridle->n == 1)
    found = alone;
  else if (bridle->n == 2)
    found = two_legs (bridle);
  else if (bridle->n == 3)
    {
      found = three_legs (bridle, bridle->self, (bridle->self + 1) % 3, (bridle->self + 2) % 3);
      if (trn_interval_is_value (found))
        found.hi = fmax (found.hi, trn_interval_scale (alone, 0.5).hi);
    }
  else if (bridle->n == 4 && four_legs (bridle, &four))
    found = four >= 0 ? (TrnInterval){ 0, four } : (TrnInterval){ -alone.hi, alone.hi };
  if (!trn_interval_is_value (found))
    found = (TrnInterval){ 0, alone.hi };
  if (bridle->n > 1 && bridle->is_propped)
    found.hi = alone.hi;
  if (bridle->n > 1 && all_pull_aside (bridle))
    found = (TrnInterval){ -alone.hi, alone.hi };
  *tension = trn_interval_clip (found, -INFINITY, alone.hi);
  return trn_interval_is_value (*tension);
}

/* What the bridle of @sling carries. */
static gboolean
weight_of (const TrnHookForce *force, const TrnSling *sling, TrnInterval s, TrnInterval *newton)
{
  const TrnHookLoad *rigging = &force->rigging;
  if (sling->from == TRN_SLING_FROM_HOOK && !sling->to_beam)
    return trn_hook_force_below_n (force, s, rigging->slings_kg + rigging->shackles_kg, newton);
  return sling->to_beam ? trn_beam_upper_n (force, s, newton) : trn_beam_end_n (force, s, newton);
}

/* Legs of which each bears what it bears whatever the others do are bridles of their own: upper
 * legs of a beam, and legs beside a beam. */
static gboolean
is_of_bridle (const TrnHoist *hoist, const TrnSling *a, const TrnSling *b)
{
  if (a == b)
    return TRUE;
  if (a->to_beam || b->to_beam || a->from != b->from)
    return FALSE;
  return a->from != TRN_SLING_FROM_HOOK || !hoist->has_beam;
}

static guint
legs_beside (const TrnHoist *hoist, guint index)
{
  guint n = 0;
  for (guint i = 0; i < hoist->n_slings; i++)
    if (is_of_bridle (hoist, &hoist->slings[index], &hoist->slings[i]))
      n++;
  return n;
}

/* A beam pushes the legs below its ends apart as far as it can, so that each way in which they
 * bear the load is possible; but those to points square to it, which it cannot. */
static gboolean
is_propped (const TrnHookForce *force, guint index, TrnInterval s, const Bridle *bridle)
{
  const TrnHoist *hoist = force->hoist;
  const TrnSling *sling = &hoist->slings[index];
  TrnJet3 ends[2];
  if (sling->to_beam || sling->from == TRN_SLING_FROM_HOOK)
    return FALSE;
  trn_hang_beam (force->carried.check->run->rig, hoist, force->carried.move, s, ends);
  TrnBeamSling below;
  const TrnBox3 beam
      = trn_beam_sling_make (force, sling, s, &below)
            ? (TrnBox3){ trn_interval_point (hoist->beam.length_m), { 0, 0 }, { 0, 0 } }
            : trn_sling_to_axes (force, sling, bridle->n, s,
                                 trn_box_sub (trn_box_of (ends[1]), trn_box_of (ends[0])));
  for (guint i = 1; i < bridle->n && i < LEGS_MAX; i++)
    {
      const TrnBox3 apart = trn_box_sub (bridle->r[i], bridle->r[0]);
      if (!(trn_interval_size (trn_box_dot (apart, beam))
            <= SQUARE_SHARE * trn_box_length (apart).lo * hoist->beam.length_m))
        return TRUE;
    }
  return FALSE;
}

/* From the middle of a beam to the hook, of length 1. */
static TrnBox3
square_to_beam (const TrnHookForce *force, TrnInterval s)
{
  const TrnRig *rig = force->carried.check->run->rig;
  const guint move = force->carried.move;
  TrnJet3 ends[2];
  trn_hang_beam (rig, force->hoist, move, s, ends);
  const TrnBox3 from_a
      = trn_box_sub (trn_box_of (trn_hang_hook (rig, force->hoist, move, s)), trn_box_of (ends[0])),
      half = trn_box_scale (trn_box_sub (trn_box_of (ends[1]), trn_box_of (ends[0])),
                            trn_interval_point (0.5)),
      way = trn_box_sub (from_a, half);
  return trn_sling_to_load (force, s,
                            trn_box_scale (way, trn_interval_inverse (trn_interval_point (
                                                    force->hoist->beam.below_hook_m))));
}

/* In the axes that the way up of the bridle of @sling is in. */
static void
leg_of (const TrnHookForce *force, const TrnSling *sling, guint n_legs, guint index, TrnInterval s,
        Bridle *bridle, guint place)
{
  TrnBeamSling below;
  if (trn_beam_sling_make (force, &force->hoist->slings[index], s, &below))
    {
      bridle->r[place] = below.way;
      bridle->length[place] = trn_box_length (below.way);
      return;
    }
  leg_make (force, index, s, &bridle->r[place], &bridle->length[place]);
  bridle->r[place] = trn_sling_to_axes (force, sling, n_legs, s, bridle->r[place]);
}

static gboolean
bridle_make (const TrnSlingQuestion *q, TrnInterval s, Bridle *bridle)
{
  const TrnHookForce *force = q->force;
  const TrnHoist *hoist = force->hoist;
  const TrnSling *sling = &hoist->slings[q->index];
  const guint n_legs = legs_beside (hoist, q->index);
  *bridle = (Bridle){ .up = trn_sling_up (force, sling, n_legs, s) };
  TrnBeamSling below;
  if (sling->to_beam && trn_sling_hangs (force) && hoist->beam.below_hook_m > 0)
    bridle->up = square_to_beam (force, s);
  else if (trn_beam_sling_make (force, sling, s, &below))
    bridle->up = below.up;
  for (guint i = 0; i < hoist->n_slings; i++)
    {
      if (!is_of_bridle (hoist, &hoist->slings[q->index], &hoist->slings[i]))
        continue;
      /* Of more legs only the one that is asked about is looked at. */
      guint place = bridle->n < LEGS_MAX ? bridle->n : 0;
      if (i == q->index)
        bridle->self = place;
      if (bridle->n < LEGS_MAX || i == q->index)
        {
          leg_of (force, &hoist->slings[q->index], n_legs, i, s, bridle, place);
        }
      bridle->n++;
    }
  bridle->is_propped = bridle->n > 1 && is_propped (force, q->index, s, bridle);
  return weight_of (force, &hoist->slings[q->index], s, &bridle->weight_n);
}

/* ---- questions ---- */

static gboolean
compression (const TrnSlingQuestion *question, TrnInterval s, TrnInterval *value)
{
  const TrnHoist *hoist = question->force->hoist;
  double end_n[2] = { 0, 0 };
  gboolean is_held = FALSE;
  for (guint i = 0; i < hoist->n_slings; i++)
    {
      const TrnSling *sling = &hoist->slings[i];
      TrnSlingQuestion q = { question->force, TRN_SLING_TENSION, i };
      Bridle bridle;
      TrnInterval tension;
      if (sling->from == TRN_SLING_FROM_HOOK && !sling->to_beam)
        continue;
      is_held = is_held || sling->to_beam;
      if (!bridle_make (&q, s, &bridle) || !bridle_tension (&bridle, &tension))
        return FALSE;
      double sine = fmax (0, sine_of (&bridle, bridle.self).lo);
      gboolean is_b = sling->to_beam ? sling->to_beam_b : sling->from == TRN_SLING_FROM_BEAM_B;
      end_n[is_b ? 1 : 0] += tension.hi * sqrt (fmax (0, 1 - sine * sine));
    }
  TrnInterval newton;
  if (!trn_beam_end_n (question->force, s, &newton))
    return FALSE;
  const double leans = sin (trn_beam_leans_rad (question->force)),
               greatest = fmax (end_n[0], end_n[1]) + (is_held ? 0 : newton.hi * leans);
  *value = trn_interval_widen (greatest, greatest, 1e-12);
  return trn_interval_is_value (*value);
}

/* The factor falls as the angle grows. */
static gboolean
shackle (const TrnSlingQuestion *q, TrnInterval s, TrnInterval tension, TrnInterval *value)
{
  TrnInterval sine;
  if (!aside (q->force, q->index, s, &sine))
    return FALSE;
  const double least = trn_shackle_side_factor (asin (sine.hi)),
               most = trn_shackle_side_factor (asin (sine.lo));
  g_assert (least > 0 && least <= most);
  *value = (TrnInterval){ tension.lo / (tension.lo > 0 ? most : least), tension.hi / least };
  *value = trn_interval_widen (value->lo, value->hi, 1e-15);
  return trn_interval_is_value (*value);
}

gboolean
trn_sling_force_knows_turn (const TrnHookForce *force)
{
  return turned_off (force, FALSE, 0).all_rad < G_PI / 2;
}

gboolean
trn_sling_force_ask (gconstpointer question, TrnInterval s, TrnInterval *value)
{
  const TrnSlingQuestion *q = question;
  Bridle bridle;
  TrnInterval tension;
  if (q->quantity == TRN_BEAM_COMPRESSION)
    return compression (q, s, value);
  if (!bridle_make (q, s, &bridle))
    return FALSE;
  if (q->quantity == TRN_SLING_FLATNESS)
    {
      const TrnInterval sine = sine_of (&bridle, bridle.self);
      const double leans_rad
          = q->force->hoist->slings[q->index].to_beam ? trn_beam_leans_rad (q->force) : 0;
      if (isnan (leans_rad))
        return FALSE;
      *value = leans_rad > 0 ? trn_interval_neg (
                   (TrnInterval){ sin (fmax (0, asin (sine.lo) - leans_rad)),
                                  sin (fmin (G_PI / 2, asin (sine.hi) + leans_rad)) })
                             : trn_interval_neg (sine);
      return trn_interval_is_value (*value);
    }
  if (q->quantity == TRN_SLING_ASIDE)
    return aside (q->force, q->index, s, value);
  if (!bridle_tension (&bridle, &tension))
    return FALSE;
  if (q->quantity == TRN_SLING_SHACKLE)
    return shackle (q, s, tension, value);
  *value = q->quantity == TRN_SLING_PUSH ? trn_interval_neg (tension) : tension;
  return TRUE;
}

/* Whether something hangs from both ends of the beam, and either both or none hang from the hook:
 * what is said of its ends is for that alone. */
static gboolean
holds_by_both_ends (const TrnHoist *hoist)
{
  guint lower[2] = { 0, 0 }, upper[2] = { 0, 0 };
  for (guint i = 0; i < hoist->n_slings; i++)
    {
      const TrnSling *sling = &hoist->slings[i];
      if (sling->to_beam)
        upper[sling->to_beam_b]++;
      else if (sling->from != TRN_SLING_FROM_HOOK)
        lower[sling->from == TRN_SLING_FROM_BEAM_B]++;
    }
  return lower[0] > 0 && lower[1] > 0 && (upper[0] > 0) == (upper[1] > 0);
}

/* By slings from the hook, or by a lug on top of it, which the hook is in: not higher above its
 * middle than it is deep. Common practice, no source. */
static gboolean
is_beam_held (const TrnHoist *hoist)
{
  for (guint i = 0; i < hoist->n_slings; i++)
    if (hoist->slings[i].to_beam)
      return TRUE;
  return hoist->beam.below_hook_m <= hoist->beam.depth_m;
}

const char *
trn_sling_force_missing (const TrnHookForce *force, gboolean with_forces)
{
  const TrnRig *rig = force->carried.check->run->rig;
  if (with_forces && force->missing_dynamic != NULL)
    return force->missing_dynamic;
  if (with_forces && force->hoist->has_beam && !holds_by_both_ends (force->hoist))
    return "slings";
  if (with_forces && force->hoist->has_beam && !is_beam_held (force->hoist))
    return "beam/slings";
  if (trn_sling_hangs (force) && !force->carried.has_cog)
    return "cog";
  if (isnan (force->leans_rad))
    return force->carried.has_cog ? "lean" : "cog";
  const char *missing = trn_rig_missing (rig, force->hoist, TRN_RIG_SLING_LENGTH);
  return missing == NULL ? trn_beam_end_missing (force) : missing;
}
