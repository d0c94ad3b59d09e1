/* build.h: collects the faces of a file that the helper reads itself, and makes the answer.
 *
 * The formats that are read here and not by the import library are those that it reads in part or
 * wrongly without a word (see the head of each reader), or far too slowly. */
#pragma once

#include "answer.h"

typedef struct _TrnBuild TrnBuild;

/* A set of points that faces refer to by index. */
typedef struct
{
  const double (*points)[3];
  guint32 n;
  guint32 *index_of; /* @n zeros at first: which vertex a point became; NULL: the points are new
                        ones for every face */
} TrnBuildPoints;

TrnBuild *trn_build_new (TrnAnswer *answer, guint64 max_triangles);
void trn_build_free (TrnBuild *build);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TrnBuild, trn_build_free)

/* The part of this name, new or old. */
guint trn_build_part_get (TrnBuild *build, const char *name);

/* Adds a face with @n corners, cut to triangles; @turned reverses it. Faces of fewer than three
 * corners count as points and lines. FALSE after an error, which the answer has. */
gboolean trn_build_face (TrnBuild *build, guint part, const TrnBuildPoints *points,
                         const guint32 *corners, guint32 n, gboolean turned);
/* Takes a number into account that a coordinate was made of. */
void trn_build_size (TrnBuild *build, double number);
/* Counts what has no surface. */
void trn_build_drop (TrnBuild *build, guint64 points, guint64 lines);

/* Fills the answer, or adds an error to it. A coordinate errs by @roundings units of 2^-53 of the
 * largest one. */
void trn_build_finish (TrnBuild *build, double roundings);
