/* AMF: objects of vertices and triangles, and constellations that place them.
 *
 * ISO/ASTM 52915. An object that no constellation places stands where its coordinates say. The
 * import library takes the angles of a constellation, which are degrees, for radians, drops objects
 * without an id, and needs gigabytes for a million triangles. The file may be packed as a ZIP
 * archive with one file in it. */
#include "length-units.h"
#include "native.h"
#include "number.h"
#include "objects.h"
#include "xml-scan.h"
#include "zip-read.h"

#include <string.h>

typedef struct
{
  TrnXml xml;
  TrnAnswer *answer;
  TrnObjects objects;
  TrnObject *object; /* that is open */
  double values[6];  /* of the instance that is open: delta, then degrees */
  char *instance_of; /* its object, or NULL where none is open */
  double point[3];   /* of the vertex that is open */
  gint64 corners[3]; /* of the triangle that is open */
  guint found;       /* bits: what the open vertex or triangle has */
  int target;        /* the number that the text belongs to; −1: none */
  gboolean in_name, in_triangle;
} Amf;

static void
complain (Amf *amf, const char *what)
{
  if (!trn_answer_has_error (amf->answer))
    trn_answer_note (amf->answer, TRN_NOTE_DAMAGED, 0, 0, what);
}

static void
refuse (Amf *amf, const char *what)
{
  if (!trn_answer_has_error (amf->answer))
    trn_answer_note (amf->answer, TRN_NOTE_UNSUPPORTED, 0, 0, what);
}

static void
start_root (Amf *amf)
{
  g_autofree char *unit = trn_xml_value_dup (&amf->xml, "unit");
  if (!trn_xml_is (&amf->xml, "amf"))
    complain (amf, "it does not begin as an AMF file does");
  if (unit == NULL || *unit == '\0')
    return;
  amf->answer->header.metres_per_unit = trn_named_unit_metres (unit);
  if (amf->answer->header.metres_per_unit == 0)
    refuse (amf, unit);
}

static void
start_object (Amf *amf)
{
  char *id = trn_xml_value_dup (&amf->xml, "id");
  if (id == NULL)
    id = g_strdup_printf ("#%u", amf->objects.all->len);
  amf->object = trn_objects_add (&amf->objects, id);
  if (amf->object == NULL)
    complain (amf, "two objects have the same id");
}

/* Which of @names the element is, or −1. */
static int
find_name (const Amf *amf, const char *const names[], guint n)
{
  for (guint i = 0; i < n; i++)
    if (trn_xml_is (&amf->xml, names[i]))
      return (int)i;
  return -1;
}

static const char *const instance_names[] = { "deltax", "deltay", "deltaz", "rx", "ry", "rz" };
static const char *const axis_names[] = { "x", "y", "z" };
static const char *const corner_names[] = { "v1", "v2", "v3" };

static void
start (Amf *amf)
{
  const TrnXml *xml = &amf->xml;
  amf->target = -1;
  amf->in_name = FALSE;
  if (xml->depth == 1)
    start_root (amf);
  else if (xml->depth == 2 && (trn_xml_is (xml, "object") || trn_xml_is (xml, "constellation")))
    start_object (amf);
  else if (amf->object == NULL)
    return;
  else if (amf->instance_of != NULL)
    amf->target = find_name (amf, instance_names, 6);
  else if (trn_xml_is (xml, "mesh"))
    trn_object_start_mesh (amf->object, amf->answer);
  else if (trn_xml_is (xml, "vertex"))
    amf->found = 0;
  else if (trn_xml_is (xml, "triangle"))
    {
      amf->found = 0;
      amf->in_triangle = TRUE;
    }
  else if (amf->in_triangle)
    amf->target = find_name (amf, corner_names, 3);
  else if (xml->depth == 7) /* amf, object, mesh, vertices, vertex, coordinates, x */
    amf->target = find_name (amf, axis_names, 3);
  else if (trn_xml_is (xml, "normal") || trn_xml_is (xml, "edge"))
    refuse (amf, "curved triangles");
  else if (trn_xml_is (xml, "instance"))
    {
      memset (amf->values, 0, sizeof amf->values);
      amf->found = 0;
      amf->instance_of = trn_xml_value_dup (xml, "objectid");
      if (amf->instance_of == NULL)
        complain (amf, "an instance does not say of what");
    }
  else if (xml->depth == 3 && trn_xml_is (xml, "metadata"))
    {
      g_autofree char *type = trn_xml_value_dup (xml, "type");
      amf->in_name = type != NULL && g_ascii_strcasecmp (type, "name") == 0;
    }
}

