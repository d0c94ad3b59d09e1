/* Parts of the helper by themselves, which no model file reaches in every corner: the scanner of
 * XML texts, what an answer may hold at most, skins whose weights do not add up to one, and grids
 * that coordinates were rounded to. What is expected of XML follows from "Extensible Markup
 * Language (XML) 1.0" of the W3C; that prefixes, the document type and other entities are not
 * heeded is said in xml-scan.h. */
#include "helper/answer.h"
#include "helper/scene-walk.h"
#include "helper/skin-pose.h"
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

/* ---- skins ---- */

/* Whether the place of a skin is known: two points, at x = 0 and 10, of a mesh whose node moves it
 * by @node along x; two bones that move it by @bones, and have the @weights of both points. */
static gboolean
skin_is_placed (const double bones[2], const float weights[2], const double *node,
                double *deviation)
{
  struct aiVector3D points[2] = { { 0, 0, 0 }, { 10, 0, 0 } };
  struct aiVertexWeight shares[2][2];
  struct aiBone all[2];
  struct aiNode nodes[2], root = { .mNumChildren = 2 };
  struct aiBone *bone_list[2];
  struct aiNode *node_list[2];
  const struct aiMatrix4x4 identity = { .a1 = 1, .b2 = 1, .c3 = 1, .d4 = 1 };
  memset (nodes, 0, sizeof nodes);
  memset (all, 0, sizeof all);
  root.mTransformation = identity;
  root.mChildren = node_list;
  for (guint b = 0; b < 2; b++)
    {
      const char letter = (char)('a' + b);
      nodes[b].mName.length = all[b].mName.length = 1;
      nodes[b].mName.data[0] = all[b].mName.data[0] = letter;
      nodes[b].mTransformation = all[b].mOffsetMatrix = identity;
      nodes[b].mTransformation.a4 = (float)bones[b];
      nodes[b].mParent = &root;
      all[b].mNumWeights = 2;
      all[b].mWeights = shares[b];
      for (guint v = 0; v < 2; v++)
        shares[b][v] = (struct aiVertexWeight){ v, weights[b] };
      bone_list[b] = &all[b];
      node_list[b] = &nodes[b];
    }
  const struct aiMesh mesh
      = { .mNumVertices = 2, .mVertices = points, .mNumBones = 2, .mBones = bone_list };
  const struct aiScene scene = { .mRootNode = &root };
  TrnAffine of_node = TRN_AFFINE_IDENTITY, map;
  of_node.t[0] = node != NULL ? *node : 0;
  gboolean placed = trn_skin_pose (&scene, &mesh, node != NULL ? &of_node : NULL, &map, deviation);
  if (placed)
    g_assert_cmpfloat (map.t[0], ==, bones[0]);
  return placed;
}

/* Weights that add up to one place the skin where its bones are, whatever its node is; others only
 * where the node is there, too, and is heeded. By how much it may be off: a point with the weights
 * 0.75 and 0.75, whose bones differ by 2^-12 from one another, and by as much from the node, is off
 * by 1.5 times the sum of both at most. The limit of 10^-4 is 2^-12 of a reach of 2.4; this one is
 * 15, of which three times 2^-12 is half of that. */
static void
test_skin (void)
{
  const float whole[2] = { 0.25F, 0.75F }, less[2] = { 0.5F, 0.25F }, more[2] = { 0.75F, 0.75F };
  const float negative[2] = { -0.5F, 0.75F }, endless[2] = { INFINITY, 0.5F };
  const double same[2] = { 5, 5 }, near[2] = { 5, 5 + 0x1p-12 }, apart[2] = { 5, 6 };
  const double there = 5, elsewhere = 6;
  double deviation;
  g_assert_true (skin_is_placed (same, whole, NULL, &deviation));
  g_assert_cmpfloat (deviation, ==, 0);
  g_assert_true (skin_is_placed (same, whole, &elsewhere, &deviation));
  g_assert_false (skin_is_placed (apart, whole, &there, &deviation));
  g_assert_false (skin_is_placed (same, less, NULL, &deviation));
  g_assert_false (skin_is_placed (same, less, &elsewhere, &deviation));
  g_assert_true (skin_is_placed (same, less, &there, &deviation));
  g_assert_true (skin_is_placed (same, more, &there, &deviation));
  g_assert_false (skin_is_placed (apart, more, &there, &deviation));
  g_assert_false (skin_is_placed (same, negative, &there, &deviation));
  g_assert_false (skin_is_placed (same, endless, &there, &deviation));
  g_assert_true (skin_is_placed (near, whole, NULL, &deviation));
  g_assert_cmpfloat (deviation, ==, 0x1p-12);
  const double beside = 5 - 0x1p-12;
  g_assert_true (skin_is_placed (near, more, &beside, &deviation));
  g_assert_cmpfloat (deviation, ==, 1.5 * 0x1p-11);
}

