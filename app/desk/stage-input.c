/* stage-input.c: pointer, touchpad and keys.
 *
 * Dragging turns about the point that was under the pointer when it was pressed, and so do pinching
 * and the wheel come nearer to it: what one looks at stays where it is. */
#include "stage-private.h"

#include <string.h>

#define CLICK_PX 4
#define TURN_PER_PX 0.006
#define WHEEL_ZOOM 1.15
#define TOUCHPAD_ZOOM_PX 120.0

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
  guint structure;
  gboolean has_structure = desk_stage_selected_structure (stage, &structure);
  for (guint i = 0; i < G_N_ELEMENTS (items); i++)
    if (has_structure || i > 2)
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
  guint structure;
  if (n == 2 && button == GDK_BUTTON_PRIMARY)
    {
      if (desk_stage_selected_structure (stage, &structure))
        desk_session_isolate (stage->session, structure);
      return;
    }
  desk_session_set_selected (stage->session, body);
  if (button == GDK_BUTTON_SECONDARY)
    show_menu (stage, x, y);
}

static void
on_motion (GtkEventControllerMotion *controller, double x, double y, DeskStage *stage)
{
  stage->x = x;
  stage->y = y;
  if (stage->measuring && !stage->dragging)
    desk_stage_measure_hover (stage, x, y);
}

/* ---- scrolling and pinching ---- */

static void
zoom_at (DeskStage *stage, double x, double y, double factor)
{
  RenderCamera camera = desk_stage_get_camera (GTK_WIDGET (stage));
  render_camera_zoom (&camera, desk_stage_size (stage), desk_stage_point_under (stage, x, y),
                      factor);
  move_camera (stage, camera);
}

static gboolean
on_scroll (GtkEventControllerScroll *scroll, double dx, double dy, DeskStage *stage)
{
  GdkModifierType state
      = gtk_event_controller_get_current_event_state (GTK_EVENT_CONTROLLER (scroll));
  gboolean is_touchpad = gtk_event_controller_scroll_get_unit (scroll) == GDK_SCROLL_UNIT_SURFACE;
  RenderCamera camera = desk_stage_get_camera (GTK_WIDGET (stage));
  if (!is_touchpad)
    {
      zoom_at (stage, stage->x, stage->y, pow (WHEEL_ZOOM, dy != 0 ? dy : dx));
      return TRUE;
    }
  if ((state & GDK_CONTROL_MASK) != 0)
    {
      zoom_at (stage, stage->x, stage->y, exp (dy / TOUCHPAD_ZOOM_PX));
      return TRUE;
    }
  TrnVec3 under = desk_stage_point_under (stage, stage->x, stage->y);
  if ((state & GDK_SHIFT_MASK) != 0)
    render_camera_orbit (&camera, under, dx * TURN_PER_PX, dy * TURN_PER_PX);
  else
    render_camera_pan (&camera, desk_stage_size (stage), under, 0, 0, -dx, -dy);
  move_camera (stage, camera);
  return TRUE;
}

static void
on_pinch_begin (GtkGesture *gesture, GdkEventSequence *sequence, DeskStage *stage)
{
  double x = stage->x, y = stage->y;
  gtk_gesture_get_bounding_box_center (gesture, &x, &y);
  stage->grabbed = desk_stage_point_under (stage, x, y);
  stage->pinch = 1;
}

static void
on_pinch (GtkGestureZoom *gesture, double scale, DeskStage *stage)
{
  if (!(scale > 0))
    return;
  RenderCamera camera = desk_stage_get_camera (GTK_WIDGET (stage));
  render_camera_zoom (&camera, desk_stage_size (stage), stage->grabbed, stage->pinch / scale);
  stage->pinch = scale;
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
  { "stage.select-next", { "bracketright" } },
  { "stage.select-previous", { "bracketleft" } },
  { "stage.ghost", { "g" } },
  { "stage.hide", { "h" } },
  { "stage.isolate", { "i" } },
  { "stage.show-all", { "a" } },
  { "stage.menu", { "Menu", "<Shift>F10" } },
  /* While measuring: stage-measure.c. */
  { "measure.across", { "Left", "Right" } },
  { "measure.upward", { "Up", "Down" } },
  { "measure.across-little", { "<Control>Left", "<Control>Right" } },
  { "measure.upward-little", { "<Control>Up", "<Control>Down" } },
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

  GtkEventController *scroll
      = gtk_event_controller_scroll_new (GTK_EVENT_CONTROLLER_SCROLL_BOTH_AXES);
  g_signal_connect (scroll, "scroll", G_CALLBACK (on_scroll), stage);
  gtk_widget_add_controller (stage->area, scroll);

  GtkGesture *pinch = gtk_gesture_zoom_new ();
  g_signal_connect (pinch, "begin", G_CALLBACK (on_pinch_begin), stage);
  g_signal_connect (pinch, "scale-changed", G_CALLBACK (on_pinch), stage);
  gtk_widget_add_controller (stage->area, GTK_EVENT_CONTROLLER (pinch));

  GtkEventController *key = gtk_event_controller_key_new ();
  g_signal_connect (key, "key-pressed", G_CALLBACK (on_key), stage);
  gtk_widget_add_controller (stage->area, key);
}
