/* plot-text.c: small texts on plots. */
#include "plot-text.h"

PangoLayout *
render_plot_text (cairo_t *cr, const char *text, const char *font, double size_px, gboolean bold)
{
  PangoLayout *layout = pango_cairo_create_layout (cr);
  PangoFontDescription *description = pango_font_description_new ();
  pango_font_description_set_family (description, font != NULL ? font : "Sans");
  pango_font_description_set_absolute_size (description, size_px * PANGO_SCALE);
  pango_font_description_set_weight (description,
                                     bold ? PANGO_WEIGHT_SEMIBOLD : PANGO_WEIGHT_NORMAL);
  pango_layout_set_font_description (layout, description);
  pango_font_description_free (description);
  PangoAttrList *attributes = pango_attr_list_new ();
  pango_attr_list_insert (attributes, pango_attr_font_features_new ("tnum=1"));
  pango_layout_set_attributes (layout, attributes);
  pango_attr_list_unref (attributes);
  pango_layout_set_text (layout, text, -1);
  return layout;
}

void
render_plot_text_size (PangoLayout *layout, double *width, double *height)
{
  int w, h;
  pango_layout_get_pixel_size (layout, &w, &h);
  *width = w;
  *height = h;
}

void
render_plot_source (cairo_t *cr, RenderColour colour, double alpha)
{
  cairo_set_source_rgba (cr, colour.r, colour.g, colour.b, colour.a * alpha);
}

void
render_plot_text_draw (cairo_t *cr, PangoLayout *layout, double x, double y, RenderColour colour,
                       const RenderColour *paper)
{
  cairo_save (cr);
  cairo_move_to (cr, x, y);
  if (paper != NULL)
    {
      double width, height;
      render_plot_text_size (layout, &width, &height);
      cairo_rectangle (cr, x - RENDER_PLOT_TEXT_RIM, y, width + 2 * RENDER_PLOT_TEXT_RIM, height);
      render_plot_source (cr, *paper, 0.94);
      cairo_fill (cr);
      cairo_move_to (cr, x, y);
    }
  render_plot_source (cr, colour, 1);
  pango_cairo_show_layout (cr, layout);
  cairo_new_path (cr);
  cairo_restore (cr);
}
