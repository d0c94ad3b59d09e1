/* test-scale.h: how large a seeded run is: as written, times TRUNNION_TEST_SCALE (default 1). */
#pragma once

#include <glib.h>

static inline guint
test_scaled (guint n)
{
  const char *text = g_getenv ("TRUNNION_TEST_SCALE");
  double scale = text != NULL ? g_ascii_strtod (text, NULL) : 1;
  return (guint)MAX (1.0, n * (scale > 0 ? scale : 1));
}
