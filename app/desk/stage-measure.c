/* stage-measure.c: measuring between two points of what is there.
 *
 * A distance between chosen points is no clearance: it is drawn in ink, without a state. Points of
 * the load go with it, so that the number stays true while the time is dragged. */
#include "stage-private.h"

#define SNAP_PX 10.0
#define STEP_PX 10.0
#define NOTE_GAP_PX 14.0
#define NOTE_PAD_PX 8.0

static TrnPose
site_from_load (DeskStage *stage)
{
  guint move;
  double progress;
  return trn_lift_run_pose (desk_session_get_lift_run (stage->session),
                            desk_session_get_time (stage->session), &move, &progress);
}

static void
tell_hint (DeskStage *stage)
{
  gtk_widget_set_visible (stage->hint, stage->measuring);
  const char *text
      = trn_words_stage (stage->has_first ? TRN_STAGE_MEASURE_SECOND : TRN_STAGE_MEASURE_FIRST);
  const char *on = trn_words_on ((TrnOn)stage->hover.on);
  g_autofree char *both = on != NULL ? g_strdup_printf ("%s · %s", on, text) : g_strdup (text);
  gtk_label_set_text (GTK_LABEL (stage->hint), both);
}

void
desk_stage_measure_hover (DeskStage *stage, double x, double y)
{
  const DeskProbe *probe = desk_stage_probe (stage);
  if (probe == NULL)
    return;
  stage->x = x;
  stage->y = y;
  stage->hover = desk_probe_screen (probe, &stage->camera, desk_stage_size (stage), x, y, SNAP_PX);
  tell_hint (stage);
  gtk_widget_queue_draw (stage->marks);
}

static DeskHit
hover_now (DeskStage *stage)
{
  /* The camera or the time may be another one since the pointer has come here. */
  desk_stage_measure_hover (stage, stage->x, stage->y);
  return stage->hover;
}

void
desk_stage_set_measuring (DeskStage *stage, gboolean measuring)
{
  desk_stage_stop_corner_search (stage);
  stage->measuring = measuring;
  stage->has_first = FALSE;
  stage->hover = (DeskHit){ .on = DESK_ON_NOTHING };
  RenderSize size = desk_stage_size (stage);
  if (measuring
      && !(stage->x > 0 && stage->y > 0 && stage->x < size.width && stage->y < size.height))
    {
      stage->x = size.width / 2;
      stage->y = size.height / 2;
    }
  gtk_widget_set_cursor_from_name (stage->area, measuring ? "crosshair" : NULL);
  desk_stage_tell_state (stage, "measure", measuring);
  tell_hint (stage);
  if (measuring)
    gtk_widget_grab_focus (stage->area);
  gtk_widget_queue_draw (stage->marks);
}

void
desk_stage_measure_click (DeskStage *stage)
{
  DeskHit hit = hover_now (stage);
  if (hit.on == DESK_ON_NOTHING || desk_stage_probe (stage) == NULL)
    return;
  DeskAnchor anchor = desk_anchor_make (desk_stage_probe (stage), &hit);
  guint run = desk_session_get_run (stage->session);
  if (!stage->has_first || stage->first_run != run)
    {
      stage->first = anchor;
      stage->first_run = run;
      stage->has_first = TRUE;
    }
  else
    {
      DeskStageMeasure measure = { stage->first, anchor, run };
      g_array_append_val (stage->measures, measure);
      stage->has_first = FALSE;
    }
  tell_hint (stage);
  desk_stage_redraw (stage, TRUE);
}

static gboolean
move_cross (DeskStage *stage, double right, double down, GdkModifierType state)
{
  RenderSize size = desk_stage_size (stage);
  double step = (state & GDK_CONTROL_MASK) != 0 ? 1 : STEP_PX;
  desk_stage_measure_hover (stage, CLAMP (stage->x + right * step, 0, size.width),
                            CLAMP (stage->y + down * step, 0, size.height));
  return TRUE;
}

/* ---- to the next corner ---- */

/* Rings of places to look at, farther and farther from the cross, within a wedge that way; a few
 * places each turn of the main loop, since a fine mesh takes its time. */
#define FIRST_RING_PX 16.0
#define RING_GROWTH 1.25
#define MOST_REACH_PX 40.0
#define WEDGE 0.75 /* how far to the side for each pixel that way */
#define TURN_US 3000

