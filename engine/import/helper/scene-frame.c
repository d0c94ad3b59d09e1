#include "scene-frame.h"
#include "affine.h"
#include "length-units.h"
#include "native.h"

#include <math.h>
#include <string.h>

/* Single precision, over a few operations. */
#define SAME 1e-6
#define MAX_DEPTH 1000

static double
column_length (const struct aiMatrix4x4 *m, int column)
{
  double x = column == 0 ? m->a1 : column == 1 ? m->a2 : m->a3;
  double y = column == 0 ? m->b1 : column == 1 ? m->b2 : m->b3;
  double z = column == 0 ? m->c1 : column == 1 ? m->c2 : m->c3;
  return hypot (x, hypot (y, z));
}

/* Whether @m is a scale, after a turn that makes Z up to Y up where @turned. */
static gboolean
is_scale (const struct aiMatrix4x4 *m, double scale, gboolean turned)
{
  const double is[3][4] = { { m->a1, m->a2, m->a3, m->a4 },
                            { m->b1, m->b2, m->b3, m->b4 },
                            { m->c1, m->c2, m->c3, m->c4 } };
  const double plain[3][4] = { { 1, 0, 0, 0 }, { 0, 1, 0, 0 }, { 0, 0, 1, 0 } };
  const double z_to_y[3][4] = { { 1, 0, 0, 0 }, { 0, 0, 1, 0 }, { 0, -1, 0, 0 } };
  for (int i = 0; i < 3; i++)
    for (int j = 0; j < 4; j++)
      {
        double wanted = scale * (turned ? z_to_y[i][j] : plain[i][j]);
        if (!(fabs (is[i][j] - wanted) <= SAME * scale))
          return FALSE;
      }
  return TRUE;
}

static void
set_identity (struct aiMatrix4x4 *m)
{
  *m = (struct aiMatrix4x4){ .a1 = 1, .b2 = 1, .c3 = 1, .d4 = 1 };
}

/* COLLADA: the root is the scale of the unit and the turn of the axis, and nothing else. */
static void
settle_dae (const struct aiScene *scene, TrnAnswer *answer)
{
  struct aiMatrix4x4 *root = &scene->mRootNode->mTransformation;
  TrnStreamHeader *header = &answer->header;
  double scale = column_length (root, 0);
  gboolean good = scale > 0 && is_scale (root, scale, header->up == TRN_STREAM_UP_Z);
  if (header->metres_per_unit > 0)
    good = good && fabs (scale - header->metres_per_unit) <= SAME * scale;
  if (good)
    set_identity (root);
  else
    trn_answer_note (answer, TRN_NOTE_TRANSFORM, 0, 0, scene->mRootNode->mName.data);
}

/* IFC: the root turns Z up to Y up, after scaling to metres; a file has Z up. */
static void
settle_ifc (const struct aiScene *scene, const char *bytes, gsize length, TrnAnswer *answer)
{
  struct aiMatrix4x4 *root = &scene->mRootNode->mTransformation;
  double scale = column_length (root, 0);
  answer->header.up = TRN_STREAM_UP_Z;
  if (!(scale > 0) || !is_scale (root, scale, TRUE))
    {
      trn_answer_note (answer, TRN_NOTE_TRANSFORM, 0, 0, scene->mRootNode->mName.data);
      return;
    }
  set_identity (root);
  if (memmem (bytes, length, ".LENGTHUNIT.", 12) != NULL)
    answer->header.metres_per_unit = trn_unit_metres_round (scale);
}

static double
metadata_get (const struct aiMetadata *metadata, const char *key, double fallback)
{
  for (guint i = 0; metadata != NULL && i < metadata->mNumProperties; i++)
    {
      const struct aiMetadataEntry *entry = &metadata->mValues[i];
      if (strcmp (metadata->mKeys[i].data, key) != 0)
        continue;
      if (entry->mType == AI_INT32)
        return *(const gint32 *)entry->mData;
      if (entry->mType == AI_FLOAT)
        return (double)*(const float *)entry->mData;
      if (entry->mType == AI_DOUBLE)
        return *(const double *)entry->mData;
    }
  return fallback;
}

/* Scales that a node does not inherit as a matrix does: kinds 0 and 2 of InheritType. The library
 * multiplies all the same, which is right where the parent has no scale, or for kind 0 the same
 * one in all directions. */
