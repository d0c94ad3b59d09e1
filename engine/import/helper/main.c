/* trunnion-import: reads one mesh file and writes its triangles to standard output.
 *
 *   trunnion-import FILE MEMORY-BYTES CPU-SECONDS MAX-TRIANGLES
 *
 * Started by trn_import_mesh, one process a file; see stream.h for what it writes. It limits and
 * confines itself before it opens the file. It ends with status 0 when it has answered, be it with
 * an error, and with 1 when it could not.
 *
 * None of the import library's steps after reading is used. What it calls validation refuses good
 * files for their materials; its search for invalid data throws bad meshes away and goes on, and a
 * mesh that is thrown away is an obstacle that is missing; its triangulation covers notches. All
 * three are done here. */
#include "answer.h"
#include "confine.h"
#include "file-facts.h"
#include "folder-io.h"
#include "limits.h"
#include "native.h"
#include "scene-frame.h"
#include "scene-walk.h"

#include <assimp/cimport.h>
#include <assimp/config.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#define MOST_SHOWN 40 /* letters of a name that is too long */

typedef struct
{
  guint errors;
  char *first;
} Complaints;

/* Warnings of the library, as far as they are about surfaces or units that it leaves out. */
static gboolean
leaves_out (const char *message)
{
  static const char *const words[]
      = { "kipping unknown Ifc",  "kipping mapped entity",  "kipping degenerate polygon",
          "kipping openings",     "kipping some openings",  "kipping null geometry",
          "nrecognized geometry", "gnoring empty geometry", "duplicate object id",
          "out-of-range indices", "gnoring curve",          "nrecognized SI prefix" };
  for (guint i = 0; i < G_N_ELEMENTS (words); i++)
    if (strstr (message, words[i]) != NULL && strstr (message, "Colour") == NULL)
      return TRUE;
  return FALSE;
}

/* Errors that are only about how a surface looks, by the library's own words: an error that merely
 * has a word such as "material" in it may be about the surface. */
static gboolean
is_about_looks (const char *message)
{
  static const char *const words[]
      = { "locate material",    "fallback material file",  "no material assigned",
          "material requested", "unknown texture type",    "effect texture entry",
          "UV channel",         "texture coordinate sets", "creating default material" };
  for (guint i = 0; i < G_N_ELEMENTS (words); i++)
    if (strstr (message, words[i]) != NULL)
      return TRUE;
  return FALSE;
}

/* What the library writes to its log when it leaves something out. */
static void
collect_complaint (const char *message, char *user)
{
  Complaints *complaints = (Complaints *)(void *)user;
  const char *text = strchr (message, ':');
  gboolean failed = g_str_has_prefix (message, "Error") && !is_about_looks (message);
  if (!failed && !(g_str_has_prefix (message, "Warn") && leaves_out (message)))
    return;
  if (complaints->errors++ == 0)
    complaints->first = g_strdup (text != NULL ? text + 1 : message);
}

static void
say_why_not (const TrnFolderIo *io, TrnAnswer *answer)
{
  const char *reason = aiGetErrorString ();
  if (io->outside != NULL)
    trn_answer_note (answer, TRN_NOTE_OUTSIDE_FOLDER, 0, 0, io->outside);
  else if (io->no_room)
    trn_answer_note (answer, TRN_NOTE_MEMORY, 0, 0, NULL);
  else if (io->missing != NULL)
    trn_answer_note (answer, TRN_NOTE_REFERENCE_MISSING, 0, 0, io->missing);
  else if (strstr (reason, "bad_alloc") != NULL)
    trn_answer_note (answer, TRN_NOTE_MEMORY, 0, 0, NULL);
  else
    trn_answer_note (answer, TRN_NOTE_DAMAGED, 0, 0, reason);
}

/* Where a file has no faces, the library would make some for its bones. Round surfaces of IFC are
 * made as fine as it can. */
static struct aiPropertyStore *
properties_new (void)
{
  struct aiPropertyStore *store = aiCreatePropertyStore ();
  aiSetImportPropertyInteger (store, AI_CONFIG_IMPORT_NO_SKELETON_MESHES, 1);
  aiSetImportPropertyInteger (store, AI_CONFIG_IMPORT_COLLADA_USE_COLLADA_NAMES, 1);
  aiSetImportPropertyInteger (store, AI_CONFIG_IMPORT_IFC_CYLINDRICAL_TESSELLATION, 180);
  aiSetImportPropertyFloat (store, AI_CONFIG_IMPORT_IFC_SMOOTHING_ANGLE, 5);
  return store;
}

