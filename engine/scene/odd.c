/* Centre of gravity. No body has it outside of the box round it: a sign is wrong there, or
 * millimetres were meant, and most slips of that kind make a load hang stiller than it does.
 *
 * Density. A component of closed pieces that face outwards has the volume of all of them, what
 * overlaps counted twice. Below 50 kg/m³ lies what is lighter than foam, above 12 000 kg/m³ what is
 * heavier than lead: its mass or its unit is probably another. Common practice, no source. Of an
 * open mesh the volume is not known: the box round it holds frames and ducts, mostly air, but none
 * that is lighter than air.
 *
 * Slings. A point that is far from every triangle of its load is no lug of it. Where the triangles
 * are many the box of each is looked at once a sling, and no more once a near one is found. What a
 * hook holds the load by without slings may be in the middle of a frame or a ring, far from every
 * surface: only one that is far outside of the box of the mesh is odd. With slings it may be where
 * they meet, and their points are looked at instead. */
#include "odd.h"

#include <math.h>
#include <string.h>

#include "convex.h"

#define LIGHTEST_KG_M3 50
#define LIGHTEST_OPEN_KG_M3 1.2 /* air, as the hook load takes it */
#define HEAVIEST_KG_M3 12000
/* Farther from where any load begins nothing stands that a lift is planned for: coordinates of two
 * systems are mixed, or a digit is wrong. Common practice, no source. */
#define FAR_M 5000
/* Of a lug, a trunnion or a bail that the mesh leaves out. Common practice, no source. */
#define OFF_BOX_M 1
/* What is heavy may be hung on outside of a box by no more than a skin that the mesh leaves out, or
 * be rounded. Common practice, no source. */
#define COG_OFF_BOX_M 0.01
/* Softer than mud, and harder than concrete is crushed at: kilopascals or megapascals were meant,
 * or the ground is no ground. Common practice, no source. */
#define SOFTEST_PA 10e3
#define HARDEST_PA 20e6
/* What a solid mat of its size would be stressed with: no timber, plastic or steel gives way below
 * the one or holds beyond the other, so that kilonewton metres or newton millimetres were meant.
 * Common practice, no source. */
#define WEAKEST_MAT_PA 100e3
#define STRONGEST_MAT_PA 1e9
/* Of the greatest load that it may lift: no crane, gantry or boom is lighter than that. Common
 * practice, no source. */
#define LIGHTEST_GEAR_SHARE 0.01
/* Masses are weighed or calculated to better than that, and what lifts is no quicker than that.
 * Common practice, no source. */
#define GREATEST_FACTOR 2
/* No bluff body that is lifted has less. Common practice, no source. */
#define LEAST_DRAG 0.3
/* A plate with a lug of that length is a long one. Common practice, no source. */
#define OFF_LOAD_M 0.3

static TrnDiag *
warn (const TrnScene *scene, TrnDiags *diags, const char *code, const char *pointer)
{
  TrnDiag *diag = trn_diags_add (diags, TRN_SEVERITY_WARNING, code, pointer);
  trn_plan_locate (scene->programme->plan, diag);
  return diag;
}

/* Two digits at least, and no more than one decimal where that is enough. */
static double
round_density (double density)
{
  const double step = fmin (0.1, pow (10, floor (log10 (density)) - 1));
  return step > 0 ? round (density / step) * step : density;
}

static void
warn_of_density (const TrnScene *scene, guint component, TrnDiags *diags)
{
  const TrnComponent *unit = &scene->programme->plan->components[component];
  const TrnBodies *bodies = &scene->components[component];
  gboolean is_open = FALSE;
  double room_m3 = 0;
  for (guint i = 0; i < bodies->n_bodies; i++)
    {
      gboolean is_box;
      room_m3 += trn_mesh_check_room_m3 (bodies->bodies[i].check, bodies->bodies[i].mesh, &is_box);
      is_open = is_open || is_box;
    }
  const double density = unit->mass_kg / room_m3;
  const double lightest = is_open ? LIGHTEST_OPEN_KG_M3 : LIGHTEST_KG_M3;
  if (!(room_m3 > 0) || isnan (density) || (density >= lightest && density <= HEAVIEST_KG_M3))
    return;
  g_autofree char *pointer = g_strconcat (unit->pointer, "/mass", NULL);
  TrnDiag *diag
      = warn (scene, diags, is_open ? "scene/odd-mass-in-box" : "scene/odd-mass", pointer);
  trn_diag_set_text (diag, "component", unit->id);
  trn_diag_set_number (diag, "mass", unit->mass_kg, TRN_UNIT_KG);
  trn_diag_set_number (diag, "density", round_density (density), TRN_UNIT_NONE);
}

