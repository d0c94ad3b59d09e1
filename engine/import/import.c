#include "import.h"
#include "answer-read.h"
#include "file-hash.h"
#include "formats.h"
#include "helper-process.h"
#include "stream.h"
#include "tolerances.h"
#include "wanted-parts.h"

#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

/* What a file counts for in the progress of a job, and its stages: the digest, the wait for the
 * helper's answer, and its transfer; the rest is what the parent makes of it. */
#define STEPS 9
#define HASH_STEPS 2
#define TRANSFER_STEPS 2
/* A unit that went through single precision is the same. */
#define UNIT_SAME 1e-7

/* One call of trn_import_mesh. */
typedef struct
{
  const TrnImportRequest *request;
  TrnImportLimits limits;
  TrnProgress *progress;
  gint *steps; /* that are done */
  gint64 deadline_us;
  TrnDiags *diags;
} Job;

static void
referred_clear (gpointer data)
{
  g_free (((TrnImportReferred *)data)->name);
}

GArray *
trn_import_referred_new (void)
{
  GArray *referred = g_array_new (FALSE, FALSE, sizeof (TrnImportReferred));
  g_array_set_clear_func (referred, referred_clear);
  return referred;
}

TrnImportLimits
trn_import_limits_default (void)
{
  return (TrnImportLimits){
    .memory_bytes = (gsize)2 << 30, .cpu_s = 30, .wall_s = 60, .max_triangles = 20000000
  };
}

static const char *const unit_names[] = { "", "m", "mm", "cm", "ft", "in" };

TrnLengthUnit
trn_length_unit_from_name (const char *name)
{
  for (guint i = TRN_LENGTH_M; i < G_N_ELEMENTS (unit_names); i++)
    if (g_strcmp0 (name, unit_names[i]) == 0)
      return (TrnLengthUnit)i;
  return TRN_LENGTH_UNDECLARED;
}

double
trn_length_unit_metres (TrnLengthUnit unit)
{
  static const double metres[] = { 0, 1, 0.001, 0.01, 0.3048, 0.0254 };
  g_assert (unit > TRN_LENGTH_UNDECLARED && unit < G_N_ELEMENTS (metres));
  return metres[unit];
}

static void
step (const Job *job, gint steps)
{
  *job->steps += steps;
  trn_progress_add_done (job->progress, steps);
}

static TrnDiag *
add (const Job *job, TrnSeverity severity, const char *code)
{
  TrnDiag *diag = trn_diags_add (job->diags, severity, code, NULL);
  trn_diag_set_file (diag, job->request->path, 0);
  return diag;
}

static void
add_error_text (const Job *job, const char *code, const char *name, const char *text)
{
  trn_diag_set_text (add (job, TRN_SEVERITY_ERROR, code), name, text);
}

static void
add_timeout (const Job *job)
{
  trn_diag_set_number (add (job, TRN_SEVERITY_ERROR, "import/wall-time"), "limit",
                       job->limits.wall_s, TRN_UNIT_S);
}

static void
add_pipe_error (const Job *job, TrnPipeResult result)
{
  if (result == TRN_PIPE_CANCELLED)
    add (job, TRN_SEVERITY_ERROR, "import/cancelled");
  else
    add_timeout (job);
}

/* The file, open, or −1 after an error. */
static int
open_model (const Job *job, struct stat *st)
{
  int fd = open (job->request->path, O_RDONLY | O_CLOEXEC | O_NONBLOCK | O_NOCTTY);
  if (fd < 0)
    {
      add_error_text (job, "import/cannot-open", "reason", g_strerror (errno));
      return -1;
    }
  const char *fault = NULL;
  if (fstat (fd, st) != 0 || !S_ISREG (st->st_mode))
    fault = "import/no-file";
  else if (st->st_size == 0)
    fault = "import/empty";
  if (fault == NULL)
    return fd;
  add (job, TRN_SEVERITY_ERROR, fault);
  close (fd);
  return -1;
}

/* FALSE after an error. */
static gboolean
hash_file (const Job *job, int fd, char sha256[65])
{
  int reason = 0;
  switch (trn_file_hash (fd, job->progress, job->deadline_us, sha256, &reason))
    {
    case TRN_HASH_OK:
      return TRUE;
    case TRN_HASH_CANCELLED:
      add (job, TRN_SEVERITY_ERROR, "import/cancelled");
      return FALSE;
    case TRN_HASH_TIMEOUT:
      add_timeout (job);
      return FALSE;
    case TRN_HASH_UNREADABLE:
      add_error_text (job, "import/cannot-open", "reason", g_strerror (reason));
      return FALSE;
    }
  g_assert_not_reached ();
}

