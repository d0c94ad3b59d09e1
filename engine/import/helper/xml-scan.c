#include "xml-scan.h"

#include <string.h>

void
trn_xml_init (TrnXml *xml, const char *text, gsize length)
{
  memset (xml, 0, sizeof *xml);
  xml->at = text;
  xml->end = text + length;
  if (length >= 3 && memcmp (text, "\357\273\277", 3) == 0)
    xml->at += 3;
}

static gboolean
is_blank (char c)
{
  return c == ' ' || c == '\n' || c == '\r' || c == '\t';
}

static gboolean
begins (const TrnXml *xml, const char *with)
{
  gsize length = strlen (with);
  return (gsize)(xml->end - xml->at) >= length && memcmp (xml->at, with, length) == 0;
}

/* Where @what begins, at or after @from; or NULL. */
static const char *
find (const TrnXml *xml, const char *from, const char *what)
{
  return memmem (from, (gsize)(xml->end - from), what, strlen (what));
}

/* Whether the @length bytes at @text, any of them, are @word. */
static gboolean
is_word (const char *text, gsize length, const char *word)
{
  return strlen (word) == length && memcmp (text, word, length) == 0;
}

/* Leaves out the prefix of a name. */
static void
strip_prefix (const char **name, gsize *length)
{
  const char *colon = memchr (*name, ':', *length);
  if (colon == NULL)
    return;
  *length -= (gsize)(colon + 1 - *name);
  *name = colon + 1;
}

/* The end of a tag whose inside begins at @p: its ">", outside quotation marks; or NULL. */
static const char *
tag_end (const TrnXml *xml, const char *p)
{
  char quote = '\0';
  for (; p < xml->end; p++)
    {
      if (quote != '\0')
        quote = *p == quote ? '\0' : quote;
      else if (*p == '"' || *p == '\'')
        quote = *p;
      else if (*p == '>')
        return p;
    }
  return NULL;
}

/* Behind a document type, whose inside may be bracketed; or NULL. */
static const char *
skip_doctype (const TrnXml *xml)
{
  int depth = 0;
  for (const char *p = xml->at; p < xml->end; p++)
    {
      depth += (*p == '[') - (*p == ']');
      if (*p == '>' && depth == 0)
        return p + 1;
    }
  return NULL;
}

static TrnXmlEvent
read_start (TrnXml *xml)
{
  const char *p = xml->at + 1, *stop = tag_end (xml, p);
  if (stop == NULL || xml->depth >= TRN_XML_MAX_DEPTH)
    return TRN_XML_BAD;
  const char *name = p;
  while (p < stop && !is_blank (*p) && *p != '/')
    p++;
  gsize length = (gsize)(p - name);
  if (length == 0)
    return TRN_XML_BAD;
  xml->pending_end = stop[-1] == '/';
  xml->attributes = p;
  xml->attributes_end = xml->pending_end ? stop - 1 : stop;
  xml->open[xml->depth].name = name;
  xml->open[xml->depth].length = length;
  xml->depth++;
  xml->seen_root = TRUE;
  xml->name = name;
  xml->name_length = length;
  strip_prefix (&xml->name, &xml->name_length);
  xml->at = stop + 1;
  return TRN_XML_START;
}

static TrnXmlEvent
close_element (TrnXml *xml)
{
  xml->depth--;
  xml->name = xml->open[xml->depth].name;
  xml->name_length = xml->open[xml->depth].length;
  strip_prefix (&xml->name, &xml->name_length);
  return TRN_XML_END;
}

static TrnXmlEvent
read_end (TrnXml *xml)
{
  const char *name = xml->at + 2;
  const char *stop = memchr (name, '>', (gsize)(xml->end - name));
  if (stop == NULL || xml->depth == 0)
    return TRN_XML_BAD;
  gsize length = (gsize)(stop - name);
  while (length > 0 && is_blank (name[length - 1]))
    length--;
  if (length != xml->open[xml->depth - 1].length
      || memcmp (name, xml->open[xml->depth - 1].name, length) != 0)
    return TRN_XML_BAD;
  xml->at = stop + 1;
  return close_element (xml);
}

static TrnXmlEvent
read_text (TrnXml *xml)
{
  const char *stop = memchr (xml->at, '<', (gsize)(xml->end - xml->at));
  if (stop == NULL)
    stop = xml->end;
  xml->text = xml->at;
  xml->text_length = (gsize)(stop - xml->at);
  xml->at = stop;
  return TRN_XML_TEXT;
}

