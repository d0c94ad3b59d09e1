/* stage-input.c: pointer, touchpad and keys.
 *
 * Dragging turns about the point that was under the pointer when it was pressed, and so do pinching
 * and the wheel come nearer to it: what one looks at stays where it is. Two fingers that turn turn
 * the site about it. */
#include "stage-private.h"

#include <string.h>

#define CLICK_PX 4
#define TURN_PER_PX 0.006
#define WHEEL_ZOOM 1.15
#define TOUCHPAD_ZOOM_PX 120.0
#define TOUCHPAD_STEP_PX 40.0
#define TWIST_LEAST_RAD (G_PI / 18)
#define DRIFT_PER_S 5.0 /* by what share of itself the speed falls */
#define DRIFT_LEAST_PX_S 15.0

static void
move_camera (DeskStage *stage, RenderCamera camera)
{
  desk_stage_set_camera (GTK_WIDGET (stage), camera);
}

/* ---- dragging ---- */

static void
on_drag_begin (GtkGestureDrag *gesture, double x, double y, DeskStage *stage)
{
  GdkModifierType state
      = gtk_event_controller_get_current_event_state (GTK_EVENT_CONTROLLER (gesture));
  guint button = gtk_gesture_single_get_current_button (GTK_GESTURE_SINGLE (gesture));
  gtk_widget_grab_focus (stage->area);
  stage->dragged = FALSE;
  stage->dragging = button == GDK_BUTTON_PRIMARY || button == GDK_BUTTON_MIDDLE;
  if (!stage->dragging)
    return;
  stage->panning = button == GDK_BUTTON_MIDDLE || (state & GDK_SHIFT_MASK) != 0;
  stage->grabbed = desk_stage_point_under (stage, x, y);
  stage->drag_x = x;
  stage->drag_y = y;
}

static void
on_drag_update (GtkGestureDrag *gesture, double by_x, double by_y, DeskStage *stage)
{
  double x0, y0;
  if (!stage->dragging || !gtk_gesture_drag_get_start_point (gesture, &x0, &y0))
    return;
  if (!stage->dragged && hypot (by_x, by_y) < CLICK_PX)
    return;
  stage->dragged = TRUE;
  double x = x0 + by_x, y = y0 + by_y, dx = x - stage->drag_x, dy = y - stage->drag_y;
  RenderCamera camera = desk_stage_get_camera (GTK_WIDGET (stage));
  if (stage->panning)
    render_camera_pan (&camera, desk_stage_size (stage), stage->grabbed, stage->drag_x,
                       stage->drag_y, x, y);
  else
    render_camera_orbit (&camera, stage->grabbed, -dx * TURN_PER_PX, -dy * TURN_PER_PX);
  stage->drag_x = x;
  stage->drag_y = y;
  move_camera (stage, camera);
}

static void
on_drag_end (GtkGestureDrag *gesture, double by_x, double by_y, DeskStage *stage)
{
  stage->dragging = FALSE;
}

/* ---- clicking ---- */

static void
drop_popover (gpointer popover)
{
  gtk_widget_unparent (popover);
  g_object_unref (popover);
}

/* The action that was chosen runs after the menu has closed. */
static void
on_menu_closed (GtkPopover *popover, DeskStage *stage)
{
  g_idle_add_once (drop_popover, g_object_ref (popover));
}

static void
show_menu (DeskStage *stage, double x, double y)
{
  g_autoptr (GMenu) menu = g_menu_new ();
  const struct
  {
    TrnStageText text;
    const char *action;
  } items[] = {
    { TRN_STAGE_GHOST, "stage.ghost" },     { TRN_STAGE_HIDE, "stage.hide" },
    { TRN_STAGE_ISOLATE, "stage.isolate" }, { TRN_STAGE_SHOW_ALL, "stage.show-all" },
    { TRN_STAGE_FIT, "stage.fit" },         { TRN_STAGE_MEASURE_CLEAR, "stage.clear-measures" }
  };
  guint item;
  gboolean has_item = desk_stage_selected_item (stage, &item);
  for (guint i = 0; i < G_N_ELEMENTS (items); i++)
    if (has_item || i > 2)
      g_menu_append (menu, trn_words_stage (items[i].text), items[i].action);
  GtkWidget *popover = gtk_popover_menu_new_from_model (G_MENU_MODEL (menu));
  gtk_widget_set_parent (popover, stage->overlay);
  gtk_popover_set_has_arrow (GTK_POPOVER (popover), FALSE);
  gtk_popover_set_pointing_to (GTK_POPOVER (popover), &(GdkRectangle){ (int)x, (int)y, 1, 1 });
  g_signal_connect (popover, "closed", G_CALLBACK (on_menu_closed), stage);
  gtk_popover_popup (GTK_POPOVER (popover));
}

