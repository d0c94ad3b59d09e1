/* test-site-view.c: what a moment of a lift shows, by closed form: a box is hoisted off a slab and
 * then turned beside a wall. */
#include "desk-words.h"
#include "gauge-words.h"
#include "site-view.h"
#include "test-crane.h"
#include "test-plan.h"
#include "view-words.h"

/* The crate, 2 m wide and 2 m high, stands on the slab, rises 3 m at 0.1 m/s, and turns half round
 * about its own middle in 60 s; the wall's face is 4.5 m from the crate's at first. The ground has
 * its top 1 m below the slab's, at −1, and an opening 2 m wide. */
static const char plan_text[]
    = "{'format':'trunnion-plan','version':1,'keep_clear':0.2,"
      "'structures':[{'id':'ground','at':{'position':[0,0,-1]},"
      "'solid':{'kind':'ground','size':[60,60],'openings':[{'circle':[20,0,2]}]}},"
      "{'id':'slab','at':{'position':[0,0,-1]},'solid':{'kind':'box','size':[8,8,1]}},"
      "{'id':'hall','at':{'position':[6,0,0]},'solid':{'kind':'group','parts':["
      "{'id':'wall','at':{'position':[0,0,-1]},'solid':{'kind':'box','size':[1,20,9]}},"
      "{'id':'roof','at':{'position':[0,0,9]},'solid':{'kind':'box','size':[1,20,1]}}]}}],"
      "'components':[{'id':'crate','at':{'position':[0,0,0]},'points':{'eye':[0,0,2],"
      "'edge':[1,0,2]},'solid':{'kind':'box','size':[2,2,2]}},"
      "{'id':'drum','at':{'position':[-9,0,-1]},'solid':{'kind':'box','size':[1,1,1]}}],"
      "'programme':[{'lift':'up','component':'crate','hook_point':'eye','moves':["
      "{'do':'hoist','by':3,'seconds':30},{'do':'turn','by':180,'seconds':60}],"
      "'seats':[{'on':'slab','at':'start'}]}]}";

typedef struct
{
  TrnScene *scene;
  RenderSite *site;
  TrnMoment *moment;
  TrnFindings *findings;
} Fixture;

static void
set_up (Fixture *f, gconstpointer data)
{
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  f->scene = trn_scene_build_take (test_programme (plan_text), &(TrnSceneOptions){ 0 }, diags);
  g_assert_nonnull (f->scene);
  f->site = render_site_build (f->scene, 0);
  f->moment = trn_moment_new (f->scene, 0);
  f->findings = trn_checks_run (f->scene, &(TrnCheckOptions){ 0 });
}

static void
tear_down (Fixture *f, gconstpointer data)
{
  trn_findings_free (f->findings);
  trn_moment_free (f->moment);
  render_site_free (f->site);
  trn_scene_free (f->scene);
}

static RenderDrawList *
view_at (Fixture *f, RenderSiteState state, double time_s)
{
  trn_moment_set_time (f->moment, time_s);
  g_autoptr (RenderJudge) judge = render_judge_new (state.findings, f->moment);
  state.judge = judge;
  state.time_s = time_s;
  state.moment = f->moment;
  return render_site_view (f->site, &state);
}

static const RenderBody *
body_at (const RenderDrawList *list, guint i)
{
  g_assert_cmpuint (i, <, list->bodies->len);
  return &g_array_index (list->bodies, RenderBody, i);
}

static const RenderLine *
line_at (const RenderDrawList *list, guint i)
{
  g_assert_cmpuint (i, <, list->lines->len);
  return &g_array_index (list->lines, RenderLine, i);
}

static const RenderLabel *
label_at (const RenderDrawList *list, guint i)
{
  g_assert_cmpuint (i, <, list->labels->len);
  return &g_array_index (list->labels, RenderLabel, i);
}

