/* grid.c: widgets are made only for what is in view, a few in each frame, and are taken for another
 * place when theirs has been scrolled out of it. GTK 4.8 makes those of 200 rows, and styles,
 * measures and places all of them: that goes with rows times columns, this with the window.
 *
 * A widget of a cell is one that takes the focus by itself; from cell to cell the arrows go, and
 * Home, End, Page Up and Page Down, with Ctrl to the ends of the whole. Tab leaves. */
#include "grid.h"

/* How many widgets are given a place in one frame: a new one costs up to 0.1 ms. */
#define SHOWN_A_FRAME 24

typedef struct
{
  GtkWidget *widget; /* a child */
  DeskGridKind kind;
  int row, column;
} Slot;

struct _DeskGrid
{
  GtkWidget parent;
  const DeskGridCells *cells;
  gpointer data;
  DeskGridSize size;
  GtkAdjustment *adjustments[2]; /* by orientation */
  GHashTable *shown;             /* of Slot, by key_of() */
  GQueue spare[DESK_GRID_N_KINDS];
  int row, column; /* where the keys are, or begin */
  gboolean reveals, allocates;
  guint turn_id; /* goes with the widget */
};

enum
{
  PROP_0,
  PROP_HADJUSTMENT,
  PROP_VADJUSTMENT,
  PROP_HPOLICY,
  PROP_VPOLICY,
};

static gboolean
get_border (GtkScrollable *scrollable, GtkBorder *border)
{
  const DeskGridSize *size = &DESK_GRID (scrollable)->size;
  *border = (GtkBorder){ .left = (gint16)size->name_px, .top = (gint16)size->heading_px };
  return TRUE;
}

static void
scrollable_init (GtkScrollableInterface *interface)
{
  interface->get_border = get_border;
}

G_DEFINE_FINAL_TYPE_WITH_CODE (DeskGrid, desk_grid, GTK_TYPE_WIDGET,
                               G_IMPLEMENT_INTERFACE (GTK_TYPE_SCROLLABLE, scrollable_init))

/* ---- places ---- */

static gpointer
key_of (const DeskGrid *grid, int row, int column)
{
  return GINT_TO_POINTER ((row + 1) * (grid->size.n_columns + 1) + column + 1);
}

static DeskGridKind
kind_of (int row, int column)
{
  return row < 0 ? DESK_GRID_HEADING : column < 0 ? DESK_GRID_NAME : DESK_GRID_CELL;
}

static double
scrolled_px (const DeskGrid *grid, GtkOrientation orientation)
{
  GtkAdjustment *adjustment = grid->adjustments[orientation];
  return adjustment != NULL ? gtk_adjustment_get_value (adjustment) : 0;
}

/* The first and the last row, or column, of which a part is in view. */
static void
range_in_view (DeskGrid *grid, GtkOrientation orientation, int *first, int *last)
{
  gboolean is_across = orientation == GTK_ORIENTATION_HORIZONTAL;
  int pitch_px = is_across ? grid->size.column_px : grid->size.row_px;
  int n = is_across ? grid->size.n_columns : grid->size.n_rows;
  int room_px = is_across ? gtk_widget_get_width (GTK_WIDGET (grid)) - grid->size.name_px
                          : gtk_widget_get_height (GTK_WIDGET (grid)) - grid->size.heading_px;
  double from_px = scrolled_px (grid, orientation);
  *first = MAX ((int)(from_px / pitch_px), 0);
  *last = room_px <= 0 ? -1 : MIN ((int)((from_px + room_px - 1) / pitch_px), n - 1);
}

static GdkRectangle
rectangle_of (const DeskGrid *grid, const Slot *slot)
{
  const DeskGridSize *size = &grid->size;
  GdkRectangle r = { 0, 0, size->name_px, size->heading_px };
  if (slot->column >= 0)
    {
      r.x = size->name_px + slot->column * size->column_px
            - (int)scrolled_px (grid, GTK_ORIENTATION_HORIZONTAL);
      r.width = size->column_px;
    }
  if (slot->row >= 0)
    {
      r.y = size->heading_px + slot->row * size->row_px
            - (int)scrolled_px (grid, GTK_ORIENTATION_VERTICAL);
      r.height = size->row_px;
    }
  return r;
}

