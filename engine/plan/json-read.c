/* A strict reader of JSON (RFC 8259), by recursive descent.
 *
 * It builds the tree itself and leaves nothing to json-glib's parser, which overflows the stack on
 * deep nesting, wraps integers beyond 64 bits, turns 1e400 into an infinity, takes the last of
 * duplicate keys, cuts a text at \u0000, and accepts comments, single quotes and an empty text. One
 * reader also cannot disagree with another about what a text says.
 *
 * Depth, bytes and the size of the tree are limited, so that a hostile text ends in a message. */
#include "json-read.h"

#include <errno.h>
#include <fcntl.h>
#include <math.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define QUOTED_CHARACTERS 60

typedef struct
{
  const char *at, *end;
  const char *file;
  guint line, depth;
  gsize tree_bytes;
  GString *pointer; /* of the value that is being read */
  TrnJson *json;
  TrnDiags *diags;
} Scanner;

static JsonNode *read_value (Scanner *s);

void
trn_json_pointer_append (GString *pointer, const char *key)
{
  g_string_append_c (pointer, '/');
  for (const char *c = key; *c != '\0'; c++)
    if (*c == '~')
      g_string_append (pointer, "~0");
    else if (*c == '/')
      g_string_append (pointer, "~1");
    else
      g_string_append_c (pointer, *c);
}

void
trn_json_set_quoted (TrnDiag *diag, const char *name, const char *text)
{
  if (g_utf8_strlen (text, -1) <= QUOTED_CHARACTERS)
    {
      trn_diag_set_text (diag, name, text);
      return;
    }
  g_autofree char *head = g_utf8_substring (text, 0, QUOTED_CHARACTERS);
  g_autofree char *cut = g_strconcat (head, "…", NULL);
  trn_diag_set_text (diag, name, cut);
}

static TrnDiag *
fault (Scanner *s, const char *code)
{
  TrnDiag *diag = trn_diags_add (s->diags, TRN_SEVERITY_ERROR, code, s->pointer->str);
  trn_diag_set_file (diag, s->file, s->line);
  return diag;
}

/* A fault with which the reading goes on. */
static TrnDiag *
soft_fault (Scanner *s, const char *code)
{
  g_hash_table_add (s->json->faulty, g_strdup (s->pointer->str));
  return fault (s, code);
}

/* strchr alone would find the end mark, too: a NUL may stand in a hostile text. */
static gboolean
is_one_of (char c, const char *characters)
{
  return c != '\0' && strchr (characters, c) != NULL;
}

static void
skip_space (Scanner *s)
{
  for (; s->at < s->end && is_one_of (*s->at, " \t\r\n"); s->at++)
    s->line += *s->at == '\n';
}

/* The character at which the text is no JSON, and what to say about it. */
static TrnDiag *
fault_unexpected (Scanner *s, const char *code)
{
  if (s->at == s->end)
    return fault (s, "plan/json-cut");
  if (*s->at == '/' || *s->at == '#')
    code = "plan/json-comment";
  else if (*s->at == '\'')
    code = "plan/json-quote";
  else if ((guchar)*s->at < 0x20 || *s->at == 0x7f)
    code = "plan/json-control";
  TrnDiag *diag = fault (s, code);
  gunichar c = g_utf8_get_char (s->at);
  g_autofree char *found = g_unichar_isgraph (c) ? g_strndup (s->at, g_utf8_skip[(guchar)*s->at])
                                                 : g_strdup_printf ("U+%04X", c);
  trn_diag_set_text (diag, "found", found);
  return diag;
}

/* @line is where the value before ends: there the comma is to be put. */
static void
fault_no_comma (Scanner *s, guint line)
{
  const char *code = line < s->line ? "plan/json-missing-comma-above" : "plan/json-missing-comma";
  TrnDiag *diag
      = fault_unexpected (s, s->at < s->end && *s->at == ';' ? "plan/json-semicolon" : code);
  trn_diag_set_number (diag, "end-line", line, TRN_UNIT_COUNT);
}

