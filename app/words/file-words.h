/* file-words.h: what is said of a mesh file: what is in it, in which unit, and what was put right.
 *
 * Lengths in a unit that nobody declared are no metres: they are said as numbers of the file. */
#pragma once

#include "mesh-list.h"
#include "words.h"

/* "OBJ", "IFC (experimental)" */
char *trn_words_file_format (const char *path);
/* "24 triangles in 2 parts", "24 triangles" */
char *trn_words_file_counts (const TrnImportReport *report);
/* "closed", "open: 2 holes, the largest 0.8 m", "not closed: …"; with @bare the largest is a number
 * of the file. */
char *trn_words_file_surface (const TrnImportReport *report, gboolean bare);
/* "12 vertices joined, 1 duplicate triangle dropped"; NULL where nothing was done. */
char *trn_words_file_repairs (const TrnImportReport *report);
/* "system calls filtered, …": what held the program that read it */
char *trn_words_file_reader (const TrnImportReport *report);
/* "held against …" or that they were not */
const char *trn_words_file_counted (const TrnImportReport *report);
/* "mm", "m" … of metres in one unit; another one as "0.5 m" */
char *trn_words_file_unit (double metres);

/* All of it as the plan reads it: "24 triangles in 2 parts, closed", "unit mm (given by the plan),
 * Y up (declared by the file)", "3 vertices joined". */
char *trn_words_file_content (const TrnImportReport *report);
char *trn_words_file_frame (const TrnMeshFile *source, const TrnImportReport *report);
/* "X × Y × Z: 2.4 m × 1.2 m × 0.9 m" */
char *trn_words_file_extent (const TrnImportReport *report);
/* "gate.obj: …": these in a line. */
char *trn_words_file_line (const TrnMeshFile *source, const TrnImportReport *report);
/* The parts that a plan takes of a file: "only “a”, “b”"; NULL: all. */
char *trn_words_file_parts (const TrnMeshFile *source);
/* "Shape of Gate hall, Leaf": who has it as its shape. */
char *trn_words_file_users (const TrnSceneMesh *mesh);

/* Fixed texts of the window of files and of `trunnion inspect`, borrowed. */
typedef enum
{
  TRN_FILE_TITLE,   /* of the window */
  TRN_FILE_LEAD,    /* above the list */
  TRN_FILE_NONE,    /* no mesh file */
  TRN_FILE_UNUSED,  /* it could not be read */
  TRN_FILE_NOTHING, /* nothing was put right */
  TRN_FILE_TRIANGLES,
  TRN_FILE_FACES,
  TRN_FILE_SURFACE,
  TRN_FILE_PUT_RIGHT,
  TRN_FILE_UNIT,
  TRN_FILE_UP,
  TRN_FILE_READER,
  TRN_FILE_UNIT_NONE, /* no unit is declared */
  TRN_FILE_UP_NONE,
  TRN_FILE_UP_Z,
  TRN_FILE_UP_Y,
  TRN_FILE_SIZE, /* headings of the table of units */
  TRN_FILE_LARGEST,
  TRN_FILE_LOSS,
  TRN_FILE_DECLARED, /* marks of a row */
  TRN_FILE_REFUSED,
  TRN_FILE_IN_METRES, /* what the table of units is */
  TRN_FILE_PART,
  TRN_FILE_UNNAMED,
  TRN_N_FILE_TEXTS,
} TrnFileText;

const char *trn_words_file (TrnFileText text);

/* What stands above the list of parts: in which unit their sizes are. */
char *trn_words_file_parts_title (const TrnImportReport *report, guint32 n_parts);
/* "… and 12 more parts (--all lists them)" */
char *trn_words_file_more (guint32 n_parts);
/* "2.000 × 3.000 × 4.000"; a size or length as a bare number. */
char *trn_words_file_size (TrnVec3 size);
char *trn_words_file_number (double number);
/* "0.02 mm" */
char *trn_words_file_loss (double loss_m);