/* One note of the helper's: its code, its severity by its number, and the names of its values. */
static const struct
{
  const char *code, *text, *numbers[2];
} note_words[] = {
  [TRN_NOTE_DAMAGED] = { "import/damaged", "reason", { NULL, NULL } },
  [TRN_NOTE_MEMORY] = { "import/memory", NULL, { NULL, NULL } },
  [TRN_NOTE_TOO_MANY] = { "import/too-many-triangles", NULL, { "triangles", NULL } },
  [TRN_NOTE_NO_FACES] = { "import/no-faces", NULL, { NULL, NULL } },
  [TRN_NOTE_FILM_ONLY] = { "import/film-only", NULL, { "looks", "animations" } },
  [TRN_NOTE_NONE_PLACED] = { "import/none-placed", NULL, { "meshes", NULL } },
  [TRN_NOTE_POINTS_ONLY] = { "import/points-only", NULL, { "points", "lines" } },
  [TRN_NOTE_OUTSIDE_FOLDER] = { "import/outside-folder", "reference", { NULL, NULL } },
  [TRN_NOTE_REFERENCE_MISSING] = { "import/reference-missing", "reference", { NULL, NULL } },
  [TRN_NOTE_NOT_FINITE] = { "import/not-finite", "mesh", { NULL, NULL } },
  [TRN_NOTE_INDEX_RANGE] = { "import/index-range", "mesh", { "index", "count" } },
  [TRN_NOTE_FACES_LOST] = { "import/faces-lost", NULL, { "in_file", "read" } },
  [TRN_NOTE_POLYGON] = { "import/polygon", "mesh", { "corners", NULL } },
  [TRN_NOTE_TRANSFORM] = { "import/transform", "node", { NULL, NULL } },
  [TRN_NOTE_UNSUPPORTED] = { "import/unsupported", "feature", { NULL, NULL } },
  [TRN_NOTE_COUNT] = { "import/count", "element", { "count", NULL } },
  [TRN_NOTE_DROPPED] = { "import/dropped", NULL, { "points", "lines" } },
  [TRN_NOTE_UNUSED] = { "import/unused", NULL, { "meshes", NULL } },
  [TRN_NOTE_READER] = { "import/reader", "text", { "times", NULL } },
  [TRN_NOTE_UNCONFINED] = { "import/unconfined", "reason", { NULL, NULL } },
  [TRN_NOTE_NOT_COUNTED] = { "import/not-counted", NULL, { NULL, NULL } },
  [TRN_NOTE_BENT] = { "import/bent", NULL, { "polygons", NULL } },
  [TRN_NOTE_ANIMATED] = { "import/animated", NULL, { NULL, NULL } },
  [TRN_NOTE_EXPERIMENTAL] = { "import/experimental", "format", { NULL, NULL } },
};

static void
add_notes (const Job *job, const TrnReadAnswer *answer)
{
  for (guint i = 0; i < answer->notes->len; i++)
    {
      const TrnReadNote *note = &g_array_index (answer->notes, TrnReadNote, i);
      guint32 code = note->head.code;
      /* The first when the unit is known, the second when all is. */
      if (code == TRN_NOTE_WARPED || code == TRN_NOTE_REFERRED)
        continue;
      TrnDiag *diag
          = add (job, trn_note_is_error (code) ? TRN_SEVERITY_ERROR : TRN_SEVERITY_WARNING,
                 note_words[code].code);
      if (note_words[code].text != NULL)
        trn_diag_set_text (diag, note_words[code].text, note->text);
      for (int k = 0; k < 2; k++)
        if (note_words[code].numbers[k] != NULL)
          trn_diag_set_number (diag, note_words[code].numbers[k], note->head.numbers[k],
                               TRN_UNIT_COUNT);
      if (code == TRN_NOTE_TOO_MANY)
        trn_diag_set_number (diag, "limit", job->limits.max_triangles, TRN_UNIT_COUNT);
      if (code == TRN_NOTE_MEMORY)
        trn_diag_set_number (diag, "limit", (double)job->limits.memory_bytes, TRN_UNIT_BYTES);
    }
}

