/* test-strip-lines.c: shares of the load and what the wind does, as lines of the strip. The plan of
 * a crane beside a rack has one hook and no wind: the first move goes up for 20 s, the other slews.
 */
#include <gtk/gtk.h>
#include <math.h>
#include <string.h>

#include "desk-fixture.h"
#include "keep-loaded.h"
#include "strip-data.h"
#include "strip.h"

typedef struct
{
  char *folder;
  DeskSession *session;
} Fixture;

/* With wind, or without. */
static void
fixture_open (Fixture *f, gboolean has_wind)
{
  g_autofree char *plan = test_plan_text ("crane-beside-rack");
  g_autofree char *windy
      = test_replace (plan, "\"keep_clear\": 0.5,",
                      "\"wind\": { \"speed\": 6, \"drag\": 1.2, \"source\": \"made up\" }, "
                      "\"keep_clear\": 0.5,");
  *f = (Fixture){ test_folder_new (), desk_session_new () };
  g_autoptr (GFile) file = test_write (f->folder, "crane.trunnion", has_wind ? windy : plan);
  desk_document_open (desk_session_get_document (f->session), file, 0);
  test_wait (test_is_settled (f->session));
}

static void
fixture_clear (Fixture *f)
{
  g_object_unref (f->session);
  test_folder_free (f->folder);
}

static double
found_in_band (const DeskStripData *data, guint band)
{
  for (guint i = 0; i < data->strip.n_limits; i++)
    if (data->strip.limits[i].band == band && data->strip.limits[i].is_found)
      return data->strip.limits[i].value;
  g_assert_not_reached ();
}

static const double *
values_of (const DeskStripData *data, guint gauge)
{
  return data->strip.gauges[gauge].values;
}

/* One hook has all of the load, and the plan has no wind: both say so where their lines would be.
 */
static void
test_no_line (void)
{
  Fixture f;
  fixture_open (&f, FALSE);
  desk_session_set_gauges (f.session, 1u << TRN_GAUGE_SHARE | 1u << TRN_GAUGE_WIND);
  g_assert_cmpuint (desk_strip_count_bands (f.session), ==, 2);
  g_autoptr (DeskStripData) data = desk_strip_data_new (f.session);
  g_assert_cmpuint (data->strip.n_gauges, ==, 0);
  g_assert_cmpuint (data->strip.n_bands, ==, 2);
  g_assert_cmpstr (data->strip.bands[0].note, ==, trn_words_gauge_note (TRN_GAUGE_NOTE_ONE_HOOK));
  g_assert_cmpstr (data->strip.bands[1].note, ==, trn_words_gauge_note (TRN_GAUGE_NOTE_NO_WIND));
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, 500, 300);
  cairo_t *cr = cairo_create (surface);
  render_strip_draw (cr, &data->strip, (RenderSize){ 500, 300 });
  g_assert_cmpint (cairo_status (cr), ==, CAIRO_STATUS_SUCCESS);
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
  /* Before the check of a plan with wind nothing is known of it. */
  TrnPlan windy = *desk_session_get_site (f.session)->plan;
  windy.wind.given = TRUE;
  const TrnLiftRun *run = desk_session_get_lift_run (f.session);
  g_assert_cmpstr (desk_gauge_note (&windy, run, NULL, TRN_GAUGE_WIND), ==,
                   trn_words_gauge_note (TRN_GAUGE_NOTE_NOT_CHECKED));
  g_assert_true (isnan (desk_wind_aside_m (NULL, run, 0, 0.5)));
  fixture_clear (&f);
}

/* What the clearances of the load take off for wind in that move; NAN: nothing. */
static double
wind_taken_off (const GArray *findings, int move)
{
  double m = NAN;
  for (guint i = 0; i < findings->len; i++)
    {
      const TrnFinding *finding = &g_array_index (findings, TrnFinding, i);
      const GArray *parts = finding->allowance_parts;
      if (finding->check != TRN_CHECK_CLEARANCE || finding->move != move
          || strcmp (finding->body, "load") != 0)
        continue;
      for (guint k = 0; parts != NULL && k < parts->len; k++)
        if (strcmp (g_array_index (parts, TrnFindingItem, k).what, "wind") == 0)
          m = fmin (m, g_array_index (parts, TrnFindingItem, k).m);
    }
  return m;
}

/* The line of the wind has what the check takes off in each move, the greater one where two meet,
 * and the greatest of all as found; read it says that it is a bound. */
