/* valve-assembly.c: the sections of a large valve, each standing on z = 0 about the common axis:
 * body (stays in its pit), bonnet, actuator, disc with stem, and the changed disc with guide wings.
 * The bore of the body is 0.95 m in radius, that of the bonnet 0.35 m. Invented. */
#include "models.h"

#include <math.h>

/* Feet at z = 0, the ledge that the disc rests on at 0.7 m, the flange that the bonnet rests on at
 * 2.8 m. A pipe goes out to both sides, to x = ±2.8 m. */
DmMesh *
dm_valve_body_new (void)
{
  const DmUV chest[] = { { 0, 0.3 },     { 0.9, 0.3 },   { 1.2, 0.5 },  { 1.2, 2.62 },
                         { 1.45, 2.68 }, { 1.45, 2.8 },  { 0.95, 2.8 }, { 0.95, 1.0 },
                         { 0.95, 0.8 },  { 0.75, 0.72 }, { 0.7, 0.7 },  { 0.0, 0.7 } };
  DmMesh *mesh = dm_mesh_new (0.12);
  DmFrame at = dm_frame_make (0, 0, 0);
  dm_mesh_part (mesh, "chest");
  dm_revolve (mesh, at, chest, G_N_ELEMENTS (chest), 96);
  dm_mesh_part (mesh, "feet");
  for (int i = 0; i < 4; i++)
    {
      DmFrame foot = dm_polar (at, 45 + 90 * i, 0.75, 0);
      dm_box (mesh, foot, 0.5, 0.4, 0.04);
      dm_box (mesh, dm_shift (foot, 0, 0, 0.03), 0.3, 0.1, 0.4);
    }
  dm_mesh_part (mesh, "branches");
  for (int side = 0; side < 2; side++)
    {
      DmFrame out = dm_turn (dm_turn (dm_shift (at, 0, 0, 1.45), 2, 180 * side), 1, 90);
      dm_tube (mesh, dm_shift (out, 0, 0, 1.0), 0.6, 0.55, 1.8, 64);
      dm_tube (mesh, dm_shift (out, 0, 0, 1.75), 0.85, 0.59, 0.08, 64);
      dm_tube (mesh, dm_shift (out, 0, 0, 1.834), 0.85, 0.59, 0.08, 64);
      dm_bolt_circle (mesh, dm_shift (out, 0, 0, 1.914), 20, 0.75, 0.05, 0.164);
    }
  dm_mesh_part (mesh, "gussets");
  for (int i = 0; i < 16; i++)
    dm_gusset (mesh, dm_turn (dm_polar (at, 22.5 * i + 11.25, 1.19, 2.66), 0, 180), 0.2, 0.4, 0.02);
  return mesh;
}

/* A dome between two flanges, 1.5 m high; hollow below, with a bore for the stem. */
DmMesh *
dm_valve_bonnet_new (void)
{
  DmUV outline[48];
  guint n = 0;
  outline[n++] = (DmUV){ 0.95, 0 };
  outline[n++] = (DmUV){ 1.45, 0 };
  outline[n++] = (DmUV){ 1.45, 0.12 };
  for (int i = 0; i <= 12; i++)
    {
      double a = G_PI / 2 * i / 12;
      outline[n++] = (DmUV){ 0.45 + 0.65 * cos (a), 0.14 + 0.96 * sin (a) };
    }
  outline[n++] = (DmUV){ 0.45, 1.4 };
  outline[n++] = (DmUV){ 0.8, 1.42 };
  outline[n++] = (DmUV){ 0.8, 1.5 };
  outline[n++] = (DmUV){ 0.35, 1.5 };
  outline[n++] = (DmUV){ 0.35, 0.98 };
  for (int i = 11; i >= 0; i--)
    {
      double a = G_PI / 2 * i / 12;
      outline[n++] = (DmUV){ 0.36 + 0.59 * cos (a), 0.1 + 0.86 * sin (a) };
    }
  DmMesh *mesh = dm_mesh_new (0.12);
  DmFrame at = dm_frame_make (0, 0, 0);
  dm_mesh_part (mesh, "dome");
  dm_revolve (mesh, at, outline, n, 96);
  dm_mesh_part (mesh, "ribs");
  for (int i = 0; i < 12; i++)
    dm_gusset (mesh, dm_polar (at, 30 * i + 15, 0.98, 0.11), 0.28, 0.35, 0.03);
  dm_mesh_part (mesh, "bolts");
  for (int i = 0; i < 24; i++)
    dm_hexagon (mesh, dm_polar (at, 15 * i + 7.5, 1.35, 0.118), 0.07, 0.05);
  dm_mesh_part (mesh, "eyes");
  for (int i = 0; i < 4; i++)
    {
      DmFrame eye = dm_turn (dm_polar (at, 90 * i + 45, 1.2, 0.25), 0, 90);
      dm_tube (mesh, dm_shift (eye, 0, 0, -0.02), 0.12, 0.05, 0.04, 32);
      dm_box (mesh, dm_polar (at, 90 * i + 45, 1.2, 0.11), 0.18, 0.034, 0.06);
    }
  return mesh;
}

