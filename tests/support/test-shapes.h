/* test-shapes.h: small meshes for tests, made by hand so that tests of one folder do not rest on
 * the solids of another. */
#pragma once

#include "bvh.h"
#include "mesh-check.h"
#include "mesh.h"

/* A mesh with its tree and its check. */
typedef struct
{
  TrnMesh *mesh;
  TrnBvh *bvh;
  TrnMeshCheck *check;
} TestBody;

static inline TestBody
test_body_take (TrnMesh *mesh)
{
  return (TestBody){ mesh, trn_bvh_build (mesh, 0), trn_mesh_check_new (mesh) };
}

static inline void
test_body_clear (TestBody *body)
{
  trn_mesh_check_free (body->check);
  trn_bvh_free (body->bvh);
  trn_mesh_unref (body->mesh);
}

/* A closed prism over a convex polygon of @n corners (counter-clockwise from above), from z @lo to
 * @hi. */
static inline TrnMesh *
test_prism (const TrnVec3 *corners, guint n, double lo, double hi)
{
  TrnMeshBuilder *builder = trn_mesh_builder_new ();
  for (guint i = 0; i < n; i++)
    trn_mesh_builder_vertex (builder, trn_vec3_make (corners[i].x, corners[i].y, lo));
  for (guint i = 0; i < n; i++)
    trn_mesh_builder_vertex (builder, trn_vec3_make (corners[i].x, corners[i].y, hi));
  for (guint i = 0; i < n; i++)
    {
      guint j = (i + 1) % n;
      trn_mesh_builder_triangle (builder, i, j, n + j);
      trn_mesh_builder_triangle (builder, i, n + j, n + i);
    }
  for (guint i = 1; i + 1 < n; i++)
    {
      trn_mesh_builder_triangle (builder, 0, i + 1, i);
      trn_mesh_builder_triangle (builder, n, n + i, n + i + 1);
    }
  return trn_mesh_builder_finish (builder);
}

/* A closed box between two corners. */
static inline TrnMesh *
test_box (TrnVec3 lo, TrnVec3 hi)
{
  const TrnVec3 corners[4]
      = { { lo.x, lo.y, 0 }, { hi.x, lo.y, 0 }, { hi.x, hi.y, 0 }, { lo.x, hi.y, 0 } };
  return test_prism (corners, 4, lo.z, hi.z);
}

/* A prism over a regular polygon whose corners lie at @radius; the first at angle 0. */
static inline TrnMesh *
test_drum (guint n, double radius, double lo, double hi)
{
  TrnVec3 *corners = g_new (TrnVec3, n);
  for (guint i = 0; i < n; i++)
    corners[i]
        = trn_vec3_make (radius * cos (2 * G_PI * i / n), radius * sin (2 * G_PI * i / n), 0);
  TrnMesh *mesh = test_prism (corners, n, lo, hi);
  g_free (corners);
  return mesh;
}

/* A closed tube between two regular polygons. */
static inline TrnMesh *
test_tube (guint n, double inner, double outer, double lo, double hi)
{
  TrnMeshBuilder *builder = trn_mesh_builder_new ();
  for (guint i = 0; i < n; i++)
    {
      double c = cos (2 * G_PI * i / n), s = sin (2 * G_PI * i / n);
      trn_mesh_builder_vertex (builder, trn_vec3_make (outer * c, outer * s, lo));
      trn_mesh_builder_vertex (builder, trn_vec3_make (outer * c, outer * s, hi));
      trn_mesh_builder_vertex (builder, trn_vec3_make (inner * c, inner * s, hi));
      trn_mesh_builder_vertex (builder, trn_vec3_make (inner * c, inner * s, lo));
    }
  for (guint i = 0; i < n; i++)
    for (guint side = 0; side < 4; side++)
      {
        guint j = (i + 1) % n, next = (side + 1) % 4;
        trn_mesh_builder_triangle (builder, 4 * i + side, 4 * j + side, 4 * j + next);
        trn_mesh_builder_triangle (builder, 4 * i + side, 4 * j + next, 4 * i + next);
      }
  return trn_mesh_builder_finish (builder);
}

/* A closed, bumpy, roughly round body of 2·bands·(bands − 1) triangles within @radius. */
static inline TrnMesh *
test_blob (GRand *rand, guint bands, double radius)
{
  TrnMeshBuilder *builder = trn_mesh_builder_new ();
  TrnVec3 stretch = { g_rand_double_range (rand, 0.2, 1), g_rand_double_range (rand, 0.2, 1),
                      g_rand_double_range (rand, 0.2, 1) };
  guint top = trn_mesh_builder_vertex (builder, trn_vec3_make (0, 0, radius * stretch.z));
  for (guint i = 1; i < bands; i++)
    for (guint j = 0; j < bands; j++)
      {
        double a = G_PI * i / bands, b = 2 * G_PI * j / bands;
        double r = radius * g_rand_double_range (rand, 0.6, 1);
        trn_mesh_builder_vertex (builder, trn_vec3_make (stretch.x * r * sin (a) * cos (b),
                                                         stretch.y * r * sin (a) * sin (b),
                                                         stretch.z * r * cos (a)));
      }
  guint bottom = trn_mesh_builder_vertex (builder, trn_vec3_make (0, 0, -radius * stretch.z));
  for (guint j = 0; j < bands; j++)
    {
      guint k = (j + 1) % bands, last = 1 + (bands - 2) * bands;
      trn_mesh_builder_triangle (builder, top, 1 + j, 1 + k);
      for (guint i = 0; i + 2 < bands; i++)
        {
          guint p = 1 + i * bands, q = p + bands;
          trn_mesh_builder_triangle (builder, p + j, q + j, q + k);
          trn_mesh_builder_triangle (builder, p + j, q + k, p + k);
        }
      trn_mesh_builder_triangle (builder, last + j, bottom, last + k);
    }
  return trn_mesh_builder_finish (builder);
}