/* Structures, then the drum, then the load where it is 10 s after the start: 1 m up. */
static void
test_bodies (Fixture *f, gconstpointer data)
{
  g_autoptr (RenderDrawList) list = view_at (f, (RenderSiteState){ .selected = "hall/roof" }, 10);
  g_assert_cmpuint (list->bodies->len, ==, 6);
  const RenderRole roles[] = { RENDER_ROLE_GROUND,    RENDER_ROLE_STRUCTURE, RENDER_ROLE_STRUCTURE,
                               RENDER_ROLE_STRUCTURE, RENDER_ROLE_COMPONENT, RENDER_ROLE_LOAD };
  const char *ids[] = { "ground", "slab", "hall/wall", "hall/roof", "drum", "load" };
  for (guint i = 0; i < 6; i++)
    {
      const RenderBody *body = body_at (list, i);
      g_assert_cmpint (body->role, ==, roles[i]);
      g_assert_cmpint (body->look, ==, RENDER_LOOK_SOLID);
      g_assert_cmpstr (render_site_body_id (f->site, body->id), ==, ids[i]);
      g_assert_cmpint (body->selected, ==, i == 3);
      if (i < 4)
        g_assert_cmpuint (body->id, ==, render_site_pick_id (f->site, i));
    }
  test_assert_near (body_at (list, 5)->site_from_mesh.position, 0, 0, 1, 1e-12);
  g_assert_null (render_site_body_id (f->site, 0));
  g_assert_null (render_site_body_id (f->site, 99));
  g_assert_cmpuint (list->lines->len + list->labels->len + list->marks->len, ==, 0);
  g_assert_false (list->grid || list->human || list->compass);
  g_assert_null (list->caption);
}

/* A hidden body is not there; a ghost is never picked. The crate's own wish is not asked. */
static void
test_visibility (Fixture *f, gconstpointer data)
{
  const RenderVisibility visible[]
      = { RENDER_VISIBLE_SOLID, RENDER_VISIBLE_GHOST, RENDER_VISIBLE_HIDDEN, RENDER_VISIBLE_SOLID };
  g_autoptr (RenderDrawList) list = view_at (f, (RenderSiteState){ .visibility = visible }, 0);
  g_assert_cmpuint (list->bodies->len, ==, 5);
  g_assert_cmpint (body_at (list, 1)->look, ==, RENDER_LOOK_GHOST);
  g_assert_cmpuint (body_at (list, 1)->id, ==, 0);
  g_assert_cmpstr (render_site_body_id (f->site, body_at (list, 2)->id), ==, "hall/roof");
}

/* The hook goes straight up from 2 m to 5 m and stays there; the edge, 1 m beside it, goes round
 * half a circle whose chords stay within 5 mm of it. */
static void
test_paths (Fixture *f, gconstpointer data)
{
  g_autoptr (RenderDrawList) list = view_at (f, (RenderSiteState){ .paths = TRUE }, 0);
  g_assert_cmpuint (list->lines->len, ==, 2);
  const RenderLine *edge = line_at (list, 0), *hook = line_at (list, 1);
  g_assert_cmpint (edge->style, ==, RENDER_LINE_CHAIN_DOTTED);
  g_assert_cmpfloat (hook->width_px, >, edge->width_px);
  g_assert_cmpuint (hook->n_points, ==, 2);
  test_assert_near (hook->points[0], 0, 0, 2, 1e-12);
  test_assert_near (hook->points[1], 0, 0, 5, 1e-12);
  test_assert_near (edge->points[1], 1, 0, 5, 1e-12);
  test_assert_near (edge->points[edge->n_points - 1], -1, 0, 5, 1e-9);
  for (guint i = 1; i + 1 < edge->n_points; i++)
    {
      TrnVec3 middle = trn_vec3_mix (edge->points[i], edge->points[i + 1], 0.5);
      g_assert_cmpfloat (hypot (middle.x, middle.y), >, 1 - 5e-3);
    }
}

static const TrnFinding *
find_clearance (const Fixture *f, guint move, const char *obstacle)
{
  GArray *findings = f->findings->lifts[0].findings;
  for (guint i = 0; i < findings->len; i++)
    {
      const TrnFinding *finding = &g_array_index (findings, TrnFinding, i);
      if (finding->check == TRN_CHECK_CLEARANCE && finding->move == (int)move
          && g_str_equal (finding->obstacle, obstacle))
        return finding;
    }
  g_assert_not_reached ();
}

/* The corner of the crate is √2 m from its middle; the circle lies at the foot of the load. There
 * is one only while the load turns, and only where a check has worked it out. */
