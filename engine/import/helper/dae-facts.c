/* COLLADA 1.4 and 1.5, as far as it says what is shown where. */
#include "dae-facts.h"
#include "length-units.h"
#include "native.h"
#include "number.h"
#include "xml-scan.h"

#include <math.h>
#include <string.h>

#define MAX_DEPTH 200
#define MAX_SHOWN 1000000

typedef struct
{
  guint64 triangles;
} Geometry;

typedef struct
{
  GPtrArray *children;   /* of Node, borrowed */
  GPtrArray *geometries; /* urls */
  GPtrArray *instances;  /* urls of nodes */
} Node;

typedef struct
{
  TrnXml xml;
  TrnFileFacts *facts;
  TrnAnswer *answer;
  GHashTable *geometries;  /* id → Geometry */
  GHashTable *skins;       /* id of a controller → url of its geometry */
  char *controller;        /* id of the one that is open */
  GHashTable *nodes;       /* id → Node, of nodes and visual scenes; borrowed */
  GPtrArray *all_nodes;    /* owns them */
  GPtrArray *open;         /* the nodes that are open, borrowed */
  char *scene;             /* the url of the one that is shown */
  Geometry *geometry;      /* that is open */
  char kind[16];           /* of the primitive that is open, or "" */
  guint64 stride, numbers; /* numbers a corner; of the p that is open */
  double unit;
  guint visited;
  gboolean in_p, in_vcount, in_up, exponents;
} Dae;

static Node *
node_new (void)
{
  Node *node = g_new0 (Node, 1);
  node->children = g_ptr_array_new ();
  node->geometries = g_ptr_array_new_with_free_func (g_free);
  node->instances = g_ptr_array_new_with_free_func (g_free);
  return node;
}

static void
node_free (gpointer data)
{
  Node *node = data;
  g_ptr_array_unref (node->children);
  g_ptr_array_unref (node->geometries);
  g_ptr_array_unref (node->instances);
  g_free (node);
}

static void
refuse (Dae *dae, const char *feature)
{
  if (!trn_answer_has_error (dae->answer))
    trn_answer_note (dae->answer, TRN_NOTE_UNSUPPORTED, 0, 0, feature);
}

/* ---- the file ---- */

/* The unit counts where its number and its name agree, or where it has only one of them. */
static void
start_unit (Dae *dae)
{
  const char *end, *text = trn_xml_value_get (&dae->xml, "meter");
  g_autofree char *name = trn_xml_value_dup (&dae->xml, "name");
  g_autofree char *number = trn_xml_value_dup (&dae->xml, "meter");
  double named = name != NULL ? trn_named_unit_metres (name) : 0;
  if (text == NULL)
    {
      dae->unit = named == 1 ? 1 : 0;
      return;
    }
  g_strdelimit (number, ",", '.'); /* as some programs write it in some countries */
  double metres = trn_number_parse (number, &end);
  dae->unit = *end == '\0' && isfinite (metres) && metres > 0 ? metres : 0;
  if (named > 0 && fabs (named - dae->unit) > 1e-3 * named)
    dae->unit = 0;
}

/* An element's reference into the same file, owned; NULL after an error. */
static char *
reference_dup (Dae *dae, const char *attribute)
{
  char *url = trn_xml_value_dup (&dae->xml, attribute);
  if (url != NULL && *url == '#')
    return url;
  refuse (dae, "geometry in another file");
  g_free (url);
  return NULL;
}

static void
add_reference (Dae *dae, GPtrArray *into)
{
  char *url = reference_dup (dae, "url");
  if (url != NULL)
    g_ptr_array_add (into, url);
}

static void
start_node (Dae *dae)
{
  Node *node = node_new ();
  g_ptr_array_add (dae->all_nodes, node);
  if (dae->open->len > 0)
    g_ptr_array_add (((Node *)g_ptr_array_index (dae->open, dae->open->len - 1))->children, node);
  g_ptr_array_add (dae->open, node);
  char *id = trn_xml_value_dup (&dae->xml, "id");
  if (id != NULL)
    g_hash_table_replace (dae->nodes, id, node);
}

static void
start_in_node (Dae *dae)
{
  const TrnXml *xml = &dae->xml;
  Node *node = g_ptr_array_index (dae->open, dae->open->len - 1);
  if (trn_xml_is (xml, "instance_geometry") || trn_xml_is (xml, "instance_controller"))
    add_reference (dae, node->geometries);
  else if (trn_xml_is (xml, "instance_node"))
    add_reference (dae, node->instances);
  else if (trn_xml_is (xml, "skew"))
    refuse (dae, "skew");
}

