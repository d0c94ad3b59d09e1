/* maker.c: frames, and the mesh that pieces are added to. The pieces are in pieces.c. */
#include "maker.h"

#include <math.h>

DmMesh *
dm_mesh_new (double cell)
{
  DmMesh *mesh = g_new0 (DmMesh, 1);
  mesh->points = g_array_new (FALSE, FALSE, sizeof (DmPoint));
  mesh->corners = g_array_new (FALSE, FALSE, sizeof (guint32));
  mesh->parts = g_array_new (FALSE, FALSE, sizeof (DmPart));
  mesh->cell = cell;
  return mesh;
}

void
dm_mesh_free (DmMesh *mesh)
{
  g_array_unref (mesh->points);
  g_array_unref (mesh->corners);
  g_array_unref (mesh->parts);
  g_free (mesh);
}

void
dm_mesh_part (DmMesh *mesh, const char *name)
{
  DmPart part = { name, mesh->points->len, mesh->corners->len };
  g_array_append_val (mesh->parts, part);
}

DmFrame
dm_frame_make (double x, double y, double z)
{
  return (DmFrame){ { { 1, 0, 0 }, { 0, 1, 0 }, { 0, 0, 1 } }, { x, y, z } };
}

DmFrame
dm_shift (DmFrame frame, double x, double y, double z)
{
  const double by[3] = { x, y, z };
  for (int i = 0; i < 3; i++)
    {
      frame.origin.x += by[i] * frame.axis[i].x;
      frame.origin.y += by[i] * frame.axis[i].y;
      frame.origin.z += by[i] * frame.axis[i].z;
    }
  return frame;
}

/* Sine and cosine that are exact at quarter turns. */
static void
sine_cosine (double deg, double *sine, double *cosine)
{
  double quarter = round (deg / 90);
  double rest = (deg - 90 * quarter) * G_PI / 180;
  double s = sin (rest), c = cos (rest);
  int turns = (int)fmod (fmod (quarter, 4) + 4, 4);
  const double sines[4] = { s, c, -s, -c };
  *sine = sines[turns];
  *cosine = sines[(turns + 1) % 4];
}

DmFrame
dm_turn (DmFrame frame, int axis, double deg)
{
  double s, c;
  sine_cosine (deg, &s, &c);
  DmPoint a = frame.axis[(axis + 1) % 3], b = frame.axis[(axis + 2) % 3];
  frame.axis[(axis + 1) % 3] = (DmPoint){ c * a.x + s * b.x, c * a.y + s * b.y, c * a.z + s * b.z };
  frame.axis[(axis + 2) % 3] = (DmPoint){ c * b.x - s * a.x, c * b.y - s * a.y, c * b.z - s * a.z };
  return frame;
}

DmFrame
dm_polar (DmFrame frame, double deg, double radius, double z)
{
  return dm_shift (dm_turn (frame, 2, deg), radius, 0, z);
}
