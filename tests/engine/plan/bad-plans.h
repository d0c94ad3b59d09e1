/* bad-plans.h: plans with one fault each: the small plan without fault of plan-base.h in which one
 * piece of text is replaced. For the tests of the reader and for those of the program.
 *
 * What is wrong follows from the contract of the plan file and from RFC 8259 (JSON). */
#pragma once

#include <glib.h>

typedef struct
{
  const char *name;
  const char *from, *to; /* from NULL: the whole text */
  const char *code, *pointer;
  gboolean schema_sees; /* the fault needs no look at another place of the plan */
  const char *value_name, *value;
} BadPlan;

extern const BadPlan bad_plans[];
extern const guint n_bad_plans;

/* More of them: gear, approach, rigging. */
extern const BadPlan bad_gear[];
extern const guint n_bad_gear;
extern const BadPlan bad_loads[];
extern const guint n_bad_loads;

/* The text of the faulty plan, owned. */
char *bad_plan_text (const BadPlan *bad);
