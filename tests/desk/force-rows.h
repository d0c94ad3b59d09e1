/* force-rows.h: rows of forces by their label. */
#pragma once

#include <string.h>

#include "force-view.h"

/* The row after the first with that label. */
static inline const DeskForceRow *
test_row_below (const GArray *rows, const char *label)
{
  for (guint i = 0; i + 1 < rows->len; i++)
    if (strcmp (g_array_index (rows, DeskForceRow, i).label, label) == 0)
      return &g_array_index (rows, DeskForceRow, i + 1);
  g_assert_not_reached ();
}