/* Waits for the helper's end. FALSE after an error. */
static gboolean
end_helper (const Job *job, TrnHelperProcess *process, gboolean answered)
{
  int status = 0;
  TrnPipeResult result = trn_helper_process_wait (process, &status);
  if (result != TRN_PIPE_OK)
    {
      add_pipe_error (job, result);
      return FALSE;
    }
  if (WIFSIGNALED (status) && WTERMSIG (status) == SIGXCPU)
    trn_diag_set_number (add (job, TRN_SEVERITY_ERROR, "import/cpu-time"), "limit",
                         job->limits.cpu_s, TRN_UNIT_S);
  else if (WIFSIGNALED (status))
    add_error_text (job, "import/crashed", "signal", g_strsignal (WTERMSIG (status)));
  else if (WEXITSTATUS (status) != 0)
    trn_diag_set_number (add (job, TRN_SEVERITY_ERROR, "import/helper-failed"), "status",
                         WEXITSTATUS (status), TRN_UNIT_NONE);
  else if (!answered)
    add_error_text (job, "import/bad-answer", "fault", "too short");
  else
    return TRUE;
  return FALSE;
}

/* FALSE after an error. */
static gboolean
ask_helper (const Job *job, TrnReadAnswer *answer)
{
  g_autofree char *helper = trn_helper_path_dup ();
  if (helper == NULL)
    {
      add (job, TRN_SEVERITY_ERROR, "import/no-helper");
      return FALSE;
    }
  g_autoptr (GError) error = NULL;
  g_autoptr (TrnHelperProcess) process = trn_helper_process_new (
      helper, job->request->path, &job->limits, job->deadline_us, job->progress, &error);
  if (process == NULL)
    {
      add_error_text (job, "import/cannot-start", "reason", error->message);
      return FALSE;
    }
  const char *fault = NULL;
  TrnPipeResult result
      = trn_read_answer_read (answer, process, &job->limits, job->progress, &fault);
  if (answer->began)
    *job->steps += TRN_READ_STEPS;
  if (result == TRN_PIPE_OK && fault == NULL)
    step (job, TRANSFER_STEPS);
  if (fault != NULL)
    {
      add_error_text (job, "import/bad-answer", "fault", fault);
      return FALSE;
    }
  if (result == TRN_PIPE_CANCELLED || result == TRN_PIPE_TIMEOUT)
    {
      add_pipe_error (job, result);
      return FALSE;
    }
  if (!end_helper (job, process, result == TRN_PIPE_OK))
    return FALSE;
  add_notes (job, answer);
  return answer->header.n_triangles > 0;
}

static void
add_contradiction (const Job *job, const char *code, const char *declared, const char *given)
{
  TrnDiag *diag = add (job, TRN_SEVERITY_WARNING, code);
  trn_diag_set_text (diag, "declared", declared);
  trn_diag_set_text (diag, "given", given);
}

/* How large the body would be in each unit helps to tell which one it is. */
static void
add_unit_missing (const Job *job, const TrnReadAnswer *answer)
{
  TrnBox box = trn_box_empty ();
  for (guint32 i = 0; i < answer->header.n_triangles; i++)
    for (int k = 0; k < 3; k++)
      trn_box_add_point (&box, answer->vertices[answer->triangles[i].v[k]]);
  TrnVec3 size = trn_box_size (&box);
  TrnDiag *diag = add (job, TRN_SEVERITY_ERROR, "import/unit-missing");
  for (guint u = TRN_LENGTH_M; u < G_N_ELEMENTS (unit_names); u++)
    trn_diag_set_number (diag, unit_names[u],
                         trn_vec3_max_abs (size) * trn_length_unit_metres ((TrnLengthUnit)u),
                         TRN_UNIT_M);
}

static gboolean
is_other_unit (const TrnStreamHeader *header, double metres)
{
  double declared = header->metres_per_unit;
  return declared > 0 && fabs (declared - metres) > UNIT_SAME * metres;
}

