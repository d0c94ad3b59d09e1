/* draw-list.c: what is to be seen, as plain data; and the colours of states (those of
 * bodies are in palette.c).
 *
 * The colours of states are those of Okabe and Ito ("Color Universal Design", 2008), black and
 * white added; the test of the palette holds them apart under every kind of colour blindness. In
 * the dark style, where touching is white, the yellow is a little deeper: the two would come near
 * each other for an eye without blue cones. Shades of text are darker, or lighter, of the same
 * hue. */
#include "draw-list.h"

typedef struct
{
  guint32 mark[2], text[2], casing[2]; /* 0xRRGGBB in the light and in the dark style */
} StateColours;

static const StateColours state_colours[] = {
  [RENDER_STATE_NONE] = { { 0x3C444C, 0xC9D0D6 }, { 0x2B3036, 0xE4E8EB }, { 0xFFFFFF, 0x14171A } },
  [RENDER_STATE_TOUCHING]
  = { { 0x000000, 0xFFFFFF }, { 0x000000, 0xFFFFFF }, { 0xFFFFFF, 0x14171A } },
  [RENDER_STATE_SHORT] = { { 0xD55E00, 0xD55E00 }, { 0x9C4400, 0xFF9A57 }, { 0xFFFFFF, 0xE8ECEF } },
  [RENDER_STATE_TIGHT] = { { 0xF0E442, 0xE8D030 }, { 0x665C00, 0xF0E442 }, { 0x2B2B1A, 0x14171A } },
  [RENDER_STATE_CLEAR] = { { 0x0072B2, 0x0072B2 }, { 0x005A8E, 0x6DB8EC }, { 0xFFFFFF, 0xE8ECEF } },
  [RENDER_STATE_NOT_CHECKED]
  = { { 0x999999, 0x999999 }, { 0x5C5C5C, 0xABABAB }, { 0xFFFFFF, 0x14171A } },
};

static const guint32 paper_colours[] = { 0xF1F4F7, 0x1E2226 };

static RenderColour
colour_make (guint32 rgb)
{
  return (RenderColour){ (rgb >> 16 & 0xFF) / 255.0, (rgb >> 8 & 0xFF) / 255.0,
                         (rgb & 0xFF) / 255.0, 1 };
}

static guint
style_index (gboolean dark)
{
  return dark ? 1 : 0;
}

RenderColour
render_state_colour (RenderState state, gboolean dark)
{
  return colour_make (state_colours[state].mark[style_index (dark)]);
}

RenderColour
render_state_text_colour (RenderState state, gboolean dark)
{
  return colour_make (state_colours[state].text[style_index (dark)]);
}

RenderColour
render_state_casing_colour (RenderState state, gboolean dark)
{
  return colour_make (state_colours[state].casing[style_index (dark)]);
}

RenderColour
render_ink_colour (gboolean dark)
{
  return render_state_colour (RENDER_STATE_NONE, dark);
}

RenderColour
render_paper_colour (gboolean dark)
{
  return colour_make (paper_colours[style_index (dark)]);
}

RenderColour
render_plate_colour (gboolean dark)
{
  RenderColour colour = render_state_text_colour (RENDER_STATE_NONE, dark);
  colour.a = 0.94;
  return colour;
}

RenderColour
render_plate_text_colour (RenderState state, gboolean dark)
{
  return render_state_text_colour (state, !dark);
}

static void
clear_line (gpointer data)
{
  g_free (((RenderLine *)data)->points);
}

static void
clear_label (gpointer data)
{
  g_free (((RenderLabel *)data)->text);
  g_free (((RenderLabel *)data)->others);
}

static void
unref_mesh (gpointer data)
{
  render_mesh_unref (data);
}

RenderDrawList *
render_draw_list_new (void)
{
  RenderDrawList *list = g_new0 (RenderDrawList, 1);
  list->bodies = g_array_new (FALSE, FALSE, sizeof (RenderBody));
  list->lines = g_array_new (FALSE, FALSE, sizeof (RenderLine));
  list->labels = g_array_new (FALSE, FALSE, sizeof (RenderLabel));
  list->marks = g_array_new (FALSE, FALSE, sizeof (RenderMark));
  list->meshes = g_ptr_array_new_with_free_func (unref_mesh);
  g_array_set_clear_func (list->lines, clear_line);
  g_array_set_clear_func (list->labels, clear_label);
  list->extent = trn_box_empty ();
  return list;
}

void
render_draw_list_free (RenderDrawList *list)
{
  if (list == NULL)
    return;
  g_array_unref (list->bodies);
  g_array_unref (list->lines);
  g_array_unref (list->labels);
  g_array_unref (list->marks);
  g_ptr_array_unref (list->meshes);
  g_free (list->caption);
  g_free (list);
}

void
render_draw_list_add_body (RenderDrawList *list, const RenderBody *body)
{
  g_array_append_vals (list->bodies, body, 1);
  for (guint i = 0; i < 8; i++)
    trn_box_add_point (&list->extent, trn_pose_apply (&body->site_from_mesh,
                                                      trn_box_corner (&body->mesh->box, i)));
}

void
render_draw_list_add_line (RenderDrawList *list, const TrnVec3 *points, guint n_points,
                           RenderLineStyle style, double width_px, RenderState state,
                           gboolean on_top)
{
  RenderLine line = { .points = g_memdup2 (points, n_points * sizeof *points),
                      .n_points = n_points,
                      .style = style,
                      .width_px = width_px,
                      .state = state,
                      .on_top = on_top };
  g_array_append_val (list->lines, line);
}

void
render_draw_list_add_label (RenderDrawList *list, const char *text, TrnVec3 at, RenderState state,
                            gboolean quiet)
{
  RenderLabel label = { g_strdup (text), at, state, quiet, NULL, 0 };
  g_array_append_val (list->labels, label);
}

void
render_draw_list_add_note_along (RenderDrawList *list, const char *text, const TrnVec3 *points,
                                 guint n_points)
{
  g_assert (n_points > 0);
  RenderLabel label = { .text = g_strdup (text),
                        .at = points[0],
                        .quiet = TRUE,
                        .others = g_memdup2 (points + 1, (n_points - 1) * sizeof *points),
                        .n_others = n_points - 1 };
  g_array_append_val (list->labels, label);
}

void
render_draw_list_add_mark (RenderDrawList *list, TrnVec3 at, RenderState state)
{
  RenderMark mark = { at, state };
  g_array_append_val (list->marks, mark);
}

const RenderMesh *
render_draw_list_make_mesh (RenderDrawList *list, const TrnMesh *mesh)
{
  RenderMesh *made = render_mesh_build (mesh, 0);
  made->passing = TRUE;
  g_ptr_array_add (list->meshes, made);
  return made;
}
