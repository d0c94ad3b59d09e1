/* test-check.c: the check in the background: the same findings as in one go, lift after lift. */
#include "desk-fixture.h"

#include <string.h>

typedef struct
{
  char *folder;
  DeskDocument *document;
  DeskCheck *check;
  DeskSite *site; /* the document's */
} Fixture;

/* Four lifts, between which structures and components come and go. */
static void
set_up (Fixture *fixture, gconstpointer name)
{
  fixture->folder = test_folder_new ();
  fixture->document = desk_document_new ();
  fixture->check = desk_check_new ();
  g_autoptr (GFile) file = test_plan_copy (fixture->folder, name);
  desk_document_open (fixture->document, file, 0);
  test_wait (test_document_is_done (fixture->document));
  fixture->site = desk_document_get_site (fixture->document);
  g_assert_nonnull (fixture->site);
}

static void
tear_down (Fixture *fixture, gconstpointer name)
{
  g_object_unref (fixture->check);
  g_object_unref (fixture->document);
  test_folder_free (fixture->folder);
}

static void
on_changed (DeskCheck *check, double *last)
{
  double fraction = desk_check_get_fraction (check);
  const TrnFindings *findings = desk_check_get_findings (check);
  g_assert_cmpfloat (fraction, >=, *last);
  *last = fraction;
  if (findings == NULL)
    return;
  /* In order; and nothing passes before all is there. */
  for (guint i = 0; i < findings->n_lifts; i++)
    g_assert_cmpuint (findings->lifts[i].lift, ==, i);
  if (desk_check_get_state (check) == DESK_CHECK_RUNNING && !findings->complete)
    g_assert_cmpint (findings->verdict, >=, TRN_VERDICT_UNKNOWN);
}

static void
assert_same_findings (const TrnFindings *found, const TrnFindings *expected)
{
  g_assert_cmpuint (found->n_lifts, ==, expected->n_lifts);
  g_assert_cmpint (found->verdict, ==, expected->verdict);
  g_assert_true (found->complete);
  for (guint i = 0; i < found->n_lifts; i++)
    {
      GArray *a = found->lifts[i].findings, *b = expected->lifts[i].findings;
      g_assert_cmpuint (a->len, ==, b->len);
      for (guint k = 0; k < a->len; k++)
        {
          const TrnFinding *f = &g_array_index (a, TrnFinding, k);
          const TrnFinding *g = &g_array_index (b, TrnFinding, k);
          g_assert_cmpint (f->check, ==, g->check);
          g_assert_cmpint (f->state, ==, g->state);
          g_assert_cmpuint (f->lift, ==, g->lift);
          g_assert_cmpstr (f->obstacle, ==, g->obstacle);
          g_assert_true (memcmp (&f->lower_m, &g->lower_m, sizeof f->lower_m) == 0);
          g_assert_true (memcmp (&f->time_s, &g->time_s, sizeof f->time_s) == 0);
        }
    }
}

static void
test_all_lifts (Fixture *fixture, gconstpointer name)
{
  double last = 0;
  g_signal_connect (fixture->check, "changed", G_CALLBACK (on_changed), &last);
  g_assert_cmpint (desk_check_get_state (fixture->check), ==, DESK_CHECK_NONE);
  g_assert_null (desk_check_get_findings (fixture->check));
  desk_check_start (fixture->check, fixture->site);
  g_assert_cmpint (desk_check_get_state (fixture->check), ==, DESK_CHECK_RUNNING);
  g_assert_null (desk_check_get_lift (fixture->check, 0));
  test_wait (desk_check_get_state (fixture->check) == DESK_CHECK_DONE);
  g_assert_cmpfloat (desk_check_get_fraction (fixture->check), ==, 1);
  TrnCheckOptions options = { .jobs = 1 };
  g_autoptr (TrnFindings) expected = trn_checks_run (fixture->site->scene, &options);
  assert_same_findings (desk_check_get_findings (fixture->check), expected);
  for (guint i = 0; i < expected->n_lifts; i++)
    g_assert_cmpuint (desk_check_get_lift (fixture->check, i)->lift, ==, i);
  g_assert_null (desk_check_get_lift (fixture->check, expected->n_lifts));
  g_assert_true (desk_check_get_site (fixture->check) == fixture->site);
}

