/* section.c: the plane that cuts the site open. */
#include "section.h"

TrnVec3
desk_section_axis (const DeskSectionPlane *plane)
{
  switch (plane->kind)
    {
    case DESK_SECTION_LEVEL:
      return trn_vec3_make (0, 0, 1);
    case DESK_SECTION_EAST_WEST:
      return trn_vec3_make (0, 1, 0);
    case DESK_SECTION_NORTH_SOUTH:
      return trn_vec3_make (1, 0, 0);
    case DESK_SECTION_HEADING:
      return trn_vec3_make (sin (plane->heading_rad), -cos (plane->heading_rad), 0);
    case DESK_SECTION_N_KINDS:
      break;
    }
  g_assert_not_reached ();
}

RenderSection
desk_section_make (const DeskSectionPlane *plane, gboolean on)
{
  /* Only from the south does one look along the axis. */
  gboolean against = (plane->kind == DESK_SECTION_EAST_WEST) != plane->flipped;
  double sign = against ? -1 : 1;
  return (RenderSection){ .on = on,
                          .normal = trn_vec3_scale (desk_section_axis (plane), sign),
                          .offset_m = sign * plane->at_m };
}

void
desk_section_range (const DeskSectionPlane *plane, const TrnBox *extent, double *lo_m, double *hi_m)
{
  TrnVec3 axis = desk_section_axis (plane);
  *lo_m = INFINITY;
  *hi_m = -INFINITY;
  for (guint i = 0; i < 8; i++)
    {
      double at = trn_vec3_dot (axis, trn_box_corner (extent, i));
      *lo_m = fmin (*lo_m, at);
      *hi_m = fmax (*hi_m, at);
    }
}