static void
test_swing_circle (Fixture *f, gconstpointer data)
{
  RenderSiteState state = { .swing_circles = TRUE, .findings = f->findings };
  g_autoptr (RenderDrawList) hoisting = view_at (f, state, 10);
  g_assert_cmpuint (hoisting->lines->len, ==, 0);
  g_autoptr (RenderDrawList) turning = view_at (f, state, 50);
  g_assert_cmpuint (turning->lines->len, ==, 1);
  /* Its label tells the radius, and may stand anywhere on it. */
  g_assert_cmpuint (turning->labels->len, ==, 1);
  const RenderLabel *label = label_at (turning, 0);
  g_assert_cmpstr (label->text, ==, "swing circle, radius 1.415 m");
  g_assert_cmpuint (label->n_others, >, 2);
  for (guint i = 0; i < label->n_others; i++)
    g_assert_cmpfloat_with_epsilon (hypot (label->others[i].x, label->others[i].y), G_SQRT2, 1e-3);
  const RenderLine *circle = line_at (turning, 0);
  g_assert_cmpint (circle->style, ==, RENDER_LINE_DOTTED);
  for (guint i = 0; i < circle->n_points; i++)
    {
      g_assert_cmpfloat_with_epsilon (hypot (circle->points[i].x, circle->points[i].y), G_SQRT2,
                                      1e-3);
      g_assert_cmpfloat_with_epsilon (circle->points[i].z, 3, 1e-3);
    }
  /* Also while something else is done, when a finding of the turn is looked at. */
  state.finding = find_clearance (f, 1, "hall/wall");
  g_autoptr (RenderDrawList) looked_at = view_at (f, state, 10);
  g_assert_cmpint (line_at (looked_at, 0)->style, ==, RENDER_LINE_DOTTED);
  state.finding = NULL;
  state.findings = NULL;
  g_autoptr (RenderDrawList) unchecked = view_at (f, state, 50);
  g_assert_cmpuint (unchecked->lines->len, ==, 0);
}

/* At first the crate stands on the slab, its seat, so that the wall is what counts, 4.5 m away; at
 * 15 s the slab is 1.5 m below and counts. Without findings the seat is left out only while it is
 * near. */
static void
test_nearest (Fixture *f, gconstpointer data)
{
  for (guint checked = 0; checked < 2; checked++)
    {
      RenderSiteState state = { .nearest = TRUE, .findings = checked ? f->findings : NULL };
      g_autoptr (RenderDrawList) seated = view_at (f, state, 0);
      g_assert_cmpuint (seated->labels->len, ==, 1);
      g_assert_false (g_str_has_prefix (label_at (seated, 0)->text, "Touching"));
      g_autoptr (RenderDrawList) up = view_at (f, state, 15);
      g_assert_cmpuint (up->marks->len, ==, 2);
      g_assert_cmpuint (up->lines->len, ==, 1);
      g_assert_nonnull (strstr (label_at (up, 0)->text, ", keep 0.2 m\nto "));
      g_assert_true (line_at (up, 0)->on_top);
      /* without findings it is not known what tolerances take off */
      g_assert_cmpint (line_at (up, 0)->state, ==,
                       checked ? RENDER_STATE_CLEAR : RENDER_STATE_NOT_CHECKED);
      TrnVec3 on_load = line_at (up, 0)->points[0], on_slab = line_at (up, 0)->points[1];
      g_assert_cmpfloat_with_epsilon (on_load.z, 1.5, 1e-4);
      g_assert_cmpfloat_with_epsilon (on_slab.z, 0, 1e-4);
    }
}

/* The turn comes nearest to the wall with a corner, at 45° and 135°: 5.5 − √2, of which the label
 * has what is proven. Its ghost is drawn
 * as well as those of start and end, except where the load is; the nearest is not drawn twice. */
static void
test_finding (Fixture *f, gconstpointer data)
{
  const TrnFinding *finding = find_clearance (f, 1, "hall/wall");
  RenderSiteState state = { .findings = f->findings, .finding = finding, .ghosts = TRUE };
  g_autoptr (RenderDrawList) list = view_at (f, state, 20);
  g_assert_cmpuint (list->bodies->len, ==, 9);
  for (guint i = 6; i < 9; i++)
    {
      g_assert_cmpint (body_at (list, i)->look, ==, RENDER_LOOK_GHOST);
      g_assert_cmpuint (body_at (list, i)->id, ==, 0);
    }
  g_assert_cmpuint (list->marks->len, ==, 2);
  const RenderLine *gap = line_at (list, 0);
  g_assert_cmpfloat_with_epsilon (trn_vec3_distance (gap->points[0], gap->points[1]), 5.5 - G_SQRT2,
                                  2e-2);
  const RenderLabel *label = label_at (list, list->labels->len - 1);
  g_assert_false (label->quiet);
  g_autofree char *gap_text = trn_words_gap (finding->lower_m, 0.2, finding->allowance_m);
  g_autofree char *name = trn_words_body_name (f->scene->programme->plan, "hall/wall");
  g_autofree char *to = trn_words_gap_to_then (name, finding->time_s);
  g_autofree char *text = g_strdup_printf ("%s\n%s", gap_text, to);
  g_assert_cmpstr (label->text, ==, text);
  g_autoptr (RenderDrawList) at_start = view_at (f, state, 0);
  g_assert_cmpuint (at_start->bodies->len, ==, 8);
  state.ghosts = FALSE;
  g_autoptr (RenderDrawList) none = view_at (f, state, 20);
  g_assert_cmpuint (none->bodies->len, ==, 6);
}

