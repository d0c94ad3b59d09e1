/* limits.h: what the helper may use, set before it opens anything. */
#pragma once

#include <glib.h>

typedef struct
{
  guint64 memory_bytes;
  guint64 cpu_s;
  guint64 max_triangles;
} TrnHelperLimits;

/* FALSE when one of them cannot be set: then nothing must be read. */
gboolean trn_helper_limits_set (const TrnHelperLimits *limits);
