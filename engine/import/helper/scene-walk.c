#include "scene-walk.h"
#include "affine.h"
#include "packed-grid.h"
#include "polygon.h"
#include "skin-pose.h"
#include "weld.h"

#include <math.h>
#include <string.h>

#define MAX_DEPTH 1000
#define FEW 16
#define SKIN_ROUNDINGS 64

/* Single precision rounds to within this share of a number. */
#define HALF_ULP 0x1p-24

/* A mesh where a node shows it. */
typedef struct
{
  const struct aiNode *node;
  const struct aiMesh *mesh;
  TrnAffine map;
  double deviation; /* of the bones' maps from it */
} Instance;

typedef struct
{
  const struct aiScene *scene;
  const TrnFileFacts *facts;
  TrnAnswer *answer;
  GArray *instances; /* of Instance */
  gboolean *shown;   /* for each mesh of the scene */
  guint64 triangles; /* that the polygons amount to */
  guint64 bent;      /* polygons that were covered */
  gsize room;        /* triangles that fit into triangles_out */
  guint32 (*triangles_out)[3];
  guint32 filled;   /* of them so far */
  guint64 vertices; /* that they use */
  TrnWeld weld;
} Walk;

static const char *
name_of_mesh (const struct aiMesh *mesh)
{
  return mesh->mName.length > 0 ? mesh->mName.data : "";
}

static gboolean
corner_is_finite (const struct aiVector3D *v)
{
  return isfinite (v->x) && isfinite (v->y) && isfinite (v->z);
}

/* FALSE after an error. Counts what it finds. */
static gboolean
check_mesh (const struct aiMesh *mesh, guint64 *polygons, guint64 *points, guint64 *lines,
            TrnAnswer *answer)
{
  if (mesh->mNumFaces == 0)
    *points += mesh->mNumVertices;
  for (guint f = 0; f < mesh->mNumFaces; f++)
    {
      const struct aiFace *face = &mesh->mFaces[f];
      *points += face->mNumIndices == 1;
      *lines += face->mNumIndices == 2;
      for (guint i = 0; i < face->mNumIndices; i++)
        {
          guint index = face->mIndices[i];
          if (index >= mesh->mNumVertices || mesh->mVertices == NULL)
            {
              trn_answer_note (answer, TRN_NOTE_INDEX_RANGE, index, mesh->mNumVertices,
                               name_of_mesh (mesh));
              return FALSE;
            }
          if (!corner_is_finite (&mesh->mVertices[index]))
            {
              trn_answer_note (answer, TRN_NOTE_NOT_FINITE, 0, 0, name_of_mesh (mesh));
              return FALSE;
            }
        }
      *polygons += face->mNumIndices >= 3;
    }
  return TRUE;
}

/* Says what is in a scene without a face. The library gives it only the meshes that are shown. */
static void
note_no_faces (const struct aiScene *scene, const TrnFileFacts *facts, TrnAnswer *answer)
{
  const guint64 looks = (guint64)scene->mNumCameras + scene->mNumLights;
  if (facts->meshes > 0 && scene->mNumMeshes == 0)
    trn_answer_note (answer, TRN_NOTE_NONE_PLACED, (double)facts->meshes, 0, NULL);
  else if (looks > 0 || scene->mNumAnimations > 0)
    trn_answer_note (answer, TRN_NOTE_FILM_ONLY, (double)looks, scene->mNumAnimations, NULL);
  else
    trn_answer_note (answer, TRN_NOTE_NO_FACES, 0, 0, NULL);
}

/* Indices, finite corners, points and lines of every mesh, and whether the faces of the file are
 * there. */
static void
check_meshes (const struct aiScene *scene, const TrnFileFacts *facts, TrnAnswer *answer)
{
  guint64 polygons = 0, points = 0, lines = 0;
  for (guint m = 0; m < scene->mNumMeshes; m++)
    if (!check_mesh (scene->mMeshes[m], &polygons, &points, &lines, answer))
      return;
  if (!facts->over_nodes && polygons < facts->faces)
    trn_answer_note (answer, TRN_NOTE_FACES_LOST, (double)facts->faces, (double)polygons, NULL);
  else if (polygons == 0 && points + lines > 0)
    trn_answer_note (answer, TRN_NOTE_POINTS_ONLY, (double)points, (double)lines, NULL);
  else if (polygons == 0)
    note_no_faces (scene, facts, answer);
  else if (points + lines > 0)
    trn_answer_note (answer, TRN_NOTE_DROPPED, (double)points, (double)lines, NULL);
}