static void
on_released (GtkGestureClick *gesture, int n, double x, double y, DeskStage *stage)
{
  guint button = gtk_gesture_single_get_current_button (GTK_GESTURE_SINGLE (gesture));
  if (stage->dragged || desk_session_get_lift_run (stage->session) == NULL)
    return;
  if (button == GDK_BUTTON_PRIMARY && stage->measuring)
    {
      desk_stage_measure_hover (stage, x, y);
      desk_stage_measure_click (stage);
      return;
    }
  if (button == GDK_BUTTON_MIDDLE)
    return;
  const char *body = desk_stage_pick (stage, x, y);
  guint item;
  if (n == 2 && button == GDK_BUTTON_PRIMARY)
    {
      if (desk_stage_selected_item (stage, &item))
        desk_session_isolate (stage->session, item);
      return;
    }
  desk_session_set_selected (stage->session, body);
  if (button == GDK_BUTTON_SECONDARY)
    show_menu (stage, x, y);
}

static void
on_motion (GtkEventControllerMotion *controller, double x, double y, DeskStage *stage)
{
  /* Also told when the pointer stays and what is below it changes: the cross stays too. */
  if (x == stage->told_x && y == stage->told_y)
    return;
  stage->told_x = stage->x = x;
  stage->told_y = stage->y = y;
  if (stage->measuring && !stage->dragging)
    desk_stage_measure_hover (stage, x, y);
}

/* ---- scrolling ---- */

static void
zoom_at (DeskStage *stage, double x, double y, double factor)
{
  RenderCamera camera = desk_stage_get_camera (GTK_WIDGET (stage));
  render_camera_zoom (&camera, desk_stage_size (stage), desk_stage_point_under (stage, x, y),
                      factor);
  move_camera (stage, camera);
}

/* A wheel comes nearer, also by parts of a step; two fingers on a touchpad pan, with Ctrl come
 * nearer, with Shift turn. */
void
desk_stage_scroll (DeskStage *stage, double dx, double dy, gboolean is_touchpad,
                   GdkModifierType state)
{
  if (!is_touchpad)
    {
      zoom_at (stage, stage->x, stage->y, pow (WHEEL_ZOOM, dy != 0 ? dy : dx));
      return;
    }
  if ((state & GDK_CONTROL_MASK) != 0)
    {
      zoom_at (stage, stage->x, stage->y, exp (dy / TOUCHPAD_ZOOM_PX));
      return;
    }
  RenderCamera camera = desk_stage_get_camera (GTK_WIDGET (stage));
  TrnVec3 under = desk_stage_point_under (stage, stage->x, stage->y);
  stage->scrolled_by_panning = (state & GDK_SHIFT_MASK) == 0;
  if (stage->scrolled_by_panning)
    render_camera_pan (&camera, desk_stage_size (stage), under, 0, 0, -dx, -dy);
  else
    render_camera_orbit (&camera, under, dx * TURN_PER_PX, dy * TURN_PER_PX);
  move_camera (stage, camera);
}

/* Where the display does not say how far fingers have gone, it counts steps, also for a touchpad.
 */
static gboolean
on_scroll (GtkEventControllerScroll *scroll, double dx, double dy, DeskStage *stage)
{
  GtkEventController *controller = GTK_EVENT_CONTROLLER (scroll);
  GdkDevice *device = gtk_event_controller_get_current_event_device (controller);
  gboolean has_px = gtk_event_controller_scroll_get_unit (scroll) == GDK_SCROLL_UNIT_SURFACE;
  gboolean is_touchpad
      = has_px || (device != NULL && gdk_device_get_source (device) == GDK_SOURCE_TOUCHPAD);
  double px = is_touchpad && !has_px ? TOUCHPAD_STEP_PX : 1;
  desk_stage_scroll (stage, dx * px, dy * px, is_touchpad,
                     gtk_event_controller_get_current_event_state (controller));
  return TRUE;
}

