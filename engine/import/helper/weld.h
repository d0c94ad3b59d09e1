/* weld.h: vertices in which equal points are one.
 *
 * The import library returns three vertices a triangle for most formats. Only points with the very
 * same coordinates are joined: nothing moves. An open-addressing hash table over the coordinates'
 * bits, at most half full (Knuth, The Art of Computer Programming, vol. 3, section 6.4). */
#pragma once

#include <glib.h>

typedef struct
{
  double *points; /* three a vertex */
  guint32 n_points;
  gsize room;     /* for so many vertices */
  guint32 *slots; /* index + 1; 0 where free */
  gsize n_slots;  /* a power of two */
} TrnWeld;

/* FALSE when there is no memory. */
gboolean trn_weld_init (TrnWeld *weld);
/* The index of the vertex at @point, new or old. FALSE when there is no memory. */
gboolean trn_weld_add (TrnWeld *weld, const double point[3], guint32 *index);
/* Frees the table and leaves the points, which the caller owns from then on. */
void trn_weld_clear (TrnWeld *weld);
