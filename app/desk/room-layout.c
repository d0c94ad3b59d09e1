#include "room-layout.h"

#define DESK_TYPE_ROOM_LAYOUT (desk_room_layout_get_type ())
G_DECLARE_FINAL_TYPE (DeskRoomLayout, desk_room_layout, DESK, ROOM_LAYOUT, GtkLayoutManager)

struct _DeskRoomLayout
{
  GtkLayoutManager parent;
  int width_px, least_height_px;
};

G_DEFINE_FINAL_TYPE (DeskRoomLayout, desk_room_layout, GTK_TYPE_LAYOUT_MANAGER)

static GtkSizeRequestMode
get_request_mode (GtkLayoutManager *manager, GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_CONSTANT_SIZE;
}

static void
measure (GtkLayoutManager *manager, GtkWidget *widget, GtkOrientation orientation, int for_size,
         int *minimum, int *natural, int *minimum_baseline, int *natural_baseline)
{
  DeskRoomLayout *layout = DESK_ROOM_LAYOUT (manager);
  GtkWidget *child = gtk_widget_get_first_child (widget);
  gboolean is_asked = orientation == GTK_ORIENTATION_VERTICAL && layout->least_height_px == 0;
  *minimum = *natural
      = orientation == GTK_ORIENTATION_VERTICAL ? layout->least_height_px : layout->width_px;
  if (is_asked && child != NULL && gtk_widget_should_layout (child))
    gtk_widget_measure (child, orientation, layout->width_px, minimum, natural, NULL, NULL);
}

static void
allocate (GtkLayoutManager *manager, GtkWidget *widget, int width, int height, int baseline)
{
  GtkWidget *child = gtk_widget_get_first_child (widget);
  if (child != NULL && gtk_widget_should_layout (child))
    gtk_widget_allocate (child, width, height, baseline, NULL);
}

static void
desk_room_layout_class_init (DeskRoomLayoutClass *class)
{
  GtkLayoutManagerClass *manager_class = GTK_LAYOUT_MANAGER_CLASS (class);
  manager_class->get_request_mode = get_request_mode;
  manager_class->measure = measure;
  manager_class->allocate = allocate;
}

static void
desk_room_layout_init (DeskRoomLayout *layout)
{
}

GtkLayoutManager *
desk_room_layout_new (int width_px, int least_height_px)
{
  g_assert (width_px > 0 || least_height_px > 0);
  DeskRoomLayout *layout = g_object_new (DESK_TYPE_ROOM_LAYOUT, NULL);
  layout->width_px = width_px;
  layout->least_height_px = least_height_px;
  return GTK_LAYOUT_MANAGER (layout);
}

void
desk_room_layout_set_width (GtkLayoutManager *layout, int width_px)
{
  DESK_ROOM_LAYOUT (layout)->width_px = width_px;
  gtk_layout_manager_layout_changed (layout);
}

GtkWidget *
desk_room_box_new (GtkWidget *child, int width_px, int least_height_px)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  gtk_widget_set_layout_manager (box, desk_room_layout_new (width_px, least_height_px));
  gtk_box_append (GTK_BOX (box), child);
  return box;
}