/* @read: a digest, a blank and the name of a file. */
static void
note_long_name (const char *read, TrnAnswer *answer)
{
  g_autofree char *name = g_utf8_make_valid (trn_stream_referred_get (read), -1);
  g_autofree char *begin = g_utf8_substring (name, 0, MIN (g_utf8_strlen (name, -1), MOST_SHOWN));
  g_autofree char *what
      = g_strdup_printf ("a file with so long a name, which begins with “%s”", begin);
  trn_answer_note (answer, TRN_NOTE_UNSUPPORTED, 0, 0, what);
}

/* The files that the model needs beside itself, of which its digest knows nothing. */
static void
note_referred (const TrnFolderIo *io, TrnAnswer *answer)
{
  if (io->opened->len > TRN_STREAM_MAX_REFERRED)
    trn_answer_note (answer, TRN_NOTE_UNSUPPORTED, 0, 0, "more than 16 files that it refers to");
  for (guint i = 0; i < io->opened->len && i < TRN_STREAM_MAX_REFERRED; i++)
    {
      const char *read = g_ptr_array_index (io->opened, i);
      if (strlen (read) > TRN_ANSWER_MAX_TEXT)
        note_long_name (read, answer);
      trn_answer_note (answer, TRN_NOTE_REFERRED, 0, 0, read);
    }
}

/* The library gives nodes the places that they have in the file, not those of an animation. */
static void
note_animations (const struct aiScene *scene, TrnAnswer *answer)
{
  gboolean moves = FALSE;
  for (guint i = 0; i < scene->mNumAnimations; i++)
    {
      const struct aiAnimation *animation = scene->mAnimations[i];
      moves = moves || animation->mNumChannels > 0 || animation->mNumMeshChannels > 0
              || animation->mNumMorphMeshChannels > 0;
    }
  if (moves)
    trn_answer_note (answer, TRN_NOTE_ANIMATED, 0, 0, NULL);
}

static void
read_scene (const char *path, TrnFormat format, const TrnFileFacts *facts, guint64 max_triangles,
            Complaints *complaints, TrnAnswer *answer)
{
  TrnFolderIo *io = trn_folder_io_new (path);
  struct aiLogStream log = { collect_complaint, (char *)(void *)complaints };
  aiAttachLogStream (&log);
  const struct aiScene *scene = aiImportFileExWithProperties (path, 0, &io->io, properties_new ());
  answer->header.alone = io->alone ? 1 : 0;
  /* What was refused is an error also where the rest could be read without it. */
  if (scene == NULL || io->outside != NULL || io->no_room)
    {
      say_why_not (io, answer);
      return;
    }
  note_referred (io, answer);
  trn_scene_frame_settle (scene, path, format, answer);
  if (!trn_answer_has_error (answer))
    trn_scene_walk (scene, facts, max_triangles, answer);
  if (!trn_answer_has_error (answer))
    note_animations (scene, answer);
}

static void
read_by_library (const char *path, TrnFormat format, guint64 max_triangles, TrnAnswer *answer)
{
  TrnFileFacts facts;
  trn_file_facts_read (path, format, &facts, answer);
  if (trn_answer_has_error (answer))
    return;
  if (facts.faces > max_triangles)
    {
      trn_answer_note (answer, TRN_NOTE_TOO_MANY, (double)facts.faces, 0, NULL);
      return;
    }
  Complaints complaints = { 0 };
  read_scene (path, format, &facts, max_triangles, &complaints, answer);
  if (trn_answer_has_error (answer))
    return;
  answer->header.counted = facts.counted ? 1 : 0;
  if (!facts.counted)
    trn_answer_note (answer, TRN_NOTE_NOT_COUNTED, 0, 0, NULL);
  if (complaints.errors > 0)
    trn_answer_note (answer, TRN_NOTE_READER, complaints.errors, 0, complaints.first);
}

