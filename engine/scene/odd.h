/* odd.h: what is odd about loads and slings once their meshes are known: warnings. Not for other
 * folders. */
#pragma once

#include "scene.h"

/* A mass that nothing of that size has, and slings that go to points off their load. */
void trn_scene_warn_of_odd (const TrnScene *scene, TrnDiags *diags);
