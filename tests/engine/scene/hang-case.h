/* hang-case.h: a load of 2 m × 2 m × 2 m that hangs free, with its moves, as text and as played. */
#pragma once

#include "test-plan.h"

typedef struct
{
  const char *at, *cog, *cog_box, *hook;
  const char *more; /* keys of the lift, each ended by a comma */
  const char *moves;
  const char *after; /* more of the programme, begun by a comma */
} Case;

static inline char *
case_text (const Case *c)
{
  return g_strdup_printf (
      "{'format': 'trunnion-plan', 'version': 1, 'keep_clear': 0.1, 'structures': [{'id': 'deck',"
      " 'solid': {'kind': 'box', 'size': [1, 1, 1]}, 'at': {'position': [50, 0, 0]}}], 'gear': [],"
      " 'components': [{'id': 'unit', 'solid': {'kind': 'box', 'size': [2, 2, 2]}, 'mass': 1000,"
      " 'cog': %s, 'cog_box': %s, 'at': %s}], 'programme': [{'lift': 'l', 'component': 'unit',"
      " 'hook_point': %s, 'hangs': 'free', %s 'moves': [%s]}%s]}",
      c->cog, c->cog_box != NULL ? c->cog_box : "[0, 0, 0]", c->at, c->hook,
      c->more != NULL ? c->more : "", c->moves, c->after != NULL ? c->after : "");
}

static inline TrnProgramme *
play (const Case *c)
{
  g_autofree char *text = case_text (c);
  return test_programme (text);
}

#define HOIST "{'do': 'hoist', 'by': 2, 'seconds': 1}"
#define TRAVEL "{'do': 'travel', 'by': [3, -4], 'seconds': 1}"
#define WAIT "{'do': 'wait', 'seconds': 1}"
#define TURN_ASIDE "{'do': 'turn', 'by': 70, 'about': [3, 1, 0], 'seconds': 1}"
#define MOVE "{'do': 'move', 'by': [1, 2, 3], 'turn': -40, 'seconds': 1}"
#define SLEW                                                                                       \
  "{'do': 'slew', 'by': 50, 'centre': [9, 2], 'load_turns': true, 'radius_by': 1, 'hoist_by': 1,"  \
  " 'seconds': 1}"
#define SLEW_STILL "{'do': 'slew', 'by': -30, 'centre': [1, 20], 'load_turns': false, 'seconds': 1}"
#define TILT "{'do': 'tilt', 'by': 10, 'axis': 30, 'seconds': 1}"
#define ALL HOIST "," TRAVEL "," WAIT "," TURN_ASIDE "," MOVE "," SLEW "," SLEW_STILL
