/* What is found in a move of a lift is a function of the scene, the options and the index of the
 * lift, and a scene is one of the plan and of its mesh files. So everything would be a key:
 *
 *   A  the document of the plan;
 *   B  for every body of the scene its id, its mesh and what its file is off by: that is all that
 *      reading and shaping add to the plan, since trees and checks of a mesh follow from the mesh;
 *   C  of the options the width and the most steps; threads, progress and cache change no result.
 *
 * Only moves are taken out of A, since a person edits one after the other, and put back as far as
 * they can matter:
 *
 *   D  Moves of other lifts. The programme is played in order, and what it hands from one lift to
 *      the next is where everything stands (programme.c). That is in the run of this lift, and is
 *      here in full: each that stands, what is to be kept from it, where the load itself stands and
 *      begins. How far they left it from there, and swinging, follows from their moves, and is here
 *      as found (left.h, swinging.h).
 *   E  Moves of this lift up to the one in question: here by the document and by what became of
 *      them, the motion, when it begins and ends and how the load hangs.
 *   F  Later moves of this lift. Of these a check may ask:
 *      - how many there are, and of which kind each is: whether the load is still to be moved
 *        (attitude.c). Here of all moves;
 *      - where a hook waits that is yet to pick up: where it will be at its first move (hang.c).
 *        Who asks about parts of the gear of such a hoist has the key of that move;
 *      - how the load hangs is found for the lift as a whole (free-hang.c). What came out of that
 *        for each move up to there is here, and so is what came out for the lift: heights of hooks,
 *        the point of the drawn hook;
 *      - all moves, where it is about the lift, or about what the hoist lets go of (held.c): such
 *        ask for the key of the whole lift.
 *
 * D, E and F are copied field by field. Asserts on the sizes below fail when a struct gets a field,
 * so that whoever adds one comes here.
 *
 * Digests instead of all these bytes: two that differ have the same with a chance of 2⁻²⁵⁶. */
#include "lift-key.h"

#include "hang.h"
#include "plan-digest.h"
#include "sweep-cache.h"
#include "swinging.h"

#if GLIB_SIZEOF_VOID_P == 8
G_STATIC_ASSERT (sizeof (TrnMotion) == 288);
G_STATIC_ASSERT (sizeof (TrnMoveHang) == 504);
G_STATIC_ASSERT (sizeof (TrnStanding) == 192);
G_STATIC_ASSERT (sizeof (TrnLiftRun) == 504);
G_STATIC_ASSERT (sizeof (TrnRig) == 104);
G_STATIC_ASSERT (sizeof (TrnBody) == 40);
G_STATIC_ASSERT (sizeof (TrnScene) == 72);
G_STATIC_ASSERT (sizeof (TrnCheckOptions) == 56);
#endif

typedef struct
{
  guint8 bytes[TRN_DIGEST_BYTES];
} Digest;

struct _TrnLiftKey
{
  Digest *until; /* n_moves + 1: of the site and the lift, and of so many moves */
  guint n_moves;
};

static void
add_digest (TrnCacheKey *key, const Digest *digest)
{
  g_byte_array_append (key, digest->bytes, sizeof digest->bytes);
}

static Digest
digest_of (const GByteArray *bytes)
{
  Digest digest;
  gsize length = sizeof digest.bytes;
  GChecksum *sum = g_checksum_new (G_CHECKSUM_SHA256);
  g_checksum_update (sum, bytes->data, bytes->len);
  g_checksum_get_digest (sum, digest.bytes, &length);
  g_checksum_free (sum);
  return digest;
}

/* ---- the site: A, B and C ---- */

static void
add_bodies (TrnCacheKey *key, const TrnBodies *bodies, guint n)
{
  trn_cache_key_add_number (key, n);
  for (guint i = 0; i < n; i++)
    {
      trn_cache_key_add_number (key, bodies[i].n_bodies);
      for (guint k = 0; k < bodies[i].n_bodies; k++)
        {
          const TrnBody *body = &bodies[i].bodies[k];
          trn_cache_key_add_text (key, body->id);
          trn_cache_key_add_text (key, body->mesh->hash);
          trn_cache_key_add_double (key, body->off_m);
        }
    }
}

static void
add_site (TrnCacheKey *key, const TrnLiftCheck *check)
{
  const TrnScene *scene = check->scene;
  const TrnPlan *plan = scene->programme->plan;
  Digest document;
  trn_plan_digest_site (plan, document.bytes);
  add_digest (key, &document);
  add_bodies (key, scene->structures, plan->n_structures);
  add_bodies (key, scene->components, plan->n_components);
  add_bodies (key, scene->gear, plan->n_gear);
  trn_cache_key_add_number (key, scene->n_left_out);
  trn_cache_key_add_double (key, scene->solid_deviation_m);
  trn_cache_key_add_double (key, check->certify_m);
  trn_cache_key_add_number (key, check->options->max_steps);
  trn_cache_key_add_number (key, check->index);
}

