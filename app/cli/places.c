/* places.c: numbers as they are written in a plan, so that one can be copied into it: a plain minus
 * sign, a decimal point, metres and degrees. The name of the move comes last, since only it is of
 * any length. */
#include "places.h"

#include <stdio.h>
#include <string.h>

#include "command-words.h"
#include "words.h"

#define NUMBER_WIDTH 10
#define TIME_WIDTH 9

/* Right-aligned; what rounds to 0 has no sign. */
static void
append_number (GString *line, const char *format, double number)
{
  char text[G_ASCII_DTOSTR_BUF_SIZE];
  g_ascii_formatd (text, sizeof text, format, number);
  const char *plain
      = text[0] == '-' && strspn (text + 1, "0.") == strlen (text + 1) ? text + 1 : text;
  g_string_append_printf (line, "%*s", NUMBER_WIDTH, plain);
}

static void
append_point (GString *line, TrnVec3 point)
{
  append_number (line, "%.3f", point.x);
  append_number (line, "%.3f", point.y);
  append_number (line, "%.3f", point.z);
}

static void
append_padded (GString *line, const char *text, glong width)
{
  g_string_append_printf (line, "%*s%s", (int)MAX (1, width - g_utf8_strlen (text, -1)), "", text);
}

static void
print_heading (void)
{
  g_autoptr (GString) line = g_string_new (NULL);
  append_padded (line, trn_words_places_column (TRN_PLACES_TIME), TIME_WIDTH);
  for (int i = TRN_PLACES_HOOK_X; i < TRN_PLACES_MOVE; i++)
    append_padded (line, trn_words_places_column ((TrnPlacesColumn)i), NUMBER_WIDTH);
  g_string_append_printf (line, "  %s", trn_words_places_column (TRN_PLACES_MOVE));
  puts (line->str);
}

static void
print_place (const TrnLiftRun *run, const TrnPose *pose, double time_s, const char *move)
{
  g_autoptr (GString) line = g_string_new (NULL);
  g_autofree char *time = trn_words_column_time (time_s);
  TrnPlacement placement = trn_placement_of (pose);
  append_padded (line, time, TIME_WIDTH);
  append_point (line, trn_pose_apply (pose, run->lift->hook.place));
  append_point (line, placement.position);
  append_number (line, "%.2f", trn_degrees (placement.heading_rad));
  append_number (line, "%.2f", trn_degrees (placement.pitch_rad));
  append_number (line, "%.2f", trn_degrees (placement.roll_rad));
  g_string_append_printf (line, "  %s", move);
  puts (line->str);
}

static void
print_lift (const TrnProgramme *programme, const TrnLiftRun *run)
{
  g_autofree char *title
      = trn_words_places_title (run->lift, &programme->plan->components[run->lift->component]);
  puts (title);
  print_heading ();
  print_place (run, &run->start, 0, trn_words_places_start ());
  for (guint i = 0; i < run->lift->n_moves; i++)
    {
      TrnPose pose = trn_motion_pose (&run->motions[i], 1);
      g_autofree char *move = trn_words_move (run->lift, i);
      g_autofree char *numbered = g_strdup_printf ("%u. %s", i + 1, move);
      print_place (run, &pose, run->begins_s[i + 1], numbered);
    }
  puts ("");
}

void
cli_places_print (const TrnProgramme *programme)
{
  for (guint i = 0; i < programme->n_runs; i++)
    print_lift (programme, &programme->runs[i]);
}
