/* judge-case.h: one finding with all that its judgement wants to know; used by plan-judge.c
 * and the files judge-*.c alone. */
#pragma once

#include "plan-judge.h"

#define SAMPLES 300

/* What is contact in the sampling: nothing but rounding. */
#define TOUCH_M 1e-12

typedef struct
{
  const char *name, *json;
  const TrnScene *scene;
  Tally *tally;
  guint lift_index;
  const OracleLift *lift;
  const TrnBody *load;
} JudgeLift;

/* The nearest triangles of the moment before. */
typedef struct
{
  gboolean known;
  TrnDistanceHint pair;
} CaseHint;

typedef struct
{
  const JudgeLift *at;
  guint move;
  const OracleStanding *standing;
  const TrnBody *body;
  const TrnFinding *finding; /* NULL where no finding is meant */
  gboolean seat_at_start, seat_at_end;
  double until_start_m, until_end_m, fit_m;
  CaseHint *hint; /* NULL: none is kept */
} Case;

/* What the findings of one obstacle say of its seat. */
typedef struct
{
  const OracleStanding *standing;
  const TrnBody *body;
  gboolean left, reached;
} CaseSeat;

#define HOLDS(c, condition, ...)                                                                   \
  do                                                                                               \
    {                                                                                              \
      if (!(condition))                                                                            \
        case_fails (c, G_STRLOC, #condition, __VA_ARGS__);                                         \
    }                                                                                              \
  while (0)

void case_fails (const Case *c, const char *where, const char *condition, const char *format, ...)
    G_GNUC_PRINTF (4, 5) G_GNUC_NORETURN;
void case_count (const Case *c, TallyKind kind);
const OracleMove *case_move (const Case *c);

/* The distance of the surfaces at @s where it is below @limit, else infinity. */
double case_surface (const Case *c, double s, double limit);
/* Whether one is inside the other at @s; the surfaces must not meet. */
TrnInside case_inside (const Case *c, double s);
/* The distance at @s, 0 inside. */
double case_distance (const Case *c, double s);
/* Seconds from the start of the lift, and back. */
double case_time (const Case *c, double s);
double case_progress (const Case *c, double time_s);
/* The parts of the move that are seated and free. FALSE when there is none. */
gboolean case_seated_part (const Case *c, TrnInterval *s);
gboolean case_free_part (const Case *c, TrnInterval *s);
/* Whether the finding lists a contact at @s. */
gboolean case_lists_contact (const Case *c, double s);

/* A finding of the check `clearance`. */
void judge_clearance (const Case *c);
/* What tolerances were seen to do is allowed for, and no more than they could do. */
void judge_allowance (const Case *c);

/* Seats: @cases has one entry for each move, of one obstacle. */
void judge_seated_spans (const Case *cases, guint n_moves, CaseSeat *seat);
/* A finding of the check `seat`. */
void
judge_seat (const JudgeLift *at, const TrnFinding *finding, const CaseSeat *seats, guint n_seats);
gboolean seat_means (const char *on, const char *body);