/* FALSE when the matrix is no finite affine map. */
static gboolean
affine_from_node (const struct aiNode *node, TrnAffine *map)
{
  const struct aiMatrix4x4 *m = &node->mTransformation;
  *map = (TrnAffine){ { { m->a1, m->a2, m->a3 }, { m->b1, m->b2, m->b3 }, { m->c1, m->c2, m->c3 } },
                      { m->a4, m->b4, m->c4 } };
  return trn_affine_is_finite (map) && m->d1 == 0 && m->d2 == 0 && m->d3 == 0 && m->d4 == 1;
}

static guint64
count_triangles (const struct aiMesh *mesh)
{
  guint64 count = 0;
  for (guint f = 0; f < mesh->mNumFaces; f++)
    if (mesh->mFaces[f].mNumIndices >= 3)
      count += mesh->mFaces[f].mNumIndices - 2;
  return count;
}

/* Lists what @node and those below it show. FALSE after an error. */
static gboolean
collect (Walk *walk, const struct aiNode *node, const TrnAffine *file_from_parent, guint depth)
{
  TrnAffine parent_from_node;
  if (depth > MAX_DEPTH)
    {
      trn_answer_note (walk->answer, TRN_NOTE_DAMAGED, 0, 0, "its nodes are too deep");
      return FALSE;
    }
  if (!affine_from_node (node, &parent_from_node))
    {
      trn_answer_note (walk->answer, TRN_NOTE_TRANSFORM, 0, 0, node->mName.data);
      return FALSE;
    }
  TrnAffine scene_from_node = trn_affine_compose (file_from_parent, &parent_from_node);
  Instance instance = { .node = node };
  for (guint i = 0; i < node->mNumMeshes; i++)
    {
      guint m = node->mMeshes[i];
      if (m >= walk->scene->mNumMeshes)
        {
          trn_answer_note (walk->answer, TRN_NOTE_INDEX_RANGE, m, walk->scene->mNumMeshes,
                           node->mName.data);
          return FALSE;
        }
      instance.mesh = walk->scene->mMeshes[m];
      instance.deviation = 0;
      instance.map = scene_from_node;
      if (instance.mesh->mNumBones > 0
          && !trn_skin_pose (walk->scene, instance.mesh,
                             walk->facts->blended ? &scene_from_node : NULL, &instance.map,
                             &instance.deviation))
        {
          trn_answer_note (walk->answer, TRN_NOTE_UNSUPPORTED, 0, 0, "a skin moved by bones");
          return FALSE;
        }
      walk->shown[m] = TRUE;
      walk->triangles += count_triangles (instance.mesh);
      g_array_append_val (walk->instances, instance);
    }
  for (guint i = 0; i < node->mNumChildren; i++)
    if (!collect (walk, node->mChildren[i], &scene_from_node, depth + 1))
      return FALSE;
  return TRUE;
}

/* The same for a mesh that bones move: the maps of a dozen nodes and of a bone, each off by a few
 * u, and what the bones' maps differ by. */
static double
skin_loss (const Instance *instance, const double size[3], double loss, double *largest)
{
  double greatest = 0, most_share = 0;
  for (int i = 0; i < 3; i++)
    {
      const double *row = instance->map.a[i];
      double share = fabs (row[0]) + fabs (row[1]) + fabs (row[2]);
      most_share = fmax (most_share, share);
      greatest = fmax (greatest,
                       share * fmax (size[0], fmax (size[1], size[2])) + fabs (instance->map.t[i]));
    }
  *largest = fmax (*largest, greatest);
  return most_share * loss + SKIN_ROUNDINGS * HALF_ULP * greatest + instance->deviation;
}

/* How far a coordinate of @instance may be from what the file says, as single precision holds the
 * file's numbers. With u = 2^-24 and e the bound so far (roundings · u · size at first), one node
 * p → A p + t makes it  |A| e + |dA| |p| + u |t|.  Where A is made of a quaternion and scales in
 * single precision, its diagonal errs by at most 10 u and the rest by 5 u, times the scale: a
 * quaternion's four numbers err by u each, and with |2 x y| + |2 z w| ≤ 1 an entry such as
 * 2 (x y − z w) errs by 2 u from those, u from its products and u from its difference, on the
 * diagonal 1 − 2 (y² + z²) by twice that and u more; the scale adds u. An A of zeros and ones
 * errs by nothing. One per cent covers the terms of second order. */
