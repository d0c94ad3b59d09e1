/* window.c: which page is shown, what stands in the head of the window, and the tick that lets time
 * run while playing. The rooms follow the session by themselves. */
#include "window.h"

#include "actions.h"
#include "desk-words.h"
#include "fault-page.h"
#include "file-dialog.h"
#include "finding-card.h"
#include "findings-table.h"
#include "headline.h"
#include "matrix.h"
#include "loop-watch.h"
#include "forces-now.h"
#include "gear-now.h"
#include "nearest.h"
#include "recent.h"
#include "resources.h"
#include "room-layout.h"
#include "room-parts.h"
#include "room-turns.h"
#include "sequence.h"
#include "settings.h"
#include "stage.h"
#include "start-page.h"
#include "strip-lines.h"
#include "strip.h"
#include "transport.h"
#include "window-private.h"
#include "window-words.h"
#include "work-line.h"

/* Triangles of one body that are drawn where the processor has to draw them. Checks use all. */
#define MOST_TRIANGLES_BY_SOFTWARE 60000

#define PLAN_MIME_TYPE "application/vnd.trunnion.plan+json"

G_DEFINE_FINAL_TYPE (DeskWindow, desk_window, ADW_TYPE_APPLICATION_WINDOW)

/* ---- head ---- */

static void
update_title (DeskWindow *window)
{
  DeskDocument *document = desk_session_get_document (window->session);
  DeskSite *site = desk_session_get_site (window->session);
  const char *title = desk_document_get_title (document);
  /* Of what is shown, and not of what is read meanwhile: the verdict below belongs to it. */
  if (site != NULL && desk_document_get_state (document) == DESK_DOCUMENT_LOADING)
    title = *site->plan->title != '\0' ? site->plan->title : site->plan->base_name;
  g_autofree char *clean = trn_words_clean (title, 0);
  adw_window_title_set_title (window->window_title, *clean != '\0' ? clean : "Trunnion");
  gtk_window_set_title (GTK_WINDOW (window), *clean != '\0' ? clean : "Trunnion");
}

static void
update_headline (DeskWindow *window)
{
  DeskSite *site = desk_session_get_site (window->session);
  const TrnFindings *findings = desk_check_get_findings (desk_session_get_check (window->session));
  if (site == NULL)
    {
      gtk_label_set_label (window->headline_label, "");
      return;
    }
  TrnHeadline state = desk_headline_state (window->session);
  g_autofree char *line = trn_words_headline_short (findings, state, site->scene->programme->n_runs,
                                                    desk_session_get_tight (window->session));
  gtk_label_set_label (window->headline_label, line);
  desk_mark_set (window->headline_mark, desk_headline_mark (window->session, state),
                 desk_session_get_dark (window->session));
  g_autofree char *all = state == TRN_HEADLINE_DONE && findings != NULL
                             ? trn_words_headline (findings)
                             : g_strdup (line);
  desk_hint_set (GTK_WIDGET (window->headline_label), all);
}

static void
update_check_button (DeskWindow *window)
{
  gboolean is_running
      = desk_check_get_state (desk_session_get_check (window->session)) == DESK_CHECK_RUNNING;
  gtk_button_set_label (window->check_button,
                        trn_words_window (is_running ? TRN_WINDOW_STOP_CHECK : TRN_WINDOW_CHECK));
  gtk_actionable_set_action_name (GTK_ACTIONABLE (window->check_button),
                                  is_running ? "win.cancel-check" : "win.check");
}

static void
update_remarks_button (DeskWindow *window)
{
  const TrnDiags *diags = desk_document_get_diags (desk_session_get_document (window->session));
  guint n = diags->items->len;
  g_autofree char *label = trn_words_remarks (n);
  gtk_button_set_label (window->remarks_button, label);
  gtk_widget_set_visible (GTK_WIDGET (window->remarks_button),
                          n > 0 && desk_site_is_whole (desk_session_get_site (window->session)));
}

/* Stays as long as such a site is looked at. */
static void
update_left_out_bar (DeskWindow *window)
{
  DeskSite *site = desk_session_get_site (window->session);
  guint n = site != NULL ? site->scene->n_left_out : 0;
  g_autofree char *text = trn_words_left_out (n);
  if (n > 0)
    gtk_label_set_label (window->left_out_label, text);
  gtk_revealer_set_reveal_child (window->left_out_bar, n > 0 && !window->shows_remarks);
}

