/* window-words.h: what the window round the rooms says: its pages and bars. */
#pragma once

#include "words.h"

/* Of a demo by its name; borrowed. */
const char *trn_words_demo_title (const char *name);
const char *trn_words_demo_text (const char *name);

/* "Error: …": how grave it is, and the sentence. */
char *trn_words_graded_diag (const TrnDiag *diag);
/* "“Gate” cannot be shown: 3 errors", or of a plan that can, "2 remarks on “Gate”". */
char *trn_words_fault_title (const char *title, const TrnDiags *diags, gboolean is_faulty);
/* "line 12 · /structures/0/mesh" where it is in the file that stands above the list, else with its
 * file, without the folder where that is the same. "": nowhere. */
char *trn_words_fault_place (const TrnDiag *diag, const char *file);
/* "Back to “Gate”, which was open before" */
char *trn_words_back_to (const char *title);
/* "The file “gate.trunnion” is not there any more …" */
char *trn_words_gone (const char *path);
const char *trn_words_fault_lead (gboolean is_faulty);
/* "“Gate” cannot be checked: 2 structures are left out" */
char *trn_words_partial_title (const char *title, guint n_left_out);
/* "2 structures cannot be read … Nothing was checked." */
char *trn_words_left_out (guint n_left_out);
/* "2 structures left out": for a picture */
char *trn_words_left_out_short (guint n_left_out);
/* "2 remarks" */
char *trn_words_remarks (guint n);

/* "Reading “Gate” …" */
char *trn_words_reading_plan (const char *title);

/* Fixed texts, borrowed. */
typedef enum
{
  TRN_WINDOW_OPEN_PLAN,
  TRN_WINDOW_OPEN,
  TRN_WINDOW_CANCEL,
  TRN_WINDOW_PLANS,
  TRN_WINDOW_ALL_FILES,
  TRN_WINDOW_CHANGED_ON_DISK,
  TRN_WINDOW_COPIED,
  TRN_WINDOW_CHECK,
  TRN_WINDOW_STOP_CHECK,
  TRN_WINDOW_FAULTS,
  TRN_WINDOW_COPY_ROW,
  TRN_N_WINDOW_TEXTS,
} TrnWindowText;

const char *trn_words_window (TrnWindowText text);