struct _DeskCornerSearch
{
  RenderSize size;
  double x, y;           /* where the cross is */
  double right, down;    /* the way: a unit step */
  double ring_px;        /* the ring that is looked at, */
  int place;             /* and which of its places */
  double at_x, at_y;     /* the best corner, on the screen */
  double seen_x, seen_y; /* a place on the body that it is a corner of */
  double best_px;
};

static void
look_for_corner (DeskStage *stage, DeskCornerSearch *search, double x, double y, double reach_px)
{
  const DeskProbe *probe = desk_stage_probe (stage);
  if (probe == NULL || x < 0 || y < 0 || x >= search->size.width || y >= search->size.height)
    return;
  DeskHit hit = desk_probe_screen (probe, &stage->camera, search->size, x, y, reach_px);
  double at_x, at_y, depth_m;
  if (hit.on != DESK_ON_CORNER
      || !render_camera_project (&stage->camera, search->size, hit.point, &at_x, &at_y, &depth_m))
    return;
  double dx = at_x - search->x, dy = at_y - search->y;
  double along = dx * search->right + dy * search->down;
  double aside = fabs (dx * search->down - dy * search->right);
  gboolean is_seen
      = at_x >= 0 && at_y >= 0 && at_x < search->size.width && at_y < search->size.height;
  /* A corner that is a pixel away is the one that the cross is on. */
  if (!is_seen || along < 2 || aside > WEDGE * along || along + aside >= search->best_px)
    return;
  search->best_px = along + aside;
  search->at_x = at_x;
  search->at_y = at_y;
  search->seen_x = x;
  search->seen_y = y;
}

/* Looks at one place; FALSE when the search has ended, with a corner or without. */
static gboolean
look_at_next (DeskStage *stage, DeskCornerSearch *search)
{
  double reach_px = MIN ((RING_GROWTH - 1) * search->ring_px + 4, MOST_REACH_PX);
  int half = (int)ceil (WEDGE * search->ring_px / (1.5 * reach_px));
  double aside = WEDGE * search->ring_px * (search->place - half) / half;
  look_for_corner (stage, search,
                   search->x + search->right * search->ring_px - search->down * aside,
                   search->y + search->down * search->ring_px + search->right * aside, reach_px);
  if (search->place++ < 2 * half)
    return TRUE;
  search->place = 0;
  search->ring_px += MIN ((RING_GROWTH - 1) * search->ring_px, 1.5 * MOST_REACH_PX);
  return isinf (search->best_px)
         && search->ring_px < hypot (search->size.width, search->size.height);
}

/* At the rim of a body nothing may lie under the very corner: a little inward. */
static void
go_to_found (DeskStage *stage, const DeskCornerSearch *search)
{
  double dx = search->seen_x - search->at_x, dy = search->seen_y - search->at_y;
  double length_px = fmax (hypot (dx, dy), 1);
  for (double in_px = 0; in_px < SNAP_PX; in_px += 2)
    {
      double share = in_px / length_px;
      desk_stage_measure_hover (stage, search->at_x + share * dx, search->at_y + share * dy);
      if (stage->hover.on == DESK_ON_CORNER)
        return;
    }
}

static gboolean
on_corner_turn (gpointer data)
{
  DeskStage *stage = data;
  gint64 until_us = g_get_monotonic_time () + TURN_US;
  while (look_at_next (stage, stage->corner_search))
    if (g_get_monotonic_time () > until_us)
      return G_SOURCE_CONTINUE;
  if (!isinf (stage->corner_search->best_px))
    go_to_found (stage, stage->corner_search);
  stage->corner_id = 0;
  g_clear_pointer (&stage->corner_search, g_free);
  return G_SOURCE_REMOVE;
}

void
desk_stage_stop_corner_search (DeskStage *stage)
{
  g_clear_handle_id (&stage->corner_id, g_source_remove);
  g_clear_pointer (&stage->corner_search, g_free);
}

/* The cross goes to the nearest corner that way; where there is none it stays. */
static gboolean
go_to_corner (DeskStage *stage, guint key)
{
  double right = (key == GDK_KEY_Right) - (key == GDK_KEY_Left);
  double down = (key == GDK_KEY_Down) - (key == GDK_KEY_Up);
  if (right == 0 && down == 0)
    return FALSE;
  DeskCornerSearch *search = g_new0 (DeskCornerSearch, 1);
  *search = (DeskCornerSearch){ .size = desk_stage_size (stage),
                                .x = stage->x,
                                .y = stage->y,
                                .right = right,
                                .down = down,
                                .ring_px = FIRST_RING_PX,
                                .best_px = INFINITY };
  /* What is marked may be a little beside the cross. */
  double depth_m;
  if (stage->hover.on == DESK_ON_CORNER)
    render_camera_project (&stage->camera, search->size, stage->hover.point, &search->x, &search->y,
                           &depth_m);
  stage->corner_search = search;
  stage->corner_id = g_idle_add (on_corner_turn, stage);
  return TRUE;
}

