/* DXF: entities with faces, and blocks of them that are inserted.
 *
 * Drawing interchange files as text: pairs of a group code and a value. Read are 3DFACE, SOLID,
 * TRACE and POLYLINE as a mesh or as faces, straight or through INSERT, which shifts, scales, turns
 * and repeats, in blocks within blocks as well. Lines and texts are left out; whatever else may
 * have a surface is refused, and so is a thickness. The import library passes over turned and
 * nested inserts, applies the base point of scaled ones in the wrong place, takes meshes for lines
 * and leaves solids out, all without a word.
 *
 * An object here is a layer; what lies on layer 0 in a block goes to that of the insert. Corners of
 * SOLID and TRACE, and the points of INSERT, are in the entity's own axes, made from its extrusion
 * (the "arbitrary axis algorithm" of the DXF reference). */
#include "affine.h"
#include "dxf-pairs.h"
#include "native.h"

#include <string.h>

#define MAX_DEPTH 32
#define MAX_SHOWN 1000000
#define NO_CORNER G_MAXUINT32
#define BINARY_MARK "AutoCAD Binary DXF"

/* Flags of POLYLINE and VERTEX. */
#define LINE_CLOSED 1
#define LINE_SMOOTH 4
#define LINE_MESH 16
#define LINE_CLOSED_N 32
#define LINE_FACES 64
#define VERTEX_SMOOTH 8
#define VERTEX_POINT 64
#define VERTEX_FACE 128
/* Flags of BLOCK. */
#define BLOCK_EXTERNAL (4 | 8)

typedef struct
{
  guint32 corners[4]; /* the last one NO_CORNER in a triangle */
  guint32 layer;
} Face;

typedef struct
{
  char *name;
  guint32 layer;
  TrnAffine map; /* to where it stands, the base point apart */
  double step[2][3];
  gint64 columns, rows;
} Insert;

typedef struct
{
  double base[3];
  GArray *points;  /* of double[3] */
  GArray *faces;   /* of Face */
  GArray *inserts; /* of Insert */
  guint64 n_points, n_lines;
  char *refused; /* what it has that is not read, or NULL */
} Block;

typedef struct
{
  TrnDxfPairs pairs;
  TrnDxfEntity entity;
  TrnBuild *build;
  TrnAnswer *answer;
  GHashTable *blocks; /* name → Block */
  Block *entities;
  GPtrArray *layers;       /* names */
  GHashTable *layer_index; /* name → index + 1 */
  guint shown;
  gboolean has_unit;
  gint64 unit; /* the number of $INSUNITS */
} Dxf;

static Block *
block_new (void)
{
  Block *block = g_new0 (Block, 1);
  block->points = g_array_new (FALSE, FALSE, 3 * sizeof (double));
  block->faces = g_array_new (FALSE, FALSE, sizeof (Face));
  block->inserts = g_array_new (FALSE, FALSE, sizeof (Insert));
  return block;
}

static void
block_free (gpointer data)
{
  Block *block = data;
  for (guint i = 0; i < block->inserts->len; i++)
    g_free (g_array_index (block->inserts, Insert, i).name);
  g_array_unref (block->points);
  g_array_unref (block->faces);
  g_array_unref (block->inserts);
  g_free (block->refused);
  g_free (block);
}

static void
complain (Dxf *dxf, const char *what)
{
  if (!trn_answer_has_error (dxf->answer))
    trn_answer_note (dxf->answer, TRN_NOTE_DAMAGED, 0, 0, what);
}

/* All numbers of the entity that was read must be some. */
static void
check_numbers (Dxf *dxf)
{
  if (dxf->entity.unreadable)
    complain (dxf, "a number cannot be read");
}

/* A block that nobody inserts may hold what it likes. */
static void
refuse (Block *block, const char *what)
{
  if (block->refused == NULL)
    block->refused = g_strdup (what);
}

static guint32
layer_get (Dxf *dxf, const char *name)
{
  guint index = GPOINTER_TO_UINT (g_hash_table_lookup (dxf->layer_index, name));
  if (index > 0)
    return index - 1;
  char *kept = g_strdup (name);
  g_ptr_array_add (dxf->layers, kept);
  g_hash_table_insert (dxf->layer_index, kept, GUINT_TO_POINTER (dxf->layers->len));
  return dxf->layers->len - 1;
}

/* ---- axes ---- */

