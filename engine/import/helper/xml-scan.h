/* xml-scan.h: the elements of an XML text in memory, one after the other.
 *
 * For files of millions of elements, of which a general parser takes seconds. It knows elements,
 * attributes, text, CDATA, comments and processing instructions; it skips a document type and
 * resolves the five entities and numbers only, so that nothing can be made to grow. Prefixes of
 * names are left out. Tags must match. */
#pragma once

#include <glib.h>

#define TRN_XML_MAX_DEPTH 512

typedef enum
{
  TRN_XML_START,
  TRN_XML_END,
  TRN_XML_TEXT,
  TRN_XML_DONE,
  TRN_XML_BAD,
} TrnXmlEvent;

typedef struct
{
  const char *at, *end;
  const char *name; /* of the element that starts or ends, not terminated */
  gsize name_length;
  const char *attributes, *attributes_end;
  const char *text; /* not terminated, entities as they are */
  gsize text_length;
  guint depth; /* elements open, the one that starts included, the one that ends not */
  gboolean pending_end, seen_root;
  struct
  {
    const char *name;
    gsize length;
  } open[TRN_XML_MAX_DEPTH];
} TrnXml;

/* @text must be followed by a NUL byte, so that numbers can be read from it. */
void trn_xml_init (TrnXml *xml, const char *text, gsize length);
TrnXmlEvent trn_xml_next (TrnXml *xml);

/* Whether the element that starts or ends has this local name. */
gboolean trn_xml_is (const TrnXml *xml, const char *name);
/* The value of an attribute with this local name, which ends at a quotation mark; or NULL. */
const char *trn_xml_value_get (const TrnXml *xml, const char *name);
/* The same, owned, with its entities resolved; or NULL. */
char *trn_xml_value_dup (const TrnXml *xml, const char *name);
/* The text, owned, trimmed, with its entities resolved. */
char *trn_xml_text_dup (const TrnXml *xml);
