/* Parts of the helper by themselves, which no model file reaches in every corner: the scanner of
 * XML texts, and what an answer may hold at most. What is expected of XML follows from "Extensible
 * Markup Language (XML) 1.0" of the W3C; that prefixes, the document type and other entities are
 * not heeded is said in xml-scan.h. */
#include "helper/answer.h"
#include "helper/xml-scan.h"

#include <signal.h>
#include <string.h>
#include <unistd.h>

/* ---- XML ---- */

/* The events of a text in a row: "(a" where an element starts, with the value of its attribute `v`
 * after a colon, ")a" where it ends, "'…'" for text that is no blank, "!" for what is no XML, "."
 * at the end. */
static char *
events_dup (const char *text)
{
  static TrnXml xml;
  GString *events = g_string_new (NULL);
  trn_xml_init (&xml, text, strlen (text));
  for (;;)
    {
      g_autofree char *words = NULL, *value = NULL;
      TrnXmlEvent event = trn_xml_next (&xml);
      switch (event)
        {
        case TRN_XML_START:
          value = trn_xml_value_dup (&xml, "v");
          g_string_append_printf (events, "(%.*s%s%s", (int)xml.name_length, xml.name,
                                  value != NULL ? ":" : "", value != NULL ? value : "");
          break;
        case TRN_XML_END:
          g_string_append_printf (events, ")%.*s", (int)xml.name_length, xml.name);
          break;
        case TRN_XML_TEXT:
          words = trn_xml_text_dup (&xml);
          if (*words != '\0')
            g_string_append_printf (events, "'%s'", words);
          break;
        case TRN_XML_DONE:
        case TRN_XML_BAD:
          g_string_append_c (events, event == TRN_XML_DONE ? '.' : '!');
          return g_string_free (events, FALSE);
        }
    }
}

static const struct
{
  const char *text, *events;
} texts[] = {
  { "<a/>", "(a)a." },
  { "<a></a >", "(a)a." },
  { "<?xml version='1.0'?>\n<!-- <b> --><a v='1'><b/>t</a>", "(a:1(b)b't')a." },
  { "<p:a q:v=\"2\"><p:b></p:b></p:a>", "(a:2(b)b)a." },
  { "<!DOCTYPE a [<!ENTITY x \"y>\">]><a/>", "(a)a." },
  { "<a>1<![CDATA[<b>&amp;]]>2</a>", "(a'1''<b>&''2')a." },
  { "<a v = '1'/>", "(a:1)a." },
  { "<a w='1' v='>'/>", "(a:>)a." },
  { "<a v='&lt;&gt;&amp;&quot;&apos;'/>", "(a:<>&\"')a." },
  { "<a v='&#65;&#x42;&#x1F3D7;'/>", "(a:AB\xf0\x9f\x8f\x97)a." },
  { "<a v='&#0;&#xD800;&#x110000;&#-1;&none;&'/>", "(a:&#0;&#xD800;&#x110000;&#-1;&none;&)a." },
  { "<a v/>", "(a)a." },
  { "<a v=1/>", "(a)a." },
  { "", "!" },
  { " \n", "!" },
  { "text", "!" },
  { "<a>", "(a!" },
  { "<a", "!" },
  { "< >", "!" },
  { "<a v='>", "!" },
  { "</a>", "!" },
  { "<a></b>", "(a!" },
  { "<a></a", "(a!" },
  { "<a/>text", "(a)a!" },
  { "<a><![CDATA[", "(a!" },
  { "<![CDATA[x]]>", "!" },
  { "<!-- ", "!" },
  { "<a><? ", "(a!" },
  { "<!DOCTYPE a [", "!" },
};

static void
test_xml (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      g_test_message ("%s", texts[i].text);
      g_autofree char *events = events_dup (texts[i].text);
      g_assert_cmpstr (events, ==, texts[i].events);
    }
}

/* As deep as may be is read to its end; one deeper is refused where it begins. */
static void
test_xml_depth (void)
{
  g_autoptr (GString) deep = g_string_new (NULL);
  for (guint i = 0; i < TRN_XML_MAX_DEPTH; i++)
    g_string_append (deep, "<a>");
  for (guint i = 0; i < TRN_XML_MAX_DEPTH; i++)
    g_string_append (deep, "</a>");
  g_autofree char *events = events_dup (deep->str);
  g_assert_true (g_str_has_suffix (events, ")a."));
  g_string_prepend (deep, "<a>");
  g_string_append (deep, "</a>");
  g_autofree char *deeper = events_dup (deep->str);
  g_assert_true (g_str_has_suffix (deeper, "(a!"));
}

/* ---- the answer ---- */

/* An answer is never freed, as the helper ends with it: the leak sanitizer finds them here. */
static GPtrArray *answers;

static TrnAnswer *
answer_new (void)
{
  TrnAnswer *answer = trn_answer_new ();
  if (answers == NULL)
    answers = g_ptr_array_new ();
  g_ptr_array_add (answers, answer);
  return answer;
}

/* Of warnings without end only the first are kept; an error finds room all the same, and the second
 * error no more. */
static void
test_notes (void)
{
  TrnAnswer *answer = answer_new ();
  for (guint i = 0; i < TRN_STREAM_MAX_NOTES + 10; i++)
    trn_answer_note (answer, TRN_NOTE_READER, i, 0, "warning");
  g_assert_cmpuint (answer->notes->len, ==, TRN_STREAM_MAX_NOTES);
  g_assert_false (trn_answer_has_error (answer));
  trn_answer_note (answer, TRN_NOTE_MEMORY, 0, 0, NULL);
  trn_answer_note (answer, TRN_NOTE_DAMAGED, 0, 0, "later");
  g_assert_true (trn_answer_has_error (answer));
  g_assert_cmpuint (answer->notes->len, ==, TRN_STREAM_MAX_NOTES);
  const TrnAnswerNote *last
      = &g_array_index (answer->notes, TrnAnswerNote, TRN_STREAM_MAX_NOTES - 1);
  g_assert_cmpuint (last->head.code, ==, TRN_NOTE_MEMORY);
  g_assert_cmpstr (last->text, ==, "");
}

/* One object more than may be is an error, said once. */
static void
test_parts (void)
{
  TrnAnswer *answer = answer_new ();
  for (guint i = 0; i < TRN_STREAM_MAX_PARTS + 2; i++)
    trn_answer_part (answer, i, 1, "");
  g_assert_cmpuint (answer->parts->len, ==, TRN_STREAM_MAX_PARTS);
  g_assert_true (trn_answer_has_error (answer));
  g_assert_cmpuint (answer->notes->len, ==, 1);
}

/* Nobody reads what is sent. */
static void
test_nobody (void)
{
  int ends[2];
  g_assert_cmpint (pipe (ends), ==, 0);
  close (ends[0]);
  TrnAnswer *answer = answer_new ();
  trn_answer_note (answer, TRN_NOTE_MEMORY, 0, 0, NULL);
  g_assert_false (trn_answer_send (answer, ends[1]));
  close (ends[1]);
}

int
main (int argc, char **argv)
{
  signal (SIGPIPE, SIG_IGN);
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/import/helper-parts/xml", test_xml);
  g_test_add_func ("/import/helper-parts/xml-depth", test_xml_depth);
  g_test_add_func ("/import/helper-parts/notes", test_notes);
  g_test_add_func ("/import/helper-parts/parts", test_parts);
  g_test_add_func ("/import/helper-parts/nobody", test_nobody);
  return g_test_run ();
}
