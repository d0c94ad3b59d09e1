/* results-read.h: a results file read back, to be held against another.
 *
 *   g_autoptr (TrnResults) results = trn_results_read ("before.json", diags);
 *   if (results != NULL)
 *     …results->findings…
 *
 * The file is taken for anyone's: its size, depth and counts are limited before memory is taken for
 * them, numbers have to be finite and in their range, words those of the format. Keys that this
 * version does not know are passed over. Of a finding only what a comparison needs is kept. */
#pragma once

#include "checks.h"

/* More than a plan of the greatest size gives. */
#define TRN_RESULTS_MOST_FINDINGS 1000000u
#define TRN_RESULTS_MOST_FILES 10000u

typedef struct
{
  const char *file, *sha256; /* borrowed from the results */
} TrnResultsMesh;

typedef struct
{
  const char *lift; /* id; borrowed from the results, like the texts of `found` */
  char *identity;   /* what it is about, in one text that is unique in the file; owned */
  /* check, verdict, state, move, body, obstacle, item, at_end, missing, inside, has_seated; lower,
   * required, allowance, radius, sector distance, value, limit, margin and unit. */
  TrnFinding found;
} TrnResultsFinding;

typedef struct
{
  char *file; /* as it was named */
  const char *program, *title, *plan_file, *plan_sha256;
  double certified_to_m;
  GArray *meshes;          /* of TrnResultsMesh */
  GPtrArray *checks;       /* of const char *: those that were done */
  GPtrArray *findings;     /* of TrnResultsFinding, in the order of the file */
  GHashTable *by_identity; /* identity → TrnResultsFinding */
  GStringChunk *texts;
} TrnResults;

/* NULL with at least one error, each with its line and JSON Pointer (codes "results/…", and those
 * of json-read.h for what is no JSON or cannot be read). */
TrnResults *trn_results_read (const char *path, TrnDiags *diags);
/* The same of @length bytes; @file is what messages call them. */
TrnResults *trn_results_parse (const char *bytes, gsize length, const char *file, TrnDiags *diags);
void trn_results_free (TrnResults *results);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TrnResults, trn_results_free)