static void
place (DeskGrid *grid, const Slot *slot)
{
  GdkRectangle r = rectangle_of (grid, slot);
  gtk_widget_measure (slot->widget, GTK_ORIENTATION_HORIZONTAL, -1, NULL, NULL, NULL, NULL);
  gtk_widget_size_allocate (slot->widget, &r, -1);
}

/* ---- which widget is where ---- */

static void
set_aside (DeskGrid *grid, Slot *slot)
{
  gtk_widget_set_child_visible (slot->widget, FALSE);
  g_queue_push_tail (&grid->spare[slot->kind], slot);
}

static Slot *
slot_new (DeskGrid *grid, DeskGridKind kind)
{
  Slot *slot = g_new0 (Slot, 1);
  slot->kind = kind;
  slot->widget = grid->cells->make (kind, grid->data);
  /* Names and headings lie over the cells. */
  if (kind == DESK_GRID_CELL)
    gtk_widget_insert_after (slot->widget, GTK_WIDGET (grid), NULL);
  else
    gtk_widget_insert_before (slot->widget, GTK_WIDGET (grid), NULL);
  return slot;
}

static Slot *
slot_at (DeskGrid *grid, int row, int column)
{
  return g_hash_table_lookup (grid->shown, key_of (grid, row, column));
}

static Slot *
show (DeskGrid *grid, int row, int column)
{
  DeskGridKind kind = kind_of (row, column);
  Slot *slot = g_queue_pop_head (&grid->spare[kind]);
  if (slot == NULL)
    slot = slot_new (grid, kind);
  slot->row = row;
  slot->column = column;
  grid->cells->show (kind, slot->widget, row, column, grid->data);
  gtk_widget_set_child_visible (slot->widget, TRUE);
  g_hash_table_insert (grid->shown, key_of (grid, row, column), slot);
  return slot;
}

/* NULL: it is not shown. */
static const Slot *
slot_of (DeskGrid *grid, GtkWidget *widget)
{
  GHashTableIter iter;
  gpointer slot;
  g_hash_table_iter_init (&iter, grid->shown);
  while (g_hash_table_iter_next (&iter, NULL, &slot))
    if (((const Slot *)slot)->widget == widget)
      return slot;
  return NULL;
}

/* What has the focus keeps it, also where it cannot be seen. */
static void
set_unseen_aside (DeskGrid *grid, int top, int bottom, int left, int right)
{
  GtkWidget *focus = gtk_widget_get_focus_child (GTK_WIDGET (grid));
  GHashTableIter iter;
  gpointer value;
  g_hash_table_iter_init (&iter, grid->shown);
  while (g_hash_table_iter_next (&iter, NULL, &value))
    {
      Slot *slot = value;
      gboolean is_seen = (slot->row < 0 || (slot->row >= top && slot->row <= bottom))
                         && (slot->column < 0 || (slot->column >= left && slot->column <= right));
      if (is_seen || slot->widget == focus)
        continue;
      g_hash_table_iter_steal (&iter);
      set_aside (grid, slot);
    }
}

static gboolean
on_turn (GtkWidget *widget, GdkFrameClock *clock, gpointer data)
{
  DeskGrid *grid = DESK_GRID (widget);
  int top, bottom, left, right, n = 0;
  range_in_view (grid, GTK_ORIENTATION_VERTICAL, &top, &bottom);
  range_in_view (grid, GTK_ORIENTATION_HORIZONTAL, &left, &right);
  set_unseen_aside (grid, top, bottom, left, right);
  for (int row = top - 1; row <= bottom && n < SHOWN_A_FRAME; row++)
    for (int column = left - 1; column <= right && n < SHOWN_A_FRAME; column++)
      {
        /* Before the first in view are the names and the headings. */
        int r = row < top ? -1 : row, c = column < left ? -1 : column;
        if (slot_at (grid, r, c) != NULL)
          continue;
        show (grid, r, c);
        n++;
      }
  gtk_widget_queue_allocate (widget);
  if (n == SHOWN_A_FRAME)
    return G_SOURCE_CONTINUE;
  grid->turn_id = 0;
  return G_SOURCE_REMOVE;
}

