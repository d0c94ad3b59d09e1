/* Any bytes as the answer of an import helper.
 *
 * The first byte chooses what was asked for and how the helper ends, the rest is what it wrote. The
 * helper's process is replaced by one that hands out these bytes (the functions of
 * helper-process.h, defined here), so that a run costs microseconds. There is a mesh, whole and
 * finite, or at least one error. */
#include "fuzz.h"

#include <glib/gstdio.h>
#include <math.h>
#include <string.h>
#include <unistd.h>

#include "helper-process.h"

struct _TrnHelperProcess
{
  const uint8_t *bytes;
  size_t left;
  int status;
};

static TrnHelperProcess helper;

char *
trn_helper_path_dup (void)
{
  return g_strdup ("replaced");
}

TrnHelperProcess *
trn_helper_process_new (const char *path, const char *model, const TrnImportLimits *limits,
                        gint64 deadline_us, const TrnProgress *progress, GError **error)
{
  return &helper;
}

void
trn_helper_process_free (TrnHelperProcess *process)
{
}

TrnPipeResult
trn_helper_process_read (TrnHelperProcess *process, void *bytes, gsize length)
{
  if (length > process->left)
    {
      process->left = 0;
      return TRN_PIPE_END;
    }
  if (length > 0)
    memcpy (bytes, process->bytes, length);
  process->bytes += length;
  process->left -= length;
  return TRN_PIPE_OK;
}

TrnPipeResult
trn_helper_process_wait (TrnHelperProcess *process, int *status)
{
  *status = process->status;
  return TRN_PIPE_OK;
}

/* A model to be hashed; what is in it does not matter. */
static const char *
model_get (void)
{
  static char *path;
  if (path == NULL)
    {
      int fd = g_file_open_tmp ("trunnion-fuzz-XXXXXX.stl", &path, NULL);
      g_assert_cmpint (fd, >=, 0);
      g_assert_cmpint (write (fd, "x", 1), ==, 1);
      close (fd);
    }
  return path;
}

/* The file lies about for as long as the process may need it. */
static void __attribute__ ((destructor)) model_remove (void)
{
  g_unlink (model_get ());
}

static void
check_mesh (const TrnMesh *mesh, const TrnImportLimits *limits)
{
  guint32 next = 0;
  g_assert_cmpuint (mesh->n_triangles, >, 0);
  g_assert_cmpuint (mesh->n_triangles, <=, limits->max_triangles);
  for (guint32 i = 0; i < mesh->n_triangles; i++)
    for (int k = 0; k < 3; k++)
      {
        g_assert_cmpuint (mesh->triangles[i].v[k], <, mesh->n_vertices);
        g_assert_true (trn_vec3_is_finite (mesh->vertices[mesh->triangles[i].v[k]]));
      }
  for (guint32 i = 0; i < mesh->n_parts; i++)
    {
      g_assert_cmpuint (mesh->parts[i].first, ==, next);
      g_assert_true (g_utf8_validate (mesh->parts[i].name, -1, NULL));
      next += mesh->parts[i].count;
    }
  g_assert_cmpuint (next, ==, mesh->n_triangles);
}

int
LLVMFuzzerTestOneInput (const uint8_t *bytes, size_t length)
{
  if (length == 0)
    return 0;
  const uint8_t choice = bytes[0];
  helper = (TrnHelperProcess){ .bytes = bytes + 1,
                               .left = length - 1,
                               .status = choice >= 216   ? 9
                                         : choice >= 198 ? 0x100
                                                         : 0 };
  TrnImportRequest request = { .path = model_get (),
                               .unit = (TrnLengthUnit)(choice % 6),
                               .up = (TrnUpAxis)(choice / 6 % 3) };
  const TrnImportLimits limits
      = { .memory_bytes = 1 << 24, .cpu_s = 1, .wall_s = 60, .max_triangles = 10000 };
  static const char *const parts[] = { "lug", NULL };
  if (choice >= 234)
    request.parts = parts;
  TrnImportReport report;
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_autoptr (TrnMesh) mesh = trn_import_mesh (&request, &limits, NULL, NULL, &report, diags);
  g_assert_cmpint (mesh == NULL, ==, trn_diags_have_errors (diags));
  if (mesh != NULL)
    check_mesh (mesh, &limits);
  return 0;
}
