/* stage-section.c: the panel of the section plane: which way it lies, and where, typed or dragged.
 *
 * Slider and number share one adjustment, in the units of the screen. */
#include "stage-private.h"

#define LEAST_SHARE 1e-9            /* of a unit vector along an axis */
#define FEET_IN_M 3.280839895013123 /* 1 / 0.3048, exact by definition */

static double
units_per_m (void)
{
  return trn_words_get_units ().lengths == TRN_LENGTHS_FEET ? FEET_IN_M : 1;
}

static gboolean
has_bearings (void)
{
  return trn_words_get_units ().headings == TRN_HEADINGS_BEARINGS;
}

/* Through the middle of the load, and what is on the side of the eye cut away: one looks into what
 * the load is in. */
static void
begin_plane (DeskStage *stage)
{
  if (stage->has_plane || desk_session_get_lift_run (stage->session) == NULL)
    return;
  const DeskProbe *probe = desk_stage_probe (stage);
  const DeskProbeBody *load = &probe->bodies[0];
  TrnVec3 middle = trn_pose_apply (&load->site_from_body, trn_box_centre (&load->body->mesh->box));
  TrnVec3 to_eye = trn_vec3_sub (render_camera_eye (&stage->camera), middle);
  gboolean along_x = fabs (to_eye.y) >= fabs (to_eye.x);
  stage->plane.kind = along_x ? DESK_SECTION_EAST_WEST : DESK_SECTION_NORTH_SOUTH;
  stage->plane.at_m = along_x ? middle.y : middle.x;
  stage->plane.flipped = along_x ? to_eye.y > 0 : to_eye.x < 0;
  stage->has_plane = TRUE;
}

static void
apply (DeskStage *stage, gboolean on)
{
  stage->moving = TRUE;
  desk_session_set_section (stage->session, desk_section_make (&stage->plane, on));
  desk_stage_redraw_moving (stage, TRUE);
}

void
desk_stage_toggle_section (DeskStage *stage)
{
  begin_plane (stage);
  apply (stage, !desk_session_get_section (stage->session).on && stage->has_plane);
}

/* ---- keys ---- */

/* Another direction: through the middle of it all. */
static void
place_in_middle (DeskStage *stage)
{
  TrnBox extent = desk_stage_extent (stage);
  double lo_m, hi_m;
  if (trn_box_is_empty (&extent))
    return;
  desk_section_range (&stage->plane, &extent, &lo_m, &hi_m);
  stage->plane.at_m = (lo_m + hi_m) / 2;
}

void
desk_stage_next_section (DeskStage *stage)
{
  begin_plane (stage);
  if (!stage->has_plane)
    return;
  stage->plane.kind = (stage->plane.kind + 1) % DESK_SECTION_N_KINDS;
  place_in_middle (stage);
  apply (stage, TRUE);
}

void
desk_stage_move_section (DeskStage *stage, double by_m)
{
  begin_plane (stage);
  TrnBox extent = desk_stage_extent (stage);
  if (!stage->has_plane || trn_box_is_empty (&extent))
    return;
  double lo_m, hi_m;
  desk_section_range (&stage->plane, &extent, &lo_m, &hi_m);
  lo_m = MIN (lo_m, stage->plane.at_m);
  hi_m = MAX (hi_m, stage->plane.at_m);
  /* On is up, north or east, also where the axis of a heading points the other way. */
  TrnVec3 axis = desk_section_axis (&stage->plane);
  gboolean is_level = fabs (axis.y) < LEAST_SHARE;
  if (axis.z < LEAST_SHARE && (is_level ? axis.x < 0 : axis.y < 0))
    by_m = -by_m;
  stage->plane.at_m = CLAMP (stage->plane.at_m + by_m, lo_m, hi_m);
  apply (stage, TRUE);
}

void
desk_stage_turn_section_over (DeskStage *stage)
{
  begin_plane (stage);
  if (!stage->has_plane)
    return;
  stage->plane.flipped = !stage->plane.flipped;
  apply (stage, TRUE);
}

/* ---- the panel ---- */

