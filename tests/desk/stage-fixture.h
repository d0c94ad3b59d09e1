/* stage-fixture.h: the 3D view in a window of its own, with a demo in it. Included once in a
 * program. */
#pragma once

#include "desk-fixture.h"
#include "keep-loaded.h"
#include "sight.h"
#include "stage-private.h"
#include "visibility.h"

typedef struct
{
  DeskSession *session;
  GtkWidget *window;
  DeskStage *stage;
} Fixture;

static inline void
set_animated (gboolean animated)
{
  g_object_set (gtk_settings_get_default (), "gtk-enable-animations", animated, NULL);
}

static inline void
set_up (Fixture *f, gconstpointer data)
{
  set_animated (FALSE);
  f->session = desk_session_new ();
  GtkWidget *stage = desk_stage_new (f->session);
  f->stage = DESK_STAGE (stage);
  f->window = gtk_window_new ();
  gtk_window_set_default_size (GTK_WINDOW (f->window), 900, 600);
  gtk_window_set_child (GTK_WINDOW (f->window), stage);
  gtk_window_present (GTK_WINDOW (f->window));
  g_autoptr (GFile) file = test_demo ("lock-gate");
  desk_document_open (desk_session_get_document (f->session), file, 5000);
  test_wait (desk_session_get_site (f->session) != NULL);
  test_wait (f->stage->has_camera && f->stage->list != NULL && !f->stage->moving);
}

static inline void
tear_down (Fixture *f, gconstpointer data)
{
  gtk_window_destroy (GTK_WINDOW (f->window));
  test_idle (0.05);
  g_object_unref (f->session);
}

static inline void
act (Fixture *f, const char *action)
{
  g_action_group_activate_action (G_ACTION_GROUP (f->stage->actions), action, NULL);
}

static inline void
act_with (Fixture *f, const char *action, const char *word)
{
  g_action_group_activate_action (G_ACTION_GROUP (f->stage->actions), action,
                                  g_variant_new_string (word));
}

static inline RenderCamera
camera_of (Fixture *f)
{
  return desk_stage_get_camera (GTK_WIDGET (f->stage));
}

static inline gboolean
state_of (Fixture *f, const char *action)
{
  g_autoptr (GVariant) state
      = g_action_group_get_action_state (G_ACTION_GROUP (f->stage->actions), action);
  return g_variant_get_boolean (state);
}

/* What the view has drawn; NULL while it is to be drawn again. */
static inline GskRenderNode *
node_of (GtkWidget *area)
{
  g_autoptr (GdkPaintable) paintable = gtk_widget_paintable_new (area);
  GtkSnapshot *snapshot = gtk_snapshot_new ();
  gdk_paintable_snapshot (paintable, snapshot, gtk_widget_get_width (area),
                          gtk_widget_get_height (area));
  return gtk_snapshot_free_to_node (snapshot);
}

/* How many different colours the view has in a grid of places. */
static inline guint
count_colours (Fixture *f)
{
  GtkWidget *area = f->stage->area;
  int width = gtk_widget_get_width (area), height = gtk_widget_get_height (area);
  GskRenderNode *node = NULL;
  test_wait (node != NULL || (node = node_of (area)) != NULL);
  GskRenderer *renderer = gtk_native_get_renderer (gtk_widget_get_native (area));
  g_autoptr (GdkTexture) texture = gsk_renderer_render_texture (
      renderer, node, &GRAPHENE_RECT_INIT (0, 0, (float)width, (float)height));
  gsk_render_node_unref (node);
  g_autofree guint32 *pixels = g_new (guint32, (gsize)width * (gsize)height);
  gdk_texture_download (texture, (guchar *)pixels, (gsize)width * 4);
  g_autoptr (GHashTable) colours = g_hash_table_new (NULL, NULL);
  for (int y = 5; y < height; y += 10)
    for (int x = 5; x < width; x += 10)
      g_hash_table_add (colours, GUINT_TO_POINTER (pixels[y * width + x]));
  return g_hash_table_size (colours);
}
