/* view-words.h: the words in a picture of a lift: labels, notes and the caption. */
#pragma once

#include "desk-words.h"
#include "vec3.h"
#include "words.h"

/* Of a name on a plate in the view. */
#define TRN_PLATE_NAME_CHARS 36

/* "0.32 m, keep 0.5 m", and where tolerances take something off "0.32 m, keep 0.3 m and 0.1 m
 * tolerance"; the distance is rounded down, the rest up. "Touching, keep 0.5 m" where it is 0.
 * @allowance_m may be NAN: not known. */
char *trn_words_gap (double distance_m, double required_m, double allowance_m);
/* "Inside, 0.42 m from the surface, keep 0.5 m": of two that meet, as trn_words_now says it. */
char *trn_words_gap_meeting (TrnNow now, double depth_m, double required_m);
/* The pitch of a grid: 1, 2, 5, 10 … m, or ft where lengths are in feet, at most @length_m. */
double trn_words_grid_pitch_m (double length_m);

/* "to Pipe bridge": what the gap is to, cut at its end where it is long. */
char *trn_words_gap_to (const char *name);
/* "to Canopy, at 0:46:21": of a moment that is not now. */
char *trn_words_gap_to_then (const char *name, double time_s);
/* "Boom of Crane A to Canopy", each cut at its end where it is long; with @then_s, which is not
 * NAN, "…, at 0:46:21". */
char *trn_words_gap_between (const char *from, const char *to, double then_s);
/* "swing circle, radius 8.3 m"; rounded up. */
char *trn_words_swing_circle (double radius_m);

typedef enum
{
  TRN_GHOST_START,
  TRN_GHOST_END,
  TRN_GHOST_CLOSEST,
} TrnGhost;

/* "Start", "End", "Closest" */
const char *trn_words_ghost (TrnGhost ghost);

/* "grid 5 m", "grid 20′" */
char *trn_words_grid (double pitch_m);
/* "cut at z = 1.2 m" for a plane square to an axis of the site, else "cut by a plane". @normal is a
 * unit vector. */
char *trn_words_section (TrnVec3 normal, double offset_m);
/* How a view looks: "plan", "north", "east", "south", "west" or "3d", as a person says it: "Plan
 * view", "From the north". NULL for another word. */
const char *trn_words_view (const char *view);
const char *trn_words_projection (gboolean parallel);
/* "0:46:21 · From the south · parallel": the moment, and how one looks at it. */
char *trn_words_caption (double time_s, const char *view, gboolean parallel);
/* One line of those parts that are not NULL. */
char *trn_words_join (const char *a, const char *b, const char *c);
