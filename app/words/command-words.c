/* command-words.c: the help, the headings and the lines round the table of the command line. */
#include "command-words.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#include "desk-words.h"
#include "force-words.h"
#include "gear-words.h"

#define LONGEST_NAME 60

const char *
trn_words_help (void)
{
  return _ ("Usage: trunnion COMMAND …\n"
            "\n"
            "Certifies the least clearance of a load over its whole continuous motion.\n"
            "\n"
            "Commands:\n"
            "  check PLAN      check every lift of a plan, and print what was found\n"
            "  compare OLD NEW say what changed between two results of check\n"
            "  inspect FILE    tell what is in a mesh file\n"
            "  open PLAN       show a plan in a window: the desk\n"
            "  render PLAN     draw one moment of a lift as a picture\n"
            "  validate PLAN   read a plan and its mesh files, and list every fault\n"
            "\n"
            "Options:\n"
            "  -h, --help      show this, or the help of a command\n"
            "      --version   show the version\n"
            "\n"
            "Exit status: 0 everything checked passes, nothing became worse, or the picture is\n"
            "drawn; 1 something fails, is not known, or became worse; 2 wrong use of the command\n"
            "line; 3 the plan or a file of it, or results, cannot be read or are invalid; 4 the\n"
            "output cannot be written; 5 there is no OpenGL to draw with; 130 interrupted.\n");
}

const char *
trn_words_command_help (const char *command)
{
  if (strcmp (command, "check") == 0)
    return _ ("Usage: trunnion check PLAN [OPTION …]\n"
              "\n"
              "Checks every lift of the plan over its whole continuous motion and prints a table,\n"
              "worst margin first.\n"
              "\n"
              "Options:\n"
              "      --json FILE       write the results as JSON (- for standard output, then\n"
              "                        without the table)\n"
              "      --csv FILE        write the findings as CSV (- as above)\n"
              "      --lift ID         check this lift alone\n"
              "      --all             show every line of the table, not only the closest\n"
              "      --certify MM      how narrow a certified clearance is to be, in\n"
              "                        millimetres (0.01 to 1000; 1 where left out)\n"
              "      --deviation MM    how far the triangles of curved solids may exceed them, in\n"
              "                        millimetres (0.01 to 1000; 0.5 where left out)\n"
              "      --jobs N          threads to work with (one a processor where left out)\n"
              "      --outside-files   read mesh files outside the folder of the plan as well\n"
              "      --timings         print the times of import, build and sweep\n"
              "  -h, --help            show this\n");
  if (strcmp (command, "compare") == 0)
    return _ (
        "Usage: trunnion compare OLD.json NEW.json [OPTION …]\n"
        "\n"
        "Says what changed between two results that trunnion check --json wrote: before and\n"
        "after a load was rebuilt, a survey came in, or the plan was mended. Findings are\n"
        "matched by lift, check, number of the move, and what they are between. Lengths that\n"
        "differ by no more than they were certified to count as unchanged.\n"
        "\n"
        "Options:\n"
        "      --all             list what did not change as well\n"
        "  -h, --help            show this\n"
        "\n"
        "Exit status: 0 nothing became worse; 1 something became worse, is gone, is not known\n"
        "any more, or changed and nothing says which is better, or something new is not met or\n"
        "not known; 2 wrong use of the command line; 3 results cannot be read or are invalid;\n"
        "4 the output cannot be written.\n");
  if (strcmp (command, "open") == 0)
    return _ ("Usage: trunnion open PLAN\n"
              "\n"
              "Shows the plan in a window, with its clearances at every moment. The same as\n"
              "trunnion-desk PLAN.\n"
              "\n"
              "Options:\n"
              "  -h, --help            show this\n");
  if (strcmp (command, "render") == 0)
    return _ (
        "Usage: trunnion render PLAN -o FILE [OPTION …]\n"
        "\n"
        "Draws one moment of a lift as a PNG picture, with the path of the hook, where the\n"
        "load begins and ends, and the nearest obstacle with its distance. Needs no display.\n"
        "\n"
        "Options:\n"
        "  -o, --output FILE     where the picture goes (- for standard output)\n"
        "      --closest         the moment of the worst finding; checks the plan first\n"
        "      --time T          the moment, in seconds or as H:MM:SS from the start of the\n"
        "                        lift (its start where left out)\n"
        "      --lift ID         the lift that is drawn (where left out the first, or with\n"
        "                        --closest the one with the worst finding)\n"
        "      --view NAME       plan, north, east, south, west or 3d (3d where left out; with\n"
        "                        --closest it turns until the closest points are seen, and\n"
        "                        cuts open what hides them)\n"
        "      --section A=M     cut at that place of an axis, in metres: z=1.2, x=3, y=-2\n"
        "      --size WxH        pixels (1600x1000 where left out)\n"
        "      --scale N         pixels for each unit of text and lines (0.25 to 16; 1 where\n"
        "                        left out)\n"
        "      --dark            light on dark\n"
        "      --clean           the site and the load alone: no paths, marks and labels\n"
        "      --deviation MM    as for check (0.5 where left out)\n"
        "      --jobs N          threads to work with (one a processor where left out)\n"
        "      --outside-files   read mesh files outside the folder of the plan as well\n"
        "  -h, --help            show this\n");
  if (strcmp (command, "inspect") == 0)
    return _ ("Usage: trunnion inspect FILE [OPTION …]\n"
              "\n"
              "Reads a mesh file and tells what is in it: its parts and triangles, whether its\n"
              "surface is closed, what it declares, what was put right, and for each unit how\n"
              "large it would be and how precise. No plan is needed.\n"
              "\n"
              "Options:\n"
              "      --all             list every part, not only the first\n"
              "  -h, --help            show this\n");
  if (strcmp (command, "validate") == 0)
    return _ ("Usage: trunnion validate PLAN [OPTION …]\n"
              "\n"
              "Reads the plan and its mesh files and lists every fault with its place, and of\n"
              "each mesh file what is in it and what was put right. Nothing is checked.\n"
              "\n"
              "Options:\n"
              "      --places          show where the load is after each move, as numbers of the\n"
              "                        plan\n"
              "      --jobs N          threads to work with (one a processor where left out)\n"
              "      --outside-files   read mesh files outside the folder of the plan as well\n"
              "  -h, --help            show this\n");
  return NULL;
}

