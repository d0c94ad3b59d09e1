/* 3MF: a ZIP archive with an XML text of objects, of which the build items are shown.
 *
 * 3MF Core Specification 1.2: sections 2.1 (the start part), 3.1 and 3.2 (right-handed, the build
 * platform in XY, Z up), 3.3 (twelve numbers, rows of a matrix that rows of coordinates are
 * multiplied by), 3.4 (units). Objects in other parts of the archive and lattices of beams are
 * refused. The import library does not tell the unit. */
#include "length-units.h"
#include "native.h"
#include "number.h"
#include "objects.h"
#include "xml-scan.h"
#include "zip-read.h"

#include <string.h>

#define RELATIONSHIPS "_rels/.rels"
#define MODEL_TYPE "3dmodel"

typedef struct
{
  TrnXml xml;
  TrnAnswer *answer;
  TrnObjects objects;
  TrnObject *object; /* that is open */
  TrnObject build;   /* only its placings are used */
} File3mf;

static void
complain (File3mf *file, const char *what)
{
  if (!trn_answer_has_error (file->answer))
    trn_answer_note (file->answer, TRN_NOTE_DAMAGED, 0, 0, what);
}

static void
refuse (File3mf *file, const char *what)
{
  if (!trn_answer_has_error (file->answer))
    trn_answer_note (file->answer, TRN_NOTE_UNSUPPORTED, 0, 0, what);
}

/* The number in an attribute, or NaN. */
static double
number_get (File3mf *file, const char *name)
{
  const char *end, *text = trn_xml_value_get (&file->xml, name);
  if (text == NULL)
    return NAN;
  double value = trn_number_parse (text, &end);
  return *end == '"' || *end == '\'' || *end == ' ' ? value : NAN;
}

static void
start_vertex (File3mf *file)
{
  double point[3] = { number_get (file, "x"), number_get (file, "y"), number_get (file, "z") };
  if (isfinite (point[0]) && isfinite (point[1]) && isfinite (point[2]))
    g_array_append_vals (file->object->points, point, 1);
  else
    complain (file, "a vertex has not three coordinates");
}

static void
start_triangle (File3mf *file)
{
  static const char *const names[] = { "v1", "v2", "v3" };
  guint32 corners[3] = { 0, 0, 0 };
  for (int i = 0; i < 3; i++)
    {
      const char *end, *text = trn_xml_value_get (&file->xml, names[i]);
      gint64 corner = text != NULL ? trn_whole_parse (text, &end) : -1;
      if (corner < 0 || (*end != '"' && *end != '\''))
        complain (file, "a triangle has not three corners");
      corners[i] = (guint32)CLAMP (corner, 0, G_MAXUINT32);
    }
  g_array_append_vals (file->object->triangles, corners, 1);
}

/* The map of a component or an item. FALSE after an error. */
static gboolean
transform_get (File3mf *file, TrnAffine *map)
{
  const TrnAffine identity = TRN_AFFINE_IDENTITY;
  *map = identity;
  const char *text = trn_xml_value_get (&file->xml, "transform");
  for (int k = 0; text != NULL && k < 12; k++)
    {
      double value = trn_number_parse (text, &text);
      if (!isfinite (value))
        {
          complain (file, "a transform has not twelve numbers");
          return FALSE;
        }
      if (k < 9)
        map->a[k % 3][k / 3] = value;
      else
        map->t[k - 9] = value;
    }
  return TRUE;
}

static void
start_placing (File3mf *file, TrnObject *into)
{
  TrnAffine map;
  char *id = trn_xml_value_dup (&file->xml, "objectid");
  if (trn_xml_value_get (&file->xml, "path") != NULL)
    refuse (file, "objects in another part of the archive");
  if (id == NULL)
    complain (file, "a component does not say of what");
  else if (transform_get (file, &map))
    trn_object_place (into, g_steal_pointer (&id), &map);
  g_free (id);
}

static void
start_object (File3mf *file)
{
  char *id = trn_xml_value_dup (&file->xml, "id");
  file->object = id != NULL ? trn_objects_add (&file->objects, id) : NULL;
  if (file->object == NULL)
    complain (file, "an object has no id of its own");
  else
    file->object->name = trn_xml_value_dup (&file->xml, "name");
}

/* Extensions without which the model is not to be read, by their prefixes. Those of materials and
 * of objects in other parts, which are refused where they are used, are known by their names. */
static void
check_extensions (File3mf *file)
{
  g_autofree char *list = trn_xml_value_dup (&file->xml, "requiredextensions");
  g_auto (GStrv) prefixes = g_strsplit (list != NULL ? list : "", " ", -1);
  for (guint i = 0; prefixes[i] != NULL; i++)
    {
      g_autofree char *space
          = prefixes[i][0] != '\0' ? trn_xml_value_dup (&file->xml, prefixes[i]) : NULL;
      gboolean known = space != NULL
                       && (strstr (space, "/3dmanufacturing/material/") != NULL
                           || strstr (space, "/3dmanufacturing/production/") != NULL);
      if (prefixes[i][0] != '\0' && !known)
        refuse (file, prefixes[i]);
    }
}

