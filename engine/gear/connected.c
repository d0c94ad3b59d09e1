/* Which bodies are fixed to one another. */
#include <string.h>

#include "rig.h"

/* Whether @id is @name, or a part of it. */
static gboolean
is_or_is_part_of (const char *id, const char *name)
{
  gsize length = strlen (name);
  return strncmp (id, name, length) == 0 && (id[length] == '\0' || id[length] == '/');
}

static const TrnGear *
gear_of (const TrnRig *rig, const char *id)
{
  for (guint i = 0; i < rig->n_places; i++)
    if (is_or_is_part_of (id, rig->places[i].gear->id))
      return rig->places[i].gear;
  return NULL;
}

static const TrnRigBody *
body_of (const TrnRig *rig, const char *id)
{
  for (guint i = 0; i < rig->n_bodies; i++)
    if (g_str_equal (rig->bodies[i].id, id))
      return &rig->bodies[i];
  return NULL;
}

/* Whether the body hangs on the rope of a hoist: block, slings, beam. */
static gboolean
hangs (const TrnRigBody *body)
{
  return body != NULL && body->hoist != NULL
         && (body->part == TRN_PART_BLOCK || body->part == TRN_PART_SLING
             || body->part == TRN_PART_BEAM);
}

static gboolean
is_rope (const TrnRigBody *body)
{
  return body != NULL && body->hoist != NULL && body->part == TRN_PART_ROPE;
}

/* Whether the one hangs from the gear and may run against what stands of it, as a block against a
 * leg. */
static gboolean
swings_past (const TrnRigBody *hanging, const TrnRigBody *other)
{
  return other == NULL && hanging != NULL && hanging->hoist != NULL
         && (hanging->part == TRN_PART_BLOCK || hanging->part == TRN_PART_ROPE);
}

/* The hoist by which the gear holds the load itself, without a hook. */
static const TrnHoist *
holds_load (const TrnRig *rig, const TrnGear *gear)
{
  const TrnRigging *rigging = &rig->lift->rigging;
  const TrnHoist *hoists[2] = { &rigging->main, &rigging->tail };
  if (!rigging->given || gear == NULL
      || (gear->kind != TRN_GEAR_TAIL_TROLLEY && gear->kind != TRN_GEAR_TURNING_FRAME))
    return NULL;
  for (guint i = 0; i < 2; i++)
    if (hoists[i]->given && hoists[i]->gear < rig->plan->n_gear
        && &rig->plan->gear[hoists[i]->gear] == gear)
      return hoists[i];
  return NULL;
}

gboolean
trn_rig_names_connected (const TrnRig *rig, const char *a, const char *b)
{
  const TrnRigging *rigging = &rig->lift->rigging;
  for (guint i = 0; i < rigging->n_connected; i++)
    {
      const TrnConnected *pair = &rigging->connected[i];
      if ((is_or_is_part_of (a, pair->a) && is_or_is_part_of (b, pair->b))
          || (is_or_is_part_of (a, pair->b) && is_or_is_part_of (b, pair->a)))
        return TRUE;
    }
  return FALSE;
}

const TrnHoist *
trn_rig_holder (const TrnRig *rig, const char *a, const char *b)
{
  if (g_str_equal (a, "load") == g_str_equal (b, "load"))
    return NULL;
  const char *id = g_str_equal (a, "load") ? b : a;
  const TrnRigBody *body = body_of (rig, id);
  return hangs (body) ? body->hoist : holds_load (rig, gear_of (rig, id));
}

/* Once its hoist has let go, what held the load is in its way like anything else. */
gboolean
trn_rig_is_connected (const TrnRig *rig, const char *a, const char *b, guint move)
{
  const TrnGear *gear_a = gear_of (rig, a), *gear_b = gear_of (rig, b);
  const TrnRigBody *body_a = body_of (rig, a), *body_b = body_of (rig, b);
  if (gear_a != NULL && gear_a == gear_b && !swings_past (body_a, body_b)
      && !swings_past (body_b, body_a))
    return TRUE;
  const TrnHoist *holder = trn_rig_holder (rig, a, b);
  if (holder != NULL && holder->first_move <= move && move <= holder->last_move)
    return TRUE;
  if ((hangs (body_a) || is_rope (body_a)) && (hangs (body_b) || is_rope (body_b))
      && body_a->hoist == body_b->hoist)
    return TRUE;
  return trn_rig_names_connected (rig, a, b);
}