const char *
trn_words_column (TrnColumn column)
{
  switch (column)
    {
    case TRN_COLUMN_LIFT:
      return _ ("Lift");
    case TRN_COLUMN_MOVE:
      return _ ("Move");
    case TRN_COLUMN_OBSTACLE:
      return _ ("Obstacle");
    case TRN_COLUMN_CLEARANCE:
      return _ ("Clear");
    case TRN_COLUMN_ALLOWANCE:
      return _ ("Tol.");
    case TRN_COLUMN_KEEP:
      return _ ("Keep");
    case TRN_COLUMN_MARGIN:
      return _ ("Margin");
    case TRN_COLUMN_TIME:
      return _ ("At");
    case TRN_COLUMN_VERDICT:
      return _ ("Verdict");
    case TRN_N_COLUMNS:
      break;
    }
  g_assert_not_reached ();
}

char *
trn_words_table_title (const TrnPlan *plan, const TrnFindings *findings)
{
  g_autofree char *title
      = trn_words_clean (*plan->title != '\0' ? plan->title : plan->base_name, 90);
  char mm[G_ASCII_DTOSTR_BUF_SIZE];
  g_ascii_formatd (mm, sizeof mm, "%.6g", findings->certify_m * 1000);
  g_autofree char *certified = g_strdup_printf (
      _ ("Least clearances over the whole continuous motion, certified to %s mm, "
         "far ones to 5 %%. In metres."),
      mm);
  return g_strdup_printf ("%s\n%s", title, certified);
}

char *
trn_words_table_move (const TrnLiftRun *run, const TrnFinding *finding)
{
  if (finding->move >= 0)
    {
      g_autofree char *move = trn_words_move (run->lift, (guint)finding->move);
      return g_strdup_printf ("%d. %s", finding->move + 1, move);
    }
  if (finding->check == TRN_CHECK_SEAT)
    return g_strdup (finding->at_end ? _ ("At the end") : _ ("At the start"));
  if (finding->check == TRN_CHECK_START)
    return g_strdup (_ ("Where it begins"));
  return g_strdup (_ ("The whole lift"));
}

static gboolean
is_load (const TrnFinding *finding)
{
  return finding->body == NULL || strcmp (finding->body, "load") == 0;
}

char *
trn_words_table_more (guint n_lines, guint n_clearances)
{
  if (n_clearances < n_lines)
    return g_strdup_printf (
        g_dngettext (GETTEXT_PACKAGE,
                     "… and %u more line that meets what is set, %u of them a clearance (--all "
                     "shows it).",
                     "… and %u more lines that meet what is set, %u of them clearances (--all "
                     "shows them).",
                     n_lines),
        n_lines, n_clearances);
  return g_strdup_printf (
      g_dngettext (GETTEXT_PACKAGE, "… and %u more line that meets what is set (--all shows it).",
                   "… and %u more lines that meet what is set (--all shows them).", n_lines),
      n_lines);
}

