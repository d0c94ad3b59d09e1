/* odd.h: what is odd about loads, slings and places once their meshes are known: warnings. Not for
 * other folders. */
#pragma once

#include "scene.h"

/* A centre of gravity outside of its load, a mass that nothing of that size has, structures far
 * from all loads, and slings that go to points off their load. */
void trn_scene_warn_of_odd (const TrnScene *scene, TrnDiags *diags);