/* @resolved is @path without links; NULL where nothing can be opened there. */
static void
read_model (const char *path, const char *resolved, guint64 max_triangles, TrnAnswer *answer)
{
  if (resolved == NULL)
    {
      trn_answer_note (answer, TRN_NOTE_DAMAGED, 0, 0, "it cannot be opened any more");
      return;
    }
  TrnFormat format = trn_format_from_path (path);
  TrnFormat resolved_format = trn_format_from_path (resolved);
  /* The library goes by the name, so a link must not change what kind of file it is. */
  if (format == TRN_FORMAT_UNKNOWN || format != resolved_format)
    {
      trn_answer_note (answer, TRN_NOTE_UNSUPPORTED, 0, 0, "a link to a file of another kind");
      return;
    }
  if (format == TRN_FORMAT_GLTF || format == TRN_FORMAT_GLB)
    {
      /* The glTF specification: metres, and the Y axis is up. */
      answer->header.metres_per_unit = 1;
      answer->header.up = TRN_STREAM_UP_Y;
    }
  if (trn_native_reads (format))
    trn_native_read (resolved, format, max_triangles, answer);
  else
    read_by_library (resolved, format, max_triangles, answer);
  if (trn_format_is_experimental (format) && !trn_answer_has_error (answer))
    {
      g_autofree char *name = g_ascii_strup (trn_format_extension_get (path), -1);
      trn_answer_note (answer, TRN_NOTE_EXPERIMENTAL, 0, 0, name);
    }
}

/* Standard output for the answer alone: what a library prints goes nowhere. */
static int
output_take (void)
{
  int fd = fcntl (STDOUT_FILENO, F_DUPFD_CLOEXEC, 3);
  int null = open ("/dev/null", O_WRONLY | O_CLOEXEC);
  if (fd < 0 || null < 0 || dup2 (null, STDOUT_FILENO) < 0)
    return -1;
  close (null);
  return fd;
}

/* Whether files of this kind may refer to others. */
static gboolean
refers_to_others (TrnFormat format)
{
  return format == TRN_FORMAT_OBJ || format == TRN_FORMAT_GLTF || format == TRN_FORMAT_GLB;
}

static void
confine (int fd, const char *resolved, TrnAnswer *answer)
{
  const char *why;
  g_autofree char *folder = resolved != NULL ? g_path_get_dirname (resolved) : NULL;
  gboolean alone = resolved != NULL && !refers_to_others (trn_format_from_path (resolved));
  int below_fd = folder != NULL ? open (alone ? resolved : folder, O_PATH | O_CLOEXEC) : -1;
  answer->header.confined = trn_confine (fd, below_fd, &why);
  if (below_fd >= 0)
    close (below_fd);
  if (why != NULL)
    trn_answer_note (answer, TRN_NOTE_UNCONFINED, 0, 0, why);
}

#ifdef TRN_ADDRESS_SANITIZER
/* What the address sanitizer takes where its environment says nothing else. A fault of the import
 * library ends the helper by its signal, as in every other build, and not with the status by which
 * the sanitizer tells what it found itself; and memory may be refused. */
const char *__asan_default_options (void);

const char *
__asan_default_options (void)
{
  return "handle_segv=0:handle_sigbus=0:handle_sigfpe=0:handle_sigill=0:"
         "allocator_may_return_null=1";
}
#endif

int
main (int argc, char **argv)
{
  if (argc != 5)
    {
      g_printerr ("usage: trunnion-import FILE MEMORY-BYTES CPU-SECONDS MAX-TRIANGLES\n");
      return 1;
    }
  TrnHelperLimits limits = {
    .memory_bytes = g_ascii_strtoull (argv[2], NULL, 10),
    .cpu_s = g_ascii_strtoull (argv[3], NULL, 10),
    .max_triangles = g_ascii_strtoull (argv[4], NULL, 10),
  };
  int fd = output_take ();
  if (fd < 0 || !trn_helper_limits_set (&limits))
    return 1;
  TrnAnswer *answer = trn_answer_new ();
  char *resolved = realpath (argv[1], NULL);
  confine (fd, resolved, answer);
  read_model (argv[1], resolved, limits.max_triangles, answer);
  gboolean sent = trn_answer_send (answer, fd);
  /* The system frees millions of small blocks faster than the library would. */
  _exit (sent ? 0 : 1);
}