/* Whether a digit follows a comma that follows a digit, with no space between: 0,5. */
static gboolean
is_decimal_comma (const Scanner *s)
{
  return s->at < s->end && g_ascii_isdigit (*s->at) && s->at[-1] == ','
         && g_ascii_isdigit (s->at[-2]);
}

/* Four hexadecimal digits; −1 where there are fewer. */
static int
read_hex (Scanner *s)
{
  int code = 0;
  for (int i = 0; i < 4; i++, s->at++)
    {
      if (s->at == s->end || !g_ascii_isxdigit (*s->at))
        return -1;
      code = code * 16 + g_ascii_xdigit_value (*s->at);
    }
  return code;
}

/* What follows a "\u". FALSE for a fault of grammar; @soft receives the code of any other. */
static gboolean
read_unicode_escape (Scanner *s, GString *text, const char **soft)
{
  int code = read_hex (s);
  if (code < 0)
    return FALSE;
  gunichar c = (gunichar)code;
  if (code >= 0xd800 && code < 0xdc00 && s->end - s->at >= 2 && s->at[0] == '\\' && s->at[1] == 'u')
    {
      const char *before = s->at;
      s->at += 2;
      int low = read_hex (s);
      if (low < 0)
        return FALSE;
      if (low >= 0xdc00 && low < 0xe000)
        c = 0x10000 + (((gunichar)code - 0xd800) << 10) + ((gunichar)low - 0xdc00);
      else
        s->at = before;
    }
  if (c == 0)
    *soft = "plan/json-zero";
  else if (c >= 0xd800 && c < 0xe000)
    *soft = "plan/json-surrogate";
  g_string_append_unichar (text, c == 0 || (c >= 0xd800 && c < 0xe000) ? 0xfffd : c);
  return TRUE;
}

static gboolean
read_escape (Scanner *s, GString *text, const char **soft)
{
  static const char from[] = "\"\\/bfnrt", to[] = "\"\\/\b\f\n\r\t";
  s->at++;
  if (s->at == s->end)
    return FALSE;
  char c = *s->at;
  if (c == 'u')
    {
      s->at++;
      return read_unicode_escape (s, text, soft);
    }
  const char *known = c != '\0' ? strchr (from, c) : NULL;
  if (known == NULL)
    return FALSE;
  s->at++;
  g_string_append_c (text, to[known - from]);
  return TRUE;
}

/* A string, from its opening quote. NULL for a fault of grammar, which is reported; @soft receives
 * the code of any other, which is not. */
static char *
read_text (Scanner *s, const char **soft)
{
  g_autoptr (GString) text = g_string_new (NULL);
  *soft = NULL;
  for (s->at++; s->at < s->end && *s->at != '"';)
    {
      if (*s->at == '\\')
        {
          if (read_escape (s, text, soft))
            continue;
          fault (s, s->at == s->end ? "plan/json-cut" : "plan/json-escape");
          return NULL;
        }
      if ((guchar)*s->at < 0x20)
        {
          fault_unexpected (s, "plan/json-control");
          return NULL;
        }
      g_string_append_c (text, *s->at++);
    }
  if (s->at == s->end)
    {
      fault (s, "plan/json-cut");
      return NULL;
    }
  s->at++;
  return g_string_free (g_steal_pointer (&text), FALSE);
}

/* Steps over digits; FALSE where there is none. */
static gboolean
skip_digits (const char **at, const char *end)
{
  const char *begin = *at;
  while (*at < end && g_ascii_isdigit (**at))
    (*at)++;
  return *at > begin;
}

/* Whether the whole of @at … @end is a number by the grammar; @whole: without fraction and
 * exponent. */
static gboolean
number_is_valid (const char *at, const char *end, gboolean *whole)
{
  *whole = TRUE;
  if (at < end && *at == '-')
    at++;
  if (at < end && *at == '0')
    at++;
  else if (!skip_digits (&at, end))
    return FALSE;
  if (at < end && *at == '.')
    {
      *whole = FALSE;
      at++;
      if (!skip_digits (&at, end))
        return FALSE;
    }
  if (at < end && (*at == 'e' || *at == 'E'))
    {
      *whole = FALSE;
      at++;
      if (at < end && (*at == '+' || *at == '-'))
        at++;
      if (!skip_digits (&at, end))
        return FALSE;
    }
  return at == end;
}

