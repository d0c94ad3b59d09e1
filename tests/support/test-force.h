/* test-force.h: what the tests of forces share: a crane and a gantry whose masses come out even,
 * and their findings. */
#pragma once

#include "gravity.h"
#include "test-gear.h"

#define G TRN_GRAVITY_M_S2
/* Certified values are above the true ones by no more than this share. */
#define FORCE_PLAY 2e-4

#define FORCE_SLAB                                                                                 \
  "{'id': 'slab', 'name': 'Slab', 'solid': {'kind': 'box', 'size': [2, 2, 1]}, 'at': {'position':" \
  " [50, 50, 0]}}"
/* Dynamic factor 1.2. */
#define FORCE_LOADS "'loads': {'dynamic': {'factor': 1.2, 'source': 'test'}},"
/* One leg of 50 kg to the hook point, a block of 200 kg. */
#define FORCE_RIGGING(gear)                                                                        \
  "{'main': {'gear': '" gear "', 'hook_above': 1, 'block': {'diameter': 0.4, 'height': 0.5,"       \
  " 'mass': 200}, 'slings': [{'id': 'leg', 'to': [0, 0, 2], 'diameter': 0.02, 'mass': 50, 'wll':"  \
  " 2000}]}}"

/* A spreader of 2 m, 100 kg, 1 m below its hook, upper legs at 45°, plumb lower legs of 1 kg each;
 * a shackle of 0.5 kg at the end a. @more: of the upper leg at the end b, begun by a comma. */
#define FORCE_SPREADER(more)                                                                       \
  "{'main': {'gear': 'crane', 'hook_above': 3, 'block': {'diameter': 0.4, 'height': 0.5, "         \
  "'mass': 200}, 'beam': {'id': 'bar', 'length': 2, 'width': 0.2, 'depth': 0.2, "                  \
  "'below_hook': 1, 'between': [[-1, 0, 2], [1, 0, 2]], 'mass': 100}, 'slings': [{'id': "          \
  "'up-a', 'to': 'beam-a', 'diameter': 0.02, 'mass': 1, 'wll': 1000}, {'id': 'up-b', 'to': "       \
  "'beam-b', 'diameter': 0.02, 'mass': 1, 'wll': 1000" more                                        \
  "}, {'id': 'a', 'from': 'beam-a', 'to': [-1, 0, 2], 'diameter': 0.02, 'mass': 1, 'wll': "        \
  "1000, 'shackle': {'mass': 0.5, 'wll': 400}}, {'id': 'b', 'from': 'beam-b', 'to': [1, 0, "       \
  "2], 'diameter': 0.02, 'mass': 1, 'wll': 1000}]}}"

static inline const TrnFinding *
test_force (const TestRun *run, TrnCheckKind check, const char *body, const char *item)
{
  return test_finding_of (run, check, 0, 0, body, NULL, item);
}

static inline double
test_number (const TrnFinding *f, const char *what)
{
  for (guint i = 0; f->numbers != NULL && i < f->numbers->len; i++)
    {
      const TrnFindingNumber *number = &g_array_index (f->numbers, TrnFindingNumber, i);
      if (g_str_equal (number->what, what))
        return number->value;
    }
  g_test_message ("no number %s", what);
  g_assert_not_reached ();
}

/* Proven: not below the true value, and near it. */
static inline void
test_assert_force (double found, double expected)
{
  test_assert_between (found, expected, 1e-9 * fabs (expected), FORCE_PLAY * fabs (expected));
}