/* The thin bar over the rooms: a plan that is read while another is shown, or the check. */
static void
update_work_bar (DeskWindow *window)
{
  DeskCheck *check = desk_session_get_check (window->session);
  gboolean is_checking = desk_check_get_state (check) == DESK_CHECK_RUNNING;
  gboolean is_reading = desk_document_get_state (desk_session_get_document (window->session))
                        == DESK_DOCUMENT_LOADING;
  gboolean is_shown = desk_session_get_site (window->session) != NULL && !window->shows_remarks;
  gtk_widget_set_visible (GTK_WIDGET (window->work_bar), is_shown && (is_checking || is_reading));
  if (is_checking && !is_reading)
    desk_work_line_set (window->work_bar, desk_check_get_fraction (check));
}

static const char *page_of_state (DeskWindow *window);

static void
update_changed_bar (DeskWindow *window)
{
  DeskDocument *document = desk_session_get_document (window->session);
  gboolean is_changed = desk_document_is_changed_on_disk (document)
                        && desk_document_get_state (document) != DESK_DOCUMENT_LOADING;
  const char *gone = desk_document_get_gone_file (document);
  g_autofree char *text = gone != NULL ? trn_words_gone (gone)
                                       : g_strdup (trn_words_window (TRN_WINDOW_CHANGED_ON_DISK));
  gtk_label_set_label (window->changed_label, text);
  /* The page of faults has that button itself. */
  gtk_revealer_set_reveal_child (window->changed_bar,
                                 is_changed && g_strcmp0 (page_of_state (window), "faults") != 0);
}

/* ---- pages ---- */

static const char *
page_of_state (DeskWindow *window)
{
  switch (desk_document_get_state (desk_session_get_document (window->session)))
    {
    case DESK_DOCUMENT_EMPTY:
      return "start";
    case DESK_DOCUMENT_LOADING:
      /* What was open stays. */
      return desk_session_get_site (window->session) != NULL ? "plan" : "loading";
    case DESK_DOCUMENT_READY:
      return window->shows_remarks ? "faults" : "plan";
    case DESK_DOCUMENT_FAULTY:
      return window->shows_remarks || desk_session_get_site (window->session) == NULL ? "faults"
                                                                                      : "plan";
    }
  g_assert_not_reached ();
}

/* Where the keys go when a page comes up. */
static void
focus_page (DeskWindow *window, const char *page)
{
  GtkWidget *target = strcmp (page, "loading") == 0 ? window->stop_button
                      : strcmp (page, "plan") == 0  ? adw_bin_get_child (window->stage_place)
                                                    : gtk_stack_get_visible_child (window->pages);
  if (target == NULL || !gtk_widget_child_focus (target, GTK_DIR_TAB_FORWARD))
    gtk_widget_grab_focus (target != NULL ? target : window->open_button);
}

/* The view comes first, then what stands round it. */
static void
show_rooms_in_turn (DeskWindow *window)
{
  GtkWidget *const rooms[] = { adw_bin_get_child (window->transport_place),
                               adw_bin_get_child (window->strip_place),
                               desk_stage_get_bar (adw_bin_get_child (window->stage_place)),
                               adw_bin_get_child (window->sequence_place),
                               GTK_WIDGET (window->caution_label),
                               GTK_WIDGET (window->nearest_place),
                               GTK_WIDGET (window->gear_place),
                               GTK_WIDGET (window->forces_place),
                               GTK_WIDGET (window->finding_place) };
  /* What is over the strip keeps its room, so that the view keeps its size. */
  int height_px;
  gtk_widget_measure (rooms[0], GTK_ORIENTATION_VERTICAL, -1, NULL, &height_px, NULL, NULL);
  gtk_widget_set_size_request (GTK_WIDGET (window->transport_place), -1, height_px);
  desk_rooms_show_in_turn (GTK_WIDGET (window->nearest_flap), rooms, G_N_ELEMENTS (rooms));
}

