/* divide.h: splits a run of triangles in two, for a tree (bvh.c). */
#pragma once

#include "mesh.h"

/* A triangle while a tree is built: its box relative to the middle of the mesh, in single
 * precision: it only steers the splits. */
typedef struct
{
  float lo[3], hi[3];
  float normal[3]; /* times the square root of the area */
  guint32 triangle;
} TrnDivideItem;

void trn_divide_item_make (TrnDivideItem *item, const TrnMesh *mesh, guint32 triangle);

/* The box of all of them. */
void trn_divide_box (const TrnDivideItem *items, guint32 n_items, float lo[3], float hi[3]);

/* Orders the items, at least two, so that the first of them, whose number is returned, go to one
 * side and the rest, at least one, to the other. @depth: of how many splits the run came. */
guint32 trn_divide (TrnDivideItem *items, guint32 n_items, guint depth);
