/* body.h: one body, written in many formats.
 *
 * A box from (0, 0, 0) to (1, 2, 4) in some unit: no two of its axes can be exchanged, none turned
 * round, without its box showing it, and its volume is negative when its faces look inwards. */
#pragma once

#include <glib.h>

#define BODY_X 1.0
#define BODY_Y 2.0
#define BODY_Z 4.0
#define BODY_VOLUME 8.0

/* Corner i: bit 0 is x, bit 1 y, bit 2 z. */
extern const guint16 body_triangles[12][3];
void body_corner (guint i, double scale, double corner[3]);

/* "x y z" of all corners, with what stands between numbers and between corners. */
char *body_corners_text (double scale, const char *between, const char *after);
/* The indices of all triangles. */
char *body_indices_text (const char *between, const char *after);

char *body_dae (const char *asset, const char *scene_nodes, double scale);
char *body_fbx (const char *settings, const char *model_properties, double scale);
/* The objects of an AMF: @objects follow the body, whose id is 1. */
char *body_amf (const char *unit, const char *objects, double scale);
/* The pairs of one DXF entity after the other: the body's triangles on @layer. */
char *body_dxf_faces (const char *layer, double scale);
/* A DXF of a header, blocks and entities, each as pairs and maybe empty. */
char *body_dxf (const char *header, const char *blocks, const char *entities);
/* A 3DS of one object; @editor and @main are chunks put in front in the editor's and the main
 * one. */
GByteArray *
body_3ds (const char *name, double scale, const GByteArray *editor, const GByteArray *main);
/* A chunk of a 3DS. */
GByteArray *body_3ds_chunk (guint16 number, const void *bytes, gsize length);
char *body_ifc (const char *prefix, double scale);
/* The model of a 3MF; @build is the inside of its build. */
char *body_3mf_model (const char *attributes, const char *objects, const char *build, double scale);

/* A ZIP archive of the files, packed or not; @files is name, text, name, text, …, NULL. */
GByteArray *body_zip (const char *const files[], gboolean packed);
/* A 3MF archive of that model. */
GByteArray *body_3mf (const char *model);
