/* figure.c: round-ended limbs, each the surface round a line between two balls. Its measures are
 * those of a pictogram; only the height means something. */
#include "figure.h"

#define SIDES 16
#define RINGS 5 /* in each rounded end */

typedef struct
{
  TrnVec3 from, to;
  double from_radius_m, to_radius_m;
} Limb;

static const Limb limbs[] = {
  { { 0, 0, 1.63 }, { 0, 0, 1.64 }, 0.11, 0.11 },        /* head */
  { { 0, 0, 0.92 }, { 0, 0, 1.30 }, 0.13, 0.17 },        /* trunk */
  { { 0.08, 0, 0.88 }, { 0.13, 0, 0.07 }, 0.085, 0.07 }, /* legs */
  { { -0.08, 0, 0.88 }, { -0.13, 0, 0.07 }, 0.085, 0.07 },
  { { 0.17, 0, 1.38 }, { 0.34, 0, 0.82 }, 0.065, 0.05 }, /* arms */
  { { -0.17, 0, 1.38 }, { -0.34, 0, 0.82 }, 0.065, 0.05 },
};

static void
add_limb (TrnMeshBuilder *builder, const Limb *limb)
{
  TrnVec3 axis = trn_vec3_unit (trn_vec3_sub (limb->to, limb->from));
  TrnVec3 side = trn_vec3_unit (trn_vec3_cross (axis, trn_vec3_make (0, 1, 0)));
  TrnVec3 other = trn_vec3_cross (axis, side);
  guint32 first = trn_mesh_builder_vertex (
      builder, trn_vec3_add_scaled (limb->from, axis, -limb->from_radius_m));
  for (int ring = 0; ring < 2 * RINGS; ring++)
    {
      gboolean at_end = ring >= RINGS;
      double radius = at_end ? limb->to_radius_m : limb->from_radius_m;
      double latitude
          = at_end ? G_PI / 2 * (ring - RINGS) / RINGS : G_PI / 2 * ((ring + 1.0) / RINGS - 1);
      TrnVec3 centre
          = trn_vec3_add_scaled (at_end ? limb->to : limb->from, axis, radius * sin (latitude));
      for (int i = 0; i < SIDES; i++)
        {
          double angle = 2 * G_PI * i / SIDES, level = radius * cos (latitude);
          TrnVec3 p = trn_vec3_add_scaled (centre, side, level * cos (angle));
          trn_mesh_builder_vertex (builder, trn_vec3_add_scaled (p, other, level * sin (angle)));
        }
    }
  guint32 last
      = trn_mesh_builder_vertex (builder, trn_vec3_add_scaled (limb->to, axis, limb->to_radius_m));
  for (guint32 i = 0; i < SIDES; i++)
    {
      guint32 j = (i + 1) % SIDES;
      trn_mesh_builder_triangle (builder, first, first + 1 + j, first + 1 + i);
      trn_mesh_builder_triangle (builder, last, last - SIDES + i, last - SIDES + j);
      for (guint32 ring = 0; ring + 1 < 2 * RINGS; ring++)
        {
          guint32 a = first + 1 + ring * SIDES, b = a + SIDES;
          trn_mesh_builder_triangle (builder, a + i, a + j, b + j);
          trn_mesh_builder_triangle (builder, a + i, b + j, b + i);
        }
    }
}

RenderMesh *
render_figure_build (void)
{
  TrnMeshBuilder *builder = trn_mesh_builder_new ();
  for (guint i = 0; i < G_N_ELEMENTS (limbs); i++)
    add_limb (builder, &limbs[i]);
  g_autoptr (TrnMesh) mesh = trn_mesh_builder_finish (builder);
  return render_mesh_build (mesh, 0);
}
