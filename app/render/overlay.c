/* overlay.c: labels, marks, caption and compass over what the renderer drew.
 *
 * Everything is laid out first (plates.c), then drawn from below upwards: leaders, marks, plates.
 * The number is what one came for, so a plate is opposite to the style of the view and has the mark
 * of its state beside the text. */
#include "overlay.h"

#include <pango/pangocairo.h>
#include <string.h>

#include "plates.h"
#include "sight.h"

#define FONT "Sans"
#define LABEL_PX 13.5
#define QUIET_PX 12
#define CAPTION_PX 12
#define PAD_X 11
#define PAD_Y 6
#define PLATE_MARK 5.5 /* radius of the mark on a plate */
#define MARK_GAP 8     /* between it and the text */
#define POINT_MARK 6.5 /* radius of a mark in the view */
#define LEAST_MARK 3.5
#define MARGIN 14       /* of caption and compass from the edge */
#define COMPASS 26      /* length of an axis */
#define COMPASS_ROOM 52 /* half the square that it takes */
#define LEAST_COMPASS_VIEW 360

typedef struct
{
  cairo_t *cr;
  const RenderDrawList *list;
  const RenderCamera *camera;
  RenderSize size;
} Overlay;

typedef struct
{
  double x, y, radius;
  RenderState state;
} Spot;

static void
set_colour (cairo_t *cr, RenderColour colour)
{
  cairo_set_source_rgba (cr, colour.r, colour.g, colour.b, colour.a);
}

static PangoLayout *
make_text (cairo_t *cr, const char *text, double px, PangoWeight weight)
{
  PangoLayout *layout = pango_cairo_create_layout (cr);
  PangoFontDescription *font = pango_font_description_from_string (FONT);
  pango_font_description_set_absolute_size (font, px * PANGO_SCALE);
  pango_font_description_set_weight (font, weight);
  pango_layout_set_font_description (layout, font);
  pango_font_description_free (font);
  PangoAttrList *attributes = pango_attr_list_new ();
  pango_attr_list_insert (attributes, pango_attr_font_features_new ("tnum=1"));
  /* The number stands in the first line; what it is of, below it. */
  const char *below = strchr (text, '\n');
  if (below != NULL)
    {
      PangoAttribute *normal = pango_attr_weight_new (PANGO_WEIGHT_NORMAL);
      normal->start_index = (guint)(below - text);
      pango_attr_list_insert (attributes, normal);
    }
  pango_layout_set_attributes (layout, attributes);
  pango_attr_list_unref (attributes);
  pango_layout_set_text (layout, text, -1);
  return layout;
}

static void
show_text (cairo_t *cr, PangoLayout *layout, double x, double y)
{
  cairo_move_to (cr, x, y);
  pango_cairo_show_layout (cr, layout);
  cairo_new_path (cr);
}

/* With a soft rim, so that a note is read on any body. */
static void
show_note (const Overlay *overlay, PangoLayout *layout, double x, double y)
{
  cairo_t *cr = overlay->cr;
  cairo_move_to (cr, x, y);
  pango_cairo_layout_path (cr, layout);
  RenderColour paper = render_paper_colour (overlay->list->dark);
  paper.a = 0.85;
  set_colour (cr, paper);
  cairo_set_line_width (cr, 3);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_stroke (cr);
  set_colour (cr, render_state_text_colour (RENDER_STATE_NONE, overlay->list->dark));
  show_text (cr, layout, x, y);
}

static void
round_rect (cairo_t *cr, const RenderRect *rect, double radius)
{
  double x1 = rect->x + rect->width, y1 = rect->y + rect->height;
  cairo_new_path (cr);
  cairo_arc (cr, x1 - radius, rect->y + radius, radius, -G_PI / 2, 0);
  cairo_arc (cr, x1 - radius, y1 - radius, radius, 0, G_PI / 2);
  cairo_arc (cr, rect->x + radius, y1 - radius, radius, G_PI / 2, G_PI);
  cairo_arc (cr, rect->x + radius, rect->y + radius, radius, G_PI, 3 * G_PI / 2);
  cairo_close_path (cr);
}