/* What was given decides; what the file declares fills in. FALSE after an error. */
static gboolean
settle_frame (const Job *job, const TrnReadAnswer *answer, double *metres, gboolean *y_up)
{
  const TrnImportRequest *request = job->request;
  const TrnStreamHeader *header = &answer->header;
  double declared = header->metres_per_unit;
  *metres = declared;
  if (request->unit != TRN_LENGTH_UNDECLARED)
    *metres = trn_length_unit_metres (request->unit);
  *y_up = header->up == TRN_STREAM_UP_Y;
  if (request->up != TRN_UP_UNDECLARED)
    *y_up = request->up == TRN_UP_Y;

  if (is_other_unit (header, *metres))
    {
      char buffer[G_ASCII_DTOSTR_BUF_SIZE];
      const char *name = g_ascii_dtostr (buffer, sizeof buffer, declared);
      for (guint u = TRN_LENGTH_M; u < G_N_ELEMENTS (unit_names); u++)
        if (declared == trn_length_unit_metres ((TrnLengthUnit)u))
          name = unit_names[u];
      add_contradiction (job, "import/unit-contradicts", name, unit_names[request->unit]);
    }
  if (header->up != TRN_STREAM_UP_NONE && *y_up != (header->up == TRN_STREAM_UP_Y))
    add_contradiction (job, "import/up-contradicts", header->up == TRN_STREAM_UP_Y ? "y" : "z",
                       *y_up ? "y" : "z");
  gboolean unit_known = *metres > 0;
  gboolean up_known = request->up != TRN_UP_UNDECLARED || header->up != TRN_STREAM_UP_NONE;
  if (request->look_only)
    {
      *metres = unit_known ? *metres : 1;
      return TRUE;
    }
  if (!unit_known)
    add_unit_missing (job, answer);
  if (!up_known)
    add (job, TRN_SEVERITY_ERROR, "import/up-missing");
  return unit_known && up_known;
}

/* FALSE after an error. */
static gboolean
check_precision (const Job *job, const TrnStreamHeader *header, double metres)
{
  if (job->request->look_only || header->loss * metres <= TRN_IMPORT_LOSS_M)
    return TRUE;
  TrnDiag *diag = add (job, TRN_SEVERITY_ERROR, "import/precision");
  trn_diag_set_number (diag, "loss", header->loss * metres, TRN_UNIT_M);
  trn_diag_set_number (diag, "largest", header->largest * metres, TRN_UNIT_M);
  trn_diag_set_number (diag, "limit", TRN_IMPORT_LOSS_M, TRN_UNIT_M);
  return FALSE;
}

/* Which way a polygon that is not flat was meant to be cut no file says, so its surface may lie
 * elsewhere by as much as it is from flat. Returns the most that one is; says so where it matters.
 */
static double
find_warp (const Job *job, const TrnReadAnswer *answer, double metres)
{
  double most_m = 0;
  for (guint i = 0; i < answer->notes->len; i++)
    {
      const TrnReadNote *note = &g_array_index (answer->notes, TrnReadNote, i);
      if (note->head.code != TRN_NOTE_WARPED)
        continue;
      double warp_m = note->head.numbers[0] * metres;
      most_m = fmax (most_m, warp_m);
      if (!(warp_m > TRN_IMPORT_LOSS_M))
        continue;
      TrnDiag *diag = add (job, TRN_SEVERITY_WARNING, "import/warped");
      trn_diag_set_text (diag, "mesh", note->text);
      trn_diag_set_number (diag, "warp", warp_m, TRN_UNIT_M);
    }
  return most_m;
}

static TrnMesh *
make_mesh (TrnReadAnswer *answer, double metres, gboolean y_up)
{
  for (guint32 i = 0; i < answer->header.n_vertices; i++)
    {
      TrnVec3 p = trn_vec3_scale (answer->vertices[i], metres);
      /* Adding zero makes the negative zero of −z an ordinary one. */
      answer->vertices[i] = y_up ? trn_vec3_make (p.x, -p.z + 0.0, p.y) : p;
    }
  guint32 n_parts = answer->header.n_parts;
  answer->header.n_parts = 0;
  return trn_mesh_new_take (g_steal_pointer (&answer->vertices), answer->header.n_vertices,
                            g_steal_pointer (&answer->triangles), answer->header.n_triangles,
                            g_steal_pointer (&answer->parts), n_parts);
}

/* ---- putting right ---- */

static void
say_count (const Job *job, const char *code, guint32 count)
{
  if (count > 0)
    trn_diag_set_number (add (job, TRN_SEVERITY_WARNING, code), "count", count, TRN_UNIT_COUNT);
}

static void
say_repair (const Job *job, const TrnImportReport *report)
{
  say_count (job, "import/pieces-turned", report->repair.flipped_pieces);
  say_count (job, "import/duplicates-dropped", report->repair.duplicate);
  say_count (job, "import/lines-dropped", report->repair.degenerate);
}

