/* force-view.c: the load is seen square to the plumb plane through both hook points while both hold
 * it, else along the axis that it tilts about, else along its own Y axis laid level; so that the
 * figure does not jump within a move. */
#include "force-view.h"

#include <math.h>

#include "desk-words.h"
#include "gear-words.h"
#include "force-words.h"
#include "gravity.h"
#include "hang.h"
#include "load-words.h"
#include "moment.h"

/* A direction that is less level than this says nothing of a heading. */
#define LEVEL 1e-3
/* Slings that spread less than this along the plane, of what they do square to it. */
#define SQUARE_SHARE 0.5
/* Sine of the angle below which a plane is seen edge-on. */
#define SQUARE_SIGHT 0.05
#define SAME_RAD 0.01

typedef struct
{
  const TrnScene *scene;
  const TrnLiftRun *run;
  DeskForces *forces;
  const DeskFoundOfHoist *found; /* NULL: none are there */
  DeskForceView *view;
  DeskHoist hoists[DESK_MOST_HOISTS];
  guint n_hoists, move;
  double progress;
  TrnPose pose;
  double mass_kg, step_n; /* of the load; NAN: its mass is not known */
  double sight_rad;
  TrnVec3 right;      /* of the figure, level */
  double rigging_rad; /* where its sketches are seen from; NAN: each from elsewhere, or none yet */
} Look;

static const char *
keep (Look *look, char *text)
{
  g_ptr_array_add (look->view->texts, text);
  return text;
}

static void
add_row (GArray *rows, char *label, char *value, char *more)
{
  DeskForceRow row = { .label = label, .value = value, .more = more };
  g_array_append_val (rows, row);
}

/* Of the row above it. */
static void
add_row_under (GArray *rows, TrnLoadsText label, char *value, char *more)
{
  add_row (rows, g_strdup (trn_words_loads (label)), value, more);
  g_array_index (rows, DeskForceRow, rows->len - 1).is_under = TRUE;
}

static void
clear_row (gpointer data)
{
  DeskForceRow *row = data;
  g_free (row->label);
  g_free (row->value);
  g_free (row->more);
  g_free (row->said);
}

static gboolean
holds (const Look *look, const TrnHoist *hoist)
{
  return hoist->first_move <= look->move && look->move <= hoist->last_move;
}

/* ---- the plane ---- */

static TrnVec3
level (TrnVec3 v)
{
  double length = hypot (v.x, v.y);
  return length > LEVEL ? trn_vec3_make (v.x / length, v.y / length, 0) : trn_vec3_make (0, 0, 0);
}

static TrnVec3
find_right (const Look *look)
{
  const TrnLift *lift = look->run->lift;
  const TrnMotion *motion = &look->run->motions[look->move];
  TrnVec3 right = { 0, 0, 0 };
  if (look->n_hoists == 2 && holds (look, &lift->rigging.main) && holds (look, &lift->rigging.tail))
    right = level (trn_vec3_sub (trn_pose_apply (&look->pose, lift->hook.place),
                                 trn_pose_apply (&look->pose, lift->rigging.tail.point)));
  if (right.x == 0 && right.y == 0 && motion->angle_rad != 0)
    right = level (trn_vec3_make (motion->axis.y, -motion->axis.x, 0));
  if (right.x == 0 && right.y == 0)
    {
      TrnVec3 depth = level (trn_rotation_apply (&look->pose.turn, trn_vec3_make (0, 1, 0)));
      right = trn_vec3_make (depth.y, -depth.x, 0);
    }
  return right.x == 0 && right.y == 0 ? trn_vec3_make (1, 0, 0) : right;
}

/* @right, or the opposite: who sees the figure stands on the side of who sees the site, and where
 * they look square to each other south-east. */
static TrnVec3
as_seen (const Look *look, TrnVec3 right)
{
  const double usual_rad = 0.75 * G_PI;
  const double sight_rad = isfinite (look->sight_rad) ? look->sight_rad : usual_rad;
  double into = right.x * sin (sight_rad) - right.y * cos (sight_rad);
  if (fabs (into) < SQUARE_SIGHT)
    into = right.x * sin (usual_rad) - right.y * cos (usual_rad);
  return into < 0 ? trn_vec3_scale (right, -1) : right;
}

