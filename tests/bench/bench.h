/* bench.h: what the measurements share. Each prints lines; nothing is asserted. */
#pragma once

#include "bench-scenes.h"

typedef struct
{
  guint runs;                   /* the median of so many is printed */
  double fcl_limit_s;           /* FCL's 1000 queries are cut short after this, and scaled up */
  const char *trunnion, *demos; /* the program and the folder of the demos */
} BenchOptions;

/* The medians over runs are what is compared. Sorts @values. */
double bench_median (double *values, guint n);

/* What the processor worked for this process: other programs hardly change it. */
double bench_worked_s (void);
double bench_wall_s (void);

typedef enum
{
  BENCH_AT_LEAST,
  BENCH_AT_MOST
} BenchSense;

/* One line: @name, @what was measured (with sizes), the value, and whether it is reached.
 * @required 0: nothing is, and @goal is not printed either. */
void bench_print (const char *name, const char *what, double value, const char *unit,
                  BenchSense sense, double required, double goal);
/* A line of detail under it. */
void bench_note (const char *format, ...) G_GNUC_PRINTF (1, 2);

/* "20000 x 5000", in a buffer that the next call overwrites. */
const char *bench_sizes (const BenchScene *scene);

/* All moves, one thread; the results are those of trn_sweep_minimum (). */
double
bench_sweep_s (const BenchScene *scene, double far_m, TrnSweepResult results[BENCH_MOST_MOVES]);

/* bench-others.c */
void bench_threads (const char *name, const BenchOptions *options);
void bench_scrubbing (const char *name, const BenchOptions *options);
void bench_build (const char *name, const BenchOptions *options);
void bench_demos (const char *name, const BenchOptions *options);
