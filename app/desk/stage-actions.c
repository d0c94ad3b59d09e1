/* stage-actions.c: everything that the view can do, by name: for buttons, menus and keys alike. */
#include "stage-private.h"

#include <string.h>

#define ZOOM_STEP 1.25
#define TURN_RAD (G_PI / 36)
#define PAN_SHARE 0.1
#define SECTION_STEP_M 0.1
#define SECTION_FAR_M 1.0

static const char *
word_of (GVariant *parameter)
{
  return g_variant_get_string (parameter, NULL);
}

/* The action is named after the view: "view-plan". */
static void
on_view (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  DeskStage *stage = data;
  RenderStandardView view;
  const char *name = g_action_get_name (G_ACTION (action));
  gboolean is_view = render_standard_view_from_name (name + strlen ("view-"), &view);
  g_assert (is_view);
  RenderCamera camera = desk_stage_get_camera (GTK_WIDGET (stage));
  TrnBox extent = desk_stage_extent (stage);
  render_camera_set_standard (&camera, view);
  render_camera_fit (&camera, desk_stage_size (stage), &extent);
  desk_stage_go (stage, camera);
}

static void
on_fit (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  DeskStage *stage = data;
  RenderCamera camera = desk_stage_get_camera (GTK_WIDGET (stage));
  TrnBox extent = desk_stage_extent (stage);
  render_camera_fit (&camera, desk_stage_size (stage), &extent);
  desk_stage_go (stage, camera);
}

static void
zoom (DeskStage *stage, double factor)
{
  RenderSize size = desk_stage_size (stage);
  RenderCamera camera = desk_stage_get_camera (GTK_WIDGET (stage));
  TrnVec3 under = desk_stage_point_under (stage, size.width / 2, size.height / 2);
  render_camera_zoom (&camera, size, under, factor);
  desk_stage_set_camera (GTK_WIDGET (stage), camera);
}

static void
on_zoom_in (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  zoom (data, 1 / ZOOM_STEP);
}

static void
on_zoom_out (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  zoom (data, ZOOM_STEP);
}

/* "left", "right", "up" or "down" as steps to the right and upward. */
static void
steps_of (const char *word, double *right, double *up)
{
  *right = g_str_equal (word, "right") - g_str_equal (word, "left");
  *up = g_str_equal (word, "up") - g_str_equal (word, "down");
}

static void
on_turn (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  DeskStage *stage = data;
  RenderSize size = desk_stage_size (stage);
  RenderCamera camera = desk_stage_get_camera (GTK_WIDGET (stage));
  double right, up;
  steps_of (word_of (parameter), &right, &up);
  TrnVec3 pivot = desk_stage_point_under (stage, size.width / 2, size.height / 2);
  render_camera_orbit (&camera, pivot, right * TURN_RAD, -up * TURN_RAD);
  desk_stage_set_camera (GTK_WIDGET (stage), camera);
}

static void
on_pan (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  DeskStage *stage = data;
  RenderSize size = desk_stage_size (stage);
  RenderCamera camera = desk_stage_get_camera (GTK_WIDGET (stage));
  double right, up, step = PAN_SHARE * size.height;
  steps_of (word_of (parameter), &right, &up);
  render_camera_pan (&camera, size, camera.target, 0, 0, -right * step, up * step);
  desk_stage_set_camera (GTK_WIDGET (stage), camera);
}

static void
on_still (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  desk_stage_save_still (data);
}

static void
on_stop_still (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  desk_stage_stop_still (data);
}

static void
on_save_view (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  desk_stage_save_view (data);
}

static void
on_parallel (GSimpleAction *action, GVariant *state, gpointer data)
{
  RenderCamera camera = desk_stage_get_camera (data);
  camera.parallel = g_variant_get_boolean (state);
  desk_stage_set_camera (data, camera);
}

static void
on_section (GSimpleAction *action, GVariant *state, gpointer data)
{
  DeskStage *stage = data;
  if (g_variant_get_boolean (state) != desk_session_get_section (stage->session).on)
    desk_stage_toggle_section (stage);
}

static void
on_section_move (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  const char *word = word_of (parameter);
  double by_m = g_str_has_prefix (word, "far-") ? SECTION_FAR_M : SECTION_STEP_M;
  desk_stage_move_section (data, g_str_has_suffix (word, "back") ? -by_m : by_m);
}

static void
on_section_over (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  desk_stage_turn_section_over (data);
}

static void
on_section_next (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  desk_stage_next_section (data);
}

static void
on_measure (GSimpleAction *action, GVariant *state, gpointer data)
{
  desk_stage_set_measuring (data, g_variant_get_boolean (state));
}

static void
on_clear_measures (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  desk_stage_clear_measures (data);
  desk_stage_redraw (data, TRUE);
}

/* ---- structures ---- */

gboolean
desk_stage_selected_item (DeskStage *stage, guint *item)
{
  const char *selected = desk_session_get_selected (stage->session);
  DeskSite *site = desk_session_get_site (stage->session);
  if (selected == NULL || site == NULL || desk_session_get_lift_run (stage->session) == NULL)
    return FALSE;
  int found = render_site_item_of (site->display, desk_session_get_run (stage->session), selected);
  *item = (guint)MAX (found, 0);
  return found >= 0;
}