static void
check_inheritance (const struct aiNode *node, const TrnAffine *scene_from_parent, guint depth,
                   TrnAnswer *answer)
{
  const struct aiMatrix4x4 *m = &node->mTransformation;
  TrnAffine local = { { { m->a1, m->a2, m->a3 }, { m->b1, m->b2, m->b3 }, { m->c1, m->c2, m->c3 } },
                      { m->a4, m->b4, m->c4 } };
  TrnAffine map = trn_affine_compose (scene_from_parent, &local);
  const TrnAffine *above = scene_from_parent;
  int kind = (int)metadata_get (node->mMetaData, "InheritType", 1);
  double lengths[3];
  for (int j = 0; j < 3; j++)
    lengths[j] = hypot (above->a[0][j], hypot (above->a[1][j], above->a[2][j]));
  double least = fmin (lengths[0], fmin (lengths[1], lengths[2]));
  double most = fmax (lengths[0], fmax (lengths[1], lengths[2]));
  gboolean even = most - least <= SAME * most;
  if ((kind == 0 && !even) || (kind == 2 && !(even && fabs (most - 1) <= SAME)))
    trn_answer_note (answer, TRN_NOTE_UNSUPPORTED, 0, 0, "scales that are not inherited");
  for (guint i = 0; i < node->mNumChildren && depth < MAX_DEPTH; i++)
    check_inheritance (node->mChildren[i], &map, depth + 1, answer);
}

/* Whether an object of the FBX is of this class, in a text or in a binary file, where the length
 * of a string stands before it. */
static gboolean
has_class (const char *bytes, gsize length, const char *name)
{
  g_autofree char *quoted = g_strdup_printf (", \"%s\"", name);
  g_autoptr (GString) binary = g_string_new ("S");
  g_string_append_c (binary, (char)strlen (name));
  g_string_append_len (binary, "\0\0\0", 3);
  g_string_append (binary, name);
  return memmem (bytes, length, quoted, strlen (quoted)) != NULL
         || memmem (bytes, length, binary->str, binary->len) != NULL;
}

/* FBX: coordinates are as in the file. The unit is in centimetres. Of the three axes that it
 * names, the first one to the right and the second one up must have the third one in front, else
 * the coordinates are left-handed. */
static void
settle_fbx (const struct aiScene *scene, const char *bytes, gsize length, TrnAnswer *answer)
{
  static const char *const keys[]
      = { "CoordAxis", "CoordAxisSign", "UpAxis", "UpAxisSign", "FrontAxis", "FrontAxisSign" };
  const double fallbacks[] = { 0, 1, 1, 1, 2, 1 };
  int values[6];
  for (guint i = 0; i < 6; i++)
    {
      const double value = metadata_get (scene->mMetaData, keys[i], fallbacks[i]);
      /* An axis is 0 to 2 and a sign 1 or −1; of anything else, none. */
      values[i] = fabs (value) <= 2 ? (int)value : 3;
    }
  int right = values[0], up = values[2], front = values[4];
  const int signs = values[1] * values[3] * values[5]; /* of numbers that are no more than 3 */
  gboolean all = right >= 0 && right < 3 && up >= 0 && up < 3 && front >= 0 && front < 3
                 && right != up && up != front && front != right;
  int parity = (up - right + 3) % 3 == 1 ? 1 : -1;
  if (!all || signs != parity)
    trn_answer_note (answer, TRN_NOTE_UNSUPPORTED, 0, 0, "left-handed axes");
  else if (up == 0 || values[3] != 1)
    trn_answer_note (answer, TRN_NOTE_UNSUPPORTED, 0, 0, "an upward axis other than Y or Z");
  const TrnAffine identity = TRN_AFFINE_IDENTITY;
  check_inheritance (scene->mRootNode, &identity, 0, answer);
  for (guint i = 0; i < scene->mNumMeshes; i++)
    if (scene->mMeshes[i]->mNumAnimMeshes > 0)
      trn_answer_note (answer, TRN_NOTE_UNSUPPORTED, 0, 0, "morph targets");
  /* Which the library passes over without a word. */
  static const char *const surfaces[] = { "NurbsSurface", "Nurb", "Patch" };
  for (guint i = 0; i < G_N_ELEMENTS (surfaces); i++)
    if (has_class (bytes, length, surfaces[i]) && !trn_answer_has_error (answer))
      trn_answer_note (answer, TRN_NOTE_UNSUPPORTED, 0, 0, "free-form surfaces");
  if (memmem (bytes, length, "UpAxis", 6) != NULL)
    answer->header.up = up == 2 ? TRN_STREAM_UP_Z : TRN_STREAM_UP_Y;
  double centimetres = metadata_get (scene->mMetaData, "UnitScaleFactor", 0);
  if (memmem (bytes, length, "UnitScaleFactor", 15) != NULL && centimetres > 0)
    answer->header.metres_per_unit = trn_unit_metres_round (centimetres * 0.01);
}

void
trn_scene_frame_settle (const struct aiScene *scene, const char *path, TrnFormat format,
                        TrnAnswer *answer)
{
  if (scene->mRootNode == NULL)
    return;
  if (format == TRN_FORMAT_DAE)
    settle_dae (scene, answer);
  if (format != TRN_FORMAT_FBX && format != TRN_FORMAT_IFC)
    return;
  gsize length;
  g_autofree char *bytes = trn_native_bytes_dup (path, &length, answer);
  if (bytes == NULL)
    return;
  if (format == TRN_FORMAT_FBX)
    settle_fbx (scene, bytes, length, answer);
  else
    settle_ifc (scene, bytes, length, answer);
}