/* All forces of a lift come from that mass. */
static void
warn_of_no_source (const TrnScene *scene, guint component, TrnDiags *diags)
{
  const TrnProgramme *programme = scene->programme;
  const TrnComponent *unit = &programme->plan->components[component];
  gboolean is_rigged = FALSE;
  for (guint i = 0; i < programme->n_runs; i++)
    {
      const TrnLift *lift = programme->runs[i].lift;
      is_rigged |= lift->rigging.given && lift->component == component;
    }
  if (!is_rigged || isnan (unit->mass_kg) || unit->mass_source != NULL)
    return;
  g_autofree char *pointer = g_strconcat (unit->pointer, "/mass", NULL);
  TrnDiag *diag = warn (scene, diags, "scene/mass-no-source", pointer);
  trn_diag_set_text (diag, "component", unit->id);
  trn_diag_set_number (diag, "mass", unit->mass_kg, TRN_UNIT_KG);
}

static double
out_of (double x, double least, double greatest)
{
  return fmax (0, fmax (least - x, x - greatest));
}

/* Said by the axis along which it is farthest off. The drawing may be off by off_m of its mesh. */
static void
warn_of_cog (const TrnScene *scene, guint component, TrnDiags *diags)
{
  const TrnComponent *unit = &scene->programme->plan->components[component];
  const TrnBodies *bodies = &scene->components[component];
  TrnBox box = trn_box_empty ();
  double off_m = COG_OFF_BOX_M;
  for (guint i = 0; i < bodies->n_bodies; i++)
    {
      trn_box_add_box (&box, &bodies->bodies[i].mesh->box);
      off_m = fmax (off_m, COG_OFF_BOX_M + bodies->bodies[i].off_m);
    }
  const double by_m[3]
      = { out_of (unit->cog.x, box.lo.x, box.hi.x), out_of (unit->cog.y, box.lo.y, box.hi.y),
          out_of (unit->cog.z, box.lo.z, box.hi.z) };
  guint axis = 0;
  for (guint i = 1; i < 3; i++)
    axis = by_m[i] > by_m[axis] ? i : axis;
  if (bodies->n_bodies == 0 || isnan (unit->cog.x) || by_m[axis] <= off_m)
    return;
  static const char *const names[] = { "x", "y", "z" };
  g_autofree char *pointer = g_strdup_printf ("%s/cog/%u", unit->pointer, axis);
  TrnDiag *diag = warn (scene, diags, "scene/odd-cog", pointer);
  trn_diag_set_text (diag, "component", unit->id);
  trn_diag_set_text (diag, "axis", names[axis]);
  trn_diag_set_number (diag, "distance", by_m[axis], TRN_UNIT_M);
}

static double
outside (double x, double a, double b, double c)
{
  return MAX (MAX (MIN (MIN (a, b), c) - x, x - MAX (MAX (a, b), c)), 0);
}

/* From the box of a triangle. */
static double
distance2_from_box (const TrnVec3 face[3], TrnVec3 p)
{
  double x = outside (p.x, face[0].x, face[1].x, face[2].x),
         y = outside (p.y, face[0].y, face[1].y, face[2].y),
         z = outside (p.z, face[0].z, face[1].z, face[2].z);
  return x * x + y * y + z * z;
}

