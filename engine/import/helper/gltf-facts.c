#include "gltf-facts.h"
#include "native.h"

#include <json-glib/json-glib.h>
#include <math.h>
#include <string.h>

#define MAX_DEPTH 200
#define MAX_NODES 1000000
#define MOST_OFF_UNIT 2e-5

/* Constants of the glTF 2.0 specification. */
#define GLB_MAGIC 0x46546c67u
#define GLB_JSON 0x4e4f534au
#define COMPONENT_FLOAT 5126
#define MODE_TRIANGLES 4
#define MODE_STRIP 5
#define MODE_FAN 6
#define PACKED "KHR_draco_mesh_compression"

typedef struct
{
  JsonArray *nodes, *meshes, *accessors;
  guint64 triangles;
  guint visited, left_over; /* left_over: primitives whose last corners make no whole triangle */
  guint packed;             /* primitives */
  TrnAnswer *answer;
} Reader;

static JsonArray *
array_get (JsonObject *object, const char *name)
{
  JsonNode *node = object != NULL ? json_object_get_member (object, name) : NULL;
  return node != NULL && JSON_NODE_HOLDS_ARRAY (node) ? json_node_get_array (node) : NULL;
}

static JsonObject *
object_get (JsonObject *object, const char *name)
{
  JsonNode *node = object != NULL ? json_object_get_member (object, name) : NULL;
  return node != NULL && JSON_NODE_HOLDS_OBJECT (node) ? json_node_get_object (node) : NULL;
}

static JsonObject *
element_get (JsonArray *array, gint64 index)
{
  if (array == NULL || index < 0 || index >= json_array_get_length (array))
    return NULL;
  JsonNode *node = json_array_get_element (array, (guint)index);
  return JSON_NODE_HOLDS_OBJECT (node) ? json_node_get_object (node) : NULL;
}

static gint64
int_get (JsonObject *object, const char *name, gint64 fallback)
{
  JsonNode *node = object != NULL ? json_object_get_member (object, name) : NULL;
  return node != NULL && JSON_NODE_HOLDS_VALUE (node) ? json_node_get_int (node) : fallback;
}

static const char *
string_of (JsonNode *node)
{
  return node != NULL && JSON_NODE_HOLDS_VALUE (node)
                 && json_node_get_value_type (node) == G_TYPE_STRING
             ? json_node_get_string (node)
             : "";
}

static void
refuse (Reader *reader, const char *feature)
{
  if (!trn_answer_has_error (reader->answer))
    trn_answer_note (reader->answer, TRN_NOTE_UNSUPPORTED, 0, 0, feature);
}

/* Extensions that change how a surface looks and not where it is. */
static gboolean
is_harmless (const char *extension)
{
  static const char *const prefixes[] = { "KHR_materials_", "KHR_texture_", "EXT_texture_",
                                          "KHR_lights_",    "KHR_xmp",      "KHR_technique_webgl" };
  for (guint i = 0; i < G_N_ELEMENTS (prefixes); i++)
    if (g_str_has_prefix (extension, prefixes[i]))
      return TRUE;
  return FALSE;
}

static gboolean
has_weights (JsonObject *object)
{
  JsonArray *weights = array_get (object, "weights");
  for (guint i = 0; weights != NULL && i < json_array_get_length (weights); i++)
    {
      JsonNode *node = json_array_get_element (weights, i);
      if (!JSON_NODE_HOLDS_VALUE (node) || json_node_get_double (node) != 0)
        return TRUE;
    }
  return FALSE;
}

/* A quaternion that is longer than 1 turns and scales as well, in the library; the specification
 * wants it to be 1, to which writers round. */
static void
check_rotation (Reader *reader, JsonObject *node)
{
  JsonArray *rotation = array_get (node, "rotation");
  double square = 0;
  if (rotation == NULL)
    return;
  for (guint i = 0; i < json_array_get_length (rotation); i++)
    {
      JsonNode *number = json_array_get_element (rotation, i);
      double value = JSON_NODE_HOLDS_VALUE (number) ? json_node_get_double (number) : 0;
      square += value * value;
    }
  if (!(fabs (square - 1) <= MOST_OFF_UNIT))
    refuse (reader, "a rotation whose quaternion has not the length 1");
}