/* ---- the lift as it begins: D, and what F says of the lift ---- */

static void
add_rig (TrnCacheKey *key, const TrnRig *rig)
{
  trn_cache_key_add_number (key, rig != NULL);
  if (rig == NULL)
    return;
  trn_cache_key_add_number (key, rig->n_places);
  for (guint i = 0; i < rig->n_places; i++)
    {
      trn_cache_key_add_text (key, rig->places[i].gear->id);
      trn_sweep_key_add_pose (key, &rig->places[i].site_from_gear);
    }
  trn_cache_key_add_number (key, rig->n_bodies);
  for (guint i = 0; i < G_N_ELEMENTS (rig->hook_above_m); i++)
    {
      trn_cache_key_add_double (key, rig->hook_above_m[i].lo);
      trn_cache_key_add_double (key, rig->hook_above_m[i].hi);
    }
  trn_cache_key_add_number (key, rig->hung != NULL);
}

static void
add_slack (TrnCacheKey *key, const TrnSlack *slack)
{
  trn_cache_key_add_double (key, slack->m);
  trn_cache_key_add_double (key, slack->tilt_rad);
  trn_cache_key_add_double (key, slack->heading_rad);
  trn_sweep_key_add_vec3 (key, slack->about);
}

static void
add_standing (TrnCacheKey *key, const TrnStanding *standing)
{
  trn_cache_key_add_text (key, standing->id);
  trn_cache_key_add_number (key, standing->kind);
  trn_cache_key_add_number (key, standing->index);
  trn_sweep_key_add_pose (key, &standing->site_from_standing);
  trn_cache_key_add_double (key, standing->required_m);
  trn_cache_key_add_double (key, standing->survey_tolerance_m);
  add_slack (key, &standing->slack);
  trn_cache_key_add_number (key, standing->left_by);
  trn_cache_key_add_number (key, standing->is_held);
  trn_cache_key_add_number (key, standing->is_place_unknown);
}

/* What it swings by as the lift begins. */
static void
add_first (TrnCacheKey *key, const TrnSwinging *first)
{
  trn_cache_key_add_double (key, first->before);
  trn_cache_key_add_double (key, first->growth_before);
  trn_cache_key_add_number (key, first->held_before);
  trn_cache_key_add_text (key, first->missing_before != NULL ? first->missing_before : "");
}

static void
add_run (TrnCacheKey *key, const TrnLiftCheck *check)
{
  const TrnLiftRun *run = check->run;
  const TrnLift *lift = run->lift;
  trn_sweep_key_add_pose (key, &run->stands);
  trn_sweep_key_add_pose (key, &run->start);
  trn_cache_key_add_number (key, run->starts_elsewhere);
  trn_cache_key_add_number (key, run->starts_unknown);
  trn_cache_key_add_number (key, run->left_by);
  add_slack (key, &run->left);
  add_slack (key, &run->slack);
  trn_sweep_key_add_vec3 (key, run->drawn_hook);
  trn_cache_key_add_number (key, run->n_standing);
  for (guint i = 0; i < run->n_standing; i++)
    add_standing (key, &run->standing[i]);
  trn_cache_key_add_number (key, run->n_gone);
  for (guint i = 0; i < run->n_gone; i++)
    {
      trn_cache_key_add_number (key, run->gone[i].component);
      trn_cache_key_add_number (key, run->gone[i].left_by);
      trn_cache_key_add_number (key, run->gone[i].is_held);
    }
  trn_cache_key_add_number (key, check->n_obstacles);
  for (guint i = 0; i < check->n_obstacles; i++)
    trn_cache_key_add_double (key, check->left_m[i]);
  if (check->swinging != NULL)
    add_first (key, &check->swinging[0]);
  add_rig (key, run->rig);
  trn_cache_key_add_number (key, lift->n_moves);
  for (guint i = 0; i < lift->n_moves; i++)
    trn_cache_key_add_number (key, lift->moves[i].kind);
}

/* ---- its moves: E ---- */

static void
add_parallel (TrnCacheKey *key, const TrnParallelHang *parallel)
{
  trn_cache_key_add_number (key, parallel->is_there);
  trn_sweep_key_add_vec3 (key, parallel->middle);
  trn_sweep_key_add_vec3 (key, parallel->along);
  trn_sweep_key_add_vec3 (key, parallel->up);
  trn_cache_key_add_double (key, parallel->beside_m);
  trn_cache_key_add_double (key, parallel->below_m);
  trn_cache_key_add_double (key, parallel->drop_m);
  trn_cache_key_add_double (key, parallel->beam_m);
  trn_cache_key_add_double (key, parallel->counts_m.lo);
  trn_cache_key_add_double (key, parallel->counts_m.hi);
  trn_cache_key_add_double (key, parallel->aside_m.lo);
  trn_cache_key_add_double (key, parallel->aside_m.hi);
  trn_cache_key_add_double (key, parallel->off_m);
}

