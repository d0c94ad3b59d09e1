/* random-crane.h: a crane with random numbers over a random move of a load within its reach, or
 * nearly. */
#pragma once

#include "test-motions.h"
#include "test-rig.h"

#define HOOK_ABOVE 5

/* Numbers of the crane as they are in the plan, in double precision. */
typedef struct
{
  double boom, jib, offset;
} Boom;

static inline char *
number (double x)
{
  char text[G_ASCII_DTOSTR_BUF_SIZE];
  return g_strdup (g_ascii_dtostr (text, sizeof text, x));
}

static inline char *
random_crane_text (GRand *rand, TrnVec3 base, double boom, gboolean jib)
{
  g_autofree char *x = number (base.x), *y = number (base.y), *z = number (base.z);
  g_autofree char *heading = number (test_between (rand, -180, 180));
  g_autofree char *out = number (test_between (rand, -3, 3)), *length = number (boom);
  g_autofree char *jib_length = number (boom * test_between (rand, 0.1, 0.8));
  g_autofree char *offset = number (test_between (rand, 0, 80));
  g_autofree char *jib_text
      = jib ? g_strdup_printf ("'jib': {'length': %s, 'offset': %s, 'section': [0.5, 0.5]},",
                               jib_length, offset)
            : g_strdup ("");
  return g_strdup_printf (
      "{'id': 'crane', 'kind': 'crane', 'at': {'position': [%s, %s, %s], 'turn': [%s, 0, 0]},"
      " 'boom': {'foot': [%s, 2], 'length': %s, 'section': [1, 1]}, %s"
      " 'counterweight': {'tail_radius': 6, 'bottom': 1, 'top': 3, 'width': 4}}",
      x, y, z, heading, out, length, jib_text);
}

/* All three moves are the same. The crane stands where its radius at the start is some part of what
 * it reaches. */
static inline void
random_crane (GRand *rand, TestRig *test)
{
  TrnMotion motion = test_random_motion (rand, 30);
  TrnVec3 origin = trn_pose_apply (&motion.start, (TrnVec3){ 0, 0, 0 });
  gboolean jib = g_rand_boolean (rand);
  double boom = test_between (rand, 30, 80), at = test_between (rand, -4, 4);
  double radius = boom * test_between (rand, 0.2, 0.8);
  TrnVec3 base
      = { origin.x + radius * cos (at), origin.y + radius * sin (at), test_between (rand, -5, 5) };
  g_autofree char *text = random_crane_text (rand, base, boom, jib);
  for (guint i = 0; i < TEST_MOVES; i++)
    test->motions[i] = motion;
  test_rig_build (test, text,
                  "'main': {'gear': 'crane', 'hook_above': 5, 'beam': {'id': 'bar', 'length': 7,"
                  " 'width': 0.3, 'depth': 0.4, 'below_hook': 2, 'between': ['east', 'west']},"
                  " 'slings': [{'id': 'leg', 'to': 'tail', 'diameter': 0.04},"
                  " {'id': 'drop', 'from': 'beam-a', 'to': 'east', 'diameter': 0.04}]}");
}
