/* render.c: `trunnion render`: one moment of a lift as a picture, without a display.
 *
 * With --closest the checks run first, and the worst finding that has points says which lift and
 * which moment. With --time the lift of the picture is checked, so that what is written at the gap
 * is a verdict and not a number alone; a clean picture says nothing and needs none. The picture is
 * made whole in memory, so that it is written whole or not at all. */
#include <string.h>

#include "cli.h"
#include "output.h"
#include "picture.h"
#include "picture-of.h"
#include "view-words.h"
#include "watch.h"

typedef struct
{
  const CliOptions *options;
  TrnDiags *diags;
  TrnScene *scene;       /* owned */
  TrnFindings *findings; /* owned; NULL: not checked */
  CliWatch *watch;
} Work;

static void
work_clear (Work *work)
{
  trn_findings_free (work->findings);
  trn_scene_free (work->scene);
}

static gboolean
is_interrupted (const Work *work)
{
  return trn_progress_is_cancelled (cli_watch_progress (work->watch));
}

static guint
find_lift (const TrnProgramme *programme, const char *id)
{
  for (guint i = 0; id != NULL && i < programme->n_runs; i++)
    if (strcmp (programme->runs[i].lift->id, id) == 0)
      return i;
  return 0;
}

static void
build_take (Work *work, TrnProgramme *programme)
{
  const CliOptions *options = work->options;
  TrnProgress *progress = cli_watch_progress (work->watch);
  TrnSceneOptions scene_options
      = { .solid_deviation_m = options->deviation_m, .jobs = options->jobs, .progress = progress };
  TrnCheckOptions check_options
      = { .jobs = options->jobs, .lift = options->lift, .progress = progress };
  work->scene = trn_scene_build_take (programme, &scene_options, work->diags);
  if (work->scene != NULL && !options->closest && work->scene->programme->n_runs > 0)
    check_options.lift
        = work->scene->programme->runs[find_lift (work->scene->programme, options->lift)].lift->id;
  if (work->scene != NULL && (options->closest || !options->clean))
    {
      cli_watch_stage (work->watch, TRN_STAGE_CHECKING);
      work->findings = trn_checks_run (work->scene, &check_options);
    }
}

/* Near a seat the margin is what the plan itself leaves, as in the table of a check. */
static gboolean
tells_place (const TrnFinding *f)
{
  return f->has_points && f->check == TRN_CHECK_CLEARANCE && !isnan (trn_words_margin_m (f))
         && !(f->has_seated && f->verdict == TRN_VERDICT_PASS);
}

/* NULL when no finding has points. */
static const TrnFinding *
find_worst (const TrnFindings *findings)
{
  const TrnFinding *worst = NULL;
  for (guint i = 0; i < findings->n_lifts; i++)
    for (guint k = 0; k < findings->lifts[i].findings->len; k++)
      {
        const TrnFinding *f = &g_array_index (findings->lifts[i].findings, TrnFinding, k);
        if (tells_place (f) && (worst == NULL || trn_words_compare_worst (f, worst, NAN) < 0))
          worst = f;
      }
  return worst;
}

static TrnDiag *
add_error (const Work *work, const char *code)
{
  return trn_diags_add (work->diags, TRN_SEVERITY_ERROR, code, NULL);
}

/* The moment that is meant: which lift, when, and the finding that is looked at. */
static gboolean
choose_moment (const Work *work, CliMoment *moment)
{
  const TrnProgramme *programme = work->scene->programme;
  *moment = (CliMoment){ .findings = work->findings };
  if (work->options->closest)
    {
      moment->finding = find_worst (work->findings);
      if (moment->finding == NULL)
        {
          add_error (work, "cli/nothing-closest");
          return FALSE;
        }
      moment->run = moment->finding->lift;
      moment->time_s = moment->finding->time_s;
      return TRUE;
    }
  moment->run = find_lift (programme, work->options->lift);
  const TrnLiftRun *run = &programme->runs[moment->run];
  double end_s = run->begins_s[run->lift->n_moves];
  moment->time_s = work->options->time_s;
  if (moment->time_s <= end_s)
    return TRUE;
  TrnDiag *diag = add_error (work, "cli/time-beyond");
  trn_diag_set_text (diag, "lift", run->lift->id);
  trn_diag_set_number (diag, "end", end_s, TRN_UNIT_S);
  return FALSE;
}