/* What can be selected: the bodies of structures, then what else stands there, then what moves. */
static GPtrArray *
bodies_in_turn (DeskStage *stage)
{
  GPtrArray *ids = g_ptr_array_new ();
  DeskSite *site = desk_session_get_site (stage->session);
  if (site == NULL)
    return ids;
  guint n = site->display->n_structure_bodies;
  for (guint i = 0; i < n; i++)
    g_ptr_array_add (ids, (gpointer)render_site_item_id (site->display, i));
  const TrnLiftRun *run = desk_session_get_lift_run (stage->session);
  if (run == NULL)
    return ids;
  for (guint i = 0; i < run->n_standing; i++)
    {
      const TrnBodies *bodies = trn_scene_bodies_of (site->scene, &run->standing[i]);
      for (guint k = 0; run->standing[i].kind != TRN_STANDING_STRUCTURE && k < bodies->n_bodies;
           k++)
        g_ptr_array_add (ids, bodies->bodies[k].id);
    }
  for (guint i = 0; run->rig != NULL && i < run->rig->n_bodies; i++)
    g_ptr_array_add (ids, run->rig->bodies[i].id);
  g_ptr_array_add (ids, (gpointer)render_site_body_id (site->display, 1));
  return ids;
}

static void
select_by (DeskStage *stage, gboolean forward)
{
  g_autoptr (GPtrArray) ids = bodies_in_turn (stage);
  const char *selected = desk_session_get_selected (stage->session);
  if (ids->len == 0)
    return;
  guint at = forward ? ids->len - 1 : 0;
  for (guint i = 0; i < ids->len && selected != NULL; i++)
    if (g_str_equal (ids->pdata[i], selected))
      at = i;
  at = (at + (forward ? 1 : ids->len - 1)) % ids->len;
  desk_session_set_selected (stage->session, ids->pdata[at]);
}

static void
on_select_next (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  select_by (data, TRUE);
}

static void
on_select_previous (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  select_by (data, FALSE);
}

/* Again: solid. */
static void
toggle_visibility (DeskStage *stage, RenderVisibility visibility)
{
  guint at;
  if (!desk_stage_selected_item (stage, &at))
    return;
  gboolean already = desk_session_get_visibility (stage->session, at) == visibility;
  desk_session_set_visibility (stage->session, at, already ? RENDER_VISIBLE_SOLID : visibility);
}

static void
on_ghost (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  toggle_visibility (data, RENDER_VISIBLE_GHOST);
}

static void
on_hide (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  toggle_visibility (data, RENDER_VISIBLE_HIDDEN);
}

static void
on_isolate (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  DeskStage *stage = data;
  guint at;
  if (desk_stage_selected_item (stage, &at))
    desk_session_isolate (stage->session, at);
}

static void
on_show_all (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  desk_session_show_all (DESK_STAGE (data)->session);
}

/* ---- the table ---- */

static const GActionEntry entries[] = {
  { .name = "view-plan", .activate = on_view },
  { .name = "view-north", .activate = on_view },
  { .name = "view-east", .activate = on_view },
  { .name = "view-south", .activate = on_view },
  { .name = "view-west", .activate = on_view },
  { .name = "view-3d", .activate = on_view },
  { .name = "fit", .activate = on_fit },
  { .name = "zoom-in", .activate = on_zoom_in },
  { .name = "zoom-out", .activate = on_zoom_out },
  { .name = "turn", .activate = on_turn, .parameter_type = "s" },
  { .name = "pan", .activate = on_pan, .parameter_type = "s" },
  { .name = "still", .activate = on_still },
  { .name = "stop-still", .activate = on_stop_still },
  { .name = "save-view", .activate = on_save_view },
  { .name = "section-move", .activate = on_section_move, .parameter_type = "s" },
  { .name = "section-over", .activate = on_section_over },
  { .name = "section-next", .activate = on_section_next },
  { .name = "select-next", .activate = on_select_next },
  { .name = "select-previous", .activate = on_select_previous },
  { .name = "ghost", .activate = on_ghost },
  { .name = "hide", .activate = on_hide },
  { .name = "isolate", .activate = on_isolate },
  { .name = "show-all", .activate = on_show_all },
  { .name = "clear-measures", .activate = on_clear_measures },
  { .name = "parallel", .state = "false", .change_state = on_parallel },
  { .name = "section", .state = "false", .change_state = on_section },
  { .name = "measure", .state = "false", .change_state = on_measure },
};

void
desk_stage_init_actions (DeskStage *stage)
{
  stage->actions = g_simple_action_group_new ();
  g_action_map_add_action_entries (G_ACTION_MAP (stage->actions), entries, G_N_ELEMENTS (entries),
                                   stage);
  g_simple_action_set_enabled (
      G_SIMPLE_ACTION (g_action_map_lookup_action (G_ACTION_MAP (stage->actions), "stop-still")),
      FALSE);
  gtk_widget_insert_action_group (GTK_WIDGET (stage), "stage", G_ACTION_GROUP (stage->actions));
}

void
desk_stage_tell_state (DeskStage *stage, const char *action, gboolean state)
{
  GAction *found = g_action_map_lookup_action (G_ACTION_MAP (stage->actions), action);
  g_simple_action_set_state (G_SIMPLE_ACTION (found), g_variant_new_boolean (state));
}

void
desk_stage_add_actions (GtkWidget *stage, GActionMap *map)
{
  for (guint i = 0; i < G_N_ELEMENTS (entries); i++)
    g_action_map_add_action (map, g_action_map_lookup_action (
                                      G_ACTION_MAP (DESK_STAGE (stage)->actions), entries[i].name));
}
