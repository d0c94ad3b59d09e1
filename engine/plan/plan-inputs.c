/* plan-inputs.c: which files a plan is read from, so that nothing is written over one of them. */
#include "plan.h"
#include "write-file.h"

static gboolean
is_mesh_of (const TrnShape *shape, const char *path)
{
  return shape->mesh != NULL && shape->mesh->path != NULL
         && trn_is_same_file (shape->mesh->path, path);
}

gboolean
trn_plan_reads (const TrnPlan *plan, const char *path)
{
  if (trn_is_same_file (plan->file, path))
    return TRUE;
  for (guint i = 0; i < plan->n_structures; i++)
    if (is_mesh_of (&plan->structures[i].shape, path))
      return TRUE;
  for (guint i = 0; i < plan->n_components; i++)
    if (is_mesh_of (&plan->components[i].shape, path))
      return TRUE;
  return FALSE;
}
