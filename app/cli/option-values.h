/* option-values.h: values of options that are more than a number or a text. Each reads all of
 * @text or returns FALSE. */
#pragma once

#include "options.h"

/* Seconds, or hours, minutes and seconds as H:MM:SS (also MM:SS); a point for decimals. */
gboolean cli_read_time (const char *text, double *time_s);
/* WIDTHxHEIGHT in pixels, each CLI_LEAST_PIXELS to CLI_MOST_PIXELS. */
gboolean cli_read_size (const char *text, guint *width, guint *height);
/* x=M, y=M or z=M. */
gboolean cli_read_section (const char *text, CliSection *section);
/* One of the standard views by name. */
gboolean cli_is_view (const char *text);

#define CLI_LEAST_PIXELS 16
#define CLI_MOST_PIXELS 20000
