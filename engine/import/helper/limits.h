/* limits.h: what the helper may use, set before it opens anything. */
#pragma once

#include <glib.h>

/* The address sanitizer reserves terabytes of address space: memory has no limit under it. */
#if defined(__SANITIZE_ADDRESS__)
#define TRN_ADDRESS_SANITIZER 1
#elif defined(__has_feature)
#if __has_feature(address_sanitizer)
#define TRN_ADDRESS_SANITIZER 1
#endif
#endif

typedef struct
{
  guint64 memory_bytes;
  guint64 cpu_s;
  guint64 max_triangles;
} TrnHelperLimits;

/* FALSE when one of them cannot be set: then nothing must be read. */
gboolean trn_helper_limits_set (const TrnHelperLimits *limits);