/* From the surface, or any distance up to OFF_LOAD_M where it is no more. */
static double
distance_off (const TrnMesh *mesh, TrnVec3 point)
{
  double least_m = INFINITY;
  for (guint32 i = 0; i < mesh->n_triangles && least_m > OFF_LOAD_M; i++)
    {
      const guint32 *v = mesh->triangles[i].v;
      const TrnVec3 face[3] = { mesh->vertices[v[0]], mesh->vertices[v[1]], mesh->vertices[v[2]] };
      TrnVec3 a, b;
      if (distance2_from_box (face, point) >= least_m * least_m)
        continue;
      least_m = fmin (least_m, trn_convex_distance (&point, 1, face, 3, &a, &b));
    }
  return least_m;
}

static void
warn_of_slings (const TrnScene *scene, const TrnLiftRun *run, const TrnHoist *hoist,
                TrnDiags *diags)
{
  const TrnBody *load = trn_scene_load (scene, run);
  for (guint i = 0; hoist->given && i < hoist->n_slings; i++)
    {
      const TrnSling *sling = &hoist->slings[i];
      if (sling->to_beam)
        continue;
      const double off_m = distance_off (load->mesh, sling->to);
      if (off_m <= OFF_LOAD_M)
        continue;
      TrnDiag *diag = warn (scene, diags, "scene/sling-off-load", sling->pointer);
      trn_diag_set_text (diag, "sling", sling->id);
      trn_diag_set_number (diag, "distance", off_m, TRN_UNIT_M);
    }
}

static void
warn_of_point (const TrnScene *scene, const TrnLiftRun *run, TrnVec3 point, const char *pointer,
               TrnDiags *diags)
{
  const TrnBox *box = &trn_scene_load (scene, run)->mesh->box;
  const TrnVec3 face[3] = { box->lo, box->hi, box->hi };
  const double off_m = sqrt (distance2_from_box (face, point));
  if (off_m <= OFF_BOX_M)
    return;
  TrnDiag *diag = warn (scene, diags, "scene/point-off-load", pointer);
  trn_diag_set_text (diag, "lift", run->lift->id);
  trn_diag_set_number (diag, "distance", off_m, TRN_UNIT_M);
}

static void
warn_of_points (const TrnScene *scene, const TrnLiftRun *run, TrnDiags *diags)
{
  const TrnHoist *main = &run->lift->rigging.main, *tail = &run->lift->rigging.tail;
  g_autofree char *hook = g_strconcat (run->lift->pointer, "/hook_point", NULL);
  if (main->given && main->n_slings == 0)
    warn_of_point (scene, run, run->lift->hook.place, hook, diags);
  if (!tail->given || tail->n_slings > 0)
    return;
  g_autofree char *point = g_strconcat (tail->pointer, "/point", NULL);
  warn_of_point (scene, run, tail->point, point, diags);
}

static void
warn_of_pressure (const TrnScene *scene, const TrnGear *gear, TrnDiags *diags)
{
  if (isnan (gear->allowed_pressure_pa)
      || (gear->allowed_pressure_pa >= SOFTEST_PA && gear->allowed_pressure_pa <= HARDEST_PA))
    return;
  g_autofree char *pointer = g_strconcat (gear->pointer, "/ground/allowed_pressure", NULL);
  TrnDiag *diag = warn (scene, diags, "scene/odd-pressure", pointer);
  trn_diag_set_text (diag, "gear", gear->id);
  trn_diag_set_number (diag, "pressure", gear->allowed_pressure_pa, TRN_UNIT_PA);
}

/* By a moment that may bend a mat over all of its width. */
static void
warn_of_moment (const TrnScene *scene, const TrnGear *gear, const char *mat, const char *key,
                double moment_nm, double width_m, double height_m, TrnDiags *diags)
{
  const double stress_pa = 6 * moment_nm / (width_m * height_m * height_m);
  if (isnan (moment_nm) || (stress_pa >= WEAKEST_MAT_PA && stress_pa <= STRONGEST_MAT_PA))
    return;
  g_autofree char *pointer = g_strdup_printf ("%s/%s/mat/%s", gear->pointer, mat, key);
  TrnDiag *diag = warn (scene, diags, "scene/odd-mat", pointer);
  trn_diag_set_text (diag, "gear", gear->id);
  trn_diag_set_text (diag, "key", key);
  trn_diag_set_number (diag, "moment", moment_nm, TRN_UNIT_NM);
  trn_diag_set_number (diag, "stress", stress_pa, TRN_UNIT_PA);
}

