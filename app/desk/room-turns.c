/* room-turns.c: a tick of the page shows the next room. */
#include "room-turns.h"

typedef struct
{
  GPtrArray *rooms; /* that are still to come */
  gboolean is_page_shown;
} Turns;

static gboolean
on_turn (GtkWidget *page, GdkFrameClock *clock, gpointer data)
{
  Turns *turns = data;
  gboolean was_page_shown = turns->is_page_shown;
  turns->is_page_shown = gtk_widget_get_mapped (page);
  if (!was_page_shown || !turns->is_page_shown)
    return G_SOURCE_CONTINUE;
  g_autoptr (GtkWidget) room = g_ptr_array_steal_index (turns->rooms, 0);
  gtk_widget_set_visible (room, TRUE);
  return turns->rooms->len > 0 ? G_SOURCE_CONTINUE : G_SOURCE_REMOVE;
}

static void
turns_free (gpointer data)
{
  Turns *turns = data;
  g_ptr_array_unref (turns->rooms);
  g_free (turns);
}

void
desk_rooms_show_in_turn (GtkWidget *page, GtkWidget *const *rooms, guint n)
{
  g_assert (n > 0);
  Turns *turns = g_new0 (Turns, 1);
  turns->rooms = g_ptr_array_new_full (n, g_object_unref);
  for (guint i = 0; i < n; i++)
    {
      gtk_widget_set_visible (rooms[i], FALSE);
      g_ptr_array_add (turns->rooms, g_object_ref (rooms[i]));
    }
  gtk_widget_add_tick_callback (page, on_turn, turns, turns_free);
}

void
desk_page_show (GtkStack *pages, const char *name)
{
  GtkWidget *shown = gtk_stack_get_child_by_name (pages, name);
  gtk_widget_set_visible (shown, TRUE);
  gtk_stack_set_visible_child (pages, shown);
  for (GtkWidget *page = gtk_widget_get_first_child (GTK_WIDGET (pages)); page != NULL;
       page = gtk_widget_get_next_sibling (page))
    gtk_widget_set_visible (page, page == shown);
}

static void
on_seen (GtkWidget *place)
{
  gtk_widget_set_visible (gtk_widget_get_first_child (place), TRUE);
}

static void
on_unseen (GtkWidget *place)
{
  GtkWidget *room = gtk_widget_get_first_child (place);
  /* Also told while the window goes. */
  if (room != NULL)
    gtk_widget_set_visible (room, FALSE);
}

void
desk_room_show_when_seen (GtkWidget *place)
{
  g_signal_connect_after (place, "map", G_CALLBACK (on_seen), NULL);
  g_signal_connect (place, "unmap", G_CALLBACK (on_unseen), NULL);
  if (!gtk_widget_get_mapped (place))
    on_unseen (place);
}
