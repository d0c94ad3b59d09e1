/* column-tandem.c: a stripping column, upright, with the foot of its skirt at z = 0 and the top of
 * its head at z = 22.3 m. The tail lug points to −X, the trunnions to ±Y; below the platform
 * brackets nothing but the lug is farther than 1.9 m from its axis. Invented; proportions are those
 * that such columns commonly have. */
#include "models.h"

#include <math.h>

#define SEGMENTS 72
#define SHELL_M 1.2
#define SKIRT_Z_M 2.6    /* the lower tangent line */
#define TANGENT_Z_M 21.4 /* the upper one */
#define HEAD_RISE_M 0.6

/* Half an ellipsoid, hollow: the line comes down inside, from the axis, and goes up outside. */
static void
head (DmMesh *mesh, DmFrame at)
{
  enum
  {
    STEPS = 24
  };
  const double wall = 0.03;
  DmUV line[2 * (STEPS + 1)] = { { 0, HEAD_RISE_M - wall } };
  line[2 * STEPS + 1] = (DmUV){ 0, HEAD_RISE_M };
  for (int i = 0; i < STEPS; i++)
    {
      double t = G_PI / 2 * i / STEPS;
      line[STEPS - i] = (DmUV){ (SHELL_M - wall) * cos (t), (HEAD_RISE_M - wall) * sin (t) };
      line[STEPS + 1 + i] = (DmUV){ SHELL_M * cos (t), HEAD_RISE_M * sin (t) };
    }
  dm_revolve (mesh, at, line, G_N_ELEMENTS (line), SEGMENTS);
}

static void
shell (DmMesh *mesh, DmFrame at)
{
  dm_mesh_part (mesh, "shell");
  dm_tube (mesh, dm_shift (at, 0, 0, SKIRT_Z_M), SHELL_M, SHELL_M - 0.03, TANGENT_Z_M - SKIRT_Z_M,
           SEGMENTS);
  dm_mesh_part (mesh, "heads");
  head (mesh, dm_shift (at, 0, 0, TANGENT_Z_M + 0.001));
  head (mesh, dm_turn (dm_shift (at, 0, 0, SKIRT_Z_M - 0.001), 0, 180));
  dm_mesh_part (mesh, "rings");
  static const double rings_m[] = { 6.4, 9.6, 12.8, 19.2 };
  for (guint i = 0; i < G_N_ELEMENTS (rings_m); i++)
    dm_tube (mesh, dm_shift (at, 0, 0, rings_m[i]), SHELL_M + 0.12, SHELL_M - 0.01, 0.025,
             SEGMENTS);
}

static void
skirt (DmMesh *mesh, DmFrame at)
{
  dm_mesh_part (mesh, "skirt");
  dm_tube (mesh, dm_shift (at, 0, 0, 0.04), SHELL_M + 0.005, SHELL_M - 0.02, SKIRT_Z_M, SEGMENTS);
  dm_tube (mesh, at, 1.45, 1.05, 0.05, SEGMENTS);
  dm_tube (mesh, dm_shift (at, 0, 0, 0.4), 1.44, SHELL_M, 0.03, SEGMENTS);
  for (int i = 0; i < 24; i++)
    dm_gusset (mesh, dm_polar (at, 15 * i, SHELL_M, 0.045), 0.22, 0.36, 0.02);
}

static void
nozzle (DmMesh *mesh, DmFrame at, double deg, double z, double radius)
{
  DmFrame out = dm_turn (dm_turn (dm_shift (at, 0, 0, z), 2, deg), 1, 90);
  dm_tube (mesh, dm_shift (out, 0, 0, 1.12), radius, radius - 0.02, 0.5, 48);
  dm_tube (mesh, dm_shift (out, 0, 0, 1.6), 1.6 * radius, radius - 0.015, 0.05, 48);
  dm_bolt_circle (mesh, dm_shift (out, 0, 0, 1.645), 12, 1.35 * radius, 0.04, 0.03);
}

static void
nozzles (DmMesh *mesh, DmFrame at)
{
  dm_mesh_part (mesh, "nozzles");
  nozzle (mesh, at, 60, 4.0, 0.16);
  nozzle (mesh, at, -60, 8.2, 0.22);
  nozzle (mesh, at, 125, 11.2, 0.12);
  nozzle (mesh, at, -120, 14.6, 0.25);
  nozzle (mesh, at, 60, 17.8, 0.16);
  dm_mesh_part (mesh, "manholes");
  nozzle (mesh, at, 90, 5.2, 0.3);
  nozzle (mesh, at, 90, 15.6, 0.3);
  dm_mesh_part (mesh, "top-nozzle");
  dm_tube (mesh, dm_shift (at, 0, 0, TANGENT_Z_M + 0.55), 0.22, 0.2, 0.33, 48);
  dm_tube (mesh, dm_shift (at, 0, 0, TANGENT_Z_M + 0.85), 0.34, 0.205, 0.05, 48);
}

static void
platform_brackets (DmMesh *mesh, DmFrame at)
{
  dm_mesh_part (mesh, "platform-brackets");
  for (int i = 0; i < 10; i++)
    for (int level = 0; level < 2; level++)
      {
        DmFrame bracket = dm_polar (at, 18 + 36 * i, SHELL_M - 0.005, level ? 19.3 : 12.9);
        dm_gusset (mesh, dm_turn (bracket, 0, 180), 0.45, 0.5, 0.02);
      }
}

static void
trunnions (DmMesh *mesh, DmFrame at)
{
  dm_mesh_part (mesh, "trunnions");
  for (int side = -1; side <= 1; side += 2)
    {
      DmFrame out = dm_turn (dm_turn (dm_shift (at, 0, 0, 20.5), 2, 90 * side), 1, 90);
      dm_tube (mesh, dm_shift (out, 0, 0, 1.1), 0.42, 0.2, 0.14, 48);
      dm_cylinder (mesh, dm_shift (out, 0, 0, 1.0), 0.21, 0.7, 48);
      dm_cylinder (mesh, dm_shift (out, 0, 0, 1.69), 0.3, 0.05, 48);
    }
}

/* Two cheeks on the skirt, the eye 2.35 m from the axis. */
static void
tail_lug (DmMesh *mesh, DmFrame at)
{
  const DmUV cheek[] = { { 1.19, -0.6 }, { 2.32, -0.16 }, { 2.32, 0.16 }, { 1.19, 0.6 } };
  dm_mesh_part (mesh, "tail-lug");
  DmFrame lug = dm_turn (dm_shift (at, 0, 0, 1.6), 2, 180);
  for (int side = -1; side <= 1; side += 2)
    {
      DmFrame face = dm_turn (dm_shift (lug, 0, 0.1 * side + 0.025, 0), 0, 90);
      dm_prism (mesh, face, cheek, G_N_ELEMENTS (cheek), 0.05);
      dm_tube (mesh, dm_shift (face, 2.35, 0, -0.006), 0.19, 0.07, 0.062, 48);
    }
}

DmMesh *
dm_stripper_new (void)
{
  DmMesh *mesh = dm_mesh_new (0.4);
  DmFrame at = dm_frame_make (0, 0, 0);
  shell (mesh, at);
  skirt (mesh, at);
  nozzles (mesh, at);
  platform_brackets (mesh, at);
  trunnions (mesh, at);
  tail_lug (mesh, at);
  return mesh;
}
