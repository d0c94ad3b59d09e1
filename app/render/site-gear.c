/* site-gear.c: the moving parts of gear as they are at one moment: booms and beams as boxes of
 * their true section, though the checks take the round bar about them; ropes and slings as thin
 * round bars, with a line along them that is seen from afar too; what has corners as their hull. A
 * part that has no place, as a boom whose hook is out of reach, is not drawn.
 *
 * The meshes are of this picture only: they have a few dozen triangles, and a rope is another one
 * at every moment. */
#include "gear-mesh.h"
#include "gauge-words.h"
#include "site-parts.h"

#define ROPE_PX 1.5
#define CIRCLE_CHORDS 96
#define CIRCLE_PLACES 12
#define CIRCLE_PX 1.5

/* Where the corners are; FALSE where there is no place. */
static gboolean
find_corners (const TrnRig *rig, guint body, guint move, double progress, TrnVec3 *corners)
{
  TrnRigLimb store;
  TrnJet3 jets[TRN_LIMB_CORNERS];
  TrnLimb limb = trn_rig_limb (rig, body, move, &store);
  if (!limb.corners (limb.data, (TrnInterval){ progress, progress }, jets))
    return FALSE;
  for (guint i = 0; i < limb.n_corners; i++)
    corners[i] = (TrnVec3){ trn_interval_middle (jets[i].x.v), trn_interval_middle (jets[i].y.v),
                            trn_interval_middle (jets[i].z.v) };
  return TRUE;
}

/* Slings and beams are there only while they hold the load. */
static gboolean
is_there (const TrnRigBody *body, guint move)
{
  return move >= body->first_move && move <= body->last_move;
}

/* NULL where there is nothing to be seen of it. */
static TrnMesh *
shape_of (const TrnRig *rig, const TrnRigBody *body, const TrnVec3 *corners)
{
  const TrnGear *gear = body->place != G_MAXUINT ? rig->places[body->place].gear : NULL;
  switch (body->part)
    {
    case TRN_PART_BOOM:
      g_assert (gear != NULL); /* only rigging is without */
      return render_beam_mesh (corners[0], corners[1], gear->boom_width_m, gear->boom_depth_m);
    case TRN_PART_JIB:
      g_assert (gear != NULL);
      return render_beam_mesh (corners[0], corners[1], gear->jib_width_m, gear->jib_depth_m);
    case TRN_PART_BEAM:
      return render_beam_mesh (corners[0], corners[1], body->hoist->beam.width_m,
                               body->hoist->beam.depth_m);
    case TRN_PART_ROPE:
    case TRN_PART_SLING:
      return render_bar_mesh (corners[0], corners[1], body->radius_m);
    case TRN_PART_COUNTERWEIGHT:
    case TRN_PART_HEADER:
    case TRN_PART_TROLLEY:
    case TRN_PART_TAIL_TROLLEY:
    case TRN_PART_BLOCK:
      return render_hull_mesh (corners, body->n_corners);
    }
  g_assert_not_reached ();
}

static void
add_part (RenderSiteWork *work, guint index, RenderVisibility visible)
{
  const TrnRig *rig = work->run->rig;
  const TrnRigBody *part = &rig->bodies[index];
  TrnVec3 corners[TRN_LIMB_CORNERS];
  if (!find_corners (rig, index, work->move, work->progress, corners))
    return;
  g_autoptr (TrnMesh) shape = shape_of (rig, part, corners);
  if (shape == NULL)
    return;
  gboolean ghost = visible == RENDER_VISIBLE_GHOST;
  RenderBody body
      = { .mesh = render_draw_list_make_mesh (work->list, shape),
          .site_from_mesh = trn_pose_identity (),
          .role = RENDER_ROLE_GEAR,
          .look = ghost ? RENDER_LOOK_GHOST : RENDER_LOOK_SOLID,
          .selected = render_site_is_selected (work, part->id),
          .id = ghost ? 0 : render_site_pick_id_of_rig (work->site, work->state->run, index) };
  render_draw_list_add_body (work->list, &body);
  if (!ghost && (part->part == TRN_PART_ROPE || part->part == TRN_PART_SLING))
    render_draw_list_add_line (work->list, corners, 2, RENDER_LINE_SOLID, ROPE_PX,
                               RENDER_STATE_NONE, FALSE);
}