static void
update_page (DeskWindow *window)
{
  const char *page = page_of_state (window);
  gboolean is_plan = strcmp (page, "plan") == 0;
  gboolean is_other = g_strcmp0 (gtk_stack_get_visible_child_name (window->pages), page) != 0;
  if (is_plan && is_other)
    show_rooms_in_turn (window);
  desk_page_show (window->pages, page);
  gtk_widget_set_visible (window->plan_bar, is_plan);
  gtk_widget_set_visible (window->plan_buttons, is_plan);
  desk_window_sides_changed (window);
  if (is_other)
    focus_page (window, page);
}

static void
update_all (DeskWindow *window)
{
  update_title (window);
  update_headline (window);
  update_page (window);
  update_check_button (window);
  update_remarks_button (window);
  update_left_out_bar (window);
  update_work_bar (window);
  update_changed_bar (window);
  desk_actions_update (window);
}

/* GTK reads the whole list before it writes it: one that is too long is left alone. */
static void
remember_recent (DeskWindow *window)
{
  g_autofree char *list = desk_recent_path_dup ();
  if (!desk_recent_is_fit (list))
    return;
  GFile *file = desk_document_get_file (desk_session_get_document (window->session));
  g_autofree char *uri = g_file_get_uri (file);
  char *groups[] = { NULL };
  GtkRecentData data = { .mime_type = (char *)PLAN_MIME_TYPE,
                         .app_name = (char *)"Trunnion",
                         .app_exec = (char *)"trunnion-desk %f",
                         .groups = groups };
  gtk_recent_manager_add_full (gtk_recent_manager_get_default (), uri, &data);
}

/* Measures one part of what is shown with a plan that was not shown yet, with the words that it
 * will have; FALSE when none is left. */
static gboolean
measure_ahead (DeskWindow *window)
{
  GtkWidget *const parts[]
      = { GTK_WIDGET (window->sequence_place),  GTK_WIDGET (window->nearest_place),
          GTK_WIDGET (window->transport_place), GTK_WIDGET (window->finding_place),
          GTK_WIDGET (window->stage_place),     GTK_WIDGET (window->strip_place),
          GTK_WIDGET (window->plan_buttons),    GTK_WIDGET (window->plan_bar) };
  gboolean is_due = strcmp (page_of_state (window), "plan") == 0
                    && !gtk_widget_get_mapped (GTK_WIDGET (window->stage_place));
  if (!is_due || window->n_measured == G_N_ELEMENTS (parts))
    return FALSE;
  GtkWidget *part = parts[window->n_measured++];
  if (part == GTK_WIDGET (window->plan_bar))
    {
      update_headline (window);
      update_check_button (window);
    }
  int width_px;
  gtk_widget_measure (part, GTK_ORIENTATION_HORIZONTAL, -1, NULL, &width_px, NULL, NULL);
  gtk_widget_measure (part, GTK_ORIENTATION_VERTICAL, width_px, NULL, NULL, NULL, NULL);
  return TRUE;
}

static gboolean
on_update (gpointer data)
{
  DeskWindow *window = data;
  /* Rooms that were never seen take their time to be measured: one in a turn. */
  if (measure_ahead (window))
    return G_SOURCE_CONTINUE;
  window->n_measured = 0;
  window->update_id = 0;
  update_all (window);
  return G_SOURCE_REMOVE;
}

static void
on_document_changed (DeskWindow *window)
{
  DeskDocument *document = desk_session_get_document (window->session);
  if (desk_document_get_state (document) == DESK_DOCUMENT_LOADING)
    {
      window->shows_remarks = FALSE;
      g_autofree char *text = trn_words_reading_plan (desk_document_get_title (document));
      gtk_label_set_label (window->loading_label, text);
      desk_work_line_set (window->loading_bar, 0);
      desk_work_line_set (window->work_bar, 0);
    }
  if (desk_document_get_state (document) == DESK_DOCUMENT_READY)
    remember_recent (window);
  /* The rooms have just been filled in this turn of the main loop; showing them is work enough for
   * the next one. */
  if (window->update_id == 0)
    window->update_id = g_idle_add_full (G_PRIORITY_DEFAULT, on_update, window, NULL);
}

static void
on_progress (DeskWindow *window, double fraction)
{
  desk_work_line_set (window->loading_bar, fraction);
  desk_work_line_set (window->work_bar, fraction);
}

static void
on_check_changed (DeskWindow *window)
{
  update_work_bar (window);
}