static gboolean
leave (DeskStage *stage)
{
  if (!stage->has_first)
    {
      desk_stage_set_measuring (stage, FALSE);
      return TRUE;
    }
  stage->has_first = FALSE;
  tell_hint (stage);
  desk_stage_redraw (stage, TRUE);
  return TRUE;
}

gboolean
desk_stage_measure_key (DeskStage *stage, guint key, GdkModifierType state)
{
  desk_stage_stop_corner_search (stage);
  if ((state & GDK_SHIFT_MASK) != 0)
    return FALSE;
  if ((state & GDK_ALT_MASK) != 0)
    return go_to_corner (stage, key);
  switch (key)
    {
    case GDK_KEY_Left:
      return move_cross (stage, -1, 0, state);
    case GDK_KEY_Right:
      return move_cross (stage, 1, 0, state);
    case GDK_KEY_Up:
      return move_cross (stage, 0, -1, state);
    case GDK_KEY_Down:
      return move_cross (stage, 0, 1, state);
    case GDK_KEY_Return:
    case GDK_KEY_KP_Enter:
      desk_stage_measure_click (stage);
      return TRUE;
    case GDK_KEY_Delete:
    case GDK_KEY_BackSpace:
      if (stage->measures->len > 0)
        g_array_set_size (stage->measures, stage->measures->len - 1);
      desk_stage_redraw (stage, TRUE);
      return TRUE;
    case GDK_KEY_Escape:
      return leave (stage);
    default:
      return FALSE;
    }
}

void
desk_stage_clear_measures (DeskStage *stage)
{
  g_array_set_size (stage->measures, 0);
  if (stage->measuring || stage->has_first)
    desk_stage_set_measuring (stage, FALSE);
}

/* ---- drawing ---- */

static void
add_measure (RenderDrawList *list, const DeskStageMeasure *measure, const TrnPose *pose)
{
  TrnVec3 from = desk_anchor_point (&measure->from, pose);
  TrnVec3 to = desk_anchor_point (&measure->to, pose);
  DeskMeasure parts = desk_measure_make (from, to);
  TrnVec3 lower = from.z <= to.z ? from : to, upper = from.z <= to.z ? to : from;
  TrnVec3 legs[3] = { lower, { upper.x, upper.y, lower.z }, upper };
  TrnVec3 straight[2] = { from, to };
  if (parts.level_m > 0 && parts.vertical_m > 0)
    render_draw_list_add_line (list, legs, 3, RENDER_LINE_DASHED, 1.2, RENDER_STATE_NONE, TRUE);
  render_draw_list_add_line (list, straight, 2, RENDER_LINE_SOLID, 2, RENDER_STATE_NONE, TRUE);
  g_autofree char *text = trn_words_measure (parts.straight_m, parts.level_m, parts.vertical_m);
  render_draw_list_add_label (list, text, trn_vec3_mix (from, to, 0.5), RENDER_STATE_NONE, FALSE);
}

void
desk_stage_measure_add (DeskStage *stage, RenderDrawList *list)
{
  TrnPose pose = site_from_load (stage);
  guint run = desk_session_get_run (stage->session);
  for (guint i = 0; i < stage->measures->len; i++)
    {
      const DeskStageMeasure *measure = &g_array_index (stage->measures, DeskStageMeasure, i);
      if (measure->run == run || !(measure->from.on_load || measure->to.on_load))
        add_measure (list, measure, &pose);
    }
}

static void
set_ink (DeskStage *stage, cairo_t *cr)
{
  RenderColour ink = render_ink_colour (desk_session_get_dark (stage->session));
  cairo_set_source_rgba (cr, ink.r, ink.g, ink.b, ink.a);
}

static void
set_paper (DeskStage *stage, cairo_t *cr)
{
  RenderColour paper = render_paper_colour (desk_session_get_dark (stage->session));
  cairo_set_source_rgba (cr, paper.r, paper.g, paper.b, paper.a);
}

