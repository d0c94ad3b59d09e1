/* parallel.h: the same function for every index, on several threads. */
#pragma once

#include <glib.h>

typedef void (*TrnParallelFunc) (guint index, gpointer data);

/* The number of threads that a @jobs of 0 stands for: the processors of this machine. */
guint trn_parallel_jobs (guint jobs);

/* Calls @func for 0 … @count − 1, each index once, on at most @jobs threads (0: one a processor),
 * and returns when all are done. Indices are handed out in order; the order in which they end is
 * not fixed, so @func writes only to its own index's place. */
void trn_parallel_for (guint count, guint jobs, TrnParallelFunc func, gpointer data);
