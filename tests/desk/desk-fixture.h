/* desk-fixture.h: a folder of the test's own with a plan in it, and waiting for what comes from
 * other threads. */
#pragma once

#include "session-private.h"
#include "test-folder.h"

/* Long enough for the slowest machine under a sanitizer; nothing waits for it when all is well. */
#define TEST_PATIENCE_S 60

/* The check has ended, and moment and profile are judged by what it found: nothing of what is shown
 * is still to come.
 */
static inline gboolean
test_is_settled (DeskSession *session)
{
  const DeskProfile *profile = session->profile;
  return desk_check_get_state (session->check) == DESK_CHECK_DONE && session->moment_known != NULL
         && session->moment_known == session->known && session->moment->time_s == session->time_s
         && profile != NULL && profile->n_done == profile->n_times
         && session->next_profile_job == NULL;
}

static inline char *
test_read (const char *path)
{
  char *text = NULL;
  g_autoptr (GError) error = NULL;
  g_file_get_contents (path, &text, NULL, &error);
  g_assert_no_error (error);
  return text;
}

static inline GFile *
test_write (const char *folder, const char *name, const char *text)
{
  g_autofree char *path = g_build_filename (folder, name, NULL);
  g_autoptr (GError) error = NULL;
  g_file_set_contents (path, text, -1, &error);
  g_assert_no_error (error);
  return g_file_new_for_path (path);
}

/* The text of tests/plans/@name/plan.trunnion. */
static inline char *
test_plan_text (const char *name)
{
  g_autofree char *path = g_build_filename (g_getenv ("TRUNNION_SOURCE_FOLDER"), "tests", "plans",
                                            name, "plan.trunnion", NULL);
  return test_read (path);
}

/* @text with @before, which is in it once, as @after. */
static inline char *
test_replace (const char *text, const char *before, const char *after)
{
  g_auto (GStrv) parts = g_strsplit (text, before, -1);
  g_assert_cmpuint (g_strv_length (parts), ==, 2);
  return g_strjoinv (after, parts);
}

/* A copy of it in @folder. */
static inline GFile *
test_plan_copy (const char *folder, const char *name)
{
  g_autofree char *text = test_plan_text (name);
  g_autofree char *base_name = g_strconcat (name, ".trunnion", NULL);
  return test_write (folder, base_name, text);
}

static inline GFile *
test_demo (const char *name)
{
  g_autofree char *base_name = g_strconcat (name, ".trunnion", NULL);
  return g_file_new_build_filename (g_getenv ("TRUNNION_SOURCE_FOLDER"), "assets-demo", name,
                                    base_name, NULL);
}

/* A copy of the demo lock-gate with its meshes (gatehouse.obj of a structure, leaf.ply of the
 * load), of which @spoilt, if any, is no mesh. */
static inline GFile *
test_gate_copy (const char *folder, const char *spoilt)
{
  static const char *const names[] = { "lock-gate.trunnion", "gatehouse.obj", "leaf.ply" };
  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autofree char *from = g_build_filename (g_getenv ("TRUNNION_SOURCE_FOLDER"), "assets-demo",
                                                "lock-gate", names[i], NULL);
      g_autofree char *to = g_build_filename (folder, names[i], NULL), *bytes = NULL;
      gsize length;
      g_autoptr (GError) error = NULL;
      g_file_get_contents (from, &bytes, &length, &error);
      g_assert_no_error (error);
      gboolean is_spoilt = g_strcmp0 (names[i], spoilt) == 0;
      g_file_set_contents (to, is_spoilt ? "no mesh" : bytes, is_spoilt ? -1 : (gssize)length,
                           &error);
      g_assert_no_error (error);
    }
  return g_file_new_build_filename (folder, names[0], NULL);
}

/* Lets the main loop run until @condition holds; the test fails when it never does. */
#define test_wait(condition)                                                                       \
  do                                                                                               \
    {                                                                                              \
      gint64 test_deadline_us = g_get_monotonic_time () + TEST_PATIENCE_S * G_USEC_PER_SEC;        \
      while (!(condition) && g_get_monotonic_time () < test_deadline_us)                           \
        if (!g_main_context_iteration (NULL, FALSE))                                               \
          g_usleep (1000);                                                                         \
      g_assert_true (condition);                                                                   \
    }                                                                                              \
  while (0)

/* Lets it run for a while, in which nothing is expected to happen. */
static inline void
test_idle (double seconds)
{
  gint64 until_us = g_get_monotonic_time () + (gint64)(seconds * G_USEC_PER_SEC);
  while (g_get_monotonic_time () < until_us)
    if (!g_main_context_iteration (NULL, FALSE))
      g_usleep (1000);
}

static inline void
test_count (guint *count)
{
  (*count)++;
}

/* Counts the signal @name of @object in @count. */
static inline void
test_count_signal (gpointer object, const char *name, guint *count)
{
  *count = 0;
  g_signal_connect_swapped (object, name, G_CALLBACK (test_count), count);
}

static inline gboolean
test_document_is_done (DeskDocument *document)
{
  return desk_document_get_state (document) != DESK_DOCUMENT_LOADING;
}
