/* section.h: the plane that cuts the site open, as one speaks of it. No GTK. */
#pragma once

#include "draw-list.h"

typedef enum
{
  DESK_SECTION_LEVEL,       /* cuts away what is above */
  DESK_SECTION_EAST_WEST,   /* upright, runs along x; cuts away the south */
  DESK_SECTION_NORTH_SOUTH, /* upright, runs along y; cuts away the east */
  DESK_SECTION_HEADING, /* upright, runs along a heading; cuts away what is to the right of it */
  DESK_SECTION_N_KINDS,
} DeskSectionKind;

typedef struct
{
  DeskSectionKind kind;
  double at_m;        /* z, y, x, or the distance from the origin to the right of the heading */
  double heading_rad; /* counter-clockwise from east */
  gboolean flipped;   /* cuts away the other side */
} DeskSectionPlane;

RenderSection desk_section_make (const DeskSectionPlane *plane, gboolean on);
/* The axis along which at_m is measured, a unit vector. */
TrnVec3 desk_section_axis (const DeskSectionPlane *plane);
/* From where to where the plane meets @extent. */
void desk_section_range (const DeskSectionPlane *plane, const TrnBox *extent, double *lo_m,
                         double *hi_m);