/* Heading of where one stands who has @right to the right. */
static double
seen_from_rad (TrnVec3 right)
{
  return atan2 (-right.x, right.y);
}

static RenderPlanePoint
on_plane (const Look *look, TrnVec3 load_point)
{
  TrnVec3 p = trn_pose_apply (&look->pose, load_point);
  return (RenderPlanePoint){ trn_vec3_dot (p, look->right), p.z };
}

static void
add_outline (Look *look)
{
  const TrnMesh *mesh = trn_scene_load (look->scene, look->run)->mesh;
  g_autofree RenderPlanePoint *points = g_new (RenderPlanePoint, mesh->n_vertices);
  for (guint32 i = 0; i < mesh->n_vertices; i++)
    points[i] = on_plane (look, mesh->vertices[i]);
  RenderForceFigure *figure = &look->view->forces;
  figure->outline = look->view->outline;
  figure->n_outline = render_plane_hull (points, mesh->n_vertices, look->view->outline);
}

/* ---- forces ---- */

static void
add_arrow (Look *look, TrnVec3 at, double newton, const char *name, const char *value)
{
  RenderForceFigure *figure = &look->view->forces;
  look->view->arrows[figure->n_forces++]
      = (RenderForce){ on_plane (look, at), newton,
                       keep (look, trn_words_figure_line (name, value)) };
}

static void
note (char **note, const char *missing)
{
  if (missing == NULL || *note != NULL)
    return;
  TrnFinding finding = { .missing = missing };
  *note = trn_words_missing (&finding);
}

/* ---- what is at rest, to the nearest ---- */

/* All of a moment in the same steps: 4 digits of the weight. */
static double
step_of (double mass_kg)
{
  return mass_kg > 0 ? pow (10, floor (log10 (mass_kg * TRN_GRAVITY_M_S2)) - 3) : 1;
}

/* In such steps; what is less than one is told for itself. */
static char *
at_rest (const Look *look, double kg)
{
  const double newton = kg * TRN_GRAVITY_M_S2,
               steps = isfinite (look->step_n) ? round (newton / look->step_n) : 0;
  return steps != 0 ? trn_words_force (steps * look->step_n, TRN_UNIT_N, TRUE)
                    : trn_words_weight (kg);
}

/* What two hooks bear adds up to the weight as it is told: the second has what the first leaves. */
static double
told_kg (const Look *look, guint index, double load_kg)
{
  const TrnHoist *main = look->hoists[0].hoist;
  if (index != 1 || !holds (look, main) || !isfinite (look->step_n))
    return load_kg;
  const double step_kg = look->step_n / TRN_GRAVITY_M_S2,
               main_kg = desk_forces_load_kg (look->forces, main, look->move, look->progress),
               left_kg = (round (look->mass_kg / step_kg) - round (main_kg / step_kg)) * step_kg;
  return fabs (left_kg - load_kg) < step_kg && left_kg != 0 ? left_kg : load_kg;
}

static void
add_weight (Look *look)
{
  const TrnPlan *plan = look->scene->programme->plan;
  const TrnComponent *component = &plan->components[look->run->lift->component];
  double mass_kg = component->mass_kg * component->mass_factor;
  const char *name = trn_words_loads (TRN_LOADS_WEIGHT);
  if (isnan (mass_kg))
    {
      note (&look->view->force_note, "mass");
      return;
    }
  look->mass_kg = mass_kg;
  look->step_n = step_of (mass_kg);
  char *value = at_rest (look, mass_kg);
  if (isfinite (component->cog.x))
    add_arrow (look, component->cog, -mass_kg * TRN_GRAVITY_M_S2, name, value);
  else if (look->view->force_note == NULL)
    look->view->force_note = g_strdup (trn_words_loads (TRN_LOADS_NO_COG));
  add_row (look->view->force_rows, g_strdup (name), value, trn_words_mass (mass_kg));
  if (component->mass_factor == 1)
    return;
  GArray *rows = look->view->force_rows;
  add_row_under (rows, TRN_LOADS_MASS_FACTOR,
                 trn_words_force (component->mass_factor, TRN_UNIT_NONE, TRUE), NULL);
}

static DeskFound
found_of (const Look *look, guint hoist, TrnGauge quantity)
{
  return look->found != NULL ? look->found[hoist].of[quantity] : (DeskFound){ .greatest = NAN };
}