static void
on_scroll_begin (GtkEventControllerScroll *scroll, DeskStage *stage)
{
  desk_stage_stop_drift (stage);
  stage->scrolled_by_panning = FALSE;
}

/* ---- drifting on after the fingers have left ---- */

RenderCamera
desk_stage_drift_at (const DeskStageDrift *drift, RenderSize size, double elapsed_s)
{
  double share = (1 - exp (-elapsed_s * DRIFT_PER_S)) / DRIFT_PER_S;
  RenderCamera camera = drift->from;
  render_camera_pan (&camera, size, drift->under, 0, 0, -drift->x_px_s * share,
                     -drift->y_px_s * share);
  return camera;
}

static gboolean
on_drift_tick (GtkWidget *widget, GdkFrameClock *clock, gpointer data)
{
  DeskStage *stage = data;
  double elapsed_s
      = (double)(gdk_frame_clock_get_frame_time (clock) - stage->drift.begins_us) / G_USEC_PER_SEC;
  stage->camera = desk_stage_drift_at (&stage->drift, desk_stage_size (stage), MAX (elapsed_s, 0));
  desk_stage_redraw_moving (stage, FALSE);
  double left_px_s
      = hypot (stage->drift.x_px_s, stage->drift.y_px_s) * exp (-elapsed_s * DRIFT_PER_S);
  if (left_px_s > DRIFT_LEAST_PX_S)
    return G_SOURCE_CONTINUE;
  stage->drift_id = 0;
  return G_SOURCE_REMOVE;
}

void
desk_stage_stop_drift (DeskStage *stage)
{
  if (stage->drift_id != 0)
    gtk_widget_remove_tick_callback (GTK_WIDGET (stage), stage->drift_id);
  stage->drift_id = 0;
}

/* Speeds in what is scrolled a second: pixels, as only touchpads tell them. */
static void
on_decelerate (GtkEventControllerScroll *scroll, double x_px_s, double y_px_s, DeskStage *stage)
{
  gboolean animated = FALSE;
  g_object_get (gtk_widget_get_settings (GTK_WIDGET (stage)), "gtk-enable-animations", &animated,
                NULL);
  GdkFrameClock *clock = gtk_widget_get_frame_clock (GTK_WIDGET (stage));
  if (!animated || clock == NULL || !stage->scrolled_by_panning
      || !(hypot (x_px_s, y_px_s) > DRIFT_LEAST_PX_S))
    return;
  desk_stage_stop_drift (stage);
  stage->drift = (DeskStageDrift){ .from = desk_stage_get_camera (GTK_WIDGET (stage)),
                                   .under = desk_stage_point_under (stage, stage->x, stage->y),
                                   .x_px_s = x_px_s,
                                   .y_px_s = y_px_s,
                                   .begins_us = gdk_frame_clock_get_frame_time (clock) };
  stage->drift_id = gtk_widget_add_tick_callback (GTK_WIDGET (stage), on_drift_tick, stage, NULL);
}

/* ---- pinching and turning with two fingers ---- */

/* Between the fingers; of a touchpad where the pointer is. */
static void
get_centre (GtkGesture *gesture, DeskStage *stage, double *x, double *y)
{
  *x = stage->x;
  *y = stage->y;
  if (gtk_gesture_is_active (gesture))
    gtk_gesture_get_bounding_box_center (gesture, x, y);
}

static void
on_pinch_begin (GtkGesture *gesture, GdkEventSequence *sequence, DeskStage *stage)
{
  desk_stage_stop_drift (stage);
  get_centre (gesture, stage, &stage->pinch_x, &stage->pinch_y);
  stage->pinched = desk_stage_point_under (stage, stage->pinch_x, stage->pinch_y);
  stage->pinch = 1;
  stage->twist_rad = 0;
  stage->twisting = FALSE;
}

