/* The list of bodies, and who they belong to. */
#include "hang.h"

typedef struct
{
  const TrnRig *rig;
  GArray *bodies;
} List;

static TrnRigBody *
add (List *list, char *id_taken, TrnRigPart part, guint place, const TrnHoist *hoist,
     guint n_corners, double radius_m)
{
  guint last = list->rig->n_moves - 1;
  TrnRigBody body = { .id = id_taken,
                      .part = part,
                      .place = place,
                      .hoist = hoist,
                      .first_move = 0,
                      .last_move = last,
                      .n_corners = n_corners,
                      .radius_m = radius_m };
  g_array_append_val (list->bodies, body);
  return &g_array_index (list->bodies, TrnRigBody, list->bodies->len - 1);
}

static char *
part_id (const char *owner, const char *part)
{
  return g_strconcat (owner, "/", part, NULL);
}

/* Of a ball that holds the section wherever its middle is: half the diagonal, a little over. */
static double
section_radius (double width_m, double depth_m)
{
  return hypot (width_m, depth_m) / 2 * (1 + 1e-12);
}

static double
rope_radius (const TrnGear *gear)
{
  return (isfinite (gear->rope_diameter_m) ? gear->rope_diameter_m : TRN_ROPE_DIAMETER_M) / 2;
}

static void
add_block (List *list, const TrnHoist *hoist, guint place, const char *owner)
{
  if (hoist != NULL && hoist->has_block)
    add (list, part_id (owner, "block"), TRN_PART_BLOCK, place, hoist, TRN_LIMB_CORNERS, 0);
}

static void
add_crane (List *list, guint place, const TrnGear *gear, const TrnHoist *hoist)
{
  add (list, part_id (gear->id, "boom"), TRN_PART_BOOM, place, hoist, 2,
       section_radius (gear->boom_width_m, gear->boom_depth_m));
  if (gear->has_jib)
    add (list, part_id (gear->id, "jib"), TRN_PART_JIB, place, hoist, 2,
         section_radius (gear->jib_width_m, gear->jib_depth_m));
  if (gear->has_counterweight)
    add (list, part_id (gear->id, "counterweight"), TRN_PART_COUNTERWEIGHT, place, hoist,
         TRN_LIMB_CORNERS, 0);
  add (list, part_id (gear->id, "rope"), TRN_PART_ROPE, place, hoist, 2, rope_radius (gear));
  add_block (list, hoist, place, gear->id);
}

static void
add_gantry (List *list, guint place, const TrnGear *gear, const TrnHoist *hoist)
{
  guint n_headers = !gear->has_header ? 0 : gear->header_spacing_m > 0 ? 2 : 1;
  for (guint i = 0; i < n_headers; i++)
    {
      char *id = part_id (gear->id, i == 0 ? "header-1" : "header-2");
      add (list, id, TRN_PART_HEADER, place, hoist, 8, 0)->index = i;
    }
  if (gear->has_trolley)
    add (list, part_id (gear->id, "trolley"), TRN_PART_TROLLEY, place, hoist, 8, 0);
  if (hoist != NULL && (gear->has_trolley || gear->has_header))
    add (list, part_id (gear->id, "rope"), TRN_PART_ROPE, place, hoist, 2, rope_radius (gear));
  add_block (list, hoist, place, gear->id);
}

/* Of a tail trolley and a turning frame there is no rope: they hold the point itself. */
static void
add_gear (List *list, guint place, const TrnHoist *hoist)
{
  const TrnGear *gear = list->rig->places[place].gear;
  switch (gear->kind)
    {
    case TRN_GEAR_CRANE:
      add_crane (list, place, gear, hoist);
      break;
    case TRN_GEAR_GANTRY:
      add_gantry (list, place, gear, hoist);
      break;
    case TRN_GEAR_TAIL_TROLLEY:
      add (list, part_id (gear->id, "trolley"), TRN_PART_TAIL_TROLLEY, place, hoist, 8, 0);
      break;
    case TRN_GEAR_TURNING_FRAME:
      break;
    }
}

static void
keep_to_moves (TrnRigBody *body, const TrnHoist *hoist)
{
  body->first_move = hoist->first_move;
  body->last_move = hoist->last_move;
}

static void
add_rigging (List *list, const TrnHoist *hoist, const char *hook)
{
  const TrnRig *rig = list->rig;
  const TrnGearPlace *gear = trn_hang_gear (rig, hoist);
  guint place = gear != NULL ? (guint)(gear - rig->places) : G_MAXUINT;
  if (gear == NULL)
    add_block (list, hoist, place, hook);
  for (guint i = 0; i < hoist->n_slings; i++)
    {
      const TrnSling *sling = &hoist->slings[i];
      TrnRigBody *body = add (list, g_strdup (sling->id), TRN_PART_SLING, place, hoist, 2,
                              sling->diameter_m / 2);
      body->index = i;
      keep_to_moves (body, hoist);
    }
  if (hoist->has_beam)
    keep_to_moves (add (list, g_strdup (hoist->beam.id), TRN_PART_BEAM, place, hoist, 2,
                        section_radius (hoist->beam.width_m, hoist->beam.depth_m)),
                   hoist);
}

TrnRig *
trn_rig_new (const TrnPlan *plan, const TrnLift *lift, const TrnMotion *motions,
             TrnGearPlace *places_taken, guint n_places)
{
  static const char *const hooks[2] = { "main-hook", "tail-hook" };
  const TrnHoist *hoists[2] = { &lift->rigging.main, &lift->rigging.tail };
  TrnRig *rig = g_new0 (TrnRig, 1);
  *rig = (TrnRig){ .plan = plan,
                   .lift = lift,
                   .motions = motions,
                   .n_moves = lift->n_moves,
                   .places = places_taken,
                   .n_places = n_places };
  List list = { rig, g_array_new (FALSE, FALSE, sizeof (TrnRigBody)) };
  gboolean used[2];
  for (guint i = 0; i < 2; i++)
    {
      used[i] = lift->rigging.given && hoists[i]->given && lift->n_moves > 0;
      g_assert (!used[i] || hoists[i]->last_move < lift->n_moves);
      rig->hook_above_m[i] = used[i] ? trn_hang_hook_above (rig, hoists[i]) : trn_interval_none ();
    }
  for (guint place = 0; place < n_places && lift->n_moves > 0; place++)
    {
      const TrnHoist *hoist = NULL;
      for (guint i = 0; i < 2; i++)
        if (used[i] && trn_hang_gear (rig, hoists[i]) == &rig->places[place])
          hoist = hoists[i];
      add_gear (&list, place, hoist);
    }
  for (guint i = 0; i < 2; i++)
    if (used[i])
      add_rigging (&list, hoists[i], hooks[i]);
  rig->n_bodies = list.bodies->len;
  rig->bodies = (TrnRigBody *)(void *)g_array_free (list.bodies, FALSE);
  return rig;
}

void
trn_rig_take_hung (TrnRig *rig, TrnRigHung *hung_taken)
{
  g_free (rig->hung);
  rig->hung = hung_taken;
}

void
trn_rig_free (TrnRig *rig)
{
  if (rig == NULL)
    return;
  for (guint i = 0; i < rig->n_bodies; i++)
    g_free (rig->bodies[i].id);
  g_free (rig->bodies);
  g_free (rig->places);
  g_free (rig->hung);
  g_free (rig);
}
