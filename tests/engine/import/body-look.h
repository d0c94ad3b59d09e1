/* body-look.h: the box of body.h as it must come out of a file. */
#pragma once

#include "body.h"
#include "fixture.h"

/* The header of a DXF file in millimetres. */
#define DXF_MM "  9\n$INSUNITS\n 70\n     4\n"

/* The body lies in this box, in metres, its faces outwards. */
static inline void
assert_box (const TrnMesh *mesh, const double lo[3], const double hi[3], double volume)
{
  g_assert_nonnull (mesh);
  fixture_assert_box (mesh, trn_vec3_make (lo[0], lo[1], lo[2]),
                      trn_vec3_make (hi[0], hi[1], hi[2]), 1e-9);
  g_assert_cmpfloat_with_epsilon (fixture_volume (mesh), volume, 1e-6 * volume);
}

static inline void
assert_body (const TrnMesh *mesh, double unit_m)
{
  const double lo[3] = { 0, 0, 0 }, hi[3] = { unit_m * 1, unit_m * 2, unit_m * 4 };
  assert_box (mesh, lo, hi, BODY_VOLUME * unit_m * unit_m * unit_m);
  g_assert_cmpuint (mesh->n_triangles, ==, 12);
  g_assert_cmpuint (mesh->n_vertices, ==, 8);
}

static inline TrnMesh *
import_text (Fixture *fixture, const char *name, const char *text, TrnUpAxis up)
{
  fixture_write (fixture, name, text, -1);
  return fixture_import (fixture, name, TRN_LENGTH_UNDECLARED, up);
}

static inline void
assert_text_error (Fixture *fixture, const char *name, const char *text, const char *code)
{
  fixture_write (fixture, name, text, -1);
  g_test_message ("%s", text);
  fixture_assert_error (fixture, fixture_import (fixture, name, TRN_LENGTH_M, TRN_UP_Z), code);
}
