/* fixture.h: small mesh files in a folder of their own, for the tests of the import. */
#pragma once

#include "import.h"

typedef struct
{
  char *folder;
  TrnDiags *diags;
  char sha256[65];
  TrnImportReport report; /* of the last import that gave a mesh */
  GArray *referred;       /* of TrnImportReferred, of the last import */
} Fixture;

void fixture_set_up (Fixture *fixture, gconstpointer data);
void fixture_tear_down (Fixture *fixture, gconstpointer data);

/* The path of @name in the folder, owned. */
char *fixture_path (const Fixture *fixture, const char *name);
void fixture_write (const Fixture *fixture, const char *name, const void *bytes, gssize length);
/* Imports @name with default limits; the diagnostics are those of this call alone. */
TrnMesh *fixture_import (Fixture *fixture, const char *name, TrnLengthUnit unit, TrnUpAxis up);

/* The diagnostic with this code, or NULL. */
const TrnDiag *fixture_find (const Fixture *fixture, const char *code);
/* Asserts that the import failed with one error, of this code. */
void fixture_assert_error (const Fixture *fixture, const TrnMesh *mesh, const char *code);

/* Volume enclosed, positive when the triangles face outwards. */
double fixture_volume (const TrnMesh *mesh);
void fixture_assert_box (const TrnMesh *mesh, TrnVec3 lo, TrnVec3 hi, double within);

/* A binary STL of the box 0 … @size, facets outwards. */
GByteArray *fixture_stl_box (TrnVec3 size);
/* The buffer of a glTF box 0 … @size: 8 float positions, then 36 guint16 indices: 168 bytes. */
GByteArray *fixture_gltf_box (TrnVec3 size);
/* A glTF text over that buffer: @uri may be NULL; @nodes is the inside of "nodes", @roots that of
 * the scene's "nodes", @extra goes into the root object. */
char *fixture_gltf_text (const char *uri, const char *nodes, const char *roots, const char *extra);
/* A GLB of a JSON text and a buffer. */
GByteArray *fixture_glb (const char *json, const GByteArray *bin);