/* Parts of the rigging have their numbers beyond their names, which are long. */
static void
add_under (GArray *rows, TrnGauge quantity, const DeskForceRow *row)
{
  const gboolean is_beyond = quantity == TRN_GAUGE_TENSION;
  const DeskForceRow under = { .label = row->label,
                               .value = is_beyond ? g_strdup ("") : row->value,
                               .more = is_beyond ? row->value : row->more,
                               .said = row->said,
                               .is_under = TRUE,
                               .is_found = TRUE };
  g_array_append_val (rows, under);
}

/* That nothing proves a number, or that it fails in a way that has none. */
static void
add_found_that (GArray *rows, TrnGauge quantity, const DeskFound *found, const char *of)
{
  const TrnFinding finding = { .verdict = TRN_VERDICT_FAIL, .state = found->state };
  const char *label = trn_words_loads (TRN_LOADS_FOUND_THAT);
  const DeskForceRow row = { .label = g_strdup (label),
                             .value = g_strdup (found->fails ? trn_words_finding_short (&finding)
                                                             : trn_words_desk (TRN_DESK_NOT_KNOWN)),
                             .said = g_strdup_printf ("%s, %s", of, label) };
  add_under (rows, quantity, &row);
}

/* The numbers of a moment have no tolerances; below them is what the checks find with these, in the
 * same units. @of: what the rows above are of. @is_bare: the one above has rigging in it, this has
 * not. */
static void
add_found (GArray *rows, const DeskFound *found, TrnGauge quantity, const char *of,
           gboolean is_bare)
{
  const gboolean is_number = isfinite (found->greatest), is_mass = quantity == TRN_GAUGE_LOAD;
  if (!found->is_any)
    return;
  if (found->fails || !is_number)
    add_found_that (rows, quantity, found, of);
  if (!is_number)
    return;
  const TrnLoadsText label
      = is_bare         ? found->is_all ? TRN_LOADS_FOUND_BARE : TRN_LOADS_FOUND_BARE_IN_PART
        : found->is_all ? TRN_LOADS_FOUND
                        : TRN_LOADS_FOUND_IN_PART;
  const DeskForceRow row
      = { .label = g_strdup (trn_words_loads (label)),
          .value = is_mass ? trn_words_weight (found->greatest)
                           : trn_words_gauge_value (quantity, found->greatest),
          .more = is_mass ? trn_words_force (found->greatest, TRN_UNIT_KG, TRUE) : NULL,
          .said = trn_words_loads_found_of (of, found->is_all) };
  add_under (rows, quantity, &row);
}

/* Where checks look at what is no number here, it is not known, and said so. */
static void
add_gear_row (Look *look, guint index, TrnGauge quantity, TrnLoadsText text, double value)
{
  GArray *rows = look->view->force_rows;
  const DeskFound found = found_of (look, index, quantity);
  const gboolean is_number = isfinite (value);
  if (!is_number && !found.is_any)
    return;
  add_row (rows, g_strdup (trn_words_loads (text)),
           is_number ? trn_words_gauge_value (quantity, value)
                     : g_strdup (trn_words_desk (TRN_DESK_NOT_KNOWN)),
           NULL);
  if (is_number || found.fails || isfinite (found.greatest))
    add_found (rows, &found, quantity, trn_words_loads (text), FALSE);
}

/* What gear and ground have to do with it. */
static void
add_gear_rows (Look *look, guint index)
{
  const TrnHoist *hoist = look->hoists[index].hoist;
  double used = desk_forces_utilisation (look->forces, hoist, look->move, look->progress);
  double pressure_pa = desk_forces_pressure_pa (look->forces, hoist, look->move, look->progress);
  add_gear_row (look, index, TRN_GAUGE_CAPACITY, TRN_LOADS_CAPACITY, used);
  add_gear_row (look, index, TRN_GAUGE_PRESSURE, TRN_LOADS_GROUND, pressure_pa);
}