/* Consumes @mesh and fills in what the report says of the surface. */
static TrnMesh *
put_right (TrnMesh *mesh, TrnImportReport *report)
{
  g_autoptr (TrnMeshCheck) check = trn_mesh_check_new (mesh);
  TrnMesh *repaired = trn_mesh_repair (mesh, check, &report->repair);
  report->n_parts = repaired->n_parts;
  report->n_triangles = repaired->n_triangles;
  report->size_m = trn_box_size (&repaired->box);
  report->n_holes = check->n_holes;
  report->largest_hole_m = check->largest_hole_m;
  report->closed = check->closed;
  if (repaired == mesh)
    trn_mesh_take_check (mesh, g_steal_pointer (&check));
  trn_mesh_unref (mesh);
  return repaired;
}

static gboolean
is_same_file (const char *path, const struct stat *before)
{
  struct stat after;
  return stat (path, &after) == 0 && after.st_dev == before->st_dev
         && after.st_ino == before->st_ino && after.st_size == before->st_size
         && after.st_mtim.tv_sec == before->st_mtim.tv_sec
         && after.st_mtim.tv_nsec == before->st_mtim.tv_nsec
         && after.st_ctim.tv_sec == before->st_ctim.tv_sec
         && after.st_ctim.tv_nsec == before->st_ctim.tv_nsec;
}

/* ---- read before ---- */

typedef struct
{
  TrnMesh *mesh;
  TrnImportReport report;
} Kept;

static void
kept_clear (gpointer data)
{
  trn_mesh_unref (((Kept *)data)->mesh);
}

/* All that a mesh depends on where its file refers to no other: names of parts may come from that
 * of the file, and what a link leads to decides which names are refused. */
static TrnCacheKey *
key_new (const Job *job, const char *sha256)
{
  const TrnImportRequest *request = job->request;
  g_autofree char *resolved = realpath (request->path, NULL);
  TrnCacheKey *key = trn_cache_key_new (TRN_CACHE_FILE);
  trn_cache_key_add_text (key, sha256);
  trn_cache_key_add_text (key, request->path);
  trn_cache_key_add_text (key, resolved != NULL ? resolved : "");
  trn_cache_key_add_number (key, request->unit);
  trn_cache_key_add_number (key, request->up);
  trn_cache_key_add_number (key, request->look_only);
  for (guint i = 0; request->parts != NULL && request->parts[i] != NULL; i++)
    trn_cache_key_add_text (key, request->parts[i]);
  trn_cache_key_add_number (key, job->limits.memory_bytes);
  trn_cache_key_add_number (key, job->limits.cpu_s);
  trn_cache_key_add_number (key, job->limits.wall_s);
  trn_cache_key_add_number (key, job->limits.max_triangles);
  return key;
}

static TrnMesh *
find_kept (const Job *job, const TrnCacheKey *key, TrnImportReport *report)
{
  Kept *kept = trn_cache_get (job->request->cache, key);
  if (kept == NULL)
    return NULL;
  TrnMesh *mesh = trn_mesh_ref (kept->mesh);
  *report = kept->report;
  g_atomic_rc_box_release_full (kept, kept_clear);
  return mesh;
}

static void
keep (const Job *job, const TrnCacheKey *key, TrnMesh *mesh, const TrnImportReport *report)
{
  Kept *kept = g_atomic_rc_box_new0 (Kept);
  kept->mesh = trn_mesh_ref (mesh);
  kept->report = *report;
  trn_cache_put (job->request->cache, key, kept, kept_clear, 0);
  g_atomic_rc_box_release_full (kept, kept_clear);
}

static void
report_header (TrnImportReport *report, const TrnStreamHeader *header, double metres, gboolean y_up)
{
  *report = (TrnImportReport){ .metres_per_unit = metres,
                               .unit_declared = header->metres_per_unit > 0,
                               .up_declared = header->up != TRN_STREAM_UP_NONE,
                               .unit_overruled = is_other_unit (header, metres),
                               .up_overruled = header->up != TRN_STREAM_UP_NONE
                                               && (header->up == TRN_STREAM_UP_Y) != y_up,
                               .y_up = y_up,
                               .counted = header->counted == 1,
                               .confined = header->confined,
                               .loss_m = header->loss * metres,
                               .largest_m = header->largest * metres,
                               .joined = header->joined };
}

/* One file that was read beside the model. The helper may have been taken over, so its name is
 * opened in the model's folder alone; and what is there now must be what the helper has read, of
 * which the digest is. FALSE after an error. */
