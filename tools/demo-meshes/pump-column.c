/* pump-column.c: the column of a vertical pump, upright, with the lip of its suction bell at z = 0
 * and the underside of its base plate, which rests on the collar, at z = 17.5 m. Below the base
 * plate nothing is farther than 1.0 m from its axis. The tail lug and the nozzle point to −X, the
 * trunnions to ±Y. Invented; proportions are those that such pumps commonly have. */
#include "models.h"

#include <math.h>

#define SEGMENTS 96
#define PIPE_OUTER_M 0.60
#define PIPE_INNER_M 0.57
#define BASE_Z_M 17.5

static const double flange_z_m[] = { 3.2, 8.0, 12.8 };

static void
suction_bell (DmMesh *mesh, DmFrame at)
{
  DmUV outline[48];
  guint n = 0;
  for (int i = 0; i <= 20; i++)
    {
      double t = i / 20.0;
      outline[n++] = (DmUV){ 0.61 + 0.37 * pow (1 - t, 2.2), 1.12 * t };
    }
  for (int i = 20; i >= 0; i--)
    {
      double t = i / 20.0;
      outline[n++] = (DmUV){ 0.58 + 0.37 * pow (1 - t, 2.2), 1.12 * t };
    }
  dm_mesh_part (mesh, "suction-bell");
  dm_revolve (mesh, at, outline, n, SEGMENTS);
  dm_tube (mesh, dm_shift (at, 0, 0, 0.012), 1.0, 0.955, 0.05, SEGMENTS);
  for (int i = 0; i < 8; i++)
    dm_gusset (mesh, dm_polar (at, 45 * i + 22.5, 0.60, 0.45), 0.2, 0.6, 0.02);
}

/* Three bowls, each a bulge between two small flanges. */
static void
bowls (DmMesh *mesh, DmFrame at)
{
  dm_mesh_part (mesh, "bowls");
  for (int bowl = 0; bowl < 3; bowl++)
    {
      DmFrame base = dm_shift (at, 0, 0, 1.1 + 0.69 * bowl);
      DmUV outline[32];
      guint n = 0;
      for (int i = 0; i <= 14; i++)
        outline[n++] = (DmUV){ 0.615 + 0.2 * sin (G_PI * i / 14), 0.06 + 0.56 * i / 14 };
      for (int i = 14; i >= 0; i--)
        outline[n++] = (DmUV){ 0.585 + 0.2 * sin (G_PI * i / 14), 0.06 + 0.56 * i / 14 };
      dm_revolve (mesh, base, outline, n, SEGMENTS);
      dm_tube (mesh, dm_shift (base, 0, 0, 0.005), 0.76, 0.575, 0.07, SEGMENTS);
      dm_tube (mesh, dm_shift (base, 0, 0, 0.605), 0.76, 0.578, 0.07, SEGMENTS);
      dm_bolt_circle (mesh, dm_shift (base, 0, 0, 0.075), 20, 0.715, 0.036, 0.08);
    }
}

/* Two flanges face to face with a gasket between, bolts, and gussets above and below. */
static void
flange_pair (DmMesh *mesh, DmFrame at)
{
  dm_tube (mesh, dm_shift (at, 0, 0, -0.062), 0.90, 0.585, 0.06, SEGMENTS);
  dm_tube (mesh, dm_shift (at, 0, 0, 0.002), 0.90, 0.585, 0.06, SEGMENTS);
  dm_tube (mesh, dm_shift (at, 0, 0, -0.004), 0.75, 0.59, 0.008, SEGMENTS);
  dm_bolt_circle (mesh, dm_shift (at, 0, 0, 0.062), 32, 0.84, 0.05, 0.124);
  for (int i = 0; i < 16; i++)
    {
      DmFrame rib = dm_polar (at, 22.5 * i, 0.59, 0.06);
      dm_gusset (mesh, rib, 0.2, 0.34, 0.016);
      dm_gusset (mesh, dm_turn (dm_shift (rib, 0, 0, -0.12), 0, 180), 0.2, 0.34, 0.016);
    }
}

static void
column_pipe (DmMesh *mesh, DmFrame at)
{
  static const double rings_m[] = { 4.5, 5.3, 6.9, 9.2, 10.4, 11.6, 13.9, 16.2 };
  const double ends_m[] = { 3.15, 8.0, 12.8, BASE_Z_M + 0.05 };
  dm_mesh_part (mesh, "column-pipe");
  for (int i = 0; i < 3; i++)
    dm_tube (mesh, dm_shift (at, 0, 0, ends_m[i] + 0.001), PIPE_OUTER_M, PIPE_INNER_M,
             ends_m[i + 1] - ends_m[i] - 0.002, SEGMENTS);
  dm_mesh_part (mesh, "stiffeners");
  for (guint i = 0; i < G_N_ELEMENTS (rings_m); i++)
    dm_tube (mesh, dm_shift (at, 0, 0, rings_m[i]), 0.69, 0.595, 0.022, SEGMENTS);
  dm_mesh_part (mesh, "flanges");
  for (guint i = 0; i < G_N_ELEMENTS (flange_z_m); i++)
    flange_pair (mesh, dm_shift (at, 0, 0, flange_z_m[i]));
  dm_mesh_part (mesh, "flush-lines");
  for (int side = -1; side <= 1; side += 2)
    {
      DmFrame line = dm_turn (at, 2, 180 + 45 * side);
      const DmPoint corners[]
          = { { 0.60, 0, 3.6 }, { 0.66, 0, 3.6 }, { 0.66, 0, 17.3 }, { 0.60, 0, 17.3 } };
      dm_pipe (mesh, line, corners, G_N_ELEMENTS (corners), 0.03, 0.05, 16);
    }
}

