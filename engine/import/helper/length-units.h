/* length-units.h: the lengths that files name. */
#pragma once

#include <glib.h>

/* Metres in a unit by its name in AMF, 3MF and COLLADA, whatever the case; 0 where it is unknown.
 */
static inline double
trn_named_unit_metres (const char *name)
{
  static const struct
  {
    const char *name;
    double metres;
  } units[] = {
    { "micron", 1e-6 },
    { "micrometer", 1e-6 },
    { "millimeter", 1e-3 },
    { "millimeters", 1e-3 },
    { "millimetre", 1e-3 },
    { "mm", 1e-3 },
    { "centimeter", 1e-2 },
    { "centimetre", 1e-2 },
    { "cm", 1e-2 },
    { "decimeter", 0.1 },
    { "meter", 1 },
    { "metre", 1 },
    { "m", 1 },
    { "kilometer", 1000 },
    { "inch", 0.0254 },
    { "inches", 0.0254 },
    { "in", 0.0254 },
    { "foot", 0.3048 },
    { "feet", 0.3048 },
    { "ft", 0.3048 },
    { "yard", 0.9144 },
  };
  for (guint i = 0; i < G_N_ELEMENTS (units); i++)
    if (g_ascii_strcasecmp (name, units[i].name) == 0)
      return units[i].metres;
  return 0;
}

/* The usual unit that @metres means when it went through single precision (2^-24 = 6e-8). */
static inline double
trn_unit_metres_round (double metres)
{
  static const double usual[] = { 1, 1e-3, 1e-2, 0.1, 0.0254, 0.3048, 1e-6, 0.9144, 1000 };
  for (guint i = 0; i < G_N_ELEMENTS (usual); i++)
    if (ABS (metres - usual[i]) <= 1e-7 * usual[i])
      return usual[i];
  return metres;
}
