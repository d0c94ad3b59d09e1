/* A lift that takes up what an earlier one left counts with the tolerances of that one wherever it
 * would with its own: each plan twice, the second lift once without tolerances and once with those
 * that it has to count with, and all that is found of it is the same.
 *
 * A bar of 5 m is set down on a deck by a first lift, off by its tolerances about the same hook
 * point; the second lift hoists it past a post and sets it down again. What is judged against the
 * tolerances that the plan states for a lift, since they are what a drawn attitude may be off by,
 * has them for a limit and is no part of this. */
#include <math.h>

#include "test-checks.h"

#define SAME 1e-9 /* share: degrees in the plan, and what follows from them */

typedef struct
{
  const char *name;
  const char *plan;    /* keys of the plan, each ended by a comma */
  const char *hook;    /* of both lifts */
  const char *rigging; /* of the second lift, as the next */
  const char *lift;    /* further keys, each ended by a comma */
  const char *moves;
} Case;

#define GANTRY(id)                                                                                 \
  "{'id': '" id "', 'kind': 'gantry', 'at': {'position': [0, 0, 0]}, 'legs': [{'at': [40, 40],"    \
  " 'size': [0.5, 0.5], 'height': 50}], 'trolley': {'size': [1, 1, 1], 'underside': 40}}"
#define CRANE                                                                                      \
  "{'id': 'one', 'kind': 'crane', 'at': {'position': [-12, 0, 0]}, 'boom': {'foot': [0, 2],"       \
  " 'length': 30, 'section': [0.6, 0.8], 'angle': [30, 80]}, 'hook_to_tip': 3, 'capacity':"        \
  " {'configuration': 'made up', 'table': [[4, 60000], [25, 20000]]}, 'counterweight':"            \
  " {'tail_radius': 4, 'bottom': 1, 'top': 3, 'width': 2}, 'barricade': 5}"
#define LOADS "'loads': {'dynamic': {'factor': 1.1, 'source': 'test'}},"
#define WIND "'wind': {'speed': 6, 'drag': 1.2},"
#define BLOCK "'block': {'diameter': 0.6, 'height': 0.8, 'mass': 200}"
#define LEG(id, from, to)                                                                          \
  "{'id': '" id "', 'from': '" from "', 'to': " to ", 'diameter': 0.03, 'mass': 20, 'wll': 9000,"  \
  " 'shackle': {'mass': 5, 'wll': 9000, 'pin': [0, 1, 0]}}"
#define FOUR                                                                                       \
  "{'main': {'gear': 'one', 'hook_above': 2, " BLOCK                                               \
  ", 'slings': [" LEG ("a", "hook", "[0.8, 0.8, 5]") "," LEG (                                     \
      "b", "hook", "[-0.8, 0.8, 5]") "," LEG ("c", "hook",                                         \
                                              "[0.8, -0.8, 5]") "," LEG ("d", "hook",              \
                                                                         "[-0.8, -0.8, 5]") "]}}"
#define BEAM                                                                                       \
  "{'main': {'gear': 'one', 'hook_above': 5, " BLOCK ", 'beam': {'id': 'bar', 'length': 1.6,"      \
  " 'width': 0.2, 'depth': 0.3, 'below_hook': 2, 'mass': 300, 'wll': 20000, 'between': [[-0.8, 0," \
  " 5], [0.8, 0, 5]]}, 'slings': [{'id': 'ua', 'to': 'beam-a', 'diameter': 0.03}, {'id': 'ub',"    \
  " 'to': 'beam-b', 'diameter': 0.03}," LEG ("da", "beam-a", "[-0.8, 0, 5]") "," LEG (             \
      "db", "beam-b", "[0.8, 0, 5]") "]}}"
