/* Every triangle makes a tetrahedron with the centre of the box as its fourth corner; volumes are
 * signed, so that what lies outside the body cancels. The centre, not a corner or the mesh's
 * origin, keeps the tetrahedra as small as the body: their sum then loses about as many digits as
 * there are triangles across, however far the body lies from its origin. Sums are compensated
 * (Neumaier 1974), since large meshes have a million terms. */
#include "mass.h"

/* Below this share of its area times its extent a volume counts as 0: a plate of a 1e-12th of its
 * length in thickness is no body. */
#define SHEET 1e-12

typedef struct
{
  double sum, lost;
} Sum;

static void
sum_add (Sum *sum, double term)
{
  double next = sum->sum + term;
  sum->lost += fabs (sum->sum) >= fabs (term) ? (sum->sum - next) + term : (term - next) + sum->sum;
  sum->sum = next;
}

static void
sum_add_vector (Sum sums[3], TrnVec3 term)
{
  sum_add (&sums[0], term.x);
  sum_add (&sums[1], term.y);
  sum_add (&sums[2], term.z);
}

static double
sum_get (const Sum *sum)
{
  return sum->sum + sum->lost;
}

static TrnVec3
sum_get_vector (const Sum sums[3], double divisor)
{
  return trn_vec3_make (sum_get (&sums[0]) / divisor, sum_get (&sums[1]) / divisor,
                        sum_get (&sums[2]) / divisor);
}

TrnMassProperties
trn_mesh_mass_properties (const TrnMesh *mesh)
{
  TrnMassProperties result = { 0 };
  if (mesh->n_triangles == 0)
    return result;
  TrnVec3 centre = trn_box_centre (&mesh->box);
  /* Twice the area, six times the volume, and their moments times 3 and times 4. */
  Sum area = { 0 }, volume = { 0 }, area_moment[3] = { 0 }, volume_moment[3] = { 0 };
  for (guint32 i = 0; i < mesh->n_triangles; i++)
    {
      TrnVec3 p[3];
      trn_mesh_corners (mesh, i, p);
      for (int k = 0; k < 3; k++)
        p[k] = trn_vec3_sub (p[k], centre);
      TrnVec3 total = trn_vec3_add (p[0], trn_vec3_add (p[1], p[2]));
      TrnVec3 normal = trn_vec3_cross (trn_vec3_sub (p[1], p[0]), trn_vec3_sub (p[2], p[0]));
      double twice_area = trn_vec3_length (normal);
      double six_volumes = trn_vec3_dot (p[0], normal);
      sum_add (&area, twice_area);
      sum_add (&volume, six_volumes);
      sum_add_vector (area_moment, trn_vec3_scale (total, twice_area));
      sum_add_vector (volume_moment, trn_vec3_scale (total, six_volumes));
    }
  result.area_m2 = sum_get (&area) / 2;
  result.volume_m3 = sum_get (&volume) / 6;
  /* A sheet's volume is rounding: of the order of 1e-16 of its area times its extent. */
  double extent = trn_vec3_length (trn_box_size (&mesh->box));
  gboolean sheet = fabs (result.volume_m3) <= SHEET * result.area_m2 * extent;
  TrnVec3 offset = { 0, 0, 0 };
  if (!sheet)
    offset = sum_get_vector (volume_moment, 4 * sum_get (&volume));
  else if (sum_get (&area) > 0)
    offset = sum_get_vector (area_moment, 3 * sum_get (&area));
  result.centroid = trn_vec3_add (centre, offset);
  return result;
}