static void
want_turn (DeskGrid *grid)
{
  if (grid->turn_id == 0)
    grid->turn_id = gtk_widget_add_tick_callback (GTK_WIDGET (grid), on_turn, NULL, NULL);
}

static void
on_scrolled (DeskGrid *grid)
{
  want_turn (grid);
  if (!grid->allocates)
    gtk_widget_queue_allocate (GTK_WIDGET (grid));
}

/* ---- the keys ---- */

static void
scroll_to (DeskGrid *grid, int row, int column)
{
  double x = (double)column * grid->size.column_px, y = (double)row * grid->size.row_px;
  if (grid->adjustments[GTK_ORIENTATION_HORIZONTAL] != NULL && column >= 0)
    gtk_adjustment_clamp_page (grid->adjustments[GTK_ORIENTATION_HORIZONTAL], x,
                               x + grid->size.column_px);
  if (grid->adjustments[GTK_ORIENTATION_VERTICAL] != NULL && row >= 0)
    gtk_adjustment_clamp_page (grid->adjustments[GTK_ORIENTATION_VERTICAL], y,
                               y + grid->size.row_px);
}

static gboolean
is_inside (const DeskGrid *grid, int row, int column)
{
  return row >= 0 && row < grid->size.n_rows && column >= 0 && column < grid->size.n_columns;
}

static gboolean
is_stop (DeskGrid *grid, int row, int column)
{
  return is_inside (grid, row, column) && grid->cells->is_stop (row, column, grid->data);
}

static gboolean
focus_at (DeskGrid *grid, int row, int column)
{
  if (!is_stop (grid, row, column))
    return FALSE;
  Slot *slot = slot_at (grid, row, column);
  if (slot == NULL)
    slot = show (grid, row, column);
  grid->row = row;
  grid->column = column;
  scroll_to (grid, row, column);
  gtk_widget_queue_allocate (GTK_WIDGET (grid));
  return gtk_widget_grab_focus (slot->widget);
}

/* From that place on, itself counted, the first one in that direction where the keys stop. */
static gboolean
focus_from (DeskGrid *grid, int row, int column, int down, int right)
{
  for (; is_inside (grid, row, column); row += down, column += right)
    if (is_stop (grid, row, column))
      return focus_at (grid, row, column);
  return FALSE;
}

/* Where the keys were, or else the first stop of the whole. */
static gboolean
focus_first (DeskGrid *grid)
{
  if (focus_at (grid, grid->row, grid->column))
    return TRUE;
  for (int row = 0; row < grid->size.n_rows; row++)
    if (focus_from (grid, row, 0, 0, 1))
      return TRUE;
  return FALSE;
}

/* Where the focus is; FALSE: not in the grid. */
static gboolean
find_focus (DeskGrid *grid)
{
  const Slot *slot = slot_of (grid, gtk_widget_get_focus_child (GTK_WIDGET (grid)));
  if (slot == NULL)
    return FALSE;
  grid->row = slot->row;
  grid->column = slot->column;
  return TRUE;
}

static gboolean
desk_grid_focus (GtkWidget *widget, GtkDirectionType direction)
{
  DeskGrid *grid = DESK_GRID (widget);
  if (!find_focus (grid))
    return focus_first (grid);
  switch (direction)
    {
    case GTK_DIR_UP:
      return focus_from (grid, grid->row - 1, grid->column, -1, 0);
    case GTK_DIR_DOWN:
      focus_from (grid, grid->row + 1, grid->column, 1, 0);
      return TRUE;
    case GTK_DIR_LEFT:
      focus_from (grid, grid->row, grid->column - 1, 0, -1);
      return TRUE;
    case GTK_DIR_RIGHT:
      focus_from (grid, grid->row, grid->column + 1, 0, 1);
      return TRUE;
    case GTK_DIR_TAB_FORWARD:
    case GTK_DIR_TAB_BACKWARD:
      return FALSE;
    }
  g_assert_not_reached ();
}

static gboolean
desk_grid_grab_focus (GtkWidget *widget)
{
  return focus_first (DESK_GRID (widget));
}

typedef enum
{
  JUMP_HOME,
  JUMP_END,
  JUMP_TOP,
  JUMP_BOTTOM,
  JUMP_PAGE_UP,
  JUMP_PAGE_DOWN,
} Jump;