static void
visit_primitive (Reader *reader, JsonObject *primitive)
{
  JsonObject *attributes = object_get (primitive, "attributes");
  JsonObject *positions = element_get (reader->accessors, int_get (attributes, "POSITION", -1));
  if (positions == NULL)
    return;
  if (int_get (positions, "componentType", 0) != COMPONENT_FLOAT
      || strcmp (string_of (json_object_get_member (positions, "type")), "VEC3") != 0)
    refuse (reader, "positions that are not triples of floats");
  JsonObject *indices = element_get (reader->accessors, int_get (primitive, "indices", -1));
  const gboolean packed = object_get (object_get (primitive, "extensions"), PACKED) != NULL;
  reader->packed += packed;
  if ((!packed && !json_object_has_member (positions, "bufferView"))
      || json_object_has_member (positions, "sparse")
      || (indices != NULL && json_object_has_member (indices, "sparse")))
    refuse (reader, "sparse accessors");

  gint64 count = int_get (indices != NULL ? indices : positions, "count", 0);
  gint64 mode = int_get (primitive, "mode", MODE_TRIANGLES);
  if (count < 3 || count > G_MAXUINT32)
    return;
  if (mode == MODE_TRIANGLES && count % 3 != 0)
    reader->left_over++;
  if (mode == MODE_TRIANGLES)
    reader->triangles += (guint64)count / 3;
  else if (mode == MODE_STRIP || mode == MODE_FAN)
    reader->triangles += (guint64)count - 2;
}

static void
visit_mesh (Reader *reader, JsonObject *mesh)
{
  if (has_weights (mesh))
    refuse (reader, "morph targets");
  JsonArray *primitives = array_get (mesh, "primitives");
  for (guint i = 0; primitives != NULL && i < json_array_get_length (primitives); i++)
    {
      JsonObject *primitive = element_get (primitives, i);
      if (primitive != NULL)
        visit_primitive (reader, primitive);
    }
}

static void
visit_nodes (Reader *reader, JsonArray *indices, guint depth)
{
  for (guint i = 0; indices != NULL && i < json_array_get_length (indices); i++)
    {
      if (trn_answer_has_error (reader->answer))
        return;
      if (depth > MAX_DEPTH || ++reader->visited > MAX_NODES)
        {
          trn_answer_note (reader->answer, TRN_NOTE_DAMAGED, 0, 0,
                           "its nodes are too many, too deep or run in a circle");
          return;
        }
      JsonNode *index = json_array_get_element (indices, i);
      JsonObject *node = JSON_NODE_HOLDS_VALUE (index)
                             ? element_get (reader->nodes, json_node_get_int (index))
                             : NULL;
      if (node == NULL)
        continue;
      if (has_weights (node))
        refuse (reader, "morph targets");
      check_rotation (reader, node);
      JsonObject *mesh = element_get (reader->meshes, int_get (node, "mesh", -1));
      if (mesh != NULL)
        visit_mesh (reader, mesh);
      visit_nodes (reader, array_get (node, "children"), depth + 1);
    }
}

static void
check_extensions (Reader *reader, JsonObject *root)
{
  JsonArray *required = array_get (root, "extensionsRequired");
  for (guint i = 0; required != NULL && i < json_array_get_length (required); i++)
    {
      const char *name = string_of (json_array_get_element (required, i));
      if (!is_harmless (name) && strcmp (name, PACKED) != 0)
        refuse (reader, name);
    }
  JsonArray *used = array_get (root, "extensionsUsed");
  for (guint i = 0; used != NULL && i < json_array_get_length (used); i++)
    if (strcmp (string_of (json_array_get_element (used, i)), "EXT_mesh_gpu_instancing") == 0)
      refuse (reader, "EXT_mesh_gpu_instancing");
}

