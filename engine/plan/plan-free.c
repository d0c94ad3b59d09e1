/* Plans are counted by reference, so that an edit, a background check and what is shown can share
 * one; this file gives back all that a plan owns. */
#include "plan-read.h"

static void
shape_clear (TrnShape *shape)
{
  trn_solid_free (shape->solid);
  trn_mesh_file_free (shape->mesh);
}

static void
structure_clear (TrnStructure *structure)
{
  g_free (structure->id);
  g_free (structure->name);
  g_free (structure->pointer);
  shape_clear (&structure->shape);
}

static void
component_clear (TrnComponent *component)
{
  g_free (component->id);
  g_free (component->name);
  g_free (component->pointer);
  g_free (component->mass_source);
  shape_clear (&component->shape);
  for (guint i = 0; i < component->n_points; i++)
    g_free (component->points[i].name);
  g_free (component->points);
}

static void
move_clear (TrnMove *move)
{
  g_free (move->pointer);
  g_free (move->about.name);
  g_free (move->head.name);
  g_free (move->tail.name);
  g_free (move->hold_point);
}

static void
lift_clear (TrnLift *lift)
{
  g_free (lift->id);
  g_free (lift->name);
  g_free (lift->pointer);
  g_free (lift->hook.name);
  for (guint i = 0; i < lift->n_moves; i++)
    move_clear (&lift->moves[i]);
  g_free (lift->moves);
  for (guint i = 0; i < lift->n_seats; i++)
    {
      g_free (lift->seats[i].on);
      g_free (lift->seats[i].pointer);
    }
  g_free (lift->seats);
  for (guint i = 0; i < lift->n_keep_clear_of; i++)
    g_free (lift->keep_clear_of[i].id);
  g_free (lift->keep_clear_of);
  trn_rigging_clear (&lift->rigging);
}

static void
change_clear (TrnChange *change)
{
  g_free (change->id);
  g_free (change->name);
  g_free (change->pointer);
  g_free (change->what);
  g_free (change->with);
}

static void
plan_clear (gpointer data)
{
  TrnPlan *plan = data;
  g_free (plan->file);
  g_free (plan->base_name);
  g_free (plan->title);
  g_free (plan->notes);
  for (guint i = 0; i < plan->n_structures; i++)
    structure_clear (&plan->structures[i]);
  g_free (plan->structures);
  for (guint i = 0; i < plan->n_components; i++)
    component_clear (&plan->components[i]);
  g_free (plan->components);
  for (guint i = 0; i < plan->n_gear; i++)
    trn_gear_clear (&plan->gear[i]);
  g_free (plan->gear);
  g_free (plan->approach.source);
  trn_loads_clear (plan);
  for (guint i = 0; i < plan->n_lifts; i++)
    lift_clear (&plan->lifts[i]);
  g_free (plan->lifts);
  for (guint i = 0; i < plan->n_changes; i++)
    change_clear (&plan->changes[i]);
  g_free (plan->changes);
  g_free (plan->programme);
  g_clear_pointer (&plan->document, json_node_unref);
  g_clear_pointer (&plan->lines, g_hash_table_unref);
}

TrnPlan *
trn_plan_ref (TrnPlan *plan)
{
  return g_atomic_rc_box_acquire (plan);
}

void
trn_plan_unref (TrnPlan *plan)
{
  if (plan != NULL)
    g_atomic_rc_box_release_full (plan, plan_clear);
}