static gboolean
on_jump (GtkWidget *widget, GVariant *arguments, gpointer data)
{
  DeskGrid *grid = DESK_GRID (widget);
  int last_row = grid->size.n_rows - 1, last_column = grid->size.n_columns - 1, top, bottom;
  if (!find_focus (grid))
    return FALSE;
  range_in_view (grid, GTK_ORIENTATION_VERTICAL, &top, &bottom);
  int page = MAX (bottom - top - 1, 1);
  switch ((Jump)g_variant_get_int32 (arguments))
    {
    case JUMP_HOME:
      focus_from (grid, grid->row, 0, 0, 1);
      break;
    case JUMP_END:
      focus_from (grid, grid->row, last_column, 0, -1);
      break;
    case JUMP_TOP:
      focus_from (grid, 0, grid->column, 1, 0);
      break;
    case JUMP_BOTTOM:
      focus_from (grid, last_row, grid->column, -1, 0);
      break;
    case JUMP_PAGE_UP:
      focus_from (grid, MAX (grid->row - page, 0), grid->column, 1, 0);
      break;
    case JUMP_PAGE_DOWN:
      focus_from (grid, MIN (grid->row + page, last_row), grid->column, -1, 0);
      break;
    }
  return TRUE;
}

static void
bind_keys (GtkWidgetClass *class)
{
  static const struct
  {
    guint key, keypad;
    GdkModifierType modifiers;
    Jump jump;
  } keys[] = {
    { GDK_KEY_Home, GDK_KEY_KP_Home, 0, JUMP_HOME },
    { GDK_KEY_End, GDK_KEY_KP_End, 0, JUMP_END },
    { GDK_KEY_Home, GDK_KEY_KP_Home, GDK_CONTROL_MASK, JUMP_TOP },
    { GDK_KEY_End, GDK_KEY_KP_End, GDK_CONTROL_MASK, JUMP_BOTTOM },
    { GDK_KEY_Page_Up, GDK_KEY_KP_Page_Up, 0, JUMP_PAGE_UP },
    { GDK_KEY_Page_Down, GDK_KEY_KP_Page_Down, 0, JUMP_PAGE_DOWN },
  };
  for (guint i = 0; i < G_N_ELEMENTS (keys); i++)
    {
      gtk_widget_class_add_binding (class, keys[i].key, keys[i].modifiers, on_jump, "i",
                                    (int)keys[i].jump);
      gtk_widget_class_add_binding (class, keys[i].keypad, keys[i].modifiers, on_jump, "i",
                                    (int)keys[i].jump);
    }
}

/* ---- the widget ---- */

static void
desk_grid_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *least,
                   int *natural, int *least_baseline, int *natural_baseline)
{
  const DeskGridSize *size = &DESK_GRID (widget)->size;
  gboolean is_across = orientation == GTK_ORIENTATION_HORIZONTAL;
  *least = is_across ? size->name_px : size->heading_px;
  *natural = *least + (is_across ? size->n_columns * size->column_px : size->n_rows * size->row_px);
}

static void
configure (DeskGrid *grid, GtkOrientation orientation, int room_px, int pitch_px, int n)
{
  GtkAdjustment *adjustment = grid->adjustments[orientation];
  double page_px = MAX (room_px, 0), upper_px = MAX ((double)pitch_px * n, page_px);
  if (adjustment == NULL)
    return;
  double value_px = CLAMP (gtk_adjustment_get_value (adjustment), 0, upper_px - page_px);
  gtk_adjustment_configure (adjustment, value_px, 0, upper_px, pitch_px, 0.9 * page_px, page_px);
}

static void
desk_grid_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  DeskGrid *grid = DESK_GRID (widget);
  const DeskGridSize *size = &grid->size;
  grid->allocates = TRUE;
  configure (grid, GTK_ORIENTATION_HORIZONTAL, width - size->name_px, size->column_px,
             size->n_columns);
  configure (grid, GTK_ORIENTATION_VERTICAL, height - size->heading_px, size->row_px, size->n_rows);
  if (grid->reveals)
    scroll_to (grid, grid->row, grid->column);
  grid->reveals = FALSE;
  GHashTableIter iter;
  gpointer slot;
  g_hash_table_iter_init (&iter, grid->shown);
  while (g_hash_table_iter_next (&iter, NULL, &slot))
    place (grid, slot);
  grid->allocates = FALSE;
  /* Another size may show more. */
  int top, bottom, left, right;
  range_in_view (grid, GTK_ORIENTATION_VERTICAL, &top, &bottom);
  range_in_view (grid, GTK_ORIENTATION_HORIZONTAL, &left, &right);
  if (bottom >= 0 && right >= 0 && slot_at (grid, bottom, right) == NULL)
    want_turn (grid);
}