/* The point that was between the fingers stays between them. */
static void
on_pinch (GtkGestureZoom *gesture, double scale, DeskStage *stage)
{
  if (!(scale > 0))
    return;
  double x, y;
  get_centre (GTK_GESTURE (gesture), stage, &x, &y);
  RenderSize size = desk_stage_size (stage);
  RenderCamera camera = desk_stage_get_camera (GTK_WIDGET (stage));
  render_camera_pan (&camera, size, stage->pinched, stage->pinch_x, stage->pinch_y, x, y);
  render_camera_zoom (&camera, size, stage->pinched, stage->pinch / scale);
  stage->pinch = scale;
  stage->pinch_x = x;
  stage->pinch_y = y;
  move_camera (stage, camera);
}

/* The site turns the way the fingers do, once they have turned so far that it is meant. */
static void
on_twist (GtkGestureRotate *gesture, double angle_rad, double clockwise_rad, DeskStage *stage)
{
  if (!stage->twisting && fabs (clockwise_rad) < TWIST_LEAST_RAD)
    return;
  if (!stage->twisting)
    stage->twist_rad = clockwise_rad;
  stage->twisting = TRUE;
  RenderCamera camera = desk_stage_get_camera (GTK_WIDGET (stage));
  double from_above = camera.pitch_rad <= 0 ? 1 : -1;
  render_camera_orbit (&camera, stage->pinched, from_above * (clockwise_rad - stage->twist_rad), 0);
  stage->twist_rad = clockwise_rad;
  move_camera (stage, camera);
}

/* ---- keys ---- */

static const DeskKeys keys[] = {
  { "stage.turn::left", { "Left" } },
  { "stage.turn::right", { "Right" } },
  { "stage.turn::up", { "Up" } },
  { "stage.turn::down", { "Down" } },
  { "stage.pan::left", { "<Shift>Left" } },
  { "stage.pan::right", { "<Shift>Right" } },
  { "stage.pan::up", { "<Shift>Up" } },
  { "stage.pan::down", { "<Shift>Down" } },
  { "stage.zoom-in", { "Page_Up", "<Control>plus", "<Control>equal", "<Control>KP_Add" } },
  { "stage.zoom-out", { "Page_Down", "<Control>minus", "<Control>KP_Subtract" } },
  { "stage.section-move::on", { "<Shift>Page_Up" } },
  { "stage.section-move::back", { "<Shift>Page_Down" } },
  { "stage.section-move::far-on", { "<Control><Shift>Page_Up" } },
  { "stage.section-move::far-back", { "<Control><Shift>Page_Down" } },
  { "stage.section-next", { "p" } },
  { "stage.section-over", { "x" } },
  { "stage.select-next", { "bracketright" } },
  { "stage.select-previous", { "bracketleft" } },
  { "stage.ghost", { "g" } },
  { "stage.hide", { "h" } },
  { "stage.isolate", { "i" } },
  { "stage.show-all", { "a" } },
  { "stage.menu", { "Menu", "<Shift>F10" } },
  /* While a picture is saved: stage-still.c. */
  { "still.stop", { "Escape" } },
  /* While measuring: stage-measure.c. */
  { "measure.across", { "Left", "Right" } },
  { "measure.upward", { "Up", "Down" } },
  { "measure.across-little", { "<Control>Left", "<Control>Right" } },
  { "measure.upward-little", { "<Control>Up", "<Control>Down" } },
  { "measure.corner", { "<Alt>Left", "<Alt>Right", "<Alt>Up", "<Alt>Down" } },
  { "measure.take-point", { "Return" } },
  { "measure.remove-last", { "Delete", "BackSpace" } },
  { "measure.leave", { "Escape" } },
};

const DeskKeys *
desk_stage_get_keys (guint *n)
{
  *n = G_N_ELEMENTS (keys);
  return keys;
}

/* The key of a list, with just these modifiers; the Shift that a sign may need is not looked at
 * when @exact is not set. */