/* Why it bears nothing, or less. */
static void
add_slack (Look *look, const DeskHoist *hoist)
{
  const TrnHoist *of = hoist->hoist;
  const gboolean is_trolley = hoist->gear != NULL && hoist->gear->kind == TRN_GEAR_TAIL_TROLLEY;
  if (desk_forces_is_slack (look->forces, of, look->move, look->progress))
    add_row_under (look->view->force_rows, is_trolley ? TRN_LOADS_BEARS_NONE : TRN_LOADS_SLACK,
                   g_strdup (""), NULL);
  if (desk_forces_keeps_down (look->forces, of, look->move, look->progress))
    add_row_under (look->view->force_rows, TRN_LOADS_KEEPS_DOWN, g_strdup (""), NULL);
}

/* What hangs on it now, that with its rigging where there is some, and what was found. */
static void
add_load_rows (Look *look, guint index, const char *name, double load_kg)
{
  const DeskHoist *hoist = &look->hoists[index];
  GArray *rows = look->view->force_rows;
  const DeskFound found = found_of (look, index, TRN_GAUGE_LOAD);
  double hook_kg = desk_forces_hook_kg (look->forces, hoist->hoist, look->move, look->progress);
  const gboolean has_rigging = hook_kg > load_kg;
  add_row (rows, g_strdup (name), at_rest (look, told_kg (look, index, load_kg)),
           trn_words_mass (load_kg));
  add_slack (look, hoist);
  if (has_rigging)
    add_row_under (rows, TRN_LOADS_HOOK_LOAD, at_rest (look, hook_kg), trn_words_mass (hook_kg));
  add_found (rows, &found, TRN_GAUGE_LOAD, name, has_rigging);
}

static void
add_hook (Look *look, guint index)
{
  const TrnLift *lift = look->run->lift;
  const DeskHoist *hoist = &look->hoists[index];
  if (!holds (look, hoist->hoist))
    return;
  double load_kg = desk_forces_load_kg (look->forces, hoist->hoist, look->move, look->progress);
  g_autofree char *name = trn_words_hoist (desk_hoist_role (hoist), NULL);
  note (&look->view->force_note, desk_forces_hook_missing (look->forces, hoist->hoist, look->move));
  if (isfinite (load_kg))
    {
      g_autofree char *value = at_rest (look, told_kg (look, index, load_kg));
      /* What bears nothing has no arrow. */
      if (load_kg != 0)
        add_arrow (look, hoist->is_tail ? hoist->hoist->point : lift->hook.place,
                   load_kg * TRN_GRAVITY_M_S2, name, value);
      add_load_rows (look, index, name, load_kg);
    }
  else /* its gear has rows all the same */
    add_row (look->view->force_rows, g_strdup (name),
             g_strdup (trn_words_desk (TRN_DESK_NOT_KNOWN)), NULL);
  add_gear_rows (look, index);
}

/* ---- rigging ---- */

/* A trolley and a frame hold the load itself: there is no hook to be drawn. */
static gboolean
has_hook (const Look *look, const DeskHoist *hoist)
{
  return holds (look, hoist->hoist) && desk_hoist_has_hook (hoist);
}

static TrnVec3
at_middle (const TrnJet3 *jet)
{
  return trn_vec3_make (trn_interval_middle (jet->x.v), trn_interval_middle (jet->y.v),
                        trn_interval_middle (jet->z.v));
}

static TrnVec3
way_of_sling (const Look *look, const TrnHoist *hoist, guint index)
{
  TrnJet3 ends[2];
  trn_hang_sling (look->run->rig, hoist, index, look->move, trn_interval_point (look->progress),
                  ends);
  return trn_vec3_sub (at_middle (&ends[1]), at_middle (&ends[0]));
}

/* How far slings spread along a level way. */
static double
spread (const Look *look, const TrnHoist *hoist, TrnVec3 along)
{
  double least = INFINITY, most = -INFINITY;
  for (guint i = 0; i < hoist->n_slings; i++)
    {
      const double at_m = trn_vec3_dot (way_of_sling (look, hoist, i), along);
      least = fmin (least, at_m);
      most = fmax (most, at_m);
    }
  return most - least;
}

/* To the right in the sketch: along the beam, else that of the figure, or square to it where slings
 * spread so, as those of a load that is seen from beside. @flips: to its end a. */
