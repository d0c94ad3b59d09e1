/* resources.h: where the files inside the program are. */
#pragma once

#define DESK_RESOURCES "/trunnion/desk"
