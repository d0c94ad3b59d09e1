/* forces-now.c: the forces of the time that is set, asked when it changes while the room is
 * unfolded. What is the same over a move is worked out once (forces.h). */
#include "forces-now.h"

#include <math.h>

#include "force-view.h"
#include "load-words.h"
#include "room-fold.h"
#include "room-numbers.h"
#include "number.h"
#include "room-parts.h"

#define FIGURE_HEIGHT_PX 184
/* Of forces, and of the rigging that bears them. */
#define CHECKS                                                                                     \
  (TRN_CHECK_BIT (TRN_CHECK_RIGGING)                                                               \
   | (TRN_CHECKS_ALL & ~(TRN_CHECK_BIT (TRN_CHECK_HOOK_LOAD) - 1)))

#define DESK_TYPE_FORCES_NOW (desk_forces_now_get_type ())
G_DECLARE_FINAL_TYPE (DeskForcesNow, desk_forces_now, DESK, FORCES_NOW, GtkBox)

struct _DeskForcesNow
{
  GtkBox parent;
  DeskSession *session;
  GtkWidget *expander, *of_forces, *of_rigging, *head, *figure, *note, *foot;
  GtkWidget *force_grid, *rigging_grid; /* each with columns as wide as its own numbers are */
  DeskSite *site;                       /* that the forces are of */
  guint run;
  DeskForces *forces;
  gboolean is_found; /* what follows is what the checks find now */
  DeskFoundOfHoist found[DESK_MOST_HOISTS];
  DeskForceView *view;
};

G_DEFINE_FINAL_TYPE (DeskForcesNow, desk_forces_now, GTK_TYPE_BOX)

static gboolean
shows_rigging (DeskForcesNow *room)
{
  return gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (room->of_rigging));
}

/* ---- the figure ---- */

static void
draw (GtkDrawingArea *area, cairo_t *cr, int width, int height, gpointer data)
{
  DeskForcesNow *room = data;
  RenderSize size = { width, height };
  PangoContext *pango = gtk_widget_get_pango_context (GTK_WIDGET (area));
  const char *font = pango_font_description_get_family (pango_context_get_font_description (pango));
  if (room->view == NULL)
    return;
  gboolean dark = desk_session_get_dark (room->session);
  room->view->forces.font = room->view->rigging.font = font;
  room->view->forces.dark = room->view->rigging.dark = dark;
  if (shows_rigging (room))
    render_rigging_figure_draw (cr, &room->view->rigging, size);
  else if (room->view->forces.n_outline >= 3)
    render_force_figure_draw (cr, &room->view->forces, size);
}

/* ---- rows ---- */

static void
show_rows (DeskForcesNow *room, GtkWidget *grid, const GArray *rows)
{
  g_autoptr (GString) all = g_string_new (NULL);
  desk_numbers_begin (grid);
  for (guint i = 0; i < rows->len; i++)
    {
      const DeskForceRow *row = &g_array_index (rows, DeskForceRow, i);
      g_autofree char *said
          = desk_numbers_said (row->said != NULL ? row->said : row->label, row->value, row->more);
      desk_numbers_add (grid, row->label, row->value, row->more, said);
      if (row->is_under)
        desk_numbers_under (grid);
      if (row->is_found)
        desk_numbers_quiet (grid);
      g_string_append_printf (all, "%s%s", all->len > 0 ? "; " : "", said);
    }
  desk_numbers_end (grid);
  gtk_accessible_update_property (GTK_ACCESSIBLE (room->figure), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  all->str, -1);
}

static void
show_view (DeskForcesNow *room)
{
  gboolean rigging = shows_rigging (room);
  const char *note = rigging ? room->view->rigging_note : room->view->force_note;
  if (rigging)
    show_rows (room, room->rigging_grid, room->view->rigging_rows);
  else
    show_rows (room, room->force_grid, room->view->force_rows);
  gtk_widget_set_visible (room->rigging_grid, rigging);
  gtk_widget_set_visible (room->force_grid, !rigging);
  gtk_widget_set_visible (room->note, note != NULL);
  desk_label_set (room->note, note != NULL ? note : "");
  desk_label_set (room->head, rigging ? room->view->rigging_head : room->view->force_head);
  desk_label_set (room->foot, trn_words_loads (rigging ? TRN_LOADS_DYNAMIC : TRN_LOADS_AT_REST));
  /* Of nothing there is nothing to be explained. */
  const gboolean is_any
      = rigging ? room->view->rigging_rows->len > 0 : room->view->forces.n_outline >= 3;
  gtk_widget_set_visible (room->figure, is_any);
  gtk_widget_set_visible (room->head, is_any);
  gtk_widget_set_visible (room->foot, is_any || !rigging);
  gtk_widget_queue_draw (room->figure);
}

/* ---- following ---- */

static void
forget (DeskForcesNow *room)
{
  room->is_found = FALSE;
  desk_found_clear (room->found);
  g_clear_pointer (&room->view, desk_force_view_free);
  g_clear_pointer (&room->forces, desk_forces_free);
  g_clear_pointer (&room->site, desk_site_unref);
}