static void
cross (const double a[3], const double b[3], double out[3])
{
  for (int k = 0; k < 3; k++)
    out[k] = a[(k + 1) % 3] * b[(k + 2) % 3] - a[(k + 2) % 3] * b[(k + 1) % 3];
}

/* FALSE where the vector has no direction. */
static gboolean
normalise (double v[3])
{
  double length = hypot (v[0], hypot (v[1], v[2]));
  for (int k = 0; k < 3; k++)
    v[k] /= length;
  return length > 0 && isfinite (length);
}

/* world_from_entity by its extrusion. FALSE where that is no direction. */
static gboolean
axes_make (const double extrusion[3], TrnAffine *map)
{
  static const double y_axis[3] = { 0, 1, 0 }, z_axis[3] = { 0, 0, 1 };
  const TrnAffine identity = TRN_AFFINE_IDENTITY;
  *map = identity;
  if (extrusion[0] == 0 && extrusion[1] == 0 && extrusion[2] == 1)
    return TRUE;
  double x[3], y[3], z[3] = { extrusion[0], extrusion[1], extrusion[2] };
  if (!normalise (z))
    return FALSE;
  gboolean near_z = fabs (z[0]) < 1.0 / 64 && fabs (z[1]) < 1.0 / 64;
  cross (near_z ? y_axis : z_axis, z, x);
  normalise (x);
  cross (z, x, y);
  for (int i = 0; i < 3; i++)
    {
      map->a[i][0] = x[i];
      map->a[i][1] = y[i];
      map->a[i][2] = z[i];
    }
  return TRUE;
}

/* ---- entities ---- */

static gboolean
is_same (const double a[3], const double b[3])
{
  return a[0] == b[0] && a[1] == b[1] && a[2] == b[2];
}

/* Adds the face through @n points of the block; one corner given twice is one. */
static void
add_face (Block *block, const guint32 *corners, guint n, guint32 layer)
{
  const double (*points)[3] = (const double (*)[3]) (void *)block->points->data;
  Face face = { .corners = { 0, 0, 0, NO_CORNER }, .layer = layer };
  guint kept = 0;
  for (guint i = 0; i < n; i++)
    if (kept == 0 || !is_same (points[corners[i]], points[face.corners[kept - 1]]))
      face.corners[kept++] = corners[i];
  while (kept > 1 && is_same (points[face.corners[kept - 1]], points[face.corners[0]]))
    kept--;
  if (kept < 3)
    {
      block->n_points += kept == 1;
      block->n_lines += kept == 2;
      return;
    }
  if (kept == 3)
    face.corners[3] = NO_CORNER;
  g_array_append_val (block->faces, face);
}

/* 3DFACE in the axes of the world; SOLID and TRACE in their own, corners crosswise. */
static void
read_flat (Dxf *dxf, Block *block, gboolean crosswise)
{
  TrnDxfEntity *entity = &dxf->entity;
  TrnAffine map = TRN_AFFINE_IDENTITY;
  guint n = ((entity->given[0] | entity->given[1]) & 8) != 0 ? 4 : 3, all = (1u << n) - 1;
  if ((entity->given[0] & entity->given[1] & all) != all)
    complain (dxf, "a corner of a face is not given");
  if (crosswise && !axes_make (entity->extrusion, &map))
    complain (dxf, "an extrusion has no direction");
  guint32 corners[4];
  for (guint i = 0; i < n; i++)
    {
      double point[3];
      trn_affine_apply (&map, entity->corners[i], point);
      corners[crosswise && n == 4 && i > 1 ? 5 - i : i] = block->points->len;
      g_array_append_vals (block->points, point, 1);
    }
  add_face (block, corners, n, layer_get (dxf, entity->layer));
}

/* A vertex of a polyface either has a place or is a face. */
static void
read_face_record (Dxf *dxf, Block *block, guint32 first, guint32 layer)
{
  guint32 corners[4];
  guint n = 0;
  for (int i = 0; i < 4; i++)
    {
      gint64 index = ABS (dxf->entity.numbers[i]);
      if (index == 0)
        continue;
      if (index > block->points->len - first)
        {
          trn_answer_note (dxf->answer, TRN_NOTE_INDEX_RANGE, (double)index - 1,
                           block->points->len - first, dxf->entity.layer);
          return;
        }
      corners[n++] = first + (guint32)index - 1;
    }
  if (n == 0)
    complain (dxf, "a face has no corners");
  add_face (block, corners, n, layer);
}