static double
instance_loss (const Instance *instance, double roundings, double *largest)
{
  double size[3] = { 0, 0, 0 };
  const struct aiMesh *mesh = instance->mesh;
  for (guint v = 0; v < mesh->mNumVertices; v++)
    {
      if (!corner_is_finite (&mesh->mVertices[v])) /* one that no face uses */
        continue;
      size[0] = fmax (size[0], fabs ((double)mesh->mVertices[v].x));
      size[1] = fmax (size[1], fabs ((double)mesh->mVertices[v].y));
      size[2] = fmax (size[2], fabs ((double)mesh->mVertices[v].z));
    }
  double greatest = fmax (size[0], fmax (size[1], size[2]));
  double loss = roundings * HALF_ULP * greatest;
  if (mesh->mNumBones > 0)
    return skin_loss (instance, size, loss, largest);
  for (const struct aiNode *node = instance->node; node != NULL; node = node->mParent)
    {
      TrnAffine map;
      affine_from_node (node, &map);
      gboolean exact = TRUE;
      double scale = 0;
      for (int j = 0; j < 3; j++)
        {
          scale = fmax (scale, hypot (map.a[0][j], hypot (map.a[1][j], map.a[2][j])));
          for (int i = 0; i < 3; i++)
            exact = exact && (map.a[i][j] == 0 || fabs (map.a[i][j]) == 1);
        }
      double turn = exact ? 0 : 5 * HALF_ULP * scale, sum = size[0] + size[1] + size[2];
      double next_size[3], next_loss = 0;
      for (int i = 0; i < 3; i++)
        {
          const double *row = map.a[i];
          double share = fabs (row[0]) + fabs (row[1]) + fabs (row[2]);
          next_size[i] = fabs (row[0]) * size[0] + fabs (row[1]) * size[1] + fabs (row[2]) * size[2]
                         + fabs (map.t[i]);
          next_loss = fmax (next_loss,
                            share * loss + turn * (sum + size[i]) + HALF_ULP * fabs (map.t[i]));
          greatest = fmax (greatest, next_size[i]);
        }
      memcpy (size, next_size, sizeof size);
      loss = next_loss;
    }
  *largest = fmax (*largest, greatest);
  return 1.01 * loss;
}

/* What packing may have moved a coordinate of @instance by: that of its mesh moved each of the
 * three by so much on its own, of which all the nodes together make this. FALSE after an error. */
static gboolean
find_packing_loss (const Walk *walk, const Instance *instance, double *loss)
{
  *loss = 0;
  if (!walk->facts->packed)
    return TRUE;
  const struct aiMesh *mesh = instance->mesh;
  TrnPackedGrid grid = { 0 };
  const TrnPackedAnswer found = trn_packed_grid_find (mesh->mVertices, mesh->mNumVertices, &grid);
  if (found == TRN_PACKED_NO_MEMORY)
    trn_answer_note (walk->answer, TRN_NOTE_MEMORY, 0, 0, NULL);
  else if (found == TRN_PACKED_UNKNOWN)
    trn_answer_note (walk->answer, TRN_NOTE_UNSUPPORTED, 0, 0,
                     "packed coordinates that do not show by how much they were rounded");
  for (int i = 0; i < 3; i++)
    {
      const double *row = instance->map.a[i];
      *loss = fmax (*loss, 1.01 * (fabs (row[0]) + fabs (row[1]) + fabs (row[2])) * grid.loss);
    }
  return found == TRN_PACKED_KNOWN;
}

/* What a coordinate may be off, of all instances. FALSE after an error. */
static gboolean
settle_loss (const Walk *walk)
{
  TrnStreamHeader *header = &walk->answer->header;
  for (guint i = 0; i < walk->instances->len; i++)
    {
      const Instance *instance = &g_array_index (walk->instances, Instance, i);
      double packing_loss;
      if (!find_packing_loss (walk, instance, &packing_loss))
        return FALSE;
      const double loss
          = packing_loss + instance_loss (instance, walk->facts->roundings, &header->largest);
      header->loss = fmax (header->loss, loss);
    }
  return TRUE;
}

