/* dxf-pairs.h: a DXF file as its pairs of a group code and a value, and the values that entities
 * with faces have. */
#pragma once

#include "lines.h"

#define TRN_DXF_NAME_BYTES 256

typedef struct
{
  TrnLines lines;
  int code;    /* −1 at the end and where a code is none */
  char *value; /* valid until the next one is read */
} TrnDxfPairs;

typedef struct
{
  double corners[4][3];
  guint given[3]; /* bits: corners whose x, y, z is given */
  double thickness, rotation_deg;
  double scale[3], spacing[2], extrusion[3];
  gint64 flags;      /* 70 */
  gint64 numbers[4]; /* 71 to 74 */
  double elevation;  /* 38, of the planes of old drawings */
  gboolean on_paper;
  gboolean unreadable; /* one of its numbers is none */
  char layer[TRN_DXF_NAME_BYTES], name[TRN_DXF_NAME_BYTES];
} TrnDxfEntity;

/* Reads the next pair. FALSE at the end of the file, or of what can be read. */
gboolean trn_dxf_next (TrnDxfPairs *pairs);
gboolean trn_dxf_is (const TrnDxfPairs *pairs, int code, const char *value);
/* Reads up to the next pair with code 0, which begins something else. */
void trn_dxf_entity_read (TrnDxfPairs *pairs, TrnDxfEntity *entity);
