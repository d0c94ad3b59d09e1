/* Any bytes as the desktop's list of files last opened, which every program writes.
 *
 * What is taken of it are plans in local files, the last one first, with names that can be shown:
 * short, and without what steers a terminal or turns the order of the text around them. */
#include "fuzz.h"
#include "fuzz-log.h"

#include <string.h>

#include "recent.h"

static void
check_shown (const char *text, glong most)
{
  g_assert_true (g_utf8_validate (text, -1, NULL));
  g_assert_cmpint (g_utf8_strlen (text, -1), <=, most);
  for (const char *p = text; *p != '\0'; p = g_utf8_next_char (p))
    {
      const gunichar c = g_utf8_get_char (p);
      g_assert_false (g_unichar_iscntrl (c) || (c >= 0x202a && c <= 0x202e)
                      || (c >= 0x2066 && c <= 0x2069));
    }
}

static void
check_plan (const DeskRecent *recent)
{
  g_autofree char *host = NULL;
  g_autofree char *path = g_filename_from_uri (recent->uri, &host, NULL);
  g_assert_nonnull (path);
  g_assert_null (host);
  g_assert_true (g_str_has_suffix (recent->uri, ".trunnion"));
  g_assert_cmpuint (strlen (recent->name), >, 0);
  g_assert_cmpuint (strlen (recent->place), >, 0);
  check_shown (recent->name, 120);
  check_shown (recent->place, 200);
}

int
LLVMFuzzerTestOneInput (const uint8_t *bytes, size_t length)
{
  /* GLib, of text between the elements of a list. */
  static const char *known[] = { "gbookmarkfile.c", NULL };
  fuzz_log_set_known (known);
  g_autoptr (GPtrArray) plans = desk_recent_parse ((const char *)bytes, length);
  for (guint i = 0; i < plans->len; i++)
    {
      const DeskRecent *recent = plans->pdata[i];
      check_plan (recent);
      if (i > 0)
        g_assert_cmpint (((const DeskRecent *)plans->pdata[i - 1])->time_s, >=, recent->time_s);
    }
  return 0;
}