static TrnVec3
sketch_right (const Look *look, const TrnHoist *hoist, gboolean *flips)
{
  TrnJet3 ends[2];
  const TrnVec3 across = trn_vec3_make (-look->right.y, look->right.x, 0);
  *flips = FALSE;
  if (!hoist->has_beam)
    return spread (look, hoist, look->right) < SQUARE_SHARE * spread (look, hoist, across)
               ? as_seen (look, across)
               : look->right;
  trn_hang_beam (look->run->rig, hoist, look->move, trn_interval_point (look->progress), ends);
  const TrnVec3 along = level (trn_vec3_sub (at_middle (&ends[1]), at_middle (&ends[0])));
  if (!isfinite (along.x))
    return look->right;
  const TrnVec3 right = as_seen (look, along);
  *flips = trn_vec3_dot (right, along) < 0;
  return right;
}

/* One number below the name of a part of the rigging, @value owned, and what was found of it: with
 * how much of its limit. */
static void
add_part (Look *look, const char *of, TrnLoadsText label, char *value, const DeskFound *found,
          TrnUnit unit)
{
  GArray *rows = look->view->rigging_rows;
  g_autofree char *said = g_strdup_printf ("%s, %s", of, trn_words_loads (label));
  const DeskForceRow row = { .label = g_strdup (trn_words_loads (label)),
                             .value = g_strdup (""),
                             .more = value,
                             .said = g_strdup (said),
                             .is_under = TRUE };
  g_array_append_val (rows, row);
  if (!found->is_any)
    return;
  if (found->fails || !isfinite (found->greatest))
    add_found_that (rows, TRN_GAUGE_TENSION, found, said);
  if (!isfinite (found->greatest))
    return;
  g_autofree char *greatest = trn_words_force (found->greatest, unit, TRUE);
  g_autofree char *used = found->used > 0 ? trn_words_share (found->used) : NULL;
  const DeskForceRow below
      = { .label
          = g_strdup (trn_words_loads (found->is_all ? TRN_LOADS_FOUND : TRN_LOADS_FOUND_IN_PART)),
          .value = g_strdup (""),
          .more = used != NULL ? g_strdup_printf ("%s, %s", greatest, used) : g_strdup (greatest),
          .said = trn_words_loads_found_of (said, found->is_all),
          .is_under = TRUE,
          .is_found = TRUE };
  g_array_append_val (rows, below);
}

static DeskFound
found_of_part (const Look *look, const GArray *parts, guint index)
{
  return parts != NULL && look->found != NULL ? g_array_index (parts, DeskFound, index)
                                              : (DeskFound){ .greatest = NAN };
}

/* What a pull aside leaves of a shackle is its limit, as in the findings. */
static void
add_leg_rows (Look *look, guint hoist, guint index)
{
  const TrnHoist *of = look->hoists[hoist].hoist;
  const TrnSling *sling = &of->slings[index];
  const DeskFoundOfHoist *all = look->found != NULL ? &look->found[hoist] : NULL;
  const double angle_rad
      = desk_forces_leg_angle_rad (look->forces, of, index, look->move, look->progress);
  const double tension_n
      = desk_forces_tension_n (look->forces, of, index, look->move, look->progress);
  const DeskFound tension = found_of_part (look, all != NULL ? all->slings : NULL, index),
                  shackle = found_of_part (look, all != NULL ? all->shackles : NULL, index);
  g_autofree char *name = trn_words_leg_name (sling->id);
  add_row (look->view->rigging_rows, g_strdup (name), g_strdup (""),
           trn_words_leg_angle (angle_rad));
  const gboolean is_slack
      = desk_forces_leg_is_slack (look->forces, of, index, look->move, look->progress);
  add_part (look, name, TRN_LOADS_TENSION,
            is_slack ? g_strdup (trn_words_slack ())
                     : trn_words_of_limit (tension_n, sling->wll_kg),
            &tension, TRN_UNIT_N);
  if (!trn_slings_has (of, TRN_SLINGS_SHACKLE, index))
    return;
  const double straight_n
      = desk_forces_shackle_n (look->forces, of, index, look->move, look->progress);
  const double left
      = isfinite (sling->shackle.pin.x) && straight_n > 0 ? tension_n / straight_n : NAN;
  add_part (look, name, TRN_LOADS_SHACKLE,
            is_slack ? g_strdup (trn_words_slack ())
                     : trn_words_of_limit (tension_n, sling->shackle.wll_kg * left),
            &shackle, TRN_UNIT_N);
}