/* When all is checked, the worst is what one looks at first. */
static void
on_findings_changed (DeskWindow *window)
{
  DeskCheck *check = desk_session_get_check (window->session);
  update_headline (window);
  update_check_button (window);
  update_work_bar (window);
  update_changed_bar (window);
  desk_actions_update (window);
  if (desk_check_get_state (check) == DESK_CHECK_DONE
      && desk_session_get_finding (window->session) == NULL)
    desk_session_offer_finding (window->session,
                                desk_session_worst (window->session, DESK_ALL_LIFTS, -1, NULL));
}

static void
do_hide_changed_bar (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  DeskWindow *window = data;
  gtk_revealer_set_reveal_child (window->changed_bar, FALSE);
}

/* ---- playing ---- */

static gboolean
on_tick (GtkWidget *widget, GdkFrameClock *clock, gpointer data)
{
  DeskWindow *window = DESK_WINDOW (widget);
  gint64 now_us = gdk_frame_clock_get_frame_time (clock);
  double elapsed_s = (double)(now_us - window->last_frame_us) / 1e6;
  window->last_frame_us = now_us;
  desk_session_advance (window->session, elapsed_s);
  return G_SOURCE_CONTINUE;
}

static void
on_playing_changed (DeskWindow *window)
{
  gboolean playing = desk_session_get_playing (window->session);
  if (playing == (window->tick_id != 0))
    return;
  if (!playing)
    {
      gtk_widget_remove_tick_callback (GTK_WIDGET (window), window->tick_id);
      window->tick_id = 0;
      return;
    }
  window->last_frame_us = g_get_monotonic_time ();
  window->tick_id = gtk_widget_add_tick_callback (GTK_WIDGET (window), on_tick, NULL, NULL);
}

/* ---- what others call ---- */

/* Without a graphics processor the display meshes are made coarser. The driver is not asked: it is
 * not there yet when the first plan is read. */
static guint32
most_triangles (void)
{
  const char *forced = g_getenv ("LIBGL_ALWAYS_SOFTWARE");
  gboolean is_software = (forced != NULL && *forced != '\0' && strcmp (forced, "0") != 0
                          && g_ascii_strcasecmp (forced, "false") != 0)
                         || !g_file_test ("/dev/dri", G_FILE_TEST_IS_DIR);
  return is_software ? MOST_TRIANGLES_BY_SOFTWARE : 0;
}

void
desk_window_open (DeskWindow *window, GFile *file)
{
  g_return_if_fail (DESK_IS_WINDOW (window) && G_IS_FILE (file));
  desk_document_open (desk_session_get_document (window->session), file, most_triangles ());
}

DeskSession *
desk_window_get_session (DeskWindow *window)
{
  g_return_val_if_fail (DESK_IS_WINDOW (window), NULL);
  return window->session;
}

GtkWidget *
desk_window_get_stage (DeskWindow *window)
{
  g_return_val_if_fail (DESK_IS_WINDOW (window), NULL);
  return adw_bin_get_child (window->stage_place);
}

const char *
desk_window_get_page (DeskWindow *window)
{
  g_return_val_if_fail (DESK_IS_WINDOW (window), NULL);
  return gtk_stack_get_visible_child_name (window->pages);
}

const char *
desk_window_get_headline (DeskWindow *window)
{
  g_return_val_if_fail (DESK_IS_WINDOW (window), NULL);
  return gtk_label_get_label (window->headline_label);
}

void
desk_window_show_remarks (DeskWindow *window, gboolean show)
{
  g_return_if_fail (DESK_IS_WINDOW (window));
  window->shows_remarks = show;
  update_page (window);
  update_left_out_bar (window);
  update_changed_bar (window);
  update_work_bar (window);
}

void
desk_window_show_room (DeskWindow *window, const char *room)
{
  g_return_if_fail (DESK_IS_WINDOW (window));
  if (gtk_stack_get_child_by_name (window->rooms, room) == NULL)
    return;
  gtk_stack_set_visible_child_name (window->rooms, room);
  if (strcmp (room, "matrix") == 0)
    gtk_widget_grab_focus (adw_bin_get_child (window->matrix_place));
}

const char *
desk_window_get_room (DeskWindow *window)
{
  g_return_val_if_fail (DESK_IS_WINDOW (window), NULL);
  return gtk_stack_get_visible_child_name (window->rooms);
}

