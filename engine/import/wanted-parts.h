/* wanted-parts.h: the objects of a mesh file that a plan names, all the others left out. */
#pragma once

#include "diag.h"
#include "mesh.h"

/* Every one of @parts (ended by NULL; NULL: all are wanted) must be there. FALSE after an error
 * for each that is not, about the file at @path. */
gboolean trn_wanted_parts_check (const char *const *parts, const TrnMesh *mesh, const char *path,
                                 TrnDiags *diags);

/* Those of @mesh alone; consumes it. */
TrnMesh *trn_wanted_parts_take (const char *const *parts, TrnMesh *mesh);
