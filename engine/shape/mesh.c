/* A mesh is counted by an atomic reference, since the sweep's threads share it. Its hash and its
 * box are made once, in trn_mesh_new_take, so that they can never disagree with the content. */
#include "mesh.h"

#include <string.h>

#include "mesh-check.h"
#include "sha256.h"

typedef struct
{
  TrnMesh mesh; /* first, so that a TrnMesh* is a Counted* */
  gatomicrefcount references;
} Counted;

/* ---- the hash ---- */

/* A double and a pair of guint32 are 8 bytes each: everything is fed to the checksum as
 * little-endian words of 8 bytes, through a small buffer, so that a mesh has the same name on every
 * machine. */
typedef struct
{
  TrnSha256 sum;
  guint64 words[1024];
  guint n_words;
} Hash;

static void
hash_flush (Hash *hash)
{
  trn_sha256_add (&hash->sum, hash->words, hash->n_words * sizeof hash->words[0]);
  hash->n_words = 0;
}

static void
hash_word (Hash *hash, guint64 word)
{
  if (hash->n_words == G_N_ELEMENTS (hash->words))
    hash_flush (hash);
  hash->words[hash->n_words++] = GUINT64_TO_LE (word);
}

static void
hash_double (Hash *hash, double value)
{
  guint64 word;
  memcpy (&word, &value, sizeof word);
  hash_word (hash, word);
}

static void
mesh_hash (TrnMesh *mesh)
{
  Hash hash;
  hash.n_words = 0;
  trn_sha256_start (&hash.sum);
  hash_word (&hash, mesh->n_vertices);
  hash_word (&hash, mesh->n_triangles);
  for (guint32 i = 0; i < mesh->n_vertices; i++)
    {
      hash_double (&hash, mesh->vertices[i].x);
      hash_double (&hash, mesh->vertices[i].y);
      hash_double (&hash, mesh->vertices[i].z);
    }
  for (guint32 i = 0; i < mesh->n_triangles; i++)
    for (int k = 0; k < 3; k++)
      hash_word (&hash, mesh->triangles[i].v[k]);
  hash_flush (&hash);
  trn_sha256_end (&hash.sum, mesh->hash);
}

/* ---- the mesh ---- */

static void
assert_content (const TrnMesh *mesh)
{
  for (guint32 i = 0; i < mesh->n_vertices; i++)
    g_assert (trn_vec3_is_finite (mesh->vertices[i]));
  for (guint32 i = 0; i < mesh->n_triangles; i++)
    for (int k = 0; k < 3; k++)
      g_assert (mesh->triangles[i].v[k] < mesh->n_vertices);
  for (guint32 i = 0; i < mesh->n_parts; i++)
    {
      g_assert (mesh->parts[i].name != NULL);
      g_assert ((guint64)mesh->parts[i].first + mesh->parts[i].count <= mesh->n_triangles);
    }
}

static TrnMeshPart *
whole_part_new (guint32 n_triangles)
{
  TrnMeshPart *part = g_new0 (TrnMeshPart, 1);
  part->name = g_strdup ("");
  part->count = n_triangles;
  return part;
}

TrnMesh *
trn_mesh_new_take (TrnVec3 *vertices, guint32 n_vertices, TrnTriangle *triangles,
                   guint32 n_triangles, TrnMeshPart *parts, guint32 n_parts)
{
  Counted *counted = g_new0 (Counted, 1);
  TrnMesh *mesh = &counted->mesh;
  g_atomic_ref_count_init (&counted->references);
  if (n_parts == 0)
    {
      g_free (parts);
      parts = whole_part_new (n_triangles);
      n_parts = 1;
    }
  mesh->vertices = vertices;
  mesh->triangles = triangles;
  mesh->parts = parts;
  mesh->n_vertices = n_vertices;
  mesh->n_triangles = n_triangles;
  mesh->n_parts = n_parts;
  assert_content (mesh);

  mesh->box = trn_box_empty ();
  for (guint32 i = 0; i < n_triangles; i++)
    for (int k = 0; k < 3; k++)
      trn_box_add_point (&mesh->box, vertices[triangles[i].v[k]]);
  mesh_hash (mesh);
  return mesh;
}

