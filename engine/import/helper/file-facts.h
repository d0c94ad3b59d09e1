/* file-facts.h: what the helper reads in a file itself, before the import library does.
 *
 * Two uses: the library leaves out faces that it cannot read, and a face that is missing is an
 * obstacle that is missing, so the faces are counted here and compared with what it returned; and
 * how many times a coordinate was rounded depends on how the file writes it. Also catches headers
 * that claim more than the file can hold, on which the library eats all memory. */
#pragma once

#include "answer.h"
#include "formats.h"

typedef struct
{
  guint64 faces;       /* that the library must return, at least */
  gboolean over_nodes; /* `faces` are triangles, counted once for each node that shows them */
  gboolean counted;    /* whether `faces` could be told */
  gboolean nameless;   /* the format has no names; those the library gives are its own */
  gboolean blended;    /* a skin is weighed against the place of its node, see skin-pose.h */
  gboolean torn;       /* the library gives each face vertices of its own */
  gboolean packed;     /* coordinates were rounded to a grid, to which the file does not say */
  guint64 vertices;    /* that the faces of a torn file use; 0 where it is not known */
  guint64 meshes;      /* in the file, shown or not, where a node shows them; else 0 */
  double roundings;    /* error of a coordinate, in units of 2^-24 of its size */
} TrnFileFacts;

/* Reads @path, adding an error to @answer where it can tell that it is bad. */
void
trn_file_facts_read (const char *path, TrnFormat format, TrnFileFacts *facts, TrnAnswer *answer);

/* Roundings of a number that is written as text. */
double trn_text_roundings (gboolean exponents);
