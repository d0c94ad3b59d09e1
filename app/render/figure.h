/* figure.h: the human figure that tells the scale: 1.75 m tall, standing at the origin, facing
 * south with arms a little apart. Plain data. */
#pragma once

#include "display-mesh.h"

#define RENDER_FIGURE_HEIGHT_M 1.75

RenderMesh *render_figure_build (void);