static void
warn_of_mat (const TrnScene *scene, const TrnGear *gear, const TrnGearFoot *foot, const char *of,
             gboolean is_of_track, TrnDiags *diags)
{
  const TrnVec3 *size = &foot->mat_size;
  if (!foot->has_mat)
    return;
  const gboolean along_y = is_of_track || size->y > size->x;
  warn_of_moment (scene, gear, of, "moment", foot->mat_moment_nm, along_y ? size->x : size->y,
                  size->z, diags);
  warn_of_moment (scene, gear, of, "moment_across", foot->mat_moment_across_nm,
                  along_y ? size->y : size->x, size->z, diags);
}

/* Those of supports are all alike. */
static void
warn_of_mats (const TrnScene *scene, const TrnGear *gear, TrnDiags *diags)
{
  for (guint i = 0; i < gear->n_legs; i++)
    {
      g_autofree char *of = g_strdup_printf ("legs/%u", i);
      warn_of_mat (scene, gear, &gear->legs[i], of, FALSE, diags);
    }
  if (gear->n_supports > 0)
    warn_of_mat (scene, gear, gear->supports, "supports", gear->support_kind == TRN_SUPPORT_TRACKS,
                 diags);
}

/* What a crane may lift gets no more with the radius: of a row that has more than the one before,
 * the mass or the radius is another's. */
static void
warn_of_table (const TrnScene *scene, const TrnGear *gear, TrnDiags *diags)
{
  for (guint i = 1; i < gear->n_capacity; i++)
    {
      const TrnCapacityRow *row = &gear->capacity[i];
      if (!(row->mass_kg > row[-1].mass_kg))
        continue;
      g_autofree char *pointer = g_strdup_printf ("%s/capacity/table/%u", gear->pointer, i);
      TrnDiag *diag = warn (scene, diags, "scene/odd-capacity", pointer);
      trn_diag_set_text (diag, "gear", gear->id);
      trn_diag_set_number (diag, "radius", row->radius_m, TRN_UNIT_M);
      trn_diag_set_number (diag, "mass", row->mass_kg, TRN_UNIT_KG);
      trn_diag_set_number (diag, "before", row[-1].mass_kg, TRN_UNIT_KG);
    }
}

static void
warn_of_light (const TrnScene *scene, const TrnGear *gear, double mass_kg, const char *key,
               TrnDiags *diags)
{
  double rated_kg = 0;
  for (guint i = 0; i < gear->n_capacity; i++)
    rated_kg = fmax (rated_kg, gear->capacity[i].mass_kg);
  if (!(mass_kg < LIGHTEST_GEAR_SHARE * rated_kg))
    return;
  g_autofree char *pointer = g_strdup_printf ("%s/%s", gear->pointer, key);
  TrnDiag *diag = warn (scene, diags, "scene/odd-gear-mass", pointer);
  trn_diag_set_text (diag, "gear", gear->id);
  trn_diag_set_number (diag, "mass", mass_kg, TRN_UNIT_KG);
  trn_diag_set_number (diag, "rated", rated_kg, TRN_UNIT_KG);
}

static void
warn_of_gear (const TrnScene *scene, const TrnGear *gear, TrnDiags *diags)
{
  warn_of_pressure (scene, gear, diags);
  warn_of_mats (scene, gear, diags);
  if (gear->kind == TRN_GEAR_CRANE)
    {
      warn_of_table (scene, gear, diags);
      warn_of_light (scene, gear, gear->boom_mass_kg, "boom/mass", diags);
    }
  if (gear->kind == TRN_GEAR_CRANE || gear->kind == TRN_GEAR_GANTRY)
    warn_of_light (scene, gear, gear->mass_kg, "mass", diags);
}

