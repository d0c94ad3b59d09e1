/* diag.h: what is wrong (or worth knowing), where, as data.
 *
 * The engine never writes sentences. It says a code, a place and named values; `app/words` turns
 * them into a sentence in the reader's language and units. A code is a string such as
 * "plan/unknown-key", whose first part names the folder that says it; each code has one sentence
 * in app/words/sentences.c, and a test holds the two together.
 *
 *   TrnDiag *d = trn_diags_add (diags, TRN_SEVERITY_ERROR, "plan/unknown-key", "/structures/0/at");
 *   trn_diag_set_text (d, "key", "positon");
 *   trn_diag_set_text (d, "nearest", "position");
 */
#pragma once

#include <glib.h>

typedef enum
{
  TRN_SEVERITY_NOTE,
  TRN_SEVERITY_WARNING,
  TRN_SEVERITY_ERROR,
} TrnSeverity;

/* The unit of a number, so that whoever shows it can choose another. */
typedef enum
{
  TRN_UNIT_NONE,
  TRN_UNIT_M,
  TRN_UNIT_S,
  TRN_UNIT_DEG,
  TRN_UNIT_KG,
  TRN_UNIT_COUNT,
  TRN_UNIT_BYTES,
  TRN_UNIT_N,
  TRN_UNIT_NM,
  TRN_UNIT_PA,
  TRN_UNIT_M_S,
  TRN_UNIT_DEG_S,
  TRN_UNIT_M2,
} TrnUnit;

typedef struct
{
  const char *name; /* static */
  char *text;       /* owned; NULL for a number */
  double number;
  TrnUnit unit;
} TrnDiagValue;

typedef struct
{
  TrnSeverity severity;
  const char *code; /* static */
  char *file;       /* owned; NULL where no file is meant */
  char *subject; /* owned; the file that the sentence calls “it”, where the place is in another,
                    such as that of a plan which names a mesh; NULL otherwise */
  guint line;    /* from 1; 0 where unknown */
  char *pointer; /* owned JSON Pointer (RFC 6901); NULL where there is none */
  GArray *values; /* of TrnDiagValue */
} TrnDiag;

/* A list of diagnostics in the order in which they were found. */
typedef struct
{
  GPtrArray *items; /* of TrnDiag, owned */
} TrnDiags;

TrnDiags *trn_diags_new (void);
void trn_diags_free (TrnDiags *diags);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TrnDiags, trn_diags_free)

/* Adds a diagnostic and returns it, borrowed, so that values can be set. @code must be static;
 * @pointer may be NULL. */
TrnDiag *
trn_diags_add (TrnDiags *diags, TrnSeverity severity, const char *code, const char *pointer);

void trn_diag_set_file (TrnDiag *diag, const char *file, guint line);

/* Puts the diagnostic at @pointer of a file that names the one it is about, which stays its
 * subject; file and line are to be set next. */
void trn_diag_set_origin (TrnDiag *diag, const char *pointer);

/* @name must be static and is the name used in the sentence's {braces}. @text is copied. */
void trn_diag_set_text (TrnDiag *diag, const char *name, const char *text);
void trn_diag_set_number (TrnDiag *diag, const char *name, double number, TrnUnit unit);

/* The value called @name, borrowed, or NULL. */
const TrnDiagValue *trn_diag_get (const TrnDiag *diag, const char *name);

guint trn_diags_count (const TrnDiags *diags, TrnSeverity at_least);
gboolean trn_diags_have_errors (const TrnDiags *diags);