void
desk_window_tell (DeskWindow *window, const char *text)
{
  g_return_if_fail (DESK_IS_WINDOW (window));
  adw_toast_overlay_add_toast (window->toasts, adw_toast_new (text));
}

char *
desk_window_faults_text_dup (DeskWindow *window)
{
  g_return_val_if_fail (DESK_IS_WINDOW (window), NULL);
  return desk_fault_page_text_dup (DESK_FAULT_PAGE (window->fault_page));
}

/* ---- making ---- */

static void
add_pages (DeskWindow *window)
{
  gtk_stack_add_named (window->pages, desk_start_page_new (), "start");
  window->fault_page = desk_fault_page_new (window->session);
  gtk_stack_add_named (window->pages, window->fault_page, "faults");
}

static void
add_rooms (DeskWindow *window)
{
  DeskSession *session = window->session;
  GtkWidget *stage = desk_stage_new (session);
  gtk_widget_set_layout_manager (GTK_WIDGET (window->sequence_place),
                                 desk_room_layout_new (DESK_SIDE_PX, 0));
  gtk_widget_set_layout_manager (GTK_WIDGET (window->nearest_side),
                                 desk_room_layout_new (DESK_SIDE_PX, 0));
  /* What scrolls asks how high it is at no width at all. */
  gtk_widget_set_layout_manager (GTK_WIDGET (window->finding_place),
                                 desk_room_layout_new (DESK_SIDE_PX, 0));
  desk_work_line_set_up (window->work_bar);
  desk_work_line_set_up (window->loading_bar);
  window->headline_mark = desk_mark_new ();
  adw_bin_set_child (window->headline_mark_place, window->headline_mark);
  adw_bin_set_child (window->stage_place, stage);
  adw_bin_set_child (window->sequence_place, desk_sequence_new (session));
  adw_bin_set_child (window->transport_place, desk_transport_new (session));
  adw_bin_set_child (window->strip_place, desk_strip_room_new (session));
  adw_bin_set_child (window->findings_place, desk_findings_table_new (session));
  adw_bin_set_child (window->matrix_place, desk_matrix_new (session));
  adw_bin_set_child (window->nearest_place, desk_nearest_new (session));
  adw_bin_set_child (window->gear_place, desk_gear_now_new (session));
  adw_bin_set_child (window->forces_place, desk_forces_now_new (session));
  adw_bin_set_child (window->finding_place, desk_finding_card_new (session));
  desk_stage_add_actions (stage, G_ACTION_MAP (window));
  desk_room_show_when_seen (GTK_WIDGET (window->findings_place));
  desk_room_show_when_seen (GTK_WIDGET (window->matrix_place));
  gtk_label_set_label (window->caution_label, trn_words_desk (TRN_DESK_PLANNING_AID));
  gtk_widget_set_tooltip_text (GTK_WIDGET (window->caution_label), trn_words_caution ());
}

static void
update_dark (DeskWindow *window)
{
  AdwStyleManager *style = adw_style_manager_get_default ();
  desk_session_set_dark (window->session, adw_style_manager_get_dark (style));
}

static void
follow_settings (DeskWindow *window)
{
  desk_session_set_tight (window->session, desk_settings_get_tight (desk_settings_get ()));
  desk_strip_lines_follow (G_ACTION_MAP (window), window->session);
}

/* Also when nothing that the session keeps is another: the units are kept elsewhere. */
static void
on_settings_changed (DeskWindow *window)
{
  follow_settings (window);
  desk_session_tell_view_changed (window->session);
}

