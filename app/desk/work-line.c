#include "work-line.h"

#include <math.h>

#define KEY "desk-work-line"
#define LINE_PX 4
/* Of a line that has gone nowhere yet. */
#define TROUGH_SHARE 0.18

static void
draw (GtkDrawingArea *area, cairo_t *cr, int width, int height, gpointer data)
{
  const double *fraction = data;
  GtkStyleContext *style = gtk_widget_get_style_context (GTK_WIDGET (area));
  GdkRGBA ink, accent;
  gtk_style_context_get_color (style, &ink);
  if (!gtk_style_context_lookup_color (style, "accent_bg_color", &accent))
    accent = ink;
  ink.alpha *= (float)TROUGH_SHARE;
  gdk_cairo_set_source_rgba (cr, &ink);
  cairo_paint (cr);
  gdk_cairo_set_source_rgba (cr, &accent);
  cairo_rectangle (cr, 0, 0, floor (*fraction * width), height);
  cairo_fill (cr);
}

void
desk_work_line_set_up (GtkDrawingArea *area)
{
  double *fraction = g_new0 (double, 1);
  gtk_drawing_area_set_content_height (area, LINE_PX);
  gtk_drawing_area_set_draw_func (area, draw, fraction, g_free);
  g_object_set_data (G_OBJECT (area), KEY, fraction);
  gtk_accessible_update_property (GTK_ACCESSIBLE (area), GTK_ACCESSIBLE_PROPERTY_VALUE_MIN, 0.0,
                                  GTK_ACCESSIBLE_PROPERTY_VALUE_MAX, 1.0,
                                  GTK_ACCESSIBLE_PROPERTY_VALUE_NOW, 0.0, -1);
}

void
desk_work_line_set (GtkDrawingArea *area, double fraction)
{
  double *shown = g_object_get_data (G_OBJECT (area), KEY);
  if (fraction == *shown)
    return;
  const int width = gtk_widget_get_width (GTK_WIDGET (area));
  const gboolean is_seen = floor (fraction * width) != floor (*shown * width);
  *shown = fraction;
  gtk_accessible_update_property (GTK_ACCESSIBLE (area), GTK_ACCESSIBLE_PROPERTY_VALUE_NOW,
                                  fraction, -1);
  if (is_seen)
    gtk_widget_queue_draw (GTK_WIDGET (area));
}
