#include "file-facts.h"
#include "dae-facts.h"
#include "gltf-facts.h"
#include "lines.h"
#include "native.h"
#include "byte-mark.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

/* Rounding of a number that is written as text. The library turns "12.345e6" into single
 * precision as (float (12) + float (.345)) · float (10^6): with u = 2^-24 the two parts err by u of
 * themselves and their sum by u, 2 u in all; an exponent adds 2 u for a power that is not
 * correctly rounded and u for the product, 5 u, and one more covers the terms of second order.
 * Binary numbers are single precision already, or rounded to it once: u, which is also what their
 * writer may have lost. */
#define ROUNDINGS_BINARY 1
#define ROUNDINGS_PLAIN 2
#define ROUNDINGS_EXPONENT 6

#define LONG_LINE "a line of more than a million letters"

double
trn_text_roundings (gboolean exponents)
{
  return exponents ? ROUNDINGS_EXPONENT : ROUNDINGS_PLAIN;
}

static gboolean
has_exponent (const char *line)
{
  for (const char *p = line; *p != '\0'; p++)
    if ((g_ascii_isdigit (p[0]) || p[0] == '.') && (p[1] == 'e' || p[1] == 'E')
        && (g_ascii_isdigit (p[2]) || p[2] == '-' || p[2] == '+'))
      return TRUE;
  return FALSE;
}

/* The words of a line up to a comment; @continued tells whether a backslash ends it. */
static guint
count_words (const char *line, gboolean *continued)
{
  guint words = 0;
  gboolean inside = FALSE;
  *continued = FALSE;
  for (const char *p = line; *p != '\0' && *p != '#'; p++)
    {
      if (p[0] == '\\' && (p[1] == '\r' || p[1] == '\n' || p[1] == '\0'))
        {
          *continued = TRUE;
          break;
        }
      gboolean space = g_ascii_isspace (*p);
      words += !space && !inside;
      inside = !space;
    }
  return words;
}

static const char *
skip_space (const char *p)
{
  while (g_ascii_isspace (*p))
    p++;
  return p;
}

typedef struct
{
  GByteArray *used; /* for each vertex: whether a face has it */
  guint64 n_used;
  gboolean unknown; /* a face names a vertex that is not there yet, or goes over several lines */
} ObjVertices;

/* Whether the line @p begins with the word @keyword. */
static gboolean
is_keyword (const char *p, const char *keyword)
{
  gsize length = strlen (keyword);
  return strncmp (p, keyword, length) == 0 && (p[length] == '\0' || g_ascii_isspace (p[length]));
}

/* What the library passes over without a word: curved surfaces, the same as they were written
 * before 1992 ("superseded statements" of the format's description), and the contents of other
 * files. */
static const char *
obj_refused_get (const char *p)
{
  static const char *const surfaces[] = { "surf", "bzp", "bsp", "cdp" };
  for (guint i = 0; i < G_N_ELEMENTS (surfaces); i++)
    if (is_keyword (p, surfaces[i]))
      return "free-form surfaces";
  return is_keyword (p, "call") || is_keyword (p, "csh") ? "geometry in another file" : NULL;
}

/* Whether a vertex has a weight, "v x y z w", other than 1: it is for curved surfaces only, but the
 * library divides by it. */
static gboolean
has_weight (const char *p, guint words)
{
  double weight = 1;
  return words == 5 && (sscanf (p, "v %*s %*s %*s %lf", &weight) != 1 || weight < 1 || weight > 1);
}

/* Whether the first three words are there and are numbers: of others, such as what some programs
 * write for one that is not finite, or one that the end of a file cuts, the library takes the
 * front. */