static void
start_primitive (Dae *dae)
{
  const TrnXml *xml = &dae->xml;
  static const char *const kinds[]
      = { "triangles", "polylist", "polygons", "tristrips", "trifans" };
  for (guint i = 0; i < G_N_ELEMENTS (kinds); i++)
    if (trn_xml_is (xml, kinds[i]))
      g_strlcpy (dae->kind, kinds[i], sizeof dae->kind);
  if (dae->kind[0] == '\0')
    return;
  dae->stride = 1;
  const char *end, *text = trn_xml_value_get (xml, "count");
  gint64 count = text != NULL ? trn_whole_parse (text, &end) : 0;
  if (strcmp (dae->kind, "triangles") == 0 && count > 0)
    dae->geometry->triangles += (guint64)count;
  if (strcmp (dae->kind, "trifans") == 0)
    refuse (dae, "trifans");
}

static void
start_in_primitive (Dae *dae)
{
  const TrnXml *xml = &dae->xml;
  const char *end, *text = trn_xml_value_get (xml, "offset");
  if (trn_xml_is (xml, "input") && text != NULL)
    {
      gint64 offset = trn_whole_parse (text, &end);
      dae->stride = MAX (dae->stride, (guint64)CLAMP (offset, 0, 1000) + 1);
    }
  else if (trn_xml_is (xml, "p"))
    {
      dae->in_p = strcmp (dae->kind, "polygons") == 0 || strcmp (dae->kind, "tristrips") == 0;
      dae->numbers = 0;
    }
  else if (trn_xml_is (xml, "vcount"))
    dae->in_vcount = TRUE;
  else if (trn_xml_is (xml, "ph"))
    refuse (dae, "polygons with holes");
}

static void
start_geometry (Dae *dae)
{
  dae->geometry = g_new0 (Geometry, 1);
  char *id = trn_xml_value_dup (&dae->xml, "id");
  g_hash_table_replace (dae->geometries, id != NULL ? id : g_strdup (""), dae->geometry);
}

/* What a controller moves. */
static void
start_in_controller (Dae *dae)
{
  if (trn_xml_is (&dae->xml, "morph"))
    refuse (dae, "morph targets");
  if (!trn_xml_is (&dae->xml, "skin"))
    return;
  char *url = reference_dup (dae, "source");
  if (url != NULL)
    g_hash_table_replace (dae->skins, g_strdup (dae->controller), url);
}

static void
start (Dae *dae)
{
  const TrnXml *xml = &dae->xml;
  if (xml->depth == 1 && !trn_xml_is (xml, "COLLADA"))
    trn_answer_note (dae->answer, TRN_NOTE_DAMAGED, 0, 0, "it does not begin as COLLADA does");
  else if (xml->depth == 3 && trn_xml_is (xml, "unit"))
    start_unit (dae);
  else if (xml->depth == 3 && trn_xml_is (xml, "up_axis"))
    dae->in_up = TRUE;
  else if (trn_xml_is (xml, "geometry"))
    start_geometry (dae);
  else if (dae->controller != NULL)
    start_in_controller (dae);
  else if (trn_xml_is (xml, "controller"))
    dae->controller = trn_xml_value_dup (xml, "id");
  else if (dae->geometry != NULL && dae->kind[0] != '\0')
    start_in_primitive (dae);
  else if (dae->geometry != NULL && (trn_xml_is (xml, "convex_mesh") || trn_xml_is (xml, "brep")))
    refuse (dae, "a geometry that is no mesh");
  else if (dae->geometry != NULL)
    start_primitive (dae);
  else if (trn_xml_is (xml, "node") || trn_xml_is (xml, "visual_scene"))
    start_node (dae);
  else if (dae->open->len > 0)
    start_in_node (dae);
  else if (trn_xml_is (xml, "instance_visual_scene") && dae->scene == NULL)
    dae->scene = reference_dup (dae, "url");
}

static void
read_text (Dae *dae)
{
  const char *p = dae->xml.text, *stop = p + dae->xml.text_length;
  if (dae->in_up)
    {
      g_autofree char *up = trn_xml_text_dup (&dae->xml);
      if (strcmp (up, "Z_UP") == 0)
        dae->answer->header.up = TRN_STREAM_UP_Z;
      else if (strcmp (up, "Y_UP") == 0)
        dae->answer->header.up = TRN_STREAM_UP_Y;
      else if (strcmp (up, "X_UP") == 0)
        refuse (dae, "X_UP");
    }
  else if (dae->in_p)
    {
      gboolean inside = FALSE;
      for (; p < stop; p++)
        {
          gboolean space = g_ascii_isspace (*p);
          dae->numbers += !space && !inside;
          inside = !space;
        }
    }
  while (dae->in_vcount && p < stop)
    {
      gint64 corners = trn_whole_parse (p, &p);
      if (corners < 0)
        break;
      dae->geometry->triangles += corners >= 3 ? (guint64)corners - 2 : 0;
    }
  if (dae->geometry != NULL && dae->kind[0] == '\0' && !dae->exponents)
    dae->exponents
        = memchr (p, 'e', (gsize)(stop - p)) != NULL || memchr (p, 'E', (gsize)(stop - p)) != NULL;
}

