/* What gear stands on, in words. */
#include "footing-words.h"

#include "footing-check.h"
#include "gear-words.h"

typedef struct
{
  TrnVerdict verdict;
  const char *source;
  double support, carried, along, across, gap, level; /* NAN: none */
  const char *says;
} Case;

static void
add (TrnFinding *f, const char *what, double value)
{
  if (!isnan (value))
    trn_finding_add_number (f, what, value, TRN_UNIT_M);
}

/* 25.04 % not carried: 74.96 % is carried, said as no more than 74.9 %. */
static void
test_sentences (void)
{
#define TO_DO                                                                                      \
  ". Set the gear elsewhere or at another height, or give the plan the structure that carries it " \
  "there"
  const Case cases[] = {
    { TRN_VERDICT_PASS, "ground", NAN, 1, NAN, NAN, NAN, NAN,
      "Stands with all of it on what the plan shows, ground" },
    { TRN_VERDICT_PASS, "gravel", NAN, NAN, NAN, NAN, NAN, NAN,
      "Stands on what the plan does not show, but states: gravel" },
    { TRN_VERDICT_FAIL, "ground", 2, 0.7496, 0.5008, 2, 3, NAN,
      "Support 2 stands over an edge or a hole of ground. Nothing carries it on 0.501 m × 2 m; "
      "what "
      "is below that is 3 m lower; at least 74.9 % of it is carried" TO_DO },
    { TRN_VERDICT_FAIL, "ground", 2, 0.7496, 0.5, 2, NAN, NAN,
      "Support 2 stands over an edge or a hole of ground. Nothing carries it on 0.5 m × 2 m, nor "
      "is "
      "anything shown below that; at least 74.9 % of it is carried" TO_DO },
    { TRN_VERDICT_FAIL, "ground", 2, 0.75, 0.5, 2, -0.2, NAN,
      "Support 2 stands over an edge of ground. Nothing carries it on 0.5 m × 2 m; what is there "
      "is "
      "0.2 m higher; at least 75.0 % of it is carried" TO_DO },
    { TRN_VERDICT_FAIL, "street", NAN, 0, 2, 2, 3, NAN,
      "The gear stands on nothing: what is below it, street, is 3 m lower" TO_DO },
    { TRN_VERDICT_FAIL, "street", 1, 0, 2, 2, -0.3, NAN,
      "Support 1 stands 0.3 m below the surface of street" TO_DO },
    { TRN_VERDICT_FAIL, "ground", 1, 0, 2, 2, NAN, NAN,
      "Support 1 stands on nothing, in a hole of ground" TO_DO },
    { TRN_VERDICT_FAIL, "gravel", 1, NAN, NAN, NAN, NAN, 3,
      "Support 1 stands 3 m above the level that the plan states for what is not shown below it "
      "(ground, level)" TO_DO },
    { TRN_VERDICT_FAIL, "gravel", 1, NAN, NAN, NAN, NAN, -3,
      "Support 1 stands 3 m below the level that the plan states for what is not shown below it "
      "(ground, level)" TO_DO },
  };
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      const Case *c = &cases[i];
      TrnFinding f
          = { .check = TRN_CHECK_FOOTING,
              .verdict = c->verdict,
              .state = c->verdict == TRN_VERDICT_PASS ? TRN_STATE_WITHIN : TRN_STATE_OUTSIDE,
              .body = "crane",
              .source = c->source };
      add (&f, TRN_FOOTING_SUPPORT, c->support);
      add (&f, TRN_FOOTING_CARRIED, c->carried);
      add (&f, TRN_FOOTING_ALONG, c->along);
      add (&f, TRN_FOOTING_ACROSS, c->across);
      add (&f, TRN_FOOTING_GAP, c->gap);
      add (&f, TRN_FOOTING_LEVEL, c->level);
      g_autofree char *says = trn_words_finding (&f);
      g_assert_cmpstr (says, ==, c->says);
      g_assert_cmpstr (trn_words_finding_short (&f), ==,
                       c->verdict == TRN_VERDICT_PASS ? "carried" : "NOT CARRIED");
      trn_finding_clear (&f);
    }
}

/* What is missing is named. */
static void
test_missing (void)
{
  TrnFinding f = { .check = TRN_CHECK_FOOTING,
                   .verdict = TRN_VERDICT_UNKNOWN,
                   .state = TRN_STATE_UNKNOWN,
                   .body = "crane",
                   .missing = "ground/stands_on" };
  g_autofree char *says = trn_words_finding (&f);
  g_assert_cmpstr (says, ==,
                   "Not known: the plan shows nothing below it that it stands on; give it the "
                   "ground as a structure, or say in its ground what it stands on there "
                   "(stands_on) and how high that is (level, 0 where left out)");
  g_assert_cmpstr (trn_words_finding_short (&f), ==, "NOT KNOWN");
  f.missing = "ground/rest";
  g_autofree char *rest = trn_words_finding (&f);
  g_assert_cmpstr (
      rest, ==,
      "Not known: a part of its supports stands on what the plan shows, and nothing is "
      "shown below the others; give the plan all of the ground that it stands on, as "
      "structures");
  f.missing = "ground/seam";
  g_autofree char *seam = trn_words_finding (&f);
  g_assert_cmpstr (
      seam, ==,
      "Not known: a support stands on two structures or more, of which each may be off "
      "by its survey, so that a gap may be between them; set it on one, or make them "
      "one structure");
  f.missing = "ground/step";
  g_autofree char *step = trn_words_finding (&f);
  g_assert_cmpstr (
      step, ==,
      "Not known: what it stands on differs in height by more than 10 mm, and only the survey of "
      "it could make that up; give the plan the packing below each support as structures, or set "
      "the gear on what is level");
  f.missing = NULL;
  g_autofree char *stopped = trn_words_finding (&f);
  g_assert_cmpstr (stopped, ==, "Not known: what it stands on could not be worked out");
}

/* A structure is said by its name, with its part; what is only stated is no id. */
static void
test_named (void)
{
  TrnStructure structures[] = { { .id = (char *)"quay", .name = (char *)"North quay" } };
  const TrnPlan plan = { .structures = structures, .n_structures = G_N_ELEMENTS (structures) };
  TrnFinding f = { .check = TRN_CHECK_FOOTING,
                   .verdict = TRN_VERDICT_PASS,
                   .state = TRN_STATE_WITHIN,
                   .body = "crane",
                   .source = "quay/edge" };
  g_autofree char *stated = trn_words_finding_named (&plan, &f);
  g_assert_cmpstr (stated, ==, "Stands on what the plan does not show, but states: quay/edge");
  add (&f, TRN_FOOTING_CARRIED, 1);
  g_autofree char *shown = trn_words_finding_named (&plan, &f);
  g_assert_cmpstr (shown, ==, "Stands with all of it on what the plan shows, North quay, edge");
  g_autofree char *by_id = trn_words_finding (&f);
  g_assert_cmpstr (by_id, ==, "Stands with all of it on what the plan shows, quay/edge");
  trn_finding_clear (&f);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/words/footing/sentences", test_sentences);
  g_test_add_func ("/words/footing/missing", test_missing);
  g_test_add_func ("/words/footing/named", test_named);
  return g_test_run ();
}