static void
test_wind (void)
{
  Fixture f;
  fixture_open (&f, TRUE);
  desk_session_set_gauges (f.session, 1u << TRN_GAUGE_WIND);
  g_autoptr (DeskStripData) data = desk_strip_data_new (f.session);
  const GArray *findings = desk_check_get_lift (desk_session_get_check (f.session), 0)->findings;
  const double first_m = wind_taken_off (findings, 0), second_m = wind_taken_off (findings, 1);
  g_assert_cmpfloat (first_m, >, 0);
  g_assert_cmpfloat (second_m, >, 0);
  g_assert_cmpuint (data->strip.n_gauges, ==, 1);
  g_assert_null (data->strip.bands[0].note);
  g_assert_cmpstr (data->strip.bands[0].title, ==, trn_words_gauge_drawn (TRN_GAUGE_WIND));
  for (guint i = 0; i < data->strip.n_times; i++)
    {
      const double time_s = data->strip.times_s[i];
      const double wanted_m = time_s < 20   ? first_m
                              : time_s > 20 ? second_m
                                            : fmax (first_m, second_m);
      g_assert_cmpfloat (values_of (data, 0)[(gsize)i * data->strip.gauges[0].stride], ==,
                         wanted_m);
    }
  g_assert_cmpfloat (found_in_band (data, 0), ==, fmax (first_m, second_m));
  g_assert_cmpfloat (data->strip.bands[0].ticks[0], ==, 0);
  GtkWidget *strip = g_object_ref_sink (desk_strip_new (f.session));
  g_autoptr (GPtrArray) readings = desk_strip_read_gauges (strip, 50);
  g_autofree char *number = trn_words_gauge_value (TRN_GAUGE_WIND, second_m);
  g_autofree char *text = trn_words_gauge_at_most (number);
  g_autofree char *reading = trn_words_gauge_reading (data->strip.gauges[0].name, text);
  g_assert_cmpuint (readings->len, ==, 1);
  g_assert_cmpstr (readings->pdata[0], ==, reading);
  g_object_unref (strip);
  fixture_clear (&f);
}

/* A move without a bound has no line, nor has the moment where it meets another; what was found is
 * then of a part. Where nothing is known it says so, and where it hangs nowhere. */
static void
test_wind_unknown (void)
{
  Fixture f;
  fixture_open (&f, TRUE);
  const TrnLiftRun *run = desk_session_get_lift_run (f.session);
  const TrnPlan *plan = desk_session_get_site (f.session)->plan;
  GArray *findings = desk_check_get_lift (desk_session_get_check (f.session), 0)->findings;
  const DeskGauge wind = { .gauge = TRN_GAUGE_WIND };
  const double first_m = wind_taken_off (findings, 0);
  double greatest_m;
  gboolean is_all;
  g_assert_true (desk_gauge_found (findings, &wind, &greatest_m, &is_all) && is_all);
  for (guint move = 2; move-- > 0;)
    {
      for (guint i = 0; i < findings->len; i++)
        {
          TrnFinding *finding = &g_array_index (findings, TrnFinding, i);
          if (finding->check == TRN_CHECK_WIND && g_strcmp0 (finding->item, "sway") == 0)
            finding->value = NAN;
          for (guint k = 0; finding->move == (int)move && finding->allowance_parts != NULL
                            && k < finding->allowance_parts->len;
               k++)
            if (strcmp (g_array_index (finding->allowance_parts, TrnFindingItem, k).what, "wind")
                == 0)
              g_array_index (finding->allowance_parts, TrnFindingItem, k).m = NAN;
        }
      g_assert_true (isnan (desk_wind_aside_m (findings, run, move, 0.5)));
      g_assert_true (isnan (desk_wind_aside_m (findings, run, 0, 1)));
      g_assert_true (desk_gauge_found (findings, &wind, &greatest_m, &is_all));
      g_assert_false (is_all);
      if (move == 1)
        {
          g_assert_cmpfloat (desk_wind_aside_m (findings, run, 0, 0.5), ==, first_m);
          g_assert_cmpfloat (greatest_m, ==, first_m);
          g_assert_null (desk_gauge_note (plan, run, findings, TRN_GAUGE_WIND));
        }
    }
  g_assert_true (isnan (greatest_m));
  g_assert_cmpstr (desk_gauge_note (plan, run, findings, TRN_GAUGE_WIND), ==,
                   trn_words_gauge_note (TRN_GAUGE_NOTE_NOT_KNOWN));
  for (guint i = 0; i < findings->len; i++)
    g_array_index (findings, TrnFinding, i).value = 0;
  g_assert_cmpstr (desk_gauge_note (plan, run, findings, TRN_GAUGE_WIND), ==,
                   trn_words_gauge_note (TRN_GAUGE_NOTE_NOT_HUNG));
  fixture_clear (&f);
}

