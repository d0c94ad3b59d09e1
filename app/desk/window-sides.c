/* window-sides.c: the rooms at the sides of the window: which of them are shown, and what shows
 * them. */
#include "window-private.h"

#include "room-layout.h"

/* Of the letters of most desktops, 11 points at their usual size. */
#define LETTERS_PX 14.67

/* As wide as their letters are large, and no narrower than they are made. */
static int
side_px_of (DeskWindow *window)
{
  PangoContext *pango = gtk_widget_get_pango_context (GTK_WIDGET (window));
  const PangoFontDescription *font = pango_context_get_font_description (pango);
  if (!pango_font_description_get_size_is_absolute (font))
    return DESK_SIDE_PX;
  const double letters_px = (double)pango_font_description_get_size (font) / PANGO_SCALE;
  return (int)(DESK_SIDE_PX * CLAMP (letters_px / LETTERS_PX, 1, 2));
}

static void
set_side (GtkWidget *room, int width_px)
{
  AdwClamp *clamp = ADW_CLAMP (gtk_widget_get_ancestor (room, ADW_TYPE_CLAMP));
  adw_clamp_set_maximum_size (clamp, width_px);
  adw_clamp_set_tightening_threshold (clamp, width_px);
  desk_room_layout_set_width (gtk_widget_get_layout_manager (room), width_px);
}

static void
update_width (DeskWindow *window)
{
  const int width_px = side_px_of (window);
  if (width_px == (window->side_px > 0 ? window->side_px : DESK_SIDE_PX))
    return;
  window->side_px = width_px;
  set_side (GTK_WIDGET (window->sequence_place), width_px);
  set_side (GTK_WIDGET (window->nearest_side), width_px);
  set_side (GTK_WIDGET (window->finding_place), width_px);
}

/* A window that is too narrow for all three has the rooms at the sides over the one in the middle,
 * one at a time, when a button or a key asks for it. */
static void
update_sides (DeskWindow *window)
{
  gboolean is_view = g_strcmp0 (gtk_stack_get_visible_child_name (window->rooms), "view") == 0;
  gboolean folds_sequence = is_view && adw_flap_get_folded (window->sequence_flap);
  gboolean folds_nearest = adw_flap_get_folded (window->nearest_flap);
  /* A table needs the room of the sequence. */
  gtk_widget_set_visible (window->sequence_side, is_view);
  gtk_widget_set_visible (window->sequence_button, folds_sequence);
  gtk_widget_set_visible (window->nearest_button, folds_nearest);
  gtk_widget_set_visible (window->side_buttons, gtk_widget_get_visible (window->plan_bar)
                                                    && (folds_sequence || folds_nearest));
}

static gboolean
on_sides_due (gpointer data)
{
  DeskWindow *window = data;
  window->sides_id = 0;
  update_width (window);
  update_sides (window);
  return G_SOURCE_REMOVE;
}

/* Also told in the midst of giving each its place: what is shown changes after that, and before the
 * next frame, however busy drawing is. */
void
desk_window_sides_changed (DeskWindow *window)
{
  if (window->sides_id == 0 && window->side_buttons != NULL)
    window->sides_id = g_idle_add_full (G_PRIORITY_DEFAULT, on_sides_due, window, NULL);
}

static void
on_room_changed (DeskWindow *window)
{
  /* Also told while the window goes. */
  if (window->sequence_place != NULL && window->rooms != NULL && window->side_buttons != NULL)
    update_sides (window);
}

/* The other one goes where both lie over the middle. */
static void
on_revealed (DeskWindow *window, GParamSpec *property, AdwFlap *flap)
{
  AdwFlap *other = flap == window->nearest_flap ? window->sequence_flap : window->nearest_flap;
  /* Also told while the window is made. */
  if (other != NULL && adw_flap_get_reveal_flap (flap) && adw_flap_get_folded (flap)
      && adw_flap_get_folded (other))
    adw_flap_set_reveal_flap (other, FALSE);
}

static void
toggle_side (AdwFlap *flap)
{
  adw_flap_set_reveal_flap (flap, !adw_flap_get_reveal_flap (flap));
}

static void
do_show_sequence (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  toggle_side (DESK_WINDOW (window)->sequence_flap);
}

static void
do_show_nearest (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  toggle_side (DESK_WINDOW (window)->nearest_flap);
}

void
desk_window_sides_add_actions (DeskWindow *window)
{
  static const GActionEntry own[] = { { .name = "show-sequence", .activate = do_show_sequence },
                                      { .name = "show-nearest", .activate = do_show_nearest } };
  g_action_map_add_action_entries (G_ACTION_MAP (window), own, G_N_ELEMENTS (own), window);
}

void
desk_window_sides_bind (GtkWidgetClass *widget_class)
{
  gtk_widget_class_bind_template_callback (widget_class, on_room_changed);
  gtk_widget_class_bind_template_callback_full (widget_class, "on_folded",
                                                G_CALLBACK (desk_window_sides_changed));
  gtk_widget_class_bind_template_callback (widget_class, on_revealed);
}
