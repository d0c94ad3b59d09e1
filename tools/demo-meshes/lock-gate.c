/* lock-gate.c: a framed steel leaf of a lock gate, upright: 9 m along X, 1.6 m along Y, 7 m high,
 * standing on z = 0. The skin is its flat face at y = −0.8 m; two lifting lugs stand 0.25 m above
 * its top. And the house that stands beside its laydown. Invented. */
#include "models.h"

#define WIDTH_M 9.0
#define HEIGHT_M 7.0
#define SKIN_Y_M -0.8
#define LUG_Y_M -0.1

static const double girder_z_m[] = { 0.15, 1.25, 2.3, 3.4, 4.55, 5.75, 6.85 };

/* Level girders from one end post to the other: web plates, a flange on the open side. */
static void
girders (DmMesh *mesh, DmFrame at)
{
  dm_mesh_part (mesh, "girders");
  for (guint i = 0; i < G_N_ELEMENTS (girder_z_m); i++)
    {
      DmFrame girder = dm_shift (at, 0, 0, girder_z_m[i]);
      dm_box (mesh, dm_shift (girder, 0, -0.005, -0.01), WIDTH_M - 0.1, 1.57, 0.02);
      dm_box (mesh, dm_shift (girder, 0, 0.785, -0.15 + 1e-3 * i), WIDTH_M - 0.12, 0.03, 0.28);
    }
}

/* Upright ribs on the skin, a tee each, and deep diaphragms between the girders. */
static void
ribs (DmMesh *mesh, DmFrame at)
{
  dm_mesh_part (mesh, "ribs");
  for (int i = 0; i < 17; i++)
    {
      DmFrame rib = dm_shift (at, -4.0 + 0.5 * i, 0, 0.03);
      dm_box (mesh, dm_shift (rib, 0, SKIN_Y_M + 0.115, 0), 0.012, 0.2, HEIGHT_M - 0.06);
      dm_box (mesh, dm_shift (rib, 0, SKIN_Y_M + 0.22, 0.002), 0.1, 0.015, HEIGHT_M - 0.07);
    }
  dm_mesh_part (mesh, "diaphragms");
  for (int i = 0; i < 4; i++)
    for (guint k = 0; k + 1 < G_N_ELEMENTS (girder_z_m); k++)
      {
        DmFrame plate = dm_shift (at, -3.0 + 2 * i, -0.01, girder_z_m[k] + 0.008);
        dm_box (mesh, plate, 0.016, 1.5, girder_z_m[k + 1] - girder_z_m[k] - 0.016);
      }
}

static void
skin_and_posts (DmMesh *mesh, DmFrame at)
{
  dm_mesh_part (mesh, "skin");
  dm_box (mesh, dm_shift (at, 0, SKIN_Y_M + 0.01, 0), WIDTH_M - 0.04, 0.02, HEIGHT_M);
  dm_mesh_part (mesh, "posts");
  for (int side = -1; side <= 1; side += 2)
    {
      dm_box (mesh, dm_shift (at, 4.43 * side, 0, 0.004), 0.1, 1.58, HEIGHT_M - 0.01);
      dm_box (mesh, dm_shift (at, 4.475 * side, -0.55, 0.006), 0.05, 0.2, HEIGHT_M - 0.02);
      for (int i = 0; i < 22; i++)
        dm_hexagon (mesh,
                    dm_turn (dm_shift (at, 4.38 * side, -0.55, 0.25 + 0.31 * i), 1, -90 * side),
                    0.04, 0.03);
    }
  dm_box (mesh, dm_shift (at, 0, 0, 0), WIDTH_M - 0.3, 0.3, 0.14);
  dm_box (mesh, dm_shift (at, 0, 0, HEIGHT_M - 0.022), WIDTH_M - 0.08, 1.56, 0.02);
}

static void
bracing (DmMesh *mesh, DmFrame at)
{
  dm_mesh_part (mesh, "bracing");
  for (int i = 0; i < 4; i++)
    {
      double x = -4.2 + 2.1 * i, up = i % 2 ? 6.6 : 0.4, down = i % 2 ? 0.4 : 6.6;
      const DmPoint bar[] = { { x, 0.68 + 0.01 * i, up }, { x + 2.1, 0.68 + 0.01 * i, down } };
      dm_pipe (mesh, at, bar, 2, 0.06, 0, 24);
    }
}

/* Over the centre of gravity, which lies towards the skin. */
static void
lugs (DmMesh *mesh, DmFrame at)
{
  const DmUV cheek[] = { { -0.3, -0.3 }, { 0.3, -0.3 },   { 0.3, -0.05 },
                         { 0.13, 0.06 }, { -0.13, 0.06 }, { -0.3, -0.05 } };
  dm_mesh_part (mesh, "lugs");
  for (int side = -1; side <= 1; side += 2)
    {
      DmFrame face = dm_turn (dm_shift (at, 2.4 * side, LUG_Y_M + 0.02, HEIGHT_M + 0.1), 0, 90);
      dm_prism (mesh, face, cheek, G_N_ELEMENTS (cheek), 0.04);
      dm_tube (mesh, dm_shift (face, 0, 0, -0.01), 0.15, 0.05, 0.06, 48);
    }
}

DmMesh *
dm_gate_leaf_new (void)
{
  DmMesh *mesh = dm_mesh_new (0.22);
  DmFrame at = dm_frame_make (0, 0, 0);
  skin_and_posts (mesh, at);
  girders (mesh, at);
  ribs (mesh, at);
  bracing (mesh, at);
  lugs (mesh, at);
  return mesh;
}

/* A house of 12 × 6 m with a saddle roof, on the middle of its base. */
DmMesh *
dm_gatehouse_new (void)
{
  const DmUV gable[] = { { -3.0, 0 }, { 3.0, 0 }, { 3.0, 4.2 }, { 0, 6.2 }, { -3.0, 4.2 } };
  DmMesh *mesh = dm_mesh_new (1.0);
  DmFrame at = dm_frame_make (0, 0, 0);
  dm_mesh_part (mesh, "house");
  DmFrame end = dm_turn (dm_turn (dm_shift (at, -6, 0, 0), 2, 90), 0, 90);
  dm_prism (mesh, end, gable, G_N_ELEMENTS (gable), 12);
  dm_mesh_part (mesh, "chimney");
  dm_box (mesh, dm_shift (at, 3.5, 1.2, 4.5), 0.7, 0.7, 2.6);
  dm_mesh_part (mesh, "door");
  dm_box (mesh, dm_shift (at, -2, -3.0, 0.05), 1.1, 0.12, 2.1);
  for (int i = 0; i < 4; i++)
    dm_box (mesh, dm_shift (at, -4.6 + 2.9 * i + 0.3, -3.0, 1.0), 1.0, 0.08, 1.3);
  return mesh;
}