/* A hollow yoke of 0.9 m round the end of the stem, the drive on top, a gear case and a handwheel
 * at the side. */
DmMesh *
dm_valve_actuator_new (void)
{
  const DmUV drive[] = { { 0, 0.88 },  { 0.75, 0.88 }, { 0.9, 1.0 }, { 0.9, 1.95 },
                         { 0.8, 2.1 }, { 0.3, 2.2 },   { 0, 2.2 } };
  DmMesh *mesh = dm_mesh_new (0.14);
  DmFrame at = dm_frame_make (0, 0, 0);
  dm_mesh_part (mesh, "yoke");
  dm_tube (mesh, at, 0.8, 0.5, 0.08, 64);
  for (int i = 0; i < 4; i++)
    dm_arc_plate (mesh, dm_shift (dm_turn (at, 2, 90 * i), 0, 0, 0.07), 0.66, 0.56, -25, 25, 10,
                  0.83);
  for (int i = 0; i < 16; i++)
    dm_hexagon (mesh, dm_polar (at, 22.5 * i, 0.73, 0.078), 0.07, 0.05);
  dm_mesh_part (mesh, "drive");
  dm_revolve (mesh, at, drive, G_N_ELEMENTS (drive), 72);
  for (int i = 0; i < 24; i++)
    dm_box (mesh, dm_polar (at, 15 * i, 0.91, 1.08), 0.08, 0.015, 0.8);
  dm_mesh_part (mesh, "gear-case");
  dm_box (mesh, dm_shift (at, 1.05, 0, 1.2), 0.5, 0.5, 0.5);
  DmFrame wheel = dm_turn (dm_shift (at, 1.28, 0, 1.45), 1, 90);
  dm_cylinder (mesh, wheel, 0.05, 0.25, 24);
  dm_tube (mesh, dm_shift (wheel, 0, 0, 0.18), 0.36, 0.31, 0.04, 48);
  for (int i = 0; i < 3; i++)
    dm_box (mesh, dm_polar (wheel, 120 * i, 0.18, 0.19), 0.32, 0.03, 0.02);
  return mesh;
}

/* The disc and its stem. */
static void
disc_and_stem (DmMesh *mesh, DmFrame at, double radius, double stem, double top)
{
  const DmUV plug[] = {
    { 0, 0 },     { radius - 0.08, 0 }, { radius, 0.1 }, { radius, 0.5 },      { 0.45, 0.75 },
    { 0.4, 1.1 }, { 0.3, 1.3 },         { stem, 1.34 },  { stem, top - 0.03 }, { stem - 0.03, top },
    { 0, top }
  };
  dm_mesh_part (mesh, "disc");
  dm_revolve (mesh, at, plug, G_N_ELEMENTS (plug), 72);
  dm_mesh_part (mesh, "collars");
  dm_tube (mesh, dm_shift (at, 0, 0, 1.6), stem + 0.04, stem - 0.02, 0.05, 48);
  dm_tube (mesh, dm_shift (at, 0, 0, top - 0.5), stem + 0.02, stem - 0.02, 0.3, 48);
}

DmMesh *
dm_valve_disc_new (void)
{
  DmMesh *mesh = dm_mesh_new (0.1);
  disc_and_stem (mesh, dm_frame_make (0, 0, 0), 0.62, 0.12, 3.9);
  return mesh;
}

/* The changed version: wider, a thicker stem, and six wings that guide it in the body. */
DmMesh *
dm_valve_winged_disc_new (void)
{
  DmMesh *mesh = dm_mesh_new (0.1);
  DmFrame at = dm_frame_make (0, 0, 0);
  disc_and_stem (mesh, at, 0.66, 0.15, 4.1);
  dm_mesh_part (mesh, "wings");
  for (int i = 0; i < 6; i++)
    {
      DmFrame wing = dm_polar (at, 60 * i, 0.56, 0.12);
      dm_box (mesh, dm_shift (wing, 0.02, 0, 0), 0.28, 0.04, 0.9);
      dm_gusset (mesh, dm_shift (wing, -0.2, 0, 0.88), 0.34, 0.3, 0.036);
    }
  return mesh;
}

/* A guard rail along X, 4 m long and 1.1 m high. */
DmMesh *
dm_guard_rail_new (void)
{
  DmMesh *mesh = dm_mesh_new (0.3);
  DmFrame at = dm_frame_make (0, 0, 0);
  dm_mesh_part (mesh, "rail");
  for (int bar = 0; bar < 2; bar++)
    {
      const DmPoint rail[] = { { -2, 0, 0.54 * (bar + 1) }, { 2, 0, 0.54 * (bar + 1) } };
      dm_pipe (mesh, at, rail, 2, 0.022, 0, 16);
    }
  for (int i = 0; i < 3; i++)
    {
      dm_cylinder (mesh, dm_shift (at, -1.9 + 1.9 * i, 0, 0), 0.024, 1.09, 16);
      dm_box (mesh, dm_shift (at, -1.9 + 1.9 * i, 0, 0), 0.2, 0.2, 0.012);
    }
  return mesh;
}
