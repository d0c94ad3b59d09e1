/* task-list.h: what is to be worked out of one lift, as lists of tasks: first how far earlier lifts
 * may have left what stands from where it is drawn, then what findings share, then what the gear's
 * findings share, then the findings, in their fixed order. */
#pragma once

#include "lift-work.h"

typedef enum
{
  /* what the keys of findings are made of */
  TRN_TASK_HUNG, /* index: run */
  TRN_TASK_LEFT, /* index: obstacle */
  /* what findings share */
  TRN_TASK_OUTLINE, /* index: move; what several moves ask for, so that none waits for another */
  TRN_TASK_MOVE,    /* index: move */
  TRN_TASK_SEATED,  /* index: obstacle */
  /* what findings of the gear share, which wants the above */
  TRN_TASK_GEAR_MOVE, /* index: move */
  TRN_TASK_TAIL,      /* index: place of the rig */
  /* findings */
  TRN_TASK_CLEARANCE, /* pair */
  TRN_TASK_SWING,     /* other: obstacle */
  TRN_TASK_SEAT,      /* index: seat; at_end */
  TRN_TASK_START,
  TRN_TASK_HEADROOM,      /* hoist */
  TRN_TASK_REACH,         /* hoist; other: limit */
  TRN_TASK_TAIL_SWING,    /* index: place of the rig; other: obstacle */
  TRN_TASK_BARRICADE,     /* index: place of the rig */
  TRN_TASK_APPROACH,      /* pair */
  TRN_TASK_STANDING,      /* approach; index, other: obstacles, what stands of a gear and a line */
  TRN_TASK_RIGGING,       /* hoist; other: sling */
  TRN_TASK_OWN_LOAD,      /* likewise */
  TRN_TASK_OWN_LOAD_BODY, /* hoist; other: body of the rig */
  TRN_TASK_HOOK_LOAD,     /* hoist */
  TRN_TASK_CAPACITY,      /* hoist */
  TRN_TASK_LOAD_SHARE,    /* other: item */
  TRN_TASK_SLINGS,        /* hoist; other: sling; item */
  TRN_TASK_GROUND,        /* other: gear */
  TRN_TASK_WIND,          /* item; hoist: of the speed */
  TRN_TASK_RESTING,
  TRN_TASK_ATTITUDE,
  TRN_TASK_LEAN,       /* of what hangs with its tail */
  TRN_TASK_HOIST_LINE, /* hoist */
  TRN_TASK_SPEED,      /* hoist; item */
  TRN_TASK_SWINGING,   /* of the lift */
  TRN_TASK_NO_GEAR,    /* check; missing, body: a finding that says unknown */
  TRN_TASK_UNHELD,     /* the same about one move */
  TRN_TASK_NOT_GIVEN,  /* the same as a note */
  TRN_TASK_STANDS,     /* index: place of the rig; other: obstacle */
  TRN_TASK_FOOTING,    /* index: place of the rig */
} TrnTaskKind;

/* Index is the move where nothing else is said. */
typedef struct
{
  TrnTaskKind kind;
  guint lift; /* among those that are checked */
  guint index, other, item;
  TrnPair pair;
  const TrnHoist *hoist;
  gboolean at_end;
  TrnCheckKind check;
  const char *missing, *body; /* static or borrowed */
  guint place;                /* among the findings of the lift */
} TrnTask;

/* Each adds to @tasks (of TrnTask) those of the lift at @lift of the run. */
void trn_tasks_list_hung (const TrnLiftWork *work, guint lift, GArray *tasks);
void trn_tasks_list_left (const TrnLiftWork *work, guint lift, GArray *tasks);
void trn_tasks_list_shared (const TrnLiftWork *work, guint lift, GArray *tasks);
void trn_tasks_list_gear (const TrnLiftWork *work, guint lift, GArray *tasks);
/* Returns the number of findings. */
guint trn_tasks_list_findings (const TrnLiftWork *work, guint lift, GArray *tasks);