/* What was stopped never passes, nothing comes in afterwards, and it can begin again. */
static void
test_cancel (Fixture *fixture, gconstpointer name)
{
  guint n_changed;
  desk_check_start (fixture->check, fixture->site);
  desk_check_cancel (fixture->check);
  test_count_signal (fixture->check, "changed", &n_changed);
  g_assert_cmpint (desk_check_get_state (fixture->check), ==, DESK_CHECK_CANCELLED);
  const TrnFindings *findings = desk_check_get_findings (fixture->check);
  if (findings != NULL)
    {
      g_assert_false (findings->complete);
      g_assert_cmpint (findings->verdict, >=, TRN_VERDICT_UNKNOWN);
    }
  test_idle (0.5);
  g_assert_cmpuint (n_changed, ==, 0);
  desk_check_start (fixture->check, fixture->site);
  test_wait (desk_check_get_state (fixture->check) == DESK_CHECK_DONE);
  g_assert_true (desk_check_get_findings (fixture->check)->complete);
}

/* Begun again while it runs: what came before is gone, and at the end there is one set. */
static void
test_start_again (Fixture *fixture, gconstpointer name)
{
  desk_check_start (fixture->check, fixture->site);
  test_wait (desk_check_get_findings (fixture->check) != NULL);
  desk_check_start (fixture->check, fixture->site);
  g_assert_null (desk_check_get_findings (fixture->check));
  test_wait (desk_check_get_state (fixture->check) == DESK_CHECK_DONE);
  g_assert_cmpuint (desk_check_get_findings (fixture->check)->n_lifts, ==,
                    fixture->site->scene->programme->n_runs);
}

/* The check keeps the site alive that it is about, also after the document has let go of it. */
static void
test_keeps_site (Fixture *fixture, gconstpointer name)
{
  desk_check_start (fixture->check, fixture->site);
  desk_document_close (fixture->document);
  test_wait (desk_check_get_state (fixture->check) == DESK_CHECK_DONE);
  const TrnFinding *finding
      = &g_array_index (desk_check_get_lift (fixture->check, 0)->findings, TrnFinding, 0);
  g_assert_cmpstr (finding->obstacle, ==, "slab");
  desk_check_clear (fixture->check);
  g_assert_null (desk_check_get_site (fixture->check));
  g_assert_null (desk_check_get_findings (fixture->check));
  g_assert_cmpint (desk_check_get_state (fixture->check), ==, DESK_CHECK_NONE);
}

/* Read again, a plan keeps its meshes and trees, and no sweep is made a second time; closed,
 * nothing is kept. */
static void
test_read_again (Fixture *fixture, gconstpointer name)
{
  desk_check_start (fixture->check, fixture->site);
  test_wait (desk_check_get_state (fixture->check) == DESK_CHECK_DONE);
  g_autoptr (TrnCache) cache = trn_cache_ref (fixture->site->cache);
  g_autoptr (DeskSite) first = desk_site_ref (fixture->site);
  TrnCacheCount before = trn_cache_count (cache, TRN_CACHE_SWEEP);
  g_assert_cmpuint (before.misses, >, 0);
  desk_document_reload (fixture->document);
  test_wait (test_document_is_done (fixture->document));
  DeskSite *second = desk_document_get_site (fixture->document);
  g_assert_true (second != first && second->scene != first->scene);
  g_assert_true (second->scene->components[0].bodies[0].bvh
                 == first->scene->components[0].bodies[0].bvh);
  desk_check_start (fixture->check, second);
  test_wait (desk_check_get_state (fixture->check) == DESK_CHECK_DONE);
  TrnCacheCount after = trn_cache_count (cache, TRN_CACHE_SWEEP);
  g_assert_cmpuint (after.misses, ==, before.misses);
  g_assert_cmpuint (after.hits, ==, 2 * before.hits + before.misses);
  TrnCheckOptions options = { .jobs = 1 };
  g_autoptr (TrnFindings) expected = trn_checks_run (second->scene, &options);
  assert_same_findings (desk_check_get_findings (fixture->check), expected);
  desk_document_close (fixture->document);
  for (guint kind = 0; kind < TRN_CACHE_N_KINDS; kind++)
    g_assert_cmpuint (trn_cache_count (cache, (TrnCacheKind)kind).kept, ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add ("/check/all-lifts", Fixture, "changes", set_up, test_all_lifts, tear_down);
  g_test_add ("/check/cancel", Fixture, "changes", set_up, test_cancel, tear_down);
  g_test_add ("/check/start-again", Fixture, "changes", set_up, test_start_again, tear_down);
  g_test_add ("/check/keeps-site", Fixture, "changes", set_up, test_keeps_site, tear_down);
  g_test_add ("/check/read-again", Fixture, "changes", set_up, test_read_again, tear_down);
  return g_test_run ();
}