/* Rows of @m lines of @n points, closed to a ring in either way. */
static void
add_mesh (Dxf *dxf, Block *block, guint32 first, const TrnDxfEntity *line)
{
  gboolean smooth = (line->flags & LINE_SMOOTH) != 0;
  gint64 m = line->numbers[smooth ? 2 : 0], n = line->numbers[smooth ? 3 : 1];
  guint32 layer = layer_get (dxf, line->layer);
  if (m < 2 || n < 2 || m > 32767 || n > 32767 || m * n != block->points->len - first)
    {
      complain (dxf, "a mesh has not as many points as it says");
      return;
    }
  gint64 rows = line->flags & LINE_CLOSED ? m : m - 1;
  gint64 columns = line->flags & LINE_CLOSED_N ? n : n - 1;
  for (gint64 i = 0; i < rows; i++)
    for (gint64 j = 0; j < columns; j++)
      {
        gint64 i2 = (i + 1) % m, j2 = (j + 1) % n;
        guint32 corners[4] = { first + (guint32)(i * n + j), first + (guint32)(i * n + j2),
                               first + (guint32)(i2 * n + j2), first + (guint32)(i2 * n + j) };
        add_face (block, corners, 4, layer);
      }
}

/* Leaves the pairs at what follows its end. */
static void
read_polyline (Dxf *dxf, Block *block)
{
  TrnDxfEntity line = dxf->entity;
  guint32 first = block->points->len, layer = layer_get (dxf, line.layer);
  gboolean faces = (line.flags & LINE_FACES) != 0, mesh = (line.flags & LINE_MESH) != 0;
  gboolean smooth = mesh && (line.flags & LINE_SMOOTH) != 0;
  /* Faces may stand before the points that they name. */
  g_autoptr (GArray) records = g_array_new (FALSE, FALSE, sizeof line.numbers);
  while (trn_dxf_is (&dxf->pairs, 0, "VERTEX"))
    {
      trn_dxf_entity_read (&dxf->pairs, &dxf->entity);
      const TrnDxfEntity *vertex = &dxf->entity;
      gboolean is_face
          = (vertex->flags & VERTEX_POINT) == 0
            && ((vertex->flags & VERTEX_FACE) != 0
                || (vertex->numbers[0] | vertex->numbers[1] | vertex->numbers[2]) != 0);
      check_numbers (dxf);
      if (faces && is_face)
        g_array_append_vals (records, vertex->numbers, 1);
      else if (faces || (mesh && (!smooth || (vertex->flags & VERTEX_SMOOTH) != 0)))
        g_array_append_vals (block->points, vertex->corners[0], 1);
    }
  if (trn_dxf_is (&dxf->pairs, 0, "SEQEND"))
    trn_dxf_entity_read (&dxf->pairs, &dxf->entity);
  for (guint i = 0; i < records->len && !trn_answer_has_error (dxf->answer); i++)
    {
      memcpy (dxf->entity.numbers, records->data + i * sizeof line.numbers, sizeof line.numbers);
      read_face_record (dxf, block, first, layer);
    }
  if (mesh)
    add_mesh (dxf, block, first, &line);
  if (!faces && !mesh)
    {
      block->n_lines++;
      if (line.thickness != 0)
        refuse (block, "a line with a thickness");
    }
}

static void
read_insert (Dxf *dxf, Block *block)
{
  const TrnDxfEntity *entity = &dxf->entity;
  TrnAffine axes, place = TRN_AFFINE_IDENTITY, scale = TRN_AFFINE_IDENTITY;
  if (!axes_make (entity->extrusion, &axes))
    complain (dxf, "an extrusion has no direction");
  for (int k = 0; k < 3; k++)
    {
      place.t[k] = entity->corners[0][k];
      scale.a[k][k] = entity->scale[k];
      trn_build_size (dxf->build, place.t[k]);
    }
  TrnAffine turn = trn_affine_turn (2, entity->rotation_deg);
  TrnAffine stand = trn_affine_compose (&axes, &place);
  stand = trn_affine_compose (&stand, &turn);
  Insert insert = { .name = g_strdup (entity->name),
                    .layer = layer_get (dxf, entity->layer),
                    .map = trn_affine_compose (&stand, &scale),
                    .columns = MAX (entity->flags, 1),
                    .rows = MAX (entity->numbers[0], 1) };
  for (int i = 0; i < 3; i++)
    {
      insert.step[0][i] = stand.a[i][0] * entity->spacing[0];
      insert.step[1][i] = stand.a[i][1] * entity->spacing[1];
    }
  g_array_append_val (block->inserts, insert);
}

