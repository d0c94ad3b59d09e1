/* keys.h: which keys an action has: the tables that both listen to keys and list them. */
#pragma once

#define DESK_MOST_KEYS 4

/* Ends with a NULL, as the toolkit wants it. */
typedef struct
{
  const char *action; /* detailed: "win.play", "stage.turn::left" */
  const char *accels[DESK_MOST_KEYS + 1];
} DeskKeys;
