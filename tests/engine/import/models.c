#include "models.h"

#include <string.h>

#define MISSING                                                                                    \
  "The folder " MODELS " is missing: install the package assimp-testmodels, as tools/test does."

static void
model_free (gpointer data)
{
  g_free (((Model *)data)->path);
  g_free (data);
}

static const char *const ends[] = { "obj", "stl", "ply", "gltf", "glb", "dae", "3ds",
                                    "dxf", "fbx", "amf", "ifc",  "3mf", "off" };

static gboolean
is_offered (const char *path)
{
  const char *dot = strrchr (path, '.');
  for (guint i = 0; dot != NULL && i < G_N_ELEMENTS (ends); i++)
    if (g_ascii_strcasecmp (dot + 1, ends[i]) == 0)
      return TRUE;
  return FALSE;
}

static void
list_folder (GPtrArray *models, const char *below)
{
  g_autofree char *folder = g_build_filename (MODELS, below, NULL);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;
  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path
          = *below != '\0' ? g_build_filename (below, name, NULL) : g_strdup (name);
      g_autofree char *full = g_build_filename (MODELS, path, NULL);
      if (g_file_test (full, G_FILE_TEST_IS_DIR))
        list_folder (models, path);
      else if (is_offered (path))
        {
          Model *model = g_new0 (Model, 1);
          model->path = g_steal_pointer (&path);
          g_ptr_array_add (models, model);
        }
    }
}

static int
compare_models (gconstpointer a, gconstpointer b)
{
  return strcmp ((*(Model *const *)a)->path, (*(Model *const *)b)->path);
}

GPtrArray *
models_new (void)
{
  GPtrArray *models = g_ptr_array_new_with_free_func (model_free);
  list_folder (models, "");
  g_ptr_array_sort (models, compare_models);
  if (models->len == 0)
    g_error (MISSING);
  return models;
}

static void
put_number (GByteArray *bytes, guint at, guint32 number)
{
  if (at + 4 <= bytes->len)
    memcpy (bytes->data + at, &number, 4);
}

/* Puts @text in the place of the bytes from @at to @stop. */
static void
replace (GByteArray *bytes, guint at, guint stop, const char *text)
{
  g_autoptr (GByteArray) rest = g_byte_array_new ();
  g_byte_array_append (rest, bytes->data + stop, bytes->len - stop);
  g_byte_array_set_size (bytes, at);
  g_byte_array_append (bytes, (const guint8 *)text, (guint)strlen (text));
  g_byte_array_append (bytes, rest->data, rest->len);
}

/* A run of digits becomes a large or another number: a count or a reference. */
static void
change_digits (GByteArray *bytes)
{
  static const char *const numbers[] = { "999999999", "4294967295", "-1", "0", "1", "7" };
  guint at = (guint)g_test_rand_int_range (0, (int)bytes->len);
  while (at < bytes->len && !g_ascii_isdigit (bytes->data[at]))
    at++;
  guint stop = at;
  while (stop < bytes->len && g_ascii_isdigit (bytes->data[stop]))
    stop++;
  if (at < stop)
    replace (bytes, at, stop, numbers[g_test_rand_int_range (0, G_N_ELEMENTS (numbers))]);
}

/* The first reference to another file from some place on leads elsewhere. FALSE: there is none. */
static gboolean
redirect (GByteArray *bytes)
{
  static const char *const marks[] = { "\"uri\"", "mtllib ", "<init_from>", "url=\"#" };
  static const char *const targets[] = { "../secret.bin",
                                         "/etc/hostname",
                                         "damaged.gltf",
                                         "file:///etc/hostname",
                                         "%2e%2e/secret.bin",
                                         "/dev/zero",
                                         "",
                                         "http://localhost/a.bin",
                                         "..\\..\\secret.bin" };
  guint from = (guint)g_test_rand_int_range (0, (int)bytes->len);
  const char *found = NULL;
  for (guint i = 0; i < 2 * G_N_ELEMENTS (marks) && found == NULL; i++)
    {
      const guint first = i < G_N_ELEMENTS (marks) ? from : 0;
      const char *mark = marks[i % G_N_ELEMENTS (marks)];
      found = memmem (bytes->data + first, bytes->len - first, mark, strlen (mark));
      if (found != NULL)
        found += strlen (mark);
    }
  if (found == NULL)
    return FALSE;
  guint at = (guint)(found - (const char *)bytes->data);
  while (at < bytes->len && strchr (" :\"", (char)bytes->data[at]) != NULL)
    at++;
  guint stop = at;
  while (stop < bytes->len && strchr ("\"<\r\n", (char)bytes->data[stop]) == NULL)
    stop++;
  replace (bytes, at, stop, targets[g_test_rand_int_range (0, G_N_ELEMENTS (targets))]);
  return TRUE;
}