static void
line_shaft (DmMesh *mesh, DmFrame at)
{
  dm_mesh_part (mesh, "line-shaft");
  dm_cylinder (mesh, dm_shift (at, 0, 0, 0.6), 0.09, 19.6, 32);
  for (guint i = 0; i < G_N_ELEMENTS (flange_z_m); i++)
    {
      DmFrame bearing = dm_shift (at, 0, 0, flange_z_m[i] - 0.15);
      dm_tube (mesh, bearing, 0.16, 0.085, 0.3, 48);
      dm_tube (mesh, dm_shift (bearing, 0, 0, 0.6), 0.14, 0.088, 0.4, 48);
      for (int arm = 0; arm < 3; arm++)
        dm_box (mesh, dm_polar (bearing, 60 + 120 * arm, 0.36, 0.1), 0.45, 0.03, 0.1);
    }
}

/* The tail lug on the side of the nozzle: two cheeks with eyes, and a doubler on the pipe. */
static void
tail_lug (DmMesh *mesh, DmFrame at)
{
  const DmUV cheek[] = { { 0.58, -0.3 }, { 0.82, -0.12 }, { 0.82, 0.12 }, { 0.58, 0.3 } };
  dm_mesh_part (mesh, "tail-lug");
  DmFrame lug = dm_turn (dm_shift (at, 0, 0, 3.7), 2, 180);
  for (int side = -1; side <= 1; side += 2)
    {
      DmFrame face = dm_turn (dm_shift (lug, 0, 0.08 * side + 0.02, 0), 0, 90);
      dm_prism (mesh, face, cheek, G_N_ELEMENTS (cheek), 0.04);
      DmFrame eye = dm_shift (face, 0.85, 0, -0.006);
      dm_tube (mesh, eye, 0.14, 0.06, 0.052, 48);
    }
}

static void
base_plate (DmMesh *mesh, DmFrame at)
{
  DmFrame plate = dm_shift (at, 0, 0, BASE_Z_M);
  dm_mesh_part (mesh, "base-plate");
  dm_tube (mesh, plate, 1.6, 0.575, 0.08, 120);
  for (int i = 0; i < 16; i++)
    dm_gusset (mesh, dm_turn (dm_polar (plate, 22.5 * i, 0.59, 0.01), 0, 180), 0.38, 0.5, 0.02);
  for (int i = 0; i < 20; i++)
    dm_gusset (mesh, dm_polar (plate, 18 * i + 9, 0.91, 0.075), 0.5, 0.4, 0.024);
  dm_bolt_circle (mesh, dm_shift (plate, 0, 0, 0.08), 24, 1.46, 0.05, 0.03);
}

static void
nozzle (DmMesh *mesh, DmFrame at)
{
  DmFrame out = dm_turn (dm_turn (dm_shift (at, 0, 0, 18.35), 2, 180), 1, 90);
  dm_mesh_part (mesh, "nozzle");
  dm_tube (mesh, dm_shift (out, 0, 0, 0.86), 0.35, 0.32, 0.98, 64);
  dm_tube (mesh, dm_shift (out, 0, 0, 0.885), 0.47, 0.345, 0.05, 64);
  dm_tube (mesh, dm_shift (out, 0, 0, 1.84), 0.52, 0.33, 0.06, 64);
  dm_bolt_circle (mesh, dm_shift (out, 0, 0, 1.855), 20, 0.46, 0.04, 0.03);
  for (int i = 0; i < 8; i++)
    dm_gusset (mesh, dm_turn (dm_polar (out, 45 * i, 0.345, 1.845), 0, 180), 0.14, 0.4, 0.016);
}

