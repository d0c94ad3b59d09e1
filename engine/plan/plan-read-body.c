/* Structures and components. */
#include "plan-read.h"

#include <math.h>

/* One of `solid` and `mesh`. */
static TrnShape
read_shape (TrnReader *reader, const TrnValue *value)
{
  TrnValue solid = trn_value_member (value, "solid");
  TrnValue mesh = trn_value_member (value, "mesh");
  if ((solid.node != NULL) == (mesh.node != NULL))
    trn_read_fault (reader, value,
                    solid.node != NULL ? "plan/solid-and-mesh" : "plan/solid-or-mesh");
  return (TrnShape){
    .solid = trn_read_solid (reader, &solid),
    .mesh = trn_read_mesh_file (reader, &mesh),
  };
}

static void
read_structure (TrnReader *reader, const TrnValue *value, TrnStructure *structure)
{
  static const char *const keys[]
      = { "id", "name", "solid", "mesh", "at", "keep_clear", "survey_tolerance", NULL };
  structure->pointer = trn_value_pointer_dup (value);
  if (!trn_read_object (reader, value, keys))
    {
      reader->ids_lost = TRUE;
      return;
    }
  structure->id = trn_read_id (reader, value, "id", reader->bodies);
  structure->name = trn_read_name (reader, value, structure->id);
  structure->shape = read_shape (reader, value);
  structure->placed = trn_read_at (reader, value, &structure->at);
  structure->keep_clear_m
      = trn_read_number (reader, value, "keep_clear", TRN_OPTIONAL, &trn_range_distance);
  const double tolerance_m
      = trn_read_number (reader, value, "survey_tolerance", TRN_OPTIONAL, &trn_range_distance);
  structure->survey_tolerance_m = trn_or (tolerance_m, 0);
}

void
trn_read_structures (TrnReader *reader, const TrnValue *document)
{
  TrnValue list = trn_read_member (reader, document, "structures", TRN_REQUIRED);
  if (!trn_read_array (reader, &list))
    {
      reader->ids_lost = TRUE;
      return;
    }
  TrnPlan *plan = reader->plan;
  plan->n_structures = trn_value_length (&list);
  plan->structures = g_new0 (TrnStructure, plan->n_structures);
  for (guint i = 0; i < plan->n_structures; i++)
    {
      TrnValue value = trn_value_element (&list, i);
      read_structure (reader, &value, &plan->structures[i]);
    }
}

/* The keys are the plan's own names; those that begin with x- are kept for others, as anywhere. */
static void
read_points (TrnReader *reader, const TrnValue *value, TrnComponent *component)
{
  TrnValue points = trn_value_member (value, "points");
  if (!trn_read_object (reader, &points, NULL))
    return;
  JsonObject *object = json_node_get_object (points.node);
  if (!trn_read_few (reader, &points, json_object_get_size (object)))
    return;
  component->points = g_new0 (TrnNamedPoint, json_object_get_size (object));
  JsonObjectIter iter;
  const char *name;
  json_object_iter_init_ordered (&iter, object);
  while (json_object_iter_next_ordered (&iter, &name, NULL))
    {
      if (g_str_has_prefix (name, "x-"))
        continue;
      TrnNamedPoint *point = &component->points[component->n_points++];
      point->name = g_strdup (name);
      point->place = trn_read_vec3 (reader, &points, name, TRN_REQUIRED, &trn_range_length);
    }
}

static TrnVec3
read_cog_box (TrnReader *reader, const TrnValue *value)
{
  TrnVec3 box = trn_read_vec3 (reader, value, "cog_box", TRN_OPTIONAL, &trn_range_distance);
  return trn_vec3_make (trn_or (box.x, 0), trn_or (box.y, 0), trn_or (box.z, 0));
}

static void
read_component (TrnReader *reader, const TrnValue *value, TrnComponent *component)
{
  static const char *const keys[]
      = { "id",  "name",    "solid",  "mesh", "mass",       "mass_source", "mass_factor",
          "cog", "cog_box", "points", "at",   "keep_clear", NULL };
  component->pointer = trn_value_pointer_dup (value);
  if (!trn_read_object (reader, value, keys))
    {
      reader->ids_lost = TRUE;
      return;
    }
  component->id = trn_read_id (reader, value, "id", reader->bodies);
  component->name = trn_read_name (reader, value, component->id);
  component->shape = read_shape (reader, value);
  component->mass_kg = trn_read_number (reader, value, "mass", TRN_OPTIONAL, &trn_range_mass);
  component->mass_source = trn_read_text (reader, value, "mass_source", TRN_OPTIONAL);
  const double factor
      = trn_read_number (reader, value, "mass_factor", TRN_OPTIONAL, &trn_range_mass_factor);
  component->mass_factor = trn_or (factor, 1);
  component->cog = trn_read_vec3 (reader, value, "cog", TRN_OPTIONAL, &trn_range_length);
  component->cog_box = read_cog_box (reader, value);
  read_points (reader, value, component);
  component->placed = trn_read_at (reader, value, &component->at);
  component->keep_clear_m
      = trn_read_number (reader, value, "keep_clear", TRN_OPTIONAL, &trn_range_distance);
}

void
trn_read_components (TrnReader *reader, const TrnValue *document)
{
  TrnValue list = trn_read_member (reader, document, "components", TRN_REQUIRED);
  if (!trn_read_array (reader, &list))
    {
      reader->ids_lost = TRUE;
      return;
    }
  TrnPlan *plan = reader->plan;
  plan->n_components = trn_value_length (&list);
  plan->components = g_new0 (TrnComponent, plan->n_components);
  for (guint i = 0; i < plan->n_components; i++)
    {
      TrnValue value = trn_value_element (&list, i);
      read_component (reader, &value, &plan->components[i]);
    }
}