char *
trn_words_table_least (const TrnPlan *plan, const TrnLiftRun *run, const TrnFinding *finding)
{
  g_autofree char *margin = trn_words_length_down (trn_words_margin_m (finding));
  g_autofree char *move = trn_words_table_move (run, finding);
  g_autofree char *obstacle = trn_words_obstacle_name (plan, finding, 0);
  g_autofree char *lift = trn_words_clean (run->lift->name, LONGEST_NAME);
  return g_strdup_printf (_ ("Of all lines that are met in metres the least margin is %s: %s, %s, "
                             "in “%s” (%s)."),
                          margin, move, obstacle, lift, trn_words_finding_short (finding));
}

char *
trn_words_table_notes (const TrnLiftRun *run, guint move, const char *obstacles)
{
  g_autofree char *lift = trn_words_clean (run->lift->id, LONGEST_NAME);
  return g_strdup_printf (
      _ ("Look at: the swing circle of move %u of %s comes closer than what is set to %s."),
      move + 1, lift, obstacles);
}

char *
trn_words_table_tail_notes (const char *crane, const TrnLiftRun *run, const char *obstacles)
{
  g_autofree char *lift = trn_words_clean (run->lift->id, LONGEST_NAME);
  return g_strdup_printf (_ ("Look at: in %s the circle of the tail swing of %s, or its barricade, "
                             "comes closer than what is set to %s."),
                          lift, crane, obstacles);
}

char *
trn_words_table_share_note (const TrnPlan *plan, const TrnLiftRun *run, const TrnFinding *finding)
{
  g_autofree char *lift = trn_words_clean (run->lift->id, LONGEST_NAME);
  g_autofree char *name = trn_words_obstacle_name (plan, finding, 0);
  g_autofree char *time = trn_words_table_time (finding);
  g_autofree char *says = trn_words_force_bare (finding);
  const double least_kg = trn_finding_number (finding, "least-main");
  if (!(least_kg > 0))
    return g_strdup_printf (_ ("Look at: in move %d of %s at %s, %s: %s."), finding->move + 1, lift,
                            time, name, says);
  g_autofree char *least = trn_words_force (least_kg, TRN_UNIT_KG, FALSE);
  return g_strdup_printf (_ ("Look at: in move %d of %s at %s, %s: %s; in this move the main hook "
                             "keeps at least %s."),
                          finding->move + 1, lift, time, name, says, least);
}

char *
trn_words_table_not_given (const char *whose, const TrnLiftRun *run, const char *what)
{
  g_autofree char *lift = trn_words_clean (run->lift->id, LONGEST_NAME);
  return g_strdup_printf (
      _ ("Look at: in the lift “%s” the plan leaves out of %s: %s; that was not looked at."), lift,
      whose, what);
}

char *
trn_words_lift_alone (const TrnLift *lift, guint n_lifts)
{
  g_autofree char *name = trn_words_clean (lift->id, LONGEST_NAME);
  return g_strdup_printf (
      _ ("Of the %u lifts of the plan only %s was checked; of the others nothing "
         "is known."),
      n_lifts, name);
}

/* A contact is told by its beginning, anything else by when it is closest. */
static double
time_to_show_s (const TrnFinding *finding)
{
  if (finding->contacts == NULL || finding->contacts->len == 0)
    return finding->time_s;
  return g_array_index (finding->contacts, TrnInterval, 0).lo;
}

char *
trn_words_table_time (const TrnFinding *finding)
{
  return trn_words_column_time (time_to_show_s (finding));
}

static double
progress_to_show (const TrnLiftRun *run, const TrnFinding *finding, double time_s)
{
  if (finding->move < 0 || time_s == finding->time_s)
    return finding->progress;
  double begin_s = run->begins_s[finding->move], end_s = run->begins_s[finding->move + 1];
  return end_s > begin_s ? CLAMP ((time_s - begin_s) / (end_s - begin_s), 0, 1) : 0;
}