static void
read_text (Amf *amf)
{
  if (amf->in_name && amf->object != NULL && amf->object->name == NULL)
    {
      amf->object->name = trn_xml_text_dup (&amf->xml);
      return;
    }
  if (amf->target < 0)
    return;
  const char *end, *text = amf->xml.text;
  double value = trn_number_parse (text, &end);
  while (g_ascii_isspace (*end))
    end++;
  /* A comment may stand within a number. */
  gboolean again = (amf->found & 1u << amf->target) != 0;
  if (end != text + amf->xml.text_length || !isfinite (value) || again)
    {
      complain (amf, "a number cannot be read");
      return;
    }
  if (amf->instance_of != NULL)
    amf->values[amf->target] = value;
  else if (amf->in_triangle)
    amf->corners[amf->target]
        = value >= 0 && value < G_MAXUINT32 && value == floor (value) ? (gint64)value : G_MAXUINT32;
  else
    amf->point[amf->target] = value;
  amf->found |= 1u << amf->target;
}

static void
end_instance (Amf *amf)
{
  TrnAffine map = TRN_AFFINE_IDENTITY;
  guint turns = 0;
  for (int axis = 0; axis < 3; axis++)
    if (amf->values[3 + axis] != 0)
      {
        map = trn_affine_turn (axis, amf->values[3 + axis]);
        turns++;
      }
  memcpy (map.t, amf->values, sizeof map.t);
  /* Programs do not agree about the order. */
  if (turns > 1)
    refuse (amf, "an instance that is turned about several axes");
  trn_object_place (amf->object, g_steal_pointer (&amf->instance_of), &map);
}

static void
end (Amf *amf)
{
  const TrnXml *xml = &amf->xml;
  amf->target = -1;
  amf->in_name = FALSE;
  if (amf->object == NULL)
    return;
  if (trn_xml_is (xml, "vertex"))
    {
      if (amf->found != 7)
        complain (amf, "a vertex has not three coordinates");
      g_array_append_vals (amf->object->points, amf->point, 1);
    }
  else if (trn_xml_is (xml, "triangle"))
    {
      guint32 corners[3]
          = { (guint32)amf->corners[0], (guint32)amf->corners[1], (guint32)amf->corners[2] };
      if (amf->found != 7)
        complain (amf, "a triangle has not three corners");
      amf->in_triangle = FALSE;
      g_array_append_vals (amf->object->triangles, corners, 1);
    }
  else if (trn_xml_is (xml, "instance") && amf->instance_of != NULL)
    end_instance (amf);
  else if (xml->depth == 1)
    amf->object = NULL;
}

static void
scan (Amf *amf)
{
  while (!trn_answer_has_error (amf->answer))
    switch (trn_xml_next (&amf->xml))
      {
      case TRN_XML_START:
        start (amf);
        break;
      case TRN_XML_TEXT:
        read_text (amf);
        break;
      case TRN_XML_END:
        end (amf);
        break;
      case TRN_XML_BAD:
        complain (amf, "it is no whole XML text");
        break;
      case TRN_XML_DONE:
        return;
      }
}

static void
show (Amf *amf, TrnBuild *build)
{
  const TrnAffine identity = TRN_AFFINE_IDENTITY;
  if (trn_answer_has_error (amf->answer) || !trn_objects_link (&amf->objects, amf->answer))
    return;
  for (guint i = 0; i < amf->objects.all->len; i++)
    {
      const TrnObject *object = g_ptr_array_index (amf->objects.all, i);
      if (object->is_placed)
        continue;
      if (!trn_objects_show (&amf->objects, object->id, &identity, build, amf->answer))
        return;
    }
  if (trn_objects_count_hidden (&amf->objects) > 0)
    complain (amf, "its objects are too many, too deep or run in a circle");
}

void
trn_read_amf (const char *path, TrnBuild *build, TrnAnswer *answer)
{
  gsize length;
  g_autofree char *bytes = trn_native_bytes_dup (path, &length, answer);
  if (bytes != NULL && trn_zip_is (bytes, length))
    {
      char *packed = g_steal_pointer (&bytes);
      bytes = trn_zip_read (packed, length, NULL, &length, answer);
      g_free (packed);
    }
  if (bytes == NULL)
    return;
  Amf amf = { .answer = answer, .target = -1 };
  trn_xml_init (&amf.xml, bytes, length);
  trn_objects_init (&amf.objects);
  scan (&amf);
  show (&amf, build);
  trn_objects_clear (&amf.objects);
  g_free (amf.instance_of);
}
