/* stage-bar.c: the buttons over the view: standard views, fit, section, measuring, structures.
 *
 * Where there is no room for the row of views it becomes a menu. */
#include "stage-private.h"

#include <string.h>

#include "view-words.h"
#include "visibility.h"

static const struct
{
  TrnStageText text;
  const char *action;
} views[] = {
  { TRN_STAGE_PLAN, "stage.view-plan" }, { TRN_STAGE_NORTH, "stage.view-north" },
  { TRN_STAGE_EAST, "stage.view-east" }, { TRN_STAGE_SOUTH, "stage.view-south" },
  { TRN_STAGE_WEST, "stage.view-west" }, { TRN_STAGE_SOLID, "stage.view-3d" },
};

/* Buttons over a picture have a ground and a border of their own; those in a panel do not. */
static const char style[]
    = ".stage-bar { margin: 10px; }"
      ".stage-bar button.stage-button, .stage-bar menubutton.stage-button > button {"
      "  background-color: @popover_bg_color; color: @popover_fg_color; font-weight: normal;"
      "  padding: 3px 10px; min-height: 24px; border: 1px solid alpha(currentColor, 0.14); }"
      ".stage-bar button.stage-button:hover, .stage-bar menubutton.stage-button > button:hover {"
      "  background-image: image(alpha(currentColor, 0.07)); }"
      ".stage-bar button.stage-button:active, .stage-bar button.stage-button:checked,"
      ".stage-bar menubutton.stage-button > button:checked {"
      "  background-image: image(alpha(currentColor, 0.16)); }"
      ".stage-hint { margin: 54px 12px 12px 12px; padding: 6px 12px; border-radius: 8px; }"
      ".stage-still { margin: 12px 12px 40px 12px; padding: 8px 12px; border-radius: 8px; }"
      ".stage-panel { padding: 6px; } .stage-panel button.flat { font-weight: normal; }";

static void
load_style (void)
{
  static gsize once;
  if (!g_once_init_enter (&once))
    return;
  g_autoptr (GtkCssProvider) provider = gtk_css_provider_new ();
  gtk_css_provider_load_from_data (provider, style, -1);
  gtk_style_context_add_provider_for_display (gdk_display_get_default (),
                                              GTK_STYLE_PROVIDER (provider),
                                              GTK_STYLE_PROVIDER_PRIORITY_APPLICATION);
  g_once_init_leave (&once, 1);
}

/* As the caption of the view says it: where one looks from. */
static const char *
full_name (guint view)
{
  return trn_words_view (views[view].action + strlen ("stage.view-"));
}

static GtkWidget *
views_row_new (void)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);
  gtk_widget_add_css_class (row, "linked");
  for (guint i = 0; i < G_N_ELEMENTS (views); i++)
    {
      GtkWidget *button = gtk_button_new_with_label (trn_words_stage (views[i].text));
      gtk_actionable_set_action_name (GTK_ACTIONABLE (button), views[i].action);
      gtk_widget_set_tooltip_text (button, full_name (i));
      gtk_widget_add_css_class (button, "stage-button");
      gtk_box_append (GTK_BOX (row), button);
    }
  return row;
}

static GtkWidget *
views_menu_new (void)
{
  g_autoptr (GMenu) menu = g_menu_new ();
  for (guint i = 0; i < G_N_ELEMENTS (views); i++)
    g_menu_append (menu, full_name (i), views[i].action);
  GtkWidget *button = gtk_menu_button_new ();
  gtk_menu_button_set_label (GTK_MENU_BUTTON (button), trn_words_stage (TRN_STAGE_VIEWS));
  gtk_menu_button_set_menu_model (GTK_MENU_BUTTON (button), G_MENU_MODEL (menu));
  gtk_widget_add_css_class (button, "stage-button");
  gtk_widget_set_halign (button, GTK_ALIGN_START);
  return button;
}