/* ---- beams ---- */

/* Of its end b above its end a, from the level; NAN where it has no direction. */
static double
tilt_of_beam (const Look *look, const TrnHoist *hoist)
{
  TrnJet3 ends[2];
  trn_hang_beam (look->run->rig, hoist, look->move, trn_interval_point (look->progress), ends);
  const TrnVec3 way = trn_vec3_sub (at_middle (&ends[1]), at_middle (&ends[0]));
  return atan2 (way.z, hypot (way.x, way.y));
}

/* How far it is off the level, what it bears of what it may, and what presses and bends it. */
static void
add_beam_rows (Look *look, guint hoist)
{
  static const struct
  {
    TrnSlingsItem item;
    TrnLoadsText label;
    TrnUnit unit;
  } parts[] = { { TRN_SLINGS_BEAM_LOAD, TRN_LOADS_BEAM_LOAD, TRN_UNIT_N },
                { TRN_SLINGS_COMPRESSION, TRN_LOADS_COMPRESSION, TRN_UNIT_N },
                { TRN_SLINGS_MOMENT, TRN_LOADS_MOMENT, TRN_UNIT_NM } };
  const TrnHoist *of = look->hoists[hoist].hoist;
  if (!of->has_beam)
    return;
  g_autofree char *name = trn_words_beam (of->beam.id);
  add_row (look->view->rigging_rows, g_strdup (name), g_strdup (""),
           trn_words_beam_tilt (tilt_of_beam (look, of)));
  for (guint i = 0; i < G_N_ELEMENTS (parts); i++)
    {
      const double value
          = desk_forces_beam (look->forces, of, parts[i].item, look->move, look->progress);
      const DeskFound found = look->found != NULL ? look->found[hoist].beam[parts[i].item]
                                                  : (DeskFound){ .greatest = NAN };
      add_part (look, name, parts[i].label,
                parts[i].item == TRN_SLINGS_BEAM_LOAD
                    ? trn_words_of_limit (value, of->beam.wll_kg)
                    : trn_words_force (value, parts[i].unit, TRUE),
                &found, parts[i].unit);
    }
}

/* From the hook down. */
static void
add_rigging_rows (Look *look, guint hoist)
{
  const TrnHoist *of = look->hoists[hoist].hoist;
  for (guint i = 0; i < of->n_slings; i++)
    if (of->slings[i].to_beam)
      add_leg_rows (look, hoist, i);
  add_beam_rows (look, hoist);
  for (guint i = 0; i < of->n_slings; i++)
    if (!of->slings[i].to_beam)
      add_leg_rows (look, hoist, i);
}

static void
add_leg (Look *look, guint hook, guint index, TrnVec3 right, gboolean flips)
{
  const TrnHoist *hoist = look->hoists[hook].hoist;
  const TrnSling *sling = &hoist->slings[index];
  const TrnVec3 way = way_of_sling (look, hoist, index);
  double angle_rad
      = desk_forces_leg_angle_rad (look->forces, hoist, index, look->move, look->progress);
  double tension_n = desk_forces_tension_n (look->forces, hoist, index, look->move, look->progress);
  /* Beside another hook there is room for no more; the rows have it. */
  gboolean is_alone = look->n_hoists < 2 || !has_hook (look, &look->hoists[0])
                      || !has_hook (look, &look->hoists[1]);
  const gboolean is_slack
      = desk_forces_leg_is_slack (look->forces, hoist, index, look->move, look->progress);
  RenderLeg leg
      = { .angle_rad = angle_rad,
          .goes_right
          = sling->to_beam ? !sling->to_beam_b != !flips : trn_vec3_dot (way, right) >= 0,
          .from = sling->from == TRN_SLING_FROM_HOOK                       ? -1
                  : (sling->from == TRN_SLING_FROM_BEAM_B) != (flips != 0) ? 1
                                                                           : 0,
          .to_beam = sling->to_beam,
          .name = keep (look, trn_words_leg_name (sling->id)),
          .text = keep (look, is_slack ? trn_words_leg_slack (angle_rad)
                                       : trn_words_leg (angle_rad, is_alone ? tension_n : NAN)) };
  g_array_append_val (look->view->legs[hook], leg);
}