static void
follow (DeskForcesNow *room)
{
  DeskSite *site = desk_session_get_site (room->session);
  const TrnLiftRun *lift_run = desk_session_get_lift_run (room->session);
  guint run = desk_session_get_run (room->session);
  DeskHoist hoists[DESK_MOST_HOISTS];
  guint n = lift_run != NULL ? desk_hoists_of (site->plan, lift_run, hoists) : 0;
  gtk_widget_set_visible (GTK_WIDGET (room), n > 0);
  if (n == 0 || site != room->site || run != room->run)
    forget (room);
  if (n == 0 || !desk_fold_is_open (room->expander))
    return;
  if (room->forces == NULL)
    {
      room->site = desk_site_ref (site);
      room->run = run;
      room->forces = desk_forces_new (site->scene, run);
    }
  const TrnLiftFindings *lift = desk_check_get_lift (desk_session_get_check (room->session), run);
  if (!room->is_found && lift != NULL)
    desk_gauges_find (lift->findings, hoists, n, room->found);
  room->is_found = lift != NULL;
  desk_force_view_free (room->view);
  room->view = desk_force_view_new (
      site->scene, run, room->forces, room->is_found ? room->found : NULL,
      desk_session_get_time (room->session), desk_session_get_sight (room->session));
  show_view (room);
}

/* What the checks find changes seldom, and is not looked for at every moment. */
static void
follow_findings (DeskForcesNow *room)
{
  room->is_found = FALSE;
  follow (room);
}

static void
follow_look (DeskForcesNow *room)
{
  desk_rooms_style (GTK_WIDGET (room), desk_session_get_dark (room->session));
  follow (room);
}

/* ---- building ---- */

static GtkWidget *
add_choice (DeskForcesNow *room, GtkWidget *box, TrnLoadsText text, GtkWidget *group)
{
  GtkWidget *button = gtk_toggle_button_new_with_label (trn_words_loads (text));
  if (group != NULL)
    gtk_toggle_button_set_group (GTK_TOGGLE_BUTTON (button), GTK_TOGGLE_BUTTON (group));
  gtk_widget_set_hexpand (button, TRUE);
  gtk_box_append (GTK_BOX (box), button);
  return button;
}

static GtkWidget *
add_text (GtkWidget *box)
{
  GtkWidget *label = gtk_label_new (NULL);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_width_chars (GTK_LABEL (label), 16);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 30);
  gtk_widget_add_css_class (label, "room-quiet");
  gtk_box_append (GTK_BOX (box), label);
  return label;
}

static GtkWidget *
build_card (DeskForcesNow *room)
{
  GtkWidget *card = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  gtk_widget_add_css_class (card, "room-card");
  GtkWidget *choice = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);
  gtk_widget_add_css_class (choice, "linked");
  room->of_forces = add_choice (room, choice, TRN_LOADS_FORCES, NULL);
  room->of_rigging = add_choice (room, choice, TRN_LOADS_RIGGING, room->of_forces);
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (room->of_forces), TRUE);
  gtk_box_append (GTK_BOX (card), choice);
  room->head = add_text (card);
  room->figure
      = g_object_new (GTK_TYPE_DRAWING_AREA, "accessible-role", GTK_ACCESSIBLE_ROLE_IMG, NULL);
  gtk_widget_set_size_request (room->figure, -1, FIGURE_HEIGHT_PX);
  gtk_drawing_area_set_draw_func (GTK_DRAWING_AREA (room->figure), draw, room, NULL);
  gtk_box_append (GTK_BOX (card), room->figure);
  room->note = add_text (card);
  room->force_grid = desk_numbers_new (TRUE);
  gtk_box_append (GTK_BOX (card), room->force_grid);
  room->rigging_grid = desk_numbers_new (TRUE);
  gtk_box_append (GTK_BOX (card), room->rigging_grid);
  room->foot = add_text (card);
  g_signal_connect_swapped (room->of_rigging, "toggled", G_CALLBACK (follow), room);
  return card;
}

static void
desk_forces_now_init (DeskForcesNow *room)
{
  room->expander = desk_fold_new (trn_words_loads (TRN_LOADS_NOW), build_card (room));
  g_signal_connect_swapped (room->expander, "notify::expanded", G_CALLBACK (follow), room);
  gtk_box_append (GTK_BOX (room), room->expander);
}

static void
desk_forces_now_dispose (GObject *object)
{
  DeskForcesNow *room = DESK_FORCES_NOW (object);
  forget (room);
  g_clear_object (&room->session);
  G_OBJECT_CLASS (desk_forces_now_parent_class)->dispose (object);
}

static void
desk_forces_now_class_init (DeskForcesNowClass *class)
{
  G_OBJECT_CLASS (class)->dispose = desk_forces_now_dispose;
}

GtkWidget *
desk_forces_now_new (DeskSession *session)
{
  static const char *const of_findings[] = { "site-changed", "findings-changed", NULL };
  static const char *const of_time[] = { "time-changed", NULL };
  static const char *const of_look[] = { "view-changed", NULL };
  DeskForcesNow *room = g_object_new (DESK_TYPE_FORCES_NOW, NULL);
  room->session = g_object_ref (session);
  desk_rooms_style (GTK_WIDGET (room), desk_session_get_dark (session));
  desk_fold_follow (room->expander, session, CHECKS);
  desk_follow (session, room, G_CALLBACK (follow_findings), of_findings);
  desk_follow (session, room, G_CALLBACK (follow), of_time);
  desk_follow (session, room, G_CALLBACK (follow_look), of_look);
  follow (room);
  return GTK_WIDGET (room);
}
