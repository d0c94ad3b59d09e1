/* number.c: a GtkInscription draws its text in the room that it has, whatever the text is; how much
 * it needs is measured here. */
#include "number.h"

#define BOLD_KEY "desk-number-bold"
#define CHAR_KEY "desk-number-char"
#define LETTERS_KEY "desk-number-letters"
#define ROOM_KEY "desk-number-room"
#define LINES_KEY "desk-number-lines"
#define ROOM_AT_KEY "desk-number-room-at"

#define PLAIN_KEY "desk-number-plain"
#define WIDTHS_KEY "desk-text-widths"

#define MOST_LINES 3

static int
get_int (GtkWidget *number, const char *key)
{
  return GPOINTER_TO_INT (g_object_get_data (G_OBJECT (number), key));
}

static void
set_int (GtkWidget *number, const char *key, int value)
{
  g_object_set_data (G_OBJECT (number), key, GINT_TO_POINTER (value));
}

static PangoLayout *
layout_of (GtkWidget *number, const char *text, gboolean bold)
{
  PangoLayout *layout = gtk_widget_create_pango_layout (number, text);
  g_autoptr (PangoAttrList) attributes = pango_attr_list_new ();
  if (bold)
    pango_attr_list_insert (attributes, pango_attr_weight_new (PANGO_WEIGHT_BOLD));
  pango_attr_list_insert (attributes, pango_attr_font_features_new ("tnum"));
  pango_layout_set_attributes (layout, attributes);
  return layout;
}

static int
width_of (GtkWidget *number, const char *text, gboolean bold)
{
  g_autoptr (PangoLayout) layout = layout_of (number, text, bold);
  int width;
  pango_layout_get_pixel_size (layout, &width, NULL);
  return width;
}

/* Of a widget, in plain and in bold letters. */
typedef struct
{
  guint letters;
  GHashTable *px[2];
} Widths;

static void
widths_free (gpointer data)
{
  Widths *widths = data;
  for (guint i = 0; i < 2; i++)
    g_hash_table_unref (widths->px[i]);
  g_free (widths);
}

static Widths *
widths_of (GtkWidget *widget)
{
  const guint letters = pango_context_get_serial (gtk_widget_get_pango_context (widget));
  Widths *widths = g_object_get_data (G_OBJECT (widget), WIDTHS_KEY);
  if (widths != NULL && widths->letters == letters)
    return widths;
  widths = g_new (Widths, 1);
  widths->letters = letters;
  for (guint i = 0; i < 2; i++)
    widths->px[i] = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_object_set_data_full (G_OBJECT (widget), WIDTHS_KEY, widths, widths_free);
  return widths;
}

int
desk_text_px (GtkWidget *widget, const char *text, gboolean bold)
{
  GHashTable *px = widths_of (widget)->px[bold ? 1 : 0];
  gpointer known;
  if (g_hash_table_lookup_extended (px, text, NULL, &known))
    return GPOINTER_TO_INT (known);
  const int width = width_of (widget, text, bold);
  g_hash_table_insert (px, g_strdup (text), GINT_TO_POINTER (width));
  return width;
}

static guint
lines_of (GtkWidget *name, const char *text, gboolean bold, int room_px)
{
  g_autoptr (PangoLayout) layout = layout_of (name, text, bold);
  pango_layout_set_width (layout, room_px * PANGO_SCALE);
  pango_layout_set_wrap (layout, PANGO_WRAP_WORD_CHAR);
  return (guint)pango_layout_get_line_count (layout);
}

/* As a GtkInscription counts characters, so that what has room keeps it in larger letters, too. */
static int
char_width_of (GtkWidget *number)
{
  PangoContext *context = gtk_widget_get_pango_context (number);
  int letters = (int)pango_context_get_serial (context);
  if (letters == get_int (number, LETTERS_KEY))
    return get_int (number, CHAR_KEY);
  PangoFontMetrics *metrics = pango_context_get_metrics (context, NULL, NULL);
  int width = MAX (pango_font_metrics_get_approximate_char_width (metrics),
                   pango_font_metrics_get_approximate_digit_width (metrics));
  pango_font_metrics_unref (metrics);
  set_int (number, LETTERS_KEY, letters);
  set_int (number, CHAR_KEY, width);
  return width;
}

static gboolean
set_text (GtkWidget *number, const char *text)
{
  GtkInscription *inscription = GTK_INSCRIPTION (number);
  if (g_strcmp0 (gtk_inscription_get_text (inscription), text) == 0)
    return FALSE;
  gtk_inscription_set_text (inscription, text);
  return TRUE;
}