/* The index in the answer of vertex @v of @instance. FALSE when there is no memory. */
static gboolean
weld_vertex (Walk *walk, const Instance *instance, guint32 v, guint32 *index_of)
{
  const struct aiVector3D *p = &instance->mesh->mVertices[v];
  double point[3], local[3] = { p->x, p->y, p->z };
  trn_affine_apply (&instance->map, local, point);
  for (int j = 0; j < 3; j++)
    point[j] += 0.0; /* no negative zeros */
  guint32 index;
  if (!trn_weld_add (&walk->weld, point, &index))
    return FALSE;
  walk->vertices++;
  index_of[v] = index + 1;
  return TRUE;
}

/* What the file calls @node: the import library's own names are left out. */
static const char *
name_of_node (const Walk *walk, const struct aiNode *node)
{
  if (walk->facts->nameless || strcmp (node->mName.data, "defaultobject") == 0
      || g_str_has_prefix (node->mName.data, "$ColladaAutoName$"))
    return "";
  return node->mName.data;
}

/* The triangles of one face, as indices of the mesh's vertices. */
static gboolean
cut_face (Walk *walk, const Instance *instance, const struct aiFace *face, guint32 (*out)[3])
{
  const struct aiMesh *mesh = instance->mesh;
  guint32 n = face->mNumIndices;
  if (n == 3)
    {
      memcpy (out[0], face->mIndices, sizeof out[0]);
      return TRUE;
    }
  double few[FEW][3];
  g_autofree double (*many)[3] = n > FEW ? g_malloc_n (n, sizeof *many) : NULL;
  double (*corners)[3] = n > FEW ? many : few;
  for (guint32 i = 0; i < n; i++)
    {
      const struct aiVector3D *p = &mesh->mVertices[face->mIndices[i]];
      double corner[3] = { p->x, p->y, p->z };
      memcpy (corners[i], corner, sizeof corner);
    }
  if (!trn_polygon_cut ((const double (*)[3])corners, n, out))
    return FALSE;
  for (guint32 i = 0; i < n; i++)
    {
      double placed[3];
      trn_affine_apply (&instance->map, corners[i], placed);
      memcpy (corners[i], placed, sizeof placed);
    }
  trn_answer_warp (walk->answer, trn_polygon_warp ((const double (*)[3])corners, n),
                   name_of_node (walk, instance->node));
  for (guint32 t = 0; t < n - 2; t++)
    for (int k = 0; k < 3; k++)
      out[t][k] = face->mIndices[out[t][k]];
  return TRUE;
}

/* Puts the triangles of a face behind those that are there, and returns their number; 0 after an
 * error. */
static guint32
cut_or_cover (Walk *walk, const Instance *instance, const struct aiFace *face)
{
  guint32 n = face->mNumIndices, count = n - 2;
  if (cut_face (walk, instance, face, walk->triangles_out + walk->filled))
    return count;
  if (n > TRN_POLYGON_COVER_CORNERS)
    {
      trn_answer_note (walk->answer, TRN_NOTE_POLYGON, n, 0, name_of_mesh (instance->mesh));
      return 0;
    }
  walk->room += TRN_POLYGON_COVER_TRIANGLES;
  guint32 (*more)[3] = g_try_realloc_n (walk->triangles_out, walk->room, sizeof *more);
  if (more == NULL)
    {
      trn_answer_note (walk->answer, TRN_NOTE_MEMORY, 0, 0, NULL);
      return 0;
    }
  walk->triangles_out = more;
  walk->bent++;
  guint32 (*out)[3] = more + walk->filled;
  count = trn_polygon_cover (n, out);
  for (guint32 t = 0; t < count; t++)
    for (int k = 0; k < 3; k++)
      out[t][k] = face->mIndices[out[t][k]];
  return count;
}

/* Adds the triangles of one instance. FALSE after an error. */
static gboolean
emit (Walk *walk, const Instance *instance)
{
  const struct aiMesh *mesh = instance->mesh;
  g_autofree guint32 *index_of = g_try_new0 (guint32, (gsize)mesh->mNumVertices + 1);
  if (index_of == NULL)
    {
      trn_answer_note (walk->answer, TRN_NOTE_MEMORY, 0, 0, NULL);
      return FALSE;
    }
  gboolean mirrored = trn_affine_determinant (&instance->map) < 0;
  for (guint f = 0; f < mesh->mNumFaces; f++)
    {
      const struct aiFace *face = &mesh->mFaces[f];
      if (face->mNumIndices < 3)
        continue;
      guint32 count = cut_or_cover (walk, instance, face);
      if (count == 0)
        return FALSE;
      guint32 (*out)[3] = walk->triangles_out + walk->filled;
      for (guint t = 0; t < count; t++)
        for (int i = 0; i < 3; i++)
          {
            guint32 v = out[t][i];
            if (index_of[v] == 0 && !weld_vertex (walk, instance, v, index_of))
              {
                trn_answer_note (walk->answer, TRN_NOTE_MEMORY, 0, 0, NULL);
                return FALSE;
              }
            out[t][i] = index_of[v] - 1;
          }
      for (guint t = 0; mirrored && t < count; t++)
        {
          guint32 swap = out[t][1];
          out[t][1] = out[t][2];
          out[t][2] = swap;
        }
      walk->filled += count;
    }
  return TRUE;
}

