/* scene-frame.h: in which unit and axes the import library's scene is. */
#pragma once

#include "answer.h"
#include "formats.h"

#include <assimp/scene.h>

/* The library turns and scales some formats on its own. That is taken back, so that coordinates
 * are in the file's own unit and axes; what the file declares goes into the answer's header. Adds
 * an error where the scene is not what it should be. */
void trn_scene_frame_settle (const struct aiScene *scene, const char *path, TrnFormat format,
                             TrnAnswer *answer);
