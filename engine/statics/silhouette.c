/* From slices (slices.h), of which all headings come at the price of one look at the triangles.
 *
 * Worst heading: ranges are halved, the one with the greatest bound first, until that bound is near
 * enough to what is seen at a heading (branch and bound). Half a turn is enough: from behind the
 * outline is mirrored. */
#include "silhouette.h"

#include "slices.h"

#define MOST_RANGES 400u
#define NEAR_ENOUGH 0.001

double
trn_silhouette_m2 (const TrnMesh *mesh, const TrnRotation *turn, double heading_rad, double slack_m)
{
  /* Turned so that it is seen along −Y, across the first direction. */
  const TrnRotation yaw = trn_rotation_make (trn_vec3_make (0, 0, 1), -G_PI / 2 - heading_rad);
  const TrnRotation yawed = trn_rotation_multiply (&yaw, turn);
  g_autoptr (TrnSlices) slices = trn_slices_build (mesh, &yawed, slack_m);
  return trn_slices_area_m2 (slices, 0, 0, 0);
}

typedef struct
{
  guint sector;
  double from, to, bound_m2;
} Range;

static Range
range_make (const TrnSlices *slices, guint sector, double from, double to)
{
  return (Range){ sector, from, to, trn_slices_area_m2 (slices, sector, from, to) };
}

static guint
greatest_of (const GArray *ranges)
{
  guint greatest = 0;
  for (guint i = 1; i < ranges->len; i++)
    if (g_array_index (ranges, Range, i).bound_m2
        > g_array_index (ranges, Range, greatest).bound_m2)
      greatest = i;
  return greatest;
}

TrnSilhouette
trn_silhouette_worst (const TrnMesh *mesh, const TrnRotation *turn, double slack_m)
{
  TrnSilhouette worst = { 0, 0, 0 };
  if (mesh->n_triangles == 0)
    return worst;
  g_autoptr (TrnSlices) slices = trn_slices_build (mesh, turn, slack_m);
  g_autoptr (GArray) ranges = g_array_new (FALSE, FALSE, sizeof (Range));
  for (guint i = 0; i < TRN_SLICES_SECTORS; i++)
    {
      Range range = range_make (slices, i, 0, 1);
      g_array_append_val (ranges, range);
    }
  for (;;)
    {
      guint greatest = greatest_of (ranges);
      Range range = g_array_index (ranges, Range, greatest);
      double middle = 0.5 * (range.from + range.to);
      worst.area_m2 = range.bound_m2;
      double seen_m2 = trn_slices_area_m2 (slices, range.sector, middle, middle);
      if (seen_m2 > worst.seen_m2)
        {
          worst.seen_m2 = seen_m2;
          worst.heading_rad = G_PI * (range.sector + middle) / TRN_SLICES_SECTORS - G_PI / 2;
        }
      if (range.bound_m2 <= worst.seen_m2 * (1 + NEAR_ENOUGH) || ranges->len >= MOST_RANGES)
        break;
      Range upper = range_make (slices, range.sector, middle, range.to);
      g_array_index (ranges, Range, greatest)
          = range_make (slices, range.sector, range.from, middle);
      g_array_append_val (ranges, upper);
    }
  worst.area_m2 = fmax (worst.area_m2, worst.seen_m2);
  return worst;
}
