/* site-view.c: a moment of a lift as a draw list. */
#include "site-view.h"

#include "site-parts.h"
#include "view-words.h"

/* A cell is at most this share of the load's way. */
#define GRID_SHARE 8.0

static RenderRole
role_of (const RenderSite *site, const TrnStanding *standing)
{
  switch (standing->kind)
    {
    case TRN_STANDING_STRUCTURE:
      return render_site_is_ground (site, standing) ? RENDER_ROLE_GROUND : RENDER_ROLE_STRUCTURE;
    case TRN_STANDING_COMPONENT:
      return RENDER_ROLE_COMPONENT;
    case TRN_STANDING_GEAR:
      return RENDER_ROLE_GEAR;
    }
  g_assert_not_reached ();
}

gboolean
render_site_is_selected (const RenderSiteWork *work, const char *id)
{
  return work->state->selected != NULL && g_str_equal (work->state->selected, id);
}

RenderVisibility
render_site_visibility (const RenderSiteWork *work, int item)
{
  return item >= 0 && work->state->visibility != NULL ? work->state->visibility[item]
                                                      : RENDER_VISIBLE_SOLID;
}

static guint32
pick_id_of (const RenderSite *site, const TrnStanding *standing, guint k)
{
  guint n_components = site->scene->programme->plan->n_components;
  switch (standing->kind)
    {
    case TRN_STANDING_STRUCTURE:
      return render_site_pick_id (site, site->first[standing->index] + k);
    case TRN_STANDING_COMPONENT:
      return 2 + site->n_structure_bodies + standing->index;
    case TRN_STANDING_GEAR:
      return 2 + site->n_structure_bodies + n_components + site->first_gear[standing->index] + k;
    }
  g_assert_not_reached ();
}

static void
add_body (RenderSiteWork *work, const TrnStanding *standing, guint k)
{
  const RenderSite *site = work->site;
  RenderVisibility visible
      = render_site_visibility (work, render_site_item_of_standing (site, standing, k));
  if (visible == RENDER_VISIBLE_HIDDEN)
    return;
  gboolean ghost = visible == RENDER_VISIBLE_GHOST;
  const char *id = trn_scene_bodies_of (site->scene, standing)->bodies[k].id;
  RenderBody body = { .mesh = render_site_mesh_of (site, standing, k),
                      .site_from_mesh = standing->site_from_standing,
                      .role = role_of (site, standing),
                      .look = ghost ? RENDER_LOOK_GHOST : RENDER_LOOK_SOLID,
                      .selected = render_site_is_selected (work, id),
                      .id = ghost ? 0 : pick_id_of (site, standing, k) };
  render_draw_list_add_body (work->list, &body);
}

static void
add_bodies (RenderSiteWork *work)
{
  for (guint i = 0; i < work->run->n_standing; i++)
    {
      const TrnStanding *standing = &work->run->standing[i];
      guint n = trn_scene_bodies_of (work->site->scene, standing)->n_bodies;
      for (guint k = 0; k < n; k++)
        add_body (work, standing, k);
    }
  render_site_add_gear (work);
  RenderBody load = { .mesh = render_site_load (work->site, work->run),
                      .site_from_mesh = work->site_from_load,
                      .role = RENDER_ROLE_LOAD,
                      .look = RENDER_LOOK_SOLID,
                      .selected = render_site_is_selected (work, "load"),
                      .shines_through = work->state->load_shines_through,
                      .id = 1 };
  render_draw_list_add_body (work->list, &load);
}

static void
set_grid (RenderSiteWork *work)
{
  TrnBox way = render_site_load_way (work->site, work->run);
  TrnVec3 size = trn_box_size (&way);
  work->list->grid = TRUE;
  work->list->grid_pitch_m
      = trn_words_grid_pitch_m (fmax (trn_vec3_max_abs (size) / GRID_SHARE, 0.1));
}

static void
set_caption (RenderSiteWork *work)
{
  const RenderSiteState *state = work->state;
  if (state->caption == NULL)
    return;
  g_autofree char *grid = work->list->grid ? trn_words_grid (work->list->grid_pitch_m) : NULL;
  g_autofree char *section
      = state->section.on ? trn_words_section (state->section.normal, state->section.offset_m)
                          : NULL;
  work->list->caption = trn_words_join (state->caption, grid, section);
}

RenderDrawList *
render_site_view (const RenderSite *site, const RenderSiteState *state)
{
  g_assert (state->run < site->scene->programme->n_runs);
  const TrnLiftRun *run = &site->scene->programme->runs[state->run];
  RenderSiteWork work
      = { .site = site, .state = state, .run = run, .list = render_draw_list_new () };
  work.site_from_load = trn_lift_run_pose (run, state->time_s, &work.move, &work.progress);
  work.list->dark = state->dark;
  work.list->section = state->section;
  work.list->compass = state->compass;
  add_bodies (&work);
  if (state->paths)
    render_site_add_paths (&work);
  if (state->swing_circles)
    {
      render_site_add_swing_circle (&work);
      render_site_add_crane_circles (&work);
    }
  render_site_add_finding (&work);
  if (state->nearest)
    render_site_add_nearest (&work);
  if (state->grid)
    set_grid (&work);
  if (state->human)
    render_site_add_human (&work);
  set_caption (&work);
  return work.list;
}