static gboolean
has_numbers (const char *p)
{
  for (int k = 0; k < 3; k++)
    {
      p = skip_space (p);
      gsize number = strspn (p, "0123456789+-.,eE"), word = strcspn (p, " \t\r\n");
      gboolean none
          = g_ascii_strncasecmp (p, "nan", 3) == 0 || g_ascii_strncasecmp (p, "inf", 3) == 0
            || g_ascii_strncasecmp (p, "-nan", 4) == 0 || g_ascii_strncasecmp (p, "-inf", 4) == 0;
      gboolean whole
          = number == word && word > 0 && (g_ascii_isdigit (p[word - 1]) || p[word - 1] == '.');
      if (!whole && !none)
        return FALSE;
      p += word;
    }
  return TRUE;
}

/* Marks the vertices that a face names: "f 1/2/3 -1//4 …". */
static void
mark_vertices (ObjVertices *vertices, const char *p)
{
  for (p = skip_space (p); *p != '\0' && *p != '#' && !vertices->unknown; p = skip_space (p))
    {
      char *end;
      gint64 index = g_ascii_strtoll (p, &end, 10);
      gint64 at = index < 0 ? vertices->used->len + index : index - 1;
      if (end == p || at < 0 || at >= vertices->used->len)
        {
          vertices->unknown = TRUE;
          return;
        }
      vertices->n_used += vertices->used->data[at] == 0;
      vertices->used->data[at] = 1;
      for (p = end; *p != '\0' && !g_ascii_isspace (*p);)
        p++;
    }
}

/* Nothing in the format says where it ends. Of a file that was cut short the last line does, in the
 * middle, or faces are missing that the last vertices were for. */
static void
note_cut (const ObjVertices *vertices, gboolean ended, TrnAnswer *answer)
{
  const guint64 n_left = vertices->used->len - vertices->n_used;
  if (!ended)
    trn_answer_note (answer, TRN_NOTE_READER, 1, 0,
                     "its last line has no end, as in a file that was cut short");
  if (n_left > 0 && !vertices->unknown && vertices->n_used > 0)
    trn_answer_note (answer, TRN_NOTE_READER, (double)n_left, 0, "a vertex that no face uses");
}

/* Faces are the lines that begin with "f", or "fo" as it once was, and name three corners or more.
 */
static void
read_obj (FILE *stream, TrnFileFacts *facts, TrnAnswer *answer)
{
  TrnLines lines;
  const char *line;
  guint words = 0;
  const guint8 unused = 0;
  gboolean exponents = FALSE, continued = FALSE, is_face = FALSE;
  const char *refused = NULL;
  gboolean damaged = FALSE;
  ObjVertices vertices = { .used = g_byte_array_new () };
  trn_lines_init (&lines, stream);
  while (refused == NULL && !damaged && (line = trn_lines_next (&lines)) != NULL)
    {
      const char *p = skip_space (line);
      gboolean carries_on = continued;
      guint more = count_words (p, &continued);
      if (!carries_on)
        {
          is_face = is_keyword (p, "f") || is_keyword (p, "fo");
          words = 0;
          refused = obj_refused_get (p);
        }
      if (!carries_on && p[0] == 'v' && g_ascii_isspace (p[1]))
        {
          exponents |= has_exponent (p);
          if (continued)
            refused = "a vertex over several lines";
          else if (has_weight (p, more))
            refused = "weights of vertices";
          else if (!has_numbers (p + 1))
            damaged = TRUE;
          g_byte_array_append (vertices.used, &unused, 1);
        }
      words += more;
      vertices.unknown = vertices.unknown || (is_face && continued);
      if (is_face && !continued)
        facts->faces += words >= 4;
      if (is_face && words >= 4 && !continued)
        mark_vertices (&vertices, p + (p[1] == 'o' ? 2 : 1));
    }
  if (lines.too_long)
    refused = LONG_LINE;
  if (damaged)
    trn_answer_note (answer, TRN_NOTE_DAMAGED, 0, 0, "a number cannot be read");
  else if (refused != NULL)
    trn_answer_note (answer, TRN_NOTE_UNSUPPORTED, 0, 0, refused);
  else if (vertices.used->len == 0)
    trn_answer_note (answer, TRN_NOTE_DAMAGED, 0, 0, "no line of it is a vertex");
  else
    note_cut (&vertices, lines.ended, answer);
  trn_lines_clear (&lines);
  facts->vertices = vertices.unknown ? 0 : vertices.n_used;
  facts->torn = TRUE;
  facts->roundings = trn_text_roundings (exponents);
  g_byte_array_unref (vertices.used);
}

