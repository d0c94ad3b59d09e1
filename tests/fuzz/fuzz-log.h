/* fuzz-log.h: what libraries complain of while a target runs.
 *
 * A complaint ends the run as a failed assertion does, but for those that a library makes about
 * the bytes themselves, which it then goes on without; each target lists them. */
#pragma once

#include <glib.h>
#include <string.h>

/* @known, NULL-terminated, are parts of messages; it must stay. */
static void
on_complaint (const char *domain, GLogLevelFlags level, const char *message, gpointer known)
{
  if ((level & (G_LOG_LEVEL_CRITICAL | G_LOG_LEVEL_WARNING)) == 0)
    return;
  for (const char *const *part = known; *part != NULL; part++)
    if (strstr (message, *part) != NULL)
      return;
  g_error ("%s: %s", domain, message);
}

static void
fuzz_log_set_known (const char **known)
{
  g_log_set_always_fatal (G_LOG_FATAL_MASK);
  g_log_set_default_handler (on_complaint, known);
}