#define TWO                                                                                        \
  "{'main': {'gear': 'one', 'hook_above': 2, " BLOCK                                               \
  ", 'slings': [" LEG ("a", "hook", "[-0.8, 0.8, 5]") "," LEG (                                    \
      "b", "hook", "[-0.8, -0.8, 5]") "]}, 'tail': {'gear': 'other', 'point': [0.8, 0, 5],"        \
                                      " 'hook_above': 1, 'block': {'diameter': 0.4, 'height': "    \
                                      "0.5, 'mass': 90}, 'slings': [" LEG ("t", "hook",            \
                                                                           "[0.8, 0, 5]") "]}}"
#define MOVES                                                                                      \
  "{'do': 'hoist', 'by': 2, 'seconds': 60}, {'do': 'travel', 'by': [0, 1], 'seconds': 60}, {'do':" \
  " 'turn', 'by': 20, 'seconds': 60}, {'do': 'hoist', 'by': -2, 'seconds': 60}"
#define FREE "'hangs': 'free',"
#define MIDDLE "[0, 0, 5]"

static const Case cases[] = {
  { "bare", "", MIDDLE, NULL, "", MOVES },
  { "crane", LOADS "'gear': [" CRANE "],", MIDDLE, FOUR, "", MOVES },
  { "four-legs", WIND LOADS "'gear': [" GANTRY ("one") "],", MIDDLE, FOUR, "", MOVES },
  { "four-legs-free", WIND LOADS "'gear': [" GANTRY ("one") "],", MIDDLE, FOUR, FREE, MOVES },
  { "beam", WIND LOADS "'gear': [" GANTRY ("one") "],", MIDDLE, BEAM, "", MOVES },
  { "beam-free", WIND LOADS "'gear': [" GANTRY ("one") "],", MIDDLE, BEAM, FREE, MOVES },
  { "two-hooks", WIND LOADS "'gear': [" GANTRY ("one") "," GANTRY ("other") "],", "[-0.8, 0, 5]",
    TWO, "", MOVES },
};

#define FIRST "'tolerance': {'position': 0.06, 'tilt_deg': 0.8, 'heading_deg': 1.5},"

static TestRun
run_case (const Case *c, const char *first, const char *second)
{
  g_autofree char *rigging
      = c->rigging != NULL ? g_strdup_printf ("'rigging': %s,", c->rigging) : g_strdup ("");
  g_autofree char *text = g_strdup_printf (
      "{'format': 'trunnion-plan', 'version': 1, 'keep_clear': 0.3, %s 'structures': [{'id':"
      " 'deck', 'solid': {'kind': 'box', 'size': [8, 8, 1]}, 'at': {'position': [0, 0, -1]},"
      " 'survey_tolerance': 0.01}, {'id': 'post', 'solid': {'kind': 'box', 'size': [0.5, 0.5, 9]},"
      " 'at': {'position': [3, 0, 0]}}], 'components': [{'id': 'column', 'solid': {'kind': 'box',"
      " 'size': [2, 2, 5]}, 'mass': 8000, 'cog': [0, 0, 2.4], 'cog_box': [0.05, 0.04, 0.1], 'at':"
      " {'position': [0, -1, 0]}}], 'programme': [{'lift': 'first', 'component': 'column',"
      " 'hook_point': %s, %s 'seats': [{'on': 'deck', 'at': 'start'}, {'on': 'deck', 'at': 'end'}],"
      " 'moves': [{'do': 'hoist', 'by': 1, 'seconds': 10}, {'do': 'travel', 'by': [0, 1],"
      " 'seconds': 10}, {'do': 'hoist', 'by': -1, 'seconds': 10}]}, {'lift': 'second',"
      " 'component': 'column', 'hook_point': %s, %s %s %s 'seats': [{'on': 'deck', 'at': 'start',"
      " 'until_clear': 1}, {'on': 'deck', 'at': 'end', 'until_clear': 1}], 'moves': [%s]}]}",
      c->plan, c->hook, first, c->hook, rigging, second, c->lift, c->moves);
  return test_run (text);
}

/* What the second lift of @run has to count with, as a plan would state it: a little more, so that
 * it is no less once it is read. */