/* One part a node. */
static void
emit_all (Walk *walk)
{
  TrnAnswer *answer = walk->answer;
  walk->room = walk->triangles;
  walk->triangles_out = g_try_malloc_n (walk->room, sizeof *walk->triangles_out);
  if (walk->triangles_out == NULL || !trn_weld_init (&walk->weld))
    {
      trn_answer_note (answer, TRN_NOTE_MEMORY, 0, 0, NULL);
      return;
    }
  guint32 first = 0;
  for (guint i = 0; i < walk->instances->len; i++)
    {
      const Instance *instance = &g_array_index (walk->instances, Instance, i);
      if (!emit (walk, instance))
        return;
      gboolean last_of_node
          = i + 1 == walk->instances->len || (instance + 1)->node != instance->node;
      if (last_of_node && walk->filled > first)
        {
          trn_answer_part (answer, first, walk->filled - first,
                           name_of_node (walk, instance->node));
          first = walk->filled;
        }
    }
  trn_weld_clear (&walk->weld);
  if (walk->bent > 0)
    trn_answer_note (answer, TRN_NOTE_BENT, (double)walk->bent, 0, NULL);
  trn_answer_note_warp (answer);
  answer->vertices = walk->weld.points;
  answer->triangles = walk->triangles_out[0];
  answer->header.n_vertices = walk->weld.n_points;
  answer->header.n_triangles = walk->filled;
  guint64 before = walk->facts->torn ? walk->facts->vertices : walk->vertices;
  if (before > walk->weld.n_points)
    answer->header.joined = (guint32)(before - walk->weld.n_points);
}

/* Every face of the file must have arrived, every mesh have been reached. */
static void
check_counts (const Walk *walk, guint64 max_triangles)
{
  guint64 unused = 0;
  for (guint m = 0; m < walk->scene->mNumMeshes; m++)
    unused += !walk->shown[m] && count_triangles (walk->scene->mMeshes[m]) > 0;
  const TrnFileFacts *facts = walk->facts;
  if (facts->over_nodes && walk->triangles < facts->faces)
    trn_answer_note (walk->answer, TRN_NOTE_FACES_LOST, (double)facts->faces,
                     (double)walk->triangles, NULL);
  else if (walk->triangles > MIN (max_triangles, G_MAXUINT32 / 3))
    trn_answer_note (walk->answer, TRN_NOTE_TOO_MANY, (double)walk->triangles, 0, NULL);
  else if (walk->triangles == 0)
    trn_answer_note (walk->answer, TRN_NOTE_NONE_PLACED, (double)unused, 0, NULL);
  else if (unused > 0)
    trn_answer_note (walk->answer, TRN_NOTE_UNUSED, (double)unused, 0, NULL);
}

void
trn_scene_walk (const struct aiScene *scene, const TrnFileFacts *facts, guint64 max_triangles,
                TrnAnswer *answer)
{
  check_meshes (scene, facts, answer);
  if (trn_answer_has_error (answer))
    return;
  Walk walk = {
    .scene = scene,
    .facts = facts,
    .answer = answer,
    .instances = g_array_new (FALSE, FALSE, sizeof (Instance)),
    .shown = g_new0 (gboolean, scene->mNumMeshes + 1),
  };
  const TrnAffine identity = TRN_AFFINE_IDENTITY;
  if (scene->mRootNode == NULL)
    trn_answer_note (answer, TRN_NOTE_NO_FACES, 0, 0, NULL);
  else if (collect (&walk, scene->mRootNode, &identity, 0))
    check_counts (&walk, max_triangles);
  if (!trn_answer_has_error (answer) && settle_loss (&walk))
    emit_all (&walk);
  g_array_unref (walk.instances);
  g_free (walk.shown);
}
