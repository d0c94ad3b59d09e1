#include "work-line.h"

#include <math.h>

#define KEY "desk-work-line"
#define LINE_PX 4
/* Of a line that has gone nowhere yet. */
#define TROUGH_SHARE 0.18

typedef struct
{
  double fraction;
  int shown_px, width_px; /* as drawn last */
} Line;

static void
draw (GtkDrawingArea *area, cairo_t *cr, int width, int height, gpointer data)
{
  Line *line = data;
  GtkStyleContext *style = gtk_widget_get_style_context (GTK_WIDGET (area));
  GdkRGBA ink, accent;
  gtk_style_context_get_color (style, &ink);
  if (!gtk_style_context_lookup_color (style, "accent_bg_color", &accent))
    accent = ink;
  line->width_px = width;
  line->shown_px = (int)floor (line->fraction * width);
  ink.alpha *= (float)TROUGH_SHARE;
  gdk_cairo_set_source_rgba (cr, &ink);
  cairo_paint (cr);
  gdk_cairo_set_source_rgba (cr, &accent);
  cairo_rectangle (cr, 0, 0, line->shown_px, height);
  cairo_fill (cr);
}

void
desk_work_line_set_up (GtkDrawingArea *area)
{
  Line *line = g_new0 (Line, 1);
  gtk_drawing_area_set_content_height (area, LINE_PX);
  gtk_drawing_area_set_draw_func (area, draw, line, g_free);
  g_object_set_data (G_OBJECT (area), KEY, line);
  gtk_accessible_update_property (GTK_ACCESSIBLE (area), GTK_ACCESSIBLE_PROPERTY_VALUE_MIN, 0.0,
                                  GTK_ACCESSIBLE_PROPERTY_VALUE_MAX, 1.0,
                                  GTK_ACCESSIBLE_PROPERTY_VALUE_NOW, 0.0, -1);
}

void
desk_work_line_set (GtkDrawingArea *area, double fraction)
{
  Line *line = g_object_get_data (G_OBJECT (area), KEY);
  if (fraction == line->fraction)
    return;
  line->fraction = fraction;
  gtk_accessible_update_property (GTK_ACCESSIBLE (area), GTK_ACCESSIBLE_PROPERTY_VALUE_NOW,
                                  fraction, -1);
  if ((int)floor (fraction * line->width_px) != line->shown_px)
    gtk_widget_queue_draw (GTK_WIDGET (area));
}