static void
add_rigging (Look *look, guint index)
{
  const DeskHoist *hoist = &look->hoists[index];
  if (look->run->rig == NULL || !has_hook (look, hoist))
    return;
  RenderRiggingFigure *figure = &look->view->rigging;
  GArray *legs = look->view->legs[index];
  gboolean flips;
  const TrnVec3 right = sketch_right (look, hoist->hoist, &flips);
  const double seen_rad = seen_from_rad (right);
  for (guint i = 0; i < hoist->hoist->n_slings; i++)
    add_leg (look, index, i, right, flips);
  add_rigging_rows (look, index);
  note (&look->view->rigging_note,
        desk_forces_tension_missing (look->forces, hoist->hoist, look->move));
  look->rigging_rad
      = figure->n_hooks == 0 || fabs (remainder (look->rigging_rad - seen_rad, 2 * G_PI)) < SAME_RAD
            ? seen_rad
            : NAN;
  char *hook = trn_words_hoist (desk_hoist_role (hoist), NULL);
  look->view->hooks[figure->n_hooks++] = (RenderHookSketch){
    .hook = keep (look, hook),
    .has_block = hoist->hoist->has_block,
    .beam = hoist->hoist->has_beam ? keep (look, trn_words_beam (hoist->hoist->beam.id)) : NULL,
    .beam_id
    = hoist->hoist->has_beam ? keep (look, trn_words_leg_name (hoist->hoist->beam.id)) : NULL,
    .beam_tilt_rad
    = hoist->hoist->has_beam ? (flips ? -1 : 1) * tilt_of_beam (look, hoist->hoist) : 0,
    .legs = (const RenderLeg *)(gpointer)legs->data,
    .n_legs = legs->len,
  };
}

/* ---- all of it ---- */

DeskForceView *
desk_force_view_new (const TrnScene *scene, guint run, DeskForces *forces,
                     const DeskFoundOfHoist *found, double time_s, double sight_rad)
{
  DeskForceView *view = g_new0 (DeskForceView, 1);
  Look look = { .scene = scene,
                .run = &scene->programme->runs[run],
                .forces = forces,
                .found = found,
                .view = view,
                .mass_kg = NAN,
                .step_n = NAN,
                .sight_rad = sight_rad,
                .rigging_rad = NAN };
  view->texts = g_ptr_array_new_with_free_func (g_free);
  view->force_rows = g_array_new (FALSE, FALSE, sizeof (DeskForceRow));
  view->rigging_rows = g_array_new (FALSE, FALSE, sizeof (DeskForceRow));
  g_array_set_clear_func (view->force_rows, clear_row);
  g_array_set_clear_func (view->rigging_rows, clear_row);
  look.pose = trn_lift_run_pose (look.run, time_s, &look.move, &look.progress);
  look.n_hoists = desk_hoists_of (scene->programme->plan, look.run, look.hoists);
  look.right = as_seen (&look, find_right (&look));
  view->forces.forces = view->arrows;
  view->rigging.hooks = view->hooks;
  add_outline (&look);
  add_weight (&look);
  for (guint i = 0; i < DESK_MOST_HOISTS; i++)
    view->legs[i] = g_array_new (FALSE, FALSE, sizeof (RenderLeg));
  for (guint i = 0; i < look.n_hoists; i++)
    {
      add_hook (&look, i);
      add_rigging (&look, i);
    }
  view->force_head = trn_words_loads_head (TRN_LOADS_AT_REST_HEAD, seen_from_rad (look.right));
  view->rigging_head = trn_words_loads_head (TRN_LOADS_DYNAMIC_HEAD, look.rigging_rad);
  if (view->rigging_rows->len == 0 && view->rigging_note == NULL)
    view->rigging_note = g_strdup (trn_words_loads (TRN_LOADS_NO_SLINGS));
  return view;
}

void
desk_force_view_free (DeskForceView *view)
{
  if (view == NULL)
    return;
  g_array_unref (view->force_rows);
  g_array_unref (view->rigging_rows);
  for (guint i = 0; i < DESK_MOST_HOISTS; i++)
    g_array_unref (view->legs[i]);
  g_ptr_array_unref (view->texts);
  g_free (view->force_note);
  g_free (view->rigging_note);
  g_free (view->force_head);
  g_free (view->rigging_head);
  g_free (view);
}