/* FALSE for a point that is not in the view. */
static gboolean
find_place (const Overlay *overlay, TrnVec3 at, double *x, double *y)
{
  double depth;
  return render_camera_project (overlay->camera, overlay->size, at, x, y, &depth) && *x >= 0
         && *y >= 0 && *x <= overlay->size.width && *y <= overlay->size.height;
}

/* ---- marks ---- */

static GArray *
find_spots (const Overlay *overlay)
{
  GArray *spots = g_array_new (FALSE, FALSE, sizeof (Spot));
  for (guint i = 0; i < overlay->list->marks->len; i++)
    {
      const RenderMark *mark = &g_array_index (overlay->list->marks, RenderMark, i);
      Spot spot = { .radius = POINT_MARK, .state = mark->state };
      if (find_place (overlay, mark->at, &spot.x, &spot.y))
        g_array_append_val (spots, spot);
    }
  /* Two that would lie on each other become smaller, so that the gap between them stays open. */
  for (guint i = 0; i < spots->len; i++)
    for (guint j = 0; j < i; j++)
      {
        Spot *a = &g_array_index (spots, Spot, i), *b = &g_array_index (spots, Spot, j);
        double radius = CLAMP (hypot (a->x - b->x, a->y - b->y) / 3, LEAST_MARK, POINT_MARK);
        a->radius = fmin (a->radius, radius);
        b->radius = fmin (b->radius, radius);
      }
  return spots;
}

/* ---- what is kept out ---- */

static void
keep_out_lines (const Overlay *overlay, RenderKeepOut *keep_out)
{
  for (guint i = 0; i < overlay->list->lines->len; i++)
    {
      const RenderLine *line = &g_array_index (overlay->list->lines, RenderLine, i);
      if (!line->on_top || line->state == RENDER_STATE_NONE)
        continue;
      for (guint k = 0; k + 1 < line->n_points; k++)
        {
          double x0, y0, x1, y1;
          if (find_place (overlay, line->points[k], &x0, &y0)
              && find_place (overlay, line->points[k + 1], &x1, &y1))
            render_keep_out_add_segment (keep_out, x0, y0, x1, y1);
        }
    }
}

/* The outline of the load as it stands: the hull of its box. */
static void
keep_out_load (const Overlay *overlay, RenderKeepOut *keep_out)
{
  for (guint i = 0; i < overlay->list->bodies->len; i++)
    {
      const RenderBody *body = &g_array_index (overlay->list->bodies, RenderBody, i);
      if (body->role != RENDER_ROLE_LOAD || body->look != RENDER_LOOK_SOLID)
        continue;
      double corners[8][2], depth;
      for (guint k = 0; k < 8; k++)
        {
          TrnVec3 corner
              = trn_pose_apply (&body->site_from_mesh, trn_box_corner (&body->mesh->box, k));
          if (!render_camera_project (overlay->camera, overlay->size, corner, &corners[k][0],
                                      &corners[k][1], &depth))
            return;
        }
      render_keep_out_set_hull (keep_out, corners, 8);
      return;
    }
}

/* ---- caption ---- */

static gboolean
has_compass (const Overlay *overlay)
{
  return overlay->list->compass
         && fmin (overlay->size.width, overlay->size.height) >= LEAST_COMPASS_VIEW;
}

/* Where the caption stands; its text is cut where the view is too narrow. */
static RenderRect
caption_rect (const Overlay *overlay, PangoLayout *layout)
{
  double room = overlay->size.width - 2 * MARGIN - 2 * PAD_X
                - (has_compass (overlay) ? 2 * COMPASS_ROOM : 0);
  int width, height;
  pango_layout_set_ellipsize (layout, PANGO_ELLIPSIZE_END);
  pango_layout_get_pixel_size (layout, &width, &height);
  if (width > room)
    {
      pango_layout_set_width (layout, (int)(fmax (room, 1) * PANGO_SCALE));
      pango_layout_get_pixel_size (layout, &width, &height);
    }
  double plate_height = height + 2 * PAD_Y;
  /* The rim is one pixel wide and lies on pixels. */
  return (RenderRect){ MARGIN + 0.5, floor (overlay->size.height - MARGIN - plate_height) - 0.5,
                       width + 2 * PAD_X, plate_height };
}