/* A word or number: what stands up to the next mark of punctuation or space. */
static char *
read_word (Scanner *s)
{
  const char *begin = s->at;
  while (s->at < s->end && (g_ascii_isalnum (*s->at) || is_one_of (*s->at, "+-._")))
    s->at++;
  return g_strndup (begin, (gsize)(s->at - begin));
}

static JsonNode *
read_number (Scanner *s)
{
  g_autofree char *word = read_word (s);
  gboolean whole;
  if (!number_is_valid (word, word + strlen (word), &whole))
    {
      trn_json_set_quoted (fault (s, "plan/json-number"), "text", word);
      return NULL;
    }
  gint64 integer;
  if (whole && g_ascii_string_to_signed (word, 10, G_MININT64, G_MAXINT64, &integer, NULL))
    return json_node_init_int (json_node_alloc (), integer);
  double number = g_ascii_strtod (word, NULL);
  if (!isfinite (number))
    trn_json_set_quoted (soft_fault (s, "plan/json-number-range"), "text", word);
  return json_node_init_double (json_node_alloc (), number);
}

static JsonNode *
read_literal (Scanner *s)
{
  g_autofree char *word = read_word (s);
  if (g_str_equal (word, "null"))
    return json_node_init_null (json_node_alloc ());
  if (g_str_equal (word, "true") || g_str_equal (word, "false"))
    return json_node_init_boolean (json_node_alloc (), word[0] == 't');
  trn_json_set_quoted (fault (s, "plan/json-word"), "text", word);
  return NULL;
}

static JsonNode *
read_string (Scanner *s)
{
  const char *soft;
  g_autofree char *text = read_text (s, &soft);
  if (text == NULL)
    return NULL;
  if (soft != NULL)
    soft_fault (s, soft);
  return json_node_init_string (json_node_alloc (), text);
}

/* The value of a member or element, with its pointer and line noted. */
static JsonNode *
read_child (Scanner *s, guint line)
{
  s->tree_bytes += 2 * s->pointer->len + 256;
  if (s->tree_bytes > TRN_JSON_MAX_TREE_BYTES)
    {
      trn_diag_set_number (fault (s, "plan/json-too-much"), "limit", TRN_JSON_MAX_TREE_BYTES,
                           TRN_UNIT_BYTES);
      return NULL;
    }
  if (!g_hash_table_contains (s->json->lines, s->pointer->str))
    g_hash_table_insert (s->json->lines, g_strdup (s->pointer->str), GUINT_TO_POINTER (line));
  return read_value (s);
}

/* What stands after an element: TRUE when another follows. @closed when the end mark was met. */
static gboolean
read_separator (Scanner *s, char end_mark, gboolean *closed)
{
  const guint line = s->line;
  skip_space (s);
  *closed = s->at < s->end && *s->at == end_mark;
  if (*closed)
    {
      s->at++;
      return FALSE;
    }
  if (s->at == s->end || *s->at != ',')
    {
      fault_no_comma (s, line);
      return FALSE;
    }
  s->at++;
  skip_space (s);
  if (s->at < s->end && *s->at == end_mark)
    {
      fault (s, "plan/json-trailing-comma");
      return FALSE;
    }
  return TRUE;
}

/* An empty array or object, or the first thing in one. */
static gboolean
read_opening (Scanner *s, char end_mark, gboolean *closed)
{
  s->at++;
  skip_space (s);
  *closed = s->at < s->end && *s->at == end_mark;
  if (*closed)
    s->at++;
  return !*closed;
}