static void
start_model (File3mf *file)
{
  g_autofree char *unit = trn_xml_value_dup (&file->xml, "unit");
  if (!trn_xml_is (&file->xml, "model"))
    complain (file, "its model does not begin as one");
  check_extensions (file);
  if (unit == NULL)
    return;
  file->answer->header.metres_per_unit = trn_named_unit_metres (unit);
  if (file->answer->header.metres_per_unit == 0)
    refuse (file, unit);
}

static void
start (File3mf *file)
{
  const TrnXml *xml = &file->xml;
  static const char *const refused[]
      = { "beamlattice", "slicestack", "displacementmesh", "booleanshape", "volumetricstack" };
  if (xml->depth == 1)
    start_model (file);
  else if (file->object != NULL && trn_xml_is (xml, "mesh"))
    trn_object_start_mesh (file->object, file->answer);
  else if (file->object != NULL && trn_xml_is (xml, "vertex"))
    start_vertex (file);
  else if (file->object != NULL && trn_xml_is (xml, "triangle"))
    start_triangle (file);
  else if (file->object != NULL && trn_xml_is (xml, "component"))
    start_placing (file, file->object);
  else if (trn_xml_is (xml, "object"))
    start_object (file);
  else if (trn_xml_is (xml, "item"))
    start_placing (file, &file->build);
  for (guint i = 0; i < G_N_ELEMENTS (refused); i++)
    if (trn_xml_is (xml, refused[i]))
      refuse (file, refused[i]);
}

static void
scan (File3mf *file)
{
  while (!trn_answer_has_error (file->answer))
    switch (trn_xml_next (&file->xml))
      {
      case TRN_XML_START:
        start (file);
        break;
      case TRN_XML_TEXT:
        break;
      case TRN_XML_END:
        if (trn_xml_is (&file->xml, "object"))
          file->object = NULL;
        break;
      case TRN_XML_BAD:
        complain (file, "it is no whole XML text");
        break;
      case TRN_XML_DONE:
        return;
      }
}

/* The name of the part that the archive starts with, owned; NULL after an error. */
static char *
start_part_dup (const char *archive, gsize length, TrnAnswer *answer)
{
  gsize n;
  g_autofree char *text = trn_zip_read (archive, length, RELATIONSHIPS, &n, answer);
  if (text == NULL)
    return NULL;
  g_autofree TrnXml *xml = g_new (TrnXml, 1);
  trn_xml_init (xml, text, n);
  for (;;)
    {
      TrnXmlEvent event = trn_xml_next (xml);
      if (event == TRN_XML_DONE || event == TRN_XML_BAD)
        break;
      if (event != TRN_XML_START || !trn_xml_is (xml, "Relationship"))
        continue;
      g_autofree char *type = trn_xml_value_dup (xml, "Type");
      char *target = trn_xml_value_dup (xml, "Target");
      if (type != NULL && g_str_has_suffix (type, MODEL_TYPE) && target != NULL)
        return target;
      g_free (target);
    }
  trn_answer_note (answer, TRN_NOTE_DAMAGED, 0, 0, "the archive does not name its model");
  return NULL;
}

void
trn_read_3mf (const char *path, TrnBuild *build, TrnAnswer *answer)
{
  gsize length, n;
  answer->header.up = TRN_STREAM_UP_Z;
  g_autofree char *archive = trn_native_bytes_dup (path, &length, answer);
  g_autofree char *part = archive != NULL ? start_part_dup (archive, length, answer) : NULL;
  const char *name = part != NULL && *part == '/' ? part + 1 : part;
  g_autofree char *text = name != NULL ? trn_zip_read (archive, length, name, &n, answer) : NULL;
  if (text == NULL)
    return;
  File3mf file = { .answer = answer };
  trn_xml_init (&file.xml, text, n);
  trn_objects_init (&file.objects);
  file.build.placings = g_array_new (FALSE, FALSE, sizeof (TrnPlacing));
  scan (&file);
  GArray *items = file.build.placings;
  gboolean good = !trn_answer_has_error (answer) && trn_objects_link (&file.objects, answer);
  for (guint i = 0; i < items->len; i++)
    {
      TrnPlacing *item = &g_array_index (items, TrnPlacing, i);
      good = good && trn_objects_show (&file.objects, item->id, &item->map, build, answer);
      g_free (item->id);
    }
  guint hidden = trn_objects_count_hidden (&file.objects);
  if (good && items->len > 0 && hidden > 0)
    trn_answer_note (answer, TRN_NOTE_UNUSED, hidden, 0, NULL);
  g_array_unref (items);
  trn_objects_clear (&file.objects);
}
