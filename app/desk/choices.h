/* choices.h: what a person chooses once, and how it is read from GSettings.
 *
 * What is kept may be of another version of the program, or written by hand: whatever of it is not
 * one of the choices is as at the first start. It needs no display. */
#pragma once

#include <gio/gio.h>

#include "words-units.h"

typedef enum
{
  DESK_STYLE_SYSTEM,
  DESK_STYLE_LIGHT,
  DESK_STYLE_DARK,
} DeskStyle;

typedef struct
{
  TrnWordsUnits units;
  double tight_m; /* margin up to which a clearance is shown as tight */
  DeskStyle style;
  gboolean animations;
  guint strip_lines; /* bits 1 << TrnGauge */
} DeskChoices;

/* As in the schema. */
#define DESK_MOST_TIGHT_M 5

DeskChoices desk_choices_default (void);

/* The settings of the program, or NULL where @source, which may be NULL, has no schema that fits:
 * GLib ends a program that asks for a key which is not there. @backend NULL: the usual one. */
GSettings *desk_choices_open (GSettingsSchemaSource *source, GSettingsBackend *backend);
DeskChoices desk_choices_read (GSettings *kept);
void desk_choices_write (const DeskChoices *choices, GSettings *kept);