static void
end (Dae *dae)
{
  const TrnXml *xml = &dae->xml;
  if (dae->in_p && trn_xml_is (xml, "p"))
    {
      guint64 corners = dae->numbers / dae->stride;
      dae->geometry->triangles += corners >= 3 ? corners - 2 : 0;
      dae->in_p = FALSE;
    }
  else if (trn_xml_is (xml, "vcount"))
    dae->in_vcount = FALSE;
  else if (trn_xml_is (xml, "up_axis"))
    dae->in_up = FALSE;
  else if (dae->kind[0] != '\0' && trn_xml_is (xml, dae->kind))
    dae->kind[0] = '\0';
  else if (trn_xml_is (xml, "geometry"))
    dae->geometry = NULL;
  else if (trn_xml_is (xml, "controller"))
    g_clear_pointer (&dae->controller, g_free);
  else if (dae->open->len > 0 && (trn_xml_is (xml, "node") || trn_xml_is (xml, "visual_scene")))
    g_ptr_array_set_size (dae->open, (gint)dae->open->len - 1);
}

static void
scan (Dae *dae)
{
  while (!trn_answer_has_error (dae->answer))
    switch (trn_xml_next (&dae->xml))
      {
      case TRN_XML_START:
        start (dae);
        break;
      case TRN_XML_TEXT:
        read_text (dae);
        break;
      case TRN_XML_END:
        end (dae);
        break;
      case TRN_XML_BAD:
        trn_answer_note (dae->answer, TRN_NOTE_DAMAGED, 0, 0, "it is no whole XML text");
        break;
      case TRN_XML_DONE:
        return;
      }
}

/* ---- what is shown ---- */

static void
show (Dae *dae, const Node *node, guint depth)
{
  if (depth > MAX_DEPTH || ++dae->visited > MAX_SHOWN)
    {
      trn_answer_note (dae->answer, TRN_NOTE_DAMAGED, 0, 0,
                       "its nodes are too many, too deep or run in a circle");
      return;
    }
  for (guint i = 0; i < node->geometries->len; i++)
    {
      const char *url = g_ptr_array_index (node->geometries, i);
      const char *skinned = g_hash_table_lookup (dae->skins, url + 1);
      const Geometry *geometry
          = g_hash_table_lookup (dae->geometries, (skinned != NULL ? skinned : url) + 1);
      if (geometry != NULL)
        dae->facts->faces += geometry->triangles;
      else
        trn_answer_note (dae->answer, TRN_NOTE_REFERENCE_MISSING, 0, 0, url);
    }
  for (guint i = 0; i < node->instances->len; i++)
    {
      const char *url = g_ptr_array_index (node->instances, i);
      const Node *placed = g_hash_table_lookup (dae->nodes, url + 1);
      if (placed == NULL)
        trn_answer_note (dae->answer, TRN_NOTE_REFERENCE_MISSING, 0, 0, url);
      else if (!trn_answer_has_error (dae->answer))
        show (dae, placed, depth + 1);
    }
  for (guint i = 0; i < node->children->len && !trn_answer_has_error (dae->answer); i++)
    show (dae, g_ptr_array_index (node->children, i), depth + 1);
}

void
trn_dae_facts_read (const char *path, TrnFileFacts *facts, TrnAnswer *answer)
{
  gsize length;
  g_autofree char *text = trn_native_bytes_dup (path, &length, answer);
  if (text == NULL)
    return;
  Dae dae = { .facts = facts, .answer = answer };
  dae.geometries = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  dae.skins = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  dae.nodes = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  dae.all_nodes = g_ptr_array_new_with_free_func (node_free);
  dae.open = g_ptr_array_new ();
  trn_xml_init (&dae.xml, text, length);
  scan (&dae);
  const Node *shown = dae.scene != NULL ? g_hash_table_lookup (dae.nodes, dae.scene + 1) : NULL;
  if (!trn_answer_has_error (answer) && shown != NULL)
    show (&dae, shown, 0);
  answer->header.metres_per_unit = dae.unit;
  facts->meshes = g_hash_table_size (dae.geometries);
  facts->over_nodes = facts->counted = TRUE;
  facts->roundings = trn_text_roundings (dae.exponents);
  g_hash_table_unref (dae.geometries);
  g_hash_table_unref (dae.skins);
  g_hash_table_unref (dae.nodes);
  g_ptr_array_unref (dae.all_nodes);
  g_ptr_array_unref (dae.open);
  g_free (dae.scene);
  g_free (dae.controller);
}