TrnXmlEvent
trn_xml_next (TrnXml *xml)
{
  if (xml->pending_end)
    {
      xml->pending_end = FALSE;
      return close_element (xml);
    }
  while (xml->at < xml->end)
    {
      const char *behind;
      if (*xml->at != '<')
        {
          if (xml->depth > 0)
            return read_text (xml);
          if (!is_blank (*xml->at) && *xml->at != '\0')
            return TRN_XML_BAD;
          xml->at++;
          continue;
        }
      if (begins (xml, "<![CDATA["))
        {
          xml->text = xml->at + 9;
          behind = find (xml, xml->text, "]]>");
          if (behind == NULL || xml->depth == 0)
            return TRN_XML_BAD;
          xml->text_length = (gsize)(behind - xml->text);
          xml->at = behind + 3;
          return TRN_XML_TEXT;
        }
      if (begins (xml, "</"))
        return read_end (xml);
      if (!begins (xml, "<!") && !begins (xml, "<?"))
        return read_start (xml);
      if (begins (xml, "<!--"))
        behind = find (xml, xml->at + 4, "-->");
      else if (begins (xml, "<?"))
        behind = find (xml, xml->at, "?>");
      else
        behind = skip_doctype (xml);
      if (behind == NULL)
        return TRN_XML_BAD;
      xml->at = behind + (begins (xml, "<!--") ? 3 : begins (xml, "<?") ? 2 : 0);
    }
  return xml->depth == 0 && xml->seen_root ? TRN_XML_DONE : TRN_XML_BAD;
}

gboolean
trn_xml_is (const TrnXml *xml, const char *name)
{
  return is_word (xml->name, xml->name_length, name);
}

static const char *
find_value (const TrnXml *xml, const char *name, gsize *length)
{
  const char *p = xml->attributes, *stop = xml->attributes_end;
  while (p < stop)
    {
      while (p < stop && is_blank (*p))
        p++;
      const char *key = p;
      while (p < stop && *p != '=' && !is_blank (*p))
        p++;
      gsize key_length = (gsize)(p - key);
      while (p < stop && *p != '"' && *p != '\'')
        p++;
      if (p >= stop)
        return NULL;
      const char *value = p + 1, *behind = memchr (value, *p, (gsize)(stop - value));
      if (behind == NULL)
        return NULL;
      strip_prefix (&key, &key_length);
      if (is_word (key, key_length, name))
        {
          *length = (gsize)(behind - value);
          return value;
        }
      p = behind + 1;
    }
  return NULL;
}

const char *
trn_xml_value_get (const TrnXml *xml, const char *name)
{
  gsize length;
  return find_value (xml, name, &length);
}

/* What an entity stands for, 0 where it is unknown; @length becomes that of the entity. */
static gunichar
resolve (const char *text, gsize left, gsize *length)
{
  static const struct
  {
    const char *name;
    gunichar value;
  } entities[] = {
    { "&amp;", '&' }, { "&lt;", '<' }, { "&gt;", '>' }, { "&quot;", '"' }, { "&apos;", '\'' }
  };
  for (guint i = 0; i < G_N_ELEMENTS (entities); i++)
    {
      *length = strlen (entities[i].name);
      if (*length <= left && memcmp (text, entities[i].name, *length) == 0)
        return entities[i].value;
    }
  const char *semicolon = memchr (text, ';', MIN (left, 12));
  if (semicolon == NULL || text[1] != '#')
    return 0;
  *length = (gsize)(semicolon + 1 - text);
  gboolean hexadecimal = text[2] == 'x';
  guint64 value = g_ascii_strtoull (text + (hexadecimal ? 3 : 2), NULL, hexadecimal ? 16 : 10);
  return value <= 0x10ffff && g_unichar_validate ((gunichar)value) ? (gunichar)value : 0;
}

static char *
dup_resolved (const char *text, gsize length)
{
  GString *out = g_string_new (NULL);
  for (gsize i = 0; i < length;)
    {
      gsize used;
      gunichar c = text[i] == '&' ? resolve (text + i, length - i, &used) : 0;
      if (c != 0)
        {
          g_string_append_unichar (out, c);
          i += used;
        }
      else
        g_string_append_c (out, text[i++]);
    }
  return g_strstrip (g_string_free (out, FALSE));
}

char *
trn_xml_value_dup (const TrnXml *xml, const char *name)
{
  gsize length;
  const char *value = find_value (xml, name, &length);
  return value != NULL ? dup_resolved (value, length) : NULL;
}

char *
trn_xml_text_dup (const TrnXml *xml)
{
  return dup_resolved (xml->text, xml->text_length);
}
