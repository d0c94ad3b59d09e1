/* models.h: the test models of the import library, and damaged versions of them.
 *
 * They are what Debian packs as assimp-testmodels; tools/test installs it. */
#pragma once

#include "fixture.h"

#define MODELS "/usr/share/assimp/models"

typedef struct
{
  char *path; /* below MODELS */
  /* As the library reads it; filled by who asks it. */
  gboolean whole;
  guint64 triangles;
  double extents[3]; /* of all that it shows, the smallest first */
} Model;

/* All models of the formats that are offered, by name. */
GPtrArray *models_new (void);

/* One of a format that is drawn first, so that each format has its share. */
const Model *models_draw (const GPtrArray *models);

/* Draws a damage (cut short, bits turned, counts enlarged, references turned elsewhere) and writes
 * the damaged model into @fixture with the files that it may refer to beside it. Returns the name
 * of the file, owned; NULL where the model is empty or larger than 8 MiB. */
char *models_write_damaged (const Fixture *fixture, const Model *model);