static void
follow (DeskWindow *window)
{
  DeskDocument *document = desk_session_get_document (window->session);
  g_signal_connect_object (document, "changed", G_CALLBACK (on_document_changed), window,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (document, "progress", G_CALLBACK (on_progress), window,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (desk_session_get_check (window->session), "changed",
                           G_CALLBACK (on_check_changed), window, G_CONNECT_SWAPPED);
  g_signal_connect_object (window->session, "findings-changed", G_CALLBACK (on_findings_changed),
                           window, G_CONNECT_SWAPPED);
  g_signal_connect_object (window->session, "view-changed", G_CALLBACK (update_headline), window,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (window->session, "playing-changed", G_CALLBACK (on_playing_changed),
                           window, G_CONNECT_SWAPPED);
  g_signal_connect_object (desk_settings_get (), "changed", G_CALLBACK (on_settings_changed),
                           window, G_CONNECT_SWAPPED);
  follow_settings (window);
  g_signal_connect_object (adw_style_manager_get_default (), "notify::dark",
                           G_CALLBACK (update_dark), window, G_CONNECT_SWAPPED);
}

static void
desk_window_realize (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (desk_window_parent_class)->realize (widget);
  desk_loop_watch_frames (widget, DESK_WINDOW (widget)->session);
}

static void
desk_window_dispose (GObject *object)
{
  DeskWindow *window = DESK_WINDOW (object);
  if (window->tick_id != 0)
    gtk_widget_remove_tick_callback (GTK_WIDGET (window), window->tick_id);
  window->tick_id = 0;
  g_clear_handle_id (&window->update_id, g_source_remove);
  g_clear_handle_id (&window->sides_id, g_source_remove);
  gtk_widget_dispose_template (GTK_WIDGET (window), DESK_TYPE_WINDOW);
  G_OBJECT_CLASS (desk_window_parent_class)->dispose (object);
}

static void
desk_window_finalize (GObject *object)
{
  g_clear_object (&DESK_WINDOW (object)->session);
  G_OBJECT_CLASS (desk_window_parent_class)->finalize (object);
}

#define BIND(name) gtk_widget_class_bind_template_child (widget_class, DeskWindow, name)

/* In larger letters the rooms at the sides need more room. */
static void
desk_window_css_changed (GtkWidget *widget, GtkCssStyleChange *change)
{
  GTK_WIDGET_CLASS (desk_window_parent_class)->css_changed (widget, change);
  if (!gtk_widget_in_destruction (widget))
    desk_window_sides_changed (DESK_WINDOW (widget));
}

static void
desk_window_class_init (DeskWindowClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);
  G_OBJECT_CLASS (class)->dispose = desk_window_dispose;
  G_OBJECT_CLASS (class)->finalize = desk_window_finalize;
  widget_class->realize = desk_window_realize;
  widget_class->css_changed = desk_window_css_changed;
  gtk_widget_class_set_template_from_resource (widget_class, DESK_RESOURCES "/window.ui");
  BIND (window_title);
  BIND (toasts);
  BIND (changed_bar);
  BIND (left_out_bar);
  BIND (left_out_label);
  BIND (faults_button);
  BIND (changed_label);
  BIND (loading_label);
  BIND (caution_label);
  BIND (work_bar);
  BIND (loading_bar);
  BIND (pages);
  BIND (rooms);
  BIND (plan_bar);
  BIND (headline_label);
  BIND (headline_mark_place);
  BIND (plan_buttons);
  BIND (open_button);
  BIND (stop_button);
  BIND (check_button);
  BIND (remarks_button);
  BIND (sequence_flap);
  BIND (nearest_flap);
  BIND (side_buttons);
  BIND (sequence_side);
  BIND (sequence_button);
  BIND (nearest_button);
  BIND (view_paned);
  BIND (sequence_place);
  BIND (stage_place);
  BIND (transport_place);
  BIND (strip_place);
  BIND (findings_place);
  BIND (matrix_place);
  BIND (nearest_side);
  BIND (nearest_place);
  BIND (gear_place);
  BIND (forces_place);
  BIND (finding_place);
  desk_window_sides_bind (widget_class);
}

static void
desk_window_init (DeskWindow *window)
{
  static const GActionEntry own[]
      = { { .name = "hide-changed-bar", .activate = do_hide_changed_bar } };
  window->session = desk_session_new ();
  gtk_widget_init_template (GTK_WIDGET (window));
  gtk_button_set_label (window->faults_button, trn_words_window (TRN_WINDOW_FAULTS));
  desk_actions_add (window);
  desk_strip_lines_add_actions (G_ACTION_MAP (window));
  g_action_map_add_action_entries (G_ACTION_MAP (window), own, G_N_ELEMENTS (own), window);
  desk_window_sides_add_actions (window);
  desk_actions_add_plain_keys (GTK_WIDGET (window));
  desk_file_drop_add (window);
  add_pages (window);
  add_rooms (window);
  follow (window);
  update_dark (window);
  update_all (window);
}

DeskWindow *
desk_window_new (GtkApplication *application)
{
  return g_object_new (DESK_TYPE_WINDOW, "application", application, NULL);
}
