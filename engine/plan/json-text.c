/* The layout is chosen for readers of differences between two versions of a file: one value a
 * line, but a place or a size whole on its line. */
#include "json-text.h"

#include <string.h>

#include "number.h"

/* An array of at most so many arrays of at most so many numbers stays on one line. */
#define SHORT_ARRAY 4

static void write_value (GString *text, JsonNode *node, guint indent);

static void
write_line (GString *text, guint indent)
{
  g_string_append_c (text, '\n');
  for (guint i = 0; i < indent; i++)
    g_string_append (text, "  ");
}

static void
write_string (GString *text, const char *string)
{
  static const char from[] = "\"\\\b\f\n\r\t", to[] = "\"\\bfnrt";
  g_string_append_c (text, '"');
  for (const char *c = string; *c != '\0'; c++)
    {
      const char *known = strchr (from, *c);
      if (known != NULL)
        g_string_append_printf (text, "\\%c", to[known - from]);
      else if ((guchar)*c < 0x20)
        g_string_append_printf (text, "\\u%04x", (guint)*c);
      else
        g_string_append_c (text, *c);
    }
  g_string_append_c (text, '"');
}

static void
write_double (GString *text, double number)
{
  char buffer[TRN_NUMBER_BUFFER];
  g_string_append (text, trn_number_format (number, buffer));
}

static void
write_scalar (GString *text, JsonNode *node)
{
  if (JSON_NODE_HOLDS_NULL (node))
    g_string_append (text, "null");
  else if (json_node_get_value_type (node) == G_TYPE_STRING)
    write_string (text, json_node_get_string (node));
  else if (json_node_get_value_type (node) == G_TYPE_BOOLEAN)
    g_string_append (text, json_node_get_boolean (node) ? "true" : "false");
  else if (json_node_get_value_type (node) == G_TYPE_INT64)
    g_string_append_printf (text, "%" G_GINT64_FORMAT, json_node_get_int (node));
  else
    write_double (text, json_node_get_double (node));
}

static gboolean
is_number (JsonNode *node)
{
  if (!JSON_NODE_HOLDS_VALUE (node))
    return FALSE;
  GType type = json_node_get_value_type (node);
  return type == G_TYPE_INT64 || type == G_TYPE_DOUBLE;
}

static gboolean
is_numbers (JsonNode *node)
{
  if (!JSON_NODE_HOLDS_ARRAY (node))
    return FALSE;
  JsonArray *array = json_node_get_array (node);
  for (guint i = 0; i < json_array_get_length (array); i++)
    if (!is_number (json_array_get_element (array, i)))
      return FALSE;
  return TRUE;
}

/* Whether an array stands on one line. */
static gboolean
is_flat (JsonNode *node)
{
  if (is_numbers (node))
    return TRUE;
  JsonArray *array = json_node_get_array (node);
  if (json_array_get_length (array) > SHORT_ARRAY)
    return FALSE;
  for (guint i = 0; i < json_array_get_length (array); i++)
    {
      JsonNode *element = json_array_get_element (array, i);
      if (!is_numbers (element)
          || json_array_get_length (json_node_get_array (element)) > SHORT_ARRAY)
        return FALSE;
    }
  return TRUE;
}

static void
write_array (GString *text, JsonNode *node, guint indent)
{
  JsonArray *array = json_node_get_array (node);
  const gboolean flat = is_flat (node);
  g_string_append_c (text, '[');
  for (guint i = 0; i < json_array_get_length (array); i++)
    {
      if (i > 0)
        g_string_append (text, flat ? ", " : ",");
      if (!flat)
        write_line (text, indent + 1);
      write_value (text, json_array_get_element (array, i), indent + 1);
    }
  if (!flat)
    write_line (text, indent);
  g_string_append_c (text, ']');
}

static void
write_object (GString *text, JsonNode *node, guint indent)
{
  JsonObjectIter iter;
  const char *key;
  JsonNode *value;
  gboolean first = TRUE;
  g_string_append_c (text, '{');
  json_object_iter_init_ordered (&iter, json_node_get_object (node));
  while (json_object_iter_next_ordered (&iter, &key, &value))
    {
      if (!first)
        g_string_append_c (text, ',');
      first = FALSE;
      write_line (text, indent + 1);
      write_string (text, key);
      g_string_append (text, ": ");
      write_value (text, value, indent + 1);
    }
  if (!first)
    write_line (text, indent);
  g_string_append_c (text, '}');
}

static void
write_value (GString *text, JsonNode *node, guint indent)
{
  if (JSON_NODE_HOLDS_OBJECT (node))
    write_object (text, node, indent);
  else if (JSON_NODE_HOLDS_ARRAY (node))
    write_array (text, node, indent);
  else
    write_scalar (text, node);
}

char *
trn_json_to_text (JsonNode *root, gsize *length)
{
  GString *text = g_string_new (NULL);
  write_value (text, root, 0);
  g_string_append_c (text, '\n');
  if (length != NULL)
    *length = text->len;
  return g_string_free (text, FALSE);
}