static void
snapshot_kind (DeskGrid *grid, GtkSnapshot *snapshot, DeskGridKind kind, const GdkRectangle *clip)
{
  gtk_snapshot_push_clip (snapshot, &GRAPHENE_RECT_INIT ((float)clip->x, (float)clip->y,
                                                         (float)clip->width, (float)clip->height));
  GHashTableIter iter;
  gpointer value;
  g_hash_table_iter_init (&iter, grid->shown);
  while (g_hash_table_iter_next (&iter, NULL, &value))
    {
      const Slot *slot = value;
      /* What stands above the names does not move with the headings. */
      if (slot->kind == kind && (slot->row >= 0 || (slot->column < 0) == (clip->x == 0)))
        gtk_widget_snapshot_child (GTK_WIDGET (grid), slot->widget, snapshot);
    }
  gtk_snapshot_pop (snapshot);
}

static void
desk_grid_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  DeskGrid *grid = DESK_GRID (widget);
  int left = grid->size.name_px, top = grid->size.heading_px;
  int width = MAX (gtk_widget_get_width (widget) - left, 0);
  int height = MAX (gtk_widget_get_height (widget) - top, 0);
  snapshot_kind (grid, snapshot, DESK_GRID_CELL, &(GdkRectangle){ left, top, width, height });
  snapshot_kind (grid, snapshot, DESK_GRID_NAME, &(GdkRectangle){ 0, top, left, height });
  snapshot_kind (grid, snapshot, DESK_GRID_HEADING, &(GdkRectangle){ left, 0, width, top });
  snapshot_kind (grid, snapshot, DESK_GRID_HEADING, &(GdkRectangle){ 0, 0, left, top });
  GdkRGBA line;
  gtk_style_context_get_color (gtk_widget_get_style_context (widget), &line);
  line.alpha *= 0.18F;
  gtk_snapshot_append_color (snapshot, &line,
                             &GRAPHENE_RECT_INIT ((float)left - 1, 0, 1, (float)(top + height)));
}

static GtkOrientation
orientation_of (guint property)
{
  return property == PROP_HADJUSTMENT ? GTK_ORIENTATION_HORIZONTAL : GTK_ORIENTATION_VERTICAL;
}

static void
set_adjustment (DeskGrid *grid, GtkOrientation orientation, GtkAdjustment *adjustment)
{
  GtkAdjustment **own = &grid->adjustments[orientation];
  if (*own != NULL)
    g_signal_handlers_disconnect_by_data (*own, grid);
  g_set_object (own, adjustment);
  if (adjustment != NULL)
    g_signal_connect_swapped (adjustment, "value-changed", G_CALLBACK (on_scrolled), grid);
  gtk_widget_queue_allocate (GTK_WIDGET (grid));
}

static void
desk_grid_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  /* It fills what it is given, whatever the policies. */
  if (id == PROP_HADJUSTMENT || id == PROP_VADJUSTMENT)
    set_adjustment (DESK_GRID (object), orientation_of (id), g_value_get_object (value));
}

static void
desk_grid_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  if (id == PROP_HADJUSTMENT || id == PROP_VADJUSTMENT)
    g_value_set_object (value, DESK_GRID (object)->adjustments[orientation_of (id)]);
  else
    g_value_set_enum (value, GTK_SCROLL_MINIMUM);
}

