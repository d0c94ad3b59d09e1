/* picture-of.h: the picture that the options ask for. */
#pragma once

#include <cairo.h>

#include "checks.h"
#include "options.h"

typedef struct
{
  guint run; /* index of the lift */
  double time_s;
  const TrnFindings *findings; /* borrowed; NULL: not checked */
  const TrnFinding *finding;   /* borrowed; the one looked at, or NULL */
} CliMoment;

/* As in RenderPictureOptions. */
typedef struct
{
  gboolean (*tell) (double done, gpointer data);
  gpointer data;
} CliPictureProgress;

/* As render_picture. */
cairo_surface_t *
cli_picture_draw (const CliOptions *options, const TrnScene *scene, const CliMoment *moment,
                  CliPictureProgress progress, GError **error);