static JsonNode *
read_array (Scanner *s)
{
  g_autoptr (JsonArray) array = json_array_new ();
  const gsize length = s->pointer->len;
  gboolean closed, more = read_opening (s, ']', &closed);
  for (guint i = 0; more; i++)
    {
      g_string_append_printf (s->pointer, "/%u", i);
      JsonNode *element = read_child (s, s->line);
      if (element == NULL)
        return NULL;
      g_string_truncate (s->pointer, length);
      json_array_add_element (array, element);
      more = read_separator (s, ']', &closed);
    }
  return closed ? json_node_init_array (json_node_alloc (), array) : NULL;
}

/* `"key": value`, from the key on. A second value for a key is read and dropped. */
static gboolean
read_member (Scanner *s, JsonObject *object)
{
  if (s->at == s->end || *s->at != '"')
    {
      fault_unexpected (s, is_decimal_comma (s) ? "plan/json-decimal-comma" : "plan/json-key");
      return FALSE;
    }
  const guint line = s->line;
  const char *soft;
  g_autofree char *key = read_text (s, &soft);
  if (key == NULL)
    return FALSE;
  trn_json_pointer_append (s->pointer, key);
  if (soft != NULL)
    soft_fault (s, soft);
  skip_space (s);
  if (s->at == s->end || *s->at != ':')
    {
      fault_unexpected (s, "plan/json-missing-colon");
      return FALSE;
    }
  s->at++;
  skip_space (s);
  const gboolean duplicate = json_object_has_member (object, key);
  if (duplicate)
    trn_json_set_quoted (fault (s, "plan/json-duplicate"), "key", key);
  JsonNode *value = read_child (s, line);
  if (value == NULL)
    return FALSE;
  if (duplicate)
    json_node_unref (value);
  else
    json_object_set_member (object, key, value);
  return TRUE;
}

static JsonNode *
read_object (Scanner *s)
{
  g_autoptr (JsonObject) object = json_object_new ();
  const gsize length = s->pointer->len;
  gboolean closed, more = read_opening (s, '}', &closed);
  while (more)
    {
      if (!read_member (s, object))
        return NULL;
      g_string_truncate (s->pointer, length);
      more = read_separator (s, '}', &closed);
    }
  return closed ? json_node_init_object (json_node_alloc (), object) : NULL;
}

static JsonNode *
read_container (Scanner *s)
{
  if (s->depth == TRN_JSON_MAX_DEPTH)
    {
      trn_diag_set_number (fault (s, "plan/json-depth"), "limit", TRN_JSON_MAX_DEPTH,
                           TRN_UNIT_COUNT);
      return NULL;
    }
  s->depth++;
  JsonNode *node = *s->at == '{' ? read_object (s) : read_array (s);
  s->depth--;
  return node;
}

static JsonNode *
read_value (Scanner *s)
{
  if (s->at == s->end)
    {
      fault (s, "plan/json-cut");
      return NULL;
    }
  const char c = *s->at;
  if (c == '{' || c == '[')
    return read_container (s);
  if (c == '"')
    return read_string (s);
  if (g_ascii_isdigit (c) || c == '-' || c == '+' || c == '.')
    return read_number (s);
  if (g_ascii_isalpha (c) || c == '_')
    return read_literal (s);
  fault_unexpected (s, "plan/json-unexpected");
  return NULL;
}

static guint
line_of (const char *bytes, const char *at)
{
  guint line = 1;
  for (const char *c = bytes; c < at; c++)
    line += *c == '\n';
  return line;
}

/* What rules the text out as a whole: size, byte order mark, encoding. */
static gboolean
check_bytes (Scanner *s, const char *bytes, gsize length)
{
  if (length > TRN_JSON_MAX_BYTES)
    {
      s->line = 0;
      trn_diag_set_number (fault (s, "plan/json-too-long"), "limit", TRN_JSON_MAX_BYTES,
                           TRN_UNIT_BYTES);
      return FALSE;
    }
  if (length >= 3 && memcmp (bytes, "\xef\xbb\xbf", 3) == 0)
    {
      fault (s, "plan/json-mark");
      return FALSE;
    }
  /* A NUL counts as valid UTF-8 here and is found as a control character later. */
  const char *at = bytes, *end = bytes + length;
  while (!g_utf8_validate_len (at, (gsize)(end - at), &at))
    {
      if (*at != '\0')
        {
          s->line = line_of (bytes, at);
          trn_diag_set_number (fault (s, "plan/json-encoding"), "byte", (double)(at - bytes) + 1,
                               TRN_UNIT_COUNT);
          return FALSE;
        }
      at++;
    }
  return TRUE;
}

