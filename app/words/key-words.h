/* key-words.h: what each key does, in words, and under which heading it is listed. */
#pragma once

#include <glib.h>

typedef enum
{
  TRN_KEYS_VIEW,
  TRN_KEYS_TIME,
  TRN_KEYS_STRIP,
  TRN_KEYS_TURNING,
  TRN_KEYS_SECTION,
  TRN_KEYS_STRUCTURES,
  TRN_KEYS_MEASURING,
  TRN_KEYS_PLAN,
  TRN_KEYS_FINDINGS,
  TRN_KEYS_PRESENTING,
  TRN_KEYS_PROGRAM,
  TRN_N_KEY_GROUPS,
} TrnKeyGroup;

/* Groups that are shown together. */
typedef enum
{
  TRN_KEY_SECTION_VIEW,
  TRN_KEY_SECTION_IN_VIEW,
  TRN_KEY_SECTION_PLAN,
} TrnKeySection;

/* "View and time"; borrowed. */
const char *trn_words_key_section (TrnKeySection section);
/* "Time"; borrowed. */
const char *trn_words_key_group (TrnKeyGroup group);
/* What a detailed action does: "Play or pause" of "win.play"; borrowed. NULL, and @group as it was,
 * for an action that is not known. @group may be NULL. */
const char *trn_words_action (const char *action, TrnKeyGroup *group);
