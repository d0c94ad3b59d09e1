/* answer-read.h: the helper's answer, checked as if an enemy had written it.
 *
 * Sizes are checked before anything is allocated for them, and everything afterwards: the helper
 * may have been taken over by the file that it read. */
#pragma once

#include "helper-process.h"
#include "stream.h"

typedef struct
{
  TrnStreamNote head;
  char *text;
} TrnReadNote;

typedef struct
{
  TrnStreamHeader header;
  GArray *notes; /* of TrnReadNote */
  TrnVec3 *vertices;
  TrnTriangle *triangles;
  TrnMeshPart *parts; /* header.n_parts of them */
  gboolean began;     /* its header has come */
} TrnReadAnswer;

/* Steps of progress that the wait for the header counts for. */
#define TRN_READ_STEPS 4

TrnReadAnswer *trn_read_answer_new (void);
void trn_read_answer_free (TrnReadAnswer *answer);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TrnReadAnswer, trn_read_answer_free)

/* Fills @answer. With TRN_PIPE_OK, @fault tells what is wrong with the answer, in English for a
 * report to the makers, or is NULL: then all of it holds. @progress may be NULL. */
TrnPipeResult
trn_read_answer_read (TrnReadAnswer *answer, TrnHelperProcess *process,
                      const TrnImportLimits *limits, TrnProgress *progress, const char **fault);