static JsonNode *
read_document (Scanner *s)
{
  skip_space (s);
  if (s->at == s->end)
    {
      fault (s, "plan/json-empty");
      return NULL;
    }
  g_autoptr (JsonNode) root = read_child (s, s->line);
  if (root == NULL)
    return NULL;
  skip_space (s);
  if (s->at < s->end)
    {
      fault_unexpected (s, "plan/json-after-end");
      return NULL;
    }
  return g_steal_pointer (&root);
}

gboolean
trn_json_read (const char *bytes, gsize length, const char *file, TrnJson *json, TrnDiags *diags)
{
  *json = (TrnJson){
    .lines = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL),
    .faulty = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL),
  };
  g_autoptr (GString) pointer = g_string_new (NULL);
  bytes = bytes != NULL ? bytes : ""; /* of an empty file */
  Scanner s = { .at = bytes, .end = bytes + length, .file = file, .line = 1 };
  s.pointer = pointer;
  s.json = json;
  s.diags = diags;
  if (check_bytes (&s, bytes, length))
    json->root = read_document (&s);
  return json->root != NULL;
}

void
trn_json_clear (TrnJson *json)
{
  g_clear_pointer (&json->root, json_node_unref);
  g_clear_pointer (&json->lines, g_hash_table_unref);
  g_clear_pointer (&json->faulty, g_hash_table_unref);
}

/* The file, open; a pipe or a device is not waited for. -1 with errno set, ENODEV where it is no
 * plain file. */
static int
open_file (const char *path)
{
  struct stat st;
  const int fd = open (path, O_RDONLY | O_CLOEXEC | O_NONBLOCK | O_NOCTTY);
  if (fd < 0)
    return -1;
  const int error = fstat (fd, &st) != 0 ? errno : S_ISREG (st.st_mode) ? 0 : ENODEV;
  if (error == 0)
    return fd;
  close (fd);
  errno = error;
  return -1;
}

/* NULL with errno set. */
static GByteArray *
read_bytes (const char *path)
{
  const int fd = open_file (path);
  if (fd < 0)
    return NULL;
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  guint8 buffer[65536];
  gssize n = 1;
  while (n != 0 && bytes->len <= TRN_JSON_MAX_BYTES)
    {
      n = read (fd, buffer, sizeof buffer);
      if (n < 0 && errno != EINTR)
        break;
      if (n > 0)
        g_byte_array_append (bytes, buffer, (guint)n);
    }
  const int error = errno;
  close (fd);
  errno = error;
  return n < 0 ? NULL : g_steal_pointer (&bytes);
}

GByteArray *
trn_json_load (const char *path, TrnDiags *diags)
{
  GByteArray *bytes = read_bytes (path);
  if (bytes == NULL)
    {
      const int error = errno;
      const gboolean is_no_file = error == ENODEV || error == ENXIO; /* ENXIO: a socket */
      const char *code = is_no_file ? "plan/no-file" : "plan/cannot-read";
      TrnDiag *diag = trn_diags_add (diags, TRN_SEVERITY_ERROR, code, NULL);
      trn_diag_set_file (diag, path, 0);
      trn_diag_set_text (diag, "file", path);
      if (!is_no_file)
        trn_diag_set_text (diag, "reason", g_strerror (error));
    }
  return bytes;
}

guint
trn_json_line_find (GHashTable *lines, const char *pointer)
{
  g_autofree char *place = g_strdup (pointer);
  for (;;)
    {
      gpointer line = g_hash_table_lookup (lines, place);
      char *slash = strrchr (place, '/');
      if (line != NULL || slash == NULL)
        return GPOINTER_TO_UINT (line);
      *slash = '\0';
    }
}