/* ---- coordinates that were packed ---- */

#define N_PACKED 200
#define PITCH (2.7F / 4095)

/* The answer for a triangle among these corners, below @depth nodes of this turn about z. */
static TrnAnswer *
walk_packed (struct aiVector3D points[N_PACKED], gboolean packed, guint depth, double turn_rad)
{
  guint corners[] = { 0, 1, 2 }, shown[] = { 0 };
  struct aiFace face = { 3, corners };
  struct aiMesh mesh
      = { .mNumVertices = N_PACKED, .mVertices = points, .mNumFaces = 1, .mFaces = &face };
  struct aiMesh *meshes[] = { &mesh };
  struct aiNode nodes[2] = { { .mNumMeshes = 1, .mMeshes = shown } };
  struct aiNode *child = &nodes[0];
  const float c = (float)cos (turn_rad), s = (float)sin (turn_rad);
  for (guint i = 0; i < depth; i++)
    nodes[i].mTransformation
        = (struct aiMatrix4x4){ .a1 = c, .a2 = -s, .b1 = s, .b2 = c, .c3 = 1, .d4 = 1 };
  nodes[0].mParent = depth == 2 ? &nodes[1] : NULL;
  nodes[1].mChildren = &child;
  nodes[1].mNumChildren = 1;
  const struct aiScene scene
      = { .mRootNode = &nodes[depth - 1], .mNumMeshes = 1, .mMeshes = meshes };
  const TrnFileFacts facts = { .counted = TRUE, .packed = packed, .roundings = 1 };
  TrnAnswer *answer = answer_new ();
  trn_scene_walk (&scene, &facts, 10, answer);
  return answer;
}

/* Half of the pitch may be lost, beside some roundings, the same once more along each axis that a
 * turn mixes: √2 of it by 45° about z. Twice 45° are 90°, by which x is y and no more is lost. What
 * does not show how it was rounded is refused: here there is one point, or there are whole numbers.
 */
static void
test_packed (void)
{
  struct aiVector3D points[N_PACKED];
  for (guint v = 0; v < N_PACKED; v++)
    points[v] = (struct aiVector3D){ 0.3F + (float)(v * v % 4096) * PITCH,
                                     -0.7F + (float)(v * 17) * PITCH, (float)v * PITCH };
  static const struct
  {
    guint depth;
    double turn_rad, share;
  } cases[] = { { 1, 0, 1 }, { 1, G_PI / 4, G_SQRT2 }, { 2, G_PI / 4, 1 } };
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      const TrnAnswer *answer = walk_packed (points, TRUE, cases[i].depth, cases[i].turn_rad);
      g_assert_false (trn_answer_has_error (answer));
      g_assert_cmpuint (answer->header.n_triangles, ==, 1);
      const double half = cases[i].share * (double)PITCH / 2;
      g_test_message ("%g of %g", answer->header.loss, half);
      g_assert_cmpfloat (answer->header.loss, >=, half);
      g_assert_cmpfloat (answer->header.loss, <, 1.1 * half);
    }
  g_assert_cmpfloat (walk_packed (points, FALSE, 1, 0)->header.loss, <, 4 * 0x1p-24);
  for (int whole = 0; whole < 2; whole++)
    {
      for (guint v = 0; v < N_PACKED; v++)
        points[v] = (struct aiVector3D){ 1, whole == 1 ? (float)v : 1, 1 };
      const TrnAnswer *answer = walk_packed (points, TRUE, 1, 0);
      g_assert_cmpuint (answer->notes->len, ==, 1);
      g_assert_cmpuint (g_array_index (answer->notes, TrnAnswerNote, 0).head.code, ==,
                        TRN_NOTE_UNSUPPORTED);
    }
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
  g_test_add_func ("/import/helper-parts/skin", test_skin);
  g_test_add_func ("/import/helper-parts/packed", test_packed);
  return g_test_run ();
}