typedef struct
{
  DeskStage *stage;
  GtkAdjustment *at, *heading;
  GtkWidget *kind, *at_label, *unit, *spin, *scale, *flip;
  GtkWidget *heading_row;
  gboolean following;
} Panel;

static void
follow (Panel *panel)
{
  DeskStage *stage = panel->stage;
  begin_plane (stage);
  panel->following = TRUE;
  TrnBox extent = desk_stage_extent (stage);
  double lo_m = 0, hi_m = 1, per_m = units_per_m ();
  if (!trn_box_is_empty (&extent))
    desk_section_range (&stage->plane, &extent, &lo_m, &hi_m);
  lo_m = MIN (lo_m, stage->plane.at_m);
  hi_m = MAX (hi_m, stage->plane.at_m);
  gtk_adjustment_configure (panel->at, stage->plane.at_m * per_m, lo_m * per_m, hi_m * per_m, 0.1,
                            1, 0);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (panel->kind), stage->plane.kind);
  gtk_check_button_set_active (GTK_CHECK_BUTTON (panel->flip), stage->plane.flipped);
  static const TrnStageText labels[] = { TRN_STAGE_SECTION_AT_LEVEL, TRN_STAGE_SECTION_AT_Y,
                                         TRN_STAGE_SECTION_AT_X, TRN_STAGE_SECTION_AT_HEADING };
  gtk_label_set_text (GTK_LABEL (panel->at_label), trn_words_stage (labels[stage->plane.kind]));
  gtk_label_set_text (GTK_LABEL (panel->unit),
                      trn_words_stage (per_m == 1 ? TRN_STAGE_UNIT_METRES : TRN_STAGE_UNIT_FEET));
  double heading_deg = stage->plane.heading_rad * 180 / G_PI;
  double shown_deg = fmod ((has_bearings () ? 90 - heading_deg : heading_deg) + 720, 360);
  gtk_adjustment_set_value (panel->heading, shown_deg);
  gtk_widget_set_visible (panel->heading_row, stage->plane.kind == DESK_SECTION_HEADING);
  panel->following = FALSE;
}

static void
on_at (GtkAdjustment *at, Panel *panel)
{
  if (panel->following)
    return;
  panel->stage->plane.at_m = gtk_adjustment_get_value (at) / units_per_m ();
  apply (panel->stage, TRUE);
}

static void
on_heading (GtkAdjustment *heading, Panel *panel)
{
  if (panel->following)
    return;
  double deg = gtk_adjustment_get_value (heading);
  panel->stage->plane.heading_rad = (has_bearings () ? 90 - deg : deg) * G_PI / 180;
  apply (panel->stage, TRUE);
  follow (panel);
}

static void
on_kind (GtkDropDown *kind, GParamSpec *spec, Panel *panel)
{
  guint selected = gtk_drop_down_get_selected (kind);
  if (panel->following || selected >= DESK_SECTION_N_KINDS)
    return;
  panel->stage->plane.kind = selected;
  place_in_middle (panel->stage);
  apply (panel->stage, TRUE);
  follow (panel);
}

static void
on_flip (GtkCheckButton *flip, Panel *panel)
{
  if (panel->following)
    return;
  panel->stage->plane.flipped = gtk_check_button_get_active (flip);
  apply (panel->stage, TRUE);
}

static GtkWidget *
label_new (TrnStageText text, GtkWidget *of)
{
  GtkWidget *label = gtk_label_new (trn_words_stage (text));
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_mnemonic_widget (GTK_LABEL (label), of);
  gtk_accessible_update_relation (GTK_ACCESSIBLE (of), GTK_ACCESSIBLE_RELATION_LABELLED_BY, label,
                                  NULL, -1);
  return label;
}

static GtkWidget *
kind_new (Panel *panel)
{
  const char *const names[]
      = { trn_words_stage (TRN_STAGE_SECTION_LEVEL), trn_words_stage (TRN_STAGE_SECTION_EAST_WEST),
          trn_words_stage (TRN_STAGE_SECTION_NORTH_SOUTH),
          trn_words_stage (TRN_STAGE_SECTION_HEADING), NULL };
  panel->kind = gtk_drop_down_new_from_strings (names);
  gtk_widget_set_hexpand (panel->kind, TRUE);
  g_signal_connect (panel->kind, "notify::selected", G_CALLBACK (on_kind), panel);
  return panel->kind;
}