/* At the moment of the finding, and wherever the load stands as it did then, the gap to the same
 * structure is told once; a metre higher it is two gaps. */
static void
test_one_gap (Fixture *f, gconstpointer data)
{
  TrnFinding finding = *find_clearance (f, 1, "slab");
  RenderSiteState state = { .findings = f->findings, .finding = &finding, .nearest = TRUE };
  g_assert_true (finding.has_points);
  finding.time_s = 15;
  g_autoptr (RenderDrawList) then = view_at (f, state, 15);
  g_assert_cmpuint (then->labels->len, ==, 1);
  finding.time_s = 25;
  g_autoptr (RenderDrawList) higher = view_at (f, state, 15);
  g_assert_cmpuint (higher->labels->len, ==, 2);
  /* The one that is not of now says when it is. */
  g_assert_true (g_str_has_suffix (label_at (higher, 0)->text, ", at 25 s"));
  g_assert_null (strstr (label_at (higher, 1)->text, ", at "));
  g_assert_null (strstr (label_at (then, 0)->text, ", at "));
  /* After its last move the load stays as it is. */
  finding.time_s = 95;
  g_autoptr (RenderDrawList) stays = view_at (f, state, 90);
  g_assert_cmpuint (stays->labels->len, ==, 1);
}

/* The figure stands on the ground at −1, outside every box and off the way of the load, and at the
 * same place all the time. */
static void
test_human (Fixture *f, gconstpointer data)
{
  g_autoptr (RenderDrawList) first = view_at (f, (RenderSiteState){ .human = TRUE }, 0);
  g_autoptr (RenderDrawList) later = view_at (f, (RenderSiteState){ .human = TRUE }, 70);
  g_assert_true (first->human);
  TrnVec3 at = first->human_at;
  g_assert_cmpfloat (at.z, ==, -1);
  g_assert_cmpfloat (trn_vec3_distance (at, later->human_at), ==, 0);
  g_assert_true (fabs (at.x) > 4.5 || fabs (at.y) > 4.5);
  g_assert_true (at.x < 5 || at.x > 7 || fabs (at.y) > 10);
  g_assert_cmpfloat (hypot (at.x - 20, at.y), >, 1.5);
}

/* The way of the load is 2.83 m wide and 5 m high, so that an eighth of it is 0.63 m: the pitch is
 * 0.5 m, and the caption says so. */
static void
test_caption (Fixture *f, gconstpointer data)
{
  RenderSiteState state = { .grid = TRUE,
                            .compass = TRUE,
                            .caption = "From the south",
                            .section = { TRUE, { 0, -1, 0 }, 2.5 } };
  g_autoptr (RenderDrawList) list = view_at (f, state, 0);
  g_assert_true (list->grid && list->compass && list->section.on);
  g_assert_cmpfloat (list->grid_pitch_m, ==, 0.5);
  g_assert_cmpstr (list->caption, ==, "From the south · grid 0.5 m · cut at y = −2.5 m");
}

/* The whole way and the wall beside it are seen, and not all 60 m of the ground. */
static void
test_extent (Fixture *f, gconstpointer data)
{
  TrnBox extent = render_site_extent (f->site, 0);
  g_assert_cmpfloat (extent.lo.x, <=, -1);
  g_assert_cmpfloat (extent.hi.z, >=, 5);
  g_assert_cmpfloat (extent.hi.x - extent.lo.x, <, 20);
}

static void
test_state_of_distance (void)
{
  const struct
  {
    double distance_m;
    RenderState state;
  } cases[] = { { 0, RENDER_STATE_TOUCHING },     { 5e-6, RENDER_STATE_TOUCHING },
                { 0.01, RENDER_STATE_SHORT },     { 0.499, RENDER_STATE_SHORT },
                { 0.5, RENDER_STATE_TIGHT },      { 0.6, RENDER_STATE_TIGHT },
                { 0.601, RENDER_STATE_CLEAR },    { INFINITY, RENDER_STATE_CLEAR },
                { NAN, RENDER_STATE_NOT_CHECKED } };
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    g_assert_cmpint (render_state_of_distance (cases[i].distance_m, 0.4, 0.1, 0.1), ==,
                     cases[i].state);
  g_assert_cmpint (render_state_of_distance (3, NAN, 0, 0.1), ==, RENDER_STATE_NOT_CHECKED);
  /* what tolerances take off is not known yet: short for certain, or not checked, never clear */
  g_assert_cmpint (render_state_of_distance (3, 0.4, NAN, 0.1), ==, RENDER_STATE_NOT_CHECKED);
  g_assert_cmpint (render_state_of_distance (0.3, 0.4, NAN, 0.1), ==, RENDER_STATE_SHORT);
}

