/* pipe-bridge.c: a pipe bridge along X, 36 m long on five frames, with pipes on two levels. Nothing
 * of it is farther than 1.9 m from its middle plane. Invented. */
#include "models.h"

static const double frame_x_m[] = { -16, -8, 0, 8, 16 };
static const double level_m[] = { 5.2, 7.4 };

static void
frame_and_feet (DmMesh *mesh, DmFrame at)
{
  for (int side = -1; side <= 1; side += 2)
    {
      DmFrame foot = dm_shift (at, 0, 1.5 * side, 0);
      dm_box (mesh, foot, 0.7, 0.7, 0.25);
      dm_box (mesh, dm_shift (foot, 0, 0, 0.24), 0.5, 0.5, 0.05);
      dm_section (mesh, dm_shift (foot, 0, 0, 0.28), 0.3, 0.3, 0.02, 0.012, 7.5);
      for (int bolt = 0; bolt < 4; bolt++)
        dm_hexagon (mesh, dm_shift (foot, bolt % 2 ? 0.2 : -0.2, bolt / 2 ? 0.2 : -0.2, 0.285),
                    0.05, 0.03);
    }
  for (guint i = 0; i < G_N_ELEMENTS (level_m); i++)
    {
      DmFrame beam = dm_turn (dm_shift (at, 0, 1.85, level_m[i] - 0.152), 0, 90);
      dm_section (mesh, beam, 0.22, 0.3, 0.018, 0.01, 3.7);
    }
}

static void
steelwork (DmMesh *mesh, DmFrame at)
{
  dm_mesh_part (mesh, "frames");
  for (guint i = 0; i < G_N_ELEMENTS (frame_x_m); i++)
    frame_and_feet (mesh, dm_shift (at, frame_x_m[i], 0, 0));
  dm_mesh_part (mesh, "girders");
  for (guint i = 0; i < G_N_ELEMENTS (level_m); i++)
    for (int side = -1; side <= 1; side += 2)
      {
        DmFrame end = dm_shift (at, -18, 1.62 * side, level_m[i] - 0.46);
        dm_section (mesh, dm_turn (dm_turn (end, 1, 90), 2, 90), 0.2, 0.28, 0.016, 0.01, 36);
      }
  dm_mesh_part (mesh, "bracing");
  for (guint i = 0; i + 1 < G_N_ELEMENTS (frame_x_m); i++)
    for (int side = -1; side <= 1; side += 2)
      {
        const double y = 1.5 * side, x = frame_x_m[i];
        const DmPoint rise[] = { { x, y, 0.5 + 0.01 * side }, { x + 8, y, 4.6 } };
        const DmPoint fall[] = { { x, y + 0.1, 4.6 }, { x + 8, y + 0.1, 0.5 } };
        if (i % 3 == 0)
          {
            dm_pipe (mesh, at, rise, 2, 0.05, 0, 16);
            dm_pipe (mesh, at, fall, 2, 0.05, 0, 16);
          }
      }
}

static void
pipe_flanges (DmMesh *mesh, DmFrame at, double radius, guint bolts)
{
  DmFrame along = dm_turn (at, 1, 90);
  dm_tube (mesh, along, 1.65 * radius, 0.95 * radius, 0.035, 32);
  dm_tube (mesh, dm_shift (along, 0, 0, 0.039), 1.65 * radius, 0.95 * radius, 0.035, 32);
  dm_bolt_circle (mesh, dm_shift (along, 0, 0, 0.074), bolts, 1.36 * radius, 0.26 * radius, 0.074);
}

/* One pipe along the bridge with its shoes and flanges; at @drop_x, where that is on the bridge, it
 * goes down to 0.9 m above grade. */
static void
bridge_pipe (DmMesh *mesh, DmFrame at, double y, double z, double radius, double drop_x)
{
  const DmPoint straight[] = { { -18, y, z }, { 18, y, z } };
  const DmPoint drop[] = { { -18, y, z }, { drop_x, y, z }, { drop_x, y, 0.9 } };
  if (drop_x < 18)
    dm_pipe (mesh, at, drop, 3, radius, 3 * radius, 28);
  else
    dm_pipe (mesh, at, straight, 2, radius, 0, 28);
  for (guint i = 0; i < G_N_ELEMENTS (frame_x_m); i++)
    if (frame_x_m[i] < drop_x - 1)
      {
        double height = z - radius - (z > 6 ? level_m[1] : level_m[0]);
        dm_box (mesh, dm_shift (at, frame_x_m[i], y, z - radius - height - 0.003), 0.3,
                1.1 * radius, height + 0.03);
      }
  for (double x = -13.2; x < MIN (drop_x, 18) - 3; x += 9.7)
    pipe_flanges (mesh, dm_shift (at, x + 2 * y, y, z), radius, 8);
}

static void
cable_tray (DmMesh *mesh, DmFrame at)
{
  dm_mesh_part (mesh, "cable-tray");
  dm_box (mesh, at, 36, 0.4, 0.004);
  for (int side = -1; side <= 1; side += 2)
    dm_box (mesh, dm_shift (at, 0, 0.2 * side, -0.001), 35.99, 0.006, 0.1);
  for (int i = 0; i < 6; i++)
    {
      const DmPoint cable[]
          = { { -17.9, -0.14 + 0.055 * i, 0.03 }, { 17.9, -0.14 + 0.055 * i, 0.03 } };
      dm_pipe (mesh, at, cable, 2, 0.022, 0, 12);
    }
}

static void
handrail (DmMesh *mesh, DmFrame at)
{
  dm_mesh_part (mesh, "handrail");
  for (int bar = 0; bar < 2; bar++)
    {
      const DmPoint rail[] = { { -18, 0, 0.55 * (bar + 1) }, { 18, 0, 0.55 * (bar + 1) } };
      dm_pipe (mesh, at, rail, 2, 0.022, 0, 12);
    }
  for (int i = 0; i < 25; i++)
    dm_cylinder (mesh, dm_shift (at, -17.9 + 35.8 * i / 24, 0, 0), 0.02, 1.09, 12);
}

DmMesh *
dm_pipe_bridge_new (void)
{
  DmMesh *mesh = dm_mesh_new (0.5);
  DmFrame at = dm_frame_make (0, 0, 0);
  steelwork (mesh, at);
  dm_mesh_part (mesh, "lower-pipes");
  bridge_pipe (mesh, at, -1.15, 5.6, 0.25, 99);
  bridge_pipe (mesh, at, -0.45, 5.5, 0.16, 11.5);
  bridge_pipe (mesh, at, 0.15, 5.5, 0.11, 99);
  bridge_pipe (mesh, at, 0.95, 5.65, 0.3, 13.5);
  dm_mesh_part (mesh, "upper-pipes");
  bridge_pipe (mesh, at, -1.2, 7.7, 0.16, 99);
  bridge_pipe (mesh, at, -0.65, 7.7, 0.11, 99);
  bridge_pipe (mesh, at, -0.15, 7.65, 0.08, 99);
  cable_tray (mesh, dm_shift (at, 0, 0.6, 7.45));
  handrail (mesh, dm_shift (at, 0, 1.7, 7.2));
  return mesh;
}