static void
desk_grid_dispose (GObject *object)
{
  DeskGrid *grid = DESK_GRID (object);
  g_hash_table_remove_all (grid->shown);
  for (guint i = 0; i < DESK_GRID_N_KINDS; i++)
    g_queue_clear_full (&grid->spare[i], g_free);
  GtkWidget *child;
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (object))) != NULL)
    gtk_widget_unparent (child);
  for (guint i = 0; i < G_N_ELEMENTS (grid->adjustments); i++)
    {
      if (grid->adjustments[i] != NULL)
        g_signal_handlers_disconnect_by_data (grid->adjustments[i], grid);
      g_clear_object (&grid->adjustments[i]);
    }
  G_OBJECT_CLASS (desk_grid_parent_class)->dispose (object);
}

static void
desk_grid_finalize (GObject *object)
{
  g_hash_table_unref (DESK_GRID (object)->shown);
  G_OBJECT_CLASS (desk_grid_parent_class)->finalize (object);
}

static void
desk_grid_class_init (DeskGridClass *class)
{
  GObjectClass *object_class = G_OBJECT_CLASS (class);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);
  object_class->dispose = desk_grid_dispose;
  object_class->finalize = desk_grid_finalize;
  object_class->set_property = desk_grid_set_property;
  object_class->get_property = desk_grid_get_property;
  widget_class->measure = desk_grid_measure;
  widget_class->size_allocate = desk_grid_size_allocate;
  widget_class->snapshot = desk_grid_snapshot;
  widget_class->focus = desk_grid_focus;
  widget_class->grab_focus = desk_grid_grab_focus;
  g_object_class_override_property (object_class, PROP_HADJUSTMENT, "hadjustment");
  g_object_class_override_property (object_class, PROP_VADJUSTMENT, "vadjustment");
  g_object_class_override_property (object_class, PROP_HPOLICY, "hscroll-policy");
  g_object_class_override_property (object_class, PROP_VPOLICY, "vscroll-policy");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GRID);
  gtk_widget_class_set_css_name (widget_class, "desk-grid");
  bind_keys (widget_class);
}

static void
desk_grid_init (DeskGrid *grid)
{
  grid->shown = g_hash_table_new_full (NULL, NULL, NULL, g_free);
  grid->size = (DeskGridSize){ .row_px = 1, .column_px = 1 };
  for (guint i = 0; i < DESK_GRID_N_KINDS; i++)
    g_queue_init (&grid->spare[i]);
  gtk_widget_set_overflow (GTK_WIDGET (grid), GTK_OVERFLOW_HIDDEN);
  gtk_widget_add_css_class (GTK_WIDGET (grid), "view");
}

GtkWidget *
desk_grid_new (const DeskGridCells *cells, gpointer data)
{
  DeskGrid *grid = g_object_new (DESK_TYPE_GRID, NULL);
  grid->cells = cells;
  grid->data = data;
  return GTK_WIDGET (grid);
}

/* What had the focus has it again, now as what is in that place. */
void
desk_grid_set (DeskGrid *grid, const DeskGridSize *size)
{
  gboolean has_focus = find_focus (grid);
  GHashTableIter iter;
  gpointer slot;
  g_hash_table_iter_init (&iter, grid->shown);
  while (g_hash_table_iter_next (&iter, NULL, &slot))
    set_aside (grid, slot);
  g_hash_table_steal_all (grid->shown);
  grid->size = *size;
  if (!is_inside (grid, grid->row, grid->column))
    grid->row = grid->column = 0;
  if (has_focus)
    focus_first (grid);
  want_turn (grid);
  gtk_widget_queue_resize (GTK_WIDGET (grid));
}

int
desk_grid_get_n_rows (DeskGrid *grid)
{
  return grid->size.n_rows;
}

int
desk_grid_get_n_columns (DeskGrid *grid)
{
  return grid->size.n_columns;
}

void
desk_grid_get_place (DeskGrid *grid, GtkWidget *cell, int *row, int *column)
{
  const Slot *slot = slot_of (grid, cell);
  g_assert (slot != NULL);
  *row = slot->row;
  *column = slot->column;
}

GtkWidget *
desk_grid_get_widget (DeskGrid *grid, int row, int column)
{
  const Slot *slot = slot_at (grid, row, column);
  return slot != NULL ? slot->widget : NULL;
}

void
desk_grid_reveal (DeskGrid *grid, int row, int column)
{
  if (!find_focus (grid))
    {
      grid->row = row;
      grid->column = column;
    }
  grid->reveals = TRUE;
  gtk_widget_queue_allocate (GTK_WIDGET (grid));
}
