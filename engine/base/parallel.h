/* parallel.h: the same function for every index, on several threads. */
#pragma once

#include <glib.h>

typedef void (*TrnParallelFunc) (guint index, gpointer data);

/* The thread that calls stands behind everything that a person waits for from now on, as far as the
 * system has that of a thread alone: Linux. So do those that it starts. */
void trn_thread_stand_back (void);
/* So do the threads that loops share, whoever makes the program start them; call it before the
 * first loop. Who calls a loop keeps its place. */
void trn_parallel_stand_back (void);

/* The number of threads that a @jobs of 0 stands for: the processors of this machine. */
guint trn_parallel_jobs (guint jobs);

/* A loop with @jobs threads probably comes soon, in less time than a thread needs to wake up some
 * times over: those that sleep wake up meanwhile. */
void trn_parallel_expect (guint jobs);

/* Calls @func for 0 … @count − 1, each index once, on at most @jobs threads (0: one a processor),
 * and returns when all are done. Indices are handed out in order; the order in which they end is
 * not fixed, so @func writes only to its own index's place. */
void trn_parallel_for (guint count, guint jobs, TrnParallelFunc func, gpointer data);
