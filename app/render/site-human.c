/* site-human.c: where the figure for scale stands: on the ground beside the load's way, where a
 * person could stand: in nothing, over no opening, and not under the load.
 *
 * Boxes are enough for that. The place depends on the lift alone, so that the figure stays where
 * it is while time goes on. */
#include "site-parts.h"

#define HEIGHT_M 1.75
#define ROOM_M 0.6 /* to everything else */
#define DIRECTIONS 16
#define STEP_M 1.0
#define MOST_STEPS 12
#define MOST_WAY_STEPS 8

typedef struct
{
  GArray *boxes; /* of TrnBox: where nobody stands */
  double level_m;
} Room;

static void
add_box (Room *room, TrnBox box)
{
  g_array_append_val (room->boxes, box);
}

static void
add_openings (Room *room, const TrnSolid *ground, const TrnPose *pose)
{
  for (guint i = 0; i < ground->n_openings; i++)
    {
      const TrnOpening *o = &ground->openings[i];
      gboolean round = o->kind == TRN_OPENING_CIRCLE;
      double half_x = (round ? o->diameter_m : o->width_m) / 2;
      double half_y = (round ? o->diameter_m : o->height_m) / 2;
      TrnBox box = trn_box_empty ();
      for (guint k = 0; k < 4; k++)
        trn_box_add_point (
            &box, trn_pose_apply (pose, (TrnVec3){ o->x_m + (k & 1 ? half_x : -half_x),
                                                   o->y_m + (k & 2 ? half_y : -half_y), 0 }));
      box.hi.z += HEIGHT_M;
      add_box (room, box);
    }
}

static void
add_standing (Room *room, const RenderSiteWork *work)
{
  const TrnPlan *plan = work->site->scene->programme->plan;
  for (guint i = 0; i < work->run->n_standing; i++)
    {
      const TrnStanding *standing = &work->run->standing[i];
      const TrnPose *pose = &standing->site_from_standing;
      if (render_site_is_ground (work->site, standing))
        {
          room->level_m = pose->position.z;
          add_openings (room, plan->structures[standing->index].shape.solid, pose);
          continue;
        }
      guint n = trn_scene_bodies_of (work->site->scene, standing)->n_bodies;
      for (guint k = 0; k < n; k++)
        add_box (room, render_site_box (render_site_mesh_of (work->site, standing, k), pose));
    }
}

static void
add_way (Room *room, const RenderSiteWork *work)
{
  const RenderMesh *load = render_site_load (work->site, work->run);
  for (guint m = 0; m < work->run->lift->n_moves; m++)
    for (guint k = 0; k <= MOST_WAY_STEPS; k++)
      {
        TrnPose pose = trn_motion_pose (&work->run->motions[m], (double)k / MOST_WAY_STEPS);
        TrnBox box = render_site_box (load, &pose);
        /* Nobody stands under it either. */
        box.lo.z = fmin (box.lo.z, room->level_m);
        add_box (room, box);
      }
}

static gboolean
has_room (const Room *room, double x, double y)
{
  for (guint i = 0; i < room->boxes->len; i++)
    {
      const TrnBox *b = &g_array_index (room->boxes, TrnBox, i);
      if (x > b->lo.x - ROOM_M && x < b->hi.x + ROOM_M && y > b->lo.y - ROOM_M
          && y < b->hi.y + ROOM_M && b->hi.z > room->level_m + 0.01
          && b->lo.z < room->level_m + HEIGHT_M)
        return FALSE;
    }
  return TRUE;
}

void
render_site_add_human (RenderSiteWork *work)
{
  g_autoptr (GArray) boxes = g_array_new (FALSE, FALSE, sizeof (TrnBox));
  Room room = { boxes, 0 };
  add_standing (&room, work);
  add_way (&room, work);
  TrnBox start = render_site_box (render_site_load (work->site, work->run), &work->run->start);
  TrnVec3 middle = trn_box_centre (&start);
  for (guint i = 1; i <= MOST_STEPS; i++)
    for (guint k = 0; k < DIRECTIONS; k++)
      {
        /* South-east first: in front of the load in the oblique view. */
        double angle = -G_PI / 4 + k * 2 * G_PI / DIRECTIONS, out = i * STEP_M;
        double x = middle.x + cos (angle) * ((start.hi.x - start.lo.x) / 2 + out);
        double y = middle.y + sin (angle) * ((start.hi.y - start.lo.y) / 2 + out);
        if (!has_room (&room, x, y))
          continue;
        work->list->human = TRUE;
        work->list->human_at = trn_vec3_make (x, y, room.level_m);
        return;
      }
}