/* Text begins with "solid", as the library has it too, be it after a byte order mark. */
static gboolean
is_stl_text (const guint8 *head, gsize n)
{
  const char *p = (const char *)head, *end = p + n;
  p += trn_byte_mark_utf8 (p, n);
  while (p < end && g_ascii_isspace (*p))
    p++;
  return end - p >= 5 && memcmp (p, "solid", 5) == 0;
}

/* What is wrong with a file that is neither. @count: that it has at the place of a binary file's.
 */
static void
say_no_stl (guint32 count, guint64 size, TrnAnswer *answer)
{
  const gboolean may_be_cut = size > 84 && count > 0 && count < 1u << 24;
  if (may_be_cut && size < 84 + 50 * (guint64)count)
    trn_answer_note (answer, TRN_NOTE_COUNT, count, 0, "facet");
  else if (may_be_cut)
    trn_answer_note (answer, TRN_NOTE_DAMAGED, 0, 0, "it goes on after the facets that it claims");
  else
    trn_answer_note (answer, TRN_NOTE_DAMAGED, 0, 0,
                     "it is no text that begins with “solid”, and no binary STL");
}

/* Binary is what has exactly the length that its own count demands: 80 bytes of header, the
 * count, 50 bytes a facet. Anything else is text, one facet a line that begins with "facet". */
static void
read_stl (FILE *stream, guint64 size, TrnFileFacts *facts, TrnAnswer *answer)
{
  guint8 head[84] = { 0 };
  guint32 count = 0;
  const gsize n = fread (head, 1, sizeof head, stream);
  if (n == sizeof head)
    {
      memcpy (&count, head + 80, sizeof count);
      count = GUINT32_FROM_LE (count);
      if (size == 84 + 50 * (guint64)count)
        {
          *facts = (TrnFileFacts){
            .faces = count, .counted = TRUE, .nameless = TRUE, .roundings = ROUNDINGS_BINARY
          };
          return;
        }
    }
  if (!is_stl_text (head, n))
    {
      say_no_stl (count, size, answer);
      return;
    }
  rewind (stream);
  TrnLines lines;
  const char *line;
  gboolean exponents = FALSE;
  trn_lines_init (&lines, stream);
  while ((line = trn_lines_next (&lines)) != NULL)
    {
      const char *p = skip_space (line);
      facts->faces += g_ascii_strncasecmp (p, "facet", 5) == 0;
      exponents |= has_exponent (p);
    }
  if (lines.too_long)
    trn_answer_note (answer, TRN_NOTE_UNSUPPORTED, 0, 0, LONG_LINE);
  trn_lines_clear (&lines);
  facts->roundings = trn_text_roundings (exponents);
}

#define PLY_ELEMENTS 16

typedef struct
{
  guint64 rows;
  guint64 properties;
  gboolean begins_with_list;
} PlyElement;

typedef struct
{
  guint64 claimed; /* elements so far */
  guint n_elements;
  PlyElement elements[PLY_ELEMENTS]; /* the first of them */
  gboolean text, vertices, in_vertex;
  guint axes; /* bits: x, y and z of a vertex */
} PlyHead;

/* Elements by which the library goes astray: of a strip it keeps the last triangle, and a second
 * list of faces or vertices is put over the first. */
