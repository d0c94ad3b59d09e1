/* start-page.c: the list of plans last opened is the desktop's; demos are those that are installed.
 */
#include "start-page.h"

#include "demos.h"
#include "recent.h"
#include "resources.h"
#include "window-words.h"
#include "words.h"

#define MOST_RECENT 5

struct _DeskStartPage
{
  AdwBin parent;
  GtkButton *open_button;
  GtkBox *recent_box, *demo_box;
  GtkListBox *recent_list;
  GtkFlowBox *demo_cards;
};

G_DEFINE_FINAL_TYPE (DeskStartPage, desk_start_page, ADW_TYPE_BIN)

/* ---- plans last opened ---- */

static GtkWidget *
make_recent_row (const DeskRecent *recent)
{
  GtkWidget *row = adw_action_row_new ();
  adw_preferences_row_set_use_markup (ADW_PREFERENCES_ROW (row), FALSE);
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), recent->name);
  adw_action_row_set_subtitle (ADW_ACTION_ROW (row), recent->place);
  adw_action_row_set_title_lines (ADW_ACTION_ROW (row), 1);
  adw_action_row_set_subtitle_lines (ADW_ACTION_ROW (row), 1);
  gtk_list_box_row_set_activatable (GTK_LIST_BOX_ROW (row), TRUE);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (row), "win.open-uri");
  gtk_actionable_set_action_target (GTK_ACTIONABLE (row), "s", recent->uri);
  return row;
}

static void
update_recent (DeskStartPage *page)
{
  GtkWidget *row;
  while ((row = gtk_widget_get_first_child (GTK_WIDGET (page->recent_list))) != NULL)
    gtk_list_box_remove (page->recent_list, row);
  g_autofree char *path = desk_recent_path_dup ();
  g_autoptr (GPtrArray) recent = desk_recent_read (path, MOST_RECENT);
  for (guint i = 0; i < recent->len; i++)
    gtk_list_box_append (page->recent_list, make_recent_row (recent->pdata[i]));
  gtk_widget_set_visible (GTK_WIDGET (page->recent_box), recent->len > 0);
}

/* GTK writes the list a quarter of a second after a plan was opened; other programs at any time. */
static void
on_list_changed (DeskStartPage *page)
{
  if (gtk_widget_get_mapped (GTK_WIDGET (page)))
    update_recent (page);
}

/* GTK reads the whole list to follow it: one that is too long it is not asked for. */
static void
follow_list (DeskStartPage *page)
{
  g_autofree char *path = desk_recent_path_dup ();
  if (desk_recent_is_fit (path))
    g_signal_connect_object (gtk_recent_manager_get_default (), "changed",
                             G_CALLBACK (on_list_changed), page, G_CONNECT_SWAPPED);
}

/* ---- demos ---- */

static GtkWidget *
make_line (const char *text, const char *class)
{
  GtkWidget *label = gtk_label_new (text);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_width_chars (GTK_LABEL (label), 22);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 30);
  gtk_widget_add_css_class (label, class);
  return label;
}

static GtkWidget *
make_demo_card (const char *name)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  gtk_widget_set_valign (box, GTK_ALIGN_START);
  gtk_box_append (GTK_BOX (box), make_line (trn_words_demo_title (name), "heading"));
  gtk_box_append (GTK_BOX (box), make_line (trn_words_demo_text (name), "dim-label"));
  GtkWidget *button = gtk_button_new ();
  gtk_button_set_child (GTK_BUTTON (button), box);
  gtk_widget_add_css_class (button, "card");
  gtk_widget_add_css_class (button, "desk-demo");
  gtk_widget_set_name (button, name);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  trn_words_demo_title (name), -1);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), "win.open-demo");
  gtk_actionable_set_action_target (GTK_ACTIONABLE (button), "s", name);
  return button;
}

static void
add_demos (DeskStartPage *page)
{
  gboolean any = FALSE;
  for (const char *const *name = desk_demos_names (); *name != NULL; name++)
    {
      g_autoptr (GFile) file = desk_demos_find (*name);
      if (file == NULL)
        continue;
      gtk_flow_box_insert (page->demo_cards, make_demo_card (*name), -1);
      /* The card is what is reached by the keyboard, not the cell round it. */
      gtk_widget_set_focusable (gtk_widget_get_last_child (GTK_WIDGET (page->demo_cards)), FALSE);
      any = TRUE;
    }
  gtk_widget_set_visible (GTK_WIDGET (page->demo_box), any);
}

/* ---- widget ---- */

static gboolean
desk_start_page_grab_focus (GtkWidget *widget)
{
  return gtk_widget_grab_focus (GTK_WIDGET (DESK_START_PAGE (widget)->open_button));
}

static void
desk_start_page_map (GtkWidget *widget)
{
  update_recent (DESK_START_PAGE (widget));
  GTK_WIDGET_CLASS (desk_start_page_parent_class)->map (widget);
}

static void
desk_start_page_dispose (GObject *object)
{
  gtk_widget_dispose_template (GTK_WIDGET (object), DESK_TYPE_START_PAGE);
  G_OBJECT_CLASS (desk_start_page_parent_class)->dispose (object);
}

static void
desk_start_page_class_init (DeskStartPageClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);
  G_OBJECT_CLASS (class)->dispose = desk_start_page_dispose;
  widget_class->map = desk_start_page_map;
  widget_class->grab_focus = desk_start_page_grab_focus;
  gtk_widget_class_set_template_from_resource (widget_class, DESK_RESOURCES "/start-page.ui");
  gtk_widget_class_bind_template_child (widget_class, DeskStartPage, open_button);
  gtk_widget_class_bind_template_child (widget_class, DeskStartPage, recent_box);
  gtk_widget_class_bind_template_child (widget_class, DeskStartPage, recent_list);
  gtk_widget_class_bind_template_child (widget_class, DeskStartPage, demo_box);
  gtk_widget_class_bind_template_child (widget_class, DeskStartPage, demo_cards);
}

static void
desk_start_page_init (DeskStartPage *page)
{
  gtk_widget_init_template (GTK_WIDGET (page));
  add_demos (page);
  follow_list (page);
}

GtkWidget *
desk_start_page_new (void)
{
  return g_object_new (DESK_TYPE_START_PAGE, NULL);
}