static void
draw_caption (const Overlay *overlay, PangoLayout *layout, const RenderRect *rect)
{
  cairo_t *cr = overlay->cr;
  gboolean dark = overlay->list->dark;
  RenderColour plate = dark ? render_paper_colour (TRUE) : (RenderColour){ 1, 1, 1, 1 };
  plate.a = 0.9;
  round_rect (cr, rect, 6);
  set_colour (cr, plate);
  cairo_fill_preserve (cr);
  RenderColour rim = render_ink_colour (dark);
  rim.a = 0.25;
  set_colour (cr, rim);
  cairo_set_line_width (cr, 1);
  cairo_stroke (cr);
  set_colour (cr, render_state_text_colour (RENDER_STATE_NONE, dark));
  show_text (cr, layout, floor (rect->x) + PAD_X, ceil (rect->y) + PAD_Y);
}

/* ---- compass ---- */

typedef struct
{
  double x, y, toward; /* of the tip from the middle; toward the eye when > 0 */
} Axis;

static Axis
project_axis (const Overlay *overlay, TrnVec3 axis)
{
  TrnVec3 forward, right, up;
  render_camera_axes (overlay->camera, &forward, &right, &up);
  return (Axis){ COMPASS * trn_vec3_dot (axis, right), -COMPASS * trn_vec3_dot (axis, up),
                 -trn_vec3_dot (axis, forward) };
}

/* The letter of an axis, beyond its tip; an axis that points into the view has none. */
static void
draw_letter (const Overlay *overlay, const Axis *axis, const char *letter, PangoWeight weight)
{
  double length = hypot (axis->x, axis->y);
  if (length < 0.25 * COMPASS)
    return;
  g_autoptr (PangoLayout) layout = make_text (overlay->cr, letter, QUIET_PX, weight);
  int width, height;
  pango_layout_get_pixel_size (layout, &width, &height);
  double k = (length + 8) / length;
  set_colour (overlay->cr, render_state_text_colour (RENDER_STATE_NONE, overlay->list->dark));
  show_text (overlay->cr, layout, axis->x * k - width / 2.0, axis->y * k - height / 2.0);
}

static void
stroke_axis (const Overlay *overlay, const Axis *axis, double width)
{
  cairo_t *cr = overlay->cr;
  cairo_move_to (cr, 0, 0);
  cairo_line_to (cr, axis->x, axis->y);
  set_colour (cr, render_ink_colour (overlay->list->dark));
  cairo_set_line_width (cr, width);
  cairo_stroke (cr);
}

/* A level arrowhead at the tip of the axis to the north. */
static void
draw_north (const Overlay *overlay)
{
  TrnVec3 corners[] = { { 0, 1, 0 }, { -0.3, 0.3, 0 }, { 0, 0.45, 0 }, { 0.3, 0.3, 0 } };
  for (guint i = 0; i < G_N_ELEMENTS (corners); i++)
    {
      Axis tip = project_axis (overlay, corners[i]);
      cairo_line_to (overlay->cr, tip.x, tip.y);
    }
  cairo_close_path (overlay->cr);
  set_colour (overlay->cr, render_ink_colour (overlay->list->dark));
  cairo_fill (overlay->cr);
}