typedef struct
{
  const Work *work;
  GByteArray *png;
} Sink;

static cairo_status_t
append (void *closure, const unsigned char *bytes, unsigned int length)
{
  Sink *sink = closure;
  if (is_interrupted (sink->work))
    return CAIRO_STATUS_WRITE_ERROR;
  g_byte_array_append (sink->png, bytes, length);
  return CAIRO_STATUS_SUCCESS;
}

static CliStatus
encode (const Work *work, cairo_surface_t *surface, GByteArray *png)
{
  Sink sink = { work, png };
  cli_watch_stage (work->watch, TRN_STAGE_WRITING);
  cairo_status_t status = cairo_surface_write_to_png_stream (surface, append, &sink);
  if (status == CAIRO_STATUS_SUCCESS)
    return CLI_PASSES;
  if (is_interrupted (work))
    return CLI_INTERRUPTED;
  trn_diag_set_text (add_error (work, "cli/no-picture"), "reason", cairo_status_to_string (status));
  return CLI_CANNOT_WRITE;
}

static gboolean
on_drawn (double done, gpointer data)
{
  const Work *work = data;
  cli_watch_tell (work->watch, (guint)(done * 100), 100);
  return !is_interrupted (work);
}

static CliStatus
draw (Work *work, const CliMoment *moment, GByteArray *png)
{
  g_autoptr (GError) error = NULL;
  CliPictureProgress progress = { on_drawn, work };
  cli_watch_stage (work->watch, TRN_STAGE_DRAWING);
  cairo_surface_t *surface
      = cli_picture_draw (work->options, work->scene, moment, progress, &error);
  if (surface == NULL && is_interrupted (work))
    return CLI_INTERRUPTED;
  if (surface == NULL)
    {
      gboolean no_opengl
          = g_error_matches (error, RENDER_PICTURE_ERROR, RENDER_PICTURE_ERROR_NO_OPENGL);
      trn_diag_set_text (add_error (work, no_opengl ? "cli/no-opengl" : "cli/no-picture"), "reason",
                         error->message);
      return no_opengl ? CLI_NO_OPENGL : CLI_CANNOT_WRITE;
    }
  CliStatus status = encode (work, surface, png);
  cairo_surface_destroy (surface);
  return status;
}

/* The picture in memory. */
static CliStatus
make_take (Work *work, TrnProgramme *programme, GByteArray *png)
{
  build_take (work, programme);
  if (is_interrupted (work))
    return CLI_INTERRUPTED;
  if (work->scene == NULL)
    return CLI_BAD_PLAN;
  CliMoment moment;
  return choose_moment (work, &moment) ? draw (work, &moment, png) : CLI_WRONG_USE;
}

static CliStatus
render_take (Work *work, TrnProgramme *programme)
{
  g_autoptr (GByteArray) png = g_byte_array_new ();
  work->watch = cli_watch_start ();
  CliStatus status = make_take (work, programme, png);
  if (cli_watch_stop (work->watch))
    {
      cli_note_interrupted (work->diags);
      return CLI_INTERRUPTED;
    }
  if (status != CLI_PASSES)
    return status;
  return cli_output_write (work->options->output, (const char *)png->data, png->len, work->diags)
             ? cli_finish_output (CLI_PASSES)
             : CLI_CANNOT_WRITE;
}

CliStatus
cli_render (const CliOptions *options)
{
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_autoptr (TrnProgramme) programme = NULL;
  CliStatus status = cli_open (options, &programme, diags);
  if (status == CLI_PASSES)
    {
      Work work = { .options = options, .diags = diags };
      status = render_take (&work, g_steal_pointer (&programme));
      work_clear (&work);
    }
  cli_print_diags (diags);
  return status;
}