static void
damage (GByteArray *bytes)
{
  static const guint32 counts[] = { 0xffffffff, 0x7fffffff, 0x80000000, 0x01000000, 0xffff };
  guint n = bytes->len, head = MIN (n, 512);
  int kind = g_test_rand_int_range (0, 6);
  if (kind == 5 && redirect (bytes))
    return;
  switch (kind)
    {
    case 0: /* cut short */
      g_byte_array_set_size (bytes, (guint)g_test_rand_int_range (1, (int)n + 1));
      break;
    case 1: /* bits turned */
      for (int k = g_test_rand_int_range (1, 65); k > 0; k--)
        bytes->data[g_test_rand_int_range (0, (int)n)] ^= 1 << g_test_rand_int_range (0, 8);
      break;
    case 2: /* bits of the head turned */
      for (int k = g_test_rand_int_range (1, 9); k > 0; k--)
        bytes->data[g_test_rand_int_range (0, (int)head)] ^= 1 << g_test_rand_int_range (0, 8);
      break;
    case 3: /* counts made large, references turned, in binary */
      put_number (bytes, (guint)g_test_rand_int_range (0, (int)n),
                  counts[g_test_rand_int_range (0, G_N_ELEMENTS (counts))]);
      break;
    default: /* and in text */
      for (int k = g_test_rand_int_range (1, 4); k > 0; k--)
        change_digits (bytes);
      break;
    }
}

/* The buffers that a damaged model may refer to, beside it. */
static void
copy_buffers (const Fixture *fixture, const char *path)
{
  g_autofree char *folder = g_path_get_dirname (path);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;
  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *from = g_build_filename (folder, name, NULL);
      g_autofree char *contents = NULL;
      gsize length;
      if ((g_str_has_suffix (name, ".bin") || g_str_has_suffix (name, ".mtl"))
          && g_file_get_contents (from, &contents, &length, NULL) && length < 1u << 20)
        fixture_write (fixture, name, contents, (gssize)length);
    }
}

const Model *
models_draw (const GPtrArray *models)
{
  for (;;)
    {
      const char *end = ends[g_test_rand_int_range (0, G_N_ELEMENTS (ends))];
      int first = g_test_rand_int_range (0, (int)models->len);
      for (guint i = 0; i < models->len; i++)
        {
          const Model *model = g_ptr_array_index (models, ((guint)first + i) % models->len);
          if (g_ascii_strcasecmp (strrchr (model->path, '.') + 1, end) == 0)
            return model;
        }
    }
}

char *
models_write_damaged (const Fixture *fixture, const Model *model)
{
  g_autofree char *path = g_build_filename (MODELS, model->path, NULL);
  g_autofree char *contents = NULL;
  gsize length;
  g_assert_true (g_file_get_contents (path, &contents, &length, NULL));
  if (length == 0 || length > 8u << 20)
    return NULL;
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  g_byte_array_append (bytes, (const guint8 *)contents, (guint)length);
  damage (bytes);
  const char *dot = strrchr (model->path, '.');
  char *name = g_strconcat ("damaged", dot, NULL);
  fixture_write (fixture, name, bytes->data, bytes->len);
  if (g_ascii_strcasecmp (dot, ".gltf") == 0 || g_ascii_strcasecmp (dot, ".obj") == 0)
    copy_buffers (fixture, path);
  return name;
}
