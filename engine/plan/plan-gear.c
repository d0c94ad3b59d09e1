/* Which bodies a gear has. */
#include "plan-gear.h"

#include <string.h>

/* Whether @part is @name, "-" and a number from 1 to @n, written as we write it. */
static gboolean
is_counted (const char *part, const char *name, guint n)
{
  const gsize length = strlen (name);
  guint64 number = 0;
  if (strncmp (part, name, length) != 0 || part[length] != '-' || part[length + 1] == '0')
    return FALSE;
  return g_ascii_string_to_unsigned (part + length + 1, 10, 1, MAX (n, 1), &number, NULL) && n > 0;
}

static gboolean
is_hook_part (const char *part)
{
  return strcmp (part, "rope") == 0 || strcmp (part, "block") == 0;
}

/* A pad and a mat have the number of their leg or support. */
static gboolean
is_below (const char *part, const TrnGearFoot *feet, guint n_feet)
{
  const gboolean is_mat = is_counted (part, "mat", n_feet);
  if (!is_mat && !is_counted (part, "pad", n_feet))
    return FALSE;
  const TrnGearFoot *foot = &feet[g_ascii_strtoull (part + strlen ("pad-"), NULL, 10) - 1];
  return is_mat ? foot->has_mat : isfinite (foot->pad_x_m) && isfinite (foot->pad_y_m);
}

TrnLevelSize
trn_gear_foot_size (const TrnGearFoot *foot)
{
  if (isfinite (foot->pad_x_m) && isfinite (foot->pad_y_m))
    return (TrnLevelSize){ foot->pad_x_m, foot->pad_y_m };
  return (TrnLevelSize){ foot->size_x_m, foot->size_y_m };
}

TrnLevelSize
trn_gear_foot_on_ground (const TrnGearFoot *foot)
{
  if (foot->has_mat)
    return (TrnLevelSize){ foot->mat_size.x, foot->mat_size.y };
  return trn_gear_foot_size (foot);
}

static gboolean
gantry_has_part (const TrnGear *gear, const char *part)
{
  const guint n_headers = !gear->has_header ? 0 : gear->header_spacing_m > 0 ? 2 : 1;
  return is_counted (part, "leg", gear->n_legs) || is_counted (part, "runway", gear->n_runways)
         || is_below (part, gear->legs, gear->n_legs) || is_counted (part, "header", n_headers)
         || (gear->has_trolley && strcmp (part, "trolley") == 0) || is_hook_part (part);
}

static gboolean
crane_has_part (const TrnGear *gear, const char *part)
{
  return strcmp (part, "boom") == 0 || (gear->has_jib && strcmp (part, "jib") == 0)
         || is_below (part, gear->supports, gear->n_supports)
         || (gear->has_carrier && strcmp (part, "carrier") == 0)
         || (gear->has_counterweight && strcmp (part, "counterweight") == 0) || is_hook_part (part);
}

gboolean
trn_gear_has_part (const TrnGear *gear, const char *part)
{
  switch (gear->kind)
    {
    case TRN_GEAR_GANTRY:
      return gantry_has_part (gear, part);
    case TRN_GEAR_CRANE:
      return crane_has_part (gear, part);
    case TRN_GEAR_TAIL_TROLLEY:
      return strcmp (part, "trolley") == 0;
    case TRN_GEAR_TURNING_FRAME:
      return is_counted (part, "cheek", 2);
    }
  g_assert_not_reached ();
}
