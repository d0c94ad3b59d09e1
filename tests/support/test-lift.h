/* test-lift.h: a plan with one lift of one load past a few structures, for tests. */
#pragma once

#include <glib.h>

typedef struct
{
  const char *structures; /* between the brackets */
  const char *solid, *at, *hook;
  const char *more; /* further keys of the lift, each ended by a comma */
  const char *moves;
  double keep_clear_m;
} TestLift;

static inline char *
test_lift_text (const TestLift *lift)
{
  char keep[G_ASCII_DTOSTR_BUF_SIZE];
  return g_strdup_printf (
      "{'format': 'trunnion-plan', 'version': 1, 'title': 'Test', 'keep_clear': %s, 'gear': [],"
      " 'structures': [%s], 'components': [{'id': 'unit', 'name': 'Unit', 'mass': 1000,"
      " 'solid': %s, 'at': %s}], 'programme': [{'lift': 'one', 'component': 'unit',"
      " 'hook_point': %s, %s 'moves': [%s]}]}",
      g_ascii_dtostr (keep, sizeof keep, lift->keep_clear_m), lift->structures, lift->solid,
      lift->at, lift->hook, lift->more != NULL ? lift->more : "", lift->moves);
}

/* A structure for TestLift.structures. */
#define TEST_BOX(id, size, position)                                                               \
  "{'id': '" id "', 'name': '" id "', 'solid': {'kind': 'box', 'size': " size "}, 'at':"           \
  " {'position': " position "}}"
#define TEST_POST(id, diameter, height, position)                                                  \
  "{'id': '" id "', 'name': '" id "', 'solid': {'kind': 'cylinder', 'diameter': " diameter         \
  ", 'height': " height "}, 'at': {'position': " position "}}"
#define TEST_AT(position) "{'position': " position "}"
#define TEST_TWO(a, b) a "," b
#define TEST_THREE(a, b, c) a "," b "," c
