/* The corners and faces that all kinds of solids are put together from. */
#include "solid-shaper.h"

void
trn_shaper_begin (TrnShaper *shaper)
{
  shaper->builder = trn_mesh_builder_new ();
}

void
trn_shaper_end (TrnShaper *shaper, const char *name)
{
  TrnSolidPart *part = g_new0 (TrnSolidPart, 1);
  gboolean nested = *shaper->prefix != '\0' && *name != '\0';
  part->id = g_strconcat (shaper->prefix, nested ? "/" : "", name, NULL);
  part->mesh = trn_mesh_builder_finish (g_steal_pointer (&shaper->builder));
  g_ptr_array_add (shaper->parts, part);
}

guint32
trn_shaper_vertex (TrnShaper *shaper, TrnVec3 corner)
{
  return trn_mesh_builder_vertex (shaper->builder,
                                  trn_pose_apply (&shaper->solid_from_local, corner));
}

guint32
trn_shaper_circle (TrnShaper *shaper, double radius_m, guint n_facets, double z_m)
{
  guint32 first = 0;
  for (guint i = 0; i < n_facets; i++)
    {
      double angle = 2 * G_PI * i / n_facets;
      TrnVec3 corner = { radius_m * cos (angle), radius_m * sin (angle), z_m };
      guint32 vertex = trn_shaper_vertex (shaper, corner);
      if (i == 0)
        first = vertex;
    }
  return first;
}

guint32
trn_shaper_rectangle (TrnShaper *shaper, double half_x_m, double half_y_m, double z_m)
{
  guint32 first = trn_shaper_vertex (shaper, trn_vec3_make (-half_x_m, -half_y_m, z_m));
  trn_shaper_vertex (shaper, trn_vec3_make (half_x_m, -half_y_m, z_m));
  trn_shaper_vertex (shaper, trn_vec3_make (half_x_m, half_y_m, z_m));
  trn_shaper_vertex (shaper, trn_vec3_make (-half_x_m, half_y_m, z_m));
  return first;
}

void
trn_shaper_band (TrnShaper *shaper, guint32 a, guint32 b, guint n)
{
  for (guint i = 0; i < n; i++)
    {
      guint next = (i + 1) % n;
      trn_mesh_builder_triangle (shaper->builder, a + i, a + next, b + next);
      trn_mesh_builder_triangle (shaper->builder, a + i, b + next, b + i);
    }
}

void
trn_shaper_cap (TrnShaper *shaper, guint32 ring, guint n, guint32 centre, gboolean above)
{
  for (guint i = 0; i < n; i++)
    {
      guint32 here = ring + i, next = ring + (i + 1) % n;
      trn_mesh_builder_triangle (shaper->builder, centre, above ? here : next, above ? next : here);
    }
}

/* Half the angle θ of a facet has r (1/cos θ − 1) ≤ e: cos θ ≥ r / (r + e), so tan θ ≤
 * √(e (2 r + e)) / r, which loses nothing where e is small against r. In the circle, r (1 − cos θ)
 * ≤ r (1/cos θ − 1). Four facets a quarter turn apart put corners on the axes, so that an inscribed
 * polygon reaches as far along them as the circle does. */
guint
trn_shaper_facets (double radius_m, double excess_m)
{
  double half_angle = atan (sqrt (excess_m * (2 * radius_m + excess_m)) / radius_m);
  double quarters = ceil (G_PI / half_angle / 4);
  return 4 * (guint)fmax (quarters, 2);
}