static void
draw_compass (const Overlay *overlay)
{
  cairo_t *cr = overlay->cr;
  Axis x = project_axis (overlay, (TrnVec3){ 1, 0, 0 });
  Axis y = project_axis (overlay, (TrnVec3){ 0, 1, 0 });
  Axis z = project_axis (overlay, (TrnVec3){ 0, 0, 1 });
  cairo_save (cr);
  cairo_translate (cr, overlay->size.width - COMPASS_ROOM, overlay->size.height - COMPASS_ROOM);
  cairo_arc (cr, 0, 0, COMPASS_ROOM - 10, 0, 2 * G_PI);
  RenderColour plate = render_paper_colour (overlay->list->dark);
  plate.a = 0.75;
  set_colour (cr, plate);
  cairo_fill (cr);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
  stroke_axis (overlay, &x, 1.25);
  stroke_axis (overlay, &y, 1.25);
  stroke_axis (overlay, &z, 1.25);
  draw_north (overlay);
  draw_letter (overlay, &x, "x", PANGO_WEIGHT_NORMAL);
  draw_letter (overlay, &y, "N", PANGO_WEIGHT_BOLD);
  draw_letter (overlay, &z, "z", PANGO_WEIGHT_NORMAL);
  cairo_restore (cr);
}

/* ---- labels ---- */

typedef struct
{
  const RenderLabel *label;
  PangoLayout *layout; /* owned */
} Text;

static void
clear_text (gpointer data)
{
  g_object_unref (((Text *)data)->layout);
}

/* Where it stands in the view; FALSE where nothing of what it speaks of is seen. */
static gboolean
find_label (const Overlay *overlay, const RenderLabel *label, RenderPlate *plate)
{
  for (guint i = 0; i <= label->n_others; i++)
    {
      TrnVec3 at = i == 0 ? label->at : label->others[i - 1];
      /* A note beside something hidden would seem to speak of what is in front. */
      if (find_place (overlay, at, &plate->x, &plate->y)
          && (!label->quiet || render_sight_is_free (overlay->list, overlay->camera, at)))
        return TRUE;
    }
  return FALSE;
}

/* Those with a plate first, since they find room first. */
static void
collect_labels (const Overlay *overlay, gboolean quiet, GArray *texts, GArray *plates)
{
  for (guint i = 0; i < overlay->list->labels->len; i++)
    {
      const RenderLabel *label = &g_array_index (overlay->list->labels, RenderLabel, i);
      RenderPlate plate = { .quiet = quiet };
      if (label->quiet != quiet || !find_label (overlay, label, &plate))
        continue;
      Text text = { label,
                    quiet ? make_text (overlay->cr, label->text, QUIET_PX, PANGO_WEIGHT_NORMAL)
                          : make_text (overlay->cr, label->text, LABEL_PX, PANGO_WEIGHT_SEMIBOLD) };
      int width, height;
      pango_layout_get_pixel_size (text.layout, &width, &height);
      plate.width = width;
      plate.height = height;
      if (!quiet)
        {
          plate.width += 2 * PAD_X;
          plate.height += 2 * PAD_Y;
          if (label->state != RENDER_STATE_NONE)
            plate.width += 2 * PLATE_MARK + MARK_GAP;
        }
      g_array_append_val (texts, text);
      g_array_append_val (plates, plate);
    }
}

static void
draw_leader (const Overlay *overlay, const RenderPlate *plate)
{
  cairo_t *cr = overlay->cr;
  double x, y;
  render_plate_leader_end (plate, &x, &y);
  cairo_move_to (cr, plate->x, plate->y);
  cairo_line_to (cr, x, y);
  RenderColour paper = render_paper_colour (overlay->list->dark);
  paper.a = 0.8;
  set_colour (cr, paper);
  cairo_set_line_width (cr, 3);
  cairo_stroke_preserve (cr);
  set_colour (cr, render_state_text_colour (RENDER_STATE_NONE, overlay->list->dark));
  cairo_set_line_width (cr, 1.25);
  cairo_stroke (cr);
}