static const char *
ply_refused_get (const char *element, const TrnFileFacts *facts, gboolean *vertices)
{
  static const char *const names[] = { "tristrips", "tristrip", "trifans", "range_grid" };
  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    if (g_ascii_strcasecmp (element, names[i]) == 0)
      return names[i];
  gboolean again = *vertices && strcmp (element, "vertex") == 0;
  *vertices = *vertices || strcmp (element, "vertex") == 0;
  return again || (facts->faces > 0 && strcmp (element, "face") == 0)
             ? "faces or vertices in two lists"
             : NULL;
}

/* Where a vertex has not all three, the library takes 0 for the one that is missing. */
static guint
ply_axis_get (const char *line)
{
  char name[8];
  if (sscanf (line, "property %*s %7s", name) != 1 || name[1] != '\0' || name[0] < 'x'
      || name[0] > 'z')
    return 0;
  return 1u << (name[0] - 'x');
}

/* One line of a PLY header. FALSE when it ends the header or is impossible. */
static gboolean
read_ply_line (const char *line, guint64 size, PlyHead *head, TrnFileFacts *facts,
               TrnAnswer *answer)
{
  char element[32];
  guint64 count;
  if (g_str_has_prefix (line, "format "))
    head->text = strstr (line, "ascii") != NULL;
  head->axes |= head->in_vertex ? ply_axis_get (line) : 0;
  if (g_str_has_prefix (line, "property ") && head->n_elements > 0
      && head->n_elements <= PLY_ELEMENTS)
    {
      PlyElement *last = &head->elements[head->n_elements - 1];
      gboolean list = g_str_has_prefix (line, "property list ");
      last->begins_with_list |= list && last->properties == 0;
      /* Vertices with an empty list, where faces should be, are points. */
      last->properties += !list || last->properties == 0;
    }
  if (sscanf (line, "element %31s %" G_GUINT64_FORMAT, element, &count) == 2)
    {
      /* An element takes a byte at least. */
      head->claimed = count > size ? G_MAXUINT64 : head->claimed + count;
      if (head->claimed > size)
        {
          trn_answer_note (answer, TRN_NOTE_COUNT, (double)count, 0, element);
          return FALSE;
        }
      const char *refused = ply_refused_get (element, facts, &head->vertices);
      if (refused != NULL && count > 0)
        {
          trn_answer_note (answer, TRN_NOTE_UNSUPPORTED, 0, 0, refused);
          return FALSE;
        }
      head->in_vertex = strcmp (element, "vertex") == 0;
      if (head->n_elements++ < PLY_ELEMENTS)
        head->elements[head->n_elements - 1].rows = count;
      if (strcmp (element, "face") == 0)
        facts->faces += count;
    }
  return TRUE;
}

/* Whether the line has a number for each property of the element, and for each entry of the list
 * that it begins with: the library takes 0 for one that is missing. */
static gboolean
ply_row_is_whole (const PlyElement *element, const char *line)
{
  gboolean continued;
  guint64 words = count_words (line, &continued);
  guint64 list = element->begins_with_list ? g_ascii_strtoull (line, NULL, 10) : 0;
  return words >= element->properties && words - element->properties >= list;
}

/* A line for which there was no room ends a text as its end does. */
static void
note_no_room (FILE *stream, TrnAnswer *answer)
{
  if (!feof (stream) && !trn_answer_has_error (answer))
    trn_answer_note (answer, TRN_NOTE_MEMORY, 0, 0, NULL);
}

/* The rows of a text. Whether any number has an exponent. */
static gboolean
read_ply_rows (FILE *stream, const PlyHead *head, TrnAnswer *answer)
{
  char *line = NULL;
  gsize room = 0;
  gboolean exponents = FALSE;
  guint at = 0;
  guint64 row = 0;
  while (!trn_answer_has_error (answer) && getline (&line, &room, stream) > 0)
    {
      exponents = exponents || has_exponent (line);
      if (*skip_space (line) == '\0')
        continue;
      while (at < MIN (head->n_elements, PLY_ELEMENTS) && row == head->elements[at].rows)
        {
          at++;
          row = 0;
        }
      if (at >= MIN (head->n_elements, PLY_ELEMENTS))
        continue;
      row++;
      if (!ply_row_is_whole (&head->elements[at], line))
        trn_answer_note (answer, TRN_NOTE_DAMAGED, 0, 0, "a line has fewer numbers than it needs");
    }
  note_no_room (stream, answer);
  free (line);
  return exponents;
}