/* Whatever a check leaves open is not checked, and the allowance counts against what is to spare:
 * 0.7 m less 0.05 m less 0.5 m leaves 0.15 m. */
static void
test_state_of_finding (void)
{
  TrnFinding f = { .check = TRN_CHECK_CLEARANCE,
                   .verdict = TRN_VERDICT_PASS,
                   .state = TRN_STATE_CLEAR,
                   .required_m = 0.5,
                   .lower_m = 0.7,
                   .allowance_m = 0.05 };
  g_assert_cmpint (render_state_of_finding (&f, 0.1), ==, RENDER_STATE_CLEAR);
  g_assert_cmpint (render_state_of_finding (&f, 0.2), ==, RENDER_STATE_TIGHT);
  f.allowance_m = 0.3;
  g_assert_cmpint (render_state_of_finding (&f, 0.1), ==, RENDER_STATE_SHORT);
  f.verdict = TRN_VERDICT_UNKNOWN;
  g_assert_cmpint (render_state_of_finding (&f, 0.1), ==, RENDER_STATE_NOT_CHECKED);
  f.lower_m = 3;
  g_assert_cmpint (render_state_of_finding (&f, 0.1), ==, RENDER_STATE_NOT_CHECKED);
  f.verdict = TRN_VERDICT_FAIL;
  f.state = TRN_STATE_CONTACT;
  g_assert_cmpint (render_state_of_finding (&f, 0.1), ==, RENDER_STATE_TOUCHING);
  f.state = TRN_STATE_SHORT;
  g_assert_cmpint (render_state_of_finding (&f, 0.1), ==, RENDER_STATE_SHORT);
  TrnFinding seat
      = { .check = TRN_CHECK_SEAT, .verdict = TRN_VERDICT_PASS, .state = TRN_STATE_RESTING };
  g_assert_cmpint (render_state_of_finding (&seat, 0.1), ==, RENDER_STATE_CLEAR);
  seat.verdict = TRN_VERDICT_FAIL;
  seat.state = TRN_STATE_BURIED;
  g_assert_cmpint (render_state_of_finding (&seat, 0.1), ==, RENDER_STATE_TOUCHING);
  seat.state = TRN_STATE_NEVER_LEFT;
  g_assert_cmpint (render_state_of_finding (&seat, 0.1), ==, RENDER_STATE_SHORT);
  TrnFinding swing = { .check = TRN_CHECK_SWING_RADIUS,
                       .verdict = TRN_VERDICT_NOTE,
                       .state = TRN_STATE_SHORT,
                       .radius_m = 5,
                       .sector_distance_m = 4,
                       .required_m = 0.5 };
  g_assert_cmpint (render_state_of_finding (&swing, 0.1), ==, RENDER_STATE_TIGHT);
  swing.sector_distance_m = NAN;
  g_assert_cmpint (render_state_of_finding (&swing, 0.1), ==, RENDER_STATE_CLEAR);
  /* A number alone is neither met nor to be looked at; another note is. */
  const TrnCheckKind numbers[] = { TRN_CHECK_WIND, TRN_CHECK_SPEEDS, TRN_CHECK_SWINGING };
  TrnFinding note = { .verdict = TRN_VERDICT_NOTE, .state = TRN_STATE_KNOWN };
  for (guint i = 0; i < G_N_ELEMENTS (numbers); i++)
    {
      note.check = numbers[i];
      g_assert_cmpint (render_state_of_finding (&note, 0.1), ==, RENDER_STATE_NONE);
    }
  note.check = TRN_CHECK_HOIST_LINES;
  g_assert_cmpint (render_state_of_finding (&note, 0.1), ==, RENDER_STATE_TIGHT);
}

/* The two legs of a tower and the carrier of a crane stand after the components; each can be
 * picked. Nobody says where the boom of a crane that no hook uses points to, nor where a trolley
 * stands: they are not drawn, and come last of all that could be picked. */
