#include "recent.h"

#include "read-file.h"
#include "words.h"

#include <errno.h>
#include <string.h>
#include <sys/stat.h>

#define MOST_URI_BYTES 16384 /* the longest path, with every letter written as three */
#define MOST_LOOKED_FOR 100  /* on disks, which may be slow */
#define MOST_NAME 120        /* letters */
#define MOST_PLACE 200

static void
recent_free (gpointer data)
{
  DeskRecent *recent = data;
  g_free (recent->uri);
  g_free (recent->name);
  g_free (recent->place);
  g_free (recent);
}

char *
desk_recent_path_dup (void)
{
  return g_build_filename (g_get_user_data_dir (), "recently-used.xbel", NULL);
}

static gboolean
is_fit (const struct stat *st)
{
  return S_ISREG (st->st_mode) && (guint64)st->st_size <= DESK_RECENT_MOST_BYTES;
}

gboolean
desk_recent_is_fit (const char *path)
{
  struct stat st;
  return stat (path, &st) == 0 ? is_fit (&st) : errno == ENOENT;
}

/* ---- what is in it ---- */

static int
compare_by_time (gconstpointer a, gconstpointer b)
{
  const DeskRecent *x = *(const DeskRecent *const *)a, *y = *(const DeskRecent *const *)b;
  return (x->time_s < y->time_s) - (x->time_s > y->time_s);
}

/* The local file of a plan; NULL where it is none. */
static char *
path_dup (const char *uri)
{
  if (strlen (uri) > MOST_URI_BYTES || !g_str_has_suffix (uri, ".trunnion"))
    return NULL;
  g_autofree char *host = NULL;
  g_autofree char *path = g_filename_from_uri (uri, &host, NULL);
  return path != NULL && host == NULL ? g_steal_pointer (&path) : NULL;
}

static void
take_plan (GBookmarkFile *list, const char *uri, GPtrArray *plans)
{
  g_autofree char *path = path_dup (uri);
  if (path == NULL)
    return;
  /* Where it is not known, the oldest. */
  GDateTime *time = g_bookmark_file_get_modified_date_time (list, uri, NULL);
  g_autofree char *shown_path = g_filename_display_name (path);
  g_autofree char *shown_name = g_filename_display_basename (path);
  g_autofree char *title = g_bookmark_file_get_title (list, uri, NULL);
  DeskRecent *recent = g_new0 (DeskRecent, 1);
  recent->uri = g_strdup (uri);
  recent->name = trn_words_clean (title != NULL && *title != '\0' ? title : shown_name, MOST_NAME);
  recent->place = trn_words_clean (shown_path, MOST_PLACE);
  recent->time_s = time != NULL ? g_date_time_to_unix (time) : G_MININT64;
  g_ptr_array_add (plans, recent);
}

GPtrArray *
desk_recent_parse (const char *bytes, gsize length)
{
  GPtrArray *plans = g_ptr_array_new_with_free_func (recent_free);
  g_autoptr (GBookmarkFile) list = g_bookmark_file_new ();
  if (length == 0 || length > DESK_RECENT_MOST_BYTES
      || !g_bookmark_file_load_from_data (list, bytes, length, NULL))
    return plans;
  g_auto (GStrv) uris = g_bookmark_file_get_uris (list, NULL);
  for (char **uri = uris; *uri != NULL; uri++)
    take_plan (list, *uri, plans);
  g_ptr_array_sort (plans, compare_by_time);
  return plans;
}

/* ---- the file ---- */

GPtrArray *
desk_recent_read (const char *path, guint most)
{
  gsize length = 0;
  g_autofree char *bytes = trn_read_file (path, DESK_RECENT_MOST_BYTES, &length);
  GPtrArray *plans = desk_recent_parse (bytes, length);
  guint kept = 0;
  for (guint i = 0; i < plans->len && i < MOST_LOOKED_FOR && kept < most; i++)
    {
      DeskRecent *recent = plans->pdata[i];
      g_autofree char *plan = g_filename_from_uri (recent->uri, NULL, NULL);
      if (!g_file_test (plan, G_FILE_TEST_EXISTS))
        continue;
      plans->pdata[i] = plans->pdata[kept];
      plans->pdata[kept++] = recent;
    }
  g_ptr_array_set_size (plans, (gint)kept);
  return plans;
}