static gboolean
is_one_of (const char *name, const char *const names[], guint n)
{
  for (guint i = 0; i < n; i++)
    if (strcmp (name, names[i]) == 0)
      return TRUE;
  return FALSE;
}

/* Lines and flat patterns, and what only explains a drawing. */
static const char *const line_names[]
    = { "LINE",       "3DLINE", "ARC",   "CIRCLE", "ELLIPSE", "SPLINE",
        "LWPOLYLINE", "HATCH",  "MLINE", "HELIX",  "RAY",     "XLINE" };
static const char *const note_names[] = { "TEXT",
                                          "MTEXT",
                                          "RTEXT",
                                          "ARCALIGNEDTEXT",
                                          "ATTDEF",
                                          "ATTRIB",
                                          "SEQEND",
                                          "VERTEX",
                                          "DIMENSION",
                                          "ARC_DIMENSION",
                                          "LARGE_RADIAL_DIMENSION",
                                          "LEADER",
                                          "MULTILEADER",
                                          "MLEADER",
                                          "TOLERANCE",
                                          "VIEWPORT",
                                          "IMAGE",
                                          "WIPEOUT",
                                          "OLEFRAME",
                                          "OLE2FRAME",
                                          "ACAD_TABLE",
                                          "PDFUNDERLAY",
                                          "DWFUNDERLAY",
                                          "DGNUNDERLAY",
                                          "LIGHT",
                                          "SUN",
                                          "CAMERA",
                                          "SECTION",
                                          "GEOPOSITIONMARKER",
                                          "SHAPE" };

/* Whether it has faces, or places those of others. */
static gboolean
has_faces (const char *kind)
{
  static const char *const names[] = { "3DFACE", "SOLID", "TRACE", "POLYLINE", "INSERT" };
  return is_one_of (kind, names, G_N_ELEMENTS (names));
}

/* Reads the entity that begins here, into @block. */
static void
read_entity (Dxf *dxf, Block *block)
{
  char kind[64];
  g_strlcpy (kind, dxf->pairs.value, sizeof kind);
  g_strchomp (kind);
  trn_dxf_entity_read (&dxf->pairs, &dxf->entity);
  const TrnDxfEntity *entity = &dxf->entity;
  if (has_faces (kind))
    check_numbers (dxf);
  if (strcmp (kind, "3DFACE") == 0)
    {
      read_flat (dxf, block, FALSE);
      return;
    }
  if (strcmp (kind, "POLYLINE") == 0)
    {
      read_polyline (dxf, block);
      return;
    }
  /* The sheet that the drawing is plotted on. */
  if (entity->on_paper)
    return;
  if (entity->elevation != 0 && has_faces (kind))
    refuse (block, "an elevation");
  gboolean noted = is_one_of (kind, note_names, G_N_ELEMENTS (note_names));
  if (entity->thickness != 0 && !noted)
    refuse (block, "a line with a thickness");
  if (strcmp (kind, "SOLID") == 0 || strcmp (kind, "TRACE") == 0)
    read_flat (dxf, block, TRUE);
  else if (strcmp (kind, "INSERT") == 0)
    read_insert (dxf, block);
  else if (strcmp (kind, "POINT") == 0)
    block->n_points++;
  else if (is_one_of (kind, line_names, G_N_ELEMENTS (line_names)))
    block->n_lines++;
  else if (!noted)
    refuse (block, kind);
}

/* ---- sections ---- */

static void
read_entities (Dxf *dxf, Block *block, const char *until)
{
  while (dxf->pairs.code == 0 && !trn_answer_has_error (dxf->answer)
         && !trn_dxf_is (&dxf->pairs, 0, until) && !trn_dxf_is (&dxf->pairs, 0, "ENDSEC")
         && !trn_dxf_is (&dxf->pairs, 0, "EOF"))
    read_entity (dxf, block);
  if (dxf->pairs.code != 0 && !trn_answer_has_error (dxf->answer))
    complain (dxf, "it ends before its entities do");
}