static void
test_gear (void)
{
  static const char text[]
      = "{'format':'trunnion-plan','version':1,'keep_clear':0.2,'structures':[],"
        "'components':[{'id':'crate','at':{'position':[0,0,0]},'solid':{'kind':'box',"
        "'size':[2,2,2]}},{'id':'drum','at':{'position':[-9,0,-1]},'solid':{'kind':'box',"
        "'size':[1,1,1]}}],'gear':[{'id':'tower','kind':'gantry','at':{'position':[0,0,0]},"
        "'legs':[{'at':[-5,0],'size':[1,1],'height':9},{'at':[5,0],'size':[1,1],'height':9}]},"
        "{'id':'bogie','kind':'tail-trolley','at':{'position':[3,0,0]},'size':[1,1,1]},"
        "{'id':'crane','kind':'crane','at':{'position':[30,0,0],'turn':[90,0,0]},"
        "'carrier':{'size':[8,3,1]},'boom':{'foot':[0,1],'length':20,'section':[1,1]}}],"
        "'programme':[{'lift':'up','component':'crate','hook_point':[0,0,2],'moves':["
        "{'do':'hoist','by':3,'seconds':30}]}]}";
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_autoptr (TrnScene) scene
      = trn_scene_build_take (test_programme (text), &(TrnSceneOptions){ 0 }, diags);
  g_assert_nonnull (scene);
  g_autoptr (RenderSite) site = render_site_build (scene, 0);
  RenderSiteState state = { .selected = "tower/leg-2", .tight_m = 0.1 };
  g_autoptr (RenderDrawList) list = render_site_view (site, &state);
  static const char *const ids[]
      = { "drum", "tower/leg-1", "tower/leg-2", "crane/carrier", "load" };
  for (guint i = 0; i < G_N_ELEMENTS (ids); i++)
    {
      const RenderBody *body = body_at (list, i);
      g_assert_cmpstr (render_site_body_id (site, body->id), ==, ids[i]);
      g_assert_cmpint (body->selected, ==, i == 2);
      g_assert_cmpint (body->role == RENDER_ROLE_GEAR, ==, i >= 1 && i <= 3);
    }
  test_assert_near (body_at (list, 2)->mesh->box.lo, 4.5, -0.5, 0, 1e-9);
  test_assert_near (body_at (list, 3)->site_from_mesh.position, 30, 0, 0, 1e-9);
  g_assert_cmpuint (list->bodies->len, ==, G_N_ELEMENTS (ids));
  const TrnRig *rig = scene->programme->runs[0].rig;
  g_assert_cmpuint (rig->n_bodies, >, 0);
  for (guint i = 0; i < rig->n_bodies; i++)
    g_assert_cmpstr (render_site_body_id (site, 2 + 2 + 3 + i), ==, rig->bodies[i].id);
  g_assert_null (render_site_body_id (site, 2 + 2 + 3 + rig->n_bodies));
}

/* The moving parts of a crane: a boom as a box of its true section from its foot to its tip, 16 m
 * up; the counterweight behind the slew axis, its arc circumscribed; the rope from the hook to the
 * tip, the sling from the hook to its point, each with a line along it. Circles on the ground: the
 * tail and the barricade line, in two styles. */
static void
test_moving_gear (void)
{
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_autoptr (TrnScene) scene
      = trn_scene_build_take (test_programme (test_crane_plan), &(TrnSceneOptions){ 0 }, diags);
  g_assert_nonnull (scene);
  g_autoptr (RenderSite) site = render_site_build (scene, 0);
  RenderSiteState state = { .selected = "crane/rope", .swing_circles = TRUE };
  g_autoptr (RenderDrawList) list = render_site_view (site, &state);
  static const char *const ids[]
      = { "post", "crane/boom", "crane/counterweight", "crane/rope", "leg", "load" };
  g_assert_cmpuint (list->bodies->len, ==, G_N_ELEMENTS (ids));
  for (guint i = 0; i < G_N_ELEMENTS (ids); i++)
    {
      const RenderBody *body = body_at (list, i);
      g_assert_cmpstr (render_site_body_id (site, body->id), ==, ids[i]);
      g_assert_cmpint (body->selected, ==, i == 3);
      g_assert_cmpint (body->role == RENDER_ROLE_GEAR, ==, i >= 1 && i <= 4);
      g_assert_true (body->mesh->closed);
    }
  TrnBox boom = body_at (list, 1)->mesh->box, weight = body_at (list, 2)->mesh->box;
  TrnBox rope = body_at (list, 3)->mesh->box, leg = body_at (list, 4)->mesh->box;
  test_assert_near (boom.lo, -0.4, -0.5, -0.3, 1e-9);
  test_assert_near (boom.hi, 12.4, 0.5, 16.3, 1e-9);
  g_assert_cmpfloat (weight.lo.x, <=, -3 + 1e-9);
  g_assert_cmpfloat (weight.lo.x, >, -3.2);
  g_assert_cmpfloat_with_epsilon (weight.lo.z, 1, 1e-9);
  g_assert_cmpfloat_with_epsilon (weight.hi.z, 2, 1e-9);
  g_assert_cmpfloat_with_epsilon (rope.lo.z, 4 - 0.03, 1e-9);
  g_assert_cmpfloat_with_epsilon (rope.hi.z, 16 + 0.03, 1e-9);
  g_assert_cmpfloat_with_epsilon (leg.lo.z, 2 - 0.02, 1e-9);
  g_assert_cmpfloat_with_epsilon (leg.hi.z, 4 + 0.02, 1e-9);
  g_assert_cmpuint (list->lines->len, ==, 4);
  test_assert_near (line_at (list, 0)->points[0], 12, 0, line_at (list, 0)->points[0].z, 1e-9);
  g_assert_cmpint (line_at (list, 2)->style, ==, RENDER_LINE_DOTTED);
  g_assert_cmpint (line_at (list, 3)->style, ==, RENDER_LINE_TWO_DASH);
  g_assert_cmpfloat_with_epsilon (trn_vec3_length (line_at (list, 2)->points[5]), 3, 1e-9);
  g_assert_cmpfloat_with_epsilon (trn_vec3_length (line_at (list, 3)->points[5]), 4, 1e-9);
  g_autofree char *tail = trn_words_tail_circle (3), *barricade = trn_words_barricade_circle (4);
  g_assert_cmpstr (label_at (list, 0)->text, ==, tail);
  g_assert_cmpstr (label_at (list, 1)->text, ==, barricade);
}