/* The discharge head, with the trunnions by which the column hangs, and the motor stool. */
static void
discharge_head (DmMesh *mesh, DmFrame at)
{
  dm_mesh_part (mesh, "discharge-head");
  dm_tube (mesh, dm_shift (at, 0, 0, 17.57), 0.92, 0.88, 2.03, SEGMENTS);
  dm_tube (mesh, dm_shift (at, 0, 0, 19.575), 1.05, 0.2, 0.05, SEGMENTS);
  dm_bolt_circle (mesh, dm_shift (at, 0, 0, 19.625), 28, 0.99, 0.04, 0.05);

  dm_mesh_part (mesh, "trunnions");
  for (int side = -1; side <= 1; side += 2)
    {
      DmFrame out = dm_turn (dm_turn (dm_shift (at, 0, 0, 19.3), 2, 90 * side), 1, 90);
      dm_tube (mesh, dm_shift (out, 0, 0, 0.86), 0.26, 0.13, 0.09, 48);
      dm_cylinder (mesh, dm_shift (out, 0, 0, 0.8), 0.14, 0.95, 48);
      dm_cylinder (mesh, dm_shift (out, 0, 0, 1.73), 0.2, 0.05, 48);
    }

  dm_mesh_part (mesh, "motor-stool");
  for (int i = 0; i < 8; i++)
    dm_box (mesh, dm_polar (at, 45 * i + 22.5, 0.82, 19.62), 0.06, 0.3, 0.72);
  dm_tube (mesh, dm_shift (at, 0, 0, 20.32), 0.95, 0.6, 0.08, SEGMENTS);
  dm_bolt_circle (mesh, dm_shift (at, 0, 0, 20.35), 16, 0.7, 0.03, 0.05);
}

DmMesh *
dm_pump_column_new (void)
{
  DmMesh *mesh = dm_mesh_new (0.17);
  DmFrame at = dm_frame_make (0, 0, 0);
  suction_bell (mesh, at);
  bowls (mesh, at);
  column_pipe (mesh, at);
  line_shaft (mesh, at);
  tail_lug (mesh, at);
  base_plate (mesh, at);
  nozzle (mesh, at);
  discharge_head (mesh, at);
  return mesh;
}

/* The ring on the rim of the well, 0.6 m high, 2.6 m clear inside; the top is flat. */
DmMesh *
dm_well_collar_new (void)
{
  DmMesh *mesh = dm_mesh_new (0.15);
  DmFrame at = dm_frame_make (0, 0, 0);
  dm_mesh_part (mesh, "collar");
  dm_tube (mesh, at, 1.95, 1.305, 0.05, 120);
  dm_tube (mesh, dm_shift (at, 0, 0, 0.02), 1.45, 1.30, 0.56, 120);
  dm_tube (mesh, dm_shift (at, 0, 0, 0.55), 1.75, 1.30, 0.05, 120);
  for (int i = 0; i < 24; i++)
    dm_gusset (mesh, dm_polar (at, 15 * i, 1.44, 0.045), 0.42, 0.5, 0.025);
  for (int i = 0; i < 24; i++)
    dm_hexagon (mesh, dm_polar (at, 15 * i + 7.5, 1.88, 0.045), 0.06, 0.05);
  return mesh;
}

/* A stand that one trunnion of the column lies on, along Y: flat on top, 2.06 m above its foot,
 * with a cheek before and behind the trunnion. */
DmMesh *
dm_trunnion_stand_new (void)
{
  DmMesh *mesh = dm_mesh_new (0.15);
  DmFrame at = dm_frame_make (0, 0, 0);
  dm_mesh_part (mesh, "foot");
  dm_box (mesh, at, 1.2, 0.5, 0.04);
  dm_mesh_part (mesh, "stand");
  dm_box (mesh, dm_shift (at, 0, 0, 0.03), 0.4, 0.2, 2.03);
  for (int side = -1; side <= 1; side += 2)
    {
      dm_box (mesh, dm_shift (at, 0.21 * side, 0, 1.7), 0.06, 0.18, 0.46);
      dm_gusset (mesh, dm_turn (dm_shift (at, 0.195 * side, 0, 0.035), 2, side > 0 ? 0 : 180), 0.38,
                 1.2, 0.03);
    }
  return mesh;
}

/* The pipe that the nozzle is to be bolted to: a flange that looks to −X at x = 0, 1.45 m up. */
DmMesh *
dm_discharge_pipe_new (void)
{
  DmMesh *mesh = dm_mesh_new (0.2);
  DmFrame at = dm_frame_make (0, 0, 0);
  const DmPoint run[] = { { 0.05, 0, 1.451 }, { 2.2, 0, 1.451 }, { 2.2, 0, 0 } };
  DmFrame flange = dm_turn (dm_shift (at, 0, 0, 1.451), 1, 90);
  dm_mesh_part (mesh, "pipe");
  dm_pipe (mesh, at, run, G_N_ELEMENTS (run), 0.35, 0.7, 48);
  dm_mesh_part (mesh, "flange");
  dm_tube (mesh, flange, 0.52, 0.33, 0.06, 64);
  dm_mesh_part (mesh, "support");
  dm_box (mesh, dm_shift (at, 0.9, 0, 0), 0.5, 0.7, 0.04);
  dm_section (mesh, dm_shift (at, 0.9, 0, 0.03), 0.2, 0.2, 0.015, 0.01, 1.1);
  return mesh;
}
