/* room-list.c: rows filled by index.
 *
 * GtkListView makes up to 200 rows at once, and a row takes some tenths of a millisecond, and as
 * much again when the next frame gives it its place: many are added, or filled anew, a few in a
 * turn, and the turns are a frame apart. However often one asks for it, rows are filled anew once,
 * in the next.
 *
 * What a row said before is never shown beside what another says now: those in view are filled
 * anew together, before anything is drawn, and the others show nothing until it is their turn,
 * which comes when nobody has asked again for a while: a row that becomes higher or lower has the
 * whole window laid out anew, and while time is dragged that is not worth it for what is not seen.
 */
#include "room-list.h"

#include "room-parts.h"

/* Rows added in one turn. */
#define ROWS_A_TURN 3
/* Rows out of view that are filled anew in one turn. */
#define REFILLED_A_TURN 9
/* They wait so long for a further wish. */
#define REST_MS 200

typedef struct
{
  DeskRowBuild build;
  DeskRowFill fill;
  DeskRowActivate activate;
  gpointer data;
  GListStore *items; /* one object a row, that says nothing */
  GPtrArray *bound;  /* of GtkListItem, borrowed: the rows that are seen */
  GtkWidget *list;   /* borrowed; holds this */
  guint wanted;      /* how many there are to be */
  guint shown;       /* last scrolled to, or to be */
  gint64 frame;      /* in which rows were last added or filled anew */
  guint grow_id, refill_id;
  gboolean is_to_scroll;    /* to what is shown, once: when it is there */
  gboolean is_refill_asked; /* and those in view are still to be filled */
  gboolean is_moving;       /* it was filled anew a moment ago */
} Rows;

static void
rows_free (gpointer data)
{
  Rows *rows = data;
  g_clear_handle_id (&rows->grow_id, g_source_remove);
  g_clear_handle_id (&rows->refill_id, g_source_remove);
  g_object_unref (rows->items);
  g_ptr_array_unref (rows->bound);
  g_free (rows);
}

static void
on_setup (Rows *rows, GtkListItem *item)
{
  gtk_list_item_set_child (item, rows->build (rows->data));
}

static void
fill_item (Rows *rows, GtkListItem *item)
{
  guint position = gtk_list_item_get_position (item);
  if (position < g_list_model_get_n_items (G_LIST_MODEL (rows->items)))
    {
      rows->fill (gtk_list_item_get_child (item), position, rows->data);
      gtk_widget_set_opacity (gtk_list_item_get_child (item), 1);
    }
}

static void
on_bind (Rows *rows, GtkListItem *item)
{
  g_ptr_array_add (rows->bound, item);
  fill_item (rows, item);
}

static void
on_unbind (Rows *rows, GtkListItem *item)
{
  g_ptr_array_remove (rows->bound, item);
}

static void
on_activate (Rows *rows, guint position)
{
  rows->activate (position, rows->data);
}

static void start_growing (Rows *rows);

GtkWidget *
desk_room_list_new (DeskRowBuild build, DeskRowFill fill, DeskRowActivate activate, gpointer data)
{
  Rows *rows = g_new0 (Rows, 1);
  *rows = (Rows){ .build = build,
                  .fill = fill,
                  .activate = activate,
                  .data = data,
                  .items = g_list_store_new (G_TYPE_OBJECT),
                  .bound = g_ptr_array_new (),
                  .shown = GTK_INVALID_LIST_POSITION };
  GtkListItemFactory *factory = gtk_signal_list_item_factory_new ();
  /* The rows outlive the factory: the list holds both, and lets go of the factory first. */
  g_object_set_data_full (G_OBJECT (factory), "rows", rows, rows_free);
  g_signal_connect_swapped (factory, "setup", G_CALLBACK (on_setup), rows);
  g_signal_connect_swapped (factory, "bind", G_CALLBACK (on_bind), rows);
  g_signal_connect_swapped (factory, "unbind", G_CALLBACK (on_unbind), rows);
  GtkNoSelection *model = gtk_no_selection_new (G_LIST_MODEL (g_object_ref (rows->items)));
  GtkWidget *list = gtk_list_view_new (GTK_SELECTION_MODEL (model), factory);
  gtk_list_view_set_single_click_activate (GTK_LIST_VIEW (list), TRUE);
  gtk_widget_add_css_class (list, "room-list");
  rows->list = list;
  g_object_set_data (G_OBJECT (list), "rows", rows);
  g_signal_connect_swapped (list, "activate", G_CALLBACK (on_activate), rows);
  g_signal_connect_swapped (list, "map", G_CALLBACK (start_growing), rows);
  return list;
}

static Rows *
rows_of (GtkWidget *list)
{
  return g_object_get_data (G_OBJECT (list), "rows");
}

static guint
count (Rows *rows)
{
  return g_list_model_get_n_items (G_LIST_MODEL (rows->items));
}

static void
scroll_to (Rows *rows, guint index)
{
  gtk_widget_activate_action (rows->list, "list.scroll-to-item", "u", index);
}

static void
grow (Rows *rows)
{
  g_autoptr (GPtrArray) more = g_ptr_array_new_with_free_func (g_object_unref);
  guint before = count (rows), n = MIN (rows->wanted - before, ROWS_A_TURN);
  for (guint i = 0; i < n; i++)
    g_ptr_array_add (more, g_object_new (G_TYPE_OBJECT, NULL));
  g_list_store_splice (rows->items, before, 0, more->pdata, more->len);
  if (rows->is_to_scroll && rows->shown < count (rows))
    {
      scroll_to (rows, rows->shown);
      rows->is_to_scroll = FALSE;
    }
}

