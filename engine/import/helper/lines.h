/* lines.h: a text file line by line, through one buffer: files of hundreds of megabytes pass
 * without being held. A line ends with a line feed, a carriage return or both. A byte order
 * mark of UTF-8 in front of the first one is passed over. */
#pragma once

#include <glib.h>
#include <stdio.h>

typedef struct
{
  FILE *stream;
  char *buffer;
  gsize begin, end; /* of what is not read yet */
  gboolean eof;
  gboolean ended;    /* the last line that was read has an end */
  gboolean too_long; /* a line did not fit; nothing more is read */
} TrnLines;

void trn_lines_init (TrnLines *lines, FILE *stream);
void trn_lines_clear (TrnLines *lines);
/* The next line without its end, valid until the next call; NULL after the last one. A NUL byte
 * in it ends it early. */
char *trn_lines_next (TrnLines *lines);
