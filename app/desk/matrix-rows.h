/* matrix-rows.h: which rows the matrix of findings has, in what order, and which finding stands in
 * each of their cells. */
#pragma once

#include "session.h"

typedef struct
{
  const char *id;   /* of the plan or of the rig; NULL: the other checks, the first row */
  int worst;        /* the index of the worst finding of the row; −1: none */
  gboolean is_part; /* of gear, and moves */
  int *findings;    /* for each move the index of its finding, or −1; owned */
} DeskMatrixRow;

/* Of that lift of the site of the session, worst first after the other checks. @lift: what was
 * found, NULL where nothing is known yet. @is_all: moving parts that nothing is looked at against,
 * too; @n_all: how many rows there would be then. To be freed with g_ptr_array_unref(); @run and
 * its scene outlive it. */
GPtrArray *desk_matrix_rows_new (DeskSession *session, const TrnScene *scene, const TrnLiftRun *run,
                                 const TrnLiftFindings *lift, gboolean is_all, guint *n_all);

/* Of what has a margin in this lift, the worst finding, by its index; −1 where none. */
int desk_matrix_find_worst (DeskSession *session, const TrnLiftFindings *lift);