/* After the slew the tip is plumb above the hook in the south; the fit of the camera holds the boom
 * all the way. Hidden, the whole crane is gone with its rigging; ghosted, nothing of it is picked.
 */
static void
test_gear_visibility (void)
{
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_autoptr (TrnScene) scene
      = trn_scene_build_take (test_programme (test_crane_plan), &(TrnSceneOptions){ 0 }, diags);
  g_autoptr (RenderSite) site = render_site_build (scene, 0);
  g_assert_cmpuint (site->n_items, ==, 2);
  g_assert_cmpstr (render_site_item_id (site, 1), ==, "crane");
  g_assert_cmpint (render_site_item_of (site, 0, "crane/boom"), ==, 1);
  g_assert_cmpint (render_site_item_of (site, 0, "leg"), ==, 1);
  g_assert_cmpint (render_site_item_of (site, 0, "post"), ==, 0);
  g_assert_cmpint (render_site_item_of (site, 0, "load"), ==, -1);
  RenderVisibility visible[2] = { RENDER_VISIBLE_SOLID, RENDER_VISIBLE_SOLID };
  RenderSiteState state = { .time_s = 120, .visibility = visible };
  g_autoptr (RenderDrawList) solid = render_site_view (site, &state);
  test_assert_near (body_at (solid, 1)->mesh->box.lo, -0.5, -12.4, -0.3, 1e-6);
  visible[1] = RENDER_VISIBLE_HIDDEN;
  g_autoptr (RenderDrawList) hidden = render_site_view (site, &state);
  g_assert_cmpuint (hidden->bodies->len, ==, 2);
  visible[1] = RENDER_VISIBLE_GHOST;
  g_autoptr (RenderDrawList) ghosted = render_site_view (site, &state);
  g_assert_cmpuint (ghosted->bodies->len, ==, 6);
  for (guint i = 1; i < 5; i++)
    {
      g_assert_cmpint (body_at (ghosted, i)->look, ==, RENDER_LOOK_GHOST);
      g_assert_cmpuint (body_at (ghosted, i)->id, ==, 0);
    }
  TrnBox extent = render_site_extent (site, 0);
  g_assert_cmpfloat (extent.hi.z, >=, 16 - 1e-9);
  g_assert_cmpfloat (extent.lo.x, <=, 1e-9);
}

/* The nearest of all is the crate to the post by 3.5 m; with a post that is nearer to the boom the
 * note names both. */
static void
test_gear_gap (void)
{
  g_auto (GStrv) parts = g_strsplit (test_crane_plan, "[12,5,0]", 2);
  g_autofree char *nearer = g_strjoinv ("[6,2,0]", parts);
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_autoptr (TrnScene) scene
      = trn_scene_build_take (test_programme (nearer), &(TrnSceneOptions){ 0 }, diags);
  g_autoptr (RenderSite) site = render_site_build (scene, 0);
  g_autoptr (TrnMoment) moment = trn_moment_new (scene, 0);
  RenderSiteState state = { .moment = moment, .nearest = TRUE };
  g_autoptr (RenderDrawList) list = render_site_view (site, &state);
  g_autofree char *boom = trn_words_body_name (scene->programme->plan, "crane/boom");
  g_autofree char *to = trn_words_gap_between (boom, "Post", NAN);
  g_assert_cmpuint (list->labels->len, ==, 1);
  g_assert_nonnull (strstr (label_at (list, 0)->text, to));
}