static void
read_blocks (Dxf *dxf)
{
  while (dxf->pairs.code == 0 && trn_dxf_is (&dxf->pairs, 0, "BLOCK")
         && !trn_answer_has_error (dxf->answer))
    {
      trn_dxf_entity_read (&dxf->pairs, &dxf->entity);
      Block *block = block_new ();
      for (int k = 0; k < 3; k++)
        {
          block->base[k] = dxf->entity.corners[0][k];
          trn_build_size (dxf->build, block->base[k]);
        }
      if ((dxf->entity.flags & BLOCK_EXTERNAL) != 0)
        refuse (block, "another drawing that is referred to");
      check_numbers (dxf);
      if (!g_hash_table_replace (dxf->blocks, g_ascii_strdown (dxf->entity.name, -1), block))
        complain (dxf, "two blocks have the same name");
      read_entities (dxf, block, "ENDBLK");
      if (trn_dxf_is (&dxf->pairs, 0, "ENDBLK"))
        trn_dxf_entity_read (&dxf->pairs, &dxf->entity);
    }
}

/* Metres in a unit of $INSUNITS; 0 where it has none. */
static double
insunits_metres (gint64 unit)
{
  static const double metres[] = {
    0,       0.0254, 0.3048, 1609.344, 1e-3, 1e-2, 1,  1e3, 25.4e-9,
    25.4e-6, 0.9144, 1e-10,  1e-9,     1e-6, 0.1,  10, 100,
  };
  if (unit == 21)
    return 1200.0 / 3937; /* the survey foot of the United States */
  return unit >= 0 && unit < (gint64)G_N_ELEMENTS (metres) ? metres[unit] : 0;
}

static void
read_header (Dxf *dxf)
{
  gboolean units = FALSE;
  while (trn_dxf_next (&dxf->pairs) && dxf->pairs.code != 0)
    {
      if (dxf->pairs.code == 9)
        units = trn_dxf_is (&dxf->pairs, 9, "$INSUNITS");
      else if (units && dxf->pairs.code == 70)
        {
          gint64 unit = g_ascii_strtoll (dxf->pairs.value, NULL, 10);
          if (dxf->has_unit && unit != dxf->unit)
            complain (dxf, "it declares two units of length");
          dxf->has_unit = TRUE;
          dxf->unit = unit;
          dxf->answer->header.metres_per_unit = insunits_metres (unit);
        }
    }
}

static void
read_file (Dxf *dxf)
{
  gboolean found = FALSE, more = trn_dxf_next (&dxf->pairs);
  while (more && !trn_answer_has_error (dxf->answer))
    {
      gboolean section = trn_dxf_is (&dxf->pairs, 0, "SECTION");
      if (trn_dxf_is (&dxf->pairs, 0, "EOF"))
        {
          if (trn_dxf_next (&dxf->pairs))
            complain (dxf, "it goes on after its end");
          break;
        }
      more = trn_dxf_next (&dxf->pairs);
      if (!section || !more || dxf->pairs.code != 2)
        continue;
      if (trn_dxf_is (&dxf->pairs, 2, "HEADER"))
        read_header (dxf);
      else if (trn_dxf_is (&dxf->pairs, 2, "BLOCKS") && trn_dxf_next (&dxf->pairs))
        read_blocks (dxf);
      else if (trn_dxf_is (&dxf->pairs, 2, "ENTITIES"))
        {
          found = TRUE;
          trn_dxf_next (&dxf->pairs);
          read_entities (dxf, dxf->entities, "ENDSEC");
        }
      more = dxf->pairs.code >= 0;
    }
  if (!found)
    complain (dxf, "it has no entities");
}

/* ---- what is shown ---- */

/* FALSE after an error. */
static gboolean
show_faces (Dxf *dxf, const Block *block, const TrnAffine *map, guint32 layer)
{
  guint32 n = block->points->len;
  g_autofree double (*points)[3] = g_try_malloc_n ((gsize)n + 1, sizeof *points);
  g_autofree guint32 *index_of = g_try_new0 (guint32, (gsize)n + 1);
  if (points == NULL || index_of == NULL)
    {
      trn_answer_note (dxf->answer, TRN_NOTE_MEMORY, 0, 0, NULL);
      return FALSE;
    }
  const double (*from)[3] = (const double (*)[3]) (void *)block->points->data;
  for (guint32 i = 0; i < n; i++)
    {
      trn_affine_apply (map, from[i], points[i]);
      for (int k = 0; k < 3; k++)
        trn_build_size (dxf->build, from[i][k]);
    }
  gboolean turned = trn_affine_determinant (map) < 0;
  TrnBuildPoints set = { (const double (*)[3])points, n, index_of };
  for (guint i = 0; i < block->faces->len; i++)
    {
      const Face *face = &g_array_index (block->faces, Face, i);
      const char *name = g_ptr_array_index (dxf->layers, face->layer);
      if (strcmp (name, "0") == 0)
        name = g_ptr_array_index (dxf->layers, layer);
      guint part = trn_build_part_get (dxf->build, name);
      if (!trn_build_face (dxf->build, part, &set, face->corners,
                           face->corners[3] == NO_CORNER ? 3 : 4, turned))
        return FALSE;
    }
  return TRUE;
}