static void
add_hang (TrnCacheKey *key, const TrnMoveHang *hang)
{
  trn_cache_key_add_number (key, hang->one_hook);
  trn_cache_key_add_number (key, hang->leans);
  trn_cache_key_add_number (key, hang->is_stiff);
  trn_cache_key_add_double (key, hang->lean_rad);
  trn_sweep_key_add_vec3 (key, hang->pivot);
  trn_cache_key_add_double (key, hang->off_rad);
  trn_cache_key_add_double (key, hang->off_m);
  trn_cache_key_add_double (key, hang->below_beam_rad);
  trn_cache_key_add_double (key, hang->below_beam_m);
  trn_cache_key_add_double (key, hang->play.sinks_m);
  trn_cache_key_add_double (key, hang->play.skew_m);
  trn_cache_key_add_double (key, hang->play.skew_rad);
  trn_cache_key_add_double (key, hang->play.wider_m);
  trn_cache_key_add_double (key, hang->play.apart_m);
  trn_cache_key_add_double (key, hang->play.fan_m);
  trn_cache_key_add_double (key, hang->play.holds);
  trn_cache_key_add_double (key, hang->play.uneven_m);
  trn_cache_key_add_double (key, hang->play.slant_rad);
  trn_sweep_key_add_vec3 (key, hang->play.along);
  trn_sweep_key_add_vec3 (key, hang->play.up);
  for (guint end = 0; end < 2; end++)
    {
      trn_sweep_key_add_vec3 (key, hang->play.ends[end]);
      trn_cache_key_add_double (key, hang->play.high_m[end]);
      trn_cache_key_add_double (key, hang->play.long_m[end]);
    }
  trn_cache_key_add_double (key, hang->reach_rad);
  trn_cache_key_add_double (key, hang->reach_m);
  trn_cache_key_add_double (key, hang->drawn_lean_rad);
  trn_cache_key_add_double (key, hang->drawn_shift_m);
  trn_cache_key_add_double (key, hang->drawn_reach_rad);
  trn_cache_key_add_double (key, hang->drawn_reach_m);
  trn_cache_key_add_double (key, hang->drawn_hook_m);
  trn_cache_key_add_text (key, hang->missing != NULL ? hang->missing : "");
  trn_cache_key_add_text (key, hang->unbounded != NULL ? hang->unbounded : "");
  add_parallel (key, &hang->parallel);
}

static void
add_move (TrnCacheKey *key, const TrnLiftCheck *check, guint move)
{
  const TrnLiftRun *run = check->run;
  const TrnPlan *plan = check->scene->programme->plan;
  Digest document;
  trn_plan_digest_move (plan, (guint)(run->lift - plan->lifts), move, document.bytes);
  add_digest (key, &document);
  trn_sweep_key_add_motion (key, &run->motions[move]);
  trn_cache_key_add_double (key, run->motions[move].seconds);
  trn_cache_key_add_double (key, run->begins_s[move]);
  trn_cache_key_add_double (key, run->begins_s[move + 1]);
  if (run->hangs != NULL)
    add_hang (key, &run->hangs[move]);
  const TrnRigHung *hung
      = run->rig != NULL ? trn_hang_hung (run->rig, &run->lift->rigging.main, move) : NULL;
  trn_cache_key_add_number (key, hung != NULL);
  if (hung == NULL)
    return;
  trn_sweep_key_add_vec3 (key, hung->hook);
  for (guint i = 0; i < 2; i++)
    trn_sweep_key_add_vec3 (key, hung->beam[i]);
}

/* ---- all of it ---- */

TrnLiftKey *
trn_lift_key_new (const TrnLiftCheck *check)
{
  const TrnLiftRun *run = check->run;
  TrnLiftKey *lift = g_new0 (TrnLiftKey, 1);
  lift->n_moves = run->lift->n_moves;
  lift->until = g_new0 (Digest, lift->n_moves + 1);
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  add_site (bytes, check);
  add_run (bytes, check);
  lift->until[0] = digest_of (bytes);
  for (guint i = 0; i < lift->n_moves; i++)
    {
      g_byte_array_set_size (bytes, 0);
      add_digest (bytes, &lift->until[i]);
      add_move (bytes, check, i);
      lift->until[i + 1] = digest_of (bytes);
    }
  return lift;
}

void
trn_lift_key_free (TrnLiftKey *key)
{
  g_free (key->until);
  g_free (key);
}

void
trn_lift_key_add_move (const TrnLiftKey *lift, guint move, TrnCacheKey *key)
{
  g_assert (move < lift->n_moves);
  trn_cache_key_add_number (key, move);
  add_digest (key, &lift->until[move + 1]);
}

void
trn_lift_key_add_whole (const TrnLiftKey *lift, TrnCacheKey *key)
{
  trn_cache_key_add_number (key, lift->n_moves);
  add_digest (key, &lift->until[lift->n_moves]);
}
