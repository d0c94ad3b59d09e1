/* citizen-words.h: what presenting, the preferences and the page about the program say. */
#pragma once

#include "words.h"

/* Fixed texts, borrowed. */
typedef enum
{
  TRN_CITIZEN_PREFERENCES,
  TRN_CITIZEN_UNITS,
  TRN_CITIZEN_UNITS_HINT,
  TRN_CITIZEN_LENGTHS,
  TRN_CITIZEN_METRES,
  TRN_CITIZEN_FEET,
  TRN_CITIZEN_MASSES,
  TRN_CITIZEN_TONNES,
  TRN_CITIZEN_US_TONS,
  TRN_CITIZEN_HEADINGS,
  TRN_CITIZEN_BEARINGS,
  TRN_CITIZEN_MATHEMATICAL,
  TRN_CITIZEN_MARGINS,
  TRN_CITIZEN_TIGHT_METRES,
  TRN_CITIZEN_TIGHT_INCHES,
  TRN_CITIZEN_TIGHT_HINT,
  TRN_CITIZEN_LOOKS,
  TRN_CITIZEN_STYLE,
  TRN_CITIZEN_STYLE_SYSTEM,
  TRN_CITIZEN_STYLE_LIGHT,
  TRN_CITIZEN_STYLE_DARK,
  TRN_CITIZEN_ANIMATIONS,
  TRN_CITIZEN_ANIMATIONS_HINT,
  TRN_CITIZEN_SHORTCUTS,
  TRN_CITIZEN_DEVELOPERS,
  TRN_CITIZEN_PRESENTING,      /* title of the window */
  TRN_CITIZEN_PRESENTING_KEYS, /* at the foot */
  TRN_N_CITIZEN_TEXTS,
} TrnCitizenText;

const char *trn_words_citizen (TrnCitizenText text);

/* What is checked, what is not, and what holds for every result: paragraphs, for the page about
 * the program. */
char *trn_words_about (void);

/* "Move 3 of 5 · Lift 2: North leaf": a long title may be cut at its end. */
char *trn_words_present_lift (const TrnLift *lift, guint run, guint move);
/* "Closest to Pump house" */
char *trn_words_closest_to (const char *name);