void
render_site_add_gear (RenderSiteWork *work)
{
  const TrnRig *rig = work->run->rig;
  const TrnPlan *plan = work->site->scene->programme->plan;
  for (guint i = 0; rig != NULL && i < rig->n_bodies; i++)
    {
      guint place = rig->bodies[i].place;
      int item = place != G_MAXUINT ? (int)(work->site->n_structure_bodies)
                                          + (int)(rig->places[place].gear - plan->gear)
                                    : -1;
      RenderVisibility visible = render_site_visibility (work, item);
      if (is_there (&rig->bodies[i], work->move) && visible != RENDER_VISIBLE_HIDDEN)
        add_part (work, i, visible);
    }
}

void
render_site_add_gear_way (const TrnLiftRun *run, guint n_steps, TrnBox *extent)
{
  const TrnRig *rig = run->rig;
  TrnVec3 corners[TRN_LIMB_CORNERS];
  for (guint i = 0; rig != NULL && i < rig->n_bodies; i++)
    for (guint m = 0; rig->bodies[i].hoist != NULL && m < rig->n_moves; m++)
      for (guint k = 0; is_there (&rig->bodies[i], m) && k <= n_steps; k++)
        if (find_corners (rig, i, m, (double)k / n_steps, corners))
          for (guint c = 0; c < rig->bodies[i].n_corners; c++)
            trn_box_add_point (extent, corners[c]);
}

/* ---- circles about cranes ---- */

static void
add_circle (RenderSiteWork *work, TrnVec3 centre, double radius_m, RenderLineStyle style,
            const char *text)
{
  TrnVec3 circle[CIRCLE_CHORDS + 1], places[CIRCLE_PLACES];
  for (guint i = 0; i <= CIRCLE_CHORDS; i++)
    {
      double angle = 2 * G_PI * (i % CIRCLE_CHORDS) / CIRCLE_CHORDS;
      circle[i]
          = trn_vec3_add (centre, (TrnVec3){ radius_m * cos (angle), radius_m * sin (angle), 0 });
    }
  render_draw_list_add_line (work->list, circle, G_N_ELEMENTS (circle), style, CIRCLE_PX,
                             RENDER_STATE_NONE, FALSE);
  for (guint i = 0; i < CIRCLE_PLACES; i++)
    places[i] = circle[(2 * i + 1) * CIRCLE_CHORDS / (2 * CIRCLE_PLACES)];
  render_draw_list_add_note_along (work->list, text, places, CIRCLE_PLACES);
}

/* On the ground, where one stands who looks for them. */
void
render_site_add_crane_circles (RenderSiteWork *work)
{
  const TrnRig *rig = work->run->rig;
  for (guint i = 0; rig != NULL && i < rig->n_places; i++)
    {
      const TrnGear *gear = rig->places[i].gear;
      TrnVec3 centre = rig->places[i].site_from_gear.position;
      if (gear->kind != TRN_GEAR_CRANE)
        continue;
      if (gear->has_counterweight)
        {
          g_autofree char *text = trn_words_tail_circle (gear->tail_radius_m);
          add_circle (work, centre, gear->tail_radius_m, RENDER_LINE_DOTTED, text);
        }
      if (isfinite (gear->barricade_m))
        {
          g_autofree char *text = trn_words_barricade_circle (gear->barricade_m);
          add_circle (work, centre, gear->barricade_m, RENDER_LINE_TWO_DASH, text);
        }
    }
}