/* A still has its verdict in words: a crate of 2 m inside a shed of 6 × 6 × 4 m is 1 m from its
 * bottom, said once; hoisted by 2 m it cuts into its roof, by 3 m it touches it from above; by 3.2
 * m it is 0.2 m over the roof where 0.5 m is to be kept, and by 8 m it clears by 5 m. */
static void
test_verdict (void)
{
  static const char text[]
      = "{'format':'trunnion-plan','version':1,'keep_clear':0.5,'structures':[{'id':'shed',"
        "'name':'Shed','at':{'position':[0,0,0]},'solid':{'kind':'box','size':[6,6,4]}}],"
        "'components':[{'id':'crate','at':{'position':[0,0,1]},'solid':{'kind':'box',"
        "'size':[2,2,2]}}],'programme':[{'lift':'up','component':'crate','hook_point':[0,0,2],"
        "'moves':[{'do':'hoist','by':8,'seconds':80}]}]}";
  static const struct
  {
    double time_s;
    RenderState state;
    const char *label;
  } cases[] = { { 0, RENDER_STATE_TOUCHING, "Inside, 1 m from the surface, keep 0.5 m\nto Shed" },
                { 20, RENDER_STATE_TOUCHING, "Cuts into it, keep 0.5 m\nto Shed" },
                { 30, RENDER_STATE_TOUCHING, "Touching, keep 0.5 m\nto Shed" },
                { 32, RENDER_STATE_SHORT, "Short by 0.3 m\n0.2 m, keep 0.5 m\nto Shed" },
                { 80, RENDER_STATE_CLEAR, "Meets the set clearance\n5 m, keep 0.5 m\nto Shed" } };
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_autoptr (TrnScene) scene
      = trn_scene_build_take (test_programme (text), &(TrnSceneOptions){ 0 }, diags);
  g_assert_nonnull (scene);
  g_autoptr (TrnFindings) findings = trn_checks_run (scene, &(TrnCheckOptions){ 0 });
  g_autoptr (RenderSite) site = render_site_build (scene, 0);
  g_autoptr (TrnMoment) moment = trn_moment_new (scene, 0);
  g_autoptr (RenderJudge) judge = render_judge_new (findings, moment);
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      trn_moment_set_time (moment, cases[i].time_s);
      RenderSiteState state = { .time_s = cases[i].time_s,
                                .moment = moment,
                                .judge = judge,
                                .findings = findings,
                                .nearest = TRUE,
                                .tells_verdict = TRUE };
      g_autoptr (RenderDrawList) list = render_site_view (site, &state);
      g_assert_cmpuint (list->labels->len, ==, 1);
      g_assert_cmpstr (label_at (list, 0)->text, ==, cases[i].label);
      g_assert_cmpint (label_at (list, 0)->state, ==, cases[i].state);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  const struct
  {
    const char *name;
    void (*test) (Fixture *, gconstpointer);
  } tests[] = { { "bodies", test_bodies },   { "visibility", test_visibility },
                { "paths", test_paths },     { "swing-circle", test_swing_circle },
                { "nearest", test_nearest }, { "finding", test_finding },
                { "one-gap", test_one_gap }, { "human", test_human },
                { "caption", test_caption }, { "extent", test_extent } };
  for (guint i = 0; i < G_N_ELEMENTS (tests); i++)
    {
      g_autofree char *path = g_strconcat ("/render/site-view/", tests[i].name, NULL);
      g_test_add (path, Fixture, NULL, set_up, tests[i].test, tear_down);
    }
  g_test_add_func ("/render/site-view/gear", test_gear);
  g_test_add_func ("/render/site-view/moving-gear", test_moving_gear);
  g_test_add_func ("/render/site-view/gear-visibility", test_gear_visibility);
  g_test_add_func ("/render/site-view/gear-gap", test_gear_gap);
  g_test_add_func ("/render/site-view/verdict", test_verdict);
  g_test_add_func ("/render/site-view/state-of-distance", test_state_of_distance);
  g_test_add_func ("/render/site-view/state-of-finding", test_state_of_finding);
  return g_test_run ();
}