/* A square on a corner, a lozenge on an edge, a ring on a face, a cross on nothing. */
static void
trace_cross (cairo_t *cr, DeskOn on, double x, double y)
{
  const double r = 6;
  if (on == DESK_ON_CORNER)
    cairo_rectangle (cr, x - r, y - r, 2 * r, 2 * r);
  else if (on == DESK_ON_EDGE)
    {
      cairo_move_to (cr, x, y - 1.3 * r);
      cairo_line_to (cr, x + 1.3 * r, y);
      cairo_line_to (cr, x, y + 1.3 * r);
      cairo_line_to (cr, x - 1.3 * r, y);
      cairo_close_path (cr);
    }
  else if (on != DESK_ON_NOTHING)
    {
      cairo_new_sub_path (cr);
      cairo_arc (cr, x, y, r, 0, 2 * G_PI);
    }
  cairo_move_to (cr, x - 2 * r, y);
  cairo_line_to (cr, x + 2 * r, y);
  cairo_move_to (cr, x, y - 2 * r);
  cairo_line_to (cr, x, y + 2 * r);
}

static void
stroke_twice (DeskStage *stage, cairo_t *cr)
{
  set_paper (stage, cr);
  cairo_set_line_width (cr, 4);
  cairo_stroke_preserve (cr);
  set_ink (stage, cr);
  cairo_set_line_width (cr, 1.6);
  cairo_stroke (cr);
}

/* What the cross is on, and how far that is from the first point, beside the cross: at its right
 * and below it, or on the other side where there is no room. */
static void
draw_note (DeskStage *stage, cairo_t *cr, double x, double y, TrnVec3 first)
{
  const char *on = trn_words_on ((TrnOn)stage->hover.on);
  if (on == NULL)
    return;
  DeskMeasure parts = desk_measure_make (first, stage->hover.point);
  g_autofree char *far = stage->has_first
                             ? trn_words_measure (parts.straight_m, parts.level_m, parts.vertical_m)
                             : NULL;
  g_autofree char *text = far != NULL ? g_strdup_printf ("%s\n%s", far, on) : g_strdup (on);
  g_autoptr (PangoLayout) layout = gtk_widget_create_pango_layout (stage->marks, text);
  RenderSize size = desk_stage_size (stage);
  int width, height;
  pango_layout_get_pixel_size (layout, &width, &height);
  double w = width + 2 * NOTE_PAD_PX, h = height + NOTE_PAD_PX;
  double left = x + NOTE_GAP_PX + w < size.width ? x + NOTE_GAP_PX : x - NOTE_GAP_PX - w;
  double top = y + NOTE_GAP_PX + h < size.height ? y + NOTE_GAP_PX : y - NOTE_GAP_PX - h;
  cairo_rectangle (cr, floor (left), floor (top), w, h);
  set_paper (stage, cr);
  cairo_fill (cr);
  cairo_rectangle (cr, floor (left) + 0.5, floor (top) + 0.5, w - 1, h - 1);
  set_ink (stage, cr);
  cairo_set_line_width (cr, 1);
  cairo_stroke (cr);
  cairo_move_to (cr, floor (left) + NOTE_PAD_PX, floor (top) + NOTE_PAD_PX / 2);
  pango_cairo_show_layout (cr, layout);
}

void
desk_stage_measure_draw (DeskStage *stage, cairo_t *cr)
{
  if (!stage->measuring)
    return;
  RenderSize size = desk_stage_size (stage);
  double x = stage->x, y = stage->y, x0, y0, depth_m;
  if (stage->hover.on != DESK_ON_NOTHING)
    render_camera_project (&stage->camera, size, stage->hover.point, &x, &y, &depth_m);
  TrnPose pose = site_from_load (stage);
  TrnVec3 first = desk_anchor_point (&stage->first, &pose);
  if (stage->has_first && render_camera_project (&stage->camera, size, first, &x0, &y0, &depth_m))
    {
      cairo_new_path (cr);
      cairo_move_to (cr, x0, y0);
      cairo_line_to (cr, x, y);
      cairo_new_sub_path (cr);
      cairo_arc (cr, x0, y0, 4, 0, 2 * G_PI);
      stroke_twice (stage, cr);
    }
  cairo_new_path (cr);
  trace_cross (cr, stage->hover.on, x, y);
  stroke_twice (stage, cr);
  draw_note (stage, cr, x, y, first);
}