/* The JSON part of the file, or NULL. */
static char *
json_text_get (char *bytes, gsize length, TrnFormat format, gsize *json_length)
{
  *json_length = length;
  if (format == TRN_FORMAT_GLTF)
    return bytes;
  guint32 head[5];
  if (length < sizeof head)
    return NULL;
  memcpy (head, bytes, sizeof head);
  *json_length = GUINT32_FROM_LE (head[3]);
  if (GUINT32_FROM_LE (head[0]) != GLB_MAGIC || GUINT32_FROM_LE (head[4]) != GLB_JSON
      || *json_length > length - sizeof head)
    return NULL;
  return bytes + sizeof head;
}

/* The first version, of 2015, names its parts where the second one numbers them. */
static gboolean
is_first_version (JsonObject *root)
{
  JsonObject *asset = object_get (root, "asset");
  JsonNode *version = asset != NULL ? json_object_get_member (asset, "version") : NULL;
  return g_str_has_prefix (string_of (version), "1.") || object_get (root, "nodes") != NULL;
}

static void
read_root (Reader *reader, JsonObject *root)
{
  JsonObject *asset = object_get (root, "asset");
  JsonNode *version = asset != NULL ? json_object_get_member (asset, "version") : NULL;
  if (!g_str_has_prefix (string_of (version), "2."))
    refuse (reader, "a glTF version other than 1 and 2");
  check_extensions (reader, root);
  reader->nodes = array_get (root, "nodes");
  reader->meshes = array_get (root, "meshes");
  reader->accessors = array_get (root, "accessors");
  JsonArray *scenes = array_get (root, "scenes");
  if (scenes != NULL && json_array_get_length (scenes) > 1)
    trn_answer_note (reader->answer, TRN_NOTE_READER, 1, 0,
                     "several scenes; the one that is to be shown is taken");
  JsonObject *scene = element_get (scenes, int_get (root, "scene", 0));
  visit_nodes (reader, array_get (scene, "nodes"), 0);
  if (reader->left_over > 0)
    trn_answer_note (reader->answer, TRN_NOTE_READER, reader->left_over, 0,
                     "corners that make no whole triangle");
  if (reader->packed > 0)
    trn_answer_note (reader->answer, TRN_NOTE_READER, reader->packed, 0,
                     "coordinates were rounded to a grid when they were packed");
}

void
trn_gltf_facts_read (const char *path, TrnFormat format, TrnFileFacts *facts, TrnAnswer *answer)
{
  g_autoptr (GError) error = NULL;
  gsize length, json_length;
  g_autofree char *bytes = trn_native_bytes_dup (path, &length, answer);
  if (bytes == NULL)
    return;
  char *text = json_text_get (bytes, length, format, &json_length);
  if (text == NULL)
    {
      trn_answer_note (answer, TRN_NOTE_DAMAGED, 0, 0, "it is no binary glTF 2 file");
      return;
    }
  if (format == TRN_FORMAT_GLTF && length >= 4 && memcmp (bytes, "glTF", 4) == 0)
    {
      trn_answer_note (answer, TRN_NOTE_DAMAGED, 0, 0,
                       "it is binary, so its name has to end in .glb");
      return;
    }
  g_autoptr (JsonParser) parser = json_parser_new ();
  gboolean parsed = json_parser_load_from_data (parser, text, (gssize)json_length, &error);
  JsonNode *root = parsed ? json_parser_get_root (parser) : NULL;
  if (root == NULL || !JSON_NODE_HOLDS_OBJECT (root))
    {
      trn_answer_note (answer, TRN_NOTE_DAMAGED, 0, 0,
                       error != NULL ? error->message : "it holds no JSON object");
      return;
    }
  if (is_first_version (json_node_get_object (root)))
    {
      trn_answer_note (answer, TRN_NOTE_EXPERIMENTAL, 0, 0, "glTF 1");
      facts->counted = FALSE;
      return;
    }
  Reader reader = { .answer = answer };
  read_root (&reader, json_node_get_object (root));
  facts->faces = reader.triangles;
  facts->meshes = reader.meshes != NULL ? json_array_get_length (reader.meshes) : 0;
  facts->over_nodes = TRUE;
  facts->packed = reader.packed > 0;
}