static const char *
find_action (guint key, GdkModifierType state, gboolean exact)
{
  GdkModifierType mask
      = gtk_accelerator_get_default_mod_mask () & (exact ? ~0u : ~(guint)GDK_SHIFT_MASK);
  for (guint i = 0; i < G_N_ELEMENTS (keys); i++)
    for (guint k = 0; k < DESK_MOST_KEYS && keys[i].accels[k] != NULL; k++)
      {
        guint own;
        GdkModifierType modifiers;
        gtk_accelerator_parse (keys[i].accels[k], &own, &modifiers);
        if (own == gdk_keyval_to_lower (key) && modifiers == (state & mask)
            && g_str_has_prefix (keys[i].action, "stage."))
          return keys[i].action + strlen ("stage.");
      }
  return NULL;
}

static gboolean
on_key (GtkEventControllerKey *controller, guint key, guint code, GdkModifierType state,
        DeskStage *stage)
{
  if (stage->measuring && desk_stage_measure_key (stage, key, state))
    return TRUE;
  const char *action = find_action (key, state, TRUE);
  if (action == NULL)
    action = find_action (key, state, FALSE);
  if (action == NULL)
    return FALSE;
  if (strcmp (action, "menu") == 0)
    {
      RenderSize size = desk_stage_size (stage);
      show_menu (stage, size.width / 2, size.height / 2);
      return TRUE;
    }
  g_autofree char *name = NULL;
  g_autoptr (GVariant) parameter = NULL;
  gboolean is_action = g_action_parse_detailed_name (action, &name, &parameter, NULL);
  g_assert (is_action);
  g_action_group_activate_action (G_ACTION_GROUP (stage->actions), name, parameter);
  return TRUE;
}

/* ---- all of it ---- */

void
desk_stage_init_input (DeskStage *stage)
{
  GtkGesture *drag = gtk_gesture_drag_new ();
  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (drag), 0);
  g_signal_connect (drag, "drag-begin", G_CALLBACK (on_drag_begin), stage);
  g_signal_connect (drag, "drag-update", G_CALLBACK (on_drag_update), stage);
  g_signal_connect (drag, "drag-end", G_CALLBACK (on_drag_end), stage);
  gtk_widget_add_controller (stage->area, GTK_EVENT_CONTROLLER (drag));

  GtkGesture *click = gtk_gesture_click_new ();
  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (click), 0);
  g_signal_connect (click, "released", G_CALLBACK (on_released), stage);
  gtk_widget_add_controller (stage->area, GTK_EVENT_CONTROLLER (click));
  gtk_gesture_group (drag, click);

  GtkEventController *motion = gtk_event_controller_motion_new ();
  g_signal_connect (motion, "motion", G_CALLBACK (on_motion), stage);
  gtk_widget_add_controller (stage->area, motion);

  GtkEventController *scroll = gtk_event_controller_scroll_new (
      GTK_EVENT_CONTROLLER_SCROLL_BOTH_AXES | GTK_EVENT_CONTROLLER_SCROLL_KINETIC);
  g_signal_connect (scroll, "scroll-begin", G_CALLBACK (on_scroll_begin), stage);
  g_signal_connect (scroll, "scroll", G_CALLBACK (on_scroll), stage);
  g_signal_connect (scroll, "decelerate", G_CALLBACK (on_decelerate), stage);
  gtk_widget_add_controller (stage->area, scroll);

  GtkGesture *pinch = gtk_gesture_zoom_new ();
  g_signal_connect (pinch, "begin", G_CALLBACK (on_pinch_begin), stage);
  g_signal_connect (pinch, "scale-changed", G_CALLBACK (on_pinch), stage);
  gtk_widget_add_controller (stage->area, GTK_EVENT_CONTROLLER (pinch));

  GtkGesture *twist = gtk_gesture_rotate_new ();
  g_signal_connect (twist, "angle-changed", G_CALLBACK (on_twist), stage);
  gtk_widget_add_controller (stage->area, GTK_EVENT_CONTROLLER (twist));
  gtk_gesture_group (pinch, twist);

  GtkEventController *key = gtk_event_controller_key_new ();
  g_signal_connect (key, "key-pressed", G_CALLBACK (on_key), stage);
  gtk_widget_add_controller (stage->area, key);
}