static void
add_place (Panel *panel, GtkGrid *grid)
{
  panel->at = gtk_adjustment_new (0, 0, 1, 0.1, 1, 0);
  g_signal_connect (panel->at, "value-changed", G_CALLBACK (on_at), panel);
  panel->spin = gtk_spin_button_new (panel->at, 0.1, 3);
  gtk_widget_set_hexpand (panel->spin, TRUE);
  panel->unit = gtk_label_new (NULL);
  panel->scale = gtk_scale_new (GTK_ORIENTATION_HORIZONTAL, panel->at);
  gtk_widget_set_size_request (panel->scale, 260, -1);
  panel->at_label = label_new (TRN_STAGE_SECTION_AT_LEVEL, panel->spin);
  gtk_accessible_update_relation (GTK_ACCESSIBLE (panel->scale),
                                  GTK_ACCESSIBLE_RELATION_LABELLED_BY, panel->at_label, NULL, -1);
  gtk_grid_attach (grid, panel->at_label, 0, 2, 1, 1);
  gtk_grid_attach (grid, panel->spin, 1, 2, 1, 1);
  gtk_grid_attach (grid, panel->unit, 2, 2, 1, 1);
  gtk_grid_attach (grid, panel->scale, 0, 3, 3, 1);
}

static GtkWidget *
heading_new (Panel *panel)
{
  panel->heading = gtk_adjustment_new (0, 0, 360, 1, 15, 0);
  g_signal_connect (panel->heading, "value-changed", G_CALLBACK (on_heading), panel);
  GtkWidget *spin = gtk_spin_button_new (panel->heading, 1, 1);
  gtk_spin_button_set_wrap (GTK_SPIN_BUTTON (spin), TRUE);
  gtk_widget_set_hexpand (spin, TRUE);
  panel->heading_row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  gtk_box_append (GTK_BOX (panel->heading_row), label_new (TRN_STAGE_SECTION_BEARING, spin));
  gtk_box_append (GTK_BOX (panel->heading_row), spin);
  gtk_box_append (GTK_BOX (panel->heading_row), gtk_label_new ("°"));
  return panel->heading_row;
}

static void
on_map (GtkWidget *grid, Panel *panel)
{
  follow (panel);
}

GtkWidget *
desk_stage_section_new (DeskStage *stage)
{
  Panel *panel = g_new0 (Panel, 1);
  panel->stage = stage;
  GtkWidget *grid = gtk_grid_new ();
  g_object_set_data_full (G_OBJECT (grid), "panel", panel, g_free);
  gtk_grid_set_row_spacing (GTK_GRID (grid), 10);
  gtk_grid_set_column_spacing (GTK_GRID (grid), 12);
  GtkWidget *on = gtk_check_button_new_with_label (trn_words_stage (TRN_STAGE_SECTION_ON));
  gtk_actionable_set_action_name (GTK_ACTIONABLE (on), "stage.section");
  gtk_grid_attach (GTK_GRID (grid), on, 0, 0, 3, 1);
  GtkWidget *kind = kind_new (panel);
  gtk_grid_attach (GTK_GRID (grid), label_new (TRN_STAGE_SECTION_PLANE, kind), 0, 1, 1, 1);
  gtk_grid_attach (GTK_GRID (grid), kind, 1, 1, 2, 1);
  add_place (panel, GTK_GRID (grid));
  gtk_grid_attach (GTK_GRID (grid), heading_new (panel), 0, 4, 3, 1);
  panel->flip = gtk_check_button_new_with_label (trn_words_stage (TRN_STAGE_SECTION_FLIP));
  g_signal_connect (panel->flip, "toggled", G_CALLBACK (on_flip), panel);
  gtk_grid_attach (GTK_GRID (grid), panel->flip, 0, 5, 3, 1);
  g_signal_connect (grid, "map", G_CALLBACK (on_map), panel);
  return grid;
}