static gboolean
show_block (Dxf *dxf, const Block *block, const TrnAffine *map, guint32 layer, guint depth);

/* FALSE after an error. */
static gboolean
show_insert (Dxf *dxf, const Insert *insert, const TrnAffine *map, guint32 layer, guint depth)
{
  if (strcmp (g_ptr_array_index (dxf->layers, insert->layer), "0") != 0)
    layer = insert->layer;
  g_autofree char *key = g_ascii_strdown (insert->name, -1);
  const Block *block = g_hash_table_lookup (dxf->blocks, key);
  if (block == NULL)
    {
      trn_answer_note (dxf->answer, TRN_NOTE_REFERENCE_MISSING, 0, 0, insert->name);
      return FALSE;
    }
  TrnAffine base = TRN_AFFINE_IDENTITY;
  for (int k = 0; k < 3; k++)
    base.t[k] = -block->base[k];
  for (gint64 row = 0; row < insert->rows; row++)
    for (gint64 column = 0; column < insert->columns; column++)
      {
        TrnAffine place = insert->map;
        for (int k = 0; k < 3; k++)
          place.t[k] += (double)column * insert->step[0][k] + (double)row * insert->step[1][k];
        place = trn_affine_compose (map, &place);
        place = trn_affine_compose (&place, &base);
        if (!show_block (dxf, block, &place, layer, depth + 1))
          return FALSE;
      }
  return TRUE;
}

static gboolean
show_block (Dxf *dxf, const Block *block, const TrnAffine *map, guint32 layer, guint depth)
{
  if (depth > MAX_DEPTH || ++dxf->shown > MAX_SHOWN)
    {
      complain (dxf, "its blocks are too many, too deep or run in a circle");
      return FALSE;
    }
  if (block->refused != NULL || !trn_affine_is_finite (map))
    {
      trn_answer_note (dxf->answer,
                       block->refused != NULL ? TRN_NOTE_UNSUPPORTED : TRN_NOTE_TRANSFORM, 0, 0,
                       block->refused);
      return FALSE;
    }
  trn_build_drop (dxf->build, block->n_points, block->n_lines);
  if (block->faces->len > 0 && !show_faces (dxf, block, map, layer))
    return FALSE;
  for (guint i = 0; i < block->inserts->len; i++)
    {
      const Insert *insert = &g_array_index (block->inserts, Insert, i);
      if (!show_insert (dxf, insert, map, layer, depth))
        return FALSE;
    }
  return TRUE;
}

void
trn_read_dxf (const char *path, TrnBuild *build, TrnAnswer *answer)
{
  FILE *stream = fopen (path, "rbe");
  char mark[sizeof BINARY_MARK] = "";
  if (stream == NULL || fread (mark, 1, sizeof mark - 1, stream) == 0)
    {
      trn_answer_note (answer, TRN_NOTE_DAMAGED, 0, 0, "it cannot be read");
      return;
    }
  if (strcmp (mark, BINARY_MARK) == 0)
    trn_answer_note (answer, TRN_NOTE_UNSUPPORTED, 0, 0, "binary DXF");
  rewind (stream);
  Dxf dxf = { .build = build, .answer = answer, .entities = block_new () };
  const TrnAffine identity = TRN_AFFINE_IDENTITY;
  dxf.blocks = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, block_free);
  dxf.layers = g_ptr_array_new_with_free_func (g_free);
  dxf.layer_index = g_hash_table_new (g_str_hash, g_str_equal);
  trn_lines_init (&dxf.pairs.lines, stream);
  if (!trn_answer_has_error (answer))
    read_file (&dxf);
  if (!trn_answer_has_error (answer))
    show_block (&dxf, dxf.entities, &identity, layer_get (&dxf, "0"), 0);
  trn_lines_clear (&dxf.pairs.lines);
  g_hash_table_unref (dxf.blocks);
  g_hash_table_unref (dxf.layer_index);
  g_ptr_array_unref (dxf.layers);
  block_free (dxf.entities);
  fclose (stream);
}