void
trn_mesh_take_check (TrnMesh *mesh, TrnMeshCheck *check)
{
  g_assert (mesh->check == NULL);
  mesh->check = check;
}

TrnMesh *
trn_mesh_ref (const TrnMesh *mesh)
{
  Counted *counted = (Counted *)mesh;
  g_atomic_ref_count_inc (&counted->references);
  return &counted->mesh;
}

void
trn_mesh_unref (const TrnMesh *mesh)
{
  Counted *counted = (Counted *)mesh;
  if (mesh == NULL || !g_atomic_ref_count_dec (&counted->references))
    return;
  trn_mesh_check_free (mesh->check);
  for (guint32 i = 0; i < mesh->n_parts; i++)
    g_free (mesh->parts[i].name);
  g_free ((gpointer)mesh->parts);
  g_free ((gpointer)mesh->vertices);
  g_free ((gpointer)mesh->triangles);
  g_free (counted);
}

/* ---- the builder ---- */

struct _TrnMeshBuilder
{
  GArray *vertices;  /* of TrnVec3 */
  GArray *triangles; /* of TrnTriangle */
  GArray *parts;     /* of TrnMeshPart */
};

static void
part_clear (gpointer data)
{
  TrnMeshPart *part = data;
  g_free (part->name);
}

TrnMeshBuilder *
trn_mesh_builder_new (void)
{
  TrnMeshBuilder *builder = g_new0 (TrnMeshBuilder, 1);
  builder->vertices = g_array_new (FALSE, FALSE, sizeof (TrnVec3));
  builder->triangles = g_array_new (FALSE, FALSE, sizeof (TrnTriangle));
  builder->parts = g_array_new (FALSE, FALSE, sizeof (TrnMeshPart));
  g_array_set_clear_func (builder->parts, part_clear);
  return builder;
}

void
trn_mesh_builder_free (TrnMeshBuilder *builder)
{
  if (builder == NULL)
    return;
  g_array_unref (builder->vertices);
  g_array_unref (builder->triangles);
  g_array_unref (builder->parts);
  g_free (builder);
}

void
trn_mesh_builder_part (TrnMeshBuilder *builder, const char *name)
{
  TrnMeshPart part = { .name = g_strdup (name), .first = builder->triangles->len };
  g_array_append_val (builder->parts, part);
}

guint32
trn_mesh_builder_vertex (TrnMeshBuilder *builder, TrnVec3 vertex)
{
  g_array_append_val (builder->vertices, vertex);
  return builder->vertices->len - 1;
}

void
trn_mesh_builder_triangle (TrnMeshBuilder *builder, guint32 a, guint32 b, guint32 c)
{
  TrnTriangle triangle = { { a, b, c } };
  if (builder->parts->len == 0)
    trn_mesh_builder_part (builder, "");
  g_array_append_val (builder->triangles, triangle);
  g_array_index (builder->parts, TrnMeshPart, builder->parts->len - 1).count++;
}

TrnMesh *
trn_mesh_builder_finish (TrnMeshBuilder *builder)
{
  guint32 n_vertices = builder->vertices->len, n_triangles = builder->triangles->len;
  guint32 n_parts = builder->parts->len;
  TrnVec3 *vertices = (TrnVec3 *)(gpointer)g_array_free (builder->vertices, FALSE);
  TrnTriangle *triangles = (TrnTriangle *)(gpointer)g_array_free (builder->triangles, FALSE);
  TrnMeshPart *parts = (TrnMeshPart *)(gpointer)g_array_free (builder->parts, FALSE);
  g_free (builder);
  return trn_mesh_new_take (vertices, n_vertices, triangles, n_triangles, parts, n_parts);
}