static char *
tolerance_dup (const TestRun *run)
{
  const TrnSlack *slack = &run->scene->programme->runs[1].slack;
  const double more = 1 + 1e-13;
  return g_strdup_printf (
      "'tolerance': {'position': %.17g, 'tilt_deg': %.17g, 'heading_deg': %.17g},", slack->m * more,
      slack->tilt_rad * 180 / G_PI * more, slack->heading_rad * 180 / G_PI * more);
}

static gboolean
is_like (double a, double b)
{
  return (isnan (a) && isnan (b)) || a == b || fabs (a - b) <= SAME * fmax (1, fabs (b));
}

static gboolean
are_alike (const TrnFinding *a, const TrnFinding *b)
{
  const guint n = a->numbers != NULL ? a->numbers->len : 0;
  if (n != (b->numbers != NULL ? b->numbers->len : 0))
    return FALSE;
  for (guint i = 0; i < n; i++)
    if (!is_like (g_array_index (a->numbers, TrnFindingNumber, i).value,
                  g_array_index (b->numbers, TrnFindingNumber, i).value))
      return FALSE;
  return a->verdict == b->verdict && a->state == b->state && g_strcmp0 (a->missing, b->missing) == 0
         && is_like (a->value, b->value) && is_like (a->limit, b->limit)
         && is_like (a->margin, b->margin) && is_like (a->allowance_m, b->allowance_m)
         && is_like (a->lower_m, b->lower_m) && is_like (a->utilisation, b->utilisation);
}

static gboolean
is_judged_by_own (const TrnFinding *f)
{
  return f->check == TRN_CHECK_ATTITUDE
         || (f->check == TRN_CHECK_LOAD_SHARE && g_strcmp0 (f->item, "out-of-plane") == 0);
}

static void
say_both (const TrnFinding *a, const TrnFinding *b)
{
  g_test_message ("check %d move %d %s %s %s: verdict %d and %d, %s and %s, value %.12g and %.12g,"
                  " limit %.12g and %.12g, allowance %.12g and %.12g",
                  (int)a->check, a->move, a->body, a->obstacle, a->item, (int)a->verdict,
                  (int)b->verdict, a->missing, b->missing, a->value, b->value, a->limit, b->limit,
                  a->allowance_m, b->allowance_m);
}

/* How many findings of the second lift differ, each said where none has to. */
static guint
count_others (const TestRun *a, const TestRun *b, gboolean none_has_to)
{
  const GArray *of_a = a->findings->lifts[1].findings, *of_b = b->findings->lifts[1].findings;
  guint n = 0;
  g_assert_cmpuint (of_a->len, ==, of_b->len);
  for (guint i = 0; i < of_a->len; i++)
    {
      const TrnFinding *f = &g_array_index (of_a, TrnFinding, i),
                       *g = &g_array_index (of_b, TrnFinding, i);
      g_assert_cmpint (f->check, ==, g->check);
      g_assert_cmpint (f->move, ==, g->move);
      g_assert_cmpstr (f->body, ==, g->body);
      g_assert_cmpstr (f->obstacle, ==, g->obstacle);
      g_assert_cmpstr (f->item, ==, g->item);
      if (is_judged_by_own (f) || are_alike (f, g))
        continue;
      n++;
      if (none_has_to)
        say_both (f, g);
    }
  return n;
}

static void
test_same (gconstpointer data)
{
  const Case *c = data;
  TestRun left = run_case (c, FIRST, "");
  g_autofree char *tolerance = tolerance_dup (&left);
  TestRun stated = run_case (c, FIRST, tolerance), none = run_case (c, "", "");
  g_assert_cmpuint (count_others (&left, &stated, TRUE), ==, 0);
  g_assert_cmpuint (count_others (&left, &none, FALSE), >, 0);
  test_run_clear (&left);
  test_run_clear (&stated);
  test_run_clear (&none);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *path = g_strconcat ("/checks/taken-up/", cases[i].name, NULL);
      g_test_add_data_func (path, &cases[i], test_same);
    }
  return g_test_run ();
}
