/* words-units.h: the units in which people read: chosen once, used by every text on screen.
 *
 * Files and what refers to the numbers in them (diagnostics, exports) never follow this. Metres,
 * tonnes and bearings hold until another choice is made, so that the command line, which makes
 * none, always reads the same. Set and read on the main thread. */
#pragma once

#include <glib.h>

typedef enum
{
  TRN_LENGTHS_METRES,
  TRN_LENGTHS_FEET, /* feet and inches, to the sixteenth of an inch */
} TrnLengthUnits;

typedef enum
{
  TRN_MASSES_TONNES,
  TRN_MASSES_US_TONS, /* of 2000 lb: 907.18474 kg exactly */
} TrnMassUnits;

typedef enum
{
  TRN_HEADINGS_BEARINGS,     /* clockwise from north, three digits */
  TRN_HEADINGS_MATHEMATICAL, /* counter-clockwise from east, as in the plan */
} TrnHeadingUnits;

typedef struct
{
  TrnLengthUnits lengths;
  TrnMassUnits masses;
  TrnHeadingUnits headings;
} TrnWordsUnits;

void trn_words_set_units (TrnWordsUnits units);
TrnWordsUnits trn_words_get_units (void);

/* On a screen that wraps, a number and its unit stay on one line: the spaces within a quantity are
 * such that no line breaks there. Off until it is set, so that what a command prints can be
 * searched with plain spaces. Set once, on the main thread. */
void trn_words_set_joined (gboolean joined);
/* Takes a quantity and gives it as it is to be shown. For those who write units: app/words. */
char *trn_words_quantity (char *quantity);