void
desk_number_make_room (GtkWidget *number, const char *text)
{
  int char_width = MAX (char_width_of (number), 1);
  /* Bold, as which it may be shown next. */
  const gboolean bold = !get_int (number, PLAIN_KEY);
  int chars = (PANGO_SCALE * width_of (number, text, bold) + char_width - 1) / char_width;
  if ((guint)chars <= gtk_inscription_get_min_chars (GTK_INSCRIPTION (number)))
    return;
  gtk_inscription_set_min_chars (GTK_INSCRIPTION (number), (guint)chars);
  gtk_inscription_set_nat_chars (GTK_INSCRIPTION (number), (guint)chars);
}

void
desk_number_set (GtkWidget *number, const char *text)
{
  if (set_text (number, text))
    desk_number_make_room (number, text);
}

static GtkWidget *
inscription_new (const char *style_class)
{
  GtkWidget *number = gtk_inscription_new (NULL);
  GtkInscription *inscription = GTK_INSCRIPTION (number);
  gtk_widget_add_css_class (number, "room-number");
  if (style_class != NULL)
    gtk_widget_add_css_class (number, style_class);
  gtk_inscription_set_text_overflow (inscription, GTK_INSCRIPTION_OVERFLOW_ELLIPSIZE_END);
  gtk_inscription_set_min_chars (inscription, 0);
  gtk_inscription_set_nat_chars (inscription, 0);
  return number;
}

GtkWidget *
desk_number_new (const char *style_class)
{
  GtkWidget *number = inscription_new (style_class);
  gtk_inscription_set_xalign (GTK_INSCRIPTION (number), 1);
  gtk_inscription_set_yalign (GTK_INSCRIPTION (number), 0.5F);
  return number;
}

void
desk_number_set_xalign (GtkWidget *number, float xalign)
{
  gtk_inscription_set_xalign (GTK_INSCRIPTION (number), xalign);
}

void
desk_number_stay_plain (GtkWidget *number)
{
  set_int (number, PLAIN_KEY, TRUE);
}

GtkWidget *
desk_name_line_new (int room_px)
{
  GtkWidget *name = inscription_new (NULL);
  gtk_inscription_set_xalign (GTK_INSCRIPTION (name), 0);
  gtk_inscription_set_yalign (GTK_INSCRIPTION (name), 0);
  gtk_inscription_set_wrap_mode (GTK_INSCRIPTION (name), PANGO_WRAP_WORD_CHAR);
  set_int (name, ROOM_KEY, room_px);
  return name;
}

void
desk_number_set_bold (GtkWidget *number, gboolean bold)
{
  gboolean was_bold = gtk_inscription_get_attributes (GTK_INSCRIPTION (number)) != NULL;
  if (bold == was_bold)
    return;
  g_autoptr (PangoAttrList) attributes = bold ? pango_attr_list_new () : NULL;
  if (bold)
    pango_attr_list_insert (attributes, pango_attr_weight_new (PANGO_WEIGHT_BOLD));
  gtk_inscription_set_attributes (GTK_INSCRIPTION (number), attributes);
}

void
desk_name_line_set (GtkWidget *name, const char *text, gboolean may_shrink)
{
  gboolean bold = gtk_inscription_get_attributes (GTK_INSCRIPTION (name)) != NULL;
  int room_px = gtk_widget_get_width (name);
  if (room_px == 0)
    room_px = get_int (name, ROOM_KEY);
  if (set_text (name, text) || bold != get_int (name, BOLD_KEY)
      || room_px != get_int (name, ROOM_AT_KEY))
    set_int (name, LINES_KEY, (int)MIN (lines_of (name, text, bold, room_px), MOST_LINES));
  set_int (name, BOLD_KEY, bold);
  set_int (name, ROOM_AT_KEY, room_px);
  guint lines = (guint)get_int (name, LINES_KEY);
  if (lines < gtk_inscription_get_min_lines (GTK_INSCRIPTION (name)) && !may_shrink)
    return;
  gtk_inscription_set_min_lines (GTK_INSCRIPTION (name), lines);
  gtk_inscription_set_nat_lines (GTK_INSCRIPTION (name), lines);
}

gboolean
desk_label_set (GtkWidget *label, const char *text)
{
  if (g_strcmp0 (gtk_label_get_text (GTK_LABEL (label)), text) == 0)
    return FALSE;
  gtk_label_set_text (GTK_LABEL (label), text);
  return TRUE;
}