static void
warn_of_factor (const TrnScene *scene, double factor, const char *pointer, TrnDiags *diags)
{
  if (!(factor > GREATEST_FACTOR))
    return;
  TrnDiag *diag = warn (scene, diags, "scene/odd-factor", pointer);
  trn_diag_set_number (diag, "factor", factor, TRN_UNIT_NONE);
}

static void
warn_of_loads (const TrnScene *scene, TrnDiags *diags)
{
  const TrnPlan *plan = scene->programme->plan;
  for (guint i = 0; i < plan->n_gear; i++)
    warn_of_gear (scene, &plan->gear[i], diags);
  for (guint i = 0; i < plan->n_components; i++)
    {
      g_autofree char *pointer = g_strconcat (plan->components[i].pointer, "/mass_factor", NULL);
      warn_of_factor (scene, plan->components[i].mass_factor, pointer, diags);
    }
  if (plan->loads.dynamic.kind == TRN_DYNAMIC_FACTOR)
    warn_of_factor (scene, plan->loads.dynamic.factor, "/loads/dynamic/factor", diags);
  if (!plan->wind.given || !(plan->wind.drag < LEAST_DRAG))
    return;
  trn_diag_set_number (warn (scene, diags, "scene/odd-drag", "/wind/drag"), "drag", plan->wind.drag,
                       TRN_UNIT_NONE);
}

static double
from_standing_m (const TrnScene *scene, const TrnLiftRun *run, const TrnStanding *standing)
{
  const TrnBodies *bodies = trn_scene_bodies_of (scene, standing);
  double least_m = INFINITY;
  for (guint i = 0; i < bodies->n_bodies; i++)
    {
      TrnVec3 start = trn_pose_apply_inverse (&standing->site_from_standing, run->start.position);
      TrnBox box = bodies->bodies[i].mesh->box;
      trn_box_add_point (&box, start);
      TrnVec3 whole = trn_box_size (&box), own = trn_box_size (&bodies->bodies[i].mesh->box);
      least_m = fmin (least_m, trn_vec3_length (trn_vec3_sub (whole, own)));
    }
  return least_m;
}

/* A structure that is far from all loads, as far as it has a mesh. */
static void
warn_of_far (const TrnScene *scene, guint structure, TrnDiags *diags)
{
  const TrnProgramme *programme = scene->programme;
  const TrnStructure *of = &programme->plan->structures[structure];
  double least_m = INFINITY;
  for (guint r = 0; r < programme->n_runs; r++)
    for (guint i = 0; i < programme->runs[r].n_standing; i++)
      {
        const TrnStanding *standing = &programme->runs[r].standing[i];
        if (standing->kind == TRN_STANDING_STRUCTURE && standing->index == structure)
          least_m = fmin (least_m, from_standing_m (scene, &programme->runs[r], standing));
      }
  if (isinf (least_m) || least_m <= FAR_M)
    return;
  g_autofree char *pointer = g_strconcat (of->pointer, "/at", NULL);
  TrnDiag *diag = warn (scene, diags, "scene/far-off", pointer);
  trn_diag_set_text (diag, "structure", of->id);
  trn_diag_set_number (diag, "distance", round (least_m), TRN_UNIT_M);
}

void
trn_scene_warn_of_odd (const TrnScene *scene, TrnDiags *diags)
{
  const TrnProgramme *programme = scene->programme;
  for (guint i = 0; i < programme->plan->n_components; i++)
    {
      warn_of_density (scene, i, diags);
      warn_of_no_source (scene, i, diags);
      warn_of_cog (scene, i, diags);
    }
  for (guint i = 0; i < programme->plan->n_structures; i++)
    warn_of_far (scene, i, diags);
  warn_of_loads (scene, diags);
  for (guint i = 0; i < programme->n_runs; i++)
    {
      const TrnRigging *rigging = &programme->runs[i].lift->rigging;
      if (!rigging->given)
        continue;
      warn_of_points (scene, &programme->runs[i], diags);
      warn_of_slings (scene, &programme->runs[i], &rigging->main, diags);
      warn_of_slings (scene, &programme->runs[i], &rigging->tail, diags);
    }
}