static void
draw_plate (const Overlay *overlay, const RenderPlate *plate, const Text *text)
{
  cairo_t *cr = overlay->cr;
  gboolean dark = overlay->list->dark;
  const RenderRect *rect = &plate->rect;
  if (plate->quiet)
    {
      show_note (overlay, text->layout, rect->x, rect->y);
      return;
    }
  round_rect (cr, rect, 6);
  set_colour (cr, render_plate_colour (dark));
  cairo_fill (cr);
  double x = rect->x + PAD_X;
  RenderState state = text->label->state;
  if (state != RENDER_STATE_NONE)
    {
      PangoRectangle first;
      pango_layout_line_get_pixel_extents (pango_layout_get_line_readonly (text->layout, 0), NULL,
                                           &first);
      render_mark_draw (cr, state, x + PLATE_MARK, rect->y + PAD_Y + first.height / 2.0, PLATE_MARK,
                        !dark);
      x += 2 * PLATE_MARK + MARK_GAP;
    }
  set_colour (cr, render_plate_text_colour (state, dark));
  show_text (cr, text->layout, x, rect->y + PAD_Y);
}

static void
draw_labels (const Overlay *overlay, const RenderKeepOut *keep_out, const GArray *spots)
{
  g_autoptr (GArray) texts = g_array_new (FALSE, FALSE, sizeof (Text));
  g_array_set_clear_func (texts, clear_text);
  g_autoptr (GArray) plates = g_array_new (FALSE, FALSE, sizeof (RenderPlate));
  collect_labels (overlay, FALSE, texts, plates);
  collect_labels (overlay, TRUE, texts, plates);
  RenderPlate *all = (RenderPlate *)(void *)plates->data;
  render_plates_place (all, plates->len, keep_out, overlay->size);
  for (guint i = 0; i < plates->len; i++)
    if (all[i].placed && !all[i].quiet)
      draw_leader (overlay, &all[i]);
  for (guint i = 0; i < spots->len; i++)
    {
      const Spot *spot = &g_array_index (spots, Spot, i);
      render_mark_draw (overlay->cr, spot->state, spot->x, spot->y, spot->radius,
                        overlay->list->dark);
    }
  for (guint i = 0; i < plates->len; i++)
    if (all[i].placed)
      draw_plate (overlay, &all[i], &g_array_index (texts, Text, i));
}

void
render_overlay_draw (cairo_t *cr, const RenderDrawList *list, const RenderCamera *camera,
                     RenderSize size, double covered_px)
{
  Overlay overlay = { cr, list, camera, size };
  cairo_save (cr);
  cairo_new_path (cr);
  RenderKeepOut keep_out = render_keep_out_make ();
  if (covered_px > 0)
    render_keep_out_add_rect (&keep_out, 0, 0, size.width, covered_px);
  if (list->caption != NULL && *list->caption != '\0')
    {
      g_autoptr (PangoLayout) layout
          = make_text (cr, list->caption, CAPTION_PX, PANGO_WEIGHT_NORMAL);
      RenderRect rect = caption_rect (&overlay, layout);
      draw_caption (&overlay, layout, &rect);
      render_keep_out_add_rect (&keep_out, rect.x, rect.y, rect.width, rect.height);
    }
  if (has_compass (&overlay))
    {
      draw_compass (&overlay);
      render_keep_out_add_rect (&keep_out, size.width - 2 * COMPASS_ROOM,
                                size.height - 2 * COMPASS_ROOM, 2 * COMPASS_ROOM, 2 * COMPASS_ROOM);
    }
  g_autoptr (GArray) spots = find_spots (&overlay);
  for (guint i = 0; i < spots->len; i++)
    {
      const Spot *spot = &g_array_index (spots, Spot, i);
      double r = spot->radius;
      render_keep_out_add_rect (&keep_out, spot->x - r, spot->y - r, 2 * r, 2 * r);
    }
  keep_out_lines (&overlay, &keep_out);
  keep_out_load (&overlay, &keep_out);
  draw_labels (&overlay, &keep_out, spots);
  render_keep_out_clear (&keep_out);
  cairo_restore (cr);
}