/* Whether the rows of the turn before have been given their places. */
static gboolean
is_due (Rows *rows)
{
  GdkFrameClock *clock
      = gtk_widget_get_mapped (rows->list) ? gtk_widget_get_frame_clock (rows->list) : NULL;
  if (clock == NULL)
    return TRUE;
  gint64 frame = gdk_frame_clock_get_frame_counter (clock);
  gdk_frame_clock_request_phase (clock, GDK_FRAME_CLOCK_PHASE_UPDATE);
  if (frame == rows->frame)
    return FALSE;
  rows->frame = frame;
  return TRUE;
}

static gboolean
on_grow (gpointer data)
{
  Rows *rows = data;
  gboolean is_seen = gtk_widget_get_mapped (rows->list);
  if (is_seen && !is_due (rows))
    return G_SOURCE_CONTINUE;
  if (is_seen)
    grow (rows);
  if (is_seen && count (rows) < rows->wanted)
    return G_SOURCE_CONTINUE;
  rows->grow_id = 0;
  return G_SOURCE_REMOVE;
}

/* Not before it is seen: else all that had been added meanwhile would get its place in one frame.
 */
static void
start_growing (Rows *rows)
{
  if (rows->grow_id != 0 || count (rows) >= rows->wanted || !gtk_widget_get_mapped (rows->list))
    return;
  grow (rows);
  if (count (rows) < rows->wanted)
    rows->grow_id = g_timeout_add (DESK_TURN_MS, on_grow, rows);
}

void
desk_room_list_set_count (GtkWidget *list, guint n)
{
  Rows *rows = rows_of (list);
  guint before = count (rows);
  rows->wanted = n;
  if (n < before)
    g_list_store_splice (rows->items, n, before - n, NULL, 0);
  if (before > 0)
    desk_room_list_refill (list);
  if (count (rows) == n)
    g_clear_handle_id (&rows->grow_id, g_source_remove);
  start_growing (rows);
}

static gboolean
is_in_view (Rows *rows, GtkListItem *item)
{
  GtkWidget *widget = gtk_widget_get_parent (gtk_list_item_get_child (item));
  graphene_rect_t at;
  return widget != NULL && gtk_widget_compute_bounds (widget, rows->list, &at)
         && at.origin.y + at.size.height > 0
         && at.origin.y < (float)gtk_widget_get_height (rows->list);
}

static gboolean
is_empty (GtkListItem *item)
{
  return gtk_widget_get_opacity (gtk_list_item_get_child (item)) == 0;
}

/* It keeps its place. */
static void
empty (GtkListItem *item)
{
  if (is_empty (item))
    return;
  gtk_widget_set_opacity (gtk_list_item_get_child (item), 0);
  desk_room_row_tell (gtk_list_item_get_child (item), "", FALSE);
}

static gboolean
on_refill_others (gpointer data)
{
  Rows *rows = data;
  if (!is_due (rows))
    return G_SOURCE_CONTINUE;
  for (guint i = 0, n = 0; i < rows->bound->len; i++)
    {
      if (!is_empty (rows->bound->pdata[i]))
        continue;
      if (n++ == REFILLED_A_TURN)
        return G_SOURCE_CONTINUE;
      fill_item (rows, rows->bound->pdata[i]);
    }
  rows->refill_id = 0;
  return G_SOURCE_REMOVE;
}

static gboolean
on_rest (gpointer data)
{
  Rows *rows = data;
  rows->is_moving = FALSE;
  for (guint i = 0; i < rows->bound->len; i++)
    if (!is_empty (rows->bound->pdata[i]))
      fill_item (rows, rows->bound->pdata[i]);
  rows->refill_id = g_timeout_add (DESK_TURN_MS, on_refill_others, rows);
  return G_SOURCE_REMOVE;
}

static gboolean
on_refill (gpointer data)
{
  Rows *rows = data;
  for (guint i = 0; i < rows->bound->len; i++)
    {
      GtkListItem *item = rows->bound->pdata[i];
      if (gtk_list_item_get_position (item) == rows->shown || is_in_view (rows, item))
        fill_item (rows, item);
      else
        empty (item);
    }
  rows->is_refill_asked = FALSE;
  rows->refill_id = g_timeout_add (REST_MS, on_rest, rows);
  return G_SOURCE_REMOVE;
}

/* Before anything is drawn. */
void
desk_room_list_refill (GtkWidget *list)
{
  Rows *rows = rows_of (list);
  if (rows->is_refill_asked)
    return;
  rows->is_refill_asked = TRUE;
  rows->is_moving = TRUE;
  g_clear_handle_id (&rows->refill_id, g_source_remove);
  rows->refill_id = g_idle_add_full (G_PRIORITY_DEFAULT, on_refill, rows, NULL);
}

gboolean
desk_room_list_is_at_rest (GtkWidget *list)
{
  return !rows_of (list)->is_moving;
}

void
desk_room_list_show (GtkWidget *list, guint index)
{
  Rows *rows = rows_of (list);
  rows->shown = index;
  rows->is_to_scroll = index >= count (rows);
  if (!rows->is_to_scroll)
    scroll_to (rows, index);
}

void
desk_room_row_tell (GtkWidget *row, const char *text, gboolean current)
{
  GtkWidget *item = gtk_widget_get_parent (row);
  if (current)
    gtk_widget_add_css_class (row, "current");
  else
    gtk_widget_remove_css_class (row, "current");
  desk_hint_set (row, text);
  if (item == NULL)
    return;
  gtk_accessible_update_property (GTK_ACCESSIBLE (item), GTK_ACCESSIBLE_PROPERTY_LABEL, text, -1);
  gtk_accessible_update_state (GTK_ACCESSIBLE (item), GTK_ACCESSIBLE_STATE_SELECTED, current, -1);
}