static void
read_ply (FILE *stream, guint64 size, TrnFileFacts *facts, TrnAnswer *answer)
{
  char *line = NULL;
  gsize room = 0;
  PlyHead head = { 0 };
  gboolean ended = FALSE, exponents = FALSE;
  facts->nameless = TRUE;
  while (!ended && getline (&line, &room, stream) > 0)
    {
      ended = g_str_has_prefix (line, "end_header");
      if (!read_ply_line (line, size, &head, facts, answer))
        break;
    }
  if (!ended)
    note_no_room (stream, answer);
  if (!ended && !trn_answer_has_error (answer))
    trn_answer_note (answer, TRN_NOTE_DAMAGED, 0, 0, "the header has no end");
  if (ended && head.vertices && head.axes != 7)
    trn_answer_note (answer, TRN_NOTE_DAMAGED, 0, 0, "a vertex has not x, y and z");
  if (head.text && ended)
    exponents = read_ply_rows (stream, &head, answer);
  free (line);
  facts->roundings = head.text ? trn_text_roundings (exponents) : ROUNDINGS_BINARY;
}

/* A text with a byte order mark is turned into plain UTF-8 first, as it is for the library. */
static void
read_obj_file (FILE *stream, const char *path, TrnFileFacts *facts, TrnAnswer *answer)
{
  if (!trn_byte_mark_begins (stream))
    {
      read_obj (stream, facts, answer);
      return;
    }
  gsize length;
  char *text = trn_native_bytes_dup (path, &length, answer);
  if (text == NULL)
    return;
  text = trn_byte_mark_take (text, &length);
  FILE *converted = text != NULL ? fmemopen (text, length, "rb") : NULL;
  if (converted != NULL)
    {
      read_obj (converted, facts, answer);
      fclose (converted);
    }
  else
    trn_answer_note (answer, TRN_NOTE_MEMORY, 0, 0, NULL);
  g_free (text);
}

void
trn_file_facts_read (const char *path, TrnFormat format, TrnFileFacts *facts, TrnAnswer *answer)
{
  *facts = (TrnFileFacts){ .roundings = ROUNDINGS_BINARY, .counted = TRUE };
  if (format == TRN_FORMAT_GLTF || format == TRN_FORMAT_GLB)
    {
      trn_gltf_facts_read (path, format, facts, answer);
      return;
    }
  if (format == TRN_FORMAT_DAE)
    {
      facts->torn = TRUE;
      trn_dae_facts_read (path, facts, answer);
      return;
    }
  if (format == TRN_FORMAT_FBX || format == TRN_FORMAT_IFC)
    {
      /* Numbers may be text, with exponents. */
      *facts = (TrnFileFacts){ .roundings = ROUNDINGS_EXPONENT,
                               .blended = format == TRN_FORMAT_FBX,
                               .torn = TRUE };
      return;
    }
  FILE *stream = fopen (path, "rbe");
  struct stat st;
  if (stream == NULL || fstat (fileno (stream), &st) != 0)
    {
      trn_answer_note (answer, TRN_NOTE_DAMAGED, 0, 0, "it cannot be read");
      return;
    }
  if (format == TRN_FORMAT_OBJ)
    read_obj_file (stream, path, facts, answer);
  else if (format == TRN_FORMAT_STL)
    read_stl (stream, (guint64)st.st_size, facts, answer);
  else
    read_ply (stream, (guint64)st.st_size, facts, answer);
  fclose (stream);
}
