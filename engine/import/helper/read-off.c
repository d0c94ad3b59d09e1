/* OFF: a header with the numbers of vertices and faces, then a line for each of them.
 *
 * Format: the Object File Format of Geomview's manual, plain text of three dimensions; colours,
 * normals and texture coordinates are read over. The import library replaces an index that is out
 * of range by another one, drops faces of more than nine corners, and takes memory for as many
 * vertices as the header claims. */
#include "lines.h"
#include "native.h"
#include "number.h"

#include <math.h>
#include <string.h>

typedef struct
{
  TrnLines lines;
  TrnBuild *build;
  TrnAnswer *answer;
  guint64 size;
  gint64 n_vertices, n_faces;
  guint extra_numbers; /* that a vertex has besides x, y, z */
  gboolean coloured;   /* vertices have colours, of any number of numbers */
  double (*points)[3];
  guint32 *index_of;
  GArray *corners; /* of guint32 */
} Off;

static void
complain (Off *off, const char *what)
{
  if (!trn_answer_has_error (off->answer))
    trn_answer_note (off->answer, TRN_NOTE_DAMAGED, 0, 0, what);
}

/* The next line with something on it besides a comment, or NULL. */
static char *
next_line (Off *off)
{
  char *line;
  while ((line = trn_lines_next (&off->lines)) != NULL)
    {
      char *comment = strchr (line, '#');
      if (comment != NULL)
        *comment = '\0';
      line = g_strstrip (line);
      if (*line != '\0')
        return line;
    }
  return NULL;
}

/* What the keyword says of the vertices. Leaves @line behind it. FALSE after an error. */
static gboolean
read_keyword (Off *off, char **line)
{
  char *p = *line;
  if (g_str_has_prefix (p, "ST"))
    {
      off->extra_numbers += 2;
      p += 2;
    }
  if (*p == 'C')
    {
      off->coloured = TRUE;
      p++;
    }
  if (*p == 'N')
    {
      off->extra_numbers += 3;
      p++;
    }
  if (*p == '4' && g_str_has_prefix (p + 1, "OFF"))
    {
      trn_answer_note (off->answer, TRN_NOTE_UNSUPPORTED, 0, 0, "4OFF");
      return FALSE;
    }
  if (g_str_has_prefix (p, "OFF"))
    {
      p = g_strchug (p + 3);
      if (g_str_has_prefix (p, "BINARY"))
        {
          trn_answer_note (off->answer, TRN_NOTE_UNSUPPORTED, 0, 0, "OFF BINARY");
          return FALSE;
        }
    }
  else if (!g_ascii_isdigit (**line))
    {
      complain (off, "it does not begin with OFF");
      return FALSE;
    }
  *line = p;
  return TRUE;
}

/* FALSE after an error. */
static gboolean
read_header (Off *off)
{
  char *line = next_line (off);
  if (line == NULL)
    complain (off, "it does not begin with OFF");
  if (line == NULL || !read_keyword (off, &line))
    return FALSE;
  if (*line == '\0')
    line = next_line (off);
  const char *p = line != NULL ? line : "";
  off->n_vertices = trn_whole_parse (p, &p);
  off->n_faces = trn_whole_parse (p, &p);
  if (off->n_vertices < 0 || off->n_faces < 0)
    {
      complain (off, "the header has no numbers of vertices and faces");
      return FALSE;
    }
  /* A vertex takes six bytes at least, "0 0 0" and the end of the line; a face two. */
  if ((guint64)off->n_vertices > off->size / 5 || (guint64)off->n_faces > off->size / 2)
    {
      gboolean vertices = (guint64)off->n_vertices > off->size / 5;
      trn_answer_note (off->answer, TRN_NOTE_COUNT,
                       (double)(vertices ? off->n_vertices : off->n_faces), 0,
                       vertices ? "vertex" : "face");
      return FALSE;
    }
  return TRUE;
}

/* FALSE after an error. */
static gboolean
read_vertex (Off *off, double point[3])
{
  const char *p = next_line (off);
  for (int k = 0; p != NULL && k < 3; k++)
    {
      point[k] = trn_number_parse (p, &p);
      if (!isfinite (point[k]) || (*p != '\0' && *p != ' ' && *p != '\t'))
        p = NULL;
    }
  guint more = 0;
  while (p != NULL && *p != '\0')
    {
      const char *before = p;
      if (!isfinite (trn_number_parse (p, &p)) || p == before)
        p = NULL;
      more++;
    }
  if (p != NULL && (more == off->extra_numbers || (off->coloured && more > off->extra_numbers)))
    return TRUE;
  complain (off, "a line of a vertex does not have its numbers");
  return FALSE;
}

/* FALSE after an error. */
static gboolean
read_face (Off *off, guint part, const TrnBuildPoints *points)
{
  const char *p = next_line (off);
  gint64 n = p != NULL ? trn_whole_parse (p, &p) : -1;
  if (n < 1 || n > off->n_vertices * 4 + 16)
    {
      complain (off, p == NULL ? "it ends before its last face" : "a face has no corners");
      return FALSE;
    }
  g_array_set_size (off->corners, 0);
  for (gint64 i = 0; i < n; i++)
    {
      gint64 index = trn_whole_parse (p, &p);
      if (index < 0)
        {
          complain (off, "a face has fewer corners than it says");
          return FALSE;
        }
      guint32 corner = (guint32)MIN (index, G_MAXUINT32);
      g_array_append_val (off->corners, corner);
    }
  return trn_build_face (off->build, part, points, (const guint32 *)(void *)off->corners->data,
                         (guint32)n, FALSE);
}

static void
read_body (Off *off)
{
  off->points = g_try_malloc_n ((gsize)off->n_vertices + 1, sizeof *off->points);
  off->index_of = g_try_malloc0_n ((gsize)off->n_vertices + 1, sizeof *off->index_of);
  if (off->points == NULL || off->index_of == NULL)
    {
      trn_answer_note (off->answer, TRN_NOTE_MEMORY, 0, 0, NULL);
      return;
    }
  for (gint64 i = 0; i < off->n_vertices; i++)
    if (!read_vertex (off, off->points[i]))
      return;
  TrnBuildPoints points
      = { (const double (*)[3])off->points, (guint32)off->n_vertices, off->index_of };
  guint part = trn_build_part_get (off->build, "");
  for (gint64 i = 0; i < off->n_faces; i++)
    if (!read_face (off, part, &points))
      return;
  if (off->n_faces == 0)
    trn_build_drop (off->build, (guint64)off->n_vertices, 0);
  else if (next_line (off) != NULL)
    complain (off, "it goes on after its last face");
}

void
trn_read_off (const char *path, TrnBuild *build, TrnAnswer *answer)
{
  FILE *stream = fopen (path, "rbe");
  if (stream == NULL || fseeko (stream, 0, SEEK_END) != 0)
    {
      trn_answer_note (answer, TRN_NOTE_DAMAGED, 0, 0, "it cannot be read");
      return;
    }
  Off off = { .build = build, .answer = answer, .size = (guint64)ftello (stream) };
  rewind (stream);
  off.corners = g_array_new (FALSE, FALSE, sizeof (guint32));
  trn_lines_init (&off.lines, stream);
  if (read_header (&off))
    read_body (&off);
  trn_lines_clear (&off.lines);
  g_array_unref (off.corners);
  g_free (off.points);
  g_free (off.index_of);
  fclose (stream);
}
