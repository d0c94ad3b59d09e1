/* writers.h: a mesh as the bytes of a file. Coordinates are rounded to 0.01 mm first, so that the
 * last bit of a sine does not change a file. */
#pragma once

#include "maker.h"

/* glTF binary: metres, Y up. */
GByteArray *dm_write_glb (const DmMesh *mesh);
/* Wavefront text: metres, Z up. */
GByteArray *dm_write_obj (const DmMesh *mesh);
/* Binary STL: millimetres, Z up. */
GByteArray *dm_write_stl (const DmMesh *mesh);
/* Binary little-endian PLY: metres, Z up. */
GByteArray *dm_write_ply (const DmMesh *mesh);