static gboolean
hash_other (const Job *job, const char *note)
{
  const char *name = trn_stream_referred_get (note);
  TrnImportReferred referred;
  int fd = trn_file_open_beside (job->request->path, name);
  if (fd < 0)
    {
      add_error_text (job, "import/reference-missing", "reference", name);
      return FALSE;
    }
  gboolean hashed = hash_file (job, fd, referred.sha256);
  close (fd);
  if (!hashed)
    return FALSE;
  if (strncmp (note, referred.sha256, TRN_STREAM_DIGEST) != 0)
    {
      add_error_text (job, "import/reference-changed", "reference", name);
      return FALSE;
    }
  if (job->request->referred == NULL)
    return TRUE;
  GArray *all = job->request->referred;
  g_array_append_val (all, referred);
  g_array_index (all, TrnImportReferred, all->len - 1).name = g_strdup (name);
  return TRUE;
}

/* FALSE after an error. */
static gboolean
hash_referred (const Job *job, const TrnReadAnswer *answer)
{
  for (guint i = 0; i < answer->notes->len; i++)
    {
      const TrnReadNote *note = &g_array_index (answer->notes, TrnReadNote, i);
      if (note->head.code == TRN_NOTE_REFERRED && !hash_other (job, note->text))
        return FALSE;
    }
  return TRUE;
}

/* NULL after an error. */
static TrnMesh *
read_mesh (const Job *job, const struct stat *st, const TrnCacheKey *key, TrnImportReport *report)
{
  guint n_diags = job->diags->items->len;
  g_autoptr (TrnReadAnswer) answer = trn_read_answer_new ();
  double metres;
  gboolean y_up;
  if (!ask_helper (job, answer) || !settle_frame (job, answer, &metres, &y_up)
      || !check_precision (job, &answer->header, metres))
    return NULL;
  if (!is_same_file (job->request->path, st))
    {
      add (job, TRN_SEVERITY_ERROR, "import/changed");
      return NULL;
    }
  if (!hash_referred (job, answer))
    return NULL;
  report_header (report, &answer->header, metres, y_up);
  report->warp_m = find_warp (job, answer, metres);
  const gboolean alone = answer->header.alone == 1;
  g_autoptr (TrnMesh) whole = make_mesh (answer, metres, y_up);
  const char *const *parts = job->request->parts;
  if (!trn_wanted_parts_check (parts, whole, job->request->path, job->diags))
    return NULL;
  TrnMesh *mesh = put_right (trn_wanted_parts_take (parts, g_steal_pointer (&whole)), report);
  /* A file of which the helper had something to say is read again, to say it again. */
  if (alone && job->diags->items->len == n_diags)
    keep (job, key, mesh, report);
  return mesh;
}

/* NULL after an error. */
static TrnMesh *
import_mesh (const Job *job, char sha256[65], TrnImportReport *report)
{
  const char *path = job->request->path;
  if (trn_format_from_path (path) == TRN_FORMAT_UNKNOWN)
    {
      const char *extension = trn_format_extension_get (path);
      if (*extension == '\0')
        add (job, TRN_SEVERITY_ERROR, "import/no-extension");
      else
        add_error_text (job, "import/format", "extension", extension);
      return NULL;
    }
  struct stat st;
  int fd = open_model (job, &st);
  if (fd < 0)
    return NULL;
  char hash[65];
  gboolean hashed = hash_file (job, fd, hash);
  close (fd);
  if (!hashed)
    return NULL;
  step (job, HASH_STEPS);
  if (sha256 != NULL)
    memcpy (sha256, hash, sizeof hash);
  g_autoptr (GByteArray) key = key_new (job, hash);
  TrnImportReport found;
  TrnMesh *mesh = find_kept (job, key, &found);
  if (mesh == NULL)
    mesh = read_mesh (job, &st, key, &found);
  if (mesh == NULL)
    return NULL;
  say_repair (job, &found);
  if (report != NULL)
    *report = found;
  return mesh;
}

TrnMesh *
trn_import_mesh (const TrnImportRequest *request, const TrnImportLimits *limits,
                 TrnProgress *progress, char sha256[65], TrnImportReport *report, TrnDiags *diags)
{
  gint steps = 0;
  Job job = {
    .request = request,
    .limits = limits != NULL ? *limits : trn_import_limits_default (),
    .progress = progress,
    .steps = &steps,
    .diags = diags,
  };
  job.deadline_us = g_get_monotonic_time () + job.limits.wall_s * G_USEC_PER_SEC;
  if (sha256 != NULL)
    sha256[0] = '\0';
  trn_progress_add_total (progress, STEPS);
  TrnMesh *mesh = import_mesh (&job, sha256, report);
  trn_progress_add_done (progress, STEPS - steps);
  return mesh;
}