char *
trn_words_where (const TrnPlan *plan, const TrnLiftRun *run, const TrnFinding *finding)
{
  g_autofree char *lift = trn_words_clean (run->lift->name, LONGEST_NAME);
  g_autofree char *obstacle = trn_words_obstacle_name (plan, finding, 0);
  g_autofree char *bare = trn_words_finding (finding);
  g_autofree char *sentence = trn_words_indent (bare);
  double time_s = time_to_show_s (finding);
  g_autofree char *time = trn_words_time (time_s);
  g_autofree char *move = trn_words_table_move (run, finding);
  g_autofree char *on_body = trn_words_point (finding->point_on_body);
  g_autofree char *on_obstacle = trn_words_point (finding->point_on_obstacle);
  g_autoptr (GString) text = g_string_new (NULL);
  g_string_append_printf (text, _ ("Closest in “%s”: to %s\n  %s.\n"), lift, obstacle, sentence);
  g_autofree char *allowance = trn_words_allowance (finding);
  if (allowance != NULL)
    {
      g_autofree char *indented = trn_words_indent (allowance);
      g_string_append_printf (text, "  %s\n", indented);
    }
  g_string_append_printf (text, _ ("  when: %s from the start of the lift, %.0f %% into move %s\n"),
                          time, progress_to_show (run, finding, time_s) * 100, move);
  g_string_append_printf (
      text, is_load (finding) ? _ ("  on the load:     %s\n") : _ ("  on the gear:     %s\n"),
      on_body);
  g_string_append_printf (text, _ ("  on the obstacle: %s\n"), on_obstacle);
  return g_string_free (g_steal_pointer (&text), FALSE);
}

const char *
trn_words_places_column (TrnPlacesColumn column)
{
  switch (column)
    {
    case TRN_PLACES_TIME:
      return _ ("Time");
    case TRN_PLACES_HOOK_X:
      return _ ("Hook X");
    case TRN_PLACES_HOOK_Y:
      return _ ("Hook Y");
    case TRN_PLACES_HOOK_Z:
      return _ ("Hook Z");
    case TRN_PLACES_X:
      return _ ("X");
    case TRN_PLACES_Y:
      return _ ("Y");
    case TRN_PLACES_Z:
      return _ ("Z");
    case TRN_PLACES_HEADING:
      return _ ("Heading");
    case TRN_PLACES_PITCH:
      return _ ("Pitch");
    case TRN_PLACES_ROLL:
      return _ ("Roll");
    case TRN_PLACES_MOVE:
      return _ ("After");
    }
  g_assert_not_reached ();
}

char *
trn_words_places_title (const TrnLift *lift, const TrnComponent *component)
{
  g_autofree char *name = trn_words_clean (lift->name, LONGEST_NAME);
  g_autofree char *load = trn_words_clean (component->id, LONGEST_NAME);
  return g_strdup_printf (
      _ ("“%s”: the hook point, and “position” and “turn” of %s, after each move.\n"
         "In metres and degrees, as in the plan."),
      name, load);
}

const char *
trn_words_places_start (void)
{
  return _ ("Start");
}

char *
trn_words_valid (const TrnPlan *plan, guint n_warnings)
{
  g_autofree char *file = trn_words_clean (plan->file, 0);
  if (n_warnings == 0)
    return g_strdup_printf (_ ("%s: no fault found."), file);
  return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%s: it can be checked; %u warning.",
                                       "%s: it can be checked; %u warnings.", n_warnings),
                          file, n_warnings);
}

char *
trn_words_progress (TrnStage stage, guint done, guint total)
{
  static const char *const stages[] = { [TRN_STAGE_READING] = N_ ("Reading"),
                                        [TRN_STAGE_CHECKING] = N_ ("Checking"),
                                        [TRN_STAGE_DRAWING] = N_ ("Drawing"),
                                        [TRN_STAGE_WRITING] = N_ ("Writing") };
  const char *what = _ (stages[stage]);
  if (total == 0)
    return g_strdup_printf (_ ("%s …"), what);
  return g_strdup_printf (_ ("%s: %u of %u"), what, done, total);
}

char *
trn_words_wrap (const char *text, guint width)
{
  g_auto (GStrv) words = g_strsplit (text, " ", -1);
  g_autoptr (GString) lines = g_string_new (NULL);
  glong column = 0;
  for (guint i = 0; words[i] != NULL; i++)
    {
      glong length = g_utf8_strlen (words[i], -1);
      if (i > 0 && column + 1 + length > (glong)width)
        {
          g_string_append_c (lines, '\n');
          column = 0;
        }
      else if (i > 0)
        {
          g_string_append_c (lines, ' ');
          column++;
        }
      g_string_append (lines, words[i]);
      column += length;
    }
  return g_string_free (g_steal_pointer (&lines), FALSE);
}
