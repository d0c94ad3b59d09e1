/* test-view-words.c: the words in a picture. */
#include "view-words.h"

/* A distance is never said to be more than it is, what is to be kept never less. */
static void
test_gap (void)
{
  const struct
  {
    double distance_m, required_m, allowance_m;
    const char *text;
  } cases[] = { { 0.3187, 0.5, 0, "0.318 m, keep 0.5 m" },
                { 12, 0.1001, NAN, "12 m, keep 0.101 m" },
                { 0, 0.5, 0.1, "Touching, keep 0.5 m" },
                { 0.0004, 0.5, 0, "0 m, keep 0.5 m" },
                { 0.31, 0.3, 0.1, "0.31 m, 0.1 m taken off, keep 0.3 m" } };
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *text
          = trn_words_gap (cases[i].distance_m, cases[i].required_m, cases[i].allowance_m);
      g_assert_cmpstr (text, ==, cases[i].text);
    }
}

/* What is in another is not said to touch it. A grid has a round pitch in the unit of the screen:
 * of 3.4 m, which are 11.2 ft, 2 m and 10 ft; below a foot there is no round number of feet. */
static void
test_meeting_and_grid (void)
{
  g_autofree char *inside = trn_words_gap_meeting (TRN_NOW_INSIDE, 0.4001, 0.5);
  g_assert_cmpstr (inside, ==, "Inside, 0.401 m from the surface, keep 0.5 m");
  g_autofree char *cuts = trn_words_gap_meeting (TRN_NOW_CUTTING, 0, 0.5);
  g_assert_cmpstr (cuts, ==, "Cuts into it, keep 0.5 m");
  g_assert_cmpfloat (trn_words_grid_pitch_m (3.4), ==, 2);
  g_assert_cmpfloat_with_epsilon (trn_words_grid_pitch_m (0.1), 0.1, 1e-12);
  TrnWordsUnits units = trn_words_get_units (), feet = units;
  feet.lengths = TRN_LENGTHS_FEET;
  trn_words_set_units (feet);
  const struct
  {
    double length_m;
    const char *text;
  } cases[] = { { 3.4, "grid 10′" }, { 2, "grid 5′" }, { 0.1, "grid 1′" }, { 31, "grid 100′" } };
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *text = trn_words_grid (trn_words_grid_pitch_m (cases[i].length_m));
      g_assert_cmpstr (text, ==, cases[i].text);
    }
  trn_words_set_units (units);
}

/* What the gap is to is cut at its end; the radius of a circle is never said to be less. */
static void
test_beside (void)
{
  g_autofree char *whole = trn_words_gap_to ("Pipe bridge");
  g_assert_cmpstr (whole, ==, "to Pipe bridge");
  g_autofree char *cut
      = trn_words_gap_to ("Discharge pipe, with an opening for the nozzle of pump 2");
  g_assert_true (g_str_has_prefix (cut, "to Discharge pipe, with an opening"));
  g_assert_true (g_str_has_suffix (cut, "…"));
  g_assert_cmpint (g_utf8_strlen (cut, -1), <=, 40);
  g_autofree char *circle = trn_words_swing_circle (8.2501);
  g_assert_cmpstr (circle, ==, "swing circle, radius 8.251 m");
}

static void
test_section (void)
{
  const struct
  {
    TrnVec3 normal;
    double offset_m;
    const char *text;
  } cases[] = { { { 0, 0, 1 }, 1.2, "cut at z = 1.2 m" },
                { { 0, -1, 0 }, 2.5, "cut at y = −2.5 m" },
                { { -1, 0, 0 }, 0, "cut at x = 0 m" },
                { { 0.6, 0.8, 0 }, 3, "cut by a plane" } };
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *text = trn_words_section (cases[i].normal, cases[i].offset_m);
      g_assert_cmpstr (text, ==, cases[i].text);
    }
}

static void
test_caption (void)
{
  g_autofree char *side = trn_words_caption (2781, "south", TRUE);
  g_assert_cmpstr (side, ==, "0:46:21 · From the south · parallel");
  g_autofree char *oblique = trn_words_caption (0, "3d", FALSE);
  g_assert_cmpstr (oblique, ==, "0:00:00 · Oblique view · perspective");
  g_assert_null (trn_words_view ("top"));
  g_autofree char *grid = trn_words_grid (5);
  g_autofree char *joined = trn_words_join (NULL, grid, NULL);
  g_assert_cmpstr (joined, ==, "grid 5 m");
  g_assert_cmpstr (trn_words_ghost (TRN_GHOST_START), !=, trn_words_ghost (TRN_GHOST_END));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/words/view/meeting-and-grid", test_meeting_and_grid);
  g_test_add_func ("/words/view-words/gap", test_gap);
  g_test_add_func ("/words/view-words/beside", test_beside);
  g_test_add_func ("/words/view-words/section", test_section);
  g_test_add_func ("/words/view-words/caption", test_caption);
  return g_test_run ();
}