static GtkWidget *
views_new (void)
{
  GtkWidget *squeezer = adw_squeezer_new ();
  adw_squeezer_set_homogeneous (ADW_SQUEEZER (squeezer), FALSE);
  adw_squeezer_add (ADW_SQUEEZER (squeezer), views_row_new ());
  adw_squeezer_add (ADW_SQUEEZER (squeezer), views_menu_new ());
  gtk_widget_set_hexpand (squeezer, TRUE);
  gtk_widget_set_halign (squeezer, GTK_ALIGN_FILL);
  adw_squeezer_set_xalign (ADW_SQUEEZER (squeezer), 0);
  return squeezer;
}

/* A hint over a panel that is open would cover its first line. */
static void
on_panel (GtkPopover *popover, GParamSpec *spec, GtkWidget *button)
{
  gtk_widget_set_has_tooltip (button, !gtk_widget_get_visible (GTK_WIDGET (popover)));
}

/* What the keys of the view do goes on where the panel was left. */
static void
on_panel_closed (GtkPopover *popover, DeskStage *stage)
{
  gtk_widget_grab_focus (stage->area);
}

static GtkWidget *
panel_button_new (DeskStage *stage, TrnStageText text, TrnStageText hint, GtkWidget *content)
{
  GtkWidget *button = gtk_menu_button_new ();
  gtk_menu_button_set_label (GTK_MENU_BUTTON (button), trn_words_stage (text));
  gtk_widget_set_tooltip_text (button, trn_words_stage (hint));
  GtkWidget *popover = gtk_popover_new ();
  gtk_widget_add_css_class (content, "stage-panel");
  gtk_popover_set_child (GTK_POPOVER (popover), content);
  gtk_menu_button_set_popover (GTK_MENU_BUTTON (button), popover);
  g_signal_connect (popover, "notify::visible", G_CALLBACK (on_panel), button);
  g_signal_connect (popover, "closed", G_CALLBACK (on_panel_closed), stage);
  gtk_widget_add_css_class (button, "stage-button");
  return button;
}

GtkWidget *
desk_stage_bar_new (DeskStage *stage)
{
  load_style ();
  GtkWidget *bar = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  gtk_widget_add_css_class (bar, "stage-bar");
  gtk_widget_set_valign (bar, GTK_ALIGN_START);
  gtk_box_append (GTK_BOX (bar), views_new ());
  GtkWidget *fit = gtk_button_new_with_label (trn_words_stage (TRN_STAGE_FIT));
  gtk_actionable_set_action_name (GTK_ACTIONABLE (fit), "stage.fit");
  gtk_widget_set_tooltip_text (fit, trn_words_stage (TRN_STAGE_FIT_HINT));
  gtk_widget_add_css_class (fit, "stage-button");
  gtk_box_append (GTK_BOX (bar), fit);
  gtk_box_append (GTK_BOX (bar),
                  panel_button_new (stage, TRN_STAGE_SAVED_VIEWS, TRN_STAGE_SAVED_VIEWS_HINT,
                                    desk_stage_views_new (stage)));
  gtk_box_append (GTK_BOX (bar), panel_button_new (stage, TRN_STAGE_SECTION, TRN_STAGE_SECTION_HINT,
                                                   desk_stage_section_new (stage)));
  GtkWidget *measure = gtk_toggle_button_new_with_label (trn_words_stage (TRN_STAGE_MEASURE));
  gtk_actionable_set_action_name (GTK_ACTIONABLE (measure), "stage.measure");
  gtk_widget_set_tooltip_text (measure, trn_words_stage (TRN_STAGE_MEASURE_HINT));
  gtk_widget_add_css_class (measure, "stage-button");
  gtk_box_append (GTK_BOX (bar), measure);
  gtk_box_append (GTK_BOX (bar),
                  panel_button_new (stage, TRN_STAGE_STRUCTURES, TRN_STAGE_STRUCTURES_HINT,
                                    desk_visibility_new (stage->session)));
  return bar;
}
