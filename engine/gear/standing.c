/* The parts of a gear that stand still, as solids. */
#include "rig.h"
#include "tolerances.h"

static void
take_part_at (GArray *parts, const char *name, guint number, TrnSolid *solid, TrnVec3 at)
{
  TrnSolidGroupPart part
      = { .id = number > 0 ? g_strdup_printf ("%s-%u", name, number) : g_strdup (name),
          .solid = solid,
          .at = { .position = at } };
  g_array_append_val (parts, part);
}

static void
take_part (GArray *parts, const char *name, guint number, TrnSolid *solid, double x_m, double y_m)
{
  take_part_at (parts, name, number, solid, trn_vec3_make (x_m, y_m, 0));
}

static TrnSolid *
box_new (double x_m, double y_m, double z_m)
{
  TrnSolid *box = trn_solid_new (TRN_SOLID_BOX);
  box->size = trn_vec3_make (x_m, y_m, z_m);
  return box;
}

/* Pads of which the plan gives no size are left out. They have the number of their leg or
 * support, and so have mats, which lie below the base. */
static void
add_pads_and_mats (GArray *parts, const TrnGearFoot *feet, guint n_feet)
{
  for (guint i = 0; i < n_feet; i++)
    if (isfinite (feet[i].pad_x_m) && isfinite (feet[i].pad_y_m))
      take_part (parts, "pad", i + 1,
                 box_new (feet[i].pad_x_m, feet[i].pad_y_m, TRN_PAD_THICKNESS_M), feet[i].x_m,
                 feet[i].y_m);
  for (guint i = 0; i < n_feet; i++)
    if (feet[i].has_mat)
      take_part_at (parts, "mat", i + 1,
                    box_new (feet[i].mat_size.x, feet[i].mat_size.y, feet[i].mat_size.z),
                    trn_vec3_make (feet[i].x_m, feet[i].y_m, -feet[i].mat_size.z));
}

static void
add_gantry (GArray *parts, const TrnGear *gear)
{
  for (guint i = 0; i < gear->n_legs; i++)
    {
      const TrnGearFoot *leg = &gear->legs[i];
      take_part (parts, "leg", i + 1, box_new (leg->size_x_m, leg->size_y_m, leg->height_m),
                 leg->x_m, leg->y_m);
    }
  for (guint i = 0; i < gear->n_runways; i++)
    {
      const TrnGearBeam *runway = &gear->runways[i];
      TrnSolid *beam = trn_solid_new (TRN_SOLID_BEAM);
      beam->from = runway->from;
      beam->to = runway->to;
      beam->width_m = runway->width_m;
      beam->depth_m = runway->depth_m;
      take_part (parts, "runway", i + 1, beam, 0, 0);
    }
  add_pads_and_mats (parts, gear->legs, gear->n_legs);
}

static void
add_turning_frame (GArray *parts, const TrnGear *gear)
{
  for (guint i = 0; i < 2; i++)
    take_part (parts, "cheek", i + 1, box_new (gear->size.x, gear->size.y, gear->size.z),
               (i == 0 ? -0.5 : 0.5) * gear->cheek_spacing_m, 0);
}

static void
add_crane (GArray *parts, const TrnGear *gear)
{
  if (gear->has_carrier)
    take_part (parts, "carrier", 0,
               box_new (gear->carrier_size.x, gear->carrier_size.y, gear->carrier_size.z),
               gear->carrier_x_m, gear->carrier_y_m);
  add_pads_and_mats (parts, gear->supports, gear->n_supports);
}

TrnSolid *
trn_gear_solid_new (const TrnGear *gear)
{
  GArray *parts = g_array_new (FALSE, FALSE, sizeof (TrnSolidGroupPart));
  if (gear->kind == TRN_GEAR_GANTRY)
    add_gantry (parts, gear);
  else if (gear->kind == TRN_GEAR_TURNING_FRAME)
    add_turning_frame (parts, gear);
  else if (gear->kind == TRN_GEAR_CRANE)
    add_crane (parts, gear);
  TrnSolid *group = NULL;
  if (parts->len > 0)
    {
      group = trn_solid_new (TRN_SOLID_GROUP);
      group->n_parts = parts->len;
    }
  TrnSolidGroupPart *list = (TrnSolidGroupPart *)(void *)g_array_free (parts, group == NULL);
  if (group != NULL)
    group->parts = list;
  return group;
}
