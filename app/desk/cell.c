/* cell.c: one widget, where a button with a box, a mark and a label in it would be four. A table of
 * many rows has thousands of cells, and with each row that comes GTK 4.8 styles all widgets of it
 * and measures all rows that are there: what that costs goes with the number of widgets. */
#include "cell.h"

#include "overlay.h"

#define MARK_RADIUS_PX 6.5
#define MARK_PX 16

struct _DeskCell
{
  GtkButton parent;
  RenderState state;
  gboolean dark;
  char *text; /* owned */
};

G_DEFINE_FINAL_TYPE (DeskCell, desk_cell, GTK_TYPE_BUTTON)

static void
desk_cell_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *least,
                   int *natural, int *least_baseline, int *natural_baseline)
{
  *least = *natural = MARK_PX;
}

/* Figures are as wide as each other, so that they stand below each other. */
static PangoLayout *
layout_new (DeskCell *cell)
{
  PangoLayout *layout = gtk_widget_create_pango_layout (GTK_WIDGET (cell), cell->text);
  PangoAttrList *attributes = pango_attr_list_new ();
  pango_attr_list_insert (attributes, pango_attr_font_features_new ("tnum"));
  pango_layout_set_attributes (layout, attributes);
  pango_attr_list_unref (attributes);
  return layout;
}

static void
desk_cell_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  DeskCell *cell = DESK_CELL (widget);
  int width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  cairo_t *cr
      = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (0, 0, MARK_PX, (float)height));
  render_mark_draw (cr, cell->state, MARK_PX / 2.0, height / 2.0, MARK_RADIUS_PX, cell->dark);
  cairo_destroy (cr);
  g_autoptr (PangoLayout) layout = layout_new (cell);
  PangoRectangle ink, text;
  pango_layout_get_pixel_extents (layout, &ink, &text);
  RenderColour colour = render_state_text_colour (cell->state, cell->dark);
  GdkRGBA rgba = { colour.r, colour.g, colour.b, 1 };
  gtk_snapshot_save (snapshot);
  gtk_snapshot_translate (snapshot, &GRAPHENE_POINT_INIT ((float)(width - text.width),
                                                          (float)(height - text.height) / 2));
  gtk_snapshot_append_layout (snapshot, layout, &rgba);
  gtk_snapshot_restore (snapshot);
}

static void
desk_cell_finalize (GObject *object)
{
  g_free (DESK_CELL (object)->text);
  G_OBJECT_CLASS (desk_cell_parent_class)->finalize (object);
}

static void
desk_cell_class_init (DeskCellClass *class)
{
  G_OBJECT_CLASS (class)->finalize = desk_cell_finalize;
  GTK_WIDGET_CLASS (class)->measure = desk_cell_measure;
  GTK_WIDGET_CLASS (class)->snapshot = desk_cell_snapshot;
}

static void
desk_cell_init (DeskCell *cell)
{
  cell->text = g_strdup ("");
  /* That of a button measures a child. */
  gtk_widget_set_layout_manager (GTK_WIDGET (cell), NULL);
}

GtkWidget *
desk_cell_new (int height_px)
{
  return g_object_new (DESK_TYPE_CELL, "height-request", height_px, NULL);
}

void
desk_cell_set (DeskCell *cell, RenderState state, gboolean dark, const char *text)
{
  cell->state = state;
  cell->dark = dark;
  g_free (cell->text);
  cell->text = g_strdup (text);
  gtk_widget_queue_draw (GTK_WIDGET (cell));
}

const char *
desk_cell_get_text (DeskCell *cell)
{
  return cell->text;
}