/* What bounds both hooks needs no owner; what bounds one of them alone has it. */
static void
assert_owners (DeskSession *session)
{
  desk_session_set_gauges (session, 1u << TRN_GAUGE_TIP_ABOVE_HOOK | 1u << TRN_GAUGE_CAPACITY);
  test_wait (test_is_settled (session));
  g_autoptr (DeskStripData) data = desk_strip_data_new (session);
  g_autofree char *rated = trn_words_gauge_limit (TRN_GAUGE_MOST_CAPACITY, 1);
  guint n_rated = 0, n_tips = 0;
  for (guint i = 0; i < data->strip.n_limits; i++)
    {
      const RenderStripLimit *limit = &data->strip.limits[i];
      if (limit->is_found)
        continue;
      if (strcmp (data->strip.bands[limit->band].title, trn_words_gauge_drawn (TRN_GAUGE_CAPACITY))
          == 0)
        {
          g_assert_cmpstr (limit->text, ==, rated);
          n_rated++;
          continue;
        }
      g_assert_cmpstr (limit->text, ==,
                       limit->value > 4 ? "Main crane: hook to tip at least 4.5 m"
                                        : "Tail crane: hook to tip at least 3.5 m");
      n_tips++;
    }
  g_assert_cmpuint (n_rated, ==, 1);
  g_assert_cmpuint (n_tips, >, 0);
}

/* Two hooks have all of the load between them at every moment at which both hold, and one that
 * holds alone has all of it; what was found is never less. */
static void
test_shares (void)
{
  DeskSession *session = desk_session_new ();
  g_autoptr (GFile) file = test_demo ("column-tandem");
  desk_document_open (desk_session_get_document (session), file, 0);
  test_wait (desk_check_get_state (desk_session_get_check (session)) == DESK_CHECK_DONE);
  test_wait (test_is_settled (session));
  desk_session_set_gauges (session, 1u << TRN_GAUGE_SHARE);
  g_autoptr (DeskStripData) data = desk_strip_data_new (session);
  const RenderStrip *strip = &data->strip;
  g_assert_cmpuint (strip->n_gauges, ==, 2);
  g_assert_cmpuint (strip->n_bands, ==, 1);
  guint n_both = 0, n_alone = 0;
  double most = 0;
  for (guint i = 0; i < strip->n_times; i++)
    {
      const double main = values_of (data, 0)[(gsize)i * strip->gauges[0].stride],
                   tail = values_of (data, 1)[(gsize)i * strip->gauges[1].stride];
      most = fmax (most, fmax (main, tail));
      if (isnan (tail))
        g_assert_cmpfloat (main, ==, 1);
      else
        g_assert_cmpfloat_with_epsilon (main + tail, 1, 1e-9);
      n_both += !isnan (tail) && tail > 0.1;
      n_alone += isnan (tail);
    }
  g_assert_cmpuint (n_both, >, 0);
  g_assert_cmpuint (n_alone, >, 0);
  guint n_slack = 0;
  for (guint i = 0; i < strip->n_limits; i++)
    {
      if (strip->limits[i].is_found)
        g_assert_cmpfloat (strip->limits[i].value, >=, most * (1 - 1e-9));
      else
        {
          g_assert_cmpfloat (strip->limits[i].value, ==, 0);
          n_slack++;
        }
    }
  g_assert_cmpuint (n_slack, ==, 1);
  g_assert_cmpuint (strip->n_limits, ==, 2);
  g_assert_cmpfloat (strip->bands[0].ticks[0], <=, 0);
  g_assert_cmpfloat (strip->bands[0].ticks[strip->bands[0].n_ticks - 1], >=, 1);
  assert_owners (session);
  /* Without a mass, or without a centre of gravity, it would say so. */
  const TrnPlan *plan = desk_session_get_site (session)->plan;
  const TrnLiftRun *run = desk_session_get_lift_run (session);
  g_assert_null (desk_gauge_note (plan, run, NULL, TRN_GAUGE_SHARE));
  TrnComponent *component = &plan->components[run->lift->component];
  component->cog.x = NAN;
  g_assert_cmpstr (desk_gauge_note (plan, run, NULL, TRN_GAUGE_SHARE), ==,
                   trn_words_gauge_note (TRN_GAUGE_NOTE_NO_COG));
  component->mass_kg = NAN;
  g_assert_cmpstr (desk_gauge_note (plan, run, NULL, TRN_GAUGE_SHARE), ==,
                   trn_words_gauge_note (TRN_GAUGE_NOTE_NO_MASS));
  /* So would each line of forces that the lift has, and none that it has not. */
  const TrnGauge forces[] = { TRN_GAUGE_LOAD, TRN_GAUGE_TENSION, TRN_GAUGE_CAPACITY };
  for (guint i = 0; i < G_N_ELEMENTS (forces); i++)
    g_assert_cmpstr (desk_gauge_note (plan, run, NULL, forces[i]), ==,
                     trn_words_gauge_note (TRN_GAUGE_NOTE_NO_MASS));
  g_assert_null (desk_gauge_note (plan, run, NULL, TRN_GAUGE_RADIUS));
  component->mass_kg = 1000;
  g_assert_null (desk_gauge_note (plan, run, NULL, TRN_GAUGE_LOAD));
  g_object_unref (session);
}

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  g_test_add_func ("/desk/strip-lines/no-line", test_no_line);
  g_test_add_func ("/desk/strip-lines/wind", test_wind);
  g_test_add_func ("/desk/strip-lines/wind-unknown", test_wind_unknown);
  g_test_add_func ("/desk/strip-lines/shares", test_shares);
  return g_test_run ();
}
